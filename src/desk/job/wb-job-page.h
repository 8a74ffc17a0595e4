/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One open job: its header, its pages, undo, and what the book says to its changes. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Properties: "model" (WbJobModel), for construction only; "show-back" (gboolean): the list of jobs
 * is hidden, offer the way back.
 * Signal "leave": the job was removed elsewhere and the person wants it gone.
 * Actions: "job.show-page" (s: a name in wb-page-list.c), "job.reveal" (sss: see
 * wb_job_page_reveal(), with the name of the kind and "" for %NULL), "job.note-contact": goes to
 * the contact log and adds an entry; "job.undo", "job.redo", "job.store", and "job.tell" (s),
 * with which a page says what it just did to the model; the sentence is shown with a button that
 * undoes it; "job.warn" (s): says why something was not done. */
#define WB_TYPE_JOB_PAGE (wb_job_page_get_type ())
G_DECLARE_FINAL_TYPE (WbJobPage, wb_job_page, WB, JOB_PAGE, GtkWidget)

GtkWidget  *wb_job_page_new          (WbJobModel *model) G_GNUC_WARN_UNUSED_RESULT;
WbJobModel *wb_job_page_get_model    (WbJobPage  *self);

/** Returns: (transfer none): the page that is shown. */
GtkWidget  *wb_job_page_get_visible  (WbJobPage  *self);
/** Returns: (transfer none): its name in wb-page-list.c. */
const char *wb_job_page_get_visible_name (WbJobPage *self);
void        wb_job_page_show         (WbJobPage  *self,
                                      const char *name);

/** Shows the page on which records of @kind are filled in and goes to one field there: see
 * wb_reveal(). */
void        wb_job_page_reveal       (WbJobPage  *self,
                                      WbKind      kind,
                                      const char *id,
                                      const char *field);

/** Asks the office's servers anew how the job stands there. */
void        wb_job_page_ask_servers  (WbJobPage  *self);

/** Sets what is typed and not set yet, by taking the focus from it. */
void        wb_job_page_settle       (WbJobPage  *self);

G_END_DECLS
