/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gio/gio.h>

#include "desk/model/wb-record-item.h"
#include "office/wb-office.h"

G_BEGIN_DECLS

/* The open job of a window: holds the current core value, its undo list, and list models that
 * follow it. Knows no widget. Every change is stored in the book by itself a moment later, so there
 * is nothing to save by hand and nothing to lose.
 *
 * Properties: "job" (WbJob, notifies on each change), "can-undo", "can-redo", "undo-label",
 * "redo-label" (strings), "unsaved" (a change is not in the book yet), "fault" (nullable string:
 * why the last save failed; the change stays here and is tried again).
 * Signals: "conflict": another window stored this job meanwhile; the pages stay as they are until
 * the person chooses. */
#define WB_TYPE_JOB_MODEL (wb_job_model_get_type ())
G_DECLARE_FINAL_TYPE (WbJobModel, wb_job_model, WB, JOB_MODEL, GObject)

WbJobModel  *wb_job_model_new          (WbOffice    *office,
                                        WbJob       *job);
/** Returns: (transfer full): a model of @job of which nothing is ever stored, to try things out. */
WbJobModel  *wb_job_model_new_scratch  (WbOffice    *office,
                                        WbJob       *job) G_GNUC_WARN_UNUSED_RESULT;
WbOffice    *wb_job_model_get_office   (WbJobModel  *self);
/** Returns: (transfer none): the job as it stands now. */
WbJob       *wb_job_model_get_job      (WbJobModel  *self);

/** Returns: (transfer none): the records of @kind as #WbRecordItem, in the job's order; follows
 * every change. */
GListModel  *wb_job_model_get_records  (WbJobModel  *self,
                                        WbKind       kind);

/**
 * wb_job_model_apply:
 * @job: a job made from wb_job_model_get_job()
 * @deed: what was done, translated, for the undo button and the history ("Change room")
 *
 * Makes @job the current one, remembers the old one for undo, and stores it soon. A job equal to
 * the current one is no change.
 */
void         wb_job_model_apply        (WbJobModel  *self,
                                        WbJob       *job,
                                        const char  *deed);

/**
 * wb_job_model_set_field:
 * @text: what the person typed
 *
 * Parses and sets one field of one record. Returns: %FALSE with a %WB_CORE_ERROR when the text is
 * bad: the job is as before.
 */
gboolean     wb_job_model_set_field    (WbJobModel  *self,
                                        WbKind       kind,
                                        const char  *id,
                                        const char  *field,
                                        const char  *text,
                                        GError     **error);

/** Whether wb_job_model_set_field() would take @text; changes nothing. */
gboolean     wb_job_model_check_field  (WbJobModel  *self,
                                        WbKind       kind,
                                        const char  *id,
                                        const char  *field,
                                        const char  *text,
                                        GError     **error);

void         wb_job_model_undo         (WbJobModel  *self);
void         wb_job_model_redo         (WbJobModel  *self);

/** Stores what is not stored yet, now; completes when the book has it. */
void         wb_job_model_flush_async  (WbJobModel          *self,
                                        GCancellable        *cancellable,
                                        GAsyncReadyCallback  callback,
                                        gpointer             data);
gboolean     wb_job_model_flush_finish (WbJobModel          *self,
                                        GAsyncResult        *result,
                                        GError             **error);

/** Stores nothing more: the person has chosen to lose what is unsaved. The model is then of no
 * further use. */
void         wb_job_model_give_up      (WbJobModel  *self);

/** Looks whether the book holds a newer value of the job and takes it over when nothing is unsaved
 * here; does nothing else. For a window that gets the focus back. Changes made here meanwhile stay
 * and meet the newer value at the next save. */
void         wb_job_model_refresh      (WbJobModel  *self);

/** Whether the person has still to choose between this window's changes and those of another. */
gboolean     wb_job_model_in_conflict  (WbJobModel  *self);

/** The book no longer has the job. Only after "conflict". */
gboolean     wb_job_model_get_removed  (WbJobModel  *self);

/** After "conflict": take the stored job and drop the changes here (still in the undo list), or put
 * the changes made here on top of it, field by field. Either way the undo list is put on top of the
 * stored job too, so that undo takes back what was done here and never what was done elsewhere.
 * When the job was removed, mine is stored as a new one; theirs does nothing. */
void         wb_job_model_take_theirs  (WbJobModel  *self);
void         wb_job_model_keep_mine    (WbJobModel  *self);

G_END_DECLS
