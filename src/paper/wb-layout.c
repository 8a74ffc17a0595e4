/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lays strips into pages, one below the other, and draws them. Where a strip stands is kept; what
 * is in it is made again when it is drawn, so that a long document takes little memory. */
#include "config.h"

#include "paper/wb-layout.h"

#include "paper/wb-strip.h"
#include "paper/wb-type.h"

#include <glib/gi18n.h>

#define MARGIN_SIDE 51.0
#define MARGIN_TOP 48.0
#define MARGIN_BOTTOM 58.0
/* Between a head that is said again and what goes on below it. */
#define TOP_GAP 2.0
#define FOOT_RULE 44.0
#define FOOT_TEXT 39.0

/* Of the lines that set something apart, in points; thinner ones only lead the eye. */
#define STRONG 0.6

/* The title is a strip of its own, before the first block. */
#define TITLE (-1)

/**
 * Slice: a strip, or the part of one that is on a page
 * @block: place of the block, or %TITLE
 * @y: of the top of the strip's text, were all of it there
 * @after, @until: the lines of it whose bottoms are in between
 * @low: how far down the slice comes
 * @ends: the last lines of the strip are among them
 */
typedef struct
{
  gint     block;
  guint    strip;
  guint    page;
  double   y;
  double   after;
  double   until;
  double   low;
  gboolean ends;
} Slice;

struct _WbLayout
{
  const WbDocument *document;
  WbType           *type;
  WbStripBlock     *blocks;
  GArray           *slices;        /* of Slice, page by page */
  GArray           *starts;        /* of guint: the first slice of each page */
  double            page_width;
  double            page_height;
  double            width;
  double            height;        /* of what a page holds */

  /* While it is being laid out. */
  guint             page;
  double            y;             /* where the next strip goes */
  gboolean          page_is_empty; /* but for heads said again */
  gboolean          stopped;
  WbPageWatch       watch;
  gpointer          watch_data;
};

void
wb_page_size_get (WbPageSize  size,
                  double     *width,
                  double     *height)
{
  switch (size)
    {
    case WB_PAGE_LETTER:
      *width = 612;
      *height = 792;
      return;
    case WB_PAGE_A4:
      *width = 595.276;
      *height = 841.89;
      return;
    }
  g_assert_not_reached ();
}

/* --- strips ----------------------------------------------------------------------------------- */

static void
get_strip (const WbLayout *self,
           gint            block,
           guint           index,
           WbStrip        *strip)
{
  WbBlock title = { WB_BLOCK_HEADING, 1, self->document->title };
  WbStripBlock whole = { &title, self->width };

  if (block != TITLE)
    {
      wb_strip_block_get (&self->blocks[block], index, strip);
      return;
    }
  wb_strip_block_get (&whole, 0, strip);
  strip->cells[0].face = WB_FACE_TITLE;
  strip->below = 6;
}

/* Moves on to the next strip. Returns: whether there is one. */
static gboolean
get_next (const WbLayout *self,
          gint           *block,
          guint          *index)
{
  guint n = *block == TITLE ? 1 : wb_strip_block_count (&self->blocks[*block]);

  if (*index + 1 < n)
    {
      ++*index;
      return TRUE;
    }
  *index = 0;
  while (++*block < (gint) self->document->blocks->len)
    if (wb_strip_block_count (&self->blocks[*block]) > 0)
      return TRUE;
  return FALSE;
}

static double
text_height (WbLayout      *self,
             const WbStrip *strip)
{
  double height = 0;

  for (guint i = 0; i < strip->n_cells; i++)
    {
      const WbStripCell *cell = &strip->cells[i];
      g_autoptr (GArray) lines = wb_type_lines (self->type, cell->face, cell->text, cell->width);

      height = MAX (height, g_array_index (lines, WbLine, lines->len - 1).bottom);
    }
  return height;
}

/* --- on to the pages -------------------------------------------------------------------------- */

static void
place (WbLayout *self,
       gint      block,
       guint     index,
       double    y,
       double    after,
       double    until,
       double    low,
       gboolean  ends)
{
  Slice slice = { block, index, self->page, y, after, until, low, ends };

  g_array_append_val (self->slices, slice);
  self->y = low;
}

static void
start_page (WbLayout *self)
{
  self->page++;
  self->y = 0;
  self->page_is_empty = TRUE;
  g_array_append_val (self->starts, self->slices->len);
  if (self->watch != NULL && !self->watch (self->page, 0, self->watch_data))
    self->stopped = TRUE;
}

/* The head of the table that goes on here. */
static void
say_head_again (WbLayout *self,
                gint      block,
                guint     index)
{
  WbStrip head;
  double height;

  if (block == TITLE || index == 0 || !wb_strip_block_has_head (&self->blocks[block]))
    return;
  get_strip (self, block, 0, &head);
  height = text_height (self, &head);
  /* One that leaves no room for what it heads says nothing. */
  if (height > self->height / 3)
    return;
  place (self, block, 0, 0, -1, height, height + head.below, TRUE);
  self->y += TOP_GAP;
}

static void
break_page (WbLayout *self,
            gint      block,
            guint     index)
{
  start_page (self);
  say_head_again (self, block, index);
}

/* The lowest line that ends in the room down to @room, of those after @after; and where the first
 * one begins that does not. Returns: whether any line is left for the next page. */
static gboolean
find_break (WbLayout      *self,
            const WbStrip *strip,
            double         after,
            double         room,
            double        *until,
            double        *next)
{
  gboolean left = FALSE;
  double first = G_MAXDOUBLE;

  *until = after;
  *next = G_MAXDOUBLE;
  for (guint i = 0; i < strip->n_cells; i++)
    {
      const WbStripCell *cell = &strip->cells[i];
      g_autoptr (GArray) lines = wb_type_lines (self->type, cell->face, cell->text, cell->width);

      for (guint k = 0; k < lines->len; k++)
        {
          const WbLine *line = &g_array_index (lines, WbLine, k);

          if (line->bottom <= after)
            continue;
          first = MIN (first, line->bottom);
          if (line->bottom <= room)
            {
              *until = MAX (*until, line->bottom);
            }
          else
            {
              *next = MIN (*next, line->top);
              left = TRUE;
            }
        }
    }
  /* A line that is higher than a page is drawn all the same. */
  if (*until <= after && self->page_is_empty)
    *until = first;
  return left;
}

/* Puts a strip that no page can hold on as many as it takes. */
static void
place_in_parts (WbLayout      *self,
                gint           block,
                guint          index,
                const WbStrip *strip,
                double         height)
{
  double from = 0, after = 0;

  while (!self->stopped && after < height)
    {
      double until, next;
      gboolean left = find_break (self, strip, after, from + self->height - self->y, &until, &next);

      if (until > after)
        {
          place (self, block, index, self->y - from, after, until,
                 self->y + until - from + (left ? 0 : strip->below), !left);
          self->page_is_empty = FALSE;
          after = until;
          from = left ? MIN (next, until) : until;
        }
      if (after < height)
        break_page (self, block, index);
    }
}

/* The height of a strip and of all that has to stay with it. */
static double
height_with_kept (WbLayout *self,
                  gint      block,
                  guint     index,
                  double    height)
{
  WbStrip strip;

  get_strip (self, block, index, &strip);
  height += strip.below;
  while (strip.keep && height < self->height && get_next (self, &block, &index))
    {
      get_strip (self, block, index, &strip);
      height += strip.above + text_height (self, &strip) + strip.below;
    }
  return height;
}

static void
lay_out_strip (WbLayout *self,
               gint      block,
               guint     index)
{
  WbStrip strip;
  double height, all, above;

  get_strip (self, block, index, &strip);
  height = text_height (self, &strip);
  all = height_with_kept (self, block, index, height);
  /* What cannot be kept together anyway only keeps itself. */
  if (all > self->height)
    all = height + strip.below;

  above = self->page_is_empty && self->y == 0 ? 0 : strip.above;
  if (!self->page_is_empty && self->y + above + all > self->height && all <= self->height)
    {
      break_page (self, block, index);
      above = self->y <= 0 ? 0 : strip.above;
    }
  if (self->stopped)
    return;

  self->y += above;
  if (self->y + height <= self->height)
    place (self, block, index, self->y, -1, height, self->y + height + strip.below, TRUE);
  else
    place_in_parts (self, block, index, &strip, height);
  self->page_is_empty = FALSE;
}

static void
lay_out (WbLayout *self)
{
  gint block = TITLE;
  guint index = 0;

  self->page = G_MAXUINT;
  start_page (self);
  if (self->document->untitled && !get_next (self, &block, &index))
    return;
  do
    lay_out_strip (self, block, index);
  while (!self->stopped && get_next (self, &block, &index));
}

/* --- the layout ------------------------------------------------------------------------------- */

WbLayout *
wb_layout_new (const WbDocument  *document,
               WbPageSize         size,
               WbPageWatch        watch,
               gpointer           data,
               GError           **error)
{
  g_autoptr (WbLayout) self = NULL;

  g_return_val_if_fail (document != NULL, NULL);

  self = g_new0 (WbLayout, 1);
  self->document = document;
  self->type = wb_type_new ();
  self->slices = g_array_new (FALSE, FALSE, sizeof (Slice));
  self->starts = g_array_new (FALSE, FALSE, sizeof (guint));
  self->watch = watch;
  self->watch_data = data;
  wb_page_size_get (size, &self->page_width, &self->page_height);
  self->width = self->page_width - 2 * MARGIN_SIDE;
  self->height = self->page_height - MARGIN_TOP - MARGIN_BOTTOM;
  self->blocks = g_new0 (WbStripBlock, document->blocks->len);
  for (guint i = 0; i < document->blocks->len; i++)
    wb_strip_block_init (&self->blocks[i], self->type, g_ptr_array_index (document->blocks, i),
                         self->width);
  lay_out (self);
  if (self->stopped)
    {
      g_set_error (error, WB_PAPER_ERROR, WB_PAPER_ERROR_STOPPED, "“%s” was not wanted any more",
                   document->title);
      return NULL;
    }
  return g_steal_pointer (&self);
}

void
wb_layout_free (WbLayout *self)
{
  if (self == NULL)
    return;
  wb_type_free (self->type);
  g_array_unref (self->slices);
  g_array_unref (self->starts);
  g_free (self->blocks);
  g_free (self);
}

guint
wb_layout_get_n_pages (const WbLayout *self)
{
  g_return_val_if_fail (self != NULL, 0);

  return self->starts->len;
}

void
wb_layout_each_heading (const WbLayout *self,
                        WbHeadingFunc   func,
                        gpointer        data)
{
  g_return_if_fail (self != NULL && func != NULL);

  for (guint i = 0; i < self->slices->len; i++)
    {
      const Slice *slice = &g_array_index (self->slices, Slice, i);
      const WbBlock *block = slice->block != TITLE ? self->blocks[slice->block].block : NULL;

      if (slice->after > 0)
        continue;
      if (block == NULL)
        func (self->document->title, 0, slice->page, MARGIN_TOP + slice->y, data);
      else if (block->kind == WB_BLOCK_HEADING)
        func (block->text, block->level, slice->page, MARGIN_TOP + slice->y, data);
    }
}

/* --- drawing ---------------------------------------------------------------------------------- */

typedef struct
{
  cairo_t *cr;
  gboolean tags;
} Pen;

static void
begin (const Pen  *pen,
       const char *tag)
{
  if (pen->tags && tag != NULL)
    cairo_tag_begin (pen->cr, tag, NULL);
}

static void
end (const Pen  *pen,
     const char *tag)
{
  if (pen->tags && tag != NULL)
    cairo_tag_end (pen->cr, tag);
}

/* What stands around all strips of a block on a page. */
static const char *
outer_tag (const WbBlock *block)
{
  if (block == NULL)
    return NULL;
  switch (block->kind)
    {
    case WB_BLOCK_HEADING:
    case WB_BLOCK_PARAGRAPH:
    case WB_BLOCK_CAUTION:
    case WB_BLOCK_LINES:
    case WB_BLOCK_TYPED:
      return NULL;
    case WB_BLOCK_ITEM:
      return "L";
    case WB_BLOCK_FIELDS:
    case WB_BLOCK_TABLE:
      return "Table";
    }
  g_assert_not_reached ();
}

static const char *
strip_tag (const WbBlock *block)
{
  if (block == NULL)
    return "H1";
  switch (block->kind)
    {
    case WB_BLOCK_HEADING:
      return block->level == 1 ? "H2" : "H3";
    case WB_BLOCK_PARAGRAPH:
    case WB_BLOCK_CAUTION:
    case WB_BLOCK_LINES:
    case WB_BLOCK_TYPED:
      return "P";
    case WB_BLOCK_ITEM:
      return "LI";
    case WB_BLOCK_FIELDS:
    case WB_BLOCK_TABLE:
      return "TR";
    }
  g_assert_not_reached ();
}

static const char *
cell_tag (const WbBlock     *block,
          const WbStripCell *cell)
{
  if (block == NULL || (block->kind != WB_BLOCK_TABLE && block->kind != WB_BLOCK_FIELDS))
    return NULL;
  return cell->face == WB_FACE_HEAD || cell->face == WB_FACE_LABEL ? "TH" : "TD";
}

static void
draw_rule (const WbLayout *self,
           const Pen      *pen,
           double          y,
           double          strength)
{
  double grey;

  if (strength <= 0)
    return;
  grey = strength < STRONG ? 0.72 : 0.35;
  cairo_set_source_rgb (pen->cr, grey, grey, grey);
  cairo_set_line_width (pen->cr, strength);
  cairo_move_to (pen->cr, MARGIN_SIDE, y);
  cairo_line_to (pen->cr, MARGIN_SIDE + self->width, y);
  cairo_stroke (pen->cr);
}

static void
draw_slice (WbLayout    *self,
            const Pen   *pen,
            const Slice *slice)
{
  const WbBlock *block = slice->block != TITLE ? self->blocks[slice->block].block : NULL;
  WbStrip strip;

  get_strip (self, slice->block, slice->strip, &strip);
  if (slice->after < 0 && slice->y > 0)
    draw_rule (self, pen, MARGIN_TOP + slice->y - MIN (strip.above, 3), strip.rule_above);
  begin (pen, strip_tag (block));
  for (guint i = 0; i < strip.n_cells; i++)
    {
      const WbStripCell *cell = &strip.cells[i];

      begin (pen, cell_tag (block, cell));
      wb_type_draw (self->type, pen->cr, cell->face, cell->text, MARGIN_SIDE + cell->x,
                    MARGIN_TOP + slice->y, cell->width, cell->right, slice->after, slice->until);
      end (pen, cell_tag (block, cell));
    }
  end (pen, strip_tag (block));
  if (slice->ends)
    draw_rule (self, pen, MARGIN_TOP + slice->low, strip.rule);
}

static void
draw_foot (WbLayout  *self,
           const Pen *pen,
           guint      page)
{
  const WbDocument *document = self->document;
  /* Translators: at the foot of a printed page: its number, and how many there are. */
  g_autofree char *place = g_strdup_printf (_("Page %u of %u"), page + 1, self->starts->len);
  g_autofree char *name = document->reference != NULL
                          ? g_strdup_printf ("%s · %s", document->reference, document->title)
                          : g_strdup (document->title);
  double y = self->page_height - FOOT_TEXT;
  g_autoptr (GArray) lines = NULL;

  draw_rule (self, pen, self->page_height - FOOT_RULE, 0.4);
  lines = wb_type_lines (self->type, WB_FACE_FOOT, name, self->width * 0.8);
  wb_type_draw (self->type, pen->cr, WB_FACE_FOOT, name, MARGIN_SIDE, y, self->width * 0.8, FALSE,
                -1, g_array_index (lines, WbLine, MIN (lines->len, 2) - 1).bottom);
  wb_type_draw (self->type, pen->cr, WB_FACE_FOOT, place, MARGIN_SIDE + self->width * 0.8, y,
                self->width * 0.2, TRUE, -1, G_MAXDOUBLE);
}

void
wb_layout_draw_page (WbLayout *self,
                     guint     page,
                     gboolean  tags,
                     cairo_t  *cr)
{
  const Pen pen = { cr, tags };
  const WbBlock *open = NULL;
  guint end_at;

  g_return_if_fail (self != NULL && cr != NULL);
  g_return_if_fail (page < self->starts->len);

  end_at = page + 1 < self->starts->len ? g_array_index (self->starts, guint, page + 1)
                                        : self->slices->len;
  for (guint i = g_array_index (self->starts, guint, page); i < end_at; i++)
    {
      const Slice *slice = &g_array_index (self->slices, Slice, i);
      const WbBlock *block = slice->block != TITLE ? self->blocks[slice->block].block : NULL;

      if (block != open)
        {
          end (&pen, outer_tag (open));
          begin (&pen, outer_tag (block));
          open = block;
        }
      draw_slice (self, &pen, slice);
    }
  end (&pen, outer_tag (open));
  draw_foot (self, &pen, page);
}
