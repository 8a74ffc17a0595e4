/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One way through questions for each kind of fault. Secrets and keys are kept by office. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-share-mend.h"

#include "desk/share/wb-server-editor.h"
#include "desk/share/wb-share-questions.h"
#include "office/wb-words.h"

#include <adwaita.h>
#include <glib/gi18n.h>

typedef struct
{
  GtkWindow     *over;       /* (weak) (nullable) */
  WbOffice      *office;
  char          *server_id;
  WbQueueFault   kind;
  char          *host_key;
  WbMendedFunc   mended;
  GObject       *caller;     /* (weak) (nullable) */

  WbServerList  *servers;
  WbServer      *server;     /* (nullable): until it was found */
  WbServerProbe *probe;
} Mending;

static void
mending_free (gpointer data)
{
  Mending *self = data;

  g_clear_weak_pointer (&self->over);
  g_clear_weak_pointer (&self->caller);
  if (self->servers != NULL)
    g_signal_handlers_disconnect_by_data (self->servers, self);
  if (self->probe != NULL)
    g_signal_handlers_disconnect_by_data (self->probe, self);
  g_clear_object (&self->servers);
  g_clear_object (&self->probe);
  g_clear_pointer (&self->server, wb_server_free);
  g_object_unref (self->office);
  g_free (self->server_id);
  g_free (self->host_key);
  g_free (self);
}

static void
finish (Mending *self)
{
  if (self->caller != NULL)
    self->mended (self->caller);
  mending_free (self);
}

/* With a sentence on what went wrong. */
static void
give_up (Mending      *self,
         const GError *error)
{
  if (self->over != NULL && error != NULL && !g_error_matches (error, G_IO_ERROR,
                                                               G_IO_ERROR_CANCELLED))
    {
      g_autofree char *words = wb_words_error (error);
      GtkWidget *dialog = adw_message_dialog_new (self->over, _("This Did Not Help"), words);

      adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "close", _("_Close"));
      gtk_window_present (GTK_WINDOW (dialog));
    }
  mending_free (self);
}

/* --- signing in ------------------------------------------------------------------------------- */

static void
signed_in_cb (GObject      *object,
              GAsyncResult *result,
              gpointer      data)
{
  Mending *self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbServer) stored = wb_office_put_server_finish (WB_OFFICE (object), result, NULL,
                                                             &error);

  if (stored != NULL)
    finish (self);
  else
    give_up (self, error);
}

static void
secret_answered_cb (GtkWidget  *dialog,
                    const char *response,
                    Mending    *self)
{
  g_autoptr (WbSecret) secret = wb_share_take_secret (dialog);

  if (!g_str_equal (response, "sign-in") || secret == NULL)
    give_up (self, NULL);
  else
    wb_office_put_server_async (self->office, self->server, secret, NULL, signed_in_cb, self);
}

/* --- keys ------------------------------------------------------------------------------------- */

static void
probed_cb (Mending *self)
{
  const GError *error = wb_server_probe_get_error (self->probe);

  if (error == NULL)
    finish (self);
  else
    give_up (self, error);
}

static void
key_answered_cb (GtkWidget  *dialog,
                 const char *response,
                 Mending    *self)
{
  if (!g_str_equal (response, "trust"))
    {
      give_up (self, NULL);
      return;
    }
  self->probe = wb_server_probe_start (self->office, self->server, NULL, self->host_key, NULL);
  g_signal_connect_swapped (self->probe, "finished", G_CALLBACK (probed_cb), self);
}

static void
forgotten_cb (GObject      *object,
              GAsyncResult *result,
              gpointer      data)
{
  Mending *self = data;
  g_autoptr (GError) error = NULL;

  if (wb_office_forget_host_key_finish (WB_OFFICE (object), result, &error))
    finish (self);
  else
    give_up (self, error);
}

static void
forget_answered_cb (GtkWidget  *dialog,
                    const char *response,
                    Mending    *self)
{
  if (g_str_equal (response, "forget"))
    wb_office_forget_host_key_async (self->office, self->server, NULL, forgotten_cb, self);
  else
    give_up (self, NULL);
}

/* --- settings --------------------------------------------------------------------------------- */

/* Whatever was changed there, it is worth another try. */
static void
editor_gone_cb (Mending *self)
{
  finish (self);
}

static void
edit (Mending *self)
{
  GtkWidget *editor = wb_server_editor_new (self->office, self->server);

  g_signal_connect_swapped (editor, "destroy", G_CALLBACK (editor_gone_cb), self);
  gtk_window_set_modal (GTK_WINDOW (editor), TRUE);
  gtk_window_set_transient_for (GTK_WINDOW (editor), self->over);
  gtk_window_set_destroy_with_parent (GTK_WINDOW (editor), TRUE);
  gtk_window_present (GTK_WINDOW (editor));
}

/* --- the way in ------------------------------------------------------------------------------- */

static void
ask (Mending *self)
{
  switch (self->kind)
    {
    case WB_QUEUE_FAULT_SECRET:
      /* Without a user name a password is of no use: that is what is missing. */
      if (!wb_server_wants_secret (self->server))
        break;
      g_signal_connect (wb_share_ask_secret (self->over, self->server), "response",
                        G_CALLBACK (secret_answered_cb), self);
      return;
    case WB_QUEUE_FAULT_HOST_KEY:
      if (self->host_key == NULL)
        break;
      g_signal_connect (wb_share_ask_host_key (self->over, self->host_key), "response",
                        G_CALLBACK (key_answered_cb), self);
      return;
    case WB_QUEUE_FAULT_HOST_KEY_CHANGED:
      g_signal_connect (wb_share_ask_forget_key (self->over, self->server), "response",
                        G_CALLBACK (forget_answered_cb), self);
      return;
    case WB_QUEUE_FAULT_CERTIFICATE:
      break;
    case WB_QUEUE_FAULT_NONE:
    case WB_QUEUE_FAULT_PASSES:
    case WB_QUEUE_FAULT_CONFLICT:
    case WB_QUEUE_FAULT_OTHER:
      finish (self);
      return;
    }
  edit (self);
}

static void
servers_cb (Mending *self)
{
  if (!wb_server_list_get_loaded (self->servers) || self->server != NULL)
    return;
  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (self->servers)); i++)
    {
      g_autoptr (WbServerItem) item = g_list_model_get_item (G_LIST_MODEL (self->servers), i);

      if (g_str_equal (wb_server_item_get_server (item)->id, self->server_id))
        self->server = wb_server_copy (wb_server_item_get_server (item));
    }
  g_signal_handlers_disconnect_by_data (self->servers, self);
  /* It was removed meanwhile, or the window has gone. */
  if (self->server == NULL || self->over == NULL)
    give_up (self, NULL);
  else
    ask (self);
}

const char *
wb_share_mend_label (WbQueueFault kind)
{
  switch (kind)
    {
    case WB_QUEUE_FAULT_SECRET:
      return _("Sign In…");
    case WB_QUEUE_FAULT_CERTIFICATE:
      return _("Server Settings…");
    case WB_QUEUE_FAULT_HOST_KEY:
    case WB_QUEUE_FAULT_HOST_KEY_CHANGED:
      return _("Look at Its Key…");
    case WB_QUEUE_FAULT_CONFLICT:
      return _("Compare and Merge…");
    case WB_QUEUE_FAULT_NONE:
    case WB_QUEUE_FAULT_PASSES:
    case WB_QUEUE_FAULT_OTHER:
      return _("Try Again");
    }
  g_return_val_if_reached (NULL);
}

void
wb_share_mend (GtkWindow    *over,
               WbOffice     *office,
               const char   *server_id,
               WbQueueFault  kind,
               const char   *host_key,
               WbMendedFunc  mended,
               GObject      *caller)
{
  Mending *self;

  g_return_if_fail (GTK_IS_WINDOW (over) && WB_IS_OFFICE (office));
  g_return_if_fail (server_id != NULL && mended != NULL && G_IS_OBJECT (caller));

  self = g_new0 (Mending, 1);
  g_set_weak_pointer (&self->over, over);
  g_set_weak_pointer (&self->caller, caller);
  self->office = g_object_ref (office);
  self->server_id = g_strdup (server_id);
  self->kind = kind;
  self->host_key = g_strdup (host_key);
  self->mended = mended;
  self->servers = wb_server_list_new (office);
  g_signal_connect_swapped (self->servers, "notify::loaded", G_CALLBACK (servers_cb), self);
  servers_cb (self);
}
