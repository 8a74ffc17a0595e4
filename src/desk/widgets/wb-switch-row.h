/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A row with a switch for a field that is yes or no. */
#pragma once

#include <adwaita.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Properties: "model", "field" ("order.guaranteed"), "record-id". */
#define WB_TYPE_SWITCH_ROW (wb_switch_row_get_type ())
G_DECLARE_FINAL_TYPE (WbSwitchRow, wb_switch_row, WB, SWITCH_ROW, AdwActionRow)

G_END_DECLS
