/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page of the open job that shows its valuation: both choices of liability explained with the
 * shipment's own figures, which one applies and why, and what the shipper chose and signed. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Property: "model" (WbJobModel), for construction only.
 * Action: "valuation.use-charge" (uu): takes a side's deductible, by its place in the terms' list,
 * and its charge. */
#define WB_TYPE_VALUATION_PAGE (wb_valuation_page_get_type ())
G_DECLARE_FINAL_TYPE (WbValuationPage, wb_valuation_page, WB, VALUATION_PAGE, GtkWidget)

GtkWidget *wb_valuation_page_new (WbJobModel *model) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
