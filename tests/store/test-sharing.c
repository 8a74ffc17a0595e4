/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One book in several hands: windows, threads and processes. Nobody's work is lost or mixed up, and
 * reading goes on while somebody writes. */
#include "config.h"

#include "book-fixture.h"

#include <stdlib.h>
#include <string.h>

#include <glib/gstdio.h>

static const char *program;

static WbBook *
open_another (Fixture *self)
{
  g_autoptr (GError) error = NULL;
  WbBook *book = wb_book_open (self->path, WB_BOOK_OPEN, NULL, &error);

  g_assert_no_error (error);
  return book;
}

/* --- two windows ------------------------------------------------------------------------------ */

static void
test_two_books (Fixture       *self,
                gconstpointer  data)
{
  g_autoptr (WbBook) other = open_another (self);
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autoptr (WbJob) seen = load (other, "job-1");
  g_autoptr (WbJob) mine = with_record (stored, WB_KIND_PIECE, "piece-1", "room", "Hall", NULL);
  g_autoptr (WbJob) theirs = with_record (seen, WB_KIND_PIECE, "piece-1", "room", "Attic", NULL);
  g_autoptr (WbJob) stored_mine = NULL;
  g_autoptr (WbJob) seen_again = NULL;
  g_autoptr (WbJob) again = NULL;
  g_autoptr (WbJob) stored_again = NULL;
  g_autoptr (WbJob) finally = NULL;
  g_autoptr (GError) error = NULL;

  assert_same_job (seen, stored);
  stored_mine = save (self->book, stored, mine);
  g_assert_null (wb_book_save_job (other, seen, theirs, "too late", NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CONFLICT);
  seen_again = load (other, "job-1");
  assert_same_job (seen_again, stored_mine);

  /* Read again, the change goes in. */
  again = with_record (seen_again, WB_KIND_PIECE, "piece-1", "room", "Attic", NULL);
  stored_again = save (other, seen_again, again);
  finally = load (self->book, "job-1");
  assert_same_job (finally, stored_again);
}

static gint64
data_version (WbBook *book)
{
  g_autoptr (GError) error = NULL;
  gint64 version = wb_book_get_data_version (book, &error);

  g_assert_no_error (error);
  g_assert_cmpint (version, !=, 0);
  return version;
}

static void
test_data_version (Fixture       *self,
                   gconstpointer  data)
{
  g_autoptr (WbBook) other = open_another (self);
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (WbJob) loaded = NULL;
  g_autoptr (WbJob) changed = NULL;
  g_autoptr (WbJob) stored_changed = NULL;
  gint64 mine = data_version (self->book);
  gint64 theirs = data_version (other);

  g_assert_cmpint (data_version (self->book), ==, mine);
  stored = save (self->book, NULL, job);
  g_assert_cmpint (data_version (self->book), !=, mine);
  g_assert_cmpint (data_version (other), !=, theirs);
  mine = data_version (self->book);
  theirs = data_version (other);
  loaded = load (other, "job-1");
  g_assert_cmpint (data_version (self->book), ==, mine);
  g_assert_cmpint (data_version (other), ==, theirs);
  changed = with_record (loaded, WB_KIND_PIECE, "piece-1", "room", "Hall", NULL);
  stored_changed = save (other, loaded, changed);
  g_assert_cmpint (data_version (self->book), !=, mine);
}

/* Somebody holds the book for longer than we wait: saving fails, reading does not. */
static void
test_held (Fixture       *self,
           gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autoptr (WbJob) changed = with_record (stored, WB_KIND_PIECE, "piece-1", "room", "Hall", NULL);
  g_autoptr (WbJob) loaded = NULL;
  g_autoptr (WbJob) stored_changed = NULL;
  g_autoptr (GError) error = NULL;
  gint64 begin;
  sqlite3 *handle;

  g_assert_cmpint (sqlite3_open_v2 (self->path, &handle, SQLITE_OPEN_READWRITE, NULL), ==,
                   SQLITE_OK);
  g_assert_cmpint (sqlite3_exec (handle,
                                 "BEGIN IMMEDIATE; INSERT INTO number_series VALUES ('held', 1)",
                                 NULL, NULL, NULL), ==,
                   SQLITE_OK);
  begin = g_get_monotonic_time ();
  loaded = load (self->book, "job-1");
  g_assert_cmpint (g_get_monotonic_time () - begin, <, G_USEC_PER_SEC);
  assert_same_job (loaded, stored);
  g_assert_null (wb_book_save_job (self->book, stored, changed, "held up", NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_BUSY);
  assert_says (error, "another program is writing");
  g_assert_cmpint (sqlite3_exec (handle, "ROLLBACK", NULL, NULL, NULL), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_close (handle), ==, SQLITE_OK);
  stored_changed = save (self->book, stored, changed);
}

/* --- many hands ------------------------------------------------------------------------------- */

#define N_ROUNDS 25

/* Adds one to the number in the notes, as often as it takes until nobody came between. */
static void
count_once (WbBook *book)
{
  for (;;)
    {
      g_autoptr (WbJob) job = load (book, "job-1");
      const char *notes = wb_job_order (job)->notes;
      g_autofree char *next = g_strdup_printf ("%d", atoi (notes != NULL ? notes : "0") + 1);
      g_autoptr (WbJob) changed = with_record (job, WB_KIND_ORDER, "order", "notes", next, NULL);
      g_autoptr (GError) error = NULL;
      g_autoptr (WbJob) stored = wb_book_save_job (book, job, changed, "counted", NULL, &error);

      if (stored != NULL)
        return;
      g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CONFLICT);
    }
}

static void
count_and_number (WbBook *book)
{
  for (guint i = 0; i < N_ROUNDS; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *number = wb_book_next_number (book, "N-", NULL, &error);

      g_assert_no_error (error);
      g_print ("%s\n", number);
      count_once (book);
    }
}

/* What a second process does. */
static int
run_as_child (const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbBook) book = wb_book_open (path, WB_BOOK_OPEN, NULL, &error);

  g_assert_no_error (error);
  count_and_number (book);
  return 0;
}

static void
assert_counted (Fixture *self,
                guint    n)
{
  g_autoptr (WbJob) job = load (self->book, "job-1");
  g_autofree char *expected = g_strdup_printf ("%u", n);

  g_assert_cmpstr (wb_job_order (job)->notes, ==, expected);
  g_assert_cmpint (ask_number (self->path, "SELECT count (*) FROM history WHERE job_id = 'job-1'"),
                   ==, 1 + n);
  g_assert_cmpint (ask_number (self->path, "SELECT max (revision) FROM history"), ==, 1 + n);
}

static void
test_processes (Fixture       *self,
                gconstpointer  data)
{
  g_autoptr (GHashTable) numbers = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (WbJob) job = wb_job_new ("job-1", "USD");
  g_autoptr (WbJob) numbered = with_record (job, WB_KIND_ORDER, "order", "number", "J-1", NULL);
  g_autoptr (WbJob) stored = save (self->book, NULL, numbered);
  GSubprocess *children[3];

  for (gsize i = 0; i < G_N_ELEMENTS (children); i++)
    {
      g_autoptr (GError) error = NULL;

      children[i] = g_subprocess_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE, &error, program, "--count",
                                      self->path, NULL);
      g_assert_no_error (error);
    }
  /* In this process meanwhile. */
  for (guint i = 0; i < N_ROUNDS; i++)
    count_once (self->book);
  for (gsize i = 0; i < G_N_ELEMENTS (children); i++)
    {
      g_autofree char *output = NULL;
      g_auto (GStrv) lines = NULL;
      g_autoptr (GError) error = NULL;

      g_subprocess_communicate_utf8 (children[i], NULL, NULL, &output, NULL, &error);
      g_assert_no_error (error);
      g_assert_true (g_subprocess_get_successful (children[i]));
      lines = g_strsplit (g_strstrip (output), "\n", -1);
      g_assert_cmpuint (g_strv_length (lines), ==, N_ROUNDS);
      for (guint line = 0; lines[line] != NULL; line++)
        g_assert_true (g_hash_table_add (numbers, g_strdup (lines[line])));
      g_object_unref (children[i]);
    }
  assert_counted (self, N_ROUNDS * (1 + G_N_ELEMENTS (children)));
}

static gpointer
count_in_thread (gpointer data)
{
  for (guint i = 0; i < N_ROUNDS; i++)
    count_once (data);
  return NULL;
}

static void
test_threads (Fixture       *self,
              gconstpointer  data)
{
  g_autoptr (WbJob) job = wb_job_new ("job-1", "USD");
  g_autoptr (WbJob) numbered = with_record (job, WB_KIND_ORDER, "order", "number", "J-1", NULL);
  g_autoptr (WbJob) stored = save (self->book, NULL, numbered);
  /* more than there are readers */
  GThread *threads[7];

  for (gsize i = 0; i < G_N_ELEMENTS (threads); i++)
    threads[i] = g_thread_new ("count", count_in_thread, self->book);
  for (gsize i = 0; i < G_N_ELEMENTS (threads); i++)
    g_thread_join (threads[i]);
  assert_counted (self, N_ROUNDS * G_N_ELEMENTS (threads));
}

/* What a file chooser does that shows the folder of the book: it looks into each file. */
static void
look_into (const char *path,
           const char *ending)
{
  g_autofree char *name = g_strconcat (path, ending, NULL);
  g_autofree char *bytes = NULL;

  g_file_get_contents (name, &bytes, NULL, NULL);
}

static void
run_child (Fixture *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GSubprocess) child = g_subprocess_new (G_SUBPROCESS_FLAGS_STDOUT_SILENCE, &error,
                                                    program, "--count", self->path, NULL);

  g_assert_no_error (error);
  g_subprocess_wait_check (child, NULL, &error);
  g_assert_no_error (error);
}

/* Closing a file drops every lock that the process has on it. Others must see all the same that the
 * book is open, or the last of them puts away the log into which this one still writes. */
static void
test_looked_into (Fixture       *self,
                  gconstpointer  data)
{
  g_autoptr (WbJob) job = wb_job_new ("job-1", "USD");
  g_autoptr (WbJob) numbered = with_record (job, WB_KIND_ORDER, "order", "number", "J-1", NULL);
  g_autoptr (WbJob) stored = save (self->book, NULL, numbered);

  for (guint round = 0; round < 3; round++)
    {
      look_into (self->path, "");
      look_into (self->path, "-wal");
      look_into (self->path, "-shm");
      run_child (self);
      count_once (self->book);
      run_child (self);
      assert_counted (self, (round + 1) * (2 * N_ROUNDS + 1));
    }
  fixture_reopen (self);
  assert_counted (self, 3 * (2 * N_ROUNDS + 1));
}

/* --- reading while writing -------------------------------------------------------------------- */

/* Returns: @job with @room in every piece. */
static WbJob *
with_room (WbJob      *job,
           const char *room)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIECE); i++)
    {
      WbPiece *piece = wb_record_copy (wb_job_nth (job, WB_KIND_PIECE, i));

      wb_set_text (&piece->room, room);
      g_ptr_array_add (records, piece);
    }
  return wb_job_with_many (job, records);
}

/* Fails unless all pieces are of one room. */
static void
assert_one_state (WbJob *job)
{
  const WbPiece *first = wb_job_nth (job, WB_KIND_PIECE, 0);

  for (guint i = 1; i < wb_job_count (job, WB_KIND_PIECE); i++)
    g_assert_cmpstr (((const WbPiece *) wb_job_nth (job, WB_KIND_PIECE, i))->room, ==, first->room);
}

typedef struct
{
  WbBook *book;
  int     stop;
  guint   n_loads;
} Reading;

static gpointer
read_again_and_again (gpointer data)
{
  Reading *reading = data;

  while (!g_atomic_int_get (&reading->stop))
    {
      g_autoptr (WbJob) job = load (reading->book, "job-1");

      assert_one_state (job);
      reading->n_loads++;
    }
  return NULL;
}

static void
test_one_state (Fixture       *self,
                gconstpointer  data)
{
  g_autoptr (WbBook) other = open_another (self);
  g_autoptr (WbJob) job = make_large_job ("job-1", "J-1", 200);
  WbJob *stored = save (self->book, NULL, job);
  Reading readings[2] = { { self->book }, { other } };
  GThread *threads[2];

  for (gsize i = 0; i < G_N_ELEMENTS (threads); i++)
    threads[i] = g_thread_new ("read", read_again_and_again, &readings[i]);
  for (guint round = 0; round < 30; round++)
    {
      g_autofree char *room = g_strdup_printf ("Room %u", round);
      g_autoptr (WbJob) changed = with_room (stored, room);
      WbJob *next = save (self->book, stored, changed);

      wb_job_unref (stored);
      stored = next;
    }
  for (gsize i = 0; i < G_N_ELEMENTS (threads); i++)
    {
      g_atomic_int_set (&readings[i].stop, 1);
      g_thread_join (threads[i]);
      g_test_message ("read %u times meanwhile", readings[i].n_loads);
      g_assert_cmpuint (readings[i].n_loads, >, 0);
    }
  wb_job_unref (stored);
}

/* --- cancelling ------------------------------------------------------------------------------- */

static void
test_cancelled_before (Fixture       *self,
                       gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autoptr (WbJob) changed = with_record (stored, WB_KIND_PIECE, "piece-1", "room", "Hall", NULL);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GPtrArray) jobs = g_ptr_array_new ();
  g_autoptr (WbJob) loaded = NULL;
  g_autoptr (GError) error = NULL;

  g_cancellable_cancel (cancellable);
#define ASSERT_CANCELLED(call) \
  G_STMT_START { \
    g_assert_false (call); \
    g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED); \
    g_clear_error (&error); \
  } G_STMT_END
  ASSERT_CANCELLED (wb_book_list_jobs (self->book, NULL, 0, cancellable, &error));
  ASSERT_CANCELLED (wb_book_load_job (self->book, "job-1", cancellable, &error));
  ASSERT_CANCELLED (wb_book_find_job (self->book, "J-1", cancellable, &error));
  ASSERT_CANCELLED (wb_book_save_job (self->book, stored, changed, "cancelled", cancellable,
                                      &error));
  ASSERT_CANCELLED (wb_book_add_jobs (self->book, jobs, "cancelled", cancellable, &error));
  ASSERT_CANCELLED (wb_book_remove_job (self->book, "job-1", 1, cancellable, &error));
  ASSERT_CANCELLED (wb_book_next_number (self->book, "J-", cancellable, &error));
  ASSERT_CANCELLED (wb_book_list_history (self->book, "job-1", cancellable, &error));
#undef ASSERT_CANCELLED
  loaded = load (self->book, "job-1");
  assert_same_job (loaded, stored);
}

typedef struct
{
  GCancellable *cancellable;
  gulong        delay;
} Cancelling;

static gpointer
cancel_later (gpointer data)
{
  Cancelling *cancelling = data;

  g_usleep (cancelling->delay);
  g_cancellable_cancel (cancelling->cancellable);
  return NULL;
}

/* A save is cancelled at any moment: it was done wholly or not at all, and the book works on. */
static void
test_cancelled_midway (Fixture       *self,
                       gconstpointer  data)
{
  g_autoptr (WbJob) job = make_large_job ("job-1", "J-1", 1500);
  WbJob *stored = save (self->book, NULL, job);
  guint n_cancelled = 0;

  for (guint round = 0; round < 30; round++)
    {
      g_autoptr (GCancellable) cancellable = g_cancellable_new ();
      Cancelling cancelling = { cancellable, (gulong) g_test_rand_int_range (0, 25000) };
      g_autofree char *room = g_strdup_printf ("Room %u", round);
      g_autoptr (WbJob) changed = with_room (stored, room);
      g_autoptr (GError) error = NULL;
      g_autoptr (WbJob) loaded = NULL;
      GThread *thread = g_thread_new ("cancel", cancel_later, &cancelling);
      WbJob *next = wb_book_save_job (self->book, stored, changed, "perhaps", cancellable, &error);

      g_thread_join (thread);
      if (next != NULL)
        {
          wb_job_unref (stored);
          stored = next;
        }
      else
        {
          g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
          n_cancelled++;
        }
      loaded = load (self->book, "job-1");
      assert_same_job (loaded, stored);
    }
  g_test_message ("%u of 30 saves were cancelled", n_cancelled);
  g_assert_cmpuint (n_cancelled, >, 0);
  wb_job_unref (stored);
}

/* --- closing ---------------------------------------------------------------------------------- */

static void
test_closed (Fixture       *self,
             gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autoptr (GPtrArray) jobs = g_ptr_array_new ();
  g_autoptr (GError) error = NULL;

  wb_book_close (self->book);
  wb_book_close (self->book);
#define ASSERT_CLOSED(call) \
  G_STMT_START { \
    g_assert_false (call); \
    g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CLOSED); \
    g_clear_error (&error); \
  } G_STMT_END
  ASSERT_CLOSED (wb_book_list_jobs (self->book, NULL, 0, NULL, &error));
  ASSERT_CLOSED (wb_book_load_job (self->book, "job-1", NULL, &error));
  ASSERT_CLOSED (wb_book_find_job (self->book, "J-1", NULL, &error));
  ASSERT_CLOSED (wb_book_save_job (self->book, NULL, job, "late", NULL, &error));
  ASSERT_CLOSED (wb_book_add_jobs (self->book, jobs, "late", NULL, &error));
  ASSERT_CLOSED (wb_book_remove_job (self->book, "job-1", 1, NULL, &error));
  ASSERT_CLOSED (wb_book_next_number (self->book, "J-", NULL, &error));
  ASSERT_CLOSED (wb_book_list_history (self->book, "job-1", NULL, &error));
  ASSERT_CLOSED (wb_book_get_data_version (self->book, &error) != 0);
#undef ASSERT_CLOSED
  g_assert_cmpstr (wb_book_get_path (self->book), ==, self->path);
}

typedef struct
{
  WbBook *book;
  guint   number;
  guint   n_stored;
  guint   n_loads;
} Working;

static gboolean
was_closed (const GError *error)
{
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CLOSED);
  return TRUE;
}

static gpointer
work_until_closed (gpointer data)
{
  Working *working = data;

  for (;;)
    {
      g_autofree char *id = g_strdup_printf ("job-%u-%u", working->number, working->n_stored);
      g_autofree char *number = g_strdup_printf ("J-%u-%u", working->number, working->n_stored);
      g_autoptr (WbJob) job = make_large_job (id, number, 20);
      g_autoptr (WbJob) stored = NULL;
      g_autoptr (WbJob) loaded = NULL;
      g_autoptr (GError) error = NULL;

      stored = wb_book_save_job (working->book, NULL, job, "saved", NULL, &error);
      if (stored == NULL && was_closed (error))
        return NULL;
      working->n_stored++;
      loaded = wb_book_load_job (working->book, id, NULL, &error);
      if (loaded == NULL && was_closed (error))
        return NULL;
      working->n_loads++;
    }
}

/* Everybody is at work when the book is closed, twice at once: what was begun is finished, nothing
 * else is begun. */
static void
test_closed_at_work (Fixture       *self,
                     gconstpointer  data)
{
  Working workings[6];
  GThread *threads[6];
  guint n_stored = 0;

  for (guint i = 0; i < G_N_ELEMENTS (threads); i++)
    {
      workings[i] = (Working) { self->book, i, 0, 0 };
      threads[i] = g_thread_new ("work", work_until_closed, &workings[i]);
    }
  g_usleep (150000);
  wb_book_close (self->book);
  for (guint i = 0; i < G_N_ELEMENTS (threads); i++)
    {
      g_thread_join (threads[i]);
      n_stored += workings[i].n_stored;
    }
  g_test_message ("%u jobs stored before", n_stored);
  g_assert_cmpuint (n_stored, >, 0);
  g_assert_cmpint (ask_number (self->path, "SELECT count (*) FROM job"), ==, n_stored);
}

#define ADD(path, function) \
  g_test_add ("/store/sharing/" path, Fixture, NULL, fixture_set_up, function, fixture_tear_down)

int
main (int    argc,
      char **argv)
{
  if (argc == 3 && strcmp (argv[1], "--count") == 0)
    return run_as_child (argv[2]);

  program = argv[0];
  g_test_init (&argc, &argv, NULL);
  ADD ("two-books", test_two_books);
  ADD ("data-version", test_data_version);
  ADD ("held", test_held);
  ADD ("processes", test_processes);
  ADD ("looked-into", test_looked_into);
  ADD ("threads", test_threads);
  ADD ("one-state", test_one_state);
  ADD ("cancelled/before", test_cancelled_before);
  ADD ("cancelled/midway", test_cancelled_midway);
  ADD ("closed", test_closed);
  ADD ("closed/at-work", test_closed_at_work);
  return g_test_run ();
}
