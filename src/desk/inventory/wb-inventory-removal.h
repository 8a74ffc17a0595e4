/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Removing lines, with a sentence for what goes along and for what holds a line back. Pure: the
 * caller hands the job to the model. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/**
 * wb_inventory_remove:
 * @ids: (element-type utf8): pieces of @job
 * @refusal: (out) (transfer full): when nothing can be removed, which piece is held by what
 *
 * A claim line, something noted or counted at a handover, a photo and a mark on one hold a piece;
 * its list of contents and its packing checks go with it.
 *
 * Returns: (transfer full) (nullable): the job without the pieces, or %NULL.
 */
WbJob *wb_inventory_remove           (const WbJob  *job,
                                      GPtrArray    *ids,
                                      char        **refusal) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "2 lines removed, with 12 lines of contents", by what @after lacks. */
char  *wb_inventory_describe_removal (const WbJob  *before,
                                      const WbJob  *after) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
