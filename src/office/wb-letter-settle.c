/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The letters of a decision: offer, partial denial, denial and release. A denial says in writing
 * that it is one, and gives its reasons line by line, since only such a letter makes the time to
 * sue run (49 USC 14706(e)). Amounts are those of the reckoning under the choice that applies. */
#include "config.h"

#include "office/wb-letter-private.h"

#include "core/wb-intake.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>
#include <inttypes.h>
#include <string.h>

static const WbSideReckoning *
get_side (const WbLetterInput *input)
{
  return &input->reckoning->side[input->reckoning->applies];
}

static const WbLineFigures *
get_figures (const WbLetterInput *input,
             guint                line)
{
  return &input->reckoning->lines[line].side[input->reckoning->applies];
}

static char *
amount (const WbLetterInput *input,
        gint64               minor)
{
  return wb_words_minor (minor, wb_job_get_currency (input->job));
}

static gboolean
is_barred (const WbReckoning *reckoning)
{
  const WbReason *reason;
  WbReasonIter iter;

  wb_reason_iter_init (&iter, reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    if (reason->rule == WB_RULE_BARRED)
      return TRUE;
  return FALSE;
}

/* Less is offered than was asked, or nothing. */
static gboolean
is_cut (const WbLetterInput *input,
        guint                line)
{
  const WbClaimLine *it = input->reckoning->lines[line].line;
  const WbLineFigures *figures = get_figures (input, line);

  if (it->ruling == WB_RULING_DENIED)
    return TRUE;
  return wb_money_is_set (it->demanded) ? figures->owed < it->demanded.minor
                                        : figures->owed < figures->loss;
}

/* --- reasons ---------------------------------------------------------------------------------- */

/* Whether a step of the reckoning is a reason that a claimant is told. */
static gboolean
tells (WbRule rule)
{
  static const WbRule told[] = {
    WB_RULE_LATE, WB_RULE_BARRED, WB_RULE_DEPRECIATION, WB_RULE_SALVAGE, WB_RULE_LESSER,
    WB_RULE_SET_MATE, WB_RULE_LINE_LIMIT, WB_RULE_EXTRAORDINARY, WB_RULE_THING_LEFT,
    WB_RULE_ARTICLE_LEFT, WB_RULE_ARTICLE_LIMIT, WB_RULE_ARTICLE_SHARE, WB_RULE_SHIPMENT_SHARE,
    WB_RULE_DEDUCTIBLE_SHARE, WB_RULE_MISSING_FIGURE,
  };

  for (gsize i = 0; i < G_N_ELEMENTS (told); i++)
    if (told[i] == rule)
      return TRUE;
  return FALSE;
}

static void
add_reason (GString    *out,
            const char *sentence,
            const char *source)
{
  if (out->len > 0)
    g_string_append_c (out, ' ');
  g_string_append (out, sentence);
  if (source != NULL)
    g_string_append_printf (out, " [%s]", source);
}

/* Returns: (transfer full) (array): one text a line, in sentences: what the reckoning tells of it.
 * One walk over the reasons, whatever the number of lines. */
static GString **
collect_reckoned (const WbLetterInput *input)
{
  const WbReckoning *reckoning = input->reckoning;
  GString **texts = g_new (GString *, reckoning->n_lines);
  const WbReason *reason;
  WbReasonIter iter;

  for (guint i = 0; i < reckoning->n_lines; i++)
    texts[i] = g_string_new (NULL);
  wb_reason_iter_init (&iter, reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    {
      g_autofree char *sentence = NULL;

      if (reason->line == WB_REASON_WHOLE_CLAIM || !tells ((WbRule) reason->rule)
          || (reason->scope != WB_SCOPE_GENERAL && reason->scope != (int) reckoning->applies))
        continue;
      sentence = wb_words_reason (reckoning, reason);
      add_reason (texts[reason->line], sentence, wb_words_reason_source (reckoning, reason));
    }
  return texts;
}

/* Why a line is denied; what is lacking is a fault of the letter. */
static void
add_denied (WbLetter          *self,
            GString           *out,
            const WbClaimLine *line)
{
  g_autofree char *reason = line->ruling_reason != NULL ? wb_words_sentence (line->ruling_reason)
                                                        : NULL;
  g_autofree char *defence = NULL;

  if (reason != NULL)
    add_reason (out, reason, NULL);
  else
    wb_letter_add_fault (self, _("Line %" PRId64 " is denied without a reason; a denial "
                                 "has to give it (49 USC 14706(e))."), line->number);
  if (line->defence == WB_DEFENCE_NONE)
    return;
  /* Translators: %s is a defence, such as “Act of God”. */
  defence = g_strdup_printf (_("The carrier relies on this defence: %s."),
                             wb_words_enum (&wb_defences, (int) line->defence));
  add_reason (out, defence, NULL);
}

/* Adds the number of a line, what is claimed there, and why not all of it is paid. @why: what the
 * reckoning tells of it, which a denial says in its own words. */
static void
explain (WbLetter            *self,
         const WbLetterInput *input,
         guint                line,
         GString             *why)
{
  const WbClaimLine *it = input->reckoning->lines[line].line;
  g_autofree char *text = NULL;

  if (it->ruling == WB_RULING_DENIED)
    {
      g_string_truncate (why, 0);
      add_denied (self, why, it);
    }
  if (why->len == 0)
    g_string_append (why, _("No more is allowed by the figures before us."));
  /* Translators: the number of a claim line, what is claimed there, and a reason in sentences. */
  text = g_strdup_printf (_("Line %" PRId64 ", %s: %s"), it->number,
                          wb_letter_item (input->job, it), why->str);
  wb_letter_add (self, WB_LETTER_BLOCK_ITEM, text);
}

/* Adds the reasons for all lines that are cut. */
static void
add_reasons (WbLetter            *self,
             const WbLetterInput *input)
{
  g_autofree GString **reckoned = collect_reckoned (input);

  for (guint i = 0; i < input->reckoning->n_lines; i++)
    {
      if (is_cut (input, i))
        explain (self, input, i, reckoned[i]);
      g_string_free (reckoned[i], TRUE);
    }
}

/* --- figures ---------------------------------------------------------------------------------- */

static void
add_lines (WbLetter            *self,
           const WbLetterInput *input)
{
  WbLetterBlock *table = wb_letter_add_table (self, "rlrrr", TRUE);

  wb_letter_add_row (table, _("Line"), _("What is claimed"), _("Asked"), _("Allowed"),
                     _("Offered"));
  for (guint i = 0; i < input->reckoning->n_lines; i++)
    {
      const WbClaimLine *line = input->reckoning->lines[i].line;
      const WbLineFigures *figures = get_figures (input, i);
      g_autofree char *number = g_strdup_printf ("%" G_GINT64_FORMAT, line->number);
      g_autofree char *asked = wb_words_money (line->demanded);
      g_autofree char *allowed = amount (input, figures->allowed);
      g_autofree char *owed = amount (input, figures->owed);

      wb_letter_add_row (table, number, wb_letter_item (input->job, line), asked, allowed, owed);
    }
}

static void
add_sum (WbLetterBlock       *table,
         const WbLetterInput *input,
         const char          *label,
         gint64               minor)
{
  g_autofree char *words = amount (input, minor);

  wb_letter_add_row (table, label, words);
}

static void
add_totals (WbLetter            *self,
            const WbLetterInput *input)
{
  const WbSideReckoning *side = get_side (input);
  WbLetterBlock *table = wb_letter_add_table (self, "lr", FALSE);

  if (side->deducted != 0)
    {
      add_sum (table, input, _("Within the limits of liability"), side->covered);
      add_sum (table, input, _("Deductible that you bear"), side->deducted);
    }
  add_sum (table, input, _("For loss and damage"), side->owed);
  if (side->freight_refund != 0)
    add_sum (table, input, _("Freight given back"), side->freight_refund);
  if (side->paid != 0)
    add_sum (table, input, _("Paid already"), side->paid);
  add_sum (table, input, _("To be paid now"), MAX (side->balance, 0));
}

static void
add_choice (WbLetter            *self,
            const WbLetterInput *input)
{
  wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH,
                 input->reckoning->applies == WB_SIDE_FULL
                 ? _("The shipment moved under full value protection.")
                 : _("The shipment moved at released value: the carrier’s liability is limited by "
                     "the weight of what was lost or damaged."));
}

/* --- what keeps a letter of figures from going out -------------------------------------------- */

/* Adds a number to a list of numbers that comes in order: "1-4, 7". */
static void
add_number (GString *list,
            gint64   number)
{
  const char *last = strrchr (list->str, ' ');
  const char *part = last != NULL ? last + 1 : list->str;
  const char *dash = strchr (part, '-');
  gint64 end = list->len > 0 ? g_ascii_strtoll (dash != NULL ? dash + 1 : part, NULL, 10) : 0;

  if (list->len == 0)
    g_string_append_printf (list, "%" G_GINT64_FORMAT, number);
  else if (number != end + 1)
    g_string_append_printf (list, ", %" G_GINT64_FORMAT, number);
  else if (dash == NULL)
    g_string_append_printf (list, "-%" G_GINT64_FORMAT, number);
  else
    {
      g_string_truncate (list, (gsize) (dash + 1 - list->str));
      g_string_append_printf (list, "%" G_GINT64_FORMAT, number);
    }
}

/* A late claim is told of, whatever the terms make of it: 49 CFR 370.3(a). */
static void
note_late (WbLetter            *self,
           const WbLetterInput *input)
{
  const WbReckoning *reckoning = input->reckoning;
  const WbReason *reason;
  WbReasonIter iter;

  if (reckoning->late == WB_NOT_LATE)
    return;
  wb_reason_iter_init (&iter, reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    {
      g_autofree char *sentence = NULL;

      if (reason->rule != WB_RULE_FILING && reason->rule != WB_RULE_LATE)
        continue;
      sentence = wb_words_reason (reckoning, reason);
      wb_letter_add_note (self, "%s", sentence);
    }
}

static void
check_figures (WbLetter            *self,
               const WbLetterInput *input)
{
  const WbReckoning *reckoning = input->reckoning;
  g_autoptr (GString) lacking = g_string_new (NULL);
  g_autoptr (GString) open = g_string_new (NULL);

  if (!wb_intake_may_pay (wb_intake_look (input->job, input->claim, NULL, NULL)))
    wb_letter_add_fault (self, "%s", _("What was received is not a claim that may be paid yet; ask "
                                       "for what it lacks first (49 CFR 370.3)."));
  for (guint i = 0; i < reckoning->n_lines; i++)
    {
      const WbClaimLine *line = reckoning->lines[i].line;

      if (!get_figures (input, i)->complete)
        add_number (lacking, line->number);
      else if (line->ruling == WB_RULING_OPEN)
        add_number (open, line->number);
    }
  if (lacking->len > 0)
    /* Translators: %s is a list of numbers of lines, such as “3, 5-7”. */
    wb_letter_add_fault (self, _("These lines lack a figure, so the amount would not be the whole: "
                                 "%s."), lacking->str);
  if (open->len > 0)
    /* Translators: %s is a list of numbers of lines, such as “3, 5-7”. */
    wb_letter_add_note (self, _("These lines are reckoned, but not decided yet: %s."), open->str);
  note_late (self, input);
}

static void
check_payable (WbLetter            *self,
               const WbLetterInput *input)
{
  check_figures (self, input);
  if (get_side (input)->balance <= 0)
    wb_letter_add_fault (self, "%s", _("Nothing is left to be paid, so there is nothing to "
                                       "offer."));
}

/* --- rights ----------------------------------------------------------------------------------- */

static void
add_suit (WbLetter            *self,
          const WbLetterInput *input)
{
  GDate last_day;
  g_autofree char *day = NULL;
  g_autofree char *text = NULL;

  if (input->terms == NULL || !wb_period_is_set (input->terms->suit_within)
      || !wb_date_add_period (input->on, input->terms->suit_within, &last_day, NULL))
    return;
  day = wb_words_date (&last_day);
  /* Translators: %s is a date. */
  text = g_strdup_printf (_("The time in which you may bring a suit for what is disallowed runs "
                            "from the day on which this notice is given; counted from the date of "
                            "this letter, its last day is %s."), day);
  wb_letter_add_cited (self, input, WB_KEY_SUIT_WITHIN, text);
}

static void
add_mediation (WbLetter            *self,
               const WbLetterInput *input)
{
  GDate last_day;
  g_autofree char *day = NULL;
  g_autofree char *text = NULL;

  if (!wb_period_is_set (input->terms->mediate_within)
      || !wb_date_add_period (input->on, input->terms->mediate_within, &last_day, NULL))
    return;
  day = wb_words_date (&last_day);
  /* Translators: %s is a date. */
  text = g_strdup_printf (_("If you do not accept this, you may ask for mediation; counted from "
                            "the date of this letter, the last day for that is %s, unless a "
                            "shorter time that runs from the receipt of your claim ends before."),
                          day);
  wb_letter_add_cited (self, input, WB_KEY_MEDIATE_WITHIN, text);
}

/* What a claimant can do who does not accept an answer, as far as the terms have it. */
static void
add_rights (WbLetter            *self,
            const WbLetterInput *input)
{
  if (input->terms == NULL)
    return;
  if (wb_period_is_set (input->terms->arbitrate_within))
    wb_letter_add_cited (self, input, WB_KEY_ARBITRATE_WITHIN,
                         _("If you do not accept this, you may ask for arbitration under the "
                           "carrier’s programme; its summary was given to you with the papers of "
                           "the move, and we will send it again if you ask."));
  add_mediation (self, input);
  if (wb_period_is_set (input->terms->transfer_after))
    wb_letter_add_cited (self, input, WB_KEY_TRANSFER_AFTER,
                         _("If you do not accept this, you may hand the claim to your military "
                           "claims office."));
}

/* What the carrier takes away when it pays for the whole of it: 49 CFR 370.11. */
static void
add_salvage (WbLetter            *self,
             const WbLetterInput *input)
{
  gboolean any = FALSE;

  for (guint i = 0; i < input->reckoning->n_lines; i++)
    {
      const WbClaimLine *line = input->reckoning->lines[i].line;
      g_autofree char *text = NULL;

      if (!line->salvage_taken || line->ruling == WB_RULING_DENIED)
        continue;
      if (!any)
        wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH,
                       _("When these things are paid for they go to the carrier, which will "
                         "collect them; please keep them until then:"));
      any = TRUE;
      text = g_strdup_printf (_("Line %" PRId64 ", %s"), line->number,
                              wb_letter_item (input->job, line));
      wb_letter_add (self, WB_LETTER_BLOCK_ITEM, text);
    }
}

/* --- the letters ------------------------------------------------------------------------------ */

static void
add_offer (WbLetter            *self,
           const WbLetterInput *input)
{
  g_autofree char *sum = amount (input, MAX (get_side (input)->balance, 0));
  /* Translators: %s is an amount. */
  g_autofree char *first = g_strdup_printf (_("To settle your claim we offer you %s."), sum);

  check_payable (self, input);
  wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH, first);
  add_choice (self, input);
  add_lines (self, input);
  add_totals (self, input);
}

void
wb_letter_write_offer (WbLetter            *self,
                       const WbLetterInput *input)
{
  gboolean cut = FALSE;
  g_autoptr (GString) denied = g_string_new (NULL);

  add_offer (self, input);
  for (guint i = 0; i < input->reckoning->n_lines; i++)
    {
      cut = cut || is_cut (input, i);
      if (input->reckoning->lines[i].line->ruling == WB_RULING_DENIED)
        add_number (denied, input->reckoning->lines[i].line->number);
    }
  if (denied->len > 0)
    /* Translators: %s is a list of numbers of lines, such as “3, 5-7”. */
    wb_letter_add_note (self, _("These lines are denied: %s. An offer is no notice of that; a "
                                "partial denial is (49 USC 14706(e))."), denied->str);
  if (cut)
    wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH, _("How it comes to that:"));
  add_reasons (self, input);
  add_salvage (self, input);
  wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH,
                 _("This letter is an offer. It is no notice that any part of your claim is "
                   "disallowed. To accept it, sign and return the release."));
  add_rights (self, input);
}

void
wb_letter_write_partial_denial (WbLetter            *self,
                                const WbLetterInput *input)
{
  gboolean any = FALSE;

  for (guint i = 0; i < input->reckoning->n_lines; i++)
    any = any || is_cut (input, i);
  if (!any)
    wb_letter_add_fault (self, "%s", _("All that was asked is allowed; write an offer instead."));
  add_offer (self, input);
  wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH,
                 _("What you claim beyond that is disallowed. This letter is notice in writing "
                   "that the carrier disallows these parts of your claim, for these reasons: [49 "
                   "USC 14706(e)]"));
  add_reasons (self, input);
  add_salvage (self, input);
  add_suit (self, input);
  add_rights (self, input);
}

/* A denial is of the whole claim. */
static void
check_denied (WbLetter            *self,
              const WbLetterInput *input)
{
  gboolean barred = is_barred (input->reckoning);
  g_autoptr (GString) open = g_string_new (NULL);

  if (input->reckoning->n_lines == 0)
    wb_letter_add_fault (self, "%s", _("The claim has no lines; a denial gives its reasons line by "
                                       "line."));
  for (guint i = 0; i < input->reckoning->n_lines && !barred; i++)
    {
      const WbClaimLine *line = input->reckoning->lines[i].line;

      if (line->ruling != WB_RULING_DENIED)
        add_number (open, line->number);
    }
  if (open->len > 0)
    /* Translators: %s is a list of numbers of lines, such as “3, 5-7”. */
    wb_letter_add_fault (self, _("These lines are not denied: %s. When a part is allowed, write a "
                                 "partial denial."), open->str);
}

/* That the claim came too late, when that is the reason. */
static void
add_late (WbLetter            *self,
          const WbLetterInput *input)
{
  const WbReckoning *reckoning = input->reckoning;
  const WbReason *reason;
  WbReasonIter iter;

  if (!is_barred (reckoning))
    return;
  wb_reason_iter_init (&iter, reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    {
      g_autofree char *sentence = NULL;

      if (reason->rule != WB_RULE_FILING)
        continue;
      sentence = wb_words_reason (reckoning, reason);
      wb_letter_add (self, WB_LETTER_BLOCK_ITEM, sentence);
    }
}

/* What goes back of the freight is owed besides the claim: 49 CFR 375.707(d). */
static void
add_freight (WbLetter            *self,
             const WbLetterInput *input)
{
  gint64 refund = get_side (input)->freight_refund;
  g_autofree char *sum = amount (input, refund);
  g_autofree char *text = NULL;

  if (refund == 0)
    return;
  /* Translators: %s is an amount. */
  text = g_strdup_printf (_("Of the freight that you paid, %s for goods that were lost is given "
                            "back all the same; that is not part of the claim."), sum);
  wb_letter_add_cited (self, input, WB_KEY_FREIGHT_PARTIAL_LOSS, text);
}

void
wb_letter_write_denial (WbLetter            *self,
                        const WbLetterInput *input)
{
  check_denied (self, input);
  wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH,
                 _("We have looked into your claim and cannot pay it. This letter is notice in "
                   "writing that the carrier disallows the claim, in all its parts, for these "
                   "reasons: [49 USC 14706(e)]"));
  add_late (self, input);
  add_reasons (self, input);
  add_freight (self, input);
  add_suit (self, input);
  add_rights (self, input);
}

void
wb_letter_write_release (WbLetter            *self,
                         const WbLetterInput *input)
{
  g_autofree char *sum = amount (input, MAX (get_side (input)->balance, 0));
  /* Translators: an amount, and the number of the claim. */
  g_autofree char *first = g_strdup_printf (_("On payment of %s I release the carrier, its agents "
                                              "and those who carried for it from claim %s for loss "
                                              "of and damage to the things listed here. It is "
                                              "settled with that."), sum, input->claim->number);

  check_payable (self, input);
  wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH, first);
  add_lines (self, input);
  add_totals (self, input);
  add_salvage (self, input);
  wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH,
                 _("What is not listed here is not released. Do not sign before you have read this "
                   "and agree to the amount."));
}
