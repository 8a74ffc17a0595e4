/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What SQLite's codes and the file system's errors become. */
#include "config.h"

#include "store/wb-store.h"

#include <errno.h>
#include <sqlite3.h>
#include <string.h>

#include "store/wb-store-error.h"

static void
test_domain (void)
{
  g_autoptr (GError) error = NULL;

  g_assert_cmpstr (g_quark_to_string (WB_STORE_ERROR), ==, "wb-store-error-quark");

  g_set_error (&error, WB_STORE_ERROR, WB_STORE_ERROR_FULL, "%s", "no room");
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_FULL);
  g_assert_false (g_error_matches (error, WB_STORE_ERROR, WB_STORE_ERROR_BUSY));
}

static const struct
{
  int          sqlite;
  WbStoreError ours;
} codes[] = {
  { SQLITE_OK,         WB_STORE_ERROR_INTERNAL },
  { SQLITE_ERROR,      WB_STORE_ERROR_INTERNAL },
  { SQLITE_INTERNAL,   WB_STORE_ERROR_INTERNAL },
  { SQLITE_PERM,       WB_STORE_ERROR_DENIED },
  { SQLITE_ABORT,      WB_STORE_ERROR_INTERNAL },
  { SQLITE_BUSY,       WB_STORE_ERROR_BUSY },
  { SQLITE_LOCKED,     WB_STORE_ERROR_BUSY },
  { SQLITE_NOMEM,      WB_STORE_ERROR_INTERNAL },
  { SQLITE_READONLY,   WB_STORE_ERROR_DENIED },
  { SQLITE_INTERRUPT,  WB_STORE_ERROR_INTERNAL },
  { SQLITE_IOERR,      WB_STORE_ERROR_IO },
  { SQLITE_CORRUPT,    WB_STORE_ERROR_CORRUPT },
  { SQLITE_NOTFOUND,   WB_STORE_ERROR_INTERNAL },
  { SQLITE_FULL,       WB_STORE_ERROR_FULL },
  { SQLITE_CANTOPEN,   WB_STORE_ERROR_DENIED },
  { SQLITE_PROTOCOL,   WB_STORE_ERROR_BUSY },
  { SQLITE_EMPTY,      WB_STORE_ERROR_INTERNAL },
  { SQLITE_SCHEMA,     WB_STORE_ERROR_INTERNAL },
  { SQLITE_TOOBIG,     WB_STORE_ERROR_CONSTRAINT },
  { SQLITE_CONSTRAINT, WB_STORE_ERROR_CONSTRAINT },
  { SQLITE_MISMATCH,   WB_STORE_ERROR_CONSTRAINT },
  { SQLITE_MISUSE,     WB_STORE_ERROR_INTERNAL },
  { SQLITE_NOLFS,      WB_STORE_ERROR_FULL },
  { SQLITE_AUTH,       WB_STORE_ERROR_DENIED },
  { SQLITE_FORMAT,     WB_STORE_ERROR_CORRUPT },
  { SQLITE_RANGE,      WB_STORE_ERROR_INTERNAL },
  { SQLITE_NOTADB,     WB_STORE_ERROR_NOT_A_BOOK },
  { SQLITE_NOTICE,     WB_STORE_ERROR_INTERNAL },
  { SQLITE_WARNING,    WB_STORE_ERROR_INTERNAL },
  /* extended codes mean what their primary code means */
  { SQLITE_IOERR_FSYNC,            WB_STORE_ERROR_IO },
  { SQLITE_CONSTRAINT_UNIQUE,      WB_STORE_ERROR_CONSTRAINT },
  { SQLITE_READONLY_DIRECTORY,     WB_STORE_ERROR_DENIED },
  { SQLITE_BUSY_SNAPSHOT,          WB_STORE_ERROR_BUSY },
  { SQLITE_CORRUPT_VTAB,           WB_STORE_ERROR_CORRUPT },
  /* no errors at all */
  { SQLITE_ROW,        WB_STORE_ERROR_INTERNAL },
  { SQLITE_DONE,       WB_STORE_ERROR_INTERNAL },
};

/* Codes are numbered from 0 without a gap: none may be missing above. */
static void
test_sqlite (void)
{
  for (int code = SQLITE_OK; code <= SQLITE_WARNING; code++)
    g_assert_cmpint (codes[code].sqlite, ==, code);
  for (gsize i = 0; i < G_N_ELEMENTS (codes); i++)
    {
      g_test_message ("code %d", codes[i].sqlite);
      g_assert_cmpint (wb_store_error_from_sqlite (codes[i].sqlite), ==, codes[i].ours);
      g_assert_cmpuint (strlen (wb_store_sentence (codes[i].sqlite)), >, 10);
    }
}

static const struct
{
  int          number;
  WbStoreError ours;
} numbers[] = {
  { ENOENT,       WB_STORE_ERROR_NOT_FOUND },
  { ENOTDIR,      WB_STORE_ERROR_NOT_FOUND },
  { ENAMETOOLONG, WB_STORE_ERROR_NOT_FOUND },
  { EEXIST,       WB_STORE_ERROR_EXISTS },
  { EACCES,       WB_STORE_ERROR_DENIED },
  { EPERM,        WB_STORE_ERROR_DENIED },
  { EROFS,        WB_STORE_ERROR_DENIED },
  { ENOSPC,       WB_STORE_ERROR_FULL },
  { EDQUOT,       WB_STORE_ERROR_FULL },
  { EBUSY,        WB_STORE_ERROR_BUSY },
  { EISDIR,       WB_STORE_ERROR_NOT_A_BOOK },
  { EIO,          WB_STORE_ERROR_IO },
  { ESTALE,       WB_STORE_ERROR_IO },
};

static void
test_errno (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      g_autoptr (GError) error = NULL;

      wb_store_set_errno ("/tmp/office.book", numbers[i].number, &error,
                          "the book could not be read");
      g_assert_error (error, WB_STORE_ERROR, (int) numbers[i].ours);
      g_assert_true (g_str_has_prefix (error->message,
                                       "“/tmp/office.book”: the book could not be read ("));
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/store/error/domain", test_domain);
  g_test_add_func ("/store/error/sqlite", test_sqlite);
  g_test_add_func ("/store/error/errno", test_errno);
  return g_test_run ();
}
