/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of jobs beside the job. Opens, stores and closes nothing. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/window/wb-office-pane.h"

#include "desk/share/wb-queue-notice.h"
#include "desk/widgets/wb-menu-later.h"
#include "desk/window/wb-notices.h"

struct _WbOfficePane
{
  AdwBin          parent_instance;

  AdwLeaflet     *leaflet;
  AdwWindowTitle *book_title;
  WbNotices      *notices;
  WbQueueNotice  *transfers;
  WbJobList      *jobs;
  GtkStack       *job_stack;
  AdwBin         *job_bin;
  GtkMenuButton  *menu_button;
};

G_DEFINE_FINAL_TYPE (WbOfficePane, wb_office_pane, ADW_TYPE_BIN)

static void
wb_office_pane_class_init (WbOfficePaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (WB_TYPE_JOB_LIST);
  g_type_ensure (WB_TYPE_NOTICES);
  g_type_ensure (WB_TYPE_QUEUE_NOTICE);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/window/wb-office-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, WbOfficePane, leaflet);
  gtk_widget_class_bind_template_child (widget_class, WbOfficePane, book_title);
  gtk_widget_class_bind_template_child (widget_class, WbOfficePane, notices);
  gtk_widget_class_bind_template_child (widget_class, WbOfficePane, transfers);
  gtk_widget_class_bind_template_child (widget_class, WbOfficePane, jobs);
  gtk_widget_class_bind_template_child (widget_class, WbOfficePane, job_stack);
  gtk_widget_class_bind_template_child (widget_class, WbOfficePane, job_bin);
  gtk_widget_class_bind_template_child (widget_class, WbOfficePane, menu_button);
}

static void
wb_office_pane_init (WbOfficePane *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
wb_office_pane_new (GMenuModel *menu)
{
  WbOfficePane *self = g_object_new (WB_TYPE_OFFICE_PANE, NULL);

  wb_menu_later (self->menu_button, menu);
  return GTK_WIDGET (self);
}

static void
show_title (WbOfficePane *self,
            const char   *path)
{
  g_autofree char *name = path != NULL ? g_path_get_basename (path) : NULL;
  g_autofree char *folder = path != NULL ? g_path_get_dirname (path) : NULL;

  adw_window_title_set_title (self->book_title, name != NULL ? name : "");
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->book_title), folder);
}

void
wb_office_pane_set_open_jobs (WbOfficePane *self,
                              WbOpenJobs   *open_jobs)
{
  WbOffice *office = open_jobs != NULL ? wb_open_jobs_get_office (open_jobs) : NULL;

  g_return_if_fail (WB_IS_OFFICE_PANE (self));

  wb_office_pane_set_job_page (self, NULL);
  show_title (self, office != NULL ? wb_office_get_path (office) : NULL);
  g_object_set (self->jobs, "office", office, NULL);
  g_object_set (self->notices, "open-jobs", open_jobs, NULL);
  wb_queue_notice_set_office (self->transfers, office);
}

WbJobList *
wb_office_pane_get_jobs (WbOfficePane *self)
{
  g_return_val_if_fail (WB_IS_OFFICE_PANE (self), NULL);

  return self->jobs;
}

void
wb_office_pane_set_job_page (WbOfficePane *self,
                             WbJobPage    *page)
{
  g_return_if_fail (WB_IS_OFFICE_PANE (self));

  if (page != NULL)
    g_object_bind_property (self->leaflet, "folded", page, "show-back", G_BINDING_SYNC_CREATE);
  adw_bin_set_child (self->job_bin, (GtkWidget *) page);
  g_object_set (self->notices, "shown", page != NULL ? wb_job_page_get_model (page) : NULL, NULL);
  gtk_stack_set_visible_child_name (self->job_stack, page != NULL ? "job" : "none");
}

WbJobPage *
wb_office_pane_get_job_page (WbOfficePane *self)
{
  g_return_val_if_fail (WB_IS_OFFICE_PANE (self), NULL);

  return self->job_bin != NULL ? (WbJobPage *) adw_bin_get_child (self->job_bin) : NULL;
}

void
wb_office_pane_turn_to_jobs (WbOfficePane *self)
{
  g_return_if_fail (WB_IS_OFFICE_PANE (self));

  adw_leaflet_set_visible_child_name (self->leaflet, "jobs");
}

void
wb_office_pane_turn_to_job (WbOfficePane *self)
{
  g_return_if_fail (WB_IS_OFFICE_PANE (self));

  adw_leaflet_set_visible_child_name (self->leaflet, "job");
}
