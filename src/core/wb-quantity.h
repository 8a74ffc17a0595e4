/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What weights, volumes and rates share: tables of units with the names that people write, and
 * reading and writing an exact amount in one of them. Used inside this room only. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define WB_QUANTITY_MAX_ALIASES 8

/**
 * WbQuantityUnit:
 * @unit: value of the enum of units
 * @hundredth: one hundredth of the unit, in the smallest parts that the amount counts
 * @name: how it is written in canonical text
 * @aliases: what else is understood; lower case, without spaces
 */
typedef struct
{
  int         unit;
  gint64      hundredth;
  const char *name;
  const char *aliases[WB_QUANTITY_MAX_ALIASES];
} WbQuantityUnit;

/**
 * WbQuantityKind:
 * @what: "weight", for messages
 * @advice: the units that may be written, for messages
 */
typedef struct
{
  const char           *what;
  const char           *advice;
  const WbQuantityUnit *units;
  gsize                 n_units;
} WbQuantityKind;

/* The names of each unit stand once, here, for a quantity and for a rate by it. */
#define WB_QUANTITY_LB \
  .hundredth = WB_GRAINS_PER_LB / 100, .name = "lb", .aliases = { "lbs", "pound", "pounds", "#" }
#define WB_QUANTITY_KG \
  .hundredth = WB_GRAINS_PER_KG / 100, .name = "kg", \
  .aliases = { "kgs", "kilo", "kilos", "kilogram", "kilograms" }
#define WB_QUANTITY_CWT \
  .hundredth = WB_GRAINS_PER_LB, .name = "cwt", .aliases = { "hundredweight", "100lb", "100lbs" }
#define WB_QUANTITY_CUFT \
  .hundredth = WB_BITS_PER_CUFT / 100, .name = "cuft", \
  .aliases = { "cf", "cft", "ft3", "ft³", "cubicfoot", "cubicfeet" }
#define WB_QUANTITY_M3 \
  .hundredth = WB_BITS_PER_M3 / 100, .name = "m3", \
  .aliases = { "m³", "cbm", "cubicmeter", "cubicmeters", "cubicmetre", "cubicmetres" }

/** Returns: (nullable): the row of @unit */
const WbQuantityUnit *wb_quantity_find      (const WbQuantityKind *self,
                                             int                   unit);

/** Returns: (nullable): the row of a unit as people write it; case, spaces and stops are ignored */
const WbQuantityUnit *wb_quantity_find_name (const WbQuantityKind *self,
                                             const char           *name);

/**
 * wb_quantity_parse:
 * @unit: the unit taken when the text names none; 0 makes a bare number an error
 * @amount: (out): in smallest parts
 * @found: (out): the unit
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_PARSE, _RANGE (negative) or _OVERFLOW
 */
gboolean              wb_quantity_parse     (const WbQuantityKind *self,
                                             const char           *text,
                                             int                   unit,
                                             gint64               *amount,
                                             int                  *found,
                                             GError              **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "120 lb", "54.50 kg"; rounded half up to a hundredth of the unit */
char                 *wb_quantity_to_text   (const WbQuantityKind *self,
                                             gint64                amount,
                                             int                   unit) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
