/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A table of the records of one claim. Holds which rows are shown, which is selected and what was
 * typed and does not read; the cells do the typing and the model does the changing. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-record-table.h"

#include <glib/gi18n.h>

#include "desk/claim/wb-cell-finder.h"
#include "desk/claim/wb-cell.h"
#include "desk/claim/wb-choice-cell.h"
#include "desk/claim/wb-claim-records.h"
#include "desk/claim/wb-entry-cell.h"
#include "desk/claim/wb-line-cell.h"
#include "desk/claim/wb-notice-cell.h"
#include "desk/claim/wb-piece-cell.h"
#include "desk/claim/wb-cell-walk.h"
#include "desk/claim/wb-table-faults.h"
#include "desk/widgets/wb-row-name.h"
#include "desk/widgets/wb-scroll-on.h"
#include "desk/widgets/wb-scroll-to.h"

#define MOST_ROWS_SEEN 12

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

  WbClaimRecords       *records;
  GtkSingleSelection   *selection;
  WbCellFinder         *finder;
  WbTableFaults        *faults;
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

/* --- faults ----------------------------------------------------------------------------------- */

static const char *
title_of (guint    column,
          gpointer data)
{
  return _(WB_RECORD_TABLE (data)->columns[column].title);
}

static void
show_faults (WbRecordTable *self)
{
  g_autofree char *words = wb_table_faults_words (self->faults, title_of, self);

  gtk_label_set_label (self->fault, words != NULL ? words : "");
  gtk_widget_set_visible (GTK_WIDGET (self->fault), words != NULL);
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
  g_autofree char *text = get_typed (cell);

  if (id == NULL)
    return;

  wb_table_faults_set (self->faults, id, wb_cell_get_column (cell), text, message);
  show_faults (self);
  if (message == NULL)
    return;

  /* What is wrong is to be read; but whoever types on is to see where. */
  wb_scroll_to (GTK_WIDGET (self->fault));
  if ((gtk_widget_get_state_flags (GTK_WIDGET (cell)) & GTK_STATE_FLAG_FOCUS_WITHIN) != 0)
    wb_scroll_to (GTK_WIDGET (cell));
}

/* --- going from cell to cell ------------------------------------------------------------------ */

static void
cell_moved_cb (WbRecordTable *self,
               int            rows,
               WbCell        *cell)
{
  guint position = wb_cell_get_position (cell);
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->selection));
  gint64 target = (gint64) position + rows;

  if (position == GTK_INVALID_LIST_POSITION)
    return;
  if (target < 0 || target >= n)
    {
      gtk_widget_error_bell (GTK_WIDGET (self));
      return;
    }

  gtk_single_selection_set_selected (self->selection, (guint) target);
  wb_cell_finder_focus (self->finder, wb_cell_finder_id (self->finder, (guint) target),
                        wb_cell_get_column (cell));
}

static void
cell_done_cb (WbRecordTable *self,
              WbCell        *cell)
{
  if (wb_cell_get_position (cell) == g_list_model_get_n_items (G_LIST_MODEL (self->selection)) - 1)
    g_signal_emit (self, signals[RECORD_WANTED], 0);
  else
    cell_moved_cb (self, 1, cell);
}

static void
cell_focused_cb (WbCell *cell)
{
  WbRecordTable *self = WB_RECORD_TABLE (gtk_widget_get_ancestor (GTK_WIDGET (cell),
                                                                  WB_TYPE_RECORD_TABLE));
  guint position = wb_cell_get_position (cell);

  if (self != NULL && position != GTK_INVALID_LIST_POSITION)
    gtk_single_selection_set_selected (self->selection, position);
  wb_scroll_along (GTK_WIDGET (cell));
}

/* --- cells ------------------------------------------------------------------------------------ */

static guint
get_column_of (GtkListItemFactory *factory)
{
  return GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (factory), "column"));
}

static gboolean
is_numeric (const WbField *field)
{
  return field->type == WB_FIELD_MONEY || field->type == WB_FIELD_WEIGHT
         || field->type == WB_FIELD_INTEGER || field->type == WB_FIELD_PERCENT;
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
  else if (field->type == WB_FIELD_REFERENCE && field->refers == WB_KIND_CLAIM_LINE)
    cell = wb_line_cell_new (column->chars);
  else if (field->type == WB_FIELD_REFERENCE)
    cell = wb_piece_cell_new (column->chars);
  else
    cell = wb_entry_cell_new (column->chars, is_numeric (field));

  g_object_set (cell, "field", name, "model", self->model, NULL);
  return cell;
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
  g_signal_connect_object (cell, "done", G_CALLBACK (cell_done_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (cell, "fault", G_CALLBACK (cell_fault_cb), self, G_CONNECT_SWAPPED);
  wb_cell_finder_add (self->finder, WB_CELL (cell));

  gtk_list_item_set_activatable (item, FALSE);
  gtk_list_item_set_child (item, cell);
}

static void
name_row (GtkListItem *item)
{
  /* Translators: the name of a row of a table, for a screen reader. */
  g_autofree char *name = g_strdup_printf (_("Row %u"), gtk_list_item_get_position (item) + 1);

  wb_row_name_set (gtk_list_item_get_child (item), name);
}

static void
bind_cell_cb (WbRecordTable      *self,
              GtkListItem        *item,
              GtkListItemFactory *factory)
{
  WbCell *cell = WB_CELL (gtk_list_item_get_child (item));
  const WbRecord *record = wb_record_item_get_record (gtk_list_item_get_item (item));
  guint column = get_column_of (factory);
  const char *text, *message;

  wb_cell_bind (cell, item, column, record->id);
  if (column == 0)
    name_row (item);
  if (wb_table_faults_find (self->faults, record->id, column, &text, &message))
    wb_cell_show_fault (cell, text, message);
}

static void
unbind_cell_cb (WbRecordTable *self,
                GtkListItem   *item)
{
  wb_cell_unbind (WB_CELL (gtk_list_item_get_child (item)));
}

/* --- notices ---------------------------------------------------------------------------------- */

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
  const WbTableColumn *column = &self->columns[get_column_of (factory)];

  gtk_list_item_set_activatable (item, FALSE);
  gtk_list_item_set_child (item, wb_notice_cell_new (column->chars, column->warns,
                                                      column->numeric));
}

static void
bind_notice_cb (WbRecordTable *self,
                GtkListItem   *item)
{
  renew_notice (self, item);
  g_signal_connect_object (self, "notices-renewed", G_CALLBACK (notices_renewed_cb), item,
                           G_CONNECT_SWAPPED);
}

static void
unbind_notice_cb (WbRecordTable *self,
                  GtkListItem   *item)
{
  g_signal_handlers_disconnect_by_func (self, notices_renewed_cb, item);
}

/* --- rows ------------------------------------------------------------------------------------- */

static void
selected_cb (WbRecordTable *self)
{
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_SELECTED_ID]);
}

/* Returns: the column that takes the room that is left. */
static guint
find_widest (WbRecordTable *self)
{
  guint widest = 0;

  for (guint i = 1; i < self->n_columns; i++)
    {
      if (self->columns[i].chars > self->columns[widest].chars)
        widest = i;
    }
  return widest;
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
  g_signal_connect_object (factory, "setup",
                           G_CALLBACK (notices ? set_up_notice_cb : set_up_cell_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (factory, "bind",
                           notices ? G_CALLBACK (bind_notice_cb) : G_CALLBACK (bind_cell_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (factory, "unbind",
                           G_CALLBACK (notices ? unbind_notice_cb : unbind_cell_cb), self,
                           G_CONNECT_SWAPPED);

  view_column = gtk_column_view_column_new (_(column->title), factory);
  gtk_column_view_column_set_expand (view_column, index == find_widest (self));
  gtk_column_view_append_column (self->view, view_column);
}

/* --- widget ----------------------------------------------------------------------------------- */

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

  if (self->view != NULL)
    gtk_column_view_set_model (self->view, NULL);
  g_clear_pointer (&self->finder, wb_cell_finder_free);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_RECORD_TABLE);
  g_clear_object (&self->selection);
  g_clear_object (&self->records);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_record_table_parent_class)->dispose (object);
}

static void
wb_record_table_finalize (GObject *object)
{
  WbRecordTable *self = WB_RECORD_TABLE (object);

  wb_table_faults_free (self->faults);

  G_OBJECT_CLASS (wb_record_table_parent_class)->finalize (object);
}

static gboolean
wb_record_table_focus (GtkWidget        *widget,
                       GtkDirectionType  direction)
{
  return wb_cell_walk_focus (widget, WB_RECORD_TABLE (widget)->view, direction);
}

static void
wb_record_table_class_init (WbRecordTableClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_record_table_get_property;
  object_class->dispose = wb_record_table_dispose;
  object_class->finalize = wb_record_table_finalize;
  widget_class->focus = wb_record_table_focus;
  widget_class->map = wb_record_table_map;

  properties[PROP_SELECTED_ID] =
    g_param_spec_string ("selected-id", NULL, NULL, NULL,
                         G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  signals[RECORD_WANTED] = g_signal_new ("record-wanted", WB_TYPE_RECORD_TABLE, G_SIGNAL_RUN_LAST,
                                         0, NULL, NULL, NULL,
                                         G_TYPE_NONE, 0);
  signals[NOTICES_RENEWED] = g_signal_new ("notices-renewed", WB_TYPE_RECORD_TABLE,
                                           G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                           NULL, G_TYPE_NONE, 0);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/claim/wb-record-table.ui");
  gtk_widget_class_bind_template_child (widget_class, WbRecordTable, scroller);
  gtk_widget_class_bind_template_child (widget_class, WbRecordTable, view);
  gtk_widget_class_bind_template_child (widget_class, WbRecordTable, fault);
}

static void
wb_record_table_init (WbRecordTable *self)
{
  self->faults = wb_table_faults_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
  wb_cell_walk_add (self->view, FALSE);
  wb_scroll_on (self->scroller);
}

/* --- public ----------------------------------------------------------------------------------- */

void
wb_record_table_set_up (WbRecordTable       *self,
                        WbJobModel          *model,
                        WbKind               kind,
                        const char          *label,
                        const WbTableColumn *columns,
                        guint                n_columns)
{
  GListModel *rows;

  g_return_if_fail (WB_IS_RECORD_TABLE (self));
  g_return_if_fail (self->model == NULL);

  self->model = g_object_ref (model);
  self->type = wb_record_type (kind);
  self->columns = columns;
  self->n_columns = n_columns;

  self->records = wb_claim_records_new (model, kind);
  rows = g_object_ref (wb_claim_records_get_list (self->records));
  self->selection = gtk_single_selection_new (rows);
  self->finder = wb_cell_finder_new (self->view, G_LIST_MODEL (self->selection));
  g_signal_connect_object (self->selection, "notify::selected-item", G_CALLBACK (selected_cb), self,
                           G_CONNECT_SWAPPED);

  for (guint i = 0; i < n_columns; i++)
    add_column (self, i);
  gtk_column_view_set_model (self->view, GTK_SELECTION_MODEL (self->selection));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->view), GTK_ACCESSIBLE_PROPERTY_LABEL, label,
                                  -1);
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
wb_record_table_set_owner (WbRecordTable *self,
                           const char    *owner_id)
{
  g_return_if_fail (WB_IS_RECORD_TABLE (self));

  wb_table_faults_clear (self->faults);
  show_faults (self);
  wb_claim_records_set_owner (self->records, owner_id);
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

  position = wb_cell_finder_position (self->finder, id);
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
      wb_cell_finder_focus (self->finder, id, i);
}
