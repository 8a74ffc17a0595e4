/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The deeds on the amounts of a claim: finds the terms that govern the job, or the catalogue, and
 * hands them to core. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-office.h"

#include "core/wb-core.h"
#include "core/wb-depreciation.h"

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

WbJob *
wb_office_choose_depreciation (WbOffice     *self,
                               const WbJob  *job,
                               const char   *line_id,
                               const char   *nick,
                               GError      **error)
{
  g_autoptr (WbRecord) changed = NULL;
  const WbClaimLine *line;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (job != NULL, NULL);
  g_return_val_if_fail (line_id != NULL, NULL);

  line = wb_job_find (job, WB_KIND_CLAIM_LINE, line_id);
  if (line == NULL)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING, "the job has no claim line “%s”",
                   line_id);
      return NULL;
    }
  changed = (WbRecord *) wb_depreciation_apply (wb_office_get_catalog (self), line, nick, error);
  if (changed == NULL)
    return NULL;
  return wb_job_with (job, changed);
}
