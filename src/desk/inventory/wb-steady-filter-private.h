/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For wb-steady-filter.c and wb-steady-filter-source.c only. */
#pragma once

#include "desk/inventory/wb-steady-filter.h"

G_BEGIN_DECLS

/* What is known of an item. */
#define WB_STEADY_KNOWN       (1u << 0)
#define WB_STEADY_SHOWN       (1u << 1)
#define WB_STEADY_PENDING     (1u << 2)
#define WB_STEADY_PARTING     (1u << 3)

typedef struct
{
  gpointer item;    /* owned */
  guint    what;
} WbSteadyEntry;

struct _WbSteadyFilter
{
  GObject      parent_instance;

  GListModel  *source;
  GtkFilter   *filter;
  GPtrArray   *items;     /* those of the source, as they were told of last, and the parting ones */
  GtkBitset   *shown;
  GtkBitset   *pending;
  GtkBitset   *parting;
  guint        centre;    /* place in what is shown that a person looks at */
  guint        idle;
};

/** Returns: what is known of the item at @position, WB_STEADY_… together. */
guint wb_steady_filter_what_of      (WbSteadyFilter *self,
                                     guint           position);
/** Returns: how many are shown of the positions before @position. */
guint wb_steady_filter_shown_before (WbSteadyFilter *self,
                                     guint           position);

/** Adds an entry to @entries, a list of WbSteadyEntry. */
void  wb_steady_filter_add_entry    (GArray         *entries,
                                     gpointer        item,
                                     guint           what);
/** Puts @entries, whose items it takes, in place of @removed items. Tells nobody. */
void  wb_steady_filter_put_entries  (WbSteadyFilter *self,
                                     guint           position,
                                     guint           removed,
                                     GArray         *entries);

/** Has what is pending looked at while the main loop turns. */
void  wb_steady_filter_work_soon    (WbSteadyFilter *self);

/* wb-steady-filter-source.c */
/** Takes a change of the source over, as "items-changed" tells of it. */
void  wb_steady_filter_follow       (WbSteadyFilter *self,
                                     guint           position,
                                     guint           removed,
                                     guint           added);

G_END_DECLS
