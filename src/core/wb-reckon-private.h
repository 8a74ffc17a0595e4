/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the parts of one reckoning run share. Included by wb-reckon*.c alone. */
#pragma once

#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/** WbPaid: what other claims were paid for something, and the deductible that they bore with it. */
typedef struct
{
  gint64 goods;        /* without the freight that went back with it */
  gint64 deductible;
} WbPaid;

/**
 * WbArticle:
 * @weight: of all of it; unset when it is not known, or when each thing in it counts for itself
 * @is_packed: it is a carton or a crate with what is in it
 * @each_thing: it is packed, and by the terms each claimed thing in it is an article by its own
 *   weight
 * @listed: sum of the listed values of its pieces, minor units; only when @is_listed
 * @paid: for lines of other claims on the same article, by payments that name such a line
 * @n_elsewhere: lines of other claims on the same article that something was paid on, or may have
 *   been, that cannot be taken off
 * @first_line: its lines form a chain: this one, then next_in_article[…] up to %WB_NO_LINE
 *
 * What the lines of one article share: a loose piece, a carton with all in it, all parts of a thing
 * taken apart, or a thing that is not on the inventory.
 */
typedef struct
{
  WbWeight              weight;
  WbArticleWeightSource source;
  gboolean              is_packed;
  gboolean              each_thing;
  gboolean              is_listed;
  gint64                listed;
  WbPaid                paid;
  guint                 n_elsewhere;
  guint                 first_line;
  guint                 last_line;
} WbArticle;

#define WB_NO_LINE G_MAXUINT

/** WbArticles: how a piece finds its article. Places are one more than an index into the run's
 * articles, 0 where there is none. */
typedef struct
{
  GHashTable *parts;     /* article text → what all parts of it have together, and its place */
  guint      *places;    /* one a piece of the job, in its order: of a piece that is no part */
} WbArticles;

/** WbRun: one reckoning while it is being made. */
typedef struct
{
  WbReckoning   *out;
  const WbTerms *terms;
  const WbJob   *job;
  gboolean       barred;               /* filed too late: nothing is paid */
  WbTermsKey     barred_by;            /* key of the terms that bars it */
  WbMeasure      measure[WB_N_SIDES];  /* as the terms say, or actual value for a late claim */
  GPtrArray     *piece_figures;        /* WbField: those of a piece that are figures */
  GHashTable    *short_pieces;         /* ids (borrowed) of pieces counted short; NULL for none */
  WbArticle     *articles;             /* in order of their first line; room for one a line */
  guint          n_articles;
  guint         *next_in_article;      /* one a line */
  WbPaid        *line_paid;            /* one a line: for the same thing in other claims; or NULL */
  gint64        *values;               /* one a line, of the side in hand: value of the thing, -1
                                          when not known */
  gint64        *scratch_shares;       /* one a line, for splits */
  gint64        *scratch_parts;
  gboolean       met[WB_N_SCOPES][WB_N_TERMS_KEYS];   /* silence of a key is said once */
} WbRun;

/* --- reasons ---------------------------------------------------------------------------------- */

/** Returns: (transfer none): room for another reason with so many inputs, all of which is yet to be
 * filled in. */
WbReason *wb_reasons_append (WbReasons *self,
                             guint      n_inputs);

/** Frees all reasons. */
void      wb_reasons_clear  (WbReasons *self);

/** Notes one step. With a key that the terms leave out, a %WB_RULE_SILENT reason goes before it,
 * once a key. */
void     wb_run_note          (WbRun           *run,
                               WbRule           rule,
                               WbScope          scope,
                               gint             key,
                               gint             line,
                               WbFigure         result,
                               const WbFigure  *inputs,
                               guint            n_inputs);

/** Notes that the terms are silent on @key when they are: for keys that decide something without a
 * step of their own. */
void     wb_run_meet_key      (WbRun           *run,
                               WbScope          scope,
                               WbTermsKey       key);

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
wb_figure_volume (WbFigureName name,
                  WbVolume     volume)
{
  return (WbFigure) { (guint8) name, WB_FIGURE_TYPE_VOLUME, (gint16) volume.unit, volume.bits };
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

/* --- memory ----------------------------------------------------------------------------------- */

/* How many lines ahead a loop over all of them asks for what it will look at. */
#define WB_LINES_AHEAD 8

/** Asks for memory that is soon looked at; @start: (nullable). The records of a large claim lie wherever they were made,
 * and waiting for each in turn takes longer than what is done with it. */
static inline void
wb_expect (gconstpointer start,
           gsize         size)
{
  for (gsize at = 0; start != NULL && at < size; at += 64)
    __builtin_prefetch ((const char *) start + at);
}

/** For loops over all lines: asks for the record of one further on. */
static inline void
wb_run_expect_line (const WbRun *run,
                    guint        line)
{
  if (line + WB_LINES_AHEAD < run->out->n_lines)
    wb_expect (run->out->lines[line + WB_LINES_AHEAD].line, sizeof (WbClaimLine));
}

/** Likewise for the piece of a line. */
static inline void
wb_run_expect_piece (const WbRun *run,
                     guint        line)
{
  if (line + WB_LINES_AHEAD < run->out->n_lines)
    wb_expect (run->out->lines[line + WB_LINES_AHEAD].piece, sizeof (WbPiece));
}

/* --- figures ---------------------------------------------------------------------------------- */

/** Adds to a sum; %FALSE with %WB_CORE_ERROR_OVERFLOW. */
gboolean wb_run_add            (gint64    *sum,
                                gint64     term,
                                GError   **error) G_GNUC_WARN_UNUSED_RESULT;

/** wb_minor_scale() with the rounding of the terms. */
gboolean wb_run_scale          (WbRun     *run,
                                gint64     minor,
                                gint64     numerator,
                                gint64     denominator,
                                gint64    *out,
                                GError   **error) G_GNUC_WARN_UNUSED_RESULT;

/** wb_rate_apply() with the rounding of the terms. */
gboolean wb_run_apply_rate     (WbRun     *run,
                                WbRate     rate,
                                WbWeight   weight,
                                WbVolume   volume,
                                gint64    *out,
                                GError   **error) G_GNUC_WARN_UNUSED_RESULT;

/** The weight of a piece: its own, or one made from its volume. Unset when neither is known. */
gboolean wb_run_weigh_piece    (WbRun                  *run,
                                const WbPiece          *piece,
                                WbWeight               *weight,
                                WbArticleWeightSource  *source,
                                GError                **error) G_GNUC_WARN_UNUSED_RESULT;

/** Whether a piece holds things: a carton or a crate. */
static inline gboolean
wb_run_is_packed (const WbPiece *piece)
{
  return piece->form == WB_FORM_CARTON || piece->form == WB_FORM_CRATE;
}

/** Whether a line claims a sound thing that the terms do not pay for. */
static inline gboolean
wb_run_is_unpaid_mate (const WbRun       *run,
                       const WbClaimLine *line)
{
  return line->set_mate && run->terms->sets == WB_SETS_ONLY_PIECE;
}

/** Whether a line is paid nothing whatever it lost. */
static inline gboolean
wb_run_pays_nothing (const WbRun *run,
                     guint        line)
{
  const WbClaimLine *claimed = run->out->lines[line].line;

  return run->barred || claimed->ruling == WB_RULING_DENIED ||
         wb_run_is_unpaid_mate (run, claimed);
}

/** The part of a payment that is for goods and not for freight. */
static inline gint64
wb_run_paid_for_goods (const WbPayment *payment)
{
  return payment->amount.minor - MIN (payment->freight_refund.minor, payment->amount.minor);
}

/** Whether a line of the claim belongs to the article of the piece with @index in the job, which is
 * then at @place. */
gboolean wb_run_find_article   (const WbRun       *run,
                                const WbArticles  *articles,
                                gint               index,
                                guint             *place);

/** What @paid takes from a limit of @side, which holds before a deductible. */
gint64   wb_run_paid_elsewhere (const WbRun       *run,
                                WbSide             side,
                                const WbPaid      *paid);

/** Returns: (transfer full) (element-type WbField): the fields of a kind that are figures. */
GPtrArray *wb_run_find_figures (WbKind             kind) G_GNUC_WARN_UNUSED_RESULT;

/** Whether the figures of a record, its @fields, are within their ranges. */
gboolean wb_run_check_figures  (const WbRun       *run,
                                gconstpointer      record,
                                GPtrArray         *fields,
                                GError           **error) G_GNUC_WARN_UNUSED_RESULT;

/* --- groups of lines -------------------------------------------------------------------------- */

/** WbGroup: lines that are judged together: all of an article, or one of them by itself. */
typedef struct
{
  guint                 first_line;
  gboolean              alone;
  gboolean              is_packed;   /* a carton or a crate, or what is in it */
  WbWeight              weight;      /* that their limit goes by; unset when not known */
  WbArticleWeightSource source;
  gint64                paid;        /* in other claims, against a limit of the side */
} WbGroup;

/** WbStanding: what the lines of a group may bring so far, together, and how many of them bring
 * anything. */
typedef struct
{
  gint64 total;
  guint  n_lines;
} WbStanding;

static inline guint
wb_group_next (const WbRun   *run,
               const WbGroup *group,
               guint          line)
{
  return group->alone ? WB_NO_LINE : run->next_in_article[line];
}

static inline WbLineFigures *
wb_run_figures (const WbRun *run,
                WbSide       side,
                guint        line)
{
  return &run->out->lines[line].side[side];
}

/** What other claims were paid for the thing of a line. */
gint64   wb_run_paid_for_thing   (const WbRun      *run,
                                  WbSide            side,
                                  guint             line);

WbGroup  wb_group_of_article     (const WbRun      *run,
                                  WbSide            side,
                                  const WbArticle  *article);
/** One thing, by its own weight or that of the article. */
WbGroup  wb_group_of_line        (const WbRun      *run,
                                  WbSide            side,
                                  const WbArticle  *article,
                                  guint             line);

gboolean wb_group_sum            (const WbRun      *run,
                                  WbSide            side,
                                  const WbGroup    *group,
                                  WbStanding       *standing,
                                  GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/** Notes a step on each line of a group that it concerns. */
void     wb_group_note           (WbRun            *run,
                                  WbSide            side,
                                  const WbGroup    *group,
                                  WbRule            rule,
                                  gint              key,
                                  WbFigure          result,
                                  const WbFigure   *inputs,
                                  guint             n_inputs);

#define WB_NOTE_ON_LINES(run, side, group, rule, key, result, ...)                                 \
  wb_group_note (run, side, group, rule, key, result, (const WbFigure[]) { __VA_ARGS__ },          \
                 (guint) (sizeof ((const WbFigure[]) { __VA_ARGS__ }) / sizeof (WbFigure)))

/** Notes the weight that a limit of the group goes by. @key: that made it so, or %WB_NO_KEY. */
void     wb_group_note_weight    (WbRun            *run,
                                  WbSide            side,
                                  const WbGroup    *group,
                                  gint              key);

/** Takes what other claims were paid for the lines of a group off a limit of theirs. */
void     wb_group_leave_of_limit (WbRun            *run,
                                  WbSide            side,
                                  const WbGroup    *group,
                                  WbStanding        standing,
                                  gint64           *limit);

/** Shares a limit out among a group's lines in proportion to what each may bring so far. */
gboolean wb_group_share          (WbRun            *run,
                                  WbSide            side,
                                  const WbGroup    *group,
                                  WbStanding        standing,
                                  gint64            limit,
                                  GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/* --- steps, in the order of the table in wb-reckon.c ------------------------------------------ */

/* wb-reckon-check.c */
gboolean wb_run_check_input    (const WbRun       *run,
                                GError           **error) G_GNUC_WARN_UNUSED_RESULT;

/* wb-reckon-shipment.c */
void     wb_run_choose_side    (WbRun     *run);
gboolean wb_run_judge_filing   (WbRun     *run,
                                GError   **error) G_GNUC_WARN_UNUSED_RESULT;
gboolean wb_run_limit_shipment (WbRun     *run,
                                WbSide     side,
                                GError   **error) G_GNUC_WARN_UNUSED_RESULT;

/* wb-reckon-article.c */
gboolean wb_run_group_articles (WbRun     *run,
                                GError   **error) G_GNUC_WARN_UNUSED_RESULT;

/* wb-reckon-elsewhere.c */
gboolean wb_run_look_elsewhere (WbRun             *run,
                                const WbArticles  *articles,
                                GError           **error) G_GNUC_WARN_UNUSED_RESULT;

/* wb-reckon-loss.c */
gboolean wb_run_measure_line   (WbRun     *run,
                                WbSide     side,
                                guint      line,
                                GError   **error) G_GNUC_WARN_UNUSED_RESULT;

/* wb-reckon-extraordinary.c */
gboolean wb_run_limit_extraordinary (WbRun            *run,
                                     WbSide            side,
                                     const WbArticle  *article,
                                     GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/* wb-reckon-limit.c */
gboolean wb_run_limit_lines    (WbRun     *run,
                                WbSide     side,
                                GError   **error) G_GNUC_WARN_UNUSED_RESULT;

/* wb-reckon-share.c */
gboolean wb_run_share_shipment (WbRun     *run,
                                WbSide     side,
                                GError   **error) G_GNUC_WARN_UNUSED_RESULT;

/* wb-reckon-freight.c */
gboolean wb_run_refund_freight (WbRun     *run,
                                GError   **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
