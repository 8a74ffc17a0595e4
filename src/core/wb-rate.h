/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Money per unit of weight or volume: "0.60 USD per lb", and what it comes to. */
#pragma once

#include "core/wb-money.h"
#include "core/wb-volume.h"
#include "core/wb-weight.h"

G_BEGIN_DECLS

/**
 * WbRateUnit:
 *
 * What one amount of a rate buys: a pound, a kilogram, a hundredweight (100 lb), a cubic foot, a
 * cubic metre.
 */
typedef enum
{
  WB_RATE_UNIT_NONE,
  WB_RATE_UNIT_LB,
  WB_RATE_UNIT_KG,
  WB_RATE_UNIT_CWT,
  WB_RATE_UNIT_CUFT,
  WB_RATE_UNIT_M3,
} WbRateUnit;

/**
 * WbRate:
 * @per: money for one unit; set when @unit is
 * @unit: %WB_RATE_UNIT_NONE means that there is no rate
 */
typedef struct
{
  WbMoney    per;
  WbRateUnit unit;
} WbRate;

gboolean wb_rate_is_set       (WbRate        rate);

/** Whether the rate is by volume, so that wb_rate_apply() wants a volume. */
gboolean wb_rate_is_by_volume (WbRate        rate);

/**
 * wb_rate_apply:
 * @weight: used when the rate is by weight; must be set then
 * @volume: used when the rate is by volume; must be set then
 * @out: (out): rate × quantity, rounded once; untouched on failure
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_MISSING or %WB_CORE_ERROR_OVERFLOW
 */
gboolean wb_rate_apply        (WbRate        rate,
                               WbWeight      weight,
                               WbVolume      volume,
                               WbRounding    rounding,
                               WbMoney      *out,
                               GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_rate_parse:
 * @text: an amount as of wb_money_parse(), "per" or "/", and a unit: "0.60 per lb",
 *   "620.00 USD per m3", "$0.60/lb"; not negative
 * @currency: (nullable): the code taken when the text names none; a different one in the text is an
 *   error
 * @out: (out): the rate; untouched on failure
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_PARSE, _RANGE, _CURRENCY or _OVERFLOW
 */
gboolean wb_rate_parse        (const char   *text,
                               const char   *currency,
                               WbRate       *out,
                               GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "0.60 USD per lb"; "" when unset. */
char    *wb_rate_to_text      (WbRate        rate) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
