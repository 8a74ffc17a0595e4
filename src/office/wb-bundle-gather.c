/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gathers what belongs to a job: its document, its kept papers, its papers as PDF and its photos,
 * whoever is to have them. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-bundle-private.h"

#include "core/wb-photo.h"
#include "office/wb-job-document.h"
#include "office/wb-office-private.h"
#include "office/wb-papers.h"
#include "share/wb-share.h"
#include "store/wb-photo-store.h"

#include <string.h>

void
wb_bundle_item_free (WbBundleItem *self)
{
  g_free (self->path);
  g_clear_pointer (&self->bytes, g_bytes_unref);
  g_free (self->file);
  g_free (self->sha256);
  g_free (self);
}

static WbBundleItem *
item_new (const char *path,
          GBytes     *bytes,
          const char *file,
          const char *sha256)
{
  WbBundleItem *self = g_new0 (WbBundleItem, 1);

  self->path = g_strdup (path);
  self->bytes = bytes != NULL ? g_bytes_ref (bytes) : NULL;
  self->file = g_strdup (file);
  self->sha256 = g_strdup (sha256);
  return self;
}

typedef struct
{
  WbOffice     *office;
  GCancellable *cancellable;
} Search;

/* --- photos ----------------------------------------------------------------------------------- */

static const char *
name_of (const WbPhoto *photo)
{
  return photo->name != NULL ? photo->name : photo->hash;
}

static WbPictureFormat
format_of (const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GFileInputStream) stream = g_file_read (file, NULL, NULL);
  guint8 head[WB_PICTURE_HEAD];
  gsize length;

  if (stream == NULL ||
      !g_input_stream_read_all (G_INPUT_STREAM (stream), head, sizeof head, &length, NULL, NULL))
    return WB_PICTURE_UNKNOWN;
  return wb_picture_format (head, length);
}

static gboolean
add_photo (GPtrArray      *items,
           const char     *folder,
           const WbPhoto  *photo,
           GError        **error)
{
  g_autofree char *file = NULL;
  g_autofree char *path = NULL;
  WbPictureFormat format;

  if (!wb_photo_store_check (folder, photo->hash, -1, FALSE, NULL, NULL))
    return wb_share_refuse (error, WB_SHARE_ERROR_SOURCE, name_of (photo),
                            "its file %s is gone or cannot be read", photo->hash);
  file = wb_photo_store_path (folder, photo->hash);
  format = format_of (file);
  if (format == WB_PICTURE_UNKNOWN)
    return wb_share_refuse (error, WB_SHARE_ERROR_SOURCE, name_of (photo),
                            "its file %s is not a picture any more", photo->hash);
  path = g_strconcat (WB_BUNDLE_PHOTOS, photo->hash, ".", wb_bundle_picture_ending (format), NULL);
  g_ptr_array_add (items, item_new (path, NULL, file, photo->hash));
  return TRUE;
}

/* Two records may show one file. */
static gboolean
add_photos (GPtrArray      *items,
            WbOffice       *office,
            const WbJob    *job,
            GCancellable   *cancellable,
            GError        **error)
{
  g_autofree char *folder = wb_photo_store_folder (wb_office_get_path (office));
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PHOTO); i++)
    {
      const WbPhoto *photo = wb_job_nth (job, WB_KIND_PHOTO, i);

      if (g_cancellable_set_error_if_cancelled (cancellable, error))
        return FALSE;
      if (g_hash_table_add (seen, photo->hash) && !add_photo (items, folder, photo, error))
        return FALSE;
    }
  return TRUE;
}

/* --- papers ----------------------------------------------------------------------------------- */

static GBytes *
get_kept (const char  *hash,
          gpointer     data,
          GError     **error)
{
  Search *search = data;
  g_autoptr (GError) fault = NULL;
  GBytes *paper = wb_book_read_document (wb_office_get_book (search->office), hash,
                                         search->cancellable, &fault);

  if (fault != NULL && !g_error_matches (fault, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND))
    g_propagate_error (error, g_steal_pointer (&fault));
  return paper;
}

/* For whoever looks into the folder; a reader goes by the hash. */
static const char *
ending_of (GBytes *paper)
{
  gsize length;
  const char *text = g_bytes_get_data (paper, &length);

  if (length >= 5 && memcmp (text, "%PDF-", 5) == 0)
    return "pdf";
  if (!g_utf8_validate_len (text, length, NULL))
    return "bin";
  return length > 0 && text[0] == '{' ? "json" : "txt";
}

static void
add_papers (GPtrArray  *items,
            GHashTable *papers)
{
  GHashTableIter iter;
  gpointer hash, paper;

  g_hash_table_iter_init (&iter, papers);
  while (g_hash_table_iter_next (&iter, &hash, &paper))
    {
      g_autofree char *path = g_strconcat (WB_BUNDLE_PAPERS, hash, ".", ending_of (paper), NULL);

      g_ptr_array_add (items, item_new (path, paper, NULL, hash));
    }
}

/* Those that are made from the job: for whoever has no Wainbook. A reader makes its own. */
static gboolean
add_printed (GPtrArray      *items,
             WbOffice       *office,
             WbJob          *job,
             guint          *n_printed,
             GCancellable   *cancellable,
             GError        **error)
{
  g_autoptr (GPtrArray) files = wb_office_make_papers (office, job, NULL, cancellable, error);

  if (files == NULL)
    return FALSE;
  for (guint i = 0; i < files->len; i++)
    {
      const WbPaperFile *file = g_ptr_array_index (files, i);
      g_autofree char *path = g_strconcat (WB_BUNDLE_PAPERS, file->name, NULL);
      g_autofree char *hash = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, file->bytes);

      g_ptr_array_add (items, item_new (path, file->bytes, NULL, hash));
    }
  *n_printed = files->len;
  return TRUE;
}

/* --- all of it -------------------------------------------------------------------------------- */

GPtrArray *
wb_bundle_gather (WbOffice      *office,
                  WbJob         *job,
                  guint         *n_papers,
                  guint         *n_printed,
                  guint         *n_lost_papers,
                  GCancellable  *cancellable,
                  GError       **error)
{
  g_autoptr (GPtrArray) items =
    g_ptr_array_new_with_free_func ((GDestroyNotify) wb_bundle_item_free);
  char *document = wb_job_document_write (job);
  g_autoptr (GBytes) bytes = g_bytes_new_take (document, strlen (document));
  g_autofree char *hash = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, bytes);
  g_autoptr (GHashTable) papers = NULL;
  Search search = { office, cancellable };

  papers = wb_bundle_find_papers (document, job, get_kept, &search, error);
  if (papers == NULL)
    return NULL;

  g_ptr_array_add (items, item_new (WB_BUNDLE_JOB, bytes, NULL, hash));
  add_papers (items, papers);
  if (!add_printed (items, office, job, n_printed, cancellable, error) ||
      !add_photos (items, office, job, cancellable, error))
    return NULL;
  *n_papers = g_hash_table_size (papers);
  *n_lost_papers = wb_bundle_count_lost (job, papers);
  return g_steal_pointer (&items);
}
