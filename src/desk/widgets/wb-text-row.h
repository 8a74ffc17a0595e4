/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A row in which a person types text of several lines: notes. Leaving the row or Ctrl+Enter sets
 * the value. */
#pragma once

#include <adwaita.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Properties: "model", "field" ("order.notes"), "record-id". */
#define WB_TYPE_TEXT_ROW (wb_text_row_get_type ())
G_DECLARE_FINAL_TYPE (WbTextRow, wb_text_row, WB, TEXT_ROW, AdwPreferencesRow)

/** Gives up what is typed and not set yet. Returns: whether there was something. */
gboolean wb_text_row_revert (WbTextRow *self);

G_END_DECLS
