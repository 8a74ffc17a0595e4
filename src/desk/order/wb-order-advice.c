/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looks at an order as a careful coordinator would: dates that run backward, figures without their
 * kind. What is missing core says: wb-checklist.h. Pure. */
#include "config.h"

#include "desk/order/wb-order-advice.h"

#include "office/wb-words.h"

#include <glib/gi18n.h>

/* --- fields that do not fit together ---------------------------------------------------------- */

static gboolean
is_before (const GDate *later,
           const GDate *earlier)
{
  return wb_date_is_set (later) && wb_date_is_set (earlier) && wb_date_compare (later, earlier) < 0;
}

typedef struct
{
  const char *field;
  gsize       later;     /* the field itself */
  gsize       earlier;   /* what it should not be before */
  const char *words;
} DateOrder;

#define DATES(later_, earlier_, words_)                                             \
  { #later_, G_STRUCT_OFFSET (WbOrder, later_), G_STRUCT_OFFSET (WbOrder, earlier_), words_ }

static const DateOrder date_orders[] = {
  DATES (pickup_to, pickup_from, N_("This is before the first day agreed for pick-up.")),
  DATES (delivery_to, delivery_from, N_("This is before the first day agreed for delivery.")),
  DATES (delivery_from, pickup_from, N_("This is before the first day agreed for pick-up.")),
  DATES (delivered_on, picked_up_on, N_("This is before the day of pick-up.")),
  DATES (pack_on, survey_on, N_("This is before the survey.")),
  DATES (storage_to, storage_from, N_("This is before storage begins.")),
  DATES (storage_from, picked_up_on, N_("This is before the day of pick-up.")),
  DATES (storage_notice_on, storage_from, N_("This is before storage begins.")),
  DATES (closed_on, delivered_on, N_("This is before the day of delivery.")),
};

const char *
wb_order_advice (const WbOrder *order,
                 const char    *field)
{
  g_return_val_if_fail (order != NULL, NULL);
  g_return_val_if_fail (field != NULL, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (date_orders); i++)
    if (g_str_equal (field, date_orders[i].field) &&
        is_before (G_STRUCT_MEMBER_P (order, date_orders[i].later),
                   G_STRUCT_MEMBER_P (order, date_orders[i].earlier)))
      return _(date_orders[i].words);

  if (g_str_equal (field, "region") && order->region == NULL &&
      order->move_type == WB_MOVE_INTRASTATE)
    return _("A move within one state needs the state, for example WA.");

  if (g_str_equal (field, "estimate") && wb_money_is_set (order->estimate) &&
      order->estimate_kind == WB_ESTIMATE_NONE)
    return _("Say whether this estimate is binding or not.");

  if (g_str_equal (field, "per_diem") && wb_money_is_set (order->per_diem) && !order->guaranteed)
    return _("An allowance is owed only when the dates are guaranteed.");

  if (g_str_equal (field, "insurance_premium") && wb_money_is_set (order->insurance_premium) &&
      order->insurance == NULL)
    return _("Say which insurance this premium is for.");

  return NULL;
}

char *
wb_order_delivered_advice (const WbJob *job,
                           WbWeight     per_cuft)
{
  WbWeight delivered;
  WbWeight shipped;
  g_autofree char *words = NULL;

  g_return_val_if_fail (job != NULL, NULL);

  delivered = wb_job_order (job)->delivered_weight;
  if (!wb_weight_is_set (delivered)
      || wb_job_shipment_weight (job, FALSE, per_cuft, &shipped) == WB_WEIGHT_SOURCE_NONE
      || delivered.grains <= shipped.grains)
    return NULL;

  words = wb_words_weight (shipped);
  /* Translators: %s is a weight. */
  return g_strdup_printf (_("This is more than the whole shipment weighs: %s. Correct one of the "
                            "two."), words);
}

/* 49 CFR 375.303. */
const char *
wb_order_insurance_advice (const WbJob *job)
{
  const WbOrder *order;

  g_return_val_if_fail (job != NULL, NULL);

  order = wb_job_order (job);
  if (order->insurance == NULL || order->move_type != WB_MOVE_INTERSTATE
      || wb_job_valuation (job)->choice != WB_CHOICE_FULL)
    return NULL;

  return _("Insurance may be sold only where the shipment is released at not more than 60 cents "
           "per pound (49 CFR 375.303), and full value was chosen.");
}
