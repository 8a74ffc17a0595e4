/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Holidays by rule against lists of days, and periods that pass over days against counting on the
 * fingers. */
#include "config.h"

#include <string.h>

#include "core/wb-calendar.h"
#include "core/wb-holiday.h"

#include "random-values.h"

static GDate
date_of (const char *text)
{
  g_autoptr (GError) error = NULL;
  GDate date;

  if (!wb_date_parse (text, &date, &error))
    g_error ("%s", error->message);
  return date;
}

/* The days of three years as calendars print them, from memory. */
static const char *const days[] = {
  "2024-01-01", "2024-01-15", "2024-02-19", "2024-05-27", "2024-06-19", "2024-07-04", "2024-09-02",
  "2024-10-14", "2024-11-11", "2024-11-28", "2024-12-25",
  "2025-01-01", "2025-01-20", "2025-02-17", "2025-05-26", "2025-06-19", "2025-07-04", "2025-09-01",
  "2025-10-13", "2025-11-11", "2025-11-27", "2025-12-25",
  "2026-01-01", "2026-01-19", "2026-02-16", "2026-05-25", "2026-06-19", "2026-07-04", "2026-09-07",
  "2026-10-12", "2026-11-11", "2026-11-26", "2026-12-25",
};

static void
test_days (void)
{
  GDate day = date_of ("2024-01-01");
  GDate end = date_of ("2026-12-31");
  guint n = 0;

  for (; wb_date_compare (&day, &end) <= 0; g_date_add_days (&day, 1))
    {
      WbHoliday holiday = wb_holiday_find (&day);

      if (holiday == WB_HOLIDAY_NONE)
        continue;
      g_assert_cmpuint (n, <, G_N_ELEMENTS (days));
      {
        g_autofree char *text = wb_date_to_text (&day);

        g_assert_cmpstr (text, ==, days[n]);
      }
      g_assert_cmpint (holiday, ==, (int) (n % 11) + 1);
      n++;
    }
  g_assert_cmpuint (n, ==, G_N_ELEMENTS (days));
}

/* Days of other years, when other rules held. */
static void
test_other_years (void)
{
  static const struct { const char *day; WbHoliday holiday; } cases[] = {
    { "2020-06-19", WB_HOLIDAY_NONE }, { "2021-06-19", WB_HOLIDAY_JUNETEENTH },
    { "1985-01-21", WB_HOLIDAY_NONE }, { "1986-01-20", WB_HOLIDAY_KING },
    { "1970-02-22", WB_HOLIDAY_WASHINGTON }, { "1971-02-22", WB_HOLIDAY_NONE },
    { "1971-02-15", WB_HOLIDAY_WASHINGTON }, { "1970-05-30", WB_HOLIDAY_MEMORIAL },
    { "1971-05-31", WB_HOLIDAY_MEMORIAL }, { "1971-05-30", WB_HOLIDAY_NONE },
    { "1975-11-11", WB_HOLIDAY_NONE }, { "1975-10-27", WB_HOLIDAY_VETERANS },
    { "1978-11-11", WB_HOLIDAY_VETERANS }, { "1978-10-23", WB_HOLIDAY_NONE },
    { "2010-12-31", WB_HOLIDAY_NONE },   /* offices closed for New Year's Day of 2011 */
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      GDate day = date_of (cases[i].day);

      g_assert_cmpint (wb_holiday_find (&day), ==, cases[i].holiday);
    }
}

/* From 2021 every year has eleven, each once. */
static void
test_every_year (void)
{
  for (guint year = 2021; year < 2421; year++)
    {
      guint seen[WB_HOLIDAY_CHRISTMAS + 1] = { 0 };
      GDate day;

      g_date_clear (&day, 1);
      g_date_set_dmy (&day, 1, G_DATE_JANUARY, (GDateYear) year);
      for (; g_date_get_year (&day) == year; g_date_add_days (&day, 1))
        seen[wb_holiday_find (&day)]++;
      for (int holiday = WB_HOLIDAY_NEW_YEAR; holiday <= WB_HOLIDAY_CHRISTMAS; holiday++)
        g_assert_cmpuint (seen[holiday], ==, 1);
    }
}

static void
test_table (void)
{
  for (gsize i = 1; i < wb_holidays.n_values; i++)
    g_assert_true (wb_enum_find_nick (&wb_holidays, wb_holidays.values[i].nick)
                   == &wb_holidays.values[i]);
}

/* --- periods ---------------------------------------------------------------------------------- */

static void
test_text (void)
{
  static const struct { const char *text, *canonical; } good[] = {
    { "20 days without sundays and holidays", "20 days without sundays and holidays" },
    { "20 Days  WITHOUT Holidays, Sundays", "20 days without sundays and holidays" },
    { "15 days without weekends and holidays",
      "15 days without saturdays, sundays and holidays" },
    { "1 day without sundays", "1 day without sundays" },
    { "10 days without weekends", "10 days without saturdays and sundays" },
    { "10 days without holidays", "10 days without holidays" },
  };
  static const char *const bad[] = {
    "20 days without", "20 days sundays", "2 months without sundays", "20 days without mondays",
    "20 days without and sundays", "20 days with sundays", "20 days without sundays or holidays",
    "20 days 3", "without sundays",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (good); i++)
    {
      g_autofree char *text = NULL;
      WbPeriod period, again;

      g_assert_true (wb_period_parse (good[i].text, &period, NULL));
      text = wb_period_to_text (period);
      g_assert_cmpstr (text, ==, good[i].canonical);
      g_assert_true (wb_period_parse (text, &again, NULL));
      g_assert_cmpmem (&period, sizeof period, &again, sizeof again);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) error = NULL;
      WbPeriod period;

      g_assert_false (wb_period_parse (bad[i], &period, &error));
      g_assert_nonnull (strstr (error->message, bad[i]));
    }
}

static void
test_counting (void)
{
  static const struct { const char *from, *period, *last; } cases[] = {
    /* Friday 1 March 2024: Sundays 3, 10, 17 and 24 are passed over, no holiday. */
    { "2024-03-01", "20 days without sundays and holidays", "2024-03-25" },
    /* Before Christmas 2024: Sunday 22, Christmas, Sunday 29, New Year. */
    { "2024-12-20", "10 days without sundays and holidays", "2025-01-03" },
    { "2024-12-20", "10 days without weekends and holidays", "2025-01-07" },
    { "2024-12-24", "1 day without holidays", "2024-12-26" },
    { "2024-12-25", "0 days without holidays", "2024-12-25" },
    { "2024-06-14", "1 day without saturdays", "2024-06-16" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      GDate from = date_of (cases[i].from), out;
      g_autofree char *text = NULL;
      WbPeriod period;

      g_assert_true (wb_period_parse (cases[i].period, &period, NULL));
      g_assert_true (wb_date_add_period (&from, period, &out, NULL));
      text = wb_date_to_text (&out);
      g_assert_cmpstr (text, ==, cases[i].last);
    }
}

/* The last day is none of those passed over, as many days as the period has are not, and passing
 * over more never ends earlier. */
static void
test_random (void)
{
  random_begin ();
  for (guint i = 0; i < 3000; i++)
    {
      WbPeriod period = { g_test_rand_int_range (1, 200), WB_PERIOD_DAYS,
                          (guint) g_test_rand_int_range (1, 8) };
      WbPeriod plain = { period.count, WB_PERIOD_DAYS };
      WbPeriod more = { period.count, WB_PERIOD_DAYS,
                        period.skips | (guint) g_test_rand_int_range (0, 8) };
      GDate from, last, plain_last, more_last;
      gint counted = 0;

      g_date_clear (&from, 1);
      g_date_set_julian (&from, (guint32) g_test_rand_int_range (720000, 760000));
      g_assert_true (wb_date_add_period (&from, period, &last, NULL));
      g_assert_true (wb_date_add_period (&from, plain, &plain_last, NULL));
      g_assert_true (wb_date_add_period (&from, more, &more_last, NULL));
      g_assert_cmpint (wb_date_compare (&plain_last, &last), <=, 0);
      g_assert_cmpint (wb_date_compare (&last, &more_last), <=, 0);
      while (wb_date_compare (&from, &last) < 0)
        {
          gboolean skipped;

          g_date_add_days (&from, 1);
          skipped = ((period.skips & WB_PERIOD_SKIPS_SATURDAYS) != 0
                     && g_date_get_weekday (&from) == G_DATE_SATURDAY)
                    || ((period.skips & WB_PERIOD_SKIPS_SUNDAYS) != 0
                        && g_date_get_weekday (&from) == G_DATE_SUNDAY)
                    || ((period.skips & WB_PERIOD_SKIPS_HOLIDAYS) != 0
                        && wb_holiday_find (&from) != WB_HOLIDAY_NONE);
          counted += skipped ? 0 : 1;
          g_assert_true (wb_date_compare (&from, &last) < 0 || !skipped);
        }
      g_assert_cmpint (counted, ==, period.count);
    }
}

/* At the end of the calendar there is no last day. */
static void
test_end (void)
{
  GDate from = date_of ("9999-12-20"), out;
  WbPeriod period = { 20, WB_PERIOD_DAYS, WB_PERIOD_SKIPS_SUNDAYS };

  g_assert_false (wb_date_add_period (&from, period, &out, NULL));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/core/holiday/days", test_days);
  g_test_add_func ("/core/holiday/other-years", test_other_years);
  g_test_add_func ("/core/holiday/every-year", test_every_year);
  g_test_add_func ("/core/holiday/table", test_table);
  g_test_add_func ("/core/holiday/period/text", test_text);
  g_test_add_func ("/core/holiday/period/counting", test_counting);
  g_test_add_func ("/core/holiday/period/random", test_random);
  g_test_add_func ("/core/holiday/period/end", test_end);

  return g_test_run ();
}
