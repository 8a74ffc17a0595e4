/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One connection to a book's database: opening it, statements, transactions, and SQLite's result
 * codes made into ours. A connection belongs to one thread at a time. Private to the store. */
#pragma once

#include <gio/gio.h>
#include <sqlite3.h>

#include "store/wb-store-error.h"

G_BEGIN_DECLS

/** How long a connection waits for another process that is writing. */
#define WB_SQLITE_PATIENCE_MS 5000

typedef struct _WbSqlite WbSqlite;

typedef enum
{
  WB_SQLITE_READ,       /* reads only, and sees what others write */
  WB_SQLITE_WRITE,
  WB_SQLITE_CREATE,     /* as WRITE, for a file that is empty or not there */
  WB_SQLITE_IMMUTABLE,  /* reads a file that nobody writes meanwhile,
  and leaves no trace beside it */
} WbSqliteMode;

/** Returns: (transfer full) (nullable): a connection to the file @path. */
WbSqlite     *wb_sqlite_open             (const char    *path,
                                          WbSqliteMode   mode,
                                          GError       **error) G_GNUC_WARN_UNUSED_RESULT;
void          wb_sqlite_close            (WbSqlite      *self);
const char   *wb_sqlite_get_path         (WbSqlite      *self);
sqlite3      *wb_sqlite_get_handle       (WbSqlite      *self);

/** While set, a statement that runs long stops with %G_IO_ERROR_CANCELLED once @cancellable is. */
void          wb_sqlite_set_cancellable  (WbSqlite      *self,
                                          GCancellable  *cancellable);

/** Sets @error from what SQLite said last on this connection. */
void          wb_sqlite_take_error       (WbSqlite      *self,
                                          GError       **error);
/** Sets @error with the book's file name before the message. */
void          wb_sqlite_set_error        (WbSqlite      *self,
                                          WbStoreError   code,
                                          GError       **error,
                                          const char    *format,
                                          ...) G_GNUC_PRINTF (4, 5);

/** Runs statements that give no rows. */
gboolean      wb_sqlite_execute          (WbSqlite      *self,
                                          const char    *sql,
                                          GError       **error) G_GNUC_WARN_UNUSED_RESULT;
/** Reads the one number that a statement without parameters gives. */
gboolean      wb_sqlite_read_number      (WbSqlite      *self,
                                          const char    *sql,
                                          gint64        *out,
                                          GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer none) (nullable): the statement, ready to be bound; kept for the next
 * time. */
sqlite3_stmt *wb_sqlite_prepare          (WbSqlite      *self,
                                          const char    *sql,
                                          GError       **error) G_GNUC_WARN_UNUSED_RESULT;

typedef enum
{
  WB_STEP_ROW,
  WB_STEP_END,          /* and the statement is reset */
  WB_STEP_FAILED,       /* likewise, with the error set */
} WbStep;

WbStep        wb_sqlite_step             (WbSqlite      *self,
                                          sqlite3_stmt  *statement,
                                          GError       **error) G_GNUC_WARN_UNUSED_RESULT;
/** Steps a statement to its end, passing over rows. */
gboolean      wb_sqlite_run              (WbSqlite      *self,
                                          sqlite3_stmt  *statement,
                                          GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** Binds @text, or NULL; it must stay until the statement has run. */
void          wb_sqlite_bind_text        (sqlite3_stmt  *statement,
                                          int            index,
                                          const char    *text);
void          wb_sqlite_bind_number      (sqlite3_stmt  *statement,
                                          int            index,
                                          gint64         number);

/** WbSqliteValue: what a parameter of a statement is bound to, by WB_TEXT() or WB_NUMBER(). A text
 * may be %NULL; it must stay until the statement has run. */
typedef struct
{
  const char *text;
  gint64      number;
  gboolean    is_number;
} WbSqliteValue;

#define WB_TEXT(value)   { .text = (value) }
#define WB_NUMBER(value) { .number = (value), .is_number = TRUE }

/** wb_sqlite_prepare_with (book, sql, error, value…): as wb_sqlite_prepare(), with the parameters from
 * the first on bound to the values. */
#define wb_sqlite_prepare_with(self, sql, error, ...)                                             \
  wb_sqlite_prepare_values (self, sql, error, WB_SQLITE_VALUES (__VA_ARGS__))

/** wb_sqlite_run_with (book, sql, error, value…): runs it with these values. */
#define wb_sqlite_run_with(self, sql, error, ...)                                                 \
  wb_sqlite_run_values (self, sql, error, WB_SQLITE_VALUES (__VA_ARGS__))

#define WB_SQLITE_VALUES(...)                                                                     \
  (const WbSqliteValue[]) { __VA_ARGS__ },                                                        \
  sizeof ((const WbSqliteValue[]) { __VA_ARGS__ }) / sizeof (WbSqliteValue)

sqlite3_stmt *wb_sqlite_prepare_values   (WbSqlite             *self,
                                          const char           *sql,
                                          GError              **error,
                                          const WbSqliteValue  *values,
                                          gsize                 n) G_GNUC_WARN_UNUSED_RESULT;
gboolean      wb_sqlite_run_values       (WbSqlite             *self,
                                          const char           *sql,
                                          GError              **error,
                                          const WbSqliteValue  *values,
                                          gsize                 n) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): a column's text. */
char         *wb_sqlite_dup_text         (sqlite3_stmt  *statement,
                                          int            column) G_GNUC_WARN_UNUSED_RESULT;

/** What is done inside a transaction; %FALSE with @error set undoes it. */
typedef gboolean (*WbSqliteWork)         (WbSqlite      *self,
                                          gpointer       data,
                                          GError       **error);

/**
 * wb_sqlite_transact:
 * @writing: whether the book is locked for writing from the start; else all of @work sees one state
 *   of it
 *
 * Runs @work in one transaction. Returns: %TRUE when all of it was done, %FALSE when nothing was.
 */
gboolean      wb_sqlite_transact         (WbSqlite      *self,
                                          gboolean       writing,
                                          WbSqliteWork   work,
                                          gpointer       data,
                                          GCancellable  *cancellable,
                                          GError       **error) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbSqlite, wb_sqlite_close)

G_END_DECLS
