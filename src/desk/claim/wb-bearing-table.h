/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-apportion.h"

G_BEGIN_DECLS

/* Who bears each line of a claim: a row a line with what is owed, who bears it and on what ground,
 * which answers "why?". Up and Down go from line to line.
 * Property: "selected-id" (string, nullable, read only): of the claim line. */
#define WB_TYPE_BEARING_TABLE (wb_bearing_table_get_type ())
G_DECLARE_FINAL_TYPE (WbBearingTable, wb_bearing_table, WB, BEARING_TABLE, GtkWidget)

/** @apportionment: (nullable): is not kept */
void        wb_bearing_table_show            (WbBearingTable        *self,
                                              const WbApportionment *apportionment);
/** Returns: (nullable) (transfer none): id of the chosen claim line. */
const char *wb_bearing_table_get_selected_id (WbBearingTable        *self);
/** Chooses the row of a claim line. */
void        wb_bearing_table_select          (WbBearingTable        *self,
                                              const char            *line_id);

G_END_DECLS
