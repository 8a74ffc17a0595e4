/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What may be collected at delivery, and the charge on a late bill. Liability for the goods is
 * no part of this. */
#include "config.h"

#include "core/wb-collectable.h"

#include "core/wb-core.h"

const WbCollectRules wb_collect_rules_interstate = {
  .binding_percent = 100,
  .non_binding_percent = 110,
  .impracticable_percent = 15,
  .late_percent = 1,
  .late_minimum = 2000,
  .currency = "USD",
};

/* @delivered ÷ @shipped as whole numbers; 1 ÷ 1 when nothing is reduced. */
typedef struct
{
  gint64 delivered;
  gint64 shipped;
} Share;

/* --- input ------------------------------------------------------------------------------------ */

static gboolean
check_amount (WbMoney      money,
              const char  *currency,
              const char  *name,
              GError     **error)
{
  if (!wb_money_is_set (money))
    return TRUE;
  if (!g_str_equal (money.currency, currency))
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_CURRENCY,
                   "The %s is in %s, the estimate in %s", name, money.currency, currency);
      return FALSE;
    }
  if (money.minor < 0)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE, "The %s is negative", name);
      return FALSE;
    }
  return TRUE;
}

static gboolean
check_charges (const WbDeliveryCharges *charges,
               GError                 **error)
{
  const char *currency = charges->estimate.currency;

  if (charges->estimate_kind == WB_ESTIMATE_NONE || !wb_money_is_set (charges->estimate))
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                   "What may be collected goes by the estimate and its kind, and one of them is "
                   "not given");
      return FALSE;
    }
  return check_amount (charges->estimate, currency, "estimate", error)
         && check_amount (charges->charged, currency, "amount charged", error)
         && check_amount (charges->requested, currency, "amount for requested services", error)
         && check_amount (charges->impracticable, currency, "amount for impracticable operations",
                          error)
         && check_amount (charges->valuation, currency, "valuation charge", error);
}

static gboolean
find_share (const WbDeliveryCharges *charges,
            Share                   *share,
            GError                 **error)
{
  gboolean has_delivered = wb_weight_is_set (charges->delivered);

  *share = (Share) { 1, 1 };
  if (has_delivered != wb_weight_is_set (charges->shipped))
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                   "A share goes by the weight delivered and the weight shipped, and only one of "
                   "them is given");
      return FALSE;
    }
  if (!has_delivered)
    return TRUE;
  if (charges->shipped.grains <= 0 || charges->delivered.grains < 0
      || charges->delivered.grains > charges->shipped.grains)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                   "The weight delivered is not between nothing and the weight shipped");
      return FALSE;
    }
  if (!charges->shipper_caused)
    *share = (Share) { charges->delivered.grains, charges->shipped.grains };
  return TRUE;
}

/* --- amounts ---------------------------------------------------------------------------------- */

static gint64
percent_of_estimate (const WbCollectRules *rules,
                     WbEstimateKind        kind)
{
  switch (kind)
    {
    case WB_ESTIMATE_NONE:
      return 0;
    case WB_ESTIMATE_BINDING:
      return rules->binding_percent;
    case WB_ESTIMATE_NON_BINDING:
      return rules->non_binding_percent;
    }
  g_return_val_if_reached (0);
}

/* The estimate's share, and what of the known charges goes beyond it. */
static gboolean
collect_transport (const WbCollectRules    *rules,
                   const WbDeliveryCharges *charges,
                   Share                    share,
                   WbRounding               rounding,
                   gint64                  *collected,
                   gint64                  *later,
                   GError                 **error)
{
  gint64 percent = percent_of_estimate (rules, charges->estimate_kind);
  gint64 most;
  gint64 earned;

  if (!wb_minor_scale (charges->estimate.minor, percent, 100, rounding, &most, error)
      || !wb_minor_scale (most, share.delivered, share.shipped, rounding, collected, error))
    return FALSE;

  /* A binding estimate is the price, whatever the charges would have come to. */
  *later = 0;
  if (!wb_money_is_set (charges->charged) || charges->estimate_kind == WB_ESTIMATE_BINDING)
    return TRUE;
  if (!wb_minor_scale (charges->charged.minor, share.delivered, share.shipped, rounding, &earned,
                       error))
    return FALSE;
  if (earned < *collected)
    *collected = earned;
  *later = earned - *collected;
  return TRUE;
}

static gboolean
add (WbMoney  *sum,
     WbMoney   term,
     GError  **error)
{
  return wb_money_add (*sum, term, sum, error);
}

gboolean
wb_collect_at_delivery (const WbCollectRules    *rules,
                        const WbDeliveryCharges *charges,
                        WbRounding               rounding,
                        WbCollectable           *out,
                        GError                 **error)
{
  const char *currency;
  WbCollectable result;
  Share share;
  gint64 transport;
  gint64 later;
  gint64 most;
  gint64 impracticable;

  g_return_val_if_fail (rules != NULL && charges != NULL && out != NULL, FALSE);

  if (!check_charges (charges, error) || !find_share (charges, &share, error)
      || !collect_transport (rules, charges, share, rounding, &transport, &later, error))
    return FALSE;

  /* Amounts that are not given are zero from here on; of a total loss only the valuation charge
   * is left: 375.709. */
  currency = charges->estimate.currency;
  result.transport = wb_money (transport, currency);
  result.requested = wb_money (share.delivered > 0 ? charges->requested.minor : 0, currency);
  result.valuation = wb_money (charges->valuation.minor, currency);
  result.billed_later = wb_money (later, currency);
  impracticable = share.delivered > 0 ? charges->impracticable.minor : 0;

  result.maximum = result.transport;
  if (!add (&result.maximum, result.requested, error)
      || !add (&result.maximum, result.valuation, error)
      || !wb_minor_scale (result.maximum.minor, rules->impracticable_percent, 100, rounding, &most,
                          error))
    return FALSE;
  result.impracticable = wb_money (MIN (impracticable, most), currency);
  if (!add (&result.maximum, result.impracticable, error)
      || !add (&result.billed_later,
               wb_money (impracticable - result.impracticable.minor, currency), error))
    return FALSE;

  *out = result;
  return TRUE;
}

gboolean
wb_collect_late_charge (const WbCollectRules *rules,
                        WbMoney               bill,
                        guint                 extensions,
                        WbRounding            rounding,
                        WbMoney              *out,
                        GError              **error)
{
  gint64 charge;

  g_return_val_if_fail (rules != NULL && out != NULL, FALSE);

  if (!wb_money_is_set (bill))
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING, "There is no bill to charge on");
      return FALSE;
    }
  if (!g_str_equal (bill.currency, rules->currency))
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_CURRENCY,
                   "The bill is in %s, the least charge in %s", bill.currency, rules->currency);
      return FALSE;
    }
  if (bill.minor < 0)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE, "The bill is negative");
      return FALSE;
    }
  if (!wb_minor_scale (bill.minor, rules->late_percent, 100, rounding, &charge, error)
      || !wb_minor_scale (MAX (charge, rules->late_minimum), extensions, 1, rounding, &charge,
                          error))
    return FALSE;

  *out = wb_money (charge, bill.currency);
  return TRUE;
}
