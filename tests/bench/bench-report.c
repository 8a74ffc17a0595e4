/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long the report over a book of 10,000 finished claims takes: gathering it, which reckons
 * every claim, and grouping what was gathered. */
#include "config.h"

#include "bench/wb-bench.h"
#include "office/wb-claim-report.h"

#include <sqlite3.h>

#define N_JOBS 10000
#define N_A_STEP 500      /* jobs stored at once */
#define N_PIECES 6
#define N_LINES 2
#define N_ROUNDS 3

typedef struct
{
  WbOffice      *office;
  WbClaimReport *report;
} Bench;

/* The same job under another id, with numbers of its own, its claim settled. */
static WbJob *
make_job (const WbJob *pattern,
          guint        number)
{
  g_autofree char *id = g_strdup_printf ("bench-%u", number);
  g_autofree char *job_number = g_strdup_printf ("J-%05u", number);
  g_autofree char *claim_number = g_strdup_printf ("C-%05u", number);
  g_autoptr (WbJob) bare = wb_job_with_id (pattern, id);
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  WbOrder *order = wb_record_copy (wb_job_order (bare));
  WbClaim *claim = wb_record_copy (wb_job_nth (bare, WB_KIND_CLAIM, 0));

  wb_set_text (&order->number, job_number);
  wb_set_text (&claim->number, claim_number);
  claim->status = WB_CLAIM_SETTLED;
  g_ptr_array_add (records, order);
  g_ptr_array_add (records, claim);
  for (guint i = 0; i < wb_job_count (bare, WB_KIND_CLAIM_LINE); i++)
    {
      WbClaimLine *line = wb_record_copy (wb_job_nth (bare, WB_KIND_CLAIM_LINE, i));

      line->cause = (WbCause) ((number + i) % wb_causes.n_values);
      g_ptr_array_add (records, line);
    }
  return wb_job_with_many (bare, records);
}

static void
fill_book (WbOffice *office)
{
  g_autoptr (WbJob) pattern = wb_bench_make_job (N_PIECES, N_LINES);
  g_autoptr (GError) error = NULL;

  for (guint first = 0; first < N_JOBS; first += N_A_STEP)
    {
      g_autoptr (GPtrArray) jobs = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_job_unref);

      for (guint i = 0; i < N_A_STEP; i++)
        g_ptr_array_add (jobs, make_job (pattern, first + i));
      g_assert_true (wb_office_add_jobs (office, jobs, "made", NULL, &error));
      g_assert_no_error (error);
    }
}

static void
gather (gpointer data)
{
  Bench *bench = data;
  g_autoptr (GError) error = NULL;

  g_clear_pointer (&bench->report, wb_claim_report_free);
  bench->report = wb_office_claim_report (bench->office, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (bench->report->lines->len, ==, N_JOBS * N_LINES);
}

static void
group (gpointer data)
{
  Bench *bench = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbLossReport) report = wb_loss_report (bench->report->lines, bench->report->moved,
                                                    WB_LOSS_BY_CAUSE, NULL, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (report->groups->len, ==, wb_causes.n_values);
}

/* The peer: what plain SQL can add up, which is what was asked, not what is owed. */
static void
sum_in_sql (gpointer data)
{
  sqlite3_stmt *select = NULL;
  int n_groups = 0;

  g_assert_cmpint (sqlite3_prepare_v2 (data,
                                       "SELECT cause, count (*), count (DISTINCT claim.job_id),"
                                       " sum (demanded) FROM claim_line JOIN claim"
                                       " ON claim.job_id = claim_line.job_id"
                                       " AND claim.id = claim_line.claim"
                                       " WHERE claim.status IN ('settled', 'declined', 'closed')"
                                       " GROUP BY cause", -1, &select, NULL), ==, SQLITE_OK);
  while (sqlite3_step (select) == SQLITE_ROW)
    n_groups++;
  sqlite3_finalize (select);
  g_assert_cmpint (n_groups, ==, (int) wb_causes.n_values);
}

int
main (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = wb_bench_make_folder ();
  g_autofree char *path = g_build_filename (folder, "bench.wainbook", NULL);
  Bench bench = { wb_office_open (path, WB_BOOK_CREATE, NULL, &error), NULL };
  sqlite3 *db = NULL;
  WbBenchTime peer;

  g_assert_no_error (error);
  fill_book (bench.office);
  g_assert_cmpint (sqlite3_open_v2 (path, &db, SQLITE_OPEN_READONLY, NULL), ==, SQLITE_OK);
  peer = wb_bench_median (N_ROUNDS, sum_in_sql, db);
  sqlite3_close (db);

  wb_bench_report ("gathering 10,000 finished claims and reckoning each",
                   wb_bench_median (N_ROUNDS, gather, &bench),
                   "SQLite alone adding up what their lines demand", peer, "under 10 s");
  wb_bench_report ("grouping and adding up what was gathered",
                   wb_bench_median (N_ROUNDS, group, &bench),
                   "SQLite alone adding up what their lines demand", peer, "under 100 ms");

  wb_claim_report_free (bench.report);
  wb_office_close (bench.office);
  g_object_unref (bench.office);
  return 0;
}
