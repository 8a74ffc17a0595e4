/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page of the open job that shows its claims: what was received, the legal dates, the lines
 * with what is known of each piece, what both choices would pay and why, and what was paid. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Properties: "model" (WbJobModel), for construction only; "claim-id" (string, nullable): the claim
 * that is shown.
 * Actions: "claim.add-claim", "claim.remove-claim", "claim.add-line", "claim.remove-line",
 * "claim.add-payment", "claim.remove-payment", "claim.show-bearing", "claim.split-line",
 * "claim.state-charges", "claim.show-statements". */
#define WB_TYPE_CLAIM_PAGE (wb_claim_page_get_type ())
G_DECLARE_FINAL_TYPE (WbClaimPage, wb_claim_page, WB, CLAIM_PAGE, GtkWidget)

GtkWidget *wb_claim_page_new (WbJobModel *model) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
