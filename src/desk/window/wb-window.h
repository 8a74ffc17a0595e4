/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The main window: the jobs of one book beside the job that is open, or a start page while no book
 * is. */
#pragma once

#include <adwaita.h>

#include "desk/job/wb-job-page.h"
#include "desk/model/wb-open-jobs.h"

G_BEGIN_DECLS

/* Property "open-jobs" (WbOpenJobs, nullable): the jobs of the book that it shows.
 * Actions: "win.new-job", "win.open-job" (s), "win.show-due", "win.show-report",
 * "win.show-servers", "win.search", "win.open-book", "win.new-book", "win.save-bundle",
 * "win.save-papers", "win.open-bundle", "win.new-window", "win.close", "win.back", "win.help",
 * "win.show-keys". */
#define WB_TYPE_WINDOW (wb_window_get_type ())
G_DECLARE_FINAL_TYPE (WbWindow, wb_window, WB, WINDOW, AdwApplicationWindow)

WbWindow   *wb_window_new             (GtkApplication *application) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer none) (nullable). */
WbOpenJobs *wb_window_get_open_jobs   (WbWindow       *self);
void        wb_window_set_open_jobs   (WbWindow       *self,
                                       WbOpenJobs     *open_jobs);

/** Shows that the book at @path is being opened. */
void        wb_window_show_opening    (WbWindow       *self,
                                       const char     *path);
/** Shows why the book at @path was not opened, and the start page again if no book is open. */
void        wb_window_show_open_fault (WbWindow       *self,
                                       const char     *path,
                                       const GError   *error);

/** Loads and shows a job. */
void        wb_window_open_job        (WbWindow       *self,
                                       const char     *id);
/** Returns: (transfer none) (nullable): the job that is shown. */
WbJobPage  *wb_window_get_job_page    (WbWindow       *self);

/** Returns: name of the help page about what is shown. */
const char *wb_window_get_help_topic  (WbWindow       *self);

G_END_DECLS
