/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of what waits to be sent or fetched. Each change is one transaction of its own; what is
 * to be done with an entry is not known here. */
#include "config.h"

#include "store/wb-share-queue-store.h"

#include "store/wb-book-private.h"

#define N_(text) text

static const WbEnumValue deed_values[] = {
  { WB_SHARE_DEED_PUBLISH, "publish", N_("Publish") },
  { WB_SHARE_DEED_FETCH, "fetch", N_("Fetch") },
};

const WbEnum wb_share_deeds = { "deed", deed_values, G_N_ELEMENTS (deed_values) };

static const WbEnumValue state_values[] = {
  { WB_SHARE_WAITING, "waiting", N_("Waiting") },
  { WB_SHARE_RUNNING, "running", N_("Under way") },
  { WB_SHARE_PAUSED, "paused", N_("Paused") },
  { WB_SHARE_FAILED, "failed", N_("Failed") },
  { WB_SHARE_DONE, "done", N_("Done") },
};

const WbEnum wb_share_states = { "state", state_values, G_N_ELEMENTS (state_values) };

#define COLUMNS \
  "id, job_id, title, server, deed, state, tries, next_try, fault, done, \"all\", added"

WbShareEntry *
wb_share_entry_copy (const WbShareEntry *self)
{
  WbShareEntry *copy;

  g_return_val_if_fail (self != NULL, NULL);

  copy = g_memdup2 (self, sizeof *self);
  copy->job_id = g_strdup (self->job_id);
  copy->title = g_strdup (self->title);
  copy->server_id = g_strdup (self->server_id);
  copy->fault = g_strdup (self->fault);
  return copy;
}

void
wb_share_entry_free (WbShareEntry *self)
{
  if (self == NULL)
    return;

  g_free (self->job_id);
  g_free (self->title);
  g_free (self->server_id);
  g_free (self->fault);
  g_free (self);
}

/* What goes into a deed or a reading and what comes out; each uses what it needs. */
typedef struct
{
  const WbShareEntry *entry;
  const char         *holder;
  gint64              id;
  gint64              now;
  gint64              patience;
  gint64              done;
  gint64              all;
  gboolean            flag;
  GPtrArray          *entries;
  WbShareEntry       *found;
} Request;

/* --- reading ---------------------------------------------------------------------------------- */

static WbShareEntry *
read_row (WbSqlite      *book,
          sqlite3_stmt  *statement,
          GError       **error)
{
  g_autoptr (WbShareEntry) self = g_new0 (WbShareEntry, 1);
  g_autofree char *deed = wb_sqlite_dup_text (statement, 4);
  g_autofree char *state = wb_sqlite_dup_text (statement, 5);
  const WbEnumValue *deed_value = wb_enum_find_nick (&wb_share_deeds, deed);
  const WbEnumValue *state_value = wb_enum_find_nick (&wb_share_states, state);

  if (deed_value == NULL || state_value == NULL)
    {
      wb_sqlite_set_error (book, WB_STORE_ERROR_CORRUPT, error,
                           "the book is damaged: its queue has an entry of an unknown kind");
      return NULL;
    }

  self->id = sqlite3_column_int64 (statement, 0);
  self->job_id = wb_sqlite_dup_text (statement, 1);
  self->title = wb_sqlite_dup_text (statement, 2);
  self->server_id = wb_sqlite_dup_text (statement, 3);
  self->deed = (WbShareDeed) deed_value->value;
  self->state = (WbShareState) state_value->value;
  self->tries = (guint) CLAMP (sqlite3_column_int64 (statement, 6), 0, G_MAXINT);
  self->next_try = sqlite3_column_int64 (statement, 7);
  self->fault = wb_sqlite_dup_text (statement, 8);
  self->done = sqlite3_column_int64 (statement, 9);
  self->all = sqlite3_column_int64 (statement, 10);
  self->added = sqlite3_column_int64 (statement, 11);
  return g_steal_pointer (&self);
}

static gboolean
list_entries (WbSqlite  *book,
              gpointer   data,
              GError   **error)
{
  Request *request = data;
  static const char sql[] =
    "SELECT "
    COLUMNS
    " FROM share_queue ORDER BY id";
  sqlite3_stmt *statement = wb_sqlite_prepare (book, sql, error);
  WbStep step;

  if (statement == NULL)
    return FALSE;
  while ((step = wb_sqlite_step (book, statement, error)) == WB_STEP_ROW)
    {
      WbShareEntry *entry = read_row (book, statement, error);

      if (entry == NULL)
        {
          sqlite3_reset (statement);
          return FALSE;
        }
      g_ptr_array_add (request->entries, entry);
    }
  return step == WB_STEP_END;
}

GPtrArray *
wb_book_list_share_queue (WbBook        *self,
                          GCancellable  *cancellable,
                          GError       **error)
{
  g_autoptr (GPtrArray) entries =
    g_ptr_array_new_with_free_func ((GDestroyNotify) wb_share_entry_free);
  Request request = { .entries = entries };

  g_return_val_if_fail (WB_IS_BOOK (self), NULL);

  return wb_book_read (self, list_entries, &request, cancellable, error)
           ? g_steal_pointer (&entries) : NULL;
}

/* --- adding ----------------------------------------------------------------------------------- */

/* Returns: the id of an entry that does for @entry; 0 for none, -1 with @error set. */
static gint64
revive_entry (WbSqlite            *book,
              const WbShareEntry  *entry,
              GError             **error)
{
  static const char sql[] =
    "UPDATE share_queue SET state = 'waiting', tries = 0, next_try = ?4, fault = NULL, title = "
    "?5 WHERE job_id = ?1 AND server = ?2 AND deed = ?3 AND state IN ('waiting', 'paused', "
    "'failed') RETURNING id";
  const char *deed = wb_enum_nick (&wb_share_deeds, (int) entry->deed);
  sqlite3_stmt *statement =
    wb_sqlite_prepare_with (book, sql, error, WB_TEXT (entry->job_id), WB_TEXT (entry->server_id),
                            WB_TEXT (deed), WB_NUMBER (entry->next_try), WB_TEXT (entry->title));
  gint64 id = -1;

  if (statement == NULL)
    return -1;
  switch (wb_sqlite_step (book, statement, error))
    {
    case WB_STEP_ROW:
      id = sqlite3_column_int64 (statement, 0);
      break;
    case WB_STEP_END:
      id = 0;
      break;
    case WB_STEP_FAILED:
      break;
    }
  sqlite3_reset (statement);
  return id;
}

static gboolean
add_entry (WbSqlite  *book,
           gpointer   data,
           GError   **error)
{
  Request *request = data;
  const WbShareEntry *entry = request->entry;
  static const char sql[] =
    "INSERT INTO share_queue (job_id, title, server, deed, state,"
    " tries, next_try, fault, done, \"all\", added, holder, beat)"
    " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, NULL, 0)";

  request->id = revive_entry (book, entry, error);
  if (request->id != 0)
    return request->id > 0;

  if (!wb_sqlite_run_with (book, sql, error, WB_TEXT (entry->job_id), WB_TEXT (entry->title),
                           WB_TEXT (entry->server_id),
                           WB_TEXT (wb_enum_nick (&wb_share_deeds, (int) entry->deed)),
                           WB_TEXT (wb_enum_nick (&wb_share_states, (int) entry->state)),
                           WB_NUMBER (entry->tries), WB_NUMBER (entry->next_try),
                           WB_TEXT (entry->fault), WB_NUMBER (entry->done), WB_NUMBER (entry->all),
                           WB_NUMBER (entry->added)))
    return FALSE;
  request->id = sqlite3_last_insert_rowid (wb_sqlite_get_handle (book));
  return TRUE;
}

gint64
wb_book_add_share_entry (WbBook              *self,
                         const WbShareEntry  *entry,
                         GCancellable        *cancellable,
                         GError             **error)
{
  Request request = { .entry = entry };

  g_return_val_if_fail (WB_IS_BOOK (self), 0);
  g_return_val_if_fail (entry != NULL && entry->job_id != NULL && entry->title != NULL, 0);

  return wb_book_write (self, add_entry, &request, cancellable, error) ? request.id : 0;
}

/* --- being at work ---------------------------------------------------------------------------- */

static gboolean
claim_entry (WbSqlite  *book,
             gpointer   data,
             GError   **error)
{
  Request *request = data;
  static const char sql[] =
    "UPDATE share_queue SET state = 'running', holder = ?1, beat = ?2 WHERE id = (SELECT id "
    "FROM share_queue WHERE (state = 'waiting' AND next_try NOT BETWEEN ?2 + 1 AND ?2 + ?4) OR "
    "(state = 'running' AND holder IS NOT ?1 AND beat NOT BETWEEN ?2 - ?3 + 1 AND ?2 + ?3) "
    "ORDER BY next_try, id LIMIT 1) RETURNING "
    COLUMNS;
  sqlite3_stmt *statement = wb_sqlite_prepare_with (book, sql, error, WB_TEXT (request->holder),
                                                    WB_NUMBER (request->now),
                                                    WB_NUMBER (request->patience),
                                                    WB_NUMBER (WB_SHARE_LONGEST_WAIT));
  WbStep step;

  if (statement == NULL)
    return FALSE;
  step = wb_sqlite_step (book, statement, error);
  if (step == WB_STEP_ROW)
    request->found = read_row (book, statement, error);
  sqlite3_reset (statement);
  return step == WB_STEP_END || request->found != NULL;
}

gboolean
wb_book_claim_share_entry (WbBook         *self,
                           const char     *holder,
                           gint64          now,
                           gint64          patience,
                           WbShareEntry  **out,
                           GCancellable   *cancellable,
                           GError        **error)
{
  Request request = { .holder = holder, .now = now, .patience = patience };
  gboolean done;

  g_return_val_if_fail (WB_IS_BOOK (self), FALSE);
  g_return_val_if_fail (holder != NULL && out != NULL, FALSE);

  done = wb_book_write (self, claim_entry, &request, cancellable, error);
  if (!done)
    g_clear_pointer (&request.found, wb_share_entry_free);
  *out = request.found;
  return done;
}

static gboolean
beat_entry (WbSqlite  *book,
            gpointer   data,
            GError   **error)
{
  Request *request = data;
  static const char sql[] =
    "UPDATE share_queue SET beat = ?3, done = ?4, \"all\" = ?5 WHERE id = ?1 AND holder = ?2 "
    "AND state = 'running'";

  if (!wb_sqlite_run_with (book, sql, error, WB_NUMBER (request->id), WB_TEXT (request->holder),
                           WB_NUMBER (request->now), WB_NUMBER (request->done),
                           WB_NUMBER (request->all)))
    return FALSE;
  request->flag = sqlite3_changes (wb_sqlite_get_handle (book)) > 0;
  return TRUE;
}

gboolean
wb_book_beat_share_entry (WbBook      *self,
                          gint64       id,
                          const char  *holder,
                          gint64       now,
                          gint64       done,
                          gint64       all,
                          gboolean    *still,
                          GError     **error)
{
  Request request = { .id = id, .holder = holder, .now = now, .done = done, .all = all };

  g_return_val_if_fail (WB_IS_BOOK (self), FALSE);
  g_return_val_if_fail (holder != NULL && still != NULL, FALSE);

  if (!wb_book_write (self, beat_entry, &request, NULL, error))
    return FALSE;
  *still = request.flag;
  return TRUE;
}

static gboolean
lay_entry (WbSqlite  *book,
           gpointer   data,
           GError   **error)
{
  Request *request = data;
  const WbShareEntry *entry = request->entry;
  static const char sql[] =
    "UPDATE share_queue SET state = ?3, tries = ?4, next_try = ?5, fault = ?6, done = ?7, "
    "\"all\" = ?8, holder = NULL WHERE id = ?1 AND holder = ?2 AND state = 'running'";

  return wb_sqlite_run_with (book, sql, error, WB_NUMBER (entry->id), WB_TEXT (request->holder),
                             WB_TEXT (wb_enum_nick (&wb_share_states, (int) entry->state)),
                             WB_NUMBER (entry->tries), WB_NUMBER (entry->next_try),
                             WB_TEXT (entry->fault), WB_NUMBER (entry->done),
                             WB_NUMBER (entry->all));
}

gboolean
wb_book_lay_share_entry (WbBook              *self,
                         const WbShareEntry  *entry,
                         const char          *holder,
                         GError             **error)
{
  Request request = { .entry = entry, .holder = holder };

  g_return_val_if_fail (WB_IS_BOOK (self), FALSE);
  g_return_val_if_fail (entry != NULL && holder != NULL, FALSE);

  return wb_book_write (self, lay_entry, &request, NULL, error);
}

/* --- what a person says ----------------------------------------------------------------------- */

static gboolean
pause_entry (WbSqlite  *book,
             gpointer   data,
             GError   **error)
{
  Request *request = data;
  static const char sql[] =
    "UPDATE share_queue SET state = CASE WHEN state = 'done' THEN state WHEN ?2 THEN 'paused' "
    "WHEN state = 'running' THEN state ELSE 'waiting' END, tries = iif (?2, tries, 0), "
    "next_try = iif (?2, next_try, 0), fault = iif (?2, fault, NULL) WHERE id = ?1";

  if (!wb_sqlite_run_with (book, sql, error, WB_NUMBER (request->id),
                           WB_NUMBER (request->flag ? 1 : 0)))
    return FALSE;
  if (sqlite3_changes (wb_sqlite_get_handle (book)) > 0)
    return TRUE;
  wb_sqlite_set_error (book, WB_STORE_ERROR_NOT_FOUND, error,
                       "the queue has no entry %" G_GINT64_FORMAT, request->id);
  return FALSE;
}

gboolean
wb_book_pause_share_entry (WbBook        *self,
                           gint64         id,
                           gboolean       pause,
                           GCancellable  *cancellable,
                           GError       **error)
{
  Request request = { .id = id, .flag = pause };

  g_return_val_if_fail (WB_IS_BOOK (self), FALSE);

  return wb_book_write (self, pause_entry, &request, cancellable, error);
}

/* @id 0: all that are done. */
static gboolean
drop_entries (WbSqlite  *book,
              gpointer   data,
              GError   **error)
{
  Request *request = data;
  static const char sql[] =
    "DELETE FROM share_queue WHERE id = ?1 OR (?1 = 0 AND state = 'done')";

  return wb_sqlite_run_with (book, sql, error, WB_NUMBER (request->id));
}

gboolean
wb_book_drop_share_entry (WbBook        *self,
                          gint64         id,
                          GCancellable  *cancellable,
                          GError       **error)
{
  Request request = { .id = id };

  g_return_val_if_fail (WB_IS_BOOK (self), FALSE);
  g_return_val_if_fail (id > 0, FALSE);

  return wb_book_write (self, drop_entries, &request, cancellable, error);
}

gboolean
wb_book_drop_shared (WbBook        *self,
                     GCancellable  *cancellable,
                     GError       **error)
{
  Request request = { .id = 0 };

  g_return_val_if_fail (WB_IS_BOOK (self), FALSE);

  return wb_book_write (self, drop_entries, &request, cancellable, error);
}
