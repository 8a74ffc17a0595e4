/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Quotes beside a claim line. That one of several is taken as the figure: common practice, no
 * source. */
#include "config.h"

#include "core/wb-core.h"
#include "core/wb-quote.h"
#include "job-fixture.h"

static WbJob *
make_job (void)
{
  WbJob *job = job_fixture_new ();

  job_fixture_put (&job, WB_KIND_CLAIM, "c", "number", "C-1", NULL);
  job_fixture_put (&job, WB_KIND_CLAIM_LINE, "l", "claim", "c", "number", "1", "repair", "10",
                   "replacement", "900", NULL);
  job_fixture_put (&job, WB_KIND_CLAIM_LINE, "m", "claim", "c", "number", "2", "repair", "77",
                   NULL);
  job_fixture_put (&job, WB_KIND_QUOTE, "q1", "claim_line", "l", "kind", "repair", "source",
                   "Hollin Joinery", "on", "2026-06-03", "amount", "240", NULL);
  job_fixture_put (&job, WB_KIND_QUOTE, "q2", "claim_line", "l", "kind", "repair", "amount",
                   "185.50", NULL);
  job_fixture_put (&job, WB_KIND_QUOTE, "q3", "claim_line", "l", "kind", "replacement", "amount",
                   "1,050", "taken", "yes", NULL);
  job_fixture_put (&job, WB_KIND_QUOTE, "q4", "claim_line", "m", "kind", "repair", "amount", "80",
                   "taken", "yes", NULL);
  return job;
}

static const WbClaimLine *
get_line (const WbJob *job)
{
  return wb_job_find (job, WB_KIND_CLAIM_LINE, "l");
}

static gboolean
is_taken (const WbJob *job,
          const char  *id)
{
  return ((const WbQuote *) wb_job_find (job, WB_KIND_QUOTE, id))->taken;
}

static void
test_take (void)
{
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (GPtrArray) quotes = wb_quotes_of (job, "l");
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) first = wb_quote_take (job, "q1", &error);
  g_autoptr (WbJob) second = NULL;

  g_assert_no_error (error);
  g_assert_cmpuint (quotes->len, ==, 3);
  g_assert_cmpint (get_line (first)->repair.minor, ==, 24000);
  g_assert_true (is_taken (first, "q1"));

  second = wb_quote_take (first, "q2", &error);
  g_assert_no_error (error);
  g_assert_cmpint (get_line (second)->repair.minor, ==, 18550);
  g_assert_false (is_taken (second, "q1"));
  g_assert_true (is_taken (second, "q2"));
  g_assert_true (wb_job_check (second, &error));

  /* The other kind, the other figures and the other line are as they were. */
  g_assert_true (is_taken (second, "q3"));
  g_assert_true (is_taken (second, "q4"));
  g_assert_cmpint (get_line (second)->replacement.minor, ==, 90000);
  g_assert_cmpint (((const WbClaimLine *) wb_job_find (second, WB_KIND_CLAIM_LINE, "m"))
                     ->repair.minor, ==, 7700);
  g_assert_true (wb_quote_taken (second, "l", WB_QUOTE_REPAIR)
                 == wb_job_find (second, WB_KIND_QUOTE, "q2"));
  g_assert_null (wb_quote_taken (job, "l", WB_QUOTE_REPAIR));
}

/* What was taken is held against the line as it stands. */
static void
test_differs (void)
{
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (WbJob) taken = NULL;

  g_assert_true (wb_quote_differs (job, wb_job_find (job, WB_KIND_QUOTE, "q3")));
  g_assert_false (wb_quote_differs (job, wb_job_find (job, WB_KIND_QUOTE, "q1")));
  taken = wb_quote_take (job, "q3", NULL);
  g_assert_false (wb_quote_differs (taken, wb_job_find (taken, WB_KIND_QUOTE, "q3")));
  job_fixture_put (&taken, WB_KIND_CLAIM_LINE, "l", "replacement", "", NULL);
  g_assert_true (wb_quote_differs (taken, wb_job_find (taken, WB_KIND_QUOTE, "q3")));
}

static void
test_refused (void)
{
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (GError) error = NULL;

  job_fixture_put (&job, WB_KIND_QUOTE, "q1", "amount", "", NULL);
  g_assert_null (wb_quote_take (job, "q1", &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
  g_clear_error (&error);
  job_fixture_put (&job, WB_KIND_QUOTE, "q2", "kind", "none", NULL);
  g_assert_null (wb_quote_take (job, "q2", &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/core/quote/take", test_take);
  g_test_add_func ("/core/quote/differs", test_differs);
  g_test_add_func ("/core/quote/refused", test_refused);

  return g_test_run ();
}
