/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Nothing in the queue of a book is lost and nothing done twice: several programs on one book,
 * stopped, killed while at work, kept from the book, and on servers that fail at random. */
#include "config.h"

#include "queue-fixture.h"
#include "share-fixture.h"

#include <signal.h>
#include <sqlite3.h>
#include <string.h>

/* --- several ---------------------------------------------------------------------------------- */

static void
test_two_queues (ShareFixture  *self,
                 gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbOffice) other = wb_office_open (wb_office_get_path (self->here), WB_BOOK_OPEN, NULL,
                                               &error);
  const guint n = 20;
  QueueServer server;
  WbQueue *one, *two;

  g_assert_no_error (error);
  queue_server_init (&server);
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *job = g_strdup_printf ("job-%u", i);

      queue_fixture_add (self->here, self->at_here, job);
    }
  one = queue_fixture_start (self->here, &server);
  two = queue_fixture_start (other, &server);
  queue_fixture_wait (one, WB_SHARE_DONE, n);
  queue_fixture_wait (two, WB_SHARE_DONE, n);
  g_assert_cmpuint (g_hash_table_size (server.counts), ==, n);
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *job = g_strdup_printf ("job-%u", i);

      g_assert_cmpuint (GPOINTER_TO_UINT (g_hash_table_lookup (server.counts, job)), ==, 1);
    }
  g_assert_cmpuint (queue_server_begun (&server), ==, n);
  queue_fixture_finish (one);
  queue_fixture_finish (two);
  queue_server_clear (&server);
}

/* Faults that pass by themselves, at random, and two queues that look after what is left: all is
 * done, each once. */
static void
test_random (ShareFixture  *self,
             gconstpointer  data)
{
  static const WbShareError passing[] = {
    WB_SHARE_ERROR_UNREACHABLE, WB_SHARE_ERROR_TIMEOUT, WB_SHARE_ERROR_LOCKED,
    WB_SHARE_ERROR_SERVER, WB_SHARE_ERROR_PROTOCOL,
  };
  g_autoptr (GError) error = NULL;
  g_autoptr (WbOffice) other = wb_office_open (wb_office_get_path (self->here), WB_BOOK_OPEN, NULL,
                                               &error);
  const guint n = 8;
  guint n_faults = (guint) g_test_rand_int_range (5, 40);
  QueueServer server;
  WbQueue *one, *two;
  gint64 now = QUEUE_START;

  g_assert_no_error (error);
  queue_server_init (&server);
  server.patience = 1000000;     /* the clock leaps */
  server.chance = (guint32) g_test_rand_int ();
  for (guint i = 0; i < n_faults; i++)
    queue_server_fails (&server, passing[g_test_rand_int_range (0, G_N_ELEMENTS (passing))]);
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *job = g_strdup_printf ("job-%u", i);

      queue_fixture_add (self->here, self->at_here, job);
    }
  one = queue_fixture_start (self->here, &server);
  two = queue_fixture_start (other, &server);
  queue_fixture_wait (one, WB_SHARE_FAILED, 0);
  for (guint i = 0; i < 2000 && wb_queue_count (one, WB_SHARE_DONE) < n; i++)
    {
      now += 100;
      queue_server_set_time (&server, now);
      wb_queue_wake (g_test_rand_bit () ? one : two);
      g_usleep (5000);
      while (g_main_context_iteration (NULL, FALSE))
        ;
    }
  queue_fixture_wait (one, WB_SHARE_DONE, n);
  queue_fixture_wait (two, WB_SHARE_DONE, n);
  g_assert_cmpuint (g_hash_table_size (server.counts), ==, n);
  g_assert_cmpuint (queue_server_begun (&server), ==, n + n_faults);
  queue_fixture_finish (one);
  queue_fixture_finish (two);
  queue_server_clear (&server);
}

static gboolean
has_fault (gpointer data)
{
  return wb_queue_get_fault (data) != NULL;
}

/* Another program holds the book when the server answers: what is done is told once it lets go. */
static void
test_book_held (ShareFixture  *self,
                gconstpointer  data)
{
  g_autoptr (GPtrArray) entries = NULL;
  g_autoptr (GError) error = NULL;
  sqlite3 *holder = NULL;
  QueueServer server;
  WbQueue *queue;

  queue_server_init (&server);
  queue_server_hold (&server, TRUE);
  queue_fixture_add (self->here, self->at_here, "job-1");
  queue = queue_fixture_start (self->here, &server);
  queue_server_wait (&server, 1);
  queue_fixture_wait (queue, WB_SHARE_RUNNING, 1);
  g_assert_cmpint (sqlite3_open (wb_office_get_path (self->here), &holder), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_exec (holder, "BEGIN IMMEDIATE", NULL, NULL, NULL), ==, SQLITE_OK);
  queue_server_hold (&server, FALSE);
  share_fixture_wait (has_fault, queue);
  g_assert_cmpuint (wb_queue_count (queue, WB_SHARE_RUNNING), ==, 1);
  g_assert_cmpint (sqlite3_exec (holder, "ROLLBACK", NULL, NULL, NULL), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_close (holder), ==, SQLITE_OK);
  queue_fixture_wait (queue, WB_SHARE_DONE, 1);
  g_assert_null (wb_queue_get_fault (queue));
  g_assert_cmpuint (queue_server_begun (&server), ==, 1);
  queue_fixture_finish (queue);
  queue_server_clear (&server);
}

/* Another program pauses, and adds: it is seen. */
static void
test_from_elsewhere (ShareFixture  *self,
                     gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbOffice) other = wb_office_open (wb_office_get_path (self->here), WB_BOOK_OPEN, NULL,
                                               &error);
  QueueServer server;
  WbQueue *queue;
  gint64 id;

  g_assert_no_error (error);
  queue_server_init (&server);
  queue_server_hold (&server, TRUE);
  queue = queue_fixture_start (self->here, &server);
  queue_fixture_wait (queue, WB_SHARE_WAITING, 0);
  id = queue_fixture_add (other, self->at_here, "job-1");
  queue_fixture_wait (queue, WB_SHARE_RUNNING, 1);
  g_assert_true (wb_office_queue_pause (other, id, NULL, &error));
  queue_fixture_wait (queue, WB_SHARE_PAUSED, 1);
  g_assert_true (wb_office_queue_cancel (other, id, NULL, &error));
  queue_fixture_wait (queue, WB_SHARE_PAUSED, 0);
  g_assert_false (wb_office_queue_cancel (other, id, NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND);
  queue_fixture_finish (queue);
  queue_server_clear (&server);
}

/* The book is used while an entry takes long. */
static void
test_book_in_use (ShareFixture  *self,
                  gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) jobs = NULL;
  QueueServer server;
  WbQueue *queue;

  queue_server_init (&server);
  queue_server_hold (&server, TRUE);
  queue_fixture_add (self->here, self->at_here, "job-1");
  queue = queue_fixture_start (self->here, &server);
  queue_server_wait (&server, 1);
  for (guint i = 0; i < 30; i++)
    {
      g_autoptr (WbJob) job = wb_office_create_job (self->here, "USD", NULL, &error);

      g_assert_no_error (error);
      /* It says that it is at work. */
      queue_server_set_time (&server, QUEUE_START + 15 * (gint64) i);
      wb_queue_wake (queue);
    }
  jobs = wb_office_list_jobs (self->here, NULL, 0, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (jobs->len, ==, 30);
  queue_server_hold (&server, FALSE);
  queue_fixture_wait (queue, WB_SHARE_DONE, 1);
  g_assert_cmpuint (queue_server_begun (&server), ==, 1);
  queue_fixture_finish (queue);
  queue_server_clear (&server);
}

/* --- stopped and killed ----------------------------------------------------------------------- */

static void
test_restart (ShareFixture  *self,
              gconstpointer  data)
{
  g_autoptr (GPtrArray) entries = NULL;
  g_autoptr (GError) error = NULL;
  const WbShareEntry *entry;
  QueueServer server;
  WbQueue *queue;

  queue_server_init (&server);
  queue_server_hold (&server, TRUE);
  queue_fixture_add (self->here, self->at_here, "job-1");
  queue = queue_fixture_start (self->here, &server);
  queue_server_wait (&server, 1);
  queue_fixture_finish (queue);
  entries = wb_office_queue_list (self->here, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (entries->len, ==, 1);
  entry = g_ptr_array_index (entries, 0);
  g_assert_cmpint (entry->state, ==, WB_SHARE_WAITING);
  g_assert_cmpuint (entry->tries, ==, 0);
  g_assert_cmpint (entry->done, ==, 50);
  g_assert_cmpint (entry->all, ==, 200);
  g_assert_null (entry->fault);

  queue_server_hold (&server, FALSE);
  queue = queue_fixture_start (self->here, &server);
  queue_fixture_wait (queue, WB_SHARE_DONE, 1);
  queue_fixture_finish (queue);
  queue_server_clear (&server);
}

static int
child (const char *path)
{
  g_autoptr (WbOffice) office = wb_office_open (path, WB_BOOK_OPEN, NULL, NULL);
  QueueServer server;
  WbQueue *queue;

  queue_server_init (&server);
  queue_server_hold (&server, TRUE);
  queue = queue_fixture_start (office, &server);
  queue_server_wait (&server, 1);
  g_print ("at work\n");
  for (;;)
    g_main_context_iteration (NULL, TRUE);
  queue_fixture_finish (queue);
  return 0;
}

static void
kill_while_at_work (const char *program,
                    const char *book)
{
  const char *arguments[] = { program, "--child", book, NULL };
  g_autoptr (GError) error = NULL;
  g_autoptr (GSubprocess) process = g_subprocess_newv (arguments, G_SUBPROCESS_FLAGS_STDOUT_PIPE,
                                                       &error);
  g_autoptr (GDataInputStream) out = NULL;
  g_autofree char *line = NULL;

  g_assert_no_error (error);
  out = g_data_input_stream_new (g_subprocess_get_stdout_pipe (process));
  line = g_data_input_stream_read_line (out, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (line, ==, "at work");
  g_subprocess_send_signal (process, SIGKILL);
  g_assert_true (g_subprocess_wait (process, NULL, &error));
  g_assert_true (g_subprocess_get_if_signaled (process));
}

static const char *program;

static void
test_killed (ShareFixture  *self,
             gconstpointer  data)
{
  QueueServer server;
  WbQueue *queue;

  queue_server_init (&server);
  queue_fixture_add (self->here, self->at_here, "job-1");
  kill_while_at_work (program, wb_office_get_path (self->here));

  queue = queue_fixture_start (self->here, &server);
  queue_fixture_wait (queue, WB_SHARE_RUNNING, 1);
  queue_server_set_time (&server, QUEUE_START + 59);
  wb_queue_wake (queue);
  queue_fixture_pass ();
  g_assert_cmpuint (queue_server_begun (&server), ==, 0);
  queue_server_set_time (&server, QUEUE_START + 60);
  wb_queue_wake (queue);
  queue_fixture_wait (queue, WB_SHARE_DONE, 1);
  g_assert_cmpuint (queue_server_begun (&server), ==, 1);
  queue_fixture_finish (queue);
  queue_server_clear (&server);
}

/* Letting go of a queue at work does not wait, and loses nothing. */
static void
test_let_go (ShareFixture  *self,
             gconstpointer  data)
{
  QueueServer server;
  WbQueue *queue;

  queue_server_init (&server);
  queue_server_hold (&server, TRUE);
  queue_fixture_add (self->here, self->at_here, "job-1");
  queue = queue_fixture_start (self->here, &server);
  queue_server_wait (&server, 1);
  g_object_unref (queue);
  queue_server_hold (&server, FALSE);
  queue = queue_fixture_start (self->here, &server);
  queue_fixture_wait (queue, WB_SHARE_DONE, 1);
  queue_fixture_finish (queue);
  queue_server_clear (&server);
}

#define ADD(path, function) \
  g_test_add ("/office/queue-trouble/" path, ShareFixture, NULL, share_fixture_set_up, function, \
              share_fixture_tear_down)

int
main (int    argc,
      char **argv)
{
  program = argv[0];
  if (argc == 3 && strcmp (argv[1], "--child") == 0)
    return child (argv[2]);

  share_fixture_init (&argc, &argv);
  ADD ("from-elsewhere", test_from_elsewhere);
  ADD ("restart", test_restart);
  ADD ("book-in-use", test_book_in_use);
  ADD ("two-queues", test_two_queues);
  ADD ("random", test_random);
  ADD ("book-held", test_book_held);
  ADD ("killed", test_killed);
  ADD ("let-go", test_let_go);
  return g_test_run ();
}
