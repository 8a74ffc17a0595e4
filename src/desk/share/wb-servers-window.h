/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The file servers of the office: a list, to which servers are added, changed, tested, removed. */
#pragma once

#include <adwaita.h>

#include "office/wb-office.h"

G_BEGIN_DECLS

#define WB_TYPE_SERVERS_WINDOW (wb_servers_window_get_type ())
G_DECLARE_FINAL_TYPE (WbServersWindow, wb_servers_window, WB, SERVERS_WINDOW, AdwWindow)

/** Returns: (transfer none) */
GtkWidget *wb_servers_window_new (WbOffice *office);

G_END_DECLS
