/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the photo import share. */
#pragma once

#include "office/wb-photo-import.h"

G_BEGIN_DECLS

/** The longest side of a thumbnail, in pixels. */
#define WB_THUMBNAIL_SIDE 320

struct _WbPhotoSource
{
  GFile    *file;          /* or */
  GBytes   *bytes;
  char     *name;
  gboolean  in_folder;     /* nobody pointed at this very file */
  gint64    size;          /* bytes, for the progress */
};

WbPhotoResult *wb_photo_result_new       (const char      *name,
                                          WbPhotoOutcome   outcome);

/**
 * wb_photo_sources_walk:
 * @results: (element-type WbPhotoResult): gets what cannot be read
 *
 * Returns: (transfer full) (element-type WbPhotoSource): @sources with folders replaced by the
 * files in them, hidden ones and links left out; %NULL with %WB_PICTURE_ERROR_TOO_MANY.
 */
GPtrArray     *wb_photo_sources_walk     (GPtrArray       *sources,
                                          GPtrArray       *results,
                                          GCancellable    *cancellable,
                                          GError         **error) G_GNUC_WARN_UNUSED_RESULT;

/** Takes one file in; always gives a result. @folder: of the photo files */
WbPhotoResult *wb_photo_take_one         (const char      *folder,
                                          WbPhotoSource   *source,
                                          WbProgress      *progress,
                                          GCancellable    *cancellable) G_GNUC_WARN_UNUSED_RESULT;

/** Keeps @pixbuf, which is upright and of the right size, in the cache; a failure costs only time
 * later. */
void           wb_thumbnail_keep         (const char      *hash,
                                          GdkPixbuf       *pixbuf);

G_END_DECLS
