/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-core.h"
#include "core/wb-things.h"

static WbThing *
make_thing (const char *id,
            const char *piece,
            gint64      quantity,
            const char *value,
            const char *weight)
{
  const WbRecordType *type = wb_record_type (WB_KIND_THING);
  WbThing *thing = wb_record_new (WB_KIND_THING, id);

  wb_set_text (&thing->piece, piece);
  wb_set_text (&thing->description, id);
  thing->quantity = quantity;
  g_assert_true (wb_record_set_text (thing, wb_record_type_field (type, "value"), value, "USD",
                                     NULL));
  g_assert_true (wb_record_set_text (thing, wb_record_type_field (type, "weight"), weight, "USD",
                                     NULL));
  return thing;
}

static WbJob *
make_job (void)
{
  g_autoptr (WbJob) empty = wb_job_new ("job", "USD");
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);

  g_ptr_array_add (records, wb_record_new (WB_KIND_PIECE, "carton"));
  g_ptr_array_add (records, wb_record_new (WB_KIND_PIECE, "other"));
  g_ptr_array_add (records, wb_record_new (WB_KIND_PIECE, "empty"));
  g_ptr_array_add (records, make_thing ("plates", "carton", 12, "4.50", "1.5 lb"));
  g_ptr_array_add (records, make_thing ("lamp", "other", WB_INTEGER_UNSET, "80", NULL));
  g_ptr_array_add (records, make_thing ("bowl", "carton", WB_INTEGER_UNSET, NULL, "2 lb"));
  g_ptr_array_add (records, make_thing ("paper", "carton", 0, "1", "1 lb"));
  return wb_job_with_many (empty, records);
}

static void
test_total (void)
{
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (GPtrArray) things = wb_things_of (job, "carton");
  g_autoptr (GPtrArray) none = wb_things_of (job, "empty");
  g_autoptr (GError) error = NULL;
  WbThingTotals totals;

  g_assert_cmpuint (things->len, ==, 3);
  g_assert_true (wb_things_total (things, &totals, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (totals.n_lines, ==, 3);
  g_assert_cmpint (totals.count, ==, 13);
  g_assert_cmpuint (totals.n_unvalued, ==, 1);
  g_assert_true (wb_money_equal (totals.value, wb_money (5400, "USD")));
  g_assert_cmpuint (totals.n_unweighed, ==, 0);
  g_assert_true (wb_weight_equal (totals.weight, wb_weight (2000, WB_WEIGHT_UNIT_LB)));

  g_assert_true (wb_things_total (none, &totals, &error));
  g_assert_cmpuint (totals.n_lines, ==, 0);
  g_assert_false (wb_money_is_set (totals.value));
  g_assert_false (wb_weight_is_set (totals.weight));
}

/* The largest that a record takes, many times over, is an error and no wrong sum. */
static void
test_overflow (void)
{
  g_autoptr (WbThing) thing = make_thing ("gold", "carton", 99999, NULL, NULL);
  g_autoptr (GPtrArray) things = g_ptr_array_new ();
  g_autoptr (GError) error = NULL;
  WbThingTotals totals;
  WbWeight weight;
  WbMoney value;

  thing->value = wb_money (WB_MONEY_MAX_MINOR, "USD");
  g_assert_true (wb_thing_value (thing, &value, NULL));
  g_assert_cmpint (value.minor, ==, WB_MONEY_MAX_MINOR * 99999);
  for (guint i = 0; i < 100; i++)
    g_ptr_array_add (things, thing);
  g_assert_false (wb_things_total (things, &totals, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW);

  g_clear_error (&error);
  thing->weight = wb_weight (WB_WEIGHT_MAX_LB * 100, WB_WEIGHT_UNIT_LB);
  g_assert_false (wb_thing_weight (thing, &weight, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW);
}

/* The list goes with its carton, and is one step of undo away. */
static void
test_removed_with_carton (void)
{
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) fewer = wb_job_without (job, WB_KIND_PIECE, "carton", &error);

  g_assert_no_error (error);
  g_assert_cmpuint (wb_job_count (fewer, WB_KIND_THING), ==, 1);
  g_assert_nonnull (wb_job_find (fewer, WB_KIND_THING, "lamp"));
  g_assert_null (wb_job_find (fewer, WB_KIND_THING, "plates"));
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/core/things/total", test_total);
  g_test_add_func ("/core/things/overflow", test_overflow);
  g_test_add_func ("/core/things/removed-with-carton", test_removed_with_carton);
  return g_test_run ();
}
