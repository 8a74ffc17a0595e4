/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Follows one item of the queue. What a button does is the queue's; questions on servers are asked by
 * wb-share-mend.c. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-transfer-row.h"

#include "desk/share/wb-desk-queue.h"
#include "desk/share/wb-share-mend.h"
#include "desk/widgets/wb-flow-layout.h"
#include "office/wb-words-share.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

struct _WbTransferRow
{
  GtkWidget       parent_instance;

  GtkWidget      *box;
  GtkLabel       *title;
  GtkLabel       *state;
  GtkProgressBar *bar;
  GtkLabel       *details;
  GtkLabel       *fault;
  GtkButton      *mend;
  GtkButton      *pause;
  GtkButton      *cancel;

  WbOffice       *office;
  WbQueueItem    *item;
};

enum
{
  MERGE,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbTransferRow, wb_transfer_row, GTK_TYPE_WIDGET)

/* --- words ------------------------------------------------------------------------------------ */

static char *
title_of (WbQueueItem *item)
{
  const WbShareEntry *entry = wb_queue_item_get_entry (item);
  const char *server = wb_queue_item_get_server (item);

  switch (entry->deed)
    {
    case WB_SHARE_DEED_PUBLISH:
      /* Translators: a job number, and the name of a server. */
      return g_strdup_printf (_("%s to %s"), entry->title, server);
    case WB_SHARE_DEED_FETCH:
      /* Translators: a job number, and the name of a server. */
      return g_strdup_printf (_("%s from %s"), entry->title, server);
    }
  g_return_val_if_reached (NULL);
}

/* Returns: (transfer full): when a waiting one has its next turn. */
static char *
waiting_words (const WbShareEntry *entry)
{
  g_autoptr (GDateTime) time = NULL;
  g_autofree char *hour = NULL;

  if (entry->tries == 0 || entry->next_try == 0)
    return g_strdup (_("Waiting"));
  time = g_date_time_new_from_unix_local (entry->next_try);
  if (time == NULL)
    return g_strdup (_("Waiting"));
  hour = g_date_time_format (time, "%H:%M:%S");
  /* Translators: %s is a time of day. */
  return g_strdup_printf (_("Next try at %s"), hour);
}

static char *
state_of (WbQueueItem           *item,
          const WbProgressState *progress)
{
  const WbShareEntry *entry = wb_queue_item_get_entry (item);

  switch (entry->state)
    {
    case WB_SHARE_WAITING:
      return waiting_words (entry);
    case WB_SHARE_RUNNING:
      return g_strdup (progress->words != NULL ? _(progress->words) : _("Under way"));
    case WB_SHARE_PAUSED:
      return g_strdup (_("Paused"));
    case WB_SHARE_FAILED:
      return g_strdup (_("Not done"));
    case WB_SHARE_DONE:
      return g_strdup (_("Done"));
    }
  g_return_val_if_reached (NULL);
}

static void
show_text (GtkLabel   *label,
           const char *text)
{
  if (g_strcmp0 (gtk_label_get_label (label), text != NULL ? text : "") != 0)
    gtk_label_set_label (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL && *text != '\0');
}

static void
show_button (GtkButton  *button,
             const char *label,
             gboolean    visible)
{
  if (visible && g_strcmp0 (gtk_button_get_label (button), label) != 0)
    gtk_button_set_label (button, label);
  gtk_widget_set_visible (GTK_WIDGET (button), visible);
}

/* --- what is shown ---------------------------------------------------------------------------- */

static void
show_progress (WbTransferRow         *self,
               const WbProgressState *progress,
               WbShareState           state)
{
  gboolean running = state == WB_SHARE_RUNNING;
  gboolean begun = progress->all > 0 && progress->done > 0 && state != WB_SHARE_DONE;
  g_autofree char *words = running || begun ? wb_words_progress (progress) : NULL;

  show_text (self->details, words);
  gtk_widget_set_visible (GTK_WIDGET (self->bar), running || begun);
  if (progress->all > 0)
    gtk_progress_bar_set_fraction (self->bar, MIN (1, (double) progress->done /
                                                      (double) progress->all));
  else if (running)
    gtk_progress_bar_pulse (self->bar);
}

static void
show_buttons (WbTransferRow *self,
              WbShareState   state)
{
  WbQueueFault fault = wb_queue_item_get_fault_kind (self->item);
  gboolean waits_again = state == WB_SHARE_WAITING && fault == WB_QUEUE_FAULT_PASSES;
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  show_button (self->mend, waits_again ? _("Try Now") : wb_share_mend_label (fault),
               state == WB_SHARE_FAILED || waits_again);
  show_button (self->pause, state == WB_SHARE_PAUSED ? _("Go On") : _("Pause"),
               state == WB_SHARE_PAUSED || state == WB_SHARE_WAITING || state == WB_SHARE_RUNNING);
  show_button (self->cancel, state == WB_SHARE_DONE ? _("Take Off the List") : _("Cancel"),
               TRUE);
  /* The keyboard stays with the row when its button goes. */
  if (focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self)) &&
      !gtk_widget_get_visible (focus))
    gtk_widget_grab_focus (GTK_WIDGET (self->cancel));
}

static void
show_item (WbTransferRow *self)
{
  const WbShareEntry *entry = wb_queue_item_get_entry (self->item);
  WbShareState state = entry->state;
  g_autofree char *title = title_of (self->item);
  g_autofree char *words = NULL;
  WbProgressState progress;

  wb_queue_item_get_progress (self->item, &progress);
  words = state_of (self->item, &progress);
  show_text (self->title, title);
  show_text (self->state, words);
  show_progress (self, &progress, state);
  show_text (self->fault, state == WB_SHARE_FAILED || state == WB_SHARE_WAITING
                          ? wb_queue_item_get_fault (self->item) : NULL);
  show_buttons (self, state);
}

char *
wb_transfer_row_describe (WbTransferRow *self)
{
  GtkLabel *const parts[] = { self->state, self->details, self->fault };
  GString *text;

  g_return_val_if_fail (WB_IS_TRANSFER_ROW (self), NULL);

  text = g_string_new (gtk_label_get_label (self->title));
  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    if (gtk_widget_get_visible (GTK_WIDGET (parts[i])))
      g_string_append_printf (text, ", %s", gtk_label_get_label (parts[i]));
  return g_string_free (text, FALSE);
}

/* --- what is done ----------------------------------------------------------------------------- */

static WbQueue *
get_queue (WbTransferRow *self)
{
  wb_desk_queue_start (self->office);
  return wb_desk_queue_get (self->office);
}

static void
mended_cb (GObject *caller)
{
  WbTransferRow *self = WB_TRANSFER_ROW (caller);
  WbQueue *queue;

  if (self->item == NULL)
    return;
  queue = get_queue (self);
  wb_queue_resume (queue, wb_queue_item_get_id (self->item));
  /* What failed for the same reason goes on as well. */
  wb_queue_resume_server (queue, wb_queue_item_get_entry (self->item)->server_id);
}

static void
mend_cb (WbTransferRow *self)
{
  WbQueueFault kind = wb_queue_item_get_fault_kind (self->item);
  GtkWindow *over = GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self)));
  g_autofree char *host_key = wb_queue_item_get_host_key (self->item);

  if (kind == WB_QUEUE_FAULT_CONFLICT)
    g_signal_emit (self, signals[MERGE], 0);
  else if (kind == WB_QUEUE_FAULT_PASSES || kind == WB_QUEUE_FAULT_NONE ||
           kind == WB_QUEUE_FAULT_OTHER)
    wb_queue_resume (get_queue (self), wb_queue_item_get_id (self->item));
  else
    wb_share_mend (over, self->office, wb_queue_item_get_entry (self->item)->server_id, kind,
                   host_key, mended_cb, G_OBJECT (self));
}

static void
pause_cb (WbTransferRow *self)
{
  gint64 id = wb_queue_item_get_id (self->item);

  if (wb_queue_item_get_entry (self->item)->state == WB_SHARE_PAUSED)
    wb_queue_resume (get_queue (self), id);
  else
    wb_queue_pause (get_queue (self), id);
}

static void
cancel_cb (WbTransferRow *self)
{
  wb_queue_cancel (get_queue (self), wb_queue_item_get_id (self->item));
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_transfer_row_dispose (GObject *object)
{
  WbTransferRow *self = WB_TRANSFER_ROW (object);

  if (self->item != NULL)
    g_signal_handlers_disconnect_by_data (self->item, self);
  g_clear_object (&self->item);
  g_clear_object (&self->office);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_TRANSFER_ROW);

  G_OBJECT_CLASS (wb_transfer_row_parent_class)->dispose (object);
}

static void
wb_transfer_row_class_init (WbTransferRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_transfer_row_dispose;

  signals[MERGE] = g_signal_new ("merge", WB_TYPE_TRANSFER_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 0);

  g_type_ensure (WB_TYPE_FLOW_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/share/wb-transfer-row.ui");
  gtk_widget_class_bind_template_child (widget_class, WbTransferRow, box);
  gtk_widget_class_bind_template_child (widget_class, WbTransferRow, title);
  gtk_widget_class_bind_template_child (widget_class, WbTransferRow, state);
  gtk_widget_class_bind_template_child (widget_class, WbTransferRow, bar);
  gtk_widget_class_bind_template_child (widget_class, WbTransferRow, details);
  gtk_widget_class_bind_template_child (widget_class, WbTransferRow, fault);
  gtk_widget_class_bind_template_child (widget_class, WbTransferRow, mend);
  gtk_widget_class_bind_template_child (widget_class, WbTransferRow, pause);
  gtk_widget_class_bind_template_child (widget_class, WbTransferRow, cancel);
  gtk_widget_class_bind_template_callback (widget_class, mend_cb);
  gtk_widget_class_bind_template_callback (widget_class, pause_cb);
  gtk_widget_class_bind_template_callback (widget_class, cancel_cb);
}

static void
wb_transfer_row_init (WbTransferRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
wb_transfer_row_new (WbOffice    *office,
                     WbQueueItem *item)
{
  WbTransferRow *self;

  g_return_val_if_fail (WB_IS_OFFICE (office) && WB_IS_QUEUE_ITEM (item), NULL);

  self = g_object_new (WB_TYPE_TRANSFER_ROW, NULL);
  self->office = g_object_ref (office);
  self->item = g_object_ref (item);
  g_signal_connect_object (item, "notify", G_CALLBACK (show_item), self, G_CONNECT_SWAPPED);
  show_item (self);
  return GTK_WIDGET (self);
}

WbQueueItem *
wb_transfer_row_get_item (WbTransferRow *self)
{
  g_return_val_if_fail (WB_IS_TRANSFER_ROW (self), NULL);

  return self->item;
}
