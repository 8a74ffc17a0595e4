/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A job in two short lines: who, and which one, how far it is, from where to where. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/** Returns: (transfer full): the shipper, or words for none. */
char *wb_job_heading_title    (const WbJob *job) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): "J-2026-0007 · Booked · Dayton, OH → Tulsa, OK". */
char *wb_job_heading_subtitle (const WbJob *job) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
