/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "office/wb-job-document.h"

#include "core/wb-core.h"
#include "office/wb-data-dir.h"
#include "random-job.h"

#include <json-glib/json-glib.h>
#include <string.h>

static void
test_round_trip (void)
{
  for (guint i = 0; i < 200; i++)
    {
      g_autoptr (WbJob) job = random_job (NULL, 8);
      g_autofree char *text = wb_job_document_write (job);
      g_autoptr (GError) error = NULL;
      g_autoptr (WbJob) read = wb_job_document_read (text, -1, &error);
      g_autofree char *again = NULL;

      g_assert_no_error (error);
      g_assert_true (wb_job_equal (job, read));
      again = wb_job_document_write (read);
      g_assert_cmpstr (again, ==, text);
    }
}

static void
test_empty (void)
{
  g_autoptr (WbJob) job = wb_job_new ("a", "USD");
  g_autofree char *text = wb_job_document_write (job);

  g_assert_cmpstr (text, ==,
                   "{\n"
                   "  \"format\" : \"wainbook-job\",\n"
                   "  \"version\" : 3,\n"
                   "  \"id\" : \"a\",\n"
                   "  \"currency\" : \"USD\",\n"
                   "  \"order\" : {  },\n"
                   "  \"valuation\" : {  }\n"
                   "}\n");
}

/* White space at the ends of a text comes through; a person's input never has it, an older book
 * may. */
static void
test_white_space (void)
{
  g_autoptr (WbJob) empty = wb_job_new ("a", "USD");
  g_autoptr (WbOrder) order = wb_record_copy (wb_job_order (empty));
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbJob) read = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;

  wb_set_text (&order->number, " J 1 ");
  job = wb_job_with (empty, order);
  text = wb_job_document_write (job);
  read = wb_job_document_read (text, -1, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (wb_job_order (read)->number, ==, " J 1 ");
}

#define HEAD  "{\"format\": \"wainbook-job\", \"version\": 3, \"id\": \"a\", " \
              "\"currency\": \"USD\", "
#define ORDER "\"order\": {\"number\": \"J-1\"}, \"valuation\": {}"

static const struct
{
  const char *name;
  const char *text;
  int         code;
  const char *message;   /* how the message starts */
} faults[] = {
  { "nothing", "", WB_CORE_ERROR_PARSE, "the document ends too early (line 1, column 1)" },
  { "space", " \n ", WB_CORE_ERROR_PARSE, "the document ends too early (line 2, column 2)" },
  { "array", "[]", WB_CORE_ERROR_PARSE, "the document is not an object" },
  { "word", "nul", WB_CORE_ERROR_PARSE, "a value was expected here" },
  { "mark", "\xef\xbb\xbf{}", WB_CORE_ERROR_PARSE, "the document starts with a byte-order mark" },
  { "encoding", HEAD "\"order\": {\"number\": \"\xe9\"}}",
    WB_CORE_ERROR_PARSE, "the document is not UTF-8 text" },
  { "comment", "/* a */ {}", WB_CORE_ERROR_PARSE, "a value was expected here" },
  { "comma", "{\"format\": \"wainbook-job\",}", WB_CORE_ERROR_PARSE, "a comma stands before “}”" },
  { "array-comma", "{\"pieces\": [1,]}", WB_CORE_ERROR_PARSE, "pieces: a comma stands before “]”" },
  { "single-quotes", "{'format': 1}",
    WB_CORE_ERROR_PARSE, "a key in quotation marks was expected" },
  { "open-text", "{\"format\": \"wainbook", WB_CORE_ERROR_PARSE, "format: a text is not closed" },
  { "raw-break", "{\"format\": \"a\nb\"}",
    WB_CORE_ERROR_PARSE, "format: a text holds a line break" },
  { "escape", "{\"format\": \"\\q\"}", WB_CORE_ERROR_PARSE, "format: a backslash" },
  { "nul", "{\"format\": \"\\u0000\"}",
    WB_CORE_ERROR_PARSE, "format: a text may not hold the character NUL" },
  { "surrogate", "{\"format\": \"\\ud800x\"}", WB_CORE_ERROR_PARSE, "format: half of a pair" },
  { "second-surrogate", "{\"format\": \"\\ud800\\u0041\"}",
    WB_CORE_ERROR_PARSE, "format: half of a pair" },
  { "fraction", "{\"version\": 2.0}",
    WB_CORE_ERROR_PARSE, "version: a number has to be whole here" },
  { "exponent", "{\"version\": 2e0}",
    WB_CORE_ERROR_PARSE, "version: a number has to be whole here" },
  { "zero", "{\"version\": 01}", WB_CORE_ERROR_PARSE, "version: this is not a number" },
  { "huge", "{\"version\": 2234567890123456789}",
    WB_CORE_ERROR_RANGE, "version: a number has more than 18 digits" },
  { "not-a-number", "{\"version\": NaN}",
    WB_CORE_ERROR_PARSE, "version: a value was expected here" },
  { "tail", "{} {}", WB_CORE_ERROR_PARSE, "something follows the end" },
  { "twice", HEAD "\"id\": \"b\", " ORDER "}",
    WB_CORE_ERROR_PARSE, "id: the key stands here twice" },
  { "twice-inside", HEAD ORDER ", \"pieces\": [{\"id\": \"p\", \"tag\": 1,\n\"tag\": 2}]}",
    WB_CORE_ERROR_PARSE, "pieces[0].tag: the key stands here twice (line 2, column 6)" },
  { "escaped-key", "{\"f\\u006frmat\": 1}", WB_CORE_ERROR_PARSE, "a key holds a backslash" },

  { "no-format", "{}", WB_CORE_ERROR_MISSING, "format: it is missing" },
  { "other-format", "{\"format\": \"wainbook-reckoning\", \"version\": 2}", WB_CORE_ERROR_PARSE,
    "format: “wainbook-reckoning” is not a job document" },
  { "newer", "{\"format\": \"wainbook-job\", \"version\": 4, \"new\": true}", WB_CORE_ERROR_RANGE,
    "version: the document was written by a newer version" },
  { "version-zero", "{\"format\": \"wainbook-job\", \"version\": 0}",
    WB_CORE_ERROR_RANGE, "version: there is no such" },
  { "version-text", "{\"format\": \"wainbook-job\", \"version\": \"1\"}",
    WB_CORE_ERROR_PARSE, "version: a whole number" },
  { "no-id", "{\"format\": \"wainbook-job\", \"version\": 3, \"currency\": \"USD\"}",
    WB_CORE_ERROR_MISSING, "id: it is" },
  { "bad-id",
    "{\"format\": \"wainbook-job\", \"version\": 3, \"id\": \"a b\", \"currency\": \"USD\"}",
    WB_CORE_ERROR_PARSE, "id: “a b” is no id" },
  { "currency",
    "{\"format\": \"wainbook-job\", \"version\": 3, \"id\": \"a\", \"currency\": \"XXQ\"}",
    WB_CORE_ERROR_CURRENCY, "currency: “XXQ” is not a known currency code" },
  { "no-order", HEAD "\"valuation\": {}}", WB_CORE_ERROR_MISSING, "order: it is missing" },
  { "no-number", HEAD "\"order\": {}, \"valuation\": {}}",
    WB_CORE_ERROR_MISSING, "order.number: it is missing" },
  { "order-array", HEAD "\"order\": [], \"valuation\": {}}",
    WB_CORE_ERROR_PARSE, "order: an object in braces" },
  { "order-id", HEAD "\"order\": {\"id\": \"order\", \"number\": \"1\"}, \"valuation\": {}}",
    WB_CORE_ERROR_PARSE,
    "order.id: there is no such field here" },
  { "unknown-part", HEAD ORDER ", \"revision\": 3}",
    WB_CORE_ERROR_PARSE, "revision: there is no such part of a job" },
  { "not-array", HEAD ORDER ", \"pieces\": {}}",
    WB_CORE_ERROR_PARSE, "pieces: an array in square brackets" },
  { "not-object", HEAD ORDER ", \"pieces\": [7]}",
    WB_CORE_ERROR_PARSE, "pieces[0]: an object in braces" },
  { "unknown-field", HEAD ORDER ", \"pieces\": [{\"id\": \"p\", \"color\": \"x\"}]}",
    WB_CORE_ERROR_PARSE,
    "pieces[0].color: there is no such field here" },
  { "piece-no-id", HEAD ORDER ", \"pieces\": [{\"id\": \"p\"}, {\"tag\": 3}]}",
    WB_CORE_ERROR_MISSING,
    "pieces[1].id: it is missing" },
  { "same-id", HEAD ORDER ", \"pieces\": [{\"id\": \"p\"}, {\"id\": \"p\"}]}", WB_CORE_ERROR_RANGE,
    "pieces[1].id: there are two with the id “p”" },
  { "null", HEAD ORDER ", \"pieces\": [{\"id\": \"p\", \"room\": null}]}", WB_CORE_ERROR_PARSE,
    "pieces[0].room: a text in quotation marks" },
  { "empty-text", HEAD ORDER ", \"pieces\": [{\"id\": \"p\", \"room\": \"\"}]}",
    WB_CORE_ERROR_PARSE,
    "pieces[0].room: the text is empty" },
  { "text-number", HEAD ORDER ", \"pieces\": [{\"id\": \"p\", \"tag\": \"3\"}]}",
    WB_CORE_ERROR_PARSE,
    "pieces[0].tag: a whole number" },
  { "number-text", HEAD ORDER ", \"pieces\": [{\"id\": \"p\", \"room\": 3}]}", WB_CORE_ERROR_PARSE,
    "pieces[0].room: a text in quotation marks" },
  { "negative-tag", HEAD ORDER ", \"pieces\": [{\"id\": \"p\", \"tag\": -1}]}", WB_CORE_ERROR_RANGE,
    "pieces[0].tag: it must be from 0" },
  { "boolean", HEAD "\"order\": {\"number\": \"1\", \"guaranteed\": \"yes\"}, \"valuation\": {}}",
    WB_CORE_ERROR_PARSE,
    "order.guaranteed: true or false" },
  { "enum", HEAD ORDER ", \"pieces\": [{\"id\": \"p\", \"packed_by\": \"cp\"}]}",
    WB_CORE_ERROR_PARSE,
    "pieces[0].packed_by: “cp” " },
  { "weight", HEAD ORDER ", \"pieces\": [{\"id\": \"p\", \"weight\": \"12o lb\"}]}",
    WB_CORE_ERROR_PARSE,
    "pieces[0].weight: " },
  { "weight-form", HEAD ORDER ", \"pieces\": [{\"id\": \"p\", \"weight\": \"1,200 lb\"}]}",
    WB_CORE_ERROR_PARSE,
    "pieces[0].weight: “1,200 lb” has to be written “1200 lb”" },
  { "money-form", HEAD ORDER ", \"pieces\": [{\"id\": \"p\", \"listed_value\": \"12.50\"}]}",
    WB_CORE_ERROR_PARSE,
    "pieces[0].listed_value: “12.50” has to be written “12.50 USD”" },
  { "other-money", HEAD ORDER ", \"pieces\": [{\"id\": \"p\", \"listed_value\": \"12.50 EUR\"}]}",
    WB_CORE_ERROR_CURRENCY, "pieces[0].listed_value: " },
  { "negative-money",
    HEAD ORDER ", \"pieces\": [{\"id\": \"p\", \"listed_value\": \"-1.00 USD\"}]}",
    WB_CORE_ERROR_RANGE, "pieces[0].listed_value: " },
  { "date",
    HEAD "\"order\": {\"number\": \"1\", \"booked_on\": \"2024-02-30\"}, \"valuation\": {}}",
    WB_CORE_ERROR_PARSE, "order.booked_on: " },
  { "marks", HEAD ORDER ", \"pieces\": [{\"id\": \"p\", \"marks\": \"sc 4 8\"}]}",
    WB_CORE_ERROR_PARSE,
    "pieces[0].marks: “sc 4 8” has to be written “SC 4-8”" },
  { "control", HEAD ORDER ", \"pieces\": [{\"id\": \"p\", \"room\": \"a\\u0007\"}]}",
    WB_CORE_ERROR_PARSE,
    "pieces[0].room: the text holds a control character" },
  { "dangling", HEAD ORDER ", \"pieces\": [{\"id\": \"p\", \"lot\": \"l\"}]}",
    WB_CORE_ERROR_MISSING,
    "pieces[0].lot: there is no lot “l” in this document" },
  { "sum",
    HEAD ORDER ", \"weighings\": [{\"id\": \"w\", \"gross\": \"30 lb\", \"tare\": \"10 lb\", "
    "\"net\": \"21 lb\"}]}",
    WB_CORE_ERROR_RANGE, "weighing w, net: " },
};

static void
test_fault (gconstpointer data)
{
  gsize i = GPOINTER_TO_SIZE (data);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_job_document_read (faults[i].text, -1, &error);

  g_assert_null (job);
  g_assert_error (error, WB_CORE_ERROR, faults[i].code);
  g_test_message ("%s", error->message);
  if (!g_str_has_prefix (error->message, faults[i].message))
    g_assert_cmpstr (error->message, ==, faults[i].message);
}

/* Cut anywhere, a document is refused, and nothing worse happens. */
static void
test_cut (void)
{
  g_autoptr (WbJob) job = random_job (NULL, 3);
  g_autofree char *text = wb_job_document_write (job);
  gsize length = strlen (text) - 2;   /* without the last brace and line break */

  for (gsize i = 0; i <= length; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *part = g_strndup (text, i);
      g_autoptr (WbJob) read = wb_job_document_read (part, (gssize) i, &error);

      g_assert_null (read);
      g_assert_nonnull (error);
    }
}

/* One byte changed anywhere gives a job or a message, never both and never neither. */
static void
test_changed (void)
{
  g_autoptr (WbJob) job = random_job (NULL, 4);
  g_autofree char *text = wb_job_document_write (job);
  gsize length = strlen (text);

  for (guint i = 0; i < 3000; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *changed = g_strdup (text);
      g_autoptr (WbJob) read = NULL;

      changed[g_test_rand_int_range (0, (gint32) length)] = (char) g_test_rand_int_range (0, 256);
      read = wb_job_document_read (changed, (gssize) length, &error);
      g_assert_true ((read == NULL) == (error != NULL));
    }
}

static void
test_deep (void)
{
  g_autoptr (GString) text = g_string_new ("{\"pieces\": ");
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = NULL;

  for (guint i = 0; i < 100000; i++)
    g_string_append_c (text, '[');
  job = wb_job_document_read (text->str, (gssize) text->len, &error);
  g_assert_null (job);
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
  g_assert_nonnull (strstr (error->message, "too deep"));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/office/job-document/round-trip", test_round_trip);
  g_test_add_func ("/office/job-document/empty", test_empty);
  g_test_add_func ("/office/job-document/white-space", test_white_space);
  g_test_add_func ("/office/job-document/cut", test_cut);
  g_test_add_func ("/office/job-document/changed", test_changed);
  g_test_add_func ("/office/job-document/deep", test_deep);
  for (gsize i = 0; i < G_N_ELEMENTS (faults); i++)
    {
      g_autofree char *path = g_strconcat ("/office/job-document/fault/", faults[i].name, NULL);

      g_test_add_data_func (path, GSIZE_TO_POINTER (i), test_fault);
    }
  return g_test_run ();
}
