/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks and shows. What is done to a job the main window's actions do. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-standing-row.h"

#include "desk/share/wb-share-deeds.h"
#include "desk/share/wb-share-mend.h"
#include "desk/widgets/wb-flow-layout.h"
#include "office/wb-publish.h"
#include "office/wb-words-share.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

/* Somebody who types stores every second or so; the server need not hear of each. */
#define ASK_AFTER_MS 3000

struct _WbStandingRow
{
  GtkWidget        parent_instance;

  GtkWidget       *box;
  GtkWidget       *words;
  GtkWidget       *step;

  WbOffice        *office;
  WbServer        *server;
  char            *job_id;
  char            *title;

  WbPublishStatus *status;       /* (nullable): as of the last answer, and what was stored since */
  GError          *fault;        /* (nullable): why there was no answer */
  GCancellable    *cancellable;  /* (nullable): while it is asked */
  gboolean         ask_again;
  guint            timer;
};

G_DEFINE_FINAL_TYPE (WbStandingRow, wb_standing_row, GTK_TYPE_WIDGET)

/* --- what is shown ---------------------------------------------------------------------------- */

/* Returns: (nullable): the label of the step. */
static const char *
step_label (WbStandingRow *self)
{
  if (self->fault != NULL)
    return wb_share_mend_label (wb_queue_fault_of_error (self->fault));
  if (self->status == NULL)
    return NULL;
  switch (self->status->state)
    {
    case WB_PUBLISH_NEVER:
    case WB_PUBLISH_CHANGED_HERE:
      return self->status->n_heads > 1 ? _("Compare and Merge…") : _("Publish");
    case WB_PUBLISH_SAME:
      return _("Check");
    case WB_PUBLISH_CHANGED_THERE:
      return _("Fetch");
    case WB_PUBLISH_CHANGED_BOTH:
      return _("Compare and Merge…");
    }
  g_return_val_if_reached (NULL);
}

static const char *
step_hint (WbStandingRow *self)
{
  if (self->fault != NULL || self->status == NULL)
    return NULL;
  switch (self->status->state)
    {
    case WB_PUBLISH_NEVER:
    case WB_PUBLISH_CHANGED_HERE:
      return self->status->n_heads > 1 ? NULL : _("Publish the Job (Ctrl+Shift+B)");
    case WB_PUBLISH_SAME:
      return _("Read Every File There Back and Compare It With Its Hash");
    case WB_PUBLISH_CHANGED_THERE:
    case WB_PUBLISH_CHANGED_BOTH:
      return _("Fetch What Was Changed There (Ctrl+Shift+G)");
    }
  g_return_val_if_reached (NULL);
}

static char *
words_of (WbStandingRow *self)
{
  g_autofree char *words = NULL;

  if (self->fault != NULL)
    words = wb_words_error (self->fault);
  else if (self->status != NULL)
    words = wb_words_publish_status (self->status);
  else
    words = g_strdup (_("asking the server…"));
  /* Translators: the name of a server, and how the job stands there. */
  return g_strdup_printf (_("%s · %s"), self->server->name, words);
}

static void
show_standing (WbStandingRow *self)
{
  g_autofree char *words = words_of (self);
  const char *label = step_label (self);
  gboolean urgent = self->fault != NULL || (self->status != NULL &&
                                            (self->status->state == WB_PUBLISH_CHANGED_THERE ||
                                             self->status->state == WB_PUBLISH_CHANGED_BOTH));

  gtk_label_set_label (GTK_LABEL (self->words), words);
  gtk_widget_set_tooltip_text (self->words, words);
  if (urgent)
    gtk_widget_add_css_class (self->words, "warning");
  else
    gtk_widget_remove_css_class (self->words, "warning");
  gtk_widget_set_visible (self->step, label != NULL);
  if (label == NULL)
    return;
  gtk_button_set_label (GTK_BUTTON (self->step), label);
  gtk_widget_set_tooltip_text (self->step, step_hint (self));
}

/* --- asking ----------------------------------------------------------------------------------- */

static void
answered_cb (GObject      *object,
             GAsyncResult *result,
             gpointer      data)
{
  g_autoptr (WbStandingRow) self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbPublishStatus) status = wb_office_publish_status_finish (WB_OFFICE (object), result,
                                                                        &error);

  if (self->office == NULL)
    return;
  g_clear_object (&self->cancellable);
  g_clear_error (&self->fault);
  g_clear_pointer (&self->status, wb_publish_status_free);
  self->status = g_steal_pointer (&status);
  self->fault = g_steal_pointer (&error);
  show_standing (self);
  if (self->ask_again)
    wb_standing_row_ask (self);
}

void
wb_standing_row_ask (WbStandingRow *self)
{
  g_return_if_fail (WB_IS_STANDING_ROW (self));

  g_clear_handle_id (&self->timer, g_source_remove);
  self->ask_again = self->cancellable != NULL;
  if (self->ask_again)
    return;
  self->cancellable = g_cancellable_new ();
  wb_office_publish_status_async (self->office, self->server->id, NULL, self->job_id,
                                  self->cancellable, answered_cb, g_object_ref (self));
}

static gboolean
ask_cb (gpointer data)
{
  WbStandingRow *self = data;

  self->timer = 0;
  wb_standing_row_ask (self);
  return G_SOURCE_REMOVE;
}

void
wb_standing_row_job_stored (WbStandingRow *self)
{
  g_return_if_fail (WB_IS_STANDING_ROW (self));

  /* What is being asked may be of the job as it was. */
  self->ask_again = self->ask_again || self->cancellable != NULL;
  /* A server that did not answer is not asked again by itself. */
  if (self->status == NULL)
    return;
  if (self->status->state == WB_PUBLISH_SAME)
    self->status->state = WB_PUBLISH_CHANGED_HERE;
  show_standing (self);
  g_clear_handle_id (&self->timer, g_source_remove);
  self->timer = g_timeout_add (ASK_AFTER_MS, ask_cb, self);
}

/* --- the step --------------------------------------------------------------------------------- */

static void
mended_cb (GObject *caller)
{
  WbStandingRow *self = WB_STANDING_ROW (caller);

  if (self->office == NULL)
    return;
  g_clear_error (&self->fault);
  show_standing (self);
  wb_standing_row_ask (self);
}

static void
mend (WbStandingRow *self)
{
  g_autofree char *host_key = wb_server_host_key_of (self->fault);

  wb_share_mend (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), self->office,
                 self->server->id, wb_queue_fault_of_error (self->fault), host_key, mended_cb,
                 G_OBJECT (self));
}

static void
step_cb (WbStandingRow *self)
{
  if (self->fault != NULL)
    {
      mend (self);
      return;
    }
  switch (self->status->state)
    {
    case WB_PUBLISH_NEVER:
    case WB_PUBLISH_CHANGED_HERE:
      gtk_widget_activate_action (GTK_WIDGET (self),
                                  self->status->n_heads > 1 ? "win.bring-from" : "win.publish-on",
                                  "s", self->server->id);
      return;
    case WB_PUBLISH_SAME:
      wb_share_verify (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), self->office,
                       self->server->id, self->job_id, self->title);
      return;
    case WB_PUBLISH_CHANGED_THERE:
    case WB_PUBLISH_CHANGED_BOTH:
      gtk_widget_activate_action (GTK_WIDGET (self), "win.bring-from", "s", self->server->id);
      return;
    }
}

/* --- overrides -------------------------------------------------------------------------------- */

/* The question holds the row: it ends with what is seen of the row, or a server that does not answer
 * would keep it. */
static void
wb_standing_row_unroot (GtkWidget *widget)
{
  WbStandingRow *self = WB_STANDING_ROW (widget);

  self->ask_again = FALSE;
  g_clear_handle_id (&self->timer, g_source_remove);
  g_cancellable_cancel (self->cancellable);

  GTK_WIDGET_CLASS (wb_standing_row_parent_class)->unroot (widget);
}

static void
wb_standing_row_dispose (GObject *object)
{
  WbStandingRow *self = WB_STANDING_ROW (object);

  g_clear_handle_id (&self->timer, g_source_remove);
  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  g_clear_object (&self->office);
  g_clear_pointer (&self->box, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_standing_row_parent_class)->dispose (object);
}

static void
wb_standing_row_finalize (GObject *object)
{
  WbStandingRow *self = WB_STANDING_ROW (object);

  g_clear_error (&self->fault);
  g_clear_pointer (&self->status, wb_publish_status_free);
  g_clear_pointer (&self->server, wb_server_free);
  g_free (self->job_id);
  g_free (self->title);

  G_OBJECT_CLASS (wb_standing_row_parent_class)->finalize (object);
}

static void
wb_standing_row_class_init (WbStandingRowClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = wb_standing_row_dispose;
  G_OBJECT_CLASS (klass)->finalize = wb_standing_row_finalize;
  GTK_WIDGET_CLASS (klass)->unroot = wb_standing_row_unroot;

  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
wb_standing_row_init (WbStandingRow *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  self->words = gtk_label_new (NULL);
  self->step = gtk_button_new ();
  gtk_label_set_xalign (GTK_LABEL (self->words), 0);
  gtk_label_set_wrap (GTK_LABEL (self->words), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (self->words), PANGO_WRAP_WORD_CHAR);
  /* A long fault leaves the page its room; the tooltip and a screen reader have all of it. */
  gtk_label_set_lines (GTK_LABEL (self->words), 3);
  gtk_label_set_ellipsize (GTK_LABEL (self->words), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (self->words, TRUE);
  gtk_widget_set_valign (self->step, GTK_ALIGN_CENTER);
  g_object_set (self->words, "accessible-role", GTK_ACCESSIBLE_ROLE_STATUS, NULL);
  g_signal_connect_object (self->step, "clicked", G_CALLBACK (step_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (self->box), self->words);
  gtk_box_append (GTK_BOX (self->box), self->step);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
wb_standing_row_new (WbOffice       *office,
                     const WbServer *server,
                     const char     *job_id,
                     const char     *title)
{
  WbStandingRow *self;

  g_return_val_if_fail (WB_IS_OFFICE (office) && server != NULL && job_id != NULL, NULL);

  self = g_object_new (WB_TYPE_STANDING_ROW, NULL);
  self->office = g_object_ref (office);
  self->server = wb_server_copy (server);
  self->job_id = g_strdup (job_id);
  self->title = g_strdup (title);
  show_standing (self);
  return GTK_WIDGET (self);
}

void
wb_standing_row_set_quiet (WbStandingRow *self,
                           gboolean       quiet)
{
  g_return_if_fail (WB_IS_STANDING_ROW (self));

  gtk_widget_set_visible (GTK_WIDGET (self), !quiet);
}

const char *
wb_standing_row_get_server (WbStandingRow *self)
{
  g_return_val_if_fail (WB_IS_STANDING_ROW (self), NULL);

  return self->server->id;
}
