/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keeps a list of items in step with the records of a job. Compares by id and by pointer, so that
 * an edit of one record among thousands costs one walk and one notification. Does not change the
 * job. */
#include "config.h"

#include "desk/model/wb-record-list.h"

#include "desk/model/wb-record-item-private.h"

/* So many runs of added and removed records are told one by one: whoever shows them keeps all that
 * lies between. More of them are told as one exchange. */
#define MOST_RUNS 16

struct _WbRecordList
{
  GObject     parent_instance;

  WbKind      kind;
  GPtrArray  *items;
  GHashTable *by_id;   /* id, owned here → item, borrowed from items */
};

static void list_model_init (GListModelInterface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (WbRecordList, wb_record_list, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, list_model_init))

static const char *
item_id (WbRecordItem *item)
{
  const WbRecord *record = wb_record_item_get_record (item);

  return record->id;
}

static const char *
nth_id (const WbJob *job,
        WbKind       kind,
        guint        index)
{
  const WbRecord *record = wb_job_nth (job, kind, index);

  return record->id;
}

static gboolean
is_same (WbRecordList *self,
         guint         position,
         const WbJob  *job,
         guint         index)
{
  WbRecordItem *item = g_ptr_array_index (self->items, position);
  gconstpointer record = wb_job_nth (job, self->kind, index);

  return wb_record_item_get_record (item) == record ||
         g_str_equal (item_id (item), ((const WbRecord *) record)->id);
}

static gboolean
is_gone (WbRecordList *self,
         guint         position,
         const WbJob  *job)
{
  return wb_job_find (job, self->kind, item_id (g_ptr_array_index (self->items, position))) == NULL;
}

static void
forget_range (WbRecordList *self,
              guint         position,
              guint         count)
{
  for (guint i = position; i < position + count; i++)
    g_hash_table_remove (self->by_id, item_id (g_ptr_array_index (self->items, i)));
}

/* Runs from the end, so that the positions before them stay true. */
static void
drop_removed (WbRecordList *self,
              const WbJob  *job)
{
  guint end = self->items->len;

  while (end > 0)
    {
      guint start = end;

      while (start > 0 && is_gone (self, start - 1, job))
        start--;

      if (start < end)
        {
          forget_range (self, start, end - start);
          g_ptr_array_remove_range (self->items, start, end - start);
          g_list_model_items_changed (G_LIST_MODEL (self), start, end - start, 0);
          end = start;
        }
      else
        {
          end--;
        }
    }
}

static void
insert_item (WbRecordList *self,
             guint         position,
             const WbJob  *job,
             guint         index)
{
  WbRecordItem *item = wb_record_item_new (wb_job_nth (job, self->kind, index));

  g_ptr_array_insert (self->items, (int) position, item);
  g_hash_table_insert (self->by_id, g_strdup (item_id (item)), item);
}

/* Expects that every item's record is still in @job, in the same order. */
static void
add_new (WbRecordList *self,
         const WbJob  *job)
{
  guint count = wb_job_count (job, self->kind);

  for (guint i = 0; i < count; i++)
    {
      guint run = i;

      if (i < self->items->len && is_same (self, i, job, i))
        continue;

      while (run < count && !g_hash_table_contains (self->by_id, nth_id (job, self->kind, run)))
        {
          insert_item (self, run, job, run);
          run++;
        }
      g_assert (run > i);

      g_list_model_items_changed (G_LIST_MODEL (self), i, 0, run - i);
      i = run - 1;
    }
}

/* The item for record @index: the one that is known by its id, or a new one. */
static WbRecordItem *
ensure_item (WbRecordList *self,
             const WbJob  *job,
             guint         index)
{
  const char *id = nth_id (job, self->kind, index);
  WbRecordItem *item = g_hash_table_lookup (self->by_id, id);

  if (item != NULL)
    return g_object_ref (item);

  item = wb_record_item_new (wb_job_nth (job, self->kind, index));
  g_hash_table_insert (self->by_id, g_strdup (id), item);
  return item;
}

/* Everything from the first to the last difference is told as one change; items known by their id
 * stay the same objects. */
static void
exchange (WbRecordList *self,
          const WbJob  *job)
{
  guint before = self->items->len;
  guint after = wb_job_count (job, self->kind);
  g_autoptr (GPtrArray) old = NULL;
  guint start = 0;

  while (start < MIN (before, after) && is_same (self, start, job, start))
    start++;
  while (before > start && after > start && is_same (self, before - 1, job, after - 1))
    {
      before--;
      after--;
    }

  old = self->items;
  self->items = g_ptr_array_new_full (wb_job_count (job, self->kind), g_object_unref);
  for (guint i = 0; i < wb_job_count (job, self->kind); i++)
    g_ptr_array_add (self->items, ensure_item (self, job, i));
  for (guint i = start; i < before; i++)
    {
      const char *id = item_id (g_ptr_array_index (old, i));

      if (wb_job_find (job, self->kind, id) == NULL)
        g_hash_table_remove (self->by_id, id);
    }

  g_list_model_items_changed (G_LIST_MODEL (self), start, before - start, after - start);
}

typedef struct
{
  guint    n_removed;    /* runs of records */
  guint    n_added;
  gboolean reordered;    /* the rest was not looked at */
} Difference;

static Difference
compare (WbRecordList *self,
         const WbJob  *job)
{
  Difference difference = { 0 };
  guint count = wb_job_count (job, self->kind);
  guint item = 0;
  guint index = 0;

  /* All there is comes at once, as when a list is made. */
  if (self->items->len == 0)
    {
      difference.n_added = count > 0;
      return difference;
    }

  while (!difference.reordered && (item < self->items->len || index < count))
    {
      guint first_item = item;
      guint first_index = index;

      while (item < self->items->len && index < count && is_same (self, item, job, index))
        {
          item++;
          index++;
        }
      if (item > first_item)
        continue;

      while (item < self->items->len && is_gone (self, item, job))
        item++;
      while (index < count && !g_hash_table_contains (self->by_id, nth_id (job, self->kind, index)))
        index++;
      difference.n_removed += item > first_item;
      difference.n_added += index > first_index;
      difference.reordered = item == first_item && index == first_index;
    }
  return difference;
}

static void
update_records (WbRecordList *self,
                const WbJob  *job)
{
  for (guint i = 0; i < self->items->len; i++)
    wb_record_item_set_record (g_ptr_array_index (self->items, i), wb_job_nth (job, self->kind, i));
}

static GType
get_item_type (GListModel *model)
{
  return WB_TYPE_RECORD_ITEM;
}

static guint
get_n_items (GListModel *model)
{
  return WB_RECORD_LIST (model)->items->len;
}

static gpointer
get_item (GListModel *model,
          guint       position)
{
  WbRecordList *self = WB_RECORD_LIST (model);

  return position < self->items->len
         ? g_object_ref (g_ptr_array_index (self->items, position)) : NULL;
}

static void
list_model_init (GListModelInterface *iface)
{
  iface->get_item_type = get_item_type;
  iface->get_n_items = get_n_items;
  iface->get_item = get_item;
}

static void
wb_record_list_finalize (GObject *object)
{
  WbRecordList *self = WB_RECORD_LIST (object);

  g_clear_pointer (&self->by_id, g_hash_table_unref);
  g_clear_pointer (&self->items, g_ptr_array_unref);

  G_OBJECT_CLASS (wb_record_list_parent_class)->finalize (object);
}

static void
wb_record_list_class_init (WbRecordListClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = wb_record_list_finalize;
}

static void
wb_record_list_init (WbRecordList *self)
{
  self->items = g_ptr_array_new_with_free_func (g_object_unref);
  self->by_id = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
}

WbRecordList *
wb_record_list_new (WbKind kind)
{
  WbRecordList *self = g_object_new (WB_TYPE_RECORD_LIST, NULL);

  self->kind = kind;
  return self;
}

void
wb_record_list_set_job (WbRecordList *self,
                        const WbJob  *job)
{
  Difference difference;

  g_return_if_fail (WB_IS_RECORD_LIST (self));
  g_return_if_fail (job != NULL);

  difference = compare (self, job);
  if (difference.reordered || difference.n_removed + difference.n_added > MOST_RUNS)
    {
      exchange (self, job);
    }
  else
    {
      if (difference.n_removed > 0)
        drop_removed (self, job);
      if (difference.n_added > 0)
        add_new (self, job);
    }
  update_records (self, job);
}
