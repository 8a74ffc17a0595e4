/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The windows about file servers that a main window opens, one of each; they go with it, and when it
 * shows another book. */
#pragma once

#include <gtk/gtk.h>

#include "office/wb-office.h"

G_BEGIN_DECLS

void wb_share_windows_show_servers (GtkWindow *window,
                                    WbOffice  *office);
/** Closes what was opened for @window. */
void wb_share_windows_close        (GtkWindow *window);

G_END_DECLS
