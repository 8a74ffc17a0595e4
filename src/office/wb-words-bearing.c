/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sentences on who bears a claim: why a line is shared as it is, what limits cut, what is wrong
 * with a split by hand. Nothing is worked out here. */
#include "config.h"

#include "office/wb-words-bearing.h"

#include "office/wb-words-trail.h"

#include <glib/gi18n.h>
#include <string.h>

/* --- names ------------------------------------------------------------------------------------ */

char *
wb_words_claim_line (const WbJob       *job,
                     const WbClaimLine *line)
{
  const WbPiece *piece = wb_job_find (job, WB_KIND_PIECE, line->piece);
  g_autofree char *tag = piece != NULL ? wb_words_tag (job, piece) : NULL;
  const char *item = line->item != NULL ? line->item
                     : piece != NULL && piece->description != NULL ? piece->description : "–";

  if (tag == NULL)
    return g_strdup_printf ("%" G_GINT64_FORMAT ". %s", line->number, item);
  return g_strdup_printf ("%" G_GINT64_FORMAT ". %s (%s)", line->number, item, tag);
}

static char *
words_of_handover (const WbJob *job,
                   const char  *id)
{
  const WbHandover *handover = wb_job_find (job, WB_KIND_HANDOVER, id);

  return handover != NULL ? wb_words_handover (handover) : g_strdup ("–");
}

/* What was written for a split by hand, without the stop at its end. */
static char *
words_of_reason (const WbJob        *job,
                 const WbLineShares *line)
{
  const char *written = wb_hand_split_reason (job, line->line->record.id);
  char *reason = g_strstrip (g_strdup (written != NULL ? written : ""));
  gsize length = strlen (reason);

  while (length > 0 && reason[length - 1] == '.')
    reason[--length] = '\0';
  if (length > 0)
    return reason;

  g_free (reason);
  return g_strdup (_("no reason was written"));
}

/* --- lines ------------------------------------------------------------------------------------ */

static const char *const shared_sentences[] = {
  /* Translators: {handover} is a handover with its date, {who} names who had the goods, {reason} is
   * what a person wrote. */
  [WB_SHARED_NOTED] = N_("First noted at {handover}, at the end of the time of {who}."),
  [WB_SHARED_UNCOUNTED] = N_("First noted at {handover}. Nobody counted it when it changed hands "
                             "before, so any of these could have done it: {who}. The last of them "
                             "is presumed to."),
  [WB_SHARED_UNSIGNED] = N_("Noted at {handover}, but the warehouse did not sign for it, so "
                            "whoever took the goods from it cannot show an exception. Any of these "
                            "could have done it: {who}."),
  [WB_SHARED_NOT_NOTED] = N_("Noted at no handover, so whoever had it last is presumed to have "
                             "done it. Any of these could have done it: {who}."),
  [WB_SHARED_NO_PIECE] = N_("It is not on the inventory, so nobody is shown to have had it; the "
                            "carrier bears it."),
  [WB_SHARED_NO_HANDLER] = N_("No handover says who had it then; the carrier bears it."),
  [WB_SHARED_BY_HAND] = N_("Shared by hand: {reason}."),
};

char *
wb_words_handler (const WbHandler *handler)
{
  return g_strdup (handler->name != NULL ? handler->name : _("the office"));
}

/* Whether the rule of equal parts was at work. */
static gboolean
is_shared_equally (const WbApportionment *self,
                   const WbLineShares    *line)
{
  switch (line->why)
    {
    case WB_SHARED_UNCOUNTED:
    case WB_SHARED_UNSIGNED:
    case WB_SHARED_NOT_NOTED:
      return self->rule == WB_APPORTION_EQUAL;
    case WB_SHARED_NOTED:
    case WB_SHARED_NO_PIECE:
    case WB_SHARED_NO_HANDLER:
    case WB_SHARED_BY_HAND:
      break;
    }
  return FALSE;
}

static char *
list_who (const WbApportionment *self,
          const WbLineShares    *line)
{
  g_autoptr (GString) out = g_string_new (NULL);

  for (guint i = 0; i < self->n_handlers; i++)
    {
      g_autofree char *name = NULL;

      if (!line->could[i])
        continue;
      name = wb_words_handler (&self->handlers[i]);
      if (out->len > 0)
        /* Translators: between the names of those who had the goods. */
        g_string_append (out, C_("list of names", "; "));
      g_string_append (out, name);
    }
  return g_string_free (g_steal_pointer (&out), FALSE);
}

char *
wb_words_shared (const WbApportionment *self,
                 guint                  line)
{
  const WbLineShares *it;
  g_autofree char *who = NULL;
  g_autofree char *handover = NULL;
  g_autofree char *reason = NULL;
  g_autoptr (GString) out = NULL;

  g_return_val_if_fail (line < self->n_lines, NULL);

  it = &self->lines[line];
  who = list_who (self, it);
  handover = words_of_handover (self->reckoning->job, it->noted_at);
  reason = words_of_reason (self->reckoning->job, it);
  out = g_string_new (is_shared_equally (self, it)
                      ? _("Any of these could have done it, and they bear it in equal parts: "
                          "{who}.")
                      : _(shared_sentences[it->why]));
  g_string_replace (out, "{handover}", handover, 0);
  g_string_replace (out, "{who}", who, 0);
  g_string_replace (out, "{reason}", reason, 0);
  return g_string_free (g_steal_pointer (&out), FALSE);
}

char *
wb_words_hand_fault (const WbLineShares *line)
{
  g_autofree char *total = NULL;

  if (!line->hand_fault)
    return NULL;

  total = wb_words_percent (line->hand_total);
  /* Translators: %s is a percentage. */
  return g_strdup_printf (_("The shares set by hand come to %s; they count when they come to "
                            "100 %%. Until then the line is shared by rule."), total);
}

char *
wb_words_over_limit (const WbApportionment *self,
                     guint                  handler)
{
  const WbHandler *it = &self->handlers[handler];
  const char *currency = self->reckoning->terms->currency;
  g_autofree char *name = NULL;
  g_autofree char *carrier = NULL;
  g_autofree char *limit = NULL;
  g_autofree char *excess = NULL;

  if (it->excess == 0)
    return NULL;

  name = wb_words_handler (it);
  carrier = wb_words_handler (&self->handlers[0]);
  limit = wb_words_minor (it->limit, currency);
  excess = wb_words_minor (it->excess, currency);
  /* Translators: name of a handler, amount, amount, name of the carrier. */
  return g_strdup_printf (_("By its agreement %s bears no more than %s of a claim; the %s above it "
                            "fall to %s."), name, limit, excess, carrier);
}

char *
wb_words_shared_source (WbSharedWhy why)
{
  WbChecked checked;
  const char *citation = wb_shared_citation (why, &checked);

  switch (checked)
    {
    case WB_CHECKED_NONE:
      return NULL;
    case WB_CHECKED_SEEN:
    case WB_CHECKED_TERMS:
      return g_strdup (citation);
    case WB_CHECKED_PRACTICE:
    case WB_CHECKED_MEMORY:
      /* Translators: what a rule rests on, and how far that was looked up. */
      return g_strdup_printf (_("%s (%s)"), citation, wb_words_enum (&wb_checked, (int) checked));
    }
  g_return_val_if_reached (NULL);
}

static guint
count_bearers (const WbApportionment *self,
               const WbLineShares    *line)
{
  guint n = 0;

  for (guint i = 0; i < self->n_handlers; i++)
    n += line->parts[i] != 0 ? 1 : 0;
  return n;
}

/* Returns: the place of who bears most of those not named yet, or -1. */
static gint
find_largest (const WbApportionment *self,
              const WbLineShares    *line,
              const gboolean        *named)
{
  gint largest = -1;

  for (guint i = 0; i < self->n_handlers; i++)
    if (!named[i] && line->parts[i] != 0
        && (largest < 0 || line->parts[i] > line->parts[largest]))
      largest = (gint) i;
  return largest;
}

char *
wb_words_bearers (const WbApportionment *self,
                  guint                  line)
{
  const WbLineShares *it = &self->lines[line];
  gboolean several = count_bearers (self, it) > 1;
  g_autofree gboolean *named = g_new0 (gboolean, self->n_handlers);
  g_autoptr (GString) out = g_string_new (NULL);
  gint next;

  while ((next = find_largest (self, it, named)) >= 0)
    {
      g_autofree char *name = wb_words_handler (&self->handlers[next]);
      g_autofree char *part = NULL;

      named[next] = TRUE;
      if (out->len > 0)
        g_string_append (out, C_("list of names", "; "));
      g_string_append (out, name);
      if (!several)
        continue;
      part = wb_words_minor (it->parts[next], self->reckoning->terms->currency);
      g_string_append_printf (out, " %s", part);
    }
  if (out->len == 0)
    g_string_append (out, _("Nothing is owed"));
  return g_string_free (g_steal_pointer (&out), FALSE);
}

char *
wb_words_cut (const WbApportionment *self,
              guint                  line)
{
  const WbLineShares *it = &self->lines[line];
  const char *currency = self->reckoning->terms->currency;
  g_autofree char *carrier = wb_words_handler (&self->handlers[0]);
  g_autoptr (GString) out = g_string_new (NULL);

  for (guint i = 0; i < self->n_handlers; i++)
    {
      g_autofree char *name = NULL;
      g_autofree char *cut = NULL;
      g_autofree char *limit = NULL;

      if (it->cut[i] == 0)
        continue;
      name = wb_words_handler (&self->handlers[i]);
      cut = wb_words_minor (it->cut[i], currency);
      limit = wb_words_minor (self->handlers[i].limit, currency);
      if (out->len > 0)
        g_string_append_c (out, ' ');
      /* Translators: amount, name of a handler, its limit, name of the carrier. */
      g_string_append_printf (out, _("%s of it is above what %s bears at most of the claim, %s, "
                                     "and falls to %s."), cut, name, limit, carrier);
    }
  return out->len > 0 ? g_string_free (g_steal_pointer (&out), FALSE) : NULL;
}

char *
wb_words_unassigned (const WbApportionment *self)
{
  g_autofree char *amount = NULL;
  g_autofree char *carrier = NULL;

  if (self->unassigned == 0)
    return NULL;

  amount = wb_words_minor (self->unassigned, self->reckoning->terms->currency);
  carrier = wb_words_handler (&self->handlers[0]);
  /* Translators: an amount, and the name of the carrier. */
  return g_strdup_printf (_("For %s nobody is shown to have had the goods; it stays with %s."),
                          amount, carrier);
}

/* --- splits by hand --------------------------------------------------------------------------- */

char *
wb_words_hand_split (WbHandSplitFault fault,
                     gint64           total)
{
  g_autofree char *sum = wb_words_percent (total);

  switch (fault)
    {
    case WB_HAND_SPLIT_GOOD:
      return NULL;
    case WB_HAND_SPLIT_NOBODY:
      return g_strdup (_("Nobody bears a part yet. Give each handler its percentage."));
    case WB_HAND_SPLIT_OUT_OF_RANGE:
      return g_strdup (_("A part lies between 0 % and 100 %. Correct the one that does not."));
    case WB_HAND_SPLIT_NOT_WHOLE:
      /* Translators: %s is a percentage. */
      return g_strdup_printf (_("The parts come to %s. They have to come to 100 %%."), sum);
    case WB_HAND_SPLIT_REPEATED:
      return g_strdup (_("One handler stands there twice. Give it one part."));
    case WB_HAND_SPLIT_NO_REASON:
      return g_strdup (_("Write the reason. Without one nobody can tell later why the rule was not "
                         "followed."));
    }
  g_return_val_if_reached (NULL);
}
