/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For wb-inventory-list.c and wb-inventory-list-reveal.c only. */
#pragma once

#include "desk/inventory/wb-inventory-list.h"

#include "desk/inventory/wb-inventory-filter.h"
#include "desk/inventory/wb-steady-filter.h"

G_BEGIN_DECLS

struct _WbInventoryList
{
  GtkWidget            parent_instance;

  WbJobModel          *model;
  GtkWidget           *scroller;
  GtkColumnView       *view;
  WbInventoryFilter   *filter;
  WbSteadyFilter      *filtered;
  GtkSortListModel    *sorted;
  GtkMultiSelection   *selection;
  GPtrArray           *columns;       /* GtkColumnViewColumn, in the order of the column table */
  const char          *sorted_by;     /* id of the column that the sort action chose last */
  GtkSortType          direction;
  char                *awaited;       /* id of a piece to reveal once at rest */
  gboolean             awaited_focus;
  guint                start_source;  /* the lines are not taken in yet */
  guint                reveal_source;
  guint                tell_source;
  guint                scroll_tick;
  guint                scroll_position;
  guint                scroll_frames; /* still to come */
  double               edge;          /* how far down the lines were seen */
  double               height;        /* of what was seen of them */
};

/** Takes the lines in now, if they wait for it still. */
void       wb_inventory_list_ensure_started (WbInventoryList *self);
/** Returns: place of the line of piece @id, %GTK_INVALID_LIST_POSITION when it is not shown. */
guint      wb_inventory_list_find_position  (WbInventoryList *self,
                                             const char      *id);
/** Returns: (transfer none): the list of rows inside the column view: it, and not the view, knows
 * how to scroll to a line. */
GtkWidget *wb_inventory_list_find_rows      (WbInventoryList *self);

/* wb-inventory-list-reveal.c */
/** Selects the line that was asked for, if there is one and it is shown by now. */
void       wb_inventory_list_reveal_awaited (WbInventoryList *self);
/** As wb_inventory_list_reveal_awaited(), where it was to happen soon: nobody is to see, or to be
 * told, what is selected before what was revealed is. */
void       wb_inventory_list_reveal_now     (WbInventoryList *self);
/** Notes how far down lines are seen. */
void       wb_inventory_list_remember_edge  (WbInventoryList *self,
                                             GtkAdjustment   *adjustment);
/** What stands around the list may grow over the line that was entered or found last: a line that
 * was in sight and is chosen stays there. */
void       wb_inventory_list_keep_in_sight  (WbInventoryList *self,
                                             GtkAdjustment   *adjustment);
/** Forgets what was to be revealed or scrolled to. */
void       wb_inventory_list_drop_reveal    (WbInventoryList *self);

G_END_DECLS
