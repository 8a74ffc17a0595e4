/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the job share among themselves. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/** @doomed: for each kind the ids (keys) of its records to leave out, %NULL for none. Returns:
 * (transfer full): the job without them, whatever refers to them. */
WbJob *wb_job_leave_out (const WbJob       *self,
                         GHashTable *const *doomed) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
