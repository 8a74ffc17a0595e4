/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Host keys of SSH servers that a person has confirmed, in a known_hosts file of ours, written
 * as OpenSSH writes its own (sshd(8), "SSH_KNOWN_HOSTS FILE FORMAT"). Nothing is asked of a
 * server here, and the file of the person who is logged in to this computer is left alone. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/**
 * WbHostKeyState:
 * @WB_HOST_KEY_KNOWN: it was confirmed
 * @WB_HOST_KEY_UNKNOWN: no key of the server was
 * @WB_HOST_KEY_CHANGED: only other keys of the server were
 */
typedef enum
{
  WB_HOST_KEY_KNOWN,
  WB_HOST_KEY_UNKNOWN,
  WB_HOST_KEY_CHANGED,
} WbHostKeyState;

/** Largest known_hosts file that is read, in bytes, and largest key. */
#define WB_HOST_KEY_MAX_FILE (1024 * 1024)
#define WB_HOST_KEY_MAX_KEY  8192

/** Returns: (transfer full): the fingerprint of @key as OpenSSH prints it: "SHA256:" and 43 letters.
 * @key: as SSH sends it (RFC 4253, 6.6) */
char          *wb_host_key_fingerprint (const guint8  *key,
                                        gsize          length) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): the kind that @key says it is, such as "ssh-ed25519"; %NULL
 * when it is no key. */
char          *wb_host_key_kind        (const guint8  *key,
                                        gsize          length) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: what @text, the content of a known_hosts file, says of @key. Lines that are not
 * understood count for nothing: comments, hashed names, markers. */
WbHostKeyState wb_host_key_state       (const char    *text,
                                        const char    *host,
                                        guint          port,
                                        const guint8  *key,
                                        gsize          length);

/**
 * wb_host_key_check:
 * @file: (nullable): path of the known_hosts file, which need not be there; %NULL keeps nothing
 * @confirmed: (nullable): fingerprint that a person has confirmed just now
 *
 * Whether the server at @host has a key that was confirmed. An unknown one with the fingerprint
 * @confirmed is put into @file, whose folder is made if need be. A changed one is never taken: it
 * has to be forgotten first.
 *
 * Returns: %TRUE; or %FALSE with %WB_SHARE_ERROR_HOST_KEY_UNKNOWN or _HOST_KEY_CHANGED, whose
 *   messages end in the fingerprint of @key, %WB_SHARE_ERROR_PROTOCOL when it is no key, or a
 *   %G_IO_ERROR
 */
gboolean       wb_host_key_check       (const char    *file,
                                        const char    *host,
                                        guint          port,
                                        const guint8  *key,
                                        gsize          length,
                                        const char    *confirmed,
                                        GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** Takes the keys of the server out of @file. Returns: %TRUE, also when there were none; or
 * %FALSE with a %G_IO_ERROR. */
gboolean       wb_host_key_forget      (const char    *file,
                                        const char    *host,
                                        guint          port,
                                        GError       **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
