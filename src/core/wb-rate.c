/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Money per unit of weight or volume, and what it comes to for a quantity. */
#include "config.h"

#include "core/wb-rate.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-quantity.h"
#include "core/wb-text.h"
#include "core/wb-wide.h"

static const WbQuantityUnit units[] = {
  { .unit = WB_RATE_UNIT_LB, WB_QUANTITY_LB },
  { .unit = WB_RATE_UNIT_KG, WB_QUANTITY_KG },
  { .unit = WB_RATE_UNIT_CWT, WB_QUANTITY_CWT },
  { .unit = WB_RATE_UNIT_CUFT, WB_QUANTITY_CUFT },
  { .unit = WB_RATE_UNIT_M3, WB_QUANTITY_M3 },
};

static const WbQuantityKind kind = {
  "rate", "lb, kg, cwt, cuft or m3", units, G_N_ELEMENTS (units),
};

gboolean
wb_rate_is_set (WbRate rate)
{
  return rate.unit != WB_RATE_UNIT_NONE;
}

gboolean
wb_rate_is_by_volume (WbRate rate)
{
  switch (rate.unit)
    {
    case WB_RATE_UNIT_NONE:
    case WB_RATE_UNIT_LB:
    case WB_RATE_UNIT_KG:
    case WB_RATE_UNIT_CWT:
      return FALSE;
    case WB_RATE_UNIT_CUFT:
    case WB_RATE_UNIT_M3:
      return TRUE;
    }

  g_return_val_if_reached (FALSE);
}

static gboolean
check_applies (WbRate     rate,
               WbWeight   weight,
               WbVolume   volume,
               GError   **error)
{
  const char *missing = NULL;

  if (!wb_rate_is_set (rate) || !wb_money_is_set (rate.per))
    missing = "There is no rate to apply";
  else if (wb_rate_is_by_volume (rate) && !wb_volume_is_set (volume))
    missing = "The rate is by volume, and no volume was given";
  else if (!wb_rate_is_by_volume (rate) && !wb_weight_is_set (weight))
    missing = "The rate is by weight, and no weight was given";

  if (missing == NULL)
    return TRUE;

  g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING, missing);
  return FALSE;
}

gboolean
wb_rate_apply (WbRate       rate,
               WbWeight     weight,
               WbVolume     volume,
               WbRounding   rounding,
               WbMoney     *out,
               GError     **error)
{
  const WbQuantityUnit *row;
  gint64 quantity, minor;

  g_return_val_if_fail (out != NULL, FALSE);

  if (!check_applies (rate, weight, volume, error))
    return FALSE;

  row = wb_quantity_find (&kind, (int) rate.unit);
  g_return_val_if_fail (row != NULL, FALSE);

  quantity = wb_rate_is_by_volume (rate) ? volume.bits : weight.grains;
  if (!wb_wide_to_int64 (wb_wide_divide ((WbWide) rate.per.minor * quantity,
                                         (WbWide) row->hundredth * 100, rounding),
                         "amount of money", &minor, error))
    return FALSE;

  *out = rate.per;
  out->minor = minor;
  return TRUE;
}

/* Returns where "per" or "/" stands between the amount and the unit, and how long it is. */
static const char *
find_per (const char *text,
          gsize      *length)
{
  for (const char *p = text; *p != '\0'; p++)
    {
      if (*p == '/')
        {
          *length = 1;
          return p;
        }
      if (g_ascii_strncasecmp (p, "per", 3) == 0
          && (p == text || !g_ascii_isalpha (p[-1])) && !g_ascii_isalpha (p[3]))
        {
          *length = 3;
          return p;
        }
    }

  return NULL;
}

gboolean
wb_rate_parse (const char  *text,
               const char  *currency,
               WbRate      *out,
               GError     **error)
{
  g_autofree char *quoted = NULL;
  g_autofree char *amount = NULL;
  const WbQuantityUnit *row;
  const char *per;
  gsize per_length = 0;
  WbMoney money;

  g_return_val_if_fail (text != NULL, FALSE);
  g_return_val_if_fail (out != NULL, FALSE);

  quoted = wb_text_quote (text, -1);
  per = find_per (text, &per_length);
  row = per != NULL ? wb_quantity_find_name (&kind, per + per_length) : NULL;
  if (row == NULL)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
                   "%s is not a rate; write an amount, “per” and one of %s", quoted, kind.advice);
      return FALSE;
    }

  amount = g_strchomp (g_strndup (text, (gsize) (per - text)));
  if (!wb_money_parse (amount, currency, &money, error))
    return FALSE;

  if (money.minor < 0)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                   "%s is negative, which no rate can be", quoted);
      return FALSE;
    }

  *out = (WbRate) { money, (WbRateUnit) row->unit };
  return TRUE;
}

char *
wb_rate_to_text (WbRate rate)
{
  const WbQuantityUnit *row;
  g_autofree char *amount = NULL;

  if (!wb_rate_is_set (rate))
    return g_strdup ("");

  row = wb_quantity_find (&kind, (int) rate.unit);
  g_return_val_if_fail (row != NULL, NULL);

  amount = wb_money_to_text (rate.per);
  return g_strconcat (amount, " per ", row->name, NULL);
}
