/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "desk/model/wb-record-item.h"

G_BEGIN_DECLS

/* A claim in the list of a job's claims: its number and claimant, when it came in, how it
 * stands. */
#define WB_TYPE_CLAIM_ROW (wb_claim_row_get_type ())
G_DECLARE_FINAL_TYPE (WbClaimRow, wb_claim_row, WB, CLAIM_ROW, AdwActionRow)

GtkWidget  *wb_claim_row_new    (WbRecordItem *item) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer none): the claim's id. */
const char *wb_claim_row_get_id (WbClaimRow   *self);

G_END_DECLS
