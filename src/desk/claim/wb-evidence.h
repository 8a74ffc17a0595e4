/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

#include "core/wb-catalog.h"
#include "core/wb-job.h"
#include "core/wb-terms.h"

G_BEGIN_DECLS

/* What the job knows of a claimed piece, as short statements: what it is and belongs to, its weight
 * and where that comes from, who packed it, what was wrong with it before the move, and what was
 * found at each change of hands. */

typedef struct
{
  char *label;
  char *text;
} WbEvidence;

/** Returns: (transfer full) (element-type WbEvidence): the statements on the piece of @line, or on
 * the line alone when it has none; how its packing was checked by @catalog, the handovers in their
 * order. @terms: (nullable): those of the job */
GPtrArray *wb_evidence_list (WbCatalog         *catalog,
                             const WbTerms     *terms,
                             WbJob             *job,
                             const WbClaimLine *line) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
