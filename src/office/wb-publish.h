/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Jobs on the office's file servers: published as they are in the book, fetched into it, looked
 * over and checked. What blocks does so on the server, and is for the command line and for worker
 * threads; an _async form is for the window. Besides the errors named, each fails with those of
 * wb-remote.h. */
#pragma once

#include "core/wb-merge.h"
#include "office/wb-office.h"
#include "office/wb-progress.h"
#include "share/wb-secret.h"

G_BEGIN_DECLS

/** WbPublishState: how a job in the book stands to the one on a server */
typedef enum
{
  WB_PUBLISH_NEVER,           /* it was never published there */
  WB_PUBLISH_SAME,            /* both are the same */
  WB_PUBLISH_CHANGED_HERE,
  WB_PUBLISH_CHANGED_THERE,   /* also when two people published it at once */
  WB_PUBLISH_CHANGED_BOTH,
} WbPublishState;

/** "never", "same", "changed-here", "changed-there", "changed-both". */
extern const WbEnum wb_publish_states;

/**
 * WbPublishStatus:
 * @n_heads: versions there that none replaces; more than one when people published at once
 * @number, @at, @by, @desk: (nullable): of the newest of them; UTC
 */
typedef struct
{
  WbPublishState  state;
  guint           n_heads;
  gint64          number;
  char           *at;
  char           *by;
  char           *desk;
} WbPublishStatus;

void            wb_publish_status_free    (WbPublishStatus  *self);

/** Returns: (transfer full) (nullable): how the job stands. @secret: (nullable): to sign in with;
 * %NULL for the one that is kept, as of all that follows */
WbPublishStatus *wb_office_publish_status  (WbOffice         *self,
                                            const char       *server_id,
                                            WbSecret         *secret,
                                            const char       *job_id,
                                            GCancellable     *cancellable,
                                            GError          **error) G_GNUC_WARN_UNUSED_RESULT;
void wb_office_publish_status_async (WbOffice            *self,
                                     const char          *server_id,
                                     WbSecret            *secret,
                                     const char          *job_id,
                                     GCancellable        *cancellable,
                                     GAsyncReadyCallback  callback,
                                     gpointer             data);
WbPublishStatus *wb_office_publish_status_finish (WbOffice      *self,
                                                  GAsyncResult  *result,
                                                  GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_office_publish:
 *
 * Publishes the job as the book holds it, with its photos and kept papers. What is on the server
 * already is not sent again, and a job that is the same there is not published anew.
 *
 * Returns: (transfer full) (nullable): how it stands now; %NULL with %WB_SHARE_ERROR_CHANGED when
 * somebody else published it meanwhile, so that it has to be fetched first.
 */
WbPublishStatus *wb_office_publish         (WbOffice         *self,
                                            const char       *server_id,
                                            WbSecret         *secret,
                                            const char       *job_id,
                                            WbProgress       *progress,
                                            GCancellable     *cancellable,
                                            GError          **error) G_GNUC_WARN_UNUSED_RESULT;
void wb_office_publish_async (WbOffice            *self,
                              const char          *server_id,
                              WbSecret            *secret,
                              const char          *job_id,
                              WbProgress          *progress,
                              GCancellable        *cancellable,
                              GAsyncReadyCallback  callback,
                              gpointer             data);
WbPublishStatus *wb_office_publish_finish (WbOffice      *self,
                                           GAsyncResult  *result,
                                           GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_office_fetch:
 * @conflicts: whose value is taken where both sides changed the same; %WB_MERGE_UNDECIDED for
 *   nobody's
 *
 * Brings the job from a server into the book, once all that came was found good, in one transaction
 * with its history. One that is in the book and was changed there and here becomes the job of both.
 *
 * Returns: (transfer full) (nullable): the job as stored; %NULL with %WB_SHARE_ERROR_CHANGED when
 * both sides changed the same and @conflicts is nobody, %WB_SHARE_ERROR_NOT_FOUND when it is not
 * there, %WB_STORE_ERROR_CONFLICT when somebody stored it here meanwhile, or an error as of
 * wb_bundle_check(). The book is then as it was.
 */
WbJob           *wb_office_fetch           (WbOffice         *self,
                                            const char       *server_id,
                                            WbSecret         *secret,
                                            const char       *job_id,
                                            WbMergeChoice     conflicts,
                                            WbProgress       *progress,
                                            GCancellable     *cancellable,
                                            GError          **error) G_GNUC_WARN_UNUSED_RESULT;
void wb_office_fetch_async (WbOffice            *self,
                            const char          *server_id,
                            WbSecret            *secret,
                            const char          *job_id,
                            WbMergeChoice        conflicts,
                            WbProgress          *progress,
                            GCancellable        *cancellable,
                            GAsyncReadyCallback  callback,
                            gpointer             data);
WbJob *wb_office_fetch_finish (WbOffice      *self,
                               GAsyncResult  *result,
                               GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_office_verify_published:
 * @n_files: (out): looked at
 *
 * Reads every file of the job on the server back and compares it with its hash.
 *
 * Returns: (transfer full) (element-type utf8) (nullable): a line for each file that is missing or
 * altered there; empty when all is well.
 */
GPtrArray       *wb_office_verify_published (WbOffice        *self,
                                            const char       *server_id,
                                            WbSecret         *secret,
                                            const char       *job_id,
                                            guint            *n_files,
                                            WbProgress       *progress,
                                            GCancellable     *cancellable,
                                            GError          **error) G_GNUC_WARN_UNUSED_RESULT;
void wb_office_verify_published_async (WbOffice            *self,
                                       const char          *server_id,
                                       WbSecret            *secret,
                                       const char          *job_id,
                                       WbProgress          *progress,
                                       GCancellable        *cancellable,
                                       GAsyncReadyCallback  callback,
                                       gpointer             data);
GPtrArray *wb_office_verify_published_finish (WbOffice      *self,
                                              GAsyncResult  *result,
                                              guint         *n_files,
                                              GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * WbPublishedJob: what a list of published jobs shows; texts may be %NULL but for @id
 * @at, @by, @desk: of the newest version
 * @fault: why the job cannot be read; the rest is then not given
 */
typedef struct
{
  char   *id;
  char   *number;
  char   *shipper;
  char   *from_city;
  char   *to_city;
  char   *pickup;     /* YYYY-MM-DD */
  char   *stage;      /* nick */
  char   *at;
  char   *by;
  char   *desk;
  guint   n_heads;
  char   *fault;
} WbPublishedJob;

void            wb_published_job_free     (WbPublishedJob   *self);
/** Returns: whether the words of @query, as of wb_office_list_published(), are in @job. */
gboolean        wb_published_job_fits     (const WbPublishedJob *job,
                                           const char           *query);

/** Returns: (transfer full) (element-type WbPublishedJob) (nullable): the jobs on a server that
 * have every word of @query in what is shown of them, as beginnings of words, upper and lower case
 * and accents alike. @query: (nullable): %NULL for all */
GPtrArray       *wb_office_list_published  (WbOffice         *self,
                                            const char       *server_id,
                                            WbSecret         *secret,
                                            const char       *query,
                                            GCancellable     *cancellable,
                                            GError          **error) G_GNUC_WARN_UNUSED_RESULT;
void wb_office_list_published_async (WbOffice            *self,
                                     const char          *server_id,
                                     WbSecret            *secret,
                                     const char          *query,
                                     GCancellable        *cancellable,
                                     GAsyncReadyCallback  callback,
                                     gpointer             data);
GPtrArray *wb_office_list_published_finish (WbOffice      *self,
                                            GAsyncResult  *result,
                                            GError       **error) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbPublishStatus, wb_publish_status_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbPublishedJob, wb_published_job_free)

G_END_DECLS
