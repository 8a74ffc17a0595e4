/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Open file description locks on the bytes by which SQLite knows that a book in WAL mode is open.
 * Which bytes these are is part of SQLite's file format and never changes: the shared range of the
 * database file ("SHARED_FIRST", 510 bytes after the first gibibyte and two), and the dead man's
 * switch of the wal-index, byte 128. */
#define _GNU_SOURCE
#include "config.h"

#include "store/wb-book-guard.h"

#include <fcntl.h>
#include <unistd.h>

#include <glib/gstdio.h>

#define SHARED_FIRST 0x40000002
#define SHARED_SIZE  510
#define SWITCH_BYTE  128

struct _WbBookGuard
{
  int database;   /* -1: nothing is held */
  int index;
};

/* Reading something opens the log, with its index, and makes this connection one of those that put
 * it away. */
static gboolean
has_log (WbSqlite *book)
{
  sqlite3_stmt *statement = wb_sqlite_prepare (book, "PRAGMA journal_mode", NULL);
  g_autofree char *mode = NULL;
  gint64 version;

  if (!wb_sqlite_read_number (book, "PRAGMA user_version", &version, NULL))
    return FALSE;
  if (statement == NULL || wb_sqlite_step (book, statement, NULL) != WB_STEP_ROW)
    return FALSE;
  mode = wb_sqlite_dup_text (statement, 0);
  sqlite3_reset (statement);
  return g_strcmp0 (mode, "wal") == 0;
}

/* Returns: the open file, or -1. */
static int
hold (const char *path,
      off_t       start,
      off_t       length)
{
#ifdef F_OFD_SETLK
  struct flock range = { .l_type = F_RDLCK, .l_whence = SEEK_SET, .l_start = start,
                         .l_len = length };
  int file = g_open (path, O_RDONLY | O_CLOEXEC, 0);

  /* A file system without such locks leaves the book as safe as it was. The file stays open all the
     same: closing it would drop the very locks that are to be kept. */
  if (file >= 0)
    (void) fcntl (file, F_OFD_SETLK, &range);
  return file;
#else
  return -1;
#endif
}

static void
release (int file)
{
#ifdef F_OFD_SETLK
  struct flock all = { .l_type = F_UNLCK, .l_whence = SEEK_SET };

  if (file >= 0)
    (void) fcntl (file, F_OFD_SETLK, &all);
#endif
}

WbBookGuard *
wb_book_guard_new (WbSqlite *book)
{
  WbBookGuard *self = g_new0 (WbBookGuard, 1);
  g_autofree char *index = g_strconcat (wb_sqlite_get_path (book), "-shm", NULL);

  self->database = -1;
  self->index = -1;
  if (!has_log (book))
    return self;
  self->database = hold (wb_sqlite_get_path (book), SHARED_FIRST, SHARED_SIZE);
  self->index = hold (index, SWITCH_BYTE, 1);
  return self;
}

void
wb_book_guard_let_go (WbBookGuard *self)
{
  release (self->database);
  release (self->index);
}

void
wb_book_guard_free (WbBookGuard *self)
{
  if (self == NULL)
    return;
  if (self->database >= 0)
    (void) close (self->database);
  if (self->index >= 0)
    (void) close (self->index);
  g_free (self);
}
