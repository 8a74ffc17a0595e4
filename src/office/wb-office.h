/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an office does, one function a deed, without a screen. A blocking form is for the command
 * line and for worker threads; the _async form is for the window and completes on the
 * thread-default main context of its caller. */
#pragma once

#include <gio/gio.h>

#include "core/wb-catalog.h"
#include "core/wb-job.h"
#include "core/wb-reckoning.h"
#include "core/wb-terms.h"
#include "store/wb-book.h"
#include "store/wb-store.h"

G_BEGIN_DECLS

#define WB_TYPE_OFFICE (wb_office_get_type ())
G_DECLARE_FINAL_TYPE (WbOffice, wb_office, WB, OFFICE, GObject)

/* Signals: "job-saved" (const char *job_id): this office stored or removed a job; on the main loop
 * of the office's maker. */

/**
 * wb_office_open:
 *
 * Opens a book and loads the terms: the shipped ones, then the user's own folder (XDG data home,
 * wainbook/terms), whose files take the place of shipped regimes of the same id. A faulty terms
 * file does not stop the office: it is left out and its message kept for
 * wb_office_get_terms_faults().
 */
WbOffice    *wb_office_open              (const char          *path,
                                          WbBookMode           mode,
                                          GCancellable        *cancellable,
                                          GError             **error) G_GNUC_WARN_UNUSED_RESULT;
void         wb_office_open_async        (const char          *path,
                                          WbBookMode           mode,
                                          GCancellable        *cancellable,
                                          GAsyncReadyCallback  callback,
                                          gpointer             data);
WbOffice    *wb_office_open_finish       (GAsyncResult        *result,
                                          GError             **error) G_GNUC_WARN_UNUSED_RESULT;
void         wb_office_close             (WbOffice            *self);

const char  *wb_office_get_path          (WbOffice            *self);
WbTermsSet  *wb_office_get_terms         (WbOffice            *self);
/** Returns: (transfer none): messages of terms files left out, "FILE:LINE: …"; empty when all is
 * well. */
const char *const *wb_office_get_terms_faults (WbOffice       *self);

/** Returns: (transfer none): the shipped catalogue with the entries of the user's own folder
 * (wainbook/catalogs) in it. A faulty file is left out, as of terms. */
WbCatalog   *wb_office_get_catalog       (WbOffice            *self);
/** Returns: (transfer none): messages of catalogue files left out, "FILE:LINE: …". */
const char *const *wb_office_get_catalog_faults (WbOffice     *self);

/* --- jobs ------------------------------------------------------------------------------------- */

GPtrArray   *wb_office_list_jobs         (WbOffice            *self,
                                          const char          *query,
                                          guint                limit,
                                          GCancellable        *cancellable,
                                          GError             **error) G_GNUC_WARN_UNUSED_RESULT;
void         wb_office_list_jobs_async   (WbOffice            *self,
                                          const char          *query,
                                          guint                limit,
                                          GCancellable        *cancellable,
                                          GAsyncReadyCallback  callback,
                                          gpointer             data);
GPtrArray   *wb_office_list_jobs_finish  (WbOffice            *self,
                                          GAsyncResult        *result,
                                          GError             **error) G_GNUC_WARN_UNUSED_RESULT;

WbJob       *wb_office_load_job          (WbOffice            *self,
                                          const char          *id,
                                          GCancellable        *cancellable,
                                          GError             **error) G_GNUC_WARN_UNUSED_RESULT;
void         wb_office_load_job_async    (WbOffice            *self,
                                          const char          *id,
                                          GCancellable        *cancellable,
                                          GAsyncReadyCallback  callback,
                                          gpointer             data);
WbJob       *wb_office_load_job_finish   (WbOffice            *self,
                                          GAsyncResult        *result,
                                          GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): the job with that job, bill or claim number, loaded. */
WbJob       *wb_office_find_job          (WbOffice            *self,
                                          const char          *number,
                                          GCancellable        *cancellable,
                                          GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Checks @job and stores it (see wb_book_save_job()). */
WbJob       *wb_office_save_job          (WbOffice            *self,
                                          WbJob               *base,
                                          WbJob               *job,
                                          const char          *deed,
                                          GCancellable        *cancellable,
                                          GError             **error) G_GNUC_WARN_UNUSED_RESULT;
void         wb_office_save_job_async    (WbOffice            *self,
                                          WbJob               *base,
                                          WbJob               *job,
                                          const char          *deed,
                                          GCancellable        *cancellable,
                                          GAsyncReadyCallback  callback,
                                          gpointer             data);
WbJob       *wb_office_save_job_finish   (WbOffice            *self,
                                          GAsyncResult        *result,
                                          GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Opens a new job with the next job number ("J-YEAR-0001") in @currency and stores it. Returns:
 * (transfer full): it. */
WbJob       *wb_office_create_job        (WbOffice            *self,
                                          const char          *currency,
                                          GCancellable        *cancellable,
                                          GError             **error) G_GNUC_WARN_UNUSED_RESULT;
void         wb_office_create_job_async  (WbOffice            *self,
                                          const char          *currency,
                                          GCancellable        *cancellable,
                                          GAsyncReadyCallback  callback,
                                          gpointer             data);
WbJob       *wb_office_create_job_finish (WbOffice            *self,
                                          GAsyncResult        *result,
                                          GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_office_add_jobs:
 * @jobs: (element-type WbJob): jobs that the book does not have yet, under their own ids
 *
 * Checks and stores several jobs: all or none. The message of a failure names the job.
 */
gboolean     wb_office_add_jobs          (WbOffice            *self,
                                          GPtrArray           *jobs,
                                          const char          *deed,
                                          GCancellable        *cancellable,
                                          GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** The next claim number ("C-YEAR-0001"). Blocks on the book for a moment; the window uses the
 * async form. */
char        *wb_office_next_claim_number (WbOffice            *self,
                                          GCancellable        *cancellable,
                                          GError             **error) G_GNUC_WARN_UNUSED_RESULT;
void         wb_office_next_claim_number_async  (WbOffice            *self,
                                                 GCancellable        *cancellable,
                                                 GAsyncReadyCallback  callback,
                                                 gpointer             data);
char        *wb_office_next_claim_number_finish (WbOffice            *self,
                                                 GAsyncResult        *result,
                                                 GError             **error) G_GNUC_WARN_UNUSED_RESULT;

GPtrArray   *wb_office_list_history        (WbOffice            *self,
                                            const char          *job_id,
                                            GCancellable        *cancellable,
                                            GError             **error) G_GNUC_WARN_UNUSED_RESULT;
void         wb_office_list_history_async  (WbOffice            *self,
                                            const char          *job_id,
                                            GCancellable        *cancellable,
                                            GAsyncReadyCallback  callback,
                                            gpointer             data);
GPtrArray   *wb_office_list_history_finish (WbOffice            *self,
                                            GAsyncResult        *result,
                                            GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): a fresh id for a record or job (a random UUID). */
char        *wb_office_new_id            (void) G_GNUC_WARN_UNUSED_RESULT;
/** Today's civil date by the machine's clock and zone. */
void         wb_office_today             (GDate               *out);

/* --- reckoning -------------------------------------------------------------------------------- */

/**
 * wb_office_reckon:
 *
 * Finds the terms that govern @job and reckons a claim of it. Touches no disk; a claim of 1,000
 * lines takes under 2 ms, so the window may call it directly.
 */
WbReckoning *wb_office_reckon            (WbOffice            *self,
                                          WbJob               *job,
                                          const char          *claim_id,
                                          GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_office_choose_depreciation:
 * @job: a job as it is on the page
 * @line_id: of a claim line of it
 * @nick: (nullable): of a category of depreciation in the office's catalogue; %NULL takes the line
 *   out of its category
 *
 * Puts a category and its percentages on a claim line; see wb_depreciation_apply(). Touches no
 * disk. Words for a category are in wb-words-depreciation.h.
 * Returns: (transfer full) (nullable): the changed job, or %NULL with %WB_CORE_ERROR_MISSING when
 *   there is no such line or category.
 */
WbJob       *wb_office_choose_depreciation (WbOffice          *self,
                                          const WbJob         *job,
                                          const char          *line_id,
                                          const char          *nick,
                                          GError             **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
