/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "desk/wb-application.h"
#include "desk/window/wb-window.h"
#include "support/wb-test-window.h"

static void
test_activate (void)
{
  g_autoptr (WbApplication) app = wb_application_new ();
  g_autoptr (GError) error = NULL;
  GtkWindow *window;

  g_application_register (G_APPLICATION (app), NULL, &error);
  g_assert_no_error (error);

  g_application_activate (G_APPLICATION (app));
  window = gtk_application_get_active_window (GTK_APPLICATION (app));
  g_assert_true (WB_IS_WINDOW (window));
  g_assert_true (gtk_widget_get_visible (GTK_WIDGET (window)));

  wb_test_wait_until_drawn (GTK_WIDGET (window));
  wb_test_save_picture (GTK_WIDGET (window), "window");

  /* Activating once more shows the same window. */
  g_application_activate (G_APPLICATION (app));
  g_assert_cmpuint (g_list_length (gtk_application_get_windows (GTK_APPLICATION (app))), ==, 1);

  gtk_window_destroy (window);
  g_assert_null (gtk_application_get_windows (GTK_APPLICATION (app)));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();
  g_test_add_func ("/desk/window/activate", test_activate);
  return g_test_run ();
}
