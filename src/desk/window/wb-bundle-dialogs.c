/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bundles saved and opened. Packing and reading are the office's, in a worker thread; how far they
 * are is shown by a WbPassage. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/window/wb-bundle-dialogs.h"

#include "desk/widgets/wb-passage.h"
#include "office/wb-bundle.h"
#include "office/wb-words.h"

#include <adwaita.h>
#include <glib/gi18n.h>

typedef struct
{
  WbWindow  *window;
  WbPassage *way;
  char      *path;
} Passage;

static void
passage_free (Passage *passage)
{
  wb_passage_free (passage->way);
  g_object_unref (passage->window);
  g_free (passage->path);
  g_free (passage);
}

static Passage *
passage_new (WbWindow   *window,
             const char *path)
{
  Passage *passage = g_new0 (Passage, 1);
  g_autofree char *name = g_path_get_basename (path);

  passage->window = g_object_ref (window);
  passage->way = wb_passage_new (GTK_WINDOW (window), name);
  passage->path = g_strdup (path);
  return passage;
}

/* --- what came of it -------------------------------------------------------------------------- */

static WbOffice *
office_of (WbWindow *window)
{
  WbOpenJobs *open_jobs = wb_window_get_open_jobs (window);

  return open_jobs != NULL ? wb_open_jobs_get_office (open_jobs) : NULL;
}

static void
tell (WbWindow   *window,
      const char *heading,
      const char *body)
{
  GtkWidget *dialog = adw_message_dialog_new (GTK_WINDOW (window), heading, body);

  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "close", _("_Close"));
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "close");
  gtk_window_present (GTK_WINDOW (dialog));
}

/* Nobody has to be told that something stopped which they stopped. */
static void
tell_error (Passage      *passage,
            const char   *heading,
            const GError *error)
{
  g_autofree char *words = NULL;

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  words = wb_words_error (error);
  tell (passage->window, heading, words);
}

static char *
words_of (const WbBundleReport *report,
          const char           *path)
{
  g_autofree char *words = wb_bundle_report_words (report);
  g_autofree char *sentence = wb_words_sentence (words);
  GString *out = g_string_new (path);

  g_string_append_printf (out, "\n\n%s", sentence);
  if (report->n_lost_papers > 0)
    {
      g_string_append (out, "\n\n");
      g_string_append_printf (out, ngettext ("%u kept paper that the job names is not in it, "
                                             "since the book it was packed from does not have it.",
                                             "%u kept papers that the job names are not in it, "
                                             "since the book it was packed from does not have "
                                             "them.",
                                             report->n_lost_papers), report->n_lost_papers);
    }
  return g_string_free (out, FALSE);
}

static void
saved_cb (GObject      *object,
          GAsyncResult *result,
          gpointer      data)
{
  Passage *passage = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbBundleReport) report = wb_office_bundle_write_finish (WB_OFFICE (object), result,
                                                                     &error);

  wb_passage_end (passage->way);
  if (office_of (passage->window) != NULL && report != NULL)
    {
      g_autofree char *words = words_of (report, passage->path);

      tell (passage->window, _("The Bundle Is Saved"), words);
    }
  else if (office_of (passage->window) != NULL)
    {
      tell_error (passage, _("The Bundle Cannot Be Saved"), error);
    }
  passage_free (passage);
}

static void
opened_cb (GObject      *object,
           GAsyncResult *result,
           gpointer      data)
{
  Passage *passage = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbBundleReport) report = wb_office_bundle_read_finish (WB_OFFICE (object), result,
                                                                    &error);

  wb_passage_end (passage->way);
  if (report != NULL && office_of (passage->window) == WB_OFFICE (object))
    {
      g_autofree char *words = words_of (report, passage->path);

      wb_window_open_job (passage->window, wb_job_get_id (report->job));
      tell (passage->window, _("The Job Is in the Book"), words);
    }
  else if (error != NULL && office_of (passage->window) != NULL)
    {
      tell_error (passage, _("The Bundle Cannot Be Opened"), error);
    }
  passage_free (passage);
}

/* --- the way there ---------------------------------------------------------------------------- */

void
wb_bundle_dialogs_save_to (WbWindow   *window,
                           WbJob      *job,
                           const char *path)
{
  g_autofree char *target = wb_bundle_target (path);
  Passage *passage;

  g_return_if_fail (WB_IS_WINDOW (window));
  g_return_if_fail (job != NULL && path != NULL);

  /* The chooser has asked about this very name, and about no other. */
  passage = passage_new (window, target);
  wb_office_bundle_write_async (office_of (window), job, target, g_str_equal (target, path),
                                wb_passage_get_progress (passage->way),
                                wb_passage_get_cancellable (passage->way), saved_cb, passage);
}

void
wb_bundle_dialogs_open_from (WbWindow   *window,
                             const char *path)
{
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *folder = g_path_get_dirname (path);
  Passage *passage;

  g_return_if_fail (WB_IS_WINDOW (window));

  /* Whoever points at the file that every bag has means the folder that it lies in. */
  passage = passage_new (window, g_str_equal (name, "bagit.txt") ? folder : path);
  wb_office_bundle_read_async (office_of (window), passage->path,
                               wb_passage_get_progress (passage->way),
                               wb_passage_get_cancellable (passage->way), opened_cb, passage);
}

/* --- choosers --------------------------------------------------------------------------------- */

#define JOB_KEY "wb-bundle-job"

static void
answered_cb (GtkNativeDialog *chooser,
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
      if (job != NULL)
        wb_bundle_dialogs_save_to (WB_WINDOW (window), job, path);
      else
        wb_bundle_dialogs_open_from (WB_WINDOW (window), path);
    }
  gtk_native_dialog_destroy (chooser);
  g_object_unref (chooser);
}

static void
add_filter (GtkFileChooser     *chooser,
            const char         *name,
            const char *const  *patterns)
{
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();

  gtk_file_filter_set_name (filter, name);
  for (gsize i = 0; patterns[i] != NULL; i++)
    gtk_file_filter_add_pattern (filter, patterns[i]);
  gtk_file_chooser_add_filter (chooser, filter);
}

static void
run_chooser (WbWindow             *window,
             const char           *title,
             GtkFileChooserAction  action,
             const char           *accept,
             WbJob                *job)
{
  static const char *const bundles[] = { "*.zip", "*.tar.gz", "*.tgz", "bagit.txt", NULL };
  static const char *const all[] = { "*", NULL };
  GtkFileChooserNative *chooser = gtk_file_chooser_native_new (title, GTK_WINDOW (window), action,
                                                               accept, NULL);

  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  add_filter (GTK_FILE_CHOOSER (chooser), _("Bundles"), bundles);
  add_filter (GTK_FILE_CHOOSER (chooser), _("All files"), all);
  if (job != NULL)
    {
      g_autofree char *name = wb_bundle_file_name (job);

      gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), name);
      g_object_set_data_full (G_OBJECT (chooser), JOB_KEY, wb_job_ref (job),
                              (GDestroyNotify) wb_job_unref);
    }

  /* The reference is the chooser's own until it is answered. */
  g_signal_connect (chooser, "response", G_CALLBACK (answered_cb), NULL);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

void
wb_bundle_dialogs_save (WbWindow *window,
                        WbJob    *job)
{
  g_return_if_fail (WB_IS_WINDOW (window));
  g_return_if_fail (job != NULL);

  run_chooser (window, _("Save as Bundle"), GTK_FILE_CHOOSER_ACTION_SAVE, _("_Save"), job);
}

void
wb_bundle_dialogs_open (WbWindow *window)
{
  g_return_if_fail (WB_IS_WINDOW (window));

  run_chooser (window, _("Open a Bundle"), GTK_FILE_CHOOSER_ACTION_OPEN, _("_Open"), NULL);
}
