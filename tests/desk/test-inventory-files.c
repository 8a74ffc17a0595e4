/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists in and out: the report of an import and the two answers to it, and the export. */
#include "config.h"

#include "inventory-desk.h"
#include "support/wb-test-window.h"

#include "desk/inventory/wb-import-dialog.h"

static void
set_up (InventoryDesk *desk,
        gconstpointer  data)
{
  inventory_desk_open (desk, 3, 1180, 760);
}

static void
tear_down (InventoryDesk *desk,
           gconstpointer  data)
{
  inventory_desk_close (desk);
}

static GFile *
write_list (InventoryDesk *desk,
            const char    *text)
{
  g_autofree char *path = g_build_filename (desk->folder, "list.csv", NULL);
  g_autoptr (GError) error = NULL;

  g_file_set_contents (path, text, -1, &error);
  g_assert_no_error (error);
  return g_file_new_for_path (path);
}

static void
set_true (gboolean *done)
{
  *done = TRUE;
}

static gboolean
is_true (gpointer data)
{
  return *(gboolean *) data;
}

static GtkWidget *
find_dialog (void)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWindow) window = g_list_model_get_item (windows, i);

      if (WB_IS_IMPORT_DIALOG (window))
        return GTK_WIDGET (window);
    }
  return NULL;
}

/* Opens the import of @file and waits for its report. */
static GtkWidget *
import (InventoryDesk *desk,
        GFile         *file)
{
  gboolean reported = FALSE;
  GtkWidget *dialog;

  wb_inventory_page_import (WB_INVENTORY_PAGE (desk->page), file);
  dialog = find_dialog ();
  g_assert_nonnull (dialog);
  g_signal_connect_swapped (dialog, "reported", G_CALLBACK (set_true), &reported);
  wb_test_wait_until (is_true, &reported);
  g_signal_handlers_disconnect_by_func (dialog, set_true, &reported);
  wb_test_wait_until_drawn (dialog);
  return dialog;
}

static void
press (GtkWidget  *dialog,
       const char *label)
{
  GtkWidget *button = wb_test_find (dialog, GTK_TYPE_BUTTON, label);

  g_assert_nonnull (button);
  g_assert_true (gtk_widget_is_sensitive (button));
  gtk_widget_activate (button);
  wb_test_settle ();
}

static gboolean
is_closed (gpointer data)
{
  return find_dialog () == NULL;
}

static gboolean
says (GtkWidget  *root,
      const char *text)
{
  return wb_test_find (root, GTK_TYPE_LABEL, text) != NULL;
}

static guint
count (InventoryDesk *desk)
{
  return wb_job_count (inventory_desk_get_job (desk), WB_KIND_PIECE);
}

static const char *const mixed_list =
  "Tag number,Description,Room,Weight,Condition at origin,Colour of the sky\r\n"
  "11,armchair,Den,40 lb,SC 4,grey\r\n"
  "12,side table,Den,heavy,,grey\r\n"
  "13,mirror,Hall,12 lb,QQ 4,grey\r\n"
  "14,rug,Hall,31 lb,,grey\r\n";

/* Bad rows are named with their column and what is wrong; the good ones are taken in one step. */
static void
test_good_rows (InventoryDesk *desk,
                gconstpointer  data)
{
  g_autoptr (GFile) file = write_list (desk, mixed_list);
  GtkWidget *dialog = import (desk, file);
  GtkWidget *faults = wb_test_find (dialog, GTK_TYPE_COLUMN_VIEW, "What is wrong with the list");
  GListModel *rows;

  g_assert_true (says (dialog, "2 of 4 rows can be taken."));
  g_assert_true (says (dialog, "This column says nothing to Wainbook and is left out: "
                               "“Colour of the sky”."));
  g_assert_nonnull (faults);
  rows = G_LIST_MODEL (gtk_column_view_get_model (GTK_COLUMN_VIEW (faults)));
  g_assert_cmpuint (g_list_model_get_n_items (rows), ==, 2);
  g_assert_true (says (faults, "3"));
  g_assert_true (says (faults, "Weight"));
  g_assert_true (says (faults, "Condition at origin"));
  wb_test_save_picture (dialog, "inventory-import-report");
  g_assert_cmpuint (count (desk), ==, 3);

  press (dialog, "_Take 2 Good Rows");
  wb_test_wait_until (is_closed, NULL);
  g_assert_cmpuint (count (desk), ==, 5);
  g_assert_cmpstr (inventory_desk_get_piece (desk, 3)->description, ==, "armchair");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 3)->marks, ==, "SC 4");
  g_assert_cmpstr (inventory_desk_get_piece (desk, 4)->description, ==, "rug");
  g_assert_true (says (desk->page, "2 lines imported"));

  wb_job_model_undo (desk->model);
  g_assert_cmpuint (count (desk), ==, 3);
}

static void
test_none (InventoryDesk *desk,
           gconstpointer  data)
{
  g_autoptr (GFile) file = write_list (desk, mixed_list);
  GtkWidget *dialog = import (desk, file);

  press (dialog, "Take _None");
  wb_test_wait_until (is_closed, NULL);
  g_assert_cmpuint (count (desk), ==, 3);
}

/* What came into the job while the report was read stays. */
static void
test_changed_meanwhile (InventoryDesk *desk,
                        gconstpointer  data)
{
  g_autoptr (GFile) file = write_list (desk, mixed_list);
  GtkWidget *dialog = import (desk, file);
  g_autoptr (GError) error = NULL;

  wb_job_model_set_field (desk->model, WB_KIND_PIECE, "p0", "room", "Cellar", &error);
  g_assert_no_error (error);
  press (dialog, "_Take 2 Good Rows");
  wb_test_wait_until (is_closed, NULL);
  g_assert_cmpuint (count (desk), ==, 5);
  g_assert_cmpstr (inventory_desk_get_piece (desk, 0)->room, ==, "Cellar");
}

/* A file that is no list is said to be none, and there is nothing to take. */
static void
test_no_list (InventoryDesk *desk,
              gconstpointer  data)
{
  g_autoptr (GFile) file = write_list (desk, "alpha,beta\r\n1,2\r\n");
  GtkWidget *dialog = import (desk, file);
  GtkWidget *page = wb_test_find (dialog, ADW_TYPE_STATUS_PAGE, "The List Cannot Be Read");

  g_assert_true (gtk_widget_get_mapped (page));
  g_assert_nonnull (strstr (adw_status_page_get_description (ADW_STATUS_PAGE (page)), "heading"));
  g_assert_false (gtk_widget_get_mapped (wb_test_find (dialog, GTK_TYPE_BUTTON, "_Take")));
  wb_test_save_picture (dialog, "inventory-import-failed");
  press (dialog, "_Close");
  wb_test_wait_until (is_closed, NULL);
}

static void
test_missing_file (InventoryDesk *desk,
                   gconstpointer  data)
{
  g_autofree char *path = g_build_filename (desk->folder, "nowhere.csv", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  GtkWidget *dialog = import (desk, file);

  g_assert_true (gtk_widget_get_mapped (wb_test_find (dialog, ADW_TYPE_STATUS_PAGE,
                                                      "The List Cannot Be Read")));
  press (dialog, "_Close");
  wb_test_wait_until (is_closed, NULL);
}

static gboolean
is_written (gpointer data)
{
  InventoryDesk *desk = data;

  return says (desk->page, "The inventory was written.");
}

static void
remove_all (InventoryDesk *desk)
{
  GtkColumnView *view = GTK_COLUMN_VIEW (wb_test_find (desk->page, GTK_TYPE_COLUMN_VIEW, NULL));

  gtk_selection_model_select_all (gtk_column_view_get_model (view));
  wb_test_settle ();
  g_assert_true (gtk_widget_activate_action (desk->page, "inventory.remove", NULL));
  g_assert_cmpuint (count (desk), ==, 0);
}

/* What is written is the inventory again when it is read. */
static void
test_export (InventoryDesk *desk,
             gconstpointer  data)
{
  g_autofree char *path = g_build_filename (desk->folder, "out.csv", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  GtkWidget *dialog;

  wb_inventory_page_export (WB_INVENTORY_PAGE (desk->page), file);
  wb_test_wait_until (is_written, desk);
  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  g_assert_nonnull (strstr (text, "sofa, three seats"));

  /* The same tags again in the same job would be refused. */
  remove_all (desk);
  dialog = import (desk, file);
  g_assert_true (says (dialog, "All 3 rows can be taken."));
  wb_test_save_picture (dialog, "inventory-import-good");
  press (dialog, "_Take 3 Rows");
  wb_test_wait_until (is_closed, NULL);
  g_assert_cmpuint (count (desk), ==, 3);
  g_assert_cmpstr (inventory_desk_get_piece (desk, 1)->marks, ==, "SC 2-4, W 5");
  g_assert_cmpint (inventory_desk_get_piece (desk, 2)->packed_by, ==, WB_PACKED_BY_OWNER);
}

static gboolean
is_refused (gpointer data)
{
  InventoryDesk *desk = data;

  return wb_test_find (desk->page, g_type_from_name ("AdwToastWidget"), NULL) != NULL;
}

/* A place where nothing can be written is said to be so. */
static void
test_export_refused (InventoryDesk *desk,
                     gconstpointer  data)
{
  g_autofree char *path = g_build_filename (desk->folder, "no-such-folder", "out.csv", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);

  wb_inventory_page_export (WB_INVENTORY_PAGE (desk->page), file);
  wb_test_wait_until (is_refused, desk);
  g_assert_false (says (desk->page, "The inventory was written."));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();
#define ADD(name, function) \
  g_test_add ("/desk/inventory-files/" name, InventoryDesk, NULL, set_up, function, tear_down)
  ADD ("good-rows", test_good_rows);
  ADD ("none", test_none);
  ADD ("changed-meanwhile", test_changed_meanwhile);
  ADD ("no-list", test_no_list);
  ADD ("missing-file", test_missing_file);
  ADD ("export", test_export);
  ADD ("export-refused", test_export_refused);
#undef ADD
  return g_test_run ();
}
