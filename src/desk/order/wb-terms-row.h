/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The row that says which terms of liability govern the open job, and lets a person choose
 * others. */
#pragma once

#include <adwaita.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Property: "model". */
#define WB_TYPE_TERMS_ROW (wb_terms_row_get_type ())
G_DECLARE_FINAL_TYPE (WbTermsRow, wb_terms_row, WB, TERMS_ROW, AdwComboRow)

G_END_DECLS
