/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/* Both sides of a reckoning as two bars on one scale: the whole bar is the loss, its first part
 * what is owed, then what the deductible and the limits took. Each part has its own pattern and its
 * amount in a key below the bar; a line across the bar marks the limit of the shipment. What it
 * shows is in its accessible description too. */
#define WB_TYPE_RECKONING_BAR (wb_reckoning_bar_get_type ())
G_DECLARE_FINAL_TYPE (WbReckoningBar, wb_reckoning_bar, WB, RECKONING_BAR, GtkWidget)

/* Property: "reckoning" (WbReckoning, nullable). */

void wb_reckoning_bar_set_reckoning (WbReckoningBar *self,
                                     WbReckoning    *reckoning);

G_END_DECLS
