/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The row of a text of several lines. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/widgets/wb-text-row.h"

#include "desk/widgets/wb-field-tie.h"
#include "desk/widgets/wb-row-note.h"
#include "office/wb-words.h"

struct _WbTextRow
{
  AdwPreferencesRow  parent_instance;

  GtkTextView       *view;

  WbFieldTie        *tie;
  GtkWidget         *note;
  char              *shown;
  gboolean           invalid;
};

G_DEFINE_FINAL_TYPE (WbTextRow, wb_text_row, ADW_TYPE_PREFERENCES_ROW)

static char *
get_typed (WbTextRow *self)
{
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (self->view);
  GtkTextIter start, end;

  gtk_text_buffer_get_bounds (buffer, &start, &end);
  return gtk_text_buffer_get_text (buffer, &start, &end, FALSE);
}

static gboolean
is_typed (WbTextRow *self)
{
  g_autofree char *text = get_typed (self);

  return g_strcmp0 (text, self->shown) != 0;
}

static void
show_fault (WbTextRow    *self,
            const GError *error)
{
  g_autofree char *fault = error != NULL ? wb_field_tie_describe (self->tie, error) : NULL;

  self->invalid = error != NULL;
  wb_row_note_set (self->note, fault, WB_NOTE_ERROR);
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->view), GTK_ACCESSIBLE_STATE_INVALID,
                               self->invalid ? GTK_ACCESSIBLE_INVALID_TRUE
                                             : GTK_ACCESSIBLE_INVALID_FALSE,
                               -1);
}

static void
show_value (WbTextRow *self)
{
  g_free (self->shown);
  self->shown = wb_field_tie_get_text (self->tie);
  if (is_typed (self))
    gtk_text_buffer_set_text (gtk_text_view_get_buffer (self->view), self->shown, -1);
  show_fault (self, NULL);
}

/* What is typed and not set yet stays, whatever the job does. */
static void
value_changed_cb (WbTextRow *self)
{
  gtk_widget_set_sensitive (GTK_WIDGET (self), wb_field_tie_get_record (self->tie) != NULL);
  if (self->shown == NULL || !is_typed (self))
    show_value (self);
}

static void
set_value (WbTextRow *self)
{
  g_autofree char *text = get_typed (self);
  g_autoptr (GError) error = NULL;

  if (self->shown == NULL || g_str_equal (text, self->shown))
    return;

  if (wb_field_tie_set_text (self->tie, text, &error))
    show_value (self);
  else
    show_fault (self, error);
}

static void
focus_leave_cb (WbTextRow *self)
{
  set_value (self);
}

/* Before the view takes the key for a new line. */
static gboolean
key_cb (WbTextRow       *self,
        guint            keyval,
        guint            keycode,
        GdkModifierType  state)
{
  if ((keyval != GDK_KEY_Return && keyval != GDK_KEY_KP_Enter) ||
      (state & gtk_accelerator_get_default_mod_mask ()) != GDK_CONTROL_MASK)
    return GDK_EVENT_PROPAGATE;

  set_value (self);
  return GDK_EVENT_STOP;
}

static gboolean
revert_cb (GtkWidget *widget,
           GVariant  *args,
           gpointer   data)
{
  return wb_text_row_revert (WB_TEXT_ROW (widget));
}

static void
show_field (WbTextRow *self)
{
  const WbField *field = wb_field_tie_get_field (self->tie);
  const char *label;

  if (field == NULL)
    return;

  label = wb_words_field (field);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self), label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->view), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  label, -1);
}

static void
wb_text_row_get_property (GObject    *object,
                          guint       prop_id,
                          GValue     *value,
                          GParamSpec *pspec)
{
  wb_field_tie_get_row_property (WB_TEXT_ROW (object)->tie, object, prop_id, value, pspec);
}

static void
wb_text_row_set_property (GObject      *object,
                          guint         prop_id,
                          const GValue *value,
                          GParamSpec   *pspec)
{
  WbTextRow *self = WB_TEXT_ROW (object);

  wb_field_tie_set_row_property (self->tie, object, prop_id, value, pspec);
  if (prop_id == WB_FIELD_TIE_PROP_FIELD)
    show_field (self);
}

static void
wb_text_row_dispose (GObject *object)
{
  WbTextRow *self = WB_TEXT_ROW (object);

  g_clear_pointer (&self->note, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_TEXT_ROW);

  G_OBJECT_CLASS (wb_text_row_parent_class)->dispose (object);
}

static void
wb_text_row_finalize (GObject *object)
{
  WbTextRow *self = WB_TEXT_ROW (object);

  g_clear_object (&self->tie);
  g_clear_pointer (&self->shown, g_free);

  G_OBJECT_CLASS (wb_text_row_parent_class)->finalize (object);
}

static void
wb_text_row_class_init (WbTextRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_text_row_get_property;
  object_class->set_property = wb_text_row_set_property;
  object_class->dispose = wb_text_row_dispose;
  object_class->finalize = wb_text_row_finalize;

  wb_field_tie_install_properties (object_class);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/widgets/wb-text-row.ui");
  gtk_widget_class_bind_template_child (widget_class, WbTextRow, view);

  gtk_widget_class_add_binding (widget_class, GDK_KEY_Escape, 0, revert_cb, NULL);
}

static void
wb_text_row_init (WbTextRow *self)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_widget_init_template (GTK_WIDGET (self));

  self->tie = wb_field_tie_new ();
  self->note = wb_row_note_new (GTK_LIST_BOX_ROW (self));
  g_signal_connect_object (self->tie, "changed", G_CALLBACK (value_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (focus_leave_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), focus);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}

gboolean
wb_text_row_revert (WbTextRow *self)
{
  g_return_val_if_fail (WB_IS_TEXT_ROW (self), FALSE);

  if (!self->invalid && !is_typed (self))
    return FALSE;

  show_value (self);
  return TRUE;
}
