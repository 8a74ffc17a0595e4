/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The order page: which rows there are for the order as it stands. What a single row does is tested
 * in test-field-row.c. */
#include "config.h"

#include <adwaita.h>

#include "desk/order/wb-charges-panel.h"
#include "desk/order/wb-order-advice.h"
#include "desk/order/wb-order-page.h"
#include "desk/records/wb-record-row.h"
#include "desk/support/desk-fixture.h"
#include "desk/widgets/wb-field-row.h"
#include "desk/widgets/wb-later.h"
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

/* The menu of a row is made when it is opened, and opens again. */
static void
test_menu (DeskFixture   *fixture,
           gconstpointer  data)
{
  GtkWidget *page = wb_order_page_new (fixture->model);
  GtkMenuButton *button;

  desk_fixture_put (fixture, WB_KIND_STOP, "s", "kind", "pickup", "city", "Knoxville", NULL);
  desk_fixture_present (fixture, page, 1180, 900);
  button = GTK_MENU_BUTTON (wb_test_find (wb_test_find (page, WB_TYPE_RECORD_ROW, NULL),
                                          GTK_TYPE_MENU_BUTTON, NULL));
  g_assert_true (gtk_widget_is_sensitive (GTK_WIDGET (button)));
  for (guint i = 0; i < 2; i++)
    {
      gtk_menu_button_popup (button);
      desk_fixture_settle (fixture);
      g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (gtk_menu_button_get_popover (button))));
      g_assert_nonnull (desk_find_label (GTK_WIDGET (gtk_menu_button_get_popover (button)),
                                         "Remove"));
      gtk_menu_button_popdown (button);
      desk_fixture_settle (fixture);
    }
}

/* --- made in steps ---------------------------------------------------------------------------- */

static GtkWidget *
put_in_window (DeskFixture *fixture,
               GtkWidget   *page)
{
  fixture->window = adw_window_new ();
  gtk_window_set_default_size (GTK_WINDOW (fixture->window), 1180, 900);
  adw_window_set_content (ADW_WINDOW (fixture->window), page);
  gtk_window_present (GTK_WINDOW (fixture->window));
  return page;
}

static gboolean
is_whole (gpointer page)
{
  return wb_later_is_done (page);
}

static void
list_fields (GtkWidget *root,
              GString   *names)
{
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      g_autofree char *name = NULL;

      if (g_object_class_find_property (G_OBJECT_GET_CLASS (child), "field") != NULL)
        g_object_get (child, "field", &name, NULL);
      if (name != NULL)
        g_string_append_printf (names, "%s ", name);
      else
        list_fields (child, names);
    }
}

/* Nothing is there at first, all in its order at last, and the focus stays where it was put
 * meanwhile. What changes meanwhile is seen in rows that come later. */
static void
test_steps (DeskFixture   *fixture,
            gconstpointer  data)
{
  GtkWidget *page = put_in_window (fixture, wb_order_page_new (fixture->model));
  g_autoptr (GString) names = g_string_new (NULL);

  g_assert_false (wb_later_is_done (page));
  list_fields (page, names);
  g_assert_cmpstr (names->str, ==, "");

  gtk_widget_grab_focus (page);
  desk_fixture_put (fixture, WB_KIND_ORDER, NULL, "vehicle", "Van 12", "pickup_from", "2026-03-02",
                    "pickup_to", "2026-03-01", NULL);
  wb_test_wait_until (is_whole, page);
  desk_fixture_settle (fixture);
  g_assert_true (gtk_widget_is_focus (gtk_widget_get_first_child (page)));
  list_fields (page, names);
  g_assert_true (g_str_has_prefix (names->str, "order.number order.bill_number order.stage "
                                   "order.move_type order.region order.coordinator "));
  g_assert_nonnull (strstr (names->str, "order.estimated_weight order.volume "
                            "order.delivered_weight order.vehicle order.special_services "));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (find_row (page, "order.vehicle"))), ==,
                   "Van 12");
  g_assert_nonnull (desk_find_label (find_row (page, "order.pickup_to"),
                                     wb_order_advice (wb_job_order (wb_job_model_get_job (
                                       fixture->model)), "pickup_to")));
}

/* Whoever goes to a field, or adds somebody, does not wait for the rows before it. */
static void
test_not_yet (DeskFixture   *fixture,
              gconstpointer  data)
{
  GtkWidget *page = put_in_window (fixture, wb_order_page_new (fixture->model));
  GtkWidget *row;

  g_assert_true (wb_reveal (page, WB_KIND_ORDER, NULL, "vehicle"));
  g_assert_true (wb_later_is_done (page));
  row = find_row (page, "order.vehicle");
  g_assert_true (gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (fixture->window)), row));

  adw_window_set_content (ADW_WINDOW (fixture->window), wb_order_page_new (fixture->model));
  page = adw_window_get_content (ADW_WINDOW (fixture->window));
  g_assert_false (wb_later_is_done (page));
  g_assert_true (gtk_widget_activate_action (page, "order.add-party", NULL));
  g_assert_cmpuint (wb_job_count (wb_job_model_get_job (fixture->model), WB_KIND_PARTY), ==, 1);
  row = gtk_root_get_focus (GTK_ROOT (fixture->window));
  g_assert_nonnull (gtk_widget_get_ancestor (row, WB_TYPE_RECORD_ROW));
}

/* A page that is left at once goes, and what was not made of it is never made. */
static void
test_left (DeskFixture   *fixture,
           gconstpointer  data)
{
  GtkWidget *page = g_object_ref_sink (wb_order_page_new (fixture->model));

  g_assert_false (wb_later_is_done (page));
  g_assert_finalize_object (page);
  wb_test_settle ();
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
  g_test_add ("/desk/order-page/menu", DeskFixture, NULL, desk_fixture_set_up, test_menu,
              desk_fixture_tear_down);
  g_test_add ("/desk/order-page/steps", DeskFixture, NULL, desk_fixture_set_up, test_steps,
              desk_fixture_tear_down);
  g_test_add ("/desk/order-page/not-yet", DeskFixture, NULL, desk_fixture_set_up, test_not_yet,
              desk_fixture_tear_down);
  g_test_add ("/desk/order-page/left", DeskFixture, NULL, desk_fixture_set_up, test_left,
              desk_fixture_tear_down);
  return g_test_run ();
}
