/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window as each of the three people uses it, by keyboard:
 *
 * A coordinator opens a job for a caller
 *   Ctrl+Shift+N                     a new job with the next number is there, its order is shown
 *   Ctrl+Alt+P, Tab, name, Tab …     the shipper, as the first party
 *   Ctrl+Alt+S, Tab …                the pick-up, then once more the delivery
 *   Ctrl+Z                           the last step is taken back
 *
 * A customer-service rep answers a call
 *   Ctrl+F, part of a name, Enter    the first job found is shown
 *   Ctrl+F, part of a city, Down,    the second one is shown
 *   Enter
 *   Alt+4                            its inventory; each page has a digit
 *
 * An adjuster looks at two jobs at once
 *   Ctrl+N                           a second window on the same book
 *   Ctrl+W                           it is closed; everything is stored first
 *
 * Anybody
 *   F1                               help on what is shown; Ctrl+? all keys
 */
#include "config.h"

#include "desk/job/wb-page-list.h"
#include "desk/jobs/wb-job-item.h"
#include "desk/jobs/wb-job-list.h"
#include "desk/jobs/wb-job-row.h"
#include "desk/support/wb-desk-driver.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

typedef struct
{
  WbDeskBook    *book;
  WbApplication *app;
  WbWindow      *window;
} Fixture;

static void
set_up (Fixture       *f,
        gconstpointer  data)
{
  g_autoptr (WbJob) a = NULL;
  g_autoptr (WbJob) b = NULL;
  g_autoptr (WbJob) c = NULL;

  f->book = wb_desk_book_new ();
  a = wb_desk_book_add_job (f->book, "J-1", "Ada Brook", "Dayton", "Tulsa", 3);
  b = wb_desk_book_add_job (f->book, "J-2", "Bram Castor", "Dayton", "Boise", 0);
  c = wb_desk_book_add_job (f->book, "J-3", "Cleo Dane", "Fargo", "Tulsa", 0);
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

static void
type (Fixture    *f,
      const char *keys)
{
  wb_test_type (GTK_WIDGET (f->window), keys);
}

static GListModel *
get_list (Fixture *f)
{
  GtkWidget *list = wb_test_find (GTK_WIDGET (f->window), WB_TYPE_JOB_LIST, NULL);
  GtkWidget *view = wb_test_find (list, GTK_TYPE_LIST_VIEW, NULL);

  return G_LIST_MODEL (gtk_list_view_get_model (GTK_LIST_VIEW (view)));
}

static gboolean
has_one_job (gpointer list)
{
  return g_list_model_get_n_items (list) == 1;
}

static gboolean
has_two_jobs (gpointer list)
{
  return g_list_model_get_n_items (list) == 2;
}

static gboolean
has_three_jobs (gpointer list)
{
  return g_list_model_get_n_items (list) == 3;
}

static gboolean
is_stored (gpointer window)
{
  return !wb_open_jobs_get_unsaved (wb_window_get_open_jobs (window));
}

/* --- the list --------------------------------------------------------------------------------- */

static void
test_search (Fixture       *f,
             gconstpointer  data)
{
  g_assert_cmpuint (g_list_model_get_n_items (get_list (f)), ==, 3);

  type (f, "{ctrl+f}bram");
  wb_test_wait_until (has_one_job, get_list (f));
  type (f, "{Escape}");
  wb_test_wait_until (has_three_jobs, get_list (f));

  /* Number, city, letters in any case. */
  type (f, "j-3");
  wb_test_wait_until (has_one_job, get_list (f));
  type (f, "{ctrl+a}TULSA");
  wb_test_wait_until (has_two_jobs, get_list (f));
  type (f, "{ctrl+a}nobody");
  wb_test_pass_time (300);
  g_assert_cmpuint (g_list_model_get_n_items (get_list (f)), ==, 0);
  g_assert_true (gtk_widget_get_mapped (wb_test_find (GTK_WIDGET (f->window), ADW_TYPE_STATUS_PAGE,
                                                      "Nothing Found")));
}

static void
test_open_by_search (Fixture       *f,
                     gconstpointer  data)
{
  g_autoptr (WbJobItem) second = NULL;
  GtkWidget *focus;

  type (f, "{ctrl+f}castor\n");
  wb_desk_driver_wait_for_job (f->window, "j-2");
  g_assert_cmpstr (wb_job_page_get_visible_name (wb_window_get_job_page (f->window)), ==, "order");

  /* Nobody has asked to type yet: a letter must not replace the job number. */
  wb_test_settle ();
  focus = gtk_window_get_focus (GTK_WINDOW (f->window));
  g_assert_true (gtk_widget_is_ancestor (focus, GTK_WIDGET (wb_window_get_job_page (f->window))));
  g_assert_false (GTK_IS_TEXT (focus));

  /* Both jobs to Tulsa; the second of them. */
  type (f, "{ctrl+f}{ctrl+a}tulsa");
  wb_test_wait_until (has_two_jobs, get_list (f));
  second = g_list_model_get_item (get_list (f), 1);
  type (f, "{Down}\n");
  wb_desk_driver_wait_for_job (f->window, wb_job_item_get_summary (second)->id);
}

static void
test_pages (Fixture       *f,
            gconstpointer  data)
{
  gsize n_pages;
  const WbPageEntry *pages = wb_page_list (&n_pages);
  WbJobPage *page;

  wb_desk_driver_open_job (f->window, "j-1");
  page = wb_window_get_job_page (f->window);
  for (gsize i = n_pages; i > 0; i--)
    {
      g_autofree char *keys = g_strdup_printf ("{alt+%c}", pages[i - 1].key);

      type (f, keys);
      g_assert_cmpstr (wb_job_page_get_visible_name (page), ==, pages[i - 1].name);
    }

  /* Another job comes up on the page where one was, and nothing in it is being typed. */
  wb_job_page_show (page, "claim");
  wb_desk_driver_open_job (f->window, "j-2");
  g_assert_cmpstr (wb_job_page_get_visible_name (wb_window_get_job_page (f->window)), ==, "claim");
  wb_job_page_show (wb_window_get_job_page (f->window), "order");
  wb_desk_driver_open_job (f->window, "j-3");
  wb_test_settle ();
  g_assert_false (GTK_IS_TEXT (gtk_window_get_focus (GTK_WINDOW (f->window))));
}

/* What this window stores shows in the list; so does what others stored, once one comes back. */
static void
test_list_follows (Fixture       *f,
                   gconstpointer  data)
{
  GListModel *list = get_list (f);
  g_autoptr (WbJob) other = NULL;

  wb_desk_driver_open_job (f->window, "j-1");
  type (f, "{ctrl+shift+n}");
  wb_test_pass_time (600);
  g_assert_cmpuint (g_list_model_get_n_items (list), ==, 4);

  other = wb_desk_book_add_job (f->book, "J-9", "Ed Ford", "Reno", "Salem", 0);
  wb_job_list_refresh (WB_JOB_LIST (wb_test_find (GTK_WIDGET (f->window), WB_TYPE_JOB_LIST, NULL)));
  wb_test_pass_time (300);
  g_assert_cmpuint (g_list_model_get_n_items (list), ==, 5);
}

/* --- the order by keyboard -------------------------------------------------------------------- */

static gboolean
lists_all_and_one_more (gpointer data)
{
  return g_list_model_get_n_items (get_list (data)) == 4;
}

/* A new job stands in the list, whatever was searched for before. */
static void
test_new_job_after_search (Fixture       *f,
                           gconstpointer  data)
{
  type (f, "{ctrl+f}");
  type (f, "Brook\n");
  wb_desk_driver_wait_for_job (f->window, "j-1");
  g_assert_cmpuint (g_list_model_get_n_items (get_list (f)), ==, 1);

  type (f, "{ctrl+shift+n}");
  wb_test_wait_until (lists_all_and_one_more, f);
}

static void
test_new_job (Fixture       *f,
              gconstpointer  data)
{
  g_autoptr (WbJob) stored = NULL;
  const WbJob *job;
  const WbParty *party;
  const WbStop *pickup, *delivery;

  type (f, "{ctrl+shift+n}");
  wb_desk_driver_wait_for_job (f->window, NULL);
  wb_test_wait_until_drawn (GTK_WIDGET (f->window));

  /* Role, then name and company, then telephone. */
  type (f, "{ctrl+alt+p}");
  type (f, "\tIda Holm\t\t555-0143\n");
  type (f, "{ctrl+alt+s}");
  type (f, "\t\t12 Elm Street\tDayton\tOH\t");
  type (f, "{ctrl+alt+s}");
  type (f, "\t\t7 Oak Lane\tTulsa\tOK\n");

  job = wb_desk_driver_get_job (f->window);
  g_assert_cmpuint (wb_job_count (job, WB_KIND_PARTY), ==, 1);
  party = wb_job_nth (job, WB_KIND_PARTY, 0);
  g_assert_cmpint (party->role, ==, WB_ROLE_SHIPPER);
  g_assert_cmpstr (party->name, ==, "Ida Holm");
  g_assert_cmpstr (party->phone, ==, "555-0143");
  g_assert_cmpuint (wb_job_count (job, WB_KIND_STOP), ==, 2);
  pickup = wb_job_nth (job, WB_KIND_STOP, 0);
  delivery = wb_job_nth (job, WB_KIND_STOP, 1);
  g_assert_cmpint (pickup->kind, ==, WB_STOP_PICKUP);
  g_assert_cmpstr (pickup->city, ==, "Dayton");
  g_assert_cmpint (delivery->kind, ==, WB_STOP_DELIVERY);
  g_assert_cmpstr (delivery->street, ==, "7 Oak Lane");

  wb_test_wait_until (is_stored, f->window);
  stored = wb_desk_book_load (f->book, wb_job_get_id (job));
  g_assert_true (wb_job_equal (stored, job));
}

static void
focus_field (Fixture    *f,
             const char *field)
{
  GtkWidget *page = GTK_WIDGET (wb_window_get_job_page (f->window));

  gtk_widget_child_focus (wb_desk_driver_find_field (page, field), GTK_DIR_TAB_FORWARD);
  wb_test_settle ();
}

static void
test_edit_order (Fixture       *f,
                 gconstpointer  data)
{
  g_autoptr (WbJob) stored = NULL;

  wb_desk_driver_open_job (f->window, "j-1");
  wb_test_wait_until_drawn (GTK_WIDGET (f->window));
  focus_field (f, "order.vehicle");
  type (f, "Truck 9\t");
  focus_field (f, "order.estimate");
  type (f, "12,500.50\n");
  wb_test_wait_until (is_stored, f->window);

  stored = wb_desk_book_load (f->book, "j-1");
  wb_test_assert_field (stored, WB_KIND_ORDER, "order", "vehicle", "Truck 9");
  wb_test_assert_field (stored, WB_KIND_ORDER, "order", "estimate", "12500.50 USD");
}

static void
test_undo (Fixture       *f,
           gconstpointer  data)
{
  wb_desk_driver_open_job (f->window, "j-1");
  wb_test_wait_until_drawn (GTK_WIDGET (f->window));
  focus_field (f, "order.vehicle");
  type (f, "Truck 9\n");
  type (f, "{ctrl+a}Truck 10");

  /* First what is typed, then what was set. */
  type (f, "{ctrl+z}");
  wb_test_assert_field (wb_desk_driver_get_job (f->window), WB_KIND_ORDER, "order", "vehicle",
                        "Truck 9");
  type (f, "{ctrl+z}");
  wb_test_assert_field (wb_desk_driver_get_job (f->window), WB_KIND_ORDER, "order", "vehicle", "");
  type (f, "{ctrl+shift+z}");
  wb_test_assert_field (wb_desk_driver_get_job (f->window), WB_KIND_ORDER, "order", "vehicle",
                        "Truck 9");
}

static void
test_move_and_remove (Fixture       *f,
                      gconstpointer  data)
{
  GtkWidget *page;

  wb_desk_driver_open_job (f->window, "j-1");
  wb_test_wait_until_drawn (GTK_WIDGET (f->window));
  page = GTK_WIDGET (wb_window_get_job_page (f->window));

  gtk_widget_child_focus (wb_test_find (page, ADW_TYPE_EXPANDER_ROW, "Dayton, OH"),
                          GTK_DIR_TAB_FORWARD);
  type (f, "{alt+Down}");
  g_assert_cmpint (wb_job_index (wb_desk_driver_get_job (f->window), WB_KIND_STOP, "s1"), ==, 1);
  type (f, "{alt+Up}");
  g_assert_cmpint (wb_job_index (wb_desk_driver_get_job (f->window), WB_KIND_STOP, "s1"), ==, 0);

  type (f, "{ctrl+Delete}");
  g_assert_cmpint (wb_job_index (wb_desk_driver_get_job (f->window), WB_KIND_STOP, "s1"), ==, -1);
  type (f, "{ctrl+z}");
  g_assert_cmpint (wb_job_index (wb_desk_driver_get_job (f->window), WB_KIND_STOP, "s1"), ==, 0);
}

/* What is missing is counted on the order page, listed with the papers, and leads to where it is
 * filled in. */
static void
test_missing (Fixture       *f,
              gconstpointer  data)
{
  GtkWidget *page, *focus;
  WbJobPage *job_page;

  wb_desk_driver_open_job (f->window, "j-1");
  job_page = wb_window_get_job_page (f->window);
  page = GTK_WIDGET (job_page);
  wb_test_set_field (wb_job_page_get_model (job_page), WB_KIND_ORDER, "order", "move_type",
                     "interstate");
  wb_test_set_field (wb_job_page_get_model (job_page), WB_KIND_ORDER, "order", "stage", "inquiry");
  g_assert_nonnull (wb_test_find (page, ADW_TYPE_ACTION_ROW,
                                  "5 things are missing for this stage"));

  type (f, "{alt+2}");
  g_assert_cmpstr (wb_job_page_get_visible_name (job_page), ==, "papers");
  type (f, "\n");
  g_assert_cmpstr (wb_job_page_get_visible_name (job_page), ==, "order");
  focus = gtk_window_get_focus (GTK_WINDOW (f->window));
  g_assert_true (focus == wb_desk_driver_find_field (page, "order.survey")
                 || gtk_widget_is_ancestor (focus,
                                            wb_desk_driver_find_field (page, "order.survey")));

  gtk_widget_activate_action (page, "job.reveal", "(sss)", "order", "", "vehicle");
  g_assert_cmpstr (wb_job_page_get_visible_name (job_page), ==, "order");
  focus = gtk_window_get_focus (GTK_WINDOW (f->window));
  g_assert_true (gtk_widget_is_ancestor (focus, wb_desk_driver_find_field (page, "order.vehicle")));

  /* Into a record that is not open yet. */
  gtk_widget_activate_action (page, "job.reveal", "(sss)", "stop", "s1", "street");
  focus = gtk_window_get_focus (GTK_WINDOW (f->window));
  g_assert_true (gtk_widget_is_ancestor (focus, wb_desk_driver_find_field (page, "stop.street")));

  /* To the button that adds one. */
  gtk_widget_activate_action (page, "job.reveal", "(sss)", "weighing", "", "");
  g_assert_true (GTK_IS_BUTTON (gtk_window_get_focus (GTK_WINDOW (f->window))));

  /* A conversation is noted from whatever page one is on. */
  type (f, "{ctrl+alt+n}");
  g_assert_cmpstr (wb_job_page_get_visible_name (job_page), ==, "papers");
  g_assert_cmpuint (wb_job_count (wb_desk_driver_get_job (f->window), WB_KIND_CONTACT), ==, 1);
  focus = gtk_window_get_focus (GTK_WINDOW (f->window));
  g_assert_true (gtk_widget_is_ancestor (focus, wb_desk_driver_find_field (page, "contact.on")));

  /* Where handovers and claims begin. */
  gtk_widget_activate_action (page, "job.reveal", "(sss)", "handover", "", "");
  g_assert_cmpstr (wb_job_page_get_visible_name (job_page), ==, "handovers");
  g_assert_true (GTK_IS_BUTTON (gtk_window_get_focus (GTK_WINDOW (f->window))));
  gtk_widget_activate_action (page, "job.reveal", "(sss)", "claim", "", "");
  g_assert_cmpstr (wb_job_page_get_visible_name (job_page), ==, "claim");

  /* To another page, by itself. */
  gtk_widget_activate_action (page, "job.reveal", "(sss)", "valuation", "", "signed_by");
  g_assert_cmpstr (wb_job_page_get_visible_name (job_page), ==, "valuation");
  focus = gtk_window_get_focus (GTK_WINDOW (f->window));
  g_assert_true (gtk_widget_is_ancestor (focus,
                                         wb_desk_driver_find_field (page, "valuation.signed_by")));
}

static void
test_advice (Fixture       *f,
             gconstpointer  data)
{
  GtkWidget *page, *row;
  WbJobModel *model;

  wb_desk_driver_open_job (f->window, "j-1");
  page = GTK_WIDGET (wb_window_get_job_page (f->window));
  model = wb_job_page_get_model (WB_JOB_PAGE (page));
  row = wb_desk_driver_find_field (page, "order.pickup_to");

  wb_test_set_field (model, WB_KIND_ORDER, "order", "pickup_to", "2026-03-01");
  g_assert_nonnull (wb_test_find (row, GTK_TYPE_LABEL,
                                  "This is before the first day agreed for pick-up."));
  wb_test_set_field (model, WB_KIND_ORDER, "order", "pickup_to", "2026-03-04");
  g_assert_null (wb_test_find (row, GTK_TYPE_LABEL,
                               "This is before the first day agreed for pick-up."));
}

static void
test_weight (Fixture       *f,
             gconstpointer  data)
{
  GtkWidget *page, *row;
  WbJobModel *model;
  g_autoptr (WbRecord) weighing = wb_record_new (WB_KIND_WEIGHING, "w1");
  g_autoptr (WbJob) job = NULL;

  wb_desk_driver_open_job (f->window, "j-1");
  page = GTK_WIDGET (wb_window_get_job_page (f->window));
  model = wb_job_page_get_model (WB_JOB_PAGE (page));
  row = wb_test_find (page, ADW_TYPE_ACTION_ROW, "Weight that governs");
  g_assert_cmpstr (adw_action_row_get_subtitle (ADW_ACTION_ROW (row)), ==,
                   "No weight is known yet.");

  job = wb_job_with (wb_job_model_get_job (model), weighing);
  wb_job_model_apply (model, job, "Add");
  wb_test_set_field (model, WB_KIND_WEIGHING, "w1", "kind", "reweigh");
  wb_test_set_field (model, WB_KIND_WEIGHING, "w1", "gross", "30000 lb");
  wb_test_set_field (model, WB_KIND_WEIGHING, "w1", "tare", "20000 lb");
  g_assert_cmpstr (adw_action_row_get_subtitle (ADW_ACTION_ROW (row)), ==,
                   "10,000 lb net, by the reweigh, which goes before the first weighing "
                   "(49 CFR 375.517).");
}

/* --- closing ---------------------------------------------------------------------------------- */

static gboolean
has_no_window (gpointer app)
{
  return gtk_application_get_windows (app) == NULL;
}

static gboolean
has_one_window (gpointer app)
{
  return g_list_length (gtk_application_get_windows (app)) == 1;
}

/* Two windows on one job show one value; closing one of them loses nothing, not even what is only
 * typed yet. */
static void
test_second_window (Fixture       *f,
                    gconstpointer  data)
{
  WbWindow *second;
  g_autoptr (WbJob) stored = NULL;

  wb_desk_driver_open_job (f->window, "j-1");
  type (f, "{ctrl+n}");
  second = WB_WINDOW (gtk_application_get_active_window (GTK_APPLICATION (f->app)));
  g_assert_true (second != f->window);
  wb_desk_driver_open_job (second, "j-1");
  wb_test_wait_until_drawn (GTK_WIDGET (second));
  g_assert_true (wb_job_page_get_model (wb_window_get_job_page (second)) ==
                 wb_job_page_get_model (wb_window_get_job_page (f->window)));

  gtk_widget_child_focus (wb_desk_driver_find_field (GTK_WIDGET (wb_window_get_job_page (second)),
                                                     "order.vehicle"),
                          GTK_DIR_TAB_FORWARD);
  wb_test_settle ();
  wb_test_type (GTK_WIDGET (second), "Truck 9");
  gtk_window_close (GTK_WINDOW (second));
  wb_test_wait_until (has_one_window, f->app);

  stored = wb_desk_book_load (f->book, "j-1");
  wb_test_assert_field (stored, WB_KIND_ORDER, "order", "vehicle", "Truck 9");
  wb_test_assert_field (wb_desk_driver_get_job (f->window), WB_KIND_ORDER, "order", "vehicle",
                        "Truck 9");
}

static GtkWindow *
find_toplevel (GType type)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();

  for (GList *l = windows; l != NULL; l = l->next)
    if (g_type_is_a (G_OBJECT_TYPE (l->data), type) && gtk_widget_get_mapped (l->data))
      return l->data;

  return NULL;
}

static GtkWindow *
find_dialog (Fixture *f)
{
  return find_toplevel (ADW_TYPE_MESSAGE_DIALOG);
}

static void
answer (GtkWindow  *dialog,
        const char *label)
{
  GtkWidget *button = wb_test_find (GTK_WIDGET (dialog), GTK_TYPE_BUTTON, label);

  g_assert_nonnull (button);
  g_signal_emit_by_name (button, "clicked");
  wb_test_settle ();
}

static gboolean
has_dialog (gpointer f)
{
  return find_dialog (f) != NULL;
}

/* The book takes nothing more: the window says so and stays unless one wants to lose the change. */
static void
test_close_fails (Fixture       *f,
                  gconstpointer  data)
{
  WbOffice *office = wb_open_jobs_get_office (wb_window_get_open_jobs (f->window));
  GtkWindow *dialog;

  wb_desk_driver_open_job (f->window, "j-1");
  wb_office_close (office);
  wb_test_set_field (wb_job_page_get_model (wb_window_get_job_page (f->window)),
                     WB_KIND_ORDER, "order", "vehicle", "Truck 9");

  gtk_window_close (GTK_WINDOW (f->window));
  wb_test_wait_until (has_dialog, f);
  dialog = find_dialog (f);
  g_assert_cmpstr (adw_message_dialog_get_heading (ADW_MESSAGE_DIALOG (dialog)), ==,
                   "The Last Changes Are Not in the Book");
  answer (dialog, "_Keep the Window Open");
  g_assert_true (has_one_window (f->app));
  wb_test_assert_field (wb_desk_driver_get_job (f->window), WB_KIND_ORDER, "order", "vehicle",
                        "Truck 9");

  gtk_window_close (GTK_WINDOW (f->window));
  wb_test_wait_until (has_dialog, f);
  answer (find_dialog (f), "Close and _Lose Them");
  wb_test_wait_until (has_no_window, f->app);
}

/* --- others write to the book ----------------------------------------------------------------- */

static void
change_elsewhere (Fixture    *f,
                  const char *field,
                  const char *text)
{
  g_autoptr (WbOffice) office = wb_desk_book_open_again (f->book);
  g_autoptr (WbJob) job = wb_office_load_job (office, "j-1", NULL, NULL);
  g_autoptr (WbJobModel) model = wb_job_model_new (office, job);

  wb_test_set_field (model, WB_KIND_ORDER, "order", field, text);
  wb_test_flush (model);
  wb_office_close (office);
}

static void
test_conflict (Fixture       *f,
               gconstpointer  data)
{
  WbJobModel *model;
  g_autoptr (WbJob) stored = NULL;
  GtkWindow *dialog;

  wb_desk_driver_open_job (f->window, "j-1");
  wb_test_wait_until_drawn (GTK_WIDGET (f->window));
  model = wb_job_page_get_model (wb_window_get_job_page (f->window));
  wb_test_set_field (model, WB_KIND_ORDER, "order", "vehicle", "Truck 9");
  change_elsewhere (f, "bill_number", "B-77");

  wb_test_wait_until (has_dialog, f);
  dialog = find_dialog (f);
  g_assert_cmpstr (adw_message_dialog_get_heading (ADW_MESSAGE_DIALOG (dialog)), ==,
                   "This Job Was Changed Elsewhere");
  wb_test_wait_until_drawn (GTK_WIDGET (dialog));
  wb_test_save_picture (GTK_WIDGET (dialog), "desk-conflict");
  answer (dialog, "_Keep Mine");
  wb_test_flush (model);

  stored = wb_desk_book_load (f->book, "j-1");
  wb_test_assert_field (stored, WB_KIND_ORDER, "order", "vehicle", "Truck 9");
  wb_test_assert_field (stored, WB_KIND_ORDER, "order", "bill_number", "B-77");
}

/* Two windows of one process ask both; the answer in one is the answer in the other. */
static void
test_conflict_in_two_windows (Fixture       *f,
                              gconstpointer  data)
{
  WbJobModel *model;
  WbWindow *second;

  wb_desk_driver_open_job (f->window, "j-1");
  type (f, "{ctrl+n}");
  second = WB_WINDOW (gtk_application_get_active_window (GTK_APPLICATION (f->app)));
  wb_desk_driver_open_job (second, "j-1");
  wb_test_wait_until_drawn (GTK_WIDGET (second));
  model = wb_job_page_get_model (wb_window_get_job_page (f->window));

  wb_test_set_field (model, WB_KIND_ORDER, "order", "vehicle", "Truck 9");
  change_elsewhere (f, "vehicle", "Trailer 2");
  wb_test_wait_until (has_dialog, f);
  answer (find_dialog (f), "Take _Theirs");
  wb_test_settle ();
  g_assert_null (find_dialog (f));
  wb_test_assert_field (wb_desk_driver_get_job (second), WB_KIND_ORDER, "order", "vehicle",
                        "Trailer 2");
  wb_test_flush (model);
}

static gboolean
shows_unstored (gpointer window)
{
  GtkWidget *button = wb_test_find (window, GTK_TYPE_BUTTON, "_Show");

  return button != NULL && gtk_widget_get_mapped (button);
}

/* A job that nobody looks at any more clashes: the window says so, and coming back to it asks. */
static void
test_conflict_out_of_sight (Fixture       *f,
                            gconstpointer  data)
{
  g_autoptr (WbJobModel) model = NULL;

  wb_desk_driver_open_job (f->window, "j-1");
  model = g_object_ref (wb_job_page_get_model (wb_window_get_job_page (f->window)));
  wb_test_set_field (model, WB_KIND_ORDER, "order", "vehicle", "Truck 9");
  change_elsewhere (f, "bill_number", "B-77");
  wb_desk_driver_open_job (f->window, "j-2");

  wb_test_wait_until (shows_unstored, f->window);
  g_assert_nonnull (wb_test_find (GTK_WIDGET (f->window), GTK_TYPE_LABEL,
                                  "Changes to J-1 (Ada Brook) are not stored."));
  wb_test_wait_until_drawn (GTK_WIDGET (f->window));
  wb_test_save_picture (GTK_WIDGET (f->window), "desk-unstored");

  g_signal_emit_by_name (wb_test_find (GTK_WIDGET (f->window), GTK_TYPE_BUTTON, "_Show"),
                         "clicked");
  wb_desk_driver_wait_for_job (f->window, "j-1");
  wb_test_wait_until (has_dialog, f);
  answer (find_dialog (f), "_Keep Mine");
  wb_test_flush (model);
  g_assert_false (shows_unstored (f->window));
}

/* --- books ------------------------------------------------------------------------------------ */

static gboolean
shows_start (gpointer window)
{
  GtkWidget *page = wb_test_find (window, ADW_TYPE_STATUS_PAGE, "No Office Book Is Open");

  return page != NULL && gtk_widget_get_mapped (page);
}

static void
test_no_book (Fixture       *f,
              gconstpointer  data)
{
  g_autofree char *path = g_build_filename (f->book->folder, "letter.txt", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  GFile *files[] = { file };
  g_autoptr (GError) error = NULL;
  WbWindow *window;
  GtkWindow *dialog;

  g_file_set_contents (path, "Dear Sir or Madam", -1, &error);
  g_assert_no_error (error);
  g_application_open (G_APPLICATION (f->app), files, 1, "");
  window = WB_WINDOW (gtk_application_get_active_window (GTK_APPLICATION (f->app)));
  wb_test_wait_until (has_dialog, f);
  dialog = find_dialog (f);
  g_assert_nonnull (strstr (adw_message_dialog_get_body (ADW_MESSAGE_DIALOG (dialog)),
                            "not an office book"));
  g_assert_nonnull (strstr (adw_message_dialog_get_body (ADW_MESSAGE_DIALOG (dialog)), path));
  g_assert_true (shows_start (window));
  gtk_window_close (dialog);
  wb_test_settle ();
}

static gboolean
has_book (gpointer window)
{
  return wb_window_get_open_jobs (window) != NULL;
}

static void
test_last_book (Fixture       *f,
                gconstpointer  data)
{
  g_autoptr (GSettings) settings = g_settings_new (WB_APP_ID);
  g_autofree char *last = g_settings_get_string (settings, "last-book");
  WbWindow *window;

  g_assert_cmpstr (last, ==, f->book->path);
  wb_desk_driver_quit (f->app);

  g_application_activate (G_APPLICATION (f->app));
  window = WB_WINDOW (gtk_application_get_active_window (GTK_APPLICATION (f->app)));
  f->window = window;
  /* What shows a book is made with the first one. */
  wb_test_wait_until (has_book, window);
  wb_test_wait_until (has_three_jobs, get_list (f));

  /* Activating once more shows the same window. */
  g_application_activate (G_APPLICATION (f->app));
  g_assert_true (has_one_window (f->app));
}

static void
test_new_book (Fixture       *f,
               gconstpointer  data)
{
  g_autofree char *path = g_build_filename (f->book->folder, "second.wainbook", NULL);
  WbWindow *window = wb_window_new (GTK_APPLICATION (f->app));

  g_assert_true (shows_start (window) || !gtk_widget_get_mapped (GTK_WIDGET (window)));
  gtk_window_present (GTK_WINDOW (window));
  wb_application_open_book (f->app, path, WB_BOOK_CREATE, window);
  while (wb_window_get_open_jobs (window) == NULL)
    g_main_context_iteration (NULL, TRUE);
  g_assert_true (g_file_test (path, G_FILE_TEST_EXISTS));
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (window)), ==, "second.wainbook");
}

/* --- help and keys ---------------------------------------------------------------------------- */

static void
assert_help (WbWindow   *window,
             const char *topic)
{
  g_autofree char *name = g_strconcat (topic, ".page", NULL);
  g_autofree char *page = g_test_build_filename (G_TEST_DIST, "..", "help", "C", name, NULL);

  g_assert_cmpstr (wb_window_get_help_topic (window), ==, topic);
  g_assert_true (g_file_test (page, G_FILE_TEST_EXISTS));
}

static gboolean
has_jobs (gpointer window)
{
  return wb_window_get_open_jobs (window) != NULL;
}

/* A file that is opened twice, before the first time has come to an end, is one book. */
static void
test_book_twice (Fixture       *f,
                 gconstpointer  data)
{
  g_autofree char *path = g_build_filename (f->book->folder, "twice.wainbook", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbOffice) office = wb_office_open (path, WB_BOOK_CREATE, NULL, &error);
  WbWindow *windows[2];

  g_assert_no_error (error);
  wb_office_close (office);
  for (gsize i = 0; i < G_N_ELEMENTS (windows); i++)
    {
      windows[i] = wb_window_new (GTK_APPLICATION (f->app));
      wb_application_open_book (f->app, path, WB_BOOK_OPEN, windows[i]);
      gtk_window_present (GTK_WINDOW (windows[i]));
    }
  for (gsize i = 0; i < G_N_ELEMENTS (windows); i++)
    wb_test_wait_until (has_jobs, windows[i]);
  g_assert_true (wb_window_get_open_jobs (windows[0]) == wb_window_get_open_jobs (windows[1]));
}

/* A job from elsewhere may have no number yet. */
static void
test_row_without_number (Fixture       *f,
                         gconstpointer  data)
{
  WbJobSummary summary = { .id = (char *) "job-9", .shipper = (char *) "Ada Brook" };
  g_autoptr (WbJobItem) item = NULL;
  GtkWidget *row;

  g_date_set_dmy (&summary.pickup, 7, 10, 2026);
  item = wb_job_item_new (&summary);
  row = g_object_ref_sink (g_object_new (WB_TYPE_JOB_ROW, "item", item, NULL));
  g_assert_nonnull (wb_test_find (row, GTK_TYPE_LABEL, "pick-up 7 Oct 2026"));
  g_object_unref (row);
}

static void
test_help (Fixture       *f,
           gconstpointer  data)
{
  static const char *const pages[] = { "order", "valuation", "claim" };
  WbWindow *empty = wb_window_new (GTK_APPLICATION (f->app));

  assert_help (empty, "book");
  gtk_window_destroy (GTK_WINDOW (empty));
  assert_help (f->window, "job-search");

  wb_desk_driver_open_job (f->window, "j-1");
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      wb_job_page_show (wb_window_get_job_page (f->window), pages[i]);
      assert_help (f->window, pages[i]);
    }
  type (f, "{ctrl+f}");
  assert_help (f->window, "job-search");
}

static gboolean
has_key_list (gpointer f)
{
  return find_toplevel (ADW_TYPE_PREFERENCES_WINDOW) != NULL;
}

static void
test_keys (Fixture       *f,
           gconstpointer  data)
{
  GtkWindow *list;

  type (f, "{ctrl+question}");
  wb_test_wait_until (has_key_list, f);
  list = find_toplevel (ADW_TYPE_PREFERENCES_WINDOW);
  g_assert_nonnull (wb_test_find (GTK_WIDGET (list), ADW_TYPE_ACTION_ROW, "Find a job"));
  g_assert_nonnull (wb_test_find (GTK_WIDGET (list), ADW_TYPE_ACTION_ROW, "Add a party"));
  wb_test_wait_until_drawn (GTK_WIDGET (list));
  wb_test_save_picture (GTK_WIDGET (list), "desk-keys");
  gtk_window_close (list);
}

#define ADD(path, func) g_test_add ("/desk/window/" path, Fixture, NULL, set_up, func, tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

  ADD ("search", test_search);
  ADD ("open-by-search", test_open_by_search);
  ADD ("pages", test_pages);
  ADD ("list-follows", test_list_follows);
  ADD ("order/new-job", test_new_job);
  ADD ("order/new-job-after-search", test_new_job_after_search);
  ADD ("order/edit", test_edit_order);
  ADD ("order/undo", test_undo);
  ADD ("order/move-and-remove", test_move_and_remove);
  ADD ("order/missing", test_missing);
  ADD ("order/advice", test_advice);
  ADD ("order/weight", test_weight);
  ADD ("close/second-window", test_second_window);
  ADD ("close/fails", test_close_fails);
  ADD ("conflict/keep", test_conflict);
  ADD ("conflict/two-windows", test_conflict_in_two_windows);
  ADD ("conflict/out-of-sight", test_conflict_out_of_sight);
  ADD ("book/none", test_no_book);
  ADD ("book/last", test_last_book);
  ADD ("book/new", test_new_book);
  ADD ("book/twice", test_book_twice);
  ADD ("row/without-number", test_row_without_number);
  ADD ("help", test_help);
  ADD ("keys", test_keys);

  return g_test_run ();
}
