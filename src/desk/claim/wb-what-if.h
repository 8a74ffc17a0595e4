/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a claim would come to if things were otherwise: another choice, declared value or
 * deductible, another basis of a line. Nothing that is typed here is stored. */
#pragma once

#include <adwaita.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Action: "what-if.as-stored": everything as it is in the job again. */
#define WB_TYPE_WHAT_IF (wb_what_if_get_type ())
G_DECLARE_FINAL_TYPE (WbWhatIf, wb_what_if, WB, WHAT_IF, AdwWindow)

/** Returns: (transfer none): a window above @parent on the claim with @claim_id, from the job of
 * @model as it stands now. */
GtkWidget *wb_what_if_new (GtkWindow  *parent,
                           WbJobModel *model,
                           const char *claim_id);

G_END_DECLS
