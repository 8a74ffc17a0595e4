/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Civil dates and legal periods, against GDate's own day arithmetic and a calendar written anew. */
#include "config.h"

#include <string.h>
#include <time.h>

#include "core/wb-calendar.h"
#include "core/wb-core.h"

#include "random-values.h"

static GDate
date_of (const char *text)
{
  g_autoptr (GError) error = NULL;
  GDate date;

  g_date_clear (&date, 1);
  if (!wb_date_parse (text, &date, &error))
    g_error ("%s", error->message);
  return date;
}

static void
assert_date (const GDate *date,
             const char  *expected)
{
  g_autofree char *text = wb_date_to_text (date);

  g_assert_cmpstr (text, ==, expected);
}

/* Dates as text */

static void
test_date_parse (void)
{
  const char *texts[] = { "1583-01-01", "1600-02-29", "1999-12-31", "2000-02-29", "2023-06-05",
                          "2024-02-29", "9999-12-31" };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      GDate date = date_of (texts[i]);

      assert_date (&date, texts[i]);
      /* Nothing is left to be worked out in a date that threads may share. */
      g_assert_true (date.julian && date.dmy);
    }
}

static void
test_date_parse_errors (void)
{
  const char *texts[] = {
    "", " ", "2023", "2023-06", "2023-6-5", "2023-06-5", "2023-06-05 ", " 2023-06-05", "20230605",
    "2023/06/05", "06/05/2023", "05.06.2023", "2023-06-05T00:00:00", "2023-13-01", "2023-00-10",
    "2023-01-00", "2023-01-32", "2023-02-29", "1900-02-29", "2023-04-31", "0000-01-01",
    "1582-12-31", "-023-06-05", "+023-06-05", "2023-+6-05", "2023-06-0x", "12023-06-05",
    "2023-06-\xd9\xa5", "٢٠٢٣-06-05", "tomorrow", "2023-06-05\n", "\xff\xff\xff\xff-01-01",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (GError) error = NULL;
      GDate out = date_of ("2001-02-03");

      g_test_message ("row %" G_GSIZE_FORMAT, i);
      g_assert_false (wb_date_parse (texts[i], &out, &error));
      g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE);
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
      assert_date (&out, "2001-02-03");
    }
}

static void
test_date_messages (void)
{
  static const struct
  {
    const char *text;
    const char *message;
  } cases[] = {
    { "06/05/2023", "“06/05/2023” is not a date; write year-month-day, as in 2023-06-30" },
    { "2023-02-29", "“2023-02-29” is no day of the calendar" },
    { "1066-10-14", "“1066-10-14” lies before the year 1583" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      GDate out;

      g_assert_false (wb_date_parse (cases[i].text, &out, &error));
      g_assert_cmpstr (error->message, ==, cases[i].message);
    }
}

static void
test_date_unset (void)
{
  const GDate unset = { 0 };
  const GDate day = date_of ("1583-01-01");

  g_assert_false (wb_date_is_set (&unset));
  g_assert_false (wb_date_is_set (NULL));
  g_assert_true (wb_date_is_set (&day));
  assert_date (&unset, "");
  assert_date (NULL, "");

  g_assert_cmpint (wb_date_compare (&unset, &day), <, 0);
  g_assert_cmpint (wb_date_compare (&day, &unset), >, 0);
  g_assert_cmpint (wb_date_compare (&unset, NULL), ==, 0);
}

/* A const date that holds one form only stays as it was, to the bit. */
static void
check_const (const GDate *date)
{
  const GDate before = *date, other = date_of ("2024-03-01");
  const WbPeriod periods[] = { { 7, WB_PERIOD_DAYS }, { 1, WB_PERIOD_MONTHS } };
  GDate out;

  assert_date (date, "2021-07-29");
  g_assert_cmpint (wb_date_compare (date, &other), <, 0);
  g_assert_cmpint (wb_date_compare (&other, date), >, 0);
  g_assert_cmpint (wb_date_days_between (date, &other), ==, 946);
  for (gsize i = 0; i < G_N_ELEMENTS (periods); i++)
    g_assert_true (wb_date_add_period (date, periods[i], &out, NULL));

  g_assert_cmpmem (date, sizeof *date, &before, sizeof before);
}

static void
test_date_const (void)
{
  GDate julian, civil;

  memset (&julian, 0, sizeof julian);
  g_date_set_julian (&julian, 738000);
  check_const (&julian);

  memset (&civil, 0, sizeof civil);
  g_date_set_dmy (&civil, 29, G_DATE_JULY, 2021);
  check_const (&civil);
}

/* Periods as text */

static void
test_period_parse (void)
{
  static const struct
  {
    const char  *text;
    gint         count;
    WbPeriodUnit unit;
    const char  *canonical;
  } cases[] = {
    { "120 days", 120, WB_PERIOD_DAYS, "120 days" },
    { "1 day", 1, WB_PERIOD_DAYS, "1 day" },
    { "1 days", 1, WB_PERIOD_DAYS, "1 day" },
    { "9 months", 9, WB_PERIOD_MONTHS, "9 months" },
    { "1 Month", 1, WB_PERIOD_MONTHS, "1 month" },
    { "2 YEARS", 2, WB_PERIOD_YEARS, "2 years" },
    { " 30  days ", 30, WB_PERIOD_DAYS, "30 days" },
    { "30days", 30, WB_PERIOD_DAYS, "30 days" },
    { "0 days", 0, WB_PERIOD_DAYS, "0 days" },
    { "007 days", 7, WB_PERIOD_DAYS, "7 days" },
    { "10000 years", 10000, WB_PERIOD_YEARS, "10000 years" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *text = NULL;
      WbPeriod out;

      g_assert_true (wb_period_parse (cases[i].text, &out, &error));
      g_assert_no_error (error);
      g_assert_true (wb_period_is_set (out));
      g_assert_cmpint (out.count, ==, cases[i].count);
      g_assert_cmpint (out.unit, ==, cases[i].unit);
      text = wb_period_to_text (out);
      g_assert_cmpstr (text, ==, cases[i].canonical);
    }
}

static void
test_period_parse_errors (void)
{
  static const struct
  {
    const char *text;
    int         code;
  } cases[] = {
    { "", WB_CORE_ERROR_PARSE }, { "120", WB_CORE_ERROR_PARSE }, { "days", WB_CORE_ERROR_PARSE },
    { "-5 days", WB_CORE_ERROR_PARSE }, { "+5 days", WB_CORE_ERROR_PARSE },
    { "1.5 years", WB_CORE_ERROR_PARSE }, { "1,000 days", WB_CORE_ERROR_PARSE },
    { "5 weeks", WB_CORE_ERROR_PARSE }, { "5 business days", WB_CORE_ERROR_PARSE },
    { "5 days 3", WB_CORE_ERROR_PARSE }, { "five days", WB_CORE_ERROR_PARSE },
    { "5 \xff", WB_CORE_ERROR_PARSE }, { "5 day s", WB_CORE_ERROR_PARSE },
    { "10001 days", WB_CORE_ERROR_RANGE }, { "99999999999999999999 days", WB_CORE_ERROR_RANGE },
    { "4294967297 days", WB_CORE_ERROR_RANGE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      WbPeriod out = { 42, WB_PERIOD_YEARS };

      g_test_message ("row %" G_GSIZE_FORMAT, i);
      g_assert_false (wb_period_parse (cases[i].text, &out, &error));
      g_assert_error (error, WB_CORE_ERROR, cases[i].code);
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
      g_assert_cmpint (out.count, ==, 42);
    }
}

static void
test_period_walk (void)
{
  const WbPeriod unset = { 0 };
  g_autofree char *none = wb_period_to_text (unset);

  g_assert_false (wb_period_is_set (unset));
  g_assert_cmpstr (none, ==, "");

  for (int unit = WB_PERIOD_DAYS; unit <= WB_PERIOD_YEARS; unit++)
    for (gint count = 0; count <= 10000; count++)
      {
        g_autofree char *text = wb_period_to_text ((WbPeriod) { count, (WbPeriodUnit) unit });
        WbPeriod out;

        g_assert_true (wb_period_parse (text, &out, NULL));
        g_assert_cmpint (out.count, ==, count);
        g_assert_cmpint (out.unit, ==, unit);
      }
}

/* Adding */

static void
test_add_cases (void)
{
  static const struct
  {
    const char *date;
    const char *period;
    const char *expected;
  } cases[] = {
    { "2023-06-01", "0 days", "2023-06-01" },
    { "2023-06-01", "1 day", "2023-06-02" },
    { "2023-06-01", "30 days", "2023-07-01" },
    { "2023-06-01", "120 days", "2023-09-29" },
    { "2024-02-28", "1 day", "2024-02-29" },
    { "2023-02-28", "1 day", "2023-03-01" },
    { "2023-12-31", "1 day", "2024-01-01" },
    { "2023-06-01", "9 months", "2024-03-01" },
    { "2023-01-31", "1 month", "2023-02-28" },
    { "2024-01-31", "1 month", "2024-02-29" },
    { "2024-01-31", "2 months", "2024-03-31" },
    { "2023-05-31", "9 months", "2024-02-29" },
    { "2022-05-31", "9 months", "2023-02-28" },
    { "2023-05-30", "9 months", "2024-02-29" },
    { "2023-05-29", "9 months", "2024-02-29" },
    { "2023-05-28", "9 months", "2024-02-28" },
    { "2023-08-31", "1 month", "2023-09-30" },
    { "2023-12-15", "1 month", "2024-01-15" },
    { "2023-01-15", "11 months", "2023-12-15" },
    { "2023-01-15", "12 months", "2024-01-15" },
    { "2024-02-29", "1 year", "2025-02-28" },
    { "2024-02-29", "4 years", "2028-02-29" },
    { "1896-02-29", "4 years", "1900-02-28" },
    { "2023-06-01", "2 years", "2025-06-01" },
    { "2023-06-01", "0 months", "2023-06-01" },
    { "2023-06-01", "0 years", "2023-06-01" },
    { "9999-12-30", "1 day", "9999-12-31" },
    { "9999-11-30", "1 month", "9999-12-30" },
    { "1583-01-01", "8416 years", "9999-01-01" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      GDate date = date_of (cases[i].date), out;
      g_autoptr (GError) error = NULL;
      WbPeriod period;

      g_test_message ("%s + %s", cases[i].date, cases[i].period);
      g_assert_true (wb_period_parse (cases[i].period, &period, &error));
      g_assert_no_error (error);
      g_assert_true (wb_date_add_period (&date, period, &out, &error));
      g_assert_no_error (error);
      assert_date (&out, cases[i].expected);
      g_assert_true (out.julian && out.dmy);

      /* Into the date itself, too. */
      g_assert_true (wb_date_add_period (&date, period, &date, &error));
      assert_date (&date, cases[i].expected);
    }
}

static void
test_add_errors (void)
{
  static const struct
  {
    const char *date;
    WbPeriod    period;
  } cases[] = {
    { "9999-12-31", { 1, WB_PERIOD_DAYS } },
    { "9990-01-01", { 10000, WB_PERIOD_DAYS } },
    { "9999-12-01", { 1, WB_PERIOD_MONTHS } },
    { "9999-01-01", { 1, WB_PERIOD_YEARS } },
    { "2023-06-01", { 10000, WB_PERIOD_YEARS } },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      GDate date = date_of (cases[i].date), out = date_of ("2001-02-03");
      g_autoptr (GError) error = NULL;

      g_assert_false (wb_date_add_period (&date, cases[i].period, &out, &error));
      g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
      g_assert_nonnull (strstr (error->message, cases[i].date));
      assert_date (&out, "2001-02-03");
    }
}

/* A date of another origin may lie outside the years that are read. */
static void
test_add_foreign (void)
{
  const GDateYear years[] = { 1, 1582, 10000, 65000 };

  for (gsize i = 0; i < G_N_ELEMENTS (years); i++)
    for (int unit = WB_PERIOD_DAYS; unit <= WB_PERIOD_YEARS; unit++)
      {
        g_autoptr (GError) error = NULL;
        GDate date, out;

        g_date_clear (&date, 1);
        g_date_set_dmy (&date, 31, G_DATE_DECEMBER, years[i]);
        g_assert_false (wb_date_add_period (&date, (WbPeriod) { 1, (WbPeriodUnit) unit },
                                            &out, &error));
        g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
      }
}

/* Day by day through a cycle of 400 years: text, order and day arithmetic agree with GDate. */
static void
test_four_centuries (void)
{
  GDate today, first = date_of ("1999-12-31"), yesterday = first;
  g_autoptr (GError) error = NULL;
  guint days = 0;

  random_begin ();
  g_date_clear (&today, 1);
  g_date_set_dmy (&today, 1, G_DATE_JANUARY, 2000);

  while (g_date_get_year (&today) < 2400)
    {
      g_autofree char *expected = g_strdup_printf ("%04d-%02d-%02d", g_date_get_year (&today),
                                                   g_date_get_month (&today),
                                                   g_date_get_day (&today));
      GDate read = date_of (expected), sum, later = today;
      gint span = g_test_rand_int_range (0, 10001);

      assert_date (&today, expected);
      g_assert_cmpint (wb_date_compare (&read, &today), ==, 0);
      g_assert_cmpint (wb_date_compare (&yesterday, &today), <, 0);
      g_assert_cmpint (wb_date_compare (&today, &yesterday), >, 0);
      g_assert_cmpint (wb_date_days_between (&yesterday, &today), ==, 1);

      days++;
      g_assert_cmpint (wb_date_days_between (&first, &today), ==, (gint) days);
      g_assert_cmpint (wb_date_days_between (&today, &first), ==, -(gint) days);

      g_assert_true (wb_date_add_period (&today, (WbPeriod) { span, WB_PERIOD_DAYS }, &sum,
                                         &error));
      g_assert_no_error (error);
      g_date_add_days (&later, (guint) span);
      g_assert_cmpint (g_date_compare (&sum, &later), ==, 0);
      g_assert_cmpint (wb_date_days_between (&today, &sum), ==, span);

      yesterday = today;
      g_date_add_days (&today, 1);
    }

  g_assert_cmpuint (days, ==, 146097);
}

/* The same 400 years against the other calendar that GLib has, which counts seconds of a proleptic
 * Gregorian calendar and shares no code with GDate: days between, days and months added. */
static void
test_date_time (void)
{
  g_autoptr (GTimeZone) utc = g_time_zone_new_utc ();
  g_autoptr (GDateTime) start = g_date_time_new (utc, 2000, 1, 1, 0, 0, 0);
  GDate first = date_of ("2000-01-01");

  random_begin ();
  for (gint i = 0; i < 146097; i++)
    {
      g_autoptr (GDateTime) there = g_date_time_add_days (start, i);
      g_autofree char *text = g_date_time_format (there, "%Y-%m-%d");
      gint months = g_test_rand_int_range (0, 600);
      g_autoptr (GDateTime) later = g_date_time_add_months (there, months);
      g_autofree char *later_text = g_date_time_format (later, "%Y-%m-%d");
      GDate here = date_of (text), sum;

      g_assert_cmpint (wb_date_days_between (&first, &here), ==, i);
      g_assert_true (wb_date_add_period (&first, (WbPeriod) { MIN (i, 10000), WB_PERIOD_DAYS },
                                         &sum, NULL));
      if (i <= 10000)
        g_assert_cmpint (wb_date_compare (&sum, &here), ==, 0);
      g_assert_true (wb_date_add_period (&here, (WbPeriod) { months, WB_PERIOD_MONTHS }, &sum,
                                         NULL));
      assert_date (&sum, later_text);
    }
}

/* The same 400 years against the C library, which knows nothing of GLib's calendars: days added,
 * the days of the week that a period passes over, and the day on which each falls. */
static void
test_c_library (void)
{
  struct tm civil = { .tm_year = 100, .tm_mday = 1 };
  const time_t start = timegm (&civil);

  random_begin ();
  for (gint i = 0; i < 146097; i++)
    {
      time_t moment = start + (time_t) i * 86400, later;
      gint span = g_test_rand_int_range (0, 10001), workdays = g_test_rand_int_range (1, 30);
      gint left = workdays;
      char text[16], expected[16];
      GDate here, sum;

      gmtime_r (&moment, &civil);
      strftime (text, sizeof text, "%Y-%m-%d", &civil);
      here = date_of (text);
      g_assert_cmpint (g_date_get_weekday (&here) % 7, ==, civil.tm_wday);

      later = moment + (time_t) span * 86400;
      strftime (expected, sizeof expected, "%Y-%m-%d", gmtime_r (&later, &civil));
      g_assert_true (wb_date_add_period (&here, (WbPeriod) { span, WB_PERIOD_DAYS }, &sum, NULL));
      assert_date (&sum, expected);
      g_assert_cmpint (wb_date_days_between (&here, &sum), ==, span);

      for (later = moment; left > 0; left -= civil.tm_wday > 0 && civil.tm_wday < 6)
        {
          later += 86400;
          gmtime_r (&later, &civil);
        }
      strftime (expected, sizeof expected, "%Y-%m-%d", &civil);
      g_assert_true (wb_date_add_period (&here,
                                         (WbPeriod) { workdays, WB_PERIOD_DAYS,
                                                      WB_PERIOD_SKIPS_SATURDAYS
                                                      | WB_PERIOD_SKIPS_SUNDAYS },
                                         &sum, NULL));
      assert_date (&sum, expected);
    }
}

/* A calendar of its own: walks month by month and clamps to the month's length. */
static void
walk_months (gint *year,
             gint *month,
             gint *day,
             gint  count)
{
  static const gint lengths[] = { 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31 };
  gint length;

  for (; count > 0; count--)
    {
      (*month)++;
      if (*month == 13)
        {
          *month = 1;
          (*year)++;
        }
    }

  length = lengths[*month - 1];
  if (*month == 2 && *year % 4 == 0 && (*year % 100 != 0 || *year % 400 == 0))
    length = 29;
  if (*day > length)
    *day = length;
}

static void
test_months_random (void)
{
  random_begin ();
  for (guint i = 0; i < 20000; i++)
    {
      GDate date, out;
      gint year, month, day;
      gboolean years = g_test_rand_int_range (0, 4) == 0;
      gint count = years ? g_test_rand_int_range (0, 60) : g_test_rand_int_range (0, 800);
      WbPeriod period = { count, years ? WB_PERIOD_YEARS : WB_PERIOD_MONTHS };
      g_autoptr (GError) error = NULL;
      g_autofree char *expected = NULL;

      g_date_clear (&date, 1);
      g_date_set_dmy (&date, 1, G_DATE_JANUARY, 1583);
      g_date_add_days (&date, (guint) g_test_rand_int_range (0, 8300 * 365));
      /* The ends of months are where it matters. */
      if (i % 2 == 0)
        g_date_set_day (&date, g_date_get_days_in_month (g_date_get_month (&date),
                                                         g_date_get_year (&date)));
      year = g_date_get_year (&date);
      month = (gint) g_date_get_month (&date);
      day = g_date_get_day (&date);
      walk_months (&year, &month, &day, years ? count * 12 : count);

      g_assert_true (wb_date_add_period (&date, period, &out, &error));
      g_assert_no_error (error);
      expected = g_strdup_printf ("%04d-%02d-%02d", year, month, day);
      assert_date (&out, expected);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/calendar/date/parse", test_date_parse);
  g_test_add_func ("/core/calendar/date/parse-errors", test_date_parse_errors);
  g_test_add_func ("/core/calendar/date/messages", test_date_messages);
  g_test_add_func ("/core/calendar/date/unset", test_date_unset);
  g_test_add_func ("/core/calendar/date/const", test_date_const);
  g_test_add_func ("/core/calendar/period/parse", test_period_parse);
  g_test_add_func ("/core/calendar/period/parse-errors", test_period_parse_errors);
  g_test_add_func ("/core/calendar/period/walk", test_period_walk);
  g_test_add_func ("/core/calendar/add/cases", test_add_cases);
  g_test_add_func ("/core/calendar/add/errors", test_add_errors);
  g_test_add_func ("/core/calendar/add/foreign", test_add_foreign);
  g_test_add_func ("/core/calendar/add/four-centuries", test_four_centuries);
  g_test_add_func ("/core/calendar/add/date-time", test_date_time);
  g_test_add_func ("/core/calendar/add/c-library", test_c_library);
  g_test_add_func ("/core/calendar/add/months-random", test_months_random);
  return g_test_run ();
}
