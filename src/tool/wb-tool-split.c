/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command that splits a line of a claim by hand, or lets it go by the rule again. */
#include "config.h"

#include "tool/wb-tool-private.h"

#include "core/wb-apportion.h"
#include "core/wb-percent.h"
#include "office/wb-words-bearing.h"

#include <glib/gi18n.h>
#include <inttypes.h>
#include <string.h>

/* Returns: (nullable) (transfer none): who bears or can bear a part under that name. */
static const char *
find_bearer (const WbApportionment *shares,
             const char            *name)
{
  const WbJob *job = shares->reckoning->job;
  gint handler = wb_apportionment_find (shares, name);

  if (handler >= 0)
    return shares->handlers[handler].name;
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PARTY); i++)
    {
      const WbParty *party = wb_job_nth (job, WB_KIND_PARTY, i);

      if (party->role == WB_ROLE_SHIPPER || party->role == WB_ROLE_CONSIGNEE)
        continue;
      if (wb_trail_same_holder (party->company, name))
        return party->company;
      if (wb_trail_same_holder (party->name, name))
        return party->name;
    }
  return NULL;
}

/* One part as it is written, "Ada Pike=40". Returns: whether it reads; the fault is told. */
static gboolean
read_part (const WbApportionment *shares,
           const char            *text,
           WbHandPart            *out)
{
  const char *sign = strrchr (text, '=');
  g_autofree char *name = NULL;
  g_autofree char *percent = NULL;

  if (sign == NULL)
    {
      wb_tool_complain (_("“%s” is no part; write handler and percentage, as in “Ada Pike=40”."),
                        text);
      return FALSE;
    }
  name = g_strndup (text, (gsize) (sign - text));
  percent = strchr (sign, '%') != NULL ? g_strdup (sign + 1) : g_strconcat (sign + 1, " %", NULL);
  out->handler = find_bearer (shares, name);
  if (out->handler == NULL)
    {
      wb_tool_no_handler (name);
      return FALSE;
    }
  if (!wb_percent_parse (percent, &out->percent, NULL))
    {
      wb_tool_complain (_("“%s” is no percentage between 0 and 100; write it as in “33.34”."),
                        sign + 1);
      return FALSE;
    }
  return TRUE;
}

/* Returns: (transfer full) (nullable): the job with the split that is asked for, with the fault
 * told. */
static WbJob *
split (const WbToolOptions   *options,
       const WbApportionment *shares,
       const WbClaimLine     *line)
{
  guint n = g_strv_length (options->arguments) - 3;
  g_autofree WbHandPart *parts = g_new0 (WbHandPart, n);
  g_autofree char *fault = NULL;
  WbHandSplitFault check;
  gint64 total;

  for (guint i = 0; i < n; i++)
    if (!read_part (shares, options->arguments[3 + i], &parts[i]))
      return NULL;
  check = wb_hand_split_check (parts, n, options->reason, &total);
  fault = wb_words_hand_split (check, total);
  if (fault != NULL)
    {
      wb_tool_complain ("%s", fault);
      return NULL;
    }
  return wb_hand_split_set (shares->reckoning->job, line->record.id, parts, n, options->reason,
                            wb_office_new_id);
}

int
wb_tool_claim_split (const WbToolOptions *options)
{
  const char *number = options->arguments[1];
  gboolean by_rule = options->arguments[3] == NULL;
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  const WbClaim *claim = job != NULL ? wb_tool_find_claim (job, number) : NULL;
  const WbClaimLine *line = claim != NULL ? wb_tool_find_line (job, claim, options->arguments[2])
                                          : NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbReckoning) reckoning = NULL;
  g_autoptr (WbApportionment) shares = NULL;
  g_autoptr (WbJob) changed = NULL;
  g_autoptr (WbJob) stored = NULL;

  if (line == NULL)
    return WB_TOOL_FAILED;
  reckoning = wb_office_reckon (office, job, claim->record.id, &error);
  shares = reckoning != NULL ? wb_apportion (reckoning, WB_APPORTION_LAST, &error) : NULL;
  if (shares == NULL)
    return wb_tool_fail (number, error);

  changed = by_rule ? wb_hand_split_clear (job, line->record.id) : split (options, shares, line);
  if (changed == NULL)
    return WB_TOOL_FAILED;
  stored = wb_office_save_job (office, job, changed,
                               by_rule ? _("Share claim line by the rule")
                                       : _("Split claim line by hand"), NULL, &error);
  if (stored == NULL)
    return wb_tool_fail (number, error);

  wb_tool_print_line (by_rule ? _("Line %" PRId64 " goes by the rule.\n")
                              : _("Line %" PRId64 " is split by hand.\n"), line->number);
  return WB_TOOL_DONE;
}
