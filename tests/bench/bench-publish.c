/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How fast a job with 1 GiB of photos is published on a WebDAV server, beside curl that puts the
 * same files at their names on the same server. Ours goes by another name first, looks at the
 * size, hashes what it sends and moves; curl does none of it. Then what it costs to publish the
 * same job once more, in bytes of the line, and whether memory grows with what is sent. Run by
 * tests/support/with-server, which starts Apache. */
#include "config.h"

#include "bench/wb-bench-relay.h"
#include "bench/wb-bench.h"
#include "share/remote-env.h"
#include "share/wb-depot.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>

#define N_PHOTOS 256
#define PHOTO_SIZE (4 * 1024 * 1024)
#define N_ROUNDS 3
#define SERVER "0f0c8a52-6a0e-4d6f-9a35-0d8f6f0b7c11"
#define JOB "a-job-of-this-bench"

typedef struct
{
  char      *folder;    /* of this computer */
  GPtrArray *items;     /* WbDepotItem */
  guint      round;
  WbRemote  *remote;
  char      *head;      /* (nullable): hash of what was published last */
} Bench;

/* --- photos ----------------------------------------------------------------------------------- */

static void
fill_photo (guint32 *words,
            guint32  seed)
{
  guint32 state = seed * 2654435761u | 1;

  for (gsize i = 0; i < PHOTO_SIZE / sizeof *words; i++)
    {
      state ^= state << 13;
      state ^= state >> 17;
      state ^= state << 5;
      words[i] = state;
    }
}

static void
make_photos (Bench *bench)
{
  g_autofree guint32 *words = g_malloc (PHOTO_SIZE);

  bench->items = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_depot_item_free);
  for (guint i = 0; i < N_PHOTOS; i++)
    {
      g_autofree char *name = g_strdup_printf ("photo-%u.jpg", i);
      g_autofree char *path = g_build_filename (bench->folder, name, NULL);
      g_autofree char *hash = NULL;

      fill_photo (words, i + 1);
      g_assert_true (g_file_set_contents (path, (const char *) words, PHOTO_SIZE, NULL));
      hash = g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *) words, PHOTO_SIZE);
      g_ptr_array_add (bench->items, wb_depot_item_new (name, path, hash, PHOTO_SIZE));
    }
}

/* --- ours ------------------------------------------------------------------------------------- */

static void
publish (Bench      *bench,
         const char *text)
{
  g_autofree char *name = g_strdup_printf ("cache-%u", bench->round);
  g_autofree char *cache = g_build_filename (bench->folder, name, NULL);
  g_autoptr (WbDepot) depot = wb_depot_new (bench->remote, cache, SERVER);
  g_autoptr (GBytes) document = g_bytes_new_static (text, strlen (text));
  const char *parents[] = { bench->head, NULL };
  WbDepotDraft draft = { JOB, parents, "2026-03-05T08:00:00Z", "R. Clerk", NULL, document,
                         bench->items, NULL };
  g_autoptr (GError) error = NULL;
  char *sha256 = NULL;
  gboolean good = wb_depot_publish (depot, &draft, NULL, NULL, &sha256, NULL, &error);

  g_assert_no_error (error);
  g_assert_true (good);
  g_free (bench->head);
  bench->head = sha256;
}

static void
publish_first (Bench *bench)
{
  publish (bench, "{}");
}

static void
ignore_step (WbProbeStep   step,
             const GError *error,
             gpointer      data)
{
}

/* A folder of its own for each round; the connection stands. */
static void
open_round (Bench *bench)
{
  g_autofree char *below = g_strdup_printf ("round-%u", bench->round);
  g_autoptr (GError) error = NULL;

  g_clear_pointer (&bench->remote, wb_remote_close);
  g_clear_pointer (&bench->head, g_free);
  bench->remote = remote_from_environment (below, &error);
  g_assert_no_error (error);
  g_assert_true (wb_remote_probe (bench->remote, ignore_step, NULL, NULL, &error));
  g_assert_no_error (error);
}

/* --- the peer --------------------------------------------------------------------------------- */

static char *
join_files (const Bench *bench)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) names = NULL;

  for (guint i = 0; i < N_PHOTOS; i++)
    g_strv_builder_add (builder, ((WbDepotItem *) g_ptr_array_index (bench->items, i))->file);
  names = g_strv_builder_end (builder);
  return g_strjoinv (",", names);
}

/* @word and @value: what curl is to do at @path */
static void
run_curl (const char *word,
          const char *value,
          const char *path)
{
  g_autofree char *login = g_strdup_printf ("%s:%s", g_getenv ("WB_SERVER_USER"),
                                            g_getenv ("WB_SERVER_SECRET"));
  g_autofree char *url = g_strdup_printf ("%s/%s/", g_getenv ("WB_SERVER_ADDRESS"), path);
  const char *words[] = {
    "curl", "--silent", "--show-error", "--fail", "--output", "/dev/null", "--cacert",
    g_getenv ("WB_SERVER_AUTHORITY"), "--user", login, word, value, url, NULL,
  };
  g_autoptr (GError) error = NULL;
  int status;

  g_spawn_sync (NULL, (char **) words, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, &status,
                &error);
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
}

static void
put_by_curl (Bench *bench)
{
  g_autofree char *names = join_files (bench);
  g_autofree char *list = g_strdup_printf ("{%s}", names);

  run_curl ("--upload-file", list, "peer");
}

/* --- times ------------------------------------------------------------------------------------ */

static gint64
work_of (int who)
{
  struct rusage usage;

  g_assert_cmpint (getrusage (who, &usage), ==, 0);
  return (usage.ru_utime.tv_sec + usage.ru_stime.tv_sec) * G_USEC_PER_SEC + usage.ru_utime.tv_usec +
         usage.ru_stime.tv_usec;
}

static WbBenchTime
take_time (Bench  *bench,
           void  (*deed) (Bench *bench),
           int     who)
{
  WbBenchTime begin = { g_get_monotonic_time (), work_of (who) };

  deed (bench);
  return (WbBenchTime) { g_get_monotonic_time () - begin.clock, work_of (who) - begin.work };
}

static int
by_clock (gconstpointer a,
          gconstpointer b)
{
  const WbBenchTime *first = a;
  const WbBenchTime *second = b;

  return (first->clock > second->clock) - (first->clock < second->clock);
}

/* In KiB. What getrusage() says may be that of whoever started this program. */
static long
most_memory (void)
{
  g_autofree char *status = NULL;
  const char *line;

  g_assert_true (g_file_get_contents ("/proc/self/status", &status, NULL, NULL));
  line = strstr (status, "VmHWM:");
  g_assert_nonnull (line);
  return strtol (line + strlen ("VmHWM:"), NULL, 10);
}

/* --- once more -------------------------------------------------------------------------------- */

static void
report_bytes (const char *what,
              gint64      bytes)
{
  printf ("%s: %" G_GINT64_FORMAT " KiB over the line, %.4f %% of 1 GiB (aim: under 1 %%)\n", what,
          bytes / 1024, 100.0 * (double) bytes / ((double) N_PHOTOS * PHOTO_SIZE));
}

/* Another word in the document, and every photo as it was: what goes over the line then. The
 * address of the relay is another one, so that at first everything is looked at. */
static void
publish_again (Bench *bench)
{
  g_autoptr (GUri) address = g_uri_parse (g_getenv ("WB_SERVER_ADDRESS"), G_URI_FLAGS_NONE, NULL);
  WbBenchRelay *relay = wb_bench_relay_new ((guint16) g_uri_get_port (address));
  g_autofree char *below = g_strdup_printf ("round-%u", bench->round);
  g_autofree char *url = g_strdup_printf ("https://%s:%u%s", g_uri_get_host (address),
                                          wb_bench_relay_get_port (relay),
                                          g_uri_get_path (address));
  g_autoptr (GError) error = NULL;
  gint64 first;

  wb_remote_close (bench->remote);
  g_setenv ("WB_SERVER_ADDRESS", url, TRUE);
  bench->remote = remote_from_environment (below, &error);
  g_assert_no_error (error);
  publish (bench, "{\"other\":1}");
  first = wb_bench_relay_get_bytes (relay);
  report_bytes ("the same photos once more, from a computer that has not seen them there", first);
  publish (bench, "{\"other\":2}");
  report_bytes ("and from one that has", wb_bench_relay_get_bytes (relay) - first);
  g_clear_pointer (&bench->remote, wb_remote_close);
  wb_bench_relay_free (relay);
}

int
main (void)
{
  WbBenchTime own[N_ROUNDS], peer[N_ROUNDS];
  Bench bench = { NULL };
  long before, once;

  g_setenv ("WB_SERVER_KIND", "webdav", TRUE);
  bench.folder = wb_bench_make_folder ();
  make_photos (&bench);

  before = once = most_memory ();
  /* In turn, so that whatever else the machine does meets both. */
  for (bench.round = 0; bench.round < N_ROUNDS; bench.round++)
    {
      g_autofree char *below = g_strdup_printf ("round-%u", bench.round);

      open_round (&bench);
      own[bench.round] = take_time (&bench, publish_first, RUSAGE_SELF);
      if (bench.round == 0)
        once = most_memory ();
      if (bench.round < N_ROUNDS - 1)
        run_curl ("--request", "DELETE", below);
      run_curl ("--request", "MKCOL", "peer");
      peer[bench.round] = take_time (&bench, put_by_curl, RUSAGE_CHILDREN);
      run_curl ("--request", "DELETE", "peer");
    }
  qsort (own, N_ROUNDS, sizeof *own, by_clock);
  qsort (peer, N_ROUNDS, sizeof *peer, by_clock);
  wb_bench_report ("publishing 1 GiB of photos, 256 files, to WebDAV over TLS", own[N_ROUNDS / 2],
                   "curl putting the same files there", peer[N_ROUNDS / 2], "under 1.11");
  printf ("memory: at most %ld KiB before the first photo, %ld KiB after 1 GiB, "
          "%ld KiB after %d GiB; ratio of the last two %.2f (aim: 1.00)\n",
          before, once, most_memory (), N_ROUNDS, (double) most_memory () / (double) once);
  bench.round = N_ROUNDS - 1;
  publish_again (&bench);

  g_free (bench.head);
  g_free (bench.folder);
  g_ptr_array_unref (bench.items);
  return 0;
}
