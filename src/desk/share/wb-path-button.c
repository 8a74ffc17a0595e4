/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs the desktop's file chooser for a row. What the path has to be is the row's to judge. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-path-button.h"

#include <glib/gi18n.h>

static void
answered_cb (GtkNativeDialog *chooser,
             int              response,
             AdwEntryRow     *row)
{
  g_autoptr (GFile) file = NULL;
  g_autofree char *path = NULL;

  if (response == GTK_RESPONSE_ACCEPT)
    file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser));
  if (file != NULL)
    path = g_file_get_path (file);
  if (path != NULL)
    {
      gtk_editable_set_text (GTK_EDITABLE (row), path);
      gtk_widget_grab_focus (GTK_WIDGET (row));
      g_signal_emit_by_name (row, "entry-activated");
    }
  gtk_native_dialog_destroy (chooser);
}

/* Where the path that is typed leads, if it leads anywhere. */
static void
start_at (GtkFileChooser       *chooser,
          AdwEntryRow          *row,
          GtkFileChooserAction  action)
{
  const char *path = gtk_editable_get_text (GTK_EDITABLE (row));
  g_autoptr (GFile) file = NULL;

  if (!g_path_is_absolute (path))
    return;
  file = g_file_new_for_path (path);
  if (action == GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER)
    gtk_file_chooser_set_current_folder (chooser, file, NULL);
  else
    gtk_file_chooser_set_file (chooser, file, NULL);
}

static void
clicked_cb (AdwEntryRow *row,
            GtkButton   *button)
{
  const char *title = g_object_get_data (G_OBJECT (button), "title");
  GtkFileChooserAction action =
    (GtkFileChooserAction) GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "action"));
  GtkWindow *window = GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (row)));
  GtkFileChooserNative *chooser = gtk_file_chooser_native_new (title, window, action, _("_Choose"),
                                                               NULL);

  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  start_at (GTK_FILE_CHOOSER (chooser), row, action);
  g_signal_connect_object (chooser, "response", G_CALLBACK (answered_cb), row, 0);
  /* The button keeps it until it is asked again, or goes with the window. */
  g_object_set_data_full (G_OBJECT (button), "chooser", chooser, g_object_unref);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

GtkWidget *
wb_path_button_add (AdwEntryRow          *row,
                    const char           *title,
                    GtkFileChooserAction  action)
{
  GtkWidget *button = gtk_button_new_from_icon_name ("document-open-symbolic");

  g_return_val_if_fail (ADW_IS_ENTRY_ROW (row), NULL);

  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, title);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  g_object_set_data_full (G_OBJECT (button), "title", g_strdup (title), g_free);
  g_object_set_data (G_OBJECT (button), "action", GINT_TO_POINTER ((int) action));
  g_signal_connect_object (button, "clicked", G_CALLBACK (clicked_cb), row, G_CONNECT_SWAPPED);
  adw_entry_row_add_suffix (row, button);
  return button;
}
