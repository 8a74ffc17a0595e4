/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The order page: which rows there are for the order as it stands. What a single row does is tested
 * in test-field-row.c. */
#include "config.h"

#include <adwaita.h>

#include "desk/order/wb-charges-panel.h"
#include "desk/order/wb-order-page.h"
#include "desk/support/desk-fixture.h"
#include "desk/widgets/wb-field-row.h"
#include "desk/widgets/wb-reveal.h"
#include "support/wb-test-window.h"

static GtkWidget *
find_row (GtkWidget  *page,
          const char *field)
{
  g_autoptr (GPtrArray) rows = desk_find_all (page, WB_TYPE_FIELD_ROW);

  for (guint i = 0; i < rows->len; i++)
    {
      g_autofree char *name = NULL;

      g_object_get (g_ptr_array_index (rows, i), "field", &name, NULL);
      if (g_str_equal (name, field))
        return g_ptr_array_index (rows, i);
    }

  g_error ("there is no row %s", field);
}

static const struct
{
  const char *move_type;
  const char *region;
  gboolean    seen;
} states[] = {
  { "none", "", FALSE },
  { "interstate", "", FALSE },
  { "intrastate", "", TRUE },
  { "other", "", TRUE },
  { "military", "", FALSE },
  { "interstate", "WA", TRUE },
};

/* The state is asked for where its rules may govern, and seen wherever there is one. */
static void
test_state (DeskFixture   *fixture,
            gconstpointer  data)
{
  GtkWidget *page = wb_order_page_new (fixture->model);
  GtkWidget *row;

  desk_fixture_put (fixture, WB_KIND_ORDER, NULL, "move_type", "intrastate", NULL);
  desk_fixture_present (fixture, page, 900, 700);
  row = find_row (page, "order.region");
  for (guint i = 0; i < G_N_ELEMENTS (states); i++)
    {
      desk_fixture_put (fixture, WB_KIND_ORDER, NULL, "move_type", states[i].move_type, "region",
                        states[i].region, NULL);
      desk_fixture_settle (fixture);
      g_assert_cmpint (gtk_widget_get_visible (row), ==, states[i].seen);
    }
}

static void
put_partial_delivery (DeskFixture *fixture,
                      const char  *delivered)
{
  desk_fixture_put (fixture, WB_KIND_ORDER, NULL, "move_type", "interstate", "pickup_from",
                    "2026-03-02", "estimate_kind", "non-binding", "estimate", "4000",
                    "freight_charge", "4800", "delivered_weight", delivered, NULL);
  desk_fixture_put (fixture, WB_KIND_VALUATION, NULL, "charge", "120", NULL);
}

/* Half of the goods: 110 % of the estimate in proportion, and the valuation charge: 49 CFR
 * 375.707(a)(1). What is missing leads to its field, and more than there is, is told. */
static void
test_charges (DeskFixture   *fixture,
              gconstpointer  data)
{
  GtkWidget *page = wb_order_page_new (fixture->model);
  GtkWidget *panel;

  put_partial_delivery (fixture, "2500 lb");
  desk_fixture_present (fixture, page, 1180, 900);
  panel = wb_test_find (page, WB_TYPE_CHARGES_PANEL, NULL);
  g_assert_nonnull (desk_find_label (panel, "The weight of the whole shipment is missing"));
  g_assert_null (desk_find_label (panel, "$2,320.00"));

  desk_fixture_put (fixture, WB_KIND_WEIGHING, "w", "kind", "weighing", "net", "5000 lb", NULL);
  desk_fixture_settle (fixture);
  g_assert_nonnull (desk_find_label (panel, "$2,200.00"));
  g_assert_nonnull (desk_find_label (panel, "$2,320.00"));
  g_assert_nonnull (desk_find_label (panel, "$200.00"));
  g_assert_null (desk_find_label (panel, "The weight of the whole shipment is missing"));
  wb_test_wait_until_drawn (page);
  wb_test_save_picture (fixture->window, "order-page-charges");

  put_partial_delivery (fixture, "5001 lb");
  desk_fixture_settle (fixture);
  g_assert_nonnull (desk_find_label (panel, "The sum cannot be made"));
  g_assert_nonnull (desk_find_label (find_row (page, "order.delivered_weight"),
                                     "This is more than the whole shipment weighs: 5,000 lb. "
                                     "Correct one of the two."));

  desk_fixture_put (fixture, WB_KIND_ORDER, NULL, "move_type", "intrastate", "region", "WA", NULL);
  desk_fixture_settle (fixture);
  g_assert_nonnull (desk_find_label (panel, "Other rules decide"));
}

/* Which weight counts, and why; without a ticket seven pounds for each cubic foot. */
static void
test_weight (DeskFixture   *fixture,
             gconstpointer  data)
{
  GtkWidget *page = wb_order_page_new (fixture->model);

  desk_fixture_put (fixture, WB_KIND_ORDER, NULL, "move_type", "interstate", "pickup_from",
                    "2026-03-02", "volume", "100 cuft", NULL);
  desk_fixture_present (fixture, page, 1180, 900);
  g_assert_nonnull (desk_find_label (page, "700 lb, the constructive weight of the volume at 7 lb "
                                           "a cubic foot; there is no weighing."));
  desk_fixture_put (fixture, WB_KIND_WEIGHING, "w1", "kind", "weighing", "net", "900 lb", NULL);
  desk_fixture_put (fixture, WB_KIND_WEIGHING, "w2", "kind", "reweigh", "net", "880 lb", NULL);
  desk_fixture_settle (fixture);
  g_assert_nonnull (desk_find_label (page, "880 lb net, by the reweigh, which goes before the "
                                           "first weighing (49 CFR 375.517)."));
}

/* 49 CFR 375.303: insurance goes with released value only. */
static void
test_insurance (DeskFixture   *fixture,
                gconstpointer  data)
{
  const char *advice = "Insurance may be sold only where the shipment is released at not more than "
                       "60 cents per pound (49 CFR 375.303), and full value was chosen.";
  GtkWidget *page = wb_order_page_new (fixture->model);

  desk_fixture_put (fixture, WB_KIND_ORDER, NULL, "move_type", "interstate", "insurance",
                    "Kestrel Mutual 77", NULL);
  desk_fixture_put (fixture, WB_KIND_VALUATION, NULL, "choice", "full", NULL);
  desk_fixture_present (fixture, page, 1180, 900);
  g_assert_nonnull (desk_find_label (find_row (page, "order.insurance"), advice));
  desk_fixture_put (fixture, WB_KIND_VALUATION, NULL, "choice", "released", NULL);
  desk_fixture_settle (fixture);
  g_assert_null (desk_find_label (find_row (page, "order.insurance"), advice));
}

/* A stop says its window and hours. */
static void
test_stop (DeskFixture   *fixture,
           gconstpointer  data)
{
  GtkWidget *page = wb_order_page_new (fixture->model);

  desk_fixture_put (fixture, WB_KIND_STOP, "s", "kind", "extra-delivery", "city", "Knoxville", "on",
                    "2026-03-09", "until", "2026-03-12", "hours", "8-12", NULL);
  desk_fixture_present (fixture, page, 1180, 900);
  g_assert_nonnull (desk_find_label (page, "Extra delivery · 9 Mar 2026 to 12 Mar 2026 · 8-12"));
}

/* Every field of the order has a row. */
static void
test_fields (DeskFixture   *fixture,
             gconstpointer  data)
{
  const WbRecordType *type = wb_record_type (WB_KIND_ORDER);
  GtkWidget *page = wb_order_page_new (fixture->model);

  desk_fixture_put (fixture, WB_KIND_ORDER, NULL, "move_type", "intrastate", NULL);
  desk_fixture_present (fixture, page, 1180, 900);
  for (gsize i = 0; i < type->n_fields; i++)
    {
      g_test_message ("%s", type->fields[i].name);
      if (g_str_equal (type->fields[i].name, "terms"))
        continue;
      g_assert_true (wb_reveal (page, WB_KIND_ORDER, NULL, type->fields[i].name));
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();
  g_test_add ("/desk/order-page/state", DeskFixture, NULL, desk_fixture_set_up, test_state,
              desk_fixture_tear_down);
  g_test_add ("/desk/order-page/charges", DeskFixture, NULL, desk_fixture_set_up, test_charges,
              desk_fixture_tear_down);
  g_test_add ("/desk/order-page/weight", DeskFixture, NULL, desk_fixture_set_up, test_weight,
              desk_fixture_tear_down);
  g_test_add ("/desk/order-page/insurance", DeskFixture, NULL, desk_fixture_set_up,
              test_insurance, desk_fixture_tear_down);
  g_test_add ("/desk/order-page/stop", DeskFixture, NULL, desk_fixture_set_up, test_stop,
              desk_fixture_tear_down);
  g_test_add ("/desk/order-page/fields", DeskFixture, NULL, desk_fixture_set_up, test_fields,
              desk_fixture_tear_down);
  return g_test_run ();
}
