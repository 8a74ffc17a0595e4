/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Judges what a valid bag holds, and puts it into a book. By the time anything is stored the whole
 * bundle was read into a private folder and found good: the bag, the job document, every photo and
 * every paper. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-bundle.h"

#include "core/wb-json-check.h"
#include "core/wb-photo.h"
#include "office/wb-bundle-private.h"
#include "office/wb-job-document.h"
#include "office/wb-office-private.h"
#include "share/wb-bag.h"
#include "share/wb-share.h"
#include "store/wb-photo-store.h"
#include "store/wb-picture.h"

#include <glib/gi18n.h>
#include <string.h>

#define CHUNK (256 * 1024)

/* WbContents: a bundle found good. */
typedef struct
{
  WbBag      *bag;
  WbJob      *job;
  GHashTable *photos;   /* hash → WbBagFile */
  GHashTable *papers;   /* hash → WbBagFile */
} Contents;

static void
contents_clear (Contents *self)
{
  g_clear_pointer (&self->job, wb_job_unref);
  g_clear_pointer (&self->photos, g_hash_table_unref);
  g_clear_pointer (&self->papers, g_hash_table_unref);
  g_clear_pointer (&self->bag, wb_bag_free);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Contents, contents_clear)

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

static gboolean
sort_file (Contents   *contents,
           WbBagFile  *file,
           GError    **error)
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
  return wb_share_refuse (error, WB_SHARE_ERROR_STRANGER, file->path,
                          "this is neither the job, nor a photo or kept paper by its name");
}

/* --- what is in them -------------------------------------------------------------------------- */

/* Returns: (transfer full) (nullable): the text of the job document; its job goes into @contents. */
static char *
read_job (Contents  *contents,
          GError   **error)
{
  const WbBagFile *file = wb_bag_find (contents->bag, WB_BUNDLE_JOB);
  g_autofree char *text = NULL;
  gsize length;

  if (file == NULL)
    {
      wb_share_refuse (error, WB_SHARE_ERROR_INCOMPLETE, WB_BUNDLE_JOB, "the file is not there");
      return NULL;
    }
  if (file->size > WB_JSON_MAX_BYTES)
    {
      wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, file->path, "the file has more than %d MB",
                       WB_JSON_MAX_BYTES / (1024 * 1024));
      return NULL;
    }
  if (!g_file_get_contents (file->copy, &text, &length, error))
    return NULL;
  contents->job = wb_job_document_read (text, (gssize) length, error);
  if (contents->job == NULL)
    {
      g_prefix_error (error, "%s: ", WB_BUNDLE_JOB);
      return NULL;
    }
  return g_steal_pointer (&text);
}

/* Every photo that the job has is there, as large as the job says, and no other. */
static gboolean
check_photos (Contents  *contents,
              GError   **error)
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

/* Every paper is named by the job, or by another that is. Which ones the sender's book did not have
 * itself is counted in @lost. */
static gboolean
check_papers (Contents    *contents,
              const char  *document,
              guint       *lost,
              GError     **error)
{
  g_autoptr (GHashTable) named = wb_bundle_find_papers (document, contents->job, get_packed,
                                                        contents->papers, error);
  GHashTableIter iter;
  gpointer hash, file;

  if (named == NULL)
    return FALSE;
  *lost = wb_bundle_count_lost (contents->job, named);
  g_hash_table_iter_init (&iter, contents->papers);
  while (g_hash_table_iter_next (&iter, &hash, &file))
    if (!g_hash_table_contains (named, hash))
      return wb_share_refuse (error, WB_SHARE_ERROR_STRANGER, ((WbBagFile *) file)->path,
                              "nothing in the job names this paper");
  return TRUE;
}

static WbBundleReport *
make_report (const Contents *contents,
             guint           lost)
{
  WbBundleReport *report = g_new0 (WbBundleReport, 1);
  GPtrArray *payload = wb_bag_get_payload (contents->bag);

  report->job = wb_job_ref (contents->job);
  report->n_photos = g_hash_table_size (contents->photos);
  report->n_papers = g_hash_table_size (contents->papers);
  report->n_lost_papers = lost;
  report->packed_on = g_strdup (wb_bag_get_info (contents->bag, "Bagging-Date"));
  for (guint i = 0; i < payload->len; i++)
    report->bytes += ((const WbBagFile *) g_ptr_array_index (payload, i))->size;
  return report;
}

/* Returns: (transfer full) (nullable): what the bundle holds, once all of it was found good. */
static WbBundleReport *
judge (Contents          *contents,
       const char        *source,
       WbProgress        *progress,
       GCancellable      *cancellable,
       GError           **error)
{
  g_autofree char *scratch = g_build_filename (g_get_user_cache_dir (), "wainbook", "bundles", NULL);
  g_autofree char *document = NULL;
  GPtrArray *payload;
  guint lost = 0;

  wb_progress_begin (progress, N_("Reading and checking the bundle…"), 0, 0);
  contents->bag = wb_bag_read (source, NULL, scratch, wb_progress_set, progress, cancellable,
                               error);
  if (contents->bag == NULL)
    return NULL;
  contents->photos = g_hash_table_new (g_str_hash, g_str_equal);
  contents->papers = g_hash_table_new (g_str_hash, g_str_equal);
  payload = wb_bag_get_payload (contents->bag);
  for (guint i = 0; i < payload->len; i++)
    if (!sort_file (contents, g_ptr_array_index (payload, i), error))
      return NULL;
  document = read_job (contents, error);
  if (document == NULL || !check_photos (contents, error) ||
      !check_papers (contents, document, &lost, error))
    return NULL;
  return make_report (contents, lost);
}

WbBundleReport *
wb_bundle_check (const char        *source,
                 WbProgress        *progress,
                 GCancellable      *cancellable,
                 GError           **error)
{
  g_auto (Contents) contents = { NULL };

  g_return_val_if_fail (source != NULL, NULL);

  return judge (&contents, source, progress, cancellable, error);
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

static gboolean
check_is_new (WbOffice      *office,
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

static gboolean
store_photos (WbOffice          *office,
              const Contents    *contents,
              WbProgress        *progress,
              GCancellable      *cancellable,
              GError           **error)
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

static gboolean
store_papers (WbOffice        *office,
              const Contents  *contents,
              GCancellable    *cancellable,
              GError         **error)
{
  g_autoptr (GPtrArray) papers = g_ptr_array_new_with_free_func ((GDestroyNotify) g_bytes_unref);
  g_autoptr (GPtrArray) hashes = NULL;
  GHashTableIter iter;
  gpointer file;

  g_hash_table_iter_init (&iter, contents->papers);
  while (g_hash_table_iter_next (&iter, NULL, &file))
    {
      GBytes *paper = map_paper (file, error);

      if (paper == NULL)
        return FALSE;
      g_ptr_array_add (papers, paper);
    }
  if (papers->len == 0)
    return TRUE;
  hashes = wb_book_keep_documents (wb_office_get_book (office), papers, cancellable, error);
  return hashes != NULL;
}

static gboolean
store_job (WbOffice      *office,
           WbJob         *job,
           GCancellable  *cancellable,
           GError       **error)
{
  g_autoptr (GPtrArray) jobs = g_ptr_array_new ();

  g_ptr_array_add (jobs, job);
  return wb_office_add_jobs (office, jobs, _("Take in a bundle"), cancellable, error);
}

/* Photos and papers are named by what is in them, so without the job they are nobody's and do no
 * harm: they go first, and the job makes them count. */
WbBundleReport *
wb_office_bundle_read (WbOffice          *self,
                       const char        *source,
                       WbProgress        *progress,
                       GCancellable      *cancellable,
                       GError           **error)
{
  g_auto (Contents) contents = { NULL };
  g_autoptr (WbBundleReport) report = NULL;
  WbJob *stored;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (source != NULL, NULL);

  report = judge (&contents, source, progress, cancellable, error);
  if (report == NULL ||
      !check_is_new (self, contents.job, cancellable, error) ||
      !store_photos (self, &contents, progress, cancellable, error) ||
      !store_papers (self, &contents, cancellable, error) ||
      !store_job (self, contents.job, cancellable, error))
    return NULL;

  stored = wb_office_load_job (self, wb_job_get_id (contents.job), NULL, NULL);
  if (stored != NULL)
    {
      wb_job_unref (report->job);
      report->job = stored;
    }
  return g_steal_pointer (&report);
}
