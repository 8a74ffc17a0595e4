/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lines of a finished claim as a report sees them, and what open claims add up to, on random
 * claims and small ones. */
#include "config.h"

#include "core/wb-claim-totals.h"
#include "core/wb-core.h"
#include "core/wb-loss-line.h"

#include "support/wb-random-claim.h"
#include "support/wb-random-evidence.h"

#define N_JOBS 500

typedef void (*CheckClaim) (GRand           *rand,
                            WbJob           *job,
                            WbReckoning     *reckoning,
                            WbApportionment *shares);

/* A payment for some line alone, now and then. */
static WbJob *
add_payment (GRand       *rand,
             const WbJob *job)
{
  g_autoptr (WbRecord) record = wb_record_new (WB_KIND_PAYMENT, "for-a-line");
  WbPayment *payment = (WbPayment *) record;
  guint n = wb_job_count (job, WB_KIND_CLAIM_LINE);
  const WbClaimLine *line = wb_job_nth (job, WB_KIND_CLAIM_LINE,
                                        (guint) g_rand_int_range (rand, 0, (gint32) n));

  wb_set_text (&payment->claim, line->claim);
  if (g_rand_boolean (rand))
    wb_set_text (&payment->claim_line, line->record.id);
  payment->amount = wb_money (g_rand_int_range (rand, 0, 100000), "USD");
  return wb_job_with (job, payment);
}

static void
try_claims (CheckClaim check)
{
  guint32 seed = (guint32) g_test_rand_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);

  g_test_message ("random values: first seed %u, repeat with the --seed printed at the top", seed);
  for (guint i = 0; i < N_JOBS; i++)
    {
      g_autofree char *text = wb_random_terms_text (rand, "USD");
      g_autoptr (WbTerms) terms = wb_random_terms_read (text);
      g_autoptr (WbJob) bare = wb_random_job (rand, "USD", (guint) g_rand_int_range (rand, 1, 6));
      g_autoptr (WbJob) evident = wb_random_evidence (rand, bare);
      g_autoptr (WbJob) job = add_payment (rand, evident);
      g_autoptr (GError) error = NULL;
      g_autoptr (WbReckoning) reckoning = wb_reckon (terms, job, "claim", &error);
      g_autoptr (WbApportionment) shares = NULL;

      g_assert_no_error (error);
      shares = wb_apportion (reckoning, WB_APPORTION_LAST, &error);
      g_assert_no_error (error);
      check (rand, job, reckoning, shares);
    }
}

/* --- lines ------------------------------------------------------------------------------------ */

static gint64
sum_payments (const WbJob *job)
{
  gint64 sum = 0;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PAYMENT); i++)
    {
      const WbPayment *payment = wb_job_nth (job, WB_KIND_PAYMENT, i);

      sum += g_str_equal (payment->claim, "claim") ? payment->amount.minor : 0;
    }
  return sum;
}

/* Owed, borne and paid add up to what the reckoning and the payments say. */
static void
check_lines (GRand           *rand,
             WbJob           *job,
             WbReckoning     *reckoning,
             WbApportionment *shares)
{
  g_autoptr (GPtrArray) lines = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_loss_line_free);
  g_autoptr (GError) error = NULL;
  gint64 owed = 0, paid = 0;

  g_assert_true (wb_loss_lines_add (lines, job, reckoning->claim, shares, NULL, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (lines->len, ==, reckoning->n_lines);
  for (guint i = 0; i < lines->len; i++)
    {
      const WbLossLine *line = g_ptr_array_index (lines, i);
      gint64 borne = 0;

      g_assert_true (line->reckoned);
      g_assert_cmpint (line->paid, >=, 0);
      for (guint k = 0; k < line->n_handlers; k++)
        {
          g_assert_cmpint (line->parts[k], >, 0);
          borne += line->parts[k];
        }
      g_assert_cmpint (borne, ==, line->owed);
      owed += line->owed;
      paid += line->paid;
    }
  g_assert_cmpint (owed, ==, reckoning->side[reckoning->applies].owed);
  g_assert_cmpint (paid, ==, sum_payments (job));
}

static void
test_lines (void)
{
  try_claims (check_lines);
}

/* Without terms the money that was asked and paid still counts. */
static void
check_unreckoned (GRand           *rand,
                  WbJob           *job,
                  WbReckoning     *reckoning,
                  WbApportionment *shares)
{
  g_autoptr (GPtrArray) lines = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_loss_line_free);
  g_autoptr (GError) error = NULL;
  gint64 paid = 0;

  g_assert_true (wb_loss_lines_add (lines, job, reckoning->claim, NULL, NULL, &error));
  for (guint i = 0; i < lines->len; i++)
    {
      const WbLossLine *line = g_ptr_array_index (lines, i);

      g_assert_false (line->reckoned);
      g_assert_cmpint (line->owed, ==, 0);
      paid += line->paid;
    }
  g_assert_cmpint (paid, ==, sum_payments (job));
}

static void
test_unreckoned (void)
{
  try_claims (check_unreckoned);
}

/* --- when it was finished --------------------------------------------------------------------- */

static void
add_step (WbJob      **job,
          const char  *id,
          WbStepKind   kind,
          const char  *on)
{
  g_autoptr (WbRecord) record = wb_record_new (WB_KIND_STEP, id);
  WbClaimStep *step = (WbClaimStep *) record;
  WbJob *changed;

  wb_set_text (&step->claim, "claim");
  step->kind = kind;
  g_assert_true (wb_date_parse (on, &step->on, NULL));
  changed = wb_job_with (*job, step);
  wb_job_unref (*job);
  *job = changed;
}

static void
assert_finished (const WbJob *job,
                 const char  *expected)
{
  GDate on;
  g_autofree char *text = NULL;

  wb_claim_finished_on (job, wb_job_find (job, WB_KIND_CLAIM, "claim"), &on);
  text = wb_date_to_text (&on);
  g_assert_cmpstr (text, ==, expected);
}

static void
test_finished_on (void)
{
  g_autoptr (WbJob) job = wb_job_new ("job", "USD");
  g_autoptr (WbRecord) claim = wb_record_new (WB_KIND_CLAIM, "claim");
  g_autoptr (WbRecord) record = wb_record_new (WB_KIND_PAYMENT, "payment");
  WbPayment *payment = (WbPayment *) record;
  WbJob *changed;

  changed = wb_job_with (job, claim);
  wb_job_unref (job);
  job = changed;
  assert_finished (job, "");

  wb_set_text (&payment->claim, "claim");
  g_assert_true (wb_date_parse ("2026-04-02", &payment->on, NULL));
  changed = wb_job_with (job, payment);
  wb_job_unref (job);
  job = changed;
  assert_finished (job, "2026-04-02");

  add_step (&job, "offer", WB_STEP_OFFER, "2026-05-09");
  assert_finished (job, "2026-04-02");
  add_step (&job, "release", WB_STEP_RELEASE, "2026-03-03");
  assert_finished (job, "2026-03-03");
  add_step (&job, "closed", WB_STEP_CLOSED, "2026-04-04");
  assert_finished (job, "2026-04-04");
}

/* --- open claims ------------------------------------------------------------------------------ */

static void
check_row (GRand           *rand,
           WbJob           *job,
           WbReckoning     *reckoning,
           WbApportionment *shares)
{
  g_autoptr (GError) error = NULL;
  WbClaimRow row;

  g_assert_true (wb_claim_row_read (job, reckoning->claim, reckoning, &row, &error));
  g_assert_no_error (error);
  g_assert_cmpint (row.paid, ==, sum_payments (job));
  g_assert_cmpint (row.owed - row.paid, ==, row.balance);
  g_assert_true (wb_claim_row_read (job, reckoning->claim, NULL, &row, &error));
  g_assert_false (row.reckoned);
  g_assert_cmpint (row.owed, ==, 0);
}

static void
test_rows (void)
{
  try_claims (check_row);
}

static void
add_row (GArray     *rows,
         const char *currency,
         gboolean    reckoned,
         gint64      owed,
         gint64      reserve)
{
  WbClaimRow row = { .reckoned = reckoned, .reserved = reserve > 0, .demanded = 1000,
                     .owed = reckoned ? owed : 0, .reserve = reserve, .paid = 10,
                     .balance = reckoned ? owed - 10 : 0, .charged = 7, .recovered = 3 };

  g_strlcpy (row.currency, currency, sizeof row.currency);
  g_array_append_val (rows, row);
}

/* What cannot be reckoned is counted and leaves the difference alone; currencies stay apart. */
static void
test_totals (void)
{
  g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (WbClaimRow));
  g_autoptr (GArray) totals = NULL;
  g_autoptr (GError) error = NULL;
  const WbClaimTotals *dollars, *euros;

  add_row (rows, "USD", TRUE, 500, 400);
  add_row (rows, "EUR", TRUE, 50, 0);
  add_row (rows, "USD", TRUE, 300, 600);
  add_row (rows, "USD", FALSE, 0, 900);

  totals = wb_claim_totals (rows, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (totals->len, ==, 2);
  euros = &g_array_index (totals, WbClaimTotals, 0);
  dollars = &g_array_index (totals, WbClaimTotals, 1);
  g_assert_cmpstr (euros->currency, ==, "EUR");
  g_assert_cmpint (euros->difference, ==, -50);
  g_assert_cmpuint (euros->n_unreserved, ==, 1);
  g_assert_cmpuint (dollars->n_claims, ==, 3);
  g_assert_cmpuint (dollars->n_unreckoned, ==, 1);
  g_assert_cmpint (dollars->demanded, ==, 3000);
  g_assert_cmpint (dollars->owed, ==, 800);
  g_assert_cmpint (dollars->reserve, ==, 1900);
  g_assert_cmpint (dollars->difference, ==, 200);
  g_assert_cmpint (dollars->paid, ==, 30);
  g_assert_cmpint (dollars->balance, ==, 780);
  g_assert_cmpint (dollars->charged, ==, 21);
  g_assert_cmpint (dollars->recovered, ==, 9);
}

static void
test_totals_overflow (void)
{
  g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (WbClaimRow));
  g_autoptr (GArray) none = wb_claim_totals (rows, NULL);
  g_autoptr (GError) error = NULL;

  g_assert_cmpuint (none->len, ==, 0);
  add_row (rows, "USD", TRUE, G_MAXINT64, 0);
  add_row (rows, "USD", TRUE, 1, 0);
  g_assert_null (wb_claim_totals (rows, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/loss-line/lines", test_lines);
  g_test_add_func ("/loss-line/unreckoned", test_unreckoned);
  g_test_add_func ("/loss-line/finished-on", test_finished_on);
  g_test_add_func ("/claim-totals/rows", test_rows);
  g_test_add_func ("/claim-totals/totals", test_totals);
  g_test_add_func ("/claim-totals/overflow", test_totals_overflow);

  return g_test_run ();
}
