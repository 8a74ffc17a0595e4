/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads a valid bag and puts what it holds into a book. By the time anything is stored the whole
 * bundle was read into a private folder and found good: the bag, the job document, every photo and
 * every paper (wb-bundle-contents.c). */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-bundle.h"

#include "office/wb-bundle-private.h"
#include "office/wb-office-private.h"
#include "share/wb-bag.h"

#include <glib/gi18n.h>

static WbBundleReport *
make_report (const WbBag            *bag,
             const WbBundleContents *contents)
{
  WbBundleReport *report = g_new0 (WbBundleReport, 1);

  report->job = wb_job_ref (contents->job);
  report->n_photos = g_hash_table_size (contents->photos);
  report->n_papers = g_hash_table_size (contents->papers);
  report->n_printed = contents->n_printed;
  report->n_lost_papers = contents->n_lost_papers;
  report->packed_on = g_strdup (wb_bag_get_info (bag, "Bagging-Date"));
  for (guint i = 0; i < contents->files->len; i++)
    report->bytes += ((const WbBagFile *) g_ptr_array_index (contents->files, i))->size;
  return report;
}

/* Returns: (transfer full) (nullable): the bag, once all of it was found good. */
static WbBag *
judge (WbBundleContents  *contents,
       const char        *source,
       WbProgress        *progress,
       GCancellable      *cancellable,
       GError           **error)
{
  g_autofree char *scratch = g_build_filename (g_get_user_cache_dir (), "wainbook", "bundles",
                                               NULL);
  g_autoptr (WbBag) bag = NULL;

  wb_progress_begin (progress, N_("Reading and checking the bundle…"), 0, 0);
  bag = wb_bag_read (source, NULL, scratch, wb_progress_set, progress, cancellable, error);
  if (bag == NULL || !wb_bundle_contents_judge (contents, wb_bag_get_payload (bag), error))
    return NULL;
  return g_steal_pointer (&bag);
}

WbBundleReport *
wb_bundle_check (const char        *source,
                 WbProgress        *progress,
                 GCancellable      *cancellable,
                 GError           **error)
{
  g_auto (WbBundleContents) contents = { NULL };
  g_autoptr (WbBag) bag = NULL;

  g_return_val_if_fail (source != NULL, NULL);

  bag = judge (&contents, source, progress, cancellable, error);
  return bag != NULL ? make_report (bag, &contents) : NULL;
}

/* --- into the book ---------------------------------------------------------------------------- */

static gboolean
store_papers (WbOffice                *office,
              const WbBundleContents  *contents,
              GCancellable            *cancellable,
              GError                 **error)
{
  g_autoptr (GPtrArray) papers = wb_bundle_contents_papers (contents, error);
  g_autoptr (GPtrArray) hashes = NULL;

  if (papers == NULL || papers->len == 0)
    return papers != NULL;
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
  g_auto (WbBundleContents) contents = { NULL };
  g_autoptr (WbBag) bag = NULL;
  WbBundleReport *report;
  WbJob *stored;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (source != NULL, NULL);

  bag = judge (&contents, source, progress, cancellable, error);
  if (bag == NULL ||
      !wb_bundle_check_is_new (self, contents.job, cancellable, error) ||
      !wb_bundle_contents_store_photos (&contents, self, progress, cancellable, error) ||
      !store_papers (self, &contents, cancellable, error) ||
      !store_job (self, contents.job, cancellable, error))
    return NULL;

  report = make_report (bag, &contents);
  stored = wb_office_load_job (self, wb_job_get_id (contents.job), NULL, NULL);
  if (stored != NULL)
    {
      wb_job_unref (report->job);
      report->job = stored;
    }
  return report;
}
