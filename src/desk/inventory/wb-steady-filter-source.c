/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Following the source of a steady filter: what of its items is there after a change, which of them
 * are new, and which stay as parting ones among the others until their turn comes. */
#include "config.h"

#include "desk/inventory/wb-steady-filter-private.h"

/* So many items that are new at once are looked at at once, and so many that are gone go at
 * once. */
#define NOW         16

/* A change of the source: which items here it is about, and what stands in their place. */
typedef struct
{
  guint       position;
  guint       removed;
  GHashTable *known;      /* item → what, of the items here */
  GPtrArray  *source;     /* the source's items that stand there now */
  GArray     *entries;
  guint       n_new;
} Change;

/* The place here of the source's @position, or of its end: parting items before it push it on, past
 * which there may be more of them. */
static guint
find_place (WbSteadyFilter *self,
            guint           position)
{
  guint before = 0;

  for (;;)
    {
      guint n = (guint) gtk_bitset_get_size_in_range (self->parting, 0, position + before);

      if (n == before)
        return position + before;
      before = n;
    }
}

/* The range here of @removed items of the source, and the parting ones next to it. */
static void
find_range (Change         *change,
            WbSteadyFilter *self,
            guint           position,
            guint           removed)
{
  guint first = find_place (self, position);
  guint end = removed > 0 ? find_place (self, position + removed - 1) + 1 : first;

  while (first > 0 && gtk_bitset_contains (self->parting, first - 1))
    first--;
  while (gtk_bitset_contains (self->parting, end))
    end++;
  change->position = first;
  change->removed = end - first;
}

static void
change_init (Change         *change,
             WbSteadyFilter *self,
             guint           position,
             guint           removed,
             guint           added)
{
  find_range (change, self, position, removed);
  change->known = g_hash_table_new (NULL, NULL);
  change->source = g_ptr_array_new_full (added, g_object_unref);
  change->entries = g_array_sized_new (FALSE, FALSE, sizeof (WbSteadyEntry), added);
  change->n_new = 0;

  for (guint i = change->position; i < change->position + change->removed; i++)
    g_hash_table_insert (change->known, g_ptr_array_index (self->items, i),
                         GUINT_TO_POINTER (wb_steady_filter_what_of (self, i)));
  for (guint i = position; i < position + added; i++)
    g_ptr_array_add (change->source, g_list_model_get_item (self->source, i));
}

static void
change_clear (Change *change)
{
  g_hash_table_unref (change->known);
  g_ptr_array_unref (change->source);
  g_array_unref (change->entries);
}

/* What stays is shown or not as before. */
static void
take_from_source (Change *change,
                  guint   index)
{
  gpointer item = g_ptr_array_index (change->source, index);
  guint what = GPOINTER_TO_UINT (g_hash_table_lookup (change->known, item));

  if ((what & WB_STEADY_KNOWN) == 0)
    change->n_new++;
  wb_steady_filter_add_entry (change->entries, item, what & ~WB_STEADY_PARTING);
}

/* Puts what is shown and gone where it was among the rest. Returns: %FALSE if the rest does not
 * stand in the order of before. */
static gboolean
merge (Change         *change,
       WbSteadyFilter *self)
{
  g_autoptr (GHashTable) stays = g_hash_table_new (NULL, NULL);
  guint end = change->position + change->removed;
  guint next = 0;

  for (guint i = 0; i < change->source->len; i++)
    g_hash_table_add (stays, g_ptr_array_index (change->source, i));

  for (guint i = change->position; i < end; i++)
    {
      gpointer item = g_ptr_array_index (self->items, i);

      if (!g_hash_table_contains (stays, item))
        {
          if (gtk_bitset_contains (self->shown, i))
            wb_steady_filter_add_entry (change->entries, item,
                                        WB_STEADY_KNOWN | WB_STEADY_SHOWN | WB_STEADY_PENDING
                                        | WB_STEADY_PARTING);
          continue;
        }
      while (next < change->source->len
             && !g_hash_table_contains (change->known, g_ptr_array_index (change->source, next)))
        take_from_source (change, next++);
      if (next == change->source->len || g_ptr_array_index (change->source, next) != item)
        return FALSE;
      take_from_source (change, next++);
    }
  while (next < change->source->len)
    take_from_source (change, next++);
  return TRUE;
}

/* How many of the items shown the source has no more. */
static guint
count_gone (Change *change)
{
  guint n = 0;
  GHashTableIter iter;
  gpointer what;

  g_hash_table_iter_init (&iter, change->known);
  while (g_hash_table_iter_next (&iter, NULL, &what))
    n += (GPOINTER_TO_UINT (what) & WB_STEADY_SHOWN) != 0;
  for (guint i = 0; i < change->source->len; i++)
    {
      what = g_hash_table_lookup (change->known, g_ptr_array_index (change->source, i));
      n -= (GPOINTER_TO_UINT (what) & WB_STEADY_SHOWN) != 0;
    }
  return n;
}

static void
clear_entries (Change *change)
{
  for (guint i = 0; i < change->entries->len; i++)
    g_object_unref (g_array_index (change->entries, WbSteadyEntry, i).item);
  g_array_set_size (change->entries, 0);
  change->n_new = 0;
}

/* Items that are gone stay for a while if they are many. */
static void
arrange (Change         *change,
         WbSteadyFilter *self)
{
  if (count_gone (change) > NOW && merge (change, self))
    return;

  clear_entries (change);
  for (guint i = 0; i < change->source->len; i++)
    take_from_source (change, i);
}

/* A few new ones are looked at now, more of them soon. */
static void
look_at_new (Change         *change,
             WbSteadyFilter *self)
{
  for (guint i = 0; i < change->entries->len; i++)
    {
      WbSteadyEntry *entry = &g_array_index (change->entries, WbSteadyEntry, i);

      if ((entry->what & WB_STEADY_KNOWN) != 0)
        continue;
      if (change->n_new > NOW)
        entry->what |= WB_STEADY_PENDING;
      else if (gtk_filter_match (self->filter, entry->item))
        entry->what |= WB_STEADY_SHOWN;
    }
}

static GPtrArray *
list_shown (WbSteadyFilter *self,
            guint           position,
            guint           count)
{
  GPtrArray *shown = g_ptr_array_new_full (count, g_object_unref);

  for (guint i = position; i < position + count; i++)
    if (gtk_bitset_contains (self->shown, i))
      g_ptr_array_add (shown, g_object_ref (g_ptr_array_index (self->items, i)));
  return shown;
}

/* Tells of what is between the first and the last difference. */
static void
tell (WbSteadyFilter *self,
      guint           place,
      GPtrArray      *old,
      GPtrArray      *now)
{
  guint start = 0;
  guint gone = old->len;
  guint come = now->len;

  while (start < MIN (gone, come) && old->pdata[start] == now->pdata[start])
    start++;
  while (MIN (gone, come) > start && old->pdata[gone - 1] == now->pdata[come - 1])
    {
      gone--;
      come--;
    }
  if (gone > start || come > start)
    g_list_model_items_changed (G_LIST_MODEL (self), place + start, gone - start, come - start);
}

void
wb_steady_filter_follow (WbSteadyFilter *self,
                         guint           position,
                         guint           removed,
                         guint           added)
{
  Change change;
  g_autoptr (GPtrArray) old = NULL;
  g_autoptr (GPtrArray) now = NULL;
  guint place;

  change_init (&change, self, position, removed, added);
  arrange (&change, self);
  look_at_new (&change, self);

  place = wb_steady_filter_shown_before (self, change.position);
  old = list_shown (self, change.position, change.removed);
  wb_steady_filter_put_entries (self, change.position, change.removed, change.entries);
  now = list_shown (self, change.position, change.entries->len);
  change_clear (&change);

  tell (self, place, old, now);
  wb_steady_filter_work_soon (self);
}
