/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws one bar. The figures stand in words beside it, so it is nothing to a screen reader. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/report/wb-loss-bar.h"

#include "desk/claim/wb-pattern.h"

#define LEAST_WIDTH 40

struct _WbLossBar
{
  GtkWidget parent_instance;

  gint64    demanded;
  gint64    owed;
  gint64    scale;
};

G_DEFINE_FINAL_TYPE (WbLossBar, wb_loss_bar, GTK_TYPE_WIDGET)

static void
wb_loss_bar_measure (GtkWidget      *widget,
                     GtkOrientation  orientation,
                     int             for_size,
                     int            *minimum,
                     int            *natural,
                     int            *minimum_baseline,
                     int            *natural_baseline)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (widget, "0");
  int height;

  pango_layout_get_pixel_size (layout, NULL, &height);
  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? LEAST_WIDTH : height * 2 / 3;
}

static void
draw_part (WbLossBar   *self,
           GtkSnapshot *snapshot,
           WbPattern    pattern,
           gint64       amount,
           const char  *colour)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GtkStyleContext *style = gtk_widget_get_style_context (widget);
  float width = (float) ((double) amount / (double) self->scale * gtk_widget_get_width (widget));
  GdkRGBA ink;

  if (width < 1)
    return;
  if (colour == NULL || !gtk_style_context_lookup_color (style, colour, &ink))
    gtk_style_context_get_color (style, &ink);
  wb_pattern_draw (pattern, snapshot,
                   &GRAPHENE_RECT_INIT (0, 0, width, gtk_widget_get_height (widget)), &ink);
}

static void
wb_loss_bar_snapshot (GtkWidget   *widget,
                      GtkSnapshot *snapshot)
{
  WbLossBar *self = WB_LOSS_BAR (widget);

  if (self->scale <= 0)
    return;

  if (gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL)
    {
      gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT (gtk_widget_get_width (widget), 0));
      gtk_snapshot_scale (snapshot, -1, 1);
    }
  draw_part (self, snapshot, WB_PATTERN_EMPTY, self->demanded, NULL);
  draw_part (self, snapshot, WB_PATTERN_FULL, self->owed, "accent_color");
}

static void
wb_loss_bar_class_init (WbLossBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->measure = wb_loss_bar_measure;
  widget_class->snapshot = wb_loss_bar_snapshot;

  gtk_widget_class_set_css_name (widget_class, "wb-loss-bar");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
wb_loss_bar_init (WbLossBar *self)
{
}

void
wb_loss_bar_show (WbLossBar *self,
                  gint64     demanded,
                  gint64     owed,
                  gint64     scale)
{
  g_return_if_fail (WB_IS_LOSS_BAR (self));

  self->demanded = demanded;
  self->owed = owed;
  self->scale = scale;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
