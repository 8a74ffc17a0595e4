/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 10,000 random claims reckoned twice: here, and by reckon.awk, a small program that was written
 * from data/terms/FORMAT.md and shares nothing with this one. Both have to come to the same figures
 * to the last coin, and every rule has to be met by some claim. The seed is printed; run again with
 * --seed to see a failure again. */
#include "config.h"

#include <glib/gstdio.h>
#include <string.h>

#include "support/wb-random-claim.h"

#define N_CLAIMS 10000
#define CLAIMS_A_TERMS 20

/* --- what the other program is given ---------------------------------------------------------- */

static void
write_record (GString        *out,
              const WbRecord *record)
{
  g_string_append_printf (out, "record %s %s\n", record->type->name, record->id);
  for (gsize i = 0; i < record->type->n_fields; i++)
    {
      const WbField *field = &record->type->fields[i];
      g_autofree char *text = wb_record_get_text (record, field);

      if (*text != '\0')
        g_string_append_printf (out, "%s %s\n", field->name, text);
    }
}

static void
write_case (GString    *out,
            guint       number,
            const char *terms,
            WbJob      *job)
{
  g_string_append_printf (out, "case %u\nterms\n%srecords\n", number, terms);
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    for (guint i = 0; i < wb_job_count (job, (WbKind) kind); i++)
      write_record (out, wb_job_nth (job, (WbKind) kind, i));
  g_string_append (out, "end\n");
}

/* --- what it should answer -------------------------------------------------------------------- */

static void
write_limit (GString  *out,
             gboolean  has_limit,
             gint64    limit)
{
  if (has_limit)
    g_string_append_printf (out, " %" G_GINT64_FORMAT, limit);
  else
    g_string_append (out, " -");
}

static void
write_amounts (GString      *out,
               const gint64 *amounts,
               gsize         n)
{
  for (gsize i = 0; i < n; i++)
    g_string_append_printf (out, " %" G_GINT64_FORMAT, amounts[i]);
}

#define WRITE_AMOUNTS(out, ...) \
  write_amounts (out, (const gint64[]) { __VA_ARGS__ }, \
                 sizeof ((const gint64[]) { __VA_ARGS__ }) / sizeof (gint64))

static void
write_side (GString           *out,
            const WbReckoning *reckoning,
            WbSide             side)
{
  const WbSideReckoning *totals = &reckoning->side[side];
  const char *nick = wb_enum_nick (&wb_sides, (int) side);

  if (!totals->offered)
    return;
  for (guint i = 0; i < reckoning->n_lines; i++)
    {
      const WbLineFigures *figures = &reckoning->lines[i].side[side];

      g_string_append_printf (out, "line %s %" G_GINT64_FORMAT, nick,
                              reckoning->lines[i].line->number);
      WRITE_AMOUNTS (out, figures->loss, figures->allowed, figures->covered, figures->deducted,
                     figures->owed, figures->complete);
      g_string_append_c (out, '\n');
    }
  g_string_append_printf (out, "side %s", nick);
  write_limit (out, totals->has_limit, totals->shipment_limit);
  write_limit (out, totals->has_limit, totals->limit_left);
  WRITE_AMOUNTS (out, totals->deductible, totals->loss, totals->allowed, totals->covered,
                 totals->deducted, totals->owed, totals->freight_refund, totals->paid,
                 totals->balance, totals->complete);
  g_string_append_c (out, '\n');
}

/* How often each rule was applied here. */
typedef guint Counts[WB_RULE_PAID + 1];

static void
count_reasons (const WbReckoning *reckoning,
               Counts             counts)
{
  const WbReason *reason;
  WbReasonIter iter;

  wb_reason_iter_init (&iter, reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    counts[reason->rule]++;
}

static void
write_answer (GString *out,
              guint    number,
              WbTerms *terms,
              WbJob   *job,
              Counts   counts)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbReckoning) reckoning = wb_reckon (terms, job, "claim", &error);

  g_assert_no_error (error);
  count_reasons (reckoning, counts);
  g_string_append_printf (out, "case %u %s %s\n", number,
                          wb_enum_nick (&wb_sides, (int) reckoning->applies),
                          wb_enum_nick (&wb_late_states, (int) reckoning->late));
  for (int side = 0; side < WB_N_SIDES; side++)
    write_side (out, reckoning, (WbSide) side);
}

/* --- comparing -------------------------------------------------------------------------------- */

/* Returns: (transfer full): what the other program makes of @cases. */
static char *
ask_other (const char *cases)
{
  g_autofree char *path = g_build_filename (g_get_tmp_dir (), "wainbook-cases-XXXXXX", NULL);
  g_autofree char *program = g_test_build_filename (G_TEST_DIST, "independent", "reckon.awk", NULL);
  const char *argv[] = { "gawk", "-M", "-f", program, path, NULL };
  g_autoptr (GError) error = NULL;
  char *answer = NULL;
  gint status;
  gint file = g_mkstemp (path);

  g_assert_cmpint (file, >=, 0);
  g_close (file, NULL);
  g_file_set_contents (path, cases, -1, &error);
  g_assert_no_error (error);
  g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &answer, NULL, &status,
                &error);
  g_assert_no_error (error);
  g_spawn_check_wait_status (status, &error);
  g_assert_no_error (error);
  g_remove (path);
  return answer;
}

/* Both answers line by line; on a difference the case is printed whole. */
static void
compare (const char *cases,
         const char *ours,
         const char *theirs)
{
  g_auto (GStrv) our_lines = g_strsplit (ours, "\n", -1);
  g_auto (GStrv) their_lines = g_strsplit (theirs, "\n", -1);
  const char *heading = "";
  guint i = 0;

  while (our_lines[i] != NULL && g_strcmp0 (our_lines[i], their_lines[i]) == 0)
    {
      if (g_str_has_prefix (our_lines[i], "case "))
        heading = our_lines[i];
      i++;
    }
  if (our_lines[i] != NULL || their_lines[i] != NULL)
    {
      guint64 number = g_ascii_strtoull (heading + strlen ("case "), NULL, 10);
      g_autofree char *start = g_strdup_printf ("case %" G_GUINT64_FORMAT "\n", number);
      const char *from = strstr (cases, start);
      const char *to = strstr (from, "end\n");

      g_test_message ("%.*s", (int) (to - from), from);
      g_test_message ("after “%s”: “%s” here, “%s” there", heading, our_lines[i], their_lines[i]);
      g_test_fail ();
    }
}

/* --- what was tried --------------------------------------------------------------------------- */

/* A rule that no claim met was not compared. */
static void
check_met (const char *program,
           const char *rule,
           guint64     count)
{
  g_test_message ("%s %s: %" G_GUINT64_FORMAT, program, rule, count);
  if (count == 0)
    g_test_fail_printf ("%s never met the rule “%s”", program, rule);
}

/* @rules: "NAME COUNT", as the other program counted them */
static void
check_their_rules (char **rules)
{
  g_assert_nonnull (rules[0]);
  for (guint i = 0; rules[i] != NULL; i++)
    {
      g_auto (GStrv) words = g_strsplit (rules[i], " ", 2);

      g_assert_cmpuint (g_strv_length (words), ==, 2);
      check_met ("reckon.awk", words[0], g_ascii_strtoull (words[1], NULL, 10));
    }
}

static void
check_our_rules (const Counts counts)
{
  for (int rule = 0; rule <= WB_RULE_PAID; rule++)
    check_met ("the reckoning", wb_enum_nick (&wb_rules, rule), counts[rule]);
}

static void
test_independent (gconstpointer data)
{
  const char *currency = data;
  /* GLib begins each test with the same random values; no claim of one currency is one of
   * another. */
  guint32 seed = (guint32) g_test_rand_int () ^ g_str_hash (currency);
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (GString) cases = g_string_new (NULL);
  g_autoptr (GString) ours = g_string_new (NULL);
  g_autofree char *theirs = NULL;
  g_auto (GStrv) parts = NULL;
  g_autofree char *text = NULL;
  g_autoptr (WbTerms) terms = NULL;
  Counts counts = { 0 };

  g_test_message ("%d random claims in %s from seed %u", N_CLAIMS / 2, currency, seed);
  for (guint i = 0; i < N_CLAIMS / 2; i++)
    {
      g_autoptr (WbJob) job = NULL;
      g_autoptr (GError) error = NULL;

      if (i % CLAIMS_A_TERMS == 0)
        {
          g_free (text);
          g_clear_pointer (&terms, wb_terms_unref);
          text = wb_random_terms_text (rand, currency);
          terms = wb_random_terms_read (text);
        }
      job = wb_random_job (rand, currency, (guint) g_rand_int_range (rand, 0, 12));
      wb_job_check (job, &error);
      g_assert_no_error (error);
      write_case (cases, i, text, job);
      write_answer (ours, i, terms, job, counts);
    }
  theirs = ask_other (cases->str);
  parts = g_strsplit (theirs, "met ", -1);
  check_their_rules (parts + 1);
  check_our_rules (counts);
  compare (cases->str, ours->str, parts[0]);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/independent/USD", "USD", test_independent);
  g_test_add_data_func ("/independent/JPY", "JPY", test_independent);
  return g_test_run ();
}
