/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds the quotes of a line and takes one. That more than one quote is asked for and one of them
 * kept as the ground of a figure is common practice; 49 CFR 370.7(b) asks for what supports the
 * amount. Reckons nothing. */
#include "config.h"

#include "core/wb-quote.h"

#include "core/wb-core.h"

GPtrArray *
wb_quotes_of (const WbJob *job,
              const char  *line_id)
{
  GPtrArray *quotes = g_ptr_array_new ();

  g_return_val_if_fail (job != NULL, quotes);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_QUOTE); i++)
    {
      const WbQuote *quote = wb_job_nth (job, WB_KIND_QUOTE, i);

      if (g_strcmp0 (quote->claim_line, line_id) == 0)
        g_ptr_array_add (quotes, (gpointer) quote);
    }
  return quotes;
}

const WbQuote *
wb_quote_taken (const WbJob *job,
                const char  *line_id,
                WbQuoteKind  kind)
{
  g_autoptr (GPtrArray) quotes = wb_quotes_of (job, line_id);

  for (guint i = 0; i < quotes->len; i++)
    {
      const WbQuote *quote = g_ptr_array_index (quotes, i);

      if (quote->taken && quote->kind == kind)
        return quote;
    }
  return NULL;
}

WbMoney
wb_quote_figure (const WbClaimLine *line,
                 WbQuoteKind        kind)
{
  switch (kind)
    {
    case WB_QUOTE_REPAIR:
      return line->repair;
    case WB_QUOTE_REPLACEMENT:
      return line->replacement;
    case WB_QUOTE_NONE:
      break;
    }
  return (WbMoney) { 0 };
}

gboolean
wb_quote_differs (const WbJob   *job,
                  const WbQuote *quote)
{
  const WbClaimLine *line = wb_job_find (job, WB_KIND_CLAIM_LINE, quote->claim_line);

  return quote->taken && line != NULL
         && !wb_money_equal (wb_quote_figure (line, quote->kind), quote->amount);
}

static WbClaimLine *
with_figure (const WbClaimLine *before,
             const WbQuote     *quote)
{
  WbClaimLine *line = wb_record_copy (before);

  if (quote->kind == WB_QUOTE_REPAIR)
    line->repair = quote->amount;
  else
    line->replacement = quote->amount;
  return line;
}

/* Adds each quote of the line that has to change. */
static void
add_changed (GPtrArray     *records,
             const WbJob   *job,
             const WbQuote *taken)
{
  g_autoptr (GPtrArray) quotes = wb_quotes_of (job, taken->claim_line);

  for (guint i = 0; i < quotes->len; i++)
    {
      const WbQuote *before = g_ptr_array_index (quotes, i);
      WbQuote *quote;

      if (before->kind != taken->kind || before->taken == (before == taken))
        continue;
      quote = wb_record_copy (before);
      quote->taken = before == taken;
      g_ptr_array_add (records, quote);
    }
}

WbJob *
wb_quote_take (const WbJob  *job,
               const char   *quote_id,
               GError      **error)
{
  const WbQuote *quote = wb_job_find (job, WB_KIND_QUOTE, quote_id);
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  const WbClaimLine *line;

  g_return_val_if_fail (quote != NULL, NULL);

  line = wb_job_find (job, WB_KIND_CLAIM_LINE, quote->claim_line);
  g_return_val_if_fail (line != NULL, NULL);
  if (quote->kind == WB_QUOTE_NONE)
    {
      g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                           "the quote does not say whether it is for repair or for replacement");
      return NULL;
    }
  if (!wb_money_is_set (quote->amount))
    {
      g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                           "the quote says no amount");
      return NULL;
    }

  g_ptr_array_add (records, with_figure (line, quote));
  add_changed (records, job, quote);
  return wb_job_with_many (job, records);
}
