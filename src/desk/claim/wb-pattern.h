/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Fillings that can be told apart without colour: full, slanted lines, dots, nothing. */
typedef enum
{
  WB_PATTERN_FULL,
  WB_PATTERN_SLANTED,
  WB_PATTERN_DOTTED,
  WB_PATTERN_EMPTY,
} WbPattern;

/** Draws a filled rectangle with a thin border in @ink. */
void wb_pattern_draw (WbPattern              pattern,
                      GtkSnapshot           *snapshot,
                      const graphene_rect_t *area,
                      const GdkRGBA         *ink);

G_END_DECLS
