/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What two records of one job cannot both have, when each side gave it to another record: found
 * before anybody chooses, and settled in the result. What one side has twice by itself is left to
 * the checks of the inventory. */
#include "core/wb-merge-private.h"

#include <string.h>

/**
 * Unique:
 * @names: no two records have the same in all of these; where one of them is not given there is
 *   nothing to clash, but for a reference, which may be to nothing
 * @field: what the other record has to give up
 */
typedef struct
{
  WbKind       kind;
  const char  *names[3];
  const char  *field;
  WbMergeYield yield;
} Unique;

static const Unique uniques[] = {
  { WB_KIND_LOT,           { "colour", "number" },             "number", WB_MERGE_YIELD_TEXT },
  { WB_KIND_PIECE,         { "lot", "tag" },                   "tag",    WB_MERGE_YIELD_EMPTY },
  { WB_KIND_FINDING,       { "handover", "piece" },            "piece",  WB_MERGE_YIELD_GOES },
  { WB_KIND_CLAIM,         { "number" },                       "number", WB_MERGE_YIELD_TEXT },
  { WB_KIND_CLAIM_LINE,    { "claim", "number" },              "number", WB_MERGE_YIELD_NUMBER },
  { WB_KIND_PACKING_CHECK, { "piece", "rule" },                "rule",   WB_MERGE_YIELD_GOES },
  { WB_KIND_QUOTE,         { "claim_line", "kind", "taken" },  "taken",  WB_MERGE_YIELD_EMPTY },
};

/* --- keys ------------------------------------------------------------------------------------- */

/* Returns: (transfer full) (nullable): the same text for two records that clash. */
static char *
key_of (const Unique   *unique,
        const WbRecord *record)
{
  g_autoptr (GString) key = NULL;

  if (record == NULL)
    return NULL;
  key = g_string_new (NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (unique->names) && unique->names[i] != NULL; i++)
    {
      const WbField *field = wb_record_type_field (record->type, unique->names[i]);
      gboolean set = wb_record_field_is_set (field, record);
      g_autofree char *text = NULL;
      g_autofree char *folded = NULL;

      if (!set && field->type != WB_FIELD_REFERENCE)
        return NULL;
      /* The book takes numbers of claims that differ by case alone for the same. */
      text = set ? wb_record_get_text (record, field) : g_strdup ("");
      folded = field->type == WB_FIELD_TEXT ? g_ascii_strdown (text, -1) : g_strdup (text);
      g_string_append_printf (key, "%" G_GSIZE_FORMAT ":%s", strlen (folded), folded);
    }
  return g_string_free (g_steal_pointer (&key), FALSE);
}

static gboolean
has_key (const Unique *unique,
         const WbJob  *job,
         const char   *id,
         const char   *key)
{
  g_autofree char *own = key_of (unique, wb_job_find (job, unique->kind, id));

  return g_strcmp0 (own, key) == 0;
}

/* --- finding ---------------------------------------------------------------------------------- */

static void
add_clash (WbMerge      *self,
           const Unique *unique,
           const char   *key,
           const char   *a,
           const char   *b)
{
  gboolean straight = has_key (unique, self->mine, a, key) &&
                      has_key (unique, self->theirs, b, key);
  gboolean crossed = has_key (unique, self->mine, b, key) &&
                     has_key (unique, self->theirs, a, key);
  const char *mine = straight ? a : b;
  const char *theirs = straight ? b : a;
  WbMergeItem *item;

  /* One side has both by itself, or a choice is still open that nobody would make. */
  if (straight == crossed ||
      (has_key (unique, self->mine, a, key) && has_key (unique, self->mine, b, key)) ||
      (has_key (unique, self->theirs, a, key) && has_key (unique, self->theirs, b, key)))
    return;
  item = wb_merge_add (self, WB_MERGE_CLASH, WB_MERGE_CONFLICT, unique->kind, mine);
  item->field = wb_record_type_field (wb_record_type (unique->kind), unique->field);
  item->mine = wb_job_find (self->mine, unique->kind, mine);
  item->theirs = wb_job_find (self->theirs, unique->kind, theirs);
  item->yield = unique->yield;
}

/* Notes that the record with @id may have @key in the result, and clashes with those before it. */
static void
note_key (WbMerge      *self,
          const Unique *unique,
          GHashTable   *keys,
          char         *key,
          const char   *id)
{
  GPtrArray *ids = g_hash_table_lookup (keys, key);

  if (ids == NULL)
    {
      ids = g_ptr_array_new ();
      g_hash_table_insert (keys, g_strdup (key), ids);
    }
  for (guint i = 0; i < ids->len; i++)
    add_clash (self, unique, key, g_ptr_array_index (ids, i), id);
  g_ptr_array_add (ids, (gpointer) id);
}

static void
find_clashes_of (WbMerge      *self,
                 const Unique *unique)
{
  g_autoptr (GHashTable) keys = g_hash_table_new_full (g_str_hash, g_str_equal, g_free,
                                                       (GDestroyNotify) g_ptr_array_unref);
  GPtrArray *ids = self->ids[unique->kind];

  for (guint i = 0; i < ids->len; i++)
    {
      const char *id = g_ptr_array_index (ids, i);
      g_autoptr (WbRecord) one = wb_merge_compose (self, unique->kind, id, WB_MERGE_MINE);
      g_autoptr (WbRecord) other = wb_merge_compose (self, unique->kind, id, WB_MERGE_THEIRS);
      g_autofree char *key = key_of (unique, one);
      g_autofree char *other_key = key_of (unique, other);

      if (key != NULL)
        note_key (self, unique, keys, key, id);
      if (other_key != NULL && g_strcmp0 (key, other_key) != 0)
        note_key (self, unique, keys, other_key, id);
    }
}

void
wb_merge_find_clashes (WbMerge *self)
{
  for (gsize i = 0; i < G_N_ELEMENTS (uniques); i++)
    find_clashes_of (self, &uniques[i]);
}

/* --- settling --------------------------------------------------------------------------------- */

static gboolean
is_taken (const Unique   *unique,
          GHashTable     *records,
          const WbRecord *record)
{
  g_autofree char *key = key_of (unique, record);
  GHashTableIter iter;
  gpointer other;

  g_hash_table_iter_init (&iter, records);
  while (g_hash_table_iter_next (&iter, NULL, &other))
    {
      g_autofree char *other_key = NULL;

      if (strcmp (((const WbRecord *) other)->id, record->id) == 0)
        continue;
      other_key = key_of (unique, other);
      if (g_strcmp0 (key, other_key) == 0)
        return TRUE;
    }
  return FALSE;
}

/* The next number above all that its owner has, or the lowest free one where numbers end. */
static void
take_free_number (const Unique  *unique,
                  GHashTable    *records,
                  WbRecord      *record,
                  const WbField *field)
{
  gint64 *number = &G_STRUCT_MEMBER (gint64, record, field->offset);
  GHashTableIter iter;
  gpointer other;
  gint64 highest = 0;

  g_hash_table_iter_init (&iter, records);
  while (g_hash_table_iter_next (&iter, NULL, &other))
    highest = MAX (highest, G_STRUCT_MEMBER (gint64, other, field->offset));
  *number = highest < field->maximum ? highest + 1 : 1;
  while (*number < field->maximum && is_taken (unique, records, record))
    ++*number;
}

/* @text with a number after it, cut where a text has to end. */
static char *
numbered (const char *text,
          guint       n)
{
  g_autofree char *suffix = g_strdup_printf ("-%u", n);
  gsize room = WB_TEXT_MAX_BYTES - strlen (suffix);
  gsize length = strlen (text);

  if (length > room)
    {
      length = room;
      while (length > 0 && ((guchar) text[length] & 0xc0) == 0x80)
        length--;
    }
  return g_strdup_printf ("%.*s%s", (int) length, text, suffix);
}

static void
take_free_text (const Unique  *unique,
                GHashTable    *records,
                WbRecord      *record,
                const WbField *field)
{
  char **member = &G_STRUCT_MEMBER (char *, record, field->offset);
  g_autofree char *text = g_strdup (*member);

  for (guint n = 2; is_taken (unique, records, record); n++)
    {
      g_autofree char *fresh = numbered (text, n);

      wb_set_text (member, fresh);
    }
}

static void
yield (const WbMergeItem *item,
       const Unique      *unique,
       GHashTable        *records,
       const WbRecord    *loser)
{
  g_autoptr (WbRecord) fresh = NULL;
  g_autoptr (WbRecord) blank = NULL;

  if (item->yield == WB_MERGE_YIELD_GOES)
    {
      g_hash_table_remove (records, loser->id);
      return;
    }

  fresh = wb_record_copy (loser);
  switch (item->yield)
    {
    case WB_MERGE_YIELD_NUMBER:
      take_free_number (unique, records, fresh, item->field);
      break;
    case WB_MERGE_YIELD_TEXT:
      take_free_text (unique, records, fresh, item->field);
      break;
    case WB_MERGE_YIELD_EMPTY:
      blank = wb_record_new (item->kind, loser->id);
      wb_record_copy_field (fresh, item->field, blank);
      break;
    case WB_MERGE_YIELD_GOES:
      g_assert_not_reached ();
    }
  /* The key is the id in one of the jobs, and stays. */
  g_hash_table_insert (records, (gpointer) (item->choice == WB_MERGE_MINE ? item->theirs->id
                                                                          : item->mine->id),
                       g_steal_pointer (&fresh));
}

static const char *
lesser_id (const WbMergeItem *item)
{
  return strcmp (item->mine->id, item->theirs->id) < 0 ? item->mine->id : item->theirs->id;
}

static const char *
greater_id (const WbMergeItem *item)
{
  return strcmp (item->mine->id, item->theirs->id) < 0 ? item->theirs->id : item->mine->id;
}

/* In an order that does not depend on which side is called mine. */
static gint
compare_clashes (gconstpointer a,
                 gconstpointer b)
{
  const WbMergeItem *left = *(const WbMergeItem *const *) a;
  const WbMergeItem *right = *(const WbMergeItem *const *) b;
  gint order = (gint) left->kind - (gint) right->kind;

  if (order == 0)
    order = strcmp (lesser_id (left), lesser_id (right));
  return order != 0 ? order : strcmp (greater_id (left), greater_id (right));
}

static const Unique *
find_unique (WbKind kind)
{
  for (gsize i = 0; i < G_N_ELEMENTS (uniques); i++)
    if (uniques[i].kind == kind)
      return &uniques[i];
  g_assert_not_reached ();
}

static void
settle (const WbMergeItem  *item,
        GHashTable        **records)
{
  const Unique *unique = find_unique (item->kind);
  const WbRecord *mine = g_hash_table_lookup (records[item->kind], item->mine->id);
  const WbRecord *theirs = g_hash_table_lookup (records[item->kind], item->theirs->id);
  g_autofree char *key = key_of (unique, mine);
  g_autofree char *other_key = key_of (unique, theirs);

  /* Another choice may have made an end of it. */
  if (key == NULL || g_strcmp0 (key, other_key) != 0)
    return;
  yield (item, unique, records[item->kind], item->choice == WB_MERGE_MINE ? theirs : mine);
}

void
wb_merge_settle_clashes (const WbMerge  *self,
                         GHashTable    **records)
{
  g_autoptr (GPtrArray) clashes = g_ptr_array_new ();

  for (guint i = 0; i < self->items->len; i++)
    {
      const WbMergeItem *item = wb_merge_nth (self, i);

      if (item->what == WB_MERGE_CLASH)
        g_ptr_array_add (clashes, (gpointer) item);
    }
  g_ptr_array_sort (clashes, compare_clashes);
  for (guint i = 0; i < clashes->len; i++)
    settle (g_ptr_array_index (clashes, i), records);
}
