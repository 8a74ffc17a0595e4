/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a person can do about a server that does not go on: sign in, confirm its key, look at its
 * settings. */
#pragma once

#include <gtk/gtk.h>

#include "office/wb-queue.h"

G_BEGIN_DECLS

/** Called when what went wrong may be tried again. */
typedef void (*WbMendedFunc) (GObject *caller);

/** Returns: (transfer none): what the button says that mends @kind; "Try Again" where trying is all
 * there is. */
const char *wb_share_mend_label (WbQueueFault  kind);

/**
 * wb_share_mend:
 * @over: the window that asks
 * @kind: not a conflict, which is merged
 * @host_key: (nullable): fingerprint that is to be confirmed, of %WB_QUEUE_FAULT_HOST_KEY
 * @caller: given to @mended, unless it has gone by then
 *
 * Asks what is to be asked, does what follows, and then calls @mended; a person who gives up ends it.
 */
void        wb_share_mend       (GtkWindow    *over,
                                 WbOffice     *office,
                                 const char   *server_id,
                                 WbQueueFault  kind,
                                 const char   *host_key,
                                 WbMendedFunc  mended,
                                 GObject      *caller);

G_END_DECLS
