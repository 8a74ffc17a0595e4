/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-reckoning.h"
#include "office/wb-office.h"

G_BEGIN_DECLS

/* What the selected claim line comes to under both choices, and what is known of its piece, with the
 * photos of both ends. */
#define WB_TYPE_EVIDENCE_CARD (wb_evidence_card_get_type ())
G_DECLARE_FINAL_TYPE (WbEvidenceCard, wb_evidence_card, WB, EVIDENCE_CARD, GtkWidget)

/**
 * wb_evidence_card_show:
 * @terms: (nullable): those that govern the job
 * @line: (nullable): %NULL when no line is selected
 * @notice: (nullable): what is to be said about the line itself
 */
void wb_evidence_card_show (WbEvidenceCard    *self,
                            WbOffice          *office,
                            const WbTerms     *terms,
                            WbJob             *job,
                            const WbClaimLine *line,
                            const char        *notice);

/** Shows what @line comes to; @reckoning: (nullable), @line: (nullable). */
void wb_evidence_card_show_reckoning (WbEvidenceCard    *self,
                                      WbReckoning       *reckoning,
                                      const WbClaimLine *line);

G_END_DECLS
