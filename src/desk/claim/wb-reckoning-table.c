/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of a reckoning's lines. Keeps one item a line and tells it the reckoning of the
 * moment. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-reckoning-table.h"

#include <glib/gi18n.h>

#include "desk/claim/wb-figure-button.h"
#include "desk/claim/wb-reckoning-row.h"
#include "desk/claim/wb-cell-walk.h"
#include "desk/widgets/wb-scroll-on.h"
#include "desk/widgets/wb-row-name.h"

#define MOST_ROWS_SEEN 12

struct _WbReckoningTable
{
  GtkWidget          parent_instance;

  GtkScrolledWindow *scroller;
  GtkColumnView     *view;

  GListStore        *rows;
};

G_DEFINE_FINAL_TYPE (WbReckoningTable, wb_reckoning_table, GTK_TYPE_WIDGET)

/* The heads of the columns of amounts: the choice above, the amount below. */
static const char *const titles[WB_N_SIDES][WB_N_LINE_AMOUNTS] = {
  { N_("Released\nloss"), N_("Released\nallowed"), N_("Released\ndeducted"), N_("Released\nowed") },
  { N_("Full\nloss"), N_("Full\nallowed"), N_("Full\ndeducted"), N_("Full\nowed") },
};

typedef struct
{
  WbSide   side;
  WbAmount amount;
} Column;

static const Column *
get_column (GObject *factory)
{
  return g_object_get_data (factory, "column");
}

static void
show_figure (GtkListItem  *item,
             const Column *column)
{
  WbReckoningRow *row = gtk_list_item_get_item (item);

  wb_figure_button_show (WB_FIGURE_BUTTON (gtk_list_item_get_child (item)),
                         wb_reckoning_row_get_reckoning (row),
                         (int) wb_reckoning_row_get_line (row), column->side, column->amount);
}

static void
show_line (GtkListItem *item)
{
  WbReckoningRow *row = gtk_list_item_get_item (item);
  const WbReckoning *reckoning = wb_reckoning_row_get_reckoning (row);
  const WbLineReckoning *line = &reckoning->lines[wb_reckoning_row_get_line (row)];
  g_autofree char *text = g_strdup_printf ("%" G_GINT64_FORMAT "  %s", line->line->number,
                                           line->line->item != NULL ? line->line->item : "");

  gtk_label_set_label (GTK_LABEL (gtk_list_item_get_child (item)), text);
  wb_row_name_set (gtk_list_item_get_child (item), text);
}

static void
row_changed_cb (GtkListItem *item)
{
  const Column *column = g_object_get_data (G_OBJECT (item), "column");

  if (column != NULL)
    show_figure (item, column);
  else
    show_line (item);
}

static void
set_up_figure_cb (GObject     *factory,
                  GtkListItem *item)
{
  g_object_set_data (G_OBJECT (item), "column", (gpointer) get_column (factory));
  gtk_list_item_set_activatable (item, FALSE);
  gtk_list_item_set_selectable (item, FALSE);
  gtk_list_item_set_child (item, wb_figure_button_new ());
}

static void
set_up_line_cb (GObject     *factory,
                GtkListItem *item)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), 12);
  gtk_list_item_set_activatable (item, FALSE);
  gtk_list_item_set_selectable (item, FALSE);
  gtk_list_item_set_child (item, label);
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
  if (WB_IS_FIGURE_BUTTON (gtk_list_item_get_child (item)))
    wb_figure_button_show (WB_FIGURE_BUTTON (gtk_list_item_get_child (item)), NULL, 0,
                           WB_SIDE_RELEASED, WB_AMOUNT_LOSS);
}

static void
append_column (WbReckoningTable *self,
               const char       *title,
               Column           *column)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  g_autoptr (GtkColumnViewColumn) view_column = NULL;

  g_object_set_data_full (G_OBJECT (factory), "column", column, g_free);
  g_signal_connect (factory, "setup",
                    G_CALLBACK (column != NULL ? set_up_figure_cb : set_up_line_cb), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), NULL);
  g_signal_connect (factory, "unbind", G_CALLBACK (unbind_cb), NULL);

  view_column = gtk_column_view_column_new (title, factory);
  gtk_column_view_column_set_expand (view_column, column == NULL);
  gtk_column_view_append_column (self->view, view_column);
}

static void
add_columns (WbReckoningTable *self)
{
  append_column (self, _("Line"), NULL);

  for (int side = 0; side < WB_N_SIDES; side++)
    for (int amount = 0; amount < WB_N_LINE_AMOUNTS; amount++)
      {
        Column *column = g_new (Column, 1);

        column->side = (WbSide) side;
        column->amount = (WbAmount) amount;
        append_column (self, _(titles[side][amount]), column);
      }
}

static void
wb_reckoning_table_map (GtkWidget *widget)
{
  WbReckoningTable *self = WB_RECKONING_TABLE (widget);
  g_autoptr (PangoLayout) sample = gtk_widget_create_pango_layout (widget, "1");
  int height;

  pango_layout_get_pixel_size (sample, NULL, &height);
  gtk_scrolled_window_set_max_content_height (self->scroller, (height + 18) * MOST_ROWS_SEEN);

  GTK_WIDGET_CLASS (wb_reckoning_table_parent_class)->map (widget);
}

static void
wb_reckoning_table_dispose (GObject *object)
{
  WbReckoningTable *self = WB_RECKONING_TABLE (object);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  gtk_widget_dispose_template (GTK_WIDGET (object), WB_TYPE_RECKONING_TABLE);
  g_clear_object (&self->rows);

  G_OBJECT_CLASS (wb_reckoning_table_parent_class)->dispose (object);
}

static gboolean
wb_reckoning_table_focus (GtkWidget        *widget,
                          GtkDirectionType  direction)
{
  return wb_cell_walk_focus (widget, WB_RECKONING_TABLE (widget)->view, direction);
}

static void
wb_reckoning_table_class_init (WbReckoningTableClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_reckoning_table_dispose;
  widget_class->focus = wb_reckoning_table_focus;
  widget_class->map = wb_reckoning_table_map;

  gtk_widget_class_set_template_from_resource (
    widget_class, "/org/wainbook/Wainbook/claim/wb-reckoning-table.ui");
  gtk_widget_class_bind_template_child (widget_class, WbReckoningTable, scroller);
  gtk_widget_class_bind_template_child (widget_class, WbReckoningTable, view);
}

static void
wb_reckoning_table_init (WbReckoningTable *self)
{
  GtkSelectionModel *selection;

  gtk_widget_init_template (GTK_WIDGET (self));
  wb_cell_walk_add (self->view, TRUE);
  wb_scroll_on (self->scroller);

  self->rows = g_list_store_new (WB_TYPE_RECKONING_ROW);
  selection = GTK_SELECTION_MODEL (gtk_no_selection_new (G_LIST_MODEL (g_object_ref (self->rows))));
  gtk_column_view_set_model (self->view, selection);
  g_object_unref (selection);
  add_columns (self);
}

void
wb_reckoning_table_show (WbReckoningTable *self,
                         WbReckoning      *reckoning)
{
  guint n = reckoning != NULL ? reckoning->n_lines : 0;
  guint had;

  g_return_if_fail (WB_IS_RECKONING_TABLE (self));

  had = g_list_model_get_n_items (G_LIST_MODEL (self->rows));
  if (had > n)
    g_list_store_splice (self->rows, n, had - n, NULL, 0);

  for (guint i = 0; i < MIN (had, n); i++)
    {
      g_autoptr (WbReckoningRow) row = g_list_model_get_item (G_LIST_MODEL (self->rows), i);

      wb_reckoning_row_set_reckoning (row, reckoning);
    }

  if (n > had)
    {
      g_autoptr (GPtrArray) more = g_ptr_array_new_with_free_func (g_object_unref);

      for (guint i = had; i < n; i++)
        g_ptr_array_add (more, wb_reckoning_row_new (reckoning, i));
      g_list_store_splice (self->rows, had, 0, more->pdata, more->len);
    }

  gtk_widget_set_visible (GTK_WIDGET (self), n > 0);
}
