/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The steps of a claim from the first letter to the closed file: takes one with all that follows
 * from it, and keeps the reckoning that goes out with it. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Properties: "model" (WbJobModel), "claim-id" (string, nullable).
 * Actions: "steps.take" (s: nick of a kind of step), "steps.remove", "steps.verify". */
#define WB_TYPE_CLAIM_STEPS (wb_claim_steps_get_type ())
G_DECLARE_FINAL_TYPE (WbClaimSteps, wb_claim_steps, WB, CLAIM_STEPS, GtkWidget)

/** Shows or hides what depends on whether there are steps, after a change of the job. */
void wb_claim_steps_update    (WbClaimSteps *self);

/** Opens the menu of steps that can be taken. */
void wb_claim_steps_open_menu (WbClaimSteps *self);

G_END_DECLS
