/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Scrolling to a widget after its first layout, and along the columns of a table. */
#include "config.h"

#include "desk/widgets/wb-scroll-to.h"

#define MARGIN 12

static void
scroll (GtkWidget *widget)
{
  GtkWidget *viewport = gtk_widget_get_ancestor (widget, GTK_TYPE_VIEWPORT);
  GtkWidget *scrolled = viewport != NULL
                        ? gtk_widget_get_ancestor (viewport, GTK_TYPE_SCROLLED_WINDOW) : NULL;
  GtkWidget *content = viewport != NULL ? gtk_viewport_get_child (GTK_VIEWPORT (viewport)) : NULL;
  GtkAdjustment *adjustment;
  graphene_rect_t place;
  double top, bottom;

  if (scrolled == NULL || content == NULL || !gtk_widget_compute_bounds (widget, content, &place))
    return;

  adjustment = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scrolled));
  top = gtk_widget_get_margin_top (content) + place.origin.y - MARGIN;
  bottom = top + MIN (place.size.height + 2 * MARGIN, gtk_adjustment_get_page_size (adjustment));
  gtk_adjustment_clamp_page (adjustment, top, bottom);
}

/* The first call comes before the layout of its own frame, the second after it. */
static gboolean
tick_cb (GtkWidget     *widget,
         GdkFrameClock *clock,
         gpointer       data)
{
  guint *n_ticks = data;

  if (++*n_ticks < 2)
    return G_SOURCE_CONTINUE;

  scroll (widget);
  return G_SOURCE_REMOVE;
}

void
wb_scroll_to (GtkWidget *widget)
{
  g_return_if_fail (GTK_IS_WIDGET (widget));

  gtk_widget_add_tick_callback (widget, tick_cb, g_new0 (guint, 1), g_free);
}

void
wb_scroll_along (GtkWidget *cell)
{
  GtkWidget *view, *scrolled;
  GtkAdjustment *adjustment;
  graphene_rect_t place;
  double start, width;

  g_return_if_fail (GTK_IS_WIDGET (cell));

  view = gtk_widget_get_ancestor (cell, GTK_TYPE_COLUMN_VIEW);
  scrolled = view != NULL ? gtk_widget_get_ancestor (view, GTK_TYPE_SCROLLED_WINDOW) : NULL;
  if (scrolled == NULL || !gtk_widget_compute_bounds (cell, view, &place))
    return;

  adjustment = gtk_scrolled_window_get_hadjustment (GTK_SCROLLED_WINDOW (scrolled));
  start = place.origin.x + gtk_adjustment_get_value (adjustment) - MARGIN;
  width = MIN (place.size.width + 2 * MARGIN, gtk_adjustment_get_page_size (adjustment));
  gtk_adjustment_clamp_page (adjustment, start, start + width);
}
