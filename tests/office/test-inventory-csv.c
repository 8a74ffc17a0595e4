/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-things.h"
#include "office/wb-inventory-csv.h"
#include "office/wb-things-cell.h"

#include "random-job.h"

#include <glib/gstdio.h>
#include <string.h>

static GBytes *
bytes_of (const char *text)
{
  return g_bytes_new (text, strlen (text));
}

static WbImportReport *
import_text (WbJob        *job,
             const char   *text,
             WbImportMode  mode)
{
  g_autoptr (GBytes) bytes = bytes_of (text);
  g_autoptr (GError) error = NULL;
  WbImportReport *report = wb_inventory_csv_import (job, bytes, mode, &error);

  g_assert_no_error (error);
  return report;
}

static const WbPiece *
piece_at (const WbImportReport *report,
          guint                 index)
{
  g_assert_nonnull (report->job);
  return wb_job_nth (report->job, WB_KIND_PIECE, index);
}

/* All faults as "ROW:LINE COLUMN: MESSAGE", one a line. */
static char *
faults_of (const WbImportReport *report)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < report->faults->len; i++)
    {
      const WbImportFault *fault = g_ptr_array_index (report->faults, i);

      g_string_append_printf (text, "%u:%u %s: %s\n", fault->row, fault->line,
                              fault->column != NULL ? fault->column : "-", fault->message);
    }

  return g_string_free (text, FALSE);
}

static WbJob *
empty_job (void)
{
  g_autoptr (WbJob) job = wb_job_new ("a", "USD");
  g_autoptr (WbOrder) order = wb_record_copy (wb_job_order (job));

  wb_set_text (&order->number, "J-1");
  return wb_job_with (job, order);
}

static void
test_plain (void)
{
  g_autoptr (WbJob) job = empty_job ();
  g_autoptr (WbImportReport) report = import_text (job,
    "Tag No.,Lot,Colour,Description,Contents,Room,CP/PBO,Exceptions,Weight,Cube,Carton "
    "type,Serial no.,Listed value,Packer,Van\r\n"
    "1,204,blue,Carton,\"Books, maps\",Study,CP,,45,3,3.0 cuft,,,R. Adeyemi,7\r\n"
    "2,204,blue,Sofa,,Living room,,\"SC 4-8, CH 3 10\",120.5,55 cuft,,,,,7\r\n"
    "1,205,green,Guitar,,Study,pbo,,8 kg,,,GX-4411,\"$1,250.00\",,7\r\n",
    WB_IMPORT_ALL_OR_NONE);
  g_autofree char *faults = faults_of (report);
  g_autofree char *weight = NULL;
  const WbPiece *piece;

  g_assert_cmpstr (faults, ==, "");
  g_assert_cmpuint (report->n_rows, ==, 3);
  g_assert_cmpuint (report->n_taken, ==, 3);
  g_assert_cmpstr (report->encoding, ==, "UTF-8");
  g_assert_cmpuint (report->ignored->len, ==, 1);
  g_assert_cmpstr (g_ptr_array_index (report->ignored, 0), ==, "Van");
  g_assert_cmpuint (wb_job_count (report->job, WB_KIND_LOT), ==, 2);

  piece = piece_at (report, 0);
  g_assert_cmpint (piece->tag, ==, 1);
  g_assert_cmpint (piece->packed_by, ==, WB_PACKED_BY_CARRIER);
  g_assert_cmpstr (piece->contents, ==, "Books, maps");
  g_assert_cmpstr (piece->carton, ==, "3.0 cuft");
  g_assert_cmpstr (piece->packer, ==, "R. Adeyemi");
  weight = wb_weight_to_text (piece->weight);
  g_assert_cmpstr (weight, ==, "45 lb");

  piece = piece_at (report, 1);
  g_assert_cmpstr (piece->marks, ==, "SC 4-8, CH 3-10");
  g_assert_cmpint (piece->packed_by, ==, WB_PACKED_UNKNOWN);
  g_assert_cmpstr (piece->lot, ==, piece_at (report, 0)->lot);

  piece = piece_at (report, 2);
  g_assert_cmpint (piece->packed_by, ==, WB_PACKED_BY_OWNER);
  g_assert_cmpint (piece->weight.unit, ==, WB_WEIGHT_UNIT_KG);
  g_assert_cmpint (piece->listed_value.minor, ==, 125000);
  g_assert_cmpstr (piece->serial_number, ==, "GX-4411");
  g_assert_cmpstr (((const WbLot *) wb_job_find (report->job, WB_KIND_LOT, piece->lot))->colour, ==,
                   "green");
}

/* The order of the columns does not matter, nor how a heading is written. */
static void
test_headings (void)
{
  static const struct
  {
    const char *heading;
    const char *cell;
    const char *field;
    const char *text;
  } cases[] = {
    { "tag", "7", "tag", "7" },
    { "TAG #", "7", "tag", "7" },
    { "Tag_Number", "7", "tag", "7" },
    { "Item No.", "7", "tag", "7" },
    { "  number ", "7", "tag", "7" },
    { "No", "7", "tag", "7" },
    { "Description", "x", "description", "x" },
    { "ITEM", "x", "description", "x" },
    { "Article", "x", "description", "x" },
    { "Contents", "x", "contents", "x" },
    { "Room", "x", "room", "x" },
    { "Packed by", "owner", "packed_by", "PBO" },
    { "C.P./P.B.O.", "Carrier packed", "packed_by", "CP" },
    { "packed_by", "unknown", "packed_by", "unknown" },
    { "Condition", "mcu", "marks", "MCU" },
    { "Condition at origin", "SC 1", "marks", "SC 1" },
    { "Marks", "SC 1", "marks", "SC 1" },
    { "Weight (lbs)", "1,200", "weight", "1200 lb" },
    { "Weight in kg", "12", "weight", "12 kg" },
    { "Weight kg", "12 lb", "weight", "12 lb" },
    { "Cube", "3.1", "volume", "3.10 cuft" },
    { "Volume m3", "2", "volume", "2 m3" },
    { "Carton or piece", "Ctn", "form", "carton" },
    { "form", "Loose piece", "form", "loose" },
    { "Declared value", "12", "listed_value", "12.00 USD" },
    { "Part of article", "bed", "article", "bed" },
    { "Remarks", "x", "notes", "x" },
    { "S e r i a l  N o", "x", "serial_number", "x" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const WbField *field = wb_record_type_field (wb_record_type (WB_KIND_PIECE), cases[i].field);
      gboolean is_tag = g_str_equal (cases[i].field, "tag");
      g_autofree char *text = g_strdup_printf ("\"%s\",%s\n\"%s\",1\n", cases[i].heading,
                                               is_tag ? "Contents" : "Tag", cases[i].cell);
      g_autoptr (WbJob) job = empty_job ();
      g_autoptr (WbImportReport) report = import_text (job, text, WB_IMPORT_ALL_OR_NONE);
      g_autofree char *faults = faults_of (report);
      g_autofree char *value = NULL;

      g_assert_cmpstr (faults, ==, "");
      value = wb_record_get_text (piece_at (report, 0), field);
      g_assert_cmpstr (value, ==, cases[i].text);
    }
}

/* "Item" beside a description is the number; "Article" beside one is what the piece is a part
 * of. */
static void
test_open_headings (void)
{
  g_autoptr (WbJob) job = empty_job ();
  g_autoptr (WbImportReport) report = import_text (job, "Item,Article,Description\n"
                                                        "7,bed,Headboard\n",
                                                   WB_IMPORT_ALL_OR_NONE);
  g_autoptr (WbImportReport) other = import_text (job, "Item,Tag\nHeadboard,7\n",
                                                  WB_IMPORT_ALL_OR_NONE);

  g_assert_cmpint (piece_at (report, 0)->tag, ==, 7);
  g_assert_cmpstr (piece_at (report, 0)->description, ==, "Headboard");
  g_assert_cmpstr (piece_at (report, 0)->article, ==, "bed");
  g_assert_cmpstr (piece_at (other, 0)->description, ==, "Headboard");
}

static const struct
{
  const char *name;
  const char *text;
  const char *message;
} unreadable[] = {
  { "empty", "", "The file is empty" },
  { "blank", "\n\n , ,\n", "The file is empty" },
  { "no-heading", "1,Sofa,Living room\n", "No heading in the first line is known" },
  { "semicolons", "Tag;Description\n1;Sofa\n", "The fields of the first line are not parted by "
                                               "commas" },
  { "tabs", "Tag\tDescription\n1\tSofa\n",
   "The fields of the first line are not parted by commas" },
  { "twice", "Tag,Item no,Room\n", "The columns “Tag” and “Item no” mean the same thing" },
  { "open-quote", "Tag,Room\n1,\"Study\n2,Hall\n", "Line 2: a quotation mark is opened here and "
                                                   "never closed" },
  { "bad-heading", "Tag,12\" room\n", "Line 1: a quotation mark stands inside the field" },
};

static void
test_unreadable (gconstpointer data)
{
  gsize i = GPOINTER_TO_SIZE (data);
  g_autoptr (WbJob) job = empty_job ();
  g_autoptr (GBytes) bytes = bytes_of (unreadable[i].text);
  g_autoptr (GError) error = NULL;
  WbImportReport *report = wb_inventory_csv_import (job, bytes, WB_IMPORT_GOOD_ROWS, &error);

  g_assert_null (report);
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA);
  if (!g_str_has_prefix (error->message, unreadable[i].message))
    g_assert_cmpstr (error->message, ==, unreadable[i].message);
}

static const char bad_rows[] =
  "Tag,Colour,Lot,Description,Weight,Marks,Packed by,Listed value,\n"
  "1,blue,204,Sofa,120,,,,\n"
  "two,blue,204,Chair,12,,,,\n"
  "3,blue,204,Table,heavy,QQ 4,me,1.234,\n"
  "4,blue,204,\"Lamp\nwith shade\",9,,,,\n"
  "1,blue,204,Desk,80,,,,\n"
  "6,blue,204,12\" screen,80,,,,\n"
  "7,blue,204,Rug,80\n"
  ",,,,,,,,\n"
  "8,,207,Stool,8,,,,\n"
  "9,blue,204,Box,8,,,,extra\n"
  "1,green,204,Bench,30,,,,\n";

static void
test_bad_rows (void)
{
  /* What is wrong with a value core says in its own words. */
  static const char *const expected[] = {
    "3:3 Tag: “two” ",
    "4:4 Weight: ",
    "4:4 Marks: ",
    "4:4 Packed by: “me” ",
    "4:4 Listed value: “1.234” ",
    "6:7 Tag: Row 2 has the tag 1 of this lot as well.",
    "7:8 Description: A quotation mark stands inside the field; the whole field has to stand in "
    "quotation marks and this one "
    "has to be written twice.",
    "8:9 -: There are 5 fields here, but 9 headings in the first line.",
    "10:11 Colour: The job has no lot “207”, and a new one needs the colour of its tags.",
    "11:12 -: Field 9 has no heading in the first line.",
  };
  g_autoptr (WbJob) job = empty_job ();
  g_autoptr (WbImportReport) none = import_text (job, bad_rows, WB_IMPORT_ALL_OR_NONE);
  g_autoptr (WbImportReport) good = import_text (job, bad_rows, WB_IMPORT_GOOD_ROWS);
  g_autofree char *faults = faults_of (none);
  g_autofree char *same = faults_of (good);
  g_auto (GStrv) lines = NULL;

  g_assert_null (none->job);
  g_assert_cmpuint (none->n_taken, ==, 0);
  g_assert_cmpuint (none->n_rows, ==, 10);
  lines = g_strsplit (faults, "\n", -1);
  g_assert_cmpuint (g_strv_length (lines), ==, G_N_ELEMENTS (expected) + 1);
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      if (!g_str_has_prefix (lines[i], expected[i]))
        g_assert_cmpstr (lines[i], ==, expected[i]);
    }

  g_assert_cmpstr (same, ==, faults);
  g_assert_cmpuint (good->n_taken, ==, 3);
  g_assert_cmpuint (wb_job_count (good->job, WB_KIND_PIECE), ==, 3);
  g_assert_cmpstr (piece_at (good, 0)->description, ==, "Sofa");
  g_assert_cmpstr (piece_at (good, 1)->description, ==, "Lamp\nwith shade");
  g_assert_cmpstr (piece_at (good, 2)->description, ==, "Bench");
  g_assert_cmpuint (wb_job_count (good->job, WB_KIND_LOT), ==, 2);
}

/* A lot that only a bad row names is not made. */
static void
test_no_lot_for_bad_row (void)
{
  g_autoptr (WbJob) job = empty_job ();
  g_autoptr (WbImportReport) report = import_text (job, "Tag,Colour,Lot\nx,red,1\n2,blue,2\n",
                                                   WB_IMPORT_GOOD_ROWS);

  g_assert_cmpuint (wb_job_count (report->job, WB_KIND_LOT), ==, 1);
}

/* A second import goes to the same lots and refuses tags that are there. */
static void
test_again (void)
{
  g_autoptr (WbJob) job = empty_job ();
  g_autoptr (WbImportReport) first = import_text (job, "Tag,Colour,Lot\n1,Blue,204\n2,Blue,204\n",
                                                  WB_IMPORT_ALL_OR_NONE);
  g_autoptr (WbImportReport) second = import_text (first->job, "Tag,Lot colour\n2,blue\n3,blue\n",
                                                   WB_IMPORT_GOOD_ROWS);
  g_autofree char *faults = faults_of (second);

  g_assert_cmpstr (faults, ==,
                   "2:2 Tag: The job already has a piece with the tag 2 of this lot.\n");
  g_assert_cmpuint (wb_job_count (second->job, WB_KIND_LOT), ==, 1);
  g_assert_cmpuint (wb_job_count (second->job, WB_KIND_PIECE), ==, 3);
  g_assert_cmpint (piece_at (second, 2)->tag, ==, 3);
  g_assert_cmpstr (piece_at (second, 2)->lot, ==, piece_at (second, 0)->lot);
}

static void
test_which_lot (void)
{
  g_autoptr (WbJob) job = empty_job ();
  g_autoptr (WbImportReport) first = import_text (job, "Tag,Colour,Lot\n1,blue,1\n1,blue,2\n",
                                                  WB_IMPORT_ALL_OR_NONE);
  g_autoptr (WbImportReport) second = import_text (first->job, "Tag,Colour\n9,blue\n",
                                                   WB_IMPORT_ALL_OR_NONE);
  g_autofree char *faults = faults_of (second);

  g_assert_cmpstr (faults, ==, "2:2 -: The job has several lots that this could be; give colour "
                               "and number of the lot.\n");
}

static void
test_windows_1252 (void)
{
  g_autoptr (WbJob) job = empty_job ();
  g_autoptr (WbImportReport) report = import_text (job, "Tag,Description\n1,Caf\xe9 table \x96 "
                                                        "small\n", WB_IMPORT_ALL_OR_NONE);

  g_assert_cmpstr (report->encoding, ==, "Windows-1252");
  g_assert_cmpstr (piece_at (report, 0)->description, ==, "Café table – small");
}

/* --- export ----------------------------------------------------------------------------------- */

/* Things with whatever texts come to mind, in pieces at random. */
static void
add_things (const WbJob *job,
            GPtrArray   *records)
{
  static const char *const texts[] = { "plates", "a|b", "back\\slash", " ends ", "two\nlines",
                                       "=1+1", "\\n", "|", "\\", "\t", "é 日本",
                                       "\"quoted\"", "a, b" };
  guint n = wb_job_count (job, WB_KIND_PIECE);

  for (guint i = 0; n > 0 && i < 20; i++)
    {
      const WbRecord *piece = wb_job_nth (job, WB_KIND_PIECE,
                                          (guint) g_test_rand_int_range (0, (gint32) n));
      g_autofree char *id = g_strdup_printf ("more%u", i);
      WbThing *thing = wb_record_new (WB_KIND_THING, id);

      wb_set_text (&thing->piece, piece->id);
      wb_set_text (&thing->description,
                   texts[g_test_rand_int_range (0, G_N_ELEMENTS (texts))]);
      if (g_test_rand_bit ())
        wb_set_text (&thing->notes, texts[g_test_rand_int_range (0, G_N_ELEMENTS (texts))]);
      if (g_test_rand_bit ())
        thing->quantity = g_test_rand_int_range (0, 1000);
      if (g_test_rand_bit ())
        thing->value = wb_money (g_test_rand_int_range (0, 1000000), "USD");
      if (g_test_rand_bit ())
        thing->weight = wb_weight (g_test_rand_int_range (0, 10000),
                                   g_test_rand_bit () ? WB_WEIGHT_UNIT_LB : WB_WEIGHT_UNIT_KG);
      g_ptr_array_add (records, thing);
    }
}

/* Gives every piece a tag of its own in its lot and every lot its own colour, as an inventory has
 * them. */
static WbJob *
make_inventory (WbJob *job)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_LOT); i++)
    {
      WbLot *lot = wb_record_copy (wb_job_nth (job, WB_KIND_LOT, i));

      g_free (lot->colour);
      lot->colour = g_strdup_printf ("%u blue", i);
      g_ptr_array_add (records, lot);
    }
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIECE); i++)
    {
      WbPiece *piece = wb_record_copy (wb_job_nth (job, WB_KIND_PIECE, i));

      if (piece->tag != WB_INTEGER_UNSET)
        piece->tag = i;
      if (g_test_rand_int_range (0, 4) == 0)
        wb_set_text (&piece->room, " Study ");
      if (g_test_rand_int_range (0, 4) == 0)
        wb_set_text (&piece->notes, "=1+1");
      g_ptr_array_add (records, piece);
    }
  add_things (job, records);

  return wb_job_with_many (job, records);
}

static void
assert_same_things (const WbJob   *a,
                    const WbPiece *left,
                    const WbJob   *b,
                    const WbPiece *right)
{
  const WbRecordType *type = wb_record_type (WB_KIND_THING);
  g_autoptr (GPtrArray) things = wb_things_of (a, left->record.id);
  g_autoptr (GPtrArray) others = wb_things_of (b, right->record.id);

  g_assert_cmpuint (things->len, ==, others->len);
  for (guint i = 0; i < things->len; i++)
    for (gsize j = 0; j < type->n_fields; j++)
      if (type->fields[j].type != WB_FIELD_REFERENCE)
        g_assert_true (wb_record_field_equal (&type->fields[j], g_ptr_array_index (things, i),
                                              g_ptr_array_index (others, i)));
}

/* Everything but the ids, which are made anew. */
static void
assert_same_pieces (const WbJob *a,
                    const WbJob *b)
{
  const WbRecordType *type = wb_record_type (WB_KIND_PIECE);

  g_assert_cmpuint (wb_job_count (a, WB_KIND_PIECE), ==, wb_job_count (b, WB_KIND_PIECE));
  for (guint i = 0; i < wb_job_count (a, WB_KIND_PIECE); i++)
    {
      const WbPiece *left = wb_job_nth (a, WB_KIND_PIECE, i);
      const WbPiece *right = wb_job_nth (b, WB_KIND_PIECE, i);
      const WbLot *left_lot = wb_job_find (a, WB_KIND_LOT, left->lot);
      const WbLot *right_lot = wb_job_find (b, WB_KIND_LOT, right->lot);

      g_assert_true ((left_lot == NULL) == (right_lot == NULL));
      if (left_lot != NULL)
        {
          g_assert_cmpstr (left_lot->colour, ==, right_lot->colour);
          g_assert_cmpstr (left_lot->number, ==, right_lot->number);
        }
      assert_same_things (a, left, b, right);
      for (gsize j = 0; j < type->n_fields; j++)
        {
          if (type->fields[j].type == WB_FIELD_REFERENCE ||
              wb_record_field_equal (&type->fields[j], left, right))
            continue;
          g_test_message ("piece %u, field %s", i, type->fields[j].name);
          g_test_fail ();
        }
    }
}

static void
test_round_trip (void)
{
  for (guint run = 0; run < 100; run++)
    {
      g_autoptr (WbJob) random = random_job ("USD", 12);
      g_autoptr (WbJob) job = make_inventory (random);
      g_autoptr (WbJob) target = empty_job ();
      g_autoptr (GBytes) bytes = wb_inventory_csv_export (job);
      g_autoptr (GBytes) again = NULL;
      g_autoptr (GError) error = NULL;
      g_autoptr (WbImportReport) report = wb_inventory_csv_import (target, bytes,
                                                                   WB_IMPORT_ALL_OR_NONE, &error);
      g_autofree char *faults = NULL;

      g_assert_no_error (error);
      faults = faults_of (report);
      g_assert_cmpstr (faults, ==, "");
      g_assert_cmpuint (report->ignored->len, ==, 0);
      if (report->job == NULL)
        {
          g_assert_cmpuint (wb_job_count (job, WB_KIND_PIECE), ==, 0);
          continue;
        }
      assert_same_pieces (job, report->job);
      again = wb_inventory_csv_export (report->job);
      g_assert_true (g_bytes_equal (bytes, again));
    }
}

/* No cell starts with what a spreadsheet would work out. */
static void
test_formulas (void)
{
  static const char *const texts[] = { "=1+1", "+1", "-1", "@A1", "'a", "\tx" };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (WbJob) empty = empty_job ();
      g_autoptr (WbPiece) piece = wb_record_new (WB_KIND_PIECE, "p");
      g_autoptr (WbJob) job = NULL;
      g_autoptr (GBytes) bytes = NULL;
      g_autofree char *text = NULL;
      g_autofree char *expected = g_strconcat ("'", texts[i], NULL);

      wb_set_text (&piece->notes, texts[i]);
      job = wb_job_with (empty, piece);
      bytes = wb_inventory_csv_export (job);
      text = g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
      g_assert_nonnull (strstr (text, expected));
    }
}

/* --- files ------------------------------------------------------------------------------------ */

static void
keep_result_cb (GObject      *source,
                GAsyncResult *result,
                gpointer      data)
{
  *(GAsyncResult **) data = g_object_ref (result);
}

static WbImportReport *
import_file (WbJob       *job,
             const char  *path,
             GError     **error)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GAsyncResult) result = NULL;

  wb_inventory_csv_import_file_async (job, file, WB_IMPORT_ALL_OR_NONE, NULL, keep_result_cb,
                                      &result);
  while (result == NULL)
    g_main_context_iteration (NULL, TRUE);
  return wb_inventory_csv_import_file_finish (result, error);
}

static void
test_file (void)
{
  g_autoptr (WbJob) job = empty_job ();
  g_autofree char *path = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbImportReport) report = NULL;
  g_autoptr (WbImportReport) missing = NULL;
  int fd = g_file_open_tmp ("wainbook-XXXXXX.csv", &path, &error);

  g_assert_no_error (error);
  g_close (fd, NULL);
  g_file_set_contents (path, "Tag,Room\n1,Study\n", -1, &error);
  g_assert_no_error (error);
  report = import_file (job, path, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (report->n_taken, ==, 1);

  g_unlink (path);
  missing = import_file (job, path, &error);
  g_assert_null (missing);
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_NOT_FOUND);
}

/* A list of contents as somebody writes it in a spreadsheet, and what is wrong with others. */
static void
test_things (void)
{
  static const struct
  {
    const char *cell;
    const char *fault;    /* NULL when it is good */
  } cases[] = {
    { "12 | dinner plates | 4.50 | 1.5 lb | Spode\n| gravy boat", NULL },
    { "2|vases", NULL },
    { "", NULL },
    { "plates", "thing 1 of the contents: write it as: how many | what | value of one | weight of "
                "one | notes" },
    { "2 | vases\n | \n", "thing 2 of the contents: it does not say what" },
    { "a | b | c | d | e | f", "thing 1 of the contents: write it as: how many | what | value of "
                               "one | weight of one | notes" },
    { "1 | a\\b", "thing 1 of the contents: “a\\b” has a backslash that stands for nothing; write "
                   "two for one" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) things = wb_things_cell_read (cases[i].cell, "p", "USD", &error);

      g_test_message ("%s", cases[i].cell);
      if (cases[i].fault == NULL)
        g_assert_no_error (error);
      else
        g_assert_cmpstr (error != NULL ? error->message : NULL, ==, cases[i].fault);
      g_assert_true ((things != NULL) == (cases[i].fault == NULL));
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/office/inventory-csv/plain", test_plain);
  g_test_add_func ("/office/inventory-csv/headings", test_headings);
  g_test_add_func ("/office/inventory-csv/open-headings", test_open_headings);
  g_test_add_func ("/office/inventory-csv/bad-rows", test_bad_rows);
  g_test_add_func ("/office/inventory-csv/no-lot-for-bad-row", test_no_lot_for_bad_row);
  g_test_add_func ("/office/inventory-csv/again", test_again);
  g_test_add_func ("/office/inventory-csv/which-lot", test_which_lot);
  g_test_add_func ("/office/inventory-csv/windows-1252", test_windows_1252);
  g_test_add_func ("/office/inventory-csv/round-trip", test_round_trip);
  g_test_add_func ("/office/inventory-csv/formulas", test_formulas);
  g_test_add_func ("/office/inventory-csv/things", test_things);
  g_test_add_func ("/office/inventory-csv/file", test_file);
  for (gsize i = 0; i < G_N_ELEMENTS (unreadable); i++)
    {
      g_autofree char *path = g_strconcat ("/office/inventory-csv/unreadable/", unreadable[i].name,
                                           NULL);

      g_test_add_data_func (path, GSIZE_TO_POINTER (i), test_unreadable);
    }
  return g_test_run ();
}
