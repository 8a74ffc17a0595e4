/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Removing lines that something hangs on, and two people at one line: nothing is lost, and a
 * sentence says what happened. */
#include "config.h"

#include "inventory-desk.h"
#include "support/wb-test-window.h"

#include "desk/inventory/wb-inventory-list.h"
#include "desk/inventory/wb-inventory-removal.h"

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

/* Adds a record to @job: fields and texts, then %NULL. */
static WbJob *
put (WbJob      *job,
     WbKind      kind,
     const char *id,
     ...)
{
  g_autoptr (WbJob) before = job;
  g_autoptr (WbRecord) record = wb_record_new (kind, id);
  const char *name;
  va_list fields;

  va_start (fields, id);
  while ((name = va_arg (fields, const char *)) != NULL)
    {
      const WbField *field = wb_record_type_field (wb_record_type (kind), name);

      g_assert_true (wb_record_set_text (record, field, va_arg (fields, const char *), "USD",
                                         NULL));
    }
  va_end (fields);
  return wb_job_with (before, record);
}

/* p3 is tag 4 of lot "blue 204". Each of these by itself keeps it on the inventory. */
static WbJob *
hold_by_claim (WbJob *job)
{
  job = put (job, WB_KIND_CLAIM, "c", "number", "C-7", NULL);
  return put (job, WB_KIND_CLAIM_LINE, "l", "claim", "c", "piece", "p3", "number", "2", NULL);
}

static WbJob *
hold_by_finding (WbJob *job)
{
  job = put (job, WB_KIND_HANDOVER, "h", "kind", "pickup", NULL);
  return put (job, WB_KIND_FINDING, "f", "handover", "h", "piece", "p3", NULL);
}

static WbJob *
hold_by_tally (WbJob *job)
{
  job = put (job, WB_KIND_HANDOVER, "h", "kind", "pickup", NULL);
  return put (job, WB_KIND_TALLY, "t", "handover", "h", "lot", "lot", "tags", "1-4", NULL);
}

static WbJob *
hold_by_photos (WbJob *job)
{
  job = put (job, WB_KIND_PHOTO, "a", "hash", "aa", "piece", "p3", NULL);
  return put (job, WB_KIND_PHOTO, "b", "hash", "bb", "piece", "p3", NULL);
}

static WbJob *
hold_by_pin (WbJob *job)
{
  job = put (job, WB_KIND_PHOTO, "a", "hash", "aa", "name", "hall.jpg", "piece", "p0", NULL);
  return put (job, WB_KIND_PIN, "n", "photo", "a", "piece", "p3", NULL);
}

static const struct
{
  const char *name;
  WbJob    *(*hold) (WbJob *job);
  const char *sentence;
} holders[] = {
  { "claim", hold_by_claim,
    "blue 204-004 stays on the inventory: line 2 of claim C-7 is about it. Nothing was removed." },
  { "finding", hold_by_finding,
    "blue 204-004 stays on the inventory: it was noted at the handover “Residence to vehicle”. "
    "Nothing was removed." },
  { "tally", hold_by_tally,
    "blue 204-004 stays on the inventory: its tag was counted at the handover “Residence to vehicle”. "
    "Take it off the count first. Nothing was removed." },
  { "photos", hold_by_photos,
    "blue 204-004 stays on the inventory: 2 photos show it. Give the photos to another piece "
    "first. Nothing was removed." },
  { "pin", hold_by_pin,
    "blue 204-004 stays on the inventory: a mark on the photo “hall.jpg” is about it. "
    "Nothing was removed." },
};

static void
test_held (InventoryDesk *desk,
           gconstpointer  data)
{
  guint which = GPOINTER_TO_UINT (data);
  g_autoptr (WbJob) job = holders[which].hold (wb_job_ref (wb_job_model_get_job (desk->model)));
  g_autoptr (GPtrArray) ids = g_ptr_array_new ();
  g_autofree char *refusal = NULL;
  g_autofree char *none = NULL;
  g_autoptr (WbJob) fewer = NULL;

  g_ptr_array_add (ids, (gpointer) "p4");
  g_ptr_array_add (ids, (gpointer) "p3");
  g_assert_null (wb_inventory_remove (job, ids, &refusal));
  g_assert_cmpstr (refusal, ==, holders[which].sentence);

  /* Its neighbour is not held. */
  g_ptr_array_set_size (ids, 1);
  fewer = wb_inventory_remove (job, ids, &none);
  g_assert_null (none);
  g_assert_cmpuint (wb_job_count (fewer, WB_KIND_PIECE), ==, 4);
}

static gboolean
says (InventoryDesk *desk,
      const char    *text)
{
  return wb_test_find (desk->page, GTK_TYPE_LABEL, text) != NULL;
}

typedef struct
{
  InventoryDesk *desk;
  const char    *text;
} Saying;

static gboolean
is_said (gpointer data)
{
  const Saying *saying = data;

  return says (saying->desk, saying->text);
}

static void
wait_for (InventoryDesk *desk,
          const char    *text)
{
  wb_test_wait_until (is_said, &(Saying) { desk, text });
}

/* A line entered twice by mistake can go though its tag was counted: the other one has it. */
static void
test_twin (InventoryDesk *desk,
           gconstpointer  data)
{
  g_autoptr (WbJob) job = hold_by_tally (wb_job_ref (wb_job_model_get_job (desk->model)));
  g_autoptr (GPtrArray) ids = g_ptr_array_new ();
  g_autofree char *refusal = NULL;
  g_autoptr (WbJob) fewer = NULL;

  job = put (g_steal_pointer (&job), WB_KIND_PIECE, "twin", "lot", "lot", "tag", "4", NULL);
  g_ptr_array_add (ids, (gpointer) "twin");
  fewer = wb_inventory_remove (job, ids, &refusal);
  g_assert_nonnull (fewer);

  g_ptr_array_add (ids, (gpointer) "p3");
  g_assert_null (wb_inventory_remove (job, ids, &refusal));
  g_assert_nonnull (refusal);
}

/* Contents and checks go along, are told of, and come back. */
static void
test_along (InventoryDesk *desk,
            gconstpointer  data)
{
  g_autoptr (WbJob) job = wb_job_ref (wb_job_model_get_job (desk->model));
  g_autoptr (GPtrArray) ids = g_ptr_array_new ();
  g_autofree char *refusal = NULL;
  g_autofree char *sentence = NULL;
  g_autoptr (WbJob) fewer = NULL;
  GtkWidget *list = wb_test_find (desk->page, WB_TYPE_INVENTORY_LIST, NULL);

  job = put (g_steal_pointer (&job), WB_KIND_THING, "a", "piece", "p0", "description", "plate",
             NULL);
  job = put (g_steal_pointer (&job), WB_KIND_THING, "b", "piece", "p0", "description", "bowl",
             NULL);
  job = put (g_steal_pointer (&job), WB_KIND_PACKING_CHECK, "k", "piece", "p0", "rule", "upright",
             NULL);
  g_ptr_array_add (ids, (gpointer) "p0");
  fewer = wb_inventory_remove (job, ids, &refusal);
  sentence = wb_inventory_describe_removal (job, fewer);
  g_assert_cmpstr (sentence, ==, "1 line removed, with 2 lines of contents, with 1 packing check");

  wb_job_model_apply (desk->model, job, "Enter contents");
  wb_inventory_list_reveal (WB_INVENTORY_LIST (list), "p0", TRUE);
  wb_test_settle ();
  inventory_desk_type (desk, "{Delete}");
  wait_for (desk, sentence);
  g_assert_cmpuint (wb_job_count (inventory_desk_get_job (desk), WB_KIND_THING), ==, 0);
  wb_job_model_undo (desk->model);
  g_assert_cmpuint (wb_job_count (inventory_desk_get_job (desk), WB_KIND_THING), ==, 2);
  g_assert_cmpuint (wb_job_count (inventory_desk_get_job (desk), WB_KIND_PACKING_CHECK), ==, 1);
}

static void
set_up_many (InventoryDesk *desk,
             gconstpointer  data)
{
  inventory_desk_open (desk, 300, 1180, 760);
  inventory_desk_rest (desk);
}

/* Two of three lines go: what is still seen of them for a moment is not selected, not gone to and
 * not removed once more; undo brings each back once. */
static void
test_many (InventoryDesk *desk,
           gconstpointer  data)
{
  WbInventoryList *list =
    WB_INVENTORY_LIST (wb_test_find (desk->page, WB_TYPE_INVENTORY_LIST, NULL));
  GtkSelectionModel *selection = wb_inventory_list_get_selection (list);
  g_autofree char *before = inventory_desk_get_shown (desk);
  g_autofree char *after = NULL;
  g_autoptr (GtkBitset) all = gtk_bitset_new_range (0, 300);
  g_autoptr (GtkBitset) two_of_three = gtk_bitset_new_range (0, 300);
  g_autoptr (GPtrArray) selected = NULL;

  for (guint i = 0; i < 300; i += 3)
    gtk_bitset_remove (two_of_three, i);
  gtk_selection_model_set_selection (selection, two_of_three, all);
  wb_test_settle ();
  g_assert_true (gtk_widget_activate_action (desk->page, "inventory.remove", NULL));
  g_assert_false (wb_inventory_list_is_at_rest (list));
  g_assert_cmpuint (wb_job_count (inventory_desk_get_job (desk), WB_KIND_PIECE), ==, 100);
  g_assert_cmpstr (wb_inventory_list_neighbour (list, "p0", 1), ==, "p3");
  g_assert_cmpstr (wb_inventory_list_neighbour (list, "p3", -1), ==, "p0");

  /* None is left after the last one removed, so it is the one before the first. */
  selected = wb_inventory_list_get_selected (list);
  g_assert_cmpuint (selected->len, ==, 1);
  g_assert_cmpstr (g_ptr_array_index (selected, 0), ==, "p0");
  gtk_selection_model_select_all (selection);
  g_assert_true (gtk_widget_activate_action (desk->page, "inventory.remove", NULL));
  g_assert_cmpuint (wb_job_count (inventory_desk_get_job (desk), WB_KIND_PIECE), ==, 0);

  wb_job_model_undo (desk->model);
  wb_job_model_undo (desk->model);
  inventory_desk_rest (desk);
  after = inventory_desk_get_shown (desk);
  g_assert_cmpstr (after, ==, before);
}

/* --- two people at one line ------------------------------------------------------------------- */

/* Somebody else changes another field while the clerk types: both stand. */
static void
test_two_change (InventoryDesk *desk,
                 gconstpointer  data)
{
  inventory_desk_type (desk, "{ctrl+Up}{alt+w}77");
  g_assert_true (wb_job_model_set_field (desk->model, WB_KIND_PIECE, "p4", "room", "Cellar", NULL));
  inventory_desk_type (desk, "\n");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 4)->room, ==, "Cellar");
  g_assert_true (wb_weight_equal (inventory_desk_get_piece (desk, 4)->weight,
                                  wb_weight (7700, WB_WEIGHT_UNIT_LB)));
}

/* Somebody else removes the line: what the clerk typed is kept, and said. */
static void
test_two_remove (InventoryDesk *desk,
                 gconstpointer  data)
{
  g_autoptr (WbJob) fewer = NULL;

  inventory_desk_type (desk, "{ctrl+Up}{alt+d}{ctrl+a}coats and hats");
  fewer = wb_job_without (inventory_desk_get_job (desk), WB_KIND_PIECE, "p4", NULL);
  wb_job_model_apply (desk->model, fewer, "Remove a line");
  wait_for (desk, "The line that you were changing was removed meanwhile. What you typed is kept as "
                  "a new line.");
  g_assert_cmpstr (gtk_editable_get_text (inventory_desk_get_field (desk, "Description")), ==,
                   "coats and hats");
  inventory_desk_type (desk, "\n");
  g_assert_cmpuint (wb_job_count (inventory_desk_get_job (desk), WB_KIND_PIECE), ==, 5);
  g_assert_cmpstr (inventory_desk_get_piece (desk, 4)->description, ==, "coats and hats");
}

/* A lot whose tags were counted stays, though no piece has one. */
static void
test_counted_lot (InventoryDesk *desk,
                  gconstpointer  data)
{
  g_autoptr (WbJob) job = wb_job_ref (wb_job_model_get_job (desk->model));
  GListModel *windows = gtk_window_get_toplevels ();
  GtkWidget *dialog = NULL;
  GtkWidget *remove;

  job = put (g_steal_pointer (&job), WB_KIND_LOT, "red", "colour", "red", NULL);
  job = put (g_steal_pointer (&job), WB_KIND_HANDOVER, "h", "kind", "pickup", NULL);
  job = put (g_steal_pointer (&job), WB_KIND_TALLY, "t", "handover", "h", "lot", "red", "tags",
             "1-3", NULL);
  wb_job_model_apply (desk->model, job, "Count");
  g_assert_true (gtk_widget_activate_action (desk->page, "inventory.lots", NULL));
  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);

      if (g_strcmp0 (gtk_window_get_title (GTK_WINDOW (window)), "Lots of Tags") == 0)
        dialog = window;
    }
  g_assert_nonnull (dialog);
  wb_test_wait_until_drawn (dialog);
  remove = wb_test_find (dialog, GTK_TYPE_BUTTON, "Remove lot red");
  g_assert_nonnull (remove);
  g_signal_emit_by_name (remove, "clicked");
  g_assert_nonnull (wb_test_find (dialog, GTK_TYPE_LABEL,
                                  "Tags of lot red were counted at a handover. Take them off the "
                                  "count first."));
  g_assert_cmpuint (wb_job_count (inventory_desk_get_job (desk), WB_KIND_LOT), ==, 2);
  gtk_window_destroy (GTK_WINDOW (dialog));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();
  for (guint i = 0; i < G_N_ELEMENTS (holders); i++)
    {
      g_autofree char *path = g_strconcat ("/desk/inventory-removal/held/", holders[i].name, NULL);

      g_test_add (path, InventoryDesk, GUINT_TO_POINTER (i), set_up, test_held, tear_down);
    }
#define ADD(name, function) \
  g_test_add ("/desk/inventory-removal/" name, InventoryDesk, NULL, set_up, function, tear_down)
  ADD ("twin", test_twin);
  ADD ("along", test_along);
  ADD ("two-change", test_two_change);
  ADD ("two-remove", test_two_remove);
  ADD ("counted-lot", test_counted_lot);
#undef ADD
  g_test_add ("/desk/inventory-removal/many", InventoryDesk, NULL, set_up_many, test_many,
              tear_down);
  return g_test_run ();
}
