/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long the list of what is due takes to come up from a book of 50,000 open claims, and whether
 * a main loop is held up while that happens. The window shows what this list gives. */
#include "config.h"

#include <sqlite3.h>

#include "bench/wb-bench.h"
#include "bench/wb-bench-claims.h"
#include "office/wb-due.h"

#define N_CLAIMS WB_BENCH_N_CLAIMS
#define N_ROUNDS 7
#define N_COLUMNS 8

typedef struct
{
  WbOffice    *office;
  sqlite3     *plain;
  GDate        today;
  WbDueList   *list;
  WbBenchTime  longest_stall;
} Bench;

static void
list_blocking (gpointer data)
{
  Bench *bench = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbDueList) list = wb_office_list_due (bench->office, &bench->today, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (wb_due_list_count (list), >=, N_CLAIMS);
}

static void
on_listed (GObject      *source,
           GAsyncResult *result,
           gpointer      data)
{
  Bench *bench = data;
  g_autoptr (GError) error = NULL;

  bench->list = wb_office_list_due_finish (WB_OFFICE (source), result, &error);
  g_assert_no_error (error);
}

static void
list_in_loop (gpointer data)
{
  Bench *bench = data;
  WbBenchTime stall;

  wb_bench_take_stall ();
  wb_office_list_due_async (bench->office, NULL, on_listed, bench);
  while (bench->list == NULL)
    g_main_context_iteration (NULL, TRUE);
  g_main_context_iteration (NULL, FALSE);
  stall = wb_bench_take_stall ();
  bench->longest_stall.clock = MAX (bench->longest_stall.clock, stall.clock);
  bench->longest_stall.work = MAX (bench->longest_stall.work, stall.work);

  g_assert_cmpuint (wb_due_list_count (bench->list), >=, N_CLAIMS);
  g_clear_pointer (&bench->list, wb_due_list_unref);
}

/* The peer: as many rows of as many texts, read by SQLite alone in the order of a date. */
static sqlite3 *
make_plain_table (const char *path)
{
  sqlite3 *db = NULL;
  sqlite3_stmt *insert = NULL;

  g_assert_cmpint (sqlite3_open (path, &db), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_exec (db, "CREATE TABLE t (a,b,c,d,e,f,g,day INTEGER); BEGIN", NULL,
                                 NULL, NULL), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_prepare_v2 (db, "INSERT INTO t VALUES (?1,?1,?1,?1,?1,?1,?1,?2)", -1,
                                       &insert, NULL), ==, SQLITE_OK);
  for (int i = 0; i < N_CLAIMS; i++)
    {
      g_autofree char *text = g_strdup_printf ("claim %d", i);

      sqlite3_bind_text (insert, 1, text, -1, SQLITE_TRANSIENT);
      sqlite3_bind_int (insert, 2, i * 7919 % 200);
      g_assert_cmpint (sqlite3_step (insert), ==, SQLITE_DONE);
      sqlite3_reset (insert);
    }
  sqlite3_finalize (insert);
  g_assert_cmpint (sqlite3_exec (db, "COMMIT", NULL, NULL, NULL), ==, SQLITE_OK);
  return db;
}

static void
read_plain_table (gpointer data)
{
  Bench *bench = data;
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  sqlite3_stmt *select = NULL;

  g_assert_cmpint (sqlite3_prepare_v2 (bench->plain, "SELECT * FROM t ORDER BY day", -1, &select,
                                       NULL), ==, SQLITE_OK);
  while (sqlite3_step (select) == SQLITE_ROW)
    for (int column = 0; column < N_COLUMNS; column++)
      g_ptr_array_add (texts, g_strdup ((const char *) sqlite3_column_text (select, column)));
  sqlite3_finalize (select);
  g_assert_cmpuint (texts->len, ==, N_CLAIMS * N_COLUMNS);
}

int
main (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = wb_bench_make_folder ();
  g_autofree char *path = g_build_filename (folder, "bench.wainbook", NULL);
  g_autofree char *plain = g_build_filename (folder, "plain.db", NULL);
  Bench bench = { NULL };

  wb_bench_make_claims (path);
  bench.office = wb_office_open (path, WB_BOOK_OPEN, NULL, &error);
  g_assert_no_error (error);
  bench.plain = make_plain_table (plain);
  g_date_set_dmy (&bench.today, 1, G_DATE_SEPTEMBER, 2026);

  wb_bench_report ("what is due on 50,000 open claims",
                   wb_bench_median (N_ROUNDS, list_blocking, &bench),
                   "SQLite alone reading and copying 50,000 rows of 8 texts by date",
                   wb_bench_median (N_ROUNDS, read_plain_table, &bench), "under 200 ms");
  wb_bench_watch_stalls ();
  wb_bench_median (N_ROUNDS, list_in_loop, &bench);
  wb_bench_report_stall ("the main loop meanwhile", bench.longest_stall);

  sqlite3_close (bench.plain);
  wb_office_close (bench.office);
  g_object_unref (bench.office);
  return 0;
}
