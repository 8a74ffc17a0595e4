/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each rule of the reckoning on a claim small enough to check by hand. Figures published elsewhere
 * are checked in tests/published; what must hold of any claim in test-reckon-properties.c. */
#include "config.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-reckoning.h"

#define TERMS_HEAD "regime = test\ntitle = Test\ncurrency = USD\n[edition]\nfrom = 2000-01-01\n"
#define TERMS_USUAL                                                                                \
  "[freight]\nfreight-partial-loss = by-weight\nfreight-total-loss = all\n"                        \
  "[claims]\nclaim-within = 9 months\nlate-claim = flagged\n"                                      \
  "[released]\nmeasure = actual-value\narticle-rate = 0.60 per lb\n"                               \
  "[full]\nshipment-rate = 6.00 per lb\nshipment-minimum = 6000.00\n"                              \
  "declared-value = yes\ndeductible = yes\n"          \
  "extraordinary-rate = 100.00 per lb\n"

typedef struct
{
  WbTerms   *terms;
  WbJob     *empty;
  GPtrArray *records;
  guint      n_lines;
} Fixture;

static WbTerms *
parse_terms (const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) editions = wb_terms_parse (text, strlen (text), "test", &error);

  g_assert_no_error (error);
  return wb_terms_ref (g_ptr_array_index (editions, 0));
}

static gpointer
add (Fixture    *fixture,
     WbKind      kind,
     const char *id)
{
  gpointer record = wb_record_new (kind, id);

  g_ptr_array_add (fixture->records, record);
  return record;
}

static WbMoney
dollars (gint64 amount)
{
  return wb_money (amount * 100, "USD");
}

static WbWeight
pounds (gint64 amount)
{
  return wb_weight (amount * 100, WB_WEIGHT_UNIT_LB);
}

static void
set_up_with (Fixture    *fixture,
             const char *terms)
{
  WbOrder *order;
  WbWeighing *weighing;
  WbClaim *claim;

  fixture->terms = parse_terms (terms);
  fixture->empty = wb_job_new ("job", "USD");
  fixture->records = g_ptr_array_new_with_free_func (wb_record_unref);
  order = add (fixture, WB_KIND_ORDER, "order");
  wb_set_text (&order->number, "J-1");
  g_date_set_dmy (&order->picked_up_on, 1, G_DATE_MARCH, 2024);
  g_date_set_dmy (&order->delivered_on, 10, G_DATE_MARCH, 2024);
  add (fixture, WB_KIND_VALUATION, "valuation");
  weighing = add (fixture, WB_KIND_WEIGHING, "scale");
  weighing->kind = WB_WEIGHING_FIRST;
  weighing->net = pounds (5000);
  claim = add (fixture, WB_KIND_CLAIM, "claim");
  wb_set_text (&claim->number, "C-1");
  g_date_set_dmy (&claim->received_on, 1, G_DATE_APRIL, 2024);
}

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  set_up_with (fixture, TERMS_HEAD TERMS_USUAL);
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  wb_terms_unref (fixture->terms);
  wb_job_unref (fixture->empty);
  g_ptr_array_unref (fixture->records);
}

static gpointer
find (Fixture    *fixture,
      WbKind      kind)
{
  for (guint i = 0; i < fixture->records->len; i++)
    if (((WbRecord *) g_ptr_array_index (fixture->records, i))->type->kind == kind)
      return g_ptr_array_index (fixture->records, i);
  g_assert_not_reached ();
}

static WbPiece *
add_piece (Fixture    *fixture,
           const char *id,
           WbForm      form,
           gint64      lb)
{
  WbPiece *piece = add (fixture, WB_KIND_PIECE, id);

  piece->form = form;
  piece->weight = lb > 0 ? pounds (lb) : WB_WEIGHT_UNSET;
  return piece;
}

static WbClaimLine *
add_line (Fixture    *fixture,
          const char *piece,
          WbLoss      loss,
          gint64      replacement,
          gint64      repair)
{
  g_autofree char *id = g_strdup_printf ("l%u", ++fixture->n_lines);
  WbClaimLine *line = add (fixture, WB_KIND_CLAIM_LINE, id);

  wb_set_text (&line->claim, "claim");
  wb_set_text (&line->piece, piece);
  line->number = fixture->n_lines;
  line->loss = loss;
  line->replacement = replacement > 0 ? dollars (replacement) : WB_MONEY_UNSET;
  line->repair = repair > 0 ? dollars (repair) : WB_MONEY_UNSET;
  return line;
}

static WbReckoning *
reckon (Fixture *fixture)
{
  g_autoptr (WbJob) job = wb_job_with_many (fixture->empty, fixture->records);
  g_autoptr (GError) error = NULL;
  WbReckoning *reckoning;

  wb_job_check (job, &error);
  g_assert_no_error (error);
  reckoning = wb_reckon (fixture->terms, job, "claim", &error);
  g_assert_no_error (error);
  return reckoning;
}

static void
sign_waiver (Fixture *fixture)
{
  WbValuation *valuation = find (fixture, WB_KIND_VALUATION);

  valuation->choice = WB_CHOICE_RELEASED;
  wb_set_text (&valuation->signed_by, "The shipper");
  g_date_set_dmy (&valuation->signed_on, 1, G_DATE_MARCH, 2024);
  valuation->signed_how = WB_SIGNED_ON_PAPER;
  wb_set_text (&valuation->disclosure, "Both choices with their cost");
}

static const WbReason *
find_reason (const WbReckoning *reckoning,
             WbRule             rule,
             WbScope            scope,
             gint               line)
{
  for (guint i = 0; i < reckoning->reasons->len; i++)
    {
      const WbReason *reason = &g_array_index (reckoning->reasons, WbReason, i);

      if (reason->rule == rule && reason->scope == scope && reason->line == line)
        return reason;
    }
  return NULL;
}

#define OWED(reckoning, line, side_) ((reckoning)->lines[line].side[WB_SIDE_##side_].owed)
#define TOTAL(reckoning, side_) (&(reckoning)->side[WB_SIDE_##side_])

/* --- losses ----------------------------------------------------------------------------------- */

static void
test_lesser_of_repair_and_value (Fixture       *fixture,
                                 gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbClaimLine *line;

  add_piece (fixture, "table", WB_FORM_LOOSE, 80);
  add_piece (fixture, "chair", WB_FORM_LOOSE, 20);
  line = add_line (fixture, "table", WB_LOSS_DAMAGED, 500, 120);
  line->appearance = dollars (30);
  add_line (fixture, "chair", WB_LOSS_DAMAGED, 90, 120);
  reckoning = reckon (fixture);
  g_assert_cmpint (OWED (reckoning, 0, FULL), ==, 15000);
  g_assert_cmpint (OWED (reckoning, 1, FULL), ==, 9000);
  g_assert_nonnull (find_reason (reckoning, WB_RULE_LESSER, WB_SCOPE_FULL, 0));
}

static void
test_depreciation_only_where_the_terms_say (Fixture       *fixture,
                                            gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbClaimLine *line;

  add_piece (fixture, "carpet", WB_FORM_LOOSE, 2000);
  line = add_line (fixture, "carpet", WB_LOSS_MISSING, 500, 0);
  line->age_years = 4;
  line->depreciation_yearly = 700;
  reckoning = reckon (fixture);
  g_assert_cmpint (reckoning->lines[0].side[WB_SIDE_RELEASED].loss, ==, 36000);
  g_assert_cmpint (reckoning->lines[0].side[WB_SIDE_FULL].loss, ==, 50000);
}

static void
test_salvage_and_demand (Fixture       *fixture,
                         gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbClaimLine *line;

  add_piece (fixture, "lamp", WB_FORM_LOOSE, 10);
  line = add_line (fixture, "lamp", WB_LOSS_DESTROYED, 200, 0);
  line->salvage = dollars (25);
  line = add_line (fixture, "lamp", WB_LOSS_DESTROYED, 200, 0);
  line->demanded = dollars (150);
  reckoning = reckon (fixture);
  g_assert_cmpint (OWED (reckoning, 0, FULL), ==, 17500);
  g_assert_cmpint (OWED (reckoning, 1, FULL), ==, 15000);
}

static void
test_missing_figures_are_named (Fixture       *fixture,
                                gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  const WbReason *reason;

  add_piece (fixture, "box", WB_FORM_CARTON, 0);
  add_line (fixture, "box", WB_LOSS_MISSING, 0, 0);
  add_line (fixture, "box", WB_LOSS_MISSING, 40, 0);
  reckoning = reckon (fixture);
  reason = find_reason (reckoning, WB_RULE_MISSING_FIGURE, WB_SCOPE_FULL, 0);
  g_assert_nonnull (reason);
  g_assert_cmpint (reason->inputs[0].value, ==, WB_MISSING_REPLACEMENT);
  /* Without the carton's weight released value cannot be worked out; full value can. */
  g_assert_false (reckoning->lines[1].side[WB_SIDE_RELEASED].complete);
  g_assert_cmpint (OWED (reckoning, 1, FULL), ==, 4000);
  g_assert_false (TOTAL (reckoning, RELEASED)->complete);
}

static void
test_denied_line (Fixture       *fixture,
                  gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbClaimLine *line;

  add_piece (fixture, "box", WB_FORM_CARTON, 50);
  line = add_line (fixture, "box", WB_LOSS_MISSING, 100, 0);
  line->ruling = WB_RULING_DENIED;
  add_line (fixture, "box", WB_LOSS_MISSING, 100, 0);
  reckoning = reckon (fixture);
  /* The denied line takes nothing of the article's 30.00 from the other one. */
  g_assert_cmpint (OWED (reckoning, 0, RELEASED), ==, 0);
  g_assert_cmpint (OWED (reckoning, 1, RELEASED), ==, 3000);
}

/* --- articles --------------------------------------------------------------------------------- */

static void
test_carton_is_one_article (Fixture       *fixture,
                            gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;

  add_piece (fixture, "dishes", WB_FORM_CARTON, 45);
  add_line (fixture, "dishes", WB_LOSS_DESTROYED, 40, 0);
  add_line (fixture, "dishes", WB_LOSS_DESTROYED, 20, 0);
  add_line (fixture, "dishes", WB_LOSS_DESTROYED, 20, 0);
  reckoning = reckon (fixture);
  /* 45 lb × 0.60 = 27.00 for the carton, shared 2 : 1 : 1. */
  g_assert_cmpint (OWED (reckoning, 0, RELEASED), ==, 1350);
  g_assert_cmpint (OWED (reckoning, 1, RELEASED), ==, 675);
  g_assert_cmpint (OWED (reckoning, 2, RELEASED), ==, 675);
  g_assert_cmpint (TOTAL (reckoning, RELEASED)->owed, ==, 2700);
}

static void
test_each_thing_by_its_own_weight (void)
{
  Fixture fixture = { NULL };
  g_autoptr (WbReckoning) reckoning = NULL;
  WbClaimLine *line;

  set_up_with (&fixture, TERMS_HEAD "[articles]\ncarton = each-thing\n" TERMS_USUAL);
  add_piece (&fixture, "dishes", WB_FORM_CARTON, 45);
  line = add_line (&fixture, "dishes", WB_LOSS_DESTROYED, 40, 0);
  line->weight = pounds (2);
  reckoning = reckon (&fixture);
  g_assert_cmpint (OWED (reckoning, 0, RELEASED), ==, 120);
  tear_down (&fixture, NULL);
}

static void
test_parts_are_one_article (Fixture       *fixture,
                            gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  const char *ids[] = { "headboard", "footboard", "rails", "slats" };

  for (guint i = 0; i < G_N_ELEMENTS (ids); i++)
    wb_set_text (&add_piece (fixture, ids[i], WB_FORM_LOOSE, 25)->article, "bed");
  add_line (fixture, "rails", WB_LOSS_MISSING, 400, 0);
  reckoning = reckon (fixture);
  /* four parts of 25 lb: 100 lb × 0.60 */
  g_assert_cmpint (OWED (reckoning, 0, RELEASED), ==, 6000);
}

static void
test_extraordinary_value (Fixture       *fixture,
                          gconstpointer  data)
{
  g_autoptr (WbReckoning) unlisted = NULL, unsigned_list = NULL, listed = NULL;
  WbPiece *piece = add_piece (fixture, "clock", WB_FORM_LOOSE, 5);
  WbValuation *valuation = find (fixture, WB_KIND_VALUATION);

  valuation->declared_value = dollars (40000);
  add_line (fixture, "clock", WB_LOSS_MISSING, 2500, 0);
  unlisted = reckon (fixture);
  g_assert_cmpint (OWED (unlisted, 0, FULL), ==, 50000);
  g_assert_nonnull (find_reason (unlisted, WB_RULE_EXTRAORDINARY, WB_SCOPE_FULL, 0));

  piece->listed_value = dollars (2000);
  unsigned_list = reckon (fixture);
  g_assert_cmpint (OWED (unsigned_list, 0, FULL), ==, 50000);

  valuation->high_value_list = TRUE;
  listed = reckon (fixture);
  g_assert_cmpint (OWED (listed, 0, FULL), ==, 200000);
  g_assert_cmpint (OWED (listed, 0, RELEASED), ==, 300);
}

/* --- the shipment ----------------------------------------------------------------------------- */

static void
test_default_is_full_value (Fixture       *fixture,
                            gconstpointer  data)
{
  g_autoptr (WbReckoning) unsigned_waiver = NULL, undisclosed = NULL, valid = NULL;
  WbValuation *valuation = find (fixture, WB_KIND_VALUATION);

  valuation->choice = WB_CHOICE_RELEASED;
  unsigned_waiver = reckon (fixture);
  g_assert_cmpint (unsigned_waiver->applies, ==, WB_SIDE_FULL);
  g_assert_cmpuint (unsigned_waiver->waiver_gaps, ==,
                    WB_WAIVER_NO_SIGNER | WB_WAIVER_NO_DATE | WB_WAIVER_NO_MANNER |
                    WB_WAIVER_NO_DISCLOSURE);
  sign_waiver (fixture);
  valid = reckon (fixture);
  g_assert_cmpint (valid->applies, ==, WB_SIDE_RELEASED);
  wb_set_text (&valuation->disclosure, NULL);
  undisclosed = reckon (fixture);
  g_assert_cmpint (undisclosed->applies, ==, WB_SIDE_FULL);
}

static void
test_declared_value_and_minimum (Fixture       *fixture,
                                 gconstpointer  data)
{
  g_autoptr (WbReckoning) none = NULL, under = NULL, over = NULL;
  WbValuation *valuation = find (fixture, WB_KIND_VALUATION);

  none = reckon (fixture);
  g_assert_cmpint (TOTAL (none, FULL)->shipment_limit, ==, 3000000);
  valuation->declared_value = dollars (10000);
  under = reckon (fixture);
  g_assert_cmpint (TOTAL (under, FULL)->shipment_limit, ==, 3000000);
  valuation->declared_value = dollars (50000);
  over = reckon (fixture);
  g_assert_cmpint (TOTAL (over, FULL)->shipment_limit, ==, 5000000);
  g_assert_cmpint (TOTAL (over, RELEASED)->has_limit, ==, FALSE);
}

static void
test_reweigh_governs (Fixture       *fixture,
                      gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbWeighing *weighing = add (fixture, WB_KIND_WEIGHING, "again");

  weighing->kind = WB_WEIGHING_REWEIGH;
  weighing->gross = pounds (30000);
  weighing->tare = pounds (24000);
  reckoning = reckon (fixture);
  g_assert_cmpint (TOTAL (reckoning, FULL)->shipment_limit, ==, 3600000);
}

static void
test_deductible_is_shared (Fixture       *fixture,
                           gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbValuation *valuation = find (fixture, WB_KIND_VALUATION);

  valuation->deductible = dollars (100);
  add_piece (fixture, "a", WB_FORM_LOOSE, 100);
  add_piece (fixture, "b", WB_FORM_LOOSE, 100);
  add_piece (fixture, "c", WB_FORM_LOOSE, 100);
  for (guint i = 0; i < 3; i++)
    add_line (fixture, i == 0 ? "a" : i == 1 ? "b" : "c", WB_LOSS_MISSING, 50, 0);
  reckoning = reckon (fixture);
  g_assert_cmpint (TOTAL (reckoning, FULL)->owed, ==, 5000);
  /* 100.00 over three equal lines: the odd cent goes to the first. */
  g_assert_cmpint (reckoning->lines[0].side[WB_SIDE_FULL].deducted, ==, 3334);
  g_assert_cmpint (reckoning->lines[1].side[WB_SIDE_FULL].deducted, ==, 3333);
  g_assert_cmpint (OWED (reckoning, 2, FULL), ==, 1667);
  g_assert_cmpint (TOTAL (reckoning, RELEASED)->deducted, ==, 0);
}

/* Two claims paid one after the other come to what one claim for both would have brought. */
static void
test_claims_one_by_one (Fixture       *fixture,
                        gconstpointer  data)
{
  g_autoptr (WbReckoning) together = NULL, first = NULL, second = NULL;
  WbValuation *valuation = find (fixture, WB_KIND_VALUATION);
  WbClaim *earlier;
  WbPayment *payment;
  WbClaimLine *line;

  valuation->declared_value = dollars (30000);
  valuation->deductible = dollars (500);
  add_piece (fixture, "a", WB_FORM_LOOSE, 4000);
  add_piece (fixture, "b", WB_FORM_LOOSE, 4000);
  earlier = add (fixture, WB_KIND_CLAIM, "earlier");
  wb_set_text (&earlier->number, "C-0");
  line = add_line (fixture, "a", WB_LOSS_DESTROYED, 18000, 0);
  add_line (fixture, "b", WB_LOSS_DESTROYED, 20000, 0);
  together = reckon (fixture);
  g_assert_cmpint (TOTAL (together, FULL)->owed, ==, 2950000);

  /* The first line becomes a claim of its own that was paid before. */
  wb_set_text (&line->claim, "earlier");
  payment = add (fixture, WB_KIND_PAYMENT, "paid");
  wb_set_text (&payment->claim, "earlier");
  payment->amount = dollars (17500);
  payment->deductible_taken = dollars (500);
  second = reckon (fixture);
  g_assert_cmpint (TOTAL (second, FULL)->deductible, ==, 0);
  g_assert_cmpint (TOTAL (second, FULL)->owed, ==, 2950000 - 1750000);
  g_assert_cmpint (TOTAL (second, FULL)->limit_left, ==, 3000000 - 1750000 - 50000);
}

static void
test_paid_on_this_claim (Fixture       *fixture,
                         gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbPayment *payment = add (fixture, WB_KIND_PAYMENT, "paid");

  wb_set_text (&payment->claim, "claim");
  payment->amount = dollars (30);
  add_piece (fixture, "a", WB_FORM_LOOSE, 100);
  add_line (fixture, "a", WB_LOSS_DAMAGED, 0, 80);
  reckoning = reckon (fixture);
  g_assert_cmpint (TOTAL (reckoning, FULL)->owed, ==, 8000);
  g_assert_cmpint (TOTAL (reckoning, FULL)->balance, ==, 5000);
}

/* --- freight ---------------------------------------------------------------------------------- */

static void
test_freight_refund (Fixture       *fixture,
                     gconstpointer  data)
{
  g_autoptr (WbReckoning) partial = NULL, inside = NULL, total = NULL;
  WbOrder *order = find (fixture, WB_KIND_ORDER);
  WbPiece *box;
  WbClaimLine *line;

  order->freight_charge = dollars (4000);
  order->other_charge = dollars (300);
  add_piece (fixture, "sofa", WB_FORM_LOOSE, 250);
  add_line (fixture, "sofa", WB_LOSS_MISSING, 900, 0);
  partial = reckon (fixture);
  /* 250 of 5,000 lb */
  g_assert_cmpint (TOTAL (partial, FULL)->freight_refund, ==, 20000);
  g_assert_cmpint (TOTAL (partial, RELEASED)->freight_refund, ==, 20000);

  /* One thing out of a carton: only its own weight was lost. */
  box = add_piece (fixture, "box", WB_FORM_CARTON, 50);
  line = add_line (fixture, box->record.id, WB_LOSS_MISSING, 30, 0);
  line->weight = pounds (5);
  inside = reckon (fixture);
  g_assert_cmpint (TOTAL (inside, FULL)->freight_refund, ==, 20400);

  add_piece (fixture, "rest", WB_FORM_LOOSE, 4745);
  add_line (fixture, "rest", WB_LOSS_MISSING, 9000, 0);
  total = reckon (fixture);
  g_assert_cmpint (TOTAL (total, FULL)->freight_refund, ==, 430000);
}

static void
test_carton_counted_short_is_lost_whole (Fixture       *fixture,
                                         gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbOrder *order = find (fixture, WB_KIND_ORDER);
  WbFinding *finding;

  order->freight_charge = dollars (1000);
  add (fixture, WB_KIND_HANDOVER, "door");
  add_piece (fixture, "box", WB_FORM_CARTON, 50);
  finding = add (fixture, WB_KIND_FINDING, "gone");
  wb_set_text (&finding->handover, "door");
  wb_set_text (&finding->piece, "box");
  finding->found = WB_FOUND_SHORT;
  add_line (fixture, "box", WB_LOSS_MISSING, 60, 0);
  reckoning = reckon (fixture);
  g_assert_cmpint (TOTAL (reckoning, FULL)->freight_refund, ==, 1000);
}

/* --- time ------------------------------------------------------------------------------------- */

static void
test_late_claim_is_flagged (Fixture       *fixture,
                            gconstpointer  data)
{
  g_autoptr (WbReckoning) last_day = NULL, late = NULL;
  WbClaim *claim = find (fixture, WB_KIND_CLAIM);

  add_piece (fixture, "a", WB_FORM_LOOSE, 10);
  add_line (fixture, "a", WB_LOSS_MISSING, 50, 0);
  g_date_set_dmy (&claim->received_on, 10, G_DATE_DECEMBER, 2024);
  last_day = reckon (fixture);
  g_assert_cmpint (last_day->late, ==, WB_NOT_LATE);
  g_date_set_dmy (&claim->received_on, 11, G_DATE_DECEMBER, 2024);
  late = reckon (fixture);
  g_assert_cmpint (late->late, ==, WB_LATE);
  g_assert_nonnull (find_reason (late, WB_RULE_LATE, WB_SCOPE_GENERAL, WB_REASON_WHOLE_CLAIM));
  g_assert_cmpint (TOTAL (late, FULL)->owed, ==, 5000);
}

static void
test_late_claim_at_actual_value_then_barred (void)
{
  Fixture fixture = { NULL };
  g_autoptr (WbReckoning) late = NULL, too_late = NULL;
  WbClaim *claim;
  WbClaimLine *line;

  set_up_with (&fixture,
               TERMS_HEAD "[claims]\nclaim-within = 9 months\nlate-claim = actual-value\n"
               "late-until = 2 years\n"
                         "[full]\nshipment-rate = 6.00 per lb\n");
  claim = find (&fixture, WB_KIND_CLAIM);
  add_piece (&fixture, "a", WB_FORM_LOOSE, 10);
  line = add_line (&fixture, "a", WB_LOSS_MISSING, 100, 0);
  line->depreciation_flat = 4000;
  g_date_set_dmy (&claim->received_on, 10, G_DATE_MARCH, 2026);
  late = reckon (&fixture);
  g_assert_cmpint (OWED (late, 0, FULL), ==, 6000);
  g_assert_false (TOTAL (late, RELEASED)->offered);
  g_date_set_dmy (&claim->received_on, 11, G_DATE_MARCH, 2026);
  too_late = reckon (&fixture);
  g_assert_cmpint (OWED (too_late, 0, FULL), ==, 0);
  g_assert_nonnull (find_reason (too_late, WB_RULE_BARRED, WB_SCOPE_FULL, 0));
  tear_down (&fixture, NULL);
}

/* --- reasons and errors ----------------------------------------------------------------------- */

static void
test_silence_is_said_once (Fixture       *fixture,
                           gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  guint n = 0;

  add_piece (fixture, "a", WB_FORM_CARTON, 10);
  add_line (fixture, "a", WB_LOSS_MISSING, 50, 0);
  add_line (fixture, "a", WB_LOSS_MISSING, 50, 0);
  reckoning = reckon (fixture);
  for (guint i = 0; i < reckoning->reasons->len; i++)
    {
      const WbReason *reason = &g_array_index (reckoning->reasons, WbReason, i);

      n += reason->rule == WB_RULE_SILENT && reason->key == WB_KEY_CARTON;
    }
  g_assert_cmpuint (n, ==, 1);
}

static void
assert_fails (Fixture     *fixture,
              WbCoreError  code)
{
  g_autoptr (WbJob) job = wb_job_with_many (fixture->empty, fixture->records);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbReckoning) reckoning = wb_reckon (fixture->terms, job, "claim", &error);

  g_assert_error (error, WB_CORE_ERROR, (int) code);
  g_assert_null (reckoning);
}

static void
test_absurd_input_is_an_error (Fixture       *fixture,
                               gconstpointer  data)
{
  WbClaimLine *line;

  add_piece (fixture, "a", WB_FORM_LOOSE, 10);
  line = add_line (fixture, "a", WB_LOSS_MISSING, 50, 0);
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
test_no_such_claim (Fixture       *fixture,
                    gconstpointer  data)
{
  g_autoptr (WbJob) job = wb_job_with_many (fixture->empty, fixture->records);
  g_autoptr (GError) error = NULL;

  g_assert_null (wb_reckon (fixture->terms, job, "nowhere", &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
}

static void
test_transcript_names_every_step (Fixture       *fixture,
                                  gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  g_autofree char *text = NULL;

  sign_waiver (fixture);
  add_piece (fixture, "vase", WB_FORM_LOOSE, 2);
  add_line (fixture, "vase", WB_LOSS_DESTROYED, 80, 0);
  reckoning = reckon (fixture);
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
  g_test_add ("/core/reckon/" path, Fixture, NULL, set_up, function, tear_down)
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
  CASE ("reasons/transcript", test_transcript_names_every_step);
  CASE ("errors/absurd", test_absurd_input_is_an_error);
  CASE ("errors/no-such-claim", test_no_such_claim);
  return g_test_run ();
}
