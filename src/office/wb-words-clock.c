/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sentences that say why a clock ends when it does, one a kind of clock. The rules are
 * core's. */
#include "config.h"

#include "office/wb-words-clock.h"

#include "office/wb-words.h"

#include <glib/gi18n.h>

/* --- periods ---------------------------------------------------------------------------------- */

static char *
length_in_words (WbPeriod period)
{
  gulong n = (gulong) period.count;

  switch (period.unit)
    {
    case WB_PERIOD_DAYS:
      return g_strdup_printf (ngettext ("%d day", "%d days", n), period.count);
    case WB_PERIOD_MONTHS:
      return g_strdup_printf (ngettext ("%d month", "%d months", n), period.count);
    case WB_PERIOD_YEARS:
      return g_strdup_printf (ngettext ("%d year", "%d years", n), period.count);
    case WB_PERIOD_NONE:
      break;
    }
  return g_strdup ("");
}

char *
wb_words_period (WbPeriod period)
{
  g_autofree char *length = length_in_words (period);

  switch (period.skips)
    {
    case WB_PERIOD_SKIPS_SATURDAYS:
      /* Translators: a number of days stands in each of these. */
      return g_strdup_printf (_("%s without Saturdays"), length);
    case WB_PERIOD_SKIPS_SUNDAYS:
      return g_strdup_printf (_("%s without Sundays"), length);
    case WB_PERIOD_SKIPS_SATURDAYS | WB_PERIOD_SKIPS_SUNDAYS:
      return g_strdup_printf (_("%s without Saturdays and Sundays"), length);
    case WB_PERIOD_SKIPS_HOLIDAYS:
      return g_strdup_printf (_("%s without holidays"), length);
    case WB_PERIOD_SKIPS_SATURDAYS | WB_PERIOD_SKIPS_HOLIDAYS:
      return g_strdup_printf (_("%s without Saturdays and holidays"), length);
    case WB_PERIOD_SKIPS_SUNDAYS | WB_PERIOD_SKIPS_HOLIDAYS:
      return g_strdup_printf (_("%s without Sundays and holidays"), length);
    case WB_PERIOD_SKIPS_SATURDAYS | WB_PERIOD_SKIPS_SUNDAYS | WB_PERIOD_SKIPS_HOLIDAYS:
      return g_strdup_printf (_("%s without Saturdays, Sundays and holidays"), length);
    default:
      return g_steal_pointer (&length);
    }
}

/* --- sentences -------------------------------------------------------------------------------- */

static char *
say_why (const WbClock *clock,
         const char    *period,
         const char    *from)
{
  switch (clock->kind)
    {
    case WB_CLOCK_NOTICE:
    case WB_CLOCK_CLAIM:
    case WB_CLOCK_LATE_CLAIM:
      /* Translators: a period, such as “9 months”, and the date that it runs from. */
      return g_strdup_printf (_("%s from %s, the day of delivery or the one agreed for it."),
                              period, from);
    case WB_CLOCK_FEES:
      /* Translators: a period, and the date that it runs from. */
      return g_strdup_printf (_("%s from %s, the later of the day of delivery and the one agreed "
                                "for it."), period, from);
    case WB_CLOCK_ACKNOWLEDGE:
    case WB_CLOCK_DECIDE:
    case WB_CLOCK_INSPECT:
    case WB_CLOCK_SALVAGE:
    case WB_CLOCK_TRANSFER:
      /* Translators: a period, and the date that it runs from. */
      return g_strdup_printf (_("%s from %s, when the claim was received."), period, from);
    case WB_CLOCK_STATUS:
      /* Translators: a period, such as “60 days”. */
      return g_strdup_printf (_("Every %s, counted from the end of the time to decide."), period);
    case WB_CLOCK_ANSWER_AGAIN:
      /* Translators: a period, and the date that it runs from. */
      return g_strdup_printf (_("%s from %s, when the claim was taken up again. No rule says by "
                                "when; this is the time of a new claim."), period, from);
    case WB_CLOCK_SUIT:
      /* Translators: a period, and the date that it runs from. */
      return g_strdup_printf (_("%s from %s, when a part of the claim or all of it was disallowed "
                                "in writing."), period, from);
    case WB_CLOCK_MEDIATE:
      if (clock->key == WB_KEY_MEDIATE_UNTIL)
        /* Translators: a period, and the date that it runs from. */
        return g_strdup_printf (_("%s from %s, when the claim was received: after that mediation "
                                  "is refused."), period, from);
      /* Translators: a period, and the date that it runs from. */
      return g_strdup_printf (_("%s from %s, when the claim was answered or the time for that was "
                                "over."), period, from);
    case WB_CLOCK_ARBITRATE:
      /* Translators: a period, and the date that it runs from. */
      return g_strdup_printf (_("%s from %s, when arbitration was asked for."), period, from);
    case WB_CLOCK_BILL:
      /* Translators: a period, and the date that it runs from. */
      return g_strdup_printf (_("%s from %s, the day of delivery."), period, from);
    case WB_CLOCK_CONTEST_BILL:
      /* Translators: a period, and the date that it runs from. */
      return g_strdup_printf (_("%s from %s, when the freight bill was given. Until then the "
                                "carrier may bill what it charges besides."), period, from);
    }
  g_return_val_if_reached (NULL);
}

static const char *
missing_of (WbClockKind kind)
{
  switch (kind)
    {
    case WB_CLOCK_NOTICE:
    case WB_CLOCK_CLAIM:
    case WB_CLOCK_LATE_CLAIM:
    case WB_CLOCK_FEES:
    case WB_CLOCK_BILL:
      return _("Waits for the day of delivery in the order.");
    case WB_CLOCK_CONTEST_BILL:
      return _("Waits for the day on which the freight bill was given, among the papers.");
    case WB_CLOCK_ACKNOWLEDGE:
    case WB_CLOCK_DECIDE:
    case WB_CLOCK_INSPECT:
    case WB_CLOCK_SALVAGE:
    case WB_CLOCK_TRANSFER:
    case WB_CLOCK_STATUS:
      return _("Waits for the day on which the claim was received.");
    case WB_CLOCK_ANSWER_AGAIN:
    case WB_CLOCK_SUIT:
    case WB_CLOCK_MEDIATE:
    case WB_CLOCK_ARBITRATE:
      return _("Waits for the day of the decision, or for a step that says it.");
    }
  g_return_val_if_reached (NULL);
}

char *
wb_words_clock_why (const WbClock *clock)
{
  g_autofree char *period = NULL;
  g_autofree char *from = NULL;

  g_return_val_if_fail (clock != NULL, NULL);

  if (clock->state == WB_CLOCK_NOT_STARTED)
    return g_strdup (missing_of (clock->kind));
  period = wb_words_period (clock->period);
  from = wb_words_date (&clock->from);
  return say_why (clock, period, from);
}
