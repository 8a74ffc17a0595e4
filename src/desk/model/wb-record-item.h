/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gio/gio.h>

#include "core/wb-job.h"

G_BEGIN_DECLS

/* One record of the open job as a list item. The item stays the same object while its record
 * changes, so that selection and scroll position survive an edit; "record" (pointer) notifies. */
#define WB_TYPE_RECORD_ITEM (wb_record_item_get_type ())
G_DECLARE_FINAL_TYPE (WbRecordItem, wb_record_item, WB, RECORD_ITEM, GObject)

WbRecordItem  *wb_record_item_new        (gconstpointer  record);
/** Returns: (transfer none): the record's current value; a struct of its kind. */
gconstpointer  wb_record_item_get_record (WbRecordItem  *self);

G_END_DECLS
