/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands beside the selected line of a claim, and that the wheel gets past its tables. */
#include "config.h"

#include <adwaita.h>
#include <string.h>

#include "desk/claim/wb-claim-page.h"
#include "desk/claim/wb-evidence.h"
#include "desk/claim/wb-record-table.h"
#include "desk/support/desk-fixture.h"
#include "support/wb-test-window.h"

/* --- statements ------------------------------------------------------------------------------- */

/* Returns: (transfer full) (nullable): what is said of line @id under @label */
static char *
say (DeskFixture *fixture,
     const char  *id,
     const char  *label)
{
  WbJob *job = wb_job_model_get_job (fixture->model);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbReckoning) reckoning = wb_office_reckon (fixture->office, job, "c1", &error);
  g_autoptr (GPtrArray) list = NULL;

  g_assert_no_error (error);
  list = wb_evidence_list (wb_office_get_catalog (fixture->office), reckoning->terms, job,
                           wb_job_find (job, WB_KIND_CLAIM_LINE, id));
  for (guint i = 0; i < list->len; i++)
    {
      const WbEvidence *evidence = g_ptr_array_index (list, i);

      if (strcmp (evidence->label, label) == 0)
        return g_strdup (evidence->text);
    }
  return NULL;
}

#define assert_says(fixture, id, label, expected)       \
  G_STMT_START                                          \
    {                                                   \
      g_autofree char *said = say (fixture, id, label); \
                                                        \
      g_assert_cmpstr (said, ==, expected);             \
    }                                                   \
  G_STMT_END

/* A weight never stands without where it comes from. */
static void
test_weight (DeskFixture   *fixture,
             gconstpointer  data)
{
  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  desk_fixture_put (fixture, WB_KIND_CLAIM_LINE, "l1", "weight", "3 lb", NULL);
  desk_fixture_put (fixture, WB_KIND_PIECE, "p3", "weight", "", "volume", "4 cu ft", NULL);

  assert_says (fixture, "l1", "Weight", "62 lb, as the inventory has it, carton and contents");
  assert_says (fixture, "l1", "The thing itself", "3 lb, as this line says");
  assert_says (fixture, "l2", "Weight", "90 lb, as the inventory has it");
  assert_says (fixture, "l2", "The thing itself", NULL);
  assert_says (fixture, "l3", "Weight",
               "28 lb, made from its volume of 4 cu ft, a cubic foot taken as 7 lb");
  assert_says (fixture, "l4", "Weight", NULL);
  assert_says (fixture, "l4", "The thing itself", "9 lb, as this line says");

  desk_fixture_put (fixture, WB_KIND_PIECE, "p3", "volume", "", NULL);
  assert_says (fixture, "l3", "Weight", "Not known: the inventory has none");
}

static void
test_belongs (DeskFixture   *fixture,
              gconstpointer  data)
{
  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  assert_says (fixture, "l2", "Belongs to", NULL);

  desk_fixture_put (fixture, WB_KIND_PIECE, "p2", "set", "Dining set", NULL);
  desk_fixture_put (fixture, WB_KIND_PIECE, "p3", "set", "Dining set", NULL);
  assert_says (fixture, "l2", "Belongs to",
               "Of the set “Dining set”, with: Floor lamp (blue 204-009), line 3.");
  desk_fixture_put (fixture, WB_KIND_CLAIM_LINE, "l4", "piece", "p2", NULL);
  assert_says (fixture, "l2", "Belongs to",
               "Of the set “Dining set”, with: Floor lamp (blue 204-009), line 3.\n"
               "Other lines on the same article: 4.");
}

static void
test_listed (DeskFixture   *fixture,
             gconstpointer  data)
{
  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  assert_says (fixture, "l2", "Extraordinary value", "Not listed");
  desk_fixture_put (fixture, WB_KIND_PIECE, "p2", "listed_value", "12,000", NULL);
  assert_says (fixture, "l2", "Extraordinary value", "Listed in writing for $12,000.00");
}

/* What is said stands on the page, of the line that is chosen. */
static void
test_shown (DeskFixture   *fixture,
            gconstpointer  data)
{
  GtkWidget *page;
  g_autoptr (GPtrArray) tables = NULL;

  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  page = wb_claim_page_new (fixture->model);
  desk_fixture_present (fixture, page, 1180, 2000);
  tables = desk_find_all (page, WB_TYPE_RECORD_TABLE);

  wb_record_table_edit (g_ptr_array_index (tables, 0), "l2", "demanded");
  desk_fixture_settle (fixture);
  g_assert_nonnull (desk_find_label (page, "90 lb, as the inventory has it"));
  wb_record_table_edit (g_ptr_array_index (tables, 0), "l1", "demanded");
  desk_fixture_settle (fixture);
  g_assert_null (desk_find_label (page, "90 lb, as the inventory has it"));
  g_assert_nonnull (desk_find_label (page, "62 lb, as the inventory has it, carton and contents"));
}

/* --- the wheel -------------------------------------------------------------------------------- */

/* Returns: whether one step of the wheel over @inner was taken from the toolkit */
static gboolean
turn_wheel (GtkWidget *inner,
            double     by)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (inner);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);
      gboolean taken = FALSE;

      if (g_strcmp0 (gtk_event_controller_get_name (controller), "wb-scroll-on") != 0)
        continue;
      g_signal_emit_by_name (controller, "scroll", 0.0, by, &taken);
      return taken;
    }
  g_error ("nothing hands the wheel on");
}

static void
add_lines (DeskFixture *fixture,
           guint        n)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (WbJob) job = NULL;

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("m%u", i);
      WbClaimLine *line = wb_record_new (WB_KIND_CLAIM_LINE, id);

      wb_set_text (&line->claim, "c1");
      wb_set_text (&line->item, "Plate");
      line->number = (gint64) i + 5;
      g_ptr_array_add (records, line);
    }
  job = wb_job_with_many (wb_job_model_get_job (fixture->model), records);
  wb_job_model_apply (fixture->model, job, "Test");
}

/* Within the table the wheel is the table's, at its ends the page's. */
static void
test_wheel (DeskFixture   *fixture,
            gconstpointer  data)
{
  GtkWidget *page, *inner;
  GtkAdjustment *list, *outer;
  g_autoptr (GPtrArray) tables = NULL;
  double before;

  desk_fixture_add_move (fixture);
  desk_fixture_add_claim (fixture);
  add_lines (fixture, 40);
  page = wb_claim_page_new (fixture->model);
  desk_fixture_present (fixture, page, 1180, 700);
  tables = desk_find_all (page, WB_TYPE_RECORD_TABLE);
  inner = wb_test_find (g_ptr_array_index (tables, 0), GTK_TYPE_SCROLLED_WINDOW, NULL);
  list = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (inner));
  outer = gtk_scrolled_window_get_vadjustment (
    GTK_SCROLLED_WINDOW (gtk_widget_get_ancestor (gtk_widget_get_parent (inner),
                                                  GTK_TYPE_SCROLLED_WINDOW)));
  g_assert_true (list != outer);
  g_assert_cmpfloat (gtk_adjustment_get_upper (list), >, gtk_adjustment_get_page_size (list));

  before = gtk_adjustment_get_value (outer);
  g_assert_false (turn_wheel (inner, 1));
  g_assert_cmpfloat (gtk_adjustment_get_value (outer), ==, before);

  gtk_adjustment_set_value (list, gtk_adjustment_get_upper (list));
  g_assert_true (turn_wheel (inner, 1));
  g_assert_cmpfloat (gtk_adjustment_get_value (outer), >, before);
  g_assert_false (turn_wheel (inner, -1));

  gtk_adjustment_set_value (list, 0);
  before = gtk_adjustment_get_value (outer);
  g_assert_true (turn_wheel (inner, -1));
  g_assert_cmpfloat (gtk_adjustment_get_value (outer), <, before);
}

#define ADD(path, function) \
  g_test_add ("/desk/claim-evidence/" path, DeskFixture, NULL, desk_fixture_set_up, function, \
              desk_fixture_tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

  ADD ("weight", test_weight);
  ADD ("belongs", test_belongs);
  ADD ("listed", test_listed);
  ADD ("shown", test_shown);
  ADD ("wheel", test_wheel);

  return g_test_run ();
}
