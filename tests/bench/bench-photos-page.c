/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long the window is kept from its work with 500 photos of 12 megapixels in one job: while they
 * come in, and while the grid is scrolled from end to end, once when no thumbnail is there yet and
 * once when all are. */
#include "config.h"

#include "bench/wb-bench.h"
#include "bench/wb-bench-photos.h"
#include "desk/support/wb-desk-driver.h"
#include "support/wb-test-window.h"

#include "desk/photos/wb-photo-intake-bar.h"
#include "desk/photos/wb-photos-page.h"
#include "support/wb-test-folder.h"

#include <adwaita.h>
#include <stdio.h>

#define N_PHOTOS 500

typedef struct
{
  WbDeskBook         book;
  WbApplication     *app;
  WbWindow          *window;
  GtkWidget         *page;
  WbPhotoIntakeBar  *bar;
} Bench;

static void
report (const char *what)
{
  wb_bench_report_stall (what, wb_bench_take_stall ());
}

static void
frame (Bench *bench)
{
  wb_test_wait_until_drawn (GTK_WIDGET (bench->window));
}

static void
open_photos (Bench *bench)
{
  WbJobPage *job_page;

  wb_desk_driver_open_job (bench->window, "bench-job");
  frame (bench);
  wb_test_settle ();
  job_page = wb_window_get_job_page (bench->window);
  wb_bench_take_stall ();
  wb_job_page_show (job_page, "photos");
  bench->page = wb_job_page_get_visible (job_page);
  bench->bar = WB_PHOTO_INTAKE_BAR (wb_test_find (bench->page, WB_TYPE_PHOTO_INTAKE_BAR, NULL));
  frame (bench);
  wb_test_settle ();
  report ("showing the page without photos");
}

static void
take_in (Bench      *bench,
         const char *folder)
{
  g_autoptr (GFile) file = g_file_new_for_path (folder);
  GPtrArray *sources = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_photo_source_free);
  gint64 start = g_get_monotonic_time ();

  g_ptr_array_add (sources, wb_photo_source_new_file (file));
  wb_bench_take_stall ();
  wb_photo_intake_bar_take (bench->bar, sources, NULL, WB_MOMENT_ORIGIN);
  while (wb_photo_intake_bar_is_running (bench->bar))
    g_main_context_iteration (NULL, TRUE);
  frame (bench);
  report ("taking 500 photos in");
  printf ("taking 500 photos in: %.1f s\n", (double) (g_get_monotonic_time () - start) / 1e6);
  wb_test_settle ();
}

/* A person who turns the wheel: a step a frame, through all rows. */
static void
scroll_through (Bench      *bench,
                const char *what)
{
  GtkWidget *grid = wb_test_find (bench->page, GTK_TYPE_GRID_VIEW, NULL);
  GtkAdjustment *adjustment = gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (grid));
  double end = gtk_adjustment_get_upper (adjustment) - gtk_adjustment_get_page_size (adjustment);
  g_autofree char *jump = g_strdup_printf ("%s, to the other end at once", what);

  gtk_adjustment_set_value (adjustment, 0);
  frame (bench);
  wb_bench_take_stall ();
  for (double at = 0; at < end; at += 120)
    {
      gtk_adjustment_set_value (adjustment, at);
      frame (bench);
    }
  report (what);
  gtk_adjustment_set_value (adjustment, 0);
  frame (bench);
  report (jump);
  /* Until no thumbnail is on its way. */
  wb_test_pass_time (3000);
  report ("thumbnails that come afterwards");
}

int
main (void)
{
  Bench bench = { 0 };
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = wb_bench_make_folder ();
  g_autofree char *photos = g_build_filename (folder, "photos", NULL);
  g_autofree char *cache = g_build_filename (g_get_user_cache_dir (), "wainbook", NULL);
  g_autoptr (WbJob) job = wb_bench_make_job (100, 10);
  g_autoptr (WbJob) stored = NULL;

  g_mkdir_with_parents (photos, 0700);
  wb_bench_make_photos (photos, N_PHOTOS);
  bench.book.path = g_build_filename (folder, "office.wainbook", NULL);
  bench.book.office = wb_office_open (bench.book.path, WB_BOOK_CREATE, NULL, &error);
  g_assert_no_error (error);
  stored = wb_office_save_job (bench.book.office, NULL, job, "made", NULL, &error);
  g_assert_no_error (error);

  bench.app = wb_desk_driver_start ();
  wb_bench_watch_stalls ();
  bench.window = wb_desk_driver_open (bench.app, &bench.book);
  frame (&bench);
  open_photos (&bench);
  take_in (&bench, photos);
  wb_test_remove_tree (cache);
  scroll_through (&bench, "scrolling, no thumbnail made yet");
  scroll_through (&bench, "scrolling, thumbnails on the disk");

  wb_desk_driver_quit (bench.app);
  g_object_unref (bench.app);
  wb_office_close (bench.book.office);
  g_object_unref (bench.book.office);
  g_free (bench.book.path);
  return 0;
}
