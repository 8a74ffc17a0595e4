/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The legal dates that run on a claim: what each runs from, what stops it, and how it stands on a
 * given day. What a claim says of its dates is gathered in wb-clock-input.c. Asks no clock and
 * makes no words. */
#include "config.h"

#include "core/wb-clock.h"

#define N_(text) text

#define MAX_PERIOD 10000

static const WbEnumValue clock_kinds[] = {
  { WB_CLOCK_NOTICE, "notice", N_("Report loss or damage") },
  { WB_CLOCK_CLAIM, "claim", N_("File the claim") },
  { WB_CLOCK_LATE_CLAIM, "late-claim", N_("File a late claim, settled at actual value") },
  { WB_CLOCK_FEES, "fees", N_("File the claim with a right to attorney fees") },
  { WB_CLOCK_ACKNOWLEDGE, "acknowledge", N_("Acknowledge the claim") },
  { WB_CLOCK_DECIDE, "decide", N_("Pay, decline or make an offer") },
  { WB_CLOCK_STATUS, "status", N_("Report why it is not decided") },
  { WB_CLOCK_ANSWER_AGAIN, "answer-again", N_("Answer the claim taken up again") },
  { WB_CLOCK_SUIT, "suit", N_("Claimant’s last day to sue") },
  { WB_CLOCK_INSPECT, "inspect", N_("Inspect what is claimed") },
  { WB_CLOCK_SALVAGE, "salvage", N_("Collect the salvage") },
  { WB_CLOCK_TRANSFER, "transfer", N_("Settle before the claim may be transferred") },
  { WB_CLOCK_MEDIATE, "mediate", N_("Claimant’s last day to ask for mediation") },
  { WB_CLOCK_ARBITRATE, "arbitrate", N_("Decision of the arbitrator") },
  { WB_CLOCK_BILL, "bill", N_("Present the freight bill") },
  { WB_CLOCK_CONTEST_BILL, "contest-bill", N_("Shipper’s last day to contest the freight bill") },
};

const WbEnum wb_clock_kinds = { "clock", clock_kinds, G_N_ELEMENTS (clock_kinds) };

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

  clock.period = period;
  if (wb_date_is_set (&clock.from)
      && !wb_date_add_period (&clock.from, period, &clock.last_day, error))
    return FALSE;

  set_state (&clock, today);
  g_array_append_val (clocks, clock);
  return TRUE;
}

static GDate
later_of (const GDate *a,
          const GDate *b)
{
  return wb_date_compare (a, b) >= 0 ? *a : *b;
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

/* --- reports ---------------------------------------------------------------------------------- */

/* The days on which reports are due: the end of the time to decide, and every so many days after
 * it. @due is the next one that is open, @before the one before it. */
typedef struct
{
  const WbTerms *terms;
  GDate          end;       /* of the time to decide */
  gint           n;         /* how many periods after @end is @due */
  GDate          before;
  GDate          due;
} Reports;

/* Periods in months count from the end of the time to decide, so that months that are cut short do
 * not add up. */
static gboolean
go_on (Reports  *self,
       GError  **error)
{
  WbPeriod period = self->terms->status_every;
  const GDate *from = &self->due;
  GDate next;

  self->n++;
  if (period.unit != WB_PERIOD_DAYS && period.count * self->n <= MAX_PERIOD)
    {
      period.count *= self->n;
      from = &self->end;
    }
  if (!wb_date_add_period (from, period, &next, error))
    return FALSE;
  self->before = self->due;
  self->due = next;
  return TRUE;
}

static gboolean
go_on_until (Reports      *self,
             const GDate  *day,
             GError      **error)
{
  while (wb_date_compare (&self->due, day) < 0)
    if (!go_on (self, error))
      return FALSE;
  return TRUE;
}

/* The report at the end of the time to decide is left to the clock of the decision, unless that was
 * met and the claim taken up again. */
static gboolean
begin (Reports             *self,
       const WbClockInput  *input,
       GError             **error)
{
  self->due = self->end;
  if (!wb_date_is_set (&input->taken_up))
    return go_on (self, error);
  if (!go_on_until (self, &input->taken_up, error))
    return FALSE;
  if (wb_date_compare (&input->taken_up, &self->before) > 0)
    self->before = input->taken_up;
  return TRUE;
}

/* A letter before the day that is due answers it when it is nearer to it than to the day before;
 * else it is a late one for that, and moves nothing. */
static gboolean
is_early_report (const Reports *self,
                 const GDate   *on)
{
  return wb_date_days_between (on, &self->due) < wb_date_days_between (&self->before, on);
}

/* A letter after the day that is due answers it, and what is past besides, but no day to come. */
static gboolean
read_reports (Reports             *self,
              const WbClockInput  *input,
              GError             **error)
{
  for (guint i = 0; input->reports != NULL && i < input->reports->len; i++)
    {
      const GDate *on = &g_array_index (input->reports, GDate, i);
      gboolean is_late = wb_date_compare (on, &self->due) > 0;

      if (wb_date_compare (on, &input->taken_up) < 0)
        continue;
      if (!go_on_until (self, on, error))
        return FALSE;
      if ((!is_late || wb_date_compare (on, &self->due) == 0)
          && is_early_report (self, on) && !go_on (self, error))
        return FALSE;
    }
  return TRUE;
}

/* Whether the claim waits for an answer and the terms ask for reports meanwhile. */
static gboolean
asks_for_reports (const WbTerms      *terms,
                  const WbClockInput *input)
{
  return input->open
         && wb_period_is_set (terms->status_every) && wb_period_is_set (terms->decide_within)
         && wb_date_is_set (&input->received)
         && (!wb_date_is_set (&input->answered) || wb_date_is_set (&input->taken_up));
}

/* 49 CFR 370.9(a): when a claim cannot be disposed of in the time to decide, the claimant is told
 * the status and the reason then, and at the end of every following period. */
static gboolean
add_status (GArray              *clocks,
            const WbTerms       *terms,
            const WbClockInput  *input,
            const GDate         *today,
            GError             **error)
{
  Reports reports = { .terms = terms, .before = input->received };
  WbClock clock = { .kind = WB_CLOCK_STATUS, .key = WB_KEY_STATUS_EVERY,
                    .period = terms->status_every };

  if (!asks_for_reports (terms, input))
    return TRUE;
  if (!wb_date_add_period (&input->received, terms->decide_within, &reports.end, error))
    return FALSE;
  if (!wb_date_is_set (&input->taken_up) && wb_date_compare (today, &reports.end) <= 0)
    return TRUE;
  if (!begin (&reports, input, error) || !read_reports (&reports, input, error))
    return FALSE;

  clock.from = reports.before;
  clock.last_day = reports.due;
  set_state (&clock, today);
  g_array_append_val (clocks, clock);
  return TRUE;
}

/* --- clocks that start late ------------------------------------------------------------------- */

/* No rule says by when a claim is answered that was answered before and taken up again, by a
 * counter-offer or a reopening. Our reading: in the time of a new one. */
static gboolean
add_answer_again (GArray              *clocks,
                  const WbTerms       *terms,
                  const WbClockInput  *input,
                  const GDate         *today,
                  GError             **error)
{
  WbClock clock = { .kind = WB_CLOCK_ANSWER_AGAIN, .key = WB_KEY_DECIDE_WITHIN,
                    .from = input->taken_up };

  if (!input->open || !wb_date_is_set (&input->taken_up) || !wb_date_is_set (&input->answered))
    return TRUE;
  return add_clock (clocks, clock, terms->decide_within, today, error);
}

/* 49 USC 14706(e): the time runs from the written notice that any part of the claim is disallowed,
 * so each such notice has its own; an offer is none unless it says so with reasons, and is then
 * noted as a partial denial. */
static gboolean
add_suits (GArray              *clocks,
           const WbTerms       *terms,
           const WbClockInput  *input,
           const GDate         *today,
           GError             **error)
{
  WbClock clock = { .kind = WB_CLOCK_SUIT, .key = WB_KEY_SUIT_WITHIN, .from = input->decided };

  if (input->denials == NULL)
    return !input->declined || add_clock (clocks, clock, terms->suit_within, today, error);

  for (guint i = 0; i < input->denials->len; i++)
    {
      clock.from = g_array_index (input->denials, GDate, i);
      if (!add_clock (clocks, clock, terms->suit_within, today, error))
        return FALSE;
    }
  return TRUE;
}

/* Sets @out to the end of the time to decide; %TRUE when there is one and it is past undecided. */
static gboolean
is_undecided (const WbTerms      *terms,
              const WbClockInput *input,
              const GDate        *today,
              GDate              *out)
{
  return wb_period_is_set (terms->decide_within) && wb_date_is_set (&input->received)
         && wb_date_add_period (&input->received, terms->decide_within, out, NULL)
         && wb_date_compare (today, out) > 0
         && (!wb_date_is_set (&input->answered) || wb_date_compare (&input->answered, out) > 0);
}

/* From the denial or the offer, or from the end of the time for one; not after a claim has a
 * certain age. */
static gboolean
add_mediation (GArray              *clocks,
               const WbTerms       *terms,
               const WbClockInput  *input,
               const GDate         *today,
               GError             **error)
{
  WbClock clock = { .kind = WB_CLOCK_MEDIATE, .key = WB_KEY_MEDIATE_WITHIN,
                    .from = input->mediate_from, .done_on = input->mediated };
  GDate end;
  WbClock *added;

  if (!wb_period_is_set (terms->mediate_within)
      || (!wb_date_is_set (&clock.from) && !is_undecided (terms, input, today, &clock.from)))
    return TRUE;

  if (!add_clock (clocks, clock, terms->mediate_within, today, error))
    return FALSE;
  if (!wb_period_is_set (terms->mediate_until) || !wb_date_is_set (&input->received))
    return TRUE;
  if (!wb_date_add_period (&input->received, terms->mediate_until, &end, error))
    return FALSE;

  added = &g_array_index (clocks, WbClock, clocks->len - 1);
  if (wb_date_compare (&end, &added->last_day) < 0)
    {
      added->from = input->received;
      added->period = terms->mediate_until;
      added->last_day = end;
      added->key = WB_KEY_MEDIATE_UNTIL;
      set_state (added, today);
    }
  return TRUE;
}

/* Whether it was collected is noted, and when is not, so this clock is only there while it
 * waits. */
static gboolean
add_salvage (GArray              *clocks,
             const WbTerms       *terms,
             const WbClockInput  *input,
             const GDate         *today,
             GError             **error)
{
  WbClock clock = { .kind = WB_CLOCK_SALVAGE, .key = WB_KEY_COLLECT_SALVAGE_WITHIN,
                    .from = input->received };

  return !input->salvage_waits
         || add_clock (clocks, clock, terms->collect_salvage_within, today, error);
}

static gboolean
add_transfer (GArray              *clocks,
              const WbTerms       *terms,
              const WbClockInput  *input,
              const GDate         *today,
              GError             **error)
{
  WbClock clock = { .kind = WB_CLOCK_TRANSFER, .key = WB_KEY_TRANSFER_AFTER,
                    .from = input->received, .done_on = input->settled };

  if (wb_date_is_set (&input->transferred) || (!input->open && !wb_date_is_set (&input->settled)))
    return TRUE;
  return add_clock (clocks, clock, terms->transfer_after, today, error);
}

/* Over when a release was signed or the claim closed after it. */
static gboolean
add_arbitration (GArray              *clocks,
                 const WbTerms       *terms,
                 const WbClockInput  *input,
                 const GDate         *today,
                 GError             **error)
{
  WbClock clock = { .kind = WB_CLOCK_ARBITRATE, .key = WB_KEY_ARBITRATE_WITHIN,
                    .from = input->arbitrated, .done_on = input->arbitration_over };

  return !wb_date_is_set (&clock.from)
         || add_clock (clocks, clock, terms->arbitrate_within, today, error);
}

/* The bill is due without a claim, but belongs to the dates of one: what a claim settles may change
 * what is charged. */
static gboolean
add_bill (GArray              *clocks,
          const WbTerms       *terms,
          const WbClockInput  *input,
          const GDate         *today,
          GError             **error)
{
  WbClock present = { .kind = WB_CLOCK_BILL, .key = WB_KEY_BILL_WITHIN,
                      .from = input->handed_over, .done_on = input->billed };
  WbClock contest = { .kind = WB_CLOCK_CONTEST_BILL, .key = WB_KEY_CONTEST_BILL_WITHIN,
                      .from = input->billed };

  return (!wb_date_is_set (&present.from)
          || add_clock (clocks, present, terms->bill_within, today, error))
         && (!wb_date_is_set (&contest.from)
             || add_clock (clocks, contest, terms->contest_bill_within, today, error));
}

static gboolean
is_filed_late (const WbTerms      *terms,
               const WbClockInput *input,
               const GDate        *today)
{
  const GDate *filed = wb_date_is_set (&input->received) ? &input->received : today;
  GDate last_day;

  return wb_date_is_set (&input->delivered)
         && wb_period_is_set (terms->claim_within)
         && wb_date_add_period (&input->delivered, terms->claim_within, &last_day, NULL)
         && wb_date_compare (filed, &last_day) > 0;
}

gboolean
wb_clock_is_of_carrier (WbClockKind kind)
{
  switch (kind)
    {
    case WB_CLOCK_ACKNOWLEDGE:
    case WB_CLOCK_DECIDE:
    case WB_CLOCK_STATUS:
    case WB_CLOCK_ANSWER_AGAIN:
    case WB_CLOCK_INSPECT:
    case WB_CLOCK_SALVAGE:
    case WB_CLOCK_TRANSFER:
      return TRUE;
    case WB_CLOCK_NOTICE:
    case WB_CLOCK_CLAIM:
    case WB_CLOCK_LATE_CLAIM:
    case WB_CLOCK_FEES:
    case WB_CLOCK_SUIT:
    case WB_CLOCK_MEDIATE:
    case WB_CLOCK_ARBITRATE:
    case WB_CLOCK_BILL:
    case WB_CLOCK_CONTEST_BILL:
      return FALSE;
    }
  g_return_val_if_reached (FALSE);
}

static gboolean
add_notice_and_claim (GArray              *clocks,
                      const WbTerms       *terms,
                      const WbClockInput  *input,
                      const GDate         *today,
                      GError             **error)
{
  WbClock notice = { .kind = WB_CLOCK_NOTICE, .key = WB_KEY_NOTICE_WITHIN,
                     .from = input->delivered,
                     .done_on = earlier_of (&input->noticed, &input->received) };
  WbClock file = { .kind = WB_CLOCK_CLAIM, .key = WB_KEY_CLAIM_WITHIN,
                   .from = input->delivered, .done_on = input->received };
  WbClock late = { .kind = WB_CLOCK_LATE_CLAIM, .key = WB_KEY_LATE_UNTIL,
                   .from = input->delivered, .done_on = input->received };
  WbClock fees = { .kind = WB_CLOCK_FEES, .key = WB_KEY_FEES_WITHIN,
                   .from = later_of (&input->delivered, &input->promised),
                   .done_on = input->received };

  return add_clock (clocks, notice, terms->notice_within, today, error)
         && add_clock (clocks, file, terms->claim_within, today, error)
         && (!is_filed_late (terms, input, today)
             || add_clock (clocks, late, terms->late_until, today, error))
         && add_clock (clocks, fees, terms->fees_within, today, error);
}

static gboolean
add_answers (GArray              *clocks,
             const WbTerms       *terms,
             const WbClockInput  *input,
             const GDate         *today,
             GError             **error)
{
  WbClock acknowledge = { .kind = WB_CLOCK_ACKNOWLEDGE, .key = WB_KEY_ACKNOWLEDGE_WITHIN,
                          .from = input->received,
                          .done_on = earlier_of (&input->acknowledged, &input->answered) };
  WbClock decide = { .kind = WB_CLOCK_DECIDE, .key = WB_KEY_DECIDE_WITHIN,
                     .from = input->received, .done_on = input->answered };

  return add_clock (clocks, acknowledge, terms->acknowledge_within, today, error)
         && add_clock (clocks, decide, terms->decide_within, today, error)
         && add_status (clocks, terms, input, today, error)
         && add_answer_again (clocks, terms, input, today, error);
}

static gboolean
add_inspection (GArray              *clocks,
                const WbTerms       *terms,
                const WbClockInput  *input,
                const GDate         *today,
                GError             **error)
{
  WbClock inspect = { .kind = WB_CLOCK_INSPECT, .key = WB_KEY_INSPECT_WITHIN,
                      .from = input->received, .done_on = input->inspected };

  return add_clock (clocks, inspect, terms->inspect_within, today, error);
}

GArray *
wb_clocks_reckon (const WbTerms       *terms,
                  const WbClockInput  *input,
                  WbClockParty         whose,
                  const GDate         *today,
                  GError             **error)
{
  g_autoptr (GArray) clocks = g_array_new (FALSE, TRUE, sizeof (WbClock));
  gboolean all = whose == WB_CLOCK_PARTY_ALL;

  g_return_val_if_fail (terms != NULL && input != NULL && today != NULL, NULL);

  if ((all && !add_notice_and_claim (clocks, terms, input, today, error))
      || !add_answers (clocks, terms, input, today, error)
      || (all && !add_suits (clocks, terms, input, today, error))
      || !add_inspection (clocks, terms, input, today, error)
      || !add_salvage (clocks, terms, input, today, error)
      || !add_transfer (clocks, terms, input, today, error)
      || (all && !add_mediation (clocks, terms, input, today, error))
      || (all && !add_arbitration (clocks, terms, input, today, error))
      || (all && !add_bill (clocks, terms, input, today, error)))
    return NULL;

  return g_steal_pointer (&clocks);
}

GArray *
wb_claim_clocks (const WbTerms *terms,
                 const WbJob   *job,
                 const WbClaim *claim,
                 const GDate   *today,
                 GError       **error)
{
  g_auto (WbClockInput) input = { 0 };

  wb_clock_input_read (&input, job, claim);
  return wb_clocks_reckon (terms, &input, WB_CLOCK_PARTY_ALL, today, error);
}
