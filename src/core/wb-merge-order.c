/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The order of the records of one kind after both sides added, removed and moved some. Records that
 * both have stand as the side put them that moved any; what one side added comes after the record
 * that it follows there. */
#include "core/wb-merge-private.h"

#include <string.h>

/* Returns: the ids of @kind in @job's order that both others have as well; @also may be %NULL. */
static GPtrArray *
common_ids (const WbJob *job,
            const WbJob *other,
            const WbJob *also,
            WbKind       kind)
{
  GPtrArray *ids = g_ptr_array_new ();

  for (guint i = 0; i < wb_job_count (job, kind); i++)
    {
      const WbRecord *record = wb_job_nth (job, kind, i);

      if (wb_job_find (other, kind, record->id) != NULL &&
          (also == NULL || wb_job_find (also, kind, record->id) != NULL))
        g_ptr_array_add (ids, record->id);
    }
  return ids;
}

static gboolean
same_ids (const GPtrArray *a,
          const GPtrArray *b)
{
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    if (strcmp (g_ptr_array_index (a, i), g_ptr_array_index (b, i)) != 0)
      return FALSE;
  return TRUE;
}

static gboolean
moved_any (const WbJob *base,
           const WbJob *side,
           const WbJob *other,
           WbKind       kind)
{
  g_autoptr (GPtrArray) before = common_ids (base, side, other, kind);
  g_autoptr (GPtrArray) after = common_ids (side, base, other, kind);

  return !same_ids (before, after);
}

/* The item for a kind whose order differs between the sides, or was changed by both alike. */
void
wb_merge_compare_order (WbMerge *self,
                        WbKind   kind)
{
  g_autoptr (GPtrArray) mine = common_ids (self->mine, self->theirs, NULL, kind);
  g_autoptr (GPtrArray) theirs = common_ids (self->theirs, self->mine, NULL, kind);
  gboolean alike = same_ids (mine, theirs);
  gboolean mine_moved, theirs_moved;
  WbMergeSide side = WB_MERGE_CONFLICT;

  if (self->base == NULL)
    {
      if (!alike)
        wb_merge_add (self, WB_MERGE_ORDER, WB_MERGE_CONFLICT, kind, NULL);
      return;
    }
  mine_moved = moved_any (self->base, self->mine, self->theirs, kind);
  theirs_moved = moved_any (self->base, self->theirs, self->mine, kind);
  if (alike && !mine_moved)
    return;
  if (alike)
    side = WB_MERGE_BOTH_SAME;
  else if (mine_moved != theirs_moved)
    side = mine_moved ? WB_MERGE_ONLY_MINE : WB_MERGE_ONLY_THEIRS;
  wb_merge_add (self, WB_MERGE_ORDER, side, kind, NULL);
}

/* --- arranging -------------------------------------------------------------------------------- */

static gboolean
mine_leads (const WbMerge *self,
            WbKind         kind)
{
  for (guint i = 0; i < self->items->len; i++)
    {
      const WbMergeItem *item = wb_merge_nth (self, i);

      if (item->what == WB_MERGE_ORDER && item->kind == kind)
        return item->side == WB_MERGE_CONFLICT ? item->choice == WB_MERGE_MINE
                                               : item->side != WB_MERGE_ONLY_THEIRS;
    }
  return TRUE;
}

/* What @job alone has, by the common record that it follows ("" at the front): id → GPtrArray of
 * ids in its order. */
static GHashTable *
runs_of (const WbJob *job,
         const WbJob *other,
         WbKind       kind)
{
  GHashTable *runs = g_hash_table_new_full (g_str_hash, g_str_equal, NULL,
                                            (GDestroyNotify) g_ptr_array_unref);
  const char *after = "";

  for (guint i = 0; i < wb_job_count (job, kind); i++)
    {
      const WbRecord *record = wb_job_nth (job, kind, i);
      GPtrArray *run;

      if (wb_job_find (other, kind, record->id) != NULL)
        {
          after = record->id;
          continue;
        }
      run = g_hash_table_lookup (runs, after);
      if (run == NULL)
        {
          run = g_ptr_array_new ();
          g_hash_table_insert (runs, (gpointer) after, run);
        }
      g_ptr_array_add (run, record->id);
    }
  return runs;
}

static void
append_run (GPtrArray       *order,
            GHashTable      *kept,
            const GPtrArray *run)
{
  for (guint i = 0; run != NULL && i < run->len; i++)
    if (g_hash_table_contains (kept, g_ptr_array_index (run, i)))
      g_ptr_array_add (order, g_ptr_array_index (run, i));
}

/* The two sides have no order among them here, so that of the ids makes one that both would get. */
static void
append_runs (GPtrArray       *order,
             GHashTable      *kept,
             const GPtrArray *one,
             const GPtrArray *other)
{
  gboolean turned = one != NULL && other != NULL &&
                    strcmp (g_ptr_array_index (one, 0), g_ptr_array_index (other, 0)) > 0;

  append_run (order, kept, turned ? other : one);
  append_run (order, kept, turned ? one : other);
}

GPtrArray *
wb_merge_arrange (const WbMerge *self,
                  WbKind         kind,
                  GHashTable    *kept)
{
  gboolean lead = mine_leads (self, kind);
  g_autoptr (GPtrArray) common = common_ids (lead ? self->mine : self->theirs,
                                             lead ? self->theirs : self->mine, NULL, kind);
  g_autoptr (GHashTable) mine = runs_of (self->mine, self->theirs, kind);
  g_autoptr (GHashTable) theirs = runs_of (self->theirs, self->mine, kind);
  GPtrArray *order = g_ptr_array_new ();

  append_runs (order, kept, g_hash_table_lookup (mine, ""), g_hash_table_lookup (theirs, ""));
  for (guint i = 0; i < common->len; i++)
    {
      const char *id = g_ptr_array_index (common, i);

      if (g_hash_table_contains (kept, id))
        g_ptr_array_add (order, (gpointer) id);
      append_runs (order, kept, g_hash_table_lookup (mine, id), g_hash_table_lookup (theirs, id));
    }
  return order;
}
