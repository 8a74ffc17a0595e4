/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact amounts of money in whole minor units, and what may be done with them. Nothing here
 * converts between currencies. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * WbMoney:
 * @minor: amount in minor units of the currency (cents for USD, whole yen for JPY)
 * @currency: ISO 4217 code, NUL terminated; empty means that no amount was given
 *
 * An exact amount of money. Zero-initialised it is "not given", which differs from an amount of 0.
 */
typedef struct
{
  gint64 minor;
  char   currency[4];
} WbMoney;

#define WB_MONEY_UNSET ((WbMoney) { 0 })

/**
 * WbRounding:
 * @WB_ROUND_HALF_UP: to the nearest, the half away from zero
 * @WB_ROUND_HALF_EVEN: to the nearest, the half to the even neighbour
 * @WB_ROUND_DOWN: toward zero
 * @WB_ROUND_UP: away from zero
 *
 * How a quotient becomes a whole number of minor units. There is no default.
 */
typedef enum
{
  WB_ROUND_HALF_UP,
  WB_ROUND_HALF_EVEN,
  WB_ROUND_DOWN,
  WB_ROUND_UP,
} WbRounding;

/** Returns: minor-unit digits of an ISO 4217 code (USD 2, JPY 0), or -1 when we do not know it. */
int      wb_currency_digits  (const char  *code);

/** Returns: an amount; @currency must be a known code. */
WbMoney  wb_money            (gint64       minor,
                              const char  *currency);
gboolean wb_money_is_set     (WbMoney      money);

/** Returns: %TRUE when both are unset, or both have the same currency and amount. */
gboolean wb_money_equal      (WbMoney      a,
                              WbMoney      b);

/**
 * wb_money_add:
 * @out: (out): the sum; untouched on failure, as in all functions here
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_CURRENCY when the currencies differ or one is
 *   unset, or %WB_CORE_ERROR_OVERFLOW
 */
gboolean wb_money_add        (WbMoney      a,
                              WbMoney      b,
                              WbMoney     *out,
                              GError     **error) G_GNUC_WARN_UNUSED_RESULT;

/** As wb_money_add(), but @a less @b. */
gboolean wb_money_subtract   (WbMoney      a,
                              WbMoney      b,
                              WbMoney     *out,
                              GError     **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_minor_scale:
 * @denominator: not 0
 * @out: (out): @minor × @numerator ÷ @denominator with one rounding, worked in 128 bits
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_OVERFLOW
 */
gboolean wb_minor_scale      (gint64       minor,
                              gint64       numerator,
                              gint64       denominator,
                              WbRounding   rounding,
                              gint64      *out,
                              GError     **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_minor_split:
 * @total: what to share out, not negative
 * @shares: (array length=n): claims on it, none negative
 * @parts: (array length=n) (out caller-allocated): the parts; they add up to @total exactly. May be
 *   @shares itself
 *
 * Shares @total out in proportion to @shares by largest remainder; equal remainders go to the lower
 * index. A share of 0 gets nothing. When all shares are 0 every part is 0 and @total must be 0.
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_RANGE
 */
gboolean wb_minor_split      (gint64        total,
                              const gint64 *shares,
                              gsize         n,
                              gint64       *parts,
                              GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_money_parse:
 * @text: "1234.56 USD", or without a code when @currency is given; "1,234.56", a leading "$" (USD
 *   only) and a code in lower case are understood too; a minus sign is allowed
 * @currency: (nullable): the code taken when the text names none; a different code in the text is
 *   an error
 * @out: (out): the amount
 *
 * More decimals than the currency has are an error, never rounded.
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_PARSE (with the offending text), _CURRENCY or
 *   _OVERFLOW
 */
gboolean wb_money_parse      (const char   *text,
                              const char   *currency,
                              WbMoney      *out,
                              GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "1234.56 USD", the same in every locale; "" when unset. */
char    *wb_money_to_text    (WbMoney       money) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the amount alone, "1234.56"; @currency must be known. */
char    *wb_minor_to_text    (gint64        minor,
                              const char   *currency) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
