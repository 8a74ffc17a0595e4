/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A scanner that behaves like a keyboard, on the inventory page: wherever the focus is, a tag goes
 * to its line, and what a clerk was typing stays. And the same by hand, with Ctrl+G. */
#include "config.h"

#include "inventory-desk.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

#include "desk/inventory/wb-inventory-list.h"
#include "desk/inventory/wb-tag-dialog.h"

static void
set_up (InventoryDesk *desk,
        gconstpointer  data)
{
  inventory_desk_open (desk, 14, 1180, 760);
}

static void
tear_down (InventoryDesk *desk,
           gconstpointer  data)
{
  inventory_desk_close (desk);
}

static WbInventoryList *
get_list (InventoryDesk *desk)
{
  return WB_INVENTORY_LIST (wb_test_find (desk->page, WB_TYPE_INVENTORY_LIST, NULL));
}

typedef struct
{
  InventoryDesk *desk;
  const char    *id;
} Place;

static gboolean
is_on (gpointer data)
{
  const Place *place = data;
  g_autoptr (GPtrArray) ids = wb_inventory_list_get_selected (get_list (place->desk));

  return ids->len == 1 && g_strcmp0 (g_ptr_array_index (ids, 0), place->id) == 0;
}

/* The list goes to a line when it has laid it out, which on a busy machine is later than at rest. */
static void
assert_on (InventoryDesk *desk,
           const char    *id)
{
  Place place = { desk, id };

  inventory_desk_rest (desk);
  wb_test_wait_until (is_on, &place);
}

static gboolean
focus_is_in_list (InventoryDesk *desk)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (desk->window));

  return focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (get_list (desk)));
}

static WbTagDialog *
find_dialog (void)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWindow) window = g_list_model_get_item (windows, i);

      if (WB_IS_TAG_DIALOG (window))
        return WB_TAG_DIALOG (window);
    }
  return NULL;
}

static gboolean
is_open (gpointer data)
{
  WbTagDialog *dialog = find_dialog ();

  return dialog != NULL && gtk_widget_get_mapped (GTK_WIDGET (dialog));
}

static gboolean
is_closed (gpointer data)
{
  return find_dialog () == NULL;
}

static gboolean
says (gpointer    widget,
      const char *text)
{
  return wb_test_find (widget, GTK_TYPE_LABEL, text) != NULL;
}

typedef struct
{
  gpointer    widget;
  const char *text;
} Saying;

static gboolean
is_said (gpointer data)
{
  const Saying *saying = data;

  return says (saying->widget, saying->text);
}

static void
wait_for (gpointer    widget,
          const char *text)
{
  Saying saying = { widget, text };

  wb_test_wait_until (is_said, &saying);
}

static void
assert_untouched (InventoryDesk *desk)
{
  g_assert_cmpuint (wb_job_count (inventory_desk_get_job (desk), WB_KIND_PIECE), ==, 14);
}

/* The clerk is in the middle of a line; somebody scans. */
static void
test_from_strip (InventoryDesk *desk,
                 gconstpointer  data)
{
  GtkEditable *description = inventory_desk_get_field (desk, "Description");
  GtkEditable *weight = inventory_desk_get_field (desk, "Weight");

  inventory_desk_type_slowly (desk, "lamp");
  inventory_desk_type (desk, "0005\n");
  assert_on (desk, "p4");
  g_assert_true (focus_is_in_list (desk));
  g_assert_cmpstr (gtk_editable_get_text (description), ==, "lamp");
  assert_untouched (desk);

  /* And back to what was begun. */
  inventory_desk_type (desk, "{ctrl+l}{End}");
  inventory_desk_type_slowly (desk, "s");
  g_assert_cmpstr (gtk_editable_get_text (description), ==, "lamps");

  /* What was selected is selected again, and not replaced. */
  inventory_desk_type (desk, "{alt+w}12{shift+Home}");
  g_usleep (200000);
  inventory_desk_type (desk, "BLUE-7\n");
  assert_on (desk, "p6");
  g_assert_cmpstr (gtk_editable_get_text (weight), ==, "12 lb");
  g_assert_cmpstr (gtk_editable_get_text (description), ==, "lamps");
  assert_untouched (desk);
}

/* From the list each scan goes on to the next, whatever the tag says. */
static void
test_from_list (InventoryDesk *desk,
                gconstpointer  data)
{
  static const struct
  {
    const char *text;
    const char *id;
  } scans[] = {
    { "0009\n", "p8" },
    { "BLUE-3\n", "p2" },
    { "lot 204 tag 14\n", "p13" },
    { "wainbook:tag?colour=blue&lot=204&tag=1\n", "p0" },
    { "https://tags.example/?lot=204&tag=11\n", "p10" },
    { "]Q1wainbook:tag?tag=8\n", "p7" },
  };

  inventory_desk_type (desk, "{Escape}");
  for (gsize i = 0; i < G_N_ELEMENTS (scans); i++)
    {
      g_test_message ("%s", scans[i].text);
      g_usleep (100000);
      inventory_desk_type (desk, scans[i].text);
      assert_on (desk, scans[i].id);
      g_assert_true (focus_is_in_list (desk));
      g_assert_null (find_dialog ());
    }
  inventory_desk_picture (desk, "inventory-scan");
}

/* The brace needs a key of its own in the script. */
static void
test_json (InventoryDesk *desk,
           gconstpointer  data)
{
  inventory_desk_type (desk, "{braceleft}\"lot\":\"204\",\"tag\":12}\n");
  assert_on (desk, "p11");
  g_assert_cmpstr (gtk_editable_get_text (inventory_desk_get_field (desk, "Description")), ==, "");
}

/* A filter that hides the line goes away; the scan does not stay in it. */
static void
test_from_filter (InventoryDesk *desk,
                  gconstpointer  data)
{
  GtkWidget *filter = wb_test_find (desk->page, GTK_TYPE_SEARCH_ENTRY, NULL);

  inventory_desk_type (desk, "{ctrl+shift+f}");
  inventory_desk_type_slowly (desk, "sofa");
  inventory_desk_rest (desk);
  inventory_desk_type (desk, "0002\n");
  assert_on (desk, "p1");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (filter)), ==, "sofa");

  inventory_desk_type (desk, "{ctrl+shift+f}{End}");
  g_usleep (100000);
  inventory_desk_type (desk, "0001\n");
  assert_on (desk, "p0");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (filter)), ==, "");
}

static void
test_unknown (InventoryDesk *desk,
              gconstpointer  data)
{
  inventory_desk_type_slowly (desk, "lamp");
  inventory_desk_type (desk, "0099\n");
  wait_for (desk->page, "No line has the tag 99.");
  inventory_desk_type (desk, "RED-1\n");
  wait_for (desk->page, "This job has no lot “RED”.");
  inventory_desk_type (desk, "wainbook:tag?job=9&tag=1\n");
  wait_for (desk->page, "Tag 1 belongs to job 9, not to this one.");
  g_assert_cmpstr (gtk_editable_get_text (inventory_desk_get_field (desk, "Description")), ==,
                   "lamp");
  g_assert_true (inventory_desk_is_focus (desk, "Description"));
  assert_untouched (desk);
}

/* What a person types, at any speed that a person has, is never taken for a scan. */
static void
test_person (InventoryDesk *desk,
             gconstpointer  data)
{
  inventory_desk_type_slowly (desk, "0005\n");
  g_assert_cmpuint (wb_job_count (inventory_desk_get_job (desk), WB_KIND_PIECE), ==, 15);
  g_assert_cmpstr (inventory_desk_get_piece (desk, 14)->description, ==, "0005");

  /* Nor, however quick, what is no tag of this job. */
  inventory_desk_type (desk, "plates 20\n");
  g_assert_cmpuint (wb_job_count (inventory_desk_get_job (desk), WB_KIND_PIECE), ==, 16);
  g_assert_cmpstr (inventory_desk_get_piece (desk, 15)->description, ==, "plates 20");
}

/* The same number in two lots: the lines are there to choose from. */
static void
test_ambiguous (InventoryDesk *desk,
                gconstpointer  data)
{
  g_autoptr (WbJob) with_lot = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbLot) lot = wb_record_new (WB_KIND_LOT, "other");
  g_autoptr (WbPiece) piece = wb_record_new (WB_KIND_PIECE, "twin");

  wb_set_text (&lot->colour, "red");
  wb_set_text (&lot->number, "9");
  wb_set_text (&piece->lot, "other");
  wb_set_text (&piece->description, "hall mirror");
  piece->tag = 5;
  with_lot = wb_job_with (inventory_desk_get_job (desk), lot);
  job = wb_job_with (with_lot, piece);
  wb_job_model_apply (desk->model, job, "Enter lines");

  inventory_desk_type (desk, "{Escape}0005\n");
  wb_test_wait_until (is_open, NULL);
  g_assert_true (says (find_dialog (), "2 lines have this tag. Choose one."));
  wb_test_wait_until_drawn (GTK_WIDGET (find_dialog ()));
  wb_test_save_picture (GTK_WIDGET (find_dialog ()), "inventory-scan-choices");
  wb_test_type (GTK_WIDGET (find_dialog ()), "{Down}\n");
  wb_test_wait_until (is_closed, NULL);
  assert_on (desk, "twin");

  /* With its lot it is plain. */
  inventory_desk_type (desk, "RED-5\n");
  assert_on (desk, "twin");
  g_usleep (100000);
  inventory_desk_type (desk, "204-5\n");
  assert_on (desk, "p4");
  g_assert_null (find_dialog ());
}

/* Ctrl+G, and a tag by hand. */
static void
test_by_hand (InventoryDesk *desk,
              gconstpointer  data)
{
  GtkWidget *dialog;

  inventory_desk_type (desk, "{ctrl+g}");
  wb_test_wait_until (is_open, NULL);
  dialog = GTK_WIDGET (find_dialog ());
  wb_test_wait_until_drawn (dialog);
  wb_test_type (dialog, "seven\n");
  g_assert_true (says (dialog, "“seven” is no tag. Type the number, with the lot before it when "
                               "there are several: blue-17."));
  wb_test_type (dialog, "77\n");
  g_assert_true (says (dialog, "No line has the tag 77."));
  wb_test_wait_until_drawn (dialog);
  wb_test_save_picture (dialog, "inventory-go-to-tag");
  wb_test_type (dialog, "7\n");
  wb_test_wait_until (is_closed, NULL);
  assert_on (desk, "p6");
  g_assert_true (focus_is_in_list (desk));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();
#define ADD(name, function) \
  g_test_add ("/desk/inventory-scan/" name, InventoryDesk, NULL, set_up, function, tear_down)
  ADD ("from-strip", test_from_strip);
  ADD ("from-list", test_from_list);
  ADD ("json", test_json);
  ADD ("from-filter", test_from_filter);
  ADD ("unknown", test_unknown);
  ADD ("person", test_person);
  ADD ("ambiguous", test_ambiguous);
  ADD ("by-hand", test_by_hand);
#undef ADD
  return g_test_run ();
}
