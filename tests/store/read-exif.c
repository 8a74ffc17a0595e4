/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the store reads from pictures, one line a file, for a test that compares it with another
 * reader: path, time, offset, orientation, camera, width, height, with tabs between. */
#include "config.h"

#include "core/wb-record.h"
#include "store/wb-exif.h"

#include <stdio.h>

static char *
number (gint64 value)
{
  return value == WB_INTEGER_UNSET ? g_strdup ("") : g_strdup_printf ("%" G_GINT64_FORMAT, value);
}

int
main (int    argc,
      char **argv)
{
  for (int i = 1; i < argc; i++)
    {
      g_auto (WbExif) exif = { 0 };
      g_autofree char *orientation = NULL, *width = NULL, *height = NULL;

      wb_exif_read (argv[i], &exif);
      orientation = number (exif.orientation);
      width = number (exif.width);
      height = number (exif.height);
      printf ("%s\t%s\t%s\t%s\t%s\t%s\t%s\n", argv[i],
               exif.taken_at != NULL ? exif.taken_at : "",
               exif.taken_offset != NULL ? exif.taken_offset : "", orientation,
               exif.camera != NULL ? exif.camera : "", width, height);
    }
  return 0;
}
