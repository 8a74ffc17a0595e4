/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One field of the strip. Plain widgets under a box; the only state of its own are the error and
 * the suggestions beneath. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-line-entry.h"

#include "desk/widgets/wb-focus-within.h"
#include "desk/widgets/wb-scroll-to.h"

#include <glib/gi18n.h>

struct _WbLineEntry
{
  GtkWidget   parent_instance;

  WbLinePart  part;
  GtkWidget  *caption;
  GtkWidget  *entry;
  GtkWidget  *beneath;
  gboolean    has_error;
  char      **suggestions;   /* (nullable) */
  int         chosen;        /* which of them stands in the entry; -1 for what was typed */
  char       *typed;         /* what was typed before one was chosen */
};

enum
{
  CHANGED,
  ACTIVATE,
  LEFT,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbLineEntry, wb_line_entry, GTK_TYPE_WIDGET)

/* An error may be long: it widens the field up to this and then wraps. */
#define ERROR_CHARS 32

static void
changed_cb (WbLineEntry *self)
{
  g_signal_emit (self, signals[CHANGED], 0);
}

static void
activate_cb (WbLineEntry *self)
{
  g_signal_emit (self, signals[ACTIVATE], 0);
}

/* A field that is narrower than its text shows the start of it. */
static void
show_start (WbLineEntry *self)
{
  gtk_editable_set_position (GTK_EDITABLE (self->entry), 0);
}

/* Where the strip scrolls, the field is seen whole, with its caption and what stands beneath. */
static void
enter_cb (WbLineEntry *self)
{
  wb_scroll_to (GTK_WIDGET (self));
}

static void
leave_cb (WbLineEntry *self)
{
  g_signal_emit (self, signals[LEFT], 0);
  show_start (self);
}

/* Puts the next suggestion in the entry, or the one before; before the first comes what was
 * typed. */
static void
choose (WbLineEntry *self,
        int          step)
{
  int n = (int) g_strv_length (self->suggestions);
  int chosen = CLAMP (self->chosen + step, -1, n - 1);
  g_autofree char *text = NULL;

  if (self->chosen < 0 && chosen >= 0)
    {
      g_free (self->typed);
      self->typed = g_strdup (wb_line_entry_get_text (self));
    }
  if (chosen == self->chosen)
    return;

  self->chosen = chosen;
  /* Whoever hears of the text may offer something else. */
  text = g_strdup (chosen < 0 ? self->typed : self->suggestions[chosen]);
  wb_line_entry_set_text (self, text);
}

static gboolean
key_pressed_cb (WbLineEntry           *self,
                guint                  keyval,
                guint                  keycode,
                GdkModifierType        state,
                GtkEventControllerKey *controller)
{
  if ((state & gtk_accelerator_get_default_mod_mask ()) != 0 || self->suggestions == NULL)
    return GDK_EVENT_PROPAGATE;

  if (keyval == GDK_KEY_Down || keyval == GDK_KEY_KP_Down)
    choose (self, 1);
  else if (keyval == GDK_KEY_Up || keyval == GDK_KEY_KP_Up)
    choose (self, -1);
  else
    return GDK_EVENT_PROPAGATE;
  return GDK_EVENT_STOP;
}

static void
wb_line_entry_dispose (GObject *object)
{
  WbLineEntry *self = WB_LINE_ENTRY (object);

  g_clear_pointer (&self->caption, gtk_widget_unparent);
  g_clear_pointer (&self->entry, gtk_widget_unparent);
  g_clear_pointer (&self->beneath, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_line_entry_parent_class)->dispose (object);
}

static void
wb_line_entry_finalize (GObject *object)
{
  WbLineEntry *self = WB_LINE_ENTRY (object);

  g_strfreev (self->suggestions);
  g_free (self->typed);

  G_OBJECT_CLASS (wb_line_entry_parent_class)->finalize (object);
}

static gboolean
wb_line_entry_grab_focus (GtkWidget *widget)
{
  WbLineEntry *self = WB_LINE_ENTRY (widget);

  return gtk_widget_grab_focus (self->entry);
}

static void
wb_line_entry_class_init (WbLineEntryClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = wb_line_entry_dispose;
  object_class->finalize = wb_line_entry_finalize;
  widget_class->focus = wb_focus_within;
  widget_class->grab_focus = wb_line_entry_grab_focus;

  signals[CHANGED] = g_signal_new ("changed", WB_TYPE_LINE_ENTRY, G_SIGNAL_RUN_LAST,
                                   0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[ACTIVATE] = g_signal_new ("activate", WB_TYPE_LINE_ENTRY, G_SIGNAL_RUN_LAST, 0, NULL,
                                    NULL, NULL,
                                    G_TYPE_NONE, 0);
  signals[LEFT] = g_signal_new ("left", WB_TYPE_LINE_ENTRY, G_SIGNAL_RUN_LAST,
                                0, NULL, NULL, NULL, G_TYPE_NONE, 0);

  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
}

static void
wb_line_entry_init (WbLineEntry *self)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));

  self->chosen = -1;
  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (layout), 2);
}

static GtkWidget *
make_caption (WbLineEntry *self)
{
  GtkWidget *caption = gtk_label_new_with_mnemonic (_(wb_line_field (self->part)->caption));

  gtk_label_set_xalign (GTK_LABEL (caption), 0);
  gtk_label_set_mnemonic_widget (GTK_LABEL (caption), self->entry);
  gtk_widget_add_css_class (caption, "caption");
  gtk_widget_add_css_class (caption, "dim-label");
  return caption;
}

static GtkWidget *
make_entry (WbLineEntry *self)
{
  const WbLineField *field = wb_line_field (self->part);
  GtkWidget *entry = gtk_entry_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();
  g_autofree char *name = wb_line_caption (self->part);

  gtk_editable_set_width_chars (GTK_EDITABLE (entry), field->least);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), field->chars);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  if (self->part == WB_LINE_TAG || self->part == WB_LINE_WEIGHT)
    gtk_widget_add_css_class (entry, "numeric");

  g_signal_connect_swapped (entry, "changed", G_CALLBACK (changed_cb), self);
  g_signal_connect_swapped (entry, "activate", G_CALLBACK (activate_cb), self);
  g_signal_connect_swapped (focus, "enter", G_CALLBACK (enter_cb), self);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (leave_cb), self);
  gtk_widget_add_controller (entry, focus);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self);
  gtk_widget_add_controller (entry, keys);
  return entry;
}

static GtkWidget *
make_beneath (void)
{
  GtkWidget *beneath = gtk_label_new ("");

  gtk_label_set_xalign (GTK_LABEL (beneath), 0);
  gtk_widget_add_css_class (beneath, "caption");
  return beneath;
}

typedef enum
{
  BENEATH_WORDS,
  BENEATH_SUGGESTIONS,
  BENEATH_ERROR,
} Beneath;

/* Suggestions stay on one line and may be cut; words and errors are read whole, and an error may
 * widen the field for it. */
static void
show_beneath (WbLineEntry *self,
              const char  *text,
              Beneath      kind)
{
  GtkLabel *label = GTK_LABEL (self->beneath);
  gboolean wrap = kind != BENEATH_SUGGESTIONS;
  gboolean is_error = kind == BENEATH_ERROR;

  if (g_str_equal (gtk_label_get_text (label), text) && wrap == gtk_label_get_wrap (label)
      && is_error == gtk_widget_has_css_class (self->beneath, "error"))
    return;

  gtk_label_set_text (label, text);
  gtk_label_set_wrap (label, wrap);
  gtk_label_set_ellipsize (label, wrap ? PANGO_ELLIPSIZE_NONE : PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (label,
                             is_error ? MIN (ERROR_CHARS, (int) g_utf8_strlen (text, -1)) : 0);
  gtk_label_set_max_width_chars (label, is_error ? ERROR_CHARS : wb_line_field (self->part)->chars);
  if (is_error)
    {
      gtk_widget_remove_css_class (self->beneath, "dim-label");
      gtk_widget_add_css_class (self->beneath, "error");
    }
  else
    {
      gtk_widget_remove_css_class (self->beneath, "error");
      gtk_widget_add_css_class (self->beneath, "dim-label");
    }
  if (wb_line_entry_is_focus (self))
    wb_scroll_to (GTK_WIDGET (self));
}

GtkWidget *
wb_line_entry_new (WbLinePart part)
{
  WbLineEntry *self = g_object_new (WB_TYPE_LINE_ENTRY, NULL);

  self->part = part;
  self->entry = make_entry (self);
  self->caption = make_caption (self);
  self->beneath = make_beneath ();
  gtk_widget_set_parent (self->caption, GTK_WIDGET (self));
  gtk_widget_set_parent (self->entry, GTK_WIDGET (self));
  gtk_widget_set_parent (self->beneath, GTK_WIDGET (self));
  gtk_widget_set_hexpand (GTK_WIDGET (self), wb_line_field (part)->expand);
  wb_line_entry_set_hint (self, NULL);
  return GTK_WIDGET (self);
}

WbLinePart
wb_line_entry_get_part (WbLineEntry *self)
{
  return self->part;
}

const char *
wb_line_entry_get_text (WbLineEntry *self)
{
  return gtk_editable_get_text (GTK_EDITABLE (self->entry));
}

void
wb_line_entry_set_text (WbLineEntry *self,
                        const char  *text)
{
  g_autofree char *copy = NULL;

  if (g_strcmp0 (wb_line_entry_get_text (self), text) != 0)
    {
      /* The entry would tell of the empty text between the two as well. */
      copy = g_strdup (text);
      g_signal_handlers_block_by_func (self->entry, changed_cb, self);
      gtk_editable_set_text (GTK_EDITABLE (self->entry), copy);
      g_signal_handlers_unblock_by_func (self->entry, changed_cb, self);
      g_signal_emit (self, signals[CHANGED], 0);
    }
  if (wb_line_entry_is_focus (self))
    gtk_editable_set_position (GTK_EDITABLE (self->entry), -1);
  else
    show_start (self);
}

static void
clear_error (WbLineEntry *self)
{
  if (!self->has_error)
    return;

  self->has_error = FALSE;
  gtk_widget_remove_css_class (self->entry, "error");
  gtk_accessible_reset_state (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_STATE_INVALID);
}

static void
describe (WbLineEntry *self,
          const char  *text)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  text, -1);
}

static void
drop_suggestions (WbLineEntry *self)
{
  g_clear_pointer (&self->suggestions, g_strfreev);
  g_clear_pointer (&self->typed, g_free);
  self->chosen = -1;
}

static void
show_hint (WbLineEntry *self,
           const char  *words,
           Beneath      kind)
{
  clear_error (self);
  show_beneath (self, words != NULL ? words : "", kind);
  describe (self, words != NULL ? words : "");
}

void
wb_line_entry_set_hint (WbLineEntry *self,
                        const char  *words)
{
  drop_suggestions (self);
  show_hint (self, words, BENEATH_WORDS);
}

/* Whether the entry shows one of the suggestions because Down was pressed. */
static gboolean
is_choosing (WbLineEntry *self)
{
  return self->suggestions != NULL && self->chosen >= 0 &&
         g_str_equal (self->suggestions[self->chosen], wb_line_entry_get_text (self));
}

void
wb_line_entry_take_suggestions (WbLineEntry  *self,
                                char        **texts)
{
  g_autofree char *words = NULL;
  g_autofree char *list = NULL;

  if (is_choosing (self)
      || (self->chosen < 0 && g_strcmp0 (self->typed, wb_line_entry_get_text (self)) == 0))
    {
      g_strfreev (texts);
      return;
    }

  drop_suggestions (self);
  self->suggestions = texts;
  if (texts != NULL)
    {
      list = g_strjoinv (" · ", texts);
      /* Translators: %s is a list of texts that the Down key puts into the field. */
      words = g_strdup_printf (_("↓ %s"), list);
    }
  show_hint (self, words, BENEATH_SUGGESTIONS);
}

void
wb_line_entry_offer (WbLineEntry *self,
                     const char  *text,
                     const char  *words)
{
  drop_suggestions (self);
  if (text != NULL)
    self->suggestions = g_strdupv ((char *[]) { (char *) text, NULL });
  show_hint (self, text != NULL ? words : NULL, BENEATH_SUGGESTIONS);
}

void
wb_line_entry_set_error (WbLineEntry *self,
                         const char  *sentence)
{
  if (sentence == NULL)
    {
      if (self->has_error)
        wb_line_entry_set_hint (self, NULL);
      return;
    }

  drop_suggestions (self);
  self->has_error = TRUE;
  gtk_widget_add_css_class (self->entry, "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->entry),
                               GTK_ACCESSIBLE_STATE_INVALID, GTK_ACCESSIBLE_INVALID_TRUE, -1);
  show_beneath (self, sentence, BENEATH_ERROR);
  describe (self, sentence);
}

gboolean
wb_line_entry_has_error (WbLineEntry *self)
{
  return self->has_error;
}

void
wb_line_entry_focus (WbLineEntry *self)
{
  gtk_widget_grab_focus (self->entry);
  gtk_editable_select_region (GTK_EDITABLE (self->entry), 0, -1);
}

void
wb_line_entry_focus_end (WbLineEntry *self)
{
  gtk_entry_grab_focus_without_selecting (GTK_ENTRY (self->entry));
  gtk_editable_set_position (GTK_EDITABLE (self->entry), -1);
}

gboolean
wb_line_entry_is_focus (WbLineEntry *self)
{
  GtkStateFlags flags = gtk_widget_get_state_flags (self->entry);

  return (flags & GTK_STATE_FLAG_FOCUS_WITHIN) != 0;
}

GtkWidget *
wb_line_entry_get_entry (WbLineEntry *self)
{
  return self->entry;
}
