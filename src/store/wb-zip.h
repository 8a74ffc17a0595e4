/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Packs bytes for the book and unpacks them. Private to the store. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/** Returns: (transfer full): @bytes packed with zlib. */
GBytes *wb_zip_pack   (GBytes        *bytes) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_zip_unpack:
 * @most: largest size that is unpacked; what says it is larger is taken for damage
 *
 * Returns: (transfer full) (nullable): what was packed, or %NULL when @bytes are not that.
 */
GBytes *wb_zip_unpack (gconstpointer  bytes,
                   gsize          length,
                   gsize          most) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
