/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "desk/wb-application.h"

#include "desk/window/wb-window.h"

struct _WbApplication
{
  AdwApplication parent_instance;
};

G_DEFINE_FINAL_TYPE (WbApplication, wb_application, ADW_TYPE_APPLICATION)

static void
wb_application_activate (GApplication *app)
{
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (app));

  if (window == NULL)
    window = GTK_WINDOW (wb_window_new (GTK_APPLICATION (app)));

  gtk_window_present (window);
}

static void
wb_application_class_init (WbApplicationClass *klass)
{
  GApplicationClass *app_class = G_APPLICATION_CLASS (klass);

  app_class->activate = wb_application_activate;
}

static void
wb_application_init (WbApplication *self)
{
}

WbApplication *
wb_application_new (void)
{
  return g_object_new (WB_TYPE_APPLICATION,
                       "application-id", WB_APP_ID,
                       "resource-base-path", "/org/wainbook/Wainbook",
                       NULL);
}
