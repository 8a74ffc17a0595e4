/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "desk/support/wb-desk-driver.h"

#include <glib/gi18n.h>

#include "desk/jobs/wb-job-list.h"
#include "desk/widgets/wb-later.h"
#include "support/wb-test-window.h"

/* One for the whole test program: the session bus takes the name of an application once only. */
WbApplication *
wb_desk_driver_start (void)
{
  static WbApplication *app;
  g_autoptr (GSettings) settings = g_settings_new (WB_APP_ID);

  g_settings_reset (settings, "last-book");
  if (app == NULL)
    {
      g_autoptr (GError) error = NULL;

      app = wb_application_new ();
      g_application_register (G_APPLICATION (app), NULL, &error);
      g_assert_no_error (error);
    }

  g_assert_null (gtk_application_get_windows (GTK_APPLICATION (app)));
  return g_object_ref (app);
}

static gboolean
has_book (gpointer window)
{
  return wb_window_get_open_jobs (window) != NULL;
}

/* The line below the list says how many there are as soon as they are known; an empty book shows
 * its own page instead. */
static gboolean
has_answer (gpointer window)
{
  GtkWidget *list = wb_test_find (window, WB_TYPE_JOB_LIST, NULL);
  GtkWidget *view = wb_test_find (list, GTK_TYPE_LIST_VIEW, NULL);
  GtkWidget *empty = wb_test_find (list, GTK_TYPE_BUTTON, _("_New Job"));
  GListModel *rows = G_LIST_MODEL (gtk_list_view_get_model (GTK_LIST_VIEW (view)));

  return g_list_model_get_n_items (rows) > 0 || gtk_widget_get_mapped (empty);
}

WbWindow *
wb_desk_driver_open (WbApplication *app,
                     WbDeskBook    *book)
{
  g_autoptr (GFile) file = g_file_new_for_path (book->path);
  GFile *files[] = { file };
  WbWindow *window;

  g_application_open (G_APPLICATION (app), files, 1, "");
  window = WB_WINDOW (gtk_application_get_active_window (GTK_APPLICATION (app)));
  wb_test_wait_until (has_book, window);
  wb_test_wait_until (has_answer, window);
  return window;
}

typedef struct
{
  WbWindow   *window;
  const char *id;
} Shown;

static gboolean
is_shown (gpointer data)
{
  const Shown *shown = data;
  WbJobPage *page = wb_window_get_job_page (shown->window);
  const WbJob *job = page != NULL ? wb_job_model_get_job (wb_job_page_get_model (page)) : NULL;

  return job != NULL && (shown->id == NULL || g_str_equal (wb_job_get_id (job), shown->id))
         && wb_later_is_done (wb_job_page_get_visible (page));
}

void
wb_desk_driver_wait_for_job (WbWindow   *window,
                             const char *id)
{
  Shown shown = { window, id };

  wb_test_wait_until (is_shown, &shown);
}

void
wb_desk_driver_open_job (WbWindow   *window,
                         const char *id)
{
  wb_window_open_job (window, id);
  wb_desk_driver_wait_for_job (window, id);
}

WbJob *
wb_desk_driver_get_job (WbWindow *window)
{
  WbJobPage *page = wb_window_get_job_page (window);

  g_assert_nonnull (page);
  return wb_job_model_get_job (wb_job_page_get_model (page));
}

static GtkWidget *
find_field (GtkWidget  *root,
            const char *field)
{
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      g_autofree char *name = NULL;
      GtkWidget *found;

      if (g_object_class_find_property (G_OBJECT_GET_CLASS (child), "field") != NULL)
        g_object_get (child, "field", &name, NULL);
      found = g_strcmp0 (name, field) == 0 ? child : find_field (child, field);
      if (found != NULL)
        return found;
    }

  return NULL;
}

GtkWidget *
wb_desk_driver_find_field (GtkWidget  *root,
                           const char *field)
{
  GtkWidget *row = find_field (root, field);

  g_assert_nonnull (row);
  return row;
}

static gboolean
has_no_window (gpointer app)
{
  return gtk_application_get_windows (app) == NULL;
}

void
wb_desk_driver_quit (WbApplication *app)
{
  g_action_group_activate_action (G_ACTION_GROUP (app), "quit", NULL);
  wb_test_wait_until (has_no_window, app);
  wb_test_pass_time (50);
}
