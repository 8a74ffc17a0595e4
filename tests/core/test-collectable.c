/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What may be collected at delivery, beyond the examples of the published table: charges as
 * rated, edges, refusals. */
#include "config.h"

#include "core/wb-collectable.h"
#include "core/wb-constructive.h"
#include "core/wb-core.h"

#define N_RANDOM 2000

static WbMoney
usd (gint64 dollars)
{
  return wb_money (dollars * 100, "USD");
}

static WbWeight
lb (gint64 pounds)
{
  return wb_weight (pounds * 100, WB_WEIGHT_UNIT_LB);
}

static WbCollectable
collect (WbDeliveryCharges charges)
{
  WbCollectable out = { 0 };
  g_autoptr (GError) error = NULL;

  if (!wb_collect_at_delivery (&wb_collect_rules_interstate, &charges, WB_ROUND_HALF_UP, &out, &error))
    g_error ("%s", error->message);
  return out;
}

/* A non-binding estimate is a ceiling: what was charged below it is all that is asked for. A
 * binding one is the price. */
static void
test_charged (void)
{
  WbCollectable below = collect ((WbDeliveryCharges) {
    .estimate_kind = WB_ESTIMATE_NON_BINDING, .estimate = usd (1000), .charged = usd (950) });
  WbCollectable above = collect ((WbDeliveryCharges) {
    .estimate_kind = WB_ESTIMATE_NON_BINDING, .estimate = usd (1000), .charged = usd (1300) });
  WbCollectable binding = collect ((WbDeliveryCharges) {
    .estimate_kind = WB_ESTIMATE_BINDING, .estimate = usd (1000), .charged = usd (1300) });
  WbCollectable binding_below = collect ((WbDeliveryCharges) {
    .estimate_kind = WB_ESTIMATE_BINDING, .estimate = usd (1000), .charged = usd (900) });

  g_assert_cmpint (below.maximum.minor, ==, 95000);
  g_assert_cmpint (below.billed_later.minor, ==, 0);
  g_assert_cmpint (above.maximum.minor, ==, 110000);
  g_assert_cmpint (above.billed_later.minor, ==, 20000);
  g_assert_cmpint (binding.maximum.minor, ==, 100000);
  g_assert_cmpint (binding.billed_later.minor, ==, 0);
  g_assert_cmpint (binding_below.maximum.minor, ==, 100000);
}

/* The percentage for impracticable operations is of all else that is due, valuation and
 * requested services included. */
static void
test_impracticable (void)
{
  WbCollectable out = collect ((WbDeliveryCharges) { .estimate_kind = WB_ESTIMATE_BINDING,
                                                    .estimate = usd (1000),
                                                    .requested = usd (200),
                                                    .valuation = usd (100),
                                                    .impracticable = usd (500) });

  g_assert_cmpint (out.impracticable.minor, ==, 19500);
  g_assert_cmpint (out.maximum.minor, ==, 149500);
  g_assert_cmpint (out.billed_later.minor, ==, 30500);
}

static void
test_partial_loss (void)
{
  WbDeliveryCharges charges = { .estimate_kind = WB_ESTIMATE_BINDING,
                                .estimate = usd (3000),
                                .requested = usd (90),
                                .valuation = usd (60),
                                .delivered = lb (1000),
                                .shipped = lb (3000) };
  WbCollectable out = collect (charges);

  /* Only the estimate goes by weight. */
  g_assert_cmpint (out.transport.minor, ==, 100000);
  g_assert_cmpint (out.requested.minor, ==, 9000);
  g_assert_cmpint (out.valuation.minor, ==, 6000);
  g_assert_cmpint (out.maximum.minor, ==, 115000);

  charges.shipper_caused = TRUE;
  g_assert_cmpint (collect (charges).maximum.minor, ==, 315000);
}

static void
test_total_loss (void)
{
  WbDeliveryCharges charges = { .estimate_kind = WB_ESTIMATE_NON_BINDING,
                                .estimate = usd (3000),
                                .charged = usd (4000),
                                .requested = usd (90),
                                .impracticable = usd (80),
                                .valuation = usd (60),
                                .delivered = lb (0),
                                .shipped = lb (3000) };
  WbCollectable out = collect (charges);

  g_assert_cmpint (out.maximum.minor, ==, 6000);
  g_assert_cmpint (out.billed_later.minor, ==, 0);

  charges.shipper_caused = TRUE;
  g_assert_cmpint (collect (charges).transport.minor, ==, 330000);
}

static void
test_refused (void)
{
  static const struct
  {
    WbDeliveryCharges charges;
    int               code;
  } cases[] = {
    { { .estimate = { 100, "USD" } }, WB_CORE_ERROR_MISSING },
    { { .estimate_kind = WB_ESTIMATE_BINDING }, WB_CORE_ERROR_MISSING },
    { { .estimate_kind = WB_ESTIMATE_BINDING,
        .estimate = { 100, "USD" },
        .delivered = { 1, WB_WEIGHT_UNIT_LB } },
      WB_CORE_ERROR_MISSING },
    { { .estimate_kind = WB_ESTIMATE_BINDING,
        .estimate = { 100, "USD" },
        .valuation = { 1, "EUR" } },
      WB_CORE_ERROR_CURRENCY },
    { { .estimate_kind = WB_ESTIMATE_BINDING, .estimate = { -1, "USD" } }, WB_CORE_ERROR_RANGE },
    { { .estimate_kind = WB_ESTIMATE_BINDING,
        .estimate = { 100, "USD" },
        .impracticable = { -1, "USD" } },
      WB_CORE_ERROR_RANGE },
    { { .estimate_kind = WB_ESTIMATE_BINDING,
        .estimate = { 100, "USD" },
        .delivered = { 2, WB_WEIGHT_UNIT_LB },
        .shipped = { 1, WB_WEIGHT_UNIT_LB } },
      WB_CORE_ERROR_RANGE },
    { { .estimate_kind = WB_ESTIMATE_BINDING,
        .estimate = { 100, "USD" },
        .delivered = { 0, WB_WEIGHT_UNIT_LB },
        .shipped = { 0, WB_WEIGHT_UNIT_LB } },
      WB_CORE_ERROR_RANGE },
    { { .estimate_kind = WB_ESTIMATE_NON_BINDING, .estimate = { G_MAXINT64, "USD" } },
      WB_CORE_ERROR_OVERFLOW },
    { { .estimate_kind = WB_ESTIMATE_BINDING,
        .estimate = { G_MAXINT64, "USD" },
        .requested = { 1, "USD" } },
      WB_CORE_ERROR_OVERFLOW },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      WbCollectable out = { .maximum = usd (77) };
      g_autoptr (GError) error = NULL;

      g_assert_false (wb_collect_at_delivery (&wb_collect_rules_interstate, &cases[i].charges,
                                              WB_ROUND_HALF_UP, &out, &error));
      g_assert_error (error, WB_CORE_ERROR, cases[i].code);
      g_assert_cmpint (out.maximum.minor, ==, 7700);
    }
}

/* Whatever the charges: the parts add up, the ceiling holds, and what is collected and billed is
 * no more than is due. */
static void
test_sums (void)
{
  guint32 seed = (guint32) g_test_rand_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);

  g_test_message ("seed %u", seed);
  for (guint i = 0; i < N_RANDOM; i++)
    {
      WbDeliveryCharges charges = {
        .estimate_kind = g_rand_boolean (rand) ? WB_ESTIMATE_BINDING : WB_ESTIMATE_NON_BINDING,
        .estimate = wb_money (g_rand_int_range (rand, 0, 1000000), "USD"),
        .requested = wb_money (g_rand_int_range (rand, 0, 100000), "USD"),
        .impracticable = wb_money (g_rand_int_range (rand, 0, 300000), "USD"),
        .shipped = lb (g_rand_int_range (rand, 1, 20000)),
      };
      gint64 percent = charges.estimate_kind == WB_ESTIMATE_BINDING ? 100 : 110;
      gint64 others;
      WbCollectable out;

      charges.delivered =
        lb (g_rand_int_range (rand, 1, (gint32) (charges.shipped.grains / WB_GRAINS_PER_LB) + 1));
      out = collect (charges);
      others = out.transport.minor + out.requested.minor + out.valuation.minor;

      g_assert_cmpint (out.maximum.minor, ==, others + out.impracticable.minor);
      g_assert_cmpint (out.transport.minor, <=, charges.estimate.minor * percent / 100 + 1);
      g_assert_cmpint (out.impracticable.minor * 100, <=, others * 15 + 50);
      g_assert_cmpint (out.impracticable.minor + out.billed_later.minor, ==,
                       charges.impracticable.minor);
    }
}

static void
test_late_charge (void)
{
  static const struct
  {
    gint64 bill;
    guint  extensions;
    gint64 charge;
  } cases[] = {
    { 0, 1, 2000 },      { 199999, 1, 2000 }, { 200000, 1, 2000 },
    { 200100, 1, 2001 }, { 300000, 2, 6000 }, { 300000, 0, 0 },
  };
  WbMoney charge;
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_assert_true (wb_collect_late_charge (&wb_collect_rules_interstate,
                                             wb_money (cases[i].bill, "USD"), cases[i].extensions,
                                             WB_ROUND_HALF_UP, &charge, NULL));
      g_assert_cmpint (charge.minor, ==, cases[i].charge);
    }

  g_assert_false (wb_collect_late_charge (&wb_collect_rules_interstate, wb_money (1, "EUR"), 1,
                                          WB_ROUND_HALF_UP, &charge, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_CURRENCY);
  g_clear_error (&error);
  g_assert_false (wb_collect_late_charge (&wb_collect_rules_interstate, WB_MONEY_UNSET, 1,
                                          WB_ROUND_HALF_UP, &charge, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
  g_clear_error (&error);
  g_assert_false (wb_collect_late_charge (&wb_collect_rules_interstate, usd (-1), 1,
                                          WB_ROUND_HALF_UP, &charge, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
  g_clear_error (&error);
  g_assert_false (wb_collect_late_charge (&wb_collect_rules_interstate,
                                          wb_money (G_MAXINT64, "USD"), G_MAXUINT, WB_ROUND_HALF_UP,
                                          &charge, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW);
}

static void
test_constructive (void)
{
  g_autoptr (GError) error = NULL;
  WbWeight net;

  /* a hundredth of the unit that was entered, the half up: 60 % of 0.01 lb, 85 % of 0.10 kg */
  g_assert_true (wb_net_of_crated (wb_weight (1, WB_WEIGHT_UNIT_LB), &net, NULL));
  g_assert_true (wb_weight_equal (net, wb_weight (1, WB_WEIGHT_UNIT_LB)));
  g_assert_true (wb_net_of_containers (wb_weight (20, WB_WEIGHT_UNIT_KG),
                                       wb_weight (10, WB_WEIGHT_UNIT_KG), &net, NULL));
  g_assert_true (wb_weight_equal (net, wb_weight (9, WB_WEIGHT_UNIT_KG)));

  g_assert_false (wb_net_of_containers (lb (10), lb (11), &net, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
  g_clear_error (&error);
  g_assert_false (wb_net_of_containers (lb (10), WB_WEIGHT_UNSET, &net, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
  g_clear_error (&error);
  g_assert_false (wb_net_of_crated (WB_WEIGHT_UNSET, &net, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/core/collectable/charged", test_charged);
  g_test_add_func ("/core/collectable/impracticable", test_impracticable);
  g_test_add_func ("/core/collectable/partial-loss", test_partial_loss);
  g_test_add_func ("/core/collectable/total-loss", test_total_loss);
  g_test_add_func ("/core/collectable/refused", test_refused);
  g_test_add_func ("/core/collectable/sums", test_sums);
  g_test_add_func ("/core/collectable/late-charge", test_late_charge);
  g_test_add_func ("/core/constructive", test_constructive);

  return g_test_run ();
}
