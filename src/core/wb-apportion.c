/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shares what the carrier owes on a claim out among those who had the goods, and sets what was
 * charged to them beside it. Who they are is in wb-apportion-handlers.c, who could have done a
 * loss in wb-apportion-trail.c; what is owed comes from the reckoning. */
#include "config.h"

#include "core/wb-apportion-private.h"

#include "core/wb-core.h"

#define N_(text) text

#define WHOLE 10000

static const WbEnumValue rule_values[] = {
  { WB_APPORTION_LAST, "last", N_("The last handler without an exception") },
  { WB_APPORTION_EQUAL, "equal", N_("In equal parts among all that could have done it") },
};
const WbEnum wb_apportion_rules = { "rule of sharing", rule_values, G_N_ELEMENTS (rule_values) };

static const WbEnumValue why_values[] = {
  { WB_SHARED_NOTED, "noted", N_("Noted when handed on") },
  { WB_SHARED_UNCOUNTED, "uncounted", N_("Not counted in between") },
  { WB_SHARED_UNSIGNED, "unsigned", N_("Exception not signed by the warehouse") },
  { WB_SHARED_NOT_NOTED, "not-noted", N_("Noted at no handover") },
  { WB_SHARED_NO_PIECE, "no-piece", N_("Not on the inventory") },
  { WB_SHARED_NO_HANDLER, "no-handler", N_("Nobody noted who had it") },
  { WB_SHARED_BY_HAND, "by-hand", N_("Set by hand") },
};
const WbEnum wb_shared_whys = { "ground of sharing", why_values, G_N_ELEMENTS (why_values) };

typedef struct
{
  WbChecked   checked;
  const char *citation;
} Source;

static const Source sources[] = {
  [WB_SHARED_NOTED] = { WB_CHECKED_SEEN, "DOHA digests 2001, 2005, 2006: an exception sheet at a "
                                         "change of custody passes liability to the one before" },
  [WB_SHARED_UNCOUNTED] = { WB_CHECKED_SEEN, "DOHA digests 2001, 2005, 2006: no exception sheet at "
                                             "a change of custody, the last handler is presumed "
                                             "liable" },
  [WB_SHARED_UNSIGNED] = { WB_CHECKED_SEEN, "32 CFR 751.31(a) (2005 edition): exceptions count when "
                                            "the warehouse signed them" },
  [WB_SHARED_NOT_NOTED] = { WB_CHECKED_SEEN, "DOHA digests 2001, 2005, 2006: the last handler is "
                                             "presumed liable" },
  [WB_SHARED_NO_PIECE] = { WB_CHECKED_SEEN, "49 USC 14706(a)(1): the carrier answers to the "
                                            "shipper" },
  [WB_SHARED_NO_HANDLER] = { WB_CHECKED_SEEN, "49 USC 14706(a)(1): the carrier answers to the "
                                              "shipper" },
  [WB_SHARED_BY_HAND] = { WB_CHECKED_NONE, NULL },
};
G_STATIC_ASSERT (G_N_ELEMENTS (sources) == G_N_ELEMENTS (why_values));

const char *
wb_shared_citation (WbSharedWhy  why,
                    WbChecked   *checked)
{
  *checked = sources[why].checked;
  return sources[why].citation;
}

/* --- one line --------------------------------------------------------------------------------- */

static gboolean
split_equally (const WbSharing  *self,
               WbLineShares     *out,
               GError          **error)
{
  g_autofree gint64 *shares = g_new0 (gint64, self->handlers->len);

  for (guint i = 0; i < self->handlers->len; i++)
    shares[i] = out->could[i] ? 1 : 0;
  return wb_minor_split (out->owed, shares, self->handlers->len, out->parts, error);
}

/* Says who could have done it and where it was first noted. Returns: who is presumed to. */
static gint
find_out (WbSharing    *self,
          WbTerms      *terms,
          WbLineShares *out)
{
  gint piece = out->line->piece != NULL
               ? wb_job_index (self->job, WB_KIND_PIECE, out->line->piece) : -1;
  gint noted, bearer;

  if (piece < 0)
    {
      out->why = WB_SHARED_NO_PIECE;
      return WB_CARRIER;
    }

  noted = wb_sharing_find_noted (self, terms, out->line);
  bearer = wb_sharing_find_bearer (self, noted, (guint) piece, out);
  if (noted >= 0)
    {
      const WbHandover *handover = wb_job_nth (self->job, WB_KIND_HANDOVER, (guint) noted);

      out->noted_at = handover->record.id;
    }
  return bearer;
}

static gboolean
share_by_rule (WbSharing     *self,
               gint           bearer,
               WbLineShares  *out,
               GError       **error)
{
  switch (self->rule)
    {
    case WB_APPORTION_LAST:
      break;
    case WB_APPORTION_EQUAL:
      if (wb_sharing_count_could (self, out) > 0)
        return split_equally (self, out, error);
      break;
    }
  out->parts[bearer] = out->owed;
  return TRUE;
}

/* Shares set by hand count when they make 100 %. Returns: %FALSE on an error of arithmetic. */
static gboolean
share_by_hand (WbSharing     *self,
               WbLineShares  *out,
               gboolean      *done,
               GError       **error)
{
  g_autofree gint64 *percents = g_new0 (gint64, self->handlers->len);
  gboolean any = FALSE;

  *done = FALSE;
  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_SHARE); i++)
    {
      const WbShare *share = wb_job_nth (self->job, WB_KIND_SHARE, i);
      gint handler;

      if (g_strcmp0 (share->claim_line, out->line->record.id) != 0)
        continue;
      any = TRUE;
      handler = wb_handlers_find (self->handlers, share->handler);
      if (share->percent == WB_INTEGER_UNSET || handler < 0)
        continue;
      if (share->percent < 0 || share->percent > WHOLE)
        {
          g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                       "share “%s” is not between 0 and 100 %%", share->record.id);
          return FALSE;
        }
      percents[handler] += share->percent;
      out->hand_total += share->percent;
    }

  out->hand_fault = any && out->hand_total != WHOLE;
  if (!any || out->hand_fault)
    return TRUE;

  *done = TRUE;
  return wb_minor_split (out->owed, percents, self->handlers->len, out->parts, error);
}

static gboolean
share_line (WbSharing             *self,
            WbTerms               *terms,
            const WbLineReckoning *row,
            WbSide                 side,
            WbLineShares          *out,
            GError               **error)
{
  gboolean by_hand;
  gint bearer;

  out->line = row->line;
  out->owed = row->side[side].owed;
  out->could = g_new0 (gboolean, self->handlers->len);
  out->parts = g_new0 (gint64, self->handlers->len);
  out->cut = g_new0 (gint64, self->handlers->len);
  bearer = find_out (self, terms, out);
  if (!share_by_hand (self, out, &by_hand, error))
    return FALSE;
  if (!by_hand)
    return share_by_rule (self, bearer, out, error);

  out->why = WB_SHARED_BY_HAND;
  return TRUE;
}

/* --- the whole claim -------------------------------------------------------------------------- */

/* Cuts what a handler bears to its limit, line by line in proportion; the carrier takes the
 * rest. */
static gboolean
apply_limit (WbApportionment  *self,
             guint             index,
             GError          **error)
{
  WbHandler *handler = &self->handlers[index];
  g_autofree gint64 *wanted = g_new0 (gint64, self->n_lines);
  g_autofree gint64 *kept = g_new0 (gint64, self->n_lines);

  for (guint i = 0; i < self->n_lines; i++)
    {
      wanted[i] = self->lines[i].parts[index];
      handler->wanted += wanted[i];
    }
  handler->borne = handler->wanted;
  if (!handler->has_limit || handler->wanted <= handler->limit)
    return TRUE;

  if (!wb_minor_split (handler->limit, wanted, self->n_lines, kept, error))
    return FALSE;
  for (guint i = 0; i < self->n_lines; i++)
    {
      self->lines[i].parts[index] = kept[i];
      self->lines[i].cut[index] = wanted[i] - kept[i];
      self->lines[i].parts[WB_CARRIER] += wanted[i] - kept[i];
    }
  handler->borne = handler->limit;
  handler->excess = handler->wanted - handler->borne;
  return TRUE;
}

static gboolean
apply_limits (WbApportionment  *self,
              GError          **error)
{
  WbHandler *carrier = &self->handlers[WB_CARRIER];

  for (guint i = 0; i < self->n_lines; i++)
    carrier->wanted += self->lines[i].parts[WB_CARRIER];
  for (guint i = 1; i < self->n_handlers; i++)
    if (!apply_limit (self, i, error))
      return FALSE;
  for (guint i = 0; i < self->n_lines; i++)
    carrier->borne += self->lines[i].parts[WB_CARRIER];
  return TRUE;
}

static gboolean
add_amount (WbMoney        amount,
            gint64        *sum,
            const WbRecord *record,
            GError       **error)
{
  if (!wb_money_is_set (amount))
    return TRUE;

  if (amount.minor < 0)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE, "charge “%s” is negative",
                   record->id);
      return FALSE;
    }
  if (__builtin_add_overflow (*sum, amount.minor, sum))
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW,
                   "the charges do not add up in 64 bits at “%s”", record->id);
      return FALSE;
    }
  return TRUE;
}

static gboolean
add_charges (WbApportionment  *self,
             const GArray     *handlers,
             GError          **error)
{
  const WbJob *job = self->reckoning->job;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CHARGE); i++)
    {
      const WbHandlerCharge *charge = wb_job_nth (job, WB_KIND_CHARGE, i);
      gint index;

      if (g_strcmp0 (charge->claim, self->reckoning->claim->record.id) != 0)
        continue;
      index = wb_handlers_find (handlers, charge->handler);
      if (index < 0)
        continue;
      if (!add_amount (charge->amount, &self->handlers[index].charged, &charge->record, error)
          || !add_amount (charge->recovered, &self->handlers[index].recovered, &charge->record,
                          error))
        return FALSE;
    }

  /* The amounts of charges are within a half of 64 bits each way. */
  for (guint i = 0; i < self->n_handlers; i++)
    {
      WbHandler *handler = &self->handlers[i];

      handler->open = handler->charged - handler->recovered;
      handler->uncharged = i == WB_CARRIER ? 0 : handler->borne - handler->charged;
    }
  return TRUE;
}

static void
clear_handler (gpointer data)
{
  WbHandler *handler = data;

  g_free (handler->name);
}

/* Nobody but the carrier is shown to have had it. */
static gboolean
is_unassigned (const WbLineShares *line)
{
  switch (line->why)
    {
    case WB_SHARED_NO_PIECE:
    case WB_SHARED_NO_HANDLER:
      return TRUE;
    case WB_SHARED_NOTED:
    case WB_SHARED_UNCOUNTED:
    case WB_SHARED_UNSIGNED:
    case WB_SHARED_NOT_NOTED:
    case WB_SHARED_BY_HAND:
      break;
    }
  return FALSE;
}

static gboolean
share_lines (WbApportionment  *self,
             WbSharing        *sharing,
             GError          **error)
{
  WbReckoning *reckoning = self->reckoning;

  for (guint i = 0; i < reckoning->n_lines; i++)
    {
      self->n_lines = i + 1;
      if (!share_line (sharing, reckoning->terms, &reckoning->lines[i], reckoning->applies,
                       &self->lines[i], error))
        return FALSE;
      self->owed += self->lines[i].owed;
      if (is_unassigned (&self->lines[i]))
        self->unassigned += self->lines[i].owed;
    }
  return TRUE;
}

WbApportionment *
wb_apportion (WbReckoning      *reckoning,
              WbApportionRule   rule,
              GError          **error)
{
  g_autoptr (WbApportionment) self = g_new0 (WbApportionment, 1);
  g_autoptr (GArray) handlers = g_array_new (FALSE, TRUE, sizeof (WbHandler));
  g_autoptr (WbTrail) trail = NULL;
  WbSharing sharing;
  gboolean shared;

  g_return_val_if_fail (reckoning != NULL, NULL);

  trail = wb_trail_new (reckoning->job);
  sharing = (WbSharing) { reckoning->job, trail, handlers, rule };
  wb_sharing_add_handlers (&sharing, reckoning->claim);

  self->reckoning = wb_reckoning_ref (reckoning);
  self->rule = rule;
  self->lines = g_new0 (WbLineShares, MAX (reckoning->n_lines, 1));
  self->freight_refund = reckoning->side[reckoning->applies].freight_refund;
  shared = share_lines (self, &sharing, error);

  self->n_handlers = handlers->len;
  self->handlers = g_memdup2 (handlers->data, sizeof (WbHandler) * handlers->len);
  if (!shared || !apply_limits (self, error) || !add_charges (self, handlers, error))
    return NULL;

  return g_steal_pointer (&self);
}

void
wb_apportionment_free (WbApportionment *self)
{
  for (guint i = 0; i < self->n_lines; i++)
    {
      g_free (self->lines[i].could);
      g_free (self->lines[i].parts);
      g_free (self->lines[i].cut);
    }
  for (guint i = 0; i < self->n_handlers; i++)
    clear_handler (&self->handlers[i]);
  g_free (self->handlers);
  g_free (self->lines);
  g_clear_pointer (&self->reckoning, wb_reckoning_unref);
  g_free (self);
}

/* --- as text ---------------------------------------------------------------------------------- */

static void
append_line (const WbApportionment *self,
             const WbLineShares    *line,
             GString               *out)
{
  g_string_append_printf (out, "line %" G_GINT64_FORMAT " owed=%" G_GINT64_FORMAT " %s at=%s",
                          line->line->number, line->owed,
                          wb_enum_nick (&wb_shared_whys, (int) line->why),
                          line->noted_at != NULL ? line->noted_at : "-");
  if (line->hand_fault)
    g_string_append_printf (out, " hand-fault=%" G_GINT64_FORMAT, line->hand_total);
  for (guint i = 0; i < self->n_handlers; i++)
    if (line->could[i] || line->parts[i] != 0)
      g_string_append_printf (out, " %u:%" G_GINT64_FORMAT "%s", i, line->parts[i],
                              line->could[i] ? "" : "!");
  for (guint i = 0; i < self->n_handlers; i++)
    if (line->cut[i] != 0)
      g_string_append_printf (out, " cut %u:%" G_GINT64_FORMAT, i, line->cut[i]);
  g_string_append_c (out, '\n');
}

char *
wb_apportionment_to_text (const WbApportionment *self)
{
  g_autoptr (GString) out = g_string_new (NULL);

  for (guint i = 0; i < self->n_handlers; i++)
    {
      const WbHandler *handler = &self->handlers[i];

      g_string_append_printf (out,
                              "handler %u %s wanted=%" G_GINT64_FORMAT " borne=%" G_GINT64_FORMAT
                              " charged=%" G_GINT64_FORMAT " recovered=%" G_GINT64_FORMAT "\n",
                              i, handler->name != NULL ? handler->name : "-", handler->wanted,
                              handler->borne, handler->charged, handler->recovered);
    }
  for (guint i = 0; i < self->n_lines; i++)
    append_line (self, &self->lines[i], out);
  g_string_append_printf (out, "owed=%" G_GINT64_FORMAT " unassigned=%" G_GINT64_FORMAT " freight=%"
                          G_GINT64_FORMAT "\n", self->owed, self->unassigned,
                          self->freight_refund);
  return g_string_free (g_steal_pointer (&out), FALSE);
}
