/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The deeds on published jobs in worker threads, for the window. What they do stands in the files of
 * their blocking forms. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-publish-compare.h"
#include "office/wb-share-private.h"

/* The inputs of a deed; each uses those that it needs. */
typedef struct
{
  char          *server_id;
  char          *job_id;
  char          *query;
  WbSecret      *secret;
  WbProgress    *progress;
  WbComparison  *comparison;
  WbMergeChoice  choice;
} Request;

static Request *
request_new (const char *server_id,
             WbSecret   *secret,
             const char *job_id,
             WbProgress *progress)
{
  Request *request = g_new0 (Request, 1);

  request->server_id = g_strdup (server_id);
  request->secret = secret != NULL ? wb_secret_ref (secret) : NULL;
  request->job_id = g_strdup (job_id);
  request->progress = progress != NULL ? wb_progress_ref (progress) : NULL;
  return request;
}

static void
request_free (gpointer data)
{
  Request *request = data;

  g_clear_pointer (&request->secret, wb_secret_unref);
  g_clear_pointer (&request->progress, wb_progress_unref);
  g_clear_pointer (&request->comparison, wb_comparison_unref);
  g_free (request->server_id);
  g_free (request->job_id);
  g_free (request->query);
  g_free (request);
}

/* --- how it stands, publish, fetch ------------------------------------------------------------ */

static gpointer
run_status (WbOffice      *office,
            gpointer       data,
            GCancellable  *cancellable,
            GError       **error)
{
  const Request *request = data;

  return wb_office_publish_status (office, request->server_id, request->secret, request->job_id,
                                   cancellable, error);
}

void
wb_office_publish_status_async (WbOffice            *self,
                                const char          *server_id,
                                WbSecret            *secret,
                                const char          *job_id,
                                GCancellable        *cancellable,
                                GAsyncReadyCallback  callback,
                                gpointer             data)
{
  g_return_if_fail (WB_IS_OFFICE (self));
  g_return_if_fail (server_id != NULL && job_id != NULL);

  wb_share_run (self, run_status, request_new (server_id, secret, job_id, NULL), request_free,
                (GDestroyNotify) wb_publish_status_free, wb_office_publish_status_async,
                cancellable, callback, data);
}

WbPublishStatus *
wb_office_publish_status_finish (WbOffice      *self,
                                 GAsyncResult  *result,
                                 GError       **error)
{
  return wb_office_finish (self, result, wb_office_publish_status_async, error);
}

static gpointer
run_publish (WbOffice      *office,
             gpointer       data,
             GCancellable  *cancellable,
             GError       **error)
{
  const Request *request = data;

  return wb_office_publish (office, request->server_id, request->secret, request->job_id,
                            request->progress, cancellable, error);
}

void
wb_office_publish_async (WbOffice            *self,
                         const char          *server_id,
                         WbSecret            *secret,
                         const char          *job_id,
                         WbProgress          *progress,
                         GCancellable        *cancellable,
                         GAsyncReadyCallback  callback,
                         gpointer             data)
{
  g_return_if_fail (WB_IS_OFFICE (self));
  g_return_if_fail (server_id != NULL && job_id != NULL);

  wb_share_run (self, run_publish, request_new (server_id, secret, job_id, progress), request_free,
                (GDestroyNotify) wb_publish_status_free, wb_office_publish_async, cancellable,
                callback, data);
}

WbPublishStatus *
wb_office_publish_finish (WbOffice      *self,
                          GAsyncResult  *result,
                          GError       **error)
{
  return wb_office_finish (self, result, wb_office_publish_async, error);
}

static gpointer
run_fetch (WbOffice      *office,
           gpointer       data,
           GCancellable  *cancellable,
           GError       **error)
{
  const Request *request = data;

  return wb_office_fetch (office, request->server_id, request->secret, request->job_id,
                          request->choice, request->progress, cancellable, error);
}

void
wb_office_fetch_async (WbOffice            *self,
                       const char          *server_id,
                       WbSecret            *secret,
                       const char          *job_id,
                       WbMergeChoice        conflicts,
                       WbProgress          *progress,
                       GCancellable        *cancellable,
                       GAsyncReadyCallback  callback,
                       gpointer             data)
{
  Request *request;

  g_return_if_fail (WB_IS_OFFICE (self));
  g_return_if_fail (server_id != NULL && job_id != NULL);

  request = request_new (server_id, secret, job_id, progress);
  request->choice = conflicts;
  wb_share_run (self, run_fetch, request, request_free, (GDestroyNotify) wb_job_unref,
                wb_office_fetch_async, cancellable, callback, data);
}

WbJob *
wb_office_fetch_finish (WbOffice      *self,
                        GAsyncResult  *result,
                        GError       **error)
{
  return wb_office_finish (self, result, wb_office_fetch_async, error);
}

/* --- what is on a server ---------------------------------------------------------------------- */

/* What comes out of a check. */
typedef struct
{
  GPtrArray *faults;
  guint      n_files;
} Checked;

static void
checked_free (gpointer data)
{
  Checked *checked = data;

  g_clear_pointer (&checked->faults, g_ptr_array_unref);
  g_free (checked);
}

static gpointer
run_verify (WbOffice      *office,
            gpointer       data,
            GCancellable  *cancellable,
            GError       **error)
{
  const Request *request = data;
  Checked *checked = g_new0 (Checked, 1);

  checked->faults = wb_office_verify_published (office, request->server_id, request->secret,
                                                request->job_id, &checked->n_files,
                                                request->progress, cancellable, error);
  if (checked->faults != NULL)
    return checked;
  checked_free (checked);
  return NULL;
}

void
wb_office_verify_published_async (WbOffice            *self,
                                  const char          *server_id,
                                  WbSecret            *secret,
                                  const char          *job_id,
                                  WbProgress          *progress,
                                  GCancellable        *cancellable,
                                  GAsyncReadyCallback  callback,
                                  gpointer             data)
{
  g_return_if_fail (WB_IS_OFFICE (self));
  g_return_if_fail (server_id != NULL && job_id != NULL);

  wb_share_run (self, run_verify, request_new (server_id, secret, job_id, progress), request_free,
                checked_free, wb_office_verify_published_async, cancellable, callback, data);
}

GPtrArray *
wb_office_verify_published_finish (WbOffice      *self,
                                   GAsyncResult  *result,
                                   guint         *n_files,
                                   GError       **error)
{
  Checked *checked = wb_office_finish (self, result, wb_office_verify_published_async, error);
  GPtrArray *faults;

  if (checked == NULL)
    return NULL;
  faults = g_steal_pointer (&checked->faults);
  if (n_files != NULL)
    *n_files = checked->n_files;
  checked_free (checked);
  return faults;
}

static gpointer
run_list (WbOffice      *office,
          gpointer       data,
          GCancellable  *cancellable,
          GError       **error)
{
  const Request *request = data;

  return wb_office_list_published (office, request->server_id, request->secret, request->query,
                                   cancellable, error);
}

void
wb_office_list_published_async (WbOffice            *self,
                                const char          *server_id,
                                WbSecret            *secret,
                                const char          *query,
                                GCancellable        *cancellable,
                                GAsyncReadyCallback  callback,
                                gpointer             data)
{
  Request *request;

  g_return_if_fail (WB_IS_OFFICE (self));
  g_return_if_fail (server_id != NULL);

  request = request_new (server_id, secret, NULL, NULL);
  request->query = g_strdup (query);
  wb_share_run (self, run_list, request, request_free, (GDestroyNotify) g_ptr_array_unref,
                wb_office_list_published_async, cancellable, callback, data);
}

GPtrArray *
wb_office_list_published_finish (WbOffice      *self,
                                 GAsyncResult  *result,
                                 GError       **error)
{
  return wb_office_finish (self, result, wb_office_list_published_async, error);
}

static gpointer
run_peek (WbOffice      *office,
          gpointer       data,
          GCancellable  *cancellable,
          GError       **error)
{
  const Request *request = data;

  return wb_office_peek_published (office, request->server_id, request->secret, request->job_id,
                                   request->progress, cancellable, error);
}

void
wb_office_peek_published_async (WbOffice            *self,
                                const char          *server_id,
                                WbSecret            *secret,
                                const char          *job_id,
                                WbProgress          *progress,
                                GCancellable        *cancellable,
                                GAsyncReadyCallback  callback,
                                gpointer             data)
{
  g_return_if_fail (WB_IS_OFFICE (self));
  g_return_if_fail (server_id != NULL && job_id != NULL);

  wb_share_run (self, run_peek, request_new (server_id, secret, job_id, progress), request_free,
                (GDestroyNotify) wb_job_unref, wb_office_peek_published_async, cancellable,
                callback, data);
}

WbJob *
wb_office_peek_published_finish (WbOffice      *self,
                                 GAsyncResult  *result,
                                 GError       **error)
{
  return wb_office_finish (self, result, wb_office_peek_published_async, error);
}

/* --- comparing and storing -------------------------------------------------------------------- */

static gpointer
run_compare (WbOffice      *office,
             gpointer       data,
             GCancellable  *cancellable,
             GError       **error)
{
  const Request *request = data;

  return wb_office_compare_published (office, request->server_id, request->secret,
                                      request->job_id, request->progress, cancellable, error);
}

void
wb_office_compare_published_async (WbOffice            *self,
                                   const char          *server_id,
                                   WbSecret            *secret,
                                   const char          *job_id,
                                   WbProgress          *progress,
                                   GCancellable        *cancellable,
                                   GAsyncReadyCallback  callback,
                                   gpointer             data)
{
  g_return_if_fail (WB_IS_OFFICE (self));
  g_return_if_fail (server_id != NULL && job_id != NULL);

  wb_share_run (self, run_compare, request_new (server_id, secret, job_id, progress), request_free,
                (GDestroyNotify) wb_comparison_unref, wb_office_compare_published_async,
                cancellable, callback, data);
}

WbComparison *
wb_office_compare_published_finish (WbOffice      *self,
                                    GAsyncResult  *result,
                                    GError       **error)
{
  return wb_office_finish (self, result, wb_office_compare_published_async, error);
}

static gpointer
run_store (WbOffice      *office,
           gpointer       data,
           GCancellable  *cancellable,
           GError       **error)
{
  const Request *request = data;

  return wb_office_store_merged (office, request->comparison, request->choice, request->secret,
                                 request->progress, cancellable, error);
}

void
wb_office_store_merged_async (WbOffice            *self,
                              WbComparison        *comparison,
                              WbMergeChoice        whole,
                              WbSecret            *secret,
                              WbProgress          *progress,
                              GCancellable        *cancellable,
                              GAsyncReadyCallback  callback,
                              gpointer             data)
{
  Request *request;

  g_return_if_fail (WB_IS_OFFICE (self));
  g_return_if_fail (comparison != NULL);

  request = request_new (NULL, secret, NULL, progress);
  request->comparison = wb_comparison_ref (comparison);
  request->choice = whole;
  wb_share_run (self, run_store, request, request_free, (GDestroyNotify) wb_job_unref,
                wb_office_store_merged_async, cancellable, callback, data);
}

WbJob *
wb_office_store_merged_finish (WbOffice      *self,
                               GAsyncResult  *result,
                               GError       **error)
{
  return wb_office_finish (self, result, wb_office_store_merged_async, error);
}
