/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keys that follow each other quickly are gathered; Enter hands them on. What they mean is the
 * widget's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/widgets/wb-scanner.h"

/* Between two keys a scanner, or the machine, may falter once; and it may take a moment before it
 * sends the Enter. */
#define LONGEST_GAP_MS 100
#define END_GAP_MS 150

/* One character is nobody's tag. */
#define LEAST_CHARACTERS 2

typedef struct
{
  GtkWidget       *widget;    /* that owns this */
  WbScanIsForFunc  is_for;
  WbScannedFunc    scanned;
  GString         *text;
  guint32          first;     /* when the first and the last character came */
  guint32          last;
  GtkEditable     *field;     /* (nullable), weak: had the focus when the first came */
  char            *before;    /* what was in it, and what of that was selected */
  int              start;
  int              end;
} Scanner;

static void
forget (Scanner *self)
{
  g_string_truncate (self->text, 0);
  g_clear_weak_pointer (&self->field);
  g_clear_pointer (&self->before, g_free);
}

static GtkEditable *
find_field (Scanner *self)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (self->widget));

  return GTK_IS_EDITABLE (focus) && gtk_editable_get_editable (GTK_EDITABLE (focus))
         ? GTK_EDITABLE (focus) : NULL;
}

static void
begin (Scanner *self,
       guint32  time)
{
  forget (self);
  self->first = time;
  g_set_weak_pointer (&self->field, find_field (self));
  if (self->field == NULL)
    return;
  self->before = g_strdup (gtk_editable_get_text (self->field));
  if (!gtk_editable_get_selection_bounds (self->field, &self->start, &self->end))
    self->start = self->end = gtk_editable_get_position (self->field);
}

static void
restore (Scanner *self)
{
  if (self->field == NULL)
    return;
  gtk_editable_set_text (self->field, self->before);
  gtk_editable_select_region (self->field, self->start, self->end);
}

/* Whether all came from a scanner, by their pace taken together. */
static gboolean
is_quick (Scanner *self)
{
  glong n = g_utf8_strlen (self->text->str, -1);

  return n >= LEAST_CHARACTERS && self->last - self->first < (n - 1) * WB_SCANNER_GAP_MS;
}

static gboolean
finish (Scanner *self,
        guint32  time)
{
  g_autofree char *text = g_strdup (self->text->str);
  gboolean taken = is_quick (self) && time - self->last < END_GAP_MS
                   && find_field (self) == self->field && self->is_for (self->widget, text);

  /* The field is itself again before anything is moved. */
  if (taken)
    restore (self);
  forget (self);
  if (taken)
    self->scanned (self->widget, text);
  return taken ? GDK_EVENT_STOP : GDK_EVENT_PROPAGATE;
}

static gboolean
key_pressed_cb (GtkEventController *controller,
                guint               keyval,
                guint               keycode,
                GdkModifierType     state,
                Scanner            *self)
{
  guint32 time = gtk_event_controller_get_current_event_time (controller);
  GdkEvent *event = gtk_event_controller_get_current_event (controller);
  gunichar character = gdk_keyval_to_unicode (keyval);
  gboolean begun = self->text->len > 0 && time - self->last < LONGEST_GAP_MS;

  if (gdk_key_event_is_modifier (event))
    return GDK_EVENT_PROPAGATE;
  if (keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter)
    return finish (self, time);
  if (character == 0 || g_unichar_iscntrl (character)
      || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK)) != 0)
    {
      forget (self);
      return GDK_EVENT_PROPAGATE;
    }

  if (!begun)
    begin (self, time);
  g_string_append_unichar (self->text, character);
  self->last = time;
  /* What a list or a button would make of the rest is nothing that the scanner means. */
  return begun && is_quick (self) && self->field == NULL && find_field (self) == NULL
         ? GDK_EVENT_STOP : GDK_EVENT_PROPAGATE;
}

static void
scanner_free (gpointer  data,
              GClosure *closure)
{
  Scanner *self = data;

  forget (self);
  g_string_free (self->text, TRUE);
  g_free (self);
}

void
wb_scanner_watch (GtkWidget       *widget,
                  WbScanIsForFunc  is_for,
                  WbScannedFunc    scanned)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  Scanner *self = g_new0 (Scanner, 1);

  g_return_if_fail (GTK_IS_WIDGET (widget));

  self->widget = widget;
  self->is_for = is_for;
  self->scanned = scanned;
  self->text = g_string_new (NULL);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_data (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self, scanner_free, 0);
  gtk_widget_add_controller (widget, keys);
}
