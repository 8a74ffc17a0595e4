/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-proposal.h"
#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* What the claim page does to the job: adds and removes claims, their lines, quotes and payments.
 * Each is one step of undo. */

/** Returns: (transfer full): id of a new claim with @number, received @today, from the shipper if
 * the job names one. */
char     *wb_claim_deeds_add_claim   (WbJobModel  *model,
                                      const char  *number,
                                      const GDate *today) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): id of a new line, numbered after the last one of the claim. */
char     *wb_claim_deeds_add_line    (WbJobModel  *model,
                                      const char  *claim_id) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): id of a new payment, made @today. */
char     *wb_claim_deeds_add_payment (WbJobModel  *model,
                                      const char  *claim_id,
                                      const GDate *today) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): id of a new quote for a line, of @today and of the kind that the line's
 * loss asks for. */
char     *wb_claim_deeds_add_quote   (WbJobModel  *model,
                                      const char  *line_id,
                                      const GDate *today) G_GNUC_WARN_UNUSED_RESULT;
/** Makes the amount of a quote the figure of its line: see wb_quote_take(). */
gboolean  wb_claim_deeds_take_quote  (WbJobModel  *model,
                                      const char  *quote_id,
                                      GError     **error);
/** Adds lines for the other pieces of the set: see wb_claim_set_add_mates(). */
gboolean  wb_claim_deeds_add_mates   (WbJobModel  *model,
                                      const char  *line_id,
                                      GError     **error);
/** Removes a claim with all its lines, which is refused while it has payments; or one line,
 * quote or payment. */
gboolean  wb_claim_deeds_remove      (WbJobModel  *model,
                                      WbKind       kind,
                                      const char  *id,
                                      GError     **error);

/** Sets the verdict on a line together with its reason and with what was proposed when it was
 * given; %WB_VERDICT_NONE takes all back. %FALSE with %WB_CORE_ERROR_MISSING, and nothing changed,
 * when wb_proposal_judge() wants a reason. No change is no step. */
gboolean  wb_claim_deeds_judge       (WbJobModel        *model,
                                      const char        *line_id,
                                      const WbProposal  *proposal,
                                      WbVerdict          verdict,
                                      const char        *reason,
                                      GError           **error);

/** Rules on a line: whether it is paid. No change is no step. */
void      wb_claim_deeds_rule        (WbJobModel  *model,
                                      const char  *line_id,
                                      WbRuling     ruling);

G_END_DECLS
