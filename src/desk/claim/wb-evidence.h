/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

#include "core/wb-catalog.h"
#include "core/wb-job.h"

G_BEGIN_DECLS

/* What the job knows of a claimed piece, as short statements: what it is, who packed it, what was
 * wrong with it before the move, and what was found at each change of hands. */

typedef struct
{
  char *label;
  char *text;
} WbEvidence;

/** Returns: (transfer full) (element-type WbEvidence): the statements on @piece, how its packing was
 * checked by @catalog, the handovers in their order. */
GPtrArray *wb_evidence_list (WbCatalog     *catalog,
                             WbJob         *job,
                             const WbPiece *piece) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
