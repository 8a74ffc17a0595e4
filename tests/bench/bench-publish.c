/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How fast photos get to a WebDAV server through our remote, beside curl that puts the same files
 * at their names on the same server. Ours goes by another name first, looks at the size, hashes
 * what it sends and moves; curl does none of it. Run by tests/support/with-server, which starts
 * Apache. */
#include "config.h"

#include "bench/wb-bench.h"
#include "share/remote-env.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>

#define N_PHOTOS 256
#define PHOTO_SIZE (4 * 1024 * 1024)
#define N_ROUNDS 3

typedef struct
{
  WbRemote  *remote;
  GPtrArray *files;    /* paths */
  GPtrArray *hashes;
  guint      round;
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
make_photos (Bench      *bench,
             const char *folder)
{
  g_autofree guint32 *words = g_malloc (PHOTO_SIZE);

  bench->files = g_ptr_array_new_with_free_func (g_free);
  bench->hashes = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < N_PHOTOS; i++)
    {
      g_autofree char *name = g_strdup_printf ("photo-%u.jpg", i);
      char *path = g_build_filename (folder, name, NULL);

      fill_photo (words, i + 1);
      g_assert_true (g_file_set_contents (path, (const char *) words, PHOTO_SIZE, NULL));
      g_ptr_array_add (bench->files, path);
      g_ptr_array_add (bench->hashes, g_compute_checksum_for_data (G_CHECKSUM_SHA256,
                                                                   (const guchar *) words,
                                                                   PHOTO_SIZE));
    }
}

/* --- ours ------------------------------------------------------------------------------------- */

static char *
path_of (const Bench *bench,
         guint        i)
{
  const char *hash = g_ptr_array_index (bench->hashes, i);

  return g_strdup_printf ("round-%u/%.2s/%s", bench->round, hash, hash);
}

static void
put_photos (Bench *bench)
{
  for (guint i = 0; i < N_PHOTOS; i++)
    {
      g_autofree char *path = path_of (bench, i);
      WbRemoteSource source = { NULL, bench->files->pdata[i], PHOTO_SIZE, bench->hashes->pdata[i] };
      g_autoptr (GError) error = NULL;
      gboolean good = wb_remote_put (bench->remote, path, &source, NULL, NULL, NULL, &error);

      g_assert_no_error (error);
      g_assert_true (good);
    }
}

static void
remove_photos (Bench *bench)
{
  for (guint i = 0; i < N_PHOTOS; i++)
    {
      g_autofree char *path = path_of (bench, i);
      g_autoptr (GError) error = NULL;

      g_assert_true (wb_remote_remove (bench->remote, path, NULL, &error));
      g_assert_no_error (error);
    }
}

/* --- the peer --------------------------------------------------------------------------------- */

static char *
join_files (const Bench *bench)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) names = NULL;

  for (guint i = 0; i < N_PHOTOS; i++)
    g_strv_builder_add (builder, bench->files->pdata[i]);
  names = g_strv_builder_end (builder);
  return g_strjoinv (",", names);
}

static void
run_curl (Bench *bench)
{
  g_autofree char *names = join_files (bench);
  g_autofree char *list = g_strdup_printf ("{%s}", names);
  g_autofree char *login = g_strdup_printf ("%s:%s", g_getenv ("WB_SERVER_USER"),
                                            g_getenv ("WB_SERVER_SECRET"));
  g_autofree char *url = g_strdup_printf ("%s/peer/", g_getenv ("WB_SERVER_ADDRESS"));
  const char *words[] = {
    "curl", "--silent", "--show-error", "--fail", "--output", "/dev/null", "--cacert",
    g_getenv ("WB_SERVER_AUTHORITY"), "--user", login, "--upload-file", list, url, NULL,
  };
  g_autoptr (GError) error = NULL;
  int status;

  g_spawn_sync (NULL, (char **) words, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, &status,
                &error);
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
}

static void
remove_peer (Bench *bench)
{
  for (guint i = 0; i < N_PHOTOS; i++)
    {
      g_autofree char *name = g_path_get_basename (bench->files->pdata[i]);
      g_autofree char *path = g_build_path ("/", "peer", name, NULL);
      g_autoptr (GError) error = NULL;

      g_assert_true (wb_remote_remove (bench->remote, path, NULL, &error));
      g_assert_no_error (error);
    }
}

/* curl makes no folders. */
static void
make_peer_folder (WbRemote *remote)
{
  g_autoptr (GBytes) bytes = g_bytes_new_static ("peer", 4);
  g_autofree char *sha256 = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, bytes);
  WbRemoteSource source = { bytes, NULL, 4, sha256 };
  g_autoptr (GError) error = NULL;

  g_assert_true (wb_remote_put (remote, "peer/first", &source, NULL, NULL, NULL, &error));
  g_assert_no_error (error);
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

static long
most_memory (void)
{
  struct rusage usage;

  g_assert_cmpint (getrusage (RUSAGE_SELF, &usage), ==, 0);
  return usage.ru_maxrss;
}

int
main (void)
{
  g_autofree char *folder = wb_bench_make_folder ();
  WbBenchTime own[N_ROUNDS], peer[N_ROUNDS];
  g_autoptr (GError) error = NULL;
  Bench bench = { NULL };
  long before;

  g_setenv ("WB_SERVER_KIND", "webdav", TRUE);
  make_photos (&bench, folder);
  bench.remote = remote_from_environment (NULL, &error);
  g_assert_no_error (error);
  make_peer_folder (bench.remote);

  before = most_memory ();
  /* In turn, so that whatever else the machine does meets both. */
  for (bench.round = 0; bench.round < N_ROUNDS; bench.round++)
    {
      own[bench.round] = take_time (&bench, put_photos, RUSAGE_SELF);
      remove_photos (&bench);
      peer[bench.round] = take_time (&bench, run_curl, RUSAGE_CHILDREN);
      remove_peer (&bench);
    }
  qsort (own, N_ROUNDS, sizeof *own, by_clock);
  qsort (peer, N_ROUNDS, sizeof *peer, by_clock);
  wb_bench_report ("publishing 1 GiB of photos, 256 files, to WebDAV over TLS", own[N_ROUNDS / 2],
                   "curl putting the same files there", peer[N_ROUNDS / 2], "under 1.11");
  printf ("memory: %ld KiB more at the end than before the first photo\n", most_memory () - before);

  wb_remote_close (bench.remote);
  g_ptr_array_unref (bench.files);
  g_ptr_array_unref (bench.hashes);
  return 0;
}
