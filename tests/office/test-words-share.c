/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Published jobs in words. */
#include "config.h"

#include "office/wb-words-share.h"

static void
test_at (void)
{
  g_autofree char *good = wb_words_at ("2026-03-03T13:05:00Z");
  g_autofree char *bad = wb_words_at ("yesterday");

  g_assert_cmpstr (good, ==, "3 Mar 2026, 13:05");
  g_assert_cmpstr (bad, ==, "yesterday");
}

static void
assert_status (WbPublishState  state,
               const char     *by,
               const char     *at,
               const char     *expected)
{
  const WbPublishStatus status = { state, at != NULL, 1, (char *) at, (char *) by, NULL };
  g_autofree char *words = wb_words_publish_status (&status);

  g_assert_cmpstr (words, ==, expected);
}

static void
test_status (void)
{
  const char *at = "2026-03-03T13:05:00Z";

  assert_status (WB_PUBLISH_NEVER, NULL, NULL, "Never published");
  assert_status (WB_PUBLISH_SAME, "ann", at, "As published by ann on 3 Mar 2026, 13:05");
  assert_status (WB_PUBLISH_CHANGED_HERE, NULL, at,
                 "Changed here since it was published on 3 Mar 2026, 13:05");
  assert_status (WB_PUBLISH_CHANGED_THERE, "", at,
                 "Changed there: published on 3 Mar 2026, 13:05");
  assert_status (WB_PUBLISH_CHANGED_BOTH, "ann", NULL, "Changed here and there");
  assert_status (WB_PUBLISH_CHANGED_BOTH, "ann", at,
                 "Changed here, and there: published by ann on 3 Mar 2026, 13:05");
}

static void
assert_progress (WbProgressState  state,
                 const char      *expected)
{
  g_autofree char *words = wb_words_progress (&state);

  g_assert_cmpstr (words, ==, expected);
}

static void
test_progress (void)
{
  assert_progress ((WbProgressState) { .seconds_left = -1 }, "");
  assert_progress ((WbProgressState) { .n_done = 3, .n_all = 12, .seconds_left = -1 },
                   "3 of 12 files");
  assert_progress ((WbProgressState) { .n_done = 0, .n_all = 1, .seconds_left = -1 },
                   "0 of 1 file");
  assert_progress ((WbProgressState) { .done = 500000, .all = 2000000, .speed = 100000,
                                       .seconds_left = 15 },
                   "500.0\302\240kB of 2.0\302\240MB, 100.0\302\240kB a second, 15 seconds left");
}

static void
assert_left (gint64      seconds,
             const char *expected)
{
  g_autofree char *words = wb_words_seconds_left (seconds);

  g_assert_cmpstr (words, ==, expected);
}

static void
test_left (void)
{
  assert_left (0, "1 second left");
  assert_left (59, "59 seconds left");
  assert_left (60, "1 minute left");
  assert_left (61, "2 minutes left");
  assert_left (3599, "60 minutes left");
  assert_left (3600, "1 hour left");
  assert_left (3601, "2 hours left");
}

static void
test_published_job (void)
{
  const WbPublishedJob whole = {
    .id = (char *) "j", .from_city = (char *) "Dayton", .to_city = (char *) "Tulsa",
    .pickup = (char *) "2026-03-01", .stage = (char *) "delivered",
    .at = (char *) "2026-03-03T13:05:00Z", .by = (char *) "ann", .n_heads = 2,
  };
  const WbPublishedJob bare = { .id = (char *) "j", .to_city = (char *) "Tulsa",
                                .stage = (char *) "unheard-of", .pickup = (char *) "soon" };
  const WbPublishedJob faulty = { .id = (char *) "j", .fault = (char *) "It cannot be read." };
  g_autofree char *words = wb_words_published_job (&whole);
  g_autofree char *few = wb_words_published_job (&bare);
  g_autofree char *why = wb_words_published_job (&faulty);

  g_assert_cmpstr (words, ==, "Dayton → Tulsa · Delivered · pick-up 1 Mar 2026 · published by ann on "
                              "3 Mar 2026, 13:05 · several versions, which are still to be merged");
  g_assert_cmpstr (few, ==, "Tulsa · pick-up soon");
  g_assert_cmpstr (why, ==, "It cannot be read.");
}

static void
test_verified (void)
{
  g_autoptr (GPtrArray) faults = g_ptr_array_new ();
  g_autofree char *one = wb_words_verified (faults, 1);
  g_autofree char *all = wb_words_verified (faults, 7);
  g_autofree char *bad = NULL;

  g_assert_cmpstr (one, ==, "The 1 file on the server was read back and is what was published.");
  g_assert_cmpstr (all, ==, "All 7 files on the server were read back and are what was published.");
  g_ptr_array_add (faults, (gpointer) "job.json is missing.");
  bad = wb_words_verified (faults, 7);
  g_assert_true (g_str_has_prefix (bad, "Of 7 files on the server not all are well."));
  g_assert_true (g_str_has_suffix (bad, "\n\njob.json is missing."));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/office/words-share/at", test_at);
  g_test_add_func ("/office/words-share/status", test_status);
  g_test_add_func ("/office/words-share/progress", test_progress);
  g_test_add_func ("/office/words-share/left", test_left);
  g_test_add_func ("/office/words-share/published-job", test_published_job);
  g_test_add_func ("/office/words-share/verified", test_verified);
  return g_test_run ();
}
