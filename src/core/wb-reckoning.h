/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"
#include "core/wb-terms.h"

G_BEGIN_DECLS

/* What a carrier owes on a claim, under both choices in one pass, with every step that led to it.
 * Pure: the same terms, job and claim give the same bytes. All amounts are minor units of the job's
 * currency. */

/** The rules, in the order in which they are applied; the table in wb-reckon.c says which base each
 * step uses. */
typedef enum
{
  WB_RULE_TERMS,            /* which regime and edition governs */
  WB_RULE_CHOICE,           /* which side applies: the signed choice, or the default */
  WB_RULE_FILING,           /* claim received against the last day to claim */
  WB_RULE_LATE,             /* what the terms make of a late claim */
  WB_RULE_SILENT,           /* the terms do not say; what is taken */
  WB_RULE_SHIPMENT_WEIGHT,  /* governing weight and its source */
  WB_RULE_MINIMUM_VALUE,    /* rate × weight, not under the minimum */
  WB_RULE_DECLARED_VALUE,   /* declared value against the minimum */
  WB_RULE_MAXIMUM_VALUE,    /* shipment limit cut to the maximum */
  WB_RULE_EARLIER_PAYMENTS, /* limit left after other claims on the shipment */
  WB_RULE_DEDUCTIBLE_LEFT,  /* deductible less what earlier claims bore */
  WB_RULE_MISSING_FIGURE,   /* a figure is not there: what needs it is not reckoned */
  WB_RULE_REPLACEMENT,      /* value is the replacement cost */
  WB_RULE_DEPRECIATION_RATE,/* percentage by age, or cut to the most that the terms take */
  WB_RULE_DEPRECIATION,     /* value is the replacement cost less depreciation */
  WB_RULE_SALVAGE,          /* value less what the customer keeps */
  WB_RULE_SALVAGE_TAKEN,    /* the carrier takes what is left: nothing comes off */
  WB_RULE_REPAIR,           /* repair and appearance allowance */
  WB_RULE_LESSER,           /* the lesser of repair and value */
  WB_RULE_DEMAND,           /* not more than was asked */
  WB_RULE_DENIED,           /* the adjuster denied the line */
  WB_RULE_BARRED,           /* filed too late to be paid */
  WB_RULE_SET_MATE,         /* sound itself, of a broken set: paid for or not */
  WB_RULE_LINE_LIMIT,
  WB_RULE_THING_LEFT,       /* value of a thing less what other claims were paid for it */
  WB_RULE_ELSEWHERE,        /* another claim has lines on the same article: only marked */
  WB_RULE_ARTICLE_WEIGHT,   /* weight of the article or thing, and its source */
  WB_RULE_EXTRAORDINARY,    /* value above the rate: capped unless listed */
  WB_RULE_LISTED,           /* listed in writing for more than that: up to its listed value */
  WB_RULE_ARTICLE_LIMIT,
  WB_RULE_ARTICLE_LEFT,     /* a limit of the article less what other claims were paid for it */
  WB_RULE_ARTICLE_SHARE,    /* one article's limit shared among its lines */
  WB_RULE_SHIPMENT_LIMIT,   /* the limit left for the shipment against all that is allowed */
  WB_RULE_SHIPMENT_SHARE,   /* one line's share of that limit */
  WB_RULE_DEDUCTIBLE,       /* the deductible left, taken from the whole claim */
  WB_RULE_DEDUCTIBLE_SHARE, /* one line's share of it */
  WB_RULE_OWED,
  WB_RULE_FREIGHT_DENIED,   /* a denied line was lost: its freight goes back unless the shipper
                               lost it */
  WB_RULE_FREIGHT_REFUND,
  WB_RULE_PAID,             /* already paid on this claim */
} WbRule;

extern const WbEnum wb_rules;

/** What a figure in a reason is. */
typedef enum
{
  WB_FIGURE_NONE,
  WB_FIGURE_AMOUNT,          /* the general result of a step */
  WB_FIGURE_REPLACEMENT,
  WB_FIGURE_REPAIR,
  WB_FIGURE_APPEARANCE,
  WB_FIGURE_DEPRECIATION,    /* percent */
  WB_FIGURE_YEARLY,          /* depreciation a year of age, percent */
  WB_FIGURE_AGE,             /* years */
  WB_FIGURE_LEAST,           /* least depreciation, percent */
  WB_FIGURE_SALVAGE,
  WB_FIGURE_DEMANDED,
  WB_FIGURE_LOSS,
  WB_FIGURE_WEIGHT,
  WB_FIGURE_VOLUME,
  WB_FIGURE_WEIGHT_SOURCE,   /* WbArticleWeightSource or WbWeightSource, by rule */
  WB_FIGURE_RATE,            /* minor units, with its unit */
  WB_FIGURE_LIMIT,
  WB_FIGURE_MINIMUM,
  WB_FIGURE_MAXIMUM,
  WB_FIGURE_DECLARED,
  WB_FIGURE_LISTED,
  WB_FIGURE_EARLIER,
  WB_FIGURE_DEDUCTIBLE,
  WB_FIGURE_TAKEN,           /* deductible already taken */
  WB_FIGURE_FREIGHT,
  WB_FIGURE_LOST_WEIGHT,
  WB_FIGURE_COUNT,           /* lines that share */
  WB_FIGURE_SIDE,
  WB_FIGURE_CHOICE,
  WB_FIGURE_GAPS,            /* WbWaiverGap flags */
  WB_FIGURE_DATE,            /* Julian day of GDate */
  WB_FIGURE_LAST_DAY,        /* Julian day */
  WB_FIGURE_LATE,            /* WbLateState */
  WB_FIGURE_MISSING,         /* WbMissing */
  WB_FIGURE_CODE,            /* a rule of the terms, by rule: WbLateRule, WbSetsRule */
  WB_FIGURE_DEFENCE,         /* WbDefence */
} WbFigureName;

extern const WbEnum wb_figures;

typedef enum
{
  WB_FIGURE_TYPE_NONE,
  WB_FIGURE_TYPE_MONEY,      /* minor units */
  WB_FIGURE_TYPE_RATE,       /* minor units per unit: WbRateUnit */
  WB_FIGURE_TYPE_WEIGHT,     /* grains, unit: WbWeightUnit */
  WB_FIGURE_TYPE_VOLUME,     /* bits, unit: WbVolumeUnit */
  WB_FIGURE_TYPE_PERCENT,    /* hundredths of a percent */
  WB_FIGURE_TYPE_DATE,       /* Julian day */
  WB_FIGURE_TYPE_NUMBER,
  WB_FIGURE_TYPE_CODE,       /* a value of a closed list */
} WbFigureType;

/* A large claim has some ten reasons a line with three or four figures each; without the four bytes
 * that would align the value their memory is a quarter less, and so is the time to fill it. */
typedef struct
{
  guint8 name;               /* WbFigureName */
  guint8 type;               /* WbFigureType */
  gint16 unit;
  gint64 value;
} __attribute__ ((packed, aligned (4))) WbFigure;

/** Where an article's weight comes from. */
typedef enum
{
  WB_ARTICLE_WEIGHT_NONE,
  WB_ARTICLE_WEIGHT_PIECE,       /* the inventory's weight of the carton or piece */
  WB_ARTICLE_WEIGHT_PARTS,       /* sum of the parts of one article */
  WB_ARTICLE_WEIGHT_THING,       /* the claimed thing's own weight */
  WB_ARTICLE_WEIGHT_VOLUME,      /* constructive, from the piece's volume */
} WbArticleWeightSource;

typedef enum { WB_NOT_LATE, WB_LATE, WB_TOO_LATE, WB_LATE_UNKNOWN } WbLateState;

/** Which figure is not there. */
typedef enum
{
  WB_MISSING_NOTHING,
  WB_MISSING_LOSS_KIND,
  WB_MISSING_REPLACEMENT,
  WB_MISSING_REPAIR_OR_REPLACEMENT,
  WB_MISSING_ARTICLE_WEIGHT,
  WB_MISSING_SHIPMENT_WEIGHT,
  WB_MISSING_LOST_WEIGHT,
  WB_MISSING_FREIGHT_CHARGE,
} WbMissing;

extern const WbEnum wb_article_weight_sources, wb_weight_sources, wb_late_states, wb_missings,
                    wb_sides;

#define WB_REASON_MAX_INPUTS 4
#define WB_REASON_WHOLE_CLAIM (-1)
#define WB_NO_KEY (-1)

/**
 * WbReason:
 * @rule: which rule
 * @scope: which side it tells of, or %WB_SCOPE_GENERAL for both
 * @key: which key of the terms it applies, or %WB_NO_KEY; see wb_reckoning_citation()
 * @line: index into the reckoning's lines, or %WB_REASON_WHOLE_CLAIM
 * @inputs: up to %WB_REASON_MAX_INPUTS; a reason is as long as they make it, so it is never copied
 *
 * One step: rule, inputs, result. Words are made from it outside core.
 */
typedef struct
{
  guint8   rule;
  guint8   scope;
  gint8    key;
  guint8   n_inputs;
  gint32   line;
  WbFigure result;
  WbFigure inputs[];
} WbReason;

typedef struct _WbReasonBlock WbReasonBlock;

/** WbReasons: the reasons of one reckoning, in order of application; see WbReasonIter. */
typedef struct
{
  WbReasonBlock *first;
  WbReasonBlock *last;
} WbReasons;

/** WbReasonIter: goes through the reasons of a reckoning, from the first to the last. Kept on the
 * stack; its members are private. */
typedef struct
{
  const WbReasonBlock *block;
  gsize                at;
} WbReasonIter;

/** WbLineFigures: one line under one side, each no larger than the one before it. */
typedef struct
{
  gint64   loss;       /* measured loss, after salvage and demand */
  gint64   allowed;    /* after the line's and the article's limits */
  gint64   covered;    /* after the shipment limit (and, in that order, the deductible) */
  gint64   deducted;   /* this line's share of the deductible */
  gint64   owed;
  gboolean complete;   /* FALSE: a figure is missing, which a reason names */
} WbLineFigures;

typedef struct
{
  const WbClaimLine *line;       /* held by the reckoning's job */
  const WbPiece     *piece;      /* (nullable) */
  gint               piece_index;  /* of @piece in the job, -1 for none */
  WbLineFigures      side[WB_N_SIDES];
} WbLineReckoning;

/** WbSideReckoning: the claim under one side. */
typedef struct
{
  gboolean offered;           /* the terms have this side; else all is 0 */
  gboolean complete;
  gboolean has_limit;         /* there is a limit for the whole shipment */
  gint64   shipment_limit;    /* before earlier payments */
  gint64   earlier;           /* used up by other claims */
  gint64   limit_left;
  gint64   deductible;        /* left to bear */
  gint64   loss;              /* sums over the lines */
  gint64   allowed;
  gint64   covered;
  gint64   deducted;
  gint64   owed;
  gint64   freight_refund;
  gint64   paid;              /* on this claim so far */
  gint64   freight_paid;      /* part of @paid that was freight that went back */
  gint64   balance;           /* owed + freight_refund − paid; negative when overpaid */
} WbSideReckoning;

/** WbReckoning: immutable; holds its job and terms. Lines are in line-number order whatever their
 * order in the job. */
typedef struct
{
  gatomicrefcount  references;
  WbJob           *job;
  WbTerms         *terms;
  const WbClaim   *claim;
  WbSide           applies;        /* which side governs this shipment */
  guint            waiver_gaps;    /* WbWaiverGap flags */
  WbLateState      late;
  WbLineReckoning *lines;
  guint            n_lines;
  WbSideReckoning  side[WB_N_SIDES];
  WbReasons        reasons;
} WbReckoning;

#define WB_TYPE_RECKONING (wb_reckoning_get_type ())
GType        wb_reckoning_get_type (void);
WbReckoning *wb_reckoning_ref      (WbReckoning   *self) G_GNUC_WARN_UNUSED_RESULT;
void         wb_reckoning_unref    (WbReckoning   *self);

/**
 * wb_reckon:
 * @terms: the edition that governs
 * @job: must pass wb_job_check()
 * @claim_id: a claim of @job
 *
 * Returns: (transfer full) (nullable): the reckoning, or %NULL with %WB_CORE_ERROR_CURRENCY (job
 * and terms differ), _RANGE (negative or absurd figure; the line is named), _OVERFLOW, or _MISSING
 * (no such claim).
 */
WbReckoning *wb_reckon             (WbTerms       *terms,
                                    WbJob         *job,
                                    const char    *claim_id,
                                    GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** Makes @iter ready to go through the reasons of @reckoning. */
void            wb_reason_iter_init (WbReasonIter      *iter,
                                     const WbReckoning *reckoning);

/** Returns: (transfer none) (nullable): the next reason, which lives as long as its reckoning and
 * stays where it is; %NULL after the last one. */
const WbReason *wb_reason_iter_next (WbReasonIter      *iter);

/** Returns: (transfer full): a canonical listing, one line a reason and a figure, the same in
 * every locale. */
char        *wb_reckoning_to_text  (const WbReckoning *self) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): canonical text of a figure ("12.00 USD", "40 lb", "10 %",
 * "2024-03-01"). */
char        *wb_figure_to_text     (const WbFigure *self,
                                    const char     *currency) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: the scope in which the terms hold the key of @reason (a general key has one entry for
 * both sides). */
WbScope      wb_reason_key_scope   (const WbReason *reason);

/** Returns: (nullable) (transfer none): what the terms cite for the step. */
const char  *wb_reckoning_citation (const WbReckoning *self,
                                    const WbReason    *reason);

/** Returns: (nullable): the closed list that a %WB_FIGURE_TYPE_CODE figure of @rule belongs to. */
const WbEnum *wb_figure_enum       (const WbFigure *self,
                                    WbRule          rule);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbReckoning, wb_reckoning_unref)

G_END_DECLS
