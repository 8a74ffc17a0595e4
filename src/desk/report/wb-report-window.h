/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What finished claims teach and what open ones come to, as a window of its own. */
#pragma once

#include <adwaita.h>

#include "office/wb-office.h"

G_BEGIN_DECLS

#define WB_TYPE_REPORT_WINDOW (wb_report_window_get_type ())
G_DECLARE_FINAL_TYPE (WbReportWindow, wb_report_window, WB, REPORT_WINDOW, AdwWindow)

/* Signals: "open-claim" (const char *job_id, const char *line_id): somebody chose a claim line. */

/** Returns: (transfer none): a window that gathers the claims of @office when it is made. */
GtkWidget *wb_report_window_new (WbOffice *office);

G_END_DECLS
