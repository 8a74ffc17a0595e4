/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Taking pictures in, and what the office says of each file: nothing is lost and nothing is skipped
 * without a word. */
#include "config.h"

#include "office/wb-photo-import.h"
#include "office/wb-photo-pictures.h"

#include "core/wb-photo.h"
#include "office/wb-words.h"
#include "support/wb-test-folder.h"

#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

typedef struct
{
  char      *root;
  char      *pictures;
  WbOffice  *office;
  WbJob     *job;
  GPtrArray *sources;
  GPtrArray *results;
} Fixture;

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  g_autofree char *book = NULL;
  g_autoptr (GError) error = NULL;

  fixture->root = g_dir_make_tmp ("wainbook-XXXXXX", &error);
  g_assert_no_error (error);
  book = g_build_filename (fixture->root, "office.book", NULL);
  fixture->pictures = g_build_filename (fixture->root, "pictures", NULL);
  g_assert_cmpint (g_mkdir (fixture->pictures, 0700), ==, 0);
  fixture->office = wb_office_open (book, WB_BOOK_CREATE, NULL, &error);
  g_assert_no_error (error);
  fixture->job = wb_job_new ("j", "USD");
  fixture->sources = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_photo_source_free);
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  wb_office_close (fixture->office);
  g_object_unref (fixture->office);
  wb_job_unref (fixture->job);
  g_ptr_array_unref (fixture->sources);
  g_clear_pointer (&fixture->results, g_ptr_array_unref);
  wb_test_remove_tree (fixture->root);
  g_free (fixture->root);
  g_free (fixture->pictures);
}

/* --- pictures --------------------------------------------------------------------------------- */

/* 600 × 300, of one colour: pictures of different colours are different files. */
static GBytes *
make_picture (const char *type,
              guint32     colour)
{
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 600, 300);
  char *buffer = NULL;
  gsize length = 0;
  g_autoptr (GError) error = NULL;

  gdk_pixbuf_fill (pixbuf, colour);
  gdk_pixbuf_save_to_buffer (pixbuf, &buffer, &length, type, &error, NULL);
  g_assert_no_error (error);
  return g_bytes_new_take (buffer, length);
}

static void
put_file (Fixture    *fixture,
          const char *name,
          GBytes     *bytes,
          gsize       length)
{
  g_autofree char *path = g_build_filename (fixture->pictures, name, NULL);
  g_autofree char *folder = g_path_get_dirname (path);
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (g_mkdir_with_parents (folder, 0700), ==, 0);
  g_file_set_contents (path, g_bytes_get_data (bytes, NULL), (gssize) length, &error);
  g_assert_no_error (error);
}

static void
put_picture (Fixture    *fixture,
             const char *name,
             guint32     colour)
{
  g_autoptr (GBytes) bytes = make_picture (g_str_has_suffix (name, ".png") ? "png" :
                                           g_str_has_suffix (name, ".tif") ? "tiff" : "jpeg",
                                           colour);

  put_file (fixture, name, bytes, g_bytes_get_size (bytes));
}

static void
add_source (Fixture    *fixture,
            const char *name)
{
  g_autofree char *path = g_build_filename (fixture->pictures, name, NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);

  g_ptr_array_add (fixture->sources, wb_photo_source_new_file (file));
}

static void
take (Fixture *fixture)
{
  g_autoptr (GError) error = NULL;

  g_clear_pointer (&fixture->results, g_ptr_array_unref);
  fixture->results = wb_office_take_photos (fixture->office, fixture->job, fixture->sources, NULL,
                                            NULL, &error);
  g_assert_no_error (error);
}

static const WbPhotoResult *
result (Fixture *fixture,
        guint    i)
{
  g_assert_cmpuint (i, <, fixture->results->len);
  return g_ptr_array_index (fixture->results, i);
}

static void
assert_refused (const WbPhotoResult *refused,
                int                  code)
{
  g_autofree char *words = wb_photo_result_words (refused);

  g_test_message ("%s: %s", refused->name, words);
  g_assert_cmpint (refused->outcome, ==, WB_PHOTO_REFUSED);
  g_assert_error (refused->error, WB_PICTURE_ERROR, code);
  g_assert_null (refused->photo);
}

static guint
count_stored (Fixture *fixture)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) unused = wb_office_unused_photos (fixture->office, NULL, &error);

  g_assert_no_error (error);
  return unused->len;
}

/* --- importing -------------------------------------------------------------------------------- */

static void
test_files (Fixture       *fixture,
            gconstpointer  data)
{
  static const char *const names[] = { "red.jpg", "green.png", "blue.tif", "Zoë’s table.jpeg" };
  static const char *const types[] = { "image/jpeg", "image/png", "image/tiff", "image/jpeg" };
  g_autoptr (GPtrArray) records = NULL;
  g_autoptr (WbJob) job = NULL;

  for (guint i = 0; i < 4; i++)
    {
      put_picture (fixture, names[i], 0xff0000ffu >> (i * 7));
      add_source (fixture, names[i]);
    }
  take (fixture);

  g_assert_cmpuint (fixture->results->len, ==, 4);
  for (guint i = 0; i < 4; i++)
    {
      const WbPhoto *photo = result (fixture, i)->photo;
      g_autofree char *path = NULL;
      g_autoptr (GError) error = NULL;

      g_assert_cmpint (result (fixture, i)->outcome, ==, WB_PHOTO_TAKEN);
      g_assert_no_error (result (fixture, i)->error);
      g_assert_cmpstr (photo->name, ==, names[i]);
      g_assert_cmpstr (photo->media_type, ==, types[i]);
      g_assert_cmpint (photo->width, ==, 600);
      g_assert_cmpint (photo->height, ==, 300);
      g_assert_null (photo->taken_at);
      g_assert_true (wb_photo_time_is_valid (photo->imported_at, TRUE));
      g_assert_true (wb_photo_check (photo, NULL));
      path = wb_office_photo_path (fixture->office, photo);
      g_assert_true (g_file_test (path, G_FILE_TEST_IS_REGULAR));
      g_assert_true (wb_office_check_photo (fixture->office, photo, TRUE, NULL, &error));
      g_assert_no_error (error);
    }
  records = wb_photo_results_records (fixture->results, NULL);
  g_assert_cmpuint (records->len, ==, 4);
  job = wb_job_with_many (fixture->job, records);
  g_assert_cmpuint (wb_job_count (job, WB_KIND_PHOTO), ==, 4);
}

/* The same picture under two names, and again for a job that has it. */
static void
test_twice (Fixture       *fixture,
            gconstpointer  data)
{
  g_autoptr (GPtrArray) records = NULL;
  WbJob *job;

  put_picture (fixture, "one.jpg", 0x11223344);
  put_picture (fixture, "copy.jpg", 0x11223344);
  add_source (fixture, "one.jpg");
  add_source (fixture, "copy.jpg");
  take (fixture);
  g_assert_cmpint (result (fixture, 0)->outcome, ==, WB_PHOTO_TAKEN);
  g_assert_cmpint (result (fixture, 1)->outcome, ==, WB_PHOTO_AGAIN);
  g_assert_cmpuint (count_stored (fixture), ==, 1);

  records = wb_photo_results_records (fixture->results, NULL);
  g_assert_cmpuint (records->len, ==, 1);
  job = wb_job_with_many (fixture->job, records);
  wb_job_unref (fixture->job);
  fixture->job = job;
  take (fixture);
  g_assert_cmpint (result (fixture, 0)->outcome, ==, WB_PHOTO_AGAIN);
  g_assert_cmpint (result (fixture, 1)->outcome, ==, WB_PHOTO_AGAIN);
}

static void
test_folder (Fixture       *fixture,
             gconstpointer  data)
{
  g_autofree char *link = g_build_filename (fixture->pictures, "link.jpg", NULL);
  g_autofree char *loop = g_build_filename (fixture->pictures, "loop", NULL);
  g_autofree char *words = NULL;
  g_autoptr (GBytes) text = g_bytes_new_static ("a list", 6);
  guint n[5] = { 0 };
  g_autoptr (GPtrArray) records = NULL;

  put_picture (fixture, "b.jpg", 0x01000000);
  put_picture (fixture, "a/c.jpg", 0x02000000);
  put_picture (fixture, "a/d/e.png", 0x00440000);
  put_picture (fixture, ".hidden.jpg", 0x00000300);
  put_file (fixture, "notes.txt", text, 6);
  g_assert_cmpint (symlink ("/etc/passwd", link), ==, 0);
  g_assert_cmpint (symlink (fixture->pictures, loop), ==, 0);
  add_source (fixture, ".");
  take (fixture);

  records = wb_photo_results_records (fixture->results, n);
  g_assert_cmpuint (n[WB_PHOTO_TAKEN], ==, 3);
  g_assert_cmpuint (n[WB_PHOTO_PASSED_OVER], ==, 3);
  g_assert_cmpuint (fixture->results->len, ==, 6);
  g_assert_cmpstr (result (fixture, 0)->name, ==, "c.jpg");
  g_assert_cmpstr (result (fixture, 1)->name, ==, "e.png");
  g_assert_cmpstr (result (fixture, 2)->name, ==, "b.jpg");
  words = wb_photo_results_words (fixture->results);
  g_assert_cmpstr (words, ==, "3 photos were taken in. 3 other files are not pictures.");
}

/* Among good ones, so that it is seen that these are kept. */
static void
test_bad (Fixture       *fixture,
          gconstpointer  data)
{
  g_autoptr (GBytes) picture = make_picture ("jpeg", 0x55667788);
  g_autoptr (GBytes) text = g_bytes_new_static ("not a picture", 13);
  g_autofree char *huge = g_build_filename (fixture->pictures, "huge.jpg", NULL);
  g_autofree char *pipe = g_build_filename (fixture->pictures, "pipe.jpg", NULL);
  g_autoptr (GBytes) large = NULL;
  struct stat about;
  int fd;

  put_picture (fixture, "first.jpg", 0x12000000);
  put_file (fixture, "cut.jpg", picture, g_bytes_get_size (picture) * 2 / 3);
  put_file (fixture, "text.jpg", text, 13);
  put_file (fixture, "empty.jpg", text, 0);
  g_assert_cmpint (mkfifo (pipe, 0600), ==, 0);
  put_picture (fixture, "last.png", 0x34000000);

  /* 2 GB of which the disk holds nothing but a picture's head. */
  fd = g_open (huge, O_RDWR | O_CREAT, 0600);
  g_assert_cmpint (write (fd, g_bytes_get_data (picture, NULL), 100), ==, 100);
  g_assert_cmpint (ftruncate (fd, (off_t) 2 * 1024 * 1024 * 1024), ==, 0);
  close (fd);

  add_source (fixture, "first.jpg");
  add_source (fixture, "cut.jpg");
  add_source (fixture, "text.jpg");
  add_source (fixture, "empty.jpg");
  add_source (fixture, "huge.jpg");
  add_source (fixture, "last.png");
  add_source (fixture, "pipe.jpg");
  add_source (fixture, "not-there.jpg");
  take (fixture);

  g_assert_cmpuint (fixture->results->len, ==, 8);
  g_assert_cmpint (result (fixture, 0)->outcome, ==, WB_PHOTO_TAKEN);
  assert_refused (result (fixture, 1), WB_PICTURE_ERROR_CUT_OFF);
  assert_refused (result (fixture, 2), WB_PICTURE_ERROR_UNKNOWN);
  assert_refused (result (fixture, 3), WB_PICTURE_ERROR_UNKNOWN);
  assert_refused (result (fixture, 4), WB_PICTURE_ERROR_TOO_LARGE);
  g_assert_cmpint (result (fixture, 5)->outcome, ==, WB_PHOTO_TAKEN);
  assert_refused (result (fixture, 6), WB_PICTURE_ERROR_NOT_A_FILE);
  g_assert_cmpint (result (fixture, 7)->outcome, ==, WB_PHOTO_REFUSED);
  g_assert_error (result (fixture, 7)->error, G_IO_ERROR, G_IO_ERROR_NOT_FOUND);

  /* Nothing of them stays in the office, and the files are as they were. */
  g_assert_cmpuint (count_stored (fixture), ==, 2);
  g_assert_cmpint (stat (huge, &about), ==, 0);
  g_assert_cmpint (about.st_size, ==, (off_t) 2 * 1024 * 1024 * 1024);
}

static void
test_rubbish (Fixture       *fixture,
              gconstpointer  data)
{
  g_autoptr (GBytes) text = g_bytes_new_static ("no", 2);
  g_autofree char *words = NULL;

  g_ptr_array_add (fixture->sources, wb_photo_source_new_bytes (text, "Pasted"));
  take (fixture);
  assert_refused (result (fixture, 0), WB_PICTURE_ERROR_UNKNOWN);
  words = wb_photo_result_words (result (fixture, 0));
  g_assert_true (g_str_has_prefix (words, "This is not a picture that can be taken in. "));
}

/* A folder that may not be read, beside one that may. To root nothing is forbidden, so root is
 * somebody else for a moment. */
static void
test_denied (Fixture       *fixture,
             gconstpointer  data)
{
  g_autofree char *locked = g_build_filename (fixture->pictures, "locked", NULL);
  gboolean root = geteuid () == 0;
  g_autofree char *words = NULL;

  put_picture (fixture, "locked/in.jpg", 0x01020304);
  put_picture (fixture, "open.jpg", 0x01020304);
  g_assert_cmpint (g_chmod (locked, 0), ==, 0);
  if (root)
    {
      g_autofree char *open = g_build_filename (fixture->pictures, "open.jpg", NULL);

      g_assert_cmpint (g_chmod (open, 0644), ==, 0);
      g_assert_cmpint (g_chmod (fixture->pictures, 0755), ==, 0);
      g_assert_cmpint (g_chmod (fixture->root, 0777), ==, 0);
      g_assert_cmpint (seteuid (65534), ==, 0);
    }
  add_source (fixture, ".");
  take (fixture);
  if (root)
    g_assert_cmpint (seteuid (0), ==, 0);

  g_assert_cmpuint (fixture->results->len, ==, 2);
  g_assert_no_error (result (fixture, 0)->error);
  g_assert_cmpint (result (fixture, 0)->outcome, ==, WB_PHOTO_TAKEN);
  g_assert_cmpint (result (fixture, 1)->outcome, ==, WB_PHOTO_REFUSED);
  g_assert_error (result (fixture, 1)->error, G_IO_ERROR, G_IO_ERROR_PERMISSION_DENIED);
  g_assert_cmpstr (result (fixture, 1)->name, ==, "locked");
  words = wb_photo_result_words (result (fixture, 1));
  g_test_message ("%s", words);
  g_assert_true (g_str_has_prefix (words, "This computer does not let you use the file or folder."));
}

/* The office's own folder cannot be made: every file says so, none is lost. */
static void
test_no_room (Fixture       *fixture,
              gconstpointer  data)
{
  g_autofree char *folder = g_strconcat (wb_office_get_path (fixture->office), ".photos", NULL);
  g_autofree char *picture = g_build_filename (fixture->pictures, "one.jpg", NULL);

  put_picture (fixture, "one.jpg", 0x01020304);
  add_source (fixture, "one.jpg");
  g_assert_true (g_file_set_contents (folder, "in the way", -1, NULL));
  take (fixture);
  g_assert_cmpint (result (fixture, 0)->outcome, ==, WB_PHOTO_REFUSED);
  g_assert_error (result (fixture, 0)->error, G_IO_ERROR, G_IO_ERROR_NOT_DIRECTORY);
  g_assert_true (g_file_test (picture, G_FILE_TEST_IS_REGULAR));
}

static void
test_pasted (Fixture       *fixture,
             gconstpointer  data)
{
  g_autoptr (GBytes) bytes = make_picture ("png", 0xaabbccdd);

  g_ptr_array_add (fixture->sources, wb_photo_source_new_bytes (bytes, "Pasted.png"));
  take (fixture);
  g_assert_cmpint (result (fixture, 0)->outcome, ==, WB_PHOTO_TAKEN);
  g_assert_cmpstr (result (fixture, 0)->photo->name, ==, "Pasted.png");
  g_assert_cmpint (result (fixture, 0)->photo->size, ==, (gint64) g_bytes_get_size (bytes));
}

static void
test_too_deep (Fixture       *fixture,
               gconstpointer  data)
{
  g_autoptr (GString) name = g_string_new (NULL);

  for (guint i = 0; i < WB_PHOTO_MAX_DEPTH + 2; i++)
    g_string_append (name, "d/");
  g_string_append (name, "x.jpg");
  put_picture (fixture, name->str, 0x01020304);
  put_picture (fixture, "y.jpg", 0x01020304);
  add_source (fixture, ".");
  take (fixture);
  g_assert_cmpuint (fixture->results->len, ==, 2);
  g_assert_cmpint (result (fixture, 0)->outcome, ==, WB_PHOTO_TAKEN);
  assert_refused (result (fixture, 1), WB_PICTURE_ERROR_TOO_MANY);
}

/* --- in the background ------------------------------------------------------------------------ */

static void
taken_cb (GObject      *object,
          GAsyncResult *result,
          gpointer      data)
{
  Fixture *fixture = data;
  g_autoptr (GError) error = NULL;

  fixture->results = wb_office_take_photos_finish (WB_OFFICE (object), result, &error);
  g_assert_no_error (error);
}

static void
test_progress (Fixture       *fixture,
               gconstpointer  data)
{
  g_autoptr (WbProgress) progress = wb_progress_new ();
  WbProgressState state;

  for (guint i = 0; i < 12; i++)
    {
      g_autofree char *name = g_strdup_printf ("%u.jpg", i);

      put_picture (fixture, name, 0x01000000 * (i * 11));
    }
  add_source (fixture, ".");
  wb_office_take_photos_async (fixture->office, fixture->job, fixture->sources, progress, NULL,
                               taken_cb, fixture);
  while (fixture->results == NULL)
    g_main_context_iteration (NULL, TRUE);

  wb_progress_get (progress, &state);
  g_assert_cmpuint (state.n_done, ==, 12);
  g_assert_cmpuint (state.n_all, ==, 12);
  g_assert_cmpint (state.done, ==, state.all);
  g_assert_cmpint (state.done, >, 0);
}

/* Stopped in the middle: what is stored is told as taken and nothing else is in the folder. */
static void
test_cancel (Fixture       *fixture,
             gconstpointer  data)
{
  g_autoptr (WbProgress) progress = wb_progress_new ();
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GPtrArray) records = NULL;
  guint n[5] = { 0 };
  WbProgressState state = { 0 };

  for (guint i = 0; i < 150; i++)
    {
      g_autofree char *name = g_strdup_printf ("%03u.jpg", i);

      put_picture (fixture, name, 0x00010000 * (i + 1) * 97);
    }
  add_source (fixture, ".");
  wb_office_take_photos_async (fixture->office, fixture->job, fixture->sources, progress,
                               cancellable, taken_cb, fixture);
  while (state.n_done < 5)
    {
      g_main_context_iteration (NULL, FALSE);
      wb_progress_get (progress, &state);
    }
  g_cancellable_cancel (cancellable);
  while (fixture->results == NULL)
    g_main_context_iteration (NULL, TRUE);

  records = wb_photo_results_records (fixture->results, n);
  g_test_message ("%u taken, %u again, %u not reached", n[WB_PHOTO_TAKEN], n[WB_PHOTO_AGAIN],
                  n[WB_PHOTO_NOT_REACHED]);
  g_assert_cmpuint (fixture->results->len, ==, 150);
  g_assert_cmpuint (n[WB_PHOTO_TAKEN], >=, 1);
  g_assert_cmpuint (n[WB_PHOTO_NOT_REACHED], >=, 1);
  g_assert_cmpuint (n[WB_PHOTO_REFUSED], ==, 0);
  g_assert_cmpuint (count_stored (fixture), ==, n[WB_PHOTO_TAKEN]);
}

/* --- pictures --------------------------------------------------------------------------------- */

static char *
cached_path (const WbPhoto *photo)
{
  const char drawer[] = { photo->hash[0], photo->hash[1], '\0' };
  g_autofree char *name = g_strconcat (photo->hash, ".jpg", NULL);

  return g_build_filename (g_get_user_cache_dir (), "wainbook", "thumbnails", drawer, name, NULL);
}

static void
assert_size (GdkPixbuf *pixbuf,
             int        width,
             int        height)
{
  g_assert_nonnull (pixbuf);
  g_assert_cmpint (gdk_pixbuf_get_width (pixbuf), ==, width);
  g_assert_cmpint (gdk_pixbuf_get_height (pixbuf), ==, height);
}

/* From the import on; remade when it is gone, rubbish, or a picture of another shape. */
static void
test_thumbnail (Fixture       *fixture,
                gconstpointer  data)
{
  static const char *const faults[] = { NULL, "", "rubbish", "\xff\xd8\xff\xe0 rubbish" };
  g_autoptr (GBytes) square = NULL;
  g_autofree char *cached = NULL;
  const WbPhoto *photo;
  g_autoptr (GError) error = NULL;

  put_picture (fixture, "one.jpg", 0xff0000ff);
  add_source (fixture, "one.jpg");
  take (fixture);
  photo = result (fixture, 0)->photo;
  cached = cached_path (photo);
  g_assert_true (g_file_test (cached, G_FILE_TEST_EXISTS));

  for (guint i = 0; i < G_N_ELEMENTS (faults); i++)
    {
      g_autoptr (GdkPixbuf) pixbuf = NULL;
      g_autofree char *contents = NULL;
      gsize length;

      g_assert_cmpint (g_unlink (cached), ==, 0);
      if (faults[i] != NULL)
        g_assert_true (g_file_set_contents (cached, faults[i], -1, NULL));
      pixbuf = wb_office_load_thumbnail (fixture->office, photo, NULL, &error);
      g_assert_no_error (error);
      assert_size (pixbuf, 320, 160);
      g_assert_true (g_file_get_contents (cached, &contents, &length, NULL));
      g_assert_cmpuint (length, >, 100);
    }

  /* A good picture, but of another shape. */
  {
    g_autoptr (GdkPixbuf) other = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 200, 200);
    g_autoptr (GdkPixbuf) pixbuf = NULL;

    gdk_pixbuf_fill (other, 0);
    g_assert_true (gdk_pixbuf_save (other, cached, "jpeg", NULL, NULL));
    pixbuf = wb_office_load_thumbnail (fixture->office, photo, NULL, &error);
    g_assert_no_error (error);
    assert_size (pixbuf, 320, 160);
  }
}

static void
test_picture (Fixture       *fixture,
              gconstpointer  data)
{
  g_autoptr (WbPhoto) turned = NULL;
  g_autoptr (GdkPixbuf) own = NULL, upright = NULL;
  g_autoptr (GError) error = NULL;

  put_picture (fixture, "one.jpg", 0xff0000ff);
  add_source (fixture, "one.jpg");
  take (fixture);
  own = wb_office_load_picture (fixture->office, result (fixture, 0)->photo, NULL, &error);
  g_assert_no_error (error);
  assert_size (own, 600, 300);

  turned = wb_record_copy (result (fixture, 0)->photo);
  turned->orientation = 6;
  upright = wb_office_load_picture (fixture->office, turned, NULL, &error);
  g_assert_no_error (error);
  assert_size (upright, 300, 600);
}

/* What happened to the file is said, whoever asks. */
static void
test_tampered (Fixture       *fixture,
               gconstpointer  data)
{
  g_autofree char *path = NULL;
  g_autofree char *words = NULL;
  g_autofree char *contents = NULL;
  gsize length;
  g_autoptr (WbPhoto) photo = NULL;
  g_autoptr (GError) error = NULL;

  put_picture (fixture, "one.jpg", 0xff0000ff);
  add_source (fixture, "one.jpg");
  take (fixture);
  photo = wb_record_ref (result (fixture, 0)->photo);
  path = wb_office_photo_path (fixture->office, photo);
  g_assert_true (g_file_get_contents (path, &contents, &length, NULL));
  contents[length / 2] ^= 1;
  g_assert_cmpint (g_unlink (path), ==, 0);
  g_assert_true (g_file_set_contents (path, contents, (gssize) length, NULL));

  g_assert_true (wb_office_check_photo (fixture->office, photo, FALSE, NULL, NULL));
  g_assert_false (wb_office_check_photo (fixture->office, photo, TRUE, NULL, &error));
  g_assert_error (error, WB_PICTURE_ERROR, WB_PICTURE_ERROR_CHANGED);
  words = wb_words_error (error);
  g_assert_true (g_str_has_prefix (words, "The file of this photo is no longer what was taken in."));
  g_clear_error (&error);
  g_assert_null (wb_office_load_picture (fixture->office, photo, NULL, &error));
  g_assert_error (error, WB_PICTURE_ERROR, WB_PICTURE_ERROR_CHANGED);
  g_clear_error (&error);

  g_assert_cmpint (g_unlink (path), ==, 0);
  g_assert_false (wb_office_check_photo (fixture->office, photo, FALSE, NULL, &error));
  g_assert_error (error, WB_PICTURE_ERROR, WB_PICTURE_ERROR_MISSING);
  g_clear_error (&error);

  /* Taken in once more, it is there again. */
  take (fixture);
  g_assert_true (wb_office_check_photo (fixture->office, photo, TRUE, NULL, &error));
  g_assert_no_error (error);
}

static void
test_words (void)
{
  g_autoptr (WbPhoto) photo = wb_record_new (WB_KIND_PHOTO, "p");
  g_autofree char *unknown = wb_words_photo_taken (photo);
  g_autofree char *taken = NULL, *offset = NULL, *brief = NULL, *imported = NULL;

  g_assert_cmpstr (unknown, ==, "not known");
  wb_set_text (&photo->taken_at, "2026-03-04T09:05:59");
  taken = wb_words_photo_taken (photo);
  g_assert_cmpstr (taken, ==, "4 Mar 2026, 09:05");
  wb_set_text (&photo->taken_offset, "-05:00");
  offset = wb_words_photo_taken (photo);
  g_assert_cmpstr (offset, ==, "4 Mar 2026, 09:05 (UTC-05:00)");
  brief = wb_words_photo_taken_short (photo);
  g_assert_cmpstr (brief, ==, "4 Mar 2026, 09:05");
  wb_set_text (&photo->imported_at, "2026-03-05T08:00:00Z");
  imported = wb_words_photo_imported (photo);
  g_assert_cmpstr (imported, ==, "5 Mar 2026, 08:00");
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

#define CASE(name, function)                                                                       \
  g_test_add ("/office/photos/" name, Fixture, NULL, set_up, function, tear_down)
  CASE ("files", test_files);
  CASE ("twice", test_twice);
  CASE ("folder", test_folder);
  CASE ("bad", test_bad);
  CASE ("rubbish", test_rubbish);
  CASE ("denied", test_denied);
  CASE ("no-room", test_no_room);
  CASE ("pasted", test_pasted);
  CASE ("too-deep", test_too_deep);
  CASE ("progress", test_progress);
  CASE ("cancel", test_cancel);
  CASE ("thumbnail", test_thumbnail);
  CASE ("picture", test_picture);
  CASE ("tampered", test_tampered);
#undef CASE
  g_test_add_func ("/office/photos/words", test_words);

  return g_test_run ();
}
