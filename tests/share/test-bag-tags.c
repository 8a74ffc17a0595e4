/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The text of tag files: what RFC 8493 allows is read, and nothing else. */
#include "config.h"

#include "share/wb-bag-tags.h"
#include "share/wb-share.h"

#include <string.h>

#define SUM "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
#define LOUD "E3B0C44298FC1C149AFBF4C8996FB92427AE41E4649B934CA495991B7852B855"

static void
test_declaration (void)
{
  static const struct
  {
    const char *text;
    int         code;     /* -1: good */
  } rows[] = {
    { "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n", -1 },
    { "BagIt-Version: 1.0\r\nTag-File-Character-Encoding: UTF-8\r\n", -1 },
    { "BagIt-Version: 1.0\rTag-File-Character-Encoding: UTF-8\r", -1 },
    { "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8", -1 },
    { "BagIt-version: 1.0\nTag-File-Character-Encoding: utf-8\n", -1 },
    { "BagIt-Version: 0.97\nTag-File-Character-Encoding: UTF-8\n", WB_SHARE_ERROR_VERSION },
    { "BagIt-Version: 1.1\nTag-File-Character-Encoding: UTF-8\n", WB_SHARE_ERROR_VERSION },
    { "BagIt-Version: 01.0\nTag-File-Character-Encoding: UTF-8\n", WB_SHARE_ERROR_VERSION },
    { "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-16\n", WB_SHARE_ERROR_ENCODING },
    { "BagIt-Version: 1.0\nTag-File-Character-Encoding: ISO-8859-1\n", WB_SHARE_ERROR_ENCODING },
    { "BagIt-Version: 1\nTag-File-Character-Encoding: UTF-8\n", WB_SHARE_ERROR_TAG_FILE },
    { "BagIt-Version:  1.0\nTag-File-Character-Encoding: UTF-8\n", WB_SHARE_ERROR_TAG_FILE },
    { "BagIt-Version : 1.0\nTag-File-Character-Encoding: UTF-8\n", WB_SHARE_ERROR_TAG_FILE },
    { "BagIt-Version: 1.0 \nTag-File-Character-Encoding: UTF-8\n", WB_SHARE_ERROR_TAG_FILE },
    { "Tag-File-Character-Encoding: UTF-8\nBagIt-Version: 1.0\n", WB_SHARE_ERROR_TAG_FILE },
    { "BagIt-Version: 1.0\n", WB_SHARE_ERROR_TAG_FILE },
    { "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n\n", WB_SHARE_ERROR_TAG_FILE },
    { "BagIt-Version: 1.0\n\nTag-File-Character-Encoding: UTF-8\n", WB_SHARE_ERROR_TAG_FILE },
    { "BagIt-Version: 1.0\nTag-File-Character-Encoding: \n", WB_SHARE_ERROR_TAG_FILE },
    { "\xef\xbb\xbf" "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n",
      WB_SHARE_ERROR_TAG_FILE },
    { "", WB_SHARE_ERROR_TAG_FILE },
    { "\xff\xfe" "B", WB_SHARE_ERROR_ENCODING },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      gboolean good = wb_bag_declaration_check (rows[i].text, strlen (rows[i].text), &error);

      g_assert_cmpint (good, ==, rows[i].code < 0);
      if (rows[i].code >= 0)
        g_assert_error (error, WB_SHARE_ERROR, rows[i].code);
    }
}

static void
test_manifest_good (void)
{
  static const struct
  {
    const char *text;
    const char *paths;   /* joined by "|" */
  } rows[] = {
    { "", "" },
    { SUM " data/a\n", "data/a" },
    { SUM "  data/a", "data/a" },
    { LOUD "\t \tdata/a\n" SUM " data/b c\n", "data/a|data/b c" },
    { SUM " data/a\r\n" SUM " data/b\r\n", "data/a|data/b" },
    { SUM " data/a\r" SUM " data/b", "data/a|data/b" },
    { SUM " data/100%25\n", "data/100%" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) lines = NULL;
      g_autoptr (GString) paths = g_string_new (NULL);

      lines = wb_bag_manifest_parse ("manifest-sha256.txt", rows[i].text, strlen (rows[i].text),
                                     wb_bag_algorithm ("sha256"), FALSE, &error);
      g_assert_no_error (error);
      for (guint k = 0; k < lines->len; k++)
        {
          const WbBagLine *line = g_ptr_array_index (lines, k);

          g_assert_cmpstr (line->digest, ==, SUM);
          g_string_append_printf (paths, "%s%s", k > 0 ? "|" : "", line->path);
        }
      g_assert_cmpstr (paths->str, ==, rows[i].paths);
    }
}

static void
test_manifest_bad (void)
{
  static const struct
  {
    const char *text;
    gboolean    of_tags;
    int         code;
    const char *says;
  } rows[] = {
    { "\n", FALSE, WB_SHARE_ERROR_TAG_FILE, "line 1" },
    { SUM " data/a\n\n", FALSE, WB_SHARE_ERROR_TAG_FILE, "line 2" },
    { SUM "\n", FALSE, WB_SHARE_ERROR_TAG_FILE, "line 1" },
    { SUM " \n", FALSE, WB_SHARE_ERROR_TAG_FILE, "line 1" },
    { SUM "data/a\n", FALSE, WB_SHARE_ERROR_TAG_FILE, "line 1" },
    { "abc data/a\n", FALSE, WB_SHARE_ERROR_TAG_FILE, "length" },
    { SUM "00 data/a\n", FALSE, WB_SHARE_ERROR_TAG_FILE, "length" },
    { " " SUM " data/a\n", FALSE, WB_SHARE_ERROR_TAG_FILE, "line 1" },
    { "\\" SUM " data/a\n", FALSE, WB_SHARE_ERROR_TAG_FILE, "line 1" },
    { SUM " *data/a\n", FALSE, WB_SHARE_ERROR_NAME, "line 1" },
    { SUM " data/%41\n", FALSE, WB_SHARE_ERROR_TAG_FILE, "%" },
    { SUM " data/a%0Ab\n", FALSE, WB_SHARE_ERROR_NAME, "control" },
    { SUM " data/../a\n", FALSE, WB_SHARE_ERROR_NAME, ".." },
    { SUM " /etc/passwd\n", FALSE, WB_SHARE_ERROR_NAME, "root" },
    { SUM " bagit.txt\n", FALSE, WB_SHARE_ERROR_TAG_FILE, "outside" },
    { SUM " data\n", FALSE, WB_SHARE_ERROR_TAG_FILE, "outside" },
    { SUM " data/a\n", TRUE, WB_SHARE_ERROR_TAG_FILE, "data/" },
    { SUM " tagmanifest-md5.txt\n", TRUE, WB_SHARE_ERROR_TAG_FILE, "tag manifest" },
    { SUM " data/a\n" SUM " data/a\n", FALSE, WB_SHARE_ERROR_CLASH, "line 2" },
    { SUM " data/\xc3\xa9\n" SUM " data/e\xcc\x81\n", FALSE, WB_SHARE_ERROR_CLASH, "line 2" },
    { "\xef\xbb\xbf" SUM " data/a\n", FALSE, WB_SHARE_ERROR_TAG_FILE, "byte-order" },
    { SUM " data/\xff\n", FALSE, WB_SHARE_ERROR_ENCODING, "UTF-8" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) lines = NULL;

      lines = wb_bag_manifest_parse ("m.txt", rows[i].text, strlen (rows[i].text),
                                     wb_bag_algorithm ("sha256"), rows[i].of_tags, &error);
      g_assert_null (lines);
      g_assert_error (error, WB_SHARE_ERROR, rows[i].code);
      g_assert_nonnull (strstr (error->message, rows[i].says));
    }
  g_assert_null (wb_bag_manifest_parse ("m.txt", SUM " data/a\0b\n", 74, NULL, FALSE, NULL));
}

static void
test_info (void)
{
  static const char text[] = "Bagging-Date: 2026-03-04\r\nA b:\tone: two\n  \t three\nEmpty: \n"
                             "A b: again";
  static const char *const bad[] = { "no colon\n", ": x\n", " Label: x\n", "Label : x\n",
                                     "Label:x\n", "Label:\n", "A: b\n\nC: d\n", "\tx\n" };
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) elements = wb_bag_info_parse (text, strlen (text), &error);
  static const char *const expected[] = { "Bagging-Date", "2026-03-04", "A b", "one: two three",
                                          "Empty", "", "A b", "again" };

  g_assert_no_error (error);
  g_assert_cmpuint (elements->len, ==, 4);
  for (guint i = 0; i < elements->len; i++)
    {
      const WbBagElement *element = g_ptr_array_index (elements, i);

      g_assert_cmpstr (element->label, ==, expected[2 * i]);
      g_assert_cmpstr (element->value, ==, expected[2 * i + 1]);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) fault = NULL;

      g_assert_null (wb_bag_info_parse (bad[i], strlen (bad[i]), &fault));
      g_assert_error (fault, WB_SHARE_ERROR, WB_SHARE_ERROR_TAG_FILE);
    }
}

static void
test_oxum (void)
{
  static const char *const bad[] = { "", ".", "1", "1.", ".1", "1.2.3", "-1.2", "1.-2", "1 .2", "a.b",
                                     "0x1.2", "99999999999999999999.1", "1.2 " };
  guint64 octets, streams;

  g_assert_true (wb_bag_oxum_parse ("279164409832.1198", &octets, &streams));
  g_assert_cmpuint (octets, ==, 279164409832);
  g_assert_cmpuint (streams, ==, 1198);
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    g_assert_false (wb_bag_oxum_parse (bad[i], &octets, &streams));
}

static void
test_fetch (void)
{
  g_assert_true (wb_bag_fetch_is_empty ("", 0));
  g_assert_true (wb_bag_fetch_is_empty ("\r\n \t\n", 5));
  g_assert_false (wb_bag_fetch_is_empty ("https://example.com/a - data/a\n", 31));
  g_assert_false (wb_bag_fetch_is_empty ("\0", 1));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/share/bag-tags/declaration", test_declaration);
  g_test_add_func ("/share/bag-tags/manifest/good", test_manifest_good);
  g_test_add_func ("/share/bag-tags/manifest/bad", test_manifest_bad);
  g_test_add_func ("/share/bag-tags/info", test_info);
  g_test_add_func ("/share/bag-tags/oxum", test_oxum);
  g_test_add_func ("/share/bag-tags/fetch", test_fetch);
  return g_test_run ();
}
