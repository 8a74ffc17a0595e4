/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What belongs together with a claim line: sofa, loveseat and chair as in GAO B-266119 (seen: the
 * sound pieces of the set were paid for too), and an article in parts. */
#include "config.h"

#include "core/wb-claim-set.h"
#include "core/wb-core.h"
#include "job-fixture.h"

static guint n_ids;

static char *
next_id (void)
{
  return g_strdup_printf ("new%u", n_ids++);
}

static WbJob *
make_job (void)
{
  WbJob *job = job_fixture_new ();

  job_fixture_put (&job, WB_KIND_PIECE, "sofa", "description", "Sofa", "set", "green suite", NULL);
  job_fixture_put (&job, WB_KIND_PIECE, "loveseat", "description", "Loveseat", "set", "green suite",
                   NULL);
  job_fixture_put (&job, WB_KIND_PIECE, "chair", "description", "Armchair", "set", "green suite",
                   NULL);
  job_fixture_put (&job, WB_KIND_PIECE, "rail", "description", "Rail, part 1 of 2", "article",
                   "bed", NULL);
  job_fixture_put (&job, WB_KIND_PIECE, "slats", "description", "Slats, part 2 of 2", "article",
                   "bed", NULL);
  job_fixture_put (&job, WB_KIND_CLAIM, "c", "number", "C-1", NULL);
  job_fixture_put (&job, WB_KIND_CLAIM_LINE, "l1", "claim", "c", "number", "4", "piece", "sofa",
                   "cause", "water", NULL);
  job_fixture_put (&job, WB_KIND_CLAIM_LINE, "l2", "claim", "c", "number", "7", "piece", "chair",
                   NULL);
  job_fixture_put (&job, WB_KIND_CLAIM_LINE, "l3", "claim", "c", "number", "8", "piece", "rail",
                   NULL);
  job_fixture_put (&job, WB_KIND_CLAIM_LINE, "l4", "claim", "c", "number", "9", "piece", "slats",
                   NULL);
  job_fixture_put (&job, WB_KIND_CLAIM_LINE, "l5", "claim", "c", "number", "10", "item",
                   "Not on the list", NULL);
  return job;
}

static const WbClaimLine *
get_line (const WbJob *job,
          const char  *id)
{
  return wb_job_find (job, WB_KIND_CLAIM_LINE, id);
}

static void
test_mates (void)
{
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (GArray) mates = wb_claim_set_mates (job, get_line (job, "l1"));
  g_autoptr (GArray) none = wb_claim_set_mates (job, get_line (job, "l3"));
  g_autoptr (GArray) nothing = wb_claim_set_mates (job, get_line (job, "l5"));

  g_assert_cmpuint (mates->len, ==, 2);
  g_assert_cmpstr (g_array_index (mates, WbMate, 0).piece->record.id, ==, "loveseat");
  g_assert_null (g_array_index (mates, WbMate, 0).line);
  g_assert_true (g_array_index (mates, WbMate, 1).line == get_line (job, "l2"));
  g_assert_cmpuint (none->len, ==, 0);
  g_assert_cmpuint (nothing->len, ==, 0);
}

static void
test_add (void)
{
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) added = NULL;
  const WbClaimLine *mate;

  n_ids = 0;
  added = wb_claim_set_add_mates (job, get_line (job, "l1"), next_id, &error);
  g_assert_no_error (error);
  g_assert_true (wb_job_check (added, &error));
  g_assert_cmpuint (wb_job_count (added, WB_KIND_CLAIM_LINE), ==, 6);
  mate = get_line (added, "new0");
  g_assert_cmpint (mate->number, ==, 11);
  g_assert_cmpstr (mate->piece, ==, "loveseat");
  g_assert_cmpstr (mate->item, ==, "Loveseat");
  g_assert_true (mate->set_mate);
  g_assert_cmpint (mate->cause, ==, WB_CAUSE_WATER);
  g_assert_false (wb_money_is_set (mate->replacement));

  /* Once is enough, and what has no set has no mates. */
  g_assert_null (wb_claim_set_add_mates (added, get_line (added, "l1"), next_id, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
  g_clear_error (&error);
  g_assert_null (wb_claim_set_add_mates (job, get_line (job, "l3"), next_id, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
}

static void
test_parts (void)
{
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (GPtrArray) parts = wb_claim_set_parts (job, get_line (job, "l3"));
  g_autoptr (GPtrArray) sharers = wb_claim_set_sharers (job, get_line (job, "l3"));
  g_autoptr (GPtrArray) alone = wb_claim_set_sharers (job, get_line (job, "l1"));

  g_assert_cmpuint (parts->len, ==, 1);
  g_assert_cmpstr (((const WbPiece *) g_ptr_array_index (parts, 0))->record.id, ==, "slats");
  g_assert_cmpuint (sharers->len, ==, 1);
  g_assert_true (g_ptr_array_index (sharers, 0) == get_line (job, "l4"));
  g_assert_cmpuint (alone->len, ==, 0);
}

/* Two things out of one carton share what the carton brings. */
static void
test_carton (void)
{
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (GPtrArray) sharers = NULL;

  job_fixture_put (&job, WB_KIND_CLAIM_LINE, "l6", "claim", "c", "number", "12", "piece", "chair",
                   NULL);
  job_fixture_put (&job, WB_KIND_CLAIM, "d", "number", "C-2", NULL);
  job_fixture_put (&job, WB_KIND_CLAIM_LINE, "k", "claim", "d", "number", "1", "piece", "chair",
                   NULL);
  sharers = wb_claim_set_sharers (job, get_line (job, "l2"));
  g_assert_cmpuint (sharers->len, ==, 1);
  g_assert_true (g_ptr_array_index (sharers, 0) == get_line (job, "l6"));
  g_assert_cmpint (wb_claim_next_number (job, "c"), ==, 13);
  g_assert_cmpint (wb_claim_next_number (job, "none"), ==, 1);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/core/claim-set/mates", test_mates);
  g_test_add_func ("/core/claim-set/add", test_add);
  g_test_add_func ("/core/claim-set/parts", test_parts);
  g_test_add_func ("/core/claim-set/carton", test_carton);

  return g_test_run ();
}
