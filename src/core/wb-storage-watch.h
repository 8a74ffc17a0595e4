/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/* Storage in transit: when it began, when it ends and turns into storage at the shipper's own risk,
 * and whether the notice of that went out in time. Pure; the caller says what day it is.
 *
 * 49 CFR 375.609 (as of 2015): written notice at least 10 days before the day of conversion, or 1
 * day when the goods are stored for fewer than 10; it names that day, the nine months after it in
 * which to claim, and that liability ends; without notice liability goes on, to the end of the day
 * after the one on which notice is given. 32 CFR 842.37 (as of 2015): 90 days, extendable to
 * 180. */

#define WB_STORAGE_NOTICE_CITATION    "49 CFR 375.609"
#define WB_STORAGE_MILITARY_CITATION  "32 CFR 842.37"
#define WB_STORAGE_MILITARY_DAYS      90
#define WB_STORAGE_MILITARY_MOST_DAYS 180

typedef enum
{
  WB_STORAGE_NONE,      /* nothing was stored */
  WB_STORAGE_NO_LIMIT,  /* in storage, with no limit and no last day given */
  WB_STORAGE_RUNNING,   /* in storage, today up to the last day */
  WB_STORAGE_PAST,      /* in storage, after the last day */
  WB_STORAGE_OUT,       /* taken out again */
} WbStorageState;

typedef enum
{
  WB_STORAGE_NOTICE_NONE,     /* not needed: nothing stored, or no last day known */
  WB_STORAGE_NOTICE_OPEN,     /* to be given, in time yet */
  WB_STORAGE_NOTICE_OVERDUE,  /* the last day to give it has gone by */
  WB_STORAGE_NOTICE_GIVEN,    /* in time */
  WB_STORAGE_NOTICE_LATE,     /* given, but too late for the last day */
} WbStorageNotice;

extern const WbEnum wb_storage_states, wb_storage_notices;

typedef enum
{
  WB_STORAGE_LIMIT_NONE,
  WB_STORAGE_LIMIT_ORDER,     /* the order's limit in days */
  WB_STORAGE_LIMIT_MILITARY,  /* 90 days, as the order gives none */
  WB_STORAGE_LIMIT_DATE,      /* the order's last day; no limit in days is given */
} WbStorageLimit;

/**
 * WbStorageWatch:
 * @from: first day in storage
 * @days: limit in days, or 0
 * @last_day: the day of conversion, @days after @from; unset when not known
 * @notice_lead: days before @last_day that the notice is due: 10 or 1
 * @notice_by: last day to give it; @notice_on: when it was given, or unset
 * @liable_until: last day of liability as carrier; unset while no notice is given
 * @claim_until: last day of the nine months after @last_day
 * @out_on: when the goods left; unset when they did not, or when nobody knows when
 * @days_stored: from @from to today or @out_on
 * @days_left: from today to @last_day, negative after it; only while running or past
 * @notice_days_left: from today to @notice_by; only while the notice is open or overdue
 * @beyond_most: a limit above the 180 days of a shipment of the Department of Defense
 */
typedef struct
{
  WbStorageState  state;
  WbStorageNotice notice;
  WbStorageLimit  limit;
  GDate           from;
  gint64          days;
  GDate           last_day;
  gint            notice_lead;
  GDate           notice_by;
  GDate           notice_on;
  GDate           liable_until;
  GDate           claim_until;
  GDate           out_on;
  gint            days_stored;
  gint            days_left;
  gint            notice_days_left;
  gboolean        beyond_most;
} WbStorageWatch;

/**
 * wb_storage_watch:
 * @out: (out)
 *
 * Storage begins with the order's first day or the first handover into storage, and ends with the
 * handover out of it, with delivery, or with the job. Returns: %FALSE with %WB_CORE_ERROR_RANGE
 * when a date falls outside the calendar.
 */
gboolean wb_storage_watch          (const WbJob           *job,
                                    const GDate           *today,
                                    WbStorageWatch        *out,
                                    GError               **error) G_GNUC_WARN_UNUSED_RESULT;

/** Whether a person has to act: the last day is at most 10 days off or past, or the notice is due
 * within 10 days or overdue. */
gboolean wb_storage_watch_is_due   (const WbStorageWatch  *self);

G_END_DECLS
