/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads the text of one tag and finds the pieces that have it. Where the text comes from, and what
 * becomes of the pieces, is not asked here. */
#include "config.h"

#include "core/wb-tag-scan.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-tag-ranges.h"

typedef enum
{
  MEMBER_TAG,
  MEMBER_LOT,
  MEMBER_COLOUR,
  MEMBER_JOB,
  MEMBER_NONE,
} Member;

/* What the parts of a tag are called, in URIs, in JSON and in plain words. */
static const struct
{
  const char *name;
  Member      member;
} member_names[] = {
  { "tag", MEMBER_TAG },       { "tag_number", MEMBER_TAG }, { "no", MEMBER_TAG },
  { "number", MEMBER_TAG },    { "piece", MEMBER_TAG },      { "lot", MEMBER_LOT },
  { "lot_number", MEMBER_LOT }, { "roll", MEMBER_LOT },      { "colour", MEMBER_COLOUR },
  { "color", MEMBER_COLOUR },  { "lot_colour", MEMBER_COLOUR }, { "job", MEMBER_JOB },
};

static Member
find_member (const char *name)
{
  for (gsize i = 0; i < G_N_ELEMENTS (member_names); i++)
    if (g_ascii_strcasecmp (member_names[i].name, name) == 0)
      return member_names[i].member;
  return MEMBER_NONE;
}

void
wb_tag_scan_free (WbTagScan *self)
{
  g_free (self->job);
  g_free (self->colour);
  g_free (self->lot);
  g_strfreev (self->words);
  g_free (self);
}

static gboolean
refuse (const char  *text,
        GError     **error)
{
  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE, "“%s” is no tag", text);
  return FALSE;
}

static gboolean
is_number (const char *text)
{
  return *text != '\0' && text[strspn (text, "0123456789")] == '\0';
}

static gboolean
read_number (WbTagScan   *self,
             const char  *text,
             GError     **error)
{
  guint64 number;

  if (!is_number (text))
    return refuse (text, error);
  if (!g_ascii_string_to_unsigned (text, 10, 0, (guint64) WB_TAG_MAX, &number, NULL))
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                   "tag %s is above %" G_GINT64_FORMAT, text, WB_TAG_MAX);
      return FALSE;
    }
  self->tag = (gint64) number;
  return TRUE;
}

/* @has_tag is set once a tag was read. */
static gboolean
take_member (WbTagScan   *self,
             Member       member,
             const char  *value,
             gboolean    *has_tag,
             GError     **error)
{
  g_autofree char *bare = g_strstrip (g_strdup (value));

  switch (member)
    {
    case MEMBER_TAG:
      *has_tag = TRUE;
      return read_number (self, bare, error);
    case MEMBER_LOT:
      wb_set_text (&self->lot, bare);
      break;
    case MEMBER_COLOUR:
      wb_set_text (&self->colour, bare);
      break;
    case MEMBER_JOB:
      wb_set_text (&self->job, bare);
      break;
    case MEMBER_NONE:
      break;
    }
  return TRUE;
}

/* --- URIs ------------------------------------------------------------------------------------- */

static gboolean
read_uri (WbTagScan   *self,
          const char  *text,
          const char  *query,
          GError     **error)
{
  GUriParamsIter iter;
  char *name, *value;
  gboolean has_tag = FALSE;
  g_autofree char *bare = g_strndup (query, strcspn (query, "#"));

  g_uri_params_iter_init (&iter, bare, -1, "&;", G_URI_PARAMS_WWW_FORM);
  while (g_uri_params_iter_next (&iter, &name, &value, NULL))
    {
      gboolean good = take_member (self, find_member (name), value, &has_tag, error);

      g_free (name);
      g_free (value);
      if (!good)
        return FALSE;
    }
  return has_tag || refuse (text, error);
}

/* --- JSON ------------------------------------------------------------------------------------- */

/* A string or a bare word, whichever stands at @at; %NULL when neither does. Escapes are those that
 * a lot or a number may need. */
static char *
read_json_value (const char **at)
{
  g_autoptr (GString) value = g_string_new (NULL);
  gboolean quoted = **at == '"';

  if (quoted)
    (*at)++;
  while (**at != '\0')
    {
      if (quoted && **at == '"')
        {
          (*at)++;
          return g_string_free (g_steal_pointer (&value), FALSE);
        }
      if (!quoted && strchr (",:{}[] \t\r\n\"", **at) != NULL)
        break;
      if (quoted && **at == '\\')
        {
          (*at)++;
          if (**at != '"' && **at != '\\' && **at != '/')
            return NULL;
        }
      g_string_append_c (value, **at);
      (*at)++;
    }
  return quoted || value->len == 0 ? NULL : g_string_free (g_steal_pointer (&value), FALSE);
}

static void
skip_space (const char **at)
{
  while (g_ascii_isspace (**at))
    (*at)++;
}

/* Whether @character stands next; goes past it and the space around it. */
static gboolean
take_character (const char **at,
                char         character)
{
  skip_space (at);
  if (**at != character)
    return FALSE;
  (*at)++;
  skip_space (at);
  return TRUE;
}

static gboolean
read_json (WbTagScan   *self,
           const char  *text,
           GError     **error)
{
  const char *at = text;
  gboolean has_tag = FALSE;

  take_character (&at, '{');
  do
    {
      g_autofree char *name = *at == '"' ? read_json_value (&at) : NULL;
      g_autofree char *value = NULL;

      if (name == NULL || !take_character (&at, ':'))
        return refuse (text, error);
      value = read_json_value (&at);
      if (value == NULL)
        return refuse (text, error);
      if (!take_member (self, find_member (name), value, &has_tag, error))
        return FALSE;
    }
  while (take_character (&at, ','));

  return (take_character (&at, '}') && *at == '\0' && has_tag) || refuse (text, error);
}

/* --- words ------------------------------------------------------------------------------------ */

static gboolean
is_letters (const char *text,
            gsize       length)
{
  return length > 0 && g_utf8_validate (text, (gssize) length, NULL)
         && strcspn (text, "0123456789") >= length;
}

/* "blue17", with nothing else: the number stands right behind the colour. */
static void
split_end (GPtrArray *words)
{
  char *last = words->len > 0 ? g_ptr_array_index (words, words->len - 1) : NULL;
  gsize letters = last != NULL ? strcspn (last, "0123456789") : 0;

  if (last == NULL || !is_letters (last, letters) || !is_number (last + letters))
    return;
  g_ptr_array_add (words, g_strdup (last + letters));
  last[letters] = '\0';
}

static GPtrArray *
split_words (const char *text)
{
  GPtrArray *words = g_ptr_array_new_with_free_func (g_free);
  g_auto (GStrv) parts = g_strsplit_set (text, " \t-/#:.,", -1);

  for (gsize i = 0; parts[i] != NULL; i++)
    if (*parts[i] != '\0')
      g_ptr_array_add (words, g_strdup (parts[i]));
  split_end (words);
  return words;
}

static gboolean
read_words (WbTagScan   *self,
            const char  *text,
            GError     **error)
{
  g_autoptr (GPtrArray) words = split_words (text);
  g_autoptr (GStrvBuilder) unnamed = g_strv_builder_new ();
  Member named = MEMBER_NONE;
  gboolean has_tag = FALSE;
  guint n_unnamed = 0;

  for (guint i = 0; i < words->len; i++)
    {
      const char *word = g_ptr_array_index (words, i);
      gboolean last = i + 1 == words->len;

      if (named == MEMBER_NONE && !last && find_member (word) != MEMBER_NONE)
        {
          named = find_member (word);
          self->form = WB_TAG_SCAN_NAMED;
          continue;
        }
      if (named == MEMBER_NONE && last && !has_tag)
        named = MEMBER_TAG;
      if (named == MEMBER_NONE)
        {
          g_strv_builder_add (unnamed, word);
          n_unnamed++;
        }
      /* "lot no 204": the name that counts is the first. */
      else if (!is_number (word) && !last && find_member (word) != MEMBER_NONE)
        continue;
      else if (!take_member (self, named, word, &has_tag, error))
        return FALSE;
      named = MEMBER_NONE;
    }

  if (!has_tag)
    return refuse (text, error);
  g_strfreev (self->words);
  self->words = g_strv_builder_end (unnamed);
  if (self->form != WB_TAG_SCAN_NAMED && n_unnamed > 0)
    self->form = strpbrk (text, " \t") == NULL ? WB_TAG_SCAN_JOINED : WB_TAG_SCAN_WORDS;
  return TRUE;
}

/* --- all -------------------------------------------------------------------------------------- */

/* Some scanners put the name of the symbology in front: "]Q1". */
static const char *
skip_symbology (const char *text)
{
  if (text[0] == ']' && g_ascii_isalpha (text[1]) && g_ascii_isalnum (text[2]))
    return text + 3;
  return text;
}

static gboolean
is_uri (const char *text)
{
  g_autofree char *scheme = g_uri_parse_scheme (text);

  return scheme != NULL && strchr (text, '?') != NULL;
}

WbTagScan *
wb_tag_scan_parse (const char  *text,
                   GError     **error)
{
  g_autoptr (WbTagScan) self = g_new0 (WbTagScan, 1);
  g_autofree char *bare = NULL;
  gboolean good;

  g_return_val_if_fail (text != NULL, NULL);

  self->words = g_new0 (char *, 1);
  if (strlen (text) > WB_TAG_SCAN_MAX_BYTES || !g_utf8_validate (text, -1, NULL))
    {
      g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE, "the text is no tag");
      return NULL;
    }

  bare = g_strstrip (g_strdup (skip_symbology (text)));
  if (*bare == '{' || is_uri (bare))
    self->form = WB_TAG_SCAN_NAMED;
  if (*bare == '{')
    good = read_json (self, bare, error);
  else if (is_uri (bare))
    good = read_uri (self, bare, strchr (bare, '?') + 1, error);
  else
    good = read_words (self, bare, error);
  return good ? g_steal_pointer (&self) : NULL;
}

/* --- finding ---------------------------------------------------------------------------------- */

static gboolean
same_word (const char *a,
           const char *b)
{
  g_autofree char *x = NULL;
  g_autofree char *y = NULL;

  if (a == NULL || b == NULL)
    return FALSE;
  x = g_utf8_casefold (a, -1);
  y = g_utf8_casefold (b, -1);
  return g_str_equal (x, y);
}

/* "light-blue" and "light blue" are one colour, and "light" is a word of it; so with "A-7". */
static gboolean
is_in (const char *word,
       const char *text)
{
  g_auto (GStrv) parts = g_strsplit_set (text != NULL ? text : "", " \t-/#:.,", -1);

  for (gsize i = 0; parts[i] != NULL; i++)
    if (same_word (parts[i], word))
      return TRUE;
  return FALSE;
}

/* Zeros before a lot's number do not count when it is one. */
static gboolean
same_number (const char *a,
             const char *b)
{
  if (a == NULL || b == NULL)
    return FALSE;
  if (is_number (a) && is_number (b))
    {
      a += strspn (a, "0");
      b += strspn (b, "0");
    }
  return same_word (a, b);
}

gboolean
wb_tag_scan_has_lot (const WbTagScan *self)
{
  return self->lot != NULL || self->colour != NULL || self->words[0] != NULL;
}

gboolean
wb_tag_scan_fits_lot (const WbTagScan *self,
                      const WbLot     *lot)
{
  if (lot == NULL)
    return !wb_tag_scan_has_lot (self);
  if (self->lot != NULL && !same_number (self->lot, lot->number))
    return FALSE;
  if (self->colour != NULL && !same_word (self->colour, lot->colour))
    return FALSE;
  for (gsize i = 0; self->words[i] != NULL; i++)
    if (!same_number (self->words[i], lot->number) && !is_in (self->words[i], lot->number)
        && !is_in (self->words[i], lot->colour))
      return FALSE;
  return TRUE;
}

gboolean
wb_tag_scan_fits_job (const WbTagScan *self,
                      const WbJob     *job)
{
  return self->job == NULL || same_word (self->job, wb_job_order (job)->number);
}

GPtrArray *
wb_tag_scan_find (const WbTagScan *self,
                  const WbJob     *job)
{
  GPtrArray *found = g_ptr_array_new ();
  guint n = wb_job_count (job, WB_KIND_PIECE);

  for (guint i = 0; i < n; i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);

      if (piece->tag == self->tag
          && wb_tag_scan_fits_lot (self, wb_job_find (job, WB_KIND_LOT, piece->lot)))
        g_ptr_array_add (found, piece->record.id);
    }
  return found;
}

/* --- writing ---------------------------------------------------------------------------------- */

static void
append_member (GString    *text,
               const char *name,
               const char *value)
{
  if (value == NULL)
    return;
  if (text->str[text->len - 1] != '?')
    g_string_append_c (text, '&');
  g_string_append_printf (text, "%s=", name);
  g_string_append_uri_escaped (text, value, NULL, FALSE);
}

char *
wb_tag_scan_to_text (const WbJob   *job,
                     const WbPiece *piece)
{
  const WbLot *lot = wb_job_find (job, WB_KIND_LOT, piece->lot);
  GString *text = g_string_new ("wainbook:tag?");
  g_autofree char *tag = g_strdup_printf ("%" G_GINT64_FORMAT, piece->tag);

  g_return_val_if_fail (piece->tag != WB_INTEGER_UNSET, NULL);

  append_member (text, "job", wb_job_order (job)->number);
  append_member (text, "colour", lot != NULL ? lot->colour : NULL);
  append_member (text, "lot", lot != NULL ? lot->number : NULL);
  append_member (text, "tag", tag);
  return g_string_free (text, FALSE);
}
