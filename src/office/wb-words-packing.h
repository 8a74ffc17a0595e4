/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a job's packing says, in words: the same in the window, at a claim and on the command
 * line. */
#pragma once

#include "core/wb-packing.h"

G_BEGIN_DECLS

/** Returns: (transfer full): "Dish carton", or the job's own words when the catalogue does not know
 * them. */
char *wb_words_packing_item     (const WbPackingRow     *row) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): a number; "–" for %WB_INTEGER_UNSET. */
char *wb_words_packing_number   (gint64                  number) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): "3 more", "2 fewer", "as planned"; "–" for %WB_INTEGER_UNSET. */
char *wb_words_packing_difference (gint64                difference) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): what the pieces of one form come to, as one sentence, with what is
 * usual and what is not known said so. */
char *wb_words_packing_totals   (const WbPackingTotals  *totals,
                                 WbForm                  form) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "All 8 met", "6 met, 1 unmet, 1 not looked at"; "No checks" when there
 * are none. */
char *wb_words_packing_counts   (WbPackingCounts         counts) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): a check's short name; its nick when the catalogue has it no longer. */
char *wb_words_packing_check    (const WbPackingState   *state) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): "Unmet (looked at by Ruthie, 6 Oct 2025): top bulged"; "Not looked
 * at". */
char *wb_words_packing_state    (const WbPackingState   *state) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_words_packing_evidence:
 *
 * What the packing of @piece says at a claim: who packed it, who looked at it, and each check that
 * was unmet or not looked at. Checks that were met are only counted.
 * Returns: (transfer full) (element-type utf8): sentences, several; empty for a piece without
 * checks.
 */
GPtrArray *wb_words_packing_evidence (const WbPacking   *packing,
                                      const WbPiece     *piece) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): a short caution for a list: "Heavy: 62 lb", "Heavy: usually
 * 60 lb"; %NULL for none. */
char *wb_words_lift_short       (WbLift                  lift,
                                 WbWeight                weight) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full) (nullable): the caution in full, with what it goes by; %NULL for
 * none. */
char *wb_words_lift             (WbLift                  lift,
                                 WbWeight                weight,
                                 const WbCatalogEntry   *entry,
                                 WbWeight                threshold) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
