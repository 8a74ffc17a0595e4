/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A table of the records of one claim. Holds which rows are shown, which is selected and what was typed and does not read;
 * the cells do the typing and the model does the changing. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-record-table.h"

#include <glib/gi18n.h>

#include "desk/claim/wb-cell.h"
#include "desk/claim/wb-choice-cell.h"
#include "desk/claim/wb-entry-cell.h"
#include "desk/claim/wb-notice-cell.h"
#include "desk/claim/wb-piece-cell.h"
#include "desk/claim/wb-tab-walk.h"

#define MOST_ROWS_SEEN 12
#define FOCUS_TRIES 20

/* What was typed into a cell and does not read. */
typedef struct
{
  char *id;
  guint column;
  char *text;
  char *message;
} Fault;

struct _WbRecordTable
{
  GtkWidget             parent_instance;

  GtkScrolledWindow    *scroller;
  GtkColumnView        *view;
  GtkLabel             *fault;

  WbJobModel           *model;
  const WbRecordType   *type;
  const WbTableColumn  *columns;
  guint                 n_columns;
  WbTableNotice         notice;
  gpointer              notice_data;

  char                 *claim_id;
  GtkFilter            *filter;
  GtkSorter            *sorter;
  GtkSingleSelection   *selection;
  GPtrArray            *cells;        /* (element-type WbCell): in rows of the moment; not owned */
  GPtrArray            *faults;       /* (element-type Fault) */

  char                 *wanted_id;    /* (nullable): cell that gets the focus as soon as it is there */
  guint                 wanted_column;
  guint                 tries;
  guint                 tick;
};

G_DEFINE_FINAL_TYPE (WbRecordTable, wb_record_table, GTK_TYPE_WIDGET)

enum
{
  PROP_0,
  PROP_SELECTED_ID,
  N_PROPS
};

enum
{
  RECORD_WANTED,
  NOTICES_RENEWED,
  N_SIGNALS
};

static GParamSpec *properties[N_PROPS];
static guint signals[N_SIGNALS];

/* --- faults ------------------------------------------------------------------------------------------------------- */

static void
fault_free (gpointer data)
{
  Fault *fault = data;

  g_free (fault->id);
  g_free (fault->text);
  g_free (fault->message);
  g_free (fault);
}

static guint
find_fault (WbRecordTable *self,
            const char    *id,
            guint          column)
{
  guint i;

  for (i = 0; i < self->faults->len; i++)
    {
      const Fault *fault = g_ptr_array_index (self->faults, i);

      if (fault->column == column && g_strcmp0 (fault->id, id) == 0)
        break;
    }

  return i;
}

static void
show_faults (WbRecordTable *self)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < self->faults->len; i++)
    {
      const Fault *fault = g_ptr_array_index (self->faults, i);

      if (text->len > 0)
        g_string_append_c (text, '\n');
      /* Translators: a column's heading, and what is wrong with what was typed there. */
      g_string_append_printf (text, _("%s: %s"), _(self->columns[fault->column].title), fault->message);
    }

  gtk_label_set_label (self->fault, text->str);
  gtk_widget_set_visible (GTK_WIDGET (self->fault), text->len > 0);
}

static char *
get_typed (WbCell *cell)
{
  GtkWidget *input = WB_CELL_GET_CLASS (cell)->get_input (cell);

  return g_strdup (GTK_IS_EDITABLE (input) ? gtk_editable_get_text (GTK_EDITABLE (input)) : "");
}

static void
cell_fault_cb (WbRecordTable *self,
               const char    *message,
               WbCell        *cell)
{
  const char *id = wb_cell_get_id (cell);
  guint index = find_fault (self, id, wb_cell_get_column (cell));

  if (index < self->faults->len)
    g_ptr_array_remove_index (self->faults, index);
  if (message != NULL && id != NULL)
    {
      Fault *fault = g_new0 (Fault, 1);

      fault->id = g_strdup (id);
      fault->column = wb_cell_get_column (cell);
      fault->text = get_typed (cell);
      fault->message = g_strdup (message);
      g_ptr_array_add (self->faults, fault);
    }

  show_faults (self);
}

/* --- going from cell to cell ---------------------------------------------------------------------------------------- */

static WbCell *
find_cell (WbRecordTable *self,
           const char    *id,
           guint          column)
{
  for (guint i = 0; i < self->cells->len; i++)
    {
      WbCell *cell = g_ptr_array_index (self->cells, i);

      if (wb_cell_get_column (cell) == column && g_strcmp0 (wb_cell_get_id (cell), id) == 0
          && gtk_widget_get_mapped (GTK_WIDGET (cell)))
        return cell;
    }

  return NULL;
}

static const WbRecord *
get_record_at (WbRecordTable *self,
               guint          position)
{
  g_autoptr (WbRecordItem) item = g_list_model_get_item (G_LIST_MODEL (self->selection), position);

  return item != NULL ? wb_record_item_get_record (item) : NULL;
}

static guint
find_position (WbRecordTable *self,
               const char    *id)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->selection));

  for (guint i = 0; i < n; i++)
    if (g_strcmp0 (get_record_at (self, i)->id, id) == 0)
      return i;

  return GTK_INVALID_LIST_POSITION;
}

/* Only the list inside the column view knows how to scroll to a row. */
static void
scroll_to (WbRecordTable *self,
           guint          position)
{
  GtkWidget *list = gtk_widget_get_last_child (GTK_WIDGET (self->view));

  gtk_widget_activate_action (list, "list.scroll-to-item", "u", position);
}

static gboolean
focus_wanted_cb (GtkWidget     *widget,
                 GdkFrameClock *clock,
                 gpointer       data)
{
  WbRecordTable *self = WB_RECORD_TABLE (widget);
  WbCell *cell = find_cell (self, self->wanted_id, self->wanted_column);

  self->tries++;
  if (cell == NULL && self->tries < FOCUS_TRIES)
    {
      guint position = find_position (self, self->wanted_id);

      if (position != GTK_INVALID_LIST_POSITION)
        scroll_to (self, position);
      return G_SOURCE_CONTINUE;
    }

  if (cell != NULL)
    wb_cell_focus (cell);
  g_clear_pointer (&self->wanted_id, g_free);
  self->tick = 0;
  return G_SOURCE_REMOVE;
}

static void
want_focus (WbRecordTable *self,
            const char    *id,
            guint          column)
{
  WbCell *cell = find_cell (self, id, column);

  if (cell != NULL)
    {
      wb_cell_focus (cell);
      return;
    }

  g_free (self->wanted_id);
  self->wanted_id = g_strdup (id);
  self->wanted_column = column;
  self->tries = 0;
  if (self->tick == 0)
    self->tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), focus_wanted_cb, NULL, NULL);
}

static void
cell_moved_cb (WbRecordTable *self,
               int            rows,
               WbCell        *cell)
{
  guint position = wb_cell_get_position (cell);
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->selection));
  gint64 target = (gint64) position + rows;

  if (position == GTK_INVALID_LIST_POSITION || target < 0)
    return;
  if (target >= n)
    {
      g_signal_emit (self, signals[RECORD_WANTED], 0);
      return;
    }

  gtk_single_selection_set_selected (self->selection, (guint) target);
  scroll_to (self, (guint) target);
  want_focus (self, get_record_at (self, (guint) target)->id, wb_cell_get_column (cell));
}

static void
cell_focused_cb (WbCell *cell)
{
  WbRecordTable *self = WB_RECORD_TABLE (gtk_widget_get_ancestor (GTK_WIDGET (cell), WB_TYPE_RECORD_TABLE));
  guint position = wb_cell_get_position (cell);

  if (self != NULL && position != GTK_INVALID_LIST_POSITION)
    gtk_single_selection_set_selected (self->selection, position);
}

/* --- cells ---------------------------------------------------------------------------------------------------------- */

static guint
get_column_of (GtkListItemFactory *factory)
{
  return GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (factory), "column"));
}

static gboolean
is_numeric (const WbField *field)
{
  return field->type == WB_FIELD_MONEY || field->type == WB_FIELD_WEIGHT || field->type == WB_FIELD_INTEGER
         || field->type == WB_FIELD_PERCENT;
}

static GtkWidget *
new_cell (WbRecordTable       *self,
          const WbTableColumn *column)
{
  const WbField *field = wb_record_type_field (self->type, column->field);
  g_autofree char *name = g_strconcat (self->type->name, ".", column->field, NULL);
  GtkWidget *cell;

  if (field->type == WB_FIELD_ENUM)
    cell = wb_choice_cell_new (field->choices);
  else if (field->type == WB_FIELD_REFERENCE)
    cell = wb_piece_cell_new (column->chars);
  else
    cell = wb_entry_cell_new (column->chars, is_numeric (field));

  g_object_set (cell, "field", name, "model", self->model, NULL);
  return cell;
}

static void
cell_gone_cb (gpointer  data,
              GObject  *cell)
{
  g_ptr_array_remove_fast (data, cell);
}

static void
set_up_cell_cb (WbRecordTable      *self,
                GtkListItem        *item,
                GtkListItemFactory *factory)
{
  GtkWidget *cell = new_cell (self, &self->columns[get_column_of (factory)]);
  GtkEventController *focus = gtk_event_controller_focus_new ();

  g_signal_connect_swapped (focus, "enter", G_CALLBACK (cell_focused_cb), cell);
  gtk_widget_add_controller (cell, focus);
  g_signal_connect_object (cell, "moved", G_CALLBACK (cell_moved_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (cell, "fault", G_CALLBACK (cell_fault_cb), self, G_CONNECT_SWAPPED);
  g_object_weak_ref (G_OBJECT (cell), cell_gone_cb, self->cells);
  g_ptr_array_add (self->cells, cell);

  gtk_list_item_set_activatable (item, FALSE);
  gtk_list_item_set_child (item, cell);
}

static void
bind_cell_cb (WbRecordTable      *self,
              GtkListItem        *item,
              GtkListItemFactory *factory)
{
  WbCell *cell = WB_CELL (gtk_list_item_get_child (item));
  const WbRecord *record = wb_record_item_get_record (gtk_list_item_get_item (item));
  guint column = get_column_of (factory);
  guint index = find_fault (self, record->id, column);

  wb_cell_bind (cell, item, column, record->id);
  if (index < self->faults->len)
    {
      const Fault *fault = g_ptr_array_index (self->faults, index);

      wb_cell_show_fault (cell, fault->text, fault->message);
    }
}

static void
unbind_cell_cb (WbRecordTable *self,
                GtkListItem   *item)
{
  wb_cell_unbind (WB_CELL (gtk_list_item_get_child (item)));
}

/* --- notices -------------------------------------------------------------------------------------------------------- */

static void
renew_notice (WbRecordTable *self,
              GtkListItem   *item)
{
  WbRecordItem *record = gtk_list_item_get_item (item);
  g_autofree char *text = NULL;

  if (record != NULL && self->notice != NULL)
    text = self->notice (wb_record_item_get_record (record), self->notice_data);

  wb_notice_cell_show (WB_NOTICE_CELL (gtk_list_item_get_child (item)), text);
}

static void
notices_renewed_cb (GtkListItem   *item,
                    WbRecordTable *self)
{
  renew_notice (self, item);
}

static void
set_up_notice_cb (WbRecordTable      *self,
                  GtkListItem        *item,
                  GtkListItemFactory *factory)
{
  gtk_list_item_set_activatable (item, FALSE);
  gtk_list_item_set_child (item, wb_notice_cell_new (self->columns[get_column_of (factory)].chars));
}

static void
bind_notice_cb (WbRecordTable *self,
                GtkListItem   *item)
{
  renew_notice (self, item);
  g_signal_connect_object (self, "notices-renewed", G_CALLBACK (notices_renewed_cb), item, G_CONNECT_SWAPPED);
}

static void
unbind_notice_cb (WbRecordTable *self,
                  GtkListItem   *item)
{
  g_signal_handlers_disconnect_by_func (self, notices_renewed_cb, item);
}

/* --- rows ----------------------------------------------------------------------------------------------------------- */

static const char *
get_claim_of (WbRecordTable  *self,
              const WbRecord *record)
{
  const WbField *field = wb_record_type_field (self->type, "claim");

  return G_STRUCT_MEMBER (const char *, record, field->offset);
}

static gboolean
belongs (gpointer item,
         gpointer data)
{
  WbRecordTable *self = data;

  return self->claim_id != NULL
         && g_strcmp0 (get_claim_of (self, wb_record_item_get_record (item)), self->claim_id) == 0;
}

static int
compare_numbers (gconstpointer a,
                 gconstpointer b,
                 gpointer      data)
{
  const WbClaimLine *left = wb_record_item_get_record ((gpointer) a);
  const WbClaimLine *right = wb_record_item_get_record ((gpointer) b);

  return (left->number > right->number) - (left->number < right->number);
}

static gboolean
is_in_order (WbRecordTable *self)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->selection));
  gint64 before = 0;

  for (guint i = 0; i < n; i++)
    {
      const WbClaimLine *line = (const WbClaimLine *) get_record_at (self, i);

      if (line->number < before)
        return FALSE;
      before = line->number;
    }

  return TRUE;
}

/* A list does not hear of it when a line gets another number, and to sort for nothing would make its rows anew. */
static void
job_changed_cb (WbRecordTable *self)
{
  gtk_filter_changed (self->filter, GTK_FILTER_CHANGE_DIFFERENT);
  if (self->sorter != NULL && !is_in_order (self))
    gtk_sorter_changed (self->sorter, GTK_SORTER_CHANGE_DIFFERENT);
}

static void
selected_cb (WbRecordTable *self)
{
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_SELECTED_ID]);
}

static GListModel *
list_rows (WbRecordTable *self)
{
  GListModel *records = g_object_ref (wb_job_model_get_records (self->model, self->type->kind));
  GtkFilterListModel *filtered;

  self->filter = GTK_FILTER (gtk_custom_filter_new (belongs, self, NULL));
  filtered = gtk_filter_list_model_new (records, g_object_ref (self->filter));
  if (self->type->kind != WB_KIND_CLAIM_LINE)
    return G_LIST_MODEL (filtered);

  self->sorter = GTK_SORTER (gtk_custom_sorter_new (compare_numbers, NULL, NULL));
  return G_LIST_MODEL (gtk_sort_list_model_new (G_LIST_MODEL (filtered), g_object_ref (self->sorter)));
}

static void
add_column (WbRecordTable *self,
            guint          index)
{
  const WbTableColumn *column = &self->columns[index];
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  g_autoptr (GtkColumnViewColumn) view_column = NULL;
  gboolean notices = column->field == NULL;

  g_object_set_data (G_OBJECT (factory), "column", GUINT_TO_POINTER (index));
  g_signal_connect_object (factory, "setup", G_CALLBACK (notices ? set_up_notice_cb : set_up_cell_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (factory, "bind",
                           notices ? G_CALLBACK (bind_notice_cb) : G_CALLBACK (bind_cell_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (factory, "unbind", G_CALLBACK (notices ? unbind_notice_cb : unbind_cell_cb), self,
                           G_CONNECT_SWAPPED);

  view_column = gtk_column_view_column_new (_(column->title), factory);
  gtk_column_view_column_set_expand (view_column, notices);
  gtk_column_view_append_column (self->view, view_column);
}

/* --- widget --------------------------------------------------------------------------------------------------------- */

/* Some rows are seen at once, whatever the size of the text; more of them scroll. */
static void
wb_record_table_map (GtkWidget *widget)
{
  WbRecordTable *self = WB_RECORD_TABLE (widget);
  g_autoptr (PangoLayout) sample = gtk_widget_create_pango_layout (widget, "1");
  int height;

  pango_layout_get_pixel_size (sample, NULL, &height);
  gtk_scrolled_window_set_max_content_height (self->scroller, (height + 18) * MOST_ROWS_SEEN);

  GTK_WIDGET_CLASS (wb_record_table_parent_class)->map (widget);
}

static void
wb_record_table_get_property (GObject    *object,
                              guint       prop_id,
                              GValue     *value,
                              GParamSpec *pspec)
{
  switch (prop_id)
    {
    case PROP_SELECTED_ID:
      g_value_set_string (value, wb_record_table_get_selected_id (WB_RECORD_TABLE (object)));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_record_table_dispose (GObject *object)
{
  WbRecordTable *self = WB_RECORD_TABLE (object);
  GtkWidget *child;

  if (self->tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->tick);
  self->tick = 0;
  if (self->view != NULL)
    gtk_column_view_set_model (self->view, NULL);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_RECORD_TABLE);
  g_clear_object (&self->selection);
  g_clear_object (&self->filter);
  g_clear_object (&self->sorter);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_record_table_parent_class)->dispose (object);
}

static void
wb_record_table_finalize (GObject *object)
{
  WbRecordTable *self = WB_RECORD_TABLE (object);

  for (guint i = 0; i < self->cells->len; i++)
    g_object_weak_unref (g_ptr_array_index (self->cells, i), cell_gone_cb, self->cells);
  g_ptr_array_unref (self->cells);
  g_ptr_array_unref (self->faults);
  g_free (self->claim_id);
  g_free (self->wanted_id);

  G_OBJECT_CLASS (wb_record_table_parent_class)->finalize (object);
}

static void
wb_record_table_class_init (WbRecordTableClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_record_table_get_property;
  object_class->dispose = wb_record_table_dispose;
  object_class->finalize = wb_record_table_finalize;
  widget_class->map = wb_record_table_map;

  properties[PROP_SELECTED_ID] =
    g_param_spec_string ("selected-id", NULL, NULL, NULL, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  signals[RECORD_WANTED] = g_signal_new ("record-wanted", WB_TYPE_RECORD_TABLE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                         G_TYPE_NONE, 0);
  signals[NOTICES_RENEWED] = g_signal_new ("notices-renewed", WB_TYPE_RECORD_TABLE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                           NULL, G_TYPE_NONE, 0);

  gtk_widget_class_set_template_from_resource (widget_class, "/org/wainbook/Wainbook/claim/wb-record-table.ui");
  gtk_widget_class_bind_template_child (widget_class, WbRecordTable, scroller);
  gtk_widget_class_bind_template_child (widget_class, WbRecordTable, view);
  gtk_widget_class_bind_template_child (widget_class, WbRecordTable, fault);
}

static void
wb_record_table_init (WbRecordTable *self)
{
  self->cells = g_ptr_array_new ();
  self->faults = g_ptr_array_new_with_free_func (fault_free);
  gtk_widget_init_template (GTK_WIDGET (self));
  wb_tab_walk_add (self->view);
}

/* --- public --------------------------------------------------------------------------------------------------------- */

void
wb_record_table_set_up (WbRecordTable       *self,
                        WbJobModel          *model,
                        WbKind               kind,
                        const char          *label,
                        const WbTableColumn *columns,
                        guint                n_columns)
{
  g_return_if_fail (WB_IS_RECORD_TABLE (self));
  g_return_if_fail (self->model == NULL);

  self->model = g_object_ref (model);
  self->type = wb_record_type (kind);
  self->columns = columns;
  self->n_columns = n_columns;

  self->selection = gtk_single_selection_new (list_rows (self));
  g_signal_connect_object (self->selection, "notify::selected-item", G_CALLBACK (selected_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (model, "notify::job", G_CALLBACK (job_changed_cb), self, G_CONNECT_SWAPPED);

  for (guint i = 0; i < n_columns; i++)
    add_column (self, i);
  gtk_column_view_set_model (self->view, GTK_SELECTION_MODEL (self->selection));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->view), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
}

void
wb_record_table_set_notice (WbRecordTable *self,
                            WbTableNotice  notice,
                            gpointer       data)
{
  g_return_if_fail (WB_IS_RECORD_TABLE (self));

  self->notice = notice;
  self->notice_data = data;
}

void
wb_record_table_renew_notices (WbRecordTable *self)
{
  g_return_if_fail (WB_IS_RECORD_TABLE (self));

  g_signal_emit (self, signals[NOTICES_RENEWED], 0);
}

void
wb_record_table_set_claim (WbRecordTable *self,
                           const char    *claim_id)
{
  g_return_if_fail (WB_IS_RECORD_TABLE (self));

  if (g_strcmp0 (claim_id, self->claim_id) == 0)
    return;

  g_free (self->claim_id);
  self->claim_id = g_strdup (claim_id);
  g_ptr_array_set_size (self->faults, 0);
  show_faults (self);
  job_changed_cb (self);
}

guint
wb_record_table_get_n_rows (WbRecordTable *self)
{
  g_return_val_if_fail (WB_IS_RECORD_TABLE (self), 0);

  return g_list_model_get_n_items (G_LIST_MODEL (self->selection));
}

const char *
wb_record_table_get_selected_id (WbRecordTable *self)
{
  WbRecordItem *item;

  g_return_val_if_fail (WB_IS_RECORD_TABLE (self), NULL);

  if (self->selection == NULL)
    return NULL;

  item = gtk_single_selection_get_selected_item (self->selection);
  return item != NULL ? ((const WbRecord *) wb_record_item_get_record (item))->id : NULL;
}

void
wb_record_table_select (WbRecordTable *self,
                        const char    *id)
{
  guint position;

  g_return_if_fail (WB_IS_RECORD_TABLE (self));

  position = find_position (self, id);
  if (position != GTK_INVALID_LIST_POSITION)
    gtk_single_selection_set_selected (self->selection, position);
}

void
wb_record_table_edit (WbRecordTable *self,
                      const char    *id,
                      const char    *field)
{
  g_return_if_fail (WB_IS_RECORD_TABLE (self));

  wb_record_table_select (self, id);
  for (guint i = 0; i < self->n_columns; i++)
    if (g_strcmp0 (self->columns[i].field, field) == 0)
      want_focus (self, id, i);
}
