/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes of a job what a list shows and the words by which it is found, and asks the index. The
 * order of a list and the meaning of a query are decided here and nowhere else. */
#include "config.h"

#include "store/wb-search-index.h"

#include "store/wb-search-second.h"

#include <string.h>

/* --- what a list shows ------------------------------------------------------------------------ */

WbJobSummary *
wb_job_summary_copy (const WbJobSummary *self)
{
  WbJobSummary *copy;

  g_return_val_if_fail (self != NULL, NULL);

  copy = g_memdup2 (self, sizeof *self);
  copy->id = g_strdup (self->id);
  copy->number = g_strdup (self->number);
  copy->bill_number = g_strdup (self->bill_number);
  copy->shipper = g_strdup (self->shipper);
  copy->from_city = g_strdup (self->from_city);
  copy->to_city = g_strdup (self->to_city);
  copy->claims = g_strdup (self->claims);
  return copy;
}

void
wb_job_summary_free (WbJobSummary *self)
{
  if (self == NULL)
    return;
  g_free (self->id);
  g_free (self->number);
  g_free (self->bill_number);
  g_free (self->shipper);
  g_free (self->from_city);
  g_free (self->to_city);
  g_free (self->claims);
  g_free (self);
}

static char *
find_shipper (const WbJob *job)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PARTY); i++)
    {
      const WbParty *party = wb_job_nth (job, WB_KIND_PARTY, i);

      if (party->role == WB_ROLE_SHIPPER)
        return g_strdup (party->name != NULL ? party->name : party->company);
    }
  return NULL;
}

static char *
name_city (const WbStop *stop)
{
  if (stop->city != NULL && stop->region != NULL)
    return g_strdup_printf ("%s, %s", stop->city, stop->region);
  return g_strdup (stop->city != NULL ? stop->city : stop->region);
}

/* Where the goods come from: the first stop for pick-up. */
static char *
find_from_city (const WbJob *job)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_STOP); i++)
    {
      const WbStop *stop = wb_job_nth (job, WB_KIND_STOP, i);

      if (stop->kind == WB_STOP_PICKUP || stop->kind == WB_STOP_EXTRA_PICKUP)
        return name_city (stop);
    }
  return NULL;
}

/* Where they go: the last stop for delivery. */
static char *
find_to_city (const WbJob *job)
{
  for (guint i = wb_job_count (job, WB_KIND_STOP); i > 0; i--)
    {
      const WbStop *stop = wb_job_nth (job, WB_KIND_STOP, i - 1);

      if (stop->kind == WB_STOP_DELIVERY || stop->kind == WB_STOP_EXTRA_DELIVERY)
        return name_city (stop);
    }
  return NULL;
}

static gboolean
is_open (WbClaimStatus status)
{
  switch (status)
    {
    case WB_CLAIM_OPEN:
    case WB_CLAIM_OFFERED:
      return TRUE;
    case WB_CLAIM_SETTLED:
    case WB_CLAIM_DECLINED:
    case WB_CLAIM_CLOSED:
      return FALSE;
    }
  return FALSE;
}

static void
summarize_claims (const WbJob  *job,
                  WbJobSummary *summary)
{
  g_autoptr (GString) numbers = g_string_new (NULL);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM); i++)
    {
      const WbClaim *claim = wb_job_nth (job, WB_KIND_CLAIM, i);

      if (is_open (claim->status))
        summary->n_open_claims++;
      if (claim->number != NULL)
        g_string_append_printf (numbers, "%s%s", numbers->len > 0 ? ", " : "", claim->number);
    }
  if (numbers->len > 0)
    summary->claims = g_strdup (numbers->str);
}

WbJobSummary *
wb_job_summary_new (const WbJob *job)
{
  const WbOrder *order = wb_job_order (job);
  WbJobSummary *summary = g_new0 (WbJobSummary, 1);

  summary->id = g_strdup (wb_job_get_id (job));
  summary->number = g_strdup (order->number);
  summary->bill_number = g_strdup (order->bill_number);
  summary->stage = order->stage;
  summary->shipper = find_shipper (job);
  summary->from_city = find_from_city (job);
  summary->to_city = find_to_city (job);
  summary->pickup = wb_date_is_set (&order->picked_up_on) ? order->picked_up_on
                    : order->pickup_from;
  summary->delivery = wb_date_is_set (&order->delivered_on) ? order->delivered_on
                      : order->delivery_from;
  summary->n_pieces = wb_job_count (job, WB_KIND_PIECE);
  summarize_claims (job, summary);
  summary->revision = wb_job_get_revision (job);
  return summary;
}

/* --- words ------------------------------------------------------------------------------------ */

/* Digits of a telephone number that a caller may leave out: "1" before a number of this length, and
 * the area code. */
#define NATIONAL_DIGITS 10
#define LOCAL_DIGITS 7

static void
append_word (GString    *words,
             const char *text)
{
  if (text != NULL)
    g_string_append_printf (words, "%s\n", text);
}

static char *
keep_digits (const char *text)
{
  GString *digits = g_string_new (NULL);

  for (const char *at = text; *at != '\0'; at++)
    if (g_ascii_isdigit (*at))
      g_string_append_c (digits, *at);
  return g_string_free (digits, FALSE);
}

/* A number is found as it is written, and by its digits however they are grouped, with or without
 * what goes before. */
static void
append_phone (GString    *words,
              const char *phone)
{
  g_autofree char *digits = NULL;
  gsize length;

  if (phone == NULL)
    return;
  append_word (words, phone);
  digits = keep_digits (phone);
  length = strlen (digits);
  if (length > 0)
    append_word (words, digits);
  if (length > NATIONAL_DIGITS)
    append_word (words, digits + length - NATIONAL_DIGITS);
  if (length > LOCAL_DIGITS)
    append_word (words, digits + length - LOCAL_DIGITS);
}

char *
wb_search_index_words (const WbJob *job)
{
  const WbOrder *order = wb_job_order (job);
  GString *words = g_string_new (NULL);

  append_word (words, order->number);
  append_word (words, order->bill_number);
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM); i++)
    append_word (words, ((const WbClaim *) wb_job_nth (job, WB_KIND_CLAIM, i))->number);
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PARTY); i++)
    {
      const WbParty *party = wb_job_nth (job, WB_KIND_PARTY, i);

      append_word (words, party->name);
      append_word (words, party->company);
      append_word (words, party->city);
      append_phone (words, party->phone);
    }
  for (guint i = 0; i < wb_job_count (job, WB_KIND_STOP); i++)
    {
      const WbStop *stop = wb_job_nth (job, WB_KIND_STOP, i);

      append_word (words, stop->city);
      append_phone (words, stop->phone);
    }
  return g_string_free (words, FALSE);
}

/* --- queries ---------------------------------------------------------------------------------- */

/* Whether the index would see a word in @text: it takes letters and digits of any script. */
static gboolean
names_a_word (const char *text)
{
  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    if (g_unichar_isalnum (g_utf8_get_char (at)))
      return TRUE;
  return FALSE;
}

/* A word in quotes is a sequence of words to the index ("J-2026-7"), the star makes the last one a
 * beginning. */
static void
append_beginning (GString    *expression,
                  const char *word)
{
  g_auto (GStrv) parts = g_strsplit (word, "\"", -1);
  g_autofree char *quoted = g_strjoinv ("\"\"", parts);

  g_string_append_printf (expression, "%s\"%s\"*", expression->len > 0 ? " AND " : "", quoted);
}

/* Returns: (nullable): the digits of a query that is a telephone number and nothing else, without a
 * leading 1. */
static char *
read_phone (const char *query)
{
  g_autofree char *digits = NULL;
  gsize length;

  if (strspn (query, "0123456789 +-./()\t") != strlen (query))
    return NULL;
  digits = keep_digits (query);
  length = strlen (digits);
  if (length < LOCAL_DIGITS)
    return NULL;
  return g_strdup (digits + (length == NATIONAL_DIGITS + 1 && digits[0] == '1' ? 1 : 0));
}

/* Returns: (transfer full): the parts of @query that name words. */
static char **
split_words (const char *query)
{
  g_autofree char *valid = g_utf8_make_valid (query, -1);
  g_auto (GStrv) parts = g_strsplit_set (valid, " \t\r\n\f\v", -1);
  g_autoptr (GStrvBuilder) words = g_strv_builder_new ();

  for (guint i = 0; parts[i] != NULL; i++)
    if (names_a_word (parts[i]))
      g_strv_builder_add (words, parts[i]);
  return g_strv_builder_end (words);
}

char *
wb_search_index_query (const char *query)
{
  g_autofree char *valid = g_utf8_make_valid (query, -1);
  g_auto (GStrv) words = split_words (query);
  g_autofree char *phone = read_phone (valid);
  g_autoptr (GString) expression = g_string_new (NULL);

  for (guint i = 0; words[i] != NULL; i++)
    append_beginning (expression, words[i]);
  if (expression->len == 0)
    return NULL;
  if (phone != NULL)
    return g_strdup_printf ("(%s) OR \"%s\"*", expression->str, phone);
  return g_string_free (g_steal_pointer (&expression), FALSE);
}

/* --- the book --------------------------------------------------------------------------------- */

static void
bind_date (sqlite3_stmt *statement,
           int           index,
           const GDate  *date)
{
  if (wb_date_is_set (date))
    sqlite3_bind_text (statement, index, wb_date_to_text (date), -1, g_free);
}

/* The day by which a job stands in a list: that of its pick-up; before one is agreed, the day it
 * was booked or surveyed; before that, none, and the day on which it was first stored is taken. */
static const GDate *
find_listing_day (const WbJob        *job,
                  const WbJobSummary *summary)
{
  const WbOrder *order = wb_job_order (job);

  if (wb_date_is_set (&summary->pickup))
    return &summary->pickup;
  return wb_date_is_set (&order->booked_on) ? &order->booked_on : &order->survey_on;
}

static gboolean
write_summary (WbSqlite      *book,
               const WbJob   *job,
               GError       **error)
{
  g_autoptr (WbJobSummary) summary = wb_job_summary_new (job);
  sqlite3_stmt *statement;

  statement = wb_sqlite_prepare (book,
                                 "UPDATE job SET number = ?2, bill_number = ?3, stage = ?4,"
                                 " shipper = ?5, from_city = ?6, to_city = ?7, pickup = ?8,"
                                 " delivery = ?9, n_pieces = ?10, claims = ?11,"
                                 " n_open_claims = ?12, listed_by = coalesce (?13, first_stored)"
                                 " WHERE id = ?1", error);
  if (statement == NULL)
    return FALSE;
  wb_sqlite_bind_text (statement, 1, summary->id);
  wb_sqlite_bind_text (statement, 2, summary->number);
  wb_sqlite_bind_text (statement, 3, summary->bill_number);
  wb_sqlite_bind_text (statement, 4, wb_enum_nick (&wb_stages, (int) summary->stage));
  wb_sqlite_bind_text (statement, 5, summary->shipper);
  wb_sqlite_bind_text (statement, 6, summary->from_city);
  wb_sqlite_bind_text (statement, 7, summary->to_city);
  bind_date (statement, 8, &summary->pickup);
  bind_date (statement, 9, &summary->delivery);
  wb_sqlite_bind_number (statement, 10, summary->n_pieces);
  wb_sqlite_bind_text (statement, 11, summary->claims);
  wb_sqlite_bind_number (statement, 12, summary->n_open_claims);
  bind_date (statement, 13, find_listing_day (job, summary));
  return wb_sqlite_run (book, statement, error);
}

gboolean
wb_search_index_remove (WbSqlite    *book,
                        const char  *job_id,
                        GError     **error)
{
  sqlite3_stmt *statement;

  statement = wb_sqlite_prepare (book,
                                 "DELETE FROM job_words WHERE rowid = (SELECT doc FROM job WHERE"
                                 " id = ?1)", error);
  if (statement == NULL)
    return FALSE;
  wb_sqlite_bind_text (statement, 1, job_id);
  return wb_sqlite_run (book, statement, error);
}

static gboolean
write_words (WbSqlite    *book,
             const char  *job_id,
             const char  *words,
             GError     **error)
{
  sqlite3_stmt *statement;

  if (!wb_search_index_remove (book, job_id, error))
    return FALSE;
  statement = wb_sqlite_prepare (book,
                                 "INSERT INTO job_words (rowid, words) SELECT doc, ?2 FROM job"
                                 " WHERE id = ?1", error);
  if (statement == NULL)
    return FALSE;
  wb_sqlite_bind_text (statement, 1, job_id);
  wb_sqlite_bind_text (statement, 2, words);
  return wb_sqlite_run (book, statement, error);
}

gboolean
wb_search_index_update (WbSqlite      *book,
                        const WbJob   *base,
                        const WbJob   *job,
                        GError       **error)
{
  g_autofree char *old_words = wb_search_index_words (base);
  g_autofree char *words = wb_search_index_words (job);

  if (!write_summary (book, job, error))
    return FALSE;
  return strcmp (old_words, words) == 0 || write_words (book, wb_job_get_id (job), words, error);
}

/* A date in a list is for show; one that does not read is shown as not given. */
static void
read_date (sqlite3_stmt *statement,
           int           column,
           GDate        *date)
{
  const char *text = (const char *) sqlite3_column_text (statement, column);

  if (text != NULL && !wb_date_parse (text, date, NULL))
    g_date_clear (date, 1);
}

static WbJobSummary *
read_summary (sqlite3_stmt *statement)
{
  WbJobSummary *summary = g_new0 (WbJobSummary, 1);
  const char *nick = (const char *) sqlite3_column_text (statement, 3);
  const WbEnumValue *stage = nick != NULL ? wb_enum_find_nick (&wb_stages, nick) : NULL;

  summary->id = wb_sqlite_dup_text (statement, 0);
  summary->number = wb_sqlite_dup_text (statement, 1);
  summary->bill_number = wb_sqlite_dup_text (statement, 2);
  summary->stage = stage != NULL ? (WbStage) stage->value : WB_STAGE_INQUIRY;
  summary->shipper = wb_sqlite_dup_text (statement, 4);
  summary->from_city = wb_sqlite_dup_text (statement, 5);
  summary->to_city = wb_sqlite_dup_text (statement, 6);
  read_date (statement, 7, &summary->pickup);
  read_date (statement, 8, &summary->delivery);
  summary->n_pieces = (guint) sqlite3_column_int64 (statement, 9);
  summary->claims = wb_sqlite_dup_text (statement, 10);
  summary->n_open_claims = (guint) sqlite3_column_int64 (statement, 11);
  summary->revision = sqlite3_column_int64 (statement, 12);
  return summary;
}

#define SUMMARY_COLUMNS \
  "SELECT id, number, bill_number, stage, shipper, from_city, to_city, pickup, delivery," \
  " n_pieces, claims, n_open_claims, revision FROM job WHERE removed = 0"
#define SUMMARY_ORDER " ORDER BY listed_by DESC, doc DESC LIMIT ?1"

/* Returns: (transfer full) (nullable): the rows that @statement, whose parameters are bound,
 * gives. */
static GPtrArray *
read_summaries (WbSqlite      *book,
                sqlite3_stmt  *statement,
                GError       **error)
{
  GDestroyNotify free_summary = (GDestroyNotify) wb_job_summary_free;
  g_autoptr (GPtrArray) summaries = g_ptr_array_new_with_free_func (free_summary);
  WbStep step;

  while ((step = wb_sqlite_step (book, statement, error)) == WB_STEP_ROW)
    g_ptr_array_add (summaries, read_summary (statement));
  return step == WB_STEP_END ? g_steal_pointer (&summaries) : NULL;
}

/* The first parameter is the limit. */
#define FIRST_WORD 2

static GPtrArray *
look_again (WbSqlite           *book,
            const char *const  *words,
            guint               limit,
            GError            **error)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  guint n_words = g_strv_length ((char **) words);
  g_autofree char *condition = wb_search_second_condition (n_words, FIRST_WORD);
  g_autofree char *sql = g_strconcat (SUMMARY_COLUMNS " AND ", condition, SUMMARY_ORDER, NULL);
  sqlite3_stmt *statement = wb_sqlite_prepare (book, sql, error);
  g_auto (GStrv) expressions = NULL;

  if (statement == NULL)
    return NULL;

  for (guint i = 0; i < n_words; i++)
    {
      g_autoptr (GString) expression = g_string_new (NULL);

      append_beginning (expression, words[i]);
      g_strv_builder_add (builder, expression->str);
    }
  expressions = g_strv_builder_end (builder);
  wb_sqlite_bind_number (statement, 1, limit > 0 ? (gint64) limit : -1);
  wb_search_second_bind (statement, FIRST_WORD, words, (const char *const *) expressions);
  return read_summaries (book, statement, error);
}

GPtrArray *
wb_search_index_list (WbSqlite    *book,
                      const char  *query,
                      guint        limit,
                      GError     **error)
{
  g_autofree char *expression = query != NULL ? wb_search_index_query (query) : NULL;
  g_autoptr (GPtrArray) summaries = NULL;
  g_auto (GStrv) words = NULL;
  sqlite3_stmt *statement;

  if (expression == NULL)
    statement = wb_sqlite_prepare (book, SUMMARY_COLUMNS SUMMARY_ORDER, error);
  else
    statement = wb_sqlite_prepare (book,
                                   SUMMARY_COLUMNS " AND doc IN (SELECT rowid FROM job_words WHERE"
                                                   " job_words MATCH ?2)"
                                   SUMMARY_ORDER, error);
  if (statement == NULL)
    return NULL;
  wb_sqlite_bind_number (statement, 1, limit > 0 ? (gint64) limit : -1);
  if (expression != NULL)
    wb_sqlite_bind_text (statement, 2, expression);
  summaries = read_summaries (book, statement, error);
  if (expression == NULL || summaries == NULL || summaries->len > 0)
    return g_steal_pointer (&summaries);

  words = split_words (query);
  if (g_strv_length (words) > WB_SEARCH_SECOND_WORDS || strlen (query) > WB_SEARCH_SECOND_BYTES)
    return g_steal_pointer (&summaries);
  return look_again (book, (const char *const *) words, limit, error);
}
