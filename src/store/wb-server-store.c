/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of servers: rows in and out, as they are. Whether a server makes sense is core's to
 * say. */
#include "config.h"

#include "store/wb-server-store.h"

#include "store/wb-book-private.h"

#define COLUMNS "id, name, kind, address, \"user\", bucket, region, authority, key_file"

/* What goes into a deed or a reading and what comes out. */
typedef struct
{
  const char     *id;
  const WbServer *server;
  GPtrArray      *servers;
} Request;

/* Returns: (nullable): %NULL for a kind that this program does not know. */
static WbServer *
read_row (WbSqlite      *book,
          sqlite3_stmt  *statement,
          GError       **error)
{
  g_autofree char *id = wb_sqlite_dup_text (statement, 0);
  g_autofree char *nick = wb_sqlite_dup_text (statement, 2);
  const WbEnumValue *kind = wb_enum_find_nick (&wb_server_kinds, nick);
  WbServer *server;

  if (kind == NULL)
    {
      wb_sqlite_set_error (book, WB_STORE_ERROR_CORRUPT, error,
                           "the book is damaged: it has a server of an unknown kind");
      return NULL;
    }

  server = wb_server_new ((WbServerKind) kind->value, id);
  server->name = wb_sqlite_dup_text (statement, 1);
  server->address = wb_sqlite_dup_text (statement, 3);
  server->user = wb_sqlite_dup_text (statement, 4);
  server->bucket = wb_sqlite_dup_text (statement, 5);
  server->region = wb_sqlite_dup_text (statement, 6);
  server->authority = wb_sqlite_dup_text (statement, 7);
  server->key_file = wb_sqlite_dup_text (statement, 8);
  return server;
}

static gboolean
list_servers (WbSqlite  *book,
              gpointer   data,
              GError   **error)
{
  Request *request = data;
  static const char sql[] =
    "SELECT " COLUMNS " FROM server"
    " WHERE ?1 IS NULL OR id = ?1 ORDER BY position";
  sqlite3_stmt *statement = wb_sqlite_prepare_with (book, sql, error, WB_TEXT (request->id));
  WbStep step;

  if (statement == NULL)
    return FALSE;
  while ((step = wb_sqlite_step (book, statement, error)) == WB_STEP_ROW)
    {
      WbServer *server = read_row (book, statement, error);

      if (server == NULL)
        {
          sqlite3_reset (statement);
          return FALSE;
        }
      g_ptr_array_add (request->servers, server);
    }
  return step == WB_STEP_END;
}

static GPtrArray *
read_servers (WbBook        *self,
              const char    *id,
              GCancellable  *cancellable,
              GError       **error)
{
  g_autoptr (GPtrArray) servers =
    g_ptr_array_new_with_free_func ((GDestroyNotify) wb_server_free);
  Request request = { .id = id, .servers = servers };

  return wb_book_read (self, list_servers, &request, cancellable, error)
           ? g_steal_pointer (&servers) : NULL;
}

GPtrArray *
wb_book_list_servers (WbBook        *self,
                      GCancellable  *cancellable,
                      GError       **error)
{
  g_return_val_if_fail (WB_IS_BOOK (self), NULL);

  return read_servers (self, NULL, cancellable, error);
}

static gboolean
refuse_absent (WbBook      *self,
               const char  *id,
               GError     **error)
{
  wb_store_set_error (wb_book_get_path (self), WB_STORE_ERROR_NOT_FOUND, error,
                      "the book has no server %s", id);
  return FALSE;
}

WbServer *
wb_book_load_server (WbBook        *self,
                     const char    *id,
                     GCancellable  *cancellable,
                     GError       **error)
{
  g_autoptr (GPtrArray) servers = NULL;

  g_return_val_if_fail (WB_IS_BOOK (self), NULL);
  g_return_val_if_fail (id != NULL, NULL);

  servers = read_servers (self, id, cancellable, error);
  if (servers == NULL)
    return NULL;
  if (servers->len == 0)
    {
      refuse_absent (self, id, error);
      return NULL;
    }
  return wb_server_copy (g_ptr_array_index (servers, 0));
}

/* --- writing ---------------------------------------------------------------------------------- */

static gboolean
check_name (WbSqlite        *book,
            const WbServer  *server,
            GError         **error)
{
  static const char sql[] =
    "SELECT 1 FROM server WHERE name = ?1 AND id <> ?2";
  sqlite3_stmt *statement = wb_sqlite_prepare_with (book, sql, error, WB_TEXT (server->name),
                                                    WB_TEXT (server->id));
  WbStep step;

  if (statement == NULL)
    return FALSE;
  step = wb_sqlite_step (book, statement, error);
  if (step == WB_STEP_ROW)
    {
      sqlite3_reset (statement);
      wb_sqlite_set_error (book, WB_STORE_ERROR_CONSTRAINT, error,
                           "there is a server “%s” already", server->name);
    }
  return step == WB_STEP_END;
}

/* "" and NULL are the same of a server; the book has NULL. */
static const char *
given (const char *text)
{
  return text != NULL && *text != '\0' ? text : NULL;
}

static gboolean
put_server (WbSqlite  *book,
            gpointer   data,
            GError   **error)
{
  const WbServer *server = ((Request *) data)->server;
  static const char sql[] =
    "INSERT INTO server (" COLUMNS ", position) VALUES (?1, ?2, ?3,"
    " ?4, ?5, ?6, ?7, ?8, ?9, (SELECT coalesce (max (position) + 1, 0)"
    " FROM server)) ON CONFLICT (id) DO UPDATE SET name ="
    " excluded.name, kind = excluded.kind, address = excluded.address,"
    " \"user\" = excluded.\"user\", bucket = excluded.bucket, region ="
    " excluded.region, authority = excluded.authority, key_file ="
    " excluded.key_file";

  if (!check_name (book, server, error))
    return FALSE;

  return wb_sqlite_run_with (book, sql, error, WB_TEXT (server->id), WB_TEXT (server->name),
                             WB_TEXT (wb_enum_nick (&wb_server_kinds, (int) server->kind)),
                             WB_TEXT (server->address), WB_TEXT (given (server->user)),
                             WB_TEXT (given (server->bucket)), WB_TEXT (given (server->region)),
                             WB_TEXT (given (server->authority)),
                             WB_TEXT (given (server->key_file)));
}

gboolean
wb_book_put_server (WbBook          *self,
                    const WbServer  *server,
                    GCancellable    *cancellable,
                    GError         **error)
{
  Request request = { .server = server };

  g_return_val_if_fail (WB_IS_BOOK (self), FALSE);
  g_return_val_if_fail (server != NULL && server->id != NULL, FALSE);
  g_return_val_if_fail (server->name != NULL && server->address != NULL, FALSE);

  return wb_book_write (self, put_server, &request, cancellable, error);
}

static gboolean
remove_server (WbSqlite  *book,
               gpointer   data,
               GError   **error)
{
  Request *request = data;

  if (!wb_sqlite_run_with (book, "DELETE FROM server WHERE id = ?1", error, WB_TEXT (request->id)))
    return FALSE;
  if (sqlite3_changes (wb_sqlite_get_handle (book)) > 0)
    return TRUE;
  wb_sqlite_set_error (book, WB_STORE_ERROR_NOT_FOUND, error, "the book has no server %s",
                       request->id);
  return FALSE;
}

gboolean
wb_book_remove_server (WbBook        *self,
                       const char    *id,
                       GCancellable  *cancellable,
                       GError       **error)
{
  Request request = { .id = id };

  g_return_val_if_fail (WB_IS_BOOK (self), FALSE);
  g_return_val_if_fail (id != NULL, FALSE);

  return wb_book_write (self, remove_server, &request, cancellable, error);
}
