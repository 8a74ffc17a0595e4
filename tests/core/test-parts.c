/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-parts.h"

static void
test_words (void)
{
  static const struct
  {
    const char *text;
    const char *name;
    gint64      part;
    gint64      of;
  } cases[] = {
    { "king bed, part 2 of 4", "king bed", 2, 4 },
    { "king bed, Part 2 of 4 ", "king bed", 2, 4 },
    { "king bed part 2", "king bed", 2, WB_INTEGER_UNSET },
    { "king bed (2/4)", "king bed", 2, 4 },
    { "king bed (part 1 of 2)", "king bed", 1, 2 },
    { "rail - 2 of 2", "rail", 2, 2 },
    { "part 3 of 3", "", 3, 3 },
    { "king bed", "king bed", WB_INTEGER_UNSET, WB_INTEGER_UNSET },
    { "table for 6", "table for 6", WB_INTEGER_UNSET, WB_INTEGER_UNSET },
    { "rampart 2", "rampart 2", WB_INTEGER_UNSET, WB_INTEGER_UNSET },
    { "part 0 of 4", "part 0 of 4", WB_INTEGER_UNSET, WB_INTEGER_UNSET },
    { "bed, part 2 of 5000", "bed, part 2 of 5000", WB_INTEGER_UNSET, WB_INTEGER_UNSET },
    { "bed 2/4)", "bed 2/4)", WB_INTEGER_UNSET, WB_INTEGER_UNSET },
    { "", "", WB_INTEGER_UNSET, WB_INTEGER_UNSET },
    { NULL, "", WB_INTEGER_UNSET, WB_INTEGER_UNSET },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      gint64 part, of;
      g_autofree char *name = wb_part_parse (cases[i].text, &part, &of);

      g_test_message ("%s", cases[i].text != NULL ? cases[i].text : "NULL");
      g_assert_cmpstr (name, ==, cases[i].name);
      g_assert_cmpint (part, ==, cases[i].part);
      g_assert_cmpint (of, ==, cases[i].of);
    }
}

static void
test_round_trip (void)
{
  for (guint i = 0; i < 1000; i++)
    {
      gint64 part = g_test_rand_int_range (1, 1000);
      gint64 of = g_test_rand_bit () ? g_test_rand_int_range (1, 1000) : WB_INTEGER_UNSET;
      g_autofree char *text = wb_part_to_text ("oak bed, large", part, of);
      gint64 part_read, of_read;
      g_autofree char *name = wb_part_parse (text, &part_read, &of_read);

      g_assert_cmpstr (name, ==, "oak bed, large");
      g_assert_cmpint (part_read, ==, part);
      g_assert_cmpint (of_read, ==, of);
    }
}

/* Pieces "p0", "p1" …: description, article, set; up to a NULL description. */
typedef struct
{
  const char *description;
  const char *article;
  const char *set;
  gint64      quantity;
} Line;

static WbJob *
make_job (const Line *lines)
{
  g_autoptr (WbJob) empty = wb_job_new ("job", "USD");
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);

  for (guint i = 0; lines[i].description != NULL; i++)
    {
      g_autofree char *id = g_strdup_printf ("p%u", i);
      WbPiece *piece = wb_record_new (WB_KIND_PIECE, id);

      wb_set_text (&piece->description, lines[i].description);
      wb_set_text (&piece->article, lines[i].article);
      wb_set_text (&piece->set, lines[i].set);
      piece->quantity = lines[i].quantity > 0 ? lines[i].quantity : WB_INTEGER_UNSET;
      g_ptr_array_add (records, piece);
    }
  return wb_job_with_many (empty, records);
}

static void
test_groups (void)
{
  static const Line lines[] = {
    { "king bed, part 1 of 3", "bed" },
    { "king bed, part 3 of 3", "bed" },
    { "crib", "crib" },
    { "desk, part 1 of 2", "desk" },
    { "desk, part 2 of 3", "desk" },
    { "desk, part 2 of 3", "desk" },
    { "shelf, part 1 of 2", "shelf" },
    { "shelf boards", "shelf" },
    { "shelf, part 2 of 2", "shelf" },
    { "table top", "table" },
    { "table legs", "table" },
    { "lamp", NULL, "lamps" },
    { "lamp", NULL, "lamps" },
    { "andirons", NULL, "andirons", 2 },
    { "candlestick", NULL, "candlesticks" },
    { NULL },
  };
  static const struct
  {
    const char *name;
    guint       n;
    guint       faults;
    guint       n_missing;
  } expected[] = {
    { "bed", 2, WB_GROUP_MISSING, 1 },
    { "crib", 1, WB_GROUP_ALONE, 0 },
    { "desk", 3, WB_GROUP_MISSING | WB_GROUP_REPEATED | WB_GROUP_DISAGREE, 1 },
    { "shelf", 3, WB_GROUP_UNNUMBERED, 0 },
    { "table", 2, WB_GROUP_GOOD, 0 },
    { "lamps", 2, WB_GROUP_GOOD, 0 },
    { "andirons", 1, WB_GROUP_GOOD, 0 },
    { "candlesticks", 1, WB_GROUP_ALONE, 0 },
  };
  g_autoptr (WbJob) job = make_job (lines);
  g_autoptr (GPtrArray) groups = wb_groups_find (job);

  g_assert_cmpuint (groups->len, ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < groups->len; i++)
    {
      const WbGroup *group = g_ptr_array_index (groups, i);

      g_test_message ("%s", expected[i].name);
      g_assert_cmpstr (group->name, ==, expected[i].name);
      g_assert_cmpint (group->is_set, ==, i >= 5);
      g_assert_cmpuint (group->pieces->len, ==, expected[i].n);
      g_assert_cmpuint (group->faults, ==, expected[i].faults);
      g_assert_cmpuint (group->missing->len, ==, expected[i].n_missing);
    }
  {
    const WbGroup *bed = g_ptr_array_index (groups, 0);

    g_assert_cmpint (g_array_index (bed->missing, gint64, 0), ==, 2);
  }
}

static void
assert_numbered (const Line         *lines,
                 const char         *article,
                 const char *const  *expected)
{
  g_autoptr (WbJob) job = make_job (lines);
  g_autoptr (GPtrArray) changed = wb_parts_number (job, article);
  g_autoptr (WbJob) numbered = wb_job_with_many (job, changed);
  g_autoptr (GPtrArray) again = wb_parts_number (numbered, article);

  for (guint i = 0; expected[i] != NULL; i++)
    g_assert_cmpstr (((const WbPiece *) wb_job_nth (numbered, WB_KIND_PIECE, i))->description, ==,
                     expected[i]);
  g_assert_cmpuint (again->len, ==, 0);
}

static void
test_number (void)
{
  static const Line plain[] = { { "bed", "bed" }, { "bed", "bed" }, { "sofa", NULL }, { NULL } };
  static const char *const plain_numbered[] = { "bed, part 1 of 2", "bed, part 2 of 2", "sofa",
                                                NULL };
  static const Line grown[] = { { "bed, part 1 of 2", "bed" }, { "bed, part 2 of 2", "bed" },
                                { "bed slats", "bed" }, { NULL } };
  static const char *const grown_numbered[] = { "bed, part 1 of 3", "bed, part 2 of 3",
                                                "bed slats, part 3 of 3", NULL };
  static const Line promised[] = { { "bed, part 1 of 4", "bed" }, { "bed, part 3", "bed" },
                                   { "bed", "bed" }, { NULL } };
  static const char *const promised_numbered[] = { "bed, part 1 of 4", "bed, part 3 of 4",
                                                   "bed, part 2 of 4", NULL };
  static const Line twice[] = { { "bed, part 2 of 2", "bed" }, { "bed, part 2 of 2", "bed" },
                                { NULL } };
  static const char *const twice_numbered[] = { "bed, part 1 of 2", "bed, part 2 of 2", NULL };

  assert_numbered (plain, "bed", plain_numbered);
  assert_numbered (grown, "bed", grown_numbered);
  assert_numbered (promised, "bed", promised_numbered);
  assert_numbered (twice, "bed", twice_numbered);
}

static void
test_name (void)
{
  static const Line lines[] = { { "bed, part 1 of 2", "bed" }, { "bed, part 2 of 2", "bed" },
                                { "bed" }, { "part 1 of 2" }, { NULL } };
  g_autoptr (WbJob) job = make_job (lines);
  g_autofree char *second = wb_parts_name (job, wb_job_nth (job, WB_KIND_PIECE, 2));
  g_autofree char *bare = wb_parts_name (job, wb_job_nth (job, WB_KIND_PIECE, 3));

  g_assert_cmpstr (second, ==, "bed 2");
  g_assert_cmpstr (bare, ==, "article");
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/core/parts/words", test_words);
  g_test_add_func ("/core/parts/round-trip", test_round_trip);
  g_test_add_func ("/core/parts/groups", test_groups);
  g_test_add_func ("/core/parts/number", test_number);
  g_test_add_func ("/core/parts/name", test_name);
  return g_test_run ();
}
