/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads the tag numbers of a job lot by lot and finds holes, repeats and strays. Changes nothing
 * and judges nothing: a hole may be a tag that tore. */
#include "config.h"

#include "core/wb-tags.h"

static gint
compare_tags (gconstpointer a,
              gconstpointer b)
{
  const gint64 x = *(const gint64 *) a;
  const gint64 y = *(const gint64 *) b;

  return (x > y) - (x < y);
}

/* The tag numbers of one lot, ascending, repeats kept. */
static GArray *
collect_tags (const WbJob *job,
              const char  *lot,
              guint       *n_pieces)
{
  GArray *tags = g_array_new (FALSE, FALSE, sizeof (gint64));
  guint n = wb_job_count (job, WB_KIND_PIECE);

  *n_pieces = 0;
  for (guint i = 0; i < n; i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);

      if (g_strcmp0 (piece->lot, lot) != 0)
        continue;
      *n_pieces += 1;
      if (piece->tag != WB_INTEGER_UNSET)
        g_array_append_val (tags, piece->tag);
    }
  g_array_sort (tags, compare_tags);
  return tags;
}

/* Appends @first … @last to ranges that ascend, joining what touches. */
static void
append_range (GArray *ranges,
              gint64  first,
              gint64  last)
{
  if (ranges->len > 0)
    {
      WbTagRange *before = &g_array_index (ranges, WbTagRange, ranges->len - 1);

      if (first <= before->last || first - before->last == 1)
        {
          before->last = MAX (before->last, last);
          return;
        }
    }
  g_array_append_vals (ranges, &(WbTagRange) { first, last }, 1);
}

static gboolean
is_on_roll (const WbLot *lot,
            gint64       tag)
{
  return (lot->first == WB_INTEGER_UNSET || tag >= lot->first)
         && (lot->last == WB_INTEGER_UNSET || tag <= lot->last);
}

static void
find_missing (WbTagSheet   *sheet,
              const GArray *tags)
{
  gint64 expected;

  if (tags->len == 0)
    return;

  expected = g_array_index (tags, gint64, 0);
  if (sheet->lot->first != WB_INTEGER_UNSET)
    expected = MIN (expected, sheet->lot->first);

  for (guint i = 0; i < tags->len; i++)
    {
      gint64 tag = g_array_index (tags, gint64, i);

      if (tag > expected)
        append_range (sheet->missing, expected, tag - 1);
      expected = MAX (expected, tag + 1);
    }
}

static void
find_outside (WbTagSheet   *sheet,
              const GArray *tags)
{
  for (guint i = 0; i < tags->len; i++)
    {
      gint64 tag = g_array_index (tags, gint64, i);

      if (!is_on_roll (sheet->lot, tag))
        append_range (sheet->outside, tag, tag);
    }
}

static void
find_repeats (WbTagSheet   *sheet,
              const GArray *tags)
{
  guint start = 0;

  for (guint i = 1; i <= tags->len; i++)
    {
      gint64 tag = g_array_index (tags, gint64, start);

      if (i < tags->len && g_array_index (tags, gint64, i) == tag)
        continue;
      if (i - start > 1)
        g_array_append_vals (sheet->repeats, &(WbTagRepeat) { tag, i - start }, 1);
      start = i;
    }
}

static WbTagSheet *
make_sheet (const WbJob *job,
            const WbLot *lot)
{
  WbTagSheet *sheet = g_new0 (WbTagSheet, 1);
  g_autoptr (GArray) tags = collect_tags (job, lot != NULL ? lot->record.id : NULL,
                                          &sheet->n_pieces);

  sheet->lot = lot;
  sheet->n_untagged = sheet->n_pieces - tags->len;
  sheet->highest = tags->len > 0 ? g_array_index (tags, gint64, tags->len - 1) : WB_INTEGER_UNSET;
  sheet->missing = g_array_new (FALSE, FALSE, sizeof (WbTagRange));
  sheet->repeats = g_array_new (FALSE, FALSE, sizeof (WbTagRepeat));
  sheet->outside = g_array_new (FALSE, FALSE, sizeof (WbTagRange));

  if (lot != NULL)
    {
      find_missing (sheet, tags);
      find_outside (sheet, tags);
    }
  find_repeats (sheet, tags);
  return sheet;
}

void
wb_tag_sheet_free (WbTagSheet *self)
{
  g_array_unref (self->missing);
  g_array_unref (self->repeats);
  g_array_unref (self->outside);
  g_free (self);
}

gboolean
wb_tag_sheet_is_clean (const WbTagSheet *self)
{
  return self->n_untagged == 0 && self->missing->len == 0 && self->repeats->len == 0
         && self->outside->len == 0;
}

GPtrArray *
wb_tags_check (const WbJob *job)
{
  GPtrArray *sheets = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_tag_sheet_free);
  guint n_lots = wb_job_count (job, WB_KIND_LOT);
  g_autoptr (WbTagSheet) loose = NULL;

  for (guint i = 0; i < n_lots; i++)
    g_ptr_array_add (sheets, make_sheet (job, wb_job_nth (job, WB_KIND_LOT, i)));

  loose = make_sheet (job, NULL);
  if (loose->n_pieces > 0)
    g_ptr_array_add (sheets, g_steal_pointer (&loose));

  return sheets;
}

gint64
wb_tags_next (const WbJob *job,
              const char  *lot,
              gint64       after)
{
  const WbLot *roll = wb_job_find (job, WB_KIND_LOT, lot);
  guint n_pieces;
  g_autoptr (GArray) tags = collect_tags (job, lot, &n_pieces);
  gint64 next;

  if (after != WB_INTEGER_UNSET)
    next = after + 1;
  else if (roll != NULL && roll->first != WB_INTEGER_UNSET)
    next = roll->first;
  else
    next = 1;

  for (guint i = 0; i < tags->len; i++)
    {
      gint64 tag = g_array_index (tags, gint64, i);

      if (tag == next)
        next++;
      else if (tag > next)
        break;
    }

  if (roll != NULL && roll->last != WB_INTEGER_UNSET && next > roll->last)
    return WB_INTEGER_UNSET;
  return next;
}

guint
wb_tags_count (const WbJob *job,
               const char  *lot,
               gint64       tag,
               const char  *except)
{
  guint n = wb_job_count (job, WB_KIND_PIECE);
  guint count = 0;

  for (guint i = 0; i < n; i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);

      if (piece->tag == tag && g_strcmp0 (piece->lot, lot) == 0
          && (except == NULL || !g_str_equal (piece->record.id, except)))
        count++;
    }
  return count;
}
