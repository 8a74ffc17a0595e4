/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a person does with lines that are there: looking, sorting, filtering, going to a tag,
 * changing and removing many, and what the page says about them. */
#include "config.h"

#include "inventory-desk.h"
#include "support/wb-test-window.h"

#include "desk/inventory/wb-inventory-cell.h"
#include "desk/inventory/wb-inventory-list.h"
#include "desk/inventory/wb-line-entry.h"
#include "desk/inventory/wb-lot-choice.h"

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

static void
assert_shown (InventoryDesk *desk,
              const char    *ids)
{
  g_autofree char *shown = NULL;

  inventory_desk_rest (desk);
  shown = inventory_desk_get_shown (desk);
  g_assert_cmpstr (shown, ==, ids);
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
  Saying *saying = data;

  return says (saying->desk, saying->text);
}

static void
wait_for (InventoryDesk *desk,
          const char    *text)
{
  wb_test_wait_until (is_said, &(Saying) { desk, text });
}

static void
sort_by (InventoryDesk *desk,
         const char    *column)
{
  g_assert_true (gtk_widget_activate_action (desk->page, "inventory.sort", "s", column));
}

static void
select_rows (InventoryDesk *desk,
             guint          first,
             guint          n)
{
  WbInventoryList *list = WB_INVENTORY_LIST (wb_test_find (desk->page, WB_TYPE_INVENTORY_LIST,
                                                           NULL));

  gtk_selection_model_select_range (wb_inventory_list_get_selection (list), first, n, TRUE);
  wb_test_settle ();
}

static GPtrArray *
get_selected (InventoryDesk *desk)
{
  return wb_inventory_list_get_selected (WB_INVENTORY_LIST (wb_test_find (desk->page,
                                                                          WB_TYPE_INVENTORY_LIST,
                                                                          NULL)));
}

/* Sets one field of a piece of the job, as some other page might. */
static void
set_field (InventoryDesk *desk,
           const char    *id,
           const char    *field,
           const char    *text)
{
  g_autoptr (GError) error = NULL;

  wb_job_model_set_field (desk->model, WB_KIND_PIECE, id, field, text, &error);
  g_assert_no_error (error);
}

/* Weights sort as weights, in whatever unit; what has none comes first. */
static void
test_sort_weight (InventoryDesk *desk,
                  gconstpointer  data)
{
  set_field (desk, "p13", "weight", "8 lb");
  set_field (desk, "p12", "weight", "54.5 kg");
  set_field (desk, "p11", "weight", "1,155 lb");
  sort_by (desk, "weight");
  /* none, none: then 8, 12, 38, 38, 46, 46, 115, 115, 54.5 kg = 120.2, 130, 130, 155, 1155 */
  assert_shown (desk, "p4 p13 p5 p2 p9 p0 p7 p3 p10 p12 p1 p8 p6 p11");
  sort_by (desk, "weight");
  assert_shown (desk, "p11 p6 p1 p8 p12 p3 p10 p0 p7 p2 p9 p5 p13 p4");
  sort_by (desk, "");
  assert_shown (desk, "p0 p1 p2 p3 p4 p5 p6 p7 p8 p9 p10 p11 p12 p13");
}

/* Tags sort by lot, in the order of the job's lots, and then as numbers. */
static void
test_sort_tag (InventoryDesk *desk,
               gconstpointer  data)
{
  g_autoptr (WbLot) lot = wb_record_new (WB_KIND_LOT, "a-lot");
  g_autoptr (WbJob) job = NULL;

  wb_set_text (&lot->colour, "amber");
  job = wb_job_with (inventory_desk_get_job (desk), lot);
  wb_job_model_apply (desk->model, job, "Add a lot");
  set_field (desk, "p0", "tag", "100");
  set_field (desk, "p1", "lot", "a-lot");
  set_field (desk, "p13", "tag", "");
  sort_by (desk, "tag");
  assert_shown (desk, "p13 p2 p3 p4 p5 p6 p7 p8 p9 p10 p11 p12 p0 p1");

  /* A line that changes moves to where it belongs. */
  set_field (desk, "p12", "tag", "1");
  assert_shown (desk, "p13 p12 p2 p3 p4 p5 p6 p7 p8 p9 p10 p11 p0 p1");
}

static void
test_sort_value (InventoryDesk *desk,
                 gconstpointer  data)
{
  set_field (desk, "p3", "listed_value", "900.00");
  set_field (desk, "p5", "listed_value", "12500");
  set_field (desk, "p6", "listed_value", "3000");
  sort_by (desk, "value");
  assert_shown (desk, "p0 p1 p2 p4 p7 p8 p9 p10 p11 p12 p13 p3 p6 p5");
}

/* Every word has to occur somewhere in the line; case and accents do not matter. */
static void
test_filter (InventoryDesk *desk,
             gconstpointer  data)
{
  set_field (desk, "p6", "description", "Señora's washing machine");
  inventory_desk_type (desk, "{ctrl+shift+f}osei");
  assert_shown (desk, "p0 p4 p7 p11");
  wait_for (desk, "4 of 14 pieces · 92 lb · 2 without weight");
  inventory_desk_type (desk, " winter");
  assert_shown (desk, "p4 p11");
  inventory_desk_picture (desk, "inventory-page-filter");
  inventory_desk_type (desk, "{ctrl+a}SENORA utility");
  assert_shown (desk, "p6");
  inventory_desk_type (desk, "{ctrl+a}nothing like it");
  assert_shown (desk, "");
  wb_test_settle ();
  g_assert_true (gtk_widget_get_mapped (wb_test_find (desk->page, ADW_TYPE_STATUS_PAGE,
                                                      "No Line Matches")));

  /* A line that a change lets in comes in. */
  set_field (desk, "p2", "notes", "x");
  set_field (desk, "p2", "contents", "Nothing at all like it");
  assert_shown (desk, "p2");

  inventory_desk_type (desk, "{Escape}");
  assert_shown (desk, "p0 p1 p2 p3 p4 p5 p6 p7 p8 p9 p10 p11 p12 p13");
  wait_for (desk, "14 pieces · 992 lb · 2 without weight");
}

/* A tag typed into the filter; the next takes the place of the one before. */
static void
test_tag_in_filter (InventoryDesk *desk,
           gconstpointer  data)
{
  g_autoptr (GPtrArray) ids = NULL;

  set_field (desk, "p8", "tag", "12");
  inventory_desk_type (desk, "{ctrl+shift+f}6\n");
  inventory_desk_rest (desk);
  ids = get_selected (desk);
  g_assert_cmpuint (ids->len, ==, 1);
  g_assert_cmpstr (g_ptr_array_index (ids, 0), ==, "p5");

  /* Two lines have tag 12; Enter once more goes to the other. */
  g_ptr_array_unref (g_steal_pointer (&ids));
  inventory_desk_type_slowly (desk, "204-012\n");
  inventory_desk_rest (desk);
  ids = get_selected (desk);
  g_assert_cmpstr (g_ptr_array_index (ids, 0), ==, "p8");
  g_ptr_array_unref (g_steal_pointer (&ids));
  inventory_desk_type (desk, "\n");
  ids = get_selected (desk);
  g_assert_cmpstr (g_ptr_array_index (ids, 0), ==, "p11");

  inventory_desk_type (desk, "999\n");
  g_assert_true (says (desk, "No line has the tag 999."));
}

/* Removing is one step, and one step brings all back. */
static void
test_remove (InventoryDesk *desk,
             gconstpointer  data)
{
  select_rows (desk, 2, 5);
  wait_for (desk, "5 selected · 320 lb · 1 without weight");
  wb_inventory_list_reveal (WB_INVENTORY_LIST (wb_test_find (desk->page, WB_TYPE_INVENTORY_LIST,
                                                             NULL)), "p2", TRUE);
  select_rows (desk, 2, 5);
  inventory_desk_type (desk, "{Delete}");
  assert_shown (desk, "p0 p1 p7 p8 p9 p10 p11 p12 p13");
  g_assert_true (says (desk, "5 lines removed"));
  wait_for (desk, "9 pieces · 672 lb · 1 without weight");

  /* The hands stay in the list: the next line is removed by the next key. */
  inventory_desk_type (desk, "{Delete}");
  assert_shown (desk, "p0 p1 p8 p9 p10 p11 p12 p13");
  wb_job_model_undo (desk->model);
  wb_job_model_undo (desk->model);
  assert_shown (desk, "p0 p1 p2 p3 p4 p5 p6 p7 p8 p9 p10 p11 p12 p13");
}

/* A piece that a claim is about stays, with all that were to go with it; the sentence names
 * both. */
static void
test_remove_refused (InventoryDesk *desk,
                     gconstpointer  data)
{
  g_autoptr (WbClaim) claim = wb_record_new (WB_KIND_CLAIM, "c");
  g_autoptr (WbClaimLine) line = wb_record_new (WB_KIND_CLAIM_LINE, "l");
  g_autoptr (GPtrArray) records = g_ptr_array_new ();
  g_autoptr (WbJob) job = NULL;

  wb_set_text (&claim->number, "C-2026-0001");
  wb_set_text (&line->claim, "c");
  wb_set_text (&line->piece, "p3");
  line->number = 3;
  g_ptr_array_add (records, claim);
  g_ptr_array_add (records, line);
  job = wb_job_with_many (inventory_desk_get_job (desk), records);
  wb_job_model_apply (desk->model, job, "Add a claim");

  select_rows (desk, 1, 4);
  g_assert_true (gtk_widget_activate_action (desk->page, "inventory.remove", NULL));
  assert_shown (desk, "p0 p1 p2 p3 p4 p5 p6 p7 p8 p9 p10 p11 p12 p13");
  g_assert_true (says (desk, "blue 204-004 stays on the inventory: line 3 of claim C-2026-0001 is "
                             "about it. Nothing was removed."));
  inventory_desk_picture (desk, "inventory-page-refused");
}

static GtkWidget *
find_dialog (InventoryDesk *desk,
             const char    *title)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWindow) window = g_list_model_get_item (windows, i);

      if (g_strcmp0 (gtk_window_get_title (window), title) == 0)
        return GTK_WIDGET (window);
    }
  return NULL;
}

static void
fill (GtkWidget  *dialog,
      const char *label,
      const char *text)
{
  GtkWidget *entry = wb_test_find (dialog, GTK_TYPE_ENTRY, label);

  g_assert_nonnull (entry);
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
}

static void
press (GtkWidget  *root,
       const char *label)
{
  GtkWidget *button = wb_test_find (root, GTK_TYPE_BUTTON, label);

  g_assert_nonnull (button);
  g_assert_true (gtk_widget_is_sensitive (button));
  g_signal_emit_by_name (button, "clicked");
  wb_test_settle ();
}

/* F2 with several lines selected: one window, one change, one undo. */
static void
test_bulk (InventoryDesk *desk,
           gconstpointer  data)
{
  GtkWidget *dialog;
  const WbPiece *piece;

  select_rows (desk, 4, 2);
  g_assert_true (gtk_widget_activate_action (desk->page, "inventory.change", NULL));
  dialog = find_dialog (desk, "Change Lines");
  g_assert_nonnull (dialog);
  wb_test_wait_until_drawn (dialog);

  /* What both share stands there, what differs does not, and nothing is ticked. */
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (wb_test_find (dialog, GTK_TYPE_ENTRY,
                                                                      "Room"))), ==,
                   "Bedroom 1");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (wb_test_find (dialog, GTK_TYPE_ENTRY,
                                                                      "Packer"))), ==, "");
  g_assert_false (gtk_widget_is_sensitive (wb_test_find (dialog, GTK_TYPE_BUTTON, "C_hange")));

  fill (dialog, "Room", "Guest room");
  fill (dialog, "Packed by", "nobody");
  press (dialog, "C_hange");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 4)->room, ==, "Bedroom 1");
  g_assert_true (gtk_widget_has_css_class (wb_test_find (dialog, GTK_TYPE_ENTRY, "Packed by"),
                                           "error"));
  wb_test_wait_until_drawn (dialog);
  wb_test_save_picture (dialog, "inventory-bulk");

  fill (dialog, "Packed by", "pbo");
  fill (dialog, "Packer", "x");
  fill (dialog, "Packer", "");
  press (dialog, "C_hange");
  g_assert_null (find_dialog (desk, "Change Lines"));
  for (guint i = 4; i < 6; i++)
    {
      piece = inventory_desk_get_piece (desk, i);
      g_assert_cmpstr (piece->room, ==, "Guest room");
      g_assert_cmpint (piece->packed_by, ==, WB_PACKED_BY_OWNER);
      g_assert_null (piece->packer);
    }
  g_assert_cmpstr (inventory_desk_get_piece (desk, 4)->carton, ==, "wardrobe");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 3)->room, ==, "Dining room");
  g_assert_true (says (desk, "2 lines changed"));

  wb_job_model_undo (desk->model);
  g_assert_cmpstr (inventory_desk_get_piece (desk, 4)->room, ==, "Bedroom 1");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 5)->packer, ==, "M. Brandt");
}

static gboolean
has_link (GtkWidget   *root,
          const char  *uri,
          GtkLabel   **label)
{
  for (GtkWidget *child = gtk_widget_get_first_child (root);
       child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      if (GTK_IS_LABEL (child) && strstr (gtk_label_get_label (GTK_LABEL (child)), uri) != NULL)
        {
          *label = GTK_LABEL (child);
          return TRUE;
        }
      if (has_link (child, uri, label))
        return TRUE;
    }
  return FALSE;
}

/* Holes and repeats are told lot by lot; a missing tag leads to its entry, a repeated one to its
 * lines. */
static GtkWidget *
open_bulk (InventoryDesk *desk,
           guint          first,
           guint          n)
{
  GtkWidget *dialog;

  select_rows (desk, first, n);
  g_assert_true (gtk_widget_activate_action (desk->page, "inventory.change", NULL));
  dialog = find_dialog (desk, "Change Lines");
  g_assert_nonnull (dialog);
  wb_test_wait_until_drawn (dialog);
  return dialog;
}

static gboolean
dialog_says (GtkWidget  *dialog,
             const char *text)
{
  return wb_test_find (dialog, GTK_TYPE_LABEL, text) != NULL;
}

/* Marks are added to what is there, or take its place; how many lines change is said before. */
static void
test_bulk_marks (InventoryDesk *desk,
                 gconstpointer  data)
{
  GtkWidget *dialog = open_bulk (desk, 0, 4);
  GtkWidget *keep;

  fill (dialog, "Condition", "w 5");
  g_assert_true (dialog_says (dialog, "3 of 4 lines change"));
  fill (dialog, "Condition", "w 5, so");
  g_assert_true (dialog_says (dialog, "4 of 4 lines change"));
  press (dialog, "C_hange");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 0)->marks, ==, "W 5, SO");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 1)->marks, ==, "SC 2-4, W 5, SO");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 3)->marks, ==, "SC 10, CH 3, W 5, SO");

  dialog = open_bulk (desk, 0, 2);
  keep = wb_test_find (dialog, GTK_TYPE_CHECK_BUTTON,
                       "_Keep the condition that is there, and add to it");
  g_assert_nonnull (keep);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (keep), FALSE);
  fill (dialog, "Condition", "mcu");
  fill (dialog, "Checked by", "L. Amadi");
  fill (dialog, "Packing day", "2026-03-04");
  fill (dialog, "Packing day", "yesterday");
  g_assert_true (dialog_says (dialog, ""));
  press (dialog, "C_hange");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 0)->marks, ==, "W 5, SO");
  fill (dialog, "Packing day", "2026-03-04");
  press (dialog, "C_hange");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 0)->marks, ==, "MCU");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 1)->checked_by, ==, "L. Amadi");
  g_assert_true (g_date_valid (&inventory_desk_get_piece (desk, 1)->packed_on));
}

/* Another lot, and tags in sequence in the order shown: one step of undo. */
static void
test_bulk_lot (InventoryDesk *desk,
               gconstpointer  data)
{
  g_autoptr (WbLot) lot = wb_record_new (WB_KIND_LOT, "red");
  g_autoptr (WbJob) job = NULL;
  GtkWidget *dialog;
  GtkWidget *choice;

  wb_set_text (&lot->colour, "red");
  lot->first = 1;
  lot->last = 20;
  job = wb_job_with (inventory_desk_get_job (desk), lot);
  wb_job_model_apply (desk->model, job, "Add a lot");

  /* Within the lot the tags after them are taken. */
  dialog = open_bulk (desk, 2, 3);
  fill (dialog, "Tags in sequence from", "4");
  g_assert_true (dialog_says (dialog, "Another line has the tag blue 204-006. Begin with a higher "
                                      "number."));
  fill (dialog, "Tags in sequence from", "299");
  g_assert_true (dialog_says (dialog, "The lines would get the tags 299 to 301; that is more than "
                                      "lot blue 204 (1–300) has."));
  fill (dialog, "Tags in sequence from", "soon");
  g_assert_true (dialog_says (dialog, "“soon” is no tag number. Type a whole number up to 999999."));
  press (dialog, "C_hange");
  g_assert_cmpint (inventory_desk_get_piece (desk, 2)->tag, ==, 3);
  wb_test_wait_until_drawn (dialog);
  wb_test_save_picture (dialog, "inventory-bulk-lot");

  choice = wb_test_find (dialog, g_type_from_name ("WbLotChoice"), NULL);
  wb_lot_choice_set_lot (WB_LOT_CHOICE (choice), "red");
  fill (dialog, "Tags in sequence from", "18");
  g_assert_true (dialog_says (dialog, "3 of 3 lines change"));
  press (dialog, "C_hange");
  for (guint i = 2; i < 5; i++)
    {
      g_assert_cmpstr (inventory_desk_get_piece (desk, i)->lot, ==, "red");
      g_assert_cmpint (inventory_desk_get_piece (desk, i)->tag, ==, 16 + (gint64) i);
    }
  g_assert_true (says (desk, "3 lines changed"));
  wb_job_model_undo (desk->model);
  g_assert_cmpstr (inventory_desk_get_piece (desk, 2)->lot, ==, "lot");
  g_assert_cmpint (inventory_desk_get_piece (desk, 4)->tag, ==, 5);

  /* The lot alone: tags stay. */
  dialog = open_bulk (desk, 2, 3);
  choice = wb_test_find (dialog, g_type_from_name ("WbLotChoice"), NULL);
  wb_lot_choice_set_lot (WB_LOT_CHOICE (choice), "red");
  press (dialog, "C_hange");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 4)->lot, ==, "red");
  g_assert_cmpint (inventory_desk_get_piece (desk, 4)->tag, ==, 5);
}

static void
test_warnings (InventoryDesk *desk,
               gconstpointer  data)
{
  GtkLabel *label = NULL;
  gboolean handled = FALSE;
  g_autoptr (GPtrArray) ids = NULL;

  set_field (desk, "p4", "tag", "");
  set_field (desk, "p5", "tag", "8");
  set_field (desk, "p13", "tag", "400");
  wb_test_settle ();
  g_assert_true (has_link (desk->page, "enter:lot/5", &label));
  g_assert_cmpstr (gtk_label_get_text (label), ==,
                   "blue 204: 5–6, 14–399 missing; 8 twice; 400 not in the lot; "
                   "1 line without a tag");
  g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (label)));
  inventory_desk_picture (desk, "inventory-page-warnings");

  g_signal_emit_by_name (label, "activate-link", "enter:lot/5", &handled);
  g_assert_true (handled);
  g_assert_cmpstr (gtk_editable_get_text (inventory_desk_get_field (desk, "Tag")), ==, "5");
  g_assert_true (inventory_desk_is_focus (desk, "Description"));

  g_signal_emit_by_name (label, "activate-link", "find:lot/8", &handled);
  inventory_desk_rest (desk);
  ids = get_selected (desk);
  g_assert_cmpuint (ids->len, ==, 1);
  g_assert_cmpstr (g_ptr_array_index (ids, 0), ==, "p5");

  /* What is not in the lot, and what has no tag, a step each. */
  g_signal_emit_by_name (label, "activate-link", "find:lot/400", &handled);
  inventory_desk_rest (desk);
  g_ptr_array_unref (g_steal_pointer (&ids));
  ids = get_selected (desk);
  g_assert_cmpstr (g_ptr_array_index (ids, 0), ==, "p13");
  g_assert_true (has_link (desk->page, "untagged:lot/0", &label));
  g_signal_emit_by_name (label, "activate-link", "untagged:lot/0", &handled);
  inventory_desk_rest (desk);
  g_ptr_array_unref (g_steal_pointer (&ids));
  ids = get_selected (desk);
  g_assert_cmpstr (g_ptr_array_index (ids, 0), ==, "p4");

  set_field (desk, "p4", "tag", "5");
  set_field (desk, "p5", "tag", "6");
  set_field (desk, "p13", "tag", "14");
  wb_test_settle ();
  g_assert_false (gtk_widget_get_mapped (GTK_WIDGET (label)));
}

/* Lots: a new one is checked, one that is used stays. */
static void
test_lots (InventoryDesk *desk,
           gconstpointer  data)
{
  GtkWidget *dialog;
  const WbLot *lot;

  g_assert_true (gtk_widget_activate_action (desk->page, "inventory.lots", NULL));
  dialog = find_dialog (desk, "Lots of Tags");
  g_assert_nonnull (dialog);
  wb_test_wait_until_drawn (dialog);

  press (dialog, "_Add Lot");
  g_assert_nonnull (wb_test_find (dialog, GTK_TYPE_LABEL, "Say the colour of the tags."));
  gtk_editable_set_text (GTK_EDITABLE (wb_test_find (dialog, ADW_TYPE_ENTRY_ROW, "Colour")),
                         "orange");
  gtk_editable_set_text (GTK_EDITABLE (wb_test_find (dialog, ADW_TYPE_ENTRY_ROW, "First tag")),
                         "five");
  press (dialog, "_Add Lot");
  g_assert_nonnull (wb_test_find (dialog, GTK_TYPE_LABEL,
                                  "“five” is no tag number. Type a whole number up to 999999."));
  gtk_editable_set_text (GTK_EDITABLE (wb_test_find (dialog, ADW_TYPE_ENTRY_ROW, "First tag")),
                         "501");
  gtk_editable_set_text (GTK_EDITABLE (wb_test_find (dialog, ADW_TYPE_ENTRY_ROW, "Last tag")),
                         "500");
  press (dialog, "_Add Lot");
  g_assert_nonnull (wb_test_find (dialog, GTK_TYPE_LABEL, "The last tag is before the first."));
  wb_test_wait_until_drawn (dialog);
  wb_test_save_picture (dialog, "inventory-lots");
  g_assert_cmpuint (wb_job_count (inventory_desk_get_job (desk), WB_KIND_LOT), ==, 1);

  gtk_editable_set_text (GTK_EDITABLE (wb_test_find (dialog, ADW_TYPE_ENTRY_ROW, "Last tag")),
                         "600");
  press (dialog, "_Add Lot");
  g_assert_cmpuint (wb_job_count (inventory_desk_get_job (desk), WB_KIND_LOT), ==, 2);
  lot = wb_job_nth (inventory_desk_get_job (desk), WB_KIND_LOT, 1);
  g_assert_cmpstr (lot->colour, ==, "orange");
  g_assert_cmpint (lot->first, ==, 501);
  g_assert_cmpint (lot->last, ==, 600);

  press (dialog, "Remove lot blue 204");
  g_assert_nonnull (wb_test_find (dialog, GTK_TYPE_LABEL,
                                  "14 pieces have tags of lot blue 204. "
                                  "Give them another lot first."));
  press (dialog, "Remove lot orange");
  g_assert_cmpuint (wb_job_count (inventory_desk_get_job (desk), WB_KIND_LOT), ==, 1);
  gtk_window_destroy (GTK_WINDOW (dialog));
}

/* The lines that have tags of a lot show its colour, however it changes. */
static void
test_lot_colour (InventoryDesk *desk,
                 gconstpointer  data)
{
  GtkWidget *view = wb_test_find (desk->page, GTK_TYPE_COLUMN_VIEW, NULL);
  GtkWidget *cell = wb_test_find (view, g_type_from_name ("WbInventoryCell"), "blue 204-002");
  g_autoptr (GError) error = NULL;

  g_assert_nonnull (cell);
  wb_job_model_set_field (desk->model, WB_KIND_LOT, "lot", "colour", "yellow", &error);
  g_assert_no_error (error);
  g_assert_true (wb_test_find (view, g_type_from_name ("WbInventoryCell"), "yellow 204-002")
                 == cell);
  gtk_test_accessible_assert_property (gtk_widget_get_parent (gtk_widget_get_parent (cell)),
                                       GTK_ACCESSIBLE_PROPERTY_LABEL,
                                       "yellow 204-002, sofa, three seats");
}

/* Every control a person meets has a name that can be read aloud. */
static void
test_names (InventoryDesk *desk,
            gconstpointer  data)
{
  static const char *const fields[] = {
    "Tag", "Room", "Packed by", "Packer", "Form", "Carton kind", "Description",
    "Contents", "Condition", "Weight",
    "Volume", "Part of article", "Serial number", "Listed value", "Notes",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (fields); i++)
    g_assert_nonnull (wb_test_find (desk->page, GTK_TYPE_ENTRY, fields[i]));
  g_assert_nonnull (wb_test_find (desk->page, GTK_TYPE_DROP_DOWN, "Lot"));
  g_assert_nonnull (wb_test_find (desk->page, GTK_TYPE_SEARCH_ENTRY, "Filter the lines"));
  g_assert_nonnull (wb_test_find (desk->page, GTK_TYPE_COLUMN_VIEW, "Lines of the inventory"));
  g_assert_nonnull (wb_test_find (desk->page, GTK_TYPE_MENU_BUTTON, "More for the inventory"));

  /* The cells of a line say what they show, and the condition in words as well. */
  {
    GtkWidget *view = wb_test_find (desk->page, GTK_TYPE_COLUMN_VIEW, NULL);
    GtkWidget *marks = wb_test_find (view, g_type_from_name ("WbInventoryCell"), "SC 2-4, W 5");

    g_assert_nonnull (wb_test_find (view, g_type_from_name ("WbInventoryCell"), "blue 204-002"));
    g_assert_nonnull (marks);
    gtk_test_accessible_assert_property (marks, GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                         "scratched: bottom, front; badly worn: left");
  }
}

/* --- the line in sight ------------------------------------------------------------------------ */

/* Returns: (nullable): a cell of the line of a piece. */
static GtkWidget *
find_cell (GtkWidget  *root,
           const char *id)
{
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found;

      if (WB_IS_INVENTORY_CELL (child))
        found = wb_inventory_cell_shows (WB_INVENTORY_CELL (child), id) ? child : NULL;
      else
        found = find_cell (child, id);
      if (found != NULL)
        return found;
    }
  return NULL;
}

typedef struct
{
  InventoryDesk *desk;
  const char    *id;
} Line;

static gboolean
is_whole_in_sight (gpointer data)
{
  const Line *line = data;
  GtkWidget *list = wb_test_find (line->desk->page, WB_TYPE_INVENTORY_LIST, NULL);
  GtkWidget *cell = find_cell (list, line->id);
  graphene_rect_t bounds;

  return cell != NULL && gtk_widget_get_mapped (cell)
         && gtk_widget_compute_bounds (cell, list, &bounds)
         && bounds.origin.y + bounds.size.height <= (float) gtk_widget_get_height (list);
}

/* However full the list is, the line entered last stays in sight when what is said below grows by
 * where its piece is, at once or later. */
static void
test_in_sight (InventoryDesk *desk,
               gconstpointer  data)
{
  g_autoptr (WbRecord) handover = wb_record_new (WB_KIND_HANDOVER, "h");

  for (guint i = 14; i < 24; i++)
    {
      g_autoptr (WbJob) job = NULL;
      Line line = { desk, NULL };

      g_test_message ("%u lines", i + 1);
      inventory_desk_type (desk, "box\n");
      line.id = inventory_desk_get_piece (desk, i)->record.id;
      if (i % 2 == 0)
        wb_test_wait_until_drawn (desk->window);
      wb_test_wait_until (is_whole_in_sight, &line);

      job = wb_job_with (wb_job_model_get_job (desk->model), handover);
      wb_job_model_apply (desk->model, job, "Add handover");
      inventory_desk_rest (desk);
      wb_test_wait_until_drawn (desk->window);
      wb_test_settle ();
      wb_test_wait_until (is_whole_in_sight, &line);
      wb_job_model_undo (desk->model);
      inventory_desk_rest (desk);
      wb_test_wait_until_drawn (desk->window);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();
#define ADD(name, function) \
  g_test_add ("/desk/inventory-page/" name, InventoryDesk, NULL, set_up, function, tear_down)
  ADD ("sort-weight", test_sort_weight);
  ADD ("sort-tag", test_sort_tag);
  ADD ("sort-value", test_sort_value);
  ADD ("filter", test_filter);
  ADD ("tag-in-filter", test_tag_in_filter);
  ADD ("remove", test_remove);
  ADD ("remove-refused", test_remove_refused);
  ADD ("bulk", test_bulk);
  ADD ("bulk-marks", test_bulk_marks);
  ADD ("bulk-lot", test_bulk_lot);
  ADD ("warnings", test_warnings);
  ADD ("lots", test_lots);
  ADD ("lot-colour", test_lot_colour);
  ADD ("names", test_names);
  ADD ("in-sight", test_in_sight);
#undef ADD
  return g_test_run ();
}
