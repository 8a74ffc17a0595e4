/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Aligns and breaks text for a terminal. It knows nothing of what it aligns. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-text-table.h"

#include <string.h>

#define GAP 2

/* A row of cells, or a note when @cells is NULL. */
typedef struct
{
  GStrv  cells;
  char  *note;
  guint  indent;
} Row;

struct _WbTextTable
{
  char      *alignment;
  guint      n_columns;
  GPtrArray *rows;
  guint      n_cell_rows;
};

static void
row_free (gpointer data)
{
  Row *row = data;

  g_strfreev (row->cells);
  g_free (row->note);
  g_free (row);
}

WbTextTable *
wb_text_table_new (const char *alignment)
{
  WbTextTable *self;

  g_return_val_if_fail (alignment != NULL && *alignment != '\0', NULL);

  self = g_new0 (WbTextTable, 1);
  self->alignment = g_strdup (alignment);
  self->n_columns = (guint) strlen (alignment);
  self->rows = g_ptr_array_new_with_free_func (row_free);
  return self;
}

void
wb_text_table_free (WbTextTable *self)
{
  if (self == NULL)
    return;

  g_ptr_array_unref (self->rows);
  g_free (self->alignment);
  g_free (self);
}

void
wb_text_table_add_row (WbTextTable *self,
                       ...)
{
  Row *row = g_new0 (Row, 1);
  va_list args;

  row->cells = g_new0 (char *, self->n_columns + 1);
  va_start (args, self);
  for (guint i = 0; i < self->n_columns; i++)
    row->cells[i] = g_strdelimit (g_strdup (va_arg (args, const char *)), "\n\t", ' ');
  va_end (args);

  g_ptr_array_add (self->rows, row);
  self->n_cell_rows++;
}

void
wb_text_table_add_cells (WbTextTable       *self,
                         const char *const *cells)
{
  Row *row = g_new0 (Row, 1);

  row->cells = g_new0 (char *, self->n_columns + 1);
  for (guint i = 0; i < self->n_columns; i++)
    row->cells[i] = g_strdelimit (g_strdup (cells[i]), "\n\t", ' ');

  g_ptr_array_add (self->rows, row);
  self->n_cell_rows++;
}

void
wb_text_table_add_note (WbTextTable *self,
                        guint        indent,
                        const char  *text)
{
  Row *row = g_new0 (Row, 1);

  row->note = g_strdup (text);
  row->indent = indent;
  g_ptr_array_add (self->rows, row);
}

guint
wb_text_table_n_rows (const WbTextTable *self)
{
  return self->n_cell_rows;
}

guint
wb_text_width (const char *text)
{
  guint width = 0;

  for (; *text != '\0'; text = g_utf8_next_char (text))
    {
      gunichar character = g_utf8_get_char (text);

      if (!g_unichar_iszerowidth (character))
        width += g_unichar_iswide (character) ? 2 : 1;
    }

  return width;
}

static void
append_spaces (GString *out,
               guint    n)
{
  for (; n > 0; n--)
    g_string_append_c (out, ' ');
}

static void
append_row (const WbTextTable *self,
            const Row         *row,
            const guint       *widths,
            guint              indent,
            GString           *out)
{
  gsize end;

  append_spaces (out, indent);
  for (guint i = 0; i < self->n_columns; i++)
    {
      guint fill = widths[i] - wb_text_width (row->cells[i]);

      append_spaces (out, (i > 0 ? GAP : 0) + (self->alignment[i] == 'r' ? fill : 0));
      g_string_append (out, row->cells[i]);
      append_spaces (out, self->alignment[i] == 'r' ? 0 : fill);
    }

  for (end = out->len; end > 0 && out->str[end - 1] == ' '; end--)
    ;
  g_string_truncate (out, end);
  g_string_append_c (out, '\n');
}

void
wb_text_table_append (const WbTextTable *self,
                      guint              indent,
                      GString           *out)
{
  g_autofree guint *widths = g_new0 (guint, self->n_columns);

  for (guint i = 0; i < self->rows->len; i++)
    {
      const Row *row = g_ptr_array_index (self->rows, i);

      for (guint j = 0; row->cells != NULL && j < self->n_columns; j++)
        widths[j] = MAX (widths[j], wb_text_width (row->cells[j]));
    }

  for (guint i = 0; i < self->rows->len; i++)
    {
      const Row *row = g_ptr_array_index (self->rows, i);

      if (row->cells != NULL)
        append_row (self, row, widths, indent, out);
      else
        wb_text_append_paragraph (out, indent + row->indent, 2, row->note);
    }
}

void
wb_text_append_wrapped (GString    *out,
                        guint       indent,
                        guint       hang,
                        guint       most,
                        const char *text)
{
  g_auto (GStrv) words = g_strsplit_set (text, " \n", -1);
  guint at = indent;
  gboolean fresh = TRUE;

  append_spaces (out, indent);
  for (guint i = 0; words[i] != NULL; i++)
    {
      guint width = wb_text_width (words[i]);

      if (*words[i] == '\0')
        continue;
      if (!fresh && at + 1 + width > most)
        {
          g_string_append_c (out, '\n');
          append_spaces (out, indent + hang);
          at = indent + hang;
          fresh = TRUE;
        }
      if (!fresh)
        {
          g_string_append_c (out, ' ');
          at++;
        }
      g_string_append (out, words[i]);
      at += width;
      fresh = FALSE;
    }
  g_string_append_c (out, '\n');
}

void
wb_text_append_paragraph (GString    *out,
                          guint       indent,
                          guint       hang,
                          const char *text)
{
  wb_text_append_wrapped (out, indent, hang, WB_TEXT_WIDTH, text);
}
