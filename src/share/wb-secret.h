/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Passwords and keys of servers: in memory for as short as can be, and kept by the desktop's secret
 * service under the id of the server, never in a file of ours. Everything that asks the service
 * blocks, also while a person is asked to unlock it. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/**
 * WbSecret: a text in memory that is locked against being paged out, left out of core dumps and
 * wiped when it is let go. While there is any, the process as a whole makes no core dump, since the
 * libraries that it is handed to make copies.
 */
typedef struct _WbSecret WbSecret;

/** @length: bytes, or -1 when @text ends in NUL. @text stays the caller's to wipe. Returns: (transfer
 * full) */
WbSecret   *wb_secret_new    (const char    *text,
                              gssize         length) G_GNUC_WARN_UNUSED_RESULT;
WbSecret   *wb_secret_ref    (WbSecret      *self);
void        wb_secret_unref  (WbSecret      *self);

/** Returns: (transfer none): the text, valid as long as @self; "" is one. @self: (nullable): gives
 * %NULL */
const char *wb_secret_get    (WbSecret      *self);

/** Overwrites the bytes of @text, in a way that no compiler leaves out. @text: (nullable) */
void        wb_secret_wipe   (char          *text,
                              gsize          length);

/**
 * WbSecretPlace: where a secret is kept
 * @WB_SECRET_SERVICE: by the desktop, for good
 * @WB_SECRET_SESSION: by this program, until it ends: there is no secret service, or it does not work
 */
typedef enum
{
  WB_SECRET_SERVICE,
  WB_SECRET_SESSION,
} WbSecretPlace;

/**
 * wb_secret_keep:
 * @server_id: of the server
 * @label: what a person calls it, for the list of the desktop
 * @place: (out) (optional): where it is now
 *
 * Keeps a secret in place of the one before.
 *
 * Returns: %TRUE, or %FALSE with %G_IO_ERROR_CANCELLED
 */
gboolean    wb_secret_keep   (const char     *server_id,
                              const char     *label,
                              WbSecret       *secret,
                              WbSecretPlace  *place,
                              GCancellable   *cancellable,
                              GError        **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_secret_find:
 *
 * Returns: (transfer full) (nullable): the secret of that server; %NULL when none is kept, which is
 *   also so when the service does not answer, and then with @error set only for
 *   %G_IO_ERROR_CANCELLED.
 */
WbSecret   *wb_secret_find   (const char     *server_id,
                              GCancellable   *cancellable,
                              GError        **error) G_GNUC_WARN_UNUSED_RESULT;

/** Forgets the secret of a server, wherever it is. %FALSE with %G_IO_ERROR_CANCELLED, or with the
 * service's error when that keeps one and does not let go of it. */
gboolean    wb_secret_forget (const char     *server_id,
                              GCancellable   *cancellable,
                              GError        **error) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbSecret, wb_secret_unref)

G_END_DECLS
