/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The main window. */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

#define WB_TYPE_WINDOW (wb_window_get_type ())

G_DECLARE_FINAL_TYPE (WbWindow, wb_window, WB, WINDOW, AdwApplicationWindow)

WbWindow *wb_window_new (GtkApplication *application) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
