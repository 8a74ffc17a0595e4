/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One part after the other of an article taken apart, as texts of the strip and as lines of the
 * inventory. Knows no widget. */
#pragma once

#include "desk/inventory/wb-line-texts.h"

G_BEGIN_DECLS

/**
 * wb_line_next_part:
 * @before: the part before, or what becomes the first part
 * @base: the texts that a new line starts with
 * @position: (out): where in the description its name ends, in characters
 *
 * Returns: (transfer full): the texts of the next part: the article's name, the description with
 * "part 2 of 4", what usually is the same for all parts. Condition, contents, weight and volume are
 * each part's own.
 */
char  **wb_line_next_part  (const WbJob    *job,
                            const WbPiece  *before,
                            char          **base,
                            int            *position) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_line_enter_part:
 * @piece: the new part
 * @before: id of the part before
 *
 * Returns: (transfer full): the job with @piece. As long as both are of one article, the part
 * before carries its name too, and all parts say their number and how many there are.
 */
WbJob  *wb_line_enter_part (const WbJob    *job,
                            WbPiece        *piece,
                            const char     *before) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
