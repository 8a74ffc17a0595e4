/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Holds the entries of catalogue files and finds the one that a text means. How a file reads is
 * known to wb-catalog-parse.c. */
#include "config.h"

#include "core/wb-catalog-private.h"

#include <string.h>

#include "core/wb-lines.h"
#include "core/wb-decimal.h"
#include "core/wb-text.h"

/* Names are unique within a space: cartons and materials share one, as both are counted. */
typedef enum
{
  SPACE_ITEMS,
  SPACE_ARTICLES,
  SPACE_CHECKS,
  SPACE_DEPRECIATIONS,
} Space;

#define N_SPACES 4

struct _WbCatalog
{
  gatomicrefcount  references;
  GPtrArray       *entries[WB_N_CATALOG_KINDS];
  GHashTable      *nicks[N_SPACES];   /* nick to entry */
  GHashTable      *names[N_SPACES];   /* folded nick or name to entry; nothing for checks */
};

G_DEFINE_BOXED_TYPE (WbCatalog, wb_catalog, wb_catalog_ref, wb_catalog_unref)

static Space
space_of (WbCatalogKind kind)
{
  switch (kind)
    {
    case WB_CATALOG_CARTON:
    case WB_CATALOG_MATERIAL:
      return SPACE_ITEMS;
    case WB_CATALOG_ARTICLE:
      return SPACE_ARTICLES;
    case WB_CATALOG_CHECK:
      return SPACE_CHECKS;
    case WB_CATALOG_DEPRECIATION:
      return SPACE_DEPRECIATIONS;
    }
  g_return_val_if_reached (SPACE_ITEMS);
}

/* --- life ------------------------------------------------------------------------------------- */

void
wb_catalog_entry_free (WbCatalogEntry *self)
{
  g_free (self->nick);
  g_free (self->name);
  g_strfreev (self->also);
  g_free (self->unit);
  g_strfreev (self->cartons);
  g_free (self->rule);
  for (guint i = 0; i < WB_N_CATALOG_KEYS; i++)
    g_free (self->source[i]);
  g_free (self->file);
  g_free (self);
}

WbCatalog *
wb_catalog_new (void)
{
  WbCatalog *self = g_new0 (WbCatalog, 1);

  g_atomic_ref_count_init (&self->references);
  for (guint i = 0; i < WB_N_CATALOG_KINDS; i++)
    self->entries[i] = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_catalog_entry_free);
  for (guint i = 0; i < N_SPACES; i++)
    {
      self->nicks[i] = g_hash_table_new (g_str_hash, g_str_equal);
      self->names[i] = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
    }
  return self;
}

WbCatalog *
wb_catalog_ref (WbCatalog *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  g_atomic_ref_count_inc (&self->references);
  return self;
}

void
wb_catalog_unref (WbCatalog *self)
{
  g_return_if_fail (self != NULL);

  if (!g_atomic_ref_count_dec (&self->references))
    return;
  for (guint i = 0; i < N_SPACES; i++)
    {
      g_hash_table_unref (self->nicks[i]);
      g_hash_table_unref (self->names[i]);
    }
  for (guint i = 0; i < WB_N_CATALOG_KINDS; i++)
    g_ptr_array_unref (self->entries[i]);
  g_free (self);
}

/* --- names ------------------------------------------------------------------------------------ */

char *
wb_catalog_fold (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  g_autofree char *plain = g_utf8_normalize (valid, -1, G_NORMALIZE_ALL_COMPOSE);
  g_autofree char *lower = g_utf8_casefold (plain, -1);
  GString *out = g_string_new (NULL);
  gboolean apart = FALSE;

  for (const char *at = lower; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);

      if (!g_unichar_isalnum (c))
        {
          apart = out->len > 0;
          continue;
        }
      if (apart)
        g_string_append_c (out, ' ');
      g_string_append_unichar (out, c);
      apart = FALSE;
    }
  return g_string_free (out, FALSE);
}

/* Puts what @entry is called into @names. Returns: (nullable): the entry that is called so
 * already. */
static const WbCatalogEntry *
take_name (GHashTable     *names,
           WbCatalogEntry *entry,
           const char     *text)
{
  g_autofree char *folded = wb_catalog_fold (text);
  WbCatalogEntry *other = g_hash_table_lookup (names, folded);

  if (other != NULL && other != entry)
    return other;
  g_hash_table_insert (names, g_steal_pointer (&folded), entry);
  return NULL;
}

static const WbCatalogEntry *
take_names (GHashTable     *names,
            WbCatalogEntry *entry,
            const char    **text)
{
  const WbCatalogEntry *other = take_name (names, entry, *text = entry->nick);

  if (other == NULL)
    other = take_name (names, entry, *text = entry->name);
  for (guint i = 0; other == NULL && entry->also != NULL && entry->also[i] != NULL; i++)
    other = take_name (names, entry, *text = entry->also[i]);
  return other;
}

/* --- adding ----------------------------------------------------------------------------------- */

static gboolean
fail_twice (const WbCatalogEntry  *entry,
            const char            *text,
            const WbCatalogEntry  *other,
            GError               **error)
{
  g_autofree char *quoted = wb_text_quote (text, -1);

  return wb_lines_fail (error, WB_CORE_ERROR_CATALOG, entry->file, entry->line,
                        "%s is what the entry of %s, line %u, is called already; expected a nick "
                        "and names of its own",
                        quoted, other->file, other->line);
}

/* Puts the new @entries (borrowed) into copies of the lists, by nick. */
static gboolean
merge (GPtrArray  **lists,
       GPtrArray   *entries,
       gboolean     replace,
       GError     **error)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_direct_hash, g_direct_equal);

  for (guint i = 0; i < entries->len; i++)
    {
      WbCatalogEntry *entry = g_ptr_array_index (entries, i);
      GPtrArray *list = lists[entry->kind];
      guint place = 0;

      while (place < list->len
             && !g_str_equal (((WbCatalogEntry *) g_ptr_array_index (list, place))->nick,
                              entry->nick))
        place++;
      g_hash_table_add (seen, entry);
      if (place == list->len)
        {
          g_ptr_array_add (list, entry);
          continue;
        }
      if (!replace || g_hash_table_contains (seen, g_ptr_array_index (list, place)))
        return fail_twice (entry, entry->nick, g_ptr_array_index (list, place), error);
      g_ptr_array_index (list, place) = entry;
    }
  return TRUE;
}

static gboolean
fill_tables (GPtrArray  **lists,
             GHashTable **nicks,
             GHashTable **names,
             GError     **error)
{
  for (guint kind = 0; kind < WB_N_CATALOG_KINDS; kind++)
    for (guint i = 0; i < lists[kind]->len; i++)
      {
        WbCatalogEntry *entry = g_ptr_array_index (lists[kind], i);
        Space space = space_of (entry->kind);
        const WbCatalogEntry *other;
        const char *text;

        if (entry->dropped)
          continue;
        g_hash_table_insert (nicks[space], entry->nick, entry);
        if (space == SPACE_CHECKS)
          continue;
        other = take_names (names[space], entry, &text);
        if (other != NULL)
          return fail_twice (entry, text, other, error);
      }
  return TRUE;
}

static void
clear_tables (GPtrArray  **lists,
              GHashTable **nicks,
              GHashTable **names)
{
  for (guint i = 0; i < WB_N_CATALOG_KINDS; i++)
    g_clear_pointer (&lists[i], g_ptr_array_unref);
  for (guint i = 0; i < N_SPACES; i++)
    {
      g_clear_pointer (&nicks[i], g_hash_table_unref);
      g_clear_pointer (&names[i], g_hash_table_unref);
    }
}

/* Makes the merged lists those of the catalogue: entries that are in neither go, dropped ones
 * too. */
static void
take_lists (WbCatalog  *self,
            GPtrArray **lists,
            GPtrArray  *entries)
{
  for (guint kind = 0; kind < WB_N_CATALOG_KINDS; kind++)
    {
      GPtrArray *kept = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_catalog_entry_free);
      g_autoptr (GHashTable) stay = g_hash_table_new (g_direct_hash, g_direct_equal);

      for (guint i = 0; i < lists[kind]->len; i++)
        {
          WbCatalogEntry *entry = g_ptr_array_index (lists[kind], i);

          if (entry->dropped)
            continue;
          g_hash_table_add (stay, entry);
          g_ptr_array_add (kept, entry);
        }
      g_ptr_array_set_free_func (self->entries[kind], NULL);
      for (guint i = 0; i < self->entries[kind]->len; i++)
        if (!g_hash_table_contains (stay, g_ptr_array_index (self->entries[kind], i)))
          wb_catalog_entry_free (g_ptr_array_index (self->entries[kind], i));
      g_ptr_array_unref (self->entries[kind]);
      self->entries[kind] = kept;
    }

  g_ptr_array_set_free_func (entries, NULL);
  for (guint i = 0; i < entries->len; i++)
    {
      WbCatalogEntry *entry = g_ptr_array_index (entries, i);

      if (entry->dropped)
        wb_catalog_entry_free (entry);
    }
}

gboolean
wb_catalog_add (WbCatalog   *self,
                const char  *text,
                gsize        length,
                const char  *file,
                gboolean     replace,
                guint       *n_entries,
                GError     **error)
{
  g_autoptr (GPtrArray) entries = NULL;
  GPtrArray *lists[WB_N_CATALOG_KINDS];
  GHashTable *nicks[N_SPACES], *names[N_SPACES];
  gboolean good;

  g_return_val_if_fail (self != NULL, FALSE);
  g_return_val_if_fail (file != NULL, FALSE);

  entries = wb_catalog_parse (text, length, file, error);
  if (entries == NULL)
    return FALSE;

  for (guint i = 0; i < WB_N_CATALOG_KINDS; i++)
    {
      lists[i] = g_ptr_array_new ();
      g_ptr_array_extend (lists[i], self->entries[i], NULL, NULL);
    }
  for (guint i = 0; i < N_SPACES; i++)
    {
      nicks[i] = g_hash_table_new (g_str_hash, g_str_equal);
      names[i] = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
    }

  good = merge (lists, entries, replace, error) && fill_tables (lists, nicks, names, error);
  if (good)
    {
      if (n_entries != NULL)
        *n_entries = entries->len;
      for (guint i = 0; i < N_SPACES; i++)
        {
          GHashTable *before = self->nicks[i];

          self->nicks[i] = nicks[i];
          nicks[i] = before;
          before = self->names[i];
          self->names[i] = names[i];
          names[i] = before;
        }
      take_lists (self, lists, entries);
    }
  clear_tables (lists, nicks, names);
  return good;
}

GPtrArray *
wb_catalog_check (const WbCatalog *self)
{
  g_autoptr (GPtrArray) faults = NULL;

  g_return_val_if_fail (self != NULL, NULL);

  faults = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < wb_catalog_count (self, WB_CATALOG_CHECK); i++)
    {
      const WbCatalogEntry *check = wb_catalog_nth (self, WB_CATALOG_CHECK, i);

      for (guint j = 0; check->cartons != NULL && check->cartons[j] != NULL; j++)
        if (wb_catalog_find (self, WB_CATALOG_CARTON, check->cartons[j]) == NULL)
          g_ptr_array_add (faults,
                           g_strdup_printf ("%s:%u: there is no carton “%s”; expected the nick of "
                                            "a carton of the catalogue",
                                            check->file, check->line, check->cartons[j]));
    }
  return g_steal_pointer (&faults);
}

/* --- looking up ------------------------------------------------------------------------------- */

guint
wb_catalog_count (const WbCatalog *self,
                  WbCatalogKind    kind)
{
  g_return_val_if_fail (self != NULL, 0);
  g_return_val_if_fail ((guint) kind < WB_N_CATALOG_KINDS, 0);

  return self->entries[kind]->len;
}

const WbCatalogEntry *
wb_catalog_nth (const WbCatalog *self,
                WbCatalogKind    kind,
                guint            index)
{
  g_return_val_if_fail (index < wb_catalog_count (self, kind), NULL);

  return g_ptr_array_index (self->entries[kind], index);
}

const WbCatalogEntry *
wb_catalog_find (const WbCatalog *self,
                 WbCatalogKind    kind,
                 const char      *nick)
{
  const WbCatalogEntry *entry;

  g_return_val_if_fail (self != NULL, NULL);
  g_return_val_if_fail (nick != NULL, NULL);

  entry = g_hash_table_lookup (self->nicks[space_of (kind)], nick);
  return entry != NULL && entry->kind == kind ? entry : NULL;
}

const WbCatalogEntry *
wb_catalog_match (const WbCatalog *self,
                  WbCatalogKind    kind,
                  const char      *text)
{
  g_autofree char *folded = NULL;
  const WbCatalogEntry *entry;

  g_return_val_if_fail (self != NULL, NULL);

  if (text == NULL)
    return NULL;
  folded = wb_catalog_fold (text);
  entry = g_hash_table_lookup (self->names[space_of (kind)], folded);
  return entry != NULL && entry->kind == kind ? entry : NULL;
}

const WbCatalogEntry *
wb_catalog_match_item (const WbCatalog *self,
                       const char      *text)
{
  const WbCatalogEntry *entry = wb_catalog_match (self, WB_CATALOG_CARTON, text);

  return entry != NULL ? entry : wb_catalog_match (self, WB_CATALOG_MATERIAL, text);
}

/* Whether @words stands in @text (both folded) between spaces or the ends. */
static gboolean
has_words (const char *text,
           const char *words)
{
  gsize length = strlen (words);

  for (const char *at = strstr (text, words); at != NULL; at = strstr (at + 1, words))
    if ((at == text || at[-1] == ' ') && (at[length] == ' ' || at[length] == '\0'))
      return TRUE;
  return FALSE;
}

/* The entry of @space with the longest name that stands in @description as whole words. */
static const WbCatalogEntry *
find_in_description (const WbCatalog *self,
                     Space            space,
                     const char      *description)
{
  g_autofree char *folded = NULL;
  const WbCatalogEntry *best = NULL;
  const char *best_name = NULL;
  GHashTableIter iter;
  gpointer name, entry;

  if (description == NULL)
    return NULL;

  folded = wb_catalog_fold (description);
  g_hash_table_iter_init (&iter, self->names[space]);
  while (g_hash_table_iter_next (&iter, &name, &entry))
    {
      int longer = best_name == NULL ? 1 : (int) strlen (name) - (int) strlen (best_name);

      /* Of equally long names the first by letters, so that the order of the table is of no
       * account. */
      if (*(char *) name != '\0' && (longer > 0 || (longer == 0 && strcmp (name, best_name) < 0))
          && has_words (folded, name))
        {
          best = entry;
          best_name = name;
        }
    }
  return best;
}

const WbCatalogEntry *
wb_catalog_match_description (const WbCatalog *self,
                              const char      *description)
{
  g_return_val_if_fail (self != NULL, NULL);

  return find_in_description (self, SPACE_ARTICLES, description);
}

const WbCatalogEntry *
wb_catalog_match_depreciation (const WbCatalog *self,
                               const char      *description)
{
  g_return_val_if_fail (self != NULL, NULL);

  return find_in_description (self, SPACE_DEPRECIATIONS, description);
}

gboolean
wb_catalog_check_is_for (const WbCatalogEntry *check,
                         const WbCatalogEntry *carton)
{
  g_return_val_if_fail (check != NULL && check->kind == WB_CATALOG_CHECK, FALSE);

  return check->cartons == NULL
         || (carton != NULL
             && g_strv_contains ((const char *const *) check->cartons, carton->nick));
}

static char *
side_to_text (gint64 hundredths)
{
  char *text = wb_decimal_to_text (hundredths, 2);

  if (g_str_has_suffix (text, ".00"))
    text[strlen (text) - 3] = '\0';
  return text;
}

char *
wb_catalog_inside_to_text (const WbCatalogEntry *entry)
{
  g_autofree char *length = NULL;
  g_autofree char *width = NULL;
  g_autofree char *height = NULL;

  g_return_val_if_fail (entry != NULL, NULL);

  if (entry->inside_unit == WB_LENGTH_UNIT_NONE)
    return g_strdup ("");

  length = side_to_text (entry->inside[0]);
  width = side_to_text (entry->inside[1]);
  height = side_to_text (entry->inside[2]);
  return g_strdup_printf ("%s × %s × %s %s", length, width, height,
                          entry->inside_unit == WB_LENGTH_UNIT_IN ? "in" : "cm");
}
