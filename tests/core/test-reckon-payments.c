/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was paid already: freight that went back is no paid loss, and what another claim was paid
 * for a line on the same article is not paid again. Each case is small enough to check by hand. */
#include "config.h"

#include "claim-fixture.h"

static gint64
figure_of (const WbReason *reason,
           WbFigureName    name)
{
  g_assert_nonnull (reason);
  for (guint i = 0; i < reason->n_inputs; i++)
    if (reason->inputs[i].name == name)
      return reason->inputs[i].value;
  g_assert_not_reached ();
}

static void
use_terms (ClaimFixture *fixture,
           const char   *text)
{
  wb_terms_unref (fixture->terms);
  fixture->terms = claim_parse_terms (text);
}

/* A line of another claim, "other"; it lies beside the one of the fixture. */
static WbClaimLine *
add_other_line (ClaimFixture *fixture,
                const char   *id,
                const char   *piece,
                const char   *item)
{
  WbClaimLine *line;

  if (fixture->n_lines < 100)
    {
      WbClaim *other = claim_add (fixture, WB_KIND_CLAIM, "other");

      wb_set_text (&other->number, "C-2");
      fixture->n_lines = 100;
    }
  line = claim_add (fixture, WB_KIND_CLAIM_LINE, id);
  wb_set_text (&line->claim, "other");
  wb_set_text (&line->piece, piece);
  wb_set_text (&line->item, item);
  line->number = ++fixture->n_lines;
  line->loss = WB_LOSS_MISSING;
  return line;
}

static WbPayment *
add_payment (ClaimFixture *fixture,
             const char   *id,
             const char   *claim,
             const char   *line,
             gint64        amount)
{
  WbPayment *payment = claim_add (fixture, WB_KIND_PAYMENT, id);

  wb_set_text (&payment->claim, claim);
  wb_set_text (&payment->claim_line, line);
  payment->amount = dollars (amount);
  return payment;
}

/* --- freight ---------------------------------------------------------------------------------- */

static void
test_freight_paid_elsewhere (ClaimFixture  *fixture,
                             gconstpointer  data)
{
  g_autoptr (WbReckoning) with = NULL, without = NULL, more = NULL;
  WbPayment *payment;

  use_terms (fixture, TERMS_HEAD "[full]\nshipment-minimum = 1000.00\n");
  claim_add_piece (fixture, "tv", WB_FORM_LOOSE, 50);
  claim_add_line (fixture, "tv", WB_LOSS_MISSING, 900, 0);
  add_other_line (fixture, "o1", NULL, "bench");
  payment = add_payment (fixture, "p1", "other", NULL, 400);
  without = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (without, FULL)->earlier, ==, 40000);
  g_assert_cmpint (TOTAL (without, FULL)->owed, ==, 60000);

  /* 150 of the 400 were freight, so only 250 used up the limit. */
  payment->freight_refund = dollars (150);
  with = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (with, FULL)->earlier, ==, 25000);
  g_assert_cmpint (TOTAL (with, FULL)->limit_left, ==, 75000);
  g_assert_cmpint (TOTAL (with, FULL)->owed, ==, 75000);

  /* A slip cannot make a payment that gives back. */
  payment->freight_refund = dollars (500);
  more = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (more, FULL)->earlier, ==, 0);
}

static void
test_freight_paid_here (ClaimFixture  *fixture,
                        gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL, plain = NULL;
  WbOrder *order = claim_find (fixture, WB_KIND_ORDER);
  const WbReason *reason;
  WbPayment *payment;

  order->freight_charge = dollars (4000);
  claim_add_piece (fixture, "sofa", WB_FORM_LOOSE, 500);
  claim_add_line (fixture, "sofa", WB_LOSS_MISSING, 900, 0);
  payment = add_payment (fixture, "p1", "claim", NULL, 700);
  plain = claim_reckon (fixture);
  reason = claim_find_reason (plain, WB_RULE_PAID, WB_SCOPE_FULL, WB_REASON_WHOLE_CLAIM);
  g_assert_cmpuint (reason->n_inputs, ==, 2);
  g_assert_cmpint (TOTAL (plain, FULL)->freight_paid, ==, 0);

  /* Of 900 and 400 freight, 300 and the 400 were paid. */
  payment->freight_refund = dollars (400);
  reckoning = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (reckoning, FULL)->owed, ==, 90000);
  g_assert_cmpint (TOTAL (reckoning, FULL)->freight_refund, ==, 40000);
  g_assert_cmpint (TOTAL (reckoning, FULL)->paid, ==, 70000);
  g_assert_cmpint (TOTAL (reckoning, FULL)->freight_paid, ==, 40000);
  g_assert_cmpint (TOTAL (reckoning, FULL)->balance, ==, 60000);
  reason = claim_find_reason (reckoning, WB_RULE_PAID, WB_SCOPE_FULL, WB_REASON_WHOLE_CLAIM);
  g_assert_cmpint (figure_of (reason, WB_FIGURE_FREIGHT), ==, 40000);
}

/* --- the same thing --------------------------------------------------------------------------- */

/* The television was paid as damaged first, and is claimed as lost now. */
static void
test_same_thing (ClaimFixture  *fixture,
                 gconstpointer  data)
{
  g_autoptr (WbReckoning) part = NULL, all = NULL, repair = NULL;
  const WbReason *reason;
  WbPayment *payment;
  WbClaimLine *line;

  claim_add_piece (fixture, "tv", WB_FORM_LOOSE, 50);
  line = claim_add_line (fixture, "tv", WB_LOSS_MISSING, 500, 0);
  add_other_line (fixture, "o1", "tv", "television");
  payment = add_payment (fixture, "p1", "other", "o1", 180);
  part = claim_reckon (fixture);
  g_assert_cmpint (OWED (part, 0, FULL), ==, 32000);
  g_assert_cmpint (TOTAL (part, FULL)->loss, ==, 50000);
  reason = claim_find_reason (part, WB_RULE_THING_LEFT, WB_SCOPE_FULL, 0);
  g_assert_cmpint (figure_of (reason, WB_FIGURE_REPLACEMENT), ==, 50000);
  g_assert_cmpint (figure_of (reason, WB_FIGURE_EARLIER), ==, 18000);
  g_assert_null (claim_find_reason (part, WB_RULE_ELSEWHERE, WB_SCOPE_GENERAL, 0));

  payment->amount = dollars (500);
  all = claim_reckon (fixture);
  g_assert_cmpint (OWED (all, 0, FULL), ==, 0);

  /* Another repair is another loss, within the value. */
  payment->amount = dollars (180);
  line->loss = WB_LOSS_DAMAGED;
  line->repair = dollars (200);
  repair = claim_reckon (fixture);
  g_assert_cmpint (OWED (repair, 0, FULL), ==, 20000);
  g_assert_null (claim_find_reason (repair, WB_RULE_THING_LEFT, WB_SCOPE_FULL, 0));
}

/* In a carton are several things; which of them was paid for tells its name. */
static void
test_things_of_a_carton (ClaimFixture  *fixture,
                         gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbClaimLine *line;

  claim_add_piece (fixture, "carton", WB_FORM_CARTON, 40);
  line = claim_add_line (fixture, "carton", WB_LOSS_MISSING, 100, 0);
  wb_set_text (&line->item, "Dinner plates");
  line = claim_add_line (fixture, "carton", WB_LOSS_MISSING, 100, 0);
  wb_set_text (&line->item, "Vase");
  claim_add_line (fixture, "carton", WB_LOSS_MISSING, 100, 0);
  add_other_line (fixture, "o1", "carton", "dinner PLATES");
  add_payment (fixture, "p1", "other", "o1", 18);
  reckoning = claim_reckon (fixture);
  g_assert_cmpint (OWED (reckoning, 0, FULL), ==, 8200);
  g_assert_cmpint (OWED (reckoning, 1, FULL), ==, 10000);
  g_assert_cmpint (OWED (reckoning, 2, FULL), ==, 10000);
  /* The carton is one article of 40 lb: 24.00, of which 18.00 are gone. */
  g_assert_cmpint (TOTAL (reckoning, RELEASED)->owed, ==, 600);
}

/* --- the limit of the article ----------------------------------------------------------------- */

static void
test_limit_left (ClaimFixture  *fixture,
                 gconstpointer  data)
{
  g_autoptr (WbReckoning) named = NULL, unnamed = NULL, both = NULL;
  const WbReason *reason;
  WbPayment *payment;

  claim_add_piece (fixture, "tv", WB_FORM_LOOSE, 50);
  claim_add_line (fixture, "tv", WB_LOSS_DAMAGED, 0, 200);
  add_other_line (fixture, "o1", "tv", "television");
  payment = add_payment (fixture, "p1", "other", "o1", 20);
  named = claim_reckon (fixture);
  g_assert_cmpint (OWED (named, 0, RELEASED), ==, 1000);
  reason = claim_find_reason (named, WB_RULE_ARTICLE_LEFT, WB_SCOPE_RELEASED, 0);
  g_assert_cmpint (figure_of (reason, WB_FIGURE_AMOUNT), ==, 3000);
  g_assert_cmpint (figure_of (reason, WB_FIGURE_EARLIER), ==, 2000);
  g_assert_cmpint (reason->result.value, ==, 1000);
  g_assert_null (claim_find_reason (named, WB_RULE_ELSEWHERE, WB_SCOPE_GENERAL, 0));

  /* Without the line's name nobody knows what it was paid for: a person has to look. */
  wb_set_text (&payment->claim_line, NULL);
  unnamed = claim_reckon (fixture);
  g_assert_cmpint (OWED (unnamed, 0, RELEASED), ==, 3000);
  g_assert_nonnull (claim_find_reason (unnamed, WB_RULE_ELSEWHERE, WB_SCOPE_GENERAL, 0));

  add_payment (fixture, "p2", "other", "o1", 20);
  both = claim_reckon (fixture);
  g_assert_cmpint (OWED (both, 0, RELEASED), ==, 1000);
  g_assert_nonnull (claim_find_reason (both, WB_RULE_ELSEWHERE, WB_SCOPE_GENERAL, 0));
}

/* Paying two claims one after the other comes to the same as paying them together: 30.00, also when
 * a deductible of 12.00 was held back from the first. */
static void
test_one_by_one (ClaimFixture  *fixture,
                 gconstpointer  data)
{
  g_autoptr (WbReckoning) without = NULL, with = NULL, frozen = NULL;
  WbValuation *valuation = claim_find (fixture, WB_KIND_VALUATION);
  WbPayment *payment;

  use_terms (fixture, TERMS_HEAD "[released]\narticle-rate = 0.60 per lb\ndeductible = yes\n"
                      "[full]\nshipment-minimum = 6000.00\n");
  valuation->deductible = dollars (12);
  claim_add_piece (fixture, "tv", WB_FORM_LOOSE, 50);
  claim_add_line (fixture, "tv", WB_LOSS_DAMAGED, 0, 200);
  add_other_line (fixture, "o1", "tv", "television");
  payment = add_payment (fixture, "p1", "other", "o1", 10);
  payment->deductible_taken = dollars (12);
  with = claim_reckon (fixture);
  /* 22.00 of the 30.00 were used, and no deductible is left. */
  g_assert_cmpint (OWED (with, 0, RELEASED), ==, 800);

  payment->deductible_taken = WB_MONEY_UNSET;
  without = claim_reckon (fixture);
  g_assert_cmpint (OWED (without, 0, RELEASED), ==, 2000 - 1200);

  /* The freight in a payment is none of this. */
  payment->freight_refund = dollars (4);
  frozen = claim_reckon (fixture);
  g_assert_cmpint (OWED (frozen, 0, RELEASED), ==, 2400 - 1200);
}

/* 5 lb at 100.00 a pound, of which 420.00 were paid. The loss alone would be within the rate. */
static void
test_extraordinary_left (ClaimFixture  *fixture,
                         gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL, listed = NULL;
  WbValuation *valuation = claim_find (fixture, WB_KIND_VALUATION);
  const WbReason *reason;
  WbPiece *piece;

  piece = claim_add_piece (fixture, "clock", WB_FORM_LOOSE, 5);
  claim_add_line (fixture, "clock", WB_LOSS_DAMAGED, 0, 300);
  add_other_line (fixture, "o1", "clock", "clock");
  add_payment (fixture, "p1", "other", "o1", 420);
  reckoning = claim_reckon (fixture);
  g_assert_cmpint (OWED (reckoning, 0, FULL), ==, 8000);
  reason = claim_find_reason (reckoning, WB_RULE_EXTRAORDINARY, WB_SCOPE_FULL, 0);
  g_assert_cmpint (reason->result.value, ==, 50000);
  g_assert_nonnull (claim_find_reason (reckoning, WB_RULE_ARTICLE_LEFT, WB_SCOPE_FULL, 0));

  valuation->high_value_list = TRUE;
  piece->listed_value = dollars (600);
  listed = claim_reckon (fixture);
  g_assert_cmpint (OWED (listed, 0, FULL), ==, 18000);
}

/* A payment for a line of this claim, or of a line that lies in another one, is no earlier one. */
static void
test_not_elsewhere (ClaimFixture  *fixture,
                    gconstpointer  data)
{
  g_autoptr (WbReckoning) own = NULL, crossed = NULL;
  WbPayment *payment;

  claim_add_piece (fixture, "tv", WB_FORM_LOOSE, 50);
  claim_add_line (fixture, "tv", WB_LOSS_MISSING, 500, 0);
  add_other_line (fixture, "o1", "tv", "television");
  payment = add_payment (fixture, "p1", "claim", "l1", 20);
  own = claim_reckon (fixture);
  g_assert_cmpint (OWED (own, 0, FULL), ==, 50000);
  g_assert_cmpint (TOTAL (own, FULL)->balance, ==, 48000);

  wb_set_text (&payment->claim, "other");
  crossed = claim_reckon (fixture);
  g_assert_cmpint (OWED (crossed, 0, FULL), ==, 50000);
  g_assert_nonnull (claim_find_reason (crossed, WB_RULE_ELSEWHERE, WB_SCOPE_GENERAL, 0));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define CASE(path, function) \
  g_test_add ("/core/reckon/payments/" path, ClaimFixture, NULL, claim_set_up, function, \
              claim_tear_down)
  CASE ("freight-elsewhere", test_freight_paid_elsewhere);
  CASE ("freight-here", test_freight_paid_here);
  CASE ("same-thing", test_same_thing);
  CASE ("things-of-a-carton", test_things_of_a_carton);
  CASE ("limit-left", test_limit_left);
  CASE ("one-by-one", test_one_by_one);
  CASE ("extraordinary-left", test_extraordinary_left);
  CASE ("not-elsewhere", test_not_elsewhere);
  return g_test_run ();
}
