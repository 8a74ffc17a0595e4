/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The typed row of one field. What is good text is for core to say, through the model. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/widgets/wb-field-row.h"

#include "desk/widgets/wb-choice-row.h"
#include "desk/widgets/wb-field-tie.h"
#include "desk/widgets/wb-row-note.h"
#include "desk/widgets/wb-switch-row.h"
#include "desk/widgets/wb-text-row.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

struct _WbFieldRow
{
  AdwEntryRow  parent_instance;

  WbFieldTie  *tie;
  GtkWidget   *note;
  char        *advice;    /* shown beneath while the text is good */
  char        *shown;     /* the text that stands for the value; another is typed, not set yet */
  gboolean     focused;
  gboolean     invalid;
  guint        rest_source;
};

enum
{
  PROP_INVALID = WB_FIELD_TIE_N_PROPS,
};

G_DEFINE_FINAL_TYPE (WbFieldRow, wb_field_row, ADW_TYPE_ENTRY_ROW)

/* The text widget itself: what has the focus and what a screen reader reads. */
static GtkWidget *
get_text_widget (WbFieldRow *self)
{
  return GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (self)));
}

static const char *
example_of (WbFieldType type)
{
  switch (type)
    {
    case WB_FIELD_DATE:
      /* Translators: an example of how a date is typed; the order year, month, day is fixed. */
      return _("for example 2026-11-25");
    case WB_FIELD_MONEY:
      /* Translators: an example of how an amount of money is typed. */
      return _("for example 1,250.00");
    case WB_FIELD_WEIGHT:
      /* Translators: an example of how a weight is typed. */
      return _("for example 1,250 lb or 567 kg");
    case WB_FIELD_VOLUME:
      /* Translators: an example of how a volume is typed. */
      return _("for example 900 cuft or 25 m3");
    case WB_FIELD_PERCENT:
      /* Translators: an example of how a percentage is typed. */
      return _("for example 7.5 %");
    case WB_FIELD_MARKS:
      /* Translators: an example of condition marks; the codes are fixed. */
      return _("for example SC 4-8, CH 3");
    case WB_FIELD_TEXT:
    case WB_FIELD_REFERENCE:
    case WB_FIELD_BOOLEAN:
    case WB_FIELD_INTEGER:
    case WB_FIELD_ENUM:
      return NULL;
    }

  g_assert_not_reached ();
}

static gboolean
is_typed (WbFieldRow *self)
{
  return g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (self)), self->shown) != 0;
}

/* How the value is written, while somebody is about to write it. */
static const char *
example_to_show (WbFieldRow *self)
{
  const WbField *field = wb_field_tie_get_field (self->tie);

  if (!self->focused || field == NULL || *gtk_editable_get_text (GTK_EDITABLE (self)) != '\0')
    return NULL;
  return example_of (field->type);
}

static void
show_note (WbFieldRow *self,
           const char *fault)
{
  if (fault != NULL)
    wb_row_note_set (self->note, fault, WB_NOTE_ERROR);
  else if (self->advice != NULL)
    wb_row_note_set (self->note, self->advice, WB_NOTE_WARNING);
  else
    wb_row_note_set (self->note, example_to_show (self), WB_NOTE_HINT);
}

static void
show_state (WbFieldRow *self,
            const char *fault)
{
  GtkWidget *text = get_text_widget (self);
  gboolean invalid = fault != NULL;

  if (invalid)
    gtk_widget_add_css_class (GTK_WIDGET (self), "error");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "error");

  show_note (self, fault);
  gtk_accessible_update_state (GTK_ACCESSIBLE (text),
                               GTK_ACCESSIBLE_STATE_INVALID,
                               invalid ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE,
                               -1);
  if (gtk_widget_get_visible (self->note))
    gtk_accessible_update_property (GTK_ACCESSIBLE (text), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                    gtk_label_get_label (GTK_LABEL (self->note)), -1);
  else
    gtk_accessible_reset_property (GTK_ACCESSIBLE (text), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION);

  if (self->invalid != invalid)
    {
      self->invalid = invalid;
      g_object_notify (G_OBJECT (self), "invalid");
    }
}

static void
show_value (WbFieldRow *self)
{
  g_autofree char *text = self->focused ? wb_field_tie_get_text (self->tie)
                                        : wb_field_tie_get_words (self->tie);

  g_free (self->shown);
  self->shown = g_strdup (text);
  if (!g_str_equal (gtk_editable_get_text (GTK_EDITABLE (self)), text))
    gtk_editable_set_text (GTK_EDITABLE (self), text);
  show_state (self, NULL);
}

/* What is typed and not set yet stays, whatever the job does. */
static void
value_changed_cb (WbFieldRow *self)
{
  if (!self->invalid && !(self->focused && self->shown != NULL && is_typed (self)))
    show_value (self);
  gtk_widget_set_sensitive (GTK_WIDGET (self), wb_field_tie_get_record (self->tie) != NULL);
}

static void
set_value (WbFieldRow *self)
{
  g_autofree char *text = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self)));
  g_autoptr (GError) error = NULL;

  if (!is_typed (self))
    return;

  if (wb_field_tie_set_text (self->tie, text, &error))
    {
      show_value (self);
    }
  else
    {
      g_autofree char *fault = wb_field_tie_describe (self->tie, error);

      show_state (self, fault);
    }
}

static void
text_changed_cb (WbFieldRow *self)
{
  g_autoptr (GError) error = NULL;

  if (!self->focused)
    return;

  if (wb_field_tie_check (self->tie, gtk_editable_get_text (GTK_EDITABLE (self)), &error))
    {
      show_state (self, NULL);
    }
  else
    {
      g_autofree char *fault = wb_field_tie_describe (self->tie, error);

      show_state (self, fault);
    }
}

static void
activated_cb (WbFieldRow *self)
{
  set_value (self);
  if (self->invalid)
    gtk_widget_error_bell (GTK_WIDGET (self));
}

static void
focus_enter_cb (WbFieldRow *self)
{
  g_clear_handle_id (&self->rest_source, g_source_remove);
  if (self->focused)
    return;

  self->focused = TRUE;
  if (self->invalid)
    return;

  show_value (self);
  gtk_editable_select_region (GTK_EDITABLE (self), 0, -1);
}

/* Whether it is the window that lost the focus, and the row will have it again with the window. */
static gboolean
is_window_left (WbFieldRow *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  return focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self));
}

static gboolean
rest_cb (gpointer data)
{
  WbFieldRow *self = WB_FIELD_ROW (data);

  self->rest_source = 0;
  self->focused = FALSE;
  if (!self->invalid)
    show_value (self);
  gtk_editable_select_region (GTK_EDITABLE (self), 0, 0);
  return G_SOURCE_REMOVE;
}

/* The value is set at once; how it looks changes a moment later, when the next row has selected its
 * text. The other way round this row would give up the X server's selection and the next one take
 * it in the same instant, and the late word of the first would undo the second. */
static void
focus_leave_cb (WbFieldRow *self)
{
  set_value (self);
  if (is_window_left (self) || self->rest_source != 0)
    return;

  self->rest_source = g_idle_add_full (G_PRIORITY_HIGH_IDLE, rest_cb, self, NULL);
}

static gboolean
escape_cb (GtkWidget *widget,
           GVariant  *args,
           gpointer   data)
{
  return wb_field_row_revert (WB_FIELD_ROW (widget));
}

static void
show_field (WbFieldRow *self)
{
  const WbField *field = wb_field_tie_get_field (self->tie);
  const char *label;

  if (field == NULL)
    return;

  label = wb_words_field (field);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self), label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (get_text_widget (self)),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
}

static void
wb_field_row_get_property (GObject    *object,
                           guint       prop_id,
                           GValue     *value,
                           GParamSpec *pspec)
{
  WbFieldRow *self = WB_FIELD_ROW (object);

  if (prop_id == PROP_INVALID)
    g_value_set_boolean (value, self->invalid);
  else
    wb_field_tie_get_row_property (self->tie, object, prop_id, value, pspec);
}

static void
wb_field_row_set_property (GObject      *object,
                           guint         prop_id,
                           const GValue *value,
                           GParamSpec   *pspec)
{
  WbFieldRow *self = WB_FIELD_ROW (object);

  wb_field_tie_set_row_property (self->tie, object, prop_id, value, pspec);
  if (prop_id == WB_FIELD_TIE_PROP_FIELD)
    show_field (self);
}

static void
wb_field_row_dispose (GObject *object)
{
  WbFieldRow *self = WB_FIELD_ROW (object);

  g_clear_handle_id (&self->rest_source, g_source_remove);
  g_clear_pointer (&self->note, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_field_row_parent_class)->dispose (object);
}

static void
wb_field_row_finalize (GObject *object)
{
  WbFieldRow *self = WB_FIELD_ROW (object);

  g_clear_object (&self->tie);
  g_clear_pointer (&self->advice, g_free);
  g_clear_pointer (&self->shown, g_free);

  G_OBJECT_CLASS (wb_field_row_parent_class)->finalize (object);
}

static void
wb_field_row_class_init (WbFieldRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = wb_field_row_get_property;
  object_class->set_property = wb_field_row_set_property;
  object_class->dispose = wb_field_row_dispose;
  object_class->finalize = wb_field_row_finalize;

  wb_field_tie_install_properties (object_class);
  g_object_class_install_property (
    object_class, PROP_INVALID,
    g_param_spec_boolean ("invalid", NULL, NULL, FALSE, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS));

  gtk_widget_class_add_binding (GTK_WIDGET_CLASS (klass), GDK_KEY_Escape, 0, escape_cb, NULL);
}

static void
wb_field_row_init (WbFieldRow *self)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();

  self->tie = wb_field_tie_new ();
  self->note = wb_row_note_new (GTK_LIST_BOX_ROW (self));
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (self), FALSE);

  /* As it comes, the row calls itself a text box and hides the one inside, so that nothing ever has
   * the focus for a screen reader. */
  g_object_set (self, "accessible-role", GTK_ACCESSIBLE_ROLE_LIST_ITEM, NULL);
  g_object_set (get_text_widget (self), "accessible-role", GTK_ACCESSIBLE_ROLE_TEXT_BOX, NULL);

  g_signal_connect_object (self->tie, "changed", G_CALLBACK (value_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_swapped (focus, "enter", G_CALLBACK (focus_enter_cb), self);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (focus_leave_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), focus);
  g_signal_connect (self, "entry-activated", G_CALLBACK (activated_cb), NULL);
  g_signal_connect (self, "changed", G_CALLBACK (text_changed_cb), NULL);
}

GtkWidget *
wb_field_widget_new (WbJobModel *model,
                     WbKind      kind,
                     const char *id,
                     const char *field)
{
  const WbRecordType *type = wb_record_type (kind);
  const WbField *description = wb_record_type_field (type, field);
  g_autofree char *name = g_strconcat (type->name, ".", field, NULL);
  GType row = WB_TYPE_FIELD_ROW;

  g_return_val_if_fail (description != NULL, NULL);

  if (description->type == WB_FIELD_ENUM)
    row = WB_TYPE_CHOICE_ROW;
  else if (description->type == WB_FIELD_BOOLEAN)
    row = WB_TYPE_SWITCH_ROW;
  else if ((description->flags & WB_FIELD_LONG) != 0)
    row = WB_TYPE_TEXT_ROW;

  return g_object_new (row, "field", name, "record-id", id, "model", model, NULL);
}

void
wb_field_row_set_note (WbFieldRow *self,
                       const char *note)
{
  g_return_if_fail (WB_IS_FIELD_ROW (self));

  if (g_strcmp0 (self->advice, note) == 0)
    return;

  g_free (self->advice);
  self->advice = g_strdup (note);
  if (!self->invalid)
    show_state (self, NULL);
}

gboolean
wb_field_row_revert (WbFieldRow *self)
{
  g_return_val_if_fail (WB_IS_FIELD_ROW (self), FALSE);

  if (!self->invalid && !is_typed (self))
    return FALSE;

  show_value (self);
  return TRUE;
}
