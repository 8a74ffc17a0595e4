/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The row of a yes-or-no field. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/widgets/wb-switch-row.h"

#include "desk/widgets/wb-field-tie.h"
#include "desk/widgets/wb-row-note.h"
#include "office/wb-words.h"

struct _WbSwitchRow
{
  AdwActionRow  parent_instance;

  WbFieldTie   *tie;
  GtkWidget    *toggle;
  GtkWidget    *note;
};

G_DEFINE_FINAL_TYPE (WbSwitchRow, wb_switch_row, ADW_TYPE_ACTION_ROW)

static gboolean
get_value (WbSwitchRow *self)
{
  const WbField *field = wb_field_tie_get_field (self->tie);
  gconstpointer record = wb_field_tie_get_record (self->tie);

  return record != NULL && G_STRUCT_MEMBER (gboolean, record, field->offset);
}

static void
value_changed_cb (WbSwitchRow *self)
{
  gtk_widget_set_sensitive (GTK_WIDGET (self), wb_field_tie_get_record (self->tie) != NULL);
  gtk_switch_set_active (GTK_SWITCH (self->toggle), get_value (self));
  wb_row_note_set (self->note, NULL, WB_NOTE_HINT);
}

static void
active_cb (WbSwitchRow *self)
{
  gboolean active = gtk_switch_get_active (GTK_SWITCH (self->toggle));
  g_autoptr (GError) error = NULL;

  if (wb_field_tie_get_record (self->tie) == NULL || active == get_value (self))
    return;

  if (!wb_field_tie_set_text (self->tie, active ? "yes" : "no", &error))
    {
      g_autofree char *fault = wb_field_tie_describe (self->tie, error);

      gtk_switch_set_active (GTK_SWITCH (self->toggle), get_value (self));
      wb_row_note_set (self->note, fault, WB_NOTE_ERROR);
    }
}

static void
show_field (WbSwitchRow *self)
{
  const WbField *field = wb_field_tie_get_field (self->tie);
  const char *label;

  if (field == NULL)
    return;

  label = wb_words_field (field);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self), label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->toggle),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
}

static void
wb_switch_row_get_property (GObject    *object,
                            guint       prop_id,
                            GValue     *value,
                            GParamSpec *pspec)
{
  wb_field_tie_get_row_property (WB_SWITCH_ROW (object)->tie, object, prop_id, value, pspec);
}

static void
wb_switch_row_set_property (GObject      *object,
                            guint         prop_id,
                            const GValue *value,
                            GParamSpec   *pspec)
{
  WbSwitchRow *self = WB_SWITCH_ROW (object);

  wb_field_tie_set_row_property (self->tie, object, prop_id, value, pspec);
  if (prop_id == WB_FIELD_TIE_PROP_FIELD)
    show_field (self);
}

static void
wb_switch_row_dispose (GObject *object)
{
  WbSwitchRow *self = WB_SWITCH_ROW (object);

  g_clear_pointer (&self->note, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_switch_row_parent_class)->dispose (object);
}

static void
wb_switch_row_finalize (GObject *object)
{
  g_clear_object (&WB_SWITCH_ROW (object)->tie);

  G_OBJECT_CLASS (wb_switch_row_parent_class)->finalize (object);
}

static void
wb_switch_row_class_init (WbSwitchRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = wb_switch_row_get_property;
  object_class->set_property = wb_switch_row_set_property;
  object_class->dispose = wb_switch_row_dispose;
  object_class->finalize = wb_switch_row_finalize;

  wb_field_tie_install_properties (object_class);
}

static void
wb_switch_row_init (WbSwitchRow *self)
{
  self->tie = wb_field_tie_new ();
  self->note = wb_row_note_new (GTK_LIST_BOX_ROW (self));
  self->toggle = gtk_switch_new ();
  gtk_widget_set_valign (self->toggle, GTK_ALIGN_CENTER);
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (self), FALSE);
  adw_action_row_add_suffix (ADW_ACTION_ROW (self), self->toggle);
  adw_action_row_set_activatable_widget (ADW_ACTION_ROW (self), self->toggle);

  g_signal_connect_object (self->tie, "changed", G_CALLBACK (value_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->toggle, "notify::active", G_CALLBACK (active_cb), self,
                           G_CONNECT_SWAPPED);
}
