/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Counting off one handover: tags typed or scanned, marks noted, the figures while they change, and
 * the lists of pieces. */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-trail.h"
#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Signals: "piece-chosen" (string id): a piece is looked at. */
#define WB_TYPE_COUNT_PANEL (wb_count_panel_get_type ())
G_DECLARE_FINAL_TYPE (WbCountPanel, wb_count_panel, WB, COUNT_PANEL, GtkWidget)

/** Shows @handover, a place in the job's order; what is being typed stays. */
void wb_count_panel_show        (WbCountPanel  *self,
                                 WbJobModel    *model,
                                 const WbTrail *trail,
                                 guint          handover);

/** Moves the focus to where tags, or marks, are typed. */
void wb_count_panel_focus_tags  (WbCountPanel  *self);
void wb_count_panel_focus_marks (WbCountPanel  *self);

/** Counts what @text says, as if it had been typed and Enter pressed; what is typed stays. */
void wb_count_panel_count       (WbCountPanel  *self,
                                 const char    *text);

/** Counts a piece, or takes it out of the count when it is counted. */
void wb_count_panel_toggle      (WbCountPanel  *self,
                                 const char    *piece);

/** Finishes the count, after asking when something becomes short. */
void wb_count_panel_finish      (WbCountPanel  *self);

G_END_DECLS
