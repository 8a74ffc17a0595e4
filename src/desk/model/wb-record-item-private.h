/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For the record lists of the open job only. */
#pragma once

#include "desk/model/wb-record-item.h"

G_BEGIN_DECLS

/** Makes @record the item's value and notifies; the same pointer again is no change. The id must
 * stay. */
void wb_record_item_set_record (WbRecordItem  *self,
                                gconstpointer  record);

G_END_DECLS
