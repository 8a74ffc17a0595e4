/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words about the quotes beside a claim line. */
#pragma once

#include "core/wb-quote.h"
#include "office/wb-words.h"

G_BEGIN_DECLS

/** Returns: (transfer full): "Repair, $240.00, Hollin Joinery, 3 Jun 2026", with what is not given
 * left out. */
char *wb_words_quote       (const WbQuote *quote) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): that the quote was taken, and what the line says instead
 * when that is another amount by now; %NULL when it was not taken. */
char *wb_words_quote_state (const WbJob   *job,
                            const WbQuote *quote) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): for each quote taken for the line that its figure differs
 * from, one sentence; %NULL when there is none. */
char *wb_words_quotes_differ (const WbJob *job,
                              const char  *line_id) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
