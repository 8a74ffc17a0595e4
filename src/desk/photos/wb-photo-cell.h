/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One photo in the grid: its thumbnail, what it shows, when it was taken and, apart from that, when
 * the office took it in; and what is wrong with its file. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"
#include "desk/photos/wb-photo-shelf.h"

G_BEGIN_DECLS

#define WB_TYPE_PHOTO_CELL (wb_photo_cell_get_type ())
G_DECLARE_FINAL_TYPE (WbPhotoCell, wb_photo_cell, WB, PHOTO_CELL, GtkWidget)

GtkWidget *wb_photo_cell_new      (WbJobModel   *model,
                                   WbPhotoShelf *shelf);

/** @item: (nullable): %NULL when the cell shows nothing any more */
void       wb_photo_cell_set_item (WbPhotoCell  *self,
                                   WbRecordItem *item);

G_END_DECLS
