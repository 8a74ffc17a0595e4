/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words about what the piece of a claim line belongs to: its set, its article, its carton. */
#pragma once

#include "core/wb-claim-set.h"
#include "core/wb-terms.h"
#include "office/wb-words.h"

G_BEGIN_DECLS

/** Returns: (transfer full) (nullable): the set of the line's piece and its other pieces, each with
 * the line that claims it, as one sentence; %NULL when it is of no set. */
char *wb_words_set      (const WbJob       *job,
                         const WbClaimLine *line) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): the other parts of the article, and whether @terms
 * (nullable) give them one limit together; %NULL when it has no parts. */
char *wb_words_parts    (const WbTerms     *terms,
                         const WbJob       *job,
                         const WbClaimLine *line) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): what the carton of the line holds by its list, and whether
 * @terms (nullable) make carton and contents one article; %NULL when it is no carton. */
char *wb_words_carton   (const WbTerms     *terms,
                         const WbJob       *job,
                         const WbClaimLine *line) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): which other lines of the claim are about the same carton,
 * piece or article; %NULL when none is. */
char *wb_words_sharers  (const WbJob       *job,
                         const WbClaimLine *line) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
