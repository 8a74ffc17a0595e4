/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads a catalogue file into entries; the format is described in data/catalogs/FORMAT.md. What
 * entries of several files say together is known to wb-catalog.c. */
#include "config.h"

#include "core/wb-catalog-private.h"

#include <string.h>

#include "core/wb-decimal.h"
#include "core/wb-lines.h"
#include "core/wb-percent.h"
#include "core/wb-record.h"
#include "core/wb-text.h"

#define MOST_NICK_CHARACTERS 64
#define MOST_NAME_CHARACTERS 100
#define MOST_RULE_CHARACTERS 500
#define MOST_SOURCE_CHARACTERS 500
#define MOST_LIST_WORDS 40
#define MOST_ENTRIES 2000
#define MOST_INSIDE_HUNDREDTHS 100000
#define MOST_LIFE_YEARS 500

static const WbEnumValue kind_values[] = {
  { WB_CATALOG_CARTON, "carton", "carton" },
  { WB_CATALOG_MATERIAL, "material", "material" },
  { WB_CATALOG_ARTICLE, "article", "article" },
  { WB_CATALOG_CHECK, "check", "check" },
  { WB_CATALOG_DEPRECIATION, "depreciation", "depreciation" },
};

const WbEnum wb_catalog_kinds = { "kind of entry", kind_values, G_N_ELEMENTS (kind_values) };

static const WbEnumValue key_values[] = {
  { WB_CATALOG_NICK, "nick", "nick" },
  { WB_CATALOG_NAME, "name", "name" },
  { WB_CATALOG_ALSO, "also", "also" },
  { WB_CATALOG_UNIT, "unit", "unit" },
  { WB_CATALOG_VOLUME, "volume", "volume" },
  { WB_CATALOG_INSIDE, "inside", "inside" },
  { WB_CATALOG_WEIGHT, "weight", "weight" },
  { WB_CATALOG_CARTONS, "cartons", "cartons" },
  { WB_CATALOG_RULE, "rule", "rule" },
  { WB_CATALOG_LIFE, "life", "life" },
  { WB_CATALOG_YEARLY, "yearly", "yearly" },
  { WB_CATALOG_FLAT, "flat", "flat" },
  { WB_CATALOG_LEAST, "least", "least" },
  { WB_CATALOG_DROPPED, "dropped", "dropped" },
};

const WbEnum wb_catalog_keys = { "key", key_values, G_N_ELEMENTS (key_values) };

G_STATIC_ASSERT (G_N_ELEMENTS (kind_values) == WB_N_CATALOG_KINDS);
G_STATIC_ASSERT (G_N_ELEMENTS (key_values) == WB_N_CATALOG_KEYS);

#define OF(kind) (1u << WB_CATALOG_##kind)
#define OF_ALL ((1u << WB_N_CATALOG_KINDS) - 1)
#define HEADINGS "[carton], [material], [article], [check] or [depreciation]"

/* In which entries a key may stand, in which it has to, in which its value needs a source. */
static const struct
{
  guint       of;
  guint       needed;
  guint       sourced;
  const char *expected;
} rows[] = {
  [WB_CATALOG_NICK] = { OF_ALL, OF_ALL, 0,
                        "up to 64 small letters, digits and hyphens, such as “dish”" },
  [WB_CATALOG_NAME] = { OF_ALL, OF_ALL, OF (MATERIAL),
                        "up to 100 characters that a person reads" },
  [WB_CATALOG_ALSO] = { OF_ALL & ~OF (CHECK), 0, 0,
                        "up to 40 other names with commas between" },
  [WB_CATALOG_UNIT] = { OF (MATERIAL), 0, 0, "what is counted, such as “roll”" },
  [WB_CATALOG_VOLUME] = { OF (CARTON) | OF (ARTICLE), 0, OF (CARTON) | OF (ARTICLE),
                          "a volume with its unit, such as “3.0 cuft”" },
  [WB_CATALOG_INSIDE] = { OF (CARTON), 0, OF (CARTON),
                          "length, width and height with their unit, such as “18 x 18 x 28 in”" },
  [WB_CATALOG_WEIGHT] = { OF (CARTON) | OF (ARTICLE), 0, OF (CARTON) | OF (ARTICLE),
                          "a weight with its unit, such as “40 lb”" },
  [WB_CATALOG_CARTONS] = { OF (CHECK), OF (CHECK), 0,
                           "“all”, or nicks of cartons with commas between" },
  [WB_CATALOG_RULE] = { OF (CHECK) | OF (DEPRECIATION), OF (CHECK), OF (CHECK) | OF (DEPRECIATION),
                        "up to 500 characters that say what is to be seen to" },
  [WB_CATALOG_LIFE] = { OF (DEPRECIATION), 0, OF (DEPRECIATION),
                        "a number of years, such as “10 years”" },
  [WB_CATALOG_YEARLY] = { OF (DEPRECIATION), 0, OF (DEPRECIATION),
                          "a percentage above 0, as printed, such as “7 %”" },
  [WB_CATALOG_FLAT] = { OF (DEPRECIATION), 0, OF (DEPRECIATION),
                        "the percentage that comes off whatever the age, such as “40 %”" },
  [WB_CATALOG_LEAST] = { OF (DEPRECIATION), 0, OF (DEPRECIATION),
                         "the percentage that comes off at least, such as “10 %”" },
  [WB_CATALOG_DROPPED] = { OF_ALL, 0, 0, "yes" },
};

G_STATIC_ASSERT (G_N_ELEMENTS (rows) == WB_N_CATALOG_KEYS);

typedef struct
{
  WbLines         lines;
  WbCatalogEntry *entry;                      /* being read, the last of @entries */
  guint           key_line[WB_N_CATALOG_KEYS]; /* in the entry being read; 0: not yet */
  GPtrArray      *entries;
} Reader;

static void
clear_reader (Reader *self)
{
  wb_lines_close (&self->lines);
  g_clear_pointer (&self->entries, g_ptr_array_unref);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Reader, clear_reader)

/* --- messages --------------------------------------------------------------------------------- */

G_GNUC_PRINTF (4, 5)
static gboolean
fail (const Reader  *self,
      guint          line,
      GError       **error,
      const char    *format,
      ...)
{
  va_list args;

  va_start (args, format);
  wb_lines_fail_v (error, WB_CORE_ERROR_CATALOG, self->lines.file, line, format, args);
  va_end (args);
  return FALSE;
}

static gboolean
fail_heading (const Reader  *self,
              GError       **error)
{
  g_autofree char *quoted = wb_text_quote (self->lines.name, -1);

  return fail (self, self->lines.number, error,
               "unknown heading %s; expected " HEADINGS, quoted);
}

static gboolean
fail_key (const Reader  *self,
          GError       **error)
{
  g_autofree char *quoted = wb_text_quote (self->lines.name, -1);
  const char *kind = wb_enum_nick (&wb_catalog_kinds, (int) self->entry->kind);
  WbTextGuess guess = wb_text_guess_begin (self->lines.name);

  if (wb_enum_find_nick (&wb_catalog_keys, self->lines.name) != NULL)
    return fail (self, self->lines.number, error,
                 "%s does not belong in [%s]; expected a key of that heading", quoted, kind);

  for (guint key = 0; key < WB_N_CATALOG_KEYS; key++)
    if ((rows[key].of & (1u << self->entry->kind)) != 0)
      wb_text_guess_try (&guess, key_values[key].nick);
  if (guess.nearest != NULL)
    return fail (self, self->lines.number, error,
                 "unknown key %s in [%s]; expected perhaps “%s”", quoted, kind, guess.nearest);
  return fail (self, self->lines.number, error,
               "unknown key %s in [%s]; expected a key of the catalogue format", quoted, kind);
}

static gboolean
fail_value (const Reader  *self,
            WbCatalogKey   key,
            const GError  *why,
            GError       **error)
{
  const char *name = key_values[key].nick;
  g_autofree char *quoted = wb_text_quote (self->lines.value, -1);

  if (*self->lines.value == '\0')
    return fail (self, self->lines.number, error, "“%s” has no value; expected %s", name,
                 rows[key].expected);
  if (why != NULL)
    return fail (self, self->lines.number, error, "“%s” does not read: %s; expected %s", name,
                 why->message, rows[key].expected);
  return fail (self, self->lines.number, error, "“%s” cannot be %s; expected %s", name, quoted,
               rows[key].expected);
}

/* --- values ----------------------------------------------------------------------------------- */

static gboolean
is_nick (const char *text)
{
  gsize length = strlen (text);

  if (length == 0 || length > MOST_NICK_CHARACTERS)
    return FALSE;
  for (; *text != '\0'; text++)
    if (!g_ascii_isdigit (*text) && !g_ascii_islower (*text) && *text != '-')
      return FALSE;
  return TRUE;
}

static gboolean
read_text (const char  *text,
           glong        most,
           char       **out)
{
  if (*text == '\0' || g_utf8_strlen (text, -1) > most)
    return FALSE;
  *out = g_strdup (text);
  return TRUE;
}

/* A comma-separated list; @out stays %NULL when a word of it will not do. */
static gboolean
read_list (const char   *text,
           gboolean      nicks,
           char       ***out)
{
  g_auto (GStrv) words = g_strsplit (text, ",", MOST_LIST_WORDS + 1);

  if (words[0] == NULL || g_strv_length (words) > MOST_LIST_WORDS)
    return FALSE;
  for (guint i = 0; words[i] != NULL; i++)
    {
      g_strstrip (words[i]);
      if (nicks ? !is_nick (words[i])
                : *words[i] == '\0' || g_utf8_strlen (words[i], -1) > MOST_NAME_CHARACTERS)
        return FALSE;
    }
  *out = g_steal_pointer (&words);
  return TRUE;
}

/* Reads a number above zero with nothing behind it. */
static gboolean
read_side (const char *text,
           gint64     *out)
{
  WbDecimal decimal;
  const char *end = wb_decimal_scan (text, text, &decimal, NULL);

  return end != NULL && *end == '\0' && wb_decimal_scale (&decimal, text, FALSE, 2, out, NULL)
         && *out > 0 && *out <= MOST_INSIDE_HUNDREDTHS;
}

static gboolean
read_inside (const char     *text,
             WbCatalogEntry *entry)
{
  g_auto (GStrv) sides = g_strsplit (text, "x", 4);
  gsize length;
  char *last;

  if (g_strv_length (sides) != 3)
    return FALSE;

  last = g_strchomp (sides[2]);
  length = strlen (last);
  if (g_str_has_suffix (last, "in"))
    entry->inside_unit = WB_LENGTH_UNIT_IN;
  else if (g_str_has_suffix (last, "cm"))
    entry->inside_unit = WB_LENGTH_UNIT_CM;
  else
    return FALSE;
  last[length - 2] = '\0';

  for (guint i = 0; i < 3; i++)
    {
      if (!read_side (g_strstrip (sides[i]), &entry->inside[i]))
        return FALSE;
    }
  return TRUE;
}

/* Reads "10 years", "1 year". */
static gboolean
read_life (const char *text,
           gint64     *out)
{
  WbDecimal decimal;
  const char *end = wb_decimal_scan (text, text, &decimal, NULL);
  gint64 years;

  if (end == NULL || !wb_decimal_scale (&decimal, text, FALSE, 0, &years, NULL)
      || years < 1 || years > MOST_LIFE_YEARS)
    return FALSE;
  end = wb_text_skip_space (end);
  if (!g_str_equal (end, "years") && !g_str_equal (end, "year"))
    return FALSE;
  *out = years;
  return TRUE;
}

static gboolean
read_percent (const char  *text,
              gint64      *out,
              GError     **why)
{
  gint64 hundredths;

  if (!wb_percent_parse (text, &hundredths, why) || hundredths == 0)
    return FALSE;
  *out = hundredths;
  return TRUE;
}

static gboolean
read_value (const char     *text,
            WbCatalogKey    key,
            WbCatalogEntry *entry,
            GError        **why)
{
  switch (key)
    {
    case WB_CATALOG_NICK:
      return is_nick (text) && read_text (text, MOST_NICK_CHARACTERS, &entry->nick);
    case WB_CATALOG_NAME:
      return read_text (text, MOST_NAME_CHARACTERS, &entry->name);
    case WB_CATALOG_ALSO:
      return read_list (text, FALSE, &entry->also);
    case WB_CATALOG_UNIT:
      return read_text (text, MOST_NAME_CHARACTERS, &entry->unit);
    case WB_CATALOG_VOLUME:
      return wb_volume_parse (text, WB_VOLUME_UNIT_NONE, &entry->volume, why)
             && entry->volume.bits > 0
             && entry->volume.bits / WB_BITS_PER_CUFT < WB_VOLUME_MAX_CUFT;
    case WB_CATALOG_INSIDE:
      return read_inside (text, entry);
    case WB_CATALOG_WEIGHT:
      return wb_weight_parse (text, WB_WEIGHT_UNIT_NONE, &entry->weight, why)
             && wb_weight_is_positive (entry->weight)
             && entry->weight.grains / WB_GRAINS_PER_LB < WB_WEIGHT_MAX_LB;
    case WB_CATALOG_CARTONS:
      return g_str_equal (text, "all") || read_list (text, TRUE, &entry->cartons);
    case WB_CATALOG_RULE:
      return read_text (text, MOST_RULE_CHARACTERS, &entry->rule);
    case WB_CATALOG_LIFE:
      return read_life (text, &entry->life);
    case WB_CATALOG_YEARLY:
      return read_percent (text, &entry->yearly, why);
    case WB_CATALOG_FLAT:
      return read_percent (text, &entry->flat, why);
    case WB_CATALOG_LEAST:
      return read_percent (text, &entry->least, why);
    case WB_CATALOG_DROPPED:
      entry->dropped = g_str_equal (text, "yes");
      return entry->dropped;
    }
  g_return_val_if_reached (FALSE);
}

/* --- lines ------------------------------------------------------------------------------------ */

static gboolean
check_source (const Reader  *self,
              WbCatalogKey   key,
              const char    *source,
              GError       **error)
{
  if (source == NULL && (rows[key].sourced & (1u << self->entry->kind)) == 0)
    return TRUE;
  if (source == NULL)
    return fail (self, self->lines.number, error,
                 "“%s” has no source; expected “; ” and where the value comes from, such as “; "
                 "from memory”",
                 key_values[key].nick);
  if (*source == '\0')
    return fail (self, self->lines.number, error,
                 "nothing stands after the semicolon; expected where the value comes from");
  if (g_utf8_strlen (source, -1) > MOST_SOURCE_CHARACTERS)
    return fail (self, self->lines.number, error,
                 "the source is too long; expected up to %d characters", MOST_SOURCE_CHARACTERS);
  return TRUE;
}

static gboolean
read_pair (Reader  *self,
           GError **error)
{
  const WbEnumValue *found = wb_enum_find_nick (&wb_catalog_keys, self->lines.name);
  g_autoptr (GError) why = NULL;
  WbCatalogKey key;
  char *source;

  if (self->entry == NULL)
    return fail (self, self->lines.number, error,
                 "this stands before the first heading; expected " HEADINGS " first");
  if (found == NULL || (rows[found->value].of & (1u << self->entry->kind)) == 0)
    return fail_key (self, error);

  key = (WbCatalogKey) found->value;
  if (self->key_line[key] != 0)
    return fail (self, self->lines.number, error,
                 "“%s” stands here a second time; expected it once, and it is on line %u already",
                 found->nick, self->key_line[key]);

  source = wb_lines_split_source (self->lines.value);
  if (!read_value (self->lines.value, key, self->entry, &why))
    return fail_value (self, key, why, error);
  if (!check_source (self, key, source, error))
    return FALSE;

  self->key_line[key] = self->lines.number;
  self->entry->source[key] = g_strdup (source);
  return TRUE;
}

/* A depreciation says how much comes off, in figures or in words, and no figure of it stands there
 * without effect. */
static gboolean
check_depreciation (const Reader  *self,
                    GError       **error)
{
  const WbCatalogEntry *entry = self->entry;

  if (entry->kind != WB_CATALOG_DEPRECIATION || entry->dropped)
    return TRUE;
  if (entry->yearly != WB_INTEGER_UNSET && entry->flat != WB_INTEGER_UNSET)
    return fail (self, self->key_line[WB_CATALOG_YEARLY], error,
                 "“yearly” has no effect beside “flat”, which comes off whatever the age; expected "
                 "one of them");
  if (entry->life != WB_INTEGER_UNSET && entry->yearly == WB_INTEGER_UNSET)
    return fail (self, self->key_line[WB_CATALOG_LIFE], error,
                 "“life” has no effect here, because no percentage is worked out from it; expected "
                 "“yearly” with it");
  if (entry->yearly == WB_INTEGER_UNSET && entry->flat == WB_INTEGER_UNSET
      && entry->least == WB_INTEGER_UNSET && entry->rule == NULL)
    return fail (self, entry->line, error,
                 "this depreciation says nothing; expected “yearly”, “flat” or “least”, or “rule” "
                 "when its table has no percentage");
  return TRUE;
}

/* The entry being read is at its end. One that only drops another needs no more than its nick. */
static gboolean
end_entry (const Reader  *self,
           GError       **error)
{
  const WbCatalogEntry *entry = self->entry;

  if (entry == NULL)
    return TRUE;

  for (guint key = 0; key < WB_N_CATALOG_KEYS; key++)
    {
      gboolean needed = (rows[key].needed & (1u << entry->kind)) != 0;

      if (needed && self->key_line[key] == 0 && !(entry->dropped && key != WB_CATALOG_NICK))
        return fail (self, entry->line, error, "this %s has no “%s”; expected %s",
                     wb_enum_nick (&wb_catalog_kinds, (int) entry->kind), key_values[key].nick,
                     rows[key].expected);
    }
  return check_depreciation (self, error);
}

static gboolean
read_heading (Reader  *self,
              GError **error)
{
  const WbEnumValue *kind = wb_enum_find_nick (&wb_catalog_kinds, self->lines.name);

  if (!end_entry (self, error))
    return FALSE;
  if (kind == NULL)
    return fail_heading (self, error);
  if (self->entries->len == MOST_ENTRIES)
    return fail (self, self->lines.number, error,
                 "the file has too many entries; expected at most %d", MOST_ENTRIES);

  self->entry = g_new0 (WbCatalogEntry, 1);
  self->entry->kind = (WbCatalogKind) kind->value;
  self->entry->life = WB_INTEGER_UNSET;
  self->entry->yearly = WB_INTEGER_UNSET;
  self->entry->flat = WB_INTEGER_UNSET;
  self->entry->least = WB_INTEGER_UNSET;
  self->entry->file = g_strdup (self->lines.file);
  self->entry->line = self->lines.number;
  memset (self->key_line, 0, sizeof self->key_line);
  g_ptr_array_add (self->entries, self->entry);
  return TRUE;
}

static gboolean
end_file (const Reader  *self,
          GError       **error)
{
  if (self->entry == NULL)
    return fail (self, MAX (self->lines.number, 1), error,
                 "the file has no entry; expected " HEADINGS);
  return end_entry (self, error);
}

GPtrArray *
wb_catalog_parse (const char *text,
                  gsize       length,
                  const char *file,
                  GError    **error)
{
  g_auto (Reader) reader = { 0 };
  WbLinesKind kind = WB_LINES_HEADING;

  if (!wb_lines_open (&reader.lines, text, length, file, "carton", WB_CORE_ERROR_CATALOG, error))
    return NULL;

  reader.entries = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_catalog_entry_free);
  while (kind != WB_LINES_END)
    {
      if (!wb_lines_next (&reader.lines, &kind, error))
        return NULL;
      if (kind == WB_LINES_HEADING && !read_heading (&reader, error))
        return NULL;
      if (kind == WB_LINES_PAIR && !read_pair (&reader, error))
        return NULL;
    }

  if (!end_file (&reader, error))
    return NULL;
  return g_steal_pointer (&reader.entries);
}
