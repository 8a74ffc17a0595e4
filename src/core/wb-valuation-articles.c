/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The articles of an inventory and what each may bring under one choice of liability, before
 * anything is lost. Knows nothing of the shipment as a whole. */
#include "config.h"

#include "core/wb-valuation-private.h"

#include "core/wb-core.h"

/* One article of the inventory: a piece, or the parts of a thing taken apart. */
typedef struct
{
  const WbPiece *piece;
  guint          n_pieces;
  WbWeight       weight;
  WbVolume       volume;
  gboolean       named;         /* its pieces carry the name of one thing taken apart */
  gboolean       constructive;
  gboolean       unweighed;     /* a part has no weight, nor a volume to make one from */
  gboolean       unmeasured;    /* a part has no volume */
} Article;

static gboolean
add_weight (WbWeight *sum,
            WbWeight  more,
            GError  **error)
{
  if (wb_weight_is_set (*sum))
    return wb_weight_add (*sum, more, sum, error);

  *sum = more;
  return TRUE;
}

static gboolean
add_volume (WbVolume *sum,
            WbVolume  more,
            GError  **error)
{
  if (wb_volume_is_set (*sum))
    return wb_volume_add (*sum, more, sum, error);

  *sum = more;
  return TRUE;
}

static gboolean
add_part (Article        *article,
          const WbPiece  *piece,
          const WbTerms  *terms,
          GError        **error)
{
  WbWeight weight = piece->weight;

  article->n_pieces++;

  if (!wb_weight_is_positive (weight)
      && wb_volume_is_set (piece->volume)
      && wb_weight_is_set (terms->constructive_weight))
    {
      if (!wb_weight_from_volume (piece->volume, terms->constructive_weight, &weight, error))
        return FALSE;
      article->constructive = TRUE;
    }

  if (!wb_weight_is_positive (weight))
    article->unweighed = TRUE;
  else if (!add_weight (&article->weight, weight, error))
    return FALSE;

  if (!wb_volume_is_set (piece->volume))
    article->unmeasured = TRUE;
  else if (!add_volume (&article->volume, piece->volume, error))
    return FALSE;

  return TRUE;
}

GArray *
wb_valuation_list_articles (const WbTerms  *terms,
                            const WbJob    *job,
                            GError        **error)
{
  g_autoptr (GArray) articles = g_array_new (FALSE, TRUE, sizeof (Article));
  g_autoptr (GHashTable) by_name = g_hash_table_new (g_str_hash, g_str_equal);
  guint n = wb_job_count (job, WB_KIND_PIECE);

  for (guint i = 0; i < n; i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);
      gboolean part = terms->parts == WB_PARTS_ONE_ARTICLE && piece->article != NULL;
      gpointer place = NULL;

      if (!part || !g_hash_table_lookup_extended (by_name, piece->article, NULL, &place))
        {
          Article article = { .piece = piece, .named = part };

          place = GUINT_TO_POINTER (articles->len);
          g_array_append_val (articles, article);
          if (part)
            g_hash_table_insert (by_name, piece->article, place);
        }

      if (!add_part (&g_array_index (articles, Article, GPOINTER_TO_UINT (place)), piece, terms,
                     error))
        return NULL;
    }

  return g_steal_pointer (&articles);
}

/* A flat limit for an article says nothing of a carton whose things are each one. */
static gboolean
counts_by_thing (const Article *article,
                 const WbTerms *terms)
{
  gboolean packed = article->piece->form == WB_FORM_CARTON || article->piece->form == WB_FORM_CRATE;

  return terms->carton == WB_CARTON_EACH_THING && packed && !article->named;
}

static gboolean
is_measured (const Article     *article,
             const WbSideTerms *rules)
{
  if (!wb_rate_is_set (rules->article_rate))
    return TRUE;

  return wb_rate_is_by_volume (rules->article_rate) ? !article->unmeasured : !article->unweighed;
}

/* The most that @article can bring; left unset when nothing limits it. */
static gboolean
limit_article (const Article     *article,
               const WbTerms     *terms,
               const WbSideTerms *rules,
               WbMoney           *limit,
               GError           **error)
{
  *limit = WB_MONEY_UNSET;

  if (wb_rate_is_set (rules->article_rate)
      && !wb_rate_apply (rules->article_rate, article->weight, article->volume, terms->rounding,
                         limit, error))
    return FALSE;

  if (wb_money_is_set (rules->article_limit)
      && !counts_by_thing (article, terms)
      && (!wb_money_is_set (*limit) || limit->minor > rules->article_limit.minor))
    *limit = rules->article_limit;

  return TRUE;
}

static gint64
size_of (const Article     *article,
         const WbSideTerms *rules)
{
  return wb_rate_is_by_volume (rules->article_rate) ? article->volume.bits : article->weight.grains;
}

static void
keep_heaviest (WbSidePreview     *side,
               const Article     *article,
               WbMoney            limit,
               const WbTerms     *terms,
               const WbSideTerms *rules,
               gint64            *largest)
{
  if (side->heaviest.piece != NULL && size_of (article, rules) <= *largest)
    return;

  *largest = size_of (article, rules);
  side->heaviest = (WbArticlePreview) {
    .piece = article->piece,
    .n_pieces = article->n_pieces,
    .weight = article->unweighed ? WB_WEIGHT_UNSET : article->weight,
    .volume = wb_rate_is_by_volume (rules->article_rate) ? article->volume : WB_VOLUME_UNSET,
    .constructive = article->constructive,
    .limit = limit,
    .by_thing = counts_by_thing (article, terms),
  };
}

gboolean
wb_valuation_preview_articles (WbSidePreview     *side,
                               GArray            *articles,
                               const WbTerms     *terms,
                               const WbSideTerms *rules,
                               GError           **error)
{
  gint64 largest = 0;

  side->article_limits = wb_rate_is_set (rules->article_rate)
                         || wb_money_is_set (rules->article_limit);
  side->n_articles = articles->len;

  for (guint i = 0; i < articles->len; i++)
    {
      const Article *article = &g_array_index (articles, Article, i);
      WbMoney limit;

      if (!is_measured (article, rules) || article->unweighed)
        side->n_without_weight++;
      if (!is_measured (article, rules))
        continue;
      if (!limit_article (article, terms, rules, &limit, error))
        return FALSE;
      if (wb_money_is_set (limit) && !wb_valuation_add (&side->article_sum, limit, error))
        return FALSE;
      if (size_of (article, rules) > 0 || wb_money_is_set (limit))
        keep_heaviest (side, article, limit, terms, rules, &largest);
    }

  if (side->article_limits && articles->len == 0)
    side->gaps |= WB_VALUATION_GAP_NO_ARTICLES;
  if (wb_rate_is_set (rules->article_rate) && side->n_without_weight > 0)
    side->gaps |= WB_VALUATION_GAP_ARTICLE_WEIGHT;

  return TRUE;
}
