/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact volumes in the units that a person wrote. What a volume weighs is said in wb-weight.h. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/** WbVolumeUnit: the unit a person entered; kept so that it is shown as it was written. */
typedef enum
{
  WB_VOLUME_UNIT_NONE,
  WB_VOLUME_UNIT_CUFT,
  WB_VOLUME_UNIT_M3,
} WbVolumeUnit;

/**
 * WbVolume:
 * @bits: the volume in units of 10⁻¹⁴ m³. One hundredth of a cubic foot (0.028316846592 m³, exact
 *   by definition) is 28 316 846 592 of them and one hundredth of a cubic metre 10¹², so that both
 *   are whole.
 * @unit: how it is written; %WB_VOLUME_UNIT_NONE means that no volume was given
 *
 * An exact volume, up to about 92 000 m³. Zero-initialised it is "not given", which differs from
 * 0 cuft.
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

/** Returns: %TRUE when both are unset, or both are set with the same bits and unit. */
gboolean wb_volume_equal      (WbVolume      a,
                               WbVolume      b);

/**
 * wb_volume_add:
 * @out: (out): the sum, shown in the unit of @a; untouched on failure
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_OVERFLOW, or _MISSING when one is unset
 */
gboolean wb_volume_add        (WbVolume      a,
                               WbVolume      b,
                               WbVolume     *out,
                               GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_volume_parse:
 * @text: "3.10 cuft", "40 m3", "12" (then in @unit); also "cu. ft.", "ft3", "m³"; at most two
 *   decimals; not negative
 * @unit: the unit taken when the text names none; %WB_VOLUME_UNIT_NONE makes a bare number an error
 * @out: (out): the volume; untouched on failure
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_PARSE, _RANGE or _OVERFLOW
 */
gboolean wb_volume_parse      (const char   *text,
                               WbVolumeUnit  unit,
                               WbVolume     *out,
                               GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): canonical text as of wb_weight_to_text(), "3.10 cuft", "40 m3" */
char    *wb_volume_to_text    (WbVolume      volume) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
