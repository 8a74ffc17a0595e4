/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-record.h"

G_BEGIN_DECLS

/* The records of a job, one struct a kind. What a field means, its type and its label stand in
 * wb-entities.c, in the same order. Money is in the job's currency; dates are civil dates. */

/* --- closed lists ----------------------------------------------------------------------------- */

typedef enum { WB_STAGE_INQUIRY, WB_STAGE_BOOKED, WB_STAGE_PACKED, WB_STAGE_ON_THE_ROAD,
               WB_STAGE_IN_STORAGE, WB_STAGE_DELIVERED, WB_STAGE_CLOSED,
               WB_STAGE_CANCELLED } WbStage;
typedef enum { WB_MOVE_NONE, WB_MOVE_INTERSTATE, WB_MOVE_INTRASTATE, WB_MOVE_MILITARY,
               WB_MOVE_OTHER } WbMoveType;
typedef enum { WB_ESTIMATE_NONE, WB_ESTIMATE_BINDING, WB_ESTIMATE_NON_BINDING } WbEstimateKind;
typedef enum { WB_ROLE_NONE, WB_ROLE_SHIPPER, WB_ROLE_CONSIGNEE, WB_ROLE_PAYER, WB_ROLE_CARRIER,
               WB_ROLE_BOOKING_AGENT, WB_ROLE_ORIGIN_AGENT, WB_ROLE_DESTINATION_AGENT,
               WB_ROLE_HAULER, WB_ROLE_WAREHOUSE, WB_ROLE_CONTACT } WbRole;
typedef enum { WB_STOP_NONE, WB_STOP_PICKUP, WB_STOP_EXTRA_PICKUP, WB_STOP_WAREHOUSE,
               WB_STOP_EXTRA_DELIVERY, WB_STOP_DELIVERY } WbStopKind;
typedef enum { WB_WEIGHING_NONE, WB_WEIGHING_FIRST, WB_WEIGHING_REWEIGH,
               WB_WEIGHING_CONSTRUCTIVE } WbWeighingKind;
typedef enum { WB_FORM_CARTON, WB_FORM_LOOSE, WB_FORM_CRATE } WbForm;
typedef enum { WB_PACKED_UNKNOWN, WB_PACKED_BY_CARRIER, WB_PACKED_BY_OWNER } WbPackedBy;
typedef enum { WB_HANDOVER_NONE, WB_HANDOVER_PICKUP, WB_HANDOVER_INTO_STORAGE,
               WB_HANDOVER_OUT_OF_STORAGE, WB_HANDOVER_TRANSFER,
               WB_HANDOVER_DELIVERY } WbHandoverKind;
typedef enum { WB_FOUND_PRESENT, WB_FOUND_SHORT, WB_FOUND_OVER } WbFound;
typedef enum { WB_CHOICE_NONE, WB_CHOICE_RELEASED, WB_CHOICE_FULL } WbChoice;
typedef enum { WB_SIGNED_NOT, WB_SIGNED_ON_PAPER, WB_SIGNED_ELECTRONICALLY } WbSigned;
typedef enum { WB_CLAIM_OPEN, WB_CLAIM_OFFERED, WB_CLAIM_SETTLED, WB_CLAIM_DECLINED,
               WB_CLAIM_CLOSED } WbClaimStatus;
typedef enum { WB_LOSS_NONE, WB_LOSS_MISSING, WB_LOSS_DESTROYED, WB_LOSS_DAMAGED } WbLoss;
typedef enum { WB_RULING_OPEN, WB_RULING_ALLOWED, WB_RULING_DENIED } WbRuling;

extern const WbEnum wb_stages, wb_move_types, wb_estimate_kinds, wb_roles, wb_stop_kinds,
                    wb_weighing_kinds, wb_forms, wb_packed_by, wb_handover_kinds, wb_founds,
                    wb_choices, wb_signed, wb_claim_statuses, wb_losses, wb_rulings;

/* --- records ---------------------------------------------------------------------------------- */

/** The order: what was agreed, when, and for how much. One a job. */
typedef struct
{
  WbRecord        record;
  char           *number;              /* job number, unique in the book */
  char           *bill_number;         /* bill of lading */
  WbStage         stage;
  WbMoveType      move_type;
  char           *region;              /* state whose rules govern an intrastate move: "WA" */
  char           *terms;               /* regime id, when a person chose it */
  GDate           booked_on;
  GDate           survey_on;
  GDate           pack_on;
  GDate           pickup_from;
  GDate           pickup_to;
  GDate           picked_up_on;        /* actual */
  GDate           delivery_from;
  GDate           delivery_to;
  GDate           delivered_on;        /* actual */
  gboolean        guaranteed;          /* guaranteed service dates */
  GDate           storage_from;        /* storage in transit */
  GDate           storage_to;
  WbEstimateKind  estimate_kind;
  WbMoney         estimate;
  GDate           estimated_on;
  WbWeight        estimated_weight;
  WbVolume        volume;              /* of the whole shipment, surveyed or loaded */
  WbMoney         freight_charge;      /* transportation charges, the base of a freight refund */
  WbMoney         other_charge;        /* accessorials */
  char           *payment_form;        /* honoured at delivery */
  char           *vehicle;             /* identification of the vehicle loaded */
  char           *notes;
} WbOrder;

/** The customer's choice of liability. One a job. */
typedef struct
{
  WbRecord  record;
  WbChoice  choice;
  WbMoney   declared_value;
  WbMoney   deductible;
  WbMoney   charge;                    /* for valuation; never refunded */
  char     *signed_by;
  GDate     signed_on;
  WbSigned  signed_how;
  char     *disclosure;                /* which disclosure of the two choices was given */
  gboolean  high_value_list;           /* the shipper signed a list of valuable articles */
  GDate     high_value_signed_on;
  char     *notes;
} WbValuation;

typedef struct
{
  WbRecord  record;
  WbRole    role;
  char     *name;
  char     *company;
  char     *phone;
  char     *email;
  char     *street;
  char     *city;
  char     *region;
  char     *postal_code;
  char     *country;
  char     *dot_number;                /* US DOT number of a carrier */
  char     *notes;
} WbParty;

typedef struct
{
  WbRecord    record;
  WbStopKind  kind;
  char       *name;
  char       *street;
  char       *city;
  char       *region;
  char       *postal_code;
  char       *country;
  char       *phone;
  GDate       on;
  char       *access;                  /* stairs, lift, long carry, shuttle */
} WbStop;

typedef struct
{
  WbRecord        record;
  WbWeighingKind  kind;
  GDate           on;
  char           *scale;               /* name and place of the certified scale */
  char           *ticket;
  char           *vehicle;
  WbWeight        gross;
  WbWeight        tare;
  WbWeight        net;                 /* as on the ticket; gross − tare when all are given */
  char           *weighed_by;
} WbWeighing;

/** One roll of tags. */
typedef struct
{
  WbRecord  record;
  char     *colour;
  char     *number;
  gint64    first;
  gint64    last;
} WbLot;

/** A carton or a loose piece: one line of the inventory, one tag. */
typedef struct
{
  WbRecord    record;
  char       *lot;                     /* reference */
  gint64      tag;
  WbForm      form;
  char       *carton;                  /* kind of carton, catalog nick or plain words */
  char       *description;
  char       *contents;
  char       *room;
  WbPackedBy  packed_by;
  char       *packer;                  /* who packed it, by name */
  char       *marks;                   /* condition at origin */
  WbWeight    weight;
  WbVolume    volume;
  char       *article;                 /* pieces with the same text are parts of one article */
  char       *serial_number;
  WbMoney     listed_value;            /* value on the signed list of valuable articles */
  char       *notes;
} WbPiece;

/** One change of hands. Their order in the job is their order in time. */
typedef struct
{
  WbRecord        record;
  WbHandoverKind  kind;
  GDate           on;
  char           *place;
  char           *from_holder;
  char           *to_holder;
  char           *from_signed;         /* who signed for it; NULL when nobody did */
  char           *to_signed;
  char           *notes;
} WbHandover;

/** What was noted about one piece at one handover; a piece without a finding was counted in good
 * order. */
typedef struct
{
  WbRecord  record;
  char     *handover;                  /* reference */
  char     *piece;                     /* reference */
  WbFound   found;
  char     *marks;                     /* new marks */
  char     *notes;
} WbFinding;

typedef struct
{
  WbRecord       record;
  char          *number;               /* claim file number, unique in the book */
  WbClaimStatus  status;
  GDate          received_on;
  char          *claimant;
  gboolean       identifies_shipment;  /* the three things 49 CFR 370.3(b) asks of a claim */
  gboolean       asserts_liability;
  gboolean       states_amount;
  GDate          acknowledged_on;
  GDate          decided_on;
  char          *notes;
} WbClaim;

typedef struct
{
  WbRecord  record;
  char     *claim;                     /* reference */
  gint64    number;                    /* line number in the claim, unique in it */
  char     *piece;                     /* reference; NULL when it is not on the inventory */
  char     *item;                      /* what is claimed: "dinner plates, 4 of 12" */
  WbLoss    loss;
  WbMoney   demanded;
  WbMoney   replacement;               /* cost of a like article today */
  WbMoney   repair;                    /* cost to restore */
  WbMoney   appearance;                /* allowance for what still shows; added to the repair */
  WbMoney   salvage;                   /* value of what the customer keeps */
  WbWeight  weight;                    /* of the claimed thing itself */
  gint64    age_years;
  gint64    depreciation_yearly;       /* percent a year of age */
  gint64    depreciation_flat;         /* percent whatever the age; goes before the yearly one */
  WbRuling  ruling;
  char     *ruling_reason;
  char     *notes;
} WbClaimLine;

/** Money paid to the customer on a claim. */
typedef struct
{
  WbRecord  record;
  char     *claim;                     /* reference */
  GDate     on;
  WbMoney   amount;
  WbMoney   deductible_taken;          /* part of the deductible held back with it */
  char     *notes;
} WbPayment;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbOrder, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbValuation, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbParty, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbStop, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbWeighing, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbLot, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbPiece, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbHandover, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbFinding, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbClaim, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbClaimLine, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbPayment, wb_record_unref)

G_END_DECLS
