/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A question with a button a server; the one that was taken last is proposed. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-server-choice.h"

#include "desk/share/wb-share-windows.h"
#include "office/wb-server-settings.h"

#include <glib/gi18n.h>

#define LAST_KEY "wb-server-taken-last"

typedef struct
{
  WbWindow           *window;    /* (weak) (nullable) */
  WbOffice           *office;
  WbServerList       *servers;
  char               *heading;
  char               *accept;
  WbServerChosenFunc  chosen;
  gpointer            data;
  GDestroyNotify      free_data;
  GPtrArray          *buttons;   /* in the order of @servers */
} Choice;

static void
choice_free (Choice *self)
{
  g_clear_weak_pointer (&self->window);
  g_signal_handlers_disconnect_by_data (self->servers, self);
  g_object_unref (self->servers);
  g_object_unref (self->office);
  g_ptr_array_unref (self->buttons);
  if (self->free_data != NULL)
    self->free_data (self->data);
  g_free (self->heading);
  g_free (self->accept);
  g_free (self);
}

/* Returns: (transfer full) */
static char *
nth_id (Choice *self,
        guint   nth)
{
  g_autoptr (WbServerItem) item = g_list_model_get_item (G_LIST_MODEL (self->servers), nth);

  return g_strdup (wb_server_item_get_server (item)->id);
}

static void
take (Choice *self,
      guint   nth)
{
  g_autofree char *id = nth_id (self, nth);

  g_object_set_data_full (G_OBJECT (self->office), LAST_KEY, g_strdup (id), g_free);
  self->chosen (id, self->data);
}

static void
none_answered_cb (GtkWidget  *dialog,
                  const char *response,
                  Choice     *self)
{
  if (g_str_equal (response, "add") && self->window != NULL)
    wb_share_windows_show_servers (GTK_WINDOW (self->window), self->office);
  choice_free (self);
}

static void
tell_none (Choice *self)
{
  GtkWidget *dialog = adw_message_dialog_new (GTK_WINDOW (self->window), _("No File Server Yet"),
                                              _("Jobs are published to a file server that the "
                                                "office has: a shared folder, WebDAV, SFTP or an "
                                                "object store. Add it first."));

  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "cancel", _("_Cancel"), "add",
                                    _("_File Servers"), NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "add",
                                              ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "add");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  g_signal_connect (dialog, "response", G_CALLBACK (none_answered_cb), self);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
answered_cb (GtkWidget  *dialog,
             const char *response,
             Choice     *self)
{
  if (g_str_equal (response, "take"))
    for (guint i = 0; i < self->buttons->len; i++)
      if (gtk_check_button_get_active (g_ptr_array_index (self->buttons, i)))
        take (self, i);
  choice_free (self);
}

/* Enter takes what is chosen; to choose there are the arrows and the space bar. */
static void
add_enter (GtkWidget *box)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_shortcut_controller_add_shortcut (
    GTK_SHORTCUT_CONTROLLER (keys),
    gtk_shortcut_new (gtk_alternative_trigger_new (gtk_keyval_trigger_new (GDK_KEY_Return, 0),
                                                   gtk_keyval_trigger_new (GDK_KEY_KP_Enter, 0)),
                      gtk_named_action_new ("default.activate")));
  gtk_widget_add_controller (box, keys);
}

static GtkWidget *
make_buttons (Choice *self)
{
  const char *last = g_object_get_data (G_OBJECT (self->office), LAST_KEY);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkCheckButton *first = NULL;

  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (self->servers)); i++)
    {
      g_autoptr (WbServerItem) item = g_list_model_get_item (G_LIST_MODEL (self->servers), i);
      const WbServer *server = wb_server_item_get_server (item);
      GtkWidget *button = gtk_check_button_new_with_label (server->name);

      gtk_check_button_set_group (GTK_CHECK_BUTTON (button), first);
      if (first == NULL)
        first = GTK_CHECK_BUTTON (button);
      if (i == 0 || g_strcmp0 (last, server->id) == 0)
        gtk_check_button_set_active (GTK_CHECK_BUTTON (button), TRUE);
      gtk_box_append (GTK_BOX (box), button);
      g_ptr_array_add (self->buttons, g_object_ref (button));
    }
  add_enter (box);
  return box;
}

static void
ask (Choice *self)
{
  GtkWidget *dialog = adw_message_dialog_new (GTK_WINDOW (self->window), self->heading, NULL);

  adw_message_dialog_set_extra_child (ADW_MESSAGE_DIALOG (dialog), make_buttons (self));
  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "cancel", _("_Cancel"), "take",
                                    self->accept, NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "take",
                                              ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "take");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  g_signal_connect (dialog, "response", G_CALLBACK (answered_cb), self);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
loaded_cb (Choice *self)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->servers));

  if (!wb_server_list_get_loaded (self->servers))
    return;
  g_signal_handlers_disconnect_by_data (self->servers, self);
  if (self->window == NULL)
    {
      choice_free (self);
      return;
    }
  if (n == 0)
    {
      tell_none (self);
      return;
    }
  if (n > 1)
    {
      ask (self);
      return;
    }
  take (self, 0);
  choice_free (self);
}

void
wb_server_choose (WbWindow           *window,
                  const char         *heading,
                  const char         *accept,
                  WbServerChosenFunc  chosen,
                  gpointer            data,
                  GDestroyNotify      free_data)
{
  Choice *self;

  g_return_if_fail (WB_IS_WINDOW (window) && chosen != NULL);

  self = g_new0 (Choice, 1);
  g_set_weak_pointer (&self->window, window);
  self->office = g_object_ref (wb_open_jobs_get_office (wb_window_get_open_jobs (window)));
  self->servers = wb_server_list_new (self->office);
  self->heading = g_strdup (heading);
  self->accept = g_strdup (accept);
  self->chosen = chosen;
  self->data = data;
  self->free_data = free_data;
  /* The dialog is gone before its answer comes. */
  self->buttons = g_ptr_array_new_with_free_func (g_object_unref);
  g_signal_connect_swapped (self->servers, "notify::loaded", G_CALLBACK (loaded_cb), self);
  loaded_cb (self);
}
