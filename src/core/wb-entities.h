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
               WB_ROLE_HAULER, WB_ROLE_WAREHOUSE, WB_ROLE_CONTACT, WB_ROLE_NOTIFY } WbRole;
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
typedef enum { WB_SURVEY_NONE, WB_SURVEY_ON_SITE, WB_SURVEY_VIRTUAL, WB_SURVEY_BEYOND,
               WB_SURVEY_WAIVED } WbSurvey;
typedef enum { WB_DISASSEMBLY_NONE, WB_DISASSEMBLY_BY_CARRIER,
               WB_DISASSEMBLY_BY_OWNER } WbDisassembly;
typedef enum { WB_COUNT_AS_LISTED, WB_COUNT_UNDER_WAY, WB_COUNT_FINISHED } WbCount;
typedef enum { WB_CHECK_OPEN, WB_CHECK_MET, WB_CHECK_UNMET } WbCheck;
typedef enum { WB_MOMENT_NONE, WB_MOMENT_PACKING, WB_MOMENT_ORIGIN, WB_MOMENT_STORAGE,
               WB_MOMENT_DELIVERY, WB_MOMENT_CLAIM } WbMoment;
typedef enum { WB_MANNER_NONE, WB_MANNER_CALL, WB_MANNER_MESSAGE, WB_MANNER_EMAIL, WB_MANNER_LETTER,
               WB_MANNER_VISIT } WbManner;
typedef enum { WB_PAPER_NONE, WB_PAPER_ESTIMATE, WB_PAPER_BOOKLETS, WB_PAPER_TARIFF_NOTICE,
               WB_PAPER_ARBITRATION, WB_PAPER_COMPLAINTS, WB_PAPER_SURVEY_WAIVER,
               WB_PAPER_BILL_OF_LADING, WB_PAPER_INVENTORY, WB_PAPER_VALUATION,
               WB_PAPER_HIGH_VALUE_LIST, WB_PAPER_INSURANCE, WB_PAPER_WEIGHT_TICKET,
               WB_PAPER_DELAY_NOTICE, WB_PAPER_STORAGE_NOTICE, WB_PAPER_DELIVERY_RECEIPT,
               WB_PAPER_FREIGHT_BILL, WB_PAPER_LETTER, WB_PAPER_OTHER } WbPaperKind;
typedef enum { WB_STEP_NONE, WB_STEP_NOTICE, WB_STEP_REQUEST, WB_STEP_ACKNOWLEDGED,
               WB_STEP_INSPECTION, WB_STEP_STATUS, WB_STEP_OFFER, WB_STEP_COUNTER_OFFER,
               WB_STEP_PARTIAL_DENIAL, WB_STEP_DENIAL, WB_STEP_RELEASE, WB_STEP_REOPENED,
               WB_STEP_CLOSED, WB_STEP_SUIT, WB_STEP_ARBITRATION, WB_STEP_MEDIATION,
               WB_STEP_TRANSFER, WB_STEP_OTHER } WbStepKind;
typedef enum { WB_VERDICT_NONE, WB_VERDICT_NEW, WB_VERDICT_ALREADY_THERE, WB_VERDICT_OWNER_PACKED,
               WB_VERDICT_MISSING_AT_COUNT, WB_VERDICT_SIGNED_CLEAN, WB_VERDICT_TOO_LATE,
               WB_VERDICT_NOT_LISTED, WB_VERDICT_DEFENCE, WB_VERDICT_UNDECIDED } WbVerdict;
typedef enum { WB_QUOTE_NONE, WB_QUOTE_REPAIR, WB_QUOTE_REPLACEMENT } WbQuoteKind;
typedef enum { WB_CAUSE_NONE, WB_CAUSE_PACKING, WB_CAUSE_HANDLING, WB_CAUSE_LOADING, WB_CAUSE_ROAD,
               WB_CAUSE_WATER, WB_CAUSE_STORAGE, WB_CAUSE_ASTRAY, WB_CAUSE_THEFT,
               WB_CAUSE_NOT_KNOWN } WbCause;
typedef enum { WB_DEFENCE_NONE, WB_DEFENCE_ACT_OF_GOD, WB_DEFENCE_PUBLIC_ENEMY, WB_DEFENCE_SHIPPER,
               WB_DEFENCE_AUTHORITY, WB_DEFENCE_INHERENT_VICE, WB_DEFENCE_HAZARDOUS } WbDefence;

extern const WbEnum wb_stages, wb_move_types, wb_estimate_kinds, wb_roles, wb_stop_kinds,
                    wb_weighing_kinds, wb_forms, wb_packed_by, wb_handover_kinds, wb_founds,
                    wb_choices, wb_signed, wb_claim_statuses, wb_losses, wb_rulings, wb_surveys,
                    wb_disassembly, wb_counts, wb_checks, wb_moments, wb_manners, wb_paper_kinds,
                    wb_step_kinds, wb_verdicts, wb_quote_kinds, wb_causes, wb_defences;

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
  char           *coordinator;         /* who runs the job in the office */
  WbSurvey        survey;
  WbMoney         per_diem;            /* guaranteed service: owed to the shipper */
  WbMoney         minimum_charge;
  WbWeight        minimum_weight;
  char           *payment_terms;
  char           *special_services;    /* packing, shuttle, long carry … */
  WbMoney         requested_charge;    /* collectable at delivery: 49 CFR 375.703 */
  WbMoney         impracticable_charge; /* collectable within a limit: 49 CFR 375.703 */
  WbWeight        delivered_weight;    /* when a part was lost: 49 CFR 375.707(b) */
  gboolean        notify_charges;
  char           *insurance;           /* insurer and policy */
  WbMoney         insurance_premium;
  gint64          storage_days;        /* from the tariff or the contract */
  GDate           storage_notice_on;   /* 49 CFR 375.609 */
  GDate           closed_on;
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
  char     *high_value_signed_by;
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
  WbMoney   claim_limit;               /* by its agreement with the carrier */
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
  GDate       until;                   /* last day of the window that starts on @on */
  char       *hours;                   /* "8-12" */
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
  char           *shipper_name;        /* 49 CFR 375.519 */
  char           *bill_number;
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
  WbRecord       record;
  char          *lot;                  /* reference */
  gint64         tag;
  WbForm         form;
  char          *carton;               /* kind of carton, catalog nick or plain words */
  char          *description;
  char          *contents;
  char          *room;
  WbPackedBy     packed_by;
  char          *packer;               /* who packed it, by name */
  char          *marks;                /* condition at origin */
  WbWeight       weight;
  WbVolume       volume;
  char          *article;              /* pieces with the same text are parts of one article */
  char          *serial_number;
  WbMoney        listed_value;         /* value on the signed list of valuable articles */
  char          *checked_by;           /* who looked at the packing */
  GDate          packed_on;
  gint64         quantity;             /* things under this tag */
  char          *set;                  /* pieces with the same text make a pair or a set */
  WbDisassembly  disassembly;
  char          *notes;
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
  char           *vehicle;
  WbCount         count;
  char           *counted_by;
  char           *crew;                /* who carried and loaded, by name */
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
  gboolean       notice_only;
  WbMoney        reserve;              /* set aside by the office */
  GDate          inspected_on;
  char          *notes;
} WbClaim;

/** One thing that is claimed. What the reckoning reads of every line stands together at the top, so
 * that it goes quickly through many. */
typedef struct
{
  WbRecord   record;
  char      *claim;                    /* reference */
  gint64     number;                   /* line number in the claim, unique in it */
  char      *piece;                    /* reference; NULL when it is not on the inventory */
  char      *item;                     /* what is claimed: "dinner plates, 4 of 12" */
  WbLoss     loss;
  WbRuling   ruling;
  gboolean   set_mate;                 /* claimed because its set was broken */
  gboolean   salvage_taken;            /* then it does not lower what is owed */
  WbMoney    demanded;
  WbMoney    replacement;              /* cost of a like article today */
  WbMoney    repair;                   /* cost to restore */
  WbMoney    appearance;               /* allowance for what still shows; added to the repair */
  WbMoney    salvage;                  /* value of what the customer keeps */
  WbWeight   weight;                   /* of the claimed thing itself */
  gint64     age_years;
  gint64     depreciation_yearly;      /* percent a year of age */
  gint64     depreciation_flat;        /* percent whatever the age; goes before the yearly one */
  gint64     depreciation_least;       /* taken when age gives less */
  char      *salvage_lot;              /* 49 CFR 370.11 */
  WbMoney    salvage_sold;
  GDate      salvage_on;
  char      *category;                 /* nick in the depreciation table */
  WbVerdict  proposed;                 /* what the evidence proposed when it was judged */
  WbVerdict  verdict;                  /* the adjuster's */
  char      *verdict_reason;
  char      *ruling_reason;
  WbCause    cause;
  WbDefence  defence;                  /* of the carrier, that the ruling rests on */
  char      *notes;
} WbClaimLine;

/** Money paid to the customer on a claim. */
typedef struct
{
  WbRecord  record;
  char     *claim;                     /* reference */
  char     *claim_line;                /* reference; when it was paid for that line alone */
  GDate     on;
  WbMoney   amount;
  WbMoney   deductible_taken;          /* part of the deductible held back with it */
  WbMoney   freight_refund;            /* not counted against the shipment's limit */
  char     *notes;
} WbPayment;

/** One line of the list of what a carton holds. */
typedef struct
{
  WbRecord  record;
  char     *piece;                     /* reference */
  char     *description;
  gint64    quantity;
  WbMoney   value;
  WbWeight  weight;
  char     *notes;
} WbThing;

/** How one packing rule was kept at one piece; the rules stand in the catalogue of cartons. */
typedef struct
{
  WbRecord  record;
  char     *piece;                     /* reference */
  char     *rule;                      /* nick in the catalogue of cartons */
  WbCheck   state;
  char     *by;
  GDate     on;
  char     *notes;
} WbPackingCheck;

/** One picture. The file itself is kept beside the book under its hash; what the camera wrote and
 * when the office took the file in are kept apart. */
typedef struct
{
  WbRecord  record;
  char     *hash;                      /* 64 lower-case hexadecimal digits */
  char     *name;                      /* as it was when taken in */
  char     *media_type;                /* "image/jpeg" */
  gint64    size;                      /* bytes */
  gint64    width;                     /* pixels, as stored */
  gint64    height;
  gint64    orientation;               /* Exif, 1 to 8 */
  char     *taken_at;                  /* local time by the camera: "2026-03-04T09:30:00" */
  char     *taken_offset;              /* "+02:00" */
  char     *camera;
  char     *imported_at;               /* UTC: "2026-03-05T08:00:00Z" */
  WbMoment  moment;
  char     *piece;                     /* reference */
  char     *handover;                  /* reference */
  char     *caption;
  char     *notes;
} WbPhoto;

/** A place on a photo, tied to a mark. */
typedef struct
{
  WbRecord  record;
  char     *photo;                     /* reference */
  char     *piece;                     /* reference; when it is another than the photo's */
  gint64    x;                         /* hundredths of a percent of the upright picture's width */
  gint64    y;                         /* as @x */
  char     *marks;
  char     *notes;
} WbPin;

/** How many of one carton or material were planned and used. */
typedef struct
{
  WbRecord  record;
  char     *item;                      /* nick in the catalogue or plain words */
  gint64    planned;
  gint64    used;
  char     *notes;
} WbMaterial;

/** One conversation about the job. */
typedef struct
{
  WbRecord  record;
  GDate     on;
  char     *at;                        /* "14:05" */
  WbManner  manner;
  char     *who;
  char     *by;
  gboolean  complaint;                 /* 49 CFR 375.209 */
  char     *subject;
  char     *text;
} WbContact;

/** A paper of the job: made, given, signed, filed. */
typedef struct
{
  WbRecord     record;
  WbPaperKind  kind;
  char        *number;
  GDate        made_on;
  GDate        given_on;
  char        *signed_by;
  GDate        signed_on;
  char        *carrier_signed_by;
  char        *filed;
  char        *notes;
} WbPaper;

/** The tags of one lot that were counted off at one handover. */
typedef struct
{
  WbRecord  record;
  char     *handover;                  /* reference */
  char     *lot;                       /* reference; NULL for pieces without a lot */
  char     *tags;                      /* ranges: "1-40, 42, 57" */
  char     *notes;
} WbTally;

/** One step of a claim, dated and kept. */
typedef struct
{
  WbRecord    record;
  char       *claim;                   /* reference */
  WbStepKind  kind;
  GDate       on;
  WbMoney     amount;
  char       *who;
  char       *by;
  char       *frozen;                  /* SHA-256 of the reckoning that was sent */
  char       *letter;                  /* SHA-256 of the text of the letter that was sent */
  char       *text;
} WbClaimStep;

/** What a repairer or seller asks. */
typedef struct
{
  WbRecord     record;
  char        *claim_line;             /* reference */
  WbQuoteKind  kind;
  char        *source;
  GDate        on;
  WbMoney      amount;
  gboolean     taken;
  char        *notes;
} WbQuote;

/** What one handler bears of one line, set by hand. */
typedef struct
{
  WbRecord  record;
  char     *claim_line;                /* reference */
  char     *handler;                   /* as the handovers name it */
  gint64    percent;
  char     *reason;
} WbShare;

/** What a handler is asked to bear of a claim, followed to payment. */
typedef struct
{
  WbRecord  record;
  char     *claim;                     /* reference */
  char     *handler;                   /* as the handovers name it */
  WbMoney   amount;
  GDate     stated_on;
  char     *statement;                 /* the charge statement, word for word as it was made out */
  WbMoney   recovered;
  GDate     recovered_on;
  char     *notes;
} WbHandlerCharge;

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
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbThing, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbPackingCheck, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbPhoto, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbPin, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbMaterial, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbContact, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbPaper, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbTally, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbClaimStep, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbQuote, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbShare, wb_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbHandlerCharge, wb_record_unref)

G_END_DECLS
