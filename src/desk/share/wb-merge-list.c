/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sorts the items of a merge into choices and the rest. What differs and what a choice does core
 * says, the words are office's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-merge-list.h"

#include <glib/gi18n.h>

/* More lines than this of one group are only counted. */
#define MOST_LINES 12

/* --- what all entries share ------------------------------------------------------------------- */

typedef struct
{
  WbJob        *base;
  WbJob        *mine;
  WbJob        *theirs;
  WbMergeJobs   jobs;
  WbMerge      *merge;
  WbComparison *owner;   /* (nullable): whose the merge is */
} Comparison;

static void
comparison_clear (gpointer data)
{
  Comparison *self = data;

  if (self->owner == NULL)
    g_clear_pointer (&self->merge, wb_merge_free);
  g_clear_pointer (&self->owner, wb_comparison_unref);
  g_clear_pointer (&self->base, wb_job_unref);
  g_clear_pointer (&self->mine, wb_job_unref);
  g_clear_pointer (&self->theirs, wb_job_unref);
}

static void
comparison_unref (Comparison *self)
{
  g_rc_box_release_full (self, comparison_clear);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Comparison, comparison_unref)

/* --- the list --------------------------------------------------------------------------------- */

struct _WbMergeList
{
  GObject       parent_instance;

  Comparison   *comparison;
  GPtrArray    *choices;     /* of WbMergeEntry */
  GArray       *taken;       /* of guint: items of the merge */
  WbMergeEntry *fold;        /* (nullable): when nothing is taken */
  gboolean      unfolded;
};

struct _WbMergeEntry
{
  GObject           parent_instance;

  WbMergeEntryKind  kind;
  Comparison       *comparison;
  WbMergeList      *list;        /* (weak) (nullable) */
  GArray           *items;       /* of guint: items of the merge; empty for the fold */
};

enum
{
  CHANGED,
  N_ENTRY_SIGNALS
};

enum
{
  DECIDED,
  N_LIST_SIGNALS
};

static guint entry_signals[N_ENTRY_SIGNALS];
static guint list_signals[N_LIST_SIGNALS];

static void list_model_init (GListModelInterface *iface);

G_DEFINE_FINAL_TYPE (WbMergeEntry, wb_merge_entry, G_TYPE_OBJECT)
G_DEFINE_FINAL_TYPE_WITH_CODE (WbMergeList, wb_merge_list, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, list_model_init))

/* --- entries ---------------------------------------------------------------------------------- */

static void
wb_merge_entry_dispose (GObject *object)
{
  g_clear_weak_pointer (&WB_MERGE_ENTRY (object)->list);

  G_OBJECT_CLASS (wb_merge_entry_parent_class)->dispose (object);
}

static void
wb_merge_entry_finalize (GObject *object)
{
  WbMergeEntry *self = WB_MERGE_ENTRY (object);

  g_array_unref (self->items);
  g_clear_pointer (&self->comparison, comparison_unref);

  G_OBJECT_CLASS (wb_merge_entry_parent_class)->finalize (object);
}

static void
wb_merge_entry_class_init (WbMergeEntryClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->dispose = wb_merge_entry_dispose;
  object_class->finalize = wb_merge_entry_finalize;

  entry_signals[CHANGED] = g_signal_new ("changed", WB_TYPE_MERGE_ENTRY, G_SIGNAL_RUN_LAST, 0, NULL,
                                         NULL, NULL, G_TYPE_NONE, 0);
}

static void
wb_merge_entry_init (WbMergeEntry *self)
{
  self->items = g_array_new (FALSE, FALSE, sizeof (guint));
}

static WbMergeEntry *
make_entry (WbMergeList      *list,
            WbMergeEntryKind  kind)
{
  WbMergeEntry *self = g_object_new (WB_TYPE_MERGE_ENTRY, NULL);

  self->kind = kind;
  self->comparison = g_rc_box_acquire (list->comparison);
  g_set_weak_pointer (&self->list, list);
  return self;
}

static const WbMergeItem *
item_of (WbMergeEntry *self,
         guint         nth)
{
  return wb_merge_nth (self->comparison->merge, g_array_index (self->items, guint, nth));
}

static gboolean
is_of_one_record (WbMergeEntry *self)
{
  const WbMergeItem *first = item_of (self, 0);

  for (guint i = 1; i < self->items->len; i++)
    {
      const WbMergeItem *item = item_of (self, i);

      if (item->kind != first->kind || g_strcmp0 (item->id, first->id) != 0)
        return FALSE;
    }
  return TRUE;
}

WbMergeEntryKind
wb_merge_entry_get_kind (WbMergeEntry *self)
{
  g_return_val_if_fail (WB_IS_MERGE_ENTRY (self), WB_MERGE_ENTRY_FOLD);

  return self->kind;
}

WbMergeChoice
wb_merge_entry_get_choice (WbMergeEntry *self)
{
  g_return_val_if_fail (WB_IS_MERGE_ENTRY (self), WB_MERGE_UNDECIDED);

  return self->kind == WB_MERGE_ENTRY_CHOICE ? item_of (self, 0)->choice : WB_MERGE_UNDECIDED;
}

void
wb_merge_entry_choose (WbMergeEntry  *self,
                       WbMergeChoice  choice)
{
  g_return_if_fail (WB_IS_MERGE_ENTRY (self));

  if (self->kind != WB_MERGE_ENTRY_CHOICE || item_of (self, 0)->choice == choice)
    return;
  wb_merge_choose (self->comparison->merge, g_array_index (self->items, guint, 0), choice);
  g_signal_emit (self, entry_signals[CHANGED], 0);
  if (self->list != NULL)
    g_signal_emit (self->list, list_signals[DECIDED], 0);
}

gboolean
wb_merge_entry_is_unfolded (WbMergeEntry *self)
{
  g_return_val_if_fail (WB_IS_MERGE_ENTRY (self), FALSE);

  return self->list != NULL && self->list->unfolded;
}

char *
wb_merge_entry_get_title (WbMergeEntry *self)
{
  g_autofree char *first = NULL;
  guint more;

  g_return_val_if_fail (WB_IS_MERGE_ENTRY (self), NULL);

  if (self->kind == WB_MERGE_ENTRY_FOLD)
    {
      guint n = self->list != NULL ? self->list->taken->len : 0;

      return g_strdup_printf (ngettext ("%u change is taken without asking",
                                        "%u changes are taken without asking", n), n);
    }
  first = wb_words_merge_record (&self->comparison->jobs, item_of (self, 0));
  if (is_of_one_record (self))
    return g_steal_pointer (&first);
  more = self->items->len - 1;
  /* Translators: a record, such as a claim, and how many other differences are decided with it. */
  return g_strdup_printf (ngettext ("%s, and %u more difference", "%s, and %u more differences",
                                    more), first, more);
}

char *
wb_merge_entry_get_what (WbMergeEntry *self)
{
  g_return_val_if_fail (WB_IS_MERGE_ENTRY (self), NULL);

  return self->items->len == 1 ? wb_words_merge_what (item_of (self, 0)) : NULL;
}

/* Returns: (nullable): one difference of a group, with what tells it from the others. */
static char *
line_text (WbMergeEntry  *self,
           guint          nth,
           WbMergeChoice  whose,
           gboolean       one_record)
{
  const WbMergeItem *item = item_of (self, nth);
  const WbMergeJobs *jobs = &self->comparison->jobs;
  g_autofree char *text = wb_words_merge_text (jobs, item, whose);
  g_autofree char *what = one_record || item->what != WB_MERGE_FIELD ? NULL
                                                                     : wb_words_merge_what (item);
  g_autofree char *name = one_record ? wb_words_merge_what (item)
                                     : wb_words_merge_record (jobs, item);

  if (text == NULL)
    return NULL;
  if (what != NULL)
    return g_strdup_printf ("%s, %s: %s", name, what, text);
  return g_strdup_printf ("%s: %s", name, text);
}

char *
wb_merge_entry_get_text (WbMergeEntry  *self,
                         WbMergeChoice  whose)
{
  gboolean one_record;
  GString *text;

  g_return_val_if_fail (WB_IS_MERGE_ENTRY (self), NULL);

  if (self->kind == WB_MERGE_ENTRY_FOLD)
    return NULL;
  if (self->items->len == 1)
    return wb_words_merge_text (&self->comparison->jobs, item_of (self, 0), whose);

  one_record = is_of_one_record (self);
  text = g_string_new (NULL);
  for (guint i = 0; i < MIN (self->items->len, MOST_LINES); i++)
    {
      g_autofree char *line = line_text (self, i, whose, one_record);

      if (line != NULL)
        g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", line);
    }
  if (self->items->len > MOST_LINES && text->len > 0)
    {
      guint more = self->items->len - MOST_LINES;

      g_string_append_c (text, '\n');
      g_string_append_printf (text, ngettext ("and %u more", "and %u more", more), more);
    }
  if (text->len == 0)
    return g_string_free (text, TRUE), NULL;
  return g_string_free (text, FALSE);
}

char *
wb_merge_entry_get_taken (WbMergeEntry *self)
{
  const WbMergeItem *item;
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;

  g_return_val_if_fail (WB_IS_MERGE_ENTRY (self) && self->items->len > 0, NULL);

  item = item_of (self, 0);
  after = wb_words_merge_text (&self->comparison->jobs, item,
                               item->side == WB_MERGE_ONLY_THEIRS ? WB_MERGE_THEIRS
                                                                  : WB_MERGE_MINE);
  if (item->what == WB_MERGE_FIELD)
    before = wb_words_merge_text (&self->comparison->jobs, item, WB_MERGE_UNDECIDED);
  if (before == NULL)
    return g_steal_pointer (&after);
  /* Translators: a value before, and after. */
  return g_strdup_printf (_("%s → %s"), before, after);
}

char *
wb_merge_entry_get_note (WbMergeEntry *self)
{
  g_return_val_if_fail (WB_IS_MERGE_ENTRY (self), NULL);

  for (guint i = 0; i < self->items->len; i++)
    {
      char *note = wb_words_merge_note (&self->comparison->jobs, item_of (self, i));

      if (note != NULL)
        return note;
    }
  return NULL;
}

const char *
wb_merge_entry_get_side (WbMergeEntry *self)
{
  g_return_val_if_fail (WB_IS_MERGE_ENTRY (self), NULL);

  return self->items->len > 0 ? wb_words_merge_side (item_of (self, 0)) : "";
}

/* --- the list as a model ---------------------------------------------------------------------- */

static GType
list_get_item_type (GListModel *model)
{
  return WB_TYPE_MERGE_ENTRY;
}

static guint
list_get_n_items (GListModel *model)
{
  WbMergeList *self = WB_MERGE_LIST (model);

  return self->choices->len + (self->fold != NULL ? 1 : 0) +
         (self->unfolded ? self->taken->len : 0);
}

static gpointer
list_get_item (GListModel *model,
               guint       position)
{
  WbMergeList *self = WB_MERGE_LIST (model);
  WbMergeEntry *entry;

  if (position < self->choices->len)
    return g_object_ref (g_ptr_array_index (self->choices, position));
  position -= self->choices->len;
  if (self->fold == NULL)
    return NULL;
  if (position == 0)
    return g_object_ref (self->fold);
  position -= 1;
  if (!self->unfolded || position >= self->taken->len)
    return NULL;
  entry = make_entry (self, WB_MERGE_ENTRY_TAKEN);
  g_array_append_val (entry->items, g_array_index (self->taken, guint, position));
  return entry;
}

static void
list_model_init (GListModelInterface *iface)
{
  iface->get_item_type = list_get_item_type;
  iface->get_n_items = list_get_n_items;
  iface->get_item = list_get_item;
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_merge_list_finalize (GObject *object)
{
  WbMergeList *self = WB_MERGE_LIST (object);

  g_ptr_array_unref (self->choices);
  g_array_unref (self->taken);
  g_clear_object (&self->fold);
  g_clear_pointer (&self->comparison, comparison_unref);

  G_OBJECT_CLASS (wb_merge_list_parent_class)->finalize (object);
}

static void
wb_merge_list_class_init (WbMergeListClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = wb_merge_list_finalize;

  list_signals[DECIDED] = g_signal_new ("decided", WB_TYPE_MERGE_LIST, G_SIGNAL_RUN_LAST, 0, NULL,
                                        NULL, NULL, G_TYPE_NONE, 0);
}

static void
wb_merge_list_init (WbMergeList *self)
{
  self->choices = g_ptr_array_new_with_free_func (g_object_unref);
  self->taken = g_array_new (FALSE, FALSE, sizeof (guint));
}

/* --- public ----------------------------------------------------------------------------------- */

static void
add_choice (WbMergeList *self,
            guint        index,
            GHashTable  *groups)
{
  guint group = wb_merge_nth (self->comparison->merge, index)->group;
  WbMergeEntry *entry = group != 0 ? g_hash_table_lookup (groups, GUINT_TO_POINTER (group)) : NULL;

  if (entry == NULL)
    {
      entry = make_entry (self, WB_MERGE_ENTRY_CHOICE);
      g_ptr_array_add (self->choices, entry);
      if (group != 0)
        g_hash_table_insert (groups, GUINT_TO_POINTER (group), entry);
    }
  g_array_append_val (entry->items, index);
}

static void
sort_items (WbMergeList *self)
{
  g_autoptr (GHashTable) groups = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < wb_merge_count (self->comparison->merge); i++)
    {
      if (wb_merge_nth (self->comparison->merge, i)->side == WB_MERGE_CONFLICT)
        add_choice (self, i, groups);
      else
        g_array_append_val (self->taken, i);
    }
  if (self->taken->len > 0)
    self->fold = make_entry (self, WB_MERGE_ENTRY_FOLD);
}

static Comparison *
comparison_new (WbJob *base,
                WbJob *mine,
                WbJob *theirs)
{
  Comparison *self = g_rc_box_new0 (Comparison);

  self->base = base != NULL ? wb_job_ref (base) : NULL;
  self->mine = wb_job_ref (mine);
  self->theirs = wb_job_ref (theirs);
  self->jobs = (WbMergeJobs) { base, mine, theirs };
  return self;
}

/* @comparison: (transfer full) */
static WbMergeList *
list_of (Comparison *comparison)
{
  WbMergeList *self = g_object_new (WB_TYPE_MERGE_LIST, NULL);

  self->comparison = comparison;
  sort_items (self);
  return self;
}

WbMergeList *
wb_merge_list_new (WbJob   *base,
                   WbJob   *mine,
                   WbJob   *theirs,
                   GError **error)
{
  g_autoptr (Comparison) comparison = NULL;

  g_return_val_if_fail (mine != NULL && theirs != NULL, NULL);

  comparison = comparison_new (base, mine, theirs);
  comparison->merge = wb_merge_new (base, mine, theirs, error);
  if (comparison->merge == NULL)
    return NULL;
  return list_of (g_steal_pointer (&comparison));
}

WbMergeList *
wb_merge_list_new_published (WbComparison *published)
{
  Comparison *comparison;

  g_return_val_if_fail (published != NULL, NULL);

  comparison = comparison_new (wb_comparison_get_base (published),
                               wb_comparison_get_mine (published),
                               wb_comparison_get_theirs (published));
  comparison->merge = wb_comparison_get_merge (published);
  comparison->owner = wb_comparison_ref (published);
  return list_of (comparison);
}

guint
wb_merge_list_n_choices (WbMergeList *self)
{
  g_return_val_if_fail (WB_IS_MERGE_LIST (self), 0);

  return self->choices->len;
}

guint
wb_merge_list_n_open (WbMergeList *self)
{
  guint n = 0;

  g_return_val_if_fail (WB_IS_MERGE_LIST (self), 0);

  for (guint i = 0; i < self->choices->len; i++)
    if (wb_merge_entry_get_choice (g_ptr_array_index (self->choices, i)) == WB_MERGE_UNDECIDED)
      n++;
  return n;
}

guint
wb_merge_list_n_taken (WbMergeList *self)
{
  g_return_val_if_fail (WB_IS_MERGE_LIST (self), 0);

  return self->taken->len;
}

void
wb_merge_list_choose_all (WbMergeList   *self,
                          WbMergeChoice  choice)
{
  g_return_if_fail (WB_IS_MERGE_LIST (self));

  for (guint i = 0; i < self->choices->len; i++)
    {
      WbMergeEntry *entry = g_ptr_array_index (self->choices, i);

      if (item_of (entry, 0)->choice == choice)
        continue;
      wb_merge_choose (self->comparison->merge, g_array_index (entry->items, guint, 0), choice);
      g_signal_emit (entry, entry_signals[CHANGED], 0);
    }
  g_signal_emit (self, list_signals[DECIDED], 0);
}

guint
wb_merge_list_next_open (WbMergeList *self,
                         guint        from)
{
  guint n;

  g_return_val_if_fail (WB_IS_MERGE_LIST (self), G_MAXUINT);

  n = self->choices->len;
  if (from >= n)
    from = n - 1;
  for (guint i = 1; i <= n; i++)
    {
      guint place = (from + i) % n;
      WbMergeEntry *entry = g_ptr_array_index (self->choices, place);

      if (wb_merge_entry_get_choice (entry) == WB_MERGE_UNDECIDED)
        return place;
    }
  return G_MAXUINT;
}

void
wb_merge_list_set_unfolded (WbMergeList *self,
                            gboolean     unfolded)
{
  guint first;

  g_return_if_fail (WB_IS_MERGE_LIST (self));

  if (self->unfolded == unfolded || self->fold == NULL)
    return;
  first = self->choices->len + 1;
  self->unfolded = unfolded;
  g_list_model_items_changed (G_LIST_MODEL (self), first, unfolded ? 0 : self->taken->len,
                              unfolded ? self->taken->len : 0);
  g_signal_emit (self->fold, entry_signals[CHANGED], 0);
}

WbJob *
wb_merge_list_get_result (WbMergeList  *self,
                          GError      **error)
{
  g_return_val_if_fail (WB_IS_MERGE_LIST (self), NULL);

  return wb_merge_result (self->comparison->merge, error);
}

WbJob *
wb_merge_list_get_side (WbMergeList   *self,
                        WbMergeChoice  whose)
{
  g_return_val_if_fail (WB_IS_MERGE_LIST (self) && whose != WB_MERGE_UNDECIDED, NULL);

  return whose == WB_MERGE_MINE ? self->comparison->mine : self->comparison->theirs;
}
