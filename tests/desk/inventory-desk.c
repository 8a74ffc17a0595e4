/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "inventory-desk.h"

#include "desk/inventory/wb-inventory-list.h"
#include "desk/inventory/wb-line-entry.h"
#include "desk/widgets/wb-scanner.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

/* What a made-up household holds; piece number i takes row i % n, so that the same test sees the
 * same pieces. */
static const struct
{
  const char *carton;
  const char *description;
  const char *contents;
  const char *room;
  WbPackedBy  packed_by;
  const char *packer;
  const char *marks;
  gint64      pounds;
} household[] = {
  { "dish pack", "plates and bowls", "everyday stoneware, 24 plates", "Kitchen",
    WB_PACKED_BY_CARRIER, "R. Osei", NULL, 46 },
  { NULL, "sofa, three seats", NULL, "Living room", WB_PACKED_UNKNOWN, NULL, "SC 2-4, W 5", 130 },
  { "book carton", "books", "novels A to F", "Study", WB_PACKED_BY_OWNER, NULL, NULL, 38 },
  { NULL, "oak table, six seats", NULL, "Dining room", WB_PACKED_UNKNOWN, NULL, "SC 10, CH 3",
    115 },
  { "wardrobe", "coats", "winter coats, one suit", "Bedroom 1", WB_PACKED_BY_CARRIER, "R. Osei",
    NULL, 0 },
  { "lamp carton", "floor lamp", NULL, "Bedroom 1", WB_PACKED_BY_CARRIER, "M. Brandt", "BE 5", 12 },
  { NULL, "washing machine", NULL, "Utility room", WB_PACKED_UNKNOWN, NULL, "D 6, MCU", 155 },
};

static WbPiece *
make_piece (guint index)
{
  g_autofree char *id = g_strdup_printf ("p%u", index);
  WbPiece *piece = wb_record_new (WB_KIND_PIECE, id);
  guint row = index % G_N_ELEMENTS (household);

  wb_set_text (&piece->lot, "lot");
  piece->tag = index + 1;
  piece->form = household[row].carton != NULL ? WB_FORM_CARTON : WB_FORM_LOOSE;
  piece->packed_by = household[row].packed_by;
  wb_set_text (&piece->carton, household[row].carton);
  wb_set_text (&piece->description, household[row].description);
  wb_set_text (&piece->contents, household[row].contents);
  wb_set_text (&piece->room, household[row].room);
  wb_set_text (&piece->packer, household[row].packer);
  wb_set_text (&piece->marks, household[row].marks);
  if (household[row].pounds > 0)
    piece->weight = wb_weight (household[row].pounds * 100, WB_WEIGHT_UNIT_LB);
  return piece;
}

static WbJob *
make_job (WbJob *empty,
          guint  n_pieces)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  WbLot *lot = wb_record_new (WB_KIND_LOT, "lot");

  wb_set_text (&lot->colour, "blue");
  wb_set_text (&lot->number, "204");
  lot->first = 1;
  lot->last = 300;
  g_ptr_array_add (records, lot);
  for (guint i = 0; i < n_pieces; i++)
    g_ptr_array_add (records, make_piece (i));
  return wb_job_with_many (empty, records);
}

void
inventory_desk_open (InventoryDesk *self,
                     guint          n_pieces,
                     int            width,
                     int            height)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = NULL;
  g_autoptr (WbJob) empty = NULL;
  g_autoptr (WbJob) job = NULL;

  self->folder = g_dir_make_tmp ("wb-inventory-XXXXXX", &error);
  g_assert_no_error (error);
  path = g_build_filename (self->folder, "office.wainbook", NULL);
  self->office = wb_office_open (path, WB_BOOK_CREATE, NULL, &error);
  g_assert_no_error (error);
  empty = wb_office_create_job (self->office, "USD", NULL, &error);
  g_assert_no_error (error);
  job = make_job (empty, n_pieces);
  self->model = wb_job_model_new (self->office, job);

  wb_test_load_style ();
  self->page = wb_inventory_page_new (self->model);
  self->window = adw_window_new ();
  gtk_window_set_default_size (GTK_WINDOW (self->window), width, height);
  gtk_window_set_title (GTK_WINDOW (self->window), "Inventory");
  adw_window_set_content (ADW_WINDOW (self->window), self->page);
  gtk_window_present (GTK_WINDOW (self->window));
  wb_test_wait_until_drawn (self->window);
  gtk_widget_grab_focus (self->page);
}

static gboolean
is_gone (gpointer data)
{
  gpointer *object = data;

  return *object == NULL;
}

static void
delete_folder (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autoptr (GFile) file = g_file_new_for_path (path);

      g_file_delete (file, NULL, NULL);
    }
  {
    g_autoptr (GFile) file = g_file_new_for_path (folder);

    g_file_delete (file, NULL, NULL);
  }
}

/* The page goes with its window, and nothing keeps it. */
void
inventory_desk_close (InventoryDesk *self)
{
  g_object_add_weak_pointer (G_OBJECT (self->page), (gpointer *) &self->page);
  gtk_window_destroy (GTK_WINDOW (self->window));
  wb_test_wait_until (is_gone, &self->page);

  g_clear_object (&self->model);
  wb_office_close (self->office);
  g_clear_object (&self->office);
  wb_test_settle ();
  delete_folder (self->folder);
  g_clear_pointer (&self->folder, g_free);
}

/* --- keys ------------------------------------------------------------------------------------- */

void
inventory_desk_type (InventoryDesk *self,
                     const char    *keys)
{
  wb_test_type (self->window, keys);
}

void
inventory_desk_type_slowly (InventoryDesk *self,
                            const char    *text)
{
  for (; *text != '\0'; text++)
    {
      const char key[] = { *text, '\0' };

      g_usleep (2 * WB_SCANNER_GAP_MS * 1000);
      inventory_desk_type (self, key);
    }
  /* Nobody scans in the same breath. */
  g_usleep (5 * WB_SCANNER_GAP_MS * 1000);
}

/* --- looking ---------------------------------------------------------------------------------- */

const WbJob *
inventory_desk_get_job (InventoryDesk *self)
{
  return wb_job_model_get_job (self->model);
}

const WbPiece *
inventory_desk_get_piece (InventoryDesk *self,
                          guint          index)
{
  const WbJob *job = inventory_desk_get_job (self);

  g_assert_cmpuint (index, <, wb_job_count (job, WB_KIND_PIECE));
  return wb_job_nth (job, WB_KIND_PIECE, index);
}

static WbInventoryList *
find_list (InventoryDesk *self)
{
  return WB_INVENTORY_LIST (wb_test_find (self->page, WB_TYPE_INVENTORY_LIST, NULL));
}

char *
inventory_desk_get_shown (InventoryDesk *self)
{
  GListModel *shown = G_LIST_MODEL (wb_inventory_list_get_selection (find_list (self)));
  GString *ids = g_string_new (NULL);

  for (guint i = 0; i < g_list_model_get_n_items (shown); i++)
    {
      g_autoptr (WbRecordItem) item = g_list_model_get_item (shown, i);
      const WbRecord *record = wb_record_item_get_record (item);

      g_string_append_printf (ids, "%s%s", i > 0 ? " " : "", record->id);
    }
  return g_string_free (ids, FALSE);
}

GtkEditable *
inventory_desk_get_field (InventoryDesk *self,
                          const char    *label)
{
  GtkWidget *entry = wb_test_find (self->page, GTK_TYPE_ENTRY, label);

  g_assert_nonnull (entry);
  return GTK_EDITABLE (entry);
}

const char *
inventory_desk_get_beneath (InventoryDesk *self,
                            const char    *label)
{
  GtkWidget *entry = GTK_WIDGET (inventory_desk_get_field (self, label));

  return gtk_label_get_text (GTK_LABEL (gtk_widget_get_next_sibling (entry)));
}

gboolean
inventory_desk_is_focus (InventoryDesk *self,
                         const char    *label)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (self->window));

  return focus != NULL && gtk_widget_is_ancestor (focus,
                                                  GTK_WIDGET (inventory_desk_get_field (self,
                                                                                        label)));
}

static gboolean
is_at_rest (gpointer data)
{
  return wb_inventory_list_is_at_rest (find_list (data));
}

void
inventory_desk_rest (InventoryDesk *self)
{
  wb_test_wait_until (is_at_rest, self);
  wb_test_settle ();
}

void
inventory_desk_picture (InventoryDesk *self,
                        const char    *name)
{
  wb_test_wait_until_drawn (self->window);
  wb_test_save_picture (self->window, name);
}
