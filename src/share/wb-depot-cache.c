/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is remembered of a server between two looks at it: versions, which never change; for folders
 * that have been quiet for a day, which of them lie there; and which of them were whole with all
 * that they name. How it is kept stands in wb-depot-cache-file.c. */
#include "config.h"

#include "share/wb-depot-cache-private.h"

#include <string.h>

/* Clocks differ, and times of change may be no finer than a second: within this time of a change,
 * in seconds, there may have been another that cannot be told from it. */
#define QUIET (24 * 60 * 60)

/* --- life ------------------------------------------------------------------------------------- */

void
wb_depot_folder_free (WbDepotFolder *self)
{
  g_strfreev (self->hashes);
  g_free (self);
}

static void
forget_all (WbDepotCache *self)
{
  g_hash_table_remove_all (self->versions);
  g_hash_table_remove_all (self->folders);
  g_hash_table_remove_all (self->complete);
}

WbDepotCache *
wb_depot_cache_new (const char *path,
                    const char *server,
                    const char *address)
{
  WbDepotCache *self = g_new0 (WbDepotCache, 1);

  self->path = g_strdup (path);
  self->server = g_strjoin (" ", server, address, NULL);
  self->versions = g_hash_table_new_full (g_str_hash, g_str_equal, NULL,
                                          (GDestroyNotify) wb_version_free);
  self->folders = g_hash_table_new_full (g_str_hash, g_str_equal, g_free,
                                         (GDestroyNotify) wb_depot_folder_free);
  self->complete = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  if (path != NULL && !wb_depot_cache_read_file (self))
    forget_all (self);
  self->fresh = FALSE;
  return self;
}

void
wb_depot_cache_free (WbDepotCache *self)
{
  if (self == NULL)
    return;
  g_hash_table_unref (self->complete);
  g_hash_table_unref (self->folders);
  g_hash_table_unref (self->versions);
  g_free (self->path);
  g_free (self->server);
  g_free (self);
}

/* --- asking and telling ----------------------------------------------------------------------- */

const WbVersion *
wb_depot_cache_find (WbDepotCache *self,
                     const char   *sha256)
{
  return g_hash_table_lookup (self->versions, sha256);
}

void
wb_depot_cache_add (WbDepotCache    *self,
                    const WbVersion *version)
{
  WbVersion *copy;

  if (g_hash_table_contains (self->versions, version->sha256))
    return;
  copy = wb_depot_copy_version (version, FALSE);
  g_hash_table_replace (self->versions, copy->sha256, copy);
  self->fresh = TRUE;
}

void
wb_depot_cache_forget (WbDepotCache *self,
                       const char   *sha256)
{
  WbVersion *version = g_hash_table_lookup (self->versions, sha256);

  if (version == NULL)
    return;
  g_hash_table_remove (self->folders, version->job);
  g_hash_table_remove (self->complete, sha256);
  g_hash_table_remove (self->versions, sha256);
  self->fresh = TRUE;
}

static gboolean
is_gone (gpointer sha256,
         gpointer version,
         gpointer present)
{
  return !g_hash_table_contains (present, sha256);
}

static gboolean
is_folder_gone (gpointer job,
                gpointer data,
                gpointer present)
{
  const WbDepotFolder *folder = data;

  for (gsize i = 0; folder->hashes[i] != NULL; i++)
    if (!g_hash_table_contains (present, folder->hashes[i]))
      return TRUE;
  return !g_hash_table_contains (present, job);
}

void
wb_depot_cache_keep (WbDepotCache *self,
                     GPtrArray    *jobs)
{
  g_autoptr (GHashTable) present = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < jobs->len; i++)
    {
      const WbDepotJob *job = g_ptr_array_index (jobs, i);

      g_hash_table_add (present, job->job);
      for (guint k = 0; k < job->versions->len; k++)
        g_hash_table_add (present, ((WbVersion *) g_ptr_array_index (job->versions, k))->sha256);
    }
  if (g_hash_table_foreach_remove (self->folders, is_folder_gone, present) +
      g_hash_table_foreach_remove (self->complete, is_gone, present) +
      g_hash_table_foreach_remove (self->versions, is_gone, present) > 0)
    self->fresh = TRUE;
}

/* --- versions that are there with all that they name ------------------------------------------ */

gint64
wb_depot_cache_complete_since (WbDepotCache *self,
                               const char   *sha256)
{
  const gint64 *at = g_hash_table_lookup (self->complete, sha256);

  return at != NULL ? *at : 0;
}

void
wb_depot_cache_set_complete (WbDepotCache *self,
                             const char   *sha256,
                             gint64        at)
{
  if (at == 0)
    self->fresh |= g_hash_table_remove (self->complete, sha256);
  else if (g_hash_table_contains (self->versions, sha256))
    {
      g_hash_table_replace (self->complete, g_strdup (sha256), g_memdup2 (&at, sizeof at));
      self->fresh = TRUE;
    }
}

/* --- folders ---------------------------------------------------------------------------------- */

const char *const *
wb_depot_cache_folder (WbDepotCache *self,
                       const char   *job,
                       gint64        changed)
{
  const WbDepotFolder *folder = g_hash_table_lookup (self->folders, job);

  if (folder == NULL || changed <= 0 || folder->changed != changed)
    return NULL;
  return (const char *const *) folder->hashes;
}

void
wb_depot_cache_set_folder (WbDepotCache     *self,
                           const WbDepotJob *job,
                           gint64            changed)
{
  gint64 now = g_get_real_time () / G_USEC_PER_SEC;
  WbDepotFolder *folder;

  if (changed <= 0 || changed > now - QUIET || job->n_broken > 0)
    {
      self->fresh |= g_hash_table_remove (self->folders, job->job);
      return;
    }
  folder = g_new0 (WbDepotFolder, 1);
  folder->changed = changed;
  folder->hashes = g_new0 (char *, job->versions->len + 1);
  for (guint i = 0; i < job->versions->len; i++)
    folder->hashes[i] = g_strdup (((WbVersion *) g_ptr_array_index (job->versions, i))->sha256);
  g_hash_table_replace (self->folders, g_strdup (job->job), folder);
  self->fresh = TRUE;
}
