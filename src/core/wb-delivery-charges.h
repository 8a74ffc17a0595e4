/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-collectable.h"
#include "core/wb-job.h"

G_BEGIN_DECLS

/* From the order of a job to what wb_collect_at_delivery() asks for. */

/** What keeps a part of the sum from being known (flags). */
typedef enum
{
  WB_CHARGE_GAP_NONE          = 0,
  WB_CHARGE_GAP_NOT_FEDERAL   = 1 << 0,  /* the move is not one between states */
  WB_CHARGE_GAP_ESTIMATE_KIND = 1 << 1,
  WB_CHARGE_GAP_ESTIMATE      = 1 << 2,
  WB_CHARGE_GAP_CHARGED       = 1 << 3,  /* non-binding, and the charges are not rated yet */
  WB_CHARGE_GAP_SHIPPED       = 1 << 4,  /* a part was delivered, and the whole was not weighed */
} WbChargeGap;

/**
 * wb_delivery_charges:
 * @per_cuft: constructive weight per cubic foot for a shipment that was not weighed, or unset
 * @out: (out): what the order says; the weights are both unset when no delivered weight is noted
 * @source: (out): where the weight of the whole shipment comes from
 *
 * The charges are the transportation and the other charges together; one that is not noted counts
 * as nothing when the other is.
 *
 * Returns: WbChargeGap flags. With %WB_CHARGE_GAP_ESTIMATE_KIND, _ESTIMATE or _SHIPPED
 * wb_collect_at_delivery() will refuse @out; the others are only to be told. A sum that overflows
 * leaves the charges unset.
 */
guint wb_delivery_charges (const WbJob       *job,
                           WbWeight           per_cuft,
                           WbDeliveryCharges *out,
                           WbWeightSource    *source);

G_END_DECLS
