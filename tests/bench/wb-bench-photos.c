/* SPDX-License-Identifier: GPL-3.0-or-later */
/* See the header. */
#include "wb-bench-photos.h"

#include <glib/gstdio.h>
#include <string.h>

/* Exif with the one tag Orientation = 6, big-endian: CIPA DC-008, 4.5. */
static const guint8 exif[] =
  "\xff\xe1\x00\x22" "Exif\0\0" "MM\x00\x2a\x00\x00\x00\x08"
  "\x00\x01" "\x01\x12\x00\x03\x00\x00\x00\x01\x00\x06\x00\x00" "\x00\x00\x00\x00";

static void
draw (const char *path)
{
  const char *const argv[] = {
    "convert", "-seed", "7", "-size", "1000x750", "plasma:tan-sienna", "-resize", "4000x3000!",
    "-attenuate", "0.15", "+noise", "Gaussian", "-quality", "85", path, NULL,
  };
  g_autoptr (GError) error = NULL;
  int status;

  g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, &status,
                &error);
  if (error == NULL)
    g_spawn_check_wait_status (status, &error);
  if (error != NULL)
    g_error ("convert: %s", error->message);
}

void
wb_bench_make_photos (const char *folder,
                      guint       n)
{
  g_autofree char *first = g_build_filename (folder, "first", NULL);
  g_autofree char *drawn = g_strconcat ("JPEG:", first, NULL);
  g_autofree char *contents = NULL;
  gsize length;

  draw (drawn);
  if (!g_file_get_contents (first, &contents, &length, NULL))
    g_error ("nothing was drawn");
  g_unlink (first);

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *name = g_strdup_printf ("%04u.jpg", i);
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autofree char *comment = g_strdup_printf ("%c%c%c%cphoto %06u", 0xff, 0xfe, 1, 14, i);
      g_autoptr (GByteArray) file = g_byte_array_new ();

      comment[2] = 0;
      g_byte_array_append (file, (const guint8 *) contents, 2);
      g_byte_array_append (file, exif, sizeof exif - 1);
      g_byte_array_append (file, (const guint8 *) comment, 4 + 12);
      g_byte_array_append (file, (const guint8 *) contents + 2, (guint) length - 2);
      if (!g_file_set_contents (path, (const char *) file->data, (gssize) file->len, NULL))
        g_error ("%s cannot be written", path);
    }
}
