/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page of the open job that shows its order: people, stops, dates, estimate, weights. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Property: "model" (WbJobModel), for construction only.
 * Actions: "order.add-party", "order.add-stop", "order.add-weighing". It reveals fields of the
 * order and records in its lists: see wb-reveal.h. */
#define WB_TYPE_ORDER_PAGE (wb_order_page_get_type ())
G_DECLARE_FINAL_TYPE (WbOrderPage, wb_order_page, WB, ORDER_PAGE, GtkWidget)

GtkWidget *wb_order_page_new (WbJobModel *model) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
