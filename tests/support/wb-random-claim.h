/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random terms and random jobs with one claim, for property tests and benches. The same seed gives
 * the same ones. Amounts, weights and dates lean toward the edges of the rules, where mistakes
 * live: nothing at all, whole lines of one article, days about the last one. */
#pragma once

#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/** Returns: (transfer full): a terms file with one edition; always valid. */
char    *wb_random_terms_text (GRand      *rand,
                               const char *currency) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the one edition in @text, which must be good. */
WbTerms *wb_random_terms_read (const char *text) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): a job with @n_lines claim lines in claim "claim", with pieces,
 * weighings, handovers, and lines and payments of another claim. It passes wb_job_check(). */
WbJob   *wb_random_job        (GRand      *rand,
                               const char *currency,
                               guint       n_lines) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
