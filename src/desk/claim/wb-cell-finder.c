/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finding a cell by its record. Rows are made and thrown away as they come into sight, so a cell
 * may be there only some frames after its row was asked for. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-cell-finder.h"

#include "desk/model/wb-record-item.h"

#define MOST_TRIES 20

struct _WbCellFinder
{
  GtkColumnView *view;
  GListModel    *rows;
  GPtrArray     *cells;        /* (element-type WbCell): not owned */

  char          *wanted_id;    /* (nullable): gets the focus as soon as it is there */
  guint          wanted_column;
  guint          tries;
  guint          tick;
};

static WbCell *
find_cell (WbCellFinder *self,
           const char   *id,
           guint         column)
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

/* Only the list inside the column view knows how to scroll to a row. */
static void
scroll_to (WbCellFinder *self,
           const char   *id)
{
  GtkWidget *list = gtk_widget_get_last_child (GTK_WIDGET (self->view));
  guint position = wb_cell_finder_position (self, id);

  if (position != GTK_INVALID_LIST_POSITION)
    gtk_widget_activate_action (list, "list.scroll-to-item", "u", position);
}

static gboolean
focus_wanted_cb (GtkWidget     *widget,
                 GdkFrameClock *clock,
                 gpointer       data)
{
  WbCellFinder *self = data;
  WbCell *cell = find_cell (self, self->wanted_id, self->wanted_column);

  self->tries++;
  if (cell == NULL && self->tries < MOST_TRIES)
    {
      scroll_to (self, self->wanted_id);
      return G_SOURCE_CONTINUE;
    }

  self->tick = 0;
  if (cell != NULL)
    wb_cell_focus (cell);
  return G_SOURCE_REMOVE;
}

static void
cell_gone_cb (gpointer  data,
              GObject  *cell)
{
  g_ptr_array_remove_fast (data, cell);
}

WbCellFinder *
wb_cell_finder_new (GtkColumnView *view,
                    GListModel    *rows)
{
  WbCellFinder *self = g_new0 (WbCellFinder, 1);

  self->view = view;
  self->rows = rows;
  self->cells = g_ptr_array_new ();
  return self;
}

void
wb_cell_finder_free (WbCellFinder *self)
{
  if (self == NULL)
    return;

  if (self->tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self->view), self->tick);
  for (guint i = 0; i < self->cells->len; i++)
    g_object_weak_unref (g_ptr_array_index (self->cells, i), cell_gone_cb, self->cells);
  g_ptr_array_unref (self->cells);
  g_free (self->wanted_id);
  g_free (self);
}

void
wb_cell_finder_add (WbCellFinder *self,
                    WbCell       *cell)
{
  g_object_weak_ref (G_OBJECT (cell), cell_gone_cb, self->cells);
  g_ptr_array_add (self->cells, cell);
}

const char *
wb_cell_finder_id (WbCellFinder *self,
                   guint         position)
{
  g_autoptr (WbRecordItem) item = g_list_model_get_item (self->rows, position);

  return item != NULL ? ((const WbRecord *) wb_record_item_get_record (item))->id : NULL;
}

guint
wb_cell_finder_position (WbCellFinder *self,
                         const char   *id)
{
  guint n = g_list_model_get_n_items (self->rows);

  for (guint i = 0; i < n; i++)
    if (g_strcmp0 (wb_cell_finder_id (self, i), id) == 0)
      return i;

  return GTK_INVALID_LIST_POSITION;
}

void
wb_cell_finder_focus (WbCellFinder *self,
                      const char   *id,
                      guint         column)
{
  WbCell *cell = find_cell (self, id, column);

  if (cell != NULL)
    {
      wb_cell_focus (cell);
      return;
    }

  if (self->wanted_id != id)
    {
      g_free (self->wanted_id);
      self->wanted_id = g_strdup (id);
    }
  self->wanted_column = column;
  self->tries = 0;
  scroll_to (self, id);
  if (self->tick == 0)
    self->tick = gtk_widget_add_tick_callback (GTK_WIDGET (self->view), focus_wanted_cb, self,
                                               NULL);
}
