/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Worked examples that others published, or that follow from a rule that was read: their
 * figures, not ours. Each row names its source and how far that was checked. The tables stand in
 * examples-*.c, test-examples.c works them out. */
#pragma once

#include "core/wb-clock.h"
#include "core/wb-collectable.h"
#include "core/wb-intake.h"
#include "core/wb-reckoning.h"

/** How far the source of an example was checked. */
typedef enum
{
  MARK_SEEN,       /* result and rule were read in the source */
  MARK_SEEN_COPY,  /* read where somebody reprints the source */
  MARK_SECONDARY,  /* read on a page that only tells of it */
  MARK_DERIVED,    /* arithmetic of our own from a rule that was read */
  MARK_MEMORY,     /* arithmetic of our own from a rule that nobody read for this table */
  MARK_PRACTICE,   /* common practice without a source */
} Mark;

/**
 * Origin:
 * @number: of the example, 1 to 40, with a letter for further cases of it; or a letter first where
 *   an example of another section was made a row
 */
typedef struct
{
  const char *number;
  const char *title;
  const char *source;
  Mark        mark;
} Origin;

#define N_NUMBERED 40

/* Amounts, weights and dates are written as a person writes them; NULL is not given. */

/** One claimed thing on a piece of its own. */
typedef struct
{
  WbLoss      loss;
  WbForm      form;
  const char *weight;        /* of the piece */
  const char *own_weight;    /* of the thing */
  const char *volume;        /* of the piece */
  const char *listed;
  const char *replacement;
  const char *repair;
  const char *salvage;
  const char *demanded;
  const char *age;
  const char *yearly;
  const char *flat;
  const char *least;
  gboolean    set_mate;
  gboolean    salvage_taken;
  WbRuling    ruling;
  WbDefence   defence;
  guint       copies;        /* 0 is 1 */
} ExampleLine;

#define EXAMPLE_MAX_LINES 3

/** A claim, or only the limit of a shipment, through the reckoning. */
typedef struct
{
  Origin      origin;
  const char *terms;
  const char *picked_up;
  const char *delivered;
  const char *received;
  WbChoice    choice;
  gboolean    unsigned_waiver;
  const char *declared;
  const char *deductible;
  gboolean    list_signed;
  const char *net;
  const char *gross;
  const char *tare;
  const char *reweighed;     /* net */
  const char *volume;
  const char *other_paid;    /* on another claim for the same shipment */
  const char *other_bore;    /* of the deductible with it */
  const char *freight;       /* NULL is none, so that nothing is refunded */
  const char *other;
  ExampleLine lines[EXAMPLE_MAX_LINES];
  WbSide      side;          /* that the results are of */
  gboolean    applies;       /* and that governs the shipment */
  const char *limit;
  const char *owed;
  const char *refund;
} ClaimExample;

/** The charge for a choice. */
typedef struct
{
  Origin      origin;
  const char *terms;
  const char *picked_up;
  const char *declared;
  const char *deductible;
  const char *charge;
} ChargeExample;

/** What may be collected at delivery. */
typedef struct
{
  Origin         origin;
  WbEstimateKind kind;
  const char    *estimate;
  const char    *requested;
  const char    *impracticable;
  const char    *valuation;
  const char    *delivered;
  const char    *shipped;
  gboolean       shipper_caused;
  const char    *charged;
  const char    *maximum;
  const char    *later;
} CollectExample;

/** The service charge on a late bill. */
typedef struct
{
  Origin      origin;
  const char *bill;
  guint       extensions;
  const char *charge;
} LateExample;

typedef enum { NET_OF_VOLUME, NET_OF_CRATED, NET_OF_CONTAINERS } NetHow;

/** A net weight that was not weighed. */
typedef struct
{
  Origin      origin;
  NetHow      how;
  const char *first;         /* volume, or gross weight */
  const char *second;        /* weight of a cubic foot, or of the containers */
  const char *net;
} NetExample;

/** One legal date of a claim. */
typedef struct
{
  Origin      origin;
  const char *terms;
  const char *picked_up;
  const char *promised;      /* last day agreed for delivery */
  const char *delivered;
  const char *received;
  const char *declined;
  WbStepKind  step;
  const char *step_on;
  gboolean    salvage;       /* something waits to be collected */
  const char *today;
  WbClockKind clock;
  const char *last_day;      /* NULL: the clock does not run */
} ClockExample;

/** A period from a day. */
typedef struct
{
  Origin      origin;
  const char *from;
  const char *period;
  const char *last_day;
} PeriodExample;

/** What a paper is. */
typedef struct
{
  Origin        origin;
  gboolean      shipment;    /* what it says */
  gboolean      liability;
  gboolean      amount;
  WbIntakeState state;
  gboolean      payable;
} IntakeExample;

/** What no row can say yet. @number: (nullable): as in #Origin */
typedef struct
{
  const char *number;
  const char *title;
  const char *source;
  const char *reason;
} LeftOut;

extern const ClaimExample claim_examples[];
extern const ChargeExample charge_examples[];
extern const CollectExample collect_examples[];
extern const LateExample late_examples[];
extern const NetExample net_examples[];
extern const ClockExample clock_examples[];
extern const PeriodExample period_examples[];
extern const IntakeExample intake_examples[];
extern const LeftOut left_out[];

extern const gsize n_claim_examples, n_charge_examples, n_collect_examples, n_late_examples,
                   n_net_examples, n_clock_examples, n_period_examples, n_intake_examples,
                   n_left_out;
