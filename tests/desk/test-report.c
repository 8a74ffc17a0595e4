/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The report over claims, by keyboard:
 *
 *   Ctrl+Shift+R       the report, with the focus on what it is grouped by
 *   Tab …, Return      a period; a group, whose claims are listed then
 *   Return             the job at the claim line
 *   Escape             back to the groups, then out */
#include "config.h"

#include "desk/report/wb-report-item.h"
#include "desk/report/wb-report-window.h"
#include "desk/support/wb-desk-driver.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

typedef struct
{
  WbDeskBook    *book;
  WbApplication *app;
  WbWindow      *window;
} Fixture;

/* A delivered interstate job with a settled claim on a carton that @packer packed. */
static void
add_claim (Fixture    *f,
           const char *number,
           const char *packer,
           const char *decided_on)
{
  g_autoptr (WbJob) stored = wb_desk_book_add_job (f->book, number, "A. Brook", "Dayton", "Tulsa", 1);
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autofree char *claim_number = g_strconcat ("C-", number, NULL);
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbJob) again = NULL;
  g_autoptr (GError) error = NULL;
  WbOrder *order = wb_record_copy (wb_job_order (stored));
  WbPiece *piece = wb_record_copy (wb_job_nth (stored, WB_KIND_PIECE, 0));
  WbClaim *claim = wb_record_new (WB_KIND_CLAIM, "c1");
  WbClaimLine *line = wb_record_new (WB_KIND_CLAIM_LINE, "l1");

  order->move_type = WB_MOVE_INTERSTATE;
  g_assert_true (wb_date_parse ("2026-03-02", &order->picked_up_on, NULL));
  g_assert_true (wb_date_parse ("2026-03-09", &order->delivered_on, NULL));
  piece->packed_by = WB_PACKED_BY_CARRIER;
  wb_set_text (&piece->packer, packer);
  wb_set_text (&claim->number, claim_number);
  claim->status = WB_CLAIM_SETTLED;
  g_assert_true (wb_date_parse ("2026-04-01", &claim->received_on, NULL));
  g_assert_true (wb_date_parse (decided_on, &claim->decided_on, NULL));
  wb_set_text (&line->claim, "c1");
  line->number = 1;
  wb_set_text (&line->piece, piece->record.id);
  wb_set_text (&line->item, "Plates");
  line->loss = WB_LOSS_DAMAGED;
  line->demanded = wb_money (9000, "USD");
  line->repair = wb_money (4000, "USD");
  g_ptr_array_add (records, order);
  g_ptr_array_add (records, piece);
  g_ptr_array_add (records, claim);
  g_ptr_array_add (records, line);
  job = wb_job_with_many (stored, records);
  again = wb_office_save_job (f->book->office, stored, job, "A claim", NULL, &error);
  g_assert_no_error (error);
}

static void
set_up (Fixture       *f,
        gconstpointer  data)
{
  f->book = wb_desk_book_new ();
  if (data != NULL)
    {
      add_claim (f, "J-1", "Ida", "2026-05-01");
      add_claim (f, "J-2", "Ida", "2026-06-01");
      add_claim (f, "J-3", "Tom", "2026-06-02");
    }
  f->app = wb_desk_driver_start ();
  f->window = wb_desk_driver_open (f->app, f->book);
}

static void
tear_down (Fixture       *f,
           gconstpointer  data)
{
  wb_desk_driver_quit (f->app);
  g_clear_object (&f->app);
  wb_desk_book_free (f->book);
}

/* Returns: (nullable) */
static GtkWidget *
find_report (void)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();

  for (GList *at = windows; at != NULL; at = at->next)
    if (WB_IS_REPORT_WINDOW (at->data))
      return at->data;
  return NULL;
}

static gboolean
is_shown (gpointer words)
{
  GtkWidget *report = find_report ();
  GtkWidget *label = report != NULL ? wb_test_find (report, GTK_TYPE_LABEL, words) : NULL;

  return label != NULL && gtk_widget_get_mapped (label);
}

static gboolean
is_gone (gpointer data)
{
  return find_report () == NULL;
}

static GtkWidget *
open_report (Fixture *f)
{
  wb_test_type (GTK_WIDGET (f->window), "{ctrl+shift+r}");
  wb_test_wait_until (is_shown, (gpointer) "No claim is open.");
  wb_test_wait_until_drawn (find_report ());
  return find_report ();
}

static void
test_groups (Fixture       *f,
             gconstpointer  data)
{
  GtkWidget *report = open_report (f);
  GtkWidget *by = wb_test_find (report, GTK_TYPE_DROP_DOWN, NULL);

  g_assert_true (gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (report)), by) ||
                 gtk_window_get_focus (GTK_WINDOW (report)) == by);
  g_assert_true (is_shown ((gpointer) "3 lines of finished claims: $270.00 demanded, $120.00 owed, "
                                      "$0.00 paid."));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (by), WB_LOSS_BY_PACKER);
  wb_test_wait_until (is_shown, (gpointer) "Ida");
  g_assert_true (is_shown ((gpointer) "$80.00 owed"));
  g_assert_true (is_shown ((gpointer) "2 claimed, 2 moved: too few for a rate"));
  wb_test_wait_until_drawn (report);
  wb_test_save_picture (report, "report");

  /* A period, and one that cannot be. */
  wb_test_type (report, "{Tab}2026-06-01\n");
  wb_test_wait_until (is_shown, (gpointer) "2 lines of finished claims: $180.00 demanded, $80.00 "
                                           "owed, $0.00 paid.");
  wb_test_type (report, "{Tab}2026-05-01\n");
  wb_test_wait_until (is_shown, (gpointer) "The period ends before it begins. Correct it "
                                           "and try again.");
}

static void
test_open_claim (Fixture       *f,
                 gconstpointer  data)
{
  GtkWidget *report = open_report (f);

  wb_test_type (report, "{Tab}{Tab}{Tab}\n");
  wb_test_wait_until (is_shown, (gpointer) "C-J-1 · Plates");
  wb_test_type (report, "{Escape}");
  wb_test_wait_until (is_shown, (gpointer) "Not noted");
  wb_test_type (report, "\n");
  wb_test_wait_until (is_shown, (gpointer) "C-J-2 · Plates");
  wb_test_type (report, "{Down}\n");
  wb_desk_driver_wait_for_job (f->window, "j-2");
  g_assert_cmpstr (wb_job_page_get_visible_name (wb_window_get_job_page (f->window)), ==, "claim");
  wb_test_type (report, "{Escape}");
  wb_test_wait_until (is_shown, (gpointer) "Not noted");
  wb_test_type (report, "{Escape}");
  wb_test_wait_until (is_gone, NULL);
}

static void
test_nothing (Fixture       *f,
              gconstpointer  data)
{
  open_report (f);
  g_assert_true (is_shown ((gpointer) "No Finished Claim"));
}

#define ADD(path, function, with_claims) \
  g_test_add ("/desk/report/" path, Fixture, with_claims, set_up, function, tear_down)

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  ADD ("groups", test_groups, "claims");
  ADD ("open-claim", test_open_claim, "claims");
  ADD ("nothing", test_nothing, NULL);
  return g_test_run ();
}
