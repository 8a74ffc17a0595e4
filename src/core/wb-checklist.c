/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of what a job file has to hold, with the rule behind each item, and the walk through
 * it. How one item is looked for stands in wb-checklist-look.c. */
#include "config.h"

#include "core/wb-checklist-private.h"

#define N_(text) text

#define LIST(name, identifier)                                                                     \
  const WbEnum identifier = { name, identifier##_values, G_N_ELEMENTS (identifier##_values) }

/* --- names ------------------------------------------------------------------------------------ */

static const WbEnumValue wb_dues_values[] = {
  { WB_DUE_ESTIMATE, "estimate", N_ ("Before the estimate") },
  { WB_DUE_LOADING,  "loading",  N_ ("Before loading") },
  { WB_DUE_DELIVERY, "delivery", N_ ("Before delivery") },
  { WB_DUE_CLOSING,  "closing",  N_ ("Before the job is closed") },
};
LIST ("time by which something is due", wb_dues);

static const WbEnumValue wb_item_states_values[] = {
  { WB_ITEM_STATE_THERE,      "there",      N_ ("There") },
  { WB_ITEM_STATE_MISSING,    "missing",    N_ ("Missing") },
  { WB_ITEM_STATE_NOT_NEEDED, "not-needed", N_ ("Not needed") },
};
LIST ("state of an item", wb_item_states);

static const WbEnumValue wb_items_values[] = {
  { WB_ITEM_MOVE_TYPE,        "move-type",        N_ ("The kind of move") },
  { WB_ITEM_REGION,           "region",           N_ ("The state whose rules govern") },
  { WB_ITEM_SHIPPER,          "shipper",          N_ ("Who the shipper is") },
  { WB_ITEM_SURVEY,           "survey",           N_ ("The survey, or why there is none") },
  { WB_ITEM_BOOKLETS,         "booklets",         N_ ("The two consumer booklets, with a signed "
                                                      "and dated receipt") },
  { WB_ITEM_TARIFF_NOTICE,    "tariff-notice",    N_ ("The notice that the tariff can be seen") },
  { WB_ITEM_ARBITRATION,      "arbitration",      N_ ("The summary of the arbitration "
                                                      "programme") },
  { WB_ITEM_COMPLAINTS,       "complaints",       N_ ("The summary of how complaints are "
                                                      "handled") },
  { WB_ITEM_CARRIER,          "carrier",          N_ ("Who the carrier is, as registered") },
  { WB_ITEM_CARRIER_ADDRESS,  "carrier-address",  N_ ("The carrier’s address") },
  { WB_ITEM_CARRIER_DOT,      "carrier-dot",      N_ ("The carrier’s US DOT number") },
  { WB_ITEM_OTHER_CARRIERS,   "other-carriers",   N_ ("Name, telephone, address and US DOT number "
                                                      "of other carriers") },
  { WB_ITEM_SHIPPER_ADDRESS,  "shipper-address",  N_ ("The shipper’s address") },
  { WB_ITEM_SHIPPER_PHONE,    "shipper-phone",    N_ ("The shipper’s telephone") },
  { WB_ITEM_PICKUP_ADDRESS,   "pickup-address",   N_ ("The address of the pick-up") },
  { WB_ITEM_DELIVERY_ADDRESS, "delivery-address", N_ ("The address of the delivery") },
  { WB_ITEM_PAYMENT_FORM,     "payment-form",     N_ ("The form of payment at delivery") },
  { WB_ITEM_NOTIFY,           "notify",           N_ ("Who is to be told of the charges, and "
                                                      "how") },
  { WB_ITEM_SERVICE_DATES,    "service-dates",    N_ ("The days agreed for pick-up and "
                                                      "delivery") },
  { WB_ITEM_GUARANTEED_DATES, "guaranteed-dates", N_ ("The guaranteed dates and what a day of "
                                                      "delay brings") },
  { WB_ITEM_PICKED_UP,        "picked-up",        N_ ("The day of pick-up") },
  { WB_ITEM_VEHICLE,          "vehicle",          N_ ("The vehicle") },
  { WB_ITEM_PAYMENT_TERMS,    "payment-terms",    N_ ("The terms of payment") },
  { WB_ITEM_MINIMUM,          "minimum",          N_ ("The minimum charge or weight (0 if there "
                                                      "is none)") },
  { WB_ITEM_MAXIMUM,          "maximum",          N_ ("The most that is asked for at "
                                                      "delivery") },
  { WB_ITEM_CHOICE,           "choice",           N_ ("The shipper’s choice of liability") },
  { WB_ITEM_CHOICE_SIGNATURE, "choice-signature", N_ ("The signature under the choice of "
                                                      "liability: who, when, how") },
  { WB_ITEM_DISCLOSURE,       "disclosure",       N_ ("Which disclosure of both choices was "
                                                      "given") },
  { WB_ITEM_VALUATION_CHARGE, "valuation-charge", N_ ("The charge for full value "
                                                      "protection") },
  { WB_ITEM_INSURANCE,        "insurance",        N_ ("The insurance sold, and its premium") },
  { WB_ITEM_SPECIAL_SERVICES, "special-services", N_ ("The special services ordered (“none” if "
                                                      "there are none)") },
  { WB_ITEM_BILL_NUMBER,      "bill-number",      N_ ("The number of the bill of lading") },
  { WB_ITEM_ESTIMATE_KIND,    "estimate-kind",    N_ ("Whether the estimate is binding") },
  { WB_ITEM_ESTIMATE_AMOUNT,  "estimate-amount",  N_ ("The amount of the estimate") },
  { WB_ITEM_ATTACHMENTS,      "attachments",      N_ ("What is attached to the bill of lading: "
                                                      "estimate and inventory") },
  { WB_ITEM_ESTIMATE_GIVEN,   "estimate-given",   N_ ("The written estimate, made and given") },
  { WB_ITEM_SURVEY_WAIVER,    "survey-waiver",    N_ ("The signed waiver of the survey") },
  { WB_ITEM_BILL_SIGNED,      "bill-signed",      N_ ("The bill of lading, signed by both and "
                                                      "given") },
  { WB_ITEM_INVENTORY,        "inventory",        N_ ("The inventory") },
  { WB_ITEM_INVENTORY_SIGNED, "inventory-signed", N_ ("The inventory, signed by both and "
                                                      "given") },
  { WB_ITEM_VALUATION_PAPER,  "valuation-paper",  N_ ("The valuation statement as a paper") },
  { WB_ITEM_HIGH_VALUE_LIST,  "high-value-list",  N_ ("The signed list of articles of "
                                                      "extraordinary value") },
  { WB_ITEM_INSURANCE_PAPER,  "insurance-paper",  N_ ("The insurance policy, given") },
  { WB_ITEM_WEIGHING,         "weighing",         N_ ("The weighing on a certified scale") },
  { WB_ITEM_TICKET_SCALE,     "ticket-scale",     N_ ("Weight ticket: name and place of the "
                                                      "scale") },
  { WB_ITEM_TICKET_DATE,      "ticket-date",      N_ ("Weight ticket: its date") },
  { WB_ITEM_TICKET_WEIGHTS,   "ticket-weights",   N_ ("Weight ticket: which weight is tare, gross "
                                                      "or net") },
  { WB_ITEM_TICKET_VEHICLE,   "ticket-vehicle",   N_ ("Weight ticket: the vehicle") },
  { WB_ITEM_TICKET_SHIPPER,   "ticket-shipper",   N_ ("Weight ticket: the shipper’s last name") },
  { WB_ITEM_TICKET_BILL,      "ticket-bill",      N_ ("Weight ticket: the number of the bill of "
                                                      "lading") },
  { WB_ITEM_TICKET_SIGNED,    "ticket-signed",    N_ ("Weight ticket: the weigh master’s "
                                                      "signature") },
  { WB_ITEM_DELAY_NOTICE,     "delay-notice",     N_ ("The notice of delay") },
  { WB_ITEM_STORAGE_LIMIT,    "storage-limit",    N_ ("How long storage in transit may last") },
  { WB_ITEM_STORAGE_NOTICE,   "storage-notice",   N_ ("The notice that storage in transit "
                                                      "ends") },
  { WB_ITEM_DELIVERED,        "delivered",        N_ ("The day of delivery") },
  { WB_ITEM_DELIVERY_CHECK,   "delivery-check",   N_ ("The inventory checked at delivery, signed "
                                                      "by the receiver") },
  { WB_ITEM_DELIVERY_RECEIPT, "delivery-receipt", N_ ("The signed delivery receipt") },
  { WB_ITEM_DELIVERED_WEIGHT, "delivered-weight", N_ ("The weight delivered, since something was "
                                                      "short") },
  { WB_ITEM_CHARGES,          "charges",          N_ ("The transportation charges") },
  { WB_ITEM_FREIGHT_BILL,     "freight-bill",     N_ ("The freight bill, made and given") },
  { WB_ITEM_TICKETS_FILED,    "tickets-filed",    N_ ("The weight tickets, filed") },
  { WB_ITEM_CLOSED,           "closed",           N_ ("The day on which the job was closed") },
};
LIST ("item of the job file", wb_items);

G_STATIC_ASSERT (G_N_ELEMENTS (wb_items_values) == WB_N_ITEMS);

/* --- the table -------------------------------------------------------------------------------- */

#define GIVEN         WB_PAPER_PART_GIVEN
#define MADE_GIVEN    (WB_PAPER_PART_MADE | WB_PAPER_PART_GIVEN)
#define GIVEN_SIGNED  (WB_PAPER_PART_GIVEN | WB_PAPER_PART_SIGNED)
#define BOTH_SIGNED   (GIVEN_SIGNED | WB_PAPER_PART_CARRIER_SIGNED)

#define ORDER(name)       wb_look_field, .kind = WB_KIND_ORDER, .field = name
#define VALUATION(name)   wb_look_field, .kind = WB_KIND_VALUATION, .field = name
#define PARTY(role, name) wb_look_party, .which = role, .field = name
#define STOP(stop)        wb_look_stop, .which = stop
#define PAPER(paper, set) wb_look_paper, .which = paper, .parts = set
#define TICKET(name)      wb_look_ticket, .field = name

#define ROW(item, due, reach, source, ...)                                                         \
  { WB_ITEM_##item, WB_DUE_##due, WB_REACH_##reach, WB_SOURCE_##source, __VA_ARGS__ }

/* The bill of lading's present items 12 to 17 are numbered from memory; what they say was read in
 * the text of 2015. */
static const WbItemRule rules[] = {
  ROW (MOVE_TYPE, ESTIMATE, ALL, PRACTICE, NULL, ORDER ("move_type")),
  ROW (REGION, ESTIMATE, ALL, PRACTICE, NULL, wb_look_region),
  ROW (SHIPPER, ESTIMATE, ALL, SEEN_COPY, "49 CFR 375.505(b)(3)", wb_look_shipper),
  ROW (SURVEY, ESTIMATE, FEDERAL, SEEN_2015, "49 CFR 375.401(a); 49 USC 14104(b)",
       wb_look_survey),
  ROW (BOOKLETS, ESTIMATE, FEDERAL, SEEN_2015, "49 CFR 375.213",
       PAPER (WB_PAPER_BOOKLETS, GIVEN_SIGNED)),
  ROW (TARIFF_NOTICE, ESTIMATE, FEDERAL, SEEN_2015, "49 CFR 375.213",
       PAPER (WB_PAPER_TARIFF_NOTICE, GIVEN)),
  ROW (ARBITRATION, ESTIMATE, FEDERAL, SEEN_2015, "49 CFR 375.211, 375.213",
       PAPER (WB_PAPER_ARBITRATION, GIVEN)),
  ROW (COMPLAINTS, ESTIMATE, FEDERAL, SEEN_2015, "49 CFR 375.209, 375.213",
       PAPER (WB_PAPER_COMPLAINTS, GIVEN)),

  ROW (CARRIER, LOADING, ALL, SEEN_COPY, "49 CFR 375.505(b)(1)", wb_look_carrier),
  ROW (CARRIER_ADDRESS, LOADING, FEDERAL, SEEN_COPY, "49 CFR 375.505(b)(1)",
       PARTY (WB_ROLE_CARRIER, "street")),
  ROW (CARRIER_DOT, LOADING, FEDERAL, PRACTICE, NULL, PARTY (WB_ROLE_CARRIER, "dot_number")),
  ROW (OTHER_CARRIERS, LOADING, FEDERAL, SEEN_COPY, "49 CFR 375.505(b)(2)",
       wb_look_other_carriers),
  ROW (SHIPPER_ADDRESS, LOADING, ALL, SEEN_COPY, "49 CFR 375.505(b)(3)",
       PARTY (WB_ROLE_SHIPPER, "street")),
  ROW (SHIPPER_PHONE, LOADING, ALL, SEEN_COPY, "49 CFR 375.505(b)(3)",
       PARTY (WB_ROLE_SHIPPER, "phone")),
  ROW (PICKUP_ADDRESS, LOADING, ALL, PRACTICE, NULL, STOP (WB_STOP_PICKUP)),
  ROW (DELIVERY_ADDRESS, LOADING, ALL, PRACTICE, NULL, STOP (WB_STOP_DELIVERY)),
  ROW (PAYMENT_FORM, LOADING, CIVIL, SEEN_COPY, "49 CFR 375.505(b)(4)", ORDER ("payment_form")),
  ROW (NOTIFY, LOADING, FEDERAL, SEEN_COPY, "49 CFR 375.505(b)(5) and (17)", wb_look_notify),
  ROW (SERVICE_DATES, LOADING, ALL, SEEN_COPY, "49 CFR 375.505(b)(6)", wb_look_service_dates),
  ROW (GUARANTEED_DATES, LOADING, ALL, SEEN_COPY, "49 CFR 375.505(b)(7)",
       wb_look_guaranteed_dates),
  ROW (PICKED_UP, DELIVERY, ALL, SEEN_COPY, "49 CFR 375.505(b)(8)", ORDER ("picked_up_on")),
  ROW (VEHICLE, LOADING, ALL, SEEN_COPY, "49 CFR 375.505(b)(9)", ORDER ("vehicle")),
  ROW (PAYMENT_TERMS, LOADING, FEDERAL, SEEN_COPY, "49 CFR 375.505(b)(10)",
       ORDER ("payment_terms")),
  ROW (MINIMUM, LOADING, FEDERAL, SEEN_COPY, "49 CFR 375.505(b)(10) and (14)", wb_look_minimum),
  ROW (MAXIMUM, LOADING, FEDERAL, SEEN_COPY, "49 CFR 375.505(b)(11)", wb_look_maximum),
  ROW (CHOICE, LOADING, CIVIL, SEEN, "49 CFR 375.505(b)(12), 375.201", VALUATION ("choice")),
  ROW (CHOICE_SIGNATURE, LOADING, CIVIL, SEEN, "49 CFR 375.505(b)(12), 375.201(c)",
       wb_look_signature),
  ROW (DISCLOSURE, LOADING, FEDERAL, SEEN, "49 CFR 375.201(c), (e)", wb_look_disclosure),
  ROW (VALUATION_CHARGE, LOADING, FEDERAL, SEEN_2015, "49 CFR 375.505(b)(12)",
       wb_look_valuation_charge),
  ROW (INSURANCE, LOADING, FEDERAL, SEEN_2015, "49 CFR 375.505(b)(13), 375.303",
       wb_look_insurance),
  ROW (SPECIAL_SERVICES, LOADING, FEDERAL, SEEN_2015, "49 CFR 375.505(b)(14)",
       ORDER ("special_services")),
  ROW (BILL_NUMBER, LOADING, ALL, SEEN_2015, "49 CFR 375.505(b)(15)", ORDER ("bill_number")),
  ROW (ESTIMATE_KIND, LOADING, CIVIL, SEEN_2015, "49 CFR 375.505(b)(16)",
       ORDER ("estimate_kind")),
  ROW (ESTIMATE_AMOUNT, LOADING, CIVIL, SEEN_2015, "49 CFR 375.505(b)(16)", ORDER ("estimate")),
  ROW (ATTACHMENTS, LOADING, FEDERAL, SEEN_2015, "49 CFR 375.505(b)(17)", wb_look_attachments),

  ROW (ESTIMATE_GIVEN, LOADING, FEDERAL, SEEN_2015, "49 CFR 375.401(a), 375.213",
       PAPER (WB_PAPER_ESTIMATE, MADE_GIVEN)),
  ROW (SURVEY_WAIVER, LOADING, FEDERAL, SEEN_2015, "49 CFR 375.401(a)", wb_look_survey_waiver),
  ROW (BILL_SIGNED, LOADING, ALL, MEMORY, "49 CFR 375.505(a)",
       PAPER (WB_PAPER_BILL_OF_LADING, BOTH_SIGNED)),
  ROW (INVENTORY, LOADING, ALL, SEEN, "49 CFR 375.503(a)", wb_look_inventory),
  ROW (INVENTORY_SIGNED, LOADING, ALL, SEEN, "49 CFR 375.503(c)",
       PAPER (WB_PAPER_INVENTORY, BOTH_SIGNED)),
  ROW (VALUATION_PAPER, LOADING, FEDERAL, SEEN_2015, "49 CFR 375.505(b)(12)",
       wb_look_valuation_paper),
  ROW (HIGH_VALUE_LIST, LOADING, FEDERAL, SEEN, "49 CFR 375.203(b), (c)", wb_look_high_value),
  ROW (INSURANCE_PAPER, LOADING, FEDERAL, SEEN_2015, "49 CFR 375.303", wb_look_insurance_paper),

  ROW (WEIGHING, DELIVERY, ALL, SEEN_2015, "49 CFR 375.507", wb_look_weighing),
  ROW (TICKET_SCALE, DELIVERY, ALL, SEEN_2015, "49 CFR 375.519", TICKET ("scale")),
  ROW (TICKET_DATE, DELIVERY, ALL, SEEN_2015, "49 CFR 375.519", TICKET ("on")),
  ROW (TICKET_WEIGHTS, DELIVERY, ALL, SEEN_2015, "49 CFR 375.519", wb_look_ticket_weights),
  ROW (TICKET_VEHICLE, DELIVERY, ALL, SEEN_2015, "49 CFR 375.519", TICKET ("vehicle")),
  ROW (TICKET_SHIPPER, DELIVERY, ALL, SEEN_2015, "49 CFR 375.519", TICKET ("shipper_name")),
  ROW (TICKET_BILL, DELIVERY, ALL, SEEN_2015, "49 CFR 375.519", TICKET ("bill_number")),
  ROW (TICKET_SIGNED, DELIVERY, ALL, SEEN_2015, "49 CFR 375.519", TICKET ("weighed_by")),
  ROW (DELAY_NOTICE, DELIVERY, FEDERAL, SEEN_2015, "49 CFR 375.605", wb_look_delay),
  ROW (STORAGE_LIMIT, DELIVERY, ALL, SEEN_2015, "49 CFR 375.609", wb_look_storage_limit),
  ROW (STORAGE_NOTICE, DELIVERY, FEDERAL, SEEN_2015, "49 CFR 375.609", wb_look_storage_notice),

  ROW (DELIVERED, CLOSING, ALL, PRACTICE, NULL, ORDER ("delivered_on")),
  ROW (DELIVERY_CHECK, CLOSING, ALL, SEEN, "49 CFR 375.503(d)", wb_look_delivery_check),
  ROW (DELIVERY_RECEIPT, CLOSING, ALL, SEEN_2015, "49 CFR 375.701",
       PAPER (WB_PAPER_DELIVERY_RECEIPT, WB_PAPER_PART_SIGNED)),
  ROW (DELIVERED_WEIGHT, CLOSING, FEDERAL, SEEN_2015, "49 CFR 375.707(b)",
       wb_look_delivered_weight),
  ROW (CHARGES, CLOSING, ALL, PRACTICE, NULL, ORDER ("freight_charge")),
  ROW (FREIGHT_BILL, CLOSING, FEDERAL, SEEN_2015, "49 CFR 375.807",
       PAPER (WB_PAPER_FREIGHT_BILL, MADE_GIVEN)),
  ROW (TICKETS_FILED, CLOSING, ALL, SEEN_2015, "49 CFR 375.519", wb_look_tickets_filed),
  ROW (CLOSED, CLOSING, ALL, PRACTICE, NULL, wb_look_closed),
};

G_STATIC_ASSERT (G_N_ELEMENTS (rules) == WB_N_ITEMS);

/* --- the walk --------------------------------------------------------------------------------- */

WbAuthority
wb_order_authority (const WbOrder *order)
{
  g_return_val_if_fail (order != NULL, WB_AUTHORITY_UNKNOWN);

  switch (order->move_type)
    {
    case WB_MOVE_INTERSTATE:
      return WB_AUTHORITY_FEDERAL;
    case WB_MOVE_INTRASTATE:
      return WB_AUTHORITY_STATE;
    case WB_MOVE_MILITARY:
      return WB_AUTHORITY_MILITARY;
    case WB_MOVE_NONE:
    case WB_MOVE_OTHER:
      return WB_AUTHORITY_UNKNOWN;
    }
  g_return_val_if_reached (WB_AUTHORITY_UNKNOWN);
}

static gboolean
reaches (WbReach    reach,
         WbMoveType type)
{
  switch (reach)
    {
    case WB_REACH_ALL:
      return TRUE;
    case WB_REACH_CIVIL:
      return type != WB_MOVE_MILITARY;
    case WB_REACH_FEDERAL:
      return type == WB_MOVE_INTERSTATE || type == WB_MOVE_NONE;
    }
  g_return_val_if_reached (FALSE);
}

/* Where an item is looked up that does not concern the job: where it would be, all the same. */
static void
put_not_federal (const WbItemLook *look)
{
  wb_look_put (look, WB_ITEM_STATE_NOT_NEEDED, WB_ITEM_REASON_NOT_FEDERAL, look->rule->kind, NULL,
               look->rule->kind == WB_KIND_ORDER || look->rule->kind == WB_KIND_VALUATION
                 ? look->rule->field : NULL);
}

GArray *
wb_checklist (const WbJob *job,
              const GDate *today)
{
  WbItemLook look = { .job = job, .today = today };

  g_return_val_if_fail (job != NULL, NULL);

  look.out = g_array_sized_new (FALSE, FALSE, sizeof (WbChecklistEntry), WB_N_ITEMS);
  for (gsize i = 0; i < G_N_ELEMENTS (rules); i++)
    {
      look.rule = &rules[i];
      if (reaches (rules[i].reach, wb_job_order (job)->move_type))
        rules[i].look (&look);
      else
        put_not_federal (&look);
    }
  return look.out;
}

WbDue
wb_checklist_due (WbStage stage)
{
  switch (stage)
    {
    case WB_STAGE_INQUIRY:
    case WB_STAGE_CANCELLED:
      return WB_DUE_ESTIMATE;
    case WB_STAGE_BOOKED:
    case WB_STAGE_PACKED:
      return WB_DUE_LOADING;
    case WB_STAGE_ON_THE_ROAD:
    case WB_STAGE_IN_STORAGE:
      return WB_DUE_DELIVERY;
    case WB_STAGE_DELIVERED:
    case WB_STAGE_CLOSED:
      return WB_DUE_CLOSING;
    }
  g_return_val_if_reached (WB_DUE_ESTIMATE);
}

gboolean
wb_checklist_is_urgent (const WbJob            *job,
                        const WbChecklistEntry *entry)
{
  WbStage stage = wb_job_order (job)->stage;

  return entry->state == WB_ITEM_STATE_MISSING && stage != WB_STAGE_CANCELLED
         && entry->due <= wb_checklist_due (stage);
}
