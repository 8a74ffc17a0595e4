/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a server is reached: the secret that goes with it and the file of confirmed host keys; and
 * how a deed on it runs in a worker thread. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-share-private.h"

#include "share/wb-share.h"

/* --- in a worker thread ----------------------------------------------------------------------- */

typedef struct
{
  WbShareWork     work;
  gpointer        request;
  GDestroyNotify  free_request;
  GDestroyNotify  free_result;
} Run;

static void
run_free (gpointer data)
{
  Run *run = data;

  if (run->free_request != NULL)
    run->free_request (run->request);
  g_free (run);
}

static void
run_in_thread (GTask        *task,
               gpointer      source,
               gpointer      data,
               GCancellable *cancellable)
{
  Run *run = data;
  g_autoptr (GError) error = NULL;
  gpointer result = run->work (source, run->request, cancellable, &error);

  if (result != NULL)
    g_task_return_pointer (task, result, run->free_result);
  else
    g_task_return_error (task, g_steal_pointer (&error));
}

void
wb_share_run (WbOffice            *self,
              WbShareWork          work,
              gpointer             request,
              GDestroyNotify       free_request,
              GDestroyNotify       free_result,
              gpointer             tag,
              GCancellable        *cancellable,
              GAsyncReadyCallback  callback,
              gpointer             data)
{
  g_autoptr (GTask) task = g_task_new (self, cancellable, callback, data);
  Run *run = g_new0 (Run, 1);

  run->work = work;
  run->request = request;
  run->free_request = free_request;
  run->free_result = free_result;
  /* What was done is done, also when somebody cancels a moment later. */
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_source_tag (task, tag);
  g_task_set_task_data (task, run, run_free);
  g_task_run_in_thread (task, run_in_thread);
}

/* --- reaching a server ------------------------------------------------------------------------ */

char *
wb_share_known_hosts (void)
{
  return g_build_filename (g_get_user_config_dir (), "wainbook", "known_hosts", NULL);
}

WbRemote *
wb_share_open (const WbServer  *server,
               WbSecret        *secret,
               const char      *confirmed_key,
               GCancellable    *cancellable,
               GError         **error)
{
  g_autofree char *known_hosts = wb_share_known_hosts ();
  g_autoptr (WbSecret) kept = NULL;
  WbRemotePlace place = { .known_hosts = known_hosts, .confirmed_key = confirmed_key };

  if (secret != NULL)
    kept = wb_secret_ref (secret);
  else if (wb_server_wants_secret (server))
    {
      GError *fault = NULL;

      kept = wb_secret_find (server->id, cancellable, &fault);
      if (fault != NULL)
        {
          g_propagate_error (error, fault);
          return NULL;
        }
      /* A key file need not be locked. */
      if (kept == NULL && (server->key_file == NULL || *server->key_file == '\0'))
        {
          wb_share_refuse (error, WB_SHARE_ERROR_LOGIN, server->name,
                           "no password is kept for this server");
          return NULL;
        }
    }

  return wb_remote_open (server, wb_secret_get (kept), &place, error);
}
