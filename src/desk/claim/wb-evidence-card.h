/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-job.h"

G_BEGIN_DECLS

/* What is known of the piece of the selected claim line. */
#define WB_TYPE_EVIDENCE_CARD (wb_evidence_card_get_type ())
G_DECLARE_FINAL_TYPE (WbEvidenceCard, wb_evidence_card, WB, EVIDENCE_CARD, GtkWidget)

/**
 * wb_evidence_card_show:
 * @line: (nullable): %NULL when no line is selected
 * @notice: (nullable): what is to be said about the line itself
 */
void wb_evidence_card_show (WbEvidenceCard    *self,
                            const WbJob       *job,
                            const WbClaimLine *line,
                            const char        *notice);

G_END_DECLS
