/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What must hold of every reckoning, whatever the claim: tried on 100,000 random claims a run. The
 * seed is printed; run again with --seed to see a failure again. WB_CLAIMS in the environment sets
 * another count. */
#include "config.h"

#include <stdlib.h>

#include "support/wb-random-claim.h"

#define DEFAULT_CLAIMS 100000
#define CLAIMS_A_TERMS 50

static guint
count_claims (void)
{
  const char *text = g_getenv ("WB_CLAIMS");

  return text != NULL ? (guint) atoi (text) : DEFAULT_CLAIMS;
}

static WbReckoning *
reckon (WbTerms *terms,
        WbJob   *job)
{
  g_autoptr (GError) error = NULL;
  WbReckoning *reckoning = wb_reckon (terms, job, "claim", &error);

  g_assert_no_error (error);
  return reckoning;
}

/* --- what holds of one reckoning -------------------------------------------------------------- */

static void
check_line (const WbLineFigures *figures)
{
  g_assert_cmpint (figures->owed, >=, 0);
  g_assert_cmpint (figures->owed, <=, figures->covered);
  g_assert_cmpint (figures->covered, <=, figures->allowed);
  g_assert_cmpint (figures->allowed, <=, figures->loss);
  g_assert_cmpint (figures->owed, ==, figures->covered - figures->deducted);
}

static void
check_sums (const WbReckoning *reckoning,
            WbSide             side)
{
  const WbSideReckoning *totals = &reckoning->side[side];
  gint64 loss = 0, allowed = 0, covered = 0, deducted = 0, owed = 0;

  for (guint i = 0; i < reckoning->n_lines; i++)
    {
      const WbLineFigures *figures = &reckoning->lines[i].side[side];

      check_line (figures);
      loss += figures->loss;
      allowed += figures->allowed;
      covered += figures->covered;
      deducted += figures->deducted;
      owed += figures->owed;
    }
  g_assert_cmpint (loss, ==, totals->loss);
  g_assert_cmpint (allowed, ==, totals->allowed);
  g_assert_cmpint (covered, ==, totals->covered);
  g_assert_cmpint (deducted, ==, totals->deducted);
  g_assert_cmpint (owed, ==, totals->owed);
  g_assert_cmpint (owed, <=, loss);
  if (totals->has_limit)
    g_assert_cmpint (owed, <=, totals->limit_left);
  g_assert_cmpint (totals->freight_refund, >=, 0);
  g_assert_cmpint (totals->balance, ==, owed + totals->freight_refund - totals->paid);
}

/* What other claims were paid for @piece, by payments that name a line on it. */
static gint64
sum_paid_elsewhere (const WbReckoning *reckoning,
                    WbSide             side,
                    const WbPiece     *piece)
{
  WbJob *job = reckoning->job;
  gint64 sum = 0;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PAYMENT); i++)
    {
      const WbPayment *payment = wb_job_nth (job, WB_KIND_PAYMENT, i);
      const WbClaimLine *line = wb_job_find (job, WB_KIND_CLAIM_LINE, payment->claim_line);

      if (line == NULL || g_strcmp0 (line->claim, payment->claim) != 0 ||
          g_strcmp0 (line->claim, "claim") == 0 ||
          g_strcmp0 (line->piece, piece->record.id) != 0)
        continue;
      sum += MAX (0, payment->amount.minor - payment->freight_refund.minor);
      if (reckoning->terms->side[side].deductible)
        sum += payment->deductible_taken.minor;
    }
  return sum;
}

/* The limit of an article, found anew from the inventory and not from the reckoning's own reasons:
 * no article may bring more than rate × weight. Only for pieces whose own weight is the article's
 * weight beyond doubt: no part of anything else, and a carton only where the terms take it with its
 * contents for one article. */
static void
check_article_limits (const WbReckoning *reckoning,
                      WbSide             side)
{
  const WbSideTerms *terms = &reckoning->terms->side[side];

  if (!wb_rate_is_set (terms->article_rate))
    return;
  for (guint i = 0; i < reckoning->n_lines; i++)
    {
      const WbPiece *piece = reckoning->lines[i].piece;
      gint64 owed = 0;
      WbMoney limit;

      if (piece == NULL || piece->article != NULL || !wb_weight_is_positive (piece->weight) ||
          (piece->form != WB_FORM_LOOSE && reckoning->terms->carton != WB_CARTON_ONE_ARTICLE))
        continue;
      for (guint j = 0; j < reckoning->n_lines; j++)
        if (reckoning->lines[j].piece == piece)
          owed += reckoning->lines[j].side[side].owed;
      g_assert_true (wb_rate_apply (terms->article_rate, piece->weight, WB_VOLUME_UNSET,
                                    WB_ROUND_UP, &limit, NULL));
      g_assert_cmpint (owed, <=,
                       MAX (0, limit.minor - sum_paid_elsewhere (reckoning, side, piece)));
    }
}

/* A line that is not paid brings nothing and lacks nothing. */
static void
check_unpaid_lines (const WbReckoning *reckoning,
                    WbSide             side)
{
  for (guint i = 0; i < reckoning->n_lines; i++)
    {
      const WbClaimLine *line = reckoning->lines[i].line;
      const WbLineFigures *figures = &reckoning->lines[i].side[side];
      gboolean unpaid_mate = line->set_mate && reckoning->terms->sets == WB_SETS_ONLY_PIECE;

      if (line->ruling != WB_RULING_DENIED && !unpaid_mate)
        continue;
      g_assert_cmpint (figures->owed, ==, 0);
      g_assert_cmpint (figures->allowed, ==, 0);
      g_assert_true (figures->complete);
    }
}

/* --- what holds between reckonings ------------------------------------------------------------ */

/* The same job with its claim lines in another order. */
static WbJob *
shuffle_lines (WbJob *job,
               GRand *rand)
{
  guint n = wb_job_count (job, WB_KIND_CLAIM_LINE);
  g_autoptr (WbJob) now = wb_job_ref (job);

  for (guint i = 0; i < n; i++)
    {
      const WbRecord *line = wb_job_nth (now, WB_KIND_CLAIM_LINE, 0);
      guint place = (guint) g_rand_int_range (rand, (gint32) i / 2, (gint32) n);
      WbJob *moved = wb_job_move (now, WB_KIND_CLAIM_LINE, line->id, place);

      wb_job_unref (now);
      now = moved;
    }
  return g_steal_pointer (&now);
}

static WbJob *
with_valuation (WbJob *job,
                gint64 declared,
                gint64 deductible)
{
  g_autoptr (WbValuation) valuation = wb_record_copy (wb_job_valuation (job));

  if (declared >= 0)
    valuation->declared_value = wb_money (declared, "USD");
  if (deductible >= 0)
    valuation->deductible = wb_money (deductible, "USD");
  return wb_job_with (job, valuation);
}

static void
check_order_of_lines (WbTerms           *terms,
                      WbJob             *job,
                      const WbReckoning *reckoning,
                      GRand             *rand)
{
  g_autoptr (WbJob) shuffled = shuffle_lines (job, rand);
  g_autoptr (WbReckoning) other = reckon (terms, shuffled);
  g_autofree char *before = wb_reckoning_to_text (reckoning);
  g_autofree char *after = wb_reckoning_to_text (other);

  g_assert_cmpstr (before, ==, after);
}

static void
check_same_bytes (WbTerms           *terms,
                  WbJob             *job,
                  const WbReckoning *reckoning)
{
  g_autoptr (WbReckoning) again = reckon (terms, job);
  g_autofree char *before = wb_reckoning_to_text (reckoning);
  g_autofree char *after = wb_reckoning_to_text (again);

  g_assert_cmpstr (before, ==, after);
}

static void
check_declared_value (WbTerms *terms,
                      WbJob   *job,
                      GRand   *rand)
{
  gint64 low = g_rand_int_range (rand, 0, 2000000);
  gint64 high = low + g_rand_int_range (rand, 0, 2000000);
  g_autoptr (WbJob) job_low = with_valuation (job, low, -1);
  g_autoptr (WbJob) job_high = with_valuation (job, high, -1);
  g_autoptr (WbReckoning) at_low = reckon (terms, job_low);
  g_autoptr (WbReckoning) at_high = reckon (terms, job_high);

  for (int side = 0; side < WB_N_SIDES; side++)
    g_assert_cmpint (at_low->side[side].owed, <=, at_high->side[side].owed);
}

static void
check_deductible (WbTerms *terms,
                  WbJob   *job,
                  GRand   *rand)
{
  gint64 low = g_rand_int_range (rand, 0, 100000);
  gint64 high = low + g_rand_int_range (rand, 0, 100000);
  g_autoptr (WbJob) job_low = with_valuation (job, -1, low);
  g_autoptr (WbJob) job_high = with_valuation (job, -1, high);
  g_autoptr (WbReckoning) at_low = reckon (terms, job_low);
  g_autoptr (WbReckoning) at_high = reckon (terms, job_high);

  for (int side = 0; side < WB_N_SIDES; side++)
    g_assert_cmpint (at_low->side[side].owed, >=, at_high->side[side].owed);
}

/* The same job with every claim line changed in one way. */
static WbJob *
with_lines (WbJob  *job,
            void  (*change) (WbClaimLine *line))
{
  g_autoptr (GPtrArray) lines = g_ptr_array_new_with_free_func (wb_record_unref);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      WbClaimLine *line = wb_record_copy (wb_job_nth (job, WB_KIND_CLAIM_LINE, i));

      change (line);
      g_ptr_array_add (lines, line);
    }
  return wb_job_with_many (job, lines);
}

static void
take_salvage (WbClaimLine *line)
{
  line->salvage_taken = TRUE;
}

static void
keep_salvage (WbClaimLine *line)
{
  line->salvage_taken = FALSE;
}

static void
drop_least (WbClaimLine *line)
{
  line->depreciation_least = WB_INTEGER_UNSET;
}

static void
make_mate (WbClaimLine *line)
{
  line->set_mate = TRUE;
}

static void
make_piece (WbClaimLine *line)
{
  line->set_mate = FALSE;
}

static void
blame_shipper (WbClaimLine *line)
{
  line->defence = WB_DEFENCE_SHIPPER;
}

static void
blame_nobody (WbClaimLine *line)
{
  line->defence = WB_DEFENCE_NONE;
}

/* Whatever the claim, a change of all its lines moves what is owed for goods and for freight in one
 * direction only: 0 means not at all. Freight is compared where no weight is missing, since it is
 * not told otherwise. */
static void
check_direction (WbTerms *terms,
                 WbJob   *job,
                 void   (*lower) (WbClaimLine *line),
                 void   (*higher) (WbClaimLine *line),
                 gboolean moves_goods,
                 gboolean moves_freight)
{
  g_autoptr (WbJob) low_job = with_lines (job, lower);
  g_autoptr (WbJob) high_job = with_lines (job, higher);
  g_autoptr (WbReckoning) low = reckon (terms, low_job);
  g_autoptr (WbReckoning) high = reckon (terms, high_job);

  for (int side = 0; side < WB_N_SIDES; side++)
    {
      gint64 goods = high->side[side].owed - low->side[side].owed;
      gint64 freight = high->side[side].freight_refund - low->side[side].freight_refund;

      g_assert_cmpint (goods, >=, 0);
      g_assert_true (goods == 0 || moves_goods);
      if (!moves_freight)
        g_assert_cmpint (freight, ==, 0);
    }
}

static void
check_lines_changed (WbTerms *terms,
                     WbJob   *job)
{
  g_autoptr (WbJob) all_mates = with_lines (job, make_mate);
  g_autoptr (WbReckoning) mates = reckon (terms, all_mates);

  check_direction (terms, job, keep_salvage, take_salvage, TRUE, FALSE);
  check_direction (terms, job, blame_shipper, blame_nobody, FALSE, TRUE);
  check_direction (terms, job, make_mate, make_piece, terms->sets == WB_SETS_ONLY_PIECE, TRUE);
  for (int side = 0; side < WB_N_SIDES; side++)
    {
      g_assert_cmpint (mates->side[side].freight_refund, ==, 0);
      if (terms->sets == WB_SETS_ONLY_PIECE)
        g_assert_cmpint (mates->side[side].owed, ==, 0);
    }
}

static void
leave_line (WbClaimLine *line)
{
}

/* The same job with every payment changed in one way. */
static WbJob *
with_payments (WbJob  *job,
               void  (*change) (WbPayment *payment))
{
  g_autoptr (GPtrArray) payments = g_ptr_array_new_with_free_func (wb_record_unref);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PAYMENT); i++)
    {
      WbPayment *payment = wb_record_copy (wb_job_nth (job, WB_KIND_PAYMENT, i));

      change (payment);
      g_ptr_array_add (payments, payment);
    }
  return wb_job_with_many (job, payments);
}

static void
name_no_line (WbPayment *payment)
{
  wb_set_text (&payment->claim_line, NULL);
}

static void
make_freight (WbPayment *payment)
{
  payment->freight_refund = payment->amount;
}

/* That a payment names its line never brings more than when it does not; that it was freight never
 * brings less, and what is due beside what was paid is the same. */
static void
check_payments (WbTerms           *terms,
                WbJob             *job,
                const WbReckoning *reckoning)
{
  g_autoptr (WbJob) unnamed_job = with_payments (job, name_no_line);
  g_autoptr (WbJob) freight_job = with_payments (job, make_freight);
  g_autoptr (WbReckoning) unnamed = reckon (terms, unnamed_job);
  g_autoptr (WbReckoning) freight = reckon (terms, freight_job);

  for (int side = 0; side < WB_N_SIDES; side++)
    {
      const WbSideReckoning *here = &reckoning->side[side];

      g_assert_cmpint (unnamed->side[side].owed, >=, here->owed);
      g_assert_cmpint (freight->side[side].owed, >=, here->owed);
      g_assert_cmpint (unnamed->side[side].freight_refund, ==, here->freight_refund);
      g_assert_cmpint (freight->side[side].paid, ==, here->paid);
      g_assert_cmpint (freight->side[side].freight_paid, ==, here->paid);
      g_assert_cmpint (here->freight_paid, <=, here->paid);
    }
}

/* --- run -------------------------------------------------------------------------------------- */

static void
test_properties (void)
{
  guint32 seed = (guint32) g_test_rand_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (WbTerms) terms = NULL;
  g_autofree char *text = NULL;
  guint n_claims = count_claims ();
  guint n_owing[WB_N_SIDES] = { 0, 0 };
  guint n_limited = 0, n_barred = 0;

  g_test_message ("%u random claims from seed %u", n_claims, seed);
  for (guint i = 0; i < n_claims; i++)
    {
      g_autoptr (WbJob) job = wb_random_job (rand, "USD", (guint) g_rand_int_range (rand, 0, 12));
      g_autoptr (WbReckoning) reckoning = NULL;
      g_autoptr (GError) error = NULL;

      if (i % CLAIMS_A_TERMS == 0)
        {
          g_clear_pointer (&terms, wb_terms_unref);
          g_free (text);
          text = wb_random_terms_text (rand, "USD");
          terms = wb_random_terms_read (text);
        }
      if (i % 100 == 0)
        {
          wb_job_check (job, &error);
          g_assert_no_error (error);
        }
      reckoning = reckon (terms, job);
      for (int side = 0; side < WB_N_SIDES; side++)
        {
          check_sums (reckoning, (WbSide) side);
          check_article_limits (reckoning, (WbSide) side);
          check_unpaid_lines (reckoning, (WbSide) side);
          n_owing[side] += reckoning->side[side].owed > 0;
          n_limited += reckoning->side[side].covered < reckoning->side[side].allowed;
        }
      n_barred += reckoning->late == WB_TOO_LATE;
      check_declared_value (terms, job, rand);
      check_deductible (terms, job, rand);
      check_direction (terms, job, leave_line, drop_least, TRUE, FALSE);
      if (i % 2 == 0)
        check_lines_changed (terms, job);
      if (i % 2 == 1)
        check_payments (terms, job, reckoning);
      if (i % 4 == 0)
        check_order_of_lines (terms, job, reckoning, rand);
      if (i % 4 == 1)
        check_same_bytes (terms, job, reckoning);
    }
  g_test_message ("owing under released %u, under full %u; cut by the shipment's limit %u; "
                  "too late %u", n_owing[0], n_owing[1], n_limited, n_barred);
  /* A generator that never reaches the rules would prove nothing. */
  g_assert_cmpuint (n_owing[WB_SIDE_RELEASED], >, n_claims / 4);
  g_assert_cmpuint (n_owing[WB_SIDE_FULL], >, n_claims / 4);
  g_assert_cmpuint (n_limited, >, n_claims / 100);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/reckon/properties", test_properties);
  return g_test_run ();
}
