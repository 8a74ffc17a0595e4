/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The texts of one line of the strip, without the strip: what a new line starts with, what the
 * texts make of a piece, what is odd about its tag. */
#pragma once

#include "desk/inventory/wb-line.h"

G_BEGIN_DECLS

/* A GStrv: the text of each #WbLinePart and, last, the id of the lot or "". */
#define WB_LINE_LOT WB_LINE_N_PARTS
#define WB_LINE_N_TEXTS (WB_LINE_N_PARTS + 1)

/** Returns: (transfer full): the texts of a line that is there. */
char          **wb_line_texts_of_piece (const WbPiece  *piece) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_line_texts_start:
 * @after: (nullable): the line before
 * @last: (nullable): the texts of the line before, where the strip has them
 *
 * Returns: (transfer full): what a new line starts with: the next tag of the lot, and what is
 * carried over.
 */
char          **wb_line_texts_start    (const WbJob    *job,
                                        const WbPiece  *after,
                                        char          **last) G_GNUC_WARN_UNUSED_RESULT;

/** Puts a copy of @text at @index. */
void            wb_line_texts_set      (char       **texts,
                                        int          index,
                                        const char  *text);
/** Returns: (transfer none) (nullable): id of the lot. */
const char     *wb_line_texts_get_lot  (char          **texts);
gboolean        wb_line_texts_equal    (char **a,
                                        char **b);
/** Whether nothing was typed that is new with this line. */
gboolean        wb_line_texts_are_bare (char          **texts);
/** Whether a field that few lines need has a text. */
gboolean        wb_line_texts_have_more (char         **texts);

/**
 * wb_line_texts_read:
 * @unless: (nullable): texts as they were before; a field with the same text is left alone
 * @piece: private to the caller
 * @errors: (array length=WB_LINE_N_PARTS) (out caller-allocated): for each field a sentence, or
 *   %NULL when it is good
 *
 * Returns: whether all fields could be read.
 */
gboolean        wb_line_texts_read     (char         **texts,
                                        char         **unless,
                                        WbPiece       *piece,
                                        const char    *currency,
                                        WbWeightUnit   unit,
                                        char         **errors);

/** Returns: (transfer none) (nullable): the piece of @lot (nullable) that was entered last,
 * whatever its tag; of any lot when @any. */
const WbPiece  *wb_line_find_last      (const WbJob *job,
                                        const char  *lot,
                                        gboolean     any);
/** Returns: (transfer full): the next free tag of @lot after that of @after (nullable), "" at the
 * end of the lot. */
char           *wb_line_next_tag       (const WbJob   *job,
                                        const char    *lot,
                                        const WbPiece *after) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full) (nullable): a sentence when @tag is "" because @lot has come to its
 * end. */
char           *wb_line_find_end       (const WbJob *job,
                                        const char  *lot,
                                        const char  *tag) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full) (nullable): a sentence when the tag is missing, used by another line or
 * not in the lot. */
char           *wb_line_find_oddity    (const WbJob   *job,
                                        const WbPiece *piece) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
