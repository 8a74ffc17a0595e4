/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The row of a field with a closed list. The list itself stands in core, its words in office. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/widgets/wb-choice-row.h"

#include "desk/widgets/wb-field-tie.h"
#include "desk/widgets/wb-row-note.h"
#include "office/wb-words.h"

struct _WbChoiceRow
{
  AdwComboRow  parent_instance;

  WbFieldTie  *tie;
  GtkWidget   *note;
};

G_DEFINE_FINAL_TYPE (WbChoiceRow, wb_choice_row, ADW_TYPE_COMBO_ROW)

/* Place of the value in the list, or GTK_INVALID_LIST_POSITION when there is no record. */
static guint
get_value_position (WbChoiceRow *self)
{
  const WbField *field = wb_field_tie_get_field (self->tie);
  gconstpointer record = wb_field_tie_get_record (self->tie);

  if (record == NULL)
    return GTK_INVALID_LIST_POSITION;

  for (gsize i = 0; i < field->choices->n_values; i++)
    if (field->choices->values[i].value == G_STRUCT_MEMBER (int, record, field->offset))
      return (guint) i;

  return GTK_INVALID_LIST_POSITION;
}

static void
value_changed_cb (WbChoiceRow *self)
{
  guint position = get_value_position (self);

  gtk_widget_set_sensitive (GTK_WIDGET (self), position != GTK_INVALID_LIST_POSITION);
  if (position != GTK_INVALID_LIST_POSITION)
    adw_combo_row_set_selected (ADW_COMBO_ROW (self), position);
  wb_row_note_set (self->note, NULL, WB_NOTE_HINT);
}

static void
selected_cb (WbChoiceRow *self)
{
  const WbField *field = wb_field_tie_get_field (self->tie);
  guint position = adw_combo_row_get_selected (ADW_COMBO_ROW (self));
  guint current = get_value_position (self);
  g_autoptr (GError) error = NULL;

  if (field == NULL || current == GTK_INVALID_LIST_POSITION || position == current ||
      position >= field->choices->n_values)
    return;

  if (!wb_field_tie_set_text (self->tie, field->choices->values[position].nick, &error))
    {
      g_autofree char *fault = wb_field_tie_describe (self->tie, error);

      adw_combo_row_set_selected (ADW_COMBO_ROW (self), current);
      wb_row_note_set (self->note, fault, WB_NOTE_ERROR);
    }
}

/* Returns: (nullable): the first @type below @widget */
static GtkWidget *
find_inside (GtkWidget *widget,
             GType      type)
{
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = g_type_is_a (G_OBJECT_TYPE (child), type)
                         ? child : find_inside (child, type);

      if (found != NULL)
        return found;
    }

  return NULL;
}

static gboolean
start_at_value_cb (gpointer data)
{
  WbChoiceRow *self = WB_CHOICE_ROW (data);
  GtkWidget *popover = find_inside (GTK_WIDGET (self), GTK_TYPE_POPOVER);
  GtkWidget *list = popover != NULL ? find_inside (popover, GTK_TYPE_LIST_VIEW) : NULL;
  GtkWidget *row = list != NULL ? gtk_widget_get_first_child (list) : NULL;
  guint selected = adw_combo_row_get_selected (ADW_COMBO_ROW (self));

  for (guint i = 0; row != NULL && i < selected; i++)
    row = gtk_widget_get_next_sibling (row);

  if (row != NULL && gtk_widget_get_mapped (row))
    {
      gtk_widget_grab_focus (row);
      gtk_widget_activate_action (list, "list.select-item", "(ubb)", selected, FALSE, FALSE);
    }

  return G_SOURCE_REMOVE;
}

/* The list opens at its first value and so would the keys; a person expects to start from the value
 * that holds. The popover gives the focus away last of all, hence the detour. */
static void
opened_cb (WbChoiceRow *self)
{
  g_idle_add_full (G_PRIORITY_HIGH_IDLE, start_at_value_cb, g_object_ref (self), g_object_unref);
}

static void
show_field (WbChoiceRow *self)
{
  const WbField *field = wb_field_tie_get_field (self->tie);
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);
  const char *label;

  if (field == NULL || field->choices == NULL)
    return;

  for (gsize i = 0; i < field->choices->n_values; i++)
    gtk_string_list_append (words, wb_words_enum (field->choices, field->choices->values[i].value));

  label = wb_words_field (field);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self), label);
  adw_combo_row_set_model (ADW_COMBO_ROW (self), G_LIST_MODEL (words));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  value_changed_cb (self);
}

static void
wb_choice_row_get_property (GObject    *object,
                            guint       prop_id,
                            GValue     *value,
                            GParamSpec *pspec)
{
  wb_field_tie_get_row_property (WB_CHOICE_ROW (object)->tie, object, prop_id, value, pspec);
}

static void
wb_choice_row_set_property (GObject      *object,
                            guint         prop_id,
                            const GValue *value,
                            GParamSpec   *pspec)
{
  WbChoiceRow *self = WB_CHOICE_ROW (object);

  wb_field_tie_set_row_property (self->tie, object, prop_id, value, pspec);
  if (prop_id == WB_FIELD_TIE_PROP_FIELD)
    show_field (self);
}

static void
wb_choice_row_dispose (GObject *object)
{
  WbChoiceRow *self = WB_CHOICE_ROW (object);

  g_clear_pointer (&self->note, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_choice_row_parent_class)->dispose (object);
}

static void
wb_choice_row_finalize (GObject *object)
{
  g_clear_object (&WB_CHOICE_ROW (object)->tie);

  G_OBJECT_CLASS (wb_choice_row_parent_class)->finalize (object);
}

static void
wb_choice_row_class_init (WbChoiceRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = wb_choice_row_get_property;
  object_class->set_property = wb_choice_row_set_property;
  object_class->dispose = wb_choice_row_dispose;
  object_class->finalize = wb_choice_row_finalize;

  wb_field_tie_install_properties (object_class);
}

static void
wb_choice_row_init (WbChoiceRow *self)
{
  GtkWidget *popover = find_inside (GTK_WIDGET (self), GTK_TYPE_POPOVER);

  self->tie = wb_field_tie_new ();
  self->note = wb_row_note_new (GTK_LIST_BOX_ROW (self));
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (self), FALSE);

  g_signal_connect_object (self->tie, "changed", G_CALLBACK (value_changed_cb), self,
                           G_CONNECT_SWAPPED);
  if (popover != NULL)
    g_signal_connect_object (popover, "map", G_CALLBACK (opened_cb), self,
                             G_CONNECT_SWAPPED);
  g_signal_connect (self, "notify::selected", G_CALLBACK (selected_cb), NULL);
}
