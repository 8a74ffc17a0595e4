/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers of jobs and claims, given out one after the other and never twice. */
#include "config.h"

#include "store/wb-job-store.h"

/* The one number that @sql gives of @text. */
static gboolean
ask (WbSqlite    *book,
     const char  *sql,
     const char  *text,
     gint64      *number,
     GError     **error)
{
  sqlite3_stmt *statement = wb_sqlite_prepare_with (book, sql, error, WB_TEXT (text));

  if (statement == NULL || wb_sqlite_step (book, statement, error) != WB_STEP_ROW)
    return FALSE;
  *number = sqlite3_column_int64 (statement, 0);
  sqlite3_reset (statement);
  return TRUE;
}

static gboolean
is_taken (WbSqlite    *book,
          const char  *number,
          gboolean    *taken,
          GError     **error)
{
  gint64 found = 0;

  if (!ask (book, "SELECT EXISTS (SELECT 1 FROM used_number WHERE number = ?1)", number, &found,
            error))
    return FALSE;
  *taken = found != 0;
  return TRUE;
}

/* A colon comes after the digits. More than six of them are somebody's own way of numbering. */
static gboolean
read_last (WbSqlite    *book,
           const char  *prefix,
           gint64      *last,
           GError     **error)
{
  static const char sql[] =
    "SELECT max (coalesce ((SELECT last FROM number_series WHERE prefix = ?1), 0),"
    " coalesce ((SELECT max (CAST (substr (number, length (?1) + 1) AS INTEGER)) FROM used_number"
    " WHERE number >= ?1 || '0' AND number < ?1 || ':'"
    " AND length (number) <= length (?1) + 6"
    " AND rtrim (number, '0123456789') = ?1 COLLATE NOCASE), 0))";

  return ask (book, sql, prefix, last, error);
}

static gboolean
write_last (WbSqlite    *book,
            const char  *prefix,
            gint64       last,
            GError     **error)
{
  static const char sql[] =
    "INSERT INTO number_series (prefix, last) VALUES (?1, ?2)"
    " ON CONFLICT (prefix) DO UPDATE SET last = excluded.last";

  return wb_sqlite_run_with (book, sql, error, WB_TEXT (prefix), WB_NUMBER (last));
}

gboolean
wb_number_series_note (WbSqlite    *book,
                       const char  *number,
                       GError     **error)
{
  return wb_sqlite_run_with (book, "INSERT OR IGNORE INTO used_number VALUES (?1)", error,
                             WB_TEXT (number));
}

/* Numbers that a person typed or imported count too, also when what had them is gone. */
char *
wb_number_series_next (WbSqlite    *book,
                       const char  *prefix,
                       GError     **error)
{
  gboolean taken = TRUE;
  gint64 last;
  g_autofree char *number = NULL;

  if (!read_last (book, prefix, &last, error))
    return NULL;
  while (taken)
    {
      g_free (number);
      number = g_strdup_printf ("%s%04" G_GINT64_FORMAT, prefix, ++last);
      if (!is_taken (book, number, &taken, error))
        return NULL;
    }
  if (!write_last (book, prefix, last, error))
    return NULL;
  return g_steal_pointer (&number);
}
