/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The handovers of the open job: the ribbon of who held the goods, the list of handovers, and
 * counting one off. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Properties: "model" (construct only). */
#define WB_TYPE_HANDOVERS_PAGE (wb_handovers_page_get_type ())
G_DECLARE_FINAL_TYPE (WbHandoversPage, wb_handovers_page, WB, HANDOVERS_PAGE, GtkWidget)

/** Returns: (transfer floating): the page of @model's job. */
GtkWidget *wb_handovers_page_new (WbJobModel *model) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
