/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The driver of a reckoning: checks its input, lines up the claim's lines and calls the rules in
 * their order. Each rule stands in a file of its own (wb-reckon-*.c) and is written once for both
 * sides; sides differ only in their terms.
 *
 *   step                     base it uses                  leaves          rules noted
 *   1 choose the side        valuation, order              applies         TERMS, CHOICE
 *   2 judge the filing       claim, delivery               late, barred    FILING, LATE
 *   3 limit of the shipment  weight, declared value,       limit_left,     SHIPMENT_WEIGHT to
 *     (each side)            other claims' payments        deductible      DEDUCTIBLE_LEFT
 *   4 loss of a line         costs, age, salvage, demand   loss            REPLACEMENT to DEMAND
 *   5 limits of line and     loss, value, payments for     allowed         DENIED to ARTICLE_SHARE
 *     article                the same thing or article
 *   6 shipment limit and     allowed                       covered,        SHIPMENT_LIMIT to OWED
 *     deductible, shared                                   deducted, owed
 *   7 freight refund         weight of what was lost       freight_refund  FREIGHT_DENIED to
 *                                                                          FREIGHT_REFUND
 *   8 balance                owed, refund, payments        balance         PAID
 */
#include "core/wb-reckon-private.h"

#include <stdlib.h>
#include <string.h>

#include "core/wb-core.h"

void
wb_run_meet_key (WbRun      *run,
                 WbScope     scope,
                 WbTermsKey  key)
{
  if (run->met[scope][key])
    return;
  run->met[scope][key] = TRUE;
  if (wb_terms_is_given (run->terms, scope, key))
    return;
  *wb_reasons_append (&run->out->reasons, 0) =
    (WbReason) { .rule = WB_RULE_SILENT, .scope = (guint8) scope, .key = (gint8) key,
                 .line = WB_REASON_WHOLE_CLAIM };
}

void
wb_run_note (WbRun          *run,
             WbRule          rule,
             WbScope         scope,
             gint            key,
             gint            line,
             WbFigure        result,
             const WbFigure *inputs,
             guint           n_inputs)
{
  WbReason head = { .rule = (guint8) rule, .scope = (guint8) scope, .key = (gint8) key,
                    .n_inputs = (guint8) n_inputs, .line = line, .result = result };
  WbReason *reason;

  if (key != WB_NO_KEY)
    wb_run_meet_key (run, wb_reason_key_scope (&head), (WbTermsKey) key);
  reason = wb_reasons_append (&run->out->reasons, n_inputs);
  *reason = head;
  for (guint i = 0; i < n_inputs; i++)
    reason->inputs[i] = inputs[i];
}

gboolean
wb_run_add (gint64  *sum,
            gint64   term,
            GError **error)
{
  if (!__builtin_add_overflow (*sum, term, sum))
    return TRUE;
  g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW,
                       "the claim adds up to more than can be counted");
  return FALSE;
}

gboolean
wb_run_scale (WbRun   *run,
              gint64   minor,
              gint64   numerator,
              gint64   denominator,
              gint64  *out,
              GError **error)
{
  wb_run_meet_key (run, WB_SCOPE_GENERAL, WB_KEY_ROUNDING);
  return wb_minor_scale (minor, numerator, denominator, run->terms->rounding, out, error);
}

gboolean
wb_run_apply_rate (WbRun    *run,
                   WbRate    rate,
                   WbWeight  weight,
                   WbVolume  volume,
                   gint64   *out,
                   GError  **error)
{
  WbMoney amount;

  wb_run_meet_key (run, WB_SCOPE_GENERAL, WB_KEY_ROUNDING);
  if (!wb_rate_apply (rate, weight, volume, run->terms->rounding, &amount, error))
    return FALSE;
  *out = amount.minor;
  return TRUE;
}

/* --- input ------------------------------------------------------------------------------------ */

static int
compare_lines (const void *a,
               const void *b)
{
  const WbClaimLine *left = ((const WbLineReckoning *) a)->line;
  const WbClaimLine *right = ((const WbLineReckoning *) b)->line;

  if (left->number != right->number)
    return left->number < right->number ? -1 : 1;
  return strcmp (left->record.id, right->record.id);
}

/* Asks for the record of a line that is soon collected, and then for what that points to; likewise
 * for the piece that it probably names. */
static void
expect_line (const WbJob *job,
             guint        line,
             guint        piece)
{
  guint n_lines = wb_job_count (job, WB_KIND_CLAIM_LINE);
  guint n_pieces = wb_job_count (job, WB_KIND_PIECE);

  if (line + WB_LINES_AHEAD < n_lines)
    wb_expect (wb_job_nth (job, WB_KIND_CLAIM_LINE, line + WB_LINES_AHEAD), sizeof (WbClaimLine));
  if (line + WB_LINES_AHEAD / 2 < n_lines)
    {
      const WbClaimLine *soon = wb_job_nth (job, WB_KIND_CLAIM_LINE, line + WB_LINES_AHEAD / 2);

      __builtin_prefetch (soon->claim);
      __builtin_prefetch (soon->piece);
    }
  if (piece + WB_LINES_AHEAD < n_pieces)
    __builtin_prefetch (wb_job_nth (job, WB_KIND_PIECE, piece + WB_LINES_AHEAD));
  if (piece + WB_LINES_AHEAD / 2 < n_pieces)
    {
      const WbRecord *soon = wb_job_nth (job, WB_KIND_PIECE, piece + WB_LINES_AHEAD / 2);

      __builtin_prefetch (soon->id);
    }
}

/* Finds the piece of a line. Most claims name pieces in the order of the inventory, so the one after
 * the piece of the line before is looked at first, which spares a look among all their ids. */
static void
find_piece (const WbRun     *run,
            WbLineReckoning *row,
            gint             before)
{
  guint next = (guint) (before + 1);

  row->piece_index = -1;
  if (row->line->piece == NULL)
    return;
  if (next < wb_job_count (run->job, WB_KIND_PIECE))
    row->piece = wb_job_nth (run->job, WB_KIND_PIECE, next);
  if (row->piece != NULL && strcmp (row->piece->record.id, row->line->piece) == 0)
    {
      row->piece_index = (gint) next;
      return;
    }
  row->piece_index = wb_job_index (run->job, WB_KIND_PIECE, row->line->piece);
  row->piece = row->piece_index < 0 ? NULL
               : wb_job_nth (run->job, WB_KIND_PIECE, (guint) row->piece_index);
}

/* Takes the claim's lines out of the job, in line order whatever their order there. */
static gboolean
collect_lines (WbRun   *run,
               GError **error)
{
  WbReckoning *out = run->out;
  guint n_all = wb_job_count (run->job, WB_KIND_CLAIM_LINE);
  gboolean in_order = TRUE;
  g_autoptr (GPtrArray) figures = wb_run_find_figures (WB_KIND_CLAIM_LINE);

  out->lines = g_new0 (WbLineReckoning, MAX (n_all, 1));
  for (guint i = 0; i < n_all; i++)
    {
      const WbClaimLine *line = wb_job_nth (run->job, WB_KIND_CLAIM_LINE, i);
      WbLineReckoning *row = &out->lines[out->n_lines];
      gint before = out->n_lines > 0 ? row[-1].piece_index : -1;

      expect_line (run->job, i, (guint) (before + 1));
      if (g_strcmp0 (line->claim, out->claim->record.id) != 0)
        continue;
      if (!wb_run_check_figures (run, line, figures, error))
        return FALSE;
      row->line = line;
      find_piece (run, row, before);
      for (int side = 0; side < WB_N_SIDES; side++)
        row->side[side].complete = TRUE;
      /* Most jobs keep them in order, and looking is cheaper than moving. */
      in_order = in_order && (out->n_lines == 0 || compare_lines (row - 1, row) < 0);
      out->n_lines++;
    }
  if (!in_order)
    qsort (out->lines, out->n_lines, sizeof *out->lines, compare_lines);
  return TRUE;
}

/* Whether any piece was ever found short. */
static gboolean
is_any_short (const WbJob *job)
{
  guint n = wb_job_count (job, WB_KIND_FINDING);

  for (guint i = 0; i < n; i++)
    if (((const WbFinding *) wb_job_nth (job, WB_KIND_FINDING, i))->found == WB_FOUND_SHORT)
      return TRUE;
  return FALSE;
}

/* Ids of the pieces that the last handover which mentions them found short. */
static GHashTable *
find_short_pieces (const WbJob *job)
{
  GHashTable *found = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) latest = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_FINDING); i++)
    {
      const WbFinding *finding = wb_job_nth (job, WB_KIND_FINDING, i);
      gint place = wb_job_index (job, WB_KIND_HANDOVER, finding->handover);

      if (finding->piece == NULL ||
          place + 1 < GPOINTER_TO_INT (g_hash_table_lookup (latest, finding->piece)))
        continue;
      g_hash_table_insert (latest, finding->piece, GINT_TO_POINTER (place + 1));
      if (finding->found == WB_FOUND_SHORT)
        g_hash_table_add (found, finding->piece);
      else
        g_hash_table_remove (found, finding->piece);
    }
  return found;
}

/* --- run -------------------------------------------------------------------------------------- */

static void
run_clear (WbRun *run)
{
  g_clear_pointer (&run->piece_figures, g_ptr_array_unref);
  g_clear_pointer (&run->short_pieces, g_hash_table_unref);
  g_clear_pointer (&run->articles, g_free);
  g_clear_pointer (&run->next_in_article, g_free);
  g_clear_pointer (&run->line_paid, g_free);
  g_clear_pointer (&run->values, g_free);
  g_clear_pointer (&run->scratch_shares, g_free);
  g_clear_pointer (&run->scratch_parts, g_free);
  g_clear_pointer (&run->out, wb_reckoning_unref);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (WbRun, run_clear)

static void
run_reserve (WbRun *run)
{
  guint n = MAX (run->out->n_lines, 1);

  run->piece_figures = wb_run_find_figures (WB_KIND_PIECE);
  if (is_any_short (run->job))
    run->short_pieces = find_short_pieces (run->job);
  run->articles = g_new (WbArticle, n);
  run->next_in_article = g_new (guint, n);
  run->values = g_new (gint64, n);
  run->scratch_shares = g_new (gint64, n);
  run->scratch_parts = g_new (gint64, n);
}

/* Steps 3 to 6 for one side. */
static gboolean
reckon_side (WbRun   *run,
             WbSide   side,
             GError **error)
{
  WbSideReckoning *totals = &run->out->side[side];

  totals->offered = run->terms->side[side].offered;
  totals->complete = TRUE;
  if (!totals->offered)
    return TRUE;

  if (!wb_run_limit_shipment (run, side, error))
    return FALSE;
  for (guint i = 0; i < run->out->n_lines; i++)
    {
      wb_run_expect_line (run, i);
      if (!wb_run_measure_line (run, side, i, error))
        return FALSE;
    }
  if (!wb_run_limit_lines (run, side, error) || !wb_run_share_shipment (run, side, error))
    return FALSE;
  for (guint i = 0; i < run->out->n_lines; i++)
    if (!run->out->lines[i].side[side].complete)
      totals->complete = FALSE;
  return TRUE;
}

/* Step 8. What was paid on this claim is the same whichever side applies. */
static gboolean
balance (WbRun   *run,
         GError **error)
{
  gint64 paid = 0, freight = 0;

  for (guint i = 0; i < wb_job_count (run->job, WB_KIND_PAYMENT); i++)
    {
      const WbPayment *payment = wb_job_nth (run->job, WB_KIND_PAYMENT, i);

      if (g_strcmp0 (payment->claim, run->out->claim->record.id) != 0)
        continue;
      if (!wb_run_add (&paid, payment->amount.minor, error))
        return FALSE;
      /* No more than the amount, so it cannot run over where that did not. */
      freight += payment->amount.minor - wb_run_paid_for_goods (payment);
    }
  for (int side = 0; side < WB_N_SIDES; side++)
    {
      WbSideReckoning *totals = &run->out->side[side];
      gint64 due = totals->owed;

      if (!totals->offered)
        continue;
      if (!wb_run_add (&due, totals->freight_refund, error))
        return FALSE;
      totals->paid = paid;
      totals->freight_paid = freight;
      totals->balance = due - paid;
      if (paid > 0)
        {
          const WbFigure inputs[] = { wb_figure_money (WB_FIGURE_LOSS, due),
                                      wb_figure_money (WB_FIGURE_EARLIER, paid),
                                      wb_figure_money (WB_FIGURE_FREIGHT, freight) };

          wb_run_note (run, WB_RULE_PAID, (WbScope) side, WB_NO_KEY, WB_REASON_WHOLE_CLAIM,
                       wb_figure_money (WB_FIGURE_AMOUNT, totals->balance), inputs,
                       freight > 0 ? 3 : 2);
        }
    }
  return TRUE;
}

WbReckoning *
wb_reckon (WbTerms     *terms,
           WbJob       *job,
           const char  *claim_id,
           GError     **error)
{
  g_auto (WbRun) run = { .terms = terms, .job = job };

  g_return_val_if_fail (terms != NULL && job != NULL && claim_id != NULL, NULL);

  run.out = g_new0 (WbReckoning, 1);
  g_atomic_ref_count_init (&run.out->references);
  run.out->job = wb_job_ref (job);
  run.out->terms = wb_terms_ref (terms);
  run.out->claim = wb_job_find (job, WB_KIND_CLAIM, claim_id);
  if (run.out->claim == NULL)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING, "the job has no claim “%s”",
                   claim_id);
      return NULL;
    }
  if (!wb_run_check_input (&run, error) || !collect_lines (&run, error))
    return NULL;
  run_reserve (&run);

  wb_run_choose_side (&run);
  if (!wb_run_judge_filing (&run, error) || !wb_run_group_articles (&run, error))
    return NULL;
  for (int side = 0; side < WB_N_SIDES; side++)
    if (!reckon_side (&run, (WbSide) side, error))
      return NULL;
  if (!wb_run_refund_freight (&run, error) || !balance (&run, error))
    return NULL;
  return g_steal_pointer (&run.out);
}
