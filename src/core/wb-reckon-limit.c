/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How much one line and one article may bring: flat limits, so much a pound, and the cap on what is
 * of extraordinary value (49 CFR 375.203). Several lines share what their article brings. What
 * belongs to an article is found in wb-reckon-article.c. */
#include "core/wb-reckon-private.h"

/* Lines that are judged together: all of an article, or one of them by itself. */
typedef struct
{
  guint                 first_line;
  gboolean              alone;
  WbWeight              weight;      /* that their limit goes by; unset when not known */
  WbArticleWeightSource source;
  gint64                paid;        /* in other claims, against a limit of the side */
} Group;

/* What the lines of a group may bring so far, together, and how many of them bring anything. */
typedef struct
{
  gint64 total;
  guint  n_lines;
} Standing;

static guint
next_line (const WbRun *run,
           const Group *group,
           guint        line)
{
  return group->alone ? WB_NO_LINE : run->next_in_article[line];
}

static Group
group_of_article (const WbRun     *run,
                  WbSide           side,
                  const WbArticle *article)
{
  return (Group) { article->first_line, FALSE, article->weight, article->source,
                   wb_run_paid_elsewhere (run, side, &article->paid) };
}

/* What other claims were paid for the same thing. */
static gint64
paid_for_thing (const WbRun *run,
                WbSide       side,
                guint        line)
{
  return run->line_paid != NULL ? wb_run_paid_elsewhere (run, side, &run->line_paid[line]) : 0;
}

/* One thing, by its own weight or that of the article. */
static Group
group_of_line (const WbRun     *run,
               WbSide           side,
               const WbArticle *article,
               guint            line)
{
  WbWeight weight = run->out->lines[line].line->weight;
  gint64 paid = paid_for_thing (run, side, line);

  if (wb_weight_is_positive (weight))
    return (Group) { line, TRUE, weight, WB_ARTICLE_WEIGHT_THING, paid };
  return (Group) { line, TRUE, article->weight, article->source, paid };
}

static inline WbLineFigures *
figures_of (const WbRun *run,
            WbSide       side,
            guint        line)
{
  return &run->out->lines[line].side[side];
}

static gboolean
sum_allowed (const WbRun  *run,
             WbSide        side,
             const Group  *group,
             Standing     *standing,
             GError      **error)
{
  *standing = (Standing) { 0, 0 };
  for (guint i = group->first_line; i != WB_NO_LINE; i = next_line (run, group, i))
    {
      gint64 allowed = figures_of (run, side, i)->allowed;

      standing->n_lines += allowed > 0;
      if (!wb_run_add (&standing->total, allowed, error))
        return FALSE;
    }
  return TRUE;
}

/* Notes a step on each line of a group that it concerns. */
static void
note_on_lines (WbRun          *run,
               WbSide          side,
               const Group    *group,
               WbRule          rule,
               gint            key,
               WbFigure        result,
               const WbFigure *inputs,
               guint           n_inputs)
{
  for (guint i = group->first_line; i != WB_NO_LINE; i = next_line (run, group, i))
    if (figures_of (run, side, i)->allowed > 0)
      wb_run_note (run, rule, (WbScope) side, key, (gint) i, result, inputs, n_inputs);
}

#define NOTE_ON_LINES(run, side, group, rule, key, result, ...)                                    \
  note_on_lines (run, side, group, rule, key, result, (const WbFigure[]) { __VA_ARGS__ },          \
                 (guint) (sizeof ((const WbFigure[]) { __VA_ARGS__ }) / sizeof (WbFigure)))

/* Takes what other claims were paid for the lines of a group off a limit of theirs. */
static void
leave_of_limit (WbRun       *run,
                WbSide       side,
                const Group *group,
                Standing     standing,
                gint64      *limit)
{
  gint64 left = MAX (*limit - group->paid, 0);

  if (group->paid == 0)
    return;
  NOTE_ON_LINES (run, side, group, WB_RULE_ARTICLE_LEFT, WB_NO_KEY,
                 wb_figure_money (WB_FIGURE_LIMIT, left),
                 wb_figure_money (WB_FIGURE_AMOUNT, *limit),
                 wb_figure_money (WB_FIGURE_EARLIER, group->paid),
                 wb_figure_number (WB_FIGURE_COUNT, standing.n_lines));
  *limit = left;
}

/* Shares a limit out among a group's lines in proportion to what each may bring so far. */
static gboolean
share_limit (WbRun        *run,
             WbSide        side,
             const Group  *group,
             Standing      standing,
             gint64        limit,
             GError      **error)
{
  gsize n = 0;

  if (standing.total <= limit)
    return TRUE;
  for (guint i = group->first_line; i != WB_NO_LINE; i = next_line (run, group, i))
    run->scratch_shares[n++] = figures_of (run, side, i)->allowed;
  if (!wb_minor_split (limit, run->scratch_shares, n, run->scratch_parts, error))
    return FALSE;

  n = 0;
  for (guint i = group->first_line; i != WB_NO_LINE; i = next_line (run, group, i), n++)
    {
      WbLineFigures *figures = figures_of (run, side, i);

      if (standing.n_lines > 1 && figures->allowed > 0)
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

/* The key of the terms that made this the weight of the article, if one did. */
static gint
weight_key (const WbRun *run,
            const Group *group)
{
  const WbPiece *piece = run->out->lines[group->first_line].piece;

  switch (group->source)
    {
    case WB_ARTICLE_WEIGHT_PARTS:
      return WB_KEY_PARTS;
    case WB_ARTICLE_WEIGHT_VOLUME:
      return WB_KEY_CONSTRUCTIVE_WEIGHT;
    case WB_ARTICLE_WEIGHT_PIECE:
    case WB_ARTICLE_WEIGHT_THING:
      return piece != NULL && wb_run_is_packed (piece) ? (gint) WB_KEY_CARTON : WB_NO_KEY;
    case WB_ARTICLE_WEIGHT_NONE:
      break;
    }
  return WB_NO_KEY;
}

static void
note_weight (WbRun       *run,
             WbSide       side,
             const Group *group,
             gint         key)
{
  const WbPiece *piece = run->out->lines[group->first_line].piece;
  WbFigure result = wb_figure_weight (WB_FIGURE_WEIGHT, group->weight);
  WbFigure source = wb_figure_code (WB_FIGURE_WEIGHT_SOURCE, (int) group->source);

  if (group->source == WB_ARTICLE_WEIGHT_VOLUME)
    NOTE_ON_LINES (run, side, group, WB_RULE_ARTICLE_WEIGHT, key, result, source,
                   wb_figure_volume (WB_FIGURE_VOLUME, piece->volume),
                   wb_figure_weight (WB_FIGURE_WEIGHT, run->terms->constructive_weight));
  else
    NOTE_ON_LINES (run, side, group, WB_RULE_ARTICLE_WEIGHT, key, result, source);
}

/* --- limits of one line ----------------------------------------------------------------------- */

/* A sound thing is claimed because its set was broken. GAO B-266119 had the carrier pay for
 * matching pieces; tariffs usually pay for none (from memory). The terms decide. */
static void
judge_set_mate (WbRun  *run,
                WbSide  side,
                guint   line)
{
  WbLineFigures *figures = figures_of (run, side, line);
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
leave_of_value (WbRun  *run,
                WbSide  side,
                guint   line)
{
  WbLineFigures *figures = figures_of (run, side, line);
  gint64 paid = paid_for_thing (run, side, line);
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
limit_line (WbRun  *run,
            WbSide  side,
            guint   line)
{
  WbMoney limit = run->terms->side[side].line_limit;
  WbLineFigures *figures = figures_of (run, side, line);
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

/* --- extraordinary value ---------------------------------------------------------------------- */

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
cap_unlisted (WbRun        *run,
              WbSide        side,
              const Group  *group,
              Standing      standing,
              gint64       *cap,
              gboolean     *known,
              GError      **error)
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

  note_weight (run, side, group, WB_KEY_EXTRAORDINARY_WEIGHT);
  NOTE_ON_LINES (run, side, group, WB_RULE_EXTRAORDINARY, WB_KEY_EXTRAORDINARY_RATE,
                 wb_figure_money (WB_FIGURE_LIMIT, limit),
                 wb_figure_money (WB_FIGURE_LOSS, standing.total),
                 wb_figure_weight (WB_FIGURE_WEIGHT, group->weight),
                 wb_figure_rate (WB_FIGURE_RATE, rate),
                 wb_figure_number (WB_FIGURE_COUNT, standing.n_lines));
  leave_of_limit (run, side, group, standing, &limit);
  *cap = limit;
  return TRUE;
}

/* The rule cannot be applied to the lines of a group, so what they may bring may be too much. */
static void
miss_extraordinary (WbRun       *run,
                    WbSide       side,
                    const Group *group)
{
  for (guint i = group->first_line; i != WB_NO_LINE; i = next_line (run, group, i))
    {
      WbLineFigures *figures = figures_of (run, side, i);

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
               Standing         standing,
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
apply_listed (WbRun            *run,
              WbSide            side,
              const WbArticle  *article,
              Standing          standing,
              GError          **error)
{
  Group whole = group_of_article (run, side, article);
  gint64 limit = article->listed;

  NOTE_ON_LINES (run, side, &whole, WB_RULE_LISTED, WB_KEY_EXTRAORDINARY_RATE,
                 wb_figure_money (WB_FIGURE_LIMIT, article->listed),
                 wb_figure_money (WB_FIGURE_LOSS, standing.total),
                 wb_figure_money (WB_FIGURE_LISTED, article->listed),
                 wb_figure_number (WB_FIGURE_COUNT, standing.n_lines));
  leave_of_limit (run, side, &whole, standing, &limit);
  return share_limit (run, side, &whole, standing, limit, error);
}

/* Each thing of an article judged by itself. */
static gboolean
limit_things (WbRun            *run,
              WbSide            side,
              const WbArticle  *article,
              Standing          whole,
              GError          **error)
{
  gint64 *caps = run->scratch_parts;
  gint64 together = 0;
  gboolean all_known = TRUE;
  gsize n = 0;

  for (guint i = article->first_line; i != WB_NO_LINE; i = run->next_in_article[i], n++)
    {
      Group thing = group_of_line (run, side, article, i);
      gint64 allowed = figures_of (run, side, i)->allowed;

      if (!cap_unlisted (run, side, &thing, (Standing) { allowed, allowed > 0 }, &caps[n],
                         &all_known, error) ||
          !wb_run_add (&together, caps[n], error))
        return FALSE;
    }
  if (listing_helps (run, side, article, whole, together, all_known))
    return apply_listed (run, side, article, whole, error);

  n = 0;
  for (guint i = article->first_line; i != WB_NO_LINE; i = run->next_in_article[i], n++)
    {
      Group thing = group_of_line (run, side, article, i);

      figures_of (run, side, i)->allowed = caps[n];
      if (!wb_weight_is_positive (thing.weight))
        miss_extraordinary (run, side, &thing);
    }
  return TRUE;
}

/* An unlisted thing worth more a pound than the terms' rate is paid no more than that rate; a
 * listed one up to its listed value, and nobody is worse off for having listed a thing. */
static gboolean
limit_extraordinary (WbRun            *run,
                     WbSide            side,
                     const WbArticle  *article,
                     GError          **error)
{
  const WbSideTerms *terms = &run->terms->side[side];
  Group group = group_of_article (run, side, article);
  gboolean known = TRUE;
  Standing standing;
  gint64 cap;

  if (!wb_rate_is_set (terms->extraordinary_rate))
    return TRUE;
  if (!sum_allowed (run, side, &group, &standing, error))
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
  return share_limit (run, side, &group, standing, cap, error);
}

/* --- limits of one article -------------------------------------------------------------------- */

/* Nothing can be said of lines whose article has no weight when the limit hangs on it. */
static void
miss_weight (WbRun       *run,
             WbSide       side,
             const Group *group)
{
  for (guint i = group->first_line; i != WB_NO_LINE; i = next_line (run, group, i))
    {
      WbLineFigures *figures = figures_of (run, side, i);

      if (figures->allowed == 0)
        continue;
      figures->complete = FALSE;
      figures->allowed = 0;
      WB_NOTE (run, WB_RULE_MISSING_FIGURE, (WbScope) side, WB_NO_KEY, (gint) i,
               wb_figure_money (WB_FIGURE_AMOUNT, 0),
               wb_figure_code (WB_FIGURE_MISSING, WB_MISSING_ARTICLE_WEIGHT));
    }
}

/* So much a pound for the article: the released rate. */
static gboolean
limit_by_rate (WbRun        *run,
               WbSide        side,
               const Group  *group,
               Standing      standing,
               gint64       *limit,
               GError      **error)
{
  WbRate rate = run->terms->side[side].article_rate;

  if (!wb_run_apply_rate (run, rate, group->weight, WB_VOLUME_UNSET, limit, error))
    return FALSE;
  note_weight (run, side, group, weight_key (run, group));
  NOTE_ON_LINES (run, side, group, WB_RULE_ARTICLE_LIMIT, WB_KEY_ARTICLE_RATE,
                 wb_figure_money (WB_FIGURE_LIMIT, *limit),
                 wb_figure_money (WB_FIGURE_LOSS, standing.total),
                 wb_figure_rate (WB_FIGURE_RATE, rate),
                 wb_figure_weight (WB_FIGURE_WEIGHT, group->weight),
                 wb_figure_number (WB_FIGURE_COUNT, standing.n_lines));
  return TRUE;
}

/* A flat limit, told only where nothing lower was told before it. */
static void
limit_flat (WbRun       *run,
            WbSide       side,
            const Group *group,
            Standing     standing,
            gint64       flat,
            gint64      *limit)
{
  if (flat >= *limit)
    return;
  NOTE_ON_LINES (run, side, group, WB_RULE_ARTICLE_LIMIT, WB_KEY_ARTICLE_LIMIT,
                 wb_figure_money (WB_FIGURE_LIMIT, flat),
                 wb_figure_money (WB_FIGURE_LOSS, MIN (standing.total, *limit)),
                 wb_figure_number (WB_FIGURE_COUNT, standing.n_lines));
  *limit = flat;
}

static gboolean
limit_group (WbRun        *run,
             WbSide        side,
             const Group  *group,
             GError      **error)
{
  const WbSideTerms *terms = &run->terms->side[side];
  gint64 limit = G_MAXINT64;
  Standing standing;

  if (!sum_allowed (run, side, group, &standing, error))
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
    leave_of_limit (run, side, group, standing, &limit);
  return share_limit (run, side, group, standing, limit, error);
}

static gboolean
limit_article (WbRun            *run,
               WbSide            side,
               const WbArticle  *article,
               GError          **error)
{
  Group whole = group_of_article (run, side, article);

  if (!limit_extraordinary (run, side, article, error))
    return FALSE;
  if (!article->each_thing)
    return limit_group (run, side, &whole, error);
  for (guint i = article->first_line; i != WB_NO_LINE; i = run->next_in_article[i])
    {
      Group thing = group_of_line (run, side, article, i);

      if (!limit_group (run, side, &thing, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
wb_run_limit_lines (WbRun   *run,
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
