/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the camera wrote into a picture: when it was taken, how it was held, what took it. What is
 * absent, broken or cannot be is not known; nothing is guessed from another tag, the file's name or
 * its time. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * WbExif:
 * @taken_at: (nullable): DateTimeOriginal as "2026-03-04T09:30:00", local time by the camera
 * @taken_offset: (nullable): OffsetTimeOriginal as "+02:00"; only together with @taken_at
 * @camera: (nullable): make and model
 * @orientation: 1 to 8, or %WB_INTEGER_UNSET
 * @width: as the file says, in pixels, not turned; or %WB_INTEGER_UNSET
 * @height: likewise
 */
typedef struct
{
  char   *taken_at;
  char   *taken_offset;
  char   *camera;
  gint64  orientation;
  gint64  width;
  gint64  height;
} WbExif;

/** Reads the picture at @path; never fails: what cannot be read is not known. Any thread. */
void wb_exif_read  (const char *path,
                    WbExif     *out);
void wb_exif_clear (WbExif     *self);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (WbExif, wb_exif_clear)

G_END_DECLS
