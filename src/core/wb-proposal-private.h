/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the proposal share. */
#pragma once

#include "core/wb-mark-compare.h"
#include "core/wb-proposal.h"
#include "core/wb-trail.h"

G_BEGIN_DECLS

/** Returns: (transfer full): a proof with the verdict, strength and source of its row. */
WbProof *wb_proof_new              (WbProofRule        rule) G_GNUC_WARN_UNUSED_RESULT;
void     wb_proof_free             (gpointer           proof);
/** Returns: the strength of a fact by the table. */
guint    wb_proof_strength         (WbProofRule        rule);

/**
 * WbCase: one line while it is looked at
 * @piece: (nullable)
 * @index: place of @piece in the job, or -1
 * @claimed: what is claimed, by the line's words and the pins of later photos
 * @proofs: (element-type WbProof): what was found so far
 */
typedef struct
{
  WbTerms           *terms;
  WbJob             *job;
  WbTrail           *trail;
  const WbClaim     *claim;
  const WbClaimLine *line;
  const WbPiece     *piece;
  gint               index;
  const GDate       *today;
  WbMarks            claimed;
  GPtrArray         *proofs;
} WbCase;

/** Returns: (transfer none): a proof added to the case. */
WbProof *wb_case_note              (WbCase            *self,
                                    WbProofRule        rule);
/** As wb_case_note(), resting on a record (nullable) of the job. */
WbProof *wb_case_note_record       (WbCase            *self,
                                    WbProofRule        rule,
                                    gconstpointer      record);

/** Whether the line is about things in a carton rather than about a loose piece. */
gboolean wb_case_is_contents       (const WbCase      *self);
/** Returns: (nullable): the delivery, the last one when there are several. */
const WbHandover *wb_case_delivery (const WbCase      *self);

/* The groups of facts, one function each. */
void     wb_case_look_at_dates     (WbCase            *self);
void     wb_case_look_at_loss      (WbCase            *self);
void     wb_case_look_at_marks     (WbCase            *self);
void     wb_case_look_at_carton    (WbCase            *self);
void     wb_case_look_at_receipt   (WbCase            *self);
void     wb_case_look_at_defences  (WbCase            *self);
void     wb_case_look_at_rest      (WbCase            *self);

/** Adds to @marks what @text (nullable) says: a line of codes ("SC 4-8"), or the plain words of
 * conditions and places, clause by clause ("case gouged, veneer cracked"). */
void     wb_claimed_marks_read     (WbMarks           *marks,
                                    const char        *text);
/** Whether @a and @b (nullable) share a word of at least four letters, plurals taken as one. */
gboolean wb_words_are_related      (const char        *a,
                                    const char        *b);
/** Whether @text (nullable) holds one of @words (%NULL-terminated, lower case) as a whole word. */
gboolean wb_text_has_word          (const char        *text,
                                    const char *const *words);

G_END_DECLS
