/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which kinds of pictures there are, and decoding them: scaled down while they are read, and turned
 * upright. Files are somebody else's; this sees bytes. */
#pragma once

#include <gdk-pixbuf/gdk-pixbuf.h>
#include <gio/gio.h>

G_BEGIN_DECLS

#define WB_PICTURE_ERROR (wb_picture_error_quark ())

/**
 * WbPictureError:
 * @WB_PICTURE_ERROR_UNKNOWN: not a picture of a kind that is taken in
 * @WB_PICTURE_ERROR_CUT_OFF: a picture that ends too early or is damaged
 * @WB_PICTURE_ERROR_TOO_LARGE: a file over the limit of size
 * @WB_PICTURE_ERROR_TOO_WIDE: a picture with more pixels than are decoded
 * @WB_PICTURE_ERROR_NOT_A_FILE: a device, a pipe or the like
 * @WB_PICTURE_ERROR_NO_DECODER: this computer cannot show pictures of that kind
 * @WB_PICTURE_ERROR_MISSING: the file of a photo is gone
 * @WB_PICTURE_ERROR_CHANGED: the file of a photo is not what was taken in
 * @WB_PICTURE_ERROR_TOO_MANY: more files at once than are taken in
 *
 * Every message names the file first.
 */
typedef enum
{
  WB_PICTURE_ERROR_UNKNOWN,
  WB_PICTURE_ERROR_CUT_OFF,
  WB_PICTURE_ERROR_TOO_LARGE,
  WB_PICTURE_ERROR_TOO_WIDE,
  WB_PICTURE_ERROR_NOT_A_FILE,
  WB_PICTURE_ERROR_NO_DECODER,
  WB_PICTURE_ERROR_MISSING,
  WB_PICTURE_ERROR_CHANGED,
  WB_PICTURE_ERROR_TOO_MANY,
} WbPictureError;

GQuark wb_picture_error_quark (void);

typedef enum
{
  WB_PICTURE_UNKNOWN,
  WB_PICTURE_JPEG,
  WB_PICTURE_PNG,
  WB_PICTURE_TIFF,
  WB_PICTURE_WEBP,
  WB_PICTURE_HEIC,
} WbPictureFormat;

/** Bytes at the start of a file that wb_picture_format() has to see. */
#define WB_PICTURE_HEAD 16

/** Pixels that are decoded at most: beyond it a file is a mistake or a trap. */
#define WB_PICTURE_MAX_PIXELS G_GINT64_CONSTANT (120000000)

/** Returns: the format by the first bytes of a file; its name does not count. */
WbPictureFormat wb_picture_format         (const guint8     *head,
                                           gsize             length);

/** Returns: (nullable): "image/jpeg" and so on; %NULL for %WB_PICTURE_UNKNOWN. */
const char     *wb_picture_media_type     (WbPictureFormat   format);
WbPictureFormat wb_picture_from_media_type (const char       *media_type);

/** Whether this computer can decode @format. JPEG, PNG and TIFF always; WebP and HEIC only where
 * somebody installed a loader for them. Such pictures are kept all the same. */
gboolean        wb_picture_can_decode     (WbPictureFormat   format);

/** WbPictureReader: a decoder that is fed bytes as they come. One thread at a time. */
typedef struct _WbPictureReader WbPictureReader;

/**
 * wb_picture_reader_new:
 * @format: one that can be decoded
 * @max_side: longest side of the result in pixels; the picture is never enlarged; 0 for its own
 *   size
 */
WbPictureReader *wb_picture_reader_new    (WbPictureFormat   format,
                                           int               max_side) G_GNUC_WARN_UNUSED_RESULT;
void             wb_picture_reader_free   (WbPictureReader  *self);

/** Takes some bytes. %FALSE with a %WB_PICTURE_ERROR (_CUT_OFF, _TOO_WIDE); the reader takes no
 * more then. */
gboolean         wb_picture_reader_feed   (WbPictureReader  *self,
                                           const guint8     *bytes,
                                           gsize             length,
                                           GError          **error);

/**
 * wb_picture_reader_finish:
 * @orientation: Exif orientation, 1 to 8; anything else leaves the picture as it is stored
 * @width: (out) (optional): of the picture as stored, in pixels
 * @height: (out) (optional): likewise
 *
 * Returns: (transfer full) (nullable): the picture, upright; %NULL with %WB_PICTURE_ERROR_CUT_OFF
 * when it was not whole.
 */
GdkPixbuf       *wb_picture_reader_finish (WbPictureReader  *self,
                                           gint64            orientation,
                                           int              *width,
                                           int              *height,
                                           GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/** As a reader that gets all of @bytes at once. */
GdkPixbuf       *wb_picture_decode        (GBytes           *bytes,
                                           int               max_side,
                                           gint64            orientation,
                                           GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): @pixbuf turned and mirrored as Exif orientation @orientation asks. */
GdkPixbuf       *wb_picture_upright       (GdkPixbuf        *pixbuf,
                                           gint64            orientation) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbPictureReader, wb_picture_reader_free)

G_END_DECLS
