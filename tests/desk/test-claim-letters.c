/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window of letters: written as one types, sent with a key, and read again as it was sent. */
#include "config.h"

#include <adwaita.h>

#include "desk/claim/wb-letter-window.h"
#include "desk/support/desk-fixture.h"
#include "office/wb-letter-send.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

static GtkWidget *
present_letters (DeskFixture *fixture)
{
  GtkWidget *letters;

  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  desk_fixture_present (fixture, gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), 400, 300);
  letters = wb_letter_window_new (GTK_WINDOW (fixture->window), fixture->model, "c1");
  gtk_window_present (GTK_WINDOW (letters));
  wb_test_wait_until_drawn (letters);
  return letters;
}

static char *
get_text (GtkWidget *letters)
{
  GtkTextBuffer *buffer =
    gtk_text_view_get_buffer (GTK_TEXT_VIEW (wb_test_find (letters, GTK_TYPE_TEXT_VIEW, NULL)));
  GtkTextIter start, end;

  gtk_text_buffer_get_bounds (buffer, &start, &end);
  return gtk_text_buffer_get_text (buffer, &start, &end, FALSE);
}

static GtkDropDown *
get_choice (GtkWidget *letters)
{
  return GTK_DROP_DOWN (wb_test_find (letters, GTK_TYPE_DROP_DOWN, NULL));
}

static void
choose (GtkWidget    *letters,
        WbLetterKind  kind)
{
  gtk_drop_down_set_selected (get_choice (letters), (guint) kind);
  wb_test_settle ();
}

static const WbClaimStep *
get_step (DeskFixture *fixture)
{
  WbJob *job = wb_job_model_get_job (fixture->model);
  guint n = wb_job_count (job, WB_KIND_STEP);

  return n > 0 ? wb_job_nth (job, WB_KIND_STEP, n - 1) : NULL;
}

static gboolean
has_step (gpointer fixture)
{
  return get_step (fixture) != NULL;
}

static gboolean
is_enabled (GtkWidget *letters)
{
  GtkWidget *button = wb_test_find (letters, GTK_TYPE_BUTTON, "_Mark as Sent");

  g_assert_nonnull (button);
  return gtk_widget_is_sensitive (button);
}

/* --- cases ------------------------------------------------------------------------------------ */

/* The acknowledgement is what is due first; it is marked as sent with a key and one step of
 * undo. */
static void
test_send (DeskFixture   *fixture,
           gconstpointer  data)
{
  GtkWidget *letters = present_letters (fixture);
  g_autofree char *before = get_text (letters);
  g_autofree char *after = NULL;
  WbJob *job = wb_job_model_get_job (fixture->model);
  const WbClaim *claim;

  g_assert_cmpuint (gtk_drop_down_get_selected (get_choice (letters)), ==,
                    WB_LETTER_ACKNOWLEDGEMENT);
  g_assert_nonnull (strstr (before, "We received your claim on 1 Jun 2026"));
  wb_test_wait_until_drawn (letters);
  wb_test_save_picture (letters, "letter");
  wb_test_type (letters, "{ctrl+Return}");
  wb_test_wait_until (has_step, fixture);
  g_assert_cmpint (get_step (fixture)->kind, ==, WB_STEP_ACKNOWLEDGED);
  g_assert_nonnull (get_step (fixture)->letter);
  claim = wb_job_find (wb_job_model_get_job (fixture->model), WB_KIND_CLAIM, "c1");
  g_assert_true (wb_date_is_set (&claim->acknowledged_on));
  wb_test_settle ();

  /* What was sent is shown, and cannot be sent again. */
  g_assert_cmpuint (gtk_drop_down_get_selected (get_choice (letters)), ==, WB_N_LETTERS);
  after = get_text (letters);
  g_assert_cmpstr (after, ==, before);
  g_assert_false (is_enabled (letters));
  wb_test_wait_until_drawn (letters);
  wb_test_save_picture (letters, "letter-sent");

  wb_job_model_undo (fixture->model);
  g_assert_true (wb_job_model_get_job (fixture->model) == job);
  gtk_window_destroy (GTK_WINDOW (letters));
}

/* A status report lacks its reason until one is typed; the letter follows the keys. */
static void
test_reason (DeskFixture   *fixture,
             gconstpointer  data)
{
  GtkWidget *letters = present_letters (fixture);
  GtkWidget *remark = wb_test_find (letters, ADW_TYPE_ENTRY_ROW,
                                    "In your own words (the reason, of a status report)");
  g_autofree char *text = NULL;

  choose (letters, WB_LETTER_STATUS);
  g_assert_nonnull (desk_find_label (letters, "Write the reason why the claim is not decided yet; "
                                              "the report has to give it (49 CFR 370.9(a))."));
  g_assert_false (is_enabled (letters));
  gtk_widget_grab_focus (remark);
  wb_test_type (letters, "The repairer is ill.");
  text = get_text (letters);
  g_assert_nonnull (strstr (text, "The repairer is ill."));
  g_assert_true (is_enabled (letters));
  gtk_window_destroy (GTK_WINDOW (letters));
}

/* An offer lacks a figure, and no key sends it. */
static void
test_not_ready (DeskFixture   *fixture,
                gconstpointer  data)
{
  GtkWidget *letters = present_letters (fixture);

  choose (letters, WB_LETTER_OFFER);
  g_assert_false (is_enabled (letters));
  wb_test_type (letters, "{ctrl+Return}");
  wb_test_settle ();
  g_assert_null (get_step (fixture));
  wb_test_wait_until_drawn (letters);
  wb_test_save_picture (letters, "letter-not-ready");
  gtk_window_destroy (GTK_WINDOW (letters));
}

static void
test_bad_day (DeskFixture   *fixture,
              gconstpointer  data)
{
  GtkWidget *letters = present_letters (fixture);
  GtkWidget *day = wb_test_find (letters, ADW_TYPE_ENTRY_ROW, "Day of the letter");
  g_autofree char *text = NULL;

  gtk_editable_set_text (GTK_EDITABLE (day), "2026-13-01");
  wb_test_settle ();
  g_assert_true (gtk_widget_has_css_class (day, "error"));
  g_assert_false (is_enabled (letters));
  gtk_editable_set_text (GTK_EDITABLE (day), "2026-06-20");
  wb_test_settle ();
  text = get_text (letters);
  g_assert_nonnull (strstr (text, "20 Jun 2026"));
  g_assert_true (is_enabled (letters));
  gtk_window_destroy (GTK_WINDOW (letters));
}

static void
text_read_cb (GObject      *source,
              GAsyncResult *result,
              gpointer      data)
{
  *(char **) data = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (source), result, NULL);
}

static gboolean
is_set (gpointer data)
{
  return *(gpointer *) data != NULL;
}

static void
test_copy (DeskFixture   *fixture,
           gconstpointer  data)
{
  GtkWidget *letters = present_letters (fixture);
  g_autofree char *text = get_text (letters);
  g_autofree char *copied = NULL;

  wb_test_type (letters, "{ctrl+shift+c}");
  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (letters), NULL, text_read_cb, &copied);
  wb_test_wait_until (is_set, &copied);
  g_assert_cmpstr (copied, ==, text);
  gtk_window_destroy (GTK_WINDOW (letters));
}

#define ADD(path, function) \
  g_test_add ("/desk/claim-letters/" path, DeskFixture, NULL, desk_fixture_set_up, function, \
              desk_fixture_tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

  ADD ("send", test_send);
  ADD ("reason", test_reason);
  ADD ("not-ready", test_not_ready);
  ADD ("bad-day", test_bad_day);
  ADD ("copy", test_copy);

  return g_test_run ();
}
