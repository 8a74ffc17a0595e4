/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "desk/claim/wb-text-cell.h"

G_BEGIN_DECLS

/* A cell in which a piece of the inventory is picked by typing its tag, or words of what it is.
 * What fits is listed below while one types: the arrow keys choose, Enter takes the chosen one,
 * Escape gives up. Empty means: not on the inventory. */
#define WB_TYPE_PIECE_CELL (wb_piece_cell_get_type ())
G_DECLARE_FINAL_TYPE (WbPieceCell, wb_piece_cell, WB, PIECE_CELL, WbTextCell)

GtkWidget *wb_piece_cell_new (guint chars) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
