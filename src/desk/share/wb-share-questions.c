/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Message dialogs, each with what was asked about as data of it. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-share-questions.h"

#include <glib/gi18n.h>

static GtkWidget *
show (GtkWidget  *dialog,
      const char *default_response)
{
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), default_response);
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "no");
  gtk_window_present (GTK_WINDOW (dialog));
  return dialog;
}

/* Nobody has seen this server's key before: whoever set it up knows the right one. */
GtkWidget *
wb_share_ask_host_key (GtkWindow  *parent,
                       const char *fingerprint)
{
  /* Translators: %s is the fingerprint of a key, "SHA256:…". */
  g_autofree char *body = g_strdup_printf (_("The server shows a key that nobody here has confirmed "
                                             "yet:\n\n%s\n\nAsk whoever runs the server whether "
                                             "this is its fingerprint. It is asked for only once."),
                                           fingerprint);
  GtkWidget *dialog = adw_message_dialog_new (parent, _("Is This the Right Server?"), body);

  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "no", _("_No"), "trust",
                                    _("_It Is the Right One"), NULL);
  g_object_set_data_full (G_OBJECT (dialog), "fingerprint", g_strdup (fingerprint), g_free);
  return show (dialog, "no");
}

const char *
wb_share_asked_host_key (GtkWidget *dialog)
{
  g_return_val_if_fail (ADW_IS_MESSAGE_DIALOG (dialog), NULL);

  return g_object_get_data (G_OBJECT (dialog), "fingerprint");
}

GtkWidget *
wb_share_ask_forget_key (GtkWindow      *parent,
                         const WbServer *server)
{
  /* Translators: %s is the address of a server. */
  g_autofree char *body = g_strdup_printf (_("%s shows another key than the one that was confirmed. "
                                             "Either its key was renewed, or another computer "
                                             "stands in its place and would get your password.\n\n"
                                             "Forget the old key only if whoever runs the server "
                                             "says that it was renewed. You are then asked to "
                                             "confirm the new one."),
                                           server->address);
  GtkWidget *dialog = adw_message_dialog_new (parent, _("Forget the Confirmed Key?"), body);

  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "no", _("_Keep It"), "forget",
                                    _("_Forget It"), NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "forget",
                                              ADW_RESPONSE_DESTRUCTIVE);
  return show (dialog, "no");
}

/* --- secrets ---------------------------------------------------------------------------------- */

const char *
wb_share_secret_title (const WbServer *server)
{
  if (server->kind == WB_SERVER_S3)
    return _("Secret access key");
  if (server->kind == WB_SERVER_SFTP)
    return _("Password, or passphrase of the key file");
  return _("Password");
}

void
wb_share_name_secret (GtkWidget  *entry,
                      const char *title)
{
  GtkEditable *text = gtk_editable_get_delegate (GTK_EDITABLE (entry));

  if (gtk_accessible_get_accessible_role (GTK_ACCESSIBLE (entry)) != GTK_ACCESSIBLE_ROLE_GROUP)
    {
      g_object_set (entry, "accessible-role", GTK_ACCESSIBLE_ROLE_GROUP, NULL);
      g_object_set (text, "accessible-role", GTK_ACCESSIBLE_ROLE_TEXT_BOX, NULL);
    }
  gtk_accessible_update_property (GTK_ACCESSIBLE (text), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
}

void
wb_share_quiet_secret (GtkWidget *entry)
{
  GtkEditable *text = gtk_editable_get_delegate (GTK_EDITABLE (entry));

  if (text != NULL)
    g_signal_handlers_disconnect_by_data (text, entry);
}

/* All that is in the dialog is gone before its answer comes. */
static gboolean
closing_cb (GtkWidget *dialog,
            GtkWidget *entry)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (entry));

  if (*text != '\0')
    g_object_set_data_full (G_OBJECT (dialog), "secret", wb_secret_new (text, -1),
                            (GDestroyNotify) wb_secret_unref);
  gtk_editable_set_text (GTK_EDITABLE (entry), "");
  wb_share_quiet_secret (entry);
  return FALSE;
}

GtkWidget *
wb_share_ask_secret (GtkWindow      *parent,
                     const WbServer *server)
{
  /* Translators: %s is what the office calls a server. */
  g_autofree char *heading = g_strdup_printf (_("Sign in to “%s”"), server->name);
  GtkWidget *dialog = adw_message_dialog_new (parent, heading, NULL);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *title = gtk_label_new (wb_share_secret_title (server));
  GtkWidget *entry = gtk_password_entry_new ();

  adw_message_dialog_format_body (ADW_MESSAGE_DIALOG (dialog),
                                  /* Translators: a user name, and the address of a server. */
                                  _("As %s at %s. It is kept by the desktop’s secret service, or "
                                    "until Wainbook ends where there is none."),
                                  server->user != NULL ? server->user : "", server->address);
  wb_share_name_secret (entry, wb_share_secret_title (server));
  g_object_set (entry, "activates-default", TRUE, NULL);
  g_signal_connect_object (dialog, "close-request", G_CALLBACK (closing_cb), entry, 0);
  gtk_label_set_xalign (GTK_LABEL (title), 0);
  gtk_label_set_wrap (GTK_LABEL (title), TRUE);
  gtk_box_append (GTK_BOX (box), title);
  gtk_box_append (GTK_BOX (box), entry);
  adw_message_dialog_set_extra_child (ADW_MESSAGE_DIALOG (dialog), box);
  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "no", _("_Cancel"), "sign-in",
                                    _("_Sign In"), NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "sign-in",
                                              ADW_RESPONSE_SUGGESTED);
  show (dialog, "sign-in");
  gtk_widget_grab_focus (entry);
  return dialog;
}

WbSecret *
wb_share_take_secret (GtkWidget *dialog)
{
  g_return_val_if_fail (ADW_IS_MESSAGE_DIALOG (dialog), NULL);

  return g_object_steal_data (G_OBJECT (dialog), "secret");
}
