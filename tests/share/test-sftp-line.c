/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines of listings as servers write them, and as nobody should. */
#include "config.h"

#include "share/wb-sftp-line.h"

#include <string.h>

static void
test_read (void)
{
  static const struct
  {
    const char *line;
    const char *name;
    gint64      size;
    gboolean    is_folder;
  } cases[] = {
    { "-rw-r--r--    1 mjos     staff      348911 Mar 25 14:29 t-filexfer", "t-filexfer", 348911, FALSE },
    { "-rw-r--r--    1 1000     1000            0 Jan  1  2019 empty.json", "empty.json", 0, FALSE },
    { "drwxr-xr-x    2 courier  courier      4096 Nov 25 19:49 jobs", "jobs", -1, TRUE },
    { "-rw-rw----+   1 Domain Users None 17 Nov 25 19:49 a-1_B\r", "a-1_B", 17, FALSE },
    { "-rw-r--r--  1 u g 9223372036854775807 Nov 25 19:49 most", "most", G_MAXINT64, FALSE },
    { "-rw-r--r--  1 u g 9223372036854775808 Nov 25 19:49 more", "more", -1, FALSE },
    { "-rw-r--r--  1 u g -5 Nov 25 19:49 less", "less", -1, FALSE },
    { "-rw-r--r-- 1 u g 12 2024-03-25 14:29 iso", "iso", 12, FALSE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (WbRemoteEntry) entry = { NULL };

      g_test_message ("%s", cases[i].line);
      g_assert_true (wb_sftp_line_read (cases[i].line, strlen (cases[i].line), &entry));
      g_assert_cmpstr (entry.name, ==, cases[i].name);
      g_assert_cmpint (entry.size, ==, cases[i].size);
      g_assert_cmpint (entry.is_folder, ==, cases[i].is_folder);
      g_assert_cmpint (entry.changed, ==, 0);
    }
}

static void
test_left_out (void)
{
  static const char *const lines[] = {
    "", " ", "-", "d", "total 12", "name",
    "drwxr-xr-x    2 u g 4096 Nov 25 19:49 .",
    "drwxr-xr-x    2 u g 4096 Nov 25 19:49 ..",
    "lrwxrwxrwx    1 u g   10 Nov 25 19:49 link -> elsewhere",
    "crw-rw-rw-    1 u g    0 Nov 25 19:49 null",
    "-rw-r--r--    1 u g    5 Nov 25 19:49 two words",
    "-rw-r--r--    1 u g    5 Nov 25 19:49 many more words",
    "-rw-r--r--    1 u g    5 Nov 25 19:49 a/b",
    "-rw-r--r--    1 u g    5 Nov 25 19:49 gr\303\274n",
    "-rw-r--r--    1 u g    5 Nov 25 name",
    "-rw-r--r-- u g 5 Nov 25 name",
    "-rw-r--r--    1 u g    5 Nov 25 19:49 -rw-r--r-- 1 u g 5 Nov 25 19:49 evil",
    "-rw-r--r--    1 u g    5 Nov 25 19:49",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      g_auto (WbRemoteEntry) entry = { NULL };

      g_test_message ("%s", lines[i]);
      g_assert_false (wb_sftp_line_read (lines[i], strlen (lines[i]), &entry));
      g_assert_null (entry.name);
    }
}

/* Whatever the bytes are, nothing is read that is not there. The sanitizers look on. */
static void
test_any_bytes (void)
{
  static const char some[] = "-d rw19:. /\0\n\t\377Nov2024-03-25abc";

  for (guint round = 0; round < 20000; round++)
    {
      gsize length = (gsize) g_test_rand_int_range (0, 120);
      g_autofree char *line = g_malloc (length);
      g_auto (WbRemoteEntry) entry = { NULL };

      for (gsize i = 0; i < length; i++)
        line[i] = some[g_test_rand_int_range (0, sizeof some - 1)];
      if (wb_sftp_line_read (line, length, &entry))
        {
          g_assert_true (strchr (entry.name, '/') == NULL && strcmp (entry.name, "..") != 0);
          g_assert_cmpint (entry.size, >=, -1);
        }
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/share/sftp-line/read", test_read);
  g_test_add_func ("/share/sftp-line/left-out", test_left_out);
  g_test_add_func ("/share/sftp-line/any-bytes", test_any_bytes);
  return g_test_run ();
}
