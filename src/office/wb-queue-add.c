/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Puts a job into the queue from a window: in a worker thread, and done when it is in the book. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-queue-private.h"

typedef struct
{
  WbShareDeed  deed;
  char        *server_id;
  char        *job_id;
  char        *title;
} Addition;

static void
addition_free (gpointer data)
{
  Addition *addition = data;

  g_free (addition->server_id);
  g_free (addition->job_id);
  g_free (addition->title);
  g_free (addition);
}

static void
add_in_thread (GTask        *task,
               gpointer      source,
               gpointer      data,
               GCancellable *cancellable)
{
  const Addition *addition = data;
  g_autoptr (GError) error = NULL;
  gint64 id = wb_office_queue_add (g_object_get_data (G_OBJECT (task), "office"), addition->deed,
                                   addition->server_id, addition->job_id, addition->title,
                                   cancellable, &error);

  if (id != 0)
    g_task_return_pointer (task, g_memdup2 (&id, sizeof id), g_free);
  else
    g_task_return_error (task, g_steal_pointer (&error));
}

void
wb_queue_add_async (WbQueue             *self,
                    WbShareDeed          deed,
                    const char          *server_id,
                    const char          *job_id,
                    const char          *title,
                    GCancellable        *cancellable,
                    GAsyncReadyCallback  callback,
                    gpointer             data)
{
  g_autoptr (GTask) task = NULL;
  Addition *addition;

  g_return_if_fail (WB_IS_QUEUE (self));
  g_return_if_fail (server_id != NULL && job_id != NULL && title != NULL);

  addition = g_new0 (Addition, 1);
  addition->deed = deed;
  addition->server_id = g_strdup (server_id);
  addition->job_id = g_strdup (job_id);
  addition->title = g_strdup (title);

  task = g_task_new (self, cancellable, callback, data);
  /* What is in the book is in the book, also when somebody cancels a moment later. */
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_source_tag (task, wb_queue_add_async);
  g_task_set_task_data (task, addition, addition_free);
  g_object_set_data_full (G_OBJECT (task), "office", g_object_ref (wb_queue_get_office (self)),
                          g_object_unref);
  g_task_run_in_thread (task, add_in_thread);
}

gint64
wb_queue_add_finish (WbQueue       *self,
                     GAsyncResult  *result,
                     GError       **error)
{
  g_autofree gint64 *id = NULL;

  g_return_val_if_fail (g_task_is_valid (result, self), 0);
  g_return_val_if_fail (g_async_result_is_tagged (result, wb_queue_add_async), 0);

  id = g_task_propagate_pointer (G_TASK (result), error);
  if (id == NULL)
    return 0;
  wb_queue_wake (self);
  return *id;
}
