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
  { WB_CLOCK_INSPECT, "inspect", N_("Inspect what is claimed") },
  { WB_CLOCK_MEDIATE, "mediate", N_("Claimant’s last day to ask for mediation") },
  { WB_CLOCK_ARBITRATE, "arbitrate", N_("Decision of the arbitrator") },
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

/* --- what the steps of a claim say ------------------------------------------------------------ */

/* Returns: the earliest day of a step of @kind on or after @after (which may be unset), or unset. */
static GDate
find_first_step (const WbJob   *job,
                 const WbClaim *claim,
                 WbStepKind     kind,
                 const GDate   *after)
{
  GDate first = { 0 };

  for (guint i = 0; i < wb_job_count (job, WB_KIND_STEP); i++)
    {
      const WbClaimStep *step = wb_job_nth (job, WB_KIND_STEP, i);

      if (step->kind != kind || !wb_date_is_set (&step->on)
          || g_strcmp0 (step->claim, claim->record.id) != 0
          || (after != NULL && wb_date_compare (&step->on, after) < 0))
        continue;
      first = earlier_of (&first, &step->on);
    }

  return first;
}

/* Returns: the latest day of a step of @kind, or unset. */
static GDate
find_last_step (const WbJob   *job,
                const WbClaim *claim,
                WbStepKind     kind)
{
  GDate last = { 0 };

  for (guint i = 0; i < wb_job_count (job, WB_KIND_STEP); i++)
    {
      const WbClaimStep *step = wb_job_nth (job, WB_KIND_STEP, i);

      if (step->kind == kind && g_strcmp0 (step->claim, claim->record.id) == 0
          && wb_date_compare (&step->on, &last) > 0)
        last = step->on;
    }

  return last;
}

static GDate
field_or_step (const GDate   *field,
               const WbJob   *job,
               const WbClaim *claim,
               WbStepKind     kind)
{
  return wb_date_is_set (field) ? *field : find_first_step (job, claim, kind, NULL);
}

/* --- clocks that start late ------------------------------------------------------------------- */

/* Sets @out to the end of the time to decide; %TRUE when there is one and it is past undecided. */
static gboolean
is_undecided (const WbTerms *terms,
              const WbClaim *claim,
              const GDate   *today,
              GDate         *out)
{
  return wb_period_is_set (terms->decide_within) && wb_date_is_set (&claim->received_on)
         && !wb_date_is_set (&claim->decided_on)
         && wb_date_add_period (&claim->received_on, terms->decide_within, out, NULL)
         && wb_date_compare (today, out) > 0;
}

/* A status is due so many days after the end of the time to decide, and again so many after each
 * that was sent since. */
static gboolean
add_status (GArray         *clocks,
            const WbTerms  *terms,
            const WbJob    *job,
            const WbClaim  *claim,
            const GDate    *today,
            GError        **error)
{
  WbClock clock = { .kind = WB_CLOCK_STATUS, .key = WB_KEY_STATUS_EVERY };
  GDate sent = find_last_step (job, claim, WB_STEP_STATUS);

  if (!is_undecided (terms, claim, today, &clock.from))
    return TRUE;

  if (wb_date_compare (&sent, &clock.from) > 0)
    clock.from = sent;
  return add_clock (clocks, clock, terms->status_every, today, error);
}

/* From the decision, or from the end of the time for one; not after a claim has a certain age. */
static gboolean
add_mediation (GArray         *clocks,
               const WbTerms  *terms,
               const WbClaim  *claim,
               const GDate    *today,
               GError        **error)
{
  WbClock clock = { .kind = WB_CLOCK_MEDIATE, .key = WB_KEY_MEDIATE_WITHIN,
                    .from = claim->decided_on };
  GDate end;
  WbClock *added;

  if (!wb_period_is_set (terms->mediate_within)
      || (!wb_date_is_set (&clock.from) && !is_undecided (terms, claim, today, &clock.from)))
    return TRUE;

  if (!add_clock (clocks, clock, terms->mediate_within, today, error))
    return FALSE;
  if (!wb_period_is_set (terms->mediate_until) || !wb_date_is_set (&claim->received_on))
    return TRUE;
  if (!wb_date_add_period (&claim->received_on, terms->mediate_until, &end, error))
    return FALSE;

  added = &g_array_index (clocks, WbClock, clocks->len - 1);
  if (wb_date_compare (&end, &added->last_day) < 0)
    {
      added->last_day = end;
      added->key = WB_KEY_MEDIATE_UNTIL;
      set_state (added, today);
    }
  return TRUE;
}

/* Over when a release was signed or the claim closed after it. */
static gboolean
add_arbitration (GArray         *clocks,
                 const WbTerms  *terms,
                 const WbJob    *job,
                 const WbClaim  *claim,
                 const GDate    *today,
                 GError        **error)
{
  WbClock clock = { .kind = WB_CLOCK_ARBITRATE, .key = WB_KEY_ARBITRATE_WITHIN,
                    .from = find_first_step (job, claim, WB_STEP_ARBITRATION, NULL) };
  GDate release, closed;

  if (!wb_date_is_set (&clock.from))
    return TRUE;

  release = find_first_step (job, claim, WB_STEP_RELEASE, &clock.from);
  closed = find_first_step (job, claim, WB_STEP_CLOSED, &clock.from);
  clock.done_on = earlier_of (&release, &closed);
  return add_clock (clocks, clock, terms->arbitrate_within, today, error);
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
  GDate noticed = find_first_step (job, claim, WB_STEP_NOTICE, NULL);
  GDate acknowledged = field_or_step (&claim->acknowledged_on, job, claim, WB_STEP_ACKNOWLEDGED);
  WbClock notice = { .kind = WB_CLOCK_NOTICE, .key = WB_KEY_NOTICE_WITHIN,
                     .from = *delivered,
                     .done_on = earlier_of (&noticed, &claim->received_on) };
  WbClock file = { .kind = WB_CLOCK_CLAIM, .key = WB_KEY_CLAIM_WITHIN,
                   .from = *delivered, .done_on = claim->received_on };
  WbClock late = { .kind = WB_CLOCK_LATE_CLAIM, .key = WB_KEY_LATE_UNTIL,
                   .from = *delivered, .done_on = claim->received_on };
  WbClock acknowledge = { .kind = WB_CLOCK_ACKNOWLEDGE, .key = WB_KEY_ACKNOWLEDGE_WITHIN,
                          .from = claim->received_on,
                          .done_on = earlier_of (&acknowledged, &claim->decided_on) };
  WbClock decide = { .kind = WB_CLOCK_DECIDE, .key = WB_KEY_DECIDE_WITHIN,
                     .from = claim->received_on, .done_on = claim->decided_on };
  WbClock suit = { .kind = WB_CLOCK_SUIT, .key = WB_KEY_SUIT_WITHIN, .from = claim->decided_on };
  WbClock inspect = { .kind = WB_CLOCK_INSPECT, .key = WB_KEY_INSPECT_WITHIN,
                      .from = claim->received_on,
                      .done_on = field_or_step (&claim->inspected_on, job, claim,
                                                WB_STEP_INSPECTION) };

  if (!add_clock (clocks, notice, terms->notice_within, today, error)
      || !add_clock (clocks, file, terms->claim_within, today, error)
      || (is_filed_late (terms, delivered, claim, today)
          && !add_clock (clocks, late, terms->late_until, today, error))
      || !add_clock (clocks, acknowledge, terms->acknowledge_within, today, error)
      || !add_clock (clocks, decide, terms->decide_within, today, error)
      || !add_status (clocks, terms, job, claim, today, error)
      || (claim->status == WB_CLAIM_DECLINED
          && !add_clock (clocks, suit, terms->suit_within, today, error))
      || !add_clock (clocks, inspect, terms->inspect_within, today, error)
      || !add_mediation (clocks, terms, claim, today, error)
      || !add_arbitration (clocks, terms, job, claim, today, error))
    return NULL;

  return g_steal_pointer (&clocks);
}
