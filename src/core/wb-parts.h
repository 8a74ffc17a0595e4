/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/* Things in several pieces: an article taken apart, whose parts carry its name in "article" and say
 * "part 2 of 4" at the end of their description; and pairs and sets, whose pieces carry one name in
 * "set". Parts may have tags of different lots. Nothing here is an error of a record: a person
 * looks at it and decides. */

/**
 * wb_part_parse:
 * @text: (nullable): a description: "king bed, part 2 of 4", "king bed (2/4)", "rail 2 of 2"
 * @part: (out): the number, or %WB_INTEGER_UNSET
 * @of: (out): how many there are, or %WB_INTEGER_UNSET
 *
 * Returns: (transfer full): the description without it; all of it when it names no part.
 */
char *wb_part_parse          (const char   *text,
                              gint64       *part,
                              gint64       *of) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "king bed, part 2 of 4"; without "of 4" when @of is not given. */
char *wb_part_to_text        (const char   *name,
                              gint64        part,
                              gint64        of) G_GNUC_WARN_UNUSED_RESULT;

typedef enum
{
  WB_GROUP_GOOD       = 0,
  WB_GROUP_ALONE      = 1 << 0,  /* an article of one part, or a set of one thing */
  WB_GROUP_MISSING    = 1 << 1,  /* a number up to the largest one named is on no part */
  WB_GROUP_REPEATED   = 1 << 2,  /* two parts have the same number */
  WB_GROUP_UNNUMBERED = 1 << 3,  /* some parts say a number and some do not */
  WB_GROUP_DISAGREE   = 1 << 4,  /* parts say different numbers of parts */
} WbGroupFault;

/**
 * WbGroup:
 * @name: belongs to the job
 * @is_set: a pair or set; else an article
 * @pieces: (element-type WbPiece): in the job's order; they belong to the job
 * @faults: flags of #WbGroupFault
 * @missing: (element-type gint64): numbers of parts that are not there, ascending
 */
typedef struct
{
  const char *name;
  gboolean    is_set;
  GPtrArray  *pieces;
  guint       faults;
  GArray     *missing;
} WbGroup;

void       wb_group_free          (WbGroup      *self);

/** Returns: (transfer full) (element-type WbGroup): the articles of several parts in the order of
 * their first pieces, then the sets. */
GPtrArray *wb_groups_find         (const WbJob  *job) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): a name for the article of which @piece becomes the first part: what it
 * is, with a number when another article has that name. */
char      *wb_parts_name          (const WbJob   *job,
                                   const WbPiece *piece) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_parts_number:
 * @article: name of an article
 *
 * Numbers the parts: numbers that are there stay as long as no two are the same, the others get the
 * lowest ones that are free, and all say how many parts there are: as many as the largest number
 * named, or as there are pieces.
 * Returns: (transfer full) (element-type WbPiece): the pieces whose description becomes another.
 */
GPtrArray *wb_parts_number        (const WbJob   *job,
                                   const char    *article) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbGroup, wb_group_free)

G_END_DECLS
