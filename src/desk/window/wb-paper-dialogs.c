/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Papers saved as PDF. Making and writing them is the office's, in a worker thread; how far they
 * are is shown by a WbPassage. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/window/wb-paper-dialogs.h"

#include "desk/widgets/wb-passage.h"
#include "office/wb-papers.h"
#include "office/wb-words.h"

#include <adwaita.h>
#include <glib/gi18n.h>

/* Papers that a dialog names. */
#define MAX_NAMED 6

typedef struct
{
  WbWindow  *window;
  WbPassage *way;
  char      *folder;
} Passage;

static void
passage_free (Passage *passage)
{
  wb_passage_free (passage->way);
  g_object_unref (passage->window);
  g_free (passage->folder);
  g_free (passage);
}

static WbOffice *
office_of (WbWindow *window)
{
  WbOpenJobs *open_jobs = wb_window_get_open_jobs (window);

  return open_jobs != NULL ? wb_open_jobs_get_office (open_jobs) : NULL;
}

/* --- what came of it -------------------------------------------------------------------------- */

static GtkWidget *
make_dialog (WbWindow   *window,
             const char *heading,
             const char *body)
{
  GtkWidget *dialog = adw_message_dialog_new (GTK_WINDOW (window), heading, body);

  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "close", _("_Close"));
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "close");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "close");
  return dialog;
}

static void
answered_cb (AdwMessageDialog *dialog,
             const char       *response,
             gpointer          data)
{
  g_autofree char *uri = NULL;

  if (!g_str_equal (response, "open"))
    return;
  uri = g_filename_to_uri (data, NULL, NULL);
  if (uri != NULL)
    gtk_show_uri (gtk_window_get_transient_for (GTK_WINDOW (dialog)), uri, GDK_CURRENT_TIME);
}

static void
free_folder (gpointer  folder,
             GClosure *closure)
{
  g_free (folder);
}

static void
tell_saved (Passage   *passage,
            GPtrArray *files)
{
  g_autofree char *count = g_strdup_printf (ngettext ("%u paper:", "%u papers:", files->len),
                                            files->len);
  g_autoptr (GString) body = g_string_new (passage->folder);
  GtkWidget *dialog;

  g_string_append_printf (body, "\n\n%s", count);
  for (guint i = 0; i < MIN (files->len, MAX_NAMED); i++)
    g_string_append_printf (body, "\n%s", ((WbPaperFile *) g_ptr_array_index (files, i))->title);
  if (files->len > MAX_NAMED)
    g_string_append_printf (body, ngettext ("\nand %u more", "\nand %u more",
                                            files->len - MAX_NAMED), files->len - MAX_NAMED);
  dialog = make_dialog (passage->window, _("The Papers Are Saved"), body->str);
  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "open", _("_Open the Folder"));
  g_signal_connect_data (dialog, "response", G_CALLBACK (answered_cb), g_strdup (passage->folder),
                         free_folder, 0);
  gtk_window_present (GTK_WINDOW (dialog));
}

/* Nobody has to be told that something stopped which they stopped. */
static void
tell_error (Passage      *passage,
            const GError *error)
{
  g_autofree char *words = NULL;

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  words = wb_words_error (error);
  gtk_window_present (GTK_WINDOW (make_dialog (passage->window, _("The Papers Cannot Be Saved"),
                                               words)));
}

static void
saved_cb (GObject      *object,
          GAsyncResult *result,
          gpointer      data)
{
  Passage *passage = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) files = wb_office_save_papers_finish (WB_OFFICE (object), result, &error);

  wb_passage_end (passage->way);
  if (office_of (passage->window) != NULL && files != NULL)
    tell_saved (passage, files);
  else if (office_of (passage->window) != NULL)
    tell_error (passage, error);
  passage_free (passage);
}

/* --- the way there ---------------------------------------------------------------------------- */

void
wb_paper_dialogs_save_to (WbWindow   *window,
                          WbJob      *job,
                          const char *folder)
{
  g_autofree char *name = NULL;
  Passage *passage;

  g_return_if_fail (WB_IS_WINDOW (window));
  g_return_if_fail (job != NULL && folder != NULL);

  /* In a folder of their own they take the place of nothing but earlier ones of the job. */
  name = wb_papers_folder_name (job);
  passage = g_new0 (Passage, 1);
  passage->window = g_object_ref (window);
  passage->way = wb_passage_new (GTK_WINDOW (window), name);
  passage->folder = g_build_filename (folder, name, NULL);
  wb_office_save_papers_async (office_of (window), job, passage->folder, TRUE,
                               wb_passage_get_progress (passage->way),
                               wb_passage_get_cancellable (passage->way), saved_cb, passage);
}

#define JOB_KEY "wb-paper-job"
#define FOLDER_KEY "wb-paper-folder"

/* Where the window saved papers last, else where documents lie. */
static GFile *
first_folder (WbWindow *window)
{
  const char *folder = g_object_get_data (G_OBJECT (window), FOLDER_KEY);

  if (folder == NULL || !g_file_test (folder, G_FILE_TEST_IS_DIR))
    folder = g_get_user_special_dir (G_USER_DIRECTORY_DOCUMENTS);
  if (folder == NULL || !g_file_test (folder, G_FILE_TEST_IS_DIR))
    folder = g_get_home_dir ();
  return g_file_new_for_path (folder);
}

static void
chosen_cb (GtkNativeDialog *chooser,
           int              response,
           gpointer         data)
{
  GtkWindow *window = gtk_native_dialog_get_transient_for (chooser);
  WbJob *job = g_object_get_data (G_OBJECT (chooser), JOB_KEY);
  g_autoptr (GFile) file = NULL;
  g_autofree char *path = NULL;

  if (response == GTK_RESPONSE_ACCEPT)
    file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser));
  if (file != NULL)
    path = g_file_get_path (file);
  if (window != NULL && path != NULL && office_of (WB_WINDOW (window)) != NULL)
    {
      g_object_set_data_full (G_OBJECT (window), FOLDER_KEY, g_strdup (path), g_free);
      wb_paper_dialogs_save_to (WB_WINDOW (window), job, path);
    }
  gtk_native_dialog_destroy (chooser);
  g_object_unref (chooser);
}

void
wb_paper_dialogs_save (WbWindow *window,
                       WbJob    *job)
{
  GtkFileChooserNative *chooser;
  g_autoptr (GFile) folder = NULL;

  g_return_if_fail (WB_IS_WINDOW (window));
  g_return_if_fail (job != NULL);

  chooser = gtk_file_chooser_native_new (_("Save Papers as PDF"), GTK_WINDOW (window),
                                         GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER, _("_Save Here"),
                                         NULL);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  folder = first_folder (window);
  gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (chooser), folder, NULL);
  g_object_set_data_full (G_OBJECT (chooser), JOB_KEY, wb_job_ref (job),
                          (GDestroyNotify) wb_job_unref);
  /* The reference is the chooser's own until it is answered. */
  g_signal_connect (chooser, "response", G_CALLBACK (chosen_cb), NULL);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}
