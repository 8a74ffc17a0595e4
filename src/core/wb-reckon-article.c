/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The limits of one article: what belongs to it, what it weighs, how much may be paid for it and
 * how several claimed things share that. In the trade's tariffs a package and its contents are one
 * article and a thing taken apart is one article with all its parts (from memory); GAO B-213836 and
 * B-257858 take the carton's weight likewise. The terms decide. */
#include "core/wb-reckon-private.h"

#include <string.h>

#include "core/wb-core.h"

/* --- grouping --------------------------------------------------------------------------------- */

/* Weight, listed value and count of all pieces that carry the same article text, found in one walk
 * over the inventory. */
typedef struct
{
  WbWeight weight;
  gint64   listed;
  gboolean weight_known;     /* every part has one */
  gboolean is_listed;
  gboolean all_short;
} Parts;

static gboolean
piece_weight (const WbRun           *run,
              const WbPiece         *piece,
              WbWeight              *weight,
              WbArticleWeightSource *source)
{
  *weight = piece->weight;
  *source = WB_ARTICLE_WEIGHT_PIECE;
  if (wb_weight_is_set (piece->weight))
    return TRUE;
  *source = WB_ARTICLE_WEIGHT_VOLUME;
  return wb_volume_is_set (piece->volume) && wb_weight_is_set (run->terms->constructive_weight) &&
         wb_weight_from_volume (piece->volume, run->terms->constructive_weight, weight, NULL);
}

/* Ids of the pieces that the last handover which mentions them found short. */
static GHashTable *
find_short_pieces (const WbJob *job)
{
  GHashTable *found = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) latest = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_FINDING); i++)
    {
      const WbFinding *finding = wb_job_nth (job, WB_KIND_FINDING, i);
      gint place = wb_job_index (job, WB_KIND_HANDOVER, finding->handover);
      gpointer before = g_hash_table_lookup (latest, finding->piece);

      if (finding->piece == NULL || place + 1 < GPOINTER_TO_INT (before))
        continue;
      g_hash_table_insert (latest, finding->piece, GINT_TO_POINTER (place + 1));
      if (finding->found == WB_FOUND_SHORT)
        g_hash_table_add (found, finding->piece);
      else
        g_hash_table_remove (found, finding->piece);
    }
  return found;
}

static gboolean
add_part (const WbRun    *run,
          Parts          *parts,
          const WbPiece  *piece,
          gboolean        is_short,
          GError        **error)
{
  WbWeight weight;
  WbArticleWeightSource source;

  if (!is_short)
    parts->all_short = FALSE;
  if (wb_money_is_set (piece->listed_value))
    {
      parts->is_listed = TRUE;
      if (!wb_run_add (&parts->listed, piece->listed_value.minor, error))
        return FALSE;
    }
  if (!piece_weight (run, piece, &weight, &source))
    {
      parts->weight_known = FALSE;
      return TRUE;
    }
  if (!wb_weight_is_set (parts->weight))
    parts->weight = weight;
  else if (!wb_weight_add (parts->weight, weight, &parts->weight, error))
    return FALSE;
  return TRUE;
}

/* Article text → Parts, for all pieces that are parts of something. Empty when the terms take each
 * piece for itself. */
static GHashTable *
collect_parts (const WbRun  *run,
               GHashTable   *short_pieces,
               GError      **error)
{
  g_autoptr (GHashTable) all = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, g_free);

  if (run->terms->parts != WB_PARTS_ONE_ARTICLE)
    return g_steal_pointer (&all);
  for (guint i = 0; i < wb_job_count (run->job, WB_KIND_PIECE); i++)
    {
      const WbPiece *piece = wb_job_nth (run->job, WB_KIND_PIECE, i);
      Parts *parts;

      if (piece->article == NULL)
        continue;
      parts = g_hash_table_lookup (all, piece->article);
      if (parts == NULL)
        {
          parts = g_new0 (Parts, 1);
          parts->weight_known = TRUE;
          parts->all_short = TRUE;
          g_hash_table_insert (all, piece->article, parts);
        }
      if (!add_part (run, parts, piece, g_hash_table_contains (short_pieces, piece->record.id),
                     error))
        return NULL;
    }
  return g_steal_pointer (&all);
}

static gboolean
piece_is_packed (const WbPiece *piece)
{
  return piece->form == WB_FORM_CARTON || piece->form == WB_FORM_CRATE;
}

/* What the limit of this line's article hangs on; NULL when the line has an article of its own. */
static const char *
article_key (const WbRun   *run,
             const WbPiece *piece,
             GHashTable    *parts)
{
  if (piece == NULL)
    return NULL;
  if (piece->article != NULL && g_hash_table_contains (parts, piece->article))
    return piece->article;
  if (piece_is_packed (piece) && run->terms->carton == WB_CARTON_EACH_THING)
    return NULL;
  return piece->record.id;
}

static void
weigh_article (const WbRun           *run,
               const WbLineReckoning *row,
               const Parts           *parts,
               WbArticle             *article)
{
  gboolean own_only = row->piece == NULL ||
                      (parts == NULL && piece_is_packed (row->piece) &&
                       run->terms->carton == WB_CARTON_EACH_THING);

  if (parts != NULL && parts->weight_known)
    {
      article->weight = parts->weight;
      article->source = WB_ARTICLE_WEIGHT_PARTS;
    }
  else if (parts == NULL && !own_only &&
           piece_weight (run, row->piece, &article->weight, &article->source))
    return;
  else if (parts == NULL && (own_only || !piece_is_packed (row->piece)) &&
           wb_weight_is_set (row->line->weight))
    {
      article->weight = row->line->weight;
      article->source = WB_ARTICLE_WEIGHT_THING;
    }
  else
    {
      article->weight = WB_WEIGHT_UNSET;
      article->source = WB_ARTICLE_WEIGHT_NONE;
    }
}

static WbArticle
new_article (const WbRun           *run,
             const WbLineReckoning *row,
             guint                  line,
             const Parts           *parts,
             GHashTable            *short_pieces)
{
  WbArticle article = { .first_line = line, .last_line = line };
  const WbPiece *piece = row->piece;

  weigh_article (run, row, parts, &article);
  if (parts != NULL)
    {
      article.is_listed = parts->is_listed;
      article.listed = parts->listed;
      article.whole_lost = parts->all_short;
    }
  else if (piece != NULL)
    {
      article.is_listed = wb_money_is_set (piece->listed_value);
      article.listed = piece->listed_value.minor;
      article.whole_lost = g_hash_table_contains (short_pieces, piece->record.id) ||
                           !piece_is_packed (piece);
    }
  return article;
}

gboolean
wb_run_group_articles (WbRun   *run,
                       GError **error)
{
  g_autoptr (GHashTable) short_pieces = find_short_pieces (run->job);
  g_autoptr (GHashTable) parts = collect_parts (run, short_pieces, error);
  g_autoptr (GHashTable) known = g_hash_table_new (g_str_hash, g_str_equal);

  if (parts == NULL)
    return FALSE;
  for (guint i = 0; i < run->out->n_lines; i++)
    {
      const WbLineReckoning *row = &run->out->lines[i];
      const char *key = article_key (run, row->piece, parts);
      gpointer place = key != NULL ? g_hash_table_lookup (known, key) : NULL;
      WbArticle *article;

      run->next_in_article[i] = WB_NO_LINE;
      if (place != NULL)
        {
          run->article_of_line[i] = GPOINTER_TO_UINT (place) - 1;
          article = &g_array_index (run->articles, WbArticle, run->article_of_line[i]);
          run->next_in_article[article->last_line] = i;
          article->last_line = i;
        }
      else
        {
          const Parts *of = row->piece != NULL && row->piece->article != NULL
                            ? g_hash_table_lookup (parts, row->piece->article) : NULL;
          WbArticle fresh = new_article (run, row, i, of, short_pieces);

          g_array_append_val (run->articles, fresh);
          run->article_of_line[i] = run->articles->len - 1;
          article = &g_array_index (run->articles, WbArticle, run->articles->len - 1);
          if (key != NULL)
            g_hash_table_insert (known, (gpointer) key, GUINT_TO_POINTER (run->articles->len));
        }
      article->n_lines++;
    }
  return TRUE;
}

/* --- limits of one line ----------------------------------------------------------------------- */

/* A denied line and one that came too late are paid nothing; a flat limit a line holds for each
 * other line. */
static void
limit_line (WbRun  *run,
            WbSide  side,
            guint   index)
{
  const WbSideTerms *terms = &run->terms->side[side];
  const WbClaimLine *line = run->out->lines[index].line;
  WbLineFigures *figures = &run->out->lines[index].side[side];

  figures->allowed = figures->loss;
  if (line->ruling == WB_RULING_DENIED || run->barred)
    {
      WbRule rule = line->ruling == WB_RULING_DENIED ? WB_RULE_DENIED : WB_RULE_BARRED;

      WB_NOTE (run, rule, (WbScope) side, rule == WB_RULE_BARRED ? WB_KEY_LATE_CLAIM : WB_NO_KEY,
               (gint) index,
               wb_figure_money (WB_FIGURE_AMOUNT, 0),
               wb_figure_money (WB_FIGURE_LOSS, figures->loss));
      figures->allowed = 0;
    }
  else if (wb_money_is_set (terms->line_limit) && figures->allowed > terms->line_limit.minor)
    {
      WB_NOTE (run, WB_RULE_LINE_LIMIT, (WbScope) side, WB_KEY_LINE_LIMIT, (gint) index,
               wb_figure_money (WB_FIGURE_AMOUNT, terms->line_limit.minor),
               wb_figure_money (WB_FIGURE_LOSS, figures->allowed),
               wb_figure_money (WB_FIGURE_LIMIT, terms->line_limit.minor));
      figures->allowed = terms->line_limit.minor;
    }
}

/* --- limits of one article -------------------------------------------------------------------- */

typedef struct
{
  gboolean has_limit;
  gint64   limit;
} Cap;

static void
lower_cap (Cap    *cap,
           gint64  limit)
{
  cap->limit = cap->has_limit ? MIN (cap->limit, limit) : limit;
  cap->has_limit = TRUE;
}

/* Nothing can be said of lines whose article has no weight when the limit hangs on it. */
static void
miss_weight (WbRun           *run,
             WbSide           side,
             const WbArticle *article)
{
  for (guint i = article->first_line; i != WB_NO_LINE; i = run->next_in_article[i])
    {
      WbLineFigures *figures = &run->out->lines[i].side[side];

      if (figures->allowed == 0)
        continue;
      figures->complete = FALSE;
      figures->allowed = 0;
      WB_NOTE (run, WB_RULE_MISSING_FIGURE, (WbScope) side, WB_NO_KEY, (gint) i,
               wb_figure_money (WB_FIGURE_AMOUNT, 0),
               wb_figure_code (WB_FIGURE_MISSING, WB_MISSING_ARTICLE_WEIGHT));
    }
}

/* The key of the terms that made this the weight of the article, if one did. */
static gint
weight_key (const WbRun     *run,
            const WbArticle *article)
{
  const WbPiece *piece = run->out->lines[article->first_line].piece;

  switch (article->source)
    {
    case WB_ARTICLE_WEIGHT_PARTS:
      return WB_KEY_PARTS;
    case WB_ARTICLE_WEIGHT_VOLUME:
      return WB_KEY_CONSTRUCTIVE_WEIGHT;
    case WB_ARTICLE_WEIGHT_PIECE:
    case WB_ARTICLE_WEIGHT_THING:
      return piece != NULL && piece_is_packed (piece) ? (gint) WB_KEY_CARTON : WB_NO_KEY;
    case WB_ARTICLE_WEIGHT_NONE:
      break;
    }
  return WB_NO_KEY;
}

static void
note_weight (WbRun           *run,
             WbSide           side,
             const WbArticle *article)
{
  WB_NOTE (run, WB_RULE_ARTICLE_WEIGHT, (WbScope) side, weight_key (run, article),
           (gint) article->first_line, wb_figure_weight (WB_FIGURE_WEIGHT, article->weight),
           wb_figure_code (WB_FIGURE_WEIGHT_SOURCE, (int) article->source));
}

/* So much a pound for the article: the released rate. %FALSE in @known when its weight is not. */
static gboolean
cap_by_rate (WbRun            *run,
             WbSide            side,
             const WbArticle  *article,
             Cap              *cap,
             gboolean         *known,
             GError          **error)
{
  const WbSideTerms *terms = &run->terms->side[side];
  WbMoney amount;

  *known = TRUE;
  if (wb_money_is_set (terms->article_limit))
    lower_cap (cap, terms->article_limit.minor);
  if (!wb_rate_is_set (terms->article_rate))
    return TRUE;
  if (!wb_weight_is_set (article->weight))
    {
      *known = FALSE;
      return TRUE;
    }
  if (!wb_rate_apply (terms->article_rate, article->weight, WB_VOLUME_UNSET, run->terms->rounding,
                      &amount, error))
    return FALSE;
  note_weight (run, side, article);
  lower_cap (cap, amount.minor);
  return TRUE;
}

static void
note_article_limit (WbRun           *run,
                    WbSide           side,
                    const WbArticle *article,
                    gint64           limit,
                    gint64           total)
{
  const WbSideTerms *terms = &run->terms->side[side];
  gboolean by_rate = wb_rate_is_set (terms->article_rate);

  WB_NOTE (run, WB_RULE_ARTICLE_LIMIT, (WbScope) side,
           by_rate ? WB_KEY_ARTICLE_RATE : WB_KEY_ARTICLE_LIMIT, (gint) article->first_line,
           wb_figure_money (WB_FIGURE_LIMIT, limit),
           wb_figure_money (WB_FIGURE_LOSS, total),
           by_rate ? wb_figure_rate (WB_FIGURE_RATE, terms->article_rate)
                   : wb_figure_money (WB_FIGURE_MAXIMUM, terms->article_limit.minor),
           wb_figure_weight (WB_FIGURE_WEIGHT, article->weight),
           wb_figure_number (WB_FIGURE_COUNT, article->n_lines));
}

/* Whether the shipper signed a list with this article on it before the move: 49 CFR 375.203(b),
 * (c). */
static gboolean
is_listed (const WbRun     *run,
           const WbArticle *article)
{
  return article->is_listed && wb_job_valuation (run->job)->high_value_list;
}

/* An unlisted thing worth more a pound than the terms' rate is paid no more than that rate; a
 * listed one up to its listed value. */
static gboolean
cap_extraordinary (WbRun            *run,
                   WbSide            side,
                   const WbArticle  *article,
                   WbWeight          weight,
                   gint              line,
                   gint64            total,
                   Cap              *cap,
                   GError          **error)
{
  const WbSideTerms *terms = &run->terms->side[side];
  WbMoney amount;
  gint64 limit;

  if (!wb_weight_is_set (weight))
    {
      run->out->lines[line].side[side].complete = FALSE;
      WB_NOTE (run, WB_RULE_MISSING_FIGURE, (WbScope) side, WB_KEY_EXTRAORDINARY_RATE, line,
               wb_figure_money (WB_FIGURE_AMOUNT, total),
               wb_figure_code (WB_FIGURE_MISSING, WB_MISSING_ARTICLE_WEIGHT));
      return TRUE;
    }
  if (!wb_rate_apply (terms->extraordinary_rate, weight, WB_VOLUME_UNSET, run->terms->rounding,
                      &amount, error))
    return FALSE;
  if (total <= amount.minor)
    return TRUE;

  limit = amount.minor;
  if (is_listed (run, article))
    {
      limit = MAX (limit, article->listed);
      WB_NOTE (run, WB_RULE_LISTED, (WbScope) side, WB_KEY_EXTRAORDINARY_RATE, line,
               wb_figure_money (WB_FIGURE_LIMIT, limit), wb_figure_money (WB_FIGURE_LOSS, total),
               wb_figure_money (WB_FIGURE_LISTED, article->listed));
    }
  else
    WB_NOTE (run, WB_RULE_EXTRAORDINARY, (WbScope) side, WB_KEY_EXTRAORDINARY_RATE, line,
             wb_figure_money (WB_FIGURE_LIMIT, limit), wb_figure_money (WB_FIGURE_LOSS, total),
             wb_figure_weight (WB_FIGURE_WEIGHT, weight),
             wb_figure_rate (WB_FIGURE_RATE, terms->extraordinary_rate));
  lower_cap (cap, limit);
  return TRUE;
}

static gboolean
sum_allowed (const WbRun     *run,
             WbSide           side,
             const WbArticle *article,
             gint64          *total,
             GError         **error)
{
  *total = 0;
  for (guint i = article->first_line; i != WB_NO_LINE; i = run->next_in_article[i])
    if (!wb_run_add (total, run->out->lines[i].side[side].allowed, error))
      return FALSE;
  return TRUE;
}

/* Shares a cap out among an article's lines in proportion to what each may have so far. */
static gboolean
share_cap (WbRun            *run,
           WbSide            side,
           const WbArticle  *article,
           gint64            limit,
           GError          **error)
{
  gsize n = 0;

  for (guint i = article->first_line; i != WB_NO_LINE; i = run->next_in_article[i])
    run->scratch_shares[n++] = run->out->lines[i].side[side].allowed;
  if (!wb_minor_split (limit, run->scratch_shares, n, run->scratch_parts, error))
    return FALSE;

  n = 0;
  for (guint i = article->first_line; i != WB_NO_LINE; i = run->next_in_article[i], n++)
    {
      WbLineFigures *figures = &run->out->lines[i].side[side];

      if (article->n_lines > 1 && figures->allowed > 0)
        WB_NOTE (run, WB_RULE_ARTICLE_SHARE, (WbScope) side, WB_NO_KEY, (gint) i,
                 wb_figure_money (WB_FIGURE_AMOUNT, run->scratch_parts[n]),
                 wb_figure_money (WB_FIGURE_LOSS, figures->allowed),
                 wb_figure_money (WB_FIGURE_LIMIT, limit),
                 wb_figure_number (WB_FIGURE_COUNT, article->n_lines));
      figures->allowed = run->scratch_parts[n];
    }
  return TRUE;
}

/* Extraordinary value judged thing by thing, by each thing's own weight where the line has one. */
static gboolean
cap_each_thing (WbRun            *run,
                WbSide            side,
                const WbArticle  *article,
                GError          **error)
{
  for (guint i = article->first_line; i != WB_NO_LINE; i = run->next_in_article[i])
    {
      WbLineFigures *figures = &run->out->lines[i].side[side];
      const WbClaimLine *line = run->out->lines[i].line;
      WbWeight weight = wb_weight_is_set (line->weight) ? line->weight : article->weight;
      Cap cap = { FALSE, 0 };

      if (figures->allowed == 0)
        continue;
      if (!cap_extraordinary (run, side, article, weight, (gint) i, figures->allowed, &cap, error))
        return FALSE;
      if (cap.has_limit)
        figures->allowed = MIN (figures->allowed, cap.limit);
    }
  return TRUE;
}

static gboolean
limit_article (WbRun            *run,
               WbSide            side,
               const WbArticle  *article,
               GError          **error)
{
  const WbSideTerms *terms = &run->terms->side[side];
  Cap cap = { FALSE, 0 };
  gboolean extraordinary = wb_rate_is_set (terms->extraordinary_rate);
  /* A listed value is the whole article's, so its lines are judged together even where things are
   * judged one by one. */
  gboolean by_thing = terms->extraordinary_weight == WB_EXTRAORDINARY_THING &&
                      !is_listed (run, article);
  gint64 total;
  gboolean known;

  if (extraordinary && by_thing && !cap_each_thing (run, side, article, error))
    return FALSE;
  if (!sum_allowed (run, side, article, &total, error))
    return FALSE;
  if (total == 0)
    return TRUE;
  if (!cap_by_rate (run, side, article, &cap, &known, error))
    return FALSE;
  if (!known)
    {
      miss_weight (run, side, article);
      return TRUE;
    }
  if (cap.has_limit)
    note_article_limit (run, side, article, cap.limit, total);
  if (extraordinary && !by_thing &&
      !cap_extraordinary (run, side, article, article->weight, (gint) article->first_line, total,
                          &cap, error))
    return FALSE;
  if (cap.has_limit && total > cap.limit)
    return share_cap (run, side, article, cap.limit, error);
  return TRUE;
}

gboolean
wb_run_limit_articles (WbRun   *run,
                       WbSide   side,
                       GError **error)
{
  for (guint i = 0; i < run->out->n_lines; i++)
    limit_line (run, side, i);
  for (guint i = 0; i < run->articles->len; i++)
    if (!limit_article (run, side, &g_array_index (run->articles, WbArticle, i), error))
      return FALSE;
  return TRUE;
}
