/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who bears a claim, as text for a terminal and as JSON. */
#pragma once

#include "core/wb-apportion.h"

G_BEGIN_DECLS

/** Returns: (transfer full): who bears what and why, line by line; then for each handler what it
 * bears, what was charged to it and came back, and where that no longer agrees. */
char *wb_shares_report         (const WbApportionment *apportionment) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): all shares and handlers as JSON. */
char *wb_shares_document_write (const WbApportionment *apportionment) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
