/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One thing that is due, as a row: whose, what, by when, why, and a bar that runs down; above the first
 * of a group the name of the group. */
#pragma once

#include <gtk/gtk.h>

#include "office/wb-due.h"

G_BEGIN_DECLS

#define WB_TYPE_DUE_ROW (wb_due_row_get_type ())
G_DECLARE_FINAL_TYPE (WbDueRow, wb_due_row, WB, DUE_ROW, GtkWidget)

/** Returns: (transfer none): a row that shows nothing yet. */
GtkWidget  *wb_due_row_new        (void);
/** Has the row show @due. @leads: whether it is the first of its group */
void        wb_due_row_show       (WbDueRow    *self,
                                   const WbDue *due,
                                   gboolean     leads);

G_END_DECLS
