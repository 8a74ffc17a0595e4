/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Commands on frozen reckonings: keep one, make those of a claim again. */
#include "config.h"

#include "tool/wb-tool-json.h"
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
  /* Translators: the number of a claim, and the name of a kept file. */
  wb_tool_print_line (_("The reckoning of claim %s is kept as %s.\n"), claim->number, hash);
  return WB_TOOL_DONE;
}

/* --- make again ------------------------------------------------------------------------------- */

/* One kept reckoning, and what came of making it again. */
typedef struct
{
  const WbClaimStep *step;      /* held by the job */
  WbFrozenCheck     *check;     /* (nullable) */
  GError            *error;     /* (nullable): why there is none */
} Again;

static void
again_clear (gpointer data)
{
  Again *again = data;

  g_clear_pointer (&again->check, wb_frozen_check_free);
  g_clear_error (&again->error);
}

static GArray *
make_all_again (WbOffice      *office,
                WbJob         *job,
                const WbClaim *claim)
{
  GArray *all = g_array_new (FALSE, TRUE, sizeof (Again));

  g_array_set_clear_func (all, again_clear);
  for (guint i = 0; i < wb_job_count (job, WB_KIND_STEP); i++)
    {
      Again again = { .step = wb_job_nth (job, WB_KIND_STEP, i) };

      if (again.step->frozen == NULL || g_strcmp0 (again.step->claim, claim->record.id) != 0)
        continue;
      again.check = wb_office_verify_reckoning (office, again.step->frozen, NULL, &again.error);
      g_array_append_val (all, again);
    }
  return all;
}

static const char *
or_end (const char *line)
{
  return line != NULL ? line : _("(nothing more)");
}

static void
print_again (const Again *again)
{
  const WbFrozenCheck *check = again->check;
  g_autofree char *on = wb_words_date (check != NULL ? &check->on : &again->step->on);

  if (check == NULL)
    {
      g_autofree char *words = wb_words_error (again->error);

      /* Translators: a date, and a sentence that says why not. */
      wb_tool_print_line (_("%s: cannot be made again. %s\n"), on, words);
      return;
    }
  if (check->reproduced)
    wb_tool_print_line (_("%s: reproduced, every byte as it was kept.\n"), on);
  else
    /* Translators: a date, a line of the reckoning as it was kept, and as it comes out today. */
    wb_tool_print_line (_("%s: comes out otherwise. Kept: “%s”. Now: “%s”.\n"), on,
                        or_end (check->kept_line), or_end (check->made_line));
  if (check->terms_changed)
    wb_tool_print_line ("  %s\n", _("The terms that govern the job today are others than those "
                                    "that were kept with it."));
}

static void
add_flag (JsonBuilder *builder,
          const char  *key,
          gboolean     flag)
{
  json_builder_set_member_name (builder, key);
  json_builder_add_boolean_value (builder, flag);
}

static void
add_again (JsonBuilder *builder,
           const Again *again)
{
  const WbFrozenCheck *check = again->check;
  g_autofree char *on = wb_date_to_text (check != NULL ? &check->on : &again->step->on);
  g_autofree char *fault = again->error != NULL ? wb_words_error (again->error) : NULL;

  json_builder_begin_object (builder);
  wb_tool_json_add_text (builder, "frozen", again->step->frozen);
  wb_tool_json_add_text (builder, "step", again->step->record.id);
  wb_tool_json_add_text (builder, "on", on);
  add_flag (builder, "reproduced", check != NULL && check->reproduced);
  if (check != NULL)
    {
      add_flag (builder, "terms_changed", check->terms_changed);
      wb_tool_json_add_text (builder, "kept", check->kept_line);
      wb_tool_json_add_text (builder, "made", check->made_line);
    }
  wb_tool_json_add_text (builder, "fault", fault);
  json_builder_end_object (builder);
}

static void
print_all_json (GArray *all)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  json_builder_begin_array (builder);
  for (guint i = 0; i < all->len; i++)
    add_again (builder, &g_array_index (all, Again, i));
  json_builder_end_array (builder);
  wb_tool_json_print (builder);
}

static gboolean
is_reproduced (GArray *all)
{
  for (guint i = 0; i < all->len; i++)
    {
      const Again *again = &g_array_index (all, Again, i);

      if (again->check == NULL || !again->check->reproduced)
        return FALSE;
    }
  return all->len > 0;
}

int
wb_tool_claim_verify (WbOffice      *office,
                      WbJob         *job,
                      const WbClaim *claim,
                      gboolean       json)
{
  g_autoptr (GArray) all = make_all_again (office, job, claim);

  if (all->len == 0)
    wb_tool_complain (_("No reckoning of claim %s was kept; “wainbook claim freeze” keeps one."),
                      claim->number);
  if (json)
    print_all_json (all);
  else
    {
      for (guint i = 0; i < all->len; i++)
        print_again (&g_array_index (all, Again, i));
    }
  return is_reproduced (all) ? WB_TOOL_DONE : WB_TOOL_FAILED;
}
