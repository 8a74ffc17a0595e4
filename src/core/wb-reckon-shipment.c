/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What holds for the shipment as a whole: which side applies, whether the claim came in time, how
 * far the carrier is liable for all of it together, and the freight that goes back for what was
 * lost. */
#include "core/wb-reckon-private.h"

#include <string.h>

#include "core/wb-clock.h"
#include "core/wb-core.h"

#define WHOLE WB_REASON_WHOLE_CLAIM

static void
miss (WbRun     *run,
      WbScope    scope,
      WbMissing  what)
{
  WB_NOTE (run, WB_RULE_MISSING_FIGURE, scope, WB_NO_KEY, WHOLE,
           wb_figure_money (WB_FIGURE_AMOUNT, 0), wb_figure_code (WB_FIGURE_MISSING, (int) what));
  for (int side = 0; side < WB_N_SIDES; side++)
    if (scope == WB_SCOPE_GENERAL || (int) scope == side)
      run->out->side[side].complete = FALSE;
}

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

static gboolean
find_late_state (const WbTerms  *terms,
                 const GDate    *delivered,
                 const GDate    *received,
                 GDate          *last_day,
                 WbLateState    *state,
                 GError        **error)
{
  GDate later;

  if (!wb_date_add_period (delivered, terms->claim_within, last_day, error))
    return FALSE;
  *state = wb_date_compare (received, last_day) > 0 ? WB_LATE : WB_NOT_LATE;
  if (*state == WB_NOT_LATE || !wb_period_is_set (terms->late_until))
    return TRUE;
  if (!wb_date_add_period (delivered, terms->late_until, &later, error))
    return FALSE;
  if (wb_date_compare (received, &later) > 0)
    *state = WB_TOO_LATE;
  return TRUE;
}

static void
apply_lateness (WbRun *run)
{
  const WbTerms *terms = run->terms;
  WbLateState late = run->out->late;

  for (int side = 0; side < WB_N_SIDES; side++)
    run->side[side].measure = terms->side[side].measure;
  if (late != WB_LATE && late != WB_TOO_LATE)
    return;

  switch (terms->late_claim)
    {
    case WB_LATE_FLAGGED:
      break;
    case WB_LATE_BARRED:
      run->barred = TRUE;
      break;
    case WB_LATE_ACTUAL_VALUE:
      run->barred = late == WB_TOO_LATE;
      for (int side = 0; side < WB_N_SIDES; side++)
        run->side[side].measure = WB_MEASURE_ACTUAL_VALUE;
      break;
    }
}

gboolean
wb_run_judge_filing (WbRun   *run,
                     GError **error)
{
  const GDate *delivered = wb_order_delivery_day (wb_job_order (run->job));
  const GDate *received = &run->out->claim->received_on;
  GDate last_day;

  if (!wb_period_is_set (run->terms->claim_within))
    run->out->late = WB_NOT_LATE;
  else if (!wb_date_is_set (delivered) || !wb_date_is_set (received))
    {
      run->out->late = WB_LATE_UNKNOWN;
      wb_run_note (run, WB_RULE_FILING, WB_SCOPE_GENERAL, WB_KEY_CLAIM_WITHIN, WHOLE,
                   wb_figure_code (WB_FIGURE_LATE, WB_LATE_UNKNOWN), NULL, 0);
    }
  else
    {
      if (!find_late_state (run->terms, delivered, received, &last_day, &run->out->late, error))
        return FALSE;
      WB_NOTE (run, WB_RULE_FILING, WB_SCOPE_GENERAL, WB_KEY_CLAIM_WITHIN, WHOLE,
               wb_figure_code (WB_FIGURE_LATE, (int) run->out->late),
               wb_figure_date (WB_FIGURE_DATE, received),
               wb_figure_date (WB_FIGURE_LAST_DAY, &last_day));
    }
  apply_lateness (run);
  if (run->out->late == WB_LATE || run->out->late == WB_TOO_LATE)
    WB_NOTE (run, WB_RULE_LATE, WB_SCOPE_GENERAL, WB_KEY_LATE_CLAIM, WHOLE,
             wb_figure_code (WB_FIGURE_LATE, (int) run->out->late),
             wb_figure_code (WB_FIGURE_CODE, (int) run->terms->late_claim));
  return TRUE;
}

/* --- limit of the shipment -------------------------------------------------------------------- */

/* The least value by the shipment's weight or volume; 0 when the terms have no such rate or the
 * weight is not known. */
static gboolean
value_by_rate (WbRun               *run,
               WbSide               side,
               gint64              *value,
               GError             **error)
{
  const WbSideTerms *terms = &run->terms->side[side];
  WbWeight weight = WB_WEIGHT_UNSET;
  WbVolume volume = wb_job_order (run->job)->volume;
  WbMoney amount;

  *value = 0;
  if (!wb_rate_is_set (terms->shipment_rate))
    return TRUE;
  if (!wb_rate_is_by_volume (terms->shipment_rate))
    {
      WbWeightSource source = wb_job_shipment_weight (run->job, terms->shipment_gross,
                                                      run->terms->constructive_weight, &weight);

      if (source != WB_WEIGHT_SOURCE_NONE)
        WB_NOTE (run, WB_RULE_SHIPMENT_WEIGHT, (WbScope) side, WB_KEY_SHIPMENT_WEIGHT, WHOLE,
                 wb_figure_weight (WB_FIGURE_WEIGHT, weight),
                 wb_figure_code (WB_FIGURE_WEIGHT_SOURCE, (int) source));
    }
  if (wb_rate_is_by_volume (terms->shipment_rate) ? !wb_volume_is_set (volume)
                                                  : !wb_weight_is_set (weight))
    {
      miss (run, (WbScope) side, WB_MISSING_SHIPMENT_WEIGHT);
      return TRUE;
    }
  if (!wb_rate_apply (terms->shipment_rate, weight, volume, run->terms->rounding, &amount, error))
    return FALSE;
  *value = amount.minor;
  WB_NOTE (run, WB_RULE_MINIMUM_VALUE, (WbScope) side, WB_KEY_SHIPMENT_RATE, WHOLE,
           wb_figure_money (WB_FIGURE_AMOUNT, amount.minor),
           wb_figure_weight (WB_FIGURE_WEIGHT, weight),
           wb_figure_rate (WB_FIGURE_RATE, terms->shipment_rate));
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

  if (!terms->declared_value || !wb_money_is_set (declared))
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

/* What other claims on this shipment were paid, and the deductible that was held back with it. */
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
      if (!wb_run_add (paid, payment->amount.minor, error) ||
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

  if (!terms->deductible || deductible.minor <= 0)
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

/* --- freight ---------------------------------------------------------------------------------- */

/* A line counts as lost goods unless it was denied or nothing is paid at all. */
static gboolean
line_is_lost (const WbRun *run,
              guint        index)
{
  const WbClaimLine *line = run->out->lines[index].line;

  return (line->loss == WB_LOSS_MISSING || line->loss == WB_LOSS_DESTROYED) &&
         line->ruling != WB_RULING_DENIED;
}

/* The weight of what was lost of one article: the whole article's when all of it is gone, else the
 * lost things' own weights, never more than the article's. Unset when something was lost whose
 * weight is not known. */
static gboolean
weigh_lost_part (const WbRun     *run,
                 const WbArticle *article,
                 WbWeight        *lost,
                 GError         **error)
{
  gboolean any = FALSE, unknown = FALSE;

  *lost = wb_weight (0, WB_WEIGHT_UNIT_LB);
  for (guint i = article->first_line; i != WB_NO_LINE; i = run->next_in_article[i])
    {
      const WbClaimLine *line = run->out->lines[i].line;

      if (!line_is_lost (run, i))
        continue;
      any = TRUE;
      if (!wb_weight_is_set (line->weight))
        unknown = TRUE;
      else if (!wb_weight_add (*lost, line->weight, lost, error))
        return FALSE;
    }
  if (!any)
    return TRUE;
  if (wb_weight_is_set (article->weight) &&
      ((article->whole_lost && unknown) || lost->grains > article->weight.grains))
    {
      *lost = article->weight;
      return TRUE;
    }
  if (unknown)
    *lost = WB_WEIGHT_UNSET;
  return TRUE;
}

static gboolean
weigh_lost_goods (WbRun     *run,
                  WbWeight  *lost,
                  GError   **error)
{
  *lost = wb_weight (0, WB_WEIGHT_UNIT_LB);
  for (guint i = 0; i < run->articles->len; i++)
    {
      const WbArticle *article = &g_array_index (run->articles, WbArticle, i);
      WbWeight part;

      if (!weigh_lost_part (run, article, &part, error))
        return FALSE;
      if (!wb_weight_is_set (part))
        {
          WB_NOTE (run, WB_RULE_MISSING_FIGURE, WB_SCOPE_GENERAL, WB_NO_KEY,
                   (gint) article->first_line,
                   wb_figure_money (WB_FIGURE_AMOUNT, 0),
                   wb_figure_code (WB_FIGURE_MISSING, WB_MISSING_LOST_WEIGHT));
          for (int side = 0; side < WB_N_SIDES; side++)
            run->out->side[side].complete = FALSE;
        }
      else if (!wb_weight_add (*lost, part, lost, error))
        return FALSE;
    }
  return TRUE;
}

/* The charges that go back, by one rule of the terms. */
static gboolean
refund_by_rule (WbRun          *run,
                WbFreightRule   rule,
                WbWeight        lost,
                WbWeight        whole,
                gint64         *refund,
                gint64         *base,
                GError        **error)
{
  const WbOrder *order = wb_job_order (run->job);

  *base = order->freight_charge.minor;
  switch (rule)
    {
    case WB_FREIGHT_NOT_REFUNDED:
      *refund = 0;
      return TRUE;
    case WB_FREIGHT_ALL:
      /* Of a total loss no freight, accessorial or terminal charge may be kept: 49 CFR 375.709. */
      if (!wb_run_add (base, order->other_charge.minor, error))
        return FALSE;
      *refund = *base;
      return TRUE;
    case WB_FREIGHT_BY_WEIGHT:
      return wb_minor_scale (*base, MIN (lost.grains, whole.grains), whole.grains,
                             run->terms->rounding, refund, error);
    }
  g_assert_not_reached ();
}

gboolean
wb_run_refund_freight (WbRun   *run,
                       GError **error)
{
  const WbTerms *terms = run->terms;
  WbWeight lost, whole;
  WbTermsKey key;
  gint64 refund, base;
  gboolean total;

  if (run->barred || (terms->freight_partial_loss == WB_FREIGHT_NOT_REFUNDED &&
                      terms->freight_total_loss == WB_FREIGHT_NOT_REFUNDED))
    return TRUE;
  if (!weigh_lost_goods (run, &lost, error))
    return FALSE;
  if (lost.grains == 0)
    return TRUE;
  if (!wb_money_is_set (wb_job_order (run->job)->freight_charge))
    {
      miss (run, WB_SCOPE_GENERAL, WB_MISSING_FREIGHT_CHARGE);
      return TRUE;
    }
  if (wb_job_shipment_weight (run->job, FALSE, terms->constructive_weight, &whole)
      == WB_WEIGHT_SOURCE_NONE ||
      whole.grains <= 0)
    {
      miss (run, WB_SCOPE_GENERAL, WB_MISSING_SHIPMENT_WEIGHT);
      return TRUE;
    }
  total = lost.grains >= whole.grains;
  key = total ? WB_KEY_FREIGHT_TOTAL_LOSS : WB_KEY_FREIGHT_PARTIAL_LOSS;
  if (!refund_by_rule (run, total ? terms->freight_total_loss : terms->freight_partial_loss, lost,
                       whole, &refund, &base, error))
    return FALSE;
  WB_NOTE (run, WB_RULE_FREIGHT_REFUND, WB_SCOPE_GENERAL, (gint) key, WHOLE,
           wb_figure_money (WB_FIGURE_AMOUNT, refund),
           wb_figure_money (WB_FIGURE_FREIGHT, base),
           wb_figure_weight (WB_FIGURE_LOST_WEIGHT, lost),
           wb_figure_weight (WB_FIGURE_WEIGHT, whole));
  for (int side = 0; side < WB_N_SIDES; side++)
    if (run->out->side[side].offered)
      run->out->side[side].freight_refund = refund;
  return TRUE;
}
