/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The pictures of a job's photos: thumbnails, whole pictures, and whether the files are still what
 * was taken in. Every function blocks on disk and decoder and is for a worker thread. */
#pragma once

#include "office/wb-office.h"
#include "store/wb-picture.h"

G_BEGIN_DECLS

/** Longest side of a whole picture as it is shown, in pixels. */
#define WB_PICTURE_SHOWN_SIDE 4096

/**
 * wb_office_load_thumbnail:
 *
 * From the cache folder of the user when it is there and good; else made from the file, whose hash
 * is compared, and kept there.
 *
 * Returns: (transfer full) (nullable): upright, its longest side 320 pixels at most; %NULL with
 * %WB_PICTURE_ERROR_MISSING, _CHANGED, _CUT_OFF, _NO_DECODER, or %G_IO_ERROR.
 */
GdkPixbuf *wb_office_load_thumbnail (WbOffice       *self,
                                     const WbPhoto  *photo,
                                     GCancellable   *cancellable,
                                     GError        **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): the picture, upright, at most %WB_PICTURE_SHOWN_SIDE pixels
 * long; errors as above. */
GdkPixbuf *wb_office_load_picture   (WbOffice       *self,
                                     const WbPhoto  *photo,
                                     GCancellable   *cancellable,
                                     GError        **error) G_GNUC_WARN_UNUSED_RESULT;

/** Whether the file of @photo is there and, with @whole, has the hash that it had when it was taken
 * in. Errors as above. */
gboolean   wb_office_check_photo    (WbOffice       *self,
                                     const WbPhoto  *photo,
                                     gboolean        whole,
                                     GCancellable   *cancellable,
                                     GError        **error);

/** Returns: (transfer full) (nullable): where the file of @photo is; %NULL when its hash is
 * none. */
char      *wb_office_photo_path     (WbOffice       *self,
                                     const WbPhoto  *photo) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (element-type filename) (nullable): files in the photo folder that no
 * job of the book uses. Reads every job. */
GPtrArray *wb_office_unused_photos  (WbOffice       *self,
                                     GCancellable   *cancellable,
                                     GError        **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "4 Mar 2026, 09:30" and the offset of the camera's clock when it is
 * known; “not known” when the camera wrote none that can be. */
char      *wb_words_photo_taken     (const WbPhoto  *photo) G_GNUC_WARN_UNUSED_RESULT;
/** As wb_words_photo_taken(), without the offset: where there is little room. */
char      *wb_words_photo_taken_short (const WbPhoto *photo) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): when the office took it in, in the zone of this computer. */
char      *wb_words_photo_imported  (const WbPhoto  *photo) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
