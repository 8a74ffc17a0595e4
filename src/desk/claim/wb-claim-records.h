/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* The records of one kind that belong to one claim of the open job, or quotes that belong to one
 * line, as a list that follows it: claim lines by their number, others as they were noted. */
#define WB_TYPE_CLAIM_RECORDS (wb_claim_records_get_type ())
G_DECLARE_FINAL_TYPE (WbClaimRecords, wb_claim_records, WB, CLAIM_RECORDS, GObject)

WbClaimRecords *wb_claim_records_new       (WbJobModel     *model,
                                            WbKind          kind) G_GNUC_WARN_UNUSED_RESULT;
/** @owner_id: (nullable): %NULL shows none. */
void            wb_claim_records_set_owner (WbClaimRecords *self,
                                            const char     *owner_id);
/** Returns: (transfer none): of #WbRecordItem. */
GListModel     *wb_claim_records_get_list  (WbClaimRecords *self);

G_END_DECLS
