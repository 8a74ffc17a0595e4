/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines are read by where their date is: what owner and group are called may have blanks in it. */
#include "config.h"

#include "share/wb-sftp-line.h"

#include "share/wb-remote-private.h"

#include <string.h>

/* Names are at most some hundred bytes, and what stands before them as well. */
#define MAX_LINE 4096
#define BLANKS " \t\r"
/* Mode and number of links, before the names of owner and group. */
#define FIRST_WORDS 2

/* Returns: (transfer container): the words of @line, which is changed. */
static GPtrArray *
split (char *line)
{
  GPtrArray *words = g_ptr_array_new ();
  char *rest = NULL;

  for (char *word = strtok_r (line, BLANKS, &rest); word != NULL;
       word = strtok_r (NULL, BLANKS, &rest))
    g_ptr_array_add (words, word);
  return words;
}

static gint64
read_size (const char *word)
{
  guint64 size;

  return g_ascii_string_to_unsigned (word, 10, 0, G_MAXINT64, &size, NULL) ? (gint64) size : -1;
}

static gboolean
is_number (const char *word)
{
  return word[strspn (word, G_CSET_DIGITS)] == '\0';
}

/* Words of a date that begins with word @i: "Mar 25 14:29" and "Mar 25  2024" have three,
 * "2024-03-25 14:29" has two; 0 when it is none. */
static guint
date_words (const GPtrArray *words,
            guint            i)
{
  const char *first = words->pdata[i];
  const char *second = i + 1 < words->len ? words->pdata[i + 1] : "";
  const char *third = i + 2 < words->len ? words->pdata[i + 2] : "";

  if (strspn (first, G_CSET_DIGITS "-") == 10 && first[4] == '-' && first[7] == '-' &&
      first[10] == '\0' && strchr (second, ':') != NULL)
    return 2;
  return !g_ascii_isdigit (*first) && g_ascii_isdigit (*second) && is_number (second) &&
         strlen (second) <= 2 &&
         (strchr (third, ':') != NULL || (is_number (third) && strlen (third) == 4)) ? 3 : 0;
}

/* Finds the first number with a date after it, which is the size. What comes after the date is
 * the name, which is one word: a name with a blank is not taken for what comes after the blank,
 * not even one that looks like a line. */
static gboolean
find_size (const GPtrArray *words,
           guint           *size)
{
  for (guint i = FIRST_WORDS; i + 1 < words->len; i++)
    {
      guint date = is_number (words->pdata[i]) || *(const char *) words->pdata[i] == '-'
                     ? date_words (words, i + 1) : 0;

      if (date == 0)
        continue;
      *size = i;
      return i + 1 + date + 1 == words->len;
    }
  return FALSE;
}

gboolean
wb_sftp_line_read (const char    *line,
                   gsize          length,
                   WbRemoteEntry *entry)
{
  g_autofree char *copy = NULL;
  g_autoptr (GPtrArray) words = NULL;
  const char *name;
  guint size;

  if (length == 0 || length > MAX_LINE || memchr (line, '\0', length) != NULL ||
      (line[0] != '-' && line[0] != 'd'))
    return FALSE;
  copy = g_strndup (line, length);
  words = split (copy);
  if (!find_size (words, &size))
    return FALSE;
  name = words->pdata[words->len - 1];
  if (!wb_remote_name_is_plain (name))
    return FALSE;
  entry->name = g_strdup (name);
  entry->is_folder = line[0] == 'd';
  entry->size = entry->is_folder ? -1 : read_size (words->pdata[size]);
  entry->changed = 0;
  return TRUE;
}
