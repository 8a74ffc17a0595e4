/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changes to who bears a claim. Makes the new job and hands it to the model; knows no widget. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-bearing-deeds.h"

#include "office/wb-charge-statement.h"

#include <glib/gi18n.h>

void
wb_bearing_deeds_split (WbJobModel       *model,
                        const char       *line_id,
                        const WbHandPart *parts,
                        guint             n_parts,
                        const char       *reason)
{
  g_autoptr (WbJob) job = wb_hand_split_set (wb_job_model_get_job (model), line_id, parts, n_parts,
                                             reason, wb_office_new_id);

  wb_job_model_apply (model, job, _("Split claim line by hand"));
}

void
wb_bearing_deeds_clear (WbJobModel *model,
                        const char *line_id)
{
  g_autoptr (WbJob) job = wb_hand_split_clear (wb_job_model_get_job (model), line_id);

  wb_job_model_apply (model, job, _("Share claim line by the rule"));
}

gboolean
wb_bearing_deeds_state (WbJobModel             *model,
                        const WbApportionment  *apportionment,
                        const GDate            *on,
                        GError                **error)
{
  g_autoptr (WbJob) job = wb_charge_statement_state (apportionment, on, error);

  if (job == NULL)
    return FALSE;

  wb_job_model_apply (model, job, _("State charges"));
  return TRUE;
}
