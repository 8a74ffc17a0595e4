/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A letter as content: headings, paragraphs, items and tables, in their order, without a layout. As
 * plain text it is read and sent today; as a paper it is that text. */
#pragma once

#include <glib.h>

#include "core/wb-enum.h"

G_BEGIN_DECLS

/** The letters of a claim. */
typedef enum
{
  WB_LETTER_REQUEST,           /* for what the claim lacks: 49 CFR 370.3, 370.7 */
  WB_LETTER_ACKNOWLEDGEMENT,   /* 49 CFR 370.5 */
  WB_LETTER_STATUS,            /* why it is not decided yet: 49 CFR 370.9(a) */
  WB_LETTER_OFFER,             /* 49 CFR 370.9(a) */
  WB_LETTER_PARTIAL_DENIAL,    /* an offer, and notice in writing that the rest is disallowed: 49
                                * USC 14706(e) */
  WB_LETTER_DENIAL,            /* notice in writing that all is disallowed: 49 USC 14706(e) */
  WB_LETTER_RELEASE,           /* for the claimant to sign */
} WbLetterKind;

#define WB_N_LETTERS (WB_LETTER_RELEASE + 1)

extern const WbEnum wb_letter_kinds;

typedef enum
{
  WB_LETTER_BLOCK_LINES,       /* lines that stay as they are: an address, a signature */
  WB_LETTER_BLOCK_HEADING,
  WB_LETTER_BLOCK_PARAGRAPH,
  WB_LETTER_BLOCK_ITEM,        /* of a list */
  WB_LETTER_BLOCK_TABLE,
} WbLetterBlockKind;

/**
 * WbLetterBlock:
 * @text: (nullable): of all but a table
 * @alignment: (nullable): of a table: one letter a column, "l" left or "r" right
 * @rows: (nullable) (element-type GStrv): of a table, each with as many cells
 * @has_titles: the first row names the columns
 */
typedef struct
{
  WbLetterBlockKind  kind;
  char              *text;
  char              *alignment;
  GPtrArray         *rows;
  gboolean           has_titles;
} WbLetterBlock;

/**
 * WbLetter:
 * @on: its day
 * @title: what it is, as its subject says
 * @blocks: (element-type WbLetterBlock)
 * @faults: (element-type utf8): what has to be put right before it may go out, a sentence each
 * @notes: (element-type utf8): what whoever sends it should know; not in the letter
 */
typedef struct
{
  WbLetterKind  kind;
  GDate         on;
  char         *title;
  GPtrArray    *blocks;
  GPtrArray    *faults;
  GPtrArray    *notes;
} WbLetter;

WbLetter *wb_letter_new           (WbLetterKind      kind,
                                   const GDate      *on) G_GNUC_WARN_UNUSED_RESULT;
void      wb_letter_free          (WbLetter         *self);

/** Adds a block of text; an empty one is left out. */
void      wb_letter_add           (WbLetter         *self,
                                   WbLetterBlockKind kind,
                                   const char       *text);
/** Adds a table without rows. Returns: (transfer none): it, for wb_letter_add_row(). */
WbLetterBlock *wb_letter_add_table (WbLetter        *self,
                                   const char       *alignment,
                                   gboolean          has_titles);
/** Adds a row: as many texts as the table has columns. */
void      wb_letter_add_row       (WbLetterBlock    *table,
                                   ...);
/** Adds a sentence to the faults. */
void      wb_letter_add_fault     (WbLetter         *self,
                                   const char       *format,
                                   ...) G_GNUC_PRINTF (2, 3);
/** Adds a sentence to the notes. */
void      wb_letter_add_note      (WbLetter         *self,
                                   const char       *format,
                                   ...) G_GNUC_PRINTF (2, 3);

/** Returns: (transfer full): the letter as plain text in UTF-8, without faults and notes. */
char     *wb_letter_to_text       (const WbLetter   *self) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbLetter, wb_letter_free)

G_END_DECLS
