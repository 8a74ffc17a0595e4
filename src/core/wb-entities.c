/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The closed lists and the field tables of a job's records. This file holds tables only; what is
 * done with them stands in wb-record.c and wb-job.c. A nick or a field name never changes once a
 * book has been written with it. */
#include "core/wb-entities.h"

/* Marks a string for translation; the words are looked up by office and desk. */
#define N_(text) text

#define LIST(name, identifier)                                                                     \
  const WbEnum identifier = { name, identifier##_values, G_N_ELEMENTS (identifier##_values) }

/* --- closed lists ----------------------------------------------------------------------------- */

static const WbEnumValue wb_stages_values[] = {
  { WB_STAGE_INQUIRY,     "inquiry",     N_ ("Inquiry") },
  { WB_STAGE_BOOKED,      "booked",      N_ ("Booked") },
  { WB_STAGE_PACKED,      "packed",      N_ ("Packed") },
  { WB_STAGE_ON_THE_ROAD, "on-the-road", N_ ("On the road") },
  { WB_STAGE_IN_STORAGE,  "in-storage",  N_ ("In storage") },
  { WB_STAGE_DELIVERED,   "delivered",   N_ ("Delivered") },
  { WB_STAGE_CLOSED,      "closed",      N_ ("Closed") },
  { WB_STAGE_CANCELLED,   "cancelled",   N_ ("Cancelled") },
};
LIST ("stage", wb_stages);

static const WbEnumValue wb_move_types_values[] = {
  { WB_MOVE_NONE,       "none",       N_ ("Not chosen") },
  { WB_MOVE_INTERSTATE, "interstate", N_ ("Between states") },
  { WB_MOVE_INTRASTATE, "intrastate", N_ ("Within one state") },
  { WB_MOVE_MILITARY,   "military",   N_ ("Department of Defense") },
  { WB_MOVE_OTHER,      "other",      N_ ("Other") },
};
LIST ("move type", wb_move_types);

static const WbEnumValue wb_estimate_kinds_values[] = {
  { WB_ESTIMATE_NONE,        "none",        N_ ("No estimate") },
  { WB_ESTIMATE_BINDING,     "binding",     N_ ("Binding") },
  { WB_ESTIMATE_NON_BINDING, "non-binding", N_ ("Non-binding") },
};
LIST ("estimate kind", wb_estimate_kinds);

static const WbEnumValue wb_roles_values[] = {
  { WB_ROLE_NONE,              "none",              N_ ("Not chosen") },
  { WB_ROLE_SHIPPER,           "shipper",           N_ ("Shipper") },
  { WB_ROLE_CONSIGNEE,         "consignee",         N_ ("Consignee") },
  { WB_ROLE_PAYER,             "payer",             N_ ("Payer") },
  { WB_ROLE_CARRIER,           "carrier",           N_ ("Carrier") },
  { WB_ROLE_BOOKING_AGENT,     "booking-agent",     N_ ("Booking agent") },
  { WB_ROLE_ORIGIN_AGENT,      "origin-agent",      N_ ("Origin agent") },
  { WB_ROLE_DESTINATION_AGENT, "destination-agent", N_ ("Destination agent") },
  { WB_ROLE_HAULER,            "hauler",            N_ ("Hauler") },
  { WB_ROLE_WAREHOUSE,         "warehouse",         N_ ("Warehouse") },
  { WB_ROLE_CONTACT,           "contact",           N_ ("Contact") },
};
LIST ("role", wb_roles);

static const WbEnumValue wb_stop_kinds_values[] = {
  { WB_STOP_NONE,           "none",           N_ ("Not chosen") },
  { WB_STOP_PICKUP,         "pickup",         N_ ("Pick-up") },
  { WB_STOP_EXTRA_PICKUP,   "extra-pickup",   N_ ("Extra pick-up") },
  { WB_STOP_WAREHOUSE,      "warehouse",      N_ ("Warehouse") },
  { WB_STOP_EXTRA_DELIVERY, "extra-delivery", N_ ("Extra delivery") },
  { WB_STOP_DELIVERY,       "delivery",       N_ ("Delivery") },
};
LIST ("kind of stop", wb_stop_kinds);

static const WbEnumValue wb_weighing_kinds_values[] = {
  { WB_WEIGHING_NONE,         "none",         N_ ("Not chosen") },
  { WB_WEIGHING_FIRST,        "weighing",     N_ ("Weighing") },
  { WB_WEIGHING_REWEIGH,      "reweigh",      N_ ("Reweigh") },
  { WB_WEIGHING_CONSTRUCTIVE, "constructive", N_ ("Constructive weight") },
};
LIST ("kind of weighing", wb_weighing_kinds);

static const WbEnumValue wb_forms_values[] = {
  { WB_FORM_CARTON, "carton", N_ ("Carton") },
  { WB_FORM_LOOSE,  "loose",  N_ ("Loose piece") },
  { WB_FORM_CRATE,  "crate",  N_ ("Crate") },
};
LIST ("form", wb_forms);

static const WbEnumValue wb_packed_by_values[] = {
  { WB_PACKED_UNKNOWN,    "unknown", N_ ("Not noted") },
  { WB_PACKED_BY_CARRIER, "CP",      N_ ("Packed by carrier") },
  { WB_PACKED_BY_OWNER,   "PBO",     N_ ("Packed by owner") },
};
LIST ("packed by", wb_packed_by);

static const WbEnumValue wb_handover_kinds_values[] = {
  { WB_HANDOVER_NONE,           "none",           N_ ("Not chosen") },
  { WB_HANDOVER_PICKUP,         "pickup",         N_ ("Residence to vehicle") },
  { WB_HANDOVER_INTO_STORAGE,   "into-storage",   N_ ("Vehicle to warehouse") },
  { WB_HANDOVER_OUT_OF_STORAGE, "out-of-storage", N_ ("Warehouse to vehicle") },
  { WB_HANDOVER_TRANSFER,       "transfer",       N_ ("Vehicle to vehicle") },
  { WB_HANDOVER_DELIVERY,       "delivery",       N_ ("Vehicle to residence") },
};
LIST ("kind of handover", wb_handover_kinds);

static const WbEnumValue wb_founds_values[] = {
  { WB_FOUND_PRESENT, "present", N_ ("Present") },
  { WB_FOUND_SHORT,   "short",   N_ ("Short") },
  { WB_FOUND_OVER,    "over",    N_ ("Over") },
};
LIST ("count", wb_founds);

static const WbEnumValue wb_choices_values[] = {
  { WB_CHOICE_NONE,     "none",     N_ ("No choice made") },
  { WB_CHOICE_RELEASED, "released", N_ ("Released value") },
  { WB_CHOICE_FULL,     "full",     N_ ("Full value protection") },
};
LIST ("choice", wb_choices);

static const WbEnumValue wb_signed_values[] = {
  { WB_SIGNED_NOT,            "not-signed", N_ ("Not signed") },
  { WB_SIGNED_ON_PAPER,       "paper",      N_ ("On paper") },
  { WB_SIGNED_ELECTRONICALLY, "electronic", N_ ("Electronically") },
};
LIST ("manner of signing", wb_signed);

static const WbEnumValue wb_claim_statuses_values[] = {
  { WB_CLAIM_OPEN,     "open",     N_ ("Open") },
  { WB_CLAIM_OFFERED,  "offered",  N_ ("Offer made") },
  { WB_CLAIM_SETTLED,  "settled",  N_ ("Settled") },
  { WB_CLAIM_DECLINED, "declined", N_ ("Declined") },
  { WB_CLAIM_CLOSED,   "closed",   N_ ("Closed") },
};
LIST ("claim status", wb_claim_statuses);

static const WbEnumValue wb_losses_values[] = {
  { WB_LOSS_NONE,      "none",      N_ ("Not chosen") },
  { WB_LOSS_MISSING,   "missing",   N_ ("Missing") },
  { WB_LOSS_DESTROYED, "destroyed", N_ ("Destroyed") },
  { WB_LOSS_DAMAGED,   "damaged",   N_ ("Damaged") },
};
LIST ("kind of loss", wb_losses);

static const WbEnumValue wb_rulings_values[] = {
  { WB_RULING_OPEN,    "open",    N_ ("Not decided") },
  { WB_RULING_ALLOWED, "allowed", N_ ("Allowed") },
  { WB_RULING_DENIED,  "denied",  N_ ("Denied") },
};
LIST ("ruling", wb_rulings);

/* --- fields ----------------------------------------------------------------------------------- */

#define AT(member) G_STRUCT_OFFSET (RECORD, member)
#define FIELD(member, words, type_, ...)                                                           \
  { .name = #member, .label = words, .type = WB_FIELD_##type_, .offset = AT (member), __VA_ARGS__ }
#define TEXT(member, words, ...)      FIELD (member, words, TEXT, __VA_ARGS__)
#define NOTES()                       FIELD (notes, N_ ("Notes"), TEXT, .flags = WB_FIELD_LONG)
#define MARKS(member, words)          FIELD (member, words, MARKS)
#define DATE(member, words)           FIELD (member, words, DATE)
#define MONEY(member, words)          FIELD (member, words, MONEY)
#define WEIGHT(member, words)         FIELD (member, words, WEIGHT)
#define VOLUME(member, words)         FIELD (member, words, VOLUME)
#define YES_NO(member, words)         FIELD (member, words, BOOLEAN)
#define PERCENT(member, words)        FIELD (member, words, PERCENT)
#define NUMBER(member, words, most, ...)                                                           \
  FIELD (member, words, INTEGER, .maximum = most, __VA_ARGS__)
#define ONE_OF(member, words, list)   FIELD (member, words, ENUM, .choices = &list)
#define REFERENCE(member, words, kind_, flags_)                                                    \
  FIELD (member, words, REFERENCE, .refers = WB_KIND_##kind_, .flags = flags_)

#define RECORD WbOrder
static const WbField order_fields[] = {
  TEXT    (number,           N_ ("Job number"), .flags = WB_FIELD_REQUIRED),
  TEXT    (bill_number,      N_ ("Bill of lading number")),
  ONE_OF  (stage,            N_ ("Stage"), wb_stages),
  ONE_OF  (move_type,        N_ ("Kind of move"), wb_move_types),
  TEXT    (region,           N_ ("State whose rules govern")),
  TEXT    (terms,            N_ ("Terms")),
  DATE    (booked_on,        N_ ("Booked on")),
  DATE    (survey_on,        N_ ("Survey on")),
  DATE    (pack_on,          N_ ("Packing on")),
  DATE    (pickup_from,      N_ ("Agreed pick-up, first day")),
  DATE    (pickup_to,        N_ ("Agreed pick-up, last day")),
  DATE    (picked_up_on,     N_ ("Picked up on")),
  DATE    (delivery_from,    N_ ("Agreed delivery, first day")),
  DATE    (delivery_to,      N_ ("Agreed delivery, last day")),
  DATE    (delivered_on,     N_ ("Delivered on")),
  YES_NO  (guaranteed,       N_ ("Guaranteed dates")),
  DATE    (storage_from,     N_ ("Storage in transit from")),
  DATE    (storage_to,       N_ ("Storage in transit to")),
  ONE_OF  (estimate_kind,    N_ ("Kind of estimate"), wb_estimate_kinds),
  MONEY   (estimate,         N_ ("Estimate")),
  DATE    (estimated_on,     N_ ("Estimated on")),
  WEIGHT  (estimated_weight, N_ ("Estimated weight")),
  VOLUME  (volume,           N_ ("Volume of the shipment")),
  MONEY   (freight_charge,   N_ ("Transportation charges")),
  MONEY   (other_charge,     N_ ("Other charges")),
  TEXT    (payment_form,     N_ ("Form of payment at delivery")),
  TEXT    (vehicle,          N_ ("Vehicle")),
  NOTES   (),
};
#undef RECORD

#define RECORD WbValuation
static const WbField valuation_fields[] = {
  ONE_OF  (choice,               N_ ("Choice"), wb_choices),
  MONEY   (declared_value,       N_ ("Declared value")),
  MONEY   (deductible,           N_ ("Deductible")),
  MONEY   (charge,               N_ ("Valuation charge")),
  TEXT    (signed_by,            N_ ("Signed by")),
  DATE    (signed_on,            N_ ("Signed on")),
  ONE_OF  (signed_how,           N_ ("How it was signed"), wb_signed),
  TEXT    (disclosure,           N_ ("Disclosure given")),
  YES_NO  (high_value_list,      N_ ("List of articles of extraordinary value")),
  DATE    (high_value_signed_on, N_ ("List signed on")),
  NOTES   (),
};
#undef RECORD

#define RECORD WbParty
static const WbField party_fields[] = {
  ONE_OF  (role,        N_ ("Role"), wb_roles),
  TEXT    (name,        N_ ("Name")),
  TEXT    (company,     N_ ("Company")),
  TEXT    (phone,       N_ ("Telephone")),
  TEXT    (email,       N_ ("E-mail")),
  TEXT    (street,      N_ ("Street")),
  TEXT    (city,        N_ ("City")),
  TEXT    (region,      N_ ("State or province")),
  TEXT    (postal_code, N_ ("Postal code")),
  TEXT    (country,     N_ ("Country")),
  TEXT    (dot_number,  N_ ("US DOT number")),
  NOTES   (),
};
#undef RECORD

#define RECORD WbStop
static const WbField stop_fields[] = {
  ONE_OF  (kind,        N_ ("Kind of stop"), wb_stop_kinds),
  TEXT    (name,        N_ ("Name")),
  TEXT    (street,      N_ ("Street")),
  TEXT    (city,        N_ ("City")),
  TEXT    (region,      N_ ("State or province")),
  TEXT    (postal_code, N_ ("Postal code")),
  TEXT    (country,     N_ ("Country")),
  TEXT    (phone,       N_ ("Telephone")),
  DATE    (on,          N_ ("Date")),
  TEXT    (access,      N_ ("Access"), .flags = WB_FIELD_LONG),
};
#undef RECORD

#define RECORD WbWeighing
static const WbField weighing_fields[] = {
  ONE_OF  (kind,       N_ ("Kind of weighing"), wb_weighing_kinds),
  DATE    (on,         N_ ("Weighed on")),
  TEXT    (scale,      N_ ("Scale and place")),
  TEXT    (ticket,     N_ ("Weight ticket")),
  TEXT    (vehicle,    N_ ("Vehicle")),
  WEIGHT  (gross,      N_ ("Gross weight")),
  WEIGHT  (tare,       N_ ("Tare weight")),
  WEIGHT  (net,        N_ ("Net weight")),
  TEXT    (weighed_by, N_ ("Weigh master")),
};
#undef RECORD

#define RECORD WbLot
static const WbField lot_fields[] = {
  TEXT    (colour, N_ ("Colour"), .flags = WB_FIELD_REQUIRED),
  TEXT    (number, N_ ("Lot number")),
  NUMBER  (first,  N_ ("First tag"), 999999),
  NUMBER  (last,   N_ ("Last tag"), 999999),
};
#undef RECORD

#define RECORD WbPiece
static const WbField piece_fields[] = {
  REFERENCE (lot,           N_ ("Lot"), LOT, WB_FIELD_FLAG_NONE),
  NUMBER    (tag,           N_ ("Tag number"), 999999),
  ONE_OF    (form,          N_ ("Carton or piece"), wb_forms),
  TEXT      (carton,        N_ ("Kind of carton")),
  TEXT      (description,   N_ ("Description")),
  TEXT      (contents,      N_ ("Contents"), .flags = WB_FIELD_LONG),
  TEXT      (room,          N_ ("Room")),
  ONE_OF    (packed_by,     N_ ("Packed by"), wb_packed_by),
  TEXT      (packer,        N_ ("Packer")),
  MARKS     (marks,         N_ ("Condition at origin")),
  WEIGHT    (weight,        N_ ("Weight")),
  VOLUME    (volume,        N_ ("Volume")),
  TEXT      (article,       N_ ("Part of article")),
  TEXT      (serial_number, N_ ("Serial number")),
  MONEY     (listed_value,  N_ ("Listed value")),
  NOTES     (),
};
#undef RECORD

#define RECORD WbHandover
static const WbField handover_fields[] = {
  ONE_OF  (kind,        N_ ("Kind of handover"), wb_handover_kinds),
  DATE    (on,          N_ ("Date")),
  TEXT    (place,       N_ ("Place")),
  TEXT    (from_holder, N_ ("Handed over by")),
  TEXT    (to_holder,   N_ ("Received by")),
  TEXT    (from_signed, N_ ("Signed for the giver")),
  TEXT    (to_signed,   N_ ("Signed for the receiver")),
  NOTES   (),
};
#undef RECORD

#define RECORD WbFinding
static const WbField finding_fields[] = {
  REFERENCE (handover, N_ ("Handover"), HANDOVER, WB_FIELD_REQUIRED | WB_FIELD_OWNER),
  REFERENCE (piece,    N_ ("Piece"), PIECE, WB_FIELD_REQUIRED),
  ONE_OF    (found,    N_ ("Count"), wb_founds),
  MARKS     (marks,    N_ ("New marks")),
  NOTES     (),
};
#undef RECORD

#define RECORD WbClaim
static const WbField claim_fields[] = {
  TEXT    (number,              N_ ("Claim number"), .flags = WB_FIELD_REQUIRED),
  ONE_OF  (status,              N_ ("Status"), wb_claim_statuses),
  DATE    (received_on,         N_ ("Received on")),
  TEXT    (claimant,            N_ ("Claimant")),
  YES_NO  (identifies_shipment, N_ ("Identifies the shipment")),
  YES_NO  (asserts_liability,   N_ ("Asserts liability")),
  YES_NO  (states_amount,       N_ ("Demands a specified or determinable amount")),
  DATE    (acknowledged_on,     N_ ("Acknowledged on")),
  DATE    (decided_on,          N_ ("Decided on")),
  NOTES   (),
};
#undef RECORD

#define RECORD WbClaimLine
static const WbField claim_line_fields[] = {
  REFERENCE (claim,               N_ ("Claim"), CLAIM, WB_FIELD_REQUIRED | WB_FIELD_OWNER),
  NUMBER    (number,              N_ ("Line"), 99999, .flags = WB_FIELD_REQUIRED),
  REFERENCE (piece,               N_ ("Piece"), PIECE, WB_FIELD_FLAG_NONE),
  TEXT      (item,                N_ ("What is claimed")),
  ONE_OF    (loss,                N_ ("Kind of loss"), wb_losses),
  MONEY     (demanded,            N_ ("Demanded")),
  MONEY     (replacement,         N_ ("Replacement cost")),
  MONEY     (repair,              N_ ("Repair cost")),
  MONEY     (appearance,          N_ ("Appearance allowance")),
  MONEY     (salvage,             N_ ("Salvage kept by customer")),
  WEIGHT    (weight,              N_ ("Weight of the thing itself")),
  NUMBER    (age_years,           N_ ("Age in years"), 500),
  PERCENT   (depreciation_yearly, N_ ("Depreciation a year")),
  PERCENT   (depreciation_flat,   N_ ("Depreciation, flat")),
  ONE_OF    (ruling,              N_ ("Ruling"), wb_rulings),
  TEXT      (ruling_reason,       N_ ("Reason of the ruling")),
  NOTES     (),
};
#undef RECORD

#define RECORD WbPayment
static const WbField payment_fields[] = {
  REFERENCE (claim,            N_ ("Claim"), CLAIM, WB_FIELD_REQUIRED),
  DATE      (on,               N_ ("Paid on")),
  MONEY     (amount,           N_ ("Amount")),
  MONEY     (deductible_taken, N_ ("Deductible taken")),
  NOTES     (),
};
#undef RECORD

#define TYPE(kind_, name_, plural_, label_, single_, struct_)                                      \
  [WB_KIND_##kind_] = { .kind = WB_KIND_##kind_, .name = #name_, .plural = plural_,                \
                        .label = label_, .single = single_, .size = sizeof (struct_),              \
                        .fields = name_##_fields, .n_fields = G_N_ELEMENTS (name_##_fields) }

static const WbRecordType types[] = {
  TYPE (ORDER,      order,      "order",       N_ ("Order"),      TRUE,  WbOrder),
  TYPE (VALUATION,  valuation,  "valuation",   N_ ("Valuation"),  TRUE,  WbValuation),
  TYPE (PARTY,      party,      "parties",     N_ ("Party"),      FALSE, WbParty),
  TYPE (STOP,       stop,       "stops",       N_ ("Stop"),       FALSE, WbStop),
  TYPE (WEIGHING,   weighing,   "weighings",   N_ ("Weighing"),   FALSE, WbWeighing),
  TYPE (LOT,        lot,        "lots",        N_ ("Lot"),        FALSE, WbLot),
  TYPE (PIECE,      piece,      "pieces",      N_ ("Piece"),      FALSE, WbPiece),
  TYPE (HANDOVER,   handover,   "handovers",   N_ ("Handover"),   FALSE, WbHandover),
  TYPE (FINDING,    finding,    "findings",    N_ ("Finding"),    FALSE, WbFinding),
  TYPE (CLAIM,      claim,      "claims",      N_ ("Claim"),      FALSE, WbClaim),
  TYPE (CLAIM_LINE, claim_line, "claim_lines", N_ ("Claim line"), FALSE, WbClaimLine),
  TYPE (PAYMENT,    payment,    "payments",    N_ ("Payment"),    FALSE, WbPayment),
};

G_STATIC_ASSERT (G_N_ELEMENTS (types) == WB_N_KINDS);

const WbRecordType *
wb_record_type (WbKind kind)
{
  g_return_val_if_fail ((guint) kind < WB_N_KINDS, NULL);

  return &types[kind];
}
