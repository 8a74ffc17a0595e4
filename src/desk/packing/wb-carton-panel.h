/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One carton: its caution of lifting, its packing checks, who packed and who looked. What is noted
 * here goes into the job through its model. */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-packing.h"
#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Property: "model".
 * Signals: "applied": the job was changed, and the panel wants to be shown anew at once; "go-on":
 * there is no open check behind the selected one; "leave": goes back to the cartons. */
#define WB_TYPE_CARTON_PANEL (wb_carton_panel_get_type ())
G_DECLARE_FINAL_TYPE (WbCartonPanel, wb_carton_panel, WB, CARTON_PANEL, GtkWidget)

/** Shows the carton with @piece (nullable), whose checks are in @packing (borrowed until shown
 * anew). What is being typed stays as long as it is the same carton. */
void        wb_carton_panel_show       (WbCartonPanel   *self,
                                        const WbPacking *packing,
                                        const char      *piece);

/** Whether the carton shown has checks. */
gboolean    wb_carton_panel_has_checks (WbCartonPanel   *self);

/** Notes how the selected check was kept and goes on to the next open one. */
void        wb_carton_panel_note       (WbCartonPanel   *self,
                                        WbCheck          state);
/** Notes that all open checks are met. */
void        wb_carton_panel_note_all   (WbCartonPanel   *self);

/** Gives the focus to the next open check, or to the first (@from_top). Returns: whether there is
 * one. */
gboolean    wb_carton_panel_go_to_open (WbCartonPanel   *self,
                                        gboolean         from_top);
/** Gives the focus to the selected check. */
gboolean    wb_carton_panel_focus      (WbCartonPanel   *self);

/** Shows @sentence (nullable) beneath the checks. */
void        wb_carton_panel_say        (WbCartonPanel   *self,
                                        const char      *sentence);

G_END_DECLS
