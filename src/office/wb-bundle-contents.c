/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What came with a job, whether in a bundle or from a server: judged whole, and its photos and
 * papers put where they belong. Where the files came from, and what is done with the job, is not
 * known here. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-bundle-private.h"

#include "core/wb-json-check.h"
#include "core/wb-photo.h"
#include "office/wb-job-document.h"
#include "office/wb-office-private.h"
#include "share/wb-share.h"
#include "store/wb-photo-store.h"

#include <glib/gi18n.h>
#include <string.h>

#define CHUNK (256 * 1024)

void
wb_bundle_contents_clear (WbBundleContents *self)
{
  g_clear_pointer (&self->job, wb_job_unref);
  g_clear_pointer (&self->document, g_free);
  g_clear_pointer (&self->photos, g_hash_table_unref);
  g_clear_pointer (&self->papers, g_hash_table_unref);
  g_clear_pointer (&self->files, g_ptr_array_unref);
}

/* --- files by their names --------------------------------------------------------------------- */

/* Returns: (nullable): the ending in "FOLDER/SHA256.ENDING", when that is what @path is. */
static const char *
ending_after_hash (const char *path,
                   const char *folder)
{
  const char *name = path + strlen (folder);
  g_autofree char *hash = NULL;

  if (!g_str_has_prefix (path, folder) || strlen (name) < WB_PHOTO_HASH_LENGTH + 2)
    return NULL;
  hash = g_strndup (name, WB_PHOTO_HASH_LENGTH);
  name += WB_PHOTO_HASH_LENGTH;
  return wb_photo_hash_is_valid (hash) && *name == '.' && strchr (name, '/') == NULL ? name + 1
                                                                                   : NULL;
}

static gboolean
check_name (const WbBagFile  *file,
            const char       *folder,
            GError          **error)
{
  if (strncmp (file->path + strlen (folder), file->sha256, WB_PHOTO_HASH_LENGTH) == 0)
    return TRUE;
  return wb_share_refuse (error, WB_SHARE_ERROR_ALTERED, file->path,
                          "the file is not what its name says");
}

/* What is called a picture has to be one. */
static gboolean
check_picture (const WbBagFile  *file,
               const char       *ending,
               GError          **error)
{
  g_autoptr (GFile) copy = g_file_new_for_path (file->copy);
  g_autoptr (GFileInputStream) stream = g_file_read (copy, NULL, error);
  guint8 head[WB_PICTURE_HEAD];
  WbPictureFormat format;
  gsize length;

  if (stream == NULL ||
      !g_input_stream_read_all (G_INPUT_STREAM (stream), head, sizeof head, &length, NULL, error))
    return FALSE;
  format = wb_picture_format (head, length);
  if (format == WB_PICTURE_UNKNOWN)
    return wb_share_refuse (error, WB_SHARE_ERROR_STRANGER, file->path,
                            "this is not a picture of a kind that is taken in");
  if (strcmp (wb_bundle_picture_ending (format), ending) != 0)
    return wb_share_refuse (error, WB_SHARE_ERROR_STRANGER, file->path,
                            "the picture is of another kind than its name says");
  return TRUE;
}

/* Whether @path is that of a paper as PDF. */
static gboolean
is_printed (const char *path)
{
  const char *name = path + strlen (WB_BUNDLE_PAPERS);

  return g_str_has_prefix (path, WB_BUNDLE_PAPERS) && g_str_has_suffix (name, ".pdf") &&
         strspn (name, "abcdefghijklmnopqrstuvwxyz0123456789-") == strlen (name) - strlen (".pdf") &&
         g_ascii_isalnum (*name);
}

/* What is called a PDF has to be one. It is made from the job, so nobody needs it here. */
static gboolean
check_printed (WbBundleContents  *contents,
               const WbBagFile   *file,
               GError           **error)
{
  g_autoptr (GFile) copy = g_file_new_for_path (file->copy);
  g_autoptr (GFileInputStream) stream = g_file_read (copy, NULL, error);
  char head[5];
  gsize length;

  if (stream == NULL ||
      !g_input_stream_read_all (G_INPUT_STREAM (stream), head, sizeof head, &length, NULL, error))
    return FALSE;
  if (length < sizeof head || memcmp (head, "%PDF-", sizeof head) != 0)
    return wb_share_refuse (error, WB_SHARE_ERROR_STRANGER, file->path, "this is no PDF");
  contents->n_printed++;
  return TRUE;
}

static gboolean
sort_file (WbBundleContents  *contents,
           WbBagFile         *file,
           GError           **error)
{
  const char *photo = ending_after_hash (file->path, WB_BUNDLE_PHOTOS);
  const char *paper = ending_after_hash (file->path, WB_BUNDLE_PAPERS);

  if (strcmp (file->path, WB_BUNDLE_JOB) == 0)
    return TRUE;
  if (photo != NULL)
    {
      if (!check_name (file, WB_BUNDLE_PHOTOS, error) || !check_picture (file, photo, error))
        return FALSE;
      return g_hash_table_insert (contents->photos, file->sha256, file) ||
             wb_share_refuse (error, WB_SHARE_ERROR_CLASH, file->path, "the photo is there twice");
    }
  if (paper != NULL)
    return check_name (file, WB_BUNDLE_PAPERS, error) &&
           (g_hash_table_insert (contents->papers, file->sha256, file) ||
            wb_share_refuse (error, WB_SHARE_ERROR_CLASH, file->path, "the paper is there twice"));
  if (is_printed (file->path))
    return check_printed (contents, file, error);
  return wb_share_refuse (error, WB_SHARE_ERROR_STRANGER, file->path,
                          "this is neither the job, nor a photo or paper by its name");
}

/* --- what is in them -------------------------------------------------------------------------- */

static const WbBagFile *
find_job (const WbBundleContents *contents)
{
  for (guint i = 0; i < contents->files->len; i++)
    {
      const WbBagFile *file = g_ptr_array_index (contents->files, i);

      if (strcmp (file->path, WB_BUNDLE_JOB) == 0)
        return file;
    }
  return NULL;
}

static gboolean
read_job (WbBundleContents  *contents,
          GError           **error)
{
  const WbBagFile *file = find_job (contents);
  gsize length;

  if (file == NULL)
    return wb_share_refuse (error, WB_SHARE_ERROR_INCOMPLETE, WB_BUNDLE_JOB,
                            "the file is not there");
  if (file->size > WB_JSON_MAX_BYTES)
    return wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, file->path, "the file has more than %d MB",
                            WB_JSON_MAX_BYTES / (1024 * 1024));
  if (!g_file_get_contents (file->copy, &contents->document, &length, error))
    return FALSE;
  contents->job = wb_job_document_read (contents->document, (gssize) length, error);
  if (contents->job == NULL)
    g_prefix_error (error, "%s: ", WB_BUNDLE_JOB);
  return contents->job != NULL;
}

/* Every photo that the job has is there, as large as the job says, and no other. */
static gboolean
check_photos (WbBundleContents  *contents,
              GError           **error)
{
  g_autoptr (GHashTable) unused = g_hash_table_new (g_str_hash, g_str_equal);
  GHashTableIter iter;
  gpointer hash, file;

  g_hash_table_iter_init (&iter, contents->photos);
  while (g_hash_table_iter_next (&iter, &hash, &file))
    g_hash_table_insert (unused, hash, file);

  for (guint i = 0; i < wb_job_count (contents->job, WB_KIND_PHOTO); i++)
    {
      const WbPhoto *photo = wb_job_nth (contents->job, WB_KIND_PHOTO, i);
      const WbBagFile *found = g_hash_table_lookup (contents->photos, photo->hash);
      g_autofree char *path = g_strconcat (WB_BUNDLE_PHOTOS, photo->hash, NULL);

      if (found == NULL)
        return wb_share_refuse (error, WB_SHARE_ERROR_INCOMPLETE, path,
                                "the job has this photo, and the bundle has not");
      if (photo->size > 0 && photo->size != found->size)
        return wb_share_refuse (error, WB_SHARE_ERROR_ALTERED, found->path,
                                "the job says another size of the photo");
      g_hash_table_remove (unused, photo->hash);
    }
  g_hash_table_iter_init (&iter, unused);
  return !g_hash_table_iter_next (&iter, NULL, &file) ||
         wb_share_refuse (error, WB_SHARE_ERROR_STRANGER, ((WbBagFile *) file)->path,
                          "the job does not have this photo");
}

static GBytes *
map_paper (const WbBagFile  *file,
           GError          **error)
{
  g_autoptr (GMappedFile) mapped = g_mapped_file_new (file->copy, FALSE, error);

  return mapped != NULL ? g_mapped_file_get_bytes (mapped) : NULL;
}

static GBytes *
get_packed (const char  *hash,
            gpointer     data,
            GError     **error)
{
  const WbBagFile *file = g_hash_table_lookup (data, hash);

  return file != NULL ? map_paper (file, error) : NULL;
}

/* Every paper is named by the job, or by another that is. Those that the sender's book did not have
 * itself are counted. */
static gboolean
check_papers (WbBundleContents  *contents,
              GError           **error)
{
  g_autoptr (GHashTable) named = wb_bundle_find_papers (contents->document, contents->job,
                                                        get_packed, contents->papers, error);
  GHashTableIter iter;
  gpointer hash, file;

  if (named == NULL)
    return FALSE;
  contents->n_lost_papers = wb_bundle_count_lost (contents->job, named);
  g_hash_table_iter_init (&iter, contents->papers);
  while (g_hash_table_iter_next (&iter, &hash, &file))
    if (!g_hash_table_contains (named, hash))
      return wb_share_refuse (error, WB_SHARE_ERROR_STRANGER, ((WbBagFile *) file)->path,
                              "nothing in the job names this paper");
  return TRUE;
}

gboolean
wb_bundle_contents_judge (WbBundleContents  *self,
                          GPtrArray         *files,
                          GError           **error)
{
  self->files = g_ptr_array_ref (files);
  self->photos = g_hash_table_new (g_str_hash, g_str_equal);
  self->papers = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; i < files->len; i++)
    if (!sort_file (self, g_ptr_array_index (files, i), error))
      return FALSE;
  return read_job (self, error) && check_photos (self, error) && check_papers (self, error);
}

/* --- into the book ---------------------------------------------------------------------------- */

static gboolean
has_number (const WbJob *job,
            const char  *number)
{
  g_autofree char *wanted = g_utf8_casefold (number, -1);
  g_autofree char *own = NULL;

  if (wb_job_order (job)->number != NULL)
    own = g_utf8_casefold (wb_job_order (job)->number, -1);
  if (g_strcmp0 (own, wanted) == 0)
    return TRUE;
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM); i++)
    {
      const WbClaim *claim = wb_job_nth (job, WB_KIND_CLAIM, i);
      g_autofree char *other = claim->number != NULL ? g_utf8_casefold (claim->number, -1) : NULL;

      if (g_strcmp0 (other, wanted) == 0)
        return TRUE;
    }
  return FALSE;
}

/* The book itself refuses a number that is taken, but only after photos would have been stored. */
static gboolean
check_number (WbOffice      *office,
              const char    *number,
              GCancellable  *cancellable,
              GError       **error)
{
  g_autoptr (GError) fault = NULL;
  g_autoptr (WbJob) holder = NULL;

  if (number == NULL)
    return TRUE;
  holder = wb_office_find_job (office, number, cancellable, &fault);
  if (g_error_matches (fault, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND))
    return TRUE;
  if (holder == NULL)
    {
      g_propagate_error (error, g_steal_pointer (&fault));
      return FALSE;
    }
  if (!has_number (holder, number))
    return TRUE;
  g_set_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CONSTRAINT,
               "the number “%s” is already taken by job %s", number, wb_job_get_id (holder));
  return FALSE;
}

gboolean
wb_bundle_check_is_new (WbOffice      *office,
                        WbJob         *job,
                        GCancellable  *cancellable,
                        GError       **error)
{
  g_autoptr (GError) fault = NULL;
  g_autoptr (WbJob) there = wb_office_load_job (office, wb_job_get_id (job), cancellable, &fault);

  if (there != NULL)
    {
      g_set_error (error, WB_STORE_ERROR, WB_STORE_ERROR_EXISTS, "there is a job %s already",
                   wb_job_order (there)->number != NULL ? wb_job_order (there)->number
                                                        : wb_job_get_id (there));
      return FALSE;
    }
  if (!g_error_matches (fault, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND))
    {
      g_propagate_error (error, g_steal_pointer (&fault));
      return FALSE;
    }
  if (!check_number (office, wb_job_order (job)->number, cancellable, error))
    return FALSE;
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM); i++)
    if (!check_number (office, ((const WbClaim *) wb_job_nth (job, WB_KIND_CLAIM, i))->number,
                       cancellable, error))
      return FALSE;
  return TRUE;
}

typedef struct
{
  char             *folder;
  guint8           *chunk;
  WbProgress       *progress;
  gint64            done;
  gint64            all;
} Storing;

static gboolean
store_photo (Storing          *storing,
             const WbBagFile  *file,
             GCancellable     *cancellable,
             GError          **error)
{
  g_autoptr (GFile) copy = g_file_new_for_path (file->copy);
  g_autoptr (GFileInputStream) stream = g_file_read (copy, cancellable, error);
  g_autoptr (WbPhotoIntake) intake = NULL;
  g_autofree char *hash = NULL;
  gssize length;

  if (stream == NULL)
    return FALSE;
  intake = wb_photo_intake_begin (storing->folder, error);
  if (intake == NULL)
    return FALSE;
  while ((length = g_input_stream_read (G_INPUT_STREAM (stream), storing->chunk, CHUNK, cancellable,
                                        error)) > 0)
    {
      if (!wb_photo_intake_write (intake, storing->chunk, (gsize) length, error))
        return FALSE;
      storing->done += length;
      wb_progress_set (storing->done, storing->all, storing->progress);
    }
  if (length < 0)
    return FALSE;
  hash = wb_photo_intake_keep (intake, error);
  if (hash == NULL)
    return FALSE;
  return strcmp (hash, file->sha256) == 0 ||
         wb_share_refuse (error, WB_SHARE_ERROR_ALTERED, file->path,
                          "its private copy changed meanwhile");
}

gboolean
wb_bundle_contents_store_photos (const WbBundleContents  *contents,
                                 WbOffice                *office,
                                 WbProgress              *progress,
                                 GCancellable            *cancellable,
                                 GError                 **error)
{
  g_autofree char *folder = wb_photo_store_folder (wb_office_get_path (office));
  g_autofree guint8 *chunk = g_malloc (CHUNK);
  Storing storing = { folder, chunk, progress, 0, 0 };
  GHashTableIter iter;
  gpointer file;

  g_hash_table_iter_init (&iter, contents->photos);
  while (g_hash_table_iter_next (&iter, NULL, &file))
    storing.all += ((WbBagFile *) file)->size;
  wb_progress_begin (progress, N_("Putting the job into the book…"), 0, storing.all);
  g_hash_table_iter_init (&iter, contents->photos);
  while (g_hash_table_iter_next (&iter, NULL, &file))
    if (!store_photo (&storing, file, cancellable, error))
      return FALSE;
  return TRUE;
}

GPtrArray *
wb_bundle_contents_papers (const WbBundleContents  *contents,
                           GError                 **error)
{
  g_autoptr (GPtrArray) papers = g_ptr_array_new_with_free_func ((GDestroyNotify) g_bytes_unref);
  GHashTableIter iter;
  gpointer file;

  g_hash_table_iter_init (&iter, contents->papers);
  while (g_hash_table_iter_next (&iter, NULL, &file))
    {
      GBytes *paper = map_paper (file, error);

      if (paper == NULL)
        return NULL;
      g_ptr_array_add (papers, paper);
    }
  return g_steal_pointer (&papers);
}
