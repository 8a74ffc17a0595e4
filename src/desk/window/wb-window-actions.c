/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The actions of the main window: what they do, and which of them can be chosen at the moment. Each
 * passes a wish on and does no work of its own. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/window/wb-window-private.h"

#include "desk/due/wb-due-window.h"
#include "desk/report/wb-report-window.h"
#include "desk/window/wb-accelerators.h"
#include "desk/window/wb-book-chooser.h"
#include "desk/window/wb-bundle-dialogs.h"
#include "desk/window/wb-paper-dialogs.h"

#include <glib/gi18n.h>

static void
job_created_cb (GObject      *object,
                GAsyncResult *result,
                gpointer      data)
{
  g_autoptr (WbWindow) self = WB_WINDOW (data);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_office_create_job_finish (WB_OFFICE (object), result, &error);
  g_autoptr (WbJobModel) model = NULL;

  if (WB_OFFICE (object) != wb_window_get_office (self))
    return;

  if (job == NULL)
    {
      wb_window_tell_error (self, _("The Job Cannot Be Made"), error);
      return;
    }

  model = wb_open_jobs_adopt (self->open_jobs, job);
  wb_job_list_end_search (wb_office_pane_get_jobs (self->pane));
  wb_window_show_job (self, model);
  wb_job_page_show (wb_window_get_job_page (self), "order");
}

static void
new_job_action (GtkWidget  *widget,
                const char *name,
                GVariant   *target)
{
  WbWindow *self = WB_WINDOW (widget);
  g_autofree char *currency = g_settings_get_string (self->settings, "currency");

  g_cancellable_cancel (self->cancellable);
  wb_office_create_job_async (wb_window_get_office (self), currency, NULL, job_created_cb,
                              g_object_ref (self));
}

static void
open_job_action (GtkWidget  *widget,
                 const char *name,
                 GVariant   *target)
{
  wb_window_open_job (WB_WINDOW (widget), g_variant_get_string (target, NULL));
}

/* In the window that is asked, on the page where the claim is. */
static void
open_claim_cb (WbWindow   *self,
               const char *job_id)
{
  gtk_window_present (GTK_WINDOW (self));
  wb_window_open_job (self, job_id);
  self->wanted_page = g_strdup ("claim");
}

static void
show_due_action (GtkWidget  *widget,
                 const char *name,
                 GVariant   *target)
{
  WbWindow *self = WB_WINDOW (widget);

  if (self->due == NULL)
    {
      g_set_weak_pointer (&self->due, wb_due_window_new (wb_window_get_office (self)));
      g_signal_connect_object (self->due, "open-claim", G_CALLBACK (open_claim_cb), self,
                               G_CONNECT_SWAPPED);
    }
  gtk_window_present (GTK_WINDOW (self->due));
}

/* As open_claim_cb(), at one line of the claim. */
static void
open_claim_line_cb (WbWindow   *self,
                    const char *job_id,
                    const char *line_id)
{
  open_claim_cb (self, job_id);
  self->wanted_line = g_strdup (line_id);
}

static void
show_report_action (GtkWidget  *widget,
                    const char *name,
                    GVariant   *target)
{
  WbWindow *self = WB_WINDOW (widget);

  if (self->report == NULL)
    {
      g_set_weak_pointer (&self->report, wb_report_window_new (wb_window_get_office (self)));
      g_signal_connect_object (self->report, "open-claim", G_CALLBACK (open_claim_line_cb), self,
                               G_CONNECT_SWAPPED);
    }
  gtk_window_present (GTK_WINDOW (self->report));
}

static void
search_action (GtkWidget  *widget,
               const char *name,
               GVariant   *target)
{
  WbWindow *self = WB_WINDOW (widget);

  wb_office_pane_turn_to_jobs (self->pane);
  wb_job_list_start_search (wb_office_pane_get_jobs (self->pane));
}

static void
open_book_action (GtkWidget  *widget,
                  const char *name,
                  GVariant   *target)
{
  wb_book_chooser_run (WB_WINDOW (widget), WB_BOOK_OPEN);
}

static void
new_book_action (GtkWidget  *widget,
                 const char *name,
                 GVariant   *target)
{
  wb_book_chooser_run (WB_WINDOW (widget), WB_BOOK_CREATE);
}

static void
save_bundle_action (GtkWidget  *widget,
                    const char *name,
                    GVariant   *target)
{
  WbWindow *self = WB_WINDOW (widget);
  WbJobPage *page = wb_window_get_job_page (self);

  if (page == NULL)
    return;
  wb_job_page_settle (page);
  wb_bundle_dialogs_save (self, wb_job_model_get_job (wb_job_page_get_model (page)));
}

static void
save_papers_action (GtkWidget  *widget,
                    const char *name,
                    GVariant   *target)
{
  WbWindow *self = WB_WINDOW (widget);
  WbJobPage *page = wb_window_get_job_page (self);

  if (page == NULL)
    return;
  wb_job_page_settle (page);
  wb_paper_dialogs_save (self, wb_job_model_get_job (wb_job_page_get_model (page)));
}

static void
open_bundle_action (GtkWidget  *widget,
                    const char *name,
                    GVariant   *target)
{
  wb_bundle_dialogs_open (WB_WINDOW (widget));
}

static void
new_window_action (GtkWidget  *widget,
                   const char *name,
                   GVariant   *target)
{
  WbWindow *self = WB_WINDOW (widget);
  WbWindow *window = wb_window_new (gtk_window_get_application (GTK_WINDOW (self)));

  wb_window_set_open_jobs (window, self->open_jobs);
  gtk_window_present (GTK_WINDOW (window));
}

static void
close_action (GtkWidget  *widget,
              const char *name,
              GVariant   *target)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static void
back_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  wb_office_pane_turn_to_jobs (WB_WINDOW (widget)->pane);
}

static void
show_keys_action (GtkWidget  *widget,
                  const char *name,
                  GVariant   *target)
{
  wb_accelerators_show (GTK_WINDOW (widget));
}

static void
help_shown_cb (GObject      *object,
               GAsyncResult *result,
               gpointer      data)
{
  g_autoptr (WbWindow) self = WB_WINDOW (data);

  if (!gtk_show_uri_full_finish (GTK_WINDOW (self), result, NULL))
    wb_window_tell (self, _("The Help Cannot Be Shown"),
          _("This computer has no program that shows help pages. Install one, for example Yelp."));
}

static void
help_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  WbWindow *self = WB_WINDOW (widget);
  g_autofree char *uri = g_strconcat ("help:wainbook/", wb_window_get_help_topic (self), NULL);

  gtk_show_uri_full (GTK_WINDOW (self), uri, GDK_CURRENT_TIME, NULL, help_shown_cb,
                     g_object_ref (self));
}

void
wb_window_install_actions (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "win.new-job", NULL, new_job_action);
  gtk_widget_class_install_action (widget_class, "win.open-job", "s", open_job_action);
  gtk_widget_class_install_action (widget_class, "win.show-due", NULL, show_due_action);
  gtk_widget_class_install_action (widget_class, "win.show-report", NULL, show_report_action);
  gtk_widget_class_install_action (widget_class, "win.search", NULL, search_action);
  gtk_widget_class_install_action (widget_class, "win.open-book", NULL, open_book_action);
  gtk_widget_class_install_action (widget_class, "win.new-book", NULL, new_book_action);
  gtk_widget_class_install_action (widget_class, "win.save-bundle", NULL, save_bundle_action);
  gtk_widget_class_install_action (widget_class, "win.save-papers", NULL, save_papers_action);
  gtk_widget_class_install_action (widget_class, "win.open-bundle", NULL, open_bundle_action);
  gtk_widget_class_install_action (widget_class, "win.new-window", NULL, new_window_action);
  gtk_widget_class_install_action (widget_class, "win.close", NULL, close_action);
  gtk_widget_class_install_action (widget_class, "win.back", NULL, back_action);
  gtk_widget_class_install_action (widget_class, "win.help", NULL, help_action);
  gtk_widget_class_install_action (widget_class, "win.show-keys", NULL, show_keys_action);
  wb_window_install_share_actions (widget_class);
}

void
wb_window_enable_actions (WbWindow *self)
{
  gboolean open = self->open_jobs != NULL;

  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.new-job", open);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.open-job", open);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.search", open);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.show-due", open);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.show-report", open);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.back", open);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.open-bundle", open);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.save-bundle",
                                 open && wb_window_get_job_page (self) != NULL);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.save-papers",
                                 open && wb_window_get_job_page (self) != NULL);
  wb_window_enable_share_actions (self);
}
