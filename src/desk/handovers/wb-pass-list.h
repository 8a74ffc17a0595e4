/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The pieces at one handover: those left to count, short, over, with new marks, or all; as ranges
 * of tags and line by line. */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-trail.h"

G_BEGIN_DECLS

/* Signals: "piece-chosen" (nullable string id): another line is looked at; "piece-activated"
 * (string id): a line was activated, to be counted or taken out of the count. */
#define WB_TYPE_PASS_LIST (wb_pass_list_get_type ())
G_DECLARE_FINAL_TYPE (WbPassList, wb_pass_list, WB, PASS_LIST, GtkWidget)

/** Shows the pieces at @handover, a place in the job's order; the line looked at stays. */
void wb_pass_list_show (WbPassList    *self,
                        WbJob         *job,
                        const WbTrail *trail,
                        guint          handover);

G_END_DECLS
