/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks what to do when a job was changed here and elsewhere at the same time. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/**
 * wb_conflict_dialog_show:
 * @page: the page of the job, in a window
 *
 * Asks, and does to @model what was chosen. A removed job that shall stay removed is left by the
 * action "job.leave" of @page. The dialog goes away by itself when the question was answered in
 * another window.
 * Returns: (transfer none): the dialog, shown.
 */
GtkWidget *wb_conflict_dialog_show (GtkWidget  *page,
                                    WbJobModel *model);

G_END_DECLS
