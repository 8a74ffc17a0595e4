/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"
#include "core/wb-tag-ranges.h"

G_BEGIN_DECLS

/* What the tag numbers of an inventory say together: which are missing in a lot's sequence, which
 * stand on two lines, which the roll of tags does not have. Nothing here is an error of a record: a
 * person looks at it and decides. */

/** WbTagRepeat: @tag stands on @count lines, at least two. */
typedef struct
{
  gint64 tag;
  guint  count;
} WbTagRepeat;

/**
 * WbTagSheet:
 * @lot: (nullable): the lot; %NULL for pieces that name none
 * @n_pieces: pieces of the lot
 * @n_untagged: of them, how many have no tag number
 * @highest: largest tag number used, or %WB_INTEGER_UNSET
 * @missing: (element-type WbTagRange): numbers not used, from the lot's first (or the lowest used
 *   when the lot names no first, or a used one is below it) up to @highest. The unused end of a
 *   roll is not missing. Always empty without a lot.
 * @repeats: (element-type WbTagRepeat): numbers used more than once
 * @outside: (element-type WbTagRange): numbers used that are not on the roll
 *
 * The tags of one lot; all three lists ascend.
 */
typedef struct
{
  const WbLot *lot;
  guint        n_pieces;
  guint        n_untagged;
  gint64       highest;
  GArray      *missing;
  GArray      *repeats;
  GArray      *outside;
} WbTagSheet;

void        wb_tag_sheet_free  (WbTagSheet       *self);

/** Returns: whether there is anything in @self to look at. */
gboolean    wb_tag_sheet_is_clean (const WbTagSheet *self);

/**
 * wb_tags_check:
 *
 * Returns: (transfer full) (element-type WbTagSheet): one sheet for each lot in the job's order,
 * then, when there are pieces without a lot, one for them. The lots belong to @job.
 */
GPtrArray  *wb_tags_check      (const WbJob      *job) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_tags_next:
 * @lot: (nullable): id of a lot, or %NULL for pieces without one
 * @after: a tag number, or %WB_INTEGER_UNSET to start at the lot's first
 *
 * Returns: the lowest number above @after that no piece of the lot uses, or %WB_INTEGER_UNSET when
 * the roll ends before it.
 */
gint64      wb_tags_next       (const WbJob *job,
                                const char  *lot,
                                gint64       after);

/** Returns: how many pieces of @lot (nullable) use @tag, the piece with id @except (nullable) left
 * out. */
guint       wb_tags_count      (const WbJob *job,
                                const char  *lot,
                                gint64       tag,
                                const char  *except);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbTagSheet, wb_tag_sheet_free)

G_END_DECLS
