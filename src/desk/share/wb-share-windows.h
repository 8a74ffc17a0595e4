/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The windows about file servers that a main window opens, one of each; they go with it, and when it
 * shows another book. */
#pragma once

#include <gtk/gtk.h>

#include "desk/window/wb-window.h"

G_BEGIN_DECLS

void wb_share_windows_show_servers (GtkWindow *window,
                                    WbOffice  *office);
void wb_share_windows_show_transfers (WbWindow *window);
void wb_share_windows_show_published (WbWindow *window);
/** Closes what was opened for @window. */
void wb_share_windows_close        (GtkWindow *window);

G_END_DECLS
