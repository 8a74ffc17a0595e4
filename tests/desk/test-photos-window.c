/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Photos in the whole window, with the demo office: its keys, the way from a line of the inventory,
 * and what the evidence about a piece says of them. */
#include "config.h"

#include "desk/support/wb-desk-driver.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

#include "core/wb-photo.h"
#include "desk/claim/wb-evidence-photos.h"
#include "desk/claim/wb-evidence.h"
#include "desk/claim/wb-record-table.h"
#include "desk/inventory/wb-inventory-list.h"
#include "desk/photos/wb-photo-canvas.h"
#include "desk/photos/wb-photos-page.h"

#include <adwaita.h>
#include <string.h>

typedef struct
{
  WbDeskBook    *book;
  WbApplication *app;
  WbWindow      *window;
} Fixture;

/* Returns: (transfer full): the id of the job with the photos */
static char *
find_job (WbDeskBook *book)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_office_find_job (book->office, "J-2026-0031", NULL, &error);

  g_assert_no_error (error);
  return g_strdup (wb_job_get_id (job));
}

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  g_autofree char *id = NULL;

  fixture->book = wb_desk_book_new ();
  wb_desk_book_add_demo (fixture->book);
  id = find_job (fixture->book);
  fixture->app = wb_desk_driver_start ();
  fixture->window = wb_desk_driver_open (fixture->app, fixture->book);
  wb_desk_driver_open_job (fixture->window, id);
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  wb_desk_driver_quit (fixture->app);
  g_object_unref (fixture->app);
  wb_desk_book_free (fixture->book);
}

static void
type (Fixture    *fixture,
      const char *keys)
{
  wb_test_type (GTK_WIDGET (fixture->window), keys);
}

static GtkWidget *
get_page (Fixture *fixture)
{
  return wb_job_page_get_visible (wb_window_get_job_page (fixture->window));
}

static void
picture (Fixture    *fixture,
         const char *name)
{
  wb_test_wait_until_drawn (GTK_WIDGET (fixture->window));
  wb_test_save_picture (GTK_WIDGET (fixture->window), name);
}

static guint
count_shown (Fixture *fixture)
{
  GtkWidget *grid = wb_test_find (get_page (fixture), GTK_TYPE_GRID_VIEW, NULL);

  return g_list_model_get_n_items (G_LIST_MODEL (gtk_grid_view_get_model (GTK_GRID_VIEW (grid))));
}

/* Returns: (nullable): a window of that title */
static GtkWindow *
find_window (const char *title)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWindow) window = g_list_model_get_item (windows, i);

      if (g_strcmp0 (gtk_window_get_title (window), title) == 0)
        return window;
    }
  return NULL;
}

/* Elsewhere the same key opens a book. */
static void
test_key (Fixture       *fixture,
          gconstpointer  data)
{
  type (fixture, "{alt+5}");
  g_assert_true (WB_IS_PHOTOS_PAGE (get_page (fixture)));
  g_assert_cmpuint (count_shown (fixture), ==, 8);
  wb_test_pass_time (500);
  picture (fixture, "photos-demo");

  type (fixture, "{ctrl+o}");
  wb_test_pass_time (300);
  g_assert_nonnull (find_window ("Take In Photos"));
  gtk_window_destroy (find_window ("Take In Photos"));
}

/* A photo held upright is shown upright, with the pins where they were set. */
static void
test_open (Fixture       *fixture,
           gconstpointer  data)
{
  type (fixture, "{alt+5}{ctrl+Home}");
  for (guint i = 0; i < 5; i++)
    type (fixture, "{Right}");
  type (fixture, "\n");
  wb_test_pass_time (500);
  g_assert_nonnull (wb_test_find (get_page (fixture), WB_TYPE_PHOTO_CANVAS, "Left end of the case"));
  picture (fixture, "photos-demo-open");
  type (fixture, "c");
  wb_test_pass_time (500);
  picture (fixture, "photos-demo-compare");
}

static void
test_from_inventory (Fixture       *fixture,
                     gconstpointer  data)
{
  WbInventoryList *list;

  type (fixture, "{alt+4}");
  list = WB_INVENTORY_LIST (wb_test_find (get_page (fixture), WB_TYPE_INVENTORY_LIST, NULL));
  wb_inventory_list_reveal (list, "teal-060", TRUE);
  wb_test_settle ();
  type (fixture, "{ctrl+shift+i}");
  wb_test_pass_time (300);
  g_assert_true (WB_IS_PHOTOS_PAGE (get_page (fixture)));
  g_assert_cmpuint (count_shown (fixture), ==, 2);
}

/* Beside a claimed line stand the pictures of both ends; each leads to all of the piece. */
static void
test_from_claim (Fixture       *fixture,
                 gconstpointer  data)
{
  WbJob *job = wb_desk_driver_get_job (fixture->window);
  const WbClaimLine *line = NULL;
  GtkWidget *table, *photos, *button;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE) && line == NULL; i++)
    {
      const WbClaimLine *it = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);

      if (g_strcmp0 (it->piece, "teal-060") == 0)
        line = it;
    }
  g_assert_nonnull (line);

  type (fixture, "{alt+8}");
  wb_test_settle ();
  photos = wb_test_find (get_page (fixture), WB_TYPE_EVIDENCE_PHOTOS, NULL);
  g_assert_false (gtk_widget_get_visible (photos));
  table = wb_test_find (get_page (fixture), WB_TYPE_RECORD_TABLE, NULL);
  wb_record_table_edit (WB_RECORD_TABLE (table), line->record.id, "demanded");
  wb_test_pass_time (500);
  g_assert_true (gtk_widget_get_visible (photos));
  picture (fixture, "claim-photos");

  button = gtk_widget_get_first_child (photos);
  g_assert_true (g_str_has_prefix (gtk_widget_get_tooltip_text (button), "Photo, At origin: "));
  g_assert_true (g_str_has_prefix (gtk_widget_get_tooltip_text (gtk_widget_get_next_sibling (button)),
                                   "Photo, At delivery: Left end of the case"));
  g_assert_null (gtk_widget_get_next_sibling (gtk_widget_get_next_sibling (button)));
  g_signal_emit_by_name (button, "clicked");
  wb_test_pass_time (300);
  g_assert_true (WB_IS_PHOTOS_PAGE (get_page (fixture)));
  g_assert_cmpuint (count_shown (fixture), ==, 2);
}

static const char *
find_evidence (GPtrArray  *list,
               const char *label)
{
  for (guint i = 0; i < list->len; i++)
    {
      const WbEvidence *evidence = g_ptr_array_index (list, i);

      if (strcmp (evidence->label, label) == 0)
        return evidence->text;
    }
  return NULL;
}

static void
test_evidence (Fixture       *fixture,
               gconstpointer  data)
{
  WbJob *job = wb_desk_driver_get_job (fixture->window);
  WbClaimLine line = { .piece = (char *) "teal-060" };
  g_autoptr (GPtrArray) list =
    wb_evidence_list (wb_office_get_catalog (fixture->book->office), NULL, job, &line);

  g_assert_cmpuint (wb_photo_count_of_piece (job, "teal-060"), ==, 2);
  g_assert_cmpstr (find_evidence (list, "Photos: At origin"), ==,
                   "piano-origin.jpg, taken: 6 Oct 2025, 15:31 (UTC-05:00)");
  g_assert_cmpstr (find_evidence (list, "Photos: At delivery"), ==,
                   "Left end of the case, taken: 15 Jan 2026, 11:40 (UTC-05:00)");
  g_assert_null (find_evidence (list, "Photos: In storage"));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

#define CASE(name, function)                                                                       \
  g_test_add ("/desk/photos-window/" name, Fixture, NULL, set_up, function, tear_down)
  CASE ("key", test_key);
  CASE ("open", test_open);
  CASE ("from-inventory", test_from_inventory);
  CASE ("from-claim", test_from_claim);
  CASE ("evidence", test_evidence);
#undef CASE

  return g_test_run ();
}
