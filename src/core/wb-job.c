/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The job file as an immutable value. Each kind of record lives in a set that is shared between
 * versions of the job until an edit touches that kind. What records say together (governing weight,
 * waiver) stands in wb-job-facts.c. */
#include "core/wb-job-private.h"

#include <string.h>

#include "core/wb-contact.h"
#include "core/wb-core.h"
#include "core/wb-photo.h"

/* The records of one kind, in order, with their places by id. Never changed once a job holds it. A
 * version that only replaces records has the same places as the one before it, so the two share the
 * table. */
typedef struct
{
  gatomicrefcount  references;
  GPtrArray       *records;
  GHashTable      *places;         /* id → place */
  gboolean         places_shared;  /* another set looks at them too */
} Set;

struct _WbJob
{
  gatomicrefcount  references;
  char            *id;
  char             currency[4];
  gint64           revision;
  Set             *sets[WB_N_KINDS];
};

G_DEFINE_BOXED_TYPE (WbJob, wb_job, wb_job_ref, wb_job_unref)

/* --- sets ------------------------------------------------------------------------------------- */

static Set *
set_new (guint reserve)
{
  Set *set = g_new0 (Set, 1);

  g_atomic_ref_count_init (&set->references);
  set->records = g_ptr_array_new_full (reserve, wb_record_unref);
  set->places = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  return set;
}

static Set *
set_ref (Set *set)
{
  g_atomic_ref_count_inc (&set->references);
  return set;
}

static void
set_unref (Set *set)
{
  if (set == NULL || !g_atomic_ref_count_dec (&set->references))
    return;
  g_hash_table_unref (set->places);
  g_ptr_array_unref (set->records);
  g_free (set);
}

static gint
set_index (const Set  *set,
           const char *id)
{
  gpointer place;

  if (id == NULL || !g_hash_table_lookup_extended (set->places, id, NULL, &place))
    return -1;
  return GPOINTER_TO_INT (place);
}

static void
set_unshare_places (Set *set)
{
  if (!set->places_shared)
    return;
  g_hash_table_unref (set->places);
  set->places = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; i < set->records->len; i++)
    g_hash_table_insert (set->places,
                         g_strdup (((WbRecord *) g_ptr_array_index (set->records, i))->id),
                         GINT_TO_POINTER ((gint) i));
  set->places_shared = FALSE;
}

/* Replaces the record of the same id or appends. Only on a set that no job holds yet. */
static void
set_put (Set      *set,
         gpointer  record)
{
  WbRecord *fresh = wb_record_ref (record);
  gint place = set_index (set, fresh->id);

  if (place >= 0)
    {
      wb_record_unref (g_ptr_array_index (set->records, place));
      g_ptr_array_index (set->records, place) = fresh;
      return;
    }
  set_unshare_places (set);
  g_hash_table_insert (set->places, g_strdup (fresh->id),
                       GINT_TO_POINTER ((gint) set->records->len));
  g_ptr_array_add (set->records, fresh);
}

static Set *
set_copy (const Set *from)
{
  Set *set = g_new0 (Set, 1);

  g_atomic_ref_count_init (&set->references);
  set->records = g_ptr_array_new_full (from->records->len + 1, wb_record_unref);
  for (guint i = 0; i < from->records->len; i++)
    g_ptr_array_add (set->records, wb_record_ref (g_ptr_array_index (from->records, i)));
  set->places = g_hash_table_ref (from->places);
  set->places_shared = TRUE;
  return set;
}

/* --- life ------------------------------------------------------------------------------------- */

WbJob *
wb_job_new (const char *id,
            const char *currency)
{
  WbJob *self;

  g_return_val_if_fail (wb_record_id_is_valid (id), NULL);
  g_return_val_if_fail (wb_currency_digits (currency) >= 0, NULL);

  self = g_new0 (WbJob, 1);
  g_atomic_ref_count_init (&self->references);
  self->id = g_strdup (id);
  g_strlcpy (self->currency, currency, sizeof self->currency);
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      const WbRecordType *type = wb_record_type ((WbKind) kind);

      self->sets[kind] = set_new (type->single ? 1 : 0);
      if (type->single)
        {
          g_autoptr (WbRecord) record = wb_record_new ((WbKind) kind, type->name);

          set_put (self->sets[kind], record);
        }
    }
  return self;
}

WbJob *
wb_job_ref (WbJob *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  g_atomic_ref_count_inc (&self->references);
  return self;
}

void
wb_job_unref (WbJob *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->references))
    return;
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    set_unref (self->sets[kind]);
  g_free (self->id);
  g_free (self);
}

/* A copy that shares every set; the caller replaces those it changes before giving the job away. */
static WbJob *
job_share (const WbJob *from)
{
  WbJob *self = g_new0 (WbJob, 1);

  g_atomic_ref_count_init (&self->references);
  self->id = g_strdup (from->id);
  memcpy (self->currency, from->currency, sizeof self->currency);
  self->revision = from->revision;
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    self->sets[kind] = set_ref (from->sets[kind]);
  return self;
}

static void
job_take_set (WbJob  *self,
              WbKind  kind,
              Set    *set)
{
  set_unref (self->sets[kind]);
  self->sets[kind] = set;
}

const char *
wb_job_get_id (const WbJob *self)
{
  return self->id;
}

const char *
wb_job_get_currency (const WbJob *self)
{
  return self->currency;
}

gint64
wb_job_get_revision (const WbJob *self)
{
  return self->revision;
}

WbJob *
wb_job_with_revision (const WbJob *self,
                      gint64       revision)
{
  WbJob *job = job_share (self);

  job->revision = revision;
  return job;
}

WbJob *
wb_job_with_id (const WbJob *self,
                const char  *id)
{
  WbJob *job;

  g_return_val_if_fail (wb_record_id_is_valid (id), NULL);

  job = job_share (self);
  g_free (job->id);
  job->id = g_strdup (id);
  job->revision = 0;
  return job;
}

/* --- looking ---------------------------------------------------------------------------------- */

const WbOrder *
wb_job_order (const WbJob *self)
{
  return wb_job_nth (self, WB_KIND_ORDER, 0);
}

const WbValuation *
wb_job_valuation (const WbJob *self)
{
  return wb_job_nth (self, WB_KIND_VALUATION, 0);
}

guint
wb_job_count (const WbJob *self,
              WbKind       kind)
{
  return self->sets[kind]->records->len;
}

gconstpointer
wb_job_nth (const WbJob *self,
            WbKind       kind,
            guint        index)
{
  g_return_val_if_fail (index < self->sets[kind]->records->len, NULL);

  return g_ptr_array_index (self->sets[kind]->records, index);
}

gint
wb_job_index (const WbJob *self,
              WbKind       kind,
              const char  *id)
{
  return set_index (self->sets[kind], id);
}

gconstpointer
wb_job_find (const WbJob *self,
             WbKind       kind,
             const char  *id)
{
  gint place = set_index (self->sets[kind], id);

  return place < 0 ? NULL : g_ptr_array_index (self->sets[kind]->records, place);
}

/* --- changing --------------------------------------------------------------------------------- */

WbJob *
wb_job_with_many (const WbJob *self,
                  GPtrArray   *records)
{
  WbJob *job = job_share (self);
  gboolean copied[WB_N_KINDS] = { FALSE };

  for (guint i = 0; i < records->len; i++)
    {
      WbRecord *record = g_ptr_array_index (records, i);
      WbKind kind = record->type->kind;

      if (!copied[kind])
        {
          job_take_set (job, kind, set_copy (self->sets[kind]));
          copied[kind] = TRUE;
        }
      if (record->type->single && strcmp (record->id, record->type->name) != 0)
        {
          g_critical ("a job has one %s; its id is not “%s”", record->type->name, record->id);
          continue;
        }
      set_put (job->sets[kind], record);
    }
  return job;
}

WbJob *
wb_job_with (const WbJob *self,
             gpointer     record)
{
  g_autoptr (GPtrArray) one = g_ptr_array_sized_new (1);

  g_ptr_array_add (one, record);
  return wb_job_with_many (self, one);
}

WbJob *
wb_job_insert (const WbJob *self,
               gpointer     record,
               guint        index)
{
  const WbRecord *fresh = record;
  WbKind kind = fresh->type->kind;
  const GPtrArray *old = self->sets[kind]->records;
  WbJob *job;
  Set *set;

  g_return_val_if_fail (!fresh->type->single && wb_job_find (self, kind, fresh->id) == NULL, NULL);

  set = set_new (old->len + 1);
  for (guint i = 0; i < old->len; i++)
    {
      if (i == index)
        set_put (set, record);
      set_put (set, g_ptr_array_index (old, i));
    }
  set_put (set, record);

  job = job_share (self);
  job_take_set (job, kind, set);
  return job;
}

WbJob *
wb_job_move (WbJob      *self,
             WbKind      kind,
             const char *id,
             guint       index)
{
  const GPtrArray *old = self->sets[kind]->records;
  gint before = wb_job_index (self, kind, id);
  g_autoptr (GPtrArray) order = NULL;
  WbJob *job;
  Set *set;

  index = MIN (index, old->len > 0 ? old->len - 1 : 0);
  if (before < 0 || (guint) before == index)
    return wb_job_ref (self);

  order = g_ptr_array_new ();
  for (guint i = 0; i < old->len; i++)
    if (i != (guint) before)
      g_ptr_array_add (order, g_ptr_array_index (old, i));
  g_ptr_array_insert (order, (gint) index, g_ptr_array_index (old, before));

  set = set_new (old->len);
  for (guint i = 0; i < order->len; i++)
    set_put (set, g_ptr_array_index (order, i));
  job = job_share (self);
  job_take_set (job, kind, set);
  return job;
}

static Set *
set_without (const Set  *from,
             GHashTable *ids)
{
  Set *set = set_new (from->records->len);

  for (guint i = 0; i < from->records->len; i++)
    {
      WbRecord *record = g_ptr_array_index (from->records, i);

      if (!g_hash_table_contains (ids, record->id))
        set_put (set, record);
    }
  return set;
}

WbJob *
wb_job_leave_out (const WbJob       *self,
                  GHashTable *const *doomed)
{
  WbJob *job = job_share (self);

  for (int kind = 0; kind < WB_N_KINDS; kind++)
    if (doomed[kind] != NULL)
      job_take_set (job, (WbKind) kind, set_without (self->sets[kind], doomed[kind]));
  return job;
}

/* --- checking --------------------------------------------------------------------------------- */

static gboolean
check_references (const WbJob     *self,
                  const WbRecord  *record,
                  GError         **error)
{
  for (gsize i = 0; i < record->type->n_fields; i++)
    {
      const WbField *field = &record->type->fields[i];
      const char *target;

      if (field->type != WB_FIELD_REFERENCE)
        continue;
      target = G_STRUCT_MEMBER (const char *, record, field->offset);
      if (target == NULL || wb_job_find (self, field->refers, target) != NULL)
        continue;
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                   "%s %s, %s: there is no %s “%s” in this job",
                   record->type->name, record->id, field->name,
                   wb_record_type (field->refers)->name, target);
      return FALSE;
    }
  return TRUE;
}

/* A weight ticket whose three figures are all there must add up. */
static gboolean
check_weighing (const WbWeighing  *weighing,
                GError           **error)
{
  WbWeight net;

  if (!wb_weight_is_set (weighing->gross) || !wb_weight_is_set (weighing->tare) ||
      !wb_weight_is_set (weighing->net))
    return TRUE;
  if (!wb_weight_subtract (weighing->gross, weighing->tare, &net, error))
    return FALSE;
  if (net.grains == weighing->net.grains)
    return TRUE;
  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
               "weighing %s, net: the net weight is not the gross weight less the tare",
               weighing->record.id);
  return FALSE;
}

/* Line numbers are unique within their claim: they are what people call a line. */
static gboolean
check_line_numbers (const WbJob  *self,
                    GError      **error)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < wb_job_count (self, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *line = wb_job_nth (self, WB_KIND_CLAIM_LINE, i);
      char *key = g_strdup_printf ("%s/%" G_GINT64_FORMAT, line->claim, line->number);

      if (!g_hash_table_add (seen, key))
        {
          g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                       "claim_line %s, number: the claim has two lines numbered %" G_GINT64_FORMAT,
                       line->record.id, line->number);
          return FALSE;
        }
    }
  return TRUE;
}

gboolean
wb_job_check (const WbJob  *self,
              GError      **error)
{
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    for (guint i = 0; i < wb_job_count (self, (WbKind) kind); i++)
      {
        const WbRecord *record = wb_job_nth (self, (WbKind) kind, i);

        if (!wb_record_check (record, self->currency, error) ||
            !check_references (self, record, error))
          return FALSE;
        if (kind == WB_KIND_WEIGHING && !check_weighing ((const WbWeighing *) record, error))
          return FALSE;
        if (kind == WB_KIND_CONTACT && !wb_contact_check ((const WbContact *) record, error))
          return FALSE;
        if (kind == WB_KIND_PHOTO && !wb_photo_check ((const WbPhoto *) record, error))
          return FALSE;
      }
  return check_line_numbers (self, error);
}

/* --- comparing -------------------------------------------------------------------------------- */

static gboolean
set_equal (const Set *a,
           const Set *b)
{
  if (a == b)
    return TRUE;
  if (a->records->len != b->records->len)
    return FALSE;
  for (guint i = 0; i < a->records->len; i++)
    if (!wb_record_equal (g_ptr_array_index (a->records, i), g_ptr_array_index (b->records, i)))
      return FALSE;
  return TRUE;
}

gboolean
wb_job_equal (const WbJob *a,
              const WbJob *b)
{
  if (strcmp (a->id, b->id) != 0 || strcmp (a->currency, b->currency) != 0)
    return FALSE;
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    if (!set_equal (a->sets[kind], b->sets[kind]))
      return FALSE;
  return TRUE;
}

static void
add_change (GArray         *changes,
            WbKind          kind,
            const WbRecord *before,
            const WbRecord *after)
{
  WbJobChange change = { kind, before, after };

  g_array_append_val (changes, change);
}

static void
list_removed (GArray    *changes,
              WbKind     kind,
              const Set *from,
              const Set *to)
{
  for (guint i = 0; i < from->records->len; i++)
    {
      const WbRecord *before = g_ptr_array_index (from->records, i);

      if (set_index (to, before->id) < 0)
        add_change (changes, kind, before, NULL);
    }
}

static void
list_changed_and_added (GArray    *changes,
                        WbKind     kind,
                        const Set *from,
                        const Set *to)
{
  for (guint i = 0; i < to->records->len; i++)
    {
      const WbRecord *after = g_ptr_array_index (to->records, i);
      gint place = set_index (from, after->id);
      const WbRecord *before = place < 0 ? NULL : g_ptr_array_index (from->records, place);

      if (before == NULL || !wb_record_equal (before, after))
        add_change (changes, kind, before, after);
    }
}

GArray *
wb_job_diff (const WbJob *from,
             const WbJob *to)
{
  GArray *changes = g_array_new (FALSE, FALSE, sizeof (WbJobChange));

  for (int kind = 0; kind < WB_N_KINDS; kind++)
    if (from->sets[kind] != to->sets[kind])
      list_removed (changes, (WbKind) kind, from->sets[kind], to->sets[kind]);
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    if (from->sets[kind] != to->sets[kind])
      list_changed_and_added (changes, (WbKind) kind, from->sets[kind], to->sets[kind]);
  return changes;
}
