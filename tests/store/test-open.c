/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Opening and making a book, and every other file that somebody may take for one: it is refused
 * with the reason, stays as it was to the byte, and nothing is left beside it. */
#include "config.h"

#include "book-fixture.h"
#include "store/wb-book-private.h"

#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <glib/gstdio.h>

static void
write_file (const char *path,
            gconstpointer bytes,
            gsize       length)
{
  g_autoptr (GError) error = NULL;

  g_file_set_contents (path, bytes, (gssize) length, &error);
  g_assert_no_error (error);
}

/* Fails unless opening self->path gives @code, says @text and leaves everything as it was. */
static void
assert_refused (Fixture      *self,
                WbStoreError  code,
                const char   *text)
{
  g_autofree char *digest = digest_of (self->path);
  g_autofree char *names = fixture_list_folder (self);
  g_autofree char *digest_after = NULL;
  g_autofree char *names_after = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_null (wb_book_open (self->path, WB_BOOK_OPEN, NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, (int) code);
  assert_says (error, self->path);
  assert_says (error, text);
  digest_after = digest_of (self->path);
  names_after = fixture_list_folder (self);
  g_assert_cmpstr (digest, ==, digest_after);
  g_assert_cmpstr (names, ==, names_after);
}

/* --- files of other kinds --------------------------------------------------------------------- */

static void
test_absent (Fixture       *self,
             gconstpointer  data)
{
  g_autofree char *names = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_null (wb_book_open (self->path, WB_BOOK_OPEN, NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND);
  assert_says (error, self->path);
  names = fixture_list_folder (self);
  g_assert_cmpstr (names, ==, "");
}

static void
test_empty (Fixture       *self,
            gconstpointer  data)
{
  write_file (self->path, "", 0);
  assert_refused (self, WB_STORE_ERROR_NOT_A_BOOK, "empty");
}

static void
test_text (Fixture       *self,
           gconstpointer  data)
{
  g_autofree char *text = g_strnfill (5000, 'x');

  write_file (self->path, "tag,room\n1,Kitchen\n", 19);
  assert_refused (self, WB_STORE_ERROR_NOT_A_BOOK, "not an office book");
  write_file (self->path, text, 5000);
  assert_refused (self, WB_STORE_ERROR_NOT_A_BOOK, "not an office book");
  write_file (self->path, "SQLite format 3", 16);
  assert_refused (self, WB_STORE_ERROR_NOT_A_BOOK, "not an office book");
}

static void
test_folder (Fixture       *self,
             gconstpointer  data)
{
  g_autofree char *names = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (g_mkdir (self->path, 0777), ==, 0);
  g_assert_null (wb_book_open (self->path, WB_BOOK_OPEN, NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_A_BOOK);
  assert_says (error, "folder");
  names = fixture_list_folder (self);
  g_assert_cmpstr (names, ==, "office.book");
}

/* Opening a pipe without a writer must not hang. */
static void
test_pipe (Fixture       *self,
           gconstpointer  data)
{
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (mkfifo (self->path, 0666), ==, 0);
  g_assert_null (wb_book_open (self->path, WB_BOOK_OPEN, NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_A_BOOK);
}

static void
test_other_database (Fixture       *self,
                     gconstpointer  data)
{
  tamper (self->path, "CREATE TABLE cake (flour, sugar)");
  assert_refused (self, WB_STORE_ERROR_NOT_A_BOOK, "another program");
  tamper (self->path,
          "PRAGMA journal_mode = WAL; PRAGMA application_id = 77; PRAGMA user_version = 1");
  assert_refused (self, WB_STORE_ERROR_NOT_A_BOOK, "another program");
}

/* It has our mark, and nothing of what a book has. */
static void
test_marked_only (Fixture       *self,
                  gconstpointer  data)
{
  g_autofree char *mark = g_strdup_printf ("CREATE TABLE cake (flour); PRAGMA application_id = %d;",
                                           WB_BOOK_APPLICATION_ID);

  tamper (self->path, mark);
  assert_refused (self, WB_STORE_ERROR_CORRUPT, "version");
  tamper (self->path, "PRAGMA user_version = 1");
  assert_refused (self, WB_STORE_ERROR_CORRUPT, "lacks a part of what version 1 holds");
  tamper (self->path, "PRAGMA user_version = 2");
  assert_refused (self, WB_STORE_ERROR_CORRUPT, "lacks a part of what version 2 holds");
  tamper (self->path, "PRAGMA user_version = 3");
  assert_refused (self, WB_STORE_ERROR_CORRUPT, "lacks a part of what version 3 holds");
  tamper (self->path, "PRAGMA user_version = 4");
  assert_refused (self, WB_STORE_ERROR_CORRUPT, "lacks its table “order”");
}

static void
test_newer (Fixture       *self,
            gconstpointer  data)
{
  g_clear_object (&self->book);
  tamper (self->path, "PRAGMA user_version = 99");
  assert_refused (self, WB_STORE_ERROR_NEWER, "later version");
}

/* The version is raised in the log only, as when the later program died. */
static void
test_newer_in_log (Fixture       *self,
                   gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  sqlite3 *handle;

  g_clear_object (&self->book);
  g_assert_cmpint (sqlite3_open_v2 (self->path, &handle, SQLITE_OPEN_READWRITE, NULL), ==,
                   SQLITE_OK);
  g_assert_cmpint (sqlite3_exec (handle, "PRAGMA user_version = 99", NULL, NULL, NULL), ==,
                   SQLITE_OK);
  g_assert_null (wb_book_open (self->path, WB_BOOK_OPEN, NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NEWER);
  g_assert_cmpint (sqlite3_close (handle), ==, SQLITE_OK);
}

/* --- damage ----------------------------------------------------------------------------------- */

static void
fill_book (Fixture *self,
           guint    n_pieces)
{
  g_autoptr (WbJob) job = make_large_job ("job-1", "J-1", n_pieces);
  g_autoptr (WbJob) stored = save (self->book, NULL, job);

  g_clear_object (&self->book);
}

/* Every page but the first in turn is filled with rubbish; every time the book is refused, or what
 * can be read of it is right. */
static void
test_damaged_pages (Fixture       *self,
                    gconstpointer  data)
{
  g_autofree char *bytes = NULL;
  gsize length, page_size, n_refused = 0, n_pages;

  fill_book (self, 300);
  g_file_get_contents (self->path, &bytes, &length, NULL);
  page_size = (gsize) (guint8) bytes[16] << 8 | (guint8) bytes[17];
  n_pages = length / page_size;
  for (gsize page = 1; page < n_pages; page++)
    {
      g_autofree char *damaged = g_memdup2 (bytes, length);
      g_autofree char *digest = NULL;
      g_autofree char *digest_after = NULL;
      g_autoptr (GError) error = NULL;
      g_autoptr (WbBook) book = NULL;

      memset (damaged + page * page_size, 0x5a, page_size);
      write_file (self->path, damaged, length);
      digest = digest_of (self->path);
      book = wb_book_open (self->path, WB_BOOK_OPEN, NULL, &error);
      if (book == NULL)
        {
          g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CORRUPT);
          digest_after = digest_of (self->path);
          g_assert_cmpstr (digest, ==, digest_after);
          n_refused++;
        }
    }
  g_test_message ("%" G_GSIZE_FORMAT " of %" G_GSIZE_FORMAT " damaged pages refused at the door",
                  n_refused, n_pages - 1);
  g_assert_cmpuint (n_refused, >, (n_pages - 1) / 2);
  write_file (self->path, bytes, length);
}

static void
test_damaged (Fixture       *self,
              gconstpointer  data)
{
  g_autofree char *bytes = NULL;
  gsize length;

  fill_book (self, 300);
  g_file_get_contents (self->path, &bytes, &length, NULL);
  memset (bytes + length / 2, 0, 20000);
  write_file (self->path, bytes, length);
  assert_refused (self, WB_STORE_ERROR_CORRUPT, "damaged");
}

static void
test_cut_short (Fixture       *self,
                gconstpointer  data)
{
  g_autofree char *bytes = NULL;
  gsize length;

  fill_book (self, 300);
  g_file_get_contents (self->path, &bytes, &length, NULL);
  write_file (self->path, bytes, length - 4096);
  assert_refused (self, WB_STORE_ERROR_CORRUPT, "its end is not there");
  write_file (self->path, bytes, 100);
  assert_refused (self, WB_STORE_ERROR_CORRUPT, "its end is not there");
}

/* What was written into the file by hand and does not make sense. */
static void
test_senseless_rows (Fixture       *self,
                     gconstpointer  data)
{
  static const struct
  {
    const char *sql;
    const char *says;
  } senseless[] = {
    { "UPDATE piece SET weight = 'heavy' WHERE id = 'piece-1'",   "piece piece-1, weight" },
    { "UPDATE piece SET weight = '1.234 lb' WHERE id = 'piece-1'", "piece piece-1, weight" },
    { "UPDATE piece SET volume = '3 buckets' WHERE id = 'piece-2'", "piece piece-2, volume" },
    { "UPDATE piece SET tag = 1000000 WHERE id = 'piece-1'",      "piece piece-1, tag" },
    { "UPDATE piece SET room = '' WHERE id = 'piece-1'",          "piece piece-1, room" },
    { "UPDATE piece SET room = CAST (x'c328' AS TEXT) WHERE id = 'piece-1'",
      "piece piece-1, room" },
    { "UPDATE \"order\" SET estimate = 9223372036854775807",      "order order, estimate" },
    { "UPDATE \"order\" SET booked_on = '0001-01-01'",            "order order, booked_on" },
    { "UPDATE piece SET position = 7 WHERE id = 'piece-2'",
      "pieces of job job-1 are out of order" },
    { "UPDATE piece SET position = 0",
      "pieces of job job-1 are out of order" },
    { "UPDATE stop SET id = 'a b' WHERE id = 'stop-1'",           "a stop has no proper id" },
    { "UPDATE job SET currency = 'QQQ'",                          "no proper id or currency" },
  };
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autofree char *bytes = NULL;
  gsize length;

  g_clear_object (&self->book);
  g_file_get_contents (self->path, &bytes, &length, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (senseless); i++)
    {
      g_autoptr (GError) error = NULL;

      write_file (self->path, bytes, length);
      tamper (self->path, senseless[i].sql);
      fixture_reopen (self);
      g_assert_null (wb_book_load_job (self->book, "job-1", NULL, &error));
      g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CORRUPT);
      assert_says (error, senseless[i].says);
      g_clear_object (&self->book);
    }
}

/* A large book is not read through when it is opened, but one cut short is still found out. */
static void
test_large (Fixture       *self,
            gconstpointer  data)
{
  g_autofree char *bytes = NULL;
  gsize length;

  g_clear_object (&self->book);
  tamper (self->path,
          "INSERT INTO number_series SELECT hex (randomblob (5000)), 1 FROM "
          "(WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 4000) SELECT"
          " i FROM n)");
  fixture_reopen (self);
  g_clear_object (&self->book);
  g_file_get_contents (self->path, &bytes, &length, NULL);
  g_assert_cmpuint (length, >, 33 * 1024 * 1024);
  write_file (self->path, bytes, length / 2);
  assert_refused (self, WB_STORE_ERROR_CORRUPT, "its end is not there");
}

/* --- making ----------------------------------------------------------------------------------- */

static void
test_create (Fixture       *self,
             gconstpointer  data)
{
  g_autofree char *names = NULL;
  g_autoptr (GPtrArray) jobs = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_cmpstr (wb_book_get_path (self->book), ==, self->path);
  jobs = wb_book_list_jobs (self->book, NULL, 0, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (jobs->len, ==, 0);
  wb_book_close (self->book);
  names = fixture_list_folder (self);
  g_assert_cmpstr (names, ==, "office.book");
}

static void
assert_not_made (Fixture      *self,
                 const char   *path,
                 WbStoreError  code)
{
  g_autofree char *names = fixture_list_folder (self);
  g_autofree char *names_after = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_null (wb_book_open (path, WB_BOOK_CREATE, NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, (int) code);
  assert_says (error, path);
  names_after = fixture_list_folder (self);
  g_assert_cmpstr (names, ==, names_after);
}

static void
test_create_exists (Fixture       *self,
                    gconstpointer  data)
{
  g_autofree char *digest = NULL;
  g_autofree char *digest_after = NULL;

  g_clear_object (&self->book);
  digest = digest_of (self->path);
  assert_not_made (self, self->path, WB_STORE_ERROR_EXISTS);
  digest_after = digest_of (self->path);
  g_assert_cmpstr (digest, ==, digest_after);
  assert_not_made (self, self->folder, WB_STORE_ERROR_EXISTS);
}

static void
test_create_nowhere (Fixture       *self,
                     gconstpointer  data)
{
  g_autofree char *nowhere = g_build_filename (self->folder, "attic", "office.book", NULL);
  g_autofree char *under_file = g_build_filename (self->path, "office.book", NULL);
  g_autofree char *name = g_strnfill (300, 'n');
  g_autofree char *too_long = g_build_filename (self->folder, name, NULL);

  assert_not_made (self, nowhere, WB_STORE_ERROR_NOT_FOUND);
  assert_not_made (self, too_long, WB_STORE_ERROR_NOT_FOUND);
  write_file (self->path, "x", 1);
  assert_not_made (self, under_file, WB_STORE_ERROR_NOT_FOUND);
}

/* The log of a book that was deleted would be replayed into the new one. */
static void
test_create_over_log (Fixture       *self,
                      gconstpointer  data)
{
  g_autofree char *log = g_strconcat (self->path, "-wal", NULL);

  write_file (log, "left over", 9);
  g_assert_false (g_file_test (self->path, G_FILE_TEST_EXISTS));
  assert_not_made (self, self->path, WB_STORE_ERROR_EXISTS);
  g_assert_cmpint (g_unlink (log), ==, 0);
}

/* What the person may not read or write. Root may always, so another user tries it in a process of
 * its own. */
static int
try_without_rights (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *other = g_build_filename (folder, "second.book", NULL);
  g_autoptr (GError) open_error = NULL;
  g_autoptr (GError) create_error = NULL;

  if (getuid () == 0 && (setgid (65534) != 0 || setuid (65534) != 0))
    return 1;
  if (wb_book_open (path, WB_BOOK_OPEN, NULL, &open_error) != NULL ||
      !g_error_matches (open_error, WB_STORE_ERROR, WB_STORE_ERROR_DENIED))
    return 2;
  if (wb_book_open (other, WB_BOOK_CREATE, NULL, &create_error) != NULL ||
      !g_error_matches (create_error, WB_STORE_ERROR, WB_STORE_ERROR_DENIED))
    return 3;
  return 0;
}

static void
assert_denied (const char *path)
{
  pid_t child = fork ();
  int status;

  g_assert_cmpint (child, >=, 0);
  if (child == 0)
    _exit (try_without_rights (path));
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  g_assert_true (WIFEXITED (status));
  g_assert_cmpint (WEXITSTATUS (status), ==, 0);
}

static void
test_denied (Fixture       *self,
             gconstpointer  data)
{
  g_autofree char *digest = NULL;
  g_autofree char *digest_after = NULL;

  g_clear_object (&self->book);
  digest = digest_of (self->path);
  /* readable, not writable, in a folder that is not writable */
  g_assert_cmpint (g_chmod (self->folder, 0555), ==, 0);
  g_assert_cmpint (g_chmod (self->path, 0444), ==, 0);
  assert_denied (self->path);
  /* not even readable */
  g_assert_cmpint (g_chmod (self->path, 0000), ==, 0);
  assert_denied (self->path);
  /* writable, but its folder is not: there is no room for the log */
  g_assert_cmpint (g_chmod (self->path, 0666), ==, 0);
  assert_denied (self->path);
  g_assert_cmpint (g_chmod (self->folder, 0755), ==, 0);
  digest_after = digest_of (self->path);
  g_assert_cmpstr (digest, ==, digest_after);
}

/* Names that mean something to SQLite or to an address. */
static void
test_awkward_names (Fixture       *self,
                    gconstpointer  data)
{
  static const char *const names[] = {
    "office?mode=ro.book", "100%25.book", "my book#2.book", ":memory:", "file:x.book",
    "Büro – Zürich.book", "a;b'c\"d.book",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_build_filename (self->folder, names[i], NULL);
      g_autoptr (GError) error = NULL;
      g_autoptr (WbBook) book = wb_book_open (path, WB_BOOK_CREATE, NULL, &error);
      g_autoptr (WbJob) job = make_job ("job-1", "J-1");
      g_autoptr (WbJob) stored = NULL;
      g_autoptr (WbJob) loaded = NULL;

      g_assert_no_error (error);
      stored = save (book, NULL, job);
      g_clear_object (&book);
      g_assert_true (g_file_test (path, G_FILE_TEST_IS_REGULAR));
      book = wb_book_open (path, WB_BOOK_OPEN, NULL, &error);
      g_assert_no_error (error);
      loaded = load (book, "job-1");
      assert_same_job (loaded, stored);
    }
}

/* Readers are opened later than the writer; by then the working folder may be another. */
static void
test_relative_path (Fixture       *self,
                    gconstpointer  data)
{
  g_autofree char *before = g_get_current_dir ();
  g_autoptr (GPtrArray) jobs = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (g_chdir (self->folder), ==, 0);
  self->book = wb_book_open ("office.book", WB_BOOK_CREATE, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (g_chdir (before), ==, 0);
  g_assert_true (g_path_is_absolute (wb_book_get_path (self->book)));
  jobs = wb_book_list_jobs (self->book, NULL, 0, NULL, &error);
  g_assert_no_error (error);
  g_assert_nonnull (jobs);
}

static void
test_cancelled (Fixture       *self,
                gconstpointer  data)
{
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autofree char *names = NULL;
  g_autoptr (GError) error = NULL;

  g_cancellable_cancel (cancellable);
  g_assert_null (wb_book_open (self->path, WB_BOOK_CREATE, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  names = fixture_list_folder (self);
  g_assert_cmpstr (names, ==, "");
}

#define ADD_FOLDER(path, function) \
  g_test_add ("/store/open/" path, Fixture, NULL, fixture_set_up_folder, function, \
              fixture_tear_down)
#define ADD_BOOK(path, function) \
  g_test_add ("/store/open/" path, Fixture, NULL, fixture_set_up, function, fixture_tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD_FOLDER ("absent", test_absent);
  ADD_FOLDER ("empty", test_empty);
  ADD_FOLDER ("text", test_text);
  ADD_FOLDER ("folder", test_folder);
  ADD_FOLDER ("pipe", test_pipe);
  ADD_FOLDER ("other-database", test_other_database);
  ADD_FOLDER ("marked-only", test_marked_only);
  ADD_BOOK ("newer", test_newer);
  ADD_BOOK ("newer-in-log", test_newer_in_log);
  ADD_BOOK ("damaged", test_damaged);
  ADD_BOOK ("damaged-pages", test_damaged_pages);
  ADD_BOOK ("cut-short", test_cut_short);
  ADD_BOOK ("senseless-rows", test_senseless_rows);
  ADD_BOOK ("large", test_large);
  ADD_BOOK ("create", test_create);
  ADD_BOOK ("create/exists", test_create_exists);
  ADD_FOLDER ("create/nowhere", test_create_nowhere);
  ADD_FOLDER ("create/over-log", test_create_over_log);
  ADD_BOOK ("denied", test_denied);
  ADD_FOLDER ("awkward-names", test_awkward_names);
  ADD_FOLDER ("relative-path", test_relative_path);
  ADD_FOLDER ("cancelled", test_cancelled);
  return g_test_run ();
}
