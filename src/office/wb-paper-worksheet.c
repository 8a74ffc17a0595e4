/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The worksheet of a claim: what is claimed, what both choices come to line by line, what was paid,
 * and every step with what it rests on. The figures are the reckoning's. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-papers-private.h"

#include "office/wb-side-statements.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

/* --- head ------------------------------------------------------------------------------------- */

static char *
words_of_terms (const WbTerms *terms)
{
  g_autofree char *from = wb_words_date (&terms->from);

  /* Translators: title and short name of a terms file, the first day on which the edition is in
     force. */
  return g_strdup_printf (_("%s (%s), edition in force from %s"), terms->title, terms->regime, from);
}

static void
add_head (WbDocument         *self,
          const WbPaperInput *input,
          const WbClaim      *claim)
{
  const WbOrder *order = wb_job_order (input->job);
  g_autofree char *terms = input->terms != NULL ? words_of_terms (input->terms) : NULL;

  wb_paper_add_fields (self, claim, "number", "status", "claimant", "received_on",
                       "acknowledged_on", "inspected_on", "decided_on", NULL);
  wb_paper_add_fields (self, order, "number", "bill_number", NULL);
  wb_document_add_field (self, _("Shipper"),
                         wb_paper_party_name (wb_paper_party (input->job, WB_ROLE_SHIPPER)));
  wb_paper_add_fields (self, order, "picked_up_on", "delivered_on", NULL);
  wb_document_add_field (self, _("Terms"), terms);
}

/* --- what is claimed -------------------------------------------------------------------------- */

static int
compare_lines (gconstpointer a,
               gconstpointer b)
{
  const WbClaimLine *x = *(const WbClaimLine *const *) a;
  const WbClaimLine *y = *(const WbClaimLine *const *) b;

  return (x->number > y->number) - (x->number < y->number);
}

static GPtrArray *
lines_of (const WbJob   *job,
          const WbClaim *claim)
{
  GPtrArray *lines = g_ptr_array_new ();

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *line = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);

      if (g_strcmp0 (line->claim, claim->record.id) == 0)
        g_ptr_array_add (lines, (gpointer) line);
    }
  g_ptr_array_sort (lines, compare_lines);
  return lines;
}

static char *
judgement_of (const WbClaimLine *line)
{
  g_autofree char *verdict = wb_paper_value (line, "verdict");
  g_autofree char *judged = wb_paper_join (": ", verdict, line->verdict_reason, wb_paper_end);
  g_autofree char *ruling = wb_paper_value (line, "ruling");
  g_autofree char *ruled = wb_paper_join (": ", ruling, line->ruling_reason, wb_paper_end);
  g_autofree char *defence = wb_paper_value (line, "defence");

  return wb_paper_join (". ", judged, line->ruling_reason != NULL ? ruled : NULL, defence,
                        wb_paper_end);
}

static void
add_claimed (WbDocument    *self,
             const WbJob   *job,
             const WbClaim *claim)
{
  g_autoptr (GPtrArray) lines = lines_of (job, claim);
  WbBlock *table;

  wb_document_add_heading (self, 1, _("What is claimed"));
  if (lines->len == 0)
    {
      wb_document_add_text (self, WB_BLOCK_PARAGRAPH, _("The claim has no line."));
      return;
    }
  table = wb_document_add_table (self, "rlllrrrr", _("Line"), _("Item"), _("Loss"), _("Ruling"),
                                 _("Demanded"), _("Replacement"), _("Repair"), _("Salvage"));
  for (guint i = 0; i < lines->len; i++)
    {
      const WbClaimLine *line = g_ptr_array_index (lines, i);
      g_autofree char *number = wb_paper_value (line, "number");
      g_autofree char *item = wb_paper_claimed (job, line);
      g_autofree char *loss = wb_paper_value (line, "loss");
      g_autofree char *demanded = wb_paper_value (line, "demanded");
      g_autofree char *replacement = wb_paper_value (line, "replacement");
      g_autofree char *repair = wb_paper_value (line, "repair");
      g_autofree char *salvage = wb_paper_value (line, "salvage");
      g_autofree char *judgement = judgement_of (line);

      wb_table_add_row (table, number, item, loss, wb_words_enum (&wb_rulings, (int) line->ruling),
                        demanded, replacement, repair, salvage);
      wb_table_add_note (table, judgement);
    }
}

/* --- one choice ------------------------------------------------------------------------------- */

static void
add_amounts (WbBlock             *table,
             const WbReckoning   *reckoning,
             const char          *number,
             const char          *item,
             const gint64         minor[5],
             gboolean             total)
{
  char *words[5];

  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    words[i] = wb_words_minor (minor[i], reckoning->terms->currency);
  if (total)
    wb_table_add_total (table, number, item, words[0], words[1], words[2], words[3], words[4]);
  else
    wb_table_add_row (table, number, item, words[0], words[1], words[2], words[3], words[4]);
  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    g_free (words[i]);
}

static void
add_lines (WbDocument        *self,
           const WbReckoning *reckoning,
           WbSide             side)
{
  const WbSideReckoning *sum = &reckoning->side[side];
  const gint64 sums[5] = { sum->loss, sum->allowed, sum->covered, sum->deducted, sum->owed };
  WbBlock *table = wb_document_add_table (self, "rlrrrrr", _("Line"), _("Item"), _("Loss"),
                                          _("Allowed"), _("In limit"), _("Deducted"), _("Owed"));

  for (guint i = 0; i < reckoning->n_lines; i++)
    {
      const WbClaimLine *line = reckoning->lines[i].line;
      const WbLineFigures *figures = &reckoning->lines[i].side[side];
      const gint64 minor[5] = { figures->loss, figures->allowed, figures->covered,
                                figures->deducted, figures->owed };
      g_autofree char *number = g_strdup_printf ("%" G_GINT64_FORMAT, line->number);
      g_autofree char *item = wb_paper_claimed (reckoning->job, line);

      add_amounts (table, reckoning, number, item, minor, FALSE);
    }
  add_amounts (table, reckoning, NULL, _("Together"), sums, TRUE);
}

static void
add_sum (WbBlock           *table,
         const WbReckoning *reckoning,
         const char        *label,
         gint64             minor,
         gboolean           total)
{
  g_autofree char *words = wb_words_minor (minor, reckoning->terms->currency);

  if (total)
    wb_table_add_total (table, label, words);
  else
    wb_table_add_row (table, label, words);
}

static void
add_sums (WbDocument        *self,
          const WbReckoning *reckoning,
          WbSide             side)
{
  const WbSideReckoning *sums = &reckoning->side[side];
  WbBlock *table = wb_document_add_table (self, "lr", NULL);

  if (sums->has_limit)
    {
      add_sum (table, reckoning, _("Limit of the shipment"), sums->shipment_limit, FALSE);
      add_sum (table, reckoning, _("Used by other claims"), sums->earlier, FALSE);
      add_sum (table, reckoning, _("Limit left"), sums->limit_left, FALSE);
    }
  else
    {
      wb_table_add_row (table, _("Limit of the shipment"), _("none"));
    }
  add_sum (table, reckoning, _("Deductible left to bear"), sums->deductible, FALSE);
  add_sum (table, reckoning, _("Owed"), sums->owed, FALSE);
  add_sum (table, reckoning, _("Freight refund"), sums->freight_refund, FALSE);
  add_sum (table, reckoning, _("Already paid on this claim"), sums->paid, FALSE);
  if (sums->freight_paid != 0)
    add_sum (table, reckoning, _("Freight refund in it"), sums->freight_paid, FALSE);
  add_sum (table, reckoning, _("Balance"), sums->balance, TRUE);
}

static void
add_side (WbDocument        *self,
          const WbReckoning *reckoning,
          WbSide             side)
{
  const char *name = wb_words_enum (&wb_sides, (int) side);
  /* Translators: a choice of liability. */
  g_autofree char *applies = g_strdup_printf (_("%s – applies"), name);

  wb_document_add_heading (self, 1, side == reckoning->applies ? applies : name);
  if (!reckoning->side[side].offered)
    {
      wb_document_add_text (self, WB_BLOCK_PARAGRAPH, _("These terms do not have this choice."));
      return;
    }
  add_lines (self, reckoning, side);
  add_sums (self, reckoning, side);
  if (!reckoning->side[side].complete)
    wb_document_add_text (self, WB_BLOCK_PARAGRAPH,
                          _("Some figures are missing, so these amounts are not the last word."));
}

/* --- what was paid, and why ------------------------------------------------------------------- */

static void
add_payments (WbDocument    *self,
              const WbJob   *job,
              const WbClaim *claim)
{
  WbBlock *table = NULL;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PAYMENT); i++)
    {
      const WbPayment *payment = wb_job_nth (job, WB_KIND_PAYMENT, i);
      g_autofree char *on = wb_paper_value (payment, "on");
      g_autofree char *amount = wb_paper_value (payment, "amount");
      g_autofree char *taken = wb_paper_value (payment, "deductible_taken");
      g_autofree char *freight = wb_paper_value (payment, "freight_refund");

      if (g_strcmp0 (payment->claim, claim->record.id) != 0)
        continue;
      if (table == NULL)
        {
          wb_document_add_heading (self, 1, _("Payments"));
          table = wb_document_add_table (self, "lrrr", _("Paid on"), _("Amount"),
                                         _("Deductible taken"), _("Freight refund in it"));
        }
      wb_table_add_row (table, on, amount, taken, freight);
      wb_table_add_note (table, payment->notes);
      wb_document_add_day (self, &payment->on);
    }
}

static void
add_why (WbDocument        *self,
         const WbReckoning *reckoning)
{
  static const WbScope scopes[] = { WB_SCOPE_RELEASED, WB_SCOPE_FULL };

  wb_document_add_heading (self, 1, _("How it comes about"));
  wb_document_add_heading (self, 2, _("For both choices"));
  wb_paper_add_steps (self, reckoning, WB_SCOPE_GENERAL);
  for (gsize i = 0; i < G_N_ELEMENTS (scopes); i++)
    {
      WbSide side = scopes[i] == WB_SCOPE_FULL ? WB_SIDE_FULL : WB_SIDE_RELEASED;

      if (!reckoning->side[side].offered)
        continue;
      wb_document_add_heading (self, 2, wb_words_enum (&wb_sides, (int) side));
      wb_paper_add_steps (self, reckoning, scopes[i]);
    }
}

/* Why there are no figures. */
static void
add_fault (WbDocument         *self,
           const WbPaperInput *input,
           const GError       *error)
{
  g_autofree char *words = input->terms != NULL
                           ? wb_words_error (error)
                           : wb_valuation_no_terms (wb_job_order (input->job), input->fault);

  wb_document_add_heading (self, 1, _("What is owed"));
  wb_document_add_text (self, WB_BLOCK_PARAGRAPH, words);
}

WbDocument *
wb_paper_worksheet (const WbPaperInput *input,
                    const WbClaim      *claim)
{
  g_autofree char *title = g_strdup_printf (_("Worksheet of claim %s"), claim->number);
  WbDocument *self = wb_paper_begin (input, title);
  g_autofree char *caution = wb_words_caution ();
  g_autoptr (GError) error = NULL;
  g_autoptr (WbReckoning) reckoning = NULL;

  if (input->terms != NULL)
    reckoning = wb_reckon (input->terms, input->job, claim->record.id, &error);
  add_head (self, input, claim);
  add_claimed (self, input->job, claim);
  if (reckoning != NULL)
    {
      add_side (self, reckoning, reckoning->applies);
      add_side (self, reckoning, reckoning->applies == WB_SIDE_FULL ? WB_SIDE_RELEASED
                                                                    : WB_SIDE_FULL);
    }
  else
    {
      add_fault (self, input, error);
    }
  add_payments (self, input->job, claim);
  if (reckoning != NULL)
    add_why (self, reckoning);
  wb_document_add_text (self, WB_BLOCK_CAUTION, caution);
  return self;
}
