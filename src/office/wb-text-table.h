/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text for a terminal: columns that align whatever the letters, and paragraphs broken at a
 * width. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/** Width at which paragraphs are broken. */
#define WB_TEXT_WIDTH 96

/** WbTextTable: rows of cells, with notes between them. */
typedef struct _WbTextTable WbTextTable;

/**
 * wb_text_table_new:
 * @alignment: one letter a column: "l" left, "r" right
 */
WbTextTable *wb_text_table_new      (const char   *alignment) G_GNUC_WARN_UNUSED_RESULT;
void         wb_text_table_free     (WbTextTable  *self);

/** Adds a row: as many texts as there are columns; line breaks in them become spaces. */
void         wb_text_table_add_row  (WbTextTable  *self,
                                     ...);
/** As wb_text_table_add_row(), from an array of as many texts. */
void         wb_text_table_add_cells (WbTextTable *self,
                                     const char *const *cells);
/** Adds a paragraph under the last row, set in by @indent. */
void         wb_text_table_add_note (WbTextTable  *self,
                                     guint         indent,
                                     const char   *text);

guint        wb_text_table_n_rows   (const WbTextTable *self);

/** Appends the table, every line set in by @indent, columns two spaces apart. */
void         wb_text_table_append   (const WbTextTable *self,
                                     guint         indent,
                                     GString      *out);

/** Appends @text broken at %WB_TEXT_WIDTH, the first line set in by @indent and the others by as
 * much and @hang. */
void         wb_text_append_paragraph (GString    *out,
                                       guint       indent,
                                       guint       hang,
                                       const char *text);

/** As wb_text_append_paragraph(), broken at @most. */
void         wb_text_append_wrapped (GString      *out,
                                     guint         indent,
                                     guint         hang,
                                     guint         most,
                                     const char   *text);

/** Returns: how many places of a terminal @text takes. */
guint        wb_text_width          (const char   *text);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbTextTable, wb_text_table_free)

G_END_DECLS
