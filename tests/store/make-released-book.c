/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes what is kept of a version of the book when it is released: data/book-N.gz and
 * data/book-N.txt. Run once from the source folder, and never again for that version, as
 *     BUILD/tests/store/make-released-book tests/store/data */
#include "config.h"

#include "book-fixture.h"
#include "released-book.h"
#include "store/wb-book-private.h"

static void
pack (const char *from,
      const char *to)
{
  g_autoptr (GFile) source = g_file_new_for_path (from);
  g_autoptr (GFile) target = g_file_new_for_path (to);
  g_autoptr (GZlibCompressor) compressor = g_zlib_compressor_new (G_ZLIB_COMPRESSOR_FORMAT_GZIP, 9);
  g_autoptr (GError) error = NULL;
  g_autoptr (GFileInputStream) input = g_file_read (source, NULL, &error);
  g_autoptr (GFileOutputStream) output = NULL;
  g_autoptr (GInputStream) packed = NULL;

  g_assert_no_error (error);
  output = g_file_replace (target, NULL, FALSE, G_FILE_CREATE_NONE, NULL, &error);
  g_assert_no_error (error);
  packed = g_converter_input_stream_new (G_INPUT_STREAM (input), G_CONVERTER (compressor));
  g_output_stream_splice (G_OUTPUT_STREAM (output), packed, G_OUTPUT_STREAM_SPLICE_CLOSE_TARGET,
                          NULL, &error);
  g_assert_no_error (error);
}

int
main (int    argc,
      char **argv)
{
  guint version = g_strv_length ((char **) wb_migrations ());
  Fixture fixture = { NULL };
  g_autofree char *packed = NULL;
  g_autofree char *described = NULL;
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;

  if (argc != 2)
    g_error ("usage: %s FOLDER", argv[0]);
  packed = g_strdup_printf ("%s/book-%u.gz", argv[1], version);
  described = g_strdup_printf ("%s/book-%u.txt", argv[1], version);

  fixture_set_up_folder (&fixture, NULL);
  released_book_make (fixture.path);
  pack (fixture.path, packed);
  fixture_reopen (&fixture);
  text = released_book_describe (fixture.book);
  g_file_set_contents (described, text, -1, &error);
  g_assert_no_error (error);
  fixture_tear_down (&fixture, NULL);
  return 0;
}
