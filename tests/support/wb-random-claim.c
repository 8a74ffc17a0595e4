/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/wb-random-claim.h"

#include <string.h>

static gboolean
one_in (GRand *rand,
        gint   n)
{
  return g_rand_int_range (rand, 0, n) == 0;
}

/* An amount in minor units, from cents to many thousands, small ones as likely as large ones. */
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

/* --- terms ------------------------------------------------------------------------------------ */

/* A terms file that is being written. */
typedef struct
{
  GRand      *rand;
  GString    *text;
  const char *currency;
} Paper;

static void
put_money (Paper      *paper,
           const char *key,
           gint64      minor,
           const char *rest)
{
  g_autofree char *number = wb_minor_to_text (minor, paper->currency);

  g_string_append_printf (paper->text, "%s = %s%s\n", key, number, rest);
}

/* Writes @key with one of @words, or leaves it out one time in @out_of. */
static void
put_word (Paper             *paper,
          const char        *key,
          gint               out_of,
          const char *const *words)
{
  const char *word = pick (paper->rand, words);

  if (!one_in (paper->rand, out_of))
    g_string_append_printf (paper->text, "%s = %s\n", key, word);
}

#define PUT_WORD(paper, key, out_of, ...) \
  put_word (paper, key, out_of, (const char *const[]) { __VA_ARGS__, NULL })

static void
put_general (Paper *paper)
{
  g_string_append (paper->text, "[shipment]\n");
  PUT_WORD (paper, "rounding", 6, "half-up", "half-even", "down", "up");
  PUT_WORD (paper, "without-waiver", 3, "full", "full", "released");
  PUT_WORD (paper, "constructive-weight", 4, "7 lb", "7 lb", "3.33 kg", "0.01 lb");
  g_string_append (paper->text, "[articles]\n");
  PUT_WORD (paper, "carton", 4, "one-article", "each-thing");
  PUT_WORD (paper, "parts", 4, "one-article", "each-piece");
  PUT_WORD (paper, "sets", 3, "with-mates", "only-piece");
  g_string_append (paper->text, "[loss]\n");
  PUT_WORD (paper, "demand", 4, "caps", "ignored");
  PUT_WORD (paper, "salvage", 4, "deducted", "ignored");
  PUT_WORD (paper, "depreciation-maximum", 2, "75 %", "33.33 %", "0 %", "100 %");
  g_string_append (paper->text, "[freight]\n");
  PUT_WORD (paper, "freight-partial-loss", 8, "by-weight", "by-weight", "not-refunded", "all");
  PUT_WORD (paper, "freight-total-loss", 8, "all", "by-weight", "not-refunded");
  g_string_append (paper->text, "[claims]\n");
  if (one_in (paper->rand, 8))
    return;
  PUT_WORD (paper, "claim-within", G_MAXINT, "9 months", "120 days", "1 month", "1 year");
  g_string_append (paper->text, PICK (paper->rand, "", "late-claim = flagged\n",
                                      "late-claim = barred\n",
                                      "late-claim = actual-value\nlate-until = 2 years\n"));
}

static void
put_article_limits (Paper    *paper,
                    gboolean  likely)
{
  GRand *rand = paper->rand;
  gboolean has_rate = likely ? !one_in (rand, 8) : one_in (rand, 6);

  if (has_rate)
    put_money (paper, "article-rate", one_in (rand, 2) ? 60 : g_rand_int_range (rand, 1, 500),
               PICK (rand, " per lb", " per lb", " per kg", " per cwt"));
  if (one_in (rand, 5))
    put_money (paper, "line-limit", amount (rand), "");
  if (one_in (rand, 5) || (likely && !has_rate))
    put_money (paper, "article-limit", amount (rand), "");
  if (likely ? one_in (rand, 6) : !one_in (rand, 3))
    {
      put_money (paper, "extraordinary-rate", g_rand_int_range (rand, 100, 10000),
                 PICK (rand, " per lb", " per kg"));
      PUT_WORD (paper, "extraordinary-weight", 3, "article", "thing");
    }
}

static void
put_shipment_limits (Paper    *paper,
                     gboolean  likely)
{
  GRand *rand = paper->rand;
  gboolean has_rate = likely ? !one_in (rand, 4) : one_in (rand, 6);
  gboolean has_minimum = likely ? !one_in (rand, 4) : one_in (rand, 6);
  gboolean has_declared = likely ? !has_rate || !one_in (rand, 5) : one_in (rand, 6);
  gint64 minimum = amount (rand);

  if (has_rate && one_in (rand, 5))
    put_money (paper, "shipment-rate", g_rand_int_range (rand, 1, 700),
               PICK (rand, " per cuft", " per m3"));
  else if (has_rate)
    {
      put_money (paper, "shipment-rate", g_rand_int_range (rand, 1, 700),
                 PICK (rand, " per lb", " per lb", " per kg", " per cwt"));
      PUT_WORD (paper, "shipment-weight", 3, "net", "gross");
    }
  if (has_minimum)
    put_money (paper, "shipment-minimum", minimum, "");
  if (one_in (rand, 3))
    put_money (paper, "shipment-maximum", minimum + amount (rand), "");
  if (has_declared)
    g_string_append (paper->text, "declared-value = yes\n");
  if (has_declared && (has_rate || has_minimum))
    PUT_WORD (paper, "below-minimum", 3, "raised", "kept");
  if (likely ? !one_in (rand, 5) : one_in (rand, 5))
    {
      g_string_append (paper->text, "deductible = yes\n");
      PUT_WORD (paper, "deductible-order", 4, "after-limit", "before-limit");
    }
}

/* Both sides have the same keys, each side more often those that are usual there. */
static void
put_side (Paper    *paper,
          gboolean  full)
{
  g_string_append (paper->text, full ? "[full]\n" : "[released]\n");
  PUT_WORD (paper, "measure", 4, "actual-value", "replacement");
  put_article_limits (paper, !full);
  put_shipment_limits (paper, full);
}

char *
wb_random_terms_text (GRand      *rand,
                      const char *currency)
{
  Paper paper = { rand, g_string_new (NULL), currency };

  g_string_append_printf (paper.text, "regime = random\ntitle = Random\ncurrency = %s\n"
                          "[edition]\nfrom = 1990-01-01\n", currency);
  put_general (&paper);
  put_side (&paper, FALSE);
  put_side (&paper, TRUE);
  return g_string_free (paper.text, FALSE);
}

WbTerms *
wb_random_terms_read (const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) editions = wb_terms_parse (text, strlen (text), "random", &error);

  if (editions == NULL)
    g_error ("random terms do not parse: %s\n%s", error->message, text);
  return wb_terms_ref (g_ptr_array_index (editions, 0));
}

/* --- job -------------------------------------------------------------------------------------- */

/* A job that is being made. */
typedef struct
{
  GRand      *rand;
  const char *currency;
  GPtrArray  *records;
  guint       n_pieces;
  guint       n_other;    /* lines of the other claim */
  gboolean    one_piece;  /* all lines are about one, light, dear and on the list */
} Maker;

static gpointer
add (Maker      *maker,
     WbKind      kind,
     const char *id)
{
  gpointer record = wb_record_new (kind, id);

  g_ptr_array_add (maker->records, record);
  return record;
}

/* Not given one time in @out_of; now and then 0. */
static WbMoney
maybe_money (Maker *maker,
             gint   out_of)
{
  if (one_in (maker->rand, out_of))
    return WB_MONEY_UNSET;
  return wb_money (one_in (maker->rand, 25) ? 0 : amount (maker->rand), maker->currency);
}

static WbWeight
maybe_weight (Maker *maker,
              gint   out_of,
              gint   most)
{
  GRand *rand = maker->rand;

  if (one_in (rand, out_of))
    return WB_WEIGHT_UNSET;
  return wb_weight (one_in (rand, 25) ? 0 : g_rand_int_range (rand, 1, most),
                    one_in (rand, 5) ? WB_WEIGHT_UNIT_KG : WB_WEIGHT_UNIT_LB);
}

static WbVolume
maybe_volume (Maker *maker,
              gint   out_of,
              gint   most)
{
  GRand *rand = maker->rand;

  if (one_in (rand, out_of))
    return WB_VOLUME_UNSET;
  return wb_volume (one_in (rand, 25) ? 0 : g_rand_int_range (rand, 1, most),
                    one_in (rand, 4) ? WB_VOLUME_UNIT_M3 : WB_VOLUME_UNIT_CUFT);
}

static void
set_day (GDate       *date,
         const GDate *start,
         gint         days)
{
  *date = *start;
  if (days >= 0)
    g_date_add_days (date, (guint) days);
  else
    g_date_subtract_days (date, (guint) -days);
}

/* The day on which the shipment arrived: often the last of a month, and in leap years its 29th. */
static GDate
random_start (GRand *rand)
{
  GDate date;
  GDateYear year = (GDateYear) g_rand_int_range (rand, 1995, 2031);
  GDateMonth month = (GDateMonth) g_rand_int_range (rand, 1, 13);

  g_date_clear (&date, 1);
  g_date_set_dmy (&date, (GDateDay) g_rand_int_range (rand, 1, 29), month, year);
  if (one_in (rand, 3))
    g_date_set_day (&date, g_date_get_days_in_month (month, year));
  return date;
}

/* About the end of a period that terms may have, or any day after @start. */
static void
set_received (WbClaim     *claim,
              GRand       *rand,
              const GDate *start)
{
  static const guint months[] = { 1, 9, 12, 24 };
  gint about = g_rand_int_range (rand, 0, 8);

  if (about == 7)
    return;
  claim->received_on = *start;
  if (about < (gint) G_N_ELEMENTS (months))
    g_date_add_months (&claim->received_on, months[about]);
  else
    g_date_add_days (&claim->received_on, about == 4 ? 120 : (guint) g_rand_int_range (rand, 0, 900));
  set_day (&claim->received_on, &claim->received_on, g_rand_int_range (rand, -2, 4));
}

static void
add_order (Maker       *maker,
           const GDate *start)
{
  GRand *rand = maker->rand;
  WbOrder *order = add (maker, WB_KIND_ORDER, "order");

  wb_set_text (&order->number, "J-1");
  order->move_type = WB_MOVE_INTERSTATE;
  if (!one_in (rand, 15))
    set_day (&order->picked_up_on, start, g_rand_int_range (rand, -20, 0));
  if (!one_in (rand, 6))
    order->delivered_on = *start;
  if (one_in (rand, 3))
    set_day (&order->delivery_from, start, g_rand_int_range (rand, -3, 3));
  if (one_in (rand, 3))
    set_day (&order->delivery_to, start, g_rand_int_range (rand, 0, 5));
  order->freight_charge = maybe_money (maker, 10);
  order->other_charge = maybe_money (maker, 2);
  order->volume = maybe_volume (maker, 3, 200000);
  order->estimated_weight = maybe_weight (maker, 3, 2000000);
}

static void
add_valuation (Maker       *maker,
               const GDate *start)
{
  GRand *rand = maker->rand;
  WbValuation *valuation = add (maker, WB_KIND_VALUATION, "valuation");

  valuation->choice = (WbChoice) g_rand_int_range (rand, 0, 3);
  valuation->declared_value = maybe_money (maker, 3);
  valuation->deductible = maybe_money (maker, 3);
  valuation->high_value_list = maker->one_piece || one_in (rand, 2);
  if (!one_in (rand, 5))
    wb_set_text (&valuation->signed_by, "A. Shipper");
  valuation->signed_how = (WbSigned) (one_in (rand, 5) ? 0 : g_rand_int_range (rand, 1, 3));
  if (!one_in (rand, 5))
    set_day (&valuation->signed_on, start, g_rand_int_range (rand, -30, -5));
  if (!one_in (rand, 5))
    wb_set_text (&valuation->disclosure, "leaflet");
}

static void
add_weighings (Maker *maker)
{
  GRand *rand = maker->rand;

  for (gint i = g_rand_int_range (rand, 0, 4); i > 0; i--)
    {
      g_autofree char *id = g_strdup_printf ("w%d", i);
      WbWeighing *weighing = add (maker, WB_KIND_WEIGHING, id);

      weighing->kind = (WbWeighingKind) g_rand_int_range (rand, 0, 4);
      weighing->tare = maybe_weight (maker, 4, 1000000);
      if (one_in (rand, 2))
        weighing->gross = maybe_weight (maker, 6, 4000000);
      else
        weighing->net = maybe_weight (maker, 6, 2000000);
    }
}

static void
add_finding (Maker      *maker,
             const char *piece,
             const char *handover)
{
  g_autofree char *id = g_strconcat (piece, ".", handover, NULL);
  WbFinding *finding = add (maker, WB_KIND_FINDING, id);

  wb_set_text (&finding->handover, handover);
  wb_set_text (&finding->piece, piece);
  finding->found = (WbFound) g_rand_int_range (maker->rand, 0, 3);
}

static void
add_pieces (Maker *maker)
{
  GRand *rand = maker->rand;

  add (maker, WB_KIND_HANDOVER, "store");
  add (maker, WB_KIND_HANDOVER, "door");
  for (guint i = 0; i < maker->n_pieces; i++)
    {
      g_autofree char *id = g_strdup_printf ("p%u", i);
      WbPiece *piece = add (maker, WB_KIND_PIECE, id);

      piece->tag = i + 1;
      piece->form = (WbForm) g_rand_int_range (rand, 0, 3);
      piece->weight = maybe_weight (maker, 6, maker->one_piece ? 500 : 30000);
      piece->volume = maybe_volume (maker, 2, 2000);
      /* Articles may be called like pieces. */
      if (one_in (rand, 5))
        wb_set_text (&piece->article, PICK (rand, "bed", "desk", "p0", "p1"));
      if (maker->one_piece || one_in (rand, 5))
        piece->listed_value = maybe_money (maker, 20);
      if (one_in (rand, 5))
        add_finding (maker, id, "door");
      if (one_in (rand, 8))
        add_finding (maker, id, "store");
    }
}

static void
set_losses (Maker       *maker,
            WbClaimLine *line)
{
  GRand *rand = maker->rand;

  line->loss = (WbLoss) (one_in (rand, 30) ? WB_LOSS_NONE : g_rand_int_range (rand, 1, 4));
  line->demanded = maybe_money (maker, 3);
  line->replacement = maybe_money (maker, 8);
  if (maker->one_piece && one_in (rand, 2))
    line->replacement = wb_money (g_rand_int_range (rand, 100000, 2000000), maker->currency);
  line->repair = maybe_money (maker, 2);
  if (one_in (rand, 5))
    line->appearance = maybe_money (maker, 10);
  if (one_in (rand, 4))
    line->salvage = maybe_money (maker, 10);
  line->weight = maybe_weight (maker, 2, 30000);
  if (one_in (rand, 2))
    line->age_years = g_rand_int_range (rand, 0, 30);
  if (one_in (rand, 2))
    line->depreciation_yearly = g_rand_int_range (rand, 0, 2500);
  if (one_in (rand, 6))
    line->depreciation_flat = g_rand_int_range (rand, 0, 10001);
  if (one_in (rand, 4))
    line->depreciation_least = g_rand_int_range (rand, 0, 10001);
  line->salvage_taken = one_in (rand, 6);
  line->set_mate = one_in (rand, 8);
  line->ruling = (WbRuling) (one_in (rand, 8) ? WB_RULING_DENIED : g_rand_int_range (rand, 0, 2));
  if (one_in (rand, 3))
    line->defence = (WbDefence) g_rand_int_range (rand, 0, WB_DEFENCE_HAZARDOUS + 1);
}

static void
add_line (Maker      *maker,
          const char *claim,
          guint       number)
{
  g_autofree char *id = g_strdup_printf ("%s-%u", claim, number);
  WbClaimLine *line = add (maker, WB_KIND_CLAIM_LINE, id);

  wb_set_text (&line->claim, claim);
  line->number = number;
  if (!one_in (maker->rand, 3))
    wb_set_text (&line->item, PICK (maker->rand, "cup", "Cup", "plates, 4 of 12"));
  if (!one_in (maker->rand, 10))
    {
      g_autofree char *piece = NULL;

      piece = g_strdup_printf ("p%d", maker->one_piece ? 0
                                      : g_rand_int_range (maker->rand, 0, (gint32) maker->n_pieces));
      wb_set_text (&line->piece, piece);
    }
  set_losses (maker, line);
}

static void
add_claims (Maker       *maker,
            const GDate *start)
{
  GRand *rand = maker->rand;
  WbClaim *claim = add (maker, WB_KIND_CLAIM, "claim");
  WbClaim *other = add (maker, WB_KIND_CLAIM, "other");

  wb_set_text (&claim->number, "C-1");
  wb_set_text (&other->number, "C-2");
  set_received (claim, rand, start);
  for (gint i = one_in (rand, 2) ? 0 : g_rand_int_range (rand, 0, 4); i > 0; i--)
    {
      g_autofree char *id = g_strdup_printf ("paid%d", i);
      WbPayment *payment = add (maker, WB_KIND_PAYMENT, id);

      wb_set_text (&payment->claim, one_in (rand, 3) ? "claim" : "other");
      payment->amount = maybe_money (maker, 20);
      /* What is small leaves something of a limit. */
      if (maker->one_piece && one_in (rand, 2))
        payment->amount = wb_money (g_rand_int_range (rand, 0, 2000), maker->currency);
      payment->deductible_taken = maybe_money (maker, 2);
      if (one_in (rand, 3))
        payment->freight_refund = maybe_money (maker, 4);
      if (maker->n_other > 0 && !one_in (rand, 3))
        {
          g_autofree char *line = NULL;

          line = g_strdup_printf ("other-%d",
                                  g_rand_int_range (rand, 1, (gint32) maker->n_other + 1));
          wb_set_text (&payment->claim_line, line);
        }
    }
}

WbJob *
wb_random_job (GRand      *rand,
               const char *currency,
               guint       n_lines)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (WbJob) empty = wb_job_new ("job", currency);
  guint n_other = one_in (rand, 2) ? (guint) g_rand_int_range (rand, 1, 4) : 0;
  Maker maker = { rand, currency, records, n_lines * 2 / 3 + 1, n_other, one_in (rand, 6) };
  GDate start = random_start (rand);

  add_order (&maker, &start);
  add_valuation (&maker, &start);
  add_weighings (&maker);
  add_pieces (&maker);
  add_claims (&maker, &start);
  for (guint i = 0; i < n_lines; i++)
    add_line (&maker, "claim", i + 1);
  for (guint i = n_other; i > 0; i--)
    add_line (&maker, "other", i);
  return wb_job_with_many (empty, records);
}
