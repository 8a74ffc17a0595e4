/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "desk/claim/wb-text-cell.h"

G_BEGIN_DECLS

/* A cell that refers to a line of the same claim, by its number; empty for the whole claim. */
#define WB_TYPE_LINE_CELL (wb_line_cell_get_type ())
G_DECLARE_FINAL_TYPE (WbLineCell, wb_line_cell, WB, LINE_CELL, WbTextCell)

/** @chars: width in characters. */
GtkWidget *wb_line_cell_new (guint chars) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
