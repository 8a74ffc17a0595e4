/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Commands on charges: state them to the handlers, and write a statement as it was made out. */
#include "config.h"

#include "tool/wb-tool-private.h"

#include "office/wb-charge-statement.h"
#include "office/wb-text-table.h"
#include "office/wb-words-bearing.h"

#include <glib/gi18n.h>
#include <string.h>

int
wb_tool_no_handler (const char *name)
{
  wb_tool_complain (_("“%s” is none of those that had the goods; “wainbook claim shares” lists "
                      "them."), name);
  return WB_TOOL_FAILED;
}

/* Returns: (transfer full) (nullable): who bears a claim by the rule, with the fault told. */
static WbApportionment *
apportion (WbOffice      *office,
           WbJob         *job,
           const WbClaim *claim)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbReckoning) reckoning = wb_office_reckon (office, job, claim->record.id, &error);
  WbApportionment *shares = reckoning != NULL
                            ? wb_apportion (reckoning, WB_APPORTION_LAST, &error) : NULL;

  if (shares == NULL)
    wb_tool_fail (claim->number, error);
  return shares;
}

static void
print_charges (const WbApportionment *shares)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("lr");
  g_autoptr (GString) out = g_string_new (NULL);

  for (guint i = 0; i < shares->n_handlers; i++)
    {
      g_autofree char *name = NULL;
      g_autofree char *amount = NULL;

      if (!wb_charge_is_needed (shares, i))
        continue;
      name = wb_words_handler (&shares->handlers[i]);
      amount = wb_words_minor (shares->handlers[i].borne, shares->reckoning->terms->currency);
      wb_text_table_add_row (table, name, amount);
    }
  g_string_append (out, _("Stated to each what it bears:"));
  g_string_append_c (out, '\n');
  wb_text_table_append (table, 2, out);
  wb_tool_print (out->str);
}

int
wb_tool_claim_charge (const WbToolOptions *options)
{
  const char *number = options->arguments[1];
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  const WbClaim *claim = job != NULL ? wb_tool_find_claim (job, number) : NULL;
  g_autoptr (WbApportionment) shares = claim != NULL ? apportion (office, job, claim) : NULL;
  g_autoptr (WbJob) stated = NULL;
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (GError) error = NULL;
  GDate today;

  if (shares == NULL)
    return WB_TOOL_FAILED;

  wb_office_today (&today);
  stated = wb_charge_statement_state (shares, &today, &error);
  if (stated != NULL)
    stored = wb_office_save_job (office, job, stated, _("State charges"), NULL, &error);
  if (stored == NULL)
    return wb_tool_fail (number, error);

  print_charges (shares);
  return WB_TOOL_DONE;
}

int
wb_tool_claim_statement (const WbToolOptions *options)
{
  const char *number = options->arguments[1], *name = options->arguments[2];
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  const WbClaim *claim = job != NULL ? wb_tool_find_claim (job, number) : NULL;
  g_autoptr (WbApportionment) shares = claim != NULL ? apportion (office, job, claim) : NULL;
  g_autofree char *difference = NULL;
  const char *statement;
  gint handler;

  if (shares == NULL)
    return WB_TOOL_FAILED;
  handler = wb_apportionment_find (shares, name);
  if (handler < 0)
    return wb_tool_no_handler (name);

  statement = wb_charge_statement_kept (shares, (guint) handler, NULL);
  if (statement == NULL)
    {
      wb_tool_complain (_("Nothing was stated to “%s” yet; “wainbook claim charge” does it, and "
                          "“wainbook claim shares --handler” shows what it would say."), name);
      return WB_TOOL_FAILED;
    }
  difference = wb_charge_difference (shares, (guint) handler);
  if (difference != NULL)
    wb_tool_complain ("%s", difference);
  return wb_tool_deliver (options, statement, strlen (statement));
}
