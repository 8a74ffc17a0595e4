/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Saving the papers of a job as PDF from the window: where they come to lie, what is said of it,
 * and the key that leads there. */
#include "config.h"

#include "desk/support/wb-desk-dialogs.h"
#include "desk/support/wb-desk-driver.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

#include "desk/window/wb-paper-dialogs.h"

#include <adwaita.h>
#include <glib/gstdio.h>
#include <string.h>

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
                              GPOINTER_TO_UINT (data));
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

/* --- saved ------------------------------------------------------------------------------------ */

static void
assert_pdf (const char *folder,
            const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autofree char *text = NULL;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_assert_true (g_str_has_prefix (text, "%PDF-"));
}

static void
test_saved (Fixture       *fixture,
            gconstpointer  data)
{
  g_autofree char *folder = place (fixture, "J-2026-0401 papers");
  g_autofree char *mine = g_build_filename (folder, "mine.pdf", NULL);
  g_autofree char *text = NULL;
  GtkWindow *dialog;

  /* Twice: the second time over the first. */
  for (guint i = 0; i < 2; i++)
    {
      wb_paper_dialogs_save_to (fixture->window, wb_desk_driver_get_job (fixture->window),
                                fixture->book->folder);
      dialog = wb_desk_dialogs_wait_for ("The Papers Are Saved");
      g_assert_nonnull (strstr (wb_desk_dialogs_body_of (dialog), folder));
      g_assert_nonnull (strstr (wb_desk_dialogs_body_of (dialog), "2 papers:\nOrder\nInventory"));
      g_assert_true (adw_message_dialog_has_response (ADW_MESSAGE_DIALOG (dialog), "open"));
      if (i == 0)
        {
          wb_test_wait_until_drawn (GTK_WIDGET (dialog));
          wb_test_save_picture (GTK_WIDGET (dialog), "papers-saved");
          g_assert_true (g_file_set_contents (mine, "mine", -1, NULL));
        }
      gtk_window_destroy (dialog);
      assert_pdf (folder, "order.pdf");
      assert_pdf (folder, "inventory.pdf");
    }
  g_assert_true (g_file_get_contents (mine, &text, NULL, NULL));
  g_assert_cmpstr (text, ==, "mine");
}

static void
test_no_place (Fixture       *fixture,
               gconstpointer  data)
{
  g_autofree char *file = place (fixture, "letter.txt");
  GtkWindow *dialog;

  g_assert_true (g_file_set_contents (file, "Dear Sir", -1, NULL));
  wb_paper_dialogs_save_to (fixture->window, wb_desk_driver_get_job (fixture->window), file);
  dialog = wb_desk_dialogs_wait_for ("The Papers Cannot Be Saved");
  g_assert_nonnull (strstr (wb_desk_dialogs_body_of (dialog), "letter.txt"));
  gtk_window_destroy (dialog);
}

/* --- stopping --------------------------------------------------------------------------------- */

static void
test_stop (Fixture       *fixture,
           gconstpointer  data)
{
  g_autofree char *folder = place (fixture, "J-2026-0401 papers");
  const char *told = "The Papers Are Saved";
  const char *on_the_way = "J-2026-0401 papers";
  GtkWindow *dialog;

  wb_paper_dialogs_save_to (fixture->window, wb_desk_driver_get_job (fixture->window),
                            fixture->book->folder);
  dialog = wb_desk_dialogs_wait_for (on_the_way);
  wb_test_wait_until_drawn (GTK_WIDGET (dialog));
  g_assert_nonnull (wb_test_find (GTK_WIDGET (dialog), GTK_TYPE_PROGRESS_BAR, NULL));
  wb_test_save_picture (GTK_WIDGET (dialog), "papers-progress");
  gtk_window_close (dialog);
  wb_desk_dialogs_wait_gone (on_the_way);
  wb_test_pass_time (1500);
  g_assert_null (wb_desk_dialogs_find (told));
  g_assert_false (g_file_test (folder, G_FILE_TEST_EXISTS));
}

/* --- keys ------------------------------------------------------------------------------------- */

static void
test_keys (Fixture       *fixture,
           gconstpointer  data)
{
  const char *search = "Save Papers as PDF";
  GtkWindow *chooser;

  wb_test_type (GTK_WIDGET (fixture->window), "{ctrl+p}");
  chooser = wb_desk_dialogs_wait_for (search);
  wb_test_wait_until_drawn (GTK_WIDGET (chooser));
  wb_test_save_picture (GTK_WIDGET (chooser), "papers-save");
  gtk_window_close (chooser);
  wb_desk_dialogs_wait_gone (search);
}

#define ADD(path, n_pieces, function) \
  g_test_add ("/desk/paper-files/" path, Fixture, GUINT_TO_POINTER (n_pieces), set_up, function, \
              tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();
  ADD ("saved", 12, test_saved);
  ADD ("no-place", 12, test_no_place);
  ADD ("stop", 12000, test_stop);
  ADD ("keys", 12, test_keys);
  return g_test_run ();
}
