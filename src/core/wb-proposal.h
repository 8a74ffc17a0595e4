/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"
#include "core/wb-terms.h"
#include "core/wb-trail.h"

G_BEGIN_DECLS

/* What the evidence beside a claim line proposes, and why. A proposal decides nothing: the
 * adjuster's verdict and ruling stand in the line, and no reckoning looks at a proposal. Pure: the
 * same terms, job, line and day give the same proposal. */

/** One thing that the papers say about a line. The table in wb-proof.c says which verdict each
 * speaks for, how strongly, and by what source. */
typedef enum
{
  WB_PROOF_TOO_LATE,           /* claimed after the last day, and the terms do not pay then */
  WB_PROOF_LATE,               /* claimed after the last day, and still looked at */
  WB_PROOF_LATE_NOTICE,        /* reported after the last day for that */
  WB_PROOF_NOT_LISTED,         /* the line names no piece of the inventory */
  WB_PROOF_LIKELY_CARTON,      /* … but a carton lists things like it */
  WB_PROOF_SHORT,              /* missing at a count and not seen since */
  WB_PROOF_SEEN_AGAIN,         /* short once, and seen at a later handover */
  WB_PROOF_COUNTED_IN,         /* claimed missing, and counted at delivery */
  WB_PROOF_ORIGIN_ALL,         /* all that is claimed was noted before the pick-up */
  WB_PROOF_ORIGIN_PART,        /* some of it was */
  WB_PROOF_ORIGIN_DOUBT,       /* the same kind of damage, and the place is not said */
  WB_PROOF_ORIGIN_OTHER,       /* what was noted before is something else */
  WB_PROOF_ORIGIN_PHOTO,       /* a photo from before shows it, by its pins */
  WB_PROOF_NEW_SAME,           /* what is claimed was noted first at a handover */
  WB_PROOF_NEW_ANY,            /* new damage was noted; the claim does not say which it means */
  WB_PROOF_NEW_OTHER,          /* new damage was noted, but another kind */
  WB_PROOF_GIVER_UNSIGNED,     /* the one who gave the goods did not sign for the exception */
  WB_PROOF_OWNER_SOUND,        /* carton packed by the owner, no damage outside */
  WB_PROOF_OWNER_HURT,         /* carton packed by the owner, damaged outside on the way */
  WB_PROOF_CARRIER_SOUND,      /* carton packed by the carrier, no damage outside */
  WB_PROOF_PACKER_UNKNOWN,     /* nobody noted who packed the carton */
  WB_PROOF_RULE_UNMET,         /* a packing rule was not kept */
  WB_PROOF_RULES_MET,          /* all that were looked at were kept */
  WB_PROOF_CONTENTS_RELATED,   /* the thing claimed fits what the carton lists */
  WB_PROOF_CONTENTS_UNRELATED, /* it does not */
  WB_PROOF_CONTENTS_UNWRITTEN, /* nobody wrote what the carton holds */
  WB_PROOF_NO_COUNT,           /* things listed in the plural without their number */
  WB_PROOF_INTERNAL,           /* a working thing with no damage outside */
  WB_PROOF_MILDEW,             /* mildew is claimed or was noted */
  WB_PROOF_SIGNED_CLEAN,       /* delivered and signed for, with nothing noted about it */
  WB_PROOF_RECEIPT_UNSIGNED,   /* delivered, and nobody signed for it */
  WB_PROOF_NO_DELIVERY,        /* no delivery is noted */
  WB_PROOF_UNCOUNTED,          /* a change of hands without a count: nobody looked */
  WB_PROOF_ACT_OF_GOD,         /* the notes speak of it; so the four below */
  WB_PROOF_PUBLIC_ENEMY,
  WB_PROOF_ACT_OF_SHIPPER,
  WB_PROOF_PUBLIC_AUTHORITY,
  WB_PROOF_INHERENT_VICE,
  WB_PROOF_PHOTOS_BOTH,        /* photos from before and from after */
  WB_PROOF_PHOTOS_BEFORE,      /* from before only */
  WB_PROOF_PHOTOS_AFTER,       /* from after only */
  WB_PROOF_WEIGHT_THING,       /* which weight there is */
  WB_PROOF_WEIGHT_PIECE,
  WB_PROOF_WEIGHT_VOLUME,
  WB_PROOF_WEIGHT_NONE,
  WB_PROOF_SET,                /* one of a pair or a set */
  WB_PROOF_PARTS,              /* one of the parts of an article */
  WB_PROOF_VALUE_LISTED,       /* on the signed list of valuable articles */
  WB_PROOF_VALUE_UNLISTED,     /* worth more than the extraordinary rate, and on no signed list */
  WB_PROOF_NOTHING,            /* the papers do not say */
} WbProofRule;

#define WB_N_PROOF_RULES (WB_PROOF_NOTHING + 1)

extern const WbEnum wb_proof_rules;

/** How far a source was checked. */
typedef enum
{
  WB_CHECKED_NONE,       /* there is no source: a plain statement of what the records hold */
  WB_CHECKED_SEEN,       /* read in the source */
  WB_CHECKED_TERMS,      /* cited by the terms file, which says how far */
  WB_CHECKED_PRACTICE,   /* common practice without a source */
  WB_CHECKED_MEMORY,     /* known, not looked up */
} WbChecked;

extern const WbEnum wb_checked;

/** How a fact stands to the verdict that is proposed. */
typedef enum
{
  WB_BEARING_DECIDES,    /* the proposal rests on it */
  WB_BEARING_AGAINST,    /* speaks for another verdict */
  WB_BEARING_SUPPORTS,   /* speaks for it too */
  WB_BEARING_INFORMS,    /* speaks for none */
} WbBearing;

extern const WbEnum wb_bearings;

/**
 * WbProof:
 * @verdict: what it speaks for; %WB_VERDICT_NONE when for none
 * @strength: 0 to 100; of two that speak for different verdicts the stronger one decides
 * @has_record: whether it rests on one record, of @kind and @record
 * @record: (nullable): id, held by the job
 * @handover: (nullable): id of the handover at which it was noted
 * @marks: (nullable): canonical marks that it is about
 * @date: the last day that was missed, or unset
 * @citation: (nullable): source, not translated
 */
typedef struct
{
  WbProofRule  rule;
  WbVerdict    verdict;
  guint        strength;
  WbBearing    bearing;
  gboolean     has_record;
  WbKind       kind;
  const char  *record;
  const char  *handover;
  char        *marks;
  GDate        date;
  const char  *citation;
  WbChecked    checked;
} WbProof;

/**
 * WbProposal:
 * @verdict: never %WB_VERDICT_NONE
 * @noted_at: (nullable): id of the handover at which the loss was first noted, for
 *   %WB_VERDICT_NEW and %WB_VERDICT_MISSING_AT_COUNT
 * @since: (nullable): id of the last handover before that; %NULL also when it is the first
 * @claimed: (nullable): canonical marks of the damage claimed, as far as the line's words and
 *   photos say
 * @proofs: (element-type WbProof): what decides first, then what speaks against it, what supports
 *   it and what only informs, the stronger before the weaker
 */
typedef struct
{
  WbJob       *job;
  WbTerms     *terms;
  WbVerdict    verdict;
  const char  *noted_at;
  const char  *since;
  char        *claimed;
  GPtrArray   *proofs;
} WbProposal;

/**
 * wb_propose:
 * @line: a claim line of @job
 * @today: (nullable): for a claim that has no day of receipt
 *
 * Returns: (transfer full): the proposal.
 */
WbProposal *wb_propose        (WbTerms           *terms,
                               WbJob             *job,
                               const WbClaimLine *line,
                               const GDate       *today) G_GNUC_WARN_UNUSED_RESULT;

/** As wb_propose(), with the trail of @job at hand, for many lines in a row. */
WbProposal *wb_propose_along  (WbTerms           *terms,
                               WbJob             *job,
                               WbTrail           *trail,
                               const WbClaimLine *line,
                               const GDate       *today) G_GNUC_WARN_UNUSED_RESULT;
void        wb_proposal_free  (WbProposal        *self);

/**
 * wb_proposal_judge:
 * @line: the line that @self is about
 * @verdict: the adjuster's; %WB_VERDICT_NONE takes the judgement back
 * @reason: (nullable): in the adjuster's words
 *
 * Returns: (transfer full) (nullable): the line with what was proposed, the verdict and its reason;
 * its ruling as it was. %NULL with %WB_CORE_ERROR_MISSING when the verdict is another than was
 * proposed and @reason is empty.
 */
WbClaimLine *wb_proposal_judge (const WbProposal  *self,
                                const WbClaimLine *line,
                                WbVerdict          verdict,
                                const char        *reason,
                                GError           **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): a canonical listing, one line a proof, the same in every locale. */
char       *wb_proposal_to_text (const WbProposal *self) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbProposal, wb_proposal_free)

G_END_DECLS
