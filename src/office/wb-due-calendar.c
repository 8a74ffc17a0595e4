/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes what is due as an iCalendar object. Escaping and folding are libical's. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-due.h"

#include "office/wb-words-clock.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>
#include <libical/ical.h>

static icaltimetype
day_of (const GDate *date)
{
  icaltimetype day = icaltime_null_date ();

  day.year = g_date_get_year (date);
  day.month = (int) g_date_get_month (date);
  day.day = g_date_get_day (date);
  return day;
}

static icaltimetype
moment_of (GDateTime *now)
{
  g_autoptr (GDateTime) utc = g_date_time_to_utc (now);
  icaltimetype moment = icaltime_null_time ();

  moment.year = g_date_time_get_year (utc);
  moment.month = g_date_time_get_month (utc);
  moment.day = g_date_time_get_day_of_month (utc);
  moment.hour = g_date_time_get_hour (utc);
  moment.minute = g_date_time_get_minute (utc);
  moment.second = g_date_time_get_second (utc);
  moment.zone = icaltimezone_get_utc_timezone ();
  return moment;
}

/* The same as long as the claim and its clock are. What can be due more than once in the life of a
 * claim has one for each last day. */
static char *
uid_of (const WbDue *due)
{
  const char *kind = wb_enum_nick (&wb_clock_kinds, (int) due->clock.kind);
  g_autofree char *day = wb_date_to_text (&due->clock.last_day);

  if (due->clock.kind == WB_CLOCK_STATUS || due->clock.kind == WB_CLOCK_ANSWER_AGAIN)
    return g_strdup_printf ("%s.%s.%s.%s@wainbook", due->job_id, due->claim_id, kind, day);
  return g_strdup_printf ("%s.%s.%s@wainbook", due->job_id, due->claim_id, kind);
}

/* Names nobody: a calendar is shown and shared more freely than a claim. */
static char *
summary_of (const WbDue *due)
{
  /* Translators: a claim number, and what is to be done. */
  return g_strdup_printf (_("%s: %s"), due->claim_number,
                          wb_words_enum (&wb_clock_kinds, (int) due->clock.kind));
}

static char *
description_of (const WbDue *due)
{
  g_autofree char *why = wb_words_clock_why (&due->clock);
  GString *text = g_string_new (NULL);

  /* Translators: a job number, then why the day is that one, as a sentence. */
  g_string_append_printf (text, _("Job %s. %s"),
                          due->job_number != NULL ? due->job_number : due->job_id, why);
  if (due->citation != NULL)
    g_string_append_printf (text, "\n%s", due->citation);
  g_string_append_printf (text, "\n%s", _("The terms in force and counsel decide, not this "
                                          "calendar."));
  return g_string_free (text, FALSE);
}

/* Rings at nine in the morning of the day before, wherever the calendar is. */
static icalcomponent *
alarm_of (const char *summary)
{
  struct icaltriggertype trigger = icaltriggertype_from_string ("-PT15H");

  return icalcomponent_vanew (ICAL_VALARM_COMPONENT,
                              icalproperty_new_action (ICAL_ACTION_DISPLAY),
                              icalproperty_new_trigger (trigger),
                              icalproperty_new_description (summary),
                              (void *) 0);
}

static icalcomponent *
event_of (const WbDue  *due,
          icaltimetype  stamp)
{
  g_autofree char *uid = uid_of (due);
  g_autofree char *summary = summary_of (due);
  g_autofree char *description = description_of (due);
  icaltimetype day = day_of (&due->clock.last_day);

  return icalcomponent_vanew (ICAL_VEVENT_COMPONENT,
                              icalproperty_new_uid (uid),
                              icalproperty_new_dtstamp (stamp),
                              icalproperty_new_dtstart (day),
                              icalproperty_new_summary (summary),
                              icalproperty_new_description (description),
                              icalproperty_new_transp (ICAL_TRANSP_TRANSPARENT),
                              icalproperty_new_class (ICAL_CLASS_PRIVATE),
                              alarm_of (summary),
                              (void *) 0);
}

char *
wb_due_calendar_write (const WbDueList *due,
                       GDateTime       *now)
{
  icaltimetype stamp;
  icalcomponent *calendar;
  char *text, *copy;

  g_return_val_if_fail (due != NULL && now != NULL, NULL);

  stamp = moment_of (now);
  calendar = icalcomponent_vanew (ICAL_VCALENDAR_COMPONENT,
                                  icalproperty_new_version ("2.0"),
                                  icalproperty_new_prodid ("-//Wainbook//" WB_VERSION "//EN"),
                                  (void *) 0);
  for (guint i = 0; i < wb_due_list_count (due); i++)
    {
      const WbDue *entry = wb_due_list_nth (due, i);

      if (wb_date_is_set (&entry->clock.last_day))
        icalcomponent_add_component (calendar, event_of (entry, stamp));
    }
  text = icalcomponent_as_ical_string_r (calendar);
  copy = g_strdup (text);
  icalmemory_free_buffer (text);
  icalcomponent_free (calendar);
  return copy;
}
