/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "desk/widgets/wb-field-tie.h"

G_BEGIN_DECLS

/* A cell of a record table: shows one field of the record in its row and sets it. What does not
 * read stays in the cell, marked, until it is mended or given up with Escape.
 *
 * Properties: "model", "field" ("claim_line.item"), "record-id".
 * Signals: "moved" (int: rows to go, in the same column), "done" (on to the next row), "fault"
 * (string, nullable: what is wrong, %NULL when mended). */
#define WB_TYPE_CELL (wb_cell_get_type ())
G_DECLARE_DERIVABLE_TYPE (WbCell, wb_cell, WB, CELL, GtkWidget)

/**
 * WbCellClass:
 * @show: shows the record's value of the moment; text typed and not set yet stays
 * @show_text: shows @text as typed and not set
 * @revert: shows the record's value of the moment, and nothing that was typed
 * @get_input: (transfer none): the widget that takes the focus and is named for a screen reader
 */
struct _WbCellClass
{
  GtkWidgetClass parent_class;

  void        (*show)      (WbCell     *self);
  void        (*show_text) (WbCell     *self,
                            const char *text);
  void        (*revert)    (WbCell     *self);
  GtkWidget  *(*get_input) (WbCell     *self);
};

/** Puts the cell into a row: @item is the row, @id its record. The same record again leaves alone
 * what is being typed. */
void         wb_cell_bind         (WbCell      *self,
                                   GtkListItem *item,
                                   guint        column,
                                   const char  *id);
/** The cell stands in no row. */
void         wb_cell_unbind       (WbCell      *self);
/** Returns: the row's place in the list, %GTK_INVALID_LIST_POSITION while the cell stands in
 * none. */
guint        wb_cell_get_position (WbCell      *self);
guint        wb_cell_get_column   (WbCell      *self);
const char  *wb_cell_get_id       (WbCell      *self);

/** Gives the focus to the input and selects its text. */
void         wb_cell_focus        (WbCell      *self);

/** Shows @text as typed, with what is wrong with it. */
void         wb_cell_show_fault   (WbCell      *self,
                                   const char  *text,
                                   const char  *fault);

/* --- for the kinds of cells ------------------------------------------------------------------- */

WbFieldTie  *wb_cell_get_tie      (WbCell      *self);
gboolean     wb_cell_has_fault    (WbCell      *self);

/** Sets the field. Returns: whether @text was taken; if not, the cell is marked. */
gboolean     wb_cell_commit       (WbCell      *self,
                                   const char  *text);
/** Marks the cell with @fault, or takes the mark away when it is %NULL. */
void         wb_cell_set_fault    (WbCell      *self,
                                   const char  *fault);
/** An arrow key: @rows down, or up when negative; over the ends of the table it leads nowhere. */
void         wb_cell_move         (WbCell      *self,
                                   int          rows);
/** Enter: on to the next row, past the last one to a new one. */
void         wb_cell_finish       (WbCell      *self);

G_END_DECLS
