/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Splits the text of a data file into lines and these into their parts. */
#include "config.h"

#include "core/wb-lines.h"

#include <string.h>

#include "core/wb-text.h"

#define BYTE_ORDER_MARK "\xef\xbb\xbf"

/* --- messages --------------------------------------------------------------------------------- */

gboolean
wb_lines_fail_v (GError      **error,
                 WbCoreError   code,
                 const char   *file,
                 guint         line,
                 const char   *format,
                 va_list       args)
{
  g_autofree char *message = g_strdup_vprintf (format, args);

  g_set_error (error, WB_CORE_ERROR, (int) code, "%s:%u: %s", file, line, message);
  return FALSE;
}

gboolean
wb_lines_fail (GError      **error,
               WbCoreError   code,
               const char   *file,
               guint         line,
               const char   *format,
               ...)
{
  va_list args;

  va_start (args, format);
  wb_lines_fail_v (error, code, file, line, format, args);
  va_end (args);
  return FALSE;
}

/* --- the whole file --------------------------------------------------------------------------- */

static guint
count_lines (const char *text,
             gsize       length)
{
  guint lines = 1;

  for (gsize i = 0; i < length; i++)
    if (text[i] == '\n')
      lines++;
  return lines;
}

static gboolean
check_bytes (const WbLines *self,
             const char    *text,
             gsize          length,
             GError       **error)
{
  const char *end;

  if (length > WB_LINES_MAX_BYTES)
    return wb_lines_fail (error, self->code, self->file, 1,
                          "the file has %" G_GSIZE_FORMAT " bytes; expected at most %d", length,
                          WB_LINES_MAX_BYTES);
  if (g_utf8_validate_len (text, length, &end))
    return TRUE;

  return wb_lines_fail (error, self->code, self->file, count_lines (text, (gsize) (end - text)),
                        "%s",
                        *end == '\0'
                        ? "there is a zero byte in this line; expected plain text in UTF-8"
                        : "this line is not UTF-8; expected the file to be saved in that encoding");
}

gboolean
wb_lines_open (WbLines      *self,
               const char   *text,
               gsize         length,
               const char   *file,
               const char   *example,
               WbCoreError   code,
               GError      **error)
{
  g_return_val_if_fail (text != NULL || length == 0, FALSE);
  g_return_val_if_fail (file != NULL && example != NULL, FALSE);

  *self = (WbLines) { .file = file, .example = example, .code = code };
  if (length == 0)
    text = "";
  if (!check_bytes (self, text, length, error))
    return FALSE;

  self->copy = g_strndup (text, length);
  self->next = self->copy;
  if (g_str_has_prefix (self->copy, BYTE_ORDER_MARK))
    self->next += strlen (BYTE_ORDER_MARK);
  return TRUE;
}

void
wb_lines_close (WbLines *self)
{
  g_clear_pointer (&self->copy, g_free);
  self->next = NULL;
}

/* --- one line --------------------------------------------------------------------------------- */

static gboolean
check_characters (const WbLines *self,
                  const char    *text,
                  GError       **error)
{
  for (const char *c = text; *c != '\0'; c++)
    if (g_ascii_iscntrl (*c) && *c != '\t' && !(c[0] == '\r' && c[1] == '\0'))
      return wb_lines_fail (error, self->code, self->file, self->number,
                            "a control character (number %d) stands in this line; expected plain "
                            "text",
                            *c);
  return TRUE;
}

static gboolean
read_heading (WbLines  *self,
              char     *text,
              GError  **error)
{
  gsize length = strlen (text);

  if (text[length - 1] != ']')
    return wb_lines_fail (error, self->code, self->file, self->number,
                          "the heading does not end; expected a line such as “[%s]” with nothing "
                          "after it",
                          self->example);
  text[length - 1] = '\0';
  self->name = g_strstrip (text + 1);
  self->value = NULL;
  return TRUE;
}

static gboolean
read_pair (WbLines  *self,
           char     *text,
           GError  **error)
{
  char *equals = strchr (text, '=');

  if (equals == NULL || equals == text)
    {
      g_autofree char *quoted = wb_text_quote (text, -1);

      return wb_lines_fail (error, self->code, self->file, self->number,
                            "%s does not read; expected “key = value”, “[section]” or “# comment”",
                            quoted);
    }

  *equals = '\0';
  self->name = g_strchomp (text);
  self->value = g_strchug (equals + 1);
  return TRUE;
}

gboolean
wb_lines_next (WbLines      *self,
               WbLinesKind  *kind,
               GError      **error)
{
  while (self->next != NULL)
    {
      char *text = self->next;
      char *end = strchr (text, '\n');

      self->next = end != NULL ? end + 1 : NULL;
      if (end != NULL)
        *end = '\0';
      self->number++;
      if (!check_characters (self, text, error))
        return FALSE;

      g_strstrip (text);
      if (*text == '\0' || *text == '#')
        continue;
      *kind = *text == '[' ? WB_LINES_HEADING : WB_LINES_PAIR;
      return *kind == WB_LINES_HEADING ? read_heading (self, text, error)
                                       : read_pair (self, text, error);
    }

  *kind = WB_LINES_END;
  return TRUE;
}

char *
wb_lines_split_source (char *value)
{
  char *semicolon = strchr (value, ';');

  if (semicolon == NULL)
    return NULL;

  *semicolon = '\0';
  g_strchomp (value);
  return g_strchug (semicolon + 1);
}
