/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the checklist share: the row of the table, and what looks at a job for it. */
#pragma once

#include "core/wb-checklist.h"

G_BEGIN_DECLS

typedef struct _WbItemRule WbItemRule;

/** WbItemLook: one look at a job. */
typedef struct
{
  const WbJob      *job;
  const GDate      *today;   /* (nullable) */
  const WbItemRule *rule;
  GArray           *out;     /* of WbChecklistEntry */
} WbItemLook;

/** Which moves an item is for. */
typedef enum
{
  WB_REACH_ALL,
  WB_REACH_CIVIL,     /* not those of the Department of Defense: it chooses, and pays */
  WB_REACH_FEDERAL,   /* between states; and while the kind of move is not known */
} WbReach;

/** What a paper has to say of itself (flags). */
typedef enum
{
  WB_PAPER_PART_MADE           = 1 << 0,
  WB_PAPER_PART_GIVEN          = 1 << 1,
  WB_PAPER_PART_SIGNED         = 1 << 2,   /* by whom for the shipper, and when */
  WB_PAPER_PART_CARRIER_SIGNED = 1 << 3,
  WB_PAPER_PART_FILED          = 1 << 4,
} WbPaperPart;

/**
 * WbItemRule: one row of the table
 * @look: puts the item's entry, or one for each ticket, into the list
 * @kind: for wb_look_field() and wb_look_party(): record
 * @which: for wb_look_party() the role, for wb_look_stop() the kind of stop, for wb_look_paper()
 *   the kind of paper
 * @field: name of the field that has to be set; %NULL where @look knows it
 * @parts: WbPaperPart flags
 */
struct _WbItemRule
{
  WbItem       item;
  WbDue        due;
  WbReach      reach;
  WbSource     source;
  const char  *citation;
  void       (*look) (const WbItemLook *look);
  WbKind       kind;
  int          which;
  const char  *field;
  guint        parts;
};

void wb_look_put              (const WbItemLook *look,
                               WbItemState       state,
                               WbItemReason      reason,
                               WbKind            kind,
                               const char       *id,
                               const char       *field);

/* Looks of the usual kinds. */
void wb_look_field            (const WbItemLook *look);
void wb_look_party            (const WbItemLook *look);
void wb_look_stop             (const WbItemLook *look);
void wb_look_paper            (const WbItemLook *look);
void wb_look_ticket           (const WbItemLook *look);

/* Looks at what takes more than one field. */
void wb_look_region           (const WbItemLook *look);
void wb_look_shipper          (const WbItemLook *look);
void wb_look_carrier          (const WbItemLook *look);
void wb_look_other_carriers   (const WbItemLook *look);
void wb_look_notify           (const WbItemLook *look);
void wb_look_survey           (const WbItemLook *look);
void wb_look_survey_waiver    (const WbItemLook *look);
void wb_look_service_dates    (const WbItemLook *look);
void wb_look_guaranteed_dates (const WbItemLook *look);
void wb_look_minimum          (const WbItemLook *look);
void wb_look_maximum          (const WbItemLook *look);
void wb_look_signature        (const WbItemLook *look);
void wb_look_disclosure       (const WbItemLook *look);
void wb_look_valuation_charge (const WbItemLook *look);
void wb_look_valuation_paper  (const WbItemLook *look);
void wb_look_high_value       (const WbItemLook *look);
void wb_look_insurance        (const WbItemLook *look);
void wb_look_insurance_paper  (const WbItemLook *look);
void wb_look_attachments      (const WbItemLook *look);
void wb_look_inventory        (const WbItemLook *look);
void wb_look_weighing         (const WbItemLook *look);
void wb_look_ticket_weights   (const WbItemLook *look);
void wb_look_tickets_filed    (const WbItemLook *look);
void wb_look_delay            (const WbItemLook *look);
void wb_look_storage_limit    (const WbItemLook *look);
void wb_look_storage_notice   (const WbItemLook *look);
void wb_look_delivery_check   (const WbItemLook *look);
void wb_look_delivered_weight (const WbItemLook *look);
void wb_look_closed           (const WbItemLook *look);

G_END_DECLS
