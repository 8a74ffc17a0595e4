/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The application. Opens books, gives them to windows and closes them after the last window; what
 * is done in a book is the window's and its pages'. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/wb-application.h"

#include "desk/share/wb-desk-queue.h"
#include "desk/window/wb-accelerators.h"
#include "desk/window/wb-preferences.h"

#include <glib/gi18n.h>

struct _WbApplication
{
  AdwApplication  parent_instance;

  GHashTable     *books;      /* path → WbOpenJobs */
  GSettings      *settings;
};

G_DEFINE_FINAL_TYPE (WbApplication, wb_application, ADW_TYPE_APPLICATION)

/* --- books ------------------------------------------------------------------------------------ */

typedef struct
{
  WbApplication *self;
  WbWindow      *window;
  char          *path;
} Opening;

static void
opening_free (Opening *opening)
{
  g_application_release (G_APPLICATION (opening->self));
  g_object_unref (opening->self);
  g_object_unref (opening->window);
  g_free (opening->path);
  g_free (opening);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Opening, opening_free)

static void
show_book (WbApplication *self,
           WbOpenJobs    *open_jobs,
           WbWindow      *window)
{
  g_settings_set_string (self->settings, "last-book",
                         wb_office_get_path (wb_open_jobs_get_office (open_jobs)));
  wb_window_set_open_jobs (window, open_jobs);
}

/* Closing waits for the writer, so it is done off the main loop. */
static void
close_in_thread (GTask        *task,
                 gpointer      source,
                 gpointer      data,
                 GCancellable *cancellable)
{
  wb_office_close (WB_OFFICE (source));
  g_task_return_boolean (task, TRUE);
}

static void
closed_cb (GObject      *object,
           GAsyncResult *result,
           gpointer      data)
{
  g_application_release (data);
}

static void
close_office (WbApplication *self,
              WbOffice      *office)
{
  g_autoptr (GTask) task = g_task_new (office, NULL, closed_cb, self);

  g_application_hold (G_APPLICATION (self));
  g_task_run_in_thread (task, close_in_thread);
}

static void
opened_cb (GObject      *object,
           GAsyncResult *result,
           gpointer      data)
{
  g_autoptr (Opening) opening = data;
  WbApplication *self = opening->self;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbOffice) office = wb_office_open_finish (result, &error);
  WbOpenJobs *open_already = g_hash_table_lookup (self->books, opening->path);
  g_autoptr (WbOpenJobs) open_jobs = NULL;

  /* The window may have been closed meanwhile. */
  if (gtk_window_get_application (GTK_WINDOW (opening->window)) == NULL)
    {
      if (office != NULL)
        close_office (self, office);
      return;
    }

  if (office == NULL)
    {
      wb_window_show_open_fault (opening->window, opening->path, error);
      return;
    }

  /* Two windows asked for it before it was open. */
  if (open_already != NULL)
    {
      close_office (self, office);
      show_book (self, open_already, opening->window);
      return;
    }

  open_jobs = wb_open_jobs_new (office);
  g_hash_table_insert (self->books, g_strdup (opening->path), g_object_ref (open_jobs));
  show_book (self, open_jobs, opening->window);
}

static gboolean
is_shown (WbApplication *self,
          WbOpenJobs    *open_jobs)
{
  for (GList *l = gtk_application_get_windows (GTK_APPLICATION (self)); l != NULL; l = l->next)
    if (WB_IS_WINDOW (l->data) && wb_window_get_open_jobs (l->data) == open_jobs)
      return TRUE;

  return FALSE;
}

static void
close_unshown (WbApplication *self)
{
  GHashTableIter iter;
  gpointer open_jobs;

  g_hash_table_iter_init (&iter, self->books);
  while (g_hash_table_iter_next (&iter, NULL, &open_jobs))
    {
      if (is_shown (self, open_jobs))
        continue;

      wb_desk_queue_stop (wb_open_jobs_get_office (open_jobs));
      close_office (self, wb_open_jobs_get_office (open_jobs));
      g_hash_table_iter_remove (&iter);
    }
}

void
wb_application_open_book (WbApplication *self,
                          const char    *path,
                          WbBookMode     mode,
                          WbWindow      *window)
{
  g_autofree char *full_path = NULL;
  WbOpenJobs *open_jobs;
  Opening *opening;

  g_return_if_fail (WB_IS_APPLICATION (self));
  g_return_if_fail (path != NULL);
  g_return_if_fail (WB_IS_WINDOW (window));

  full_path = g_canonicalize_filename (path, NULL);
  open_jobs = g_hash_table_lookup (self->books, full_path);
  if (open_jobs != NULL && mode == WB_BOOK_OPEN)
    {
      show_book (self, open_jobs, window);
      return;
    }

  opening = g_new (Opening, 1);
  opening->self = g_object_ref (self);
  opening->window = g_object_ref (window);
  opening->path = g_steal_pointer (&full_path);
  g_application_hold (G_APPLICATION (self));

  wb_window_show_opening (window, opening->path);
  wb_office_open_async (opening->path, mode, NULL, opened_cb, opening);
}

/* --- actions ---------------------------------------------------------------------------------- */

static void
quit_cb (GSimpleAction *action,
         GVariant      *parameter,
         gpointer       data)
{
  g_autoptr (GList) windows = g_list_copy (gtk_application_get_windows (GTK_APPLICATION (data)));

  /* Each stores what is unsaved before it goes; the last one ends the application. */
  for (GList *l = windows; l != NULL; l = l->next)
    gtk_window_close (l->data);
}

static void
about_cb (GSimpleAction *action,
          GVariant      *parameter,
          gpointer       data)
{
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (data));

  adw_show_about_window (window,
                         "application-name", _("Wainbook"),
                         "application-icon", WB_APP_ID,
                         "version", WB_VERSION,
                         "license-type", GTK_LICENSE_GPL_3_0,
                         "comments",
                         _("Keeps the jobs, inventories and claims of a moving company. What it "
                           "reckons is an aid to a person who decides, no legal advice."),
                         NULL);
}

static void
preferences_cb (GSimpleAction *action,
                GVariant      *parameter,
                gpointer       data)
{
  wb_preferences_show (gtk_application_get_active_window (GTK_APPLICATION (data)));
}

static void
colour_scheme_cb (WbApplication *self)
{
  AdwStyleManager *manager = adw_application_get_style_manager (ADW_APPLICATION (self));
  g_autofree char *scheme = g_settings_get_string (self->settings, "colour-scheme");

  if (g_str_equal (scheme, "light"))
    adw_style_manager_set_color_scheme (manager, ADW_COLOR_SCHEME_FORCE_LIGHT);
  else if (g_str_equal (scheme, "dark"))
    adw_style_manager_set_color_scheme (manager, ADW_COLOR_SCHEME_FORCE_DARK);
  else
    adw_style_manager_set_color_scheme (manager, ADW_COLOR_SCHEME_DEFAULT);
}

static void
add_actions (WbApplication *self)
{
  static const GActionEntry entries[] = {
    { "quit", quit_cb },
    { "about", about_cb },
    { "preferences", preferences_cb },
  };
  g_autoptr (GAction) colour_scheme = g_settings_create_action (self->settings, "colour-scheme");

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  g_action_map_add_action (G_ACTION_MAP (self), colour_scheme);
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_application_startup (GApplication *app)
{
  WbApplication *self = WB_APPLICATION (app);

  G_APPLICATION_CLASS (wb_application_parent_class)->startup (app);

  self->settings = g_settings_new (WB_APP_ID);
  g_signal_connect_object (self->settings, "changed::colour-scheme", G_CALLBACK (colour_scheme_cb),
                           self, G_CONNECT_SWAPPED);
  colour_scheme_cb (self);
  add_actions (self);
  wb_accelerators_install (GTK_APPLICATION (self));
}

static void
wb_application_activate (GApplication *app)
{
  WbApplication *self = WB_APPLICATION (app);
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (app));
  g_autofree char *last_book = NULL;

  if (window == NULL)
    {
      window = GTK_WINDOW (wb_window_new (GTK_APPLICATION (app)));
      last_book = g_settings_get_string (self->settings, "last-book");
      if (*last_book != '\0')
        wb_application_open_book (self, last_book, WB_BOOK_OPEN, WB_WINDOW (window));
    }

  gtk_window_present (window);
}

static void
wb_application_open (GApplication  *app,
                     GFile        **files,
                     int            n_files,
                     const char    *hint)
{
  for (int i = 0; i < n_files; i++)
    {
      g_autofree char *path = g_file_get_path (files[i]);
      g_autofree char *uri = g_file_get_uri (files[i]);
      WbWindow *window = wb_window_new (GTK_APPLICATION (app));

      /* A place that has no path cannot hold a book; its address serves to say so. */
      wb_application_open_book (WB_APPLICATION (app), path != NULL ? path : uri, WB_BOOK_OPEN,
                                window);
      gtk_window_present (GTK_WINDOW (window));
    }
}

static void
wb_application_window_removed (GtkApplication *app,
                               GtkWindow      *window)
{
  GTK_APPLICATION_CLASS (wb_application_parent_class)->window_removed (app, window);

  close_unshown (WB_APPLICATION (app));
}

static void
wb_application_finalize (GObject *object)
{
  WbApplication *self = WB_APPLICATION (object);

  g_clear_pointer (&self->books, g_hash_table_unref);
  g_clear_object (&self->settings);

  G_OBJECT_CLASS (wb_application_parent_class)->finalize (object);
}

static void
wb_application_class_init (WbApplicationClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GApplicationClass *app_class = G_APPLICATION_CLASS (klass);

  object_class->finalize = wb_application_finalize;
  app_class->startup = wb_application_startup;
  app_class->activate = wb_application_activate;
  app_class->open = wb_application_open;
  GTK_APPLICATION_CLASS (klass)->window_removed = wb_application_window_removed;
}

static void
wb_application_init (WbApplication *self)
{
  self->books = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_object_unref);
}

WbApplication *
wb_application_new (void)
{
  return g_object_new (WB_TYPE_APPLICATION,
                       "application-id", WB_APP_ID,
                       "resource-base-path", "/org/wainbook/Wainbook",
                       "flags", G_APPLICATION_HANDLES_OPEN,
                       NULL);
}
