/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The letters of a claim: what each has to say by its rule, what keeps it from going out, and that
 * what was sent stays. 49 CFR 370.3, 370.5, 370.7, 370.9 (seen, 2015), 49 USC 14706(e) (seen). */
#include "config.h"

#include "core/wb-core.h"
#include "job-fixture.h"
#include "office/wb-frozen-reckoning.h"
#include "office/wb-letter-send.h"

#include <glib/gstdio.h>
#include <string.h>

typedef struct
{
  char     *folder;
  WbOffice *office;
  WbJob    *job;
} Fixture;

static void
set_up (Fixture       *self,
        gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = NULL;

  self->folder = g_dir_make_tmp ("letters-XXXXXX", &error);
  g_assert_no_error (error);
  path = g_build_filename (self->folder, "office.wainbook", NULL);
  self->office = wb_office_open (path, WB_BOOK_CREATE, NULL, &error);
  g_assert_no_error (error);

  self->job = job_fixture_new ();
  job_fixture_put (&self->job, WB_KIND_ORDER, NULL, "move_type", "interstate", "picked_up_on",
                   "2026-05-04", "delivered_on", "2026-05-12", "bill_number", "BL 7781",
                   "coordinator", "Ines Calloway", "freight_charge", "0", NULL);
  job_fixture_put (&self->job, WB_KIND_PARTY, "carrier", "role", "carrier", "company",
                   "Larkfield Movers", "street", "9 Quarry Road", "city", "Akron", "region", "OH",
                   "postal_code", "44301", NULL);
  job_fixture_put (&self->job, WB_KIND_PARTY, "shipper", "role", "shipper", "name", "Odile Varga",
                   NULL);
  job_fixture_put (&self->job, WB_KIND_STOP, "to", "kind", "delivery", "street", "31 Mill Lane",
                   "city", "Ithaca", "region", "NY", NULL);
  job_fixture_put (&self->job, WB_KIND_WEIGHING, "w", "kind", "weighing", "net", "7000 lb", NULL);
  job_fixture_put (&self->job, WB_KIND_PIECE, "table", "tag", "8", "form", "loose", "description",
                   "Oak table", "weight", "90 lb", NULL);
  job_fixture_put (&self->job, WB_KIND_PIECE, "lamp", "tag", "9", "form", "loose", "description",
                   "Floor lamp", "weight", "12 lb", NULL);
  job_fixture_put (&self->job, WB_KIND_CLAIM, "c", "number", "C-2026-0003", "claimant",
                   "Odile Varga", "received_on", "2026-06-01", "identifies_shipment", "yes",
                   "asserts_liability", "yes", "states_amount", "yes", NULL);
  job_fixture_put (&self->job, WB_KIND_CLAIM_LINE, "l1", "claim", "c", "number", "1", "piece",
                   "table", "item", "Oak table, broken leg", "loss", "damaged", "demanded", "500",
                   "repair", "240", "replacement", "900", "ruling", "allowed", NULL);
  job_fixture_put (&self->job, WB_KIND_CLAIM_LINE, "l2", "claim", "c", "number", "2", "piece",
                   "lamp", "loss", "missing", "demanded", "150", "replacement", "140", "ruling",
                   "allowed", NULL);
}

static void
tear_down (Fixture       *self,
           gconstpointer  data)
{
  g_autoptr (GDir) dir = g_dir_open (self->folder, 0, NULL);
  const char *name;

  wb_office_close (self->office);
  g_clear_object (&self->office);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (self->folder, name, NULL);

      g_assert_cmpint (g_remove (path), ==, 0);
    }
  g_assert_cmpint (g_rmdir (self->folder), ==, 0);
  g_free (self->folder);
  wb_job_unref (self->job);
}

static WbLetter *
write_letter (Fixture      *self,
              WbLetterKind  kind,
              const char   *on,
              const char   *remark)
{
  GDate day;

  g_assert_true (wb_date_parse (on, &day, NULL));
  return wb_office_write_letter (self->office, self->job, "c", kind, &day, remark);
}

/* The text with line breaks and indents as single spaces. */
static char *
flat (const WbLetter *letter)
{
  g_autofree char *text = wb_letter_to_text (letter);
  g_auto (GStrv) words = g_strsplit_set (text, " \n", -1);
  g_autoptr (GString) out = g_string_new (NULL);

  for (guint i = 0; words[i] != NULL; i++)
    if (*words[i] != '\0')
      g_string_append_printf (out, "%s%s", out->len > 0 ? " " : "", words[i]);
  return g_string_free (g_steal_pointer (&out), FALSE);
}

static void
assert_says (const WbLetter *letter,
             const char     *words)
{
  g_autofree char *text = flat (letter);

  if (strstr (text, words) == NULL)
    g_error ("the letter does not say “%s”:\n%s", words, text);
}

static void
assert_silent (const WbLetter *letter,
               const char     *words)
{
  g_autofree char *text = flat (letter);

  g_assert_null (strstr (text, words));
}

static void
assert_fault (const WbLetter *letter,
              const char     *words)
{
  for (guint i = 0; i < letter->faults->len; i++)
    if (strstr (g_ptr_array_index (letter->faults, i), words) != NULL)
      return;
  g_error ("no fault of the letter says “%s”", words);
}

static void
assert_ready (const WbLetter *letter)
{
  if (letter->faults->len > 0)
    g_error ("unexpected: %s", (char *) g_ptr_array_index (letter->faults, 0));
}

/* --- before a decision ------------------------------------------------------------------------ */

/* 370.5: the number of the claim, the day of receipt, what further evidence is needed. */
static void
test_acknowledgement (Fixture       *self,
                      gconstpointer  data)
{
  g_autoptr (WbLetter) letter = NULL;

  job_fixture_put (&self->job, WB_KIND_CLAIM_LINE, "l1", "repair", "", "replacement", "", NULL);
  letter = write_letter (self, WB_LETTER_ACKNOWLEDGEMENT, "2026-06-05", NULL);
  assert_ready (letter);
  assert_says (letter, "Larkfield Movers 9 Quarry Road Akron, OH 44301");
  assert_says (letter, "Odile Varga 31 Mill Lane Ithaca, NY");
  assert_says (letter, "We received your claim on 1 Jun 2026 and have given it the number "
                       "C-2026-0003.");
  assert_says (letter, "Line 1, Oak table, broken leg: an estimate of the repair, or of what a "
                       "like article costs today. [49 CFR 370.7(b)]");
  assert_says (letter, "Line 2, Floor lamp: a statement with your signature that it did not reach "
                       "you from any other source either. [49 CFR 370.7(c)]");
  /* 120 days from 1 June. */
  assert_says (letter, "By 29 Sep 2026 we will pay the claim");
  assert_says (letter, "Ines Calloway for Larkfield Movers");

  job_fixture_put (&self->job, WB_KIND_CLAIM, "c", "received_on", "", NULL);
  g_clear_pointer (&letter, wb_letter_free);
  letter = write_letter (self, WB_LETTER_ACKNOWLEDGEMENT, "2026-06-05", NULL);
  assert_fault (letter, "370.5(b)");
}

/* 370.3: what makes a paper a claim, and that it is none yet. */
static void
test_request (Fixture       *self,
              gconstpointer  data)
{
  g_autoptr (WbLetter) letter = NULL;

  job_fixture_put (&self->job, WB_KIND_CLAIM, "c", "states_amount", "no", "asserts_liability", "no",
                   NULL);
  letter = write_letter (self, WB_LETTER_REQUEST, "2026-06-05", NULL);
  assert_ready (letter);
  assert_says (letter, "It is not a claim that we may pay yet.");
  assert_says (letter, "Whether you hold the carrier liable for the loss. [49 CFR 370.3(b)(2)]");
  assert_says (letter, "The definite amount of money that you ask for");
  assert_silent (letter, "Which shipment it is about");

  /* Nothing is lacking: nothing to ask for. */
  job_fixture_put (&self->job, WB_KIND_CLAIM, "c", "states_amount", "yes", "asserts_liability",
                   "yes", NULL);
  job_fixture_put (&self->job, WB_KIND_CLAIM_LINE, "l2", "loss", "destroyed", NULL);
  g_clear_pointer (&letter, wb_letter_free);
  letter = write_letter (self, WB_LETTER_REQUEST, "2026-06-05", NULL);
  assert_fault (letter, "nothing to ask for");
}

/* 370.9(a): in writing, with the reason, and again every sixty days. */
static void
test_status (Fixture       *self,
             gconstpointer  data)
{
  g_autoptr (WbLetter) letter = write_letter (self, WB_LETTER_STATUS, "2026-09-29", " ");

  assert_fault (letter, "370.9(a)");
  g_clear_pointer (&letter, wb_letter_free);
  letter = write_letter (self, WB_LETTER_STATUS, "2026-09-28",
                         "The repairer has not sent an estimate.");
  assert_ready (letter);
  assert_says (letter, "The reason is this: The repairer has not sent an estimate.");
}

/* --- decisions -------------------------------------------------------------------------------- */

static void
test_offer (Fixture       *self,
            gconstpointer  data)
{
  g_autoptr (WbLetter) letter = write_letter (self, WB_LETTER_OFFER, "2026-08-01",
                                              "We are sorry for the trouble.");

  assert_ready (letter);
  assert_says (letter, "To settle your claim we offer you $380.00.");
  assert_says (letter, "full value protection");
  assert_says (letter, "1 Oak table, broken leg $500.00 $240.00 $240.00");
  assert_says (letter, "Line 1, Oak table, broken leg: To put it right costs $240.00");
  assert_says (letter, "It is no notice that any part of your claim is disallowed.");
  assert_says (letter, "you may ask for arbitration");
  assert_says (letter, "We are sorry for the trouble.");
  assert_silent (letter, "bring a suit");

  /* What is not a claim is not paid, and what lacks a figure is not the whole. */
  job_fixture_put (&self->job, WB_KIND_CLAIM, "c", "states_amount", "no", NULL);
  job_fixture_put (&self->job, WB_KIND_CLAIM_LINE, "l2", "replacement", "", NULL);
  g_clear_pointer (&letter, wb_letter_free);
  letter = write_letter (self, WB_LETTER_OFFER, "2026-08-01", NULL);
  assert_fault (letter, "370.3");
  assert_fault (letter, "These lines lack a figure, so the amount would not be the whole: 2.");
}

/* 14706(e): a disallowance only if it says so in writing, with reasons. */
static void
test_partial_denial (Fixture       *self,
                     gconstpointer  data)
{
  g_autoptr (WbLetter) letter = NULL;

  job_fixture_put (&self->job, WB_KIND_CLAIM_LINE, "l2", "ruling", "denied", NULL);
  letter = write_letter (self, WB_LETTER_PARTIAL_DENIAL, "2026-08-01", NULL);
  assert_fault (letter, "Line 2 is denied without a reason");

  job_fixture_put (&self->job, WB_KIND_CLAIM_LINE, "l2", "ruling_reason",
                   "it was counted in at delivery", "defence", "shipper", NULL);
  g_clear_pointer (&letter, wb_letter_free);
  letter = write_letter (self, WB_LETTER_PARTIAL_DENIAL, "2026-08-01", NULL);
  assert_ready (letter);
  assert_says (letter, "we offer you $240.00");
  assert_says (letter, "notice in writing that the carrier disallows these parts of your claim");
  assert_says (letter, "Line 2, Floor lamp: It was counted in at delivery. The carrier relies on "
                       "this defence: Act or omission of the shipper.");
  /* Two years from the notice. */
  assert_says (letter, "its last day is 1 Aug 2028. [49 USC 14706(e)]");
}

static void
test_denial (Fixture       *self,
             gconstpointer  data)
{
  g_autoptr (WbLetter) letter = NULL;

  job_fixture_put (&self->job, WB_KIND_CLAIM_LINE, "l2", "ruling", "denied", "ruling_reason",
                   "Counted in at delivery", NULL);
  letter = write_letter (self, WB_LETTER_DENIAL, "2026-08-01", NULL);
  assert_fault (letter, "These lines are not denied: 1.");

  job_fixture_put (&self->job, WB_KIND_CLAIM_LINE, "l1", "ruling", "denied", "ruling_reason",
                   "The leg was broken before the move", NULL);
  g_clear_pointer (&letter, wb_letter_free);
  letter = write_letter (self, WB_LETTER_DENIAL, "2026-08-01", NULL);
  assert_ready (letter);
  assert_says (letter, "notice in writing that the carrier disallows the claim, in all its parts");
  assert_says (letter, "Line 1, Oak table, broken leg: The leg was broken before the move.");
  assert_says (letter, "Line 2, Floor lamp: Counted in at delivery.");
  assert_silent (letter, "we offer");
  assert_silent (letter, "Of the freight that you paid");

  /* Freight on what was lost goes back all the same: 49 CFR 375.707(d). */
  job_fixture_put (&self->job, WB_KIND_ORDER, NULL, "freight_charge", "4200", NULL);
  g_clear_pointer (&letter, wb_letter_free);
  letter = write_letter (self, WB_LETTER_DENIAL, "2026-08-01", NULL);
  assert_says (letter, "Of the freight that you paid, $7.20 for goods that were lost is given "
                       "back");
}

static void
test_release (Fixture       *self,
              gconstpointer  data)
{
  g_autoptr (WbLetter) letter = NULL;

  job_fixture_put (&self->job, WB_KIND_CLAIM_LINE, "l1", "salvage_taken", "yes", NULL);
  letter = write_letter (self, WB_LETTER_RELEASE, "2026-08-10", NULL);
  assert_ready (letter);
  assert_says (letter, "On payment of $380.00 I release the carrier");
  assert_says (letter, "they go to the carrier, which will collect them; please keep them until "
                       "then: • Line 1, Oak table, broken leg");
  assert_says (letter, "What is not listed here is not released.");
  assert_says (letter, "Signed:");
  assert_silent (letter, "Sincerely");

  job_fixture_put (&self->job, WB_KIND_PAYMENT, "p", "claim", "c", "amount", "380", NULL);
  g_clear_pointer (&letter, wb_letter_free);
  letter = write_letter (self, WB_LETTER_RELEASE, "2026-08-10", NULL);
  assert_fault (letter, "Nothing is left to be paid");
}

/* --- other regimes ---------------------------------------------------------------------------- */

static void
test_texas (Fixture       *self,
            gconstpointer  data)
{
  g_autoptr (WbLetter) letter = NULL;

  job_fixture_put (&self->job, WB_KIND_ORDER, NULL, "move_type", "intrastate", "region", "TX",
                   "other_charge", "0", NULL);
  letter = write_letter (self, WB_LETTER_ACKNOWLEDGEMENT, "2026-06-05", NULL);
  g_assert_cmpuint (letter->notes->len, ==, 1);
  g_assert_nonnull (strstr (g_ptr_array_index (letter->notes, 0), "43 TAC 218.61"));

  g_clear_pointer (&letter, wb_letter_free);
  letter = write_letter (self, WB_LETTER_OFFER, "2026-08-01", NULL);
  assert_says (letter, "you may ask for mediation");
  assert_says (letter, "[43 TAC 218.62]");
  assert_silent (letter, "arbitration");
  assert_says (letter, "released value");
}

static void
test_military (Fixture       *self,
               gconstpointer  data)
{
  g_autoptr (WbLetter) letter = NULL;

  job_fixture_put (&self->job, WB_KIND_ORDER, NULL, "move_type", "military", NULL);
  letter = write_letter (self, WB_LETTER_OFFER, "2026-08-01", NULL);
  assert_ready (letter);
  assert_says (letter, "you may hand the claim to your military claims office.");
  assert_silent (letter, "mediation");
}

/* Without terms there are no dates, and nothing is reckoned. */
static void
test_no_terms (Fixture       *self,
               gconstpointer  data)
{
  g_autoptr (WbLetter) letter = NULL;

  job_fixture_put (&self->job, WB_KIND_ORDER, NULL, "move_type", "none", NULL);
  letter = write_letter (self, WB_LETTER_ACKNOWLEDGEMENT, "2026-06-05", NULL);
  assert_ready (letter);
  assert_silent (letter, "we will pay the claim, decline it");
  g_clear_pointer (&letter, wb_letter_free);
  letter = write_letter (self, WB_LETTER_OFFER, "2026-06-05", NULL);
  assert_fault (letter, "cannot be reckoned");
}

/* --- sending ---------------------------------------------------------------------------------- */

static const WbClaim *
get_claim (const WbJob *job)
{
  return wb_job_find (job, WB_KIND_CLAIM, "c");
}

static void
test_send (Fixture       *self,
           gconstpointer  data)
{
  g_autoptr (WbLetter) letter = write_letter (self, WB_LETTER_OFFER, "2026-08-01", NULL);
  g_autofree char *text = wb_letter_to_text (letter);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbKeptLetter) kept =
    wb_office_keep_letter (self->office, self->job, "c", letter->kind, &letter->on, text, NULL,
                           &error);
  g_autoptr (WbReckoning) reckoning = wb_office_reckon (self->office, self->job, "c", NULL);
  g_autoptr (WbJob) sent = NULL;
  g_autoptr (GPtrArray) steps = NULL;
  g_autoptr (WbFrozenCheck) check = NULL;
  g_autofree char *read = NULL;
  const WbClaimStep *step;

  g_assert_no_error (error);
  sent = wb_letter_sent (self->job, "c", "s1", letter, reckoning, kept, "Ines");
  g_assert_true (wb_job_check (sent, &error));
  step = wb_job_find (sent, WB_KIND_STEP, "s1");
  g_assert_cmpint (step->kind, ==, WB_STEP_OFFER);
  g_assert_cmpint (step->amount.minor, ==, 38000);
  g_assert_true (g_date_compare (&step->on, &letter->on) == 0);
  g_assert_cmpstr (step->who, ==, "Odile Varga");
  g_assert_cmpstr (step->by, ==, "Ines");
  g_assert_cmpstr (step->frozen, ==, kept->frozen);
  g_assert_cmpint (get_claim (sent)->status, ==, WB_CLAIM_OFFERED);
  steps = wb_letters_sent (sent, "c");
  g_assert_cmpuint (steps->len, ==, 1);

  /* What was sent is read again word for word, and its figures are made again. */
  read = wb_office_read_letter (self->office, step->letter, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (read, ==, text);
  check = wb_office_verify_reckoning (self->office, step->frozen, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (check->reproduced);
  g_assert_null (wb_office_read_letter (self->office, "0000", NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND);
}

/* A letter without figures keeps none; a release that is sent settles nothing yet. */
static void
test_steps (Fixture       *self,
            gconstpointer  data)
{
  for (int kind = 0; kind < WB_N_LETTERS; kind++)
    {
      g_autoptr (WbLetter) letter = write_letter (self, (WbLetterKind) kind, "2026-08-01", "So.");
      g_autoptr (GError) error = NULL;
      g_autoptr (WbKeptLetter) kept = wb_office_keep_letter (self->office, self->job, "c",
                                                             letter->kind, &letter->on, "A letter",
                                                             NULL, &error);
      g_autoptr (WbJob) sent = NULL;

      g_assert_no_error (error);
      g_assert_true ((kept->frozen != NULL) == (kind >= WB_LETTER_OFFER));
      sent = wb_letter_sent (self->job, "c", "s", letter, NULL, kept, NULL);
      if (kind == WB_LETTER_RELEASE)
        g_assert_cmpint (get_claim (sent)->status, ==, WB_CLAIM_OPEN);
      if (kind == WB_LETTER_ACKNOWLEDGEMENT)
        g_assert_true (wb_date_is_set (&get_claim (sent)->acknowledged_on));
    }
}

#define ADD(path, function) \
  g_test_add ("/office/letter/" path, Fixture, NULL, set_up, function, tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  ADD ("acknowledgement", test_acknowledgement);
  ADD ("request", test_request);
  ADD ("status", test_status);
  ADD ("offer", test_offer);
  ADD ("partial-denial", test_partial_denial);
  ADD ("denial", test_denial);
  ADD ("release", test_release);
  ADD ("texas", test_texas);
  ADD ("military", test_military);
  ADD ("no-terms", test_no_terms);
  ADD ("send", test_send);
  ADD ("steps", test_steps);

  return g_test_run ();
}
