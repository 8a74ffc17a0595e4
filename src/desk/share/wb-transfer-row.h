/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One job on its way to a server or from it: how far it is, what went wrong, and what can be done. */
#pragma once

#include <gtk/gtk.h>

#include "office/wb-queue.h"

G_BEGIN_DECLS

/* Signal: "merge": the job was changed there, and the person wants to compare. Whoever shows the row
 * does it, with wb_transfer_row_get_item(). */
#define WB_TYPE_TRANSFER_ROW (wb_transfer_row_get_type ())
G_DECLARE_FINAL_TYPE (WbTransferRow, wb_transfer_row, WB, TRANSFER_ROW, GtkWidget)

GtkWidget   *wb_transfer_row_new      (WbOffice      *office,
                                       WbQueueItem   *item);
WbQueueItem *wb_transfer_row_get_item (WbTransferRow *self);
/** Returns: (transfer full): all that the row says, as one sentence. */
char        *wb_transfer_row_describe (WbTransferRow *self) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
