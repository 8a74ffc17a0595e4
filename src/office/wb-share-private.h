/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the deeds on servers share: how one is reached, and how a deed of more than a few inputs runs
 * in a worker thread. */
#pragma once

#include "office/wb-office-private.h"
#include "share/wb-remote.h"
#include "share/wb-secret.h"

G_BEGIN_DECLS

/** One deed in its blocking form. Returns: (transfer full): its result, or %NULL with @error
 * set. */
typedef gpointer (*WbShareWork) (WbOffice      *office,
                                 gpointer       request,
                                 GCancellable  *cancellable,
                                 GError       **error);

/** Runs @work in a worker thread; wb_office_finish() with the same @tag gives its result. @request:
 * (transfer full) */
void      wb_share_run          (WbOffice            *self,
                                 WbShareWork          work,
                                 gpointer             request,
                                 GDestroyNotify       free_request,
                                 GDestroyNotify       free_result,
                                 gpointer             tag,
                                 GCancellable        *cancellable,
                                 GAsyncReadyCallback  callback,
                                 gpointer             data);

/** Returns: (transfer full): the file of confirmed host keys. */
char     *wb_share_known_hosts  (void) G_GNUC_WARN_UNUSED_RESULT;

/** Opens @server. @secret: (nullable): the one to use; %NULL for the one that is kept. %NULL with
 * %WB_SHARE_ERROR_LOGIN when one is needed and there is none. */
WbRemote *wb_share_open         (const WbServer      *server,
                                 WbSecret            *secret,
                                 const char          *confirmed_key,
                                 GCancellable        *cancellable,
                                 GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): the last fingerprint "SHA256:…" in @text. */
char     *wb_share_fingerprint_in (const char       *text) G_GNUC_WARN_UNUSED_RESULT;

/** Tells whoever listens that servers were added, changed or removed; from any thread. */
void         wb_office_emit_servers_changed (WbOffice *self);

G_END_DECLS
