/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The packing page worked with real keys through the X server; what they do to the job is looked
 * for in the job. */
#include "config.h"

#include <adwaita.h>

#include "core/wb-packing.h"
#include "desk/packing/wb-carton-row.h"
#include "desk/packing/wb-check-list.h"
#include "desk/packing/wb-packing-page.h"
#include "desk/support/desk-fixture.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

static WbJob *
get_job (DeskFixture *fixture)
{
  return wb_job_model_get_job (fixture->model);
}

static void
put_carton (DeskFixture *fixture,
            const char  *id,
            const char  *tag,
            const char  *carton,
            const char  *packed_by)
{
  desk_fixture_put (fixture, WB_KIND_PIECE, id, "lot", "lot", "tag", tag, "form", "carton",
                    "carton", carton, "room", "Kitchen", "packed_by", packed_by, "packer",
                    g_str_equal (packed_by, "CP") ? "Rosa Lindqvist" : "", NULL);
}

/* A dish carton of 58 lb, a small one, one that the owner packed, and a sofa. */
static WbPackingPage *
present (DeskFixture *fixture,
         int          width,
         int          height)
{
  GtkWidget *page;

  desk_fixture_put (fixture, WB_KIND_LOT, "lot", "colour", "blue", "number", "204", NULL);
  put_carton (fixture, "a", "1", "dish pack", "CP");
  desk_fixture_put (fixture, WB_KIND_PIECE, "a", "weight", "58 lb", NULL);
  put_carton (fixture, "b", "2", "small", "CP");
  put_carton (fixture, "c", "3", "medium", "PBO");
  desk_fixture_put (fixture, WB_KIND_PIECE, "d", "lot", "lot", "tag", "4", "form", "loose",
                    "description", "Sofa", NULL);
  page = wb_packing_page_new (fixture->model);
  desk_fixture_present (fixture, page, width, height);
  return WB_PACKING_PAGE (page);
}

static void
type (DeskFixture *fixture,
      const char  *keys)
{
  wb_test_type (fixture->window, keys);
  desk_fixture_settle (fixture);
}

/* How a check of a piece stands in the job. */
static WbCheck
get_state (DeskFixture *fixture,
           const char  *piece,
           const char  *rule)
{
  WbCatalog *catalog = wb_office_get_catalog (fixture->office);
  g_autoptr (WbPacking) packing = wb_packing_new (catalog, get_job (fixture));
  const WbPackingCheck *record = wb_packing_record (packing, piece, rule);

  return record != NULL ? record->state : WB_CHECK_OPEN;
}

static WbPackingCounts
get_counts (DeskFixture *fixture,
            const char  *piece)
{
  WbCatalog *catalog = wb_office_get_catalog (fixture->office);
  g_autoptr (WbPacking) packing = wb_packing_new (catalog, get_job (fixture));

  return wb_packing_counts (packing, wb_job_find (get_job (fixture), WB_KIND_PIECE, piece));
}

static const WbPiece *
get_piece (DeskFixture *fixture,
           const char  *id)
{
  return wb_job_find (get_job (fixture), WB_KIND_PIECE, id);
}

static const char *
get_selected_check (WbPackingPage *page)
{
  return wb_check_list_get_selected (WB_CHECK_LIST (wb_test_find (GTK_WIDGET (page),
                                                                  WB_TYPE_CHECK_LIST, NULL)));
}

static gboolean
says (GtkWidget  *root,
      const char *text)
{
  g_autoptr (GPtrArray) labels = desk_find_all (root, GTK_TYPE_LABEL);

  for (guint i = 0; i < labels->len; i++)
    if (strstr (gtk_label_get_text (g_ptr_array_index (labels, i)), text) != NULL)
      return TRUE;
  return FALSE;
}

static void
assert_focus_in (DeskFixture *fixture,
                 GType        type)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (fixture->window));

  g_assert_nonnull (focus);
  if (!g_type_is_a (G_OBJECT_TYPE (focus), type))
    g_assert_nonnull (gtk_widget_get_ancestor (focus, type));
}

/* --- checks ----------------------------------------------------------------------------------- */

/* One key a check: Space and M meet it, U says that it is unmet, and each goes on to the next. */
static void
test_keys (DeskFixture   *fixture,
           gconstpointer  data)
{
  WbPackingPage *page = present (fixture, 1180, 1000);

  gtk_widget_grab_focus (GTK_WIDGET (page));
  desk_fixture_settle (fixture);
  assert_focus_in (fixture, GTK_TYPE_LIST_VIEW);
  g_assert_cmpstr (wb_packing_page_get_selected (page), ==, "a");
  g_assert_true (says (GTK_WIDGET (page), "8 not looked at"));
  g_assert_true (says (GTK_WIDGET (page), "Heavy to lift. This weighs 58 lb."));

  type (fixture, "\n");
  assert_focus_in (fixture, WB_TYPE_CHECK_LIST);
  g_assert_cmpstr (get_selected_check (page), ==, "bottom-taped");
  type (fixture, " ");
  g_assert_cmpint (get_state (fixture, "a", "bottom-taped"), ==, WB_CHECK_MET);
  g_assert_cmpstr (get_selected_check (page), ==, "heaviest-first");
  type (fixture, "u");
  g_assert_cmpint (get_state (fixture, "a", "heaviest-first"), ==, WB_CHECK_UNMET);
  type (fixture, "m");
  g_assert_cmpint (get_state (fixture, "a", "paper-between"), ==, WB_CHECK_MET);
  g_assert_true (says (GTK_WIDGET (page), "2 met, 1 unmet, 5 not looked at"));
  g_assert_true (says (GTK_WIDGET (page), "Nobody is named as looking."));

  /* Open again, and undone. */
  type (fixture, "{Up}o");
  g_assert_cmpint (get_state (fixture, "a", "paper-between"), ==, WB_CHECK_OPEN);
  wb_job_model_undo (fixture->model);
  desk_fixture_settle (fixture);
  g_assert_cmpint (get_state (fixture, "a", "paper-between"), ==, WB_CHECK_MET);
  g_assert_true (says (GTK_WIDGET (page), "2 met, 1 unmet, 5 not looked at"));

  wb_test_save_picture (fixture->window, "packing-page");
}

/* All at once is one step to undo; N goes on to the next carton that has something open. */
static void
test_all_met (DeskFixture   *fixture,
              gconstpointer  data)
{
  WbPackingPage *page = present (fixture, 1180, 1000);

  gtk_widget_grab_focus (GTK_WIDGET (page));
  type (fixture, "\nu");
  type (fixture, "a");
  g_assert_cmpuint (get_counts (fixture, "a").met, ==, 7);
  g_assert_cmpuint (get_counts (fixture, "a").unmet, ==, 1);
  wb_job_model_undo (fixture->model);
  desk_fixture_settle (fixture);
  g_assert_cmpuint (get_counts (fixture, "a").open, ==, 7);
  wb_job_model_redo (fixture->model);
  desk_fixture_settle (fixture);

  type (fixture, "n");
  g_assert_cmpstr (wb_packing_page_get_selected (page), ==, "b");
  g_assert_cmpstr (get_selected_check (page), ==, "sealed");
  assert_focus_in (fixture, WB_TYPE_CHECK_LIST);
  type (fixture, "mmmm");
  g_assert_cmpuint (get_counts (fixture, "b").met, ==, 4);
  type (fixture, "n");
  g_assert_true (says (GTK_WIDGET (page), "Every check in this list has been looked at."));

  type (fixture, "{Escape}");
  assert_focus_in (fixture, GTK_TYPE_LIST_VIEW);
  type (fixture, "{Down}");
  g_assert_cmpstr (wb_packing_page_get_selected (page), ==, "c");
  g_assert_true (says (GTK_WIDGET (page), "The owner packed this carton"));
}

/* Who looked is typed once and taken over by the next cartons. */
static void
test_who (DeskFixture   *fixture,
          gconstpointer  data)
{
  WbPackingPage *page = present (fixture, 1180, 1000);
  GDate today;

  desk_fixture_put (fixture, WB_KIND_PIECE, "a", "checked_by", "Ines Okafor", NULL);
  desk_fixture_settle (fixture);
  wb_office_today (&today);
  gtk_widget_grab_focus (GTK_WIDGET (page));
  type (fixture, "\nu");
  type (fixture, "an");
  g_assert_cmpstr (wb_packing_page_get_selected (page), ==, "b");
  g_assert_null (get_piece (fixture, "b")->checked_by);
  type (fixture, "m");
  g_assert_cmpstr (get_piece (fixture, "b")->checked_by, ==, "Ines Okafor");

  for (guint i = 0; i < wb_job_count (get_job (fixture), WB_KIND_PACKING_CHECK); i++)
    {
      const WbPackingCheck *check = wb_job_nth (get_job (fixture), WB_KIND_PACKING_CHECK, i);

      g_assert_cmpstr (check->by, ==, "Ines Okafor");
      g_assert_cmpint (g_date_compare (&check->on, &today), ==, 0);
    }
  wb_job_model_undo (fixture->model);
  g_assert_null (get_piece (fixture, "b")->checked_by);
}

/* Enter writes what was seen; Escape gives it up. */
static void
test_seen (DeskFixture   *fixture,
           gconstpointer  data)
{
  WbPackingPage *page = present (fixture, 1180, 1000);

  gtk_widget_grab_focus (GTK_WIDGET (page));
  type (fixture, "\n\n");
  g_assert_true (says (GTK_WIDGET (page), "Say first whether the check is met"));
  type (fixture, "u{Up}\nbottom bulges\n");
  assert_focus_in (fixture, WB_TYPE_CHECK_LIST);
  g_assert_true (says (GTK_WIDGET (page), "bottom bulges"));
  type (fixture, "\n badly{Escape}");
  g_assert_false (says (GTK_WIDGET (page), "badly"));
  g_assert_cmpuint (wb_job_count (get_job (fixture), WB_KIND_PACKING_CHECK), ==, 1);
}

static void
test_filter (DeskFixture   *fixture,
             gconstpointer  data)
{
  WbPackingPage *page = present (fixture, 1180, 1000);
  g_autoptr (GPtrArray) all = desk_find_all (GTK_WIDGET (page), WB_TYPE_CARTON_ROW);
  g_autoptr (GPtrArray) left = NULL;

  g_assert_cmpuint (all->len, ==, 3);
  g_assert_true (says (GTK_WIDGET (page), "2 of 3 cartons have unmet or open checks."));
  gtk_widget_activate_action (GTK_WIDGET (page), "packing.only-open", NULL);
  desk_fixture_settle (fixture);
  left = desk_find_all (GTK_WIDGET (page), WB_TYPE_CARTON_ROW);
  g_assert_cmpuint (left->len, ==, 2);

  /* The carton in hand stays while its checks are met. */
  gtk_widget_grab_focus (GTK_WIDGET (page));
  type (fixture, "a");
  g_assert_cmpstr (wb_packing_page_get_selected (page), ==, "a");
  g_assert_true (says (GTK_WIDGET (page), "All 8 met"));
  g_assert_true (says (GTK_WIDGET (page), "1 of 3 cartons have unmet or open checks."));
}

/* --- cartons and materials -------------------------------------------------------------------- */

static const WbMaterial *
get_material (DeskFixture *fixture,
              const char  *item)
{
  for (guint i = 0; i < wb_job_count (get_job (fixture), WB_KIND_MATERIAL); i++)
    {
      const WbMaterial *material = wb_job_nth (get_job (fixture), WB_KIND_MATERIAL, i);

      if (g_str_equal (material->item, item))
        return material;
    }
  return NULL;
}

static void
test_materials (DeskFixture   *fixture,
                gconstpointer  data)
{
  WbPackingPage *page = present (fixture, 1180, 1000);
  GtkWidget *entry;

  /* 58 lb, a small carton as usual 40 lb, a medium one 35 lb; 6.2, 1.5 and 3 cubic feet. */
  g_assert_true (says (GTK_WIDGET (page), "3 cartons, 10.70 cu ft, 133 lb (2 by usual weight)"));

  gtk_widget_activate_action (GTK_WIDGET (page), "packing.add-item", NULL);
  type (fixture, "newsprint\n");
  g_assert_nonnull (get_material (fixture, "paper"));
  type (fixture, "4\t6\t");
  g_assert_cmpint (get_material (fixture, "paper")->planned, ==, 4);
  g_assert_cmpint (get_material (fixture, "paper")->used, ==, 6);
  g_assert_true (says (GTK_WIDGET (page), "2 more"));

  entry = wb_test_find (GTK_WIDGET (page), GTK_TYPE_ENTRY, "Dish carton, planned");
  gtk_widget_grab_focus (entry);
  type (fixture, "3\n");
  g_assert_cmpint (get_material (fixture, "dish")->planned, ==, 3);
  g_assert_true (says (GTK_WIDGET (page), "2 fewer"));

  /* What does not read is told of and not taken. */
  gtk_widget_grab_focus (entry);
  type (fixture, "{ctrl+a}many\n");
  g_assert_cmpint (get_material (fixture, "dish")->planned, ==, 3);
  g_assert_true (gtk_widget_has_css_class (entry, "error"));
  g_assert_true (says (GTK_WIDGET (page), "many"));
  type (fixture, "{Escape}");
  g_assert_false (gtk_widget_has_css_class (entry, "error"));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "3");

  /* Words that the catalogue does not know are kept as they are. */
  gtk_widget_activate_action (GTK_WIDGET (page), "packing.add-item", NULL);
  type (fixture, "sawdust\n5\n");
  g_assert_cmpint (get_material (fixture, "sawdust")->planned, ==, 5);
}

static void
test_empty (DeskFixture   *fixture,
            gconstpointer  data)
{
  GtkWidget *page = wb_packing_page_new (fixture->model);

  desk_fixture_present (fixture, page, 900, 700);
  g_assert_true (says (page, "No Cartons Yet"));
  g_assert_true (says (page, "Nothing is on the inventory."));
  desk_fixture_put (fixture, WB_KIND_LOT, "lot", "colour", "blue", NULL);
  put_carton (fixture, "a", "1", "dish pack", "CP");
  desk_fixture_settle (fixture);
  g_assert_false (says (page, "No Cartons Yet"));
  g_assert_true (says (page, "8 not looked at"));
}

/* --- looks ------------------------------------------------------------------------------------ */

/* Nothing sticks out of a narrow window. */
static void
test_narrow (DeskFixture   *fixture,
             gconstpointer  data)
{
  WbPackingPage *page = present (fixture, 560, 760);
  int width;

  gtk_widget_grab_focus (GTK_WIDGET (page));
  type (fixture, "\nu");
  width = gtk_widget_get_width (GTK_WIDGET (page));
  g_assert_cmpint (width, <=, 560);
  wb_test_save_picture (fixture->window, "packing-page-narrow");
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

#define ADD(name, func) \
  g_test_add ("/desk/packing-page/" name, DeskFixture, NULL, desk_fixture_set_up, func, \
              desk_fixture_tear_down)
  ADD ("keys", test_keys);
  ADD ("all-met", test_all_met);
  ADD ("who", test_who);
  ADD ("seen", test_seen);
  ADD ("filter", test_filter);
  ADD ("materials", test_materials);
  ADD ("empty", test_empty);
  ADD ("narrow", test_narrow);
#undef ADD
  return g_test_run ();
}
