/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "desk/claim/wb-cell.h"

G_BEGIN_DECLS

/* A cell in which a person picks the value of a field with a closed list. */
#define WB_TYPE_CHOICE_CELL (wb_choice_cell_get_type ())
G_DECLARE_FINAL_TYPE (WbChoiceCell, wb_choice_cell, WB, CHOICE_CELL, WbCell)

GtkWidget *wb_choice_cell_new (const WbEnum *choices) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
