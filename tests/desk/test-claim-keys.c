/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The claim page worked with the keyboard alone: real keys through the X server, no mouse, no call
 * into the page. */
#include "config.h"

#include <adwaita.h>

#include "desk/claim/wb-bearing-box.h"
#include "desk/claim/wb-cell.h"
#include "desk/claim/wb-claim-head.h"
#include "desk/claim/wb-claim-page.h"
#include "desk/claim/wb-claim-steps.h"
#include "desk/claim/wb-figure-button.h"
#include "desk/claim/wb-reason-popover.h"
#include "desk/claim/wb-reckoning-table.h"
#include "desk/claim/wb-reckoning-view.h"
#include "desk/claim/wb-record-table.h"
#include "desk/claim/wb-verdict-box.h"
#include "desk/claim/wb-what-if.h"
#include "desk/support/desk-fixture.h"
#include "desk/widgets/wb-field-row.h"
#include "office/wb-frozen-reckoning.h"
#include "office/wb-words-evidence.h"
#include "office/wb-words.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

static GtkWidget *
present_claim (DeskFixture *fixture)
{
  GtkWidget *page;

  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  page = wb_claim_page_new (fixture->model);
  desk_fixture_present (fixture, page, 1180, 1500);
  return page;
}

static void
type (DeskFixture *fixture,
      const char  *keys)
{
  wb_test_type (fixture->window, keys);
  desk_fixture_settle (fixture);
}

static WbCell *
get_focused_cell (DeskFixture *fixture)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (fixture->window));

  g_assert_nonnull (focus);
  return WB_CELL (gtk_widget_get_ancestor (focus, WB_TYPE_CELL));
}

static void
assert_focus (DeskFixture *fixture,
              const char  *id,
              const char  *field)
{
  WbCell *cell = get_focused_cell (fixture);
  g_autofree char *name = NULL;

  g_assert_nonnull (cell);
  g_object_get (cell, "field", &name, NULL);
  g_assert_cmpstr (name, ==, field);
  g_assert_cmpstr (wb_cell_get_id (cell), ==, id);
}

/* Goes to a cell as a person would who comes from elsewhere. */
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
        wb_cell_focus (cell);
    }
}

/* As focus_cell(), for a row of the form. */
static void
focus_field (GtkWidget  *root,
             const char *name)
{
  g_autoptr (GPtrArray) rows = desk_find_all (root, WB_TYPE_FIELD_ROW);

  for (guint i = 0; i < rows->len; i++)
    {
      g_autofree char *field = NULL;

      g_object_get (g_ptr_array_index (rows, i), "field", &field, NULL);
      if (g_str_equal (field, name))
        gtk_widget_grab_focus (g_ptr_array_index (rows, i));
    }
}

static WbRecordTable *
find_table (GtkWidget *page)
{
  g_autoptr (GPtrArray) tables = desk_find_all (page, WB_TYPE_RECORD_TABLE);

  return g_ptr_array_index (tables, 0);
}

static const WbClaimLine *
get_line (DeskFixture *fixture,
          const char  *id)
{
  return wb_job_find (wb_job_model_get_job (fixture->model), WB_KIND_CLAIM_LINE, id);
}

static void
test_along_a_row (DeskFixture   *fixture,
                  gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);

  focus_cell (page, "l3", "claim_line.demanded");
  type (fixture, "175{Right}140{Right}{Right}");
  g_assert_cmpint (get_line (fixture, "l3")->demanded.minor, ==, 17500);
  g_assert_cmpint (get_line (fixture, "l3")->replacement.minor, ==, 14000);
  assert_focus (fixture, "l3", "claim_line.appearance");

  type (fixture, "{Left}{Left}");
  assert_focus (fixture, "l3", "claim_line.replacement");

  /* Within a text the arrows go through the text; its ends are the way on. */
  type (fixture, "{End}{Left}{Left}{Left}5{Right}");
  assert_focus (fixture, "l3", "claim_line.replacement");
  type (fixture, "{Right}{Right}{Right}");
  assert_focus (fixture, "l3", "claim_line.repair");
  g_assert_cmpint (get_line (fixture, "l3")->replacement.minor, ==, 140500);

  /* Over the end of the row, and back. */
  focus_cell (page, "l2", "claim_line.ruling_reason");
  type (fixture, "as the repairer says{Right}");
  g_assert_cmpstr (get_line (fixture, "l2")->ruling_reason, ==, "as the repairer says");
  assert_focus (fixture, "l3", "claim_line.number");
  type (fixture, "{Left}");
  assert_focus (fixture, "l2", "claim_line.ruling_reason");

  /* Not over the ends of the table. */
  focus_cell (page, "l4", "claim_line.ruling_reason");
  type (fixture, "{Right}");
  assert_focus (fixture, "l4", "claim_line.ruling_reason");
}

/* The whole table is one stop for Tab, which sets what was typed and comes back to where it was. */
static void
test_out_of_the_table (DeskFixture   *fixture,
                       gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);

  GtkWidget *before, *after;

  focus_cell (page, "l3", "claim_line.repair");
  type (fixture, "{shift+Tab}");
  before = gtk_root_get_focus (GTK_ROOT (fixture->window));
  g_assert_null (get_focused_cell (fixture));
  type (fixture, "\t");
  assert_focus (fixture, "l3", "claim_line.repair");

  type (fixture, "75\t");
  after = gtk_root_get_focus (GTK_ROOT (fixture->window));
  g_assert_null (get_focused_cell (fixture));
  g_assert_true (after != before);
  g_assert_cmpint (get_line (fixture, "l3")->repair.minor, ==, 7500);
  type (fixture, "{shift+Tab}{shift+Tab}");
  g_assert_true (gtk_root_get_focus (GTK_ROOT (fixture->window)) == before);

  /* Another line that was chosen meanwhile is the one to come to. */
  wb_record_table_select (find_table (page), "l2");
  type (fixture, "\t");
  assert_focus (fixture, "l2", "claim_line.repair");
}

static void
test_along_a_column (DeskFixture   *fixture,
                     gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);

  focus_cell (page, "l1", "claim_line.salvage");
  type (fixture, "5\n6\n7{Down}8{Up}");
  g_assert_cmpint (get_line (fixture, "l1")->salvage.minor, ==, 500);
  g_assert_cmpint (get_line (fixture, "l2")->salvage.minor, ==, 600);
  g_assert_cmpint (get_line (fixture, "l3")->salvage.minor, ==, 700);
  g_assert_cmpint (get_line (fixture, "l4")->salvage.minor, ==, 800);
  assert_focus (fixture, "l3", "claim_line.salvage");
}

static void
test_escape (DeskFixture   *fixture,
             gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  WbJob *before = wb_job_model_get_job (fixture->model);

  focus_cell (page, "l1", "claim_line.replacement");
  type (fixture, "12x\n");
  assert_focus (fixture, "l1", "claim_line.replacement");
  type (fixture, "{Escape}{Right}");
  g_assert_true (wb_job_model_get_job (fixture->model) == before);
  assert_focus (fixture, "l1", "claim_line.repair");
}

/* A whole new line: Enter past the last one, what it is, its piece by words, what happened, what it
 * cost. */
static void
test_new_line (DeskFixture   *fixture,
               gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  const WbClaimLine *line;

  focus_cell (page, "l4", "claim_line.item");
  type (fixture, "{End}\n");
  type (fixture, "Atlas, one volume{Right}atlas\n");
  line = wb_job_nth (wb_job_model_get_job (fixture->model), WB_KIND_CLAIM_LINE, 4);
  g_assert_cmpstr (line->item, ==, "Atlas, one volume");
  g_assert_cmpstr (line->piece, ==, "p4");
  wb_test_save_picture (fixture->window, "claim-new-line");
}

/* The list below the cell: down to the second piece that fits, and taken. */
static void
test_choose_piece (DeskFixture   *fixture,
                   gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  g_autoptr (GPtrArray) popovers = NULL;

  focus_cell (page, "l4", "claim_line.piece");
  type (fixture, "study");
  popovers = desk_find_all (GTK_WIDGET (get_focused_cell (fixture)), GTK_TYPE_POPOVER);
  g_assert_cmpuint (popovers->len, ==, 1);
  wb_test_save_picture (g_ptr_array_index (popovers, 0), "claim-piece-offers");
  type (fixture, "{Down}\n");
  g_assert_cmpstr (get_line (fixture, "l4")->piece, ==, "p4");

  focus_cell (page, "l4", "claim_line.piece");
  type (fixture, "nothing like it\t");
  g_assert_cmpstr (get_line (fixture, "l4")->piece, ==, "p4");
  g_assert_nonnull (desk_find_label (page, "Piece: No single piece has the tag “nothing like it”. "
                                           "Choose one from the list, or leave the cell empty when "
                                           "it is not on the inventory."));

  focus_cell (page, "l4", "claim_line.piece");
  type (fixture, "{Delete}\t");
  g_assert_null (get_line (fixture, "l4")->piece);
}

static void
test_choose_loss (DeskFixture   *fixture,
                  gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);

  /* An arrow goes from row to row, and past the last one nowhere. */
  focus_cell (page, "l4", "claim_line.loss");
  type (fixture, "{Down}");
  g_assert_cmpint (get_line (fixture, "l4")->loss, ==, WB_LOSS_MISSING);
  g_assert_cmpuint (wb_job_count (wb_job_model_get_job (fixture->model), WB_KIND_CLAIM_LINE), ==, 4);
  assert_focus (fixture, "l4", "claim_line.loss");
  focus_cell (page, "l3", "claim_line.loss");
  type (fixture, "{space}");
  type (fixture, "{Down}{Down}\n");
  g_assert_cmpint (get_line (fixture, "l3")->loss, ==, WB_LOSS_DESTROYED);
}

static gboolean
has_focus (DeskFixture *fixture,
           GtkWidget   *widget)
{
  return gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (fixture->window)), widget);
}

/* The figures of the lines are one stop too, with arrow keys all ways. */
static void
test_figures (DeskFixture   *fixture,
              gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  g_autoptr (GPtrArray) tables = desk_find_all (page, WB_TYPE_RECKONING_TABLE);
  GtkWidget *table = g_ptr_array_index (tables, 0);
  g_autoptr (GPtrArray) buttons = desk_find_all (table, WB_TYPE_FIGURE_BUTTON);
  guint row = WB_N_SIDES * WB_N_LINE_AMOUNTS;

  gtk_widget_grab_focus (g_ptr_array_index (buttons, 0));
  type (fixture, "{Right}{Down}");
  g_assert_true (has_focus (fixture, g_ptr_array_index (buttons, row + 1)));
  type (fixture, "{Left}{Left}");
  g_assert_true (has_focus (fixture, g_ptr_array_index (buttons, row - 1)));
  type (fixture, "{Up}");
  g_assert_true (has_focus (fixture, g_ptr_array_index (buttons, row - 1)));

  type (fixture, "\t");
  g_assert_false (has_focus (fixture, table));
  type (fixture, "{shift+Tab}");
  g_assert_true (has_focus (fixture, g_ptr_array_index (buttons, row - 1)));
}

static gboolean
is_focus_below (DeskFixture *fixture,
                GType        type)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (fixture->window));

  return focus != NULL && gtk_widget_get_ancestor (focus, type) != NULL;
}

/* From part to part of the page, around and back. */
static void
test_parts (DeskFixture   *fixture,
            gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  const GType parts[] = { WB_TYPE_CLAIM_HEAD, WB_TYPE_RECORD_TABLE, WB_TYPE_RECKONING_VIEW,
                          WB_TYPE_BEARING_BOX, WB_TYPE_CLAIM_STEPS };
  GtkWidget *first;

  gtk_widget_grab_focus (page);
  first = gtk_root_get_focus (GTK_ROOT (fixture->window));
  g_assert_true (GTK_IS_LIST_BOX_ROW (first));
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      gtk_widget_activate_action (page, "claim.next-part", NULL);
      if (parts[i] == WB_TYPE_RECORD_TABLE)
        g_assert_false (is_focus_below (fixture, WB_TYPE_CLAIM_HEAD));
      else
        g_assert_true (is_focus_below (fixture, parts[i]));
    }
  gtk_widget_activate_action (page, "claim.previous-part", NULL);
  g_assert_true (is_focus_below (fixture, WB_TYPE_BEARING_BOX));
  /* Steps, payments, and the list of claims again. */
  for (guint i = 0; i < 3; i++)
    gtk_widget_activate_action (page, "claim.next-part", NULL);
  g_assert_true (gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (fixture->window)),
                                         gtk_widget_get_ancestor (first, GTK_TYPE_BOX)));
}

/* Space on a figure says why; Escape goes back to it; the copy key copies a reason. */
static void
test_why (DeskFixture   *fixture,
          gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  g_autoptr (GPtrArray) tables = desk_find_all (page, WB_TYPE_RECKONING_TABLE);
  g_autoptr (GPtrArray) buttons = desk_find_all (g_ptr_array_index (tables, 0),
                                                 WB_TYPE_FIGURE_BUTTON);
  GtkWidget *first = g_ptr_array_index (buttons, 0);
  g_autoptr (GPtrArray) popovers = NULL;
  g_autoptr (GPtrArray) after = NULL;

  gtk_widget_grab_focus (first);
  type (fixture, "{space}");
  popovers = desk_find_all (first, WB_TYPE_REASON_POPOVER);
  g_assert_cmpuint (popovers->len, ==, 1);

  type (fixture, "{Escape}");
  after = desk_find_all (first, WB_TYPE_REASON_POPOVER);
  g_assert_cmpuint (after->len, ==, 0);
  g_assert_true (gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (fixture->window)), first));
}

/* --- what if ---------------------------------------------------------------------------------- */

static GtkWidget *
find_what_if (void)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);

      if (WB_IS_WHAT_IF (window))
        return window;
    }
  return NULL;
}

static gboolean
has_no_what_if (gpointer data)
{
  return find_what_if () == NULL;
}

/* What the claim comes to with another declared value and another replacement cost of line l1. */
static char *
owed_otherwise (DeskFixture *fixture,
                gint64       declared,
                gint64       replacement)
{
  WbJob *job = wb_job_model_get_job (fixture->model);
  g_autoptr (WbValuation) valuation = wb_record_copy (wb_job_valuation (job));
  g_autoptr (WbClaimLine) line = wb_record_copy (wb_job_find (job, WB_KIND_CLAIM_LINE, "l1"));
  g_autoptr (WbJob) half = NULL;
  g_autoptr (WbJob) other = NULL;
  g_autoptr (WbReckoning) reckoning = NULL;
  g_autofree char *owed = NULL;

  valuation->declared_value = wb_money (declared, "USD");
  line->replacement = wb_money (replacement, "USD");
  line->demanded = wb_money (replacement, "USD");
  half = wb_job_with (job, valuation);
  other = wb_job_with (half, line);
  reckoning = wb_office_reckon (fixture->office, other, "c1", NULL);
  owed = wb_words_minor (reckoning->side[WB_SIDE_FULL].owed, "USD");
  return reckoning->side[WB_SIDE_FULL].complete ? g_steal_pointer (&owed)
                                                : g_strdup_printf ("at least %s", owed);
}

/* The adjuster tries a higher declared value and another price; the job stays as it is. */
static void
test_what_if (DeskFixture   *fixture,
              gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  WbJob *before = wb_job_model_get_job (fixture->model);
  g_autofree char *now = owed_otherwise (fixture, wb_job_valuation (before)->declared_value.minor,
                                         get_line (fixture, "l1")->replacement.minor);
  g_autofree char *otherwise = owed_otherwise (fixture, 9000000, 500000);
  GtkWidget *what_if;

  g_assert_cmpstr (now, !=, otherwise);
  gtk_widget_activate_action (page, "claim.what-if", NULL);
  what_if = find_what_if ();
  g_assert_nonnull (what_if);
  wb_test_wait_until_drawn (what_if);
  g_assert_nonnull (desk_find_label (what_if, now));

  focus_field (what_if, "valuation.declared_value");
  wb_test_type (what_if, "{ctrl+a}90000\n");
  focus_cell (what_if, "l1", "claim_line.demanded");
  wb_test_type (what_if, "{ctrl+a}5000{Right}{ctrl+a}5000{Right}");
  desk_fixture_settle (fixture);
  g_assert_nonnull (desk_find_label (what_if, otherwise));
  wb_test_save_picture (what_if, "what-if");

  wb_test_type (what_if, "{ctrl+r}");
  desk_fixture_settle (fixture);
  g_assert_null (desk_find_label (what_if, otherwise));
  g_assert_nonnull (desk_find_label (what_if, now));

  wb_test_type (what_if, "{ctrl+w}");
  wb_test_wait_until (has_no_what_if, NULL);
  g_assert_true (wb_job_model_get_job (fixture->model) == before);
}

/* --- verdict ---------------------------------------------------------------------------------- */

/* A proposal is accepted by a key, and overridden with a reason; what was proposed stays. */
static void
test_verdict (DeskFixture   *fixture,
              gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  g_autoptr (WbReckoning) reckoning = NULL;
  g_autoptr (WbProposal) proposal = NULL;
  g_autoptr (GPtrArray) boxes = NULL;
  g_autofree char *words = NULL;
  GtkWidget *box;
  GtkWidget *notice;
  GtkWidget *choice;
  WbJob *before;
  const char *say_why = "This is another verdict than the papers propose. It stands as soon as its "
                        "reason is written.";

  focus_cell (page, "l1", "claim_line.item");
  desk_fixture_settle (fixture);
  reckoning = wb_office_reckon (fixture->office, wb_job_model_get_job (fixture->model), "c1", NULL);
  proposal = wb_propose (reckoning->terms, reckoning->job, get_line (fixture, "l1"), NULL);
  words = wb_words_proposal (proposal);
  boxes = desk_find_all (page, WB_TYPE_VERDICT_BOX);
  box = g_ptr_array_index (boxes, 0);
  g_assert_nonnull (desk_find_label (box, words));

  gtk_widget_activate_action (page, "claim.accept-proposal", NULL);
  desk_fixture_settle (fixture);
  g_assert_cmpint (get_line (fixture, "l1")->verdict, ==, proposal->verdict);
  g_assert_cmpint (get_line (fixture, "l1")->proposed, ==, proposal->verdict);
  g_assert_null (desk_find_label (box, say_why));

  /* Another verdict stands only with its reason. */
  g_assert_cmpint (proposal->verdict, !=, WB_VERDICT_DEFENCE);
  before = wb_job_model_get_job (fixture->model);
  choice = wb_test_find (box, GTK_TYPE_DROP_DOWN, NULL);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), WB_VERDICT_DEFENCE);
  desk_fixture_settle (fixture);
  g_assert_true (wb_job_model_get_job (fixture->model) == before);
  notice = desk_find_label (box, say_why);
  g_assert_nonnull (notice);

  /* The focus is in the reason already. */
  type (fixture, "An act of the shipper\n");
  g_assert_cmpint (get_line (fixture, "l1")->verdict, ==, WB_VERDICT_DEFENCE);
  g_assert_cmpint (get_line (fixture, "l1")->proposed, ==, proposal->verdict);
  g_assert_cmpstr (get_line (fixture, "l1")->verdict_reason, ==, "An act of the shipper");
  g_assert_false (gtk_widget_get_mapped (notice));
  wb_test_save_picture (fixture->window, "claim-verdict");

  /* Nor can the reason be taken away from under it. */
  type (fixture, "{ctrl+a}{Delete}\n");
  g_assert_cmpstr (get_line (fixture, "l1")->verdict_reason, ==, "An act of the shipper");
  type (fixture, "{Escape}");
  wb_job_model_undo (fixture->model);
  desk_fixture_settle (fixture);
  g_assert_cmpint (get_line (fixture, "l1")->verdict, ==, proposal->verdict);
  g_assert_null (get_line (fixture, "l1")->verdict_reason);

  /* A choice that waits for its reason is given up with Escape. */
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), WB_VERDICT_TOO_LATE);
  desk_fixture_settle (fixture);
  type (fixture, "{Escape}");
  g_assert_cmpuint (gtk_drop_down_get_selected (GTK_DROP_DOWN (choice)), ==,
                    (guint) proposal->verdict);
}

/* --- steps ------------------------------------------------------------------------------------ */

static gboolean
has_step (gpointer fixture)
{
  return wb_job_count (wb_job_model_get_job (((DeskFixture *) fixture)->model), WB_KIND_STEP) == 1;
}

/* An offer is one step back: the step, the claim's status and day go together, and the reckoning
 * that went out with it can be made again whatever becomes of the claim. */
static void
test_take_step (DeskFixture   *fixture,
                gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  g_autoptr (GPtrArray) sections = desk_find_all (page, WB_TYPE_CLAIM_STEPS);
  GtkWidget *section = g_ptr_array_index (sections, 0);
  g_autoptr (WbReckoning) reckoning = NULL;
  g_autoptr (WbFrozenCheck) check = NULL;
  g_autoptr (GError) error = NULL;
  const WbClaimStep *step;
  const WbClaim *claim;
  WbJob *job;

  reckoning = wb_office_reckon (fixture->office, wb_job_model_get_job (fixture->model), "c1", NULL);
  gtk_widget_activate_action (section, "steps.take", "s", "offer");
  wb_test_wait_until (has_step, fixture);
  desk_fixture_settle (fixture);
  /* Past the last row the menu offers the next step. */
  type (fixture, "By letter\n");
  type (fixture, "{Escape}");

  job = wb_job_model_get_job (fixture->model);
  step = wb_job_nth (job, WB_KIND_STEP, 0);
  claim = wb_job_find (job, WB_KIND_CLAIM, "c1");
  g_assert_cmpint (step->kind, ==, WB_STEP_OFFER);
  g_assert_cmpstr (step->text, ==, "By letter");
  g_assert_cmpint (step->amount.minor, ==, reckoning->side[reckoning->applies].balance);
  g_assert_cmpint (claim->status, ==, WB_CLAIM_OFFERED);
  g_assert_true (wb_date_is_set (&claim->decided_on));

  wb_job_model_set_field (fixture->model, WB_KIND_CLAIM_LINE, "l1", "replacement", "1", &error);
  g_assert_no_error (error);
  check = wb_office_verify_reckoning (fixture->office, step->frozen, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (check->reproduced);

  wb_job_model_undo (fixture->model);
  wb_job_model_undo (fixture->model);
  wb_job_model_undo (fixture->model);
  job = wb_job_model_get_job (fixture->model);
  g_assert_cmpuint (wb_job_count (job, WB_KIND_STEP), ==, 0);
  claim = wb_job_find (job, WB_KIND_CLAIM, "c1");
  g_assert_cmpint (claim->status, ==, WB_CLAIM_OPEN);
}

/* What is paid is ruled beside the verdict: allowed, or denied with a reason that is asked for at
 * once. */
static void
test_ruling (DeskFixture   *fixture,
             gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);
  WbJob *before;

  focus_cell (page, "l2", "claim_line.item");
  desk_fixture_settle (fixture);
  g_assert_cmpint (get_line (fixture, "l2")->ruling, ==, WB_RULING_OPEN);
  gtk_widget_activate_action (page, "claim.allow-line", NULL);
  desk_fixture_settle (fixture);
  g_assert_cmpint (get_line (fixture, "l2")->ruling, ==, WB_RULING_ALLOWED);
  before = wb_job_model_get_job (fixture->model);
  gtk_widget_activate_action (page, "claim.allow-line", NULL);
  g_assert_true (wb_job_model_get_job (fixture->model) == before);

  gtk_widget_activate_action (page, "claim.deny-line", NULL);
  desk_fixture_settle (fixture);
  type (fixture, "Broken before the move\n");
  g_assert_cmpint (get_line (fixture, "l2")->ruling, ==, WB_RULING_DENIED);
  g_assert_cmpstr (get_line (fixture, "l2")->ruling_reason, ==, "Broken before the move");
  g_assert_cmpint (get_line (fixture, "l1")->ruling, ==, WB_RULING_ALLOWED);
  wb_test_save_picture (fixture->window, "claim-ruling");

  /* One step of undo each. */
  wb_job_model_undo (fixture->model);
  wb_job_model_undo (fixture->model);
  g_assert_cmpint (get_line (fixture, "l2")->ruling, ==, WB_RULING_ALLOWED);
}

#define ADD(path, function) \
  g_test_add ("/desk/claim-keys/" path, DeskFixture, NULL, desk_fixture_set_up, function, \
              desk_fixture_tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

  ADD ("along-a-row", test_along_a_row);
  ADD ("out-of-the-table", test_out_of_the_table);
  ADD ("along-a-column", test_along_a_column);
  ADD ("escape", test_escape);
  ADD ("new-line", test_new_line);
  ADD ("choose-piece", test_choose_piece);
  ADD ("choose-loss", test_choose_loss);
  ADD ("figures", test_figures);
  ADD ("parts", test_parts);
  ADD ("why", test_why);
  ADD ("what-if", test_what_if);
  ADD ("take-step", test_take_step);
  ADD ("verdict", test_verdict);
  ADD ("ruling", test_ruling);

  return g_test_run ();
}
