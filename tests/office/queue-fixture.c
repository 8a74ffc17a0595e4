/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "queue-fixture.h"

#include "share-fixture.h"

void
queue_server_init (QueueServer *self)
{
  *self = (QueueServer) { .now = QUEUE_START, .patience = 60 };
  g_mutex_init (&self->mutex);
  g_cond_init (&self->cond);
  g_queue_init (&self->faults);
  self->counts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
}

void
queue_server_clear (QueueServer *self)
{
  g_assert_cmpuint (self->faults.length, ==, 0);
  g_hash_table_unref (self->counts);
  g_mutex_clear (&self->mutex);
  g_cond_clear (&self->cond);
  g_free (self->secret);
}

void
queue_server_fails (QueueServer       *self,
                    WbShareError  code)
{
  g_mutex_lock (&self->mutex);
  g_queue_push_tail (&self->faults, GINT_TO_POINTER ((int) code + 1));
  g_mutex_unlock (&self->mutex);
}

void
queue_server_hold (QueueServer   *self,
                   gboolean  hold)
{
  g_mutex_lock (&self->mutex);
  self->hold = hold;
  g_cond_broadcast (&self->cond);
  g_mutex_unlock (&self->mutex);
}

void
queue_server_set_time (QueueServer *self,
                       gint64  now)
{
  g_mutex_lock (&self->mutex);
  self->now = now;
  g_mutex_unlock (&self->mutex);
}

static gint64
now_of (gpointer data)
{
  QueueServer *self = data;
  gint64 now;

  g_mutex_lock (&self->mutex);
  now = self->now;
  g_mutex_unlock (&self->mutex);
  return now;
}

static guint32
chance_of (gpointer data)
{
  return ((QueueServer *) data)->chance;
}

static void
count (GHashTable *counts,
       const char *job)
{
  guint n = GPOINTER_TO_UINT (g_hash_table_lookup (counts, job));

  g_hash_table_insert (counts, g_strdup (job), GUINT_TO_POINTER (n + 1));
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
  QueueServer *self = data;
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
    count (self->counts, entry->job_id);
  g_mutex_unlock (&self->mutex);

  if (g_cancellable_set_error_if_cancelled (cancellable, error))
    return FALSE;
  if (fault != NULL)
    return wb_share_refuse (error, (WbShareError) (GPOINTER_TO_INT (fault) - 1), "Main",
                            "as the test says, SHA256:abc");
  wb_progress_set (200, 200, progress);
  return TRUE;
}

WbQueue *
queue_fixture_start (WbOffice *office,
                     QueueServer   *server)
{
  WbQueueMeans means = { now_of, chance_of, work, server, 0 };
  WbQueue *queue;

  if (server != NULL)
    means.patience = server->patience;
  queue = wb_queue_new (office, server != NULL ? &means : NULL);

  wb_queue_start (queue);
  return queue;
}

void
queue_fixture_finish (WbQueue *queue)
{
  wb_queue_stop (queue);
  g_object_unref (queue);
}

gint64
queue_fixture_add (WbOffice   *office,
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
  QueueServer       *server;
} Expected;

static gboolean
is_so (gpointer data)
{
  const Expected *expected = data;

  return wb_queue_get_loaded (expected->queue) &&
         wb_queue_count (expected->queue, expected->state) == expected->n;
}

void
queue_fixture_wait (WbQueue      *queue,
                    WbShareState  state,
                    guint         n)
{
  Expected expected = { queue, state, n, 0, NULL };

  share_fixture_wait (is_so, &expected);
}

WbQueueItem *
queue_fixture_first (WbQueue *queue)
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
         wb_queue_item_get_entry (queue_fixture_first (expected->queue))->tries == expected->tries;
}

void
queue_fixture_wait_tries (WbQueue *queue,
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

void
queue_server_wait (QueueServer *server,
                   guint   n)
{
  Expected expected = { NULL, WB_SHARE_WAITING, n, 0, server };

  share_fixture_wait (has_begun, &expected);
}

guint
queue_server_begun (QueueServer *server)
{
  guint n;

  g_mutex_lock (&server->mutex);
  n = server->n_begun;
  g_mutex_unlock (&server->mutex);
  return n;
}

void
queue_fixture_pass (void)
{
  gint64 until = g_get_monotonic_time () + 3 * G_USEC_PER_SEC / 2;

  while (g_get_monotonic_time () < until)
    {
      g_main_context_iteration (NULL, FALSE);
      g_usleep (5000);
    }
}
