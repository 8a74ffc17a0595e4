/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is left of the shipment's limit and the deductible, each shared out among the lines by
 * largest remainder so that the lines add up to the total to the cent. The order of the two is the
 * terms'. */
#include "core/wb-reckon-private.h"

#define WHOLE WB_REASON_WHOLE_CLAIM

/* Splits @total over the lines in proportion to one figure of each, found at @from, and stores the
 * parts at @to. @whole: what these figures add up to. */
static gboolean
split_over_lines (WbRun   *run,
                  WbSide   side,
                  gint64   total,
                  gint64   whole,
                  gsize    from,
                  gsize    to,
                  GError **error)
{
  guint n = run->out->n_lines;

  /* Nothing was cut, or all of it: nothing has to be divided. */
  if (total == whole || total == 0)
    {
      for (guint i = 0; i < n; i++)
        {
          WbLineFigures *figures = &run->out->lines[i].side[side];

          G_STRUCT_MEMBER (gint64, figures, to) =
            total == 0 ? 0 : G_STRUCT_MEMBER (gint64, figures, from);
        }
      return TRUE;
    }

  for (guint i = 0; i < n; i++)
    run->scratch_shares[i] = G_STRUCT_MEMBER (gint64, &run->out->lines[i].side[side], from);
  if (!wb_minor_split (total, run->scratch_shares, n, run->scratch_parts, error))
    return FALSE;
  for (guint i = 0; i < n; i++)
    G_STRUCT_MEMBER (gint64, &run->out->lines[i].side[side], to) = run->scratch_parts[i];
  return TRUE;
}

#define AT(member) G_STRUCT_OFFSET (WbLineFigures, member)

static void
note_limit (WbRun  *run,
            WbSide  side,
            gint64  before,
            gint64  after)
{
  const WbSideReckoning *totals = &run->out->side[side];

  if (totals->has_limit)
    WB_NOTE (run, WB_RULE_SHIPMENT_LIMIT, (WbScope) side, WB_NO_KEY, WHOLE,
             wb_figure_money (WB_FIGURE_AMOUNT, after),
             wb_figure_money (WB_FIGURE_LOSS, before),
             wb_figure_money (WB_FIGURE_LIMIT, totals->limit_left));
}

static void
note_deductible (WbRun  *run,
                 WbSide  side,
                 gint64  before,
                 gint64  taken)
{
  const WbSideReckoning *totals = &run->out->side[side];

  if (totals->deductible > 0)
    WB_NOTE (run, WB_RULE_DEDUCTIBLE, (WbScope) side, WB_KEY_DEDUCTIBLE_ORDER, WHOLE,
             wb_figure_money (WB_FIGURE_AMOUNT, before - taken),
             wb_figure_money (WB_FIGURE_LOSS, before),
             wb_figure_money (WB_FIGURE_DEDUCTIBLE, totals->deductible));
}

static gint64
within_limit (const WbSideReckoning *totals,
              gint64                 amount)
{
  return totals->has_limit ? MIN (amount, totals->limit_left) : amount;
}

/* limit, then deductible */
static gboolean
share_limit_first (WbRun   *run,
                   WbSide   side,
                   GError **error)
{
  WbSideReckoning *totals = &run->out->side[side];

  totals->covered = within_limit (totals, totals->allowed);
  totals->deducted = MIN (totals->deductible, totals->covered);
  note_limit (run, side, totals->allowed, totals->covered);
  note_deductible (run, side, totals->covered, totals->deducted);
  if (!split_over_lines (run, side, totals->covered, totals->allowed, AT (allowed), AT (covered),
                         error) ||
      !split_over_lines (run, side, totals->deducted, totals->covered, AT (covered), AT (deducted),
                         error))
    return FALSE;
  for (guint i = 0; i < run->out->n_lines; i++)
    {
      WbLineFigures *figures = &run->out->lines[i].side[side];

      figures->owed = figures->covered - figures->deducted;
    }
  totals->owed = totals->covered - totals->deducted;
  return TRUE;
}

/* deductible, then limit; what is covered is what is owed and what was deducted together */
static gboolean
share_deductible_first (WbRun   *run,
                        WbSide   side,
                        GError **error)
{
  WbSideReckoning *totals = &run->out->side[side];

  totals->deducted = MIN (totals->deductible, totals->allowed);
  note_deductible (run, side, totals->allowed, totals->deducted);
  totals->owed = within_limit (totals, totals->allowed - totals->deducted);
  note_limit (run, side, totals->allowed - totals->deducted, totals->owed);
  if (!split_over_lines (run, side, totals->deducted, totals->allowed, AT (allowed), AT (deducted),
                         error))
    return FALSE;
  for (guint i = 0; i < run->out->n_lines; i++)
    {
      WbLineFigures *figures = &run->out->lines[i].side[side];

      figures->covered = figures->allowed - figures->deducted;
    }
  if (!split_over_lines (run, side, totals->owed, totals->allowed - totals->deducted, AT (covered),
                         AT (owed), error))
    return FALSE;
  for (guint i = 0; i < run->out->n_lines; i++)
    {
      WbLineFigures *figures = &run->out->lines[i].side[side];

      figures->covered = figures->owed + figures->deducted;
    }
  totals->covered = totals->owed + totals->deducted;
  return TRUE;
}

static void
note_limit_share (WbRun  *run,
                  WbSide  side,
                  guint   line,
                  gint64  before,
                  gint64  after)
{
  if (after < before)
    WB_NOTE (run, WB_RULE_SHIPMENT_SHARE, (WbScope) side, WB_NO_KEY, (gint) line,
             wb_figure_money (WB_FIGURE_AMOUNT, after), wb_figure_money (WB_FIGURE_LOSS, before),
             wb_figure_money (WB_FIGURE_LIMIT, run->out->side[side].limit_left));
}

static void
note_deductible_share (WbRun  *run,
                       WbSide  side,
                       guint   line,
                       gint64  before,
                       gint64  deducted)
{
  if (deducted > 0)
    WB_NOTE (run, WB_RULE_DEDUCTIBLE_SHARE, (WbScope) side, WB_NO_KEY, (gint) line,
             wb_figure_money (WB_FIGURE_AMOUNT, deducted),
             wb_figure_money (WB_FIGURE_LOSS, before),
             wb_figure_money (WB_FIGURE_DEDUCTIBLE, run->out->side[side].deducted));
}

/* What the two whole-claim steps did to one line, in their order and only where they did
 * something. */
static void
note_shares (WbRun  *run,
             WbSide  side,
             guint   line)
{
  const WbLineFigures *figures = &run->out->lines[line].side[side];

  switch (run->terms->side[side].deductible_order)
    {
    case WB_DEDUCTIBLE_AFTER_LIMIT:
      note_limit_share (run, side, line, figures->allowed, figures->covered);
      note_deductible_share (run, side, line, figures->covered, figures->deducted);
      break;
    case WB_DEDUCTIBLE_BEFORE_LIMIT:
      note_deductible_share (run, side, line, figures->allowed, figures->deducted);
      note_limit_share (run, side, line, figures->allowed - figures->deducted, figures->owed);
      break;
    }
}

static void
note_owed (WbRun  *run,
           WbSide  side)
{
  const WbSideReckoning *totals = &run->out->side[side];

  for (guint i = 0; i < run->out->n_lines; i++)
    {
      const WbLineFigures *figures = &run->out->lines[i].side[side];

      note_shares (run, side, i);
      WB_NOTE (run, WB_RULE_OWED, (WbScope) side, WB_NO_KEY, (gint) i,
               wb_figure_money (WB_FIGURE_AMOUNT, figures->owed),
               wb_figure_money (WB_FIGURE_LOSS, figures->loss),
               wb_figure_money (WB_FIGURE_LIMIT, figures->allowed),
               wb_figure_money (WB_FIGURE_DEDUCTIBLE, figures->deducted));
    }
  WB_NOTE (run, WB_RULE_OWED, (WbScope) side, WB_NO_KEY, WHOLE,
           wb_figure_money (WB_FIGURE_AMOUNT, totals->owed),
           wb_figure_money (WB_FIGURE_LOSS, totals->loss),
           wb_figure_money (WB_FIGURE_LIMIT, totals->allowed),
           wb_figure_money (WB_FIGURE_DEDUCTIBLE, totals->deducted));
}

gboolean
wb_run_share_shipment (WbRun   *run,
                       WbSide   side,
                       GError **error)
{
  WbSideReckoning *totals = &run->out->side[side];
  gboolean done = FALSE;

  for (guint i = 0; i < run->out->n_lines; i++)
    if (!wb_run_add (&totals->allowed, run->out->lines[i].side[side].allowed, error))
      return FALSE;
  switch (run->terms->side[side].deductible_order)
    {
    case WB_DEDUCTIBLE_AFTER_LIMIT:
      done = share_limit_first (run, side, error);
      break;
    case WB_DEDUCTIBLE_BEFORE_LIMIT:
      done = share_deductible_first (run, side, error);
      break;
    }
  if (done)
    note_owed (run, side);
  return done;
}
