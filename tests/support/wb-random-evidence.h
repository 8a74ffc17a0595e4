/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random evidence for property tests: handovers, findings, marks, packers and words about damage,
 * put into a job of wb-random-claim.h. The same seed gives the same. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/** Returns: (transfer full): @job with up to five handovers among a few holders, findings about its
 * pieces, marks on them, and words on its claim lines. It passes wb_job_check(). */
WbJob *wb_random_evidence         (GRand       *rand,
                                   const WbJob *job) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): @job with its records of @kind in another order. */
WbJob *wb_random_shuffle          (GRand       *rand,
                                   const WbJob *job,
                                   WbKind       kind) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer none): marks as written on an inventory, or %NULL. */
const char *wb_random_marks       (GRand       *rand);

/** Returns: (transfer none): one of the names that the handovers use, or %NULL. */
const char *wb_random_holder      (GRand       *rand);

G_END_DECLS
