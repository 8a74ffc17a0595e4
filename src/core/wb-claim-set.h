/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/* What the piece of a claim line belongs to: a pair or a set, an article in several parts. That a
 * sound piece is claimed because its set was broken is allowed for government shipments (GAO
 * B-266119, seen); commercial tariffs mostly pay for the piece alone (from memory). The terms and
 * the adjuster decide; here is only what belongs together. Pure. */

/** WbMate: another piece of the set, and the line of the same claim that it is claimed by. */
typedef struct
{
  const WbPiece     *piece;
  const WbClaimLine *line;     /* (nullable) */
} WbMate;

/** Returns: (transfer full) (element-type WbMate): the other pieces of the set that the piece of
 * @line is of, in the inventory's order; empty when it is of none. They belong to @job. */
GArray    *wb_claim_set_mates   (const WbJob       *job,
                                 const WbClaimLine *line) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (element-type WbPiece): the other parts of the article that the piece
 * of @line is a part of. They share one article limit where the terms say so. */
GPtrArray *wb_claim_set_parts   (const WbJob       *job,
                                 const WbClaimLine *line) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (element-type WbClaimLine): the other lines of the same claim on the
 * same piece, or on a part of the same article. */
GPtrArray *wb_claim_set_sharers (const WbJob       *job,
                                 const WbClaimLine *line) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_claim_set_add_mates:
 * @line: a line of @job whose piece is of a set
 * @new_id: makes an id for each new line; (transfer full)
 *
 * Adds to the claim a line for every other piece of the set that no line of the claim is about:
 * sound itself, claimed because its set was broken, with the number that follows. Figures are for a
 * person to fill in.
 * Returns: (transfer full) (nullable): the job with them, or %NULL with %WB_CORE_ERROR_MISSING when
 * the piece is of no set or there is none to add.
 */
WbJob     *wb_claim_set_add_mates (const WbJob       *job,
                                   const WbClaimLine *line,
                                   char            *(*new_id) (void),
                                   GError           **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: the number after the largest one of the claim's lines. */
gint64     wb_claim_next_number (const WbJob       *job,
                                 const char        *claim_id);

G_END_DECLS
