/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the plain words of a claim say about damage and things: marks in words, words that two texts
 * share. Reads English, the language of the forms; what it does not know it passes over. */
#include "config.h"

#include "core/wb-proposal-private.h"

#include <string.h>

typedef struct
{
  const char *word;
  const char *code;
} WordCode;

/* Only words that hardly mean anything else. "Loose", "short" and "worn" are left out: a claim uses
 * them of other things than damage. */
static const WordCode condition_words[] = {
  { "bent", "BE" }, { "bowed", "BE" }, { "broken", "BR" }, { "broke", "BR" },
  { "shattered", "BR" }, { "smashed", "BR" }, { "snapped", "BR" }, { "burned", "BU" },
  { "burnt", "BU" }, { "chipped", "CH" }, { "chip", "CH" }, { "chips", "CH" },
  { "crushed", "CR" }, { "dented", "D" }, { "dent", "D" }, { "dents", "D" }, { "faded", "F" },
  { "gouged", "G" }, { "gouge", "G" }, { "gouges", "G" }, { "marred", "M" }, { "mildew", "MI" },
  { "mildewed", "MI" }, { "mold", "MI" }, { "moldy", "MI" }, { "mould", "MI" },
  { "mouldy", "MI" }, { "peeling", "P" }, { "rubbed", "R" }, { "rust", "RU" },
  { "rusted", "RU" }, { "rusty", "RU" }, { "scratched", "SC" }, { "scratch", "SC" },
  { "scratches", "SC" }, { "soiled", "SO" }, { "stained", "ST" }, { "stain", "ST" },
  { "stains", "ST" }, { "torn", "T" }, { "ripped", "T" }, { "cracked", "Z" }, { "crack", "Z" },
  { "cracks", "Z" }, { "split", "Z" },
};

static const WordCode place_words[] = {
  { "arm", "1" }, { "arms", "1" }, { "bottom", "2" }, { "corner", "3" }, { "corners", "3" },
  { "front", "4" }, { "left", "5" }, { "leg", "6" }, { "legs", "6" }, { "rear", "7" },
  { "back", "7" }, { "right", "8" }, { "side", "9" }, { "sides", "9" }, { "top", "10" },
  { "veneer", "11" }, { "edge", "12" }, { "edges", "12" }, { "rim", "12" }, { "center", "13" },
  { "centre", "13" }, { "middle", "13" }, { "inside", "14" }, { "seat", "15" },
  { "seats", "15" }, { "drawer", "16" }, { "drawers", "16" }, { "door", "17" },
  { "doors", "17" }, { "shelf", "18" }, { "shelves", "18" }, { "hinge", "19" },
  { "hinges", "19" }, { "handle", "19" }, { "knob", "19" },
};

/* Returns: (transfer full): the words of @text in lower case. */
static char **
split_words (const char *text)
{
  g_autoptr (GString) out = g_string_new (NULL);
  g_autofree char *folded = g_utf8_strdown (text, -1);

  for (const char *p = folded; *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);

      if (g_unichar_isalnum (c))
        g_string_append_unichar (out, c);
      else if (out->len > 0 && out->str[out->len - 1] != ' ')
        g_string_append_c (out, ' ');
    }
  if (out->len > 0 && out->str[out->len - 1] == ' ')
    g_string_truncate (out, out->len - 1);
  return out->len > 0 ? g_strsplit (out->str, " ", -1) : g_new0 (char *, 1);
}

static const char *
find_code (const WordCode *table,
           gsize           n,
           const char     *word)
{
  for (gsize i = 0; i < n; i++)
    if (g_str_equal (table[i].word, word))
      return table[i].code;

  return NULL;
}

/* One clause: every condition in it at every place in it. */
static void
read_clause (WbMarks    *marks,
             const char *clause)
{
  g_auto (GStrv) words = split_words (clause);
  g_autoptr (GString) places = g_string_new (NULL);

  for (guint i = 0; words[i] != NULL; i++)
    {
      const char *code = find_code (place_words, G_N_ELEMENTS (place_words), words[i]);

      if (code != NULL)
        g_string_append_printf (places, " %s", code);
    }
  for (guint i = 0; words[i] != NULL; i++)
    {
      const char *code = find_code (condition_words, G_N_ELEMENTS (condition_words), words[i]);
      g_autofree char *text = code != NULL ? g_strconcat (code, places->str, NULL) : NULL;

      if (text != NULL)
        {
          g_auto (WbMarks) more = wb_marks_from_text (text);

          wb_marks_add (marks, &more);
        }
    }
}

void
wb_claimed_marks_read (WbMarks    *marks,
                       const char *text)
{
  g_auto (GStrv) lines = NULL;

  if (text == NULL)
    return;

  lines = g_strsplit (text, "\n", -1);
  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_auto (WbMarks) codes = { NULL, 0 };
      g_auto (GStrv) clauses = NULL;

      /* A line of codes has no lower-case letter; "so" and "s" are words of a sentence. */
      if (strcspn (lines[i], "abcdefghijklmnopqrstuvwxyz") == strlen (lines[i])
          && wb_marks_parse (lines[i], &codes, NULL) && codes.n_marks > 0)
        {
          wb_marks_add (marks, &codes);
          continue;
        }
      clauses = g_strsplit_set (lines[i], ",;:.", -1);
      for (guint j = 0; clauses[j] != NULL; j++)
        read_clause (marks, clauses[j]);
    }
}

/* "plates" and "plate", "dresses" and "dress" are one word. */
static void
cut_plural (char *word)
{
  gsize n = strlen (word);

  if (n > 5 && g_str_has_suffix (word, "sses"))
    word[n - 2] = '\0';
  else if (n > 4 && word[n - 1] == 's' && word[n - 2] != 's')
    word[n - 1] = '\0';
}

gboolean
wb_words_are_related (const char *a,
                      const char *b)
{
  g_auto (GStrv) words_a = NULL;
  g_auto (GStrv) words_b = NULL;

  if (a == NULL || b == NULL)
    return FALSE;

  words_a = split_words (a);
  words_b = split_words (b);
  for (guint i = 0; words_a[i] != NULL; i++)
    cut_plural (words_a[i]);
  for (guint j = 0; words_b[j] != NULL; j++)
    cut_plural (words_b[j]);
  for (guint i = 0; words_a[i] != NULL; i++)
    for (guint j = 0; words_b[j] != NULL; j++)
      if (g_utf8_strlen (words_a[i], -1) >= 4 && g_str_equal (words_a[i], words_b[j]))
        return TRUE;

  return FALSE;
}

gboolean
wb_text_has_word (const char        *text,
                  const char *const *words)
{
  g_auto (GStrv) list = NULL;

  if (text == NULL)
    return FALSE;

  list = split_words (text);
  for (guint i = 0; list[i] != NULL; i++)
    if (g_strv_contains (words, list[i]))
      return TRUE;

  return FALSE;
}
