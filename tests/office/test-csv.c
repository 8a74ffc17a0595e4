/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "office/wb-csv.h"

#include "random-job.h"

#include <gio/gio.h>
#include <string.h>

/* Records as "a|b/c|d", a fault as "!INDEX" behind the record. */
static char *
read_all (const char  *text,
          gsize        length,
          GError     **error)
{
  g_autoptr (GString) out = g_string_new (NULL);
  WbCsvReader reader;

  wb_csv_reader_init (&reader, text, length);
  for (;;)
    {
      g_autoptr (WbCsvRecord) record = NULL;

      if (!wb_csv_reader_next (&reader, &record, error))
        return NULL;
      if (record == NULL)
        return g_string_free (g_steal_pointer (&out), FALSE);

      if (record->number > 1)
        g_string_append_c (out, '/');
      for (guint i = 0; i < record->fields->len; i++)
        g_string_append_printf (out, "%s%s", i > 0 ? "|" : "",
                                (char *) g_ptr_array_index (record->fields, i));
      if (record->fault != NULL)
        g_string_append_printf (out, "!%u", record->fault_field);
    }
}

static void
test_records (void)
{
  static const struct
  {
    const char *text;
    const char *records;
  } cases[] = {
    { "", "" },
    { "a", "a" },
    { "a\n", "a" },
    { "a,b\r\nc,d\r\n", "a|b/c|d" },
    { "a,b\rc,d", "a|b/c|d" },
    { "a,b\nc,d", "a|b/c|d" },
    { "a,\n", "a|" },
    { ",", "|" },
    { "\n\na", "//a" },
    { "\"a\",\"b\"\n", "a|b" },
    { "\"a,b\",c\n", "a,b|c" },
    { "\"a\"\"b\",c\n", "a\"b|c" },
    { "\"\"\"\"\n", "\"" },
    { "\"\",\"\"\n", "|" },
    { "\"a\r\nb\",c\n", "a\nb|c" },
    { "\"a\rb\",c\n", "a\nb|c" },
    { " a , b \n", " a | b " },
    { "a;b\n", "a;b" },
    /* a quotation mark where none may be: the record is marked, the next is read right */
    { "12\" lamp,b\nc,d\n", "12\" lamp|b!0/c|d" },
    { "a,12\" lamp\nc,d\n", "a|12\" lamp!1/c|d" },
    { "\"a\"x,b\nc,d\n", "ax|b!0/c|d" },
    { "\"a\" ,b\nc,d\n", "a |b!0/c|d" },
    { "\"12\" lamp\",b\nc,d\n", "12 lamp\"|b!0/c|d" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *records = read_all (cases[i].text, strlen (cases[i].text), &error);

      g_assert_no_error (error);
      g_assert_cmpstr (records, ==, cases[i].records);
    }
}

static void
test_lines (void)
{
  const char *text = "a\n\"b\nb\nb\"\nc\r\nd\re";
  static const guint lines[] = { 1, 2, 5, 6, 7 };
  WbCsvReader reader;

  wb_csv_reader_init (&reader, text, strlen (text));
  for (guint i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      g_autoptr (WbCsvRecord) record = NULL;
      g_autoptr (GError) error = NULL;

      g_assert_true (wb_csv_reader_next (&reader, &record, &error));
      g_assert_no_error (error);
      g_assert_cmpuint (record->number, ==, i + 1);
      g_assert_cmpuint (record->line, ==, lines[i]);
    }
}

static void
test_unreadable (void)
{
  static const struct
  {
    const char *text;
    gsize       length;
    const char *message;
  } cases[] = {
    { "a,b\n\"c,d\ne,f\n", 13, "Line 2: a quotation mark is opened here and never closed" },
    { "\"", 1, "Line 1: a quotation mark is opened here and never closed" },
    { "a\nb\0c\n", 6, "Line 2: there is a NUL byte here; the file is not plain text" },
    { "a\n\"b\nb\0c\"\n", 11, "Line 3: there is a NUL byte here; the file is not plain text" },
  };
  g_autoptr (GString) wide = g_string_new (NULL);
  g_autoptr (GError) too_wide = NULL;
  g_autofree char *none = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *records = read_all (cases[i].text, cases[i].length, &error);

      g_assert_null (records);
      g_assert_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA);
      g_assert_cmpstr (error->message, ==, cases[i].message);
    }

  for (guint i = 0; i < WB_CSV_MAX_FIELDS; i++)
    g_string_append_c (wide, ',');
  none = read_all (wide->str, wide->len, &too_wide);
  g_assert_null (none);
  g_assert_error (too_wide, G_IO_ERROR, G_IO_ERROR_INVALID_DATA);
}

static void
test_decode (void)
{
  static const struct
  {
    const char *bytes;
    const char *text;
    const char *encoding;
  } cases[] = {
    { "abc", "abc", "UTF-8" },
    { "", "", "UTF-8" },
    { "\xef\xbb\xbf" "a", "a", "UTF-8" },
    { "caf\xc3\xa9", "café", "UTF-8" },
    { "caf\xe9", "café", "Windows-1252" },
    { "\x80 \x93q\x94 \x99 \xff", "€ “q” ™ ÿ", "Windows-1252" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GBytes) bytes = g_bytes_new_static (cases[i].bytes, strlen (cases[i].bytes));
      g_autoptr (GError) error = NULL;
      const char *encoding;
      gsize length;
      g_autofree char *text = wb_csv_decode (bytes, &length, &encoding, &error);

      g_assert_no_error (error);
      g_assert_cmpstr (text, ==, cases[i].text);
      g_assert_cmpuint (length, ==, strlen (text));
      g_assert_cmpstr (encoding, ==, cases[i].encoding);
    }
}

static void
test_decode_refused (void)
{
  static const struct
  {
    const char *bytes;
    gsize       length;
    const char *part;
  } cases[] = {
    { "\xff\xfe" "a\0", 4, "UTF-16" },
    { "\xfe\xff\0a", 4, "UTF-16" },
    { "a\nb\r\nc\x81", 7, "Line 3: the byte 0x81" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GBytes) bytes = g_bytes_new_static (cases[i].bytes, cases[i].length);
      g_autoptr (GError) error = NULL;
      const char *encoding;
      gsize length;
      g_autofree char *text = wb_csv_decode (bytes, &length, &encoding, &error);

      g_assert_null (text);
      g_assert_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA);
      g_assert_nonnull (strstr (error->message, cases[i].part));
    }
}

/* A NUL byte survives the decoding, so that the reader can say where it is. */
static void
test_decode_nul (void)
{
  static const char *const texts[] = { "a\0b", "\xe9\0b" };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (GBytes) bytes = g_bytes_new_static (texts[i], 3);
      g_autoptr (GError) error = NULL;
      const char *encoding;
      gsize length;
      g_autofree char *text = wb_csv_decode (bytes, &length, &encoding, &error);
      g_autofree char *records = NULL;

      g_assert_no_error (error);
      g_assert_cmpuint (length, ==, i == 0 ? 3 : 4);
      records = read_all (text, length, &error);
      g_assert_null (records);
      g_assert_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA);
    }
}

/* Whatever is written is read back as it was. */
static void
test_round_trip (void)
{
  for (guint run = 0; run < 500; run++)
    {
      g_autoptr (GString) text = g_string_new (NULL);
      g_autoptr (GPtrArray) fields = g_ptr_array_new_with_free_func (g_free);
      g_autoptr (WbCsvRecord) record = NULL;
      g_autoptr (GError) error = NULL;
      WbCsvReader reader;

      for (gint n = g_test_rand_int_range (1, 8); n > 0; n--)
        {
          char *field = g_test_rand_int_range (0, 5) == 0 ? g_strdup ("") : random_text ();

          if (fields->len > 0)
            g_string_append_c (text, ',');
          wb_csv_append_field (text, field);
          g_ptr_array_add (fields, field);
        }
      g_string_append (text, "\r\n");

      wb_csv_reader_init (&reader, text->str, text->len);
      g_assert_true (wb_csv_reader_next (&reader, &record, &error));
      g_assert_no_error (error);
      g_assert_null (record->fault);
      g_assert_cmpuint (record->fields->len, ==, fields->len);
      for (guint i = 0; i < fields->len; i++)
        g_assert_cmpstr (g_ptr_array_index (record->fields, i), ==, g_ptr_array_index (fields, i));
      g_assert_true (reader.at == reader.end);
    }
}

/* Any bytes are read to their end or refused. */
static void
test_noise (void)
{
  static const char signs[] = "\"\"\",,\n\r ab\0\xc3\xa9";

  for (guint run = 0; run < 3000; run++)
    {
      char noise[40];
      gsize length = (gsize) g_test_rand_int_range (0, sizeof noise);
      g_autofree char *exact = NULL;
      g_autofree char *records = NULL;
      g_autoptr (GError) error = NULL;

      for (gsize i = 0; i < length; i++)
        noise[i] = signs[g_test_rand_int_range (0, sizeof signs - 1)];
      /* a copy of the exact size, so that reading past it is caught where memory is watched */
      exact = g_memdup2 (noise, length);
      records = read_all (exact != NULL ? exact : "", length, &error);
      g_assert_true ((records == NULL) == (error != NULL));
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/office/csv/records", test_records);
  g_test_add_func ("/office/csv/lines", test_lines);
  g_test_add_func ("/office/csv/unreadable", test_unreadable);
  g_test_add_func ("/office/csv/decode", test_decode);
  g_test_add_func ("/office/csv/decode-refused", test_decode_refused);
  g_test_add_func ("/office/csv/decode-nul", test_decode_nul);
  g_test_add_func ("/office/csv/round-trip", test_round_trip);
  g_test_add_func ("/office/csv/noise", test_noise);
  return g_test_run ();
}
