/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes the words of one difference from its item and the jobs it is between. What is a conflict
 * and what a choice does core says. */
#include "config.h"

#include "office/wb-words-merge.h"

#include "office/wb-words-record.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

/* --- sides ------------------------------------------------------------------------------------ */

static const WbRecord *
record_of (const WbMergeItem *item,
           WbMergeChoice      whose)
{
  switch (whose)
    {
    case WB_MERGE_UNDECIDED:
      return item->base;
    case WB_MERGE_MINE:
      return item->mine;
    case WB_MERGE_THEIRS:
      return item->theirs;
    }
  g_return_val_if_reached (NULL);
}

static const WbJob *
job_of (const WbMergeJobs *jobs,
        WbMergeChoice      whose)
{
  switch (whose)
    {
    case WB_MERGE_UNDECIDED:
      return jobs->base;
    case WB_MERGE_MINE:
      return jobs->mine;
    case WB_MERGE_THEIRS:
      return jobs->theirs;
    }
  g_return_val_if_reached (NULL);
}

/* The side that has the record: here, there, or how it was. */
static WbMergeChoice
side_with_record (const WbMergeItem *item)
{
  if (item->mine != NULL)
    return WB_MERGE_MINE;
  return item->theirs != NULL ? WB_MERGE_THEIRS : WB_MERGE_UNDECIDED;
}

/* --- what differs ----------------------------------------------------------------------------- */

char *
wb_words_merge_record (const WbMergeJobs *jobs,
                       const WbMergeItem *item)
{
  WbMergeChoice side;

  g_return_val_if_fail (jobs != NULL && item != NULL, NULL);

  side = side_with_record (item);
  if (item->what == WB_MERGE_ORDER || record_of (item, side) == NULL)
    return g_strdup (_(wb_record_type (item->kind)->label));
  return wb_words_record (job_of (jobs, side), record_of (item, side));
}

char *
wb_words_merge_what (const WbMergeItem *item)
{
  g_return_val_if_fail (item != NULL, NULL);

  switch (item->what)
    {
    case WB_MERGE_FIELD:
    case WB_MERGE_CLASH:
      return g_strdup (wb_words_field (item->field));
    case WB_MERGE_RECORD:
      if (item->base == NULL)
        return g_strdup (_("Added"));
      return g_strdup (item->side == WB_MERGE_CONFLICT ? _("Removed or kept") : _("Removed"));
    case WB_MERGE_ORDER:
      return g_strdup (_("Order in the list"));
    }
  g_return_val_if_reached (NULL);
}

/* --- a record as a text ----------------------------------------------------------------------- */

#define MOST_FIELDS 4

/* The given fields of @record, or those that are others than in @before (nullable). */
static char *
list_fields (const WbJob    *job,
             const WbRecord *record,
             const WbRecord *before)
{
  GString *text = g_string_new (NULL);
  guint n = 0;

  for (gsize i = 0; i < record->type->n_fields; i++)
    {
      const WbField *field = &record->type->fields[i];
      g_autofree char *value = NULL;

      if (before != NULL ? wb_record_field_equal (field, record, before)
                         : !wb_record_field_is_set (field, record))
        continue;
      if (++n > MOST_FIELDS)
        continue;
      value = wb_words_value_in_job (job, record, field);
      if (text->len > 0)
        g_string_append (text, "; ");
      /* Translators: a field and its value. */
      g_string_append_printf (text, _("%s: %s"), wb_words_field (field), value);
    }
  if (n > MOST_FIELDS)
    {
      guint more = n - MOST_FIELDS;

      g_string_append (text, "; ");
      g_string_append_printf (text, ngettext ("%u more field", "%u more fields", more), more);
    }
  return g_string_free (text, FALSE);
}

static char *
kept_text (const WbJob    *job,
           const WbRecord *record,
           const WbRecord *base)
{
  g_autofree char *fields = list_fields (job, record, base);

  if (base == NULL)
    return *fields != '\0' ? g_steal_pointer (&fields)
                           : g_strdup (_("There, with nothing filled in"));
  if (*fields == '\0')
    return g_strdup (_("Kept as it was"));
  /* Translators: %s lists fields and their values. */
  return g_strdup_printf (_("Kept, with %s"), fields);
}

static char *
record_text (const WbMergeJobs *jobs,
             const WbMergeItem *item,
             WbMergeChoice      whose)
{
  const WbRecord *record = record_of (item, whose);

  if (whose == WB_MERGE_UNDECIDED)
    {
      if (record == NULL)
        return jobs->base != NULL ? g_strdup (_("Not there")) : NULL;
      return wb_words_record (jobs->base, record);
    }
  if (record == NULL)
    return g_strdup (item->base != NULL ? _("Removed") : _("Not there"));
  return kept_text (job_of (jobs, whose), record, item->base);
}

/* --- an order as a text ----------------------------------------------------------------------- */

#define MOST_RECORDS 3

/* The first place where the two sides do not have the same record. */
static guint
first_difference (const WbMergeJobs *jobs,
                  WbKind             kind)
{
  guint n = MIN (wb_job_count (jobs->mine, kind), wb_job_count (jobs->theirs, kind));

  for (guint i = 0; i < n; i++)
    {
      const WbRecord *mine = wb_job_nth (jobs->mine, kind, i);
      const WbRecord *theirs = wb_job_nth (jobs->theirs, kind, i);

      if (!g_str_equal (mine->id, theirs->id))
        return i;
    }
  return n;
}

static char *
order_text (const WbMergeJobs *jobs,
            WbKind             kind,
            const WbJob       *job)
{
  guint first = first_difference (jobs, kind), n = wb_job_count (job, kind);
  GString *text = g_string_new (first > 0 ? "… " : "");

  for (guint i = first; i < MIN (first + MOST_RECORDS, n); i++)
    {
      g_autofree char *name = wb_words_record_name (job, wb_job_nth (job, kind, i));

      g_string_append_printf (text, "%s%s", i > first ? " → " : "", name);
    }
  if (first + MOST_RECORDS < n)
    g_string_append (text, " …");
  return g_string_free (text, FALSE);
}

/* --- any -------------------------------------------------------------------------------------- */

static char *
value_text (const WbMergeJobs *jobs,
            const WbMergeItem *item,
            WbMergeChoice      whose)
{
  const WbRecord *record = record_of (item, whose);

  if (record == NULL || job_of (jobs, whose) == NULL)
    return NULL;
  return wb_words_value_in_job (job_of (jobs, whose), record, item->field);
}

/* Of two records that clash, what each is called besides what both have. */
static char *
clash_text (const WbMergeJobs *jobs,
            const WbMergeItem *item,
            WbMergeChoice      whose)
{
  if (whose == WB_MERGE_UNDECIDED)
    return NULL;
  return wb_words_record (job_of (jobs, whose), record_of (item, whose));
}

char *
wb_words_merge_text (const WbMergeJobs *jobs,
                     const WbMergeItem *item,
                     WbMergeChoice      whose)
{
  g_return_val_if_fail (jobs != NULL && item != NULL, NULL);

  switch (item->what)
    {
    case WB_MERGE_FIELD:
      return value_text (jobs, item, whose);
    case WB_MERGE_RECORD:
      return record_text (jobs, item, whose);
    case WB_MERGE_ORDER:
      return job_of (jobs, whose) != NULL ? order_text (jobs, item->kind, job_of (jobs, whose))
                                          : NULL;
    case WB_MERGE_CLASH:
      return clash_text (jobs, item, whose);
    }
  g_return_val_if_reached (NULL);
}

static char *
clash_note (const WbMergeItem *item)
{
  const char *field = wb_words_field (item->field);

  switch (item->yield)
    {
    case WB_MERGE_YIELD_NUMBER:
      /* Translators: %s is a field that two records cannot share, such as “Line”. */
      return g_strdup_printf (_("Two cannot have the same “%s”. The one not chosen gets the next "
                                "free number."), field);
    case WB_MERGE_YIELD_TEXT:
      /* Translators: %s is a field that two records cannot share. */
      return g_strdup_printf (_("Two cannot have the same “%s”. The one not chosen gets a number "
                                "after it, such as “-2”."), field);
    case WB_MERGE_YIELD_EMPTY:
      /* Translators: %s is a field that two records cannot share. */
      return g_strdup_printf (_("Two cannot have the same “%s”. At the one not chosen it is "
                                "emptied."), field);
    case WB_MERGE_YIELD_GOES:
      /* Translators: %s is a field that two records cannot share. */
      return g_strdup_printf (_("Two cannot have the same “%s”. The one not chosen is left out."),
                              field);
    }
  g_return_val_if_reached (NULL);
}

static char *
user_note (const WbMergeJobs *jobs,
           const WbMergeItem *item)
{
  gboolean removed_here = item->mine == NULL;
  g_autofree char *user = wb_words_record (removed_here ? jobs->theirs : jobs->mine, item->user);

  if (removed_here)
    /* Translators: %s is a record, such as a claim line. */
    return g_strdup_printf (_("Removed here, but there it is needed by: %s."), user);
  /* Translators: %s is a record, such as a claim line. */
  return g_strdup_printf (_("Removed there, but here it is needed by: %s."), user);
}

char *
wb_words_merge_note (const WbMergeJobs *jobs,
                     const WbMergeItem *item)
{
  g_return_val_if_fail (jobs != NULL && item != NULL, NULL);

  if (item->what == WB_MERGE_CLASH)
    return clash_note (item);
  return item->user != NULL ? user_note (jobs, item) : NULL;
}

static const char *
choice_words (WbMergeChoice choice)
{
  switch (choice)
    {
    case WB_MERGE_UNDECIDED:
      return _("Not decided");
    case WB_MERGE_MINE:
      return _("As it is here");
    case WB_MERGE_THEIRS:
      return _("As it is there");
    }
  g_return_val_if_reached (NULL);
}

const char *
wb_words_merge_side (const WbMergeItem *item)
{
  g_return_val_if_fail (item != NULL, NULL);

  switch (item->side)
    {
    case WB_MERGE_ONLY_MINE:
      return _("From here");
    case WB_MERGE_ONLY_THEIRS:
      return _("From there");
    case WB_MERGE_BOTH_SAME:
      return _("The same here and there");
    case WB_MERGE_CONFLICT:
      return choice_words (item->choice);
    }
  g_return_val_if_reached (NULL);
}
