/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The blocks of a letter and their plain text. What a letter says is written in wb-letter-claim.c
 * and wb-letter-settle.c. */
#include "config.h"

#include "office/wb-letter.h"

#include "office/wb-text-table.h"

#include <glib/gi18n.h>
#include <string.h>

/* What fits on a sheet in a plain hand. */
#define LETTER_WIDTH 78

static const WbEnumValue kinds[] = {
  { WB_LETTER_REQUEST, "request", N_("Request for what is lacking") },
  { WB_LETTER_ACKNOWLEDGEMENT, "acknowledgement", N_("Acknowledgement") },
  { WB_LETTER_STATUS, "status", N_("Status report") },
  { WB_LETTER_OFFER, "offer", N_("Offer of settlement") },
  { WB_LETTER_PARTIAL_DENIAL, "partial-denial", N_("Offer and partial denial") },
  { WB_LETTER_DENIAL, "denial", N_("Denial") },
  { WB_LETTER_RELEASE, "release", N_("Release to be signed") },
};
const WbEnum wb_letter_kinds = { "kind of letter", kinds, G_N_ELEMENTS (kinds) };

G_STATIC_ASSERT (G_N_ELEMENTS (kinds) == WB_N_LETTERS);

/* --- making ----------------------------------------------------------------------------------- */

static void
block_free (gpointer data)
{
  WbLetterBlock *block = data;

  g_free (block->text);
  g_free (block->alignment);
  g_clear_pointer (&block->rows, g_ptr_array_unref);
  g_free (block);
}

WbLetter *
wb_letter_new (WbLetterKind  kind,
               const GDate  *on)
{
  WbLetter *self = g_new0 (WbLetter, 1);

  self->kind = kind;
  self->on = *on;
  self->blocks = g_ptr_array_new_with_free_func (block_free);
  self->faults = g_ptr_array_new_with_free_func (g_free);
  self->notes = g_ptr_array_new_with_free_func (g_free);
  return self;
}

void
wb_letter_free (WbLetter *self)
{
  g_free (self->title);
  g_ptr_array_unref (self->blocks);
  g_ptr_array_unref (self->faults);
  g_ptr_array_unref (self->notes);
  g_free (self);
}

void
wb_letter_add (WbLetter          *self,
               WbLetterBlockKind  kind,
               const char        *text)
{
  WbLetterBlock *block;

  if (text == NULL || *text == '\0')
    return;
  block = g_new0 (WbLetterBlock, 1);
  block->kind = kind;
  block->text = g_strdup (text);
  g_ptr_array_add (self->blocks, block);
}

WbLetterBlock *
wb_letter_add_table (WbLetter   *self,
                     const char *alignment,
                     gboolean    has_titles)
{
  WbLetterBlock *block = g_new0 (WbLetterBlock, 1);

  block->kind = WB_LETTER_BLOCK_TABLE;
  block->alignment = g_strdup (alignment);
  block->rows = g_ptr_array_new_with_free_func ((GDestroyNotify) g_strfreev);
  block->has_titles = has_titles;
  g_ptr_array_add (self->blocks, block);
  return block;
}

void
wb_letter_add_row (WbLetterBlock *table,
                   ...)
{
  gsize n = strlen (table->alignment);
  char **cells = g_new0 (char *, n + 1);
  va_list args;

  va_start (args, table);
  for (gsize i = 0; i < n; i++)
    cells[i] = g_strdup (va_arg (args, const char *));
  va_end (args);
  g_ptr_array_add (table->rows, cells);
}

void
wb_letter_add_fault (WbLetter   *self,
                     const char *format,
                     ...)
{
  va_list args;

  va_start (args, format);
  g_ptr_array_add (self->faults, g_strdup_vprintf (format, args));
  va_end (args);
}

void
wb_letter_add_note (WbLetter   *self,
                    const char *format,
                    ...)
{
  va_list args;

  va_start (args, format);
  g_ptr_array_add (self->notes, g_strdup_vprintf (format, args));
  va_end (args);
}

/* --- as text ---------------------------------------------------------------------------------- */

static void
append_table (GString             *out,
              const WbLetterBlock *block)
{
  g_autoptr (WbTextTable) table = wb_text_table_new (block->alignment);

  for (guint i = 0; i < block->rows->len; i++)
    wb_text_table_add_cells (table, g_ptr_array_index (block->rows, i));
  wb_text_table_append (table, 0, out);
}

static void
append_block (GString             *out,
              const WbLetterBlock *block)
{
  g_autofree char *item = NULL;

  switch (block->kind)
    {
    case WB_LETTER_BLOCK_LINES:
      g_string_append_printf (out, "%s\n", block->text);
      break;
    case WB_LETTER_BLOCK_HEADING:
    case WB_LETTER_BLOCK_PARAGRAPH:
      wb_text_append_wrapped (out, 0, 0, LETTER_WIDTH, block->text);
      break;
    case WB_LETTER_BLOCK_ITEM:
      item = g_strdup_printf ("• %s", block->text);
      wb_text_append_wrapped (out, 2, 2, LETTER_WIDTH, item);
      break;
    case WB_LETTER_BLOCK_TABLE:
      append_table (out, block);
      break;
    }
}

char *
wb_letter_to_text (const WbLetter *self)
{
  g_autoptr (GString) out = g_string_new (NULL);
  WbLetterBlockKind before = WB_LETTER_BLOCK_HEADING;

  for (guint i = 0; i < self->blocks->len; i++)
    {
      const WbLetterBlock *block = g_ptr_array_index (self->blocks, i);
      gboolean goes_on = block->kind == WB_LETTER_BLOCK_ITEM && before == WB_LETTER_BLOCK_ITEM;

      if (i > 0 && !goes_on)
        g_string_append_c (out, '\n');
      append_block (out, block);
      before = block->kind;
    }
  return g_string_free (g_steal_pointer (&out), FALSE);
}
