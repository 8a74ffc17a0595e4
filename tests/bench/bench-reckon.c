/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long claims of 1,000 and of 10,000 lines take to reckon under both choices, every reason made. */
#include "config.h"

#include "bench/wb-bench.h"
#include "core/wb-reckoning.h"
#include "office/wb-data-dir.h"

/* Lines that are put in order and written down by the peer. */
#define MOST_LINES 10000

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
  const Input *input = data;
  guint numbers[MOST_LINES];
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

int
main (void)
{
  measure (1000, 201, "reckoning 1,000 claim lines under both choices",
           "sorting 1,000 numbers and writing a line for each", "under 1 ms");
  measure (MOST_LINES, 51, "reckoning 10,000 claim lines under both choices",
           "sorting 10,000 numbers and writing a line for each", "under 10 ms");
  return 0;
}
