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
void     wb_tab_walk_add   (GtkColumnView    *view);

/**
 * wb_tab_walk_focus:
 * @table: the widget around @view
 * @view: a column view that wb_tab_walk_add() knows
 * @direction: where the focus goes
 *
 * For the focus function of @table: Shift+Tab comes into the table at its end; the toolkit would
 * begin at the first cell.
 *
 * Returns: %FALSE when the focus goes past the table
 */
gboolean wb_tab_walk_focus (GtkWidget        *table,
                            GtkColumnView    *view,
                            GtkDirectionType  direction);

G_END_DECLS
