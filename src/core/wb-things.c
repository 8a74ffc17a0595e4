/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Adds up lists of contents. Changes nothing. */
#include "config.h"

#include "core/wb-things.h"

#include <string.h>

#include "core/wb-core.h"

GPtrArray *
wb_things_of (const WbJob *job,
              const char  *piece)
{
  GPtrArray *things = g_ptr_array_new ();
  guint n = wb_job_count (job, WB_KIND_THING);

  for (guint i = 0; i < n; i++)
    {
      const WbThing *thing = wb_job_nth (job, WB_KIND_THING, i);

      if (g_strcmp0 (thing->piece, piece) == 0)
        g_ptr_array_add (things, (gpointer) thing);
    }
  return things;
}

gint64
wb_thing_count (const WbThing *thing)
{
  return thing->quantity != WB_INTEGER_UNSET ? thing->quantity : 1;
}

static gboolean
multiply (gint64      one,
          gint64      count,
          const char *what,
          gint64     *out,
          GError    **error)
{
  if (!__builtin_mul_overflow (one, count, out))
    return TRUE;
  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW, "%s of the contents is too large",
               what);
  return FALSE;
}

gboolean
wb_thing_value (const WbThing  *thing,
                WbMoney        *out,
                GError        **error)
{
  WbMoney value = thing->value;

  if (wb_money_is_set (value)
      && !multiply (value.minor, wb_thing_count (thing), "the value", &value.minor, error))
    return FALSE;
  *out = value;
  return TRUE;
}

gboolean
wb_thing_weight (const WbThing  *thing,
                 WbWeight       *out,
                 GError        **error)
{
  WbWeight weight = thing->weight;

  if (wb_weight_is_set (weight)
      && !multiply (weight.grains, wb_thing_count (thing), "the weight", &weight.grains, error))
    return FALSE;
  *out = weight;
  return TRUE;
}

static gboolean
add_value (WbThingTotals  *totals,
           const WbThing  *thing,
           GError        **error)
{
  WbMoney value;

  if (!wb_thing_value (thing, &value, error))
    return FALSE;
  if (!wb_money_is_set (value))
    totals->n_unvalued++;
  else if (!wb_money_is_set (totals->value))
    totals->value = value;
  else
    return wb_money_add (totals->value, value, &totals->value, error);
  return TRUE;
}

static gboolean
add_weight (WbThingTotals  *totals,
            const WbThing  *thing,
            GError        **error)
{
  WbWeight weight;

  if (!wb_thing_weight (thing, &weight, error))
    return FALSE;
  if (!wb_weight_is_set (weight))
    totals->n_unweighed++;
  else if (!wb_weight_is_set (totals->weight))
    totals->weight = weight;
  else
    return wb_weight_add (totals->weight, weight, &totals->weight, error);
  return TRUE;
}

gboolean
wb_things_total (GPtrArray      *things,
                 WbThingTotals  *out,
                 GError        **error)
{
  memset (out, 0, sizeof *out);
  for (guint i = 0; i < things->len; i++)
    {
      const WbThing *thing = g_ptr_array_index (things, i);

      out->n_lines++;
      /* A job has too few records, and a line too few things, for this to overflow. */
      out->count += wb_thing_count (thing);
      if (!add_value (out, thing, error) || !add_weight (out, thing, error))
        return FALSE;
    }
  return TRUE;
}
