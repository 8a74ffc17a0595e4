/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two versions of a job merged in the window, by keyboard:
 *
 *   H, T           the choice is made and the next one has the focus
 *   Enter          on the line below: what is taken without asking is listed
 *   Ctrl+Enter     the merged job, once all is decided
 *
 * The one argument says which look it is, for the names of the pictures. */
#include "config.h"

#include "desk/share/wb-merge-row.h"
#include "desk/share/wb-merge-window.h"
#include "job-fixture.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

static const char *look;

typedef struct
{
  WbJob     *base;
  WbJob     *mine;
  WbJob     *theirs;
  GtkWidget *window;   /* (weak) (nullable) */
  WbJob     *merged;   /* (nullable): what the window gave */
} Fixture;

static void
set_up (Fixture       *f,
        gconstpointer  data)
{
  f->base = job_fixture_new ();
  job_fixture_put (&f->base, WB_KIND_LOT, "lot", "colour", "blue", "number", "204", NULL);
  job_fixture_put (&f->base, WB_KIND_PIECE, "table", "lot", "lot", "tag", "17", "description",
                   "Dining table", "room", "Hall", NULL);
  job_fixture_put (&f->base, WB_KIND_PIECE, "lamp", "lot", "lot", "tag", "18", "description",
                   "Lamp", NULL);
  job_fixture_put (&f->base, WB_KIND_CLAIM, "c", "number", "C-1", NULL);
  job_fixture_put (&f->base, WB_KIND_CLAIM_LINE, "l", "claim", "c", "number", "1", "piece", "table",
                   NULL);
  f->mine = wb_job_ref (f->base);
  f->theirs = wb_job_ref (f->base);
}

/* Three choices: a room, a verdict with its reason, two lines with one number; and what each side
 * did alone. */
static void
part_versions (Fixture *f)
{
  g_autoptr (WbJob) with_order = NULL;

  job_fixture_put (&f->mine, WB_KIND_PIECE, "table", "room", "Kitchen", NULL);
  job_fixture_put (&f->theirs, WB_KIND_PIECE, "table", "room", "Attic", NULL);
  job_fixture_put (&f->mine, WB_KIND_CLAIM_LINE, "l", "verdict", "new", "verdict_reason",
                   "Not on the list of marks at origin", NULL);
  job_fixture_put (&f->theirs, WB_KIND_CLAIM_LINE, "l", "verdict", "already-there",
                   "verdict_reason", "Scratched top was noted at the pick-up", NULL);
  job_fixture_put (&f->mine, WB_KIND_CLAIM_LINE, "n1", "claim", "c", "number", "2", "item", "Vase",
                   NULL);
  job_fixture_put (&f->theirs, WB_KIND_CLAIM_LINE, "n2", "claim", "c", "number", "2", "item",
                   "Rug", NULL);
  job_fixture_put (&f->mine, WB_KIND_PIECE, "lamp", "weight", "12 lb", NULL);
  job_fixture_put (&f->theirs, WB_KIND_STOP, "s", "kind", "delivery", "city", "Tulsa", NULL);
}

static void
tear_down (Fixture       *f,
           gconstpointer  data)
{
  if (f->window != NULL)
    gtk_window_destroy (GTK_WINDOW (f->window));
  g_clear_weak_pointer (&f->window);
  wb_job_unref (f->base);
  wb_job_unref (f->mine);
  wb_job_unref (f->theirs);
  g_clear_pointer (&f->merged, wb_job_unref);
}

/* Returns: (nullable): the dialog that asks something. */
static GtkWidget *
find_question (void)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();

  for (GList *at = windows; at != NULL; at = at->next)
    if (ADW_IS_MESSAGE_DIALOG (at->data) && gtk_widget_get_visible (at->data))
      return at->data;
  return NULL;
}

static void
merged_cb (Fixture *f,
           WbJob   *job)
{
  g_assert_null (f->merged);
  f->merged = wb_job_ref (job);
}

static gboolean
is_compared (gpointer window)
{
  GtkWidget *stack = wb_test_find (window, GTK_TYPE_STACK, NULL);

  return !g_str_equal (gtk_stack_get_visible_child_name (GTK_STACK (stack)), "waiting");
}

static void
open_window (Fixture *f)
{
  g_set_weak_pointer (&f->window,
                      wb_merge_window_new (f->base, f->mine, f->theirs,
                                           "What is there was published by Ann Oakes on 3 Mar."));
  g_signal_connect_swapped (f->window, "merged", G_CALLBACK (merged_cb), f);
  gtk_window_present (GTK_WINDOW (f->window));
  wb_test_wait_until (is_compared, f->window);
  wb_test_wait_until_drawn (f->window);
}

static GtkSelectionModel *
get_model (Fixture *f)
{
  return gtk_list_view_get_model (GTK_LIST_VIEW (wb_test_find (f->window, GTK_TYPE_LIST_VIEW,
                                                               NULL)));
}

static guint
get_place (Fixture *f)
{
  return gtk_single_selection_get_selected (GTK_SINGLE_SELECTION (get_model (f)));
}

static const char *
get_state (Fixture *f)
{
  GtkWidget *title = wb_test_find (f->window, ADW_TYPE_WINDOW_TITLE, NULL);

  return adw_window_title_get_subtitle (ADW_WINDOW_TITLE (title));
}

static gboolean
can_merge (Fixture *f)
{
  return gtk_widget_get_sensitive (wb_test_find (f->window, GTK_TYPE_BUTTON, "Merge"));
}

/* Whether the focus is on the row of the chosen entry. */
static gboolean
has_focus_on_choice (gpointer data)
{
  Fixture *f = data;
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (f->window));
  GtkWidget *row = focus != NULL ? gtk_widget_get_first_child (focus) : NULL;
  g_autoptr (WbMergeEntry) entry = g_list_model_get_item (G_LIST_MODEL (get_model (f)),
                                                          get_place (f));
  g_autofree char *title = wb_merge_entry_get_title (entry);

  return WB_IS_MERGE_ROW (row) && wb_test_find (row, GTK_TYPE_LABEL, title) != NULL;
}

static char *
text_of (const WbJob *job,
         WbKind       kind,
         const char  *id,
         const char  *field)
{
  const WbRecord *record = wb_job_find (job, kind, id);

  g_assert_nonnull (record);
  return wb_record_get_text (record, wb_record_type_field (record->type, field));
}

static void
save_picture (Fixture    *f,
              const char *what)
{
  g_autofree char *name = g_strdup_printf ("merge-%s-%s", what, look);

  wb_test_wait_until_drawn (f->window);
  wb_test_save_picture (f->window, name);
}

static void
press (Fixture    *f,
       const char *button)
{
  g_signal_emit_by_name (wb_test_find (f->window, GTK_TYPE_BUTTON, button), "clicked");
}

static gboolean
is_closed (gpointer data)
{
  return ((Fixture *) data)->window == NULL;
}

/* --- cases ------------------------------------------------------------------------------------ */

static void
test_keys (Fixture       *f,
           gconstpointer  data)
{
  g_autofree char *room = NULL, *verdict = NULL, *reason = NULL, *weight = NULL;

  part_versions (f);
  open_window (f);
  g_assert_cmpstr (get_state (f), ==, "3 of 3 to be decided");
  g_assert_false (can_merge (f));
  wb_test_wait_until (has_focus_on_choice, f);
  save_picture (f, "open");

  wb_test_type (f->window, "{ctrl+Return}h");
  g_assert_null (f->merged);
  g_assert_cmpuint (get_place (f), ==, 1);
  wb_test_wait_until (has_focus_on_choice, f);
  g_assert_cmpstr (get_state (f), ==, "2 of 3 to be decided");
  wb_test_type (f->window, "t");
  g_assert_cmpuint (get_place (f), ==, 2);
  g_assert_false (can_merge (f));
  wb_test_wait_until (has_focus_on_choice, f);

  /* One may change one's mind, and come back with N. */
  wb_test_type (f->window, "{Up}{Up}t");
  g_assert_cmpuint (get_place (f), ==, 2);
  wb_test_wait_until (has_focus_on_choice, f);
  wb_test_type (f->window, "{Up}n");
  g_assert_cmpuint (get_place (f), ==, 2);
  wb_test_wait_until (has_focus_on_choice, f);
  wb_test_type (f->window, "h");
  g_assert_cmpstr (get_state (f), ==, "All is decided");
  wb_test_wait_until (has_focus_on_choice, f);
  g_assert_true (can_merge (f));
  wb_test_type (f->window, "{Down}\n");
  save_picture (f, "decided");
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (get_model (f))), >=, 6);

  wb_test_type (f->window, "{ctrl+Return}");
  wb_test_wait_until (is_closed, f);
  g_assert_nonnull (f->merged);
  room = text_of (f->merged, WB_KIND_PIECE, "table", "room");
  verdict = text_of (f->merged, WB_KIND_CLAIM_LINE, "l", "verdict");
  reason = text_of (f->merged, WB_KIND_CLAIM_LINE, "l", "verdict_reason");
  weight = text_of (f->merged, WB_KIND_PIECE, "lamp", "weight");
  g_assert_cmpstr (room, ==, "Attic");
  g_assert_cmpstr (verdict, ==, "already-there");
  g_assert_cmpstr (reason, ==, "Scratched top was noted at the pick-up");
  g_assert_cmpstr (weight, ==, "12 lb");
  g_assert_cmpuint (wb_job_count (f->merged, WB_KIND_CLAIM_LINE), ==, 3);
  g_assert_nonnull (wb_job_find (f->merged, WB_KIND_STOP, "s"));
}

/* The pointer chooses by the buttons; all of one side at once by the two above the list. */
static void
test_buttons (Fixture       *f,
              gconstpointer  data)
{
  g_autofree char *room = NULL;
  GtkWidget *there;

  part_versions (f);
  open_window (f);
  there = wb_test_find (f->window, GTK_TYPE_CHECK_BUTTON, "There: Attic");
  g_assert_nonnull (there);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (there), TRUE);
  g_assert_cmpstr (get_state (f), ==, "2 of 3 to be decided");

  press (f, "All from Here");
  g_assert_cmpstr (get_state (f), ==, "All is decided");
  g_assert_false (gtk_check_button_get_active (GTK_CHECK_BUTTON (there)));
  press (f, "All from There");
  g_assert_true (gtk_check_button_get_active (GTK_CHECK_BUTTON (there)));
  gtk_widget_activate_action (f->window, "merge.apply", NULL);
  g_assert_nonnull (f->merged);
  room = text_of (f->merged, WB_KIND_PIECE, "table", "room");
  g_assert_cmpstr (room, ==, "Attic");
}

static gboolean
has_question (gpointer data)
{
  return find_question () != NULL;
}

/* One side as it is, after a question, whatever was chosen one by one. */
static void
test_whole (Fixture       *f,
            gconstpointer  data)
{
  part_versions (f);
  open_window (f);
  gtk_widget_activate_action (f->window, "merge.only-there", NULL);
  wb_test_wait_until (has_question, NULL);
  adw_message_dialog_response (ADW_MESSAGE_DIALOG (find_question ()), "cancel");
  g_assert_null (f->merged);

  gtk_widget_activate_action (f->window, "merge.all-here", NULL);
  gtk_widget_activate_action (f->window, "merge.only-there", NULL);
  wb_test_wait_until (has_question, NULL);
  adw_message_dialog_response (ADW_MESSAGE_DIALOG (find_question ()), "drop");
  g_assert_nonnull (f->merged);
  g_assert_true (wb_job_equal (f->merged, f->theirs));
  g_assert_cmpint (wb_merge_window_get_whole (WB_MERGE_WINDOW (f->window)), ==, WB_MERGE_THEIRS);
  wb_test_wait_until (is_closed, f);
}

static void
test_nothing_to_decide (Fixture       *f,
                        gconstpointer  data)
{
  job_fixture_put (&f->mine, WB_KIND_PIECE, "table", "room", "Kitchen", NULL);
  open_window (f);
  g_assert_cmpstr (get_state (f), ==, "Nothing has to be decided");
  g_assert_true (can_merge (f));
  wb_test_type (f->window, "\n");
  g_assert_nonnull (wb_test_find (f->window, GTK_TYPE_LABEL, "Hall → Kitchen"));
  wb_test_type (f->window, "{Escape}");
  wb_test_wait_until (is_closed, f);
  g_assert_null (f->merged);
}

static void
test_refused (Fixture       *f,
              gconstpointer  data)
{
  WbJob *other = wb_job_with_id (f->theirs, "another");

  wb_job_unref (f->theirs);
  f->theirs = other;
  open_window (f);
  g_assert_nonnull (wb_test_find (f->window, GTK_TYPE_LABEL, "These Cannot Be Merged"));
  g_assert_false (can_merge (f));
  wb_test_type (f->window, "h{ctrl+Return}");
  g_assert_null (f->merged);
}

static guint
count_rows (GtkWidget *widget)
{
  guint n = WB_IS_MERGE_ROW (widget) ? 1 : 0;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += count_rows (child);
  return n;
}

/* Thousands of differences are a few hundred rows at any time. */
static void
test_many (Fixture       *f,
           gconstpointer  data)
{
  gint64 start;
  guint n = 3000;

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("p%u", i);
      WbPiece *piece = wb_record_new (WB_KIND_PIECE, id);
      g_autoptr (GPtrArray) mine = g_ptr_array_new_with_free_func (wb_record_unref);

      wb_set_text (&piece->description, "Carton");
      g_ptr_array_add (mine, piece);
      wb_job_unref (f->base);
      f->base = wb_job_with_many (f->mine, mine);
      wb_job_unref (f->mine);
      f->mine = wb_job_ref (f->base);
    }
  wb_job_unref (f->theirs);
  f->theirs = wb_job_ref (f->base);
  for (int side = 0; side < 2; side++)
    {
      WbJob **job = side == 0 ? &f->mine : &f->theirs;
      g_autoptr (GPtrArray) changed = g_ptr_array_new_with_free_func (wb_record_unref);
      WbJob *next;

      for (guint i = 0; i < n; i++)
        {
          g_autofree char *id = g_strdup_printf ("p%u", i);
          WbPiece *piece = wb_record_copy (wb_job_find (f->base, WB_KIND_PIECE, id));

          wb_set_text (&piece->room, side == 0 ? "Hall" : "Attic");
          g_ptr_array_add (changed, piece);
        }
      next = wb_job_with_many (*job, changed);
      wb_job_unref (*job);
      *job = next;
    }
  start = g_get_monotonic_time ();
  open_window (f);
  g_test_message ("%u choices shown after %" G_GINT64_FORMAT " ms", n,
                  (g_get_monotonic_time () - start) / 1000);
  g_assert_cmpstr (get_state (f), ==, "3000 of 3000 to be decided");
  g_assert_cmpuint (count_rows (f->window), <, 500);
  start = g_get_monotonic_time ();
  wb_test_type (f->window, "h");
  g_test_message ("one chosen after %" G_GINT64_FORMAT " ms",
                  (g_get_monotonic_time () - start) / 1000);
  g_assert_cmpstr (get_state (f), ==, "2999 of 3000 to be decided");
  start = g_get_monotonic_time ();
  press (f, "All from There");
  g_test_message ("all chosen after %" G_GINT64_FORMAT " ms",
                  (g_get_monotonic_time () - start) / 1000);
  start = g_get_monotonic_time ();
  gtk_widget_activate_action (f->window, "merge.apply", NULL);
  g_test_message ("merged after %" G_GINT64_FORMAT " ms",
                  (g_get_monotonic_time () - start) / 1000);
  g_assert_true (wb_job_equal (f->merged, f->theirs));
}

#define ADD(path, function) \
  g_test_add ("/desk/merge-window/" path, Fixture, NULL, set_up, function, tear_down)

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  adw_init ();
  wb_test_load_style ();
  look = argc > 1 ? argv[1] : "plain";
  ADD ("keys", test_keys);
  ADD ("buttons", test_buttons);
  ADD ("whole", test_whole);
  ADD ("nothing-to-decide", test_nothing_to_decide);
  ADD ("refused", test_refused);
  ADD ("many", test_many);
  return g_test_run ();
}
