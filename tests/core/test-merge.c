/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Merging two jobs by hand-made cases: what is taken by itself, what is a conflict, what is chosen
 * together, and what becomes of what two records cannot both have. */
#include "config.h"

#include "job-fixture.h"

#include "core/wb-core.h"
#include "core/wb-merge.h"

/* --- one case --------------------------------------------------------------------------------- */

typedef struct
{
  WbJob   *base;
  WbJob   *mine;
  WbJob   *theirs;
  WbMerge *merge;
} Case;

static void
put_claim (WbJob **job)
{
  job_fixture_put (job, WB_KIND_LOT, "lot", "colour", "Blue", "number", "1", NULL);
  job_fixture_put (job, WB_KIND_PIECE, "p1", "lot", "lot", "tag", "1", "description", "Oak table",
                   NULL);
  job_fixture_put (job, WB_KIND_PIECE, "p2", "lot", "lot", "tag", "2", NULL);
  job_fixture_put (job, WB_KIND_HANDOVER, "h", "kind", "pickup", NULL);
  job_fixture_put (job, WB_KIND_CLAIM, "c", "number", "C-1", NULL);
  job_fixture_put (job, WB_KIND_CLAIM_LINE, "l1", "claim", "c", "number", "1", "piece", "p1", NULL);
}

static void
setup (Case         *self,
       gconstpointer data)
{
  self->base = job_fixture_new ();
  put_claim (&self->base);
  self->mine = wb_job_ref (self->base);
  self->theirs = wb_job_ref (self->base);
}

static void
teardown (Case         *self,
          gconstpointer data)
{
  g_clear_pointer (&self->merge, wb_merge_free);
  wb_job_unref (self->base);
  wb_job_unref (self->mine);
  wb_job_unref (self->theirs);
}

static void
take_out (WbJob      **job,
          WbKind       kind,
          const char  *id)
{
  g_autoptr (GError) error = NULL;
  WbJob *next = wb_job_without (*job, kind, id, &error);

  g_assert_no_error (error);
  wb_job_unref (*job);
  *job = next;
}

static void
merge (Case *self)
{
  g_autoptr (GError) error = NULL;

  g_clear_pointer (&self->merge, wb_merge_free);
  self->merge = wb_merge_new (self->base, self->mine, self->theirs, &error);
  g_assert_no_error (error);
}

static gint
find_item (const Case  *self,
           WbMergeWhat  what,
           WbKind       kind,
           const char  *id,
           const char  *field)
{
  for (guint i = 0; i < wb_merge_count (self->merge); i++)
    {
      const WbMergeItem *item = wb_merge_nth (self->merge, i);

      if (item->what == what && item->kind == kind && g_strcmp0 (item->id, id) == 0 &&
          g_strcmp0 (item->field != NULL ? item->field->name : NULL, field) == 0)
        return (gint) i;
    }
  return -1;
}

static void
assert_side (const Case  *self,
             WbKind       kind,
             const char  *id,
             const char  *field,
             WbMergeSide  side)
{
  gint index = find_item (self, field != NULL ? WB_MERGE_FIELD : WB_MERGE_RECORD, kind, id, field);

  g_assert_cmpint (index, >=, 0);
  g_assert_cmpint (wb_merge_nth (self->merge, (guint) index)->side, ==, side);
}

static void
choose (Case          *self,
        WbMergeWhat    what,
        WbKind         kind,
        const char    *id,
        const char    *field,
        WbMergeChoice  choice)
{
  gint index = find_item (self, what, kind, id, field);

  g_assert_cmpint (index, >=, 0);
  wb_merge_choose (self->merge, (guint) index, choice);
}

static WbJob *
result (const Case *self)
{
  g_autoptr (GError) error = NULL;
  WbJob *job = wb_merge_result (self->merge, &error);

  g_assert_no_error (error);
  return job;
}

static char *
text_of (const WbJob *job,
         WbKind       kind,
         const char  *id,
         const char  *field)
{
  const WbRecord *record = wb_job_find (job, kind, id);

  g_assert_nonnull (record);
  return wb_record_get_text (record, wb_record_type_field (record->type, field));
}

static void
assert_text (const WbJob *job,
             WbKind       kind,
             const char  *id,
             const char  *field,
             const char  *expected)
{
  g_autofree char *text = text_of (job, kind, id, field);

  g_assert_cmpstr (text, ==, expected);
}

/* --- fields ----------------------------------------------------------------------------------- */

static void
test_apart (Case         *self,
            gconstpointer data)
{
  g_autoptr (WbJob) job = NULL;

  job_fixture_put (&self->mine, WB_KIND_PIECE, "p1", "room", "Kitchen", NULL);
  job_fixture_put (&self->theirs, WB_KIND_PIECE, "p1", "description", "Oak desk", NULL);
  job_fixture_put (&self->theirs, WB_KIND_PIECE, "p2", "room", "Hall", NULL);
  job_fixture_put (&self->mine, WB_KIND_PIECE, "p2", "room", "Hall", NULL);
  merge (self);

  g_assert_cmpuint (wb_merge_count (self->merge), ==, 3);
  g_assert_cmpuint (wb_merge_n_undecided (self->merge), ==, 0);
  assert_side (self, WB_KIND_PIECE, "p1", "room", WB_MERGE_ONLY_MINE);
  assert_side (self, WB_KIND_PIECE, "p1", "description", WB_MERGE_ONLY_THEIRS);
  assert_side (self, WB_KIND_PIECE, "p2", "room", WB_MERGE_BOTH_SAME);
  job = result (self);
  assert_text (job, WB_KIND_PIECE, "p1", "room", "Kitchen");
  assert_text (job, WB_KIND_PIECE, "p1", "description", "Oak desk");
  assert_text (job, WB_KIND_PIECE, "p2", "room", "Hall");
}

static void
test_conflict (Case         *self,
               gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autofree char *base = NULL, *mine = NULL, *theirs = NULL;
  gint index;

  job_fixture_put (&self->mine, WB_KIND_PIECE, "p1", "description", "Oak desk", NULL);
  job_fixture_put (&self->theirs, WB_KIND_PIECE, "p1", "description", NULL, NULL);
  merge (self);

  index = find_item (self, WB_MERGE_FIELD, WB_KIND_PIECE, "p1", "description");
  g_assert_cmpint (index, ==, 0);
  base = wb_merge_item_text (wb_merge_nth (self->merge, 0), WB_MERGE_UNDECIDED);
  mine = wb_merge_item_text (wb_merge_nth (self->merge, 0), WB_MERGE_MINE);
  theirs = wb_merge_item_text (wb_merge_nth (self->merge, 0), WB_MERGE_THEIRS);
  g_assert_cmpstr (base, ==, "Oak table");
  g_assert_cmpstr (mine, ==, "Oak desk");
  g_assert_cmpstr (theirs, ==, "");

  g_assert_null (wb_merge_result (self->merge, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
  wb_merge_choose (self->merge, 0, WB_MERGE_THEIRS);
  wb_merge_choose (self->merge, 0, WB_MERGE_UNDECIDED);
  g_assert_cmpuint (wb_merge_n_undecided (self->merge), ==, 1);
  wb_merge_choose (self->merge, 0, WB_MERGE_MINE);
  job = result (self);
  assert_text (job, WB_KIND_PIECE, "p1", "description", "Oak desk");
}

/* A verdict and the reason for it come from one side, although no field was changed by both. */
static void
test_together (Case         *self,
               gconstpointer data)
{
  g_autoptr (WbJob) job = NULL;

  job_fixture_put (&self->mine, WB_KIND_CLAIM_LINE, "l1", "verdict", "new", "demanded", "10.00 USD",
                   NULL);
  job_fixture_put (&self->theirs, WB_KIND_CLAIM_LINE, "l1", "verdict_reason", "Too late", NULL);
  merge (self);

  g_assert_cmpuint (wb_merge_n_undecided (self->merge), ==, 2);
  choose (self, WB_MERGE_FIELD, WB_KIND_CLAIM_LINE, "l1", "verdict", WB_MERGE_THEIRS);
  g_assert_cmpuint (wb_merge_n_undecided (self->merge), ==, 0);
  job = result (self);
  assert_text (job, WB_KIND_CLAIM_LINE, "l1", "verdict", "none");
  assert_text (job, WB_KIND_CLAIM_LINE, "l1", "verdict_reason", "Too late");
  assert_text (job, WB_KIND_CLAIM_LINE, "l1", "demanded", "10.00 USD");
}

static void
test_ticket (Case         *self,
             gconstpointer data)
{
  g_autoptr (WbJob) job = NULL;

  job_fixture_put (&self->base, WB_KIND_WEIGHING, "w", "gross", "300 lb", "tare", "100 lb", "net",
                   "200 lb", NULL);
  job_fixture_put (&self->mine, WB_KIND_WEIGHING, "w", "gross", "310 lb", "tare", "100 lb", "net",
                   "210 lb", NULL);
  job_fixture_put (&self->theirs, WB_KIND_WEIGHING, "w", "gross", "300 lb", "tare", "90 lb", "net",
                   "210 lb", NULL);
  merge (self);
  choose (self, WB_MERGE_FIELD, WB_KIND_WEIGHING, "w", "tare", WB_MERGE_THEIRS);
  job = result (self);
  assert_text (job, WB_KIND_WEIGHING, "w", "gross", "300 lb");
  assert_text (job, WB_KIND_WEIGHING, "w", "tare", "90 lb");
}

/* --- records ---------------------------------------------------------------------------------- */

static void
test_added_and_removed (Case         *self,
                        gconstpointer data)
{
  g_autoptr (WbJob) job = NULL;

  job_fixture_put (&self->mine, WB_KIND_STOP, "s1", "city", "Ashford", NULL);
  job_fixture_put (&self->theirs, WB_KIND_STOP, "s2", "city", "Brill", NULL);
  take_out (&self->theirs, WB_KIND_PIECE, "p2");
  merge (self);

  assert_side (self, WB_KIND_STOP, "s1", NULL, WB_MERGE_ONLY_MINE);
  assert_side (self, WB_KIND_STOP, "s2", NULL, WB_MERGE_ONLY_THEIRS);
  assert_side (self, WB_KIND_PIECE, "p2", NULL, WB_MERGE_ONLY_THEIRS);
  job = result (self);
  g_assert_cmpuint (wb_job_count (job, WB_KIND_STOP), ==, 2);
  g_assert_null (wb_job_find (job, WB_KIND_PIECE, "p2"));
}

static void
test_changed_and_removed (Case         *self,
                          gconstpointer data)
{
  for (int i = WB_MERGE_MINE; i <= WB_MERGE_THEIRS; i++)
    {
      g_autoptr (WbJob) job = NULL;

      job_fixture_put (&self->mine, WB_KIND_PIECE, "p2", "room", "Hall", NULL);
      if (wb_job_find (self->theirs, WB_KIND_PIECE, "p2") != NULL)
        take_out (&self->theirs, WB_KIND_PIECE, "p2");
      merge (self);
      assert_side (self, WB_KIND_PIECE, "p2", NULL, WB_MERGE_CONFLICT);
      choose (self, WB_MERGE_RECORD, WB_KIND_PIECE, "p2", NULL, (WbMergeChoice) i);
      job = result (self);
      g_assert_cmpint (wb_job_find (job, WB_KIND_PIECE, "p2") != NULL, ==, i == WB_MERGE_MINE);
    }
}

/* A claim that they removed while a line of it got a quote here: the claim as a whole stays or
 * goes, with what they removed along with it. */
static void
test_removed_owner (Case         *self,
                    gconstpointer data)
{
  for (int i = WB_MERGE_MINE; i <= WB_MERGE_THEIRS; i++)
    {
      g_autoptr (WbJob) job = NULL;
      gint index;

      g_clear_pointer (&self->mine, wb_job_unref);
      self->mine = wb_job_ref (self->base);
      g_clear_pointer (&self->theirs, wb_job_unref);
      self->theirs = wb_job_ref (self->base);
      job_fixture_put (&self->mine, WB_KIND_QUOTE, "q", "claim_line", "l1", "amount", "5.00 USD",
                       NULL);
      take_out (&self->theirs, WB_KIND_CLAIM, "c");
      merge (self);

      index = find_item (self, WB_MERGE_RECORD, WB_KIND_CLAIM, "c", NULL);
      assert_side (self, WB_KIND_CLAIM, "c", NULL, WB_MERGE_CONFLICT);
      assert_side (self, WB_KIND_CLAIM_LINE, "l1", NULL, WB_MERGE_CONFLICT);
      assert_side (self, WB_KIND_QUOTE, "q", NULL, WB_MERGE_CONFLICT);
      g_assert_cmpuint (wb_merge_nth (self->merge, (guint) index)->group, !=, 0);
      wb_merge_choose (self->merge, (guint) index, (WbMergeChoice) i);
      g_assert_cmpuint (wb_merge_n_undecided (self->merge), ==, 0);
      job = result (self);
      g_assert_cmpuint (wb_job_count (job, WB_KIND_CLAIM), ==, i == WB_MERGE_MINE ? 1 : 0);
      g_assert_cmpuint (wb_job_count (job, WB_KIND_CLAIM_LINE), ==, i == WB_MERGE_MINE ? 1 : 0);
      g_assert_cmpuint (wb_job_count (job, WB_KIND_QUOTE), ==, i == WB_MERGE_MINE ? 1 : 0);
    }
}

/* A piece that they removed and a photo here shows: the photo stays in any case. */
static void
test_removed_target (Case         *self,
                     gconstpointer data)
{
  static const char hash[] = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";
  g_autoptr (WbJob) kept = NULL;
  g_autoptr (WbJob) gone = NULL;
  gint index;

  job_fixture_put (&self->mine, WB_KIND_PHOTO, "ph", "hash", hash, "piece", "p2", NULL);
  take_out (&self->theirs, WB_KIND_PIECE, "p2");
  merge (self);

  index = find_item (self, WB_MERGE_RECORD, WB_KIND_PIECE, "p2", NULL);
  assert_side (self, WB_KIND_PIECE, "p2", NULL, WB_MERGE_CONFLICT);
  assert_side (self, WB_KIND_PHOTO, "ph", NULL, WB_MERGE_ONLY_MINE);
  g_assert_cmpstr (wb_merge_nth (self->merge, (guint) index)->user->id, ==, "ph");
  wb_merge_choose (self->merge, (guint) index, WB_MERGE_MINE);
  kept = result (self);
  assert_text (kept, WB_KIND_PHOTO, "ph", "piece", "p2");
  wb_merge_choose (self->merge, (guint) index, WB_MERGE_THEIRS);
  gone = result (self);
  assert_text (gone, WB_KIND_PHOTO, "ph", "piece", "");
}

static void
test_same_id (Case         *self,
              gconstpointer data)
{
  job_fixture_put (&self->mine, WB_KIND_STOP, "s", "city", "Ashford", "name", "Gate", NULL);
  job_fixture_put (&self->theirs, WB_KIND_STOP, "s", "city", "Brill", "name", "Gate", NULL);
  job_fixture_put (&self->mine, WB_KIND_PARTY, "x", "name", "A. Shipper", NULL);
  job_fixture_put (&self->theirs, WB_KIND_PARTY, "x", "name", "A. Shipper", NULL);
  merge (self);

  g_assert_cmpuint (wb_merge_count (self->merge), ==, 2);
  assert_side (self, WB_KIND_STOP, "s", "city", WB_MERGE_CONFLICT);
  assert_side (self, WB_KIND_PARTY, "x", NULL, WB_MERGE_BOTH_SAME);
}

/* --- sets and clashes ------------------------------------------------------------------------- */

/* Both split the line by hand; a mixture would not come to the whole. */
static void
test_shares (Case         *self,
             gconstpointer data)
{
  g_autoptr (WbJob) job = NULL;

  job_fixture_put (&self->base, WB_KIND_SHARE, "a", "claim_line", "l1", "handler", "A", "percent",
                   "100 %", NULL);
  job_fixture_put (&self->mine, WB_KIND_SHARE, "b", "claim_line", "l1", "handler", "B", "percent",
                   "100 %", NULL);
  job_fixture_put (&self->theirs, WB_KIND_SHARE, "c", "claim_line", "l1", "handler", "C", "percent",
                   "40 %", NULL);
  job_fixture_put (&self->theirs, WB_KIND_SHARE, "d", "claim_line", "l1", "handler", "D", "percent",
                   "60 %", NULL);
  merge (self);

  assert_side (self, WB_KIND_SHARE, "a", NULL, WB_MERGE_BOTH_SAME);
  choose (self, WB_MERGE_RECORD, WB_KIND_SHARE, "d", NULL, WB_MERGE_THEIRS);
  g_assert_cmpuint (wb_merge_n_undecided (self->merge), ==, 0);
  job = result (self);
  g_assert_cmpuint (wb_job_count (job, WB_KIND_SHARE), ==, 2);
  g_assert_null (wb_job_find (job, WB_KIND_SHARE, "b"));
}

static void
test_line_numbers (Case         *self,
                   gconstpointer data)
{
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbJob) other = NULL;

  job_fixture_put (&self->mine, WB_KIND_CLAIM_LINE, "m", "claim", "c", "number", "2", NULL);
  job_fixture_put (&self->theirs, WB_KIND_CLAIM_LINE, "t", "claim", "c", "number", "2", NULL);
  merge (self);

  g_assert_cmpuint (wb_merge_n_undecided (self->merge), ==, 1);
  choose (self, WB_MERGE_CLASH, WB_KIND_CLAIM_LINE, "m", "number", WB_MERGE_THEIRS);
  job = result (self);
  assert_text (job, WB_KIND_CLAIM_LINE, "t", "number", "2");
  assert_text (job, WB_KIND_CLAIM_LINE, "m", "number", "3");
  choose (self, WB_MERGE_CLASH, WB_KIND_CLAIM_LINE, "m", "number", WB_MERGE_MINE);
  other = result (self);
  assert_text (other, WB_KIND_CLAIM_LINE, "m", "number", "2");
  assert_text (other, WB_KIND_CLAIM_LINE, "t", "number", "3");
}

/* New numbers do not depend on who merges. */
static void
test_numbers_alike (Case         *self,
                    gconstpointer data)
{
  g_autoptr (WbJob) one = NULL;
  g_autoptr (WbJob) other = NULL;
  WbJob *mine;

  job_fixture_put (&self->mine, WB_KIND_CLAIM_LINE, "a", "claim", "c", "number", "2", NULL);
  job_fixture_put (&self->mine, WB_KIND_CLAIM_LINE, "d", "claim", "c", "number", "3", NULL);
  job_fixture_put (&self->theirs, WB_KIND_CLAIM_LINE, "b", "claim", "c", "number", "3", NULL);
  job_fixture_put (&self->theirs, WB_KIND_CLAIM_LINE, "e", "claim", "c", "number", "2", NULL);
  merge (self);
  choose (self, WB_MERGE_CLASH, WB_KIND_CLAIM_LINE, "a", "number", WB_MERGE_MINE);
  choose (self, WB_MERGE_CLASH, WB_KIND_CLAIM_LINE, "d", "number", WB_MERGE_MINE);
  one = result (self);

  mine = self->mine;
  self->mine = self->theirs;
  self->theirs = mine;
  merge (self);
  choose (self, WB_MERGE_CLASH, WB_KIND_CLAIM_LINE, "e", "number", WB_MERGE_THEIRS);
  choose (self, WB_MERGE_CLASH, WB_KIND_CLAIM_LINE, "b", "number", WB_MERGE_THEIRS);
  other = result (self);
  g_assert_true (wb_job_equal (one, other));
}

static void
test_clashes (Case         *self,
              gconstpointer data)
{
  g_autoptr (WbJob) job = NULL;

  job_fixture_put (&self->mine, WB_KIND_CLAIM, "m", "number", "C-2", NULL);
  job_fixture_put (&self->theirs, WB_KIND_CLAIM, "t", "number", "c-2", NULL);
  job_fixture_put (&self->mine, WB_KIND_PIECE, "m", "lot", "lot", "tag", "3", NULL);
  job_fixture_put (&self->theirs, WB_KIND_PIECE, "t", "lot", "lot", "tag", "3", NULL);
  job_fixture_put (&self->mine, WB_KIND_FINDING, "m", "handover", "h", "piece", "p1", NULL);
  job_fixture_put (&self->theirs, WB_KIND_FINDING, "t", "handover", "h", "piece", "p1", "found",
                   "short", NULL);
  job_fixture_put (&self->mine, WB_KIND_PACKING_CHECK, "m", "piece", "p1", "rule", "top", NULL);
  job_fixture_put (&self->theirs, WB_KIND_PACKING_CHECK, "t", "piece", "p1", "rule", "top", NULL);
  job_fixture_put (&self->mine, WB_KIND_QUOTE, "m", "claim_line", "l1", "kind", "repair", "taken",
                   "yes", NULL);
  job_fixture_put (&self->theirs, WB_KIND_QUOTE, "t", "claim_line", "l1", "kind", "repair", "taken",
                   "yes", NULL);
  job_fixture_put (&self->mine, WB_KIND_LOT, "m", "colour", "Red", "number", "7", NULL);
  job_fixture_put (&self->theirs, WB_KIND_LOT, "t", "colour", "red", "number", "7", NULL);
  merge (self);

  g_assert_cmpuint (wb_merge_n_undecided (self->merge), ==, 6);
  choose (self, WB_MERGE_CLASH, WB_KIND_CLAIM, "m", "number", WB_MERGE_MINE);
  choose (self, WB_MERGE_CLASH, WB_KIND_PIECE, "m", "tag", WB_MERGE_THEIRS);
  choose (self, WB_MERGE_CLASH, WB_KIND_FINDING, "m", "piece", WB_MERGE_THEIRS);
  choose (self, WB_MERGE_CLASH, WB_KIND_PACKING_CHECK, "m", "rule", WB_MERGE_MINE);
  choose (self, WB_MERGE_CLASH, WB_KIND_QUOTE, "m", "taken", WB_MERGE_MINE);
  choose (self, WB_MERGE_CLASH, WB_KIND_LOT, "m", "number", WB_MERGE_MINE);
  job = result (self);
  assert_text (job, WB_KIND_CLAIM, "m", "number", "C-2");
  assert_text (job, WB_KIND_CLAIM, "t", "number", "c-2-2");
  assert_text (job, WB_KIND_PIECE, "m", "tag", "");
  assert_text (job, WB_KIND_PIECE, "t", "tag", "3");
  g_assert_null (wb_job_find (job, WB_KIND_FINDING, "m"));
  assert_text (job, WB_KIND_FINDING, "t", "found", "short");
  g_assert_null (wb_job_find (job, WB_KIND_PACKING_CHECK, "t"));
  assert_text (job, WB_KIND_QUOTE, "m", "taken", "yes");
  assert_text (job, WB_KIND_QUOTE, "t", "taken", "no");
  assert_text (job, WB_KIND_LOT, "t", "number", "7-2");
}

/* What one side has twice by itself is its own affair. */
static void
test_own_repeat (Case         *self,
                 gconstpointer data)
{
  job_fixture_put (&self->mine, WB_KIND_PIECE, "m1", "lot", "lot", "tag", "9", NULL);
  job_fixture_put (&self->mine, WB_KIND_PIECE, "m2", "lot", "lot", "tag", "9", NULL);
  merge (self);
  g_assert_cmpuint (wb_merge_n_undecided (self->merge), ==, 0);
}

/* --- order ------------------------------------------------------------------------------------ */

static void
move (WbJob      **job,
      const char  *id,
      guint        index)
{
  WbJob *next = wb_job_move (*job, WB_KIND_STOP, id, index);

  wb_job_unref (*job);
  *job = next;
}

static char *
order_of (const WbJob *job)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_STOP); i++)
    g_string_append (text, ((const WbRecord *) wb_job_nth (job, WB_KIND_STOP, i))->id);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
test_order (Case         *self,
            gconstpointer data)
{
  static const char *const ids[] = { "a", "b", "c" };
  g_autoptr (WbJob) job = NULL, first = NULL, second = NULL;
  g_autofree char *order = NULL, *one = NULL, *other = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (ids); i++)
    {
      job_fixture_put (&self->base, WB_KIND_STOP, ids[i], "city", "X", NULL);
      job_fixture_put (&self->mine, WB_KIND_STOP, ids[i], "city", "X", NULL);
      job_fixture_put (&self->theirs, WB_KIND_STOP, ids[i], "city", "X", NULL);
    }
  move (&self->mine, "c", 0);
  job_fixture_put (&self->theirs, WB_KIND_STOP, "d", "city", "X", NULL);
  move (&self->theirs, "d", 1);
  merge (self);
  g_assert_cmpuint (wb_merge_n_undecided (self->merge), ==, 0);
  job = result (self);
  order = order_of (job);
  g_assert_cmpstr (order, ==, "cadb");

  move (&self->theirs, "b", 0);
  merge (self);
  choose (self, WB_MERGE_ORDER, WB_KIND_STOP, NULL, NULL, WB_MERGE_MINE);
  first = result (self);
  one = order_of (first);
  g_assert_cmpstr (one, ==, "cadb");
  choose (self, WB_MERGE_ORDER, WB_KIND_STOP, NULL, NULL, WB_MERGE_THEIRS);
  second = result (self);
  other = order_of (second);
  g_assert_cmpstr (other, ==, "badc");
}

/* --- the whole -------------------------------------------------------------------------------- */

static void
test_no_base (Case         *self,
              gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = NULL;

  job_fixture_put (&self->mine, WB_KIND_PIECE, "p1", "room", "Kitchen", NULL);
  job_fixture_put (&self->mine, WB_KIND_STOP, "s1", "city", "Ashford", NULL);
  take_out (&self->mine, WB_KIND_PIECE, "p2");
  self->merge = wb_merge_new (NULL, self->mine, self->theirs, &error);
  g_assert_no_error (error);

  g_assert_cmpuint (wb_merge_count (self->merge), ==, 3);
  assert_side (self, WB_KIND_PIECE, "p1", "room", WB_MERGE_CONFLICT);
  assert_side (self, WB_KIND_PIECE, "p2", NULL, WB_MERGE_ONLY_THEIRS);
  assert_side (self, WB_KIND_STOP, "s1", NULL, WB_MERGE_ONLY_MINE);
  choose (self, WB_MERGE_FIELD, WB_KIND_PIECE, "p1", "room", WB_MERGE_MINE);
  job = result (self);
  g_assert_cmpuint (wb_job_count (job, WB_KIND_PIECE), ==, 2);
  g_assert_cmpuint (wb_job_count (job, WB_KIND_STOP), ==, 1);
}

static void
test_refused (Case         *self,
              gconstpointer data)
{
  g_autoptr (WbJob) other = wb_job_new ("other", "USD");
  g_autoptr (WbJob) euro = wb_job_new ("job", "EUR");
  g_autoptr (GError) error = NULL;

  g_assert_null (wb_merge_new (self->base, self->mine, other, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
  g_clear_error (&error);
  g_assert_null (wb_merge_new (other, self->mine, self->theirs, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
  g_clear_error (&error);
  g_assert_null (wb_merge_new (NULL, self->mine, euro, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_CURRENCY);
}

static void
test_revision (Case         *self,
               gconstpointer data)
{
  g_autoptr (WbJob) fifth = wb_job_with_revision (self->mine, 5);
  g_autoptr (WbMerge) five = wb_merge_new (self->base, fifth, self->theirs, NULL);
  g_autoptr (WbJob) job = wb_merge_result (five, NULL);

  g_assert_cmpint (wb_job_get_revision (job), ==, 5);
  g_assert_cmpuint (wb_merge_count (five), ==, 0);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define CASE(path, function) g_test_add ("/merge/" path, Case, NULL, setup, function, teardown)
  CASE ("fields/apart", test_apart);
  CASE ("fields/conflict", test_conflict);
  CASE ("fields/together", test_together);
  CASE ("fields/ticket", test_ticket);
  CASE ("records/added-and-removed", test_added_and_removed);
  CASE ("records/changed-and-removed", test_changed_and_removed);
  CASE ("records/removed-owner", test_removed_owner);
  CASE ("records/removed-target", test_removed_target);
  CASE ("records/same-id", test_same_id);
  CASE ("together/shares", test_shares);
  CASE ("together/line-numbers", test_line_numbers);
  CASE ("together/numbers-alike", test_numbers_alike);
  CASE ("together/clashes", test_clashes);
  CASE ("together/own-repeat", test_own_repeat);
  CASE ("order", test_order);
  CASE ("whole/no-base", test_no_base);
  CASE ("whole/refused", test_refused);
  CASE ("whole/revision", test_revision);
  return g_test_run ();
}
