/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Judges and translates names. No file is looked at here. */
#include "config.h"

#include "share/wb-bag-name.h"

#include "share/wb-share.h"

#include <string.h>

/* Bytes of a name that are shown. */
#define SHOWN 200

/* --- which are safe --------------------------------------------------------------------------- */

static gboolean
is_seen (gunichar c)
{
  GUnicodeType type = g_unichar_type (c);

  return type != G_UNICODE_CONTROL && type != G_UNICODE_FORMAT && type != G_UNICODE_SURROGATE &&
         type != G_UNICODE_LINE_SEPARATOR && type != G_UNICODE_PARAGRAPH_SEPARATOR;
}

static gboolean
refuse (const char  *name,
        const char  *what,
        GError     **error)
{
  return wb_share_refuse (error, WB_SHARE_ERROR_NAME, name, "%s", what);
}

static gboolean
check_letters (const char  *name,
               GError     **error)
{
  if (!g_utf8_validate (name, -1, NULL))
    return refuse (name, "the name is not UTF-8", error);
  for (const char *at = name; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);

      if (!is_seen (c))
        return refuse (name, "the name has a control or invisible character", error);
      if (c == '\\')
        return refuse (name, "the name has a backslash", error);
      if (c == ':')
        return refuse (name, "the name has a colon, as before the letter of a drive", error);
      if (c < 128 && strchr ("*?\"<>|", (int) c) != NULL)
        return refuse (name, "the name has a sign that Windows does not allow in it", error);
    }
  return TRUE;
}

/* With or without an ending. */
static gboolean
is_device (const char *part)
{
  static const char *const plain[] = { "con", "prn", "aux", "nul" };
  gsize length = strcspn (part, ".");

  for (gsize i = 0; i < G_N_ELEMENTS (plain); i++)
    if (length == 3 && g_ascii_strncasecmp (part, plain[i], 3) == 0)
      return TRUE;
  return length == 4 && part[3] >= '1' && part[3] <= '9' &&
         (g_ascii_strncasecmp (part, "com", 3) == 0 || g_ascii_strncasecmp (part, "lpt", 3) == 0);
}

static gboolean
check_part (const char  *name,
            const char  *part,
            GError     **error)
{
  gsize length = strlen (part);

  if (length == 0)
    return refuse (name, "a part of the name is empty", error);
  if (strcmp (part, ".") == 0 || strcmp (part, "..") == 0)
    return refuse (name, "a part of the name is “.” or “..”", error);
  if (length > WB_BAG_NAME_MAX_PART)
    return refuse (name, "a part of the name is too long", error);
  if (part[length - 1] == ' ' || part[length - 1] == '.' || part[0] == ' ')
    return refuse (name, "a part of the name begins with a blank, or ends in one or in a full stop",
                   error);
  if (is_device (part))
    return refuse (name, "Windows keeps the name for a device", error);
  return TRUE;
}

gboolean
wb_bag_name_check (const char  *name,
                   GError     **error)
{
  g_auto (GStrv) parts = NULL;

  if (*name == '\0')
    return refuse (name, "the name is empty", error);
  if (strlen (name) > WB_BAG_NAME_MAX_BYTES)
    return refuse (name, "the name is too long", error);
  if (*name == '/')
    return refuse (name, "the name begins at the root of the disk", error);
  if (*name == '~')
    return refuse (name, "the name begins with “~”, as a home folder does", error);
  if (!check_letters (name, error))
    return FALSE;

  parts = g_strsplit (name, "/", -1);
  if (g_strv_length (parts) > WB_BAG_NAME_MAX_PARTS)
    return refuse (name, "the folders lie too deep in one another", error);
  for (gsize i = 0; parts[i] != NULL; i++)
    if (!check_part (name, parts[i], error))
      return FALSE;
  return TRUE;
}

/* --- which are the same ----------------------------------------------------------------------- */

/* Once more after folding, which can take letters apart. */
char *
wb_bag_name_key (const char *name)
{
  g_autofree char *apart = g_utf8_normalize (name, -1, G_NORMALIZE_ALL);
  g_autofree char *folded = g_utf8_casefold (apart != NULL ? apart : name, -1);
  char *key = g_utf8_normalize (folded, -1, G_NORMALIZE_ALL);

  return key != NULL ? key : g_strdup (folded);
}

char *
wb_bag_name_normal (const char *name)
{
  char *normal = g_utf8_normalize (name, -1, G_NORMALIZE_DEFAULT_COMPOSE);

  return normal != NULL ? normal : g_strdup (name);
}

/* --- in a manifest ---------------------------------------------------------------------------- */

char *
wb_bag_name_encode (const char *name)
{
  GString *out = g_string_new (NULL);

  for (const char *at = name; *at != '\0'; at++)
    if (*at == '\n' || *at == '\r' || *at == '%')
      g_string_append_printf (out, "%%%02X", (guint) (guchar) *at);
    else
      g_string_append_c (out, *at);
  return g_string_free (out, FALSE);
}

char *
wb_bag_name_decode (const char *text)
{
  g_autoptr (GString) out = g_string_new (NULL);

  for (const char *at = text; *at != '\0'; at++)
    if (*at != '%')
      g_string_append_c (out, *at);
    else if (g_ascii_strncasecmp (at, "%0A", 3) == 0)
      g_string_append_c (out, '\n'), at += 2;
    else if (g_ascii_strncasecmp (at, "%0D", 3) == 0)
      g_string_append_c (out, '\r'), at += 2;
    else if (strncmp (at, "%25", 3) == 0)
      g_string_append_c (out, '%'), at += 2;
    else
      return NULL;
  return g_strdup (out->str);
}

/* --- for a person ----------------------------------------------------------------------------- */

char *
wb_bag_name_display (const char *name)
{
  GString *out = g_string_new (NULL);
  const char *at = name;

  while (*at != '\0' && out->len < SHOWN)
    {
      gunichar c = g_utf8_get_char_validated (at, -1);

      if (c == (gunichar) -1 || c == (gunichar) -2)
        g_string_append_printf (out, "\\x%02x", (guint) (guchar) *at++);
      else if (!is_seen (c))
        {
          g_string_append_printf (out, c < 256 ? "\\x%02x" : "\\u%04x", c);
          at = g_utf8_next_char (at);
        }
      else
        {
          g_string_append_unichar (out, c);
          at = g_utf8_next_char (at);
        }
    }
  if (*at != '\0')
    g_string_append (out, "…");
  return g_string_free (out, FALSE);
}
