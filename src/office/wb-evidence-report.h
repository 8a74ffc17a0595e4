/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a claim lacks and what is proposed for its lines, as text for a terminal and as JSON. */
#pragma once

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

G_END_DECLS
