/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Loads a job whole and stores the difference between two: the rows that changed, the job's
 * revision, its history and its place in the index. How a row is read or written stands in
 * wb-record-table.c. */
#include "config.h"

#include "store/wb-job-store.h"

#include <string.h>

#include "store/wb-claim-index.h"
#include "store/wb-history.h"
#include "store/wb-record-table.h"
#include "store/wb-search-index.h"

/* What the book holds of a job before its records are looked at. */
typedef struct
{
  gboolean known;      /* there is, or once was, a job of that id */
  gboolean removed;
  gint64   revision;
  char     currency[4];
} Head;

static gboolean
read_head (WbSqlite    *book,
           const char  *id,
           Head        *head,
           GError     **error)
{
  static const char sql[] =
    "SELECT revision, removed, currency FROM job"
    " WHERE id = ?1";
  sqlite3_stmt *statement = wb_sqlite_prepare_with (book, sql, error, WB_TEXT (id));

  memset (head, 0, sizeof *head);
  if (statement == NULL)
    return FALSE;
  switch (wb_sqlite_step (book, statement, error))
    {
    case WB_STEP_ROW:
      head->known = TRUE;
      head->revision = sqlite3_column_int64 (statement, 0);
      head->removed = sqlite3_column_int (statement, 1) != 0;
      g_strlcpy (head->currency, (const char *) sqlite3_column_text (statement, 2),
                 sizeof head->currency);
      sqlite3_reset (statement);
      return TRUE;
    case WB_STEP_END:
      return TRUE;
    case WB_STEP_FAILED:
      return FALSE;
    }
  g_assert_not_reached ();
}

/* --- loading ---------------------------------------------------------------------------------- */

WbJob *
wb_job_store_load (WbSqlite    *book,
                   const char  *id,
                   GError     **error)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (WbJob) empty = NULL;
  g_autoptr (WbJob) job = NULL;
  Head head;

  if (!read_head (book, id, &head, error))
    return NULL;
  if (!head.known || head.removed)
    {
      wb_sqlite_set_error (book, WB_STORE_ERROR_NOT_FOUND, error,
                           head.known ? "job %s was removed" : "there is no job %s", id);
      return NULL;
    }
  if (!wb_record_id_is_valid (id) || wb_currency_digits (head.currency) < 0)
    {
      wb_sqlite_set_error (book, WB_STORE_ERROR_CORRUPT, error,
                           "the book is damaged: job %s has no proper id or currency", id);
      return NULL;
    }
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    if (!wb_record_table_read (book, (WbKind) kind, id, head.currency, records, error))
      return NULL;
  empty = wb_job_new (id, head.currency);
  job = wb_job_with_many (empty, records);
  return wb_job_with_revision (job, head.revision);
}

/* --- storing ---------------------------------------------------------------------------------- */

static gboolean
refuse_revision (WbSqlite    *book,
                 const char  *id,
                 gint64       revision,
                 gint64       expected,
                 GError     **error)
{
  wb_sqlite_set_error (book, WB_STORE_ERROR_CONFLICT, error,
                       "job %s was changed meanwhile: it is at revision %" G_GINT64_FORMAT
                       ", not %" G_GINT64_FORMAT, id, revision, expected);
  return FALSE;
}

/* Refuses to store over what somebody else did meanwhile. */
static gboolean
check_revision (WbSqlite      *book,
                const WbJob   *base,
                const WbJob   *job,
                const Head    *head,
                GError       **error)
{
  const char *id = wb_job_get_id (job);

  if (base == NULL)
    {
      if (!head->known || head->removed)
        return TRUE;
      wb_sqlite_set_error (book, WB_STORE_ERROR_EXISTS, error, "there is a job %s already", id);
      return FALSE;
    }
  if (head->known && !head->removed && head->revision == wb_job_get_revision (base))
    return TRUE;
  if (!head->known)
    wb_sqlite_set_error (book, WB_STORE_ERROR_CONFLICT, error, "job %s is not in this book", id);
  else if (head->removed)
    wb_sqlite_set_error (book, WB_STORE_ERROR_CONFLICT, error, "job %s was removed meanwhile", id);
  else
    refuse_revision (book, id, head->revision, wb_job_get_revision (base), error);
  return FALSE;
}

static gboolean
write_head (WbSqlite      *book,
            const WbJob   *job,
            gboolean       removed,
            GError       **error)
{
  static const char sql[] =
    "INSERT INTO job (id, currency, revision, removed, first_stored,"
    " listed_by, stage, n_pieces, n_open_claims)"
    " VALUES (?1, ?2, ?3, ?4, date (), date (), '', 0, 0)"
    " ON CONFLICT (id) DO UPDATE"
    " SET currency = ?2, revision = ?3, removed = ?4";

  return wb_sqlite_run_with (book, sql, error, WB_TEXT (wb_job_get_id (job)),
                             WB_TEXT (wb_job_get_currency (job)),
                             WB_NUMBER (wb_job_get_revision (job)), WB_NUMBER (removed ? 1 : 0));
}

/* Frees the numbers of claims that get another one, so that two may change places. */
static gboolean
release_claim_number (WbSqlite           *book,
                      const char         *job_id,
                      const WbJobChange  *change,
                      GError            **error)
{
  const WbClaim *before = (const WbClaim *) change->before;
  const WbClaim *after = (const WbClaim *) change->after;
  static const char sql[] =
    "UPDATE claim SET number = NULL WHERE job_id = ?1 AND id = ?2";

  if (change->kind != WB_KIND_CLAIM || before == NULL || after == NULL ||
      g_strcmp0 (before->number, after->number) == 0)
    return TRUE;
  return wb_sqlite_run_with (book, sql, error, WB_TEXT (job_id), WB_TEXT (change->before->id));
}

/* Removals go backwards through the kinds, so that what belongs to a record goes before it; then
 * nothing is left that a cascade could take unseen. */
static gboolean
remove_rows (WbSqlite      *book,
             const WbJob   *job,
             GArray        *changes,
             GError       **error)
{
  for (guint i = changes->len; i > 0; i--)
    {
      const WbJobChange *change = &g_array_index (changes, WbJobChange, i - 1);

      if (change->after == NULL &&
          !wb_record_table_remove (book, wb_job_get_id (job), change->before, error))
        return FALSE;
      if (!release_claim_number (book, wb_job_get_id (job), change, error))
        return FALSE;
    }
  return TRUE;
}

/* Returns: (nullable): the id of the job that has the number of @record, an order or a claim, for
 * one of its own. */
static char *
find_holder (WbSqlite       *book,
             const char     *job_id,
             const WbRecord *record,
             const char     *number)
{
  static const char of_order[] = "SELECT job_id FROM \"order\" WHERE number = ?3 COLLATE NOCASE"
                                 " AND (job_id, id) <> (?1, ?2)";
  static const char of_claim[] = "SELECT job_id FROM claim WHERE number = ?3 COLLATE NOCASE"
                                 " AND (job_id, id) <> (?1, ?2)";
  const char *sql = record->type->kind == WB_KIND_ORDER ? of_order : of_claim;
  sqlite3_stmt *statement = wb_sqlite_prepare_with (book, sql, NULL, WB_TEXT (job_id),
                                                    WB_TEXT (record->id), WB_TEXT (number));
  char *holder = NULL;

  if (statement == NULL)
    return NULL;
  if (wb_sqlite_step (book, statement, NULL) == WB_STEP_ROW)
    holder = wb_sqlite_dup_text (statement, 0);
  sqlite3_reset (statement);
  return holder;
}

/* Returns: (nullable): the number of a job or a claim, which nothing else may have. */
static const char *
number_of (const WbRecord *record)
{
  if (record->type->kind == WB_KIND_ORDER)
    return ((const WbOrder *) record)->number;
  if (record->type->kind == WB_KIND_CLAIM)
    return ((const WbClaim *) record)->number;
  return NULL;
}

/* When the book refused a record, says so in place of @error if it was for its number. */
static void
explain_refusal (WbSqlite        *book,
                 const WbJob     *job,
                 const WbRecord  *record,
                 GError         **error)
{
  const char *id = wb_job_get_id (job);
  const char *number = number_of (record);
  g_autofree char *holder = NULL;

  if (error == NULL || !g_error_matches (*error, WB_STORE_ERROR, WB_STORE_ERROR_CONSTRAINT))
    return;
  holder = number != NULL ? find_holder (book, id, record, number) : NULL;
  if (holder == NULL)
    return;
  g_clear_error (error);
  wb_sqlite_set_error (book, WB_STORE_ERROR_CONSTRAINT, error,
                       "job %s: the %s number “%s” is already taken by job %s", id,
                       record->type->kind == WB_KIND_ORDER ? "job" : "claim", number, holder);
}

static gboolean
write_rows (WbSqlite      *book,
            const WbJob   *job,
            GArray        *changes,
            GError       **error)
{
  for (guint i = 0; i < changes->len; i++)
    {
      const WbJobChange *change = &g_array_index (changes, WbJobChange, i);
      gint position;

      if (change->after == NULL)
        continue;
      position = wb_job_index (job, change->kind, change->after->id);
      if (!wb_record_table_write (book, wb_job_get_id (job), wb_job_get_currency (job),
                                  change->after, (guint) position, error))
        {
          explain_refusal (book, job, change->after, error);
          return FALSE;
        }
      if (number_of (change->after) != NULL &&
          !wb_number_series_note (book, number_of (change->after), error))
        return FALSE;
    }
  return TRUE;
}

/* Whether a record that was there before stands at another place now. */
static gboolean
is_moved (const WbJob *base,
          const WbJob *job,
          WbKind       kind,
          guint        place)
{
  const WbRecord *record = wb_job_nth (job, kind, place);
  gint before = wb_job_index (base, kind, record->id);

  return before >= 0 && (guint) before != place;
}

static gboolean
write_moves (WbSqlite      *book,
             const WbJob   *base,
             const WbJob   *job,
             GError       **error)
{
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    for (guint i = 0; i < wb_job_count (job, (WbKind) kind); i++)
      if (is_moved (base, job, (WbKind) kind, i) &&
          !wb_record_table_move (book, wb_job_get_id (job), wb_job_nth (job, (WbKind) kind, i), i,
                                 error))
        return FALSE;
  return TRUE;
}

static gboolean
is_same (const WbJob  *base,
         const WbJob  *job,
         const GArray *changes)
{
  if (changes->len > 0 || strcmp (wb_job_get_currency (base), wb_job_get_currency (job)) != 0)
    return FALSE;
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    for (guint i = 0; i < wb_job_count (job, (WbKind) kind); i++)
      if (is_moved (base, job, (WbKind) kind, i))
        return FALSE;
  return TRUE;
}

/* Only what differs is written; with another currency every amount has to differ, which the check
 * sees to. */
static gboolean
check_currency (WbSqlite      *book,
                const WbJob   *base,
                const WbJob   *job,
                GError       **error)
{
  g_autoptr (GError) fault = NULL;

  if (strcmp (wb_job_get_currency (base), wb_job_get_currency (job)) == 0 ||
      wb_job_check (job, &fault))
    return TRUE;
  wb_sqlite_set_error (book, WB_STORE_ERROR_CONSTRAINT, error, "job %s: %s", wb_job_get_id (job),
                       fault->message);
  return FALSE;
}

static gboolean
store_difference (WbSqlite      *book,
                  const WbJob   *base,
                  const WbJob   *job,
                  GArray        *changes,
                  const char    *deed,
                  GError       **error)
{
  return check_currency (book, base, job, error) &&
         write_head (book, job, FALSE, error) &&
         remove_rows (book, job, changes, error) &&
         write_moves (book, base, job, error) &&
         write_rows (book, job, changes, error) &&
         wb_search_index_update (book, base, job, error) &&
         wb_claim_index_update (book, base, job, error) &&
         wb_history_enter (book, base, job, deed, error);
}

WbJob *
wb_job_store_save (WbSqlite    *book,
                   WbJob       *base,
                   WbJob       *job,
                   const char  *deed,
                   GError     **error)
{
  g_autoptr (WbJob) from = NULL;
  g_autoptr (WbJob) to = NULL;
  g_autoptr (GArray) changes = NULL;
  Head head;

  if (!read_head (book, wb_job_get_id (job), &head, error) ||
      !check_revision (book, base, job, &head, error))
    return NULL;
  if (base != NULL)
    from = wb_job_ref (base);
  else
    from = wb_job_new (wb_job_get_id (job), wb_job_get_currency (job));
  changes = wb_job_diff (from, job);
  if (base != NULL && is_same (base, job, changes))
    return wb_job_with_revision (job, head.revision);
  to = wb_job_with_revision (job, head.revision + 1);
  if (!store_difference (book, from, to, changes, deed, error))
    return NULL;
  return g_steal_pointer (&to);
}

/* --- removing --------------------------------------------------------------------------------- */

gboolean
wb_job_store_remove (WbSqlite    *book,
                     const char  *id,
                     gint64       revision,
                     GError     **error)
{
  g_autoptr (WbJob) job = wb_job_store_load (book, id, error);
  g_autoptr (WbJob) empty = NULL;
  g_autoptr (WbJob) gone = NULL;

  if (job == NULL)
    return FALSE;
  if (wb_job_get_revision (job) != revision)
    return refuse_revision (book, id, wb_job_get_revision (job), revision, error);
  empty = wb_job_new (id, wb_job_get_currency (job));
  gone = wb_job_with_revision (empty, revision + 1);
  return wb_search_index_remove (book, id, error) &&
         wb_claim_index_remove (book, id, error) &&
         wb_record_table_remove_all (book, id, error) &&
         write_head (book, gone, TRUE, error) &&
         wb_history_enter (book, job, gone, "removed", error);
}

/* --- finding ---------------------------------------------------------------------------------- */

/* A job's own number goes before a claim's, and that before a bill's, which two jobs may share:
 * then the newer one. */
static const char find_by_number[] =
  "SELECT found.job_id FROM ("
  "  SELECT job_id, 1 AS rank FROM \"order\" WHERE number = ?1 COLLATE NOCASE"
  "  UNION ALL SELECT job_id, 2 FROM claim WHERE number = ?1 COLLATE NOCASE"
  "  UNION ALL SELECT job_id, 3 FROM \"order\" WHERE bill_number = ?1 COLLATE NOCASE"
  ") AS found JOIN job ON job.id = found.job_id"
  " ORDER BY found.rank, job.listed_by DESC, job.doc DESC LIMIT 1";

char *
wb_job_store_find (WbSqlite    *book,
                   const char  *number,
                   GError     **error)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (number));
  sqlite3_stmt *statement = wb_sqlite_prepare_with (book, find_by_number, error, WB_TEXT (trimmed));
  char *id;

  if (statement == NULL)
    return NULL;
  switch (wb_sqlite_step (book, statement, error))
    {
    case WB_STEP_ROW:
      id = wb_sqlite_dup_text (statement, 0);
      sqlite3_reset (statement);
      return id;
    case WB_STEP_END:
      wb_sqlite_set_error (book, WB_STORE_ERROR_NOT_FOUND, error,
                           "no job, bill of lading or claim has the number “%s”", trimmed);
      return NULL;
    case WB_STEP_FAILED:
      return NULL;
    }
  g_assert_not_reached ();
}
