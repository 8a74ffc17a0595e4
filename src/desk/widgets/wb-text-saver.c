/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A chooser and a write, for every window that can be saved as a text. Knows nothing of the
 * text. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/widgets/wb-text-saver.h"

#include <glib/gi18n.h>
#include <string.h>

typedef struct
{
  GtkWindow            *window;    /* (nullable): held while the file is written */
  GtkFileChooserNative *chooser;
  WbTextMake            make;
  WbTextSaved           saved;
} Saver;

static void
saver_free (Saver *self)
{
  g_clear_object (&self->window);
  g_clear_object (&self->chooser);
  g_free (self);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Saver, saver_free)

static void
written_cb (GObject      *object,
            GAsyncResult *result,
            gpointer      data)
{
  g_autoptr (Saver) self = data;
  g_autoptr (GError) error = NULL;

  (void) g_file_replace_contents_finish (G_FILE (object), result, NULL, &error);
  if (gtk_widget_get_mapped (GTK_WIDGET (self->window)))
    self->saved (self->window, G_FILE (object), error);
}

/* A chooser does not go with its window by itself. */
static void
window_gone_cb (GtkWindow *window,
                Saver     *self)
{
  gtk_native_dialog_destroy (GTK_NATIVE_DIALOG (self->chooser));
  saver_free (self);
}

static void
response_cb (GtkNativeDialog *chooser,
             int              response,
             gpointer         data)
{
  g_autoptr (Saver) self = data;
  GtkWindow *window = gtk_native_dialog_get_transient_for (chooser);
  char *text = response == GTK_RESPONSE_ACCEPT ? self->make (window) : NULL;
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser));
  g_autoptr (GBytes) bytes = text != NULL ? g_bytes_new_take (text, strlen (text)) : NULL;

  g_signal_handlers_disconnect_by_func (window, window_gone_cb, self);
  gtk_native_dialog_destroy (chooser);
  if (bytes == NULL || file == NULL)
    return;
  self->window = g_object_ref (window);
  g_file_replace_contents_bytes_async (file, bytes, NULL, FALSE, G_FILE_CREATE_NONE, NULL,
                                       written_cb, g_steal_pointer (&self));
}

void
wb_text_save (GtkWindow   *window,
              const char  *title,
              const char  *name,
              WbTextMake   make,
              WbTextSaved  saved)
{
  Saver *self;

  g_return_if_fail (GTK_IS_WINDOW (window));
  g_return_if_fail (make != NULL && saved != NULL);

  self = g_new0 (Saver, 1);
  self->make = make;
  self->saved = saved;
  self->chooser = gtk_file_chooser_native_new (title, window, GTK_FILE_CHOOSER_ACTION_SAVE,
                                               _("_Save"), NULL);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (self->chooser), TRUE);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (self->chooser), name);
  g_signal_connect (self->chooser, "response", G_CALLBACK (response_cb), self);
  g_signal_connect (window, "destroy", G_CALLBACK (window_gone_cb), self);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (self->chooser));
}
