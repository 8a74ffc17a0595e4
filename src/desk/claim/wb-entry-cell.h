/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "desk/claim/wb-text-cell.h"

G_BEGIN_DECLS

/* A cell in which a person types text, a number, an amount, a weight or a date. */
#define WB_TYPE_ENTRY_CELL (wb_entry_cell_get_type ())
G_DECLARE_FINAL_TYPE (WbEntryCell, wb_entry_cell, WB, ENTRY_CELL, WbTextCell)

/** @chars: width in characters; @numeric: to the right, in figures of one width. */
GtkWidget *wb_entry_cell_new (guint    chars,
                              gboolean numeric) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
