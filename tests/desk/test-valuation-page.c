/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include <adwaita.h>

#include "core/wb-valuation-preview.h"
#include "desk/support/desk-fixture.h"
#include "desk/valuation/wb-side-panel.h"
#include "office/wb-side-statements.h"
#include "desk/valuation/wb-valuation-page.h"
#include "office/wb-words.h"
#include "support/wb-test-window.h"

static GtkWidget *
present_page (DeskFixture *fixture)
{
  GtkWidget *page = wb_valuation_page_new (fixture->model);

  desk_fixture_present (fixture, page, 1180, 1400);
  return page;
}

static GtkWidget *
get_panel (GtkWidget *page,
           WbSide     side)
{
  g_autoptr (GPtrArray) panels = desk_find_all (page, WB_TYPE_SIDE_PANEL);

  g_assert_cmpuint (panels->len, ==, WB_N_SIDES);
  return g_ptr_array_index (panels, side);
}

/* Some label of @root says @text, alone or among other sentences. */
static void
assert_says (GtkWidget  *root,
             const char *text)
{
  g_autoptr (GPtrArray) labels = desk_find_all (root, GTK_TYPE_LABEL);

  for (guint i = 0; i < labels->len; i++)
    if (strstr (gtk_label_get_text (g_ptr_array_index (labels, i)), text) != NULL)
      return;

  g_error ("nothing says “%s”", text);
}

/* The shipment's own figures, on the side that they belong to. */
static void
test_figures (DeskFixture   *fixture,
              gconstpointer  data)
{
  GtkWidget *page, *released, *full;
  int left, right;

  desk_fixture_add_move (fixture);
  page = present_page (fixture);
  released = get_panel (page, WB_SIDE_RELEASED);
  full = get_panel (page, WB_SIDE_FULL);

  /* 90 lb at 0.60; 62 + 90 + 12 + 48 lb together. */
  assert_says (released, "At $0.60 per pound, the heaviest piece on this inventory (90 lb, blue "
                         "204-008) would bring at most $54.00.");
  assert_says (released, "the 4 articles with a weight on this inventory would bring at most "
                         "$127.20 together.");
  assert_says (released, "49 CFR 375.203(b)");
  assert_says (released, "no value need be declared");

  /* 7,000 lb at 6.00. */
  assert_says (full, "The shipment weighs 7,000 lb");
  assert_says (full, "At $6.00 per pound that makes $42,000.00.");
  assert_says (full, "No value was declared, so the least value counts.");
  assert_says (full, "So the carrier answers for up to $42,000.00 for the whole shipment.");
  assert_says (full, "$100.00 per pound");

  /* Beside each other, equally wide. */
  left = gtk_widget_get_width (released);
  right = gtk_widget_get_width (full);
  g_assert_cmpint (left, ==, right);
  g_assert_cmpint (left, >, 400);

  wb_test_save_picture (fixture->window, "valuation-page");
}

/* Every statement and every source that there is stands in the panel. */
static void
test_statements (DeskFixture   *fixture,
                 gconstpointer  data)
{
  g_autoptr (WbValuationPreview) preview = NULL;
  g_autoptr (GError) error = NULL;
  GtkWidget *page;
  WbJob *job;

  desk_fixture_add_move (fixture);
  desk_fixture_put (fixture, WB_KIND_PIECE, "p9", "tag", "30", "lot", "lot", "listed_value", "5200",
                    NULL);
  desk_fixture_put (fixture, WB_KIND_VALUATION, NULL, "choice", "full", "declared_value", "12000",
                    "deductible", "500", NULL);
  page = present_page (fixture);

  job = wb_job_model_get_job (fixture->model);
  preview = wb_valuation_preview (wb_terms_set_find (wb_office_get_terms (fixture->office),
                                                     wb_job_order (job), NULL), job,
                                  &error);
  g_assert_no_error (error);
  for (int side = 0; side < WB_N_SIDES; side++)
    {
      g_autoptr (GPtrArray) list = wb_side_statements (preview, (WbSide) side);

      g_assert_cmpuint (list->len, >, 3);
      for (guint i = 0; i < list->len; i++)
        {
          const WbStatement *statement = g_ptr_array_index (list, i);

          g_assert_nonnull (desk_find_label (get_panel (page, (WbSide) side), statement->text));
          if (statement->source != NULL)
            g_assert_nonnull (desk_find_label (get_panel (page, (WbSide) side), statement->source));
        }
    }

  assert_says (get_panel (page, WB_SIDE_FULL), "The declared value of $12,000.00 is under the "
                                               "least value and is raised to $42,000.00.");
  assert_says (get_panel (page, WB_SIDE_FULL), "The customer bears the first $500.00, once for the "
                                               "whole shipment.");
  assert_says (get_panel (page, WB_SIDE_FULL), "1 piece has a listed value, $5,200.00, but no "
                                               "signed list is noted below");
  assert_says (get_panel (page, WB_SIDE_RELEASED), "1 article on the inventory has no weight and "
                                                   "is left out.");
}

typedef struct
{
  const char *field;
  guint       gap;
} GapCase;

static const GapCase gap_cases[] = {
  { "signed_by", WB_WAIVER_NO_SIGNER },
  { "signed_on", WB_WAIVER_NO_DATE },
  { "signed_how", WB_WAIVER_NO_MANNER },
  { "disclosure", WB_WAIVER_NO_DISCLOSURE },
};

/* A waiver that lacks anything is none, and the page says what it lacks and what that means in
 * money. */
static void
test_gaps (DeskFixture   *fixture,
           gconstpointer  data)
{
  GtkWidget *page;

  desk_fixture_add_move (fixture);
  desk_fixture_waive (fixture);
  page = present_page (fixture);
  assert_says (page, "Released value applies: the shipper chose it and waived full value in due "
                     "form.");
  assert_says (page, "Signed by Odile Varga on 1 May 2026 · On paper · Disclosure given: Both "
                     "choices explained in writing.");
  assert_says (get_panel (page, WB_SIDE_RELEASED), "Applies to this shipment");

  for (guint i = 0; i < G_N_ELEMENTS (gap_cases); i++)
    {
      g_autofree char *words = wb_words_waiver_gaps (gap_cases[i].gap);

      desk_fixture_put (fixture, WB_KIND_VALUATION, NULL, gap_cases[i].field, NULL, NULL);
      desk_fixture_settle (fixture);
      g_assert_cmpuint (wb_job_waiver_gaps (wb_job_model_get_job (fixture->model)), ==,
                        gap_cases[i].gap);
      assert_says (page, "Full value protection applies although released value was chosen");
      assert_says (page, words);
      if (wb_valuation_gap_note (wb_job_model_get_job (fixture->model), gap_cases[i].field) != NULL)
        assert_says (page, "The waiver does not count without the");
      assert_says (page, "The carrier answers for up to $42,000.00 if all is lost. Released value "
                         "would come to at most $127.20. What the waiver lacks means up to "
                         "$41,872.80 more.");
      assert_says (get_panel (page, WB_SIDE_FULL), "Applies to this shipment");
      assert_says (get_panel (page, WB_SIDE_RELEASED), "Does not apply");

      if (i == 0)
        wb_test_save_picture (fixture->window, "valuation-gap");
      wb_job_model_undo (fixture->model);
      desk_fixture_settle (fixture);
      assert_says (get_panel (page, WB_SIDE_RELEASED), "Applies to this shipment");
    }
}

/* Washington's terms list charges: a press on one sets the deductible and the charge in one
 * step. */
static void
test_charges (DeskFixture   *fixture,
              gconstpointer  data)
{
  const WbValuation *valuation;
  GtkWidget *page, *full;

  desk_fixture_add_move (fixture);
  desk_fixture_put (fixture, WB_KIND_ORDER, NULL, "move_type", "intrastate", "region", "WA", NULL);
  desk_fixture_put (fixture, WB_KIND_WEIGHING, "w1", "net", "8000 lb", NULL);
  desk_fixture_put (fixture, WB_KIND_VALUATION, NULL, "choice", "full", NULL);
  page = present_page (fixture);
  full = get_panel (page, WB_SIDE_FULL);

  /* Published: 8,000 lb at 5.00 is 40,000; 560 without a deductible, 440 with one of 300. */
  assert_says (full, "$560.00, at $1.40 for each 100 of value");
  assert_says (full, "$440.00, at $1.10 for each 100 of value");
  assert_says (full, "Deductible of $300.00");
  assert_says (page, "By the terms the charge is $560.00.");
  wb_test_save_picture (fixture->window, "valuation-charges");

  gtk_widget_activate_action (page, "valuation.use-charge", "(uu)", (guint) WB_SIDE_FULL, 1u);
  valuation = wb_job_valuation (wb_job_model_get_job (fixture->model));
  g_assert_cmpint (valuation->deductible.minor, ==, 30000);
  g_assert_cmpint (valuation->charge.minor, ==, 44000);
  desk_fixture_settle (fixture);
  assert_says (full, "The customer bears the first $300.00");

  wb_job_model_undo (fixture->model);
  valuation = wb_job_valuation (wb_job_model_get_job (fixture->model));
  g_assert_false (wb_money_is_set (valuation->deductible));
  g_assert_false (wb_money_is_set (valuation->charge));

  /* A place that the list does not have changes nothing. */
  gtk_widget_activate_action (page, "valuation.use-charge", "(uu)", (guint) WB_SIDE_FULL, 7u);
  gtk_widget_activate_action (page, "valuation.use-charge", "(uu)", 9u, 0u);
  g_assert_true (wb_job_valuation (wb_job_model_get_job (fixture->model)) == valuation);
}

typedef struct
{
  const char *move_type;
  const char *picked_up_on;
  const char *expected;
} TermsCase;

static const TermsCase terms_cases[] = {
  { NULL, NULL, "the type of the move and the day of pick-up are missing. Enter both on the Order "
                "page." },
  { NULL, "2026-05-04", "the type of the move is missing. Enter it on the Order page." },
  { "interstate", NULL, "the day of pick-up is missing. Enter it on the Order page" },
};

static void
test_no_terms (DeskFixture   *fixture,
               gconstpointer  data)
{
  g_autoptr (GPtrArray) panels = NULL;
  GtkWidget *page = present_page (fixture);

  for (guint i = 0; i < G_N_ELEMENTS (terms_cases); i++)
    {
      desk_fixture_put (fixture, WB_KIND_ORDER, NULL, "move_type", terms_cases[i].move_type,
                    "picked_up_on", terms_cases[i].picked_up_on, NULL);
      desk_fixture_settle (fixture);
      assert_says (page, terms_cases[i].expected);
      panels = desk_find_all (page, WB_TYPE_SIDE_PANEL);
      g_assert_cmpuint (panels->len, ==, 0);
      g_clear_pointer (&panels, g_ptr_array_unref);
    }

  desk_fixture_put (fixture, WB_KIND_ORDER, NULL, "picked_up_on", "2026-05-04", NULL);
  desk_fixture_settle (fixture);
  assert_says (get_panel (page, WB_SIDE_FULL), "no weight is known. Enter a weighing, the volume "
                                               "or an estimate on the Order page.");
  assert_says (get_panel (page, WB_SIDE_RELEASED), "Nothing is on the inventory yet");
}

/* What is typed into a row reaches the job, and the panels follow. */
static void
test_typing (DeskFixture   *fixture,
             gconstpointer  data)
{
  GtkWidget *page, *row;
  WbJob *before;

  desk_fixture_add_move (fixture);
  page = present_page (fixture);
  row = wb_test_find (page, ADW_TYPE_ENTRY_ROW, "Declared value");
  g_assert_nonnull (row);

  gtk_widget_grab_focus (row);
  wb_test_settle ();
  gtk_editable_set_text (GTK_EDITABLE (row), "65,000");
  g_signal_emit_by_name (row, "entry-activated");
  desk_fixture_settle (fixture);
  assert_says (get_panel (page, WB_SIDE_FULL), "The declared value of $65,000.00 counts.");

  before = wb_job_model_get_job (fixture->model);
  gtk_editable_set_text (GTK_EDITABLE (row), "much");
  g_signal_emit_by_name (row, "entry-activated");
  g_assert_true (wb_job_model_get_job (fixture->model) == before);
  assert_says (page, "“much”");
}

#define ADD(path, function) \
  g_test_add ("/desk/valuation-page/" path, DeskFixture, NULL, desk_fixture_set_up, function, \
              desk_fixture_tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

  ADD ("figures", test_figures);
  ADD ("statements", test_statements);
  ADD ("gaps", test_gaps);
  ADD ("charges", test_charges);
  ADD ("no-terms", test_no_terms);
  ADD ("typing", test_typing);

  return g_test_run ();
}
