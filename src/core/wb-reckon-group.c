/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines that are judged together: all of an article, or one of them by itself. What they come to,
 * what a step notes on each of them, and how they share a limit. Which limits there are stands in
 * wb-reckon-limit.c and wb-reckon-extraordinary.c. */
#include "core/wb-reckon-private.h"

WbGroup
wb_group_of_article (const WbRun     *run,
                     WbSide           side,
                     const WbArticle *article)
{
  return (WbGroup) { article->first_line, FALSE, article->is_packed, article->weight,
                     article->source, wb_run_paid_elsewhere (run, side, &article->paid) };
}

/* What other claims were paid for the same thing. */
gint64
wb_run_paid_for_thing (const WbRun *run,
                       WbSide       side,
                       guint        line)
{
  return run->line_paid != NULL ? wb_run_paid_elsewhere (run, side, &run->line_paid[line]) : 0;
}

/* One thing, by its own weight or that of the article. */
WbGroup
wb_group_of_line (const WbRun     *run,
                  WbSide           side,
                  const WbArticle *article,
                  guint            line)
{
  WbWeight weight = run->out->lines[line].line->weight;
  gint64 paid = wb_run_paid_for_thing (run, side, line);

  if (wb_weight_is_positive (weight))
    return (WbGroup) { line, TRUE, article->is_packed, weight, WB_ARTICLE_WEIGHT_THING, paid };
  return (WbGroup) { line, TRUE, article->is_packed, article->weight, article->source, paid };
}

gboolean
wb_group_sum (const WbRun   *run,
              WbSide         side,
              const WbGroup *group,
              WbStanding    *standing,
              GError       **error)
{
  *standing = (WbStanding) { 0, 0 };
  for (guint i = group->first_line; i != WB_NO_LINE; i = wb_group_next (run, group, i))
    {
      gint64 allowed = wb_run_figures (run, side, i)->allowed;

      standing->n_lines += allowed > 0;
      if (!wb_run_add (&standing->total, allowed, error))
        return FALSE;
    }
  return TRUE;
}

/* Notes a step on each line of a group that it concerns. */
void
wb_group_note (WbRun          *run,
               WbSide          side,
               const WbGroup  *group,
               WbRule          rule,
               gint            key,
               WbFigure        result,
               const WbFigure *inputs,
               guint           n_inputs)
{
  for (guint i = group->first_line; i != WB_NO_LINE; i = wb_group_next (run, group, i))
    if (wb_run_figures (run, side, i)->allowed > 0)
      wb_run_note (run, rule, (WbScope) side, key, (gint) i, result, inputs, n_inputs);
}

/* Takes what other claims were paid for the lines of a group off a limit of theirs. */
void
wb_group_leave_of_limit (WbRun         *run,
                         WbSide         side,
                         const WbGroup *group,
                         WbStanding     standing,
                         gint64        *limit)
{
  gint64 left = MAX (*limit - group->paid, 0);

  if (group->paid == 0)
    return;
  WB_NOTE_ON_LINES (run, side, group, WB_RULE_ARTICLE_LEFT, WB_NO_KEY,
                    wb_figure_money (WB_FIGURE_LIMIT, left),
                    wb_figure_money (WB_FIGURE_AMOUNT, *limit),
                    wb_figure_money (WB_FIGURE_EARLIER, group->paid),
                    wb_figure_number (WB_FIGURE_COUNT, standing.n_lines));
  *limit = left;
}

/* The one line of a group that brings anything has a limit for itself. */
static void
give_all (WbRun         *run,
          WbSide         side,
          const WbGroup *group,
          gint64         limit)
{
  for (guint i = group->first_line; i != WB_NO_LINE; i = wb_group_next (run, group, i))
    if (wb_run_figures (run, side, i)->allowed > 0)
      wb_run_figures (run, side, i)->allowed = limit;
}

/* Shares a limit out among a group's lines in proportion to what each may bring so far. */
gboolean
wb_group_share (WbRun         *run,
                WbSide         side,
                const WbGroup *group,
                WbStanding     standing,
                gint64         limit,
                GError       **error)
{
  gsize n = 0;

  if (standing.total <= limit)
    return TRUE;
  if (standing.n_lines == 1)
    {
      give_all (run, side, group, limit);
      return TRUE;
    }
  for (guint i = group->first_line; i != WB_NO_LINE; i = wb_group_next (run, group, i))
    run->scratch_shares[n++] = wb_run_figures (run, side, i)->allowed;
  if (!wb_minor_split (limit, run->scratch_shares, n, run->scratch_parts, error))
    return FALSE;

  n = 0;
  for (guint i = group->first_line; i != WB_NO_LINE; i = wb_group_next (run, group, i), n++)
    {
      WbLineFigures *figures = wb_run_figures (run, side, i);

      if (figures->allowed > 0)
        WB_NOTE (run, WB_RULE_ARTICLE_SHARE, (WbScope) side, WB_NO_KEY, (gint) i,
                 wb_figure_money (WB_FIGURE_AMOUNT, run->scratch_parts[n]),
                 wb_figure_money (WB_FIGURE_LOSS, figures->allowed),
                 wb_figure_money (WB_FIGURE_LIMIT, limit),
                 wb_figure_number (WB_FIGURE_COUNT, standing.n_lines));
      figures->allowed = run->scratch_parts[n];
    }
  return TRUE;
}

/* --- weight ----------------------------------------------------------------------------------- */

void
wb_group_note_weight (WbRun         *run,
                      WbSide         side,
                      const WbGroup *group,
                      gint           key)
{
  const WbPiece *piece = run->out->lines[group->first_line].piece;
  WbFigure result = wb_figure_weight (WB_FIGURE_WEIGHT, group->weight);
  WbFigure source = wb_figure_code (WB_FIGURE_WEIGHT_SOURCE, (int) group->source);

  if (group->source == WB_ARTICLE_WEIGHT_VOLUME)
    WB_NOTE_ON_LINES (run, side, group, WB_RULE_ARTICLE_WEIGHT, key, result, source,
                      wb_figure_volume (WB_FIGURE_VOLUME, piece->volume),
                      wb_figure_weight (WB_FIGURE_WEIGHT, run->terms->constructive_weight));
  else
    WB_NOTE_ON_LINES (run, side, group, WB_RULE_ARTICLE_WEIGHT, key, result, source);
}
