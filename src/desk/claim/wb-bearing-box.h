/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-reckoning.h"
#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* The section of the claim page that says who bears what is owed, splits lines by hand, states the
 * charges and follows what comes back.
 * Properties: "model" (WbJobModel), "claim-id" (string, nullable).
 * Actions: "bearing.split" (the chosen line), "bearing.state", "bearing.statements",
 * "bearing.remove-charge". */
#define WB_TYPE_BEARING_BOX (wb_bearing_box_get_type ())
G_DECLARE_FINAL_TYPE (WbBearingBox, wb_bearing_box, WB, BEARING_BOX, GtkWidget)

/** Shows who bears the claim that was reckoned; %NULL: it cannot be reckoned. */
void wb_bearing_box_show        (WbBearingBox *self,
                                 WbReckoning  *reckoning);

/** Chooses the line that is split next. */
void wb_bearing_box_select_line (WbBearingBox *self,
                                 const char   *line_id);

G_END_DECLS
