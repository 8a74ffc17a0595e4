/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include <adwaita.h>

#include "desk/support/desk-fixture.h"
#include "desk/support/wb-desk-book.h"
#include "desk/claim/wb-amount.h"
#include "desk/claim/wb-cell.h"
#include "desk/claim/wb-claim-page.h"
#include "desk/claim/wb-claim-row.h"
#include "desk/claim/wb-evidence-card.h"
#include "desk/claim/wb-figure-button.h"
#include "desk/claim/wb-line-notices.h"
#include "desk/claim/wb-reason-popover.h"
#include "desk/claim/wb-reckoning-bar.h"
#include "desk/claim/wb-reckoning-parts.h"
#include "desk/claim/wb-reckoning-table.h"
#include "desk/claim/wb-record-table.h"
#include "desk/claim/wb-side-totals.h"
#include "desk/widgets/wb-field-row.h"
#include "desk/widgets/wb-reveal.h"
#include "office/wb-words-evidence.h"
#include "office/wb-words.h"
#include "support/wb-test-window.h"

/* --- looking at the page ---------------------------------------------------------------------- */

static GtkWidget *
present_claim (DeskFixture *fixture)
{
  GtkWidget *page = wb_claim_page_new (fixture->model);

  desk_fixture_present (fixture, page, 1180, 2400);
  return page;
}

static WbReckoning *
reckon (DeskFixture *fixture)
{
  g_autoptr (GError) error = NULL;
  WbReckoning *reckoning = wb_office_reckon (fixture->office, wb_job_model_get_job (fixture->model),
                                             "c1", &error);

  g_assert_no_error (error);
  return reckoning;
}

static GtkWidget *
find_first (GtkWidget *root,
            GType      type)
{
  g_autoptr (GPtrArray) found = desk_find_all (root, type);

  g_assert_cmpuint (found->len, >, 0);
  return g_ptr_array_index (found, 0);
}

/* The cell of a table in the row of @id. */
static WbCell *
find_cell (GtkWidget  *page,
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
        return cell;
    }

  g_error ("there is no cell %s of %s", field, id);
}

static GtkEditable *
get_entry (WbCell *cell)
{
  return GTK_EDITABLE (find_first (GTK_WIDGET (cell), GTK_TYPE_ENTRY));
}

/* --- figures ---------------------------------------------------------------------------------- */

/* The figure beside the label of an amount. */
static GtkWidget *
find_total (GtkWidget *totals,
            WbAmount   amount)
{
  GtkWidget *label = desk_find_label (totals, wb_amount_label (amount));

  return label != NULL ? gtk_widget_get_next_sibling (label) : NULL;
}

static const char *
get_total (GtkWidget *totals,
           WbAmount   amount)
{
  GtkWidget *figure = find_total (totals, amount);

  return figure != NULL ? wb_answer_button_get_text (WB_ANSWER_BUTTON (figure)) : NULL;
}

static void
assert_totals (GtkWidget         *page,
               const WbReckoning *reckoning)
{
  g_autoptr (GPtrArray) totals = desk_find_all (page, WB_TYPE_SIDE_TOTALS);

  g_assert_cmpuint (totals->len, ==, WB_N_SIDES);
  for (int side = 0; side < WB_N_SIDES; side++)
    {
      const WbSideReckoning *figures = &reckoning->side[side];
      g_autofree char *loss = wb_words_minor (figures->loss, "USD");
      g_autofree char *allowed = wb_words_minor (figures->allowed, "USD");
      g_autofree char *owed = wb_words_minor (figures->owed, "USD");
      g_autofree char *balance = wb_words_minor (figures->balance, "USD");
      GtkWidget *panel = g_ptr_array_index (totals, side);

      g_assert_cmpstr (get_total (panel, WB_AMOUNT_LOSS), ==, loss);
      g_assert_cmpstr (get_total (panel, WB_AMOUNT_ALLOWED), ==, allowed);
      g_assert_cmpstr (get_total (panel, WB_AMOUNT_OWED), ==, owed);
      g_assert_cmpstr (get_total (panel, WB_AMOUNT_BALANCE), ==, balance);
    }
}

/* What a line's amount looks like: nothing was reckoned for an incomplete one. */
static char *
expected_text (const WbLineFigures *figures,
               gint64               value)
{
  return figures->complete || value != 0 ? wb_words_minor (value, "USD") : g_strdup ("–");
}

static void
assert_lines (GtkWidget         *page,
              const WbReckoning *reckoning)
{
  GtkWidget *table = find_first (page, WB_TYPE_RECKONING_TABLE);
  g_autoptr (GPtrArray) buttons = desk_find_all (table, WB_TYPE_FIGURE_BUTTON);
  guint next = 0;

  g_assert_cmpuint (buttons->len, ==, reckoning->n_lines * WB_N_SIDES * 4);
  for (guint i = 0; i < reckoning->n_lines; i++)
    for (int side = 0; side < WB_N_SIDES; side++)
      {
        const WbLineFigures *figures = &reckoning->lines[i].side[side];
        const gint64 values[] = { figures->loss, figures->allowed, figures->deducted,
                                  figures->owed };

        for (guint j = 0; j < G_N_ELEMENTS (values); j++)
          {
            g_autofree char *expected = expected_text (figures, values[j]);

            g_assert_cmpstr (wb_answer_button_get_text (g_ptr_array_index (buttons, next++)), ==,
                             expected);
          }
      }
}

static void
test_figures (DeskFixture   *fixture,
              gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  GtkWidget *page;

  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  reckoning = reckon (fixture);
  page = present_claim (fixture);

  g_assert_cmpint (reckoning->applies, ==, WB_SIDE_FULL);
  g_assert_cmpint (reckoning->side[WB_SIDE_FULL].owed, >, reckoning->side[WB_SIDE_RELEASED].owed);
  assert_totals (page, reckoning);
  assert_lines (page, reckoning);
  wb_test_save_picture (fixture->window, "claim-page");
}

/* The same page follows a change of the choice and of a line. */
static void
test_follows (DeskFixture   *fixture,
              gconstpointer  data)
{
  g_autoptr (WbReckoning) before = NULL;
  g_autoptr (WbReckoning) after = NULL;
  GtkWidget *page;

  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  before = reckon (fixture);
  page = present_claim (fixture);

  desk_fixture_waive (fixture);
  desk_fixture_put (fixture, WB_KIND_CLAIM_LINE, "l3", "replacement", "140", NULL);
  desk_fixture_settle (fixture);
  after = reckon (fixture);
  g_assert_cmpint (after->applies, ==, WB_SIDE_RELEASED);
  g_assert_cmpint (after->side[WB_SIDE_FULL].owed, >, before->side[WB_SIDE_FULL].owed);
  assert_totals (page, after);
  assert_lines (page, after);

  wb_job_model_undo (fixture->model);
  wb_job_model_undo (fixture->model);
  desk_fixture_settle (fixture);
  assert_totals (page, before);
  assert_lines (page, before);
}

/* --- why -------------------------------------------------------------------------------------- */

static void
text_read_cb (GObject      *source,
              GAsyncResult *result,
              gpointer      data)
{
  g_autoptr (GError) error = NULL;

  *(char **) data = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (source), result, &error);
  g_assert_no_error (error);
}

static gboolean
is_set (gpointer data)
{
  return *(gpointer *) data != NULL;
}

static char *
read_clipboard (GtkWidget *widget)
{
  char *text = NULL;

  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (widget), NULL, text_read_cb, &text);
  wb_test_wait_until (is_set, &text);
  return text;
}

static void
assert_explains (GtkWidget         *button,
                 const WbReckoning *reckoning,
                 int                line,
                 WbSide             side,
                 WbAmount           amount)
{
  g_autoptr (GPtrArray) reasons = wb_amount_reasons (reckoning, line, side, amount);
  g_autofree char *copied = NULL;
  GtkWidget *popover;

  wb_answer_button_explain (WB_ANSWER_BUTTON (button));
  wb_test_settle ();
  popover = find_first (button, WB_TYPE_REASON_POPOVER);
  wb_test_wait_until_drawn (popover);

  g_assert_cmpuint (reasons->len, >, 0);
  gtk_widget_activate_action (popover, "reason.copy-all", NULL);
  copied = read_clipboard (popover);
  for (guint i = 0; i < reasons->len; i++)
    {
      g_autofree char *sentence = wb_words_reason (reckoning, g_ptr_array_index (reasons, i));
      const char *source = wb_words_reason_source (reckoning, g_ptr_array_index (reasons, i));

      g_assert_nonnull (desk_find_label (popover, sentence));
      g_assert_nonnull (strstr (copied, sentence));
      if (source != NULL)
        g_assert_nonnull (desk_find_label (popover, source));
    }

  gtk_popover_popdown (GTK_POPOVER (popover));
  wb_test_settle ();
}

static void
test_why (DeskFixture   *fixture,
          gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  g_autoptr (GPtrArray) buttons = NULL;
  g_autoptr (GPtrArray) totals = NULL;
  GtkWidget *page, *popover;
  guint next = 0;

  desk_fixture_add_move (fixture);
  desk_fixture_put (fixture, WB_KIND_VALUATION, NULL, "choice", "full", "declared_value", "50000",
                    "deductible", "250", NULL);
  desk_fixture_add_claim (fixture);
  reckoning = reckon (fixture);
  page = present_claim (fixture);

  buttons = desk_find_all (find_first (page, WB_TYPE_RECKONING_TABLE), WB_TYPE_FIGURE_BUTTON);
  for (guint i = 0; i < reckoning->n_lines; i++)
    for (int side = 0; side < WB_N_SIDES; side++)
      for (int amount = 0; amount < 4; amount++)
        assert_explains (g_ptr_array_index (buttons, next++), reckoning, (int) i, (WbSide) side,
                         (WbAmount) amount);

  totals = desk_find_all (page, WB_TYPE_SIDE_TOTALS);
  for (int side = 0; side < WB_N_SIDES; side++)
    {
      for (int amount = 0; amount < WB_N_AMOUNTS; amount++)
        {
          GtkWidget *figure = find_total (g_ptr_array_index (totals, side), (WbAmount) amount);

          if (figure != NULL && gtk_widget_get_mapped (figure))
            assert_explains (figure, reckoning, WB_REASON_WHOLE_CLAIM, (WbSide) side,
                             (WbAmount) amount);
        }
    }

  wb_answer_button_explain (g_ptr_array_index (buttons, 0));
  wb_test_settle ();
  desk_fixture_settle (fixture);
  popover = find_first (g_ptr_array_index (buttons, 0), WB_TYPE_REASON_POPOVER);
  wb_test_save_picture (popover, "claim-why");
  /* The toolkit would show a tooltip of the popover, half a second after that is gone. */
  gtk_popover_popdown (GTK_POPOVER (popover));
  wb_test_pass_time (700);
}

/* The first of the reasons of an amount, which is to be of @rule. */
static void
assert_begins (const WbReckoning *reckoning,
               int                line,
               WbSide             side,
               WbAmount           amount,
               WbRule             rule)
{
  g_autoptr (GPtrArray) reasons = wb_amount_reasons (reckoning, line, side, amount);
  const WbReason *first, *last;
  gint64 minor;

  g_assert_cmpuint (reasons->len, >=, 2);
  first = g_ptr_array_index (reasons, 0);
  last = g_ptr_array_index (reasons, reasons->len - 1);
  g_assert_cmpint (first->rule, ==, rule);
  g_assert_true (last < first);
  if (wb_amount_value (reckoning, line, side, amount, &minor))
    g_assert_cmpint (first->result.value, ==, minor);
}

/* The answer begins with the step that gave the amount and leaves out what came after. */
static void
test_why_begins (DeskFixture   *fixture,
                 gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;

  desk_fixture_add_move (fixture);
  desk_fixture_put (fixture, WB_KIND_VALUATION, NULL, "choice", "full", "declared_value", "50000",
                    "deductible", "250", NULL);
  desk_fixture_add_claim (fixture);
  reckoning = reckon (fixture);

  for (int side = 0; side < WB_N_SIDES; side++)
    {
      assert_begins (reckoning, 1, (WbSide) side, WB_AMOUNT_OWED, WB_RULE_OWED);
      assert_begins (reckoning, 1, (WbSide) side, WB_AMOUNT_LOSS, WB_RULE_LESSER);
      assert_begins (reckoning, WB_REASON_WHOLE_CLAIM, (WbSide) side, WB_AMOUNT_OWED, WB_RULE_OWED);
    }
  assert_begins (reckoning, 1, WB_SIDE_RELEASED, WB_AMOUNT_ALLOWED, WB_RULE_ARTICLE_LIMIT);
  assert_begins (reckoning, 1, WB_SIDE_FULL, WB_AMOUNT_DEDUCTED, WB_RULE_DEDUCTIBLE_SHARE);
  assert_begins (reckoning, WB_REASON_WHOLE_CLAIM, WB_SIDE_FULL, WB_AMOUNT_LIMIT,
                 WB_RULE_DECLARED_VALUE);
  assert_begins (reckoning, WB_REASON_WHOLE_CLAIM, WB_SIDE_FULL, WB_AMOUNT_COVERED,
                 WB_RULE_SHIPMENT_LIMIT);
  assert_begins (reckoning, WB_REASON_WHOLE_CLAIM, WB_SIDE_FULL, WB_AMOUNT_FREIGHT,
                 WB_RULE_FREIGHT_REFUND);
}

/* The popover goes when what it explains is no longer so. */
static void
test_why_closes (DeskFixture   *fixture,
                 gconstpointer  data)
{
  g_autoptr (GPtrArray) buttons = NULL;
  g_autoptr (GPtrArray) popovers = NULL;
  GtkWidget *page;

  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  page = present_claim (fixture);
  buttons = desk_find_all (find_first (page, WB_TYPE_RECKONING_TABLE), WB_TYPE_FIGURE_BUTTON);
  wb_answer_button_explain (g_ptr_array_index (buttons, 0));
  wb_test_settle ();

  desk_fixture_put (fixture, WB_KIND_CLAIM_LINE, "l1", "replacement", "10", NULL);
  desk_fixture_settle (fixture);
  popovers = desk_find_all (page, WB_TYPE_REASON_POPOVER);
  g_assert_cmpuint (popovers->len, ==, 0);
}

/* --- the drawing ------------------------------------------------------------------------------ */

static void
test_bar (DeskFixture   *fixture,
          gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  g_autofree char *words = NULL;
  GtkWidget *bar;

  desk_fixture_add_move (fixture);
  desk_fixture_put (fixture, WB_KIND_VALUATION, NULL, "choice", "full", "deductible", "250", NULL);
  desk_fixture_add_claim (fixture);
  reckoning = reckon (fixture);
  bar = find_first (present_claim (fixture), WB_TYPE_RECKONING_BAR);

  words = wb_reckoning_in_words (reckoning);
  gtk_test_accessible_assert_role (bar, GTK_ACCESSIBLE_ROLE_IMG);
  gtk_test_accessible_assert_property (bar, GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, words);

  for (int side = 0; side < WB_N_SIDES; side++)
    {
      g_autofree char *owed = wb_words_minor (reckoning->side[side].owed, "USD");
      WbReckoningParts parts;
      gint64 sum = 0;

      wb_reckoning_parts_read (&parts, reckoning, (WbSide) side);
      for (int part = 0; part < WB_N_PARTS; part++)
        sum += parts.amount[part];
      g_assert_cmpint (sum, ==, reckoning->side[side].loss);
      g_assert_nonnull (strstr (words, owed));
    }
}

/* --- typing ----------------------------------------------------------------------------------- */

static void
type (WbCell     *cell,
      const char *text)
{
  GtkEditable *entry = get_entry (cell);

  wb_cell_focus (cell);
  gtk_editable_set_text (entry, text);
  g_signal_emit_by_name (entry, "activate");
}

static void
test_typing (DeskFixture   *fixture,
             gconstpointer  data)
{
  const WbClaimLine *line;
  GtkWidget *page;

  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  page = present_claim (fixture);

  type (find_cell (page, "l3", "claim_line.replacement"), "140.50");
  line = wb_job_find (wb_job_model_get_job (fixture->model), WB_KIND_CLAIM_LINE, "l3");
  g_assert_cmpint (line->replacement.minor, ==, 14050);
  /* Enter goes on to the same column of the next line. */
  desk_fixture_settle (fixture);
  g_assert_true (gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (fixture->window)),
                                         GTK_WIDGET (find_cell (page, "l4",
                                                                "claim_line.replacement"))));

  type (find_cell (page, "l3", "claim_line.weight"), "11.5 lb");
  line = wb_job_find (wb_job_model_get_job (fixture->model), WB_KIND_CLAIM_LINE, "l3");
  g_assert_true (wb_weight_equal (line->weight, wb_weight (1150, WB_WEIGHT_UNIT_LB)));
}

static void
test_typing_faults (DeskFixture   *fixture,
                    gconstpointer  data)
{
  g_autoptr (GPtrArray) labels = NULL;
  WbJob *before;
  GtkWidget *page;
  WbCell *cell;
  gboolean told = FALSE;

  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  page = present_claim (fixture);
  before = wb_job_model_get_job (fixture->model);

  cell = find_cell (page, "l1", "claim_line.replacement");
  type (cell, "12,x");
  g_assert_true (wb_job_model_get_job (fixture->model) == before);
  g_assert_cmpstr (gtk_editable_get_text (get_entry (cell)), ==, "12,x");
  g_assert_true (gtk_widget_has_css_class (GTK_WIDGET (get_entry (cell)), "error"));
  gtk_test_accessible_assert_state (get_entry (cell), GTK_ACCESSIBLE_STATE_INVALID,
                                    GTK_ACCESSIBLE_INVALID_TRUE);

  /* What is wrong stands below the table, with the column it is in. */
  labels = desk_find_all (page, GTK_TYPE_LABEL);
  for (guint i = 0; i < labels->len; i++)
    if (g_str_has_prefix (gtk_label_get_text (g_ptr_array_index (labels, i)), "Replacement: ")
        && strstr (gtk_label_get_text (g_ptr_array_index (labels, i)), "12,x") != NULL)
      told = TRUE;
  g_assert_true (told);

  type (cell, "310");
  g_assert_false (gtk_widget_has_css_class (GTK_WIDGET (get_entry (cell)), "error"));
  g_assert_cmpstr (gtk_editable_get_text (get_entry (cell)), ==, "310.00");
}

/* Past the last row comes a new line, with the focus in what is claimed. */
static void
test_typing_adds_a_line (DeskFixture   *fixture,
                         gconstpointer  data)
{
  const WbClaimLine *line;
  GtkWidget *page;
  WbJob *job;

  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  page = present_claim (fixture);

  type (find_cell (page, "l4", "claim_line.item"), "Garden chair, folding");
  desk_fixture_settle (fixture);
  job = wb_job_model_get_job (fixture->model);
  g_assert_cmpuint (wb_job_count (job, WB_KIND_CLAIM_LINE), ==, 5);
  line = wb_job_nth (job, WB_KIND_CLAIM_LINE, 4);
  g_assert_cmpint (line->number, ==, 5);
  g_assert_cmpstr (line->claim, ==, "c1");
  g_assert_true (gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (fixture->window)),
                                         GTK_WIDGET (find_cell (page, line->record.id,
                                                                "claim_line.item"))));
}

static void
test_piece (DeskFixture   *fixture,
            gconstpointer  data)
{
  const WbClaimLine *line;
  GtkWidget *page;
  WbCell *cell;

  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  page = present_claim (fixture);
  cell = find_cell (page, "l4", "claim_line.piece");

  wb_cell_focus (cell);
  gtk_editable_set_text (get_entry (cell), "atlas");
  wb_test_settle ();
  g_assert_nonnull (desk_find_label (GTK_WIDGET (cell), "atlases · Study"));
  g_signal_emit_by_name (get_entry (cell), "activate");
  line = wb_job_find (wb_job_model_get_job (fixture->model), WB_KIND_CLAIM_LINE, "l4");
  g_assert_cmpstr (line->piece, ==, "p4");
  g_assert_cmpstr (gtk_editable_get_text (get_entry (cell)), ==, "blue 204-017");

  /* The lot is not needed when the number is the only one. */
  desk_fixture_settle (fixture);
  cell = find_cell (page, "l4", "claim_line.piece");
  wb_cell_focus (cell);
  gtk_editable_set_text (get_entry (cell), "9");
  g_signal_emit_by_name (get_entry (cell), "activate");
  line = wb_job_find (wb_job_model_get_job (fixture->model), WB_KIND_CLAIM_LINE, "l4");
  g_assert_cmpstr (line->piece, ==, "p3");
}

/* --- what is said about lines ----------------------------------------------------------------- */

static void
test_notices (DeskFixture   *fixture,
              gconstpointer  data)
{
  g_autofree char *scratched = wb_words_marks ("SC 4-8", NULL);
  g_autofree char *broken = wb_words_marks ("BR 2", NULL);
  g_autofree char *caution = wb_words_caution ();
  g_autofree char *found = NULL;
  GtkWidget *page, *table;

  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  page = present_claim (fixture);
  table = find_first (page, WB_TYPE_RECORD_TABLE);

  g_assert_nonnull (desk_find_label (page, "Missing: the replacement cost."));
  g_assert_nonnull (desk_find_label (page, "Not on the inventory."));
  g_assert_nonnull (desk_find_label (page, caution));

  wb_record_table_select (WB_RECORD_TABLE (table), "l1");
  desk_fixture_settle (fixture);
  g_assert_nonnull (desk_find_label (page, "Line 1: Dinner plates, 4 of 12"));
  g_assert_nonnull (desk_find_label (page, "Packed by carrier (Rosa Lindqvist)"));
  g_assert_nonnull (desk_find_label (page, "No marks were noted"));
  g_assert_nonnull (desk_find_label (page, "Taken as listed, nothing was noted"));

  wb_record_table_select (WB_RECORD_TABLE (table), "l2");
  desk_fixture_settle (fixture);
  g_assert_nonnull (desk_find_label (page, scratched));
  found = g_strdup_printf ("%s; %s", wb_words_enum (&wb_founds, WB_FOUND_PRESENT), broken);
  g_assert_nonnull (desk_find_label (page, found));
}

/* What the chosen line comes to stands right below the table, and follows the choice. */
static void
test_line_outcome (DeskFixture   *fixture,
                   gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  GtkWidget *page, *table, *card;
  g_autoptr (GPtrArray) figures = NULL;

  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  reckoning = reckon (fixture);
  page = present_claim (fixture);
  table = find_first (page, WB_TYPE_RECORD_TABLE);
  card = find_first (page, WB_TYPE_EVIDENCE_CARD);
  figures = desk_find_all (card, WB_TYPE_FIGURE_BUTTON);
  g_assert_cmpuint (figures->len, ==, WB_N_SIDES);

  for (guint i = 0; i < reckoning->n_lines; i++)
    {
      wb_record_table_select (WB_RECORD_TABLE (table), reckoning->lines[i].line->record.id);
      desk_fixture_settle (fixture);
      for (int side = 0; side < WB_N_SIDES; side++)
        {
          g_autofree char *owed = wb_amount_text (reckoning, (int) i, (WbSide) side,
                                                  WB_AMOUNT_OWED);

          g_assert_cmpstr (wb_answer_button_get_text (g_ptr_array_index (figures, side)), ==, owed);
        }
    }
  g_assert_nonnull (desk_find_label (card, "Loss $80.00 · Allowed $5.40 · Deducted $0.00"));
}

/* Coming to the page does not put the focus on what removes something. */
static void
test_first_focus (DeskFixture   *fixture,
                  gconstpointer  data)
{
  GtkWidget *page, *focus;

  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  page = present_claim (fixture);
  g_assert_true (gtk_widget_grab_focus (page));
  focus = gtk_root_get_focus (GTK_ROOT (fixture->window));
  g_assert_true (WB_IS_CLAIM_ROW (focus));
  g_assert_cmpstr (wb_claim_row_get_id (WB_CLAIM_ROW (focus)), ==, "c1");
}

static void
test_late (DeskFixture   *fixture,
           gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  g_autofree char *notice = NULL;
  g_autofree char *lack = NULL;
  GtkWidget *page;

  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  desk_fixture_put (fixture, WB_KIND_CLAIM, "c1", "received_on", "2027-06-01",
                    "states_amount", "no", NULL);
  page = present_claim (fixture);

  reckoning = reckon (fixture);
  notice = wb_claim_notice (reckoning);
  g_assert_nonnull (notice);
  g_assert_nonnull (desk_find_label (page, notice));
  lack = wb_words_intake_lack (wb_job_model_get_job (fixture->model),
                               wb_job_find (wb_job_model_get_job (fixture->model), WB_KIND_CLAIM,
                                            "c1"));
  g_assert_nonnull (strstr (lack, "nothing is paid until a definite amount is asked for. It asks "
                                  "for no definite amount; ask how much is claimed."));
  g_assert_nonnull (desk_find_label (page, lack));
}

/* Without a day of pick-up no terms govern, and the page says so instead of figures. */
static void
test_no_terms (DeskFixture   *fixture,
               gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *words = NULL;
  GtkWidget *page;

  desk_fixture_put (fixture, WB_KIND_CLAIM, "c1", "number", "C-2026-0001", NULL);
  page = present_claim (fixture);
  g_assert_null (wb_office_reckon (fixture->office, wb_job_model_get_job (fixture->model), "c1",
                                   &error));
  words = wb_words_error (error);
  g_assert_nonnull (desk_find_label (page, words));
}

/* --- claims and payments ---------------------------------------------------------------------- */

static gboolean
has_claim (gpointer data)
{
  DeskFixture *fixture = data;

  return wb_job_count (wb_job_model_get_job (fixture->model), WB_KIND_CLAIM) > 0;
}

static void
test_new_claim (DeskFixture   *fixture,
                gconstpointer  data)
{
  g_autofree char *title = NULL;
  const WbClaim *claim;
  g_autofree char *field = NULL;
  GtkWidget *page;
  GtkWidget *row;

  desk_fixture_add_move (fixture);
  page = wb_claim_page_new (fixture->model);
  desk_fixture_present (fixture, page, 1180, 760);
  g_assert_nonnull (wb_test_find (page, ADW_TYPE_STATUS_PAGE, "No Claim"));
  wb_test_save_picture (fixture->window, "claim-empty");

  gtk_widget_activate_action (page, "claim.add-claim", NULL);
  wb_test_wait_until (has_claim, fixture);
  desk_fixture_settle (fixture);
  claim = wb_job_nth (wb_job_model_get_job (fixture->model), WB_KIND_CLAIM, 0);
  g_assert_cmpstr (claim->claimant, ==, "Odile Varga");
  g_assert_true (wb_date_is_set (&claim->received_on));
  title = g_strdup_printf ("%s, Odile Varga", claim->number);
  g_assert_nonnull (desk_find_label (page, title));
  /* The keyboard is where the claimant is written. */
  row = gtk_widget_get_ancestor (gtk_root_get_focus (GTK_ROOT (fixture->window)),
                                 WB_TYPE_FIELD_ROW);
  g_assert_nonnull (row);
  g_object_get (row, "field", &field, NULL);
  g_assert_cmpstr (field, ==, "claim.claimant");

  gtk_widget_activate_action (page, "claim.add-line", NULL);
  g_assert_cmpuint (wb_job_count (wb_job_model_get_job (fixture->model), WB_KIND_CLAIM_LINE), ==,
                    1);

  wb_job_model_undo (fixture->model);
  wb_job_model_undo (fixture->model);
  desk_fixture_settle (fixture);
  g_assert_true (gtk_widget_get_mapped (wb_test_find (page, ADW_TYPE_STATUS_PAGE, "No Claim")));
}

static void
test_payments (DeskFixture   *fixture,
               gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  GtkWidget *page;
  WbJob *job;
  const WbPayment *payment;

  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  page = present_claim (fixture);

  gtk_widget_activate_action (page, "claim.add-payment", NULL);
  desk_fixture_settle (fixture);
  payment = wb_job_nth (wb_job_model_get_job (fixture->model), WB_KIND_PAYMENT, 0);
  type (find_cell (page, payment->record.id, "payment.amount"), "100");
  desk_fixture_settle (fixture);
  reckoning = reckon (fixture);
  g_assert_cmpint (reckoning->side[WB_SIDE_FULL].paid, ==, 10000);
  assert_totals (page, reckoning);

  /* A claim with payments stays, and the page says why. */
  job = wb_job_model_get_job (fixture->model);
  gtk_widget_activate_action (page, "claim.remove-claim", NULL);
  g_assert_true (wb_job_model_get_job (fixture->model) == job);
}

/* --- many lines ------------------------------------------------------------------------------- */

static void
add_many_lines (DeskFixture *fixture,
                guint        n)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (WbJob) job = NULL;

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("m%u", i);
      WbClaimLine *line = wb_record_new (WB_KIND_CLAIM_LINE, id);

      wb_set_text (&line->claim, "c1");
      wb_set_text (&line->piece, i % 2 == 0 ? "p1" : "p2");
      wb_set_text (&line->item, "Plate");
      line->number = (gint64) i + 5;
      line->loss = WB_LOSS_DESTROYED;
      line->replacement = wb_money (1000, "USD");
      g_ptr_array_add (records, line);
    }

  job = wb_job_with_many (wb_job_model_get_job (fixture->model), records);
  wb_job_model_apply (fixture->model, job, "Test");
}

/* A table makes widgets for what is seen only, and the far end can be reached. */
static void
test_many_lines (DeskFixture   *fixture,
                 gconstpointer  data)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  g_autoptr (GPtrArray) cells = NULL;
  GtkWidget *page, *table;
  gint64 start;

  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  add_many_lines (fixture, 1000);
  start = g_get_monotonic_time ();
  page = present_claim (fixture);
  g_test_message ("a page with 1,000 lines: %" G_GINT64_FORMAT " ms",
                  (g_get_monotonic_time () - start) / 1000);
  cells = desk_find_all (page, WB_TYPE_CELL);
  g_assert_cmpuint (cells->len, <, 1500);

  table = find_first (page, WB_TYPE_RECORD_TABLE);
  wb_record_table_edit (WB_RECORD_TABLE (table), "m999", "replacement");
  desk_fixture_settle (fixture);
  desk_fixture_settle (fixture);
  start = g_get_monotonic_time ();
  type (find_cell (page, "m999", "claim_line.replacement"), "25");
  desk_fixture_settle (fixture);
  g_test_message ("a change of one line of 1,000 and four frames: %" G_GINT64_FORMAT " ms",
                  (g_get_monotonic_time () - start) / 1000);
  reckoning = reckon (fixture);
  assert_totals (page, reckoning);
}

#define ADD(path, function) \
  g_test_add ("/desk/claim-page/" path, DeskFixture, NULL, desk_fixture_set_up, function, \
              desk_fixture_tear_down)

/* How the carton was packed stands with the evidence about it. */
static void
test_packing (DeskFixture   *fixture,
              gconstpointer  data)
{
  static const char *const said[] = { "looked at by Ines Okafor", "1 unmet, 7 not looked at",
                                      "Gaps filled: Unmet", "Top taped three times: Not looked at" };
  g_autoptr (GPtrArray) labels = NULL;
  const char *text = NULL;
  GtkWidget *page;

  desk_fixture_add_move (fixture);
  desk_fixture_put (fixture, WB_KIND_PIECE, "p1", "carton", "dish pack", "checked_by", "Ines Okafor",
                    NULL);
  desk_fixture_put (fixture, WB_KIND_PACKING_CHECK, "k", "piece", "p1", "rule", "gaps-filled",
                    "state", "unmet", NULL);
  desk_fixture_add_claim (fixture);
  page = wb_claim_page_new (fixture->model);
  desk_fixture_present (fixture, page, 1180, 1500);

  labels = desk_find_all (page, GTK_TYPE_LABEL);
  for (guint i = 0; i < labels->len && text == NULL; i++)
    if (strstr (gtk_label_get_text (g_ptr_array_index (labels, i)), "looked at by") != NULL)
      text = gtk_label_get_text (g_ptr_array_index (labels, i));
  g_assert_nonnull (text);
  for (guint i = 0; i < G_N_ELEMENTS (said); i++)
    g_assert_nonnull (strstr (text, said[i]));
}

typedef struct
{
  GtkWidget  *window;
  const char *id;
  const char *field;
} Wanted;

static gboolean
is_in_cell (gpointer data)
{
  const Wanted *wanted = data;
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (wanted->window));
  GtkWidget *cell = focus != NULL ? gtk_widget_get_ancestor (focus, WB_TYPE_CELL) : NULL;
  g_autofree char *name = NULL;

  if (cell == NULL)
    return FALSE;
  g_object_get (cell, "field", &name, NULL);
  return g_str_equal (name, wanted->field)
         && g_strcmp0 (wb_cell_get_id (WB_CELL (cell)), wanted->id) == 0;
}

static void
assert_goes_to_cell (DeskFixture *fixture,
                     GtkWidget   *page,
                     WbKind       kind,
                     const char  *id,
                     const char  *field,
                     const char  *name)
{
  g_assert_true (wb_reveal (page, kind, id, field));
  wb_test_wait_until (is_in_cell, &(Wanted) { fixture->window, id, name });
}

/* To a field of the claim that is shown, of another one, of a line, a payment and a quote. */
static void
test_reveal (DeskFixture   *fixture,
             gconstpointer  data)
{
  g_autofree char *field = NULL;
  g_autofree char *shown = NULL;
  GtkWidget *page;

  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  desk_fixture_put (fixture, WB_KIND_CLAIM, "c2", "number", "C-2026-0002", NULL);
  desk_fixture_put (fixture, WB_KIND_CLAIM_LINE, "other", "claim", "c2", "number", "1", "item",
                    "Lamp", NULL);
  desk_fixture_put (fixture, WB_KIND_PAYMENT, "pay", "claim", "c1", "on", "2026-06-01", "amount",
                    "10", NULL);
  desk_fixture_put (fixture, WB_KIND_QUOTE, "q", "claim_line", "l2", "kind", "repair", NULL);
  page = present_claim (fixture);

  g_assert_true (wb_reveal (page, WB_KIND_CLAIM, "c1", "acknowledged_on"));
  g_object_get (gtk_widget_get_ancestor (gtk_root_get_focus (GTK_ROOT (fixture->window)),
                                         WB_TYPE_FIELD_ROW), "field", &field, NULL);
  g_assert_cmpstr (field, ==, "claim.acknowledged_on");
  g_object_get (page, "claim-id", &shown, NULL);
  g_assert_cmpstr (shown, ==, "c1");

  assert_goes_to_cell (fixture, page, WB_KIND_CLAIM_LINE, "other", "demanded",
                       "claim_line.demanded");
  assert_goes_to_cell (fixture, page, WB_KIND_CLAIM_LINE, "l2", NULL, "claim_line.item");
  assert_goes_to_cell (fixture, page, WB_KIND_PAYMENT, "pay", "amount", "payment.amount");
  assert_goes_to_cell (fixture, page, WB_KIND_QUOTE, "q", "amount", "quote.amount");
  g_assert_false (wb_reveal (page, WB_KIND_CLAIM_LINE, "gone", NULL));
}

/* Before there is a claim, to where the first one is made. */
static void
test_reveal_none (DeskFixture   *fixture,
                  gconstpointer  data)
{
  GtkWidget *page = present_claim (fixture);

  g_assert_true (wb_reveal (page, WB_KIND_CLAIM, NULL, NULL));
  g_assert_true (GTK_IS_BUTTON (gtk_root_get_focus (GTK_ROOT (fixture->window))));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

  ADD ("figures", test_figures);
  ADD ("follows", test_follows);
  ADD ("why", test_why);
  ADD ("why-begins", test_why_begins);
  ADD ("why-closes", test_why_closes);
  ADD ("bar", test_bar);
  ADD ("typing", test_typing);
  ADD ("typing-faults", test_typing_faults);
  ADD ("typing-adds-a-line", test_typing_adds_a_line);
  ADD ("piece", test_piece);
  ADD ("notices", test_notices);
  ADD ("line-outcome", test_line_outcome);
  ADD ("first-focus", test_first_focus);
  ADD ("late", test_late);
  ADD ("packing", test_packing);
  ADD ("no-terms", test_no_terms);
  ADD ("new-claim", test_new_claim);
  ADD ("payments", test_payments);
  ADD ("many-lines", test_many_lines);
  ADD ("reveal", test_reveal);
  ADD ("reveal-none", test_reveal_none);

  return g_test_run ();
}
