/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every clock says why it ends when it does. */
#include "config.h"

#include "office/wb-words-clock.h"

#include "core/wb-core.h"

#include <string.h>

static void
assert_period (const char *text,
               const char *expected)
{
  WbPeriod period;
  g_autofree char *words = NULL;

  g_assert_true (wb_period_parse (text, &period, NULL));
  words = wb_words_period (period);
  g_assert_cmpstr (words, ==, expected);
}

static void
test_period (void)
{
  assert_period ("1 day", "1 day");
  assert_period ("9 months", "9 months");
  assert_period ("2 years", "2 years");
  assert_period ("20 days without sundays and holidays", "20 days without Sundays and holidays");
  assert_period ("15 days without weekends and holidays",
                 "15 days without Saturdays, Sundays and holidays");
  assert_period ("5 days without weekends", "5 days without Saturdays and Sundays");
}

static void
test_every_kind (void)
{
  for (gsize i = 0; i < wb_clock_kinds.n_values; i++)
    {
      WbClock clock = { .kind = (WbClockKind) wb_clock_kinds.values[i].value,
                        .state = WB_CLOCK_RUNNING, .period = { 45, WB_PERIOD_DAYS } };
      g_autofree char *running = NULL;
      g_autofree char *waiting = NULL;

      g_assert_true (wb_date_parse ("2026-03-04", &clock.from, NULL));
      running = wb_words_clock_why (&clock);
      g_assert_nonnull (strstr (running, "45 days"));
      g_assert_true (clock.kind == WB_CLOCK_STATUS || strstr (running, "4 Mar 2026") != NULL);
      clock.state = WB_CLOCK_NOT_STARTED;
      waiting = wb_words_clock_why (&clock);
      g_assert_true (g_str_has_prefix (waiting, "Waits for "));
    }
}

static void
test_mediation (void)
{
  WbClock clock = { .kind = WB_CLOCK_MEDIATE, .state = WB_CLOCK_RUNNING,
                    .key = WB_KEY_MEDIATE_UNTIL, .period = { 120, WB_PERIOD_DAYS } };
  g_autofree char *words = NULL;

  g_assert_true (wb_date_parse ("2026-03-04", &clock.from, NULL));
  words = wb_words_clock_why (&clock);
  g_assert_cmpstr (words, ==, "120 days from 4 Mar 2026, when the claim was received: after that"
                   " mediation is refused.");
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/office/words-clock/period", test_period);
  g_test_add_func ("/office/words-clock/every-kind", test_every_kind);
  g_test_add_func ("/office/words-clock/mediation", test_mediation);
  return g_test_run ();
}
