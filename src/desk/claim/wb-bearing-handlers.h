/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-apportion.h"

G_BEGIN_DECLS

/* What each handler bears in all: its name, a bar on one scale, and the amount, which answers
 * "why?" with its lines; where a limit cuts it, that is said below. Those that had nothing to do
 * with the claim are left out. */
#define WB_TYPE_BEARING_HANDLERS (wb_bearing_handlers_get_type ())
G_DECLARE_FINAL_TYPE (WbBearingHandlers, wb_bearing_handlers, WB, BEARING_HANDLERS, GtkWidget)

/** @apportionment: (nullable): is not kept */
void wb_bearing_handlers_show (WbBearingHandlers     *self,
                               const WbApportionment *apportionment);

G_END_DECLS
