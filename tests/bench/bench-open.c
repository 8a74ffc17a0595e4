/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long a job of 5,000 pieces takes to open from the office book, and whether a main loop is
 * held up while that happens. */
#include "config.h"

#include "bench/wb-bench.h"
#include "office/wb-office.h"

#include <sqlite3.h>

#define N_PIECES 5000
#define N_COLUMNS 18
#define N_ROUNDS 15

typedef struct
{
  WbOffice    *office;
  char        *id;
  WbJob       *job;
  WbBenchTime  longest_stall;
} Opening;

static void
open_blocking (gpointer data)
{
  Opening *opening = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_office_load_job (opening->office, opening->id, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (wb_job_count (job, WB_KIND_PIECE), ==, N_PIECES);
}

static void
on_loaded (GObject      *source,
           GAsyncResult *result,
           gpointer      data)
{
  Opening *opening = data;
  g_autoptr (GError) error = NULL;

  opening->job = wb_office_load_job_finish (WB_OFFICE (source), result, &error);
  g_assert_no_error (error);
}

static void
open_in_loop (gpointer data)
{
  Opening *opening = data;
  WbBenchTime stall;

  wb_bench_take_stall ();
  wb_office_load_job_async (opening->office, opening->id, NULL, on_loaded, opening);
  while (opening->job == NULL)
    g_main_context_iteration (NULL, TRUE);
  /* The last thing that was dispatched counts when the loop comes round. */
  g_main_context_iteration (NULL, FALSE);
  stall = wb_bench_take_stall ();
  opening->longest_stall.clock = MAX (opening->longest_stall.clock, stall.clock);
  opening->longest_stall.work = MAX (opening->longest_stall.work, stall.work);

  g_assert_cmpuint (wb_job_count (opening->job, WB_KIND_PIECE), ==, N_PIECES);
  g_clear_pointer (&opening->job, wb_job_unref);
}

/* The peer: as many rows of as many texts, read by SQLite alone and copied. */
static sqlite3 *
make_plain_table (const char *path)
{
  sqlite3 *db = NULL;
  sqlite3_stmt *insert = NULL;

  g_assert_cmpint (sqlite3_open (path, &db), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_exec (db, "CREATE TABLE t (a,b,c,d,e,f,g,h,i,j,k,l,m,n,o,p,q,r); BEGIN",
                                 NULL, NULL, NULL), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_prepare_v2 (db, "INSERT INTO t VALUES"
                                       "(?1,?1,?1,?1,?1,?1,?1,?1,?1,?1,?1,?1,?1,?1,?1,?1,?1,?1)",
                                       -1, &insert, NULL), ==, SQLITE_OK);
  for (guint i = 0; i < N_PIECES; i++)
    {
      g_autofree char *text = g_strdup_printf ("piece %u", i);

      sqlite3_bind_text (insert, 1, text, -1, SQLITE_TRANSIENT);
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
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  sqlite3_stmt *select = NULL;

  g_assert_cmpint (sqlite3_prepare_v2 (data, "SELECT * FROM t", -1, &select, NULL), ==, SQLITE_OK);
  while (sqlite3_step (select) == SQLITE_ROW)
    {
      for (int column = 0; column < N_COLUMNS; column++)
        g_ptr_array_add (texts, g_strdup ((const char *) sqlite3_column_text (select, column)));
    }
  sqlite3_finalize (select);
  g_assert_cmpuint (texts->len, ==, N_PIECES * N_COLUMNS);
}

int
main (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = wb_bench_make_folder ();
  g_autofree char *book = NULL;
  g_autofree char *plain = NULL;
  g_autoptr (WbJob) job = wb_bench_make_job (N_PIECES, 0);
  g_autoptr (WbJob) saved = NULL;
  Opening opening = { 0 };
  sqlite3 *db;
  WbBenchTime peer;

  book = g_build_filename (folder, "bench.wainbook", NULL);
  plain = g_build_filename (folder, "plain.db", NULL);
  opening.office = wb_office_open (book, WB_BOOK_CREATE, NULL, &error);
  g_assert_no_error (error);
  saved = wb_office_save_job (opening.office, NULL, job, "made", NULL, &error);
  g_assert_no_error (error);
  opening.id = g_strdup (wb_job_get_id (saved));

  db = make_plain_table (plain);
  peer = wb_bench_median (N_ROUNDS, read_plain_table, db);
  sqlite3_close (db);

  wb_bench_report ("opening a job of 5,000 pieces from the book",
                   wb_bench_median (N_ROUNDS, open_blocking, &opening),
                   "SQLite alone reading and copying 5,000 rows of 18 texts", peer,
                   "under 150 ms");

  wb_bench_watch_stalls ();
  wb_bench_median (N_ROUNDS, open_in_loop, &opening);
  wb_bench_report_stall ("the main loop meanwhile", opening.longest_stall);

  wb_office_close (opening.office);
  g_object_unref (opening.office);
  g_free (opening.id);

  return 0;
}
