/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How much a customer lost on one claim line, before any limit: replacement or actual value,
 * repair, salvage, demand. The carrier answers for the actual loss (49 USC 14706(a)(1)); which
 * measure holds, the terms say. */
#include "core/wb-reckon-private.h"

#include "core/wb-money.h"

#define WHOLE_PERCENT 10000

/* The share of value that age has taken, in hundredths of a percent: a flat one goes before a
 * yearly one. */
static gint64
depreciation_of (const WbTerms     *terms,
                 const WbClaimLine *line)
{
  gint64 percent = 0;

  if (line->depreciation_flat != WB_INTEGER_UNSET)
    percent = line->depreciation_flat;
  else if (line->depreciation_yearly != WB_INTEGER_UNSET && line->age_years != WB_INTEGER_UNSET)
    percent = line->depreciation_yearly * line->age_years;  /* at most 10000 × 500 */
  return MIN (MIN (percent, terms->depreciation_maximum), WHOLE_PERCENT);
}

/* Value of the thing by the side's measure. The line's replacement cost is given. */
static gboolean
value_thing (WbRun   *run,
             WbSide   side,
             guint    index,
             gint64  *value,
             GError **error)
{
  const WbClaimLine *line = run->out->lines[index].line;
  gint64 replacement = line->replacement.minor;
  gint64 percent;

  if (run->side[side].measure == WB_MEASURE_REPLACEMENT)
    {
      *value = replacement;
      WB_NOTE (run, WB_RULE_REPLACEMENT, (WbScope) side, WB_KEY_MEASURE, (gint) index,
               wb_figure_money (WB_FIGURE_LOSS, replacement),
               wb_figure_money (WB_FIGURE_REPLACEMENT, replacement));
      return TRUE;
    }
  percent = depreciation_of (run->terms, line);
  if (!wb_minor_scale (replacement, WHOLE_PERCENT - percent, WHOLE_PERCENT, run->terms->rounding,
                       value, error))
    return FALSE;
  WB_NOTE (run, WB_RULE_DEPRECIATION, (WbScope) side, WB_KEY_MEASURE, (gint) index,
           wb_figure_money (WB_FIGURE_LOSS, *value),
           wb_figure_money (WB_FIGURE_REPLACEMENT, replacement),
           wb_figure_percent (WB_FIGURE_DEPRECIATION, percent),
           wb_figure_number (WB_FIGURE_AGE,
                             line->age_years == WB_INTEGER_UNSET ? 0 : line->age_years));
  return TRUE;
}

/* Cost of putting a damaged thing right: the repair, and an allowance for what it leaves to be
 * seen. */
static gboolean
cost_repair (WbRun   *run,
             WbSide   side,
             guint    index,
             gint64  *cost,
             GError **error)
{
  const WbClaimLine *line = run->out->lines[index].line;

  *cost = line->repair.minor;
  if (!wb_run_add (cost, line->appearance.minor, error))
    return FALSE;
  WB_NOTE (run, WB_RULE_REPAIR, (WbScope) side, WB_NO_KEY, (gint) index,
           wb_figure_money (WB_FIGURE_LOSS, *cost),
           wb_figure_money (WB_FIGURE_REPAIR, line->repair.minor),
           wb_figure_money (WB_FIGURE_APPEARANCE, line->appearance.minor));
  return TRUE;
}

static void
miss (WbRun     *run,
      WbSide     side,
      guint      index,
      WbMissing  what)
{
  run->out->lines[index].side[side].complete = FALSE;
  WB_NOTE (run, WB_RULE_MISSING_FIGURE, (WbScope) side, WB_NO_KEY, (gint) index,
           wb_figure_money (WB_FIGURE_AMOUNT, 0), wb_figure_code (WB_FIGURE_MISSING, what));
}

/* Damaged: the lesser of repair and value, or whichever is known. Sets @by_value when the value was
 * taken. */
static gboolean
measure_damage (WbRun    *run,
                WbSide    side,
                guint     index,
                gint64   *loss,
                gboolean *by_value,
                GError  **error)
{
  const WbClaimLine *line = run->out->lines[index].line;
  gboolean has_cost = wb_money_is_set (line->repair) || wb_money_is_set (line->appearance);
  gboolean has_value = wb_money_is_set (line->replacement);
  gint64 cost = 0, value = 0;

  if (!has_cost && !has_value)
    {
      miss (run, side, index, WB_MISSING_REPAIR_OR_REPLACEMENT);
      return TRUE;
    }
  if (has_cost && !cost_repair (run, side, index, &cost, error))
    return FALSE;
  if (has_value && !value_thing (run, side, index, &value, error))
    return FALSE;
  *by_value = has_value && (!has_cost || value < cost);
  *loss = *by_value ? value : cost;
  if (has_cost && has_value)
    WB_NOTE (run, WB_RULE_LESSER, (WbScope) side, WB_NO_KEY, (gint) index,
             wb_figure_money (WB_FIGURE_LOSS, *loss),
             wb_figure_money (WB_FIGURE_REPAIR, cost),
             wb_figure_money (WB_FIGURE_REPLACEMENT, value));
  return TRUE;
}

static gboolean
measure_by_kind (WbRun    *run,
                 WbSide    side,
                 guint     index,
                 gint64   *loss,
                 gboolean *by_value,
                 GError  **error)
{
  const WbClaimLine *line = run->out->lines[index].line;

  switch (line->loss)
    {
    case WB_LOSS_NONE:
      miss (run, side, index, WB_MISSING_LOSS_KIND);
      return TRUE;
    case WB_LOSS_MISSING:
    case WB_LOSS_DESTROYED:
      *by_value = TRUE;
      if (wb_money_is_set (line->replacement))
        return value_thing (run, side, index, loss, error);
      miss (run, side, index, WB_MISSING_REPLACEMENT);
      return TRUE;
    case WB_LOSS_DAMAGED:
      return measure_damage (run, side, index, loss, by_value, error);
    }
  g_assert_not_reached ();
}

/* A customer who keeps what is left of the thing has not lost that part of its value (20 CFR
 * 429.208 has the same rule). */
static void
deduct_salvage (WbRun  *run,
                WbSide  side,
                guint   index,
                gint64 *loss)
{
  const WbClaimLine *line = run->out->lines[index].line;
  gint64 before = *loss;

  if (line->salvage.minor <= 0 || run->terms->salvage == WB_SALVAGE_IGNORED)
    return;
  *loss = MAX (before - line->salvage.minor, 0);
  WB_NOTE (run, WB_RULE_SALVAGE, (WbScope) side, WB_KEY_SALVAGE, (gint) index,
           wb_figure_money (WB_FIGURE_LOSS, *loss), wb_figure_money (WB_FIGURE_AMOUNT, before),
           wb_figure_money (WB_FIGURE_SALVAGE, line->salvage.minor));
}

static void
cap_by_demand (WbRun  *run,
               WbSide  side,
               guint   index,
               gint64 *loss)
{
  const WbClaimLine *line = run->out->lines[index].line;

  if (!wb_money_is_set (line->demanded) || run->terms->demand == WB_DEMAND_IGNORED ||
      *loss <= line->demanded.minor)
    return;
  WB_NOTE (run, WB_RULE_DEMAND, (WbScope) side, WB_KEY_DEMAND, (gint) index,
           wb_figure_money (WB_FIGURE_LOSS, line->demanded.minor),
           wb_figure_money (WB_FIGURE_AMOUNT, *loss),
           wb_figure_money (WB_FIGURE_DEMANDED, line->demanded.minor));
  *loss = line->demanded.minor;
}

gboolean
wb_run_measure_line (WbRun   *run,
                     WbSide   side,
                     guint    index,
                     GError **error)
{
  WbLineFigures *figures = &run->out->lines[index].side[side];
  gint64 loss = 0;
  gboolean by_value = FALSE;

  if (!measure_by_kind (run, side, index, &loss, &by_value, error))
    return FALSE;
  if (!figures->complete)
    return TRUE;
  if (by_value)
    deduct_salvage (run, side, index, &loss);
  cap_by_demand (run, side, index, &loss);
  figures->loss = loss;
  return wb_run_add (&run->out->side[side].loss, loss, error);
}
