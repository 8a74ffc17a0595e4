/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-core.h"
#include "core/wb-tag-scan.h"

/* What is read, as one line: form, tag, lot, colour, job, words; "–" for what is not said. */
static char *
describe (const WbTagScan *scan)
{
  static const char *const forms[] = { "number", "words", "joined", "named" };
  g_autofree char *words = g_strjoinv ("+", scan->words);

  return g_strdup_printf ("%s %" G_GINT64_FORMAT " lot=%s colour=%s job=%s %s", forms[scan->form],
                          scan->tag, scan->lot != NULL ? scan->lot : "–",
                          scan->colour != NULL ? scan->colour : "–",
                          scan->job != NULL ? scan->job : "–", words);
}

static void
test_forms (void)
{
  static const struct
  {
    const char *text;
    const char *read;
  } cases[] = {
    { "42", "number 42 lot=– colour=– job=– " },
    { "0042", "number 42 lot=– colour=– job=– " },
    { " 42\t", "number 42 lot=– colour=– job=– " },
    { "#42", "number 42 lot=– colour=– job=– " },
    { "999999", "number 999999 lot=– colour=– job=– " },
    { "0", "number 0 lot=– colour=– job=– " },
    { "]C10042", "number 42 lot=– colour=– job=– " },
    { "BLUE-42", "joined 42 lot=– colour=– job=– BLUE" },
    { "4711-42", "joined 42 lot=– colour=– job=– 4711" },
    { "blue/4711/042", "joined 42 lot=– colour=– job=– blue+4711" },
    { "blue42", "joined 42 lot=– colour=– job=– blue" },
    { "blue 4711 42", "words 42 lot=– colour=– job=– blue+4711" },
    { "light blue 42", "words 42 lot=– colour=– job=– light+blue" },
    { "sofa 3", "words 3 lot=– colour=– job=– sofa" },
    { "tag 42", "named 42 lot=– colour=– job=– " },
    { "lot 4711 tag 42", "named 42 lot=4711 colour=– job=– " },
    { "Tag 42, lot 4711", "named 42 lot=4711 colour=– job=– " },
    { "LOT:4711/TAG:42", "named 42 lot=4711 colour=– job=– " },
    { "lot no 4711 no 42", "named 42 lot=4711 colour=– job=– " },
    { "blue lot 4711 42", "named 42 lot=4711 colour=– job=– blue" },
    { "wainbook:tag?job=2026-0031&colour=light%20blue&lot=A%2F7&tag=42",
      "named 42 lot=A/7 colour=light blue job=2026-0031 " },
    { "WAINBOOK:TAG?LOT=4711&TAG=42", "named 42 lot=4711 colour=– job=– " },
    { "https://tags.example/t?x=9&lot=4711&color=blue&tag=0042#top",
      "named 42 lot=4711 colour=blue job=– " },
    { "{\"lot\": \"4711\", \"tag\": 42}", "named 42 lot=4711 colour=– job=– " },
    { "{\"tag\":\"42\",\"colour\":\"li\\\"ght\",\"size\":3}",
      "named 42 lot=– colour=li\"ght job=– " },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (WbTagScan) scan = wb_tag_scan_parse (cases[i].text, &error);
      g_autofree char *read = NULL;

      g_test_message ("%s", cases[i].text);
      g_assert_no_error (error);
      read = describe (scan);
      g_assert_cmpstr (read, ==, cases[i].read);
    }
}

static void
test_refusals (void)
{
  static const struct
  {
    const char *text;
    int         code;
  } cases[] = {
    { "", WB_CORE_ERROR_PARSE },
    { "sofa", WB_CORE_ERROR_PARSE },
    { "12a", WB_CORE_ERROR_PARSE },
    { "lot 4711", WB_CORE_ERROR_PARSE },
    { "tag", WB_CORE_ERROR_PARSE },
    { "-", WB_CORE_ERROR_PARSE },
    { "1000000", WB_CORE_ERROR_RANGE },
    { "99999999999999999999999", WB_CORE_ERROR_RANGE },
    { "blue 1000000", WB_CORE_ERROR_RANGE },
    { "https://tags.example/?lot=1", WB_CORE_ERROR_PARSE },
    { "https://tags.example/?tag=", WB_CORE_ERROR_PARSE },
    { "https://tags.example/?tag=12x", WB_CORE_ERROR_PARSE },
    { "{", WB_CORE_ERROR_PARSE },
    { "{}", WB_CORE_ERROR_PARSE },
    { "{\"tag\"", WB_CORE_ERROR_PARSE },
    { "{\"tag\":", WB_CORE_ERROR_PARSE },
    { "{\"tag\":42", WB_CORE_ERROR_PARSE },
    { "{\"tag\":\"42", WB_CORE_ERROR_PARSE },
    { "{\"tag\":{\"tag\":42}}", WB_CORE_ERROR_PARSE },
    { "{\"lot\":\"4711\"}", WB_CORE_ERROR_PARSE },
    { "{\"tag\":42} 7", WB_CORE_ERROR_PARSE },
    { "\xff\xfe" "42", WB_CORE_ERROR_PARSE },
  };
  g_autofree char *long_text = g_strnfill (WB_TAG_SCAN_MAX_BYTES + 1, '0');

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;

      g_test_message ("%s", g_utf8_validate (cases[i].text, -1, NULL) ? cases[i].text : "(bytes)");
      g_assert_null (wb_tag_scan_parse (cases[i].text, &error));
      g_assert_error (error, WB_CORE_ERROR, cases[i].code);
    }
  g_assert_null (wb_tag_scan_parse (long_text, NULL));
}

/* --- finding ---------------------------------------------------------------------------------- */

static void
add_lot (GPtrArray  *records,
         const char *id,
         const char *colour,
         const char *number)
{
  WbLot *lot = wb_record_new (WB_KIND_LOT, id);

  wb_set_text (&lot->colour, colour);
  wb_set_text (&lot->number, number);
  g_ptr_array_add (records, lot);
}

static void
add_piece (GPtrArray  *records,
           const char *id,
           const char *lot,
           gint64      tag)
{
  WbPiece *piece = wb_record_new (WB_KIND_PIECE, id);

  wb_set_text (&piece->lot, lot);
  piece->tag = tag;
  g_ptr_array_add (records, piece);
}

static WbJob *
make_job (void)
{
  g_autoptr (WbJob) empty = wb_job_new ("job", "USD");
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  WbOrder *order = wb_record_copy (wb_job_order (empty));

  wb_set_text (&order->number, "2026-0031");
  g_ptr_array_add (records, order);
  add_lot (records, "a", "Blue", "4711");
  add_lot (records, "b", "light blue", "0012");
  add_lot (records, "c", "été", NULL);
  add_lot (records, "d", "green", "A-7");
  add_piece (records, "a42", "a", 42);
  add_piece (records, "b42", "b", 42);
  add_piece (records, "c7", "c", 7);
  add_piece (records, "d3", "d", 3);
  add_piece (records, "n42", NULL, 42);
  add_piece (records, "a43", "a", 43);
  add_piece (records, "again", "a", 43);
  return wb_job_with_many (empty, records);
}

static void
test_find (void)
{
  static const struct
  {
    const char *text;
    const char *found;
  } cases[] = {
    { "42", "a42 b42 n42" },
    { "4711-42", "a42" },
    { "BLUE 4711 42", "a42" },
    { "blue-42", "a42 b42" },
    { "light blue 42", "b42" },
    { "12-42", "b42" },
    { "lot 4711 tag 43", "a43 again" },
    { "ÉTÉ 7", "c7" },
    { "red 42", "" },
    { "A-7-3", "d3" },
    { "green/a-7/3", "d3" },
    { "9", "" },
    { "tag 42 colour blue", "a42" },
  };
  g_autoptr (WbJob) job = make_job ();

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (WbTagScan) scan = wb_tag_scan_parse (cases[i].text, &error);
      g_autoptr (GPtrArray) found = NULL;
      g_autofree char *ids = NULL;

      g_test_message ("%s", cases[i].text);
      g_assert_no_error (error);
      found = wb_tag_scan_find (scan, job);
      g_ptr_array_add (found, NULL);
      ids = g_strjoinv (" ", (char **) found->pdata);
      g_assert_cmpstr (ids, ==, cases[i].found);
    }
}

static void
test_job (void)
{
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (WbTagScan) ours = wb_tag_scan_parse ("wainbook:tag?job=2026-0031&tag=1", NULL);
  g_autoptr (WbTagScan) other = wb_tag_scan_parse ("wainbook:tag?job=2026-0032&tag=1", NULL);
  g_autoptr (WbTagScan) any = wb_tag_scan_parse ("1", NULL);

  g_assert_true (wb_tag_scan_fits_job (ours, job));
  g_assert_false (wb_tag_scan_fits_job (other, job));
  g_assert_true (wb_tag_scan_fits_job (any, job));
}

/* What is written for a piece finds it again, whatever its lot is called. */
static void
test_round_trip (void)
{
  static const char *const names[] = { NULL, "blue", "light blue", "A/7", "50%", "a&b=c", "+1", "é",
                                       "\"", "#", "a;b", "0" };
  g_autoptr (WbJob) empty = make_job ();

  for (guint i = 0; i < 300; i++)
    {
      const char *colour = names[g_test_rand_int_range (0, G_N_ELEMENTS (names))];
      const char *number = names[g_test_rand_int_range (0, G_N_ELEMENTS (names))];
      g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
      g_autoptr (WbJob) job = NULL;
      g_autofree char *text = NULL;
      g_autoptr (GError) error = NULL;
      g_autoptr (WbTagScan) scan = NULL;
      g_autoptr (GPtrArray) found = NULL;
      gboolean there = FALSE;

      add_lot (records, "new", colour, number);
      add_piece (records, "piece", "new", g_test_rand_int_range (0, 1000000));
      job = wb_job_with_many (empty, records);
      text = wb_tag_scan_to_text (job, wb_job_find (job, WB_KIND_PIECE, "piece"));
      scan = wb_tag_scan_parse (text, &error);
      g_assert_no_error (error);
      g_assert_cmpstr (scan->colour, ==, colour);
      g_assert_cmpstr (scan->lot, ==, number);
      g_assert_cmpstr (scan->job, ==, "2026-0031");
      found = wb_tag_scan_find (scan, job);
      for (guint k = 0; k < found->len; k++)
        there |= g_str_equal (g_ptr_array_index (found, k), "piece");
      g_assert_true (there);
    }
}

/* Any bytes are read or refused, and nothing else. */
static void
test_noise (void)
{
  static const char alphabet[] = "{}\":,?&=#%/- 0123456789ablotg\\]C\xc3\xa9";

  for (guint i = 0; i < 20000; i++)
    {
      char text[24] = "";
      int length = g_test_rand_int_range (0, sizeof text);
      g_autoptr (GError) error = NULL;
      g_autoptr (WbTagScan) scan = NULL;

      for (int k = 0; k < length; k++)
        text[k] = alphabet[g_test_rand_int_range (0, sizeof alphabet - 1)];
      scan = wb_tag_scan_parse (text, &error);
      g_assert_true ((scan != NULL) == (error == NULL));
      if (scan != NULL)
        g_assert_cmpint (scan->tag, >=, 0);
    }
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/core/tag-scan/forms", test_forms);
  g_test_add_func ("/core/tag-scan/refusals", test_refusals);
  g_test_add_func ("/core/tag-scan/find", test_find);
  g_test_add_func ("/core/tag-scan/job", test_job);
  g_test_add_func ("/core/tag-scan/round-trip", test_round_trip);
  g_test_add_func ("/core/tag-scan/noise", test_noise);
  return g_test_run ();
}
