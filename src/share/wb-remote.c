/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The front of every remote: opens one of the right kind, judges paths, and passes calls on to the
 * kind's own functions. Nothing here touches a disk or a network; the test of a server is in
 * wb-remote-probe.c. */
#include "config.h"

#include "share/wb-remote-private.h"

#include "share/wb-share.h"

#include <string.h>

#define CONNECT_SECONDS 20
#define STALL_SECONDS 60

/* By WbServerKind. */
static const WbRemoteMethods *const methods_of_kind[] = {
  [WB_SERVER_FOLDER] = &wb_remote_folder_methods,
  [WB_SERVER_SFTP] = &wb_remote_sftp_methods,
  [WB_SERVER_S3] = &wb_remote_s3_methods,
  [WB_SERVER_WEBDAV] = &wb_remote_webdav_methods,
};

/* --- names and entries ------------------------------------------------------------------------ */

gboolean
wb_remote_name_is_plain (const char *name)
{
  gsize length = strspn (name, G_CSET_A_2_Z G_CSET_a_2_z G_CSET_DIGITS "._-");

  return length > 0 && name[length] == '\0' && strcmp (name, ".") != 0 && strcmp (name, "..") != 0;
}

static gboolean
path_is_plain (const char *path)
{
  g_auto (GStrv) names = g_strsplit (path, "/", -1);

  if (strlen (path) > WB_REMOTE_MAX_PATH || names[0] == NULL)
    return FALSE;
  for (gsize i = 0; names[i] != NULL; i++)
    if (!wb_remote_name_is_plain (names[i]))
      return FALSE;
  return TRUE;
}

gboolean
wb_remote_path_check (const char  *path,
                      GError     **error)
{
  return path_is_plain (path) ||
         wb_share_refuse (error, WB_SHARE_ERROR_NAME, path, "this is no path on a server");
}

void
wb_remote_entry_clear (WbRemoteEntry *self)
{
  g_clear_pointer (&self->name, g_free);
}

void
wb_remote_entry_free (WbRemoteEntry *self)
{
  wb_remote_entry_clear (self);
  g_free (self);
}

GPtrArray *
wb_remote_entries_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) wb_remote_entry_free);
}

gboolean
wb_remote_entries_add (GPtrArray   *self,
                       const char  *name,
                       gint64       size,
                       gint64       changed,
                       gboolean     is_folder,
                       GError     **error)
{
  WbRemoteEntry *entry;

  if (!wb_remote_name_is_plain (name))
    return TRUE;
  if (self->len >= WB_REMOTE_MAX_ENTRIES)
    return wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, name,
                            "its folder has more than %d files", WB_REMOTE_MAX_ENTRIES);
  entry = g_new (WbRemoteEntry, 1);
  entry->name = g_strdup (name);
  entry->size = is_folder ? -1 : size;
  entry->changed = changed;
  entry->is_folder = is_folder;
  g_ptr_array_add (self, entry);
  return TRUE;
}

char *
wb_remote_part_path (const WbRemoteSource *source)
{
  return g_strconcat (WB_REMOTE_INCOMING "/", source->sha256, ".part", NULL);
}

/* --- opening and closing ---------------------------------------------------------------------- */

static WbRemote *
new_remote (const WbRemoteMethods *methods,
            const WbServer        *server,
            const char            *secret,
            const WbRemotePlace   *place)
{
  static const WbRemotePlace usual;
  WbRemote *self = g_malloc0 (methods->size);

  if (place == NULL)
    place = &usual;
  self->methods = methods;
  self->server = wb_server_copy (server);
  if (secret != NULL)
    self->held = wb_secret_new (secret, -1);
  self->secret = wb_secret_get (self->held);
  self->known_hosts = g_strdup (place->known_hosts);
  self->confirmed_key = g_strdup (place->confirmed_key);
  self->connect_seconds = place->connect_seconds != 0 ? place->connect_seconds : CONNECT_SECONDS;
  self->stall_seconds = place->stall_seconds != 0 ? place->stall_seconds : STALL_SECONDS;
  return self;
}

WbRemote *
wb_remote_open (const WbServer       *server,
                const char           *secret,
                const WbRemotePlace  *place,
                GError              **error)
{
  g_autoptr (WbRemote) self = NULL;

  if (!wb_server_check (server, error))
    return NULL;
  if (server->kind >= G_N_ELEMENTS (methods_of_kind) || methods_of_kind[server->kind] == NULL)
    {
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_NOT_SUPPORTED,
                           "servers of this kind are not spoken to");
      return NULL;
    }
  self = new_remote (methods_of_kind[server->kind], server, secret, place);
  if (!wb_server_split (server, &self->host, &self->port, &self->base, error) ||
      !self->methods->open (self, error))
    return NULL;
  return g_steal_pointer (&self);
}

void
wb_remote_close (WbRemote *self)
{
  if (self == NULL)
    return;
  self->methods->close (self);
  g_clear_pointer (&self->held, wb_secret_unref);
  wb_server_free (self->server);
  g_free (self->known_hosts);
  g_free (self->confirmed_key);
  g_free (self->host);
  g_free (self->base);
  g_free (self);
}

const char *
wb_remote_get_address (const WbRemote *self)
{
  return self->server->address;
}

/* --- deeds ------------------------------------------------------------------------------------ */

static gboolean
may_begin (const char    *path,
           GCancellable  *cancellable,
           GError       **error)
{
  return wb_remote_path_check (path, error) &&
         !g_cancellable_set_error_if_cancelled (cancellable, error);
}

static int
by_name (gconstpointer a,
         gconstpointer b)
{
  const WbRemoteEntry *one = *(const WbRemoteEntry *const *) a;
  const WbRemoteEntry *other = *(const WbRemoteEntry *const *) b;

  return strcmp (one->name, other->name);
}

GPtrArray *
wb_remote_list (WbRemote      *self,
                const char    *folder,
                GCancellable  *cancellable,
                GError       **error)
{
  GPtrArray *entries;

  if (*folder != '\0' && !wb_remote_path_check (folder, error))
    return NULL;
  if (g_cancellable_set_error_if_cancelled (cancellable, error))
    return NULL;
  entries = self->methods->list (self, folder, cancellable, error);
  if (entries != NULL)
    g_ptr_array_sort (entries, by_name);
  return entries;
}

gboolean
wb_remote_stat (WbRemote       *self,
                const char     *path,
                WbRemoteEntry  *entry,
                GCancellable   *cancellable,
                GError        **error)
{
  g_auto (WbRemoteEntry) found = { NULL };

  if (!may_begin (path, cancellable, error) ||
      !self->methods->stat (self, path, &found, cancellable, error))
    return FALSE;
  if (entry != NULL)
    {
      *entry = found;
      found.name = NULL;
    }
  return TRUE;
}

gboolean
wb_remote_get (WbRemote              *self,
               const char            *path,
               gint64                 offset,
               WbRemoteSinkFunc       sink,
               gpointer               sink_data,
               WbRemoteProgressFunc   progress,
               gpointer               progress_data,
               GCancellable          *cancellable,
               GError               **error)
{
  g_return_val_if_fail (offset >= 0, FALSE);

  return may_begin (path, cancellable, error) &&
         self->methods->get (self, path, offset, sink, sink_data, progress, progress_data,
                             cancellable, error);
}

gboolean
wb_remote_put (WbRemote              *self,
               const char            *path,
               const WbRemoteSource  *source,
               WbRemoteProgressFunc   progress,
               gpointer               progress_data,
               GCancellable          *cancellable,
               GError               **error)
{
  g_return_val_if_fail ((source->bytes != NULL) != (source->file != NULL), FALSE);
  g_return_val_if_fail (source->size >= 0, FALSE);
  g_return_val_if_fail (strlen (source->sha256) == 64 && wb_remote_name_is_plain (source->sha256),
                        FALSE);

  return may_begin (path, cancellable, error) &&
         self->methods->put (self, path, source, progress, progress_data, cancellable, error);
}

gboolean
wb_remote_remove (WbRemote      *self,
                  const char    *path,
                  GCancellable  *cancellable,
                  GError       **error)
{
  return may_begin (path, cancellable, error) &&
         self->methods->remove (self, path, cancellable, error);
}
