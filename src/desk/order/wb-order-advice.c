/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looks at an order as a careful coordinator would: dates that run backward, figures without their
 * kind, and what the bill of lading needs before loading. Pure. */
#include "config.h"

#include "desk/order/wb-order-advice.h"

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

  return NULL;
}

/* --- what is missing -------------------------------------------------------------------------- */

static const WbParty *
find_party (const WbJob *job,
            WbRole       role)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PARTY); i++)
    {
      const WbParty *party = wb_job_nth (job, WB_KIND_PARTY, i);

      if (party->role == role)
        return party;
    }

  return NULL;
}

static const WbStop *
find_stop (const WbJob *job,
           WbStopKind   kind)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_STOP); i++)
    {
      const WbStop *stop = wb_job_nth (job, WB_KIND_STOP, i);

      if (stop->kind == kind)
        return stop;
    }

  return NULL;
}

static void
add_if (GArray     *gaps,
        gboolean    missing,
        const char *page,
        const char *field,
        const char *words)
{
  WbOrderGap gap = { page, field, words };

  if (missing)
    g_array_append_val (gaps, gap);
}

static void
add_people (GArray      *gaps,
            const WbJob *job)
{
  const WbParty *shipper = find_party (job, WB_ROLE_SHIPPER);
  const WbParty *carrier = find_party (job, WB_ROLE_CARRIER);
  gboolean interstate = wb_job_order (job)->move_type == WB_MOVE_INTERSTATE;

  add_if (gaps, shipper == NULL || (shipper->name == NULL && shipper->company == NULL),
          "order", "party", _("Who the shipper is"));
  add_if (gaps, shipper != NULL && shipper->phone == NULL,
          "order", "party", _("The shipper’s telephone"));
  add_if (gaps, carrier == NULL, "order", "party", _("Who the carrier is"));
  add_if (gaps, interstate && carrier != NULL && carrier->dot_number == NULL,
          "order", "party", _("The carrier’s US DOT number"));
}

static void
add_places (GArray      *gaps,
            const WbJob *job)
{
  const WbStop *pickup = find_stop (job, WB_STOP_PICKUP);
  const WbStop *delivery = find_stop (job, WB_STOP_DELIVERY);

  add_if (gaps, pickup == NULL || pickup->street == NULL || pickup->city == NULL,
          "order", "stop", _("The address of the pick-up"));
  add_if (gaps, delivery == NULL || delivery->street == NULL || delivery->city == NULL,
          "order", "stop", _("The address of the delivery"));
}

/* Contents of a bill of lading: 49 CFR 375.505(b). */
static void
add_agreement (GArray        *gaps,
               const WbOrder *order)
{
  add_if (gaps, order->bill_number == NULL, "order", "order.bill_number",
          _("The number of the bill of lading"));
  add_if (gaps, order->move_type == WB_MOVE_NONE, "order", "order.move_type",
          _("The kind of move"));
  add_if (gaps, order->move_type == WB_MOVE_INTRASTATE && order->region == NULL,
          "order", "order.region", _("The state whose rules govern"));
  add_if (gaps, !wb_date_is_set (&order->pickup_from) && !wb_date_is_set (&order->picked_up_on),
          "order", "order.pickup_from", _("The day agreed for pick-up"));
  add_if (gaps, !wb_date_is_set (&order->delivery_from), "order", "order.delivery_from",
          _("The day agreed for delivery"));
  add_if (gaps, order->estimate_kind == WB_ESTIMATE_NONE, "order", "order.estimate_kind",
          _("Whether the estimate is binding"));
  add_if (gaps, !wb_money_is_set (order->estimate), "order", "order.estimate",
          _("The amount of the estimate"));
  add_if (gaps, order->payment_form == NULL, "order", "order.payment_form",
          _("The form of payment at delivery"));
  add_if (gaps, order->vehicle == NULL, "order", "order.vehicle", _("The vehicle"));
}

static void
add_other_pages (GArray      *gaps,
                 const WbJob *job)
{
  const WbValuation *valuation = wb_job_valuation (job);
  gboolean is_signed = valuation->signed_how != WB_SIGNED_NOT && valuation->signed_by != NULL &&
                       wb_date_is_set (&valuation->signed_on);

  add_if (gaps, valuation->choice == WB_CHOICE_NONE, "valuation", NULL,
          _("The customer’s choice of liability"));
  add_if (gaps, valuation->choice != WB_CHOICE_NONE && !is_signed, "valuation", NULL,
          _("The signature under the choice of liability"));
  add_if (gaps, wb_job_count (job, WB_KIND_PIECE) == 0, "inventory", NULL, _("The inventory"));
}

static gboolean
is_still_here (WbStage stage)
{
  return stage == WB_STAGE_INQUIRY || stage == WB_STAGE_BOOKED || stage == WB_STAGE_PACKED;
}

GArray *
wb_order_gaps (const WbJob *job)
{
  GArray *gaps = g_array_new (FALSE, FALSE, sizeof (WbOrderGap));

  g_return_val_if_fail (job != NULL, gaps);

  if (is_still_here (wb_job_order (job)->stage))
    {
      add_people (gaps, job);
      add_places (gaps, job);
      add_agreement (gaps, wb_job_order (job));
      add_other_pages (gaps, job);
    }

  return gaps;
}
