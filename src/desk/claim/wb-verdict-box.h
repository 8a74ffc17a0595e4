/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the papers propose for the selected claim line, with every fact it rests on, and the
 * adjuster's own verdict beside it, and the ruling. A proposal decides nothing: it is accepted or
 * overridden with a written reason, and both stay; what is paid follows the ruling alone. */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-reckoning.h"
#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Properties: "model" (WbJobModel), "line-id" (read only, nullable).
 * Action: "verdict.accept": the proposal becomes the verdict. */
#define WB_TYPE_VERDICT_BOX (wb_verdict_box_get_type ())
G_DECLARE_FINAL_TYPE (WbVerdictBox, wb_verdict_box, WB, VERDICT_BOX, GtkWidget)

/** @reckoning: (nullable): of the claim; @line_id: (nullable): the line that is shown. */
void wb_verdict_box_show (WbVerdictBox *self,
                          WbReckoning  *reckoning,
                          const char   *line_id);

/** Rules on the line that is shown; after a denial without a reason the focus goes there. */
void wb_verdict_box_rule (WbVerdictBox *self,
                          WbRuling      ruling);

G_END_DECLS
