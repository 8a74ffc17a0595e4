/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Jobs made at random, for tests of what has to hold for every job. The numbers come from GLib's
 * seeded source, so a run is repeated with the seed that it printed. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/** Returns: (transfer full): a text that makes trouble for careless readers; never empty, no space
 * at its ends. */
char     *random_text   (void) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): a record with about half of its fields given; references point into
 * @job. */
gpointer  random_record (const WbJob *job,
                         WbKind       kind,
                         const char  *id) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): a job with up to @most records of each kind; it passes
 * wb_job_check(). Without a @currency it is in any. */
WbJob    *random_job    (const char  *currency,
                         guint        most) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): a job in USD; all claim lines belong to its first claim, many to the
 * same article. */
WbJob    *random_claim  (void) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
