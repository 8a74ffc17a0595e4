/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changes to the claims of the open job. Makes the new job and hands it to the model; knows no
 * widget. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-claim-deeds.h"

#include "core/wb-claim-set.h"
#include "core/wb-quote.h"

#include <glib/gi18n.h>

static void
add_record (WbJobModel *model,
            gpointer    record,
            const char *deed)
{
  g_autoptr (WbJob) job = wb_job_with (wb_job_model_get_job (model), record);

  wb_job_model_apply (model, job, deed);
}

static const char *
find_shipper (const WbJob *job)
{
  guint n = wb_job_count (job, WB_KIND_PARTY);

  for (guint i = 0; i < n; i++)
    {
      const WbParty *party = wb_job_nth (job, WB_KIND_PARTY, i);

      if (party->role == WB_ROLE_SHIPPER && party->name != NULL)
        return party->name;
    }

  return NULL;
}

char *
wb_claim_deeds_add_claim (WbJobModel  *model,
                          const char  *number,
                          const GDate *today)
{
  char *id = wb_office_new_id ();
  g_autoptr (WbClaim) claim = wb_record_new (WB_KIND_CLAIM, id);

  wb_set_text (&claim->number, number);
  wb_set_text (&claim->claimant, find_shipper (wb_job_model_get_job (model)));
  claim->received_on = *today;
  add_record (model, claim, _("Add claim"));

  return id;
}

char *
wb_claim_deeds_add_line (WbJobModel *model,
                         const char *claim_id)
{
  char *id = wb_office_new_id ();
  g_autoptr (WbClaimLine) line = wb_record_new (WB_KIND_CLAIM_LINE, id);

  wb_set_text (&line->claim, claim_id);
  line->number = wb_claim_next_number (wb_job_model_get_job (model), claim_id);
  add_record (model, line, _("Add claim line"));

  return id;
}

char *
wb_claim_deeds_add_payment (WbJobModel  *model,
                            const char  *claim_id,
                            const GDate *today)
{
  char *id = wb_office_new_id ();
  g_autoptr (WbPayment) payment = wb_record_new (WB_KIND_PAYMENT, id);

  wb_set_text (&payment->claim, claim_id);
  payment->on = *today;
  add_record (model, payment, _("Add payment"));

  return id;
}

/* The kind of quote that the loss of the line asks for. */
static WbQuoteKind
kind_for (const WbClaimLine *line)
{
  return line != NULL && line->loss == WB_LOSS_DAMAGED ? WB_QUOTE_REPAIR : WB_QUOTE_REPLACEMENT;
}

char *
wb_claim_deeds_add_quote (WbJobModel  *model,
                          const char  *line_id,
                          const GDate *today)
{
  char *id = wb_office_new_id ();
  g_autoptr (WbQuote) quote = wb_record_new (WB_KIND_QUOTE, id);

  wb_set_text (&quote->claim_line, line_id);
  quote->kind = kind_for (wb_job_find (wb_job_model_get_job (model), WB_KIND_CLAIM_LINE, line_id));
  quote->on = *today;
  add_record (model, quote, _("Add quote"));

  return id;
}

gboolean
wb_claim_deeds_take_quote (WbJobModel  *model,
                           const char  *quote_id,
                           GError     **error)
{
  g_autoptr (WbJob) job = wb_quote_take (wb_job_model_get_job (model), quote_id, error);

  if (job == NULL)
    return FALSE;

  wb_job_model_apply (model, job, _("Take quote"));
  return TRUE;
}

gboolean
wb_claim_deeds_add_mates (WbJobModel  *model,
                          const char  *line_id,
                          GError     **error)
{
  WbJob *before = wb_job_model_get_job (model);
  const WbClaimLine *line = wb_job_find (before, WB_KIND_CLAIM_LINE, line_id);
  g_autoptr (WbJob) job = NULL;

  if (line == NULL)
    return TRUE;
  job = wb_claim_set_add_mates (before, line, wb_office_new_id, error);
  if (job == NULL)
    return FALSE;

  wb_job_model_apply (model, job, _("Add pieces of the set"));
  return TRUE;
}

static const char *
name_removal (WbKind kind)
{
  if (kind == WB_KIND_CLAIM)
    return _("Remove claim");
  if (kind == WB_KIND_PAYMENT)
    return _("Remove payment");
  if (kind == WB_KIND_QUOTE)
    return _("Remove quote");
  if (kind == WB_KIND_CHARGE)
    return _("Remove charge");

  return _("Remove claim line");
}

gboolean
wb_claim_deeds_remove (WbJobModel  *model,
                       WbKind       kind,
                       const char  *id,
                       GError     **error)
{
  g_autoptr (WbJob) job = wb_job_without (wb_job_model_get_job (model), kind, id, error);

  if (job == NULL)
    return FALSE;

  wb_job_model_apply (model, job, name_removal (kind));
  return TRUE;
}

gboolean
wb_claim_deeds_judge (WbJobModel        *model,
                      const char        *line_id,
                      const WbProposal  *proposal,
                      WbVerdict          verdict,
                      const char        *reason,
                      GError           **error)
{
  const WbClaimLine *before = wb_job_find (wb_job_model_get_job (model), WB_KIND_CLAIM_LINE,
                                           line_id);
  g_autoptr (WbClaimLine) line = NULL;

  if (before == NULL)
    return TRUE;
  line = wb_proposal_judge (proposal, before, verdict, reason, error);
  if (line == NULL)
    return FALSE;
  add_record (model, line, _("Judge claim line"));
  return TRUE;
}

void
wb_claim_deeds_rule (WbJobModel *model,
                     const char *line_id,
                     WbRuling    ruling)
{
  const WbClaimLine *before = wb_job_find (wb_job_model_get_job (model), WB_KIND_CLAIM_LINE,
                                           line_id);
  g_autoptr (WbClaimLine) line = NULL;

  if (before == NULL || before->ruling == ruling)
    return;
  line = wb_record_copy (before);
  line->ruling = ruling;
  add_record (model, line, ruling == WB_RULING_DENIED ? _("Deny claim line")
                                                      : _("Allow claim line"));
}
