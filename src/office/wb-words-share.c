/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences on published jobs, from what office found out. Asks no server and no clock. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-words-share.h"

#include "core/wb-entities.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

/* --- times ------------------------------------------------------------------------------------ */

char *
wb_words_at (const char *at)
{
  g_autoptr (GTimeZone) utc = g_time_zone_new_utc ();
  g_autoptr (GDateTime) time = NULL;
  g_autoptr (GDateTime) local = NULL;
  g_autofree char *day = NULL;
  g_autofree char *hour = NULL;
  GDate date;

  g_return_val_if_fail (at != NULL, NULL);

  time = g_date_time_new_from_iso8601 (at, utc);
  local = time != NULL ? g_date_time_to_local (time) : NULL;
  if (local == NULL)
    return g_strdup (at);
  g_date_clear (&date, 1);
  g_date_set_dmy (&date, (GDateDay) g_date_time_get_day_of_month (local),
                  (GDateMonth) g_date_time_get_month (local),
                  (GDateYear) g_date_time_get_year (local));
  day = wb_words_date (&date);
  hour = g_date_time_format (local, "%H:%M");
  /* Translators: a day and a time of it. */
  return g_strdup_printf (_("%s, %s"), day, hour);
}

/* Returns: (transfer full) (nullable): "published by ann on 3 Mar 2026, 14:05" */
static char *
who_and_when (const char *by,
              const char *at)
{
  g_autofree char *when = at != NULL ? wb_words_at (at) : NULL;

  if (when != NULL && by != NULL && *by != '\0')
    /* Translators: who published a job, and when. */
    return g_strdup_printf (_("published by %s on %s"), by, when);
  if (when != NULL)
    return g_strdup_printf (_("published on %s"), when);
  return NULL;
}

/* --- how a job stands ------------------------------------------------------------------------- */

/* @alone: without who and when; @format: with one %s for that */
static char *
state_with (const char *alone,
            const char *format,
            const char *last)
{
  GString *text;

  if (last == NULL)
    return g_strdup (alone);
  text = g_string_new (format);
  g_string_replace (text, "%s", last, 1);
  return g_string_free (text, FALSE);
}

char *
wb_words_publish_status (const WbPublishStatus *status)
{
  g_autofree char *last = NULL;

  g_return_val_if_fail (status != NULL, NULL);

  last = who_and_when (status->by, status->at);
  switch (status->state)
    {
    case WB_PUBLISH_NEVER:
      return g_strdup (_("Never published"));
    case WB_PUBLISH_SAME:
      /* Translators: %s is "published by ann on 3 Mar 2026, 14:05", as in the next ones. */
      return state_with (_("As published"), _("As %s"), last);
    case WB_PUBLISH_CHANGED_HERE:
      return state_with (_("Changed here"), _("Changed here since it was %s"), last);
    case WB_PUBLISH_CHANGED_THERE:
      return state_with (_("Changed there"), _("Changed there: %s"), last);
    case WB_PUBLISH_CHANGED_BOTH:
      return state_with (_("Changed here and there"), _("Changed here, and there: %s"), last);
    }
  g_return_val_if_reached (NULL);
}

/* --- how far it is ---------------------------------------------------------------------------- */

char *
wb_words_seconds_left (gint64 seconds)
{
  gulong n;

  if (seconds < 60)
    {
      n = (gulong) MAX (seconds, 1);
      return g_strdup_printf (ngettext ("%lu second left", "%lu seconds left", n), n);
    }
  if (seconds < 3600)
    {
      n = (gulong) ((seconds + 59) / 60);
      return g_strdup_printf (ngettext ("%lu minute left", "%lu minutes left", n), n);
    }
  n = (gulong) ((seconds + 3599) / 3600);
  return g_strdup_printf (ngettext ("%lu hour left", "%lu hours left", n), n);
}

static void
add_part (GString    *text,
          const char *part)
{
  g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", part);
}

char *
wb_words_progress (const WbProgressState *state)
{
  GString *text = g_string_new (NULL);

  g_return_val_if_fail (state != NULL, NULL);

  if (state->n_all > 0)
    {
      g_autofree char *files = g_strdup_printf (ngettext ("%u of %u file", "%u of %u files",
                                                          state->n_all),
                                                state->n_done, state->n_all);
      add_part (text, files);
    }
  if (state->all > 0)
    {
      g_autofree char *done = g_format_size ((guint64) MAX (state->done, 0));
      g_autofree char *all = g_format_size ((guint64) state->all);
      /* Translators: a size of what is done, and of all there is. */
      g_autofree char *part = g_strdup_printf (_("%s of %s"), done, all);

      add_part (text, part);
    }
  if (state->speed > 0)
    {
      g_autofree char *speed = g_format_size ((guint64) state->speed);
      g_autofree char *part = g_strdup_printf (_("%s a second"), speed);

      add_part (text, part);
    }
  if (state->seconds_left >= 0 && state->speed > 0)
    {
      g_autofree char *left = wb_words_seconds_left (state->seconds_left);

      add_part (text, left);
    }
  return g_string_free (text, FALSE);
}

/* --- a line of published jobs ----------------------------------------------------------------- */

static void
add_given (GString    *text,
           const char *part)
{
  if (part != NULL && *part != '\0')
    g_string_append_printf (text, "%s%s", text->len > 0 ? " · " : "", part);
}

static void
add_route (GString              *text,
           const WbPublishedJob *job)
{
  g_autofree char *both = NULL;

  if (job->from_city != NULL && job->to_city != NULL)
    both = g_strdup_printf ("%s → %s", job->from_city, job->to_city);
  add_given (text, both != NULL ? both : job->from_city != NULL ? job->from_city : job->to_city);
}

static void
add_pickup (GString              *text,
            const WbPublishedJob *job)
{
  g_autofree char *day = NULL;
  g_autofree char *part = NULL;
  GDate date;

  if (job->pickup == NULL)
    return;
  g_date_clear (&date, 1);
  if (wb_date_parse (job->pickup, &date, NULL))
    day = wb_words_date (&date);
  /* Translators: %s is a day. */
  part = g_strdup_printf (_("pick-up %s"), day != NULL ? day : job->pickup);
  add_given (text, part);
}

char *
wb_words_published_job (const WbPublishedJob *job)
{
  GString *text;
  g_autofree char *last = NULL;
  int stage;

  g_return_val_if_fail (job != NULL, NULL);

  if (job->fault != NULL)
    return g_strdup (job->fault);
  text = g_string_new (NULL);
  add_route (text, job);
  if (job->stage != NULL && wb_enum_parse (&wb_stages, job->stage, &stage, NULL))
    add_given (text, wb_words_enum (&wb_stages, stage));
  add_pickup (text, job);
  last = who_and_when (job->by, job->at);
  add_given (text, last);
  if (job->n_heads > 1)
    add_given (text, _("several versions, which are still to be merged"));
  return g_string_free (text, FALSE);
}

/* --- a check ---------------------------------------------------------------------------------- */

char *
wb_words_verified (GPtrArray *faults,
                   guint      n_files)
{
  GString *text;

  g_return_val_if_fail (faults != NULL, NULL);

  if (faults->len == 0)
    return g_strdup_printf (ngettext ("The %u file on the server was read back and is what was "
                                      "published.",
                                      "All %u files on the server were read back and are what was "
                                      "published.", n_files), n_files);
  text = g_string_new (NULL);
  g_string_append_printf (text, ngettext ("Of %u file on the server not all is well. Have it "
                                          "brought back from a backup of the server, and keep to a "
                                          "book that has the job until then.",
                                          "Of %u files on the server not all are well. Have them "
                                          "brought back from a backup of the server, and keep to a "
                                          "book that has the job until then.", n_files), n_files);
  g_string_append_c (text, '\n');
  for (guint i = 0; i < faults->len; i++)
    g_string_append_printf (text, "\n%s", (const char *) g_ptr_array_index (faults, i));
  return g_string_free (text, FALSE);
}
