/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Why a clock ends when it does, in words. */
#pragma once

#include "core/wb-clock.h"

G_BEGIN_DECLS

/** Returns: (transfer full): what @clock runs from and how long, as a sentence; what it waits for when
 * it has not started. Where that is written is not in it. */
char *wb_words_clock_why (const WbClock *clock) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "30 days", "20 days without Sundays and holidays". */
char *wb_words_period    (WbPeriod       period) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
