/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One file server as a person fills it in, tests it and stores it. */
#pragma once

#include <adwaita.h>

#include "office/wb-server-settings.h"

G_BEGIN_DECLS

/* Signal: "stored" (WbSecretPlace as int; -1 when no secret was typed): the server is in the book;
 * the window closes. */
#define WB_TYPE_SERVER_EDITOR (wb_server_editor_get_type ())
G_DECLARE_FINAL_TYPE (WbServerEditor, wb_server_editor, WB, SERVER_EDITOR, AdwWindow)

/** @server: (nullable): one of the book; %NULL for a new one. Returns: (transfer none) */
GtkWidget *wb_server_editor_new (WbOffice       *office,
                                 const WbServer *server);

G_END_DECLS
