/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

#include "core/wb-valuation-preview.h"

G_BEGIN_DECLS

/* What a choice of liability means for this shipment, in plain sentences with its own figures. */

/**
 * WbStatement:
 * @source: (nullable): what the terms cite for it
 * @is_gap: something is missing from the file; the sentence says what and where to enter it
 */
typedef struct
{
  char       *text;
  const char *source;
  gboolean    is_gap;
} WbStatement;

/** Returns: (transfer full) (element-type WbStatement): in the order in which one would explain
 * it; sources belong to
 * @preview. */
GPtrArray *wb_side_statements      (const WbValuationPreview *preview,
                                    WbSide                    side) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): which choice applies and why, with what it comes to in money. */
char      *wb_valuation_verdict    (const WbValuationPreview *preview) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer none) (nullable): what the waiver of @job lacks in @field of the
 * valuation. */
const char *wb_valuation_gap_note  (const WbJob              *job,
                                    const char               *field);

/** Returns: (transfer full): why no terms can be found for @order, what is missing and where to
 * enter it. */
char      *wb_valuation_no_terms   (const WbOrder            *order,
                                    const GError             *error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): when the charge that is noted is not the one of the
 * terms. */
char      *wb_valuation_charge_note (const WbValuationPreview *preview) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
