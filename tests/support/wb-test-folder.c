/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/wb-test-folder.h"

#include <errno.h>
#include <glib/gstdio.h>

void
wb_test_remove_tree (const char *path)
{
  g_autoptr (GDir) dir = NULL;
  const char *name;

  if (g_file_test (path, G_FILE_TEST_IS_DIR) && !g_file_test (path, G_FILE_TEST_IS_SYMLINK))
    {
      g_chmod (path, 0700);
      dir = g_dir_open (path, 0, NULL);
    }
  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *child = g_build_filename (path, name, NULL);

      wb_test_remove_tree (child);
    }
  if (g_remove (path) != 0)
    g_assert_cmpint (errno, ==, ENOENT);
}
