/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The deeds on servers themselves: list, add, change, remove, and the test of one. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-server-settings.h"

#include "office/wb-share-private.h"
#include "share/wb-host-key.h"
#include "share/wb-share.h"
#include "store/wb-server-store.h"

#include <string.h>

GPtrArray *
wb_office_list_servers (WbOffice      *self,
                        GCancellable  *cancellable,
                        GError       **error)
{
  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);

  return wb_book_list_servers (wb_office_get_book (self), cancellable, error);
}

/* Returns: (nullable): the one that @name means. */
static const WbServer *
find_in (GPtrArray  *servers,
         const char *name)
{
  g_autofree char *wanted = NULL;

  if (name == NULL)
    return servers->len == 1 ? g_ptr_array_index (servers, 0) : NULL;

  wanted = g_utf8_casefold (name, -1);
  for (guint i = 0; i < servers->len; i++)
    {
      const WbServer *server = g_ptr_array_index (servers, i);
      g_autofree char *own = g_utf8_casefold (server->name, -1);

      if (strcmp (own, wanted) == 0 || g_ascii_strcasecmp (server->id, name) == 0)
        return server;
    }

  return NULL;
}

WbServer *
wb_office_find_server (WbOffice      *self,
                       const char    *name,
                       GCancellable  *cancellable,
                       GError       **error)
{
  g_autoptr (GPtrArray) servers = NULL;
  const WbServer *found;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (name == NULL || g_utf8_validate (name, -1, NULL), NULL);

  servers = wb_office_list_servers (self, cancellable, error);
  if (servers == NULL)
    return NULL;

  found = find_in (servers, name);
  if (found != NULL)
    return wb_server_copy (found);

  if (name != NULL)
    g_set_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND, "there is no server “%s”", name);
  else if (servers->len == 0)
    g_set_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND, "the office has no server yet");
  else
    g_set_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND,
                 "the office has %u servers; one has to be named", servers->len);
  return NULL;
}

/* --- adding, changing, removing --------------------------------------------------------------- */

static gboolean
keep_secret (const WbServer  *server,
             WbSecret        *secret,
             WbSecretPlace   *place,
             GCancellable    *cancellable,
             GError         **error)
{
  g_autofree char *label = NULL;

  if (secret == NULL)
    return TRUE;
  if (*wb_secret_get (secret) == '\0')
    return wb_secret_forget (server->id, cancellable, error);

  label = g_strdup_printf ("Wainbook: %s", server->name);
  return wb_secret_keep (server->id, label, secret, place, cancellable, error);
}

WbServer *
wb_office_put_server (WbOffice        *self,
                      const WbServer  *server,
                      WbSecret        *secret,
                      WbSecretPlace   *place,
                      GCancellable    *cancellable,
                      GError         **error)
{
  g_autoptr (WbServer) stored = NULL;
  WbSecretPlace where = WB_SECRET_SERVICE;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (server != NULL, NULL);

  stored = wb_server_copy (server);
  if (stored->id == NULL || *stored->id == '\0')
    {
      g_free (stored->id);
      stored->id = wb_office_new_id ();
    }

  if (!wb_server_check (stored, error) ||
      !wb_book_put_server (wb_office_get_book (self), stored, cancellable, error))
    return NULL;

  wb_office_emit_servers_changed (self);
  if (!keep_secret (stored, secret, &where, cancellable, error))
    return NULL;
  if (place != NULL)
    *place = where;
  return g_steal_pointer (&stored);
}

gboolean
wb_office_remove_server (WbOffice      *self,
                         const char    *id,
                         GCancellable  *cancellable,
                         GError       **error)
{
  g_return_val_if_fail (WB_IS_OFFICE (self), FALSE);
  g_return_val_if_fail (id != NULL, FALSE);

  if (!wb_book_remove_server (wb_office_get_book (self), id, cancellable, error))
    return FALSE;

  wb_office_emit_servers_changed (self);
  return wb_secret_forget (id, cancellable, error);
}

/* --- the test --------------------------------------------------------------------------------- */

gboolean
wb_office_probe_server (WbOffice        *self,
                        const WbServer  *server,
                        WbSecret        *secret,
                        const char      *confirmed_key,
                        WbProbeFunc      step_done,
                        gpointer         data,
                        GCancellable    *cancellable,
                        GError         **error)
{
  g_autoptr (WbServer) named = NULL;
  g_autoptr (WbRemote) remote = NULL;

  g_return_val_if_fail (WB_IS_OFFICE (self), FALSE);
  g_return_val_if_fail (server != NULL, FALSE);

  named = wb_server_copy (server);
  if (named->id == NULL || *named->id == '\0')
    {
      g_free (named->id);
      named->id = wb_office_new_id ();
    }
  if (!wb_server_check (named, error))
    return FALSE;

  remote = wb_share_open (named, secret, confirmed_key, cancellable, error);
  return remote != NULL && wb_remote_probe (remote, step_done, data, cancellable, error);
}

char *
wb_share_fingerprint_in (const char *text)
{
  const char *found = g_strrstr (text, "SHA256:");
  gsize length;

  if (found == NULL)
    return NULL;
  length = strspn (found + 7, G_CSET_A_2_Z G_CSET_a_2_z G_CSET_DIGITS "+/");
  return g_strndup (found, 7 + length);
}

char *
wb_server_host_key_of (const GError *error)
{
  g_return_val_if_fail (error != NULL, NULL);

  return g_error_matches (error, WB_SHARE_ERROR, WB_SHARE_ERROR_HOST_KEY_UNKNOWN)
           ? wb_share_fingerprint_in (error->message) : NULL;
}

gboolean
wb_server_host_key_changed (const GError *error)
{
  return g_error_matches (error, WB_SHARE_ERROR, WB_SHARE_ERROR_HOST_KEY_CHANGED);
}

gboolean
wb_office_forget_host_key (WbOffice        *self,
                           const WbServer  *server,
                           GCancellable    *cancellable,
                           GError         **error)
{
  g_autofree char *known_hosts = wb_share_known_hosts ();
  g_autofree char *host = NULL;
  g_autofree char *path = NULL;
  guint port = 0;

  g_return_val_if_fail (WB_IS_OFFICE (self), FALSE);
  g_return_val_if_fail (server != NULL && server->kind == WB_SERVER_SFTP, FALSE);

  return !g_cancellable_set_error_if_cancelled (cancellable, error) &&
         wb_server_split (server, &host, &port, &path, error) &&
         wb_host_key_forget (known_hosts, host, port, error);
}

/* --- in a worker thread ----------------------------------------------------------------------- */

typedef struct
{
  WbServer      *server;
  WbSecret      *secret;
  char          *id;
  WbSecretPlace  place;
} Request;

static void
request_free (gpointer data)
{
  Request *request = data;

  g_clear_pointer (&request->server, wb_server_free);
  g_clear_pointer (&request->secret, wb_secret_unref);
  g_free (request->id);
  g_free (request);
}

/* What comes out of adding one. */
typedef struct
{
  WbServer      *server;
  WbSecretPlace  place;
} Stored;

static void
stored_free (gpointer data)
{
  Stored *stored = data;

  g_clear_pointer (&stored->server, wb_server_free);
  g_free (stored);
}

static gpointer
run_put (WbOffice      *office,
         gpointer       data,
         GCancellable  *cancellable,
         GError       **error)
{
  Request *request = data;
  Stored *stored = g_new0 (Stored, 1);

  stored->server = wb_office_put_server (office, request->server, request->secret, &stored->place,
                                         cancellable, error);
  if (stored->server != NULL)
    return stored;
  g_free (stored);
  return NULL;
}

void
wb_office_put_server_async (WbOffice            *self,
                            const WbServer      *server,
                            WbSecret            *secret,
                            GCancellable        *cancellable,
                            GAsyncReadyCallback  callback,
                            gpointer             data)
{
  Request *request;

  g_return_if_fail (WB_IS_OFFICE (self));
  g_return_if_fail (server != NULL);

  request = g_new0 (Request, 1);
  request->server = wb_server_copy (server);
  request->secret = secret != NULL ? wb_secret_ref (secret) : NULL;
  wb_share_run (self, run_put, request, request_free, stored_free, wb_office_put_server_async,
                cancellable, callback, data);
}

WbServer *
wb_office_put_server_finish (WbOffice       *self,
                             GAsyncResult   *result,
                             WbSecretPlace  *place,
                             GError        **error)
{
  Stored *stored = wb_office_finish (self, result, wb_office_put_server_async, error);
  WbServer *server;

  if (stored == NULL)
    return NULL;
  server = g_steal_pointer (&stored->server);
  if (place != NULL)
    *place = stored->place;
  stored_free (stored);
  return server;
}

static gpointer
run_remove (WbOffice      *office,
            gpointer       data,
            GCancellable  *cancellable,
            GError       **error)
{
  return GINT_TO_POINTER (wb_office_remove_server (office, ((Request *) data)->id, cancellable,
                                                   error));
}

void
wb_office_remove_server_async (WbOffice            *self,
                               const char          *id,
                               GCancellable        *cancellable,
                               GAsyncReadyCallback  callback,
                               gpointer             data)
{
  Request *request;

  g_return_if_fail (WB_IS_OFFICE (self));
  g_return_if_fail (id != NULL);

  request = g_new0 (Request, 1);
  request->id = g_strdup (id);
  wb_share_run (self, run_remove, request, request_free, NULL, wb_office_remove_server_async,
                cancellable, callback, data);
}

gboolean
wb_office_remove_server_finish (WbOffice      *self,
                                GAsyncResult  *result,
                                GError       **error)
{
  return wb_office_finish (self, result, wb_office_remove_server_async, error) != NULL;
}

static gpointer
run_forget (WbOffice      *office,
            gpointer       data,
            GCancellable  *cancellable,
            GError       **error)
{
  return GINT_TO_POINTER (wb_office_forget_host_key (office, ((Request *) data)->server,
                                                     cancellable, error));
}

void
wb_office_forget_host_key_async (WbOffice            *self,
                                 const WbServer      *server,
                                 GCancellable        *cancellable,
                                 GAsyncReadyCallback  callback,
                                 gpointer             data)
{
  Request *request;

  g_return_if_fail (WB_IS_OFFICE (self));
  g_return_if_fail (server != NULL);

  request = g_new0 (Request, 1);
  request->server = wb_server_copy (server);
  wb_share_run (self, run_forget, request, request_free, NULL, wb_office_forget_host_key_async,
                cancellable, callback, data);
}

gboolean
wb_office_forget_host_key_finish (WbOffice      *self,
                                  GAsyncResult  *result,
                                  GError       **error)
{
  return wb_office_finish (self, result, wb_office_forget_host_key_async, error) != NULL;
}
