/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Closing a window without losing a change. Knows the open jobs only as something to be stored. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/window/wb-window-closing.h"

#include "office/wb-words.h"

#include <adwaita.h>
#include <glib/gi18n.h>

/* A healthy disk is done long before this; nobody needs to see a dialog flash. */
#define PATIENCE_MS 400

static const char closing_key[] = "wb-window-closing";

typedef struct
{
  GtkWindow    *window;
  WbOpenJobs   *open_jobs;
  GtkWidget    *dialog;    /* (weak) the one that is shown */
  guint         timer;
  gboolean      called_off;
} Closing;

static void start_flush (Closing *closing);

/* A dialog answers once more when it is closed; that is heard no longer. */
static GtkWidget *
forget_dialog (Closing *closing)
{
  GtkWidget *dialog = closing->dialog;

  if (dialog != NULL)
    g_signal_handlers_disconnect_by_data (dialog, closing);
  g_clear_weak_pointer (&closing->dialog);
  return dialog;
}

static void
drop_dialog (Closing *closing)
{
  GtkWidget *dialog = forget_dialog (closing);

  if (dialog != NULL)
    gtk_window_destroy (GTK_WINDOW (dialog));
}

static void
closing_free (Closing *closing)
{
  g_clear_handle_id (&closing->timer, g_source_remove);
  drop_dialog (closing);
  g_object_set_data (G_OBJECT (closing->window), closing_key, NULL);
  g_object_unref (closing->open_jobs);
  g_object_unref (closing->window);
  g_free (closing);
}

static void
show_dialog (Closing   *closing,
             GtkWidget *dialog)
{
  drop_dialog (closing);
  g_set_weak_pointer (&closing->dialog, dialog);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
wait_answered_cb (Closing *closing)
{
  forget_dialog (closing);
  closing->called_off = TRUE;
}

static gboolean
patience_cb (gpointer data)
{
  Closing *closing = data;
  GtkWidget *dialog = adw_message_dialog_new (closing->window, _("Storing the Last Changes"),
                                              _("The book is slow to answer. The window closes as "
                                                "soon as everything is in it."));

  closing->timer = 0;
  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "stay", _("_Keep the Window Open"));
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "stay");
  g_signal_connect_swapped (dialog, "response", G_CALLBACK (wait_answered_cb), closing);
  show_dialog (closing, dialog);
  return G_SOURCE_REMOVE;
}

static void
close_now (Closing *closing)
{
  g_autoptr (GtkWindow) window = g_object_ref (closing->window);

  closing_free (closing);
  gtk_window_destroy (window);
}

static gboolean
lose_cb (gpointer data)
{
  Closing *closing = data;

  wb_open_jobs_give_up (closing->open_jobs);
  close_now (closing);
  return G_SOURCE_REMOVE;
}

static void
fault_answered_cb (Closing    *closing,
                   const char *response)
{
  forget_dialog (closing);

  if (g_str_equal (response, "again"))
    start_flush (closing);
  else if (g_str_equal (response, "lose"))
    g_idle_add (lose_cb, closing);   /* the dialog still needs the window below it */
  else
    closing_free (closing);
}

static void
ask_what_to_do (Closing      *closing,
                const GError *error)
{
  g_autofree char *words = wb_words_error (error);
  GtkWidget *dialog = adw_message_dialog_new (closing->window,
                                              _("The Last Changes Are Not in the Book"), words);

  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog),
                                    "stay", _("_Keep the Window Open"),
                                    "lose", _("Close and _Lose Them"),
                                    "again", _("Try _Again"),
                                    NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "lose",
                                              ADW_RESPONSE_DESTRUCTIVE);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "again",
                                              ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "again");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "stay");
  g_signal_connect_swapped (dialog, "response", G_CALLBACK (fault_answered_cb), closing);
  show_dialog (closing, dialog);
}

static void
flushed_cb (GObject      *object,
            GAsyncResult *result,
            gpointer      data)
{
  Closing *closing = data;
  g_autoptr (GError) error = NULL;
  gboolean stored = wb_open_jobs_flush_finish (WB_OPEN_JOBS (object), result, &error);

  g_clear_handle_id (&closing->timer, g_source_remove);
  drop_dialog (closing);

  if (closing->called_off)
    closing_free (closing);
  else if (stored)
    close_now (closing);
  else
    ask_what_to_do (closing, error);
}

static void
start_flush (Closing *closing)
{
  closing->called_off = FALSE;
  closing->timer = g_timeout_add (PATIENCE_MS, patience_cb, closing);
  wb_open_jobs_flush_async (closing->open_jobs, NULL, flushed_cb, closing);
}

void
wb_window_closing_start (GtkWindow  *window,
                         WbOpenJobs *open_jobs)
{
  Closing *closing;

  g_return_if_fail (GTK_IS_WINDOW (window));
  g_return_if_fail (WB_IS_OPEN_JOBS (open_jobs));

  closing = g_object_get_data (G_OBJECT (window), closing_key);
  if (closing != NULL)
    {
      /* Called off while the book still does not answer, and now wanted again. */
      closing->called_off = FALSE;
      if (closing->dialog == NULL && closing->timer == 0)
        closing->timer = g_timeout_add (PATIENCE_MS, patience_cb, closing);
      return;
    }

  closing = g_new0 (Closing, 1);
  closing->window = g_object_ref (window);
  closing->open_jobs = g_object_ref (open_jobs);
  g_object_set_data (G_OBJECT (window), closing_key, closing);
  start_flush (closing);
}
