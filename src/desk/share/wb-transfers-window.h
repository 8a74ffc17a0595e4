/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All that is on its way to servers and from them. */
#pragma once

#include "desk/window/wb-window.h"

G_BEGIN_DECLS

#define WB_TYPE_TRANSFERS_WINDOW (wb_transfers_window_get_type ())
G_DECLARE_FINAL_TYPE (WbTransfersWindow, wb_transfers_window, WB, TRANSFERS_WINDOW, AdwWindow)

/** @main: where a job is shown that had to be merged. Returns: (transfer none) */
GtkWidget *wb_transfers_window_new (WbWindow *main);

G_END_DECLS
