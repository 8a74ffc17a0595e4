/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lays children out like words: as many to a row as fit at their minimum widths, each then as near
 * to its natural width as the row allows. Children with hexpand share what is left. Made for a
 * strip of fields that has to fit any window and any size of text. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define WB_TYPE_FLOW_LAYOUT (wb_flow_layout_get_type ())
G_DECLARE_FINAL_TYPE (WbFlowLayout, wb_flow_layout, WB, FLOW_LAYOUT, GtkLayoutManager)

/**
 * The layout for a .ui file is one with the properties "column-spacing" and "row-spacing", both 6
 * when they are not said.
 * @column_spacing, @row_spacing: pixels between neighbours of a row, and between rows.
 */
GtkLayoutManager *wb_flow_layout_new (int column_spacing,
                                      int row_spacing) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
