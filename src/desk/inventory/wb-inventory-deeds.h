/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changes of several lines at once, each a new job and a sentence when it cannot be. Pure: the
 * caller hands the job to the model. */
#pragma once

#include "core/wb-job.h"
#include "desk/inventory/wb-line.h"

G_BEGIN_DECLS

/**
 * WbLineChange: what was typed for one field of many lines
 * @text: empty text takes the value away
 * @add: for the condition: the marks are added to those that are there, which stay
 */
typedef struct
{
  WbLinePart  part;
  const char *text;
  gboolean    add;
} WbLineChange;

/**
 * wb_inventory_change:
 * @ids: (element-type utf8): pieces of @job
 * @changes: (array length=n_changes)
 * @bad: (out): with @error, which of @changes cannot be read
 *
 * Sets the same fields of all pieces. A loose piece that is given a kind of carton becomes a
 * carton.
 * Returns: (transfer full) (nullable): the changed job, or %NULL with @error, whose message is a
 * sentence for a person.
 */
WbJob *wb_inventory_change (const WbJob         *job,
                            GPtrArray           *ids,
                            const WbLineChange  *changes,
                            guint                n_changes,
                            guint               *bad,
                            GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_inventory_renumber:
 * @ids: (element-type utf8): pieces of @job, in the order in which they are numbered
 * @lot: (nullable): id of the lot that they get
 * @first: tag of the first, and one more for each that follows; %WB_INTEGER_UNSET: they keep theirs
 *
 * Returns: (transfer full) (nullable): the changed job, or %NULL with @error, whose message is a
 * sentence: the roll has no such tag, or a line that is not among them has it.
 */
WbJob *wb_inventory_renumber (const WbJob  *job,
                              GPtrArray    *ids,
                              const char   *lot,
                              gint64        first,
                              GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: how many of the pieces @ids are another in @after than in @before. */
guint  wb_inventory_count_changed (const WbJob *before,
                                   const WbJob *after,
                                   GPtrArray   *ids);

G_END_DECLS
