/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a step does to a claim. That an offer, a payment or a denial is the answer that has to come
 * within 120 days: 49 CFR 370.9(a) (seen, 2015). What each does to a status: common practice, no
 * source. */
#include "config.h"

#include "core/wb-claim-step.h"

#include "core/wb-core.h"

static WbJob *
make_job (void)
{
  g_autoptr (WbJob) empty = wb_job_new ("j", "USD");
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  WbOrder *order = wb_record_copy (wb_job_order (empty));
  WbClaim *claim = wb_record_new (WB_KIND_CLAIM, "c");

  wb_set_text (&order->number, "J-1");
  wb_set_text (&claim->number, "C-1");
  g_ptr_array_add (records, order);
  g_ptr_array_add (records, claim);
  return wb_job_with_many (empty, records);
}

static WbJob *
take (const WbJob *job,
      WbStepKind   kind,
      const char  *on)
{
  g_autofree char *id = g_strdup_printf ("s%u", wb_job_count (job, WB_KIND_STEP));
  GDate date;

  g_assert_true (wb_date_parse (on, &date, NULL));
  return wb_claim_take_step (job, "c", id, kind, &date, NULL);
}

static const WbClaim *
get_claim (const WbJob *job)
{
  return wb_job_find (job, WB_KIND_CLAIM, "c");
}

static void
assert_date (const GDate *date,
             const char  *expected)
{
  g_autofree char *text = wb_date_to_text (date);

  g_assert_cmpstr (text, ==, expected);
}

static void
test_every_kind (void)
{
  static const struct
  {
    WbStepKind    kind;
    WbClaimStatus status;
    const char   *acknowledged;
    const char   *inspected;
    const char   *decided;
    gboolean      sends;
  } rows[] = {
    { WB_STEP_NOTICE, WB_CLAIM_OPEN, "", "", "", FALSE },
    { WB_STEP_REQUEST, WB_CLAIM_OPEN, "", "", "", FALSE },
    { WB_STEP_ACKNOWLEDGED, WB_CLAIM_OPEN, "2026-04-02", "", "", FALSE },
    { WB_STEP_INSPECTION, WB_CLAIM_OPEN, "", "2026-04-02", "", FALSE },
    { WB_STEP_STATUS, WB_CLAIM_OPEN, "", "", "", FALSE },
    { WB_STEP_OFFER, WB_CLAIM_OFFERED, "", "", "2026-04-02", TRUE },
    { WB_STEP_COUNTER_OFFER, WB_CLAIM_OPEN, "", "", "", FALSE },
    { WB_STEP_PARTIAL_DENIAL, WB_CLAIM_OFFERED, "", "", "2026-04-02", TRUE },
    { WB_STEP_DENIAL, WB_CLAIM_DECLINED, "", "", "2026-04-02", TRUE },
    { WB_STEP_RELEASE, WB_CLAIM_SETTLED, "", "", "", FALSE },
    { WB_STEP_REOPENED, WB_CLAIM_OPEN, "", "", "", FALSE },
    { WB_STEP_CLOSED, WB_CLAIM_CLOSED, "", "", "", FALSE },
    { WB_STEP_SUIT, WB_CLAIM_OPEN, "", "", "", FALSE },
    { WB_STEP_ARBITRATION, WB_CLAIM_OPEN, "", "", "", FALSE },
    { WB_STEP_MEDIATION, WB_CLAIM_OPEN, "", "", "", FALSE },
    { WB_STEP_TRANSFER, WB_CLAIM_OPEN, "", "", "", FALSE },
    { WB_STEP_OTHER, WB_CLAIM_OPEN, "", "", "", FALSE },
  };

  /* Every kind but the one that is not chosen. */
  g_assert_cmpuint (G_N_ELEMENTS (rows), ==, wb_step_kinds.n_values - 1);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (WbJob) job = make_job ();
      g_autoptr (WbJob) after = take (job, rows[i].kind, "2026-04-02");
      const WbClaim *claim = get_claim (after);
      const WbClaimStep *step = wb_job_nth (after, WB_KIND_STEP, 0);
      g_autoptr (GError) error = NULL;

      g_test_message ("%s", wb_enum_nick (&wb_step_kinds, rows[i].kind));
      g_assert_true (wb_job_check (after, &error));
      g_assert_cmpint (claim->status, ==, rows[i].status);
      assert_date (&claim->acknowledged_on, rows[i].acknowledged);
      assert_date (&claim->inspected_on, rows[i].inspected);
      assert_date (&claim->decided_on, rows[i].decided);
      g_assert_cmpint (step->kind, ==, rows[i].kind);
      assert_date (&step->on, "2026-04-02");
      g_assert_cmpint (wb_step_sends_reckoning (rows[i].kind), ==, rows[i].sends);
      g_assert_cmpuint (wb_job_count (job, WB_KIND_STEP), ==, 0);
    }
}

/* The first answer is the answer; a claim that is opened again waits for another. */
static void
test_first_day_stays (void)
{
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (WbJob) offered = take (job, WB_STEP_OFFER, "2026-04-02");
  g_autoptr (WbJob) more = take (offered, WB_STEP_OFFER, "2026-05-02");
  g_autoptr (WbJob) again = NULL;
  g_autoptr (WbJob) denied = NULL;

  assert_date (&get_claim (more)->decided_on, "2026-04-02");
  g_assert_cmpuint (wb_job_count (more, WB_KIND_STEP), ==, 2);
  again = take (more, WB_STEP_REOPENED, "2026-06-01");
  g_assert_cmpint (get_claim (again)->status, ==, WB_CLAIM_OPEN);
  assert_date (&get_claim (again)->decided_on, "");
  denied = take (again, WB_STEP_DENIAL, "2026-06-09");
  assert_date (&get_claim (denied)->decided_on, "2026-06-09");
  g_assert_cmpint (get_claim (denied)->status, ==, WB_CLAIM_DECLINED);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/claim-step/every-kind", test_every_kind);
  g_test_add_func ("/core/claim-step/first-day-stays", test_first_day_stays);
  return g_test_run ();
}
