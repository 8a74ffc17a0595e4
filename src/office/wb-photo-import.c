/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An import as a whole: a few threads take files in, one counts, and at the end it is said what
 * came twice. How one file is taken in stands in wb-photo-take.c. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-photo-import.h"

#include "core/wb-photo.h"
#include "office/wb-office-private.h"
#include "office/wb-photo-private.h"
#include "office/wb-words.h"
#include "store/wb-photo-store.h"

#include <glib/gi18n.h>

/* Decoding is what takes the time; more threads would only hold more memory. */
#define MAX_THREADS 4

/* --- results ---------------------------------------------------------------------------------- */

WbPhotoResult *
wb_photo_result_new (const char     *name,
                     WbPhotoOutcome  outcome)
{
  WbPhotoResult *self = g_new0 (WbPhotoResult, 1);

  self->name = g_strdup (name);
  self->outcome = outcome;
  return self;
}

static void
result_free (gpointer data)
{
  WbPhotoResult *self = data;

  g_free (self->name);
  g_clear_pointer (&self->photo, wb_record_unref);
  g_clear_error (&self->error);
  g_free (self);
}

GPtrArray *
wb_photo_results_records (GPtrArray *results,
                          guint     *counts)
{
  GPtrArray *records = g_ptr_array_new_with_free_func (wb_record_unref);

  for (guint i = 0; i < results->len; i++)
    {
      const WbPhotoResult *result = g_ptr_array_index (results, i);

      if (counts != NULL)
        counts[result->outcome]++;
      if (result->outcome == WB_PHOTO_TAKEN)
        g_ptr_array_add (records, wb_record_ref (result->photo));
    }
  return records;
}

char *
wb_photo_result_words (const WbPhotoResult *result)
{
  switch (result->outcome)
    {
    case WB_PHOTO_TAKEN:
      return result->error != NULL ? wb_words_error (result->error) : g_strdup (_("Taken in."));
    case WB_PHOTO_AGAIN:
      return g_strdup (_("This job has the same picture already; it was not taken in twice."));
    case WB_PHOTO_REFUSED:
      return wb_words_error (result->error);
    case WB_PHOTO_PASSED_OVER:
      return g_strdup (_("This is not a picture and was passed over."));
    case WB_PHOTO_NOT_REACHED:
      return g_strdup (_("The import was stopped before this file."));
    }
  g_assert_not_reached ();
}

/* @words: (transfer full) */
static void
append_count (GString *out,
              guint    n,
              char    *words)
{
  if (n > 0 && out->len > 0)
    g_string_append_c (out, ' ');
  if (n > 0)
    g_string_append (out, words);
  g_free (words);
}

char *
wb_photo_results_words (GPtrArray *results)
{
  guint n[5] = { 0 };
  g_autoptr (GPtrArray) records = wb_photo_results_records (results, n);
  GString *out = g_string_new (NULL);
  guint taken = n[WB_PHOTO_TAKEN], again = n[WB_PHOTO_AGAIN], refused = n[WB_PHOTO_REFUSED];
  guint passed = n[WB_PHOTO_PASSED_OVER], left = n[WB_PHOTO_NOT_REACHED];

  append_count (out, taken,
                g_strdup_printf (ngettext ("%u photo was taken in.", "%u photos were taken in.",
                                           taken), taken));
  append_count (out, again,
                g_strdup_printf (ngettext ("%u was there already.", "%u were there already.",
                                           again), again));
  append_count (out, refused,
                g_strdup_printf (ngettext ("%u file could not be taken in.",
                                           "%u files could not be taken in.", refused), refused));
  append_count (out, passed,
                g_strdup_printf (ngettext ("%u other file is not a picture.",
                                           "%u other files are not pictures.", passed), passed));
  append_count (out, left,
                g_strdup_printf (ngettext ("Stopped: %u file was not reached.",
                                           "Stopped: %u files were not reached.", left), left));
  if (out->len == 0)
    g_string_append (out, _("There was no picture."));
  return g_string_free (out, FALSE);
}

/* --- the import ------------------------------------------------------------------------------- */

typedef struct
{
  char             *folder;
  WbProgress       *progress;
  GCancellable     *cancellable;
  GPtrArray        *sources;
  WbPhotoResult   **results;   /* one a source */
} Import;

static void
take_in_thread (gpointer data,
                gpointer user_data)
{
  Import *import = user_data;
  guint i = GPOINTER_TO_UINT (data) - 1;

  import->results[i] = wb_photo_take_one (import->folder, g_ptr_array_index (import->sources, i),
                                          import->progress, import->cancellable);
  wb_progress_add (import->progress, 1, 0);
}

static void
take_all (Import *import)
{
  guint n_threads = CLAMP (g_get_num_processors (), 1, MAX_THREADS);
  GThreadPool *pool = g_thread_pool_new (take_in_thread, import, (gint) n_threads, FALSE, NULL);

  for (guint i = 0; i < import->sources->len; i++)
    g_thread_pool_push (pool, GUINT_TO_POINTER (i + 1), NULL);
  g_thread_pool_free (pool, FALSE, TRUE);
}

static void
tell_size (WbProgress *progress,
           GPtrArray  *sources)
{
  gint64 bytes = 0;

  if (progress == NULL)
    return;
  for (guint i = 0; i < sources->len; i++)
    bytes += ((const WbPhotoSource *) g_ptr_array_index (sources, i))->size;
  wb_progress_begin (progress, N_("Taking in photos…"), sources->len, bytes);
}

/* In the order in which the files came, so that of two the first is taken. */
static void
find_repeats (WbJob     *job,
              GPtrArray *results)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PHOTO); i++)
    {
      const WbPhoto *photo = wb_job_nth (job, WB_KIND_PHOTO, i);

      if (photo->hash != NULL)
        g_hash_table_add (seen, photo->hash);
    }
  for (guint i = 0; i < results->len; i++)
    {
      WbPhotoResult *result = g_ptr_array_index (results, i);

      if (result->photo == NULL || g_hash_table_add (seen, result->photo->hash))
        continue;
      result->outcome = WB_PHOTO_AGAIN;
      g_clear_error (&result->error);
    }
}

GPtrArray *
wb_office_take_photos (WbOffice         *self,
                       WbJob            *job,
                       GPtrArray        *sources,
                       WbProgress       *progress,
                       GCancellable     *cancellable,
                       GError          **error)
{
  g_autoptr (GPtrArray) results = g_ptr_array_new_with_free_func (result_free);
  g_autoptr (GPtrArray) found = NULL;
  g_autofree char *folder = NULL;
  g_autofree WbPhotoResult **taken = NULL;
  Import import;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (job != NULL, NULL);
  g_return_val_if_fail (sources != NULL, NULL);

  found = wb_photo_sources_walk (sources, results, cancellable, error);
  if (found == NULL)
    return NULL;

  folder = wb_photo_store_folder (wb_office_get_path (self));
  taken = g_new0 (WbPhotoResult *, found->len);
  import = (Import) { folder, progress, cancellable, found, taken };
  tell_size (progress, found);
  take_all (&import);
  for (guint i = 0; i < found->len; i++)
    g_ptr_array_insert (results, (gint) i, taken[i]);
  find_repeats (job, results);
  return g_steal_pointer (&results);
}

/* --- in the background ------------------------------------------------------------------------ */

typedef struct
{
  WbJob           *job;
  GPtrArray       *sources;
  WbProgress      *progress;
} Request;

static void
request_free (gpointer data)
{
  Request *request = data;

  wb_job_unref (request->job);
  g_ptr_array_unref (request->sources);
  g_clear_pointer (&request->progress, wb_progress_unref);
  g_free (request);
}

static void
run_in_thread (GTask        *task,
               gpointer      source,
               gpointer      data,
               GCancellable *cancellable)
{
  Request *request = data;
  g_autoptr (GError) error = NULL;
  GPtrArray *results = wb_office_take_photos (WB_OFFICE (source), request->job, request->sources,
                                              request->progress, cancellable, &error);

  if (results != NULL)
    g_task_return_pointer (task, results, (GDestroyNotify) g_ptr_array_unref);
  else
    g_task_return_error (task, g_steal_pointer (&error));
}

void
wb_office_take_photos_async (WbOffice            *self,
                             WbJob               *job,
                             GPtrArray           *sources,
                             WbProgress          *progress,
                             GCancellable        *cancellable,
                             GAsyncReadyCallback  callback,
                             gpointer             data)
{
  g_autoptr (GTask) task = g_task_new (self, cancellable, callback, data);
  Request *request = g_new0 (Request, 1);

  request->job = wb_job_ref (job);
  request->sources = g_ptr_array_ref (sources);
  request->progress = progress != NULL ? wb_progress_ref (progress) : NULL;

  /* What was stored by then is told, also when somebody stopped it. */
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_source_tag (task, wb_office_take_photos_async);
  g_task_set_task_data (task, request, request_free);
  g_task_run_in_thread (task, run_in_thread);
}

GPtrArray *
wb_office_take_photos_finish (WbOffice      *self,
                              GAsyncResult  *result,
                              GError       **error)
{
  return wb_office_finish (self, result, wb_office_take_photos_async, error);
}
