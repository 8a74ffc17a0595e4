/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The columns of an inventory as a table: which field a column holds, by what words it may be
 * headed, and how the trade writes the values. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

typedef enum
{
  WB_COLUMN_IGNORED,      /* the heading means nothing to us */
  WB_COLUMN_NAMELESS,     /* there is no heading */
  WB_COLUMN_LOT_NUMBER,
  WB_COLUMN_LOT_COLOUR,
  WB_COLUMN_THINGS,       /* the list of contents, see wb-things-cell.h */
  WB_COLUMN_FIELD,        /* a field of a piece */
} WbColumnKind;

/**
 * WbColumn:
 * @heading: as in the file, without space at its ends
 * @field: (nullable): for %WB_COLUMN_FIELD
 * @unit: (nullable): what a bare number in it is counted in, "lb"
 */
typedef struct
{
  char          *heading;
  WbColumnKind   kind;
  const WbField *field;
  const char    *unit;
} WbColumn;

/**
 * wb_inventory_columns_match:
 * @headings: (element-type utf8): the first record of the file
 *
 * Returns: (transfer full) (element-type WbColumn) (nullable): a column for each heading, or %NULL
 * with
 * %G_IO_ERROR_INVALID_DATA: two columns mean the same thing, or none tells what a piece is.
 */
GArray     *wb_inventory_columns_match (GPtrArray      *headings,
                                        GError        **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (nullable): the column of @kind, or %NULL when the file has none. */
const WbColumn *wb_inventory_columns_find (GArray      *columns,
                                           WbColumnKind kind);

/**
 * wb_inventory_cell_value:
 *
 * Returns: (transfer full): a cell as wb_record_set_text() takes it: "pbo", "owner" become "PBO";
 * a bare number gets the column's unit.
 */
char       *wb_inventory_cell_value    (const WbColumn *column,
                                        const char     *cell) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_inventory_escape_text:
 *
 * A spreadsheet takes a text that starts with "=" for a formula and works it out; an apostrophe in
 * front stops it. Text with white space at its ends gets one as well, so that it comes back whole.
 * Returns: (transfer full): the text of a cell.
 */
char       *wb_inventory_escape_text   (const char     *text) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_inventory_unescape_text:
 *
 * Undoes wb_inventory_escape_text(); any other cell only loses white space at its ends.
 * Returns: (transfer full): the text.
 */
char       *wb_inventory_unescape_text (const char     *cell) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
