/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keeps the models of open jobs by id. Makes and drops them; does not look inside. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/model/wb-open-jobs.h"

/* So many models that nobody shows stay, for their undo lists. */
#define KEEP 16

struct _WbOpenJobs
{
  GObject    parent_instance;

  WbOffice  *office;
  GPtrArray *models;   /* WbJobModel, the one asked for last at the end */
};

enum
{
  FAULTS_CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbOpenJobs, wb_open_jobs, G_TYPE_OBJECT)

static gboolean
is_unsaved (WbJobModel *model)
{
  gboolean unsaved;

  g_object_get (model, "unsaved", &unsaved, NULL);
  return unsaved;
}

static WbJobModel *
lookup (WbOpenJobs *self,
        const char *id)
{
  for (guint i = 0; i < self->models->len; i++)
    {
      WbJobModel *model = g_ptr_array_index (self->models, i);

      if (g_str_equal (wb_job_get_id (wb_job_model_get_job (model)), id))
        return model;
    }

  return NULL;
}

/* A model that somebody else holds is being shown. */
static gboolean
is_idle (WbJobModel *model)
{
  return G_OBJECT (model)->ref_count == 1 && !is_unsaved (model);
}

static void
trim (WbOpenJobs *self)
{
  guint spare = self->models->len > KEEP ? self->models->len - KEEP : 0;

  for (guint i = 0; i < self->models->len && spare > 0;)
    {
      if (is_idle (g_ptr_array_index (self->models, i)))
        {
          g_ptr_array_remove_index (self->models, i);
          spare--;
        }
      else
        {
          i++;
        }
    }
}

static void
move_to_end (WbOpenJobs *self,
             WbJobModel *model)
{
  g_object_ref (model);
  g_ptr_array_remove (self->models, model);
  g_ptr_array_add (self->models, model);
}

static void
fault_cb (WbOpenJobs *self)
{
  g_signal_emit (self, signals[FAULTS_CHANGED], 0);
}

static void
job_saved_cb (WbOpenJobs *self,
              const char *id)
{
  WbJobModel *model = lookup (self, id);

  if (model != NULL)
    wb_job_model_refresh (model);
}

static void
loaded_cb (GObject      *object,
           GAsyncResult *result,
           gpointer      data)
{
  g_autoptr (GTask) task = G_TASK (data);
  WbOpenJobs *self = g_task_get_source_object (task);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_office_load_job_finish (WB_OFFICE (object), result, &error);

  if (job == NULL)
    g_task_return_error (task, g_steal_pointer (&error));
  else if (!g_task_return_error_if_cancelled (task))
    g_task_return_pointer (task, wb_open_jobs_adopt (self, job), g_object_unref);
}

static void
wb_open_jobs_dispose (GObject *object)
{
  WbOpenJobs *self = WB_OPEN_JOBS (object);

  g_ptr_array_set_size (self->models, 0);
  g_clear_object (&self->office);

  G_OBJECT_CLASS (wb_open_jobs_parent_class)->dispose (object);
}

static void
wb_open_jobs_finalize (GObject *object)
{
  WbOpenJobs *self = WB_OPEN_JOBS (object);

  g_clear_pointer (&self->models, g_ptr_array_unref);

  G_OBJECT_CLASS (wb_open_jobs_parent_class)->finalize (object);
}

static void
wb_open_jobs_class_init (WbOpenJobsClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->dispose = wb_open_jobs_dispose;
  object_class->finalize = wb_open_jobs_finalize;

  signals[FAULTS_CHANGED] = g_signal_new ("faults-changed", WB_TYPE_OPEN_JOBS, G_SIGNAL_RUN_LAST,
                                          0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
wb_open_jobs_init (WbOpenJobs *self)
{
  self->models = g_ptr_array_new_with_free_func (g_object_unref);
}

WbOpenJobs *
wb_open_jobs_new (WbOffice *office)
{
  WbOpenJobs *self;

  g_return_val_if_fail (WB_IS_OFFICE (office), NULL);

  self = g_object_new (WB_TYPE_OPEN_JOBS, NULL);
  self->office = g_object_ref (office);
  g_signal_connect_object (office, "job-saved", G_CALLBACK (job_saved_cb), self, G_CONNECT_SWAPPED);
  return self;
}

WbOffice *
wb_open_jobs_get_office (WbOpenJobs *self)
{
  g_return_val_if_fail (WB_IS_OPEN_JOBS (self), NULL);

  return self->office;
}

void
wb_open_jobs_find_async (WbOpenJobs          *self,
                         const char          *id,
                         GCancellable        *cancellable,
                         GAsyncReadyCallback  callback,
                         gpointer             data)
{
  g_autoptr (GTask) task = NULL;
  WbJobModel *model;

  g_return_if_fail (WB_IS_OPEN_JOBS (self));
  g_return_if_fail (id != NULL);

  task = g_task_new (self, cancellable, callback, data);
  g_task_set_source_tag (task, wb_open_jobs_find_async);

  model = lookup (self, id);
  if (model != NULL)
    {
      move_to_end (self, model);
      wb_job_model_refresh (model);
      g_task_return_pointer (task, g_object_ref (model), g_object_unref);
      return;
    }

  wb_office_load_job_async (self->office, id, cancellable, loaded_cb, g_steal_pointer (&task));
}

WbJobModel *
wb_open_jobs_find_finish (WbOpenJobs    *self,
                          GAsyncResult  *result,
                          GError       **error)
{
  g_return_val_if_fail (g_task_is_valid (result, self), NULL);

  return g_task_propagate_pointer (G_TASK (result), error);
}

WbJobModel *
wb_open_jobs_adopt (WbOpenJobs *self,
                    WbJob      *job)
{
  WbJobModel *model;

  g_return_val_if_fail (WB_IS_OPEN_JOBS (self), NULL);
  g_return_val_if_fail (job != NULL, NULL);

  model = lookup (self, wb_job_get_id (job));
  if (model != NULL)
    return g_object_ref (model);

  model = wb_job_model_new (self->office, job);
  g_ptr_array_add (self->models, g_object_ref (model));
  g_signal_connect_object (model, "notify::fault", G_CALLBACK (fault_cb), self, G_CONNECT_SWAPPED);
  trim (self);
  return model;
}

void
wb_open_jobs_forget (WbOpenJobs *self,
                     WbJobModel *model)
{
  g_return_if_fail (WB_IS_OPEN_JOBS (self));

  g_ptr_array_remove (self->models, model);
  g_signal_emit (self, signals[FAULTS_CHANGED], 0);
}

WbJobModel *
wb_open_jobs_get_faulty (WbOpenJobs *self,
                         WbJobModel *except)
{
  g_return_val_if_fail (WB_IS_OPEN_JOBS (self), NULL);

  for (guint i = 0; i < self->models->len; i++)
    {
      WbJobModel *model = g_ptr_array_index (self->models, i);
      g_autofree char *fault = NULL;

      g_object_get (model, "fault", &fault, NULL);
      if (fault != NULL && model != except)
        return model;
    }

  return NULL;
}

gboolean
wb_open_jobs_get_unsaved (WbOpenJobs *self)
{
  g_return_val_if_fail (WB_IS_OPEN_JOBS (self), FALSE);

  for (guint i = 0; i < self->models->len; i++)
    if (is_unsaved (g_ptr_array_index (self->models, i)))
      return TRUE;

  return FALSE;
}

/* Flush: so many models have not answered yet, and the first failure. */
typedef struct
{
  guint   waiting;
  GError *error;
} Flush;

static void
flush_free (gpointer data)
{
  Flush *flush = data;

  g_clear_error (&flush->error);
  g_free (flush);
}

static void
flush_step (GTask  *task,
            GError *error)
{
  Flush *flush = g_task_get_task_data (task);

  if (error != NULL && flush->error == NULL)
    flush->error = error;
  else
    g_clear_error (&error);

  if (--flush->waiting > 0)
    return;

  if (flush->error != NULL)
    g_task_return_error (task, g_steal_pointer (&flush->error));
  else
    g_task_return_boolean (task, TRUE);
}

static void
flushed_cb (GObject      *object,
            GAsyncResult *result,
            gpointer      data)
{
  g_autoptr (GTask) task = G_TASK (data);
  GError *error = NULL;

  wb_job_model_flush_finish (WB_JOB_MODEL (object), result, &error);
  flush_step (task, error);
}

void
wb_open_jobs_flush_async (WbOpenJobs          *self,
                          GCancellable        *cancellable,
                          GAsyncReadyCallback  callback,
                          gpointer             data)
{
  g_autoptr (GTask) task = NULL;
  g_autoptr (GPtrArray) models = NULL;
  Flush *flush;

  g_return_if_fail (WB_IS_OPEN_JOBS (self));

  task = g_task_new (self, cancellable, callback, data);
  g_task_set_source_tag (task, wb_open_jobs_flush_async);
  flush = g_new0 (Flush, 1);
  g_task_set_task_data (task, flush, flush_free);

  models = g_ptr_array_new_with_free_func (g_object_unref);
  for (guint i = 0; i < self->models->len; i++)
    g_ptr_array_add (models, g_object_ref (g_ptr_array_index (self->models, i)));

  /* One more, so that it cannot end before all have been asked. */
  flush->waiting = models->len + 1;
  for (guint i = 0; i < models->len; i++)
    wb_job_model_flush_async (g_ptr_array_index (models, i), cancellable, flushed_cb,
                              g_object_ref (task));
  flush_step (task, NULL);
}

gboolean
wb_open_jobs_flush_finish (WbOpenJobs    *self,
                           GAsyncResult  *result,
                           GError       **error)
{
  g_return_val_if_fail (g_task_is_valid (result, self), FALSE);

  return g_task_propagate_boolean (G_TASK (result), error);
}

void
wb_open_jobs_give_up (WbOpenJobs *self)
{
  g_return_if_fail (WB_IS_OPEN_JOBS (self));

  for (guint i = 0; i < self->models->len;)
    {
      if (is_unsaved (g_ptr_array_index (self->models, i)))
        {
          wb_job_model_give_up (g_ptr_array_index (self->models, i));
          g_ptr_array_remove_index (self->models, i);
        }
      else
        {
          i++;
        }
    }
}

void
wb_open_jobs_refresh (WbOpenJobs *self)
{
  g_return_if_fail (WB_IS_OPEN_JOBS (self));

  /* The others are looked at when they are shown again. */
  for (guint i = 0; i < self->models->len; i++)
    if (!is_idle (g_ptr_array_index (self->models, i)))
      wb_job_model_refresh (g_ptr_array_index (self->models, i));
}
