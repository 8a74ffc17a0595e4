/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-core.h"
#include "core/wb-reckoning.h"
#include "core/wb-valuation-preview.h"

/* --- terms and jobs to try -------------------------------------------------------------------- */

#define HEAD \
  "regime = trial\n" \
  "title = Trial\n" \
  "currency = USD\n" \
  "move-type = interstate\n" \
  "[edition]\n" \
  "from = 2012-05-15\n"

#define GENERAL \
  "[shipment]\n" \
  "rounding = half-up\n" \
  "without-waiver = full ; statute (b)\n" \
  "constructive-weight = 7 lb\n" \
  "[articles]\n" \
  "carton = one-article\n" \
  "parts = one-article\n" \
  "[claims]\n" \
  "claim-within = 9 months\n"

#define RELEASED \
  "[released]\n" \
  "offered = yes\n" \
  "measure = actual-value\n" \
  "article-rate = 0.60 per lb ; statute (c)\n"

#define FULL \
  "[full]\n" \
  "offered = yes\n" \
  "measure = replacement\n" \
  "shipment-rate = 6.00 per lb\n" \
  "shipment-minimum = 6000.00\n" \
  "declared-value = yes\n" \
  "below-minimum = raised\n" \
  "deductible = yes\n" \
  "extraordinary-rate = 100.00 per lb\n"

static WbTerms *
read_terms (const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) editions = wb_terms_parse (text, strlen (text), "trial.terms", &error);

  g_assert_no_error (error);
  g_assert_cmpuint (editions->len, ==, 1);
  return wb_terms_ref (g_ptr_array_index (editions, 0));
}

static void
set_text (gpointer    record,
          const char *name,
          const char *text)
{
  const WbRecordType *type = ((WbRecord *) record)->type;
  g_autoptr (GError) error = NULL;

  wb_record_set_text (record, wb_record_type_field (type, name), text, "USD", &error);
  g_assert_no_error (error);
}

/* Adds a record to *@job with fields given as name, text, …, NULL. */
static void G_GNUC_NULL_TERMINATED
add (WbJob     **job,
     WbKind      kind,
     const char *id,
     ...)
{
  g_autoptr (WbJob) before = *job;
  g_autoptr (WbRecord) record = NULL;
  const WbRecordType *type = wb_record_type (kind);
  const char *name;
  va_list fields;

  if (kind == WB_KIND_VALUATION)
    record = wb_record_copy (wb_job_valuation (before));
  else if (kind == WB_KIND_ORDER)
    record = wb_record_copy (wb_job_order (before));
  else
    record = wb_record_new (type->kind, id);

  va_start (fields, id);
  while ((name = va_arg (fields, const char *)) != NULL)
    set_text (record, name, va_arg (fields, const char *));
  va_end (fields);

  *job = wb_job_with (before, record);
}

static WbJob *
new_job (const char *net)
{
  WbJob *job = wb_job_new ("j1", "USD");

  if (net != NULL)
    add (&job, WB_KIND_WEIGHING, "w1", "kind", "weighing", "on", "2026-03-02", "net", net, NULL);
  return job;
}

static WbValuationPreview *
preview (WbTerms *terms,
         WbJob   *job)
{
  g_autoptr (GError) error = NULL;
  WbValuationPreview *result = wb_valuation_preview (terms, job, &error);

  g_assert_no_error (error);
  return result;
}

static void
assert_money (WbMoney     money,
              const char *expected)
{
  g_autofree char *text = wb_money_to_text (money);

  g_assert_cmpstr (text, ==, expected);
}

/* --- articles --------------------------------------------------------------------------------- */

static void
test_heaviest (void)
{
  g_autoptr (WbTerms) terms = read_terms (HEAD GENERAL RELEASED FULL);
  g_autoptr (WbJob) job = new_job ("7000 lb");
  g_autoptr (WbValuationPreview) result = NULL;
  const WbSidePreview *side;

  add (&job, WB_KIND_PIECE, "p1", "tag", "1", "weight", "40 lb", NULL);
  add (&job, WB_KIND_PIECE, "p2", "tag", "2", "weight", "62 lb", NULL);
  add (&job, WB_KIND_PIECE, "p3", "tag", "3", "weight", "62 lb", NULL);
  add (&job, WB_KIND_PIECE, "p4", "tag", "4", NULL);

  result = preview (terms, job);
  side = &result->side[WB_SIDE_RELEASED];
  g_assert_true (side->offered);
  g_assert_true (side->article_limits);
  g_assert_cmpstr (side->heaviest.piece->record.id, ==, "p2");
  g_assert_cmpuint (side->heaviest.n_pieces, ==, 1);
  assert_money (side->heaviest.limit, "37.20 USD");
  g_assert_cmpuint (side->n_articles, ==, 4);
  g_assert_cmpuint (side->n_without_weight, ==, 1);
  /* 24.00 + 37.20 + 37.20 */
  assert_money (side->article_sum, "98.40 USD");
  g_assert_cmpuint (side->gaps, ==, WB_VALUATION_GAP_ARTICLE_WEIGHT);
  g_assert_false (side->has_limit);

  /* Full value has no limit for an article, and wants no weight of it. */
  side = &result->side[WB_SIDE_FULL];
  g_assert_false (side->article_limits);
  g_assert_cmpuint (side->gaps, ==, WB_VALUATION_GAP_NONE);
  g_assert_false (wb_money_is_set (side->article_sum));
}

static void
test_parts_are_one_article (void)
{
  g_autoptr (WbTerms) terms = read_terms (HEAD GENERAL RELEASED FULL);
  g_autoptr (WbJob) job = new_job (NULL);
  g_autoptr (WbValuationPreview) result = NULL;
  const WbSidePreview *side;

  add (&job, WB_KIND_PIECE, "p1", "form", "loose", "article", "bed", "weight", "50 lb", NULL);
  add (&job, WB_KIND_PIECE, "p2", "form", "loose", "weight", "60 lb", NULL);
  add (&job, WB_KIND_PIECE, "p3", "form", "loose", "article", "bed", "weight", "30 lb", NULL);

  result = preview (terms, job);
  side = &result->side[WB_SIDE_RELEASED];
  g_assert_cmpuint (side->n_articles, ==, 2);
  g_assert_cmpstr (side->heaviest.piece->record.id, ==, "p1");
  g_assert_cmpuint (side->heaviest.n_pieces, ==, 2);
  assert_money (side->heaviest.limit, "48.00 USD");
  assert_money (side->article_sum, "84.00 USD");
}

static void
test_weight_from_volume (void)
{
  g_autoptr (WbTerms) terms = read_terms (HEAD GENERAL RELEASED FULL);
  g_autoptr (WbJob) job = new_job (NULL);
  g_autoptr (WbValuationPreview) result = NULL;
  const WbArticlePreview *heaviest;

  add (&job, WB_KIND_PIECE, "p1", "volume", "10 cuft", NULL);

  result = preview (terms, job);
  heaviest = &result->side[WB_SIDE_RELEASED].heaviest;
  g_assert_true (heaviest->constructive);
  g_assert_true (wb_weight_equal (heaviest->weight, wb_weight (7000, WB_WEIGHT_UNIT_LB)));
  assert_money (heaviest->limit, "42.00 USD");
}

static void
test_nothing_on_the_inventory (void)
{
  g_autoptr (WbTerms) terms = read_terms (HEAD GENERAL RELEASED FULL);
  g_autoptr (WbJob) job = new_job ("1000 lb");
  g_autoptr (WbValuationPreview) result = preview (terms, job);
  const WbSidePreview *side = &result->side[WB_SIDE_RELEASED];

  g_assert_cmpuint (side->gaps, ==, WB_VALUATION_GAP_NO_ARTICLES);
  g_assert_null (side->heaviest.piece);
  g_assert_false (wb_money_is_set (side->article_sum));
}

/* A flat limit for an article says nothing of a carton whose things each count; a rate still caps
 * them together. */
static void
test_carton_by_thing (void)
{
  g_autoptr (WbTerms) terms = read_terms (HEAD
                                          "[shipment]\nrounding = half-up\nwithout-waiver = full\n"
                                          "[articles]\ncarton = each-thing\nparts = each-piece\n"
                                          RELEASED
                                          "article-limit = 20.00\n"
                                          FULL);
  g_autoptr (WbJob) job = new_job ("1000 lb");
  g_autoptr (WbValuationPreview) result = NULL;
  const WbSidePreview *side;

  add (&job, WB_KIND_PIECE, "p1", "form", "carton", "weight", "50 lb", NULL);
  add (&job, WB_KIND_PIECE, "p2", "form", "loose", "weight", "40 lb", NULL);

  result = preview (terms, job);
  side = &result->side[WB_SIDE_RELEASED];
  g_assert_true (side->heaviest.by_thing);
  assert_money (side->heaviest.limit, "30.00 USD");
  assert_money (side->article_sum, "50.00 USD");
}

/* --- the shipment ----------------------------------------------------------------------------- */

typedef struct
{
  const char     *net;
  const char     *declared;
  const char     *minimum;
  const char     *limit;
  gboolean        floor_counts;
  WbDeclaredState state;
} LimitCase;

/* The first two are published: 10,000 lb and 800 lb at 6.00 a pound and not under 6,000. */
static const LimitCase limit_cases[] = {
  { "10000 lb", NULL, "60000.00 USD", "60000.00 USD", FALSE, WB_DECLARED_NOT_GIVEN },
  { "800 lb", NULL, "6000.00 USD", "6000.00 USD", TRUE, WB_DECLARED_NOT_GIVEN },
  { "1000 lb", NULL, "6000.00 USD", "6000.00 USD", FALSE, WB_DECLARED_NOT_GIVEN },
  { "10000 lb", "75000", "60000.00 USD", "75000.00 USD", FALSE, WB_DECLARED_COUNTS },
  { "10000 lb", "60000", "60000.00 USD", "60000.00 USD", FALSE, WB_DECLARED_COUNTS },
  { "10000 lb", "59999.99", "60000.00 USD", "60000.00 USD", FALSE, WB_DECLARED_RAISED },
};

static void
test_limit (gconstpointer data)
{
  const LimitCase *trial = data;
  g_autoptr (WbTerms) terms = read_terms (HEAD GENERAL RELEASED FULL);
  g_autoptr (WbJob) job = new_job (trial->net);
  g_autoptr (WbValuationPreview) result = NULL;
  const WbSidePreview *side;

  add (&job, WB_KIND_VALUATION, NULL, "declared_value", trial->declared, NULL);

  result = preview (terms, job);
  side = &result->side[WB_SIDE_FULL];
  g_assert_true (side->has_limit);
  g_assert_cmpint (side->weight_source, ==, WB_WEIGHT_SOURCE_WEIGHING);
  assert_money (side->minimum, trial->minimum);
  assert_money (side->limit, trial->limit);
  g_assert_cmpint (side->floor_counts, ==, trial->floor_counts);
  g_assert_cmpint (side->declared, ==, trial->state);
  g_assert_cmpint (result->side[WB_SIDE_RELEASED].declared, ==, WB_DECLARED_IGNORED);
}

static void
test_declared_kept_below (void)
{
  g_autoptr (WbTerms) terms = read_terms (HEAD GENERAL RELEASED
                                          "[full]\noffered = yes\nmeasure = replacement\n"
                                          "shipment-rate = 6.00 per lb\n"
                                          "declared-value = yes\nbelow-minimum = kept\n");
  g_autoptr (WbJob) job = new_job ("10000 lb");
  g_autoptr (WbValuationPreview) result = NULL;

  add (&job, WB_KIND_VALUATION, NULL, "declared_value", "500", NULL);

  result = preview (terms, job);
  g_assert_cmpint (result->side[WB_SIDE_FULL].declared, ==, WB_DECLARED_KEPT);
  assert_money (result->side[WB_SIDE_FULL].limit, "500.00 USD");
}

static void
test_maximum (void)
{
  g_autoptr (WbTerms) terms = read_terms (HEAD GENERAL RELEASED FULL
                                          "shipment-maximum = 75000.00\n");
  g_autoptr (WbJob) job = new_job ("15000 lb");
  g_autoptr (WbJob) light = new_job ("12500 lb");
  g_autoptr (WbValuationPreview) result = preview (terms, job);
  g_autoptr (WbValuationPreview) other = preview (terms, light);

  assert_money (result->side[WB_SIDE_FULL].minimum, "90000.00 USD");
  assert_money (result->side[WB_SIDE_FULL].limit, "75000.00 USD");
  g_assert_true (result->side[WB_SIDE_FULL].cut_to_maximum);
  assert_money (other->side[WB_SIDE_FULL].limit, "75000.00 USD");
  g_assert_false (other->side[WB_SIDE_FULL].cut_to_maximum);
}

static void
test_no_weight (void)
{
  g_autoptr (WbTerms) terms = read_terms (HEAD GENERAL RELEASED FULL);
  g_autoptr (WbJob) job = new_job (NULL);
  g_autoptr (WbValuationPreview) result = NULL;
  const WbSidePreview *side;

  /* The least value is not known, so it is not known either whether the declared value reaches
   * it. */
  add (&job, WB_KIND_VALUATION, NULL, "declared_value", "90000", NULL);

  result = preview (terms, job);
  side = &result->side[WB_SIDE_FULL];
  g_assert_cmpuint (side->gaps, ==, WB_VALUATION_GAP_SHIPMENT_WEIGHT);
  g_assert_true (side->has_limit);
  g_assert_false (wb_money_is_set (side->limit));
  g_assert_false (wb_money_is_set (side->minimum));
}

/* A declared value that counts however low it is needs no weight, nor does one over the maximum. */
static void
test_no_weight_needed (void)
{
  g_autoptr (WbTerms) kept = read_terms (HEAD GENERAL RELEASED
                                         "[full]\noffered = yes\nmeasure = replacement\n"
                                         "shipment-rate = 6.00 per lb\n"
                                         "declared-value = yes\nbelow-minimum = kept\n");
  g_autoptr (WbTerms) capped = read_terms (HEAD GENERAL RELEASED FULL
                                           "shipment-maximum = 75000.00\n");
  g_autoptr (WbJob) job = new_job (NULL);
  g_autoptr (WbValuationPreview) by_kept = NULL;
  g_autoptr (WbValuationPreview) by_capped = NULL;

  add (&job, WB_KIND_VALUATION, NULL, "declared_value", "90000", NULL);
  by_kept = preview (kept, job);
  g_assert_cmpuint (by_kept->side[WB_SIDE_FULL].gaps, ==, WB_VALUATION_GAP_NONE);
  assert_money (by_kept->side[WB_SIDE_FULL].limit, "90000.00 USD");

  by_capped = preview (capped, job);
  g_assert_cmpuint (by_capped->side[WB_SIDE_FULL].gaps, ==, WB_VALUATION_GAP_NONE);
  assert_money (by_capped->side[WB_SIDE_FULL].limit, "75000.00 USD");
}

/* Published: 40 cubic metres at 620.00 each. */
static void
test_by_volume (void)
{
  g_autoptr (WbTerms) terms = read_terms (HEAD GENERAL RELEASED
                                          "[full]\noffered = yes\nmeasure = actual-value\n"
                                          "shipment-rate = 620.00 per m3\n");
  g_autoptr (WbJob) job = new_job (NULL);
  g_autoptr (WbValuationPreview) unknown = preview (terms, job);
  g_autoptr (WbValuationPreview) result = NULL;

  g_assert_cmpuint (unknown->side[WB_SIDE_FULL].gaps, ==, WB_VALUATION_GAP_SHIPMENT_VOLUME);

  add (&job, WB_KIND_ORDER, NULL, "volume", "40 m3", NULL);
  result = preview (terms, job);
  assert_money (result->side[WB_SIDE_FULL].limit, "24800.00 USD");
}

/* --- charges ---------------------------------------------------------------------------------- */

#define CHARGES \
  "[full]\noffered = yes\nmeasure = replacement\nshipment-rate = 5.00 per lb\n" \
  "declared-value = yes\nbelow-minimum = raised\ndeductible = yes\n" \
  "charge = 1.40 per 100 at 0.00, 1.10 per 100 at 300.00\n"

/* Published: 8,000 lb at 5.00 is 40,000; 560 without a deductible, 440 with one of 300. */
static void
test_charges (void)
{
  g_autoptr (WbTerms) terms = read_terms (HEAD GENERAL RELEASED CHARGES);
  g_autoptr (WbJob) job = new_job ("8000 lb");
  g_autoptr (WbValuationPreview) first = preview (terms, job);
  g_autoptr (WbValuationPreview) second = NULL;
  g_autoptr (WbValuationPreview) third = NULL;
  const WbSidePreview *side = &first->side[WB_SIDE_FULL];

  g_assert_cmpuint (side->n_charges, ==, 2);
  assert_money (side->charges[0].deductible, "0.00 USD");
  assert_money (side->charges[0].charge, "560.00 USD");
  assert_money (side->charges[1].deductible, "300.00 USD");
  assert_money (side->charges[1].charge, "440.00 USD");
  /* Without a word about it there is no deductible. */
  g_assert_true (side->charges[0].chosen);
  assert_money (side->charge, "560.00 USD");
  g_assert_cmpuint (side->gaps, ==, WB_VALUATION_GAP_NONE);

  add (&job, WB_KIND_VALUATION, NULL, "deductible", "300", NULL);
  second = preview (terms, job);
  side = &second->side[WB_SIDE_FULL];
  g_assert_true (side->charges[1].chosen);
  assert_money (side->deductible, "300.00 USD");
  assert_money (side->charge, "440.00 USD");

  add (&job, WB_KIND_VALUATION, NULL, "deductible", "500", NULL);
  third = preview (terms, job);
  side = &third->side[WB_SIDE_FULL];
  g_assert_cmpuint (side->gaps, ==, WB_VALUATION_GAP_CHARGE);
  g_assert_false (wb_money_is_set (side->charge));
}

/* --- which side applies ----------------------------------------------------------------------- */

typedef struct
{
  const char *choice;
  const char *signed_by;
  WbSide      applies;
  gboolean    by_default;
  guint       gaps;
} ChoiceCase;

static const ChoiceCase choice_cases[] = {
  { NULL, NULL, WB_SIDE_FULL, TRUE, WB_WAIVER_NOT_CHOSEN },
  { "released", NULL, WB_SIDE_FULL, TRUE, WB_WAIVER_NO_SIGNER },
  { "released", "Ada Brook", WB_SIDE_RELEASED, FALSE, WB_WAIVER_COMPLETE },
  { "full", "Ada Brook", WB_SIDE_FULL, FALSE, WB_WAIVER_NOT_CHOSEN },
};

static void
test_applies (gconstpointer data)
{
  const ChoiceCase *trial = data;
  g_autoptr (WbTerms) terms = read_terms (HEAD GENERAL RELEASED FULL);
  g_autoptr (WbJob) job = new_job ("1000 lb");
  g_autoptr (WbValuationPreview) result = NULL;

  if (trial->choice != NULL)
    add (&job, WB_KIND_VALUATION, NULL,
         "choice", trial->choice, "signed_by", trial->signed_by, "signed_on", "2026-03-01",
         "signed_how", "paper",
         "disclosure", "Both choices, form of 2026", NULL);

  result = preview (terms, job);
  g_assert_cmpint (result->applies, ==, trial->applies);
  g_assert_cmpint (result->by_default, ==, trial->by_default);
  g_assert_cmpuint (result->waiver_gaps, ==, trial->gaps);
}

static void
test_listed (void)
{
  g_autoptr (WbTerms) terms = read_terms (HEAD GENERAL RELEASED FULL);
  g_autoptr (WbJob) job = new_job ("1000 lb");
  g_autoptr (WbValuationPreview) result = NULL;

  add (&job, WB_KIND_PIECE, "p1", "listed_value", "2500", NULL);
  add (&job, WB_KIND_PIECE, "p2", "listed_value", "900.50", NULL);
  add (&job, WB_KIND_PIECE, "p3", NULL);

  result = preview (terms, job);
  g_assert_cmpuint (result->side[WB_SIDE_FULL].n_listed, ==, 2);
  assert_money (result->side[WB_SIDE_FULL].listed, "3400.50 USD");
}

static void
test_other_currency (void)
{
  g_autoptr (WbTerms) terms = read_terms (HEAD GENERAL RELEASED FULL);
  g_autoptr (WbJob) job = wb_job_new ("j1", "EUR");
  g_autoptr (GError) error = NULL;

  g_assert_null (wb_valuation_preview (terms, job, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_CURRENCY);
}

/* --- agreement with the reckoning ------------------------------------------------------------- */

static const char *const full_variants[] = {
  FULL,
  FULL "shipment-maximum = 40000.00\n",
  "[full]\noffered = yes\nmeasure = replacement\nshipment-rate = 3.33 per lb\n"
  "declared-value = yes\nbelow-minimum = kept\ndeductible = yes\n",
  "[full]\noffered = yes\nmeasure = replacement\nshipment-minimum = 7000.00\n",
};

static WbJob *
random_job (void)
{
  static const char *const choices[] = { "none", "released", "full" };
  g_autofree char *net = g_strdup_printf ("%d.%02d lb", g_test_rand_int_range (1, 20000),
                                          g_test_rand_int_range (0, 100));
  g_autofree char *declared = g_strdup_printf ("%d.%02d", g_test_rand_int_range (0, 90000),
                                               g_test_rand_int_range (0, 100));
  WbJob *job = new_job (g_test_rand_int_range (0, 4) > 0 ? net : NULL);
  int n = g_test_rand_int_range (1, 6);

  add (&job, WB_KIND_VALUATION, NULL, "choice", choices[g_test_rand_int_range (0, 3)],
       "declared_value", g_test_rand_bit () ? declared : NULL,
       "signed_by", g_test_rand_bit () ? "Ada Brook" : NULL,
       "signed_on", "2026-03-01", "signed_how", "paper", "disclosure", "form", NULL);
  add (&job, WB_KIND_ORDER, NULL, "number", "J-1", NULL);
  add (&job, WB_KIND_CLAIM, "c1", "number", "C-1", NULL);
  for (int i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("p%d", i);
      g_autofree char *tag = g_strdup_printf ("%d", i + 1);
      g_autofree char *weight = g_strdup_printf ("%d.%02d lb", g_test_rand_int_range (1, 300),
                                                 g_test_rand_int_range (0, 100));

      add (&job, WB_KIND_PIECE, id, "tag", tag, "weight", weight, "form", "loose",
           "article", g_test_rand_int_range (0, 3) == 0 ? "bed" : NULL, NULL);
    }
  return job;
}

/* Everything on the inventory lost, each piece worth more than any limit. */
static WbJob *
lose_everything (const WbJob *job)
{
  WbJob *lost = wb_job_with (job, (gpointer) wb_job_valuation (job));
  guint n = wb_job_count (job, WB_KIND_PIECE);

  for (guint i = 0; i < n; i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);
      g_autofree char *number = g_strdup_printf ("%u", i + 1);

      add (&lost, WB_KIND_CLAIM_LINE, piece->record.id, "claim", "c1", "number", number,
           "piece", piece->record.id,
           "loss", "missing", "replacement", "1000000", NULL);
    }
  return lost;
}

/* When all is lost, released value pays the sum of the articles' limits, and the limit of the
 * shipment is the same. */
static void
test_agrees_with_reckoning (void)
{
  for (int i = 0; i < 200; i++)
    {
      int variant = g_test_rand_int_range (0, G_N_ELEMENTS (full_variants));
      g_autofree char *text = g_strconcat (HEAD GENERAL RELEASED, full_variants[variant], NULL);
      g_autoptr (WbTerms) terms = read_terms (text);
      g_autoptr (WbJob) job = random_job ();
      g_autoptr (WbJob) lost = lose_everything (job);
      g_autoptr (WbValuationPreview) result = preview (terms, job);
      g_autoptr (GError) error = NULL;
      g_autoptr (WbReckoning) reckoning = wb_reckon (terms, lost, "c1", &error);

      g_assert_no_error (error);
      g_assert_cmpint (result->applies, ==, reckoning->applies);
      g_assert_cmpuint (result->waiver_gaps, ==, reckoning->waiver_gaps);
      for (int side = 0; side < WB_N_SIDES; side++)
        {
          g_assert_cmpint (result->side[side].has_limit, ==, reckoning->side[side].has_limit);
          /* Without a weight the reckoning takes what it has, and says that it is incomplete. */
          if ((result->side[side].gaps & WB_VALUATION_GAP_SHIPMENT_WEIGHT) != 0)
            g_assert_false (reckoning->side[side].complete);
          else
            g_assert_cmpint (result->side[side].limit.minor, ==,
                             reckoning->side[side].shipment_limit);
        }
      g_assert_cmpint (result->side[WB_SIDE_RELEASED].article_sum.minor, ==,
                       reckoning->side[WB_SIDE_RELEASED].owed);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/core/valuation-preview/articles/heaviest", test_heaviest);
  g_test_add_func ("/core/valuation-preview/articles/parts", test_parts_are_one_article);
  g_test_add_func ("/core/valuation-preview/articles/volume", test_weight_from_volume);
  g_test_add_func ("/core/valuation-preview/articles/none", test_nothing_on_the_inventory);
  g_test_add_func ("/core/valuation-preview/articles/by-thing", test_carton_by_thing);
  for (guint i = 0; i < G_N_ELEMENTS (limit_cases); i++)
    {
      g_autofree char *path = g_strdup_printf ("/core/valuation-preview/limit/%u", i);

      g_test_add_data_func (path, &limit_cases[i], test_limit);
    }
  g_test_add_func ("/core/valuation-preview/limit/kept-below", test_declared_kept_below);
  g_test_add_func ("/core/valuation-preview/limit/maximum", test_maximum);
  g_test_add_func ("/core/valuation-preview/limit/no-weight", test_no_weight);
  g_test_add_func ("/core/valuation-preview/limit/no-weight-needed", test_no_weight_needed);
  g_test_add_func ("/core/valuation-preview/limit/by-volume", test_by_volume);
  g_test_add_func ("/core/valuation-preview/charges", test_charges);
  for (guint i = 0; i < G_N_ELEMENTS (choice_cases); i++)
    {
      g_autofree char *path = g_strdup_printf ("/core/valuation-preview/applies/%u", i);

      g_test_add_data_func (path, &choice_cases[i], test_applies);
    }
  g_test_add_func ("/core/valuation-preview/listed", test_listed);
  g_test_add_func ("/core/valuation-preview/other-currency", test_other_currency);
  g_test_add_func ("/core/valuation-preview/agrees", test_agrees_with_reckoning);

  return g_test_run ();
}
