/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is due, as an adjuster looks at it in the morning, by keyboard:
 *
 *   Ctrl+Shift+D       the list of what is due, the most urgent first, with the focus on it
 *   Down, Enter        the job of the second entry is shown, on the page of its claim
 *   F5                 the list anew; it is also made anew when something is stored
 *   Ctrl+S             the list as a calendar
 *   Escape             the list is closed
 *
 * 49 CFR 370.5(a): 30 days to acknowledge; 370.9(a): 120 days to decide. */
#include "config.h"

#include "desk/due/wb-due-model.h"
#include "desk/due/wb-due-row.h"
#include "desk/due/wb-due-window.h"
#include "desk/support/wb-desk-driver.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

typedef struct
{
  WbDeskBook    *book;
  WbApplication *app;
  WbWindow      *window;
} Fixture;

/* An interstate job with an open claim that was received so many days ago. */
static void
add_claim (Fixture    *f,
           const char *number,
           const char *shipper,
           guint       days_ago)
{
  g_autoptr (WbJob) stored = wb_desk_book_add_job (f->book, number, shipper, "Dayton", "Tulsa", 0);
  g_autoptr (WbJob) with_order = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbJob) again = NULL;
  WbOrder *order = wb_record_copy (wb_job_order (stored));
  WbClaim *claim = wb_record_new (WB_KIND_CLAIM, "c1");
  g_autofree char *claim_number = g_strconcat ("C-", number, NULL);
  g_autoptr (GError) error = NULL;

  order->move_type = WB_MOVE_INTERSTATE;
  with_order = wb_job_with (stored, order);
  wb_record_unref (order);
  wb_set_text (&claim->number, claim_number);
  wb_office_today (&claim->received_on);
  g_date_subtract_days (&claim->received_on, days_ago);
  job = wb_job_with (with_order, claim);
  wb_record_unref (claim);
  again = wb_office_save_job (f->book->office, stored, job, "A claim", NULL, &error);
  g_assert_no_error (error);
}

static void
set_up (Fixture       *f,
        gconstpointer  data)
{
  f->book = wb_desk_book_new ();
  add_claim (f, "J-1", "Ada Brook", 1);
  add_claim (f, "J-2", "Bram Castor", 31);
  f->app = wb_desk_driver_start ();
  f->window = wb_desk_driver_open (f->app, f->book);
}

static void
tear_down (Fixture       *f,
           gconstpointer  data)
{
  wb_desk_driver_quit (f->app);
  g_clear_object (&f->app);
  wb_desk_book_free (f->book);
}

/* Returns: (nullable): the window with what is due. */
static GtkWidget *
find_due (void)
{
  g_autoptr (GListModel) windows = g_object_ref (gtk_window_get_toplevels ());

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);

      if (WB_IS_DUE_WINDOW (window) && gtk_widget_get_visible (window))
        return window;
    }
  return NULL;
}

static GtkListView *
get_list (void)
{
  GtkWidget *due = find_due ();

  return due != NULL ? GTK_LIST_VIEW (wb_test_find (due, GTK_TYPE_LIST_VIEW, NULL)) : NULL;
}

static guint
get_n_rows (void)
{
  GtkListView *list = get_list ();
  GtkSelectionModel *model = list != NULL ? gtk_list_view_get_model (list) : NULL;

  return model != NULL ? g_list_model_get_n_items (G_LIST_MODEL (model)) : 0;
}

static GtkSingleSelection *
get_selection (void)
{
  return GTK_SINGLE_SELECTION (gtk_list_view_get_model (get_list ()));
}

static GListModel *
get_entries (void)
{
  GListModel *shown = gtk_single_selection_get_model (get_selection ());

  return gtk_slice_list_model_get_model (GTK_SLICE_LIST_MODEL (shown));
}

static gboolean
has_another_list (gpointer data)
{
  return get_entries () != data;
}

static gboolean
has_four_rows (gpointer data)
{
  return get_n_rows () == 4;
}

static gboolean
has_two_rows (gpointer data)
{
  return get_n_rows () == 2;
}

static gboolean
has_no_window (gpointer data)
{
  return find_due () == NULL;
}

/* Returns: (nullable): the widget that shows that entry. */
static GtkWidget *
find_row (guint index)
{
  GtkWidget *item = gtk_widget_get_first_child (GTK_WIDGET (get_list ()));

  while (item != NULL && index-- > 0)
    item = gtk_widget_get_next_sibling (item);
  return item != NULL ? gtk_widget_get_first_child (item) : NULL;
}

/* @heading: (nullable): of its group, above it */
static void
assert_row (guint       index,
            WbDueGroup  group,
            const char *heading,
            const char *job_id,
            const char *words)
{
  g_autoptr (WbDueItem) item =
    g_list_model_get_item (G_LIST_MODEL (gtk_list_view_get_model (get_list ())), index);
  const WbDue *due = wb_due_item_get_due (item);
  GtkWidget *row = find_row (index);

  g_assert_cmpint (due->group, ==, group);
  g_assert_cmpstr (due->job_id, ==, job_id);
  g_assert_true (WB_IS_DUE_ROW (row));
  g_assert_nonnull (wb_test_find (row, GTK_TYPE_LABEL, words));
  g_assert_cmpint (wb_due_item_leads (item), ==, heading != NULL);
  if (heading != NULL)
    g_assert_true (gtk_widget_get_mapped (wb_test_find (row, GTK_TYPE_LABEL, heading)));
}

static void
test_list (Fixture       *f,
           gconstpointer  data)
{
  GtkWidget *due, *first;
  GListModel *before;

  wb_test_type (GTK_WIDGET (f->window), "{ctrl+shift+d}");
  wb_test_wait_until (has_four_rows, NULL);
  due = find_due ();
  wb_test_wait_until_drawn (due);
  assert_row (0, WB_DUE_OVERDUE, "Overdue", "j-2", "1 day overdue");
  assert_row (1, WB_DUE_LATER, "Later", "j-1", "29 days left");
  assert_row (2, WB_DUE_LATER, NULL, "j-2", "89 days left");
  assert_row (3, WB_DUE_LATER, NULL, "j-1", "119 days left");
  wb_test_save_picture (due, "due");
  g_assert_true (gtk_window_get_focus (GTK_WINDOW (due)) == gtk_widget_get_parent (find_row (0)));

  /* Made anew, the list has the focus where it was. */
  wb_test_type (due, "{Down}{Down}");
  g_assert_true (gtk_window_get_focus (GTK_WINDOW (due)) == gtk_widget_get_parent (find_row (2)));
  first = wb_test_find (due, GTK_TYPE_LIST_VIEW, NULL);
  before = get_entries ();
  wb_test_type (due, "{F5}");
  wb_test_wait_until (has_another_list, before);
  g_assert_cmpuint (gtk_single_selection_get_selected (get_selection ()), ==, 2);
  wb_test_wait_until_drawn (due);
  g_assert_true (gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (due)), first));
  g_assert_true (gtk_window_get_focus (GTK_WINDOW (due)) == gtk_widget_get_parent (find_row (2)));

  wb_test_type (due, "{Escape}");
  wb_test_wait_until (has_no_window, NULL);
}

static void
test_open_claim (Fixture       *f,
                 gconstpointer  data)
{
  WbJobPage *page;

  wb_test_type (GTK_WIDGET (f->window), "{ctrl+shift+d}");
  wb_test_wait_until (has_four_rows, NULL);
  wb_test_type (find_due (), "{Down}\n");
  wb_desk_driver_wait_for_job (f->window, "j-1");
  page = wb_window_get_job_page (f->window);
  g_assert_cmpstr (wb_job_page_get_visible_name (page), ==, "claim");

  /* Another job is then shown where the person was. */
  wb_job_page_show (page, "order");
  wb_desk_driver_open_job (f->window, "j-2");
  g_assert_cmpstr (wb_job_page_get_visible_name (wb_window_get_job_page (f->window)), ==, "order");
}

/* What is settled elsewhere is no longer due here. */
static void
test_follows (Fixture       *f,
              gconstpointer  data)
{
  WbJobModel *model;

  wb_desk_driver_open_job (f->window, "j-2");
  model = wb_job_page_get_model (wb_window_get_job_page (f->window));
  wb_test_type (GTK_WIDGET (f->window), "{ctrl+shift+d}");
  wb_test_wait_until (has_four_rows, NULL);
  wb_test_set_field (model, WB_KIND_CLAIM, "c1", "status", "settled");
  wb_test_flush (model);
  wb_test_wait_until (has_two_rows, NULL);
}

#define ADD(path, function) \
  g_test_add ("/desk/due/" path, Fixture, NULL, set_up, function, tear_down)

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  ADD ("list", test_list);
  ADD ("open-claim", test_open_claim);
  ADD ("follows", test_follows);
  return g_test_run ();
}
