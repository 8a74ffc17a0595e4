/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/* What taking a step does to a claim: the step itself, dated and kept, and what follows from it for
 * the claim's status and dates. Pure. A date that somebody noted before is never overwritten. */

/** Returns: whether with such a step the reckoning goes out to the customer, so that it is to be
 * kept as it was. */
gboolean wb_step_sends_reckoning (WbStepKind         kind);

/**
 * wb_claim_take_step:
 * @claim_id: a claim of @job
 * @step_id: id of the new step
 * @on: the day
 * @reckoning: (nullable): the claim's reckoning; of an offer the amount is then what is still to be
 *   paid under the choice that applies
 *
 * An acknowledgement sets the day of acknowledgement, an inspection that of inspection. An offer
 * makes an open claim one with an offer made. A denial declines it and sets the day of decision; so
 * does an offer or a partial denial with that day, for each is an answer in the sense of 49 CFR
 * 370.9(a). A release settles it; reopening opens it again; closing closes it. Other steps leave the
 * claim as it is.
 * Returns: (transfer full): the job with the step.
 */
WbJob   *wb_claim_take_step      (const WbJob       *job,
                                  const char        *claim_id,
                                  const char        *step_id,
                                  WbStepKind         kind,
                                  const GDate       *on,
                                  const WbReckoning *reckoning) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
