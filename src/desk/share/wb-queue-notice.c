/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Counts what the queue has. What is in it the window of transfers shows. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-queue-notice.h"

#include "desk/share/wb-desk-queue.h"

#include <glib/gi18n.h>

struct _WbQueueNotice
{
  GtkWidget   parent_instance;

  GtkWidget  *bar;
  GtkWidget  *words;

  WbQueue    *queue;     /* (nullable) */
};

G_DEFINE_FINAL_TYPE (WbQueueNotice, wb_queue_notice, GTK_TYPE_WIDGET)

/* Returns: (transfer full) */
static char *
words_of (guint n_open,
          guint n_failed)
{
  g_autofree char *failed = g_strdup_printf (ngettext ("%u transfer needs you.",
                                                       "%u transfers need you.", n_failed),
                                             n_failed);
  g_autofree char *open = g_strdup_printf (ngettext ("%u transfer is on its way.",
                                                     "%u transfers are on their way.", n_open),
                                           n_open);

  if (n_failed > 0 && n_open > 0)
    return g_strdup_printf ("%s %s", failed, open);
  return g_strdup (n_failed > 0 ? failed : open);
}

static void
show_queue (WbQueueNotice *self)
{
  guint n_open = 0, n_failed = 0;
  g_autofree char *words = NULL;

  if (self->queue != NULL)
    {
      n_open = wb_queue_count (self->queue, WB_SHARE_WAITING) +
               wb_queue_count (self->queue, WB_SHARE_RUNNING);
      n_failed = wb_queue_count (self->queue, WB_SHARE_FAILED);
    }
  words = words_of (n_open, n_failed);
  gtk_widget_set_visible (GTK_WIDGET (self), n_open + n_failed > 0);
  gtk_label_set_label (GTK_LABEL (self->words), words);
  gtk_info_bar_set_message_type (GTK_INFO_BAR (self->bar),
                                 n_failed > 0 ? GTK_MESSAGE_WARNING : GTK_MESSAGE_INFO);
}

static void
show_cb (WbQueueNotice *self)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "win.show-transfers", NULL);
}

static void
wb_queue_notice_dispose (GObject *object)
{
  WbQueueNotice *self = WB_QUEUE_NOTICE (object);

  if (self->queue != NULL)
    g_signal_handlers_disconnect_by_data (self->queue, self);
  g_clear_object (&self->queue);
  g_clear_pointer (&self->bar, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_queue_notice_parent_class)->dispose (object);
}

static void
wb_queue_notice_class_init (WbQueueNoticeClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = wb_queue_notice_dispose;

  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
wb_queue_notice_init (WbQueueNotice *self)
{
  GtkWidget *button;

  self->bar = gtk_info_bar_new ();
  self->words = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->words), 0);
  gtk_label_set_wrap (GTK_LABEL (self->words), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (self->words), 28);
  gtk_widget_set_margin_start (self->words, 6);
  gtk_widget_set_hexpand (self->words, TRUE);
  gtk_info_bar_add_child (GTK_INFO_BAR (self->bar), self->words);
  button = gtk_info_bar_add_button (GTK_INFO_BAR (self->bar), _("Show"), GTK_RESPONSE_OK);
  gtk_widget_set_tooltip_text (button, _("Show the Transfers (Ctrl+Shift+T)"));
  g_signal_connect_object (self->bar, "response", G_CALLBACK (show_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_set_parent (self->bar, GTK_WIDGET (self));
  show_queue (self);
}

void
wb_queue_notice_set_office (WbQueueNotice *self,
                            WbOffice      *office)
{
  g_return_if_fail (WB_IS_QUEUE_NOTICE (self));

  if (self->queue != NULL)
    g_signal_handlers_disconnect_by_data (self->queue, self);
  g_clear_object (&self->queue);
  if (office != NULL)
    {
      self->queue = g_object_ref (wb_desk_queue_get (office));
      g_signal_connect_object (self->queue, "notify", G_CALLBACK (show_queue), self,
                               G_CONNECT_SWAPPED);
      g_signal_connect_object (self->queue, "items-changed", G_CALLBACK (show_queue), self,
                               G_CONNECT_SWAPPED);
    }
  show_queue (self);
}
