/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes the condition of a second look. It goes through tables that have no index for it, which is
 * why it is only asked when the index has no answer. */
#include "config.h"

#include "store/wb-search-second.h"

/* Parameters of one word, in this order. */
enum
{
  EXPRESSION,   /* for the index */
  IN_STREET,    /* a pattern */
  OF_LOT,       /* a pattern */
  TAG,          /* the word itself */
  N_PARAMETERS
};

char *
wb_search_second_condition (guint n_words,
                            guint first)
{
  GString *sql = g_string_new ("(");

  g_return_val_if_fail (n_words > 0 && n_words <= WB_SEARCH_SECOND_WORDS, NULL);

  for (guint i = 0; i < n_words; i++)
    {
      guint at = first + i * N_PARAMETERS;

      g_string_append_printf (sql,
                              "%s(doc IN (SELECT rowid FROM job_words WHERE job_words MATCH ?%u)"
                              " OR id IN (SELECT job_id FROM stop"
                              " WHERE ' ' || street LIKE ?%u ESCAPE '\\')"
                              " OR id IN (SELECT job_id FROM party"
                              " WHERE ' ' || street LIKE ?%u ESCAPE '\\')"
                              " OR id IN (SELECT job_id FROM lot"
                              " WHERE colour LIKE ?%u ESCAPE '\\' OR number LIKE ?%u ESCAPE '\\'"
                              " OR lower (substr (?%u, 1, length (number) + 1))"
                              " = lower (number) || '-'))",
                              i > 0 ? " AND " : "", at + EXPRESSION, at + IN_STREET, at + IN_STREET,
                              at + OF_LOT, at + OF_LOT, at + TAG);
    }
  g_string_append_c (sql, ')');
  return g_string_free (sql, FALSE);
}

/* Returns: (transfer full): a pattern for what begins with @word, after @before. */
static char *
make_pattern (const char *before,
              const char *word)
{
  GString *pattern = g_string_new (before);

  for (const char *at = word; *at != '\0'; at++)
    {
      if (*at == '%' || *at == '_' || *at == '\\')
        g_string_append_c (pattern, '\\');
      g_string_append_c (pattern, *at);
    }
  g_string_append_c (pattern, '%');
  return g_string_free (pattern, FALSE);
}

void
wb_search_second_bind (sqlite3_stmt      *statement,
                       guint              first,
                       const char *const *words,
                       const char *const *expressions)
{
  for (guint i = 0; words[i] != NULL; i++)
    {
      int at = (int) (first + i * N_PARAMETERS);

      sqlite3_bind_text (statement, at + EXPRESSION, expressions[i], -1, SQLITE_TRANSIENT);
      sqlite3_bind_text (statement, at + IN_STREET, make_pattern ("% ", words[i]), -1, g_free);
      sqlite3_bind_text (statement, at + OF_LOT, make_pattern ("", words[i]), -1, g_free);
      sqlite3_bind_text (statement, at + TAG, words[i], -1, SQLITE_TRANSIENT);
    }
}
