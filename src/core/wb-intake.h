/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"
#include "core/wb-source.h"

G_BEGIN_DECLS

/* What a paper that came in is: a claim, or what it lacks to be one. Pure; goes by what a person
 * noted of the paper in the claim's fields. The rule is 49 CFR 370.3; state rules ask for much the
 * same. */

typedef enum
{
  WB_INTAKE_NOTE,         /* a note of damage and nothing else: no claim */
  WB_INTAKE_NOTICE,       /* taken in as a notice only; the claim is still to come */
  WB_INTAKE_INCOMPLETE,   /* lacks something that makes a claim */
  WB_INTAKE_INDEFINITE,   /* lacks only a definite amount: looked into, not paid yet */
  WB_INTAKE_CLAIM,
} WbIntakeState;

extern const WbEnum wb_intake_states;

typedef enum
{
  WB_INTAKE_GAP_SHIPMENT,    /* does not identify the shipment */
  WB_INTAKE_GAP_LIABILITY,   /* does not hold the carrier liable */
  WB_INTAKE_GAP_AMOUNT,      /* demands no specified or determinable amount */
  WB_INTAKE_GAP_RECEIVED,    /* the day of receipt is not noted */
  WB_INTAKE_GAP_OTHER_CLAIM, /* somebody else claims for the same piece: ask for proof of title */
  WB_INTAKE_GAP_STATEMENT,   /* a whole piece is missing: a certified statement that it did not come
                              * from elsewhere may be asked for */
} WbIntakeGapKind;

extern const WbEnum wb_intake_gaps;

/**
 * WbIntakeGap:
 * @bars: it has to be there before anything is paid
 * @kind_of_record, @record: (nullable): what it is about besides the claim itself, held by the job
 * @citation: (nullable): not translated
 */
typedef struct
{
  WbIntakeGapKind kind;
  gboolean        bars;
  WbKind          kind_of_record;
  const char     *record;
  const char     *citation;
  WbSource        source;
} WbIntakeGap;

/**
 * wb_intake_look:
 * @gaps: (out) (transfer full) (element-type WbIntakeGap) (optional): what is lacking, what bars
 *   payment first
 * @citation: (out) (optional): the rule that makes the paper what it is
 *
 * Returns: what @claim, a claim of @job, is.
 */
WbIntakeState wb_intake_look    (const WbJob    *job,
                                 const WbClaim  *claim,
                                 GArray        **gaps,
                                 const char    **citation);

/**
 * wb_intake_find_conflict:
 *
 * 49 CFR 370.3(e): whoever claims on the same shipment is to be told of conflicting claims, and has to
 * show title. Two claims conflict when different claimants ask for the same piece, or without a piece
 * for the same thing in words.
 * Returns: (transfer none) (nullable): the first claim of the job that conflicts with @line of
 * @claim.
 */
const WbClaim *wb_intake_find_conflict (const WbJob       *job,
                                        const WbClaim     *claim,
                                        const WbClaimLine *line);

/** Whether a claim in that state may be paid: 49 CFR 370.3(a), (d). */
gboolean      wb_intake_may_pay (WbIntakeState   state);

G_END_DECLS
