/* SPDX-License-Identifier: GPL-3.0-or-later */
/* File servers of the office, by keyboard:
 *
 *   Ctrl+Shift+M   the list of servers, with what to do while there is none
 *   Ctrl+N         a form; a bad field says what is wrong beside it
 *   Ctrl+T         the test, step by step, against a folder and against nothing
 *   Ctrl+S         the server is stored and listed
 *   F2, Delete     the chosen one is changed, or removed after a question */
#include "config.h"

#include "desk/share/wb-server-editor.h"
#include "desk/share/wb-servers-window.h"
#include "desk/support/wb-desk-driver.h"
#include "office/wb-server-settings.h"
#include "support/wb-test-keys.h"
#include "support/wb-test-window.h"

typedef struct
{
  WbDeskBook    *book;
  WbApplication *app;
  WbWindow      *window;
  char          *folder;    /* of a server that is one */
} Fixture;

static void
set_up (Fixture       *f,
        gconstpointer  data)
{
  g_autoptr (GError) error = NULL;

  f->folder = g_dir_make_tmp ("wb-servers-XXXXXX", &error);
  g_assert_no_error (error);
  f->book = wb_desk_book_new ();
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
  g_free (f->folder);
}

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

static gboolean
has_servers (gpointer data)
{
  GtkWidget *window = find_window (WB_TYPE_SERVERS_WINDOW);
  GtkWidget *stack = window != NULL ? wb_test_find (window, GTK_TYPE_STACK, NULL) : NULL;

  return stack != NULL &&
         g_str_equal (gtk_stack_get_visible_child_name (GTK_STACK (stack)), (const char *) data);
}

static gboolean
has_editor (gpointer data)
{
  return (find_window (WB_TYPE_SERVER_EDITOR) != NULL) == (data != NULL);
}

static gboolean
says (gpointer data)
{
  GtkWidget *editor = find_window (WB_TYPE_SERVER_EDITOR);
  GtkWidget *label = editor != NULL ? wb_test_find (editor, GTK_TYPE_LABEL, data) : NULL;

  return label != NULL && gtk_widget_get_mapped (label);
}

static GtkWidget *
open_editor (Fixture    *f,
             const char *keys)
{
  wb_test_type (find_window (WB_TYPE_SERVERS_WINDOW), keys);
  wb_test_wait_until (has_editor, (gpointer) "");
  wb_test_wait_until_drawn (find_window (WB_TYPE_SERVER_EDITOR));
  return find_window (WB_TYPE_SERVER_EDITOR);
}

static void
fill_in (GtkWidget  *editor,
         const char *title,
         const char *text)
{
  GtkWidget *row = wb_test_find (editor, ADW_TYPE_ENTRY_ROW, title);

  g_assert_nonnull (row);
  g_assert_true (gtk_widget_get_mapped (row));
  gtk_editable_set_text (GTK_EDITABLE (row), text);
}

static void
choose_kind (GtkWidget    *editor,
             WbServerKind  kind)
{
  adw_combo_row_set_selected (ADW_COMBO_ROW (wb_test_find (editor, ADW_TYPE_COMBO_ROW, NULL)), kind);
}

static void
add_folder (Fixture *f)
{
  GtkWidget *editor;

  wb_test_type (GTK_WIDGET (f->window), "{ctrl+shift+m}");
  wb_test_wait_until (has_servers, (gpointer) "none");
  wb_test_wait_until_drawn (find_window (WB_TYPE_SERVERS_WINDOW));
  editor = open_editor (f, "{ctrl+n}");
  choose_kind (editor, WB_SERVER_FOLDER);
  fill_in (editor, "Name", "Office share");
  fill_in (editor, "Address", f->folder);
  wb_test_type (editor, "{ctrl+s}");
  wb_test_wait_until (has_editor, NULL);
  wb_test_wait_until (has_servers, (gpointer) "list");
}

static void
assert_n_servers (Fixture *f,
                  guint    n)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) servers = wb_office_list_servers (f->book->office, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (servers->len, ==, n);
}

static gboolean
is_closed (gpointer data)
{
  return find_window (WB_TYPE_SERVERS_WINDOW) == NULL;
}

/* --- cases ------------------------------------------------------------------------------------ */

static void
test_fields (Fixture       *f,
             gconstpointer  data)
{
  GtkWidget *editor;

  wb_test_type (GTK_WIDGET (f->window), "{ctrl+shift+m}");
  wb_test_wait_until (has_servers, (gpointer) "none");
  wb_test_wait_until_drawn (find_window (WB_TYPE_SERVERS_WINDOW));
  wb_test_save_picture (find_window (WB_TYPE_SERVERS_WINDOW), "servers-none");
  editor = open_editor (f, "\n");

  /* Only fields of the kind are asked for. */
  g_assert_false (gtk_widget_get_mapped (wb_test_find (editor, ADW_TYPE_ENTRY_ROW, "Bucket")));
  choose_kind (editor, WB_SERVER_S3);
  g_assert_true (gtk_widget_get_visible (wb_test_find (editor, ADW_TYPE_ENTRY_ROW, "Bucket")));
  choose_kind (editor, WB_SERVER_WEBDAV);

  wb_test_type (editor, "{ctrl+s}");
  g_assert_true (says ((gpointer) "Is not given."));
  fill_in (editor, "Name", "Files");
  fill_in (editor, "Address", "http://files.example.org");
  wb_test_type (editor, "{ctrl+s}");
  g_assert_true (says ((gpointer) "Begins with http://, which anybody on the way can read and "
                                  "alter; it has to begin with https://"));
  wb_test_wait_until_drawn (editor);
  wb_test_save_picture (editor, "server-editor");
  wb_test_type (editor, "{Escape}{Escape}");
  wb_test_wait_until (has_editor, NULL);
  assert_n_servers (f, 0);
}

static void
test_folder (Fixture       *f,
             gconstpointer  data)
{
  GtkWidget *editor;

  add_folder (f);
  assert_n_servers (f, 1);
  wb_test_wait_until_drawn (find_window (WB_TYPE_SERVERS_WINDOW));
  g_assert_nonnull (wb_test_find (find_window (WB_TYPE_SERVERS_WINDOW), GTK_TYPE_LABEL,
                                  "Office share"));
  editor = open_editor (f, "{F2}");
  g_assert_nonnull (wb_test_find (editor, ADW_TYPE_ENTRY_ROW, "Address"));
  wb_test_type (editor, "{ctrl+t}");
  wb_test_wait_until (says, (gpointer) "All that publishing needs works there.");
  g_assert_true (says ((gpointer) "The file can be removed"));
  wb_test_wait_until_drawn (editor);
  wb_test_save_picture (editor, "server-tested");
  fill_in (editor, "Name", "Shared folder");
  gtk_widget_activate_action (editor, "server.store", NULL);
  wb_test_wait_until (has_editor, NULL);
  assert_n_servers (f, 1);
  gtk_window_close (GTK_WINDOW (find_window (WB_TYPE_SERVERS_WINDOW)));
  wb_test_wait_until (is_closed, NULL);
}

/* A test that fails ends with a sentence, and what came after it was not tried. */
static void
test_unreachable (Fixture       *f,
                  gconstpointer  data)
{
  GtkWidget *editor;

  wb_test_type (GTK_WIDGET (f->window), "{ctrl+shift+m}");
  wb_test_wait_until (has_servers, (gpointer) "none");
  wb_test_wait_until_drawn (find_window (WB_TYPE_SERVERS_WINDOW));
  editor = open_editor (f, "{ctrl+n}");
  fill_in (editor, "Name", "Files");
  fill_in (editor, "Address", "https://127.0.0.1:1/jobs");
  wb_test_type (editor, "{ctrl+t}");
  wb_test_wait_until (says, (gpointer) "not tried");
  g_assert_true (says ((gpointer) "no"));
  g_assert_false (says ((gpointer) "trying"));
  wb_test_wait_until_drawn (editor);
  wb_test_save_picture (editor, "server-unreachable");
}

static gboolean
has_question (gpointer data)
{
  return (find_window (ADW_TYPE_MESSAGE_DIALOG) != NULL) == (data != NULL);
}

static void
test_remove (Fixture       *f,
             gconstpointer  data)
{
  add_folder (f);
  wb_test_type (find_window (WB_TYPE_SERVERS_WINDOW), "{Delete}");
  wb_test_wait_until (has_question, (gpointer) "");
  adw_message_dialog_response (ADW_MESSAGE_DIALOG (find_window (ADW_TYPE_MESSAGE_DIALOG)),
                               "remove");
  wb_test_wait_until (has_servers, (gpointer) "none");
  assert_n_servers (f, 0);
}

#define ADD(path, function) \
  g_test_add ("/desk/servers/" path, Fixture, NULL, set_up, function, tear_down)

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  ADD ("fields", test_fields);
  ADD ("folder", test_folder);
  ADD ("unreachable", test_unreachable);
  ADD ("remove", test_remove);
  return g_test_run ();
}
