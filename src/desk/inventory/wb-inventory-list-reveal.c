/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bringing a line into sight and keeping it there: a line that was asked for is selected and
 * scrolled to as soon as sorting and filtering have come to it. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-inventory-list-private.h"

#include "desk/inventory/wb-inventory-cell.h"

/* In how many frames a line is scrolled to. */
#define SCROLL_FRAMES 3

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
  GtkWidget *row = gtk_widget_get_first_child (wb_inventory_list_find_rows (self));

  while (row != NULL && !holds_item (row, id))
    row = gtk_widget_get_next_sibling (row);
  if (row != NULL)
    gtk_widget_grab_focus (row);
}

static void
scroll_to (WbInventoryList *self,
           guint            position)
{
  gtk_widget_activate_action (wb_inventory_list_find_rows (self), "list.scroll-to-item", "u",
                              position);
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

void
wb_inventory_list_reveal_awaited (WbInventoryList *self)
{
  guint position;

  if (self->awaited == NULL)
    return;

  position = wb_inventory_list_find_position (self, self->awaited);
  if (position != GTK_INVALID_LIST_POSITION)
    {
      gtk_selection_model_select_item (GTK_SELECTION_MODEL (self->selection), position, TRUE);
      scroll_now_and_again (self, position);
      if (self->awaited_focus)
        focus_row (self, self->awaited);
    }
  if (wb_inventory_list_is_at_rest (self))
    g_clear_pointer (&self->awaited, g_free);
}

static gboolean
reveal_cb (gpointer data)
{
  WbInventoryList *self = data;

  self->reveal_source = 0;
  wb_inventory_list_reveal_awaited (self);
  return G_SOURCE_REMOVE;
}

void
wb_inventory_list_reveal_now (WbInventoryList *self)
{
  g_clear_handle_id (&self->reveal_source, g_source_remove);
  wb_inventory_list_reveal_awaited (self);
}

void
wb_inventory_list_remember_edge (WbInventoryList *self,
                                 GtkAdjustment   *adjustment)
{
  self->height = gtk_adjustment_get_page_size (adjustment);
  self->edge = gtk_adjustment_get_value (adjustment) + self->height;
}

void
wb_inventory_list_keep_in_sight (WbInventoryList *self,
                                 GtkAdjustment   *adjustment)
{
  double edge_before = self->edge;
  double height_before = self->height;
  guint n = self->selection != NULL ? g_list_model_get_n_items (G_LIST_MODEL (self->selection)) : 0;
  g_autoptr (GtkBitset) chosen = NULL;
  double bottom;

  wb_inventory_list_remember_edge (self, adjustment);
  if (n == 0 || self->height >= height_before)
    return;

  chosen = gtk_selection_model_get_selection (GTK_SELECTION_MODEL (self->selection));
  if (gtk_bitset_get_size (chosen) != 1)
    return;
  bottom = gtk_adjustment_get_upper (adjustment) / n * (gtk_bitset_get_minimum (chosen) + 1);
  if (bottom > self->edge && bottom < edge_before + 1)
    scroll_soon (self, gtk_bitset_get_minimum (chosen));
}

void
wb_inventory_list_reveal (WbInventoryList *self,
                          const char      *id,
                          gboolean         focus)
{
  g_return_if_fail (WB_IS_INVENTORY_LIST (self));
  g_return_if_fail (id != NULL);

  wb_inventory_list_ensure_started (self);
  g_free (self->awaited);
  self->awaited = g_strdup (id);
  self->awaited_focus = focus;
  if (focus)
    wb_inventory_list_reveal_now (self);
  else if (self->reveal_source == 0)
    self->reveal_source = g_idle_add_full (G_PRIORITY_HIGH_IDLE, reveal_cb, self, NULL);
}

void
wb_inventory_list_drop_reveal (WbInventoryList *self)
{
  g_clear_handle_id (&self->reveal_source, g_source_remove);
  if (self->scroll_tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->scroll_tick);
  self->scroll_tick = 0;
}
