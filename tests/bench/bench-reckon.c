/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long a claim of 1,000 lines takes to reckon under both choices, every reason made. */
#include "config.h"

#include "bench/wb-bench.h"
#include "core/wb-reckoning.h"
#include "office/wb-data-dir.h"

#define N_LINES 1000

typedef struct
{
  WbTerms *terms;
  WbJob   *job;
} Input;

static void
reckon (gpointer data)
{
  const Input *input = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbReckoning) reckoning = wb_reckon (input->terms, input->job, "claim-1", &error);

  if (reckoning == NULL)
    g_error ("%s", error->message);
  g_assert_cmpuint (reckoning->n_lines, ==, N_LINES);
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
  guint numbers[N_LINES];
  gsize length = 0;

  for (guint i = 0; i < N_LINES; i++)
    numbers[i] = i * 7919 % N_LINES;
  qsort (numbers, N_LINES, sizeof *numbers, compare_numbers);
  for (guint i = 0; i < N_LINES; i++)
    {
      g_autofree char *line = g_strdup_printf ("%u  %u.%02u USD", numbers[i], i * 13, i % 100);

      length += strlen (line);
    }
  g_assert_cmpuint (length, >, N_LINES);
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
  wb_terms_set_add (set, editions, FALSE, &error);
  g_assert_no_error (error);
  terms = wb_terms_set_find (set, wb_job_order (job), &error);
  g_assert_no_error (error);

  return wb_terms_ref (terms);
}

int
main (void)
{
  g_autoptr (WbJob) job = wb_bench_make_job (N_LINES, N_LINES);
  g_autoptr (WbTerms) terms = find_terms (job);
  Input input = { terms, job };

  wb_bench_report ("reckoning 1,000 claim lines under both choices",
                   wb_bench_median (101, reckon, &input),
                   "sorting 1,000 numbers and writing a line for each",
                   wb_bench_median (101, sort_and_write, NULL),
                   "under 2 ms");
  return 0;
}
