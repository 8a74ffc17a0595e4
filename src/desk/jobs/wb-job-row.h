/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How one job looks in the list of jobs. */
#pragma once

#include <gtk/gtk.h>

#include "desk/jobs/wb-job-item.h"

G_BEGIN_DECLS

/* Property "item" (WbJobItem, nullable). */
#define WB_TYPE_JOB_ROW (wb_job_row_get_type ())
G_DECLARE_FINAL_TYPE (WbJobRow, wb_job_row, WB, JOB_ROW, GtkWidget)

G_END_DECLS
