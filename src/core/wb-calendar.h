/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Civil dates are GDate values held inside structs; a zero-initialised (invalid) GDate is "not given".
 * Nothing here asks what day it is. Years 1583 to 9999. */

typedef enum
{
  WB_PERIOD_NONE,
  WB_PERIOD_DAYS,
  WB_PERIOD_MONTHS,
  WB_PERIOD_YEARS,
} WbPeriodUnit;

/** WbPeriod: a legal period such as "120 days" or "9 months"; unset when @unit is %WB_PERIOD_NONE. */
typedef struct
{
  gint         count;
  WbPeriodUnit unit;
} WbPeriod;

gboolean wb_date_is_set      (const GDate  *date);

/** Reads ISO 8601 "YYYY-MM-DD" strictly. %FALSE with %WB_CORE_ERROR_PARSE that repeats the text. */
gboolean wb_date_parse       (const char   *text,
                              GDate        *out,
                              GError      **error);

/** Returns: (transfer full): "YYYY-MM-DD"; "" when unset. */
char    *wb_date_to_text     (const GDate  *date) G_GNUC_WARN_UNUSED_RESULT;

/** Unset dates sort first. Returns: <0, 0, >0. */
int      wb_date_compare     (const GDate  *a,
                              const GDate  *b);

/** Returns: days from @from to @to (negative when @to is earlier); both must be set. */
gint     wb_date_days_between (const GDate *from,
                               const GDate *to);

/** Reads "120 days", "1 day", "9 months", "2 years"; count 0 to 10000. */
gboolean wb_period_parse     (const char   *text,
                              WbPeriod     *out,
                              GError      **error);
char    *wb_period_to_text   (WbPeriod      period) G_GNUC_WARN_UNUSED_RESULT;
gboolean wb_period_is_set    (WbPeriod      period);

/**
 * wb_date_add_period:
 * @date: set
 * @period: set
 *
 * The last day of a period that starts on @date. Days are plain civil days, the first day not counted. Months
 * and years keep the day of the month and clamp to the month's end (31 January + 1 month = 28 or 29 February).
 * %FALSE with %WB_CORE_ERROR_RANGE outside the years above.
 */
gboolean wb_date_add_period  (const GDate  *date,
                              WbPeriod      period,
                              GDate        *out,
                              GError      **error);

G_END_DECLS
