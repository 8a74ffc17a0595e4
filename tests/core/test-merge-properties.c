/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What has to hold for every merge: random jobs, changed at random on two sides, chosen at random.
 * */
#include "config.h"

#include "random-job.h"

#include "core/wb-merge.h"

#include <string.h>

#define ROUNDS 150

static guint
any (guint limit)
{
  return (guint) g_test_rand_int_range (0, (gint32) limit);
}

static guint
rounds (void)
{
  return g_test_slow () ? 40 * ROUNDS : ROUNDS;
}

/* --- changing at random ----------------------------------------------------------------------- */

static WbRecord *
any_record (const WbJob *job)
{
  for (;;)
    {
      WbKind kind = (WbKind) any (WB_N_KINDS);
      guint n = wb_job_count (job, kind);

      if (n > 0)
        return (WbRecord *) wb_job_nth (job, kind, any (n));
    }
}

/* Takes @next in the place of *@job, when it is a job that could be stored. */
static void
take (WbJob **job,
      WbJob  *next)
{
  if (next == NULL)
    return;
  if (!wb_job_check (next, NULL))
    {
      wb_job_unref (next);
      return;
    }
  wb_job_unref (*job);
  *job = next;
}

static void
change_field (WbJob **job)
{
  const WbRecord *old = any_record (*job);
  g_autoptr (WbRecord) record = wb_record_copy (old);
  g_autoptr (WbRecord) source = random_record (*job, old->type->kind, old->id);

  for (guint n = 1 + any (3); n > 0; n--)
    wb_record_copy_field (record, &old->type->fields[any ((guint) old->type->n_fields)], source);
  take (job, wb_job_with (*job, record));
}

/* Often one of a kind in which two cannot have the same. Ids are few, so that both sides add the
 * same, and numbers too. */
static void
add_one (WbJob **job)
{
  static const WbKind unique[] = { WB_KIND_CLAIM_LINE, WB_KIND_PIECE, WB_KIND_FINDING,
                                   WB_KIND_CLAIM_LINE, WB_KIND_SHARE };
  WbKind kind = any (2) == 0 ? unique[any (G_N_ELEMENTS (unique))]
                             : (WbKind) (WB_KIND_PARTY + any (WB_N_KINDS - WB_KIND_PARTY));
  g_autofree char *id = g_strdup_printf ("new-%u", any (8));
  g_autoptr (WbRecord) record = NULL;

  if (wb_job_find (*job, kind, id) != NULL)
    return;
  record = random_record (*job, kind, id);
  if (kind == WB_KIND_CLAIM_LINE)
    ((WbClaimLine *) record)->number = 4 + any (3);
  if (kind == WB_KIND_WEIGHING)
    ((WbWeighing *) record)->net = WB_WEIGHT_UNSET;
  if (kind == WB_KIND_PIECE)
    ((WbPiece *) record)->tag = 1 + any (3);
  take (job, wb_job_insert (*job, record, any (wb_job_count (*job, kind) + 1)));
}

static void
remove_one (WbJob **job)
{
  const WbRecord *record = any_record (*job);

  take (job, wb_job_without (*job, record->type->kind, record->id, NULL));
}

static void
move_one (WbJob **job)
{
  const WbRecord *record = any_record (*job);

  take (job, wb_job_move (*job, record->type->kind, record->id, any (4)));
}

static WbJob *
changed (WbJob *base)
{
  WbJob *job = wb_job_ref (base);

  for (guint n = any (12); n > 0; n--)
    switch (any (8))
      {
      case 0:
        move_one (&job);
        break;
      case 1:
      case 2:
        remove_one (&job);
        break;
      case 3:
      case 4:
        add_one (&job);
        break;
      default:
        change_field (&job);
        break;
      }
  return job;
}

static WbMerge *
merge_of (WbJob *base,
          WbJob *mine,
          WbJob *theirs)
{
  g_autoptr (GError) error = NULL;
  WbMerge *merge = wb_merge_new (base, mine, theirs, &error);

  g_assert_no_error (error);
  return merge;
}

static WbJob *
result_of (const WbMerge *merge)
{
  g_autoptr (GError) error = NULL;
  WbJob *job = wb_merge_result (merge, &error);

  g_assert_no_error (error);
  return job;
}

static void
choose_at_random (WbMerge *merge)
{
  for (guint i = 0; i < wb_merge_count (merge); i++)
    if (wb_merge_nth (merge, i)->side == WB_MERGE_CONFLICT)
      wb_merge_choose (merge, i, any (2) == 0 ? WB_MERGE_MINE : WB_MERGE_THEIRS);
}

/* --- one side only ---------------------------------------------------------------------------- */

static void
assert_merges_to (WbJob *base,
                  WbJob *mine,
                  WbJob *theirs,
                  WbJob *expected)
{
  g_autoptr (WbMerge) merge = merge_of (base, mine, theirs);
  g_autoptr (WbJob) job = NULL;

  g_assert_cmpuint (wb_merge_n_undecided (merge), ==, 0);
  job = result_of (merge);
  g_assert_true (wb_job_equal (job, expected));
}

static void
test_one_side (void)
{
  for (guint i = 0; i < rounds (); i++)
    {
      g_autoptr (WbJob) base = random_job ("USD", 3);
      g_autoptr (WbJob) side = changed (base);

      assert_merges_to (base, side, base, side);
      assert_merges_to (base, base, side, side);
      assert_merges_to (base, side, side, side);
      assert_merges_to (NULL, side, side, side);
    }
}

/* --- both sides ------------------------------------------------------------------------------- */

static gint
find_mirror (const WbMerge     *merge,
             const WbMergeItem *item)
{
  const char *id = item->what == WB_MERGE_CLASH ? item->theirs->id : item->id;

  for (guint i = 0; i < wb_merge_count (merge); i++)
    {
      const WbMergeItem *other = wb_merge_nth (merge, i);

      if (other->what == item->what && other->kind == item->kind && other->field == item->field &&
          g_strcmp0 (other->id, id) == 0 && other->mine == item->theirs &&
          other->theirs == item->mine)
        return (gint) i;
    }
  return -1;
}

static WbMergeSide
mirrored (WbMergeSide side)
{
  switch (side)
    {
    case WB_MERGE_ONLY_MINE:
      return WB_MERGE_ONLY_THEIRS;
    case WB_MERGE_ONLY_THEIRS:
      return WB_MERGE_ONLY_MINE;
    case WB_MERGE_BOTH_SAME:
    case WB_MERGE_CONFLICT:
      return side;
    }
  g_assert_not_reached ();
}

static void
test_symmetric (void)
{
  for (guint i = 0; i < rounds (); i++)
    {
      g_autoptr (WbJob) base = random_job ("USD", 3);
      g_autoptr (WbJob) mine = changed (base);
      g_autoptr (WbJob) theirs = changed (base);
      g_autoptr (WbMerge) merge = merge_of (base, mine, theirs);
      g_autoptr (WbMerge) mirror = merge_of (base, theirs, mine);
      g_autoptr (WbJob) one = NULL, other = NULL;

      choose_at_random (merge);
      g_assert_cmpuint (wb_merge_count (merge), ==, wb_merge_count (mirror));
      for (guint k = 0; k < wb_merge_count (merge); k++)
        {
          const WbMergeItem *item = wb_merge_nth (merge, k);
          gint index = find_mirror (mirror, item);

          g_assert_cmpint (index, >=, 0);
          g_assert_cmpint (wb_merge_nth (mirror, (guint) index)->side, ==, mirrored (item->side));
          if (item->side == WB_MERGE_CONFLICT)
            wb_merge_choose (mirror, (guint) index,
                             item->choice == WB_MERGE_MINE ? WB_MERGE_THEIRS : WB_MERGE_MINE);
        }
      one = result_of (merge);
      other = result_of (mirror);
      g_assert_true (wb_job_equal (one, other));
    }
}

/* Whether a clash may have made record @id of @kind yield. */
static gboolean
is_in_clash (const WbMerge *merge,
             WbKind         kind,
             const char    *id)
{
  for (guint i = 0; i < wb_merge_count (merge); i++)
    {
      const WbMergeItem *item = wb_merge_nth (merge, i);

      if (item->what == WB_MERGE_CLASH && item->kind == kind &&
          (strcmp (item->mine->id, id) == 0 || strcmp (item->theirs->id, id) == 0))
        return TRUE;
    }
  return FALSE;
}

static gboolean
takes_mine (const WbMergeItem *item)
{
  return item->side == WB_MERGE_CONFLICT ? item->choice == WB_MERGE_MINE
                                         : item->side != WB_MERGE_ONLY_THEIRS;
}

/* A reference that was taken away because a choice removed what it named. */
static gboolean
was_emptied (const WbJob    *job,
             const WbField  *field,
             const WbRecord *wanted,
             const WbRecord *found)
{
  return field->type == WB_FIELD_REFERENCE && !wb_record_field_is_set (field, found) &&
         wb_job_find (job, field->refers,
                      G_STRUCT_MEMBER (const char *, wanted, field->offset)) == NULL;
}

static void
check_field (const WbMerge     *merge,
             const WbJob       *job,
             const WbMergeItem *item)
{
  const WbRecord *wanted = takes_mine (item) ? item->mine : item->theirs;
  const WbRecord *found = wb_job_find (job, item->kind, item->id);

  if (found == NULL)
    {
      g_assert_true (is_in_clash (merge, item->kind, item->id));
      return;
    }
  g_assert_true (wb_record_field_equal (item->field, wanted, found) ||
                 was_emptied (job, item->field, wanted, found) ||
                 is_in_clash (merge, item->kind, item->id));
}

static void
check_whole (const WbMerge     *merge,
             const WbJob       *job,
             const WbMergeItem *item)
{
  const WbRecord *wanted = takes_mine (item) ? item->mine : item->theirs;
  const WbRecord *found = wb_job_find (job, item->kind, item->id);

  if (wanted == NULL)
    {
      g_assert_null (found);
      return;
    }
  if (is_in_clash (merge, item->kind, item->id))
    return;
  g_assert_nonnull (found);
  for (gsize i = 0; i < found->type->n_fields; i++)
    g_assert_true (wb_record_field_equal (&found->type->fields[i], wanted, found) ||
                   was_emptied (job, &found->type->fields[i], wanted, found));
}

/* No record goes that no side removed and no choice left out. */
static void
check_all_there (const WbMerge *merge,
                 const WbJob   *side,
                 const WbJob   *job)
{
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    for (guint i = 0; i < wb_job_count (side, (WbKind) kind); i++)
      {
        const WbRecord *record = wb_job_nth (side, (WbKind) kind, i);
        gboolean explained = wb_job_find (job, (WbKind) kind, record->id) != NULL ||
                             is_in_clash (merge, (WbKind) kind, record->id);

        for (guint k = 0; !explained && k < wb_merge_count (merge); k++)
          {
            const WbMergeItem *item = wb_merge_nth (merge, k);

            explained = item->what == WB_MERGE_RECORD && item->kind == (WbKind) kind &&
                        strcmp (item->id, record->id) == 0;
          }
        g_assert_true (explained);
      }
}

static void
check_nothing_lost (WbJob *base)
{
  g_autoptr (WbJob) mine = changed (base);
  g_autoptr (WbJob) theirs = changed (base);
  g_autoptr (WbMerge) merge = merge_of (any (4) == 0 ? NULL : base, mine, theirs);
  g_autoptr (WbJob) job = NULL;

  choose_at_random (merge);
  g_assert_cmpuint (wb_merge_n_undecided (merge), ==, 0);
  job = result_of (merge);
  for (guint i = 0; i < wb_merge_count (merge); i++)
    {
      const WbMergeItem *item = wb_merge_nth (merge, i);

      switch (item->what)
        {
        case WB_MERGE_FIELD:
          check_field (merge, job, item);
          break;
        case WB_MERGE_RECORD:
          check_whole (merge, job, item);
          break;
        case WB_MERGE_ORDER:
        case WB_MERGE_CLASH:
          break;
        }
    }
  check_all_there (merge, mine, job);
  check_all_there (merge, theirs, job);
}

static void
test_nothing_lost (void)
{
  for (guint i = 0; i < 2 * rounds (); i++)
    {
      g_autoptr (WbJob) base = random_job ("USD", 4);

      check_nothing_lost (base);
    }
}

/* --- chosen together -------------------------------------------------------------------------- */

/* Whoever chooses always one side gets that side's job where both differ: all that the other has in
 * conflict is gone, in fields and in records. */
static void
test_all_of_one_side (void)
{
  for (guint i = 0; i < rounds (); i++)
    {
      g_autoptr (WbJob) base = random_job ("USD", 3);
      g_autoptr (WbJob) mine = changed (base);
      g_autoptr (WbJob) theirs = changed (base);
      g_autoptr (WbMerge) merge = merge_of (base, mine, theirs);
      g_autoptr (WbJob) job = NULL;
      g_autoptr (WbMerge) again = NULL;

      for (guint k = 0; k < wb_merge_count (merge); k++)
        if (wb_merge_nth (merge, k)->side == WB_MERGE_CONFLICT)
          wb_merge_choose (merge, k, WB_MERGE_MINE);
      job = result_of (merge);

      /* Merged once more, mine has nothing to add. */
      again = merge_of (mine, mine, job);
      g_assert_cmpuint (wb_merge_n_undecided (again), ==, 0);
      for (guint k = 0; k < wb_merge_count (again); k++)
        g_assert_cmpint (wb_merge_nth (again, k)->side, ==, WB_MERGE_ONLY_THEIRS);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/merge/properties/one-side", test_one_side);
  g_test_add_func ("/merge/properties/symmetric", test_symmetric);
  g_test_add_func ("/merge/properties/nothing-lost", test_nothing_lost);
  g_test_add_func ("/merge/properties/all-of-one-side", test_all_of_one_side);
  return g_test_run ();
}
