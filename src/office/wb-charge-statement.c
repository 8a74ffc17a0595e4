/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes charge statements and holds them against what would be stated today. What each bears is
 * core's; nothing is sent from here. */
#define G_LOG_DOMAIN "wb-office"
#include "config.h"

#include "office/wb-charge-statement.h"

#include "office/wb-office.h"
#include "office/wb-text-table.h"
#include "office/wb-words-bearing.h"

#include <glib/gi18n.h>
#include <string.h>

/* --- the statement ---------------------------------------------------------------------------- */

static void
add_row (WbTextTable *table,
         const char  *label,
         const char  *value)
{
  if (value != NULL)
    wb_text_table_add_row (table, label, value);
}

static void
append_head (GString               *out,
             const WbApportionment *self,
             guint                  handler,
             const GDate           *on)
{
  const WbOrder *order = wb_job_order (self->reckoning->job);
  const WbClaim *claim = self->reckoning->claim;
  g_autoptr (WbTextTable) table = wb_text_table_new ("ll");
  g_autofree char *to = wb_words_handler (&self->handlers[handler]);
  g_autofree char *from = wb_words_handler (&self->handlers[0]);
  g_autofree char *date = wb_words_date (on);

  add_row (table, _("Charge statement for"), to);
  add_row (table, _("From"), from);
  add_row (table, _("Date"), date);
  add_row (table, _("Claim"), claim->number);
  add_row (table, _("Claimant"), claim->claimant);
  add_row (table, _("Job"), order->number);
  add_row (table, _("Bill of lading"), order->bill_number);
  wb_text_table_append (table, 0, out);
  g_string_append_c (out, '\n');
}

static void
add_line (WbTextTable           *table,
          const WbApportionment *self,
          guint                  index,
          guint                  handler)
{
  const WbLineShares *line = &self->lines[index];
  g_autofree char *name = wb_words_claim_line (self->reckoning->job, line->line);
  g_autofree char *part = wb_words_minor (line->parts[handler], self->reckoning->terms->currency);
  g_autofree char *why = wb_words_shared (self, index);
  g_autofree char *source = wb_words_shared_source (line->why);
  g_autofree char *cut = line->cut[handler] != 0 ? wb_words_cut (self, index) : NULL;

  wb_text_table_add_row (table, name, part);
  wb_text_table_add_note (table, 4, why);
  if (source != NULL)
    wb_text_table_add_note (table, 4, source);
  if (cut != NULL)
    wb_text_table_add_note (table, 4, cut);
}

static void
append_lines (GString               *out,
              const WbApportionment *self,
              guint                  handler)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("lr");

  for (guint i = 0; i < self->n_lines; i++)
    if (self->lines[i].parts[handler] != 0 || self->lines[i].cut[handler] != 0)
      add_line (table, self, i, handler);
  if (wb_text_table_n_rows (table) == 0)
    {
      wb_text_append_paragraph (out, 0, 0, _("You bear nothing of this claim."));
      g_string_append_c (out, '\n');
      return;
    }

  wb_text_append_paragraph (out, 0, 0,
                            _("The customer claims for goods that were in your hands. Of what is "
                              "owed to the customer you bear, line by line:"));
  g_string_append_c (out, '\n');
  wb_text_table_append (table, 0, out);
  g_string_append_c (out, '\n');
}

static void
append_sum (GString               *out,
            const WbApportionment *self,
            guint                  handler)
{
  g_autofree char *over = wb_words_over_limit (self, handler);
  g_autofree char *amount = wb_words_minor (self->handlers[handler].borne,
                                            self->reckoning->terms->currency);
  /* Translators: an amount. */
  g_autofree char *sum = g_strdup_printf (_("You bear %s in all."), amount);

  wb_text_append_paragraph (out, 0, 0, sum);
  if (over != NULL)
    wb_text_append_paragraph (out, 0, 0, over);
  g_string_append_c (out, '\n');
}

static void
append_answers (GString               *out,
                const WbApportionment *self)
{
  const char *number = self->reckoning->claim->number;
  g_autofree char *carrier = wb_words_handler (&self->handlers[0]);
  /* Translators: the name of the carrier, the number of a claim. */
  g_autofree char *pay = g_strdup_printf (_("Pay this amount to %s and name claim %s; or answer in "
                                            "writing, line by line, and send the paper that shows "
                                            "it:"), carrier, number != NULL ? number : "–");
  const char *const answers[] = {
    _("an exception that was noted and signed when the goods came to you;"),
    _("a receipt without exception from whoever took the goods from you;"),
    _("a record that somebody else had the goods at that time;"),
    _("that your agreement with the carrier sets another share or a lower limit;"),
    _("that the amount owed for a line is another, and why."),
  };

  wb_text_append_paragraph (out, 0, 0, pay);
  for (gsize i = 0; i < G_N_ELEMENTS (answers); i++)
    {
      g_autofree char *item = g_strconcat ("- ", answers[i], NULL);

      wb_text_append_paragraph (out, 2, 2, item);
    }
}

char *
wb_charge_statement_write (const WbApportionment *self,
                           guint                  handler,
                           const GDate           *on)
{
  g_autoptr (GString) out = g_string_new (NULL);

  g_return_val_if_fail (handler < self->n_handlers, NULL);
  g_return_val_if_fail (wb_date_is_set (on), NULL);

  append_head (out, self, handler, on);
  append_lines (out, self, handler);
  append_sum (out, self, handler);
  if (self->handlers[handler].borne > 0)
    append_answers (out, self);
  return g_string_free (g_steal_pointer (&out), FALSE);
}

WbJob *
wb_charge_statement_state (const WbApportionment  *self,
                           const GDate            *on,
                           GError                **error)
{
  g_auto (GStrv) statements = g_new0 (char *, self->n_handlers + 1);

  for (guint i = 0; i < self->n_handlers; i++)
    statements[i] = wb_charge_statement_write (self, i, on);
  return wb_charge_state (self, (const char *const *) statements, on, wb_office_new_id, error);
}

/* --- what was stated -------------------------------------------------------------------------- */

const char *
wb_charge_statement_kept (const WbApportionment *self,
                          guint                  handler,
                          GDate                 *on)
{
  g_autoptr (GPtrArray) charges = wb_charges_of (self, handler);

  for (guint i = 0; i < charges->len; i++)
    {
      const WbHandlerCharge *charge = g_ptr_array_index (charges, i);

      if (charge->statement == NULL)
        continue;
      if (on != NULL)
        *on = charge->stated_on;
      return charge->statement;
    }
  return NULL;
}

char *
wb_charge_statement_file_name (const WbApportionment *self,
                               guint                  handler)
{
  const char *number = self->reckoning->claim->number;
  g_autofree char *name = wb_words_handler (&self->handlers[handler]);
  GString *out = g_string_new (number != NULL ? number : _("claim"));

  g_string_append_c (out, '-');
  for (const char *p = name; *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);

      if (g_unichar_isalnum (c))
        g_string_append_unichar (out, c);
      else if (out->str[out->len - 1] != '-')
        g_string_append_c (out, '-');
    }
  /* What a file system takes for a path is nothing that a number may bring. */
  g_strdelimit (out->str, "/\\:", '-');
  g_string_append (out, ".txt");
  return g_string_free (out, FALSE);
}

/* --- whether it still agrees ------------------------------------------------------------------ */

static char *
squeeze (const char *line)
{
  GString *out = g_string_new (NULL);

  for (const char *p = line; *p != '\0'; p++)
    if (*p != ' ' || (out->len > 0 && out->str[out->len - 1] != ' '))
      g_string_append_c (out, *p);
  return g_strchomp (g_string_free (out, FALSE));
}

/* Returns: (transfer full): the lines of a text that say something, each blank in them one
 * space. */
static GPtrArray *
lines_of (const char *text)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  GPtrArray *out = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_autofree char *line = squeeze (lines[i]);

      if (*line != '\0')
        g_ptr_array_add (out, g_steal_pointer (&line));
    }
  return out;
}

/* Returns: (transfer full) (nullable): the first line in which two statements differ, in words. */
static char *
first_difference (const char *stated,
                  const char *now)
{
  g_autoptr (GPtrArray) was = lines_of (stated);
  g_autoptr (GPtrArray) is = lines_of (now);

  for (guint i = 0; i < MAX (was->len, is->len); i++)
    {
      const char *before = i < was->len ? g_ptr_array_index (was, i) : _("(nothing more)");
      const char *after = i < is->len ? g_ptr_array_index (is, i) : _("(nothing more)");

      if (strcmp (before, after) != 0)
        /* Translators: two lines of text. */
        return g_strdup_printf (_("Stated: “%s”. Today it would say: “%s”."), before, after);
    }
  return NULL;
}

static char *
difference_of_amount (const WbApportionment *self,
                      const WbHandler       *handler,
                      const GDate           *on)
{
  const char *currency = self->reckoning->terms->currency;
  g_autofree char *stated = wb_words_minor (handler->charged, currency);
  g_autofree char *bears = wb_words_minor (handler->borne, currency);
  g_autofree char *date = wb_words_date (on);

  if (handler->borne > handler->charged)
    {
      g_autofree char *more = wb_words_minor (handler->borne - handler->charged, currency);

      /* Translators: date, amount, amount, amount. */
      return g_strdup_printf (_("On %s %s were stated; it now bears %s, %s more. State the charges "
                                "again."), date, stated, bears, more);
    }
  else
    {
      g_autofree char *less = wb_words_minor (handler->charged - handler->borne, currency);

      /* Translators: date, amount, amount, amount. */
      return g_strdup_printf (_("On %s %s were stated; it now bears %s, %s less. State the charges "
                                "again."), date, stated, bears, less);
    }
}

static gboolean
anybody_was_charged (const WbApportionment *self)
{
  for (guint i = 1; i < self->n_handlers; i++)
    {
      g_autoptr (GPtrArray) charges = wb_charges_of (self, i);

      if (charges->len > 0)
        return TRUE;
    }
  return FALSE;
}

static char *
not_stated (const WbApportionment *self,
            const WbHandler       *handler)
{
  g_autofree char *bears = wb_words_minor (handler->borne, self->reckoning->terms->currency);

  if (handler->borne == 0 || !anybody_was_charged (self))
    return NULL;
  /* Translators: an amount. */
  return g_strdup_printf (_("It bears %s, and nothing was stated to it. State the charges again."),
                          bears);
}

char *
wb_charge_difference (const WbApportionment *self,
                      guint                  handler)
{
  g_autoptr (GPtrArray) charges = NULL;
  const WbHandlerCharge *charge;
  const char *kept;
  g_autofree char *now = NULL;
  g_autofree char *place = NULL;
  g_autofree char *amount = NULL;
  GDate on;

  g_return_val_if_fail (handler < self->n_handlers, NULL);

  if (handler == 0)
    return NULL;
  charges = wb_charges_of (self, handler);
  if (charges->len == 0)
    return not_stated (self, &self->handlers[handler]);

  charge = g_ptr_array_index (charges, 0);
  if (self->handlers[handler].uncharged != 0)
    amount = difference_of_amount (self, &self->handlers[handler], &charge->stated_on);
  kept = wb_charge_statement_kept (self, handler, &on);
  if (kept != NULL && wb_date_is_set (&on))
    {
      now = wb_charge_statement_write (self, handler, &on);
      place = first_difference (kept, now);
    }
  if (amount == NULL && place == NULL)
    return NULL;
  if (amount == NULL)
    return g_strdup_printf (_("The amount stated is still right, the statement is not. %s State "
                              "the charges again."), place);
  return place != NULL ? g_strdup_printf ("%s %s", amount, place) : g_steal_pointer (&amount);
}

char *
wb_charge_sums_in_words (const WbApportionment *self)
{
  const char *currency = self->reckoning->terms->currency;
  g_autofree char *charged = NULL;
  g_autofree char *recovered = NULL;
  g_autofree char *open = NULL;
  g_autofree char *over = NULL;
  g_autoptr (GError) error = NULL;
  WbChargeSums sums;

  if (!wb_charge_add_up (self, &sums, &error))
    return wb_words_error (error);
  if (!anybody_was_charged (self))
    return g_strdup (_("Nothing was charged to anybody yet."));

  charged = wb_words_minor (sums.charged, currency);
  recovered = wb_words_minor (sums.recovered, currency);
  open = wb_words_minor (sums.open, currency);
  over = wb_words_minor (sums.over, currency);
  if (sums.over > 0)
    /* Translators: four amounts. */
    return g_strdup_printf (_("Charged %s, came back %s, still open %s; %s came back beyond what "
                              "was charged."), charged, recovered, open, over);
  /* Translators: three amounts. */
  return g_strdup_printf (_("Charged %s, came back %s, still open %s."), charged, recovered, open);
}
