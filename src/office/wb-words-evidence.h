/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences about the adjuster's work: what came in, and what the evidence beside a claim line proposes
 * and why. The window, the command line and the papers share them. */
#pragma once

#include "core/wb-intake.h"
#include "core/wb-proposal.h"
#include "office/wb-words.h"

G_BEGIN_DECLS

/** Returns: (transfer full): what the paper that came in is, and what follows from that. */
char *wb_words_intake     (WbIntakeState          state) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): what is lacking and what to do, as a sentence. */
char *wb_words_intake_gap (const WbJob           *job,
                           const WbIntakeGap     *gap) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full) (nullable): which claim of somebody else asks for the same, and what that
 * asks for; %NULL when none does. */
char *wb_words_conflict   (const WbJob           *job,
                           const WbClaim         *claim) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full) (nullable): what came in and what it lacks to be a claim, in a few
 * sentences; %NULL when it is a claim. */
char *wb_words_intake_lack (const WbJob          *job,
                            const WbClaim        *claim) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): what is proposed, as one sentence. */
char *wb_words_proposal   (const WbProposal      *proposal) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): one fact of @proposal as a sentence or two; what it cites is not in
 * it. */
char *wb_words_proof      (const WbProposal      *proposal,
                           const WbProof         *proof) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): what a fact rests on in law, with how far it was looked up
 * when that was not in the source itself; %NULL when it rests on the records alone. */
char *wb_words_proof_source (const WbProof       *proof) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
