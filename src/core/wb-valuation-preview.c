/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Both choices of liability worked out for one shipment before anything is lost. One function a
 * figure, each the same for both sides; those of articles stand in wb-valuation-articles.c. Does
 * not look at claims and makes no words. */
#include "config.h"

#include "core/wb-valuation-preview.h"

#include "core/wb-core.h"
#include "core/wb-valuation-private.h"

gboolean
wb_valuation_add (WbMoney  *sum,
                  WbMoney   more,
                  GError  **error)
{
  if (wb_money_is_set (*sum))
    return wb_money_add (*sum, more, sum, error);

  *sum = more;
  return TRUE;
}

static gboolean
preview_listed (WbSidePreview *side,
                const WbJob   *job,
                GError       **error)
{
  guint n = wb_job_count (job, WB_KIND_PIECE);

  for (guint i = 0; i < n; i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);

      if (!wb_money_is_set (piece->listed_value))
        continue;
      side->n_listed++;
      if (!wb_valuation_add (&side->listed, piece->listed_value, error))
        return FALSE;
    }

  return TRUE;
}

/* Whether the limit hangs on the least value: not when a declared value counts however low it is,
 * nor when it reaches the maximum by itself. */
static gboolean
needs_least_value (const WbSideTerms *rules,
                   WbMoney            declared)
{
  if (!rules->declared_value || !wb_money_is_set (declared))
    return TRUE;
  if (rules->below_minimum == WB_BELOW_MINIMUM_KEPT)
    return FALSE;

  return !wb_money_is_set (rules->shipment_maximum)
         || declared.minor < rules->shipment_maximum.minor;
}

/* The least value of the shipment: its rate × weight or volume, not under the floor. */
static gboolean
preview_minimum (WbSidePreview     *side,
                 const WbTerms     *terms,
                 const WbSideTerms *rules,
                 const WbJob       *job,
                 GError           **error)
{
  WbMoney declared = wb_job_valuation (job)->declared_value;
  WbVolume volume = wb_job_order (job)->volume;

  side->weight_source = wb_job_shipment_weight (job, rules->shipment_gross,
                                                terms->constructive_weight, &side->weight);

  if (wb_rate_is_set (rules->shipment_rate))
    {
      gboolean by_volume = wb_rate_is_by_volume (rules->shipment_rate);

      gboolean known = by_volume ? wb_volume_is_set (volume) && volume.bits > 0
                                 : wb_weight_is_set (side->weight);

      if (!known && needs_least_value (rules, declared))
        {
          side->gaps |= by_volume ? WB_VALUATION_GAP_SHIPMENT_VOLUME
                                  : WB_VALUATION_GAP_SHIPMENT_WEIGHT;
          return TRUE;
        }
      if (known && !wb_rate_apply (rules->shipment_rate, side->weight, volume, terms->rounding,
                                   &side->by_weight, error))
        return FALSE;
      side->minimum = side->by_weight;
    }

  if (wb_money_is_set (rules->shipment_minimum)
      && (!wb_money_is_set (side->minimum) || side->minimum.minor < rules->shipment_minimum.minor))
    {
      side->minimum = rules->shipment_minimum;
      side->floor_counts = TRUE;
    }

  return TRUE;
}

static WbDeclaredState
weigh_declared (const WbSidePreview *side,
                const WbSideTerms   *rules,
                WbMoney              declared)
{
  if (!rules->declared_value)
    return WB_DECLARED_IGNORED;
  if (!wb_money_is_set (declared))
    return WB_DECLARED_NOT_GIVEN;
  if (!wb_money_is_set (side->minimum) || declared.minor >= side->minimum.minor)
    return WB_DECLARED_COUNTS;

  switch (rules->below_minimum)
    {
    case WB_BELOW_MINIMUM_RAISED:
      return WB_DECLARED_RAISED;
    case WB_BELOW_MINIMUM_KEPT:
      return WB_DECLARED_KEPT;
    }

  g_assert_not_reached ();
}

static void
preview_limit (WbSidePreview     *side,
               const WbSideTerms *rules,
               WbMoney            declared)
{
  const guint unknown = WB_VALUATION_GAP_SHIPMENT_WEIGHT | WB_VALUATION_GAP_SHIPMENT_VOLUME;
  gboolean minimum_unknown = (side->gaps & unknown) != 0;

  side->declared = weigh_declared (side, rules, declared);

  if (!minimum_unknown)
    {
      if (side->declared == WB_DECLARED_COUNTS || side->declared == WB_DECLARED_KEPT)
        side->limit = declared;
      else
        side->limit = side->minimum;
    }

  if (wb_money_is_set (rules->shipment_maximum)
      && !minimum_unknown
      && (!wb_money_is_set (side->limit) || side->limit.minor > rules->shipment_maximum.minor))
    {
      side->cut_to_maximum = wb_money_is_set (side->limit);
      side->limit = rules->shipment_maximum;
    }

  side->has_limit = minimum_unknown || wb_money_is_set (side->limit);
}

/* Charges go by the value of the shipment, which is its limit. */
static gboolean
preview_charges (WbSidePreview     *side,
                 WbSide             which,
                 const WbTerms     *terms,
                 const WbSideTerms *rules,
                 const WbValuation *valuation,
                 GError           **error)
{
  /* Where the terms have a table of charges and none was agreed, it is the one without a
   * deductible. */
  WbMoney chosen = wb_money_is_set (valuation->deductible) ? valuation->deductible
                                                           : wb_money (0, terms->currency);

  if (rules->deductible)
    side->deductible = valuation->deductible;

  side->n_charges = rules->n_charges;
  for (guint i = 0; i < rules->n_charges; i++)
    {
      WbChargePreview *charge = &side->charges[i];

      charge->deductible = rules->charges[i].deductible;
      charge->per_hundred = rules->charges[i].per_hundred;
      charge->chosen = wb_money_equal (charge->deductible, chosen);

      if (wb_money_is_set (side->limit)
          && !wb_terms_charge (terms, which, side->limit, charge->deductible, &charge->charge,
                               error))
        return FALSE;
      if (charge->chosen)
        side->charge = charge->charge;
    }

  return TRUE;
}

static void
note_charge_gap (WbSidePreview *side)
{
  for (guint i = 0; i < side->n_charges; i++)
    if (side->charges[i].chosen)
      return;

  if (side->n_charges > 0)
    side->gaps |= WB_VALUATION_GAP_CHARGE;
}

static gboolean
preview_side (WbValuationPreview *self,
              WbSide              which,
              GArray             *articles,
              GError            **error)
{
  WbSidePreview *side = &self->side[which];
  const WbSideTerms *rules = &self->terms->side[which];
  const WbValuation *valuation = wb_job_valuation (self->job);

  side->offered = rules->offered;
  if (!side->offered)
    return TRUE;

  if (!preview_minimum (side, self->terms, rules, self->job, error)
      || !wb_valuation_preview_articles (side, articles, self->terms, rules, error)
      || !preview_listed (side, self->job, error))
    return FALSE;

  preview_limit (side, rules, valuation->declared_value);

  if (!preview_charges (side, which, self->terms, rules, valuation, error))
    return FALSE;
  note_charge_gap (side);

  return TRUE;
}

/* The side that was validly chosen, else the one that the terms give for want of a waiver; never
 * one that they do not offer. */
static void
find_applying_side (WbValuationPreview *self)
{
  self->waiver_gaps = wb_job_waiver_gaps (self->job);

  if (wb_job_valuation (self->job)->choice == WB_CHOICE_FULL)
    self->applies = WB_SIDE_FULL;
  else if (self->waiver_gaps == WB_WAIVER_COMPLETE)
    self->applies = WB_SIDE_RELEASED;
  else
    {
      self->applies = self->terms->without_waiver;
      self->by_default = TRUE;
    }

  if (!self->terms->side[self->applies].offered)
    {
      self->applies = self->applies == WB_SIDE_FULL ? WB_SIDE_RELEASED : WB_SIDE_FULL;
      self->by_default = TRUE;
    }
}

WbValuationPreview *
wb_valuation_preview (WbTerms  *terms,
                      WbJob    *job,
                      GError  **error)
{
  g_autoptr (WbValuationPreview) self = NULL;
  g_autoptr (GArray) articles = NULL;

  g_return_val_if_fail (terms != NULL, NULL);
  g_return_val_if_fail (job != NULL, NULL);

  if (g_strcmp0 (terms->currency, wb_job_get_currency (job)) != 0)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_CURRENCY,
                   "the job is in %s and the terms %s are in %s",
                   wb_job_get_currency (job), terms->regime, terms->currency);
      return NULL;
    }

  self = g_new0 (WbValuationPreview, 1);
  self->terms = wb_terms_ref (terms);
  self->job = wb_job_ref (job);
  find_applying_side (self);

  articles = wb_valuation_list_articles (terms, job, error);
  if (articles == NULL)
    return NULL;

  for (int which = 0; which < WB_N_SIDES; which++)
    if (!preview_side (self, (WbSide) which, articles, error))
      return NULL;

  return g_steal_pointer (&self);
}

void
wb_valuation_preview_free (WbValuationPreview *self)
{
  if (self == NULL)
    return;

  wb_terms_unref (self->terms);
  wb_job_unref (self->job);
  g_free (self);
}
