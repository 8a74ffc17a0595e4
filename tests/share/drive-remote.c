/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One remote, driven line by line from standard input, for tests that start and stop servers around
 * it. Each line is a deed with its words, each answer one line: "ok …" or "error NICK MESSAGE".
 *
 *     list FOLDER · stat PATH · get PATH OFFSET FILE · put PATH FILE · remove PATH · probe
 *     cancel-put PATH FILE BYTES      puts, and cancels from another thread after BYTES
 *     memory                          the most memory that the process ever had, in KiB */
#include "config.h"

#include "remote-env.h"

#include "share/wb-share.h"

#include <stdio.h>
#include <string.h>
#include <sys/resource.h>

static const char *const nicks[] = {
  [WB_SHARE_ERROR_LIMIT] = "limit",
  [WB_SHARE_ERROR_NAME] = "name",
  [WB_SHARE_ERROR_SOURCE] = "source",
  [WB_SHARE_ERROR_UNREACHABLE] = "unreachable",
  [WB_SHARE_ERROR_TIMEOUT] = "timeout",
  [WB_SHARE_ERROR_CERTIFICATE] = "certificate",
  [WB_SHARE_ERROR_HOST_KEY_UNKNOWN] = "host-key-unknown",
  [WB_SHARE_ERROR_HOST_KEY_CHANGED] = "host-key-changed",
  [WB_SHARE_ERROR_LOGIN] = "login",
  [WB_SHARE_ERROR_FORBIDDEN] = "forbidden",
  [WB_SHARE_ERROR_NOT_FOUND] = "not-found",
  [WB_SHARE_ERROR_EXISTS] = "exists",
  [WB_SHARE_ERROR_LOCKED] = "locked",
  [WB_SHARE_ERROR_FULL] = "full",
  [WB_SHARE_ERROR_READ_ONLY] = "read-only",
  [WB_SHARE_ERROR_SERVER] = "server",
  [WB_SHARE_ERROR_PROTOCOL] = "protocol",
  [WB_SHARE_ERROR_CHANGED] = "changed",
  [WB_SHARE_ERROR_FORMAT] = "format",
  [WB_SHARE_ERROR_CLOCK] = "clock",
  [WB_SHARE_ERROR_LIBRARY] = "library",
};

typedef struct
{
  WbRemote     *remote;
  GCancellable *cancellable;
  gint64        stop_after;   /* 0 for never */
  gint64        done;
} Drive;

static const char *
nick_of (const GError *error)
{
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return "cancelled";
  if (error->domain != WB_SHARE_ERROR || error->code >= (int) G_N_ELEMENTS (nicks) ||
      nicks[error->code] == NULL)
    return "other";
  return nicks[error->code];
}

static void
answer_error (const GError *error)
{
  g_autofree char *line = g_strdelimit (g_strdup (error->message), "\n", ' ');

  printf ("error %s %s\n", nick_of (error), line);
}

/* --- deeds ------------------------------------------------------------------------------------ */

static gpointer
cancel_thread (gpointer data)
{
  g_usleep (20000);
  g_cancellable_cancel (data);
  return NULL;
}

static void
progress_cb (gint64   done,
             gint64   total,
             gpointer data)
{
  Drive *drive = data;

  drive->done = done;
  if (drive->stop_after > 0 && done >= drive->stop_after)
    {
      drive->stop_after = 0;
      g_thread_unref (g_thread_new ("cancel", cancel_thread, drive->cancellable));
    }
}

static gboolean
write_sink (const guint8  *bytes,
            gsize          length,
            gpointer       data,
            GError       **error)
{
  g_assert_cmpuint (fwrite (bytes, 1, length, data), ==, length);
  return TRUE;
}

static gboolean
drive_list (Drive        *drive,
            char        **words,
            GError      **error)
{
  g_autoptr (GPtrArray) entries = wb_remote_list (drive->remote, words[1], drive->cancellable,
                                                  error);

  if (entries == NULL)
    return FALSE;
  printf ("ok");
  for (guint i = 0; i < entries->len; i++)
    {
      const WbRemoteEntry *entry = g_ptr_array_index (entries, i);

      printf (" %s%s", entry->name, entry->is_folder ? "/" : "");
    }
  printf ("\n");
  return TRUE;
}

static gboolean
drive_stat (Drive        *drive,
            char        **words,
            GError      **error)
{
  g_auto (WbRemoteEntry) entry = { NULL };

  if (!wb_remote_stat (drive->remote, words[1], &entry, drive->cancellable, error))
    return FALSE;
  printf ("ok %s %" G_GINT64_FORMAT "\n", entry.name, entry.size);
  return TRUE;
}

static gboolean
drive_get (Drive        *drive,
           char        **words,
           GError      **error)
{
  FILE *file = fopen (words[3], "w");
  gboolean good;

  g_assert_nonnull (file);
  good = wb_remote_get (drive->remote, words[1], g_ascii_strtoll (words[2], NULL, 10), write_sink,
                        file, progress_cb, drive, drive->cancellable, error);
  g_assert_cmpint (fclose (file), ==, 0);
  if (good)
    printf ("ok %" G_GINT64_FORMAT "\n", drive->done);
  return good;
}

/* The hash of a file, without having it in memory. */
static char *
hash_file (const char *path,
           gint64     *size)
{
  g_autoptr (GChecksum) checksum = g_checksum_new (G_CHECKSUM_SHA256);
  guint8 chunk[65536];
  FILE *file = fopen (path, "r");
  gsize got;

  g_assert_nonnull (file);
  *size = 0;
  while ((got = fread (chunk, 1, sizeof chunk, file)) > 0)
    {
      g_checksum_update (checksum, chunk, (gssize) got);
      *size += (gint64) got;
    }
  fclose (file);
  return g_strdup (g_checksum_get_string (checksum));
}

static gboolean
drive_put (Drive        *drive,
           char        **words,
           GError      **error)
{
  gint64 size;
  g_autofree char *sha256 = hash_file (words[2], &size);
  WbRemoteSource source = { NULL, words[2], size, sha256 };

  if (!wb_remote_put (drive->remote, words[1], &source, progress_cb, drive, drive->cancellable,
                      error))
    return FALSE;
  printf ("ok %s\n", sha256);
  return TRUE;
}

static gboolean
drive_cancel_put (Drive        *drive,
                  char        **words,
                  GError      **error)
{
  drive->stop_after = g_ascii_strtoll (words[3], NULL, 10);
  return drive_put (drive, words, error);
}

static gboolean
drive_remove (Drive        *drive,
              char        **words,
              GError      **error)
{
  if (!wb_remote_remove (drive->remote, words[1], drive->cancellable, error))
    return FALSE;
  printf ("ok\n");
  return TRUE;
}

static void
step_cb (WbProbeStep   step,
         const GError *error,
         gpointer      data)
{
  g_string_append_printf (data, " %s%s", error != NULL ? "!" : "",
                          wb_enum_nick (&wb_probe_steps, (int) step));
}

/* The steps are told also when it fails: as the first words of the message. */
static gboolean
drive_probe (Drive        *drive,
             char        **words,
             GError      **error)
{
  g_autoptr (GString) steps = g_string_new (NULL);

  if (wb_remote_probe (drive->remote, step_cb, steps, drive->cancellable, error))
    {
      printf ("ok%s\n", steps->str);
      return TRUE;
    }
  g_prefix_error (error, "%s: ", steps->str + 1);
  return FALSE;
}

static gboolean
drive_memory (Drive        *drive,
              char        **words,
              GError      **error)
{
  struct rusage usage;

  getrusage (RUSAGE_SELF, &usage);
  printf ("ok %ld\n", usage.ru_maxrss);
  return TRUE;
}

static const struct
{
  const char  *name;
  guint        n_words;
  gboolean   (*run) (Drive        *drive,
                     char        **words,
                     GError      **error);
} deeds[] = {
  { "list", 2, drive_list },
  { "stat", 2, drive_stat },
  { "get", 4, drive_get },
  { "put", 3, drive_put },
  { "cancel-put", 4, drive_cancel_put },
  { "remove", 2, drive_remove },
  { "probe", 1, drive_probe },
  { "memory", 1, drive_memory },
};

/* --- lines ------------------------------------------------------------------------------------ */

static void
run_line (WbRemote   *remote,
          const char *line)
{
  g_auto (GStrv) words = g_strsplit (line, " ", -1);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) error = NULL;
  Drive drive = { remote, cancellable, 0, 0 };

  for (gsize i = 0; i < G_N_ELEMENTS (deeds); i++)
    if (g_str_equal (words[0], deeds[i].name) && g_strv_length (words) == deeds[i].n_words)
      {
        if (!deeds[i].run (&drive, words, &error))
          answer_error (error);
        fflush (stdout);
        return;
      }
  g_error ("no such deed: %s", line);
}

int
main (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbRemote) remote = remote_from_environment (NULL, &error);
  char line[4096];

  if (remote == NULL)
    {
      answer_error (error);
      return 1;
    }
  printf ("ok\n");
  fflush (stdout);
  while (fgets (line, sizeof line, stdin) != NULL)
    {
      line[strcspn (line, "\n")] = '\0';
      run_line (remote, line);
    }
  return 0;
}
