/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The order page: which rows there are for the order as it stands. What a single row does is tested
 * in test-field-row.c. */
#include "config.h"

#include <adwaita.h>

#include "desk/order/wb-order-page.h"
#include "desk/support/desk-fixture.h"
#include "desk/widgets/wb-field-row.h"
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

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();
  g_test_add ("/desk/order-page/state", DeskFixture, NULL, desk_fixture_set_up, test_state,
              desk_fixture_tear_down);
  return g_test_run ();
}
