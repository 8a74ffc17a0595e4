/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One connection: how it is opened and set up, its statements, its transactions. It knows no table
 * of the book; what a result code means stands in wb-store.c. */
#include "config.h"

#include "store/wb-sqlite.h"

/* How many steps of SQLite's machine pass between two looks at the cancellable: well under a
 * millisecond. */
#define STEPS_BETWEEN_LOOKS 2000

struct _WbSqlite
{
  char         *path;
  sqlite3      *handle;
  GHashTable   *statements;   /* sqlite3_stmt by its own text */
  GCancellable *cancellable;  /* (nullable) */
};

/* --- opening and closing ---------------------------------------------------------------------- */

static int
look_at_cancellable (gpointer data)
{
  WbSqlite *self = data;

  return g_cancellable_is_cancelled (self->cancellable);
}

/* Both sides of a bargain: the file may come from anywhere, so nothing in it is trusted to run, and
 * our own statements must not mean something else when a name is misspelt. */
static const char set_up[] =
  "PRAGMA trusted_schema = OFF;"
  "PRAGMA cell_size_check = ON;"
  "PRAGMA foreign_keys = ON;"
  "PRAGMA synchronous = FULL;"
  "PRAGMA temp_store = MEMORY;"
  "PRAGMA cache_size = -16000;";

static gboolean
configure (WbSqlite      *self,
           WbSqliteMode   mode,
           GError       **error)
{
  sqlite3_extended_result_codes (self->handle, 1);
  sqlite3_db_config (self->handle, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
  sqlite3_db_config (self->handle, SQLITE_DBCONFIG_DQS_DML, 0, NULL);
  sqlite3_db_config (self->handle, SQLITE_DBCONFIG_DQS_DDL, 0, NULL);
  sqlite3_busy_timeout (self->handle, WB_SQLITE_PATIENCE_MS);
  if (!wb_sqlite_execute (self, set_up, error))
    return FALSE;
  return mode != WB_SQLITE_READ || wb_sqlite_execute (self, "PRAGMA query_only = ON", error);
}

/* What SQLite is asked to open: an address when more has to be said than a file name. */
static char *
address_of (const char    *path,
            WbSqliteMode   mode,
            GError       **error)
{
  g_autofree char *absolute = g_canonicalize_filename (path, NULL);
  g_autofree char *address = g_filename_to_uri (absolute, NULL, error);

  if (address == NULL)
    return NULL;
  return g_strconcat (address, mode == WB_SQLITE_IMMUTABLE ? "?immutable=1" : "", NULL);
}

static void
finalize_statement (gpointer statement)
{
  sqlite3_finalize (statement);
}

WbSqlite *
wb_sqlite_open (const char    *path,
                WbSqliteMode   mode,
                GError       **error)
{
  g_autoptr (WbSqlite) self = g_new0 (WbSqlite, 1);
  g_autofree char *address = address_of (path, mode, error);
  int flags = SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_URI;
  int code;

  self->path = g_strdup (path);
  self->statements = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, finalize_statement);
  if (address == NULL)
    return NULL;
  flags |= mode == WB_SQLITE_IMMUTABLE ? SQLITE_OPEN_READONLY : SQLITE_OPEN_READWRITE;
  if (mode == WB_SQLITE_CREATE)
    flags |= SQLITE_OPEN_CREATE;
  code = sqlite3_open_v2 (address, &self->handle, flags, NULL);
  if (code != SQLITE_OK)
    {
      if (self->handle == NULL)
        g_error ("%s: out of memory", G_STRLOC);
      wb_sqlite_take_error (self, error);
      return NULL;
    }
  if (!configure (self, mode, error))
    return NULL;
  return g_steal_pointer (&self);
}

void
wb_sqlite_close (WbSqlite *self)
{
  int code;

  if (self == NULL)
    return;
  wb_sqlite_set_cancellable (self, NULL);
  g_hash_table_unref (self->statements);
  code = sqlite3_close (self->handle);
  if (code != SQLITE_OK)
    g_critical ("a connection was closed while in use (code %d)", code);
  g_free (self->path);
  g_free (self);
}

const char *
wb_sqlite_get_path (WbSqlite *self)
{
  return self->path;
}

sqlite3 *
wb_sqlite_get_handle (WbSqlite *self)
{
  return self->handle;
}

void
wb_sqlite_set_cancellable (WbSqlite     *self,
                           GCancellable *cancellable)
{
  g_set_object (&self->cancellable, cancellable);
  sqlite3_progress_handler (self->handle, cancellable != NULL ? STEPS_BETWEEN_LOOKS : 0,
                            cancellable != NULL ? look_at_cancellable : NULL, self);
}

/* --- errors ----------------------------------------------------------------------------------- */

void
wb_sqlite_set_error (WbSqlite      *self,
                     WbStoreError   code,
                     GError       **error,
                     const char    *format,
                     ...)
{
  g_autofree char *message = NULL;
  va_list arguments;

  va_start (arguments, format);
  message = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  wb_store_set_error (self->path, code, error, "%s", message);
}

void
wb_sqlite_take_error (WbSqlite  *self,
                      GError   **error)
{
  int code = sqlite3_extended_errcode (self->handle);

  if ((code & 0xff) == SQLITE_INTERRUPT)
    g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_CANCELLED, "it was cancelled");
  else
    wb_store_set_error (self->path, wb_store_error_from_sqlite (code), error, "%s (code %d)",
                        wb_store_sentence (code), code);
}

/* --- statements ------------------------------------------------------------------------------- */

gboolean
wb_sqlite_execute (WbSqlite    *self,
                   const char  *sql,
                   GError     **error)
{
  if (sqlite3_exec (self->handle, sql, NULL, NULL, NULL) == SQLITE_OK)
    return TRUE;
  wb_sqlite_take_error (self, error);
  return FALSE;
}

gboolean
wb_sqlite_read_number (WbSqlite    *self,
                       const char  *sql,
                       gint64      *out,
                       GError     **error)
{
  sqlite3_stmt *statement = wb_sqlite_prepare (self, sql, error);

  if (statement == NULL)
    return FALSE;
  switch (wb_sqlite_step (self, statement, error))
    {
    case WB_STEP_ROW:
      *out = sqlite3_column_int64 (statement, 0);
      sqlite3_reset (statement);
      return TRUE;
    case WB_STEP_END:
      wb_sqlite_set_error (self, WB_STORE_ERROR_CORRUPT, error,
                           "the book is damaged: a value is not there");
      return FALSE;
    case WB_STEP_FAILED:
      return FALSE;
    }
  g_assert_not_reached ();
}

sqlite3_stmt *
wb_sqlite_prepare (WbSqlite    *self,
                   const char  *sql,
                   GError     **error)
{
  sqlite3_stmt *statement = g_hash_table_lookup (self->statements, sql);

  if (statement != NULL)
    {
      sqlite3_reset (statement);
      sqlite3_clear_bindings (statement);
      return statement;
    }
  if (sqlite3_prepare_v3 (self->handle, sql, -1, SQLITE_PREPARE_PERSISTENT, &statement,
                          NULL) != SQLITE_OK)
    {
      wb_sqlite_take_error (self, error);
      return NULL;
    }
  g_hash_table_insert (self->statements, (gpointer) sqlite3_sql (statement), statement);
  return statement;
}

WbStep
wb_sqlite_step (WbSqlite      *self,
                sqlite3_stmt  *statement,
                GError       **error)
{
  switch (sqlite3_step (statement))
    {
    case SQLITE_ROW:
      return WB_STEP_ROW;
    case SQLITE_DONE:
      sqlite3_reset (statement);
      return WB_STEP_END;
    default:
      wb_sqlite_take_error (self, error);
      sqlite3_reset (statement);
      return WB_STEP_FAILED;
    }
}

gboolean
wb_sqlite_run (WbSqlite      *self,
               sqlite3_stmt  *statement,
               GError       **error)
{
  WbStep step;

  do
    step = wb_sqlite_step (self, statement, error);
  while (step == WB_STEP_ROW);
  return step == WB_STEP_END;
}

/* Binding fails only for a wrong index, a statement in use, a text of a gigabyte or want of memory:
 * nothing that our own code lets happen, and going on would store NULL in silence. */
void
wb_sqlite_bind_text (sqlite3_stmt *statement,
                     int           index,
                     const char   *text)
{
  int code = sqlite3_bind_text (statement, index, text, -1, SQLITE_STATIC);

  g_assert (code == SQLITE_OK);
}

void
wb_sqlite_bind_number (sqlite3_stmt *statement,
                       int           index,
                       gint64        number)
{
  int code = sqlite3_bind_int64 (statement, index, number);

  g_assert (code == SQLITE_OK);
}

sqlite3_stmt *
wb_sqlite_prepare_values (WbSqlite             *self,
                          const char           *sql,
                          GError              **error,
                          const WbSqliteValue  *values,
                          gsize                 n)
{
  sqlite3_stmt *statement = wb_sqlite_prepare (self, sql, error);

  for (gsize i = 0; statement != NULL && i < n; i++)
    if (values[i].is_number)
      wb_sqlite_bind_number (statement, (int) i + 1, values[i].number);
    else
      wb_sqlite_bind_text (statement, (int) i + 1, values[i].text);
  return statement;
}

gboolean
wb_sqlite_run_values (WbSqlite             *self,
                      const char           *sql,
                      GError              **error,
                      const WbSqliteValue  *values,
                      gsize                 n)
{
  sqlite3_stmt *statement = wb_sqlite_prepare_values (self, sql, error, values, n);

  return statement != NULL && wb_sqlite_run (self, statement, error);
}

char *
wb_sqlite_dup_text (sqlite3_stmt *statement,
                    int           column)
{
  return g_strdup ((const char *) sqlite3_column_text (statement, column));
}

/* --- transactions ----------------------------------------------------------------------------- */

static gboolean
begin_and_work (WbSqlite      *self,
                gboolean       writing,
                WbSqliteWork   work,
                gpointer       data,
                GError       **error)
{
  return wb_sqlite_execute (self, writing ? "BEGIN IMMEDIATE" : "BEGIN", error) &&
         work (self, data, error) &&
         wb_sqlite_execute (self, "COMMIT", error);
}

gboolean
wb_sqlite_transact (WbSqlite      *self,
                    gboolean       writing,
                    WbSqliteWork   work,
                    gpointer       data,
                    GCancellable  *cancellable,
                    GError       **error)
{
  gboolean done;

  if (g_cancellable_set_error_if_cancelled (cancellable, error))
    return FALSE;
  wb_sqlite_set_cancellable (self, cancellable);
  done = begin_and_work (self, writing, work, data, error);
  wb_sqlite_set_cancellable (self, NULL);
  /* SQLite has rolled back by itself after some errors; otherwise nothing can keep it from doing so
   * now, and whatever it reports would hide the error that led here. */
  if (!done && !sqlite3_get_autocommit (self->handle))
    sqlite3_exec (self->handle, "ROLLBACK", NULL, NULL, NULL);
  return done;
}
