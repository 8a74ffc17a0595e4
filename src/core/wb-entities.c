/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The field tables of a job's records. This file holds tables only; what is done with them stands
 * in wb-record.c and wb-job.c. A field name never changes once a book has been written with it. */
#include "core/wb-entities.h"

/* Marks a string for translation; the words are looked up by office and desk. */
#define N_(text) text

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
  TEXT   (number,               N_ ("Job number"), .flags = WB_FIELD_REQUIRED),
  TEXT   (bill_number,          N_ ("Bill of lading number")),
  ONE_OF (stage,                N_ ("Stage"), wb_stages),
  ONE_OF (move_type,            N_ ("Kind of move"), wb_move_types),
  TEXT   (region,               N_ ("State whose rules govern")),
  TEXT   (terms,                N_ ("Terms")),
  DATE   (booked_on,            N_ ("Booked on")),
  DATE   (survey_on,            N_ ("Survey on")),
  DATE   (pack_on,              N_ ("Packing on")),
  DATE   (pickup_from,          N_ ("Agreed pick-up, first day")),
  DATE   (pickup_to,            N_ ("Agreed pick-up, last day")),
  DATE   (picked_up_on,         N_ ("Picked up on")),
  DATE   (delivery_from,        N_ ("Agreed delivery, first day")),
  DATE   (delivery_to,          N_ ("Agreed delivery, last day")),
  DATE   (delivered_on,         N_ ("Delivered on")),
  YES_NO (guaranteed,           N_ ("Guaranteed dates")),
  DATE   (storage_from,         N_ ("Storage in transit from")),
  DATE   (storage_to,           N_ ("Storage in transit to")),
  ONE_OF (estimate_kind,        N_ ("Kind of estimate"), wb_estimate_kinds),
  MONEY  (estimate,             N_ ("Estimate")),
  DATE   (estimated_on,         N_ ("Estimated on")),
  WEIGHT (estimated_weight,     N_ ("Estimated weight")),
  VOLUME (volume,               N_ ("Volume of the shipment")),
  MONEY  (freight_charge,       N_ ("Transportation charges")),
  MONEY  (other_charge,         N_ ("Other charges")),
  TEXT   (payment_form,         N_ ("Form of payment at delivery")),
  TEXT   (vehicle,              N_ ("Vehicle")),
  TEXT   (coordinator,          N_ ("Coordinator")),
  ONE_OF (survey,               N_ ("Survey"), wb_surveys),
  MONEY  (per_diem,             N_ ("Allowance for each day of delay")),
  MONEY  (minimum_charge,       N_ ("Minimum charge")),
  WEIGHT (minimum_weight,       N_ ("Minimum weight charged for")),
  TEXT   (payment_terms,        N_ ("Terms of payment")),
  TEXT   (special_services,     N_ ("Special services ordered"), .flags = WB_FIELD_LONG),
  MONEY  (requested_charge,     N_ ("Services asked for after the bill of lading")),
  MONEY  (impracticable_charge, N_ ("Impracticable operations")),
  WEIGHT (delivered_weight,     N_ ("Weight delivered")),
  YES_NO (notify_charges,       N_ ("Wants to know the charges before delivery")),
  TEXT   (insurance,            N_ ("Insurance sold to the shipper")),
  MONEY  (insurance_premium,    N_ ("Insurance premium")),
  NUMBER (storage_days,         N_ ("Limit of storage in transit, days"), 9999),
  DATE   (storage_notice_on,    N_ ("Notice given that storage ends")),
  DATE   (closed_on,            N_ ("Closed on")),
  NOTES  (),
};
#undef RECORD

#define RECORD WbValuation
static const WbField valuation_fields[] = {
  ONE_OF (choice,               N_ ("Choice"), wb_choices),
  MONEY  (declared_value,       N_ ("Declared value")),
  MONEY  (deductible,           N_ ("Deductible")),
  MONEY  (charge,               N_ ("Valuation charge")),
  TEXT   (signed_by,            N_ ("Signed by")),
  DATE   (signed_on,            N_ ("Signed on")),
  ONE_OF (signed_how,           N_ ("How it was signed"), wb_signed),
  TEXT   (disclosure,           N_ ("Disclosure given")),
  YES_NO (high_value_list,      N_ ("List of articles of extraordinary value")),
  DATE   (high_value_signed_on, N_ ("List signed on")),
  TEXT   (high_value_signed_by, N_ ("List signed by")),
  NOTES  (),
};
#undef RECORD

#define RECORD WbParty
static const WbField party_fields[] = {
  ONE_OF (role,        N_ ("Role"), wb_roles),
  TEXT   (name,        N_ ("Name")),
  TEXT   (company,     N_ ("Company")),
  TEXT   (phone,       N_ ("Telephone")),
  TEXT   (email,       N_ ("E-mail")),
  TEXT   (street,      N_ ("Street")),
  TEXT   (city,        N_ ("City")),
  TEXT   (region,      N_ ("State or province")),
  TEXT   (postal_code, N_ ("Postal code")),
  TEXT   (country,     N_ ("Country")),
  TEXT   (dot_number,  N_ ("US DOT number")),
  MONEY  (claim_limit, N_ ("Most that it bears on a claim")),
  NOTES  (),
};
#undef RECORD

#define RECORD WbStop
static const WbField stop_fields[] = {
  ONE_OF (kind,        N_ ("Kind of stop"), wb_stop_kinds),
  TEXT   (name,        N_ ("Name")),
  TEXT   (street,      N_ ("Street")),
  TEXT   (city,        N_ ("City")),
  TEXT   (region,      N_ ("State or province")),
  TEXT   (postal_code, N_ ("Postal code")),
  TEXT   (country,     N_ ("Country")),
  TEXT   (phone,       N_ ("Telephone")),
  DATE   (on,          N_ ("Date")),
  DATE   (until,       N_ ("Until")),
  TEXT   (hours,       N_ ("Hours")),
  TEXT   (access,      N_ ("Access"), .flags = WB_FIELD_LONG),
};
#undef RECORD

#define RECORD WbWeighing
static const WbField weighing_fields[] = {
  ONE_OF (kind,         N_ ("Kind of weighing"), wb_weighing_kinds),
  DATE   (on,           N_ ("Weighed on")),
  TEXT   (scale,        N_ ("Scale and place")),
  TEXT   (ticket,       N_ ("Weight ticket")),
  TEXT   (vehicle,      N_ ("Vehicle")),
  WEIGHT (gross,        N_ ("Gross weight")),
  WEIGHT (tare,         N_ ("Tare weight")),
  WEIGHT (net,          N_ ("Net weight")),
  TEXT   (shipper_name, N_ ("Shipper on the ticket")),
  TEXT   (bill_number,  N_ ("Bill of lading on the ticket")),
  TEXT   (weighed_by,   N_ ("Weigh master")),
};
#undef RECORD

#define RECORD WbLot
static const WbField lot_fields[] = {
  TEXT   (colour, N_ ("Colour"), .flags = WB_FIELD_REQUIRED),
  TEXT   (number, N_ ("Lot number")),
  NUMBER (first,  N_ ("First tag"), 999999),
  NUMBER (last,   N_ ("Last tag"), 999999),
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
  TEXT      (checked_by,    N_ ("Checked by")),
  DATE      (packed_on,     N_ ("Packed on")),
  NUMBER    (quantity,      N_ ("How many"), 99999),
  TEXT      (set,           N_ ("Part of set")),
  ONE_OF    (disassembly,   N_ ("Taken apart"), wb_disassembly),
  NOTES     (),
};
#undef RECORD

#define RECORD WbHandover
static const WbField handover_fields[] = {
  ONE_OF (kind,        N_ ("Kind of handover"), wb_handover_kinds),
  DATE   (on,          N_ ("Date")),
  TEXT   (place,       N_ ("Place")),
  TEXT   (from_holder, N_ ("Handed over by")),
  TEXT   (to_holder,   N_ ("Received by")),
  TEXT   (from_signed, N_ ("Signed for the giver")),
  TEXT   (to_signed,   N_ ("Signed for the receiver")),
  TEXT   (vehicle,     N_ ("Vehicle")),
  ONE_OF (count,       N_ ("Count"), wb_counts),
  TEXT   (counted_by,  N_ ("Counted by")),
  TEXT   (crew,        N_ ("Crew")),
  NOTES  (),
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
  TEXT   (number,              N_ ("Claim number"), .flags = WB_FIELD_REQUIRED),
  ONE_OF (status,              N_ ("Status"), wb_claim_statuses),
  DATE   (received_on,         N_ ("Received on")),
  TEXT   (claimant,            N_ ("Claimant")),
  YES_NO (identifies_shipment, N_ ("Identifies the shipment")),
  YES_NO (asserts_liability,   N_ ("Asserts liability")),
  YES_NO (states_amount,       N_ ("Demands a specified or determinable amount")),
  DATE   (acknowledged_on,     N_ ("Acknowledged on")),
  DATE   (decided_on,          N_ ("Decided on")),
  YES_NO (notice_only,         N_ ("Notice, not yet a claim")),
  MONEY  (reserve,             N_ ("Reserve")),
  DATE   (inspected_on,        N_ ("Inspected on")),
  NOTES  (),
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
  YES_NO    (salvage_taken,       N_ ("Salvage taken by the carrier")),
  TEXT      (salvage_lot,         N_ ("Salvage lot number")),
  MONEY     (salvage_sold,        N_ ("Salvage sold for")),
  DATE      (salvage_on,          N_ ("Salvage sold on")),
  YES_NO    (set_mate,            N_ ("Sound itself, of a damaged set")),
  WEIGHT    (weight,              N_ ("Weight of the thing itself")),
  NUMBER    (age_years,           N_ ("Age in years"), 500),
  PERCENT   (depreciation_yearly, N_ ("Depreciation a year")),
  PERCENT   (depreciation_flat,   N_ ("Depreciation, flat")),
  PERCENT   (depreciation_least,  N_ ("Depreciation, at least")),
  TEXT      (category,            N_ ("Depreciation category")),
  ONE_OF    (proposed,            N_ ("Proposed verdict"), wb_verdicts),
  ONE_OF    (verdict,             N_ ("Verdict"), wb_verdicts),
  TEXT      (verdict_reason,      N_ ("Reason of the verdict")),
  ONE_OF    (ruling,              N_ ("Ruling"), wb_rulings),
  TEXT      (ruling_reason,       N_ ("Reason of the ruling")),
  ONE_OF    (cause,               N_ ("Cause of the loss"), wb_causes),
  ONE_OF    (defence,             N_ ("Defence"), wb_defences),
  NOTES     (),
};
#undef RECORD

#define RECORD WbPayment
static const WbField payment_fields[] = {
  REFERENCE (claim,            N_ ("Claim"), CLAIM, WB_FIELD_REQUIRED),
  REFERENCE (claim_line,       N_ ("For one line"), CLAIM_LINE, WB_FIELD_FLAG_NONE),
  DATE      (on,               N_ ("Paid on")),
  MONEY     (amount,           N_ ("Amount")),
  MONEY     (deductible_taken, N_ ("Deductible taken")),
  MONEY     (freight_refund,   N_ ("Freight refund in it")),
  NOTES     (),
};
#undef RECORD

#define RECORD WbThing
static const WbField thing_fields[] = {
  REFERENCE (piece,       N_ ("Piece"), PIECE, WB_FIELD_REQUIRED | WB_FIELD_OWNER),
  TEXT      (description, N_ ("Description"), .flags = WB_FIELD_REQUIRED),
  NUMBER    (quantity,    N_ ("How many"), 99999),
  MONEY     (value,       N_ ("Value of one")),
  WEIGHT    (weight,      N_ ("Weight of one")),
  NOTES     (),
};
#undef RECORD

#define RECORD WbPackingCheck
static const WbField packing_check_fields[] = {
  REFERENCE (piece, N_ ("Piece"), PIECE, WB_FIELD_REQUIRED | WB_FIELD_OWNER),
  TEXT      (rule,  N_ ("Rule"), .flags = WB_FIELD_REQUIRED),
  ONE_OF    (state, N_ ("Check"), wb_checks),
  TEXT      (by,    N_ ("Looked at by")),
  DATE      (on,    N_ ("Looked at on")),
  NOTES     (),
};
#undef RECORD

#define RECORD WbPhoto
static const WbField photo_fields[] = {
  TEXT      (hash,         N_ ("SHA-256 of the file"), .flags = WB_FIELD_REQUIRED),
  TEXT      (name,         N_ ("File name")),
  TEXT      (media_type,   N_ ("Kind of file")),
  NUMBER    (size,         N_ ("Size of the file"), G_GINT64_CONSTANT (1099511627776)),
  NUMBER    (width,        N_ ("Width"), 999999),
  NUMBER    (height,       N_ ("Height"), 999999),
  NUMBER    (orientation,  N_ ("Orientation"), 8),
  TEXT      (taken_at,     N_ ("Taken at")),
  TEXT      (taken_offset, N_ ("Offset of the camera's clock")),
  TEXT      (camera,       N_ ("Camera")),
  TEXT      (imported_at,  N_ ("Taken in at")),
  /* Translators: when in the move a photo was taken, such as “At origin”. */
  ONE_OF    (moment,       N_ ("Moment"), wb_moments),
  REFERENCE (piece,        N_ ("Piece"), PIECE, WB_FIELD_FLAG_NONE),
  REFERENCE (handover,     N_ ("Handover"), HANDOVER, WB_FIELD_FLAG_NONE),
  TEXT      (caption,      N_ ("Caption")),
  NOTES     (),
};
#undef RECORD

#define RECORD WbPin
static const WbField pin_fields[] = {
  REFERENCE (photo, N_ ("Photo"), PHOTO, WB_FIELD_REQUIRED | WB_FIELD_OWNER),
  REFERENCE (piece, N_ ("Piece"), PIECE, WB_FIELD_FLAG_NONE),
  NUMBER    (x,     N_ ("From the left"), 10000),
  NUMBER    (y,     N_ ("From the top"), 10000),
  MARKS     (marks, N_ ("Marks")),
  NOTES     (),
};
#undef RECORD

#define RECORD WbMaterial
static const WbField material_fields[] = {
  TEXT   (item,    N_ ("Carton or material"), .flags = WB_FIELD_REQUIRED),
  NUMBER (planned, N_ ("Planned"), 999999),
  NUMBER (used,    N_ ("Used"), 999999),
  NOTES  (),
};
#undef RECORD

#define RECORD WbContact
static const WbField contact_fields[] = {
  DATE   (on,        N_ ("Date")),
  TEXT   (at,        N_ ("Time")),
  ONE_OF (manner,    N_ ("How"), wb_manners),
  TEXT   (who,       N_ ("With whom")),
  TEXT   (by,        N_ ("For the office")),
  YES_NO (complaint, N_ ("Complaint")),
  TEXT   (subject,   N_ ("Subject")),
  TEXT   (text,      N_ ("What was said"), .flags = WB_FIELD_LONG),
};
#undef RECORD

#define RECORD WbPaper
static const WbField paper_fields[] = {
  ONE_OF (kind,              N_ ("Kind of paper"), wb_paper_kinds),
  TEXT   (number,            N_ ("Number")),
  DATE   (made_on,           N_ ("Made on")),
  DATE   (given_on,          N_ ("Given to the shipper on")),
  TEXT   (signed_by,         N_ ("Signed for the shipper")),
  DATE   (signed_on,         N_ ("Signed on")),
  TEXT   (carrier_signed_by, N_ ("Signed for the carrier")),
  TEXT   (filed,             N_ ("Where it is filed")),
  NOTES  (),
};
#undef RECORD

#define RECORD WbTally
static const WbField tally_fields[] = {
  REFERENCE (handover, N_ ("Handover"), HANDOVER, WB_FIELD_REQUIRED | WB_FIELD_OWNER),
  REFERENCE (lot,      N_ ("Lot"), LOT, WB_FIELD_FLAG_NONE),
  TEXT      (tags,     N_ ("Tags counted"), .flags = WB_FIELD_LONG),
  NOTES     (),
};
#undef RECORD

#define RECORD WbClaimStep
static const WbField step_fields[] = {
  REFERENCE (claim,  N_ ("Claim"), CLAIM, WB_FIELD_REQUIRED | WB_FIELD_OWNER),
  ONE_OF    (kind,   N_ ("Step"), wb_step_kinds),
  DATE      (on,     N_ ("Date")),
  MONEY     (amount, N_ ("Amount")),
  TEXT      (who,    N_ ("With whom")),
  TEXT      (by,     N_ ("For the office")),
  TEXT      (frozen, N_ ("Frozen reckoning")),
  TEXT      (letter, N_ ("Letter as it was sent")),
  TEXT      (text,   N_ ("What was said"), .flags = WB_FIELD_LONG),
};
#undef RECORD

#define RECORD WbQuote
static const WbField quote_fields[] = {
  REFERENCE (claim_line, N_ ("Claim line"), CLAIM_LINE, WB_FIELD_REQUIRED | WB_FIELD_OWNER),
  ONE_OF    (kind,       N_ ("Kind of quote"), wb_quote_kinds),
  TEXT      (source,     N_ ("From whom")),
  DATE      (on,         N_ ("Date")),
  MONEY     (amount,     N_ ("Amount")),
  YES_NO    (taken,      N_ ("Taken as the figure of the line")),
  NOTES     (),
};
#undef RECORD

#define RECORD WbShare
static const WbField share_fields[] = {
  REFERENCE (claim_line, N_ ("Claim line"), CLAIM_LINE, WB_FIELD_REQUIRED | WB_FIELD_OWNER),
  TEXT      (handler,    N_ ("Handler"), .flags = WB_FIELD_REQUIRED),
  PERCENT   (percent,    N_ ("Percentage")),
  TEXT      (reason,     N_ ("Reason")),
};
#undef RECORD

#define RECORD WbHandlerCharge
static const WbField charge_fields[] = {
  REFERENCE (claim,        N_ ("Claim"), CLAIM, WB_FIELD_REQUIRED | WB_FIELD_OWNER),
  TEXT      (handler,      N_ ("Handler"), .flags = WB_FIELD_REQUIRED),
  MONEY     (amount,       N_ ("Amount")),
  DATE      (stated_on,    N_ ("Stated on")),
  TEXT      (statement,    N_ ("Charge statement"), .flags = WB_FIELD_LONG),
  MONEY     (recovered,    N_ ("Recovered")),
  DATE      (recovered_on, N_ ("Recovered on")),
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
  /* Translators: where the truck stops to load or unload. */
  TYPE (STOP,       stop,       "stops",       N_ ("Stop"),       FALSE, WbStop),
  TYPE (WEIGHING,   weighing,   "weighings",   N_ ("Weighing"),   FALSE, WbWeighing),
  TYPE (LOT,        lot,        "lots",        N_ ("Lot"),        FALSE, WbLot),
  TYPE (PIECE,      piece,      "pieces",      N_ ("Piece"),      FALSE, WbPiece),
  TYPE (HANDOVER,   handover,   "handovers",   N_ ("Handover"),   FALSE, WbHandover),
  /* Translators: what was noted of a piece at a handover. */
  TYPE (FINDING,    finding,    "findings",    N_ ("Finding"),    FALSE, WbFinding),
  TYPE (CLAIM,      claim,      "claims",      N_ ("Claim"),      FALSE, WbClaim),
  TYPE (CLAIM_LINE, claim_line, "claim_lines", N_ ("Claim line"), FALSE, WbClaimLine),
  TYPE (PAYMENT,    payment,    "payments",    N_ ("Payment"),    FALSE, WbPayment),
  TYPE (THING, thing, "things", N_ ("Thing inside"), FALSE, WbThing),
  TYPE (PACKING_CHECK, packing_check, "packing_checks", N_ ("Packing check"), FALSE,
        WbPackingCheck),
  TYPE (PHOTO, photo, "photos", N_ ("Photo"), FALSE, WbPhoto),
  /* Translators: a place on a photo that shows a mark. */
  TYPE (PIN, pin, "pins", N_ ("Pin"), FALSE, WbPin),
  TYPE (MATERIAL, material, "materials", N_ ("Packing material"), FALSE, WbMaterial),
  TYPE (CONTACT, contact, "contacts", N_ ("Contact"), FALSE, WbContact),
  TYPE (PAPER, paper, "papers", N_ ("Paper"), FALSE, WbPaper),
  /* Translators: what was counted so far at a handover. */
  TYPE (TALLY, tally, "tallies", N_ ("Tally"), FALSE, WbTally),
  TYPE (STEP, step, "steps", N_ ("Step"), FALSE, WbClaimStep),
  /* Translators: what somebody asks for a repair or a replacement. */
  TYPE (QUOTE, quote, "quotes", N_ ("Quote"), FALSE, WbQuote),
  /* Translators: what a handler bears of a claim, by hand. */
  TYPE (SHARE, share, "shares", N_ ("Share"), FALSE, WbShare),
  TYPE (CHARGE, charge, "charges", N_ ("Charge to a handler"), FALSE, WbHandlerCharge),
};

G_STATIC_ASSERT (G_N_ELEMENTS (types) == WB_N_KINDS);

const WbRecordType *
wb_record_type (WbKind kind)
{
  g_return_val_if_fail ((guint) kind < WB_N_KINDS, NULL);

  return &types[kind];
}
