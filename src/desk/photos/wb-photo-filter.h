/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which photos are shown: those of a piece, of a moment, of a handover. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Signal "changed": something else is to be shown. */
#define WB_TYPE_PHOTO_FILTER (wb_photo_filter_get_type ())
G_DECLARE_FINAL_TYPE (WbPhotoFilter, wb_photo_filter, WB, PHOTO_FILTER, GtkWidget)

GtkWidget  *wb_photo_filter_new        (WbJobModel    *model);

gboolean    wb_photo_filter_matches    (WbPhotoFilter *self,
                                        const WbPhoto *photo);
gboolean    wb_photo_filter_is_set     (WbPhotoFilter *self);
void        wb_photo_filter_clear      (WbPhotoFilter *self);
/** Returns: (nullable): id of the piece that is filtered for, when it is exactly one. */
const char *wb_photo_filter_get_piece  (WbPhotoFilter *self);
WbMoment    wb_photo_filter_get_moment (WbPhotoFilter *self);
/** @text: a tag as it is typed, or words */
void        wb_photo_filter_set_text   (WbPhotoFilter *self,
                                        const char    *text);
/** Follows a change of the job. */
void        wb_photo_filter_update     (WbPhotoFilter *self);

G_END_DECLS
