/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a clerk types in one field, and what becomes of it. */
#include "config.h"

#include "core/wb-core.h"
#include "desk/inventory/wb-inventory-find.h"
#include "desk/inventory/wb-line-texts.h"
#include "desk/inventory/wb-line.h"

#include <glib.h>

static const struct
{
  const char   *name;
  WbLinePart    part;
  const char   *typed;
  WbWeightUnit  unit;
  const char   *shown;      /* NULL: cannot be read */
} readings[] = {
  { "tag", WB_LINE_TAG, " 17 ", WB_WEIGHT_UNIT_LB, "17" },
  { "tag-letter", WB_LINE_TAG, "17a", WB_WEIGHT_UNIT_LB, NULL },
  { "tag-too-large", WB_LINE_TAG, "1000000", WB_WEIGHT_UNIT_LB, NULL },
  { "tag-none", WB_LINE_TAG, "", WB_WEIGHT_UNIT_LB, "" },
  { "form-letter", WB_LINE_FORM, "l", WB_WEIGHT_UNIT_LB, "Loose piece" },
  { "form-carton", WB_LINE_FORM, "C", WB_WEIGHT_UNIT_LB, "Carton" },
  { "form-crate", WB_LINE_FORM, "cr", WB_WEIGHT_UNIT_LB, "Crate" },
  { "form-label", WB_LINE_FORM, "Loose piece", WB_WEIGHT_UNIT_LB, "Loose piece" },
  { "form-unknown", WB_LINE_FORM, "barrel", WB_WEIGHT_UNIT_LB, NULL },
  { "packed-carrier", WB_LINE_PACKED_BY, "cp", WB_WEIGHT_UNIT_LB, "CP" },
  { "packed-owner", WB_LINE_PACKED_BY, "PBO", WB_WEIGHT_UNIT_LB, "PBO" },
  { "packed-start", WB_LINE_PACKED_BY, "pb", WB_WEIGHT_UNIT_LB, "PBO" },
  { "packed-ambiguous", WB_LINE_PACKED_BY, "p", WB_WEIGHT_UNIT_LB, NULL },
  { "packed-none", WB_LINE_PACKED_BY, "", WB_WEIGHT_UNIT_LB, "" },
  { "marks", WB_LINE_MARKS, "sc4 8;w", WB_WEIGHT_UNIT_LB, "SC 4-8, W" },
  { "marks-unknown", WB_LINE_MARKS, "sc 4, qq", WB_WEIGHT_UNIT_LB, NULL },
  { "weight-bare-lb", WB_LINE_WEIGHT, "1,250", WB_WEIGHT_UNIT_LB, "1250 lb" },
  { "weight-bare-kg", WB_LINE_WEIGHT, "18.5", WB_WEIGHT_UNIT_KG, "18.50 kg" },
  { "weight-unit", WB_LINE_WEIGHT, "18.5 kg", WB_WEIGHT_UNIT_LB, "18.50 kg" },
  { "weight-word", WB_LINE_WEIGHT, "heavy", WB_WEIGHT_UNIT_LB, NULL },
  { "weight-negative", WB_LINE_WEIGHT, "-3", WB_WEIGHT_UNIT_LB, NULL },
  { "volume", WB_LINE_VOLUME, "3.1 cu ft", WB_WEIGHT_UNIT_LB, "3.10 cuft" },
  { "volume-bare", WB_LINE_VOLUME, "3.1", WB_WEIGHT_UNIT_LB, "3.10 cuft" },
  { "value", WB_LINE_LISTED_VALUE, "$1,250", WB_WEIGHT_UNIT_LB, "1250.00 USD" },
  { "value-other", WB_LINE_LISTED_VALUE, "1250 EUR", WB_WEIGHT_UNIT_LB, NULL },
  { "text", WB_LINE_DESCRIPTION, "  oak table ", WB_WEIGHT_UNIT_LB, "oak table" },
};

static void
test_read (gconstpointer data)
{
  guint index = GPOINTER_TO_UINT (data);
  g_autoptr (WbPiece) piece = wb_record_new (WB_KIND_PIECE, "p");
  g_autofree char *before = wb_line_show (piece, readings[index].part);
  g_autofree char *shown = NULL;
  g_autoptr (GError) error = NULL;
  gboolean good = wb_line_read (piece, readings[index].part, readings[index].typed, "USD",
                                readings[index].unit,
                                &error);

  shown = wb_line_show (piece, readings[index].part);
  if (readings[index].shown != NULL)
    {
      g_assert_no_error (error);
      g_assert_true (good);
      g_assert_cmpstr (shown, ==, readings[index].shown);
      return;
    }

  /* A sentence, and the value is as before. */
  g_assert_false (good);
  g_assert_cmpint (error->domain, ==, WB_CORE_ERROR);
  g_test_message ("%s", error->message);
  g_assert_true (g_str_has_suffix (error->message, "."));
  g_assert_cmpstr (shown, ==, before);
}

/* What is shown for editing reads as the same value. */
static void
test_round_trip (void)
{
  static const char *const typed[] = {
    "17", "Kitchen", "PBO", "R. Osei", "cr", "dish pack", "plates", "24 plates",
    "CH 3-10, MCU", "54.5 kg",
    "3.1 cuft", "bed, king", "SN-77", "1250", "2", "andirons",
    "owner", "2026-03-04", "L. Amadi", "on top",
  };
  g_autoptr (WbPiece) piece = wb_record_new (WB_KIND_PIECE, "p");
  g_autoptr (WbPiece) again = wb_record_new (WB_KIND_PIECE, "p");
  g_auto (GStrv) texts = NULL;
  char *errors[WB_LINE_N_PARTS];

  G_STATIC_ASSERT (G_N_ELEMENTS (typed) == WB_LINE_N_PARTS);
  for (int i = 0; i < WB_LINE_N_PARTS; i++)
    g_assert_true (wb_line_read (piece, (WbLinePart) i, typed[i], "USD", WB_WEIGHT_UNIT_LB, NULL));

  texts = wb_line_texts_of_piece (piece);
  g_assert_true (wb_line_texts_read (texts, NULL, again, "USD", WB_WEIGHT_UNIT_LB, errors));
  g_assert_true (wb_record_equal (piece, again));
}

static void
test_words (void)
{
  g_autoptr (WbPiece) piece = wb_record_new (WB_KIND_PIECE, "p");
  g_autofree char *marks = NULL;
  g_autofree char *packed = NULL;

  g_assert_true (wb_line_read (piece, WB_LINE_MARKS, "sc 4", "USD", WB_WEIGHT_UNIT_LB, NULL));
  g_assert_true (wb_line_read (piece, WB_LINE_PACKED_BY, "pbo", "USD", WB_WEIGHT_UNIT_LB, NULL));
  marks = wb_line_words (piece, WB_LINE_MARKS);
  packed = wb_line_words (piece, WB_LINE_PACKED_BY);
  g_assert_cmpstr (marks, ==, "scratched: front");
  g_assert_cmpstr (packed, ==, "Packed by owner");

  g_assert_cmpuint (wb_line_finished_marks ("sc 4, w"), ==, 6);
  g_assert_cmpuint (wb_line_finished_marks ("sc 4, "), ==, 6);
  g_assert_cmpuint (wb_line_finished_marks ("sc"), ==, 0);
}

static WbPiece *
make_piece (const char *id,
            const char *lot,
            gint64      tag,
            const char *room)
{
  WbPiece *piece = wb_record_new (WB_KIND_PIECE, id);

  wb_set_text (&piece->lot, lot);
  wb_set_text (&piece->room, room);
  wb_set_text (&piece->packer, "R. Osei");
  wb_set_text (&piece->description, "thing");
  piece->tag = tag;
  return piece;
}

static WbJob *
make_job (void)
{
  g_autoptr (WbJob) empty = wb_job_new ("j", "USD");
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  WbLot *lot = wb_record_new (WB_KIND_LOT, "a");
  WbLot *other = wb_record_new (WB_KIND_LOT, "b");

  wb_set_text (&lot->colour, "blue");
  wb_set_text (&lot->number, "204");
  lot->first = 1;
  lot->last = 3;
  wb_set_text (&other->colour, "red");
  wb_set_text (&other->number, "9");
  g_ptr_array_add (records, lot);
  g_ptr_array_add (records, other);
  g_ptr_array_add (records, make_piece ("p1", "a", 1, "Bedroom 1"));
  g_ptr_array_add (records, make_piece ("p2", "a", 2, "Bedroom 2"));
  g_ptr_array_add (records, make_piece ("p3", "a", 3, "Bedroom 2"));
  g_ptr_array_add (records, make_piece ("p4", "b", 3, "Bathroom"));
  return wb_job_with_many (empty, records);
}

/* The most used first; what stands there already is no suggestion. */
static void
test_suggest (void)
{
  g_autoptr (WbJob) job = make_job ();
  g_auto (GStrv) some = wb_line_suggest (job, WB_LINE_ROOM, "be", 5);
  g_auto (GStrv) one = wb_line_suggest (job, WB_LINE_ROOM, "BED", 1);
  g_auto (GStrv) whole = wb_line_suggest (job, WB_LINE_ROOM, "Bathroom", 5);
  g_auto (GStrv) none = wb_line_suggest (job, WB_LINE_ROOM, "x", 5);
  g_auto (GStrv) nothing = wb_line_suggest (job, WB_LINE_ROOM, "", 5);

  g_assert_cmpuint (g_strv_length (some), ==, 2);
  g_assert_cmpstr (some[0], ==, "Bedroom 2");
  g_assert_cmpstr (some[1], ==, "Bedroom 1");
  g_assert_cmpuint (g_strv_length (one), ==, 1);
  g_assert_null (whole);
  g_assert_null (none);
  g_assert_null (nothing);
}

static void
test_start (void)
{
  g_autoptr (WbJob) job = make_job ();
  const WbPiece *last = wb_line_find_last (job, NULL, TRUE);
  g_auto (GStrv) after_last = wb_line_texts_start (job, last, NULL);
  g_auto (GStrv) after_end = wb_line_texts_start (job, wb_job_find (job, WB_KIND_PIECE, "p3"),
                                                  NULL);
  g_auto (GStrv) first = NULL;
  g_autoptr (WbJob) empty = wb_job_new ("j", "USD");
  g_autofree char *end = NULL;

  g_assert_cmpstr (last->record.id, ==, "p4");
  g_assert_cmpstr (wb_line_texts_get_lot (after_last), ==, "b");
  g_assert_cmpstr (after_last[WB_LINE_TAG], ==, "4");
  g_assert_cmpstr (after_last[WB_LINE_ROOM], ==, "Bathroom");
  g_assert_cmpstr (after_last[WB_LINE_PACKER], ==, "R. Osei");
  g_assert_cmpstr (after_last[WB_LINE_DESCRIPTION], ==, "");
  g_assert_true (wb_line_texts_are_bare (after_last));

  g_assert_cmpstr (after_end[WB_LINE_TAG], ==, "");
  end = wb_line_find_end (job, "a", after_end[WB_LINE_TAG]);
  g_assert_cmpstr (end, ==, "Lot blue 204 ends with tag 3. Choose the next lot.");

  first = wb_line_texts_start (empty, NULL, NULL);
  g_assert_null (wb_line_texts_get_lot (first));
  g_assert_cmpstr (first[WB_LINE_TAG], ==, "1");
}

static void
test_oddity (void)
{
  static const struct
  {
    const char *lot;
    gint64      tag;
    const char *sentence;
  } cases[] = {
    { "a", WB_INTEGER_UNSET, "The line has no tag. Press Enter again to take it so." },
    { "a", 2, "Another line has this tag. Press Enter again to take it so." },
    { "a", 4, "Lot blue 204 (1–3) has no such tag. Press Enter again to take it so." },
    { "b", 2, NULL },
    { NULL, 2, NULL },
  };
  g_autoptr (WbJob) job = make_job ();

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (WbPiece) piece = make_piece ("new", cases[i].lot, cases[i].tag, NULL);
      g_autofree char *sentence = wb_line_find_oddity (job, piece);

      g_assert_cmpstr (sentence, ==, cases[i].sentence);
    }
}

/* A field that was not touched is not set, so that what came in meanwhile stays. */
static void
test_unless (void)
{
  g_autoptr (WbPiece) before = make_piece ("p", "a", 1, "Hall");
  g_autoptr (WbPiece) now = make_piece ("p", "a", 1, "Attic");
  g_auto (GStrv) base = wb_line_texts_of_piece (before);
  g_auto (GStrv) texts = wb_line_texts_of_piece (before);
  char *errors[WB_LINE_N_PARTS];

  wb_line_texts_set (texts, WB_LINE_WEIGHT, "12");
  g_assert_true (wb_line_texts_read (texts, base, now, "USD", WB_WEIGHT_UNIT_LB, errors));
  g_assert_cmpstr (now->room, ==, "Attic");
  g_assert_true (wb_weight_equal (now->weight, wb_weight (1200, WB_WEIGHT_UNIT_LB)));
}

static void
test_find (void)
{
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (WbTagScan) number = wb_tag_scan_parse ("3", NULL);
  g_autoptr (WbTagScan) joined = wb_tag_scan_parse ("9-3", NULL);
  g_autoptr (GPtrArray) any = wb_inventory_find_scan (job, number);
  g_autoptr (GPtrArray) numbered = wb_inventory_find_scan (job, joined);
  g_autoptr (GPtrArray) in_lot = wb_inventory_find_in_lot (job, "a", 3);
  g_autoptr (GPtrArray) none = wb_inventory_find_in_lot (job, NULL, 3);

  g_assert_cmpuint (any->len, ==, 2);
  g_assert_cmpstr (wb_inventory_find_next (any, NULL), ==, "p3");
  g_assert_cmpstr (wb_inventory_find_next (any, "p3"), ==, "p4");
  g_assert_cmpstr (wb_inventory_find_next (any, "p4"), ==, "p3");
  g_assert_cmpuint (numbered->len, ==, 1);
  g_assert_cmpstr (g_ptr_array_index (numbered, 0), ==, "p4");
  g_assert_cmpuint (in_lot->len, ==, 1);
  g_assert_cmpstr (g_ptr_array_index (in_lot, 0), ==, "p3");
  g_assert_cmpuint (none->len, ==, 0);
}

/* What may be somebody's quick typing is none, though it reads as a tag. */
static void
test_is_scan (void)
{
  static const struct
  {
    const char *text;
    gboolean    is_scan;
  } cases[] = {
    { "0042", TRUE },       { "42", FALSE },            { "130", FALSE },
    { "red-42", TRUE },     { "9-3", TRUE },            { "lot 9 tag 3", TRUE },
    { "plates 20", FALSE }, { "blue 3", TRUE },        { "tag 3", TRUE },
    { "{\"tag\":3}", TRUE }, { "wainbook:tag?tag=3", TRUE },
  };
  g_autoptr (WbJob) job = make_job ();

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (WbTagScan) scan = wb_tag_scan_parse (cases[i].text, NULL);

      g_test_message ("%s", cases[i].text);
      g_assert_nonnull (scan);
      g_assert_cmpint (wb_inventory_is_scan (job, scan, cases[i].text), ==, cases[i].is_scan);
    }
}

static void
test_miss (void)
{
  static const struct
  {
    const char *text;
    const char *sentence;
  } cases[] = {
    { "0099", "No line has the tag 99." },
    { "violet-3", "This job has no lot “violet”." },
    { "lot 9 tag 77", "No line has the tag 77 of lot 9." },
    { "wainbook:tag?job=2026-9999&tag=3", "Tag 3 belongs to job 2026-9999, not to this one." },
  };
  g_autoptr (WbJob) job = make_job ();

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (WbTagScan) scan = wb_tag_scan_parse (cases[i].text, NULL);
      g_autoptr (GPtrArray) found = wb_inventory_find_scan (job, scan);
      g_autofree char *sentence = wb_inventory_describe_miss (job, scan);

      g_assert_cmpuint (found->len, ==, 0);
      g_assert_cmpstr (sentence, ==, cases[i].sentence);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (readings); i++)
    {
      g_autofree char *path = g_strconcat ("/desk/line/read/", readings[i].name, NULL);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_read);
    }
  g_test_add_func ("/desk/line/round-trip", test_round_trip);
  g_test_add_func ("/desk/line/words", test_words);
  g_test_add_func ("/desk/line/suggest", test_suggest);
  g_test_add_func ("/desk/line/start", test_start);
  g_test_add_func ("/desk/line/oddity", test_oddity);
  g_test_add_func ("/desk/line/unless", test_unless);
  g_test_add_func ("/desk/line/is-scan", test_is_scan);
  g_test_add_func ("/desk/line/miss", test_miss);
  g_test_add_func ("/desk/line/find", test_find);
  return g_test_run ();
}
