/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Takes blocks apart into strips: which face a text has, where its cells stand, how much room is
 * around it. What a document looks like is decided here. */
#include "config.h"

#include "paper/wb-strip.h"

#include "paper/wb-table-widths.h"

#include <string.h>

#define HAIRLINE 0.4
#define LINE 0.8
#define ITEM_INDENT 12.0
#define FIELD_GAP 16.0
#define LABEL_GAP 6.0
/* Labels take no more of a field than this. */
#define LABEL_MOST 0.45
#define SHORT_LIST 12
#define TYPED_LINE 10.0
#define FEW_LETTERS 30

static void
set_cell (WbStrip    *strip,
          const char *text,
          WbFace      face,
          gboolean    right,
          double      x,
          double      width)
{
  WbStripCell *cell = &strip->cells[strip->n_cells++];

  cell->text = text;
  cell->face = face;
  cell->right = right;
  cell->x = x;
  cell->width = width;
}

/* --- text ------------------------------------------------------------------------------------- */

static void
get_heading (const WbStripBlock *self,
             WbStrip            *strip)
{
  gboolean part = self->block->level == 1;

  set_cell (strip, self->block->text, part ? WB_FACE_PART : WB_FACE_SUBPART, FALSE, 0, self->width);
  strip->above = part ? 16 : 10;
  strip->below = part ? 3 : 2;
  strip->keep = TRUE;
}

static void
get_text (const WbStripBlock *self,
          WbStrip            *strip)
{
  set_cell (strip, self->block->text, WB_FACE_BODY, FALSE, 0, self->width);
  strip->above = 6;
}

static void
get_typed (const WbStripBlock *self,
           WbStrip            *strip)
{
  const char *text = self->block->text;

  set_cell (strip, text, WB_FACE_TYPED, FALSE, 0, self->width);
  strip->above = TYPED_LINE;
  /* A few words for themselves lead to what follows, as above a name. */
  strip->keep = strchr (text, '\n') == NULL && g_utf8_strlen (text, -1) <= FEW_LETTERS;
}

static void
get_caution (const WbStripBlock *self,
             WbStrip            *strip)
{
  set_cell (strip, self->block->text, WB_FACE_CAUTION, FALSE, 0, self->width);
  strip->above = 12;
  strip->rule_above = HAIRLINE;
}

static void
get_item (const WbStripBlock *self,
          WbStrip            *strip)
{
  set_cell (strip, "•", WB_FACE_BODY, FALSE, 0, ITEM_INDENT);
  set_cell (strip, self->block->text, WB_FACE_BODY, FALSE, ITEM_INDENT, self->width - ITEM_INDENT);
  strip->above = 4;
}

/* --- fields ----------------------------------------------------------------------------------- */

static double
field_width (const WbStripBlock *self)
{
  return (self->width - FIELD_GAP) / 2;
}

static double
label_width (WbType        *type,
             const WbBlock *block,
             double         most)
{
  double width = 0;

  for (guint i = 0; i < block->rows->len; i++)
    {
      const WbTableRow *row = g_ptr_array_index (block->rows, i);
      double natural = wb_type_natural (type, WB_FACE_LABEL, row->cells[0]);

      width = MAX (width, natural);
    }
  return MIN (width + 0.5, most);
}

static void
get_fields (const WbStripBlock *self,
            guint               index,
            WbStrip            *strip)
{
  for (guint i = 0; i < 2 && index * 2 + i < self->block->rows->len; i++)
    {
      const WbTableRow *row = g_ptr_array_index (self->block->rows, index * 2 + i);
      double x = i == 0 ? 0 : field_width (self) + FIELD_GAP;

      set_cell (strip, row->cells[0], WB_FACE_LABEL, FALSE, x, self->label);
      set_cell (strip, row->cells[1], WB_FACE_BODY, FALSE, x + self->label + LABEL_GAP,
                field_width (self) - self->label - LABEL_GAP);
    }
  strip->above = index == 0 ? 4 : 2;
}

/* --- tables ----------------------------------------------------------------------------------- */

static const WbTableRow *
row_at (const WbStripBlock *self,
        guint               index)
{
  return index < self->block->rows->len ? g_ptr_array_index (self->block->rows, index) : NULL;
}

static gboolean
is_kind (const WbTableRow *row,
         WbRowKind         kind)
{
  return row != NULL && row->kind == kind;
}

static void
set_cells (const WbStripBlock *self,
           const WbTableRow   *row,
           WbFace              face,
           WbStrip            *strip)
{
  double x = 0;

  for (gsize i = 0; self->block->alignment[i] != '\0'; i++)
    {
      set_cell (strip, row->cells[i], face, self->block->alignment[i] == 'r', x, self->widths[i]);
      x += self->widths[i] + WB_TABLE_GAP;
    }
}

/* Notes start where the second column does, for the first is as a rule a number. */
static void
set_note (const WbStripBlock *self,
          const WbTableRow   *row,
          WbStrip            *strip)
{
  double x = self->block->alignment[1] != '\0' ? self->widths[0] + WB_TABLE_GAP : 0;

  set_cell (strip, row->cells[0], WB_FACE_NOTE, FALSE, x, self->width - x);
}

/* A few figures without a head belong together. */
static gboolean
is_short_list (const WbStripBlock *self)
{
  return self->block->rows->len <= SHORT_LIST && !wb_strip_block_has_head (self);
}

static void
get_row (const WbStripBlock *self,
         guint               index,
         WbStrip            *strip)
{
  const WbTableRow *row = row_at (self, index);
  const WbTableRow *next = row_at (self, index + 1);

  strip->above = index == 0 ? 6 : 2;
  strip->below = 2;
  strip->rule = is_kind (next, WB_ROW_NOTE) ? 0 : HAIRLINE;
  switch (row->kind)
    {
    case WB_ROW_PLAIN:
      set_cells (self, row, WB_FACE_CELL, strip);
      strip->keep = is_kind (next, WB_ROW_NOTE) || is_kind (next, WB_ROW_TOTAL)
                    || (next != NULL && is_short_list (self));
      break;
    case WB_ROW_HEAD:
      set_cells (self, row, WB_FACE_HEAD, strip);
      strip->rule = LINE;
      strip->keep = TRUE;
      break;
    case WB_ROW_TOTAL:
      set_cells (self, row, WB_FACE_TOTAL, strip);
      strip->rule_above = is_kind (row_at (self, index - 1), WB_ROW_TOTAL) ? 0 : LINE;
      break;
    case WB_ROW_GROUP:
      set_cell (strip, row->cells[0], WB_FACE_TOTAL, FALSE, 0, self->width);
      strip->above = 8;
      strip->keep = TRUE;
      break;
    case WB_ROW_NOTE:
      set_note (self, row, strip);
      strip->above = 0;
      break;
    }
}

/* --- blocks ----------------------------------------------------------------------------------- */

void
wb_strip_block_init (WbStripBlock  *self,
                     WbType        *type,
                     const WbBlock *block,
                     double         width)
{
  memset (self, 0, sizeof *self);
  self->block = block;
  self->width = width;
  if (block->kind == WB_BLOCK_TABLE)
    wb_table_widths (type, block, width, self->widths);
  if (block->kind == WB_BLOCK_FIELDS)
    self->label = label_width (type, block, field_width (self) * LABEL_MOST);
}

guint
wb_strip_block_count (const WbStripBlock *self)
{
  switch (self->block->kind)
    {
    case WB_BLOCK_HEADING:
    case WB_BLOCK_PARAGRAPH:
    case WB_BLOCK_CAUTION:
    case WB_BLOCK_LINES:
    case WB_BLOCK_TYPED:
    case WB_BLOCK_ITEM:
      return 1;
    case WB_BLOCK_FIELDS:
      return (self->block->rows->len + 1) / 2;
    case WB_BLOCK_TABLE:
      return self->block->rows->len;
    }
  g_assert_not_reached ();
}

void
wb_strip_block_get (const WbStripBlock *self,
                    guint               index,
                    WbStrip            *strip)
{
  memset (strip, 0, sizeof *strip);
  switch (self->block->kind)
    {
    case WB_BLOCK_HEADING:
      get_heading (self, strip);
      break;
    case WB_BLOCK_PARAGRAPH:
    case WB_BLOCK_LINES:
      get_text (self, strip);
      break;
    case WB_BLOCK_CAUTION:
      get_caution (self, strip);
      break;
    case WB_BLOCK_TYPED:
      get_typed (self, strip);
      break;
    case WB_BLOCK_ITEM:
      get_item (self, strip);
      break;
    case WB_BLOCK_FIELDS:
      get_fields (self, index, strip);
      break;
    case WB_BLOCK_TABLE:
      get_row (self, index, strip);
      break;
    }
}

gboolean
wb_strip_block_has_head (const WbStripBlock *self)
{
  return self->block->kind == WB_BLOCK_TABLE && is_kind (row_at (self, 0), WB_ROW_HEAD);
}
