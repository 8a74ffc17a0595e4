/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page of the papers: what is missing, the papers themselves, the contact log. How it goes to
 * other pages is tested in test-window.c. */
#include "config.h"

#include <adwaita.h>
#include <string.h>

#include "desk/papers/wb-papers-page.h"
#include "desk/records/wb-record-row.h"
#include "desk/support/desk-fixture.h"
#include "desk/widgets/wb-field-row.h"
#include "desk/widgets/wb-reveal.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

static GtkWidget *
present_page (DeskFixture *fixture)
{
  GtkWidget *page = wb_papers_page_new (fixture->model);

  desk_fixture_present (fixture, page, 1180, 900);
  return page;
}

static void
put_move (DeskFixture *fixture)
{
  desk_fixture_put (fixture, WB_KIND_ORDER, NULL, "move_type", "interstate", "stage", "inquiry",
                    "coordinator", "Noor Halvorsen", NULL);
  desk_fixture_put (fixture, WB_KIND_PARTY, "s", "role", "shipper", "name", "Wanda Quist", NULL);
}

/* Returns: (nullable): the visible row with @title. */
static GtkWidget *
find_row (GtkWidget  *page,
          const char *title)
{
  g_autoptr (GPtrArray) rows = desk_find_all (page, ADW_TYPE_PREFERENCES_ROW);

  for (guint i = 0; i < rows->len; i++)
    if (g_str_equal (adw_preferences_row_get_title (g_ptr_array_index (rows, i)), title))
      return g_ptr_array_index (rows, i);

  return NULL;
}

static GtkWidget *
get_field_of_focus (DeskFixture *fixture)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (fixture->window));

  return focus != NULL ? gtk_widget_get_ancestor (focus, WB_TYPE_FIELD_ROW) : NULL;
}

static void
assert_focus (DeskFixture *fixture,
              const char  *field)
{
  GtkWidget *row = get_field_of_focus (fixture);
  g_autofree char *name = NULL;

  g_assert_nonnull (row);
  g_object_get (row, "field", &name, NULL);
  g_assert_cmpstr (name, ==, field);
}

/* What is missing goes as it is filled in, and grows with the stage. */
static void
test_missing (DeskFixture   *fixture,
              gconstpointer  data)
{
  GtkWidget *page;

  put_move (fixture);
  page = present_page (fixture);
  g_assert_nonnull (desk_find_label (page, "5 things are missing for this stage"));
  g_assert_nonnull (find_row (page, "The survey, or why there is none"));
  g_assert_null (find_row (page, "The vehicle"));

  desk_fixture_put (fixture, WB_KIND_ORDER, NULL, "survey", "virtual", "survey_on", "2026-03-01",
                    NULL);
  desk_fixture_settle (fixture);
  g_assert_nonnull (desk_find_label (page, "4 things are missing for this stage"));
  g_assert_null (find_row (page, "The survey, or why there is none"));

  desk_fixture_put (fixture, WB_KIND_ORDER, NULL, "stage", "booked", NULL);
  desk_fixture_settle (fixture);
  g_assert_nonnull (find_row (page, "The vehicle"));
  g_assert_nonnull (desk_find_label (page, "Before loading · 49 CFR 375.505(b)(9), read in "
                                           "a copy"));

  /* Within a state other rules decide, and the page says so. */
  desk_fixture_put (fixture, WB_KIND_ORDER, NULL, "move_type", "intrastate", NULL);
  desk_fixture_settle (fixture);
  g_assert_null (find_row (page, "The summary of the arbitration programme"));
  g_assert_nonnull (find_row (page, "The state whose rules govern"));
  wb_test_wait_until_drawn (page);
  wb_test_save_picture (fixture->window, "papers-page-intrastate");
}

/* Every row leads somewhere. */
static void
test_targets (DeskFixture   *fixture,
              gconstpointer  data)
{
  g_autoptr (GPtrArray) rows = NULL;
  GtkWidget *page;
  guint n = 0;

  put_move (fixture);
  desk_fixture_put (fixture, WB_KIND_ORDER, NULL, "stage", "delivered", NULL);
  page = present_page (fixture);
  rows = desk_find_all (page, ADW_TYPE_ACTION_ROW);
  for (guint i = 0; i < rows->len; i++)
    {
      GtkWidget *row = g_ptr_array_index (rows, i);
      const char *action = gtk_actionable_get_action_name (GTK_ACTIONABLE (row));

      if (ADW_IS_EXPANDER_ROW (row) || action == NULL)
        continue;
      g_assert_true (gtk_list_box_row_get_activatable (GTK_LIST_BOX_ROW (row)));
      g_assert_true (g_str_equal (action, "job.reveal") || g_str_equal (action, "papers.add-kind"));
      n++;
    }
  g_assert_cmpuint (n, >, 30);
}

/* Enter on a missing paper adds it and goes on in it; undo takes it back. */
static void
test_add_kind (DeskFixture   *fixture,
               gconstpointer  data)
{
  GtkWidget *page;
  const WbPaper *paper;

  put_move (fixture);
  desk_fixture_put (fixture, WB_KIND_ORDER, NULL, "survey", "beyond", NULL);
  page = present_page (fixture);
  gtk_widget_grab_focus (page);
  wb_test_type (fixture->window, "\n");
  g_assert_cmpuint (wb_job_count (wb_job_model_get_job (fixture->model), WB_KIND_PAPER), ==, 1);
  paper = wb_job_nth (wb_job_model_get_job (fixture->model), WB_KIND_PAPER, 0);
  g_assert_cmpint (paper->kind, ==, WB_PAPER_BOOKLETS);
  assert_focus (fixture, "paper.given_on");

  wb_test_type (fixture->window, "2026-03-04\n");
  paper = wb_job_nth (wb_job_model_get_job (fixture->model), WB_KIND_PAPER, 0);
  g_assert_true (wb_date_is_set (&paper->given_on));

  wb_job_model_undo (fixture->model);
  wb_job_model_undo (fixture->model);
  g_assert_cmpuint (wb_job_count (wb_job_model_get_job (fixture->model), WB_KIND_PAPER), ==, 0);
}

/* A paper says until when it is kept, and follows what that hangs on. */
static void
test_keeping (DeskFixture   *fixture,
              gconstpointer  data)
{
  GtkWidget *page;

  put_move (fixture);
  desk_fixture_put (fixture, WB_KIND_PAPER, "i", "kind", "inventory", "number", "7", "made_on",
                    "2026-03-04", "signed_by", "Wanda Quist", "signed_on", "2026-03-05", NULL);
  page = present_page (fixture);
  g_assert_nonnull (find_row (page, "Inventory 7"));
  g_assert_nonnull (desk_find_label (page, "made 4 Mar 2026 · signed by Wanda Quist on 5 Mar 2026 "
                                           "· Keep until 4 Mar 2027"));

  g_assert_true (wb_reveal (page, WB_KIND_PAPER, "i", "signed_by"));
  assert_focus (fixture, "paper.signed_by");
  g_assert_nonnull (desk_find_label (page, "1 year from the day when it was made: 49 CFR "
                                           "375.503(e)"));

  desk_fixture_put (fixture, WB_KIND_CLAIM, "c", "number", "C-1", NULL);
  desk_fixture_settle (fixture);
  g_assert_nonnull (find_row (page, "Keep: a claim is not settled"));
}

/* A conversation is dated, with the shipper and by the coordinator; a time that is none is told. */
static void
test_contact (DeskFixture   *fixture,
              gconstpointer  data)
{
  GtkWidget *page, *row;
  const WbContact *contact;
  GDate today;
  gboolean invalid;

  put_move (fixture);
  page = present_page (fixture);
  gtk_widget_activate_action (page, "papers.add-contact", NULL);
  contact = wb_job_nth (wb_job_model_get_job (fixture->model), WB_KIND_CONTACT, 0);
  wb_office_today (&today);
  g_assert_cmpint (wb_date_compare (&contact->on, &today), ==, 0);
  g_assert_cmpuint (strlen (contact->at), ==, 5);
  g_assert_cmpstr (contact->who, ==, "Wanda Quist");
  g_assert_cmpstr (contact->by, ==, "Noor Halvorsen");
  desk_fixture_settle (fixture);
  assert_focus (fixture, "contact.on");

  g_assert_true (wb_reveal (page, WB_KIND_CONTACT, contact->record.id, "at"));
  row = get_field_of_focus (fixture);
  wb_test_type (fixture->window, "{ctrl+a}25:61\n");
  g_object_get (row, "invalid", &invalid, NULL);
  g_assert_true (invalid);
  g_assert_nonnull (desk_find_label (row, "“25:61” is not a time of day such as “14:05”."));
  contact = wb_job_nth (wb_job_model_get_job (fixture->model), WB_KIND_CONTACT, 0);
  g_assert_cmpstr (contact->at, !=, "25:61");

  wb_test_type (fixture->window, "{ctrl+a}14:05\n");
  contact = wb_job_nth (wb_job_model_get_job (fixture->model), WB_KIND_CONTACT, 0);
  g_assert_cmpstr (contact->at, ==, "14:05");
  wb_test_wait_until_drawn (page);
  wb_test_save_picture (fixture->window, "papers-page-contact");
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

#define ADD(path, function)                                                                        \
  g_test_add ("/desk/papers-page/" path, DeskFixture, NULL, desk_fixture_set_up, function,         \
              desk_fixture_tear_down)
  ADD ("missing", test_missing);
  ADD ("targets", test_targets);
  ADD ("add-kind", test_add_kind);
  ADD ("keeping", test_keeping);
  ADD ("contact", test_contact);
#undef ADD
  return g_test_run ();
}
