/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the lines of the inventory come to, in words: how many, how heavy, and what is odd about
 * their tags. */
#pragma once

#include <gio/gio.h>

#include "core/wb-job.h"

G_BEGIN_DECLS

/**
 * wb_inventory_summary_count:
 * @shown: (element-type WbRecordItem): pieces
 * @n_all: pieces of the job
 *
 * Returns: (transfer full): "123 pieces · 4,310 lb · 2 without weight", "12 of 123 pieces · …" when
 * not all are shown.
 */
char *wb_inventory_summary_count    (GListModel *shown,
                                     guint       n_all) G_GNUC_WARN_UNUSED_RESULT;

/** @ids: (element-type utf8). Returns: (transfer full) (nullable): the tag and the condition of one
 * selected piece, count and weight of several, %NULL when none is selected. */
char *wb_inventory_summary_selected (const WbJob *job,
                                     GPtrArray   *ids) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_inventory_summary_tags:
 *
 * Returns: (transfer full) (nullable): markup that names missing, repeated and stray tags lot by
 * lot, a line each, %NULL when there are none. A missing tag is a link "enter:LOT/TAG", any other
 * "find:LOT/TAG"; LOT may be empty.
 */
char *wb_inventory_summary_tags     (const WbJob *job) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
