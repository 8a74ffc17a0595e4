/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Commands on claims: list them, reckon one, tell its evidence and who bears it. */
#include "config.h"

#include "tool/wb-tool-json.h"
#include "tool/wb-tool-private.h"

#include "office/wb-charge-statement.h"
#include "office/wb-evidence-report.h"
#include "office/wb-job-document.h"
#include "office/wb-shares-report.h"
#include "office/wb-text-table.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

/* --- list ------------------------------------------------------------------------------------- */

/* One claim with the job that it belongs to. */
typedef struct
{
  WbJob         *job;
  const WbClaim *claim;    /* held by @job */
  char          *shipper;
  guint          n_lines;
} Row;

static void
row_clear (gpointer data)
{
  Row *row = data;

  g_clear_pointer (&row->job, wb_job_unref);
  g_free (row->shipper);
}

static guint
count_lines (const WbJob   *job,
             const WbClaim *claim)
{
  guint n = 0;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *line = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);

      if (g_strcmp0 (line->claim, claim->record.id) == 0)
        n++;
    }

  return n;
}

static gboolean
collect (WbOffice  *office,
         GArray    *rows,
         GError   **error)
{
  g_autoptr (GPtrArray) jobs = wb_office_list_jobs (office, NULL, 0, NULL, error);

  if (jobs == NULL)
    return FALSE;

  for (guint i = 0; i < jobs->len; i++)
    {
      const WbJobSummary *summary = g_ptr_array_index (jobs, i);
      g_autoptr (WbJob) job = NULL;

      if (summary->claims == NULL)
        continue;
      job = wb_office_load_job (office, summary->id, NULL, error);
      if (job == NULL)
        return FALSE;
      for (guint j = 0; j < wb_job_count (job, WB_KIND_CLAIM); j++)
        {
          const WbClaim *claim = wb_job_nth (job, WB_KIND_CLAIM, j);
          Row row = { wb_job_ref (job), claim, g_strdup (summary->shipper),
                     count_lines (job, claim) };

          g_array_append_val (rows, row);
        }
    }

  return TRUE;
}

static void
print_table (GArray *rows)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("llllrl");
  g_autoptr (GString) out = g_string_new (NULL);

  wb_text_table_add_row (table, _("Claim"), _("Job"), _("Shipper"), _("Received"), _("Lines"),
                         _("Status"));
  for (guint i = 0; i < rows->len; i++)
    {
      const Row *row = &g_array_index (rows, Row, i);
      g_autofree char *received = wb_words_date (&row->claim->received_on);
      g_autofree char *lines = g_strdup_printf ("%u", row->n_lines);

      wb_text_table_add_row (table, row->claim->number, wb_job_order (row->job)->number,
                             row->shipper != NULL ? row->shipper : "", received, lines,
                             wb_words_enum (&wb_claim_statuses, row->claim->status));
    }

  wb_text_table_append (table, 0, out);
  wb_tool_print (out->str);
}

static void
print_json (GArray *rows)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  json_builder_begin_array (builder);
  for (guint i = 0; i < rows->len; i++)
    {
      const Row *row = &g_array_index (rows, Row, i);
      g_autofree char *received = wb_date_to_text (&row->claim->received_on);

      json_builder_begin_object (builder);
      wb_tool_json_add_text (builder, "number", row->claim->number);
      wb_tool_json_add_text (builder, "job", wb_job_order (row->job)->number);
      wb_tool_json_add_text (builder, "shipper", row->shipper);
      wb_tool_json_add_text (builder, "received_on", received);
      json_builder_set_member_name (builder, "lines");
      json_builder_add_int_value (builder, row->n_lines);
      wb_tool_json_add_text (builder, "status",
                             wb_enum_nick (&wb_claim_statuses, row->claim->status));
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
  wb_tool_json_print (builder);
}

int
wb_tool_claim_list (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (GArray) rows = g_array_new (FALSE, TRUE, sizeof (Row));
  g_autoptr (GError) error = NULL;

  if (office == NULL)
    return WB_TOOL_FAILED;

  g_array_set_clear_func (rows, row_clear);
  if (!collect (office, rows, &error))
    return wb_tool_fail (options->arguments[0], error);

  if (options->json)
    print_json (rows);
  else
    print_table (rows);
  return WB_TOOL_DONE;
}

/* --- reckon ----------------------------------------------------------------------------------- */

int
wb_tool_claim_reckon (const WbToolOptions *options)
{
  const char *number = options->arguments[1];
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  g_autoptr (WbReckoning) reckoning = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  const WbClaim *claim;

  if (job == NULL)
    return WB_TOOL_FAILED;

  claim = wb_tool_find_claim (job, number);
  if (claim == NULL)
    return WB_TOOL_FAILED;
  if (options->verify)
    return wb_tool_claim_verify (office, job, claim, options->json);

  reckoning = wb_office_reckon (office, job, claim->record.id, &error);
  if (reckoning == NULL)
    return wb_tool_fail (number, error);

  if (options->json)
    text = wb_reckoning_document_write (reckoning);
  else
    text = wb_reckoning_report (reckoning, options->why);
  wb_tool_print (text);
  return WB_TOOL_DONE;
}

/* --- evidence and shares ---------------------------------------------------------------------- */

int
wb_tool_claim_evidence (const WbToolOptions *options)
{
  const char *number = options->arguments[1];
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  const WbClaim *claim = job != NULL ? wb_tool_find_claim (job, number) : NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  WbTerms *terms;
  GDate today;

  if (claim == NULL)
    return WB_TOOL_FAILED;

  terms = wb_terms_set_find (wb_office_get_terms (office), wb_job_order (job), &error);
  if (terms == NULL)
    return wb_tool_fail (number, error);

  wb_office_today (&today);
  if (options->json)
    text = wb_evidence_document_write (terms, wb_office_get_catalog (office), job, claim, &today);
  else
    text = wb_evidence_report (terms, wb_office_get_catalog (office), job, claim, &today);
  wb_tool_print (text);
  return WB_TOOL_DONE;
}

static int
print_statement (const WbApportionment *shares,
                 const char            *name)
{
  gint handler = wb_apportionment_find (shares, name);
  g_autofree char *text = NULL;
  GDate today;

  if (handler < 0)
    return wb_tool_no_handler (name);

  wb_office_today (&today);
  text = wb_charge_statement_write (shares, (guint) handler, &today);
  wb_tool_print (text);
  return WB_TOOL_DONE;
}

int
wb_tool_claim_shares (const WbToolOptions *options)
{
  const char *number = options->arguments[1];
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  const WbClaim *claim = job != NULL ? wb_tool_find_claim (job, number) : NULL;
  g_autoptr (WbReckoning) reckoning = NULL;
  g_autoptr (WbApportionment) shares = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;

  if (claim == NULL)
    return WB_TOOL_FAILED;
  if (options->json && options->handler != NULL)
    {
      wb_tool_complain (_("A charge statement is text; leave --json or --handler out."));
      return WB_TOOL_USAGE;
    }

  reckoning = wb_office_reckon (office, job, claim->record.id, &error);
  if (reckoning != NULL)
    shares = wb_apportion (reckoning, options->equal ? WB_APPORTION_EQUAL : WB_APPORTION_LAST,
                           &error);
  if (shares == NULL)
    return wb_tool_fail (number, error);

  if (options->handler != NULL)
    return print_statement (shares, options->handler);

  text = options->json ? wb_shares_document_write (shares) : wb_shares_report (shares);
  wb_tool_print (text);
  return WB_TOOL_DONE;
}
