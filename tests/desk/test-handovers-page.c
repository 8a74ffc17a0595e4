/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include <adwaita.h>

#include "core/wb-trail.h"
#include "desk/handovers/wb-count-panel.h"
#include "desk/handovers/wb-handover-row.h"
#include "desk/handovers/wb-handovers-page.h"
#include "desk/handovers/wb-ribbon-scale.h"
#include "desk/handovers/wb-trail-ribbon.h"
#include "desk/support/desk-fixture.h"
#include "desk/widgets/wb-field-row.h"
#include "desk/widgets/wb-reveal.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

/* --- the scale of the ribbon ------------------------------------------------------------------ */

static void
test_scale (void)
{
  const gint days[] = { -1, 4, 90, 2, -1 };
  const gint least[] = { 100, 100, 100, 100, 100 };
  gint widths[5];

  wb_ribbon_scale (days, least, 5, 1000, widths);
  g_assert_cmpint (widths[0], ==, 100);
  g_assert_cmpint (widths[1], ==, 100);
  g_assert_cmpint (widths[2], ==, 600);
  g_assert_cmpint (widths[3], ==, 100);
  g_assert_cmpint (widths[4], ==, 100);

  /* True to scale where there is room. */
  wb_ribbon_scale ((const gint[]) { 10, 30, 20 }, (const gint[]) { 10, 10, 10 }, 3, 600, widths);
  g_assert_cmpint (widths[0], ==, 100);
  g_assert_cmpint (widths[1], ==, 300);
  g_assert_cmpint (widths[2], ==, 200);

  /* Nothing known: all alike. */
  wb_ribbon_scale ((const gint[]) { -1, -1 }, (const gint[]) { 10, 10 }, 2, 100, widths);
  g_assert_cmpint (widths[0], ==, 50);
  g_assert_cmpint (widths[1], ==, 50);
}

/* Every part has room for its words, and together they fill the ribbon. */
static void
test_scale_property (void)
{
  for (guint round = 0; round < 2000; round++)
    {
      guint n = (guint) g_test_rand_int_range (1, 9);
      gint days[8], least[8], widths[8];
      gint sum = 0, used = 0;

      for (guint i = 0; i < n; i++)
        {
          days[i] = g_test_rand_int_range (-2, 400);
          least[i] = g_test_rand_int_range (1, 200);
          sum += least[i];
        }
      sum += g_test_rand_int_range (0, 1000);
      wb_ribbon_scale (days, least, n, sum, widths);
      for (guint i = 0; i < n; i++)
        {
          g_assert_cmpint (widths[i], >=, least[i]);
          used += widths[i];
        }
      g_assert_cmpint (used, ==, sum);
    }
}

/* --- the page --------------------------------------------------------------------------------- */

/* Forty pieces that went by van into a warehouse and out again to the new residence. */
static void
add_long_way (DeskFixture *fixture)
{
  desk_fixture_put (fixture, WB_KIND_ORDER, NULL, "storage_from", "2026-03-05", "storage_days", "90",
                    NULL);
  desk_fixture_put (fixture, WB_KIND_LOT, "lot", "colour", "blue", "number", "204", "first", "1",
                    "last", "300", NULL);
  for (guint i = 1; i <= 40; i++)
    {
      g_autofree char *id = g_strdup_printf ("p%u", i);
      g_autofree char *tag = g_strdup_printf ("%u", i);

      desk_fixture_put (fixture, WB_KIND_PIECE, id, "lot", "lot", "tag", tag, "form",
                        i % 3 == 0 ? "loose" : "carton", "description",
                        i % 3 == 0 ? "Oak chair" : "Book carton", "marks",
                        i % 3 == 0 ? "SC 4" : "", NULL);
    }
  desk_fixture_put (fixture, WB_KIND_HANDOVER, "h1", "kind", "pickup", "on", "2026-03-01", "place",
                    "Duluth", "from_holder", "Odile Varga", "to_holder", "Tolliver Linehaul",
                    "from_signed", "O. Varga", "to_signed", "T. Reed", "vehicle", "van 12", NULL);
  desk_fixture_put (fixture, WB_KIND_HANDOVER, "h2", "kind", "into-storage", "on", "2026-03-05",
                    "place", "Madison", "from_holder", "Tolliver Linehaul", "to_holder",
                    "Lakeside Warehouse", "from_signed", "T. Reed", "to_signed", "P. Grieve", NULL);
  desk_fixture_put (fixture, WB_KIND_HANDOVER, "h3", "kind", "delivery", "on", "2026-05-20", "place",
                    "Savannah", "from_holder", "Pinebarrow Transfer", "to_holder", "Odile Varga",
                    NULL);
}

/* The program's own style, which the application loads otherwise. */
static void
load_style (void)
{
  g_autoptr (GtkCssProvider) provider = gtk_css_provider_new ();

  gtk_css_provider_load_from_resource (provider, "/org/wainbook/Wainbook/style.css");
  gtk_style_context_add_provider_for_display (gdk_display_get_default (),
                                              GTK_STYLE_PROVIDER (provider),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
}

static GtkWidget *
present (DeskFixture *fixture)
{
  GtkWidget *page = wb_handovers_page_new (fixture->model);

  desk_fixture_present (fixture, page, 1180, 1000);
  gtk_widget_grab_focus (page);
  return page;
}

static void
assert_says (GtkWidget  *root,
             const char *text)
{
  g_autoptr (GPtrArray) labels = desk_find_all (root, GTK_TYPE_LABEL);

  for (guint i = 0; i < labels->len; i++)
    if (strstr (gtk_label_get_text (g_ptr_array_index (labels, i)), text) != NULL)
      return;

  g_error ("nothing says “%s”", text);
}

static GtkEditable *
find_entry (GtkWidget  *page,
            const char *label)
{
  GtkWidget *entry = wb_test_find (page, GTK_TYPE_ENTRY, label);

  g_assert_nonnull (entry);
  return GTK_EDITABLE (entry);
}

static const WbHandover *
get_handover (DeskFixture *fixture,
              const char  *id)
{
  return wb_job_find (wb_job_model_get_job (fixture->model), WB_KIND_HANDOVER, id);
}

static gboolean
is_dialog_there (gpointer data)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();

  for (GList *at = windows; at != NULL; at = at->next)
    if (ADW_IS_MESSAGE_DIALOG (at->data) && gtk_widget_get_mapped (at->data))
      {
        *(GtkWidget **) data = at->data;
        return TRUE;
      }
  return FALSE;
}

/* Forty pieces counted off from the keyboard: two short, one over, three with new marks. */
static void
test_count_off (DeskFixture   *fixture,
                gconstpointer  data)
{
  g_autoptr (WbTrail) trail = NULL;
  const WbHandoverFacts *facts;
  GtkWidget *page, *dialog = NULL;

  add_long_way (fixture);
  page = present (fixture);

  /* The page begins in the field, at the last handover. */
  wb_test_type (fixture->window, "1-20\n");
  assert_says (page, "Counted 20 tags.");
  assert_says (page, "Count under way: 20 of 40 counted, 20 left");
  g_assert_cmpstr (gtk_editable_get_text (find_entry (page, "Count tags")), ==, "");

  /* What is wrong stays, with a sentence. */
  wb_test_type (fixture->window, "9-3\n");
  assert_says (page, "the range goes down from 9 to 3; write 3-9");
  g_assert_cmpstr (gtk_editable_get_text (find_entry (page, "Count tags")), ==, "9-3");
  wb_test_type (fixture->window, "{ctrl+a}22-31, 33-39, 57\n");
  assert_says (page, "Not on the inventory, so over: blue 204: 57.");
  assert_says (page, "Count under way: 37 of 40 counted, 3 left, 1 over");
  assert_says (page, "blue 204: 21, 32, 40");

  /* A scanner's text is no text of the field that has the focus. */
  wb_test_type (fixture->window, "wainbook:tag?lot=204&tag=0039\n");
  assert_says (page, "Counted 1 tag. 1 was counted before.");

  /* Marks count the piece that they are on. */
  gtk_widget_activate_action (page, "handovers.note", NULL);
  wb_test_type (fixture->window, "40 BR 6\n");
  assert_says (page, "blue 204-040, Book carton: broken: leg.");
  wb_test_type (fixture->window, "3 SC 4-8\n");
  assert_says (page, "There before: scratched: front.");
  wb_test_type (fixture->window, "5 CH 3\n6 SC 4\n");
  assert_says (page, "All of it was there before: nothing is new.");
  assert_says (page, "38 of 40 counted, 2 left, 1 over, 3 with new marks");
  desk_fixture_settle (fixture);
  wb_test_save_picture (fixture->window, "handovers-counting");

  gtk_widget_activate_action (page, "handovers.count", NULL);
  gtk_widget_activate_action (page, "handovers.finish", NULL);
  wb_test_wait_until (is_dialog_there, &dialog);
  assert_says (dialog, "2 pieces were not counted and become short: blue 204: 21, 32.");
  wb_test_type (dialog, "\n");
  desk_fixture_settle (fixture);

  g_assert_cmpint (get_handover (fixture, "h3")->count, ==, WB_COUNT_FINISHED);
  trail = wb_trail_new (wb_job_model_get_job (fixture->model));
  facts = wb_trail_handover (trail, 2);
  g_assert_cmpuint (facts->shortages->len, ==, 2);
  g_assert_cmpuint (facts->marked->len, ==, 3);
  g_assert_cmpint (facts->n_strays, ==, 1);
  assert_says (page, "Counted off: 38 of 40 counted, 2 short, 1 over, 3 with new marks");
  desk_fixture_settle (fixture);
  wb_test_save_picture (fixture->window, "handovers-finished");

  /* Nothing is counted any more until the count is open again. */
  wb_test_type (fixture->window, "21\n");
  assert_says (page, "The count of this handover is finished; open it again to change it.");
  wb_job_model_undo (fixture->model);
  g_assert_cmpint (get_handover (fixture, "h3")->count, ==, WB_COUNT_UNDER_WAY);
}

/* A piece in the list shows its path; Enter counts it. */
static void
test_piece (DeskFixture   *fixture,
            gconstpointer  data)
{
  GtkWidget *page, *list;
  g_autoptr (GPtrArray) parts = NULL;
  guint with = 0, without = 0;

  add_long_way (fixture);
  desk_fixture_put (fixture, WB_KIND_FINDING, "f1", "handover", "h2", "piece", "p2", "found", "short",
                    NULL);
  page = present (fixture);
  wb_test_type (fixture->window, "1, 3-40\n");
  list = wb_test_find (page, GTK_TYPE_LIST_VIEW, NULL);
  gtk_widget_child_focus (list, GTK_DIR_TAB_FORWARD);
  wb_test_type (fixture->window, "{space}");
  desk_fixture_settle (fixture);

  assert_says (page, "blue 204-002, Book carton");
  assert_says (page, "Missing: short at the handover “Vehicle to warehouse, 5 Mar 2026”. Last with "
                     "Tolliver Linehaul, who received it at “Residence to vehicle, 1 Mar 2026”.");
  parts = desk_find_all (wb_test_find (page, WB_TYPE_TRAIL_RIBBON, NULL), GTK_TYPE_BUTTON);
  g_assert_cmpuint (parts->len, ==, 4);
  for (guint i = 0; i < parts->len; i++)
    {
      with += gtk_widget_has_css_class (g_ptr_array_index (parts, i), "with-piece");
      without += gtk_widget_has_css_class (g_ptr_array_index (parts, i), "without-piece");
    }
  g_assert_cmpuint (with, ==, 2);
  g_assert_cmpuint (without, ==, 2);
  desk_fixture_settle (fixture);
  wb_test_save_picture (fixture->window, "handovers-piece");

  wb_test_type (fixture->window, "\n");
  assert_says (page, "40 of 40 counted, 1 back after being short");
  assert_says (page, "Delivered: with Odile Varga");
}

/* What is wrong with the handovers themselves is said where they are. */
static void
test_faults (DeskFixture   *fixture,
             gconstpointer  data)
{
  GtkWidget *page;

  add_long_way (fixture);
  page = present (fixture);
  assert_says (page, "The goods were received by Lakeside Warehouse, but handed over by Pinebarrow "
                     "Transfer.");
  assert_says (page, "Neither side has signed.");
  desk_fixture_put (fixture, WB_KIND_HANDOVER, "h3", "on", "2026-02-01", NULL);
  desk_fixture_settle (fixture);
  assert_says (page, "It is dated before “Vehicle to warehouse, 5 Mar 2026”, which comes before it.");
}

static void
test_edit (DeskFixture   *fixture,
           gconstpointer  data)
{
  GtkWidget *page;
  const WbHandover *handover;
  g_autoptr (GPtrArray) rows = NULL;

  desk_fixture_put (fixture, WB_KIND_PARTY, "shipper", "role", "shipper", "name", "Odile Varga", NULL);
  page = present (fixture);
  assert_says (page, "No handover is noted yet.");

  gtk_widget_activate_action (page, "handovers.add", NULL);
  gtk_widget_activate_action (page, "handovers.add", NULL);
  desk_fixture_settle (fixture);
  rows = desk_find_all (page, WB_TYPE_HANDOVER_ROW);
  g_assert_cmpuint (rows->len, ==, 2);
  handover = wb_job_nth (wb_job_model_get_job (fixture->model), WB_KIND_HANDOVER, 0);
  g_assert_cmpint (handover->kind, ==, WB_HANDOVER_PICKUP);
  g_assert_cmpstr (handover->from_holder, ==, "Odile Varga");

  gtk_widget_activate_action (page, "handovers.move-up", NULL);
  handover = wb_job_nth (wb_job_model_get_job (fixture->model), WB_KIND_HANDOVER, 0);
  g_assert_cmpint (handover->kind, ==, WB_HANDOVER_DELIVERY);
  gtk_widget_activate_action (page, "handovers.remove", NULL);
  g_assert_cmpuint (wb_job_count (wb_job_model_get_job (fixture->model), WB_KIND_HANDOVER), ==, 1);

  /* No pieces: counting says what is missing. */
  gtk_widget_activate_action (page, "handovers.count", NULL);
  gtk_widget_grab_focus (page);
  wb_test_type (fixture->window, "1-40\n");
  assert_says (page, "The inventory has no pieces yet; enter them before counting.");
}

/* Tab comes to every field of the handover looked at; the list of pieces is one stop. */
static void
test_tab (DeskFixture   *fixture,
          gconstpointer  data)
{
  GtkWidget *page, *fields;
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);
  guint n_fields = 0, n_lines = 0;

  add_long_way (fixture);
  page = present (fixture);
  fields = wb_test_find (page, ADW_TYPE_PREFERENCES_GROUP, "This Handover");
  g_assert_nonnull (fields);
  for (guint i = 0; i < 60; i++)
    {
      GtkWidget *focus;

      wb_test_type (fixture->window, "\t");
      focus = gtk_window_get_focus (GTK_WINDOW (fixture->window));
      if (focus == NULL || !g_hash_table_add (seen, focus))
        break;
      if (gtk_widget_is_ancestor (focus, fields))
        n_fields++;
      if (gtk_widget_get_ancestor (focus, GTK_TYPE_LIST_VIEW) != NULL)
        n_lines++;
    }
  g_assert_cmpuint (n_fields, >=, 10);
  g_assert_cmpuint (n_lines, ==, 1);
}

static GtkWidget *
get_focus (DeskFixture *fixture)
{
  return gtk_root_get_focus (GTK_ROOT (fixture->window));
}

static char *
get_focused (DeskFixture *fixture,
             const char  *property)
{
  GtkWidget *row = gtk_widget_get_ancestor (get_focus (fixture), WB_TYPE_FIELD_ROW);
  char *text = NULL;

  if (row != NULL)
    g_object_get (row, property, &text, NULL);
  return text;
}

/* What is missing or found lies at some handover, perhaps another than is looked at. */
static void
test_reveal (DeskFixture   *fixture,
             gconstpointer  data)
{
  g_autofree char *field = NULL;
  g_autofree char *id = NULL;
  GtkWidget *page, *row;

  add_long_way (fixture);
  desk_fixture_put (fixture, WB_KIND_FINDING, "f", "handover", "h2", "piece", "p7", "found",
                    "short", NULL);
  desk_fixture_put (fixture, WB_KIND_TALLY, "t", "handover", "h1", "lot", "lot", "tags", "1-4",
                    NULL);
  page = present (fixture);

  g_assert_true (wb_reveal (page, WB_KIND_HANDOVER, "h1", "vehicle"));
  field = get_focused (fixture, "field");
  id = get_focused (fixture, "record-id");
  g_assert_cmpstr (field, ==, "handover.vehicle");
  g_assert_cmpstr (id, ==, "h1");

  g_assert_true (wb_reveal (page, WB_KIND_FINDING, "f", NULL));
  assert_says (page, "blue 204-007");
  row = wb_test_find (page, WB_TYPE_HANDOVER_ROW, NULL);
  row = gtk_widget_get_next_sibling (row);
  g_assert_true (gtk_list_box_row_is_selected (GTK_LIST_BOX_ROW (row)));
  g_assert_true (GTK_IS_BUTTON (get_focus (fixture)));

  g_assert_true (wb_reveal (page, WB_KIND_HANDOVER, "h3", NULL));
  g_assert_true (get_focus (fixture) == gtk_widget_get_next_sibling (row));
  g_assert_true (wb_reveal (page, WB_KIND_TALLY, "t", NULL));
  g_assert_true (gtk_widget_is_ancestor (get_focus (fixture),
                                         GTK_WIDGET (find_entry (page, "Count tags"))));
  g_assert_true (wb_reveal (page, WB_KIND_HANDOVER, NULL, NULL));
  g_assert_true (GTK_IS_BUTTON (get_focus (fixture)));
  g_assert_false (wb_reveal (page, WB_KIND_FINDING, "gone", NULL));
}

#define ADD(path, function) \
  g_test_add ("/desk/handovers-page/" path, DeskFixture, NULL, desk_fixture_set_up, function, \
              desk_fixture_tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();
  load_style ();

  g_test_add_func ("/desk/handovers-page/scale", test_scale);
  g_test_add_func ("/desk/handovers-page/scale-property", test_scale_property);
  ADD ("count-off", test_count_off);
  ADD ("piece", test_piece);
  ADD ("faults", test_faults);
  ADD ("edit", test_edit);
  ADD ("tab", test_tab);
  ADD ("reveal", test_reveal);

  return g_test_run ();
}
