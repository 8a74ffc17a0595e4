/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The letters of a claim, written from core values alone: the same input gives the same letter. A
 * letter says what the papers and the terms say, and its faults say what keeps it from going out.
 * It is no legal advice; the bill of lading and the carrier's tariff decide. */
#pragma once

#include "core/wb-claim-step.h"
#include "core/wb-reckoning.h"
#include "office/wb-letter.h"

G_BEGIN_DECLS

/**
 * WbLetterInput:
 * @terms: (nullable): that govern the job
 * @claim: a claim of @job
 * @reckoning: (nullable): of that claim
 * @on: the letter's day
 * @remark: (nullable): in the adjuster's words: of a status report why the claim is not decided
 * yet,   of the others a paragraph of its own
 */
typedef struct
{
  const WbTerms     *terms;
  WbJob             *job;
  const WbClaim     *claim;
  const WbReckoning *reckoning;
  const GDate       *on;
  const char        *remark;
} WbLetterInput;

/** Returns: (transfer full): the letter. */
WbLetter  *wb_letter_write       (WbLetterKind         kind,
                                  const WbLetterInput *input) G_GNUC_WARN_UNUSED_RESULT;

/** Whether figures of the reckoning are in such a letter, so that it is kept with it. */
gboolean   wb_letter_has_figures (WbLetterKind         kind);

/** Returns: the step of a claim that sending such a letter is. A release that is sent is not signed
 * yet: another step. */
WbStepKind wb_letter_step        (WbLetterKind         kind);

G_END_DECLS
