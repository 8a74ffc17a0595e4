/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Merging two jobs: the merge as a whole, its list of differences, its choices, and the job that
 * comes of it. How differences are found stands in wb-merge-compare.c, which of them belong
 * together in wb-merge-link.c, what two records cannot both have in wb-merge-clash.c, the order of
 * lists in wb-merge-order.c. */
#include "core/wb-merge-private.h"

#include <string.h>

#include "core/wb-core.h"

/* --- life ------------------------------------------------------------------------------------- */

static gboolean
check_alike (const WbJob  *a,
             const WbJob  *b,
             GError      **error)
{
  if (strcmp (wb_job_get_id (a), wb_job_get_id (b)) != 0)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                   "“%s” and “%s” are not versions of one job", wb_job_get_id (a),
                   wb_job_get_id (b));
      return FALSE;
    }
  if (strcmp (wb_job_get_currency (a), wb_job_get_currency (b)) != 0)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_CURRENCY,
                   "one version is kept in %s and the other in %s", wb_job_get_currency (a),
                   wb_job_get_currency (b));
      return FALSE;
    }
  return TRUE;
}

static void
collect_ids (GPtrArray   *ids,
             GHashTable  *seen,
             const WbJob *job,
             WbKind       kind)
{
  if (job == NULL)
    return;
  for (guint i = 0; i < wb_job_count (job, kind); i++)
    {
      const WbRecord *record = wb_job_nth (job, kind, i);

      if (g_hash_table_add (seen, record->id))
        g_ptr_array_add (ids, record->id);
    }
}

/* One number for all that is chosen together, none for what stands alone; and a ring of each group,
 * so that choosing looks at no other. */
static void
number_groups (WbMerge *self)
{
  self->nexts = g_new (guint, self->items->len + 1);
  for (guint i = 0; i < self->items->len; i++)
    {
      WbMergeItem *item = g_ptr_array_index (self->items, i);
      guint leader = wb_merge_leader (self, i);

      self->nexts[i] = i;
      if (leader == i)
        continue;
      /* The leader has the smallest index, and is in its ring by now. */
      self->nexts[i] = self->nexts[leader];
      self->nexts[leader] = i;
      item->group = leader + 1;
      ((WbMergeItem *) g_ptr_array_index (self->items, leader))->group = leader + 1;
    }
}

WbMerge *
wb_merge_new (WbJob   *base,
              WbJob   *mine,
              WbJob   *theirs,
              GError **error)
{
  WbMerge *self;

  g_return_val_if_fail (mine != NULL && theirs != NULL, NULL);

  if (!check_alike (mine, theirs, error) || (base != NULL && !check_alike (base, mine, error)))
    return NULL;

  self = g_new0 (WbMerge, 1);
  self->base = base != NULL ? wb_job_ref (base) : NULL;
  self->mine = wb_job_ref (mine);
  self->theirs = wb_job_ref (theirs);
  self->items = g_ptr_array_new_with_free_func (g_free);
  self->links = g_array_new (FALSE, FALSE, sizeof (guint));
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

      self->ids[kind] = g_ptr_array_new ();
      self->firsts[kind] = g_hash_table_new (g_str_hash, g_str_equal);
      collect_ids (self->ids[kind], seen, base, (WbKind) kind);
      collect_ids (self->ids[kind], seen, mine, (WbKind) kind);
      collect_ids (self->ids[kind], seen, theirs, (WbKind) kind);
    }

  wb_merge_compare (self);
  wb_merge_link (self);
  wb_merge_find_clashes (self);
  number_groups (self);
  return self;
}

void
wb_merge_free (WbMerge *self)
{
  if (self == NULL)
    return;
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      g_ptr_array_unref (self->ids[kind]);
      g_hash_table_unref (self->firsts[kind]);
    }
  g_ptr_array_unref (self->items);
  g_array_unref (self->links);
  g_free (self->nexts);
  g_clear_pointer (&self->base, wb_job_unref);
  wb_job_unref (self->mine);
  wb_job_unref (self->theirs);
  g_free (self);
}

/* --- items ------------------------------------------------------------------------------------ */

WbMergeItem *
wb_merge_add (WbMerge     *self,
              WbMergeWhat  what,
              WbMergeSide  side,
              WbKind       kind,
              const char  *id)
{
  WbMergeItem *item = g_new0 (WbMergeItem, 1);
  guint index = self->items->len;

  item->what = what;
  item->side = side;
  item->kind = kind;
  item->id = id;
  if ((what == WB_MERGE_FIELD || what == WB_MERGE_RECORD) &&
      !g_hash_table_contains (self->firsts[kind], id))
    g_hash_table_insert (self->firsts[kind], (gpointer) id, GUINT_TO_POINTER (index));
  g_ptr_array_add (self->items, item);
  g_array_append_val (self->links, index);
  return item;
}

guint
wb_merge_leader (const WbMerge *self,
                 guint          index)
{
  while (g_array_index (self->links, guint, index) != index)
    index = g_array_index (self->links, guint, index);
  return index;
}

guint
wb_merge_items_of (const WbMerge *self,
                   WbKind         kind,
                   const char    *id,
                   guint         *n)
{
  gpointer value;
  guint first, next;

  *n = 0;
  if (!g_hash_table_lookup_extended (self->firsts[kind], id, NULL, &value))
    return 0;
  first = next = GPOINTER_TO_UINT (value);
  while (next < self->items->len)
    {
      const WbMergeItem *item = g_ptr_array_index (self->items, next);

      if (item->kind != kind || (item->what != WB_MERGE_FIELD && item->what != WB_MERGE_RECORD) ||
          strcmp (item->id, id) != 0)
        break;
      next++;
    }
  *n = next - first;
  return first;
}

guint
wb_merge_count (const WbMerge *self)
{
  return self->items->len;
}

const WbMergeItem *
wb_merge_nth (const WbMerge *self,
              guint          index)
{
  g_return_val_if_fail (index < self->items->len, NULL);

  return g_ptr_array_index (self->items, index);
}

char *
wb_merge_item_text (const WbMergeItem *item,
                    WbMergeChoice      whose)
{
  const WbRecord *record = NULL;

  g_return_val_if_fail (item->field != NULL, NULL);

  switch (whose)
    {
    case WB_MERGE_UNDECIDED:
      record = item->base;
      break;
    case WB_MERGE_MINE:
      record = item->mine;
      break;
    case WB_MERGE_THEIRS:
      record = item->theirs;
      break;
    }
  if (record == NULL || !wb_record_field_is_set (item->field, record))
    return g_strdup ("");
  return wb_record_get_text (record, item->field);
}

void
wb_merge_choose (WbMerge       *self,
                 guint          index,
                 WbMergeChoice  choice)
{
  guint at = index;

  g_return_if_fail (index < self->items->len);
  g_return_if_fail (wb_merge_nth (self, index)->side == WB_MERGE_CONFLICT);

  do
    {
      WbMergeItem *item = g_ptr_array_index (self->items, at);

      if (item->side == WB_MERGE_CONFLICT)
        item->choice = choice;
      at = self->nexts[at];
    }
  while (at != index);
}

guint
wb_merge_n_undecided (const WbMerge *self)
{
  guint n = 0;

  for (guint i = 0; i < self->items->len; i++)
    {
      const WbMergeItem *item = g_ptr_array_index (self->items, i);

      if (item->side == WB_MERGE_CONFLICT && item->choice == WB_MERGE_UNDECIDED)
        n++;
    }
  return n;
}

/* --- one record of the result ----------------------------------------------------------------- */

static gboolean
takes_mine (const WbMergeItem *item,
            WbMergeChoice      pick)
{
  switch (item->side)
    {
    case WB_MERGE_ONLY_MINE:
    case WB_MERGE_BOTH_SAME:
      return TRUE;
    case WB_MERGE_ONLY_THEIRS:
      return FALSE;
    case WB_MERGE_CONFLICT:
      return (item->choice != WB_MERGE_UNDECIDED ? item->choice : pick) == WB_MERGE_MINE;
    }
  g_assert_not_reached ();
}

WbRecord *
wb_merge_compose (const WbMerge *self,
                  WbKind         kind,
                  const char    *id,
                  WbMergeChoice  pick)
{
  guint n;
  guint first = wb_merge_items_of (self, kind, id, &n);
  const WbRecord *mine = wb_job_find (self->mine, kind, id);
  const WbRecord *theirs = wb_job_find (self->theirs, kind, id);
  const WbMergeItem *item = n > 0 ? wb_merge_nth (self, first) : NULL;
  WbRecord *record;

  if (item != NULL && item->what == WB_MERGE_RECORD)
    mine = takes_mine (item, pick) ? mine : theirs;
  if (mine == NULL)
    return NULL;
  if (item == NULL || item->what == WB_MERGE_RECORD)
    return wb_record_ref ((gpointer) mine);

  record = wb_record_copy (mine);
  for (guint i = first; i < first + n; i++)
    {
      item = wb_merge_nth (self, i);
      if (!takes_mine (item, pick))
        wb_record_copy_field (record, item->field, theirs);
    }
  /* Jobs that share a record are compared the faster. */
  if (wb_record_equal (record, mine))
    {
      wb_record_unref (record);
      return wb_record_ref ((gpointer) mine);
    }
  return record;
}

/* --- the result ------------------------------------------------------------------------------- */

static void
compose_all (const WbMerge  *self,
             GHashTable    **records)
{
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      records[kind] = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, wb_record_unref);
      for (guint i = 0; i < self->ids[kind]->len; i++)
        {
          const char *id = g_ptr_array_index (self->ids[kind], i);
          WbRecord *record = wb_merge_compose (self, (WbKind) kind, id, WB_MERGE_MINE);

          if (record != NULL)
            g_hash_table_insert (records[kind], (gpointer) id, record);
        }
    }
}

static gboolean
refers_to_nothing (GHashTable *const *records,
                   const WbRecord    *record,
                   const WbField     *field)
{
  const char *target;

  if (field->type != WB_FIELD_REFERENCE)
    return FALSE;
  target = G_STRUCT_MEMBER (const char *, record, field->offset);
  return target != NULL && !g_hash_table_contains (records[field->refers], target);
}

/* Returns: (transfer full) (nullable): @record with what it can be without taken away; %NULL when
 * it names what it cannot be without. */
static WbRecord *
without_dangling (GHashTable *const *records,
                  WbRecord          *record)
{
  WbRecord *fresh = wb_record_ref (record);

  for (gsize i = 0; i < record->type->n_fields; i++)
    {
      const WbField *field = &record->type->fields[i];

      if (!refers_to_nothing (records, fresh, field))
        continue;
      if ((field->flags & (WB_FIELD_REQUIRED | WB_FIELD_OWNER)) != 0)
        {
          wb_record_unref (fresh);
          return NULL;
        }
      if (fresh == record)
        {
          wb_record_unref (fresh);
          fresh = wb_record_copy (record);
        }
      wb_set_text (&G_STRUCT_MEMBER (char *, fresh, field->offset), NULL);
    }
  return fresh;
}

static gboolean
mend_kind (GHashTable **records,
           WbKind       kind)
{
  gboolean dropped = FALSE;
  GHashTableIter iter;
  gpointer record;

  g_hash_table_iter_init (&iter, records[kind]);
  while (g_hash_table_iter_next (&iter, NULL, &record))
    {
      g_autoptr (WbRecord) fresh = without_dangling (records, record);

      if (fresh == NULL)
        {
          g_hash_table_iter_remove (&iter);
          dropped = TRUE;
        }
      else if (fresh != record)
        g_hash_table_iter_replace (&iter, g_steal_pointer (&fresh));
    }
  return dropped;
}

/* Until nothing that stays names what is gone. */
static void
mend_references (GHashTable **records)
{
  gboolean dropped;

  do
    {
      dropped = FALSE;
      for (int kind = 0; kind < WB_N_KINDS; kind++)
        dropped |= mend_kind (records, (WbKind) kind);
    }
  while (dropped);
}

static WbJob *
assemble (const WbMerge      *self,
          GHashTable *const  *records)
{
  g_autoptr (GPtrArray) all = g_ptr_array_new ();
  g_autoptr (WbJob) empty = NULL;
  g_autoptr (WbJob) job = NULL;

  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      g_autoptr (GPtrArray) order = wb_merge_arrange (self, (WbKind) kind, records[kind]);

      for (guint i = 0; i < order->len; i++)
        g_ptr_array_add (all, g_hash_table_lookup (records[kind], g_ptr_array_index (order, i)));
    }
  empty = wb_job_new (wb_job_get_id (self->mine), wb_job_get_currency (self->mine));
  job = wb_job_with_many (empty, all);
  return wb_job_with_revision (job, wb_job_get_revision (self->mine));
}

WbJob *
wb_merge_result (const WbMerge  *self,
                 GError        **error)
{
  GHashTable *records[WB_N_KINDS];
  guint undecided = wb_merge_n_undecided (self);
  g_autoptr (WbJob) job = NULL;

  if (undecided > 0)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                   "%u of the differences are not decided", undecided);
      return NULL;
    }

  compose_all (self, records);
  mend_references (records);
  wb_merge_settle_clashes (self, records);
  job = assemble (self, records);
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    g_hash_table_unref (records[kind]);

  return wb_job_check (job, error) ? g_steal_pointer (&job) : NULL;
}
