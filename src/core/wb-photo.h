/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/* What a photo's record has to look like beyond its single fields, and what its orientation means.
 * The picture itself is not touched here. */

/** Length of a hash: SHA-256 in hexadecimal. */
#define WB_PHOTO_HASH_LENGTH 64

/** Whether @hash (nullable) is 64 lower-case hexadecimal digits; nothing else may become a part
 * of a file's name. */
gboolean    wb_photo_hash_is_valid   (const char    *hash);

/** Whether @text (nullable) is a moment that can be: "2026-03-04T09:30:00", with @utc followed by
 * "Z". Years from 1900; no leap seconds. */
gboolean    wb_photo_time_is_valid   (const char    *text,
                                      gboolean       utc);

/** Whether @text (nullable) is an offset from UTC: "+02:00", "-03:30"; at most 14 hours. */
gboolean    wb_photo_offset_is_valid (const char    *text);

/** Checks hash, orientation, times and offset. %FALSE with %WB_CORE_ERROR_RANGE that names kind, id
 * and field; wb_job_check() calls it. */
gboolean    wb_photo_check           (const WbPhoto *photo,
                                      GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** Whether an Exif orientation lays the stored picture on its side, so that width and height change
 * places. Anything but 5 … 8 does not. */
gboolean    wb_photo_is_turned       (gint64         orientation);

/** Returns: how many of the job's photos show @piece: their own piece or a pin's. */
guint       wb_photo_count_of_piece  (const WbJob   *job,
                                      const char    *piece);

/** Whether @photo shows @piece (an id): it is the photo's own, or one of its pins says so. */
gboolean    wb_photo_shows_piece     (const WbJob   *job,
                                      const WbPhoto *photo,
                                      const char    *piece);

/** Returns: (transfer none) (nullable): the photo of @job with that hash. */
const WbPhoto *wb_photo_with_hash    (const WbJob   *job,
                                      const char    *hash);

G_END_DECLS
