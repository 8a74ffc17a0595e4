/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes and reads the rows of open claims. What a claim's clocks go by core says; the terms are
 * not looked at, for their files may change. */
#include "config.h"

#include "store/wb-claim-index.h"

#include "core/wb-clock-input.h"
#include "store/wb-record-table.h"

/* --- writing ---------------------------------------------------------------------------------- */

static gboolean
is_open (const WbClaim *claim)
{
  return claim->status == WB_CLAIM_OPEN || claim->status == WB_CLAIM_OFFERED;
}

static gboolean
remove_rows (WbSqlite    *book,
             const char  *job_id,
             GError     **error)
{
  static const char sql[] =
    "DELETE FROM open_claim WHERE doc ="
    " (SELECT doc FROM job WHERE id = ?1)";

  return wb_sqlite_run_with (book, sql, error, WB_TEXT (job_id));
}

/* @claim: (nullable): without one the row says that the job cannot be read. */
static gboolean
add_row (WbSqlite       *book,
         const char     *job_id,
         const WbOrder  *order,
         const WbClaim  *claim,
         const char     *input,
         GError        **error)
{
  g_autofree char *pickup = NULL;
  static const char sql[] =
    "INSERT INTO open_claim (doc, claim, number, terms, move_type,"
    " region, pickup, input) SELECT doc, ?2, ?3, ?4, ?5, ?6, ?7, ?8"
    " FROM job WHERE id = ?1";
  const char *move_type = wb_enum_nick (&wb_move_types, order != NULL ? order->move_type : 0);

  if (order != NULL && wb_date_is_set (wb_order_pickup_day (order)))
    pickup = wb_date_to_text (wb_order_pickup_day (order));
  return wb_sqlite_run_with (book, sql, error, WB_TEXT (job_id),
                             WB_TEXT (claim != NULL ? claim->record.id : ""),
                             WB_TEXT (claim != NULL ? claim->number : NULL),
                             WB_TEXT (order != NULL ? order->terms : NULL), WB_TEXT (move_type),
                             WB_TEXT (order != NULL ? order->region : NULL), WB_TEXT (pickup),
                             WB_TEXT (input));
}

static gboolean
add_claims (WbSqlite     *book,
            const WbJob  *job,
            GError      **error)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM); i++)
    {
      const WbClaim *claim = wb_job_nth (job, WB_KIND_CLAIM, i);
      g_auto (WbClockInput) input = { 0 };
      g_autofree char *text = NULL;

      if (!is_open (claim))
        continue;
      wb_clock_input_read (&input, job, claim);
      text = wb_clock_input_to_text (&input);
      if (!add_row (book, wb_job_get_id (job), wb_job_order (job), claim, text, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
wb_claim_index_update (WbSqlite     *book,
                       const WbJob  *base,
                       const WbJob  *job,
                       GError      **error)
{
  if (wb_job_count (base, WB_KIND_CLAIM) == 0 && wb_job_count (job, WB_KIND_CLAIM) == 0)
    return TRUE;
  return remove_rows (book, wb_job_get_id (job), error) && add_claims (book, job, error);
}

gboolean
wb_claim_index_remove (WbSqlite    *book,
                       const char  *job_id,
                       GError     **error)
{
  return remove_rows (book, job_id, error);
}

/* --- filling ---------------------------------------------------------------------------------- */

/* What of a job its claims' clocks go by. */
static const WbKind kinds[] = {
  WB_KIND_ORDER, WB_KIND_CLAIM, WB_KIND_CLAIM_LINE, WB_KIND_PAYMENT, WB_KIND_STEP, WB_KIND_PAPER,
};

/* Returns: (nullable): the job with nothing but its order and its claims. */
static WbJob *
read_job (WbSqlite    *book,
          const char  *id,
          const char  *currency,
          GError     **error)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (WbJob) empty = NULL;

  if (!wb_record_id_is_valid (id) || wb_currency_digits (currency) < 0)
    {
      wb_sqlite_set_error (book, WB_STORE_ERROR_CORRUPT, error,
                           "the book is damaged: job %s has no proper id or currency", id);
      return NULL;
    }
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (!wb_record_table_read (book, kinds[i], id, currency, records, error))
      return NULL;
  empty = wb_job_new (id, currency);
  return wb_job_with_many (empty, records);
}

static gboolean
fill_job (WbSqlite    *book,
          const char  *id,
          const char  *currency,
          GError     **error)
{
  g_autoptr (GError) failure = NULL;
  g_autoptr (WbJob) job = read_job (book, id, currency, &failure);

  if (job != NULL)
    return add_claims (book, job, error);
  if (g_error_matches (failure, WB_STORE_ERROR, WB_STORE_ERROR_CORRUPT))
    return add_row (book, id, NULL, NULL, "unreadable", error);
  g_propagate_error (error, g_steal_pointer (&failure));
  return FALSE;
}

/* Returns: (transfer full) (nullable): ids and currencies in turn. */
static GPtrArray *
list_jobs_with_claims (WbSqlite  *book,
                       GError   **error)
{
  g_autoptr (GPtrArray) list = g_ptr_array_new_with_free_func (g_free);
  sqlite3_stmt *statement;
  WbStep step;

  statement = wb_sqlite_prepare (book,
                                 "SELECT id, currency FROM job WHERE removed = 0"
                                 " AND n_open_claims > 0 ORDER BY doc", error);
  if (statement == NULL)
    return NULL;
  while ((step = wb_sqlite_step (book, statement, error)) == WB_STEP_ROW)
    {
      g_ptr_array_add (list, wb_sqlite_dup_text (statement, 0));
      g_ptr_array_add (list, wb_sqlite_dup_text (statement, 1));
    }
  return step == WB_STEP_END ? g_steal_pointer (&list) : NULL;
}

gboolean
wb_claim_index_fill (WbSqlite  *book,
                     GError   **error)
{
  g_autoptr (GPtrArray) jobs = NULL;

  if (!wb_sqlite_execute (book, "DELETE FROM open_claim", error))
    return FALSE;
  jobs = list_jobs_with_claims (book, error);
  for (guint i = 0; jobs != NULL && i < jobs->len; i += 2)
    if (!fill_job (book, g_ptr_array_index (jobs, i), g_ptr_array_index (jobs, i + 1), error))
      return FALSE;
  return jobs != NULL;
}

/* --- reading ---------------------------------------------------------------------------------- */

static const char *
text_of (sqlite3_stmt *statement,
         int           column)
{
  return (const char *) sqlite3_column_text (statement, column);
}

static void
read_row (sqlite3_stmt *statement,
          WbOpenClaim  *row)
{
  const char *pickup = text_of (statement, 8);
  int move_type;

  row->job_id = text_of (statement, 0);
  row->job_number = text_of (statement, 1);
  row->shipper = text_of (statement, 2);
  row->claim_id = text_of (statement, 3);
  row->claim_number = text_of (statement, 4);
  row->terms = text_of (statement, 5);
  row->region = text_of (statement, 7);
  row->input = text_of (statement, 9);
  row->move_type = wb_enum_parse (&wb_move_types, text_of (statement, 6), &move_type, NULL)
                   ? (WbMoveType) move_type : WB_MOVE_NONE;
  if (pickup == NULL || !wb_date_parse (pickup, &row->pickup, NULL))
    g_date_clear (&row->pickup, 1);
}

gboolean
wb_claim_index_scan (WbSqlite         *book,
                     WbOpenClaimFunc   each,
                     gpointer          data,
                     GError          **error)
{
  sqlite3_stmt *statement;
  WbStep step;
  WbOpenClaim row;

  statement = wb_sqlite_prepare (book,
                                 "SELECT job.id, job.number, job.shipper, open_claim.claim,"
                                 " open_claim.number, open_claim.terms, open_claim.move_type,"
                                 " open_claim.region, open_claim.pickup, open_claim.input"
                                 " FROM open_claim JOIN job USING (doc) ORDER BY doc, claim",
                                 error);
  if (statement == NULL)
    return FALSE;
  while ((step = wb_sqlite_step (book, statement, error)) == WB_STEP_ROW)
    {
      read_row (statement, &row);
      each (&row, data);
    }
  return step == WB_STEP_END;
}
