/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/wb-random-claim.h"

#include <string.h>

static gboolean
one_in (GRand *rand,
        gint   n)
{
  return g_rand_int_range (rand, 0, n) == 0;
}

/* An amount of money as text, from cents to many thousands, small ones as likely as large ones. */
static gint64
amount (GRand *rand)
{
  static const gint tops[] = { 100, 1000, 10000, 100000, 1000000 };

  return g_rand_int_range (rand, 1, tops[g_rand_int_range (rand, 0, G_N_ELEMENTS (tops))]);
}

static const char *
pick (GRand             *rand,
      const char *const *words)
{
  return words[g_rand_int_range (rand, 0, (gint32) g_strv_length ((char **) words))];
}

#define PICK(rand, ...) pick (rand, (const char *const[]) { __VA_ARGS__, NULL })

static void
put_money (GString    *text,
           const char *key,
           gint64      minor,
           const char *rest)
{
  g_string_append_printf (text, "%s = %" G_GINT64_FORMAT ".%02" G_GINT64_FORMAT "%s\n", key,
                          minor / 100, minor % 100, rest);
}

static void
put_general (GRand   *rand,
             GString *text)
{
  g_string_append_printf (text, "[shipment]\nrounding = %s\nconstructive-weight = 7 lb\n",
                          PICK (rand, "half-up", "half-even", "down", "up"));
  g_string_append (text, "[articles]\n");
  if (!one_in (rand, 4))
    g_string_append_printf (text, "carton = %s\n", PICK (rand, "one-article", "each-thing"));
  if (!one_in (rand, 4))
    g_string_append_printf (text, "parts = %s\n", PICK (rand, "one-article", "each-piece"));
  g_string_append (text, "[loss]\n");
  if (!one_in (rand, 4))
    g_string_append_printf (text, "demand = %s\n", PICK (rand, "caps", "ignored"));
  if (one_in (rand, 3))
    g_string_append (text, "depreciation-maximum = 75 %\n");
  g_string_append_printf (text, "[freight]\nfreight-partial-loss = %s\nfreight-total-loss = %s\n",
                          PICK (rand, "by-weight", "not-refunded"),
                          PICK (rand, "all", "by-weight", "not-refunded"));
  g_string_append (text, "[claims]\nclaim-within = 9 months\n");
  g_string_append (text, PICK (rand, "late-claim = flagged\n", "late-claim = barred\n",
                               "late-claim = actual-value\nlate-until = 2 years\n"));
}

static void
put_released (GRand   *rand,
              GString *text)
{
  g_string_append_printf (text, "[released]\nmeasure = %s\n",
                          PICK (rand, "actual-value", "replacement"));
  put_money (text, "article-rate", one_in (rand, 2) ? 60 : g_rand_int_range (rand, 1, 500),
             " per lb");
  if (one_in (rand, 5))
    put_money (text, "line-limit", amount (rand), "");
  if (one_in (rand, 5))
    put_money (text, "article-limit", amount (rand), "");
}

static void
put_full (GRand   *rand,
          GString *text)
{
  gint64 minimum = amount (rand);

  g_string_append_printf (text, "[full]\nmeasure = %s\n",
                          PICK (rand, "actual-value", "replacement", "replacement"));
  put_money (text, "shipment-rate", g_rand_int_range (rand, 1, 700), " per lb");
  g_string_append_printf (text, "shipment-weight = %s\n", PICK (rand, "net", "gross"));
  put_money (text, "shipment-minimum", minimum, "");
  if (one_in (rand, 3))
    put_money (text, "shipment-maximum", minimum + amount (rand), "");
  g_string_append (text, "declared-value = yes\n");
  g_string_append_printf (text, "below-minimum = %s\n", PICK (rand, "raised", "kept"));
  g_string_append (text, "deductible = yes\n");
  if (!one_in (rand, 4))
    g_string_append_printf (text, "deductible-order = %s\n",
                            PICK (rand, "after-limit", "before-limit"));
  if (!one_in (rand, 3))
    {
      put_money (text, "extraordinary-rate", g_rand_int_range (rand, 100, 10000), " per lb");
      g_string_append_printf (text, "extraordinary-weight = %s\n", PICK (rand, "article", "thing"));
    }
  if (one_in (rand, 6))
    put_money (text, "line-limit", amount (rand), "");
}

WbTerms *
wb_random_terms (GRand *rand)
{
  g_autoptr (GString) text =
    g_string_new ("regime = random\ntitle = Random\ncurrency = USD\n"
                  "[edition]\nfrom = 2000-01-01\n");
  g_autoptr (GPtrArray) editions = NULL;
  g_autoptr (GError) error = NULL;

  put_general (rand, text);
  put_released (rand, text);
  put_full (rand, text);
  editions = wb_terms_parse (text->str, text->len, "random", &error);
  if (editions == NULL)
    g_error ("random terms do not parse: %s\n%s", error->message, text->str);
  return wb_terms_ref (g_ptr_array_index (editions, 0));
}

/* --- job -------------------------------------------------------------------------------------- */

static WbMoney
maybe_money (GRand *rand,
             gint   out_of)
{
  return one_in (rand, out_of) ? WB_MONEY_UNSET : wb_money (amount (rand), "USD");
}

static WbWeight
maybe_weight (GRand *rand,
              gint   out_of)
{
  if (one_in (rand, out_of))
    return WB_WEIGHT_UNSET;
  return wb_weight (g_rand_int_range (rand, 1, 30000),
                    one_in (rand, 8) ? WB_WEIGHT_UNIT_KG : WB_WEIGHT_UNIT_LB);
}

static void
set_day (GDate *date,
         GRand *rand,
         gint   from,
         gint   to)
{
  g_date_set_dmy (date, 1, G_DATE_JANUARY, 2024);
  g_date_add_days (date, (guint) g_rand_int_range (rand, from, to));
}

static void
add_order (GRand     *rand,
           GPtrArray *records)
{
  WbOrder *order = wb_record_new (WB_KIND_ORDER, "order");
  WbValuation *valuation = wb_record_new (WB_KIND_VALUATION, "valuation");
  WbWeighing *weighing = wb_record_new (WB_KIND_WEIGHING, "scale");

  wb_set_text (&order->number, "J-1");
  order->move_type = WB_MOVE_INTERSTATE;
  set_day (&order->picked_up_on, rand, 0, 5);
  if (!one_in (rand, 20))
    set_day (&order->delivered_on, rand, 6, 30);
  order->freight_charge = maybe_money (rand, 10);
  order->other_charge = maybe_money (rand, 2);
  order->volume = wb_volume (g_rand_int_range (rand, 1000, 200000), WB_VOLUME_UNIT_CUFT);
  g_ptr_array_add (records, order);

  valuation->choice = (WbChoice) g_rand_int_range (rand, 0, 3);
  valuation->declared_value = maybe_money (rand, 3);
  valuation->deductible = maybe_money (rand, 3);
  valuation->high_value_list = one_in (rand, 2);
  if (one_in (rand, 2))
    wb_set_text (&valuation->signed_by, "A. Shipper");
  valuation->signed_how = (WbSigned) g_rand_int_range (rand, 0, 3);
  set_day (&valuation->signed_on, rand, 0, 8);
  wb_set_text (&valuation->disclosure, "leaflet");
  g_ptr_array_add (records, valuation);

  weighing->kind = one_in (rand, 2) ? WB_WEIGHING_FIRST : WB_WEIGHING_REWEIGH;
  weighing->gross = wb_weight (g_rand_int_range (rand, 1000000, 4000000), WB_WEIGHT_UNIT_LB);
  weighing->tare = wb_weight (g_rand_int_range (rand, 100000, 999999), WB_WEIGHT_UNIT_LB);
  if (!one_in (rand, 10))
    g_ptr_array_add (records, weighing);
  else
    wb_record_unref (weighing);
}

static void
add_pieces (GRand     *rand,
            GPtrArray *records,
            guint      n)
{
  WbHandover *handover = wb_record_new (WB_KIND_HANDOVER, "door");

  handover->kind = WB_HANDOVER_DELIVERY;
  g_ptr_array_add (records, handover);
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("p%u", i);
      WbPiece *piece = wb_record_new (WB_KIND_PIECE, id);

      piece->tag = i + 1;
      piece->form = (WbForm) g_rand_int_range (rand, 0, 3);
      piece->weight = maybe_weight (rand, 12);
      if (one_in (rand, 4))
        piece->volume = wb_volume (g_rand_int_range (rand, 50, 2000), WB_VOLUME_UNIT_CUFT);
      if (one_in (rand, 6))
        wb_set_text (&piece->article, PICK (rand, "bed", "desk"));
      if (one_in (rand, 6))
        piece->listed_value = wb_money (amount (rand), "USD");
      g_ptr_array_add (records, piece);
      if (one_in (rand, 8))
        {
          WbFinding *finding = wb_record_new (WB_KIND_FINDING, id);

          wb_set_text (&finding->handover, "door");
          wb_set_text (&finding->piece, id);
          finding->found = (WbFound) g_rand_int_range (rand, 0, 3);
          g_ptr_array_add (records, finding);
        }
    }
}

static void
add_line (GRand     *rand,
          GPtrArray *records,
          guint      number,
          guint      n_pieces)
{
  g_autofree char *id = g_strdup_printf ("l%u", number);
  WbClaimLine *line = wb_record_new (WB_KIND_CLAIM_LINE, id);

  wb_set_text (&line->claim, "claim");
  line->number = number;
  if (!one_in (rand, 10))
    {
      g_autofree char *piece = g_strdup_printf ("p%d",
                                                g_rand_int_range (rand, 0, (gint32) n_pieces));

      wb_set_text (&line->piece, piece);
    }
  line->loss = (WbLoss) (one_in (rand, 30) ? WB_LOSS_NONE : g_rand_int_range (rand, 1, 4));
  line->demanded = maybe_money (rand, 3);
  line->replacement = maybe_money (rand, 8);
  line->repair = maybe_money (rand, 2);
  if (one_in (rand, 5))
    line->appearance = wb_money (amount (rand), "USD");
  if (one_in (rand, 5))
    line->salvage = wb_money (amount (rand), "USD");
  line->weight = maybe_weight (rand, 2);
  if (one_in (rand, 2))
    {
      line->age_years = g_rand_int_range (rand, 0, 30);
      line->depreciation_yearly = g_rand_int_range (rand, 0, 2500);
    }
  if (one_in (rand, 6))
    line->depreciation_flat = g_rand_int_range (rand, 0, 10001);
  line->ruling = (WbRuling) (one_in (rand, 8) ? WB_RULING_DENIED : WB_RULING_OPEN);
  g_ptr_array_add (records, line);
}

static void
add_claims (GRand     *rand,
            GPtrArray *records)
{
  WbClaim *claim = wb_record_new (WB_KIND_CLAIM, "claim");
  WbClaim *other = wb_record_new (WB_KIND_CLAIM, "other");

  wb_set_text (&claim->number, "C-1");
  wb_set_text (&other->number, "C-2");
  set_day (&claim->received_on, rand, 20, one_in (rand, 4) ? 1200 : 200);
  g_ptr_array_add (records, claim);
  g_ptr_array_add (records, other);
  if (one_in (rand, 3))
    {
      WbPayment *payment = wb_record_new (WB_KIND_PAYMENT, "pay");

      wb_set_text (&payment->claim, one_in (rand, 4) ? "claim" : "other");
      payment->amount = wb_money (amount (rand), "USD");
      if (one_in (rand, 2))
        payment->deductible_taken = wb_money (amount (rand), "USD");
      g_ptr_array_add (records, payment);
    }
}

WbJob *
wb_random_job (GRand *rand,
               guint  n_lines)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (WbJob) empty = wb_job_new ("job", "USD");
  guint n_pieces = n_lines * 2 / 3 + 1;

  add_order (rand, records);
  add_pieces (rand, records, n_pieces);
  add_claims (rand, records);
  for (guint i = 0; i < n_lines; i++)
    add_line (rand, records, i + 1, n_pieces);
  return wb_job_with_many (empty, records);
}
