/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"
#include "core/wb-tag-ranges.h"

G_BEGIN_DECLS

/* What a person types or scans while counting, read against the inventory: which pieces of which
 * lot are meant. Nothing is guessed: a number that two lots have, or a range that takes in numbers
 * of no piece, is refused with a sentence. */

/**
 * WbCountPart:
 * @lot: (nullable): %NULL for pieces that have no lot
 * @listed: (element-type WbTagRange): tags that pieces have
 * @strays: (element-type WbTagRange): tags that no piece has: overages
 */
typedef struct
{
  const WbLot *lot;
  GArray      *listed;
  GArray      *strays;
} WbCountPart;

/** WbCountEntry: @parts: (element-type WbCountPart), one a lot; the counts are of tags. */
typedef struct
{
  GPtrArray *parts;
  gint64     n_listed;
  gint64     n_strays;
} WbCountEntry;

void          wb_count_entry_free (WbCountEntry *self);

/**
 * wb_count_entry_read:
 * @text: "1-40, 42, 57"; with several lots "teal 1-40; amber 7"; "3107-017" as on the tag; or what a
 *   scanner sends of a printed tag: see wb_tag_scan_parse()
 *
 * Reads as wb_tag_items_parse() does, and further:
 *
 * - a lot is named by its colour, its number, or both: "teal", "teal/3107"; "no lot" names the
 *   pieces that have none. It may be left out where the numbers leave no doubt;
 * - a number joined to the lot's number, as tags are printed, is one tag;
 * - a range counts pieces: each of its numbers must be on the inventory. A single number that is
 *   not is taken as an overage.
 *
 * Returns: (transfer full) (nullable): the entry, with no parts for empty text. %NULL with
 * %WB_CORE_ERROR_PARSE, _RANGE, or _MISSING when the job has no pieces.
 */
WbCountEntry *wb_count_entry_read (const WbJob  *job,
                                   const char   *text,
                                   GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): the entry for one piece; %NULL when it has no tag that can
 * be counted. */
WbCountEntry *wb_count_entry_for_piece (const WbJob   *job,
                                        const WbPiece *piece) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_count_find_piece:
 * @text: one tag, with its lot where that is needed
 *
 * Returns: (transfer none) (nullable): the one piece meant, or %NULL with an error.
 */
const WbPiece *wb_count_find_piece (const WbJob  *job,
                                    const char   *text,
                                    GError      **error);

/**
 * wb_count_marks_read:
 * @text: a tag and marks: "42 SC 4-8, BR 3", "teal 42: CH 3"
 * @piece: (out) (transfer none): the piece meant
 * @marks: (out) (transfer full): canonical text of the marks
 *
 * Returns: %FALSE with an error when the tag or the marks do not read, or either is missing.
 */
gboolean      wb_count_marks_read (const WbJob    *job,
                                   const char     *text,
                                   const WbPiece **piece,
                                   char          **marks,
                                   GError        **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "teal 3107"; "" for %NULL. */
char         *wb_count_lot_name   (const WbLot    *lot) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbCountEntry, wb_count_entry_free)

G_END_DECLS
