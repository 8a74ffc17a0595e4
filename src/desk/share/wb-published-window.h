/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is published on the office's servers: searched, looked at, checked and fetched. */
#pragma once

#include "desk/window/wb-window.h"

G_BEGIN_DECLS

#define WB_TYPE_PUBLISHED_WINDOW (wb_published_window_get_type ())
G_DECLARE_FINAL_TYPE (WbPublishedWindow, wb_published_window, WB, PUBLISHED_WINDOW, AdwWindow)

/** @main: where a job is shown that was fetched. Returns: (transfer none) */
GtkWidget *wb_published_window_new (WbWindow *main);

G_END_DECLS
