/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of kept documents. Nothing is ever changed or taken out of it, and what is read is
 * held against the hash under which it was asked for. */
#include "config.h"

#include "store/wb-kept-document.h"

#include "store/wb-book.h"
#include "store/wb-zip.h"
#include "store/wb-store.h"

#include <string.h>

char *
wb_kept_document_enter (WbSqlite  *book,
                        GBytes    *document,
                        GError   **error)
{
  g_autofree char *hash = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, document);
  g_autoptr (GBytes) packed = NULL;
  sqlite3_stmt *statement;

  g_return_val_if_fail (g_bytes_get_size (document) <= WB_KEPT_DOCUMENT_MAX_BYTES, NULL);

  statement = wb_sqlite_prepare (book,
                                 "INSERT INTO kept_document (hash, packed) VALUES (?1, ?2) ON"
                                 " CONFLICT (hash) DO NOTHING", error);
  if (statement == NULL)
    return NULL;
  packed = wb_zip_pack (document);
  wb_sqlite_bind_text (statement, 1, hash);
  if (sqlite3_bind_blob64 (statement, 2, g_bytes_get_data (packed, NULL),
                           g_bytes_get_size (packed), SQLITE_STATIC) != SQLITE_OK)
    {
      wb_sqlite_take_error (book, error);
      return NULL;
    }
  return wb_sqlite_run (book, statement, error) ? g_steal_pointer (&hash) : NULL;
}

/* Returns: NULL when the row is not the document that was kept. */
static GBytes *
unpack_row (sqlite3_stmt *statement,
            const char   *hash)
{
  g_autoptr (GBytes) document = wb_zip_unpack (sqlite3_column_blob (statement, 0),
                                           (gsize) sqlite3_column_bytes (statement, 0),
                                           WB_KEPT_DOCUMENT_MAX_BYTES);
  g_autofree char *found = NULL;

  if (document == NULL)
    return NULL;
  found = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, document);
  return strcmp (found, hash) == 0 ? g_steal_pointer (&document) : NULL;
}

GBytes *
wb_kept_document_read (WbSqlite    *book,
                       const char  *hash,
                       GError     **error)
{
  static const char sql[] =
    "SELECT packed FROM kept_document WHERE hash = ?1";
  sqlite3_stmt *statement = wb_sqlite_prepare_with (book, sql, error, WB_TEXT (hash));
  GBytes *document = NULL;

  if (statement == NULL)
    return NULL;
  switch (wb_sqlite_step (book, statement, error))
    {
    case WB_STEP_ROW:
      document = unpack_row (statement, hash);
      if (document == NULL)
        wb_sqlite_set_error (book, WB_STORE_ERROR_CORRUPT, error,
                             "the book is damaged: the kept document %s is not what it was", hash);
      break;
    case WB_STEP_END:
      wb_sqlite_set_error (book, WB_STORE_ERROR_NOT_FOUND, error,
                           "the book has no kept document %s", hash);
      break;
    case WB_STEP_FAILED:
      break;
    }
  sqlite3_reset (statement);
  return document;
}
