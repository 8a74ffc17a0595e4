/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The dates of storage in transit and how they stand on a given day. Asks no clock, writes no
 * notice. */
#include "config.h"

#include "core/wb-storage-watch.h"

#include "core/wb-calendar.h"

#define N_(text) text

/* 49 CFR 375.609: days of notice, and of storage from which the longer notice is due. */
#define LONG_NOTICE_DAYS   10
#define SHORT_NOTICE_DAYS  1
#define SHORT_STORAGE_DAYS 10
#define CLAIM_MONTHS       9

/* How long before a date it is shown as due; ours, not a rule's. */
#define WARN_DAYS          10

static const WbEnumValue states[] = {
  { WB_STORAGE_NONE, "none", N_("Nothing in storage") },
  { WB_STORAGE_NO_LIMIT, "no-limit", N_("In storage without a limit") },
  { WB_STORAGE_RUNNING, "running", N_("In storage") },
  { WB_STORAGE_PAST, "past", N_("In storage past the last day") },
  { WB_STORAGE_OUT, "out", N_("Out of storage") },
};
const WbEnum wb_storage_states = { "state of storage", states, G_N_ELEMENTS (states) };

static const WbEnumValue notices[] = {
  { WB_STORAGE_NOTICE_NONE, "none", N_("No notice needed") },
  { WB_STORAGE_NOTICE_OPEN, "open", N_("Notice to be given") },
  { WB_STORAGE_NOTICE_OVERDUE, "overdue", N_("Notice overdue") },
  { WB_STORAGE_NOTICE_GIVEN, "given", N_("Notice given") },
  { WB_STORAGE_NOTICE_LATE, "late", N_("Notice given late") },
};
const WbEnum wb_storage_notices = { "notice that storage ends", notices, G_N_ELEMENTS (notices) };

/* The first handover of @kind at or behind place @start, or -1. */
static gint
find_handover (const WbJob    *job,
               WbHandoverKind  kind,
               guint           start)
{
  for (guint i = start; i < wb_job_count (job, WB_KIND_HANDOVER); i++)
    if (((const WbHandover *) wb_job_nth (job, WB_KIND_HANDOVER, i))->kind == kind)
      return (gint) i;

  return -1;
}

static void
find_beginning (const WbJob    *job,
                gint            into,
                WbStorageWatch *watch)
{
  const WbOrder *order = wb_job_order (job);

  if (wb_date_is_set (&order->storage_from))
    watch->from = order->storage_from;
  else if (into >= 0)
    watch->from = ((const WbHandover *) wb_job_nth (job, WB_KIND_HANDOVER, (guint) into))->on;
}

/* Whether the goods are out again, and when if that is known. */
static gboolean
is_out (const WbJob *job,
        gint         into,
        GDate       *on)
{
  const WbOrder *order = wb_job_order (job);
  guint start = (guint) (into + 1);
  gint out = find_handover (job, WB_HANDOVER_OUT_OF_STORAGE, start);

  if (out < 0)
    out = find_handover (job, WB_HANDOVER_DELIVERY, start);
  if (out >= 0)
    {
      *on = ((const WbHandover *) wb_job_nth (job, WB_KIND_HANDOVER, (guint) out))->on;
      return TRUE;
    }
  if (wb_date_is_set (&order->delivered_on))
    {
      *on = wb_date_is_set (&order->storage_to) ? order->storage_to : order->delivered_on;
      return TRUE;
    }

  return order->stage == WB_STAGE_DELIVERED || order->stage == WB_STAGE_CLOSED
         || order->stage == WB_STAGE_CANCELLED;
}

static gboolean
add_days (const GDate  *date,
          gint          days,
          GDate        *out,
          GError      **error)
{
  return wb_date_add_period (date, (WbPeriod) { days, WB_PERIOD_DAYS }, out, error);
}

static gboolean
find_last_day (const WbOrder   *order,
               WbStorageWatch  *watch,
               GError         **error)
{
  if (order->storage_days != WB_INTEGER_UNSET && order->storage_days > 0)
    {
      watch->limit = WB_STORAGE_LIMIT_ORDER;
      watch->days = order->storage_days;
    }
  else if (wb_date_is_set (&order->storage_to))
    {
      watch->limit = WB_STORAGE_LIMIT_DATE;
      watch->last_day = order->storage_to;
      return TRUE;
    }
  else if (order->move_type == WB_MOVE_MILITARY)
    {
      watch->limit = WB_STORAGE_LIMIT_MILITARY;
      watch->days = WB_STORAGE_MILITARY_DAYS;
    }
  else
    return TRUE;

  watch->beyond_most = order->move_type == WB_MOVE_MILITARY
                       && watch->days > WB_STORAGE_MILITARY_MOST_DAYS;
  return add_days (&watch->from, (gint) watch->days, &watch->last_day, error);
}

static void
subtract_days (const GDate *date,
               gint         days,
               GDate       *out)
{
  *out = *date;
  g_date_subtract_days (out, (guint) days);
  /* Both forms, so that threads may share it. */
  g_date_get_day (out);
}

static gboolean
find_notice (const WbOrder   *order,
             const GDate     *today,
             WbStorageWatch  *watch,
             GError         **error)
{
  gint stored = wb_date_days_between (&watch->from, &watch->last_day);

  watch->notice_lead = stored < SHORT_STORAGE_DAYS ? SHORT_NOTICE_DAYS : LONG_NOTICE_DAYS;
  subtract_days (&watch->last_day, watch->notice_lead, &watch->notice_by);
  watch->notice_on = order->storage_notice_on;

  if (!wb_date_is_set (&watch->notice_on))
    {
      watch->notice_days_left = wb_date_days_between (today, &watch->notice_by);
      watch->notice = watch->notice_days_left >= 0 ? WB_STORAGE_NOTICE_OPEN
                                                   : WB_STORAGE_NOTICE_OVERDUE;
      return TRUE;
    }
  if (wb_date_compare (&watch->notice_on, &watch->notice_by) <= 0)
    {
      watch->notice = WB_STORAGE_NOTICE_GIVEN;
      watch->liable_until = watch->last_day;
      return TRUE;
    }

  /* Late: to the end of the day after, and never before the last day itself. */
  watch->notice = WB_STORAGE_NOTICE_LATE;
  if (!add_days (&watch->notice_on, 1, &watch->liable_until, error))
    return FALSE;
  if (wb_date_compare (&watch->liable_until, &watch->last_day) < 0)
    watch->liable_until = watch->last_day;
  return TRUE;
}

gboolean
wb_storage_watch (const WbJob     *job,
                  const GDate     *today,
                  WbStorageWatch  *out,
                  GError         **error)
{
  const WbOrder *order = wb_job_order (job);
  gint into = find_handover (job, WB_HANDOVER_INTO_STORAGE, 0);
  WbStorageWatch watch = { .state = WB_STORAGE_NONE };

  find_beginning (job, into, &watch);
  if (!wb_date_is_set (&watch.from))
    {
      *out = watch;
      return TRUE;
    }

  if (!find_last_day (order, &watch, error))
    return FALSE;

  if (is_out (job, into, &watch.out_on))
    {
      const GDate *end = wb_date_is_set (&watch.out_on) ? &watch.out_on : today;

      watch.state = WB_STORAGE_OUT;
      watch.days_stored = wb_date_days_between (&watch.from, end);
      *out = watch;
      return TRUE;
    }

  watch.days_stored = wb_date_days_between (&watch.from, today);
  watch.state = WB_STORAGE_NO_LIMIT;
  if (wb_date_is_set (&watch.last_day))
    {
      watch.days_left = wb_date_days_between (today, &watch.last_day);
      watch.state = watch.days_left >= 0 ? WB_STORAGE_RUNNING : WB_STORAGE_PAST;
      if (!find_notice (order, today, &watch, error)
          || !wb_date_add_period (&watch.last_day, (WbPeriod) { CLAIM_MONTHS, WB_PERIOD_MONTHS },
                                  &watch.claim_until, error))
        return FALSE;
    }

  *out = watch;
  return TRUE;
}

gboolean
wb_storage_watch_is_due (const WbStorageWatch *self)
{
  if (self->state != WB_STORAGE_RUNNING && self->state != WB_STORAGE_PAST)
    return FALSE;

  return self->days_left <= WARN_DAYS || self->notice == WB_STORAGE_NOTICE_OVERDUE
         || (self->notice == WB_STORAGE_NOTICE_OPEN && self->notice_days_left <= WARN_DAYS);
}
