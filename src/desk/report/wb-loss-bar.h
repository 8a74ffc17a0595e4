/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was asked and what is owed of it, as a bar: the filled part of the frame is owed. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define WB_TYPE_LOSS_BAR (wb_loss_bar_get_type ())
G_DECLARE_FINAL_TYPE (WbLossBar, wb_loss_bar, WB, LOSS_BAR, GtkWidget)

/** Has the bar show minor units of one currency, none negative. @scale: what its whole width stands
 * for, the same for all bars that are compared */
void wb_loss_bar_show (WbLossBar *self,
                       gint64     demanded,
                       gint64     owed,
                       gint64     scale);

G_END_DECLS
