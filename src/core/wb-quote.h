/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/* Quotes beside a claim line: what a repairer or a seller asks, and which of them became the figure
 * of the line. The reckoning looks at the line alone; a quote is where its figure comes from.
 * Pure. */

/** Returns: (transfer full) (element-type WbQuote): the quotes for the line, in the job's order;
 * they belong to @job. */
GPtrArray     *wb_quotes_of       (const WbJob    *job,
                                   const char     *line_id) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer none) (nullable): the quote of @kind that was taken for the line. */
const WbQuote *wb_quote_taken     (const WbJob    *job,
                                   const char     *line_id,
                                   WbQuoteKind     kind);

/** Returns: the figure of @line that a quote of @kind speaks for; unset when it is not given or
 * @kind is %WB_QUOTE_NONE. */
WbMoney        wb_quote_figure    (const WbClaimLine *line,
                                   WbQuoteKind     kind);

/** Whether @quote was taken and the figure of its line is another by now. */
gboolean       wb_quote_differs   (const WbJob    *job,
                                   const WbQuote  *quote);

/**
 * wb_quote_take:
 * @quote_id: a quote of @job
 *
 * Makes the amount of a quote the figure of its line: the repair or the replacement cost. Of its
 * kind no other quote of the line stays taken; the line's other figures stay as they are.
 * Returns: (transfer full) (nullable): the job with it, or %NULL with %WB_CORE_ERROR_MISSING when
 * the quote says no amount or not what it is for.
 */
WbJob         *wb_quote_take      (const WbJob    *job,
                                   const char     *quote_id,
                                   GError        **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
