/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The queue of a book: with a folder for a server, with servers that fail as they are told to, with
 * time that passes when the test says so, and with a program that is killed while it works. */
#include "config.h"

#include "office/wb-publish.h"
#include "office/wb-queue.h"
#include "share-fixture.h"
#include "share/wb-share.h"

#include <signal.h>
#include <string.h>

#define START 1790000000

/* What a server does, as the test says. */
typedef struct
{
  gint64      now;
  guint32     chance;
  GMutex      mutex;
  GCond       cond;
  GQueue      faults;       /* codes of WbShareError, one a try, as pointers + 1 */
  gboolean    hold;         /* until cancelled or let go */
  guint       n_begun;
  guint       n_cancelled;
  char       *secret;       /* that came with the last try */
  GHashTable *counts;       /* job → how often it was done */
} Server;

static void
server_init (Server *self)
{
  *self = (Server) { .now = START };
  g_mutex_init (&self->mutex);
  g_cond_init (&self->cond);
  g_queue_init (&self->faults);
  self->counts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
}

static void
server_clear (Server *self)
{
  g_assert_cmpuint (self->faults.length, ==, 0);
  g_hash_table_unref (self->counts);
  g_mutex_clear (&self->mutex);
  g_cond_clear (&self->cond);
  g_free (self->secret);
}

static void
server_fails (Server       *self,
              WbShareError  code)
{
  g_mutex_lock (&self->mutex);
  g_queue_push_tail (&self->faults, GINT_TO_POINTER ((int) code + 1));
  g_mutex_unlock (&self->mutex);
}

static void
server_hold (Server   *self,
             gboolean  hold)
{
  g_mutex_lock (&self->mutex);
  self->hold = hold;
  g_cond_broadcast (&self->cond);
  g_mutex_unlock (&self->mutex);
}

static void
server_set_time (Server *self,
                 gint64  now)
{
  g_mutex_lock (&self->mutex);
  self->now = now;
  g_mutex_unlock (&self->mutex);
}

static gint64
now_of (gpointer data)
{
  Server *self = data;
  gint64 now;

  g_mutex_lock (&self->mutex);
  now = self->now;
  g_mutex_unlock (&self->mutex);
  return now;
}

static guint32
chance_of (gpointer data)
{
  return ((Server *) data)->chance;
}

static gboolean
work (WbOffice            *office,
      const WbShareEntry  *entry,
      WbSecret            *secret,
      WbProgress          *progress,
      gpointer             data,
      GCancellable        *cancellable,
      GError             **error)
{
  Server *self = data;
  gpointer fault;

  wb_progress_begin (progress, "Testing…", 0, 0);
  wb_progress_set (50, 200, progress);
  g_mutex_lock (&self->mutex);
  self->n_begun++;
  g_free (self->secret);
  self->secret = g_strdup (wb_secret_get (secret));
  fault = g_queue_pop_head (&self->faults);
  while (self->hold && !g_cancellable_is_cancelled (cancellable))
    g_cond_wait_until (&self->cond, &self->mutex, g_get_monotonic_time () + G_USEC_PER_SEC / 50);
  if (g_cancellable_is_cancelled (cancellable))
    self->n_cancelled++;
  else if (fault == NULL)
    g_hash_table_insert (self->counts, g_strdup (entry->job_id),
                         GUINT_TO_POINTER (GPOINTER_TO_UINT (g_hash_table_lookup (self->counts,
                                                                                  entry->job_id)) + 1));
  g_mutex_unlock (&self->mutex);

  if (g_cancellable_set_error_if_cancelled (cancellable, error))
    return FALSE;
  if (fault != NULL)
    return wb_share_refuse (error, (WbShareError) (GPOINTER_TO_INT (fault) - 1), "Main",
                            "as the test says, SHA256:abc");
  wb_progress_set (200, 200, progress);
  return TRUE;
}

static WbQueue *
queue_on (WbOffice *office,
          Server   *server)
{
  const WbQueueMeans means = { now_of, chance_of, work, server, 60 };
  WbQueue *queue = wb_queue_new (office, server != NULL ? &means : NULL);

  wb_queue_start (queue);
  return queue;
}

static void
finish (WbQueue *queue)
{
  wb_queue_stop (queue);
  g_object_unref (queue);
}

static gint64
add (WbOffice   *office,
     const char *server,
     const char *job)
{
  g_autoptr (GError) error = NULL;
  gint64 id = wb_office_queue_add (office, WB_SHARE_DEED_PUBLISH, server, job, job, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpint (id, >, 0);
  return id;
}

/* --- waiting ---------------------------------------------------------------------------------- */

typedef struct
{
  WbQueue      *queue;
  WbShareState  state;
  guint         n;
  guint         tries;
  Server       *server;
} Expected;

static gboolean
is_so (gpointer data)
{
  const Expected *expected = data;

  return wb_queue_get_loaded (expected->queue) &&
         wb_queue_count (expected->queue, expected->state) == expected->n;
}

static void
wait_for (WbQueue      *queue,
          WbShareState  state,
          guint         n)
{
  Expected expected = { queue, state, n, 0, NULL };

  share_fixture_wait (is_so, &expected);
}

static WbQueueItem *
first (WbQueue *queue)
{
  g_autoptr (WbQueueItem) item = g_list_model_get_item (G_LIST_MODEL (queue), 0);

  g_assert_nonnull (item);
  return item;
}

static gboolean
has_tried (gpointer data)
{
  const Expected *expected = data;

  return g_list_model_get_n_items (G_LIST_MODEL (expected->queue)) > 0 &&
         wb_queue_item_get_entry (first (expected->queue))->tries == expected->tries;
}

static void
wait_for_tries (WbQueue *queue,
                guint    tries)
{
  Expected expected = { queue, WB_SHARE_WAITING, 0, tries, NULL };

  share_fixture_wait (has_tried, &expected);
}

static gboolean
has_begun (gpointer data)
{
  const Expected *expected = data;
  gboolean begun;

  g_mutex_lock (&expected->server->mutex);
  begun = expected->server->n_begun >= expected->n;
  g_mutex_unlock (&expected->server->mutex);
  return begun;
}

static void
wait_for_begun (Server *server,
                guint   n)
{
  Expected expected = { NULL, WB_SHARE_WAITING, n, 0, server };

  share_fixture_wait (has_begun, &expected);
}

static guint
begun (Server *server)
{
  guint n;

  g_mutex_lock (&server->mutex);
  n = server->n_begun;
  g_mutex_unlock (&server->mutex);
  return n;
}

/* Lets some looks at the queue pass. */
static void
let_pass (void)
{
  gint64 until = g_get_monotonic_time () + 3 * G_USEC_PER_SEC / 2;

  while (g_get_monotonic_time () < until)
    {
      g_main_context_iteration (NULL, FALSE);
      g_usleep (5000);
    }
}

/* --- pure ------------------------------------------------------------------------------------- */

static void
test_pauses (void)
{
  static const gint64 expected[] = { 5, 15, 45, 135, 405, 1215, 1800, 1800 };

  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    g_assert_cmpint (wb_queue_pause_seconds (i + 1, 0), ==, expected[i]);
  g_assert_cmpint (wb_queue_pause_seconds (G_MAXUINT, 0), ==, 1800);
  for (guint i = 0; i < 1000; i++)
    {
      guint tries = (guint) g_test_rand_int_range (1, 20);
      gint64 pause = wb_queue_pause_seconds (tries, (guint32) g_test_rand_int ());
      gint64 longest = wb_queue_pause_seconds (tries, 0);

      g_assert_cmpint (pause, <=, longest);
      g_assert_cmpint (pause * 5, >=, longest * 4);
    }
}

static void
test_fault_words (void)
{
  static const struct
  {
    const char   *stored;
    WbQueueFault  kind;
    const char   *sentence;
  } cases[] = {
    { NULL, WB_QUEUE_FAULT_NONE, NULL },
    { "secret\nNo password.", WB_QUEUE_FAULT_SECRET, "No password." },
    { "Of another program.", WB_QUEUE_FAULT_OTHER, "Of another program." },
    { "what is this\nTwo lines.", WB_QUEUE_FAULT_OTHER, "what is this\nTwo lines." },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const WbShareEntry entry = { .fault = (char *) cases[i].stored };
      const char *sentence;

      g_assert_cmpint (wb_queue_fault_of (&entry, &sentence), ==, cases[i].kind);
      g_assert_cmpstr (sentence, ==, cases[i].sentence);
    }
}

/* --- a folder for a server -------------------------------------------------------------------- */

static gint64
add_deed (WbQueue     *queue,
          WbShareDeed  deed,
          const char  *server,
          const char  *job)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GAsyncResult) result = NULL;
  gint64 id;

  wb_queue_add_async (queue, deed, server, job, "J-1", NULL, share_fixture_ready, &result);
  share_fixture_wait (share_fixture_is_ready, &result);
  id = wb_queue_add_finish (queue, result, &error);
  g_assert_no_error (error);
  return id;
}

static void
test_publish_and_fetch (ShareFixture  *self,
                        gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_office_create_job (self->here, "USD", NULL, &error);
  const char *id = wb_job_get_id (job);
  WbQueue *here = queue_on (self->here, NULL);
  WbQueue *there = queue_on (self->there, NULL);
  g_autoptr (WbJob) fetched = NULL;
  g_autofree char *title = NULL;
  g_autofree char *server = NULL;
  int deed;

  g_assert_no_error (error);
  g_assert_cmpint (add_deed (here, WB_SHARE_DEED_PUBLISH, self->at_here, id), >, 0);
  wait_for (here, WB_SHARE_DONE, 1);
  g_object_get (first (here), "title", &title, "server", &server, "deed", &deed, NULL);
  g_assert_cmpstr (title, ==, "J-1");
  g_assert_cmpstr (server, ==, "Main");
  g_assert_cmpint (deed, ==, WB_SHARE_DEED_PUBLISH);

  g_assert_cmpint (add_deed (there, WB_SHARE_DEED_FETCH, self->at_there, id), >, 0);
  wait_for (there, WB_SHARE_DONE, 1);
  fetched = wb_office_load_job (self->there, id, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (wb_job_equal (fetched, job));

  wb_queue_clear (here);
  wait_for (here, WB_SHARE_DONE, 0);
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (here)), ==, 0);
  finish (here);
  finish (there);
}

static WbJob *
set_bill (WbOffice   *office,
          const char *id,
          const char *bill)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_office_load_job (office, id, NULL, &error);
  g_autoptr (WbOrder) order = wb_record_copy (wb_job_order (job));
  g_autoptr (WbJob) changed = NULL;
  WbJob *stored;

  wb_set_text (&order->bill_number, bill);
  changed = wb_job_with (job, order);
  stored = wb_office_save_job (office, job, changed, "changed", NULL, &error);
  g_assert_no_error (error);
  return stored;
}

/* Two desks changed one job: the second is told, and nothing is tried again by itself. */
static void
test_conflict (ShareFixture  *self,
               gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_office_create_job (self->here, "USD", NULL, &error);
  const char *id = wb_job_get_id (job);
  g_autoptr (WbPublishStatus) status = wb_office_publish (self->here, self->at_here, NULL, id, NULL,
                                                          NULL, &error);
  g_autoptr (WbJob) theirs = wb_office_fetch (self->there, self->at_there, NULL, id,
                                              WB_MERGE_UNDECIDED, NULL, NULL, &error);
  g_autoptr (WbJob) changed_there = set_bill (self->there, id, "B-77");
  g_autoptr (WbJob) changed_here = set_bill (self->here, id, "B-78");
  g_autoptr (WbPublishStatus) newer = wb_office_publish (self->there, self->at_there, NULL, id,
                                                         NULL, NULL, &error);
  WbQueue *queue = queue_on (self->here, NULL);

  g_assert_no_error (error);
  (void) add_deed (queue, WB_SHARE_DEED_PUBLISH, self->at_here, id);
  wait_for (queue, WB_SHARE_FAILED, 1);
  g_assert_cmpint (wb_queue_item_get_fault_kind (first (queue)), ==, WB_QUEUE_FAULT_CONFLICT);
  g_assert_nonnull (wb_queue_item_get_fault (first (queue)));
  g_assert_null (wb_queue_item_get_host_key (first (queue)));
  finish (queue);
}

/* --- faults ----------------------------------------------------------------------------------- */

static void
test_growing_pauses (ShareFixture  *self,
                     gconstpointer  data)
{
  static const gint64 expected[] = { 5, 15, 45, 135, 405, 1215, 1800, 1800 };
  Server server;
  WbQueue *queue;
  gint64 now = START;

  server_init (&server);
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    server_fails (&server, i % 2 == 0 ? WB_SHARE_ERROR_UNREACHABLE : WB_SHARE_ERROR_TIMEOUT);
  add (self->here, self->at_here, "job-1");
  queue = queue_on (self->here, &server);
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      wait_for_tries (queue, i + 1);
      wait_for (queue, WB_SHARE_WAITING, 1);
      g_assert_cmpint (wb_queue_item_get_entry (first (queue))->next_try - now, ==, expected[i]);
      g_assert_cmpint (wb_queue_item_get_fault_kind (first (queue)), ==, WB_QUEUE_FAULT_PASSES);
      g_assert_cmpuint (begun (&server), ==, i + 1);
      if (i == 0)
        {
          server_set_time (&server, now + expected[i] - 1);
          let_pass ();
          g_assert_cmpuint (begun (&server), ==, 1);
        }
      now += expected[i];
      server_set_time (&server, now);
      wb_queue_wake (queue);
    }
  wait_for (queue, WB_SHARE_DONE, 1);
  g_assert_cmpint (wb_queue_item_get_fault_kind (first (queue)), ==, WB_QUEUE_FAULT_NONE);
  finish (queue);
  server_clear (&server);
}

/* What does not pass is not tried again until somebody does something about it. */
static void
test_faults_for_a_person (ShareFixture  *self,
                          gconstpointer  data)
{
  static const struct
  {
    WbShareError code;
    WbQueueFault kind;
  } cases[] = {
    { WB_SHARE_ERROR_CERTIFICATE, WB_QUEUE_FAULT_CERTIFICATE },
    { WB_SHARE_ERROR_HOST_KEY_CHANGED, WB_QUEUE_FAULT_HOST_KEY_CHANGED },
    { WB_SHARE_ERROR_HOST_KEY_UNKNOWN, WB_QUEUE_FAULT_HOST_KEY },
    { WB_SHARE_ERROR_FORBIDDEN, WB_QUEUE_FAULT_OTHER },
    { WB_SHARE_ERROR_FULL, WB_QUEUE_FAULT_OTHER },
    { WB_SHARE_ERROR_CHANGED, WB_QUEUE_FAULT_CONFLICT },
    { WB_SHARE_ERROR_LOGIN, WB_QUEUE_FAULT_SECRET },
  };
  g_autoptr (WbSecret) secret = wb_secret_new ("open sesame", -1);
  Server server;
  WbQueue *queue;

  server_init (&server);
  add (self->here, self->at_here, "job-1");
  server_fails (&server, cases[0].code);
  queue = queue_on (self->here, &server);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *key = NULL;

      wait_for (queue, WB_SHARE_FAILED, 1);
      g_assert_cmpint (wb_queue_item_get_fault_kind (first (queue)), ==, cases[i].kind);
      g_assert_cmpstr (strstr (wb_queue_item_get_fault (first (queue)), "\n"), ==, NULL);
      key = wb_queue_item_get_host_key (first (queue));
      g_assert_cmpstr (key, ==, cases[i].kind == WB_QUEUE_FAULT_HOST_KEY ? "SHA256:abc" : NULL);
      if (i == 0)
        {
          server_set_time (&server, START + 100000);
          let_pass ();
          g_assert_cmpuint (begun (&server), ==, 1);
        }
      if (i + 1 < G_N_ELEMENTS (cases))
        {
          server_fails (&server, cases[i + 1].code);
          wb_queue_resume (queue, wb_queue_item_get_id (first (queue)));
          wait_for_begun (&server, (guint) i + 2);
        }
    }

  g_assert_null (server.secret);
  wb_queue_set_secret (queue, self->at_here, secret);
  wait_for (queue, WB_SHARE_DONE, 1);
  g_assert_cmpstr (server.secret, ==, "open sesame");
  finish (queue);
  server_clear (&server);
}

/* A secret for one server is no reason to try what failed for something else. */
static void
test_resume_server (ShareFixture  *self,
                    gconstpointer  data)
{
  Server server;
  WbQueue *queue;

  server_init (&server);
  server_fails (&server, WB_SHARE_ERROR_CHANGED);
  server_fails (&server, WB_SHARE_ERROR_HOST_KEY_UNKNOWN);
  add (self->here, self->at_here, "job-1");
  add (self->here, self->at_here, "job-2");
  queue = queue_on (self->here, &server);
  wait_for (queue, WB_SHARE_FAILED, 2);
  wb_queue_resume_server (queue, self->at_here);
  wait_for (queue, WB_SHARE_DONE, 1);
  g_assert_cmpint (wb_queue_item_get_fault_kind (first (queue)), ==, WB_QUEUE_FAULT_CONFLICT);
  g_assert_cmpuint (begun (&server), ==, 3);
  finish (queue);
  server_clear (&server);
}

/* --- pause, cancel, stop ---------------------------------------------------------------------- */

static void
test_pause (ShareFixture  *self,
            gconstpointer  data)
{
  gint64 id = add (self->here, self->at_here, "job-1");
  Server server;
  WbQueue *queue;

  server_init (&server);
  server_hold (&server, TRUE);
  queue = queue_on (self->here, &server);
  wait_for (queue, WB_SHARE_RUNNING, 1);
  wait_for_begun (&server, 1);
  wb_queue_pause (queue, id);
  wait_for (queue, WB_SHARE_PAUSED, 1);
  let_pass ();
  g_assert_cmpuint (server.n_cancelled, ==, 1);
  g_assert_cmpuint (begun (&server), ==, 1);
  g_assert_null (wb_queue_get_running (queue));

  server_hold (&server, FALSE);
  wb_queue_resume (queue, id);
  wait_for (queue, WB_SHARE_DONE, 1);
  g_assert_cmpuint (begun (&server), ==, 2);
  finish (queue);
  server_clear (&server);
}

static void
test_cancel (ShareFixture  *self,
             gconstpointer  data)
{
  gint64 id = add (self->here, self->at_here, "job-1");
  Server server;
  WbQueue *queue;

  add (self->here, self->at_here, "job-2");
  server_init (&server);
  server_hold (&server, TRUE);
  queue = queue_on (self->here, &server);
  wait_for_begun (&server, 1);
  wait_for (queue, WB_SHARE_RUNNING, 1);
  wb_queue_cancel (queue, id);
  wait_for_begun (&server, 2);      /* the next one has its turn */
  wait_for (queue, WB_SHARE_RUNNING, 1);
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (queue)), ==, 1);
  g_assert_cmpstr (wb_queue_item_get_entry (first (queue))->job_id, ==, "job-2");
  g_assert_cmpuint (server.n_cancelled, ==, 1);

  /* Once more is no fault. */
  wb_queue_cancel (queue, id);
  let_pass ();
  g_assert_null (wb_queue_get_fault (queue));
  server_hold (&server, FALSE);
  wait_for (queue, WB_SHARE_DONE, 1);
  finish (queue);
  server_clear (&server);
}

/* Another program pauses, and adds: it is seen. */
static void
test_from_elsewhere (ShareFixture  *self,
                     gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbOffice) other = wb_office_open (wb_office_get_path (self->here), WB_BOOK_OPEN, NULL,
                                               &error);
  Server server;
  WbQueue *queue;
  gint64 id;

  g_assert_no_error (error);
  server_init (&server);
  server_hold (&server, TRUE);
  queue = queue_on (self->here, &server);
  wait_for (queue, WB_SHARE_WAITING, 0);
  id = add (other, self->at_here, "job-1");
  wait_for (queue, WB_SHARE_RUNNING, 1);
  g_assert_true (wb_office_queue_pause (other, id, NULL, &error));
  wait_for (queue, WB_SHARE_PAUSED, 1);
  g_assert_true (wb_office_queue_cancel (other, id, NULL, &error));
  wait_for (queue, WB_SHARE_PAUSED, 0);
  g_assert_false (wb_office_queue_cancel (other, id, NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND);
  finish (queue);
  server_clear (&server);
}

static void
test_restart (ShareFixture  *self,
              gconstpointer  data)
{
  g_autoptr (GPtrArray) entries = NULL;
  g_autoptr (GError) error = NULL;
  const WbShareEntry *entry;
  Server server;
  WbQueue *queue;

  server_init (&server);
  server_hold (&server, TRUE);
  add (self->here, self->at_here, "job-1");
  queue = queue_on (self->here, &server);
  wait_for_begun (&server, 1);
  finish (queue);
  entries = wb_office_queue_list (self->here, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (entries->len, ==, 1);
  entry = g_ptr_array_index (entries, 0);
  g_assert_cmpint (entry->state, ==, WB_SHARE_WAITING);
  g_assert_cmpuint (entry->tries, ==, 0);
  g_assert_cmpint (entry->done, ==, 50);
  g_assert_cmpint (entry->all, ==, 200);
  g_assert_null (entry->fault);

  server_hold (&server, FALSE);
  queue = queue_on (self->here, &server);
  wait_for (queue, WB_SHARE_DONE, 1);
  finish (queue);
  server_clear (&server);
}

/* --- in the window ---------------------------------------------------------------------------- */

static void
count_cb (gpointer data)
{
  (*(guint *) data)++;
}

static void
test_progress (ShareFixture  *self,
               gconstpointer  data)
{
  Server server;
  WbQueue *queue;
  WbProgressState state;
  guint n_running = 0;
  guint n_states = 0;
  gint64 done, all;

  server_init (&server);
  server_hold (&server, TRUE);
  queue = queue_on (self->here, &server);
  wait_for (queue, WB_SHARE_WAITING, 0);
  g_signal_connect_swapped (queue, "notify::running", G_CALLBACK (count_cb), &n_running);
  add (self->here, self->at_here, "job-1");
  wait_for (queue, WB_SHARE_RUNNING, 1);
  wait_for_begun (&server, 1);
  let_pass ();
  g_assert_true (wb_queue_get_running (queue) == first (queue));
  g_assert_cmpuint (n_running, ==, 1);
  g_object_get (first (queue), "done", &done, "all", &all, NULL);
  g_assert_cmpint (done, ==, 50);
  g_assert_cmpint (all, ==, 200);
  wb_queue_item_get_progress (first (queue), &state);
  g_assert_nonnull (state.words);
  g_signal_connect_swapped (first (queue), "notify::state", G_CALLBACK (count_cb), &n_states);
  server_hold (&server, FALSE);
  wait_for (queue, WB_SHARE_DONE, 1);
  g_assert_cmpuint (n_states, ==, 1);
  g_assert_cmpuint (n_running, ==, 2);
  wb_queue_item_get_progress (first (queue), &state);
  g_assert_null (state.words);
  g_assert_cmpint (state.done, ==, 200);
  finish (queue);
  server_clear (&server);
}

/* The book is used while an entry takes long. */
static void
test_book_in_use (ShareFixture  *self,
                  gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) jobs = NULL;
  Server server;
  WbQueue *queue;

  server_init (&server);
  server_hold (&server, TRUE);
  add (self->here, self->at_here, "job-1");
  queue = queue_on (self->here, &server);
  wait_for_begun (&server, 1);
  for (guint i = 0; i < 30; i++)
    {
      g_autoptr (WbJob) job = wb_office_create_job (self->here, "USD", NULL, &error);

      g_assert_no_error (error);
      server_set_time (&server, START + 15 * (gint64) i);     /* it says that it is at work */
      wb_queue_wake (queue);
    }
  jobs = wb_office_list_jobs (self->here, NULL, 0, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (jobs->len, ==, 30);
  server_hold (&server, FALSE);
  wait_for (queue, WB_SHARE_DONE, 1);
  g_assert_cmpuint (begun (&server), ==, 1);
  finish (queue);
  server_clear (&server);
}

/* --- several ---------------------------------------------------------------------------------- */

static void
test_two_queues (ShareFixture  *self,
                 gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbOffice) other = wb_office_open (wb_office_get_path (self->here), WB_BOOK_OPEN, NULL,
                                               &error);
  const guint n = 20;
  Server server;
  WbQueue *one, *two;

  g_assert_no_error (error);
  server_init (&server);
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *job = g_strdup_printf ("job-%u", i);

      add (self->here, self->at_here, job);
    }
  one = queue_on (self->here, &server);
  two = queue_on (other, &server);
  wait_for (one, WB_SHARE_DONE, n);
  wait_for (two, WB_SHARE_DONE, n);
  g_assert_cmpuint (g_hash_table_size (server.counts), ==, n);
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *job = g_strdup_printf ("job-%u", i);

      g_assert_cmpuint (GPOINTER_TO_UINT (g_hash_table_lookup (server.counts, job)), ==, 1);
    }
  g_assert_cmpuint (begun (&server), ==, n);
  finish (one);
  finish (two);
  server_clear (&server);
}

/* --- kill -9 ---------------------------------------------------------------------------------- */

static int
child (const char *path)
{
  g_autoptr (WbOffice) office = wb_office_open (path, WB_BOOK_OPEN, NULL, NULL);
  Server server;
  WbQueue *queue;

  server_init (&server);
  server_hold (&server, TRUE);
  queue = queue_on (office, &server);
  wait_for_begun (&server, 1);
  g_print ("at work\n");
  for (;;)
    g_main_context_iteration (NULL, TRUE);
  finish (queue);
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
  Server server;
  WbQueue *queue;

  server_init (&server);
  add (self->here, self->at_here, "job-1");
  kill_while_at_work (program, wb_office_get_path (self->here));

  queue = queue_on (self->here, &server);
  wait_for (queue, WB_SHARE_RUNNING, 1);
  server_set_time (&server, START + 59);
  wb_queue_wake (queue);
  let_pass ();
  g_assert_cmpuint (begun (&server), ==, 0);
  server_set_time (&server, START + 60);
  wb_queue_wake (queue);
  wait_for (queue, WB_SHARE_DONE, 1);
  g_assert_cmpuint (begun (&server), ==, 1);
  finish (queue);
  server_clear (&server);
}

/* Letting go of a queue at work does not wait, and loses nothing. */
static void
test_let_go (ShareFixture  *self,
             gconstpointer  data)
{
  Server server;
  WbQueue *queue;

  server_init (&server);
  server_hold (&server, TRUE);
  add (self->here, self->at_here, "job-1");
  queue = queue_on (self->here, &server);
  wait_for_begun (&server, 1);
  g_object_unref (queue);
  server_hold (&server, FALSE);
  queue = queue_on (self->here, &server);
  wait_for (queue, WB_SHARE_DONE, 1);
  finish (queue);
  server_clear (&server);
}

#define ADD(path, function) \
  g_test_add ("/office/queue/" path, ShareFixture, NULL, share_fixture_set_up, function, \
              share_fixture_tear_down)

int
main (int    argc,
      char **argv)
{
  program = argv[0];
  if (argc == 3 && strcmp (argv[1], "--child") == 0)
    return child (argv[2]);

  share_fixture_init (&argc, &argv);
  g_test_add_func ("/office/queue/pauses", test_pauses);
  g_test_add_func ("/office/queue/fault-words", test_fault_words);
  ADD ("publish-and-fetch", test_publish_and_fetch);
  ADD ("conflict", test_conflict);
  ADD ("growing-pauses", test_growing_pauses);
  ADD ("faults-for-a-person", test_faults_for_a_person);
  ADD ("resume-server", test_resume_server);
  ADD ("pause", test_pause);
  ADD ("cancel", test_cancel);
  ADD ("from-elsewhere", test_from_elsewhere);
  ADD ("restart", test_restart);
  ADD ("progress", test_progress);
  ADD ("book-in-use", test_book_in_use);
  ADD ("two-queues", test_two_queues);
  ADD ("killed", test_killed);
  ADD ("let-go", test_let_go);
  return g_test_run ();
}
