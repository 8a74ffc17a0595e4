/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Splits tag files into lines and lines into what they say. A line ends in LF, CR or CRLF; the last
 * one need not (RFC 8493, 2.3). */
#include "config.h"

#include "share/wb-bag-tags.h"

#include "share/wb-bag-name.h"
#include "share/wb-share.h"

#include <string.h>

#define DECLARATION "bagit.txt"
#define INFO        "bag-info.txt"

static const WbBagAlgorithm algorithms[] = {
  { "sha256", G_CHECKSUM_SHA256, TRUE },
  { "sha384", G_CHECKSUM_SHA384, TRUE },
  { "sha512", G_CHECKSUM_SHA512, TRUE },
  { "sha1",   G_CHECKSUM_SHA1,   FALSE },
  { "md5",    G_CHECKSUM_MD5,    FALSE },
};

const WbBagAlgorithm *
wb_bag_algorithm (const char *name)
{
  for (gsize i = 0; i < G_N_ELEMENTS (algorithms); i++)
    if (strcmp (algorithms[i].name, name) == 0)
      return &algorithms[i];
  return NULL;
}

/* --- lines ------------------------------------------------------------------------------------ */

static gboolean
check_text (const char  *file,
            const char  *text,
            gsize        length,
            GError     **error)
{
  if (length >= 3 && memcmp (text, "\xef\xbb\xbf", 3) == 0)
    return wb_share_refuse (error, WB_SHARE_ERROR_TAG_FILE, file,
                            "it begins with a byte-order mark, which it must not");
  if (length > 0 && memchr (text, '\0', length) != NULL)
    return wb_share_refuse (error, WB_SHARE_ERROR_TAG_FILE, file, "there is a NUL in it");
  if (!g_utf8_validate_len (text, length, NULL))
    return wb_share_refuse (error, WB_SHARE_ERROR_ENCODING, file, "it is not UTF-8");
  return TRUE;
}

/* Returns: (transfer full) (element-type utf8) (nullable). */
static GPtrArray *
split (const char  *file,
       const char  *text,
       gsize        length,
       GError     **error)
{
  g_autoptr (GPtrArray) lines = g_ptr_array_new_with_free_func (g_free);
  gsize at = 0;

  if (!check_text (file, text, length, error))
    return NULL;
  while (at < length)
    {
      gsize end = at;

      while (end < length && text[end] != '\n' && text[end] != '\r')
        end++;
      g_ptr_array_add (lines, g_strndup (text + at, end - at));
      at = end + 1;
      if (end + 1 < length && text[end] == '\r' && text[end + 1] == '\n')
        at++;
    }
  return g_steal_pointer (&lines);
}

/* Returns: (nullable): what follows @label in @line; labels do not know case. */
static const char *
after_label (const char *line,
             const char *label)
{
  gsize length = strlen (label);

  return g_ascii_strncasecmp (line, label, length) == 0 ? line + length : NULL;
}

/* --- the declaration -------------------------------------------------------------------------- */

static gboolean
is_version (const char *text)
{
  gsize major = strspn (text, "0123456789");
  gsize minor = text[major] == '.' ? strspn (text + major + 1, "0123456789") : 0;

  return major > 0 && minor > 0 && text[major + 1 + minor] == '\0';
}

gboolean
wb_bag_declaration_check (const char  *text,
                          gsize        length,
                          GError     **error)
{
  g_autoptr (GPtrArray) lines = split (DECLARATION, text, length, error);
  const char *version, *encoding;

  if (lines == NULL)
    return FALSE;
  if (lines->len != 2)
    return wb_share_refuse (error, WB_SHARE_ERROR_TAG_FILE, DECLARATION,
                            "it has to have exactly two lines");
  version = after_label (g_ptr_array_index (lines, 0), "BagIt-Version: ");
  encoding = after_label (g_ptr_array_index (lines, 1), "Tag-File-Character-Encoding: ");
  if (version == NULL || !is_version (version))
    return wb_share_refuse (error, WB_SHARE_ERROR_TAG_FILE, DECLARATION,
                            "its first line is not “BagIt-Version: 1.0”");
  if (strcmp (version, "1.0") != 0)
    return wb_share_refuse (error, WB_SHARE_ERROR_VERSION, DECLARATION,
                            "it says version %.20s; expected 1.0", version);
  if (encoding == NULL || *encoding == '\0')
    return wb_share_refuse (error, WB_SHARE_ERROR_TAG_FILE, DECLARATION,
                            "its second line is not “Tag-File-Character-Encoding: UTF-8”");
  if (g_ascii_strcasecmp (encoding, "UTF-8") != 0)
    {
      g_autofree char *name = wb_bag_name_display (encoding);

      return wb_share_refuse (error, WB_SHARE_ERROR_ENCODING, DECLARATION,
                              "it says that tag files are in %s; expected UTF-8", name);
    }
  return TRUE;
}

/* --- manifests -------------------------------------------------------------------------------- */

static void
line_free (gpointer data)
{
  WbBagLine *line = data;

  g_free (line->path);
  g_free (line->digest);
  g_free (line);
}

static gboolean
refuse_line (const char  *file,
             guint        number,
             const char  *what,
             GError     **error)
{
  return wb_share_refuse (error, WB_SHARE_ERROR_TAG_FILE, file, "line %u: %s", number, what);
}

static gboolean
check_place (const char  *file,
             guint        number,
             const char  *path,
             gboolean     of_tags,
             GError     **error)
{
  gboolean payload = g_str_has_prefix (path, "data/");

  if (!wb_bag_name_check (path, error))
    {
      g_prefix_error (error, "%s, line %u: ", file, number);
      return FALSE;
    }
  if (of_tags && payload)
    return refuse_line (file, number, "a tag manifest must not list what is in data/", error);
  if (!of_tags && !payload)
    return refuse_line (file, number, "a manifest must not list what is outside of data/", error);
  if (of_tags && g_str_has_prefix (path, "tagmanifest-") && strchr (path, '/') == NULL)
    return refuse_line (file, number, "a tag manifest must not list a tag manifest", error);
  return TRUE;
}

/* Returns: (transfer full) (nullable). */
static WbBagLine *
parse_line (const char            *file,
            guint                  number,
            const char            *text,
            const WbBagAlgorithm  *algorithm,
            gboolean               of_tags,
            GError               **error)
{
  gsize digits = strspn (text, "0123456789abcdefABCDEF");
  gsize blanks = strspn (text + digits, " \t");
  gsize wanted = algorithm != NULL ? (gsize) g_checksum_type_get_length (algorithm->type) * 2 : 0;
  g_autofree char *path = NULL;
  WbBagLine *line;

  if (digits == 0 || blanks == 0 || text[digits + blanks] == '\0')
    {
      refuse_line (file, number, "this is not a checksum, a blank and a name", error);
      return NULL;
    }
  if (wanted > 0 && digits != wanted)
    {
      refuse_line (file, number, "the checksum has not the length that it has to have", error);
      return NULL;
    }
  path = wb_bag_name_decode (text + digits + blanks);
  if (path == NULL)
    {
      refuse_line (file, number, "a % stands for something else than CR, LF or %", error);
      return NULL;
    }
  if (!check_place (file, number, path, of_tags, error))
    return NULL;

  line = g_new0 (WbBagLine, 1);
  line->path = g_steal_pointer (&path);
  line->digest = g_ascii_strdown (text, (gssize) digits);
  return line;
}

GPtrArray *
wb_bag_manifest_parse (const char            *file,
                       const char            *text,
                       gsize                  length,
                       const WbBagAlgorithm  *algorithm,
                       gboolean               of_tags,
                       GError               **error)
{
  g_autoptr (GPtrArray) lines = split (file, text, length, error);
  g_autoptr (GPtrArray) entries = g_ptr_array_new_with_free_func (line_free);
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  if (lines == NULL)
    return NULL;
  for (guint i = 0; i < lines->len; i++)
    {
      WbBagLine *line = parse_line (file, i + 1, g_ptr_array_index (lines, i), algorithm, of_tags,
                                    error);

      if (line == NULL)
        return NULL;
      g_ptr_array_add (entries, line);
      if (!g_hash_table_add (seen, wb_bag_name_normal (line->path)))
        {
          g_autofree char *name = wb_bag_name_display (line->path);

          wb_share_refuse (error, WB_SHARE_ERROR_CLASH, file, "line %u: “%s” is listed twice",
                           i + 1, name);
          return NULL;
        }
    }
  return g_steal_pointer (&entries);
}

/* --- bag-info.txt ----------------------------------------------------------------------------- */

static void
element_free (gpointer data)
{
  WbBagElement *element = data;

  g_free (element->label);
  g_free (element->value);
  g_free (element);
}

static gboolean
is_blank (char c)
{
  return c == ' ' || c == '\t';
}

static gboolean
is_label (const char *line,
          const char *colon)
{
  return colon != NULL && colon > line && !is_blank (line[0]) && !is_blank (colon[-1]) &&
         is_blank (colon[1]);
}

static void
continue_value (WbBagElement *element,
                const char   *line)
{
  g_autofree char *before = g_steal_pointer (&element->value);

  element->value = g_strconcat (before, " ", line + strspn (line, " \t"), NULL);
}

GPtrArray *
wb_bag_info_parse (const char  *text,
                   gsize        length,
                   GError     **error)
{
  g_autoptr (GPtrArray) lines = split (INFO, text, length, error);
  g_autoptr (GPtrArray) elements = g_ptr_array_new_with_free_func (element_free);

  if (lines == NULL)
    return NULL;
  for (guint i = 0; i < lines->len; i++)
    {
      const char *line = g_ptr_array_index (lines, i);
      const char *colon = strchr (line, ':');
      WbBagElement *element;

      if (is_blank (line[0]) && elements->len > 0)
        {
          continue_value (g_ptr_array_index (elements, elements->len - 1), line);
          continue;
        }
      if (!is_label (line, colon))
        {
          refuse_line (INFO, i + 1, "this is not a label, a colon, a blank and a value", error);
          return NULL;
        }
      element = g_new0 (WbBagElement, 1);
      element->label = g_strndup (line, (gsize) (colon - line));
      element->value = g_strdup (colon + 2);
      g_ptr_array_add (elements, element);
    }
  return g_steal_pointer (&elements);
}

gboolean
wb_bag_oxum_parse (const char *value,
                   guint64    *octets,
                   guint64    *streams)
{
  g_auto (GStrv) parts = g_strsplit (value, ".", -1);

  return g_strv_length (parts) == 2 &&
         g_ascii_string_to_unsigned (parts[0], 10, 0, G_MAXINT64, octets, NULL) &&
         g_ascii_string_to_unsigned (parts[1], 10, 0, G_MAXINT64, streams, NULL);
}

gboolean
wb_bag_fetch_is_empty (const char *text,
                       gsize       length)
{
  for (gsize i = 0; i < length; i++)
    if (strchr (" \t\r\n", text[i]) == NULL || text[i] == '\0')
      return FALSE;
  return TRUE;
}
