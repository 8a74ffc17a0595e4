/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "desk/window/wb-window.h"

struct _WbWindow
{
  AdwApplicationWindow parent_instance;
};

G_DEFINE_FINAL_TYPE (WbWindow, wb_window, ADW_TYPE_APPLICATION_WINDOW)

static void
wb_window_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), WB_TYPE_WINDOW);

  G_OBJECT_CLASS (wb_window_parent_class)->dispose (object);
}

static void
wb_window_class_init (WbWindowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = wb_window_dispose;

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/window/wb-window.ui");
}

static void
wb_window_init (WbWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

WbWindow *
wb_window_new (GtkApplication *application)
{
  g_return_val_if_fail (GTK_IS_APPLICATION (application), NULL);

  return g_object_new (WB_TYPE_WINDOW, "application", application, NULL);
}
