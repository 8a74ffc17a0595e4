/* SPDX-License-Identifier: GPL-3.0-or-later */
/* White space, positions, quoting and guesses for the parsers of this room. Text may hold any bytes
 * here: it comes from people and files. */
#include "config.h"

#include "core/wb-text.h"

#include <string.h>

#define MAX_QUOTED_CHARACTERS 60

/* No name of a format is half as long; what is longer was not meant as one. */
#define MOST_LETTERS_OF_A_NAME 60

char *
wb_text_quote (const char *text,
               gssize      length)
{
  g_autofree char *valid = NULL;
  g_autoptr (GString) quoted = NULL;
  const char *p;
  guint n = 0;

  g_return_val_if_fail (text != NULL, NULL);

  valid = g_utf8_make_valid (text, length);
  quoted = g_string_new ("“");

  for (p = valid; *p != '\0' && n < MAX_QUOTED_CHARACTERS; p = g_utf8_next_char (p), n++)
    {
      gunichar c = g_utf8_get_char (p);

      g_string_append_unichar (quoted, g_unichar_iscntrl (c) ? ' ' : c);
    }
  if (*p != '\0')
    g_string_append (quoted, "…");
  g_string_append (quoted, "”");

  return g_string_free (g_steal_pointer (&quoted), FALSE);
}

const char *
wb_text_skip_space (const char *text)
{
  g_return_val_if_fail (text != NULL, NULL);

  while (*text != '\0')
    {
      gunichar c = g_utf8_get_char_validated (text, -1);

      if (c == (gunichar) -1 || c == (gunichar) -2 || !g_unichar_isspace (c))
        break;
      text = g_utf8_next_char (text);
    }

  return text;
}

gsize
wb_text_position (const char *text,
                  const char *at)
{
  gsize position = 1;

  g_return_val_if_fail (text != NULL && at >= text, 0);

  /* Bytes that continue a character are not counted; this works on broken text too. */
  for (; text < at; text++)
    if (((guchar) *text & 0xC0) != 0x80)
      position++;

  return position;
}

/* How many letters have to be changed, put in or left out to make @b of @a. */
static guint
count_edits (const char *a,
             const char *b)
{
  gsize length = strlen (b);
  g_autofree guint *row = g_new (guint, length + 1);

  for (guint j = 0; j <= length; j++)
    row[j] = j;
  for (guint i = 1; *a != '\0'; a++, i++)
    {
      guint diagonal = row[0];

      row[0] = i;
      for (guint j = 1; j <= length; j++)
        {
          guint changed = diagonal + (*a == b[j - 1] ? 0 : 1);

          diagonal = row[j];
          row[j] = MIN (changed, MIN (row[j], row[j - 1]) + 1);
        }
    }
  return row[length];
}

WbTextGuess
wb_text_guess_begin (const char *written)
{
  /* What differs in every second letter is no slip of the pen. */
  return (WbTextGuess) { written, NULL,
                         (guint) MIN (strlen (written), MOST_LETTERS_OF_A_NAME) / 2 + 1 };
}

void
wb_text_guess_try (WbTextGuess *self,
                    const char   *name)
{
  guint edits;

  if (strlen (self->written) > MOST_LETTERS_OF_A_NAME)
    return;

  edits = count_edits (self->written, name);
  if (edits < self->edits)
    {
      self->nearest = name;
      self->edits = edits;
    }
}
