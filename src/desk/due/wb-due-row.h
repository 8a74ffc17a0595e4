/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One thing that is due, as a row: whose, what, by when, and a bar that runs down. */
#pragma once

#include <gtk/gtk.h>

#include "office/wb-due.h"

G_BEGIN_DECLS

#define WB_TYPE_DUE_ROW (wb_due_row_get_type ())
G_DECLARE_FINAL_TYPE (WbDueRow, wb_due_row, WB, DUE_ROW, GtkListBoxRow)

/** Returns: (transfer none): a row that shows @due as of now and keeps what it needs of it. */
GtkWidget  *wb_due_row_new        (const WbDue *due);
WbDueGroup  wb_due_row_get_group  (WbDueRow    *self);
const char *wb_due_row_get_job_id (WbDueRow    *self);

G_END_DECLS
