/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which names are safe, which are the same to some computer, and how they stand in a manifest. */
#include "config.h"

#include "share/wb-bag-name.h"
#include "share/wb-share.h"

#include <string.h>

static void
test_good (void)
{
  static const char *const names[] = {
    "data/job.json", "a", "data/photos/0a.jpg", "data/~x", "data/a b", "data/100% é", "data/.keep",
    "data/console", "data/com", "data/com10", "data/a..b", "data/…", "data/日本語",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (GError) error = NULL;

      wb_bag_name_check (names[i], &error);
      g_assert_no_error (error);
    }
}

static void
test_bad (void)
{
  static const char *const names[] = {
    "", "/", "/etc/passwd", "../x", "data/..", "data/../x", "data/./x", "./data", "data//x", "data/",
    "~", "~root/x", "data\\x", "C:\\x", "C:x", "c:/x", "data/x:y", "\\\\?\\C:\\x", "data/a\nb",
    "data/a\rb", "data/a\tb", "data/\x1b[2J", "data/\x7f", "data/\xc2\x85", "data/\xe2\x80\xae" "gpj.exe",
    "data/\xe2\x80\xa8", "data/\xff", "data/\xc3", "data/\xed\xa0\x80", "data/a ", "data/ a",
    "data/a.", "data /x", "data/nul", "data/NUL.txt", "data/Com1", "data/lpt9.jpg", "aux/x",
    "data/a*b", "data/a?b", "data/a\"b", "data/a<b", "data/a>b", "data/a|b",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_false (wb_bag_name_check (names[i], &error));
      g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_NAME);
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
      for (const char *at = error->message; *at != '\0'; at++)
        g_assert_cmpint ((guchar) *at, >=, ' ');
    }
}

static void
test_long (void)
{
  g_autofree char *part = g_strnfill (WB_BAG_NAME_MAX_PART, 'a');
  g_autofree char *good = g_strconcat ("data/", part, NULL);
  g_autofree char *longer = g_strconcat (good, "b", NULL);
  g_autofree char *whole = g_strjoin ("/", part, part, part, part, part, NULL);
  g_autofree char *deep = g_strnfill (2 * WB_BAG_NAME_MAX_PARTS + 1, 'a');

  for (gsize i = 1; i < strlen (deep); i += 2)
    deep[i] = '/';
  g_assert_true (wb_bag_name_check (good, NULL));
  g_assert_false (wb_bag_name_check (longer, NULL));
  g_assert_false (wb_bag_name_check (whole, NULL));
  g_assert_false (wb_bag_name_check (deep, NULL));
  deep[strlen (deep) - 2] = '\0';
  g_assert_true (wb_bag_name_check (deep, NULL));
}

static void
test_keys (void)
{
  static const struct
  {
    const char *one;
    const char *other;
    gboolean    same;
  } rows[] = {
    { "data/a", "data/A", TRUE },
    { "data/\xc3\xa9", "data/e\xcc\x81", TRUE },          /* é, composed and not */
    { "data/\xc3\x89", "data/e\xcc\x81", TRUE },
    { "data/stra\xc3\x9f" "e", "data/STRASSE", TRUE },
    { "data/\xef\xac\x81x", "data/fix", TRUE },           /* the ligature fi */
    { "data/\xe2\x84\xaa", "data/k", TRUE },              /* the sign for kelvin */
    { "data/a", "data/b", FALSE },
    { "data/e", "data/\xc3\xa9", FALSE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *one = wb_bag_name_key (rows[i].one);
      g_autofree char *other = wb_bag_name_key (rows[i].other);

      g_assert_cmpint (strcmp (one, other) == 0, ==, rows[i].same);
    }
}

static void
test_normal (void)
{
  g_autofree char *name = wb_bag_name_normal ("data/e\xcc\x81");

  g_assert_cmpstr (name, ==, "data/\xc3\xa9");
}

/* RFC 8493, 2.1.3: CR, LF and %, and only those. */
static void
test_manifest (void)
{
  static const struct
  {
    const char *name;
    const char *text;
  } rows[] = {
    { "data/a b", "data/a b" },
    { "data/100%", "data/100%25" },
    { "data/a\nb\rc", "data/a%0Ab%0Dc" },
    { "data/a%0Ab", "data/a%250Ab" },
  };
  static const char *const bad[] = { "data/a%20b", "data/%", "data/%2", "data/%2g", "data/%00",
                                     "data/%2e%2e/x", "data%2Fx" };
  g_autofree char *small = wb_bag_name_decode ("data/a%0ab%0dc");

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = wb_bag_name_encode (rows[i].name);
      g_autofree char *name = wb_bag_name_decode (rows[i].text);

      g_assert_cmpstr (text, ==, rows[i].text);
      g_assert_cmpstr (name, ==, rows[i].name);
    }
  g_assert_cmpstr (small, ==, "data/a\nb\rc");
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    g_assert_null (wb_bag_name_decode (bad[i]));
}

static void
test_display (void)
{
  g_autofree char *plain = wb_bag_name_display ("data/é 1");
  g_autofree char *odd = wb_bag_name_display ("a\x1b\xff\xe2\x80\xae");
  g_autofree char *many = g_strnfill (5000, 'x');
  g_autofree char *cut = wb_bag_name_display (many);

  g_assert_cmpstr (plain, ==, "data/é 1");
  g_assert_cmpstr (odd, ==, "a\\x1b\\xff\\u202e");
  g_assert_cmpuint (strlen (cut), <, 300);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/share/bag-name/good", test_good);
  g_test_add_func ("/share/bag-name/bad", test_bad);
  g_test_add_func ("/share/bag-name/long", test_long);
  g_test_add_func ("/share/bag-name/keys", test_keys);
  g_test_add_func ("/share/bag-name/normal", test_normal);
  g_test_add_func ("/share/bag-name/manifest", test_manifest);
  g_test_add_func ("/share/bag-name/display", test_display);
  return g_test_run ();
}
