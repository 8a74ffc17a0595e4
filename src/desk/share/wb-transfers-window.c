/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A row for each entry of the office's queue, in its order. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-transfers-window.h"

#include "desk/share/wb-desk-queue.h"
#include "desk/share/wb-share-deeds.h"
#include "desk/share/wb-transfer-row.h"

#include <glib/gi18n.h>

struct _WbTransfersWindow
{
  AdwWindow       parent_instance;

  AdwWindowTitle *title;
  GtkInfoBar     *fault_bar;
  GtkLabel       *fault;
  GtkStack       *stack;
  GtkListBox     *rows;

  WbWindow       *main;     /* (weak) (nullable) */
  WbOffice       *office;
  WbQueue        *queue;
};

G_DEFINE_FINAL_TYPE (WbTransfersWindow, wb_transfers_window, ADW_TYPE_WINDOW)

static void
show_queue (WbTransfersWindow *self)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->queue));
  guint n_open = wb_queue_count (self->queue, WB_SHARE_WAITING) +
                 wb_queue_count (self->queue, WB_SHARE_RUNNING);
  guint n_failed = wb_queue_count (self->queue, WB_SHARE_FAILED);
  const char *fault = wb_queue_get_fault (self->queue);
  g_autofree char *open = g_strdup_printf (ngettext ("%u to be done", "%u to be done", n_open),
                                           n_open);
  g_autofree char *failed = g_strdup_printf (ngettext ("%u needs you", "%u need you", n_failed),
                                             n_failed);
  g_autofree char *both = g_strdup_printf ("%s, %s", open, failed);

  adw_window_title_set_subtitle (self->title, n_failed > 0 && n_open > 0 ? both :
                                           n_failed > 0 ? failed : n_open > 0 ? open : "");
  gtk_stack_set_visible_child_name (self->stack, n > 0 ? "list" : "none");
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "transfers.clear",
                                 wb_queue_count (self->queue, WB_SHARE_DONE) > 0);
  gtk_label_set_label (self->fault, fault != NULL ? fault : "");
  gtk_info_bar_set_revealed (self->fault_bar, fault != NULL);
}

static void
merge_cb (WbTransfersWindow *self,
          WbTransferRow     *row)
{
  const WbShareEntry *entry = wb_queue_item_get_entry (wb_transfer_row_get_item (row));

  if (self->main != NULL)
    wb_share_bring (self->main, GTK_WINDOW (self), entry->server_id, entry->job_id, entry->title);
}

/* What a screen reader says when the focus comes to the row. */
static void
name_row (GtkWidget *row)
{
  WbTransferRow *child = WB_TRANSFER_ROW (gtk_list_box_row_get_child (GTK_LIST_BOX_ROW (row)));
  g_autofree char *words = wb_transfer_row_describe (child);

  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
}

static GtkWidget *
make_row (gpointer item,
          gpointer data)
{
  WbTransfersWindow *self = data;
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *child = wb_transfer_row_new (self->office, item);

  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), child);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  g_signal_connect_object (child, "merge", G_CALLBACK (merge_cb), self, G_CONNECT_SWAPPED);
  /* After the row inside has shown it. */
  g_signal_connect_object (item, "notify", G_CALLBACK (name_row), row, G_CONNECT_SWAPPED);
  name_row (row);
  return row;
}

static void
clear_action (GtkWidget  *widget,
              const char *name,
              GVariant   *target)
{
  wb_queue_clear (WB_TRANSFERS_WINDOW (widget)->queue);
}

static void
wb_transfers_window_dispose (GObject *object)
{
  WbTransfersWindow *self = WB_TRANSFERS_WINDOW (object);

  if (self->queue != NULL)
    g_signal_handlers_disconnect_by_data (self->queue, self);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_TRANSFERS_WINDOW);
  g_clear_weak_pointer (&self->main);
  g_clear_object (&self->queue);
  g_clear_object (&self->office);

  G_OBJECT_CLASS (wb_transfers_window_parent_class)->dispose (object);
}

static void
wb_transfers_window_class_init (WbTransfersWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_transfers_window_dispose;

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/share/"
                                               "wb-transfers-window.ui");
  gtk_widget_class_bind_template_child (widget_class, WbTransfersWindow, title);
  gtk_widget_class_bind_template_child (widget_class, WbTransfersWindow, fault_bar);
  gtk_widget_class_bind_template_child (widget_class, WbTransfersWindow, fault);
  gtk_widget_class_bind_template_child (widget_class, WbTransfersWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, WbTransfersWindow, rows);

  gtk_widget_class_install_action (widget_class, "transfers.clear", NULL, clear_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close",
                                       NULL);
}

static void
wb_transfers_window_init (WbTransfersWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
wb_transfers_window_new (WbWindow *main)
{
  WbTransfersWindow *self;

  g_return_val_if_fail (WB_IS_WINDOW (main), NULL);

  self = g_object_new (WB_TYPE_TRANSFERS_WINDOW, NULL);
  g_set_weak_pointer (&self->main, main);
  self->office = g_object_ref (wb_open_jobs_get_office (wb_window_get_open_jobs (main)));
  self->queue = g_object_ref (wb_desk_queue_get (self->office));
  wb_desk_queue_start (self->office);
  gtk_list_box_bind_model (self->rows, G_LIST_MODEL (self->queue), make_row, self, NULL);
  g_signal_connect_object (self->queue, "items-changed", G_CALLBACK (show_queue), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->queue, "notify", G_CALLBACK (show_queue), self,
                           G_CONNECT_SWAPPED);
  show_queue (self);
  return GTK_WIDGET (self);
}
