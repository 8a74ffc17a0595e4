/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is inside a carton, from the keyboard:
 *
 *   1. Ctrl+I on the line, or in the strip, where what is typed becomes the line first.
 *   2. "Twelve dinner plates, four fifty each" – 12, Tab, plates, Tab, 4.50, Enter: the next.
 *   3. Enter with nothing typed, or Escape: back to the line, which says what is in it.
 */
#include "config.h"

#include "inventory-desk.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

#include "core/wb-things.h"
#include "desk/inventory/wb-contents-dialog.h"
#include "desk/inventory/wb-inventory-list.h"

static void
set_up (InventoryDesk *desk,
        gconstpointer  data)
{
  inventory_desk_open (desk, 5, 1180, 760);
}

static void
tear_down (InventoryDesk *desk,
           gconstpointer  data)
{
  inventory_desk_close (desk);
}

static GtkWidget *
find_dialog (void)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);

      if (WB_IS_CONTENTS_DIALOG (window))
        return window;
    }
  return NULL;
}

static gboolean
is_open (gpointer data)
{
  return find_dialog () != NULL && gtk_widget_get_mapped (find_dialog ());
}

static gboolean
is_closed (gpointer data)
{
  return find_dialog () == NULL;
}

static GtkWidget *
wait_for_dialog (void)
{
  wb_test_wait_until (is_open, NULL);
  wb_test_wait_until_drawn (find_dialog ());
  return find_dialog ();
}

static gboolean
says (GtkWidget  *root,
      const char *text)
{
  return wb_test_find (root, GTK_TYPE_LABEL, text) != NULL;
}

static gboolean
has_cell (InventoryDesk *desk,
          const char    *text)
{
  return wb_test_find (desk->page, g_type_from_name ("WbInventoryCell"), text) != NULL;
}

static guint
count (InventoryDesk *desk)
{
  return wb_job_count (inventory_desk_get_job (desk), WB_KIND_THING);
}

static const WbThing *
get_thing (InventoryDesk *desk,
           guint          index)
{
  g_assert_cmpuint (index, <, count (desk));
  return wb_job_nth (inventory_desk_get_job (desk), WB_KIND_THING, index);
}

static void
select_first (InventoryDesk *desk)
{
  GtkWidget *list = wb_test_find (desk->page, WB_TYPE_INVENTORY_LIST, NULL);

  wb_inventory_list_reveal (WB_INVENTORY_LIST (list), "p0", TRUE);
  wb_test_settle ();
}

static void
test_enter (InventoryDesk *desk,
            gconstpointer  data)
{
  GtkWidget *dialog;

  select_first (desk);
  inventory_desk_type (desk, "{ctrl+i}");
  dialog = wait_for_dialog ();
  g_assert_true (says (dialog, "Nothing listed yet"));
  wb_test_save_picture (dialog, "inventory-contents-empty");

  wb_test_type (dialog, "12\tdinner plates\t4.50\t1.5\n");
  wb_test_type (dialog, "6\tsoup bowls\t3\n");
  wb_test_type (dialog, "\tgravy boat\t\t2 lb\tchipped already\n");
  g_assert_cmpuint (count (desk), ==, 3);
  g_assert_cmpstr (get_thing (desk, 0)->description, ==, "dinner plates");
  g_assert_cmpstr (get_thing (desk, 0)->piece, ==, "p0");
  g_assert_cmpint (get_thing (desk, 0)->quantity, ==, 12);
  g_assert_true (wb_money_equal (get_thing (desk, 0)->value, wb_money (450, "USD")));
  g_assert_true (wb_weight_equal (get_thing (desk, 0)->weight,
                                  wb_weight (150, WB_WEIGHT_UNIT_LB)));
  g_assert_cmpint (get_thing (desk, 2)->quantity, ==, WB_INTEGER_UNSET);
  g_assert_cmpstr (get_thing (desk, 2)->notes, ==, "chipped already");
  g_assert_true (says (dialog, "19 things · $72.00 · 1 line without value · 20 lb · "
                               "1 line without weight"));
  wb_test_wait_until_drawn (dialog);
  wb_test_save_picture (dialog, "inventory-contents");

  /* Enter on nothing leaves; the line says what is in it, and so does the filter. */
  wb_test_type (dialog, "\n");
  wb_test_wait_until (is_closed, NULL);
  g_assert_true (has_cell (desk, "everyday stoneware, 24 plates · 19 things: dinner plates, "
                                 "soup bowls, gravy boat"));
  inventory_desk_picture (desk, "inventory-contents-line");
  inventory_desk_type (desk, "{ctrl+shift+f}gravy");
  inventory_desk_rest (desk);
  {
    g_autofree char *shown = inventory_desk_get_shown (desk);

    g_assert_cmpstr (shown, ==, "p0");
  }

  /* Three steps, each to be undone by itself. */
  wb_job_model_undo (desk->model);
  g_assert_cmpuint (count (desk), ==, 2);
  inventory_desk_rest (desk);
  {
    g_autofree char *shown = inventory_desk_get_shown (desk);

    g_assert_cmpstr (shown, ==, "");
  }
  wb_job_model_redo (desk->model);
  g_assert_cmpuint (count (desk), ==, 3);
}

static void
test_errors (InventoryDesk *desk,
             gconstpointer  data)
{
  GtkWidget *dialog;

  select_first (desk);
  inventory_desk_type (desk, "{ctrl+i}");
  dialog = wait_for_dialog ();
  wb_test_type (dialog, "a dozen\tplates\n");
  g_assert_true (says (dialog, "“a dozen” is no whole number up to 99999."));
  wb_test_type (dialog, "{ctrl+a}12\t\tmuch\n");
  g_assert_true (says (dialog, "“much” is no amount. Type it like 1250 or 1,250.00."));
  wb_test_type (dialog, "{ctrl+a}4\theavy\n");
  g_assert_true (says (dialog, "“heavy” is no weight. Type it like 40, 40 lb or 18.5 kg."));
  g_assert_cmpuint (count (desk), ==, 0);
  wb_test_type (dialog, "{ctrl+a}{Delete}\n");
  g_assert_cmpuint (count (desk), ==, 1);

  wb_test_type (dialog, "3\n");
  g_assert_true (says (dialog, "Say what it is."));
  wb_test_type (dialog, "{Escape}");
  g_assert_false (says (dialog, "Say what it is."));
  g_assert_nonnull (find_dialog ());
  wb_test_type (dialog, "{Escape}");
  wb_test_wait_until (is_closed, NULL);
  g_assert_cmpuint (count (desk), ==, 1);
}

static void
test_change (InventoryDesk *desk,
             gconstpointer  data)
{
  GtkWidget *dialog;

  select_first (desk);
  inventory_desk_type (desk, "{ctrl+i}");
  dialog = wait_for_dialog ();
  wb_test_type (dialog, "2\tvases\n3\tjugs\n");

  /* Up to the last, and Enter goes on to a new one. */
  wb_test_type (dialog, "{ctrl+Up}{ctrl+a}stone jugs\n");
  g_assert_cmpstr (get_thing (desk, 1)->description, ==, "stone jugs");
  g_assert_cmpint (get_thing (desk, 1)->quantity, ==, 3);
  g_assert_true (says (dialog, "Next thing"));
  wb_test_type (dialog, "{ctrl+Up}{ctrl+Up}");
  g_assert_true (says (dialog, "Change vases"));
  wb_test_type (dialog, "{ctrl+Down}{ctrl+Down}1\ttray\n");
  g_assert_cmpuint (count (desk), ==, 3);

  /* Undo is the job's, and the list follows. */
  wb_test_type (dialog, "{ctrl+z}");
  g_assert_cmpuint (count (desk), ==, 2);
  g_assert_true (says (dialog, "5 things"));
  wb_test_type (dialog, "{ctrl+shift+z}");
  g_assert_cmpuint (count (desk), ==, 3);
}

/* From the strip: what is typed becomes a line, and its contents are asked for. */
static void
test_from_strip (InventoryDesk *desk,
                 gconstpointer  data)
{
  GtkWidget *dialog;
  const WbPiece *piece;

  inventory_desk_type (desk, "{alt+f}c\tbook carton{alt+d}novels{ctrl+i}");
  dialog = wait_for_dialog ();
  g_assert_cmpuint (wb_job_count (inventory_desk_get_job (desk), WB_KIND_PIECE), ==, 6);
  piece = inventory_desk_get_piece (desk, 5);
  g_assert_cmpstr (piece->description, ==, "novels");
  wb_test_type (dialog, "40\tpaperbacks\n\n");
  wb_test_wait_until (is_closed, NULL);
  g_assert_cmpstr (get_thing (desk, 0)->piece, ==, piece->record.id);
  g_assert_true (has_cell (desk, "40 things: paperbacks"));

  /* Nothing typed: the line entered last. */
  inventory_desk_type (desk, "{ctrl+i}");
  dialog = wait_for_dialog ();
  g_assert_true (says (dialog, "40 things"));
  wb_test_type (dialog, "{Escape}");
  wb_test_wait_until (is_closed, NULL);

  /* What cannot be taken says so, and no window comes. */
  inventory_desk_type (desk, "lamp{alt+w}4o{ctrl+i}");
  wb_test_settle ();
  g_assert_null (find_dialog ());
  g_assert_cmpstr (inventory_desk_get_beneath (desk, "Weight"), ==,
                   "“4o” is no weight. Type it like 40, 40 lb or 18.5 kg.");
}

/* The list goes with its carton, comes back with it, and its window does not stay without it. */
static void
test_removed (InventoryDesk *desk,
              gconstpointer  data)
{
  GtkWidget *dialog;

  select_first (desk);
  inventory_desk_type (desk, "{ctrl+i}");
  dialog = wait_for_dialog ();
  wb_test_type (dialog, "2\tvases\n\n");
  wb_test_wait_until (is_closed, NULL);
  select_first (desk);
  inventory_desk_type (desk, "{Delete}");
  g_assert_cmpuint (count (desk), ==, 0);
  wb_job_model_undo (desk->model);
  g_assert_cmpuint (count (desk), ==, 1);

  select_first (desk);
  inventory_desk_type (desk, "{ctrl+i}");
  wait_for_dialog ();
  wb_job_model_redo (desk->model);
  wb_test_wait_until (is_closed, NULL);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();
#define ADD(name, function) \
  g_test_add ("/desk/inventory-contents/" name, InventoryDesk, NULL, set_up, function, tear_down)
  ADD ("enter", test_enter);
  ADD ("errors", test_errors);
  ADD ("change", test_change);
  ADD ("from-strip", test_from_strip);
  ADD ("removed", test_removed);
#undef ADD
  return g_test_run ();
}
