/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws what a person sees of the demo office, for a person to look at. Run once for each look; the
 * one argument says which, and goes into the names of the pictures. A warning of the toolkit, such
 * as a widget with less room than it needs, fails the test. */
#include "config.h"

#include "desk/support/wb-desk-book.h"
#include "desk/support/wb-desk-driver.h"
#include "support/wb-test-window.h"

static const char *look;

static void
picture (GtkWindow  *window,
         const char *what)
{
  g_autofree char *name = g_strdup_printf ("desk-%s-%s", what, look);

  wb_test_settle ();
  wb_test_wait_until_drawn (GTK_WIDGET (window));
  wb_test_save_picture (GTK_WIDGET (window), name);
}

static void
test_start (void)
{
  g_autoptr (WbApplication) app = wb_desk_driver_start ();
  GtkWindow *window;

  g_application_activate (G_APPLICATION (app));
  window = gtk_application_get_active_window (GTK_APPLICATION (app));
  picture (window, "start");
  wb_desk_driver_quit (app);
}

static void
test_office (void)
{
  static const char *const pages[] = { "order", "inventory", "photos", "valuation", "claim" };
  g_autoptr (WbDeskBook) book = wb_desk_book_new ();
  g_autoptr (WbApplication) app = wb_desk_driver_start ();
  WbWindow *window;

  g_assert_cmpuint (wb_desk_book_add_demo (book), >, 0);
  window = wb_desk_driver_open (app, book);
  picture (GTK_WINDOW (window), "jobs");

  wb_desk_driver_open_job (window, "job-0031");
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      wb_job_page_show (wb_window_get_job_page (window), pages[i]);
      picture (GTK_WINDOW (window), pages[i]);
    }

  wb_job_page_show (wb_window_get_job_page (window), "order");
  gtk_widget_activate_action (wb_job_page_get_visible (wb_window_get_job_page (window)),
                              "order.add-stop", NULL);
  picture (GTK_WINDOW (window), "order-stop");
  wb_desk_driver_quit (app);
}

static void
test_new_job (void)
{
  g_autoptr (WbDeskBook) book = wb_desk_book_new ();
  g_autoptr (WbApplication) app = wb_desk_driver_start ();
  WbWindow *window = wb_desk_driver_open (app, book);

  picture (GTK_WINDOW (window), "empty");
  gtk_widget_activate_action (GTK_WIDGET (window), "win.new-job", NULL);
  wb_desk_driver_wait_for_job (window, NULL);
  picture (GTK_WINDOW (window), "new-job");
  wb_desk_driver_quit (app);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();
  look = argc > 1 ? argv[1] : "plain";
  g_test_add_func ("/desk/pictures/start", test_start);
  g_test_add_func ("/desk/pictures/office", test_office);
  g_test_add_func ("/desk/pictures/new-job", test_new_job);
  return g_test_run ();
}
