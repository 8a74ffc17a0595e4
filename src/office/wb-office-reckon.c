/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The deed of reckoning a claim: finds the terms that govern the job and hands both to core. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-office.h"

WbReckoning *
wb_office_reckon (WbOffice    *self,
                  WbJob       *job,
                  const char  *claim_id,
                  GError     **error)
{
  WbTerms *terms;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (job != NULL, NULL);
  g_return_val_if_fail (claim_id != NULL, NULL);

  terms = wb_terms_set_find (wb_office_get_terms (self), wb_job_order (job), error);
  if (terms == NULL)
    return NULL;

  return wb_reckon (terms, job, claim_id, error);
}
