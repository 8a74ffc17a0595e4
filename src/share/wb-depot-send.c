/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sending the files of a version, as far as they are not there already.
 *
 * A job of a thousand photos is published again and again with hardly any of them new, so not
 * every file is looked at each time. One is taken to be there without a look when all of this
 * holds: a version that is a head now names it with the same size; that version was read from the
 * server just now and is what its name says; and this computer has itself seen every file that the
 * version names on this server, by putting it there, by its size, or by reading all of it, within
 * the last weeks. Nothing in objects is ever changed or removed by anybody who keeps to
 * wb-depot.h, so what was there is there. Should somebody have taken files away all the same, a
 * look at the server that misses one (wb_depot_fetch(), wb_depot_verify()) ends that trust at
 * once, and time does. */
#include "config.h"

#include "share/wb-depot-private.h"

#include "share/wb-share.h"

/* For how many seconds what was seen on a server is taken to be there still. */
#define LOOK_AGAIN (30 * 24 * 60 * 60)

/* A file that is not what its name says is worth nothing to anybody. */
gboolean
wb_depot_remove_damaged (WbDepot       *self,
                         const char    *path,
                         GCancellable  *cancellable,
                         GError       **error)
{
  g_autoptr (GError) fault = NULL;

  return wb_remote_remove (self->remote, path, cancellable, &fault) ||
         wb_share_is_absent (g_steal_pointer (&fault), error);
}

static void
tell_progress (gint64   done,
               gint64   total,
               gpointer data)
{
  WbDepotSending *self = data;

  if (self->progress != NULL)
    self->progress (self->done + done, self->total, self->progress_data);
}

typedef enum
{
  OBJECT_ABSENT,
  OBJECT_THERE,
  OBJECT_DAMAGED,
} ObjectState;

static gboolean
look_for_object (WbDepotSending  *self,
                 const char      *path,
                 gint64           size,
                 ObjectState     *state,
                 GError         **error)
{
  g_auto (WbRemoteEntry) entry = { NULL, -1, 0, FALSE };
  g_autoptr (GError) fault = NULL;

  if (!wb_remote_stat (self->depot->remote, path, &entry, self->cancellable, &fault))
    {
      *state = OBJECT_ABSENT;
      return wb_share_is_absent (g_steal_pointer (&fault), error);
    }
  if (entry.is_folder)
    return wb_share_refuse (error, WB_SHARE_ERROR_FORMAT, path, "there is a folder of this name");
  *state = entry.size < 0 || entry.size == size ? OBJECT_THERE : OBJECT_DAMAGED;
  return TRUE;
}

/* Takes the files of those heads that were seen whole. */
void
wb_depot_sending_trust (WbDepotSending   *self,
                        const WbDepotJob *job)
{
  gint64 now = g_get_real_time () / G_USEC_PER_SEC;

  self->since = now;
  for (guint i = 0; i < job->heads->len; i++)
    {
      WbVersion *head = g_ptr_array_index (job->heads, i);
      gint64 since = wb_depot_cache_complete_since (self->depot->cache, head->sha256);

      if (since > now || since <= now - LOOK_AGAIN)
        continue;
      self->since = MIN (self->since, since);
      g_hash_table_insert (self->trusted, head->document.sha256, &head->document);
      for (guint k = 0; k < head->files->len; k++)
        {
          WbVersionFile *file = g_ptr_array_index (head->files, k);

          g_hash_table_insert (self->trusted, file->sha256, file);
        }
    }
}

static gboolean
is_trusted (const WbDepotSending *self,
            const WbRemoteSource *source)
{
  const WbVersionFile *file = g_hash_table_lookup (self->trusted, source->sha256);

  return file != NULL && file->size == source->size;
}

/* Sends a file unless it is there. What is said to be there already is looked at: it is the same,
 * from another publisher or from an attempt whose answer was lost, or it is damaged. */
static gboolean
send_object (WbDepotSending        *self,
             const char            *path,
             const WbRemoteSource  *source,
             GError               **error)
{
  g_autoptr (GError) fault = NULL;
  ObjectState state;

  if (!self->look_first &&
      wb_remote_put (self->depot->remote, path, source, tell_progress, self, self->cancellable,
                     &fault))
    return TRUE;
  if (fault != NULL && !g_error_matches (fault, WB_SHARE_ERROR, WB_SHARE_ERROR_EXISTS))
    {
      g_propagate_error (error, g_steal_pointer (&fault));
      return FALSE;
    }
  if (!look_for_object (self, path, source->size, &state, error))
    return FALSE;
  self->look_first = state == OBJECT_THERE;
  if (state == OBJECT_THERE)
    return TRUE;
  if (state == OBJECT_DAMAGED && !wb_depot_remove_damaged (self->depot, path, self->cancellable, error))
    return FALSE;
  g_clear_error (&fault);
  if (wb_remote_put (self->depot->remote, path, source, tell_progress, self, self->cancellable,
                     &fault))
    return TRUE;
  /* Somebody else put the same in the same moment. */
  if (g_error_matches (fault, WB_SHARE_ERROR, WB_SHARE_ERROR_EXISTS) &&
      look_for_object (self, path, source->size, &state, NULL) && state == OBJECT_THERE)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&fault));
  return FALSE;
}

gboolean
wb_depot_send (WbDepotSending        *self,
               const WbRemoteSource  *source,
               GError               **error)
{
  g_autofree char *path = wb_depot_object_path (source->sha256);

  if (!is_trusted (self, source) && !send_object (self, path, source, error))
    return FALSE;
  self->done += source->size;
  tell_progress (0, self->total, self);
  return TRUE;
}
