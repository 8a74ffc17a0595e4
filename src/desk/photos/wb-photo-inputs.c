/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Turns what a person points at into sources of an import. A picture that is no file becomes a PNG,
 * which loses nothing of it. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/photos/wb-photo-inputs.h"

#include "office/wb-photo-import.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

static GPtrArray *
new_sources (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) wb_photo_source_free);
}

static GPtrArray *
sources_of_list (GSList *files)
{
  GPtrArray *sources = new_sources ();

  for (GSList *at = files; at != NULL; at = at->next)
    g_ptr_array_add (sources, wb_photo_source_new_file (at->data));
  return sources;
}

/* --- choosers --------------------------------------------------------------------------------- */

/** A chooser that is open, and who asked. */
typedef struct
{
  GtkFileChooserNative *chooser;
  GtkWidget            *widget;
  WbPhotoInputFunc      take;
} Question;

static void
response_cb (GtkNativeDialog *dialog,
             int              response,
             Question        *question)
{
  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GListModel) files = gtk_file_chooser_get_files (GTK_FILE_CHOOSER (dialog));
      GPtrArray *sources = new_sources ();

      for (guint i = 0; i < g_list_model_get_n_items (files); i++)
        {
          g_autoptr (GFile) file = g_list_model_get_item (files, i);

          g_ptr_array_add (sources, wb_photo_source_new_file (file));
        }
      question->take (question->widget, sources, NULL);
    }

  g_object_unref (question->chooser);
  g_object_unref (question->widget);
  g_free (question);
}

static void
add_filters (GtkFileChooser *chooser)
{
  static const char *const suffixes[] = { "jpg", "jpeg", "png", "tif", "tiff", "webp", "heic" };
  g_autoptr (GtkFileFilter) pictures = gtk_file_filter_new ();
  g_autoptr (GtkFileFilter) all = gtk_file_filter_new ();

  gtk_file_filter_set_name (pictures, _("Pictures"));
  for (gsize i = 0; i < G_N_ELEMENTS (suffixes); i++)
    gtk_file_filter_add_suffix (pictures, suffixes[i]);
  gtk_file_chooser_add_filter (chooser, pictures);
  gtk_file_filter_set_name (all, _("All files"));
  gtk_file_filter_add_pattern (all, "*");
  gtk_file_chooser_add_filter (chooser, all);
}

void
wb_photo_inputs_ask (GtkWidget        *widget,
                     gboolean          folder,
                     WbPhotoInputFunc  take)
{
  GtkRoot *root = gtk_widget_get_root (widget);
  Question *question = g_new0 (Question, 1);

  question->widget = g_object_ref (widget);
  question->take = take;
  question->chooser =
    gtk_file_chooser_native_new (folder ? _("Take In a Folder of Photos") : _("Take In Photos"),
                                 GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL,
                                 folder ? GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER
                                        : GTK_FILE_CHOOSER_ACTION_OPEN,
                                 _("_Take In"), _("_Cancel"));
  gtk_file_chooser_set_select_multiple (GTK_FILE_CHOOSER (question->chooser), TRUE);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (question->chooser), TRUE);
  if (!folder)
    add_filters (GTK_FILE_CHOOSER (question->chooser));
  g_signal_connect (question->chooser, "response", G_CALLBACK (response_cb), question);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (question->chooser));
}

/* --- pictures that are no files --------------------------------------------------------------- */

static void
encode_in_thread (GTask        *task,
                  gpointer      source,
                  gpointer      data,
                  GCancellable *cancellable)
{
  g_task_return_pointer (task, gdk_texture_save_to_png_bytes (GDK_TEXTURE (data)),
                         (GDestroyNotify) g_bytes_unref);
}

static void
encoded_cb (GObject      *object,
            GAsyncResult *result,
            gpointer      data)
{
  WbPhotoInputFunc take = data;
  g_autoptr (GBytes) bytes = g_task_propagate_pointer (G_TASK (result), NULL);
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  /* Translators: name of a pasted picture, with a date and a time as of strftime. */
  g_autofree char *name = g_date_time_format (now, _("Pasted %Y-%m-%d %H.%M.%S.png"));
  GPtrArray *sources = new_sources ();

  g_ptr_array_add (sources, wb_photo_source_new_bytes (bytes, name));
  take (GTK_WIDGET (object), sources, NULL);
}

static void
take_texture (GtkWidget        *widget,
              GdkTexture       *texture,
              WbPhotoInputFunc  take)
{
  g_autoptr (GTask) task = g_task_new (widget, NULL, encoded_cb, take);

  g_task_set_task_data (task, g_object_ref (texture), g_object_unref);
  g_task_run_in_thread (task, encode_in_thread);
}

/* --- the clipboard ---------------------------------------------------------------------------- */

/** Who pastes. */
typedef struct
{
  GtkWidget        *widget;
  WbPhotoInputFunc  take;
} Paste;

static Paste *
paste_new (GtkWidget        *widget,
           WbPhotoInputFunc  take)
{
  Paste *paste = g_new (Paste, 1);

  paste->widget = g_object_ref (widget);
  paste->take = take;
  return paste;
}

static void
paste_free (Paste *paste)
{
  g_object_unref (paste->widget);
  g_free (paste);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Paste, paste_free)

static void
refuse (Paste        *paste,
        const GError *error)
{
  g_autofree char *words = wb_words_sentence (error->message);

  paste->take (paste->widget, NULL, words);
}

static void
files_cb (GObject      *object,
          GAsyncResult *result,
          gpointer      data)
{
  g_autoptr (Paste) paste = data;
  g_autoptr (GError) error = NULL;
  const GValue *value = gdk_clipboard_read_value_finish (GDK_CLIPBOARD (object), result, &error);

  if (value != NULL)
    paste->take (paste->widget, sources_of_list (g_value_get_boxed (value)), NULL);
  else
    refuse (paste, error);
}

static void
texture_cb (GObject      *object,
            GAsyncResult *result,
            gpointer      data)
{
  g_autoptr (Paste) paste = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GdkTexture) texture =
    gdk_clipboard_read_texture_finish (GDK_CLIPBOARD (object), result, &error);

  if (texture != NULL)
    take_texture (paste->widget, texture, paste->take);
  else
    refuse (paste, error);
}

void
wb_photo_inputs_paste (GtkWidget        *widget,
                       WbPhotoInputFunc  take)
{
  GdkClipboard *clipboard = gtk_widget_get_clipboard (widget);
  GdkContentFormats *offered = gdk_clipboard_get_formats (clipboard);
  g_autoptr (GdkContentFormats) formats =
    gdk_content_formats_union_deserialize_gtypes (gdk_content_formats_ref (offered));

  if (gdk_content_formats_contain_gtype (formats, GDK_TYPE_FILE_LIST))
    gdk_clipboard_read_value_async (clipboard, GDK_TYPE_FILE_LIST, G_PRIORITY_DEFAULT, NULL,
                                    files_cb, paste_new (widget, take));
  else if (gdk_content_formats_contain_gtype (formats, GDK_TYPE_TEXTURE))
    gdk_clipboard_read_texture_async (clipboard, NULL, texture_cb, paste_new (widget, take));
  else
    take (widget, NULL, _("There is neither a picture nor a file to paste."));
}

/* --- dropping --------------------------------------------------------------------------------- */

static gboolean
drop_cb (GtkDropTarget *target,
         const GValue  *value,
         double         x,
         double         y,
         gpointer       data)
{
  WbPhotoInputFunc take = data;
  GtkWidget *widget = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (target));

  if (G_VALUE_HOLDS (value, GDK_TYPE_FILE_LIST))
    take (widget, sources_of_list (g_value_get_boxed (value)), NULL);
  else if (G_VALUE_HOLDS (value, GDK_TYPE_TEXTURE))
    take_texture (widget, g_value_get_object (value), take);
  else
    return FALSE;
  return TRUE;
}

void
wb_photo_inputs_accept_drops (GtkWidget        *widget,
                              WbPhotoInputFunc  take)
{
  GtkDropTarget *target = gtk_drop_target_new (G_TYPE_INVALID, GDK_ACTION_COPY);
  GType types[] = { GDK_TYPE_FILE_LIST, GDK_TYPE_TEXTURE };

  gtk_drop_target_set_gtypes (target, types, G_N_ELEMENTS (types));
  g_signal_connect (target, "drop", G_CALLBACK (drop_cb), take);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (target));
}
