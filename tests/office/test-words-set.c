/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences on what a claimed piece belongs to, and on quotes. */
#include "config.h"

#include "job-fixture.h"
#include "office/wb-words-quote.h"
#include "office/wb-words-set.h"

static WbJob *
make_job (void)
{
  WbJob *job = job_fixture_new ();

  job_fixture_put (&job, WB_KIND_LOT, "lot", "colour", "blue", "number", "204", "first", "1",
                   "last", "40", NULL);
  job_fixture_put (&job, WB_KIND_PIECE, "sofa", "lot", "lot", "tag", "1", "form", "loose",
                   "description", "Sofa", "set", "suite", NULL);
  job_fixture_put (&job, WB_KIND_PIECE, "chair", "lot", "lot", "tag", "2", "form", "loose",
                   "description", "Chair", "set", "suite", NULL);
  job_fixture_put (&job, WB_KIND_PIECE, "rail", "lot", "lot", "tag", "3", "form", "loose",
                   "description", "Rail", "article", "bed", NULL);
  job_fixture_put (&job, WB_KIND_PIECE, "slats", "lot", "lot", "tag", "4", "form", "loose",
                   "description", "Slats", "article", "bed", NULL);
  job_fixture_put (&job, WB_KIND_PIECE, "carton", "lot", "lot", "tag", "5", "form", "carton",
                   "contents", "china", NULL);
  job_fixture_put (&job, WB_KIND_CLAIM, "c", "number", "C-1", NULL);
  job_fixture_put (&job, WB_KIND_CLAIM_LINE, "l1", "claim", "c", "number", "1", "piece", "sofa",
                   "repair", "90", NULL);
  job_fixture_put (&job, WB_KIND_CLAIM_LINE, "l2", "claim", "c", "number", "2", "piece", "rail",
                   NULL);
  job_fixture_put (&job, WB_KIND_CLAIM_LINE, "l3", "claim", "c", "number", "3", "piece", "carton",
                   NULL);
  job_fixture_put (&job, WB_KIND_CLAIM_LINE, "l4", "claim", "c", "number", "4", "piece", "carton",
                   NULL);
  return job;
}

static const WbClaimLine *
get_line (const WbJob *job,
          const char  *id)
{
  return wb_job_find (job, WB_KIND_CLAIM_LINE, id);
}

static void
test_set (void)
{
  g_autoptr (WbJob) job = make_job ();
  g_autofree char *open = wb_words_set (job, get_line (job, "l1"));
  g_autofree char *claimed = NULL;

  g_assert_cmpstr (open, ==, "Of the set “suite”, with: Chair (blue 204-002), not claimed.");
  job_fixture_put (&job, WB_KIND_CLAIM_LINE, "l5", "claim", "c", "number", "5", "piece", "chair",
                   NULL);
  claimed = wb_words_set (job, get_line (job, "l1"));
  g_assert_cmpstr (claimed, ==, "Of the set “suite”, with: Chair (blue 204-002), line 5.");
  g_assert_null (wb_words_set (job, get_line (job, "l2")));
}

static void
test_article (void)
{
  g_autoptr (WbJob) job = make_job ();
  WbTerms terms = { .parts = WB_PARTS_ONE_ARTICLE, .carton = WB_CARTON_EACH_THING };
  g_autofree char *parts = wb_words_parts (&terms, job, get_line (job, "l2"));
  g_autofree char *plain = wb_words_parts (NULL, job, get_line (job, "l2"));
  g_autofree char *carton = wb_words_carton (&terms, job, get_line (job, "l3"));
  g_autofree char *sharers = wb_words_sharers (job, get_line (job, "l3"));

  g_assert_cmpstr (plain, ==, "A part of “bed”, with: Slats (blue 204-004).");
  g_assert_cmpstr (parts, ==, "A part of “bed”, with: Slats (blue 204-004). By the terms they are "
                              "one article, with one limit by the weight of all parts.");
  g_assert_cmpstr (carton, ==, "Out of a carton with: china. By the terms each thing in it has its "
                               "own limit by its own weight.");
  g_assert_cmpstr (sharers, ==, "Other lines on the same article: 4.");
  g_assert_null (wb_words_parts (&terms, job, get_line (job, "l1")));
  g_assert_null (wb_words_carton (&terms, job, get_line (job, "l1")));
  g_assert_null (wb_words_sharers (job, get_line (job, "l1")));
}

static void
test_things (void)
{
  g_autoptr (WbJob) job = make_job ();
  g_autofree char *carton = NULL;

  job_fixture_put (&job, WB_KIND_THING, "t1", "piece", "carton", "description", "dinner plates",
                   "quantity", "12", NULL);
  job_fixture_put (&job, WB_KIND_THING, "t2", "piece", "carton", "description", "teapot", NULL);
  carton = wb_words_carton (NULL, job, get_line (job, "l3"));
  g_assert_cmpstr (carton, ==, "Out of a carton with: 12 × dinner plates; teapot.");
}

static void
test_quote (void)
{
  g_autoptr (WbJob) job = make_job ();
  const WbQuote *quote;
  g_autofree char *words = NULL;
  g_autofree char *state = NULL;

  job_fixture_put (&job, WB_KIND_QUOTE, "q", "claim_line", "l1", "kind", "repair", "amount", "90",
                   "source", "Hollin Joinery", "on", "2026-06-03", NULL);
  quote = wb_job_find (job, WB_KIND_QUOTE, "q");
  words = wb_words_quote (quote);
  g_assert_cmpstr (words, ==, "Repair, $90.00, Hollin Joinery, 3 Jun 2026");
  g_assert_null (wb_words_quote_state (job, quote));
  job_fixture_put (&job, WB_KIND_QUOTE, "q", "taken", "yes", NULL);
  state = wb_words_quote_state (job, wb_job_find (job, WB_KIND_QUOTE, "q"));
  g_assert_cmpstr (state, ==, "Taken");
  g_assert_null (wb_words_quotes_differ (job, "l1"));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/office/words-set/set", test_set);
  g_test_add_func ("/office/words-set/article", test_article);
  g_test_add_func ("/office/words-set/things", test_things);
  g_test_add_func ("/office/words-set/quote", test_quote);

  return g_test_run ();
}
