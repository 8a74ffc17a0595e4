/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Civil dates and legal periods. Dates are GDate values held inside structs; a zero-initialised
 * (invalid) GDate is "not given". Nothing here asks what day it is. Years 1583 to 9999.
 *
 * A GDate works out its second form when first asked, even in a const one. Dates that come from
 * here carry both forms, so that threads may share them. */

typedef enum
{
  WB_PERIOD_NONE,
  WB_PERIOD_DAYS,
  WB_PERIOD_MONTHS,
  WB_PERIOD_YEARS,
} WbPeriodUnit;

/** Days that a period in days passes over. */
typedef enum
{
  WB_PERIOD_SKIPS_NONE      = 0,
  WB_PERIOD_SKIPS_SATURDAYS = 1 << 0,
  WB_PERIOD_SKIPS_SUNDAYS   = 1 << 1,
  WB_PERIOD_SKIPS_HOLIDAYS  = 1 << 2,   /* see wb-holiday.h */
} WbPeriodSkips;

/**
 * WbPeriod:
 * @count: 0 to 10000
 * @unit: %WB_PERIOD_NONE means that no period was given
 * @skips: flags of #WbPeriodSkips; 0 unless @unit is %WB_PERIOD_DAYS
 *
 * A legal period such as "120 days", "9 months" or "20 days without sundays and holidays".
 */
typedef struct
{
  gint         count;
  WbPeriodUnit unit;
  guint        skips;
} WbPeriod;

/** Whether @date (nullable) was given. */
gboolean wb_date_is_set      (const GDate  *date);

/**
 * wb_date_parse:
 * @text: ISO 8601 "YYYY-MM-DD" and nothing else
 * @out: (out): the date; untouched on failure
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_PARSE that repeats the text
 */
gboolean wb_date_parse       (const char   *text,
                              GDate        *out,
                              GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "YYYY-MM-DD"; "" when unset or %NULL. */
char    *wb_date_to_text     (const GDate  *date) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: <0, 0 or >0 as @a is before, on or after @b; unset dates come first. */
int      wb_date_compare     (const GDate  *a,
                              const GDate  *b);

/** Returns: days from @from to @to (negative when @to is earlier); both must be set. */
gint     wb_date_days_between (const GDate *from,
                               const GDate *to);

/**
 * wb_period_parse:
 * @text: "120 days", "1 day", "9 months", "2 years", in either case; behind days may stand
 *   "without" and, with commas or "and" between, "saturdays", "sundays", "weekends" (both),
 *   "holidays"
 * @out: (out): the period; untouched on failure
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_PARSE, or _RANGE when the count is over 10000
 */
gboolean wb_period_parse     (const char   *text,
                              WbPeriod     *out,
                              GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "120 days", "1 day", "20 days without sundays and holidays"; "" when
 * unset. */
char    *wb_period_to_text   (WbPeriod      period) G_GNUC_WARN_UNUSED_RESULT;
gboolean wb_period_is_set    (WbPeriod      period);

/**
 * wb_date_add_period:
 * @date: set
 * @period: set
 * @out: (out): the last day of @period when it starts on @date; untouched on failure
 *
 * Days are civil days, the first day not counted, nor those that the period skips, so that its last
 * day is none of those either, unless it has no day at all. Months and years keep the day of the month
 * and clamp to the month's end (31 January + 1 month = 28 or 29 February).
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_RANGE outside the years above
 */
gboolean wb_date_add_period  (const GDate  *date,
                              WbPeriod      period,
                              GDate        *out,
                              GError      **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
