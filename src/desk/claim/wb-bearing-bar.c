/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws what a handler bears. Works no figure out. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-bearing-bar.h"

#include <glib/gi18n.h>

#include "desk/claim/wb-pattern.h"

#define LEAST_WIDTH 60
#define MARK_WIDTH 2

struct _WbBearingBar
{
  GtkWidget parent_instance;

  gint64    parts[WB_N_BEARS];
  gint64    limit;
  gint64    scale;
};

G_DEFINE_FINAL_TYPE (WbBearingBar, wb_bearing_bar, GTK_TYPE_WIDGET)

static const WbPattern patterns[WB_N_BEARS] = {
  [WB_BEARS_BY_RULE] = WB_PATTERN_FULL,
  [WB_BEARS_BY_HAND] = WB_PATTERN_SLANTED,
  [WB_BEARS_FOR_OTHERS] = WB_PATTERN_DOTTED,
  [WB_BEARS_CUT] = WB_PATTERN_EMPTY,
};

const char *
wb_bears_words (WbBears part)
{
  switch (part)
    {
    case WB_BEARS_BY_RULE:
      return _("By the rule");
    case WB_BEARS_BY_HAND:
      return _("Split by hand");
    case WB_BEARS_FOR_OTHERS:
      return _("Above the limits of others");
    case WB_BEARS_CUT:
      return _("Above its limit, not borne");
    }
  g_return_val_if_reached ("");
}

static int
text_height (GtkWidget *widget)
{
  g_autoptr (PangoLayout) sample = gtk_widget_create_pango_layout (widget, "1");
  int height;

  pango_layout_get_pixel_size (sample, NULL, &height);
  return height;
}

static void
wb_bearing_bar_measure (GtkWidget      *widget,
                        GtkOrientation  orientation,
                        int             for_size,
                        int            *minimum,
                        int            *natural,
                        int            *minimum_baseline,
                        int            *natural_baseline)
{
  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? LEAST_WIDTH
                                                                  : text_height (widget);
}

static float
place_of (WbBearingBar *self,
          gint64        amount,
          int           width)
{
  return self->scale > 0 ? (float) ((double) amount / (double) self->scale * width) : 0;
}

static void
wb_bearing_bar_snapshot (GtkWidget   *widget,
                         GtkSnapshot *snapshot)
{
  WbBearingBar *self = WB_BEARING_BAR (widget);
  GtkStyleContext *style = gtk_widget_get_style_context (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  gint64 before = 0;
  GdkRGBA ink, accent;

  gtk_style_context_get_color (style, &ink);
  if (!gtk_style_context_lookup_color (style, "accent_color", &accent))
    accent = ink;
  for (int i = 0; i < WB_N_BEARS; i++)
    {
      float left = place_of (self, before, width);
      float right = place_of (self, before + self->parts[i], width);

      before += self->parts[i];
      if (self->parts[i] > 0)
        wb_pattern_draw (patterns[i], snapshot,
                         &GRAPHENE_RECT_INIT (left, 2, MAX (right - left, 1), height - 4),
                         i == WB_BEARS_BY_RULE ? &accent : &ink);
    }
  if (self->limit >= 0 && self->limit <= self->scale)
    gtk_snapshot_append_color (snapshot, &ink,
                               &GRAPHENE_RECT_INIT (CLAMP (place_of (self, self->limit, width)
                                                           - MARK_WIDTH / 2.0f, 0,
                                                           width - MARK_WIDTH),
                                                    0, MARK_WIDTH, height));
}

static void
wb_bearing_bar_class_init (WbBearingBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->measure = wb_bearing_bar_measure;
  widget_class->snapshot = wb_bearing_bar_snapshot;
  gtk_widget_class_set_css_name (widget_class, "wb-bearing-bar");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
wb_bearing_bar_init (WbBearingBar *self)
{
  self->limit = -1;
}

GtkWidget *
wb_bearing_bar_new (void)
{
  return g_object_new (WB_TYPE_BEARING_BAR, NULL);
}

void
wb_bearing_bar_show (WbBearingBar *self,
                     const gint64 *parts,
                     gint64        limit,
                     gint64        scale)
{
  g_return_if_fail (WB_IS_BEARING_BAR (self));

  for (int i = 0; i < WB_N_BEARS; i++)
    self->parts[i] = parts[i];
  self->limit = limit;
  self->scale = scale;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
