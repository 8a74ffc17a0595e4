/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the records of a job say together: which weight governs, and whether the waiver of full
 * value holds. */
#include "core/wb-job.h"

/* The weight a ticket shows: as written, or worked out from the other two figures. Unset when it
 * does not say. */
static WbWeight
ticket_weight (const WbWeighing *weighing,
               gboolean          gross)
{
  WbWeight out = WB_WEIGHT_UNSET;

  if (gross)
    {
      if (wb_weight_is_positive (weighing->gross))
        return weighing->gross;
      if (wb_weight_is_positive (weighing->net) && wb_weight_is_set (weighing->tare) &&
          wb_weight_add (weighing->net, weighing->tare, &out, NULL))
        return out;
      return WB_WEIGHT_UNSET;
    }
  if (wb_weight_is_positive (weighing->net))
    return weighing->net;
  if (wb_weight_is_set (weighing->gross) && wb_weight_is_set (weighing->tare) &&
      wb_weight_subtract (weighing->gross, weighing->tare, &out, NULL) && out.grains > 0)
    return out;
  return WB_WEIGHT_UNSET;
}

/* The last ticket of a kind in the job's order that shows a weight. */
static gboolean
find_ticket (const WbJob    *self,
             WbWeighingKind  kind,
             gboolean        gross,
             WbWeight       *out)
{
  for (guint i = wb_job_count (self, WB_KIND_WEIGHING); i-- > 0;)
    {
      const WbWeighing *weighing = wb_job_nth (self, WB_KIND_WEIGHING, i);
      WbWeight weight = ticket_weight (weighing, gross);

      if (weighing->kind == kind && wb_weight_is_positive (weight))
        {
          *out = weight;
          return TRUE;
        }
    }
  return FALSE;
}

WbWeightSource
wb_job_shipment_weight (const WbJob *self,
                        gboolean     gross,
                        WbWeight     per_cuft,
                        WbWeight    *out)
{
  const WbOrder *order = wb_job_order (self);

  *out = WB_WEIGHT_UNSET;
  if (find_ticket (self, WB_WEIGHING_REWEIGH, gross, out))
    return WB_WEIGHT_SOURCE_REWEIGH;
  if (find_ticket (self, WB_WEIGHING_FIRST, gross, out))
    return WB_WEIGHT_SOURCE_WEIGHING;
  if (find_ticket (self, WB_WEIGHING_CONSTRUCTIVE, FALSE, out))
    return WB_WEIGHT_SOURCE_CONSTRUCTIVE;
  if (wb_volume_is_set (order->volume) && wb_weight_is_set (per_cuft) &&
      wb_weight_from_volume (order->volume, per_cuft, out, NULL) && out->grains > 0)
    return WB_WEIGHT_SOURCE_VOLUME;
  *out = WB_WEIGHT_UNSET;
  if (wb_weight_is_positive (order->estimated_weight))
    {
      *out = order->estimated_weight;
      return WB_WEIGHT_SOURCE_ESTIMATE;
    }
  return WB_WEIGHT_SOURCE_NONE;
}

guint
wb_job_waiver_gaps (const WbJob *self)
{
  const WbValuation *valuation = wb_job_valuation (self);
  const WbOrder *order = wb_job_order (self);
  guint gaps = WB_WAIVER_COMPLETE;

  if (valuation->choice != WB_CHOICE_RELEASED)
    return WB_WAIVER_NOT_CHOSEN;
  if (valuation->signed_by == NULL)
    gaps |= WB_WAIVER_NO_SIGNER;
  if (!wb_date_is_set (&valuation->signed_on))
    gaps |= WB_WAIVER_NO_DATE;
  if (valuation->signed_how == WB_SIGNED_NOT)
    gaps |= WB_WAIVER_NO_MANNER;
  if (valuation->disclosure == NULL)
    gaps |= WB_WAIVER_NO_DISCLOSURE;
  if (wb_date_is_set (&valuation->signed_on) && wb_date_is_set (&order->picked_up_on) &&
      wb_date_compare (&valuation->signed_on, &order->picked_up_on) > 0)
    gaps |= WB_WAIVER_AFTER_PICKUP;
  return gaps;
}
