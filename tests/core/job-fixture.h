/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A job in US dollars, for tests, changed by the texts of its fields. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/** Returns: (transfer full): a job with the number "J-1" and nothing else. */
WbJob *job_fixture_new (void) G_GNUC_WARN_UNUSED_RESULT;

/** Adds or changes a record of *@job: names and texts of fields, then %NULL. @id of an order or
 * valuation is %NULL. Every text has to be good. */
void   job_fixture_put (WbJob      **job,
                        WbKind       kind,
                        const char  *id,
                        ...) G_GNUC_NULL_TERMINATED;

G_END_DECLS
