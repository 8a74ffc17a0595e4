/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hands the wheel from a list that is at its end to the page around it. Takes nothing from a list
 * that can still scroll, and nothing that goes sideways. */
#include "config.h"

#include "desk/widgets/wb-scroll-on.h"

/* How far the toolkit scrolls for one unit of a touchpad. */
#define TOUCHPAD_FACTOR 2.5

static gboolean
can_move (GtkAdjustment *adjustment,
          double         by)
{
  double value = gtk_adjustment_get_value (adjustment);
  double most = gtk_adjustment_get_upper (adjustment) - gtk_adjustment_get_page_size (adjustment);

  return by < 0 ? value > gtk_adjustment_get_lower (adjustment) : value < most;
}

/* About as far as the toolkit would have moved the page by itself. */
static double
step_of (GtkEventControllerScroll *controller,
         GtkAdjustment            *adjustment)
{
  switch (gtk_event_controller_scroll_get_unit (controller))
    {
    case GDK_SCROLL_UNIT_WHEEL:
      return gtk_adjustment_get_step_increment (adjustment);
    case GDK_SCROLL_UNIT_SURFACE:
      return TOUCHPAD_FACTOR;
    }
  g_assert_not_reached ();
}

static gboolean
scroll_cb (GtkEventControllerScroll *controller,
           double                    dx,
           double                    dy,
           GtkScrolledWindow        *inner)
{
  GdkModifierType held =
    gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (controller));
  GtkWidget *outer = gtk_widget_get_ancestor (gtk_widget_get_parent (GTK_WIDGET (inner)),
                                              GTK_TYPE_SCROLLED_WINDOW);
  GtkAdjustment *page;

  if (dy == 0 || outer == NULL || (held & GDK_SHIFT_MASK) != 0
      || can_move (gtk_scrolled_window_get_vadjustment (inner), dy))
    return GDK_EVENT_PROPAGATE;

  page = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (outer));
  gtk_adjustment_set_value (page, gtk_adjustment_get_value (page)
                                  + dy * step_of (controller, page));
  return GDK_EVENT_STOP;
}

void
wb_scroll_on (GtkScrolledWindow *inner)
{
  GtkEventController *controller;

  g_return_if_fail (GTK_IS_SCROLLED_WINDOW (inner));

  controller = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL);
  gtk_event_controller_set_name (controller, "wb-scroll-on");
  gtk_event_controller_set_propagation_phase (controller, GTK_PHASE_CAPTURE);
  g_signal_connect_object (controller, "scroll", G_CALLBACK (scroll_cb), inner, 0);
  gtk_widget_add_controller (GTK_WIDGET (inner), controller);
}
