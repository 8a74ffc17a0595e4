/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A button that answers "why?" with a text that it was given. Knows nothing of what the text is
 * about; the amounts of a reckoning have WbFigureButton. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-why-button.h"

#include <glib/gi18n.h>

#include "desk/widgets/wb-popup.h"
#include "desk/widgets/wb-scroll-to.h"

#define MOST_HEIGHT 380
#define LEAST_CHARS 12       /* of words, which are cut where there is no room */

struct _WbWhyButton
{
  GtkWidget   parent_instance;

  GtkWidget  *button;
  GtkWidget  *label;
  GtkWidget  *popover;   /* (nullable) */

  char       *heading;
  char       *why;
};

G_DEFINE_FINAL_TYPE (WbWhyButton, wb_why_button, GTK_TYPE_WIDGET)

static void
drop_popover (WbWhyButton *self)
{
  g_clear_pointer (&self->popover, gtk_widget_unparent);
}

static void
drop_popover_idle_cb (gpointer data)
{
  WbWhyButton *self = data;

  if (self->popover != NULL && !gtk_widget_get_visible (self->popover))
    drop_popover (self);
  g_object_unref (self);
}

/* The popover is still at work while it says that it closed. */
static void
popover_closed_cb (WbWhyButton *self)
{
  g_idle_add_once (drop_popover_idle_cb, g_object_ref (self));
}

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

void
wb_why_button_explain (WbWhyButton *self)
{
  g_return_if_fail (WB_IS_WHY_BUTTON (self));

  if (self->why == NULL)
    return;

  drop_popover (self);
  self->popover = new_popover (self);
  gtk_widget_set_parent (self->popover, GTK_WIDGET (self));
  g_signal_connect_swapped (self->popover, "closed", G_CALLBACK (popover_closed_cb), self);
  wb_popup (GTK_POPOVER (self->popover));
}

/* See WbFigureButton: the tip is the button's alone, and is asked for only when it is shown. */
static gboolean
query_tooltip_cb (GtkWidget  *button,
                  int         x,
                  int         y,
                  gboolean    keyboard,
                  GtkTooltip *tooltip,
                  gpointer    data)
{
  gtk_tooltip_set_text (tooltip, _("Why?"));
  return TRUE;
}

/* --- widget ----------------------------------------------------------------------------------- */

static void
wb_why_button_measure (GtkWidget      *widget,
                       GtkOrientation  orientation,
                       int             for_size,
                       int            *minimum,
                       int            *natural,
                       int            *minimum_baseline,
                       int            *natural_baseline)
{
  gtk_widget_measure (WB_WHY_BUTTON (widget)->button, orientation, for_size, minimum, natural,
                      minimum_baseline, natural_baseline);
}

static void
wb_why_button_size_allocate (GtkWidget *widget,
                             int        width,
                             int        height,
                             int        baseline)
{
  WbWhyButton *self = WB_WHY_BUTTON (widget);

  gtk_widget_size_allocate (self->button, &(GtkAllocation) { 0, 0, width, height }, baseline);
  if (self->popover != NULL)
    gtk_popover_present (GTK_POPOVER (self->popover));
}

static gboolean
wb_why_button_focus (GtkWidget        *widget,
                     GtkDirectionType  direction)
{
  return gtk_widget_child_focus (WB_WHY_BUTTON (widget)->button, direction);
}

static gboolean
wb_why_button_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (WB_WHY_BUTTON (widget)->button);
}

static void
wb_why_button_dispose (GObject *object)
{
  WbWhyButton *self = WB_WHY_BUTTON (object);

  drop_popover (self);
  g_clear_pointer (&self->button, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_why_button_parent_class)->dispose (object);
}

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
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_why_button_dispose;
  G_OBJECT_CLASS (klass)->finalize = wb_why_button_finalize;
  widget_class->measure = wb_why_button_measure;
  widget_class->size_allocate = wb_why_button_size_allocate;
  widget_class->focus = wb_why_button_focus;
  widget_class->grab_focus = wb_why_button_grab_focus;
  gtk_widget_class_set_css_name (widget_class, "wb-figure");
}

static void
wb_why_button_init (WbWhyButton *self)
{
  g_autoptr (PangoAttrList) attributes = pango_attr_list_from_string ("0 -1 weight normal");
  GtkEventController *focus = gtk_event_controller_focus_new ();

  self->label = gtk_label_new (NULL);
  gtk_label_set_attributes (GTK_LABEL (self->label), attributes);
  self->button = gtk_button_new ();
  gtk_button_set_child (GTK_BUTTON (self->button), self->label);
  gtk_widget_add_css_class (self->button, "flat");
  gtk_widget_set_has_tooltip (self->button, TRUE);
  gtk_widget_set_parent (self->button, GTK_WIDGET (self));
  g_signal_connect_swapped (self->button, "clicked", G_CALLBACK (wb_why_button_explain), self);
  g_signal_connect (self->button, "query-tooltip", G_CALLBACK (query_tooltip_cb), NULL);
  g_signal_connect_swapped (focus, "enter", G_CALLBACK (wb_scroll_along), self);
  gtk_widget_add_controller (self->button, focus);
}

GtkWidget *
wb_why_button_new (gboolean numeric)
{
  WbWhyButton *self = g_object_new (WB_TYPE_WHY_BUTTON, NULL);

  gtk_label_set_xalign (GTK_LABEL (self->label), numeric ? 1 : 0);
  if (numeric)
    gtk_widget_add_css_class (self->label, "numeric");
  else
    {
      gtk_label_set_ellipsize (GTK_LABEL (self->label), PANGO_ELLIPSIZE_END);
      gtk_label_set_width_chars (GTK_LABEL (self->label), LEAST_CHARS);
    }
  return GTK_WIDGET (self);
}

void
wb_why_button_show (WbWhyButton *self,
                    const char  *label,
                    const char  *heading,
                    const char  *why)
{
  g_autofree char *name = NULL;

  g_return_if_fail (WB_IS_WHY_BUTTON (self));

  if (self->popover != NULL && g_strcmp0 (why, self->why) != 0)
    gtk_popover_popdown (GTK_POPOVER (self->popover));
  g_free (self->heading);
  self->heading = g_strdup (heading);
  g_free (self->why);
  self->why = g_strdup (why);
  gtk_label_set_label (GTK_LABEL (self->label), label);
  /* Translators: the accessible name of a figure: what it is, and that pressing it explains it. */
  name = g_strdup_printf (_("%s. Why?"), heading);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  name, -1);
}

const char *
wb_why_button_get_text (WbWhyButton *self)
{
  g_return_val_if_fail (WB_IS_WHY_BUTTON (self), NULL);

  return gtk_label_get_label (GTK_LABEL (self->label));
}

const char *
wb_why_button_get_why (WbWhyButton *self)
{
  g_return_val_if_fail (WB_IS_WHY_BUTTON (self), NULL);

  return self->why;
}
