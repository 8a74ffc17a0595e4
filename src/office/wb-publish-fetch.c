/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Brings a published job into the book: the files of a version into a private folder, judged as those
 * of a bundle are, and only then stored. A job that was changed here too becomes the job of both. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-publish.h"

#include "office/wb-job-document.h"
#include "office/wb-publish-private.h"
#include "share/wb-share.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <string.h>

/* More versions side by side than any office makes. */
#define MAX_STEPS 64

static void
bag_file_free (gpointer data)
{
  WbBagFile *file = data;

  g_free (file->path);
  g_free (file->copy);
  g_free (file->sha256);
  g_free (file);
}

static WbBagFile *
bag_file_new (const WbVersionFile *from,
              const char          *path,
              const char          *folder)
{
  WbBagFile *file = g_new0 (WbBagFile, 1);

  file->path = from->name != NULL ? g_strconcat ("data/", from->name, NULL) : g_strdup (path);
  file->copy = g_build_filename (folder, from->sha256, NULL);
  file->size = from->size;
  file->sha256 = g_strdup (from->sha256);
  return file;
}

/* The files of a version under the names that they have in a bundle. */
static GPtrArray *
files_of (const WbVersion *version,
          const char      *folder)
{
  GPtrArray *files = g_ptr_array_new_with_free_func (bag_file_free);

  g_ptr_array_add (files, bag_file_new (&version->document, WB_BUNDLE_JOB, folder));
  for (guint i = 0; version->files != NULL && i < version->files->len; i++)
    g_ptr_array_add (files, bag_file_new (g_ptr_array_index (version->files, i), NULL, folder));
  return files;
}

static void
remove_files (GPtrArray  *files,
              const char *folder)
{
  for (guint i = 0; i < files->len; i++)
    (void) g_unlink (((const WbBagFile *) g_ptr_array_index (files, i))->copy);
  (void) g_rmdir (folder);
}

/* --- the job of both -------------------------------------------------------------------------- */

static void
choose_all (WbMerge       *both,
            WbMergeChoice  choice)
{
  for (guint i = 0; i < wb_merge_count (both); i++)
    {
      const WbMergeItem *item = wb_merge_nth (both, i);

      if (item->side == WB_MERGE_CONFLICT && item->choice == WB_MERGE_UNDECIDED)
        wb_merge_choose (both, i, choice);
    }
}

static WbJob *
merge (WbShareLink      *link,
       const WbVersion  *version,
       WbJob            *theirs,
       WbMergeChoice     conflicts,
       GCancellable     *cancellable,
       GError          **error)
{
  g_autoptr (WbJob) base = NULL;
  g_autoptr (WbMerge) both = NULL;
  GError *fault = NULL;
  guint n;

  base = wb_share_link_load_base (link, version, cancellable, &fault);
  if (fault != NULL)
    {
      g_propagate_error (error, fault);
      return NULL;
    }
  /* Nothing was done here: what is there takes its place. */
  if (base != NULL && wb_job_equal (base, link->mine))
    return wb_job_with_revision (theirs, wb_job_get_revision (link->mine));

  both = wb_merge_new (base, link->mine, theirs, error);
  if (both == NULL)
    return NULL;
  if (conflicts != WB_MERGE_UNDECIDED)
    choose_all (both, conflicts);
  n = wb_merge_n_undecided (both);
  if (n == 0)
    return wb_merge_result (both, error);

  wb_share_refuse (error, WB_SHARE_ERROR_CHANGED, link->server->name,
                   "what is here and what is there differ in %u places that were changed on both "
                   "sides", n);
  return NULL;
}

/* What @how makes of the job here and the one there. */
static WbJob *
decide (WbShareLink        *link,
        const WbVersion    *version,
        WbJob              *theirs,
        const WbShareTake  *how,
        GCancellable       *cancellable,
        GError            **error)
{
  if (how->whole == WB_MERGE_THEIRS)
    return wb_job_with_revision (theirs, wb_job_get_revision (link->mine));
  if (how->merge != NULL)
    return wb_merge_result (how->merge, error);
  return merge (link, version, theirs, how->conflicts, cancellable, error);
}

/* --- into the book ---------------------------------------------------------------------------- */

GStrv
wb_share_link_seen_with (const WbShareLink *link,
                         const WbVersion   *version)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  GPtrArray *heads = g_ptr_array_new ();

  for (guint i = 0; i < link->there->heads->len; i++)
    {
      const WbVersion *head = g_ptr_array_index (link->there->heads, i);

      if (head == version || g_strcmp0 (link->hash, head->document.sha256) == 0 ||
          (link->seen != NULL &&
           g_strv_contains ((const char *const *) link->seen->heads, head->sha256)))
        g_hash_table_add (seen, head->sha256);
    }
  for (guint i = 0; link->seen != NULL && link->seen->heads[i] != NULL; i++)
    g_hash_table_add (seen, link->seen->heads[i]);

  {
    GHashTableIter iter;
    gpointer hash;

    g_hash_table_iter_init (&iter, seen);
    while (g_hash_table_iter_next (&iter, &hash, NULL))
      g_ptr_array_add (heads, g_strdup (hash));
  }
  g_ptr_array_add (heads, NULL);
  return (GStrv) g_ptr_array_free (heads, FALSE);
}

/* While there is another version to be brought in, both still started from what they did. */
GBytes *
wb_share_link_base_after (WbShareLink   *link,
                          const char    *document,
                          guint          n_others,
                          GCancellable  *cancellable,
                          GError       **error)
{
  if (n_others > 0 && link->seen != NULL)
    return wb_book_read_document (wb_office_get_book (link->office), link->seen->document,
                                  cancellable, error);
  return g_bytes_new (document, strlen (document));
}

static WbJob *
store (WbShareLink             *link,
       const WbVersion         *version,
       const WbBundleContents  *contents,
       guint                    n_others,
       const WbShareTake       *how,
       WbProgress              *progress,
       GCancellable            *cancellable,
       GError                 **error)
{
  g_auto (GStrv) heads = wb_share_link_seen_with (link, version);
  g_autofree char *at = wb_share_link_now ();
  /* Translators: the name of a server, and who published the job there. */
  g_autofree char *deed = g_strdup_printf (_("Fetched from %s, as %s published it"),
                                           link->server->name, version->by);
  g_autoptr (WbJob) job = NULL;
  g_autoptr (GPtrArray) papers = NULL;
  g_autoptr (GBytes) base = NULL;
  const WbPublication publication = { version->job, link->server->id, heads, NULL, at };
  WbJob *stored;

  if (link->mine == NULL)
    {
      if (!wb_bundle_check_is_new (link->office, contents->job, cancellable, error))
        return NULL;
      job = wb_job_ref (contents->job);
    }
  else
    job = decide (link, version, contents->job, how, cancellable, error);
  if (job == NULL || !wb_job_check (job, error))
    return NULL;

  papers = wb_bundle_contents_papers (contents, error);
  base = papers != NULL ? wb_share_link_base_after (link, contents->document, n_others, cancellable,
                                                    error) : NULL;
  if (base == NULL ||
      !wb_bundle_contents_store_photos (contents, link->office, progress, cancellable, error))
    return NULL;

  stored = wb_book_take_published (wb_office_get_book (link->office), link->mine, job, deed, papers,
                                   &publication, base, cancellable, error);
  if (stored != NULL)
    wb_office_emit_job_saved (link->office, version->job);
  return stored;
}

WbJob *
wb_share_link_take (WbShareLink        *link,
                    const WbVersion    *version,
                    guint               n_others,
                    const WbShareTake  *how,
                    WbProgress         *progress,
                    GCancellable       *cancellable,
                    GError            **error)
{
  g_autofree char *folder = g_build_filename (g_get_user_cache_dir (), "wainbook", "fetched",
                                              version->sha256, NULL);
  g_autoptr (GPtrArray) files = files_of (version, folder);
  g_auto (WbBundleContents) contents = { NULL };
  WbJob *stored;

  if (g_mkdir_with_parents (folder, 0700) != 0)
    {
      wb_share_fail (error, errno, folder);
      return NULL;
    }
  wb_progress_begin (progress, N_("Fetching the job…"), 0, 0);
  if (!wb_depot_fetch (link->depot, version, folder, progress != NULL ? wb_progress_set : NULL,
                       progress, cancellable, error))
    return NULL;       /* what came stays, to go on with */

  if (!wb_bundle_contents_judge (&contents, files, error))
    stored = NULL;
  else if (strcmp (wb_job_get_id (contents.job), version->job) != 0)
    {
      wb_share_refuse (error, WB_SHARE_ERROR_FORMAT, link->server->name,
                       "what lies there as job %s is another job", version->job);
      stored = NULL;
    }
  else
    stored = store (link, version, &contents, n_others, how, progress, cancellable, error);
  remove_files (files, folder);
  return stored;
}

WbJob *
wb_office_fetch (WbOffice      *self,
                 const char    *server_id,
                 WbSecret      *secret,
                 const char    *job_id,
                 WbMergeChoice  conflicts,
                 WbProgress    *progress,
                 GCancellable  *cancellable,
                 GError       **error)
{
  const WbShareTake how = { .conflicts = conflicts };
  g_autoptr (WbShareLink) link = NULL;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (server_id != NULL && job_id != NULL, NULL);

  wb_progress_begin (progress, N_("Asking the server…"), 0, 0);
  link = wb_share_link_open (self, server_id, secret, cancellable, error);
  if (link == NULL)
    return NULL;

  for (guint i = 0; i < MAX_STEPS; i++)
    {
      g_autoptr (WbJob) stored = NULL;
      const WbVersion *version;
      guint n_others;

      if (!wb_share_link_look (link, job_id, cancellable, error))
        return NULL;
      if (link->there->heads->len == 0)
        {
          wb_share_link_refuse_absent (link, error);
          return NULL;
        }
      version = wb_share_link_unseen (link, &n_others);
      if (version == NULL)
        return wb_job_ref (link->mine);
      if (link->mine == NULL && n_others > 0)
        {
          wb_share_refuse (error, WB_SHARE_ERROR_CHANGED, link->server->name,
                           "two people published the job at once; one of them has to make one job "
                           "of both first");
          return NULL;
        }
      stored = wb_share_link_take (link, version, n_others, &how, progress, cancellable, error);
      if (stored == NULL)
        return NULL;
    }

  wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, link->server->name,
                   "the job has too many versions side by side");
  return NULL;
}
