/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A reckoning as text for a terminal: what governs, then each choice with its lines and totals and,
 * when asked why, every step in words with what the terms cite for it. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-job-document.h"

#include "office/wb-text-table.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

#define ITEM_WIDTH 36

/**
 * Report:
 * @out: what is written so far
 * @why: whether to tell the steps
 * @told: one a line: the reasons to tell of it, in their order; %NULL for none
 */
typedef struct
{
  const WbReckoning *reckoning;
  gboolean           why;
  GPtrArray        **told;
  GString           *out;
} Report;

static char *
words_of_amount (const Report *self,
                 gint64        minor)
{
  return wb_words_minor (minor, self->reckoning->terms->currency);
}

static char *
sentence_of (const Report   *self,
             const WbReason *reason)
{
  g_autofree char *words = wb_words_reason (self->reckoning, reason);
  const char *citation = wb_words_reason_source (self->reckoning, reason);

  if (citation == NULL)
    return g_steal_pointer (&words);

  return g_strdup_printf ("%s [%s]", words, citation);
}

/* --- head ------------------------------------------------------------------------------------- */

/* Returns: (transfer full) (nullable): the shipper's name, or company. */
static char *
find_shipper (const WbJob *job)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PARTY); i++)
    {
      const WbParty *party = wb_job_nth (job, WB_KIND_PARTY, i);

      if (party->role == WB_ROLE_SHIPPER)
        return g_strdup (party->name != NULL ? party->name : party->company);
    }

  return NULL;
}

static void
add_head_row (WbTextTable *table,
              const char  *label,
              const char  *text)
{
  if (text != NULL && *text != '\0')
    wb_text_table_add_row (table, label, text);
}

static char *
words_of_terms (const WbTerms *terms)
{
  g_autofree char *from = wb_words_date (&terms->from);
  g_autofree char *until = NULL;

  if (!wb_date_is_set (&terms->until))
    /* Translators: title and short name of a terms file, the first day on which the edition is in
       force. */
    return g_strdup_printf (_("%s (%s), edition in force from %s"), terms->title, terms->regime,
                            from);

  until = wb_words_date (&terms->until);
  /* Translators: as before, and the last day. */
  return g_strdup_printf (_("%s (%s), edition in force from %s to %s"), terms->title, terms->regime,
                          from, until);
}

static void
append_head (const Report *self)
{
  const WbReckoning *reckoning = self->reckoning;
  const WbOrder *order = wb_job_order (reckoning->job);
  g_autoptr (WbTextTable) table = wb_text_table_new ("ll");
  g_autofree char *shipper = find_shipper (reckoning->job);
  g_autofree char *terms = words_of_terms (reckoning->terms);

  add_head_row (table, _("Claim"), reckoning->claim->number);
  add_head_row (table, _("Job"), order->number);
  add_head_row (table, _("Bill of lading"), order->bill_number);
  add_head_row (table, _("Shipper"), shipper);
  add_head_row (table, _("Terms"), terms);
  add_head_row (table, _("Applies"), wb_words_enum (&wb_sides, (int) reckoning->applies));
  wb_text_table_append (table, 0, self->out);
  g_string_append_c (self->out, '\n');
}

/* The steps that hold for both choices: which one applies is always told, the rest when asked
 * why. */
static void
append_general (const Report *self)
{
  const WbReason *reason;
  WbReasonIter iter;

  wb_reason_iter_init (&iter, self->reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    {
      g_autofree char *sentence = NULL;

      if (reason->scope != WB_SCOPE_GENERAL || reason->line != WB_REASON_WHOLE_CLAIM)
        continue;
      if (!self->why && reason->rule != WB_RULE_CHOICE && reason->rule != WB_RULE_FILING &&
          reason->rule != WB_RULE_MISSING_FIGURE)
        continue;
      sentence = sentence_of (self, reason);
      wb_text_append_paragraph (self->out, 0, 2, sentence);
    }
  g_string_append_c (self->out, '\n');
}

/* --- one choice ------------------------------------------------------------------------------- */

/* Returns: (transfer full): what is claimed, cut to the column. */
static char *
name_of_line (const Report          *self,
              const WbLineReckoning *row)
{
  g_autofree char *name = NULL;
  g_autofree char *cut = NULL;

  if (row->line->item != NULL)
    {
      name = g_strdup (row->line->item);
    }
  else if (row->piece != NULL)
    {
      g_autofree char *tag = wb_words_tag (self->reckoning->job, row->piece);

      name = g_strdup_printf ("%s %s", tag,
                              row->piece->description != NULL ? row->piece->description : "");
    }
  else
    {
      name = g_strdup (_("not on the inventory"));
    }

  if (g_utf8_strlen (name, -1) <= ITEM_WIDTH)
    return g_steal_pointer (&name);

  cut = g_utf8_substring (name, 0, ITEM_WIDTH - 1);
  return g_strconcat (cut, "…", NULL);
}

/* Puts the reasons with their lines, once for all. What is missing is told in any case. */
static void
collect_told (Report *self)
{
  const WbReason *reason;
  WbReasonIter iter;

  self->told = g_new0 (GPtrArray *, self->reckoning->n_lines);
  wb_reason_iter_init (&iter, self->reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    {
      if (reason->line == WB_REASON_WHOLE_CLAIM ||
          (!self->why && reason->rule != WB_RULE_MISSING_FIGURE))
        continue;
      if (self->told[reason->line] == NULL)
        self->told[reason->line] = g_ptr_array_new ();
      g_ptr_array_add (self->told[reason->line], (gpointer) reason);
    }
}

static void
clear_told (Report *self)
{
  for (guint i = 0; i < self->reckoning->n_lines; i++)
    g_clear_pointer (&self->told[i], g_ptr_array_unref);
  g_clear_pointer (&self->told, g_free);
}

/* Why a line is as it is. */
static void
add_line_reasons (const Report *self,
                  WbTextTable  *table,
                  WbSide        side,
                  guint         index)
{
  const GPtrArray *told = self->told[index];

  for (guint i = 0; told != NULL && i < told->len; i++)
    {
      const WbReason *reason = g_ptr_array_index (told, i);
      g_autofree char *sentence = NULL;

      if (reason->scope != (guint) side && reason->scope != WB_SCOPE_GENERAL)
        continue;
      sentence = sentence_of (self, reason);
      wb_text_table_add_note (table, 6, sentence);
    }
}

static void
add_line (const Report *self,
          WbTextTable  *table,
          WbSide        side,
          guint         index)
{
  const WbLineReckoning *row = &self->reckoning->lines[index];
  const WbLineFigures *figures = &row->side[side];
  g_autofree char *number = g_strdup_printf ("%" G_GINT64_FORMAT, row->line->number);
  g_autofree char *name = name_of_line (self, row);
  g_autofree char *loss = words_of_amount (self, figures->loss);
  g_autofree char *allowed = words_of_amount (self, figures->allowed);
  g_autofree char *covered = words_of_amount (self, figures->covered);
  g_autofree char *deducted = words_of_amount (self, figures->deducted);
  g_autofree char *owed = words_of_amount (self, figures->owed);

  wb_text_table_add_row (table, number, name, loss, allowed, covered, deducted, owed);
  add_line_reasons (self, table, side, index);
}

static void
append_lines (const Report *self,
              WbSide        side)
{
  const WbSideReckoning *totals = &self->reckoning->side[side];
  g_autoptr (WbTextTable) table = wb_text_table_new ("rlrrrrr");
  g_autofree char *loss = words_of_amount (self, totals->loss);
  g_autofree char *allowed = words_of_amount (self, totals->allowed);
  g_autofree char *covered = words_of_amount (self, totals->covered);
  g_autofree char *deducted = words_of_amount (self, totals->deducted);
  g_autofree char *owed = words_of_amount (self, totals->owed);

  wb_text_table_add_row (table, _("Line"), _("Item"), _("Loss"), _("Allowed"), _("In limit"),
                         _("Deducted"), _("Owed"));
  for (guint i = 0; i < self->reckoning->n_lines; i++)
    add_line (self, table, side, i);
  wb_text_table_add_row (table, "", _("Together"), loss, allowed, covered, deducted, owed);
  wb_text_table_append (table, 2, self->out);
}

static void
add_total (const Report *self,
           WbTextTable  *table,
           const char   *label,
           gint64        minor)
{
  g_autofree char *amount = words_of_amount (self, minor);

  wb_text_table_add_row (table, label, amount);
}

static void
append_totals (const Report *self,
               WbSide        side)
{
  const WbSideReckoning *totals = &self->reckoning->side[side];
  g_autoptr (WbTextTable) table = wb_text_table_new ("lr");

  if (totals->has_limit)
    {
      add_total (self, table, _("Limit of the shipment"), totals->shipment_limit);
      add_total (self, table, _("Used by other claims"), totals->earlier);
      add_total (self, table, _("Limit left"), totals->limit_left);
    }
  else
    {
      wb_text_table_add_row (table, _("Limit of the shipment"), _("none"));
    }
  add_total (self, table, _("Deductible left to bear"), totals->deductible);
  add_total (self, table, _("Owed"), totals->owed);
  add_total (self, table, _("Freight refund"), totals->freight_refund);
  add_total (self, table, _("Already paid on this claim"), totals->paid);
  if (totals->freight_paid != 0)
    add_total (self, table, _("Freight refund in it"), totals->freight_paid);
  add_total (self, table, _("Balance"), totals->balance);
  wb_text_table_append (table, 2, self->out);
}

static void
append_side_reasons (const Report *self,
                     WbSide        side)
{
  const WbReason *reason;
  WbReasonIter iter;

  wb_reason_iter_init (&iter, self->reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    {
      g_autofree char *sentence = NULL;

      if (reason->line != WB_REASON_WHOLE_CLAIM || reason->scope != (guint) side ||
          (!self->why && reason->rule != WB_RULE_MISSING_FIGURE))
        continue;
      sentence = sentence_of (self, reason);
      wb_text_append_paragraph (self->out, 4, 2, sentence);
    }
}

static void
append_side (const Report *self,
             WbSide        side)
{
  const WbSideReckoning *totals = &self->reckoning->side[side];

  g_string_append (self->out, wb_words_enum (&wb_sides, (int) side));
  if (side == self->reckoning->applies)
    /* Translators: behind the name of the choice that applies. */
    g_string_append (self->out, _(" – applies"));
  g_string_append_c (self->out, '\n');

  if (!totals->offered)
    {
      wb_text_append_paragraph (self->out, 2, 2, _("These terms do not have this choice."));
    }
  else
    {
      append_lines (self, side);
      g_string_append_c (self->out, '\n');
      append_totals (self, side);
      append_side_reasons (self, side);
      if (!totals->complete)
        wb_text_append_paragraph (self->out, 2, 2,
                                  _("Some figures are missing, so these amounts are not the last "
                                    "word."));
    }
  g_string_append_c (self->out, '\n');
}

char *
wb_reckoning_report (const WbReckoning *reckoning,
                     gboolean           why)
{
  Report report = { .reckoning = reckoning, .why = why };
  g_autofree char *caution = wb_words_caution ();

  g_return_val_if_fail (reckoning != NULL, NULL);

  report.out = g_string_new (NULL);
  collect_told (&report);
  append_head (&report);
  append_general (&report);
  append_side (&report, reckoning->applies);
  for (int side = 0; side < WB_N_SIDES; side++)
    {
      if ((WbSide) side != reckoning->applies)
        append_side (&report, (WbSide) side);
    }
  wb_text_append_paragraph (report.out, 0, 0, caution);
  clear_told (&report);

  return g_string_free (report.out, FALSE);
}
