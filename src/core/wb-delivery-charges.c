/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gathers from an order what may be asked for at delivery goes by. The sum is worked out in
 * wb-collectable.c. */
#include "config.h"

#include "core/wb-delivery-charges.h"

/* Both charges together; one alone stands for both. */
static WbMoney
sum_charged (const WbOrder *order)
{
  WbMoney sum = WB_MONEY_UNSET;

  if (!wb_money_is_set (order->freight_charge))
    return order->other_charge;
  if (!wb_money_is_set (order->other_charge))
    return order->freight_charge;

  return wb_money_add (order->freight_charge, order->other_charge, &sum, NULL) ? sum
                                                                               : WB_MONEY_UNSET;
}

guint
wb_delivery_charges (const WbJob       *job,
                     WbWeight           per_cuft,
                     WbDeliveryCharges *out,
                     WbWeightSource    *source)
{
  const WbOrder *order;
  WbWeight shipped;
  guint gaps = WB_CHARGE_GAP_NONE;

  g_return_val_if_fail (job != NULL && out != NULL && source != NULL, WB_CHARGE_GAP_NONE);

  order = wb_job_order (job);
  *out = (WbDeliveryCharges) {
    .estimate_kind = order->estimate_kind,
    .estimate = order->estimate,
    .charged = sum_charged (order),
    .requested = order->requested_charge,
    .impracticable = order->impracticable_charge,
    .valuation = wb_job_valuation (job)->charge,
  };
  *source = wb_job_shipment_weight (job, FALSE, per_cuft, &shipped);
  if (wb_weight_is_set (order->delivered_weight))
    {
      out->delivered = order->delivered_weight;
      out->shipped = shipped;
      if (*source == WB_WEIGHT_SOURCE_NONE)
        gaps |= WB_CHARGE_GAP_SHIPPED;
    }

  if (order->move_type != WB_MOVE_INTERSTATE)
    gaps |= WB_CHARGE_GAP_NOT_FEDERAL;
  if (order->estimate_kind == WB_ESTIMATE_NONE)
    gaps |= WB_CHARGE_GAP_ESTIMATE_KIND;
  if (!wb_money_is_set (order->estimate))
    gaps |= WB_CHARGE_GAP_ESTIMATE;
  if (order->estimate_kind == WB_ESTIMATE_NON_BINDING && !wb_money_is_set (out->charged))
    gaps |= WB_CHARGE_GAP_CHARGED;
  return gaps;
}
