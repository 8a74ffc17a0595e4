/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far a deed is: what is told, and the speed and the time left that come of it. */
#include "office/wb-progress.h"

static void
test_parts (void)
{
  g_autoptr (WbProgress) progress = wb_progress_new ();
  WbProgressState state;

  wb_progress_get (progress, &state);
  g_assert_null (state.words);
  g_assert_cmpint (state.seconds_left, ==, -1);

  wb_progress_begin (progress, "Reading", 3, 0);
  wb_progress_add (progress, 1, 70);
  wb_progress_add (progress, 1, 30);
  wb_progress_get (progress, &state);
  g_assert_cmpstr (state.words, ==, "Reading");
  g_assert_cmpuint (state.n_done, ==, 2);
  g_assert_cmpuint (state.n_all, ==, 3);
  g_assert_cmpint (state.done, ==, 100);
  g_assert_cmpint (state.all, ==, 0);

  wb_progress_begin (progress, "Writing", 0, 500);
  wb_progress_set (20, 400, progress);
  wb_progress_get (progress, &state);
  g_assert_cmpstr (state.words, ==, "Writing");
  g_assert_cmpuint (state.n_done, ==, 0);
  g_assert_cmpint (state.done, ==, 20);
  g_assert_cmpint (state.all, ==, 400);
}

/* 1,000,000 bytes took the time that really passed, which lies between two readings of the
 * clock. */
static void
test_speed (void)
{
  g_autoptr (WbProgress) progress = wb_progress_new ();
  gint64 before = g_get_monotonic_time (), begun, told, after;
  WbProgressState state;

  wb_progress_begin (progress, "Sending", 0, 3000000);
  begun = g_get_monotonic_time ();
  wb_progress_get (progress, &state);
  g_assert_cmpint (state.speed, ==, 0);
  g_assert_cmpint (state.seconds_left, ==, -1);

  g_usleep (50000);
  wb_progress_set (1000000, 3000000, progress);
  told = g_get_monotonic_time ();
  wb_progress_get (progress, &state);
  after = g_get_monotonic_time ();
  g_assert_cmpint (state.speed, >=, 1000000000 / ((after - before) / 1000 + 1));
  g_assert_cmpint (state.speed, <=, 1000000000 / ((told - begun) / 1000 - 1));
  g_assert_cmpint (state.seconds_left, ==, 2000000 / state.speed);
}

/* Whoever does a deed need not ask whether somebody wants to know. */
static void
test_nobody (void)
{
  wb_progress_begin (NULL, "Reading", 1, 1);
  wb_progress_set (1, 1, NULL);
  wb_progress_add (NULL, 1, 1);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/progress/parts", test_parts);
  g_test_add_func ("/progress/speed", test_speed);
  g_test_add_func ("/progress/nobody", test_nobody);
  return g_test_run ();
}
