/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stores the open job a moment after it changed: one save at a time, failures tried again with
 * growing pauses, a clash with another window told and waited for. Works for the job model, which
 * holds the values. */
#pragma once

#include <gio/gio.h>

#include "office/wb-office.h"

G_BEGIN_DECLS

/* Properties: "unsaved" (gboolean), "fault" (nullable string).
 * Signals: "conflict": the book holds another value, now to be had from wb_job_saver_get_theirs();
 * nothing is stored until wb_job_saver_resolve(). "refreshed" (WbJob *before, WbJob *now): the book
 * held a newer value and nothing was unsaved: it is the base now. */
#define WB_TYPE_JOB_SAVER (wb_job_saver_get_type ())
G_DECLARE_FINAL_TYPE (WbJobSaver, wb_job_saver, WB, JOB_SAVER, GObject)

/** @stored: the job as the book has it */
WbJobSaver *wb_job_saver_new          (WbOffice    *office,
                                       WbJob       *stored) G_GNUC_WARN_UNUSED_RESULT;

/** @job is what the book should hold; @deed goes into the history. Starts a save soon. */
void        wb_job_saver_set_job      (WbJobSaver  *self,
                                       WbJob       *job,
                                       const char  *deed);

/** Returns: (transfer none): what the book had last, as far as is known. */
WbJob      *wb_job_saver_get_base     (WbJobSaver  *self);
/** Returns: (transfer none) (nullable): during a conflict what the book has; %NULL when it has the
 * job no longer. */
WbJob      *wb_job_saver_get_theirs   (WbJobSaver  *self);
gboolean    wb_job_saver_in_conflict  (WbJobSaver  *self);
gboolean    wb_job_saver_get_unsaved  (WbJobSaver  *self);
const char *wb_job_saver_get_fault    (WbJobSaver  *self);

/** Ends a conflict: theirs becomes the base, and @job is what the book should hold. */
void        wb_job_saver_resolve      (WbJobSaver  *self,
                                       WbJob       *job,
                                       const char  *deed);

/** Stores nothing more, now or later: the person has chosen to lose what is unsaved. */
void        wb_job_saver_give_up      (WbJobSaver  *self);

/** Looks for a newer value in the book when nothing is unsaved. */
void        wb_job_saver_refresh      (WbJobSaver  *self);

void        wb_job_saver_flush_async  (WbJobSaver          *self,
                                       GCancellable        *cancellable,
                                       GAsyncReadyCallback  callback,
                                       gpointer             data);
gboolean    wb_job_saver_flush_finish (WbJobSaver          *self,
                                       GAsyncResult        *result,
                                       GError             **error);

G_END_DECLS
