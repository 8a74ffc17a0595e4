/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What records are called, and differences of two versions in words. */
#include "config.h"

#include "job-fixture.h"
#include "office/wb-words-merge.h"
#include "office/wb-words-record.h"
#include "office/wb-words.h"

static WbJob *
make_job (void)
{
  WbJob *job = job_fixture_new ();

  job_fixture_put (&job, WB_KIND_LOT, "lot", "colour", "blue", "number", "204", NULL);
  job_fixture_put (&job, WB_KIND_PIECE, "table", "lot", "lot", "tag", "17", "description",
                   "Dining table", "room", "Hall", NULL);
  job_fixture_put (&job, WB_KIND_PIECE, "lamp", "lot", "lot", "tag", "18", "description", "Lamp",
                   NULL);
  job_fixture_put (&job, WB_KIND_STOP, "s", "kind", "delivery", "city", "Dayton", "region", "OH",
                   NULL);
  job_fixture_put (&job, WB_KIND_HANDOVER, "h", "kind", "delivery", "on", "2026-03-01", NULL);
  job_fixture_put (&job, WB_KIND_FINDING, "f", "handover", "h", "piece", "table", NULL);
  job_fixture_put (&job, WB_KIND_CLAIM, "c", "number", "C-1", NULL);
  job_fixture_put (&job, WB_KIND_CLAIM_LINE, "l", "claim", "c", "number", "3", "item", "Bookcase",
                   NULL);
  job_fixture_put (&job, WB_KIND_CLAIM_LINE, "m", "claim", "c", "number", "4", "piece", "table",
                   NULL);
  job_fixture_put (&job, WB_KIND_QUOTE, "q", "claim_line", "l", "kind", "repair", "source",
                   "Ott Joiners", NULL);
  return job;
}

static void
assert_called (const WbJob *job,
               WbKind       kind,
               const char  *id,
               const char  *expected)
{
  gconstpointer record = wb_job_find (job, kind, id);
  g_autofree char *words = NULL;

  g_assert_nonnull (record);
  words = wb_words_record (job, record);
  g_assert_cmpstr (words, ==, expected);
}

static void
test_names (void)
{
  g_autoptr (WbJob) job = make_job ();

  assert_called (job, WB_KIND_ORDER, "order", "Order");
  assert_called (job, WB_KIND_LOT, "lot", "Lot blue 204");
  assert_called (job, WB_KIND_PIECE, "table", "Piece blue 204-017, Dining table");
  assert_called (job, WB_KIND_STOP, "s", "Stop: Dayton, OH");
  assert_called (job, WB_KIND_HANDOVER, "h", "Handover: Vehicle to residence, 1 Mar 2026");
  assert_called (job, WB_KIND_FINDING, "f",
                 "Finding: blue 204-017, Dining table, Vehicle to residence, 1 Mar 2026");
  assert_called (job, WB_KIND_CLAIM, "c", "Claim C-1");
  assert_called (job, WB_KIND_CLAIM_LINE, "l", "Claim line 3, Bookcase");
  assert_called (job, WB_KIND_CLAIM_LINE, "m", "Claim line 4, blue 204-017, Dining table");
  assert_called (job, WB_KIND_QUOTE, "q", "Quote: Repair, Ott Joiners, 3, Bookcase");
}

/* Every kind has words, also when nothing of the record is filled in. */
static void
test_every_kind (void)
{
  g_autoptr (WbJob) job = job_fixture_new ();

  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      g_autoptr (WbRecord) record = wb_record_new ((WbKind) kind, "x");
      g_autofree char *words = wb_words_record (job, record);

      g_assert_true (g_str_has_prefix (words, record->type->label));
    }
}

/* --- differences ------------------------------------------------------------------------------ */

typedef struct
{
  WbJob       *base;
  WbJob       *mine;
  WbJob       *theirs;
  WbMerge     *merge;
  WbMergeJobs  jobs;
} Case;

static void
set_up (Case          *c,
        gconstpointer  data)
{
  c->base = make_job ();
  c->mine = wb_job_ref (c->base);
  c->theirs = wb_job_ref (c->base);
}

static void
tear_down (Case          *c,
           gconstpointer  data)
{
  g_clear_pointer (&c->merge, wb_merge_free);
  wb_job_unref (c->base);
  wb_job_unref (c->mine);
  wb_job_unref (c->theirs);
}

/* Returns: the one difference that a person has to decide, or the only one there is. */
static const WbMergeItem *
merge (Case *c)
{
  g_autoptr (GError) error = NULL;

  c->merge = wb_merge_new (c->base, c->mine, c->theirs, &error);
  g_assert_no_error (error);
  c->jobs = (WbMergeJobs) { c->base, c->mine, c->theirs };
  for (guint i = 0; i < wb_merge_count (c->merge); i++)
    if (wb_merge_nth (c->merge, i)->side == WB_MERGE_CONFLICT)
      return wb_merge_nth (c->merge, i);
  return wb_merge_nth (c->merge, 0);
}

static void
assert_words (Case              *c,
              const WbMergeItem *item,
              const char        *record,
              const char        *what,
              const char        *before,
              const char        *here,
              const char        *there)
{
  g_autofree char *record_words = wb_words_merge_record (&c->jobs, item);
  g_autofree char *what_words = wb_words_merge_what (item);
  g_autofree char *before_words = wb_words_merge_text (&c->jobs, item, WB_MERGE_UNDECIDED);
  g_autofree char *here_words = wb_words_merge_text (&c->jobs, item, WB_MERGE_MINE);
  g_autofree char *there_words = wb_words_merge_text (&c->jobs, item, WB_MERGE_THEIRS);

  g_assert_cmpstr (record_words, ==, record);
  g_assert_cmpstr (what_words, ==, what);
  g_assert_cmpstr (before_words, ==, before);
  g_assert_cmpstr (here_words, ==, here);
  g_assert_cmpstr (there_words, ==, there);
}

static void
test_field (Case          *c,
            gconstpointer  data)
{
  const WbMergeItem *item;

  job_fixture_put (&c->mine, WB_KIND_PIECE, "table", "room", "Kitchen", NULL);
  job_fixture_put (&c->theirs, WB_KIND_PIECE, "table", "room", NULL, NULL);
  item = merge (c);
  assert_words (c, item, "Piece blue 204-017, Dining table", "Room", "Hall", "Kitchen", "–");
  g_assert_null (wb_words_merge_note (&c->jobs, item));
  g_assert_cmpstr (wb_words_merge_side (item), ==, "Not decided");
  wb_merge_choose (c->merge, 0, WB_MERGE_THEIRS);
  g_assert_cmpstr (wb_words_merge_side (item), ==, "As it is there");
}

/* A reference is called what it is called where it was set. */
static void
test_reference (Case          *c,
                gconstpointer  data)
{
  const WbMergeItem *item;

  job_fixture_put (&c->theirs, WB_KIND_PIECE, "chest", "description", "Chest", NULL);
  job_fixture_put (&c->theirs, WB_KIND_CLAIM_LINE, "m", "piece", "chest", NULL);
  job_fixture_put (&c->mine, WB_KIND_CLAIM_LINE, "m", "piece", "lamp", NULL);
  item = merge (c);
  assert_words (c, item, "Claim line 4, blue 204-018, Lamp", "Piece", "blue 204-017, Dining table",
                "blue 204-018, Lamp", "no tag, Chest");
}

static void
test_removed (Case          *c,
              gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  const WbMergeItem *item;
  WbJob *without = wb_job_without (c->theirs, WB_KIND_PIECE, "lamp", &error);

  g_assert_no_error (error);
  wb_job_unref (c->theirs);
  c->theirs = without;
  job_fixture_put (&c->mine, WB_KIND_PIECE, "lamp", "room", "Attic", "weight", "12 lb", NULL);
  item = merge (c);
  assert_words (c, item, "Piece blue 204-018, Lamp", "Removed or kept", "Piece blue 204-018, Lamp",
                "Kept, with Room: Attic; Weight: 12 lb", "Removed");
}

static void
test_needed (Case          *c,
             gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *note = NULL;
  const WbMergeItem *item;
  WbJob *without = wb_job_without (c->mine, WB_KIND_PIECE, "lamp", &error);

  g_assert_no_error (error);
  wb_job_unref (c->mine);
  c->mine = without;
  job_fixture_put (&c->theirs, WB_KIND_CLAIM_LINE, "l", "piece", "lamp", NULL);
  item = merge (c);
  note = wb_words_merge_note (&c->jobs, item);
  g_assert_cmpstr (note, ==, "Removed here, but there it is needed by: Claim line 3, Bookcase.");
}

static void
test_clash (Case          *c,
            gconstpointer  data)
{
  g_autofree char *note = NULL;
  const WbMergeItem *item;

  job_fixture_put (&c->mine, WB_KIND_CLAIM_LINE, "n1", "claim", "c", "number", "5", "item", "Vase",
                   NULL);
  job_fixture_put (&c->theirs, WB_KIND_CLAIM_LINE, "n2", "claim", "c", "number", "5", "item",
                   "Rug", NULL);
  item = merge (c);
  g_assert_cmpint (item->what, ==, WB_MERGE_CLASH);
  assert_words (c, item, "Claim line 5, Vase", "Line", NULL, "Claim line 5, Vase",
                "Claim line 5, Rug");
  note = wb_words_merge_note (&c->jobs, item);
  g_assert_cmpstr (note, ==,
                   "Two cannot have the same “Line”. The one not chosen gets the next free number.");
}

static void
test_added (Case          *c,
            gconstpointer  data)
{
  const WbMergeItem *item;

  job_fixture_put (&c->theirs, WB_KIND_STOP, "t", "city", "Tulsa", NULL);
  item = merge (c);
  assert_words (c, item, "Stop: Tulsa", "Added", "Not there", "Not there", "City: Tulsa");
  g_assert_cmpstr (wb_words_merge_side (item), ==, "From there");
}

static void
test_order (Case          *c,
            gconstpointer  data)
{
  const WbMergeItem *item;
  WbJob *moved;

  job_fixture_put (&c->base, WB_KIND_PIECE, "rug", "description", "Rug", NULL);
  wb_job_unref (c->mine);
  c->mine = wb_job_ref (c->base);
  wb_job_unref (c->theirs);
  c->theirs = wb_job_ref (c->base);
  moved = wb_job_move (c->mine, WB_KIND_PIECE, "rug", 0);
  wb_job_unref (c->mine);
  c->mine = moved;
  moved = wb_job_move (c->theirs, WB_KIND_PIECE, "lamp", 0);
  wb_job_unref (c->theirs);
  c->theirs = moved;
  item = merge (c);
  assert_words (c, item, "Piece", "Order in the list",
                "blue 204-017, Dining table → blue 204-018, Lamp → no tag, Rug",
                "no tag, Rug → blue 204-017, Dining table → blue 204-018, Lamp",
                "blue 204-018, Lamp → blue 204-017, Dining table → no tag, Rug");
}

#define ADD(path, function) \
  g_test_add ("/office/words-merge/" path, Case, NULL, set_up, function, tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/office/words-record/names", test_names);
  g_test_add_func ("/office/words-record/every-kind", test_every_kind);
  ADD ("field", test_field);
  ADD ("reference", test_reference);
  ADD ("removed", test_removed);
  ADD ("needed", test_needed);
  ADD ("clash", test_clash);
  ADD ("added", test_added);
  ADD ("order", test_order);
  return g_test_run ();
}
