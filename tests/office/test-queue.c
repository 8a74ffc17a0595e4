/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The queue of a book in one program: with a folder for a server, with servers that fail as they
 * are told to, and with time that passes when the test says so. */
#include "config.h"

#include "office/wb-publish.h"
#include "queue-fixture.h"
#include "share-fixture.h"

#include <string.h>

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

static void
assert_fault (WbQueue      *queue,
              WbQueueFault  expected)
{
  g_assert_cmpint (wb_queue_item_get_fault_kind (queue_fixture_first (queue)), ==, expected);
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
  WbQueue *here = queue_fixture_start (self->here, NULL);
  WbQueue *there = queue_fixture_start (self->there, NULL);
  g_autoptr (WbJob) fetched = NULL;
  g_autofree char *title = NULL;
  g_autofree char *server = NULL;
  int deed;

  g_assert_no_error (error);
  g_assert_cmpint (add_deed (here, WB_SHARE_DEED_PUBLISH, self->at_here, id), >, 0);
  queue_fixture_wait (here, WB_SHARE_DONE, 1);
  g_object_get (queue_fixture_first (here), "title", &title, "server", &server, "deed", &deed,
                NULL);
  g_assert_cmpstr (title, ==, "J-1");
  g_assert_cmpstr (server, ==, "Main");
  g_assert_cmpint (deed, ==, WB_SHARE_DEED_PUBLISH);

  g_assert_cmpint (add_deed (there, WB_SHARE_DEED_FETCH, self->at_there, id), >, 0);
  queue_fixture_wait (there, WB_SHARE_DONE, 1);
  fetched = wb_office_load_job (self->there, id, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (wb_job_equal (fetched, job));

  wb_queue_clear (here);
  queue_fixture_wait (here, WB_SHARE_DONE, 0);
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (here)), ==, 0);
  queue_fixture_finish (here);
  queue_fixture_finish (there);
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
  WbQueue *queue = queue_fixture_start (self->here, NULL);

  g_assert_no_error (error);
  (void) add_deed (queue, WB_SHARE_DEED_PUBLISH, self->at_here, id);
  queue_fixture_wait (queue, WB_SHARE_FAILED, 1);
  assert_fault (queue, WB_QUEUE_FAULT_CONFLICT);
  g_assert_nonnull (wb_queue_item_get_fault (queue_fixture_first (queue)));
  g_assert_null (wb_queue_item_get_host_key (queue_fixture_first (queue)));
  queue_fixture_finish (queue);
}

/* --- faults ----------------------------------------------------------------------------------- */

static void
test_growing_pauses (ShareFixture  *self,
                     gconstpointer  data)
{
  static const gint64 expected[] = { 5, 15, 45, 135, 405, 1215, 1800, 1800 };
  QueueServer server;
  WbQueue *queue;
  gint64 now = QUEUE_START;

  queue_server_init (&server);
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    queue_server_fails (&server, i % 2 == 0 ? WB_SHARE_ERROR_UNREACHABLE : WB_SHARE_ERROR_TIMEOUT);
  queue_fixture_add (self->here, self->at_here, "job-1");
  queue = queue_fixture_start (self->here, &server);
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      queue_fixture_wait_tries (queue, i + 1);
      queue_fixture_wait (queue, WB_SHARE_WAITING, 1);
      g_assert_cmpint (wb_queue_item_get_entry (queue_fixture_first (queue))->next_try, ==,
                       now + expected[i]);
      assert_fault (queue, WB_QUEUE_FAULT_PASSES);
      g_assert_cmpuint (queue_server_begun (&server), ==, i + 1);
      if (i == 0)
        {
          queue_server_set_time (&server, now + expected[i] - 1);
          queue_fixture_pass ();
          g_assert_cmpuint (queue_server_begun (&server), ==, 1);
        }
      now += expected[i];
      queue_server_set_time (&server, now);
      wb_queue_wake (queue);
    }
  queue_fixture_wait (queue, WB_SHARE_DONE, 1);
  assert_fault (queue, WB_QUEUE_FAULT_NONE);
  queue_fixture_finish (queue);
  queue_server_clear (&server);
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
  QueueServer server;
  WbQueue *queue;

  queue_server_init (&server);
  queue_fixture_add (self->here, self->at_here, "job-1");
  queue_server_fails (&server, cases[0].code);
  queue = queue_fixture_start (self->here, &server);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *key = NULL;

      queue_fixture_wait (queue, WB_SHARE_FAILED, 1);
      assert_fault (queue, cases[i].kind);
      g_assert_null (strstr (wb_queue_item_get_fault (queue_fixture_first (queue)), "\n"));
      key = wb_queue_item_get_host_key (queue_fixture_first (queue));
      g_assert_cmpstr (key, ==, cases[i].kind == WB_QUEUE_FAULT_HOST_KEY ? "SHA256:abc" : NULL);
      if (i == 0)
        {
          queue_server_set_time (&server, QUEUE_START + 100000);
          queue_fixture_pass ();
          g_assert_cmpuint (queue_server_begun (&server), ==, 1);
        }
      if (i + 1 < G_N_ELEMENTS (cases))
        {
          queue_server_fails (&server, cases[i + 1].code);
          wb_queue_resume (queue, wb_queue_item_get_id (queue_fixture_first (queue)));
          queue_server_wait (&server, (guint) i + 2);
        }
    }

  g_assert_null (server.secret);
  wb_queue_set_secret (queue, self->at_here, secret);
  queue_fixture_wait (queue, WB_SHARE_DONE, 1);
  g_assert_cmpstr (server.secret, ==, "open sesame");
  queue_fixture_finish (queue);
  queue_server_clear (&server);
}

/* A secret for one server is no reason to try what failed for something else. */
static void
test_resume_server (ShareFixture  *self,
                    gconstpointer  data)
{
  QueueServer server;
  WbQueue *queue;

  queue_server_init (&server);
  queue_server_fails (&server, WB_SHARE_ERROR_CHANGED);
  queue_server_fails (&server, WB_SHARE_ERROR_HOST_KEY_UNKNOWN);
  queue_fixture_add (self->here, self->at_here, "job-1");
  queue_fixture_add (self->here, self->at_here, "job-2");
  queue = queue_fixture_start (self->here, &server);
  queue_fixture_wait (queue, WB_SHARE_FAILED, 2);
  wb_queue_resume_server (queue, self->at_here);
  queue_fixture_wait (queue, WB_SHARE_DONE, 1);
  assert_fault (queue, WB_QUEUE_FAULT_CONFLICT);
  g_assert_cmpuint (queue_server_begun (&server), ==, 3);
  queue_fixture_finish (queue);
  queue_server_clear (&server);
}

/* --- pause, cancel, stop ---------------------------------------------------------------------- */

static void
test_pause (ShareFixture  *self,
            gconstpointer  data)
{
  gint64 id = queue_fixture_add (self->here, self->at_here, "job-1");
  QueueServer server;
  WbQueue *queue;

  queue_server_init (&server);
  queue_server_hold (&server, TRUE);
  queue = queue_fixture_start (self->here, &server);
  queue_fixture_wait (queue, WB_SHARE_RUNNING, 1);
  queue_server_wait (&server, 1);
  wb_queue_pause (queue, id);
  queue_fixture_wait (queue, WB_SHARE_PAUSED, 1);
  queue_fixture_pass ();
  g_assert_cmpuint (server.n_cancelled, ==, 1);
  g_assert_cmpuint (queue_server_begun (&server), ==, 1);
  g_assert_null (wb_queue_get_running (queue));

  queue_server_hold (&server, FALSE);
  wb_queue_resume (queue, id);
  queue_fixture_wait (queue, WB_SHARE_DONE, 1);
  g_assert_cmpuint (queue_server_begun (&server), ==, 2);
  queue_fixture_finish (queue);
  queue_server_clear (&server);
}

static void
test_cancel (ShareFixture  *self,
             gconstpointer  data)
{
  gint64 id = queue_fixture_add (self->here, self->at_here, "job-1");
  QueueServer server;
  WbQueue *queue;

  queue_fixture_add (self->here, self->at_here, "job-2");
  queue_server_init (&server);
  queue_server_hold (&server, TRUE);
  queue = queue_fixture_start (self->here, &server);
  queue_server_wait (&server, 1);
  queue_fixture_wait (queue, WB_SHARE_RUNNING, 1);
  wb_queue_cancel (queue, id);
  queue_server_wait (&server, 2);      /* the next one has its turn */
  queue_fixture_wait (queue, WB_SHARE_RUNNING, 1);
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (queue)), ==, 1);
  g_assert_cmpstr (wb_queue_item_get_entry (queue_fixture_first (queue))->job_id, ==, "job-2");
  g_assert_cmpuint (server.n_cancelled, ==, 1);

  /* Once more is no fault. */
  wb_queue_cancel (queue, id);
  queue_fixture_pass ();
  g_assert_null (wb_queue_get_fault (queue));
  queue_server_hold (&server, FALSE);
  queue_fixture_wait (queue, WB_SHARE_DONE, 1);
  queue_fixture_finish (queue);
  queue_server_clear (&server);
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
  QueueServer server;
  WbQueue *queue;
  WbProgressState state;
  guint n_running = 0;
  guint n_states = 0;
  gint64 done, all;

  queue_server_init (&server);
  queue_server_hold (&server, TRUE);
  queue = queue_fixture_start (self->here, &server);
  queue_fixture_wait (queue, WB_SHARE_WAITING, 0);
  g_signal_connect_swapped (queue, "notify::running", G_CALLBACK (count_cb), &n_running);
  queue_fixture_add (self->here, self->at_here, "job-1");
  queue_fixture_wait (queue, WB_SHARE_RUNNING, 1);
  queue_server_wait (&server, 1);
  queue_fixture_pass ();
  g_assert_true (wb_queue_get_running (queue) == queue_fixture_first (queue));
  g_assert_cmpuint (n_running, ==, 1);
  g_object_get (queue_fixture_first (queue), "done", &done, "all", &all, NULL);
  g_assert_cmpint (done, ==, 50);
  g_assert_cmpint (all, ==, 200);
  wb_queue_item_get_progress (queue_fixture_first (queue), &state);
  g_assert_nonnull (state.words);
  g_signal_connect_swapped (queue_fixture_first (queue), "notify::state", G_CALLBACK (count_cb),
                            &n_states);
  queue_server_hold (&server, FALSE);
  queue_fixture_wait (queue, WB_SHARE_DONE, 1);
  g_assert_cmpuint (n_states, ==, 1);
  g_assert_cmpuint (n_running, ==, 2);
  wb_queue_item_get_progress (queue_fixture_first (queue), &state);
  g_assert_null (state.words);
  g_assert_cmpint (state.done, ==, 200);
  queue_fixture_finish (queue);
  queue_server_clear (&server);
}

#define ADD(path, function) \
  g_test_add ("/office/queue/" path, ShareFixture, NULL, share_fixture_set_up, function, \
              share_fixture_tear_down)

int
main (int    argc,
      char **argv)
{
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
  ADD ("progress", test_progress);
  return g_test_run ();
}
