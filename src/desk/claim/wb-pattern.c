/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fillings for drawings that must be readable without colour, made of plain rectangles. */
#include "config.h"

#include "desk/claim/wb-pattern.h"

#define SLANT_STEP 7
#define SLANT_INK 2
#define DOT_STEP 6
#define DOT_INK 2

static void
draw_slanted (GtkSnapshot           *snapshot,
              const graphene_rect_t *area,
              const GdkRGBA         *ink)
{
  float height = area->size.height;
  /* A stripe long enough to cross the area at 45 degrees. */
  float length = height * 1.5f;

  gtk_snapshot_push_clip (snapshot, area);
  for (float x = -height; x < area->size.width + height; x += SLANT_STEP)
    {
      gtk_snapshot_save (snapshot);
      gtk_snapshot_translate (snapshot,
                              &GRAPHENE_POINT_INIT (area->origin.x + x, area->origin.y + height));
      gtk_snapshot_rotate (snapshot, -45);
      gtk_snapshot_append_color (snapshot, ink, &GRAPHENE_RECT_INIT (0, 0, length, SLANT_INK));
      gtk_snapshot_restore (snapshot);
    }
  gtk_snapshot_pop (snapshot);
}

static void
draw_dotted (GtkSnapshot           *snapshot,
             const graphene_rect_t *area,
             const GdkRGBA         *ink)
{
  float right = area->origin.x + area->size.width;
  float bottom = area->origin.y + area->size.height;

  gtk_snapshot_push_clip (snapshot, area);
  for (float y = area->origin.y + DOT_STEP / 2.0f; y < bottom; y += DOT_STEP)
    for (float x = area->origin.x + DOT_STEP / 2.0f; x < right; x += DOT_STEP)
      gtk_snapshot_append_color (snapshot, ink, &GRAPHENE_RECT_INIT (x, y, DOT_INK, DOT_INK));
  gtk_snapshot_pop (snapshot);
}

void
wb_pattern_draw (WbPattern              pattern,
                 GtkSnapshot           *snapshot,
                 const graphene_rect_t *area,
                 const GdkRGBA         *ink)
{
  GskRoundedRect outline;

  switch (pattern)
    {
    case WB_PATTERN_FULL:
      gtk_snapshot_append_color (snapshot, ink, area);
      break;
    case WB_PATTERN_SLANTED:
      draw_slanted (snapshot, area, ink);
      break;
    case WB_PATTERN_DOTTED:
      draw_dotted (snapshot, area, ink);
      break;
    case WB_PATTERN_EMPTY:
      break;
    }

  gsk_rounded_rect_init_from_rect (&outline, area, 0);
  gtk_snapshot_append_border (snapshot, &outline, (float[4]) { 1, 1, 1, 1 },
                              (GdkRGBA[4]) { *ink, *ink, *ink, *ink });
}
