/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A filtered view of the job's things, five plain columns. Nothing is changed here. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-contents-list.h"

#include "core/wb-things.h"
#include "desk/widgets/wb-row-name.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

typedef struct
{
  const char *title;
  char     *(*text) (const WbThing *thing);
  gboolean    expand;
  gboolean    numeric;
} Column;

/* --- what the columns say --------------------------------------------------------------------- */

static char *
quantity_text (const WbThing *thing)
{
  return g_strdup_printf ("%" G_GINT64_FORMAT, wb_thing_count (thing));
}

static char *
description_text (const WbThing *thing)
{
  return g_strdup (thing->description);
}

static char *
value_text (const WbThing *thing)
{
  WbMoney value;

  if (!wb_money_is_set (thing->value) || !wb_thing_value (thing, &value, NULL))
    return g_strdup ("");
  return wb_words_money (value);
}

static char *
weight_text (const WbThing *thing)
{
  WbWeight weight;

  if (!wb_weight_is_set (thing->weight) || !wb_thing_weight (thing, &weight, NULL))
    return g_strdup ("");
  return wb_words_weight (weight);
}

static char *
notes_text (const WbThing *thing)
{
  return g_strdup (thing->notes != NULL ? thing->notes : "");
}

static const Column columns[] = {
  { N_ ("How many"), quantity_text, FALSE, TRUE },
  { N_ ("Description"), description_text, TRUE, FALSE },
  { N_ ("Value of all"), value_text, FALSE, TRUE },
  { N_ ("Weight of all"), weight_text, FALSE, TRUE },
  { N_ ("Notes"), notes_text, TRUE, FALSE },
};

/* --- cells ------------------------------------------------------------------------------------ */

static void
show_cell (WbRecordItem *item,
           GtkWidget    *label)
{
  const Column *column = g_object_get_data (G_OBJECT (label), "column");
  const WbThing *thing = wb_record_item_get_record (item);
  g_autofree char *text = column->text (thing);

  gtk_label_set_text (GTK_LABEL (label), text);
  if (column == &columns[1])
    {
      g_autofree char *count = quantity_text (thing);
      /* Translators: how many there are of a thing, and the thing. */
      g_autofree char *name = g_strdup_printf (_("%s × %s"), count, text);

      wb_row_name_set (label, name);
    }
}

static void
record_changed_cb (WbRecordItem *item,
                   GParamSpec   *pspec,
                   GtkWidget    *label)
{
  show_cell (item, label);
}

static void
setup_cb (GtkSignalListItemFactory *factory,
          GtkListItem              *list_item,
          gpointer                  data)
{
  const Column *column = data;
  GtkWidget *label = gtk_label_new (NULL);

  g_object_set_data (G_OBJECT (label), "column", data);
  gtk_label_set_xalign (GTK_LABEL (label), column->numeric ? 1 : 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), 6);
  if (column->numeric)
    gtk_widget_add_css_class (label, "numeric");
  gtk_list_item_set_child (list_item, label);
}

static void
bind_cb (GtkSignalListItemFactory *factory,
         GtkListItem              *list_item,
         gpointer                  data)
{
  GtkWidget *label = gtk_list_item_get_child (list_item);
  WbRecordItem *item = gtk_list_item_get_item (list_item);

  show_cell (item, label);
  g_signal_connect_object (item, "notify::record", G_CALLBACK (record_changed_cb), label, 0);
}

static void
unbind_cb (GtkSignalListItemFactory *factory,
           GtkListItem              *list_item,
           gpointer                  data)
{
  g_signal_handlers_disconnect_by_func (gtk_list_item_get_item (list_item), record_changed_cb,
                                        gtk_list_item_get_child (list_item));
}

static void
add_column (GtkColumnView *view,
            const Column  *column)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  g_autoptr (GtkColumnViewColumn) view_column = NULL;

  g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), (gpointer) column);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), (gpointer) column);
  g_signal_connect (factory, "unbind", G_CALLBACK (unbind_cb), (gpointer) column);
  view_column = gtk_column_view_column_new (_(column->title), factory);
  gtk_column_view_column_set_resizable (view_column, TRUE);
  gtk_column_view_column_set_expand (view_column, column->expand);
  gtk_column_view_append_column (view, view_column);
}

/* --- the model -------------------------------------------------------------------------------- */

static gboolean
is_inside_cb (gpointer item,
              gpointer piece)
{
  const WbThing *thing = wb_record_item_get_record (WB_RECORD_ITEM (item));

  return g_strcmp0 (thing->piece, piece) == 0;
}

GtkSingleSelection *
wb_contents_list_set_up (GtkColumnView *view,
                         WbJobModel    *model,
                         const char    *piece)
{
  GtkFilter *filter = GTK_FILTER (gtk_custom_filter_new (is_inside_cb, g_strdup (piece), g_free));
  GListModel *all = wb_job_model_get_records (model, WB_KIND_THING);
  GtkFilterListModel *inside = gtk_filter_list_model_new (g_object_ref (all), filter);
  GtkSingleSelection *selection = gtk_single_selection_new (G_LIST_MODEL (inside));

  for (gsize i = 0; i < G_N_ELEMENTS (columns); i++)
    add_column (view, &columns[i]);
  gtk_column_view_set_model (view, GTK_SELECTION_MODEL (selection));
  return selection;
}

const WbThing *
wb_contents_list_nth (GListModel *things,
                      guint       position)
{
  g_autoptr (WbRecordItem) item = g_list_model_get_item (things, position);

  return item != NULL ? wb_record_item_get_record (item) : NULL;
}

static guint
find_position (GListModel *things,
               const char *id)
{
  guint n = g_list_model_get_n_items (things);

  for (guint i = 0; i < n; i++)
    if (g_str_equal (wb_contents_list_nth (things, i)->record.id, id))
      return i;
  return GTK_INVALID_LIST_POSITION;
}

const WbThing *
wb_contents_list_neighbour (GListModel *things,
                            const char *id,
                            int         step)
{
  guint position = find_position (things, id);

  if (position == GTK_INVALID_LIST_POSITION || (step < 0 && position < (guint) -step))
    return NULL;
  return wb_contents_list_nth (things, position + (guint) step);
}

void
wb_contents_list_select (GtkColumnView      *view,
                         GtkSingleSelection *things,
                         const char         *id)
{
  guint position = find_position (G_LIST_MODEL (things), id);
  GtkWidget *rows = gtk_widget_get_last_child (GTK_WIDGET (view));

  if (position == GTK_INVALID_LIST_POSITION)
    return;
  gtk_single_selection_set_selected (things, position);
  gtk_widget_activate_action (rows, "list.scroll-to-item", "u", position);
}

