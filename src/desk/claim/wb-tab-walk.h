/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * wb_tab_walk_add:
 * @view: a column view whose cells hold widgets that take the focus
 *
 * Tab and Shift+Tab then go from cell to cell, across the ends of rows, and out of the table at its
 * ends. GTK 4.8 by itself goes forward within a row only.
 */
void wb_tab_walk_add (GtkColumnView *view);

G_END_DECLS
