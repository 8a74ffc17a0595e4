/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One entry of the queue under way: a thread that lives as long as it takes, speaks with the server
 * and holds nothing of the book meanwhile. When it is begun and what becomes of it is not known
 * here. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-queue-private.h"

struct _WbQueueRun
{
  WbOffice       *office;
  WbQueueMeans    means;
  WbSecret       *secret;
  GThread        *thread;     /* (nullable): until it was waited for */
  int             finished;   /* atomic */
  GError         *error;      /* of the thread until it is finished */
  void          (*done) (gpointer data);
  gpointer        data;
  GDestroyNotify  free_data;
};

static gpointer
run_thread (gpointer data)
{
  WbQueueTransfer *self = data;
  WbQueueRun *run = self->run;
  GDestroyNotify free_data = run->free_data;
  gpointer done_data = run->data;
  void (*done) (gpointer data) = run->done;
  GError *error = NULL;

  if ((run->means.work != NULL ? run->means.work : wb_queue_share)
        (run->office, self->entry, run->secret, self->progress, run->means.data, self->cancellable,
         &error))
    g_clear_error (&error);
  run->error = error;
  g_atomic_int_set (&run->finished, 1);

  /* From here on the transfer may be gone. */
  done (done_data);
  free_data (done_data);
  return NULL;
}

WbQueueTransfer *
wb_queue_transfer_start (WbOffice           *office,
                         const WbQueueMeans *means,
                         WbShareEntry       *entry,
                         WbSecret           *secret,
                         void              (*done) (gpointer data),
                         gpointer            data,
                         GDestroyNotify      free_data)
{
  WbQueueTransfer *self = g_new0 (WbQueueTransfer, 1);
  WbQueueRun *run = g_new0 (WbQueueRun, 1);

  self->entry = entry;
  self->progress = wb_progress_new ();
  self->cancellable = g_cancellable_new ();
  self->run = run;
  run->office = g_object_ref (office);
  run->means = *means;
  run->secret = secret != NULL ? wb_secret_ref (secret) : NULL;
  run->done = done;
  run->data = data;
  run->free_data = free_data;
  run->thread = g_thread_new ("wainbook-share", run_thread, self);
  return self;
}

gboolean
wb_queue_transfer_is_finished (WbQueueTransfer *self)
{
  return g_atomic_int_get (&self->run->finished) != 0;
}

const GError *
wb_queue_transfer_join (WbQueueTransfer *self)
{
  g_clear_pointer (&self->run->thread, g_thread_join);
  return self->run->error;
}

void
wb_queue_transfer_free (WbQueueTransfer *self)
{
  WbQueueRun *run = self->run;

  g_clear_pointer (&run->thread, g_thread_join);
  g_clear_pointer (&run->secret, wb_secret_unref);
  g_clear_error (&run->error);
  g_object_unref (run->office);
  g_free (run);

  g_clear_pointer (&self->entry, wb_share_entry_free);
  g_clear_pointer (&self->progress, wb_progress_unref);
  g_clear_object (&self->cancellable);
  g_free (self);
}
