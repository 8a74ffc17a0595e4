/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-valuation-preview.h"

G_BEGIN_DECLS

/* One choice of liability explained with the shipment's own figures, and the deductibles that it
 * offers with their charges. A press on one of them activates "valuation.use-charge" with (side,
 * place in the list). */
#define WB_TYPE_SIDE_PANEL (wb_side_panel_get_type ())
G_DECLARE_FINAL_TYPE (WbSidePanel, wb_side_panel, WB, SIDE_PANEL, GtkWidget)

void wb_side_panel_show (WbSidePanel              *self,
                         const WbValuationPreview *preview,
                         WbSide                    side);

G_END_DECLS
