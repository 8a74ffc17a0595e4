/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What writing and reading a bundle have in common: how far they are, what came of them, which
 * papers belong to a job, and how they run in a worker thread. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-bundle.h"

#include "core/wb-photo.h"
#include "office/wb-bundle-private.h"
#include "office/wb-office-private.h"
#include "share/wb-bag.h"

#include <glib/gi18n.h>
#include <string.h>


/* --- what came of it -------------------------------------------------------------------------- */

void
wb_bundle_report_free (WbBundleReport *self)
{
  if (self == NULL)
    return;
  g_clear_pointer (&self->job, wb_job_unref);
  g_free (self->packed_on);
  g_free (self);
}

static const char *
number_of (const WbJob *job)
{
  const char *number = wb_job_order (job)->number;

  return number != NULL ? number : wb_job_get_id (job);
}

char *
wb_bundle_report_words (const WbBundleReport *self)
{
  g_autofree char *photos = g_strdup_printf (ngettext ("%u photo", "%u photos", self->n_photos),
                                             self->n_photos);
  g_autofree char *papers = g_strdup_printf (ngettext ("%u kept paper", "%u kept papers",
                                                       self->n_papers), self->n_papers);
  g_autofree char *size = g_format_size ((guint64) self->bytes);
  g_autofree char *printed = NULL;

  if (self->n_printed == 0)
    /* Translators: a job number, "3 photos", "4 kept papers", "1.2 MB". */
    return g_strdup_printf (_("job %s: %s, %s, %s"), number_of (self->job), photos, papers, size);
  printed = g_strdup_printf (ngettext ("%u paper as PDF", "%u papers as PDF", self->n_printed),
                             self->n_printed);
  /* Translators: a job number, "3 photos", "4 kept papers", "6 papers as PDF", "1.2 MB". */
  return g_strdup_printf (_("job %s: %s, %s, %s, %s"), number_of (self->job), photos, papers,
                          printed, size);
}

char *
wb_bundle_file_name (const WbJob *job)
{
  g_autofree char *name = g_strndup (number_of (job), 100);

  g_strcanon (name, G_CSET_A_2_Z G_CSET_a_2_z G_CSET_DIGITS "-_", '-');
  return g_strconcat (name, ".zip", NULL);
}

char *
wb_bundle_target (const char *path)
{
  return wb_bag_name_is_archive (path) ? g_strdup (path) : g_strconcat (path, ".zip", NULL);
}

const char *
wb_bundle_picture_ending (WbPictureFormat format)
{
  switch (format)
    {
    case WB_PICTURE_JPEG:
      return "jpg";
    case WB_PICTURE_PNG:
      return "png";
    case WB_PICTURE_TIFF:
      return "tif";
    case WB_PICTURE_WEBP:
      return "webp";
    case WB_PICTURE_HEIC:
      return "heic";
    case WB_PICTURE_UNKNOWN:
      return "";
    }
  g_assert_not_reached ();
}

/* --- papers ----------------------------------------------------------------------------------- */

static gboolean
is_digit (char c)
{
  return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f');
}

void
wb_bundle_find_hashes (const char *text,
                       gsize       length,
                       GPtrArray  *hashes,
                       GHashTable *seen)
{
  gsize start = 0;

  for (gsize i = 0; i <= length; i++)
    {
      char *hash;

      if (i < length && is_digit (text[i]))
        continue;
      if (i - start == WB_PHOTO_HASH_LENGTH)
        {
          hash = g_strndup (text + start, WB_PHOTO_HASH_LENGTH);
          if (g_hash_table_add (seen, g_strdup (hash)))
            g_ptr_array_add (hashes, hash);
          else
            g_free (hash);
        }
      start = i + 1;
    }
}

/* The files of photos are named too, and are no papers. */
static GHashTable *
photo_hashes (const WbJob *job)
{
  GHashTable *seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PHOTO); i++)
    {
      const WbPhoto *photo = wb_job_nth (job, WB_KIND_PHOTO, i);

      g_hash_table_add (seen, g_strdup (photo->hash));
    }
  return seen;
}

GHashTable *
wb_bundle_find_papers (const char         *document,
                       const WbJob        *job,
                       WbBundlePaperFunc   get,
                       gpointer            data,
                       GError            **error)
{
  g_autoptr (GHashTable) papers = g_hash_table_new_full (g_str_hash, g_str_equal, g_free,
                                                         (GDestroyNotify) g_bytes_unref);
  g_autoptr (GPtrArray) hashes = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GHashTable) seen = photo_hashes (job);

  wb_bundle_find_hashes (document, strlen (document), hashes, seen);
  for (guint i = 0; i < hashes->len; i++)
    {
      const char *hash = g_ptr_array_index (hashes, i);
      g_autoptr (GError) fault = NULL;
      GBytes *paper = get (hash, data, &fault);

      if (fault != NULL)
        {
          g_propagate_error (error, g_steal_pointer (&fault));
          return NULL;
        }
      if (paper == NULL)
        continue;
      g_hash_table_insert (papers, g_strdup (hash), paper);
      wb_bundle_find_hashes (g_bytes_get_data (paper, NULL), g_bytes_get_size (paper), hashes,
                             seen);
    }
  return g_steal_pointer (&papers);
}

guint
wb_bundle_count_lost (const WbJob *job,
                      GHashTable  *papers)
{
  guint n = 0;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_STEP); i++)
    {
      const WbClaimStep *step = wb_job_nth (job, WB_KIND_STEP, i);

      if (step->frozen != NULL && !g_hash_table_contains (papers, step->frozen))
        n++;
      if (step->letter != NULL && !g_hash_table_contains (papers, step->letter))
        n++;
    }
  return n;
}

/* --- in a worker thread ----------------------------------------------------------------------- */

typedef struct
{
  WbJob            *job;        /* (nullable): to be written; else a bundle is read */
  char             *path;
  gboolean          replace;
  WbProgress       *progress;
} Request;

static void
request_free (gpointer data)
{
  Request *request = data;

  g_clear_pointer (&request->job, wb_job_unref);
  g_clear_pointer (&request->progress, wb_progress_unref);
  g_free (request->path);
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
  WbBundleReport *report;

  if (request->job != NULL)
    report = wb_office_bundle_write (source, request->job, request->path, request->replace,
                                     request->progress, cancellable, &error);
  else
    report = wb_office_bundle_read (source, request->path, request->progress, cancellable, &error);
  if (report != NULL)
    g_task_return_pointer (task, report, (GDestroyNotify) wb_bundle_report_free);
  else
    g_task_return_error (task, g_steal_pointer (&error));
}

static void
start (WbOffice            *self,
       Request             *request,
       gpointer             tag,
       WbProgress          *progress,
       GCancellable        *cancellable,
       GAsyncReadyCallback  callback,
       gpointer             data)
{
  g_autoptr (GTask) task = g_task_new (self, cancellable, callback, data);

  request->progress = progress != NULL ? wb_progress_ref (progress) : NULL;
  /* What is done is told, also when somebody stops it a moment later. */
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_source_tag (task, tag);
  g_task_set_task_data (task, request, request_free);
  g_task_run_in_thread (task, run_in_thread);
}

void
wb_office_bundle_write_async (WbOffice            *self,
                              WbJob               *job,
                              const char          *target,
                              gboolean             replace,
                              WbProgress          *progress,
                              GCancellable        *cancellable,
                              GAsyncReadyCallback  callback,
                              gpointer             data)
{
  Request *request = g_new0 (Request, 1);

  request->job = wb_job_ref (job);
  request->path = g_strdup (target);
  request->replace = replace;
  start (self, request, wb_office_bundle_write_async, progress, cancellable, callback, data);
}

WbBundleReport *
wb_office_bundle_write_finish (WbOffice      *self,
                               GAsyncResult  *result,
                               GError       **error)
{
  return wb_office_finish (self, result, wb_office_bundle_write_async, error);
}

void
wb_office_bundle_read_async (WbOffice            *self,
                             const char          *source,
                             WbProgress          *progress,
                             GCancellable        *cancellable,
                             GAsyncReadyCallback  callback,
                             gpointer             data)
{
  Request *request = g_new0 (Request, 1);

  request->path = g_strdup (source);
  start (self, request, wb_office_bundle_read_async, progress, cancellable, callback, data);
}

WbBundleReport *
wb_office_bundle_read_finish (WbOffice      *self,
                              GAsyncResult  *result,
                              GError       **error)
{
  return wb_office_finish (self, result, wb_office_bundle_read_async, error);
}
