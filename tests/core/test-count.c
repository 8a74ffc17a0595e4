/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-count.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-trail.h"
#include "random-values.h"
#include "trail-fixture.h"

static WbJob *
job_with_handovers (guint n_pieces)
{
  WbJob *job = trail_job (n_pieces, 0);

  job = trail_add_handover (job, "h1", WB_HANDOVER_PICKUP, "2026-03-01", "Shipper", "Hauler");
  job = trail_add_handover (job, "h2", WB_HANDOVER_INTO_STORAGE, "2026-03-05", "Hauler", "Store");
  return trail_add_handover (job, "h3", WB_HANDOVER_DELIVERY, "2026-04-01", "Store", "Shipper");
}

static char *
tags_of (GPtrArray *pieces)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < pieces->len; i++)
    g_string_append_printf (text, "%s%" G_GINT64_FORMAT, i > 0 ? " " : "",
                            ((const WbPiece *) g_ptr_array_index (pieces, i))->tag);
  return g_string_free (text, FALSE);
}

#define assert_tags(pieces, expected)                                                              \
  G_STMT_START { g_autofree char *tags_ = tags_of (pieces);                                        \
                 g_assert_cmpstr (tags_, ==, expected); } G_STMT_END

static const WbHandover *
get_handover (const WbJob *job,
              const char  *id)
{
  return wb_job_find (job, WB_KIND_HANDOVER, id);
}

static void
test_count_off (void)
{
  g_autoptr (WbJob) job = job_with_handovers (10);
  g_autoptr (WbTrail) trail = NULL;
  const WbHandoverFacts *facts;
  const WbTally *tally;

  g_assert_cmpint (get_handover (job, "h1")->count, ==, WB_COUNT_AS_LISTED);
  job = trail_count (g_steal_pointer (&job), "h1", "1-4, 6");
  job = trail_count (g_steal_pointer (&job), "h1", "5, 57");
  g_assert_cmpint (get_handover (job, "h1")->count, ==, WB_COUNT_UNDER_WAY);
  g_assert_cmpuint (wb_job_count (job, WB_KIND_TALLY), ==, 1);
  tally = wb_job_nth (job, WB_KIND_TALLY, 0);
  g_assert_cmpstr (tally->tags, ==, "1-6, 57");

  trail = wb_trail_new (job);
  facts = wb_trail_handover (trail, 0);
  g_assert_cmpuint (facts->n_counted, ==, 6);
  assert_tags (facts->left, "7 8 9 10");
  g_assert_cmpint (facts->n_strays, ==, 1);
  g_assert_cmpuint (facts->shortages->len, ==, 0);
}

static void
test_finish (void)
{
  g_autoptr (WbJob) job = trail_count (job_with_handovers (10), "h1", "1-7, 9, 57");
  g_autoptr (WbTrail) trail = NULL;
  const WbHandoverFacts *facts;
  const WbFinding *finding;

  job = trail_finish (g_steal_pointer (&job), "h1");
  g_assert_cmpint (get_handover (job, "h1")->count, ==, WB_COUNT_FINISHED);
  g_assert_cmpuint (wb_job_count (job, WB_KIND_FINDING), ==, 2);
  finding = wb_job_nth (job, WB_KIND_FINDING, 0);
  g_assert_cmpstr (finding->piece, ==, "t8");
  g_assert_cmpint (finding->found, ==, WB_FOUND_SHORT);

  trail = wb_trail_new (job);
  facts = wb_trail_handover (trail, 0);
  assert_tags (facts->shortages, "8 10");
  g_assert_cmpuint (facts->left->len, ==, 0);
  g_assert_cmpuint (facts->n_counted, ==, 8);
  g_assert_cmpint (facts->n_strays, ==, 1);
}

/* What was short and is counted later is said to be present, so that findings alone tell it. */
static void
test_reappeared (void)
{
  g_autoptr (WbJob) job = trail_count (job_with_handovers (5), "h1", "1-3, 5");
  g_autoptr (WbTrail) trail = NULL;
  const WbHandoverFacts *facts;
  const WbFinding *finding;

  job = trail_finish (g_steal_pointer (&job), "h1");
  job = trail_count (g_steal_pointer (&job), "h3", "2-5");
  job = trail_finish (g_steal_pointer (&job), "h3");

  trail = wb_trail_new (job);
  facts = wb_trail_handover (trail, 2);
  assert_tags (facts->reappeared, "4");
  assert_tags (facts->shortages, "1");
  g_assert_cmpuint (wb_job_count (job, WB_KIND_FINDING), ==, 3);
  finding = wb_job_nth (job, WB_KIND_FINDING, 2);
  g_assert_cmpstr (finding->piece, ==, "t4");
  g_assert_cmpint (finding->found, ==, WB_FOUND_PRESENT);
}

static void
test_reopen (void)
{
  g_autoptr (WbJob) job = trail_count (job_with_handovers (5), "h1", "1-3");
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) open = NULL;
  g_autoptr (WbCountEntry) entry = NULL;

  g_assert_null (wb_count_reopen (job, "h1", &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
  g_clear_error (&error);

  job = trail_finish (g_steal_pointer (&job), "h1");
  entry = wb_count_entry_read (job, "4", &error);
  g_assert_null (wb_count_add (job, "h1", entry, trail_new_id, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
  g_clear_error (&error);

  open = wb_count_reopen (job, "h1", &error);
  g_assert_no_error (error);
  g_assert_cmpint (get_handover (open, "h1")->count, ==, WB_COUNT_UNDER_WAY);
  g_assert_cmpuint (wb_job_count (open, WB_KIND_FINDING), ==, 0);
  open = trail_count (g_steal_pointer (&open), "h1", "4-5");
  open = trail_finish (g_steal_pointer (&open), "h1");
  g_assert_cmpuint (wb_job_count (open, WB_KIND_FINDING), ==, 0);
}

/* A shortage with a remark stays when the count is opened again, and counting the piece turns it
 * into a presence with the remark. */
static void
test_remark_stays (void)
{
  g_autoptr (WbJob) job = trail_count (job_with_handovers (3), "h1", "1-2");
  g_autoptr (WbFinding) finding = NULL;
  g_autoptr (WbJob) remarked = NULL;
  g_autoptr (WbJob) open = NULL;
  const WbFinding *after;

  job = trail_finish (g_steal_pointer (&job), "h1");
  finding = wb_record_copy (wb_job_nth (job, WB_KIND_FINDING, 0));
  wb_set_text (&finding->notes, "Driver says it is in the other van");
  remarked = wb_job_with (job, finding);

  open = wb_count_reopen (remarked, "h1", NULL);
  g_assert_cmpuint (wb_job_count (open, WB_KIND_FINDING), ==, 1);
  open = trail_count (g_steal_pointer (&open), "h1", "3");
  after = wb_job_nth (open, WB_KIND_FINDING, 0);
  g_assert_cmpint (after->found, ==, WB_FOUND_PRESENT);
  g_assert_cmpstr (after->notes, ==, "Driver says it is in the other van");
}

static void
test_one_piece (void)
{
  g_autoptr (WbJob) job = job_with_handovers (2);
  g_autoptr (WbPiece) bare = wb_record_new (WB_KIND_PIECE, "bare");
  g_autoptr (WbJob) with_bare = wb_job_with (job, bare);
  g_autoptr (WbJob) counted = NULL;
  g_autoptr (WbJob) both = NULL;
  g_autoptr (WbJob) less = NULL;
  g_autoptr (WbJob) none = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbTrail) trail = NULL;

  counted = wb_count_add_piece (with_bare, "h1", "bare", trail_new_id, &error);
  g_assert_no_error (error);
  both = wb_count_add_piece (counted, "h1", "t2", trail_new_id, &error);
  g_assert_no_error (error);
  trail = wb_trail_new (both);
  assert_tags (wb_trail_handover (trail, 0)->left, "1");

  less = wb_count_take_piece (both, "h1", "bare", &error);
  g_assert_no_error (error);
  none = wb_count_take_piece (less, "h1", "t2", &error);
  g_assert_no_error (error);
  g_assert_cmpuint (wb_job_count (none, WB_KIND_FINDING), ==, 0);
  g_assert_null (((const WbTally *) wb_job_nth (none, WB_KIND_TALLY, 0))->tags);

  g_assert_null (wb_count_add_piece (job, "h1", "nothing", trail_new_id, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
}

static void
test_give_up (void)
{
  g_autoptr (WbJob) job = job_with_handovers (3);
  g_autoptr (WbJob) before = wb_job_ref (job);
  g_autoptr (WbJob) after = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_null (wb_count_give_up (job, "h1", &error));
  g_clear_error (&error);
  g_assert_null (wb_count_finish (job, "h1", trail_new_id, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
  g_clear_error (&error);

  job = trail_count (g_steal_pointer (&job), "h1", "1-2");
  after = wb_count_give_up (job, "h1", &error);
  g_assert_no_error (error);
  g_assert_true (wb_job_equal (before, after));
}

static void
test_marks (void)
{
  g_autoptr (WbJob) job = trail_count (job_with_handovers (3), "h1", "1");
  g_autoptr (WbJob) noted = NULL;
  g_autoptr (WbJob) more = NULL;
  g_autoptr (WbJob) finished = NULL;
  g_autoptr (GError) error = NULL;
  const WbFinding *finding;

  noted = wb_count_note_marks (job, "h1", "t2", "SC 4", trail_new_id, &error);
  g_assert_no_error (error);
  more = wb_count_note_marks (noted, "h1", "t2", "SC 8, BR", trail_new_id, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (wb_job_count (more, WB_KIND_FINDING), ==, 1);
  finding = wb_job_nth (more, WB_KIND_FINDING, 0);
  g_assert_cmpstr (finding->marks, ==, "SC 4-8, BR");
  g_assert_cmpint (finding->found, ==, WB_FOUND_PRESENT);
  g_assert_cmpstr (((const WbTally *) wb_job_nth (more, WB_KIND_TALLY, 0))->tags, ==, "1-2");

  finished = trail_finish (g_steal_pointer (&more), "h1");
  g_assert_null (wb_count_note_marks (finished, "h1", "t3", "SC", trail_new_id, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
}

static void
test_unreadable_tally (void)
{
  g_autoptr (WbJob) job = trail_count (job_with_handovers (3), "h1", "1");
  g_autoptr (WbTally) tally = wb_record_copy (wb_job_nth (job, WB_KIND_TALLY, 0));
  g_autoptr (WbJob) broken = NULL;
  g_autoptr (WbJob) noted = NULL;
  g_autoptr (WbJob) fresh = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbCountEntry) entry = wb_count_entry_read (job, "2", NULL);
  g_autoptr (WbTrail) trail = NULL;

  wb_set_text (&tally->tags, "one to nine");
  broken = wb_job_with (job, tally);
  trail = wb_trail_new (broken);
  g_assert_true (wb_trail_handover (trail, 0)->unreadable == (const WbTally *) tally);
  g_assert_null (wb_count_add (broken, "h1", entry, trail_new_id, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
  g_clear_error (&error);
  noted = wb_count_note_marks (broken, "h1", "t2", "SC", trail_new_id, &error);
  g_assert_no_error (error);
  fresh = wb_count_give_up (noted, "h1", &error);
  g_assert_no_error (error);
  g_assert_cmpuint (wb_job_count (fresh, WB_KIND_TALLY), ==, 0);
}

/* However the numbers come, what is counted and what is left make up the inventory, and finishing
 * turns what is left into shortages and nothing else. */
static void
test_property (void)
{
  random_begin ();
  for (guint round = 0; round < 200; round++)
    {
      guint n = (guint) g_test_rand_int_range (1, 60);
      gboolean counted[61] = { FALSE };
      g_autoptr (WbJob) job = trail_count (job_with_handovers (n), "h1", "");
      g_autoptr (WbTrail) trail = NULL;
      g_autoptr (WbTrail) after = NULL;
      const WbHandoverFacts *facts;
      guint n_counted = 0;

      for (gint i = g_test_rand_int_range (0, 20); i > 0; i--)
        {
          gint first = g_test_rand_int_range (1, (gint) n + 1);
          gint last = g_test_rand_int_range (first, (gint) n + 1);
          g_autofree char *text = g_strdup_printf ("%d-%d", first, last);

          job = trail_count (g_steal_pointer (&job), "h1", text);
          for (gint tag = first; tag <= last; tag++)
            counted[tag] = TRUE;
        }

      trail = wb_trail_new (job);
      facts = wb_trail_handover (trail, 0);
      for (guint tag = 1; tag <= n; tag++)
        {
          n_counted += counted[tag];
          g_assert_cmpint (wb_trail_pass (trail, 0, tag - 1)->state, ==,
                           counted[tag] ? WB_PASS_COUNTED : WB_PASS_NOT_COUNTED);
        }
      g_assert_cmpuint (facts->n_counted, ==, n_counted);
      g_assert_cmpuint (facts->left->len, ==, n - n_counted);

      job = trail_finish (g_steal_pointer (&job), "h1");
      after = wb_trail_new (job);
      facts = wb_trail_handover (after, 0);
      g_assert_cmpuint (facts->shortages->len, ==, n - n_counted);
      g_assert_cmpuint (facts->left->len, ==, 0);
      g_assert_cmpuint (wb_job_count (job, WB_KIND_FINDING), ==, n - n_counted);
      for (guint tag = 1; tag <= n; tag++)
        g_assert_cmpint (wb_trail_whereabouts (after, tag - 1).stand, ==,
                         counted[tag] ? WB_STAND_DELIVERED : WB_STAND_MISSING);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/count/count-off", test_count_off);
  g_test_add_func ("/core/count/finish", test_finish);
  g_test_add_func ("/core/count/reappeared", test_reappeared);
  g_test_add_func ("/core/count/reopen", test_reopen);
  g_test_add_func ("/core/count/remark-stays", test_remark_stays);
  g_test_add_func ("/core/count/one-piece", test_one_piece);
  g_test_add_func ("/core/count/give-up", test_give_up);
  g_test_add_func ("/core/count/marks", test_marks);
  g_test_add_func ("/core/count/unreadable-tally", test_unreadable_tally);
  g_test_add_func ("/core/count/property", test_property);
  return g_test_run ();
}
