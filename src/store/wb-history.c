/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Describes the changes of a deed as JSON, keeps them packed, and lists them. It decides nothing:
 * what is a deed stands in wb-job-store.c. */
#include "config.h"

#include "store/wb-history.h"

#include <string.h>

#include "store/wb-book.h"
#include "store/wb-zip.h"

/* --- JSON ------------------------------------------------------------------------------------- */

static void
append_string (GString    *json,
               const char *text)
{
  g_string_append_c (json, '"');
  for (const char *at = text; *at != '\0'; at++)
    {
      if (*at == '"' || *at == '\\')
        g_string_append_c (json, '\\');
      if ((guchar) *at < 0x20)
        g_string_append_printf (json, "\\u%04x", (guint) (guchar) *at);
      else
        g_string_append_c (json, *at);
    }
  g_string_append_c (json, '"');
}

static void
append_value (GString    *json,
              const char *key,
              const char *text)
{
  g_string_append_printf (json, ",\"%s\":", key);
  if (text == NULL)
    g_string_append (json, "null");
  else
    append_string (json, text);
}

static void
append_entry (GString    *json,
              const char *kind,
              const char *id,
              const char *field,
              const char *old,
              const char *new)
{
  g_string_append (json, json->len > 1 ? ",\n{\"kind\":" : "{\"kind\":");
  append_string (json, kind);
  append_value (json, "id", id);
  append_value (json, "field", field);
  append_value (json, "old", old);
  append_value (json, "new", new);
  g_string_append_c (json, '}');
}

/* Returns: NULL when the record is not there or the field not given. */
static char *
text_of (const WbRecord *record,
         const WbField  *field)
{
  if (record == NULL || !wb_record_field_is_set (field, record))
    return NULL;
  return wb_record_get_text (record, field);
}

static gboolean
is_changed (const WbField  *field,
            const WbRecord *before,
            const WbRecord *after)
{
  if (before != NULL && after != NULL)
    return !wb_record_field_equal (field, before, after);
  return wb_record_field_is_set (field, before != NULL ? before : after);
}

static void
append_change (GString           *json,
               const WbJobChange *change)
{
  const WbRecordType *type = wb_record_type (change->kind);
  const char *id = change->before != NULL ? change->before->id : change->after->id;

  if (change->before == NULL || change->after == NULL)
    append_entry (json, type->name, id, "id", change->before != NULL ? id : NULL,
                  change->after != NULL ? id : NULL);
  for (gsize i = 0; i < type->n_fields; i++)
    {
      const WbField *field = &type->fields[i];
      g_autofree char *old = NULL;
      g_autofree char *new = NULL;

      if (!is_changed (field, change->before, change->after))
        continue;
      old = text_of (change->before, field);
      new = text_of (change->after, field);
      append_entry (json, type->name, id, field->name, old, new);
    }
}

char *
wb_history_describe (const WbJob *from,
                     const WbJob *to)
{
  g_autoptr (GArray) changes = wb_job_diff (from, to);
  GString *json = g_string_new ("[");

  if (strcmp (wb_job_get_currency (from), wb_job_get_currency (to)) != 0)
    append_entry (json, "job", wb_job_get_id (to), "currency", wb_job_get_currency (from),
                  wb_job_get_currency (to));
  for (guint i = 0; i < changes->len; i++)
    append_change (json, &g_array_index (changes, WbJobChange, i));
  g_string_append_c (json, ']');
  return g_string_free (json, FALSE);
}

/* --- packing ---------------------------------------------------------------------------------- */

/* No deed changes more than this. */
#define CHANGES_MAX_BYTES ((gsize) 1 << 30)

static GBytes *
pack (const char *json)
{
  g_autoptr (GBytes) bytes = g_bytes_new_static (json, strlen (json));

  return wb_zip_pack (bytes);
}

static char *
unpack (gconstpointer bytes,
        gsize         length)
{
  g_autoptr (GBytes) json = wb_zip_unpack (bytes, length, CHANGES_MAX_BYTES);
  gconstpointer text;
  gsize size;

  if (json == NULL)
    return NULL;
  text = g_bytes_get_data (json, &size);
  if (size == 0 || !g_utf8_validate_len (text, size, NULL))
    return NULL;
  return g_strndup (text, size);
}

/* --- the book --------------------------------------------------------------------------------- */

static char *
now_as_text (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();

  return g_date_time_format (now, "%Y-%m-%dT%H:%M:%SZ");
}

gboolean
wb_history_enter (WbSqlite      *book,
                  const WbJob   *from,
                  const WbJob   *to,
                  const char    *deed,
                  GError       **error)
{
  g_autofree char *json = wb_history_describe (from, to);
  g_autoptr (GBytes) packed = pack (json);
  g_autofree char *when = now_as_text ();
  g_autofree char *who = g_utf8_make_valid (g_get_user_name (), -1);
  g_autofree char *what = g_utf8_make_valid (deed, -1);
  static const char sql[] =
    "INSERT INTO history (job_id, revision, \"when\", who, deed,"
    " changes) VALUES (?1, ?2, ?3, ?4, ?5, ?6)";
  sqlite3_stmt *statement;
  int code;

  statement = wb_sqlite_prepare_with (book, sql, error, WB_TEXT (wb_job_get_id (to)),
                                      WB_NUMBER (wb_job_get_revision (to)), WB_TEXT (when),
                                      WB_TEXT (who), WB_TEXT (what));
  if (statement == NULL)
    return FALSE;
  code = sqlite3_bind_blob64 (statement, 6, g_bytes_get_data (packed, NULL),
                              g_bytes_get_size (packed), SQLITE_STATIC);
  if (code != SQLITE_OK)
    {
      wb_sqlite_take_error (book, error);
      return FALSE;
    }
  return wb_sqlite_run (book, statement, error);
}

void
wb_history_entry_free (WbHistoryEntry *self)
{
  if (self == NULL)
    return;
  g_free (self->when);
  g_free (self->who);
  g_free (self->deed);
  g_free (self->changes);
  g_free (self);
}

static WbHistoryEntry *
read_entry (WbSqlite      *book,
            sqlite3_stmt  *statement,
            const char    *job_id,
            GError       **error)
{
  g_autoptr (WbHistoryEntry) entry = g_new0 (WbHistoryEntry, 1);

  entry->revision = sqlite3_column_int64 (statement, 0);
  entry->when = wb_sqlite_dup_text (statement, 1);
  entry->who = wb_sqlite_dup_text (statement, 2);
  entry->deed = wb_sqlite_dup_text (statement, 3);
  entry->changes = unpack (sqlite3_column_blob (statement, 4),
                           (gsize) sqlite3_column_bytes (statement, 4));
  if (entry->changes != NULL)
    return g_steal_pointer (&entry);
  wb_sqlite_set_error (book, WB_STORE_ERROR_CORRUPT, error,
                       "the book is damaged: the history of job %s cannot be read at revision"
                       " %" G_GINT64_FORMAT, job_id, entry->revision);
  return NULL;
}

GPtrArray *
wb_history_list (WbSqlite    *book,
                 const char  *job_id,
                 GError     **error)
{
  GDestroyNotify free_entry = (GDestroyNotify) wb_history_entry_free;
  g_autoptr (GPtrArray) entries = g_ptr_array_new_with_free_func (free_entry);
  static const char sql[] =
    "SELECT revision, \"when\", who, deed, changes FROM history WHERE"
    " job_id = ?1 ORDER BY revision DESC";
  sqlite3_stmt *statement;
  WbStep step;

  statement = wb_sqlite_prepare_with (book, sql, error, WB_TEXT (job_id));
  if (statement == NULL)
    return NULL;
  while ((step = wb_sqlite_step (book, statement, error)) == WB_STEP_ROW)
    {
      WbHistoryEntry *entry = read_entry (book, statement, job_id, error);

      if (entry == NULL)
        {
          sqlite3_reset (statement);
          return NULL;
        }
      g_ptr_array_add (entries, entry);
    }
  return step == WB_STEP_END ? g_steal_pointer (&entries) : NULL;
}
