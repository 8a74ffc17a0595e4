/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What does not fit together in an order, and what is still missing before the truck leaves. Advice
 * only: nothing is refused. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/** Returns: (transfer none) (nullable): what is odd about one field of an order next to the
 * others. */
const char *wb_order_advice      (const WbOrder *order,
                                  const char    *field);

/**
 * WbOrderGap:
 * @page: the page on which it is filled in: "order", "inventory" or "valuation"
 * @field: on the order page, "order.pickup_from" or a kind of record such as "stop"; else %NULL
 * @words: what is missing, translated
 */
typedef struct
{
  const char *page;
  const char *field;
  const char *words;
} WbOrderGap;

/** Returns: (transfer full) (element-type WbOrderGap): what papers and crew need and the job lacks;
 * empty once it is on the road. */
GArray     *wb_order_gaps        (const WbJob   *job) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
