/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the open job is packed: cartons and materials planned and used, and the packing checks of
 * each carton. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Property: "model". */
#define WB_TYPE_PACKING_PAGE (wb_packing_page_get_type ())
G_DECLARE_FINAL_TYPE (WbPackingPage, wb_packing_page, WB, PACKING_PAGE, GtkWidget)

GtkWidget  *wb_packing_page_new    (WbJobModel    *model) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (nullable) (transfer none): id of the carton whose checks are shown. */
const char *wb_packing_page_get_selected (WbPackingPage *self);

G_END_DECLS
