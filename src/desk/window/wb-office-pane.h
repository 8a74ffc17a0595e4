/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the main window shows of a book: its jobs beside the job that is open, or one after the
 * other where there is room for one. It is made when the first book is shown, since the first frame
 * of the program has no need of it. Which job that is, and what becomes of it, is the window's. */
#pragma once

#include <adwaita.h>

#include "desk/job/wb-job-page.h"
#include "desk/jobs/wb-job-list.h"
#include "desk/model/wb-open-jobs.h"

G_BEGIN_DECLS

#define WB_TYPE_OFFICE_PANE (wb_office_pane_get_type ())
G_DECLARE_FINAL_TYPE (WbOfficePane, wb_office_pane, WB, OFFICE_PANE, AdwBin)

/** @menu: the main menu */
GtkWidget *wb_office_pane_new           (GMenuModel   *menu) G_GNUC_WARN_UNUSED_RESULT;

/** Lists the jobs of a book, and shows none of them. @open_jobs: (nullable) */
void       wb_office_pane_set_open_jobs (WbOfficePane *self,
                                         WbOpenJobs   *open_jobs);
/** Returns: (transfer none). */
WbJobList *wb_office_pane_get_jobs      (WbOfficePane *self);

/** Shows a job, or that none is open. @page: (nullable) (transfer floating) */
void       wb_office_pane_set_job_page  (WbOfficePane *self,
                                         WbJobPage    *page);
/** Returns: (transfer none) (nullable). */
WbJobPage *wb_office_pane_get_job_page  (WbOfficePane *self);

/** Where there is room for one of them only, shows the list, or the job. */
void       wb_office_pane_turn_to_jobs  (WbOfficePane *self);
void       wb_office_pane_turn_to_job   (WbOfficePane *self);

G_END_DECLS
