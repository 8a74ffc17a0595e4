/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a claim lacks, what is proposed for its lines and who bears them, as text for a terminal and as
 * JSON. */
#pragma once

#include "core/wb-apportion.h"
#include "core/wb-catalog.h"
#include "core/wb-proposal.h"

G_BEGIN_DECLS

/** Returns: (transfer full): a paragraph a line: what is claimed, what is proposed, every fact with
 * what it cites, and how the packing of the carton was checked. @catalog: for the packing checks;
 * @today: (nullable) */
char *wb_evidence_report         (WbTerms               *terms,
                                  WbCatalog             *catalog,
                                  WbJob                 *job,
                                  const WbClaim         *claim,
                                  const GDate           *today) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): the same as JSON: nicks, ids, and the sentences in the reader's
 * language. */
char *wb_evidence_document_write (WbTerms               *terms,
                                  WbCatalog             *catalog,
                                  WbJob                 *job,
                                  const WbClaim         *claim,
                                  const GDate           *today) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): who bears what, line by line, then a charge statement for each
 * handler. */
char *wb_shares_report           (const WbApportionment *apportionment) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): a charge statement for one handler: what it is asked to bear of each
 * line and why, its limit, and what was charged and came back so far. */
char *wb_shares_statement        (const WbApportionment *apportionment,
                                  guint                  handler) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): all shares and handlers as JSON. */
char *wb_shares_document_write   (const WbApportionment *apportionment) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
