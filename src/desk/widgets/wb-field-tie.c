/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One field of one record of the open job, whatever widget shows it. Knows no widget; holds no
 * value of its own but the record last seen, to know when something changed. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/widgets/wb-field-tie.h"

#include "core/wb-core.h"
#include "office/wb-words.h"

#include <string.h>

struct _WbFieldTie
{
  GObject        parent_instance;

  WbJobModel    *model;
  char          *name;         /* "order.number" */
  char          *record_id;
  WbKind         kind;
  const WbField *field;
  gpointer       seen;         /* the record last told about */
  GSignalGroup  *model_signals;
};

enum
{
  CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbFieldTie, wb_field_tie, G_TYPE_OBJECT)

static const char *
get_id (WbFieldTie *self)
{
  const WbRecordType *type = wb_record_type (self->kind);

  return self->record_id != NULL || !type->single ? self->record_id : type->name;
}

static void
see_record (WbFieldTie    *self,
            gconstpointer  record)
{
  gpointer old = self->seen;

  self->seen = record != NULL ? wb_record_ref ((gpointer) record) : NULL;
  g_clear_pointer (&old, wb_record_unref);
}

static void
job_changed_cb (WbFieldTie *self)
{
  gconstpointer record = wb_field_tie_get_record (self);
  gboolean same;

  if (record == self->seen)
    return;

  same = record != NULL && self->seen != NULL &&
         wb_record_field_equal (self->field, record, self->seen);
  see_record (self, record);
  if (!same)
    g_signal_emit (self, signals[CHANGED], 0);
}

static void
start_anew (WbFieldTie *self)
{
  see_record (self, wb_field_tie_get_record (self));
  g_signal_emit (self, signals[CHANGED], 0);
}

static void
set_model (WbFieldTie *self,
           WbJobModel *model)
{
  if (g_set_object (&self->model, model))
    {
      g_signal_group_set_target (self->model_signals, model);
      start_anew (self);
    }
}

static void
set_record_id (WbFieldTie *self,
               const char *id)
{
  if (g_strcmp0 (self->record_id, id) == 0)
    return;

  g_free (self->record_id);
  self->record_id = g_strdup (id);
  start_anew (self);
}

/* @name: "order.number" */
static void
set_field (WbFieldTie *self,
           const char *name)
{
  const char *point = name != NULL ? strchr (name, '.') : NULL;

  if (point == NULL || g_strcmp0 (self->name, name) == 0)
    return;

  g_free (self->name);
  self->name = g_strdup (name);
  self->field = NULL;

  for (guint i = 0; i < WB_N_KINDS; i++)
    {
      const WbRecordType *type = wb_record_type ((WbKind) i);

      if (strlen (type->name) == (gsize) (point - name) && g_str_has_prefix (name, type->name))
        {
          self->kind = (WbKind) i;
          self->field = wb_record_type_field (type, point + 1);
        }
    }

  if (self->field == NULL)
    g_critical ("There is no field %s", name);
  start_anew (self);
}

static void
wb_field_tie_dispose (GObject *object)
{
  WbFieldTie *self = WB_FIELD_TIE (object);

  g_clear_object (&self->model_signals);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_field_tie_parent_class)->dispose (object);
}

static void
wb_field_tie_finalize (GObject *object)
{
  WbFieldTie *self = WB_FIELD_TIE (object);

  g_clear_pointer (&self->name, g_free);
  g_clear_pointer (&self->record_id, g_free);
  g_clear_pointer (&self->seen, wb_record_unref);

  G_OBJECT_CLASS (wb_field_tie_parent_class)->finalize (object);
}

static void
wb_field_tie_class_init (WbFieldTieClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->dispose = wb_field_tie_dispose;
  object_class->finalize = wb_field_tie_finalize;

  signals[CHANGED] = g_signal_new ("changed", WB_TYPE_FIELD_TIE, G_SIGNAL_RUN_LAST,
                                   0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
wb_field_tie_init (WbFieldTie *self)
{
  self->model_signals = g_signal_group_new (WB_TYPE_JOB_MODEL);
  g_signal_group_connect_swapped (self->model_signals, "notify::job",
                                  G_CALLBACK (job_changed_cb), self);
}

WbFieldTie *
wb_field_tie_new (void)
{
  return g_object_new (WB_TYPE_FIELD_TIE, NULL);
}

const WbField *
wb_field_tie_get_field (WbFieldTie *self)
{
  g_return_val_if_fail (WB_IS_FIELD_TIE (self), NULL);

  return self->field;
}

gconstpointer
wb_field_tie_get_record (WbFieldTie *self)
{
  g_return_val_if_fail (WB_IS_FIELD_TIE (self), NULL);

  if (self->model == NULL || self->field == NULL)
    return NULL;

  return wb_job_find (wb_job_model_get_job (self->model), self->kind, get_id (self));
}

char *
wb_field_tie_get_text (WbFieldTie *self)
{
  gconstpointer record = wb_field_tie_get_record (self);

  return record != NULL ? wb_record_get_text (record, self->field) : g_strdup ("");
}

char *
wb_field_tie_get_words (WbFieldTie *self)
{
  gconstpointer record = wb_field_tie_get_record (self);

  if (record == NULL || !wb_record_field_is_set (self->field, record))
    return g_strdup ("");

  return wb_words_value (record, self->field);
}

gboolean
wb_field_tie_check (WbFieldTie  *self,
                    const char  *text,
                    GError     **error)
{
  g_return_val_if_fail (WB_IS_FIELD_TIE (self), FALSE);

  if (self->model == NULL || self->field == NULL)
    return TRUE;

  return wb_job_model_check_field (self->model, self->kind, get_id (self), self->field->name,
                                   text, error);
}

gboolean
wb_field_tie_set_text (WbFieldTie  *self,
                       const char  *text,
                       GError     **error)
{
  g_return_val_if_fail (WB_IS_FIELD_TIE (self), FALSE);

  if (self->model == NULL || self->field == NULL)
    return TRUE;

  return wb_job_model_set_field (self->model, self->kind, get_id (self), self->field->name,
                                 text, error);
}

char *
wb_field_tie_describe (WbFieldTie   *self,
                       const GError *error)
{
  const char *text = error->message;
  g_autofree char *name = NULL;
  const char *found;
  GString *sentence;

  g_return_val_if_fail (WB_IS_FIELD_TIE (self), NULL);

  if (error->domain != WB_CORE_ERROR || self->field == NULL ||
      error->code == WB_CORE_ERROR_OVERFLOW)
    return wb_words_error (error);

  /* Core says which record and field it means; here that is plain to see. */
  name = g_strconcat (self->field->name, ": ", NULL);
  found = strstr (text, name);
  if (found != NULL)
    text = found + strlen (name);

  sentence = g_string_new (NULL);
  g_string_append_unichar (sentence, g_unichar_toupper (g_utf8_get_char (text)));
  g_string_append (sentence, g_utf8_next_char (text));
  if (!g_str_has_suffix (text, "."))
    g_string_append_c (sentence, '.');

  return g_string_free (sentence, FALSE);
}

void
wb_field_tie_install_properties (GObjectClass *object_class)
{
  const GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  g_object_class_install_property (object_class, WB_FIELD_TIE_PROP_MODEL,
                                   g_param_spec_object ("model", NULL, NULL,
                                                        WB_TYPE_JOB_MODEL, flags));
  g_object_class_install_property (object_class, WB_FIELD_TIE_PROP_FIELD,
                                   g_param_spec_string ("field", NULL, NULL, NULL, flags));
  g_object_class_install_property (object_class, WB_FIELD_TIE_PROP_RECORD_ID,
                                   g_param_spec_string ("record-id", NULL, NULL, NULL, flags));
}

void
wb_field_tie_get_row_property (WbFieldTie *self,
                               GObject    *row,
                               guint       prop_id,
                               GValue     *value,
                               GParamSpec *pspec)
{
  switch (prop_id)
    {
    case WB_FIELD_TIE_PROP_MODEL:
      g_value_set_object (value, self->model);
      break;
    case WB_FIELD_TIE_PROP_FIELD:
      g_value_set_string (value, self->name);
      break;
    case WB_FIELD_TIE_PROP_RECORD_ID:
      g_value_set_string (value, self->record_id);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (row, prop_id, pspec);
    }
}

void
wb_field_tie_set_row_property (WbFieldTie   *self,
                               GObject      *row,
                               guint         prop_id,
                               const GValue *value,
                               GParamSpec   *pspec)
{
  switch (prop_id)
    {
    case WB_FIELD_TIE_PROP_MODEL:
      set_model (self, g_value_get_object (value));
      break;
    case WB_FIELD_TIE_PROP_FIELD:
      set_field (self, g_value_get_string (value));
      break;
    case WB_FIELD_TIE_PROP_RECORD_ID:
      set_record_id (self, g_value_get_string (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (row, prop_id, pspec);
    }
}
