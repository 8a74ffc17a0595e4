/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes sentences from the trail of a job. What the records say together is found in core; here it
 * is only said. */
#include "config.h"

#include "office/wb-words-trail.h"

#include <glib/gi18n.h>

#include "core/wb-count-entry.h"

/* --- names ------------------------------------------------------------------------------------ */

char *
wb_words_handover (const WbHandover *handover)
{
  const char *kind = handover->kind == WB_HANDOVER_NONE
                     ? _("Handover") : wb_words_enum (&wb_handover_kinds, (int) handover->kind);
  g_autofree char *on = NULL;

  if (!wb_date_is_set (&handover->on))
    return g_strdup (kind);

  on = wb_words_date (&handover->on);
  /* Translators: a kind of handover, and its date. */
  return g_strdup_printf (_("%s, %s"), kind, on);
}

char *
wb_words_lot (const WbLot *lot)
{
  return lot != NULL ? wb_count_lot_name (lot) : g_strdup (_("without a lot"));
}

/* Pieces of one lot (nullable) by their tags; those without one are counted in @n_untagged. */
static GArray *
tags_of_lot (GPtrArray  *pieces,
             const char *lot,
             guint      *n_untagged)
{
  GArray *tags = wb_tag_ranges_new ();

  for (guint i = 0; i < pieces->len; i++)
    {
      const WbPiece *piece = g_ptr_array_index (pieces, i);

      if (g_strcmp0 (piece->lot, lot) != 0)
        continue;
      if (piece->tag == WB_INTEGER_UNSET)
        *n_untagged += 1;
      else
        wb_tag_ranges_add (tags, piece->tag, piece->tag);
    }
  return tags;
}

static void
append_tags (GString      *text,
             const WbLot  *lot,
             const GArray *tags)
{
  g_autofree char *name = wb_words_lot (lot);
  g_autofree char *ranges = wb_tag_ranges_to_text (tags);

  if (tags->len > 0)
    g_string_append_printf (text, "%s%s: %s", text->len > 0 ? "; " : "", name, ranges);
}

char *
wb_words_pieces (const WbJob *job,
                 GPtrArray   *pieces)
{
  GString *text = g_string_new (NULL);
  guint n_untagged = 0;

  for (guint i = 0; i <= wb_job_count (job, WB_KIND_LOT); i++)
    {
      const WbLot *lot = i < wb_job_count (job, WB_KIND_LOT) ? wb_job_nth (job, WB_KIND_LOT, i)
                                                             : NULL;
      g_autoptr (GArray) tags = tags_of_lot (pieces, lot != NULL ? lot->record.id : NULL,
                                             &n_untagged);

      append_tags (text, lot, tags);
    }

  if (n_untagged > 0)
    {
      g_string_append (text, text->len > 0 ? "; " : "");
      g_string_append_printf (text, ngettext ("%u piece without a tag", "%u pieces without a tag",
                                              n_untagged), n_untagged);
    }
  return g_string_free (text, FALSE);
}

char *
wb_words_strays (GPtrArray *strays)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < strays->len; i++)
    {
      const WbStray *stray = g_ptr_array_index (strays, i);

      append_tags (text, stray->lot, stray->tags);
    }
  return g_string_free (text, FALSE);
}

/* --- between handovers ------------------------------------------------------------------------ */

char *
wb_words_stretch_length (const WbStretch *stretch)
{
  gint days;

  if (!wb_date_is_set (&stretch->from) || !wb_date_is_set (&stretch->to))
    return NULL;

  days = wb_date_days_between (&stretch->from, &stretch->to);
  if (days < 0)
    return NULL;

  return g_strdup_printf (ngettext ("%d day", "%d days", (gulong) days), days);
}

static void
append_part (GString    *text,
             const char *part)
{
  if (part == NULL)
    return;

  g_string_append (text, ", ");
  g_string_append (text, part);
}

static char *
describe_dates (const WbStretch *stretch)
{
  g_autofree char *from = wb_words_date (&stretch->from);
  g_autofree char *to = wb_words_date (&stretch->to);

  if (wb_date_is_set (&stretch->from) && wb_date_is_set (&stretch->to))
    /* Translators: two dates. */
    return g_strdup_printf (_("from %s to %s"), from, to);
  if (wb_date_is_set (&stretch->from))
    /* Translators: a date. */
    return g_strdup_printf (_("since %s"), from);
  if (wb_date_is_set (&stretch->to))
    /* Translators: a date. */
    return g_strdup_printf (_("until %s"), to);

  return NULL;
}

char *
wb_words_stretch (const WbStretch *stretch)
{
  GString *text = g_string_new (stretch->holder != NULL ? stretch->holder
                                                        : _("Nobody is named"));
  g_autofree char *dates = describe_dates (stretch);
  g_autofree char *length = wb_words_stretch_length (stretch);

  g_string_append_printf (text, ": %s", wb_words_enum (&wb_holds, (int) stretch->hold));
  append_part (text, stretch->hold == WB_HOLD_VEHICLE ? stretch->vehicle : stretch->place);
  append_part (text, dates);
  append_part (text, length);
  if (stretch->giver != NULL)
    {
      g_string_append (text, ". ");
      /* Translators: two parties: who received the goods, and who gave them on. */
      g_string_append_printf (text, _("Received by %s, but next handed over by %s"),
                              stretch->holder, stretch->giver);
    }
  return g_string_free (text, FALSE);
}

/* --- a piece ---------------------------------------------------------------------------------- */

static const WbHandover *
get_handover (const WbTrail *trail,
              gint           handover)
{
  return wb_trail_handover (trail, (guint) handover)->handover;
}

static const char *
or_unnamed (const char *holder)
{
  return holder != NULL ? holder : _("a holder who is not named");
}

/* "at Quay Stores, Madison, WI, since 13 Oct 2025" */
static char *
describe_hold (const WbStretch *stretch)
{
  g_autofree char *since = wb_words_date (&stretch->from);
  GString *text = g_string_new (or_unnamed (stretch->holder));

  append_part (text, stretch->hold == WB_HOLD_VEHICLE ? stretch->vehicle : stretch->place);
  if (wb_date_is_set (&stretch->from))
    {
      g_string_append (text, ", ");
      /* Translators: a date. */
      g_string_append_printf (text, _("since %s"), since);
    }
  return g_string_free (text, FALSE);
}

static char *
describe_missing (const WbTrail       *trail,
                  const WbWhereabouts *where)
{
  const WbStretch *stretch = wb_trail_stretch (trail, where->stretch);
  g_autofree char *at = wb_words_handover (get_handover (trail, where->short_at));
  g_autofree char *seen = where->seen_at >= 0
                          ? wb_words_handover (get_handover (trail, where->seen_at)) : NULL;

  if (seen == NULL)
    /* Translators: a handover. */
    return g_strdup_printf (_("Missing: short at the handover “%s”, and never seen before it."),
                            at);

  /* Translators: a handover, a party, a handover. */
  return g_strdup_printf (_("Missing: short at the handover “%s”. Last with %s, who received it at "
                            "“%s”."), at, or_unnamed (stretch->holder), seen);
}

static char *
describe_standing (const WbTrail       *trail,
                   const WbWhereabouts *where)
{
  const WbStretch *stretch = wb_trail_stretch (trail, where->stretch);
  g_autofree char *hold = describe_hold (stretch);

  switch (where->stand)
    {
    case WB_STAND_NOT_PICKED_UP:
      /* Translators: a party, a place, a date. */
      return g_strdup_printf (_("Not picked up yet: with %s."), hold);
    case WB_STAND_DELIVERED:
      /* Translators: a party, a place, a date. */
      return g_strdup_printf (_("Delivered: with %s."), hold);
    case WB_STAND_HELD:
      if (stretch->hold == WB_HOLD_WAREHOUSE)
        /* Translators: a party, a place, a date. */
        return g_strdup_printf (_("In a warehouse: with %s."), hold);
      if (stretch->hold == WB_HOLD_VEHICLE)
        /* Translators: a party, a vehicle, a date. */
        return g_strdup_printf (_("On a vehicle: with %s."), hold);
      /* Translators: a party, a place, a date. */
      return g_strdup_printf (_("With %s."), hold);
    case WB_STAND_MISSING:
      return describe_missing (trail, where);
    }

  g_assert_not_reached ();
}

char *
wb_words_whereabouts (const WbTrail *trail,
                      guint          piece)
{
  WbWhereabouts where = wb_trail_whereabouts (trail, piece);
  g_autofree char *standing = describe_standing (trail, &where);
  g_autofree char *pending = NULL;

  if (where.pending < 0)
    return g_steal_pointer (&standing);

  pending = wb_words_handover (get_handover (trail, where.pending));
  /* Translators: a sentence about where a piece is, and a handover. */
  return g_strdup_printf (_("%s It has not been counted at the handover “%s”."), standing, pending);
}

static char *
marks_in_words (const char *marks)
{
  char *words = wb_words_marks (marks, NULL);

  return words != NULL ? words : g_strdup (marks);
}

static void
append_sentence (GString    *text,
                 const char *sentence)
{
  if (text->len > 0)
    g_string_append_c (text, ' ');
  g_string_append (text, sentence);
}

static const char *
state_sentence (const WbPass *pass)
{
  if (pass->reappeared && pass->state == WB_PASS_OVER)
    return _("Over: back after it had been short.");
  if (pass->reappeared)
    return _("Counted: back after it had been short.");
  if (pass->missing && pass->state == WB_PASS_SHORT)
    return _("Still short.");
  if (pass->missing)
    return _("Not counted, and missing since before.");

  switch (pass->state)
    {
    case WB_PASS_AS_LISTED:
      return _("Taken as listed: nobody counted.");
    case WB_PASS_COUNTED:
      return _("Counted.");
    case WB_PASS_SHORT:
      return _("Short.");
    case WB_PASS_OVER:
      return _("Over.");
    case WB_PASS_NOT_COUNTED:
      return _("Not counted yet.");
    }

  g_assert_not_reached ();
}

static void
append_marks (GString      *text,
              const WbPass *pass)
{
  g_autofree char *fresh = pass->new_marks != NULL ? marks_in_words (pass->new_marks) : NULL;
  g_autofree char *all = pass->noted_marks != NULL ? marks_in_words (pass->noted_marks) : NULL;
  g_autofree char *sentence = NULL;

  if (fresh != NULL)
    /* Translators: condition marks in words. */
    sentence = g_strdup_printf (_("New: %s."), fresh);
  else if (all != NULL)
    /* Translators: condition marks in words. */
    sentence = g_strdup_printf (_("Noted again, known before: %s."), all);

  if (sentence != NULL)
    append_sentence (text, sentence);
}

char *
wb_words_pass (const WbTrail *trail,
               guint          handover,
               guint          piece)
{
  const WbPass *pass = wb_trail_pass (trail, handover, piece);
  GString *text = g_string_new (state_sentence (pass));

  append_marks (text, pass);
  if (pass->finding != NULL && pass->finding->notes != NULL)
    append_sentence (text, pass->finding->notes);
  return g_string_free (text, FALSE);
}

/* --- a handover ------------------------------------------------------------------------------- */

static void
add_signature_faults (GStrvBuilder          *faults,
                      const WbHandoverFacts *facts)
{
  if (facts->from_unsigned && facts->to_unsigned)
    g_strv_builder_add (faults, _("Neither side has signed."));
  else if (facts->from_unsigned)
    g_strv_builder_add (faults, _("The giver has not signed."));
  else if (facts->to_unsigned)
    g_strv_builder_add (faults, _("The receiver has not signed."));
}

static void
take_fault (GStrvBuilder *faults,
            char         *fault)
{
  g_strv_builder_add (faults, fault);
  g_free (fault);
}

GStrv
wb_words_handover_faults (const WbTrail *trail,
                          guint          handover)
{
  const WbHandoverFacts *facts = wb_trail_handover (trail, handover);
  g_autoptr (GStrvBuilder) faults = g_strv_builder_new ();

  if (facts->undated)
    g_strv_builder_add (faults, _("It has no date."));
  if (facts->earlier_than >= 0)
    {
      g_autofree char *other = wb_words_handover (get_handover (trail, facts->earlier_than));

      /* Translators: a handover. */
      take_fault (faults, g_strdup_printf (_("It is dated before “%s”, which comes before it."),
                                           other));
    }
  if (facts->giver_differs)
    /* Translators: two parties. */
    take_fault (faults, g_strdup_printf (_("The goods were received by %s, but handed over by "
                                           "%s."),
                                         get_handover (trail, (gint) handover - 1)->to_holder,
                                         facts->handover->from_holder));
  add_signature_faults (faults, facts);
  if (facts->unreadable != NULL)
    /* Translators: text that somebody wrote. */
    take_fault (faults, g_strdup_printf (_("The tags counted do not read: “%s”. Give the count up "
                                           "and begin again."), facts->unreadable->tags));

  return g_strv_builder_end (faults);
}

static void
append_figure (GString    *text,
               char       *figure)
{
  g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", figure);
  g_free (figure);
}

char *
wb_words_handover_figures (const WbHandoverFacts *facts)
{
  GString *text = g_string_new (NULL);
  guint n_over = facts->overages->len + (guint) facts->n_strays;

  if (facts->handover->count != WB_COUNT_AS_LISTED)
    append_figure (text, g_strdup_printf (_("%u of %u counted"), facts->n_counted,
                                          facts->n_pieces));
  if (facts->left->len > 0)
    append_figure (text, g_strdup_printf (_("%u left"), facts->left->len));
  if (facts->shortages->len > 0)
    append_figure (text, g_strdup_printf (_("%u short"), facts->shortages->len));
  if (n_over > 0)
    append_figure (text, g_strdup_printf (_("%u over"), n_over));
  if (facts->reappeared->len > 0)
    append_figure (text, g_strdup_printf (_("%u back after being short"), facts->reappeared->len));
  if (facts->marked->len > 0)
    append_figure (text, g_strdup_printf (_("%u with new marks"), facts->marked->len));
  if (text->len == 0)
    g_string_append (text, _("Taken as listed, nothing noted"));

  return g_string_free (text, FALSE);
}

/* --- storage ---------------------------------------------------------------------------------- */

static char *
days_text (gint days)
{
  return g_strdup_printf (ngettext ("%d day", "%d days", (gulong) ABS (days)), ABS (days));
}

static char *
describe_limit (const WbStorageWatch *watch)
{
  g_autofree char *from = wb_words_date (&watch->from);
  g_autofree char *last = wb_words_date (&watch->last_day);
  g_autofree char *stored = days_text (watch->days_stored);
  g_autofree char *left = days_text (watch->days_left);

  switch (watch->state)
    {
    case WB_STORAGE_NONE:
      return NULL;
    case WB_STORAGE_NO_LIMIT:
      /* Translators: a date, a number of days. */
      return g_strdup_printf (_("In storage since %s, %s so far. The order names no limit and no "
                                "last day, so nobody is warned."), from, stored);
    case WB_STORAGE_RUNNING:
      if (watch->days_left == 0)
        /* Translators: a date. */
        return g_strdup_printf (_("In storage since %s. Storage in transit ends today."), from);
      /* Translators: a date, a date, a number of days. */
      return g_strdup_printf (_("In storage since %s. Storage in transit ends on %s, in %s."), from,
                              last, left);
    case WB_STORAGE_PAST:
      /* Translators: a date, a date, a number of days. */
      return g_strdup_printf (_("In storage since %s. Storage in transit ended on %s, %s ago."),
                              from, last, left);
    case WB_STORAGE_OUT:
      /* Translators: a date, a number of days. */
      return g_strdup_printf (_("Was in storage from %s, for %s."), from, stored);
    }

  g_assert_not_reached ();
}

static char *
describe_notice (const WbStorageWatch *watch)
{
  g_autofree char *by = wb_words_date (&watch->notice_by);
  g_autofree char *on = wb_words_date (&watch->notice_on);
  g_autofree char *until = wb_words_date (&watch->liable_until);
  g_autofree char *claim = wb_words_date (&watch->claim_until);
  g_autofree char *left = days_text (watch->notice_days_left);

  switch (watch->notice)
    {
    case WB_STORAGE_NOTICE_NONE:
      return NULL;
    case WB_STORAGE_NOTICE_OPEN:
      if (watch->notice_days_left == 0)
        return g_strdup (_("The shipper has to be told in writing today."));
      /* Translators: a date, a number of days. */
      return g_strdup_printf (_("The shipper has to be told in writing by %s, in %s."), by, left);
    case WB_STORAGE_NOTICE_OVERDUE:
      /* Translators: a date. */
      return g_strdup_printf (_("The shipper had to be told in writing by %s, and no notice is "
                                "noted: liability as carrier goes on until the day after it is "
                                "given."), by);
    case WB_STORAGE_NOTICE_GIVEN:
      /* Translators: three dates. */
      return g_strdup_printf (_("The shipper was told on %s: liability as carrier ends on %s, and "
                                "claims may be filed until %s."), on, until, claim);
    case WB_STORAGE_NOTICE_LATE:
      /* Translators: four dates. */
      return g_strdup_printf (_("The shipper was told on %s, after %s: liability as carrier goes "
                                "on to %s, and claims may be filed until %s."), on, by, until,
                              claim);
    }

  g_assert_not_reached ();
}

char *
wb_words_storage (const WbStorageWatch *watch)
{
  g_autofree char *limit = describe_limit (watch);
  g_autofree char *notice = describe_notice (watch);
  GString *text;

  if (limit == NULL)
    return NULL;

  text = g_string_new (limit);
  if (watch->limit == WB_STORAGE_LIMIT_MILITARY)
    append_sentence (text, _("The order gives no limit; 90 days are reckoned (32 CFR 842.37)."));
  if (watch->beyond_most)
    append_sentence (text, _("The limit is above the 180 days to which it can be extended (32 CFR "
                             "842.37)."));
  if (notice != NULL)
    {
      append_sentence (text, notice);
      append_sentence (text, "(" WB_STORAGE_NOTICE_CITATION ")");
    }
  return g_string_free (text, FALSE);
}

char *
wb_words_storage_due (const WbStorageWatch *watch)
{
  g_autofree char *left = days_text (watch->days_left);
  g_autofree char *notice_left = days_text (watch->notice_days_left);

  if (!wb_storage_watch_is_due (watch))
    return NULL;
  if (watch->state == WB_STORAGE_PAST)
    /* Translators: a number of days. */
    return g_strdup_printf (_("Storage in transit ended %s ago"), left);
  if (watch->notice == WB_STORAGE_NOTICE_OVERDUE)
    return g_strdup (_("Notice that storage ends is overdue"));
  if (watch->notice == WB_STORAGE_NOTICE_OPEN && watch->notice_days_left == 0)
    return g_strdup (_("Notice that storage ends is due today"));
  if (watch->notice == WB_STORAGE_NOTICE_OPEN)
    /* Translators: a number of days. */
    return g_strdup_printf (_("Notice that storage ends is due in %s"), notice_left);
  if (watch->days_left == 0)
    return g_strdup (_("Storage in transit ends today"));

  /* Translators: a number of days. */
  return g_strdup_printf (_("Storage in transit ends in %s"), left);
}
