/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists what office's list of servers has, and opens the editor for one of them. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-servers-window.h"

#include "desk/share/wb-server-editor.h"
#include "desk/widgets/wb-one-stop.h"
#include "office/wb-server-settings.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

struct _WbServersWindow
{
  AdwWindow        parent_instance;

  AdwToastOverlay *toasts;
  GtkInfoBar      *fault_bar;
  GtkLabel        *fault;
  GtkStack        *stack;
  GtkListBox      *rows;
  GtkWidget       *first;

  WbOffice        *office;
  WbServerList    *servers;
  GtkWidget       *editor;       /* (weak) (nullable) */
  GCancellable    *cancellable;
};

G_DEFINE_FINAL_TYPE (WbServersWindow, wb_servers_window, ADW_TYPE_WINDOW)

/* --- what is shown ---------------------------------------------------------------------------- */

static void
show_fault (WbServersWindow *self,
            const char      *words)
{
  gtk_label_set_label (self->fault, words != NULL ? words : "");
  gtk_info_bar_set_revealed (self->fault_bar, words != NULL);
}

static void
show_list (WbServersWindow *self)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->servers));
  gboolean was_empty = !g_str_equal (gtk_stack_get_visible_child_name (self->stack), "list");

  show_fault (self, wb_server_list_get_fault (self->servers));
  if (!wb_server_list_get_loaded (self->servers))
    return;
  gtk_stack_set_visible_child_name (self->stack, n > 0 ? "list" : "none");
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "servers.change", n > 0);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "servers.remove", n > 0);
  if (n > 0 && gtk_list_box_get_selected_row (self->rows) == NULL)
    gtk_list_box_select_row (self->rows, gtk_list_box_get_row_at_index (self->rows, 0));
  if (n == 0)
    gtk_widget_grab_focus (self->first);
  else if (was_empty)
    gtk_widget_grab_focus (GTK_WIDGET (gtk_list_box_get_selected_row (self->rows)));
}

static GtkWidget *
make_row (gpointer item,
          gpointer data)
{
  const WbServer *server = wb_server_item_get_server (item);
  g_autofree char *where = NULL;
  GtkWidget *row = adw_action_row_new ();

  if (server->bucket != NULL && *server->bucket != '\0')
    where = g_strdup_printf ("%s, %s", server->address, server->bucket);
  else
    where = g_strdup (server->address);
  g_object_set (row, "use-markup", FALSE, "title", server->name, "activatable", TRUE, NULL);
  {
    g_autofree char *subtitle = g_strdup_printf ("%s · %s",
                                                 wb_words_enum (&wb_server_kinds,
                                                                (int) server->kind), where);
    g_autofree char *name = g_strdup_printf ("%s, %s", server->name, subtitle);

    adw_action_row_set_subtitle (ADW_ACTION_ROW (row), subtitle);
    gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  }
  g_object_set_data_full (G_OBJECT (row), "item", g_object_ref (item), g_object_unref);
  return row;
}

/* Returns: (nullable) (transfer none) */
static const WbServer *
get_chosen (WbServersWindow *self)
{
  GtkListBoxRow *row = gtk_list_box_get_selected_row (self->rows);

  return row != NULL ? wb_server_item_get_server (g_object_get_data (G_OBJECT (row), "item"))
                     : NULL;
}

/* --- adding and changing ---------------------------------------------------------------------- */

static void
stored_cb (WbServersWindow *self,
           int              place)
{
  if (place == WB_SECRET_SESSION)
    adw_toast_overlay_add_toast (
      self->toasts, adw_toast_new (_("Stored. This desktop has no secret service, so the password "
                                     "is kept only until Wainbook ends.")));
  else
    adw_toast_overlay_add_toast (self->toasts, adw_toast_new (_("Stored.")));
}

static void
edit (WbServersWindow *self,
      const WbServer  *server)
{
  g_set_weak_pointer (&self->editor, wb_server_editor_new (self->office, server));
  g_signal_connect_object (self->editor, "stored", G_CALLBACK (stored_cb), self,
                           G_CONNECT_SWAPPED);
  gtk_window_set_modal (GTK_WINDOW (self->editor), TRUE);
  gtk_window_set_transient_for (GTK_WINDOW (self->editor), GTK_WINDOW (self));
  gtk_window_set_destroy_with_parent (GTK_WINDOW (self->editor), TRUE);
  gtk_window_present (GTK_WINDOW (self->editor));
}

static void
row_activated_cb (WbServersWindow *self,
                  GtkListBoxRow   *row)
{
  edit (self, wb_server_item_get_server (g_object_get_data (G_OBJECT (row), "item")));
}

static void
add_action (GtkWidget  *widget,
            const char *name,
            GVariant   *target)
{
  edit (WB_SERVERS_WINDOW (widget), NULL);
}

static void
change_action (GtkWidget  *widget,
               const char *name,
               GVariant   *target)
{
  WbServersWindow *self = WB_SERVERS_WINDOW (widget);

  if (get_chosen (self) != NULL)
    edit (self, get_chosen (self));
}

/* --- removing --------------------------------------------------------------------------------- */

static void
removed_cb (GObject      *object,
            GAsyncResult *result,
            gpointer      data)
{
  g_autoptr (WbServersWindow) self = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *words = NULL;

  if (wb_office_remove_server_finish (WB_OFFICE (object), result, &error) || self->office == NULL)
    return;
  words = wb_words_error (error);
  show_fault (self, words);
}

static void
remove_answered_cb (WbServersWindow *self,
                    const char      *response,
                    GtkWidget       *dialog)
{
  if (g_str_equal (response, "remove"))
    wb_office_remove_server_async (self->office, g_object_get_data (G_OBJECT (dialog), "server"),
                                   self->cancellable, removed_cb, g_object_ref (self));
}

static void
remove_action (GtkWidget  *widget,
               const char *name,
               GVariant   *target)
{
  WbServersWindow *self = WB_SERVERS_WINDOW (widget);
  const WbServer *server = get_chosen (self);
  g_autofree char *heading = NULL;
  GtkWidget *dialog;

  if (server == NULL)
    return;
  /* Translators: %s is what the office calls a server. */
  heading = g_strdup_printf (_("Remove “%s”?"), server->name);
  dialog = adw_message_dialog_new (GTK_WINDOW (self), heading,
                                   _("The office forgets the server, its password and what waits "
                                     "for it. What was published stays on the server."));
  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "cancel", _("_Cancel"), "remove",
                                    _("_Remove"), NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "remove",
                                              ADW_RESPONSE_DESTRUCTIVE);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  g_object_set_data_full (G_OBJECT (dialog), "server", g_strdup (server->id), g_free);
  g_signal_connect_object (dialog, "response", G_CALLBACK (remove_answered_cb), self,
                           G_CONNECT_SWAPPED);
  gtk_window_present (GTK_WINDOW (dialog));
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_servers_window_dispose (GObject *object)
{
  WbServersWindow *self = WB_SERVERS_WINDOW (object);

  g_cancellable_cancel (self->cancellable);
  if (self->editor != NULL)
    gtk_window_destroy (GTK_WINDOW (self->editor));
  g_clear_weak_pointer (&self->editor);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_SERVERS_WINDOW);
  g_clear_object (&self->servers);
  g_clear_object (&self->cancellable);
  g_clear_object (&self->office);

  G_OBJECT_CLASS (wb_servers_window_parent_class)->dispose (object);
}

static void
wb_servers_window_class_init (WbServersWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_servers_window_dispose;

  g_type_ensure (WB_TYPE_ONE_STOP);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/share/wb-servers-window.ui");
  gtk_widget_class_bind_template_child (widget_class, WbServersWindow, toasts);
  gtk_widget_class_bind_template_child (widget_class, WbServersWindow, fault_bar);
  gtk_widget_class_bind_template_child (widget_class, WbServersWindow, fault);
  gtk_widget_class_bind_template_child (widget_class, WbServersWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, WbServersWindow, rows);
  gtk_widget_class_bind_template_child (widget_class, WbServersWindow, first);
  gtk_widget_class_bind_template_callback (widget_class, row_activated_cb);

  gtk_widget_class_install_action (widget_class, "servers.add", NULL, add_action);
  gtk_widget_class_install_action (widget_class, "servers.change", NULL, change_action);
  gtk_widget_class_install_action (widget_class, "servers.remove", NULL, remove_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_n, GDK_CONTROL_MASK, "servers.add",
                                       NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F2, 0, "servers.change", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Delete, 0, "servers.remove", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close",
                                       NULL);
}

/* Before the list or what it tells of gets the key. */
static gboolean
key_cb (GtkEventControllerKey *controller,
        guint                  keyval,
        guint                  keycode,
        GdkModifierType        state,
        WbServersWindow       *self)
{
  if (keyval != GDK_KEY_Escape)
    return FALSE;
  gtk_window_close (GTK_WINDOW (self));
  return TRUE;
}

static void
wb_servers_window_init (WbServersWindow *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  self->cancellable = g_cancellable_new ();
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "servers.change", FALSE);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "servers.remove", FALSE);
}

GtkWidget *
wb_servers_window_new (WbOffice *office)
{
  WbServersWindow *self;

  g_return_val_if_fail (WB_IS_OFFICE (office), NULL);

  self = g_object_new (WB_TYPE_SERVERS_WINDOW, NULL);
  self->office = g_object_ref (office);
  self->servers = wb_server_list_new (office);
  gtk_list_box_bind_model (self->rows, G_LIST_MODEL (self->servers), make_row, NULL, NULL);
  g_signal_connect_object (self->servers, "items-changed", G_CALLBACK (show_list), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->servers, "notify", G_CALLBACK (show_list), self,
                           G_CONNECT_SWAPPED);
  show_list (self);
  return GTK_WIDGET (self);
}
