/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The valuation and the claim page as a person sees them in the window's own size: nothing is wider
 * than the window, whatever the size of the text. Run once for each look; the pictures are for a
 * person to compare. */
#include "config.h"

#include <adwaita.h>

#include "desk/claim/wb-claim-page.h"
#include "desk/claim/wb-figure-button.h"
#include "desk/claim/wb-reckoning-bar.h"
#include "desk/claim/wb-record-table.h"
#include "desk/support/desk-fixture.h"
#include "desk/valuation/wb-valuation-page.h"
#include "support/wb-test-window.h"

#define WIDTH 1180
#define HEIGHT 760

/* A small shipment and a large loss, so that every part of the drawing is there. */
static void
add_heavy_claim (DeskFixture *fixture)
{
  desk_fixture_add_move (fixture);
  desk_fixture_put (fixture, WB_KIND_WEIGHING, "w1", "net", "900 lb", NULL);
  desk_fixture_put (fixture, WB_KIND_VALUATION, NULL, "choice", "full", "declared_value", "6000",
                    "deductible", "500", "signed_by", "Odile Varga", "signed_on", "2026-05-01",
                    "signed_how", "paper", "disclosure", "Both choices explained in writing", NULL);
  desk_fixture_add_claim (fixture);
  desk_fixture_put (fixture, WB_KIND_PIECE, "p5", "lot", "lot", "tag", "18", "form", "loose",
                    "description", "Upright piano", "room", "Music room", "weight", "410 lb", NULL);
  desk_fixture_put (fixture, WB_KIND_FINDING, "f2", "handover", "h2", "piece", "p5",
                    "found", "present", "marks", "BR 2", "notes", "sound board cracked", NULL);
  desk_fixture_put (fixture, WB_KIND_CLAIM_LINE, "l5", "claim", "c1", "number", "5", "piece", "p5",
                    "item", "Upright piano", "loss", "destroyed", "demanded", "9800",
                    "replacement", "9400", "age_years", "12", "depreciation_yearly", "5 %",
                    "ruling", "allowed", NULL);
  desk_fixture_put (fixture, WB_KIND_PAYMENT, "y1", "claim", "c1", "on", "2026-07-02",
                    "amount", "1500", "deductible_taken", "500", "notes", "on account", NULL);
}

/* "claim-dark-200": which page in which look. */
static char *
name_picture (const char *page)
{
  gboolean dark = adw_style_manager_get_dark (adw_style_manager_get_default ());
  int resolution;

  g_object_get (gtk_settings_get_default (), "gtk-xft-dpi", &resolution, NULL);
  return g_strdup_printf ("%s-%s-%d", page, dark ? "dark" : "light",
                          resolution * 100 / (96 * 1024));
}

static void
save (DeskFixture *fixture,
      const char  *page)
{
  g_autofree char *name = name_picture (page);

  desk_fixture_settle (fixture);
  wb_test_save_picture (fixture->window, name);
}

static void
assert_fits (GtkWidget *page)
{
  int minimum;

  gtk_widget_measure (page, GTK_ORIENTATION_HORIZONTAL, -1, &minimum, NULL, NULL, NULL);
  g_assert_cmpint (minimum, <=, WIDTH);
}

static void
scroll (GtkWidget *page,
        GtkWidget *to)
{
  g_autoptr (GPtrArray) scrollers = desk_find_all (page, GTK_TYPE_SCROLLED_WINDOW);
  GtkAdjustment *place = gtk_scrolled_window_get_vadjustment (g_ptr_array_index (scrollers, 0));
  double y;

  g_assert_true (gtk_widget_translate_coordinates (to, g_ptr_array_index (scrollers, 0), 0, 0, NULL,
                                                   &y));
  gtk_adjustment_set_value (place, gtk_adjustment_get_value (place) + y - 12);
}

static GtkWidget *
find_first (GtkWidget *root,
            GType      type)
{
  g_autoptr (GPtrArray) found = desk_find_all (root, type);

  g_assert_cmpuint (found->len, >, 0);
  return g_ptr_array_index (found, 0);
}

static void
test_valuation (DeskFixture   *fixture,
                gconstpointer  data)
{
  GtkWidget *page;

  add_heavy_claim (fixture);
  page = wb_valuation_page_new (fixture->model);
  desk_fixture_present (fixture, page, WIDTH, HEIGHT);
  assert_fits (page);
  save (fixture, "valuation");
}

static void
test_claim (DeskFixture   *fixture,
            gconstpointer  data)
{
  GtkWidget *page, *figure;

  add_heavy_claim (fixture);
  page = wb_claim_page_new (fixture->model);
  desk_fixture_present (fixture, page, WIDTH, HEIGHT);
  assert_fits (page);
  save (fixture, "claim-head");

  scroll (page, find_first (page, WB_TYPE_RECORD_TABLE));
  save (fixture, "claim-lines");

  scroll (page, find_first (page, WB_TYPE_RECKONING_BAR));
  save (fixture, "claim-reckoning");

  figure = find_first (page, WB_TYPE_FIGURE_BUTTON);
  scroll (page, figure);
  save (fixture, "claim-totals");
}

#define ADD(path, function) \
  g_test_add ("/desk/liability-look/" path, DeskFixture, NULL, desk_fixture_set_up, function, \
              desk_fixture_tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

  ADD ("valuation", test_valuation);
  ADD ("claim", test_claim);

  return g_test_run ();
}
