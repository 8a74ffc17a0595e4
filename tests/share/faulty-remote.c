/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A folder as a remote with another table of functions in front of the folder's own. */
#include "config.h"

#include "faulty-remote.h"

#include "share/wb-remote-private.h"
#include "share/wb-share.h"

#include <string.h>

/* The table is shared by all; the plan is that of the one remote that is open. */
static FaultPlan *current;
static WbRemoteMethods faulty_methods;

/* --- failing ---------------------------------------------------------------------------------- */

static gboolean
fail (GError **error)
{
  static const WbShareError codes[] = { WB_SHARE_ERROR_UNREACHABLE, WB_SHARE_ERROR_TIMEOUT,
                                        WB_SHARE_ERROR_SERVER, WB_SHARE_ERROR_LOCKED,
                                        WB_SHARE_ERROR_FULL, WB_SHARE_ERROR_PROTOCOL };

  return wb_share_refuse (error, codes[current->n_calls % G_N_ELEMENTS (codes)], "server",
                          "a fault of the test");
}

/* Counts a call. Returns: whether it has a fault. */
static gboolean
is_due (void)
{
  current->n_calls++;
  return current->at > 0 && (current->n_calls == current->at ||
                             (current->dead && current->n_calls > current->at));
}

static gboolean
is_without_effect (void)
{
  return current->n_calls > current->at || current->kind == FAULT_BEFORE;
}

/* --- the table -------------------------------------------------------------------------------- */

static GPtrArray *
faulty_list (WbRemote      *remote,
             const char    *folder,
             GCancellable  *cancellable,
             GError       **error)
{
  gboolean due = is_due ();

  current->n_lists++;
  if (!due)
    return wb_remote_folder_methods.list (remote, folder, cancellable, error);
  fail (error);
  return NULL;
}

static gboolean
faulty_stat (WbRemote       *remote,
             const char     *path,
             WbRemoteEntry  *entry,
             GCancellable   *cancellable,
             GError        **error)
{
  return is_due () ? fail (error)
                   : wb_remote_folder_methods.stat (remote, path, entry, cancellable, error);
}

typedef struct
{
  WbRemoteSinkFunc sink;
  gpointer         data;
  gint64           left;    /* -1 for all */
} Pass;

static gboolean
pass_on (const guint8  *bytes,
         gsize          length,
         gpointer       data,
         GError       **error)
{
  Pass *self = data;
  gsize n = self->left < 0 ? length : MIN (length, (gsize) self->left);

  if (n > 0 && !self->sink (bytes, n, self->data, error))
    return FALSE;
  current->n_bytes += (gint64) n;
  if (self->left < 0)
    return TRUE;
  self->left -= (gint64) n;
  return n == length || fail (error);
}

static gboolean
faulty_get (WbRemote              *remote,
            const char            *path,
            gint64                 offset,
            WbRemoteSinkFunc       sink,
            gpointer               sink_data,
            WbRemoteProgressFunc   progress,
            gpointer               progress_data,
            GCancellable          *cancellable,
            GError               **error)
{
  Pass pass = { sink, sink_data, -1 };
  g_auto (WbRemoteEntry) entry = { NULL, 0, 0, FALSE };
  gboolean due = is_due ();
  gboolean done;

  current->n_gets++;
  if (due && is_without_effect ())
    return fail (error);
  if (due && current->kind != FAULT_AFTER &&
      wb_remote_folder_methods.stat (remote, path, &entry, cancellable, NULL))
    pass.left = (entry.size - offset) / 2;
  done = wb_remote_folder_methods.get (remote, path, offset, pass_on, &pass, progress,
                                       progress_data, cancellable, error);
  return done && due ? fail (error) : done;
}

/* The first half of what is to be put lies at @path, whatever the server promised. */
static void
put_half (WbRemote              *remote,
          const char            *path,
          const WbRemoteSource  *source)
{
  g_autofree char *place = g_build_filename (remote->base, path, NULL);
  g_autofree char *folder = g_path_get_dirname (place);
  g_autofree char *text = NULL;
  gsize length;

  if (source->bytes != NULL)
    text = g_memdup2 (g_bytes_get_data (source->bytes, &length),
                      g_bytes_get_size (source->bytes));
  else
    g_assert_true (g_file_get_contents (source->file, &text, &length, NULL));
  if (g_file_test (place, G_FILE_TEST_EXISTS))
    return;
  g_assert_cmpint (g_mkdir_with_parents (folder, 0700), ==, 0);
  g_assert_true (g_file_set_contents (place, text != NULL ? text : "", (gssize) (length / 2),
                                      NULL));
}

static gboolean
faulty_put (WbRemote              *remote,
            const char            *path,
            const WbRemoteSource  *source,
            WbRemoteProgressFunc   progress,
            gpointer               progress_data,
            GCancellable          *cancellable,
            GError               **error)
{
  gboolean due = is_due ();
  g_autoptr (GError) reason = NULL;
  gboolean done;

  if (current->before_put != NULL)
    current->before_put (path, current->data);
  if (due && is_without_effect ())
    return fail (error);
  if (due && (current->kind == FAULT_HALF || current->kind == FAULT_TORN))
    {
      g_autofree char *part = wb_remote_part_path (source);

      put_half (remote, current->kind == FAULT_TORN ? path : part, source);
      return fail (error);
    }
  done = wb_remote_folder_methods.put (remote, path, source, progress, progress_data, cancellable,
                                       &reason);
  current->n_puts += done;
  if (done && current->lost_puts)
    return wb_share_refuse (error, WB_SHARE_ERROR_EXISTS, path, "it is there already");
  if (reason != NULL)
    g_propagate_error (error, g_steal_pointer (&reason));
  return done && due ? fail (error) : done;
}

static gboolean
faulty_remove (WbRemote      *remote,
               const char    *path,
               GCancellable  *cancellable,
               GError       **error)
{
  gboolean due = is_due ();
  gboolean done;

  if (due && is_without_effect ())
    return fail (error);
  done = wb_remote_folder_methods.remove (remote, path, cancellable, error);
  return done && due ? fail (error) : done;
}

/* --- opening ---------------------------------------------------------------------------------- */

WbRemote *
faulty_remote_open_folder (const char *folder)
{
  g_autoptr (WbServer) server = wb_server_new (WB_SERVER_FOLDER,
                                               "0f0c8a52-6a0e-4d6f-9a35-0d8f6f0b7c11");
  g_autoptr (GError) error = NULL;
  WbRemote *remote;

  wb_server_set (server, WB_SERVER_FIELD_NAME, "Share");
  wb_server_set (server, WB_SERVER_FIELD_ADDRESS, folder);
  remote = wb_remote_open (server, NULL, NULL, &error);
  g_assert_no_error (error);
  return remote;
}

WbRemote *
faulty_remote_open (const char *folder,
                    FaultPlan  *plan)
{
  WbRemote *remote = faulty_remote_open_folder (folder);

  faulty_methods = wb_remote_folder_methods;
  faulty_methods.list = faulty_list;
  faulty_methods.stat = faulty_stat;
  faulty_methods.get = faulty_get;
  faulty_methods.put = faulty_put;
  faulty_methods.remove = faulty_remove;
  remote->methods = &faulty_methods;
  current = plan;
  return remote;
}
