/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/* Says in one line what a claim, or one of its lines, comes to under one side; its amount answers
 * "why?". */
#define WB_TYPE_OUTCOME (wb_outcome_get_type ())
G_DECLARE_FINAL_TYPE (WbOutcome, wb_outcome, WB, OUTCOME, GtkWidget)

/** @reckoning: (nullable); @line: index into its lines, or %WB_REASON_WHOLE_CLAIM. */
void wb_outcome_show (WbOutcome   *self,
                      WbReckoning *reckoning,
                      int          line,
                      WbSide       side);

G_END_DECLS
