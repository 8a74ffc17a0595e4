/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/* One reason of a reckoning: its rule, what it did with its figures, and what the terms cite for
 * it. */
#define WB_TYPE_REASON_ROW (wb_reason_row_get_type ())
G_DECLARE_FINAL_TYPE (WbReasonRow, wb_reason_row, WB, REASON_ROW, GtkListBoxRow)

GtkWidget  *wb_reason_row_new      (const WbReckoning *reckoning,
                                    const WbReason    *reason) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer none): the reason as plain text, its source included. */
const char *wb_reason_row_get_text (WbReasonRow       *self);

G_END_DECLS
