/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which tags make an article or a set, and what is of high value: warned of beside the list, listed
 * in a window, and each a key away from its line. */
#include "config.h"

#include "inventory-desk.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

#include "desk/inventory/wb-inventory-list.h"
#include "desk/inventory/wb-piece-overview.h"

static void
set_up (InventoryDesk *desk,
        gconstpointer  data)
{
  inventory_desk_open (desk, 7, 1180, 760);
}

static void
tear_down (InventoryDesk *desk,
           gconstpointer  data)
{
  inventory_desk_close (desk);
}

static void
set (InventoryDesk *desk,
     WbKind         kind,
     const char    *id,
     const char    *field,
     const char    *text)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (wb_job_model_set_field (desk->model, kind, id, field, text, &error));
  g_assert_no_error (error);
}

static GtkWidget *
find_window (void)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);

      if (WB_IS_PIECE_OVERVIEW (window))
        return window;
    }
  return NULL;
}

static gboolean
is_open (gpointer data)
{
  return find_window () != NULL && gtk_widget_get_mapped (find_window ());
}

static gboolean
is_closed (gpointer data)
{
  return find_window () == NULL;
}

static GtkWidget *
wait_for_window (const char *picture)
{
  wb_test_wait_until (is_open, NULL);
  wb_test_wait_until_drawn (find_window ());
  wb_test_save_picture (find_window (), picture);
  return find_window ();
}

static gboolean
says (GtkWidget  *root,
      const char *text)
{
  return wb_test_find (root, GTK_TYPE_LABEL, text) != NULL;
}

typedef struct
{
  GtkWidget  *root;
  const char *text;
} Saying;

static gboolean
is_said (gpointer data)
{
  const Saying *saying = data;

  return says (saying->root, saying->text);
}

static void
wait_for (GtkWidget  *root,
          const char *text)
{
  wb_test_wait_until (is_said, &(Saying) { root, text });
}

static void
assert_on (InventoryDesk *desk,
           const char    *id)
{
  GtkWidget *list = wb_test_find (desk->page, WB_TYPE_INVENTORY_LIST, NULL);
  g_autoptr (GPtrArray) ids = NULL;

  inventory_desk_rest (desk);
  ids = wb_inventory_list_get_selected (WB_INVENTORY_LIST (list));
  g_assert_cmpuint (ids->len, ==, 1);
  g_assert_cmpstr (g_ptr_array_index (ids, 0), ==, id);
}

static void
test_groups (InventoryDesk *desk,
             gconstpointer  data)
{
  GtkWidget *window;

  g_assert_true (gtk_widget_activate_action (desk->page, "inventory.show-groups", NULL));
  window = wait_for_window ("inventory-groups-none");
  g_assert_true (says (window, "No Articles or Sets"));
  wb_test_type (window, "{Escape}");
  wb_test_wait_until (is_closed, NULL);

  set (desk, WB_KIND_PIECE, "p1", "article", "sofa");
  set (desk, WB_KIND_PIECE, "p1", "description", "sofa, part 1 of 3");
  set (desk, WB_KIND_PIECE, "p3", "article", "sofa");
  set (desk, WB_KIND_PIECE, "p3", "description", "sofa, part 3 of 3");
  set (desk, WB_KIND_PIECE, "p5", "set", "lamps");
  wait_for (desk->page, "2 articles or sets are not whole");

  g_assert_true (gtk_widget_activate_action (desk->page, "inventory.show-groups", NULL));
  window = wait_for_window ("inventory-groups");
  g_assert_true (says (window, "Article “sofa”, 2 tags · 245 lb"));
  g_assert_true (says (window, "Part 2 is missing."));
  g_assert_true (says (window, "Set “lamps”, 1 tag · 12 lb"));

  /* The window follows the job. */
  set (desk, WB_KIND_PIECE, "p5", "quantity", "2");
  g_assert_false (says (window, "Only one thing is in this set. Give its other pieces the same "
                                "name, or say how many are under the tag."));
  wb_test_settle ();
  wb_test_type (window, "{Down}\n");
  wb_test_wait_until (is_closed, NULL);
  assert_on (desk, "p3");
  wait_for (desk->page, "1 article or set is not whole");
}

static void
test_high_value (InventoryDesk *desk,
                 gconstpointer  data)
{
  GtkWidget *window;
  g_autoptr (WbThing) vase = wb_record_new (WB_KIND_THING, "vase");
  g_autoptr (WbJob) job = NULL;

  set (desk, WB_KIND_ORDER, "order", "move_type", "interstate");
  set (desk, WB_KIND_ORDER, "order", "picked_up_on", "2026-03-04");
  set (desk, WB_KIND_PIECE, "p3", "listed_value", "24000");
  wait_for (desk->page, "The list of high-value articles is not signed");

  wb_set_text (&vase->piece, "p0");
  wb_set_text (&vase->description, "celadon vase");
  vase->value = wb_money (200000, "USD");
  vase->weight = wb_weight (500, WB_WEIGHT_UNIT_LB);
  job = wb_job_with (inventory_desk_get_job (desk), vase);
  wb_job_model_apply (desk->model, job, "Enter contents");
  wait_for (desk->page, "1 article of high value is not listed");

  g_assert_true (gtk_widget_activate_action (desk->page, "inventory.show-high-value", NULL));
  window = wait_for_window ("inventory-high-value");
  g_assert_true (says (window, "On the list: 1 article, $24,000.00"));
  g_assert_true (says (window, "The valuation does not say that the shipper signed this list. "
                               "Nobody is named who signed it. No day is given on which it was "
                               "signed."));
  g_assert_true (says (window, "celadon vase · 5 lb · $500.00 at most when it is not listed"));
  g_assert_true (says (window, "$2,000.00"));

  /* Signed, and what was missing is on the list. */
  set (desk, WB_KIND_PIECE, "p0", "listed_value", "2000");
  set (desk, WB_KIND_VALUATION, "valuation", "high_value_list", "yes");
  set (desk, WB_KIND_VALUATION, "valuation", "high_value_signed_by", "A. Lindqvist");
  set (desk, WB_KIND_VALUATION, "valuation", "high_value_signed_on", "2026-03-04");
  g_assert_true (says (window, "On the list: 2 articles, $26,000.00"));
  g_assert_true (says (window, "Signed by A. Lindqvist on 4 Mar 2026."));
  g_assert_false (says (window, "celadon vase · 5 lb · $500.00 at most when it is not listed"));
  wb_test_settle ();
  wb_test_type (window, "\n");
  wb_test_wait_until (is_closed, NULL);
  assert_on (desk, "p0");
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();
#define ADD(name, function) \
  g_test_add ("/desk/inventory-overview/" name, InventoryDesk, NULL, set_up, function, tear_down)
  ADD ("groups", test_groups);
  ADD ("high-value", test_high_value);
#undef ADD
  return g_test_run ();
}
