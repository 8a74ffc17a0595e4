/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An amount that answers "why?". Holds the reckoning that it shows a figure of, and makes its
 * popover only when asked. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-figure-button.h"

#include <glib/gi18n.h>

#include "desk/claim/wb-reason-popover.h"
#include "desk/widgets/wb-popup.h"
#include "desk/widgets/wb-scroll-to.h"

struct _WbFigureButton
{
  GtkWidget    parent_instance;

  GtkWidget   *button;
  GtkWidget   *label;
  GtkWidget   *popover;      /* (nullable) */

  WbReckoning *reckoning;    /* (nullable) */
  int          line;
  WbSide       side;
  WbAmount     amount;
};

G_DEFINE_FINAL_TYPE (WbFigureButton, wb_figure_button, GTK_TYPE_WIDGET)

static void
drop_popover (WbFigureButton *self)
{
  g_clear_pointer (&self->popover, gtk_widget_unparent);
}

static void
drop_popover_idle_cb (gpointer data)
{
  WbFigureButton *self = data;

  if (self->popover != NULL && !gtk_widget_get_visible (self->popover))
    drop_popover (self);
  g_object_unref (self);
}

/* The popover is still at work while it says that it closed. */
static void
popover_closed_cb (WbFigureButton *self)
{
  g_idle_add_once (drop_popover_idle_cb, g_object_ref (self));
}

static void
clicked_cb (WbFigureButton *self)
{
  wb_figure_button_explain (self);
}

static void
wb_figure_button_measure (GtkWidget      *widget,
                          GtkOrientation  orientation,
                          int             for_size,
                          int            *minimum,
                          int            *natural,
                          int            *minimum_baseline,
                          int            *natural_baseline)
{
  gtk_widget_measure (WB_FIGURE_BUTTON (widget)->button, orientation, for_size,
                      minimum, natural, minimum_baseline, natural_baseline);
}

static void
wb_figure_button_size_allocate (GtkWidget *widget,
                                int        width,
                                int        height,
                                int        baseline)
{
  WbFigureButton *self = WB_FIGURE_BUTTON (widget);

  gtk_widget_size_allocate (self->button, &(GtkAllocation) { 0, 0, width, height }, baseline);
  if (self->popover != NULL)
    gtk_popover_present (GTK_POPOVER (self->popover));
}

static gboolean
wb_figure_button_focus (GtkWidget        *widget,
                        GtkDirectionType  direction)
{
  return gtk_widget_child_focus (WB_FIGURE_BUTTON (widget)->button, direction);
}

static gboolean
wb_figure_button_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (WB_FIGURE_BUTTON (widget)->button);
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
wb_figure_button_dispose (GObject *object)
{
  WbFigureButton *self = WB_FIGURE_BUTTON (object);

  drop_popover (self);
  g_clear_pointer (&self->button, gtk_widget_unparent);
  g_clear_pointer (&self->reckoning, wb_reckoning_unref);

  G_OBJECT_CLASS (wb_figure_button_parent_class)->dispose (object);
}

static void
wb_figure_button_class_init (WbFigureButtonClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = wb_figure_button_dispose;
  widget_class->measure = wb_figure_button_measure;
  widget_class->size_allocate = wb_figure_button_size_allocate;
  widget_class->focus = wb_figure_button_focus;
  widget_class->grab_focus = wb_figure_button_grab_focus;
  gtk_widget_class_set_css_name (widget_class, "wb-figure");
}

static void
wb_figure_button_init (WbFigureButton *self)
{
  g_autoptr (PangoAttrList) attributes = pango_attr_list_from_string ("0 -1 weight normal");
  GtkEventController *focus = gtk_event_controller_focus_new ();

  self->label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->label), 1);
  gtk_widget_add_css_class (self->label, "numeric");
  gtk_label_set_attributes (GTK_LABEL (self->label), attributes);

  self->button = gtk_button_new ();
  gtk_button_set_child (GTK_BUTTON (self->button), self->label);
  gtk_widget_add_css_class (self->button, "flat");
  gtk_widget_set_has_tooltip (self->button, TRUE);
  gtk_widget_set_parent (self->button, GTK_WIDGET (self));
  g_signal_connect_swapped (self->button, "clicked", G_CALLBACK (clicked_cb), self);
  g_signal_connect (self->button, "query-tooltip", G_CALLBACK (query_tooltip_cb), NULL);
  g_signal_connect_swapped (focus, "enter", G_CALLBACK (wb_scroll_along), self);
  gtk_widget_add_controller (self->button, focus);
}

GtkWidget *
wb_figure_button_new (void)
{
  return g_object_new (WB_TYPE_FIGURE_BUTTON, NULL);
}

static void
name_button (WbFigureButton *self)
{
  g_autofree char *sentence = wb_amount_sentence (self->reckoning, self->line, self->side,
                                                  self->amount);
  /* Translators: the accessible name of a figure: what it is, and that pressing it explains it. */
  g_autofree char *name = g_strdup_printf (_("%s. Why?"), sentence);

  gtk_accessible_update_property (GTK_ACCESSIBLE (self->button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  name, -1);
}

void
wb_figure_button_show (WbFigureButton *self,
                       WbReckoning    *reckoning,
                       int             line,
                       WbSide          side,
                       WbAmount        amount)
{
  g_autofree char *text = NULL;
  WbReckoning *before;

  g_return_if_fail (WB_IS_FIGURE_BUTTON (self));

  if (self->popover != NULL && reckoning != self->reckoning)
    gtk_popover_popdown (GTK_POPOVER (self->popover));

  before = self->reckoning;
  self->reckoning = reckoning != NULL ? wb_reckoning_ref (reckoning) : NULL;
  g_clear_pointer (&before, wb_reckoning_unref);
  self->line = line;
  self->side = side;
  self->amount = amount;

  gtk_widget_set_sensitive (self->button, reckoning != NULL);
  if (reckoning == NULL)
    {
      gtk_label_set_label (GTK_LABEL (self->label), "");
      gtk_accessible_reset_property (GTK_ACCESSIBLE (self->button), GTK_ACCESSIBLE_PROPERTY_LABEL);
      return;
    }

  text = wb_amount_text (reckoning, line, side, amount);
  gtk_label_set_label (GTK_LABEL (self->label), text);
  name_button (self);
}

void
wb_figure_button_set_bold (WbFigureButton *self,
                           gboolean        bold)
{
  g_autoptr (PangoAttrList) attributes = NULL;

  g_return_if_fail (WB_IS_FIGURE_BUTTON (self));

  attributes = pango_attr_list_from_string (bold ? "0 -1 weight bold" : "0 -1 weight normal");
  gtk_label_set_attributes (GTK_LABEL (self->label), attributes);
}

const char *
wb_figure_button_get_text (WbFigureButton *self)
{
  g_return_val_if_fail (WB_IS_FIGURE_BUTTON (self), NULL);

  return gtk_label_get_label (GTK_LABEL (self->label));
}

void
wb_figure_button_explain (WbFigureButton *self)
{
  g_return_if_fail (WB_IS_FIGURE_BUTTON (self));

  if (self->reckoning == NULL)
    return;

  drop_popover (self);
  self->popover = wb_reason_popover_new (self->reckoning, self->line, self->side, self->amount);
  gtk_widget_set_parent (self->popover, GTK_WIDGET (self));
  g_signal_connect_swapped (self->popover, "closed", G_CALLBACK (popover_closed_cb), self);
  wb_popup (GTK_POPOVER (self->popover));
}
