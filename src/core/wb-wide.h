/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Products of two 64-bit numbers, and their one rounded division back to 64 bits. Everything in
 * this room that multiplies before it divides goes through here. */
#pragma once

#include "core/wb-money.h"

G_BEGIN_DECLS

/** WbWide: holds the product of any two gint64. */
__extension__ typedef __int128 WbWide;

/**
 * wb_wide_divide:
 * @divisor: not 0
 *
 * Returns: @dividend ÷ @divisor as a whole number, rounded once
 */
WbWide   wb_wide_divide   (WbWide      dividend,
                           WbWide      divisor,
                           WbRounding  rounding);

/**
 * wb_wide_to_int64:
 * @what: what the value is, for the message ("amount of money")
 * @out: (out): the value; untouched on failure
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_OVERFLOW
 */
gboolean wb_wide_to_int64 (WbWide      value,
                           const char *what,
                           gint64     *out,
                           GError    **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
