/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/* One line that says what a claim comes to under one side, always in sight; its amount answers
 * "why?". */
#define WB_TYPE_OUTCOME (wb_outcome_get_type ())
G_DECLARE_FINAL_TYPE (WbOutcome, wb_outcome, WB, OUTCOME, GtkWidget)

void wb_outcome_show (WbOutcome   *self,
                      WbReckoning *reckoning,
                      WbSide       side);

G_END_DECLS
