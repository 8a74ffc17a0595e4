/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The questions about servers that only a person can answer: whether a key is the right one, whether
 * another is to take its place, and what the password is. They ask; what follows is the caller's. */
#pragma once

#include <adwaita.h>

#include "office/wb-server-settings.h"

G_BEGIN_DECLS

/** Asks whether a host key that nobody has confirmed is the right one. Returns: (transfer none): the
 * dialog, which is shown; its "response" is "trust" or "no" */
GtkWidget *wb_share_ask_host_key    (GtkWindow      *parent,
                                     const char     *fingerprint);
/** Returns: (transfer none): the fingerprint that was asked about. */
const char *wb_share_asked_host_key (GtkWidget      *dialog);

/** Asks whether the host key that was confirmed is to be forgotten. Returns: (transfer none): the
 * dialog, which is shown; its "response" is "forget" or "no" */
GtkWidget *wb_share_ask_forget_key  (GtkWindow      *parent,
                                     const WbServer *server);

/** Asks for the password, passphrase or secret key of a server. Returns: (transfer none): the dialog,
 * which is shown; its "response" is "sign-in" or "no" */
GtkWidget *wb_share_ask_secret      (GtkWindow      *parent,
                                     const WbServer *server);
/** Returns: (transfer full) (nullable): what was typed, once; %NULL for nothing. */
WbSecret  *wb_share_take_secret     (GtkWidget      *dialog) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer none): what the secret of a server of its kind is called. */
const char *wb_share_secret_title   (const WbServer *server);
/** Names the entry of a secret for a screen reader: as it comes, it calls itself a text box and hides
 * the one inside, which has the focus. */
void       wb_share_name_secret     (GtkWidget      *entry,
                                     const char     *title);
/** Before a window with a GtkPasswordEntry goes: the text inside may outlive the entry, and the toolkit
 * of 4.8 then tells the entry that is gone of what becomes of it. */
void       wb_share_quiet_secret    (GtkWidget      *entry);

G_END_DECLS
