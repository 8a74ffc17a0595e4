/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changes to the photos of a job, each a new job; no widget and no file. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/**
 * wb_photos_set:
 * @ids: (element-type utf8): of photos
 * @field: name of a field; for "piece" the text is a tag as it is typed
 *
 * Returns: (transfer full) (nullable): the job in which all of them have it; %NULL with a
 * %WB_CORE_ERROR.
 */
WbJob   *wb_photos_set      (WbJob       *job,
                             GPtrArray   *ids,
                             const char  *field,
                             const char  *text,
                             GError     **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the text that all of them have in that field, as wb_photos_set() takes
 * it; "" when they differ. @same: (out): whether they do not. */
char    *wb_photos_get      (WbJob       *job,
                             GPtrArray   *ids,
                             const char  *field,
                             gboolean    *same) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the job with one more pin; @id: the pin's. @x and @y: hundredths of a
 * percent. */
WbJob   *wb_photos_add_pin  (WbJob       *job,
                             const char  *photo,
                             const char  *id,
                             gint64       x,
                             gint64       y) G_GNUC_WARN_UNUSED_RESULT;

/** Sets the piece of one pin to the one with the tag @text, or none. */
WbJob   *wb_photos_set_pin_piece (WbJob       *job,
                                  const char  *pin,
                                  const char  *text,
                                  GError     **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): what a person types for the piece with id @piece (nullable): its tag,
 * with its lot where it has one. */
char    *wb_photos_tag_text (const WbJob *job,
                             const char  *piece) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (element-type WbPhoto): the photos of one piece at its origin
 * (@delivery %FALSE: packing, origin) or from delivery on; they belong to @job. */
GPtrArray *wb_photos_of     (const WbJob *job,
                             const char  *piece,
                             gboolean     delivery) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): what a photo is called: its caption, else its name. */
char    *wb_photos_title    (const WbPhoto *photo) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
