/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"
#include "core/wb-source.h"

G_BEGIN_DECLS

/* What a job file has to hold, by when, and whether it does: the contents of the bill of lading
 * (49 CFR 375.505(b)), the papers to hand over, the signatures, the weight tickets, the notices.
 * Pure: looks at one job and a day, and says nothing in words. It refuses nothing. */

/** WbDue: by when an item has to be there. */
typedef enum
{
  WB_DUE_ESTIMATE,   /* before the estimate is given */
  WB_DUE_LOADING,    /* before the goods are loaded */
  WB_DUE_DELIVERY,   /* before they are delivered */
  WB_DUE_CLOSING,    /* before the job is closed */
} WbDue;

#define WB_N_DUES 4

typedef enum
{
  /* What decides which rules hold. */
  WB_ITEM_MOVE_TYPE,
  WB_ITEM_REGION,

  /* Before the estimate: 49 CFR 375.213, 375.401. */
  WB_ITEM_SHIPPER,
  WB_ITEM_SURVEY,
  WB_ITEM_BOOKLETS,
  WB_ITEM_TARIFF_NOTICE,
  WB_ITEM_ARBITRATION,
  WB_ITEM_COMPLAINTS,

  /* The bill of lading: 49 CFR 375.505(b). */
  WB_ITEM_CARRIER,
  WB_ITEM_CARRIER_ADDRESS,
  WB_ITEM_CARRIER_DOT,
  WB_ITEM_OTHER_CARRIERS,
  WB_ITEM_SHIPPER_ADDRESS,
  WB_ITEM_SHIPPER_PHONE,
  WB_ITEM_PICKUP_ADDRESS,
  WB_ITEM_DELIVERY_ADDRESS,
  WB_ITEM_PAYMENT_FORM,
  WB_ITEM_NOTIFY,
  WB_ITEM_SERVICE_DATES,
  WB_ITEM_GUARANTEED_DATES,
  WB_ITEM_PICKED_UP,
  WB_ITEM_VEHICLE,
  WB_ITEM_PAYMENT_TERMS,
  WB_ITEM_MINIMUM,
  WB_ITEM_MAXIMUM,
  WB_ITEM_CHOICE,
  WB_ITEM_CHOICE_SIGNATURE,
  WB_ITEM_DISCLOSURE,
  WB_ITEM_VALUATION_CHARGE,
  WB_ITEM_INSURANCE,
  WB_ITEM_SPECIAL_SERVICES,
  WB_ITEM_BILL_NUMBER,
  WB_ITEM_ESTIMATE_KIND,
  WB_ITEM_ESTIMATE_AMOUNT,
  WB_ITEM_ATTACHMENTS,

  /* Papers and signatures before loading. */
  WB_ITEM_ESTIMATE_GIVEN,
  WB_ITEM_SURVEY_WAIVER,
  WB_ITEM_BILL_SIGNED,
  WB_ITEM_INVENTORY,
  WB_ITEM_INVENTORY_SIGNED,
  WB_ITEM_VALUATION_PAPER,
  WB_ITEM_HIGH_VALUE_LIST,
  WB_ITEM_INSURANCE_PAPER,

  /* Under way. */
  WB_ITEM_WEIGHING,
  WB_ITEM_TICKET_SCALE,
  WB_ITEM_TICKET_DATE,
  WB_ITEM_TICKET_WEIGHTS,
  WB_ITEM_TICKET_VEHICLE,
  WB_ITEM_TICKET_SHIPPER,
  WB_ITEM_TICKET_BILL,
  WB_ITEM_TICKET_SIGNED,
  WB_ITEM_DELAY_NOTICE,
  WB_ITEM_STORAGE_LIMIT,
  WB_ITEM_STORAGE_NOTICE,

  /* After delivery. */
  WB_ITEM_DELIVERED,
  WB_ITEM_DELIVERY_CHECK,
  WB_ITEM_DELIVERY_RECEIPT,
  WB_ITEM_DELIVERED_WEIGHT,
  WB_ITEM_CHARGES,
  WB_ITEM_FREIGHT_BILL,
  WB_ITEM_TICKETS_FILED,
  WB_ITEM_CLOSED,
} WbItem;

#define WB_N_ITEMS (WB_ITEM_CLOSED + 1)

typedef enum
{
  WB_ITEM_STATE_THERE,
  WB_ITEM_STATE_MISSING,
  WB_ITEM_STATE_NOT_NEEDED,   /* does not concern this job: see #WbItemReason */
} WbItemState;

/** WbItemReason: what is to be said beside the state. */
typedef enum
{
  WB_ITEM_REASON_NONE,
  WB_ITEM_REASON_NOT_FEDERAL,     /* a rule for moves between states; others decide here */
  WB_ITEM_REASON_NO_OTHER,        /* no other carrier is noted */
  WB_ITEM_REASON_NOT_ASKED,       /* the shipper did not ask to be told of the charges */
  WB_ITEM_REASON_GUARANTEED,      /* the dates are guaranteed: the other item counts */
  WB_ITEM_REASON_NOT_GUARANTEED,
  WB_ITEM_REASON_RELEASED,        /* nothing is charged, nor listed, under released value */
  WB_ITEM_REASON_NO_CHOICE,       /* waits for the choice of liability */
  WB_ITEM_REASON_NOT_SOLD,        /* no insurance was sold */
  WB_ITEM_REASON_NOT_WAIVED,      /* the survey was not waived */
  WB_ITEM_REASON_NOT_LISTED,      /* no piece has a listed value */
  WB_ITEM_REASON_BINDING,         /* a binding estimate is the price, whatever it weighs */
  WB_ITEM_REASON_IN_TIME,         /* nothing is late */
  WB_ITEM_REASON_NOT_STORED,      /* no storage in transit */
  WB_ITEM_REASON_LEFT_STORAGE,    /* delivered before storage in transit ended */
  WB_ITEM_REASON_LATE_NOTICE,     /* given, but with less notice than 49 CFR 375.609 wants */
  WB_ITEM_REASON_NO_TICKET,       /* there is no ticket that could say it */
  WB_ITEM_REASON_NOT_SHORT,       /* no piece was found short */
  WB_ITEM_REASON_NOT_CLOSED,      /* the job is not closed yet */
  WB_ITEM_REASON_NOT_INTRASTATE,
} WbItemReason;

/** WbAuthority: who makes the rules for the move. */
typedef enum
{
  WB_AUTHORITY_FEDERAL,    /* 49 CFR Part 375 */
  WB_AUTHORITY_STATE,      /* the state's rules and the carrier's tariff */
  WB_AUTHORITY_MILITARY,   /* the department's rules and the contract */
  WB_AUTHORITY_UNKNOWN,    /* the kind of move is not chosen, or is another */
} WbAuthority;

/**
 * WbChecklistEntry:
 * @citation: (nullable): the rule, for a move between states; %NULL for mere practice
 * @id: (nullable): where to go: record @id of @kind; %NULL when there is none yet, or @kind has
 *   only one. Belongs to the job
 * @field: (nullable): name of the field there; %NULL for the records of @kind as such
 * @paper: when @kind is %WB_KIND_PAPER and @id is %NULL: the paper that is missing
 */
typedef struct
{
  WbItem        item;
  WbDue         due;
  WbItemState   state;
  WbItemReason  reason;
  const char   *citation;
  WbSource      source;
  WbKind        kind;
  const char   *id;
  const char   *field;
  WbPaperKind   paper;
} WbChecklistEntry;

extern const WbEnum wb_dues, wb_items, wb_item_states;

/**
 * wb_checklist:
 * @today: (nullable): the day to look from; %NULL leaves out what is late without having happened
 *
 * Every item in the order of #WbItem; those of a weight ticket once for each ticket. Returns:
 * (transfer full) (element-type WbChecklistEntry): for as long as @job lives.
 */
GArray      *wb_checklist           (const WbJob            *job,
                                     const GDate            *today) G_GNUC_WARN_UNUSED_RESULT;

/** By when an item is due in a job of @stage, at the latest: what is due earlier is due too. */
WbDue        wb_checklist_due       (WbStage                 stage);

/** Whether @entry is missing and due by the stage that @job is in. Never in a cancelled job. */
gboolean     wb_checklist_is_urgent (const WbJob            *job,
                                     const WbChecklistEntry *entry);

WbAuthority  wb_order_authority     (const WbOrder          *order);

/** Returns: (transfer none) (nullable): the first party of @role in the job's order. */
const WbParty *wb_job_party         (const WbJob            *job,
                                     WbRole                  role);
/** Returns: (transfer none) (nullable): the last paper of @kind in the job's order. */
const WbPaper *wb_job_paper         (const WbJob            *job,
                                     WbPaperKind             kind);

G_END_DECLS
