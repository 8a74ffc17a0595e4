/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-retention.h"
#include "job-fixture.h"

static WbKeep
keep (const WbJob *job)
{
  return wb_keep_paper (job, wb_job_find (job, WB_KIND_PAPER, "p"));
}

static void
assert_until (WbKeep      found,
              const char *day)
{
  g_autofree char *until = wb_date_to_text (&found.until);

  g_assert_cmpstr (until, ==, day);
  g_assert_cmpint (found.state, ==, *day != '\0' ? WB_KEEP_UNTIL : found.state);
}

/* Periods by kind: 49 CFR 375.213, .403(c), .405(d), .503(e), .505(d), .605 and 379, Appendix A. */
static void
test_kinds (void)
{
  static const struct { const char *kind; const char *day; } cases[] = {
    { "estimate", "2027-03-04" },
    { "booklets", "2027-03-06" },
    { "bill-of-lading", "2027-03-04" },
    { "inventory", "2027-03-04" },
    { "valuation", "2027-03-04" },
    { "high-value-list", "2027-03-04" },
    { "weight-ticket", "2029-03-04" },
    { "delay-notice", "2027-03-04" },
    { "freight-bill", "2027-03-04" },
  };
  static const char *const unknown[] = { "tariff-notice", "arbitration", "complaints", "insurance",
                                         "storage-notice", "delivery-receipt", "letter", "other" };
  g_autoptr (WbJob) job = job_fixture_new ();

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "move_type", "interstate", NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      job_fixture_put (&job, WB_KIND_PAPER, "p", "kind", cases[i].kind, "made_on", "2026-03-04",
                       "signed_on", "2026-03-06", NULL);
      assert_until (keep (job), cases[i].day);
      g_assert_nonnull (keep (job).citation);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (unknown); i++)
    {
      job_fixture_put (&job, WB_KIND_PAPER, "p", "kind", unknown[i], NULL);
      g_assert_cmpint (keep (job).state, ==, WB_KEEP_NO_RULE);
      g_assert_null (keep (job).citation);
    }
}

/* A year from a leap day ends with February. */
static void
test_month_end (void)
{
  g_autoptr (WbJob) job = job_fixture_new ();

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "move_type", "interstate", NULL);
  job_fixture_put (&job, WB_KIND_PAPER, "p", "kind", "inventory", "made_on", "2028-02-29", NULL);
  assert_until (keep (job), "2029-02-28");
  job_fixture_put (&job, WB_KIND_PAPER, "p", "kind", "weight-ticket", NULL);
  assert_until (keep (job), "2031-02-28");
}

static void
test_no_date (void)
{
  g_autoptr (WbJob) job = job_fixture_new ();

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "move_type", "interstate", NULL);
  job_fixture_put (&job, WB_KIND_PAPER, "p", "kind", "inventory", "signed_on", "2026-03-06", NULL);
  g_assert_cmpint (keep (job).state, ==, WB_KEEP_NO_DATE);
  g_assert_cmpint (keep (job).from, ==, WB_KEEP_FROM_MADE);
  assert_until (keep (job), "");
}

/* 52 Pa. Code 31.133 is about the inventory; of other states nothing was looked up. */
static void
test_states (void)
{
  g_autoptr (WbJob) job = job_fixture_new ();

  job_fixture_put (&job, WB_KIND_PAPER, "p", "kind", "inventory", "made_on", "2026-03-04", NULL);
  g_assert_cmpint (keep (job).state, ==, WB_KEEP_OTHER_RULES);

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "move_type", "intrastate", "region", "PA", NULL);
  assert_until (keep (job), "2028-03-04");
  g_assert_cmpstr (keep (job).citation, ==, "52 Pa. Code 31.133");

  job_fixture_put (&job, WB_KIND_PAPER, "p", "kind", "estimate", NULL);
  g_assert_cmpint (keep (job).state, ==, WB_KEEP_OTHER_RULES);
  job_fixture_put (&job, WB_KIND_PAPER, "p", "kind", "inventory", NULL);
  job_fixture_put (&job, WB_KIND_ORDER, NULL, "region", "WA", NULL);
  g_assert_cmpint (keep (job).state, ==, WB_KEEP_OTHER_RULES);
  job_fixture_put (&job, WB_KIND_ORDER, NULL, "move_type", "military", NULL);
  g_assert_cmpint (keep (job).state, ==, WB_KEEP_OTHER_RULES);
}

/* What supports a claim is kept for a year after the settlement. */
static void
test_claims (void)
{
  g_autoptr (WbJob) job = job_fixture_new ();

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "move_type", "interstate", NULL);
  job_fixture_put (&job, WB_KIND_PAPER, "p", "kind", "inventory", "made_on", "2026-03-04", NULL);
  job_fixture_put (&job, WB_KIND_CLAIM, "c", "number", "C-1", "status", "open", NULL);
  g_assert_cmpint (keep (job).state, ==, WB_KEEP_CLAIM_OPEN);

  /* The register itself goes with its claim; an estimate supports none. */
  g_assert_cmpint (wb_keep_claim (job, wb_job_find (job, WB_KIND_CLAIM, "c")).state, ==,
                   WB_KEEP_CLAIM_OPEN);
  job_fixture_put (&job, WB_KIND_PAPER, "p", "kind", "estimate", NULL);
  assert_until (keep (job), "2027-03-04");
  job_fixture_put (&job, WB_KIND_PAPER, "p", "kind", "inventory", NULL);

  job_fixture_put (&job, WB_KIND_CLAIM, "c", "status", "settled", NULL);
  g_assert_cmpint (keep (job).state, ==, WB_KEEP_NO_DATE);
  g_assert_cmpint (keep (job).from, ==, WB_KEEP_FROM_SETTLED);

  job_fixture_put (&job, WB_KIND_CLAIM, "c", "decided_on", "2026-08-10", NULL);
  assert_until (keep (job), "2027-08-10");
  job_fixture_put (&job, WB_KIND_PAYMENT, "pay", "claim", "c", "on", "2026-08-31", NULL);
  assert_until (keep (job), "2027-08-31");

  /* Three years of a weight ticket are longer. */
  job_fixture_put (&job, WB_KIND_PAPER, "p", "kind", "weight-ticket", NULL);
  assert_until (keep (job), "2029-03-04");

  /* No period of its own, yet it supports the claim. */
  job_fixture_put (&job, WB_KIND_PAPER, "p", "kind", "delivery-receipt", NULL);
  assert_until (keep (job), "2027-08-31");

  /* A second claim that is open keeps everything. */
  job_fixture_put (&job, WB_KIND_CLAIM, "d", "number", "C-2", "status", "offered", NULL);
  g_assert_cmpint (keep (job).state, ==, WB_KEEP_CLAIM_OPEN);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/retention/kinds", test_kinds);
  g_test_add_func ("/core/retention/month-end", test_month_end);
  g_test_add_func ("/core/retention/no-date", test_no_date);
  g_test_add_func ("/core/retention/states", test_states);
  g_test_add_func ("/core/retention/claims", test_claims);
  return g_test_run ();
}
