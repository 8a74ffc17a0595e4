/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The button and its popover, which is made when it is asked for and goes when it closes. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-answer-button.h"

#include <glib/gi18n.h>

#include "desk/widgets/wb-popup.h"
#include "desk/widgets/wb-scroll-to.h"

typedef struct
{
  GtkWidget *button;
  GtkWidget *label;
  GtkWidget *popover;   /* (nullable) */
} WbAnswerButtonPrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (WbAnswerButton, wb_answer_button, GTK_TYPE_WIDGET)

static WbAnswerButtonPrivate *
get_private (gpointer self)
{
  return wb_answer_button_get_instance_private (self);
}

/* --- the popover ------------------------------------------------------------------------------ */

static void
drop_popover (WbAnswerButton *self)
{
  g_clear_pointer (&get_private (self)->popover, gtk_widget_unparent);
}

static void
drop_popover_idle_cb (gpointer data)
{
  WbAnswerButton *self = data;
  GtkWidget *popover = get_private (self)->popover;

  if (popover != NULL && !gtk_widget_get_visible (popover))
    drop_popover (self);
  g_object_unref (self);
}

/* The popover is still at work while it says that it closed. */
static void
popover_closed_cb (WbAnswerButton *self)
{
  g_idle_add_once (drop_popover_idle_cb, g_object_ref (self));
}

void
wb_answer_button_explain (WbAnswerButton *self)
{
  WbAnswerButtonPrivate *priv = get_private (self);
  GtkWidget *popover;

  g_return_if_fail (WB_IS_ANSWER_BUTTON (self));

  popover = WB_ANSWER_BUTTON_GET_CLASS (self)->new_answer (self);
  if (popover == NULL)
    return;

  drop_popover (self);
  priv->popover = popover;
  gtk_widget_set_parent (popover, GTK_WIDGET (self));
  g_signal_connect_swapped (popover, "closed", G_CALLBACK (popover_closed_cb), self);
  wb_popup (GTK_POPOVER (popover));
}

void
wb_answer_button_take_back (WbAnswerButton *self)
{
  GtkWidget *popover;

  g_return_if_fail (WB_IS_ANSWER_BUTTON (self));

  popover = get_private (self)->popover;
  if (popover != NULL)
    gtk_popover_popdown (GTK_POPOVER (popover));
}

/* --- what stands on it ------------------------------------------------------------------------ */

GtkLabel *
wb_answer_button_get_label (WbAnswerButton *self)
{
  g_return_val_if_fail (WB_IS_ANSWER_BUTTON (self), NULL);

  return GTK_LABEL (get_private (self)->label);
}

const char *
wb_answer_button_get_text (WbAnswerButton *self)
{
  g_return_val_if_fail (WB_IS_ANSWER_BUTTON (self), NULL);

  return gtk_label_get_label (GTK_LABEL (get_private (self)->label));
}

void
wb_answer_button_show (WbAnswerButton *self,
                       const char     *text,
                       const char     *asked)
{
  WbAnswerButtonPrivate *priv = get_private (self);
  GtkAccessible *accessible;
  g_autofree char *name = NULL;

  g_return_if_fail (WB_IS_ANSWER_BUTTON (self));
  g_return_if_fail (text != NULL);

  accessible = GTK_ACCESSIBLE (priv->button);
  gtk_label_set_label (GTK_LABEL (priv->label), text);
  gtk_widget_set_sensitive (priv->button, asked != NULL);
  if (asked == NULL)
    {
      gtk_accessible_reset_property (accessible, GTK_ACCESSIBLE_PROPERTY_LABEL);
      return;
    }
  /* Translators: the accessible name of a figure: what it is, and that pressing it explains it. */
  name = g_strdup_printf (_("%s. Why?"), asked);
  gtk_accessible_update_property (accessible, GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

/* --- widget ----------------------------------------------------------------------------------- */

static void
wb_answer_button_measure (GtkWidget      *widget,
                          GtkOrientation  orientation,
                          int             for_size,
                          int            *minimum,
                          int            *natural,
                          int            *minimum_baseline,
                          int            *natural_baseline)
{
  gtk_widget_measure (get_private (widget)->button, orientation, for_size, minimum, natural,
                      minimum_baseline, natural_baseline);
}

static void
wb_answer_button_size_allocate (GtkWidget *widget,
                                int        width,
                                int        height,
                                int        baseline)
{
  WbAnswerButtonPrivate *priv = get_private (widget);

  gtk_widget_size_allocate (priv->button, &(GtkAllocation) { 0, 0, width, height }, baseline);
  if (priv->popover != NULL)
    gtk_popover_present (GTK_POPOVER (priv->popover));
}

static gboolean
wb_answer_button_focus (GtkWidget        *widget,
                        GtkDirectionType  direction)
{
  return gtk_widget_child_focus (get_private (widget)->button, direction);
}

static gboolean
wb_answer_button_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (get_private (widget)->button);
}

/* To set a text on each of hundreds of figures would ask the X server where the pointer is each
 * time. It is the button that has it and not the widget around it, for that is the parent of the
 * popover as well, and whoever points at the answer asks no more. */
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

static void
wb_answer_button_dispose (GObject *object)
{
  drop_popover (WB_ANSWER_BUTTON (object));
  g_clear_pointer (&get_private (object)->button, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_answer_button_parent_class)->dispose (object);
}

static void
wb_answer_button_class_init (WbAnswerButtonClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_answer_button_dispose;
  widget_class->measure = wb_answer_button_measure;
  widget_class->size_allocate = wb_answer_button_size_allocate;
  widget_class->focus = wb_answer_button_focus;
  widget_class->grab_focus = wb_answer_button_grab_focus;
  gtk_widget_class_set_css_name (widget_class, "wb-figure");
}

static void
wb_answer_button_init (WbAnswerButton *self)
{
  WbAnswerButtonPrivate *priv = get_private (self);
  g_autoptr (PangoAttrList) attributes = pango_attr_list_from_string ("0 -1 weight normal");
  GtkEventController *focus = gtk_event_controller_focus_new ();

  priv->label = gtk_label_new (NULL);
  gtk_label_set_attributes (GTK_LABEL (priv->label), attributes);
  priv->button = gtk_button_new ();
  gtk_button_set_child (GTK_BUTTON (priv->button), priv->label);
  gtk_widget_add_css_class (priv->button, "flat");
  gtk_widget_set_has_tooltip (priv->button, TRUE);
  gtk_widget_set_parent (priv->button, GTK_WIDGET (self));
  g_signal_connect_swapped (priv->button, "clicked", G_CALLBACK (wb_answer_button_explain), self);
  g_signal_connect (priv->button, "query-tooltip", G_CALLBACK (query_tooltip_cb), NULL);
  g_signal_connect_swapped (focus, "enter", G_CALLBACK (wb_scroll_along), self);
  gtk_widget_add_controller (priv->button, focus);
}
