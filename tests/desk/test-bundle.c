/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Saving a job as a bundle from the window and opening it in another book; what is said of a bundle
 * that is none; and the keys that lead there. */
#include "config.h"

#include "desk/support/wb-desk-dialogs.h"
#include "desk/support/wb-desk-driver.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

#include "desk/window/wb-bundle-dialogs.h"
#include "office/wb-bundle.h"

#include <adwaita.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

typedef struct
{
  WbDeskBook    *book;
  WbApplication *app;
  WbWindow      *window;
} Fixture;

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  g_autoptr (WbJob) job = NULL;

  fixture->book = wb_desk_book_new ();
  job = wb_desk_book_add_job (fixture->book, "J-2026-0401", "Odalys Ferncastle", "Duluth", "Tulsa",
                              12);
  fixture->app = wb_desk_driver_start ();
  fixture->window = wb_desk_driver_open (fixture->app, fixture->book);
  wb_desk_driver_open_job (fixture->window, wb_job_get_id (job));
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  wb_desk_driver_quit (fixture->app);
  g_object_unref (fixture->app);
  wb_desk_book_free (fixture->book);
}

static char *
place (Fixture    *fixture,
       const char *name)
{
  return g_build_filename (fixture->book->folder, name, NULL);
}

/* --- there and back --------------------------------------------------------------------------- */

static void
test_there_and_back (Fixture       *fixture,
                     gconstpointer  data)
{
  g_autofree char *chosen = place (fixture, "ferncastle");
  g_autofree char *saved = g_strconcat (chosen, ".zip", NULL);
  g_autoptr (WbDeskBook) other = wb_desk_book_new ();
  g_autofree char *before = NULL, *after = NULL;
  g_autoptr (WbBundleReport) report = NULL;
  g_autoptr (WbJob) there = NULL;
  g_autoptr (GError) error = NULL;
  WbWindow *window;
  GtkWindow *dialog;

  wb_bundle_dialogs_save_to (fixture->window, wb_desk_driver_get_job (fixture->window), chosen);
  dialog = wb_desk_dialogs_wait_for ("The Bundle Is Saved");
  g_assert_nonnull (strstr (wb_desk_dialogs_body_of (dialog), saved));
  g_assert_nonnull (strstr (wb_desk_dialogs_body_of (dialog),
                            "J-2026-0401: 0 photos, 0 kept papers"));
  gtk_window_destroy (dialog);
  report = wb_bundle_check (saved, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (wb_job_count (report->job, WB_KIND_PIECE), ==, 12);

  window = wb_desk_driver_open (fixture->app, other);
  wb_bundle_dialogs_open_from (window, saved);
  dialog = wb_desk_dialogs_wait_for ("The Job Is in the Book");
  wb_desk_driver_wait_for_job (window, "j-2026-0401");
  wb_test_wait_until_drawn (GTK_WIDGET (dialog));
  wb_test_save_picture (GTK_WIDGET (dialog), "bundle-opened");
  gtk_window_destroy (dialog);

  there = wb_desk_book_load (other, "j-2026-0401");
  g_assert_cmpuint (wb_job_count (there, WB_KIND_PIECE), ==, 12);
  wb_test_assert_field (there, WB_KIND_PARTY, "p1", "name", "Odalys Ferncastle");

  /* Once more: the job is there, and stays as it is. */
  wb_bundle_dialogs_open_from (window, saved);
  dialog = wb_desk_dialogs_wait_for ("The Bundle Cannot Be Opened");
  g_assert_nonnull (strstr (wb_desk_dialogs_body_of (dialog),
                            "There is a job J-2026-0401 already."));
  gtk_window_destroy (dialog);
  gtk_window_close (GTK_WINDOW (window));
}

/* A name with an ending was asked about by the chooser, so it may be replaced; one that gets its
 * ending here was not. */
static void
test_replace (Fixture       *fixture,
              gconstpointer  data)
{
  g_autofree char *plain = place (fixture, "mine");
  g_autofree char *path = place (fixture, "mine.zip");
  g_autofree char *text = NULL;
  GtkWindow *dialog;

  g_assert_true (g_file_set_contents (path, "mine", -1, NULL));
  wb_bundle_dialogs_save_to (fixture->window, wb_desk_driver_get_job (fixture->window), plain);
  dialog = wb_desk_dialogs_wait_for ("The Bundle Cannot Be Saved");
  g_assert_nonnull (strstr (wb_desk_dialogs_body_of (dialog), "already there"));
  gtk_window_destroy (dialog);
  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_assert_cmpstr (text, ==, "mine");

  wb_bundle_dialogs_save_to (fixture->window, wb_desk_driver_get_job (fixture->window), path);
  gtk_window_destroy (wb_desk_dialogs_wait_for ("The Bundle Is Saved"));
}

static void
test_no_bundle (Fixture       *fixture,
                gconstpointer  data)
{
  g_autofree char *path = place (fixture, "letter.txt");
  GtkWindow *dialog;

  g_assert_true (g_file_set_contents (path, "Dear Sir", -1, NULL));
  wb_bundle_dialogs_open_from (fixture->window, path);
  dialog = wb_desk_dialogs_wait_for ("The Bundle Cannot Be Opened");
  g_assert_nonnull (strstr (wb_desk_dialogs_body_of (dialog), "This is not a bundle of a job."));
  wb_test_wait_until_drawn (GTK_WIDGET (dialog));
  wb_test_save_picture (GTK_WIDGET (dialog), "bundle-refused");
  gtk_window_destroy (dialog);
}

/* --- stopping --------------------------------------------------------------------------------- */

static gboolean
is_empty (gpointer data)
{
  g_autoptr (GDir) dir = g_dir_open (data, 0, NULL);

  return dir == NULL || g_dir_read_name (dir) == NULL;
}

/* A gigabyte of nothing takes long enough to read on any computer, and no room. */
static void
make_long_bundle (const char *folder)
{
  g_autofree char *payload = g_build_filename (folder, "data", NULL);

  g_assert_cmpint (g_mkdir_with_parents (payload, 0700), ==, 0);
  for (guint i = 0; i < 4; i++)
    {
      g_autofree char *path = g_strdup_printf ("%s/%u", payload, i);

      g_assert_true (g_file_set_contents (path, "", 0, NULL));
      g_assert_cmpint (truncate (path, 250 * 1024 * 1024), ==, 0);
    }
}

static void
test_stop (Fixture       *fixture,
           gconstpointer  data)
{
  g_autofree char *folder = place (fixture, "long");
  g_autofree char *scratch = g_build_filename (g_get_user_cache_dir (), "wainbook", "bundles",
                                               NULL);
  const char *refusal = "The Bundle Cannot Be Opened";
  GtkWindow *dialog;

  make_long_bundle (folder);
  wb_bundle_dialogs_open_from (fixture->window, folder);
  dialog = wb_desk_dialogs_wait_for ("long");
  wb_test_wait_until_drawn (GTK_WIDGET (dialog));
  g_assert_nonnull (wb_test_find (GTK_WIDGET (dialog), GTK_TYPE_PROGRESS_BAR, NULL));
  wb_test_save_picture (GTK_WIDGET (dialog), "bundle-progress");
  g_assert_false (is_empty (scratch));
  adw_message_dialog_response (ADW_MESSAGE_DIALOG (dialog), "stop");
  wb_test_wait_until (is_empty, scratch);
  wb_test_pass_time (200);
  g_assert_null (wb_desk_dialogs_find (refusal));
}

/* --- keys ------------------------------------------------------------------------------------- */

static void
test_keys (Fixture       *fixture,
           gconstpointer  data)
{
  static const struct
  {
    const char *key;
    const char *title;
  } rows[] = { { "{ctrl+shift+s}", "Save as Bundle" }, { "{ctrl+shift+o}", "Open a Bundle" } };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const char *search = rows[i].title;
      GtkWindow *chooser;

      wb_test_type (GTK_WIDGET (fixture->window), rows[i].key);
      chooser = wb_desk_dialogs_wait_for (rows[i].title);
      wb_test_wait_until_drawn (GTK_WIDGET (chooser));
      wb_test_save_picture (GTK_WIDGET (chooser), i == 0 ? "bundle-save" : "bundle-open");
      gtk_window_close (chooser);
      wb_desk_dialogs_wait_gone (search);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();
  g_test_add ("/desk/bundle/there-and-back", Fixture, NULL, set_up, test_there_and_back, tear_down);
  g_test_add ("/desk/bundle/replace", Fixture, NULL, set_up, test_replace, tear_down);
  g_test_add ("/desk/bundle/no-bundle", Fixture, NULL, set_up, test_no_bundle, tear_down);
  g_test_add ("/desk/bundle/stop", Fixture, NULL, set_up, test_stop, tear_down);
  g_test_add ("/desk/bundle/keys", Fixture, NULL, set_up, test_keys, tear_down);
  return g_test_run ();
}
