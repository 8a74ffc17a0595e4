/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who bears a claim, on the claim page: what is shown is what core shares out, a split by hand is
 * one step with its reason, charges are stated, followed and held against the shares. */
#include "config.h"

#include <adwaita.h>

#include "core/wb-charge.h"
#include "desk/claim/wb-bearing-box.h"
#include "desk/claim/wb-bearing-handlers.h"
#include "desk/claim/wb-bearing-table.h"
#include "desk/claim/wb-claim-page.h"
#include "desk/claim/wb-split-window.h"
#include "desk/claim/wb-statement-window.h"
#include "desk/claim/wb-why-button.h"
#include "desk/support/desk-fixture.h"
#include "office/wb-charge-statement.h"
#include "office/wb-words-bearing.h"
#include "support/wb-test-window.h"

#include <string.h>

/* --- the claim -------------------------------------------------------------------------------- */

/* A crew took the goods over, a hauler with a limit of 200.00 delivered them; nobody counted in
 * between. */
static GtkWidget *
present_claim (DeskFixture *fixture)
{
  GtkWidget *page;

  desk_fixture_add_move (fixture);
  desk_fixture_put (fixture, WB_KIND_PARTY, "carrier", "role", "carrier", "company",
                    "Granary Movers", NULL);
  desk_fixture_put (fixture, WB_KIND_PARTY, "hauler", "role", "hauler", "company", "Ada Pike",
                    "claim_limit", "200", NULL);
  desk_fixture_put (fixture, WB_KIND_HANDOVER, "h1", "to_holder", "Crew of Hal Moss", NULL);
  desk_fixture_put (fixture, WB_KIND_HANDOVER, "h2", "from_holder", "Ada Pike", NULL);
  desk_fixture_add_claim (fixture);
  page = wb_claim_page_new (fixture->model);
  desk_fixture_present (fixture, page, 1180, 3000);
  return page;
}

static WbApportionment *
apportion (DeskFixture *fixture)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbReckoning) reckoning = wb_office_reckon (fixture->office,
                                                        wb_job_model_get_job (fixture->model), "c1",
                                                        &error);
  WbApportionment *shares;

  g_assert_no_error (error);
  shares = wb_apportion (reckoning, WB_APPORTION_LAST, &error);
  g_assert_no_error (error);
  return shares;
}

static GtkWidget *
find_first (GtkWidget *root,
            GType      type)
{
  g_autoptr (GPtrArray) found = desk_find_all (root, type);

  g_assert_cmpuint (found->len, >, 0);
  return g_ptr_array_index (found, 0);
}

/* The window of @type that was opened last. */
static GtkWidget *
find_window (DeskFixture *fixture,
             GType        type)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);

      if (g_type_is_a (G_OBJECT_TYPE (window), type))
        {
          wb_test_wait_until_drawn (window);
          return window;
        }
    }
  g_error ("there is no window of type %s", g_type_name (type));
}

static gboolean
has_label_with (GtkWidget  *root,
                const char *words)
{
  g_autoptr (GPtrArray) labels = desk_find_all (root, GTK_TYPE_LABEL);

  for (guint i = 0; i < labels->len; i++)
    if (strstr (gtk_label_get_text (g_ptr_array_index (labels, i)), words) != NULL)
      return TRUE;
  return FALSE;
}

/* --- what is shown ---------------------------------------------------------------------------- */

static gboolean
shows (const GPtrArray *buttons,
       const char      *text)
{
  for (guint i = 0; i < buttons->len; i++)
    if (g_str_equal (wb_answer_button_get_text (g_ptr_array_index (buttons, i)), text))
      return TRUE;
  return FALSE;
}

static void
assert_shown (DeskFixture *fixture,
              GtkWidget   *page)
{
  g_autoptr (WbApportionment) shares = apportion (fixture);
  GtkWidget *table = find_first (page, WB_TYPE_BEARING_TABLE);
  g_autoptr (GPtrArray) sums = desk_find_all (find_first (page, WB_TYPE_BEARING_HANDLERS),
                                              WB_TYPE_WHY_BUTTON);
  g_autoptr (GPtrArray) whys = desk_find_all (table, WB_TYPE_WHY_BUTTON);

  for (guint i = 0; i < shares->n_handlers; i++)
    {
      g_autofree char *borne = wb_words_minor (shares->handlers[i].borne, "USD");
      g_autofree char *over = wb_words_over_limit (shares, i);

      if (shares->handlers[i].borne > 0)
        g_assert_true (shows (sums, borne));
      if (over != NULL)
        g_assert_nonnull (desk_find_label (page, over));
    }
  g_assert_cmpuint (whys->len, ==, shares->n_lines);
  for (guint i = 0; i < shares->n_lines; i++)
    {
      g_autofree char *words = wb_words_shared (shares, i);

      g_assert_nonnull (strstr (wb_why_button_get_why (g_ptr_array_index (whys, i)), words));
      if (shares->lines[i].owed > 0)
        {
          g_autofree char *bearers = wb_words_bearers (shares, i);
          g_autofree char *owed = wb_words_minor (shares->lines[i].owed, "USD");

          g_assert_nonnull (desk_find_label (table, bearers));
          g_assert_nonnull (desk_find_label (table, owed));
        }
    }
}

static void
test_shown (DeskFixture   *fixture,
            gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  g_autoptr (WbApportionment) shares = apportion (fixture);
  g_autofree char *unassigned = wb_words_unassigned (shares);
  gint hauler = wb_apportionment_find (shares, "Ada Pike");

  g_assert_cmpint (shares->handlers[hauler].borne, ==, 20000);
  g_assert_cmpint (shares->handlers[hauler].excess, >, 0);
  g_assert_nonnull (unassigned);
  g_assert_true (has_label_with (page, unassigned));
  assert_shown (fixture, page);
  /* A line whose figure is missing is not shared out, and says so. */
  g_assert_true (has_label_with (page, "Not reckoned yet"));
  wb_test_save_picture (fixture->window, "bearing");

  desk_fixture_put (fixture, WB_KIND_PARTY, "hauler", "claim_limit", "", NULL);
  desk_fixture_put (fixture, WB_KIND_CLAIM_LINE, "l3", "replacement", "140", NULL);
  desk_fixture_settle (fixture);
  assert_shown (fixture, page);
  g_assert_false (has_label_with (page, "Not reckoned yet"));
}

/* The answer to "why?" opens and names who could have done it. */
static void
test_why (DeskFixture   *fixture,
          gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  g_autoptr (GPtrArray) whys = desk_find_all (find_first (page, WB_TYPE_BEARING_TABLE),
                                              WB_TYPE_WHY_BUTTON);
  GtkWidget *popover;

  wb_answer_button_explain (g_ptr_array_index (whys, 0));
  wb_test_settle ();
  popover = find_first (g_ptr_array_index (whys, 0), GTK_TYPE_POPOVER);
  wb_test_wait_until_drawn (popover);
  g_assert_true (has_label_with (popover, "Crew of Hal Moss"));
  g_assert_true (has_label_with (popover, "Ada Pike"));
  gtk_popover_popdown (GTK_POPOVER (popover));
  wb_test_settle ();
}

/* --- splitting by hand ------------------------------------------------------------------------ */

static void
type_percent (GtkWidget  *window,
              const char *handler,
              const char *text)
{
  g_autofree char *name = g_strdup_printf ("Percentage of %s", handler);
  GtkWidget *entry = wb_test_find (window, GTK_TYPE_ENTRY, name);

  g_assert_nonnull (entry);
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
}

static GtkWidget *
open_split (DeskFixture *fixture,
            GtkWidget   *page)
{
  gtk_widget_activate_action (page, "claim.split-line", NULL);
  return find_window (fixture, WB_TYPE_SPLIT_WINDOW);
}

static GtkEditable *
get_reason (GtkWidget *window)
{
  g_autoptr (GPtrArray) entries = desk_find_all (window, GTK_TYPE_ENTRY);

  /* It stands below the percentages. */
  return GTK_EDITABLE (g_ptr_array_index (entries, entries->len - 1));
}

static guint
count_shares (DeskFixture *fixture)
{
  return wb_job_count (wb_job_model_get_job (fixture->model), WB_KIND_SHARE);
}

static void
test_split (DeskFixture   *fixture,
            gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  GtkWidget *window = open_split (fixture, page);
  g_autoptr (WbApportionment) shares = NULL;
  const WbShare *share;

  type_percent (window, "Crew of Hal Moss", "30");
  type_percent (window, "Ada Pike", "60 %");
  gtk_widget_activate_action (window, "split.set", NULL);
  g_assert_true (has_label_with (window, "The parts come to 90 %. They have to come to 100 %."));
  type_percent (window, "Crew of Hal Moss", "a third");
  g_assert_true (has_label_with (window, "“a third” for Crew of Hal Moss is no percentage"));
  type_percent (window, "Crew of Hal Moss", "40");
  g_assert_true (has_label_with (window, "Write the reason."));
  gtk_widget_activate_action (window, "split.set", NULL);
  g_assert_true (gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (window)),
                                         GTK_WIDGET (get_reason (window))));
  g_assert_cmpuint (count_shares (fixture), ==, 0);
  wb_test_settle ();
  wb_test_wait_until_drawn (window);
  wb_test_save_picture (window, "bearing-split");

  gtk_editable_set_text (get_reason (window), "Agreed with both");
  gtk_widget_activate_action (window, "split.set", NULL);
  desk_fixture_settle (fixture);
  g_assert_cmpuint (count_shares (fixture), ==, 2);
  share = wb_job_nth (wb_job_model_get_job (fixture->model), WB_KIND_SHARE, 0);
  g_assert_cmpstr (share->claim_line, ==, "l1");
  g_assert_cmpstr (share->reason, ==, "Agreed with both");
  shares = apportion (fixture);
  g_assert_cmpint (shares->lines[0].why, ==, WB_SHARED_BY_HAND);
  assert_shown (fixture, page);

  /* One deed is one step. */
  wb_job_model_undo (fixture->model);
  desk_fixture_settle (fixture);
  g_assert_cmpuint (count_shares (fixture), ==, 0);
  assert_shown (fixture, page);
  wb_job_model_redo (fixture->model);
  desk_fixture_settle (fixture);
  g_assert_cmpuint (count_shares (fixture), ==, 2);

  window = open_split (fixture, page);
  g_assert_cmpstr (gtk_editable_get_text (get_reason (window)), ==, "Agreed with both");
  gtk_widget_activate_action (window, "split.by-rule", NULL);
  desk_fixture_settle (fixture);
  g_assert_cmpuint (count_shares (fixture), ==, 0);
  assert_shown (fixture, page);
}

/* Equal parts for those that could have done it, whatever does not divide included. */
static void
test_equal (DeskFixture   *fixture,
            gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  GtkWidget *window = open_split (fixture, page);

  gtk_widget_activate_action (window, "split.equal", NULL);
  g_assert_nonnull (desk_find_label (window, "Together: 100 % of 100 %"));
  gtk_editable_set_text (get_reason (window), "Nobody knows");
  gtk_widget_activate_action (window, "split.set", NULL);
  desk_fixture_settle (fixture);
  g_assert_cmpuint (count_shares (fixture), ==, 2);
  assert_shown (fixture, page);
}

/* --- charges ---------------------------------------------------------------------------------- */

static void
test_charges (DeskFixture   *fixture,
              gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  const WbHandlerCharge *charge;
  g_autofree char *id = NULL;

  g_assert_true (has_label_with (page, "Nothing was charged to anybody yet."));
  gtk_widget_activate_action (page, "claim.state-charges", NULL);
  desk_fixture_settle (fixture);
  g_assert_cmpuint (wb_job_count (wb_job_model_get_job (fixture->model), WB_KIND_CHARGE), ==, 1);
  charge = wb_job_nth (wb_job_model_get_job (fixture->model), WB_KIND_CHARGE, 0);
  id = g_strdup (charge->record.id);
  g_assert_cmpstr (charge->handler, ==, "Ada Pike");
  g_assert_cmpint (charge->amount.minor, ==, 20000);
  g_assert_true (wb_date_is_set (&charge->stated_on));
  g_assert_nonnull (strstr (charge->statement, "You bear $200.00 in all."));
  g_assert_true (has_label_with (page, "Charged $200.00, came back $0.00, still open $200.00."));
  wb_job_model_undo (fixture->model);
  g_assert_cmpuint (wb_job_count (wb_job_model_get_job (fixture->model), WB_KIND_CHARGE), ==, 0);
  wb_job_model_redo (fixture->model);

  desk_fixture_put (fixture, WB_KIND_CHARGE, id, "recovered", "150", "recovered_on", "2026-07-01",
                    NULL);
  desk_fixture_settle (fixture);
  g_assert_true (has_label_with (page, "Charged $200.00, came back $150.00, still open $50.00."));

  /* Its agreement is another: what was stated no longer agrees, until it is stated again. */
  desk_fixture_put (fixture, WB_KIND_PARTY, "hauler", "claim_limit", "220", NULL);
  desk_fixture_settle (fixture);
  g_assert_true (has_label_with (page, "it now bears $220.00, $20.00 more"));
  wb_test_save_picture (fixture->window, "bearing-charges");
  gtk_widget_activate_action (page, "claim.state-charges", NULL);
  desk_fixture_settle (fixture);
  g_assert_false (has_label_with (page, "it now bears"));
  g_assert_true (has_label_with (page, "Charged $220.00, came back $150.00, still open $70.00."));
}

static void
text_read_cb (GObject      *source,
              GAsyncResult *result,
              gpointer      data)
{
  g_autoptr (GError) error = NULL;

  *(char **) data = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (source), result, &error);
  g_assert_no_error (error);
}

static gboolean
is_set (gpointer data)
{
  return *(gpointer *) data != NULL;
}

/* The statement can be read and copied: as it would be made out, then as it was. */
static void
test_statements (DeskFixture   *fixture,
                 gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  GtkWidget *window;
  char *copied = NULL;

  gtk_widget_activate_action (page, "claim.show-statements", NULL);
  window = find_window (fixture, WB_TYPE_STATEMENT_WINDOW);
  g_assert_true (has_label_with (window, "Nothing was stated to it yet"));
  g_assert_nonnull (strstr (wb_statement_window_get_text (WB_STATEMENT_WINDOW (window)),
                            "Ada Pike"));
  gtk_window_destroy (GTK_WINDOW (window));

  gtk_widget_activate_action (page, "claim.state-charges", NULL);
  desk_fixture_settle (fixture);
  gtk_widget_activate_action (page, "claim.show-statements", NULL);
  window = find_window (fixture, WB_TYPE_STATEMENT_WINDOW);
  g_assert_true (has_label_with (window, "kept word for word"));
  gtk_widget_activate_action (window, "statement.copy", NULL);
  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (window), NULL, text_read_cb, &copied);
  wb_test_wait_until (is_set, &copied);
  g_assert_cmpstr (copied, ==, wb_statement_window_get_text (WB_STATEMENT_WINDOW (window)));
  g_free (copied);
  wb_test_wait_until_drawn (window);
  wb_test_save_picture (window, "bearing-statement");
  gtk_window_destroy (GTK_WINDOW (window));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

#define ADD(path, function) \
  g_test_add ("/desk/bearing/" path, DeskFixture, NULL, desk_fixture_set_up, function, \
              desk_fixture_tear_down)
  ADD ("shown", test_shown);
  ADD ("why", test_why);
  ADD ("split", test_split);
  ADD ("equal", test_equal);
  ADD ("charges", test_charges);
  ADD ("statements", test_statements);

  return g_test_run ();
}
