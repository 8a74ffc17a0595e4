/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A record of a list as a row that opens to show all its fields. */
#pragma once

#include <adwaita.h>

#include "desk/model/wb-job-model.h"
#include "desk/model/wb-record-item.h"

G_BEGIN_DECLS

/* Actions: "record.remove", "record.move-up", "record.move-down". On the row, Alt+Up, Alt+Down and,
 * on its heading, Ctrl+Delete. */
#define WB_TYPE_RECORD_ROW (wb_record_row_get_type ())
G_DECLARE_FINAL_TYPE (WbRecordRow, wb_record_row, WB, RECORD_ROW, AdwExpanderRow)

GtkWidget    *wb_record_row_new           (WbJobModel   *model,
                                           WbRecordItem *item) G_GNUC_WARN_UNUSED_RESULT;
WbRecordItem *wb_record_row_get_item      (WbRecordRow  *self);

/** Opens the row and puts the focus into its first field. */
void          wb_record_row_start_editing (WbRecordRow  *self);

/** Opens the row and puts the focus into @field (nullable), or on its heading without one. */
void          wb_record_row_reveal        (WbRecordRow  *self,
                                           const char   *field);

G_END_DECLS
