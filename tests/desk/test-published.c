/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Published jobs and several servers, by keyboard:
 *
 *   Ctrl+Shift+B   which server, when there are several; Enter takes the chosen one
 *   Ctrl+Shift+J   what is published: words find a job, Enter reads it, F fetches, C checks
 *   Ctrl+Shift+T   what is on its way, and why it is not done
 *
 * The one argument says which look it is, for the names of the pictures. */
#include "config.h"

#include "desk/share/wb-publish-strip.h"
#include "desk/share/wb-published-look.h"
#include "desk/share/wb-published-window.h"
#include "desk/share/wb-transfers-window.h"
#include "desk/support/wb-desk-driver.h"
#include "desk/window/wb-window-private.h"
#include "office/wb-publish.h"
#include "office/wb-server-settings.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

#include <string.h>
#include <unistd.h>

static const char *look = "plain";

typedef struct
{
  WbDeskBook    *book;
  WbApplication *app;
  WbWindow      *window;
  char          *folder;       /* of the first server */
  char          *annex;        /* of the second one */
  char          *folder_id;
  char          *job;
} Fixture;

static char *
add_server (WbOffice   *office,
            const char *name,
            const char *folder)
{
  g_autoptr (WbServer) server = wb_server_new (WB_SERVER_FOLDER, NULL);
  g_autoptr (WbServer) stored = NULL;
  g_autoptr (GError) error = NULL;

  wb_server_set (server, WB_SERVER_FIELD_NAME, name);
  wb_server_set (server, WB_SERVER_FIELD_ADDRESS, folder);
  stored = wb_office_put_server (office, server, NULL, NULL, NULL, &error);
  g_assert_no_error (error);
  return g_strdup (stored->id);
}

static void
publish (Fixture    *f,
         const char *number)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_office_find_job (f->book->office, number, NULL, &error);
  g_autoptr (WbPublishStatus) status = NULL;

  g_assert_no_error (error);
  status = wb_office_publish (f->book->office, f->folder_id, NULL, wb_job_get_id (job), NULL, NULL,
                              &error);
  g_assert_no_error (error);
}

static void
set_up (Fixture       *f,
        gconstpointer  data)
{
  g_autofree char *annex_id = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = NULL;

  f->folder = g_dir_make_tmp ("wb-published-XXXXXX", &error);
  g_assert_no_error (error);
  f->annex = g_dir_make_tmp ("wb-R&D-XXXXXX", &error);
  g_assert_no_error (error);
  f->book = wb_desk_book_new ();
  wb_desk_book_add_demo (f->book);
  f->folder_id = add_server (f->book->office, "Office files", f->folder);
  annex_id = add_server (f->book->office, "Annex", f->annex);
  /* Whose photos are not in this book. */
  publish (f, "J-2026-0112");
  publish (f, "J-2026-0105");
  job = wb_office_find_job (f->book->office, "J-2026-0105", NULL, &error);
  g_assert_no_error (error);
  f->job = g_strdup (wb_job_get_id (job));
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
  {
    const char *const remove[] = { "rm", "-rf", "--", f->folder, f->annex, NULL };

    g_assert_true (g_spawn_sync (NULL, (char **) remove, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL,
                                 NULL, NULL, NULL));
  }
  g_free (f->folder);
  g_free (f->annex);
  g_free (f->folder_id);
  g_free (f->job);
}

/* --- looking ---------------------------------------------------------------------------------- */

/* Returns: (nullable): the window of that type that is open. */
static GtkWidget *
find_window (GType type)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();

  for (GList *at = windows; at != NULL; at = at->next)
    if (G_TYPE_CHECK_INSTANCE_TYPE (at->data, type) && gtk_widget_get_visible (at->data))
      return at->data;
  return NULL;
}

/* Returns: (nullable): a label below @root that is seen and has @words in it. */
static GtkWidget *
find_words (GtkWidget  *root,
            const char *words)
{
  if (GTK_IS_LABEL (root) && gtk_widget_get_mapped (root) &&
      strstr (gtk_label_get_text (GTK_LABEL (root)), words) != NULL)
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_words (child, words);

      if (found != NULL)
        return found;
    }
  return NULL;
}

typedef struct
{
  GType       type;
  const char *words;
  gboolean    there;
} Saying;

static gboolean
says (gpointer data)
{
  const Saying *saying = data;
  GtkWidget *window = find_window (saying->type);

  return (window != NULL && find_words (window, saying->words) != NULL) == saying->there;
}

static void
wait_for (GType       type,
          const char *words)
{
  Saying saying = { type, words, TRUE };

  wb_test_wait_until (says, &saying);
}

static gboolean
is_gone (gpointer data)
{
  return find_window (GPOINTER_TO_SIZE (data)) == NULL;
}

static void
wait_gone (GType type)
{
  wb_test_wait_until (is_gone, GSIZE_TO_POINTER (type));
}

static void
save_picture (GType       type,
              const char *what)
{
  g_autofree char *name = g_strdup_printf ("published-%s-%s", what, look);

  wb_test_wait_until_drawn (find_window (type));
  wb_test_save_picture (find_window (type), name);
}

static void
open_published (Fixture *f)
{
  wb_test_type (GTK_WIDGET (f->window), "{ctrl+shift+j}");
  wait_for (WB_TYPE_PUBLISHED_WINDOW, "J-2026-0105");
  wb_test_wait_until_drawn (find_window (WB_TYPE_PUBLISHED_WINDOW));
}

/* From now on what lies there is of a later version than this one. */
static void
spoil_annex (Fixture *f)
{
  g_autofree char *file = g_build_filename (f->annex, "wainbook.json", NULL);

  g_assert_true (g_file_set_contents (file, "{\"format\": \"wainbook-depot\", \"version\": 99}", -1,
                                      NULL));
}

static gboolean
has_three (gpointer choice)
{
  return g_list_model_get_n_items (gtk_drop_down_get_model (choice)) == 3;
}

/* --- cases ------------------------------------------------------------------------------------ */

/* Words find a job among what is published, and it is read without being taken in. */
static void
test_find_and_look (Fixture       *f,
                    gconstpointer  data)
{
  GtkWidget *published, *search;

  open_published (f);
  published = find_window (WB_TYPE_PUBLISHED_WINDOW);
  g_assert_nonnull (find_words (published, "J-2026-0112"));
  save_picture (WB_TYPE_PUBLISHED_WINDOW, "list");
  search = wb_test_find (published, GTK_TYPE_SEARCH_ENTRY, NULL);
  gtk_editable_set_text (GTK_EDITABLE (search), "nobody of this name");
  wait_for (WB_TYPE_PUBLISHED_WINDOW, "Nothing Found");
  save_picture (WB_TYPE_PUBLISHED_WINDOW, "nothing");
  gtk_editable_set_text (GTK_EDITABLE (search), "0105");
  wait_for (WB_TYPE_PUBLISHED_WINDOW, "1 of 2 jobs");
  gtk_widget_activate_action (published, "published.look", NULL);
  wait_for (WB_TYPE_PUBLISHED_LOOK, "To be read only");
  wait_for (WB_TYPE_PUBLISHED_LOOK, "Job number: J-2026-0105");
  save_picture (WB_TYPE_PUBLISHED_LOOK, "look");
  search = wb_test_find (find_window (WB_TYPE_PUBLISHED_LOOK), GTK_TYPE_SEARCH_ENTRY, NULL);
  gtk_editable_set_text (GTK_EDITABLE (search), "job number");
  {
    Saying stage = { WB_TYPE_PUBLISHED_LOOK, "Stage: ", FALSE };

    wb_test_wait_until (says, &stage);
  }
  g_assert_nonnull (find_words (find_window (WB_TYPE_PUBLISHED_LOOK), "Job number: "));
}

/* Every file is read back; one that was altered on the server is named. */
static void
test_check (Fixture       *f,
            gconstpointer  data)
{
  g_autofree char *objects = g_build_filename (f->folder, "objects", NULL);
  g_autofree char *command = g_strdup_printf ("find '%s' -type f -exec truncate -s 3 {} +", objects);
  g_autoptr (GError) error = NULL;
  int status;

  open_published (f);
  gtk_widget_activate_action (find_window (WB_TYPE_PUBLISHED_WINDOW), "published.verify", NULL);
  wait_for (ADW_TYPE_MESSAGE_DIALOG, "what was published");
  gtk_window_close (GTK_WINDOW (find_window (ADW_TYPE_MESSAGE_DIALOG)));
  wait_gone (ADW_TYPE_MESSAGE_DIALOG);

  g_assert_true (g_spawn_command_line_sync (command, NULL, NULL, &status, &error));
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
  gtk_widget_activate_action (find_window (WB_TYPE_PUBLISHED_WINDOW), "published.verify", NULL);
  wait_for (ADW_TYPE_MESSAGE_DIALOG, "not all");
  g_assert_nonnull (find_words (find_window (ADW_TYPE_MESSAGE_DIALOG), "job.json"));
  save_picture (ADW_TYPE_MESSAGE_DIALOG, "altered");
  gtk_window_close (GTK_WINDOW (find_window (ADW_TYPE_MESSAGE_DIALOG)));
}

/* Another server has its own list, and one that cannot be read says why. */
static void
test_servers (Fixture       *f,
              gconstpointer  data)
{
  GtkWidget *published, *choice;

  open_published (f);
  published = find_window (WB_TYPE_PUBLISHED_WINDOW);
  choice = wb_test_find (published, GTK_TYPE_DROP_DOWN, NULL);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), 1);
  wait_for (WB_TYPE_PUBLISHED_WINDOW, "Nothing Is Published There");
  spoil_annex (f);
  gtk_widget_activate_action (published, "published.ask", NULL);
  wait_for (WB_TYPE_PUBLISHED_WINDOW, "The Server Cannot Be Asked");
  save_picture (WB_TYPE_PUBLISHED_WINDOW, "fault");
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), 0);
  wait_for (WB_TYPE_PUBLISHED_WINDOW, "J-2026-0105");
}

/* One that is added to the list, or set up anew, does not take the choice away; a fault is said as it
 * is, whatever letters the name of a folder has. */
static void
test_chosen_stays (Fixture       *f,
                   gconstpointer  data)
{
  GtkWidget *published, *choice;
  g_autofree char *id = NULL;
  g_autofree char *loop = g_build_filename (f->annex, "loop", NULL);

  /* A link to itself cannot be followed by anybody. */
  g_assert_cmpint (symlink ("loop", loop), ==, 0);
  open_published (f);
  published = find_window (WB_TYPE_PUBLISHED_WINDOW);
  choice = wb_test_find (published, GTK_TYPE_DROP_DOWN, NULL);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), 1);
  wait_for (WB_TYPE_PUBLISHED_WINDOW, "Nothing Is Published There");
  id = add_server (wb_window_get_office (f->window), "Barn", loop);
  wb_test_wait_until (has_three, choice);
  g_assert_cmpuint (gtk_drop_down_get_selected (GTK_DROP_DOWN (choice)), ==, 1);
  g_assert_nonnull (find_words (published, "Nothing Is Published There"));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), 2);
  wait_for (WB_TYPE_PUBLISHED_WINDOW, "wb-R&D-");
}

/* Closed while a server is asked, the window is made anew when it is wanted again. */
static void
test_closed_while_asking (Fixture       *f,
                          gconstpointer  data)
{
  open_published (f);
  gtk_widget_activate_action (find_window (WB_TYPE_PUBLISHED_WINDOW), "published.ask", NULL);
  gtk_window_destroy (GTK_WINDOW (find_window (WB_TYPE_PUBLISHED_WINDOW)));
  /* At once, before the server can have answered. */
  gtk_widget_activate_action (GTK_WIDGET (f->window), "win.show-published", NULL);
  wait_for (WB_TYPE_PUBLISHED_WINDOW, "J-2026-0105");
  gtk_window_close (GTK_WINDOW (find_window (WB_TYPE_PUBLISHED_WINDOW)));
  wait_gone (WB_TYPE_PUBLISHED_WINDOW);
}

/* Of two servers the chosen one gets the job, and the line of each says how it stands there. */
static void
test_choose (Fixture       *f,
             gconstpointer  data)
{
  GtkWidget *annex;

  wb_desk_driver_open_job (f->window, f->job);
  wait_for (WB_TYPE_WINDOW, "Office files · As published");
  wait_for (WB_TYPE_WINDOW, "Annex · Never published");
  wb_test_type (GTK_WIDGET (f->window), "{ctrl+shift+b}");
  wait_for (ADW_TYPE_MESSAGE_DIALOG, "Publish on Which Server?");
  save_picture (ADW_TYPE_MESSAGE_DIALOG, "which");
  annex = wb_test_find (find_window (ADW_TYPE_MESSAGE_DIALOG), GTK_TYPE_CHECK_BUTTON, "Annex");
  g_assert_nonnull (annex);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (annex), TRUE);
  gtk_widget_grab_focus (annex);
  wb_test_type (find_window (ADW_TYPE_MESSAGE_DIALOG), "\n");
  wait_gone (ADW_TYPE_MESSAGE_DIALOG);
  wait_for (WB_TYPE_WINDOW, "Annex · As published");
  save_picture (WB_TYPE_WINDOW, "stands");
}

/* A server that is not to be written to stops a transfer, which can then be taken off the list. */
static void
test_transfer_fault (Fixture       *f,
                     gconstpointer  data)
{
  GtkWidget *transfers, *cancel;

  wb_desk_driver_open_job (f->window, f->job);
  wait_for (WB_TYPE_WINDOW, "Annex · Never published");
  spoil_annex (f);
  wb_test_type (GTK_WIDGET (f->window), "{ctrl+shift+t}");
  wait_for (WB_TYPE_TRANSFERS_WINDOW, "Nothing on Its Way");
  save_picture (WB_TYPE_TRANSFERS_WINDOW, "no-transfer");
  {
    g_autoptr (GPtrArray) servers = wb_office_list_servers (f->book->office, NULL, NULL);
    const WbServer *annex = g_ptr_array_index (servers, 1);

    gtk_widget_activate_action (GTK_WIDGET (f->window), "win.publish-on", "s", annex->id);
  }
  wait_for (WB_TYPE_TRANSFERS_WINDOW, "J-2026-0105 to Annex");
  wait_for (WB_TYPE_TRANSFERS_WINDOW, "Not done");
  wait_for (WB_TYPE_TRANSFERS_WINDOW, "1 needs you");
  wait_for (WB_TYPE_WINDOW, "1 transfer needs you.");
  save_picture (WB_TYPE_TRANSFERS_WINDOW, "transfer-fault");
  transfers = find_window (WB_TYPE_TRANSFERS_WINDOW);
  cancel = wb_test_find (transfers, GTK_TYPE_BUTTON, "Cancel");
  g_assert_nonnull (cancel);
  g_signal_emit_by_name (cancel, "clicked");
  wait_for (WB_TYPE_TRANSFERS_WINDOW, "Nothing on Its Way");
}

#define ADD(path, function) \
  g_test_add ("/desk/published/" path, Fixture, NULL, set_up, function, tear_down)

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  look = argc > 1 ? argv[1] : "plain";
  ADD ("find-and-look", test_find_and_look);
  ADD ("check", test_check);
  ADD ("servers", test_servers);
  ADD ("chosen-stays", test_chosen_stays);
  ADD ("closed-while-asking", test_closed_while_asking);
  ADD ("choose", test_choose);
  ADD ("transfer-fault", test_transfer_fault);
  return g_test_run ();
}
