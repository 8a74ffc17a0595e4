/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random terms and random jobs with one claim, for property tests and benches. The same seed gives
 * the same ones. Amounts lean toward the edges of the limits, where mistakes live. */
#pragma once

#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/** Returns: (transfer full): one edition of random terms in US dollars; always valid. */
WbTerms *wb_random_terms (GRand *rand);

/** Returns: (transfer full): a job with @n_lines claim lines in claim "claim", pieces, handovers,
 * other claims' payments. */
WbJob   *wb_random_job   (GRand *rand,
                          guint  n_lines);

G_END_DECLS
