/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "office/wb-file.h"

#include <glib/gstdio.h>
#include <string.h>

typedef struct
{
  char *folder;
  char *path;
} Fixture;

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  g_autoptr (GError) error = NULL;

  fixture->folder = g_dir_make_tmp ("wainbook-XXXXXX", &error);
  g_assert_no_error (error);
  fixture->path = g_build_filename (fixture->folder, "file", NULL);
}

/* Nothing but the file itself may be left. */
static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  g_unlink (fixture->path);
  g_assert_cmpint (g_rmdir (fixture->folder), ==, 0);
  g_free (fixture->path);
  g_free (fixture->folder);
}

static gboolean
write_text (const char  *path,
            const char  *text,
            gboolean     replace,
            GError     **error)
{
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));

  return wb_file_write (path, bytes, replace, error);
}

static void
assert_holds (const char *path,
              const char *text)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = wb_file_read (file, 1000, NULL, &error);
  g_autoptr (GBytes) expected = g_bytes_new (text, strlen (text));

  g_assert_no_error (error);
  g_assert_true (g_bytes_equal (bytes, expected));
}

static void
test_write (Fixture       *fixture,
            gconstpointer  data)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (write_text (fixture->path, "one", FALSE, &error));
  g_assert_no_error (error);
  assert_holds (fixture->path, "one");

  g_assert_false (write_text (fixture->path, "two", FALSE, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_EXISTS);
  g_clear_error (&error);
  assert_holds (fixture->path, "one");

  g_assert_true (write_text (fixture->path, "", TRUE, &error));
  g_assert_no_error (error);
  assert_holds (fixture->path, "");
}

static void
test_places (Fixture       *fixture,
             gconstpointer  data)
{
  g_autofree char *nowhere = g_build_filename (fixture->folder, "no", "file", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_false (write_text (fixture->folder, "one", TRUE, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_IS_DIRECTORY);
  g_clear_error (&error);

  g_assert_false (write_text (nowhere, "one", TRUE, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_NOT_FOUND);
  g_assert_nonnull (strstr (error->message, nowhere));
}

static void
test_limit (Fixture       *fixture,
            gconstpointer  data)
{
  static const gsize sizes[] = { 0, 1, 999, 1000, 1001, 700000 };

  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autofree char *text = g_strnfill (sizes[i], 'x');
      g_autoptr (GFile) file = g_file_new_for_path (fixture->path);
      g_autoptr (GBytes) bytes = NULL;
      g_autoptr (GError) error = NULL;

      g_assert_true (write_text (fixture->path, text, TRUE, &error));
      bytes = wb_file_read (file, 1000, NULL, &error);
      if (sizes[i] <= 1000)
        {
          g_assert_no_error (error);
          g_assert_cmpuint (g_bytes_get_size (bytes), ==, sizes[i]);
        }
      else
        {
          g_assert_null (bytes);
          g_assert_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA);
        }
    }
}

static void
test_missing (Fixture       *fixture,
              gconstpointer  data)
{
  g_autoptr (GFile) file = g_file_new_for_path (fixture->path);
  g_autoptr (GFile) folder = g_file_new_for_path (fixture->folder);
  g_autoptr (GError) error = NULL;

  g_assert_null (wb_file_read (file, 1000, NULL, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_NOT_FOUND);
  g_clear_error (&error);
  g_assert_null (wb_file_read (folder, 1000, NULL, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_IS_DIRECTORY);
}

#define ADD(name, function) \
  g_test_add ("/office/file/" name, Fixture, NULL, set_up, function, tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("write", test_write);
  ADD ("places", test_places);
  ADD ("limit", test_limit);
  ADD ("missing", test_missing);
  return g_test_run ();
}
