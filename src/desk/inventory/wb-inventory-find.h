/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finding pieces by their tag, as a scanner or a person gives it. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/**
 * wb_inventory_parse_tag:
 * @text: "17", or "204-017" with the number of the lot
 * @lot_number: (out) (transfer full) (nullable): the number of the lot, %NULL when not given
 *
 * Returns: %FALSE when @text is no tag.
 */
gboolean    wb_inventory_parse_tag   (const char  *text,
                                      char       **lot_number,
                                      gint64      *tag);

/** Returns: (transfer full) (element-type utf8): ids, which belong to @job, of the pieces with
 * @tag; of lots with that number only when @lot_number is given. */
GPtrArray  *wb_inventory_find_tag    (const WbJob *job,
                                      const char  *lot_number,
                                      gint64       tag) G_GNUC_WARN_UNUSED_RESULT;
/** As wb_inventory_find_tag(), for the lot with the id @lot; %NULL for pieces without a lot. */
GPtrArray  *wb_inventory_find_in_lot (const WbJob *job,
                                      const char  *lot,
                                      gint64       tag) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer none): the one of @found that follows @current, else the first; so asking
 * again goes through all. @found must not be empty. */
const char *wb_inventory_find_next   (GPtrArray  *found,
                                      const char *current);

G_END_DECLS
