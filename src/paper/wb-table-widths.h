/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How wide the columns of a table are. Inside the room only. */
#pragma once

#include "paper/wb-document.h"
#include "paper/wb-type.h"

G_BEGIN_DECLS

/** Between two columns. */
#define WB_TABLE_GAP 9.0

/** Sets @widths, one for each column of @table, so that they and the gaps between them fill
 * @available. */
void wb_table_widths (WbType        *type,
                      const WbBlock *table,
                      double         available,
                      double        *widths);

G_END_DECLS
