/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sets text through Pango, at sizes that do not depend on a screen. Fonts are asked for by generic
 * name alone; what a letter looks like is the computer's. */
#include "config.h"

#include "paper/wb-type.h"

#include <pango/pangocairo.h>

typedef struct
{
  double      size;
  gboolean    bold;
  gboolean    italic;
  double      grey;      /* 0: black */
  gboolean    typed;     /* all letters of one width */
} Face;

static const Face faces[] = {
  [WB_FACE_TITLE] = { 17, TRUE, FALSE, 0 },
  [WB_FACE_PART] = { 11.5, TRUE, FALSE, 0 },
  [WB_FACE_SUBPART] = { 9.5, TRUE, FALSE, 0 },
  [WB_FACE_BODY] = { 9, FALSE, FALSE, 0 },
  [WB_FACE_CAUTION] = { 8.5, FALSE, TRUE, 0 },
  [WB_FACE_LABEL] = { 8, FALSE, FALSE, 0.35 },
  [WB_FACE_CELL] = { 8, FALSE, FALSE, 0 },
  [WB_FACE_HEAD] = { 7.5, TRUE, FALSE, 0.25 },
  [WB_FACE_TOTAL] = { 8, TRUE, FALSE, 0 },
  [WB_FACE_NOTE] = { 7.5, FALSE, FALSE, 0.25 },
  [WB_FACE_TYPED] = { 8.5, FALSE, FALSE, 0, TRUE },
  [WB_FACE_FOOT] = { 7.5, FALSE, FALSE, 0.35 },
};
G_STATIC_ASSERT (G_N_ELEMENTS (faces) == WB_N_FACES);

struct _WbType
{
  PangoContext *context;
  PangoLayout  *layouts[WB_N_FACES];
};

static PangoContext *
make_context (void)
{
  PangoContext *context = pango_font_map_create_context (pango_cairo_font_map_get_default ());
  cairo_font_options_t *options = cairo_font_options_create ();

  /* Nothing of a screen: the same lines break at the same words wherever it is drawn. */
  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias (options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options (context, options);
  pango_cairo_context_set_resolution (context, 72);
  pango_context_set_round_glyph_positions (context, FALSE);
  /* The language of the desk would come from its environment, and with it other shapes. */
  pango_context_set_language (context, pango_language_from_string ("en"));
  pango_context_set_base_dir (context, PANGO_DIRECTION_LTR);
  cairo_font_options_destroy (options);
  return context;
}

static PangoLayout *
make_layout (PangoContext *context,
             const Face   *face)
{
  PangoLayout *layout = pango_layout_new (context);
  PangoFontDescription *font = pango_font_description_new ();
  PangoAttrList *attributes = pango_attr_list_new ();

  pango_font_description_set_family_static (font, face->typed ? "Monospace" : "Sans");
  pango_font_description_set_absolute_size (font, face->size * PANGO_SCALE);
  pango_font_description_set_weight (font, face->bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_style (font, face->italic ? PANGO_STYLE_ITALIC : PANGO_STYLE_NORMAL);
  pango_layout_set_font_description (layout, font);
  /* Figures of one width, so that amounts stand below each other. */
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum"));
  pango_layout_set_attributes (layout, attributes);
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  pango_attr_list_unref (attributes);
  pango_font_description_free (font);
  return layout;
}

WbType *
wb_type_new (void)
{
  WbType *self = g_new0 (WbType, 1);

  self->context = make_context ();
  for (gsize i = 0; i < WB_N_FACES; i++)
    self->layouts[i] = make_layout (self->context, &faces[i]);
  return self;
}

void
wb_type_free (WbType *self)
{
  if (self == NULL)
    return;
  for (gsize i = 0; i < WB_N_FACES; i++)
    g_object_unref (self->layouts[i]);
  g_object_unref (self->context);
  g_free (self);
}

/* --- measuring -------------------------------------------------------------------------------- */

static PangoLayout *
set_text (WbType     *self,
          WbFace      face,
          const char *text,
          int         width)
{
  PangoLayout *layout = self->layouts[face];

  pango_layout_set_width (layout, width);
  pango_layout_set_alignment (layout, PANGO_ALIGN_LEFT);
  pango_layout_set_text (layout, text, -1);
  return layout;
}

static double
width_of (PangoLayout *layout)
{
  PangoRectangle box;

  pango_layout_get_extents (layout, NULL, &box);
  return (double) box.width / PANGO_SCALE;
}

double
wb_type_natural (WbType     *self,
                 WbFace      face,
                 const char *text)
{
  return width_of (set_text (self, face, text, -1));
}

double
wb_type_longest (WbType     *self,
                 WbFace      face,
                 const char *text)
{
  PangoLayout *layout = self->layouts[face];
  double width;

  /* So narrow that every word has a line to itself. */
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD);
  width = width_of (set_text (self, face, text, 1));
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  return width;
}

GArray *
wb_type_lines (WbType     *self,
               WbFace      face,
               const char *text,
               double      width)
{
  GArray *lines = g_array_new (FALSE, FALSE, sizeof (WbLine));
  PangoLayout *layout = set_text (self, face, text, (int) (width * PANGO_SCALE));
  PangoLayoutIter *iter = pango_layout_get_iter (layout);

  do
    {
      int top, bottom;
      WbLine line;

      pango_layout_iter_get_line_yrange (iter, &top, &bottom);
      line.top = (double) top / PANGO_SCALE;
      line.bottom = (double) bottom / PANGO_SCALE;
      g_array_append_val (lines, line);
    }
  while (pango_layout_iter_next_line (iter));
  pango_layout_iter_free (iter);
  return lines;
}

/* --- drawing ---------------------------------------------------------------------------------- */

void
wb_type_draw (WbType     *self,
              cairo_t    *cr,
              WbFace      face,
              const char *text,
              double      x,
              double      y,
              double      width,
              gboolean    right,
              double      after,
              double      until)
{
  PangoLayout *layout = set_text (self, face, text, (int) (width * PANGO_SCALE));
  PangoLayoutIter *iter;

  pango_layout_set_alignment (layout, right ? PANGO_ALIGN_RIGHT : PANGO_ALIGN_LEFT);
  cairo_set_source_rgb (cr, faces[face].grey, faces[face].grey, faces[face].grey);
  iter = pango_layout_get_iter (layout);
  do
    {
      PangoRectangle box;
      int top, bottom;

      pango_layout_iter_get_line_yrange (iter, &top, &bottom);
      if ((double) bottom / PANGO_SCALE <= after || (double) bottom / PANGO_SCALE > until)
        continue;
      pango_layout_iter_get_line_extents (iter, NULL, &box);
      cairo_move_to (cr, x + (double) box.x / PANGO_SCALE,
                     y + (double) pango_layout_iter_get_baseline (iter) / PANGO_SCALE);
      pango_cairo_show_layout_line (cr, pango_layout_iter_get_line_readonly (iter));
    }
  while (pango_layout_iter_next_line (iter));
  pango_layout_iter_free (iter);
}
