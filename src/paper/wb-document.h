/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A document as content: headings, paragraphs, fields and tables in their order, without a page.
 * Whoever makes one has the words; how they come to lie on pages is wb-layout.h's, and what becomes
 * of the pages wb-pdf.h's. Texts are UTF-8 and may hold line breaks. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  WB_BLOCK_HEADING,
  WB_BLOCK_PARAGRAPH,
  WB_BLOCK_CAUTION,      /* a paragraph that stands apart: what has to be borne in mind */
  WB_BLOCK_LINES,        /* lines that stay as they are: an address, a signature */
  WB_BLOCK_TYPED,        /* a text whose columns stand below each other by their blanks */
  WB_BLOCK_ITEM,         /* of a list */
  WB_BLOCK_FIELDS,       /* labels with their values, two beside each other */
  WB_BLOCK_TABLE,
} WbBlockKind;

typedef enum
{
  WB_ROW_PLAIN,
  WB_ROW_HEAD,           /* names the columns; said again on every page */
  WB_ROW_TOTAL,          /* a sum of the rows above */
  WB_ROW_GROUP,          /* one text over all columns, for the rows below it */
  WB_ROW_NOTE,           /* one text below the row before, from the second column on */
} WbRowKind;

/** WbTableRow: @cells: as many as the table has columns; one for a group or a note */
typedef struct
{
  WbRowKind kind;
  GStrv     cells;
} WbTableRow;

#define WB_TABLE_MAX_COLUMNS 12

/**
 * WbBlock:
 * @level: of a heading: 1 or 2
 * @text: (nullable): of all but fields and tables
 * @alignment: (nullable): of a table: one letter a column, "l" left or "r" right
 * @rows: (nullable) (element-type WbTableRow): of a table, the head first when there is one; of
 *   fields, each with a label and a value
 */
typedef struct
{
  WbBlockKind  kind;
  guint        level;
  char        *text;
  char        *alignment;
  GPtrArray   *rows;
} WbBlock;

/**
 * WbDocument:
 * @title: what it is; its first heading, and in the foot of every page
 * @reference: (nullable): the number of what it is about, in the foot of every page
 * @author: (nullable): who makes it out
 * @untitled: the title is in the foot alone: what follows says itself what it is
 * @created: the day that it is said to be of, which is not when it is drawn: the same content gives
 *   the same file; may be unset
 * @blocks: (element-type WbBlock)
 */
typedef struct
{
  char      *title;
  char      *reference;
  char      *author;
  gboolean   untitled;
  GDate      created;
  GPtrArray *blocks;
} WbDocument;

/** Returns: (transfer full): a document with nothing but its @title and @reference (nullable). */
WbDocument *wb_document_new           (const char  *title,
                                       const char  *reference) G_GNUC_WARN_UNUSED_RESULT;
void        wb_document_free          (WbDocument  *self);

void        wb_document_set_author    (WbDocument  *self,
                                       const char  *author);
/** Leaves the title to the foot of the pages. */
void        wb_document_hide_title    (WbDocument  *self);
/** @created: ignored when unset, or earlier than what is set: the latest day counts */
void        wb_document_add_day       (WbDocument  *self,
                                       const GDate *day);

/** @level: 1 for a part, 2 for a part of that. */
void        wb_document_add_heading   (WbDocument  *self,
                                       guint        level,
                                       const char  *text);
/** Adds a block of text; an empty one, or %NULL, is left out. @kind: neither fields nor table */
void        wb_document_add_text      (WbDocument  *self,
                                       WbBlockKind  kind,
                                       const char  *text);
/** Adds a field beside those that were added before it; an empty value, or %NULL, is left out. */
void        wb_document_add_field     (WbDocument  *self,
                                       const char  *label,
                                       const char  *value);

/**
 * wb_document_add_table:
 * @alignment: one letter a column, up to %WB_TABLE_MAX_COLUMNS
 * @...: the names of the columns; nothing when the first of them is %NULL
 *
 * Returns: (transfer none): a table without rows, for wb_table_add_row().
 */
WbBlock    *wb_document_add_table     (WbDocument  *self,
                                       const char  *alignment,
                                       ...) G_GNUC_WARN_UNUSED_RESULT;
/** Adds a row: as many texts as the table has columns, each may be %NULL for an empty cell. */
void        wb_table_add_row          (WbBlock     *table,
                                       ...);
void        wb_table_add_total        (WbBlock     *table,
                                       ...);
/** As wb_table_add_row(), with an array. @cells: (array zero-terminated=1): copied */
void        wb_table_add_cells        (WbBlock     *table,
                                       WbRowKind    kind,
                                       const char *const *cells);
void        wb_table_add_group        (WbBlock     *table,
                                       const char  *text);
/** Adds a note to the row before; an empty one, or %NULL, is left out. */
void        wb_table_add_note         (WbBlock     *table,
                                       const char  *text);
/** Returns: rows but for head, groups and notes. */
guint       wb_table_n_rows           (const WbBlock *table);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbDocument, wb_document_free)

G_END_DECLS
