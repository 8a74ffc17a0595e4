/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One entry of the list of differences as a row: a choice with what was, what is here and what is
 * there; what is taken without asking; or the line that folds those. */
#pragma once

#include <gtk/gtk.h>

#include "desk/share/wb-merge-list.h"

G_BEGIN_DECLS

#define WB_TYPE_MERGE_ROW (wb_merge_row_get_type ())
G_DECLARE_FINAL_TYPE (WbMergeRow, wb_merge_row, WB, MERGE_ROW, GtkWidget)

/** Returns: (transfer none): a row that shows nothing yet. */
GtkWidget    *wb_merge_row_new       (void);
/** Has the row show @entry and follow it; %NULL for none. */
void          wb_merge_row_show      (WbMergeRow   *self,
                                      WbMergeEntry *entry);
/** Returns: (transfer none) (nullable): what it shows. */
WbMergeEntry *wb_merge_row_get_entry (WbMergeRow   *self);

G_END_DECLS
