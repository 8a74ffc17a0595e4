/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Taking in 200 photos of 12 megapixels: read, hashed, kept safely on the disk, dated, and a
 * thumbnail of each. The peer does the same work with general tools on the same files in the
 * same run, as many processes at a time as there are processors: sha256sum, cp, sync, and
 * ImageMagick's mogrify, told to scale while it decodes. */
#include "config.h"

#include "bench/wb-bench.h"
#include "bench/wb-bench-photos.h"

#include "office/wb-photo-import.h"

#include <stdio.h>
#include <sys/resource.h>

#define N_PHOTOS 200

static gint64
micros (struct timeval time)
{
  return time.tv_sec * G_USEC_PER_SEC + time.tv_usec;
}

static gint64
work_of (int who)
{
  struct rusage usage;

  getrusage (who, &usage);
  return micros (usage.ru_utime) + micros (usage.ru_stime);
}

static WbBenchTime
measure_own (const char *book,
             const char *folder)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbOffice) office = wb_office_open (book, WB_BOOK_CREATE, NULL, &error);
  g_autoptr (WbJob) job = wb_job_new ("bench-job", "USD");
  g_autoptr (GFile) file = g_file_new_for_path (folder);
  g_autoptr (GPtrArray) sources =
    g_ptr_array_new_with_free_func ((GDestroyNotify) wb_photo_source_free);
  g_autoptr (GPtrArray) results = NULL;
  g_autoptr (GPtrArray) records = NULL;
  guint counts[5] = { 0 };
  WbBenchTime time;

  if (office == NULL)
    g_error ("%s", error->message);
  g_ptr_array_add (sources, wb_photo_source_new_file (file));

  time.clock = -g_get_monotonic_time ();
  time.work = -work_of (RUSAGE_SELF);
  results = wb_office_take_photos (office, job, sources, NULL, NULL, &error);
  time.clock += g_get_monotonic_time ();
  time.work += work_of (RUSAGE_SELF);

  if (results == NULL)
    g_error ("%s", error->message);
  records = wb_photo_results_records (results, counts);
  if (records->len != N_PHOTOS)
    g_error ("%u photos were taken in", records->len);
  wb_office_close (office);
  return time;
}

static WbBenchTime
measure_peer (const char *folder,
              const char *to)
{
  g_autofree char *script =
    g_strdup_printf ("cd '%s' && mkdir -p '%s/kept' '%s/small' && "
                     "ls *.jpg | xargs -P %u -n 10 sha256sum > '%s/hashes' && "
                     "ls *.jpg | xargs -P %u -n 10 cp -t '%s/kept' && "
                     "ls '%s'/kept/*.jpg | xargs -n 50 sync && "
                     "ls *.jpg | xargs -P %u -n 10 mogrify -path '%s/small' -define "
                     "jpeg:size=640x640 -auto-orient -thumbnail 320x320 -quality 85",
                     folder, to, to, g_get_num_processors (), to, g_get_num_processors (), to, to,
                     g_get_num_processors (), to);
  const char *const argv[] = { "sh", "-c", script, NULL };
  g_autoptr (GError) error = NULL;
  WbBenchTime time;
  int status;

  time.clock = -g_get_monotonic_time ();
  time.work = -work_of (RUSAGE_CHILDREN);
  g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, &status,
                &error);
  time.clock += g_get_monotonic_time ();
  time.work += work_of (RUSAGE_CHILDREN);
  if (error == NULL)
    g_spawn_check_wait_status (status, &error);
  if (error != NULL)
    g_error ("%s", error->message);
  return time;
}

int
main (void)
{
  g_autofree char *folder = wb_bench_make_folder ();
  g_autofree char *photos = g_build_filename (folder, "photos", NULL);
  g_autofree char *peer = g_build_filename (folder, "peer", NULL);
  g_autofree char *book = g_build_filename (folder, "office.wainbook", NULL);
  g_autofree char *cache = g_build_filename (folder, "cache", NULL);
  WbBenchTime own, other;

  g_setenv ("XDG_CACHE_HOME", cache, TRUE);
  g_mkdir_with_parents (photos, 0700);
  g_mkdir_with_parents (peer, 0700);
  wb_bench_make_photos (photos, N_PHOTOS);

  /* The peer goes first and so pays for reading the files into memory, should they not be there;
   * they are: they were just written. */
  other = measure_peer (photos, peer);
  own = measure_own (book, photos);
  wb_bench_report ("taking in 200 photos of 12 megapixels", own, "sha256sum, cp, sync, mogrify", other,
                   "1.0 or less");
  return 0;
}
