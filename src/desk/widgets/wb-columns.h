/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Puts its children side by side where there is room for the text in them, else one below the
 * other. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Properties: "spacing" (pixels between children), "column-chars" (characters that a column has to
 * have room for). */
#define WB_TYPE_COLUMNS (wb_columns_get_type ())
G_DECLARE_FINAL_TYPE (WbColumns, wb_columns, WB, COLUMNS, GtkLayoutManager)

G_END_DECLS
