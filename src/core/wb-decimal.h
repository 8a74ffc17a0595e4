/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Decimal numbers as people and files write them, to and from scaled integers. Signs, units and
 * currencies are the callers' affair. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * WbDecimal:
 * @start: first byte of the number, inside the caller's text
 * @length: bytes: digits, grouping commas and one point
 * @decimals: digits after the point
 *
 * An unsigned number found in a text. It borrows the text.
 */
typedef struct
{
  const char *start;
  gsize       length;
  gsize       decimals;
} WbDecimal;

/**
 * wb_decimal_scan:
 * @text: the whole text, for messages and positions
 * @at: where in @text the number must start
 * @out: (out): the number
 *
 * Finds a number: "1234", "1,234.56", "0.5", ".5". Commas may only stand before groups of three
 * digits, so that "1,5" is an error and not 15; a point needs digits after it.
 *
 * Returns: (nullable): the first byte after the number, or %NULL with %WB_CORE_ERROR_PARSE
 */
const char *wb_decimal_scan    (const char       *text,
                                const char       *at,
                                WbDecimal        *out,
                                GError          **error);

/**
 * wb_decimal_scale:
 * @text: the whole text, for messages
 * @negative: whether a minus sign stood before the number
 * @digits: how many digits after the point the result counts
 * @out: (out): the number × 10^digits
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_PARSE when the number has more decimals than
 *   @digits, or %WB_CORE_ERROR_OVERFLOW
 */
gboolean    wb_decimal_scale   (const WbDecimal  *self,
                                const char       *text,
                                gboolean          negative,
                                guint             digits,
                                gint64           *out,
                                GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): @value ÷ 10^digits with exactly @digits decimals, "-1234.56". */
char       *wb_decimal_to_text (gint64            value,
                                guint             digits) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
