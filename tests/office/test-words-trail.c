/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "office/wb-words-trail.h"

#include "core/wb-count.h"

static void
set_date (GDate      *date,
          const char *text)
{
  g_assert_true (wb_date_parse (text, date, NULL));
}

static char *
next_id (void)
{
  static guint last;

  return g_strdup_printf ("n-%u", ++last);
}

static void
add_handover (GPtrArray      *records,
              const char     *id,
              WbHandoverKind  kind,
              const char     *on,
              const char     *from,
              const char     *to)
{
  WbHandover *handover = wb_record_new (WB_KIND_HANDOVER, id);

  handover->kind = kind;
  set_date (&handover->on, on);
  wb_set_text (&handover->from_holder, from);
  wb_set_text (&handover->to_holder, to);
  wb_set_text (&handover->from_signed, from);
  wb_set_text (&handover->to_signed, kind == WB_HANDOVER_DELIVERY ? NULL : to);
  wb_set_text (&handover->place, kind == WB_HANDOVER_INTO_STORAGE ? "Madison" : NULL);
  wb_set_text (&handover->vehicle, kind == WB_HANDOVER_PICKUP ? "van 12" : NULL);
  g_ptr_array_add (records, handover);
}

/* Five pieces of the lot teal, one without a tag; picked up, stored, delivered by another. */
static WbJob *
make_job (void)
{
  g_autoptr (WbJob) empty = wb_job_new ("job", "USD");
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  WbLot *lot = wb_record_new (WB_KIND_LOT, "teal");

  wb_set_text (&lot->colour, "teal");
  g_ptr_array_add (records, lot);
  for (guint i = 1; i <= 5; i++)
    {
      g_autofree char *id = g_strdup_printf ("p%u", i);
      WbPiece *piece = wb_record_new (WB_KIND_PIECE, id);

      wb_set_text (&piece->lot, "teal");
      if (i < 5)
        piece->tag = i;
      wb_set_text (&piece->marks, i == 2 ? "SC 4" : NULL);
      g_ptr_array_add (records, piece);
    }
  add_handover (records, "h1", WB_HANDOVER_PICKUP, "2026-03-01", "Ann Field", "Red Vans");
  add_handover (records, "h2", WB_HANDOVER_INTO_STORAGE, "2026-03-05", "Red Vans", "Quay Stores");
  add_handover (records, "h3", WB_HANDOVER_DELIVERY, "2026-03-04", "Blue Vans", "Ann Field");
  return wb_job_with_many (empty, records);
}

static WbJob *
count (WbJob      *job,
       const char *handover,
       const char *tags)
{
  g_autoptr (WbJob) before = job;
  g_autoptr (WbCountEntry) entry = wb_count_entry_read (before, tags, NULL);
  g_autoptr (WbJob) counted = wb_count_add (before, handover, entry, next_id, NULL);

  return wb_count_finish (counted, handover, next_id, NULL);
}

static void
test_stretches (void)
{
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (WbTrail) trail = wb_trail_new (job);
  g_autofree char *van = wb_words_stretch (wb_trail_stretch (trail, 1));
  g_autofree char *store = wb_words_stretch (wb_trail_stretch (trail, 2));

  g_assert_cmpstr (van, ==, "Red Vans: On a vehicle, van 12, from 1 Mar 2026 to 5 Mar 2026, 4 days");
  g_assert_cmpstr (store, ==, "Quay Stores: In a warehouse, Madison, from 5 Mar 2026 to 4 Mar 2026. "
                              "Received by Quay Stores, but next handed over by Blue Vans");
}

static void
test_faults (void)
{
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (WbTrail) trail = wb_trail_new (job);
  g_auto (GStrv) none = wb_words_handover_faults (trail, 0);
  g_auto (GStrv) faults = wb_words_handover_faults (trail, 2);

  g_assert_cmpuint (g_strv_length (none), ==, 0);
  g_assert_cmpuint (g_strv_length (faults), ==, 3);
  g_assert_cmpstr (faults[0], ==, "It is dated before “Vehicle to warehouse, 5 Mar 2026”, which comes "
                                  "before it.");
  g_assert_cmpstr (faults[1], ==, "The goods were received by Quay Stores, but handed over by Blue "
                                  "Vans.");
  g_assert_cmpstr (faults[2], ==, "The receiver has not signed.");
}

static void
test_piece (void)
{
  g_autoptr (WbJob) job = count (make_job (), "h2", "1-2, 4, 9");
  g_autoptr (WbJob) noted = NULL;
  g_autoptr (WbTrail) trail = NULL;
  g_autofree char *missing = NULL;
  g_autofree char *marked = NULL;
  g_autofree char *figures = NULL;
  g_autofree char *shortages = NULL;
  g_autofree char *strays = NULL;
  g_autofree char *where = NULL;

  noted = wb_count_note_marks (job, "h2", "p2", "SC 4-8", next_id, NULL);
  trail = wb_trail_new (noted);
  missing = wb_words_whereabouts (trail, 2);
  g_assert_cmpstr (missing, ==, "Missing: short at the handover “Vehicle to warehouse, 5 Mar 2026”. "
                                "Last with Red Vans, who received it at “Residence to vehicle, 1 Mar "
                                "2026”.");
  marked = wb_words_pass (trail, 1, 1);
  g_assert_cmpstr (marked, ==, "Counted. New: scratched: right.");
  figures = wb_words_handover_figures (wb_trail_handover (trail, 1));
  g_assert_cmpstr (figures, ==, "3 of 5 counted, 2 short, 1 over, 1 with new marks");
  shortages = wb_words_pieces (noted, wb_trail_handover (trail, 1)->shortages);
  g_assert_cmpstr (shortages, ==, "teal: 3; 1 piece without a tag");
  strays = wb_words_strays (wb_trail_handover (trail, 1)->strays);
  g_assert_cmpstr (strays, ==, "teal: 9");
  where = wb_words_whereabouts (trail, 0);
  g_assert_cmpstr (where, ==, "Delivered: with Ann Field, since 4 Mar 2026.");
}

static void
test_storage (void)
{
  g_autoptr (WbJob) job = wb_job_new ("job", "USD");
  g_autoptr (WbOrder) order = wb_record_copy (wb_job_order (job));
  g_autoptr (WbJob) stored = NULL;
  g_autofree char *words = NULL;
  g_autofree char *due = NULL;
  g_autofree char *nothing = NULL;
  WbStorageWatch watch;
  GDate today;

  set_date (&today, "2026-05-12");
  g_assert_true (wb_storage_watch (job, &today, &watch, NULL));
  nothing = wb_words_storage (&watch);
  g_assert_null (nothing);

  set_date (&order->storage_from, "2026-03-01");
  order->storage_days = 90;
  stored = wb_job_with (job, order);
  g_assert_true (wb_storage_watch (stored, &today, &watch, NULL));
  words = wb_words_storage (&watch);
  g_assert_cmpstr (words, ==, "In storage since 1 Mar 2026. Storage in transit ends on 30 May 2026, in "
                              "18 days. The shipper has to be told in writing by 20 May 2026, in 8 "
                              "days. (49 CFR 375.609)");
  due = wb_words_storage_due (&watch);
  g_assert_cmpstr (due, ==, "Notice that storage ends is due in 8 days");
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/office/words-trail/stretches", test_stretches);
  g_test_add_func ("/office/words-trail/faults", test_faults);
  g_test_add_func ("/office/words-trail/piece", test_piece);
  g_test_add_func ("/office/words-trail/storage", test_storage);
  return g_test_run ();
}
