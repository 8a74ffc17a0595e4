/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Jobs with lots, pieces and handovers for the tests of counting and of the trail. */
#pragma once

#include "core/wb-count.h"

/* A job with the lot "teal" (teal 3107), its pieces t1 … t@n_teal, and, when @n_amber is not 0, the
 * lot "amber" (amber 3108) with a1 …. */
WbJob *trail_job          (guint        n_teal,
                           guint        n_amber);

/* Adds a handover of @kind on @on (ISO 8601) from @from to @to; each may be NULL. */
WbJob *trail_add_handover (WbJob       *job,
                           const char  *id,
                           WbHandoverKind kind,
                           const char  *on,
                           const char  *from,
                           const char  *to);

/* Adds a finding; @marks may be NULL. */
WbJob *trail_add_finding  (WbJob       *job,
                           const char  *handover,
                           const char  *piece,
                           WbFound      found,
                           const char  *marks);

/* Counts @text at @handover, which has to succeed. All these take @job and give a new one. */
WbJob *trail_count        (WbJob       *job,
                           const char  *handover,
                           const char  *text);
WbJob *trail_finish       (WbJob       *job,
                           const char  *handover);

/* "x-1", "x-2" … */
char  *trail_new_id       (void);

void   set_date           (GDate       *date,
                           const char  *text);
