/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows in which a person types the fields of a record, by keyboard:
 *
 *   Tab to a row, type, Enter                      the value is set, the focus stays
 *   type, Tab                                      the value is set, the next row has the focus
 *   type something that does not read              a sentence beneath says so at once; nothing is
 *   set
 *   Tab away from it                               the text and the sentence stay
 *   Shift+Tab back to it, Escape                   the last good value is back
 *   Tab to a list, Space, Down, Enter              the next value of the list is set
 *   Tab to a switch, Space                         yes becomes no
 *   Tab to notes, type with Enter for new lines,
 *   Ctrl+Enter                                     the text is set
 */
#include "config.h"

#include "desk/support/wb-desk-book.h"
#include "desk/widgets/wb-choice-row.h"
#include "desk/widgets/wb-field-row.h"
#include "desk/widgets/wb-switch-row.h"
#include "desk/widgets/wb-text-row.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

#include <adwaita.h>

#define ORDER WB_KIND_ORDER, NULL
#define PARTY WB_KIND_PARTY, "p1"

typedef struct
{
  WbDeskBook *book;
  WbJobModel *model;
  GtkWidget  *window;
  GtkWidget  *group;
} Fixture;

static void
set_up (Fixture       *f,
        gconstpointer  data)
{
  g_autoptr (WbJob) job = NULL;

  f->book = wb_desk_book_new ();
  job = wb_desk_book_add_job (f->book, "J-1", "Ada Brook", "Dayton", "Tulsa", 0);
  f->model = wb_job_model_new (f->book->office, job);
  f->group = adw_preferences_group_new ();
  f->window = gtk_window_new ();
  gtk_window_set_default_size (GTK_WINDOW (f->window), 480, 400);
  gtk_window_set_child (GTK_WINDOW (f->window), f->group);
}

static void
tear_down (Fixture       *f,
           gconstpointer  data)
{
  wb_test_flush (f->model);
  gtk_window_destroy (GTK_WINDOW (f->window));
  wb_test_settle ();
  g_assert_finalize_object (f->model);
  wb_desk_book_free (f->book);
}

static GtkWidget *
add_row (Fixture    *f,
         WbKind      kind,
         const char *id,
         const char *field)
{
  GtkWidget *row = wb_field_widget_new (f->model, kind, id, field);

  adw_preferences_group_add (ADW_PREFERENCES_GROUP (f->group), row);
  return row;
}

static void
show (Fixture *f)
{
  gtk_window_present (GTK_WINDOW (f->window));
  wb_test_wait_until_drawn (f->window);
}

static void
type (Fixture    *f,
      const char *keys)
{
  wb_test_type (f->window, keys);
}

static GtkWidget *
text_of (GtkWidget *row)
{
  return GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (row)));
}

static gboolean
has_focus (GtkWidget *row)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (gtk_widget_get_root (row)));

  return focus != NULL && (focus == row || gtk_widget_is_ancestor (focus, row));
}

/* The line beneath a row, %NULL when it is not shown. */
static const char *
beneath (GtkWidget *row)
{
  GtkWidget *note = gtk_widget_get_last_child (row);

  return GTK_IS_LABEL (note) && gtk_widget_get_visible (note)
         ? gtk_label_get_label (GTK_LABEL (note)) : NULL;
}

static void
assert_field (Fixture    *f,
              WbKind      kind,
              const char *id,
              const char *field,
              const char *expected)
{
  wb_test_assert_field (wb_job_model_get_job (f->model), kind, id, field, expected);
}

static void
assert_invalid (GtkWidget *row,
                gboolean   invalid)
{
  g_assert_cmpint (gtk_widget_has_css_class (row, "error"), ==, invalid);
  g_assert_cmpint (beneath (row) != NULL, ==, invalid);
  gtk_test_accessible_assert_state (GTK_ACCESSIBLE (text_of (row)), GTK_ACCESSIBLE_STATE_INVALID,
                                    invalid ? GTK_ACCESSIBLE_INVALID_TRUE
                                            : GTK_ACCESSIBLE_INVALID_FALSE);
}

/* --- names ------------------------------------------------------------------------------------ */

static void
test_names (Fixture       *f,
            gconstpointer  data)
{
  GtkWidget *entry = add_row (f, ORDER, "vehicle");
  GtkWidget *choice = add_row (f, ORDER, "stage");
  GtkWidget *toggle = add_row (f, ORDER, "guaranteed");
  GtkWidget *notes = add_row (f, ORDER, "notes");

  g_assert_true (WB_IS_FIELD_ROW (entry));
  g_assert_true (WB_IS_CHOICE_ROW (choice));
  g_assert_true (WB_IS_SWITCH_ROW (toggle));
  g_assert_true (WB_IS_TEXT_ROW (notes));

  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (text_of (entry)),
                                       GTK_ACCESSIBLE_PROPERTY_LABEL, "Vehicle");
  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (choice),
                                       GTK_ACCESSIBLE_PROPERTY_LABEL, "Stage");
  toggle = wb_test_find (toggle, GTK_TYPE_SWITCH, NULL);
  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (toggle),
                                       GTK_ACCESSIBLE_PROPERTY_LABEL, "Guaranteed dates");
  notes = wb_test_find (notes, GTK_TYPE_TEXT_VIEW, NULL);
  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (notes),
                                       GTK_ACCESSIBLE_PROPERTY_LABEL, "Notes");
}

/* --- typing ----------------------------------------------------------------------------------- */

static void
test_enter (Fixture       *f,
            gconstpointer  data)
{
  GtkWidget *vehicle = add_row (f, ORDER, "vehicle");

  show (f);
  gtk_widget_child_focus (vehicle, GTK_DIR_TAB_FORWARD);
  type (f, "Truck 9");
  assert_field (f, WB_KIND_ORDER, "order", "vehicle", "");
  type (f, "\n");
  assert_field (f, WB_KIND_ORDER, "order", "vehicle", "Truck 9");
  g_assert_true (has_focus (vehicle));
}

static void
test_tab (Fixture       *f,
          gconstpointer  data)
{
  GtkWidget *vehicle = add_row (f, ORDER, "vehicle");
  GtkWidget *bill = add_row (f, ORDER, "bill_number");

  show (f);
  gtk_widget_child_focus (vehicle, GTK_DIR_TAB_FORWARD);
  type (f, "Truck 9\t");
  assert_field (f, WB_KIND_ORDER, "order", "vehicle", "Truck 9");
  g_assert_true (has_focus (bill));
}

static void
test_as_read_and_as_typed (Fixture       *f,
                           gconstpointer  data)
{
  GtkWidget *date = add_row (f, ORDER, "pickup_from");
  GtkWidget *estimate = add_row (f, ORDER, "estimate");

  wb_test_set_field (f->model, WB_KIND_ORDER, "order", "estimate", "12500");
  show (f);
  gtk_window_set_focus (GTK_WINDOW (f->window), NULL);
  wb_test_settle ();
  /* That the first selection is gone has to be heard before there is another. */
  gdk_display_sync (gtk_widget_get_display (f->window));
  wb_test_settle ();
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (date)), ==, "3 Mar 2026");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (estimate)), ==, "$12,500.00");

  gtk_widget_child_focus (date, GTK_DIR_TAB_FORWARD);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (date)), ==, "2026-03-03");
  type (f, "2026-04-05\t");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (date)), ==, "5 Apr 2026");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (estimate)), ==, "12500.00 USD");
}

static void
test_invalid (Fixture       *f,
              gconstpointer  data)
{
  GtkWidget *date = add_row (f, ORDER, "pickup_from");
  GtkWidget *bill = add_row (f, ORDER, "bill_number");

  show (f);
  gtk_widget_child_focus (date, GTK_DIR_TAB_FORWARD);
  assert_invalid (date, FALSE);
  type (f, "3 March");
  assert_invalid (date, TRUE);
  g_test_message ("%s", beneath (date));
  g_assert_nonnull (strstr (beneath (date), "3 March"));
  g_assert_null (strstr (beneath (date), "pickup_from"));
  wb_test_wait_until_drawn (f->window);
  wb_test_save_picture (f->window, "field-row-invalid");

  /* Neither Enter nor leaving takes it or loses it. */
  type (f, "\n");
  assert_field (f, WB_KIND_ORDER, "order", "pickup_from", "2026-03-03");
  type (f, "\t");
  g_assert_true (has_focus (bill));
  assert_invalid (date, TRUE);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (date)), ==, "3 March");
  assert_field (f, WB_KIND_ORDER, "order", "pickup_from", "2026-03-03");

  /* Mended while typing. Only when the row that was left has come to rest: it and this one want the
   * X server's selection, and keys without a pause between them would have both ask at once. */
  type (f, "{shift+Tab}");
  type (f, "{ctrl+a}2026-03-04");
  assert_invalid (date, FALSE);
  type (f, "\n");
  assert_field (f, WB_KIND_ORDER, "order", "pickup_from", "2026-03-04");
}

static void
test_escape (Fixture       *f,
             gconstpointer  data)
{
  GtkWidget *date = add_row (f, ORDER, "pickup_from");

  show (f);
  gtk_widget_child_focus (date, GTK_DIR_TAB_FORWARD);
  type (f, "3 March{Escape}");
  assert_invalid (date, FALSE);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (date)), ==, "2026-03-03");
}

static void
test_emptied (Fixture       *f,
              gconstpointer  data)
{
  GtkWidget *date = add_row (f, ORDER, "pickup_from");
  GtkWidget *number = add_row (f, ORDER, "number");

  show (f);
  gtk_widget_child_focus (date, GTK_DIR_TAB_FORWARD);
  type (f, "{Delete}\n");
  assert_field (f, WB_KIND_ORDER, "order", "pickup_from", "");

  /* A job always has its number. */
  type (f, "\t{Delete}\n");
  assert_invalid (number, TRUE);
  assert_field (f, WB_KIND_ORDER, "order", "number", "J-1");
}

/* --- the job changes elsewhere ---------------------------------------------------------------- */

static void
test_follows (Fixture       *f,
              gconstpointer  data)
{
  GtkWidget *vehicle = add_row (f, ORDER, "vehicle");
  GtkWidget *stage = add_row (f, ORDER, "stage");
  GtkWidget *guaranteed = add_row (f, ORDER, "guaranteed");

  show (f);
  gtk_window_set_focus (GTK_WINDOW (f->window), NULL);
  wb_test_settle ();
  wb_test_set_field (f->model, WB_KIND_ORDER, "order", "vehicle", "Truck 9");
  wb_test_set_field (f->model, WB_KIND_ORDER, "order", "stage", "delivered");
  wb_test_set_field (f->model, WB_KIND_ORDER, "order", "guaranteed", "yes");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (vehicle)), ==, "Truck 9");
  g_assert_cmpuint (adw_combo_row_get_selected (ADW_COMBO_ROW (stage)), ==, WB_STAGE_DELIVERED);
  g_assert_true (gtk_switch_get_active (GTK_SWITCH (wb_test_find (guaranteed, GTK_TYPE_SWITCH,
                                                                  NULL))));

  wb_job_model_undo (f->model);
  wb_job_model_undo (f->model);
  wb_job_model_undo (f->model);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (vehicle)), ==, "");
  g_assert_cmpuint (adw_combo_row_get_selected (ADW_COMBO_ROW (stage)), ==, WB_STAGE_BOOKED);
}

/* What is typed and not set yet stays when the job changes. */
static void
test_typed_stays (Fixture       *f,
                  gconstpointer  data)
{
  GtkWidget *vehicle = add_row (f, ORDER, "vehicle");

  show (f);
  gtk_widget_child_focus (vehicle, GTK_DIR_TAB_FORWARD);
  type (f, "Truck");
  wb_test_set_field (f->model, WB_KIND_ORDER, "order", "vehicle", "Trailer");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (vehicle)), ==, "Truck");
  type (f, "\n");
  assert_field (f, WB_KIND_ORDER, "order", "vehicle", "Truck");
}

static void
test_removed (Fixture       *f,
              gconstpointer  data)
{
  GtkWidget *phone = add_row (f, PARTY, "phone");
  g_autoptr (WbJob) job = wb_job_without (wb_job_model_get_job (f->model), WB_KIND_PARTY, "p1",
                                          NULL);

  g_assert_true (gtk_widget_get_sensitive (phone));
  wb_job_model_apply (f->model, job, "Remove");
  g_assert_false (gtk_widget_get_sensitive (phone));
  wb_job_model_undo (f->model);
  g_assert_true (gtk_widget_get_sensitive (phone));
}

/* --- the other rows --------------------------------------------------------------------------- */

static gboolean
is_packed (gpointer model)
{
  return wb_job_order (wb_job_model_get_job (model))->stage == WB_STAGE_PACKED;
}

static void
test_choice (Fixture       *f,
             gconstpointer  data)
{
  GtkWidget *stage = add_row (f, ORDER, "stage");

  show (f);
  gtk_widget_grab_focus (stage);
  type (f, " ");
  type (f, "{Down}\n");
  wb_test_wait_until (is_packed, f->model);
}

static gboolean
is_guaranteed (gpointer model)
{
  return wb_job_order (wb_job_model_get_job (model))->guaranteed;
}

static void
test_switch (Fixture       *f,
             gconstpointer  data)
{
  GtkWidget *guaranteed = add_row (f, ORDER, "guaranteed");

  show (f);
  gtk_widget_grab_focus (wb_test_find (guaranteed, GTK_TYPE_SWITCH, NULL));
  type (f, " ");
  wb_test_wait_until (is_guaranteed, f->model);
}

static void
test_lines (Fixture       *f,
            gconstpointer  data)
{
  GtkWidget *notes = add_row (f, ORDER, "notes");
  GtkWidget *vehicle = add_row (f, ORDER, "vehicle");

  show (f);
  gtk_widget_child_focus (notes, GTK_DIR_TAB_FORWARD);
  type (f, "Piano\nNarrow stairs");
  assert_field (f, WB_KIND_ORDER, "order", "notes", "");
  type (f, "{ctrl+Return}");
  assert_field (f, WB_KIND_ORDER, "order", "notes", "Piano\nNarrow stairs");

  type (f, ", third floor\t");
  assert_field (f, WB_KIND_ORDER, "order", "notes", "Piano\nNarrow stairs, third floor");
  g_assert_true (has_focus (vehicle));
}

/* A ticket has to add up; a gross weight put right takes the net along. */
static void
test_weighing (Fixture       *f,
               gconstpointer  data)
{
  g_autoptr (WbRecord) weighing = wb_record_new (WB_KIND_WEIGHING, "w1");
  g_autoptr (WbJob) job = wb_job_with (wb_job_model_get_job (f->model), weighing);
  GtkWidget *gross, *net;

  wb_job_model_apply (f->model, job, "Add");
  gross = add_row (f, WB_KIND_WEIGHING, "w1", "gross");
  add_row (f, WB_KIND_WEIGHING, "w1", "tare");
  net = add_row (f, WB_KIND_WEIGHING, "w1", "net");
  show (f);

  gtk_widget_child_focus (gross, GTK_DIR_TAB_FORWARD);
  type (f, "30000 lb\t20000 lb\t9000 lb\n");
  assert_invalid (net, TRUE);
  g_test_message ("%s", beneath (net));
  g_assert_cmpstr (beneath (net), ==, "The net weight is not the gross weight less the tare.");
  assert_field (f, WB_KIND_WEIGHING, "w1", "net", "");

  type (f, "{ctrl+a}10000 lb\n");
  assert_invalid (net, FALSE);
  type (f, "{shift+Tab}{shift+Tab}31000 lb\n");
  assert_field (f, WB_KIND_WEIGHING, "w1", "gross", "31000 lb");
  assert_field (f, WB_KIND_WEIGHING, "w1", "net", "11000 lb");
}

static void
test_advice (Fixture       *f,
             gconstpointer  data)
{
  GtkWidget *vehicle = add_row (f, ORDER, "vehicle");

  wb_field_row_set_note (WB_FIELD_ROW (vehicle), "Both trucks are out that day.");
  g_assert_cmpstr (beneath (vehicle), ==, "Both trucks are out that day.");
  g_assert_false (gtk_widget_has_css_class (vehicle, "error"));
  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (text_of (vehicle)),
                                       GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                       "Both trucks are out that day.");
  wb_field_row_set_note (WB_FIELD_ROW (vehicle), NULL);
  g_assert_null (beneath (vehicle));
}

#define ADD(path, func) g_test_add ("/desk/field-row/" path, Fixture, NULL, set_up, func, tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

  ADD ("names", test_names);
  ADD ("enter", test_enter);
  ADD ("tab", test_tab);
  ADD ("as-read-and-as-typed", test_as_read_and_as_typed);
  ADD ("invalid", test_invalid);
  ADD ("escape", test_escape);
  ADD ("emptied", test_emptied);
  ADD ("follows", test_follows);
  ADD ("typed-stays", test_typed_stays);
  ADD ("removed", test_removed);
  ADD ("choice", test_choice);
  ADD ("switch", test_switch);
  ADD ("lines", test_lines);
  ADD ("weighing", test_weighing);
  ADD ("advice", test_advice);

  return g_test_run ();
}
