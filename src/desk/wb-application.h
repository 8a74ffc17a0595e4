/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The application: one process, one window for each open office book. */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

#define WB_TYPE_APPLICATION (wb_application_get_type ())

G_DECLARE_FINAL_TYPE (WbApplication, wb_application, WB, APPLICATION, AdwApplication)

WbApplication *wb_application_new (void) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
