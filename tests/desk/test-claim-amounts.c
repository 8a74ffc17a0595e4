/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the adjuster enters beside a claim line, worked with the keyboard: quotes and the details of
 * the line. */
#include "config.h"

#include <adwaita.h>

#include "core/wb-depreciation.h"
#include "core/wb-quote.h"
#include "desk/claim/wb-cell.h"
#include "desk/claim/wb-claim-page.h"
#include "desk/claim/wb-line-details.h"
#include "desk/claim/wb-quote-box.h"
#include "desk/support/desk-fixture.h"
#include "office/wb-words-quote.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

static GtkWidget *
present_claim (DeskFixture *fixture)
{
  GtkWidget *page;

  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  page = wb_claim_page_new (fixture->model);
  desk_fixture_present (fixture, page, 1180, 1900);
  return page;
}

static void
type (DeskFixture *fixture,
      const char  *keys)
{
  wb_test_type (fixture->window, keys);
  desk_fixture_settle (fixture);
}

static const WbClaimLine *
get_line (DeskFixture *fixture,
          const char  *id)
{
  return wb_job_find (wb_job_model_get_job (fixture->model), WB_KIND_CLAIM_LINE, id);
}

static void
focus_cell (GtkWidget  *page,
            const char *id,
            const char *field)
{
  g_autoptr (GPtrArray) cells = desk_find_all (page, WB_TYPE_CELL);

  for (guint i = 0; i < cells->len; i++)
    {
      WbCell *cell = g_ptr_array_index (cells, i);
      g_autofree char *name = NULL;

      g_object_get (cell, "field", &name, NULL);
      if (g_str_equal (name, field) && g_strcmp0 (wb_cell_get_id (cell), id) == 0)
        {
          wb_cell_focus (cell);
          return;
        }
    }
}

static GtkWidget *
find_one (GtkWidget *root,
          GType      kind)
{
  g_autoptr (GPtrArray) found = desk_find_all (root, kind);

  g_assert_cmpuint (found->len, ==, 1);
  return g_ptr_array_index (found, 0);
}

/* --- quotes ----------------------------------------------------------------------------------- */

/* Two quotes are noted, one is taken and then the other; each taking is one step of undo. */
static void
test_quotes (DeskFixture   *fixture,
             gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  GtkWidget *box;
  g_autoptr (GPtrArray) quotes = NULL;

  focus_cell (page, "l2", "claim_line.item");
  desk_fixture_settle (fixture);
  box = find_one (page, WB_TYPE_QUOTE_BOX);
  g_assert_nonnull (desk_find_label (box, "Quotes for Line 2"));

  gtk_widget_activate_action (page, "claim.add-quote", NULL);
  desk_fixture_settle (fixture);
  type (fixture, "Hollin Joinery{Right}2026-06-03{Right}185.50\n");
  type (fixture, "Brook Repairs{Right}{Right}260");
  quotes = wb_quotes_of (wb_job_model_get_job (fixture->model), "l2");
  g_assert_cmpuint (quotes->len, ==, 2);
  g_assert_cmpint (get_line (fixture, "l2")->repair.minor, ==, 24000);

  /* What is being typed counts. */
  type (fixture, "{ctrl+Return}");
  g_assert_cmpint (get_line (fixture, "l2")->repair.minor, ==, 26000);
  type (fixture, "{Up}{ctrl+Return}");
  g_assert_cmpint (get_line (fixture, "l2")->repair.minor, ==, 18550);
  g_assert_cmpstr (wb_quote_taken (wb_job_model_get_job (fixture->model), "l2", WB_QUOTE_REPAIR)
                     ->source, ==, "Hollin Joinery");
  g_assert_nonnull (desk_find_label (box, "Taken"));
  wb_test_save_picture (fixture->window, "claim-quotes");

  wb_job_model_undo (fixture->model);
  desk_fixture_settle (fixture);
  g_assert_cmpint (get_line (fixture, "l2")->repair.minor, ==, 26000);
  g_assert_cmpstr (wb_quote_taken (wb_job_model_get_job (fixture->model), "l2", WB_QUOTE_REPAIR)
                     ->source, ==, "Brook Repairs");
}

/* The line says something else than the quote that was taken, and the page says so. */
static void
test_differs (DeskFixture   *fixture,
              gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  GtkWidget *box;
  g_autofree char *words = NULL;

  focus_cell (page, "l2", "claim_line.item");
  desk_fixture_put (fixture, WB_KIND_QUOTE, "q", "claim_line", "l2", "kind", "repair", "source",
                    "Hollin Joinery", "amount", "240", "taken", "yes", NULL);
  desk_fixture_settle (fixture);
  box = find_one (page, WB_TYPE_QUOTE_BOX);
  g_assert_nonnull (desk_find_label (box, "Taken"));

  desk_fixture_put (fixture, WB_KIND_CLAIM_LINE, "l2", "repair", "250", NULL);
  desk_fixture_settle (fixture);
  words = wb_words_quotes_differ (wb_job_model_get_job (fixture->model), "l2");
  g_assert_cmpstr (words, ==, "The line says $250.00 and the quote taken otherwise: Repair, "
                              "$240.00, Hollin Joinery.");
  g_assert_nonnull (desk_find_label (box, words));
  g_assert_nonnull (desk_find_label (box, "Taken, but the line says $250.00"));

  focus_cell (page, "l3", "claim_line.item");
  desk_fixture_settle (fixture);
  g_assert_null (desk_find_label (box, words));
  g_assert_nonnull (desk_find_label (box, "Quotes for Line 3"));
}

/* Without an amount there is nothing to take, and it is said in words. */
static void
test_no_amount (DeskFixture   *fixture,
                gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  GtkWidget *box;

  focus_cell (page, "l3", "claim_line.item");
  desk_fixture_settle (fixture);
  gtk_widget_activate_action (page, "claim.add-quote", NULL);
  desk_fixture_settle (fixture);
  type (fixture, "{ctrl+Return}");
  box = find_one (page, WB_TYPE_QUOTE_BOX);
  g_assert_nonnull (desk_find_label (box, "Something that is needed was not given. The quote says "
                                          "no amount. Fill it in and try again."));
  g_assert_false (wb_money_is_set (get_line (fixture, "l3")->replacement));
}

/* --- details ---------------------------------------------------------------------------------- */

/* The words of the line tell its category, which fills in the percentages; a person may choose
 * another. */
static void
test_category (DeskFixture   *fixture,
               gconstpointer  data)
{
  GtkWidget *page;
  GtkWidget *details;
  GtkWidget *choice;
  WbDepreciationRates rates;
  WbCatalog *catalog = wb_office_get_catalog (fixture->office);

  page = present_claim (fixture);
  desk_fixture_put (fixture, WB_KIND_CLAIM_LINE, "l2", "item", "Wool blanket, torn", NULL);
  focus_cell (page, "l2", "claim_line.item");
  desk_fixture_settle (fixture);
  gtk_widget_activate_action (page, "claim.show-details", NULL);
  desk_fixture_settle (fixture);
  details = find_one (page, WB_TYPE_LINE_DETAILS);
  gtk_widget_activate_action (details, "line.take-category", NULL);
  desk_fixture_settle (fixture);
  g_assert_cmpstr (get_line (fixture, "l2")->category, ==, "wool-blanket");
  g_assert_true (wb_depreciation_rates (catalog, "wool-blanket", &rates, NULL));
  g_assert_cmpint (get_line (fixture, "l2")->depreciation_yearly, ==, rates.yearly);
  g_assert_cmpint (rates.yearly, >, 0);
  wb_test_save_picture (fixture->window, "claim-details");

  choice = wb_test_find (details, GTK_TYPE_DROP_DOWN, NULL);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), 0);
  desk_fixture_settle (fixture);
  g_assert_null (get_line (fixture, "l2")->category);
  g_assert_cmpint (get_line (fixture, "l2")->depreciation_yearly, ==, WB_INTEGER_UNSET);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), 1);
  desk_fixture_settle (fixture);
  g_assert_cmpstr (get_line (fixture, "l2")->category, ==,
                   wb_catalog_nth (catalog, WB_CATALOG_DEPRECIATION, 0)->nick);

  /* Another line has its own. */
  focus_cell (page, "l3", "claim_line.item");
  desk_fixture_settle (fixture);
  g_assert_cmpuint (gtk_drop_down_get_selected (GTK_DROP_DOWN (choice)), ==, 0);
  g_assert_null (get_line (fixture, "l3")->category);
}

/* The rest of a set is claimed in one step. */
static void
test_set (DeskFixture   *fixture,
          gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  GtkWidget *details;
  const WbClaimLine *mate;
  WbJob *job;

  desk_fixture_put (fixture, WB_KIND_PIECE, "p2", "set", "dining", NULL);
  desk_fixture_put (fixture, WB_KIND_PIECE, "p3", "set", "dining", NULL);
  desk_fixture_put (fixture, WB_KIND_PIECE, "p4", "set", "dining", NULL);
  focus_cell (page, "l2", "claim_line.item");
  gtk_widget_activate_action (page, "claim.show-details", NULL);
  desk_fixture_settle (fixture);
  details = find_one (page, WB_TYPE_LINE_DETAILS);
  job = wb_job_model_get_job (fixture->model);
  gtk_widget_activate_action (details, "line.claim-mates", NULL);
  desk_fixture_settle (fixture);
  mate = wb_job_nth (wb_job_model_get_job (fixture->model), WB_KIND_CLAIM_LINE, 4);
  g_assert_cmpint (mate->number, ==, 5);
  g_assert_cmpstr (mate->piece, ==, "p4");
  g_assert_true (mate->set_mate);
  g_assert_cmpuint (wb_job_count (wb_job_model_get_job (fixture->model), WB_KIND_CLAIM_LINE), ==,
                    5);
  wb_job_model_undo (fixture->model);
  g_assert_true (wb_job_model_get_job (fixture->model) == job);
}

/* A defence is asked for when the line is denied, and a denial without a reason is told of. */
static void
test_denied (DeskFixture   *fixture,
             gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  GtkWidget *details;
  const char *say_why = "A denial has to give its reason (49 USC 14706(e)). Write it; no letter "
                        "goes out without it.";

  focus_cell (page, "l1", "claim_line.item");
  gtk_widget_activate_action (page, "claim.show-details", NULL);
  desk_fixture_settle (fixture);
  details = find_one (page, WB_TYPE_LINE_DETAILS);
  g_assert_null (desk_find_label (details, "Defence"));
  g_assert_null (desk_find_label (details, say_why));

  desk_fixture_put (fixture, WB_KIND_CLAIM_LINE, "l1", "ruling", "denied", NULL);
  desk_fixture_settle (fixture);
  g_assert_nonnull (desk_find_label (details, "Defence"));
  g_assert_nonnull (desk_find_label (details, say_why));
  desk_fixture_put (fixture, WB_KIND_CLAIM_LINE, "l1", "ruling_reason", "Seen later", NULL);
  desk_fixture_settle (fixture);
  g_assert_null (desk_find_label (details, say_why));
}

/* A payment for one line alone names it by its number. */
static void
test_payment (DeskFixture   *fixture,
              gconstpointer  data)
{
  GtkWidget *page;
  const WbPayment *payment;

  desk_fixture_put (fixture, WB_KIND_CLAIM, "c2", "number", "C-2026-0002", NULL);
  desk_fixture_put (fixture, WB_KIND_CLAIM_LINE, "k9", "claim", "c2", "number", "9", NULL);
  page = present_claim (fixture);
  desk_fixture_put (fixture, WB_KIND_PAYMENT, "p", "claim", "c1", NULL);
  g_object_set (page, "claim-id", "c1", NULL);
  desk_fixture_settle (fixture);
  focus_cell (page, "p", "payment.amount");
  type (fixture, "240{Right}2{Right}12.60{Right}");
  payment = wb_job_find (wb_job_model_get_job (fixture->model), WB_KIND_PAYMENT, "p");
  g_assert_cmpint (payment->amount.minor, ==, 24000);
  g_assert_cmpstr (payment->claim_line, ==, "l2");
  g_assert_cmpint (payment->freight_refund.minor, ==, 1260);

  /* A line of another claim is none of this one. */
  focus_cell (page, "p", "payment.claim_line");
  type (fixture, "9\n");
  payment = wb_job_find (wb_job_model_get_job (fixture->model), WB_KIND_PAYMENT, "p");
  g_assert_cmpstr (payment->claim_line, ==, "l2");
  type (fixture, "{Escape}{Delete}\n");
  payment = wb_job_find (wb_job_model_get_job (fixture->model), WB_KIND_PAYMENT, "p");
  g_assert_null (payment->claim_line);
}

/* --- what does not read ------------------------------------------------------------------------ */

static GtkWidget *
find_fault (GtkWidget  *page,
            const char *words)
{
  g_autoptr (GPtrArray) labels = desk_find_all (page, GTK_TYPE_LABEL);

  for (guint i = 0; i < labels->len; i++)
    if (gtk_widget_get_mapped (g_ptr_array_index (labels, i))
        && strstr (gtk_label_get_text (g_ptr_array_index (labels, i)), words) != NULL)
      return g_ptr_array_index (labels, i);
  return NULL;
}

/* Whether all of a widget is in the part of the page that is seen. */
static gboolean
is_in_view (gpointer data)
{
  GtkWidget *viewport = gtk_widget_get_ancestor (data, GTK_TYPE_VIEWPORT);
  graphene_rect_t place;

  return gtk_widget_compute_bounds (data, viewport, &place) && place.origin.y >= 0
         && place.origin.y + place.size.height <= gtk_widget_get_height (viewport);
}

/* In a low window the words below the table come into view together with what was typed. */
static void
test_fault_is_seen (DeskFixture   *fixture,
                    gconstpointer  data)
{
  GtkWidget *page, *fault;

  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  desk_fixture_put (fixture, WB_KIND_PAYMENT, "p", "claim", "c1", NULL);
  page = wb_claim_page_new (fixture->model);
  desk_fixture_present (fixture, page, 1180, 520);

  focus_cell (page, "p", "payment.amount");
  desk_fixture_settle (fixture);
  type (fixture, "a lot\n");
  /* The heading of the column stands before the words, and no name of a field. */
  fault = find_fault (page, "Amount: In “a lot”");
  g_assert_nonnull (fault);
  wb_test_wait_until (is_in_view, fault);
  g_assert_true (is_in_view (gtk_root_get_focus (GTK_ROOT (fixture->window))));
}

#define ADD(path, function) \
  g_test_add ("/desk/claim-amounts/" path, DeskFixture, NULL, desk_fixture_set_up, function, \
              desk_fixture_tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

  ADD ("quotes", test_quotes);
  ADD ("quote-differs", test_differs);
  ADD ("quote-without-amount", test_no_amount);

  ADD ("category", test_category);
  ADD ("set", test_set);
  ADD ("denied", test_denied);
  ADD ("payment", test_payment);
  ADD ("fault-is-seen", test_fault_is_seen);

  return g_test_run ();
}
