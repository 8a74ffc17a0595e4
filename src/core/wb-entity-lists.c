/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The closed lists that fields of a job's records choose from: value, nick and words. This file
 * holds tables only. A nick never changes once a book has been written with it. */
#include "core/wb-entities.h"

/* Marks a string for translation; the words are looked up by office and desk. */
#define N_(text) text

#define LIST(name, identifier)                                                                     \
  const WbEnum identifier = { name, identifier##_values, G_N_ELEMENTS (identifier##_values) }

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
  { WB_ROLE_NOTIFY,            "notify",            N_ ("To be told of the charges") },
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
  /* Translators: a piece that was there at a handover. */
  { WB_FOUND_PRESENT, "present", N_ ("Present") },
  /* Translators: a piece that was not there at a handover. */
  { WB_FOUND_SHORT,   "short",   N_ ("Short") },
  /* Translators: a piece that was there at a handover and should not have been. */
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
  /* Translators: a claim that is not settled or declined yet. */
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

static const WbEnumValue wb_surveys_values[] = {
  { WB_SURVEY_NONE,    "none",    N_ ("Not chosen") },
  { WB_SURVEY_ON_SITE, "on-site", N_ ("At the residence") },
  { WB_SURVEY_VIRTUAL, "virtual", N_ ("By video") },
  { WB_SURVEY_BEYOND,  "beyond",  N_ ("None: goods too far from the agent") },
  { WB_SURVEY_WAIVED,  "waived",  N_ ("None: waived in writing") },
};
LIST ("survey", wb_surveys);

static const WbEnumValue wb_disassembly_values[] = {
  { WB_DISASSEMBLY_NONE,       "none",    N_ ("Not taken apart") },
  { WB_DISASSEMBLY_BY_CARRIER, "carrier", N_ ("Taken apart by carrier") },
  { WB_DISASSEMBLY_BY_OWNER,   "owner",   N_ ("Taken apart by owner") },
};
LIST ("taking apart", wb_disassembly);

static const WbEnumValue wb_counts_values[] = {
  { WB_COUNT_AS_LISTED, "as-listed", N_ ("Taken as listed") },
  { WB_COUNT_UNDER_WAY, "under-way", N_ ("Count under way") },
  { WB_COUNT_FINISHED,  "finished",  N_ ("Counted off") },
};
LIST ("state of the count", wb_counts);

static const WbEnumValue wb_checks_values[] = {
  { WB_CHECK_OPEN,  "open",  N_ ("Not looked at") },
  { WB_CHECK_MET,   "met",   N_ ("Met") },
  { WB_CHECK_UNMET, "unmet", N_ ("Not met") },
};
LIST ("packing check", wb_checks);

static const WbEnumValue wb_moments_values[] = {
  { WB_MOMENT_NONE,     "none",     N_ ("Not said") },
  { WB_MOMENT_PACKING,  "packing",  N_ ("While packing") },
  { WB_MOMENT_ORIGIN,   "origin",   N_ ("At origin") },
  { WB_MOMENT_STORAGE,  "storage",  N_ ("In storage") },
  { WB_MOMENT_DELIVERY, "delivery", N_ ("At delivery") },
  { WB_MOMENT_CLAIM,    "claim",    N_ ("For the claim") },
};
LIST ("moment", wb_moments);

static const WbEnumValue wb_manners_values[] = {
  { WB_MANNER_NONE,    "none",    N_ ("Not said") },
  /* Translators: a conversation by telephone. */
  { WB_MANNER_CALL,    "call",    N_ ("Call") },
  { WB_MANNER_MESSAGE, "message", N_ ("Message") },
  { WB_MANNER_EMAIL,   "e-mail",  N_ ("E-mail") },
  { WB_MANNER_LETTER,  "letter",  N_ ("Letter") },
  { WB_MANNER_VISIT,   "visit",   N_ ("Visit") },
};
LIST ("way of contact", wb_manners);

static const WbEnumValue wb_paper_kinds_values[] = {
  { WB_PAPER_NONE,             "none",             N_ ("Not chosen") },
  { WB_PAPER_ESTIMATE,         "estimate",         N_ ("Estimate") },
  { WB_PAPER_BOOKLETS,         "booklets",         N_ ("Consumer booklets") },
  { WB_PAPER_TARIFF_NOTICE,    "tariff-notice",    N_ ("Notice of the tariff") },
  { WB_PAPER_ARBITRATION,      "arbitration",      N_ ("Summary of the arbitration programme") },
  { WB_PAPER_COMPLAINTS,       "complaints",       N_ ("Summary of complaint handling") },
  { WB_PAPER_SURVEY_WAIVER,    "survey-waiver",    N_ ("Waiver of the survey") },
  { WB_PAPER_BILL_OF_LADING,   "bill-of-lading",   N_ ("Bill of lading") },
  { WB_PAPER_INVENTORY,        "inventory",        N_ ("Inventory") },
  { WB_PAPER_VALUATION,        "valuation",        N_ ("Valuation statement") },
  { WB_PAPER_HIGH_VALUE_LIST,  "high-value-list",  N_ ("List of articles of extraordinary value") },
  { WB_PAPER_INSURANCE,        "insurance",        N_ ("Insurance policy") },
  { WB_PAPER_WEIGHT_TICKET,    "weight-ticket",    N_ ("Weight ticket") },
  { WB_PAPER_DELAY_NOTICE,     "delay-notice",     N_ ("Notice of delay") },
  { WB_PAPER_STORAGE_NOTICE,   "storage-notice",   N_ ("Notice that storage in transit ends") },
  { WB_PAPER_DELIVERY_RECEIPT, "delivery-receipt", N_ ("Delivery receipt") },
  { WB_PAPER_FREIGHT_BILL,     "freight-bill",     N_ ("Freight bill") },
  { WB_PAPER_LETTER,           "letter",           N_ ("Letter") },
  { WB_PAPER_OTHER,            "other",            N_ ("Other paper") },
};
LIST ("kind of paper", wb_paper_kinds);

static const WbEnumValue wb_step_kinds_values[] = {
  { WB_STEP_NONE,           "none",           N_ ("Not chosen") },
  { WB_STEP_NOTICE,         "notice",         N_ ("Notice of loss or damage") },
  { WB_STEP_REQUEST,        "request",        N_ ("Asked for what is lacking") },
  { WB_STEP_ACKNOWLEDGED,   "acknowledged",   N_ ("Acknowledged") },
  { WB_STEP_INSPECTION,     "inspection",     N_ ("Inspection") },
  { WB_STEP_STATUS,         "status",         N_ ("Status letter") },
  { WB_STEP_OFFER,          "offer",          N_ ("Offer") },
  { WB_STEP_COUNTER_OFFER,  "counter-offer",  N_ ("Counter-offer") },
  { WB_STEP_PARTIAL_DENIAL, "partial-denial", N_ ("Partial denial") },
  { WB_STEP_DENIAL,         "denial",         N_ ("Denial") },
  { WB_STEP_RELEASE,        "release",        N_ ("Release signed") },
  { WB_STEP_REOPENED,       "reopened",       N_ ("Reopened") },
  { WB_STEP_CLOSED,         "closed",         N_ ("Closed") },
  { WB_STEP_SUIT,           "suit",           N_ ("Suit") },
  { WB_STEP_ARBITRATION,    "arbitration",    N_ ("Arbitration asked for") },
  { WB_STEP_MEDIATION,      "mediation",      N_ ("Mediation asked for") },
  { WB_STEP_TRANSFER,       "transfer",       N_ ("Handed to the government claims office") },
  { WB_STEP_OTHER,          "other",          N_ ("Other step") },
};
LIST ("kind of step", wb_step_kinds);

static const WbEnumValue wb_verdicts_values[] = {
  { WB_VERDICT_NONE,             "none",             N_ ("Not judged") },
  { WB_VERDICT_NEW,              "new",              N_ ("New since a handover") },
  { WB_VERDICT_ALREADY_THERE,    "already-there",    N_ ("Already there before") },
  { WB_VERDICT_OWNER_PACKED,     "owner-packed",     N_ ("Packed by the owner, carton sound") },
  { WB_VERDICT_MISSING_AT_COUNT, "missing-at-count", N_ ("Missing at a count") },
  { WB_VERDICT_SIGNED_CLEAN,     "signed-clean",     N_ ("Signed for without exception") },
  { WB_VERDICT_TOO_LATE,         "too-late",         N_ ("Too late") },
  { WB_VERDICT_NOT_LISTED,       "not-listed",       N_ ("Not on the inventory") },
  { WB_VERDICT_DEFENCE,          "defence",          N_ ("A recognised defence") },
  { WB_VERDICT_UNDECIDED,        "undecided",        N_ ("The papers do not say") },
};
LIST ("verdict", wb_verdicts);

static const WbEnumValue wb_quote_kinds_values[] = {
  { WB_QUOTE_NONE,        "none",        N_ ("Not chosen") },
  { WB_QUOTE_REPAIR,      "repair",      N_ ("Repair") },
  { WB_QUOTE_REPLACEMENT, "replacement", N_ ("Replacement") },
};
LIST ("kind of quote", wb_quote_kinds);

static const WbEnumValue wb_causes_values[] = {
  { WB_CAUSE_NONE,      "none",      N_ ("Not looked into") },
  { WB_CAUSE_PACKING,   "packing",   N_ ("Packing") },
  { WB_CAUSE_HANDLING,  "handling",  N_ ("Carrying and handling") },
  { WB_CAUSE_LOADING,   "loading",   N_ ("Loading and bracing") },
  { WB_CAUSE_ROAD,      "road",      N_ ("Accident on the road") },
  { WB_CAUSE_WATER,     "water",     N_ ("Water and damp") },
  { WB_CAUSE_STORAGE,   "storage",   N_ ("Storage") },
  { WB_CAUSE_ASTRAY,    "astray",    N_ ("Gone astray") },
  { WB_CAUSE_THEFT,     "theft",     N_ ("Theft") },
  { WB_CAUSE_NOT_KNOWN, "not-known", N_ ("Looked into, not known") },
};
LIST ("cause of loss", wb_causes);

static const WbEnumValue wb_defences_values[] = {
  { WB_DEFENCE_NONE,          "none",          N_ ("None") },
  { WB_DEFENCE_ACT_OF_GOD,    "act-of-god",    N_ ("Act of God") },
  { WB_DEFENCE_PUBLIC_ENEMY,  "public-enemy",  N_ ("Act of a public enemy") },
  { WB_DEFENCE_SHIPPER,       "shipper",       N_ ("Act or omission of the shipper") },
  { WB_DEFENCE_AUTHORITY,     "authority",     N_ ("Act of public authority") },
  { WB_DEFENCE_INHERENT_VICE, "inherent-vice", N_ ("Nature of the goods themselves") },
  { WB_DEFENCE_HAZARDOUS,     "hazardous",     N_ ("Perishable or dangerous, not disclosed") },
};
LIST ("defence", wb_defences);
