/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Decoding: what a file is, how it is scaled and turned, and that half a picture is never taken for
 * a whole one. */
#include "config.h"

#include "store/wb-picture.h"

#include <glib/gstdio.h>
#include <string.h>

/* 40 × 20: red in the top left corner, else white. */
static GdkPixbuf *
make_picture (void)
{
  GdkPixbuf *pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 40, 20);
  g_autoptr (GdkPixbuf) corner = gdk_pixbuf_new_subpixbuf (pixbuf, 0, 0, 16, 8);

  gdk_pixbuf_fill (pixbuf, 0xffffffff);
  gdk_pixbuf_fill (corner, 0xff0000ff);
  return pixbuf;
}

static GBytes *
save (GdkPixbuf  *pixbuf,
      const char *type)
{
  char *buffer = NULL;
  gsize length = 0;
  g_autoptr (GError) error = NULL;

  gdk_pixbuf_save_to_buffer (pixbuf, &buffer, &length, type, &error, NULL);
  g_assert_no_error (error);
  return g_bytes_new_take (buffer, length);
}

/* A picture of 600 × 400 with so much in it that its end is far from its start. */
static GBytes *
save_noise (const char *type)
{
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 600, 400);
  guint8 *pixels = gdk_pixbuf_get_pixels (pixbuf);
  guint32 value = 1;

  for (int i = 0; i < gdk_pixbuf_get_rowstride (pixbuf) * 399; i++)
    {
      value = value * 1664525 + 1013904223;
      pixels[i] = (guint8) (value >> 24);
    }
  return save (pixbuf, type);
}

static gboolean
is_red (GdkPixbuf *pixbuf,
        int        x,
        int        y)
{
  const guint8 *at = gdk_pixbuf_read_pixels (pixbuf) + y * gdk_pixbuf_get_rowstride (pixbuf) +
                     x * gdk_pixbuf_get_n_channels (pixbuf);

  return at[0] > 200 && at[1] < 90 && at[2] < 90;
}

static void
test_format (void)
{
  static const struct
  {
    const char      *head;
    gsize            length;
    WbPictureFormat  format;
  } heads[] = {
    { "\xff\xd8\xff\xe1", 4, WB_PICTURE_JPEG },
    { "\x89PNG\r\n\x1a\n", 8, WB_PICTURE_PNG },
    { "II*\0", 4, WB_PICTURE_TIFF },
    { "MM\0*", 4, WB_PICTURE_TIFF },
    { "RIFF\x10\0\0\0WEBP", 12, WB_PICTURE_WEBP },
    { "\0\0\0\x18" "ftypheic", 12, WB_PICTURE_HEIC },
    { "\0\0\0\x18" "ftypmp42", 12, WB_PICTURE_UNKNOWN },
    { "RIFF\x10\0\0\0WAVE", 12, WB_PICTURE_UNKNOWN },
    { "\xff\xd8", 2, WB_PICTURE_UNKNOWN },
    { "<svg xmlns=\"", 12, WB_PICTURE_UNKNOWN },
    { "%PDF-1.7", 8, WB_PICTURE_UNKNOWN },
    { "", 0, WB_PICTURE_UNKNOWN },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (heads); i++)
    {
      WbPictureFormat format = wb_picture_format ((const guint8 *) heads[i].head, heads[i].length);

      g_assert_cmpint (format, ==, heads[i].format);
      if (format != WB_PICTURE_UNKNOWN)
        g_assert_cmpint (wb_picture_from_media_type (wb_picture_media_type (format)), ==, format);
    }
  g_assert_true (wb_picture_can_decode (WB_PICTURE_JPEG));
  g_assert_true (wb_picture_can_decode (WB_PICTURE_PNG));
  g_assert_true (wb_picture_can_decode (WB_PICTURE_TIFF));
  g_assert_false (wb_picture_can_decode (WB_PICTURE_UNKNOWN));
}

/* Where the red corner goes: CIPA DC-008, tag 0x0112, "the 0th row is the visual … of the
 * image". */
static void
test_orientation (gconstpointer data)
{
  static const struct
  {
    gboolean right;
    gboolean bottom;
  } corner[] = {
    [1] = { FALSE, FALSE }, [2] = { TRUE, FALSE }, [3] = { TRUE, TRUE }, [4] = { FALSE, TRUE },
    [5] = { FALSE, FALSE }, [6] = { TRUE, FALSE }, [7] = { TRUE, TRUE }, [8] = { FALSE, TRUE },
  };
  g_autoptr (GdkPixbuf) picture = make_picture ();
  g_autoptr (GBytes) bytes = save (picture, data);

  for (gint64 orientation = 0; orientation <= 9; orientation++)
    {
      gint64 shown = orientation >= 1 && orientation <= 8 ? orientation : 1;
      int width = shown >= 5 ? 20 : 40, height = shown >= 5 ? 40 : 20;
      g_autoptr (GError) error = NULL;
      g_autoptr (GdkPixbuf) upright = wb_picture_decode (bytes, 0, orientation, &error);

      g_assert_no_error (error);
      g_assert_cmpint (gdk_pixbuf_get_width (upright), ==, width);
      g_assert_cmpint (gdk_pixbuf_get_height (upright), ==, height);
      for (int right = 0; right <= 1; right++)
        for (int bottom = 0; bottom <= 1; bottom++)
          g_assert_cmpint (is_red (upright, right ? width - 3 : 2, bottom ? height - 3 : 2), ==,
                           right == corner[shown].right && bottom == corner[shown].bottom);
    }
}

static void
test_scaled (gconstpointer data)
{
  g_autoptr (GBytes) bytes = save_noise (data);
  g_autoptr (GError) error = NULL;
  g_autoptr (GdkPixbuf) small = wb_picture_decode (bytes, 150, 1, &error);
  g_autoptr (GdkPixbuf) own = wb_picture_decode (bytes, 5000, 1, &error);
  g_autoptr (WbPictureReader) reader = NULL;
  g_autoptr (GdkPixbuf) turned = NULL;
  int width = 0, height = 0;

  g_assert_no_error (error);
  g_assert_cmpint (gdk_pixbuf_get_width (small), ==, 150);
  g_assert_cmpint (gdk_pixbuf_get_height (small), ==, 100);
  g_assert_cmpint (gdk_pixbuf_get_width (own), ==, 600);

  reader = wb_picture_reader_new (wb_picture_format (g_bytes_get_data (bytes, NULL), 16), 150);
  g_assert_true (wb_picture_reader_feed (reader, g_bytes_get_data (bytes, NULL),
                                         g_bytes_get_size (bytes), &error));
  turned = wb_picture_reader_finish (reader, 6, &width, &height, &error);
  g_assert_no_error (error);
  g_assert_cmpint (width, ==, 600);
  g_assert_cmpint (height, ==, 400);
  g_assert_cmpint (gdk_pixbuf_get_width (turned), ==, 100);
  g_assert_cmpint (gdk_pixbuf_get_height (turned), ==, 150);
}

/* Cut at many places, fed in odd parts, at both sizes: never a picture. */
static void
test_cut_off (gconstpointer data)
{
  g_autoptr (GBytes) bytes = save_noise (data);
  gsize length = g_bytes_get_size (bytes);

  for (guint i = 1; i < 40; i++)
    {
      gsize cut = MAX (WB_PICTURE_HEAD, length * i / 40);
      g_autoptr (GBytes) half = g_bytes_new_from_bytes (bytes, 0, cut);
      g_autoptr (GError) error = NULL;
      g_autoptr (GdkPixbuf) pixbuf = wb_picture_decode (half, i % 2 == 0 ? 0 : 150, 1, &error);

      g_test_message ("%" G_GSIZE_FORMAT " of %" G_GSIZE_FORMAT, cut, length);
      g_assert_null (pixbuf);
      g_assert_error (error, WB_PICTURE_ERROR, WB_PICTURE_ERROR_CUT_OFF);
    }
}

static void
test_rubbish (void)
{
  static const char *const heads[] = { "\xff\xd8\xff\xe0", "\x89PNG\r\n\x1a\n", "II*", "MM" };

  for (gsize i = 0; i < G_N_ELEMENTS (heads); i++)
    {
      g_autoptr (GByteArray) rubbish = g_byte_array_new ();
      g_autoptr (GBytes) bytes = NULL;
      g_autoptr (GdkPixbuf) pixbuf = NULL;
      g_autoptr (GError) error = NULL;

      g_byte_array_append (rubbish, (const guint8 *) heads[i], (guint) strlen (heads[i]));
      if (i == 2)
        g_byte_array_append (rubbish, (const guint8 *) "\0", 1);
      if (i == 3)
        g_byte_array_append (rubbish, (const guint8 *) "\0*", 2);
      for (int n = 0; n < 5000; n++)
        {
          guint8 byte = (guint8) g_test_rand_int_range (0, 256);

          g_byte_array_append (rubbish, &byte, 1);
        }
      bytes = g_byte_array_free_to_bytes (g_steal_pointer (&rubbish));
      pixbuf = wb_picture_decode (bytes, 100, 1, &error);
      g_assert_null (pixbuf);
      g_assert_nonnull (error);
      g_assert_true (error->domain == WB_PICTURE_ERROR);
    }
}

/* A progressive picture shows all its rows from the first scan on, only coarser. */
static void
test_progressive (void)
{
  g_autofree char *folder = g_dir_make_tmp ("progressive-XXXXXX", NULL);
  g_autofree char *plain = g_build_filename (folder, "plain.jpg", NULL);
  g_autofree char *progressive = g_build_filename (folder, "progressive.jpg", NULL);
  const char *const argv[] = { "convert", plain, "-interlace", "JPEG", progressive, NULL };
  g_autoptr (GBytes) noise = save_noise ("jpeg");
  g_autoptr (GError) error = NULL;
  g_autofree char *contents = NULL;
  gsize length;
  int status;

  g_assert_true (g_file_set_contents (plain, g_bytes_get_data (noise, NULL),
                                      (gssize) g_bytes_get_size (noise), NULL));
  g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, &status,
                &error);
  g_assert_no_error (error);
  g_assert_true (g_spawn_check_wait_status (status, &error));
  g_assert_true (g_file_get_contents (progressive, &contents, &length, &error));
  g_assert_no_error (error);

  for (guint i = 1; i <= 20; i++)
    {
      g_autoptr (GBytes) bytes = g_bytes_new (contents, length * i / 20);
      g_autoptr (GdkPixbuf) pixbuf = wb_picture_decode (bytes, i % 2 == 0 ? 0 : 150, 1, &error);

      g_test_message ("%u of 20 parts", i);
      if (i == 20)
        g_assert_no_error (error);
      else
        g_assert_error (error, WB_PICTURE_ERROR, WB_PICTURE_ERROR_CUT_OFF);
      g_assert_true ((pixbuf != NULL) == (i == 20));
      g_clear_error (&error);
    }

  g_remove (plain);
  g_remove (progressive);
  g_rmdir (folder);
}

/* Fed byte by byte, and with something behind its end, a picture is what it is. */
static void
test_by_bytes (gconstpointer data)
{
  g_autoptr (GdkPixbuf) picture = make_picture ();
  g_autoptr (GBytes) bytes = save (picture, data);
  const guint8 *at = g_bytes_get_data (bytes, NULL);
  g_autoptr (WbPictureReader) reader = wb_picture_reader_new (wb_picture_format (at, 16), 0);
  g_autoptr (GdkPixbuf) decoded = NULL;
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < g_bytes_get_size (bytes); i++)
    g_assert_true (wb_picture_reader_feed (reader, at + i, 1, &error));
  wb_picture_reader_feed (reader, (const guint8 *) "\0\0\0\0", 4, &error);
  g_assert_no_error (error);
  decoded = wb_picture_reader_finish (reader, 1, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (gdk_pixbuf_get_width (decoded), ==, 40);
}

/* A small file that says it is 60,000 × 60,000 is refused before anything is set aside for it. */
static void
test_too_wide (void)
{
  static const guint8 png[] =
    "\x89\x50\x4e\x47\x0d\x0a\x1a\x0a\x00\x00\x00\x0d\x49\x48\x44\x52"
    "\x00\x00\xea\x60\x00\x00\xea\x60\x08\x02\x00\x00\x00\x0f\xb0\xe2"
    "\x15\x00\x00\x00\x09\x49\x44\x41\x54\x78\x9c\x63\x00\x00\x00\x01"
    "\x00\x01\x5e\xff\x7d\xf9\x00\x00\x00\x00\x49\x45\x4e\x44\xae\x42"
    "\x60\x82";
  g_autoptr (GBytes) bytes = g_bytes_new_static (png, sizeof png - 1);
  g_autoptr (GError) error = NULL;
  g_autoptr (GdkPixbuf) pixbuf = wb_picture_decode (bytes, 100, 1, &error);

  g_assert_null (pixbuf);
  g_assert_error (error, WB_PICTURE_ERROR, WB_PICTURE_ERROR_TOO_WIDE);
  g_assert_cmpstr (error->message, ==, "60000 × 60000 pixels");
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/store/picture/format", test_format);
  g_test_add_data_func ("/store/picture/orientation/jpeg", "jpeg", test_orientation);
  g_test_add_data_func ("/store/picture/orientation/png", "png", test_orientation);
  g_test_add_data_func ("/store/picture/scaled/jpeg", "jpeg", test_scaled);
  g_test_add_data_func ("/store/picture/scaled/png", "png", test_scaled);
  g_test_add_data_func ("/store/picture/cut-off/jpeg", "jpeg", test_cut_off);
  g_test_add_data_func ("/store/picture/cut-off/png", "png", test_cut_off);
  g_test_add_data_func ("/store/picture/cut-off/tiff", "tiff", test_cut_off);
  g_test_add_func ("/store/picture/cut-off/progressive", test_progressive);
  g_test_add_data_func ("/store/picture/by-bytes/jpeg", "jpeg", test_by_bytes);
  g_test_add_data_func ("/store/picture/by-bytes/png", "png", test_by_bytes);
  g_test_add_func ("/store/picture/rubbish", test_rubbish);
  g_test_add_func ("/store/picture/too-wide", test_too_wide);

  return g_test_run ();
}
