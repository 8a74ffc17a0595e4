/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The server that a test driver started, as it names it in the environment; remotes.py writes it:
 * WB_SERVER_KIND, _ADDRESS, _USER, _SECRET, _BUCKET, _REGION, _AUTHORITY, _KEY_FILE, and of the
 * place _KNOWN_HOSTS, _HOST_KEY (the confirmed one), _CONNECT_SECONDS, _STALL_SECONDS. */
#pragma once

#include "share/wb-remote.h"

G_BEGIN_DECLS

/** @below: (nullable): a folder below the address. Returns: (transfer full) (nullable) */
WbRemote *remote_from_environment (const char  *below,
                                   GError     **error);

G_END_DECLS
