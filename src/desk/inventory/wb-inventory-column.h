/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The columns of the inventory as a table: what each shows of a piece, in words, and how two pieces
 * compare by it. Knows no widget. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/**
 * WbInventoryColumn:
 * @id: what the sort action calls it; never shown
 * @title: heading, marked for translation
 * @least: width that it keeps however narrow the window, in characters
 * @chars: width that it starts with, in characters
 * @expand: takes what width is left
 * @numeric: figures: aligned to the end
 * @swatch: has a spot of the lot's colour before the text
 * @follows_job: says more than the piece does, and is to be looked at anew when the job changes
 * @text: (transfer full): what the cell shows; "" when there is nothing
 * @tooltip: (nullable) (transfer full): what the cell's tooltip and a screen reader say instead of
 *   @text, %NULL when no more
 * @compare: order by the typed values, the least first; what is not given comes before all else
 */
typedef struct
{
  const char *id;
  const char *title;
  int         least;
  int         chars;
  gboolean    expand;
  gboolean    numeric;
  gboolean    swatch;
  gboolean    follows_job;
  char     *(*text)    (const WbJob   *job,
                        const WbPiece *piece);
  char     *(*tooltip) (const WbJob   *job,
                        const WbPiece *piece);
  int       (*compare) (const WbJob   *job,
                        const WbPiece *a,
                        const WbPiece *b);
} WbInventoryColumn;

/** Returns: (array length=n_columns): the columns from start to end. */
const WbInventoryColumn *wb_inventory_columns (guint *n_columns);

G_END_DECLS
