/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-apportion.h"
#include "core/wb-hand-split.h"
#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* What is done on who bears a claim. Each is one step of undo. */

/** Splits a line by hand: see wb_hand_split_set(). */
void     wb_bearing_deeds_split (WbJobModel             *model,
                                 const char             *line_id,
                                 const WbHandPart       *parts,
                                 guint                   n_parts,
                                 const char             *reason);
/** Lets the line go by the rule again. */
void     wb_bearing_deeds_clear (WbJobModel             *model,
                                 const char             *line_id);
/** States the charges of @apportionment, which is that of the model's job: see
 * wb_charge_statement_state(). */
gboolean wb_bearing_deeds_state (WbJobModel             *model,
                                 const WbApportionment  *apportionment,
                                 const GDate            *on,
                                 GError                **error);

G_END_DECLS
