/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A reckoning as a JSON document for other programs. Amounts are decimal text in the currency that
 * the document names, dates ISO 8601, codes nicks; only the sentences are in the reader's
 * language. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-job-document.h"

#include "office/wb-words.h"

#include <json-glib/json-glib.h>

#define FORMAT  "wainbook-reckoning"
#define VERSION 1

static void
add_text (JsonBuilder *builder,
          const char  *key,
          const char  *text)
{
  json_builder_set_member_name (builder, key);
  json_builder_add_string_value (builder, text);
}

static void
add_given_text (JsonBuilder *builder,
                const char  *key,
                const char  *text)
{
  if (text != NULL && *text != '\0')
    add_text (builder, key, text);
}

static void
add_date (JsonBuilder *builder,
          const char  *key,
          const GDate *date)
{
  g_autofree char *text = wb_date_to_text (date);

  add_given_text (builder, key, text);
}

static void
add_boolean (JsonBuilder *builder,
             const char  *key,
             gboolean     value)
{
  json_builder_set_member_name (builder, key);
  json_builder_add_boolean_value (builder, value);
}

static void
add_integer (JsonBuilder *builder,
             const char  *key,
             gint64       value)
{
  json_builder_set_member_name (builder, key);
  json_builder_add_int_value (builder, value);
}

static void
add_amount (JsonBuilder       *builder,
            const WbReckoning *reckoning,
            const char        *key,
            gint64             minor)
{
  g_autofree char *text = wb_minor_to_text (minor, reckoning->terms->currency);

  add_text (builder, key, text);
}

/* --- what is reckoned ------------------------------------------------------------------------- */

static const struct
{
  WbWaiverGap gap;
  const char *nick;
} gap_nicks[] = {
  { WB_WAIVER_NOT_CHOSEN, "not-chosen" },
  { WB_WAIVER_NO_SIGNER, "no-signer" },
  { WB_WAIVER_NO_DATE, "no-date" },
  { WB_WAIVER_NO_MANNER, "no-manner" },
  { WB_WAIVER_NO_DISCLOSURE, "no-disclosure" },
  { WB_WAIVER_AFTER_PICKUP, "after-pickup" },
};

static GStrv
nicks_of_gaps (guint gaps)
{
  g_autoptr (GStrvBuilder) nicks = g_strv_builder_new ();

  for (gsize i = 0; i < G_N_ELEMENTS (gap_nicks); i++)
    {
      if ((gaps & gap_nicks[i].gap) != 0)
        g_strv_builder_add (nicks, gap_nicks[i].nick);
    }

  return g_strv_builder_end (nicks);
}

static void
add_subject (JsonBuilder       *builder,
             const WbReckoning *reckoning)
{
  const WbOrder *order = wb_job_order (reckoning->job);
  const WbTerms *terms = reckoning->terms;

  json_builder_set_member_name (builder, "job");
  json_builder_begin_object (builder);
  add_text (builder, "id", wb_job_get_id (reckoning->job));
  add_given_text (builder, "number", order->number);
  add_given_text (builder, "bill_number", order->bill_number);
  json_builder_end_object (builder);

  json_builder_set_member_name (builder, "claim");
  json_builder_begin_object (builder);
  add_text (builder, "id", reckoning->claim->record.id);
  add_given_text (builder, "number", reckoning->claim->number);
  add_date (builder, "received_on", &reckoning->claim->received_on);
  json_builder_end_object (builder);

  json_builder_set_member_name (builder, "terms");
  json_builder_begin_object (builder);
  add_text (builder, "regime", terms->regime);
  add_text (builder, "title", terms->title);
  add_date (builder, "from", &terms->from);
  add_date (builder, "until", &terms->until);
  add_text (builder, "digest", terms->digest);
  json_builder_end_object (builder);
}

static void
add_verdict (JsonBuilder       *builder,
             const WbReckoning *reckoning)
{
  g_auto (GStrv) gaps = nicks_of_gaps (reckoning->waiver_gaps);

  add_text (builder, "applies", wb_enum_nick (&wb_sides, (int) reckoning->applies));
  json_builder_set_member_name (builder, "waiver_gaps");
  json_builder_begin_array (builder);
  for (guint i = 0; gaps[i] != NULL; i++)
    json_builder_add_string_value (builder, gaps[i]);
  json_builder_end_array (builder);
  add_text (builder, "late", wb_enum_nick (&wb_late_states, (int) reckoning->late));
}

/* --- figures ---------------------------------------------------------------------------------- */

static void
add_side (JsonBuilder       *builder,
          const WbReckoning *reckoning,
          WbSide             side)
{
  const WbSideReckoning *totals = &reckoning->side[side];

  json_builder_set_member_name (builder, wb_enum_nick (&wb_sides, (int) side));
  json_builder_begin_object (builder);
  add_boolean (builder, "offered", totals->offered);
  if (totals->offered)
    {
      add_boolean (builder, "complete", totals->complete);
      if (totals->has_limit)
        {
          add_amount (builder, reckoning, "shipment_limit", totals->shipment_limit);
          add_amount (builder, reckoning, "limit_left", totals->limit_left);
        }
      add_amount (builder, reckoning, "earlier", totals->earlier);
      add_amount (builder, reckoning, "deductible", totals->deductible);
      add_amount (builder, reckoning, "loss", totals->loss);
      add_amount (builder, reckoning, "allowed", totals->allowed);
      add_amount (builder, reckoning, "covered", totals->covered);
      add_amount (builder, reckoning, "deducted", totals->deducted);
      add_amount (builder, reckoning, "owed", totals->owed);
      add_amount (builder, reckoning, "freight_refund", totals->freight_refund);
      add_amount (builder, reckoning, "paid", totals->paid);
      if (totals->freight_paid != 0)
        add_amount (builder, reckoning, "freight_paid", totals->freight_paid);
      add_amount (builder, reckoning, "balance", totals->balance);
    }
  json_builder_end_object (builder);
}

static void
add_line_side (JsonBuilder       *builder,
               const WbReckoning *reckoning,
               guint              index,
               WbSide             side)
{
  const WbLineFigures *figures = &reckoning->lines[index].side[side];

  if (!reckoning->side[side].offered)
    return;

  json_builder_set_member_name (builder, wb_enum_nick (&wb_sides, (int) side));
  json_builder_begin_object (builder);
  add_boolean (builder, "complete", figures->complete);
  add_amount (builder, reckoning, "loss", figures->loss);
  add_amount (builder, reckoning, "allowed", figures->allowed);
  add_amount (builder, reckoning, "covered", figures->covered);
  add_amount (builder, reckoning, "deducted", figures->deducted);
  add_amount (builder, reckoning, "owed", figures->owed);
  json_builder_end_object (builder);
}

static void
add_line (JsonBuilder       *builder,
          const WbReckoning *reckoning,
          guint              index)
{
  const WbLineReckoning *row = &reckoning->lines[index];

  json_builder_begin_object (builder);
  add_text (builder, "id", row->line->record.id);
  add_integer (builder, "number", row->line->number);
  if (row->piece != NULL)
    add_text (builder, "piece", row->piece->record.id);
  add_given_text (builder, "item", row->line->item);
  add_text (builder, "kind", wb_enum_nick (&wb_losses, (int) row->line->loss));
  for (int side = 0; side < WB_N_SIDES; side++)
    add_line_side (builder, reckoning, index, (WbSide) side);
  json_builder_end_object (builder);
}

/* --- reasons ---------------------------------------------------------------------------------- */

static char *
text_of_figure (const WbReckoning *reckoning,
                const WbReason    *reason,
                const WbFigure    *figure)
{
  const WbEnum *list = wb_figure_enum (figure, (WbRule) reason->rule);

  if (figure->name == WB_FIGURE_GAPS)
    {
      g_auto (GStrv) nicks = nicks_of_gaps ((guint) figure->value);

      return g_strjoinv (" ", nicks);
    }
  if (figure->type == WB_FIGURE_TYPE_CODE && list != NULL)
    return g_strdup (wb_enum_nick (list, (int) figure->value));

  return wb_figure_to_text (figure, reckoning->terms->currency);
}

static void
add_figure (JsonBuilder       *builder,
            const WbReckoning *reckoning,
            const WbReason    *reason,
            const WbFigure    *figure)
{
  g_autofree char *text = text_of_figure (reckoning, reason, figure);

  json_builder_begin_object (builder);
  add_text (builder, "name", wb_enum_nick (&wb_figures, figure->name));
  add_text (builder, "value", text);
  json_builder_end_object (builder);
}

static const char *
nick_of_scope (guint scope)
{
  return scope == WB_SCOPE_GENERAL ? "both" : wb_enum_nick (&wb_sides, (int) scope);
}

static void
add_reason (JsonBuilder       *builder,
            const WbReckoning *reckoning,
            const WbReason    *reason)
{
  g_autofree char *heading = wb_words_rule ((WbRule) reason->rule);
  g_autofree char *words = wb_words_reason (reckoning, reason);

  json_builder_begin_object (builder);
  add_text (builder, "rule", wb_enum_nick (&wb_rules, reason->rule));
  add_text (builder, "scope", nick_of_scope (reason->scope));
  if (reason->line != WB_REASON_WHOLE_CLAIM)
    add_integer (builder, "line", reckoning->lines[reason->line].line->number);
  if (reason->key != WB_NO_KEY)
    add_text (builder, "key", wb_enum_nick (&wb_terms_keys, reason->key));

  json_builder_set_member_name (builder, "inputs");
  json_builder_begin_array (builder);
  for (guint i = 0; i < reason->n_inputs; i++)
    add_figure (builder, reckoning, reason, &reason->inputs[i]);
  json_builder_end_array (builder);
  if (reason->result.type != WB_FIGURE_TYPE_NONE)
    {
      json_builder_set_member_name (builder, "result");
      add_figure (builder, reckoning, reason, &reason->result);
    }

  add_text (builder, "heading", heading);
  add_text (builder, "words", words);
  add_given_text (builder, "citation", wb_words_reason_source (reckoning, reason));
  json_builder_end_object (builder);
}

/* --- public ----------------------------------------------------------------------------------- */

char *
wb_reckoning_document_write (const WbReckoning *reckoning)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();
  g_autoptr (JsonGenerator) generator = json_generator_new ();
  g_autoptr (JsonNode) root = NULL;
  g_autofree char *caution = wb_words_caution ();
  g_autofree char *text = NULL;
  const WbReason *reason;
  WbReasonIter iter;

  g_return_val_if_fail (reckoning != NULL, NULL);

  json_builder_begin_object (builder);
  add_text (builder, "format", FORMAT);
  add_integer (builder, "version", VERSION);
  add_text (builder, "currency", reckoning->terms->currency);
  add_subject (builder, reckoning);
  add_verdict (builder, reckoning);
  for (int side = 0; side < WB_N_SIDES; side++)
    add_side (builder, reckoning, (WbSide) side);

  json_builder_set_member_name (builder, "lines");
  json_builder_begin_array (builder);
  for (guint i = 0; i < reckoning->n_lines; i++)
    add_line (builder, reckoning, i);
  json_builder_end_array (builder);

  json_builder_set_member_name (builder, "reasons");
  json_builder_begin_array (builder);
  wb_reason_iter_init (&iter, reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    add_reason (builder, reckoning, reason);
  json_builder_end_array (builder);

  add_text (builder, "caution", caution);
  json_builder_end_object (builder);

  root = json_builder_get_root (builder);
  json_generator_set_root (generator, root);
  json_generator_set_pretty (generator, TRUE);
  json_generator_set_indent (generator, 2);
  text = json_generator_to_data (generator, NULL);

  return g_strconcat (text, "\n", NULL);
}
