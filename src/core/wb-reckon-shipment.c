/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What holds for the shipment as a whole: which side applies, whether the claim came in time, and
 * how far the carrier is liable for all of it together. */
#include "core/wb-reckon-private.h"

#include <string.h>

#include "core/wb-clock.h"
#include "core/wb-core.h"

#define WHOLE WB_REASON_WHOLE_CLAIM

/* --- which side ------------------------------------------------------------------------------- */

/* Full value holds unless it was waived in writing: 49 USC 14706(f)(3), 49 CFR 375.201. A side that
 * the terms do not offer cannot apply. */
void
wb_run_choose_side (WbRun *run)
{
  const WbTerms *terms = run->terms;
  const WbValuation *valuation = wb_job_valuation (run->job);
  WbReckoning *out = run->out;

  out->waiver_gaps = wb_job_waiver_gaps (run->job);
  if (valuation->choice == WB_CHOICE_FULL)
    out->applies = WB_SIDE_FULL;
  else if (out->waiver_gaps == WB_WAIVER_COMPLETE)
    out->applies = WB_SIDE_RELEASED;
  else
    out->applies = terms->without_waiver;
  if (!terms->side[out->applies].offered)
    out->applies = out->applies == WB_SIDE_FULL ? WB_SIDE_RELEASED : WB_SIDE_FULL;

  WB_NOTE (run, WB_RULE_TERMS, WB_SCOPE_GENERAL, WB_NO_KEY, WHOLE,
           wb_figure_date (WB_FIGURE_DATE, &terms->from),
           wb_figure_number (WB_FIGURE_COUNT, wb_job_order (run->job)->terms != NULL));
  WB_NOTE (run, WB_RULE_CHOICE, WB_SCOPE_GENERAL, WB_KEY_WITHOUT_WAIVER, WHOLE,
           wb_figure_code (WB_FIGURE_SIDE, (int) out->applies),
           wb_figure_code (WB_FIGURE_CHOICE, (int) valuation->choice),
           wb_figure_number (WB_FIGURE_GAPS, out->waiver_gaps));
}

/* --- in time ---------------------------------------------------------------------------------- */

/* Whether @received is within claim-within and late-until of @delivered. @later stays unset when
 * the terms have no second last day. */
static gboolean
find_late_state (const WbTerms  *terms,
                 const GDate    *delivered,
                 const GDate    *received,
                 GDate          *last_day,
                 GDate          *later,
                 WbLateState    *state,
                 GError        **error)
{
  if (!wb_date_add_period (delivered, terms->claim_within, last_day, error))
    return FALSE;
  if (wb_period_is_set (terms->late_until) &&
      !wb_date_add_period (delivered, terms->late_until, later, error))
    return FALSE;

  if (wb_date_compare (received, last_day) <= 0)
    *state = WB_NOT_LATE;
  else if (wb_date_is_set (later) && wb_date_compare (received, later) > 0)
    *state = WB_TOO_LATE;
  else
    *state = WB_LATE;
  return TRUE;
}

static void
bar (WbRun      *run,
     WbTermsKey  key)
{
  run->barred = TRUE;
  run->barred_by = key;
}

/* What the terms make of a late claim. @later: (nullable): until when it is still settled. */
static void
apply_lateness (WbRun       *run,
                const GDate *later)
{
  WbLateRule rule = run->terms->late_claim;
  WbFigure inputs[] = {
    wb_figure_code (WB_FIGURE_CODE, (int) rule),
    wb_date_is_set (later) ? wb_figure_date (WB_FIGURE_LAST_DAY, later)
                           : (WbFigure) { WB_FIGURE_NONE },
  };
  guint n = wb_date_is_set (later) ? 2 : 1;

  switch (rule)
    {
    case WB_LATE_FLAGGED:
      break;
    case WB_LATE_BARRED:
      bar (run, WB_KEY_LATE_CLAIM);
      break;
    case WB_LATE_ACTUAL_VALUE:
      if (run->out->late == WB_TOO_LATE)
        bar (run, WB_KEY_LATE_UNTIL);
      for (int side = 0; side < WB_N_SIDES; side++)
        run->measure[side] = WB_MEASURE_ACTUAL_VALUE;
      break;
    }
  wb_run_note (run, WB_RULE_LATE, WB_SCOPE_GENERAL,
               run->out->late == WB_TOO_LATE ? WB_KEY_LATE_UNTIL : WB_KEY_LATE_CLAIM, WHOLE,
               wb_figure_code (WB_FIGURE_LATE, (int) run->out->late), inputs, n);
}

gboolean
wb_run_judge_filing (WbRun   *run,
                     GError **error)
{
  const GDate *delivered = wb_order_delivery_day (wb_job_order (run->job));
  const GDate *received = &run->out->claim->received_on;
  WbReckoning *out = run->out;
  GDate last_day, later;

  for (int side = 0; side < WB_N_SIDES; side++)
    run->measure[side] = run->terms->side[side].measure;

  if (!wb_period_is_set (run->terms->claim_within))
    {
      out->late = WB_NOT_LATE;
      wb_run_meet_key (run, WB_SCOPE_GENERAL, WB_KEY_CLAIM_WITHIN);
      return TRUE;
    }
  if (!wb_date_is_set (delivered) || !wb_date_is_set (received))
    {
      out->late = WB_LATE_UNKNOWN;
      wb_run_note (run, WB_RULE_FILING, WB_SCOPE_GENERAL, WB_KEY_CLAIM_WITHIN, WHOLE,
                   wb_figure_code (WB_FIGURE_LATE, WB_LATE_UNKNOWN), NULL, 0);
      return TRUE;
    }

  g_date_clear (&later, 1);
  if (!find_late_state (run->terms, delivered, received, &last_day, &later, &out->late, error))
    return FALSE;
  WB_NOTE (run, WB_RULE_FILING, WB_SCOPE_GENERAL, WB_KEY_CLAIM_WITHIN, WHOLE,
           wb_figure_code (WB_FIGURE_LATE, (int) out->late),
           wb_figure_date (WB_FIGURE_DATE, received),
           wb_figure_date (WB_FIGURE_LAST_DAY, &last_day));
  if (out->late != WB_NOT_LATE)
    apply_lateness (run, &later);
  return TRUE;
}

/* --- limit of the shipment -------------------------------------------------------------------- */

/* Whether the limit hangs on the least value: not when a declared value is kept however low it is,
 * nor when it is over the maximum by itself. */
static gboolean
needs_least_value (const WbRun *run,
                   WbSide       side)
{
  const WbSideTerms *terms = &run->terms->side[side];
  WbMoney declared = wb_job_valuation (run->job)->declared_value;

  if (!terms->declared_value || !wb_money_is_set (declared))
    return TRUE;
  if (terms->below_minimum == WB_BELOW_MINIMUM_KEPT)
    return FALSE;
  return !wb_money_is_set (terms->shipment_maximum) ||
         declared.minor < terms->shipment_maximum.minor;
}

static void
miss_weight (WbRun  *run,
             WbSide  side)
{
  if (!needs_least_value (run, side))
    return;
  run->out->side[side].complete = FALSE;
  WB_NOTE (run, WB_RULE_MISSING_FIGURE, (WbScope) side, WB_NO_KEY, WHOLE,
           wb_figure_money (WB_FIGURE_AMOUNT, 0),
           wb_figure_code (WB_FIGURE_MISSING, WB_MISSING_SHIPMENT_WEIGHT));
}

/* Notes the weight that governs; unset when none is known. */
static WbWeight
find_weight (WbRun  *run,
             WbSide  side)
{
  gboolean gross = run->terms->side[side].shipment_gross;
  WbWeight per_cuft = run->terms->constructive_weight, weight;
  WbWeightSource source = wb_job_shipment_weight (run->job, gross, per_cuft, &weight);
  WbFigure result = wb_figure_weight (WB_FIGURE_WEIGHT, weight);
  WbFigure told = wb_figure_code (WB_FIGURE_WEIGHT_SOURCE, (int) source);

  wb_run_meet_key (run, (WbScope) side, WB_KEY_SHIPMENT_WEIGHT);
  if (source == WB_WEIGHT_SOURCE_VOLUME)
    WB_NOTE (run, WB_RULE_SHIPMENT_WEIGHT, (WbScope) side, WB_KEY_CONSTRUCTIVE_WEIGHT, WHOLE,
             result, told, wb_figure_volume (WB_FIGURE_VOLUME, wb_job_order (run->job)->volume),
             wb_figure_weight (WB_FIGURE_WEIGHT, per_cuft));
  else if (source != WB_WEIGHT_SOURCE_NONE)
    WB_NOTE (run, WB_RULE_SHIPMENT_WEIGHT, (WbScope) side, WB_KEY_SHIPMENT_WEIGHT, WHOLE, result,
             told);
  return weight;
}

/* The least value by the shipment's weight or volume; 0 when the terms have no such rate or the
 * weight is not known. */
static gboolean
value_by_rate (WbRun    *run,
               WbSide    side,
               gint64   *value,
               GError  **error)
{
  WbRate rate = run->terms->side[side].shipment_rate;
  gboolean by_volume = wb_rate_is_by_volume (rate);
  WbVolume volume = wb_job_order (run->job)->volume;
  WbWeight weight = WB_WEIGHT_UNSET;

  *value = 0;
  if (!wb_rate_is_set (rate))
    return TRUE;
  if (!by_volume)
    weight = find_weight (run, side);
  if (by_volume ? !wb_volume_is_set (volume) || volume.bits == 0 : !wb_weight_is_set (weight))
    {
      miss_weight (run, side);
      return TRUE;
    }
  if (!wb_run_apply_rate (run, rate, weight, volume, value, error))
    return FALSE;
  WB_NOTE (run, WB_RULE_MINIMUM_VALUE, (WbScope) side, WB_KEY_SHIPMENT_RATE, WHOLE,
           wb_figure_money (WB_FIGURE_AMOUNT, *value),
           by_volume ? wb_figure_volume (WB_FIGURE_VOLUME, volume)
                     : wb_figure_weight (WB_FIGURE_WEIGHT, weight),
           wb_figure_rate (WB_FIGURE_RATE, rate));
  return TRUE;
}

/* @value, or the terms' least amount for any shipment when that is more. */
static void
apply_floor (WbRun  *run,
             WbSide  side,
             gint64 *value)
{
  const WbSideTerms *terms = &run->terms->side[side];

  if (!wb_money_is_set (terms->shipment_minimum) || *value >= terms->shipment_minimum.minor)
    return;
  WB_NOTE (run, WB_RULE_MINIMUM_VALUE, (WbScope) side, WB_KEY_SHIPMENT_MINIMUM, WHOLE,
           wb_figure_money (WB_FIGURE_AMOUNT, terms->shipment_minimum.minor),
           wb_figure_money (WB_FIGURE_LOSS, *value),
           wb_figure_money (WB_FIGURE_MINIMUM, terms->shipment_minimum.minor));
  *value = terms->shipment_minimum.minor;
}

/* The declared value is the limit, unless it is under the minimum and the terms then raise it. */
static gboolean
apply_declared_value (WbRun  *run,
                      WbSide  side,
                      gint64 *limit)
{
  const WbSideTerms *terms = &run->terms->side[side];
  WbMoney declared = wb_job_valuation (run->job)->declared_value;
  gint64 minimum = *limit;
  gboolean under = declared.minor < minimum;

  if (!wb_money_is_set (declared))
    return FALSE;
  wb_run_meet_key (run, (WbScope) side, WB_KEY_DECLARED_VALUE);
  if (!terms->declared_value)
    return FALSE;
  if (!under || terms->below_minimum == WB_BELOW_MINIMUM_KEPT)
    *limit = declared.minor;
  WB_NOTE (run, WB_RULE_DECLARED_VALUE, (WbScope) side,
           under ? WB_KEY_BELOW_MINIMUM : WB_KEY_DECLARED_VALUE, WHOLE,
           wb_figure_money (WB_FIGURE_LIMIT, *limit),
           wb_figure_money (WB_FIGURE_DECLARED, declared.minor),
           wb_figure_money (WB_FIGURE_MINIMUM, minimum));
  return TRUE;
}

static gboolean
apply_maximum (WbRun  *run,
               WbSide  side,
               gint64 *limit,
               gboolean has_limit)
{
  const WbSideTerms *terms = &run->terms->side[side];

  if (!wb_money_is_set (terms->shipment_maximum))
    return has_limit;
  if (has_limit && *limit <= terms->shipment_maximum.minor)
    return TRUE;
  WB_NOTE (run, WB_RULE_MAXIMUM_VALUE, (WbScope) side, WB_KEY_SHIPMENT_MAXIMUM, WHOLE,
           wb_figure_money (WB_FIGURE_LIMIT, terms->shipment_maximum.minor),
           wb_figure_money (WB_FIGURE_AMOUNT, *limit),
           wb_figure_money (WB_FIGURE_MAXIMUM, terms->shipment_maximum.minor));
  *limit = terms->shipment_maximum.minor;
  return TRUE;
}

/* What other claims on this shipment were paid for goods, and the deductible that was held back
 * with it. Freight that went back was never a loss, so it uses up nothing. */
static gboolean
sum_other_payments (const WbRun *run,
                    gint64      *paid,
                    gint64      *taken,
                    GError     **error)
{
  *paid = 0;
  *taken = 0;
  for (guint i = 0; i < wb_job_count (run->job, WB_KIND_PAYMENT); i++)
    {
      const WbPayment *payment = wb_job_nth (run->job, WB_KIND_PAYMENT, i);

      if (strcmp (payment->claim, run->out->claim->record.id) == 0)
        continue;
      if (!wb_run_add (paid, wb_run_paid_for_goods (payment), error) ||
          !wb_run_add (taken, payment->deductible_taken.minor, error))
        return FALSE;
    }
  return TRUE;
}

/* Where the deductible comes off after the limit, what an earlier claim lost to it used up the
 * limit as well: paying claims one by one then comes to the same as paying them together. */
static gboolean
apply_earlier_payments (WbRun    *run,
                        WbSide    side,
                        GError  **error)
{
  const WbSideTerms *terms = &run->terms->side[side];
  WbSideReckoning *totals = &run->out->side[side];
  WbMoney deductible = wb_job_valuation (run->job)->deductible;
  gint64 paid, taken;

  if (!sum_other_payments (run, &paid, &taken, error))
    return FALSE;

  totals->earlier = paid;
  if (terms->deductible && terms->deductible_order == WB_DEDUCTIBLE_AFTER_LIMIT &&
      !wb_run_add (&totals->earlier, taken, error))
    return FALSE;
  totals->limit_left = MAX (totals->shipment_limit - totals->earlier, 0);
  if (totals->has_limit && totals->earlier > 0)
    WB_NOTE (run, WB_RULE_EARLIER_PAYMENTS, (WbScope) side, WB_NO_KEY, WHOLE,
             wb_figure_money (WB_FIGURE_LIMIT, totals->limit_left),
             wb_figure_money (WB_FIGURE_AMOUNT, totals->shipment_limit),
             wb_figure_money (WB_FIGURE_EARLIER, paid),
             wb_figure_money (WB_FIGURE_TAKEN, totals->earlier - paid));

  if (deductible.minor <= 0)
    return TRUE;
  wb_run_meet_key (run, (WbScope) side, WB_KEY_DEDUCTIBLE);
  if (!terms->deductible)
    return TRUE;
  totals->deductible = MAX (deductible.minor - taken, 0);
  if (taken > 0)
    WB_NOTE (run, WB_RULE_DEDUCTIBLE_LEFT, (WbScope) side, WB_KEY_DEDUCTIBLE, WHOLE,
             wb_figure_money (WB_FIGURE_DEDUCTIBLE, totals->deductible),
             wb_figure_money (WB_FIGURE_AMOUNT, deductible.minor),
             wb_figure_money (WB_FIGURE_TAKEN, taken));
  return TRUE;
}

gboolean
wb_run_limit_shipment (WbRun   *run,
                       WbSide   side,
                       GError **error)
{
  const WbSideTerms *terms = &run->terms->side[side];
  WbSideReckoning *totals = &run->out->side[side];
  gint64 limit;

  if (!value_by_rate (run, side, &limit, error))
    return FALSE;
  apply_floor (run, side, &limit);
  totals->has_limit = wb_rate_is_set (terms->shipment_rate) ||
                      wb_money_is_set (terms->shipment_minimum);
  if (apply_declared_value (run, side, &limit))
    totals->has_limit = TRUE;
  totals->has_limit = apply_maximum (run, side, &limit, totals->has_limit);
  totals->shipment_limit = totals->has_limit ? limit : 0;
  return apply_earlier_payments (run, side, error);
}
