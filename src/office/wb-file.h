/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole files in and out: never more than expected, never half of one. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/**
 * wb_file_read:
 * @max: most bytes to take
 *
 * Returns: (transfer full) (nullable): the bytes of @file, or %NULL with a %G_IO_ERROR;
 * %G_IO_ERROR_INVALID_DATA when there are more than @max.
 */
GBytes   *wb_file_read  (GFile         *file,
                         gsize          max,
                         GCancellable  *cancellable,
                         GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_file_write:
 * @replace: whether a file of that name may be replaced
 *
 * Writes @bytes under another name beside it and renames that, so that @path is either as it was
 * or whole.
 * Returns: %TRUE, or %FALSE with a %G_IO_ERROR; %G_IO_ERROR_EXISTS when the file is there and may
 * not be replaced.
 */
gboolean  wb_file_write (const char    *path,
                         GBytes        *bytes,
                         gboolean       replace,
                         GError       **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
