/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ribbon of a job: who held the goods when, one part between two handovers, as wide as its days
 * allow, and below each handover its date and what it says about the piece that is looked at. The
 * parts are buttons, so that the keyboard reaches them and a screen reader says them. */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-trail.h"

G_BEGIN_DECLS

/* Signals: "handover-chosen" (guint place): a part was activated; the place of the handover that
 * began it. */
#define WB_TYPE_TRAIL_RIBBON (wb_trail_ribbon_get_type ())
G_DECLARE_FINAL_TYPE (WbTrailRibbon, wb_trail_ribbon, WB, TRAIL_RIBBON, GtkWidget)

/**
 * wb_trail_ribbon_show:
 * @handover: place of the handover that is looked at, or -1
 * @piece: place of the piece whose path is to be seen, or -1
 * @today: to which goods under way have been held so far
 */
void wb_trail_ribbon_show (WbTrailRibbon *self,
                           const WbTrail *trail,
                           gint           handover,
                           gint           piece,
                           const GDate   *today);

G_END_DECLS
