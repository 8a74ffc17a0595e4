/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The error domain, and two tables that say what SQLite's result codes and the file system's errors
 * mean to whoever uses a book. No text of a statement ever stands in a message. */
#include "config.h"

#include "store/wb-store-error.h"

#include <errno.h>
#include <sqlite3.h>

G_DEFINE_QUARK (wb-store-error-quark, wb_store_error)

/* --- SQLite ----------------------------------------------------------------------------------- */

typedef struct
{
  WbStoreError  code;
  const char   *sentence;
} Meaning;

#define MISTAKE    { WB_STORE_ERROR_INTERNAL, "the program made a mistake in handling the book" }
#define DENIED     { WB_STORE_ERROR_DENIED, "the book or its folder may not be read or written" }
#define BUSY       { WB_STORE_ERROR_BUSY, "another program is writing to the book" }
#define DAMAGED    { WB_STORE_ERROR_CORRUPT, "the book is damaged" }
#define REFUSED    { WB_STORE_ERROR_CONSTRAINT, "the book refuses what contradicts the rest of it" }

/* By primary code, which are numbered without a gap; those that only report success are mistakes
 * when they come here. */
static const Meaning meanings[] = {
  [SQLITE_OK]         = MISTAKE,
  [SQLITE_ERROR]      = MISTAKE,
  [SQLITE_INTERNAL]   = MISTAKE,
  [SQLITE_PERM]       = DENIED,
  [SQLITE_ABORT]      = MISTAKE,
  [SQLITE_BUSY]       = BUSY,
  [SQLITE_LOCKED]     = BUSY,
  [SQLITE_NOMEM]      = { WB_STORE_ERROR_INTERNAL, "there is not enough memory" },
  [SQLITE_READONLY]   = DENIED,
  [SQLITE_INTERRUPT]  = MISTAKE,
  [SQLITE_IOERR]      = { WB_STORE_ERROR_IO, "the disk could not be read or written" },
  [SQLITE_CORRUPT]    = DAMAGED,
  [SQLITE_NOTFOUND]   = MISTAKE,
  [SQLITE_FULL]       = { WB_STORE_ERROR_FULL, "there is no room left on the disk" },
  [SQLITE_CANTOPEN]   = DENIED,
  [SQLITE_PROTOCOL]   = BUSY,
  [SQLITE_EMPTY]      = MISTAKE,
  [SQLITE_SCHEMA]     = MISTAKE,
  [SQLITE_TOOBIG]     = { WB_STORE_ERROR_CONSTRAINT, "a value is too large for the book" },
  [SQLITE_CONSTRAINT] = REFUSED,
  [SQLITE_MISMATCH]   = REFUSED,
  [SQLITE_MISUSE]     = MISTAKE,
  [SQLITE_NOLFS]      = { WB_STORE_ERROR_FULL, "the disk cannot hold a book as large as this" },
  [SQLITE_AUTH]       = DENIED,
  [SQLITE_FORMAT]     = DAMAGED,
  [SQLITE_RANGE]      = MISTAKE,
  [SQLITE_NOTADB]     = { WB_STORE_ERROR_NOT_A_BOOK, "the file is not an office book" },
  [SQLITE_NOTICE]     = MISTAKE,
  [SQLITE_WARNING]    = MISTAKE,
};

G_STATIC_ASSERT (G_N_ELEMENTS (meanings) == SQLITE_WARNING + 1);

static const Meaning *
find_meaning (int code)
{
  guint primary = (guint) code & 0xff;

  /* SQLITE_ROW and SQLITE_DONE stand far behind the others and are no errors either. */
  return &meanings[primary < G_N_ELEMENTS (meanings) ? primary : SQLITE_INTERNAL];
}

WbStoreError
wb_store_error_from_sqlite (int code)
{
  return find_meaning (code)->code;
}

const char *
wb_store_sentence (int sqlite_code)
{
  return find_meaning (sqlite_code)->sentence;
}

/* --- the file system -------------------------------------------------------------------------- */

static const struct
{
  int          number;
  WbStoreError code;
} system_errors[] = {
  { ENOENT,       WB_STORE_ERROR_NOT_FOUND },
  { ENOTDIR,      WB_STORE_ERROR_NOT_FOUND },
  { ENAMETOOLONG, WB_STORE_ERROR_NOT_FOUND },
  { ELOOP,        WB_STORE_ERROR_NOT_FOUND },
  { EEXIST,       WB_STORE_ERROR_EXISTS },
  { EACCES,       WB_STORE_ERROR_DENIED },
  { EPERM,        WB_STORE_ERROR_DENIED },
  { EROFS,        WB_STORE_ERROR_DENIED },
  { ENOSPC,       WB_STORE_ERROR_FULL },
  { EDQUOT,       WB_STORE_ERROR_FULL },
  { EFBIG,        WB_STORE_ERROR_FULL },
  { EBUSY,        WB_STORE_ERROR_BUSY },
  { ETXTBSY,      WB_STORE_ERROR_BUSY },
  { EISDIR,       WB_STORE_ERROR_NOT_A_BOOK },
};

WbStoreError
wb_store_error_from_errno (int code)
{
  for (gsize i = 0; i < G_N_ELEMENTS (system_errors); i++)
    if (system_errors[i].number == code)
      return system_errors[i].code;
  return WB_STORE_ERROR_IO;
}

/* --- messages --------------------------------------------------------------------------------- */

void
wb_store_set_error (const char    *path,
                    WbStoreError   code,
                    GError       **error,
                    const char    *format,
                    ...)
{
  g_autofree char *name = g_filename_display_name (path);
  g_autofree char *message = NULL;
  va_list arguments;

  va_start (arguments, format);
  message = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  g_set_error (error, WB_STORE_ERROR, (int) code, "“%s”: %s", name, message);
}

void
wb_store_set_errno (const char  *path,
                    int          code,
                    GError     **error,
                    const char  *message)
{
  wb_store_set_error (path, wb_store_error_from_errno (code), error, "%s (%s)", message,
                      g_strerror (code));
}
