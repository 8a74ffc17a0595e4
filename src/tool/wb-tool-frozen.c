/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Commands on frozen reckonings: keep one, make those of a claim again. */
#include "config.h"

#include "tool/wb-tool-private.h"

#include "office/wb-frozen-reckoning.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

const WbClaim *
wb_tool_find_claim (const WbJob *job,
                    const char  *number)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM); i++)
    {
      const WbClaim *claim = wb_job_nth (job, WB_KIND_CLAIM, i);

      if (g_ascii_strcasecmp (claim->number, number) == 0)
        return claim;
    }
  wb_tool_complain (_("“%s” is the number of a job, not of a claim; “wainbook claim list” lists "
                      "the claims."), number);
  return NULL;
}

/* --- keep ------------------------------------------------------------------------------------- */

static WbJob *
with_step (WbJob       *job,
           const char  *claim_id,
           const GDate *today,
           const char  *hash)
{
  g_autofree char *id = wb_office_new_id ();
  g_autoptr (WbClaimStep) step = wb_record_new (WB_KIND_STEP, id);

  wb_set_text (&step->claim, claim_id);
  step->kind = WB_STEP_OTHER;
  step->on = *today;
  wb_set_text (&step->by, g_get_user_name ());
  wb_set_text (&step->frozen, hash);
  wb_set_text (&step->text, _("The reckoning was kept as it stood."));
  return wb_job_with (job, step);
}

int
wb_tool_claim_freeze (const WbToolOptions *options)
{
  const char *number = options->arguments[1];
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  const WbClaim *claim = job != NULL ? wb_tool_find_claim (job, number) : NULL;
  g_autoptr (WbJob) changed = NULL;
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *hash = NULL;
  GDate today;

  if (claim == NULL)
    return WB_TOOL_FAILED;
  wb_office_today (&today);
  hash = wb_office_freeze_reckoning (office, job, claim->record.id, &today, NULL, &error);
  if (hash == NULL)
    return wb_tool_fail (number, error);
  changed = with_step (job, claim->record.id, &today, hash);
  stored = wb_office_save_job (office, job, changed, _("Keep a reckoning"), NULL, &error);
  if (stored == NULL)
    return wb_tool_fail (number, error);
  wb_tool_print_line (_("The reckoning of claim %s is kept as %s.\n"), claim->number, hash);
  return WB_TOOL_DONE;
}

/* --- make again ------------------------------------------------------------------------------- */

static const char *
or_end (const char *line)
{
  return line != NULL ? line : _("(nothing more)");
}

/* Returns: whether it was reproduced. */
static gboolean
verify_step (WbOffice          *office,
             const WbClaimStep *step)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbFrozenCheck) check = wb_office_verify_reckoning (office, step->frozen, NULL, &error);
  g_autofree char *on = wb_words_date (check != NULL ? &check->on : &step->on);

  if (check == NULL)
    {
      g_autofree char *words = wb_words_error (error);

      wb_tool_print_line (_("%s: cannot be made again. %s\n"), on, words);
      return FALSE;
    }
  if (check->reproduced)
    wb_tool_print_line (_("%s: reproduced, every byte as it was kept.\n"), on);
  else
    wb_tool_print_line (_("%s: comes out otherwise. Kept: “%s”. Now: “%s”.\n"), on,
                        or_end (check->kept_line), or_end (check->made_line));
  if (check->terms_changed)
    wb_tool_print_line ("  %s\n", _("The terms that govern the job today are others than those "
                                    "that were kept with it."));
  return check->reproduced;
}

int
wb_tool_claim_verify (WbOffice      *office,
                      WbJob         *job,
                      const WbClaim *claim)
{
  guint n = 0, n_reproduced = 0;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_STEP); i++)
    {
      const WbClaimStep *step = wb_job_nth (job, WB_KIND_STEP, i);

      if (step->frozen == NULL || g_strcmp0 (step->claim, claim->record.id) != 0)
        continue;
      n++;
      n_reproduced += verify_step (office, step) ? 1 : 0;
    }
  if (n == 0)
    wb_tool_complain (_("No reckoning of claim %s was kept; “wainbook claim freeze” keeps one."),
                      claim->number);
  return n > 0 && n_reproduced == n ? WB_TOOL_DONE : WB_TOOL_FAILED;
}
