/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-core.h"
#include "core/wb-high-value.h"

#define LB(pounds) wb_weight ((pounds) * 100, WB_WEIGHT_UNIT_LB)
#define USD(dollars) wb_money ((dollars) * 100, "USD")

/* $100 a pound: 49 CFR 375.203(b). */
static WbRate
hundred_a_pound (void)
{
  return (WbRate) { USD (100), WB_RATE_UNIT_LB };
}

static void
add_piece (GPtrArray  *records,
           const char *id,
           WbWeight    weight,
           WbMoney     listed,
           const char *article)
{
  WbPiece *piece = wb_record_new (WB_KIND_PIECE, id);

  piece->weight = weight;
  piece->listed_value = listed;
  wb_set_text (&piece->article, article);
  g_ptr_array_add (records, piece);
}

static void
add_thing (GPtrArray  *records,
           const char *id,
           const char *piece,
           gint64      quantity,
           WbMoney     value,
           WbWeight    weight)
{
  WbThing *thing = wb_record_new (WB_KIND_THING, id);

  wb_set_text (&thing->piece, piece);
  wb_set_text (&thing->description, id);
  thing->quantity = quantity;
  thing->value = value;
  thing->weight = weight;
  g_ptr_array_add (records, thing);
}

static WbJob *
make_job (GPtrArray *records)
{
  g_autoptr (WbJob) empty = wb_job_new ("job", "USD");

  return wb_job_with_many (empty, records);
}

/* "piece" or "piece/thing", "+" listed or "!" not, value and cap in dollars. */
static char *
describe (const WbHighValueList *list)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < list->entries->len; i++)
    {
      const WbHighValue *entry = &g_array_index (list->entries, WbHighValue, i);
      const char *slash = entry->thing != NULL ? "/" : "";

      g_string_append_printf (text, "%s%s%s%s %s%" G_GINT64_FORMAT, i > 0 ? ", " : "",
                              entry->piece->record.id, slash,
                              entry->thing != NULL ? entry->thing->record.id : "",
                              entry->state == WB_HIGH_VALUE_LISTED ? "+" : "!",
                              entry->value.minor / 100);
      if (wb_money_is_set (entry->cap))
        g_string_append_printf (text, " of %" G_GINT64_FORMAT, entry->cap.minor / 100);
    }
  return g_string_free (text, FALSE);
}

/* The published pair: 5 lb worth $2,000 may bring $500 when nobody listed it, and all of it when
 * somebody did. */
static void
test_five_pounds (void)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (WbJob) job = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbHighValueList) list = NULL;
  g_autofree char *text = NULL;

  add_piece (records, "listed", LB (5), USD (2000), NULL);
  add_piece (records, "carton", LB (30), WB_MONEY_UNSET, NULL);
  add_thing (records, "vase", "carton", WB_INTEGER_UNSET, USD (2000), LB (5));
  job = make_job (records);
  list = wb_high_value_list (job, hundred_a_pound (), &error);
  g_assert_no_error (error);
  text = describe (list);
  g_assert_cmpstr (text, ==, "listed +2000 of 500, carton/vase !2000 of 500");
  g_assert_cmpuint (list->n_listed, ==, 1);
  g_assert_cmpuint (list->n_unlisted, ==, 1);
  g_assert_true (wb_money_equal (list->listed, USD (2000)));
}

static void
test_bounds (void)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbHighValueList) list = NULL;
  g_autofree char *text = NULL;

  add_piece (records, "a", LB (10), WB_MONEY_UNSET, NULL);
  add_piece (records, "b", LB (10), WB_MONEY_UNSET, NULL);
  add_piece (records, "c", WB_WEIGHT_UNSET, WB_MONEY_UNSET, NULL);
  add_piece (records, "d", LB (0), WB_MONEY_UNSET, NULL);
  /* Just the rate is not above it. */
  add_thing (records, "even", "a", WB_INTEGER_UNSET, USD (200), LB (2));
  /* One of six, not the six together. */
  add_thing (records, "spoons", "a", 6, USD (90), LB (1));
  /* Without a weight it is held against the carton: $1,000 may be, $1,001 is above. */
  add_thing (records, "ring", "a", WB_INTEGER_UNSET, USD (1000), WB_WEIGHT_UNSET);
  add_thing (records, "watch", "b", WB_INTEGER_UNSET, USD (1001), WB_WEIGHT_UNSET);
  /* Neither it nor its carton has a weight: nothing can be said. */
  add_thing (records, "coin", "c", WB_INTEGER_UNSET, USD (9000), WB_WEIGHT_UNSET);
  add_thing (records, "note", "d", WB_INTEGER_UNSET, USD (9000), LB (0));
  job = make_job (records);
  list = wb_high_value_list (job, hundred_a_pound (), NULL);
  text = describe (list);
  /* All that is in the first carton comes to $1,740, more than its ten pounds may bring. */
  g_assert_cmpstr (text, ==, "a !1740 of 1000, b/watch !1001 of 1000");
}

/* A listed carton is asked nothing more; without a rate nothing is called unlisted. */
static void
test_quiet (void)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbHighValueList) with_rate = NULL;
  g_autoptr (WbHighValueList) without = NULL;
  g_autofree char *text = NULL;

  add_piece (records, "silver", WB_WEIGHT_UNSET, USD (3000), NULL);
  add_piece (records, "other", LB (1), WB_MONEY_UNSET, NULL);
  add_thing (records, "forks", "silver", 12, USD (250), LB (1));
  add_thing (records, "gold", "other", 1, USD (900), LB (1));
  job = make_job (records);
  with_rate = wb_high_value_list (job, hundred_a_pound (), NULL);
  text = describe (with_rate);
  g_assert_cmpstr (text, ==, "silver +3000, other/gold !900 of 100");
  without = wb_high_value_list (job, (WbRate) { 0 }, NULL);
  g_assert_cmpuint (without->n_listed, ==, 1);
  g_assert_cmpuint (without->n_unlisted, ==, 0);
}

/* A clock in three boxes weighs what its parts weigh, and nothing is known when one has none. */
static void
test_parts (void)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbHighValueList) list = NULL;
  g_autofree char *text = NULL;

  add_piece (records, "case", LB (60), USD (12000), "clock");
  add_piece (records, "works", LB (20), WB_MONEY_UNSET, "clock");
  add_piece (records, "frame", LB (5), USD (900), "picture");
  add_piece (records, "glass", WB_WEIGHT_UNSET, WB_MONEY_UNSET, "picture");
  job = make_job (records);
  list = wb_high_value_list (job, hundred_a_pound (), NULL);
  text = describe (list);
  g_assert_cmpstr (text, ==, "case +12000 of 8000, frame +900");
  g_assert_true (wb_money_equal (list->listed, USD (12900)));
}

static void
test_overflow (void)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (WbJob) job = NULL;
  g_autoptr (GError) error = NULL;

  add_piece (records, "carton", LB (10), WB_MONEY_UNSET, NULL);
  for (guint i = 0; i < 100; i++)
    {
      g_autofree char *id = g_strdup_printf ("t%u", i);

      add_thing (records, id, "carton", 99999, wb_money (WB_MONEY_MAX_MINOR, "USD"),
                 LB (WB_WEIGHT_MAX_LB));
    }
  job = make_job (records);
  g_assert_null (wb_high_value_list (job, (WbRate) { USD (2000), WB_RATE_UNIT_LB }, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW);
}

static void
test_gaps (void)
{
  g_autoptr (WbJob) empty = wb_job_new ("job", "USD");
  g_autoptr (WbValuation) valuation = wb_record_copy (wb_job_valuation (empty));
  g_autoptr (WbOrder) order = wb_record_copy (wb_job_order (empty));
  g_autoptr (WbJob) with_order = NULL;
  g_autoptr (WbJob) late = NULL;
  g_autoptr (WbJob) good = NULL;

  g_assert_cmpuint (wb_high_value_gaps (empty), ==,
                    WB_HIGH_VALUE_NOT_STATED | WB_HIGH_VALUE_NO_SIGNER | WB_HIGH_VALUE_NO_DATE);

  g_date_set_dmy (&order->picked_up_on, 4, G_DATE_MARCH, 2026);
  with_order = wb_job_with (empty, order);
  valuation->high_value_list = TRUE;
  wb_set_text (&valuation->high_value_signed_by, "A. Lindqvist");
  g_date_set_dmy (&valuation->high_value_signed_on, 5, G_DATE_MARCH, 2026);
  late = wb_job_with (with_order, valuation);
  g_assert_cmpuint (wb_high_value_gaps (late), ==, WB_HIGH_VALUE_LATE);

  {
    g_autoptr (WbValuation) in_time = wb_record_copy (valuation);

    g_date_set_dmy (&in_time->high_value_signed_on, 4, G_DATE_MARCH, 2026);
    good = wb_job_with (with_order, in_time);
    g_assert_cmpuint (wb_high_value_gaps (good), ==, WB_HIGH_VALUE_SIGNED);
  }
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/core/high-value/five-pounds", test_five_pounds);
  g_test_add_func ("/core/high-value/bounds", test_bounds);
  g_test_add_func ("/core/high-value/quiet", test_quiet);
  g_test_add_func ("/core/high-value/parts", test_parts);
  g_test_add_func ("/core/high-value/overflow", test_overflow);
  g_test_add_func ("/core/high-value/gaps", test_gaps);
  return g_test_run ();
}
