/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What each of two sides did to one record since the version that both started from. It looks at
 * every record alone; what belongs together is found afterwards. */
#include "core/wb-merge-private.h"

/* Whose change a value is that @mine and @theirs say of it, each "changed since the base". */
static WbMergeSide
side_of (gboolean mine_changed,
         gboolean theirs_changed,
         gboolean alike)
{
  if (alike)
    return WB_MERGE_BOTH_SAME;
  if (mine_changed && theirs_changed)
    return WB_MERGE_CONFLICT;
  return mine_changed ? WB_MERGE_ONLY_MINE : WB_MERGE_ONLY_THEIRS;
}

static void
compare_field (WbMerge        *self,
               const WbField  *field,
               const WbRecord *base,
               const WbRecord *mine,
               const WbRecord *theirs)
{
  gboolean alike = wb_record_field_equal (field, mine, theirs);
  gboolean mine_changed = base == NULL || !wb_record_field_equal (field, base, mine);
  gboolean theirs_changed = base == NULL || !wb_record_field_equal (field, base, theirs);
  WbMergeItem *item;

  if (alike && (base == NULL || !mine_changed))
    return;
  item = wb_merge_add (self, WB_MERGE_FIELD, side_of (mine_changed, theirs_changed, alike),
                       mine->type->kind, mine->id);
  item->field = field;
  item->base = base;
  item->mine = mine;
  item->theirs = theirs;
}

static void
add_record (WbMerge        *self,
            WbMergeSide     side,
            const WbRecord *base,
            const WbRecord *mine,
            const WbRecord *theirs)
{
  const WbRecord *any = mine != NULL ? mine : theirs != NULL ? theirs : base;
  WbMergeItem *item = wb_merge_add (self, WB_MERGE_RECORD, side, any->type->kind, any->id);

  item->base = base;
  item->mine = mine;
  item->theirs = theirs;
}

static void
compare_both (WbMerge        *self,
              const WbRecord *base,
              const WbRecord *mine,
              const WbRecord *theirs)
{
  if (mine == theirs && mine == base)
    return;
  if (base == NULL && wb_record_equal (mine, theirs))
    {
      /* Without a base nobody knows that it was added. */
      if (self->base != NULL)
        add_record (self, WB_MERGE_BOTH_SAME, NULL, mine, theirs);
      return;
    }
  for (gsize i = 0; i < mine->type->n_fields; i++)
    compare_field (self, &mine->type->fields[i], base, mine, theirs);
}

/* Whether a side added, removed or changed a record that one of the two sides has. */
static gboolean
was_changed (const WbRecord *base,
             const WbRecord *side)
{
  if (base == NULL || side == NULL)
    return base != side;
  return !wb_record_equal (base, side);
}

static void
compare_record (WbMerge    *self,
                WbKind      kind,
                const char *id)
{
  const WbRecord *base = self->base != NULL ? wb_job_find (self->base, kind, id) : NULL;
  const WbRecord *mine = wb_job_find (self->mine, kind, id);
  const WbRecord *theirs = wb_job_find (self->theirs, kind, id);

  if (mine != NULL && theirs != NULL)
    compare_both (self, base, mine, theirs);
  else if (mine == NULL && theirs == NULL)
    add_record (self, WB_MERGE_BOTH_SAME, base, NULL, NULL);
  else
    add_record (self, side_of (was_changed (base, mine), was_changed (base, theirs), FALSE), base,
                mine, theirs);
}

void
wb_merge_compare (WbMerge *self)
{
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      for (guint i = 0; i < self->ids[kind]->len; i++)
        compare_record (self, (WbKind) kind, g_ptr_array_index (self->ids[kind], i));
      wb_merge_compare_order (self, (WbKind) kind);
    }
}
