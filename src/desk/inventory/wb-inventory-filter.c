/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Matching words against pieces. The folded text of a piece is kept on its item until the record
 * changes, so that typing a word goes through thousands of pieces without folding them again. */
#include "config.h"

#include "desk/inventory/wb-inventory-filter.h"

#include "office/wb-words.h"

struct _WbInventoryFilter
{
  GtkFilter    parent_instance;

  WbJobModel  *model;
  char       **words;    /* folded */
  WbJob       *known;    /* (nullable) the job that @inside is of */
  GHashTable  *inside;   /* id of a piece → what is listed inside it, one thing to a line */
};

G_DEFINE_FINAL_TYPE (WbInventoryFilter, wb_inventory_filter, GTK_TYPE_FILTER)

/* What was folded, and of which piece and lot. Both are held, so that no other can come to lie at
 * their address. */
typedef struct
{
  WbRecord *piece;
  WbRecord *lot;
  char     *inside;   /* (nullable) */
  char     *text;
} Folded;

static G_DEFINE_QUARK (wb-inventory-folded, folded)

static void
folded_free (gpointer data)
{
  Folded *self = data;

  wb_record_unref (self->piece);
  g_clear_pointer (&self->lot, wb_record_unref);
  g_free (self->inside);
  g_free (self->text);
  g_free (self);
}

/* Case and accents go, so that "senor" finds "Señor". */
static char *
fold (const char *text)
{
  g_autofree char *decomposed = g_utf8_normalize (text, -1, G_NORMALIZE_ALL);
  g_autoptr (GString) bare = NULL;

  if (decomposed == NULL)
    return g_strdup ("");

  bare = g_string_sized_new (strlen (decomposed));
  for (const char *at = decomposed; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);

      if (!g_unichar_ismark (c))
        g_string_append_unichar (bare, c);
    }
  return g_utf8_casefold (bare->str, (gssize) bare->len);
}

/* Everything of a piece that words may occur in, one to a line, so that no word is found across two
 * fields. */
static char *
fold_piece (const WbJob   *job,
            const WbPiece *piece,
            const char    *inside)
{
  g_autofree char *tag = wb_words_tag (job, piece);
  const char *texts[] = { tag, piece->description, piece->contents, piece->room, piece->packer,
                          piece->serial_number, inside };
  g_autoptr (GString) all = g_string_new (NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    if (texts[i] != NULL)
      g_string_append_printf (all, "%s\n", texts[i]);
  return fold (all->str);
}

static gboolean
same_things (const WbJob *a,
             const WbJob *b)
{
  guint n = wb_job_count (a, WB_KIND_THING);

  if (n != wb_job_count (b, WB_KIND_THING))
    return FALSE;
  for (guint i = 0; i < n; i++)
    if (wb_job_nth (a, WB_KIND_THING, i) != wb_job_nth (b, WB_KIND_THING, i))
      return FALSE;
  return TRUE;
}

static void
gather_inside (WbInventoryFilter *self,
               const WbJob       *job)
{
  guint n = wb_job_count (job, WB_KIND_THING);

  g_hash_table_remove_all (self->inside);
  for (guint i = 0; i < n; i++)
    {
      const WbThing *thing = wb_job_nth (job, WB_KIND_THING, i);
      const char *before = g_hash_table_lookup (self->inside, thing->piece);

      g_hash_table_insert (self->inside, g_strdup (thing->piece),
                           g_strconcat (before != NULL ? before : "", thing->description, "\n",
                                        NULL));
    }
}

/* Returns: (transfer none) (nullable): what is listed inside the piece. */
static const char *
find_inside (WbInventoryFilter *self,
             const char        *piece)
{
  WbJob *job = wb_job_model_get_job (self->model);

  if (self->known != job)
    {
      if (self->known == NULL || !same_things (self->known, job))
        gather_inside (self, job);
      g_clear_pointer (&self->known, wb_job_unref);
      self->known = wb_job_ref (job);
    }
  return g_hash_table_lookup (self->inside, piece);
}

static const char *
ensure_folded (WbInventoryFilter *self,
               WbRecordItem      *item)
{
  const WbJob *job = wb_job_model_get_job (self->model);
  const WbPiece *piece = wb_record_item_get_record (item);
  const WbLot *lot = wb_job_find (job, WB_KIND_LOT, piece->lot);
  const char *inside = find_inside (self, piece->record.id);
  Folded *folded = g_object_get_qdata (G_OBJECT (item), folded_quark ());

  if (folded != NULL && folded->piece == &piece->record && folded->lot == (const WbRecord *) lot
      && g_strcmp0 (folded->inside, inside) == 0)
    return folded->text;

  folded = g_new (Folded, 1);
  folded->piece = wb_record_ref ((gpointer) piece);
  folded->lot = lot != NULL ? wb_record_ref ((gpointer) lot) : NULL;
  folded->inside = g_strdup (inside);
  folded->text = fold_piece (job, piece, inside);
  g_object_set_qdata_full (G_OBJECT (item), folded_quark (), folded, folded_free);
  return folded->text;
}

static gboolean
wb_inventory_filter_match (GtkFilter *filter,
                           gpointer   item)
{
  WbInventoryFilter *self = WB_INVENTORY_FILTER (filter);
  const char *text;

  if (wb_inventory_filter_is_empty (self))
    return TRUE;

  text = ensure_folded (self, WB_RECORD_ITEM (item));
  for (gsize i = 0; self->words[i] != NULL; i++)
    if (strstr (text, self->words[i]) == NULL)
      return FALSE;
  return TRUE;
}

static GtkFilterMatch
wb_inventory_filter_get_strictness (GtkFilter *filter)
{
  return wb_inventory_filter_is_empty (WB_INVENTORY_FILTER (filter))
    ? GTK_FILTER_MATCH_ALL : GTK_FILTER_MATCH_SOME;
}

static void
wb_inventory_filter_finalize (GObject *object)
{
  WbInventoryFilter *self = WB_INVENTORY_FILTER (object);

  g_clear_object (&self->model);
  g_clear_pointer (&self->known, wb_job_unref);
  g_hash_table_unref (self->inside);
  g_strfreev (self->words);

  G_OBJECT_CLASS (wb_inventory_filter_parent_class)->finalize (object);
}

static void
wb_inventory_filter_class_init (WbInventoryFilterClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkFilterClass *filter_class = GTK_FILTER_CLASS (klass);

  object_class->finalize = wb_inventory_filter_finalize;
  filter_class->match = wb_inventory_filter_match;
  filter_class->get_strictness = wb_inventory_filter_get_strictness;
}

static void
wb_inventory_filter_init (WbInventoryFilter *self)
{
  self->inside = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
}

WbInventoryFilter *
wb_inventory_filter_new (WbJobModel *model)
{
  WbInventoryFilter *self = g_object_new (WB_TYPE_INVENTORY_FILTER, NULL);

  self->model = g_object_ref (model);
  return self;
}

/* Whether every word of @narrow's list starts with one of the wide list, position by position: then
 * nothing that was out can come in. */
static gboolean
is_narrower (char **wide,
             char **narrow)
{
  if (wide == NULL)
    return TRUE;

  for (gsize i = 0; wide[i] != NULL; i++)
    if (narrow == NULL || narrow[i] == NULL || strstr (narrow[i], wide[i]) == NULL)
      return FALSE;
  return TRUE;
}

void
wb_inventory_filter_set_words (WbInventoryFilter *self,
                               const char        *words)
{
  g_autofree char *folded = fold (words);
  g_auto (GStrv) parts = g_strsplit_set (folded, " \t\n", -1);
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) before = g_steal_pointer (&self->words);
  GtkFilterChange change = GTK_FILTER_CHANGE_DIFFERENT;

  for (gsize i = 0; parts[i] != NULL; i++)
    if (*parts[i] != '\0')
      g_strv_builder_add (builder, parts[i]);
  self->words = g_strv_builder_end (builder);

  if (before != NULL
      && g_strv_equal ((const char *const *) before, (const char *const *) self->words))
    return;

  if (is_narrower (before, self->words))
    change = GTK_FILTER_CHANGE_MORE_STRICT;
  else if (is_narrower (self->words, before))
    change = GTK_FILTER_CHANGE_LESS_STRICT;
  gtk_filter_changed (GTK_FILTER (self), change);
}

gboolean
wb_inventory_filter_is_empty (WbInventoryFilter *self)
{
  return self->words == NULL || self->words[0] == NULL;
}

void
wb_inventory_filter_refresh (WbInventoryFilter *self)
{
  if (!wb_inventory_filter_is_empty (self))
    gtk_filter_changed (GTK_FILTER (self), GTK_FILTER_CHANGE_DIFFERENT);
}
