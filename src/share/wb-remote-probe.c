/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The test of a server, step by step, through the same functions that publishing uses. How a kind
 * logs in is not known here. */
#include "config.h"

#include "share/wb-remote-private.h"

#include "share/wb-share.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static const WbEnumValue step_values[] = {
  { WB_PROBE_ADDRESS, "address", N_("The address is known") },
  { WB_PROBE_CONNECT, "connect", N_("The server answers") },
  { WB_PROBE_TRUST, "trust", N_("It is the right server") },
  { WB_PROBE_LOGIN, "login", N_("The log-in is accepted") },
  { WB_PROBE_FOLDER, "folder", N_("The folder is there") },
  { WB_PROBE_WRITE, "write", N_("A file can be put there") },
  { WB_PROBE_READ_BACK, "read-back", N_("What is read back is what was put there") },
  { WB_PROBE_NO_OVERWRITE, "no-overwrite", N_("No file takes the place of another") },
  { WB_PROBE_REMOVE, "remove", N_("The file can be removed") },
};

const WbEnum wb_probe_steps = { "step of the test", step_values, G_N_ELEMENTS (step_values) };

typedef struct
{
  WbRemote     *remote;
  WbProbeFunc   step_done;
  gpointer      data;
  GCancellable *cancellable;
  char         *path;       /* of the file that is put there and removed again */
} Probe;

/* --- the file --------------------------------------------------------------------------------- */

static gboolean
put_text (Probe       *probe,
          const char  *text,
          GError     **error)
{
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  g_autofree char *sha256 = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, bytes);
  WbRemoteSource source = { bytes, NULL, (gint64) strlen (text), sha256 };

  return wb_remote_put (probe->remote, probe->path, &source, NULL, NULL, probe->cancellable, error);
}

static gboolean
keep_bytes (const guint8  *bytes,
            gsize          length,
            gpointer       data,
            GError       **error)
{
  GByteArray *kept = data;

  if (kept->len + length > 1000)
    return wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, "",
                            "the server gives back more than was put there");
  g_byte_array_append (kept, bytes, (guint) length);
  return TRUE;
}

/* Whether the file is @text. */
static gboolean
check_text (Probe       *probe,
            const char  *text,
            GError     **error)
{
  g_autoptr (GByteArray) kept = g_byte_array_new ();

  if (!wb_remote_get (probe->remote, probe->path, 0, keep_bytes, kept, NULL, NULL,
                      probe->cancellable, error))
    return FALSE;
  return (kept->len == strlen (text) && memcmp (kept->data, text, kept->len) == 0) ||
         wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, probe->path,
                          "what is read back is not what was put there");
}

/* --- the steps -------------------------------------------------------------------------------- */

#define FIRST_TEXT "Wainbook tests whether it can publish here.\n"
#define SECOND_TEXT "This may not take the place of another file.\n"

static gboolean
probe_address (Probe   *probe,
               GError **error)
{
  g_autoptr (GResolver) resolver = NULL;
  g_autoptr (GError) reason = NULL;
  GList *addresses;

  if (*probe->remote->host == '\0')
    return TRUE;
  resolver = g_resolver_get_default ();
  addresses = g_resolver_lookup_by_name (resolver, probe->remote->host, probe->cancellable,
                                         &reason);
  g_resolver_free_addresses (addresses);
  if (g_error_matches (reason, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    {
      g_propagate_error (error, g_steal_pointer (&reason));
      return FALSE;
    }
  return reason == NULL ||
         wb_share_refuse (error, WB_SHARE_ERROR_UNREACHABLE, probe->remote->host,
                          "there is no computer of this name");
}

WbProbeStep
wb_probe_step_of_error (const GError *error)
{
  if (error->domain != WB_SHARE_ERROR)
    return WB_PROBE_CONNECT;
  if (error->code == WB_SHARE_ERROR_UNREACHABLE || error->code == WB_SHARE_ERROR_TIMEOUT)
    return WB_PROBE_CONNECT;
  if (error->code == WB_SHARE_ERROR_CERTIFICATE ||
      error->code == WB_SHARE_ERROR_HOST_KEY_UNKNOWN ||
      error->code == WB_SHARE_ERROR_HOST_KEY_CHANGED)
    return WB_PROBE_TRUST;
  return error->code == WB_SHARE_ERROR_PROTOCOL ? WB_PROBE_CONNECT : WB_PROBE_LOGIN;
}

static gboolean
probe_folder (Probe   *probe,
              GError **error)
{
  return probe->remote->methods->make_base (probe->remote, probe->cancellable, error);
}

static gboolean
probe_write (Probe   *probe,
             GError **error)
{
  return put_text (probe, FIRST_TEXT, error);
}

static gboolean
probe_read_back (Probe   *probe,
                 GError **error)
{
  return check_text (probe, FIRST_TEXT, error);
}

/* The second put has to be refused, and the first file has to be there still. */
static gboolean
probe_no_overwrite (Probe   *probe,
                    GError **error)
{
  g_autoptr (GError) reason = NULL;

  if (put_text (probe, SECOND_TEXT, &reason))
    return wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, probe->path,
                            "the server lets a file take the place of another");
  if (!g_error_matches (reason, WB_SHARE_ERROR, WB_SHARE_ERROR_EXISTS))
    {
      g_propagate_error (error, g_steal_pointer (&reason));
      return FALSE;
    }
  return check_text (probe, FIRST_TEXT, error);
}

static gboolean
probe_remove (Probe   *probe,
              GError **error)
{
  return wb_remote_remove (probe->remote, probe->path, probe->cancellable, error);
}

/* Those after the greeting. */
static const struct
{
  WbProbeStep   step;
  gboolean    (*run) (Probe   *probe,
                      GError **error);
} steps[] = {
  { WB_PROBE_FOLDER, probe_folder },
  { WB_PROBE_WRITE, probe_write },
  { WB_PROBE_READ_BACK, probe_read_back },
  { WB_PROBE_NO_OVERWRITE, probe_no_overwrite },
  { WB_PROBE_REMOVE, probe_remove },
};

/* --- the whole -------------------------------------------------------------------------------- */

static void
tell (const Probe   *probe,
      WbProbeStep    step,
      const GError  *error)
{
  if (probe->step_done != NULL)
    probe->step_done (step, error, probe->data);
}

/* One request goes through several steps; what it fails with says how far it came. */
static gboolean
greet (Probe   *probe,
       GError **error)
{
  g_autoptr (GError) reason = NULL;
  WbProbeStep failed = WB_PROBE_FOLDER;

  if (probe->remote->methods->greet != NULL &&
      !probe->remote->methods->greet (probe->remote, probe->cancellable, &reason))
    failed = wb_probe_step_of_error (reason);
  for (int step = WB_PROBE_CONNECT; step < (int) failed; step++)
    tell (probe, (WbProbeStep) step, NULL);
  if (reason == NULL)
    return TRUE;
  tell (probe, failed, reason);
  g_propagate_error (error, g_steal_pointer (&reason));
  return FALSE;
}

static gboolean
run_step (Probe        *probe,
          WbProbeStep   step,
          gboolean    (*run) (Probe   *probe,
                              GError **error),
          GError      **error)
{
  g_autoptr (GError) reason = NULL;

  if (run (probe, &reason))
    {
      tell (probe, step, NULL);
      return TRUE;
    }
  tell (probe, step, reason);
  g_propagate_error (error, g_steal_pointer (&reason));
  return FALSE;
}

/* The file is not left behind for a step that failed after it was there. That failure is what is
 * told. */
static void
clean_up (Probe       *probe,
          WbProbeStep  failed)
{
  g_autoptr (GError) ignored = NULL;

  if (failed > WB_PROBE_WRITE && failed < WB_PROBE_REMOVE)
    (void) !wb_remote_remove (probe->remote, probe->path, probe->cancellable, &ignored);
}

static gboolean
run_steps (Probe   *probe,
           GError **error)
{
  if (!run_step (probe, WB_PROBE_ADDRESS, probe_address, error) || !greet (probe, error))
    return FALSE;
  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
    if (!run_step (probe, steps[i].step, steps[i].run, error))
      {
        clean_up (probe, steps[i].step);
        return FALSE;
      }
  return TRUE;
}

gboolean
wb_remote_probe (WbRemote      *self,
                 WbProbeFunc    step_done,
                 gpointer       data,
                 GCancellable  *cancellable,
                 GError       **error)
{
  g_autofree char *unique = g_uuid_string_random ();
  g_autofree char *path = g_strconcat (WB_REMOTE_INCOMING "/probe-", unique, NULL);
  Probe probe = { self, step_done, data, cancellable, path };

  return run_steps (&probe, error);
}
