/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/job-fixture.h"
#include "office/wb-charge-lines.h"
#include "office/wb-words-papers.h"

#include <string.h>

#define PER_CUFT wb_weight (700, WB_WEIGHT_UNIT_LB)

/* --- the checklist ---------------------------------------------------------------------------- */

/* Whatever the move, every item has a title and a note, each a text that says something. */
static void
test_items (void)
{
  static const char *const types[] = { "none", "interstate", "intrastate", "military", "other" };

  for (gsize i = 0; i < G_N_ELEMENTS (types); i++)
    {
      g_autoptr (WbJob) job = job_fixture_new ();
      g_autoptr (GArray) entries = NULL;

      job_fixture_put (&job, WB_KIND_ORDER, NULL, "move_type", types[i], NULL);
      entries = wb_checklist (job, NULL);
      for (guint k = 0; k < entries->len; k++)
        {
          const WbChecklistEntry *entry = &g_array_index (entries, WbChecklistEntry, k);
          g_autofree char *title = wb_words_item (job, entry);
          g_autofree char *note = wb_words_item_note (job, entry);

          g_assert_cmpuint (strlen (title), >, 5);
          g_assert_cmpuint (strlen (note), >, 5);
          if (entry->citation != NULL)
            {
              g_assert_nonnull (strstr (note, entry->citation));
              g_assert_true ((strstr (note, "Between states: ") != NULL) == (i == 2 || i == 3));
            }
          if (entry->reason == WB_ITEM_REASON_NOT_FEDERAL)
            g_assert_nonnull (strstr (note, i == 2 ? "state’s rules" : i == 3 ? "contract"
                                                                              : "between states"));
        }
      g_assert_cmpuint (strlen (wb_words_authority (wb_order_authority (wb_job_order (job)))), >,
                        20);
    }
}

/* Of several tickets each item names its own. */
static void
test_tickets (void)
{
  g_autoptr (WbJob) job = job_fixture_new ();
  g_autoptr (GArray) entries = NULL;
  guint n = 0;

  job_fixture_put (&job, WB_KIND_WEIGHING, "w1", "kind", "weighing", "ticket", "57740", NULL);
  job_fixture_put (&job, WB_KIND_WEIGHING, "w2", "kind", "reweigh", "on", "2026-03-02", NULL);
  entries = wb_checklist (job, NULL);
  for (guint k = 0; k < entries->len; k++)
    {
      const WbChecklistEntry *entry = &g_array_index (entries, WbChecklistEntry, k);
      g_autofree char *title = wb_words_item (job, entry);

      if (entry->item != WB_ITEM_TICKET_SCALE)
        continue;
      g_assert_nonnull (strstr (title, g_str_equal (entry->id, "w1") ? "(57740)" : "Mar 2026)"));
      n++;
    }
  g_assert_cmpuint (n, ==, 2);
}

/* --- keeping ---------------------------------------------------------------------------------- */

static void
test_keep (void)
{
  g_autoptr (WbJob) job = job_fixture_new ();
  g_autofree char *until = NULL;
  g_autofree char *note = NULL;
  g_autofree char *open_claim = NULL;
  g_autofree char *unknown = NULL;
  WbKeep keep;

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "move_type", "interstate", NULL);
  job_fixture_put (&job, WB_KIND_PAPER, "p", "kind", "weight-ticket", "made_on", "2026-03-04",
                   NULL);
  keep = wb_keep_paper (job, wb_job_find (job, WB_KIND_PAPER, "p"));
  until = wb_words_keep (&keep);
  note = wb_words_keep_note (&keep);
  g_assert_cmpstr (until, ==, "Keep until 4 Mar 2029");
  g_assert_cmpstr (note, ==, "3 years from the day when it was made: 49 CFR 379, Appendix A, read "
                             "as of 2015");

  job_fixture_put (&job, WB_KIND_CLAIM, "c", "number", "C-1", NULL);
  keep = wb_keep_paper (job, wb_job_find (job, WB_KIND_PAPER, "p"));
  open_claim = wb_words_keep (&keep);
  g_assert_cmpstr (open_claim, ==, "Keep: a claim is not settled");

  job_fixture_put (&job, WB_KIND_PAPER, "p", "kind", "letter", NULL);
  keep = wb_keep_paper (job, wb_job_find (job, WB_KIND_PAPER, "p"));
  unknown = wb_words_keep (&keep);
  g_assert_cmpstr (unknown, ==, "How long to keep it is not known");
}

/* --- charges ---------------------------------------------------------------------------------- */

static const WbChargeLine *
find_line (GPtrArray  *lines,
           const char *nick)
{
  for (guint i = 0; i < lines->len; i++)
    if (g_str_equal (((WbChargeLine *) g_ptr_array_index (lines, i))->nick, nick))
      return g_ptr_array_index (lines, i);

  return NULL;
}

static WbJob *
new_order (const char *kind,
           const char *estimate)
{
  WbJob *job = job_fixture_new ();

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "move_type", "interstate", "estimate_kind", kind,
                   "estimate", estimate, NULL);
  return job;
}

/* Non-binding 1,000 with impracticable operations of 300: 49 CFR 375.703(b). */
static void
test_charges (void)
{
  g_autoptr (WbJob) job = new_order ("non-binding", "1000");
  g_autoptr (GPtrArray) lines = NULL;

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "freight_charge", "1100", "impracticable_charge",
                   "300", NULL);
  lines = wb_charge_lines (job, PER_CUFT);
  g_assert_null (find_line (lines, "gap"));
  g_assert_cmpstr (find_line (lines, "transport")->amount, ==, "$1,100.00");
  g_assert_cmpstr (find_line (lines, "transport")->note, ==,
                   "At most 110 % of the non-binding estimate of $1,000.00; the charges come to "
                   "$1,100.00.");
  g_assert_cmpstr (find_line (lines, "transport")->citation, ==, "49 CFR 375.703(b)");
  g_assert_cmpstr (find_line (lines, "impracticable")->amount, ==, "$165.00");
  g_assert_cmpstr (find_line (lines, "maximum")->amount, ==, "$1,265.00");
  g_assert_cmpint (find_line (lines, "maximum")->kind, ==, WB_CHARGE_LINE_TOTAL);
  g_assert_cmpstr (find_line (lines, "later")->amount, ==, "$135.00");
}

/* Half of the goods, by a weight that only the volume tells: 700 lb from 100 cubic feet. */
static void
test_share (void)
{
  g_autoptr (WbJob) job = new_order ("binding", "4000");
  g_autoptr (GPtrArray) lines = NULL;

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "volume", "100 cuft", "delivered_weight", "350 lb",
                   NULL);
  lines = wb_charge_lines (job, PER_CUFT);
  g_assert_cmpstr (find_line (lines, "maximum")->amount, ==, "$2,000.00");
  g_assert_cmpstr (find_line (lines, "transport")->note, ==,
                   "The binding estimate of $4,000.00, for the share delivered: 350 lb of 700 lb "
                   "(reckoned from the volume).");
  g_assert_cmpstr (find_line (lines, "transport")->citation, ==, "49 CFR 375.707(a)(1)(i)");
}

/* What is missing names the field; more delivered than shipped is said, not reckoned. */
static void
test_charge_gaps (void)
{
  g_autoptr (WbJob) job = new_order ("none", "1000");
  g_autoptr (GPtrArray) no_kind = wb_charge_lines (job, PER_CUFT);
  g_autoptr (GPtrArray) no_charges = NULL;
  g_autoptr (GPtrArray) too_much = NULL;
  g_autoptr (GPtrArray) state = NULL;

  g_assert_cmpuint (no_kind->len, ==, 1);
  g_assert_cmpstr (find_line (no_kind, "gap")->field, ==, "estimate_kind");

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "estimate_kind", "non-binding", NULL);
  no_charges = wb_charge_lines (job, PER_CUFT);
  g_assert_cmpstr (find_line (no_charges, "gap")->field, ==, "freight_charge");
  g_assert_cmpstr (find_line (no_charges, "maximum")->amount, ==, "$1,100.00");

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "freight_charge", "900", "delivered_weight",
                   "5001 lb", NULL);
  job_fixture_put (&job, WB_KIND_WEIGHING, "w", "kind", "weighing", "net", "5000 lb", NULL);
  too_much = wb_charge_lines (job, PER_CUFT);
  g_assert_cmpuint (too_much->len, ==, 1);
  g_assert_cmpstr (find_line (too_much, "gap")->field, ==, "delivered_weight");
  g_assert_nonnull (strstr (find_line (too_much, "gap")->note,
                            "The weight delivered is not between nothing and the weight shipped"));

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "move_type", "intrastate", NULL);
  state = wb_charge_lines (job, PER_CUFT);
  g_assert_cmpuint (state->len, ==, 1);
  g_assert_nonnull (strstr (find_line (state, "gap")->note, "state’s rules"));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/office/words-papers/items", test_items);
  g_test_add_func ("/office/words-papers/tickets", test_tickets);
  g_test_add_func ("/office/words-papers/keep", test_keep);
  g_test_add_func ("/office/charge-lines/sum", test_charges);
  g_test_add_func ("/office/charge-lines/share", test_share);
  g_test_add_func ("/office/charge-lines/gaps", test_charge_gaps);
  return g_test_run ();
}
