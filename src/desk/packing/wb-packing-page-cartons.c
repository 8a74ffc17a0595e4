/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of cartons of the packing page: its rows, which of them are shown and which is in hand,
 * and going to the next one with an open check. What stands in a row is the row's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/packing/wb-packing-page-private.h"

#include "desk/packing/wb-carton-row.h"
#include "office/wb-lift-setting.h"
#include "office/wb-words-packing.h"

#include <glib/gi18n.h>

static const char *
id_of (gpointer item)
{
  return ((const WbRecord *) wb_record_item_get_record (WB_RECORD_ITEM (item)))->id;
}

/* The carton in hand stays in the list until another is chosen, even when its last check is met. */
static gboolean
filter_cb (gpointer item,
           gpointer data)
{
  WbPackingPage *self = data;
  const WbPiece *piece = wb_record_item_get_record (WB_RECORD_ITEM (item));

  if (piece->form != WB_FORM_CARTON)
    return FALSE;
  return !self->only_open || self->packing == NULL
         || g_strcmp0 (piece->record.id, self->shown) == 0
         || wb_packing_page_has_work (self, piece);
}

void
wb_packing_page_show_row (WbPackingPage *self,
                          GtkListItem   *list_item)
{
  WbRecordItem *item = gtk_list_item_get_item (list_item);
  const WbPiece *piece = item != NULL ? wb_record_item_get_record (item) : NULL;
  WbWeight weight = WB_WEIGHT_UNSET;
  g_autofree char *caution = NULL;
  WbLift lift;

  if (piece == NULL || self->packing == NULL)
    return;
  lift = wb_packing_lift (wb_packing_page_get_catalog (self), piece, wb_lift_setting_get (),
                          &weight, NULL);
  caution = wb_words_lift_short (lift, weight);
  wb_carton_row_show (WB_CARTON_ROW (gtk_list_item_get_child (list_item)), self->job, self->packing,
                      piece, caution);
}

static void
setup_cb (WbPackingPage *self,
          GtkListItem   *list_item)
{
  GtkWidget *row = wb_carton_row_new ();

  gtk_widget_set_margin_start (row, 12);
  gtk_widget_set_margin_end (row, 12);
  gtk_list_item_set_child (list_item, row);
  g_ptr_array_add (self->list_items, list_item);
}

static void
teardown_cb (WbPackingPage *self,
             GtkListItem   *list_item)
{
  g_ptr_array_remove_fast (self->list_items, list_item);
}

static void
bind_cb (WbPackingPage *self,
         GtkListItem   *list_item)
{
  wb_packing_page_show_row (self, list_item);
}

static void
selected_cb (WbPackingPage *self)
{
  gpointer item = gtk_single_selection_get_selected_item (self->selection);
  const char *id = item != NULL ? id_of (item) : NULL;

  if (g_strcmp0 (id, self->shown) == 0)
    return;

  g_free (self->shown);
  self->shown = g_strdup (id);
  if (self->packing != NULL)
    wb_packing_page_show_panel (self);
}

static void
select_place (WbPackingPage *self,
              guint          place)
{
  gtk_widget_activate_action (GTK_WIDGET (self->list), "list.select-item", "(ubb)", place, FALSE,
                              FALSE);
  gtk_single_selection_set_selected (self->selection, place);
  gtk_widget_activate_action (GTK_WIDGET (self->list), "list.scroll-to-item", "u", place);
}

/* The first carton behind the one in hand, or before it, that has an open check. */
static guint
find_next_open (WbPackingPage *self)
{
  GListModel *list = G_LIST_MODEL (self->selection);
  guint n = g_list_model_get_n_items (list);
  guint start = gtk_single_selection_get_selected (self->selection);

  if (start == GTK_INVALID_LIST_POSITION)
    start = n - 1;
  for (guint i = 1; i <= n; i++)
    {
      guint place = (start + i) % n;
      g_autoptr (GObject) item = g_list_model_get_item (list, place);

      if (wb_packing_counts (self->packing,
                             wb_record_item_get_record (WB_RECORD_ITEM (item))).open > 0)
        return place;
    }
  return GTK_INVALID_LIST_POSITION;
}

/* In the carton in hand first, then in the next one that has an open check. */
void
wb_packing_page_go_to_next_open (WbPackingPage *self)
{
  guint place;

  if (wb_carton_panel_go_to_open (self->panel, FALSE))
    return;

  place = find_next_open (self);
  if (place == GTK_INVALID_LIST_POSITION)
    {
      wb_carton_panel_say (self->panel, _("Every check in this list has been looked at."));
      return;
    }
  select_place (self, place);
  wb_carton_panel_go_to_open (self->panel, TRUE);
}

/* The list itself would give the focus to the row that had it last, which need not be the selected
 * one. */
void
wb_packing_page_focus_cartons (WbPackingPage *self)
{
  guint place = gtk_single_selection_get_selected (self->selection);

  for (guint i = 0; i < self->list_items->len; i++)
    {
      GtkListItem *list_item = g_ptr_array_index (self->list_items, i);
      GtkWidget *row = gtk_widget_get_parent (gtk_list_item_get_child (list_item));

      if (gtk_list_item_get_item (list_item) != NULL
          && gtk_list_item_get_position (list_item) == place && row != NULL)
        {
          gtk_widget_grab_focus (row);
          return;
        }
    }
  gtk_widget_grab_focus (GTK_WIDGET (self->list));
}

static void
add_key (GtkWidget       *widget,
         guint            key,
         GtkShortcutFunc  function)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();

  gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (keys),
                                        gtk_shortcut_new (gtk_keyval_trigger_new (key, 0),
                                                          gtk_callback_action_new (function, NULL,
                                                                                   NULL)));
  gtk_widget_add_controller (widget, keys);
}

static gboolean
list_next_cb (GtkWidget *widget,
              GVariant  *args,
              gpointer   data)
{
  return gtk_widget_activate_action (widget, "packing.next", NULL);
}

static gboolean
list_all_met_cb (GtkWidget *widget,
                 GVariant  *args,
                 gpointer   data)
{
  return gtk_widget_activate_action (widget, "packing.all-met", NULL);
}

void
wb_packing_page_make_cartons (WbPackingPage *self)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  self->list_items = g_ptr_array_new ();
  self->filter = gtk_custom_filter_new (filter_cb, self, NULL);
  self->filtered = gtk_filter_list_model_new (NULL, GTK_FILTER (self->filter));
  self->selection = gtk_single_selection_new (G_LIST_MODEL (self->filtered));
  g_signal_connect_object (factory, "setup", G_CALLBACK (setup_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (factory, "bind", G_CALLBACK (bind_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (factory, "teardown", G_CALLBACK (teardown_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->selection, "notify::selected-item", G_CALLBACK (selected_cb), self,
                           G_CONNECT_SWAPPED);
  gtk_list_view_set_factory (self->list, factory);
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (self->selection));
  g_object_unref (factory);

  add_key (GTK_WIDGET (self->list), GDK_KEY_n, list_next_cb);
  add_key (GTK_WIDGET (self->list), GDK_KEY_a, list_all_met_cb);
}
