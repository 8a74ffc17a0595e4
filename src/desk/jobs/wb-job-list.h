/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of the jobs of a book with a search above it. */
#pragma once

#include <gtk/gtk.h>

#include "office/wb-office.h"

G_BEGIN_DECLS

/* Property "office" (WbOffice, nullable). Signal "open-job" (const char *id): the person wants to
 * see it.
 * Action "jobs.open" (s): the same. */
#define WB_TYPE_JOB_LIST (wb_job_list_get_type ())
G_DECLARE_FINAL_TYPE (WbJobList, wb_job_list, WB, JOB_LIST, GtkWidget)

/** Puts the focus into the search and marks what stands there. */
void wb_job_list_start_search (WbJobList  *self);

/** Shows all jobs again, whatever was searched for. */
void wb_job_list_end_search   (WbJobList  *self);

/** Asks the book again, for when somebody else may have written to it. */
void wb_job_list_refresh      (WbJobList  *self);

/** Selects the job that is shown beside the list, if it is in it. */
void wb_job_list_select       (WbJobList  *self,
                               const char *id);

G_END_DECLS
