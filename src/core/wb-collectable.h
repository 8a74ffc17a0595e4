/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-entities.h"

G_BEGIN_DECLS

/* What a carrier may ask for before it hands over the goods, and what it adds to a bill that is
 * not paid. Pure. The figures stand in a table of rules; the one for household goods between
 * states is 49 CFR Part 375, Subparts D, G and H. */

/**
 * WbCollectRules:
 * @binding_percent: of a binding estimate, at delivery: 375.403(a)(9), 375.703(a)
 * @non_binding_percent: of a non-binding one: 375.405(b)(8) and (10), 375.407(a), 375.703(b)
 * @impracticable_percent: most for impracticable operations, of all other charges due at delivery:
 *   375.703
 * @late_percent: service charge on a bill for each extension of the credit: 375.807(c)(2)
 * @late_minimum: the least such charge, minor units of @currency
 * @currency: of @late_minimum; ISO 4217
 */
typedef struct
{
  gint64 binding_percent;
  gint64 non_binding_percent;
  gint64 impracticable_percent;
  gint64 late_percent;
  gint64 late_minimum;
  char   currency[4];
} WbCollectRules;

/** 49 CFR Part 375, read in the annual edition of 2015; 375.703 also as of 2026. */
extern const WbCollectRules wb_collect_rules_interstate;

/**
 * WbDeliveryCharges:
 * @estimate_kind: binding or non-binding
 * @charged: (unset for "not known"): transportation and other charges as rated, without the ones
 *   below; under a non-binding estimate no more than these is collected, and what goes beyond its
 *   percentage is billed later
 * @requested: (unset for none): services that the shipper asked for after the bill of lading was
 *   issued
 * @impracticable: (unset for none): operations that turned out to be impracticable
 * @valuation: (unset for none): a specific valuation charge that is due
 * @delivered: weight of what is delivered; actual or constructive: 375.707(b)
 * @shipped: weight of the whole shipment; both weights are unset when nothing was lost
 * @shipper_caused: the loss was the shipper's own act or omission, so that nothing is reduced:
 *   375.707(c), 375.709
 */
typedef struct
{
  WbEstimateKind estimate_kind;
  WbMoney        estimate;
  WbMoney        charged;
  WbMoney        requested;
  WbMoney        impracticable;
  WbMoney        valuation;
  WbWeight       delivered;
  WbWeight       shipped;
  gboolean       shipper_caused;
} WbDeliveryCharges;

/** WbCollectable: every amount is set. @maximum is the sum of the four above it. */
typedef struct
{
  WbMoney transport;       /* share of the estimate, up to its percentage */
  WbMoney requested;
  WbMoney valuation;
  WbMoney impracticable;
  WbMoney maximum;         /* no more may be asked for at delivery */
  WbMoney billed_later;    /* known charges that are billed afterwards: 375.703, 375.707(a)(2) */
} WbCollectable;

/**
 * wb_collect_at_delivery:
 * @out: (out): what may be collected, and what is billed later
 *
 * Everything delivered: the estimate's percentage, the requested services, the valuation charge
 * and, up to their percentage of these, impracticable operations (375.703). A part lost: the
 * estimate's amount in proportion to the weight delivered, the rest the same (375.707(a)(1)).
 * Everything lost, @delivered being 0: the valuation charge and nothing else (375.709); what was
 * charged otherwise is not billed later either.
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_MISSING (no estimate, its kind, or one of two
 * weights), %WB_CORE_ERROR_CURRENCY, %WB_CORE_ERROR_RANGE (a negative amount or weight, more
 * delivered than shipped, nothing shipped) or %WB_CORE_ERROR_OVERFLOW. @out is untouched then.
 */
gboolean wb_collect_at_delivery (const WbCollectRules    *rules,
                                 const WbDeliveryCharges *charges,
                                 WbRounding               rounding,
                                 WbCollectable           *out,
                                 GError                 **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_collect_late_charge:
 * @bill: the freight bill
 * @extensions: how often the credit was extended by 30 days
 *
 * The service charge on a late bill: for each extension the percentage of @bill, not under the
 * minimum. As for errors, see wb_collect_at_delivery(). Returns: %TRUE on success.
 */
gboolean wb_collect_late_charge (const WbCollectRules    *rules,
                                 WbMoney                  bill,
                                 guint                    extensions,
                                 WbRounding               rounding,
                                 WbMoney                 *out,
                                 GError                 **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
