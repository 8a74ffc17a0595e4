/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A window in which the room, the packing and the kind of carton of many lines are changed in one
 * step. */
#pragma once

#include <adwaita.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Signal "changed" (const char *sentence): the lines were changed; the sentence says how many. */
#define WB_TYPE_BULK_DIALOG (wb_bulk_dialog_get_type ())
G_DECLARE_FINAL_TYPE (WbBulkDialog, wb_bulk_dialog, WB, BULK_DIALOG, AdwWindow)

/**
 * wb_bulk_dialog_new:
 * @parent: (nullable): the window that it belongs to
 * @ids: (element-type utf8): pieces of the job
 *
 * A field starts with the value that all pieces share, and is changed only when the person ticks or
 * types in it.
 */
WbBulkDialog *wb_bulk_dialog_new (GtkWindow  *parent,
                                  WbJobModel *model,
                                  GPtrArray  *ids) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
