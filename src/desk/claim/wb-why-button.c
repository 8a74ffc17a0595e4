/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A button that answers "why?" with a text that it was given. Knows nothing of what the text is
 * about; the amounts of a reckoning have WbFigureButton. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-why-button.h"

#include <glib/gi18n.h>

#define MOST_HEIGHT 380
#define LEAST_CHARS 8        /* of words, which are cut where there is no room */

struct _WbWhyButton
{
  WbAnswerButton  parent_instance;

  char           *heading;
  char           *why;       /* (nullable) */
};

G_DEFINE_FINAL_TYPE (WbWhyButton, wb_why_button, WB_TYPE_ANSWER_BUTTON)

static void
copy_cb (WbWhyButton *self)
{
  g_autofree char *text = g_strdup_printf ("%s\n%s", self->heading, self->why);

  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (self)), text);
}

static GtkWidget *
new_label (const char *text,
           const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 52);
  if (style != NULL)
    gtk_widget_add_css_class (label, style);
  return label;
}

static GtkWidget *
new_text (WbWhyButton *self)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  g_auto (GStrv) paragraphs = g_strsplit (self->why, "\n", -1);

  for (guint i = 0; paragraphs[i] != NULL; i++)
    gtk_box_append (GTK_BOX (box), new_label (paragraphs[i], NULL));
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_propagate_natural_width (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroller), MOST_HEIGHT);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), box);
  return scroller;
}

static GtkWidget *
new_popover (WbWhyButton *self)
{
  GtkWidget *popover = gtk_popover_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *copy = gtk_button_new_with_mnemonic (_("_Copy"));
  g_autofree char *whole = g_strdup_printf ("%s %s", self->heading, self->why);

  gtk_widget_set_halign (copy, GTK_ALIGN_END);
  gtk_accessible_update_property (GTK_ACCESSIBLE (copy), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Copy the reason"), -1);
  g_signal_connect_object (copy, "clicked", G_CALLBACK (copy_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), new_label (self->heading, "heading"));
  gtk_box_append (GTK_BOX (box), new_text (self));
  gtk_box_append (GTK_BOX (box), copy);
  gtk_popover_set_child (GTK_POPOVER (popover), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (popover), GTK_ACCESSIBLE_PROPERTY_LABEL, whole,
                                  -1);
  return popover;
}

static GtkWidget *
wb_why_button_new_answer (WbAnswerButton *button)
{
  WbWhyButton *self = WB_WHY_BUTTON (button);

  return self->why != NULL ? new_popover (self) : NULL;
}

/* --- widget ----------------------------------------------------------------------------------- */

static void
wb_why_button_finalize (GObject *object)
{
  WbWhyButton *self = WB_WHY_BUTTON (object);

  g_free (self->heading);
  g_free (self->why);

  G_OBJECT_CLASS (wb_why_button_parent_class)->finalize (object);
}

static void
wb_why_button_class_init (WbWhyButtonClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = wb_why_button_finalize;
  WB_ANSWER_BUTTON_CLASS (klass)->new_answer = wb_why_button_new_answer;
}

static void
wb_why_button_init (WbWhyButton *self)
{
}

GtkWidget *
wb_why_button_new (gboolean numeric)
{
  WbWhyButton *self = g_object_new (WB_TYPE_WHY_BUTTON, NULL);
  GtkLabel *label = wb_answer_button_get_label (WB_ANSWER_BUTTON (self));

  gtk_label_set_xalign (label, numeric ? 1 : 0);
  if (numeric)
    gtk_widget_add_css_class (GTK_WIDGET (label), "numeric");
  else
    {
      gtk_label_set_ellipsize (label, PANGO_ELLIPSIZE_END);
      gtk_label_set_width_chars (label, LEAST_CHARS);
    }
  return GTK_WIDGET (self);
}

void
wb_why_button_show (WbWhyButton *self,
                    const char  *label,
                    const char  *heading,
                    const char  *why)
{
  g_return_if_fail (WB_IS_WHY_BUTTON (self));

  if (g_strcmp0 (why, self->why) != 0)
    wb_answer_button_take_back (WB_ANSWER_BUTTON (self));
  g_free (self->heading);
  self->heading = g_strdup (heading);
  g_free (self->why);
  self->why = g_strdup (why);
  wb_answer_button_show (WB_ANSWER_BUTTON (self), label, heading);
}

const char *
wb_why_button_get_why (WbWhyButton *self)
{
  g_return_val_if_fail (WB_IS_WHY_BUTTON (self), NULL);

  return self->why;
}
