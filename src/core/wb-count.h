/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-count-entry.h"

G_BEGIN_DECLS

/* Counting off the pieces at a handover. Each deed gives a new job. A tally a lot holds the tags
 * counted; finishing writes what was not counted as short, so that findings alone decide later. */

/** Returns: (transfer full): an id that no record has. */
typedef char *(*WbNewId) (void);

/**
 * wb_count_add:
 * @handover: id
 *
 * Counts the tags of @entry: they go into the tallies, the count is under way from then, and a
 * shortage noted for one of them at this handover is taken back. Returns: (transfer full)
 * (nullable): %NULL with %WB_CORE_ERROR_RANGE when there is no such handover, its count is
 * finished, or a tally of it does not read.
 */
WbJob    *wb_count_add        (WbJob               *job,
                               const char          *handover,
                               const WbCountEntry  *entry,
                               WbNewId              new_id,
                               GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: how many tags of @entry are counted at @handover already. */
gint64    wb_count_n_again    (const WbJob         *job,
                               const char          *handover,
                               const WbCountEntry  *entry);

/** Counts one piece, also one without a tag, by a finding. Errors as wb_count_add(). */
WbJob    *wb_count_add_piece  (WbJob               *job,
                               const char          *handover,
                               const char          *piece,
                               WbNewId              new_id,
                               GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Takes one piece out of the count: its tag out of the tally, and a finding that says only that it
 * was there. Errors as wb_count_add(). */
WbJob    *wb_count_take_piece (WbJob               *job,
                               const char          *handover,
                               const char          *piece,
                               GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Takes tags of @lot (nullable) out of the count. Errors as wb_count_add(). */
WbJob    *wb_count_take_tags  (WbJob               *job,
                               const char          *handover,
                               const char          *lot,
                               const GArray        *tags,
                               GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_count_finish:
 *
 * Ends a count under way: every piece not counted gets a finding that it is short, every piece that
 * was short before and is counted one that it is present. Returns: (transfer full) (nullable):
 * %NULL with %WB_CORE_ERROR_RANGE when no count is under way, or as wb_count_add().
 */
WbJob    *wb_count_finish     (WbJob               *job,
                               const char          *handover,
                               WbNewId              new_id,
                               GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Opens a finished count again: shortages that say nothing else are taken back. */
WbJob    *wb_count_reopen     (WbJob               *job,
                               const char          *handover,
                               GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Gives a count under way up: its tallies go, and the goods are taken as listed again. */
WbJob    *wb_count_give_up    (WbJob               *job,
                               const char          *handover,
                               GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_count_note_marks:
 * @marks: canonical text
 *
 * Notes marks on a piece at a handover, beside what is noted there already; while a count is under
 * way the piece is counted by it. Refused for a piece that is short there.
 */
WbJob    *wb_count_note_marks (WbJob               *job,
                               const char          *handover,
                               const char          *piece,
                               const char          *marks,
                               WbNewId              new_id,
                               GError             **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
