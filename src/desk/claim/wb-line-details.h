/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the table of lines has no columns for, about the chosen line: its depreciation by a category
 * of the catalogue, salvage, what it belongs to, cause and defence. */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-reckoning.h"
#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Properties: "model" (WbJobModel), "line-id" (string, nullable).
 * Actions: "line.take-category": what the words of the line mean; "line.claim-mates": adds lines
 * for the other pieces of the set. */
#define WB_TYPE_LINE_DETAILS (wb_line_details_get_type ())
G_DECLARE_FINAL_TYPE (WbLineDetails, wb_line_details, WB, LINE_DETAILS, GtkWidget)

/** @reckoning: (nullable): of the claim; @line_id: (nullable): the line that is shown; to be called
 * after each change of the job. */
void wb_line_details_show (WbLineDetails     *self,
                           const WbReckoning *reckoning,
                           const char        *line_id);

/** Opens the details and goes to the first of them. */
void wb_line_details_open (WbLineDetails     *self);

G_END_DECLS
