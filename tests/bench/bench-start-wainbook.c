/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program as it starts for a person, told to print the time of its first frame and to end. */
#include "config.h"

#include "desk/wb-application.h"

static void
on_first_frame (GdkFrameClock *clock,
                gpointer       app)
{
  g_print ("%" G_GINT64_FORMAT "\n", g_get_monotonic_time ());
  g_signal_handlers_disconnect_by_func (clock, on_first_frame, app);
  g_application_quit (app);
}

static void
on_realize (GtkWidget *window,
            gpointer   app)
{
  g_signal_connect_after (gtk_widget_get_frame_clock (window), "after-paint",
                          G_CALLBACK (on_first_frame), app);
}

static void
on_window_added (GtkApplication *app,
                 GtkWindow      *window,
                 gpointer        data)
{
  g_signal_connect (window, "realize", G_CALLBACK (on_realize), app);
}

int
main (int    argc,
      char **argv)
{
  g_autoptr (WbApplication) app = wb_application_new ();

  g_application_set_flags (G_APPLICATION (app),
                           g_application_get_flags (G_APPLICATION (app)) | G_APPLICATION_NON_UNIQUE);
  g_signal_connect (app, "window-added", G_CALLBACK (on_window_added), NULL);
  return g_application_run (G_APPLICATION (app), argc, argv);
}
