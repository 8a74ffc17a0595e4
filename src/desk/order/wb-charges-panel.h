/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What may be asked for at delivery, line by line, or what is missing for it. */
#pragma once

#include <adwaita.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Property: "model" (WbJobModel). Its lines are made by wb_later_start(), and go to the fields that
 * they rest on, by "job.reveal". */
#define WB_TYPE_CHARGES_PANEL (wb_charges_panel_get_type ())
G_DECLARE_FINAL_TYPE (WbChargesPanel, wb_charges_panel, WB, CHARGES_PANEL, AdwPreferencesGroup)

G_END_DECLS
