/* SPDX-License-Identifier: GPL-3.0-or-later */
/* See the header. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/widgets/wb-typed-row.h"

#include "desk/widgets/wb-row-note.h"
#include "office/wb-words.h"

#include <string.h>

struct _WbTypedRow
{
  AdwEntryRow   parent_instance;

  GtkWidget    *note;
  WbTypedFunc   set;
  gpointer      data;
  char         *value;   /* that holds */
  char         *hint;
  gboolean      setting; /* the job changes by what is typed here */
};

G_DEFINE_FINAL_TYPE (WbTypedRow, wb_typed_row, ADW_TYPE_ENTRY_ROW)

static const char *
get_text (WbTypedRow *self)
{
  return gtk_editable_get_text (GTK_EDITABLE (self));
}

static void
show_good (WbTypedRow *self)
{
  gtk_widget_remove_css_class (GTK_WIDGET (self), "error");
  gtk_accessible_reset_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_INVALID);
  wb_row_note_set (self->note, self->hint, WB_NOTE_HINT);
}

static void
show_bad (WbTypedRow   *self,
          const GError *error)
{
  g_autofree char *words = wb_words_sentence (error->message);

  gtk_widget_add_css_class (GTK_WIDGET (self), "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_INVALID,
                               GTK_ACCESSIBLE_INVALID_TRUE, -1);
  wb_row_note_set (self->note, words, WB_NOTE_ERROR);
}

static void
take (WbTypedRow *self)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = g_strdup (get_text (self));
  gboolean done;

  if (self->setting || self->set == NULL || strcmp (text, self->value) == 0)
    {
      if (self->set != NULL)
        show_good (self);
      return;
    }

  self->setting = TRUE;
  done = self->set (text, self->data, &error);
  self->setting = FALSE;
  if (!done)
    {
      show_bad (self, error);
      return;
    }
  show_good (self);
  /* As it is written, which may not be as it was typed. */
  gtk_editable_set_text (GTK_EDITABLE (self), self->value);
  gtk_editable_set_position (GTK_EDITABLE (self), -1);
}

static gboolean
key_cb (GtkEventControllerKey *controller,
        guint                  keyval,
        guint                  keycode,
        GdkModifierType        state,
        WbTypedRow            *self)
{
  if (keyval != GDK_KEY_Escape || strcmp (get_text (self), self->value) == 0)
    return FALSE;

  gtk_editable_set_text (GTK_EDITABLE (self), self->value);
  show_good (self);
  return TRUE;
}

static void
leave_cb (WbTypedRow *self)
{
  take (self);
}

static void
wb_typed_row_dispose (GObject *object)
{
  WbTypedRow *self = WB_TYPED_ROW (object);

  self->set = NULL;
  g_clear_pointer (&self->note, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_typed_row_parent_class)->dispose (object);
}

static void
wb_typed_row_finalize (GObject *object)
{
  WbTypedRow *self = WB_TYPED_ROW (object);

  g_free (self->value);
  g_free (self->hint);

  G_OBJECT_CLASS (wb_typed_row_parent_class)->finalize (object);
}

static void
wb_typed_row_class_init (WbTypedRowClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = wb_typed_row_dispose;
  G_OBJECT_CLASS (klass)->finalize = wb_typed_row_finalize;
}

static void
wb_typed_row_init (WbTypedRow *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  self->value = g_strdup ("");
  self->note = wb_row_note_new (GTK_LIST_BOX_ROW (self));
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (leave_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), focus);
  g_signal_connect (self, "entry-activated", G_CALLBACK (take), NULL);
}

/* As it comes, the row calls itself a text box and hides the one inside, so that nothing ever has
 * the focus for a screen reader. */
static void
name_row (WbTypedRow *self,
          const char *title)
{
  GtkEditable *text = gtk_editable_get_delegate (GTK_EDITABLE (self));

  g_object_set (self, "accessible-role", GTK_ACCESSIBLE_ROLE_LIST_ITEM, NULL);
  g_object_set (text, "accessible-role", GTK_ACCESSIBLE_ROLE_TEXT_BOX, NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (text), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
}

GtkWidget *
wb_typed_row_new (const char  *title,
                  WbTypedFunc  set,
                  gpointer     data)
{
  WbTypedRow *self = g_object_new (WB_TYPE_TYPED_ROW, "title", title, NULL);

  self->set = set;
  self->data = data;
  name_row (self, title);
  return GTK_WIDGET (self);
}

void
wb_typed_row_show (WbTypedRow *self,
                   const char *text)
{
  gboolean typing = strcmp (get_text (self), self->value) != 0;

  if (strcmp (self->value, text) == 0)
    return;
  g_free (self->value);
  self->value = g_strdup (text);
  if (typing)
    return;
  gtk_editable_set_text (GTK_EDITABLE (self), text);
  show_good (self);
}

void
wb_typed_row_refuse (WbTypedRow   *self,
                     const GError *error)
{
  g_return_if_fail (WB_IS_TYPED_ROW (self));
  g_return_if_fail (error != NULL);

  show_bad (self, error);
}

void
wb_typed_row_set_hint (WbTypedRow *self,
                       const char *hint)
{
  if (g_strcmp0 (self->hint, hint) == 0)
    return;
  g_free (self->hint);
  self->hint = g_strdup (hint);
  if (!gtk_widget_has_css_class (GTK_WIDGET (self), "error"))
    wb_row_note_set (self->note, hint, WB_NOTE_HINT);
}
