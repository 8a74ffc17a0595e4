/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Libraries that are opened when they are first used: those of the program are there and whole, and
 * one that is not is told about. */
#include "config.h"

#include "share/wb-archive.h"
#include "share/wb-curl.h"
#include "share/wb-library.h"
#include "share/wb-share.h"
#include "share/wb-transfer.h"
#include "share/wb-xml.h"

#include <math.h>
#include <string.h>

static struct
{
  __typeof__ (cos) *cos;
  __typeof__ (sqrt) *sqrt;
} maths;

static const char *const maths_names[] = { "cos", "sqrt" };

static void
test_opens (void)
{
  WbLibrary library = { "libm.so.6", "libc6", maths_names, 2, &maths };
  g_autoptr (GError) error = NULL;
  gboolean opened = wb_library_open (&library, &error);

  g_assert_no_error (error);
  g_assert_true (opened);
  g_assert_cmpfloat (maths.sqrt (9.0), ==, 3.0);
  g_assert_cmpfloat (maths.cos (0.0), ==, 1.0);
  g_assert_true (wb_library_open (&library, NULL));
}

/* The person reads which library it is, and the package to install. */
static void
test_missing (void)
{
  gpointer table[2] = { NULL, NULL };
  WbLibrary library = { "libwainbook-none.so.7", "libwainbook-none7", maths_names, 2, table };

  for (guint time = 0; time < 2; time++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_false (wb_library_open (&library, &error));
      g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_LIBRARY);
      g_assert_true (g_str_has_prefix (error->message, "“libwainbook-none.so.7”: "));
      g_assert_nonnull (strstr (error->message, "No such file"));
      g_assert_true (g_str_has_suffix (error->message, "the package libwainbook-none7"));
    }
  g_assert_null (table[0]);
}

/* One that lacks a function is not used at all. */
static void
test_not_whole (void)
{
  static const char *const names[] = { "sqrt", "wainbook_no_such_function" };
  gpointer table[2] = { NULL, NULL };
  WbLibrary library = { "libm.so.6", "libc6", names, 2, table };
  g_autoptr (GError) error = NULL;

  g_assert_false (wb_library_open (&library, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_LIBRARY);
  g_assert_nonnull (strstr (error->message, "wainbook_no_such_function"));
  g_assert_null (table[0]);
}

static gpointer
open_in_thread (gpointer library)
{
  return GINT_TO_POINTER (wb_library_open (library, NULL) && maths.sqrt (16.0) > 3.5);
}

static void
test_threads (void)
{
  WbLibrary library = { "libm.so.6", "libc6", maths_names, 2, &maths };
  GThread *threads[8];

  memset (&maths, 0, sizeof maths);
  for (gsize i = 0; i < G_N_ELEMENTS (threads); i++)
    threads[i] = g_thread_new ("opener", open_in_thread, &library);
  for (gsize i = 0; i < G_N_ELEMENTS (threads); i++)
    g_assert_true (GPOINTER_TO_INT (g_thread_join (threads[i])));
}

/* What the program was built for is what it opens. */
static void
test_own (void)
{
  g_autoptr (GError) error = NULL;
  struct archive *archive;
  CURL *easy;
  gboolean opened = wb_curl_open (&error) && wb_xml_open (&error) && wb_archive_open (&error);

  g_assert_no_error (error);
  g_assert_true (opened);
  easy = curl_easy_init ();
  g_assert_cmpint (curl_easy_setopt (easy, CURLOPT_NOSIGNAL, 1L), ==, CURLE_OK);
  curl_easy_cleanup (easy);
  archive = archive_read_new ();
  g_assert_cmpint (archive_read_support_format_zip (archive), ==, ARCHIVE_OK);
  archive_read_free (archive);
}

/* RFC 9110, 5.6.7: its example, and the two obsolete forms of the same. */
static void
test_dates (void)
{
  static const struct
  {
    const char *date;
    gint64      seconds;
  } rows[] = {
    { "Sun, 06 Nov 1994 08:49:37 GMT", 784111777 },
    { "Sunday, 06-Nov-94 08:49:37 GMT", 784111777 },
    { "Sun Nov  6 08:49:37 1994", 784111777 },
    { "", 0 },
    { "yesterday", 0 },
    { "Sun, 06 Nov 1904 08:49:37 GMT", 0 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (wb_transfer_read_date (rows[i].date), ==, rows[i].seconds);
}

static void
test_xml (void)
{
  static const char good[] = "<a> x <b>y</b>\n</a>";
  static const char *const bad[] = {
    "", "<a>", "x", "<!DOCTYPE a [<!ENTITY e 'x'>]><a>&e;</a>", "<!DOCTYPE a><a/>",
  };
  g_autoptr (xmlDoc) document = wb_xml_read ((const guint8 *) good, strlen (good));
  g_autofree char *text = wb_xml_text (wb_xml_root (document));
  g_autofree char *none = wb_xml_text (NULL);

  g_assert_cmpstr (text, ==, "x y");
  g_assert_cmpstr (none, ==, "");
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    g_assert_null (wb_xml_read ((const guint8 *) bad[i], strlen (bad[i])));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/share/library/opens", test_opens);
  g_test_add_func ("/share/library/missing", test_missing);
  g_test_add_func ("/share/library/not-whole", test_not_whole);
  g_test_add_func ("/share/library/threads", test_threads);
  g_test_add_func ("/share/library/own", test_own);
  g_test_add_func ("/share/library/dates", test_dates);
  g_test_add_func ("/share/library/xml", test_xml);

  return g_test_run ();
}
