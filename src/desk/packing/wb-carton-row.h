/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One carton in the list of cartons: what it is, who packed and looked at it, and what its checks
 * say, in words. */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-packing.h"

G_BEGIN_DECLS

#define WB_TYPE_CARTON_ROW (wb_carton_row_get_type ())
G_DECLARE_FINAL_TYPE (WbCartonRow, wb_carton_row, WB, CARTON_ROW, GtkWidget)

GtkWidget  *wb_carton_row_new  (void) G_GNUC_WARN_UNUSED_RESULT;

/** Shows @piece; @caution: (nullable): a short caution of lifting. */
void        wb_carton_row_show (WbCartonRow     *self,
                                const WbJob     *job,
                                const WbPacking *packing,
                                const WbPiece   *piece,
                                const char      *caution);

G_END_DECLS
