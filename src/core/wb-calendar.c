/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Civil dates and legal periods. Nothing here knows what day it is; which days are holidays is in
 * wb-holiday.c. */
#include "config.h"

#include "core/wb-calendar.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-holiday.h"
#include "core/wb-text.h"

#define FIRST_YEAR 1583
#define LAST_YEAR 9999
#define MAX_COUNT 10000

/* GDate holds a date in two forms and works out the other when first asked, in a date that the
 * caller calls const. Dates made here carry both, so that threads may share them; a date of unknown
 * origin is copied before it is asked. */
static GDate
make_date (gint year,
           gint month,
           gint day)
{
  GDate date;

  g_date_clear (&date, 1);
  g_date_set_dmy (&date, (GDateDay) day, (GDateMonth) month, (GDateYear) year);
  (void) g_date_get_julian (&date);

  return date;
}

gboolean
wb_date_is_set (const GDate *date)
{
  return date != NULL && g_date_valid (date);
}

/* Reads @n digits; -1 when there is something else. */
static gint
read_digits (const char *text,
             gsize       n)
{
  gint value = 0;

  for (gsize i = 0; i < n; i++)
    {
      if (!g_ascii_isdigit (text[i]))
        return -1;
      value = value * 10 + g_ascii_digit_value (text[i]);
    }

  return value;
}

gboolean
wb_date_parse (const char  *text,
               GDate       *out,
               GError     **error)
{
  g_autofree char *quoted = NULL;
  gint year = -1, month = -1, day = -1;

  g_return_val_if_fail (text != NULL, FALSE);
  g_return_val_if_fail (out != NULL, FALSE);

  if (strlen (text) == strlen ("YYYY-MM-DD") && text[4] == '-' && text[7] == '-')
    {
      year = read_digits (text, 4);
      month = read_digits (text + 5, 2);
      day = read_digits (text + 8, 2);
    }

  if (year >= FIRST_YEAR && month >= 0 && day >= 0
      && g_date_valid_dmy ((GDateDay) day, (GDateMonth) month, (GDateYear) year))
    {
      *out = make_date (year, month, day);
      return TRUE;
    }

  quoted = wb_text_quote (text, -1);
  if (year < 0 || month < 0 || day < 0)
    g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
                 "%s is not a date; write year-month-day, as in 2023-06-30", quoted);
  else if (year < FIRST_YEAR)
    g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
                 "%s lies before the year %d", quoted, FIRST_YEAR);
  else
    g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE, "%s is no day of the calendar", quoted);
  return FALSE;
}

char *
wb_date_to_text (const GDate *date)
{
  GDate copy;

  if (!wb_date_is_set (date))
    return g_strdup ("");

  copy = *date;
  return g_strdup_printf ("%04d-%02d-%02d", (int) g_date_get_year (&copy),
                          (int) g_date_get_month (&copy), (int) g_date_get_day (&copy));
}

/* Days since a fixed day; 0 when unset, before any day. */
static gint
day_number (const GDate *date)
{
  GDate copy;

  if (!wb_date_is_set (date))
    return 0;

  copy = *date;
  return (gint) g_date_get_julian (&copy);
}

int
wb_date_compare (const GDate *a,
                 const GDate *b)
{
  gint first = day_number (a);
  gint second = day_number (b);

  return (first > second) - (first < second);
}

gint
wb_date_days_between (const GDate *from,
                      const GDate *to)
{
  g_return_val_if_fail (wb_date_is_set (from), 0);
  g_return_val_if_fail (wb_date_is_set (to), 0);

  return day_number (to) - day_number (from);
}

typedef struct
{
  WbPeriodUnit unit;
  const char  *one;
  const char  *many;
} PeriodName;

static const PeriodName period_names[] = {
  { WB_PERIOD_DAYS, "day", "days" },
  { WB_PERIOD_MONTHS, "month", "months" },
  { WB_PERIOD_YEARS, "year", "years" },
};

static WbPeriodUnit
find_period_unit (const char *name)
{
  for (gsize i = 0; i < G_N_ELEMENTS (period_names); i++)
    if (g_ascii_strcasecmp (name, period_names[i].one) == 0
        || g_ascii_strcasecmp (name, period_names[i].many) == 0)
      return period_names[i].unit;

  return WB_PERIOD_NONE;
}

static const struct
{
  guint       skips;
  const char *word;
} skip_words[] = {
  { WB_PERIOD_SKIPS_SATURDAYS, "saturdays" },
  { WB_PERIOD_SKIPS_SUNDAYS, "sundays" },
  { WB_PERIOD_SKIPS_HOLIDAYS, "holidays" },
  { WB_PERIOD_SKIPS_SATURDAYS | WB_PERIOD_SKIPS_SUNDAYS, "weekends" },
};

static guint
find_skips (const char *word)
{
  for (gsize i = 0; i < G_N_ELEMENTS (skip_words); i++)
    if (g_ascii_strcasecmp (word, skip_words[i].word) == 0)
      return skip_words[i].skips;

  return WB_PERIOD_SKIPS_NONE;
}

/* Cuts "without …" off behind the unit in @name. Returns: %FALSE when that does not read. */
static gboolean
take_skips (char  *name,
            guint *skips)
{
  g_auto (GStrv) words = g_strsplit_set (name, " \t,", -1);
  guint n_skips = 0;
  gsize end = strcspn (name, " \t,");

  *skips = WB_PERIOD_SKIPS_NONE;
  if (name[end] == '\0')
    return TRUE;

  name[end] = '\0';
  for (guint i = 1, n = 0; words[i] != NULL; i++)
    {
      guint found;

      if (*words[i] == '\0')
        continue;
      if (n++ == 0)
        {
          if (g_ascii_strcasecmp (words[i], "without") != 0)
            return FALSE;
          continue;
        }
      if (n_skips > 0 && g_ascii_strcasecmp (words[i], "and") == 0)
        continue;
      found = find_skips (words[i]);
      if (found == WB_PERIOD_SKIPS_NONE)
        return FALSE;
      *skips |= found;
      n_skips++;
    }
  return n_skips > 0;
}

gboolean
wb_period_parse (const char  *text,
                 WbPeriod    *out,
                 GError     **error)
{
  g_autofree char *quoted = NULL;
  g_autofree char *name = NULL;
  const char *start, *p;
  gint count = 0;
  guint skips = 0;
  gboolean reads;
  WbPeriodUnit unit;

  g_return_val_if_fail (text != NULL, FALSE);
  g_return_val_if_fail (out != NULL, FALSE);

  start = wb_text_skip_space (text);
  for (p = start; g_ascii_isdigit (*p); p++)
    if (count <= MAX_COUNT)
      count = count * 10 + g_ascii_digit_value (*p);

  name = g_strchomp (g_strdup (wb_text_skip_space (p)));
  reads = take_skips (name, &skips);
  unit = find_period_unit (name);
  quoted = wb_text_quote (text, -1);

  if (p == start || unit == WB_PERIOD_NONE || !reads
      || (skips != WB_PERIOD_SKIPS_NONE && unit != WB_PERIOD_DAYS))
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
                   "%s is not a period; write a number and days, months or years, as in “120 "
                   "days”, or “20 days without sundays and holidays”", quoted);
      return FALSE;
    }
  if (count > MAX_COUNT)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                   "%s is longer than %d %s, the longest period", quoted, MAX_COUNT, name);
      return FALSE;
    }

  *out = (WbPeriod) { count, unit, skips };
  return TRUE;
}

static void
append_skips (GString *out,
              guint    skips)
{
  guint n = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (skip_words) - 1; i++)
    {
      gboolean last = (skips & ~(skip_words[i].skips * 2 - 1)) == 0;

      if ((skips & skip_words[i].skips) == 0)
        continue;
      g_string_append (out, n == 0 ? " without " : last ? " and " : ", ");
      g_string_append (out, skip_words[i].word);
      n++;
    }
}

char *
wb_period_to_text (WbPeriod period)
{
  GString *out = g_string_new (NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (period_names); i++)
    if (period_names[i].unit == period.unit)
      g_string_append_printf (out, "%d %s", period.count,
                              period.count == 1 ? period_names[i].one : period_names[i].many);
  append_skips (out, period.skips);
  return g_string_free (out, FALSE);
}

gboolean
wb_period_is_set (WbPeriod period)
{
  return period.unit != WB_PERIOD_NONE;
}

/* Returns FALSE when the result is past the last year. */
static gboolean
add_days (const GDate *date,
          gint         count,
          GDate       *out)
{
  GDate last = make_date (LAST_YEAR, 12, 31);
  GDate sum;

  if (count > wb_date_days_between (date, &last))
    return FALSE;

  g_date_clear (&sum, 1);
  g_date_set_julian (&sum, (guint32) (day_number (date) + count));
  *out = make_date (g_date_get_year (&sum), (gint) g_date_get_month (&sum), g_date_get_day (&sum));
  return TRUE;
}

/* @number: of the day, of which 1 was a Monday */
static gboolean
is_skipped (gint64 number,
            guint  skips)
{
  gint64 weekday = (number - 1) % 7 + 1;
  GDate day;

  if (((skips & WB_PERIOD_SKIPS_SATURDAYS) != 0 && weekday == G_DATE_SATURDAY)
      || ((skips & WB_PERIOD_SKIPS_SUNDAYS) != 0 && weekday == G_DATE_SUNDAY))
    return TRUE;
  if ((skips & WB_PERIOD_SKIPS_HOLIDAYS) == 0)
    return FALSE;

  g_date_clear (&day, 1);
  g_date_set_julian (&day, (guint32) number);
  return wb_holiday_find (&day) != WB_HOLIDAY_NONE;
}

/* Day by day, for no more than 10,000 of them and what lies between. */
static gboolean
add_counted_days (const GDate *date,
                  gint         count,
                  guint        skips,
                  GDate       *out)
{
  GDate last = make_date (LAST_YEAR, 12, 31);
  gint64 room = wb_date_days_between (date, &last);
  gint64 start = day_number (date);
  gint days = 0;

  while (count > 0)
    {
      if (++days > room)
        return FALSE;
      count -= is_skipped (start + days, skips) ? 0 : 1;
    }
  return add_days (date, days, out);
}

static gboolean
add_months (const GDate *date,
            gint         count,
            GDate       *out)
{
  GDate copy = *date;
  gint months, year, month, day;

  months = g_date_get_year (&copy) * 12 + (gint) g_date_get_month (&copy) - 1 + count;
  year = months / 12;
  month = months % 12 + 1;
  if (year > LAST_YEAR)
    return FALSE;

  day = MIN (g_date_get_day (&copy),
             g_date_get_days_in_month ((GDateMonth) month, (GDateYear) year));
  *out = make_date (year, month, day);
  return TRUE;
}

static gboolean
add_period (const GDate *date,
            WbPeriod     period,
            GDate       *out)
{
  switch (period.unit)
    {
    case WB_PERIOD_NONE:
      break;
    case WB_PERIOD_DAYS:
      if (period.skips != WB_PERIOD_SKIPS_NONE)
        return add_counted_days (date, period.count, period.skips, out);
      return add_days (date, period.count, out);
    case WB_PERIOD_MONTHS:
      return add_months (date, period.count, out);
    case WB_PERIOD_YEARS:
      return add_months (date, period.count * 12, out);
    }

  g_return_val_if_reached (FALSE);
}

gboolean
wb_date_add_period (const GDate  *date,
                    WbPeriod      period,
                    GDate        *out,
                    GError      **error)
{
  g_autofree char *start = NULL;
  g_autofree char *length = NULL;
  GDate copy, end;

  g_return_val_if_fail (wb_date_is_set (date), FALSE);
  g_return_val_if_fail (wb_period_is_set (period), FALSE);
  g_return_val_if_fail (period.count >= 0 && period.count <= MAX_COUNT, FALSE);
  g_return_val_if_fail (out != NULL, FALSE);

  copy = *date;
  if (g_date_get_year (&copy) >= FIRST_YEAR && add_period (&copy, period, &end))
    {
      *out = end;
      return TRUE;
    }

  start = wb_date_to_text (date);
  length = wb_period_to_text (period);
  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
               "%s after %s is not within the years %d to %d",
               length, start, FIRST_YEAR, LAST_YEAR);
  return FALSE;
}
