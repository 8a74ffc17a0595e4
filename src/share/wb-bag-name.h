/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names of files in a bag: which ones are safe on every system that a bundle may come to, which
 * ones a file system could take for the same, and how they stand in a manifest. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/** Bytes of a whole name and of one part of it, and parts that it may have. */
#define WB_BAG_NAME_MAX_BYTES 1000
#define WB_BAG_NAME_MAX_PART  200
#define WB_BAG_NAME_MAX_PARTS 16

/**
 * wb_bag_name_check:
 * @name: as a source gives it; any bytes
 *
 * Checks that @name is UTF-8, relative, stays below its folder, and can be used on Linux, macOS and
 * Windows alike (RFC 8493, 5.1.1 and 6.1.2): no empty part, "." or "..", no backslash, colon or
 * wildcard, no control or invisible character, no blank or full stop at the end of a part, no name
 * that Windows keeps for a device, no "~" in front.
 *
 * Returns: %TRUE, or %FALSE with %WB_SHARE_ERROR_NAME
 */
gboolean wb_bag_name_check   (const char  *name,
                              GError     **error);

/** Returns: (transfer full): the same for two names that differ only by case or by how Unicode
 * composes their letters. @name has passed wb_bag_name_check(). */
char    *wb_bag_name_key     (const char  *name) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): @name with letters composed, as names are compared (RFC 8493,
 * 6.1.1.3). */
char    *wb_bag_name_normal  (const char  *name) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): @name as a manifest has it: CR, LF and % as %0D, %0A and %25 (RFC
 * 8493, 2.1.3). */
char    *wb_bag_name_encode  (const char  *name) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): the name that @text in a manifest means; %NULL when a % in
 * it stands for anything else than CR, LF or %. */
char    *wb_bag_name_decode  (const char  *text) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): @name for a person to read, whatever bytes it has: what cannot be seen
 * as "\x1b", at most some 200 bytes. */
char    *wb_bag_name_display (const char  *name) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
