/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The freight that goes back for goods that were lost on the way: 49 CFR 375.707 for a part of the
 * shipment, 375.709 for all of it. Weighs what was lost piece by piece; what the goods themselves
 * bring is no matter of this file. */
#include "core/wb-reckon-private.h"

#define WHOLE WB_REASON_WHOLE_CLAIM

/* What was lost of one piece, or of a thing that is on no inventory (@piece is NULL). */
typedef struct
{
  const WbPiece *piece;
  guint          first_line;
  gboolean       whole;      /* all of it is gone */
  gboolean       unknown;    /* something of it is gone whose weight is not known */
  gint64         grains;     /* the lost things' own weights */
} LostPiece;

/* All that was lost of a shipment. */
typedef struct
{
  gboolean any;
  WbWeight weight;           /* as far as it is known */
} Lost;

/* A sound mate of a set was not lost, whatever is paid for it. */
static gboolean
line_is_lost (const WbClaimLine *line)
{
  return (line->loss == WB_LOSS_MISSING || line->loss == WB_LOSS_DESTROYED) && !line->set_mate;
}

/* No freight goes back for what the shipper's own act or omission lost: 49 CFR 375.707(c),
 * 375.709. */
static gboolean
shipper_lost_it (const WbClaimLine *line)
{
  return line->ruling == WB_RULING_DENIED && line->defence == WB_DEFENCE_SHIPPER;
}

/* That a claim for the goods was denied does not take the right to their freight, which is in
 * addition to it: 49 CFR 375.707(d). Told for each denied line, since it is easily overlooked. */
static void
note_denied (WbRun *run,
             guint  line)
{
  const WbClaimLine *claimed = run->out->lines[line].line;
  gboolean partial = run->terms->freight_partial_loss != WB_FREIGHT_NOT_REFUNDED;

  if (claimed->ruling == WB_RULING_DENIED)
    WB_NOTE (run, WB_RULE_FREIGHT_DENIED, WB_SCOPE_GENERAL,
             partial ? WB_KEY_FREIGHT_PARTIAL_LOSS : WB_KEY_FREIGHT_TOTAL_LOSS, (gint) line,
             (WbFigure) { WB_FIGURE_NONE },
             wb_figure_code (WB_FIGURE_DEFENCE, (int) claimed->defence));
}

/* @places: one a piece of the job, one more than where it is among @pieces, or 0. */
static LostPiece *
find_lost_piece (WbRun  *run,
                 GArray *pieces,
                 guint  *places,
                 guint   line)
{
  const WbLineReckoning *row = &run->out->lines[line];
  guint nowhere = 0;
  guint *place = row->piece != NULL ? &places[row->piece_index] : &nowhere;

  if (*place == 0)
    {
      LostPiece fresh = { .piece = row->piece, .first_line = line };

      if (row->piece != NULL && run->short_pieces != NULL)
        fresh.whole = g_hash_table_contains (run->short_pieces, row->piece->record.id);
      g_array_append_val (pieces, fresh);
      *place = pieces->len;
    }
  return &g_array_index (pieces, LostPiece, *place - 1);
}

/* Returns: (transfer full) (nullable) (element-type LostPiece): by their first lines. A loose piece
 * is lost whole, unless its line weighs the part that is. */
static GArray *
collect_lost_pieces (WbRun   *run,
                     GError **error)
{
  g_autoptr (GArray) pieces = g_array_new (FALSE, TRUE, sizeof (LostPiece));
  g_autofree guint *places = g_new0 (guint, wb_job_count (run->job, WB_KIND_PIECE));

  for (guint i = 0; i < run->out->n_lines; i++)
    {
      const WbLineReckoning *row = &run->out->lines[i];
      LostPiece *lost;

      wb_run_expect_line (run, i);
      if (!line_is_lost (row->line))
        continue;
      note_denied (run, i);
      if (shipper_lost_it (row->line))
        continue;
      lost = find_lost_piece (run, pieces, places, i);
      if (wb_weight_is_positive (row->line->weight))
        {
          if (!wb_run_add (&lost->grains, row->line->weight.grains, error))
            return NULL;
        }
      else if (row->piece != NULL && !wb_run_is_packed (row->piece))
        lost->whole = TRUE;
      else
        lost->unknown = TRUE;
    }
  return g_steal_pointer (&pieces);
}

/* The weight of what was lost of a piece, never more than the piece's. Unset when it is not
 * known. */
static gboolean
weigh_lost_piece (WbRun            *run,
                  const LostPiece  *lost,
                  WbWeight         *weight,
                  GError          **error)
{
  WbWeight piece = WB_WEIGHT_UNSET;
  WbArticleWeightSource source;

  if (lost->piece != NULL && !wb_run_weigh_piece (run, lost->piece, &piece, &source, error))
    return FALSE;

  *weight = (WbWeight) { lost->grains, WB_WEIGHT_UNIT_LB };
  if (wb_weight_is_set (piece) && (lost->whole || lost->grains > piece.grains))
    *weight = piece;
  else if (lost->unknown || lost->grains == 0)
    *weight = WB_WEIGHT_UNSET;
  return TRUE;
}

/* A missing weight matters where the refund goes by it. */
static void
miss_lost_weight (WbRun           *run,
                  const LostPiece *lost)
{
  if (run->terms->freight_partial_loss != WB_FREIGHT_BY_WEIGHT)
    return;
  WB_NOTE (run, WB_RULE_MISSING_FIGURE, WB_SCOPE_GENERAL, WB_NO_KEY, (gint) lost->first_line,
           wb_figure_money (WB_FIGURE_AMOUNT, 0),
           wb_figure_code (WB_FIGURE_MISSING, WB_MISSING_LOST_WEIGHT));
  for (int side = 0; side < WB_N_SIDES; side++)
    run->out->side[side].complete = FALSE;
}

static gboolean
weigh_lost_goods (WbRun   *run,
                  Lost    *lost,
                  GError **error)
{
  g_autoptr (GArray) pieces = collect_lost_pieces (run, error);

  if (pieces == NULL)
    return FALSE;
  lost->any = pieces->len > 0;
  lost->weight = wb_weight (0, WB_WEIGHT_UNIT_LB);
  for (guint i = 0; i < pieces->len; i++)
    {
      const LostPiece *piece = &g_array_index (pieces, LostPiece, i);
      WbWeight weight;

      if (!weigh_lost_piece (run, piece, &weight, error))
        return FALSE;
      if (!wb_weight_is_set (weight))
        miss_lost_weight (run, piece);
      else if (!wb_weight_add (lost->weight, weight, &lost->weight, error))
        return FALSE;
    }
  return TRUE;
}

/* --- refund ----------------------------------------------------------------------------------- */

/* The charges that go back, by one rule of the terms. */
static gboolean
refund_by_rule (WbRun          *run,
                WbFreightRule   rule,
                WbWeight        lost,
                WbWeight        whole,
                gint64         *refund,
                gint64         *base,
                GError        **error)
{
  const WbOrder *order = wb_job_order (run->job);

  *base = order->freight_charge.minor;
  switch (rule)
    {
    case WB_FREIGHT_NOT_REFUNDED:
      *refund = 0;
      return TRUE;
    case WB_FREIGHT_ALL:
      /* Of a total loss no freight, accessorial or terminal charge may be kept: 49 CFR 375.709. */
      if (!wb_run_add (base, order->other_charge.minor, error))
        return FALSE;
      *refund = *base;
      return TRUE;
    case WB_FREIGHT_BY_WEIGHT:
      return wb_run_scale (run, *base, lost.grains, whole.grains, refund, error);
    }
  g_assert_not_reached ();
}

static void
miss (WbRun     *run,
      WbMissing  what)
{
  WB_NOTE (run, WB_RULE_MISSING_FIGURE, WB_SCOPE_GENERAL, WB_NO_KEY, WHOLE,
           wb_figure_money (WB_FIGURE_AMOUNT, 0), wb_figure_code (WB_FIGURE_MISSING, (int) what));
  for (int side = 0; side < WB_N_SIDES; side++)
    run->out->side[side].complete = FALSE;
}

/* The state of a claim that is too late to be paid is told too: the right to the freight is in
 * addition to what is claimed for the goods (49 CFR 375.707(d)) and does not go with it. */
static void
note_refund (WbRun    *run,
             gboolean  total,
             gint64    refund,
             gint64    base,
             WbWeight  lost,
             WbWeight  whole)
{
  const WbFigure inputs[] = {
    wb_figure_money (WB_FIGURE_FREIGHT, base),
    wb_figure_weight (WB_FIGURE_LOST_WEIGHT, lost),
    wb_figure_weight (WB_FIGURE_WEIGHT, whole),
    wb_figure_code (WB_FIGURE_LATE, (int) run->out->late),
  };

  wb_run_note (run, WB_RULE_FREIGHT_REFUND, WB_SCOPE_GENERAL,
               total ? WB_KEY_FREIGHT_TOTAL_LOSS : WB_KEY_FREIGHT_PARTIAL_LOSS, WHOLE,
               wb_figure_money (WB_FIGURE_AMOUNT, refund), inputs, run->barred ? 4 : 3);
}

/* All is lost when what is lost weighs as much as the shipment. */
static gboolean
refund_lost (WbRun   *run,
             Lost    *lost,
             WbWeight whole,
             GError **error)
{
  const WbTerms *terms = run->terms;
  gboolean total = lost->weight.grains >= whole.grains;
  WbFreightRule rule = total ? terms->freight_total_loss : terms->freight_partial_loss;
  gint64 refund, base;

  if (total)
    lost->weight = whole;
  if (!refund_by_rule (run, rule, lost->weight, whole, &refund, &base, error))
    return FALSE;
  note_refund (run, total, refund, base, lost->weight, whole);
  for (int side = 0; side < WB_N_SIDES; side++)
    if (run->out->side[side].offered)
      run->out->side[side].freight_refund = refund;
  return TRUE;
}

gboolean
wb_run_refund_freight (WbRun   *run,
                       GError **error)
{
  const WbTerms *terms = run->terms;
  Lost lost = { FALSE };
  WbWeight whole;

  if (terms->freight_partial_loss == WB_FREIGHT_NOT_REFUNDED &&
      terms->freight_total_loss == WB_FREIGHT_NOT_REFUNDED)
    return TRUE;
  if (!weigh_lost_goods (run, &lost, error))
    return FALSE;
  if (!lost.any ||
      (lost.weight.grains == 0 && terms->freight_partial_loss != WB_FREIGHT_ALL))
    return TRUE;
  if (!wb_money_is_set (wb_job_order (run->job)->freight_charge))
    {
      miss (run, WB_MISSING_FREIGHT_CHARGE);
      return TRUE;
    }
  if (wb_job_shipment_weight (run->job, FALSE, terms->constructive_weight, &whole) ==
      WB_WEIGHT_SOURCE_NONE)
    {
      miss (run, WB_MISSING_SHIPMENT_WEIGHT);
      return TRUE;
    }
  return refund_lost (run, &lost, whole, error);
}
