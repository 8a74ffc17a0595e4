/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact weights in pounds and kilograms. Sums of both stay exact; rounding happens only where a
 * weight is written as text or made from a volume. */
#include "config.h"

#include "core/wb-weight.h"

#include "core/wb-core.h"
#include "core/wb-quantity.h"
#include "core/wb-wide.h"

static const WbQuantityUnit units[] = {
  { .unit = WB_WEIGHT_UNIT_LB, WB_QUANTITY_LB },
  { .unit = WB_WEIGHT_UNIT_KG, WB_QUANTITY_KG },
};

static const WbQuantityKind kind = { "weight", "lb or kg", units, G_N_ELEMENTS (units) };

WbWeight
wb_weight (gint64       hundredths,
           WbWeightUnit unit)
{
  const WbQuantityUnit *row = wb_quantity_find (&kind, (int) unit);
  WbWeight weight = { 0, unit };
  gboolean overflows;

  g_return_val_if_fail (row != NULL, WB_WEIGHT_UNSET);

  overflows = __builtin_mul_overflow (hundredths, row->hundredth, &weight.grains);
  g_return_val_if_fail (!overflows, WB_WEIGHT_UNSET);

  return weight;
}

gboolean
wb_weight_is_set (WbWeight weight)
{
  return weight.unit != WB_WEIGHT_UNIT_NONE;
}

gboolean
wb_weight_is_positive (WbWeight weight)
{
  return wb_weight_is_set (weight) && weight.grains > 0;
}

gboolean
wb_weight_equal (WbWeight a,
                 WbWeight b)
{
  if (!wb_weight_is_set (a) || !wb_weight_is_set (b))
    return wb_weight_is_set (a) == wb_weight_is_set (b);

  return a.grains == b.grains && a.unit == b.unit;
}

static gboolean
check_both_set (WbWeight   a,
                WbWeight   b,
                GError   **error)
{
  if (wb_weight_is_set (a) && wb_weight_is_set (b))
    return TRUE;

  g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                       "A weight that was not given cannot be reckoned with");
  return FALSE;
}

static gboolean
take_sum (WbWide         grains,
          WbWeightUnit   unit,
          WbWeight      *out,
          GError       **error)
{
  WbWeight sum = { 0, unit };

  if (!wb_wide_to_int64 (grains, "weight", &sum.grains, error))
    return FALSE;

  *out = sum;
  return TRUE;
}

gboolean
wb_weight_add (WbWeight   a,
               WbWeight   b,
               WbWeight  *out,
               GError   **error)
{
  g_return_val_if_fail (out != NULL, FALSE);

  return check_both_set (a, b, error)
         && take_sum ((WbWide) a.grains + b.grains, a.unit, out, error);
}

gboolean
wb_weight_subtract (WbWeight   a,
                    WbWeight   b,
                    WbWeight  *out,
                    GError   **error)
{
  g_return_val_if_fail (out != NULL, FALSE);

  return check_both_set (a, b, error)
         && take_sum ((WbWide) a.grains - b.grains, a.unit, out, error);
}

gboolean
wb_weight_parse (const char    *text,
                 WbWeightUnit   unit,
                 WbWeight      *out,
                 GError       **error)
{
  gint64 grains;
  int found;

  g_return_val_if_fail (text != NULL, FALSE);
  g_return_val_if_fail (out != NULL, FALSE);

  if (!wb_quantity_parse (&kind, text, (int) unit, &grains, &found, error))
    return FALSE;

  *out = (WbWeight) { grains, (WbWeightUnit) found };
  return TRUE;
}

char *
wb_weight_to_text (WbWeight weight)
{
  if (!wb_weight_is_set (weight))
    return g_strdup ("");

  return wb_quantity_to_text (&kind, weight.grains, (int) weight.unit);
}

gboolean
wb_weight_from_volume (WbVolume   volume,
                       WbWeight   per_cuft,
                       WbWeight  *out,
                       GError   **error)
{
  const WbQuantityUnit *row;
  WbWide hundredths;

  g_return_val_if_fail (out != NULL, FALSE);

  if (!wb_volume_is_set (volume) || !wb_weight_is_set (per_cuft))
    {
      g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                           "A constructive weight needs a volume and a weight per cubic foot");
      return FALSE;
    }

  row = wb_quantity_find (&kind, (int) per_cuft.unit);
  g_return_val_if_fail (row != NULL, FALSE);

  hundredths = wb_wide_divide ((WbWide) volume.bits * per_cuft.grains,
                               (WbWide) WB_BITS_PER_CUFT * row->hundredth, WB_ROUND_HALF_UP);
  /* At most 2^126 ÷ (BITS_PER_CUFT × hundredth), so that this product fits again. */
  return take_sum (hundredths * row->hundredth, per_cuft.unit, out, error);
}
