/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * wb_cell_walk_add:
 * @view: a column view whose cells hold widgets that take the focus
 * @rows: whether Up and Down go from row to row; %FALSE when the cells see to that themselves
 *
 * Left and Right then go from cell to cell, and across the ends of rows. In a cell that is typed
 * into they go on once the cursor is at that end of the text, or while all of it is selected, as it
 * is when one comes to the cell.
 */
void     wb_cell_walk_add   (GtkColumnView    *view,
                             gboolean          rows);

/**
 * wb_cell_walk_focus:
 * @table: the widget around @view
 * @view: a column view that wb_cell_walk_add() knows
 * @direction: where the focus goes
 *
 * For the focus function of @table, which makes it one stop for Tab: the focus comes into the
 * selected row, else the one where it was last, and in the column where it was last.
 *
 * Returns: %FALSE when the focus goes past the table
 */
gboolean wb_cell_walk_focus (GtkWidget        *table,
                             GtkColumnView    *view,
                             GtkDirectionType  direction);

G_END_DECLS
