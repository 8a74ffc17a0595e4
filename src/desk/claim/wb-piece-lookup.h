/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

#include "core/wb-job.h"

G_BEGIN_DECLS

/* Finding a piece of the inventory by what is typed: its tag, with or without the lot, or words of
 * what it is. */

/**
 * wb_piece_lookup:
 * @text: what is typed; every word of it must be found
 * @limit: most pieces to give
 *
 * Pieces whose tag is exactly @text come first, then tags that start with it, then the others in
 * the order of the inventory.
 * Returns: (transfer full) (element-type WbPiece): they belong to @job.
 */
GPtrArray     *wb_piece_lookup       (const WbJob   *job,
                                      const char    *text,
                                      guint          limit) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer none) (nullable): the one piece whose tag is @text ("17", "204-017", "blue
 * 204-017"); %NULL when there is none or more than one. */
const WbPiece *wb_piece_lookup_exact (const WbJob   *job,
                                      const char    *text);

/** Returns: (transfer full): what is on it, for a person to know it by: "dinner plates ·
 * Kitchen". */
char          *wb_piece_summary      (const WbPiece *piece) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
