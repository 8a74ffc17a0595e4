/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A walk over a JSON text that keeps the path to where it is, so that a fault can be named the way
 * a person would look for it. It knows no document; what the keys mean is for others. */
#include "config.h"

#include "core/wb-json-check.h"

#include "core/wb-core.h"

#include <string.h>

#define MAX_DIGITS 18

typedef struct
{
  const char *start;
  const char *at;
  const char *end;
  guint       depth;
  GString    *path;
} Walk;

static gboolean check_value (Walk    *walk,
                             GError **error);

G_GNUC_PRINTF (4, 5) static gboolean
fail (Walk        *walk,
      GError     **error,
      WbCoreError  code,
      const char  *format,
      ...)
{
  g_autofree char *what = NULL;
  guint line = 1;
  const char *line_start = walk->start;
  va_list args;

  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);

  for (const char *at = walk->start; at < walk->at; at++)
    {
      if (*at == '\n')
        {
          line++;
          line_start = at + 1;
        }
    }

  g_set_error (error, WB_CORE_ERROR, (int) code, "%s%s%s (line %u, column %ld)",
               walk->path->str, walk->path->len > 0 ? ": " : "", what,
               line, g_utf8_strlen (line_start, walk->at - line_start) + 1);
  return FALSE;
}

static void
skip_space (Walk *walk)
{
  while (walk->at < walk->end &&
         (*walk->at == ' ' || *walk->at == '\t' || *walk->at == '\n' || *walk->at == '\r'))
    walk->at++;
}

static char
peek (const Walk *walk)
{
  return walk->at < walk->end ? *walk->at : '\0';
}

/* --- texts ------------------------------------------------------------------------------------ */

static gboolean
read_hex (Walk    *walk,
          guint   *out,
          GError **error)
{
  *out = 0;
  for (guint i = 0; i < 4; i++)
    {
      if (walk->at >= walk->end || !g_ascii_isxdigit (*walk->at))
        return fail (walk, error, WB_CORE_ERROR_PARSE, "“\\u” needs four hexadecimal digits");
      *out = *out * 16 + (guint) g_ascii_xdigit_value (*walk->at);
      walk->at++;
    }

  return TRUE;
}

/* After "\u". */
static gboolean
check_unicode_escape (Walk    *walk,
                      GError **error)
{
  guint high, low;

  if (!read_hex (walk, &high, error))
    return FALSE;
  if (high == 0)
    return fail (walk, error, WB_CORE_ERROR_PARSE, "a text may not hold the character NUL");
  if (high < 0xd800 || high > 0xdfff)
    return TRUE;

  if (high >= 0xdc00 || walk->end - walk->at < 2 || walk->at[0] != '\\' || walk->at[1] != 'u')
    return fail (walk, error, WB_CORE_ERROR_PARSE, "half of a pair of “\\u” escapes is missing");
  walk->at += 2;
  if (!read_hex (walk, &low, error))
    return FALSE;
  if (low < 0xdc00 || low > 0xdfff)
    return fail (walk, error, WB_CORE_ERROR_PARSE, "half of a pair of “\\u” escapes is missing");

  return TRUE;
}

static gboolean
check_escape (Walk    *walk,
              GError **error)
{
  char letter = peek (walk);

  if (letter == 'u')
    {
      walk->at++;
      return check_unicode_escape (walk, error);
    }
  if (letter == '\0' || strchr ("\"\\/bfnrt", letter) == NULL)
    return fail (walk, error, WB_CORE_ERROR_PARSE,
                 "a backslash stands before a character that it cannot escape");

  walk->at++;
  return TRUE;
}

/* At the opening quote; @plain is set when nothing was escaped. */
static gboolean
check_string (Walk     *walk,
              gboolean *plain,
              GError  **error)
{
  const char *open = walk->at;

  *plain = TRUE;
  walk->at++;
  while (walk->at < walk->end && *walk->at != '"')
    {
      if ((guchar) *walk->at < 0x20)
        return fail (walk, error, WB_CORE_ERROR_PARSE,
                     "a text holds a line break or control character; write it as an escape such "
                     "as “\\n”");
      if (*walk->at++ == '\\')
        {
          *plain = FALSE;
          if (!check_escape (walk, error))
            return FALSE;
        }
    }

  if (walk->at >= walk->end)
    {
      walk->at = open;
      return fail (walk, error, WB_CORE_ERROR_PARSE, "a text is not closed by a quotation mark");
    }

  walk->at++;
  return TRUE;
}

/* --- numbers and words ------------------------------------------------------------------------ */

static gboolean
check_number (Walk    *walk,
              GError **error)
{
  const char *digits;
  gsize n_digits = 0;

  if (peek (walk) == '-')
    walk->at++;
  digits = walk->at;
  while (walk->at < walk->end && g_ascii_isdigit (*walk->at))
    {
      walk->at++;
      n_digits++;
    }

  if (n_digits == 0 || (n_digits > 1 && *digits == '0'))
    return fail (walk, error, WB_CORE_ERROR_PARSE, "this is not a number as JSON writes it");
  if (peek (walk) == '.' || peek (walk) == 'e' || peek (walk) == 'E')
    return fail (walk, error, WB_CORE_ERROR_PARSE,
                 "a number has to be whole here; amounts and weights are texts");
  if (n_digits > MAX_DIGITS)
    return fail (walk, error, WB_CORE_ERROR_RANGE, "a number has more than %d digits", MAX_DIGITS);

  return TRUE;
}

static gboolean
check_word (Walk    *walk,
            GError **error)
{
  static const char *const words[] = { "true", "false", "null" };

  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    {
      gsize length = strlen (words[i]);

      if ((gsize) (walk->end - walk->at) >= length && strncmp (walk->at, words[i], length) == 0)
        {
          walk->at += length;
          return TRUE;
        }
    }

  if (walk->at >= walk->end)
    return fail (walk, error, WB_CORE_ERROR_PARSE, "the document ends too early");

  return fail (walk, error, WB_CORE_ERROR_PARSE, "a value was expected here");
}

/* --- arrays and objects ----------------------------------------------------------------------- */

static gboolean
check_array (Walk    *walk,
             GError **error)
{
  gsize length = walk->path->len;

  walk->at++;
  skip_space (walk);
  for (guint i = 0; peek (walk) != ']'; i++)
    {
      g_string_append_printf (walk->path, "[%u]", i);
      if (!check_value (walk, error))
        return FALSE;
      g_string_truncate (walk->path, length);

      skip_space (walk);
      if (peek (walk) == ']')
        break;
      if (peek (walk) != ',')
        return fail (walk, error, WB_CORE_ERROR_PARSE, "a comma or “]” was expected");
      walk->at++;
      skip_space (walk);
      if (peek (walk) == ']')
        return fail (walk, error, WB_CORE_ERROR_PARSE, "a comma stands before “]”");
    }

  walk->at++;
  return TRUE;
}

/* Reads a key and puts it on the path. */
static gboolean
check_key (Walk        *walk,
           GHashTable  *keys,
           GError     **error)
{
  const char *open = walk->at;
  gboolean plain;
  char *key;

  if (peek (walk) != '"')
    return fail (walk, error, WB_CORE_ERROR_PARSE, "a key in quotation marks was expected");
  if (!check_string (walk, &plain, error))
    return FALSE;
  if (!plain)
    return fail (walk, error, WB_CORE_ERROR_PARSE,
                 "a key holds a backslash, which no key here needs");

  key = g_strndup (open + 1, (gsize) (walk->at - open) - 2);
  if (walk->path->len > 0)
    g_string_append_c (walk->path, '.');
  g_string_append (walk->path, key);
  if (!g_hash_table_add (keys, key))
    return fail (walk, error, WB_CORE_ERROR_PARSE, "the key stands here twice");

  return TRUE;
}

static gboolean
check_object (Walk    *walk,
              GError **error)
{
  g_autoptr (GHashTable) keys = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  gsize length = walk->path->len;

  walk->at++;
  skip_space (walk);
  while (peek (walk) != '}')
    {
      if (!check_key (walk, keys, error))
        return FALSE;
      skip_space (walk);
      if (peek (walk) != ':')
        return fail (walk, error, WB_CORE_ERROR_PARSE, "a colon was expected after the key");
      walk->at++;
      if (!check_value (walk, error))
        return FALSE;
      g_string_truncate (walk->path, length);

      skip_space (walk);
      if (peek (walk) == '}')
        break;
      if (peek (walk) != ',')
        return fail (walk, error, WB_CORE_ERROR_PARSE, "a comma or “}” was expected");
      walk->at++;
      skip_space (walk);
      if (peek (walk) == '}')
        return fail (walk, error, WB_CORE_ERROR_PARSE, "a comma stands before “}”");
    }

  walk->at++;
  return TRUE;
}

static gboolean
check_nested (Walk    *walk,
              GError **error)
{
  gboolean good;

  if (walk->depth >= WB_JSON_MAX_DEPTH)
    return fail (walk, error, WB_CORE_ERROR_RANGE,
                 "arrays and objects stand in one another too deep");

  walk->depth++;
  good = peek (walk) == '{' ? check_object (walk, error) : check_array (walk, error);
  walk->depth--;
  return good;
}

static gboolean
check_value (Walk    *walk,
             GError **error)
{
  gboolean plain;

  skip_space (walk);
  switch (peek (walk))
    {
    case '{':
    case '[':
      return check_nested (walk, error);

    case '"':
      return check_string (walk, &plain, error);

    default:
      if (peek (walk) == '-' || g_ascii_isdigit (peek (walk)))
        return check_number (walk, error);
      return check_word (walk, error);
    }
}

gboolean
wb_json_check (const char  *text,
               gssize       length,
               GError     **error)
{
  g_autoptr (GString) path = g_string_new (NULL);
  Walk walk = { .path = path };
  const char *invalid;

  g_return_val_if_fail (text != NULL, FALSE);

  walk.start = walk.at = text;
  walk.end = text + (length < 0 ? strlen (text) : (gsize) length);
  if (walk.end - walk.start > WB_JSON_MAX_BYTES)
    return fail (&walk, error, WB_CORE_ERROR_RANGE, "the document is larger than %d MiB",
                 WB_JSON_MAX_BYTES / (1024 * 1024));
  if (!g_utf8_validate_len (text, (gsize) (walk.end - walk.start), &invalid))
    {
      walk.at = invalid;
      return fail (&walk, error, WB_CORE_ERROR_PARSE, "the document is not UTF-8 text");
    }
  if (walk.end - walk.start >= 3 && memcmp (text, "\xef\xbb\xbf", 3) == 0)
    return fail (&walk, error, WB_CORE_ERROR_PARSE,
                 "the document starts with a byte-order mark, which JSON does not allow");

  if (!check_value (&walk, error))
    return FALSE;

  skip_space (&walk);
  if (walk.at < walk.end)
    return fail (&walk, error, WB_CORE_ERROR_PARSE, "something follows the end of the document");

  return TRUE;
}
