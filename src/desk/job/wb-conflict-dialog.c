/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The question after two people changed one job. How the two are merged is the model's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/job/wb-conflict-dialog.h"

#include <adwaita.h>
#include <glib/gi18n.h>

typedef struct
{
  GtkWidget  *page;    /* (weak) */
  WbJobModel *model;
} Question;

static void
question_free (gpointer  data,
               GClosure *closure)
{
  Question *question = data;

  g_clear_weak_pointer (&question->page);
  g_object_unref (question->model);
  g_free (question);
}

static void
answered_cb (GtkWidget  *dialog,
             const char *response,
             gpointer    data)
{
  Question *question = data;
  gboolean theirs = g_str_equal (response, "theirs");

  if (g_str_equal (response, "mine"))
    wb_job_model_keep_mine (question->model);
  else if (theirs && !wb_job_model_get_removed (question->model))
    wb_job_model_take_theirs (question->model);
  else if (theirs && question->page != NULL)
    gtk_widget_activate_action (question->page, "job.leave", NULL);
}

/* Answered in another window that shows the same job. */
static void
fault_cb (GtkWidget  *dialog,
          GParamSpec *pspec,
          WbJobModel *model)
{
  if (!wb_job_model_in_conflict (model))
    gtk_window_close (GTK_WINDOW (dialog));
}

static GtkWidget *
make_dialog (GtkWindow *window,
             gboolean   removed)
{
  if (removed)
    return adw_message_dialog_new (window, _("This Job Was Removed"),
                                   _("Somebody removed this job from the book while you were "
                                     "changing it. Put it back with your changes, or let it go?"));

  return adw_message_dialog_new (window, _("This Job Was Changed Elsewhere"),
                                 _("Somebody stored other changes to this job while you were "
                                   "changing it. Keep yours on top of them, field by field, or "
                                   "go on with theirs alone? Either can be undone."));
}

GtkWidget *
wb_conflict_dialog_show (GtkWidget  *page,
                         WbJobModel *model)
{
  gboolean removed;
  GtkWidget *dialog;
  Question *question;

  g_return_val_if_fail (GTK_IS_WIDGET (page), NULL);
  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);

  removed = wb_job_model_get_removed (model);
  dialog = make_dialog (GTK_WINDOW (gtk_widget_get_root (page)), removed);
  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog),
                                    "later", _("_Later"),
                                    "theirs", removed ? _("Let It _Go") : _("Take _Theirs"),
                                    "mine", removed ? _("_Put It Back") : _("_Keep Mine"),
                                    NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "mine",
                                              ADW_RESPONSE_SUGGESTED);
  if (removed)
    adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "theirs",
                                                ADW_RESPONSE_DESTRUCTIVE);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "mine");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "later");

  question = g_new0 (Question, 1);
  g_set_weak_pointer (&question->page, page);
  question->model = g_object_ref (model);
  g_signal_connect_data (dialog, "response", G_CALLBACK (answered_cb), question, question_free, 0);
  g_signal_connect_object (model, "notify::fault", G_CALLBACK (fault_cb), dialog,
                           G_CONNECT_SWAPPED);
  gtk_window_present (GTK_WINDOW (dialog));
  return dialog;
}
