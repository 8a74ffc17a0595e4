/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The files of photos, in a folder beside the book: "BOOK.photos/ab/abcdef…", each named by the
 * SHA-256 of what is in it, so that the same picture is there once however often it is taken in.
 * A file is written under another name and put in place when it is whole. Nothing is ever removed
 * here: an undo may want it back. Any thread. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/** Bytes that one photo may have. */
#define WB_PHOTO_MAX_BYTES (G_GINT64_CONSTANT (256) * 1024 * 1024)

/** Returns: (transfer full): the folder of the book at @book. It need not be there yet. */
char       *wb_photo_store_folder  (const char     *book) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): where the file with @hash is or would be; %NULL when @hash
 * is not a hash. */
char       *wb_photo_store_path    (const char     *folder,
                                    const char     *hash) G_GNUC_WARN_UNUSED_RESULT;

/** WbPhotoIntake: one file on its way into the folder. */
typedef struct _WbPhotoIntake WbPhotoIntake;

/** Starts one, making the folder if need be. %NULL with a %G_IO_ERROR that names the file or
 * folder. */
WbPhotoIntake *wb_photo_intake_begin    (const char     *folder,
                                         GError        **error) G_GNUC_WARN_UNUSED_RESULT;

/** Adds bytes. %FALSE with a %G_IO_ERROR, or %WB_PICTURE_ERROR_TOO_LARGE beyond
 * %WB_PHOTO_MAX_BYTES. */
gboolean       wb_photo_intake_write    (WbPhotoIntake  *self,
                                         const guint8   *bytes,
                                         gsize           length,
                                         GError        **error);

/** Returns: (transfer none): where the bytes are until they are kept. */
const char    *wb_photo_intake_get_path (WbPhotoIntake  *self);
gint64         wb_photo_intake_get_size (WbPhotoIntake  *self);

/**
 * wb_photo_intake_keep:
 *
 * Waits until the bytes are on the disk and puts the file in place. One that is there already
 * stays, unless what is in it is not what its name says: then the good one takes its place.
 *
 * Returns: (transfer full) (nullable): the hash; %NULL with a %G_IO_ERROR, and nothing is in
 * place.
 */
char          *wb_photo_intake_keep     (WbPhotoIntake  *self,
                                         GError        **error) G_GNUC_WARN_UNUSED_RESULT;

/** Drops what was not kept. */
void           wb_photo_intake_free     (WbPhotoIntake  *self);

/**
 * wb_photo_store_check:
 * @size: bytes that the file should have, or negative when that is not known
 * @whole: read it through and compare its hash; else only look whether it is there, may be read and
 *   has its size
 *
 * Returns: %TRUE when the file is what was taken in; else %FALSE with %WB_PICTURE_ERROR_MISSING,
 * _CHANGED, another %G_IO_ERROR when it cannot be read, or %G_IO_ERROR_CANCELLED.
 */
gboolean       wb_photo_store_check     (const char     *folder,
                                         const char     *hash,
                                         gint64          size,
                                         gboolean        whole,
                                         GCancellable   *cancellable,
                                         GError        **error);

/** Reads a whole file and compares its hash. Errors as wb_photo_store_check(). */
GBytes        *wb_photo_store_read      (const char     *folder,
                                         const char     *hash,
                                         GCancellable   *cancellable,
                                         GError        **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (element-type filename) (nullable): what is in the folder and not in
 * @used (element-type utf8: a set of hashes), leftovers of an interrupted intake included; empty
 * when there is no folder. */
GPtrArray     *wb_photo_store_unused    (const char     *folder,
                                         GHashTable     *used,
                                         GError        **error) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbPhotoIntake, wb_photo_intake_free)

G_END_DECLS
