/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long the window of what is due takes to show its first rows from a book of 50,000 open
 * claims, and how long it is kept from its work meanwhile and afterwards. The peer is a list view
 * of the toolkit alone with as many plain labels. */
#include "config.h"

#include <time.h>

#include "bench/wb-bench.h"
#include "bench/wb-bench-claims.h"
#include "desk/due/wb-due-row.h"
#include "desk/due/wb-due-window.h"
#include "desk/support/wb-desk-driver.h"
#include "support/wb-test-window.h"

/* When a measurement began, and what the processor had worked by then. */
typedef struct
{
  gint64  clock;
  clock_t work;
} Start;

static Start
begin (void)
{
  return (Start) { g_get_monotonic_time (), clock () };
}

static void
report (const char *what,
        Start       start)
{
  g_print ("%s: first rows after %.0f ms, at work %.0f ms\n", what,
           (double) (g_get_monotonic_time () - start.clock) / 1000,
           (double) (clock () - start.work) * 1000 / CLOCKS_PER_SEC);
}

static void
setup_cb (GtkSignalListItemFactory *factory,
          GtkListItem              *list_item)
{
  gtk_list_item_set_child (list_item, gtk_label_new (NULL));
}

static void
bind_cb (GtkSignalListItemFactory *factory,
         GtkListItem              *list_item)
{
  gtk_label_set_text (GTK_LABEL (gtk_list_item_get_child (list_item)),
                      gtk_string_object_get_string (gtk_list_item_get_item (list_item)));
}

static void
wait_for (GtkWidget *window,
          GType      type)
{
  while (wb_test_find (window, type, NULL) == NULL)
    g_main_context_iteration (NULL, TRUE);
  wb_test_wait_until_drawn (window);
}

static void
measure_peer (void)
{
  Start start = begin ();
  GtkWidget *window = gtk_window_new ();
  GtkWidget *scroller = gtk_scrolled_window_new ();
  GtkStringList *strings = gtk_string_list_new (NULL);
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  for (guint i = 0; i < WB_BENCH_N_CLAIMS; i++)
    gtk_string_list_take (strings, g_strdup_printf ("line %u", i));
  g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), NULL);
  gtk_scrolled_window_set_child (
    GTK_SCROLLED_WINDOW (scroller),
    gtk_list_view_new (GTK_SELECTION_MODEL (gtk_single_selection_new (G_LIST_MODEL (strings))),
                       factory));
  gtk_window_set_child (GTK_WINDOW (window), scroller);
  gtk_window_set_default_size (GTK_WINDOW (window), 640, 680);
  gtk_window_present (GTK_WINDOW (window));
  wait_for (window, GTK_TYPE_LABEL);
  report ("peer, a list view of 50,000 labels", start);
  gtk_window_destroy (GTK_WINDOW (window));
  wb_test_settle ();
}

static void
measure_window (WbOffice *office)
{
  Start start = begin ();
  GtkWidget *window;

  wb_bench_take_stall ();
  window = wb_due_window_new (office);
  gtk_window_present (GTK_WINDOW (window));
  wait_for (window, WB_TYPE_DUE_ROW);
  report ("what is due on 50,000 open claims (aim: under 200 ms)", start);
  wb_bench_report_stall ("until then", wb_bench_take_stall ());
  wb_test_pass_time (3000);
  wb_bench_report_stall ("the three seconds after it", wb_bench_take_stall ());
  gtk_window_destroy (GTK_WINDOW (window));
  wb_test_settle ();
}

int
main (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = wb_bench_make_folder ();
  WbDeskBook book = { NULL };
  WbApplication *app;

  book.path = g_build_filename (folder, "office.wainbook", NULL);
  wb_bench_make_claims (book.path);
  book.office = wb_office_open (book.path, WB_BOOK_OPEN, NULL, &error);
  g_assert_no_error (error);

  app = wb_desk_driver_start ();
  wb_bench_watch_stalls ();
  wb_desk_driver_open (app, &book);
  wb_test_settle ();
  for (guint round = 0; round < 3; round++)
    {
      measure_peer ();
      measure_window (book.office);
    }

  wb_desk_driver_quit (app);
  g_object_unref (app);
  wb_office_close (book.office);
  g_object_unref (book.office);
  g_free (book.path);
  return 0;
}
