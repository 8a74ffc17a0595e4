/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Claims at the edges of the rules, where a reckoning could pay wrongly, flag wrongly or keep a
 * reason to itself: figures that are 0 or missing, names that coincide, dates at month ends. */
#include "config.h"

#include "claim-fixture.h"
#include "core/wb-core.h"

#include <string.h>

#define FULL_ONLY "[full]\nshipment-minimum = 6000.00\n"

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

static guint
count_reasons (const WbReckoning *reckoning,
               WbRule             rule,
               gint               line)
{
  guint n = 0;
  const WbReason *reason;
  WbReasonIter iter;

  wb_reason_iter_init (&iter, reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    n += reason->rule == rule && reason->line == line;
  return n;
}

static gboolean
says_silence (const WbReckoning *reckoning,
              WbTermsKey         key)
{
  const WbReason *reason;
  WbReasonIter iter;

  wb_reason_iter_init (&iter, reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    if (reason->rule == WB_RULE_SILENT && reason->key == (gint) key)
      return TRUE;
  return FALSE;
}

/* --- losses ----------------------------------------------------------------------------------- */

static void
test_denied_line_needs_no_figures (ClaimFixture  *fixture,
                                   gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbClaimLine *line;

  claim_add_piece (fixture, "a", WB_FORM_LOOSE, 10);
  line = claim_add_line (fixture, "a", WB_LOSS_MISSING, 0, 0);
  line->ruling = WB_RULING_DENIED;
  line->defence = WB_DEFENCE_SHIPPER;
  line = claim_add_line (fixture, "a", WB_LOSS_NONE, 0, 0);
  line->ruling = WB_RULING_DENIED;
  reckoning = claim_reckon (fixture);
  g_assert_true (TOTAL (reckoning, FULL)->complete);
  g_assert_true (TOTAL (reckoning, RELEASED)->complete);
  g_assert_cmpuint (count_reasons (reckoning, WB_RULE_MISSING_FIGURE, 0), ==, 0);
  g_assert_nonnull (claim_find_reason (reckoning, WB_RULE_DENIED, WB_SCOPE_FULL, 0));
}

static void
test_salvage_counts_in_the_lesser (ClaimFixture  *fixture,
                                   gconstpointer  data)
{
  g_autoptr (WbReckoning) cheap = NULL, dear = NULL;
  WbClaimLine *line;

  /* Kept as it is, the table has lost 500 − 450 of its value: less than the repair costs. */
  claim_add_piece (fixture, "table", WB_FORM_LOOSE, 80);
  line = claim_add_line (fixture, "table", WB_LOSS_DAMAGED, 500, 120);
  line->salvage = dollars (450);
  cheap = claim_reckon (fixture);
  g_assert_cmpint (OWED (cheap, 0, FULL), ==, 5000);

  /* A dearer repair never brings less. */
  line->repair = dollars (520);
  dear = claim_reckon (fixture);
  g_assert_cmpint (OWED (dear, 0, FULL), ==, 5000);
}

static void
test_depreciation_can_be_followed (ClaimFixture  *fixture,
                                   gconstpointer  data)
{
  g_autoptr (WbReckoning) by_age = NULL, flat = NULL;
  const WbReason *reason;
  WbClaimLine *line;

  claim_tear_down (fixture, NULL);
  claim_set_up_with (fixture, TERMS_HEAD "[loss]\ndepreciation-maximum = 75 %\n" TERMS_USUAL);
  claim_add_piece (fixture, "rug", WB_FORM_LOOSE, 5000);
  line = claim_add_line (fixture, "rug", WB_LOSS_MISSING, 100, 0);
  line->age_years = 20;
  line->depreciation_yearly = 700;
  by_age = claim_reckon (fixture);
  g_assert_cmpint (by_age->lines[0].side[WB_SIDE_RELEASED].loss, ==, 2500);
  reason = claim_find_reason (by_age, WB_RULE_DEPRECIATION_RATE, WB_SCOPE_RELEASED, 0);
  g_assert_cmpint (figure_of (reason, WB_FIGURE_YEARLY), ==, 700);
  g_assert_cmpint (figure_of (reason, WB_FIGURE_AGE), ==, 20);
  g_assert_cmpint (figure_of (reason, WB_FIGURE_MAXIMUM), ==, 7500);
  g_assert_cmpint (reason->result.value, ==, 7500);

  /* A flat percentage is what it is, whatever the age. */
  line->depreciation_flat = 1000;
  flat = claim_reckon (fixture);
  g_assert_null (claim_find_reason (flat, WB_RULE_DEPRECIATION_RATE, WB_SCOPE_RELEASED, 0));
  g_assert_cmpint (flat->lines[0].side[WB_SIDE_RELEASED].loss, ==, 9000);
}

/* --- articles --------------------------------------------------------------------------------- */

static void
test_name_of_an_article_is_no_id (ClaimFixture  *fixture,
                                  gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;

  claim_add_piece (fixture, "bed", WB_FORM_LOOSE, 10);
  wb_set_text (&claim_add_piece (fixture, "a", WB_FORM_LOOSE, 25)->article, "bed");
  wb_set_text (&claim_add_piece (fixture, "b", WB_FORM_LOOSE, 25)->article, "bed");
  claim_add_line (fixture, "bed", WB_LOSS_MISSING, 100, 0);
  claim_add_line (fixture, "a", WB_LOSS_MISSING, 100, 0);
  reckoning = claim_reckon (fixture);
  /* 10 lb and 50 lb at 0.60 */
  g_assert_cmpint (OWED (reckoning, 0, RELEASED), ==, 600);
  g_assert_cmpint (OWED (reckoning, 1, RELEASED), ==, 3000);
}

static void
test_loose_piece_weighs_as_its_heaviest_line (ClaimFixture  *fixture,
                                              gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;

  claim_add_piece (fixture, "desk", WB_FORM_LOOSE, 0);
  claim_add_line (fixture, "desk", WB_LOSS_DAMAGED, 0, 20);
  claim_add_line (fixture, "desk", WB_LOSS_DAMAGED, 0, 20)->weight = pounds (2);
  claim_add_line (fixture, "desk", WB_LOSS_DAMAGED, 0, 20)->weight = pounds (50);
  reckoning = claim_reckon (fixture);
  g_assert_true (TOTAL (reckoning, RELEASED)->complete);
  g_assert_cmpint (TOTAL (reckoning, RELEASED)->owed, ==, 3000);
}

static void
test_weight_of_nothing_is_no_weight (ClaimFixture  *fixture,
                                     gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL, estimated = NULL;
  WbOrder *order = claim_find (fixture, WB_KIND_ORDER);
  WbWeighing *weighing = claim_find (fixture, WB_KIND_WEIGHING);

  claim_add_piece (fixture, "box", WB_FORM_CARTON, 0)->weight = pounds (0);
  claim_add_line (fixture, "box", WB_LOSS_MISSING, 20, 0)->weight = pounds (0);
  reckoning = claim_reckon (fixture);
  g_assert_false (TOTAL (reckoning, RELEASED)->complete);
  g_assert_nonnull (claim_find_reason (reckoning, WB_RULE_MISSING_FIGURE, WB_SCOPE_RELEASED, 0));

  weighing->net = pounds (0);
  order->estimated_weight = pounds (7000);
  estimated = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (estimated, FULL)->shipment_limit, ==, 4200000);
}

/* Each line of an article says of itself how its limit came about. */
static void
test_every_line_tells_its_limit (ClaimFixture  *fixture,
                                 gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  const WbReason *reason;

  claim_add_piece (fixture, "box", WB_FORM_CARTON, 45);
  claim_add_line (fixture, "box", WB_LOSS_DESTROYED, 500, 0)->ruling = WB_RULING_DENIED;
  claim_add_line (fixture, "box", WB_LOSS_DESTROYED, 40, 0);
  claim_add_line (fixture, "box", WB_LOSS_DESTROYED, 20, 0);
  reckoning = claim_reckon (fixture);
  g_assert_null (claim_find_reason (reckoning, WB_RULE_ARTICLE_LIMIT, WB_SCOPE_RELEASED, 0));
  for (gint line = 1; line < 3; line++)
    {
      g_assert_nonnull (claim_find_reason (reckoning, WB_RULE_ARTICLE_WEIGHT, WB_SCOPE_RELEASED,
                                           line));
      reason = claim_find_reason (reckoning, WB_RULE_ARTICLE_LIMIT, WB_SCOPE_RELEASED, line);
      /* The denied line has no part in it. */
      g_assert_cmpint (figure_of (reason, WB_FIGURE_LOSS), ==, 6000);
      g_assert_cmpint (figure_of (reason, WB_FIGURE_COUNT), ==, 2);
      g_assert_nonnull (claim_find_reason (reckoning, WB_RULE_ARTICLE_SHARE, WB_SCOPE_RELEASED,
                                           line));
    }
  g_assert_cmpint (OWED (reckoning, 1, RELEASED), ==, 1800);
}

static void
test_listed_carton_brings_its_listed_value (ClaimFixture  *fixture,
                                            gconstpointer  data)
{
  g_autoptr (WbReckoning) listed = NULL, unlisted = NULL, too_low = NULL;
  WbPiece *box;
  WbValuation *valuation;

  claim_tear_down (fixture, NULL);
  claim_set_up_with (fixture, TERMS_HEAD TERMS_USUAL "extraordinary-weight = thing\n");
  valuation = claim_find (fixture, WB_KIND_VALUATION);
  valuation->high_value_list = TRUE;
  box = claim_add_piece (fixture, "box", WB_FORM_CARTON, 45);
  claim_add_line (fixture, "box", WB_LOSS_MISSING, 2500, 0)->weight = wb_weight (
    10, WB_WEIGHT_UNIT_LB);
  claim_add_line (fixture, "box", WB_LOSS_MISSING, 300, 0)->weight = pounds (5);

  /* 0.10 lb at 100.00; the 300.00 are within 500.00 */
  unlisted = claim_reckon (fixture);
  g_assert_cmpint (OWED (unlisted, 0, FULL), ==, 1000);
  g_assert_cmpint (OWED (unlisted, 1, FULL), ==, 30000);

  /* 49 CFR 375.203(c): up to the declared value of the article, and not to what the carton
   * weighs. */
  box->listed_value = dollars (500);
  listed = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (listed, FULL)->owed, ==, 50000);

  /* Nobody is worse off for having listed a thing. */
  box->listed_value = dollars (200);
  too_low = claim_reckon (fixture);
  g_assert_cmpint (OWED (too_low, 0, FULL), ==, 1000);
  g_assert_cmpint (OWED (too_low, 1, FULL), ==, 30000);
}

static void
test_listed_value_counts_once (ClaimFixture  *fixture,
                               gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbValuation *valuation;

  claim_tear_down (fixture, NULL);
  claim_set_up_with (fixture, TERMS_HEAD "[articles]\ncarton = each-thing\n" TERMS_USUAL);
  valuation = claim_find (fixture, WB_KIND_VALUATION);
  valuation->high_value_list = TRUE;
  claim_add_piece (fixture, "box", WB_FORM_CARTON, 45)->listed_value = dollars (2000);
  for (guint i = 0; i < 3; i++)
    claim_add_line (fixture, "box", WB_LOSS_MISSING, 1900, 0)->weight = pounds (1);
  reckoning = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (reckoning, FULL)->owed, ==, 200000);
  /* Each thing is an article of its own where its weight counts. */
  g_assert_cmpint (TOTAL (reckoning, RELEASED)->owed, ==, 180);
}

/* A thing's own limit goes before the listed value is shared out: a greater loss of a thing that is
 * cut anyway takes nothing from the others. */
static void
test_listed_value_goes_by_what_things_may_bring (ClaimFixture  *fixture,
                                                 gconstpointer  data)
{
  static const gint64 losses[] = { 1000, 4000 };

  claim_tear_down (fixture, NULL);
  claim_set_up_with (fixture, TERMS_HEAD "[articles]\ncarton = each-thing\n" TERMS_USUAL
                     "article-limit = 300.00\n");
  ((WbValuation *) claim_find (fixture, WB_KIND_VALUATION))->high_value_list = TRUE;
  claim_add_piece (fixture, "box", WB_FORM_CARTON, 45)->listed_value = dollars (400);
  claim_add_line (fixture, "box", WB_LOSS_MISSING, 1000, 0)->weight = pounds (1);
  claim_add_line (fixture, "box", WB_LOSS_MISSING, 200, 0)->weight = pounds (1);
  for (guint i = 0; i < G_N_ELEMENTS (losses); i++)
    {
      g_autoptr (WbReckoning) reckoning = NULL;

      ((WbClaimLine *) claim_find (fixture, WB_KIND_CLAIM_LINE))->replacement = dollars (losses[i]);
      reckoning = claim_reckon (fixture);
      /* $300.00 and $200.00 at most, of which $400.00 is listed for both. */
      g_assert_cmpint (OWED (reckoning, 0, FULL), ==, 24000);
      g_assert_cmpint (OWED (reckoning, 1, FULL), ==, 16000);
    }
}

static void
test_listed_value_needs_no_weight (ClaimFixture  *fixture,
                                   gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbValuation *valuation = claim_find (fixture, WB_KIND_VALUATION);

  valuation->high_value_list = TRUE;
  claim_add_piece (fixture, "ring", WB_FORM_LOOSE, 0)->listed_value = dollars (900);
  claim_add_line (fixture, "ring", WB_LOSS_MISSING, 800, 0);
  reckoning = claim_reckon (fixture);
  g_assert_true (reckoning->lines[0].side[WB_SIDE_FULL].complete);
  g_assert_cmpint (OWED (reckoning, 0, FULL), ==, 80000);
}

static void
test_article_in_two_claims (ClaimFixture  *fixture,
                            gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbClaim *other = claim_add (fixture, WB_KIND_CLAIM, "other");
  const WbReason *reason;

  wb_set_text (&other->number, "C-2");
  claim_add_piece (fixture, "box", WB_FORM_CARTON, 45);
  claim_add_piece (fixture, "vase", WB_FORM_LOOSE, 2);
  claim_add_line (fixture, "box", WB_LOSS_MISSING, 40, 0);
  claim_add_line (fixture, "vase", WB_LOSS_MISSING, 40, 0);
  for (guint i = 0; i < 2; i++)
    wb_set_text (&claim_add_line (fixture, "box", WB_LOSS_MISSING, 20, 0)->claim, "other");
  reckoning = claim_reckon (fixture);
  reason = claim_find_reason (reckoning, WB_RULE_ELSEWHERE, WB_SCOPE_GENERAL, 0);
  g_assert_cmpint (figure_of (reason, WB_FIGURE_COUNT), ==, 2);
  g_assert_null (claim_find_reason (reckoning, WB_RULE_ELSEWHERE, WB_SCOPE_GENERAL, 1));
}

/* --- shipment --------------------------------------------------------------------------------- */

static void
test_deductible_first_can_be_followed (ClaimFixture  *fixture,
                                       gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbValuation *valuation;
  const WbReason *share, *limited;

  claim_tear_down (fixture, NULL);
  claim_set_up_with (fixture, TERMS_HEAD
                     "[full]\nshipment-minimum = 600.00\ndeductible = yes\n"
                     "deductible-order = before-limit\n");
  valuation = claim_find (fixture, WB_KIND_VALUATION);
  valuation->deductible = dollars (200);
  claim_add_line (fixture, NULL, WB_LOSS_MISSING, 600, 0);
  claim_add_line (fixture, NULL, WB_LOSS_MISSING, 400, 0);
  reckoning = claim_reckon (fixture);
  /* 600 − 120 and 400 − 80; 800 is over the limit of 600, which is shared 480 : 320. */
  g_assert_cmpint (OWED (reckoning, 0, FULL), ==, 36000);
  g_assert_cmpint (OWED (reckoning, 1, FULL), ==, 24000);
  share = claim_find_reason (reckoning, WB_RULE_DEDUCTIBLE_SHARE, WB_SCOPE_FULL, 0);
  g_assert_cmpint (figure_of (share, WB_FIGURE_LOSS), ==, 60000);
  g_assert_cmpint (share->result.value, ==, 12000);
  limited = claim_find_reason (reckoning, WB_RULE_SHIPMENT_SHARE, WB_SCOPE_FULL, 0);
  g_assert_true (share < limited);
  g_assert_cmpint (figure_of (limited, WB_FIGURE_LOSS), ==, 48000);
  g_assert_cmpint (limited->result.value, ==, 36000);
}

static void
test_kept_declared_value_needs_no_weight (ClaimFixture  *fixture,
                                          gconstpointer  data)
{
  g_autoptr (WbReckoning) kept = NULL, above_maximum = NULL, unknown = NULL;
  WbWeighing *weighing;
  WbValuation *valuation;

  claim_tear_down (fixture, NULL);
  claim_set_up_with (fixture, TERMS_HEAD "[full]\nshipment-rate = 6.00 per lb\n"
                     "shipment-maximum = 50000.00\ndeclared-value = yes\nbelow-minimum = kept\n");
  weighing = claim_find (fixture, WB_KIND_WEIGHING);
  valuation = claim_find (fixture, WB_KIND_VALUATION);
  weighing->net = WB_WEIGHT_UNSET;
  valuation->declared_value = dollars (10000);
  claim_add_line (fixture, NULL, WB_LOSS_MISSING, 60000, 0);
  kept = claim_reckon (fixture);
  g_assert_true (TOTAL (kept, FULL)->complete);
  g_assert_cmpint (TOTAL (kept, FULL)->owed, ==, 1000000);

  valuation->declared_value = dollars (55000);
  above_maximum = claim_reckon (fixture);
  g_assert_true (TOTAL (above_maximum, FULL)->complete);
  g_assert_cmpint (TOTAL (above_maximum, FULL)->owed, ==, 5000000);

  valuation->declared_value = WB_MONEY_UNSET;
  unknown = claim_reckon (fixture);
  g_assert_false (TOTAL (unknown, FULL)->complete);
}

static void
test_volume_is_shown (ClaimFixture  *fixture,
                      gconstpointer  data)
{
  g_autoptr (WbReckoning) by_volume = NULL, by_weight = NULL;
  g_autofree char *text = NULL;
  WbOrder *order;

  claim_tear_down (fixture, NULL);
  claim_set_up_with (fixture, TERMS_HEAD "[full]\nshipment-rate = 620.00 per m3\n");
  order = claim_find (fixture, WB_KIND_ORDER);
  order->volume = wb_volume (4000, WB_VOLUME_UNIT_M3);
  by_volume = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (by_volume, FULL)->shipment_limit, ==, 2480000);
  text = wb_reckoning_to_text (by_volume);
  g_assert_nonnull (strstr (text, "reason minimum-value full key=shipment-rate volume=“40 m3”"));

  /* A weight made from a volume says from what, and at how much a cubic foot. */
  claim_tear_down (fixture, NULL);
  claim_set_up_with (fixture, TERMS_HEAD "[shipment]\nconstructive-weight = 7 lb\n" TERMS_USUAL);
  order = claim_find (fixture, WB_KIND_ORDER);
  order->volume = wb_volume (10000, WB_VOLUME_UNIT_CUFT);
  ((WbWeighing *) claim_find (fixture, WB_KIND_WEIGHING))->net = WB_WEIGHT_UNSET;
  by_weight = claim_reckon (fixture);
  g_free (text);
  text = wb_reckoning_to_text (by_weight);
  g_assert_nonnull (strstr (text, "weight-source=“volume” volume=“100 cuft” weight=“7 lb” → "
                            "weight=“700 lb”"));
}

static void
test_nothing_to_pay (ClaimFixture  *fixture,
                     gconstpointer  data)
{
  g_autoptr (WbReckoning) empty = NULL, denied = NULL, deducted = NULL;
  WbValuation *valuation = claim_find (fixture, WB_KIND_VALUATION);

  empty = claim_reckon (fixture);
  g_assert_cmpuint (empty->n_lines, ==, 0);
  g_assert_cmpint (TOTAL (empty, FULL)->owed, ==, 0);
  g_assert_true (TOTAL (empty, FULL)->complete);
  g_assert_nonnull (claim_find_reason (empty, WB_RULE_OWED, WB_SCOPE_FULL, WB_REASON_WHOLE_CLAIM));

  claim_add_line (fixture, NULL, WB_LOSS_MISSING, 50, 0)->ruling = WB_RULING_DENIED;
  denied = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (denied, FULL)->loss, ==, 5000);
  g_assert_cmpint (TOTAL (denied, FULL)->owed, ==, 0);

  claim_add_line (fixture, NULL, WB_LOSS_MISSING, 80, 0);
  valuation->deductible = wb_money (WB_MONEY_MAX_MINOR, "USD");
  deducted = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (deducted, FULL)->deducted, ==, 8000);
  g_assert_cmpint (TOTAL (deducted, FULL)->owed, ==, 0);
}

static void
test_several_payments (ClaimFixture  *fixture,
                       gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbValuation *valuation = claim_find (fixture, WB_KIND_VALUATION);
  WbClaim *other = claim_add (fixture, WB_KIND_CLAIM, "other");
  static const struct
  {
    const char *claim;
    gint64      amount;
    gint64      taken;
  } payments[] = { { "other", 20000, 300 }, { "claim", 1000, 0 }, { "other", 9000, 200 },
                   { "claim", 40, 0 } };

  wb_set_text (&other->number, "C-2");
  valuation->deductible = dollars (600);
  for (guint i = 0; i < G_N_ELEMENTS (payments); i++)
    {
      g_autofree char *id = g_strdup_printf ("p%u", i);
      WbPayment *payment = claim_add (fixture, WB_KIND_PAYMENT, id);

      wb_set_text (&payment->claim, payments[i].claim);
      payment->amount = dollars (payments[i].amount);
      payment->deductible_taken = dollars (payments[i].taken);
    }
  claim_add_line (fixture, NULL, WB_LOSS_MISSING, 2000, 0);
  reckoning = claim_reckon (fixture);
  /* 30,000 − 29,000 − 500 of deductible borne; 100 of the deductible is left. */
  g_assert_cmpint (TOTAL (reckoning, FULL)->limit_left, ==, 50000);
  g_assert_cmpint (TOTAL (reckoning, FULL)->deductible, ==, 10000);
  g_assert_cmpint (TOTAL (reckoning, FULL)->owed, ==, 40000);
  g_assert_cmpint (TOTAL (reckoning, FULL)->balance, ==, 40000 - 104000);
}

/* Of a rate and a flat limit the lower decides: it is told last, with its own key, and a flat limit
 * that decides nothing is not told. */
static void
test_rate_and_flat_limit (ClaimFixture  *fixture,
                          gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  static const struct { gint64 pounds, owed; } cases[] = {
    { 100, 6000 },     /* 60.00 by weight, under the flat 100.00 */
    { 300, 10000 },    /* 180.00 by weight: the flat limit decides */
  };

  claim_tear_down (fixture, NULL);
  claim_set_up_with (fixture, TERMS_HEAD "[released]\narticle-rate = 0.60 per lb ; the rate\n"
                     "article-limit = 100.00 ; the flat limit\n" FULL_ONLY);
  claim_add_piece (fixture, "light", WB_FORM_LOOSE, cases[0].pounds);
  claim_add_piece (fixture, "heavy", WB_FORM_LOOSE, cases[1].pounds);
  claim_add_line (fixture, "light", WB_LOSS_MISSING, 900, 0);
  claim_add_line (fixture, "heavy", WB_LOSS_MISSING, 900, 0);
  reckoning = claim_reckon (fixture);

  for (gint line = 0; line < 2; line++)
    {
      const WbReason *last = NULL;
      guint n = 0;
      const WbReason *reason;
      WbReasonIter iter;

      wb_reason_iter_init (&iter, reckoning);
      while ((reason = wb_reason_iter_next (&iter)) != NULL)
        {
          if (reason->rule != WB_RULE_ARTICLE_LIMIT || reason->line != line)
            continue;
          last = reason;
          n++;
        }
      g_assert_cmpint (OWED (reckoning, line, RELEASED), ==, cases[line].owed);
      g_assert_cmpuint (n, ==, line == 0 ? 1 : 2);
      g_assert_cmpint (last->result.value, ==, cases[line].owed);
      g_assert_cmpint (last->key, ==, line == 0 ? WB_KEY_ARTICLE_RATE : WB_KEY_ARTICLE_LIMIT);
      g_assert_cmpstr (wb_reckoning_citation (reckoning, last), ==,
                       line == 0 ? "the rate" : "the flat limit");
    }
}

/* --- freight ---------------------------------------------------------------------------------- */

static void
count_short (ClaimFixture *fixture,
             const char   *piece)
{
  WbFinding *finding = claim_add (fixture, WB_KIND_FINDING, piece);

  wb_set_text (&finding->handover, "door");
  wb_set_text (&finding->piece, piece);
  finding->found = WB_FOUND_SHORT;
}

static void
test_lost_part_has_its_own_weight (ClaimFixture  *fixture,
                                   gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbOrder *order = claim_find (fixture, WB_KIND_ORDER);

  order->freight_charge = dollars (1000);
  wb_set_text (&claim_add_piece (fixture, "rails", WB_FORM_LOOSE, 25)->article, "bed");
  wb_set_text (&claim_add_piece (fixture, "slats", WB_FORM_LOOSE, 75)->article, "bed");
  claim_add_line (fixture, "rails", WB_LOSS_MISSING, 60, 0);
  /* A second line on the same piece loses it no second time. */
  claim_add_line (fixture, "rails", WB_LOSS_MISSING, 20, 0);
  reckoning = claim_reckon (fixture);
  g_assert_true (TOTAL (reckoning, FULL)->complete);
  g_assert_cmpint (TOTAL (reckoning, FULL)->freight_refund, ==, 500);
}

static void
test_short_carton_is_lost_whole_whatever_is_claimed (ClaimFixture  *fixture,
                                                     gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbOrder *order = claim_find (fixture, WB_KIND_ORDER);

  order->freight_charge = dollars (1000);
  claim_add (fixture, WB_KIND_HANDOVER, "door");
  claim_add_piece (fixture, "box", WB_FORM_CARTON, 50);
  count_short (fixture, "box");
  claim_add_line (fixture, "box", WB_LOSS_MISSING, 60, 0)->weight = pounds (2);
  reckoning = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (reckoning, FULL)->freight_refund, ==, 1000);
}

/* Where nothing goes by weight, a missing weight is no gap. */
static void
test_refund_without_weights (ClaimFixture  *fixture,
                             gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbOrder *order;

  claim_tear_down (fixture, NULL);
  claim_set_up_with (fixture, TERMS_HEAD "[freight]\nfreight-partial-loss = all\n"
                     "freight-total-loss = all\n" FULL_ONLY);
  order = claim_find (fixture, WB_KIND_ORDER);
  order->freight_charge = dollars (4000);
  order->other_charge = dollars (300);
  claim_add_piece (fixture, "box", WB_FORM_CARTON, 0);
  claim_add_line (fixture, "box", WB_LOSS_MISSING, 60, 0);
  reckoning = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (reckoning, FULL)->freight_refund, ==, 430000);
  g_assert_true (TOTAL (reckoning, FULL)->complete);
}

/* --- time ------------------------------------------------------------------------------------- */

static void
test_last_days (void)
{
  static const struct
  {
    const char *delivered;
    const char *period;
    const char *last_day;
    const char *day_after;
  } cases[] = {
    { "2024-05-31", "9 months", "2025-02-28", "2025-03-01" },
    { "2023-05-31", "9 months", "2024-02-29", "2024-03-01" },
    { "2024-02-29", "1 year", "2025-02-28", "2025-03-01" },
    { "2020-02-29", "4 years", "2024-02-29", "2024-03-01" },
    { "2024-08-31", "1 month", "2024-09-30", "2024-10-01" },
    { "2023-12-31", "2 months", "2024-02-29", "2024-03-01" },
    { "2024-02-28", "1 day", "2024-02-29", "2024-03-01" },
    { "2023-02-28", "1 day", "2023-03-01", "2023-03-02" },
    { "2024-12-31", "120 days", "2025-04-30", "2025-05-01" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      ClaimFixture fixture = { NULL };
      g_autofree char *terms = g_strdup_printf (TERMS_HEAD "[claims]\nclaim-within = %s\n"
                                                "late-claim = barred\n" FULL_ONLY,
                                                cases[i].period);
      g_autoptr (WbReckoning) in_time = NULL, late = NULL;
      WbOrder *order;
      WbClaim *claim;

      claim_set_up_with (&fixture, terms);
      order = claim_find (&fixture, WB_KIND_ORDER);
      claim = claim_find (&fixture, WB_KIND_CLAIM);
      claim_add_line (&fixture, NULL, WB_LOSS_MISSING, 50, 0);
      g_assert_true (wb_date_parse (cases[i].delivered, &order->delivered_on, NULL));
      g_assert_true (wb_date_parse (cases[i].last_day, &claim->received_on, NULL));
      in_time = claim_reckon (&fixture);
      g_assert_cmpint (in_time->late, ==, WB_NOT_LATE);
      g_assert_true (wb_date_parse (cases[i].day_after, &claim->received_on, NULL));
      late = claim_reckon (&fixture);
      g_assert_cmpint (late->late, ==, WB_LATE);
      g_assert_cmpint (TOTAL (late, FULL)->owed, ==, 0);
      claim_tear_down (&fixture, NULL);
    }
}

static void
test_too_late_tells_the_day (ClaimFixture  *fixture,
                             gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbClaim *claim;
  const WbReason *reason;
  GDate last_day;

  claim_tear_down (fixture, NULL);
  claim_set_up_with (fixture, TERMS_HEAD "[claims]\nclaim-within = 9 months\n"
                     "late-claim = actual-value\nlate-until = 2 years ; the second day\n"
                     FULL_ONLY);
  claim = claim_find (fixture, WB_KIND_CLAIM);
  claim_add_line (fixture, NULL, WB_LOSS_MISSING, 50, 0);
  g_date_set_dmy (&claim->received_on, 11, G_DATE_MARCH, 2026);
  reckoning = claim_reckon (fixture);
  reason = claim_find_reason (reckoning, WB_RULE_LATE, WB_SCOPE_GENERAL, WB_REASON_WHOLE_CLAIM);
  g_date_clear (&last_day, 1);
  g_date_set_dmy (&last_day, 10, G_DATE_MARCH, 2026);
  g_assert_cmpint (figure_of (reason, WB_FIGURE_LAST_DAY), ==, g_date_get_julian (&last_day));
  g_assert_cmpstr (wb_reckoning_citation (reckoning, reason), ==, "the second day");
  reason = claim_find_reason (reckoning, WB_RULE_BARRED, WB_SCOPE_FULL, 0);
  g_assert_cmpstr (wb_reckoning_citation (reckoning, reason), ==, "the second day");
}

/* The goods of a late claim are not paid, but their freight goes back: the right to it is in
 * addition (49 CFR 375.707(d)). */
static void
test_late_claim_keeps_its_freight (ClaimFixture  *fixture,
                                   gconstpointer  data)
{
  g_autoptr (WbReckoning) partial = NULL, total = NULL, in_time = NULL;
  const WbReason *reason;
  WbClaim *claim;
  WbOrder *order;

  claim_tear_down (fixture, NULL);
  claim_set_up_with (fixture, TERMS_HEAD "[freight]\n"
                     "freight-partial-loss = by-weight ; 49 CFR 375.707(b), (d)\n"
                     "freight-total-loss = all ; 49 CFR 375.709\n"
                     "[claims]\nclaim-within = 9 months\nlate-claim = barred\n" FULL_ONLY);
  claim = claim_find (fixture, WB_KIND_CLAIM);
  order = claim_find (fixture, WB_KIND_ORDER);
  order->freight_charge = dollars (4000);
  order->other_charge = dollars (300);
  claim_add_piece (fixture, "sofa", WB_FORM_LOOSE, 250);
  claim_add_line (fixture, "sofa", WB_LOSS_MISSING, 900, 0);
  g_date_set_dmy (&claim->received_on, 11, G_DATE_MARCH, 2026);

  /* 250 of 5,000 lb */
  partial = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (partial, FULL)->owed, ==, 0);
  g_assert_cmpint (TOTAL (partial, FULL)->freight_refund, ==, 20000);
  g_assert_cmpint (TOTAL (partial, FULL)->balance, ==, 20000);
  reason = claim_find_reason (partial, WB_RULE_FREIGHT_REFUND, WB_SCOPE_GENERAL,
                              WB_REASON_WHOLE_CLAIM);
  g_assert_cmpint (figure_of (reason, WB_FIGURE_LATE), ==, WB_LATE);
  g_assert_cmpstr (wb_reckoning_citation (partial, reason), ==, "49 CFR 375.707(b), (d)");

  claim_add_piece (fixture, "rest", WB_FORM_LOOSE, 4750);
  claim_add_line (fixture, "rest", WB_LOSS_MISSING, 9000, 0);
  total = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (total, FULL)->owed, ==, 0);
  g_assert_cmpint (TOTAL (total, FULL)->freight_refund, ==, 430000);

  /* A claim in time says nothing of lateness where its freight is told. */
  g_date_set_dmy (&claim->received_on, 11, G_DATE_MARCH, 2024);
  in_time = claim_reckon (fixture);
  g_assert_cmpint (in_time->late, ==, WB_NOT_LATE);
  reason = claim_find_reason (in_time, WB_RULE_FREIGHT_REFUND, WB_SCOPE_GENERAL,
                              WB_REASON_WHOLE_CLAIM);
  g_assert_cmpuint (reason->n_inputs, ==, 3);
}

/* --- silence ---------------------------------------------------------------------------------- */

static void
test_every_silence_is_told (ClaimFixture  *fixture,
                            gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbValuation *valuation;
  WbClaimLine *line;

  claim_tear_down (fixture, NULL);
  claim_set_up_with (fixture, TERMS_HEAD FULL_ONLY "measure = actual-value\n");
  valuation = claim_find (fixture, WB_KIND_VALUATION);
  valuation->declared_value = dollars (9000);
  valuation->deductible = dollars (10);
  line = claim_add_line (fixture, NULL, WB_LOSS_MISSING, 50, 0);
  line->depreciation_flat = 1000;
  reckoning = claim_reckon (fixture);
  g_assert_true (says_silence (reckoning, WB_KEY_CLAIM_WITHIN));
  g_assert_true (says_silence (reckoning, WB_KEY_ROUNDING));
  g_assert_true (says_silence (reckoning, WB_KEY_DEPRECIATION_MAXIMUM));
  g_assert_true (says_silence (reckoning, WB_KEY_DECLARED_VALUE));
  g_assert_true (says_silence (reckoning, WB_KEY_DEDUCTIBLE));
  g_assert_false (says_silence (reckoning, WB_KEY_PARTS));
}

/* --- input ------------------------------------------------------------------------------------ */

static void
assert_fails (ClaimFixture *fixture,
              WbCoreError   code)
{
  g_autoptr (WbJob) job = wb_job_with_many (fixture->empty, fixture->records);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbReckoning) reckoning = wb_reckon (fixture->terms, job, "claim", &error);

  g_assert_error (error, WB_CORE_ERROR, (int) code);
  g_assert_null (reckoning);
}

/* Whatever the record and the field, a figure beyond its range is an error and never an amount. */
static void
test_absurd_figures (ClaimFixture  *fixture,
                     gconstpointer  data)
{
  static const gint64 absurd[] = { G_MININT64 + 1, -1, G_MAXINT64 };
  guint n_tried = 0;

  claim_add_piece (fixture, "a", WB_FORM_LOOSE, 10);
  wb_set_text (&claim_add_piece (fixture, "b", WB_FORM_LOOSE, 10)->article, "bed");
  wb_set_text (&claim_add_piece (fixture, "c", WB_FORM_LOOSE, 10)->article, "bed");
  wb_set_text (&((WbPayment *) claim_add (fixture, WB_KIND_PAYMENT, "paid"))->claim, "claim");
  claim_add_line (fixture, "a", WB_LOSS_MISSING, 50, 0);
  claim_add_line (fixture, "b", WB_LOSS_MISSING, 50, 0);

  for (guint i = 0; i < fixture->records->len; i++)
    {
      WbRecord *record = g_ptr_array_index (fixture->records, i);

      for (gsize j = 0; j < record->type->n_fields; j++)
        for (guint k = 0; k < G_N_ELEMENTS (absurd); k++)
          {
            const WbField *field = &record->type->fields[j];
            gpointer at = (char *) record + field->offset;

            if (field->type == WB_FIELD_MONEY)
              {
                WbMoney kept = *(WbMoney *) at;

                *(WbMoney *) at = (WbMoney) { absurd[k], "USD" };
                assert_fails (fixture, WB_CORE_ERROR_RANGE);
                *(WbMoney *) at = kept;
              }
            else if (field->type == WB_FIELD_WEIGHT)
              {
                WbWeight kept = *(WbWeight *) at;

                *(WbWeight *) at = (WbWeight) { absurd[k], WB_WEIGHT_UNIT_LB };
                assert_fails (fixture, WB_CORE_ERROR_RANGE);
                *(WbWeight *) at = kept;
              }
            else if (field->type == WB_FIELD_VOLUME)
              {
                WbVolume kept = *(WbVolume *) at;

                *(WbVolume *) at = (WbVolume) { absurd[k], WB_VOLUME_UNIT_CUFT };
                assert_fails (fixture, WB_CORE_ERROR_RANGE);
                *(WbVolume *) at = kept;
              }
            else if (field->type == WB_FIELD_INTEGER || field->type == WB_FIELD_PERCENT)
              {
                gint64 kept = *(gint64 *) at;

                *(gint64 *) at = absurd[k];
                assert_fails (fixture, WB_CORE_ERROR_RANGE);
                *(gint64 *) at = kept;
              }
            else
              continue;
            n_tried++;
          }
    }
  g_assert_cmpuint (n_tried, >, 100);
}

/* A finding that names nothing is the job check's to find; here it must do no harm. */
static void
test_stray_findings (ClaimFixture  *fixture,
                     gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autoptr (GError) error = NULL;

  claim_add (fixture, WB_KIND_FINDING, "stray");
  claim_add_line (fixture, NULL, WB_LOSS_MISSING, 50, 0);
  job = wb_job_with_many (fixture->empty, fixture->records);
  reckoning = wb_reckon (fixture->terms, job, "claim", &error);
  g_assert_no_error (error);
  g_assert_cmpint (TOTAL (reckoning, FULL)->owed, ==, 5000);
}

/* Currencies without a smaller coin: 60 yen a pound, and halves of a yen. */
static void
test_yen (void)
{
  g_autoptr (WbTerms) terms =
    claim_parse_terms ("regime = yen\ntitle = Yen\ncurrency = JPY\n[edition]\nfrom = 2000-01-01\n"
                       "[released]\narticle-rate = 61 per lb\nmeasure = actual-value\n"
                       "[full]\nshipment-rate = 600 per lb\nshipment-minimum = 600000\n");
  g_autoptr (WbJob) empty = wb_job_new ("job", "JPY");
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  WbOrder *order = wb_record_new (WB_KIND_ORDER, "order");
  WbClaim *claim = wb_record_new (WB_KIND_CLAIM, "claim");
  WbClaimLine *line = wb_record_new (WB_KIND_CLAIM_LINE, "line");
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbReckoning) reckoning = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;

  g_ptr_array_add (records, order);
  g_ptr_array_add (records, claim);
  g_ptr_array_add (records, line);
  wb_set_text (&order->number, "J-1");
  wb_set_text (&claim->number, "C-1");
  wb_set_text (&line->claim, "claim");
  line->number = 1;
  line->loss = WB_LOSS_MISSING;
  line->replacement = wb_money (1001, "JPY");
  line->depreciation_flat = 5000;
  line->weight = wb_weight (250, WB_WEIGHT_UNIT_LB);
  job = wb_job_with_many (empty, records);
  reckoning = wb_reckon (terms, job, "claim", &error);
  g_assert_no_error (error);
  /* 500.5 up; 2.5 lb × 61 = 152.5 up */
  g_assert_cmpint (reckoning->lines[0].side[WB_SIDE_RELEASED].loss, ==, 501);
  g_assert_cmpint (OWED (reckoning, 0, RELEASED), ==, 153);
  text = wb_reckoning_to_text (reckoning);
  g_assert_nonnull (strstr (text, "owed=153\n"));
}

/* --- size ------------------------------------------------------------------------------------- */

#define N_MANY 99999

/* The most lines that a claim can have, all of one carton and beyond the shipment's limit. */
static void
test_many_lines (ClaimFixture  *fixture,
                 gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  gint64 owed = 0;

  claim_add_piece (fixture, "box", WB_FORM_CARTON, 45);
  for (guint i = 0; i < N_MANY; i++)
    claim_add_line (fixture, "box", WB_LOSS_MISSING, 1 + i % 7, 0);
  reckoning = claim_reckon (fixture);
  g_assert_cmpuint (reckoning->n_lines, ==, N_MANY);
  g_assert_cmpint (TOTAL (reckoning, RELEASED)->owed, ==, 2700);
  for (guint i = 0; i < N_MANY; i++)
    owed += OWED (reckoning, i, RELEASED);
  g_assert_cmpint (owed, ==, 2700);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define CASE(path, function) \
  g_test_add ("/core/reckon/" path, ClaimFixture, NULL, claim_set_up, function, claim_tear_down)
  CASE ("loss/denied-without-figures", test_denied_line_needs_no_figures);
  CASE ("loss/salvage-in-the-lesser", test_salvage_counts_in_the_lesser);
  CASE ("loss/depreciation-reasons", test_depreciation_can_be_followed);
  CASE ("article/name-and-id", test_name_of_an_article_is_no_id);
  CASE ("article/heaviest-line", test_loose_piece_weighs_as_its_heaviest_line);
  CASE ("article/weight-of-nothing", test_weight_of_nothing_is_no_weight);
  CASE ("article/reasons-of-every-line", test_every_line_tells_its_limit);
  CASE ("article/listed-carton", test_listed_carton_brings_its_listed_value);
  CASE ("article/listed-once", test_listed_value_counts_once);
  CASE ("article/listed-after-limits", test_listed_value_goes_by_what_things_may_bring);
  CASE ("article/listed-without-weight", test_listed_value_needs_no_weight);
  CASE ("article/two-claims", test_article_in_two_claims);
  CASE ("article/rate-and-flat-limit", test_rate_and_flat_limit);
  CASE ("shipment/deductible-first-reasons", test_deductible_first_can_be_followed);
  CASE ("shipment/declared-value-kept", test_kept_declared_value_needs_no_weight);
  CASE ("shipment/volume-reasons", test_volume_is_shown);
  CASE ("shipment/nothing-to-pay", test_nothing_to_pay);
  CASE ("shipment/several-payments", test_several_payments);
  CASE ("freight/lost-part", test_lost_part_has_its_own_weight);
  CASE ("freight/short-carton-whole", test_short_carton_is_lost_whole_whatever_is_claimed);
  CASE ("freight/without-weights", test_refund_without_weights);
  g_test_add_func ("/core/reckon/time/last-days", test_last_days);
  CASE ("time/too-late-reasons", test_too_late_tells_the_day);
  CASE ("time/late-keeps-freight", test_late_claim_keeps_its_freight);
  CASE ("reasons/every-silence", test_every_silence_is_told);
  CASE ("errors/absurd-figures", test_absurd_figures);
  CASE ("errors/stray-findings", test_stray_findings);
  g_test_add_func ("/core/reckon/currency/yen", test_yen);
  CASE ("size/many-lines", test_many_lines);
  return g_test_run ();
}
