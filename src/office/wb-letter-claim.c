/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The letters before a decision: the request for what is lacking, the acknowledgement, the report
 * on how it stands. Which letter is which, and what all of them have, is said here too. */
#include "config.h"

#include "office/wb-letter-private.h"

#include "core/wb-clock.h"
#include "core/wb-intake.h"
#include "core/wb-text.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

/* --- the table of letters --------------------------------------------------------------------- */

typedef struct
{
  WbStepKind   step;
  gboolean     has_figures;
  const char  *title;
  void       (*write) (WbLetter            *letter,
                       const WbLetterInput *input);
} LetterRow;

static const LetterRow rows[] = {
  [WB_LETTER_REQUEST] = { WB_STEP_REQUEST, FALSE, N_("What we need for your claim"),
                          wb_letter_write_request },
  [WB_LETTER_ACKNOWLEDGEMENT] = { WB_STEP_ACKNOWLEDGED, FALSE, N_("We have received your claim"),
                                  wb_letter_write_acknowledgement },
  [WB_LETTER_STATUS] = { WB_STEP_STATUS, FALSE, N_("How your claim stands"),
                         wb_letter_write_status },
  [WB_LETTER_OFFER] = { WB_STEP_OFFER, TRUE, N_("Our offer to settle your claim"),
                        wb_letter_write_offer },
  [WB_LETTER_PARTIAL_DENIAL] = { WB_STEP_PARTIAL_DENIAL, TRUE,
                                 N_("Our offer to settle your claim, and what we disallow"),
                                 wb_letter_write_partial_denial },
  [WB_LETTER_DENIAL] = { WB_STEP_DENIAL, TRUE, N_("We disallow your claim"),
                         wb_letter_write_denial },
  [WB_LETTER_RELEASE] = { WB_STEP_OTHER, TRUE, N_("Release of a claim"), wb_letter_write_release },
};
G_STATIC_ASSERT (G_N_ELEMENTS (rows) == WB_N_LETTERS);

gboolean
wb_letter_has_figures (WbLetterKind kind)
{
  g_return_val_if_fail ((guint) kind < WB_N_LETTERS, FALSE);

  return rows[kind].has_figures;
}

WbStepKind
wb_letter_step (WbLetterKind kind)
{
  g_return_val_if_fail ((guint) kind < WB_N_LETTERS, WB_STEP_NONE);

  return rows[kind].step;
}

WbLetter *
wb_letter_write (WbLetterKind         kind,
                 const WbLetterInput *input)
{
  WbLetter *letter;
  WbLetterInput own;

  g_return_val_if_fail ((guint) kind < WB_N_LETTERS, NULL);
  g_return_val_if_fail (input->job != NULL && input->claim != NULL, NULL);
  g_return_val_if_fail (wb_date_is_set (input->on), NULL);

  own = *input;
  if (own.remark != NULL && *wb_text_skip_space (own.remark) == '\0')
    own.remark = NULL;
  letter = wb_letter_new (kind, input->on);
  letter->title = g_strdup (_(rows[kind].title));
  wb_letter_begin (letter, &own);
  if (rows[kind].has_figures && own.reckoning == NULL)
    wb_letter_add_fault (letter, "%s", _("The claim cannot be reckoned, so the letter has no "
                                         "figures."));
  else
    rows[kind].write (letter, &own);
  wb_letter_end (letter, &own);
  return letter;
}

/* --- dates ------------------------------------------------------------------------------------ */

/* Sets @out to the last day of the first clock of @kind that still runs on @input's day. */
static gboolean
find_last_day (const WbLetterInput *input,
               WbClockKind          kind,
               GDate               *out)
{
  g_autoptr (GArray) clocks = NULL;

  if (input->terms == NULL)
    return FALSE;
  clocks = wb_claim_clocks (input->terms, input->job, input->claim, input->on, NULL);
  for (guint i = 0; clocks != NULL && i < clocks->len; i++)
    {
      const WbClock *clock = &g_array_index (clocks, WbClock, i);

      if (clock->kind != kind || clock->state != WB_CLOCK_RUNNING)
        continue;
      *out = clock->last_day;
      return TRUE;
    }
  return FALSE;
}

/* --- the letters ------------------------------------------------------------------------------ */

void
wb_letter_write_request (WbLetter            *self,
                         const WbLetterInput *input)
{
  WbIntakeState state = wb_intake_look (input->job, input->claim, NULL, NULL);
  GDate last_day;
  g_autofree char *day = NULL;
  g_autofree char *text = NULL;

  wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH,
                 _("We have received your paper about loss of or damage to your goods and opened a "
                   "file for it under the number above."));
  if (!wb_intake_may_pay (state))
    wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH,
                   _("It is not a claim that we may pay yet. A claim is a written or electronic "
                     "communication that identifies the shipment, holds the carrier liable for the "
                     "loss, and asks for a specified or determinable amount of money. [49 CFR "
                     "370.3]"));
  if (!wb_letter_add_evidence (self, input, _("Please send us:")))
    wb_letter_add_fault (self, "%s", _("Nothing is noted as lacking, so there is nothing to ask "
                                       "for."));
  if (!wb_intake_may_pay (state) && find_last_day (input, WB_CLOCK_CLAIM, &last_day))
    {
      day = wb_words_date (&last_day);
      /* Translators: %s is a date. */
      text = g_strdup_printf (_("The time to file a claim goes on meanwhile: its last day is %s."),
                              day);
      wb_letter_add_cited (self, input, WB_KEY_CLAIM_WITHIN, text);
    }
  wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH,
                 _("Please keep what is damaged, and its packing, until we have looked at it or "
                   "have told you that we need not."));
}

/* Rules that prescribe the words of an acknowledgement which are not at hand. */
static const char *const prescribed[] = { "43 TAC 218.61" };

static void
note_prescribed (WbLetter            *self,
                 const WbLetterInput *input)
{
  const char *citation = input->terms != NULL
                         ? wb_terms_citation (input->terms, WB_SCOPE_GENERAL,
                                              WB_KEY_ACKNOWLEDGE_WITHIN) : NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (prescribed); i++)
    if (g_strcmp0 (citation, prescribed[i]) == 0)
      /* Translators: %s is a citation. */
      wb_letter_add_note (self, _("%s prescribes a statement for the acknowledgement. Its words "
                                  "were not at hand; take them from the rule in force and write "
                                  "them as the remark."), citation);
}

void
wb_letter_write_acknowledgement (WbLetter            *self,
                                 const WbLetterInput *input)
{
  g_autofree char *received = wb_words_date (&input->claim->received_on);
  /* Translators: a date, and the number of the claim. */
  g_autofree char *first = g_strdup_printf (_("We received your claim on %s and have given it the "
                                              "number %s. Please name the number whenever you "
                                              "write or call."), received, input->claim->number);
  GDate last_day;
  g_autofree char *text = NULL;

  wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH, first);
  if (!wb_letter_add_evidence (self, input, _("To look into it we further need:")))
    wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH,
                   _("We need no further papers at the moment. Should that change, we will write "
                     "to you."));
  if (find_last_day (input, WB_CLOCK_DECIDE, &last_day))
    {
      g_autofree char *day = wb_words_date (&last_day);

      /* Translators: %s is a date. */
      text = g_strdup_printf (_("By %s we will pay the claim, decline it, or make you a firm offer "
                                "of compromise; if we cannot, we will tell you in writing how it "
                                "stands and why."), day);
      wb_letter_add_cited (self, input, WB_KEY_DECIDE_WITHIN, text);
    }
  wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH,
                 _("Please keep what is damaged, and its packing, until we have looked at it or "
                   "have told you that we need not."));
  wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH,
                 _("That we acknowledge the claim does not say that we are liable."));
  note_prescribed (self, input);
}

void
wb_letter_write_status (WbLetter            *self,
                        const WbLetterInput *input)
{
  GDate next;
  g_autofree char *text = NULL;

  wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH,
                 _("We have not been able to pay your claim, decline it, or make you a firm offer "
                   "of compromise yet. The reason is this:"));
  if (input->remark != NULL)
    wb_letter_add (self, WB_LETTER_BLOCK_PARAGRAPH, input->remark);
  else
    wb_letter_add_fault (self, "%s", _("Write the reason why the claim is not decided yet; the "
                                       "report has to give it (49 CFR 370.9(a))."));
  wb_letter_add_evidence (self, input, _("From you we still need:"));
  if (find_last_day (input, WB_CLOCK_STATUS, &next))
    {
      g_autofree char *day = wb_words_date (&next);

      /* Translators: %s is a date. */
      text = g_strdup_printf (_("If the claim is not decided before, we will report again by %s."),
                              day);
      wb_letter_add_cited (self, input, WB_KEY_STATUS_EVERY, text);
    }
}
