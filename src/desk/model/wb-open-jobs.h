/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The jobs that the windows of one process have open in one book. Two windows that show one job
 * share its model, so that they never clash; a job left a while ago keeps its undo list; nothing
 * unsaved is let go. */
#pragma once

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Signal "faults-changed": another job cannot be stored, or one can again. */
#define WB_TYPE_OPEN_JOBS (wb_open_jobs_get_type ())
G_DECLARE_FINAL_TYPE (WbOpenJobs, wb_open_jobs, WB, OPEN_JOBS, GObject)

WbOpenJobs  *wb_open_jobs_new          (WbOffice            *office) G_GNUC_WARN_UNUSED_RESULT;
WbOffice    *wb_open_jobs_get_office   (WbOpenJobs          *self);

/** Finds the model of job @id, loading the job first when it is not open. */
void         wb_open_jobs_find_async   (WbOpenJobs          *self,
                                        const char          *id,
                                        GCancellable        *cancellable,
                                        GAsyncReadyCallback  callback,
                                        gpointer             data);
/** Returns: (transfer full) (nullable). */
WbJobModel  *wb_open_jobs_find_finish  (WbOpenJobs          *self,
                                        GAsyncResult        *result,
                                        GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the model of a job just made or loaded. */
WbJobModel  *wb_open_jobs_adopt        (WbOpenJobs          *self,
                                        WbJob               *job) G_GNUC_WARN_UNUSED_RESULT;

/** Lets go of a model that may not come back: its job was removed, or its changes given up. */
void         wb_open_jobs_forget       (WbOpenJobs          *self,
                                        WbJobModel          *model);

/** Returns: (transfer none) (nullable): a job other than @except (nullable) whose changes could not
 * be stored. */
WbJobModel  *wb_open_jobs_get_faulty   (WbOpenJobs          *self,
                                        WbJobModel          *except);

/** Whether a change in any of them is not in the book. */
gboolean     wb_open_jobs_get_unsaved  (WbOpenJobs          *self);

/** Stores whatever is unsaved in any of them; the first failure is the result, after all have been
 * tried. */
void         wb_open_jobs_flush_async  (WbOpenJobs          *self,
                                        GCancellable        *cancellable,
                                        GAsyncReadyCallback  callback,
                                        gpointer             data);
gboolean     wb_open_jobs_flush_finish (WbOpenJobs          *self,
                                        GAsyncResult        *result,
                                        GError             **error);

/** Loses whatever is unsaved in any of them, since the person has chosen so. */
void         wb_open_jobs_give_up      (WbOpenJobs          *self);

/** Looks for newer values in the book of all that are open and have nothing unsaved. */
void         wb_open_jobs_refresh      (WbOpenJobs          *self);

G_END_DECLS
