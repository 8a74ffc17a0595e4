/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keeps the content of a document. Knows no page and no font. */
#include "config.h"

#include "paper/wb-document.h"

#include <stdarg.h>
#include <string.h>

/* --- blocks ----------------------------------------------------------------------------------- */

static void
row_free (gpointer data)
{
  WbTableRow *row = data;

  g_strfreev (row->cells);
  g_free (row);
}

static void
block_free (gpointer data)
{
  WbBlock *block = data;

  g_free (block->text);
  g_free (block->alignment);
  g_clear_pointer (&block->rows, g_ptr_array_unref);
  g_free (block);
}

static WbBlock *
add_block (WbDocument  *self,
           WbBlockKind  kind)
{
  WbBlock *block = g_new0 (WbBlock, 1);

  block->kind = kind;
  g_ptr_array_add (self->blocks, block);
  return block;
}

static WbBlock *
add_block_of_rows (WbDocument  *self,
                   WbBlockKind  kind,
                   const char  *alignment)
{
  WbBlock *block = add_block (self, kind);

  block->alignment = g_strdup (alignment);
  block->rows = g_ptr_array_new_with_free_func (row_free);
  return block;
}

/* Takes @cells. */
static void
add_row (WbBlock   *block,
         WbRowKind  kind,
         GStrv      cells)
{
  WbTableRow *row = g_new0 (WbTableRow, 1);

  row->kind = kind;
  row->cells = cells;
  g_ptr_array_add (block->rows, row);
}

static GStrv
one_cell (const char *text)
{
  GStrv cells = g_new0 (char *, 2);

  cells[0] = g_strdup (text);
  return cells;
}

static GStrv
collect_cells (const WbBlock *block,
               const char    *first,
               va_list        texts)
{
  gsize n = strlen (block->alignment);
  GStrv cells = g_new0 (char *, n + 1);

  for (gsize i = 0; i < n; i++)
    {
      const char *text = i == 0 ? first : va_arg (texts, const char *);

      cells[i] = g_strdup (text != NULL ? text : "");
    }
  return cells;
}

/* --- the document ----------------------------------------------------------------------------- */

WbDocument *
wb_document_new (const char *title,
                 const char *reference)
{
  WbDocument *self = g_new0 (WbDocument, 1);

  g_return_val_if_fail (title != NULL, self);

  self->title = g_strdup (title);
  self->reference = g_strdup (reference);
  self->blocks = g_ptr_array_new_with_free_func (block_free);
  g_date_clear (&self->created, 1);
  return self;
}

void
wb_document_free (WbDocument *self)
{
  if (self == NULL)
    return;
  g_free (self->title);
  g_free (self->reference);
  g_free (self->author);
  g_ptr_array_unref (self->blocks);
  g_free (self);
}

void
wb_document_set_author (WbDocument *self,
                        const char *author)
{
  g_return_if_fail (self != NULL);

  g_free (self->author);
  self->author = g_strdup (author);
}

void
wb_document_hide_title (WbDocument *self)
{
  g_return_if_fail (self != NULL);

  self->untitled = TRUE;
}

void
wb_document_add_day (WbDocument  *self,
                     const GDate *day)
{
  g_return_if_fail (self != NULL && day != NULL);

  if (!g_date_valid (day))
    return;
  if (!g_date_valid (&self->created) || g_date_compare (&self->created, day) < 0)
    self->created = *day;
}

void
wb_document_add_heading (WbDocument *self,
                         guint       level,
                         const char *text)
{
  WbBlock *block;

  g_return_if_fail (self != NULL && text != NULL);
  g_return_if_fail (level == 1 || level == 2);

  block = add_block (self, WB_BLOCK_HEADING);
  block->level = level;
  block->text = g_strdup (text);
}

void
wb_document_add_text (WbDocument  *self,
                      WbBlockKind  kind,
                      const char  *text)
{
  g_return_if_fail (self != NULL);
  g_return_if_fail (kind != WB_BLOCK_HEADING && kind != WB_BLOCK_FIELDS && kind != WB_BLOCK_TABLE);

  if (text == NULL || *text == '\0')
    return;
  add_block (self, kind)->text = g_strdup (text);
}

void
wb_document_add_field (WbDocument *self,
                       const char *label,
                       const char *value)
{
  WbBlock *block = NULL;
  GStrv cells;

  g_return_if_fail (self != NULL && label != NULL);

  if (value == NULL || *value == '\0')
    return;
  if (self->blocks->len > 0)
    block = g_ptr_array_index (self->blocks, self->blocks->len - 1);
  if (block == NULL || block->kind != WB_BLOCK_FIELDS)
    block = add_block_of_rows (self, WB_BLOCK_FIELDS, "ll");

  cells = g_new0 (char *, 3);
  cells[0] = g_strdup (label);
  cells[1] = g_strdup (value);
  add_row (block, WB_ROW_PLAIN, cells);
}

/* --- tables ----------------------------------------------------------------------------------- */

WbBlock *
wb_document_add_table (WbDocument *self,
                       const char *alignment,
                       ...)
{
  WbBlock *table;
  const char *first;
  va_list titles;

  g_return_val_if_fail (self != NULL && alignment != NULL && *alignment != '\0', NULL);
  g_return_val_if_fail (strlen (alignment) <= WB_TABLE_MAX_COLUMNS, NULL);

  table = add_block_of_rows (self, WB_BLOCK_TABLE, alignment);
  va_start (titles, alignment);
  first = va_arg (titles, const char *);
  if (first != NULL)
    add_row (table, WB_ROW_HEAD, collect_cells (table, first, titles));
  va_end (titles);
  return table;
}

void
wb_table_add_row (WbBlock *table,
                  ...)
{
  const char *first;
  va_list texts;

  g_return_if_fail (table != NULL && table->kind == WB_BLOCK_TABLE);

  va_start (texts, table);
  first = va_arg (texts, const char *);
  add_row (table, WB_ROW_PLAIN, collect_cells (table, first, texts));
  va_end (texts);
}

void
wb_table_add_total (WbBlock *table,
                    ...)
{
  const char *first;
  va_list texts;

  g_return_if_fail (table != NULL && table->kind == WB_BLOCK_TABLE);

  va_start (texts, table);
  first = va_arg (texts, const char *);
  add_row (table, WB_ROW_TOTAL, collect_cells (table, first, texts));
  va_end (texts);
}

void
wb_table_add_cells (WbBlock           *table,
                    WbRowKind          kind,
                    const char *const *cells)
{
  g_return_if_fail (table != NULL && table->kind == WB_BLOCK_TABLE);
  g_return_if_fail (g_strv_length ((GStrv) cells) == strlen (table->alignment));

  add_row (table, kind, g_strdupv ((GStrv) cells));
}

void
wb_table_add_group (WbBlock    *table,
                    const char *text)
{
  g_return_if_fail (table != NULL && table->kind == WB_BLOCK_TABLE);
  g_return_if_fail (text != NULL);

  add_row (table, WB_ROW_GROUP, one_cell (text));
}

void
wb_table_add_note (WbBlock    *table,
                   const char *text)
{
  g_return_if_fail (table != NULL && table->kind == WB_BLOCK_TABLE);

  if (text != NULL && *text != '\0')
    add_row (table, WB_ROW_NOTE, one_cell (text));
}

guint
wb_table_n_rows (const WbBlock *table)
{
  guint n = 0;

  g_return_val_if_fail (table != NULL && table->kind == WB_BLOCK_TABLE, 0);

  for (guint i = 0; i < table->rows->len; i++)
    {
      const WbTableRow *row = g_ptr_array_index (table->rows, i);

      if (row->kind == WB_ROW_PLAIN || row->kind == WB_ROW_TOTAL)
        n++;
    }
  return n;
}
