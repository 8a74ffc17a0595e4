/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For wb-packing-page.c and wb-packing-page-cartons.c only. */
#pragma once

#include "desk/packing/wb-packing-page.h"

#include "core/wb-catalog.h"
#include "core/wb-packing.h"
#include "desk/packing/wb-carton-panel.h"
#include "desk/packing/wb-item-table.h"

G_BEGIN_DECLS

struct _WbPackingPage
{
  GtkWidget           parent_instance;

  GtkLabel           *totals;
  WbItemTable        *items;
  GtkEntry           *add;
  GtkLabel           *summary;
  GtkStack           *stack;
  GtkListView        *list;
  WbCartonPanel      *panel;

  WbJobModel         *model;
  WbJob              *job;           /* (nullable): that @packing is of */
  WbPacking          *packing;
  GSettings          *settings;
  GtkCustomFilter    *filter;
  GtkFilterListModel *filtered;
  GtkSingleSelection *selection;
  GPtrArray          *list_items;    /* GtkListItem, the rows that there are */
  gboolean            only_open;
  char               *shown;         /* (nullable): id of the carton in the panel */
  guint               tick;
};

/** Returns: (transfer none): the office's catalogue. */
WbCatalog *wb_packing_page_get_catalog     (WbPackingPage *self);
/** Returns: whether a check of @piece is unmet or open. */
gboolean   wb_packing_page_has_work        (WbPackingPage *self,
                                            const WbPiece *piece);
/** Shows the carton in hand in the panel. */
void       wb_packing_page_show_panel      (WbPackingPage *self);

/* wb-packing-page-cartons.c */
void       wb_packing_page_make_cartons    (WbPackingPage *self);
/** Shows what @list_item is of once more. */
void       wb_packing_page_show_row        (WbPackingPage *self,
                                            GtkListItem   *list_item);
/** Goes to the next open check: in the carton in hand first, then in the next one that has any. */
void       wb_packing_page_go_to_next_open (WbPackingPage *self);
/** Gives the focus to the row in hand. */
void       wb_packing_page_focus_cartons   (WbPackingPage *self);

G_END_DECLS
