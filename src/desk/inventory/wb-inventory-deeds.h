/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changes of several lines at once, each a new job and a sentence when it cannot be. Pure: the
 * caller hands the job to the model. */
#pragma once

#include "core/wb-job.h"
#include "desk/inventory/wb-line.h"

G_BEGIN_DECLS

/** WbLineChange: what was typed for one field of many lines; empty text takes the value away. */
typedef struct
{
  WbLinePart  part;
  const char *text;
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

G_END_DECLS
