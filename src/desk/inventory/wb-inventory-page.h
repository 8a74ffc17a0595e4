/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page of the open job that shows its inventory: every carton and loose piece, a line each. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Property: "model" (WbJobModel), for construction only. Actions: "inventory.filter",
 * "inventory.enter" (to the strip), "inventory.sort" (s: a column, "" for the order of entry),
 * "inventory.change", "inventory.remove" (of the selected lines), "inventory.lots",
 * "inventory.import", "inventory.export". */
#define WB_TYPE_INVENTORY_PAGE (wb_inventory_page_get_type ())
G_DECLARE_FINAL_TYPE (WbInventoryPage, wb_inventory_page, WB, INVENTORY_PAGE, GtkWidget)

GtkWidget *wb_inventory_page_new    (WbJobModel      *model) G_GNUC_WARN_UNUSED_RESULT;

/** Reads the list in @file and shows what could be taken of it, for the person to decide. */
void       wb_inventory_page_import (WbInventoryPage *self,
                                     GFile           *file);
/** Writes the inventory to @file and says so. */
void       wb_inventory_page_export (WbInventoryPage *self,
                                     GFile           *file);

G_END_DECLS
