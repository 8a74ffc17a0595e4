/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A peer of bench-start: a window of GTK alone with nothing in it. Prints the time of its first
 * frame. */
#include <gtk/gtk.h>

static void
on_first_frame (GdkFrameClock *clock,
                gpointer       app)
{
  g_print ("%" G_GINT64_FORMAT "\n", g_get_monotonic_time ());
  g_signal_handlers_disconnect_by_func (clock, on_first_frame, app);
  g_application_quit (app);
}

static void
on_activate (GtkApplication *app,
             gpointer        data)
{
  GtkWidget *window = gtk_application_window_new (app);

  gtk_window_set_default_size (GTK_WINDOW (window), 1180, 760);
  gtk_window_present (GTK_WINDOW (window));
  g_signal_connect_after (gtk_widget_get_frame_clock (window), "after-paint",
                          G_CALLBACK (on_first_frame), app);
}

int
main (int    argc,
      char **argv)
{
  g_autoptr (GtkApplication) app = gtk_application_new ("org.wainbook.BenchGtk",
                                                        G_APPLICATION_NON_UNIQUE);

  g_signal_connect (app, "activate", G_CALLBACK (on_activate), NULL);
  return g_application_run (G_APPLICATION (app), argc, argv);
}
