/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What does not fit together in an order. Advice only: nothing is refused. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/** Returns: (transfer none) (nullable): what is odd about one field of an order next to the
 * others. */
const char *wb_order_advice      (const WbOrder *order,
                                  const char    *field);

/** Returns: (transfer full) (nullable): what is odd about the weight delivered next to that of the
 * shipment. @per_cuft: the terms' constructive weight, or unset. */
char       *wb_order_delivered_advice (const WbJob   *job,
                                       WbWeight       per_cuft) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer none) (nullable): what speaks against the insurance that was sold. */
const char *wb_order_insurance_advice (const WbJob   *job);

G_END_DECLS
