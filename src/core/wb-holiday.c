/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The holidays of the United States, each by the rule that gives its day and the years in which the
 * rule held. State holidays are not here. */
#include "config.h"

#include "core/wb-holiday.h"

#define N_(text) text

static const WbEnumValue values[] = {
  { WB_HOLIDAY_NONE, "none", "" },
  { WB_HOLIDAY_NEW_YEAR, "new-year", N_("New Year’s Day") },
  { WB_HOLIDAY_KING, "king", N_("Birthday of Martin Luther King, Jr.") },
  { WB_HOLIDAY_WASHINGTON, "washington", N_("Washington’s Birthday") },
  { WB_HOLIDAY_MEMORIAL, "memorial", N_("Memorial Day") },
  { WB_HOLIDAY_JUNETEENTH, "juneteenth", N_("Juneteenth National Independence Day") },
  { WB_HOLIDAY_INDEPENDENCE, "independence", N_("Independence Day") },
  { WB_HOLIDAY_LABOR, "labor", N_("Labor Day") },
  { WB_HOLIDAY_COLUMBUS, "columbus", N_("Columbus Day") },
  { WB_HOLIDAY_VETERANS, "veterans", N_("Veterans Day") },
  { WB_HOLIDAY_THANKSGIVING, "thanksgiving", N_("Thanksgiving Day") },
  { WB_HOLIDAY_CHRISTMAS, "christmas", N_("Christmas Day") },
};
const WbEnum wb_holidays = { "holiday", values, G_N_ELEMENTS (values) };

#define LAST 5
#define ALWAYS 0
#define STILL G_MAXUINT16

/* @day: of the month, when @weekday is G_DATE_BAD_WEEKDAY; else which one of those weekdays */
typedef struct
{
  WbHoliday    holiday;
  GDateMonth   month;
  GDateWeekday weekday;
  guint        day;
  guint        from;
  guint        until;
} Rule;

#define ON(holiday, month, day, from, until) \
  { WB_HOLIDAY_##holiday, G_DATE_##month, G_DATE_BAD_WEEKDAY, day, from, until }
#define NTH(holiday, month, weekday, nth, from, until) \
  { WB_HOLIDAY_##holiday, G_DATE_##month, G_DATE_##weekday, nth, from, until }

static const Rule rules[] = {
  ON (NEW_YEAR, JANUARY, 1, ALWAYS, STILL),
  NTH (KING, JANUARY, MONDAY, 3, 1986, STILL),
  ON (WASHINGTON, FEBRUARY, 22, ALWAYS, 1970),
  NTH (WASHINGTON, FEBRUARY, MONDAY, 3, 1971, STILL),
  ON (MEMORIAL, MAY, 30, ALWAYS, 1970),
  NTH (MEMORIAL, MAY, MONDAY, LAST, 1971, STILL),
  ON (JUNETEENTH, JUNE, 19, 2021, STILL),
  ON (INDEPENDENCE, JULY, 4, ALWAYS, STILL),
  NTH (LABOR, SEPTEMBER, MONDAY, 1, 1894, STILL),
  NTH (COLUMBUS, OCTOBER, MONDAY, 2, 1971, STILL),
  ON (VETERANS, NOVEMBER, 11, 1938, 1970),
  NTH (VETERANS, OCTOBER, MONDAY, 4, 1971, 1977),
  ON (VETERANS, NOVEMBER, 11, 1978, STILL),
  NTH (THANKSGIVING, NOVEMBER, THURSDAY, 4, 1942, STILL),
  ON (CHRISTMAS, DECEMBER, 25, ALWAYS, STILL),
};

static gboolean
is_nth (GDate *date,
        guint  nth)
{
  guint day = g_date_get_day (date);
  guint length = g_date_get_days_in_month (g_date_get_month (date), g_date_get_year (date));

  return nth == LAST ? day + 7 > length : (day - 1) / 7 + 1 == nth;
}

WbHoliday
wb_holiday_find (const GDate *date)
{
  GDateMonth month;
  guint year;
  GDate copy;

  g_return_val_if_fail (date != NULL && g_date_valid (date), WB_HOLIDAY_NONE);

  copy = *date;
  year = g_date_get_year (&copy);
  month = g_date_get_month (&copy);
  for (gsize i = 0; i < G_N_ELEMENTS (rules); i++)
    {
      const Rule *rule = &rules[i];

      if (rule->month != month || year < rule->from || year > rule->until)
        continue;
      if (rule->weekday == G_DATE_BAD_WEEKDAY ? g_date_get_day (&copy) == rule->day
                                              : g_date_get_weekday (&copy) == rule->weekday
                                                && is_nth (&copy, rule->day))
        return rule->holiday;
    }

  return WB_HOLIDAY_NONE;
}
