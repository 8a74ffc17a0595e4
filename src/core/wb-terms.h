/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-entities.h"

G_BEGIN_DECLS

/* One regime of liability as data: rates, minimums, limits, periods and where each is written. A
 * terms file holds one regime with one or more dated editions; a WbTerms is one edition. The file
 * format is described in data/terms/FORMAT.md; nothing in the program knows a figure of any
 * regime. */

/** The two choices that a customer has; index of the arrays below. Both are ruled by the same
 * parameters. */
typedef enum
{
  WB_SIDE_RELEASED,
  WB_SIDE_FULL,
} WbSide;

#define WB_N_SIDES 2

/** Every key of an edition. The nick in wb_terms_keys is the key in the file. */
typedef enum
{
  /* [shipment] [articles] [claims] …: keys that hold for both choices; their scope is
   * WB_SCOPE_GENERAL */
  WB_KEY_ROUNDING,
  WB_KEY_WITHOUT_WAIVER,
  WB_KEY_CONSTRUCTIVE_WEIGHT,
  WB_KEY_CARTON,
  WB_KEY_PARTS,
  WB_KEY_SETS,
  WB_KEY_DEMAND,
  WB_KEY_SALVAGE,
  WB_KEY_DEPRECIATION_MAXIMUM,
  WB_KEY_FREIGHT_PARTIAL_LOSS,
  WB_KEY_FREIGHT_TOTAL_LOSS,
  WB_KEY_CLAIM_WITHIN,
  WB_KEY_LATE_CLAIM,
  WB_KEY_LATE_UNTIL,
  WB_KEY_NOTICE_WITHIN,
  WB_KEY_ACKNOWLEDGE_WITHIN,
  WB_KEY_DECIDE_WITHIN,
  WB_KEY_STATUS_EVERY,
  WB_KEY_SUIT_WITHIN,
  WB_KEY_INSPECT_WITHIN,
  WB_KEY_MEDIATE_WITHIN,
  WB_KEY_MEDIATE_UNTIL,
  WB_KEY_ARBITRATE_WITHIN,
  WB_KEY_COLLECT_SALVAGE_WITHIN,
  WB_KEY_TRANSFER_AFTER,
  WB_KEY_FEES_WITHIN,
  WB_KEY_BILL_WITHIN,
  WB_KEY_CONTEST_BILL_WITHIN,
  /* [released] and [full]: the same keys twice */
  WB_KEY_OFFERED,
  WB_KEY_MEASURE,
  WB_KEY_ARTICLE_RATE,
  WB_KEY_ARTICLE_LIMIT,
  WB_KEY_LINE_LIMIT,
  WB_KEY_SHIPMENT_RATE,
  WB_KEY_SHIPMENT_WEIGHT,
  WB_KEY_SHIPMENT_MINIMUM,
  WB_KEY_SHIPMENT_MAXIMUM,
  WB_KEY_DECLARED_VALUE,
  WB_KEY_BELOW_MINIMUM,
  WB_KEY_DEDUCTIBLE,
  WB_KEY_DEDUCTIBLE_ORDER,
  WB_KEY_EXTRAORDINARY_RATE,
  WB_KEY_EXTRAORDINARY_WEIGHT,
  WB_KEY_CHARGE,
} WbTermsKey;

#define WB_N_TERMS_KEYS (WB_KEY_CHARGE + 1)

extern const WbEnum wb_terms_keys;

typedef enum { WB_SCOPE_RELEASED, WB_SCOPE_FULL, WB_SCOPE_GENERAL } WbScope;
#define WB_N_SCOPES 3

typedef enum { WB_MEASURE_REPLACEMENT, WB_MEASURE_ACTUAL_VALUE } WbMeasure;
/** carton: is a packed carton with its contents one article, or is each claimed thing one by its
 * own weight? */
typedef enum { WB_CARTON_ONE_ARTICLE, WB_CARTON_EACH_THING } WbCartonRule;
/** parts: are the parts of a thing taken apart one article? */
typedef enum { WB_PARTS_ONE_ARTICLE, WB_PARTS_EACH_PIECE } WbPartsRule;
/** sets: is a sound thing paid for whose set was broken? */
typedef enum { WB_SETS_WITH_MATES, WB_SETS_ONLY_PIECE } WbSetsRule;
typedef enum { WB_DEMAND_CAPS, WB_DEMAND_IGNORED } WbDemandRule;
typedef enum { WB_SALVAGE_DEDUCTED, WB_SALVAGE_IGNORED } WbSalvageRule;
typedef enum { WB_FREIGHT_NOT_REFUNDED, WB_FREIGHT_BY_WEIGHT, WB_FREIGHT_ALL } WbFreightRule;
/** A claim filed after claim-within: only flagged; or settled at actual value until late-until and
 * not at all after; or not paid. */
typedef enum { WB_LATE_FLAGGED, WB_LATE_ACTUAL_VALUE, WB_LATE_BARRED } WbLateRule;
typedef enum { WB_BELOW_MINIMUM_RAISED, WB_BELOW_MINIMUM_KEPT } WbBelowMinimumRule;
typedef enum { WB_DEDUCTIBLE_AFTER_LIMIT, WB_DEDUCTIBLE_BEFORE_LIMIT } WbDeductibleOrder;
/** Whose weight caps an unlisted thing of extraordinary value: the article's, or the claimed
 * thing's own when known. */
typedef enum { WB_EXTRAORDINARY_ARTICLE, WB_EXTRAORDINARY_THING } WbExtraordinaryWeight;

extern const WbEnum wb_roundings, wb_measures, wb_carton_rules, wb_parts_rules, wb_sets_rules,
                    wb_demand_rules, wb_salvage_rules, wb_freight_rules, wb_late_rules,
                    wb_below_minimum_rules, wb_deductible_orders, wb_extraordinary_weights;

/** WbCharge: what the customer pays for this choice: @per_hundred for each 100 of declared value,
 * at @deductible. */
typedef struct
{
  WbMoney deductible;
  WbMoney per_hundred;
} WbCharge;

#define WB_MAX_CHARGES 12

typedef struct
{
  gboolean              offered;
  WbMeasure             measure;
  WbRate                article_rate;        /* unset: no limit by an article's weight */
  WbMoney               article_limit;       /* flat, unset: none */
  WbMoney               line_limit;          /* flat for each claim line, unset: none */
  WbRate                shipment_rate;       /* of the least value of a shipment; unset: none */
  gboolean              shipment_gross;      /* by gross weight instead of net */
  WbMoney               shipment_minimum;
  WbMoney               shipment_maximum;
  gboolean              declared_value;      /* a declared value is looked at */
  WbBelowMinimumRule    below_minimum;
  gboolean              deductible;          /* a deductible is looked at */
  WbDeductibleOrder     deductible_order;
  WbRate                extraordinary_rate;  /* unset: no such rule */
  WbExtraordinaryWeight extraordinary_weight;
  WbCharge              charges[WB_MAX_CHARGES];
  guint                 n_charges;
} WbSideTerms;

/** WbTermsEntry: whether a key was written in the file, where, and what the file cites for it. */
typedef struct
{
  gboolean  given;
  guint     line;
  char     *citation;   /* (nullable) */
} WbTermsEntry;

/**
 * WbTerms:
 *
 * One edition of one regime; immutable once read. Keys that a file leaves out hold the meaning that
 * wb_terms_silent_meaning() documents, and their entry is not @given.
 */
typedef struct
{
  gatomicrefcount references;
  char           *regime;                   /* id: "us-interstate" */
  char           *title;
  char           *file;                     /* as named by whoever loaded it, for messages */
  guint           line;                     /* of the edition's heading */
  char           *digest;                   /* SHA-256 of the whole file's bytes, lower-case hex */
  GBytes         *text;                     /* the whole file's bytes, shared by its editions */
  WbMoveType      move_type;                /* NONE: only by a person's choice */
  char           *region;                   /* (nullable) */
  GDate           from;                     /* first day of pick-up that it governs */
  GDate           until;                    /* last day; unset: still in force */
  char            currency[4];
  WbRounding      rounding;
  WbSide          without_waiver;
  WbWeight        constructive_weight;      /* per cubic foot; unset: none */
  WbCartonRule    carton;
  WbPartsRule     parts;
  WbSetsRule      sets;
  WbDemandRule    demand;
  WbSalvageRule   salvage;
  gint64          depreciation_maximum;     /* hundredths of a percent, 10000: none */
  WbFreightRule   freight_partial_loss;
  WbFreightRule   freight_total_loss;
  WbPeriod        claim_within;             /* all from delivery unless said; unset: none */
  WbLateRule      late_claim;
  WbPeriod        late_until;
  WbPeriod        notice_within;
  WbPeriod        acknowledge_within;       /* from receipt of the claim */
  WbPeriod        decide_within;            /* from receipt of the claim */
  WbPeriod        status_every;             /* after decide_within */
  WbPeriod        suit_within;              /* from written notice of disallowance */
  WbPeriod        inspect_within;           /* from receipt of the claim */
  WbPeriod        mediate_within;           /* from the decision, or the end of decide_within */
  WbPeriod        mediate_until;            /* from receipt of the claim; cuts mediate_within */
  WbPeriod        arbitrate_within;         /* from the request for arbitration */
  WbPeriod        collect_salvage_within;   /* for the carrier, from receipt of the claim */
  WbPeriod        transfer_after;           /* from receipt of the claim: what is not settled to the
                                               claimant's satisfaction by then, or is denied, may be
                                               taken to the military claims office */
  WbPeriod        fees_within;              /* from delivery, or the day agreed for it if that is
                                               later: a claim filed by then may bring the
                                               claimant's attorney fees (49 USC 14708(d)) */
  WbPeriod        bill_within;              /* to present the freight bill, from delivery */
  WbPeriod        contest_bill_within;      /* to contest it, from the day it was given */
  WbSideTerms     side[WB_N_SIDES];
  WbTermsEntry    entry[WB_N_SCOPES][WB_N_TERMS_KEYS];
} WbTerms;

WbTerms    *wb_terms_ref             (WbTerms      *self) G_GNUC_WARN_UNUSED_RESULT;
void        wb_terms_unref           (WbTerms      *self);

/** Returns: (nullable): what the file cites for @key in @scope. */
const char *wb_terms_citation        (const WbTerms *self,
                                      WbScope       scope,
                                      WbTermsKey    key);
gboolean    wb_terms_is_given        (const WbTerms *self,
                                      WbScope       scope,
                                      WbTermsKey    key);

/** Returns: marked for translation, how the program reads a file that does not have @key. */
const char *wb_terms_silent_meaning  (WbTermsKey    key);

/** The charge for a declared value under @side with @deductible: each started 100 counts in full.
 * %FALSE with %WB_CORE_ERROR_MISSING when the terms list no charge for that deductible. */
gboolean    wb_terms_charge          (const WbTerms *self,
                                      WbSide        side,
                                      WbMoney       declared_value,
                                      WbMoney       deductible,
                                      WbMoney      *out,
                                      GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_terms_parse:
 * @text: the whole file, UTF-8
 * @file: what to call it in messages
 *
 * Reads and checks one terms file. An unknown section or key, a key twice, a value that does not
 * read, a figure that is missing, editions whose dates overlap or are out of order:
 * %WB_CORE_ERROR_TERMS, and the message has the form "FILE:LINE: what is wrong; expected …".
 * Returns: (transfer full) (element-type WbTerms) (nullable): the editions, earliest first.
 */
GPtrArray  *wb_terms_parse           (const char   *text,
                                      gsize         length,
                                      const char   *file,
                                      GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/** WbTermsSet: the regimes that an office can use. Immutable once filled. */
typedef struct _WbTermsSet WbTermsSet;

WbTermsSet *wb_terms_set_new         (void) G_GNUC_WARN_UNUSED_RESULT;
WbTermsSet *wb_terms_set_ref         (WbTermsSet   *self) G_GNUC_WARN_UNUSED_RESULT;
void        wb_terms_set_unref       (WbTermsSet   *self);

/**
 * wb_terms_set_add:
 * @editions: (element-type WbTerms): one file's, as wb_terms_parse() gives them
 * @replace: whether a regime of the same id gives way (an office's own file over the shipped one);
 *   else it is an error
 *
 * Also an error (%WB_CORE_ERROR_TERMS, both places named): another regime for the same move type
 * and region with overlapping dates. The set is unchanged on failure.
 */
gboolean    wb_terms_set_add         (WbTermsSet   *self,
                                      GPtrArray    *editions,
                                      gboolean      replace,
                                      GError      **error) G_GNUC_WARN_UNUSED_RESULT;
guint       wb_terms_set_count       (const WbTermsSet *self);
/** Returns: (transfer none): edition @index, by regime then date. */
WbTerms    *wb_terms_set_nth         (const WbTermsSet *self,
                                      guint         index);

/**
 * wb_terms_set_find:
 *
 * The edition that governs an order: by its own choice of regime if it has one, else by move type
 * and region; then by the day of pick-up (actual, else the agreed first day).
 * Returns: (transfer none) (nullable): or %NULL with %WB_CORE_ERROR_TERMS (none fits; says what was
 * looked for) or %WB_CORE_ERROR_MISSING (the order lacks its move type or any day of pick-up).
 */
WbTerms    *wb_terms_set_find        (const WbTermsSet *self,
                                      const WbOrder *order,
                                      GError      **error);

/** As wb_terms_set_find(), by what of an order decides: @regime and @region may be %NULL, @day is
 * that of the pick-up. */
WbTerms    *wb_terms_set_find_for    (const WbTermsSet *self,
                                      const char   *regime,
                                      WbMoveType    move_type,
                                      const char   *region,
                                      const GDate  *day,
                                      GError      **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbTerms, wb_terms_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbTermsSet, wb_terms_set_unref)

G_END_DECLS
