/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/* The totals of a claim under one side, a line an amount; each answers "why?". */
#define WB_TYPE_SIDE_TOTALS (wb_side_totals_get_type ())
G_DECLARE_FINAL_TYPE (WbSideTotals, wb_side_totals, WB, SIDE_TOTALS, GtkWidget)

/** @reckoning: (nullable): %NULL shows nothing. */
void wb_side_totals_show (WbSideTotals *self,
                          WbReckoning  *reckoning,
                          WbSide        side);

G_END_DECLS
