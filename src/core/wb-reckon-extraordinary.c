/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cap on what is of extraordinary value: 49 CFR 375.203(b), (c). An unlisted thing brings no
 * more than so much a pound, one that the shipper listed in writing up to its listed value. */
#include "core/wb-reckon-private.h"

/* Whether the shipper signed a list with this article on it before the move: 49 CFR 375.203(b),
 * (c). */
static gboolean
is_listed (const WbRun     *run,
           const WbArticle *article)
{
  return article->is_listed && wb_job_valuation (run->job)->high_value_list;
}

/* Whether @group is worth more than the terms' rate gives for its weight, or than other claims left
 * of that, which is then its @cap; else @cap is all that it is worth. Without a weight @known is
 * FALSE. */
static gboolean
cap_unlisted (WbRun         *run,
              WbSide         side,
              const WbGroup *group,
              WbStanding     standing,
              gint64        *cap,
              gboolean      *known,
              GError       **error)
{
  WbRate rate = run->terms->side[side].extraordinary_rate;
  gint64 limit;

  *cap = standing.total;
  if (standing.n_lines == 0)
    return TRUE;
  if (!wb_weight_is_positive (group->weight))
    {
      *known = FALSE;
      return TRUE;
    }
  if (!wb_run_apply_rate (run, rate, group->weight, WB_VOLUME_UNSET, &limit, error))
    return FALSE;
  if (standing.total <= MAX (limit - group->paid, 0))
    return TRUE;

  wb_group_note_weight (run, side, group, WB_KEY_EXTRAORDINARY_WEIGHT);
  WB_NOTE_ON_LINES (run, side, group, WB_RULE_EXTRAORDINARY, WB_KEY_EXTRAORDINARY_RATE,
                    wb_figure_money (WB_FIGURE_LIMIT, limit),
                    wb_figure_money (WB_FIGURE_LOSS, standing.total),
                    wb_figure_weight (WB_FIGURE_WEIGHT, group->weight),
                    wb_figure_rate (WB_FIGURE_RATE, rate),
                    wb_figure_number (WB_FIGURE_COUNT, standing.n_lines));
  wb_group_leave_of_limit (run, side, group, standing, &limit);
  *cap = limit;
  return TRUE;
}

/* The rule cannot be applied to the lines of a group, so what they may bring may be too much. */
static void
miss_extraordinary (WbRun         *run,
                    WbSide         side,
                    const WbGroup *group)
{
  for (guint i = group->first_line; i != WB_NO_LINE; i = wb_group_next (run, group, i))
    {
      WbLineFigures *figures = wb_run_figures (run, side, i);

      if (figures->allowed == 0)
        continue;
      figures->complete = FALSE;
      WB_NOTE (run, WB_RULE_MISSING_FIGURE, (WbScope) side, WB_KEY_EXTRAORDINARY_RATE, (gint) i,
               wb_figure_money (WB_FIGURE_AMOUNT, figures->allowed),
               wb_figure_code (WB_FIGURE_MISSING, WB_MISSING_ARTICLE_WEIGHT));
    }
}

/* Whether a listed article brings more than the @cap of an unlisted one. It does whatever it weighs
 * when all of it is listed. */
static gboolean
listing_helps (const WbRun     *run,
               WbSide           side,
               const WbArticle *article,
               WbStanding       standing,
               gint64           cap,
               gboolean         known)
{
  gint64 left = article->listed - wb_run_paid_elsewhere (run, side, &article->paid);

  if (!is_listed (run, article))
    return FALSE;
  if (!known && left >= standing.total)
    return TRUE;
  return cap < standing.total && left > cap;
}

/* Listed for more than an unlisted one would bring, the article brings up to its listed value,
 * which is all its lines' together. */
static gboolean
apply_listed (WbRun           *run,
              WbSide           side,
              const WbArticle *article,
              WbStanding       standing,
              GError         **error)
{
  WbGroup whole = wb_group_of_article (run, side, article);
  gint64 limit = article->listed;

  WB_NOTE_ON_LINES (run, side, &whole, WB_RULE_LISTED, WB_KEY_EXTRAORDINARY_RATE,
                    wb_figure_money (WB_FIGURE_LIMIT, article->listed),
                    wb_figure_money (WB_FIGURE_LOSS, standing.total),
                    wb_figure_money (WB_FIGURE_LISTED, article->listed),
                    wb_figure_number (WB_FIGURE_COUNT, standing.n_lines));
  wb_group_leave_of_limit (run, side, &whole, standing, &limit);
  return wb_group_share (run, side, &whole, standing, limit, error);
}

/* Each thing of an article judged by itself. */
static gboolean
limit_things (WbRun           *run,
              WbSide           side,
              const WbArticle *article,
              WbStanding       whole,
              GError         **error)
{
  gint64 *caps = run->scratch_parts;
  gint64 together = 0;
  gboolean all_known = TRUE;
  gsize n = 0;

  for (guint i = article->first_line; i != WB_NO_LINE; i = run->next_in_article[i], n++)
    {
      WbGroup thing = wb_group_of_line (run, side, article, i);
      gint64 allowed = wb_run_figures (run, side, i)->allowed;

      if (!cap_unlisted (run, side, &thing, (WbStanding) { allowed, allowed > 0 }, &caps[n],
                         &all_known, error) ||
          !wb_run_add (&together, caps[n], error))
        return FALSE;
    }
  if (listing_helps (run, side, article, whole, together, all_known))
    return apply_listed (run, side, article, whole, error);

  n = 0;
  for (guint i = article->first_line; i != WB_NO_LINE; i = run->next_in_article[i], n++)
    {
      WbGroup thing = wb_group_of_line (run, side, article, i);

      wb_run_figures (run, side, i)->allowed = caps[n];
      if (!wb_weight_is_positive (thing.weight))
        miss_extraordinary (run, side, &thing);
    }
  return TRUE;
}

/* An unlisted thing worth more a pound than the terms' rate is paid no more than that rate; a
 * listed one up to its listed value, and nobody is worse off for having listed a thing. */
gboolean
wb_run_limit_extraordinary (WbRun           *run,
                            WbSide           side,
                            const WbArticle *article,
                            GError         **error)
{
  const WbSideTerms *terms = &run->terms->side[side];
  WbGroup group = wb_group_of_article (run, side, article);
  gboolean known = TRUE;
  WbStanding standing;
  gint64 cap;

  if (!wb_rate_is_set (terms->extraordinary_rate))
    return TRUE;
  if (!wb_group_sum (run, side, &group, &standing, error))
    return FALSE;
  if (standing.n_lines == 0)
    return TRUE;
  if (article->each_thing || terms->extraordinary_weight == WB_EXTRAORDINARY_THING)
    return limit_things (run, side, article, standing, error);

  if (!cap_unlisted (run, side, &group, standing, &cap, &known, error))
    return FALSE;
  if (listing_helps (run, side, article, standing, cap, known))
    return apply_listed (run, side, article, standing, error);
  if (!known)
    miss_extraordinary (run, side, &group);
  return wb_group_share (run, side, &group, standing, cap, error);
}
