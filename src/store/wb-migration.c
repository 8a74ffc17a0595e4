/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Brings a book from any earlier version to the newest, after making a copy of it. What each
 * version holds stands in migrations/NNNN.sql. */
#include "config.h"

#include "store/wb-book-private.h"

#include <errno.h>
#include <fcntl.h>
#include <unistd.h>

#include <glib/gstdio.h>

#include "store/wb-claim-index.h"
#include "store/wb-store-resources.h"

/* --- the list --------------------------------------------------------------------------------- */

#define N_MIGRATIONS 4

/* The version that has the index of open claims, which is made anew after every upgrade. */
#define VERSION_OF_CLAIM_INDEX 3

const char *const *
wb_migrations (void)
{
  static const char *migrations[N_MIGRATIONS + 1];
  static gsize made;

  if (g_once_init_enter (&made))
    {
      for (int i = 0; i < N_MIGRATIONS; i++)
        {
          g_autofree char *name = g_strdup_printf ("/org/wainbook/store/migrations/%04d.sql",
                                                   i + 1);
          g_autoptr (GBytes) text = g_resource_lookup_data (wb_store_get_resource (), name,
                                                            G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);

          g_assert (text != NULL);
          migrations[i] = g_strndup (g_bytes_get_data (text, NULL), g_bytes_get_size (text));
        }
      g_once_init_leave (&made, 1);
    }
  return migrations;
}

/* --- the copy --------------------------------------------------------------------------------- */

/* Makes an empty file of a name that was free. */
static char *
reserve_copy (const char  *path,
              guint        version,
              GError     **error)
{
  for (guint attempt = 1; attempt < 1000; attempt++)
    {
      g_autofree char *name = g_strdup_printf ("%s.before-%u", path, version);
      int file;

      if (attempt > 1)
        {
          g_autofree char *first = g_steal_pointer (&name);

          name = g_strdup_printf ("%s.%u", first, attempt);
        }
      file = g_open (name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
      if (file >= 0)
        {
          (void) close (file);
          return g_steal_pointer (&name);
        }
      if (errno != EEXIST)
        {
          wb_store_set_errno (name, errno, error, "the copy of the book could not be made");
          return NULL;
        }
    }
  wb_store_set_error (path, WB_STORE_ERROR_EXISTS, error,
                      "there are too many copies of the book beside it");
  return NULL;
}

#define PAGES_A_STEP 1000

static gboolean
copy_pages (WbSqlite      *from,
            WbSqlite      *to,
            GCancellable  *cancellable,
            GError       **error)
{
  sqlite3_backup *copy = sqlite3_backup_init (wb_sqlite_get_handle (to), "main",
                                              wb_sqlite_get_handle (from), "main");
  int code = SQLITE_OK;

  if (copy == NULL)
    {
      wb_sqlite_take_error (to, error);
      return FALSE;
    }
  while (code == SQLITE_OK && !g_cancellable_is_cancelled (cancellable))
    code = sqlite3_backup_step (copy, PAGES_A_STEP);
  if (sqlite3_backup_finish (copy) != SQLITE_OK)
    {
      wb_sqlite_take_error (to, error);
      return FALSE;
    }
  /* Neither finished nor failed: cancelled. */
  return code == SQLITE_DONE || !g_cancellable_set_error_if_cancelled (cancellable, error);
}

/* Returns: the name of the copy. */
static char *
make_copy (const char    *path,
           guint          version,
           GCancellable  *cancellable,
           GError       **error)
{
  g_autofree char *name = reserve_copy (path, version, error);
  g_autoptr (WbSqlite) from = NULL;
  g_autoptr (WbSqlite) to = NULL;

  if (name == NULL)
    return NULL;
  from = wb_sqlite_open (path, WB_SQLITE_READ, error);
  to = from != NULL ? wb_sqlite_open (name, WB_SQLITE_CREATE, error) : NULL;
  if (to != NULL && copy_pages (from, to, cancellable, error))
    return g_steal_pointer (&name);
  g_clear_pointer (&to, wb_sqlite_close);
  (void) g_unlink (name);
  return NULL;
}

/* --- the steps -------------------------------------------------------------------------------- */

typedef struct
{
  const char *const *migrations;
  guint              newest;
  GCancellable      *cancellable;
  char              *copy;         /* (nullable): made on the way */
} Upgrade;

static gboolean
read_version (WbSqlite  *book,
              guint      newest,
              guint     *version,
              GError   **error)
{
  gint64 number;

  if (!wb_sqlite_read_number (book, "PRAGMA user_version", &number, error))
    return FALSE;
  if (number < 0 || number > newest)
    {
      wb_sqlite_set_error (book, WB_STORE_ERROR_NEWER, error,
                           "the book was made by a later version of the program (it is of version"
                           " %" G_GINT64_FORMAT
                           ", this program knows up to %u)", number, newest);
      return FALSE;
    }
  *version = (guint) number;
  return TRUE;
}

static gboolean
mark_version (WbSqlite  *book,
              guint      version,
              GError   **error)
{
  g_autofree char *marks = g_strdup_printf ("PRAGMA application_id = %d; PRAGMA user_version = %u",
                                            WB_BOOK_APPLICATION_ID, version);

  return wb_sqlite_execute (book, marks, error);
}

/* References are not looked at while tables are remade; here they are, all together. */
static gboolean
check_references (WbSqlite  *book,
                  GError   **error)
{
  sqlite3_stmt *statement = wb_sqlite_prepare (book, "PRAGMA foreign_key_check", error);
  WbStep step;

  if (statement == NULL)
    return FALSE;
  step = wb_sqlite_step (book, statement, error);
  if (step == WB_STEP_ROW)
    {
      g_autofree char *table = wb_sqlite_dup_text (statement, 0);

      sqlite3_reset (statement);
      wb_sqlite_set_error (book, WB_STORE_ERROR_CORRUPT, error,
                           "the book is damaged: an entry of “%s” refers to one that is not there",
                           table);
    }
  return step == WB_STEP_END;
}

/* A step, from version @index, has failed with @failure. Steps run in the tests of every release,
 * so one that a book does not take finds less in it than its version says. */
static gboolean
explain_step (WbSqlite  *book,
              guint      index,
              GError    *failure,
              GError   **error)
{
  if (index > 0 && g_error_matches (failure, WB_STORE_ERROR, WB_STORE_ERROR_INTERNAL))
    {
      wb_sqlite_set_error (book, WB_STORE_ERROR_CORRUPT, error,
                           "the book is damaged: it lacks a part of what version %u holds", index);
      g_error_free (failure);
    }
  else
    g_propagate_error (error, failure);
  return FALSE;
}

static gboolean
take_step (WbSqlite    *book,
           const char  *migration,
           guint        index,
           GError     **error)
{
  GError *failure = NULL;

  return wb_sqlite_execute (book, migration, &failure) ||
         explain_step (book, index, failure, error);
}

/* What the program makes anew of the rest. */
static gboolean
fill_indexes (WbSqlite  *book,
              guint      version,
              GError   **error)
{
  GError *failure = NULL;

  return wb_claim_index_fill (book, &failure) || explain_step (book, version, failure, error);
}

static gboolean
upgrade (WbSqlite  *book,
         gpointer   data,
         GError   **error)
{
  Upgrade *self = data;
  guint version;

  /* Once more: another process may have been faster. */
  if (!read_version (book, self->newest, &version, error))
    return FALSE;
  if (version == self->newest)
    return TRUE;
  if (version > 0)
    {
      self->copy = make_copy (wb_sqlite_get_path (book), self->newest, self->cancellable, error);
      if (self->copy == NULL)
        return FALSE;
    }
  for (guint i = version; i < self->newest; i++)
    if (!take_step (book, self->migrations[i], i, error))
      return FALSE;
  if (version > 0 && self->newest >= VERSION_OF_CLAIM_INDEX &&
      !fill_indexes (book, version, error))
    return FALSE;
  return mark_version (book, self->newest, error) && check_references (book, error);
}

gboolean
wb_migrate (WbSqlite           *book,
            const char *const  *migrations,
            GCancellable       *cancellable,
            GError            **error)
{
  Upgrade self = { migrations, g_strv_length ((char **) migrations), cancellable, NULL };
  guint version;
  gboolean done;

  if (!read_version (book, self.newest, &version, error))
    return FALSE;
  if (version == self.newest)
    return TRUE;
  /* Has no effect inside a transaction. */
  if (!wb_sqlite_execute (book, "PRAGMA foreign_keys = OFF", error))
    return FALSE;
  done = wb_sqlite_transact (book, TRUE, upgrade, &self, cancellable, error);
  if (!done && self.copy != NULL)
    (void) g_unlink (self.copy);
  g_free (self.copy);
  return done && wb_sqlite_execute (book, "PRAGMA foreign_keys = ON", error);
}
