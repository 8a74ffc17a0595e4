/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A row in which a person picks the value of a field with a closed list. */
#pragma once

#include <adwaita.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Properties: "model", "field" ("order.stage"), "record-id". */
#define WB_TYPE_CHOICE_ROW (wb_choice_row_get_type ())
G_DECLARE_FINAL_TYPE (WbChoiceRow, wb_choice_row, WB, CHOICE_ROW, AdwComboRow)

G_END_DECLS
