/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The kinds of cartons and the materials of a job: how many the inventory has, and how many were
 * planned and used, which are typed here. */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-packing.h"

G_BEGIN_DECLS

/* Signal: "typed" (const char *item, const char *field, const char *text) → gboolean: somebody set
 * a number; the handler says whether it was taken, or shows what is wrong by
 * wb_item_table_show_fault(). */
#define WB_TYPE_ITEM_TABLE (wb_item_table_get_type ())
G_DECLARE_FINAL_TYPE (WbItemTable, wb_item_table, WB, ITEM_TABLE, GtkWidget)

/** Shows the rows of @packing. What is being typed stays. */
void wb_item_table_show       (WbItemTable     *self,
                               const WbPacking *packing);

/** Says beneath the table what is wrong with what was typed; %NULL when nothing is. */
void wb_item_table_show_fault (WbItemTable     *self,
                               const char      *sentence);

/** Gives the focus to the number of @item. Returns: whether it is there. */
gboolean wb_item_table_edit   (WbItemTable     *self,
                               const char      *item,
                               const char      *field);

G_END_DECLS
