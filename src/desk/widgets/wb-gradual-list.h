/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Many items for a view that would make all their cells in one frame: they come a few a frame. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * wb_gradual_list_new:
 * @model: (transfer full): what there is to show
 * @view: (transfer none): the widget that shows it, by whose frames it comes; may go before the
 * list
 *
 * A list of the items of @model at the same places. What comes there in large numbers comes here
 * from the start on, frame by frame while @view is seen, until so many are there that a view makes
 * no more cells for the rest; a few are here at once.
 *
 * Returns: (transfer full)
 */
GtkSliceListModel *wb_gradual_list_new    (GListModel        *model,
                                           GtkWidget         *view) G_GNUC_WARN_UNUSED_RESULT;

/** Lets all items in now, for whoever goes to one of them. */
void               wb_gradual_list_finish (GtkSliceListModel *self);

G_END_DECLS
