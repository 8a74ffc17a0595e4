/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How much a customer lost on one claim line, before any limit: replacement or actual value,
 * salvage, repair, demand. The carrier answers for the actual loss (49 USC 14706(a)(1)); which
 * measure holds, the terms say. */
#include "core/wb-reckon-private.h"

#include "core/wb-money.h"

#define WHOLE_PERCENT 10000

/* The loss of a line while it is being measured; @known is FALSE when a figure is missing. */
typedef struct
{
  gint64   amount;
  gboolean known;
} Loss;

/* --- value ------------------------------------------------------------------------------------ */

/* The share of value that age has taken, in hundredths of a percent: a flat one goes before a
 * yearly one, the least that such a thing loses before a lower one (fine china: the lesser of
 * actual value and 90 % of replacement, in a directive of the Canadian National Joint Council), and
 * none takes more than the terms allow. */
static gint64
rate_depreciation (WbRun  *run,
                   WbSide  side,
                   guint   index)
{
  const WbClaimLine *line = run->out->lines[index].line;
  gint64 most = run->terms->depreciation_maximum;
  gboolean is_flat = line->depreciation_flat != WB_INTEGER_UNSET;
  gboolean is_yearly = !is_flat && line->depreciation_yearly != WB_INTEGER_UNSET &&
                       line->age_years != WB_INTEGER_UNSET;
  gint64 least = line->depreciation_least != WB_INTEGER_UNSET ? line->depreciation_least : 0;
  WbFigure inputs[WB_REASON_MAX_INPUTS];
  guint n = 0;
  gint64 by_age = 0, noted, taken;

  if (is_flat)
    by_age = line->depreciation_flat;
  else if (is_yearly)
    by_age = line->depreciation_yearly * line->age_years;  /* at most 10000 × 500 */
  noted = MAX (by_age, least);
  if (noted == 0)
    return 0;

  wb_run_meet_key (run, WB_SCOPE_GENERAL, WB_KEY_DEPRECIATION_MAXIMUM);
  taken = MIN (noted, most);
  if (is_flat && by_age == taken)
    return taken;

  if (is_flat)
    inputs[n++] = wb_figure_percent (WB_FIGURE_DEPRECIATION, by_age);
  else if (is_yearly)
    {
      inputs[n++] = wb_figure_percent (WB_FIGURE_YEARLY, line->depreciation_yearly);
      inputs[n++] = wb_figure_number (WB_FIGURE_AGE, line->age_years);
    }
  if (by_age < noted)
    inputs[n++] = wb_figure_percent (WB_FIGURE_LEAST, least);
  if (taken < noted)
    inputs[n++] = wb_figure_percent (WB_FIGURE_MAXIMUM, most);
  wb_run_note (run, WB_RULE_DEPRECIATION_RATE, (WbScope) side,
               taken < noted ? (gint) WB_KEY_DEPRECIATION_MAXIMUM : WB_NO_KEY, (gint) index,
               wb_figure_percent (WB_FIGURE_DEPRECIATION, taken), inputs, n);
  return taken;
}

/* Value of the thing by the side's measure. The line's replacement cost is given. */
static gboolean
value_thing (WbRun   *run,
             WbSide   side,
             guint    index,
             gint64  *value,
             GError **error)
{
  gint64 replacement = run->out->lines[index].line->replacement.minor;
  gint64 percent;

  if (run->measure[side] == WB_MEASURE_REPLACEMENT)
    {
      *value = replacement;
      WB_NOTE (run, WB_RULE_REPLACEMENT, (WbScope) side, WB_KEY_MEASURE, (gint) index,
               wb_figure_money (WB_FIGURE_LOSS, replacement),
               wb_figure_money (WB_FIGURE_REPLACEMENT, replacement));
      return TRUE;
    }

  percent = rate_depreciation (run, side, index);
  if (!wb_run_scale (run, replacement, WHOLE_PERCENT - percent, WHOLE_PERCENT, value, error))
    return FALSE;
  WB_NOTE (run, WB_RULE_DEPRECIATION, (WbScope) side, WB_KEY_MEASURE, (gint) index,
           wb_figure_money (WB_FIGURE_LOSS, *value),
           wb_figure_money (WB_FIGURE_REPLACEMENT, replacement),
           wb_figure_percent (WB_FIGURE_DEPRECIATION, percent));
  return TRUE;
}

/* A customer who keeps what is left of the thing has not lost that part of its value: 20 CFR
 * 429.208 sets the cost of a repair against the actual value less the salvage that is kept. What
 * the carrier takes, to dispose of under 49 CFR 370.11, the customer has not kept. */
static void
deduct_salvage (WbRun  *run,
                WbSide  side,
                guint   index,
                gint64 *value)
{
  const WbClaimLine *line = run->out->lines[index].line;
  gint64 salvage = line->salvage.minor;
  gint64 before = *value;

  if (line->salvage_taken)
    {
      WB_NOTE (run, WB_RULE_SALVAGE_TAKEN, (WbScope) side, WB_KEY_SALVAGE, (gint) index,
               wb_figure_money (WB_FIGURE_LOSS, before),
               wb_figure_money (WB_FIGURE_AMOUNT, before));
      return;
    }
  if (salvage <= 0 || run->terms->salvage == WB_SALVAGE_IGNORED)
    return;
  *value = MAX (before - salvage, 0);
  WB_NOTE (run, WB_RULE_SALVAGE, (WbScope) side, WB_KEY_SALVAGE, (gint) index,
           wb_figure_money (WB_FIGURE_LOSS, *value), wb_figure_money (WB_FIGURE_AMOUNT, before),
           wb_figure_money (WB_FIGURE_SALVAGE, salvage));
}

/* --- kinds of loss ---------------------------------------------------------------------------- */

/* A line that is paid nothing lacks nothing. */
static void
miss (WbRun     *run,
      WbSide     side,
      guint      index,
      WbMissing  what)
{
  if (wb_run_pays_nothing (run, index))
    return;
  run->out->lines[index].side[side].complete = FALSE;
  WB_NOTE (run, WB_RULE_MISSING_FIGURE, (WbScope) side, WB_NO_KEY, (gint) index,
           wb_figure_money (WB_FIGURE_AMOUNT, 0), wb_figure_code (WB_FIGURE_MISSING, (int) what));
}

/* What the customer loses when the thing is not put right. */
static gboolean
measure_value (WbRun   *run,
               WbSide   side,
               guint    index,
               Loss    *loss,
               GError **error)
{
  if (!wb_money_is_set (run->out->lines[index].line->replacement))
    return TRUE;
  if (!value_thing (run, side, index, &loss->amount, error))
    return FALSE;
  deduct_salvage (run, side, index, &loss->amount);
  loss->known = TRUE;
  run->values[index] = loss->amount;
  return TRUE;
}

/* Cost of putting a damaged thing right: the repair, and an allowance for what it leaves to be
 * seen; either of them will do. */
static gboolean
measure_repair (WbRun   *run,
                WbSide   side,
                guint    index,
                Loss    *loss,
                GError **error)
{
  const WbClaimLine *line = run->out->lines[index].line;

  if (!wb_money_is_set (line->repair) && !wb_money_is_set (line->appearance))
    return TRUE;
  loss->amount = line->repair.minor;
  if (!wb_run_add (&loss->amount, line->appearance.minor, error))
    return FALSE;
  loss->known = TRUE;
  WB_NOTE (run, WB_RULE_REPAIR, (WbScope) side, WB_NO_KEY, (gint) index,
           wb_figure_money (WB_FIGURE_LOSS, loss->amount),
           wb_figure_money (WB_FIGURE_REPAIR, line->repair.minor),
           wb_figure_money (WB_FIGURE_APPEARANCE, line->appearance.minor));
  return TRUE;
}

/* Damaged: the lesser of repair and value, or whichever is known. */
static gboolean
measure_damage (WbRun   *run,
                WbSide   side,
                guint    index,
                Loss    *loss,
                GError **error)
{
  Loss value = { 0, FALSE }, repair = { 0, FALSE };

  if (!measure_value (run, side, index, &value, error) ||
      !measure_repair (run, side, index, &repair, error))
    return FALSE;

  if (!value.known && !repair.known)
    miss (run, side, index, WB_MISSING_REPAIR_OR_REPLACEMENT);
  *loss = repair.known && (!value.known || repair.amount <= value.amount) ? repair : value;
  if (value.known && repair.known)
    WB_NOTE (run, WB_RULE_LESSER, (WbScope) side, WB_NO_KEY, (gint) index,
             wb_figure_money (WB_FIGURE_LOSS, loss->amount),
             wb_figure_money (WB_FIGURE_REPAIR, repair.amount),
             wb_figure_money (WB_FIGURE_REPLACEMENT, value.amount));
  return TRUE;
}

static gboolean
measure_by_kind (WbRun   *run,
                 WbSide   side,
                 guint    index,
                 Loss    *loss,
                 GError **error)
{
  switch (run->out->lines[index].line->loss)
    {
    case WB_LOSS_NONE:
      miss (run, side, index, WB_MISSING_LOSS_KIND);
      return TRUE;
    case WB_LOSS_MISSING:
    case WB_LOSS_DESTROYED:
      if (!measure_value (run, side, index, loss, error))
        return FALSE;
      if (!loss->known)
        miss (run, side, index, WB_MISSING_REPLACEMENT);
      return TRUE;
    case WB_LOSS_DAMAGED:
      return measure_damage (run, side, index, loss, error);
    }
  g_assert_not_reached ();
}

/* --- demand ----------------------------------------------------------------------------------- */

static void
cap_by_demand (WbRun  *run,
               WbSide  side,
               guint   index,
               gint64 *loss)
{
  WbMoney demanded = run->out->lines[index].line->demanded;

  if (!wb_money_is_set (demanded) || run->terms->demand == WB_DEMAND_IGNORED ||
      *loss <= demanded.minor)
    return;
  WB_NOTE (run, WB_RULE_DEMAND, (WbScope) side, WB_KEY_DEMAND, (gint) index,
           wb_figure_money (WB_FIGURE_LOSS, demanded.minor),
           wb_figure_money (WB_FIGURE_AMOUNT, *loss),
           wb_figure_money (WB_FIGURE_DEMANDED, demanded.minor));
  *loss = demanded.minor;
}

gboolean
wb_run_measure_line (WbRun   *run,
                     WbSide   side,
                     guint    line,
                     GError **error)
{
  Loss loss = { 0, FALSE };

  run->values[line] = -1;
  if (!measure_by_kind (run, side, line, &loss, error))
    return FALSE;
  if (!loss.known)
    return TRUE;
  cap_by_demand (run, side, line, &loss.amount);
  run->out->lines[line].side[side].loss = loss.amount;
  return wb_run_add (&run->out->side[side].loss, loss.amount, error);
}
