/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a book can be asked for: each public function hands its request to the writer or to a
 * reader. How rows are read and written stands in the files named after them. */
#include "config.h"

#include "store/wb-book.h"

#include "store/wb-book-private.h"
#include "store/wb-claim-index.h"
#include "store/wb-history.h"
#include "store/wb-job-store.h"
#include "store/wb-kept-document.h"
#include "store/wb-moved-pieces.h"
#include "store/wb-search-index.h"

/* --- jobs ------------------------------------------------------------------------------------- */

/* What goes into a deed or a reading and what comes out; each uses what it needs. */
typedef struct
{
  const char *text;      /* an id, a number, a query, a prefix */
  guint       limit;
  gint64      revision;
  WbJob      *base;
  WbJob      *job;
  GPtrArray  *jobs;
  GPtrArray  *documents;
  const char *deed;
  gpointer    result;
} Request;

static gboolean
list_jobs (WbSqlite  *book,
           gpointer   data,
           GError   **error)
{
  Request *request = data;

  request->result = wb_search_index_list (book, request->text, request->limit, error);
  return request->result != NULL;
}

GPtrArray *
wb_book_list_jobs (WbBook        *self,
                   const char    *query,
                   guint          limit,
                   GCancellable  *cancellable,
                   GError       **error)
{
  Request request = { .text = query, .limit = limit };

  g_return_val_if_fail (WB_IS_BOOK (self), NULL);

  if (!wb_book_read (self, list_jobs, &request, cancellable, error))
    g_clear_pointer ((GPtrArray **) &request.result, g_ptr_array_unref);
  return request.result;
}

/* What wb_book_scan_open_claims() was given. */
typedef struct
{
  WbOpenClaimFunc each;
  gpointer        data;
} Scan;

static gboolean
scan_open_claims (WbSqlite  *book,
                  gpointer   data,
                  GError   **error)
{
  Scan *scan = data;

  return wb_claim_index_scan (book, scan->each, scan->data, error);
}

gboolean
wb_book_scan_open_claims (WbBook           *self,
                          WbOpenClaimFunc   each,
                          gpointer          data,
                          GCancellable     *cancellable,
                          GError          **error)
{
  Scan scan = { each, data };

  g_return_val_if_fail (WB_IS_BOOK (self), FALSE);
  g_return_val_if_fail (each != NULL, FALSE);

  return wb_book_read (self, scan_open_claims, &scan, cancellable, error);
}

/* What wb_book_scan_moved_pieces() was given. */
typedef struct
{
  WbMovedPiecesFunc each;
  gpointer          data;
} MovedScan;

static gboolean
scan_moved_pieces (WbSqlite  *book,
                   gpointer   data,
                   GError   **error)
{
  MovedScan *scan = data;

  return wb_moved_pieces_scan (book, scan->each, scan->data, error);
}

gboolean
wb_book_scan_moved_pieces (WbBook             *self,
                           WbMovedPiecesFunc   each,
                           gpointer            data,
                           GCancellable       *cancellable,
                           GError            **error)
{
  MovedScan scan = { each, data };

  g_return_val_if_fail (WB_IS_BOOK (self), FALSE);
  g_return_val_if_fail (each != NULL, FALSE);

  return wb_book_read (self, scan_moved_pieces, &scan, cancellable, error);
}

static gboolean
load_job (WbSqlite  *book,
          gpointer   data,
          GError   **error)
{
  Request *request = data;

  request->result = wb_job_store_load (book, request->text, error);
  return request->result != NULL;
}

WbJob *
wb_book_load_job (WbBook        *self,
                  const char    *id,
                  GCancellable  *cancellable,
                  GError       **error)
{
  Request request = { .text = id };

  g_return_val_if_fail (WB_IS_BOOK (self), NULL);
  g_return_val_if_fail (id != NULL, NULL);

  if (!wb_book_read (self, load_job, &request, cancellable, error))
    g_clear_pointer ((WbJob **) &request.result, wb_job_unref);
  return request.result;
}

static gboolean
find_job (WbSqlite  *book,
          gpointer   data,
          GError   **error)
{
  Request *request = data;

  request->result = wb_job_store_find (book, request->text, error);
  return request->result != NULL;
}

char *
wb_book_find_job (WbBook        *self,
                  const char    *number,
                  GCancellable  *cancellable,
                  GError       **error)
{
  Request request = { .text = number };

  g_return_val_if_fail (WB_IS_BOOK (self), NULL);
  g_return_val_if_fail (number != NULL, NULL);

  if (!wb_book_read (self, find_job, &request, cancellable, error))
    g_clear_pointer (&request.result, g_free);
  return request.result;
}

/* The book said that something in @job contradicts the rest; core's own check says what. */
static void
explain_refusal (WbBook  *self,
                 WbJob   *job,
                 GError **error)
{
  g_autoptr (GError) fault = NULL;

  if (error == NULL || !g_error_matches (*error, WB_STORE_ERROR, WB_STORE_ERROR_CONSTRAINT) ||
      wb_job_check (job, &fault))
    return;
  g_clear_error (error);
  wb_store_set_error (wb_book_get_path (self), WB_STORE_ERROR_CONSTRAINT, error, "job %s: %s",
                      wb_job_get_id (job), fault->message);
}

static gboolean
save_job (WbSqlite  *book,
          gpointer   data,
          GError   **error)
{
  Request *request = data;

  request->result = wb_job_store_save (book, request->base, request->job, request->deed, error);
  return request->result != NULL;
}

WbJob *
wb_book_save_job (WbBook        *self,
                  WbJob         *base,
                  WbJob         *job,
                  const char    *deed,
                  GCancellable  *cancellable,
                  GError       **error)
{
  Request request = { .base = base, .job = job, .deed = deed };

  g_return_val_if_fail (WB_IS_BOOK (self), NULL);
  g_return_val_if_fail (job != NULL && deed != NULL, NULL);
  g_return_val_if_fail (base == NULL || g_str_equal (wb_job_get_id (base), wb_job_get_id (job)),
                        NULL);

  if (!wb_book_write (self, save_job, &request, cancellable, error))
    {
      g_clear_pointer ((WbJob **) &request.result, wb_job_unref);
      explain_refusal (self, job, error);
    }
  return request.result;
}

static gboolean
add_jobs (WbSqlite  *book,
          gpointer   data,
          GError   **error)
{
  Request *request = data;

  for (guint i = 0; i < request->jobs->len; i++)
    {
      g_autoptr (WbJob) stored = NULL;

      request->job = g_ptr_array_index (request->jobs, i);
      stored = wb_job_store_save (book, NULL, request->job, request->deed, error);
      if (stored == NULL)
        return FALSE;
    }
  return TRUE;
}

gboolean
wb_book_add_jobs (WbBook        *self,
                  GPtrArray     *jobs,
                  const char    *deed,
                  GCancellable  *cancellable,
                  GError       **error)
{
  Request request = { .jobs = jobs, .deed = deed };

  g_return_val_if_fail (WB_IS_BOOK (self), FALSE);
  g_return_val_if_fail (jobs != NULL && deed != NULL, FALSE);

  if (wb_book_write (self, add_jobs, &request, cancellable, error))
    return TRUE;
  if (request.job != NULL)
    explain_refusal (self, request.job, error);
  return FALSE;
}

static gboolean
remove_job (WbSqlite  *book,
            gpointer   data,
            GError   **error)
{
  Request *request = data;

  return wb_job_store_remove (book, request->text, request->revision, error);
}

gboolean
wb_book_remove_job (WbBook        *self,
                    const char    *id,
                    gint64         revision,
                    GCancellable  *cancellable,
                    GError       **error)
{
  Request request = { .text = id, .revision = revision };

  g_return_val_if_fail (WB_IS_BOOK (self), FALSE);
  g_return_val_if_fail (id != NULL, FALSE);

  return wb_book_write (self, remove_job, &request, cancellable, error);
}

/* --- numbers and history ---------------------------------------------------------------------- */

static gboolean
next_number (WbSqlite  *book,
             gpointer   data,
             GError   **error)
{
  Request *request = data;

  request->result = wb_number_series_next (book, request->text, error);
  return request->result != NULL;
}

char *
wb_book_next_number (WbBook        *self,
                     const char    *prefix,
                     GCancellable  *cancellable,
                     GError       **error)
{
  Request request = { .text = prefix };

  g_return_val_if_fail (WB_IS_BOOK (self), NULL);
  g_return_val_if_fail (prefix != NULL, NULL);

  if (!wb_book_write (self, next_number, &request, cancellable, error))
    g_clear_pointer (&request.result, g_free);
  return request.result;
}

static gboolean
list_history (WbSqlite  *book,
              gpointer   data,
              GError   **error)
{
  Request *request = data;

  request->result = wb_history_list (book, request->text, error);
  return request->result != NULL;
}

GPtrArray *
wb_book_list_history (WbBook        *self,
                      const char    *job_id,
                      GCancellable  *cancellable,
                      GError       **error)
{
  Request request = { .text = job_id };

  g_return_val_if_fail (WB_IS_BOOK (self), NULL);
  g_return_val_if_fail (job_id != NULL, NULL);

  if (!wb_book_read (self, list_history, &request, cancellable, error))
    g_clear_pointer ((GPtrArray **) &request.result, g_ptr_array_unref);
  return request.result;
}

/* --- kept documents --------------------------------------------------------------------------- */

static gboolean
keep_documents (WbSqlite  *book,
                gpointer   data,
                GError   **error)
{
  Request *request = data;
  g_autoptr (GPtrArray) hashes = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < request->documents->len; i++)
    {
      char *hash = wb_kept_document_enter (book, g_ptr_array_index (request->documents, i), error);

      if (hash == NULL)
        return FALSE;
      g_ptr_array_add (hashes, hash);
    }
  request->result = g_steal_pointer (&hashes);
  return TRUE;
}

GPtrArray *
wb_book_keep_documents (WbBook        *self,
                        GPtrArray     *documents,
                        GCancellable  *cancellable,
                        GError       **error)
{
  Request request = { .documents = documents };

  g_return_val_if_fail (WB_IS_BOOK (self), NULL);
  g_return_val_if_fail (documents != NULL, NULL);

  if (!wb_book_write (self, keep_documents, &request, cancellable, error))
    g_clear_pointer ((GPtrArray **) &request.result, g_ptr_array_unref);
  return request.result;
}

static gboolean
read_document (WbSqlite  *book,
               gpointer   data,
               GError   **error)
{
  Request *request = data;

  request->result = wb_kept_document_read (book, request->text, error);
  return request->result != NULL;
}

GBytes *
wb_book_read_document (WbBook        *self,
                       const char    *hash,
                       GCancellable  *cancellable,
                       GError       **error)
{
  Request request = { .text = hash };

  g_return_val_if_fail (WB_IS_BOOK (self), NULL);
  g_return_val_if_fail (hash != NULL, NULL);

  if (!wb_book_read (self, read_document, &request, cancellable, error))
    g_clear_pointer ((GBytes **) &request.result, g_bytes_unref);
  return request.result;
}
