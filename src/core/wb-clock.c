/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The legal dates that run on a claim: what each runs from, what stops it, and how it stands on a
 * given day. Asks no clock and makes no words. */
#include "config.h"

#include "core/wb-clock.h"

#define N_(text) text

static const WbEnumValue clock_kinds[] = {
  { WB_CLOCK_NOTICE, "notice", N_("Report loss or damage") },
  { WB_CLOCK_CLAIM, "claim", N_("File the claim") },
  { WB_CLOCK_LATE_CLAIM, "late-claim", N_("File a late claim, settled at actual value") },
  { WB_CLOCK_ACKNOWLEDGE, "acknowledge", N_("Acknowledge the claim") },
  { WB_CLOCK_DECIDE, "decide", N_("Pay, decline or make an offer") },
  { WB_CLOCK_STATUS, "status", N_("Report why it is not decided") },
  { WB_CLOCK_SUIT, "suit", N_("Claimant’s last day to sue") },
};

const WbEnum wb_clock_kinds = { "clock", clock_kinds, G_N_ELEMENTS (clock_kinds) };

const GDate *
wb_order_delivery_day (const WbOrder *order)
{
  if (wb_date_is_set (&order->delivered_on))
    return &order->delivered_on;
  if (wb_date_is_set (&order->delivery_to))
    return &order->delivery_to;

  return &order->delivery_from;
}

static GDate
earlier_of (const GDate *a,
            const GDate *b)
{
  if (!wb_date_is_set (a))
    return *b;
  if (!wb_date_is_set (b))
    return *a;

  return wb_date_compare (a, b) <= 0 ? *a : *b;
}

static void
set_state (WbClock     *clock,
           const GDate *today)
{
  if (!wb_date_is_set (&clock->last_day))
    clock->state = WB_CLOCK_NOT_STARTED;
  else if (wb_date_is_set (&clock->done_on))
    {
      gboolean in_time = wb_date_compare (&clock->done_on, &clock->last_day) <= 0;

      clock->state = in_time ? WB_CLOCK_MET : WB_CLOCK_MISSED;
    }
  else
    {
      clock->days_left = wb_date_days_between (today, &clock->last_day);
      clock->state = clock->days_left >= 0 ? WB_CLOCK_RUNNING : WB_CLOCK_PAST;
    }
}

static gboolean
add_clock (GArray       *clocks,
           WbClock       clock,
           WbPeriod      period,
           const GDate  *today,
           GError      **error)
{
  if (!wb_period_is_set (period))
    return TRUE;

  if (wb_date_is_set (&clock.from)
      && !wb_date_add_period (&clock.from, period, &clock.last_day, error))
    return FALSE;

  set_state (&clock, today);
  g_array_append_val (clocks, clock);
  return TRUE;
}

/* After the day to decide a status is due again and again: the next one that is not past yet, or
 * the first while there is still time to decide is none at all. */
static gboolean
add_status (GArray         *clocks,
            const WbTerms  *terms,
            const WbClaim  *claim,
            const GDate    *today,
            GError        **error)
{
  WbClock clock = { .kind = WB_CLOCK_STATUS, .key = WB_KEY_STATUS_EVERY };
  GDate last_day;

  if (!wb_period_is_set (terms->decide_within) || !wb_period_is_set (terms->status_every)
      || terms->status_every.count == 0
      || !wb_date_is_set (&claim->received_on) || wb_date_is_set (&claim->decided_on))
    return TRUE;

  if (!wb_date_add_period (&claim->received_on, terms->decide_within, &last_day, error))
    return FALSE;
  if (wb_date_compare (today, &last_day) <= 0)
    return TRUE;

  while (wb_date_compare (&last_day, today) < 0)
    {
      clock.from = last_day;
      if (!wb_date_add_period (&clock.from, terms->status_every, &last_day, error))
        return FALSE;
    }

  return add_clock (clocks, clock, terms->status_every, today, error);
}

static gboolean
is_filed_late (const WbTerms *terms,
               const GDate   *delivered,
               const WbClaim *claim,
               const GDate   *today)
{
  const GDate *filed = wb_date_is_set (&claim->received_on) ? &claim->received_on : today;
  GDate last_day;

  return wb_date_is_set (delivered)
         && wb_period_is_set (terms->claim_within)
         && wb_date_add_period (delivered, terms->claim_within, &last_day, NULL)
         && wb_date_compare (filed, &last_day) > 0;
}

GArray *
wb_claim_clocks (const WbTerms *terms,
                 const WbJob   *job,
                 const WbClaim *claim,
                 const GDate   *today,
                 GError       **error)
{
  g_autoptr (GArray) clocks = g_array_new (FALSE, TRUE, sizeof (WbClock));
  const GDate *delivered = wb_order_delivery_day (wb_job_order (job));
  WbClock notice = { .kind = WB_CLOCK_NOTICE, .key = WB_KEY_NOTICE_WITHIN,
                     .from = *delivered, .done_on = claim->received_on };
  WbClock file = { .kind = WB_CLOCK_CLAIM, .key = WB_KEY_CLAIM_WITHIN,
                   .from = *delivered, .done_on = claim->received_on };
  WbClock late = { .kind = WB_CLOCK_LATE_CLAIM, .key = WB_KEY_LATE_UNTIL,
                   .from = *delivered, .done_on = claim->received_on };
  WbClock acknowledge = { .kind = WB_CLOCK_ACKNOWLEDGE, .key = WB_KEY_ACKNOWLEDGE_WITHIN,
                          .from = claim->received_on,
                          .done_on = earlier_of (&claim->acknowledged_on, &claim->decided_on) };
  WbClock decide = { .kind = WB_CLOCK_DECIDE, .key = WB_KEY_DECIDE_WITHIN,
                     .from = claim->received_on, .done_on = claim->decided_on };
  WbClock suit = { .kind = WB_CLOCK_SUIT, .key = WB_KEY_SUIT_WITHIN, .from = claim->decided_on };

  if (!add_clock (clocks, notice, terms->notice_within, today, error)
      || !add_clock (clocks, file, terms->claim_within, today, error)
      || (is_filed_late (terms, delivered, claim, today)
          && !add_clock (clocks, late, terms->late_until, today, error))
      || !add_clock (clocks, acknowledge, terms->acknowledge_within, today, error)
      || !add_clock (clocks, decide, terms->decide_within, today, error)
      || !add_status (clocks, terms, claim, today, error)
      || (claim->status == WB_CLAIM_DECLINED
          && !add_clock (clocks, suit, terms->suit_within, today, error)))
    return NULL;

  return g_steal_pointer (&clocks);
}
