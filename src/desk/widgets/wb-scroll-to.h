/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Brings a widget into view where the toolkit does not. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * wb_scroll_to:
 *
 * Scrolls the page around @widget, but no table in it, so far that @widget is seen whole, or its
 * top when it is larger. The toolkit does this when the focus moves, but for a widget that has no
 * place yet it cannot; so this waits until the next frame has laid it out.
 */
void wb_scroll_to    (GtkWidget *widget);

/**
 * wb_scroll_along:
 * @cell: something in a cell of a column view
 *
 * Scrolls the column view sideways so far that @cell is seen, or its start when it is wider; does
 * nothing outside of one. For a cell that gets the focus: the toolkit follows the focus from row to
 * row, not along the columns.
 */
void wb_scroll_along (GtkWidget *cell);

G_END_DECLS
