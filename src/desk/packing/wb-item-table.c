/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A grid with two entries a row. It shows what core worked out and asks for what is typed; it
 * changes no job. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/packing/wb-item-table.h"

#include "office/wb-words-packing.h"

#include <glib/gi18n.h>

#define NUMBER_CHARS 5
#define LEAST_NAME_CHARS 10

enum
{
  COLUMN_NAME,
  COLUMN_COUNT,
  COLUMN_PLANNED,
  COLUMN_USED,
  COLUMN_DIFFERENCE,
};

/* One row of the grid; its widgets belong to the grid. */
typedef struct
{
  char     *item;
  GtkLabel *name;
  GtkLabel *count;
  GtkEntry *planned;
  GtkEntry *used;
  GtkLabel *difference;
} Row;

struct _WbItemTable
{
  GtkWidget  parent_instance;

  GtkGrid   *grid;
  GtkLabel  *fault;
  GPtrArray *rows;      /* Row */
};

enum
{
  TYPED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbItemTable, wb_item_table, GTK_TYPE_WIDGET)

static void
row_free (gpointer data)
{
  Row *row = data;

  g_free (row->item);
  g_free (row);
}

/* --- entries ---------------------------------------------------------------------------------- */

/* What the entry shows when nothing is typed in it. */
static const char *
get_base (GtkEntry *entry)
{
  const char *base = g_object_get_data (G_OBJECT (entry), "base");

  return base != NULL ? base : "";
}

static gboolean
is_dirty (GtkEntry *entry)
{
  return !g_str_equal (gtk_editable_get_text (GTK_EDITABLE (entry)), get_base (entry));
}

static void
mark (GtkEntry *entry,
      gboolean  bad)
{
  if (bad)
    gtk_widget_add_css_class (GTK_WIDGET (entry), "error");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (entry), "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_STATE_INVALID,
                               bad ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE,
                               -1);
}

static void
show_number (GtkEntry   *entry,
             const char *text)
{
  gboolean dirty = is_dirty (entry);

  g_object_set_data_full (G_OBJECT (entry), "base", g_strdup (text), g_free);
  if (dirty)
    return;
  if (!g_str_equal (gtk_editable_get_text (GTK_EDITABLE (entry)), text))
    gtk_editable_set_text (GTK_EDITABLE (entry), text);
  mark (entry, FALSE);
}

/* Returns: whether what is typed was taken, or nothing was typed. */
static gboolean
commit (WbItemTable *self,
        GtkEntry    *entry)
{
  g_autofree char *text = g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry)));
  gboolean taken = FALSE;

  if (!is_dirty (entry))
    {
      mark (entry, FALSE);
      return TRUE;
    }

  wb_item_table_show_fault (self, NULL);
  /* Taken as shown before the job tells of it, so that it is shown as the job writes it. */
  g_object_set_data_full (G_OBJECT (entry), "base", g_strdup (text), g_free);
  g_signal_emit (self, signals[TYPED], 0, g_object_get_data (G_OBJECT (entry), "item"),
                 g_object_get_data (G_OBJECT (entry), "field"), text, &taken);
  if (!taken)
    g_object_set_data (G_OBJECT (entry), "base", NULL);
  mark (entry, !taken);
  return taken;
}

static void
activate_cb (WbItemTable *self,
             GtkEntry    *entry)
{
  if (commit (self, entry))
    gtk_widget_child_focus (GTK_WIDGET (self->grid), GTK_DIR_DOWN);
}

static void
leave_cb (GtkEventControllerFocus *controller,
          WbItemTable             *self)
{
  GtkWidget *entry = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (controller));

  if (self->grid != NULL)
    commit (self, GTK_ENTRY (entry));
}

static gboolean
revert_cb (GtkWidget *widget,
           GVariant  *args,
           gpointer   data)
{
  WbItemTable *self = WB_ITEM_TABLE (gtk_widget_get_ancestor (widget, WB_TYPE_ITEM_TABLE));
  const char *stored = g_object_get_data (G_OBJECT (widget), "stored");

  if (!is_dirty (GTK_ENTRY (widget)) && !gtk_widget_has_css_class (widget, "error"))
    return FALSE;
  g_object_set_data_full (G_OBJECT (widget), "base", g_strdup (stored), g_free);
  gtk_editable_set_text (GTK_EDITABLE (widget), stored != NULL ? stored : "");
  mark (GTK_ENTRY (widget), FALSE);
  wb_item_table_show_fault (self, NULL);
  return TRUE;
}

static GtkEntry *
make_entry (WbItemTable *self,
            const char  *item,
            const char  *field)
{
  GtkWidget *entry = gtk_entry_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkEventController *keys = gtk_shortcut_controller_new ();
  GtkShortcut *escape = gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Escape, 0),
                                          gtk_callback_action_new (revert_cb, NULL, NULL));

  gtk_editable_set_width_chars (GTK_EDITABLE (entry), NUMBER_CHARS);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), NUMBER_CHARS);
  gtk_editable_set_alignment (GTK_EDITABLE (entry), 1);
  gtk_entry_set_input_purpose (GTK_ENTRY (entry), GTK_INPUT_PURPOSE_DIGITS);
  gtk_widget_add_css_class (entry, "numeric");
  gtk_widget_set_valign (entry, GTK_ALIGN_CENTER);
  g_object_set_data_full (G_OBJECT (entry), "item", g_strdup (item), g_free);
  g_object_set_data (G_OBJECT (entry), "field", (gpointer) field);
  g_signal_connect_object (entry, "activate", G_CALLBACK (activate_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (focus, "leave", G_CALLBACK (leave_cb), self, 0);
  gtk_widget_add_controller (entry, focus);
  gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (keys), escape);
  gtk_widget_add_controller (entry, keys);
  return GTK_ENTRY (entry);
}

/* --- the grid --------------------------------------------------------------------------------- */

static GtkLabel *
add_label (WbItemTable *self,
           const char  *text,
           int          column,
           int          row,
           gboolean     right)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), right ? 1 : 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_grid_attach (self->grid, label, column, row, 1, 1);
  return GTK_LABEL (label);
}

static void
add_headings (WbItemTable *self)
{
  static const char *const headings[] = {
    [COLUMN_NAME] = N_("Carton or material"),
    [COLUMN_COUNT] = N_("On the inventory"),
    [COLUMN_PLANNED] = N_("Planned"),
    [COLUMN_USED] = N_("Used"),
    [COLUMN_DIFFERENCE] = N_("Difference"),
  };

  for (int i = 0; i < (int) G_N_ELEMENTS (headings); i++)
    {
      GtkLabel *label = add_label (self, _(headings[i]), i, 0,
                                   i == COLUMN_PLANNED || i == COLUMN_USED);

      /* A heading is never broken within a word. */
      gtk_label_set_wrap_mode (label, PANGO_WRAP_WORD);
      gtk_widget_add_css_class (GTK_WIDGET (label), "caption-heading");
    }
}

static void
clear_grid (WbItemTable *self)
{
  GtkWidget *child;

  g_ptr_array_set_size (self->rows, 0);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->grid))) != NULL)
    gtk_grid_remove (self->grid, child);
}

static void
add_row (WbItemTable        *self,
         const WbPackingRow *shown)
{
  Row *row = g_new0 (Row, 1);
  int place = (int) self->rows->len + 1;

  row->item = g_strdup (shown->item);
  row->name = add_label (self, NULL, COLUMN_NAME, place, FALSE);
  gtk_label_set_width_chars (row->name, LEAST_NAME_CHARS);
  gtk_widget_set_hexpand (GTK_WIDGET (row->name), TRUE);
  row->count = add_label (self, NULL, COLUMN_COUNT, place, FALSE);
  row->planned = make_entry (self, shown->item, "planned");
  gtk_grid_attach (self->grid, GTK_WIDGET (row->planned), COLUMN_PLANNED, place, 1, 1);
  row->used = make_entry (self, shown->item, "used");
  gtk_grid_attach (self->grid, GTK_WIDGET (row->used), COLUMN_USED, place, 1, 1);
  row->difference = add_label (self, NULL, COLUMN_DIFFERENCE, place, FALSE);
  g_ptr_array_add (self->rows, row);
}

static void
add_count (GString    *text,
           guint       n,
           const char *nick)
{
  if (n > 0)
    g_string_append_printf (text, "%s%u %s", text->len > 0 ? ", " : "", n, nick);
}

/* "20 CP, 1 PBO" */
static char *
describe_count (const WbPackingRow *row)
{
  GString *text = g_string_new (NULL);

  add_count (text, row->carrier, "CP");
  add_count (text, row->owner, "PBO");
  /* Translators: behind a number of cartons of which nobody knows who packed them. */
  add_count (text, row->unknown, _("unknown"));
  return g_string_free (text, FALSE);
}

static void
name_entry (GtkEntry   *entry,
            const char *name,
            const char *field)
{
  g_autofree char *words = g_strdup_printf ("%s, %s", name, field);

  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
}

static void
show_entry (GtkEntry *entry,
            gint64    number)
{
  g_autofree char *text = number == WB_INTEGER_UNSET
    ? g_strdup ("") : g_strdup_printf ("%" G_GINT64_FORMAT, number);

  g_object_set_data_full (G_OBJECT (entry), "stored", g_strdup (text), g_free);
  show_number (entry, text);
}

static void
show_row (Row                *row,
          const WbPackingRow *shown)
{
  g_autofree char *name = wb_words_packing_item (shown);
  g_autofree char *unit = shown->entry != NULL && shown->entry->unit != NULL
    /* Translators: a packing material, the unit it is counted in. */
    ? g_strdup_printf (_("%s (%s)"), name, shown->entry->unit) : g_strdup (name);
  g_autofree char *count = describe_count (shown);
  g_autofree char *difference = wb_words_packing_difference (shown->difference);
  g_autofree char *counted = NULL;

  gtk_label_set_label (row->name, unit);
  gtk_label_set_label (row->count, count);
  gtk_label_set_label (row->difference, difference);
  show_entry (row->planned, shown->planned);
  show_entry (row->used, shown->counted ? WB_INTEGER_UNSET : shown->used);
  if (shown->counted)
    /* What the inventory counts stands where a typed number would. */
    counted = wb_words_packing_number (shown->used);
  gtk_entry_set_placeholder_text (row->used, counted);
  name_entry (row->planned, name, _("planned"));
  name_entry (row->used, name, _("used"));
}

/* --- widget ----------------------------------------------------------------------------------- */

static void
wb_item_table_dispose (GObject *object)
{
  WbItemTable *self = WB_ITEM_TABLE (object);
  GtkWidget *child;

  self->grid = NULL;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  g_clear_pointer (&self->rows, g_ptr_array_unref);

  G_OBJECT_CLASS (wb_item_table_parent_class)->dispose (object);
}

static void
wb_item_table_class_init (WbItemTableClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_item_table_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);

  signals[TYPED] = g_signal_new ("typed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0,
                                 g_signal_accumulator_true_handled, NULL, NULL, G_TYPE_BOOLEAN, 3,
                                 G_TYPE_STRING, G_TYPE_STRING, G_TYPE_STRING);
}

static void
wb_item_table_init (WbItemTable *self)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));
  GtkWidget *grid = gtk_grid_new ();
  GtkWidget *fault = gtk_label_new (NULL);

  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (layout), 6);

  self->rows = g_ptr_array_new_with_free_func (row_free);
  self->grid = GTK_GRID (grid);
  gtk_grid_set_column_spacing (self->grid, 12);
  gtk_grid_set_row_spacing (self->grid, 3);
  gtk_widget_set_parent (grid, GTK_WIDGET (self));

  self->fault = GTK_LABEL (fault);
  gtk_label_set_xalign (self->fault, 0);
  gtk_label_set_wrap (self->fault, TRUE);
  gtk_widget_add_css_class (fault, "error");
  gtk_widget_set_visible (fault, FALSE);
  gtk_widget_set_parent (fault, GTK_WIDGET (self));
}

static gboolean
has_rows_of (WbItemTable *self,
             GPtrArray   *rows)
{
  if (rows->len != self->rows->len)
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    if (!g_str_equal (((WbPackingRow *) g_ptr_array_index (rows, i))->item,
                      ((Row *) g_ptr_array_index (self->rows, i))->item))
      return FALSE;
  return TRUE;
}

/* Remembers which number has the focus. Returns: (transfer full) (nullable): its item. */
static char *
find_focus (WbItemTable  *self,
            const char  **field)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  GtkWidget *entry = focus != NULL ? gtk_widget_get_ancestor (focus, GTK_TYPE_ENTRY) : NULL;

  if (entry == NULL || !gtk_widget_is_ancestor (entry, GTK_WIDGET (self)))
    return NULL;
  *field = g_object_get_data (G_OBJECT (entry), "field");
  return g_strdup (g_object_get_data (G_OBJECT (entry), "item"));
}

void
wb_item_table_show (WbItemTable     *self,
                    const WbPacking *packing)
{
  GPtrArray *rows;

  g_return_if_fail (WB_IS_ITEM_TABLE (self));

  rows = wb_packing_rows (packing);
  if (!has_rows_of (self, rows))
    {
      const char *field = NULL;
      g_autofree char *focused = find_focus (self, &field);

      clear_grid (self);
      add_headings (self);
      for (guint i = 0; i < rows->len; i++)
        add_row (self, g_ptr_array_index (rows, i));
      if (focused != NULL)
        wb_item_table_edit (self, focused, field);
    }
  for (guint i = 0; i < rows->len; i++)
    show_row (g_ptr_array_index (self->rows, i), g_ptr_array_index (rows, i));
  gtk_widget_set_visible (GTK_WIDGET (self), rows->len > 0);
}

void
wb_item_table_show_fault (WbItemTable *self,
                          const char  *sentence)
{
  g_return_if_fail (WB_IS_ITEM_TABLE (self));

  gtk_label_set_label (self->fault, sentence != NULL ? sentence : "");
  gtk_widget_set_visible (GTK_WIDGET (self->fault), sentence != NULL);
}

gboolean
wb_item_table_edit (WbItemTable *self,
                    const char  *item,
                    const char  *field)
{
  g_return_val_if_fail (WB_IS_ITEM_TABLE (self), FALSE);

  for (guint i = 0; i < self->rows->len; i++)
    {
      const Row *row = g_ptr_array_index (self->rows, i);

      if (g_str_equal (row->item, item))
        return gtk_widget_grab_focus (GTK_WIDGET (g_str_equal (field, "used") ? row->used
                                                                              : row->planned));
    }
  return FALSE;
}
