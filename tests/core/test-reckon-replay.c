/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A reckoning has to be followed from its reasons alone: each step starts from what the step before
 * it left, its result comes from its own figures by plain arithmetic, and the last one is what is
 * owed. Tried on random claims, which are replayed here by the reasons of each line and those of
 * the whole claim, without a look at the job. The seed is printed; run again with --seed. */
#include "config.h"

#include "support/wb-random-claim.h"

#define N_CLAIMS 20000
#define CLAIMS_A_TERMS 20

/* Where a line stands after the steps so far. */
typedef struct
{
  gboolean has_value, has_cost, has_loss;
  gint64   value;           /* of the thing */
  gint64   cost;            /* of its repair */
  gint64   percent;         /* depreciation that a step explained, or -1 */
  gint64   loss;
  gint64   now;             /* what the line comes to */
  gint64   before_cap;      /* what it came to before the cap on extraordinary value */
  WbWeight weight;          /* of the article, as told last */
  gint64   total;           /* of the lines that a limit is shared among */
  gint64   limit;
  gint64   count;           /* of these lines; over 1 while a share has to follow */
  gboolean left_follows;    /* a limit was told that cuts only by what other claims used of it */
  WbRule   last_rule;
} Line;

/* The whole claim under one side. */
typedef struct
{
  const WbReckoning *reckoning;
  WbSide             side;
  WbWeight           weight;
  gint64             limit;
  gint64             left;
  gint64             deductible;
  const WbReason    *shipment_limit;   /* NULL: none */
  const WbReason    *deducted;         /* NULL: none */
} Claim;

/* --- figures ---------------------------------------------------------------------------------- */

static const WbFigure *
find_figure (const WbReason *reason,
             WbFigureName    name)
{
  for (guint i = 0; i < reason->n_inputs; i++)
    if (reason->inputs[i].name == name)
      return &reason->inputs[i];
  return NULL;
}

static gboolean
has (const WbReason *reason,
     WbFigureName    name)
{
  return find_figure (reason, name) != NULL;
}

static gint64
get (const WbReason *reason,
     WbFigureName    name)
{
  const WbFigure *figure = find_figure (reason, name);

  if (figure == NULL)
    g_error ("a step %s has no %s", wb_enum_nick (&wb_rules, reason->rule),
             wb_enum_nick (&wb_figures, (int) name));
  return figure->value;
}

static WbWeight
weight_of (const WbFigure *figure)
{
  g_assert_cmpint (figure->type, ==, WB_FIGURE_TYPE_WEIGHT);
  return (WbWeight) { figure->value, (WbWeightUnit) figure->unit };
}

/* The rate of a step, for the weight or the volume that the step names. */
static gint64
apply_rate (const WbReckoning *reckoning,
            const WbReason    *reason)
{
  const WbFigure *per = find_figure (reason, WB_FIGURE_RATE);
  const WbFigure *weight = find_figure (reason, WB_FIGURE_WEIGHT);
  const WbFigure *volume = find_figure (reason, WB_FIGURE_VOLUME);
  WbRate rate = { wb_money (per->value, reckoning->terms->currency), (WbRateUnit) per->unit };
  WbVolume cubic = WB_VOLUME_UNSET;
  WbMoney amount;

  if (volume != NULL)
    cubic = (WbVolume) { volume->value, (WbVolumeUnit) volume->unit };
  g_assert_true (wb_rate_apply (rate, weight != NULL ? weight_of (weight) : WB_WEIGHT_UNSET, cubic,
                                reckoning->terms->rounding, &amount, NULL));
  return amount.minor;
}

/* A constructive weight is the volume that the step names, at the weight of a cubic foot. */
static void
check_weight (const WbReason *reason)
{
  const WbFigure *volume = find_figure (reason, WB_FIGURE_VOLUME);
  WbWeight made;

  if (volume == NULL)
    return;
  g_assert_true (wb_weight_from_volume ((WbVolume) { volume->value, (WbVolumeUnit) volume->unit },
                                        weight_of (find_figure (reason, WB_FIGURE_WEIGHT)), &made,
                                        NULL));
  g_assert_true (wb_weight_equal (made, weight_of (&reason->result)));
}

/* A share in proportion is the whole part of it, or one coin more. */
static void
check_share (gint64 share,
             gint64 shared,
             gint64 part,
             gint64 whole)
{
  gint64 least;

  g_assert_true (wb_minor_scale (shared, part, whole, WB_ROUND_DOWN, &least, NULL));
  g_assert_cmpint (share, >=, least);
  g_assert_cmpint (share, <=, least + 1);
}

/* --- one line --------------------------------------------------------------------------------- */

static void
replay_depreciation_rate (Line           *line,
                          const WbReason *reason)
{
  gint64 noted = 0;

  if (has (reason, WB_FIGURE_YEARLY))
    noted = get (reason, WB_FIGURE_YEARLY) * get (reason, WB_FIGURE_AGE);
  else if (has (reason, WB_FIGURE_DEPRECIATION))
    noted = get (reason, WB_FIGURE_DEPRECIATION);
  if (has (reason, WB_FIGURE_LEAST))
    {
      g_assert_cmpint (noted, <, get (reason, WB_FIGURE_LEAST));
      noted = get (reason, WB_FIGURE_LEAST);
    }
  if (has (reason, WB_FIGURE_MAXIMUM))
    {
      g_assert_cmpint (noted, >, get (reason, WB_FIGURE_MAXIMUM));
      noted = get (reason, WB_FIGURE_MAXIMUM);
    }
  g_assert_cmpint (reason->result.value, ==, noted);
  line->percent = noted;
}

static void
replay_value (Line              *line,
              const WbReckoning *reckoning,
              const WbReason    *reason)
{
  gint64 replacement = get (reason, WB_FIGURE_REPLACEMENT);
  gint64 value = replacement;

  if (reason->rule == WB_RULE_DEPRECIATION)
    {
      gint64 percent = get (reason, WB_FIGURE_DEPRECIATION);

      if (line->percent >= 0)
        g_assert_cmpint (percent, ==, line->percent);
      g_assert_true (wb_minor_scale (replacement, 10000 - percent, 10000,
                                     reckoning->terms->rounding, &value, NULL));
    }
  g_assert_cmpint (reason->result.value, ==, value);
  line->value = value;
  line->has_value = TRUE;
}

/* What was measured so far is the loss. */
static void
settle_loss (Line *line)
{
  if (line->has_loss)
    return;
  if (line->has_value || line->has_cost)
    line->now = line->has_value ? line->value : line->cost;
  line->loss = line->now;
  line->has_loss = TRUE;
}

static void
replay_lesser (Line           *line,
               const WbReason *reason)
{
  g_assert_true (line->has_value && line->has_cost);
  g_assert_cmpint (get (reason, WB_FIGURE_REPLACEMENT), ==, line->value);
  g_assert_cmpint (get (reason, WB_FIGURE_REPAIR), ==, line->cost);
  g_assert_cmpint (reason->result.value, ==, MIN (line->value, line->cost));
  line->value = reason->result.value;
  line->has_cost = FALSE;
}

/* A step that cuts the line down to one of its figures. */
static void
replay_cut (Line           *line,
            const WbReason *reason,
            WbFigureName    from,
            gint64          to)
{
  g_assert_cmpint (get (reason, from), ==, line->now);
  g_assert_cmpint (reason->result.value, ==, to);
  g_assert_cmpint (to, <=, line->now);
  line->now = to;
}

/* A limit on lines together: of one alone it cuts at once, of several a share has to follow when
 * they come to more. */
static void
replay_limit (Line           *line,
              const WbReason *reason)
{
  gint64 total = get (reason, WB_FIGURE_LOSS);
  gint64 limit = reason->result.value;

  line->limit = limit;
  line->count = get (reason, WB_FIGURE_COUNT);
  if (line->count == 1)
    {
      g_assert_cmpint (total, ==, line->now);
      line->now = MIN (line->now, limit);
      return;
    }
  g_assert_cmpint (total, >=, line->now);
  line->total = total;
}

/* What other claims were paid comes off the limit that was told last. */
static void
replay_article_left (Line           *line,
                     const WbReason *reason)
{
  g_assert_cmpint (get (reason, WB_FIGURE_AMOUNT), ==, line->limit);
  g_assert_cmpint (get (reason, WB_FIGURE_EARLIER), >, 0);
  g_assert_cmpint (get (reason, WB_FIGURE_COUNT), ==, line->count);
  line->limit = MAX (0, line->limit - get (reason, WB_FIGURE_EARLIER));
  g_assert_cmpint (reason->result.value, ==, line->limit);
  line->left_follows = FALSE;
  if (line->count == 1)
    line->now = MIN (line->now, line->limit);
}

/* A limit that several lines come to more than was shared out before anything else happened. */
static void
check_nothing_left_to_share (Line *line)
{
  if (line->count > 1)
    g_assert_cmpint (line->total, <=, line->limit);
  line->count = 0;
  line->total = 0;
}

static void
replay_flat_limit (Line           *line,
                   const WbReason *reason)
{
  /* After a limit by weight the flat one starts from that. */
  if (line->count > 1 && line->last_rule == WB_RULE_ARTICLE_LIMIT)
    {
      g_assert_cmpint (get (reason, WB_FIGURE_LOSS), ==, MIN (line->total, line->limit));
      line->limit = reason->result.value;
      return;
    }
  check_nothing_left_to_share (line);
  replay_limit (line, reason);
}

static void
replay_article_share (Line           *line,
                      const WbReason *reason)
{
  g_assert_cmpint (get (reason, WB_FIGURE_LOSS), ==, line->now);
  g_assert_cmpint (get (reason, WB_FIGURE_LIMIT), ==, line->limit);
  g_assert_cmpint (get (reason, WB_FIGURE_COUNT), ==, line->count);
  g_assert_cmpint (line->total, >, line->limit);
  check_share (reason->result.value, line->limit, line->now, line->total);
  line->now = reason->result.value;
  line->count = 0;
  line->total = 0;
}

static void
replay_shipment_share (Line           *line,
                       const Claim    *claim,
                       const WbReason *reason)
{
  g_assert_nonnull (claim->shipment_limit);
  g_assert_cmpint (get (reason, WB_FIGURE_LOSS), ==, line->now);
  g_assert_cmpint (get (reason, WB_FIGURE_LIMIT), ==, get (claim->shipment_limit, WB_FIGURE_LIMIT));
  check_share (reason->result.value, get (reason, WB_FIGURE_LIMIT), line->now,
               get (claim->shipment_limit, WB_FIGURE_LOSS));
  line->now = reason->result.value;
}

static void
replay_deductible_share (Line           *line,
                         const Claim    *claim,
                         const WbReason *reason)
{
  gint64 whole = get (claim->deducted, WB_FIGURE_LOSS);

  g_assert_cmpint (get (reason, WB_FIGURE_LOSS), ==, line->now);
  g_assert_cmpint (get (reason, WB_FIGURE_DEDUCTIBLE), ==, whole - claim->deducted->result.value);
  check_share (reason->result.value, get (reason, WB_FIGURE_DEDUCTIBLE), line->now, whole);
  line->now -= reason->result.value;
}

static void
replay_line_step (Line           *line,
                  const Claim    *claim,
                  const WbReason *reason)
{
  const WbReckoning *reckoning = claim->reckoning;
  const WbLineFigures *figures = &reckoning->lines[reason->line].side[claim->side];

  switch ((WbRule) reason->rule)
    {
    case WB_RULE_DEPRECIATION_RATE:
      replay_depreciation_rate (line, reason);
      return;
    case WB_RULE_REPLACEMENT:
    case WB_RULE_DEPRECIATION:
      replay_value (line, reckoning, reason);
      return;
    case WB_RULE_SALVAGE:
      g_assert_cmpint (get (reason, WB_FIGURE_AMOUNT), ==, line->value);
      line->value = MAX (0, line->value - get (reason, WB_FIGURE_SALVAGE));
      g_assert_cmpint (reason->result.value, ==, line->value);
      return;
    case WB_RULE_SALVAGE_TAKEN:
      g_assert_cmpint (get (reason, WB_FIGURE_AMOUNT), ==, line->value);
      g_assert_cmpint (reason->result.value, ==, line->value);
      return;
    case WB_RULE_REPAIR:
      line->cost = get (reason, WB_FIGURE_REPAIR) + get (reason, WB_FIGURE_APPEARANCE);
      line->has_cost = TRUE;
      g_assert_cmpint (reason->result.value, ==, line->cost);
      return;
    case WB_RULE_LESSER:
      replay_lesser (line, reason);
      return;
    case WB_RULE_MISSING_FIGURE:
      settle_loss (line);
      check_nothing_left_to_share (line);
      g_assert_false (figures->complete);
      g_assert_true (reason->result.value == 0 || reason->result.value == line->now);
      line->now = reason->result.value;
      return;
    case WB_RULE_DEMAND:
      settle_loss (line);
      replay_cut (line, reason, WB_FIGURE_AMOUNT, get (reason, WB_FIGURE_DEMANDED));
      line->loss = line->now;
      return;
    case WB_RULE_DENIED:
    case WB_RULE_BARRED:
      settle_loss (line);
      replay_cut (line, reason, WB_FIGURE_LOSS, 0);
      return;
    case WB_RULE_SET_MATE:
      settle_loss (line);
      replay_cut (line, reason, WB_FIGURE_LOSS,
                  get (reason, WB_FIGURE_CODE) == WB_SETS_ONLY_PIECE ? 0 : line->now);
      return;
    case WB_RULE_LINE_LIMIT:
      settle_loss (line);
      replay_cut (line, reason, WB_FIGURE_LOSS, get (reason, WB_FIGURE_LIMIT));
      return;
    case WB_RULE_ARTICLE_WEIGHT:
      settle_loss (line);
      check_weight (reason);
      line->weight = weight_of (&reason->result);
      return;
    case WB_RULE_EXTRAORDINARY:
      g_assert_true (wb_weight_equal (weight_of (find_figure (reason, WB_FIGURE_WEIGHT)),
                                      line->weight));
      g_assert_cmpint (reason->result.value, ==, apply_rate (reckoning, reason));
      line->left_follows = reason->result.value >= get (reason, WB_FIGURE_LOSS);
      line->before_cap = line->now;
      replay_limit (line, reason);
      return;
    case WB_RULE_LISTED:
      settle_loss (line);
      g_assert_cmpint (reason->result.value, ==, get (reason, WB_FIGURE_LISTED));
      if (line->before_cap >= 0)
        line->now = line->before_cap;
      replay_limit (line, reason);
      return;
    case WB_RULE_ARTICLE_LIMIT:
      settle_loss (line);
      if (!has (reason, WB_FIGURE_RATE))
        {
          replay_flat_limit (line, reason);
          return;
        }
      check_nothing_left_to_share (line);
      g_assert_true (wb_weight_equal (weight_of (find_figure (reason, WB_FIGURE_WEIGHT)),
                                      line->weight));
      g_assert_cmpint (reason->result.value, ==, apply_rate (reckoning, reason));
      replay_limit (line, reason);
      return;
    case WB_RULE_THING_LEFT:
      settle_loss (line);
      replay_cut (line, reason, WB_FIGURE_LOSS,
                  MIN (line->now, MAX (0, get (reason, WB_FIGURE_REPLACEMENT)
                                            - get (reason, WB_FIGURE_EARLIER))));
      return;
    case WB_RULE_ARTICLE_LEFT:
      replay_article_left (line, reason);
      return;
    case WB_RULE_ARTICLE_SHARE:
      replay_article_share (line, reason);
      return;
    case WB_RULE_SHIPMENT_SHARE:
      replay_shipment_share (line, claim, reason);
      return;
    case WB_RULE_DEDUCTIBLE_SHARE:
      replay_deductible_share (line, claim, reason);
      return;
    case WB_RULE_OWED:
      g_assert_cmpint (get (reason, WB_FIGURE_LOSS), ==, line->loss);
      g_assert_cmpint (reason->result.value, ==, line->now);
      g_assert_false (line->left_follows);
      return;
    case WB_RULE_TERMS:
    case WB_RULE_CHOICE:
    case WB_RULE_FILING:
    case WB_RULE_LATE:
    case WB_RULE_SILENT:
    case WB_RULE_SHIPMENT_WEIGHT:
    case WB_RULE_MINIMUM_VALUE:
    case WB_RULE_DECLARED_VALUE:
    case WB_RULE_MAXIMUM_VALUE:
    case WB_RULE_EARLIER_PAYMENTS:
    case WB_RULE_DEDUCTIBLE_LEFT:
    case WB_RULE_ELSEWHERE:
    case WB_RULE_SHIPMENT_LIMIT:
    case WB_RULE_DEDUCTIBLE:
    case WB_RULE_FREIGHT_DENIED:
    case WB_RULE_FREIGHT_REFUND:
    case WB_RULE_PAID:
      break;
    }
  g_error ("%s is no step of a line", wb_enum_nick (&wb_rules, reason->rule));
}

static gboolean
leaves_the_article (WbRule rule)
{
  return rule == WB_RULE_SHIPMENT_SHARE || rule == WB_RULE_DEDUCTIBLE_SHARE || rule == WB_RULE_OWED;
}

/* The reasons of one line lead from its loss to what is allowed and on to what is owed. */
static void
replay_line (const Claim *claim,
             gint         index)
{
  const WbLineFigures *figures = &claim->reckoning->lines[index].side[claim->side];
  Line line = { .percent = -1, .before_cap = -1 };
  gboolean in_article = TRUE;
  const WbReason *reason, *last = NULL;
  WbReasonIter iter;

  wb_reason_iter_init (&iter, claim->reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    {
      if (reason->line != index || reason->scope != (guint) claim->side)
        continue;
      if (in_article && leaves_the_article ((WbRule) reason->rule))
        {
          in_article = FALSE;
          settle_loss (&line);
          check_nothing_left_to_share (&line);
          g_assert_cmpint (line.loss, ==, figures->loss);
          g_assert_cmpint (line.now, ==, figures->allowed);
        }
      replay_line_step (&line, claim, reason);
      line.last_rule = (WbRule) reason->rule;
      last = reason;
    }
  g_assert_nonnull (last);
  g_assert_cmpint (last->rule, ==, WB_RULE_OWED);
  g_assert_cmpint (line.now, ==, figures->owed);
}

/* --- the whole claim -------------------------------------------------------------------------- */

static void
replay_minimum (Claim          *claim,
                const WbReason *reason)
{
  if (has (reason, WB_FIGURE_RATE))
    {
      if (has (reason, WB_FIGURE_WEIGHT))
        g_assert_true (wb_weight_equal (weight_of (find_figure (reason, WB_FIGURE_WEIGHT)),
                                        claim->weight));
      claim->limit = apply_rate (claim->reckoning, reason);
    }
  else
    {
      g_assert_cmpint (get (reason, WB_FIGURE_LOSS), ==, claim->limit);
      claim->limit = MAX (claim->limit, get (reason, WB_FIGURE_MINIMUM));
    }
  g_assert_cmpint (reason->result.value, ==, claim->limit);
  claim->left = claim->limit;
}

static void
replay_declared (Claim          *claim,
                 const WbReason *reason)
{
  gint64 declared = get (reason, WB_FIGURE_DECLARED);

  g_assert_cmpint (get (reason, WB_FIGURE_MINIMUM), ==, claim->limit);
  g_assert_true (reason->result.value == declared ||
                 (reason->result.value == claim->limit && declared < claim->limit));
  claim->limit = reason->result.value;
  claim->left = claim->limit;
}

static void
replay_refund (const Claim    *claim,
               const WbReason *reason)
{
  const WbSideReckoning *totals = &claim->reckoning->side[claim->side];
  gint64 freight = get (reason, WB_FIGURE_FREIGHT);
  gint64 lost = get (reason, WB_FIGURE_LOST_WEIGHT), whole = get (reason, WB_FIGURE_WEIGHT);
  gint64 share;

  g_assert_true (wb_minor_scale (freight, MIN (lost, whole), whole,
                                 claim->reckoning->terms->rounding, &share, NULL));
  g_assert_true (reason->result.value == 0 || reason->result.value == freight ||
                 reason->result.value == share);
  g_assert_cmpint (reason->result.value, ==, totals->freight_refund);
}

static void
replay_claim_step (Claim          *claim,
                   const WbReason *reason)
{
  const WbSideReckoning *totals = &claim->reckoning->side[claim->side];

  switch ((WbRule) reason->rule)
    {
    case WB_RULE_SHIPMENT_WEIGHT:
      check_weight (reason);
      claim->weight = weight_of (&reason->result);
      return;
    case WB_RULE_MINIMUM_VALUE:
      replay_minimum (claim, reason);
      return;
    case WB_RULE_DECLARED_VALUE:
      replay_declared (claim, reason);
      return;
    case WB_RULE_MAXIMUM_VALUE:
      g_assert_cmpint (get (reason, WB_FIGURE_AMOUNT), ==, claim->limit);
      g_assert_cmpint (reason->result.value, ==, get (reason, WB_FIGURE_MAXIMUM));
      claim->limit = reason->result.value;
      claim->left = claim->limit;
      return;
    case WB_RULE_EARLIER_PAYMENTS:
      g_assert_cmpint (get (reason, WB_FIGURE_AMOUNT), ==, claim->limit);
      claim->left = MAX (0, claim->limit - get (reason, WB_FIGURE_EARLIER)
                              - get (reason, WB_FIGURE_TAKEN));
      g_assert_cmpint (reason->result.value, ==, claim->left);
      return;
    case WB_RULE_DEDUCTIBLE_LEFT:
      claim->deductible = MAX (0, get (reason, WB_FIGURE_AMOUNT) - get (reason, WB_FIGURE_TAKEN));
      g_assert_cmpint (reason->result.value, ==, claim->deductible);
      return;
    case WB_RULE_SHIPMENT_LIMIT:
      g_assert_cmpint (get (reason, WB_FIGURE_LIMIT), ==, claim->left);
      g_assert_cmpint (get (reason, WB_FIGURE_LOSS), ==,
                       claim->deducted != NULL ? claim->deducted->result.value : totals->allowed);
      g_assert_cmpint (reason->result.value, ==, MIN (get (reason, WB_FIGURE_LOSS), claim->left));
      claim->shipment_limit = reason;
      return;
    case WB_RULE_DEDUCTIBLE:
      if (claim->deductible >= 0)
        g_assert_cmpint (get (reason, WB_FIGURE_DEDUCTIBLE), ==, claim->deductible);
      g_assert_cmpint (get (reason, WB_FIGURE_LOSS), ==,
                       claim->shipment_limit != NULL ? claim->shipment_limit->result.value
                                                     : totals->allowed);
      g_assert_cmpint (reason->result.value, ==,
                       MAX (0, get (reason, WB_FIGURE_LOSS) - get (reason, WB_FIGURE_DEDUCTIBLE)));
      claim->deducted = reason;
      return;
    case WB_RULE_OWED:
      g_assert_cmpint (reason->result.value, ==, totals->owed);
      g_assert_cmpint (get (reason, WB_FIGURE_LIMIT), ==, totals->allowed);
      return;
    case WB_RULE_FREIGHT_REFUND:
      replay_refund (claim, reason);
      return;
    case WB_RULE_PAID:
      g_assert_cmpint (get (reason, WB_FIGURE_LOSS), ==, totals->owed + totals->freight_refund);
      g_assert_cmpint (reason->result.value, ==,
                       get (reason, WB_FIGURE_LOSS) - get (reason, WB_FIGURE_EARLIER));
      g_assert_cmpint (reason->result.value, ==, totals->balance);
      g_assert_true (has (reason, WB_FIGURE_FREIGHT) == (totals->freight_paid > 0));
      return;
    case WB_RULE_MISSING_FIGURE:
      g_assert_false (totals->complete);
      return;
    case WB_RULE_TERMS:
    case WB_RULE_CHOICE:
    case WB_RULE_FILING:
    case WB_RULE_LATE:
    case WB_RULE_SILENT:
      return;
    case WB_RULE_REPLACEMENT:
    case WB_RULE_DEPRECIATION_RATE:
    case WB_RULE_DEPRECIATION:
    case WB_RULE_SALVAGE:
    case WB_RULE_SALVAGE_TAKEN:
    case WB_RULE_REPAIR:
    case WB_RULE_LESSER:
    case WB_RULE_DEMAND:
    case WB_RULE_DENIED:
    case WB_RULE_BARRED:
    case WB_RULE_SET_MATE:
    case WB_RULE_FREIGHT_DENIED:
    case WB_RULE_LINE_LIMIT:
    case WB_RULE_THING_LEFT:
    case WB_RULE_ELSEWHERE:
    case WB_RULE_ARTICLE_WEIGHT:
    case WB_RULE_EXTRAORDINARY:
    case WB_RULE_LISTED:
    case WB_RULE_ARTICLE_LIMIT:
    case WB_RULE_ARTICLE_LEFT:
    case WB_RULE_ARTICLE_SHARE:
    case WB_RULE_SHIPMENT_SHARE:
    case WB_RULE_DEDUCTIBLE_SHARE:
      break;
    }
  g_error ("%s is no step of a whole claim", wb_enum_nick (&wb_rules, reason->rule));
}

static void
replay_side (const WbReckoning *reckoning,
             WbSide             side)
{
  Claim claim = { .reckoning = reckoning, .side = side, .deductible = -1 };
  gint64 owed = 0;
  const WbReason *reason;
  WbReasonIter iter;

  wb_reason_iter_init (&iter, reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    {
      if (reason->line == WB_REASON_WHOLE_CLAIM &&
          (reason->scope == (guint) side || reason->scope == WB_SCOPE_GENERAL))
        replay_claim_step (&claim, reason);
    }
  if (reckoning->side[side].has_limit)
    {
      g_assert_cmpint (claim.limit, ==, reckoning->side[side].shipment_limit);
      g_assert_cmpint (claim.left, ==, reckoning->side[side].limit_left);
    }
  for (guint i = 0; i < reckoning->n_lines; i++)
    {
      replay_line (&claim, (gint) i);
      owed += reckoning->lines[i].side[side].owed;
    }
  g_assert_cmpint (owed, ==, reckoning->side[side].owed);
}

/* --- run -------------------------------------------------------------------------------------- */

static void
count_rules (const WbReckoning *reckoning,
             guint             *count)
{
  const WbReason *reason;
  WbReasonIter iter;

  wb_reason_iter_init (&iter, reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    count[reason->rule]++;
}

static void
test_replay (void)
{
  guint32 seed = (guint32) g_test_rand_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (WbTerms) terms = NULL;
  guint count[WB_RULE_PAID + 1] = { 0 };

  g_test_message ("%d random claims from seed %u", N_CLAIMS, seed);
  for (guint i = 0; i < N_CLAIMS; i++)
    {
      g_autoptr (WbJob) job = wb_random_job (rand, "USD", (guint) g_rand_int_range (rand, 0, 12));
      g_autoptr (WbReckoning) reckoning = NULL;
      g_autoptr (GError) error = NULL;

      if (i % CLAIMS_A_TERMS == 0)
        {
          g_autofree char *text = wb_random_terms_text (rand, "USD");

          g_clear_pointer (&terms, wb_terms_unref);
          terms = wb_random_terms_read (text);
        }
      reckoning = wb_reckon (terms, job, "claim", &error);
      g_assert_no_error (error);
      count_rules (reckoning, count);
      for (int side = 0; side < WB_N_SIDES; side++)
        if (reckoning->side[side].offered)
          replay_side (reckoning, (WbSide) side);
    }
  /* A generator that never reaches a rule would prove nothing of it. */
  for (guint rule = 0; rule < G_N_ELEMENTS (count); rule++)
    if (count[rule] < N_CLAIMS / 200)
      g_error ("the rule %s came up only %u times", wb_enum_nick (&wb_rules, (int) rule),
               count[rule]);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/reckon/replay", test_replay);
  return g_test_run ();
}
