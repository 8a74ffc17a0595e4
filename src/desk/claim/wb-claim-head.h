/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* The head of a claim: what was received and whether that is a claim at all, how it stands, and the
 * legal dates that run on it. */
#define WB_TYPE_CLAIM_HEAD (wb_claim_head_get_type ())
G_DECLARE_FINAL_TYPE (WbClaimHead, wb_claim_head, WB, CLAIM_HEAD, GtkWidget)

/* Properties: "model" (WbJobModel), "claim-id" (string, nullable). */

/** Shows notice and dates anew, after a change of the job; the fields follow by themselves. */
void wb_claim_head_update (WbClaimHead *self);

G_END_DECLS
