/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What happens between the wish to close a window and its end: whatever is unsaved goes into the
 * book first. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-open-jobs.h"

G_BEGIN_DECLS

/**
 * wb_window_closing_start:
 *
 * Stores what is unsaved and then destroys @window. When that takes long a small dialog says so;
 * when it fails a dialog says why and asks. The window stays when the person wants it to. Calling
 * it again while it runs does nothing.
 */
void wb_window_closing_start (GtkWindow  *window,
                              WbOpenJobs *open_jobs);

G_END_DECLS
