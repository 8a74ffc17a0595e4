/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gathers the storage dates of the jobs under way. How they are reckoned stands in core. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-storage-due.h"

#include "office/wb-gather.h"
#include "office/wb-office-private.h"

void
wb_storage_due_free (WbStorageDue *self)
{
  if (self == NULL)
    return;

  g_free (self->job_id);
  g_free (self->job_number);
  g_free (self->shipper);
  g_free (self);
}

static gboolean
may_be_stored (WbStage stage)
{
  switch (stage)
    {
    case WB_STAGE_BOOKED:
    case WB_STAGE_PACKED:
    case WB_STAGE_ON_THE_ROAD:
    case WB_STAGE_IN_STORAGE:
      return TRUE;
    case WB_STAGE_INQUIRY:
    case WB_STAGE_DELIVERED:
    case WB_STAGE_CLOSED:
    case WB_STAGE_CANCELLED:
      return FALSE;
    }

  g_assert_not_reached ();
}

/* What the gatherer hands on. */
typedef struct
{
  GPtrArray   *list;
  const GDate *today;
} Gathering;

static gboolean
is_wanted (const WbJobSummary *summary,
           gpointer            data)
{
  return may_be_stored (summary->stage);
}

static gboolean
take_job (WbOffice            *self,
          const WbJobSummary  *summary,
          WbJob               *job,
          gpointer             data,
          GError             **error)
{
  const Gathering *gathering = data;
  WbStorageWatch watch;
  WbStorageDue *due;

  /* Dates off the calendar are told of on the job's own page. */
  if (!wb_storage_watch (job, gathering->today, &watch, NULL) || !wb_storage_watch_is_due (&watch))
    return TRUE;

  due = g_new0 (WbStorageDue, 1);
  due->job_id = g_strdup (summary->id);
  due->job_number = g_strdup (summary->number);
  due->shipper = g_strdup (summary->shipper);
  due->watch = watch;
  g_ptr_array_add (gathering->list, due);
  return TRUE;
}

static int
compare_due (gconstpointer a,
             gconstpointer b)
{
  const WbStorageDue *one = *(const WbStorageDue *const *) a;
  const WbStorageDue *other = *(const WbStorageDue *const *) b;
  int order = wb_date_compare (&one->watch.last_day, &other->watch.last_day);

  return order != 0 ? order : g_strcmp0 (one->job_number, other->job_number);
}

GPtrArray *
wb_office_list_storage_due (WbOffice      *self,
                            const GDate   *today,
                            GCancellable  *cancellable,
                            GError       **error)
{
  g_autoptr (GPtrArray) list =
    g_ptr_array_new_with_free_func ((GDestroyNotify) wb_storage_due_free);
  Gathering gathering = { list, today };

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (wb_date_is_set (today), NULL);

  if (!wb_gather_jobs (self, is_wanted, take_job, NULL, &gathering, cancellable, error))
    return NULL;
  g_ptr_array_sort (list, compare_due);
  return g_steal_pointer (&list);
}

static gpointer
run_list_storage_due (WbOffice      *self,
                      const WbDeed  *deed,
                      GCancellable  *cancellable,
                      GError       **error)
{
  GDate today;

  wb_office_today (&today);
  return wb_office_list_storage_due (self, &today, cancellable, error);
}

void
wb_office_list_storage_due_async (WbOffice            *self,
                                  GCancellable        *cancellable,
                                  GAsyncReadyCallback  callback,
                                  gpointer             data)
{
  WbDeed *deed;

  g_return_if_fail (WB_IS_OFFICE (self));

  deed = g_new0 (WbDeed, 1);
  deed->run = run_list_storage_due;
  deed->free_result = (GDestroyNotify) g_ptr_array_unref;
  wb_office_start (self, deed, wb_office_list_storage_due_async, cancellable, callback, data);
}

GPtrArray *
wb_office_list_storage_due_finish (WbOffice      *self,
                                   GAsyncResult  *result,
                                   GError       **error)
{
  return wb_office_finish (self, result, wb_office_list_storage_due_async, error);
}
