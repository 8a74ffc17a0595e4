/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How much one line and one article may bring: nothing, flat limits, so much a pound. Several lines
 * share what their article brings. What belongs to an article is found in wb-reckon-article.c, the
 * cap on what is of extraordinary value stands in wb-reckon-extraordinary.c. */
#include "core/wb-reckon-private.h"

/* --- limits of one line ----------------------------------------------------------------------- */

/* A sound thing is claimed because its set was broken. GAO B-266119 had the carrier pay for
 * matching pieces; tariffs usually pay for none (from memory). The terms decide. */
static void
judge_set_mate (WbRun *run,
                WbSide side,
                guint  line)
{
  WbLineFigures *figures = wb_run_figures (run, side, line);
  gint64 loss = figures->loss;

  if (wb_run_is_unpaid_mate (run, run->out->lines[line].line))
    figures->allowed = 0;
  WB_NOTE (run, WB_RULE_SET_MATE, (WbScope) side, WB_KEY_SETS, (gint) line,
           wb_figure_money (WB_FIGURE_AMOUNT, figures->allowed),
           wb_figure_money (WB_FIGURE_LOSS, loss),
           wb_figure_code (WB_FIGURE_CODE, (int) run->terms->sets));
}

/* A thing is not paid for beyond its value, whatever the number of claims about it. */
static void
leave_of_value (WbRun *run,
                WbSide side,
                guint  line)
{
  WbLineFigures *figures = wb_run_figures (run, side, line);
  gint64 paid = wb_run_paid_for_thing (run, side, line);
  gint64 before = figures->allowed;

  if (paid == 0 || run->values[line] < 0)
    return;
  figures->allowed = MIN (before, MAX (run->values[line] - paid, 0));
  if (figures->allowed < before)
    WB_NOTE (run, WB_RULE_THING_LEFT, (WbScope) side, WB_NO_KEY, (gint) line,
             wb_figure_money (WB_FIGURE_AMOUNT, figures->allowed),
             wb_figure_money (WB_FIGURE_LOSS, before),
             wb_figure_money (WB_FIGURE_REPLACEMENT, run->values[line]),
             wb_figure_money (WB_FIGURE_EARLIER, paid));
}

/* A denied line and one that came too late are paid nothing, nor is a sound mate where the terms
 * say so; a flat limit a line holds for each other line. */
static void
limit_line (WbRun *run,
            WbSide side,
            guint  line)
{
  WbMoney limit = run->terms->side[side].line_limit;
  WbLineFigures *figures = wb_run_figures (run, side, line);
  WbFigure loss = wb_figure_money (WB_FIGURE_LOSS, figures->loss);

  figures->allowed = figures->loss;
  if (run->out->lines[line].line->ruling == WB_RULING_DENIED)
    {
      WB_NOTE (run, WB_RULE_DENIED, (WbScope) side, WB_NO_KEY, (gint) line,
               wb_figure_money (WB_FIGURE_AMOUNT, 0), loss);
      figures->allowed = 0;
    }
  else if (run->barred)
    {
      WB_NOTE (run, WB_RULE_BARRED, (WbScope) side, (gint) run->barred_by, (gint) line,
               wb_figure_money (WB_FIGURE_AMOUNT, 0), loss);
      figures->allowed = 0;
    }
  else if (run->out->lines[line].line->set_mate)
    {
      judge_set_mate (run, side, line);
    }
  leave_of_value (run, side, line);
  if (wb_money_is_set (limit) && figures->allowed > limit.minor)
    {
      WB_NOTE (run, WB_RULE_LINE_LIMIT, (WbScope) side, WB_KEY_LINE_LIMIT, (gint) line,
               wb_figure_money (WB_FIGURE_AMOUNT, limit.minor),
               wb_figure_money (WB_FIGURE_LOSS, figures->allowed),
               wb_figure_money (WB_FIGURE_LIMIT, limit.minor));
      figures->allowed = limit.minor;
    }
}

/* --- limits of one article -------------------------------------------------------------------- */

/* Nothing can be said of lines whose article has no weight when the limit hangs on it. */
static void
miss_weight (WbRun         *run,
             WbSide         side,
             const WbGroup *group)
{
  for (guint i = group->first_line; i != WB_NO_LINE; i = wb_group_next (run, group, i))
    {
      WbLineFigures *figures = wb_run_figures (run, side, i);

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
weight_key (const WbGroup *group)
{
  switch (group->source)
    {
    case WB_ARTICLE_WEIGHT_PARTS:
      return WB_KEY_PARTS;
    case WB_ARTICLE_WEIGHT_VOLUME:
      return WB_KEY_CONSTRUCTIVE_WEIGHT;
    case WB_ARTICLE_WEIGHT_PIECE:
    case WB_ARTICLE_WEIGHT_THING:
      return group->is_packed ? (gint) WB_KEY_CARTON : WB_NO_KEY;
    case WB_ARTICLE_WEIGHT_NONE:
      break;
    }
  return WB_NO_KEY;
}

/* So much a pound for the article: the released rate. */
static gboolean
limit_by_rate (WbRun         *run,
               WbSide         side,
               const WbGroup *group,
               WbStanding     standing,
               gint64        *limit,
               GError       **error)
{
  WbRate rate = run->terms->side[side].article_rate;

  if (!wb_run_apply_rate (run, rate, group->weight, WB_VOLUME_UNSET, limit, error))
    return FALSE;
  wb_group_note_weight (run, side, group, weight_key (group));
  WB_NOTE_ON_LINES (run, side, group, WB_RULE_ARTICLE_LIMIT, WB_KEY_ARTICLE_RATE,
                    wb_figure_money (WB_FIGURE_LIMIT, *limit),
                    wb_figure_money (WB_FIGURE_LOSS, standing.total),
                    wb_figure_rate (WB_FIGURE_RATE, rate),
                    wb_figure_weight (WB_FIGURE_WEIGHT, group->weight),
                    wb_figure_number (WB_FIGURE_COUNT, standing.n_lines));
  return TRUE;
}

/* A flat limit, told only where nothing lower was told before it. */
static void
limit_flat (WbRun         *run,
            WbSide         side,
            const WbGroup *group,
            WbStanding     standing,
            gint64         flat,
            gint64        *limit)
{
  if (flat >= *limit)
    return;
  WB_NOTE_ON_LINES (run, side, group, WB_RULE_ARTICLE_LIMIT, WB_KEY_ARTICLE_LIMIT,
                    wb_figure_money (WB_FIGURE_LIMIT, flat),
                    wb_figure_money (WB_FIGURE_LOSS, MIN (standing.total, *limit)),
                    wb_figure_number (WB_FIGURE_COUNT, standing.n_lines));
  *limit = flat;
}

static gboolean
limit_group (WbRun         *run,
             WbSide         side,
             const WbGroup *group,
             GError       **error)
{
  const WbSideTerms *terms = &run->terms->side[side];
  gint64 limit = G_MAXINT64;
  WbStanding standing;

  if (!wb_group_sum (run, side, group, &standing, error))
    return FALSE;
  if (standing.n_lines == 0)
    return TRUE;

  if (wb_rate_is_set (terms->article_rate))
    {
      if (!wb_weight_is_positive (group->weight))
        {
          miss_weight (run, side, group);
          return TRUE;
        }
      if (!limit_by_rate (run, side, group, standing, &limit, error))
        return FALSE;
    }
  if (wb_money_is_set (terms->article_limit))
    limit_flat (run, side, group, standing, terms->article_limit.minor, &limit);
  if (limit < G_MAXINT64)
    wb_group_leave_of_limit (run, side, group, standing, &limit);
  return wb_group_share (run, side, group, standing, limit, error);
}

/* Things that count each for itself are limited before the listed value is shared out among them:
 * otherwise a thing that its own limit cuts anyway would take from the share of another. */
static gboolean
limit_article (WbRun           *run,
               WbSide           side,
               const WbArticle *article,
               GError         **error)
{
  WbGroup whole = wb_group_of_article (run, side, article);

  if (!article->each_thing)
    return wb_run_limit_extraordinary (run, side, article, error) &&
           limit_group (run, side, &whole, error);
  for (guint i = article->first_line; i != WB_NO_LINE; i = run->next_in_article[i])
    {
      WbGroup thing = wb_group_of_line (run, side, article, i);

      if (!limit_group (run, side, &thing, error))
        return FALSE;
    }
  return wb_run_limit_extraordinary (run, side, article, error);
}

gboolean
wb_run_limit_lines (WbRun   *run,
                    WbSide   side,
                    GError **error)
{
  for (guint i = 0; i < run->out->n_lines; i++)
    {
      wb_run_expect_line (run, i);
      limit_line (run, side, i);
    }
  for (guint i = 0; i < run->n_articles; i++)
    if (!limit_article (run, side, &run->articles[i], error))
      return FALSE;
  return TRUE;
}
