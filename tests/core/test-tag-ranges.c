/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-tag-ranges.h"

#include <string.h>

#include "core/wb-core.h"
#include "random-values.h"

/* --- what people write ------------------------------------------------------------------------ */

static const struct
{
  const char *text;
  const char *canonical;
} good[] = {
  { "", "" },
  { " ,; ", "" },
  { "7", "7" },
  { "007", "7" },
  { "1-40, 42, 57", "1-40, 42, 57" },
  { "42 57\t1-40", "1-40, 42, 57" },
  { "1 - 40;42\n57\r\n", "1-40, 42, 57" },
  { "1–40, 42 — 43", "1-40, 42-43" },
  { "1\xe2\x88\x92" "3", "1-3" },
  { "1\xc2\xa0-\xc2\xa0" "3", "1-3" },
  { "1 to 3 and 5", "1-3, 5" },
  { "1TO3AND5", "1-3, 5" },
  { "3&4", "3-4" },
  { "1, 2, 3, 2, 1", "1-3" },
  { "5-5", "5" },
  { "10-20, 5-12, 21", "5-21" },
  { "999999", "999999" },
  { "1-999999", "1-999999" },
  { "000000000000000000000042", "42" },
};

static void
test_good (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (good); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GArray) ranges = wb_tag_ranges_parse (good[i].text, &error);
      g_autofree char *text = NULL;

      g_assert_no_error (error);
      text = wb_tag_ranges_to_text (ranges);
      g_assert_cmpstr (text, ==, good[i].canonical);
    }
}

static const struct
{
  const char *text;
  int         code;
  const char *message;
} bad[] = {
  { "9-3", WB_CORE_ERROR_RANGE,
    "At character 1, the range goes down from 9 to 3; write 3-9" },
  { "1, 40-39", WB_CORE_ERROR_RANGE,
    "At character 4, the range goes down from 40 to 39; write 39-40" },
  { "0", WB_CORE_ERROR_RANGE, "At character 1, 0 is no tag number; tags begin at 1" },
  { "1, 000", WB_CORE_ERROR_RANGE, "At character 4, 0 is no tag number; tags begin at 1" },
  { "0-5", WB_CORE_ERROR_RANGE, "At character 1, 0 is no tag number; tags begin at 1" },
  { "1000000", WB_CORE_ERROR_RANGE,
    "At character 1, “1000000” is too large for a tag number; they end at 999999" },
  { "1-99999999999999999999999999", WB_CORE_ERROR_RANGE,
    "At character 3, “99999999999999999999999999” is too large for a tag number; they end at "
    "999999" },
  { "4, x", WB_CORE_ERROR_PARSE, "At character 4, “x” is not a tag number" },
  { "–, x", WB_CORE_ERROR_PARSE,
    "At character 1, a number is missing before the dash; write a range as “1-40”" },
  { "blue 4", WB_CORE_ERROR_PARSE, "At character 1, “blue” is not a tag number" },
  { "42b", WB_CORE_ERROR_PARSE,
    "At character 3, “b” does not belong behind a tag number; write a blank between them" },
  { "5-", WB_CORE_ERROR_PARSE,
    "At character 3, a number is missing; write where the range from 5 ends, as in “5-14”" },
  { "5--7", WB_CORE_ERROR_PARSE,
    "At character 3, a number is missing; write where the range from 5 ends, as in “5-14”" },
  { "5\n-7", WB_CORE_ERROR_PARSE,
    "At character 3, a number is missing before the dash; write a range as “1-40”" },
  { "1-3-5", WB_CORE_ERROR_PARSE,
    "At character 4, a range has two ends only; write a comma before the next number" },
  { "4.5", WB_CORE_ERROR_PARSE,
    "At character 2, “.” does not belong in a list of tags; write it as “1-40, 42, 57”" },
  { "\xff", WB_CORE_ERROR_PARSE, "At character 1, this is no letter and no digit" },
};

static void
test_bad (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GArray) ranges = wb_tag_ranges_parse (bad[i].text, &error);

      g_assert_null (ranges);
      g_assert_error (error, WB_CORE_ERROR, bad[i].code);
      g_assert_cmpstr (error->message, ==, bad[i].message);
    }
}

static void
test_absurd_length (void)
{
  g_autofree char *longest = g_strnfill (WB_TAG_TEXT_MAX_BYTES, ' ');
  g_autofree char *longer = g_strnfill (WB_TAG_TEXT_MAX_BYTES + 1, '7');
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) none = wb_tag_ranges_parse (longest, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (none->len, ==, 0);
  g_assert_null (wb_tag_ranges_parse (longer, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE);
}

/* --- lots ------------------------------------------------------------------------------------- */

static char *
items_to_text (GPtrArray *items)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < items->len; i++)
    {
      const WbTagItem *item = g_ptr_array_index (items, i);

      g_string_append_printf (text, "%s%s:%" G_GINT64_FORMAT, i > 0 ? " | " : "",
                              item->lot != NULL ? item->lot : "", item->first);
      if (item->range)
        g_string_append_printf (text, "-%" G_GINT64_FORMAT, item->last);
    }
  return g_string_free (text, FALSE);
}

static const struct
{
  const char *text;
  const char *items;
} with_lots[] = {
  { "blue 1-40; red 7", "blue:1-40 | red:7" },
  { "blue1-40,42 red7", "blue:1-40 | blue:42 | red:7" },
  { "blue 1; 2", "blue:1 | :2" },
  { "blue 1\n2", "blue:1 | :2" },
  { "blue: 1 and 2", "blue:1 | blue:2" },
  { "Light  Blue 1", "Light  Blue:1" },
  { "blue/204 7, 8", "blue/204:7 | blue/204:8" },
  { "blue/A-12 7", "blue/A-12:7" },
  { "3107-017", ":3107-17" },
  { "tomato 4", "tomato:4" },
};

static void
test_lots (void)
{
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (with_lots); i++)
    {
      g_autoptr (GPtrArray) items = wb_tag_items_parse (with_lots[i].text, TRUE, &error);
      g_autofree char *text = NULL;

      g_assert_no_error (error);
      text = items_to_text (items);
      g_assert_cmpstr (text, ==, with_lots[i].items);
    }

  g_assert_null (wb_tag_items_parse ("1, blue", TRUE, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE);
  g_assert_cmpstr (error->message, ==, "At character 4, no tag number stands behind “blue”");
}

/* --- against a plain bitmap ------------------------------------------------------------------- */

#define SPAN 200

typedef struct
{
  gboolean has[SPAN + 2];
} Bitmap;

static Bitmap
to_bitmap (const GArray *ranges)
{
  Bitmap bitmap = { { FALSE } };
  gint64 before = -1;

  for (guint i = 0; i < ranges->len; i++)
    {
      const WbTagRange *range = &g_array_index (ranges, WbTagRange, i);

      /* Ascending and apart. */
      g_assert_cmpint (range->first, >, before + 1);
      g_assert_cmpint (range->last, >=, range->first);
      before = range->last;
      for (gint64 tag = range->first; tag <= range->last; tag++)
        bitmap.has[tag] = TRUE;
    }
  return bitmap;
}

/* Writes a random list and the numbers in it, each by a way of its own. */
static char *
random_list (Bitmap *bitmap)
{
  static const char *const separators[] = { ", ", ",", " ", "; ", "\n", " and ", " & ", " ,, " };
  static const char *const dashes[] = { "-", " - ", "–", " to " };
  GString *text = g_string_new (NULL);

  memset (bitmap, 0, sizeof *bitmap);
  for (gint n = g_test_rand_int_range (0, 30); n > 0; n--)
    {
      gint first = g_test_rand_int_range (1, SPAN + 1);
      gint length = g_test_rand_int_range (-20, 20);
      gint last = MIN (SPAN, first + MAX (0, length));

      if (text->len > 0)
        g_string_append (text, separators[g_test_rand_int_range (0, G_N_ELEMENTS (separators))]);
      g_string_append_printf (text, "%0*d", g_test_rand_int_range (1, 5), first);
      if (last > first || g_test_rand_bit ())
        g_string_append_printf (text, "%s%d",
                                dashes[g_test_rand_int_range (0, G_N_ELEMENTS (dashes))], last);
      for (gint tag = first; tag <= last; tag++)
        bitmap->has[tag] = TRUE;
    }
  return g_string_free (text, FALSE);
}

static void
test_properties (void)
{
  random_begin ();
  for (guint round = 0; round < 2000; round++)
    {
      Bitmap a, b, got, merged, rest, both;
      g_autofree char *text_a = random_list (&a);
      g_autofree char *text_b = random_list (&b);
      g_autoptr (GError) error = NULL;
      g_autoptr (GArray) ranges_a = wb_tag_ranges_parse (text_a, &error);
      g_autoptr (GArray) ranges_b = wb_tag_ranges_parse (text_b, &error);
      g_autoptr (GArray) sum = NULL;
      g_autoptr (GArray) difference = NULL;
      g_autoptr (GArray) common = NULL;
      g_autoptr (GArray) again = NULL;
      g_autofree char *canonical = NULL;
      g_autofree char *canonical_again = NULL;
      gint64 count = 0;

      g_assert_no_error (error);
      got = to_bitmap (ranges_a);
      g_assert_cmpmem (&got, sizeof got, &a, sizeof a);

      sum = wb_tag_ranges_merge (ranges_a, ranges_b);
      difference = wb_tag_ranges_subtract (ranges_a, ranges_b);
      common = wb_tag_ranges_intersect (ranges_a, ranges_b);
      merged = to_bitmap (sum);
      rest = to_bitmap (difference);
      both = to_bitmap (common);
      for (gint tag = 0; tag <= SPAN + 1; tag++)
        {
          g_assert_cmpint (merged.has[tag], ==, a.has[tag] || b.has[tag]);
          g_assert_cmpint (rest.has[tag], ==, a.has[tag] && !b.has[tag]);
          g_assert_cmpint (both.has[tag], ==, a.has[tag] && b.has[tag]);
          g_assert_cmpint (wb_tag_ranges_contain (ranges_a, tag), ==, a.has[tag]);
          count += a.has[tag];
        }
      g_assert_cmpint (wb_tag_ranges_count (ranges_a), ==, count);

      canonical = wb_tag_ranges_to_text (ranges_a);
      again = wb_tag_ranges_parse (canonical, &error);
      g_assert_no_error (error);
      canonical_again = wb_tag_ranges_to_text (again);
      g_assert_cmpstr (canonical_again, ==, canonical);
    }
}

/* Whatever is typed, it is taken or refused with a sentence, and what is taken can be written. */
static void
test_rubbish (void)
{
  static const char *const pieces[] = {
    "1", "9", "40", "0", "999999", "1000000", "-", "–", " ", ",", ";", "\n", "to", "and", "x", "é",
    "blue", "/", ":", "&", "#", "\xff", "\xe2\x80", "\t", NULL
  };

  random_begin ();
  for (guint round = 0; round < 20000; round++)
    {
      g_autofree char *text = random_text (pieces, 12);
      g_autoptr (GError) error = NULL;
      g_autoptr (GArray) ranges = wb_tag_ranges_parse (text, &error);
      g_autoptr (GError) lots_error = NULL;
      g_autoptr (GPtrArray) items = wb_tag_items_parse (text, TRUE, &lots_error);

      g_assert_true ((ranges != NULL) == (error == NULL));
      g_assert_true ((items != NULL) == (lots_error == NULL));
      if (error != NULL)
        g_assert_true (g_utf8_validate (error->message, -1, NULL));
      if (ranges != NULL)
        {
          g_autofree char *canonical = wb_tag_ranges_to_text (ranges);
          g_autoptr (GArray) again = wb_tag_ranges_parse (canonical, NULL);

          g_assert_cmpmem (again->data, again->len * sizeof (WbTagRange),
                           ranges->data, ranges->len * sizeof (WbTagRange));
        }
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/tag-ranges/good", test_good);
  g_test_add_func ("/core/tag-ranges/bad", test_bad);
  g_test_add_func ("/core/tag-ranges/absurd-length", test_absurd_length);
  g_test_add_func ("/core/tag-ranges/lots", test_lots);
  g_test_add_func ("/core/tag-ranges/properties", test_properties);
  g_test_add_func ("/core/tag-ranges/rubbish", test_rubbish);
  return g_test_run ();
}
