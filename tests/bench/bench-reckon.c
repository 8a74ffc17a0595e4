/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long claims take to reckon under both choices, every reason made: one of 1,000 and of 10,000
 * lines, 100,000 claims of eight lines one after another, and how the time grows with the lines of
 * one claim, up to the most tags that a lot has. Peers are measured in the same run. */
#include "config.h"

#include <sqlite3.h>

#include "bench/wb-bench.h"
#include "core/wb-reckoning.h"
#include "office/wb-data-dir.h"

/* Lines that are put in order and written down by the peer. */
#define MOST_LINES 100000

#define N_CLAIMS 100000
#define N_JOBS 100
#define LINES_A_CLAIM 8

typedef struct
{
  WbTerms *terms;
  WbJob   *job;
  guint    n_lines;
} Input;

static void
reckon (gpointer data)
{
  const Input *input = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbReckoning) reckoning = wb_reckon (input->terms, input->job, "claim-1", &error);

  if (reckoning == NULL)
    g_error ("%s", error->message);
  g_assert_cmpuint (reckoning->n_lines, ==, input->n_lines);
  g_assert_cmpint (reckoning->side[WB_SIDE_FULL].owed, >, 0);
}

static int
compare_numbers (gconstpointer a,
                 gconstpointer b)
{
  const guint *first = a;
  const guint *second = b;

  return (*first > *second) - (*first < *second);
}

/* The least that any program does with a list: put it in order and write each line down. */
static void
sort_and_write (gpointer data)
{
  static guint numbers[MOST_LINES];
  const Input *input = data;
  gsize length = 0;

  for (guint i = 0; i < input->n_lines; i++)
    numbers[i] = i * 7919 % input->n_lines;
  qsort (numbers, input->n_lines, sizeof *numbers, compare_numbers);
  for (guint i = 0; i < input->n_lines; i++)
    {
      g_autofree char *line = g_strdup_printf ("%u  %u.%02u USD", numbers[i], i * 13, i % 100);

      length += strlen (line);
    }
  g_assert_cmpuint (length, >, input->n_lines);
}

static WbTerms *
find_terms (WbJob *job)
{
  g_autofree char *path = wb_data_dir_build_path ("terms", "us-interstate.terms", NULL);
  g_autofree char *text = NULL;
  g_autoptr (GPtrArray) editions = NULL;
  g_autoptr (WbTermsSet) set = wb_terms_set_new ();
  g_autoptr (GError) error = NULL;
  WbTerms *terms;
  gsize length;

  g_file_get_contents (path, &text, &length, &error);
  g_assert_no_error (error);
  editions = wb_terms_parse (text, length, path, &error);
  g_assert_no_error (error);
  if (!wb_terms_set_add (set, editions, FALSE, &error))
    g_error ("%s", error->message);
  terms = wb_terms_set_find (set, wb_job_order (job), &error);
  g_assert_no_error (error);

  return wb_terms_ref (terms);
}

static void
measure (guint       n_lines,
         guint       rounds,
         const char *what,
         const char *peer,
         const char *aim)
{
  g_autoptr (WbJob) job = wb_bench_make_job (n_lines, n_lines);
  g_autoptr (WbTerms) terms = find_terms (job);
  Input input = { terms, job, n_lines };

  wb_bench_report (what, wb_bench_median (rounds, reckon, &input),
                   peer, wb_bench_median (rounds, sort_and_write, &input), aim);
}

/* --- many claims ------------------------------------------------------------------------------ */

typedef struct
{
  WbTerms *terms;
  WbJob   *jobs[N_JOBS];     /* of which no two are alike */
  sqlite3 *plain;
} Office;

static void
reckon_all (gpointer data)
{
  Office *office = data;

  for (guint i = 0; i < N_CLAIMS; i++)
    {
      Input input = { office->terms, office->jobs[i % N_JOBS], LINES_A_CLAIM };

      reckon (&input);
    }
}

/* As many rows of what is claimed. */
static sqlite3 *
make_plain_table (void)
{
  sqlite3 *db = NULL;
  sqlite3_stmt *insert = NULL;

  g_assert_cmpint (sqlite3_open (":memory:", &db), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_exec (db, "CREATE TABLE line (claim INTEGER, replacement INTEGER,"
                                 " repair INTEGER, demanded INTEGER); BEGIN", NULL, NULL, NULL),
                   ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_prepare_v2 (db, "INSERT INTO line VALUES (?1, ?2, ?3, ?2)", -1, &insert,
                                       NULL), ==, SQLITE_OK);
  for (int i = 0; i < N_CLAIMS * LINES_A_CLAIM; i++)
    {
      sqlite3_bind_int (insert, 1, i / LINES_A_CLAIM);
      sqlite3_bind_int (insert, 2, 2050 + i * 13 % 70000);
      sqlite3_bind_int (insert, 3, 1025 + i * 11 % 30000);
      g_assert_cmpint (sqlite3_step (insert), ==, SQLITE_DONE);
      sqlite3_reset (insert);
    }
  sqlite3_finalize (insert);
  g_assert_cmpint (sqlite3_exec (db, "COMMIT", NULL, NULL, NULL), ==, SQLITE_OK);
  return db;
}

/* The peer only takes the least of three figures a line and adds them up: no limit, no reason. */
static void
add_up (gpointer data)
{
  Office *office = data;
  sqlite3_stmt *select = NULL;
  guint n = 0;

  g_assert_cmpint (sqlite3_prepare_v2 (office->plain,
                                       "SELECT claim, sum (min (replacement, repair, demanded))"
                                       " FROM line GROUP BY claim", -1, &select, NULL),
                   ==, SQLITE_OK);
  while (sqlite3_step (select) == SQLITE_ROW)
    n += sqlite3_column_int64 (select, 1) > 0;
  sqlite3_finalize (select);
  g_assert_cmpuint (n, ==, N_CLAIMS);
}

static void
measure_many_claims (void)
{
  Office office = { NULL };
  WbBenchTime own;

  for (guint i = 0; i < N_JOBS; i++)
    office.jobs[i] = wb_bench_make_job (LINES_A_CLAIM + i, LINES_A_CLAIM);
  office.terms = find_terms (office.jobs[0]);
  office.plain = make_plain_table ();

  own = wb_bench_median (3, reckon_all, &office);
  wb_bench_report ("reckoning 100,000 claims of 8 lines in one process", own,
                   "SQLite adding up the least of 3 figures of 800,000 rows by claim",
                   wb_bench_median (3, add_up, &office), "under 10 s");
  g_print ("that is %.0f lines a second by the clock, %.0f at work\n",
           N_CLAIMS * LINES_A_CLAIM * 1e6 / (double) own.clock,
           N_CLAIMS * LINES_A_CLAIM * 1e6 / (double) own.work);

  sqlite3_close (office.plain);
  wb_terms_unref (office.terms);
  for (guint i = 0; i < N_JOBS; i++)
    wb_job_unref (office.jobs[i]);
}

/* --- growth ----------------------------------------------------------------------------------- */

/* So many calls that even a short one fills the clock. */
typedef struct
{
  Input       input;
  WbBenchDeed deed;
  guint       times;
} Repeated;

static void
repeat (gpointer data)
{
  Repeated *self = data;

  for (guint i = 0; i < self->times; i++)
    self->deed (&self->input);
}

/* Returns: nanoseconds a line */
static double
time_a_line (Input       input,
             WbBenchDeed deed)
{
  Repeated repeated = { input, deed, MAX (1, 20000 / input.n_lines) };
  WbBenchTime taken = wb_bench_median (5, repeat, &repeated);

  return (double) taken.work * 1000 / repeated.times / input.n_lines;
}

/* A line of a long claim should cost what a line of a short one does. */
static void
measure_growth (void)
{
  static const guint sizes[] = { 10, 100, 1000, 10000, 99999 };
  double first = 0, first_peer = 0;

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autoptr (WbJob) job = wb_bench_make_job (sizes[i], sizes[i]);
      g_autoptr (WbTerms) terms = find_terms (job);
      Input input = { terms, job, sizes[i] };
      double own = time_a_line (input, reckon);
      double peer = time_a_line (input, sort_and_write);

      if (i == 1)
        {
          first = own;
          first_peer = peer;
        }
      g_print ("a line of a claim of %u: %.0f ns; peer, sorting and writing a line: %.0f ns; "
               "ratio %.2f", sizes[i], own, peer, own / peer);
      if (i > 1)
        g_print ("; a line of 100 times %.2f, of the peer %.2f (aim: under 1.5)",
                 own / first, peer / first_peer);
      g_print ("\n");
    }
}

int
main (void)
{
  measure (1000, 201, "reckoning 1,000 claim lines under both choices",
           "sorting 1,000 numbers and writing a line for each", "under 1 ms");
  measure (10000, 51, "reckoning 10,000 claim lines under both choices",
           "sorting 10,000 numbers and writing a line for each", "under 10 ms");
  measure_many_claims ();
  measure_growth ();
  return 0;
}
