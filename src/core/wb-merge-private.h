/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the merge share among themselves. */
#pragma once

#include "core/wb-merge.h"

G_BEGIN_DECLS

/**
 * WbMerge:
 * @ids: for each kind all ids of the three jobs, base first, then mine, then theirs
 * @items: (element-type WbMergeItem)
 * @firsts: for each kind, id → index of the first item of that record; its other items follow
 * @links: for each item the one it is chosen with, or itself; see wb_merge_leader()
 * @nexts: for each item the next of its group, in a ring; itself when it stands alone
 */
struct _WbMerge
{
  WbJob      *base;
  WbJob      *mine;
  WbJob      *theirs;
  GPtrArray  *ids[WB_N_KINDS];
  GPtrArray  *items;
  GHashTable *firsts[WB_N_KINDS];
  GArray     *links;
  guint      *nexts;
};

/** @owner: all records of one kind that have the same record in this reference are chosen together
 * once both sides changed them. */
const char         *wb_merge_set_owner      (WbKind               kind);

/** Returns: a number that fields of one kind share when they only have a meaning together; 0 for a
 * field that stands alone. */
guint               wb_merge_field_group    (WbKind               kind,
                                             const WbField       *field);

/** Makes the items of fields and records, links those that are chosen together, and finds what
 * cannot stand together. */
void                wb_merge_compare        (WbMerge             *self);
void                wb_merge_link           (WbMerge             *self);
void                wb_merge_find_clashes   (WbMerge             *self);
/** Adds the item for the order of @kind, if that was changed. */
void                wb_merge_compare_order  (WbMerge             *self,
                                             WbKind               kind);

WbMergeItem        *wb_merge_add            (WbMerge             *self,
                                             WbMergeWhat          what,
                                             WbMergeSide          side,
                                             WbKind               kind,
                                             const char          *id);
/** Returns: index of the first item that leads all that are chosen with item @index. */
guint               wb_merge_leader         (const WbMerge       *self,
                                             guint                index);

/** Finds the items of one record: @n of them from the index returned. */
guint               wb_merge_items_of       (const WbMerge       *self,
                                             WbKind               kind,
                                             const char          *id,
                                             guint               *n);

/**
 * wb_merge_compose:
 * @pick: taken for a conflict that is not decided
 *
 * Returns: (transfer full) (nullable): the record as it is in the result, before clashes and
 * references are looked at; %NULL when it is not there.
 */
WbRecord           *wb_merge_compose        (const WbMerge       *self,
                                             WbKind               kind,
                                             const char          *id,
                                             WbMergeChoice        pick) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (element-type utf8): @kept, the ids of @kind in the result (a set), in
 * the order that comes of both sides; the ids belong to the jobs. */
GPtrArray          *wb_merge_arrange        (const WbMerge       *self,
                                             WbKind               kind,
                                             GHashTable          *kept) G_GNUC_WARN_UNUSED_RESULT;

/** Lets the records yield that do not keep what two cannot both have. @records: for each kind, id →
 * WbRecord (transfer full). */
void                wb_merge_settle_clashes (const WbMerge       *self,
                                             GHashTable         **records);

G_END_DECLS
