/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads a terms file line by line into editions; the format is described in
 * data/terms/FORMAT.md. How a value reads is known to wb-terms-value.c, whether the figures of
 * an edition go together to wb-terms-check.c. */
#include "config.h"

#include "core/wb-terms-private.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-lines.h"
#include "core/wb-text.h"

#define MOST_REGIME_CHARACTERS 64
#define MOST_REGION_CHARACTERS 20
#define MOST_TITLE_CHARACTERS 200
#define EDITION_HEADING "edition"

/* The keys at the top of the file, and those of an edition's own heading. */
typedef enum
{
  HEAD_REGIME,
  HEAD_TITLE,
  HEAD_CURRENCY,
  HEAD_MOVE_TYPE,
  HEAD_REGION,
  HEAD_FROM,
  HEAD_UNTIL,
} HeadKey;

#define N_HEAD_KEYS 7

static const struct
{
  const char *name;
  gboolean    of_edition;
  gboolean    needed;
  const char *expected;
} head_keys[] = {
  [HEAD_REGIME] = { "regime", FALSE, TRUE,
                    "up to 64 small letters, digits and hyphens, such as “us-interstate”" },
  [HEAD_TITLE] = { "title", FALSE, TRUE,
                   "up to 200 characters that tell a person which regime it is" },
  [HEAD_CURRENCY] = { "currency", FALSE, TRUE, "an ISO 4217 code, such as “USD”" },
  [HEAD_MOVE_TYPE] = { "move-type", FALSE, FALSE, "interstate, intrastate, military or other" },
  [HEAD_REGION] = { "region", FALSE, FALSE, "up to 20 letters, digits and hyphens, such as “WA”" },
  [HEAD_FROM] = { "from", TRUE, TRUE,
                  "the first day of pick-up that the edition governs, such as “2012-05-15”" },
  [HEAD_UNTIL] = { "until", TRUE, FALSE,
                   "the last day of pick-up that the edition governs, such as “2020-05-14”" },
};

G_STATIC_ASSERT (G_N_ELEMENTS (head_keys) == N_HEAD_KEYS);

typedef enum
{
  PLACE_TOP,
  PLACE_EDITION,
  PLACE_SECTION,
} Place;

typedef struct
{
  const char    *file;
  char          *digest;
  GBytes        *text;
  guint          line;                               /* the line being read, from 1 */
  Place          place;
  WbTermsSection section;                            /* when in one */
  guint          head_line[N_HEAD_KEYS];             /* where a head key stands; 0: not yet */
  guint          section_line[WB_N_TERMS_SECTIONS];  /* in the edition being read; 0: not yet */
  char          *regime;
  char          *title;
  char           currency[4];
  WbMoveType     move_type;
  char          *region;
  WbTerms       *edition;                            /* the one being read, the last of @editions */
  GPtrArray     *editions;
} Reader;

static void
clear_reader (Reader *self)
{
  g_clear_pointer (&self->digest, g_free);
  g_clear_pointer (&self->text, g_bytes_unref);
  g_clear_pointer (&self->regime, g_free);
  g_clear_pointer (&self->title, g_free);
  g_clear_pointer (&self->region, g_free);
  g_clear_pointer (&self->editions, g_ptr_array_unref);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Reader, clear_reader)

/* --- messages --------------------------------------------------------------------------------- */

static char *
name_place_of_key (WbTermsKey key)
{
  for (guint section = 0; section < WB_SECTION_RELEASED; section++)
    if (wb_terms_section_has ((WbTermsSection) section, key))
      return g_strdup_printf ("in [%s]", wb_enum_nick (&wb_terms_sections, (int) section));
  return g_strdup ("in [released] or [full]");
}

/* Returns: (nullable): where the format has a key called @name. */
static char *
name_place (const char *name)
{
  const WbEnumValue *key = wb_enum_find_nick (&wb_terms_keys, name);

  if (key != NULL)
    return name_place_of_key ((WbTermsKey) key->value);
  for (guint i = 0; i < N_HEAD_KEYS; i++)
    if (g_str_equal (head_keys[i].name, name))
      return g_strdup (head_keys[i].of_edition ? "in [edition]" : "at the top of the file");
  return NULL;
}

static char *
name_here (const Reader *self)
{
  switch (self->place)
    {
    case PLACE_TOP:
      return g_strdup ("at the top of the file");
    case PLACE_EDITION:
      return g_strdup ("in [edition]");
    case PLACE_SECTION:
      return g_strdup_printf ("in [%s]", wb_enum_nick (&wb_terms_sections, (int) self->section));
    }
  g_return_val_if_reached (NULL);
}

/* A key that does not belong where it stands, or that nobody knows. */
static gboolean
fail_key (const Reader *self,
          const char   *name,
          GError      **error)
{
  g_autofree char *quoted = wb_text_quote (name, -1);
  g_autofree char *here = name_here (self);
  g_autofree char *there = name_place (name);
  WbTextGuess guess = wb_text_guess_begin (name);

  if (there != NULL)
    return wb_terms_fail (error, self->file, self->line, "%s does not belong %s; expected %s",
                          quoted, here, there);

  for (gsize i = 0; i < wb_terms_keys.n_values; i++)
    wb_text_guess_try (&guess, wb_terms_keys.values[i].nick);
  for (guint i = 0; i < N_HEAD_KEYS; i++)
    wb_text_guess_try (&guess, head_keys[i].name);
  if (guess.nearest == NULL)
    return wb_terms_fail (error, self->file, self->line,
                          "unknown key %s %s; expected a key of the terms format", quoted, here);

  there = name_place (guess.nearest);
  return wb_terms_fail (error, self->file, self->line,
                        "unknown key %s %s; expected perhaps “%s”, %s", quoted, here, guess.nearest,
                        there);
}

static gboolean
fail_section (const Reader *self,
              const char   *name,
              GError      **error)
{
  g_autofree char *quoted = wb_text_quote (name, -1);
  WbTextGuess guess = wb_text_guess_begin (name);

  wb_text_guess_try (&guess, EDITION_HEADING);
  for (gsize i = 0; i < wb_terms_sections.n_values; i++)
    wb_text_guess_try (&guess, wb_terms_sections.values[i].nick);
  if (guess.nearest == NULL)
    return wb_terms_fail (error, self->file, self->line,
                          "unknown section %s; expected [edition], [shipment], [articles], [loss], "
                          "[freight], [claims], [released] or [full]",
                          quoted);

  return wb_terms_fail (error, self->file, self->line, "unknown section %s; expected perhaps [%s]",
                        quoted, guess.nearest);
}

/* @why: (nullable): what is wrong with @value */
static gboolean
fail_value (const Reader *self,
            const char   *key,
            const char   *value,
            const GError *why,
            const char   *expected,
            GError      **error)
{
  g_autofree char *quoted = wb_text_quote (value, -1);

  if (*value == '\0')
    return wb_terms_fail (error, self->file, self->line, "“%s” has no value; expected %s", key,
                          expected);
  if (why != NULL)
    return wb_terms_fail (error, self->file, self->line, "“%s” does not read: %s; expected %s",
                          key, why->message, expected);
  return wb_terms_fail (error, self->file, self->line, "“%s” cannot be %s; expected %s", key,
                        quoted, expected);
}

static gboolean
fail_twice (const Reader *self,
            const char   *what,
            guint         first,
            GError      **error)
{
  return wb_terms_fail (error, self->file, self->line,
                        "%s stands here a second time; expected it once, and it is on line %u "
                        "already",
                        what, first);
}

/* --- head keys -------------------------------------------------------------------------------- */

static gboolean
is_made_of (const char *text,
            gsize       most,
            gboolean    capitals)
{
  gsize length = strlen (text);

  if (length == 0 || length > most)
    return FALSE;
  for (; *text != '\0'; text++)
    if (!g_ascii_isdigit (*text) && !g_ascii_islower (*text) && *text != '-'
        && !(capitals && g_ascii_isupper (*text)))
      return FALSE;
  return TRUE;
}

/* Returns: whether @value reads as the value of @key. */
static gboolean
take_head_value (Reader     *self,
                 HeadKey     key,
                 const char *value)
{
  const WbEnumValue *move_type;

  switch (key)
    {
    case HEAD_REGIME:
      self->regime = g_strdup (value);
      return is_made_of (value, MOST_REGIME_CHARACTERS, FALSE);
    case HEAD_TITLE:
      self->title = g_strdup (value);
      return *value != '\0' && g_utf8_strlen (value, -1) <= MOST_TITLE_CHARACTERS;
    case HEAD_CURRENCY:
      g_strlcpy (self->currency, value, sizeof self->currency);
      return strlen (value) == 3 && wb_currency_digits (value) >= 0;
    case HEAD_MOVE_TYPE:
      move_type = wb_enum_find_nick (&wb_move_types, value);
      if (move_type != NULL)
        self->move_type = (WbMoveType) move_type->value;
      return self->move_type != WB_MOVE_NONE;
    case HEAD_REGION:
      self->region = g_strdup (value);
      return is_made_of (value, MOST_REGION_CHARACTERS, TRUE);
    case HEAD_FROM:
      return wb_date_parse (value, &self->edition->from, NULL);
    case HEAD_UNTIL:
      return wb_date_parse (value, &self->edition->until, NULL);
    }
  g_return_val_if_reached (FALSE);
}

static gboolean
read_head_key (Reader     *self,
               const char *name,
               const char *value,
               GError    **error)
{
  guint key = 0;

  while (key < N_HEAD_KEYS && !g_str_equal (head_keys[key].name, name))
    key++;
  if (key == N_HEAD_KEYS || head_keys[key].of_edition != (self->place == PLACE_EDITION))
    return fail_key (self, name, error);
  if (self->head_line[key] != 0)
    {
      g_autofree char *quoted = wb_text_quote (name, -1);

      return fail_twice (self, quoted, self->head_line[key], error);
    }

  self->head_line[key] = self->line;
  return take_head_value (self, (HeadKey) key, value)
         || fail_value (self, name, value, NULL, head_keys[key].expected, error);
}

/* The keys of the head that @of_edition names are all there. */
static gboolean
check_head (const Reader *self,
            gboolean      of_edition,
            GError      **error)
{
  for (guint key = 0; key < N_HEAD_KEYS; key++)
    if (head_keys[key].of_edition == of_edition && head_keys[key].needed
        && self->head_line[key] == 0)
      return wb_terms_fail (error, self->file, of_edition ? self->edition->line : self->line,
                            of_edition ? "this edition has no “%s”; expected %s"
                                       : "there is no “%s” at the top of the file; expected %s",
                            head_keys[key].name, head_keys[key].expected);
  return TRUE;
}

static gboolean
check_top (const Reader *self,
           GError      **error)
{
  if (!check_head (self, FALSE, error))
    return FALSE;
  if (self->region != NULL && self->move_type == WB_MOVE_NONE)
    return wb_terms_fail (error, self->file, self->head_line[HEAD_REGION],
                          "“region” has no effect without a “move-type”; expected both or neither");
  return TRUE;
}

/* --- editions --------------------------------------------------------------------------------- */

static WbTerms *
new_terms (const Reader *self)
{
  WbTerms *terms = g_new0 (WbTerms, 1);

  g_atomic_ref_count_init (&terms->references);
  terms->regime = g_strdup (self->regime);
  terms->title = g_strdup (self->title);
  terms->file = g_strdup (self->file);
  terms->line = self->line;
  terms->digest = g_strdup (self->digest);
  terms->text = g_bytes_ref (self->text);
  terms->move_type = self->move_type;
  terms->region = g_strdup (self->region);
  memcpy (terms->currency, self->currency, sizeof terms->currency);

  /* What a silent file means where it is not zero; see wb_terms_silent_meaning(). */
  terms->without_waiver = WB_SIDE_FULL;
  terms->depreciation_maximum = 10000;
  return terms;
}

static gboolean
check_days (const Reader  *self,
            const WbTerms *before,
            GError       **error)
{
  const WbTerms *terms = self->edition;
  g_autofree char *days = NULL;

  if (wb_date_is_set (&terms->until) && wb_date_compare (&terms->until, &terms->from) < 0)
    return wb_terms_fail (error, self->file, self->head_line[HEAD_UNTIL],
                          "“until” is before “from”; expected a last day that is not before the "
                          "first");
  if (before == NULL)
    return TRUE;
  if (!wb_date_is_set (&before->until))
    return wb_terms_fail (error, self->file, terms->line,
                          "another edition follows the one on line %u, which has no last day; "
                          "expected “until = …” in that one",
                          before->line);
  if (wb_date_compare (&terms->from, &before->until) > 0)
    return TRUE;

  days = wb_terms_days_to_text (before);
  return wb_terms_fail (error, self->file, self->head_line[HEAD_FROM],
                        "the edition on line %u governs pick-ups %s already; expected a later "
                        "first day, with the editions in order of their dates",
                        before->line, days);
}

/* The edition being read is at its end. */
static gboolean
end_edition (Reader  *self,
             GError **error)
{
  WbTerms *terms = self->edition;
  guint n = self->editions->len;

  if (terms == NULL)
    return TRUE;

  for (guint side = 0; side < WB_N_SIDES; side++)
    if (!terms->entry[side][WB_KEY_OFFERED].given)
      terms->side[side].offered =
        self->section_line[side == WB_SIDE_FULL ? WB_SECTION_FULL : WB_SECTION_RELEASED] != 0;

  return check_head (self, TRUE, error)
         && check_days (self, n > 1 ? g_ptr_array_index (self->editions, n - 2) : NULL, error)
         && wb_terms_check (terms, error);
}

static gboolean
begin_edition (Reader  *self,
               GError **error)
{
  if (!(self->place == PLACE_TOP ? check_top (self, error) : end_edition (self, error)))
    return FALSE;

  self->edition = new_terms (self);
  g_ptr_array_add (self->editions, self->edition);
  self->place = PLACE_EDITION;
  self->head_line[HEAD_FROM] = 0;
  self->head_line[HEAD_UNTIL] = 0;
  memset (self->section_line, 0, sizeof self->section_line);
  return TRUE;
}

/* --- lines ------------------------------------------------------------------------------------ */

static gboolean
read_heading (Reader      *self,
              const char  *name,
              GError     **error)
{
  const WbEnumValue *section;

  if (g_str_equal (name, EDITION_HEADING))
    return begin_edition (self, error);

  section = wb_enum_find_nick (&wb_terms_sections, name);
  if (section == NULL)
    return fail_section (self, name, error);
  if (self->edition == NULL)
    return wb_terms_fail (error, self->file, self->line,
                          "[%s] stands before the first edition; expected [edition] and its dates "
                          "first",
                          name);
  if (self->section_line[section->value] != 0)
    {
      g_autofree char *heading = g_strdup_printf ("[%s]", name);

      return fail_twice (self, heading, self->section_line[section->value], error);
    }

  self->place = PLACE_SECTION;
  self->section = (WbTermsSection) section->value;
  self->section_line[section->value] = self->line;
  return TRUE;
}

static gboolean
read_section_key (Reader     *self,
                  const char *name,
                  char       *value,
                  GError    **error)
{
  const WbEnumValue *found = wb_enum_find_nick (&wb_terms_keys, name);
  const char *citation = wb_lines_split_source (value);
  WbScope scope = wb_terms_section_scope (self->section);
  g_autoptr (GError) why = NULL;
  WbTermsEntry *entry;
  WbTermsKey key;

  if (found == NULL || !wb_terms_section_has (self->section, (WbTermsKey) found->value))
    return fail_key (self, name, error);

  key = (WbTermsKey) found->value;
  entry = &self->edition->entry[scope][key];
  if (entry->given)
    {
      g_autofree char *quoted = wb_text_quote (name, -1);

      return fail_twice (self, quoted, entry->line, error);
    }
  if (citation != NULL && *citation == '\0')
    return wb_terms_fail (error, self->file, self->line,
                          "nothing is cited after the semicolon; expected where the rule is "
                          "written, or no semicolon");
  if (!wb_terms_read_value (self->edition, scope, key, value, &why))
    {
      g_autofree char *expected = wb_terms_expected (key);

      return fail_value (self, name, value, why, expected, error);
    }

  entry->given = TRUE;
  entry->line = self->line;
  entry->citation = g_strdup (citation);
  return TRUE;
}

static gboolean
read_pair (Reader      *self,
           const char  *name,
           char        *value,
           GError     **error)
{
  return self->place == PLACE_SECTION ? read_section_key (self, name, value, error)
                                      : read_head_key (self, name, value, error);
}

/* --- whole file ------------------------------------------------------------------------------- */

static gboolean
end_file (Reader  *self,
          GError **error)
{
  if (self->place == PLACE_TOP)
    return check_top (self, error)
           && wb_terms_fail (error, self->file, self->line,
                             "the file has no edition; expected [edition] and its dates");
  return end_edition (self, error);
}

static gboolean
read_lines (Reader   *self,
            WbLines  *lines,
            GError  **error)
{
  for (;;)
    {
      WbLinesKind kind = WB_LINES_END;
      gboolean read = wb_lines_next (lines, &kind, error);

      self->line = lines->number;
      if (!read)
        return FALSE;

      switch (kind)
        {
        case WB_LINES_END:
          return end_file (self, error);
        case WB_LINES_HEADING:
          if (!read_heading (self, lines->name, error))
            return FALSE;
          break;
        case WB_LINES_PAIR:
          if (!read_pair (self, lines->name, lines->value, error))
            return FALSE;
          break;
        }
    }
}

GPtrArray *
wb_terms_parse (const char *text,
                gsize       length,
                const char *file,
                GError    **error)
{
  g_auto (Reader) reader = { 0 };
  g_auto (WbLines) lines = { 0 };

  g_return_val_if_fail (text != NULL || length == 0, NULL);
  g_return_val_if_fail (file != NULL, NULL);

  if (!wb_lines_open (&lines, text, length, file, "released", WB_CORE_ERROR_TERMS, error))
    return NULL;

  reader.file = file;
  reader.text = g_bytes_new (text, length);
  reader.digest = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, reader.text);
  reader.editions = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_terms_unref);

  if (!read_lines (&reader, &lines, error))
    return NULL;
  return g_steal_pointer (&reader.editions);
}
