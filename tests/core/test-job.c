/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The job as an immutable value: edits leave the old one as it was, share what they did not touch,
 * and refuse what would leave a record pointing at nothing. */
#include "config.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-job.h"
#include "trail-fixture.h"

static gpointer
put (GPtrArray  *records,
     WbKind      kind,
     const char *id)
{
  gpointer record = wb_record_new (kind, id);

  g_ptr_array_add (records, record);
  return record;
}

/* Two pieces of one lot, a handover with a finding, a claim with a line. */
static WbJob *
sample_job (void)
{
  g_autoptr (WbJob) empty = wb_job_new ("job", "USD");
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  WbOrder *order = put (records, WB_KIND_ORDER, "order");
  WbLot *lot = put (records, WB_KIND_LOT, "lot");
  WbPiece *first = put (records, WB_KIND_PIECE, "p1");
  WbPiece *second = put (records, WB_KIND_PIECE, "p2");
  WbFinding *finding;
  WbClaim *claim;
  WbClaimLine *line;

  wb_set_text (&order->number, "J-1");
  wb_set_text (&lot->colour, "teal");
  wb_set_text (&first->lot, "lot");
  wb_set_text (&second->lot, "lot");
  put (records, WB_KIND_HANDOVER, "h1");
  finding = put (records, WB_KIND_FINDING, "f1");
  wb_set_text (&finding->handover, "h1");
  wb_set_text (&finding->piece, "p1");
  claim = put (records, WB_KIND_CLAIM, "c1");
  wb_set_text (&claim->number, "C-1");
  line = put (records, WB_KIND_CLAIM_LINE, "l1");
  wb_set_text (&line->claim, "c1");
  wb_set_text (&line->piece, "p2");
  line->number = 1;
  return wb_job_with_many (empty, records);
}

static void
test_edit_leaves_the_old_job (void)
{
  g_autoptr (WbJob) before = sample_job ();
  g_autoptr (WbPiece) piece = wb_record_copy (wb_job_find (before, WB_KIND_PIECE, "p1"));
  g_autoptr (WbJob) after = NULL;

  wb_set_text (&piece->room, "Kitchen");
  after = wb_job_with (before, piece);
  g_assert_null (((const WbPiece *) wb_job_find (before, WB_KIND_PIECE, "p1"))->room);
  g_assert_cmpstr (((const WbPiece *) wb_job_find (after, WB_KIND_PIECE, "p1"))->room, ==,
                   "Kitchen");
  g_assert_cmpint (wb_job_index (after, WB_KIND_PIECE, "p1"), ==, 0);
  /* What was not touched is the same record in both. */
  g_assert_true (wb_job_find (before, WB_KIND_PIECE, "p2") ==
                 wb_job_find (after, WB_KIND_PIECE, "p2"));
  g_assert_false (wb_job_equal (before, after));
}

static void
test_insert_and_order (void)
{
  g_autoptr (WbJob) job = sample_job ();
  g_autoptr (WbPiece) piece = wb_record_new (WB_KIND_PIECE, "p3");
  g_autoptr (WbJob) middle = wb_job_insert (job, piece, 1);
  g_autoptr (WbJob) end = wb_job_insert (job, piece, 99);

  g_assert_cmpint (wb_job_index (middle, WB_KIND_PIECE, "p3"), ==, 1);
  g_assert_cmpint (wb_job_index (middle, WB_KIND_PIECE, "p2"), ==, 2);
  g_assert_cmpint (wb_job_index (end, WB_KIND_PIECE, "p3"), ==, 2);
  g_assert_cmpuint (wb_job_count (job, WB_KIND_PIECE), ==, 2);
}

/* What belongs to a record stays with it, wherever it goes. */
static void
test_move (void)
{
  g_autoptr (WbJob) job = trail_job (3, 0);
  g_autoptr (WbJob) last = NULL;
  g_autoptr (WbJob) first = NULL;
  g_autoptr (WbJob) same = NULL;
  g_autoptr (WbJob) none = NULL;

  last = wb_job_move (job, WB_KIND_PIECE, "t1", 99);
  g_assert_cmpint (wb_job_index (last, WB_KIND_PIECE, "t1"), ==, 2);
  g_assert_cmpint (wb_job_index (last, WB_KIND_PIECE, "t2"), ==, 0);
  g_assert_cmpint (wb_job_index (job, WB_KIND_PIECE, "t1"), ==, 0);
  first = wb_job_move (last, WB_KIND_PIECE, "t1", 0);
  g_assert_true (wb_job_equal (first, job));
  same = wb_job_move (job, WB_KIND_PIECE, "t2", 1);
  g_assert_true (same == job);
  none = wb_job_move (job, WB_KIND_PIECE, "t9", 1);
  g_assert_true (none == job);
}

static void
test_removing_takes_what_belongs (void)
{
  g_autoptr (WbJob) job = sample_job ();
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) without_handover = wb_job_without (job, WB_KIND_HANDOVER, "h1", &error);
  g_autoptr (WbJob) without_claim = wb_job_without (job, WB_KIND_CLAIM, "c1", &error);

  g_assert_no_error (error);
  g_assert_cmpuint (wb_job_count (without_handover, WB_KIND_FINDING), ==, 0);
  g_assert_cmpuint (wb_job_count (without_claim, WB_KIND_CLAIM_LINE), ==, 0);
  g_assert_true (wb_job_check (without_claim, &error));
}

static void
assert_refused (WbJob      *job,
                WbKind      kind,
                const char *id,
                const char *dependent)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) without = wb_job_without (job, kind, id, &error);

  g_assert_null (without);
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
  g_assert_nonnull (strstr (error->message, dependent));
}

static void
test_removing_is_refused (void)
{
  g_autoptr (WbJob) job = sample_job ();
  g_autoptr (WbJob) gone = NULL;
  g_autoptr (GError) error = NULL;

  assert_refused (job, WB_KIND_LOT, "lot", "piece p1");
  assert_refused (job, WB_KIND_PIECE, "p2", "claim_line l1");
  assert_refused (job, WB_KIND_PIECE, "p1", "finding f1");
  assert_refused (job, WB_KIND_ORDER, "order", "order");
  gone = wb_job_without (job, WB_KIND_STOP, "nowhere", &error);
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
}

static void
test_check_finds_dangling_references (void)
{
  g_autoptr (WbJob) job = sample_job ();
  g_autoptr (WbPiece) piece = wb_record_copy (wb_job_find (job, WB_KIND_PIECE, "p1"));
  g_autoptr (WbJob) broken = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (wb_job_check (job, NULL));
  wb_set_text (&piece->lot, "nowhere");
  broken = wb_job_with (job, piece);
  g_assert_false (wb_job_check (broken, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
  g_assert_nonnull (strstr (error->message, "piece p1, lot"));
}

static void
test_check_adds_up_weighings (void)
{
  g_autoptr (WbJob) job = sample_job ();
  g_autoptr (WbWeighing) weighing = wb_record_new (WB_KIND_WEIGHING, "w1");
  g_autoptr (WbJob) wrong = NULL;
  g_autoptr (GError) error = NULL;

  weighing->gross = wb_weight (3000000, WB_WEIGHT_UNIT_LB);
  weighing->tare = wb_weight (2400000, WB_WEIGHT_UNIT_LB);
  weighing->net = wb_weight (600001, WB_WEIGHT_UNIT_LB);
  wrong = wb_job_with (job, weighing);
  g_assert_false (wb_job_check (wrong, &error));
  g_assert_nonnull (strstr (error->message, "weighing w1, net"));
}

static void
test_check_line_numbers (void)
{
  g_autoptr (WbJob) job = sample_job ();
  g_autoptr (WbClaimLine) line = wb_record_copy (wb_job_find (job, WB_KIND_CLAIM_LINE, "l1"));
  g_autoptr (WbJob) twice = NULL;
  g_autoptr (GError) error = NULL;

  g_free (line->record.id);
  line->record.id = g_strdup ("l2");
  twice = wb_job_with (job, line);
  g_assert_false (wb_job_check (twice, &error));
  g_assert_nonnull (strstr (error->message, "two lines numbered 1"));
}

static void
test_diff (void)
{
  g_autoptr (WbJob) before = sample_job ();
  g_autoptr (WbPiece) changed = wb_record_copy (wb_job_find (before, WB_KIND_PIECE, "p1"));
  g_autoptr (WbStop) added = wb_record_new (WB_KIND_STOP, "s1");
  g_autoptr (WbJob) one = NULL, two = NULL, three = NULL;
  g_autoptr (GArray) changes = NULL, none = NULL;
  const WbJobChange *change;

  wb_set_text (&changed->room, "Attic");
  one = wb_job_with (before, changed);
  two = wb_job_with (one, added);
  three = wb_job_without (two, WB_KIND_CLAIM_LINE, "l1", NULL);
  changes = wb_job_diff (before, three);
  g_assert_cmpuint (changes->len, ==, 3);
  change = &g_array_index (changes, WbJobChange, 0);
  g_assert_cmpint (change->kind, ==, WB_KIND_CLAIM_LINE);
  g_assert_null (change->after);
  change = &g_array_index (changes, WbJobChange, 1);
  g_assert_cmpint (change->kind, ==, WB_KIND_STOP);
  g_assert_null (change->before);
  change = &g_array_index (changes, WbJobChange, 2);
  g_assert_cmpint (change->kind, ==, WB_KIND_PIECE);
  g_assert_true (change->before == wb_job_find (before, WB_KIND_PIECE, "p1"));
  none = wb_job_diff (three, three);
  g_assert_cmpuint (none->len, ==, 0);
}

/* Any sequence of edits: the places by id stay true, and applying the difference gives the later
 * job. */
static void
test_random_edits (void)
{
  guint32 seed = (guint32) g_test_rand_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (WbJob) start = sample_job ();
  g_autoptr (WbJob) job = wb_job_ref (start);

  g_test_message ("seed %u", seed);
  for (guint i = 0; i < 2000; i++)
    {
      g_autofree char *id = g_strdup_printf ("s%d", g_rand_int_range (rand, 0, 60));
      g_autoptr (WbStop) stop = wb_record_new (WB_KIND_STOP, id);
      WbJob *next = NULL;

      stop->kind = (WbStopKind) g_rand_int_range (rand, 0, 6);
      if (wb_job_find (job, WB_KIND_STOP, id) == NULL)
        next = wb_job_insert (job, stop, (guint) g_rand_int_range (rand, 0, 70));
      else if (g_rand_boolean (rand))
        next = wb_job_with (job, stop);
      else
        next = wb_job_without (job, WB_KIND_STOP, id, NULL);
      wb_job_unref (job);
      job = next;
      for (guint j = 0; j < wb_job_count (job, WB_KIND_STOP); j++)
        {
          const WbRecord *record = wb_job_nth (job, WB_KIND_STOP, j);

          g_assert_cmpint (wb_job_index (job, WB_KIND_STOP, record->id), ==, (gint) j);
          g_assert_true (wb_job_find (job, WB_KIND_STOP, record->id) == record);
        }
    }
  g_assert_cmpuint (wb_job_count (start, WB_KIND_STOP), ==, 0);
}

static void
test_governing_weight (void)
{
  g_autoptr (WbJob) job = sample_job ();
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  WbOrder *order = put (records, WB_KIND_ORDER, "order");
  WbWeighing *first;
  WbWeight weight, per_cuft = wb_weight (700, WB_WEIGHT_UNIT_LB);
  g_autoptr (WbJob) estimated = NULL, measured = NULL, weighed = NULL, emptied = NULL;

  g_assert_cmpint (wb_job_shipment_weight (job, FALSE, per_cuft, &weight), ==,
                   WB_WEIGHT_SOURCE_NONE);
  g_assert_false (wb_weight_is_set (weight));
  wb_set_text (&order->number, "J-1");
  order->estimated_weight = wb_weight (500000, WB_WEIGHT_UNIT_LB);
  estimated = wb_job_with_many (job, records);
  g_assert_cmpint (wb_job_shipment_weight (estimated, FALSE, per_cuft, &weight), ==,
                   WB_WEIGHT_SOURCE_ESTIMATE);

  /* 41 CFR 302-7.13(d): 7 lb a cubic foot; 100 cu ft are 700 lb */
  order->volume = wb_volume (10000, WB_VOLUME_UNIT_CUFT);
  measured = wb_job_with_many (job, records);
  g_assert_cmpint (wb_job_shipment_weight (measured, FALSE, per_cuft, &weight), ==,
                   WB_WEIGHT_SOURCE_VOLUME);
  g_assert_cmpint (weight.grains, ==, 700 * WB_GRAINS_PER_LB);

  first = put (records, WB_KIND_WEIGHING, "w1");
  first->kind = WB_WEIGHING_FIRST;
  first->gross = wb_weight (3000000, WB_WEIGHT_UNIT_LB);
  first->tare = wb_weight (2400000, WB_WEIGHT_UNIT_LB);
  weighed = wb_job_with_many (job, records);
  g_assert_cmpint (wb_job_shipment_weight (weighed, FALSE, per_cuft, &weight), ==,
                   WB_WEIGHT_SOURCE_WEIGHING);
  g_assert_cmpint (weight.grains, ==, 6000 * WB_GRAINS_PER_LB);
  g_assert_cmpint (wb_job_shipment_weight (weighed, TRUE, per_cuft, &weight), ==,
                   WB_WEIGHT_SOURCE_WEIGHING);
  g_assert_cmpint (weight.grains, ==, 30000 * WB_GRAINS_PER_LB);

  /* A ticket that weighs nothing says nothing, gross no more than net. */
  first = put (records, WB_KIND_WEIGHING, "w2");
  first->kind = WB_WEIGHING_REWEIGH;
  first->tare = wb_weight (2400000, WB_WEIGHT_UNIT_LB);
  first->net = wb_weight (0, WB_WEIGHT_UNIT_LB);
  emptied = wb_job_with_many (job, records);
  g_assert_cmpint (wb_job_shipment_weight (emptied, FALSE, per_cuft, &weight), ==,
                   WB_WEIGHT_SOURCE_WEIGHING);
  g_assert_cmpint (wb_job_shipment_weight (emptied, TRUE, per_cuft, &weight), ==,
                   WB_WEIGHT_SOURCE_WEIGHING);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/job/edit", test_edit_leaves_the_old_job);
  g_test_add_func ("/core/job/insert", test_insert_and_order);
  g_test_add_func ("/core/job/move", test_move);
  g_test_add_func ("/core/job/remove/owned", test_removing_takes_what_belongs);
  g_test_add_func ("/core/job/remove/refused", test_removing_is_refused);
  g_test_add_func ("/core/job/check/references", test_check_finds_dangling_references);
  g_test_add_func ("/core/job/check/weighings", test_check_adds_up_weighings);
  g_test_add_func ("/core/job/check/line-numbers", test_check_line_numbers);
  g_test_add_func ("/core/job/diff", test_diff);
  g_test_add_func ("/core/job/random-edits", test_random_edits);
  g_test_add_func ("/core/job/governing-weight", test_governing_weight);
  return g_test_run ();
}
