/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/* The amounts of a reckoning that the page shows: which there are, what they are called, and their
 * value and reasons for a line or for the whole claim. */

typedef enum
{
  WB_AMOUNT_LOSS,
  WB_AMOUNT_ALLOWED,
  WB_AMOUNT_DEDUCTED,
  WB_AMOUNT_OWED,
  /* From here on only for the whole claim. */
  WB_AMOUNT_LIMIT,
  WB_AMOUNT_EARLIER,
  WB_AMOUNT_LIMIT_LEFT,
  WB_AMOUNT_COVERED,
  WB_AMOUNT_DEDUCTIBLE,
  WB_AMOUNT_FREIGHT,
  WB_AMOUNT_PAID,
  WB_AMOUNT_BALANCE,
} WbAmount;

#define WB_N_LINE_AMOUNTS (WB_AMOUNT_OWED + 1)
#define WB_N_AMOUNTS (WB_AMOUNT_BALANCE + 1)

/** Returns: (transfer none): what it is called, translated. */
const char *wb_amount_label    (WbAmount           amount);
/** Returns: (transfer none): a side's name, translated ("Full value protection"). */
const char *wb_side_label      (WbSide             side);

/**
 * wb_amount_value:
 * @line: index into the reckoning's lines, or %WB_REASON_WHOLE_CLAIM
 * @minor: (out): minor units
 *
 * Returns: %FALSE when it was not reckoned: a figure is missing, the terms do not have the side, or
 * there is no limit.
 */
gboolean    wb_amount_value    (const WbReckoning *reckoning,
                                int                line,
                                WbSide             side,
                                WbAmount           amount,
                                gint64            *minor);

/** Returns: (transfer full): the value for a person, "–" when it was not reckoned. */
char       *wb_amount_text     (const WbReckoning *reckoning,
                                int                line,
                                WbSide             side,
                                WbAmount           amount) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "Owed for line 3, released value: $120.00". */
char       *wb_amount_sentence (const WbReckoning *reckoning,
                                int                line,
                                WbSide             side,
                                WbAmount           amount) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_amount_reasons:
 *
 * The steps that led to an amount, backward: first the one that gave it, last the first that was
 * applied. Steps that came after it are left out.
 *
 * Returns: (transfer full) (element-type WbReason): reasons that belong to @reckoning
 */
GPtrArray  *wb_amount_reasons  (const WbReckoning *reckoning,
                                int                line,
                                WbSide             side,
                                WbAmount           amount) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): how a total comes of the lines, when it is a plain sum that
 * no rule gave. */
char       *wb_amount_sum      (const WbReckoning *reckoning,
                                int                line,
                                WbAmount           amount) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
