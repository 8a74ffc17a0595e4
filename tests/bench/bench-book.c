/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long an office book of 20,000 jobs takes to open, to list and to search, and how long a
 * change to a job of 5,000 pieces takes to store. */
#include "config.h"

#include "bench/wb-bench.h"
#include "store/wb-book.h"

#include <sqlite3.h>

#define N_JOBS 20000
#define N_AT_ONCE 1000
#define N_SHOWN 200
#define N_ROUNDS 15

typedef struct
{
  char       *path;
  WbBook     *book;
  sqlite3    *plain;      /* another connection to the same file, for the peers */
  const char *query;
  WbJob      *job;        /* of 5,000 pieces, as stored */
  guint       n_saves;
} Bench;

static char *
pick (const char *const *list,
      guint              n)
{
  return g_strdup (list[n % g_strv_length ((char **) list)]);
}

static WbJob *
make_job (guint n)
{
  static const char *const first[] = { "Ada", "Boris", "Chloé", "Dmitri", "Esther", "Farid",
                                       "Greta", "Imani", "Jorge", "Kaia", "Lionel", "Nadia",
                                       "Oskar", "Priya", "Rosa", "Tomas", "Zoë", NULL };
  static const char *const last[] = { "Quillfeather", "Marsh", "Brightwater", "Okonjo",
                                      "Thistlewood", "Vanterpool", "Underhill", "Szabo",
                                      "Harrowgate", "Ostrander", "Lindqvist", "Drummond",
                                      "Fairweather", NULL };
  static const char *const cities[] = { "Dayton", "Tulsa", "Spokane", "Boise", "Reno", "Mobile",
                                        "Toledo", "Akron", "Salem", "Provo", "Laredo", NULL };
  g_autofree char *id = g_strdup_printf ("job-%u", n);
  g_autoptr (WbJob) empty = wb_job_new (id, "USD");
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  WbOrder *order = wb_record_new (WB_KIND_ORDER, "order");

  order->number = g_strdup_printf ("J-%u-%04u", 2016 + n / 2000, n % 2000 + 1);
  g_date_set_julian (&order->pickup_from, 735964 + n / 6);
  g_ptr_array_add (records, order);
  for (guint i = 0; i < 3; i++)
    {
      g_autofree char *party_id = g_strdup_printf ("party-%u", i);
      WbParty *party = wb_record_new (WB_KIND_PARTY, party_id);
      g_autofree char *given = pick (first, n * 7 + i * 3);
      g_autofree char *family = pick (last, n * 5 + n / 13 + i);

      party->role = (WbRole) (WB_ROLE_SHIPPER + i);
      party->name = g_strdup_printf ("%s %s", given, family);
      party->phone = g_strdup_printf ("(%03u) 555-%04u", 200 + n % 700, (n * 31 + i) % 10000);
      party->city = pick (cities, n + i);
      g_ptr_array_add (records, party);
    }
  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *stop_id = g_strdup_printf ("stop-%u", i);
      WbStop *stop = wb_record_new (WB_KIND_STOP, stop_id);

      stop->kind = i == 0 ? WB_STOP_PICKUP : WB_STOP_DELIVERY;
      stop->city = pick (cities, n / 3 + i);
      g_ptr_array_add (records, stop);
    }
  return wb_job_with_many (empty, records);
}

static void
fill (Bench *bench)
{
  for (guint n = 0; n < N_JOBS; n += N_AT_ONCE)
    {
      g_autoptr (GPtrArray) jobs = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_job_unref);
      g_autoptr (GError) error = NULL;

      for (guint i = 0; i < N_AT_ONCE; i++)
        g_ptr_array_add (jobs, make_job (n + i));
      wb_book_add_jobs (bench->book, jobs, "made", NULL, &error);
      g_assert_no_error (error);
    }
}

static void
open_again (gpointer data)
{
  Bench *bench = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbBook) book = wb_book_open (bench->path, WB_BOOK_OPEN, NULL, &error);

  g_assert_no_error (error);
}

static void
read_file (gpointer data)
{
  Bench *bench = data;
  g_autofree char *bytes = NULL;

  g_assert_true (g_file_get_contents (bench->path, &bytes, NULL, NULL));
}

static void
search (gpointer data)
{
  Bench *bench = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) jobs = wb_book_list_jobs (bench->book, bench->query, N_SHOWN, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (jobs->len, >, 0);
}

static void
list_all (gpointer data)
{
  Bench *bench = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) jobs = wb_book_list_jobs (bench->book, NULL, 0, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (jobs->len, >=, N_JOBS);
}

/* The peers ask the same file through SQLite alone. */
static void
ask_plain (Bench      *bench,
           const char *sql)
{
  sqlite3_stmt *statement;

  g_assert_cmpint (sqlite3_prepare_v2 (bench->plain, sql, -1, &statement, NULL), ==, SQLITE_OK);
  if (sqlite3_bind_parameter_count (statement) > 0)
    {
      g_autofree char *pattern = g_strdup_printf ("%%%s%%", bench->query);

      sqlite3_bind_text (statement, 1, pattern, -1, SQLITE_TRANSIENT);
    }
  while (sqlite3_step (statement) == SQLITE_ROW)
    for (int i = 0; i < sqlite3_column_count (statement); i++)
      g_free (g_strdup ((const char *) sqlite3_column_text (statement, i)));
  g_assert_cmpint (sqlite3_finalize (statement), ==, SQLITE_OK);
}

static void
scan (gpointer data)
{
  ask_plain (data, "SELECT job.id, number, shipper FROM job JOIN job_words ON job_words.rowid = doc"
                   " WHERE words LIKE ?1 ORDER BY listed_by DESC LIMIT 200");
}

static void
read_all (gpointer data)
{
  ask_plain (data,
             "SELECT id, number, stage, shipper, from_city, to_city, pickup, delivery FROM job");
}

static void
save_change (gpointer data)
{
  Bench *bench = data;
  g_autofree char *notes = g_strdup_printf ("change %u", ++bench->n_saves);
  WbPiece *piece = wb_record_copy (wb_job_nth (bench->job, WB_KIND_PIECE, 2500));
  g_autoptr (WbJob) changed = NULL;
  g_autoptr (GError) error = NULL;
  WbJob *stored;

  wb_set_text (&piece->notes, notes);
  changed = wb_job_with (bench->job, piece);
  wb_record_unref (piece);
  stored = wb_book_save_job (bench->book, bench->job, changed, "changed", NULL, &error);
  g_assert_no_error (error);
  wb_job_unref (bench->job);
  bench->job = stored;
}

static void
write_one_row (gpointer data)
{
  ask_plain (data,
             "INSERT INTO number_series VALUES ('bench', 1) ON CONFLICT (prefix) DO UPDATE SET"
             " last = last + 1");
}

static void
measure_searches (Bench *bench)
{
  static const char *const queries[] = { "quill", "zoe harrowgate", "J-2019-0100", "555-0310",
                                         "dayton", "a" };

  for (gsize i = 0; i < G_N_ELEMENTS (queries); i++)
    {
      g_autofree char *what = g_strdup_printf ("searching “%s” among 20,000 jobs", queries[i]);

      bench->query = queries[i];
      wb_bench_report (what, wb_bench_median (N_ROUNDS, search, bench),
                       "SQLite alone looking at each of them",
                       wb_bench_median (N_ROUNDS, scan, bench), "under 50 ms");
    }
}

int
main (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = wb_bench_make_folder ();
  g_autoptr (WbJob) large = wb_bench_make_job (5000, 0);
  g_autoptr (WbJob) renamed = wb_job_with_id (large, "large");
  Bench bench = { NULL };

  bench.path = g_build_filename (folder, "bench.wainbook", NULL);
  bench.book = wb_book_open (bench.path, WB_BOOK_CREATE, NULL, &error);
  g_assert_no_error (error);
  fill (&bench);
  bench.job = wb_book_save_job (bench.book, NULL, renamed, "made", NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (sqlite3_open (bench.path, &bench.plain), ==, SQLITE_OK);

  wb_bench_report ("opening a book of 20,000 jobs", wb_bench_median (N_ROUNDS, open_again, &bench),
                   "reading its file", wb_bench_median (N_ROUNDS, read_file, &bench),
                   "under 300 ms");
  wb_bench_report ("listing all 20,000 jobs", wb_bench_median (N_ROUNDS, list_all, &bench),
                   "SQLite alone reading 8 texts of each",
                   wb_bench_median (N_ROUNDS, read_all, &bench), "under 50 ms");
  measure_searches (&bench);
  wb_bench_report ("storing one change to a job of 5,000 pieces",
                   wb_bench_median (N_ROUNDS, save_change, &bench), "SQLite alone storing one row",
                   wb_bench_median (N_ROUNDS, write_one_row, &bench), "under 50 ms");

  g_assert_cmpint (sqlite3_close (bench.plain), ==, SQLITE_OK);
  g_object_unref (bench.book);
  wb_job_unref (bench.job);
  g_free (bench.path);
  return 0;
}
