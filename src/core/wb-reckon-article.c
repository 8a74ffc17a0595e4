/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the lines of a claim belong to: which of them share an article, what that weighs, and what
 * was listed for it. In the trade's tariffs a package and its contents are one article and a thing
 * taken apart is one article with all its parts (from memory); GAO B-213836 and B-257858 take the
 * carton's weight likewise. The terms decide. How much an article may bring stands in
 * wb-reckon-limit.c. */
#include "core/wb-reckon-private.h"

/* Weight and listed value of all pieces that carry the same article text, found in one walk over
 * the inventory. */
typedef struct
{
  WbWeight weight;
  gint64   listed;
  gboolean weight_known;     /* every part has one */
  gboolean is_listed;
  guint    place;            /* of their article; see WbArticles */
} Parts;

/* --- weights ---------------------------------------------------------------------------------- */

gboolean
wb_run_weigh_piece (WbRun                  *run,
                    const WbPiece          *piece,
                    WbWeight               *weight,
                    WbArticleWeightSource  *source,
                    GError                **error)
{
  *weight = piece->weight;
  *source = WB_ARTICLE_WEIGHT_PIECE;
  if (wb_weight_is_positive (piece->weight))
    return TRUE;

  *weight = WB_WEIGHT_UNSET;
  *source = WB_ARTICLE_WEIGHT_NONE;
  if (!wb_volume_is_set (piece->volume))
    return TRUE;
  wb_run_meet_key (run, WB_SCOPE_GENERAL, WB_KEY_CONSTRUCTIVE_WEIGHT);
  if (!wb_weight_is_set (run->terms->constructive_weight))
    return TRUE;
  if (!wb_weight_from_volume (piece->volume, run->terms->constructive_weight, weight, error))
    return FALSE;
  if (wb_weight_is_positive (*weight))
    *source = WB_ARTICLE_WEIGHT_VOLUME;
  else
    *weight = WB_WEIGHT_UNSET;
  return TRUE;
}

/* --- parts ------------------------------------------------------------------------------------ */

static gboolean
add_part (WbRun          *run,
          Parts          *parts,
          const WbPiece  *piece,
          GError        **error)
{
  WbWeight weight;
  WbArticleWeightSource source;

  if (!wb_run_check_figures (run, piece, run->piece_figures, error))
    return FALSE;
  if (wb_money_is_set (piece->listed_value))
    {
      parts->is_listed = TRUE;
      if (!wb_run_add (&parts->listed, piece->listed_value.minor, error))
        return FALSE;
    }
  if (!wb_run_weigh_piece (run, piece, &weight, &source, error))
    return FALSE;
  if (!wb_weight_is_set (weight))
    {
      parts->weight_known = FALSE;
      return TRUE;
    }
  if (wb_weight_is_set (parts->weight))
    return wb_weight_add (parts->weight, weight, &parts->weight, error);
  parts->weight = weight;
  return TRUE;
}

/* Returns: (transfer full) (nullable): article text → Parts, for all pieces that are parts of
 * something. Empty when the terms take each piece for itself. */
static GHashTable *
collect_parts (WbRun   *run,
               GError **error)
{
  g_autoptr (GHashTable) all = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, g_free);
  guint n_pieces = wb_job_count (run->job, WB_KIND_PIECE);

  if (run->terms->parts != WB_PARTS_ONE_ARTICLE)
    return g_steal_pointer (&all);
  for (guint i = 0; i < n_pieces; i++)
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
          g_hash_table_insert (all, piece->article, parts);
        }
      if (!add_part (run, parts, piece, error))
        return NULL;
    }
  return g_steal_pointer (&all);
}

/* The parts that a piece is one of; NULL when it is an article by itself. */
static Parts *
parts_of (const WbPiece *piece,
          GHashTable    *parts)
{
  return piece->article != NULL ? g_hash_table_lookup (parts, piece->article) : NULL;
}

/* --- articles --------------------------------------------------------------------------------- */

static gboolean
set_piece (WbRun          *run,
           WbArticle      *article,
           const WbPiece  *piece,
           GError        **error)
{
  if (!wb_run_check_figures (run, piece, run->piece_figures, error))
    return FALSE;
  article->is_listed = wb_money_is_set (piece->listed_value);
  article->listed = piece->listed_value.minor;
  article->is_packed = wb_run_is_packed (piece);
  article->each_thing = article->is_packed && run->terms->carton == WB_CARTON_EACH_THING;
  return article->each_thing ||
         wb_run_weigh_piece (run, piece, &article->weight, &article->source, error);
}

static void
set_parts (WbArticle   *article,
           const Parts *parts)
{
  article->is_listed = parts->is_listed;
  article->listed = parts->listed;
  if (!parts->weight_known)
    return;
  article->weight = parts->weight;
  article->source = WB_ARTICLE_WEIGHT_PARTS;
}

/* A loose piece, or a thing that is on no inventory, weighs what its lines say where nothing else
 * tells: as much as the heaviest of them, since no part outweighs the whole. */
static void
weigh_by_line (WbArticle             *article,
               const WbLineReckoning *row,
               gboolean               has_parts)
{
  if (has_parts || article->is_packed)
    return;
  if (article->source != WB_ARTICLE_WEIGHT_NONE && article->source != WB_ARTICLE_WEIGHT_THING)
    return;
  if (!wb_weight_is_positive (row->line->weight) ||
      row->line->weight.grains <= article->weight.grains)
    return;
  article->weight = row->line->weight;
  article->source = WB_ARTICLE_WEIGHT_THING;
}

/* Puts a line with its article, which is made when it is the first. */
static gboolean
place_line (WbRun             *run,
            guint              line,
            const WbArticles  *articles,
            GError           **error)
{
  const WbLineReckoning *row = &run->out->lines[line];
  Parts *parts = row->piece != NULL ? parts_of (row->piece, articles->parts) : NULL;
  guint nowhere = 0;
  guint *place = parts != NULL        ? &parts->place
                 : row->piece != NULL ? &articles->places[row->piece_index]
                                      : &nowhere;
  WbArticle *article;

  run->next_in_article[line] = WB_NO_LINE;
  if (*place == 0)
    {
      WbArticle fresh = { .first_line = line, .last_line = line };

      if (parts != NULL)
        set_parts (&fresh, parts);
      else if (row->piece != NULL && !set_piece (run, &fresh, row->piece, error))
        return FALSE;
      run->articles[run->n_articles] = fresh;
      *place = ++run->n_articles;
    }

  article = &run->articles[*place - 1];
  if (article->last_line != line)
    run->next_in_article[article->last_line] = line;
  article->last_line = line;
  weigh_by_line (article, row, parts != NULL);
  return TRUE;
}

gboolean
wb_run_find_article (const WbRun      *run,
                     const WbArticles *articles,
                     gint              index,
                     guint            *place)
{
  const Parts *parts = parts_of (wb_job_nth (run->job, WB_KIND_PIECE, (guint) index),
                                 articles->parts);
  guint found = parts != NULL ? parts->place : articles->places[index];

  *place = found - 1;
  return found > 0;
}

gboolean
wb_run_group_articles (WbRun   *run,
                       GError **error)
{
  g_autoptr (GHashTable) all_parts = collect_parts (run, error);
  g_autofree guint *places = g_new0 (guint, wb_job_count (run->job, WB_KIND_PIECE));
  WbArticles articles = { all_parts, places };

  if (all_parts == NULL)
    return FALSE;
  for (guint i = 0; i < run->out->n_lines; i++)
    {
      wb_run_expect_piece (run, i);
      if (!place_line (run, i, &articles, error))
        return FALSE;
    }
  return wb_run_look_elsewhere (run, &articles, error);
}
