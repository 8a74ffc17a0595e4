/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command on quotes of a claim: list them, note one, take one as the figure of its line. A
 * quote is called by the number of its line and its place among the quotes there, as in "2.1". */
#include "config.h"

#include "tool/wb-tool-json.h"
#include "tool/wb-tool-private.h"

#include "core/wb-claim-set.h"
#include "core/wb-core.h"
#include "core/wb-quote.h"
#include "office/wb-text-table.h"
#include "office/wb-words-quote.h"

#include <glib/gi18n.h>
#include <inttypes.h>

/* --- finding ---------------------------------------------------------------------------------- */

static int
compare_numbers (gconstpointer a,
                 gconstpointer b)
{
  const WbClaimLine *x = *(const WbClaimLine *const *) a;
  const WbClaimLine *y = *(const WbClaimLine *const *) b;

  return (x->number > y->number) - (x->number < y->number);
}

/* Returns: (transfer container): the lines of @claim by number. */
static GPtrArray *
list_lines (const WbJob   *job,
            const WbClaim *claim)
{
  GPtrArray *lines = g_ptr_array_new ();

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *line = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);

      if (g_strcmp0 (line->claim, claim->record.id) == 0)
        g_ptr_array_add (lines, (gpointer) line);
    }
  g_ptr_array_sort (lines, compare_numbers);
  return lines;
}

const WbClaimLine *
wb_tool_find_line (const WbJob   *job,
                   const WbClaim *claim,
                   const char    *number)
{
  g_autoptr (GPtrArray) lines = list_lines (job, claim);
  guint64 wanted;

  if (g_ascii_string_to_unsigned (number, 10, 1, G_MAXINT32, &wanted, NULL))
    for (guint i = 0; i < lines->len; i++)
      {
        const WbClaimLine *line = g_ptr_array_index (lines, i);

        if (line->number == (gint64) wanted)
          return line;
      }
  /* Translators: the number of a claim, and what was typed for a line. */
  wb_tool_complain (_("Claim %s has no line “%s”; “wainbook claim reckon” lists its lines."),
                    claim->number, number);
  return NULL;
}

/* Returns: (nullable): the quote that "2.1" means, with the fault told when there is none. */
static const WbQuote *
find_quote (const WbJob   *job,
            const WbClaim *claim,
            const char    *name)
{
  g_auto (GStrv) parts = g_strsplit (name, ".", 2);
  const WbClaimLine *line;
  g_autoptr (GPtrArray) quotes = NULL;
  guint64 place;

  if (g_strv_length (parts) != 2
      || !g_ascii_string_to_unsigned (parts[1], 10, 1, G_MAXINT32, &place, NULL))
    {
      wb_tool_complain (_("“%s” is no quote; write line and place with a point between, as in "
                          "“2.1”."), name);
      return NULL;
    }
  line = wb_tool_find_line (job, claim, parts[0]);
  if (line == NULL)
    return NULL;
  quotes = wb_quotes_of (job, line->record.id);
  if (place <= quotes->len)
    return g_ptr_array_index (quotes, place - 1);
  wb_tool_complain (_("There is no quote “%s”; “wainbook claim quote” lists them."), name);
  return NULL;
}

/* --- list ------------------------------------------------------------------------------------- */

static void
add_rows (WbTextTable       *table,
          const WbJob       *job,
          const WbClaimLine *line)
{
  g_autoptr (GPtrArray) quotes = wb_quotes_of (job, line->record.id);

  for (guint i = 0; i < quotes->len; i++)
    {
      const WbQuote *quote = g_ptr_array_index (quotes, i);
      g_autofree char *name = g_strdup_printf ("%" G_GINT64_FORMAT ".%u", line->number, i + 1);
      g_autofree char *amount = wb_words_money (quote->amount);
      g_autofree char *on = wb_words_date (&quote->on);
      g_autofree char *state = wb_words_quote_state (job, quote);

      wb_text_table_add_row (table, name, wb_words_enum (&wb_quote_kinds, (int) quote->kind),
                             quote->source != NULL ? quote->source : "–", on, amount,
                             state != NULL ? state : "");
      if (quote->notes != NULL)
        wb_text_table_add_note (table, 6, quote->notes);
    }
}

static void
print_table (const WbJob *job,
             GPtrArray   *lines)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("llllrl");
  g_autoptr (GString) out = g_string_new (NULL);

  wb_text_table_add_row (table, _("Quote"), _("For"), _("From whom"), _("Date"), _("Amount"),
                         _("Figure of the line"));
  for (guint i = 0; i < lines->len; i++)
    add_rows (table, job, g_ptr_array_index (lines, i));
  if (wb_text_table_n_rows (table) == 1)
    {
      wb_tool_print_line ("%s\n", _("No quote is noted."));
      return;
    }
  wb_text_table_append (table, 0, out);
  wb_tool_print (out->str);
}

static void
add_quote (JsonBuilder       *builder,
           const WbJob       *job,
           const WbClaimLine *line,
           const WbQuote     *quote,
           guint              place)
{
  g_autofree char *name = g_strdup_printf ("%" G_GINT64_FORMAT ".%u", line->number, place);
  g_autofree char *on = wb_date_to_text (&quote->on);
  g_autofree char *amount = wb_money_to_text (quote->amount);

  json_builder_begin_object (builder);
  wb_tool_json_add_text (builder, "quote", name);
  wb_tool_json_add_text (builder, "kind", wb_enum_nick (&wb_quote_kinds, (int) quote->kind));
  wb_tool_json_add_text (builder, "source", quote->source);
  wb_tool_json_add_text (builder, "on", on);
  wb_tool_json_add_text (builder, "amount", amount);
  wb_tool_json_add_text (builder, "notes", quote->notes);
  json_builder_set_member_name (builder, "taken");
  json_builder_add_boolean_value (builder, quote->taken);
  json_builder_set_member_name (builder, "differs");
  json_builder_add_boolean_value (builder, wb_quote_differs (job, quote));
  json_builder_end_object (builder);
}

static void
print_json (const WbJob *job,
            GPtrArray   *lines)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  json_builder_begin_array (builder);
  for (guint i = 0; i < lines->len; i++)
    {
      const WbClaimLine *line = g_ptr_array_index (lines, i);
      g_autoptr (GPtrArray) quotes = wb_quotes_of (job, line->record.id);

      for (guint j = 0; j < quotes->len; j++)
        add_quote (builder, job, line, g_ptr_array_index (quotes, j), j + 1);
    }
  json_builder_end_array (builder);  wb_tool_json_print (builder);
}

/* --- note and take ---------------------------------------------------------------------------- */

/* Reads one field as it is written in a job document, with the fault told. */
static gboolean
set_field (WbQuote    *quote,
           const char *name,
           const char *text,
           const char *currency)
{
  const WbField *field = wb_record_type_field (wb_record_type (WB_KIND_QUOTE), name);
  g_autoptr (GError) error = NULL;

  if (text == NULL || wb_record_set_text (quote, field, text, currency, &error))
    return TRUE;
  wb_tool_fail (NULL, error);
  return FALSE;
}

static WbQuote *
read_quote (const WbToolOptions *options,
            const WbJob         *job,
            const WbClaimLine   *line)
{
  g_autofree char *id = wb_office_new_id ();
  g_autoptr (WbQuote) quote = wb_record_new (WB_KIND_QUOTE, id);
  const char *currency = wb_job_get_currency (job);

  wb_set_text (&quote->claim_line, line->record.id);
  wb_office_today (&quote->on);
  if (!set_field (quote, "kind", options->arguments[3], currency)
      || !set_field (quote, "amount", options->arguments[4], currency)
      || !set_field (quote, "source", options->source, currency)
      || !set_field (quote, "on", options->on, currency))
    return NULL;
  return g_steal_pointer (&quote);
}

static int
save (WbOffice   *office,
      WbJob      *job,
      WbJob      *changed,
      const char *deed,
      const char *name)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) stored = wb_office_save_job (office, job, changed, deed, NULL, &error);

  return stored != NULL ? WB_TOOL_DONE : wb_tool_fail (name, error);
}

static int
note_quote (const WbToolOptions *options,
            WbOffice            *office,
            WbJob               *job,
            const WbClaim       *claim)
{
  const WbClaimLine *line = wb_tool_find_line (job, claim, options->arguments[2]);
  g_autoptr (WbQuote) quote = line != NULL ? read_quote (options, job, line) : NULL;
  g_autoptr (GPtrArray) before = NULL;
  g_autoptr (WbJob) changed = NULL;
  int status;

  if (quote == NULL)
    return WB_TOOL_FAILED;
  before = wb_quotes_of (job, line->record.id);
  changed = wb_job_with (job, quote);
  status = save (office, job, changed, _("Add quote"), claim->number);
  if (status == WB_TOOL_DONE)
    wb_tool_print_line (_("Noted as quote %" PRId64 ".%u.\n"), line->number,
                        before->len + 1);
  return status;
}

static int
take_quote (const WbToolOptions *options,
            WbOffice            *office,
            WbJob               *job,
            const WbClaim       *claim)
{
  const WbQuote *quote = find_quote (job, claim, options->take);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) changed = NULL;
  g_autofree char *words = NULL;
  int status;

  if (quote == NULL)
    return WB_TOOL_FAILED;
  changed = wb_quote_take (job, quote->record.id, &error);
  if (changed == NULL)
    return wb_tool_fail (options->take, error);
  status = save (office, job, changed, _("Take quote"), claim->number);
  words = wb_words_quote (quote);
  if (status == WB_TOOL_DONE)
    /* Translators: %s is a quote: "Repair, $240.00, Hollin Joinery, 3 Jun 2026". */
    wb_tool_print_line (_("Taken as the figure of the line: %s.\n"), words);
  return status;
}

int
wb_tool_claim_quote (const WbToolOptions *options)
{
  guint n = g_strv_length (options->arguments);
  g_autoptr (WbOffice) office = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autoptr (GPtrArray) lines = NULL;
  const WbClaim *claim;

  if (n != 2 && n != 5)
    {
      wb_tool_complain (_("A new quote is LINE, KIND and AMOUNT, as in “2 repair 240”; without "
                          "them the quotes are listed."));
      return WB_TOOL_USAGE;
    }
  if (n == 5 && options->take != NULL)
    {
      wb_tool_complain (_("Note the quote first, then take it by its number."));
      return WB_TOOL_USAGE;
    }
  office = wb_tool_open (options);
  job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  claim = job != NULL ? wb_tool_find_claim (job, options->arguments[1]) : NULL;
  if (claim == NULL)
    return WB_TOOL_FAILED;
  if (n == 5)
    return note_quote (options, office, job, claim);
  if (options->take != NULL)
    return take_quote (options, office, job, claim);

  lines = list_lines (job, claim);
  if (options->json)
    print_json (job, lines);
  else
    print_table (job, lines);
  return WB_TOOL_DONE;
}
