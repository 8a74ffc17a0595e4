/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two sets of positions: those of the items shown, and those to be looked at again. An idle source
 * works through the second: first what is shown and may have to go, from the end, so that what
 * moves up into view has been looked at already; then what may come, from the start. Items that the
 * source has no more, when they are many, stay among the others as parting ones until that work has
 * come to them; only then are positions here and in the source the same. */
#include "config.h"

#include "desk/inventory/wb-steady-filter.h"

/* A turn ends after this time, and earlier before a batch that may take as long by itself. */
#define TURN_USEC   4000
#define LIGHT_USEC  1000
/* Within NEAR places of what a person looks at, each change has the column view number some two
 * hundred rows of cells anew, and make and break as many as came and went: a batch of this size
 * keeps the two in balance. Elsewhere a change costs next to nothing. */
#define NEAR        260
#define BATCH_NEAR  8
#define BATCH_FAR   1024
/* So many items that are new at once are looked at at once, and so many that are gone go at
 * once. */
#define NOW         16

/* What is known of an item. */
#define KNOWN       (1u << 0)
#define SHOWN       (1u << 1)
#define PENDING     (1u << 2)
#define PARTING     (1u << 3)

typedef struct
{
  gpointer item;    /* owned */
  guint    what;
} Entry;

struct _WbSteadyFilter
{
  GObject      parent_instance;

  GListModel  *source;
  GtkFilter   *filter;
  GPtrArray   *items;     /* those of the source, as they were told of last, and the parting ones */
  GtkBitset   *shown;
  GtkBitset   *pending;
  GtkBitset   *parting;
  guint        centre;    /* place in what is shown that a person looks at */
  guint        idle;
};

enum
{
  PROP_0,
  PROP_PENDING,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

static void list_model_init (GListModelInterface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (WbSteadyFilter, wb_steady_filter, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, list_model_init))

static gboolean
matches (WbSteadyFilter *self,
         guint           position)
{
  return !gtk_bitset_contains (self->parting, position)
         && gtk_filter_match (self->filter, g_ptr_array_index (self->items, position));
}

/* How many are shown of the positions before @position. */
static guint
shown_before (WbSteadyFilter *self,
              guint           position)
{
  return position > 0 ? (guint) gtk_bitset_get_size_in_range (self->shown, 0, position - 1) : 0;
}

/* --- items ------------------------------------------------------------------------------------ */

static guint
what_of (WbSteadyFilter *self,
         guint           position)
{
  guint what = KNOWN;

  if (gtk_bitset_contains (self->shown, position))
    what |= SHOWN;
  if (gtk_bitset_contains (self->pending, position))
    what |= PENDING;
  if (gtk_bitset_contains (self->parting, position))
    what |= PARTING;
  return what;
}

/* Makes room for @added items in place of @removed ones, and lets go of these. */
static void
splice_items (WbSteadyFilter *self,
              guint           position,
              guint           removed,
              guint           added)
{
  guint before = self->items->len;
  guint rest = before - position - removed;

  for (guint i = position; i < position + removed; i++)
    g_object_unref (g_ptr_array_index (self->items, i));
  g_ptr_array_set_size (self->items, (int) MAX (before, before - removed + added));
  /* An empty array has no memory to move. */
  if (rest > 0)
    memmove (self->items->pdata + position + added, self->items->pdata + position + removed,
             rest * sizeof (gpointer));
  g_ptr_array_set_size (self->items, (int) (before - removed + added));
}

/* Puts @entries, whose items it takes, in place of @removed items. Tells nobody. */
static void
put_entries (WbSteadyFilter *self,
             guint           position,
             guint           removed,
             GArray         *entries)
{
  gtk_bitset_splice (self->shown, position, removed, entries->len);
  gtk_bitset_splice (self->pending, position, removed, entries->len);
  gtk_bitset_splice (self->parting, position, removed, entries->len);
  splice_items (self, position, removed, entries->len);

  for (guint i = 0; i < entries->len; i++)
    {
      const Entry *entry = &g_array_index (entries, Entry, i);

      self->items->pdata[position + i] = entry->item;
      if ((entry->what & SHOWN) != 0)
        gtk_bitset_add (self->shown, position + i);
      if ((entry->what & PENDING) != 0)
        gtk_bitset_add (self->pending, position + i);
      if ((entry->what & PARTING) != 0)
        gtk_bitset_add (self->parting, position + i);
    }
}

static void
add_entry (GArray   *entries,
           gpointer  item,
           guint     what)
{
  const Entry entry = { g_object_ref (item), what };

  g_array_append_val (entries, entry);
}

/* Of positions @first … @last, forgets the parting items that are shown no more. */
static void
forget_parted (WbSteadyFilter *self,
               guint           first,
               guint           last)
{
  g_autoptr (GArray) entries = NULL;

  if (gtk_bitset_get_size_in_range (self->parting, first, last) == 0)
    return;

  entries = g_array_new (FALSE, FALSE, sizeof (Entry));
  for (guint i = first; i <= last; i++)
    {
      guint what = what_of (self, i);

      if ((what & PARTING) == 0 || (what & SHOWN) != 0)
        add_entry (entries, g_ptr_array_index (self->items, i), what);
    }
  put_entries (self, first, last - first + 1, entries);
}

/* --- looking ---------------------------------------------------------------------------------- */

/* Looks at the pending items among positions @first … @last, and tells of what came of it. */
static void
look_at (WbSteadyFilter *self,
         guint           first,
         guint           last)
{
  guint removed = (guint) gtk_bitset_get_size_in_range (self->shown, first, last);
  guint start = G_MAXUINT;
  guint end = 0;
  guint place, added;

  for (guint i = first; i <= last; i++)
    {
      gboolean now;

      if (!gtk_bitset_contains (self->pending, i))
        continue;
      now = matches (self, i);
      if (now == gtk_bitset_contains (self->shown, i))
        continue;
      if (now)
        gtk_bitset_add (self->shown, i);
      else
        gtk_bitset_remove (self->shown, i);
      start = MIN (start, i);
      end = i;
    }
  gtk_bitset_remove_range_closed (self->pending, first, last);

  if (start == G_MAXUINT)
    return;
  /* What is shown outside of the first and the last change is as before. */
  added = (guint) gtk_bitset_get_size_in_range (self->shown, start, end);
  if (start > first)
    removed -= (guint) gtk_bitset_get_size_in_range (self->shown, first, start - 1);
  if (end < last)
    removed -= (guint) gtk_bitset_get_size_in_range (self->shown, end + 1, last);
  place = shown_before (self, start);
  forget_parted (self, first, last);
  g_list_model_items_changed (G_LIST_MODEL (self), place, removed, added);
}

static gboolean
is_near (WbSteadyFilter *self,
         guint           place)
{
  return place < self->centre + NEAR && place + NEAR > self->centre;
}

/* From the end of @going: a batch, that does not reach near the centre from afar. Returns: whether
 * it is near. */
static gboolean
choose_going (WbSteadyFilter *self,
              GtkBitset      *going,
              guint          *first,
              guint          *last)
{
  guint n = (guint) gtk_bitset_get_size (going);
  gboolean near;

  *last = gtk_bitset_get_maximum (going);
  near = is_near (self, shown_before (self, *last));
  *first = gtk_bitset_get_nth (going, n - MIN (n, near ? BATCH_NEAR : BATCH_FAR));
  if (!near && shown_before (self, *last) > self->centre)
    *first = MAX (*first, gtk_bitset_get_nth (self->shown, self->centre + NEAR));
  return near;
}

/* From the start of what is pending. Returns: whether it is near. */
static gboolean
choose_coming (WbSteadyFilter *self,
               guint          *first,
               guint          *last)
{
  guint n = (guint) gtk_bitset_get_size (self->pending);
  gboolean near;

  *first = gtk_bitset_get_minimum (self->pending);
  near = is_near (self, shown_before (self, *first));
  *last = gtk_bitset_get_nth (self->pending, MIN (n, near ? BATCH_NEAR : BATCH_FAR) - 1);
  return near;
}

static gboolean
choose_batch (WbSteadyFilter *self,
              guint          *first,
              guint          *last)
{
  g_autoptr (GtkBitset) going = gtk_bitset_copy (self->pending);

  gtk_bitset_intersect (going, self->shown);
  return gtk_bitset_is_empty (going)
    ? choose_coming (self, first, last) : choose_going (self, going, first, last);
}

static gboolean
idle_cb (gpointer data)
{
  WbSteadyFilter *self = data;
  gint64 begin = g_get_monotonic_time ();
  gint64 now = begin;

  while (!gtk_bitset_is_empty (self->pending) && now < begin + TURN_USEC)
    {
      guint first, last;
      gboolean near = choose_batch (self, &first, &last);

      if (near && now > begin + LIGHT_USEC)
        break;
      look_at (self, first, last);
      now = g_get_monotonic_time ();
    }

  if (gtk_bitset_is_empty (self->pending))
    self->idle = 0;
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_PENDING]);
  return self->idle != 0 ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
}

static void
work_soon (WbSteadyFilter *self)
{
  if (self->idle == 0 && !gtk_bitset_is_empty (self->pending))
    self->idle = g_idle_add (idle_cb, self);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_PENDING]);
}

static void
filter_changed_cb (WbSteadyFilter  *self,
                   GtkFilterChange  change)
{
  g_autoptr (GtkBitset) all = gtk_bitset_new_range (0, self->items->len);

  switch (change)
    {
    case GTK_FILTER_CHANGE_DIFFERENT:
      gtk_bitset_union (self->pending, all);
      break;
    case GTK_FILTER_CHANGE_LESS_STRICT:
      gtk_bitset_subtract (all, self->shown);
      gtk_bitset_union (self->pending, all);
      break;
    case GTK_FILTER_CHANGE_MORE_STRICT:
      gtk_bitset_union (self->pending, self->shown);
      break;
    }
  work_soon (self);
}

/* --- following the source --------------------------------------------------------------------- */

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
  change->entries = g_array_sized_new (FALSE, FALSE, sizeof (Entry), added);
  change->n_new = 0;

  for (guint i = change->position; i < change->position + change->removed; i++)
    g_hash_table_insert (change->known, g_ptr_array_index (self->items, i),
                         GUINT_TO_POINTER (what_of (self, i)));
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

  if ((what & KNOWN) == 0)
    change->n_new++;
  add_entry (change->entries, item, what & ~PARTING);
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
            add_entry (change->entries, item, KNOWN | SHOWN | PENDING | PARTING);
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
    n += (GPOINTER_TO_UINT (what) & SHOWN) != 0;
  for (guint i = 0; i < change->source->len; i++)
    {
      what = g_hash_table_lookup (change->known, g_ptr_array_index (change->source, i));
      n -= (GPOINTER_TO_UINT (what) & SHOWN) != 0;
    }
  return n;
}

static void
clear_entries (Change *change)
{
  for (guint i = 0; i < change->entries->len; i++)
    g_object_unref (g_array_index (change->entries, Entry, i).item);
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
      Entry *entry = &g_array_index (change->entries, Entry, i);

      if ((entry->what & KNOWN) != 0)
        continue;
      if (change->n_new > NOW)
        entry->what |= PENDING;
      else if (gtk_filter_match (self->filter, entry->item))
        entry->what |= SHOWN;
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

static void
items_changed_cb (WbSteadyFilter *self,
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

  place = shown_before (self, change.position);
  old = list_shown (self, change.position, change.removed);
  put_entries (self, change.position, change.removed, change.entries);
  now = list_shown (self, change.position, change.entries->len);
  change_clear (&change);

  tell (self, place, old, now);
  work_soon (self);
}

static GType
get_item_type (GListModel *model)
{
  return g_list_model_get_item_type (WB_STEADY_FILTER (model)->source);
}

static guint
get_n_items (GListModel *model)
{
  return (guint) gtk_bitset_get_size (WB_STEADY_FILTER (model)->shown);
}

static gpointer
get_item (GListModel *model,
          guint       position)
{
  WbSteadyFilter *self = WB_STEADY_FILTER (model);

  if (position >= gtk_bitset_get_size (self->shown))
    return NULL;
  return g_object_ref (g_ptr_array_index (self->items, gtk_bitset_get_nth (self->shown, position)));
}

static void
list_model_init (GListModelInterface *iface)
{
  iface->get_item_type = get_item_type;
  iface->get_n_items = get_n_items;
  iface->get_item = get_item;
}

static void
wb_steady_filter_get_property (GObject    *object,
                               guint       prop_id,
                               GValue     *value,
                               GParamSpec *pspec)
{
  WbSteadyFilter *self = WB_STEADY_FILTER (object);

  switch (prop_id)
    {
    case PROP_PENDING:
      g_value_set_uint (value, wb_steady_filter_get_pending (self));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_steady_filter_dispose (GObject *object)
{
  WbSteadyFilter *self = WB_STEADY_FILTER (object);

  g_clear_handle_id (&self->idle, g_source_remove);

  G_OBJECT_CLASS (wb_steady_filter_parent_class)->dispose (object);
}

static void
wb_steady_filter_finalize (GObject *object)
{
  WbSteadyFilter *self = WB_STEADY_FILTER (object);

  g_ptr_array_foreach (self->items, (GFunc) (void (*) (void)) g_object_unref, NULL);
  g_ptr_array_unref (self->items);
  g_clear_object (&self->source);
  g_clear_object (&self->filter);
  g_clear_pointer (&self->shown, gtk_bitset_unref);
  g_clear_pointer (&self->pending, gtk_bitset_unref);
  g_clear_pointer (&self->parting, gtk_bitset_unref);

  G_OBJECT_CLASS (wb_steady_filter_parent_class)->finalize (object);
}

static void
wb_steady_filter_class_init (WbSteadyFilterClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = wb_steady_filter_get_property;
  object_class->dispose = wb_steady_filter_dispose;
  object_class->finalize = wb_steady_filter_finalize;

  properties[PROP_PENDING] = g_param_spec_uint ("pending", NULL, NULL, 0, G_MAXUINT, 0,
                                                G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
wb_steady_filter_init (WbSteadyFilter *self)
{
  self->items = g_ptr_array_new ();
  self->shown = gtk_bitset_new_empty ();
  self->pending = gtk_bitset_new_empty ();
  self->parting = gtk_bitset_new_empty ();
}

WbSteadyFilter *
wb_steady_filter_new (GListModel *source,
                      GtkFilter  *filter)
{
  WbSteadyFilter *self;

  g_return_val_if_fail (G_IS_LIST_MODEL (source), NULL);
  g_return_val_if_fail (GTK_IS_FILTER (filter), NULL);

  self = g_object_new (WB_TYPE_STEADY_FILTER, NULL);
  self->source = g_object_ref (source);
  self->filter = g_object_ref (filter);
  g_signal_connect_object (source, "items-changed", G_CALLBACK (items_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (filter, "changed", G_CALLBACK (filter_changed_cb), self,
                           G_CONNECT_SWAPPED);
  items_changed_cb (self, 0, 0, g_list_model_get_n_items (source));
  return self;
}

void
wb_steady_filter_set_centre (WbSteadyFilter *self,
                             guint           place)
{
  g_return_if_fail (WB_IS_STEADY_FILTER (self));

  self->centre = place;
}

guint
wb_steady_filter_get_pending (WbSteadyFilter *self)
{
  g_return_val_if_fail (WB_IS_STEADY_FILTER (self), 0);

  return (guint) gtk_bitset_get_size (self->pending);
}
