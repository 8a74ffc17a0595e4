/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "office/wb-data-dir.h"

char *
wb_data_dir_build_path (const char *first,
                        ...)
{
  const char *dir = g_getenv ("WAINBOOK_DATA_DIR");
  g_autofree char *below = NULL;
  va_list args;

  va_start (args, first);
  below = g_build_filename_valist (first, &args);
  va_end (args);

  if (dir == NULL || *dir == '\0')
    dir = WB_PKGDATADIR;

  return g_build_filename (dir, below, NULL);
}
