/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Net weights of goods that were weighed with what they were packed in. */
#include "config.h"

#include "core/wb-constructive.h"

#include "core/wb-core.h"
#include "core/wb-money.h"

#define NET_PERCENT_OF_CRATED 60
#define NET_PERCENT_IN_CONTAINERS 85

static gint64
grains_in_hundredth (WbWeightUnit unit)
{
  return (unit == WB_WEIGHT_UNIT_KG ? WB_GRAINS_PER_KG : WB_GRAINS_PER_LB) / 100;
}

static gboolean
take_percent (WbWeight   weight,
              gint64     percent,
              WbWeight  *out,
              GError   **error)
{
  gint64 hundredths;
  gint64 part;

  if (weight.grains < 0)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE, "The goods weigh less than nothing");
      return FALSE;
    }

  part = grains_in_hundredth (weight.unit);
  if (!wb_minor_scale (weight.grains, percent, 100 * part, WB_ROUND_HALF_UP, &hundredths, error))
    return FALSE;

  *out = wb_weight (hundredths, weight.unit);
  return TRUE;
}

gboolean
wb_net_of_crated (WbWeight   gross,
                  WbWeight  *out,
                  GError   **error)
{
  g_return_val_if_fail (out != NULL, FALSE);

  if (!wb_weight_is_set (gross))
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING, "There is no gross weight");
      return FALSE;
    }
  return take_percent (gross, NET_PERCENT_OF_CRATED, out, error);
}

gboolean
wb_net_of_containers (WbWeight   gross,
                      WbWeight   containers,
                      WbWeight  *out,
                      GError   **error)
{
  WbWeight difference;

  g_return_val_if_fail (out != NULL, FALSE);

  return wb_weight_subtract (gross, containers, &difference, error)
         && take_percent (difference, NET_PERCENT_IN_CONTAINERS, out, error);
}
