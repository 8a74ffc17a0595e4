/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each rule of the reckoning on a claim small enough to check by hand. Figures published elsewhere
 * are checked in tests/published; what must hold of any claim in test-reckon-properties.c. */
#include "config.h"

#include <string.h>

#include "claim-fixture.h"
#include "core/wb-core.h"

/* --- losses ----------------------------------------------------------------------------------- */

static void
test_lesser_of_repair_and_value (ClaimFixture  *fixture,
                                 gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbClaimLine *line;

  claim_add_piece (fixture, "table", WB_FORM_LOOSE, 80);
  claim_add_piece (fixture, "chair", WB_FORM_LOOSE, 20);
  line = claim_add_line (fixture, "table", WB_LOSS_DAMAGED, 500, 120);
  line->appearance = dollars (30);
  claim_add_line (fixture, "chair", WB_LOSS_DAMAGED, 90, 120);
  reckoning = claim_reckon (fixture);
  g_assert_cmpint (OWED (reckoning, 0, FULL), ==, 15000);
  g_assert_cmpint (OWED (reckoning, 1, FULL), ==, 9000);
  g_assert_nonnull (claim_find_reason (reckoning, WB_RULE_LESSER, WB_SCOPE_FULL, 0));
}

static void
test_depreciation_only_where_the_terms_say (ClaimFixture  *fixture,
                                            gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbClaimLine *line;

  claim_add_piece (fixture, "carpet", WB_FORM_LOOSE, 2000);
  line = claim_add_line (fixture, "carpet", WB_LOSS_MISSING, 500, 0);
  line->age_years = 4;
  line->depreciation_yearly = 700;
  reckoning = claim_reckon (fixture);
  g_assert_cmpint (reckoning->lines[0].side[WB_SIDE_RELEASED].loss, ==, 36000);
  g_assert_cmpint (reckoning->lines[0].side[WB_SIDE_FULL].loss, ==, 50000);
}

static void
test_salvage_and_demand (ClaimFixture  *fixture,
                         gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbClaimLine *line;

  claim_add_piece (fixture, "lamp", WB_FORM_LOOSE, 10);
  line = claim_add_line (fixture, "lamp", WB_LOSS_DESTROYED, 200, 0);
  line->salvage = dollars (25);
  line = claim_add_line (fixture, "lamp", WB_LOSS_DESTROYED, 200, 0);
  line->demanded = dollars (150);
  reckoning = claim_reckon (fixture);
  g_assert_cmpint (OWED (reckoning, 0, FULL), ==, 17500);
  g_assert_cmpint (OWED (reckoning, 1, FULL), ==, 15000);
}

static void
test_missing_figures_are_named (ClaimFixture  *fixture,
                                gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  const WbReason *reason;

  claim_add_piece (fixture, "box", WB_FORM_CARTON, 0);
  claim_add_line (fixture, "box", WB_LOSS_MISSING, 0, 0);
  claim_add_line (fixture, "box", WB_LOSS_MISSING, 40, 0);
  reckoning = claim_reckon (fixture);
  reason = claim_find_reason (reckoning, WB_RULE_MISSING_FIGURE, WB_SCOPE_FULL, 0);
  g_assert_nonnull (reason);
  g_assert_cmpint (reason->inputs[0].value, ==, WB_MISSING_REPLACEMENT);
  /* Without the carton's weight released value cannot be worked out; full value can. */
  g_assert_false (reckoning->lines[1].side[WB_SIDE_RELEASED].complete);
  g_assert_cmpint (OWED (reckoning, 1, FULL), ==, 4000);
  g_assert_false (TOTAL (reckoning, RELEASED)->complete);
}

static void
test_denied_line (ClaimFixture  *fixture,
                  gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbClaimLine *line;

  claim_add_piece (fixture, "box", WB_FORM_CARTON, 50);
  line = claim_add_line (fixture, "box", WB_LOSS_MISSING, 100, 0);
  line->ruling = WB_RULING_DENIED;
  claim_add_line (fixture, "box", WB_LOSS_MISSING, 100, 0);
  reckoning = claim_reckon (fixture);
  /* The denied line takes nothing of the article's 30.00 from the other one. */
  g_assert_cmpint (OWED (reckoning, 0, RELEASED), ==, 0);
  g_assert_cmpint (OWED (reckoning, 1, RELEASED), ==, 3000);
}

/* --- articles --------------------------------------------------------------------------------- */

static void
test_carton_is_one_article (ClaimFixture  *fixture,
                            gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;

  claim_add_piece (fixture, "dishes", WB_FORM_CARTON, 45);
  claim_add_line (fixture, "dishes", WB_LOSS_DESTROYED, 40, 0);
  claim_add_line (fixture, "dishes", WB_LOSS_DESTROYED, 20, 0);
  claim_add_line (fixture, "dishes", WB_LOSS_DESTROYED, 20, 0);
  reckoning = claim_reckon (fixture);
  /* 45 lb × 0.60 = 27.00 for the carton, shared 2 : 1 : 1. */
  g_assert_cmpint (OWED (reckoning, 0, RELEASED), ==, 1350);
  g_assert_cmpint (OWED (reckoning, 1, RELEASED), ==, 675);
  g_assert_cmpint (OWED (reckoning, 2, RELEASED), ==, 675);
  g_assert_cmpint (TOTAL (reckoning, RELEASED)->owed, ==, 2700);
}

static void
test_each_thing_by_its_own_weight (void)
{
  ClaimFixture fixture = { NULL };
  g_autoptr (WbReckoning) reckoning = NULL;
  WbClaimLine *line;

  claim_set_up_with (&fixture, TERMS_HEAD "[articles]\ncarton = each-thing\n" TERMS_USUAL);
  claim_add_piece (&fixture, "dishes", WB_FORM_CARTON, 45);
  line = claim_add_line (&fixture, "dishes", WB_LOSS_DESTROYED, 40, 0);
  line->weight = pounds (2);
  reckoning = claim_reckon (&fixture);
  g_assert_cmpint (OWED (reckoning, 0, RELEASED), ==, 120);
  claim_tear_down (&fixture, NULL);
}

static void
test_parts_are_one_article (ClaimFixture  *fixture,
                            gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  const char *ids[] = { "headboard", "footboard", "rails", "slats" };

  for (guint i = 0; i < G_N_ELEMENTS (ids); i++)
    wb_set_text (&claim_add_piece (fixture, ids[i], WB_FORM_LOOSE, 25)->article, "bed");
  claim_add_line (fixture, "rails", WB_LOSS_MISSING, 400, 0);
  reckoning = claim_reckon (fixture);
  /* four parts of 25 lb: 100 lb × 0.60 */
  g_assert_cmpint (OWED (reckoning, 0, RELEASED), ==, 6000);
}

static void
test_extraordinary_value (ClaimFixture  *fixture,
                          gconstpointer  data)
{
  g_autoptr (WbReckoning) unlisted = NULL, unsigned_list = NULL, listed = NULL;
  WbPiece *piece = claim_add_piece (fixture, "clock", WB_FORM_LOOSE, 5);
  WbValuation *valuation = claim_find (fixture, WB_KIND_VALUATION);

  valuation->declared_value = dollars (40000);
  claim_add_line (fixture, "clock", WB_LOSS_MISSING, 2500, 0);
  unlisted = claim_reckon (fixture);
  g_assert_cmpint (OWED (unlisted, 0, FULL), ==, 50000);
  g_assert_nonnull (claim_find_reason (unlisted, WB_RULE_EXTRAORDINARY, WB_SCOPE_FULL, 0));

  piece->listed_value = dollars (2000);
  unsigned_list = claim_reckon (fixture);
  g_assert_cmpint (OWED (unsigned_list, 0, FULL), ==, 50000);

  valuation->high_value_list = TRUE;
  listed = claim_reckon (fixture);
  g_assert_cmpint (OWED (listed, 0, FULL), ==, 200000);
  g_assert_cmpint (OWED (listed, 0, RELEASED), ==, 300);
}

/* --- the shipment ----------------------------------------------------------------------------- */

static void
test_default_is_full_value (ClaimFixture  *fixture,
                            gconstpointer  data)
{
  g_autoptr (WbReckoning) unsigned_waiver = NULL, undisclosed = NULL, valid = NULL;
  WbValuation *valuation = claim_find (fixture, WB_KIND_VALUATION);

  valuation->choice = WB_CHOICE_RELEASED;
  unsigned_waiver = claim_reckon (fixture);
  g_assert_cmpint (unsigned_waiver->applies, ==, WB_SIDE_FULL);
  g_assert_cmpuint (unsigned_waiver->waiver_gaps, ==,
                    WB_WAIVER_NO_SIGNER | WB_WAIVER_NO_DATE | WB_WAIVER_NO_MANNER |
                    WB_WAIVER_NO_DISCLOSURE);
  claim_sign_waiver (fixture);
  valid = claim_reckon (fixture);
  g_assert_cmpint (valid->applies, ==, WB_SIDE_RELEASED);
  wb_set_text (&valuation->disclosure, NULL);
  undisclosed = claim_reckon (fixture);
  g_assert_cmpint (undisclosed->applies, ==, WB_SIDE_FULL);
}

static void
test_declared_value_and_minimum (ClaimFixture  *fixture,
                                 gconstpointer  data)
{
  g_autoptr (WbReckoning) none = NULL, under = NULL, over = NULL;
  WbValuation *valuation = claim_find (fixture, WB_KIND_VALUATION);

  none = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (none, FULL)->shipment_limit, ==, 3000000);
  valuation->declared_value = dollars (10000);
  under = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (under, FULL)->shipment_limit, ==, 3000000);
  valuation->declared_value = dollars (50000);
  over = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (over, FULL)->shipment_limit, ==, 5000000);
  g_assert_cmpint (TOTAL (over, RELEASED)->has_limit, ==, FALSE);
}

static void
test_reweigh_governs (ClaimFixture  *fixture,
                      gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbWeighing *weighing = claim_add (fixture, WB_KIND_WEIGHING, "again");

  weighing->kind = WB_WEIGHING_REWEIGH;
  weighing->gross = pounds (30000);
  weighing->tare = pounds (24000);
  reckoning = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (reckoning, FULL)->shipment_limit, ==, 3600000);
}

static void
test_deductible_is_shared (ClaimFixture  *fixture,
                           gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbValuation *valuation = claim_find (fixture, WB_KIND_VALUATION);

  valuation->deductible = dollars (100);
  claim_add_piece (fixture, "a", WB_FORM_LOOSE, 100);
  claim_add_piece (fixture, "b", WB_FORM_LOOSE, 100);
  claim_add_piece (fixture, "c", WB_FORM_LOOSE, 100);
  for (guint i = 0; i < 3; i++)
    claim_add_line (fixture, i == 0 ? "a" : i == 1 ? "b" : "c", WB_LOSS_MISSING, 50, 0);
  reckoning = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (reckoning, FULL)->owed, ==, 5000);
  /* 100.00 over three equal lines: the odd cent goes to the first. */
  g_assert_cmpint (reckoning->lines[0].side[WB_SIDE_FULL].deducted, ==, 3334);
  g_assert_cmpint (reckoning->lines[1].side[WB_SIDE_FULL].deducted, ==, 3333);
  g_assert_cmpint (OWED (reckoning, 2, FULL), ==, 1667);
  g_assert_cmpint (TOTAL (reckoning, RELEASED)->deducted, ==, 0);
}

/* Two claims paid one after the other come to what one claim for both would have brought. */
static void
test_claims_one_by_one (ClaimFixture  *fixture,
                        gconstpointer  data)
{
  g_autoptr (WbReckoning) together = NULL, first = NULL, second = NULL;
  WbValuation *valuation = claim_find (fixture, WB_KIND_VALUATION);
  WbClaim *earlier;
  WbPayment *payment;
  WbClaimLine *line;

  valuation->declared_value = dollars (30000);
  valuation->deductible = dollars (500);
  claim_add_piece (fixture, "a", WB_FORM_LOOSE, 4000);
  claim_add_piece (fixture, "b", WB_FORM_LOOSE, 4000);
  earlier = claim_add (fixture, WB_KIND_CLAIM, "earlier");
  wb_set_text (&earlier->number, "C-0");
  line = claim_add_line (fixture, "a", WB_LOSS_DESTROYED, 18000, 0);
  claim_add_line (fixture, "b", WB_LOSS_DESTROYED, 20000, 0);
  together = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (together, FULL)->owed, ==, 2950000);

  /* The first line becomes a claim of its own that was paid before. */
  wb_set_text (&line->claim, "earlier");
  payment = claim_add (fixture, WB_KIND_PAYMENT, "paid");
  wb_set_text (&payment->claim, "earlier");
  payment->amount = dollars (17500);
  payment->deductible_taken = dollars (500);
  second = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (second, FULL)->deductible, ==, 0);
  g_assert_cmpint (TOTAL (second, FULL)->owed, ==, 2950000 - 1750000);
  g_assert_cmpint (TOTAL (second, FULL)->limit_left, ==, 3000000 - 1750000 - 50000);
}

static void
test_paid_on_this_claim (ClaimFixture  *fixture,
                         gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbPayment *payment = claim_add (fixture, WB_KIND_PAYMENT, "paid");

  wb_set_text (&payment->claim, "claim");
  payment->amount = dollars (30);
  claim_add_piece (fixture, "a", WB_FORM_LOOSE, 100);
  claim_add_line (fixture, "a", WB_LOSS_DAMAGED, 0, 80);
  reckoning = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (reckoning, FULL)->owed, ==, 8000);
  g_assert_cmpint (TOTAL (reckoning, FULL)->balance, ==, 5000);
}

/* --- freight ---------------------------------------------------------------------------------- */

static void
test_freight_refund (ClaimFixture  *fixture,
                     gconstpointer  data)
{
  g_autoptr (WbReckoning) partial = NULL, inside = NULL, total = NULL;
  WbOrder *order = claim_find (fixture, WB_KIND_ORDER);
  WbPiece *box;
  WbClaimLine *line;

  order->freight_charge = dollars (4000);
  order->other_charge = dollars (300);
  claim_add_piece (fixture, "sofa", WB_FORM_LOOSE, 250);
  claim_add_line (fixture, "sofa", WB_LOSS_MISSING, 900, 0);
  partial = claim_reckon (fixture);
  /* 250 of 5,000 lb */
  g_assert_cmpint (TOTAL (partial, FULL)->freight_refund, ==, 20000);
  g_assert_cmpint (TOTAL (partial, RELEASED)->freight_refund, ==, 20000);

  /* One thing out of a carton: only its own weight was lost. */
  box = claim_add_piece (fixture, "box", WB_FORM_CARTON, 50);
  line = claim_add_line (fixture, box->record.id, WB_LOSS_MISSING, 30, 0);
  line->weight = pounds (5);
  inside = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (inside, FULL)->freight_refund, ==, 20400);

  claim_add_piece (fixture, "rest", WB_FORM_LOOSE, 4745);
  claim_add_line (fixture, "rest", WB_LOSS_MISSING, 9000, 0);
  total = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (total, FULL)->freight_refund, ==, 430000);
}

static void
test_carton_counted_short_is_lost_whole (ClaimFixture  *fixture,
                                         gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbOrder *order = claim_find (fixture, WB_KIND_ORDER);
  WbFinding *finding;

  order->freight_charge = dollars (1000);
  claim_add (fixture, WB_KIND_HANDOVER, "door");
  claim_add_piece (fixture, "box", WB_FORM_CARTON, 50);
  finding = claim_add (fixture, WB_KIND_FINDING, "gone");
  wb_set_text (&finding->handover, "door");
  wb_set_text (&finding->piece, "box");
  finding->found = WB_FOUND_SHORT;
  claim_add_line (fixture, "box", WB_LOSS_MISSING, 60, 0);
  reckoning = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (reckoning, FULL)->freight_refund, ==, 1000);
}

/* --- time ------------------------------------------------------------------------------------- */

static void
test_late_claim_is_flagged (ClaimFixture  *fixture,
                            gconstpointer  data)
{
  g_autoptr (WbReckoning) last_day = NULL, late = NULL;
  WbClaim *claim = claim_find (fixture, WB_KIND_CLAIM);

  claim_add_piece (fixture, "a", WB_FORM_LOOSE, 10);
  claim_add_line (fixture, "a", WB_LOSS_MISSING, 50, 0);
  g_date_set_dmy (&claim->received_on, 10, G_DATE_DECEMBER, 2024);
  last_day = claim_reckon (fixture);
  g_assert_cmpint (last_day->late, ==, WB_NOT_LATE);
  g_date_set_dmy (&claim->received_on, 11, G_DATE_DECEMBER, 2024);
  late = claim_reckon (fixture);
  g_assert_cmpint (late->late, ==, WB_LATE);
  g_assert_nonnull (claim_find_reason (late, WB_RULE_LATE, WB_SCOPE_GENERAL,
                                       WB_REASON_WHOLE_CLAIM));
  g_assert_cmpint (TOTAL (late, FULL)->owed, ==, 5000);
}

static void
test_late_claim_at_actual_value_then_barred (void)
{
  ClaimFixture fixture = { NULL };
  g_autoptr (WbReckoning) late = NULL, too_late = NULL;
  WbClaim *claim;
  WbClaimLine *line;

  claim_set_up_with (&fixture,
               TERMS_HEAD "[claims]\nclaim-within = 9 months\nlate-claim = actual-value\n"
               "late-until = 2 years\n"
                         "[full]\nshipment-rate = 6.00 per lb\n");
  claim = claim_find (&fixture, WB_KIND_CLAIM);
  claim_add_piece (&fixture, "a", WB_FORM_LOOSE, 10);
  line = claim_add_line (&fixture, "a", WB_LOSS_MISSING, 100, 0);
  line->depreciation_flat = 4000;
  g_date_set_dmy (&claim->received_on, 10, G_DATE_MARCH, 2026);
  late = claim_reckon (&fixture);
  g_assert_cmpint (OWED (late, 0, FULL), ==, 6000);
  g_assert_false (TOTAL (late, RELEASED)->offered);
  g_date_set_dmy (&claim->received_on, 11, G_DATE_MARCH, 2026);
  too_late = claim_reckon (&fixture);
  g_assert_cmpint (OWED (too_late, 0, FULL), ==, 0);
  g_assert_nonnull (claim_find_reason (too_late, WB_RULE_BARRED, WB_SCOPE_FULL, 0));
  claim_tear_down (&fixture, NULL);
}

/* --- reasons and errors ----------------------------------------------------------------------- */

static void
test_silence_is_said_once (ClaimFixture  *fixture,
                           gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  guint n = 0;
  const WbReason *reason;
  WbReasonIter iter;

  claim_add_piece (fixture, "a", WB_FORM_CARTON, 10);
  claim_add_line (fixture, "a", WB_LOSS_MISSING, 50, 0);
  claim_add_line (fixture, "a", WB_LOSS_MISSING, 50, 0);
  reckoning = claim_reckon (fixture);
  wb_reason_iter_init (&iter, reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    n += reason->rule == WB_RULE_SILENT && reason->key == WB_KEY_CARTON;
  g_assert_cmpuint (n, ==, 1);
}

static void
assert_fails (ClaimFixture     *fixture,
              WbCoreError  code)
{
  g_autoptr (WbJob) job = wb_job_with_many (fixture->empty, fixture->records);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbReckoning) reckoning = wb_reckon (fixture->terms, job, "claim", &error);

  g_assert_error (error, WB_CORE_ERROR, (int) code);
  g_assert_null (reckoning);
}

static void
test_absurd_input_is_an_error (ClaimFixture  *fixture,
                               gconstpointer  data)
{
  WbClaimLine *line;

  claim_add_piece (fixture, "a", WB_FORM_LOOSE, 10);
  line = claim_add_line (fixture, "a", WB_LOSS_MISSING, 50, 0);
  line->replacement.minor = -1;
  assert_fails (fixture, WB_CORE_ERROR_RANGE);
  line->replacement.minor = G_MAXINT64;
  assert_fails (fixture, WB_CORE_ERROR_RANGE);
  line->replacement = wb_money (100, "EUR");
  assert_fails (fixture, WB_CORE_ERROR_CURRENCY);
  line->replacement = dollars (1);
  line->depreciation_flat = 10001;
  assert_fails (fixture, WB_CORE_ERROR_RANGE);
  line->depreciation_flat = WB_INTEGER_UNSET;
  line->age_years = -3;
  assert_fails (fixture, WB_CORE_ERROR_RANGE);
}

static void
test_no_such_claim (ClaimFixture  *fixture,
                    gconstpointer  data)
{
  g_autoptr (WbJob) job = wb_job_with_many (fixture->empty, fixture->records);
  g_autoptr (GError) error = NULL;

  g_assert_null (wb_reckon (fixture->terms, job, "nowhere", &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
}

static void
test_listing_names_every_step (ClaimFixture  *fixture,
                                  gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  g_autofree char *text = NULL;

  claim_sign_waiver (fixture);
  claim_add_piece (fixture, "vase", WB_FORM_LOOSE, 2);
  claim_add_line (fixture, "vase", WB_LOSS_DESTROYED, 80, 0);
  reckoning = claim_reckon (fixture);
  text = wb_reckoning_to_text (reckoning);
  g_assert_nonnull (strstr (text, "applies released late in-time"));
  g_assert_nonnull (strstr (text,
                            "line 1 released complete=yes loss=80.00 allowed=1.20 "
                            "covered=1.20 deducted=0.00 owed=1.20"));
  g_assert_nonnull (strstr (text, "reason article-limit released line=1 key=article-rate"));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define CASE(path, function) \
  g_test_add ("/core/reckon/" path, ClaimFixture, NULL, claim_set_up, function, claim_tear_down)
  CASE ("loss/lesser-of-repair-and-value", test_lesser_of_repair_and_value);
  CASE ("loss/depreciation", test_depreciation_only_where_the_terms_say);
  CASE ("loss/salvage-and-demand", test_salvage_and_demand);
  CASE ("loss/missing-figures", test_missing_figures_are_named);
  CASE ("loss/denied", test_denied_line);
  CASE ("article/carton", test_carton_is_one_article);
  g_test_add_func ("/core/reckon/article/each-thing", test_each_thing_by_its_own_weight);
  CASE ("article/parts", test_parts_are_one_article);
  CASE ("article/extraordinary", test_extraordinary_value);
  CASE ("shipment/default-is-full", test_default_is_full_value);
  CASE ("shipment/declared-value", test_declared_value_and_minimum);
  CASE ("shipment/reweigh", test_reweigh_governs);
  CASE ("shipment/deductible", test_deductible_is_shared);
  CASE ("shipment/claims-one-by-one", test_claims_one_by_one);
  CASE ("shipment/paid", test_paid_on_this_claim);
  CASE ("freight/refund", test_freight_refund);
  CASE ("freight/short-carton", test_carton_counted_short_is_lost_whole);
  CASE ("time/flagged", test_late_claim_is_flagged);
  g_test_add_func ("/core/reckon/time/actual-value-then-barred",
                   test_late_claim_at_actual_value_then_barred);
  CASE ("reasons/silence", test_silence_is_said_once);
  CASE ("reasons/listing", test_listing_names_every_step);
  CASE ("errors/absurd", test_absurd_input_is_an_error);
  CASE ("errors/no-such-claim", test_no_such_claim);
  return g_test_run ();
}
