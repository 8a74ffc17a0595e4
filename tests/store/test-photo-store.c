/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The folder of photo files: what comes in is there whole or not at all, once, and what happened to
 * it afterwards is noticed. */
#include "config.h"

#include "store/wb-photo-store.h"

#include "store/wb-picture.h"
#include "support/wb-test-folder.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define TEXT "not a picture, but the folder does not look"

typedef struct
{
  char *root;
  char *folder;
} Fixture;

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  g_autofree char *book = NULL;

  fixture->root = g_dir_make_tmp ("photos-XXXXXX", NULL);
  g_assert_nonnull (fixture->root);
  book = g_build_filename (fixture->root, "office.wainbook", NULL);
  fixture->folder = wb_photo_store_folder (book);
  g_assert_true (g_str_has_suffix (fixture->folder, "/office.wainbook.photos"));
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  wb_test_remove_tree (fixture->root);
  g_free (fixture->root);
  g_free (fixture->folder);
}

/* Returns: the hash */
static char *
take (Fixture    *fixture,
      const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbPhotoIntake) intake = wb_photo_intake_begin (fixture->folder, &error);
  char *hash;

  g_assert_no_error (error);
  for (gsize at = 0; text[at] != '\0'; at++)
    {
      wb_photo_intake_write (intake, (const guint8 *) text + at, 1, &error);
      g_assert_no_error (error);
    }
  g_assert_cmpint (wb_photo_intake_get_size (intake), ==, strlen (text));
  hash = wb_photo_intake_keep (intake, &error);
  g_assert_no_error (error);
  return hash;
}

static guint
count_files (const char *path)
{
  g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
  const char *name;
  guint n = 0;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *child = g_build_filename (path, name, NULL);

      n += g_file_test (child, G_FILE_TEST_IS_DIR) ? count_files (child) : 1;
    }
  return n;
}

static void
assert_faulty (Fixture    *fixture,
               const char *hash,
               gint64      size,
               gboolean    whole,
               int         code)
{
  g_autoptr (GError) error = NULL;

  g_assert_false (wb_photo_store_check (fixture->folder, hash, size, whole, NULL, &error));
  g_assert_error (error, WB_PICTURE_ERROR, code);
}

/* --- taking in -------------------------------------------------------------------------------- */

static void
test_hash (Fixture       *fixture,
           gconstpointer  data)
{
  g_autofree char *expected = g_compute_checksum_for_string (G_CHECKSUM_SHA256, TEXT, -1);
  g_autofree char *hash = take (fixture, TEXT);
  g_autofree char *path = wb_photo_store_path (fixture->folder, hash);
  g_autofree char *drawer = g_path_get_dirname (path);
  g_autofree char *drawer_name = g_path_get_basename (drawer);
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *contents = NULL;
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_cmpstr (hash, ==, expected);
  g_assert_cmpstr (name, ==, hash);
  g_assert_cmpmem (drawer_name, strlen (drawer_name), hash, 2);
  g_assert_true (g_file_get_contents (path, &contents, NULL, NULL));
  g_assert_cmpstr (contents, ==, TEXT);
  g_assert_true (wb_photo_store_check (fixture->folder, hash, strlen (TEXT), TRUE, NULL, &error));
  g_assert_no_error (error);
  bytes = wb_photo_store_read (fixture->folder, hash, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpmem (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), TEXT, strlen (TEXT));
}

static void
test_twice (Fixture       *fixture,
            gconstpointer  data)
{
  g_autofree char *first = take (fixture, TEXT);
  g_autofree char *path = wb_photo_store_path (fixture->folder, first);
  g_autofree char *second = NULL;
  GStatBuf before, after;

  g_assert_cmpint (g_stat (path, &before), ==, 0);
  second = take (fixture, TEXT);
  g_assert_cmpint (g_stat (path, &after), ==, 0);
  g_assert_cmpstr (first, ==, second);
  g_assert_cmpuint (before.st_ino, ==, after.st_ino);
  g_assert_cmpuint (count_files (fixture->folder), ==, 1);
}

/* Taking the same picture in again brings back what was damaged meanwhile. */
static void
test_heals (Fixture       *fixture,
            gconstpointer  data)
{
  g_autofree char *hash = take (fixture, TEXT);
  g_autofree char *path = wb_photo_store_path (fixture->folder, hash);
  g_autofree char *again = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (g_unlink (path), ==, 0);
  g_assert_true (g_file_set_contents (path, "retouched", -1, NULL));
  again = take (fixture, TEXT);
  g_assert_true (wb_photo_store_check (fixture->folder, hash, strlen (TEXT), TRUE, NULL, &error));
  g_assert_no_error (error);
}

static void
test_given_up (Fixture       *fixture,
               gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  WbPhotoIntake *intake = wb_photo_intake_begin (fixture->folder, &error);

  g_assert_no_error (error);
  wb_photo_intake_write (intake, (const guint8 *) TEXT, 10, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (count_files (fixture->folder), ==, 1);
  wb_photo_intake_free (intake);
  g_assert_cmpuint (count_files (fixture->folder), ==, 0);
}

/* A program that was killed in the middle leaves something that no hash leads to. */
static void
test_torn (Fixture       *fixture,
           gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  WbPhotoIntake *intake = wb_photo_intake_begin (fixture->folder, &error);
  g_autofree char *half = g_strdup (wb_photo_intake_get_path (intake));
  g_autofree char *aside = g_strconcat (half, "-aside", NULL);
  g_autofree char *hash = NULL;
  g_autoptr (GHashTable) used = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GPtrArray) unused = NULL;

  wb_photo_intake_write (intake, (const guint8 *) TEXT, 10, &error);
  g_assert_cmpint (link (half, aside), ==, 0);
  wb_photo_intake_free (intake);

  hash = take (fixture, TEXT);
  g_assert_true (wb_photo_store_check (fixture->folder, hash, strlen (TEXT), TRUE, NULL, &error));
  g_hash_table_add (used, hash);
  unused = wb_photo_store_unused (fixture->folder, used, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (unused->len, ==, 1);
  g_assert_cmpstr (g_ptr_array_index (unused, 0), ==, aside);
}

static void
test_too_large (Fixture       *fixture,
                gconstpointer  data)
{
  g_autofree guint8 *block = g_malloc0 (1024 * 1024);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbPhotoIntake) intake = wb_photo_intake_begin (fixture->folder, &error);

  for (gint64 n = 0; n < WB_PHOTO_MAX_BYTES / (1024 * 1024); n++)
    g_assert_true (wb_photo_intake_write (intake, block, 1024 * 1024, &error));
  g_assert_false (wb_photo_intake_write (intake, block, 1, &error));
  g_assert_error (error, WB_PICTURE_ERROR, WB_PICTURE_ERROR_TOO_LARGE);
  g_clear_pointer (&intake, wb_photo_intake_free);
  g_assert_cmpuint (count_files (fixture->folder), ==, 0);
}

static void
test_no_folder (Fixture       *fixture,
                gconstpointer  data)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (g_file_set_contents (fixture->folder, "a file is in the way", -1, NULL));
  g_assert_null (wb_photo_intake_begin (fixture->folder, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_NOT_DIRECTORY);
  g_assert_nonnull (strstr (error->message, "office.wainbook.photos"));
}

/* To root nothing is forbidden, so root is somebody else for a moment. */
static void
test_denied (Fixture       *fixture,
             gconstpointer  data)
{
  g_autofree char *hash = take (fixture, TEXT);
  g_autofree char *path = wb_photo_store_path (fixture->folder, hash);
  gboolean root = geteuid () == 0, good;
  g_autoptr (WbPhotoIntake) intake = NULL;
  g_autoptr (GError) unreadable = NULL, unwritable = NULL;

  g_assert_cmpint (g_chmod (path, 0), ==, 0);
  g_assert_cmpint (g_chmod (fixture->folder, 0555), ==, 0);
  if (root)
    {
      g_assert_cmpint (g_chmod (fixture->root, 0755), ==, 0);
      g_assert_cmpint (seteuid (65534), ==, 0);
    }
  good = wb_photo_store_check (fixture->folder, hash, strlen (TEXT), FALSE, NULL, &unreadable);
  intake = wb_photo_intake_begin (fixture->folder, &unwritable);
  if (root)
    g_assert_cmpint (seteuid (0), ==, 0);

  g_assert_false (good);
  g_assert_error (unreadable, G_IO_ERROR, G_IO_ERROR_PERMISSION_DENIED);
  g_assert_null (intake);
  g_assert_error (unwritable, G_IO_ERROR, G_IO_ERROR_PERMISSION_DENIED);
}

/* --- afterwards ------------------------------------------------------------------------------- */

static void
test_vanished (Fixture       *fixture,
               gconstpointer  data)
{
  g_autofree char *hash = take (fixture, TEXT);
  g_autofree char *path = wb_photo_store_path (fixture->folder, hash);
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (g_unlink (path), ==, 0);
  assert_faulty (fixture, hash, -1, FALSE, WB_PICTURE_ERROR_MISSING);
  g_assert_null (wb_photo_store_read (fixture->folder, hash, NULL, &error));
  g_assert_error (error, WB_PICTURE_ERROR, WB_PICTURE_ERROR_MISSING);

  wb_test_remove_tree (fixture->folder);
  assert_faulty (fixture, hash, -1, TRUE, WB_PICTURE_ERROR_MISSING);
}

/* Of the same length, so that only reading it through finds it. */
static void
test_tampered (Fixture       *fixture,
               gconstpointer  data)
{
  g_autofree char *hash = take (fixture, TEXT);
  g_autofree char *path = wb_photo_store_path (fixture->folder, hash);
  g_autofree char *other = g_ascii_strup (TEXT, -1);
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (g_unlink (path), ==, 0);
  g_assert_true (g_file_set_contents (path, other, -1, NULL));
  g_assert_true (wb_photo_store_check (fixture->folder, hash, strlen (TEXT), FALSE, NULL, NULL));
  assert_faulty (fixture, hash, strlen (TEXT), TRUE, WB_PICTURE_ERROR_CHANGED);
  g_assert_null (wb_photo_store_read (fixture->folder, hash, NULL, &error));
  g_assert_error (error, WB_PICTURE_ERROR, WB_PICTURE_ERROR_CHANGED);

  g_assert_true (g_file_set_contents (path, "short", -1, NULL));
  assert_faulty (fixture, hash, strlen (TEXT), FALSE, WB_PICTURE_ERROR_CHANGED);
}

static void
test_something_else (Fixture       *fixture,
                     gconstpointer  data)
{
  g_autofree char *hash = take (fixture, TEXT);
  g_autofree char *path = wb_photo_store_path (fixture->folder, hash);
  g_autofree char *elsewhere = g_build_filename (fixture->root, "elsewhere", NULL);

  g_assert_cmpint (g_rename (path, elsewhere), ==, 0);
  g_assert_cmpint (symlink (elsewhere, path), ==, 0);
  assert_faulty (fixture, hash, -1, TRUE, WB_PICTURE_ERROR_CHANGED);

  g_assert_cmpint (g_unlink (path), ==, 0);
  g_assert_cmpint (g_mkdir (path, 0700), ==, 0);
  assert_faulty (fixture, hash, -1, FALSE, WB_PICTURE_ERROR_CHANGED);

  g_assert_cmpint (g_rmdir (path), ==, 0);
  g_assert_cmpint (mkfifo (path, 0600), ==, 0);
  assert_faulty (fixture, hash, -1, TRUE, WB_PICTURE_ERROR_CHANGED);
}

static void
test_no_hash (Fixture       *fixture,
              gconstpointer  data)
{
  static const char *const bad[] = {
    "", "../../../etc/passwd", "..", "ab/cd",
    "../6d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_assert_null (wb_photo_store_path (fixture->folder, bad[i]));
      assert_faulty (fixture, bad[i], -1, TRUE, WB_PICTURE_ERROR_MISSING);
    }
}

static void
test_cancelled (Fixture       *fixture,
                gconstpointer  data)
{
  g_autofree char *hash = take (fixture, TEXT);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) error = NULL;

  g_cancellable_cancel (cancellable);
  g_assert_false (wb_photo_store_check (fixture->folder, hash, -1, TRUE, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
}

static void
test_unused (Fixture       *fixture,
             gconstpointer  data)
{
  g_autofree char *first = take (fixture, "first");
  g_autofree char *second = take (fixture, "second");
  g_autofree char *path = wb_photo_store_path (fixture->folder, second);
  g_autoptr (GHashTable) used = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GPtrArray) unused = NULL;
  g_autoptr (GError) error = NULL;

  g_hash_table_add (used, first);
  unused = wb_photo_store_unused (fixture->folder, used, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (unused->len, ==, 1);
  g_assert_cmpstr (g_ptr_array_index (unused, 0), ==, path);
  g_assert_true (g_file_test (path, G_FILE_TEST_EXISTS));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

#define CASE(name, function)                                                                       \
  g_test_add ("/store/photo-store/" name, Fixture, NULL, set_up, function, tear_down)
  CASE ("hash", test_hash);
  CASE ("twice", test_twice);
  CASE ("heals", test_heals);
  CASE ("given-up", test_given_up);
  CASE ("torn", test_torn);
  CASE ("too-large", test_too_large);
  CASE ("no-folder", test_no_folder);
  CASE ("denied", test_denied);
  CASE ("vanished", test_vanished);
  CASE ("tampered", test_tampered);
  CASE ("something-else", test_something_else);
  CASE ("no-hash", test_no_hash);
  CASE ("cancelled", test_cancelled);
  CASE ("unused", test_unused);
#undef CASE

  return g_test_run ();
}
