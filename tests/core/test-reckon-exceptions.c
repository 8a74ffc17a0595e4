/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What does not go the usual way of a claim line: sound mates of a set, salvage that the carrier
 * takes, the least depreciation, freight of what was denied. Each case is small enough to check by
 * hand, and each step leaves its reason. */
#include "config.h"

#include "claim-fixture.h"

#include <string.h>

static gboolean
has_figure (const WbReason *reason,
            WbFigureName    name)
{
  for (guint i = 0; i < reason->n_inputs; i++)
    if (reason->inputs[i].name == name)
      return TRUE;
  return FALSE;
}

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

static void
use_terms (ClaimFixture *fixture,
           const char   *more)
{
  g_autofree char *text = g_strconcat (TERMS_HEAD, more, TERMS_USUAL, NULL);

  wb_terms_unref (fixture->terms);
  fixture->terms = claim_parse_terms (text);
}

/* --- pairs and sets --------------------------------------------------------------------------- */

/* A sofa is reupholstered for 600; its fabric is gone, so the loveseat (400) and the chair (250)
 * that match it would have to be recovered too. */
static void
add_suite (ClaimFixture *fixture)
{
  WbClaimLine *line;

  claim_add_piece (fixture, "sofa", WB_FORM_LOOSE, 150);
  claim_add_piece (fixture, "loveseat", WB_FORM_LOOSE, 100);
  claim_add_piece (fixture, "chair", WB_FORM_LOOSE, 60);
  claim_add_line (fixture, "sofa", WB_LOSS_DAMAGED, 0, 600);
  line = claim_add_line (fixture, "loveseat", WB_LOSS_DAMAGED, 0, 400);
  line->set_mate = TRUE;
  line = claim_add_line (fixture, "chair", WB_LOSS_DAMAGED, 0, 250);
  line->set_mate = TRUE;
}

static void
test_only_piece (ClaimFixture  *fixture,
                 gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  const WbReason *reason;

  use_terms (fixture, "[articles]\nsets = only-piece ; tariff item 7\n");
  add_suite (fixture);
  reckoning = claim_reckon (fixture);
  g_assert_cmpint (OWED (reckoning, 0, FULL), ==, 60000);
  g_assert_cmpint (OWED (reckoning, 1, FULL), ==, 0);
  g_assert_cmpint (OWED (reckoning, 2, FULL), ==, 0);
  g_assert_cmpint (TOTAL (reckoning, FULL)->loss, ==, 125000);
  g_assert_null (claim_find_reason (reckoning, WB_RULE_SET_MATE, WB_SCOPE_FULL, 0));

  reason = claim_find_reason (reckoning, WB_RULE_SET_MATE, WB_SCOPE_FULL, 1);
  g_assert_cmpint (figure_of (reason, WB_FIGURE_LOSS), ==, 40000);
  g_assert_cmpint (figure_of (reason, WB_FIGURE_CODE), ==, WB_SETS_ONLY_PIECE);
  g_assert_cmpint (reason->result.value, ==, 0);
  g_assert_cmpstr (wb_reckoning_citation (reckoning, reason), ==, "tariff item 7");
  g_assert_nonnull (claim_find_reason (reckoning, WB_RULE_SET_MATE, WB_SCOPE_RELEASED, 2));
}

static void
test_with_mates (ClaimFixture  *fixture,
                 gconstpointer  data)
{
  g_autoptr (WbReckoning) said = NULL, silent = NULL;
  const WbReason *reason;

  add_suite (fixture);
  silent = claim_reckon (fixture);
  use_terms (fixture, "[articles]\nsets = with-mates\n");
  said = claim_reckon (fixture);
  g_assert_cmpint (OWED (said, 1, FULL), ==, 40000);
  g_assert_cmpint (OWED (said, 2, FULL), ==, 25000);
  /* At 0.60 for its 100 lb, like any article. */
  g_assert_cmpint (OWED (said, 1, RELEASED), ==, 6000);
  reason = claim_find_reason (said, WB_RULE_SET_MATE, WB_SCOPE_FULL, 2);
  g_assert_cmpint (reason->result.value, ==, 25000);
  g_assert_false (says_silence (said, WB_KEY_SETS));

  /* Silence costs the customer nothing, and is told. */
  g_assert_cmpint (TOTAL (silent, FULL)->owed, ==, TOTAL (said, FULL)->owed);
  g_assert_true (says_silence (silent, WB_KEY_SETS));
}

/* A mate that is not paid for lacks nothing, and an ordinary claim does not ask about sets. */
static void
test_unpaid_mate_lacks_nothing (ClaimFixture  *fixture,
                                gconstpointer  data)
{
  g_autoptr (WbReckoning) asked = NULL, plain = NULL;
  WbClaimLine *line;

  claim_add_piece (fixture, "lamp", WB_FORM_LOOSE, 0);
  line = claim_add_line (fixture, "lamp", WB_LOSS_DAMAGED, 0, 0);
  plain = claim_reckon (fixture);
  g_assert_false (says_silence (plain, WB_KEY_SETS));
  g_assert_false (TOTAL (plain, FULL)->complete);

  use_terms (fixture, "[articles]\nsets = only-piece\n");
  line->set_mate = TRUE;
  asked = claim_reckon (fixture);
  g_assert_true (TOTAL (asked, FULL)->complete);
  g_assert_true (TOTAL (asked, RELEASED)->complete);
}

/* A denied mate is denied, whatever the terms say of sets; nothing is told twice. */
static void
test_denied_mate (ClaimFixture  *fixture,
                  gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbClaimLine *line;

  claim_add_piece (fixture, "lamp", WB_FORM_LOOSE, 5);
  line = claim_add_line (fixture, "lamp", WB_LOSS_DAMAGED, 0, 50);
  line->set_mate = TRUE;
  line->ruling = WB_RULING_DENIED;
  reckoning = claim_reckon (fixture);
  g_assert_cmpint (OWED (reckoning, 0, FULL), ==, 0);
  g_assert_nonnull (claim_find_reason (reckoning, WB_RULE_DENIED, WB_SCOPE_FULL, 0));
  g_assert_null (claim_find_reason (reckoning, WB_RULE_SET_MATE, WB_SCOPE_FULL, 0));
}

/* A limit a line holds for a mate too. */
static void
test_mate_and_line_limit (ClaimFixture  *fixture,
                          gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbClaimLine *line;

  wb_terms_unref (fixture->terms);
  fixture->terms = claim_parse_terms (TERMS_HEAD "[articles]\nsets = with-mates\n[full]\n"
                                      "line-limit = 100.00\nshipment-minimum = 6000.00\n");
  claim_add_piece (fixture, "chair", WB_FORM_LOOSE, 20);
  line = claim_add_line (fixture, "chair", WB_LOSS_DAMAGED, 0, 250);
  line->set_mate = TRUE;
  reckoning = claim_reckon (fixture);
  g_assert_cmpint (OWED (reckoning, 0, FULL), ==, 10000);
  g_assert_nonnull (claim_find_reason (reckoning, WB_RULE_LINE_LIMIT, WB_SCOPE_FULL, 0));
}

/* --- salvage ---------------------------------------------------------------------------------- */

static void
test_salvage_taken (ClaimFixture  *fixture,
                    gconstpointer  data)
{
  g_autoptr (WbReckoning) kept = NULL, taken = NULL;
  const WbReason *reason;
  WbClaimLine *line;

  claim_add_piece (fixture, "table", WB_FORM_LOOSE, 80);
  line = claim_add_line (fixture, "table", WB_LOSS_DESTROYED, 500, 0);
  line->salvage = dollars (120);
  kept = claim_reckon (fixture);
  g_assert_cmpint (OWED (kept, 0, FULL), ==, 38000);
  g_assert_null (claim_find_reason (kept, WB_RULE_SALVAGE_TAKEN, WB_SCOPE_FULL, 0));

  line->salvage_taken = TRUE;
  taken = claim_reckon (fixture);
  g_assert_cmpint (OWED (taken, 0, FULL), ==, 50000);
  g_assert_null (claim_find_reason (taken, WB_RULE_SALVAGE, WB_SCOPE_FULL, 0));
  reason = claim_find_reason (taken, WB_RULE_SALVAGE_TAKEN, WB_SCOPE_FULL, 0);
  g_assert_cmpint (figure_of (reason, WB_FIGURE_AMOUNT), ==, 50000);
  g_assert_cmpint (reason->result.value, ==, 50000);
}

/* --- depreciation ----------------------------------------------------------------------------- */

/* Fine china of 1,000: the lesser of actual cash value and 90 % of replacement. */
static void
test_least_depreciation (ClaimFixture  *fixture,
                         gconstpointer  data)
{
  static const struct
  {
    gint64       flat, yearly, age, least;
    const char  *maximum;
    gint64       value;            /* of 1,000.00 */
    WbFigureName figures[4];       /* of the reason; all 0: there is none */
  } cases[] = {
    /* Nothing else noted, or a new thing: 90 %. */
    { -1, -1, -1, 1000, "100 %", 90000, { WB_FIGURE_LEAST } },
    { -1, 500, 0, 1000, "100 %", 90000, { WB_FIGURE_YEARLY, WB_FIGURE_AGE, WB_FIGURE_LEAST } },
    { -1, 500, 1, 1000, "100 %", 90000, { WB_FIGURE_YEARLY, WB_FIGURE_AGE, WB_FIGURE_LEAST } },
    /* As old as comes to the same, or older: the actual cash value. */
    { -1, 500, 2, 1000, "100 %", 90000, { WB_FIGURE_YEARLY, WB_FIGURE_AGE } },
    { -1, 500, 6, 1000, "100 %", 70000, { WB_FIGURE_YEARLY, WB_FIGURE_AGE } },
    /* No age: only the least is known. */
    { -1, 500, -1, 1000, "100 %", 90000, { WB_FIGURE_LEAST } },
    { 400, -1, -1, 1000, "100 %", 90000, { WB_FIGURE_DEPRECIATION, WB_FIGURE_LEAST } },
    { 4000, -1, -1, 1000, "100 %", 60000, { 0 } },
    /* No terms take more than they say. */
    { -1, -1, -1, 1000, "5 %", 95000, { WB_FIGURE_LEAST, WB_FIGURE_MAXIMUM } },
    { -1, 100, 3, 1000, "5 %", 95000,
      { WB_FIGURE_YEARLY, WB_FIGURE_AGE, WB_FIGURE_LEAST, WB_FIGURE_MAXIMUM } },
    { 300, -1, -1, 1000, "5 %", 95000,
      { WB_FIGURE_DEPRECIATION, WB_FIGURE_LEAST, WB_FIGURE_MAXIMUM } },
    { -1, -1, -1, 0, "100 %", 100000, { 0 } },
  };

  claim_add_piece (fixture, "china", WB_FORM_CARTON, 5000);
  claim_add_line (fixture, "china", WB_LOSS_MISSING, 1000, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *loss = g_strdup_printf ("[loss]\ndepreciation-maximum = %s\n",
                                               cases[i].maximum);
      WbClaimLine *line = claim_find (fixture, WB_KIND_CLAIM_LINE);
      g_autoptr (WbReckoning) reckoning = NULL;
      const WbReason *reason;

      use_terms (fixture, loss);
      line->depreciation_flat = cases[i].flat < 0 ? WB_INTEGER_UNSET : cases[i].flat;
      line->depreciation_yearly = cases[i].yearly < 0 ? WB_INTEGER_UNSET : cases[i].yearly;
      line->age_years = cases[i].age < 0 ? WB_INTEGER_UNSET : cases[i].age;
      line->depreciation_least = cases[i].least;
      reckoning = claim_reckon (fixture);
      g_assert_cmpint (reckoning->lines[0].side[WB_SIDE_RELEASED].loss, ==, cases[i].value);
      g_assert_cmpint (reckoning->lines[0].side[WB_SIDE_FULL].loss, ==, 100000);

      reason = claim_find_reason (reckoning, WB_RULE_DEPRECIATION_RATE, WB_SCOPE_RELEASED, 0);
      g_assert_true ((reason != NULL) == (cases[i].figures[0] != 0));
      for (guint j = 0; reason != NULL && j < G_N_ELEMENTS (cases[i].figures); j++)
        if (cases[i].figures[j] != 0)
          g_assert_true (has_figure (reason, cases[i].figures[j]));
        else
          g_assert_cmpuint (reason->n_inputs, <=, j);
    }
}

/* --- freight of what was denied --------------------------------------------------------------- */

/* 49 CFR 375.707(c), (d): of 5,000 lb, 500 were lost and their claim is denied. */
static void
test_freight_of_denied (ClaimFixture  *fixture,
                        gconstpointer  data)
{
  g_autoptr (WbReckoning) denied = NULL, shipper = NULL, allowed = NULL, damaged = NULL;
  WbOrder *order = claim_find (fixture, WB_KIND_ORDER);
  const WbReason *reason;
  WbClaimLine *line;

  order->freight_charge = dollars (4000);
  claim_add_piece (fixture, "piano", WB_FORM_LOOSE, 500);
  line = claim_add_line (fixture, "piano", WB_LOSS_DESTROYED, 9000, 0);
  line->ruling = WB_RULING_DENIED;
  line->defence = WB_DEFENCE_ACT_OF_GOD;
  denied = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (denied, FULL)->owed, ==, 0);
  g_assert_cmpint (TOTAL (denied, FULL)->freight_refund, ==, 40000);
  g_assert_cmpint (TOTAL (denied, FULL)->balance, ==, 40000);
  reason = claim_find_reason (denied, WB_RULE_FREIGHT_DENIED, WB_SCOPE_GENERAL, 0);
  g_assert_cmpint (figure_of (reason, WB_FIGURE_DEFENCE), ==, WB_DEFENCE_ACT_OF_GOD);

  line->defence = WB_DEFENCE_SHIPPER;
  shipper = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (shipper, FULL)->freight_refund, ==, 0);
  g_assert_null (claim_find_reason (shipper, WB_RULE_FREIGHT_REFUND, WB_SCOPE_GENERAL,
                                    WB_REASON_WHOLE_CLAIM));
  reason = claim_find_reason (shipper, WB_RULE_FREIGHT_DENIED, WB_SCOPE_GENERAL, 0);
  g_assert_cmpint (figure_of (reason, WB_FIGURE_DEFENCE), ==, WB_DEFENCE_SHIPPER);

  /* A defence that was noted and given up does not count. */
  line->ruling = WB_RULING_ALLOWED;
  allowed = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (allowed, FULL)->freight_refund, ==, 40000);
  g_assert_null (claim_find_reason (allowed, WB_RULE_FREIGHT_DENIED, WB_SCOPE_GENERAL, 0));

  line->ruling = WB_RULING_DENIED;
  line->loss = WB_LOSS_DAMAGED;
  damaged = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (damaged, FULL)->freight_refund, ==, 0);
  g_assert_null (claim_find_reason (damaged, WB_RULE_FREIGHT_DENIED, WB_SCOPE_GENERAL, 0));
}

/* 49 CFR 375.709: what the shipper lost keeps a total loss from being one. */
static void
test_total_loss_but_for_the_shipper (ClaimFixture  *fixture,
                                     gconstpointer  data)
{
  g_autoptr (WbReckoning) total = NULL, partial = NULL;
  WbOrder *order = claim_find (fixture, WB_KIND_ORDER);
  WbClaimLine *line;

  order->freight_charge = dollars (4000);
  order->other_charge = dollars (300);
  claim_add_piece (fixture, "most", WB_FORM_LOOSE, 4000);
  claim_add_piece (fixture, "rest", WB_FORM_LOOSE, 1000);
  claim_add_line (fixture, "most", WB_LOSS_MISSING, 900, 0);
  line = claim_add_line (fixture, "rest", WB_LOSS_MISSING, 900, 0);
  total = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (total, FULL)->freight_refund, ==, 430000);

  line->ruling = WB_RULING_DENIED;
  line->defence = WB_DEFENCE_SHIPPER;
  partial = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (partial, FULL)->freight_refund, ==, 320000);
}

/* A sound mate was not lost. */
static void
test_freight_of_mate (ClaimFixture  *fixture,
                      gconstpointer  data)
{
  g_autoptr (WbReckoning) mate = NULL, lost = NULL;
  WbOrder *order = claim_find (fixture, WB_KIND_ORDER);
  WbClaimLine *line;

  order->freight_charge = dollars (4000);
  claim_add_piece (fixture, "chair", WB_FORM_LOOSE, 50);
  line = claim_add_line (fixture, "chair", WB_LOSS_DESTROYED, 300, 0);
  lost = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (lost, FULL)->freight_refund, ==, 4000);
  line->set_mate = TRUE;
  mate = claim_reckon (fixture);
  g_assert_cmpint (TOTAL (mate, FULL)->freight_refund, ==, 0);
  g_assert_cmpint (OWED (mate, 0, FULL), ==, 30000);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define CASE(path, function) \
  g_test_add ("/core/reckon/" path, ClaimFixture, NULL, claim_set_up, function, claim_tear_down)
  CASE ("sets/only-piece", test_only_piece);
  CASE ("sets/with-mates", test_with_mates);
  CASE ("sets/lacks-nothing", test_unpaid_mate_lacks_nothing);
  CASE ("sets/denied", test_denied_mate);
  CASE ("sets/line-limit", test_mate_and_line_limit);
  CASE ("salvage/taken", test_salvage_taken);
  CASE ("depreciation/least", test_least_depreciation);
  CASE ("freight/denied", test_freight_of_denied);
  CASE ("freight/total-but-for-the-shipper", test_total_loss_but_for_the_shipper);
  CASE ("freight/mate", test_freight_of_mate);
  return g_test_run ();
}
