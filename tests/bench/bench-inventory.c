/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long the window is kept from its work with an inventory of 5,000 pieces: the program itself,
 * a book on the disk, and the keys of a person, from opening the job to undoing the removal of two
 * lines of three. The peer is a column view of the toolkit alone with as many lines of plain
 * labels, opened and scrolled in a window of its own. */
#include "config.h"

#include "bench/wb-bench.h"
#include "desk/support/wb-desk-driver.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

#include "desk/inventory/wb-inventory-list.h"
#include "desk/inventory/wb-inventory-page.h"

#include <adwaita.h>

#define N_PIECES 5000
#define N_CLAIMED 40

typedef struct
{
  WbDeskBook       book;
  WbApplication   *app;
  WbWindow        *window;
  GtkWidget       *page;
  WbInventoryList *list;
} Bench;

static gboolean
is_at_rest (gpointer data)
{
  return wb_inventory_list_is_at_rest (data);
}

static gboolean
is_stored (gpointer window)
{
  return !wb_open_jobs_get_unsaved (wb_window_get_open_jobs (window));
}

/* Lets the page come to rest, frames, book and all. */
static void
rest (Bench *bench)
{
  wb_test_wait_until (is_at_rest, bench->list);
  wb_test_wait_until (is_stored, bench->window);
  wb_test_wait_until_drawn (GTK_WIDGET (bench->window));
  wb_test_settle ();
}

static void
report (const char *what)
{
  wb_bench_report_stall (what, wb_bench_take_stall ());
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
measure_peer (void)
{
  GtkWidget *window = gtk_window_new ();
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

  gtk_window_set_default_size (GTK_WINDOW (window), 1180, 760);
  gtk_window_present (GTK_WINDOW (window));
  wb_test_wait_until_drawn (window);
  wb_bench_take_stall ();
  gtk_window_set_child (GTK_WINDOW (window), scroller);
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
  gtk_window_destroy (GTK_WINDOW (window));
  wb_test_settle ();
}

/* --- the program ------------------------------------------------------------------------------ */

static void
type (Bench      *bench,
      const char *keys,
      const char *what)
{
  wb_bench_take_stall ();
  wb_test_type (GTK_WIDGET (bench->window), keys);
  /* What is typed in a filter counts a moment later. */
  wb_test_pass_time (200);
  rest (bench);
  report (what);
}

static void
activate (Bench      *bench,
          const char *action,
          const char *parameter,
          const char *what)
{
  wb_bench_take_stall ();
  gtk_widget_activate_action (bench->page, action, parameter != NULL ? "s" : NULL, parameter);
  rest (bench);
  report (what);
}

static void
open_inventory (Bench *bench)
{
  WbJobPage *job_page;

  wb_bench_take_stall ();
  wb_desk_driver_open_job (bench->window, "bench-job");
  wb_test_wait_until_drawn (GTK_WIDGET (bench->window));
  wb_test_settle ();
  report ("opening the job");

  job_page = wb_window_get_job_page (bench->window);
  wb_job_page_show (job_page, "inventory");
  bench->page = wb_job_page_get_visible (job_page);
  bench->list = WB_INVENTORY_LIST (wb_test_find (bench->page, WB_TYPE_INVENTORY_LIST, NULL));
  rest (bench);
  report ("showing its inventory");
}

static void
measure_filter_and_sort (Bench *bench)
{
  type (bench, "{ctrl+shift+f}", "going to the filter");
  type (bench, "b", "filter, first letter");
  type (bench, "e", "filter, second letter");
  type (bench, "{BackSpace}", "filter, one letter less");
  type (bench, "{BackSpace}", "filter, empty");

  activate (bench, "inventory.sort", "description", "sort by description");
  type (bench, "{ctrl+shift+f}k", "filter, sorted, first letter");
  type (bench, "{BackSpace}", "filter, sorted, empty");
  type (bench, "{ctrl+l}", "going to the new line");
  type (bench, "one", "typing, sorted");
  type (bench, "\n", "entering a line, sorted");
  activate (bench, "inventory.sort", "weight", "sort by weight");
  activate (bench, "inventory.sort", "", "back to the order of entry");
  type (bench, "{ctrl+l}one more", "typing");
  type (bench, "\n", "entering a line");
}

static void
measure_scrolling (Bench *bench)
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
  gtk_adjustment_set_value (adjustment, gtk_adjustment_get_upper (adjustment) / 2);
  rest (bench);
  report ("scrolling to the middle");
  for (guint i = 0; i < 20; i++)
    {
      gtk_adjustment_set_value (adjustment, gtk_adjustment_get_value (adjustment) - 100);
      wb_test_wait_until_drawn (GTK_WIDGET (bench->window));
    }
  report ("scrolling by four lines");
  for (guint i = 0; i < 20; i++)
    {
      gtk_adjustment_set_value (adjustment, gtk_adjustment_get_value (adjustment) + 400);
      wb_test_wait_until_drawn (GTK_WIDGET (bench->window));
    }
  report ("scrolling by a page");
}

/* All lines that nothing else of the job is about: two of three. */
static GtkBitset *
find_free (Bench *bench)
{
  GListModel *shown = G_LIST_MODEL (wb_inventory_list_get_selection (bench->list));
  const WbJob *job = wb_desk_driver_get_job (bench->window);
  g_autoptr (GHashTable) held = g_hash_table_new (g_str_hash, g_str_equal);
  GtkBitset *positions = gtk_bitset_new_empty ();

  for (guint i = 0; i < wb_job_count (job, WB_KIND_FINDING); i++)
    g_hash_table_add (held, ((const WbFinding *) wb_job_nth (job, WB_KIND_FINDING, i))->piece);
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    g_hash_table_add (held, ((const WbClaimLine *) wb_job_nth (job, WB_KIND_CLAIM_LINE, i))->piece);

  for (guint i = 0; i < g_list_model_get_n_items (shown); i++)
    {
      g_autoptr (WbRecordItem) item = g_list_model_get_item (shown, i);

      if (!g_hash_table_contains (held, ((const WbRecord *) wb_record_item_get_record (item))->id))
        gtk_bitset_add (positions, i);
    }
  return positions;
}

static void
measure_removal (Bench *bench)
{
  GtkSelectionModel *selection = wb_inventory_list_get_selection (bench->list);
  g_autoptr (GtkBitset) free_lines = find_free (bench);
  guint n_shown = g_list_model_get_n_items (G_LIST_MODEL (selection));
  g_autoptr (GtkBitset) all = gtk_bitset_new_range (0, n_shown);
  guint n_free = (guint) gtk_bitset_get_size (free_lines);
  guint n_before = wb_job_count (wb_desk_driver_get_job (bench->window), WB_KIND_PIECE);

  wb_bench_take_stall ();
  gtk_selection_model_select_all (selection);
  rest (bench);
  report ("selecting all");
  gtk_selection_model_set_selection (selection, free_lines, all);
  rest (bench);
  report ("selecting two of three");

  activate (bench, "inventory.remove", NULL, "removing them");
  g_assert_cmpuint (wb_job_count (wb_desk_driver_get_job (bench->window), WB_KIND_PIECE), ==,
                    n_before - n_free);
  type (bench, "{ctrl+z}", "undo");
  g_assert_cmpuint (wb_job_count (wb_desk_driver_get_job (bench->window), WB_KIND_PIECE), ==,
                    n_before);
  type (bench, "{ctrl+shift+z}", "redo");
}

int
main (void)
{
  Bench bench = { 0 };
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = wb_bench_make_folder ();
  g_autoptr (WbJob) job = wb_bench_make_job (N_PIECES, N_CLAIMED);
  g_autoptr (WbJob) stored = NULL;

  bench.book.path = g_build_filename (folder, "office.wainbook", NULL);
  bench.book.office = wb_office_open (bench.book.path, WB_BOOK_CREATE, NULL, &error);
  g_assert_no_error (error);
  stored = wb_office_save_job (bench.book.office, NULL, job, "made", NULL, &error);
  g_assert_no_error (error);

  bench.app = wb_desk_driver_start ();
  wb_bench_watch_stalls ();
  measure_peer ();
  bench.window = wb_desk_driver_open (bench.app, &bench.book);
  wb_test_wait_until_drawn (GTK_WIDGET (bench.window));
  wb_test_settle ();

  open_inventory (&bench);
  measure_filter_and_sort (&bench);
  measure_scrolling (&bench);
  measure_removal (&bench);

  wb_desk_driver_quit (bench.app);
  g_object_unref (bench.app);
  wb_office_close (bench.book.office);
  g_object_unref (bench.book.office);
  g_free (bench.book.path);
  return 0;
}
