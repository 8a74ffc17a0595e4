/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Saving the text of a window: what is chosen is written, what goes wrong is told, and whoever
 * thinks better of it, or closes the window, has nothing written. */
#include "config.h"

#include "support/wb-test-window.h"

#include "desk/widgets/wb-text-saver.h"

#include <glib/gstdio.h>

#define TEXT "Ten cartons, one of them dented\n"

typedef struct
{
  char      *folder;
  GtkWidget *window;
  gboolean   has_text;
  gboolean   is_blocked;
  guint      n_made;
  guint      n_saved;
  char      *path;       /* where it was saved */
  GError    *error;
} Fixture;

/* The saver hands its window over and nothing else. */
static Fixture *
fixture_of (GtkWindow *window)
{
  return g_object_get_data (G_OBJECT (window), "fixture");
}

static char *
make_text (GtkWindow *window)
{
  Fixture *fixture = fixture_of (window);

  fixture->n_made++;
  if (fixture->is_blocked)
    {
      g_autofree char *path = g_build_filename (fixture->folder, "list.txt", NULL);

      g_assert_cmpint (g_mkdir (path, 0700), ==, 0);
    }
  return fixture->has_text ? g_strdup (TEXT) : NULL;
}

static void
saved (GtkWindow    *window,
       GFile        *file,
       const GError *error)
{
  Fixture *fixture = fixture_of (window);

  fixture->n_saved++;
  fixture->path = g_file_get_path (file);
  fixture->error = error != NULL ? g_error_copy (error) : NULL;
}

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  g_autoptr (GError) error = NULL;

  fixture->folder = g_dir_make_tmp ("saver-XXXXXX", &error);
  g_assert_no_error (error);
  fixture->has_text = TRUE;
  fixture->window = gtk_window_new ();
  g_object_set_data (G_OBJECT (fixture->window), "fixture", fixture);
  gtk_window_present (GTK_WINDOW (fixture->window));
  wb_test_wait_until_drawn (fixture->window);
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  g_autofree char *file = g_build_filename (fixture->folder, "list.txt", NULL);

  if (fixture->window != NULL)
    gtk_window_destroy (GTK_WINDOW (fixture->window));
  wb_test_settle ();
  (void) g_remove (file);
  g_assert_cmpint (g_rmdir (fixture->folder), ==, 0);
  g_free (fixture->folder);
  g_free (fixture->path);
  g_clear_error (&fixture->error);
}

/* The chooser as a person sees it where no portal draws one. */
static GtkWidget *
chooser (void)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);

      if (GTK_IS_FILE_CHOOSER (window) && gtk_widget_get_mapped (window))
        return window;
    }
  return NULL;
}

static gboolean
is_open (gpointer data)
{
  return chooser () != NULL;
}

static gboolean
is_closed (gpointer data)
{
  return chooser () == NULL;
}

static gboolean
is_told (gpointer data)
{
  return ((Fixture *) data)->n_saved > 0;
}

typedef struct
{
  GtkFileChooser *dialog;
  GFile          *folder;
} Place;

/* The chooser begins with a folder of its own choice, and reads each before it is in it. */
static gboolean
is_anywhere (gpointer data)
{
  const Place *place = data;
  g_autoptr (GFile) file = gtk_file_chooser_get_file (place->dialog);

  return file != NULL;
}

static gboolean
is_there (gpointer data)
{
  const Place *place = data;
  g_autoptr (GFile) file = gtk_file_chooser_get_file (place->dialog);

  return file != NULL && g_file_has_parent (file, place->folder);
}

static GtkWidget *
ask (Fixture *fixture)
{
  wb_text_save (GTK_WINDOW (fixture->window), "Save the List", "list.txt", make_text, saved);
  wb_test_wait_until (is_open, NULL);
  return chooser ();
}

static void
answer (GtkWidget  *dialog,
        const char *folder,
        const char *label)
{
  GtkWidget *button;
  g_autoptr (GFile) file = g_file_new_for_path (folder);
  g_autoptr (GError) error = NULL;
  Place place = { GTK_FILE_CHOOSER (dialog), file };

  wb_test_wait_until (is_anywhere, &place);
  gtk_file_chooser_set_current_folder (place.dialog, file, &error);
  g_assert_no_error (error);
  wb_test_wait_until (is_there, &place);
  button = wb_test_find (dialog, GTK_TYPE_BUTTON, label);
  g_assert_nonnull (button);
  g_signal_emit_by_name (button, "clicked");
  wb_test_wait_until (is_closed, NULL);
}

static void
test_saves (Fixture       *fixture,
            gconstpointer  data)
{
  g_autofree char *expected = g_build_filename (fixture->folder, "list.txt", NULL);
  g_autofree char *written = NULL;
  g_autoptr (GError) error = NULL;

  answer (ask (fixture), fixture->folder, "_Save");
  wb_test_wait_until (is_told, fixture);
  g_assert_no_error (fixture->error);
  g_assert_cmpuint (fixture->n_made, ==, 1);
  g_assert_cmpstr (fixture->path, ==, expected);
  g_assert_true (g_file_get_contents (expected, &written, NULL, &error));
  g_assert_no_error (error);
  g_assert_cmpstr (written, ==, TEXT);
}

/* A folder has come to stand where the file was going to be, which stops root too. */
static void
test_fails (Fixture       *fixture,
            gconstpointer  data)
{
  fixture->is_blocked = TRUE;
  answer (ask (fixture), fixture->folder, "_Save");
  wb_test_wait_until (is_told, fixture);
  g_assert_error (fixture->error, G_IO_ERROR, G_IO_ERROR_IS_DIRECTORY);
}

static void
assert_nothing_written (Fixture *fixture)
{
  g_autofree char *path = g_build_filename (fixture->folder, "list.txt", NULL);

  wb_test_settle ();
  g_assert_cmpuint (fixture->n_saved, ==, 0);
  g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
}

static void
test_thinks_better (Fixture       *fixture,
                    gconstpointer  data)
{
  answer (ask (fixture), fixture->folder, "_Cancel");
  g_assert_cmpuint (fixture->n_made, ==, 0);
  assert_nothing_written (fixture);
}

static void
test_no_text (Fixture       *fixture,
              gconstpointer  data)
{
  fixture->has_text = FALSE;
  answer (ask (fixture), fixture->folder, "_Save");
  g_assert_cmpuint (fixture->n_made, ==, 1);
  assert_nothing_written (fixture);
}

static void
test_window_closes (Fixture       *fixture,
                    gconstpointer  data)
{
  ask (fixture);
  gtk_window_destroy (GTK_WINDOW (g_steal_pointer (&fixture->window)));
  wb_test_wait_until (is_closed, NULL);
  g_assert_cmpuint (fixture->n_made, ==, 0);
  assert_nothing_written (fixture);
}

#define CASE(name, function) \
  g_test_add ("/text-saver/" name, Fixture, NULL, set_up, function, tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  CASE ("saves", test_saves);
  CASE ("fails", test_fails);
  CASE ("thinks better of it", test_thinks_better);
  CASE ("no text", test_no_text);
  CASE ("the window closes", test_window_closes);
  return g_test_run ();
}
