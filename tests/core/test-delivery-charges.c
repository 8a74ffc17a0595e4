/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-core.h"
#include "core/wb-delivery-charges.h"
#include "job-fixture.h"

#define PER_CUFT wb_weight (700, WB_WEIGHT_UNIT_LB)

static void
assert_money (WbMoney     money,
              const char *expected)
{
  g_autofree char *text = wb_money_to_text (money);

  g_assert_cmpstr (text, ==, expected);
}

/* Everything that the order says, and the sum that comes of it: 110 % of 4,000 for half of the
 * weight, 375.407(c), and a valuation charge of 120, 375.707(a)(1)(iv). */
static void
test_partial (void)
{
  g_autoptr (WbJob) job = job_fixture_new ();
  g_autoptr (GError) error = NULL;
  WbDeliveryCharges charges;
  WbCollectable sum;
  WbWeightSource source;

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "move_type", "interstate", "estimate_kind",
                   "non-binding", "estimate", "4000", "freight_charge", "4300", "other_charge",
                   "500", "delivered_weight", "2500 lb", NULL);
  job_fixture_put (&job, WB_KIND_VALUATION, NULL, "charge", "120", NULL);
  job_fixture_put (&job, WB_KIND_WEIGHING, "w", "kind", "weighing", "net", "5000 lb", NULL);

  g_assert_cmpuint (wb_delivery_charges (job, PER_CUFT, &charges, &source), ==,
                    WB_CHARGE_GAP_NONE);
  g_assert_cmpint (source, ==, WB_WEIGHT_SOURCE_WEIGHING);
  assert_money (charges.charged, "4800.00 USD");
  g_assert_true (wb_collect_at_delivery (&wb_collect_rules_interstate, &charges, WB_ROUND_HALF_UP,
                                         &sum, &error));
  g_assert_no_error (error);
  assert_money (sum.transport, "2200.00 USD");
  assert_money (sum.maximum, "2320.00 USD");
  assert_money (sum.billed_later, "200.00 USD");
}

/* The whole is not weighed: 700 lb from 100 cubic feet; then nothing at all is known of it. */
static void
test_constructive (void)
{
  g_autoptr (WbJob) job = job_fixture_new ();
  WbDeliveryCharges charges;
  WbWeightSource source;

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "move_type", "interstate", "estimate_kind", "binding",
                   "estimate", "1000", "delivered_weight", "350 lb", "volume", "100 cuft", NULL);
  g_assert_cmpuint (wb_delivery_charges (job, PER_CUFT, &charges, &source), ==,
                    WB_CHARGE_GAP_NONE);
  g_assert_cmpint (source, ==, WB_WEIGHT_SOURCE_VOLUME);
  g_assert_cmpint (charges.shipped.grains, ==, 700 * WB_GRAINS_PER_LB);

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "volume", "", NULL);
  g_assert_cmpuint (wb_delivery_charges (job, PER_CUFT, &charges, &source), ==,
                    WB_CHARGE_GAP_SHIPPED);
}

static void
test_gaps (void)
{
  g_autoptr (WbJob) job = job_fixture_new ();
  WbDeliveryCharges charges;
  WbWeightSource source;

  g_assert_cmpuint (wb_delivery_charges (job, PER_CUFT, &charges, &source), ==,
                    WB_CHARGE_GAP_NOT_FEDERAL | WB_CHARGE_GAP_ESTIMATE_KIND
                      | WB_CHARGE_GAP_ESTIMATE);
  g_assert_false (wb_weight_is_set (charges.delivered));

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "move_type", "interstate", "estimate_kind",
                   "non-binding", "estimate", "1000", NULL);
  g_assert_cmpuint (wb_delivery_charges (job, PER_CUFT, &charges, &source), ==,
                    WB_CHARGE_GAP_CHARGED);

  /* One charge alone is all that was charged. */
  job_fixture_put (&job, WB_KIND_ORDER, NULL, "other_charge", "40", NULL);
  g_assert_cmpuint (wb_delivery_charges (job, PER_CUFT, &charges, &source), ==,
                    WB_CHARGE_GAP_NONE);
  assert_money (charges.charged, "40.00 USD");
}

/* More delivered than shipped is refused with a sentence, not made into more than the whole. */
static void
test_too_much (void)
{
  g_autoptr (WbJob) job = job_fixture_new ();
  g_autoptr (GError) error = NULL;
  WbDeliveryCharges charges;
  WbCollectable sum;
  WbWeightSource source;

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "move_type", "interstate", "estimate_kind", "binding",
                   "estimate", "1000", "delivered_weight", "5001 lb", NULL);
  job_fixture_put (&job, WB_KIND_WEIGHING, "w", "kind", "reweigh", "net", "5000 lb", NULL);
  wb_delivery_charges (job, PER_CUFT, &charges, &source);
  g_assert_false (wb_collect_at_delivery (&wb_collect_rules_interstate, &charges, WB_ROUND_HALF_UP,
                                          &sum, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/delivery-charges/partial", test_partial);
  g_test_add_func ("/core/delivery-charges/constructive", test_constructive);
  g_test_add_func ("/core/delivery-charges/gaps", test_gaps);
  g_test_add_func ("/core/delivery-charges/too-much", test_too_much);
  return g_test_run ();
}
