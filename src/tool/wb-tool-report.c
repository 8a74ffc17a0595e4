/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Commands over all claims of a book: what the finished ones teach, what the open ones come to. */
#include "config.h"

#include "tool/wb-tool-json.h"
#include "tool/wb-tool-private.h"

#include "office/wb-claim-report.h"
#include "office/wb-text-table.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

#include <string.h>

static void
add_amount (JsonBuilder *builder,
            const char  *key,
            gint64       minor,
            const char  *currency)
{
  g_autofree char *text = wb_minor_to_text (minor, currency);

  wb_tool_json_add_text (builder, key, text);
}

static void
add_count (JsonBuilder *builder,
           const char  *key,
           gint64       n)
{
  json_builder_set_member_name (builder, key);
  json_builder_add_int_value (builder, n);
}

/* Members that say what a document is, as in the other documents. */
static void
begin_document (JsonBuilder *builder,
                const char  *format)
{
  json_builder_begin_object (builder);
  wb_tool_json_add_text (builder, "format", format);
  add_count (builder, "version", 1);
}

static void
add_faults (JsonBuilder *builder,
            GPtrArray   *faults)
{
  json_builder_set_member_name (builder, "faults");
  json_builder_begin_array (builder);
  for (guint i = 0; i < faults->len; i++)
    json_builder_add_string_value (builder, g_ptr_array_index (faults, i));
  json_builder_end_array (builder);
}

static void
print_faults (GPtrArray *faults)
{
  for (guint i = 0; i < faults->len; i++)
    wb_tool_complain ("%s", (const char *) g_ptr_array_index (faults, i));
}

static WbClaimReport *
gather (const WbToolOptions *options,
        WbOffice            *office)
{
  g_autoptr (GError) error = NULL;
  WbClaimReport *report = wb_office_claim_report (office, NULL, NULL, &error);

  if (report == NULL)
    wb_tool_fail (options->arguments[0], error);
  return report;
}

/* --- what finished claims teach --------------------------------------------------------------- */

static void
add_row (WbTextTable       *table,
         const WbLossGroup *group,
         const char        *name)
{
  g_autofree char *lines = g_strdup_printf ("%u", group->lines->len);
  g_autofree char *claims = g_strdup_printf ("%u", group->n_claims);
  g_autofree char *demanded = wb_words_minor (group->demanded, group->currency);
  g_autofree char *owed = wb_words_minor (group->owed, group->currency);
  g_autofree char *paid = wb_words_minor (group->paid, group->currency);
  g_autofree char *rate = wb_loss_rate_words (group);

  wb_text_table_add_row (table, name, lines, claims, demanded, owed, paid, rate);
}

static void
print_table (const WbLossReport *report,
             const WbCatalog    *catalog)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("lrrrrrl");
  g_autoptr (GString) out = g_string_new (NULL);
  g_autofree char *undated = wb_loss_undated_words (report);

  wb_text_table_add_row (table, wb_words_enum (&wb_loss_by, (int) report->by), _("Lines"),
                         _("Claims"), _("Demanded"), _("Owed"), _("Paid"),
                         wb_loss_by_has_moved (report->by) ? _("Pieces") : "");
  for (guint i = 0; i < report->groups->len; i++)
    {
      const WbLossGroup *group = g_ptr_array_index (report->groups, i);
      g_autofree char *name = wb_loss_key_words (report->by, group->key, catalog);

      add_row (table, group, name);
    }
  for (guint i = 0; i < report->totals->len; i++)
    add_row (table, g_ptr_array_index (report->totals, i), _("Total"));
  wb_text_table_append (table, 0, out);
  if (*undated != '\0')
    g_string_append_printf (out, "\n%s\n", undated);
  wb_tool_print (out->str);
}

static void
add_group (JsonBuilder       *builder,
           const WbLossGroup *group,
           const char        *name)
{
  gint64 hundredths, minor;

  json_builder_begin_object (builder);
  wb_tool_json_add_text (builder, "key", group->key);
  wb_tool_json_add_text (builder, "name", name);
  wb_tool_json_add_text (builder, "currency", group->currency);
  add_count (builder, "lines", group->lines->len);
  add_count (builder, "claims", group->n_claims);
  add_count (builder, "pieces_claimed", group->n_pieces);
  add_count (builder, "lines_unreckoned", group->n_unreckoned);
  add_amount (builder, "demanded", group->demanded, group->currency);
  add_amount (builder, "owed", group->owed, group->currency);
  add_amount (builder, "paid", group->paid, group->currency);
  if (group->moved != WB_INTEGER_UNSET)
    add_count (builder, "pieces_moved", group->moved);
  if (wb_loss_group_rate (group, &hundredths))
    add_count (builder, "claimed_of_10000_moved", hundredths);
  if (wb_loss_group_cost (group, &minor))
    add_amount (builder, "owed_for_100_moved", minor, group->currency);
  json_builder_end_object (builder);
}

static void
print_json (const WbLossReport  *report,
            const WbClaimReport *claims,
            const WbCatalog     *catalog,
            const GDate         *from,
            const GDate         *to)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();
  g_autofree char *first = wb_date_to_text (from);
  g_autofree char *last = wb_date_to_text (to);

  begin_document (builder, "wainbook-claim-report");
  wb_tool_json_add_text (builder, "by", wb_enum_nick (&wb_loss_by, (int) report->by));
  wb_tool_json_add_text (builder, "from", first);
  wb_tool_json_add_text (builder, "to", last);
  add_count (builder, "claims_undated", report->n_undated);
  json_builder_set_member_name (builder, "groups");
  json_builder_begin_array (builder);
  for (guint i = 0; i < report->groups->len; i++)
    {
      const WbLossGroup *group = g_ptr_array_index (report->groups, i);
      g_autofree char *name = wb_loss_key_words (report->by, group->key, catalog);

      add_group (builder, group, name);
    }
  json_builder_end_array (builder);
  json_builder_set_member_name (builder, "totals");
  json_builder_begin_array (builder);
  for (guint i = 0; i < report->totals->len; i++)
    add_group (builder, g_ptr_array_index (report->totals, i), NULL);
  json_builder_end_array (builder);
  add_faults (builder, claims->faults);
  json_builder_end_object (builder);
  wb_tool_json_print (builder);
}

/* Reads what is asked for before the book is opened. */
static gboolean
read_question (const WbToolOptions  *options,
               int                  *by,
               GDate                *from,
               GDate                *to)
{
  g_autoptr (GError) error = NULL;

  *by = WB_LOSS_BY_CAUSE;
  if ((options->by != NULL && !wb_enum_parse (&wb_loss_by, options->by, by, &error)) ||
      !wb_loss_period_parse (options->from, options->to, from, to, &error))
    {
      wb_tool_fail (NULL, error);
      return FALSE;
    }
  return TRUE;
}

int
wb_tool_claim_report (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = NULL;
  g_autoptr (WbClaimReport) claims = NULL;
  g_autoptr (WbLossReport) report = NULL;
  g_autoptr (GError) error = NULL;
  const WbCatalog *catalog;
  GDate from, to;
  int by;

  if (!read_question (options, &by, &from, &to))
    return WB_TOOL_FAILED;
  office = wb_tool_open (options);
  claims = office != NULL ? gather (options, office) : NULL;
  if (claims == NULL)
    return WB_TOOL_FAILED;
  report = wb_loss_report (claims->lines, claims->moved, (WbLossBy) by, &from, &to, &error);
  if (report == NULL)
    return wb_tool_fail (options->arguments[0], error);

  catalog = wb_office_get_catalog (office);
  if (options->json)
    {
      print_json (report, claims, catalog, &from, &to);
      return WB_TOOL_DONE;
    }
  print_faults (claims->faults);
  if (options->csv || options->output != NULL)
    {
      g_autofree char *text = wb_loss_report_to_csv (report, catalog);

      return wb_tool_deliver (options, text, strlen (text));
    }
  if (report->groups->len == 0)
    wb_tool_print_line ("%s\n", _("No claim was finished and no piece delivered in this time."));
  else
    print_table (report, catalog);
  return WB_TOOL_DONE;
}

/* --- what open claims come to ----------------------------------------------------------------- */

static void
print_total (WbTextTable *table,
             const char  *what,
             gint64       minor,
             const char  *currency)
{
  g_autofree char *text = wb_words_minor (minor, currency);

  wb_text_table_add_row (table, what, text);
}

static void
print_totals (const WbClaimTotals *totals)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("lr");
  g_autoptr (GString) out = g_string_new (NULL);

  g_string_append_printf (out, ngettext ("%u open claim in %s\n", "%u open claims in %s\n",
                                         totals->n_claims), totals->n_claims, totals->currency);
  print_total (table, _("Demanded"), totals->demanded, totals->currency);
  print_total (table, _("Owed"), totals->owed, totals->currency);
  print_total (table, _("Reserve"), totals->reserve, totals->currency);
  print_total (table, _("Reserve less owed"), totals->difference, totals->currency);
  print_total (table, _("Paid"), totals->paid, totals->currency);
  print_total (table, _("Still to be paid"), totals->balance, totals->currency);
  print_total (table, _("Charged to handlers"), totals->charged, totals->currency);
  print_total (table, _("Recovered from handlers"), totals->recovered, totals->currency);
  wb_text_table_append (table, 2, out);
  if (totals->n_unreserved > 0)
    g_string_append_printf (out, ngettext ("  Nothing is set aside for %u of them.\n",
                                           "  Nothing is set aside for %u of them.\n",
                                           totals->n_unreserved), totals->n_unreserved);
  if (totals->n_unreckoned > 0)
    g_string_append_printf (out, ngettext ("  %u of them could not be reckoned.\n",
                                           "  %u of them could not be reckoned.\n",
                                           totals->n_unreckoned), totals->n_unreckoned);
  wb_tool_print (out->str);
}

static void
add_totals (JsonBuilder         *builder,
            const WbClaimTotals *totals)
{
  json_builder_begin_object (builder);
  wb_tool_json_add_text (builder, "currency", totals->currency);
  add_count (builder, "claims", totals->n_claims);
  add_count (builder, "claims_unreckoned", totals->n_unreckoned);
  add_count (builder, "claims_unreserved", totals->n_unreserved);
  add_amount (builder, "demanded", totals->demanded, totals->currency);
  add_amount (builder, "owed", totals->owed, totals->currency);
  add_amount (builder, "reserve", totals->reserve, totals->currency);
  add_amount (builder, "reserve_less_owed", totals->difference, totals->currency);
  add_amount (builder, "paid", totals->paid, totals->currency);
  add_amount (builder, "balance", totals->balance, totals->currency);
  add_amount (builder, "charged", totals->charged, totals->currency);
  add_amount (builder, "recovered", totals->recovered, totals->currency);
  json_builder_end_object (builder);
}

static void
print_totals_json (const WbClaimReport *claims)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  begin_document (builder, "wainbook-claim-totals");
  json_builder_set_member_name (builder, "totals");
  json_builder_begin_array (builder);
  for (guint i = 0; i < claims->open->len; i++)
    add_totals (builder, &g_array_index (claims->open, WbClaimTotals, i));
  json_builder_end_array (builder);
  add_faults (builder, claims->faults);
  json_builder_end_object (builder);
  wb_tool_json_print (builder);
}

int
wb_tool_claim_totals (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbClaimReport) claims = office != NULL ? gather (options, office) : NULL;

  if (claims == NULL)
    return WB_TOOL_FAILED;
  if (options->json)
    {
      print_totals_json (claims);
      return WB_TOOL_DONE;
    }
  print_faults (claims->faults);
  if (claims->open->len == 0)
    wb_tool_print_line ("%s\n", _("No claim is open."));
  for (guint i = 0; i < claims->open->len; i++)
    print_totals (&g_array_index (claims->open, WbClaimTotals, i));
  return WB_TOOL_DONE;
}
