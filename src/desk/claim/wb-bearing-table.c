/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of who bears the lines of a claim. Keeps one item a line and gives it the words of the
 * moment. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-bearing-table.h"

#include <glib/gi18n.h>

#include "desk/claim/wb-bearing-row.h"
#include "desk/claim/wb-cell-walk.h"
#include "desk/claim/wb-why-button.h"
#include "desk/widgets/wb-scroll-on.h"
#include "desk/widgets/wb-row-name.h"

#define MOST_ROWS_SEEN 12

struct _WbBearingTable
{
  GtkWidget           parent_instance;

  GtkScrolledWindow  *scroller;
  GtkColumnView      *view;

  GListStore         *rows;
  GtkSingleSelection *selection;
};

G_DEFINE_FINAL_TYPE (WbBearingTable, wb_bearing_table, GTK_TYPE_WIDGET)

enum
{
  PROP_0,
  PROP_SELECTED_ID,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

typedef enum
{
  COLUMN_LINE,
  COLUMN_OWED,
  COLUMN_BEARERS,
  COLUMN_GROUND,
} Column;

static const struct
{
  const char *title;
  int         chars;
} columns[] = {
  [COLUMN_LINE] = { N_("Line"), 6 },
  [COLUMN_OWED] = { N_("Owed"), 9 },
  [COLUMN_BEARERS] = { N_("Who bears it"), 8 },
  [COLUMN_GROUND] = { N_("Why"), 0 },
};

/* --- cells ------------------------------------------------------------------------------------ */

static const char *
text_of (WbBearingRow *row,
         Column        column)
{
  switch (column)
    {
    case COLUMN_LINE:
      return wb_bearing_row_get_name (row);
    case COLUMN_OWED:
      return wb_bearing_row_get_owed (row);
    case COLUMN_BEARERS:
      return wb_bearing_row_get_bearers (row);
    case COLUMN_GROUND:
      return wb_bearing_row_get_ground (row);
    }
  g_return_val_if_reached ("");
}

static void
row_changed_cb (GtkListItem *item)
{
  WbBearingRow *row = gtk_list_item_get_item (item);
  GtkWidget *cell = gtk_list_item_get_child (item);
  Column column = (Column) GPOINTER_TO_INT (g_object_get_data (G_OBJECT (item), "column"));
  g_autofree char *heading = NULL;

  if (column != COLUMN_GROUND)
    {
      gtk_label_set_label (GTK_LABEL (cell), text_of (row, column));
      if (column == COLUMN_LINE)
        wb_row_name_set (cell, wb_bearing_row_get_name (row));
      return;
    }

  /* Translators: a claim line, what is owed for it, and who bears it. */
  heading = g_strdup_printf (_("%s, %s: %s"), wb_bearing_row_get_name (row),
                             wb_bearing_row_get_owed (row), wb_bearing_row_get_bearers (row));
  wb_why_button_show (WB_WHY_BUTTON (cell), text_of (row, column), heading,
                      wb_bearing_row_get_why (row));
}

/* A label may be too narrow for its words. */
static gboolean
query_tooltip_cb (GtkWidget  *label,
                  int         x,
                  int         y,
                  gboolean    keyboard,
                  GtkTooltip *tooltip,
                  gpointer    data)
{
  gtk_tooltip_set_text (tooltip, gtk_label_get_label (GTK_LABEL (label)));
  return TRUE;
}

static GtkWidget *
new_label (Column column)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_width_chars (GTK_LABEL (label), columns[column].chars);
  gtk_label_set_xalign (GTK_LABEL (label), column == COLUMN_OWED ? 1 : 0);
  if (column == COLUMN_OWED)
    {
      gtk_widget_add_css_class (label, "numeric");
      return label;
    }
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_widget_set_has_tooltip (label, TRUE);
  g_signal_connect (label, "query-tooltip", G_CALLBACK (query_tooltip_cb), NULL);
  return label;
}

/* The line with the focus is the one that is chosen. */
static void
focused_cb (GtkEventController *controller,
            GtkListItem        *item)
{
  GtkWidget *table = gtk_widget_get_ancestor (gtk_event_controller_get_widget (controller),
                                              WB_TYPE_BEARING_TABLE);

  if (table != NULL && gtk_list_item_get_position (item) != GTK_INVALID_LIST_POSITION)
    gtk_single_selection_set_selected (WB_BEARING_TABLE (table)->selection,
                                       gtk_list_item_get_position (item));
}

static void
set_up_cb (GObject     *factory,
           GtkListItem *item)
{
  gpointer column = g_object_get_data (factory, "column");
  GtkWidget *cell;

  g_object_set_data (G_OBJECT (item), "column", column);
  gtk_list_item_set_activatable (item, FALSE);
  if (GPOINTER_TO_INT (column) == COLUMN_GROUND)
    {
      GtkEventController *focus = gtk_event_controller_focus_new ();

      cell = wb_why_button_new (FALSE);
      g_signal_connect_object (focus, "enter", G_CALLBACK (focused_cb), item, 0);
      gtk_widget_add_controller (cell, focus);
    }
  else
    cell = new_label ((Column) GPOINTER_TO_INT (column));
  gtk_list_item_set_child (item, cell);
}

static void
bind_cb (GObject     *factory,
         GtkListItem *item)
{
  g_signal_connect_object (gtk_list_item_get_item (item), "changed", G_CALLBACK (row_changed_cb),
                           item, G_CONNECT_SWAPPED);
  row_changed_cb (item);
}

static void
unbind_cb (GObject     *factory,
           GtkListItem *item)
{
  g_signal_handlers_disconnect_by_func (gtk_list_item_get_item (item), row_changed_cb, item);
}

static void
append_column (WbBearingTable *self,
               Column          column)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  g_autoptr (GtkColumnViewColumn) view_column = NULL;

  g_object_set_data (G_OBJECT (factory), "column", GINT_TO_POINTER (column));
  g_signal_connect (factory, "setup", G_CALLBACK (set_up_cb), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), NULL);
  g_signal_connect (factory, "unbind", G_CALLBACK (unbind_cb), NULL);
  view_column = gtk_column_view_column_new (_(columns[column].title), factory);
  gtk_column_view_column_set_expand (view_column, column != COLUMN_OWED);
  gtk_column_view_append_column (self->view, view_column);
}

/* --- widget ----------------------------------------------------------------------------------- */

static void
selected_cb (WbBearingTable *self)
{
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_SELECTED_ID]);
}

static void
wb_bearing_table_map (GtkWidget *widget)
{
  WbBearingTable *self = WB_BEARING_TABLE (widget);
  g_autoptr (PangoLayout) sample = gtk_widget_create_pango_layout (widget, "1");
  int height;

  pango_layout_get_pixel_size (sample, NULL, &height);
  gtk_scrolled_window_set_max_content_height (self->scroller, (height + 18) * MOST_ROWS_SEEN);

  GTK_WIDGET_CLASS (wb_bearing_table_parent_class)->map (widget);
}

static gboolean
wb_bearing_table_focus (GtkWidget        *widget,
                        GtkDirectionType  direction)
{
  return wb_cell_walk_focus (widget, WB_BEARING_TABLE (widget)->view, direction);
}

static void
wb_bearing_table_get_property (GObject    *object,
                               guint       prop_id,
                               GValue     *value,
                               GParamSpec *pspec)
{
  switch (prop_id)
    {
    case PROP_SELECTED_ID:
      g_value_set_string (value, wb_bearing_table_get_selected_id (WB_BEARING_TABLE (object)));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_bearing_table_dispose (GObject *object)
{
  WbBearingTable *self = WB_BEARING_TABLE (object);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  gtk_widget_dispose_template (GTK_WIDGET (object), WB_TYPE_BEARING_TABLE);
  g_clear_object (&self->selection);
  g_clear_object (&self->rows);

  G_OBJECT_CLASS (wb_bearing_table_parent_class)->dispose (object);
}

static void
wb_bearing_table_class_init (WbBearingTableClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_bearing_table_get_property;
  object_class->dispose = wb_bearing_table_dispose;
  widget_class->focus = wb_bearing_table_focus;
  widget_class->map = wb_bearing_table_map;

  properties[PROP_SELECTED_ID] =
    g_param_spec_string ("selected-id", NULL, NULL, NULL,
                         G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/claim/wb-bearing-table.ui");
  gtk_widget_class_bind_template_child (widget_class, WbBearingTable, scroller);
  gtk_widget_class_bind_template_child (widget_class, WbBearingTable, view);
}

static void
wb_bearing_table_init (WbBearingTable *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  wb_cell_walk_add (self->view, TRUE);
  wb_scroll_on (self->scroller);

  self->rows = g_list_store_new (WB_TYPE_BEARING_ROW);
  self->selection = gtk_single_selection_new (G_LIST_MODEL (g_object_ref (self->rows)));
  g_signal_connect_object (self->selection, "notify::selected-item", G_CALLBACK (selected_cb), self,
                           G_CONNECT_SWAPPED);
  gtk_column_view_set_model (self->view, GTK_SELECTION_MODEL (self->selection));
  for (guint i = 0; i < G_N_ELEMENTS (columns); i++)
    append_column (self, (Column) i);
}

/* --- public ----------------------------------------------------------------------------------- */

void
wb_bearing_table_show (WbBearingTable        *self,
                       const WbApportionment *apportionment)
{
  guint n = apportionment != NULL ? apportionment->n_lines : 0;
  guint had;

  g_return_if_fail (WB_IS_BEARING_TABLE (self));

  had = g_list_model_get_n_items (G_LIST_MODEL (self->rows));
  if (had > n)
    g_list_store_splice (self->rows, n, had - n, NULL, 0);
  for (guint i = 0; i < MIN (had, n); i++)
    {
      g_autoptr (WbBearingRow) row = g_list_model_get_item (G_LIST_MODEL (self->rows), i);

      wb_bearing_row_read (row, apportionment, i);
    }
  if (n > had)
    {
      g_autoptr (GPtrArray) more = g_ptr_array_new_with_free_func (g_object_unref);

      for (guint i = had; i < n; i++)
        g_ptr_array_add (more, wb_bearing_row_new (apportionment, i));
      g_list_store_splice (self->rows, had, 0, more->pdata, more->len);
    }
  gtk_widget_set_visible (GTK_WIDGET (self), n > 0);
}

const char *
wb_bearing_table_get_selected_id (WbBearingTable *self)
{
  WbBearingRow *row;

  g_return_val_if_fail (WB_IS_BEARING_TABLE (self), NULL);

  row = self->selection != NULL ? gtk_single_selection_get_selected_item (self->selection) : NULL;
  return row != NULL ? wb_bearing_row_get_id (row) : NULL;
}

void
wb_bearing_table_select (WbBearingTable *self,
                         const char     *line_id)
{
  g_return_if_fail (WB_IS_BEARING_TABLE (self));

  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (self->rows)); i++)
    {
      g_autoptr (WbBearingRow) row = g_list_model_get_item (G_LIST_MODEL (self->rows), i);

      if (g_strcmp0 (wb_bearing_row_get_id (row), line_id) == 0)
        gtk_single_selection_set_selected (self->selection, i);
    }
}
