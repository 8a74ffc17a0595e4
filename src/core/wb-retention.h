/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"
#include "core/wb-source.h"

G_BEGIN_DECLS

/* How long a paper has to be kept. Periods in months and years keep the day and clamp to the
 * month's end, as wb_date_add_period() does. What was not found is said not to be known; nothing is
 * guessed. */

typedef enum
{
  WB_KEEP_UNTIL,        /* @until is the last day; the paper may be destroyed after it */
  WB_KEEP_NO_DATE,      /* the period is known, the day that it runs from is not noted */
  WB_KEEP_CLAIM_OPEN,   /* it supports a claim that is not settled */
  WB_KEEP_NO_RULE,      /* no period was found for this paper */
  WB_KEEP_OTHER_RULES,  /* the state's rules or the contract say it, and were not looked up */
} WbKeepState;

/** WbKeepFrom: the day that a period runs from. */
typedef enum
{
  WB_KEEP_FROM_NONE,
  WB_KEEP_FROM_MADE,
  WB_KEEP_FROM_SIGNED,
  WB_KEEP_FROM_SETTLED,  /* the last claim of the job */
} WbKeepFrom;

/**
 * WbKeep:
 * @from: which day; @from_day is unset when it is not noted
 * @until: set only for %WB_KEEP_UNTIL
 * @citation: (nullable)
 */
typedef struct
{
  WbKeepState  state;
  WbKeepFrom   from;
  GDate        from_day;
  WbPeriod     period;
  GDate        until;
  const char  *citation;
  WbSource     source;
} WbKeep;

extern const WbEnum wb_keep_states;

/**
 * wb_keep_paper:
 * @paper: a paper of @job
 *
 * Between states 49 CFR Part 375 and 49 CFR 379, Appendix A; within Pennsylvania 52 Pa. Code 31.133
 * for the inventory. A paper that supports a claim is kept for a year after the settlement, if that
 * is later. Returns: how long it has to be kept.
 */
WbKeep wb_keep_paper (const WbJob   *job,
                      const WbPaper *paper);

/** How long the file of @claim, a claim of @job, has to be kept: 49 CFR 379, Appendix A. It is
 * settled on the day of the decision or of the last payment, whichever is later. */
WbKeep wb_keep_claim (const WbJob   *job,
                      const WbClaim *claim);

G_END_DECLS
