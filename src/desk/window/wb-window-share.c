/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the main window does with file servers: its actions lead to the windows and deeds of
 * desk/share. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/window/wb-window-private.h"

#include "desk/share/wb-share-deeds.h"
#include "desk/share/wb-share-windows.h"

static void
show_servers_action (GtkWidget  *widget,
                     const char *name,
                     GVariant   *target)
{
  wb_share_windows_show_servers (GTK_WINDOW (widget), wb_window_get_office (WB_WINDOW (widget)));
}

static void
show_transfers_action (GtkWidget  *widget,
                       const char *name,
                       GVariant   *target)
{
  wb_share_windows_show_transfers (WB_WINDOW (widget));
}

static void
show_published_action (GtkWidget  *widget,
                       const char *name,
                       GVariant   *target)
{
  wb_share_windows_show_published (WB_WINDOW (widget));
}

static const char *
server_in (GVariant *target)
{
  return target != NULL ? g_variant_get_string (target, NULL) : NULL;
}

static const char *
title_of (const WbJob *job)
{
  const char *number = wb_job_order (job)->number;

  return number != NULL ? number : wb_job_get_id (job);
}

/* Without a target of the only server, or the one that is then chosen. */
static void
publish_action (GtkWidget  *widget,
                const char *name,
                GVariant   *target)
{
  WbWindow *self = WB_WINDOW (widget);
  WbJobPage *page = wb_window_get_job_page (self);
  const WbJob *job;

  if (page == NULL)
    return;
  wb_job_page_settle (page);
  job = wb_job_model_get_job (wb_job_page_get_model (page));
  wb_share_publish (self, server_in (target), wb_job_get_id (job), title_of (job));
}

static void
bring_action (GtkWidget  *widget,
              const char *name,
              GVariant   *target)
{
  WbWindow *self = WB_WINDOW (widget);
  WbJobPage *page = wb_window_get_job_page (self);
  const WbJob *job;

  if (page == NULL)
    return;
  wb_job_page_settle (page);
  job = wb_job_model_get_job (wb_job_page_get_model (page));
  wb_share_bring (self, GTK_WINDOW (self), server_in (target), wb_job_get_id (job),
                  title_of (job));
}

void
wb_window_install_share_actions (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "win.show-servers", NULL, show_servers_action);
  gtk_widget_class_install_action (widget_class, "win.show-transfers", NULL,
                                   show_transfers_action);
  gtk_widget_class_install_action (widget_class, "win.show-published", NULL,
                                   show_published_action);
  gtk_widget_class_install_action (widget_class, "win.publish", NULL, publish_action);
  gtk_widget_class_install_action (widget_class, "win.publish-on", "s", publish_action);
  gtk_widget_class_install_action (widget_class, "win.bring", NULL, bring_action);
  gtk_widget_class_install_action (widget_class, "win.bring-from", "s", bring_action);
}

void
wb_window_enable_share_actions (WbWindow *self)
{
  static const char *const of_job[] = { "win.publish", "win.publish-on", "win.bring",
                                        "win.bring-from" };
  gboolean open = self->open_jobs != NULL;
  gboolean has_job = open && wb_window_get_job_page (self) != NULL;

  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.show-servers", open);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.show-transfers", open);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.show-published", open);
  for (gsize i = 0; i < G_N_ELEMENTS (of_job); i++)
    gtk_widget_action_set_enabled (GTK_WIDGET (self), of_job[i], has_job);
}
