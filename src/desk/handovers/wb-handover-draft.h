/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Guesses for a handover just added. Pure: from a job to a job. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/** Returns: (transfer full): @job with one more handover at the end, as it most likely goes on: its
 * kind from the one before and whether the goods are stored, its giver who has the goods, the
 * receiver and the place where the order says. */
WbJob *wb_handover_draft_add (const WbJob *job,
                              const char  *id) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
