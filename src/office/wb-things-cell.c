/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Things to the text of a cell and back, without loss. Which piece a cell belongs to is the
 * table's. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-things-cell.h"

#include "office/wb-office.h"

#include <glib/gi18n.h>
#include <string.h>

static const char *const part_names[] = { "quantity", "description", "value", "weight", "notes" };

#define N_PARTS G_N_ELEMENTS (part_names)

/* What stands for itself in no text: the character and its escape. */
static const struct
{
  char character;
  char escape;
  char at_ends;   /* only there */
} escapes[] = {
  { '\\', '\\', FALSE }, { '|', '|', FALSE }, { '\n', 'n', FALSE }, { '\r', 'r', FALSE },
  { ' ', 's', TRUE }, { '\t', 't', TRUE }, { '\v', 'v', TRUE }, { '\f', 'f', TRUE },
};

static const WbField *
get_field (gsize part)
{
  return wb_record_type_field (wb_record_type (WB_KIND_THING), part_names[part]);
}

/* --- writing ---------------------------------------------------------------------------------- */

static void
append_character (GString  *out,
                  char      character,
                  gboolean  at_end)
{
  for (gsize i = 0; i < G_N_ELEMENTS (escapes); i++)
    {
      if (escapes[i].character != character || (escapes[i].at_ends && !at_end))
        continue;
      g_string_append_c (out, '\\');
      g_string_append_c (out, escapes[i].escape);
      return;
    }
  g_string_append_c (out, character);
}

static void
append_text (GString    *out,
             const char *text)
{
  gsize length = strlen (text);
  gsize start = strspn (text, " \t\v\f\r\n");
  gsize end = length;

  while (end > start && strchr (" \t\v\f\r\n", text[end - 1]) != NULL)
    end--;
  for (gsize i = 0; i < length; i++)
    append_character (out, text[i], i < start || i >= end);
}

static void
append_thing (GString       *out,
              const WbThing *thing)
{
  gsize last = N_PARTS - 1;

  while (last > 1 && !wb_record_field_is_set (get_field (last), thing))
    last--;
  for (gsize i = 0; i <= last; i++)
    {
      g_autofree char *text = wb_record_get_text (thing, get_field (i));

      if (i > 0)
        g_string_append (out, *out->str != '\0' && out->str[out->len - 1] != '\n' ? " |" : "|");
      if (*text != '\0' && i > 0)
        g_string_append_c (out, ' ');
      append_text (out, text);
    }
}

char *
wb_things_cell_write (GPtrArray *things)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < things->len; i++)
    {
      if (i > 0)
        g_string_append_c (out, '\n');
      append_thing (out, g_ptr_array_index (things, i));
    }
  return g_string_free (out, FALSE);
}

/* --- reading ---------------------------------------------------------------------------------- */

/* Splits a line at its strokes. Texts keep their escapes. */
static GPtrArray *
split_line (const char *line)
{
  GPtrArray *parts = g_ptr_array_new_with_free_func (g_free);
  GString *part = g_string_new (NULL);

  for (const char *at = line;; at++)
    {
      if (*at == '\\' && at[1] != '\0')
        {
          g_string_append_len (part, at, 2);
          at++;
        }
      else if (*at == '|' || *at == '\0')
        {
          g_ptr_array_add (parts, g_strstrip (g_string_free (part, FALSE)));
          if (*at == '\0')
            return parts;
          part = g_string_new (NULL);
        }
      else
        {
          g_string_append_c (part, *at);
        }
    }
}

/* NULL when a backslash stands before what needs none. */
static char *
unescape (const char *text)
{
  g_autoptr (GString) out = g_string_new (NULL);

  for (; *text != '\0'; text++)
    {
      gsize i = 0;

      if (*text != '\\')
        {
          g_string_append_c (out, *text);
          continue;
        }
      text++;
      while (i < G_N_ELEMENTS (escapes) && escapes[i].escape != *text)
        i++;
      if (i == G_N_ELEMENTS (escapes))
        return NULL;
      g_string_append_c (out, escapes[i].character);
    }
  return g_string_free (g_steal_pointer (&out), FALSE);
}

static gboolean
read_part (WbThing     *thing,
           gsize        part,
           const char  *escaped,
           const char  *currency,
           GError     **error)
{
  const WbField *field = get_field (part);
  g_autofree char *text = unescape (escaped);

  if (text == NULL)
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA,
                   _("“%s” has a backslash that stands for nothing; write two for one"), escaped);
      return FALSE;
    }
  if (!wb_record_set_text (thing, field, text, currency, error))
    return FALSE;
  /* Core takes white space off the ends; a text that was written with it keeps it. */
  if (field->type == WB_FIELD_TEXT)
    wb_set_text (&G_STRUCT_MEMBER (char *, thing, field->offset), text);
  return TRUE;
}

static WbThing *
read_line (const char  *line,
           const char  *piece,
           const char  *currency,
           GError     **error)
{
  g_autoptr (GPtrArray) parts = split_line (line);
  g_autofree char *id = wb_office_new_id ();
  g_autoptr (WbThing) thing = wb_record_new (WB_KIND_THING, id);

  wb_set_text (&thing->piece, piece);
  if (parts->len < 2 || parts->len > N_PARTS)
    {
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA,
                           _("write it as: how many | what | value of one | weight of one | "
                             "notes"));
      return NULL;
    }
  for (gsize i = 0; i < parts->len; i++)
    if (!read_part (thing, i, g_ptr_array_index (parts, i), currency, error))
      return NULL;
  if (thing->description == NULL)
    {
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA, _("it does not say what"));
      return NULL;
    }
  return wb_record_check (thing, currency, error) ? g_steal_pointer (&thing) : NULL;
}

GPtrArray *
wb_things_cell_read (const char  *cell,
                     const char  *piece,
                     const char  *currency,
                     GError     **error)
{
  g_autoptr (GPtrArray) things = g_ptr_array_new_with_free_func (wb_record_unref);
  g_auto (GStrv) lines = g_strsplit_set (cell, "\n\r", -1);
  guint number = 0;

  for (gsize i = 0; lines[i] != NULL; i++)
    {
      g_autoptr (GError) reason = NULL;
      WbThing *thing;

      if (lines[i][strspn (lines[i], " \t\v\f")] == '\0')
        continue;
      number++;
      thing = read_line (lines[i], piece, currency, &reason);
      if (thing == NULL)
        {
          g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA,
                       /* Translators: number of a line, and what is wrong with it. */
                       _("thing %u of the contents: %s"), number, reason->message);
          return NULL;
        }
      g_ptr_array_add (things, thing);
    }
  return g_steal_pointer (&things);
}
