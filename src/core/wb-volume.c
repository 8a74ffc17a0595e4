/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact volumes in cubic feet and cubic metres. Sums of both stay exact; a volume is rounded only
 * where it is written as text. */
#include "config.h"

#include "core/wb-volume.h"

#include "core/wb-core.h"
#include "core/wb-quantity.h"
#include "core/wb-wide.h"

static const WbQuantityUnit units[] = {
  { .unit = WB_VOLUME_UNIT_CUFT, WB_QUANTITY_CUFT },
  { .unit = WB_VOLUME_UNIT_M3, WB_QUANTITY_M3 },
};

static const WbQuantityKind kind = { "volume", "cuft or m3", units, G_N_ELEMENTS (units) };

WbVolume
wb_volume (gint64       hundredths,
           WbVolumeUnit unit)
{
  const WbQuantityUnit *row = wb_quantity_find (&kind, (int) unit);
  WbVolume volume = { 0, unit };
  gboolean overflows;

  g_return_val_if_fail (row != NULL, WB_VOLUME_UNSET);

  overflows = __builtin_mul_overflow (hundredths, row->hundredth, &volume.bits);
  g_return_val_if_fail (!overflows, WB_VOLUME_UNSET);

  return volume;
}

gboolean
wb_volume_is_set (WbVolume volume)
{
  return volume.unit != WB_VOLUME_UNIT_NONE;
}

gboolean
wb_volume_equal (WbVolume a,
                 WbVolume b)
{
  if (!wb_volume_is_set (a) || !wb_volume_is_set (b))
    return wb_volume_is_set (a) == wb_volume_is_set (b);

  return a.bits == b.bits && a.unit == b.unit;
}

static gboolean
check_both_set (WbVolume   a,
                WbVolume   b,
                GError   **error)
{
  if (wb_volume_is_set (a) && wb_volume_is_set (b))
    return TRUE;

  g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                       "A volume that was not given cannot be reckoned with");
  return FALSE;
}

static gboolean
take_sum (WbWide         bits,
          WbVolumeUnit   unit,
          WbVolume      *out,
          GError       **error)
{
  WbVolume sum = { 0, unit };

  if (!wb_wide_to_int64 (bits, "volume", &sum.bits, error))
    return FALSE;

  *out = sum;
  return TRUE;
}

gboolean
wb_volume_add (WbVolume   a,
               WbVolume   b,
               WbVolume  *out,
               GError   **error)
{
  g_return_val_if_fail (out != NULL, FALSE);

  return check_both_set (a, b, error)
         && take_sum ((WbWide) a.bits + b.bits, a.unit, out, error);
}

gboolean
wb_volume_parse (const char    *text,
                 WbVolumeUnit   unit,
                 WbVolume      *out,
                 GError       **error)
{
  gint64 bits;
  int found;

  g_return_val_if_fail (text != NULL, FALSE);
  g_return_val_if_fail (out != NULL, FALSE);

  if (!wb_quantity_parse (&kind, text, (int) unit, &bits, &found, error))
    return FALSE;

  *out = (WbVolume) { bits, (WbVolumeUnit) found };
  return TRUE;
}

char *
wb_volume_to_text (WbVolume volume)
{
  if (!wb_volume_is_set (volume))
    return g_strdup ("");

  return wb_quantity_to_text (&kind, volume.bits, (int) volume.unit);
}
