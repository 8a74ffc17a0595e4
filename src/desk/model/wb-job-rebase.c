/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Merges two edits of one job by fields. Only looks at the three values given; decides nothing that
 * a person should decide. */
#include "config.h"

#include "desk/model/wb-job-rebase.h"

static void
take (WbJob **job,
      WbJob  *changed)
{
  wb_job_unref (*job);
  *job = changed;
}

/* Brings back, from mine, records that @record refers to and that @job lacks. */
static void
bring_referred (WbJob          **job,
                WbJob           *mine,
                const WbRecord  *record)
{
  for (gsize i = 0; i < record->type->n_fields; i++)
    {
      const WbField *field = &record->type->fields[i];
      const char *id;
      gconstpointer referred;

      if (field->type != WB_FIELD_REFERENCE)
        continue;

      id = G_STRUCT_MEMBER (const char *, record, field->offset);
      if (id == NULL || wb_job_find (*job, field->refers, id) != NULL)
        continue;

      referred = wb_job_find (mine, field->refers, id);
      if (referred == NULL)
        continue;

      take (job, wb_job_with (*job, (gpointer) referred));
      bring_referred (job, mine, referred);
    }
}

/* Text in and out is the one way to carry a field of any type from one record to another. */
static void
copy_changed_fields (gpointer        target,
                     const WbRecord *before,
                     const WbRecord *after,
                     const char     *currency)
{
  for (gsize i = 0; i < after->type->n_fields; i++)
    {
      const WbField *field = &after->type->fields[i];
      g_autofree char *text = NULL;

      if (wb_record_field_equal (field, before, after))
        continue;

      text = wb_record_get_text (after, field);
      if (!wb_record_set_text (target, field, text, currency, NULL))
        g_warning ("A value of %s could not be carried over", field->name);
    }
}

static void
put_changed (WbJob             **job,
             WbJob              *mine,
             const WbJobChange  *change)
{
  gconstpointer their_record = wb_job_find (*job, change->kind, change->after->id);
  g_autoptr (WbRecord) merged = NULL;

  if (their_record == NULL || change->before == NULL)
    {
      take (job, wb_job_with (*job, (gpointer) change->after));
      bring_referred (job, mine, change->after);
      return;
    }

  merged = wb_record_copy (their_record);
  copy_changed_fields (merged, change->before, change->after, wb_job_get_currency (*job));
  take (job, wb_job_with (*job, merged));
  bring_referred (job, mine, merged);
}

static void
put_removed (WbJob             **job,
             const WbJobChange  *change)
{
  WbJob *without;

  if (wb_job_find (*job, change->kind, change->before->id) == NULL)
    return;

  without = wb_job_without (*job, change->kind, change->before->id, NULL);
  if (without != NULL)
    take (job, without);
}

/* Whether the records that both have come in the same order. */
static gboolean
same_order (const WbJob *a,
            const WbJob *b,
            WbKind       kind)
{
  gint last = -1;

  for (guint i = 0; i < wb_job_count (a, kind); i++)
    {
      const WbRecord *record = wb_job_nth (a, kind, i);
      gint index = wb_job_index (b, kind, record->id);

      if (index < 0)
        continue;
      if (index < last)
        return FALSE;
      last = index;
    }

  return TRUE;
}

/* Moves the records that mine has to the front, in mine's order. Only for kinds that nothing refers
 * to, since a record is moved by taking it out and putting it in. */
static void
put_order (WbJob  **job,
           WbJob   *mine,
           WbKind   kind)
{
  guint place = 0;

  for (guint i = 0; i < wb_job_count (mine, kind); i++)
    {
      const WbRecord *record = wb_job_nth (mine, kind, i);
      g_autoptr (WbRecord) moved = NULL;
      g_autoptr (WbJob) without = NULL;
      gconstpointer current = wb_job_find (*job, kind, record->id);

      if (current == NULL)
        continue;

      moved = wb_record_ref ((gpointer) current);
      without = wb_job_without (*job, kind, record->id, NULL);
      if (without != NULL)
        take (job, wb_job_insert (without, moved, place));
      place++;
    }
}

WbJob *
wb_job_rebase (WbJob *base,
               WbJob *mine,
               WbJob *theirs)
{
  static const WbKind ordered[] = { WB_KIND_STOP, WB_KIND_PARTY };
  g_autoptr (GArray) changes = NULL;
  WbJob *job;

  if (wb_job_equal (base, theirs))
    return wb_job_ref (mine);

  changes = wb_job_diff (base, mine);
  job = wb_job_ref (theirs);

  for (guint i = 0; i < changes->len; i++)
    {
      const WbJobChange *change = &g_array_index (changes, WbJobChange, i);

      if (change->after != NULL)
        put_changed (&job, mine, change);
    }

  for (guint i = 0; i < changes->len; i++)
    {
      const WbJobChange *change = &g_array_index (changes, WbJobChange, i);

      if (change->after == NULL)
        put_removed (&job, change);
    }

  for (guint i = 0; i < G_N_ELEMENTS (ordered); i++)
    if (!same_order (base, mine, ordered[i]))
      put_order (&job, mine, ordered[i]);

  return job;
}
