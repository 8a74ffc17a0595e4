/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is due on all open claims of a book: the adjuster's first look in the morning. */
#pragma once

#include <adwaita.h>

#include "office/wb-office.h"

G_BEGIN_DECLS

/* Signal "open-claim" (const char *job_id): a person chose an entry.
 * Actions: "due.refresh", "due.save-calendar". */
#define WB_TYPE_DUE_WINDOW (wb_due_window_get_type ())
G_DECLARE_FINAL_TYPE (WbDueWindow, wb_due_window, WB, DUE_WINDOW, AdwWindow)

/** Returns: (transfer none): a window that stands beside the one it was asked in, whose it is to
 * destroy; it follows what @office stores. */
GtkWidget *wb_due_window_new (WbOffice *office);

G_END_DECLS
