/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes random files of versions, one a line, or reads such lines and answers each with "ok" or
 * with what is wrong, for test-depot-schema.
 *
 *     version-files write N
 *     version-files read < LINES */
#include "config.h"

#include "random-version.h"

#include <stdio.h>
#include <string.h>

static void
write_some (guint n)
{
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (WbVersion) version = random_version ();
      g_autoptr (GBytes) bytes = wb_version_write (version);

      printf ("%.*s\n", (int) g_bytes_get_size (bytes),
              (const char *) g_bytes_get_data (bytes, NULL));
    }
}

static void
answer (const char *line)
{
  g_autoptr (GBytes) bytes = g_bytes_new (line, strlen (line));
  g_autoptr (GError) error = NULL;
  g_autoptr (WbVersion) version = wb_version_read ("line", bytes, &error);

  printf ("%s\n", version != NULL ? "ok" : error->message);
}

static void
read_all (void)
{
  g_autoptr (GIOChannel) channel = g_io_channel_unix_new (fileno (stdin));
  char *line;
  gsize end;

  while (g_io_channel_read_line (channel, &line, NULL, &end, NULL) == G_IO_STATUS_NORMAL)
    {
      line[end] = '\0';
      answer (line);
      g_free (line);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  if (argc == 3 && strcmp (argv[1], "write") == 0)
    write_some ((guint) g_ascii_strtoull (argv[2], NULL, 10));
  else if (argc == 2 && strcmp (argv[1], "read") == 0)
    read_all ();
  else
    return 2;
  return 0;
}
