/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long the inventory page keeps the main loop from its work, with 5,000 pieces: opening it,
 * typing in the filter, sorting, entering a line, scrolling to the other end, removing half of the
 * lines. The peer is a column view of the toolkit alone with as many lines of plain labels, that is
 * opened and scrolled in the same window. */
#include "config.h"

#include "bench/wb-bench.h"
#include "support/wb-test-window.h"

#include "desk/inventory/wb-inventory-list.h"
#include "desk/inventory/wb-inventory-page.h"

#include <adwaita.h>

#define N_PIECES 5000

typedef struct
{
  WbOffice        *office;
  WbJobModel      *model;
  GtkWidget       *window;
  GtkWidget       *page;
  WbInventoryList *list;
} Bench;

static gboolean
is_at_rest (gpointer data)
{
  return wb_inventory_list_is_at_rest (data);
}

/* Lets the page come to rest, frames and all. */
static void
rest (Bench *bench)
{
  wb_test_wait_until (is_at_rest, bench->list);
  wb_test_wait_until_drawn (bench->window);
  wb_test_settle ();
}

static void
report (const char *what)
{
  gint64 stall = wb_bench_take_stall ();

  g_print ("%s: longest stall %.1f ms\n", what, (double) stall / 1000.0);
}

/* --- the peer --------------------------------------------------------------------------------- */

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
measure_peer (Bench *bench)
{
  GtkStringList *strings = gtk_string_list_new (NULL);
  GtkWidget *view, *scroller;

  for (guint i = 0; i < N_PIECES; i++)
    gtk_string_list_take (strings, g_strdup_printf ("line %u", i));
  view =
    gtk_column_view_new (GTK_SELECTION_MODEL (gtk_multi_selection_new (G_LIST_MODEL (strings))));
  for (guint i = 0; i < 9; i++)
    {
      GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
      g_autoptr (GtkColumnViewColumn) column = NULL;

      g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), NULL);
      g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), NULL);
      column = gtk_column_view_column_new ("Column", factory);
      gtk_column_view_append_column (GTK_COLUMN_VIEW (view), column);
    }
  scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), view);

  wb_bench_take_stall ();
  adw_window_set_content (ADW_WINDOW (bench->window), scroller);
  wb_test_wait_until_drawn (scroller);
  wb_test_settle ();
  report ("peer, opening");

  {
    GtkAdjustment *adjustment =
      gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller));

    gtk_adjustment_set_value (adjustment, gtk_adjustment_get_upper (adjustment));
    wb_test_wait_until_drawn (scroller);
    wb_test_settle ();
    report ("peer, scrolling to the other end");
  }
}

/* --- the page --------------------------------------------------------------------------------- */

static void
type (Bench      *bench,
      const char *text)
{
  GtkWidget *filter = wb_test_find (bench->page, GTK_TYPE_SEARCH_ENTRY, NULL);

  gtk_editable_set_text (GTK_EDITABLE (filter), text);
  rest (bench);
}

static void
enter_line (Bench *bench)
{
  GtkWidget *entry = wb_test_find (bench->page, GTK_TYPE_ENTRY, "Description");

  gtk_editable_set_text (GTK_EDITABLE (entry), "one more");
  g_signal_emit_by_name (entry, "activate");
  rest (bench);
}

static void
measure_page (Bench *bench)
{
  gint64 begin;

  wb_bench_take_stall ();
  begin = g_get_monotonic_time ();
  bench->page = wb_inventory_page_new (bench->model);
  bench->list = WB_INVENTORY_LIST (wb_test_find (bench->page, WB_TYPE_INVENTORY_LIST, NULL));
  g_print ("making the page: %.1f ms\n", (double) (g_get_monotonic_time () - begin) / 1000.0);
  adw_window_set_content (ADW_WINDOW (bench->window), bench->page);
  wb_test_wait_until_drawn (bench->page);
  rest (bench);
  report ("opening");

  type (bench, "b");
  report ("filter, first letter");
  type (bench, "be");
  report ("filter, second letter");
  type (bench, "");
  report ("filter, cleared");

  gtk_widget_activate_action (bench->page, "inventory.sort", "s", "description");
  rest (bench);
  report ("sort by description");
  enter_line (bench);
  report ("entering a line, sorted");
  gtk_widget_activate_action (bench->page, "inventory.sort", "s", "");
  rest (bench);
  report ("back to the order of entry");
  enter_line (bench);
  report ("entering a line");

  {
    GtkWidget *scroller = wb_test_find (GTK_WIDGET (bench->list), GTK_TYPE_SCROLLED_WINDOW, NULL);
    GtkAdjustment *adjustment =
      gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller));

    gtk_adjustment_set_value (adjustment, 0);
    rest (bench);
    wb_bench_take_stall ();
    gtk_adjustment_set_value (adjustment, gtk_adjustment_get_upper (adjustment));
    rest (bench);
    report ("scrolling to the other end");
    for (guint i = 0; i < 20; i++)
      {
        gtk_adjustment_set_value (adjustment, gtk_adjustment_get_value (adjustment) - 100);
        wb_test_wait_until_drawn (bench->window);
      }
    report ("scrolling by four lines");
  }

  gtk_selection_model_select_all (wb_inventory_list_get_selection (bench->list));
  rest (bench);
  report ("selecting all");
  gtk_widget_activate_action (bench->page, "inventory.remove", NULL);
  rest (bench);
  report ("removing all that can be removed");
  wb_job_model_undo (bench->model);
  rest (bench);
  report ("undo");
}

int
main (int    argc,
      char **argv)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_dir_make_tmp ("wb-bench-XXXXXX", &error);
  g_autofree char *path = g_build_filename (folder, "office.wainbook", NULL);
  g_autoptr (WbJob) job = NULL;
  Bench bench = { 0 };

  adw_init ();
  bench.office = wb_office_open (path, WB_BOOK_CREATE, NULL, &error);
  g_assert_no_error (error);
  job = wb_bench_make_job (N_PIECES, 0);
  bench.model = wb_job_model_new (bench.office, job);
  bench.window = adw_window_new ();
  gtk_window_set_default_size (GTK_WINDOW (bench.window), 1180, 760);
  adw_window_set_content (ADW_WINDOW (bench.window), gtk_label_new ("empty"));
  gtk_window_present (GTK_WINDOW (bench.window));
  wb_test_wait_until_drawn (bench.window);
  wb_test_settle ();

  wb_bench_watch_stalls ();
  measure_peer (&bench);
  measure_page (&bench);
  return 0;
}
