/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who bears a claim as text for a terminal and as JSON for other programs. Amounts in JSON are
 * decimal text in the currency named beside them; only the sentences are in the reader's
 * language. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-shares-report.h"

#include "office/wb-charge-statement.h"
#include "office/wb-text-table.h"
#include "office/wb-words-bearing.h"

#include <glib/gi18n.h>
#include <json-glib/json-glib.h>

/* --- shares as text --------------------------------------------------------------------------- */

static void
append_line_shares (GString               *out,
                    const WbApportionment *self,
                    guint                  index)
{
  const char *currency = self->reckoning->terms->currency;
  const WbLineShares *line = &self->lines[index];
  g_autoptr (WbTextTable) table = wb_text_table_new ("lr");
  g_autofree char *name = wb_words_claim_line (self->reckoning->job, line->line);
  g_autofree char *owed = wb_words_minor (line->owed, currency);
  g_autofree char *head = g_strdup_printf ("%s: %s", name, owed);
  g_autofree char *words = wb_words_shared (self, index);
  g_autofree char *fault = wb_words_hand_fault (line);
  g_autofree char *cut = wb_words_cut (self, index);
  g_autofree char *source = wb_words_shared_source (line->why);
  g_autofree char *why = source != NULL ? g_strdup_printf ("%s [%s]", words, source)
                                        : g_strdup (words);

  wb_text_append_paragraph (out, 0, 3, head);
  wb_text_append_paragraph (out, 2, 2, why);
  if (fault != NULL)
    wb_text_append_paragraph (out, 2, 2, fault);
  if (cut != NULL)
    wb_text_append_paragraph (out, 2, 2, cut);
  for (guint i = 0; i < self->n_handlers; i++)
    {
      g_autofree char *who = NULL;
      g_autofree char *part = NULL;

      if (line->parts[i] == 0)
        continue;
      who = wb_words_handler (&self->handlers[i]);
      part = wb_words_minor (line->parts[i], currency);
      wb_text_table_add_row (table, who, part);
    }
  wb_text_table_append (table, 4, out);
}

static void
append_handlers (GString               *out,
                 const WbApportionment *self)
{
  const char *currency = self->reckoning->terms->currency;
  g_autoptr (WbTextTable) table = wb_text_table_new ("lrrrr");

  /* Translators: what is still to come back from a handler. */
  wb_text_table_add_row (table, _("Handler"), _("Bears"), _("Charged"), _("Recovered"), _("Open"));
  for (guint i = 0; i < self->n_handlers; i++)
    {
      const WbHandler *handler = &self->handlers[i];
      g_autofree char *name = wb_words_handler (handler);
      g_autofree char *borne = wb_words_minor (handler->borne, currency);
      g_autofree char *charged = wb_words_minor (handler->charged, currency);
      g_autofree char *recovered = wb_words_minor (handler->recovered, currency);
      g_autofree char *open = wb_words_minor (handler->open, currency);
      g_autofree char *over = wb_words_over_limit (self, i);
      g_autofree char *difference = wb_charge_difference (self, i);

      wb_text_table_add_row (table, name, borne, charged, recovered, open);
      if (over != NULL)
        wb_text_table_add_note (table, 2, over);
      if (difference != NULL)
        wb_text_table_add_note (table, 2, difference);
    }
  wb_text_table_append (table, 0, out);
}

char *
wb_shares_report (const WbApportionment *self)
{
  const char *currency = self->reckoning->terms->currency;
  g_autoptr (GString) out = g_string_new (NULL);
  g_autofree char *owed = wb_words_minor (self->owed, currency);
  g_autofree char *refund = wb_words_minor (self->freight_refund, currency);
  g_autofree char *carrier = wb_words_handler (&self->handlers[0]);
  g_autofree char *unassigned = wb_words_unassigned (self);
  g_autofree char *total = NULL;

  for (guint i = 0; i < self->n_lines; i++)
    {
      append_line_shares (out, self, i);
      g_string_append_c (out, '\n');
    }
  append_handlers (out, self);
  /* Translators: amount, amount, name of the carrier. */
  total = g_strdup_printf (_("Owed for the lines: %s. The freight that is given back, %s, is borne "
                             "by %s alone."), owed, refund, carrier);
  g_string_append_c (out, '\n');
  if (unassigned != NULL)
    wb_text_append_paragraph (out, 0, 0, unassigned);
  wb_text_append_paragraph (out, 0, 0, total);
  return g_string_free (g_steal_pointer (&out), FALSE);
}

/* --- shares as JSON --------------------------------------------------------------------------- */

static void
add_text (JsonBuilder *builder,
          const char  *key,
          const char  *text)
{
  if (text == NULL || *text == '\0')
    return;

  json_builder_set_member_name (builder, key);
  json_builder_add_string_value (builder, text);
}

static void
add_minor (JsonBuilder *builder,
           const char  *key,
           gint64       minor,
           const char  *currency)
{
  g_autofree char *text = wb_minor_to_text (minor, currency);

  add_text (builder, key, text);
}

static void
add_integer (JsonBuilder *builder,
             const char  *key,
             gint64       value)
{
  json_builder_set_member_name (builder, key);
  json_builder_add_int_value (builder, value);
}

static char *
finish (JsonBuilder *builder)
{
  g_autoptr (JsonNode) root = json_builder_get_root (builder);
  g_autofree char *text = json_to_string (root, TRUE);

  return g_strconcat (text, "\n", NULL);
}

static void
add_handler_share (JsonBuilder           *builder,
                   const WbApportionment *self,
                   const WbLineShares    *line,
                   guint                  index)
{
  json_builder_begin_object (builder);
  add_integer (builder, "handler", index);
  json_builder_set_member_name (builder, "could");
  json_builder_add_boolean_value (builder, line->could[index]);
  add_minor (builder, "part", line->parts[index], self->reckoning->terms->currency);
  add_minor (builder, "over_limit", line->cut[index], self->reckoning->terms->currency);
  json_builder_end_object (builder);
}

static void
add_line_shares (JsonBuilder           *builder,
                 const WbApportionment *self,
                 guint                  index)
{
  const WbLineShares *line = &self->lines[index];
  g_autofree char *words = wb_words_shared (self, index);
  g_autofree char *fault = wb_words_hand_fault (line);
  WbChecked checked;

  json_builder_begin_object (builder);
  add_integer (builder, "line", line->line->number);
  add_minor (builder, "owed", line->owed, self->reckoning->terms->currency);
  add_text (builder, "why", wb_enum_nick (&wb_shared_whys, (int) line->why));
  add_text (builder, "noted_at", line->noted_at);
  add_text (builder, "words", words);
  add_text (builder, "citation", wb_shared_citation (line->why, &checked));
  add_text (builder, "fault", fault);
  json_builder_set_member_name (builder, "shares");
  json_builder_begin_array (builder);
  for (guint i = 0; i < self->n_handlers; i++)
    if (line->could[i] || line->parts[i] != 0)
      add_handler_share (builder, self, line, i);
  json_builder_end_array (builder);
  json_builder_end_object (builder);
}

static void
add_handler (JsonBuilder           *builder,
             const WbApportionment *self,
             guint                  index)
{
  const char *currency = self->reckoning->terms->currency;
  const WbHandler *handler = &self->handlers[index];
  g_autofree char *name = wb_words_handler (handler);
  g_autofree char *difference = wb_charge_difference (self, index);

  json_builder_begin_object (builder);
  add_integer (builder, "handler", index);
  add_text (builder, "name", name);
  if (handler->party != NULL)
    add_text (builder, "party", handler->party->record.id);
  if (handler->has_limit)
    add_minor (builder, "limit", handler->limit, currency);
  add_minor (builder, "borne", handler->borne, currency);
  add_minor (builder, "over_limit", handler->excess, currency);
  add_minor (builder, "charged", handler->charged, currency);
  add_minor (builder, "uncharged", handler->uncharged, currency);
  add_minor (builder, "recovered", handler->recovered, currency);
  add_minor (builder, "open", handler->open, currency);
  add_text (builder, "difference", difference);
  json_builder_end_object (builder);
}

char *
wb_shares_document_write (const WbApportionment *self)
{
  const char *currency = self->reckoning->terms->currency;
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  json_builder_begin_object (builder);
  add_text (builder, "claim", self->reckoning->claim->number);
  add_text (builder, "job", wb_job_order (self->reckoning->job)->number);
  add_text (builder, "currency", currency);
  add_text (builder, "rule", wb_enum_nick (&wb_apportion_rules, (int) self->rule));
  add_minor (builder, "owed", self->owed, currency);
  add_minor (builder, "unassigned", self->unassigned, currency);
  add_minor (builder, "freight_refund", self->freight_refund, currency);
  json_builder_set_member_name (builder, "handlers");
  json_builder_begin_array (builder);
  for (guint i = 0; i < self->n_handlers; i++)
    add_handler (builder, self, i);
  json_builder_end_array (builder);
  json_builder_set_member_name (builder, "lines");
  json_builder_begin_array (builder);
  for (guint i = 0; i < self->n_lines; i++)
    add_line_shares (builder, self, i);
  json_builder_end_array (builder);
  json_builder_end_object (builder);
  return finish (builder);
}
