/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A window with the lots of tags of a job: their colours, numbers and ranges, to be changed, added
 * and removed. */
#pragma once

#include <adwaita.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

#define WB_TYPE_LOT_EDITOR (wb_lot_editor_get_type ())
G_DECLARE_FINAL_TYPE (WbLotEditor, wb_lot_editor, WB, LOT_EDITOR, AdwWindow)

/** @parent: (nullable): the window that it belongs to. */
WbLotEditor *wb_lot_editor_new (GtkWindow  *parent,
                                WbJobModel *model) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
