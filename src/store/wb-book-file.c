/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A book as a file: whether it is one, before SQLite may touch it, whether it is whole, and how a
 * new one comes to be. A file that is refused stays as it was, and nothing is left beside it. */
#include "config.h"

#include "store/wb-book-private.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <glib/gstdio.h>

#include "store/wb-record-table.h"

/* Whether a log lies beside the book: it is in use, or its program died. Either way the log belongs
 * to it. */
static gboolean
has_log (const char *path)
{
  static const char *const endings[] = { "-wal", "-journal" };

  for (gsize i = 0; i < G_N_ELEMENTS (endings); i++)
    {
      g_autofree char *name = g_strconcat (path, endings[i], NULL);
      struct stat status;

      if (g_stat (name, &status) == 0 && status.st_size > 0)
        return TRUE;
    }
  return FALSE;
}

/* --- recognising ------------------------------------------------------------------------------ */

/* The head of a database file (https://www.sqlite.org/fileformat2.html, section 1.3). */
#define HEAD_SIZE 100
#define HEAD_MAGIC "SQLite format 3"
#define HEAD_AT_PAGE_SIZE 16
#define HEAD_AT_CHANGES 24
#define HEAD_AT_N_PAGES 28
#define HEAD_AT_VERSION 60
#define HEAD_AT_APPLICATION 68
#define HEAD_AT_CHANGES_COUNTED 92

static guint32
head_number (const guint8 *head,
             gsize         offset)
{
  guint32 number;

  memcpy (&number, head + offset, sizeof number);
  return GUINT32_FROM_BE (number);
}

/* Returns: how many bytes the file should have by its head, 0 when the head does not say. */
static gint64
head_size_of_file (const guint8 *head)
{
  guint32 page_size = (guint32) head[HEAD_AT_PAGE_SIZE] << 8 | head[HEAD_AT_PAGE_SIZE + 1];

  if (head_number (head, HEAD_AT_CHANGES) != head_number (head, HEAD_AT_CHANGES_COUNTED))
    return 0;
  return (gint64) head_number (head, HEAD_AT_N_PAGES) * (page_size == 1 ? 65536 : page_size);
}

/* Returns: how many bytes of the head there were, or -1 with @error set. */
static gssize
read_head (const char  *path,
           guint8      *head,
           gint64      *size,
           GError     **error)
{
  /* Not to hang on a pipe. */
  int file = g_open (path, O_RDONLY | O_CLOEXEC | O_NONBLOCK, 0);
  struct stat status;
  gssize n_bytes = -1;

  if (file < 0)
    {
      wb_store_set_errno (path, errno, error, "the book could not be opened");
      return -1;
    }
  if (fstat (file, &status) != 0)
    wb_store_set_errno (path, errno, error, "the book could not be opened");
  else if (!S_ISREG (status.st_mode))
    wb_store_set_error (path, WB_STORE_ERROR_NOT_A_BOOK, error,
                        S_ISDIR (status.st_mode) ? "this is a folder, not an office book"
                                                 : "this is not a file and cannot be an office"
                                                   " book");
  else if ((n_bytes = read (file, head, HEAD_SIZE)) < 0)
    wb_store_set_errno (path, errno, error, "the book could not be read");
  else
    *size = status.st_size;
  (void) close (file);
  return n_bytes;
}

static gboolean
recognise (const char  *path,
           guint        newest,
           gint64      *size,
           GError     **error)
{
  guint8 head[HEAD_SIZE];
  gssize n_bytes = read_head (path, head, size, error);
  guint32 version;

  if (n_bytes < 0)
    return FALSE;
  if (n_bytes < HEAD_SIZE || memcmp (head, HEAD_MAGIC, sizeof HEAD_MAGIC) != 0)
    {
      wb_store_set_error (path, WB_STORE_ERROR_NOT_A_BOOK, error,
                          n_bytes == 0 ? "the file is empty" : "the file is not an office book");
      return FALSE;
    }
  if (head_number (head, HEAD_AT_APPLICATION) != WB_BOOK_APPLICATION_ID)
    {
      wb_store_set_error (path, WB_STORE_ERROR_NOT_A_BOOK, error,
                          "the file is a database of another program");
      return FALSE;
    }
  version = head_number (head, HEAD_AT_VERSION);
  if (version > newest)
    {
      wb_store_set_error (path, WB_STORE_ERROR_NEWER, error,
                          "the book was made by a later version of the program (it is of version"
                          " %u, this program knows up to %u)", version, newest);
      return FALSE;
    }
  if (version == 0)
    {
      wb_store_set_error (path, WB_STORE_ERROR_CORRUPT, error,
                          "the book is damaged: it names no version");
      return FALSE;
    }
  if (*size < head_size_of_file (head) && !has_log (path))
    {
      wb_store_set_error (path, WB_STORE_ERROR_CORRUPT, error,
                          "the book is damaged: its end is not there");
      return FALSE;
    }
  if (g_access (path, W_OK) != 0)
    {
      wb_store_set_errno (path, errno, error, "the book may not be written");
      return FALSE;
    }
  return TRUE;
}

/* --- whole or not ----------------------------------------------------------------------------- */

/* A book of this size is read through in a few hundredths of a second, or a second from a slow
 * disk. In a larger one only the list of jobs is; a damaged page elsewhere is reported once it is
 * read. */
#define CHECKED_WHOLE (32 * 1024 * 1024)

static gboolean
check_through (WbSqlite  *book,
               gint64     size,
               GError   **error)
{
  const char *check = size <= CHECKED_WHOLE ? "PRAGMA quick_check (1)" : "PRAGMA quick_check (job)";
  sqlite3_stmt *statement = wb_sqlite_prepare (book, check, error);
  gboolean whole;

  if (statement == NULL || wb_sqlite_step (book, statement, error) != WB_STEP_ROW)
    return FALSE;
  whole = g_strcmp0 ((const char *) sqlite3_column_text (statement, 0), "ok") == 0;
  sqlite3_reset (statement);
  if (!whole)
    wb_sqlite_set_error (book, WB_STORE_ERROR_CORRUPT, error, "the book is damaged");
  return whole;
}

static gboolean
check_with (const char    *path,
            WbSqliteMode   mode,
            gint64         size,
            GCancellable  *cancellable,
            GError       **error)
{
  g_autoptr (WbSqlite) book = wb_sqlite_open (path, mode, error);

  if (book == NULL)
    return FALSE;
  /* What somebody's last program left unfinished stays for later, should the book be damaged. */
  sqlite3_db_config (wb_sqlite_get_handle (book), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, NULL);
  /* Values are looked at when they are read; here it is about pages and rows, in a fraction of the
   * time. */
  if (!wb_sqlite_execute (book, "PRAGMA ignore_check_constraints = ON", error))
    return FALSE;
  wb_sqlite_set_cancellable (book, cancellable);
  return check_through (book, size, error);
}

/* A book that nobody has open is read as it stands on the disk, which leaves no trace. */
static gboolean
check_whole (const char    *path,
             gint64         size,
             GCancellable  *cancellable,
             GError       **error)
{
  g_autoptr (GError) fault = NULL;

  if (!has_log (path))
    {
      if (check_with (path, WB_SQLITE_IMMUTABLE, size, cancellable, &fault))
        return TRUE;
      if (!has_log (path))
        {
          g_propagate_error (error, g_steal_pointer (&fault));
          return FALSE;
        }
    }
  return check_with (path, WB_SQLITE_READ, size, cancellable, error);
}

/* --- making ----------------------------------------------------------------------------------- */

/* A book and what SQLite keeps beside it. */
static const char *const parts_of_a_book[] = { "", "-journal", "-wal", "-shm" };

static gboolean
refuse_existing (const char  *path,
                 GError     **error)
{
  for (gsize i = 0; i < G_N_ELEMENTS (parts_of_a_book); i++)
    {
      g_autofree char *name = g_strconcat (path, parts_of_a_book[i], NULL);
      struct stat status;

      if (g_lstat (name, &status) != 0)
        continue;
      /* A log of an earlier book would be taken for that of the new one. */
      wb_store_set_error (name, WB_STORE_ERROR_EXISTS, error,
                          i == 0 ? "there is a file of that name already"
                                 : "this file was left by an earlier book of that name; move it"
                                   " away first");
      return FALSE;
    }
  return TRUE;
}

/* Takes a book that was only just made away again. */
static void
remove_new (const char *path)
{
  for (gsize i = 0; i < G_N_ELEMENTS (parts_of_a_book); i++)
    {
      g_autofree char *name = g_strconcat (path, parts_of_a_book[i], NULL);

      (void) g_unlink (name);
    }
}

static gboolean
fill_new (const char         *path,
          const char *const  *migrations,
          GCancellable       *cancellable,
          GError            **error)
{
  g_autoptr (WbSqlite) book = wb_sqlite_open (path, WB_SQLITE_CREATE, error);

  /* What could not be finished is thrown away whole: nothing to be undone has to outlive the
   * program. */
  return book != NULL && wb_sqlite_execute (book, "PRAGMA journal_mode = MEMORY", error) &&
         wb_migrate (book, migrations, cancellable, error);
}

/* Gives the finished file its name, which must still be free. Where a file cannot have two names
 * for a moment, the name is taken by an empty one first. */
static gboolean
give_name (const char  *from,
           const char  *path,
           GError     **error)
{
  int file;

  if (link (from, path) == 0)
    {
      (void) g_unlink (from);
      return TRUE;
    }
  if (errno == EEXIST)
    {
      wb_store_set_errno (path, errno, error, "the book could not be made");
      return FALSE;
    }
  file = g_open (path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
  if (file < 0 || g_rename (from, path) != 0)
    {
      wb_store_set_errno (path, errno, error, "the book could not be made");
      if (file >= 0)
        {
          (void) close (file);
          (void) g_unlink (path);
        }
      return FALSE;
    }
  (void) close (file);
  return TRUE;
}

/* Under another name at first, so that there is never half a book. */
static gboolean
make_new (const char         *path,
          const char *const  *migrations,
          GCancellable       *cancellable,
          GError            **error)
{
  g_autofree char *fresh = g_strconcat (path, ".new-XXXXXX", NULL);
  int file;

  if (!refuse_existing (path, error))
    return FALSE;
  file = g_mkstemp_full (fresh, O_RDWR | O_CLOEXEC, 0666);
  if (file < 0)
    {
      wb_store_set_errno (path, errno, error, "the book could not be made");
      return FALSE;
    }
  (void) close (file);
  if (fill_new (fresh, migrations, cancellable, error) && give_name (fresh, path, error))
    return TRUE;
  (void) g_unlink (fresh);
  return FALSE;
}

/* --- opening ---------------------------------------------------------------------------------- */

/* With a log, readers and a writer do not wait for each other. Where the disk does not allow for
 * one SQLite goes on without, which is slower and just as safe. */
static gboolean
use_log (WbSqlite  *book,
         GError   **error)
{
  return wb_sqlite_execute (book, "PRAGMA journal_mode = WAL", error);
}

static WbSqlite *
open_and_upgrade (const char         *path,
                  const char *const  *migrations,
                  GCancellable       *cancellable,
                  GError            **error)
{
  g_autoptr (WbSqlite) book = wb_sqlite_open (path, WB_SQLITE_WRITE, error);

  if (book == NULL ||
      !wb_migrate (book, migrations, cancellable, error) ||
      !wb_record_table_check (book, error) ||
      !use_log (book, error))
    return NULL;
  return g_steal_pointer (&book);
}

WbSqlite *
wb_book_file_open (const char         *path,
                   WbBookMode          mode,
                   const char *const  *migrations,
                   GCancellable       *cancellable,
                   GError            **error)
{
  WbSqlite *book;
  gint64 size;

  if (g_cancellable_set_error_if_cancelled (cancellable, error))
    return NULL;
  if (mode == WB_BOOK_OPEN)
    {
      if (!recognise (path, g_strv_length ((char **) migrations), &size, error) ||
          !check_whole (path, size, cancellable, error))
        return NULL;
      return open_and_upgrade (path, migrations, cancellable, error);
    }
  if (!make_new (path, migrations, cancellable, error))
    return NULL;
  book = open_and_upgrade (path, migrations, cancellable, error);
  if (book == NULL)
    remove_new (path);
  return book;
}
