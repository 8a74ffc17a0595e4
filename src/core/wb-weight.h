/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact weights in the units that a person wrote, and the weight that a volume stands for. */
#pragma once

#include <glib.h>

#include "core/wb-volume.h"

G_BEGIN_DECLS

/** WbWeightUnit: the unit a person entered; kept so that it is shown as it was written. */
typedef enum
{
  WB_WEIGHT_UNIT_NONE,
  WB_WEIGHT_UNIT_LB,
  WB_WEIGHT_UNIT_KG,
} WbWeightUnit;

/**
 * WbWeight:
 * @grains: the weight in units of 10⁻¹⁰ kg. One hundredth of an international avoirdupois pound
 *   (0.45359237 kg, exact by definition) is 45 359 237 of them and one hundredth of a kilogram
 *   100 000 000, so that both are whole.
 * @unit: how it is written; %WB_WEIGHT_UNIT_NONE means that no weight was given
 *
 * An exact weight. Zero-initialised it is "not given", which differs from 0 lb.
 */
typedef struct
{
  gint64       grains;
  WbWeightUnit unit;
} WbWeight;

#define WB_GRAINS_PER_LB   G_GINT64_CONSTANT (4535923700)
#define WB_GRAINS_PER_KG   G_GINT64_CONSTANT (10000000000)
#define WB_WEIGHT_UNSET    ((WbWeight) { 0 })

/** Returns: @hundredths hundredths of a @unit; must not overflow (up to 9 × 10⁸ kg is safe). */
WbWeight wb_weight              (gint64        hundredths,
                                 WbWeightUnit  unit);
gboolean wb_weight_is_set       (WbWeight      weight);

/** Whether a weight was given that something can have: a form or a file makes 0 lb of no weight. */
gboolean wb_weight_is_positive  (WbWeight      weight);

/** Returns: %TRUE when both are unset, or both are set with the same grains and unit. */
gboolean wb_weight_equal        (WbWeight      a,
                                 WbWeight      b);

/**
 * wb_weight_add:
 * @out: (out): the sum, shown in the unit of @a; untouched on failure
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_OVERFLOW, or _MISSING when one is unset
 */
gboolean wb_weight_add          (WbWeight      a,
                                 WbWeight      b,
                                 WbWeight     *out,
                                 GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/** As wb_weight_add(), but @a less @b; the result may be negative. */
gboolean wb_weight_subtract     (WbWeight      a,
                                 WbWeight      b,
                                 WbWeight     *out,
                                 GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_weight_parse:
 * @text: "1,250 lb", "54.5 kg", "120" (then in @unit); also "lbs", "#", "pounds", "kilograms"; at
 *   most two decimals; not negative
 * @unit: the unit taken when the text names none; %WB_WEIGHT_UNIT_NONE makes a bare number an error
 * @out: (out): the weight; untouched on failure
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_PARSE, _RANGE or _OVERFLOW
 */
gboolean wb_weight_parse        (const char   *text,
                                 WbWeightUnit  unit,
                                 WbWeight     *out,
                                 GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_weight_to_text:
 *
 * A weight that is not a whole number of hundredths of its unit is rounded half up for show.
 *
 * Returns: (transfer full): canonical text, "120 lb" or "54.50 kg" (two decimals only when needed);
 *   "" when unset
 */
char    *wb_weight_to_text      (WbWeight      weight) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_weight_from_volume:
 * @per_cuft: a constructive weight per cubic foot (7 lb in 41 CFR 302-7.13(d))
 * @out: (out): the constructive weight of @volume, rounded half up to a hundredth of the unit of
 *   @per_cuft; untouched on failure
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_OVERFLOW, or _MISSING when one is unset
 */
gboolean wb_weight_from_volume  (WbVolume      volume,
                                 WbWeight      per_cuft,
                                 WbWeight     *out,
                                 GError      **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
