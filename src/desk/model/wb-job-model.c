/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The open job: the value of the moment, the values before and after it, and the lists that follow
 * it. What goes into the book and when is the saver's; how two edits are merged is the rebase's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/model/wb-job-model.h"

#include "core/wb-core.h"
#include "desk/model/wb-job-rebase.h"
#include "desk/model/wb-job-saver.h"
#include "desk/model/wb-record-follow.h"
#include "desk/model/wb-record-list.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

#define UNDO_LIMIT 200

/* A value to go back or forward to, and what was done between it and the one after it. */
typedef struct
{
  WbJob *job;
  char  *deed;
} Step;

struct _WbJobModel
{
  GObject       parent_instance;

  WbOffice     *office;
  WbJobSaver   *saver;
  WbJob        *job;
  GPtrArray    *undo;
  GPtrArray    *redo;
  WbRecordList *lists[WB_N_KINDS];
  gboolean      telling;   /* the lists are being told a new value */
};

enum
{
  PROP_0,
  PROP_JOB,
  PROP_CAN_UNDO,
  PROP_CAN_REDO,
  PROP_UNDO_LABEL,
  PROP_REDO_LABEL,
  PROP_UNSAVED,
  PROP_FAULT,
  N_PROPS
};

enum
{
  CONFLICT,
  N_SIGNALS
};

static GParamSpec *properties[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbJobModel, wb_job_model, G_TYPE_OBJECT)

static Step *
step_new (WbJob      *job,
          const char *deed)
{
  Step *step = g_new (Step, 1);

  step->job = wb_job_ref (job);
  step->deed = g_strdup (deed);
  return step;
}

static void
step_free (gpointer data)
{
  Step *step = data;

  wb_job_unref (step->job);
  g_free (step->deed);
  g_free (step);
}

static const char *
last_deed (GPtrArray *steps)
{
  Step *step = steps->len > 0 ? g_ptr_array_index (steps, steps->len - 1) : NULL;

  return step != NULL ? step->deed : NULL;
}

static void
push (GPtrArray  *steps,
      WbJob      *job,
      const char *deed)
{
  g_ptr_array_add (steps, step_new (job, deed));
  if (steps->len > UNDO_LIMIT)
    g_ptr_array_remove_index (steps, 0);
}

static void
notify_steps (WbJobModel *self)
{
  for (guint i = PROP_CAN_UNDO; i <= PROP_REDO_LABEL; i++)
    g_object_notify_by_pspec (G_OBJECT (self), properties[i]);
}

/* A listener may well change the job again; the lists are then told the last value only, and never
 * one value while they still hear of another. */
static void
tell_lists (WbJobModel *self)
{
  if (self->telling)
    return;

  self->telling = TRUE;
  for (gboolean again = TRUE; again;)
    {
      g_autoptr (WbJob) job = wb_job_ref (self->job);

      for (guint i = 0; i < WB_N_KINDS; i++)
        if (self->lists[i] != NULL)
          wb_record_list_set_job (self->lists[i], job);

      g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_JOB]);
      again = job != self->job;
    }
  self->telling = FALSE;
}

static void
show_job (WbJobModel *self,
          WbJob      *job)
{
  WbJob *old = self->job;

  self->job = wb_job_ref (job);
  wb_job_unref (old);
  notify_steps (self);
  tell_lists (self);
}

/* Puts every step on top of what was stored elsewhere. */
static void
rebase_steps (GPtrArray *steps,
              WbJob     *base,
              WbJob     *theirs)
{
  for (guint i = 0; i < steps->len; i++)
    {
      Step *step = g_ptr_array_index (steps, i);
      WbJob *rebased = wb_job_rebase (base, step->job, theirs);

      wb_job_unref (step->job);
      step->job = rebased;
    }
}

static void
saver_notify_cb (WbJobSaver *saver,
                 GParamSpec *pspec,
                 WbJobModel *self)
{
  g_object_notify (G_OBJECT (self), pspec->name);
}

static void
saver_conflict_cb (WbJobSaver *saver,
                   WbJobModel *self)
{
  g_signal_emit (self, signals[CONFLICT], 0);
}

static void
saver_refreshed_cb (WbJobSaver *saver,
                    WbJob      *before,
                    WbJob      *job,
                    WbJobModel *self)
{
  rebase_steps (self->undo, before, job);
  rebase_steps (self->redo, before, job);
  show_job (self, job);
}

static void
wb_job_model_get_property (GObject    *object,
                           guint       prop_id,
                           GValue     *value,
                           GParamSpec *pspec)
{
  WbJobModel *self = WB_JOB_MODEL (object);

  switch (prop_id)
    {
    case PROP_JOB:
      g_value_set_boxed (value, self->job);
      break;
    case PROP_CAN_UNDO:
      g_value_set_boolean (value, self->undo->len > 0);
      break;
    case PROP_CAN_REDO:
      g_value_set_boolean (value, self->redo->len > 0);
      break;
    case PROP_UNDO_LABEL:
      g_value_set_string (value, last_deed (self->undo));
      break;
    case PROP_REDO_LABEL:
      g_value_set_string (value, last_deed (self->redo));
      break;
    case PROP_UNSAVED:
      g_value_set_boolean (value, wb_job_saver_get_unsaved (self->saver));
      break;
    case PROP_FAULT:
      g_value_set_string (value, wb_job_saver_get_fault (self->saver));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_job_model_finalize (GObject *object)
{
  WbJobModel *self = WB_JOB_MODEL (object);

  for (guint i = 0; i < WB_N_KINDS; i++)
    g_clear_object (&self->lists[i]);
  g_clear_object (&self->saver);
  g_clear_object (&self->office);
  g_clear_pointer (&self->undo, g_ptr_array_unref);
  g_clear_pointer (&self->redo, g_ptr_array_unref);
  g_clear_pointer (&self->job, wb_job_unref);

  G_OBJECT_CLASS (wb_job_model_parent_class)->finalize (object);
}

static void
wb_job_model_class_init (WbJobModelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  const GParamFlags flags = G_PARAM_READABLE | G_PARAM_STATIC_STRINGS;

  object_class->get_property = wb_job_model_get_property;
  object_class->finalize = wb_job_model_finalize;

  properties[PROP_JOB] = g_param_spec_boxed ("job", NULL, NULL, WB_TYPE_JOB, flags);
  properties[PROP_CAN_UNDO] = g_param_spec_boolean ("can-undo", NULL, NULL, FALSE, flags);
  properties[PROP_CAN_REDO] = g_param_spec_boolean ("can-redo", NULL, NULL, FALSE, flags);
  properties[PROP_UNDO_LABEL] = g_param_spec_string ("undo-label", NULL, NULL, NULL, flags);
  properties[PROP_REDO_LABEL] = g_param_spec_string ("redo-label", NULL, NULL, NULL, flags);
  properties[PROP_UNSAVED] = g_param_spec_boolean ("unsaved", NULL, NULL, FALSE, flags);
  properties[PROP_FAULT] = g_param_spec_string ("fault", NULL, NULL, NULL, flags);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  signals[CONFLICT] = g_signal_new ("conflict", WB_TYPE_JOB_MODEL, G_SIGNAL_RUN_LAST,
                                    0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
wb_job_model_init (WbJobModel *self)
{
  self->undo = g_ptr_array_new_with_free_func (step_free);
  self->redo = g_ptr_array_new_with_free_func (step_free);
}

WbJobModel *
wb_job_model_new (WbOffice *office,
                  WbJob    *job)
{
  WbJobModel *self;

  g_return_val_if_fail (WB_IS_OFFICE (office), NULL);
  g_return_val_if_fail (job != NULL, NULL);

  self = g_object_new (WB_TYPE_JOB_MODEL, NULL);
  self->office = g_object_ref (office);
  self->job = wb_job_ref (job);
  self->saver = wb_job_saver_new (office, job);
  g_signal_connect_object (self->saver, "notify", G_CALLBACK (saver_notify_cb), self, 0);
  g_signal_connect_object (self->saver, "conflict", G_CALLBACK (saver_conflict_cb), self, 0);
  g_signal_connect_object (self->saver, "refreshed", G_CALLBACK (saver_refreshed_cb), self, 0);
  return self;
}

WbJobModel *
wb_job_model_new_scratch (WbOffice *office,
                          WbJob    *job)
{
  WbJobModel *self = wb_job_model_new (office, job);

  wb_job_saver_give_up (self->saver);
  return self;
}

WbOffice *
wb_job_model_get_office (WbJobModel *self)
{
  g_return_val_if_fail (WB_IS_JOB_MODEL (self), NULL);

  return self->office;
}

WbJob *
wb_job_model_get_job (WbJobModel *self)
{
  g_return_val_if_fail (WB_IS_JOB_MODEL (self), NULL);

  return self->job;
}

GListModel *
wb_job_model_get_records (WbJobModel *self,
                          WbKind      kind)
{
  g_return_val_if_fail (WB_IS_JOB_MODEL (self), NULL);
  g_return_val_if_fail ((guint) kind < WB_N_KINDS, NULL);

  if (self->lists[kind] == NULL)
    {
      self->lists[kind] = wb_record_list_new (kind);
      wb_record_list_set_job (self->lists[kind], self->job);
    }

  return G_LIST_MODEL (self->lists[kind]);
}

void
wb_job_model_apply (WbJobModel *self,
                    WbJob      *job,
                    const char *deed)
{
  g_return_if_fail (WB_IS_JOB_MODEL (self));
  g_return_if_fail (job != NULL);
  g_return_if_fail (deed != NULL);

  if (wb_job_equal (self->job, job))
    return;

  push (self->undo, self->job, deed);
  g_ptr_array_set_size (self->redo, 0);
  wb_job_saver_set_job (self->saver, job, deed);
  show_job (self, job);
}

/* Whether the job around a record looks at its fields too: tickets that add up, numbers of lines,
 * times of day. */
static gboolean
is_checked_together (WbKind kind)
{
  return kind == WB_KIND_WEIGHING || kind == WB_KIND_CLAIM_LINE || kind == WB_KIND_CONTACT;
}

static gboolean
check_within_job (WbJobModel  *self,
                  WbRecord    *after,
                  GError     **error)
{
  g_autoptr (WbJob) job = wb_job_with (self->job, after);

  return wb_job_check (job, error) || !wb_job_check (self->job, NULL);
}

/* A field that would make a good record a bad one is refused like a text that does not read, so
 * that what is shown can always be stored. */
static gboolean
check_record (WbJobModel      *self,
              gconstpointer    before,
              WbRecord        *after,
              GError         **error)
{
  const char *currency = wb_job_get_currency (self->job);
  g_autoptr (GError) refusal = NULL;

  if (is_checked_together (after->type->kind) && !check_within_job (self, after, error))
    return FALSE;

  if (wb_record_check (after, currency, &refusal) || !wb_record_check (before, currency, NULL))
    return TRUE;

  g_propagate_error (error, g_steal_pointer (&refusal));
  return FALSE;
}

/* Returns: (transfer full) (nullable): the record with its field set. */
static WbRecord *
change_record (WbJobModel     *self,
               WbKind          kind,
               const char     *id,
               const WbField  *field,
               const char     *text,
               GError        **error)
{
  const char *currency = wb_job_get_currency (self->job);
  gconstpointer before = wb_job_find (self->job, kind, id);
  g_autoptr (WbRecord) after = NULL;

  if (before == NULL)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                   "%s: there is no %s %s any more", field->name, wb_record_type (kind)->name, id);
      return NULL;
    }

  after = wb_record_copy (before);
  if (!wb_record_set_text (after, field, text, currency, error))
    return NULL;

  wb_record_follow (before, after, field);
  if (!check_record (self, before, after, error))
    return NULL;

  return g_steal_pointer (&after);
}

gboolean
wb_job_model_check_field (WbJobModel  *self,
                          WbKind       kind,
                          const char  *id,
                          const char  *field,
                          const char  *text,
                          GError     **error)
{
  const WbField *description = wb_record_type_field (wb_record_type (kind), field);
  g_autoptr (WbRecord) after = NULL;

  g_return_val_if_fail (WB_IS_JOB_MODEL (self), FALSE);
  g_return_val_if_fail (description != NULL, FALSE);

  after = change_record (self, kind, id, description, text, error);
  return after != NULL;
}

gboolean
wb_job_model_set_field (WbJobModel  *self,
                        WbKind       kind,
                        const char  *id,
                        const char  *field,
                        const char  *text,
                        GError     **error)
{
  const WbField *description = wb_record_type_field (wb_record_type (kind), field);
  g_autoptr (WbRecord) after = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autofree char *deed = NULL;

  g_return_val_if_fail (WB_IS_JOB_MODEL (self), FALSE);
  g_return_val_if_fail (description != NULL, FALSE);

  after = change_record (self, kind, id, description, text, error);
  if (after == NULL)
    return FALSE;

  job = wb_job_with (self->job, after);
  /* Translators: %s is the label of a field, such as Room. */
  deed = g_strdup_printf (_("Change %s"), wb_words_field (description));
  wb_job_model_apply (self, job, deed);
  return TRUE;
}

/* Undo and redo: the same step, from one list to the other. @history: what the book's history
 * says. */
static void
go (WbJobModel *self,
    GPtrArray  *from,
    GPtrArray  *to,
    const char *history)
{
  Step *step = g_ptr_array_index (from, from->len - 1);
  g_autoptr (WbJob) job = wb_job_ref (step->job);

  push (to, self->job, step->deed);
  g_ptr_array_set_size (from, (int) from->len - 1);
  wb_job_saver_set_job (self->saver, job, history);
  show_job (self, job);
}

void
wb_job_model_undo (WbJobModel *self)
{
  g_autofree char *history = NULL;

  g_return_if_fail (WB_IS_JOB_MODEL (self));

  if (self->undo->len == 0)
    return;

  /* Translators: %s is what was done, such as Change Room. */
  history = g_strdup_printf (_("Undo: %s"), last_deed (self->undo));
  go (self, self->undo, self->redo, history);
}

void
wb_job_model_redo (WbJobModel *self)
{
  g_autofree char *history = NULL;

  g_return_if_fail (WB_IS_JOB_MODEL (self));

  if (self->redo->len == 0)
    return;

  /* Translators: %s is what was done, such as Change Room. */
  history = g_strdup_printf (_("Redo: %s"), last_deed (self->redo));
  go (self, self->redo, self->undo, history);
}

static void
flushed_cb (GObject      *object,
            GAsyncResult *result,
            gpointer      data)
{
  g_autoptr (GTask) task = G_TASK (data);
  GError *error = NULL;

  if (wb_job_saver_flush_finish (WB_JOB_SAVER (object), result, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

void
wb_job_model_flush_async (WbJobModel          *self,
                          GCancellable        *cancellable,
                          GAsyncReadyCallback  callback,
                          gpointer             data)
{
  GTask *task;

  g_return_if_fail (WB_IS_JOB_MODEL (self));

  task = g_task_new (self, cancellable, callback, data);
  g_task_set_source_tag (task, wb_job_model_flush_async);
  wb_job_saver_flush_async (self->saver, cancellable, flushed_cb, task);
}

gboolean
wb_job_model_flush_finish (WbJobModel    *self,
                           GAsyncResult  *result,
                           GError       **error)
{
  g_return_val_if_fail (g_task_is_valid (result, self), FALSE);

  return g_task_propagate_boolean (G_TASK (result), error);
}

void
wb_job_model_give_up (WbJobModel *self)
{
  g_return_if_fail (WB_IS_JOB_MODEL (self));

  wb_job_saver_give_up (self->saver);
}

void
wb_job_model_refresh (WbJobModel *self)
{
  g_return_if_fail (WB_IS_JOB_MODEL (self));

  wb_job_saver_refresh (self->saver);
}

gboolean
wb_job_model_in_conflict (WbJobModel *self)
{
  g_return_val_if_fail (WB_IS_JOB_MODEL (self), FALSE);

  return wb_job_saver_in_conflict (self->saver);
}

gboolean
wb_job_model_get_removed (WbJobModel *self)
{
  g_return_val_if_fail (WB_IS_JOB_MODEL (self), FALSE);

  return wb_job_saver_in_conflict (self->saver) && wb_job_saver_get_theirs (self->saver) == NULL;
}

void
wb_job_model_take_theirs (WbJobModel *self)
{
  g_autoptr (WbJob) theirs = NULL;
  g_autoptr (WbJob) mine = NULL;
  const char *deed = _("Take the changes of the other window");

  g_return_if_fail (WB_IS_JOB_MODEL (self));

  if (!wb_job_saver_in_conflict (self->saver) || wb_job_saver_get_theirs (self->saver) == NULL)
    return;

  theirs = wb_job_ref (wb_job_saver_get_theirs (self->saver));
  mine = wb_job_rebase (wb_job_saver_get_base (self->saver), self->job, theirs);
  rebase_steps (self->undo, wb_job_saver_get_base (self->saver), theirs);
  g_ptr_array_set_size (self->redo, 0);
  push (self->undo, mine, deed);
  wb_job_saver_resolve (self->saver, theirs, deed);
  show_job (self, theirs);
}

void
wb_job_model_keep_mine (WbJobModel *self)
{
  WbJob *base, *theirs;
  g_autoptr (WbJob) merged = NULL;

  g_return_if_fail (WB_IS_JOB_MODEL (self));

  if (!wb_job_saver_in_conflict (self->saver))
    return;

  base = wb_job_saver_get_base (self->saver);
  theirs = wb_job_saver_get_theirs (self->saver);
  if (base == NULL || theirs == NULL)
    {
      merged = wb_job_ref (self->job);
    }
  else
    {
      merged = wb_job_rebase (base, self->job, theirs);
      rebase_steps (self->undo, base, theirs);
      rebase_steps (self->redo, base, theirs);
    }

  wb_job_saver_resolve (self->saver, merged, _("Keep the changes of this window"));
  show_job (self, merged);
}
