/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The main window. Holds what is shown and passes wishes on: to the application for books, to the
 * open jobs for jobs. What stands in the list and on the pages is theirs; its actions are in
 * wb-window-actions.c. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/window/wb-window-private.h"

#include "desk/share/wb-desk-queue.h"
#include "desk/share/wb-share-windows.h"
#include "desk/wb-application.h"
#include "desk/widgets/wb-menu-later.h"
#include "desk/window/wb-accelerators.h"
#include "desk/window/wb-window-closing.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

enum
{
  PROP_0,
  PROP_OPEN_JOBS,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbWindow, wb_window, ADW_TYPE_APPLICATION_WINDOW)

WbOffice *
wb_window_get_office (WbWindow *self)
{
  return self->open_jobs != NULL ? wb_open_jobs_get_office (self->open_jobs) : NULL;
}

void
wb_window_tell (WbWindow   *self,
                const char *heading,
                const char *body)
{
  GtkWidget *dialog = adw_message_dialog_new (GTK_WINDOW (self), heading, body);

  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "close", _("_Close"));
  gtk_window_present (GTK_WINDOW (dialog));
}

void
wb_window_tell_error (WbWindow     *self,
                      const char   *heading,
                      const GError *error)
{
  g_autofree char *words = wb_words_error (error);

  wb_window_tell (self, heading, words);
}

/* --- the job that is shown -------------------------------------------------------------------- */

static void
show_title (WbWindow *self)
{
  WbOffice *office = wb_window_get_office (self);
  const char *path = office != NULL ? wb_office_get_path (office) : NULL;
  g_autofree char *name = path != NULL ? g_path_get_basename (path) : NULL;

  gtk_window_set_title (GTK_WINDOW (self), name != NULL ? name : _("Wainbook"));
}

static void
leave_job (WbWindow *self)
{
  WbJobPage *page = wb_window_get_job_page (self);

  if (page != NULL)
    {
      wb_job_model_give_up (wb_job_page_get_model (page));
      wb_open_jobs_forget (self->open_jobs, wb_job_page_get_model (page));
    }
  wb_office_pane_set_job_page (self->pane, NULL);
  wb_window_enable_actions (self);
  wb_job_list_select (wb_office_pane_get_jobs (self->pane), NULL);
  wb_job_list_refresh (wb_office_pane_get_jobs (self->pane));
}

static void
show_page_of_job (WbWindow   *self,
                  WbJobModel *model)
{
  WbJobPage *before = wb_window_get_job_page (self);
  g_autofree char *page_name = NULL;
  GtkWidget *page;

  wb_job_list_select (wb_office_pane_get_jobs (self->pane),
                      wb_job_get_id (wb_job_model_get_job (model)));
  wb_office_pane_turn_to_job (self->pane);
  page_name = g_steal_pointer (&self->wanted_page);
  if (before != NULL && wb_job_page_get_model (before) == model)
    {
      wb_job_page_show (before,
                        page_name != NULL ? page_name : wb_job_page_get_visible_name (before));
      return;
    }

  if (before != NULL)
    {
      wb_job_page_settle (before);
      if (page_name == NULL)
        page_name = g_strdup (wb_job_page_get_visible_name (before));
    }

  page = wb_job_page_new (model);
  g_signal_connect_object (page, "leave", G_CALLBACK (leave_job), self, G_CONNECT_SWAPPED);
  wb_office_pane_set_job_page (self->pane, WB_JOB_PAGE (page));
  wb_window_enable_actions (self);
  wb_job_page_show (WB_JOB_PAGE (page), page_name != NULL ? page_name : "order");
  gtk_widget_grab_focus (page);
}

void
wb_window_show_job (WbWindow   *self,
                    WbJobModel *model)
{
  g_autofree char *line = g_steal_pointer (&self->wanted_line);

  show_page_of_job (self, model);
  if (line != NULL)
    wb_job_page_reveal (wb_window_get_job_page (self), WB_KIND_CLAIM_LINE, line, NULL);
}

static GCancellable *
start_loading (WbWindow *self)
{
  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  g_clear_pointer (&self->wanted_page, g_free);
  g_clear_pointer (&self->wanted_line, g_free);
  self->cancellable = g_cancellable_new ();
  return self->cancellable;
}

static void
job_found_cb (GObject      *object,
              GAsyncResult *result,
              gpointer      data)
{
  g_autoptr (WbWindow) self = WB_WINDOW (data);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJobModel) model = wb_open_jobs_find_finish (WB_OPEN_JOBS (object), result, &error);

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED) ||
      WB_OPEN_JOBS (object) != self->open_jobs)
    return;

  if (model != NULL)
    {
      wb_window_show_job (self, model);
    }
  else
    {
      wb_window_tell_error (self, _("The Job Cannot Be Opened"), error);
      wb_job_list_refresh (wb_office_pane_get_jobs (self->pane));
    }
}

static void
need_pane (WbWindow *self)
{
  GtkWidget *pane;

  if (self->pane != NULL)
    return;
  pane = wb_office_pane_new (G_MENU_MODEL (self->main_menu));
  self->pane = WB_OFFICE_PANE (pane);
  g_signal_connect_object (wb_office_pane_get_jobs (self->pane), "open-job",
                           G_CALLBACK (wb_window_open_job), self, G_CONNECT_SWAPPED);
  gtk_stack_add_named (self->stack, pane, "office");
}

/* --- what the window hears -------------------------------------------------------------------- */

/* Whoever comes back to the window sees what others stored meanwhile. */
static void
active_cb (WbWindow *self)
{
  if (!gtk_window_is_active (GTK_WINDOW (self)) || self->open_jobs == NULL)
    return;

  wb_job_list_refresh (wb_office_pane_get_jobs (self->pane));
  wb_open_jobs_refresh (self->open_jobs);
}

static GtkWidget *
get_page (GtkWidget *window)
{
  WbJobPage *page = wb_window_get_job_page (WB_WINDOW (window));

  return page != NULL ? wb_job_page_get_visible (page) : NULL;
}

static void
store_size (WbWindow *self)
{
  int width, height;

  gtk_window_get_default_size (GTK_WINDOW (self), &width, &height);
  g_settings_set_int (self->settings, "window-width", MAX (width, 360));
  g_settings_set_int (self->settings, "window-height", MAX (height, 294));
  g_settings_set_boolean (self->settings, "window-maximized",
                          gtk_window_is_maximized (GTK_WINDOW (self)));
}

static gboolean
wb_window_close_request (GtkWindow *window)
{
  WbWindow *self = WB_WINDOW (window);

  /* What is typed and not set yet counts as a change. */
  gtk_window_set_focus (window, NULL);
  store_size (self);
  if (self->open_jobs == NULL || !wb_open_jobs_get_unsaved (self->open_jobs))
    return GTK_WINDOW_CLASS (wb_window_parent_class)->close_request (window);

  wb_window_closing_start (window, self->open_jobs);
  return TRUE;
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_window_get_property (GObject    *object,
                        guint       prop_id,
                        GValue     *value,
                        GParamSpec *pspec)
{
  WbWindow *self = WB_WINDOW (object);

  switch (prop_id)
    {
    case PROP_OPEN_JOBS:
      g_value_set_object (value, self->open_jobs);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_window_set_property (GObject      *object,
                        guint         prop_id,
                        const GValue *value,
                        GParamSpec   *pspec)
{
  switch (prop_id)
    {
    case PROP_OPEN_JOBS:
      wb_window_set_open_jobs (WB_WINDOW (object), g_value_get_object (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_window_dispose (GObject *object)
{
  WbWindow *self = WB_WINDOW (object);

  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  self->pane = NULL;
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_WINDOW);
  g_clear_object (&self->settings);
  g_clear_object (&self->open_jobs);
  if (self->due != NULL)
    gtk_window_destroy (GTK_WINDOW (self->due));
  g_clear_weak_pointer (&self->due);
  if (self->report != NULL)
    gtk_window_destroy (GTK_WINDOW (self->report));
  g_clear_weak_pointer (&self->report);
  wb_share_windows_close (GTK_WINDOW (self));
  g_clear_pointer (&self->wanted_page, g_free);
  g_clear_pointer (&self->wanted_line, g_free);

  G_OBJECT_CLASS (wb_window_parent_class)->dispose (object);
}

static void
wb_window_class_init (WbWindowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_window_get_property;
  object_class->set_property = wb_window_set_property;
  object_class->dispose = wb_window_dispose;
  GTK_WINDOW_CLASS (klass)->close_request = wb_window_close_request;

  properties[PROP_OPEN_JOBS] =
    g_param_spec_object ("open-jobs", NULL, NULL, WB_TYPE_OPEN_JOBS,
                         G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/window/wb-window.ui");
  gtk_widget_class_bind_template_child (widget_class, WbWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, WbWindow, opening);
  gtk_widget_class_bind_template_child (widget_class, WbWindow, main_menu);
  gtk_widget_class_bind_template_child (widget_class, WbWindow, first_menu_button);

  wb_window_install_actions (widget_class);
}

static void
wb_window_init (WbWindow *self)
{
  self->settings = g_settings_new (WB_APP_ID);
  gtk_widget_init_template (GTK_WIDGET (self));
  wb_menu_later (self->first_menu_button, G_MENU_MODEL (self->main_menu));

  gtk_window_set_default_size (GTK_WINDOW (self),
                               g_settings_get_int (self->settings, "window-width"),
                               g_settings_get_int (self->settings, "window-height"));
  if (g_settings_get_boolean (self->settings, "window-maximized"))
    gtk_window_maximize (GTK_WINDOW (self));

  wb_accelerators_watch (GTK_WIDGET (self), get_page);
  wb_window_enable_actions (self);
  g_signal_connect (self, "notify::is-active", G_CALLBACK (active_cb), NULL);
}

/* --- what others call ------------------------------------------------------------------------- */

WbWindow *
wb_window_new (GtkApplication *application)
{
  g_return_val_if_fail (GTK_IS_APPLICATION (application), NULL);

  return g_object_new (WB_TYPE_WINDOW, "application", application, NULL);
}

WbOpenJobs *
wb_window_get_open_jobs (WbWindow *self)
{
  g_return_val_if_fail (WB_IS_WINDOW (self), NULL);

  return self->open_jobs;
}

void
wb_window_set_open_jobs (WbWindow   *self,
                         WbOpenJobs *open_jobs)
{
  g_return_if_fail (WB_IS_WINDOW (self));

  if (!g_set_object (&self->open_jobs, open_jobs))
    return;

  if (self->due != NULL)
    gtk_window_destroy (GTK_WINDOW (self->due));
  if (self->report != NULL)
    gtk_window_destroy (GTK_WINDOW (self->report));
  wb_share_windows_close (GTK_WINDOW (self));
  if (open_jobs != NULL)
    need_pane (self);
  if (self->pane != NULL)
    wb_office_pane_set_open_jobs (self->pane, open_jobs);
  gtk_stack_set_visible_child_name (self->stack, open_jobs != NULL ? "office" : "start");
  show_title (self);
  wb_window_enable_actions (self);
  if (open_jobs != NULL)
    wb_desk_queue_start_later (wb_window_get_office (self));
  if (open_jobs != NULL)
    wb_job_list_start_search (wb_office_pane_get_jobs (self->pane));
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_OPEN_JOBS]);
}

void
wb_window_show_opening (WbWindow   *self,
                        const char *path)
{
  /* Translators: %s is a file name. */
  g_autofree char *text = g_strdup_printf (_("Opening %s…"), path);

  g_return_if_fail (WB_IS_WINDOW (self));

  gtk_label_set_label (self->opening, text);
  gtk_stack_set_visible_child_name (self->stack, "opening");
}

void
wb_window_show_open_fault (WbWindow     *self,
                           const char   *path,
                           const GError *error)
{
  g_autofree char *words = wb_words_error (error);
  g_autofree char *body = g_strdup_printf ("%s\n\n%s", path, words);

  g_return_if_fail (WB_IS_WINDOW (self));

  gtk_stack_set_visible_child_name (self->stack, self->open_jobs != NULL ? "office" : "start");
  wb_window_tell (self, _("The Office Book Cannot Be Opened"), body);
}

void
wb_window_open_job (WbWindow   *self,
                    const char *id)
{
  g_return_if_fail (WB_IS_WINDOW (self));
  g_return_if_fail (self->open_jobs != NULL);

  wb_open_jobs_find_async (self->open_jobs, id, start_loading (self), job_found_cb,
                           g_object_ref (self));
}

WbJobPage *
wb_window_get_job_page (WbWindow *self)
{
  g_return_val_if_fail (WB_IS_WINDOW (self), NULL);

  return self->pane != NULL ? wb_office_pane_get_job_page (self->pane) : NULL;
}

const char *
wb_window_get_help_topic (WbWindow *self)
{
  GtkWidget *focus, *jobs;
  WbJobPage *page;

  g_return_val_if_fail (WB_IS_WINDOW (self), NULL);

  if (self->open_jobs == NULL)
    return "book";

  focus = gtk_window_get_focus (GTK_WINDOW (self));
  page = wb_window_get_job_page (self);
  jobs = GTK_WIDGET (wb_office_pane_get_jobs (self->pane));
  if (page == NULL || (focus != NULL && gtk_widget_is_ancestor (focus, jobs)))
    return "job-search";

  return wb_job_page_get_visible_name (page);
}
