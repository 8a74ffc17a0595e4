/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page of the open job that shows its order: people, stops, dates, estimate, weights. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Property: "model" (WbJobModel), for construction only.
 * Actions: "order.add-party", "order.add-stop", "order.add-weighing"; "order.show-field" (s): puts
 * the focus on "order.vehicle" or on the list of "party", "stop" or "weighing". */
#define WB_TYPE_ORDER_PAGE (wb_order_page_get_type ())
G_DECLARE_FINAL_TYPE (WbOrderPage, wb_order_page, WB, ORDER_PAGE, GtkWidget)

GtkWidget *wb_order_page_new (WbJobModel *model) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
