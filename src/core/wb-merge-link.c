/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which differences are chosen together. Three things bind them: fields that only have a meaning
 * together, records that are one whole for their owner, and references, when one side removed what
 * the other still works with. What is bound to a conflict becomes part of it. */
#include "core/wb-merge-private.h"

#include <string.h>

/* --- what belongs together -------------------------------------------------------------------- */

/* Each row: fields of one kind, to be taken from one side. Most are what one paper says or what one
 * person signed; an address, a span of days, a figure and the reason for it. */
typedef struct
{
  WbKind      kind;
  const char *names[12];
} Together;

static const Together together[] = {
  { WB_KIND_ORDER, { "move_type", "region", "terms" } },
  { WB_KIND_ORDER, { "pickup_from", "pickup_to" } },
  { WB_KIND_ORDER, { "delivery_from", "delivery_to", "guaranteed", "per_diem" } },
  { WB_KIND_ORDER, { "storage_from", "storage_to", "storage_days" } },
  { WB_KIND_ORDER, { "estimate_kind", "estimate", "estimated_on", "estimated_weight" } },
  { WB_KIND_ORDER, { "insurance", "insurance_premium" } },
  { WB_KIND_ORDER, { "minimum_charge", "minimum_weight" } },
  { WB_KIND_VALUATION, { "choice", "declared_value", "deductible", "charge", "signed_by",
                         "signed_on", "signed_how", "disclosure" } },
  { WB_KIND_VALUATION, { "high_value_list", "high_value_signed_on", "high_value_signed_by" } },
  { WB_KIND_PARTY, { "street", "city", "region", "postal_code", "country" } },
  { WB_KIND_STOP, { "street", "city", "region", "postal_code", "country" } },
  { WB_KIND_STOP, { "on", "until", "hours" } },
  { WB_KIND_WEIGHING, { "on", "scale", "ticket", "gross", "tare", "net", "weighed_by" } },
  { WB_KIND_LOT, { "colour", "number" } },
  { WB_KIND_LOT, { "first", "last" } },
  { WB_KIND_PIECE, { "lot", "tag" } },
  { WB_KIND_PIECE, { "form", "carton" } },
  { WB_KIND_PIECE, { "packed_by", "packer", "packed_on" } },
  { WB_KIND_HANDOVER, { "from_holder", "from_signed" } },
  { WB_KIND_HANDOVER, { "to_holder", "to_signed" } },
  { WB_KIND_HANDOVER, { "count", "counted_by" } },
  { WB_KIND_FINDING, { "handover", "piece" } },
  { WB_KIND_FINDING, { "found", "marks" } },
  { WB_KIND_CLAIM, { "status", "decided_on" } },
  { WB_KIND_CLAIM, { "received_on", "notice_only" } },
  { WB_KIND_CLAIM_LINE, { "claim", "number" } },
  { WB_KIND_CLAIM_LINE, { "proposed", "verdict", "verdict_reason" } },
  { WB_KIND_CLAIM_LINE, { "ruling", "ruling_reason", "defence" } },
  { WB_KIND_CLAIM_LINE, { "loss", "repair", "appearance" } },
  { WB_KIND_CLAIM_LINE, { "salvage", "salvage_taken", "salvage_lot", "salvage_sold",
                          "salvage_on" } },
  { WB_KIND_CLAIM_LINE, { "category", "depreciation_yearly", "depreciation_flat",
                          "depreciation_least" } },
  { WB_KIND_PAYMENT, { "claim", "claim_line", "on", "amount", "deductible_taken",
                       "freight_refund" } },
  { WB_KIND_THING, { "piece", "description", "quantity", "value", "weight" } },
  { WB_KIND_PACKING_CHECK, { "piece", "rule" } },
  { WB_KIND_PACKING_CHECK, { "state", "by", "on" } },
  { WB_KIND_PHOTO, { "hash", "name", "media_type", "size", "width", "height", "orientation",
                     "taken_at", "taken_offset", "camera", "imported_at" } },
  { WB_KIND_PIN, { "photo", "piece", "x", "y", "marks" } },
  { WB_KIND_CONTACT, { "on", "at" } },
  { WB_KIND_PAPER, { "kind", "number" } },
  { WB_KIND_PAPER, { "signed_by", "signed_on" } },
  { WB_KIND_TALLY, { "handover", "lot", "tags" } },
  { WB_KIND_STEP, { "claim", "kind", "on", "amount", "who", "by", "frozen", "letter", "text" } },
  { WB_KIND_QUOTE, { "claim_line", "kind", "source", "on", "amount", "taken" } },
  { WB_KIND_SHARE, { "claim_line", "handler", "percent", "reason" } },
  { WB_KIND_CHARGE, { "claim", "handler", "amount", "stated_on", "statement" } },
  { WB_KIND_CHARGE, { "recovered", "recovered_on" } },
};

guint
wb_merge_field_group (WbKind         kind,
                      const WbField *field)
{
  for (guint row = 0; row < G_N_ELEMENTS (together); row++)
    {
      if (together[row].kind != kind)
        continue;
      for (guint i = 0; i < G_N_ELEMENTS (together[row].names); i++)
        if (g_strcmp0 (together[row].names[i], field->name) == 0)
          return row + 1;
    }
  return 0;
}

const char *
wb_merge_set_owner (WbKind kind)
{
  /* The shares of a line come to 100 %. */
  return kind == WB_KIND_SHARE ? "claim_line" : NULL;
}

/* --- binding ---------------------------------------------------------------------------------- */

static WbMergeItem *
item_at (const WbMerge *self,
         guint          index)
{
  return g_ptr_array_index (self->items, index);
}

static gboolean
make_conflict (WbMergeItem *item)
{
  if (item->side == WB_MERGE_CONFLICT || item->side == WB_MERGE_BOTH_SAME)
    return FALSE;
  item->side = WB_MERGE_CONFLICT;
  return TRUE;
}

/* Both are chosen together from now on. The smaller index leads. */
static gboolean
bind_items (WbMerge *self,
            guint    a,
            guint    b)
{
  guint first = wb_merge_leader (self, a);
  guint second = wb_merge_leader (self, b);
  gboolean changed = make_conflict (item_at (self, a));

  changed |= make_conflict (item_at (self, b));
  if (first == second)
    return changed;
  g_array_index (self->links, guint, MAX (first, second)) = MIN (first, second);
  return TRUE;
}

/* Binds the items of @indexes, all that differ in something that is one whole, if both sides had a
 * part in it. */
static gboolean
bind_if_mixed (WbMerge *self,
               GArray  *indexes)
{
  gboolean sides[WB_MERGE_CONFLICT + 1] = { FALSE };
  gboolean changed = FALSE;

  for (guint i = 0; i < indexes->len; i++)
    sides[item_at (self, g_array_index (indexes, guint, i))->side] = TRUE;
  if (!sides[WB_MERGE_CONFLICT] && !(sides[WB_MERGE_ONLY_MINE] && sides[WB_MERGE_ONLY_THEIRS]))
    return FALSE;
  for (guint i = 0; i < indexes->len; i++)
    changed |= bind_items (self, g_array_index (indexes, guint, 0),
                           g_array_index (indexes, guint, i));
  return changed;
}

/* --- fields ----------------------------------------------------------------------------------- */

/* The items of one record, from @first on, that differ in fields of @group. */
static gboolean
bind_field_group (WbMerge *self,
                  guint    first,
                  guint    n,
                  guint    group)
{
  g_autoptr (GArray) indexes = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = first; i < first + n; i++)
    {
      const WbMergeItem *item = item_at (self, i);

      if (item->side != WB_MERGE_BOTH_SAME &&
          wb_merge_field_group (item->kind, item->field) == group)
        g_array_append_val (indexes, i);
    }
  return bind_if_mixed (self, indexes);
}

static gboolean
bind_fields (WbMerge *self)
{
  gboolean changed = FALSE;
  guint n;

  for (guint i = 0; i < self->items->len; i += MAX (n, 1))
    {
      const WbMergeItem *item = item_at (self, i);

      n = 1;
      if (item->what != WB_MERGE_FIELD)
        continue;
      wb_merge_items_of (self, item->kind, item->id, &n);
      for (guint k = i; k < i + n; k++)
        {
          guint group = wb_merge_field_group (item->kind, item_at (self, k)->field);

          if (group != 0)
            changed |= bind_field_group (self, i, n, group);
        }
    }
  return changed;
}

/* --- sets ------------------------------------------------------------------------------------- */

static void
note_owner (GHashTable     *sets,
            const WbField  *field,
            const WbRecord *record,
            guint           index)
{
  const char *owner = record != NULL ? G_STRUCT_MEMBER (const char *, record, field->offset) : NULL;
  GArray *indexes;

  if (owner == NULL)
    return;
  indexes = g_hash_table_lookup (sets, owner);
  if (indexes == NULL)
    {
      indexes = g_array_new (FALSE, FALSE, sizeof (guint));
      g_hash_table_insert (sets, (gpointer) owner, indexes);
    }
  g_array_append_val (indexes, index);
}

static gboolean
bind_sets_of_kind (WbMerge       *self,
                   WbKind         kind,
                   const WbField *field)
{
  g_autoptr (GHashTable) sets = g_hash_table_new_full (g_str_hash, g_str_equal, NULL,
                                                       (GDestroyNotify) g_array_unref);
  gboolean changed = FALSE;
  GHashTableIter iter;
  gpointer indexes;

  for (guint i = 0; i < self->items->len; i++)
    {
      const WbMergeItem *item = item_at (self, i);

      if (item->kind != kind || item->what == WB_MERGE_ORDER || item->side == WB_MERGE_BOTH_SAME)
        continue;
      note_owner (sets, field, item->base, i);
      note_owner (sets, field, item->mine, i);
      note_owner (sets, field, item->theirs, i);
    }
  g_hash_table_iter_init (&iter, sets);
  while (g_hash_table_iter_next (&iter, NULL, &indexes))
    changed |= bind_if_mixed (self, indexes);
  return changed;
}

static gboolean
bind_sets (WbMerge *self)
{
  gboolean changed = FALSE;

  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      const char *owner = wb_merge_set_owner ((WbKind) kind);

      if (owner != NULL)
        changed |= bind_sets_of_kind (self, (WbKind) kind,
                                      wb_record_type_field (wb_record_type ((WbKind) kind), owner));
    }
  return changed;
}

/* --- references ------------------------------------------------------------------------------- */

/* One look at the references of one side: @here has the records that refer, @there is the side that
 * may have removed what they refer to. */
typedef struct
{
  WbMerge     *merge;
  const WbJob *here;
  const WbJob *there;
  WbMergeSide  only_here;
} Look;

static gboolean
find_record_item (const WbMerge *self,
                  WbKind         kind,
                  const char    *id,
                  guint         *index)
{
  guint n;

  *index = wb_merge_items_of (self, kind, id, &n);
  return n > 0 && item_at (self, *index)->what == WB_MERGE_RECORD;
}

static gboolean
find_field_item (const WbMerge  *self,
                 const WbRecord *record,
                 const WbField  *field,
                 guint          *index)
{
  guint n;
  guint first = wb_merge_items_of (self, record->type->kind, record->id, &n);

  for (*index = first; *index < first + n; ++*index)
    if (item_at (self, *index)->field == field)
      return TRUE;
  return FALSE;
}

static gboolean
needs_target (WbMergeItem    *target,
              const WbRecord *user)
{
  if (target->user == NULL)
    target->user = user;
  return make_conflict (target);
}

/* @record is on this side alone, and refers to @target, which is too. */
static gboolean
bind_lone (Look           *look,
           const WbRecord *record,
           const WbField  *field,
           guint           index,
           guint           target_index)
{
  WbMerge *self = look->merge;
  WbMergeItem *item = item_at (self, index);
  WbMergeItem *target = item_at (self, target_index);
  gboolean removed = target->base != NULL;
  gboolean must = (field->flags & (WB_FIELD_REQUIRED | WB_FIELD_OWNER)) != 0;
  gboolean worked_on = item->side == WB_MERGE_CONFLICT || item->base == NULL;

  /* What belongs to something goes and stays with it. */
  if ((field->flags & WB_FIELD_OWNER) != 0 && target->side == WB_MERGE_CONFLICT)
    return bind_items (self, index, target_index);
  if (!worked_on || (!removed && target->side != WB_MERGE_CONFLICT))
    return FALSE;
  if (!must)
    return removed && needs_target (target, record);
  return (removed && needs_target (target, record)) | bind_items (self, index, target_index);
}

/* @record is on both sides; here it refers to @target, which the other has not. */
static gboolean
bind_shared (Look           *look,
             const WbRecord *record,
             const WbField  *field,
             guint           target_index)
{
  WbMerge *self = look->merge;
  WbMergeItem *target = item_at (self, target_index);
  WbMergeItem *item;
  guint index;

  if (!find_field_item (self, record, field, &index))
    return FALSE;
  item = item_at (self, index);
  if (item->side != WB_MERGE_CONFLICT && item->side != look->only_here)
    return FALSE;
  if (target->base == NULL && target->side != WB_MERGE_CONFLICT)
    return FALSE;
  return (target->base != NULL && needs_target (target, record)) |
         bind_items (self, index, target_index);
}

static gboolean
bind_reference (Look           *look,
                const WbRecord *record,
                const WbField  *field)
{
  const char *id = G_STRUCT_MEMBER (const char *, record, field->offset);
  guint index, target_index;

  if (id == NULL || wb_job_find (look->there, field->refers, id) != NULL ||
      !find_record_item (look->merge, field->refers, id, &target_index))
    return FALSE;
  if (!find_record_item (look->merge, record->type->kind, record->id, &index))
    return bind_shared (look, record, field, target_index);
  return bind_lone (look, record, field, index, target_index);
}

static gboolean
bind_references (Look *look)
{
  gboolean changed = FALSE;

  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      const WbRecordType *type = wb_record_type ((WbKind) kind);

      for (gsize i = 0; i < type->n_fields; i++)
        {
          if (type->fields[i].type != WB_FIELD_REFERENCE)
            continue;
          for (guint k = 0; k < wb_job_count (look->here, (WbKind) kind); k++)
            changed |= bind_reference (look, wb_job_nth (look->here, (WbKind) kind, k),
                                       &type->fields[i]);
        }
    }
  return changed;
}

void
wb_merge_link (WbMerge *self)
{
  Look mine = { self, self->mine, self->theirs, WB_MERGE_ONLY_MINE };
  Look theirs = { self, self->theirs, self->mine, WB_MERGE_ONLY_THEIRS };
  gboolean changed;

  do
    {
      changed = bind_fields (self);
      changed |= bind_sets (self);
      changed |= bind_references (&mine);
      changed |= bind_references (&theirs);
    }
  while (changed);
}
