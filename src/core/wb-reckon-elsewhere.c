/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What other claims on the same shipment have to do with the articles of this one: what was paid
 * there for a line on the same article comes off here, so that nothing is paid twice; where a
 * payment names no line, the article is only marked. Two claims for one loss are one, whoever files
 * them: 49 CFR 370.3(e) and 370.5(b) want duplicate payments prevented. */
#include "core/wb-reckon-private.h"

#include <string.h>

/* Lines and claims that payments were made on: what is not in them could not be taken off. */
typedef struct
{
  GHashTable *named;     /* ids (borrowed) of lines that a payment names */
  GHashTable *unnamed;   /* ids (borrowed) of claims with a payment that names no line */
} Payments;

/* The line of another claim that a payment was made for; NULL when it names none. */
static const WbClaimLine *
find_paid_line (const WbRun     *run,
                const WbPayment *payment)
{
  const WbClaimLine *line = wb_job_find (run->job, WB_KIND_CLAIM_LINE, payment->claim_line);

  return line != NULL && g_strcmp0 (line->claim, payment->claim) == 0 ? line : NULL;
}

/* Whether two lines claim one and the same thing: a loose piece is one thing, and in a carton it is
 * what is called the same. */
static gboolean
is_same_thing (const WbClaimLine *a,
               const WbClaimLine *b,
               const WbPiece     *piece)
{
  if (!wb_run_is_packed (piece))
    return TRUE;
  return a->item != NULL && b->item != NULL && g_ascii_strcasecmp (a->item, b->item) == 0;
}

static gboolean
add_payment (WbPaid          *paid,
             const WbPayment *payment,
             GError         **error)
{
  return wb_run_add (&paid->goods, wb_run_paid_for_goods (payment), error) &&
         wb_run_add (&paid->deductible, payment->deductible_taken.minor, error);
}

/* Takes one payment to the article and to those lines here that claim the same thing. */
static gboolean
take_payment (WbRun              *run,
              const WbPayment    *payment,
              const WbClaimLine  *paid_line,
              gint                index,
              guint               place,
              GError            **error)
{
  const WbPiece *piece = wb_job_nth (run->job, WB_KIND_PIECE, (guint) index);
  WbArticle *article = &run->articles[place];

  if (run->line_paid == NULL)
    run->line_paid = g_new0 (WbPaid, MAX (run->out->n_lines, 1));
  if (!add_payment (&article->paid, payment, error))
    return FALSE;
  for (guint i = article->first_line; i != WB_NO_LINE; i = run->next_in_article[i])
    if (run->out->lines[i].piece_index == index &&
        is_same_thing (run->out->lines[i].line, paid_line, piece) &&
        !add_payment (&run->line_paid[i], payment, error))
      return FALSE;
  return TRUE;
}

static gboolean
collect_payments (WbRun              *run,
                  const WbArticles   *articles,
                  Payments           *payments,
                  GError            **error)
{
  for (guint i = 0; i < wb_job_count (run->job, WB_KIND_PAYMENT); i++)
    {
      const WbPayment *payment = wb_job_nth (run->job, WB_KIND_PAYMENT, i);
      const WbClaimLine *line = find_paid_line (run, payment);
      guint place;
      gint piece;

      if (strcmp (payment->claim, run->out->claim->record.id) == 0)
        continue;
      if (line == NULL)
        {
          g_hash_table_add (payments->unnamed, payment->claim);
          continue;
        }
      g_hash_table_add (payments->named, line->record.id);
      piece = wb_job_index (run->job, WB_KIND_PIECE, line->piece);
      if (piece >= 0 && wb_run_find_article (run, articles, piece, &place) &&
          !take_payment (run, payment, line, piece, place, error))
        return FALSE;
    }
  return TRUE;
}

/* A line of another claim on the same article is marked unless all that was paid on it is known. */
static void
count_lines (WbRun            *run,
             const WbArticles *articles,
             const Payments   *payments)
{
  for (guint i = 0; i < wb_job_count (run->job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *line = wb_job_nth (run->job, WB_KIND_CLAIM_LINE, i);
      guint place;
      gint piece;

      if (line->ruling == WB_RULING_DENIED ||
          g_strcmp0 (line->claim, run->out->claim->record.id) == 0 ||
          (g_hash_table_contains (payments->named, line->record.id) &&
           !g_hash_table_contains (payments->unnamed, line->claim)))
        continue;
      piece = wb_job_index (run->job, WB_KIND_PIECE, line->piece);
      if (piece >= 0 && wb_run_find_article (run, articles, piece, &place))
        run->articles[place].n_elsewhere++;
    }
}

/* What such a claim brought for an article cannot be taken off here; a person has to compare the
 * two. */
static void
note_elsewhere (WbRun *run)
{
  for (guint i = 0; i < run->n_articles; i++)
    {
      const WbArticle *article = &run->articles[i];

      if (article->n_elsewhere == 0)
        continue;
      for (guint line = article->first_line; line != WB_NO_LINE; line = run->next_in_article[line])
        if (!wb_run_pays_nothing (run, line))
          WB_NOTE (run, WB_RULE_ELSEWHERE, WB_SCOPE_GENERAL, WB_NO_KEY, (gint) line,
                   (WbFigure) { WB_FIGURE_NONE },
                   wb_figure_number (WB_FIGURE_COUNT, article->n_elsewhere));
    }
}

gboolean
wb_run_look_elsewhere (WbRun             *run,
                       const WbArticles  *articles,
                       GError           **error)
{
  g_autoptr (GHashTable) named = NULL;
  g_autoptr (GHashTable) unnamed = NULL;
  Payments payments;

  if (wb_job_count (run->job, WB_KIND_CLAIM) < 2)
    return TRUE;
  payments.named = named = g_hash_table_new (g_str_hash, g_str_equal);
  payments.unnamed = unnamed = g_hash_table_new (g_str_hash, g_str_equal);
  if (!collect_payments (run, articles, &payments, error))
    return FALSE;
  count_lines (run, articles, &payments);
  note_elsewhere (run);
  return TRUE;
}

/* What was held back as a deductible used up a limit as well, where a side has a deductible: the
 * limit holds before it. */
gint64
wb_run_paid_elsewhere (const WbRun  *run,
                       WbSide        side,
                       const WbPaid *paid)
{
  gint64 sum = paid->goods;

  if (run->terms->side[side].deductible &&
      __builtin_add_overflow (sum, paid->deductible, &sum))
    return G_MAXINT64;
  return sum;
}
