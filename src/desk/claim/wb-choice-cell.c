/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The picked cell of a record table. The list itself stands in core, its words in office. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-choice-cell.h"

#include "office/wb-words.h"

struct _WbChoiceCell
{
  WbCell        parent_instance;

  GtkWidget    *choice;
  const WbEnum *choices;
};

G_DEFINE_FINAL_TYPE (WbChoiceCell, wb_choice_cell, WB_TYPE_CELL)

static guint
get_value_position (WbChoiceCell *self)
{
  WbFieldTie *tie = wb_cell_get_tie (WB_CELL (self));
  const WbField *field = wb_field_tie_get_field (tie);
  gconstpointer record = wb_field_tie_get_record (tie);

  if (record == NULL)
    return GTK_INVALID_LIST_POSITION;

  for (gsize i = 0; i < self->choices->n_values; i++)
    if (self->choices->values[i].value == G_STRUCT_MEMBER (int, record, field->offset))
      return (guint) i;

  return GTK_INVALID_LIST_POSITION;
}

static void
selected_cb (WbChoiceCell *self)
{
  guint position = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->choice));
  guint current = get_value_position (self);

  if (current == GTK_INVALID_LIST_POSITION || position == current
      || position >= self->choices->n_values)
    return;

  if (!wb_cell_commit (WB_CELL (self), self->choices->values[position].nick))
    gtk_drop_down_set_selected (GTK_DROP_DOWN (self->choice), current);
}

static gboolean
key_pressed_cb (WbChoiceCell    *self,
                guint            key,
                guint            code,
                GdkModifierType  state)
{
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SHIFT_MASK)) != 0)
    return FALSE;

  if (key == GDK_KEY_Up || key == GDK_KEY_KP_Up)
    wb_cell_move (WB_CELL (self), -1);
  else if (key == GDK_KEY_Down || key == GDK_KEY_KP_Down)
    wb_cell_move (WB_CELL (self), 1);
  else
    return FALSE;

  return TRUE;
}

static void
wb_choice_cell_show (WbCell *cell)
{
  WbChoiceCell *self = WB_CHOICE_CELL (cell);
  guint position = get_value_position (self);

  if (position != GTK_INVALID_LIST_POSITION)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (self->choice), position);
}

/* Whatever is picked is in the list, so nothing is ever left that was not set. */
static void
wb_choice_cell_show_text (WbCell     *cell,
                          const char *text)
{
}

static GtkWidget *
wb_choice_cell_get_input (WbCell *cell)
{
  return WB_CHOICE_CELL (cell)->choice;
}

static void
wb_choice_cell_dispose (GObject *object)
{
  g_clear_pointer (&WB_CHOICE_CELL (object)->choice, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_choice_cell_parent_class)->dispose (object);
}

static void
wb_choice_cell_class_init (WbChoiceCellClass *klass)
{
  WbCellClass *cell_class = WB_CELL_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_choice_cell_dispose;
  cell_class->show = wb_choice_cell_show;
  cell_class->show_text = wb_choice_cell_show_text;
  cell_class->revert = wb_choice_cell_show;
  cell_class->get_input = wb_choice_cell_get_input;

  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
wb_choice_cell_init (WbChoiceCell *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->choice = gtk_drop_down_new (NULL, NULL);
  gtk_widget_add_css_class (self->choice, "flat");
  gtk_widget_set_parent (self->choice, GTK_WIDGET (self));
  g_signal_connect_swapped (self->choice, "notify::selected", G_CALLBACK (selected_cb), self);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}

GtkWidget *
wb_choice_cell_new (const WbEnum *choices)
{
  WbChoiceCell *self = g_object_new (WB_TYPE_CHOICE_CELL, NULL);
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);

  self->choices = choices;
  for (gsize i = 0; i < choices->n_values; i++)
    gtk_string_list_append (words, wb_words_enum (choices, choices->values[i].value));
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->choice), G_LIST_MODEL (words));

  return GTK_WIDGET (self);
}
