/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks the progress of the deed ten times a second and shows it. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/widgets/wb-passage.h"

#include "office/wb-words-share.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#define ASK_EVERY_MS 100

/* What is done before a person could read the dialog does not show one. */
#define PATIENCE_MS 400

struct _WbPassage
{
  GtkWindow      *window;
  gulong          window_handler;  /* 0 once the window has gone */
  char           *heading;
  WbProgress     *progress;
  GCancellable   *cancellable;

  GtkWidget      *dialog;          /* (weak) (nullable) */
  GtkLabel       *label;
  GtkLabel       *details;
  GtkProgressBar *bar;
  guint           timer;
};

static void
drop_dialog (WbPassage *self)
{
  GtkWidget *dialog = self->dialog;

  g_clear_weak_pointer (&self->dialog);
  if (dialog != NULL)
    {
      g_signal_handlers_disconnect_by_data (dialog, self);
      gtk_window_destroy (GTK_WINDOW (dialog));
    }
}

static gboolean
ask_cb (gpointer data)
{
  WbPassage *self = data;
  WbProgressState state;
  g_autofree char *details = NULL;

  if (self->dialog == NULL)
    return G_SOURCE_CONTINUE;
  wb_progress_get (self->progress, &state);
  details = wb_words_progress (&state);
  gtk_label_set_label (self->label, state.words != NULL ? _(state.words) : "");
  gtk_label_set_label (self->details, details);
  if (state.all > 0)
    gtk_progress_bar_set_fraction (self->bar, MIN (1, (double) state.done / (double) state.all));
  else
    gtk_progress_bar_pulse (self->bar);
  return G_SOURCE_CONTINUE;
}

static void
stop_cb (WbPassage *self)
{
  g_clear_weak_pointer (&self->dialog);
  g_cancellable_cancel (self->cancellable);
}

static GtkLabel *
add_label (GtkWidget *box)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
  gtk_box_append (GTK_BOX (box), label);
  return GTK_LABEL (label);
}

static GtkWidget *
make_contents (WbPassage *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *bar = gtk_progress_bar_new ();

  self->label = add_label (box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (bar), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("How far it is"), -1);
  gtk_box_append (GTK_BOX (box), bar);
  self->bar = GTK_PROGRESS_BAR (bar);
  self->details = add_label (box);
  return box;
}

static gboolean
patience_cb (gpointer data)
{
  WbPassage *self = data;
  GtkWidget *dialog = adw_message_dialog_new (self->window, self->heading, NULL);

  adw_message_dialog_set_extra_child (ADW_MESSAGE_DIALOG (dialog), make_contents (self));
  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "stop", _("_Stop"));
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "stop");
  g_signal_connect_swapped (dialog, "response", G_CALLBACK (stop_cb), self);
  g_set_weak_pointer (&self->dialog, dialog);
  ask_cb (self);
  gtk_window_present (GTK_WINDOW (dialog));
  self->timer = g_timeout_add (ASK_EVERY_MS, ask_cb, self);
  return G_SOURCE_REMOVE;
}

static void
window_gone_cb (WbPassage *self)
{
  g_clear_signal_handler (&self->window_handler, self->window);
  g_cancellable_cancel (self->cancellable);
  wb_passage_end (self);
}

WbPassage *
wb_passage_new (GtkWindow  *window,
                const char *heading)
{
  WbPassage *self;

  g_return_val_if_fail (GTK_IS_WINDOW (window), NULL);

  self = g_new0 (WbPassage, 1);
  self->window = g_object_ref (window);
  self->heading = g_strdup (heading);
  self->progress = wb_progress_new ();
  self->cancellable = g_cancellable_new ();
  /* Not "destroy": that waits for the last reference, which is this one. */
  self->window_handler = g_signal_connect_swapped (window, "unrealize", G_CALLBACK (window_gone_cb),
                                                   self);
  self->timer = g_timeout_add (PATIENCE_MS, patience_cb, self);
  return self;
}

WbProgress *
wb_passage_get_progress (WbPassage *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  return self->progress;
}

GCancellable *
wb_passage_get_cancellable (WbPassage *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  return self->cancellable;
}

GtkWindow *
wb_passage_get_window (WbPassage *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  return self->window;
}

gboolean
wb_passage_has_window (WbPassage *self)
{
  g_return_val_if_fail (self != NULL, FALSE);

  return self->window_handler != 0;
}

void
wb_passage_end (WbPassage *self)
{
  g_return_if_fail (self != NULL);

  g_clear_handle_id (&self->timer, g_source_remove);
  drop_dialog (self);
}

void
wb_passage_free (WbPassage *self)
{
  if (self == NULL)
    return;

  wb_passage_end (self);
  g_clear_signal_handler (&self->window_handler, self->window);
  g_object_unref (self->window);
  g_object_unref (self->cancellable);
  wb_progress_unref (self->progress);
  g_free (self->heading);
  g_free (self);
}
