/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "desk/claim/wb-cell.h"

G_BEGIN_DECLS

/* Knows the cells of a table that stand in rows, and gives one of them the focus, scrolling to it
 * first when its row is out of sight. */

typedef struct _WbCellFinder WbCellFinder;

/** @view: shows @rows, a list of #WbRecordItem; both must outlive the finder. */
WbCellFinder *wb_cell_finder_new         (GtkColumnView *view,
                                          GListModel    *rows) G_GNUC_WARN_UNUSED_RESULT;
void          wb_cell_finder_free        (WbCellFinder  *self);

/** Tells of a new cell; it is forgotten when it goes. */
void          wb_cell_finder_add         (WbCellFinder  *self,
                                          WbCell        *cell);

/** Returns: place of the record in the rows, or %GTK_INVALID_LIST_POSITION. */
guint         wb_cell_finder_position    (WbCellFinder  *self,
                                          const char    *id);
/** Returns: (nullable): id of the record in row @position. */
const char   *wb_cell_finder_id          (WbCellFinder  *self,
                                          guint          position);

/** Gives the cell of a record in @column the focus, at once or as soon as it is there. */
void          wb_cell_finder_focus       (WbCellFinder  *self,
                                          const char    *id,
                                          guint          column);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbCellFinder, wb_cell_finder_free)

G_END_DECLS
