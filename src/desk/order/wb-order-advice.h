/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What does not fit together in an order. Advice only: nothing is refused. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/** Returns: (transfer none) (nullable): what is odd about one field of an order next to the
 * others. */
const char *wb_order_advice      (const WbOrder *order,
                                  const char    *field);

G_END_DECLS
