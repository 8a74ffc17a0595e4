/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences for the checklist and for the keeping of papers. What is missing, and until when a
 * paper is kept, is worked out in core. */
#include "config.h"

#include "office/wb-words-papers.h"

#include "office/wb-words.h"

#include <glib/gi18n.h>

/* --- sources ---------------------------------------------------------------------------------- */

const char *
wb_source_nick (WbSource source)
{
  switch (source)
    {
    case WB_SOURCE_SEEN:
      return "seen";
    case WB_SOURCE_SEEN_2015:
      return "seen-2015";
    case WB_SOURCE_SEEN_COPY:
      return "seen-copy";
    case WB_SOURCE_MEMORY:
      return "memory";
    case WB_SOURCE_PRACTICE:
      return "practice";
    }
  g_return_val_if_reached ("practice");
}

static const char *
source_format (WbSource source)
{
  switch (source)
    {
    case WB_SOURCE_SEEN:
      return "%s";
    case WB_SOURCE_SEEN_2015:
      /* Translators: %s cites a rule. */
      return _("%s, read as of 2015");
    case WB_SOURCE_SEEN_COPY:
      /* Translators: %s cites a rule. */
      return _("%s, read in a copy");
    case WB_SOURCE_MEMORY:
      /* Translators: %s cites a rule. */
      return _("%s, from memory");
    case WB_SOURCE_PRACTICE:
      /* Translators: %s cites a rule. */
      return _("%s; by practice");
    }
  g_return_val_if_reached ("%s");
}

/* Puts @text in place of the %s in @format, which is not known at compile time. */
static char *
put_into (const char *format,
          const char *text)
{
  GString *words = g_string_new (format);

  g_string_replace (words, "%s", text, 1);
  return g_string_free (words, FALSE);
}

char *
wb_words_source (const char *citation,
                 WbSource    source)
{
  if (citation == NULL)
    return g_strdup (_("Common practice"));

  return put_into (source_format (source), citation);
}

const char *
wb_words_authority (WbAuthority authority)
{
  switch (authority)
    {
    case WB_AUTHORITY_FEDERAL:
      return _("By 49 CFR Part 375, for moves between states.");
    case WB_AUTHORITY_STATE:
      return _("This move stays within one state: the state’s rules and the carrier’s tariff "
               "decide. What is listed is what every job needs; the rules cited are those for "
               "moves between states.");
    case WB_AUTHORITY_MILITARY:
      return _("For this move the rules of the Department of Defense and the contract decide. What "
               "is listed is what every job needs; the rules cited are those for moves between "
               "states.");
    case WB_AUTHORITY_UNKNOWN:
      return _("Whose rules govern is not known. What is listed goes by the rules for moves "
               "between states.");
    }
  g_return_val_if_reached ("");
}

/* --- items ------------------------------------------------------------------------------------ */

/* Returns: (transfer full) (nullable): what tells one ticket from the others. */
static char *
name_of_ticket (const WbJob            *job,
                const WbChecklistEntry *entry)
{
  const WbWeighing *weighing = NULL;

  if (entry->kind != WB_KIND_WEIGHING || entry->id == NULL
      || wb_job_count (job, WB_KIND_WEIGHING) < 2)
    return NULL;

  weighing = wb_job_find (job, WB_KIND_WEIGHING, entry->id);
  if (weighing == NULL)
    return NULL;
  if (weighing->ticket != NULL)
    return g_strdup (weighing->ticket);
  if (wb_date_is_set (&weighing->on))
    return wb_words_date (&weighing->on);

  return g_strdup (wb_words_enum (&wb_weighing_kinds, (int) weighing->kind));
}

char *
wb_words_item (const WbJob            *job,
               const WbChecklistEntry *entry)
{
  const char *label = wb_words_enum (&wb_items, (int) entry->item);
  g_autofree char *ticket = name_of_ticket (job, entry);

  if (ticket == NULL)
    return g_strdup (label);

  /* Translators: something that a weight ticket has to say, and which ticket. */
  return g_strdup_printf (_("%s (%s)"), label, ticket);
}

static const char *
not_federal (const WbJob *job)
{
  switch (wb_order_authority (wb_job_order (job)))
    {
    case WB_AUTHORITY_FEDERAL:
      return NULL;
    case WB_AUTHORITY_STATE:
      return _("The state’s rules and the tariff decide here.");
    case WB_AUTHORITY_MILITARY:
      return _("The department’s rules and the contract decide here.");
    case WB_AUTHORITY_UNKNOWN:
      return _("The rule is for moves between states.");
    }
  g_return_val_if_reached (NULL);
}

static const char *
reason_words (const WbJob            *job,
              const WbChecklistEntry *entry)
{
  switch (entry->reason)
    {
    case WB_ITEM_REASON_NONE:
      return NULL;
    case WB_ITEM_REASON_NOT_FEDERAL:
      return not_federal (job);
    case WB_ITEM_REASON_NO_OTHER:
      return _("No other carrier is noted.");
    case WB_ITEM_REASON_NOT_ASKED:
      return _("The shipper did not ask to be told of the charges.");
    case WB_ITEM_REASON_GUARANTEED:
      return _("The dates are guaranteed.");
    case WB_ITEM_REASON_NOT_GUARANTEED:
      return _("The dates are not guaranteed.");
    case WB_ITEM_REASON_RELEASED:
      return _("Not under released value.");
    case WB_ITEM_REASON_NO_CHOICE:
      return _("Waits for the choice of liability.");
    case WB_ITEM_REASON_NOT_SOLD:
      return _("No insurance was sold.");
    case WB_ITEM_REASON_NOT_WAIVED:
      return _("The survey was not waived.");
    case WB_ITEM_REASON_NOT_LISTED:
      return _("No piece has a listed value.");
    case WB_ITEM_REASON_BINDING:
      return _("A binding estimate is the price, whatever the goods weigh.");
    case WB_ITEM_REASON_IN_TIME:
      return _("Nothing is late.");
    case WB_ITEM_REASON_NOT_STORED:
      return _("Nothing was stored in transit.");
    case WB_ITEM_REASON_LEFT_STORAGE:
      return _("The goods left before storage in transit ended.");
    case WB_ITEM_REASON_LATE_NOTICE:
      return _("Given later than ten days before the end (one day if stored under ten days): "
               "liability goes on to the end of the day after the notice.");
    case WB_ITEM_REASON_NO_TICKET:
      return _("There is no weight ticket.");
    case WB_ITEM_REASON_NOT_SHORT:
      return _("Nothing was found short at delivery.");
    case WB_ITEM_REASON_NOT_CLOSED:
      return _("The job is not closed.");
    case WB_ITEM_REASON_NOT_INTRASTATE:
      return _("The move does not stay within one state.");
    }
  g_return_val_if_reached (NULL);
}

/* Whose rule is cited is said where another's decides. */
static char *
source_of_item (const WbJob            *job,
                const WbChecklistEntry *entry)
{
  WbAuthority authority = wb_order_authority (wb_job_order (job));
  g_autofree char *source = wb_words_source (entry->citation, entry->source);

  if (entry->citation == NULL || authority == WB_AUTHORITY_FEDERAL
      || authority == WB_AUTHORITY_UNKNOWN)
    return g_steal_pointer (&source);

  /* Translators: a rule that holds for moves between states. */
  return g_strdup_printf (_("Between states: %s"), source);
}

char *
wb_words_item_note (const WbJob            *job,
                    const WbChecklistEntry *entry)
{
  const char *reason = reason_words (job, entry);
  g_autofree char *source = source_of_item (job, entry);

  if (reason == NULL)
    return g_steal_pointer (&source);

  /* Translators: a sentence, and the rule that it rests on. */
  return g_strdup_printf (_("%s %s"), reason, source);
}

const char *
wb_words_missing_format (guint n)
{
  return ngettext ("%u thing is missing for this stage", "%u things are missing for this stage", n);
}

/* --- keeping ---------------------------------------------------------------------------------- */

char *
wb_words_keep (const WbKeep *keep)
{
  g_autofree char *day = NULL;

  switch (keep->state)
    {
    case WB_KEEP_UNTIL:
      day = wb_words_date (&keep->until);
      /* Translators: %s is a date. */
      return g_strdup_printf (_("Keep until %s"), day);
    case WB_KEEP_NO_DATE:
      switch (keep->from)
        {
        case WB_KEEP_FROM_SIGNED:
          return g_strdup (_("Keep: the day of signing is not noted"));
        case WB_KEEP_FROM_SETTLED:
          return g_strdup (_("Keep: the day of the settlement is not noted"));
        case WB_KEEP_FROM_NONE:
        case WB_KEEP_FROM_MADE:
          return g_strdup (_("Keep: the day when it was made is not noted"));
        }
      break;
    case WB_KEEP_CLAIM_OPEN:
      return g_strdup (_("Keep: a claim is not settled"));
    case WB_KEEP_NO_RULE:
      return g_strdup (_("How long to keep it is not known"));
    case WB_KEEP_OTHER_RULES:
      return g_strdup (_("How long to keep it the state’s rules or the contract say"));
    }
  g_return_val_if_reached (NULL);
}

static const char *
keep_format (WbKeepFrom from)
{
  switch (from)
    {
    case WB_KEEP_FROM_SIGNED:
      /* Translators: %s is a period. */
      return _("%s from the signature");
    case WB_KEEP_FROM_SETTLED:
      /* Translators: %s is a period. */
      return _("%s from the settlement of the claim that it supports");
    case WB_KEEP_FROM_NONE:
    case WB_KEEP_FROM_MADE:
      /* Translators: %s is a period. */
      return _("%s from the day when it was made");
    }
  g_return_val_if_reached ("%s");
}

/* Returns: (transfer full): the periods that there are, in words. */
static char *
words_of_period (WbPeriod period)
{
  if (period.unit == WB_PERIOD_YEARS)
    return g_strdup_printf (ngettext ("%d year", "%d years", (gulong) period.count), period.count);

  return wb_period_to_text (period);
}

char *
wb_words_keep_note (const WbKeep *keep)
{
  g_autofree char *period = NULL;
  g_autofree char *words = NULL;
  g_autofree char *source = NULL;

  if (!wb_period_is_set (keep->period))
    return g_strdup (_("No period was found for this paper, or the rules that govern it were not "
                       "looked up; ask before it is destroyed."));

  period = words_of_period (keep->period);
  words = put_into (keep_format (keep->from), period);
  source = wb_words_source (keep->citation, keep->source);
  /* Translators: how long a paper is kept, and the rule. */
  return g_strdup_printf (_("%s: %s"), words, source);
}
