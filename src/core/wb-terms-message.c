/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The messages about a faulty terms file: where it is, what was written, and which name was
 * perhaps meant. */
#include "config.h"

#include "core/wb-terms-private.h"

#include <string.h>

#include "core/wb-core.h"

/* No name of the format is half as long; what is longer was not meant as one. */
#define MOST_LETTERS_OF_A_NAME 60

gboolean
wb_terms_fail (GError    **error,
               const char *file,
               guint       line,
               const char *format,
               ...)
{
  g_autofree char *message = NULL;
  va_list args;

  va_start (args, format);
  message = g_strdup_vprintf (format, args);
  va_end (args);

  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_TERMS, "%s:%u: %s", file, line, message);
  return FALSE;
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

WbTermsGuess
wb_terms_guess_begin (const char *written)
{
  /* What differs in every second letter is no slip of the pen. */
  return (WbTermsGuess) { written, NULL,
                         (guint) MIN (strlen (written), MOST_LETTERS_OF_A_NAME) / 2 + 1 };
}

void
wb_terms_guess_try (WbTermsGuess *self,
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
