/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 128-bit division with a named rounding. It knows no units; callers say what they divide. */
#include "config.h"

#include "core/wb-wide.h"

#include "core/wb-core.h"

/* Whether a quotient moves away from zero for what the division left over (0 < left < divisor). */
static gboolean
rounds_away (WbWide     quotient,
             WbWide     left,
             WbWide     divisor,
             WbRounding rounding)
{
  /* left × 2 might not fit, this always does. */
  WbWide missing = divisor - left;

  switch (rounding)
    {
    case WB_ROUND_HALF_UP:
      return left >= missing;
    case WB_ROUND_HALF_EVEN:
      return left > missing || (left == missing && quotient % 2 != 0);
    case WB_ROUND_DOWN:
      return FALSE;
    case WB_ROUND_UP:
      return TRUE;
    }

  g_return_val_if_reached (FALSE);
}

WbWide
wb_wide_divide (WbWide     dividend,
                WbWide     divisor,
                WbRounding rounding)
{
  gboolean negative;
  WbWide quotient, left;

  g_return_val_if_fail (divisor != 0, 0);

  negative = (dividend < 0) != (divisor < 0);
  quotient = dividend / divisor;
  left = dividend % divisor;

  if (left < 0)
    left = -left;
  if (divisor < 0)
    divisor = -divisor;

  if (left != 0 && rounds_away (quotient, left, divisor, rounding))
    quotient += negative ? -1 : 1;

  return quotient;
}

gboolean
wb_wide_to_int64 (WbWide       value,
                  const char  *what,
                  gint64      *out,
                  GError     **error)
{
  g_return_val_if_fail (out != NULL, FALSE);

  if (value < G_MININT64 || value > G_MAXINT64)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW,
                   "The %s is too large to be worked with", what);
      return FALSE;
    }

  *out = (gint64) value;
  return TRUE;
}
