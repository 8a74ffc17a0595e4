/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "desk/claim/wb-cell.h"

G_BEGIN_DECLS

/* What the cells that are typed into have in common: an entry, and whether what stands in it was
 * set. Enter sets it and goes to the next row, the arrow keys up and down set it and go along the
 * column, leaving the cell sets it, Escape gives up. */
#define WB_TYPE_TEXT_CELL (wb_text_cell_get_type ())
G_DECLARE_DERIVABLE_TYPE (WbTextCell, wb_text_cell, WB, TEXT_CELL, WbCell)

/**
 * WbTextCellClass:
 * @get_value_text: (transfer full): the text that stands for the record's value
 * @take: sets the field from @text, which was typed; %FALSE when it was not taken and the cell is
 *   marked
 * @go: (nullable): goes up or down within something of the cell's own; %FALSE when there is nothing
 * @choose: (nullable): Enter takes something of the cell's own; %FALSE when there is nothing
 * @shown: (nullable): the value was shown, nothing typed is left
 */
struct _WbTextCellClass
{
  WbCellClass parent_class;

  char     *(*get_value_text) (WbTextCell *self);
  gboolean  (*take)           (WbTextCell *self,
                               const char *text);
  gboolean  (*go)             (WbTextCell *self,
                               int         step);
  gboolean  (*choose)         (WbTextCell *self);
  void      (*shown)          (WbTextCell *self);
};

/** Returns: (transfer none): the entry, a child of the cell. */
GtkWidget  *wb_text_cell_get_entry  (WbTextCell *self);
/** Returns: (transfer none): what stands in the entry. */
const char *wb_text_cell_get_text   (WbTextCell *self);
/** Whether the text is another than the one that stands for the value. */
gboolean    wb_text_cell_is_typed   (WbTextCell *self);
/** Whether the cell has the keyboard. */
gboolean    wb_text_cell_has_focus  (WbTextCell *self);
/** Shows the record's value in place of what was typed. */
void        wb_text_cell_show_value (WbTextCell *self);

G_END_DECLS
