/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One line of a listing as servers of SFTP write it. The form is a recommendation and meant for
 * people (draft-ietf-secsh-filexfer-02, 7: "longname"), so only what can be read without a
 * doubt is. */
#pragma once

#include "share/wb-remote.h"

G_BEGIN_DECLS

/**
 * wb_sftp_line_read:
 * @line: (array length=length): without the line break; any bytes
 * @entry: (out): name and size; its time is not taken, for it has no time zone. Untouched on
 *   failure
 *
 * Reads "-rw-r--r--    1 owner group   348911 Mar 25 14:29 name". The size is -1 when it cannot be
 * found. Links, devices, and names with blanks are none of ours.
 *
 * Returns: whether the line is of a file or a folder with a name that a path may have
 */
gboolean wb_sftp_line_read (const char     *line,
                            gsize           length,
                            WbRemoteEntry  *entry);

G_END_DECLS
