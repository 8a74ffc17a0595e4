/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The application: one process, the books that its windows have open. */
#pragma once

#include <adwaita.h>

#include "desk/window/wb-window.h"

G_BEGIN_DECLS

/* Actions: "app.quit", "app.about", "app.preferences", "app.colour-scheme" (system, light,
 * dark). */
#define WB_TYPE_APPLICATION (wb_application_get_type ())
G_DECLARE_FINAL_TYPE (WbApplication, wb_application, WB, APPLICATION, AdwApplication)

WbApplication *wb_application_new       (void) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_application_open_book:
 * @path: file name of the book
 * @window: where it is shown, in place of what is there
 *
 * Opens the book in the background. Windows on the same book share it.
 */
void           wb_application_open_book (WbApplication *self,
                                         const char    *path,
                                         WbBookMode     mode,
                                         WbWindow      *window);

G_END_DECLS
