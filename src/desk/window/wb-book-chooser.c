/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The file chooser for office books. Opening what was picked is the application's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/window/wb-book-chooser.h"

#include "desk/wb-application.h"

#include <glib/gi18n.h>

#define MODE_KEY "wb-book-mode"

static void
answered_cb (GtkNativeDialog *chooser,
             int              response,
             gpointer         data)
{
  GtkWindow *window = gtk_native_dialog_get_transient_for (chooser);
  g_autoptr (GFile) file = NULL;
  g_autofree char *path = NULL;
  WbBookMode mode = (WbBookMode) GPOINTER_TO_INT (g_object_get_data (G_OBJECT (chooser), MODE_KEY));

  if (response == GTK_RESPONSE_ACCEPT)
    file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser));
  /* A place that has no path cannot hold a book; its address serves to say so. */
  if (file != NULL)
    path = g_file_get_path (file);
  if (file != NULL && path == NULL)
    path = g_file_get_uri (file);

  if (window != NULL && path != NULL)
    wb_application_open_book (WB_APPLICATION (gtk_window_get_application (window)),
                              path, mode, WB_WINDOW (window));
  gtk_native_dialog_destroy (chooser);
  g_object_unref (chooser);
}

static void
add_filter (GtkFileChooser *chooser,
            const char     *name,
            const char     *pattern)
{
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();

  gtk_file_filter_set_name (filter, name);
  gtk_file_filter_add_pattern (filter, pattern);
  gtk_file_chooser_add_filter (chooser, filter);
}

void
wb_book_chooser_run (WbWindow   *window,
                     WbBookMode  mode)
{
  gboolean create = mode == WB_BOOK_CREATE;
  GtkFileChooserNative *chooser;

  g_return_if_fail (WB_IS_WINDOW (window));

  chooser = gtk_file_chooser_native_new (create ? _("New Office Book") : _("Open an Office Book"),
                                         GTK_WINDOW (window),
                                         create ? GTK_FILE_CHOOSER_ACTION_SAVE
                                                : GTK_FILE_CHOOSER_ACTION_OPEN,
                                         create ? _("_Create") : _("_Open"),
                                         NULL);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  g_object_set_data (G_OBJECT (chooser), MODE_KEY, GINT_TO_POINTER (mode));
  add_filter (GTK_FILE_CHOOSER (chooser), _("Office books"), "*.wainbook");
  add_filter (GTK_FILE_CHOOSER (chooser), _("All files"), "*");
  if (create)
    /* Translators: the name proposed for the file of a new office book; keep the ending. */
    gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), _("office.wainbook"));

  /* The reference is the chooser's own until it is answered. */
  g_signal_connect (chooser, "response", G_CALLBACK (answered_cb), NULL);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}
