/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finding pieces by their tag, as a scanner or a person gives it. */
#pragma once

#include "core/wb-tag-scan.h"

G_BEGIN_DECLS

/** Returns: (transfer full) (element-type utf8): ids, which belong to @job, of the pieces that have
 * the tag; none when the tag names another job. */
GPtrArray  *wb_inventory_find_scan   (const WbJob     *job,
                                      const WbTagScan *scan) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): a sentence about @scan, of which wb_inventory_find_scan() found
 * nothing: it is of another job, its lot is not there, or no line has it. */
char       *wb_inventory_describe_miss (const WbJob     *job,
                                        const WbTagScan *scan) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_inventory_is_scan:
 * @scan: what @text says
 *
 * Returns: whether @text, which came as fast as a scanner sends it, is a tag and nothing that a
 *   person with quick fingers typed into a field: it says that it is a tag, or names a lot, or has
 *   at least four digits.
 */
gboolean    wb_inventory_is_scan     (const WbJob     *job,
                                      const WbTagScan *scan,
                                      const char      *text);

/** Returns: (transfer full) (element-type utf8): ids, which belong to @job, of the pieces with @tag
 * in the lot with the id @lot; %NULL for pieces without a lot. */
GPtrArray  *wb_inventory_find_in_lot (const WbJob *job,
                                      const char  *lot,
                                      gint64       tag) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer none): the one of @found that follows @current, else the first; so asking
 * again goes through all. @found must not be empty. */
const char *wb_inventory_find_next   (GPtrArray  *found,
                                      const char *current);

G_END_DECLS
