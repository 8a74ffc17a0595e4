/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the parts of one reckoning run share. Included by wb-reckon*.c alone. */
#pragma once

#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/** WbArticle: what one limit by weight belongs to: a loose piece, a carton with all in it, or all
 * parts of a thing taken apart. Which it is, the terms say. */
typedef struct
{
  WbWeight              weight;
  WbArticleWeightSource source;
  gint64                listed;        /* sum of listed values of its pieces, minor units */
  gboolean              is_listed;
  gboolean              whole_lost;    /* counted short, or loose and lost by a line */
  guint                 n_lines;
  guint                 first_line;    /* its lines: this, then next_in_article[…] */
  guint                 last_line;
} WbArticle;

#define WB_NO_LINE G_MAXUINT

/** WbSideRun: figures of one side that are worked out before its lines. */
typedef struct
{
  WbMeasure measure;                   /* as the terms say, or actual value for a late claim */
} WbSideRun;

/** WbRun: one reckoning while it is being made. */
typedef struct
{
  WbReckoning *out;
  const WbTerms *terms;
  const WbJob *job;
  gboolean     barred;                 /* filed too late: nothing is paid */
  WbSideRun    side[WB_N_SIDES];
  GArray      *articles;               /* WbArticle, in order of their first line */
  guint       *article_of_line;
  guint       *next_in_article;
  gint64      *scratch_shares;         /* one a line, for splits */
  gint64      *scratch_parts;
  gboolean     said[WB_N_SCOPES][WB_N_TERMS_KEYS];  /* silence of a key is said once */
} WbRun;

/* --- reasons ---------------------------------------------------------------------------------- */

#define WB_NO_KEY (-1)

/** Notes one step. With a key that the terms leave out, a %WB_RULE_SILENT reason goes before it,
 * once a key. */
void     wb_run_note          (WbRun          *run,
                               WbRule          rule,
                               WbScope         scope,
                               gint            key,
                               gint            line,
                               WbFigure        result,
                               const WbFigure *inputs,
                               guint           n_inputs);

/** Notes a step with the inputs written out. */
#define WB_NOTE(run, rule, scope, key, line, result, ...)                                          \
  wb_run_note (run, rule, scope, key, line, result, (const WbFigure[]) { __VA_ARGS__ },            \
               (guint) (sizeof ((const WbFigure[]) { __VA_ARGS__ }) / sizeof (WbFigure)))

static inline WbFigure
wb_figure_money (WbFigureName name,
                 gint64       minor)
{
  return (WbFigure) { (guint8) name, WB_FIGURE_TYPE_MONEY, 0, minor };
}

static inline WbFigure
wb_figure_weight (WbFigureName name,
                  WbWeight     weight)
{
  return (WbFigure) { (guint8) name, WB_FIGURE_TYPE_WEIGHT, (gint16) weight.unit, weight.grains };
}

static inline WbFigure
wb_figure_rate (WbFigureName name,
                WbRate       rate)
{
  return (WbFigure) { (guint8) name, WB_FIGURE_TYPE_RATE, (gint16) rate.unit, rate.per.minor };
}

static inline WbFigure
wb_figure_percent (WbFigureName name,
                   gint64       hundredths)
{
  return (WbFigure) { (guint8) name, WB_FIGURE_TYPE_PERCENT, 0, hundredths };
}

static inline WbFigure
wb_figure_date (WbFigureName  name,
                const GDate  *date)
{
  return (WbFigure) { (guint8) name, WB_FIGURE_TYPE_DATE, 0, (gint64) g_date_get_julian (date) };
}

static inline WbFigure
wb_figure_number (WbFigureName name,
                  gint64       number)
{
  return (WbFigure) { (guint8) name, WB_FIGURE_TYPE_NUMBER, 0, number };
}

static inline WbFigure
wb_figure_code (WbFigureName name,
                int          code)
{
  return (WbFigure) { (guint8) name, WB_FIGURE_TYPE_CODE, 0, code };
}

/* --- steps, in the order of the table in wb-reckon.c ------------------------------------------ */

/* wb-reckon-shipment.c */
void     wb_run_choose_side       (WbRun *run);
gboolean wb_run_judge_filing      (WbRun *run, GError **error);
gboolean wb_run_limit_shipment    (WbRun *run, WbSide side, GError **error);
gboolean wb_run_refund_freight    (WbRun *run, GError **error);

/* wb-reckon-loss.c */
gboolean wb_run_measure_line      (WbRun *run, WbSide side, guint line, GError **error);

/* wb-reckon-article.c */
gboolean wb_run_group_articles    (WbRun *run, GError **error);
gboolean wb_run_limit_articles    (WbRun *run, WbSide side, GError **error);

/* wb-reckon-share.c */
gboolean wb_run_share_shipment    (WbRun *run, WbSide side, GError **error);

/** Adds to a sum; %FALSE with %WB_CORE_ERROR_OVERFLOW. */
gboolean wb_run_add               (gint64 *sum, gint64 term, GError **error);

G_END_DECLS
