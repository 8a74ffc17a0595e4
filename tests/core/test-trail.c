/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-trail.h"

#include "trail-fixture.h"

/* Residence, van, warehouse, van, residence. */
static WbJob *
long_way (guint n_pieces)
{
  WbJob *job = trail_job (n_pieces, 0);

  job = trail_add_handover (job, "h1", WB_HANDOVER_PICKUP, "2026-03-01", "Ann Field", "Red Vans");
  job = trail_add_handover (job, "h2", WB_HANDOVER_INTO_STORAGE, "2026-03-05", "red  vans",
                            "Quay Stores");
  job = trail_add_handover (job, "h3", WB_HANDOVER_OUT_OF_STORAGE, "2026-05-01", "Quay Stores",
                            "Blue Vans");
  return trail_add_handover (job, "h4", WB_HANDOVER_DELIVERY, "2026-05-03", "Green Vans",
                             "Ann Field");
}

static void
test_no_handover (void)
{
  g_autoptr (WbJob) job = trail_job (3, 0);
  g_autoptr (WbTrail) trail = wb_trail_new (job);
  WbWhereabouts where = wb_trail_whereabouts (trail, 1);

  g_assert_cmpuint (wb_trail_n_handovers (trail), ==, 0);
  g_assert_cmpuint (wb_trail_n_stretches (trail), ==, 1);
  g_assert_cmpint (wb_trail_stretch (trail, 0)->hold, ==, WB_HOLD_ORIGIN);
  g_assert_cmpint (where.stand, ==, WB_STAND_NOT_PICKED_UP);
  g_assert_cmpint (where.seen_at, ==, -1);
}

static void
test_stretches (void)
{
  g_autoptr (WbJob) job = long_way (1);
  g_autoptr (WbTrail) trail = wb_trail_new (job);
  const WbHold holds[] = { WB_HOLD_ORIGIN, WB_HOLD_VEHICLE, WB_HOLD_WAREHOUSE, WB_HOLD_VEHICLE,
                           WB_HOLD_DESTINATION };
  const char *holders[] = { "Ann Field", "Red Vans", "Quay Stores", "Blue Vans", "Ann Field" };

  g_assert_cmpuint (wb_trail_n_stretches (trail), ==, G_N_ELEMENTS (holds));
  for (guint i = 0; i < G_N_ELEMENTS (holds); i++)
    {
      const WbStretch *stretch = wb_trail_stretch (trail, i);

      g_assert_cmpint (stretch->hold, ==, holds[i]);
      g_assert_cmpstr (stretch->holder, ==, holders[i]);
      g_assert_cmpstr (stretch->giver, ==, i == 3 ? "Green Vans" : NULL);
    }

  /* Case and blanks make no other holder; another name does. */
  g_assert_false (wb_trail_handover (trail, 0)->giver_differs);
  g_assert_false (wb_trail_handover (trail, 1)->giver_differs);
  g_assert_true (wb_trail_handover (trail, 3)->giver_differs);
  g_assert_false (wb_date_is_set (&wb_trail_stretch (trail, 0)->from));
  g_assert_cmpint (wb_date_days_between (&wb_trail_stretch (trail, 2)->from,
                                         &wb_trail_stretch (trail, 2)->to), ==, 57);
}

static void
test_same_holder (void)
{
  g_assert_true (wb_trail_same_holder ("Quay Stores", "QUAY  stores "));
  g_assert_false (wb_trail_same_holder ("Quay Stores", "Quay"));
  g_assert_false (wb_trail_same_holder ("Quay", "Quay Stores"));
  g_assert_false (wb_trail_same_holder (NULL, NULL));
  g_assert_true (wb_trail_same_holder ("ÉTOILE", "étoile"));
}

static void
test_faults (void)
{
  g_autoptr (WbJob) job = trail_job (1, 0);
  g_autoptr (WbTrail) trail = NULL;

  job = trail_add_handover (g_steal_pointer (&job), "h1", WB_HANDOVER_PICKUP, "2026-03-10", NULL,
                            NULL);
  job = trail_add_handover (g_steal_pointer (&job), "h2", WB_HANDOVER_TRANSFER, NULL, NULL, NULL);
  job = trail_add_handover (g_steal_pointer (&job), "h3", WB_HANDOVER_DELIVERY, "2026-03-09", NULL,
                            NULL);
  trail = wb_trail_new (job);

  g_assert_cmpint (wb_trail_handover (trail, 0)->earlier_than, ==, -1);
  g_assert_true (wb_trail_handover (trail, 1)->undated);
  g_assert_cmpint (wb_trail_handover (trail, 1)->earlier_than, ==, -1);
  g_assert_cmpint (wb_trail_handover (trail, 2)->earlier_than, ==, 0);
  g_assert_true (wb_trail_handover (trail, 2)->from_unsigned);
  g_assert_true (wb_trail_handover (trail, 2)->to_unsigned);
}

/* Without a count every piece is where the last handover took it. */
static void
test_as_listed (void)
{
  g_autoptr (WbJob) job = long_way (2);
  g_autoptr (WbTrail) trail = wb_trail_new (job);
  WbWhereabouts where = wb_trail_whereabouts (trail, 0);

  g_assert_cmpint (wb_trail_pass (trail, 2, 0)->state, ==, WB_PASS_AS_LISTED);
  g_assert_cmpuint (wb_trail_handover (trail, 2)->left->len, ==, 0);
  g_assert_cmpint (where.stand, ==, WB_STAND_DELIVERED);
  g_assert_cmpuint (where.stretch, ==, 4);
  g_assert_cmpint (where.seen_at, ==, 3);
}

/* Short at the warehouse; the next handover counts nothing and so brings nothing back. */
static void
test_missing (void)
{
  g_autoptr (WbJob) job = trail_add_finding (long_way (2), "h2", "t1", WB_FOUND_SHORT, NULL);
  g_autoptr (WbTrail) trail = wb_trail_new (job);
  WbWhereabouts where = wb_trail_whereabouts (trail, 0);

  g_assert_cmpint (wb_trail_pass (trail, 1, 0)->state, ==, WB_PASS_SHORT);
  g_assert_false (wb_trail_pass (trail, 1, 0)->missing);
  g_assert_cmpint (wb_trail_pass (trail, 2, 0)->state, ==, WB_PASS_NOT_COUNTED);
  g_assert_true (wb_trail_pass (trail, 2, 0)->missing);
  g_assert_cmpint (where.stand, ==, WB_STAND_MISSING);
  g_assert_cmpint (where.seen_at, ==, 0);
  g_assert_cmpuint (where.stretch, ==, 1);
  g_assert_cmpint (where.short_at, ==, 1);
}

static void
test_reappeared (void)
{
  g_autoptr (WbJob) job = trail_add_finding (long_way (2), "h2", "t1", WB_FOUND_SHORT, NULL);
  g_autoptr (WbTrail) trail = NULL;
  WbWhereabouts where;

  job = trail_add_finding (g_steal_pointer (&job), "h4", "t1", WB_FOUND_PRESENT, "BR 6");
  trail = wb_trail_new (job);
  where = wb_trail_whereabouts (trail, 0);

  g_assert_true (wb_trail_pass (trail, 3, 0)->reappeared);
  g_assert_cmpuint (wb_trail_handover (trail, 3)->reappeared->len, ==, 1);
  g_assert_cmpint (where.stand, ==, WB_STAND_DELIVERED);
  g_assert_cmpint (where.short_at, ==, -1);
}

/* The count has not come to it: the last handover that it passed holds. */
static void
test_pending (void)
{
  g_autoptr (WbJob) job = trail_count (long_way (3), "h4", "1");
  g_autoptr (WbTrail) trail = wb_trail_new (job);
  WbWhereabouts where = wb_trail_whereabouts (trail, 1);

  g_assert_cmpint (where.stand, ==, WB_STAND_HELD);
  g_assert_cmpuint (where.stretch, ==, 3);
  g_assert_cmpint (where.pending, ==, 3);
  g_assert_cmpint (wb_trail_whereabouts (trail, 0).stand, ==, WB_STAND_DELIVERED);
}

static void
test_marks (void)
{
  g_autoptr (WbJob) job = long_way (1);
  g_autoptr (WbPiece) piece = wb_record_copy (wb_job_nth (job, WB_KIND_PIECE, 0));
  g_autoptr (WbTrail) trail = NULL;

  wb_set_text (&piece->marks, "SC 4");
  {
    g_autoptr (WbJob) before = g_steal_pointer (&job);

    job = wb_job_with (before, piece);
  }
  job = trail_add_finding (g_steal_pointer (&job), "h2", "t1", WB_FOUND_PRESENT, "SC 4-8");
  job = trail_add_finding (g_steal_pointer (&job), "h4", "t1", WB_FOUND_PRESENT, "SC 8, CH 3");
  trail = wb_trail_new (job);

  g_assert_null (wb_trail_pass (trail, 0, 0)->new_marks);
  g_assert_cmpstr (wb_trail_pass (trail, 1, 0)->known_marks, ==, "SC 4");
  g_assert_cmpstr (wb_trail_pass (trail, 1, 0)->new_marks, ==, "SC 8");
  g_assert_cmpstr (wb_trail_pass (trail, 3, 0)->known_marks, ==, "SC 4-8");
  g_assert_cmpstr (wb_trail_pass (trail, 3, 0)->noted_marks, ==, "SC 8, CH 3");
  g_assert_cmpstr (wb_trail_pass (trail, 3, 0)->new_marks, ==, "CH 3");
  g_assert_cmpuint (wb_trail_handover (trail, 3)->marked->len, ==, 1);
  g_assert_cmpuint (wb_trail_handover (trail, 2)->marked->len, ==, 0);
}

static void
test_over (void)
{
  g_autoptr (WbJob) job = trail_add_finding (long_way (2), "h4", "t2", WB_FOUND_OVER, NULL);
  g_autoptr (WbTrail) trail = wb_trail_new (job);

  g_assert_cmpint (wb_trail_pass (trail, 3, 1)->state, ==, WB_PASS_OVER);
  g_assert_cmpuint (wb_trail_handover (trail, 3)->overages->len, ==, 1);
  g_assert_cmpint (wb_trail_whereabouts (trail, 1).stand, ==, WB_STAND_DELIVERED);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/trail/no-handover", test_no_handover);
  g_test_add_func ("/core/trail/stretches", test_stretches);
  g_test_add_func ("/core/trail/same-holder", test_same_holder);
  g_test_add_func ("/core/trail/faults", test_faults);
  g_test_add_func ("/core/trail/as-listed", test_as_listed);
  g_test_add_func ("/core/trail/missing", test_missing);
  g_test_add_func ("/core/trail/reappeared", test_reappeared);
  g_test_add_func ("/core/trail/pending", test_pending);
  g_test_add_func ("/core/trail/marks", test_marks);
  g_test_add_func ("/core/trail/over", test_over);
  return g_test_run ();
}
