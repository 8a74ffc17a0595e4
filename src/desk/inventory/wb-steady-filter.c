/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two sets of positions: those of the items shown, and those to be looked at again. An idle source
 * works through the second: first what is shown and may have to go, from the end, so that what
 * moves up into view has been looked at already; then what may come, from the start. Items that the
 * source has no more, when they are many, stay among the others as parting ones until that work has
 * come to them; only then are positions here and in the source the same. */
#include "config.h"

#include "desk/inventory/wb-steady-filter-private.h"

/* A turn ends after this time, and earlier before a batch that may take as long by itself. */
#define TURN_USEC   4000
#define LIGHT_USEC  1000
/* Within NEAR places of what a person looks at, each change has the column view number some two
 * hundred rows of cells anew, and make and break as many as came and went: a batch of this size
 * keeps the two in balance. Elsewhere a change costs next to nothing. */
#define NEAR        260
#define BATCH_NEAR  8
#define BATCH_FAR   1024

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
guint
wb_steady_filter_shown_before (WbSteadyFilter *self,
                               guint           position)
{
  return position > 0 ? (guint) gtk_bitset_get_size_in_range (self->shown, 0, position - 1) : 0;
}

/* --- items ------------------------------------------------------------------------------------ */

guint
wb_steady_filter_what_of (WbSteadyFilter *self,
                          guint           position)
{
  guint what = WB_STEADY_KNOWN;

  if (gtk_bitset_contains (self->shown, position))
    what |= WB_STEADY_SHOWN;
  if (gtk_bitset_contains (self->pending, position))
    what |= WB_STEADY_PENDING;
  if (gtk_bitset_contains (self->parting, position))
    what |= WB_STEADY_PARTING;
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
void
wb_steady_filter_put_entries (WbSteadyFilter *self,
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
      const WbSteadyEntry *entry = &g_array_index (entries, WbSteadyEntry, i);

      self->items->pdata[position + i] = entry->item;
      if ((entry->what & WB_STEADY_SHOWN) != 0)
        gtk_bitset_add (self->shown, position + i);
      if ((entry->what & WB_STEADY_PENDING) != 0)
        gtk_bitset_add (self->pending, position + i);
      if ((entry->what & WB_STEADY_PARTING) != 0)
        gtk_bitset_add (self->parting, position + i);
    }
}

void
wb_steady_filter_add_entry (GArray   *entries,
                            gpointer  item,
                            guint     what)
{
  const WbSteadyEntry entry = { g_object_ref (item), what };

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

  entries = g_array_new (FALSE, FALSE, sizeof (WbSteadyEntry));
  for (guint i = first; i <= last; i++)
    {
      guint what = wb_steady_filter_what_of (self, i);

      if ((what & WB_STEADY_PARTING) == 0 || (what & WB_STEADY_SHOWN) != 0)
        wb_steady_filter_add_entry (entries, g_ptr_array_index (self->items, i), what);
    }
  wb_steady_filter_put_entries (self, first, last - first + 1, entries);
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
  place = wb_steady_filter_shown_before (self, start);
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
  near = is_near (self, wb_steady_filter_shown_before (self, *last));
  *first = gtk_bitset_get_nth (going, n - MIN (n, near ? BATCH_NEAR : BATCH_FAR));
  if (!near && wb_steady_filter_shown_before (self, *last) > self->centre)
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
  near = is_near (self, wb_steady_filter_shown_before (self, *first));
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

void
wb_steady_filter_work_soon (WbSteadyFilter *self)
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
  wb_steady_filter_work_soon (self);
}

/* --- the list --------------------------------------------------------------------------------- */

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
  g_signal_connect_object (source, "items-changed", G_CALLBACK (wb_steady_filter_follow), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (filter, "changed", G_CALLBACK (filter_changed_cb), self,
                           G_CONNECT_SWAPPED);
  wb_steady_filter_follow (self, 0, 0, g_list_model_get_n_items (source));
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
