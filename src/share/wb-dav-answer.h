/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads what a WebDAV server answers to PROPFIND (RFC 4918, 14.16). It comes from outside and
 * nothing in it is believed: no entities, nothing fetched, no name that a path could not have. */
#pragma once

#include "share/wb-remote-private.h"

G_BEGIN_DECLS

/**
 * wb_dav_answer_read:
 * @bytes: the body of the answer
 * @path: the path that was asked for, unescaped, from the "/" after the host on, without one at its
 *   end
 * @self: (out): what lies at @path; cleared by wb_remote_entry_clear()
 * @entries: (nullable): what lies in it is added here
 *
 * Returns: %TRUE, or %FALSE with %WB_SHARE_ERROR_PROTOCOL when it is no such answer, or does not
 * name @path; %WB_SHARE_ERROR_LIMIT for too many entries
 */
gboolean wb_dav_answer_read (const guint8   *bytes,
                             gsize           length,
                             const char     *path,
                             WbRemoteEntry  *self,
                             GPtrArray      *entries,
                             GError        **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
