/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Goes around a list, which it makes one stop for Tab: Tab comes to the row that had the focus last
 * and goes past all the others; from row to row go the arrows. By itself a GtkListView stops at
 * every row. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Property: "child" (GtkWidget): the list, or what it stands in. */
#define WB_TYPE_ONE_STOP (wb_one_stop_get_type ())
G_DECLARE_FINAL_TYPE (WbOneStop, wb_one_stop, WB, ONE_STOP, GtkWidget)

G_END_DECLS
