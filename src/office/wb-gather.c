/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Goes over all jobs of a book. What is looked for in them is for those who call. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-gather.h"

static gboolean
take_one (WbOffice            *self,
          const WbJobSummary  *summary,
          WbGatherTake         take,
          gpointer             data,
          GCancellable        *cancellable,
          GError             **error)
{
  g_autoptr (GError) failure = NULL;
  g_autoptr (WbJob) job = wb_office_load_job (self, summary->id, cancellable, &failure);

  if (job != NULL)
    return take (self, summary, job, data, error);

  /* Removed by another program since the list was read. */
  if (g_error_matches (failure, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND))
    return TRUE;

  g_propagate_error (error, g_steal_pointer (&failure));
  return FALSE;
}

/* Takes those out of the list that nobody wants, so that progress counts what is loaded. */
static void
keep_wanted (GPtrArray      *jobs,
             WbGatherWanted  wanted,
             gpointer        data)
{
  for (guint i = jobs->len; wanted != NULL && i > 0; i--)
    {
      if (!wanted (g_ptr_array_index (jobs, i - 1), data))
        g_ptr_array_remove_index (jobs, i - 1);
    }
}

gboolean
wb_gather_jobs (WbOffice          *self,
                WbGatherWanted     wanted,
                WbGatherTake       take,
                WbGatherProgress   progress,
                gpointer           data,
                GCancellable      *cancellable,
                GError           **error)
{
  g_autoptr (GPtrArray) jobs = NULL;

  g_return_val_if_fail (WB_IS_OFFICE (self), FALSE);
  g_return_val_if_fail (take != NULL, FALSE);

  jobs = wb_office_list_jobs (self, NULL, 0, cancellable, error);
  if (jobs == NULL)
    return FALSE;

  keep_wanted (jobs, wanted, data);
  if (progress != NULL)
    progress (0, jobs->len, data);
  for (guint i = 0; i < jobs->len; i++)
    {
      if (g_cancellable_set_error_if_cancelled (cancellable, error) ||
          !take_one (self, g_ptr_array_index (jobs, i), take, data, cancellable, error))
        return FALSE;
      if (progress != NULL)
        progress (i + 1, jobs->len, data);
    }
  return TRUE;
}
