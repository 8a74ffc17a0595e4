/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Taking records out of a job: what belongs to them goes along, to any depth; what only refers to
 * one of them holds everything back. */
#include "core/wb-job-private.h"

#include "core/wb-core.h"

/* Ids by kind, NULL where none; the ids belong to the job. */
typedef struct
{
  const WbJob *job;
  GHashTable  *ids[WB_N_KINDS];
} Doomed;

static void
doomed_clear (Doomed *self)
{
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    g_clear_pointer (&self->ids[kind], g_hash_table_unref);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Doomed, doomed_clear)

static gboolean
doomed_add (Doomed     *self,
            WbKind      kind,
            const char *id)
{
  if (self->ids[kind] == NULL)
    self->ids[kind] = g_hash_table_new (g_str_hash, g_str_equal);
  return g_hash_table_add (self->ids[kind], (gpointer) id);
}

static gboolean
doomed_has (const Doomed *self,
            WbKind        kind,
            const char   *id)
{
  return self->ids[kind] != NULL && g_hash_table_contains (self->ids[kind], id);
}

/* The first reference of @record, as an owner or not, to a record that goes; %NULL when there is
 * none. @field: (out). */
static const char *
find_reference (const Doomed    *self,
                const WbRecord  *record,
                gboolean         as_owner,
                const WbField  **field)
{
  for (gsize i = 0; i < record->type->n_fields; i++)
    {
      const char *target;

      *field = &record->type->fields[i];
      if ((*field)->type != WB_FIELD_REFERENCE ||
          (((*field)->flags & WB_FIELD_OWNER) != 0) != as_owner)
        continue;
      target = G_STRUCT_MEMBER (const char *, record, (*field)->offset);
      if (target != NULL && doomed_has (self, (*field)->refers, target))
        return target;
    }
  return NULL;
}

/* Whether records of @type can refer to one of a kind of which some go. */
static gboolean
type_is_touched (const Doomed       *self,
                 const WbRecordType *type)
{
  for (gsize i = 0; i < type->n_fields; i++)
    if (type->fields[i].type == WB_FIELD_REFERENCE && self->ids[type->fields[i].refers] != NULL)
      return TRUE;
  return FALSE;
}

static gboolean
add_owned_of_kind (Doomed *self,
                   WbKind  kind)
{
  gboolean grown = FALSE;
  const WbField *field;

  if (!type_is_touched (self, wb_record_type (kind)))
    return FALSE;
  for (guint i = 0; i < wb_job_count (self->job, kind); i++)
    {
      const WbRecord *record = wb_job_nth (self->job, kind, i);

      if (find_reference (self, record, TRUE, &field) != NULL)
        grown |= doomed_add (self, kind, record->id);
    }
  return grown;
}

/* Until nothing more belongs to what goes. */
static void
add_owned (Doomed *self)
{
  gboolean grown;

  do
    {
      grown = FALSE;
      for (int kind = 0; kind < WB_N_KINDS; kind++)
        grown |= add_owned_of_kind (self, (WbKind) kind);
    }
  while (grown);
}

/* Fails at the first record that stays and would be left with a reference to nothing. */
static gboolean
check_dependents (const Doomed  *self,
                  GError       **error)
{
  const WbField *field;

  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      if (!type_is_touched (self, wb_record_type ((WbKind) kind)))
        continue;
      for (guint i = 0; i < wb_job_count (self->job, (WbKind) kind); i++)
        {
          const WbRecord *record = wb_job_nth (self->job, (WbKind) kind, i);
          const char *target;

          if (doomed_has (self, (WbKind) kind, record->id))
            continue;
          target = find_reference (self, record, FALSE, &field);
          if (target == NULL)
            continue;
          g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE, "%s %s is still needed by %s %s",
                       wb_record_type (field->refers)->name, target, record->type->name,
                       record->id);
          return FALSE;
        }
    }
  return TRUE;
}

static gboolean
add_all (Doomed     *self,
         WbKind      kind,
         GPtrArray  *ids,
         GError    **error)
{
  const WbRecordType *type = wb_record_type (kind);

  if (type->single)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE, "a job always has its %s",
                   type->name);
      return FALSE;
    }
  for (guint i = 0; i < ids->len; i++)
    {
      const char *id = g_ptr_array_index (ids, i);

      if (wb_job_find (self->job, kind, id) == NULL)
        {
          g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING, "the job has no %s %s",
                       type->name, id);
          return FALSE;
        }
      doomed_add (self, kind, id);
    }
  return TRUE;
}

WbJob *
wb_job_without_many (const WbJob  *self,
                     WbKind        kind,
                     GPtrArray    *ids,
                     GError      **error)
{
  g_auto (Doomed) doomed = { self, { NULL } };

  g_return_val_if_fail (self != NULL, NULL);
  g_return_val_if_fail ((guint) kind < WB_N_KINDS, NULL);

  if (!add_all (&doomed, kind, ids, error))
    return NULL;
  add_owned (&doomed);
  if (!check_dependents (&doomed, error))
    return NULL;
  return wb_job_leave_out (self, doomed.ids);
}

WbJob *
wb_job_without (const WbJob  *self,
                WbKind        kind,
                const char   *id,
                GError      **error)
{
  g_autoptr (GPtrArray) ids = g_ptr_array_new ();

  g_ptr_array_add (ids, (gpointer) id);
  return wb_job_without_many (self, kind, ids, error);
}
