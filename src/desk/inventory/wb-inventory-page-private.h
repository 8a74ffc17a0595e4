/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For wb-inventory-page.c and its parts, wb-inventory-page-*.c, only. */
#pragma once

#include "desk/inventory/wb-inventory-page.h"

#include "desk/inventory/wb-inventory-list.h"
#include "desk/inventory/wb-line-strip.h"

#include <adwaita.h>

G_BEGIN_DECLS

struct _WbInventoryPage
{
  GtkWidget          parent_instance;

  WbJobModel        *model;
  WbJob             *checked;        /* the job whose tags the warning is about */

  AdwToastOverlay   *toasts;
  AdwToast          *said;           /* (nullable), weak: what was said last */
  GtkEditable       *filter;
  GtkStack          *stack;
  WbInventoryList   *list;
  GtkLabel          *count;
  GtkLabel          *selected;
  GtkWidget         *warning;
  GtkLabel          *tags;
  WbLineStrip       *strip;
  GtkMenuButton     *menu_button;
  GMenu             *menu;
  GMenu             *sort_section;
};


/** Returns: (transfer none): the job as it stands. */
WbJob    *wb_inventory_page_get_job         (WbInventoryPage *self);

/** Shows @sentence for a while, in the place of what was said before. */
void      wb_inventory_page_say             (WbInventoryPage *self,
                                             const char      *sentence);
/** Says what was done, with a button that undoes it. */
void      wb_inventory_page_tell            (WbInventoryPage *self,
                                             const char      *sentence);

/** Puts the line of piece @id into the strip for changing. */
void      wb_inventory_page_change_line     (WbInventoryPage *self,
                                             const char      *id);

/** Selects the line of piece @id, gives it the focus, and takes away a filter that hides it. */
void      wb_inventory_page_go_to           (WbInventoryPage *self,
                                             const char      *id);

/** Gives the focus to the selected line, or to the list. */
void      wb_inventory_page_leave_to_list   (WbInventoryPage *self);

/** Shows the window in which a tag is typed or scanned; with @text (nullable) in it. */
void      wb_inventory_page_ask_tag         (WbInventoryPage *self,
                                             const char      *text);

/** Returns: (transfer none) (nullable): the window that the page is in. */
GtkWindow *wb_inventory_page_get_window     (WbInventoryPage *self);

/* wb-inventory-page-seek.c */
void      wb_inventory_page_bind_seek       (GtkWidgetClass  *widget_class);
void      wb_inventory_page_watch_scanner   (WbInventoryPage *self);

/* wb-inventory-page-actions.c */
void      wb_inventory_page_install_actions (GtkWidgetClass  *widget_class);
void      wb_inventory_page_fill_sort_menu  (WbInventoryPage *self);
/** Enables what needs selected lines, of which there are @n. */
void      wb_inventory_page_enable_actions  (WbInventoryPage *self,
                                             guint            n);

G_END_DECLS
