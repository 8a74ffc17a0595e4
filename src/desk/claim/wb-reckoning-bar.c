/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws a reckoning. The same walk over title, bar and key measures and draws, so that what was
 * measured is what is drawn. Works no figure out. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-reckoning-bar.h"

#include <glib/gi18n.h>

#include "desk/claim/wb-pattern.h"
#include "desk/claim/wb-reckoning-parts.h"

#define GAP 6                 /* between the lines of one side */
#define SIDE_GAP 18           /* between the sides */
#define KEY_GAP 18            /* between the entries of a key */
#define MARK_WIDTH 2
#define MARK_OVERHANG 4       /* of the limit's line above and below the bar */

struct _WbReckoningBar
{
  GtkWidget    parent_instance;

  WbReckoning *reckoning;     /* (nullable) */
};

G_DEFINE_FINAL_TYPE (WbReckoningBar, wb_reckoning_bar, GTK_TYPE_WIDGET)

enum
{
  PROP_0,
  PROP_RECKONING,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

/* Where the walk stands; @snapshot is %NULL while it only measures. */
typedef struct
{
  WbReckoningBar *self;
  GtkSnapshot    *snapshot;
  int             width;
  int             text_height;
  int             y;
  int             widest;      /* entry that cannot be broken */
  gint64          scale;       /* amount that the whole width stands for */
  GdkRGBA         ink;
  GdkRGBA         accent;
} Walk;

static const WbPattern patterns[WB_N_PARTS] = {
  [WB_PART_OWED] = WB_PATTERN_FULL,
  [WB_PART_DEDUCTED] = WB_PATTERN_SLANTED,
  [WB_PART_OVER_LIMIT] = WB_PATTERN_DOTTED,
  [WB_PART_NOT_ALLOWED] = WB_PATTERN_EMPTY,
};

static const GdkRGBA *
part_ink (const Walk *walk,
          WbPart      part)
{
  return part == WB_PART_OWED ? &walk->accent : &walk->ink;
}

static void
draw_text (const Walk  *walk,
           PangoLayout *layout,
           int          x,
           int          y)
{
  gtk_snapshot_save (walk->snapshot);
  gtk_snapshot_translate (walk->snapshot, &GRAPHENE_POINT_INIT (x, y));
  gtk_snapshot_append_layout (walk->snapshot, layout, &walk->ink);
  gtk_snapshot_restore (walk->snapshot);
}

static void
walk_title (Walk       *walk,
            const char *title,
            gboolean    bold)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (walk->self), title);
  int height;

  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  if (walk->width >= 0)
    pango_layout_set_width (layout, walk->width * PANGO_SCALE);
  if (bold)
    {
      PangoAttrList *attributes = pango_attr_list_new ();

      pango_attr_list_insert (attributes, pango_attr_weight_new (PANGO_WEIGHT_BOLD));
      pango_layout_set_attributes (layout, attributes);
      pango_attr_list_unref (attributes);
    }

  pango_layout_get_pixel_size (layout, NULL, &height);
  if (walk->snapshot != NULL)
    draw_text (walk, layout, 0, walk->y);
  walk->y += height + GAP;
}

static float
place_of (const Walk *walk,
          gint64      amount)
{
  if (walk->scale <= 0)
    return 0;

  return (float) ((double) amount / (double) walk->scale * walk->width);
}

static void
draw_limit (const Walk *walk,
            gint64      limit,
            int         height)
{
  float x = CLAMP (place_of (walk, limit) - MARK_WIDTH / 2.0f, 0, walk->width - MARK_WIDTH);

  gtk_snapshot_append_color (walk->snapshot, &walk->ink,
                             &GRAPHENE_RECT_INIT (x, walk->y - MARK_OVERHANG,
                                                  MARK_WIDTH, height + 2 * MARK_OVERHANG));
}

static void
walk_bar (Walk                   *walk,
          const WbReckoningParts *parts)
{
  int height = walk->text_height + GAP;
  gint64 before = 0;

  for (int i = 0; walk->snapshot != NULL && i < WB_N_PARTS; i++)
    {
      WbPart part = parts->order[i];
      float left = place_of (walk, before);
      float right = place_of (walk, before + parts->amount[part]);

      before += parts->amount[part];
      if (right - left < 1)
        continue;
      wb_pattern_draw (patterns[part], walk->snapshot,
                       &GRAPHENE_RECT_INIT (left, walk->y, right - left, height),
                       part_ink (walk, part));
    }

  if (walk->snapshot != NULL && parts->loss == 0)
    wb_pattern_draw (WB_PATTERN_EMPTY, walk->snapshot,
                     &GRAPHENE_RECT_INIT (0, walk->y, walk->width, height), &walk->ink);
  if (walk->snapshot != NULL && parts->has_limit && parts->limit <= walk->scale)
    draw_limit (walk, parts->limit, height);

  walk->y += height + GAP + MARK_OVERHANG;
}

/* One entry of a key: a sample and its words. @part is -1 for the limit's line. */
static void
walk_entry (Walk       *walk,
            int        *x,
            int         part,
            const char *words)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (walk->self), words);
  int sample = walk->text_height;
  int width;

  pango_layout_get_pixel_size (layout, &width, NULL);
  width += sample + GAP;
  walk->widest = MAX (walk->widest, width);

  if (*x > 0 && walk->width >= 0 && *x + width > walk->width)
    {
      *x = 0;
      walk->y += walk->text_height + GAP;
    }

  if (walk->snapshot != NULL)
    {
      int inset = sample / 8;
      int side = sample - 2 * inset;

      if (part >= 0)
        wb_pattern_draw (patterns[part], walk->snapshot,
                         &GRAPHENE_RECT_INIT (*x, walk->y + inset, side, side),
                         part_ink (walk, (WbPart) part));
      else
        gtk_snapshot_append_color (walk->snapshot, &walk->ink,
                                   &GRAPHENE_RECT_INIT (*x + side / 2, walk->y, MARK_WIDTH,
                                                        sample));
      draw_text (walk, layout, *x + sample + GAP, walk->y);
    }

  *x += width + KEY_GAP;
}

static void
walk_key (Walk                   *walk,
          const WbReckoningParts *parts,
          const char             *currency)
{
  int x = 0;

  for (int i = 0; i < WB_N_PARTS; i++)
    {
      WbPart part = parts->order[i];
      g_autofree char *words = NULL;

      if (parts->amount[part] == 0 && part != WB_PART_OWED)
        continue;
      words = wb_part_words (part, parts->amount[part], currency);
      walk_entry (walk, &x, part, words);
    }

  if (parts->has_limit)
    {
      g_autofree char *words = wb_part_limit_words (parts, walk->scale, currency);

      walk_entry (walk, &x, -1, words);
    }

  walk->y += walk->text_height;
}

static void
walk_side (Walk                   *walk,
           const WbReckoningParts *parts,
           WbSide                  side)
{
  g_autofree char *title = wb_reckoning_parts_title (parts, side);

  walk_title (walk, title, parts->applies);
  if (!parts->offered)
    return;

  walk_bar (walk, parts);
  walk_key (walk, parts, wb_job_get_currency (walk->self->reckoning->job));
}

static void
find_colours (Walk *walk)
{
  GtkStyleContext *style = gtk_widget_get_style_context (GTK_WIDGET (walk->self));

  gtk_style_context_get_color (style, &walk->ink);
  if (!gtk_style_context_lookup_color (style, "accent_color", &walk->accent))
    walk->accent = walk->ink;
}

/* Goes over the whole drawing for @width. Returns: its height; @widest is the least width that it
 * needs. */
static int
walk_over (WbReckoningBar *self,
           int             width,
           GtkSnapshot    *snapshot,
           int            *widest)
{
  g_autoptr (PangoLayout) sample = gtk_widget_create_pango_layout (GTK_WIDGET (self), "$1,0");
  WbReckoningParts parts[WB_N_SIDES];
  Walk walk = { .self = self, .snapshot = snapshot, .width = width };

  if (self->reckoning == NULL)
    return 0;

  pango_layout_get_pixel_size (sample, NULL, &walk.text_height);
  find_colours (&walk);

  for (int side = 0; side < WB_N_SIDES; side++)
    {
      wb_reckoning_parts_read (&parts[side], self->reckoning, (WbSide) side);
      walk.scale = MAX (walk.scale, parts[side].loss);
    }
  for (int side = 0; side < WB_N_SIDES; side++)
    {
      if (side > 0)
        walk.y += SIDE_GAP;
      walk_side (&walk, &parts[side], (WbSide) side);
    }

  if (widest != NULL)
    *widest = walk.widest;
  return walk.y;
}

static GtkSizeRequestMode
wb_reckoning_bar_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
wb_reckoning_bar_measure (GtkWidget      *widget,
                          GtkOrientation  orientation,
                          int             for_size,
                          int            *minimum,
                          int            *natural,
                          int            *minimum_baseline,
                          int            *natural_baseline)
{
  WbReckoningBar *self = WB_RECKONING_BAR (widget);
  int widest = 0;
  int height = walk_over (self, for_size, NULL, &widest);

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    *minimum = *natural = widest;
  else
    *minimum = *natural = height;
}

static void
wb_reckoning_bar_snapshot (GtkWidget   *widget,
                           GtkSnapshot *snapshot)
{
  WbReckoningBar *self = WB_RECKONING_BAR (widget);
  int width = gtk_widget_get_width (widget);

  if (self->reckoning == NULL || width <= 0)
    return;

  walk_over (self, width, snapshot, NULL);
}

static void
wb_reckoning_bar_get_property (GObject    *object,
                               guint       prop_id,
                               GValue     *value,
                               GParamSpec *pspec)
{
  switch (prop_id)
    {
    case PROP_RECKONING:
      g_value_set_boxed (value, WB_RECKONING_BAR (object)->reckoning);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_reckoning_bar_set_property (GObject      *object,
                               guint         prop_id,
                               const GValue *value,
                               GParamSpec   *pspec)
{
  switch (prop_id)
    {
    case PROP_RECKONING:
      wb_reckoning_bar_set_reckoning (WB_RECKONING_BAR (object), g_value_get_boxed (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_reckoning_bar_dispose (GObject *object)
{
  g_clear_pointer (&WB_RECKONING_BAR (object)->reckoning, wb_reckoning_unref);

  G_OBJECT_CLASS (wb_reckoning_bar_parent_class)->dispose (object);
}

static void
wb_reckoning_bar_class_init (WbReckoningBarClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_reckoning_bar_get_property;
  object_class->set_property = wb_reckoning_bar_set_property;
  object_class->dispose = wb_reckoning_bar_dispose;
  widget_class->get_request_mode = wb_reckoning_bar_get_request_mode;
  widget_class->measure = wb_reckoning_bar_measure;
  widget_class->snapshot = wb_reckoning_bar_snapshot;

  properties[PROP_RECKONING] =
    g_param_spec_boxed ("reckoning", NULL, NULL, WB_TYPE_RECKONING,
                        G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  gtk_widget_class_set_css_name (widget_class, "wb-reckoning-bar");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
wb_reckoning_bar_init (WbReckoningBar *self)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (self),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, _("What each choice would pay"),
                                  -1);
}

void
wb_reckoning_bar_set_reckoning (WbReckoningBar *self,
                                WbReckoning    *reckoning)
{
  g_autofree char *words = NULL;

  g_return_if_fail (WB_IS_RECKONING_BAR (self));

  if (reckoning == self->reckoning)
    return;

  g_clear_pointer (&self->reckoning, wb_reckoning_unref);
  if (reckoning != NULL)
    {
      self->reckoning = wb_reckoning_ref (reckoning);
      words = wb_reckoning_in_words (reckoning);
    }

  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  words != NULL ? words : "", -1);
  gtk_widget_queue_resize (GTK_WIDGET (self));
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_RECKONING]);
}
