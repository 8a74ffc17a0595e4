/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Works out the published examples with the program's own terms and rules, one test an example.
 * A difference is told with the source of the expected figure. */
#include "config.h"

#include <stdlib.h>
#include <string.h>

#include "core/wb-constructive.h"
#include "core/wb-core.h"
#include "core/wb-valuation-preview.h"
#include "examples.h"

static WbTermsSet *regimes;

static const char *
mark_words (Mark mark)
{
  switch (mark)
    {
    case MARK_SEEN:
      return "seen";
    case MARK_SEEN_COPY:
      return "seen in a copy";
    case MARK_SECONDARY:
      return "secondary source";
    case MARK_DERIVED:
      return "derived from a rule that was read";
    case MARK_MEMORY:
      return "from memory";
    case MARK_PRACTICE:
      return "common practice, no source";
    }
  g_assert_not_reached ();
}

/* --- comparing -------------------------------------------------------------------------------- */

static void
fail (const Origin *origin,
      const char   *what,
      const char   *found,
      const char   *expected)
{
  g_test_fail_printf ("example %s (%s): %s is %s, expected %s; source: %s [%s]", origin->number,
                      origin->title, what, found, expected, origin->source,
                      mark_words (origin->mark));
}

static void
compare (const Origin *origin,
         const char   *what,
         const char   *found,
         const char   *expected)
{
  if (!g_str_equal (found, expected))
    fail (origin, what, found, expected);
}

/* @expected: (nullable): nothing is expected then */
static void
compare_minor (const Origin *origin,
               const char   *what,
               gint64        minor,
               const char   *currency,
               const char   *expected)
{
  g_autofree char *found = wb_minor_to_text (minor, currency);

  if (expected != NULL)
    compare (origin, what, found, expected);
}

/* Whether the program refused what the example asks of it. */
static gboolean
refused (const Origin *origin,
         const GError *error)
{
  if (error != NULL)
    fail (origin, "the answer", error->message, "a figure");
  return error != NULL;
}

/* --- reading figures -------------------------------------------------------------------------- */

static WbMoney
money (const char *text,
       const char *currency)
{
  g_autoptr (GError) error = NULL;
  WbMoney out = WB_MONEY_UNSET;

  if (text != NULL && !wb_money_parse (text, currency, &out, &error))
    g_error ("%s", error->message);
  return out;
}

static WbWeight
weight (const char *text)
{
  g_autoptr (GError) error = NULL;
  WbWeight out = WB_WEIGHT_UNSET;

  if (text != NULL && !wb_weight_parse (text, WB_WEIGHT_UNIT_NONE, &out, &error))
    g_error ("%s", error->message);
  return out;
}

static GDate
date (const char *text)
{
  g_autoptr (GError) error = NULL;
  GDate out;

  g_date_clear (&out, 1);
  if (text != NULL && !wb_date_parse (text, &out, &error))
    g_error ("%s", error->message);
  return out;
}

/* --- jobs ------------------------------------------------------------------------------------- */

static WbTerms *
find_terms (const char *regime,
            const char *picked_up)
{
  g_autoptr (WbOrder) order = wb_record_new (WB_KIND_ORDER, "order");
  g_autoptr (GError) error = NULL;
  WbTerms *terms;

  wb_set_text (&order->terms, regime);
  order->picked_up_on = date (picked_up);
  terms = wb_terms_set_find (regimes, order, &error);
  g_assert_no_error (error);
  return terms;
}

static void
set (gpointer    record,
     const char *field,
     const char *text,
     const char *currency)
{
  const WbRecordType *type = ((const WbRecord *) record)->type;
  g_autoptr (GError) error = NULL;

  if (text != NULL)
    wb_record_set_text (record, wb_record_type_field (type, field), text, currency, &error);
  g_assert_no_error (error);
}

static gpointer
add (GPtrArray  *records,
     WbKind      kind,
     const char *id)
{
  gpointer record = wb_record_new (kind, id);

  g_ptr_array_add (records, record);
  return record;
}

static void
add_order (GPtrArray          *records,
           const ClaimExample *row,
           const char         *currency)
{
  WbOrder *order = add (records, WB_KIND_ORDER, "order");

  set (order, "number", row->origin.number, currency);
  set (order, "terms", row->terms, currency);
  set (order, "volume", row->volume, currency);
  set (order, "freight_charge", row->freight != NULL ? row->freight : "0", currency);
  set (order, "other_charge", row->other, currency);
  order->picked_up_on = date (row->picked_up);
  order->delivered_on = date (row->delivered);
}

static void
add_valuation (GPtrArray          *records,
               const ClaimExample *row,
               const char         *currency)
{
  WbValuation *valuation = add (records, WB_KIND_VALUATION, "valuation");

  valuation->choice = row->choice;
  valuation->high_value_list = row->list_signed;
  valuation->declared_value = money (row->declared, currency);
  valuation->deductible = money (row->deductible, currency);
  if (row->choice == WB_CHOICE_NONE || row->unsigned_waiver)
    return;
  wb_set_text (&valuation->signed_by, "A. Shipper");
  wb_set_text (&valuation->disclosure, "both choices");
  valuation->signed_on = date (row->picked_up);
  valuation->signed_how = WB_SIGNED_ON_PAPER;
}

static void
add_line (GPtrArray         *records,
          const ExampleLine *example,
          guint              number,
          const char        *currency)
{
  g_autofree char *id = g_strdup_printf ("%u", number);
  WbPiece *piece = add (records, WB_KIND_PIECE, id);
  WbClaimLine *line = add (records, WB_KIND_CLAIM_LINE, id);

  piece->form = example->form;
  piece->weight = weight (example->weight);
  set (piece, "volume", example->volume, currency);
  piece->listed_value = money (example->listed, currency);
  wb_set_text (&line->claim, "claim");
  wb_set_text (&line->piece, id);
  line->number = number;
  line->loss = example->loss;
  line->weight = weight (example->own_weight);
  line->replacement = money (example->replacement, currency);
  line->repair = money (example->repair, currency);
  line->salvage = money (example->salvage, currency);
  line->demanded = money (example->demanded, currency);
  set (line, "age_years", example->age, currency);
  set (line, "depreciation_yearly", example->yearly, currency);
  set (line, "depreciation_flat", example->flat, currency);
  set (line, "depreciation_least", example->least, currency);
  line->set_mate = example->set_mate;
  line->salvage_taken = example->salvage_taken;
  line->ruling = example->ruling;
  line->defence = example->defence;
}

static void
add_weighings (GPtrArray          *records,
               const ClaimExample *row)
{
  if (row->net != NULL || row->gross != NULL)
    {
      WbWeighing *weighing = add (records, WB_KIND_WEIGHING, "scale");

      weighing->kind = WB_WEIGHING_FIRST;
      weighing->net = weight (row->net);
      weighing->gross = weight (row->gross);
      weighing->tare = weight (row->tare);
    }
  if (row->reweighed != NULL)
    {
      WbWeighing *weighing = add (records, WB_KIND_WEIGHING, "again");

      weighing->kind = WB_WEIGHING_REWEIGH;
      weighing->net = weight (row->reweighed);
    }
}

static void
add_other_claim (GPtrArray          *records,
                 const ClaimExample *row,
                 const char         *currency)
{
  WbClaim *claim;
  WbPayment *payment;

  if (row->other_paid == NULL)
    return;
  claim = add (records, WB_KIND_CLAIM, "other");
  wb_set_text (&claim->number, "2");
  payment = add (records, WB_KIND_PAYMENT, "payment");
  wb_set_text (&payment->claim, "other");
  payment->amount = money (row->other_paid, currency);
  payment->deductible_taken = money (row->other_bore, currency);
}

static WbJob *
build_job (const ClaimExample *row,
           const char         *currency)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (WbJob) empty = wb_job_new ("example", currency);
  g_autoptr (GError) error = NULL;
  guint number = 0;
  WbJob *job;
  WbClaim *claim;

  add_order (records, row, currency);
  add_valuation (records, row, currency);
  add_weighings (records, row);
  add_other_claim (records, row, currency);
  claim = add (records, WB_KIND_CLAIM, "claim");
  wb_set_text (&claim->number, "1");
  claim->received_on = date (row->received);
  for (guint i = 0; i < EXAMPLE_MAX_LINES && row->lines[i].loss != WB_LOSS_NONE; i++)
    for (guint copy = 0; copy < MAX (row->lines[i].copies, 1); copy++)
      add_line (records, &row->lines[i], ++number, currency);

  job = wb_job_with_many (empty, records);
  wb_job_check (job, &error);
  g_assert_no_error (error);
  return job;
}

/* --- examples --------------------------------------------------------------------------------- */

/* The limit stands in two places, which have to agree. */
static void
compare_limit (const ClaimExample    *row,
               WbTerms               *terms,
               WbJob                 *job,
               const WbSideReckoning *side)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbValuationPreview) preview = wb_valuation_preview (terms, job, &error);

  if (row->limit == NULL || refused (&row->origin, error))
    return;
  if (!side->has_limit)
    fail (&row->origin, "the limit of the shipment", "missing", row->limit);
  compare_minor (&row->origin, "the limit of the shipment", side->shipment_limit, terms->currency,
                 row->limit);
  compare_minor (&row->origin, "the limit in the preview", preview->side[row->side].limit.minor,
                 terms->currency, row->limit);
}

static void
test_claim (gconstpointer data)
{
  const ClaimExample *row = data;
  WbTerms *terms = find_terms (row->terms, row->picked_up);
  g_autoptr (WbJob) job = build_job (row, terms->currency);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbReckoning) reckoning = wb_reckon (terms, job, "claim", &error);
  const WbSideReckoning *side;

  if (refused (&row->origin, error))
    return;
  side = &reckoning->side[row->side];
  if (!side->offered || !side->complete)
    fail (&row->origin, "the reckoning", "not complete", "complete");
  if (row->applies && reckoning->applies != row->side)
    fail (&row->origin, "the choice that governs", "the other one", "this one");
  compare_limit (row, terms, job, side);
  compare_minor (&row->origin, "the amount owed", side->owed, terms->currency, row->owed);
  compare_minor (&row->origin, "the refund of freight", side->freight_refund, terms->currency,
                 row->refund);
}

static void
test_charge (gconstpointer data)
{
  const ChargeExample *row = data;
  const WbTerms *terms = find_terms (row->terms, row->picked_up);
  g_autoptr (GError) error = NULL;
  WbMoney charge;
  gboolean done;

  done = wb_terms_charge (terms, WB_SIDE_FULL, money (row->declared, terms->currency),
                          money (row->deductible, terms->currency), &charge, &error);
  g_assert_true (done == (error == NULL));
  if (!refused (&row->origin, error))
    compare_minor (&row->origin, "the charge", charge.minor, terms->currency, row->charge);
}

static void
test_collect (gconstpointer data)
{
  const CollectExample *row = data;
  WbDeliveryCharges charges = {
    .estimate_kind = row->kind,
    .estimate = money (row->estimate, "USD"),
    .requested = money (row->requested, "USD"),
    .impracticable = money (row->impracticable, "USD"),
    .valuation = money (row->valuation, "USD"),
    .delivered = weight (row->delivered),
    .shipped = weight (row->shipped),
    .shipper_caused = row->shipper_caused,
    .charged = money (row->charged, "USD"),
  };
  g_autoptr (GError) error = NULL;
  WbCollectable out;
  gboolean done;

  done = wb_collect_at_delivery (&wb_collect_rules_interstate, &charges, WB_ROUND_HALF_UP, &out,
                                 &error);
  g_assert_true (done == (error == NULL));
  if (refused (&row->origin, error))
    return;
  compare_minor (&row->origin, "the most at delivery", out.maximum.minor, "USD", row->maximum);
  compare_minor (&row->origin, "what is billed later", out.billed_later.minor, "USD", row->later);
}

static void
test_late (gconstpointer data)
{
  const LateExample *row = data;
  g_autoptr (GError) error = NULL;
  WbMoney charge;
  gboolean done;

  done = wb_collect_late_charge (&wb_collect_rules_interstate, money (row->bill, "USD"),
                                 row->extensions, WB_ROUND_HALF_UP, &charge, &error);
  g_assert_true (done == (error == NULL));
  if (!refused (&row->origin, error))
    compare_minor (&row->origin, "the charge", charge.minor, "USD", row->charge);
}

static void
test_net (gconstpointer data)
{
  const NetExample *row = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *found = NULL;
  WbVolume volume;
  WbWeight net;
  gboolean done = FALSE;

  switch (row->how)
    {
    case NET_OF_VOLUME:
      done = wb_volume_parse (row->first, WB_VOLUME_UNIT_NONE, &volume, &error) &&
             wb_weight_from_volume (volume, weight (row->second), &net, &error);
      break;
    case NET_OF_CRATED:
      done = wb_net_of_crated (weight (row->first), &net, &error);
      break;
    case NET_OF_CONTAINERS:
      done = wb_net_of_containers (weight (row->first), weight (row->second), &net, &error);
      break;
    }
  g_assert_true (done == (error == NULL));
  if (refused (&row->origin, error))
    return;
  found = wb_weight_to_text (net);
  compare (&row->origin, "the net weight", found, row->net);
}

static WbJob *
build_clocked_job (const ClockExample *row,
                   const char         *currency)
{
  const ClaimExample shipment = {
    .origin = row->origin,
    .terms = row->terms,
    .picked_up = row->picked_up,
    .delivered = row->delivered,
    .lines = { { .loss = row->salvage ? WB_LOSS_DESTROYED : WB_LOSS_NONE, .form = WB_FORM_LOOSE,
                 .salvage = "10.00" } },
  };
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (WbJob) job = build_job (&shipment, currency);
  WbOrder *order = wb_record_copy (wb_job_order (job));

  g_ptr_array_add (records, order);
  order->delivery_to = date (row->promised);
  if (row->step != WB_STEP_NONE)
    {
      WbClaimStep *step = add (records, WB_KIND_STEP, "step");

      wb_set_text (&step->claim, "claim");
      step->kind = row->step;
      step->on = date (row->step_on);
    }
  return wb_job_with_many (job, records);
}

static void
test_clock (gconstpointer data)
{
  const ClockExample *row = data;
  const WbTerms *terms = find_terms (row->terms, row->picked_up);
  g_autoptr (WbJob) job = build_clocked_job (row, terms->currency);
  g_autoptr (WbClaim) claim = wb_record_copy (wb_job_find (job, WB_KIND_CLAIM, "claim"));
  const GDate today = date (row->today);
  g_autoptr (GArray) clocks = NULL;
  g_autoptr (GError) error = NULL;
  gboolean seen = FALSE;

  claim->received_on = date (row->received);
  claim->decided_on = date (row->declined);
  if (row->declined != NULL)
    claim->status = WB_CLAIM_DECLINED;
  clocks = wb_claim_clocks (terms, job, claim, &today, &error);
  if (refused (&row->origin, error))
    return;

  for (guint i = 0; i < clocks->len; i++)
    {
      const WbClock *clock = &g_array_index (clocks, WbClock, i);

      if (clock->kind == row->clock)
        {
          g_autofree char *found = wb_date_to_text (&clock->last_day);

          if (row->last_day == NULL)
            fail (&row->origin, "the clock", found, "none");
          else
            compare (&row->origin, "the last day", found, row->last_day);
          seen = TRUE;
        }
    }
  if (!seen && row->last_day != NULL)
    fail (&row->origin, "the clock", "missing", row->last_day);
}

static void
test_period (gconstpointer data)
{
  const PeriodExample *row = data;
  const GDate from = date (row->from);
  g_autoptr (GError) error = NULL;
  WbPeriod period;
  GDate last_day;
  gboolean done;

  done = wb_period_parse (row->period, &period, &error) &&
         wb_date_add_period (&from, period, &last_day, &error);
  g_assert_true (done == (error == NULL));
  if (!refused (&row->origin, error))
    {
      g_autofree char *found = wb_date_to_text (&last_day);

      compare (&row->origin, "the last day", found, row->last_day);
    }
}

static void
test_intake (gconstpointer data)
{
  const IntakeExample *row = data;
  g_autoptr (WbJob) job = wb_job_new ("job", "USD");
  g_autoptr (WbClaim) claim = wb_record_new (WB_KIND_CLAIM, "claim");
  WbIntakeState state;

  claim->identifies_shipment = row->shipment;
  claim->asserts_liability = row->liability;
  claim->states_amount = row->amount;
  state = wb_intake_look (job, claim, NULL, NULL);
  compare (&row->origin, "the paper", wb_enum_nick (&wb_intake_states, (int) state),
           wb_enum_nick (&wb_intake_states, (int) row->state));
  compare (&row->origin, "payable", wb_intake_may_pay (state) ? "yes" : "no",
           row->payable ? "yes" : "no");
}

/* --- tables ----------------------------------------------------------------------------------- */

typedef struct
{
  const char    *name;
  gconstpointer  rows;
  const gsize   *n_rows;
  gsize          size;
  GTestDataFunc  test;
} Table;

/* Every row begins with its Origin. */
#define TABLE(name, rows, test) { name, rows, &n_##rows, sizeof rows[0], test }

static const Table tables[] = {
  TABLE ("claim", claim_examples, test_claim),
  TABLE ("charge", charge_examples, test_charge),
  TABLE ("collect", collect_examples, test_collect),
  TABLE ("late-bill", late_examples, test_late),
  TABLE ("net-weight", net_examples, test_net),
  TABLE ("clock", clock_examples, test_clock),
  TABLE ("period", period_examples, test_period),
  TABLE ("intake", intake_examples, test_intake),
};

static const Origin *
nth_origin (const Table *table,
            gsize        n)
{
  return (const Origin *) (gconstpointer) ((const guint8 *) table->rows + n * table->size);
}

/* Every number from 1 to the last has a row, or a place among those left out with a reason. */
static void
test_nothing_forgotten (void)
{
  guint rows[N_NUMBERED + 1] = { 0 };
  guint reasons[N_NUMBERED + 1] = { 0 };

  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    for (gsize j = 0; j < *tables[i].n_rows; j++)
      {
        int number = atoi (nth_origin (&tables[i], j)->number);

        g_assert_cmpint (number, <=, N_NUMBERED);
        rows[number]++;
      }
  for (gsize i = 0; i < n_left_out; i++)
    {
      g_test_message ("not expressed: %s (%s): %s", left_out[i].title, left_out[i].source,
                      left_out[i].reason);
      g_assert_cmpuint (strlen (left_out[i].reason), >, 20);
      g_assert_cmpstr (left_out[i].source, !=, "");
      if (left_out[i].number != NULL)
        reasons[atoi (left_out[i].number)]++;
    }

  for (guint number = 1; number <= N_NUMBERED; number++)
    {
      if (rows[number] == 0 && reasons[number] == 0)
        g_test_fail_printf ("example %u has no row, and no reason why not", number);
      if (rows[number] > 0 && reasons[number] > 0)
        g_test_fail_printf ("example %u has a row, and a reason why not", number);
    }
}

/* No number stands twice, and every row says where it comes from. */
static void
test_numbers_are_unique (void)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    for (gsize j = 0; j < *tables[i].n_rows; j++)
      {
        const Origin *origin = nth_origin (&tables[i], j);

        g_assert_cmpstr (origin->title, !=, "");
        g_assert_cmpstr (origin->source, !=, "");
        if (!g_hash_table_add (seen, (gpointer) origin->number))
          g_test_fail_printf ("example %s stands twice", origin->number);
      }
}

/* --- terms ------------------------------------------------------------------------------------ */

static void
add_regimes (const char *folder)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GDir) dir = g_dir_open (folder, 0, &error);
  const char *name;

  g_assert_no_error (error);
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".terms") && !g_str_equal (name, "blank.terms"))
      {
        g_autofree char *path = g_build_filename (folder, name, NULL);
        g_autofree char *text = NULL;
        g_autoptr (GPtrArray) editions = NULL;
        gsize length;

        g_file_get_contents (path, &text, &length, &error);
        g_assert_no_error (error);
        editions = wb_terms_parse (text, length, path, &error);
        g_assert_no_error (error);
        if (!wb_terms_set_add (regimes, editions, FALSE, &error))
          g_error ("%s", error->message);
      }
}

int
main (int    argc,
      char **argv)
{
  g_autofree char *shipped = NULL;
  g_autofree char *own = NULL;
  int result;

  g_test_init (&argc, &argv, NULL);

  shipped = g_build_filename (g_getenv ("WAINBOOK_DATA_DIR"), "terms", NULL);
  own = g_test_build_filename (G_TEST_DIST, "published", "terms", NULL);
  regimes = wb_terms_set_new ();
  add_regimes (shipped);
  add_regimes (own);

  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    for (gsize j = 0; j < *tables[i].n_rows; j++)
      {
        const Origin *origin = nth_origin (&tables[i], j);
        g_autofree char *path =
          g_strdup_printf ("/published/examples/%s/%s", tables[i].name, origin->number);

        g_test_add_data_func (path, origin, tables[i].test);
      }
  g_test_add_func ("/published/examples/nothing-forgotten", test_nothing_forgotten);
  g_test_add_func ("/published/examples/numbers-are-unique", test_numbers_are_unique);

  result = g_test_run ();
  wb_terms_set_unref (regimes);
  return result;
}
