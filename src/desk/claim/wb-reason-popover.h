/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "desk/claim/wb-amount.h"

G_BEGIN_DECLS

/* Answers "why?" for one amount: its reasons in order, each with what the terms cite for it. The
 * arrow keys go from reason to reason, Ctrl+C copies the one with the focus, and a button copies
 * them all. */
#define WB_TYPE_REASON_POPOVER (wb_reason_popover_get_type ())
G_DECLARE_FINAL_TYPE (WbReasonPopover, wb_reason_popover, WB, REASON_POPOVER, GtkPopover)

/* Actions: "reason.copy" on a reason, "reason.copy-all". */

GtkWidget *wb_reason_popover_new  (WbReckoning     *reckoning,
                                   int              line,
                                   WbSide           side,
                                   WbAmount         amount) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): everything that the popover says, as plain text. */
char      *wb_reason_popover_text (WbReasonPopover *self) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
