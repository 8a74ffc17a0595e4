/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/* What is missing from a claim or unusual about it, in words, from its reckoning. */

/** Returns: (transfer full) (nullable): about one line, short: "Missing: the replacement cost. Not
 * on the inventory."; %NULL when there is nothing to say. */
char *wb_line_notice      (const WbReckoning *reckoning,
                           const char        *line_id) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): about the whole claim, a sentence a line: late filing, what
 * the shipment lacks. */
char *wb_claim_notice     (const WbReckoning *reckoning) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: index of a line in the reckoning, -1 when it is not there. */
int   wb_reckoning_line   (const WbReckoning *reckoning,
                           const char        *line_id);

G_END_DECLS
