/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

#include "core/wb-money.h"

G_BEGIN_DECLS

/**
 * WbWeightUnit:
 *
 * The unit a person entered; kept so that it is shown as it was written.
 */
typedef enum
{
  WB_WEIGHT_UNIT_NONE,
  WB_WEIGHT_UNIT_LB,
  WB_WEIGHT_UNIT_KG,
} WbWeightUnit;

/**
 * WbWeight:
 * @grains: the weight in units of 10⁻¹⁰ kg. One hundredth of an international avoirdupois pound (0.45359237 kg,
 *   exact by definition) is 45 359 237 of them and one hundredth of a kilogram 100 000 000, so both are whole.
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
WbWeight wb_weight            (gint64        hundredths,
                               WbWeightUnit  unit);
gboolean wb_weight_is_set     (WbWeight      weight);

/** Returns: %TRUE when both are unset, or both are set with the same grains and unit. */
gboolean wb_weight_equal      (WbWeight      a,
                               WbWeight      b);

/** The sum, shown in the unit of @a. Both must be set. %FALSE with %WB_CORE_ERROR_OVERFLOW or _MISSING. */
gboolean wb_weight_add        (WbWeight      a,
                               WbWeight      b,
                               WbWeight     *out,
                               GError      **error);

/** @a less @b, shown in the unit of @a; may be negative. */
gboolean wb_weight_subtract   (WbWeight      a,
                               WbWeight      b,
                               WbWeight     *out,
                               GError      **error);

/**
 * wb_weight_parse:
 * @text: "1,250 lb", "54.5 kg", "120" (then in @unit); at most two decimals; not negative
 * @unit: the unit taken when the text names none; %WB_WEIGHT_UNIT_NONE makes a bare number an error
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_PARSE, _RANGE or _OVERFLOW.
 */
gboolean wb_weight_parse      (const char   *text,
                               WbWeightUnit  unit,
                               WbWeight     *out,
                               GError      **error);

/** Returns: (transfer full): canonical text, "120 lb" or "54.50 kg" (two decimals only when needed); "" when
 * unset. A weight that is not a whole number of hundredths of its unit is rounded half up for show. */
char    *wb_weight_to_text    (WbWeight      weight) G_GNUC_WARN_UNUSED_RESULT;

typedef enum
{
  WB_VOLUME_UNIT_NONE,
  WB_VOLUME_UNIT_CUFT,
  WB_VOLUME_UNIT_M3,
} WbVolumeUnit;

/**
 * WbVolume:
 * @bits: the volume in units of 10⁻¹⁴ m³. One hundredth of a cubic foot (0.028316846592 m³, exact by definition) is
 *   28 316 846 592 of them and one hundredth of a cubic metre 10¹², so both are whole.
 * @unit: how it is written; %WB_VOLUME_UNIT_NONE means that no volume was given
 *
 * An exact volume, up to about 92 000 m³. Zero-initialised it is "not given", which differs from 0 cuft.
 */
typedef struct
{
  gint64       bits;
  WbVolumeUnit unit;
} WbVolume;

#define WB_BITS_PER_CUFT   G_GINT64_CONSTANT (2831684659200)
#define WB_BITS_PER_M3     G_GINT64_CONSTANT (100000000000000)
#define WB_VOLUME_UNSET    ((WbVolume) { 0 })

/** Returns: @hundredths hundredths of a @unit; must not overflow (up to 9 × 10⁴ m³ is safe). */
WbVolume wb_volume            (gint64        hundredths,
                               WbVolumeUnit  unit);
gboolean wb_volume_is_set     (WbVolume      volume);
gboolean wb_volume_equal      (WbVolume      a,
                               WbVolume      b);
gboolean wb_volume_add        (WbVolume      a,
                               WbVolume      b,
                               WbVolume     *out,
                               GError      **error);
/** As wb_weight_parse(); units "cuft", "cu ft", "ft3", "m3". */
gboolean wb_volume_parse      (const char   *text,
                               WbVolumeUnit  unit,
                               WbVolume     *out,
                               GError      **error);
/** Returns: (transfer full): "3.10 cuft", "40 m3"; "" when unset. */
char    *wb_volume_to_text    (WbVolume      volume) G_GNUC_WARN_UNUSED_RESULT;

/**
 * WbRateUnit:
 *
 * What one amount of a rate buys: a pound, a kilogram, a hundredweight (100 lb), a cubic foot, a cubic metre.
 */
typedef enum
{
  WB_RATE_UNIT_NONE,
  WB_RATE_UNIT_LB,
  WB_RATE_UNIT_KG,
  WB_RATE_UNIT_CWT,
  WB_RATE_UNIT_CUFT,
  WB_RATE_UNIT_M3,
} WbRateUnit;

/** WbRate: money per unit of weight or volume; unset when @unit is %WB_RATE_UNIT_NONE. */
typedef struct
{
  WbMoney    per;
  WbRateUnit unit;
} WbRate;

gboolean wb_rate_is_set       (WbRate        rate);

/** Whether the rate is by volume, so that wb_rate_apply() wants a volume. */
gboolean wb_rate_is_by_volume (WbRate        rate);

/**
 * wb_rate_apply:
 * @weight: used when the rate is by weight; must be set then
 * @volume: used when the rate is by volume; must be set then
 *
 * Rate × quantity with one rounding. %FALSE with %WB_CORE_ERROR_MISSING or %WB_CORE_ERROR_OVERFLOW.
 */
gboolean wb_rate_apply        (WbRate        rate,
                               WbWeight      weight,
                               WbVolume      volume,
                               WbRounding    rounding,
                               WbMoney      *out,
                               GError      **error);

/** Reads "0.60 per lb", "620.00 per m3" in @currency (the text may also name it: "0.60 USD per lb"). */
gboolean wb_rate_parse        (const char   *text,
                               const char   *currency,
                               WbRate       *out,
                               GError      **error);
/** Returns: (transfer full): "0.60 USD per lb"; "" when unset. */
char    *wb_rate_to_text      (WbRate        rate) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_weight_from_volume:
 * @per_cuft: a constructive weight per cubic foot (7 lb in 41 CFR 302-7.13(d))
 *
 * Constructive weight of a volume, rounded half up to a hundredth of the unit of @per_cuft.
 */
gboolean wb_weight_from_volume (WbVolume     volume,
                                WbWeight     per_cuft,
                                WbWeight    *out,
                                GError     **error);

G_END_DECLS
