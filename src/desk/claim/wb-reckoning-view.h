/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/* A reckoning whole: what is unusual about it in words, both choices as a drawing and as totals
 * side by side, and the lines. */
#define WB_TYPE_RECKONING_VIEW (wb_reckoning_view_get_type ())
G_DECLARE_FINAL_TYPE (WbReckoningView, wb_reckoning_view, WB, RECKONING_VIEW, GtkWidget)

/**
 * wb_reckoning_view_show:
 * @reckoning: (nullable): %NULL when it could not be made
 * @fault: (nullable): why not, for a person
 */
void wb_reckoning_view_show (WbReckoningView *self,
                             WbReckoning     *reckoning,
                             const char      *fault);

G_END_DECLS
