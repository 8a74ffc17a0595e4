/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The disk fails, or the program is killed, at every moment in turn: the book is then as it was
 * before the deed or as it is after, never anything between. */
#include "config.h"

#include "book-fixture.h"
#include "failing-disk.h"
#include "store/wb-book-private.h"

#include <signal.h>
#include <stdlib.h>
#include <string.h>

#include <glib/gstdio.h>

static const char *program;

/* --- the disk fails --------------------------------------------------------------------------- */

/* One deed on the book of job-1. Returns: whether it was done. */
typedef gboolean (*BookDeed) (WbBook  *book,
                              GError **error);

static gboolean
save_change (WbBook  *book,
             GError **error)
{
  g_autoptr (WbJob) job = wb_book_load_job (book, "job-1", NULL, error);
  g_autoptr (WbJob) changed = NULL;
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (GError) fault = NULL;

  if (job == NULL)
    return FALSE;
  changed = wb_job_without (job, WB_KIND_HANDOVER, "handover-1", &fault);
  g_assert_no_error (fault);
  change_job (&changed, WB_KIND_PARTY, "party-1", "name", "Imani Okonjo");
  change_job (&changed, WB_KIND_PIECE, "piece-1", "room", "Hall");
  for (guint i = 0; i < 30; i++)
    {
      g_autofree char *id = g_strdup_printf ("new-%u", i);

      change_job (&changed, WB_KIND_PIECE, id, "description", "Carton of books", "room", "Study");
    }
  stored = wb_book_save_job (book, job, changed, "changed", NULL, error);
  return stored != NULL;
}

static gboolean
add_two (WbBook  *book,
         GError **error)
{
  g_autoptr (GPtrArray) jobs = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_job_unref);

  g_ptr_array_add (jobs, make_job ("job-2", "J-2"));
  g_ptr_array_add (jobs, make_job ("job-3", "J-3"));
  return wb_book_add_jobs (book, jobs, "added", NULL, error);
}

static gboolean
remove_one (WbBook  *book,
            GError **error)
{
  return wb_book_remove_job (book, "job-1", 1, NULL, error);
}

static gboolean
take_number (WbBook  *book,
             GError **error)
{
  g_autofree char *number = wb_book_next_number (book, "J-", NULL, error);

  return number != NULL;
}

static void
describe_rows (GString    *text,
               sqlite3    *handle,
               const char *sql)
{
  sqlite3_stmt *statement;

  g_assert_cmpint (sqlite3_prepare_v2 (handle, sql, -1, &statement, NULL), ==, SQLITE_OK);
  while (sqlite3_step (statement) == SQLITE_ROW)
    {
      for (int column = 0; column < sqlite3_column_count (statement); column++)
        g_string_append_printf (text, "%s|",
                                (const char *) sqlite3_column_text (statement, column));
      g_string_append_c (text, '\n');
    }
  g_assert_cmpint (sqlite3_finalize (statement), ==, SQLITE_OK);
}

/* Returns: all that is in a book, in an order that does not depend on how it came there. */
static char *
describe (const char *path)
{
  static const char *const beside_records[] = {
    "SELECT id, currency, revision, removed, number, shipper, n_pieces, claims FROM job ORDER BY 1",
    "SELECT job_id, revision, deed, hex (changes) FROM history ORDER BY 1, 2",
    "SELECT rowid, words FROM job_words ORDER BY 1",
    "SELECT rowid FROM job_words WHERE job_words MATCH 'ada OR imani' ORDER BY 1",
    "SELECT * FROM number_series ORDER BY 1",
  };
  GString *text = g_string_new (NULL);
  sqlite3 *handle;

  g_assert_cmpint (sqlite3_open_v2 (path, &handle, SQLITE_OPEN_READWRITE, NULL), ==, SQLITE_OK);
  for (gsize i = 0; i < G_N_ELEMENTS (beside_records); i++)
    describe_rows (text, handle, beside_records[i]);
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      g_autofree char *sql = g_strdup_printf ("SELECT * FROM \"%s\" ORDER BY 1, 2",
                                              wb_record_type ((WbKind) kind)->name);

      describe_rows (text, handle, sql);
    }
  g_assert_cmpint (sqlite3_close (handle), ==, SQLITE_OK);
  return g_string_free (text, FALSE);
}

static void
assert_whole (const char *path)
{
  g_autofree char *verdict = ask_text (path, "PRAGMA integrity_check");

  g_assert_cmpstr (verdict, ==, "ok");
  g_assert_cmpint (ask_number (path, "SELECT count (*) FROM pragma_foreign_key_check"), ==, 0);
  tamper (path, "INSERT INTO job_words (job_words) VALUES ('integrity-check')");
}

typedef struct
{
  BookDeed      deed;
  FailingManner manner;
} Torture;

static const Torture tortures[] = {
  { save_change, FAILING_ONCE }, { save_change, FAILING_ON }, { save_change, FAILING_FULL },
  { add_two,     FAILING_ONCE }, { add_two,     FAILING_ON }, { add_two,     FAILING_FULL },
  { remove_one,  FAILING_ONCE }, { remove_one,  FAILING_ON }, { remove_one,  FAILING_FULL },
  { take_number, FAILING_ONCE }, { take_number, FAILING_ON }, { take_number, FAILING_FULL },
};

static void
restore (Fixture    *self,
         const char *bytes,
         gsize       length)
{
  static const char *const endings[] = { "-wal", "-shm", "-journal" };

  g_clear_object (&self->book);
  for (gsize i = 0; i < G_N_ELEMENTS (endings); i++)
    {
      g_autofree char *name = g_strconcat (self->path, endings[i], NULL);

      (void) g_unlink (name);
    }
  g_assert_true (g_file_set_contents_full (self->path, bytes, (gssize) length,
                                           G_FILE_SET_CONTENTS_NONE, 0666, NULL));
  fixture_reopen (self);
}

static void
assert_is_a_failure (const GError  *error,
                     FailingManner  manner)
{
  if (manner == FAILING_FULL)
    {
      g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_FULL);
      assert_says (error, "no room left");
    }
  else
    {
      g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_IO);
      assert_says (error, "could not be read or written");
    }
}

static void
test_failing_disk (Fixture       *self,
                   gconstpointer  data)
{
  const Torture *torture = data;
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autofree char *bytes = NULL;
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  gsize length;
  guint n_failures = 0;

  g_clear_object (&self->book);
  before = describe (self->path);
  g_file_get_contents (self->path, &bytes, &length, NULL);

  for (guint n = 0; n < 2000; n++)
    {
      g_autofree char *now = NULL;
      g_autofree char *finally = NULL;
      g_autoptr (GError) error = NULL;
      gboolean done, failed;

      restore (self, bytes, length);
      failing_disk_fail (torture->manner, n);
      done = torture->deed (self->book, &error);
      failed = failing_disk_mend ();
      if (done && !failed)
        {
          /* It took n deeds of the disk; all of them have failed by now. */
          g_test_message ("%u moments to fail", n_failures);
          g_assert_cmpuint (n_failures, >, 2);
          return;
        }
      n_failures++;
      if (!done)
        assert_is_a_failure (error, torture->manner);
      now = describe (self->path);
      if (done)
        g_assert_cmpstr (now, !=, before);
      else
        g_assert_cmpstr (now, ==, before);

      /* The book works on: the deed can be done now, if it was not. */
      if (!done)
        {
          g_clear_error (&error);
          done = torture->deed (self->book, &error);
          g_assert_no_error (error);
          g_assert_true (done);
        }
      fixture_reopen (self);
      assert_whole (self->path);
      finally = describe (self->path);
      if (after == NULL)
        after = g_strdup (finally);
      g_assert_cmpstr (finally, ==, after);
    }
  g_error ("the deed never came to its end");
}

/* As before, but the program goes away after the failure, and with it what it has in memory. Every
 * second moment or so is enough here. */
static void
test_failing_then_gone (Fixture       *self,
                        gconstpointer  data)
{
  const Torture *torture = data;
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autofree char *bytes = NULL;
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  gsize length;

  g_clear_object (&self->book);
  before = describe (self->path);
  g_file_get_contents (self->path, &bytes, &length, NULL);
  restore (self, bytes, length);
  g_assert_true (torture->deed (self->book, NULL));
  g_clear_object (&self->book);
  after = describe (self->path);

  for (guint n = 0; n < 2000; n += (guint) g_test_rand_int_range (1, 4))
    {
      g_autofree char *now = NULL;
      gboolean done, failed;

      restore (self, bytes, length);
      failing_disk_fail (torture->manner, n);
      done = torture->deed (self->book, NULL);
      /* also while it is closed */
      g_clear_object (&self->book);
      failed = failing_disk_mend ();
      fixture_reopen (self);
      assert_whole (self->path);
      now = describe (self->path);
      if (done || strcmp (now, before) != 0)
        g_assert_cmpstr (now, ==, after);
      if (done && !failed)
        return;
    }
  g_error ("the deed never came to its end");
}

/* Making a book while the disk fails leaves nothing, or a book. */
static void
test_failing_create (Fixture       *self,
                     gconstpointer  data)
{
  for (guint n = 0; n < 5000; n++)
    {
      g_autofree char *names = NULL;
      g_autoptr (GError) error = NULL;
      gboolean failed;

      failing_disk_fail (FAILING_ON, n);
      self->book = wb_book_open (self->path, WB_BOOK_CREATE, NULL, &error);
      failed = failing_disk_mend ();
      if (self->book != NULL)
        {
          fixture_reopen (self);
          assert_whole (self->path);
          if (!failed)
            return;
          g_clear_object (&self->book);
          g_assert_cmpint (g_unlink (self->path), ==, 0);
          continue;
        }
      g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_IO);
      names = fixture_list_folder (self);
      g_assert_cmpstr (names, ==, "");
    }
  g_error ("the book was never made");
}

/* Bringing a book up to date while the disk fails: it is of one version or the other, with all that
 * was in it. */
static void
test_failing_upgrade (Fixture       *self,
                      gconstpointer  data)
{
  const char *const versions[] = {
    wb_migrations ()[0],
    wb_migrations ()[1],
    wb_migrations ()[2],
    wb_migrations ()[3],
    "ALTER TABLE piece ADD COLUMN pallet TEXT; UPDATE piece SET pallet = 'P-' || tag; CREATE TABLE"
    " pallet (id TEXT) STRICT;", NULL,
  };
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autofree char *copy = g_strconcat (self->path, ".before-5", NULL);
  g_autofree char *bytes = NULL;
  gsize length;
  gboolean failed = TRUE;

  g_clear_object (&self->book);
  g_file_get_contents (self->path, &bytes, &length, NULL);
  for (guint n = 0; failed; n++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (WbJob) loaded = NULL;
      WbBook *book;

      g_assert_cmpuint (n, <, 5000);
      restore (self, bytes, length);
      g_clear_object (&self->book);
      failing_disk_fail (FAILING_ON, n);
      book = wb_book_open_with (self->path, WB_BOOK_OPEN, versions, NULL, &error);
      g_clear_object (&book);
      failed = failing_disk_mend ();
      if (error != NULL)
        g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_IO);
      g_clear_error (&error);
      assert_whole (self->path);
      if (ask_number (self->path, "PRAGMA user_version") == 5)
        g_assert_cmpint (ask_number (self->path,
                                     "SELECT count (*) FROM piece WHERE pallet = 'P-1'"), ==, 1);
      else
        g_assert_cmpint (ask_number (self->path,
                                     "SELECT count (*) FROM sqlite_schema WHERE name = 'pallet'"),
                                     ==, 0);
      book = wb_book_open_with (self->path, WB_BOOK_OPEN, versions, NULL, &error);
      g_assert_no_error (error);
      loaded = load (book, "job-1");
      assert_same_job (loaded, stored);
      g_object_unref (book);
      (void) g_unlink (copy);
    }
}

/* --- without a log ---------------------------------------------------------------------------- */

/* Where files cannot be shared through memory there is no log beside the book, and all works the
 * same. */
static void
test_without_log (Fixture       *self,
                  gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (WbJob) changed = NULL;
  g_autoptr (WbJob) stored_changed = NULL;
  g_autoptr (WbJob) loaded = NULL;
  g_autoptr (WbBook) other = NULL;
  g_autofree char *mode = NULL;
  g_autofree char *names = NULL;
  g_autoptr (GError) error = NULL;
  gint64 version;

  failing_disk_unshare (TRUE);
  self->book = wb_book_open (self->path, WB_BOOK_CREATE, NULL, &error);
  g_assert_no_error (error);
  mode = ask_text (self->path, "PRAGMA journal_mode");
  g_assert_cmpstr (mode, ==, "delete");
  stored = save (self->book, NULL, job);
  other = wb_book_open (self->path, WB_BOOK_OPEN, NULL, &error);
  g_assert_no_error (error);
  version = wb_book_get_data_version (other, &error);
  g_assert_no_error (error);
  changed = with_record (stored, WB_KIND_PIECE, "piece-1", "room", "Hall", NULL);
  stored_changed = save (self->book, stored, changed);
  g_assert_cmpint (wb_book_get_data_version (other, &error), !=, version);
  loaded = load (other, "job-1");
  assert_same_job (loaded, stored_changed);
  g_assert_null (wb_book_save_job (other, stored, changed, "too late", NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CONFLICT);
  g_clear_object (&other);
  fixture_reopen (self);
  assert_whole (self->path);
  names = fixture_list_folder (self);
  g_assert_cmpstr (names, ==, "office.book");
  g_clear_object (&self->book);
  failing_disk_unshare (FALSE);
}

/* --- the program is killed -------------------------------------------------------------------- */

#define N_PIECES 120

static char *
name_generation (gint64 revision)
{
  return g_strdup_printf ("generation%" G_GINT64_FORMAT, revision);
}

/* Stores generation after generation of a job until it is killed: every piece, the shipper and the
 * deed hold its name. */
G_NORETURN static void
store_until_killed (const char *path)
{
  g_autoptr (GError) error = NULL;
  WbBook *book = wb_book_open (path, WB_BOOK_OPEN, NULL, &error);
  WbJob *job;

  g_assert_no_error (error);
  job = load (book, "job-1");
  g_print ("ready\n");
  for (;;)
    {
      g_autofree char *generation = name_generation (wb_job_get_revision (job) + 1);
      g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
      g_autoptr (WbJob) changed = NULL;
      WbJob *stored;

      for (guint i = 0; i < wb_job_count (job, WB_KIND_PIECE); i++)
        {
          WbPiece *piece = wb_record_copy (wb_job_nth (job, WB_KIND_PIECE, i));

          wb_set_text (&piece->room, generation);
          g_ptr_array_add (records, piece);
        }
      changed = wb_job_with_many (job, records);
      change_job (&changed, WB_KIND_PARTY, "party-1", "name", generation);
      stored = wb_book_save_job (book, job, changed, generation, NULL, &error);
      g_assert_no_error (error);
      g_print ("stored\n");
      wb_job_unref (job);
      job = stored;
    }
}

static void
read_line (GDataInputStream *stream,
           const char       *expected)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *line = g_data_input_stream_read_line (stream, NULL, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpstr (line, ==, expected);
}

/* Starts a child that stores, and kills it some time in or after its second save. */
static void
kill_while_storing (Fixture *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GSubprocess) child = NULL;
  g_autoptr (GDataInputStream) output = NULL;
  gint64 begin, duration;

  child = g_subprocess_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE, &error, program, "--store", self->path,
                            NULL);
  g_assert_no_error (error);
  output = g_data_input_stream_new (g_subprocess_get_stdout_pipe (child));
  read_line (output, "ready");
  begin = g_get_monotonic_time ();
  read_line (output, "stored");
  duration = g_get_monotonic_time () - begin;
  g_usleep ((gulong) g_test_rand_int_range (0, (gint32) MIN (2 * duration, G_USEC_PER_SEC)));
  g_subprocess_force_exit (child);
  g_subprocess_wait (child, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (g_subprocess_get_if_signaled (child));
  g_assert_cmpint (g_subprocess_get_term_sig (child), ==, SIGKILL);
}

/* The job is whole, of one generation, and so are its history and its words. */
static gint64
assert_one_generation (Fixture *self)
{
  g_autoptr (WbJob) job = load (self->book, "job-1");
  g_autofree char *generation = name_generation (wb_job_get_revision (job));
  g_autoptr (GPtrArray) history = wb_book_list_history (self->book, "job-1", NULL, NULL);
  g_autoptr (GPtrArray) found = wb_book_list_jobs (self->book, generation, 0, NULL, NULL);

  g_assert_cmpuint (wb_job_count (job, WB_KIND_PIECE), ==, N_PIECES);
  g_assert_cmpuint (history->len, ==, wb_job_get_revision (job));
  if (wb_job_get_revision (job) == 1)
    return 1;
  for (guint i = 0; i < N_PIECES; i++)
    g_assert_cmpstr (((const WbPiece *) wb_job_nth (job, WB_KIND_PIECE, i))->room, ==, generation);
  g_assert_cmpstr (((WbHistoryEntry *) history->pdata[0])->deed, ==, generation);
  g_assert_cmpuint (found->len, ==, 1);
  g_assert_cmpstr (((WbJobSummary *) found->pdata[0])->shipper, ==, generation);
  return wb_job_get_revision (job);
}

static void
test_killed (Fixture       *self,
             gconstpointer  data)
{
  g_autoptr (WbJob) job = make_large_job ("job-1", "J", N_PIECES);
  g_autoptr (WbJob) with_shipper = with_record (job, WB_KIND_PARTY, "party-1", "role", "shipper",
                                                NULL);
  g_autoptr (WbJob) stored = save (self->book, NULL, with_shipper);
  gint64 generation = 1;

  for (guint round = 0; round < 20; round++)
    {
      gint64 next;

      g_clear_object (&self->book);
      kill_while_storing (self);
      fixture_reopen (self);
      next = assert_one_generation (self);
      g_assert_cmpint (next, >, generation);
      generation = next;
      assert_whole (self->path);
    }
  g_test_message ("%" G_GINT64_FORMAT " saves in 20 lives", generation);
}

/* Killed beside another process that has the book open and works on. */
static void
test_killed_beside (Fixture       *self,
                    gconstpointer  data)
{
  g_autoptr (WbJob) job = make_large_job ("job-1", "J", N_PIECES);
  g_autoptr (WbJob) with_shipper = with_record (job, WB_KIND_PARTY, "party-1", "role", "shipper",
                                                NULL);
  g_autoptr (WbJob) stored = save (self->book, NULL, with_shipper);

  for (guint round = 0; round < 10; round++)
    {
      g_autofree char *id = g_strdup_printf ("other-%u", round);
      g_autofree char *number = g_strdup_printf ("X-%u", round);
      g_autoptr (WbJob) other = make_job (id, number);
      g_autoptr (WbJob) stored_other = NULL;

      kill_while_storing (self);
      assert_one_generation (self);
      stored_other = save (self->book, NULL, other);
    }
  assert_whole (self->path);
}

int
main (int    argc,
      char **argv)
{
  static const char *const deeds[] = { "save", "add", "remove", "number" };
  static const char *const manners[] = { "once", "on", "full" };

  if (argc == 3 && strcmp (argv[1], "--store") == 0)
    store_until_killed (argv[2]);

  program = argv[0];
  g_test_init (&argc, &argv, NULL);
  failing_disk_install ();
  for (gsize i = 0; i < G_N_ELEMENTS (tortures); i++)
    {
      const char *deed = deeds[i / G_N_ELEMENTS (manners)];
      const char *manner = manners[i % G_N_ELEMENTS (manners)];
      g_autofree char *path = g_strdup_printf ("/store/torture/%s/%s", deed, manner);
      g_autofree char *gone = g_strdup_printf ("/store/torture/%s/%s/then-gone", deed, manner);

      g_test_add (path, Fixture, &tortures[i], fixture_set_up, test_failing_disk,
                  fixture_tear_down);
      g_test_add (gone, Fixture, &tortures[i], fixture_set_up, test_failing_then_gone,
                  fixture_tear_down);
    }
  g_test_add ("/store/torture/create", Fixture, NULL, fixture_set_up_folder, test_failing_create,
              fixture_tear_down);
  g_test_add ("/store/torture/upgrade", Fixture, NULL, fixture_set_up, test_failing_upgrade,
              fixture_tear_down);
  g_test_add ("/store/torture/without-log", Fixture, NULL, fixture_set_up_folder, test_without_log,
              fixture_tear_down);
  g_test_add ("/store/torture/killed", Fixture, NULL, fixture_set_up, test_killed,
              fixture_tear_down);
  g_test_add ("/store/torture/killed/beside", Fixture, NULL, fixture_set_up, test_killed_beside,
              fixture_tear_down);
  return g_test_run ();
}
