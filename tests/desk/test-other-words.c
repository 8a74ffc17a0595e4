/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program in a language that nobody speaks, whose letters are in no other word (see
 * tests/support/with-other-words): whatever is said on a page in plain letters, and does not stand
 * in the demo office or the terms, was forgotten when words were marked for translation. The words
 * are longer too, and a widget with less room than it needs fails the test. */
#include "config.h"

#include <glib/gi18n.h>
#include <locale.h>
#include <string.h>

#include "desk/support/wb-desk-book.h"
#include "desk/support/wb-desk-driver.h"
#include "desk/widgets/wb-later.h"
#include "desk/window/wb-accelerators.h"
#include "desk/window/wb-preferences.h"
#include "support/wb-test-window.h"

/* Neither words of the program nor in its data: units and signs that are written so everywhere,
 * names of months, which are the system's, and what the toolkit and the test say. */
static const char *const not_words[] = {
  "Wainbook", "wainbook", "SFTP", "WebDAV", "S3", "SHA-256", "USD", "lb", "kg", "cuft", "cu ft", "ft",
  "in", "CFR", "(iv)", "and", "USC", "STB RR", "(Amendment No.", "Jan", "Feb", "Mar", "Apr", "May",
  "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
};

/* What the toolkit says of its own parts, in whatever language it speaks. */
static const char *const of_the_toolkit[] = {
  "(None)", "Alt", "Apply", "BackSpace", "Clear entry", "Close", "Close the window", "Ctrl",
  "Ctrl+V", "Delete", "Escape", "Maximize", "Maximize the window", "Minimize",
  "Minimize the window", "No Results Found", "Page_Down", "Page_Up", "Preferences", "Search",
  "Search…", "Shift", "Try a different search.",
};

static GPtrArray *data_words;
static GHashTable *forgotten;   /* text → where */

static void
take_out (GString    *text,
          const char *what)
{
  g_string_replace (text, what, " ", 0);
}

/* Two plain letters in a row make a word. */
static gboolean
has_plain_word (const char *text)
{
  for (const char *at = text; at[0] != '\0'; at++)
    if (g_ascii_isalpha (at[0]) && g_ascii_isalpha (at[1]))
      return TRUE;
  return FALSE;
}

/* Where the book is says nothing. */
static void
take_as_data (WbDeskBook *book)
{
  g_ptr_array_insert (data_words, 0, g_path_get_basename (book->path));
  g_ptr_array_insert (data_words, 0, g_strdup (book->folder));
}

static void
judge (GtkWidget  *widget,
       const char *text,
       const char *where)
{
  g_autofree char *plain = NULL;
  g_autoptr (GString) rest = NULL;

  if (text == NULL || !has_plain_word (text))
    return;
  for (gsize i = 0; i < G_N_ELEMENTS (of_the_toolkit); i++)
    if (g_str_equal (text, of_the_toolkit[i]))
      return;
  if (!pango_parse_markup (text, -1, 0, NULL, &plain, NULL, NULL))
    plain = g_strdup (text);

  rest = g_string_new (plain);
  for (guint i = 0; i < data_words->len && has_plain_word (rest->str); i++)
    take_out (rest, g_ptr_array_index (data_words, i));
  for (gsize i = 0; i < G_N_ELEMENTS (not_words); i++)
    take_out (rest, not_words[i]);
  if (has_plain_word (rest->str))
    g_hash_table_replace (forgotten, g_strdup (text),
                          g_strdup_printf ("%s, %s", where, G_OBJECT_TYPE_NAME (widget)));
}

static void
judge_accessible (GtkWidget             *widget,
                  GtkAccessibleProperty  property,
                  const char            *where)
{
  g_autofree char *said = NULL;

  if (!gtk_test_accessible_has_property (GTK_ACCESSIBLE (widget), property))
    return;
  said = gtk_test_accessible_check_property (GTK_ACCESSIBLE (widget), property, "");
  judge (widget, said, where);
}

static void
look_at (GtkWidget  *widget,
         const char *where)
{
  static const char *const properties[] = {
    "label", "title", "subtitle", "description", "placeholder-text", "tooltip-text",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (properties); i++)
    {
      GParamSpec *pspec = g_object_class_find_property (G_OBJECT_GET_CLASS (widget), properties[i]);
      g_autofree char *text = NULL;

      if (pspec == NULL || pspec->value_type != G_TYPE_STRING)
        continue;
      g_object_get (widget, properties[i], &text, NULL);
      judge (widget, text, where);
    }
  judge_accessible (widget, GTK_ACCESSIBLE_PROPERTY_LABEL, where);
  judge_accessible (widget, GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, where);

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    look_at (child, where);
}

static void
look_at_window (GtkWindow  *window,
                const char *where)
{
  g_autofree char *picture = g_strconcat ("other-words-", where, NULL);

  wb_test_settle ();
  wb_test_wait_until_drawn (GTK_WIDGET (window));
  wb_later_finish (GTK_WIDGET (window));
  wb_test_settle ();
  wb_test_wait_until_drawn (GTK_WIDGET (window));
  wb_test_save_picture (GTK_WIDGET (window), picture);
  look_at (GTK_WIDGET (window), where);
}

static void
assert_none_forgotten (void)
{
  GHashTableIter iter;
  gpointer text, where;

  if (g_hash_table_size (forgotten) > 0)
    g_test_fail_printf ("%u texts were not translated", g_hash_table_size (forgotten));
  g_hash_table_iter_init (&iter, forgotten);
  while (g_hash_table_iter_next (&iter, &text, &where))
    g_test_message ("%s: “%s”", (const char *) where, (const char *) text);
  g_hash_table_remove_all (forgotten);
}

/* The window that was opened last, beside @main. */
static GtkWindow *
find_other_window (GtkWindow *main)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();

  for (GList *at = windows; at != NULL; at = at->next)
    if (at->data != main && gtk_widget_get_visible (at->data))
      return at->data;
  return NULL;
}

static void
test_start (void)
{
  g_autoptr (WbApplication) app = wb_desk_driver_start ();

  /* A language that is not there would let every test pass. */
  g_assert_cmpstr (_("Order"), !=, "Order");

  g_application_activate (G_APPLICATION (app));
  look_at_window (gtk_application_get_active_window (GTK_APPLICATION (app)), "start");
  wb_desk_driver_quit (app);
  assert_none_forgotten ();
}

static void
test_pages (void)
{
  static const char *const pages[] = {
    "order", "papers", "packing", "inventory", "photos", "handovers", "valuation", "claim",
  };
  g_autoptr (WbDeskBook) book = wb_desk_book_new ();
  g_autoptr (WbApplication) app = wb_desk_driver_start ();
  WbWindow *window;

  take_as_data (book);
  g_assert_cmpuint (wb_desk_book_add_demo (book), >, 0);
  window = wb_desk_driver_open (app, book);
  look_at_window (GTK_WINDOW (window), "jobs");
  wb_desk_driver_open_job (window, "job-0031");
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      wb_job_page_show (wb_window_get_job_page (window), pages[i]);
      look_at_window (GTK_WINDOW (window), pages[i]);
    }
  wb_desk_driver_quit (app);
  assert_none_forgotten ();
}

static void
test_new_job (void)
{
  static const char *const pages[] = {
    "order", "papers", "packing", "inventory", "photos", "handovers", "valuation", "claim",
  };
  g_autoptr (WbDeskBook) book = wb_desk_book_new ();
  g_autoptr (WbApplication) app = wb_desk_driver_start ();
  WbWindow *window;

  take_as_data (book);
  window = wb_desk_driver_open (app, book);
  look_at_window (GTK_WINDOW (window), "empty");
  gtk_widget_activate_action (GTK_WIDGET (window), "win.new-job", NULL);
  wb_desk_driver_wait_for_job (window, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      g_autofree char *where = g_strconcat ("new-", pages[i], NULL);

      wb_job_page_show (wb_window_get_job_page (window), pages[i]);
      look_at_window (GTK_WINDOW (window), where);
    }
  wb_desk_driver_quit (app);
  assert_none_forgotten ();
}

static void
test_windows (void)
{
  static const char *const actions[] = {
    "win.show-due", "win.show-report", "win.show-servers", "win.show-keys", "app.preferences",
  };
  g_autoptr (WbDeskBook) book = wb_desk_book_new ();
  g_autoptr (WbApplication) app = wb_desk_driver_start ();
  WbWindow *window;

  take_as_data (book);
  g_assert_cmpuint (wb_desk_book_add_demo (book), >, 0);
  window = wb_desk_driver_open (app, book);
  for (gsize i = 0; i < G_N_ELEMENTS (actions); i++)
    {
      GtkWindow *other;

      gtk_widget_activate_action (GTK_WIDGET (window), actions[i], NULL);
      wb_test_settle ();
      other = find_other_window (GTK_WINDOW (window));
      g_assert_nonnull (other);
      look_at_window (other, strchr (actions[i], '.') + 1);
      gtk_window_destroy (other);
    }
  wb_desk_driver_quit (app);
  assert_none_forgotten ();
}

static void
read_data_words (const char *folder)
{
  g_autofree char *path = g_build_filename (folder, "data-words", NULL);
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  g_auto (GStrv) lines = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  lines = g_strsplit (text, "\n", -1);
  data_words = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; lines[i] != NULL; i++)
    if (lines[i][0] != '\0')
      g_ptr_array_add (data_words, g_strdup (lines[i]));
}

int
main (int    argc,
      char **argv)
{
  const char *folder = g_getenv ("WB_OTHER_WORDS");
  int result;

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, folder);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);

  g_test_init (&argc, &argv, NULL);
  g_assert_nonnull (folder);
  adw_init ();
  read_data_words (folder);
  forgotten = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);

  g_test_add_func ("/desk/other-words/start", test_start);
  g_test_add_func ("/desk/other-words/pages", test_pages);
  g_test_add_func ("/desk/other-words/new-job", test_new_job);
  g_test_add_func ("/desk/other-words/windows", test_windows);
  result = g_test_run ();

  g_clear_pointer (&data_words, g_ptr_array_unref);
  g_clear_pointer (&forgotten, g_hash_table_unref);
  return result;
}
