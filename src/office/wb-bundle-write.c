/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hands what belongs to a job to the writer of bags. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-bundle.h"

#include "office/wb-bundle-private.h"
#include "office/wb-office-private.h"
#include "share/wb-bag.h"

#include <glib/gi18n.h>

/* --- the bundle ------------------------------------------------------------------------------- */

static gboolean
write_bag (const char        *target,
           gboolean           replace,
           const WbJob       *job,
           GPtrArray         *items,
           WbProgress        *progress,
           GCancellable      *cancellable,
           GError           **error)
{
  const char *number = wb_job_order (job)->number;
  g_autofree char *today = NULL;
  GDate date;

  wb_office_today (&date);
  today = wb_date_to_text (&date);
  if (number == NULL)
    number = wb_job_get_id (job);
  {
    const char *info[] = {
      "Bag-Software-Agent", "Wainbook " WB_VERSION,
      "Bagging-Date", today,
      "External-Description", "One job of a moving company: its document, photos and papers",
      "External-Identifier", number,
      "Internal-Sender-Identifier", wb_job_get_id (job),
      NULL,
    };

    wb_progress_begin (progress, N_("Writing the bundle…"), 0, 0);
    return wb_bag_write (target, number, items, info, replace, wb_progress_set, progress,
                         cancellable, error);
  }
}

static GPtrArray *
bag_items (GPtrArray *gathered)
{
  GPtrArray *items = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_bag_item_free);

  for (guint i = 0; i < gathered->len; i++)
    {
      const WbBundleItem *item = g_ptr_array_index (gathered, i);

      g_ptr_array_add (items, item->bytes != NULL
                                ? wb_bag_item_new_bytes (item->path, item->bytes)
                                : wb_bag_item_new_file (item->path, item->file, item->sha256));
    }
  return items;
}

WbBundleReport *
wb_office_bundle_write (WbOffice          *self,
                        WbJob             *job,
                        const char        *target,
                        gboolean           replace,
                        WbProgress        *progress,
                        GCancellable      *cancellable,
                        GError           **error)
{
  g_autoptr (GPtrArray) gathered = NULL;
  g_autoptr (GPtrArray) items = NULL;
  WbBundleReport *report;
  guint n_papers, n_printed, n_lost_papers;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (job != NULL && target != NULL, NULL);

  wb_progress_begin (progress, N_("Gathering what belongs to the job…"), 0, 0);
  gathered = wb_bundle_gather (self, job, &n_papers, &n_printed, &n_lost_papers, cancellable,
                               error);
  if (gathered == NULL)
    return NULL;

  items = bag_items (gathered);
  if (!write_bag (target, replace, job, items, progress, cancellable, error))
    return NULL;

  report = g_new0 (WbBundleReport, 1);
  report->job = wb_job_ref (job);
  report->n_papers = n_papers;
  report->n_printed = n_printed;
  report->n_photos = items->len - 1 - n_papers - n_printed;
  report->n_lost_papers = n_lost_papers;
  for (guint i = 0; i < items->len; i++)
    report->bytes += wb_bag_item_get_size (g_ptr_array_index (items, i));
  return report;
}
