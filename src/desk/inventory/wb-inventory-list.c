/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table: records of the model, sorted, filtered, selected, in a column view. Filtering comes
 * after sorting, so that words typed do not sort anything anew. What a column shows is the column
 * table's, what happens to the selected lines is the page's, and wb-inventory-list-reveal.c brings
 * a line into sight. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-inventory-list-private.h"

#include "desk/inventory/wb-inventory-cell.h"
#include "desk/inventory/wb-inventory-column.h"
#include "desk/widgets/wb-focus-within.h"

#include <glib/gi18n.h>

/* So many lines are always seen; all else goes first to the fields beneath. */
#define LEAST_LINES 3

/* Pixels of a line, or of the titles, beside the height of the text. */
#define ROOM_IN_LINE 10

/* A sorter's own data: which column, of which job. */
typedef struct
{
  const WbInventoryColumn *column;
  WbJobModel              *model;     /* borrowed from the list, which outlives its sorters */
} SortKey;

enum
{
  EDIT,
  CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbInventoryList, wb_inventory_list, GTK_TYPE_WIDGET)

/* --- columns ---------------------------------------------------------------------------------- */

static int
compare_items (gconstpointer a,
               gconstpointer b,
               gpointer      data)
{
  const SortKey *key = data;

  return key->column->compare (wb_job_model_get_job (key->model),
                               wb_record_item_get_record (WB_RECORD_ITEM ((gpointer) a)),
                               wb_record_item_get_record (WB_RECORD_ITEM ((gpointer) b)));
}

static GtkSorter *
make_sorter (WbInventoryList         *self,
             const WbInventoryColumn *column)
{
  SortKey *key = g_new (SortKey, 1);

  key->column = column;
  key->model = self->model;
  return GTK_SORTER (gtk_custom_sorter_new (compare_items, key, g_free));
}

static void
setup_cb (WbInventoryList          *self,
          GtkListItem              *list_item,
          GtkSignalListItemFactory *factory)
{
  const WbInventoryColumn *column = g_object_get_data (G_OBJECT (factory), "column");

  gtk_list_item_set_child (list_item, wb_inventory_cell_new (column, self->model));
}

/* There is no unbinding: a row that only moves is bound to the same item once more, which costs
 * nothing as long as the cell has kept it. */
static void
bind_cb (WbInventoryList          *self,
         GtkListItem              *list_item,
         GtkSignalListItemFactory *factory)
{
  wb_inventory_cell_set_item (WB_INVENTORY_CELL (gtk_list_item_get_child (list_item)),
                              gtk_list_item_get_item (list_item));
}

static void
add_column (WbInventoryList         *self,
            const WbInventoryColumn *column)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  g_autoptr (GtkColumnViewColumn) view_column = NULL;
  g_autoptr (GtkSorter) sorter = make_sorter (self, column);

  g_object_set_data (G_OBJECT (factory), "column", (gpointer) column);
  g_signal_connect_object (factory, "setup", G_CALLBACK (setup_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (factory, "bind", G_CALLBACK (bind_cb), self, G_CONNECT_SWAPPED);

  view_column = gtk_column_view_column_new (_(column->title), factory);
  gtk_column_view_column_set_resizable (view_column, TRUE);
  gtk_column_view_column_set_expand (view_column, column->expand);
  gtk_column_view_column_set_sorter (view_column, sorter);
  gtk_column_view_append_column (self->view, view_column);
  g_ptr_array_add (self->columns, g_steal_pointer (&view_column));
}

/* --- finding ---------------------------------------------------------------------------------- */

static const char *
id_of (gpointer item)
{
  const WbRecord *record = wb_record_item_get_record (WB_RECORD_ITEM (item));

  return record->id;
}

/* A line that was removed may be shown a moment longer, but nothing is done with it any more. */
static gboolean
is_in_job (WbInventoryList *self,
           gpointer         item)
{
  return wb_job_find (wb_job_model_get_job (self->model), WB_KIND_PIECE, id_of (item)) != NULL;
}

guint
wb_inventory_list_find_position (WbInventoryList *self,
                                 const char      *id)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->selection));

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (WbRecordItem) item = g_list_model_get_item (G_LIST_MODEL (self->selection), i);

      if (g_str_equal (id_of (item), id))
        return i;
    }
  return GTK_INVALID_LIST_POSITION;
}

GtkWidget *
wb_inventory_list_find_rows (WbInventoryList *self)
{
  GtkWidget *child = gtk_widget_get_last_child (GTK_WIDGET (self->view));

  while (child != NULL && !g_type_is_a (G_OBJECT_TYPE (child), GTK_TYPE_LIST_VIEW))
    child = gtk_widget_get_prev_sibling (child);
  return child;
}

/* The cells of all rows that the view keeps. */
static void
refresh_cells (WbInventoryList *self)
{
  GtkWidget *rows = wb_inventory_list_find_rows (self);

  for (GtkWidget *row = gtk_widget_get_first_child (rows); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    for (GtkWidget *place = gtk_widget_get_first_child (row); place != NULL;
         place = gtk_widget_get_next_sibling (place))
      {
        GtkWidget *cell = gtk_widget_get_first_child (place);

        if (WB_IS_INVENTORY_CELL (cell))
          wb_inventory_cell_refresh (WB_INVENTORY_CELL (cell));
      }
}

static gboolean
is_at_rest (WbInventoryList *self)
{
  return wb_steady_filter_get_pending (self->filtered) == 0
         && gtk_sort_list_model_get_pending (self->sorted) == 0;
}

/* --- telling ---------------------------------------------------------------------------------- */

static gboolean
tell_cb (gpointer data)
{
  WbInventoryList *self = data;

  self->tell_source = 0;
  if (!is_at_rest (self))
    return G_SOURCE_REMOVE;
  wb_inventory_list_reveal_awaited (self);
  g_signal_emit (self, signals[CHANGED], 0);
  return G_SOURCE_REMOVE;
}

static void
tell_soon (WbInventoryList *self)
{
  if (self->tell_source == 0)
    self->tell_source = g_idle_add (tell_cb, self);
}

/* --- following -------------------------------------------------------------------------------- */

/* A changed record may belong elsewhere now. Adding and removing the lists see by themselves. */
static void
job_changed_cb (WbInventoryList *self)
{
  refresh_cells (self);
  wb_inventory_filter_refresh (self->filter);
  for (guint i = 0; i < self->columns->len; i++)
    gtk_sorter_changed (gtk_column_view_column_get_sorter (g_ptr_array_index (self->columns, i)),
                        GTK_SORTER_CHANGE_DIFFERENT);
  tell_soon (self);
}

static void
activate_cb (WbInventoryList *self,
             guint            position)
{
  g_autoptr (WbRecordItem) item = g_list_model_get_item (G_LIST_MODEL (self->selection), position);

  if (item != NULL && is_in_job (self, item))
    g_signal_emit (self, signals[EDIT], 0, id_of (item));
}

/* --- taking the lines in ---------------------------------------------------------------------- */

static void
start (WbInventoryList *self)
{
  const WbInventoryColumn *columns;
  guint n_columns;

  self->filter = wb_inventory_filter_new (self->model);
  self->sorted = gtk_sort_list_model_new (g_object_ref (wb_job_model_get_records (self->model,
                                                                                  WB_KIND_PIECE)),
                                          g_object_ref (gtk_column_view_get_sorter (self->view)));
  gtk_sort_list_model_set_incremental (self->sorted, TRUE);
  self->filtered = wb_steady_filter_new (G_LIST_MODEL (self->sorted), GTK_FILTER (self->filter));
  self->selection = gtk_multi_selection_new (G_LIST_MODEL (g_object_ref (self->filtered)));

  columns = wb_inventory_columns (&n_columns);
  for (guint i = 0; i < n_columns; i++)
    add_column (self, &columns[i]);
  gtk_column_view_set_model (self->view, GTK_SELECTION_MODEL (self->selection));

  g_signal_connect_object (self->selection, "items-changed", G_CALLBACK (tell_soon), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->selection, "selection-changed", G_CALLBACK (tell_soon), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->filtered, "notify::pending", G_CALLBACK (tell_soon), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->sorted, "notify::pending", G_CALLBACK (tell_soon), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->model, "notify::job", G_CALLBACK (job_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_emit (self, signals[CHANGED], 0);
}

void
wb_inventory_list_ensure_started (WbInventoryList *self)
{
  if (self->start_source == 0)
    return;
  g_clear_handle_id (&self->start_source, g_source_remove);
  start (self);
}

static gboolean
start_cb (gpointer data)
{
  WbInventoryList *self = data;

  self->start_source = 0;
  start (self);
  return G_SOURCE_REMOVE;
}

/* --- object ----------------------------------------------------------------------------------- */

static void
disconnect (WbInventoryList *self)
{
  gpointer told[] = { self->selection, self->filtered, self->sorted, self->model };

  for (gsize i = 0; i < G_N_ELEMENTS (told); i++)
    if (told[i] != NULL)
      g_signal_handlers_disconnect_by_data (told[i], self);
}

static void
wb_inventory_list_dispose (GObject *object)
{
  WbInventoryList *self = WB_INVENTORY_LIST (object);

  disconnect (self);
  g_clear_handle_id (&self->start_source, g_source_remove);
  g_clear_handle_id (&self->tell_source, g_source_remove);
  wb_inventory_list_drop_reveal (self);
  g_clear_pointer (&self->scroller, gtk_widget_unparent);
  self->view = NULL;
  g_clear_pointer (&self->columns, g_ptr_array_unref);
  g_clear_object (&self->selection);
  g_clear_object (&self->sorted);
  g_clear_object (&self->filtered);
  g_clear_object (&self->filter);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_inventory_list_parent_class)->dispose (object);
}

static void
wb_inventory_list_finalize (GObject *object)
{
  g_free (WB_INVENTORY_LIST (object)->awaited);

  G_OBJECT_CLASS (wb_inventory_list_parent_class)->finalize (object);
}

static gboolean
wb_inventory_list_grab_focus (GtkWidget *widget)
{
  WbInventoryList *self = WB_INVENTORY_LIST (widget);

  wb_inventory_list_ensure_started (self);
  return gtk_widget_grab_focus (GTK_WIDGET (self->view));
}

/* Tab goes to the line chosen and past all the others; from line to line go the arrows. */
static gboolean
wb_inventory_list_focus (GtkWidget        *widget,
                         GtkDirectionType  direction)
{
  WbInventoryList *self = WB_INVENTORY_LIST (widget);
  gboolean tab = direction == GTK_DIR_TAB_FORWARD || direction == GTK_DIR_TAB_BACKWARD;
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (widget));

  if (!tab)
    return wb_focus_within (widget, direction);
  if (focus != NULL && gtk_widget_is_ancestor (focus, widget))
    return FALSE;
  return gtk_widget_grab_focus (GTK_WIDGET (self->view));
}

static void
wb_inventory_list_class_init (WbInventoryListClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = wb_inventory_list_dispose;
  object_class->finalize = wb_inventory_list_finalize;
  widget_class->focus = wb_inventory_list_focus;
  widget_class->grab_focus = wb_inventory_list_grab_focus;

  signals[EDIT] = g_signal_new ("edit", WB_TYPE_INVENTORY_LIST, G_SIGNAL_RUN_LAST,
                                0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[CHANGED] = g_signal_new ("changed", WB_TYPE_INVENTORY_LIST, G_SIGNAL_RUN_LAST, 0, NULL,
                                   NULL, NULL,
                                   G_TYPE_NONE, 0);

  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F2, 0, "inventory.change", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Delete, 0, "inventory.remove", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_KP_Delete, 0, "inventory.remove",
                                       NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_slash, 0, "inventory.filter", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_KP_Divide, 0, "inventory.filter",
                                       NULL);
}

/* All lines are of one height, so that how far the view is scrolled says which of them it shows. */
static void
scrolled_cb (WbInventoryList *self,
             GtkAdjustment   *adjustment)
{
  gdouble upper = gtk_adjustment_get_upper (adjustment);
  gdouble middle =
    gtk_adjustment_get_value (adjustment) + gtk_adjustment_get_page_size (adjustment) / 2;
  guint n;

  if (self->filtered == NULL || upper < 1)
    return;
  n = g_list_model_get_n_items (G_LIST_MODEL (self->filtered));
  wb_steady_filter_set_centre (self->filtered, (guint) (MIN (middle / upper, 1.0) * n));
}

/* However large the text, the titles and some lines are seen. */
static void
keep_least_height (WbInventoryList *self)
{
  g_autoptr (PangoLayout) text = gtk_widget_create_pango_layout (GTK_WIDGET (self), "0");
  int height;

  pango_layout_get_pixel_size (text, NULL, &height);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (self->scroller),
                                              (1 + LEAST_LINES) * (height + ROOM_IN_LINE));
}

static void
wb_inventory_list_init (WbInventoryList *self)
{
  GtkAdjustment *adjustment;

  self->columns = g_ptr_array_new_with_free_func (g_object_unref);
  self->view = GTK_COLUMN_VIEW (gtk_column_view_new (NULL));
  gtk_column_view_set_show_column_separators (self->view, TRUE);
  gtk_column_view_set_show_row_separators (self->view, TRUE);
  gtk_column_view_set_reorderable (self->view, TRUE);
  gtk_widget_add_css_class (GTK_WIDGET (self->view), "data-table");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->view),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, _("Lines of the inventory"), -1);
  /* The list inside has the focus while no line has it. */
  gtk_accessible_update_property (GTK_ACCESSIBLE (wb_inventory_list_find_rows (self)),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, _("Lines of the inventory"), -1);
  g_signal_connect_swapped (self->view, "activate", G_CALLBACK (activate_cb), self);

  self->scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), GTK_WIDGET (self->view));
  adjustment = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (self->scroller));
  g_signal_connect_object (adjustment, "value-changed", G_CALLBACK (scrolled_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (adjustment, "changed", G_CALLBACK (scrolled_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (adjustment, "value-changed",
                           G_CALLBACK (wb_inventory_list_remember_edge), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (adjustment, "changed", G_CALLBACK (wb_inventory_list_keep_in_sight),
                           self, G_CONNECT_SWAPPED);
  gtk_widget_set_parent (self->scroller, GTK_WIDGET (self));

  g_signal_connect (self, "map", G_CALLBACK (keep_least_height), NULL);
  g_signal_connect_object (gtk_widget_get_settings (GTK_WIDGET (self)), "notify::gtk-xft-dpi",
                           G_CALLBACK (keep_least_height), self, G_CONNECT_SWAPPED);
}

/* The lines are taken in before the next frame, but after whatever else is made of the page. */
void
wb_inventory_list_set_model (WbInventoryList *self,
                             WbJobModel      *model)
{
  g_return_if_fail (WB_IS_INVENTORY_LIST (self));
  g_return_if_fail (WB_IS_JOB_MODEL (model));
  g_return_if_fail (self->model == NULL);

  self->model = g_object_ref (model);
  self->start_source = g_idle_add_full (G_PRIORITY_HIGH_IDLE, start_cb, self, NULL);
}

GtkSelectionModel *
wb_inventory_list_get_selection (WbInventoryList *self)
{
  g_return_val_if_fail (WB_IS_INVENTORY_LIST (self), NULL);

  wb_inventory_list_ensure_started (self);
  return GTK_SELECTION_MODEL (self->selection);
}

GPtrArray *
wb_inventory_list_get_selected (WbInventoryList *self)
{
  GPtrArray *ids = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GtkBitset) selected = NULL;
  GtkBitsetIter iter;
  guint position;

  g_return_val_if_fail (WB_IS_INVENTORY_LIST (self), ids);

  wb_inventory_list_ensure_started (self);
  if (self->reveal_source != 0)
    wb_inventory_list_reveal_now (self);
  selected = gtk_selection_model_get_selection (GTK_SELECTION_MODEL (self->selection));
  for (gboolean more = gtk_bitset_iter_init_first (&iter, selected, &position); more;
       more = gtk_bitset_iter_next (&iter, &position))
    {
      g_autoptr (WbRecordItem) item = g_list_model_get_item (G_LIST_MODEL (self->selection),
                                                             position);

      if (is_in_job (self, item))
        g_ptr_array_add (ids, g_strdup (id_of (item)));
    }
  return ids;
}

void
wb_inventory_list_set_words (WbInventoryList *self,
                             const char      *words)
{
  g_return_if_fail (WB_IS_INVENTORY_LIST (self));

  wb_inventory_list_ensure_started (self);
  wb_inventory_filter_set_words (self->filter, words);
  tell_soon (self);
}

gboolean
wb_inventory_list_is_filtered (WbInventoryList *self)
{
  g_return_val_if_fail (WB_IS_INVENTORY_LIST (self), FALSE);

  return self->filter != NULL && !wb_inventory_filter_is_empty (self->filter);
}

gboolean
wb_inventory_list_lets_through (WbInventoryList *self,
                                const char      *id)
{
  GListModel *all;
  guint n;

  g_return_val_if_fail (WB_IS_INVENTORY_LIST (self), FALSE);

  wb_inventory_list_ensure_started (self);
  all = G_LIST_MODEL (self->sorted);
  n = g_list_model_get_n_items (all);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (WbRecordItem) item = g_list_model_get_item (all, i);

      if (g_str_equal (id_of (item), id))
        return gtk_filter_match (GTK_FILTER (self->filter), item);
    }
  return FALSE;
}

gboolean
wb_inventory_list_is_at_rest (WbInventoryList *self)
{
  g_return_val_if_fail (WB_IS_INVENTORY_LIST (self), FALSE);

  return self->start_source == 0 && is_at_rest (self);
}

void
wb_inventory_list_sort_by (WbInventoryList *self,
                           const char      *column)
{
  const WbInventoryColumn *columns;
  guint n_columns;

  g_return_if_fail (WB_IS_INVENTORY_LIST (self));

  wb_inventory_list_ensure_started (self);
  columns = wb_inventory_columns (&n_columns);
  for (guint i = 0; i < n_columns; i++)
    {
      if (!g_str_equal (columns[i].id, column))
        continue;

      self->direction = self->sorted_by == columns[i].id && self->direction == GTK_SORT_ASCENDING
                        ? GTK_SORT_DESCENDING : GTK_SORT_ASCENDING;
      self->sorted_by = columns[i].id;
      gtk_column_view_sort_by_column (self->view, g_ptr_array_index (self->columns, i),
                                      self->direction);
      return;
    }

  self->sorted_by = NULL;
  gtk_column_view_sort_by_column (self->view, NULL, GTK_SORT_ASCENDING);
}

const char *
wb_inventory_list_neighbour (WbInventoryList *self,
                             const char      *id,
                             int              step)
{
  guint position;

  g_return_val_if_fail (WB_IS_INVENTORY_LIST (self), NULL);

  wb_inventory_list_ensure_started (self);
  position = wb_inventory_list_find_position (self, id);
  while (position != GTK_INVALID_LIST_POSITION && (step > 0 || position >= (guint) -step))
    {
      g_autoptr (WbRecordItem) item = NULL;

      position += (guint) step;
      item = g_list_model_get_item (G_LIST_MODEL (self->selection), position);
      if (item == NULL)
        break;
      if (is_in_job (self, item))
        return id_of (item);
    }
  return NULL;
}
