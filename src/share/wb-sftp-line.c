/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines are read from their end: what owner and group are called may have blanks in it. */
#include "config.h"

#include "share/wb-sftp-line.h"

#include "share/wb-remote-private.h"

#include <string.h>

/* Names are at most some hundred bytes, and what stands before them as well. */
#define MAX_LINE 4096
#define BLANKS " \t\r"
/* mode, links, owner, group, size, date, name */
#define LEAST_WORDS 8

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

/* Words of the date before the name: "Mar 25 14:29", "Mar 25 2024" or "2024-03-25 14:29"; 0 when it
 * is none, so that a name with a blank is not taken for what comes after the blank. */
static guint
date_words (const GPtrArray *words)
{
  const char *month = words->pdata[words->len - 4];
  const char *day = words->pdata[words->len - 3];

  if (strspn (day, G_CSET_DIGITS "-") == 10 && day[4] == '-' && day[7] == '-' && day[10] == '\0')
    return 2;
  return !g_ascii_isdigit (*month) && g_ascii_isdigit (*day) && strlen (day) <= 2 &&
         words->len > LEAST_WORDS ? 3 : 0;
}

gboolean
wb_sftp_line_read (const char    *line,
                   gsize          length,
                   WbRemoteEntry *entry)
{
  g_autofree char *copy = NULL;
  g_autoptr (GPtrArray) words = NULL;
  const char *name;
  guint date;

  if (length == 0 || length > MAX_LINE || memchr (line, '\0', length) != NULL ||
      (line[0] != '-' && line[0] != 'd'))
    return FALSE;
  copy = g_strndup (line, length);
  words = split (copy);
  if (words->len < LEAST_WORDS)
    return FALSE;
  name = words->pdata[words->len - 1];
  date = date_words (words);
  if (date == 0 || !wb_remote_name_is_plain (name))
    return FALSE;
  entry->name = g_strdup (name);
  entry->is_folder = line[0] == 'd';
  entry->size = entry->is_folder ? -1 : read_size (words->pdata[words->len - 2 - date]);
  entry->changed = 0;
  return TRUE;
}
