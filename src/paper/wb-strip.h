/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A strip is what goes on a page in one piece where it can: a paragraph, or one row of a table, as
 * cells beside each other. Inside the room only. */
#pragma once

#include "paper/wb-document.h"
#include "paper/wb-type.h"

G_BEGIN_DECLS

/** WbStripCell: @right: set to the right; @x from the left of the text */
typedef struct
{
  const char *text;
  WbFace      face;
  gboolean    right;
  double      x;
  double      width;
} WbStripCell;

/**
 * WbStrip:
 * @above: room before it, unless it is the first of a page
 * @below: room after it, within a ruled row
 * @rule: whether a line is drawn below it, and how strong: 0 for none
 * @rule_above: the same of a line above it
 * @keep: it stays on one page with the strip that follows
 */
typedef struct
{
  WbStripCell cells[WB_TABLE_MAX_COLUMNS];
  guint       n_cells;
  double      above;
  double      below;
  double      rule;
  double      rule_above;
  gboolean    keep;
} WbStrip;

/**
 * WbStripBlock: a block, ready to be taken apart
 * @widths: of the columns of a table
 */
typedef struct
{
  const WbBlock *block;
  double         width;
  double         widths[WB_TABLE_MAX_COLUMNS];
  double         label;
} WbStripBlock;

void  wb_strip_block_init  (WbStripBlock       *self,
                            WbType             *type,
                            const WbBlock      *block,
                            double              width);
/** Returns: how many strips @self has. */
guint wb_strip_block_count (const WbStripBlock *self);
/** Sets @strip to strip @index; its texts belong to the document. */
void  wb_strip_block_get   (const WbStripBlock *self,
                            guint               index,
                            WbStrip            *strip);
/** Whether strip 0 is said again at the top of each page. */
gboolean wb_strip_block_has_head (const WbStripBlock *self);

G_END_DECLS
