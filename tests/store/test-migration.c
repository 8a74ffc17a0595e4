/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bringing a book up to date, with made-up versions after the real ones: what is in it stays, a
 * copy is made before, and when it does not work the book is as it was. */
#include "config.h"

#include "book-fixture.h"
#include "store/wb-book-private.h"

#include <string.h>

#include <glib/gstdio.h>

/* Versions that are real. */
#define N_REAL 4

/* The real versions and those given. */
static const char *const *
versions (const char *next,
          const char *last)
{
  static const char *list[N_REAL + 3];

  g_assert_cmpuint (g_strv_length ((char **) wb_migrations ()), ==, N_REAL);
  for (guint i = 0; i < N_REAL; i++)
    list[i] = wb_migrations ()[i];
  list[N_REAL] = next;
  list[N_REAL + 1] = last;
  list[N_REAL + 2] = NULL;
  return list;
}

#define ADDS_A_COLUMN \
  "ALTER TABLE piece ADD COLUMN pallet TEXT; UPDATE piece SET pallet = 'P-' || tag;"
#define ADDS_A_TABLE \
  "CREATE TABLE pallet (id TEXT PRIMARY KEY) STRICT;" \
  "INSERT INTO pallet SELECT DISTINCT pallet FROM piece;"

static WbJob *
fill (Fixture *self)
{
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  WbJob *stored = save (self->book, NULL, job);

  g_clear_object (&self->book);
  return stored;
}

static void
assert_holds (const char        *path,
              const char *const *migrations,
              WbJob             *job)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbBook) book = wb_book_open_with (path, WB_BOOK_OPEN, migrations, NULL, &error);
  g_autoptr (WbJob) loaded = NULL;

  g_assert_no_error (error);
  loaded = load (book, wb_job_get_id (job));
  assert_same_job (loaded, job);
}

static void
test_upgrade (Fixture       *self,
              gconstpointer  data)
{
  g_autoptr (WbJob) job = fill (self);
  g_autofree char *copy = g_strconcat (self->path, ".before-6", NULL);
  g_autofree char *names = NULL;
  g_autofree char *pallets = NULL;

  assert_holds (self->path, versions (ADDS_A_COLUMN, ADDS_A_TABLE), job);
  g_assert_cmpint (ask_number (self->path, "PRAGMA user_version"), ==, N_REAL + 2);
  g_assert_cmpint (ask_number (self->path, "PRAGMA application_id"), ==, WB_BOOK_APPLICATION_ID);
  pallets = ask_text (self->path,
                      "SELECT group_concat (id) FROM (SELECT id FROM pallet ORDER BY id)");
  g_assert_cmpstr (pallets, ==, "P-1,P-2");
  names = fixture_list_folder (self);
  g_assert_cmpstr (names, ==, "office.book office.book.before-6");

  /* The copy is the whole book as it was. */
  g_assert_cmpint (ask_number (copy, "PRAGMA user_version"), ==, N_REAL);
  g_assert_cmpint (ask_number (copy, "SELECT count (*) FROM sqlite_schema WHERE name = 'pallet'"),
                   ==, 0);
  assert_holds (copy, wb_migrations (), job);

  /* Once more there is nothing to do, and no other copy. */
  assert_holds (self->path, versions (ADDS_A_COLUMN, ADDS_A_TABLE), job);
  g_clear_pointer (&names, g_free);
  names = fixture_list_folder (self);
  g_assert_cmpstr (names, ==, "office.book office.book.before-6");
}

/* A new book is made by all versions in turn, and there is nothing to copy. */
static void
test_new (Fixture       *self,
          gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *names = NULL;

  self->book = wb_book_open_with (self->path, WB_BOOK_CREATE,
                                  versions (ADDS_A_COLUMN, ADDS_A_TABLE), NULL, &error);
  g_assert_no_error (error);
  g_clear_object (&self->book);
  g_assert_cmpint (ask_number (self->path, "PRAGMA user_version"), ==, N_REAL + 2);
  names = fixture_list_folder (self);
  g_assert_cmpstr (names, ==, "office.book");
}

static void
test_copy_kept (Fixture       *self,
                gconstpointer  data)
{
  g_autoptr (WbJob) job = fill (self);
  g_autofree char *earlier = g_strconcat (self->path, ".before-5", NULL);
  g_autofree char *text = NULL;
  g_autofree char *names = NULL;

  g_assert_true (g_file_set_contents (earlier, "an earlier copy", -1, NULL));
  assert_holds (self->path, versions (ADDS_A_COLUMN, NULL), job);
  names = fixture_list_folder (self);
  g_assert_cmpstr (names, ==, "office.book office.book.before-5 office.book.before-5.2");
  g_assert_true (g_file_get_contents (earlier, &text, NULL, NULL));
  g_assert_cmpstr (text, ==, "an earlier copy");
}

/* Fails unless the upgrade gives an error, and everything in the folder stays as it was. */
static void
assert_not_upgraded (Fixture           *self,
                     const char *const *migrations,
                     GCancellable      *cancellable,
                     GQuark             domain,
                     int                code)
{
  g_autofree char *digest = digest_of (self->path);
  g_autofree char *names = fixture_list_folder (self);
  g_autofree char *digest_after = NULL;
  g_autofree char *names_after = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_null (wb_book_open_with (self->path, WB_BOOK_OPEN, migrations, cancellable, &error));
  g_assert_error (error, domain, code);
  assert_says (error, "");
  digest_after = digest_of (self->path);
  names_after = fixture_list_folder (self);
  g_assert_cmpstr (digest, ==, digest_after);
  g_assert_cmpstr (names, ==, names_after);
}

static void
test_fails (Fixture       *self,
            gconstpointer  data)
{
  static const struct
  {
    const char   *third;
    WbStoreError  code;
  } cases[] = {
    { "CREATE TABLE half (a); UPDATE nothing SET a = 1;", WB_STORE_ERROR_CORRUPT },
    { "UPDATE piece SET tag = -1;", WB_STORE_ERROR_CONSTRAINT },
    /* references are looked at after all: the pieces are still in the lot */
    { "DELETE FROM lot;", WB_STORE_ERROR_CORRUPT },
  };
  g_autoptr (WbJob) job = fill (self);

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    assert_not_upgraded (self, versions (ADDS_A_COLUMN, cases[i].third), NULL, WB_STORE_ERROR,
                         (int) cases[i].code);
  assert_holds (self->path, wb_migrations (), job);
}

static gpointer
cancel_soon (gpointer data)
{
  g_usleep (100000);
  g_cancellable_cancel (data);
  return NULL;
}

static void
test_cancelled (Fixture       *self,
                gconstpointer  data)
{
  g_autoptr (WbJob) job = fill (self);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  GThread *thread = g_thread_new ("cancel", cancel_soon, cancellable);

  /* would count for years */
  assert_not_upgraded (self,
                       versions (ADDS_A_COLUMN,
                                 "CREATE TABLE n AS WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL"
                                 " SELECT i + 1 FROM n WHERE i < 1000000000000) SELECT count (*)"
                                 " AS i FROM n;"),
                       cancellable, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  g_thread_join (thread);
  assert_holds (self->path, wb_migrations (), job);
}

/* A table is made anew while others refer to it. */
static void
test_remade_table (Fixture       *self,
                   gconstpointer  data)
{
  g_autoptr (WbJob) job = fill (self);

  assert_holds (self->path,
                versions ("CREATE TABLE new_lot (job_id TEXT NOT NULL REFERENCES job (id)"
                          " DEFERRABLE INITIALLY DEFERRED, id TEXT NOT NULL, position INTEGER NOT"
                          " NULL, colour TEXT, number TEXT, first INTEGER, last INTEGER, rolls"
                          " INTEGER, PRIMARY KEY (job_id, id)) STRICT, WITHOUT ROWID;"
                          "INSERT INTO new_lot SELECT *, 1 FROM lot;"
                          "DROP TABLE lot; ALTER TABLE new_lot RENAME TO lot;", NULL), job);
  g_assert_cmpint (ask_number (self->path, "SELECT sum (rolls) FROM lot"), ==, 1);
}

/* The book is open in an earlier program when a later one comes. */
static void
test_while_open (Fixture       *self,
                 gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autoptr (WbJob) changed = with_record (stored, WB_KIND_PIECE, "piece-1", "room", "Hall", NULL);
  g_autoptr (WbJob) loaded = load (self->book, "job-1");
  g_autoptr (GError) error = NULL;

  assert_holds (self->path, versions (ADDS_A_COLUMN, NULL), stored);
  g_assert_null (wb_book_save_job (self->book, stored, changed, "too late", NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NEWER);
  g_clear_error (&error);
  g_assert_null (wb_book_load_job (self->book, "job-1", NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NEWER);
  g_clear_error (&error);
  assert_holds (self->path, versions (ADDS_A_COLUMN, NULL), stored);

  g_clear_object (&self->book);
  g_assert_null (wb_book_open (self->path, WB_BOOK_OPEN, NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NEWER);
  assert_says (error, "it is of version 5, this program knows up to 4");
}

/* Somebody else is writing for longer than we wait. */
static void
test_busy (Fixture       *self,
           gconstpointer  data)
{
  g_autoptr (WbJob) job = fill (self);
  g_autoptr (GError) error = NULL;
  g_autofree char *names = NULL;
  sqlite3 *handle;

  g_assert_cmpint (sqlite3_open_v2 (self->path, &handle, SQLITE_OPEN_READWRITE, NULL), ==,
                   SQLITE_OK);
  g_assert_cmpint (sqlite3_exec (handle, "BEGIN IMMEDIATE", NULL, NULL, NULL), ==, SQLITE_OK);
  g_assert_null (wb_book_open_with (self->path, WB_BOOK_OPEN, versions (ADDS_A_COLUMN, NULL), NULL,
                                    &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_BUSY);
  assert_says (error, "another program is writing");
  g_assert_cmpint (sqlite3_close (handle), ==, SQLITE_OK);
  names = fixture_list_folder (self);
  g_assert_cmpstr (names, ==, "office.book");
  assert_holds (self->path, wb_migrations (), job);
}

#define ADD(path, set_up, function) \
  g_test_add ("/store/migration/" path, Fixture, NULL, set_up, function, fixture_tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("upgrade", fixture_set_up, test_upgrade);
  ADD ("new", fixture_set_up_folder, test_new);
  ADD ("copy-kept", fixture_set_up, test_copy_kept);
  ADD ("fails", fixture_set_up, test_fails);
  ADD ("cancelled", fixture_set_up, test_cancelled);
  ADD ("remade-table", fixture_set_up, test_remade_table);
  ADD ("while-open", fixture_set_up, test_while_open);
  ADD ("busy", fixture_set_up, test_busy);
  return g_test_run ();
}
