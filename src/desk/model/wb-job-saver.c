/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The way of the open job into the book. Holds the value wanted, the value stored and at most one
 * save under way; does not know how values are made, undone or merged. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/model/wb-job-saver.h"

#include "core/wb-core.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

#define SAVE_DELAY_MS      300
#define RETRY_FIRST_MS    1000
#define RETRY_LONGEST_MS 60000

struct _WbJobSaver
{
  GObject    parent_instance;

  WbOffice  *office;
  WbJob     *job;            /* what the book should hold */
  WbJob     *base;           /* what the book holds, with its revision; NULL: to be stored as new */
  WbJob     *sending;        /* what is being stored */
  WbJob     *theirs;
  gboolean   in_conflict;
  gboolean   refreshing;
  gboolean   unsaved;
  gboolean   given_up;
  GPtrArray *deeds;          /* done since the last save */
  GPtrArray *sent_deeds;
  GPtrArray *waiting;        /* GTask of a flush */
  char      *fault;
  guint      retry_ms;
  guint      timer;
};

enum
{
  PROP_0,
  PROP_UNSAVED,
  PROP_FAULT,
  N_PROPS
};

enum
{
  CONFLICT,
  REFRESHED,
  N_SIGNALS
};

static GParamSpec *properties[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbJobSaver, wb_job_saver, G_TYPE_OBJECT)

static void start_save (WbJobSaver *self);

static void
set_fault (WbJobSaver *self,
           const char *fault)
{
  if (g_strcmp0 (self->fault, fault) == 0)
    return;

  g_free (self->fault);
  self->fault = g_strdup (fault);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_FAULT]);
}

static void
update_unsaved (WbJobSaver *self)
{
  gboolean unsaved = self->sending != NULL || self->in_conflict ||
                     self->base == NULL || !wb_job_equal (self->base, self->job);

  if (self->unsaved == unsaved)
    return;

  self->unsaved = unsaved;
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_UNSAVED]);
}

static gboolean
timer_cb (gpointer data)
{
  WbJobSaver *self = WB_JOB_SAVER (data);

  self->timer = 0;
  start_save (self);
  return G_SOURCE_REMOVE;
}

/* The timer holds the saver, so that a change is stored even when everybody else let go of it. */
static void
schedule (WbJobSaver *self,
          guint       delay_ms)
{
  if (self->timer == 0 && !self->given_up)
    self->timer = g_timeout_add_full (G_PRIORITY_DEFAULT, delay_ms, timer_cb,
                                      g_object_ref (self), g_object_unref);
}

static void
unschedule (WbJobSaver *self)
{
  g_clear_handle_id (&self->timer, g_source_remove);
}

/* Answers those who wait for the book; @error is %NULL when it has everything. */
static void
answer_waiting (WbJobSaver   *self,
                const GError *error)
{
  g_autoptr (GPtrArray) waiting = g_steal_pointer (&self->waiting);

  self->waiting = g_ptr_array_new_with_free_func (g_object_unref);

  for (guint i = 0; i < waiting->len; i++)
    {
      GTask *task = g_ptr_array_index (waiting, i);

      if (error != NULL)
        g_task_return_error (task, g_error_copy (error));
      else
        g_task_return_boolean (task, TRUE);
    }
}

static void
add_deed (WbJobSaver *self,
          const char *deed)
{
  if (!g_ptr_array_find_with_equal_func (self->deeds, deed, g_str_equal, NULL))
    g_ptr_array_add (self->deeds, g_strdup (deed));
}

static char *
join_deeds (GPtrArray *deeds)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < deeds->len; i++)
    {
      if (i > 0)
        g_string_append (text, "; ");
      g_string_append (text, g_ptr_array_index (deeds, i));
    }

  return g_string_free (text, FALSE);
}

static void
enter_conflict (WbJobSaver *self,
                WbJob      *theirs)
{
  g_autoptr (GError) error = g_error_new_literal (WB_STORE_ERROR, WB_STORE_ERROR_CONFLICT,
                                                  "The job was changed elsewhere meanwhile.");

  g_clear_pointer (&self->theirs, wb_job_unref);
  self->theirs = theirs != NULL ? wb_job_ref (theirs) : NULL;
  self->in_conflict = TRUE;
  unschedule (self);
  set_fault (self, theirs != NULL
                     ? _("This job was changed in another window. Choose which changes to keep.")
                     : _("This job was removed from the book elsewhere."));
  update_unsaved (self);
  answer_waiting (self, error);
  g_signal_emit (self, signals[CONFLICT], 0);
}

static void
fail (WbJobSaver   *self,
      const GError *error)
{
  g_autofree char *fault = wb_words_error (error);

  set_fault (self, fault);
  update_unsaved (self);

  /* A job that the rules refuse stays refused until it is changed. */
  if (error->domain != WB_CORE_ERROR)
    {
      schedule (self, self->retry_ms);
      self->retry_ms = MIN (self->retry_ms * 2, RETRY_LONGEST_MS);
    }

  answer_waiting (self, error);
}

static void
theirs_loaded_cb (GObject      *object,
                  GAsyncResult *result,
                  gpointer      data)
{
  g_autoptr (WbJobSaver) self = WB_JOB_SAVER (data);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) theirs = wb_office_load_job_finish (WB_OFFICE (object), result, &error);

  g_clear_pointer (&self->sending, wb_job_unref);

  if (theirs != NULL || g_error_matches (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND))
    enter_conflict (self, theirs);
  else
    fail (self, error);
}

static void
put_back_deeds (WbJobSaver *self)
{
  g_autoptr (GPtrArray) later = g_steal_pointer (&self->deeds);

  self->deeds = g_steal_pointer (&self->sent_deeds);
  for (guint i = 0; i < later->len; i++)
    add_deed (self, g_ptr_array_index (later, i));
}

static void
save_succeeded (WbJobSaver *self,
                WbJob      *stored)
{
  g_clear_pointer (&self->sending, wb_job_unref);
  g_clear_pointer (&self->sent_deeds, g_ptr_array_unref);
  g_clear_pointer (&self->base, wb_job_unref);
  self->base = wb_job_ref (stored);
  self->retry_ms = RETRY_FIRST_MS;
  set_fault (self, NULL);
  update_unsaved (self);

  if (!self->unsaved)
    answer_waiting (self, NULL);
  else if (self->waiting->len > 0)
    start_save (self);
  else
    schedule (self, SAVE_DELAY_MS);
}

static void
saved_cb (GObject      *object,
          GAsyncResult *result,
          gpointer      data)
{
  g_autoptr (WbJobSaver) self = WB_JOB_SAVER (data);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) stored = wb_office_save_job_finish (WB_OFFICE (object), result, &error);

  if (stored != NULL)
    {
      save_succeeded (self, stored);
      return;
    }

  put_back_deeds (self);

  if (g_error_matches (error, WB_STORE_ERROR, WB_STORE_ERROR_CONFLICT) ||
      g_error_matches (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND))
    {
      wb_office_load_job_async (self->office, wb_job_get_id (self->job), NULL,
                                theirs_loaded_cb, g_object_ref (self));
      return;
    }

  g_clear_pointer (&self->sending, wb_job_unref);
  fail (self, error);
}

static void
start_save (WbJobSaver *self)
{
  g_autofree char *deed = NULL;

  if (self->sending != NULL || self->in_conflict || self->given_up)
    return;

  unschedule (self);
  update_unsaved (self);
  if (!self->unsaved)
    {
      g_ptr_array_set_size (self->deeds, 0);
      set_fault (self, NULL);
      answer_waiting (self, NULL);
      return;
    }

  deed = join_deeds (self->deeds);
  self->sent_deeds = g_steal_pointer (&self->deeds);
  self->deeds = g_ptr_array_new_with_free_func (g_free);
  self->sending = wb_job_ref (self->job);
  wb_office_save_job_async (self->office, self->base, self->sending, deed, NULL,
                            saved_cb, g_object_ref (self));
}

static void
refresh_loaded_cb (GObject      *object,
                   GAsyncResult *result,
                   gpointer      data)
{
  g_autoptr (WbJobSaver) self = WB_JOB_SAVER (data);
  g_autoptr (WbJob) job = wb_office_load_job_finish (WB_OFFICE (object), result, NULL);
  g_autoptr (WbJob) before = NULL;

  self->refreshing = FALSE;

  /* A job that is gone or cannot be read is met at the next save, where something depends on it. */
  if (job == NULL || self->unsaved || self->base == NULL ||
      wb_job_get_revision (job) <= wb_job_get_revision (self->base))
    return;

  before = g_steal_pointer (&self->base);
  self->base = wb_job_ref (job);
  g_clear_pointer (&self->job, wb_job_unref);
  self->job = wb_job_ref (job);
  g_signal_emit (self, signals[REFRESHED], 0, before, job);
}

static void
wb_job_saver_get_property (GObject    *object,
                           guint       prop_id,
                           GValue     *value,
                           GParamSpec *pspec)
{
  WbJobSaver *self = WB_JOB_SAVER (object);

  switch (prop_id)
    {
    case PROP_UNSAVED:
      g_value_set_boolean (value, self->unsaved);
      break;
    case PROP_FAULT:
      g_value_set_string (value, self->fault);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_job_saver_finalize (GObject *object)
{
  WbJobSaver *self = WB_JOB_SAVER (object);

  g_clear_object (&self->office);
  g_clear_pointer (&self->job, wb_job_unref);
  g_clear_pointer (&self->base, wb_job_unref);
  g_clear_pointer (&self->theirs, wb_job_unref);
  g_clear_pointer (&self->deeds, g_ptr_array_unref);
  g_clear_pointer (&self->waiting, g_ptr_array_unref);
  g_clear_pointer (&self->fault, g_free);

  G_OBJECT_CLASS (wb_job_saver_parent_class)->finalize (object);
}

static void
wb_job_saver_class_init (WbJobSaverClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = wb_job_saver_get_property;
  object_class->finalize = wb_job_saver_finalize;

  properties[PROP_UNSAVED] = g_param_spec_boolean ("unsaved", NULL, NULL, FALSE,
                                                   G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  properties[PROP_FAULT] = g_param_spec_string ("fault", NULL, NULL, NULL,
                                                G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  signals[CONFLICT] = g_signal_new ("conflict", WB_TYPE_JOB_SAVER, G_SIGNAL_RUN_LAST,
                                    0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[REFRESHED] = g_signal_new ("refreshed", WB_TYPE_JOB_SAVER, G_SIGNAL_RUN_LAST,
                                     0, NULL, NULL, NULL, G_TYPE_NONE, 2, WB_TYPE_JOB, WB_TYPE_JOB);
}

static void
wb_job_saver_init (WbJobSaver *self)
{
  self->deeds = g_ptr_array_new_with_free_func (g_free);
  self->waiting = g_ptr_array_new_with_free_func (g_object_unref);
  self->retry_ms = RETRY_FIRST_MS;
}

WbJobSaver *
wb_job_saver_new (WbOffice *office,
                  WbJob    *stored)
{
  WbJobSaver *self;

  g_return_val_if_fail (WB_IS_OFFICE (office), NULL);
  g_return_val_if_fail (stored != NULL, NULL);

  self = g_object_new (WB_TYPE_JOB_SAVER, NULL);
  self->office = g_object_ref (office);
  self->job = wb_job_ref (stored);
  self->base = wb_job_ref (stored);
  return self;
}

void
wb_job_saver_set_job (WbJobSaver *self,
                      WbJob      *job,
                      const char *deed)
{
  g_return_if_fail (WB_IS_JOB_SAVER (self));
  g_return_if_fail (job != NULL);

  wb_job_ref (job);
  wb_job_unref (self->job);
  self->job = job;
  add_deed (self, deed);
  update_unsaved (self);

  if (self->sending == NULL && !self->in_conflict)
    schedule (self, SAVE_DELAY_MS);
}

WbJob *
wb_job_saver_get_base (WbJobSaver *self)
{
  g_return_val_if_fail (WB_IS_JOB_SAVER (self), NULL);

  return self->base;
}

WbJob *
wb_job_saver_get_theirs (WbJobSaver *self)
{
  g_return_val_if_fail (WB_IS_JOB_SAVER (self), NULL);

  return self->theirs;
}

gboolean
wb_job_saver_in_conflict (WbJobSaver *self)
{
  g_return_val_if_fail (WB_IS_JOB_SAVER (self), FALSE);

  return self->in_conflict;
}

gboolean
wb_job_saver_get_unsaved (WbJobSaver *self)
{
  g_return_val_if_fail (WB_IS_JOB_SAVER (self), FALSE);

  return self->unsaved;
}

const char *
wb_job_saver_get_fault (WbJobSaver *self)
{
  g_return_val_if_fail (WB_IS_JOB_SAVER (self), NULL);

  return self->fault;
}

void
wb_job_saver_resolve (WbJobSaver *self,
                      WbJob      *job,
                      const char *deed)
{
  g_return_if_fail (WB_IS_JOB_SAVER (self));
  g_return_if_fail (self->in_conflict);

  g_clear_pointer (&self->base, wb_job_unref);
  self->base = g_steal_pointer (&self->theirs);
  self->in_conflict = FALSE;
  set_fault (self, NULL);
  wb_job_saver_set_job (self, job, deed);
}

void
wb_job_saver_give_up (WbJobSaver *self)
{
  g_return_if_fail (WB_IS_JOB_SAVER (self));

  self->given_up = TRUE;
  unschedule (self);
}

void
wb_job_saver_refresh (WbJobSaver *self)
{
  g_return_if_fail (WB_IS_JOB_SAVER (self));

  if (self->unsaved || self->refreshing)
    return;

  self->refreshing = TRUE;
  wb_office_load_job_async (self->office, wb_job_get_id (self->job), NULL,
                            refresh_loaded_cb, g_object_ref (self));
}

void
wb_job_saver_flush_async (WbJobSaver          *self,
                          GCancellable        *cancellable,
                          GAsyncReadyCallback  callback,
                          gpointer             data)
{
  g_autoptr (GTask) task = NULL;

  g_return_if_fail (WB_IS_JOB_SAVER (self));

  task = g_task_new (self, cancellable, callback, data);
  g_task_set_source_tag (task, wb_job_saver_flush_async);

  if (self->given_up)
    {
      g_task_return_boolean (task, TRUE);
      return;
    }

  if (self->in_conflict)
    {
      g_task_return_new_error (task, WB_STORE_ERROR, WB_STORE_ERROR_CONFLICT,
                               "The job was changed elsewhere meanwhile.");
      return;
    }

  g_ptr_array_add (self->waiting, g_steal_pointer (&task));
  start_save (self);
}

gboolean
wb_job_saver_flush_finish (WbJobSaver    *self,
                           GAsyncResult  *result,
                           GError       **error)
{
  g_return_val_if_fail (g_task_is_valid (result, self), FALSE);

  return g_task_propagate_boolean (G_TASK (result), error);
}
