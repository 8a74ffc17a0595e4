/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A vertical scroller that is as high as its content at the width it has, and scrolls only where
 * there is no room for that. A GtkScrolledWindow would take the height of its content at the
 * content's natural width, which is too little for rows that wrap. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define WB_TYPE_FIT_SCROLLER (wb_fit_scroller_get_type ())

G_DECLARE_FINAL_TYPE (WbFitScroller, wb_fit_scroller, WB, FIT_SCROLLER, GtkWidget)

/** Returns: (transfer floating): an empty scroller; its content is its property "child". */
GtkWidget *wb_fit_scroller_new (void) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
