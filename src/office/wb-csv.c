/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A reader for comma-separated values that is strict where leniency would lose or shift a field,
 * and a writer. It keeps count of records and of lines, which differ once a field has several. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-csv.h"

#include <gio/gio.h>
#include <glib/gi18n.h>
#include <string.h>

void
wb_csv_record_free (WbCsvRecord *self)
{
  if (self == NULL)
    return;

  g_clear_pointer (&self->fields, g_ptr_array_unref);
  g_free (self->fault);
  g_free (self);
}

gboolean
wb_csv_record_is_blank (const WbCsvRecord *self)
{
  for (guint i = 0; i < self->fields->len; i++)
    {
      const char *field = g_ptr_array_index (self->fields, i);

      if (field[strspn (field, " \t\n")] != '\0')
        return FALSE;
    }

  return TRUE;
}

/* --- reading ---------------------------------------------------------------------------------- */

void
wb_csv_reader_init (WbCsvReader *self,
                    const char  *text,
                    gsize        length)
{
  self->at = text;
  self->end = text + length;
  self->number = 0;
  self->line = 1;
}

static gboolean
is_at_break (const WbCsvReader *self)
{
  return self->at < self->end && (*self->at == '\n' || *self->at == '\r');
}

/* Steps over CRLF, LF or CR. */
static void
skip_break (WbCsvReader *self)
{
  if (*self->at == '\r' && self->end - self->at > 1 && self->at[1] == '\n')
    self->at++;
  self->at++;
  self->line++;
}

static gboolean
fail (guint       line,
      const char *what,
      GError    **error)
{
  /* Translators: %u is the number of a line, %s a sentence. */
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA, _("Line %u: %s"), line, what);
  return FALSE;
}

static void
note_fault (WbCsvRecord *record,
            const char  *what)
{
  if (record->fault != NULL)
    return;

  record->fault = g_strdup (what);
  record->fault_field = record->fields->len;
}

/* After the opening quotation mark, to past the closing one. */
static gboolean
read_quoted (WbCsvReader *self,
             GString     *field,
             GError     **error)
{
  guint line = self->line;

  while (self->at < self->end)
    {
      if (*self->at == '"' && self->end - self->at > 1 && self->at[1] == '"')
        {
          g_string_append_c (field, '"');
          self->at += 2;
        }
      else if (*self->at == '"')
        {
          self->at++;
          return TRUE;
        }
      else if (is_at_break (self))
        {
          g_string_append_c (field, '\n');
          skip_break (self);
        }
      else if (*self->at == '\0')
        {
          return fail (self->line, _("there is a NUL byte here; the file is not plain text"),
                       error);
        }
      else
        {
          g_string_append_c (field, *self->at++);
        }
    }

  return fail (line, _("a quotation mark is opened here and never closed"), error);
}

/* To the next comma, line break or end. A quotation mark here is out of place. */
static gboolean
read_plain (WbCsvReader *self,
            GString     *field,
            WbCsvRecord *record,
            GError     **error)
{
  while (self->at < self->end && *self->at != ',' && !is_at_break (self))
    {
      if (*self->at == '\0')
        return fail (self->line, _("there is a NUL byte here; the file is not plain text"), error);
      if (*self->at == '"')
        note_fault (record, _("a quotation mark stands inside the field; the whole field has to "
                              "stand in quotation marks and this one has to be "
                              "written twice"));
      g_string_append_c (field, *self->at++);
    }

  return TRUE;
}

static gboolean
read_field (WbCsvReader *self,
            WbCsvRecord *record,
            GError     **error)
{
  g_autoptr (GString) field = g_string_new (NULL);

  if (record->fields->len >= WB_CSV_MAX_FIELDS)
    return fail (self->line, _("there are too many fields in one record"), error);

  if (self->at < self->end && *self->at == '"')
    {
      self->at++;
      if (!read_quoted (self, field, error))
        return FALSE;
      if (self->at < self->end && *self->at != ',' && !is_at_break (self))
        note_fault (record, _("something follows the closing quotation mark; a quotation mark "
                              "that belongs to the text has to be written twice"));
    }

  if (!read_plain (self, field, record, error))
    return FALSE;

  g_ptr_array_add (record->fields, g_string_free (g_steal_pointer (&field), FALSE));
  return TRUE;
}

gboolean
wb_csv_reader_next (WbCsvReader  *self,
                    WbCsvRecord **out,
                    GError      **error)
{
  g_autoptr (WbCsvRecord) record = NULL;

  *out = NULL;
  if (self->at >= self->end)
    return TRUE;

  record = g_new0 (WbCsvRecord, 1);
  record->fields = g_ptr_array_new_with_free_func (g_free);
  record->number = ++self->number;
  record->line = self->line;

  if (!read_field (self, record, error))
    return FALSE;
  while (self->at < self->end && *self->at == ',')
    {
      self->at++;
      if (!read_field (self, record, error))
        return FALSE;
    }

  if (is_at_break (self))
    skip_break (self);

  *out = g_steal_pointer (&record);
  return TRUE;
}

/* --- writing ---------------------------------------------------------------------------------- */

static gboolean
needs_quotes (const char *field)
{
  gsize length = strlen (field);

  return strpbrk (field, ",\"\n\r") != NULL ||
         (length > 0 && (g_ascii_isspace (field[0]) || g_ascii_isspace (field[length - 1])));
}

void
wb_csv_append_field (GString    *out,
                     const char *field)
{
  if (!needs_quotes (field))
    {
      g_string_append (out, field);
      return;
    }

  g_string_append_c (out, '"');
  for (; *field != '\0'; field++)
    {
      if (*field == '"')
        g_string_append_c (out, '"');
      g_string_append_c (out, *field);
    }
  g_string_append_c (out, '"');
}

/* --- encodings -------------------------------------------------------------------------------- */

/* What Windows-1252 has at 0x80 to 0x9f, 0 where it has nothing. Elsewhere it is Latin-1, whose
 * bytes are code points. */
static const guint16 windows_1252[32] = {
  0x20ac, 0,      0x201a, 0x0192, 0x201e, 0x2026, 0x2020, 0x2021,
  0x02c6, 0x2030, 0x0160, 0x2039, 0x0152, 0,      0x017d, 0,
  0,      0x2018, 0x2019, 0x201c, 0x201d, 0x2022, 0x2013, 0x2014,
  0x02dc, 0x2122, 0x0161, 0x203a, 0x0153, 0,      0x017e, 0x0178,
};

static guint
line_of (const guchar *data,
         gsize         offset)
{
  guint line = 1;

  for (gsize i = 0; i < offset; i++)
    {
      if (data[i] == '\n' || (data[i] == '\r' && data[i + 1] != '\n'))
        line++;
    }

  return line;
}

static char *
decode_windows_1252 (const guchar *data,
                     gsize         size,
                     gsize        *length,
                     GError      **error)
{
  g_autoptr (GString) text = g_string_sized_new (size + size / 8);

  for (gsize i = 0; i < size; i++)
    {
      gunichar character = data[i];

      if (character >= 0x80 && character < 0xa0)
        character = windows_1252[character - 0x80];
      if (character == 0 && data[i] != 0)
        {
          g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA,
                       _("Line %u: the byte 0x%02x belongs to neither UTF-8 nor Windows-1252; "
                         "save the file as UTF-8"),
                       line_of (data, i), data[i]);
          return NULL;
        }
      if (character == 0)
        g_string_append_c (text, '\0');
      else
        g_string_append_unichar (text, character);
    }

  *length = text->len;
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* NUL bytes are let through to the reader, which says where they are. */
static gboolean
is_utf8 (const char *text,
         gsize       length)
{
  while (length > 0)
    {
      gsize part = strnlen (text, length);

      if (!g_utf8_validate_len (text, part, NULL))
        return FALSE;
      if (part == length)
        return TRUE;
      text += part + 1;
      length -= part + 1;
    }

  return TRUE;
}

char *
wb_csv_decode (GBytes      *bytes,
               gsize       *length,
               const char **encoding,
               GError     **error)
{
  gsize size;
  const guchar *data = g_bytes_get_data (bytes, &size);
  char *text;

  if (size > WB_CSV_MAX_BYTES)
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA, _("The file is larger than %d MiB"),
                   WB_CSV_MAX_BYTES / (1024 * 1024));
      return NULL;
    }
  if (size >= 2 && ((data[0] == 0xff && data[1] == 0xfe) || (data[0] == 0xfe && data[1] == 0xff)))
    {
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA,
                           _("The file is in UTF-16; save it as comma-separated values in UTF-8"));
      return NULL;
    }

  if (size >= 3 && memcmp (data, "\xef\xbb\xbf", 3) == 0)
    {
      data += 3;
      size -= 3;
    }

  if (!is_utf8 ((const char *) data, size))
    {
      *encoding = "Windows-1252";
      return decode_windows_1252 (data, size, length, error);
    }

  *encoding = "UTF-8";
  *length = size;
  text = g_malloc (size + 1);
  if (size > 0)
    memcpy (text, data, size);
  text[size] = '\0';
  return text;
}
