/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-tags.h"

#define END G_MININT64

static WbJob *
add_lot (WbJob      *job,
         const char *id,
         gint64      first,
         gint64      last)
{
  g_autoptr (WbJob) before = job;
  g_autoptr (WbLot) lot = wb_record_new (WB_KIND_LOT, id);

  wb_set_text (&lot->colour, "green");
  lot->first = first;
  lot->last = last;
  return wb_job_with (before, lot);
}

/* One piece a tag, in the order given, up to END; WB_INTEGER_UNSET is END too, so untagged pieces
 * are added apart. */
static WbJob *
add_pieces (WbJob        *job,
            const char   *lot,
            const gint64 *tags)
{
  g_autoptr (WbJob) before = job;
  g_autoptr (GPtrArray) pieces = g_ptr_array_new_with_free_func (wb_record_unref);
  guint start = wb_job_count (job, WB_KIND_PIECE);

  for (guint i = 0; tags[i] != END; i++)
    {
      g_autofree char *id = g_strdup_printf ("p%u", start + i);
      WbPiece *piece = wb_record_new (WB_KIND_PIECE, id);

      wb_set_text (&piece->lot, lot);
      piece->tag = tags[i];
      g_ptr_array_add (pieces, piece);
    }
  return wb_job_with_many (before, pieces);
}

static char *
ranges_to_text (GArray *ranges)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < ranges->len; i++)
    {
      const WbTagRange *range = &g_array_index (ranges, WbTagRange, i);

      g_string_append_printf (text, "%s%" G_GINT64_FORMAT "-%" G_GINT64_FORMAT, i > 0 ? " " : "",
                              range->first, range->last);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static char *
repeats_to_text (GArray *repeats)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < repeats->len; i++)
    {
      const WbTagRepeat *repeat = &g_array_index (repeats, WbTagRepeat, i);

      g_string_append_printf (text, "%s%" G_GINT64_FORMAT "x%u", i > 0 ? " " : "", repeat->tag,
                              repeat->count);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static const struct
{
  const char *name;
  gint64      first;
  gint64      last;
  gint64      tags[12];
  gint64      highest;
  const char *missing;
  const char *repeats;
  const char *outside;
} cases[] = {
  { "whole",           1, 300, { 1, 2, 3, END },             3, "",             "",      "" },
  { "empty",           1, 300, { END },                    END, "",             "",      "" },
  { "hole",            1, 300, { 1, 2, 5, 4, END },          5, "3-3",          "",      "" },
  { "holes",         101, 300, { 104, 105, 109, END },     109, "101-103 106-108", "",   "" },
  { "start-unknown", END, END, { 7, 9, END },                9, "8-8",          "",      "" },
  { "twice",           1, 300, { 1, 2, 2, 3, END },          3, "",             "2x2",   "" },
  { "thrice",          1, 300, { 3, 1, 3, 2, 3, 1, END },    3, "",             "1x2 3x3", "" },
  { "off-the-roll",   10,  12, { 9, 10, 11, 12, 13, 14, END }, 14, "",          "",
    "9-9 13-14" },
  { "below-first",    10,  20, { 8, 11, END },              11, "9-10",         "",      "8-8" },
  { "repeat-outside", 10,  12, { 10, 13, 13, END },         13, "11-12",        "13x2",  "13-13" },
  { "zero",            0,  10, { 0, 1, END },                1, "",             "",      "" },
  { "absurd",          1, END, { 1, 999999, END },      999999, "2-999998",     "",      "" },
};

static void
test_case (gconstpointer data)
{
  guint index = GPOINTER_TO_UINT (data);
  g_autoptr (WbJob) job = add_pieces (add_lot (wb_job_new ("j", "USD"), "g", cases[index].first,
                                               cases[index].last),
                                      "g", cases[index].tags);
  g_autoptr (GPtrArray) sheets = wb_tags_check (job);
  const WbTagSheet *sheet;
  g_autofree char *missing = NULL;
  g_autofree char *repeats = NULL;
  g_autofree char *outside = NULL;

  g_assert_cmpuint (sheets->len, ==, 1);
  sheet = g_ptr_array_index (sheets, 0);
  missing = ranges_to_text (sheet->missing);
  repeats = repeats_to_text (sheet->repeats);
  outside = ranges_to_text (sheet->outside);

  g_assert_cmpstr (sheet->lot->record.id, ==, "g");
  g_assert_cmpuint (sheet->n_pieces, ==, wb_job_count (job, WB_KIND_PIECE));
  g_assert_cmpuint (sheet->n_untagged, ==, 0);
  g_assert_cmpint (sheet->highest, ==, cases[index].highest);
  g_assert_cmpstr (missing, ==, cases[index].missing);
  g_assert_cmpstr (repeats, ==, cases[index].repeats);
  g_assert_cmpstr (outside, ==, cases[index].outside);
  g_assert_cmpint (wb_tag_sheet_is_clean (sheet), ==, *missing == '\0' && *repeats == '\0'
                   && *outside == '\0');
}

/* Lots do not mix, and pieces without a lot or a tag are counted apart. */
static void
test_lots (void)
{
  const gint64 one[] = { 1, 2, 4, END };
  const gint64 two[] = { 1, 2, 3, END };
  const gint64 none[] = { 8, 8, 20, END };
  g_autoptr (WbPiece) bare = wb_record_new (WB_KIND_PIECE, "bare");
  g_autoptr (WbPiece) untagged = wb_record_new (WB_KIND_PIECE, "untagged");
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbJob) more = NULL;
  g_autoptr (WbJob) most = NULL;
  g_autoptr (GPtrArray) sheets = NULL;
  const WbTagSheet *sheet;

  job = add_lot (add_lot (wb_job_new ("j", "USD"), "a", 1, 10), "b", 1, 10);
  job = add_pieces (add_pieces (add_pieces (g_steal_pointer (&job), "b", one), NULL, none), "a",
                    two);
  more = wb_job_with (job, bare);
  wb_set_text (&untagged->lot, "b");
  most = wb_job_with (more, untagged);

  sheets = wb_tags_check (most);
  g_assert_cmpuint (sheets->len, ==, 3);

  sheet = g_ptr_array_index (sheets, 0);
  g_assert_cmpstr (sheet->lot->record.id, ==, "a");
  g_assert_true (wb_tag_sheet_is_clean (sheet));

  sheet = g_ptr_array_index (sheets, 1);
  g_assert_cmpuint (sheet->n_pieces, ==, 4);
  g_assert_cmpuint (sheet->n_untagged, ==, 1);
  g_assert_cmpuint (sheet->missing->len, ==, 1);
  g_assert_false (wb_tag_sheet_is_clean (sheet));

  sheet = g_ptr_array_index (sheets, 2);
  g_assert_null (sheet->lot);
  g_assert_cmpuint (sheet->n_pieces, ==, 4);
  g_assert_cmpuint (sheet->n_untagged, ==, 1);
  g_assert_cmpuint (sheet->missing->len, ==, 0);
  g_assert_cmpuint (sheet->repeats->len, ==, 1);
}

static void
test_next (void)
{
  const gint64 used[] = { 1, 2, 3, 6, 7, 10, END };
  const gint64 loose[] = { 1, END };
  g_autoptr (WbJob) job = add_pieces (add_lot (wb_job_new ("j", "USD"), "g", 1, 10), "g", used);
  g_autoptr (WbJob) open = NULL;

  g_assert_cmpint (wb_tags_next (job, "g", END), ==, 4);
  g_assert_cmpint (wb_tags_next (job, "g", 3), ==, 4);
  g_assert_cmpint (wb_tags_next (job, "g", 5), ==, 8);
  g_assert_cmpint (wb_tags_next (job, "g", 8), ==, 9);
  g_assert_cmpint (wb_tags_next (job, "g", 9), ==, END);
  g_assert_cmpint (wb_tags_next (job, "g", 10), ==, END);
  g_assert_cmpint (wb_tags_next (job, NULL, END), ==, 1);
  g_assert_cmpint (wb_tags_next (job, "no such lot", 41), ==, 42);

  open = add_lot (add_pieces (g_steal_pointer (&job), NULL, loose), "h", 500, END);
  g_assert_cmpint (wb_tags_next (open, NULL, END), ==, 2);
  g_assert_cmpint (wb_tags_next (open, "h", END), ==, 500);
  g_assert_cmpint (wb_tags_next (open, "h", 999), ==, 1000);
}

static void
test_count (void)
{
  const gint64 used[] = { 1, 2, 2, END };
  const gint64 loose[] = { 2, END };
  g_autoptr (WbJob) job = add_pieces (add_lot (wb_job_new ("j", "USD"), "g", 1, 10), "g", used);

  job = add_pieces (g_steal_pointer (&job), NULL, loose);
  g_assert_cmpuint (wb_tags_count (job, "g", 2, NULL), ==, 2);
  g_assert_cmpuint (wb_tags_count (job, "g", 2, "p1"), ==, 1);
  g_assert_cmpuint (wb_tags_count (job, "g", 9, NULL), ==, 0);
  g_assert_cmpuint (wb_tags_count (job, NULL, 2, NULL), ==, 1);
}

/* Whatever the tags, what is missing and what is used fill the span without a rest. */
static void
test_property (void)
{
  for (guint round = 0; round < 200; round++)
    {
      g_autoptr (WbJob) job = add_lot (wb_job_new ("j", "USD"), "g", 1, 60);
      gint64 tags[41];
      gboolean used[101] = { FALSE };
      guint n = (guint) g_test_rand_int_range (1, 40);
      gint64 highest = 0;
      g_autoptr (GPtrArray) sheets = NULL;
      const WbTagSheet *sheet;
      gint64 free_tag;

      for (guint i = 0; i < n; i++)
        {
          tags[i] = g_test_rand_int_range (1, 100);
          used[tags[i]] = TRUE;
          highest = MAX (highest, tags[i]);
        }
      tags[n] = END;
      job = add_pieces (g_steal_pointer (&job), "g", tags);

      sheets = wb_tags_check (job);
      sheet = g_ptr_array_index (sheets, 0);
      for (guint i = 0; i < sheet->missing->len; i++)
        {
          const WbTagRange *range = &g_array_index (sheet->missing, WbTagRange, i);

          for (gint64 tag = range->first; tag <= range->last; tag++)
            {
              g_assert_false (used[tag]);
              used[tag] = TRUE;
            }
        }
      for (gint64 tag = 1; tag <= highest; tag++)
        g_assert_true (used[tag]);
      g_assert_cmpint (sheet->highest, ==, highest);

      free_tag = wb_tags_next (job, "g", 0);
      if (free_tag != END)
        g_assert_cmpuint (wb_tags_count (job, "g", free_tag, NULL), ==, 0);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strconcat ("/core/tags/check/", cases[i].name, NULL);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_case);
    }
  g_test_add_func ("/core/tags/lots", test_lots);
  g_test_add_func ("/core/tags/next", test_next);
  g_test_add_func ("/core/tags/count", test_count);
  g_test_add_func ("/core/tags/property", test_property);
  return g_test_run ();
}
