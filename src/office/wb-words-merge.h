/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Differences of two versions of a job as a person reads them: what differs, how it was, how it is
 * here and there, and what becomes of what cannot be kept. “Here” is mine of the merge, “there” is
 * theirs. */
#pragma once

#include "core/wb-merge.h"

G_BEGIN_DECLS

/**
 * WbMergeJobs:
 * @base: (nullable): what both started from
 *
 * The jobs that a merge was made of, borrowed; records are named with them.
 */
typedef struct
{
  const WbJob *base;
  const WbJob *mine;
  const WbJob *theirs;
} WbMergeJobs;

/** Returns: (transfer full): what the difference is at: "Piece blue 204-017, Dining table"; of an
 * order of records their kind. */
char *wb_words_merge_record (const WbMergeJobs *jobs,
                             const WbMergeItem *item) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): what of it differs: the field's label, "Added or removed", "Order". */
char *wb_words_merge_what   (const WbMergeItem *item) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_words_merge_text:
 * @whose: a side, or %WB_MERGE_UNDECIDED for how it was
 *
 * Returns: (transfer full) (nullable): the value, what a record holds or what was done to it, or how
 *   the order goes; %NULL when it is not known how it was.
 */
char *wb_words_merge_text   (const WbMergeJobs *jobs,
                             const WbMergeItem *item,
                             WbMergeChoice      whose) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): one sentence on what becomes of the side that is not chosen,
 * where that is not plain: of two that cannot both have a value, of a record that is still needed. */
char *wb_words_merge_note   (const WbMergeJobs *jobs,
                             const WbMergeItem *item) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer none): where what is taken without a choice comes from: "Changed here only",
 * "Added there"; for a conflict which side was chosen, or "Not decided". */
const char *wb_words_merge_side (const WbMergeItem *item);

G_END_DECLS
