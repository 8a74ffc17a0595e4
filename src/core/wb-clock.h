/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-clock-input.h"
#include "core/wb-terms.h"

G_BEGIN_DECLS

/* Clocks: the legal dates that run on a claim, by the terms. Pure; the caller says what day it
 * is. */

typedef enum
{
  WB_CLOCK_NOTICE,       /* to report loss or damage, from delivery */
  WB_CLOCK_CLAIM,        /* to file the claim, from delivery */
  WB_CLOCK_LATE_CLAIM,   /* to file a late claim that is settled at actual value, from delivery */
  WB_CLOCK_FEES,         /* to file it with a right to attorney fees, from the later of delivery and
                          * the day agreed for it: 49 USC 14708(d) */
  WB_CLOCK_ACKNOWLEDGE,  /* to acknowledge the claim, from its receipt: 49 CFR 370.5(a) */
  WB_CLOCK_DECIDE,       /* to pay, decline or offer, from its receipt: 49 CFR 370.9(a) */
  WB_CLOCK_STATUS,       /* to report why it is not decided yet, again and again: 49 CFR 370.9(a) */
  WB_CLOCK_ANSWER_AGAIN, /* to answer a claim taken up again, from that day: our reading, no rule */
  WB_CLOCK_SUIT,         /* for the claimant to sue, from a written disallowance: 49 USC 14706(e) */
  WB_CLOCK_INSPECT,      /* for the carrier to inspect, from receipt of the claim */
  WB_CLOCK_SALVAGE,      /* for the carrier to collect what it may keep, from receipt of the claim */
  WB_CLOCK_TRANSFER,     /* to settle before the claimant may hand the claim to the government's
                          * claims office, from its receipt */
  WB_CLOCK_MEDIATE,      /* for the claimant to ask for mediation, from the answer to the claim */
  WB_CLOCK_ARBITRATE,    /* to decide in arbitration, from the request: 49 USC 14708(b) */
  WB_CLOCK_BILL,         /* to present the freight bill, from actual delivery: 49 CFR 375.807 */
  WB_CLOCK_CONTEST_BILL, /* for the shipper to contest it, from the day it was given: 49 USC
                          * 13710(a)(3) */
} WbClockKind;

extern const WbEnum wb_clock_kinds;

typedef enum
{
  WB_CLOCK_NOT_STARTED,  /* the date that it runs from is not given: @last_day is unset */
  WB_CLOCK_RUNNING,
  WB_CLOCK_PAST,         /* the last day has gone by and nothing was done */
  WB_CLOCK_MET,          /* done in time */
  WB_CLOCK_MISSED,       /* done, but after the last day */
} WbClockState;

/** Whose clocks are wanted; see wb_clock_is_of_carrier(). */
typedef enum
{
  WB_CLOCK_PARTY_ALL,
  WB_CLOCK_PARTY_CARRIER,
} WbClockParty;

/**
 * WbClock:
 * @key: the key of the terms that it goes by; its citation is wb_terms_citation (terms,
 *   WB_SCOPE_GENERAL, key)
 * @period: how long it runs
 * @from: the day that it runs from, not counted; unset when not given. Of a report the day of the
 *   report before it
 * @last_day: unset when @from is
 * @done_on: when it was met or missed; else unset
 * @days_left: from today to @last_day, negative after it; only when running or past
 */
typedef struct
{
  WbClockKind  kind;
  WbClockState state;
  WbTermsKey   key;
  WbPeriod     period;
  GDate        from;
  GDate        last_day;
  GDate        done_on;
  gint         days_left;
} WbClock;

/**
 * wb_claim_clocks:
 * @claim: a claim of @job
 * @today: the day to reckon from
 *
 * The clocks that the terms set on @claim, in the order of the enum. One that the terms do not have
 * is left out, and so is one that does not concern the claim: the late claim when it came in time,
 * the reports while there is time to decide or an answer stands, another answer unless the claim was
 * taken up again, the suit unless a part was disallowed in writing (then there is one for each such
 * day), salvage that is collected or that there is none of, the transfer of a claim that was
 * transferred or is over, mediation while there is neither an answer nor the time for one past,
 * arbitration that nobody asked for, the freight bill before delivery, and to contest it before it
 * was given.
 *
 * What the claim does not say of a day its steps say (see #WbClockInput). Reports are due at the end
 * of the time to decide and again at the end of every period after it, whatever day a letter was
 * sent: it answers the day that is due, or what is past.
 * Returns: (transfer full) (element-type WbClock) (nullable): or %NULL with %WB_CORE_ERROR_RANGE
 * when a date falls outside the calendar.
 */
GArray *wb_claim_clocks (const WbTerms *terms,
                         const WbJob   *job,
                         const WbClaim *claim,
                         const GDate   *today,
                         GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** As wb_claim_clocks(), from what the clocks go by alone. @whose: whose clocks. */
GArray *wb_clocks_reckon (const WbTerms       *terms,
                          const WbClockInput  *input,
                          WbClockParty         whose,
                          const GDate         *today,
                          GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: whether the carrier has to do something about the claim until the last day of such a
 * clock; else it is the claimant's or somebody else's, or of the freight bill, which is due without
 * a claim. */
gboolean wb_clock_is_of_carrier (WbClockKind kind);

G_END_DECLS
