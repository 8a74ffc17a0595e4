/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two people changed one job: puts the changes of one on top of what the other stored. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/**
 * wb_job_rebase:
 * @base: what both started from
 * @mine: @base as changed here
 * @theirs: @base as changed elsewhere
 *
 * Repeats on @theirs every change that leads from @base to @mine: changed fields one by one, so
 * that another field of the same record keeps their value; added records; removed records unless
 * something of theirs now needs them. A record that mine refers to and theirs lacks comes back with
 * it. A changed order of stops or parties is taken from mine.
 *
 * Returns: (transfer full): the job with both; @mine itself when @theirs equals @base.
 */
WbJob *wb_job_rebase (WbJob *base,
                      WbJob *mine,
                      WbJob *theirs) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
