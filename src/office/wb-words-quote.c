/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words about quotes. Which one was taken, and whether it still holds, core says. */
#include "config.h"

#include "office/wb-words-quote.h"

#include <glib/gi18n.h>

char *
wb_words_quote (const WbQuote *quote)
{
  g_autoptr (GPtrArray) parts = g_ptr_array_new_with_free_func (g_free);

  g_ptr_array_add (parts, g_strdup (wb_words_enum (&wb_quote_kinds, (int) quote->kind)));
  if (wb_money_is_set (quote->amount))
    g_ptr_array_add (parts, wb_words_money (quote->amount));
  if (quote->source != NULL)
    g_ptr_array_add (parts, g_strdup (quote->source));
  if (wb_date_is_set (&quote->on))
    g_ptr_array_add (parts, wb_words_date (&quote->on));
  g_ptr_array_add (parts, NULL);
  /* Translators: between the parts of a quote: kind, amount, from whom, when. */
  return g_strjoinv (C_("parts of a quote", ", "), (char **) parts->pdata);
}

/* What the line says where the quote was taken for it. */
static char *
figure_in_words (const WbJob   *job,
                 const WbQuote *quote)
{
  const WbClaimLine *line = wb_job_find (job, WB_KIND_CLAIM_LINE, quote->claim_line);

  return wb_words_money (wb_quote_figure (line, quote->kind));
}

char *
wb_words_quote_state (const WbJob   *job,
                      const WbQuote *quote)
{
  g_autofree char *figure = NULL;

  if (!quote->taken)
    return NULL;
  if (!wb_quote_differs (job, quote))
    /* Translators: of several quotes the one that the figure of the line is taken from. */
    return g_strdup (C_("quote", "Taken"));

  figure = figure_in_words (job, quote);
  /* Translators: %s is an amount, or a dash when the line has none. */
  return g_strdup_printf (_("Taken, but the line says %s"), figure);
}

char *
wb_words_quotes_differ (const WbJob *job,
                        const char  *line_id)
{
  g_autoptr (GPtrArray) quotes = wb_quotes_of (job, line_id);
  g_autoptr (GString) out = g_string_new (NULL);

  for (guint i = 0; i < quotes->len; i++)
    {
      const WbQuote *quote = g_ptr_array_index (quotes, i);
      g_autofree char *words = NULL;
      g_autofree char *figure = NULL;

      if (!wb_quote_differs (job, quote))
        continue;
      words = wb_words_quote (quote);
      figure = figure_in_words (job, quote);
      if (out->len > 0)
        g_string_append_c (out, ' ');
      /* Translators: an amount, or a dash; then a quote: "Repair, $240.00, Hollin Joinery". */
      g_string_append_printf (out, _("The line says %s and the quote taken otherwise: %s."), figure,
                              words);
    }
  return out->len > 0 ? g_string_free (g_steal_pointer (&out), FALSE) : NULL;
}
