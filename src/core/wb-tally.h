/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"
#include "core/wb-tag-ranges.h"

G_BEGIN_DECLS

/* What the tallies of one handover say together: the tags counted, lot by lot. */

/** WbTallySheet: opaque. */
typedef struct _WbTallySheet WbTallySheet;

/** Returns: (transfer full): the tallies of the handover with id @handover. */
WbTallySheet  *wb_tally_sheet_new        (const WbJob        *job,
                                          const char         *handover) G_GNUC_WARN_UNUSED_RESULT;
void           wb_tally_sheet_free       (WbTallySheet       *self);

/** Returns: (transfer none): the tags counted of @lot (nullable: of none); never %NULL. */
const GArray  *wb_tally_sheet_tags       (const WbTallySheet *self,
                                          const char         *lot);
/** Whether @tag of @lot is counted; %FALSE for %WB_INTEGER_UNSET. */
gboolean       wb_tally_sheet_has        (const WbTallySheet *self,
                                          const char         *lot,
                                          gint64              tag);
/** Returns: (transfer none) (nullable): the first tally whose text does not read; it counts for
 * nothing. */
const WbTally *wb_tally_sheet_unreadable (const WbTallySheet *self);

/** Returns: (transfer full) (element-type WbTagRange): the tags that the pieces of @lot (nullable)
 * have. */
GArray        *wb_tally_listed_tags      (const WbJob        *job,
                                          const char         *lot) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbTallySheet, wb_tally_sheet_free)

G_END_DECLS
