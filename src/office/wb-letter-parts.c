/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parts that stand in several letters: the head, the list of what is asked for, the end. */
#include "config.h"

#include "office/wb-letter-private.h"

#include "core/wb-intake.h"
#include "core/wb-quote.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>
#include <inttypes.h>

/* --- lines ------------------------------------------------------------------------------------ */

static int
compare_numbers (gconstpointer a,
                 gconstpointer b)
{
  const WbClaimLine *x = *(const WbClaimLine *const *) a;
  const WbClaimLine *y = *(const WbClaimLine *const *) b;

  return (x->number > y->number) - (x->number < y->number);
}

GPtrArray *
wb_letter_lines (const WbLetterInput *input)
{
  GPtrArray *lines = g_ptr_array_new ();

  for (guint i = 0; i < wb_job_count (input->job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *line = wb_job_nth (input->job, WB_KIND_CLAIM_LINE, i);

      if (g_strcmp0 (line->claim, input->claim->record.id) == 0)
        g_ptr_array_add (lines, (gpointer) line);
    }
  g_ptr_array_sort (lines, compare_numbers);
  return lines;
}

const char *
wb_letter_item (const WbJob       *job,
                const WbClaimLine *line)
{
  const WbPiece *piece = wb_job_find (job, WB_KIND_PIECE, line->piece);

  if (line->item != NULL)
    return line->item;
  if (piece != NULL && piece->description != NULL)
    return piece->description;
  return _("not described");
}

/* --- head ------------------------------------------------------------------------------------- */

static const WbParty *
find_party (const WbJob *job,
            WbRole       role)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PARTY); i++)
    {
      const WbParty *party = wb_job_nth (job, WB_KIND_PARTY, i);

      if (party->role == role)
        return party;
    }
  return NULL;
}

static void
add_line (GString    *out,
          const char *text)
{
  if (text == NULL)
    return;
  if (out->len > 0)
    g_string_append_c (out, '\n');
  g_string_append (out, text);
}

/* "Dayton, OH 45402"; NULL when nothing of it is known. */
static char *
town (const char *city,
      const char *region,
      const char *postal_code)
{
  g_autoptr (GString) out = g_string_new (city);

  if (region != NULL)
    g_string_append_printf (out, "%s%s", out->len > 0 ? ", " : "", region);
  if (postal_code != NULL)
    g_string_append_printf (out, "%s%s", out->len > 0 ? " " : "", postal_code);
  return out->len > 0 ? g_string_free (g_steal_pointer (&out), FALSE) : NULL;
}

static void
add_address (GString    *out,
             const char *street,
             const char *city,
             const char *region,
             const char *postal_code,
             const char *country)
{
  g_autofree char *place = town (city, region, postal_code);

  add_line (out, street);
  add_line (out, place);
  add_line (out, country);
}

static void
add_sender (WbLetter            *self,
            const WbLetterInput *input)
{
  const WbParty *carrier = find_party (input->job, WB_ROLE_CARRIER);
  g_autoptr (GString) out = g_string_new (NULL);

  if (carrier == NULL)
    {
      wb_letter_add_note (self, "%s", _("The job names no carrier, so the letter has no sender; "
                                        "add the party to the order, or use paper with a "
                                        "letterhead."));
      return;
    }
  add_line (out, carrier->company != NULL ? carrier->company : carrier->name);
  add_address (out, carrier->street, carrier->city, carrier->region, carrier->postal_code,
               carrier->country);
  add_line (out, carrier->phone);
  add_line (out, carrier->email);
  wb_letter_add (self, WB_LETTER_BLOCK_LINES, out->str);
}

/* The last stop of delivery: where the claimant most likely is. */
static const WbStop *
find_delivery (const WbJob *job)
{
  const WbStop *found = NULL;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_STOP); i++)
    {
      const WbStop *stop = wb_job_nth (job, WB_KIND_STOP, i);

      if (stop->kind == WB_STOP_DELIVERY)
        found = stop;
    }
  return found;
}

static const WbParty *
find_claimant (const WbLetterInput *input)
{
  for (guint i = 0; i < wb_job_count (input->job, WB_KIND_PARTY); i++)
    {
      const WbParty *party = wb_job_nth (input->job, WB_KIND_PARTY, i);

      if (input->claim->claimant != NULL && g_strcmp0 (party->name, input->claim->claimant) == 0)
        return party;
    }
  return NULL;
}

/* Whether the shipper lives where the goods were delivered by now. */
static gboolean
has_moved_in (const WbLetterInput *input,
              const WbParty       *party,
              const WbStop        *delivery)
{
  return party != NULL && party->role == WB_ROLE_SHIPPER && delivery != NULL
         && delivery->street != NULL
         && wb_date_is_set (&wb_job_order (input->job)->delivered_on);
}

static void
add_recipient (WbLetter            *self,
               const WbLetterInput *input)
{
  const WbParty *party = find_claimant (input);
  const WbStop *delivery = find_delivery (input->job);
  g_autoptr (GString) out = g_string_new (input->claim->claimant);

  if (input->claim->claimant == NULL)
    wb_letter_add_fault (self, "%s", _("The claim does not say who claims; the letter has to be "
                                       "written to somebody."));
  if (has_moved_in (input, party, delivery))
    add_address (out, delivery->street, delivery->city, delivery->region, delivery->postal_code,
                 delivery->country);
  else if (party != NULL && (party->street != NULL || party->city != NULL))
    add_address (out, party->street, party->city, party->region, party->postal_code,
                 party->country);
  else
    wb_letter_add_note (self, "%s", _("No address of the claimant is noted."));
  wb_letter_add (self, WB_LETTER_BLOCK_LINES, out->str);
}

static void
add_reference (WbLetterBlock *table,
               const char    *label,
               const char    *text)
{
  if (text != NULL)
    wb_letter_add_row (table, label, text);
}

static void
add_reference_date (WbLetterBlock *table,
                    const char    *label,
                    const GDate   *date)
{
  g_autofree char *words = wb_date_is_set (date) ? wb_words_date (date) : NULL;

  add_reference (table, label, words);
}

void
wb_letter_begin (WbLetter            *self,
                 const WbLetterInput *input)
{
  const WbOrder *order = wb_job_order (input->job);
  g_autofree char *day = wb_words_date (input->on);
  WbLetterBlock *table;

  add_sender (self, input);
  wb_letter_add (self, WB_LETTER_BLOCK_LINES, day);
  add_recipient (self, input);
  wb_letter_add (self, WB_LETTER_BLOCK_HEADING, self->title);
  table = wb_letter_add_table (self, "ll", FALSE);
  add_reference (table, _("Claim number"), input->claim->number);
  add_reference_date (table, _("Received on"), &input->claim->received_on);
  add_reference (table, _("Bill of lading"), order->bill_number);
  add_reference (table, _("Our job number"), order->number);
  add_reference_date (table, _("Picked up on"), &order->picked_up_on);
  add_reference_date (table, _("Delivered on"), &order->delivered_on);
  if (!wb_date_is_set (&input->claim->received_on))
    wb_letter_add_fault (self, "%s", _("The day on which the claim was received is not noted; 49 "
                                       "CFR 370.5(b) wants it on the letter."));
}

/* --- end -------------------------------------------------------------------------------------- */

void
wb_letter_add_cited (WbLetter            *self,
                     const WbLetterInput *input,
                     WbTermsKey           key,
                     const char          *text)
{
  const char *citation = input->terms != NULL
                         ? wb_terms_citation (input->terms, WB_SCOPE_GENERAL, key) : NULL;
  g_autofree char *whole = NULL;

  if (citation != NULL)
    whole = g_strdup_printf ("%s [%s]", text, citation);
  wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH, whole != NULL ? whole : text);
}

/* Whoever writes, below it the name of the carrier. */
static void
add_signature (WbLetter            *self,
               const WbLetterInput *input)
{
  const WbParty *carrier = find_party (input->job, WB_ROLE_CARRIER);
  const char *name = carrier == NULL ? NULL
                     : carrier->company != NULL ? carrier->company : carrier->name;
  g_autoptr (GString) out = g_string_new (_("Sincerely,"));
  /* Translators: %s is the name of the carrier. */
  g_autofree char *for_whom = name != NULL ? g_strdup_printf (_("for %s"), name) : NULL;

  g_string_append (out, "\n\n");
  add_line (out, wb_job_order (input->job)->coordinator);
  add_line (out, for_whom);
  wb_letter_add (self, WB_LETTER_BLOCK_LINES, out->str);
}

/* Where the claimant signs. */
static void
add_places_to_sign (WbLetter *self)
{
  static const char *const labels[] = { N_("Signed:"), N_("Name:"), N_("Date:") };

  for (gsize i = 0; i < G_N_ELEMENTS (labels); i++)
    {
      g_autofree char *line = g_strdup_printf ("%s ________________________________",
                                               _(labels[i]));

      wb_letter_add (self, WB_LETTER_BLOCK_LINES, line);
    }
}

void
wb_letter_end (WbLetter            *self,
               const WbLetterInput *input)
{
  if (self->kind != WB_LETTER_STATUS)
    wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH, input->remark);
  wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH,
                 _("The bill of lading and the carrier’s tariff govern this claim. Where they say "
                   "otherwise than this letter, they decide."));
  if (self->kind == WB_LETTER_RELEASE)
    add_places_to_sign (self);
  else
    add_signature (self, input);
}

/* --- what is asked for ------------------------------------------------------------------------ */

static const char *const gap_requests[] = {
  /* Translators: what a claimant is asked for; the sentence stands in a list. {line} is the number
   * of a claim line and what is claimed there. */
  [WB_INTAKE_GAP_SHIPMENT] = N_("Which shipment it is about: the bill of lading or its number."),
  [WB_INTAKE_GAP_LIABILITY] = N_("Whether you hold the carrier liable for the loss."),
  [WB_INTAKE_GAP_AMOUNT] = N_("The definite amount of money that you ask for, in all and for each "
                              "thing."),
  [WB_INTAKE_GAP_RECEIVED] = NULL,
  [WB_INTAKE_GAP_OTHER_CLAIM] = N_("{line}: proof that it is yours, for somebody else claims for "
                                   "it too."),
  [WB_INTAKE_GAP_STATEMENT] = N_("{line}: a statement with your signature that it did not reach "
                                 "you from any other source either."),
};

/* What a figure that is missing asks of the claimant; what only the office can find is NULL. */
static const char *const figure_requests[] = {
  [WB_MISSING_NOTHING] = NULL,
  [WB_MISSING_LOSS_KIND] = N_("{line}: whether it is missing, destroyed or damaged, and how."),
  [WB_MISSING_REPLACEMENT] = N_("{line}: an invoice, or a certified statement of what a like "
                                "article costs today."),
  [WB_MISSING_REPAIR_OR_REPLACEMENT] = N_("{line}: an estimate of the repair, or of what a like "
                                          "article costs today."),
  [WB_MISSING_ARTICLE_WEIGHT] = NULL,
  [WB_MISSING_SHIPMENT_WEIGHT] = NULL,
  [WB_MISSING_LOST_WEIGHT] = NULL,
  [WB_MISSING_FREIGHT_CHARGE] = N_("Evidence of the freight charges that you paid."),
};
G_STATIC_ASSERT (G_N_ELEMENTS (figure_requests) == WB_MISSING_FREIGHT_CHARGE + 1);

/* Adds a request once, however often it comes up. */
static void
add_request (GPtrArray         *requests,
             const WbJob       *job,
             const char        *sentence,
             const char        *citation,
             const WbClaimLine *line)
{
  g_autoptr (GString) out = NULL;
  g_autofree char *name = NULL;

  if (sentence == NULL)
    return;
  out = g_string_new (_(sentence));
  if (line != NULL)
    /* Translators: the number of a claim line, and what is claimed there. */
    name = g_strdup_printf (_("Line %" PRId64 ", %s"), line->number,
                            wb_letter_item (job, line));
  g_string_replace (out, "{line}", name != NULL ? name : "", 0);
  if (citation != NULL)
    g_string_append_printf (out, " [%s]", citation);
  if (!g_ptr_array_find_with_equal_func (requests, out->str, g_str_equal, NULL))
    g_ptr_array_add (requests, g_string_free (g_steal_pointer (&out), FALSE));
}

static void
collect_gaps (GPtrArray           *requests,
              const WbLetterInput *input)
{
  g_autoptr (GArray) gaps = NULL;

  wb_intake_look (input->job, input->claim, &gaps, NULL);
  for (guint i = 0; i < gaps->len; i++)
    {
      const WbIntakeGap *gap = &g_array_index (gaps, WbIntakeGap, i);

      add_request (requests, input->job, gap_requests[gap->kind], gap->citation,
                   gap->kind_of_record == WB_KIND_CLAIM_LINE
                   ? wb_job_find (input->job, WB_KIND_CLAIM_LINE, gap->record) : NULL);
    }
}

static WbMissing
get_missing (const WbReason *reason)
{
  for (guint i = 0; i < reason->n_inputs; i++)
    if (reason->inputs[i].name == WB_FIGURE_MISSING)
      return (WbMissing) reason->inputs[i].value;
  return WB_MISSING_NOTHING;
}

static void
collect_figures (GPtrArray           *requests,
                 const WbLetterInput *input)
{
  const WbReckoning *reckoning = input->reckoning;
  const WbReason *reason;
  WbReasonIter iter;

  if (reckoning == NULL)
    return;
  wb_reason_iter_init (&iter, reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    {
      const WbClaimLine *line = reason->line >= 0 ? reckoning->lines[reason->line].line : NULL;

      if (reason->rule != WB_RULE_MISSING_FIGURE
          || (reason->scope != WB_SCOPE_GENERAL && reason->scope != (int) reckoning->applies)
          || (line != NULL && line->ruling == WB_RULING_DENIED))
        continue;
      add_request (requests, input->job, figure_requests[get_missing (reason)], "49 CFR 370.7(b)",
                   line);
    }
}

/* A line that asks for nothing definite. */
static void
collect_demands (GPtrArray           *requests,
                 const WbLetterInput *input)
{
  g_autoptr (GPtrArray) lines = wb_letter_lines (input);

  for (guint i = 0; i < lines->len; i++)
    {
      const WbClaimLine *line = g_ptr_array_index (lines, i);

      if (!wb_money_is_set (line->demanded) && line->ruling != WB_RULING_DENIED)
        add_request (requests, input->job, N_("{line}: the amount that you ask for."),
                     "49 CFR 370.3(b)(3)", line);
    }
}

gboolean
wb_letter_add_evidence (WbLetter            *self,
                        const WbLetterInput *input,
                        const char          *intro)
{
  g_autoptr (GPtrArray) requests = g_ptr_array_new_with_free_func (g_free);

  collect_gaps (requests, input);
  collect_demands (requests, input);
  collect_figures (requests, input);
  if (requests->len == 0)
    return FALSE;
  wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH, intro);
  for (guint i = 0; i < requests->len; i++)
    wb_letter_add (self, WB_LETTER_BLOCK_ITEM, g_ptr_array_index (requests, i));
  return TRUE;
}
