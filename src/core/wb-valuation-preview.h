/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"
#include "core/wb-terms.h"

G_BEGIN_DECLS

/* What each choice of liability means for one shipment before anything is lost: limits, least
 * value, deductibles and charges, worked out from the job's own weights, inventory and signed
 * choice. Pure, like the reckoning, and by the same parameters for both sides. All amounts are in
 * the job's currency. */

/** What keeps a figure of one side from being known, and where the person can mend it (flags). */
typedef enum
{
  WB_VALUATION_GAP_NONE            = 0,
  WB_VALUATION_GAP_SHIPMENT_WEIGHT = 1 << 0,  /* least value by weight, and none is known */
  WB_VALUATION_GAP_SHIPMENT_VOLUME = 1 << 1,  /* least value by volume, and none is known */
  WB_VALUATION_GAP_NO_ARTICLES     = 1 << 2,  /* limits of articles, and no article is there */
  WB_VALUATION_GAP_ARTICLE_WEIGHT  = 1 << 3,  /* an article has no weight or volume */
  WB_VALUATION_GAP_CHARGE          = 1 << 4,  /* no charge for the deductible chosen */
} WbValuationGap;

/** What the declared value does to the limit of a side. */
typedef enum
{
  WB_DECLARED_IGNORED,      /* this side does not look at it */
  WB_DECLARED_NOT_GIVEN,    /* none was declared: the least value counts */
  WB_DECLARED_COUNTS,       /* it is the limit */
  WB_DECLARED_RAISED,       /* it is under the least value, which counts instead */
  WB_DECLARED_KEPT,         /* it is under the least value and counts all the same */
} WbDeclaredState;

/**
 * WbArticlePreview:
 * @piece: (nullable): the piece, or the first part of an article in several pieces; %NULL when no
 *   article has a weight
 * @n_pieces: how many pieces are its parts
 * @weight: its weight; constructive from volume when @constructive
 * @volume: its volume, set only when the limit goes by volume
 * @limit: the most that it can bring; unset when the side has no limit for an article
 * @by_thing: it is a carton, and each thing in it counts by its own weight, so @limit is all of
 *   them together
 */
typedef struct
{
  const WbPiece *piece;
  guint          n_pieces;
  WbWeight       weight;
  WbVolume       volume;
  gboolean       constructive;
  WbMoney        limit;
  gboolean       by_thing;
} WbArticlePreview;

/** WbChargePreview: one deductible that the terms offer, and what the customer pays for it on this
 * shipment. */
typedef struct
{
  WbMoney  deductible;
  WbMoney  per_hundred;
  WbMoney  charge;         /* unset while the value that it goes by is not known */
  gboolean chosen;         /* the deductible that was signed */
} WbChargePreview;

/** WbSidePreview: one choice. Everything unset or 0 when the terms do not offer it. */
typedef struct
{
  gboolean         offered;
  guint            gaps;               /* WbValuationGap flags */

  /* The shipment as a whole. */
  WbWeight         weight;             /* that the least value goes by */
  WbWeightSource   weight_source;
  WbMoney          by_weight;          /* rate × weight or volume; unset: no rate or figure */
  WbMoney          minimum;            /* @by_weight, or the terms' floor if that is more */
  gboolean         floor_counts;       /* the floor is more */
  WbDeclaredState  declared;
  gboolean         cut_to_maximum;     /* the limit was cut to the terms' maximum */
  gboolean         has_limit;          /* the terms limit the shipment, @limit known or not */
  WbMoney          limit;              /* the most for the whole shipment; unset: not known */
  WbMoney          deductible;         /* that the customer bears; unset: none */

  /* Article by article. */
  gboolean         article_limits;     /* the terms limit an article by its weight or flat */
  WbArticlePreview heaviest;
  guint            n_articles;
  guint            n_without_weight;
  WbMoney          article_sum;        /* all articles' limits together; unset: none */

  /* Articles of extraordinary value. */
  guint            n_listed;           /* pieces with a value on the list */
  WbMoney          listed;             /* their values together; unset when none */

  /* What it costs. */
  WbChargePreview  charges[WB_MAX_CHARGES];
  guint            n_charges;
  WbMoney          charge;             /* for the chosen deductible; unset when not known */
} WbSidePreview;

/** WbValuationPreview: both choices. Pieces in it belong to @job. */
typedef struct
{
  WbTerms       *terms;
  WbJob         *job;
  WbSide         applies;              /* which side governs the shipment as the file stands */
  guint          waiver_gaps;          /* WbWaiverGap flags */
  gboolean       by_default;           /* @applies for want of a valid choice */
  WbSidePreview  side[WB_N_SIDES];
} WbValuationPreview;

/**
 * wb_valuation_preview:
 * @terms: the edition that governs
 * @job: the job; its claims are not looked at
 *
 * Returns: (transfer full) (nullable): the preview, or %NULL with %WB_CORE_ERROR_CURRENCY (job and
 * terms differ) or %WB_CORE_ERROR_OVERFLOW. A figure that is merely not known yet is no error but a
 * gap.
 */
WbValuationPreview *wb_valuation_preview      (WbTerms            *terms,
                                               WbJob              *job,
                                               GError            **error) G_GNUC_WARN_UNUSED_RESULT;
void                wb_valuation_preview_free (WbValuationPreview *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbValuationPreview, wb_valuation_preview_free)

G_END_DECLS
