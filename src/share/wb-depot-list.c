/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of all jobs on a server. What has been quiet for a day comes from the cache; one job
 * that cannot be understood does not keep the others back. */
#include "config.h"

#include "share/wb-depot-private.h"

#include "share/wb-share.h"

static gboolean
take_from_cache (WbDepot    *self,
                 WbDepotJob *job,
                 gint64      changed)
{
  const char *const *hashes = wb_depot_cache_folder (self->cache, job->job, changed);

  for (gsize i = 0; hashes != NULL && hashes[i] != NULL; i++)
    g_ptr_array_add (job->versions,
                     wb_depot_copy_version (wb_depot_cache_find (self->cache, hashes[i]), FALSE));
  if (hashes != NULL)
    wb_depot_find_heads (job);
  return hashes != NULL;
}

/* Returns: %FALSE when the server itself does not answer, so that the rest is not worth asking. */
static gboolean
list_job (WbDepot              *self,
          const WbRemoteEntry  *entry,
          GPtrArray            *jobs,
          GCancellable         *cancellable,
          GError              **error)
{
  WbDepotJob *job;

  if (!entry->is_folder || !wb_version_is_job (entry->name))
    return TRUE;
  if (jobs->len >= WB_DEPOT_MAX_JOBS)
    return wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, "jobs", "there are more than %d jobs",
                            WB_DEPOT_MAX_JOBS);

  job = wb_depot_job_new (entry->name);
  g_ptr_array_add (jobs, job);
  if (take_from_cache (self, job, entry->changed))
    return TRUE;
  if (wb_depot_look_into (self, job, cancellable, &job->error))
    {
      wb_depot_cache_set_folder (self->cache, job, entry->changed);
      return TRUE;
    }
  g_ptr_array_set_size (job->heads, 0);
  if (job->error->domain == WB_SHARE_ERROR &&
      (job->error->code == WB_SHARE_ERROR_FORMAT || job->error->code == WB_SHARE_ERROR_LIMIT ||
       job->error->code == WB_SHARE_ERROR_FORBIDDEN))
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&job->error));
  return FALSE;
}

static GPtrArray *
list_folders (WbDepot       *self,
              GCancellable  *cancellable,
              GError       **error)
{
  g_autoptr (GError) fault = NULL;
  g_autoptr (GPtrArray) entries = wb_remote_list (self->remote, "jobs", cancellable, &fault);

  if (entries != NULL)
    return g_steal_pointer (&entries);
  if (g_error_matches (fault, WB_SHARE_ERROR, WB_SHARE_ERROR_NOT_FOUND))
    return g_ptr_array_new ();
  g_propagate_error (error, g_steal_pointer (&fault));
  return NULL;
}

GPtrArray *
wb_depot_list (WbDepot       *self,
               GCancellable  *cancellable,
               GError       **error)
{
  g_autoptr (GPtrArray) jobs = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_depot_job_free);
  g_autoptr (GPtrArray) entries = NULL;
  gboolean found;

  if (!wb_depot_check_marker (self, &found, cancellable, error))
    return NULL;
  if (!found)
    return g_steal_pointer (&jobs);
  entries = list_folders (self, cancellable, error);
  if (entries == NULL)
    return NULL;
  for (guint i = 0; i < entries->len; i++)
    if (!list_job (self, g_ptr_array_index (entries, i), jobs, cancellable, error))
      return NULL;
  wb_depot_cache_keep (self->cache, jobs);
  wb_depot_cache_save (self->cache);
  return g_steal_pointer (&jobs);
}
