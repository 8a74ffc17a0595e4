/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One cell of the inventory: the text of one column for one piece, on one line, cut with an
 * ellipsis. It follows its item, so an edit shows without a change of the list. */
#pragma once

#include <gtk/gtk.h>

#include "desk/inventory/wb-inventory-column.h"
#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

#define WB_TYPE_INVENTORY_CELL (wb_inventory_cell_get_type ())
G_DECLARE_FINAL_TYPE (WbInventoryCell, wb_inventory_cell, WB, INVENTORY_CELL, GtkWidget)

/** @column: stays valid for ever; @model: the job that the pieces belong to. */
GtkWidget  *wb_inventory_cell_new      (const WbInventoryColumn *column,
                                        WbJobModel              *model) G_GNUC_WARN_UNUSED_RESULT;

/** @item: (transfer none): the piece to show, which the cell keeps until it is given another. The
 * same once more costs nothing. */
void        wb_inventory_cell_set_item (WbInventoryCell *self,
                                        WbRecordItem    *item);
/** The job is another: what the cell says beside the piece itself may have changed. */
void        wb_inventory_cell_refresh  (WbInventoryCell *self);
/** Whether the cell shows the piece with @id. */
gboolean    wb_inventory_cell_shows    (WbInventoryCell *self,
                                        const char      *id);
/** Returns: (transfer none): what the cell shows. */
const char *wb_inventory_cell_get_text (WbInventoryCell         *self);

G_END_DECLS
