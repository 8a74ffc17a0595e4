/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table: records of the model, sorted, filtered, selected, in a column view. Filtering comes
 * after sorting, so that words typed do not sort anything anew. What a column shows is the column
 * table's; what happens to the selected lines is the page's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-inventory-list.h"

#include "desk/inventory/wb-inventory-cell.h"
#include "desk/inventory/wb-inventory-column.h"
#include "desk/inventory/wb-inventory-filter.h"
#include "desk/widgets/wb-focus-within.h"
#include "desk/inventory/wb-steady-filter.h"

#include <glib/gi18n.h>

/* So many lines are always seen; all else goes first to the fields beneath. */
#define LEAST_LINES 3

/* In how many frames a line is scrolled to. */
#define SCROLL_FRAMES 3

/* Pixels of a line, or of the titles, beside the height of the text. */
#define ROOM_IN_LINE 10

/* A sorter's own data: which column, of which job. */
typedef struct
{
  const WbInventoryColumn *column;
  WbJobModel              *model;     /* borrowed from the list, which outlives its sorters */
} SortKey;

struct _WbInventoryList
{
  GtkWidget            parent_instance;

  WbJobModel          *model;
  GtkWidget           *scroller;
  GtkColumnView       *view;
  WbInventoryFilter   *filter;
  WbSteadyFilter      *filtered;
  GtkSortListModel    *sorted;
  GtkMultiSelection   *selection;
  GPtrArray           *columns;       /* GtkColumnViewColumn, in the order of the column table */
  const char          *sorted_by;     /* id of the column that the sort action chose last */
  GtkSortType          direction;
  char                *awaited;       /* id of a piece to reveal once at rest */
  gboolean             awaited_focus;
  guint                start_source;  /* the lines are not taken in yet */
  guint                reveal_source;
  guint                tell_source;
  guint                scroll_tick;
  guint                scroll_position;
  guint                scroll_frames; /* still to come */
  double               edge;          /* how far down the lines were seen */
  double               height;        /* of what was seen of them */
};

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

/* --- finding and revealing -------------------------------------------------------------------- */

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

static guint
find_position (WbInventoryList *self,
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

/* The list of rows inside the column view: it, and not the view, knows how to scroll to a line. */
static GtkWidget *
find_rows (WbInventoryList *self)
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
  for (GtkWidget *row = gtk_widget_get_first_child (find_rows (self)); row != NULL;
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
holds_item (GtkWidget  *widget,
            const char *id)
{
  GtkWidget *cell = gtk_widget_get_first_child (widget);

  if (cell != NULL)
    cell = gtk_widget_get_first_child (cell);
  return WB_IS_INVENTORY_CELL (cell) && wb_inventory_cell_shows (WB_INVENTORY_CELL (cell), id);
}

static void
focus_row (WbInventoryList *self,
           const char      *id)
{
  GtkWidget *row = gtk_widget_get_first_child (find_rows (self));

  while (row != NULL && !holds_item (row, id))
    row = gtk_widget_get_next_sibling (row);
  if (row != NULL)
    gtk_widget_grab_focus (row);
}

static gboolean
is_at_rest (WbInventoryList *self)
{
  return wb_steady_filter_get_pending (self->filtered) == 0
         && gtk_sort_list_model_get_pending (self->sorted) == 0;
}

static void
scroll_to (WbInventoryList *self,
           guint            position)
{
  gtk_widget_activate_action (find_rows (self), "list.scroll-to-item", "u", position);
}

/* A line that was just added has no height yet, and what is said of it below the list takes a frame
 * more: scrolling is right only then. */
static gboolean
scroll_again_cb (GtkWidget     *widget,
                 GdkFrameClock *clock,
                 gpointer       data)
{
  WbInventoryList *self = WB_INVENTORY_LIST (widget);

  self->scroll_frames--;
  if (self->scroll_position < g_list_model_get_n_items (G_LIST_MODEL (self->selection)))
    scroll_to (self, self->scroll_position);
  if (self->scroll_frames > 0)
    return G_SOURCE_CONTINUE;
  self->scroll_tick = 0;
  return G_SOURCE_REMOVE;
}

static void
scroll_soon (WbInventoryList *self,
             guint            position)
{
  self->scroll_position = position;
  self->scroll_frames = SCROLL_FRAMES;
  if (self->scroll_tick == 0)
    self->scroll_tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), scroll_again_cb, NULL,
                                                      NULL);
}

static void
scroll_now_and_again (WbInventoryList *self,
                      guint            position)
{
  scroll_to (self, position);
  scroll_soon (self, position);
}

static void
reveal_awaited (WbInventoryList *self)
{
  guint position;

  if (self->awaited == NULL)
    return;

  position = find_position (self, self->awaited);
  if (position != GTK_INVALID_LIST_POSITION)
    {
      gtk_selection_model_select_item (GTK_SELECTION_MODEL (self->selection), position, TRUE);
      scroll_now_and_again (self, position);
      if (self->awaited_focus)
        focus_row (self, self->awaited);
    }
  if (is_at_rest (self))
    g_clear_pointer (&self->awaited, g_free);
}

static gboolean
reveal_cb (gpointer data)
{
  WbInventoryList *self = data;

  self->reveal_source = 0;
  reveal_awaited (self);
  return G_SOURCE_REMOVE;
}

/* Nobody is to see, or to be told, what is selected before what was revealed is. */
static void
reveal_now (WbInventoryList *self)
{
  g_clear_handle_id (&self->reveal_source, g_source_remove);
  reveal_awaited (self);
}

/* --- telling ---------------------------------------------------------------------------------- */

static gboolean
tell_cb (gpointer data)
{
  WbInventoryList *self = data;

  self->tell_source = 0;
  if (!is_at_rest (self))
    return G_SOURCE_REMOVE;
  reveal_awaited (self);
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

static void
ensure_started (WbInventoryList *self)
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
  g_clear_handle_id (&self->reveal_source, g_source_remove);
  g_clear_handle_id (&self->tell_source, g_source_remove);
  if (self->scroll_tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->scroll_tick);
  self->scroll_tick = 0;
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

  ensure_started (self);
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

static void
remember_edge (WbInventoryList *self,
               GtkAdjustment   *adjustment)
{
  self->height = gtk_adjustment_get_page_size (adjustment);
  self->edge = gtk_adjustment_get_value (adjustment) + self->height;
}

/* What stands around the list may grow over the line that was entered or found last: a line that was
 * in sight and is chosen stays there. */
static void
resized_cb (WbInventoryList *self,
            GtkAdjustment   *adjustment)
{
  double edge_before = self->edge;
  double height_before = self->height;
  guint n = self->selection != NULL ? g_list_model_get_n_items (G_LIST_MODEL (self->selection)) : 0;
  g_autoptr (GtkBitset) chosen = NULL;
  double bottom;

  remember_edge (self, adjustment);
  if (n == 0 || self->height >= height_before)
    return;

  chosen = gtk_selection_model_get_selection (GTK_SELECTION_MODEL (self->selection));
  if (gtk_bitset_get_size (chosen) != 1)
    return;
  bottom = gtk_adjustment_get_upper (adjustment) / n * (gtk_bitset_get_minimum (chosen) + 1);
  if (bottom > self->edge && bottom < edge_before + 1)
    scroll_soon (self, gtk_bitset_get_minimum (chosen));
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
  gtk_accessible_update_property (GTK_ACCESSIBLE (find_rows (self)),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, _("Lines of the inventory"), -1);
  g_signal_connect_swapped (self->view, "activate", G_CALLBACK (activate_cb), self);

  self->scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), GTK_WIDGET (self->view));
  adjustment = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (self->scroller));
  g_signal_connect_object (adjustment, "value-changed", G_CALLBACK (scrolled_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (adjustment, "changed", G_CALLBACK (scrolled_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (adjustment, "value-changed", G_CALLBACK (remember_edge), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (adjustment, "changed", G_CALLBACK (resized_cb), self,
                           G_CONNECT_SWAPPED);
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

  ensure_started (self);
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

  ensure_started (self);
  if (self->reveal_source != 0)
    reveal_now (self);
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

  ensure_started (self);
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

  ensure_started (self);
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

  ensure_started (self);
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

void
wb_inventory_list_reveal (WbInventoryList *self,
                          const char      *id,
                          gboolean         focus)
{
  g_return_if_fail (WB_IS_INVENTORY_LIST (self));
  g_return_if_fail (id != NULL);

  ensure_started (self);
  g_free (self->awaited);
  self->awaited = g_strdup (id);
  self->awaited_focus = focus;
  if (focus)
    reveal_now (self);
  else if (self->reveal_source == 0)
    self->reveal_source = g_idle_add_full (G_PRIORITY_HIGH_IDLE, reveal_cb, self, NULL);
}

const char *
wb_inventory_list_neighbour (WbInventoryList *self,
                             const char      *id,
                             int              step)
{
  guint position;

  g_return_val_if_fail (WB_IS_INVENTORY_LIST (self), NULL);

  ensure_started (self);
  position = find_position (self, id);
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
